package picture

import (
	"sockwright/internal/draw"
	"sockwright/internal/grade"
	"sockwright/internal/sock"
)

// A frame is where an outline is drawn, in the drawing's millimetres.
type frame struct {
	w           float64 // of the drawing
	room        float64 // for the sock, in width
	top, height float64
}

// outline is the shape of a sock seen from its side, in the drawing's millimetres: the foot
// points to the left, the back of the leg is on the right.
type outline struct {
	left, right, top  float64 // of the leg at the ankle, and its upper edge
	calf              float64 // how much wider the leg is at the top; 0 for a straight leg
	straight, shaped  float64 // heights between which the leg narrows to the ankle
	cuff, ankle, sole float64 // heights: lower edge of the cuff, top of the heel, sole
	instep, bend      float64 // where the upper edge of the foot ends: x, and how far above the ankle the leg begins
	tip, toe          float64 // x of the tip of the toe, and of where the toe begins
	heel              float64 // how far the heel reaches down the back
}

func newOutline(d *sock.Draft, plan *grade.Plan, size int, f frame) *outline {
	mm := map[string]float64{}
	for _, m := range d.Measures(plan) {
		if m.Size == size {
			mm[m.Key] = m.Value.MM()
		}
	}
	legWidth, foot, leg := mm["leg.girth"]/2, mm["foot.length"], mm["leg.length"]
	calf := max(0, mm["calf.girth"]/2-legWidth)
	footHeight := mm["foot.girth"] / 2
	ahead := max(foot, legWidth+calf/2) // of the back of the leg
	scale := min((f.height-6)/(leg+footHeight), f.room/(ahead+calf/2+8))
	o := &outline{top: f.top + 4, calf: calf * scale}
	if calf > 0 {
		o.top += 4 // for its dimension
	}
	o.right = (f.w+(ahead-calf/2)*scale)/2 - 8
	o.left = o.right - legWidth*scale
	o.tip = o.right - foot*scale
	o.cuff = o.top + mm["cuff.length"]*scale
	o.ankle = o.top + leg*scale
	o.sole = o.ankle + footHeight*scale
	o.heel = min(mm["heel.depth"]*scale, footHeight*scale)
	o.straight, o.shaped = o.cuff, o.cuff
	if calf > 0 {
		all, over := float64(plan.Of("leg.rounds", size)), float64(plan.Of("calf.rounds", size))
		o.straight += (o.ankle - o.cuff) * (all - over) / 2 / all
		o.shaped = o.straight + (o.ankle-o.cuff)*over/all
	}
	o.bend = min(6, o.ankle-o.shaped)
	toe := foot - mm["foot.to_toe"]
	if mm["foot.to_toe"] == 0 {
		toe = foot / 5
	}
	o.toe = o.tip + toe*scale
	o.instep = max(o.left-footHeight*scale*0.35, min(o.toe, o.left))
	return o
}

// wider is how much wider the leg is at a height than at the ankle; front and back are its two
// sides there.
func (o *outline) wider(y float64) float64 {
	if o.shaped == o.straight {
		return 0
	}
	return o.calf * min(1, max(0, (o.shaped-y)/(o.shaped-o.straight)))
}

func (o *outline) front(y float64) float64 { return o.left - o.wider(y)/2 }
func (o *outline) back(y float64) float64  { return o.right + o.wider(y)/2 }

// upper is the height of the upper edge of the foot, which lies a little below the ankle.
func (o *outline) upper() float64 { return o.ankle + 1.2 }

func (o *outline) draw(out *draw.Drawing, letter map[string]string) {
	none := draw.Pen{}
	part := func(label, ink string, p *draw.Path) {
		out.Group(label, func() { out.Path(p, draw.Ink{Name: ink, Cover: 0.3}, none) })
	}
	r := (o.sole - o.ankle) * 0.45 // of the heel's curve
	h := (o.sole - o.ankle) * 0.5
	turn := o.left + (o.right-o.left)*0.35 // where the heel ends on the sole

	part("Cuff", "part-orange", new(draw.Path).Move(o.front(o.top), o.top).Line(o.back(o.top), o.top).Line(o.back(o.cuff), o.cuff).Line(o.front(o.cuff), o.cuff).Close())
	part("Leg", "part-sky", new(draw.Path).Move(o.front(o.cuff), o.cuff).Line(o.back(o.cuff), o.cuff).Line(o.back(o.straight), o.straight).Line(o.right, o.shaped).Line(o.right, o.ankle).
		Line(o.left, o.ankle).Line(o.left, o.shaped).Line(o.front(o.straight), o.straight).Close())
	part("Heel", "part-green", new(draw.Path).Move(o.right, o.ankle).Line(o.right, o.sole-r).Curve(o.right, o.sole-r/3, o.right-r/3, o.sole, o.right-r, o.sole).Line(turn, o.sole).Close())
	part("Foot", "part-blue", new(draw.Path).Move(o.left, o.ankle).Line(o.right, o.ankle).Line(turn, o.sole).Line(o.toe, o.sole).Line(o.toe, o.upper()).Line(o.instep, o.upper()).
		Curve(o.left-1, o.upper(), o.left, o.ankle-1, o.left, o.ankle-o.bend).Close())
	part("Toe", "part-vermilion", new(draw.Path).Move(o.toe, o.upper()).Curve(o.tip+h*0.35, o.upper(), o.tip, o.ankle+h*0.55, o.tip, o.ankle+h).Curve(o.tip, o.sole-h*0.45, o.tip+h*0.35, o.sole, o.toe, o.sole).Close())

	out.Path(new(draw.Path).Move(o.front(o.top), o.top).Line(o.back(o.top), o.top).Line(o.back(o.straight), o.straight).Line(o.right, o.shaped).Line(o.right, o.sole-r).
		Curve(o.right, o.sole-r/3, o.right-r/3, o.sole, o.right-r, o.sole).Line(o.toe, o.sole).
		Curve(o.tip+h*0.35, o.sole, o.tip, o.sole-h*0.45, o.tip, o.ankle+h).Curve(o.tip, o.ankle+h*0.55, o.tip+h*0.35, o.upper(), o.toe, o.upper()).
		Line(o.instep, o.upper()).Curve(o.left-1, o.upper(), o.left, o.ankle-1, o.left, o.ankle-o.bend).Line(o.left, o.shaped).Line(o.front(o.straight), o.straight).Close(),
		draw.Ink{}, draw.Line("ink", draw.Outline))
	thin := draw.Line("ink", draw.Detail)
	out.Line(o.front(o.cuff), o.cuff, o.back(o.cuff), o.cuff, thin)
	for x := o.front(o.top) + 1.6; x < o.back(o.top)-0.8; x += 1.6 {
		out.Line(x, o.top+0.8, x, o.cuff-0.8, draw.Line("pencil", draw.Grid))
	}
	out.Line(o.toe, o.upper(), o.toe, o.sole, thin)
	out.Line(o.right, o.ankle, turn, o.sole, draw.Pen{Ink: draw.Of("ink"), Width: draw.Detail, Dash: 1.2})

	labels, lines := o.places(letter)
	for _, l := range labels {
		l.draw(out)
	}
	for _, d := range lines {
		d.draw(out)
	}
}

package picture

import (
	"fmt"
	"strings"

	"sockwright/internal/draw"
	"sockwright/internal/grade"
	"sockwright/internal/sock"
	"sockwright/internal/unit"
)

// A dimension is one measure of the schematic: its letter, what it is, and its length in every
// size.
type dimension struct {
	letter, label string
	values        []unit.Length
}

// measures are the dimensions that a sock may have, in the order of their letters.
var measures = []struct{ key, label string }{
	{"leg.girth", "Leg, around"},
	{"calf.girth", "Calf, around"},
	{"leg.length", "Leg, edge to heel"},
	{"cuff.length", "Cuff"},
	{"heel.depth", "Heel, depth"},
	{"foot.girth", "Foot, around"},
	{"foot.length", "Foot, length"},
}

// AllSizes stands for no size in particular.
const AllSizes = -1

// Schematic draws the outline of a sock with letters for its finished measurements, and a
// table of them in every size, or in one size counted from 0. The outline has the
// proportions of that size, or of the middle one.
func Schematic(d *sock.Draft, plan *grade.Plan, alone int) *draw.Drawing {
	values := map[string][]unit.Length{}
	names := d.Names()
	for _, m := range d.Measures(plan) {
		if alone == AllSizes || m.Size == alone {
			values[m.Key] = append(values[m.Key], m.Value)
		}
	}
	title := d.Title
	if alone != AllSizes {
		names = names[alone : alone+1]
		title += ", size " + names[0]
	}
	var dims []dimension
	letter := map[string]string{}
	for _, m := range measures {
		if v := values[m.key]; v != nil {
			letter[m.key] = string(rune('A' + len(dims)))
			dims = append(dims, dimension{letter[m.key], m.label, v})
		}
	}
	const rowHeight, labelWidth, top, picture = 7.6, 44.0, 12.0, 112.0
	column := 24.0
	if len(names) > 5 {
		column = 20
	}
	w := max(170, labelWidth+column*float64(len(names))+16)
	h := top + picture + 14 + rowHeight*float64(len(dims)+1) + 8
	out := draw.New(w, h, title+": schematic", describe(names, dims))
	out.Bold(8, 9, 5, draw.Start, "ink", title)
	o := newOutline(values, len(names)/2, w, top, picture)
	o.draw(out, letter)
	table(out, names, dims, 8, top+picture+14, labelWidth, column, rowHeight)
	return out
}

// describe is the drawing in words, for those who do not see it.
func describe(names []string, dims []dimension) string {
	var b strings.Builder
	fmt.Fprintf(&b, "Outline of the sock, cuff at the top and toe to the left, with its finished measurements. ")
	for _, m := range dims {
		fmt.Fprintf(&b, "%s, %s: ", m.letter, strings.ToLower(m.label[:1])+m.label[1:])
		for i, v := range m.values {
			if i > 0 {
				b.WriteString(", ")
			}
			if len(names) > 1 {
				b.WriteString(names[i] + " ")
			}
			b.WriteString(v.Inches() + " in [" + v.Centimetres() + " cm]")
		}
		b.WriteString(". ")
	}
	return strings.TrimSpace(b.String())
}

// table lists the measurements of every size.
func table(out *draw.Drawing, names []string, dims []dimension, x, y, labelWidth, column, row float64) {
	right := x + labelWidth + column*float64(len(names))
	for i, name := range names {
		out.Bold(x+labelWidth+column*(float64(i)+1)-2, y, 3.4, draw.End, "ink", name)
	}
	out.Line(x, y+1.8, right, y+1.8, draw.Line("ink", draw.Detail))
	for r, m := range dims {
		base := y + row*float64(r+1) - 0.6
		out.Bold(x, base, 3.4, draw.Start, "woad", m.letter)
		out.Text(x+5, base, 3.4, draw.Start, "ink", m.label)
		for i, v := range m.values {
			out.Text(x+labelWidth+column*(float64(i)+1)-2, base, 3.2, draw.End, "ink", v.Inches()+" in")
			out.Text(x+labelWidth+column*(float64(i)+1)-2, base+3, 2.6, draw.End, "pencil", v.Centimetres()+" cm")
		}
		if r < len(dims)-1 {
			out.Line(x, base+4.2, right, base+4.2, draw.Line("rule", draw.Grid))
		}
	}
}

// outline is the shape of a sock seen from its side, in the drawing's millimetres: the foot
// points to the left, the back of the leg is on the right.
type outline struct {
	left, right, top  float64 // of the leg at the ankle, and its upper edge
	calf              float64 // how much wider the leg is at the top
	cuff, ankle, sole float64 // heights: lower edge of the cuff, top of the heel, sole
	tip, toe          float64 // x of the tip of the toe, and of where the toe begins
	heel              float64 // how far the heel reaches down the back
}

func newOutline(values map[string][]unit.Length, size int, w, top, height float64) *outline {
	mm := func(key string) float64 {
		if v := values[key]; v != nil {
			return v[size].MM()
		}
		return 0
	}
	legWidth, foot, leg, cuff := mm("leg.girth")/2, mm("foot.length"), mm("leg.length"), mm("cuff.length")
	footHeight := mm("foot.girth") / 2
	scale := min((height-6)/(leg+footHeight), (w-60)/(foot+8))
	o := &outline{top: top + 4}
	o.calf = max(0, (mm("calf.girth")/2-legWidth)*scale)
	total := foot * scale
	o.right = (w+total)/2 + 4
	o.left = o.right - legWidth*scale
	o.tip = o.right - total
	o.cuff = o.top + cuff*scale
	o.ankle = o.top + leg*scale
	o.sole = o.ankle + footHeight*scale
	o.heel = min(mm("heel.depth")*scale, footHeight*scale)
	toe := foot - mm("foot.to_toe")
	if mm("foot.to_toe") == 0 {
		toe = foot / 5
	}
	o.toe = o.tip + toe*scale
	return o
}

// wider is how much wider the leg is at a height than at the ankle; front and back are its two
// sides there.
func (o *outline) wider(y float64) float64 { return o.calf * (1 - (y-o.top)/(o.ankle-o.top)) }
func (o *outline) front(y float64) float64 { return o.left - o.wider(y)/2 }
func (o *outline) back(y float64) float64  { return o.right + o.wider(y)/2 }

func (o *outline) draw(out *draw.Drawing, letter map[string]string) {
	tint := func(name string) draw.Ink { return draw.Ink{Name: name, Cover: 0.3} }
	none := draw.Pen{}
	part := func(label, ink string, p *draw.Path) { out.Group(label, func() { out.Path(p, tint(ink), none) }) }
	r := (o.sole - o.ankle) * 0.45 // of the heel's curve
	instep := o.left - (o.sole-o.ankle)*0.35
	part("Cuff", "part-orange", new(draw.Path).Move(o.front(o.top), o.top).Line(o.back(o.top), o.top).Line(o.back(o.cuff), o.cuff).Line(o.front(o.cuff), o.cuff).Close())
	part("Leg", "part-sky", new(draw.Path).Move(o.front(o.cuff), o.cuff).Line(o.back(o.cuff), o.cuff).Line(o.right, o.ankle).Line(o.left, o.ankle).Line(o.left, o.ankle-6).Close())
	part("Heel", "part-green", new(draw.Path).Move(o.right, o.ankle).Line(o.right, o.sole-r).Curve(o.right, o.sole-r/3, o.right-r/3, o.sole, o.right-r, o.sole).Line(o.left+(o.right-o.left)*0.35, o.sole).Close())
	part("Foot", "part-blue", new(draw.Path).Move(o.left, o.ankle).Line(o.right, o.ankle).Line(o.left+(o.right-o.left)*0.35, o.sole).Line(o.toe, o.sole).Line(o.toe, o.ankle+1.2).Line(instep, o.ankle+1.2).Curve(o.left-1, o.ankle+1.2, o.left, o.ankle-1, o.left, o.ankle-6).Close())
	h := (o.sole - o.ankle) * 0.5
	part("Toe", "part-vermilion", new(draw.Path).Move(o.toe, o.ankle+1.2).Curve(o.tip+h*0.35, o.ankle+1.2, o.tip, o.ankle+h*0.55, o.tip, o.ankle+h).Curve(o.tip, o.sole-h*0.45, o.tip+h*0.35, o.sole, o.toe, o.sole).Close())

	line := draw.Line("ink", draw.Outline)
	out.Path(new(draw.Path).Move(o.front(o.top), o.top).Line(o.back(o.top), o.top).Line(o.right, o.ankle).Line(o.right, o.sole-r).
		Curve(o.right, o.sole-r/3, o.right-r/3, o.sole, o.right-r, o.sole).Line(o.toe, o.sole).
		Curve(o.tip+h*0.35, o.sole, o.tip, o.sole-h*0.45, o.tip, o.ankle+h).Curve(o.tip, o.ankle+h*0.55, o.tip+h*0.35, o.ankle+1.2, o.toe, o.ankle+1.2).
		Line(instep, o.ankle+1.2).Curve(o.left-1, o.ankle+1.2, o.left, o.ankle-1, o.left, o.ankle-6).Line(o.front(o.top), o.top).Close(), draw.Ink{}, line)
	thin := draw.Line("ink", draw.Detail)
	out.Line(o.front(o.cuff), o.cuff, o.back(o.cuff), o.cuff, thin)
	for x := o.front(o.top) + 1.6; x < o.back(o.top)-0.8; x += 1.6 {
		out.Line(x, o.top+0.8, x, o.cuff-0.8, draw.Line("pencil", draw.Grid))
	}
	out.Line(o.toe, o.ankle+1.2, o.toe, o.sole, thin)
	out.Line(o.right, o.ankle, o.left+(o.right-o.left)*0.35, o.sole, draw.Pen{Ink: draw.Of("ink"), Width: draw.Detail, Dash: 1.2})
	for _, l := range []struct {
		s    string
		x, y float64
	}{
		{"cuff", (o.left + o.right) / 2, (o.top+o.cuff)/2 + 1.2}, {"leg", (o.left + o.right) / 2, (o.cuff + o.ankle) / 2},
		{"heel", o.right - max((o.right-o.left)*0.2, 5.8), o.sole - r*0.6}, {"foot", (o.girth() + 2.6 + o.right) / 2, (o.ankle+o.sole)/2 + 1.2}, {"toe", (o.tip + o.toe) / 2, (o.ankle+o.sole)/2 + 1.2},
	} {
		label(out, l.x, l.y, l.s)
	}
	o.dimensions(out, letter)
}

// girth is where the girth of the foot is measured.
func (o *outline) girth() float64 { return o.toe + 8 }

// label writes the name of a part on a patch of paper.
func label(out *draw.Drawing, x, y float64, s string) {
	w := float64(len(s))*1.7 + 2
	out.Rect(x-w/2, y-3.2, w, 4.2, draw.Ink{Name: "paper", Cover: 0.85}, draw.Pen{})
	out.Text(x, y, 3.4, draw.Middle, "ink", s)
}

// dimensions draws the dimension lines with their letters.
func (o *outline) dimensions(out *draw.Drawing, letter map[string]string) {
	right := o.back(o.top) + 7
	dimension := func(key string, x1, y1, x2, y2 float64) {
		if letter[key] != "" {
			dimensionLine(out, x1, y1, x2, y2, letter[key])
		}
	}
	if o.calf > 0 {
		dimension("calf.girth", o.front(o.top), o.top-3.6, o.back(o.top), o.top-3.6)
	}
	middle := o.ankle - (o.ankle-o.cuff)*0.22
	dimension("leg.girth", o.front(middle), middle, o.back(middle), middle)
	dimension("cuff.length", right, o.top, right, o.cuff)
	dimension("leg.length", right+9, o.top, right+9, o.ankle)
	dimension("heel.depth", right, o.ankle, right, o.ankle+o.heel)
	dimension("foot.girth", o.girth(), o.ankle+1.2, o.girth(), o.sole)
	dimension("foot.length", o.tip, o.sole+6, o.right, o.sole+6)
}

// dimensionLine is a line with a tick at each end and a letter in its middle.
func dimensionLine(out *draw.Drawing, x1, y1, x2, y2 float64, letter string) {
	pen := draw.Line("woad", draw.Detail)
	out.Line(x1, y1, x2, y2, pen)
	tx, ty := 0.0, 1.4
	if x1 == x2 {
		tx, ty = 1.4, 0
	}
	out.Line(x1-tx, y1-ty, x1+tx, y1+ty, pen)
	out.Line(x2-tx, y2-ty, x2+tx, y2+ty, pen)
	x, y := (x1+x2)/2, (y1+y2)/2
	out.Circle(x, y, 2.6, draw.Of("paper"), pen)
	out.Bold(x, y+1.2, 3.4, draw.Middle, "woad", letter)
}

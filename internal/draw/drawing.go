package draw

import "math"

// A Drawing is a picture of W by H millimetres, with the origin at its upper left corner.
type Drawing struct {
	W, H        float64
	Title, Desc string
	items       []item
}

// New returns an empty drawing.
func New(w, h float64, title, desc string) *Drawing {
	return &Drawing{W: w, H: h, Title: title, Desc: desc}
}

// An Ink is a colour of the theme by name, "" for none, and how much of it covers the ground.
type Ink struct {
	Name  string
	Cover float64 // 0 to 1; 0 stands for 1
}

// Of is a fully covering ink.
func Of(name string) Ink { return Ink{Name: name} }

func (i Ink) cover() float64 {
	if i.Cover == 0 {
		return 1
	}
	return i.Cover
}

// Pen widths in millimetres: docs/look.md.
const (
	Grid     = 0.2
	Detail   = 0.35
	Outline  = 0.6
	Emphasis = 0.9
)

// A Pen draws lines with round caps. The zero Pen draws none.
type Pen struct {
	Ink   Ink
	Width float64
	Dash  float64 // length of dashes and gaps; 0 for a whole line
}

// Line is a pen of a theme colour.
func Line(ink string, width float64) Pen { return Pen{Ink: Of(ink), Width: width} }

// An item is one thing in a drawing.
type item interface{ isItem() }

type path struct {
	segs []seg
	fill Ink
	pen  Pen
}

type text struct {
	x, y, size float64 // of the baseline, mm
	anchor     Anchor
	bold       bool
	ink        Ink
	s          string
}

type group struct{ label string } // begins a labelled group
type endGroup struct{}

func (path) isItem()     {}
func (text) isItem()     {}
func (group) isItem()    {}
func (endGroup) isItem() {}

// seg is one piece of a path.
type seg struct {
	op byte // 'M', 'L', 'C' or 'Z'
	p  [3]Point
}

// A Point is a place in millimetres.
type Point struct{ X, Y float64 }

// Anchor is which end of a text stands at its place.
type Anchor uint8

const (
	Start Anchor = iota
	Middle
	End
)

// A Path is built from moves, lines and curves, and then stroked or filled.
type Path struct{ segs []seg }

// Move begins a new piece of the path.
func (p *Path) Move(x, y float64) *Path {
	p.segs = append(p.segs, seg{'M', [3]Point{{x, y}}})
	return p
}

// Line goes straight to a point.
func (p *Path) Line(x, y float64) *Path {
	p.segs = append(p.segs, seg{'L', [3]Point{{x, y}}})
	return p
}

// Curve goes to (x, y) as a cubic Bézier curve with two control points.
func (p *Path) Curve(x1, y1, x2, y2, x, y float64) *Path {
	p.segs = append(p.segs, seg{'C', [3]Point{{x1, y1}, {x2, y2}, {x, y}}})
	return p
}

// Close goes back to where the piece began.
func (p *Path) Close() *Path {
	p.segs = append(p.segs, seg{op: 'Z'})
	return p
}

// Flip mirrors the path at the upright line through x.
func (p *Path) Flip(x float64) *Path {
	for i := range p.segs {
		for j := range p.segs[i].p {
			p.segs[i].p[j].X = 2*x - p.segs[i].p[j].X
		}
	}
	return p
}

// Path draws a path, if there is anything in it.
func (d *Drawing) Path(p *Path, fill Ink, pen Pen) {
	if len(p.segs) == 0 {
		return
	}
	d.items = append(d.items, path{p.segs, fill, pen})
}

// Line draws a straight line.
func (d *Drawing) Line(x1, y1, x2, y2 float64, pen Pen) {
	d.Path(new(Path).Move(x1, y1).Line(x2, y2), Ink{}, pen)
}

// Rect draws a rectangle.
func (d *Drawing) Rect(x, y, w, h float64, fill Ink, pen Pen) {
	d.Path(new(Path).Move(x, y).Line(x+w, y).Line(x+w, y+h).Line(x, y+h).Close(), fill, pen)
}

// Circle draws a circle.
func (d *Drawing) Circle(x, y, r float64, fill Ink, pen Pen) {
	k := r * 4 * (math.Sqrt2 - 1) / 3
	d.Path(new(Path).Move(x+r, y).Curve(x+r, y+k, x+k, y+r, x, y+r).Curve(x-k, y+r, x-r, y+k, x-r, y).
		Curve(x-r, y-k, x-k, y-r, x, y-r).Curve(x+k, y-r, x+r, y-k, x+r, y).Close(), fill, pen)
}

// Text writes a text; size is its height in mm, y that of its baseline.
func (d *Drawing) Text(x, y, size float64, anchor Anchor, ink string, s string) {
	d.items = append(d.items, text{x, y, size, anchor, false, Of(ink), s})
}

// Bold writes a text in bold.
func (d *Drawing) Bold(x, y, size float64, anchor Anchor, ink string, s string) {
	d.items = append(d.items, text{x, y, size, anchor, true, Of(ink), s})
}

// Group gives what do draws a label of its own.
func (d *Drawing) Group(label string, do func()) {
	d.items = append(d.items, group{label})
	do()
	d.items = append(d.items, endGroup{})
}

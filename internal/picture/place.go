package picture

import (
	"math"
	"slices"

	"sockwright/internal/draw"
)

// A label is the name of a part on a patch of paper; x is its middle, y its baseline.
type label struct {
	s    string
	x, y float64
}

// A box is a rectangle with the upper left corner (x, y).
type box struct{ x, y, w, h float64 }

func (l label) box() box {
	w := float64(len(l.s))*1.7 + 2
	return box{l.x - w/2, l.y - 3.2, w, 4.2}
}

func (l label) draw(out *draw.Drawing) {
	b := l.box()
	out.Rect(b.x, b.y, b.w, b.h, draw.Ink{Name: "paper", Cover: 0.85}, draw.Pen{})
	out.Text(l.x, l.y, 3.4, draw.Middle, "ink", l.s)
}

// beside is the label moved to where it lies on no other: up, or to the side.
func (l label) beside(others []label) label {
	for _, by := range []struct{ x, y float64 }{{0, 0}, {0, -2}, {0, -4.4}, {-4, -4.4}, {-6, 0}, {0, 4.4}, {-10, 0}} {
		moved := label{l.s, l.x + by.x, l.y + by.y}
		if !slices.ContainsFunc(others, func(o label) bool { return o.box().overlaps(moved.box()) }) {
			return moved
		}
	}
	return l
}

// away is how far a point lies from a box; 0 within it.
func (b box) away(x, y float64) float64 {
	return math.Hypot(max(b.x-x, 0, x-b.x-b.w), max(b.y-y, 0, y-b.y-b.h))
}

// overlaps tells whether two boxes have a place in common.
func (b box) overlaps(c box) bool {
	return b.x < c.x+c.w && c.x < b.x+b.w && b.y < c.y+c.h && c.y < b.y+b.h
}

// A line shows a measure: a dimension line with a tick at each end, and a circle with the
// measure's letter somewhere on it.
type line struct {
	letter         string
	x1, y1, x2, y2 float64
	x, y           float64 // of the circle
}

// circle is the radius of the circle round a letter.
const circle = 2.6

func (d line) draw(out *draw.Drawing) {
	pen := draw.Line("woad", draw.Detail)
	out.Line(d.x1, d.y1, d.x2, d.y2, pen)
	tx, ty := 0.0, 1.4
	if d.x1 == d.x2 {
		tx, ty = 1.4, 0
	}
	out.Line(d.x1-tx, d.y1-ty, d.x1+tx, d.y1+ty, pen)
	out.Line(d.x2-tx, d.y2-ty, d.x2+tx, d.y2+ty, pen)
	out.Circle(d.x, d.y, circle, draw.Of("paper"), pen)
	out.Bold(d.x, d.y+1.2, 3.4, draw.Middle, "woad", d.letter)
}

// along are the places on a line that a letter may have, as shares of it: those near its
// middle first.
var along = []float64{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9, 0, 1}

// places finds room for the names of the parts and the letters of the measures. No circle
// covers a name or another circle.
func (o *outline) places(letter map[string]string) (labels []label, lines []line) {
	middle := (o.left + o.right) / 2
	girth := o.toe + 8 // where that of the foot is measured
	leg := o.ankle - (o.ankle-o.cuff)*0.22
	if o.calf > 0 {
		leg = (o.shaped + o.ankle) / 2
	}
	r := (o.sole - o.ankle) * 0.45
	instep := (o.ankle+o.sole)/2 + 1.2
	labels = []label{
		{"cuff", middle, (o.top+o.cuff)/2 + 1.2},
		{"leg", middle, min((o.cuff+o.ankle)/2, leg-3)},
		{"heel", o.right - max((o.right-o.left)*0.2, 5.8), o.sole - r*0.6},
		{"foot", (girth + circle + o.right) / 2, instep},
		{"toe", (o.tip + o.toe) / 2, instep},
	}
	for i := range labels {
		labels[i] = labels[i].beside(labels[:i])
	}
	put := func(key string, x1, y1, x2, y2 float64) {
		if letter[key] == "" {
			return
		}
		d := line{letter: letter[key], x1: x1, y1: y1, x2: x2, y2: y2}
		clear := -1.0
		for _, share := range along {
			x, y := x1+(x2-x1)*share, y1+(y2-y1)*share
			near := math.Inf(1)
			for _, l := range labels {
				near = min(near, l.box().away(x, y)-circle)
			}
			for _, other := range lines {
				near = min(near, math.Hypot(other.x-x, other.y-y)-2*circle)
			}
			if near = min(near, 0.4); near > clear {
				clear, d.x, d.y = near, x, y
			}
		}
		lines = append(lines, d)
	}
	right := o.back(o.top) + 7
	if o.calf > 0 {
		put("calf.girth", o.front(o.top), o.top-3.6, o.back(o.top), o.top-3.6)
	}
	put("leg.girth", o.left, leg, o.right, leg)
	put("cuff.length", right, o.top, right, o.cuff)
	put("leg.length", right+9, o.top, right+9, o.ankle)
	put("heel.depth", right, o.ankle, right, o.ankle+o.heel)
	put("foot.girth", girth, o.upper(), girth, o.sole)
	put("foot.length", o.tip, o.sole+6, o.right, o.sole+6)
	return labels, lines
}

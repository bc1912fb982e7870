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
	{"leg.length", "Leg, top to heel"},
	{"cuff.length", "Cuff"},
	{"heel.depth", "Heel, depth"},
	{"foot.girth", "Foot, around"},
	{"foot.length", "Foot, length"},
}

// AllSizes stands for no size in particular.
const AllSizes = -1

// A Layout is what a schematic shows beside the outline, and how wide it is.
type Layout uint8

const (
	Whole  Layout = iota // a picture by itself: with the title, and a table of the measures
	Broad                // for a page, which has the title: with the table
	Narrow               // for a page on a phone: what the letters stand for, in large lettering, without figures
)

// Of the table, in mm.
const rowHeight, labelWidth = 7.6, 44.0

// columnWidth is the width of a column of the table, of so many sizes.
func columnWidth(sizes int) float64 {
	if sizes > 5 {
		return 20
	}
	return 24
}

// frame is where the outline is drawn, beside or above what is told of so many sizes.
func (l Layout) frame(sizes int) frame {
	if l == Narrow {
		return frame{w: 88, room: 60, top: 4, height: 112}
	}
	w := max(170, labelWidth+columnWidth(sizes)*float64(sizes)+16)
	top := 4.0
	if l == Whole {
		top = 12
	}
	return frame{w: w, room: w - 60, top: top, height: 112}
}

// Schematic draws the outline of a sock with letters for its finished measurements, in every
// size or in one size counted from 0. The outline has the proportions of that size, or of the
// middle one.
func Schematic(d *sock.Draft, plan *grade.Plan, alone int, layout Layout) *draw.Drawing {
	names, title, size := d.Names(), d.Title, len(d.Sizes)/2
	if alone != AllSizes {
		names, size = names[alone:alone+1], alone
		title += ", size " + names[0]
	}
	dims, letter := dimensions(d, plan, alone)
	f := layout.frame(len(names))
	o := newOutline(d, plan, size, f)
	below := o.sole + 18
	h := below + rowHeight*float64(len(dims)+1)
	if layout == Narrow {
		h = below + 6*float64((len(dims)+1)/2) - 4
	}
	out := draw.New(f.w, h, title+": schematic", describe(names, dims))
	if layout == Whole {
		out.Bold(8, 9, 5, draw.Start, "ink", title)
	}
	o.draw(out, letter)
	if layout == Narrow {
		key(out, dims, 2, below)
	} else {
		table(out, names, dims, 8, below)
	}
	return out
}

// dimensions are the measures that a sock has, and the letters of their keys.
func dimensions(d *sock.Draft, plan *grade.Plan, alone int) (dims []dimension, letter map[string]string) {
	values := map[string][]unit.Length{}
	for _, m := range d.Measures(plan) {
		if alone == AllSizes || m.Size == alone {
			values[m.Key] = append(values[m.Key], m.Value)
		}
	}
	letter = map[string]string{}
	for _, m := range measures {
		if v := values[m.key]; v != nil {
			letter[m.key] = string(rune('A' + len(dims)))
			dims = append(dims, dimension{letter[m.key], m.label, v})
		}
	}
	return dims, letter
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
func table(out *draw.Drawing, names []string, dims []dimension, x, y float64) {
	column := columnWidth(len(names))
	right := x + labelWidth + column*float64(len(names))
	for i, name := range names {
		out.Bold(x+labelWidth+column*(float64(i)+1)-2, y, 3.4, draw.End, "ink", name)
	}
	out.Line(x, y+1.8, right, y+1.8, draw.Line("ink", draw.Detail))
	for r, m := range dims {
		base := y + rowHeight*float64(r+1) - 0.6
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

// key tells what the letters stand for, in two columns.
func key(out *draw.Drawing, dims []dimension, x, y float64) {
	for i, m := range dims {
		x, y := x+44*float64(i%2), y+6*float64(i/2)
		out.Bold(x, y, 3.6, draw.Start, "woad", m.letter)
		out.Text(x+5, y, 3.6, draw.Start, "ink", m.label)
	}
}

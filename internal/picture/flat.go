package picture

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"sockwright/internal/draw"
	"sockwright/internal/fabric"
	"sockwright/internal/pattern"
	"sockwright/internal/unit"
)

// A panel is the rows of one section, as they lie on the table.
type panel struct {
	title string
	rows  []panelRow
	count [2]int  // rows and rounds that the pattern counts: not edges, nor those worked in part
	left  float64 // the edges of the leftmost and of the rightmost stitch, as places of
	right float64 // its rows are
}

// A panelRow is loops side by side, from the right, as the right side shows them.
type panelRow struct {
	loops []int32
	place []float64 // where each lies, in stitches to the left of the panel's origin
	cross []float64 // how far to the left of its place the stitch lies that each was worked into, where stitches cross
}

// Flat draws every loop of one size's fabric in its place: section by section, as a chart is
// read, from the cast-on edge at the bottom up and from right to left, right side to the
// reader. A knit stitch is a small V and a purl a small bump, as the right side shows them;
// decreases lean as they lean, increases are crosses, yarn overs rings, slipped stitches are
// as tall as the rows they pass. The rows of a section lie one on the other so that each
// stands over the stitches it was worked into. A pattern for the left hand is drawn as that hand
// knits it, from left to right. title is the design's, since the words print it in capitals;
// sock tells which one of a pair it is.
func Flat(title string, p *pattern.Pattern, f *fabric.Fabric, gauge unit.Gauge, size string, sock pattern.Sock) *draw.Drawing {
	panels := layOut(p, f)
	w, h := gauge.Width(1).MM(), gauge.Height(1).MM()
	k := 1.6 / w // a stitch is 1.6 mm wide, whatever the gauge: the picture is to be read
	w, h = w*k, h*k
	const margin, labels, gap = 8.0, 30.0, 7.0
	width, height := 0.0, margin+8
	for _, q := range panels {
		width = max(width, (q.left-q.right)*w)
		height += float64(len(q.rows))*h + gap
	}
	if size != "" {
		title += ", size " + size
	}
	title += sockNames[sock]
	first := "right"
	if p.LeftHanded {
		title += ", left-handed"
		first = "left"
	}
	out := draw.New(width+2*margin+labels, height+margin, title+": the fabric laid flat", fmt.Sprintf("Every one of the %d loops of the sock in its place, in %d sections from the cast-on edge at the bottom up; the first stitch of a round is on the %s.", len(f.Loops), len(panels), first))
	out.Bold(margin, margin+2, 4.4, draw.Start, "ink", title)
	y := height // of the lower edge of the panel
	for _, q := range panels {
		out.Group(q.title, func() {
			out.Text(margin, y-3.8, 3.4, draw.Start, "ink", q.title)
			out.Text(margin, y-0.4, 2.6, draw.Start, "pencil", q.counted())
			paths := q.paths(f, margin+labels+width, y, w, h)
			for i, pen := range loopPens {
				if p.LeftHanded {
					paths[i].Flip(margin + labels + width/2)
				}
				out.Path(paths[i], draw.Ink{}, pen)
			}
		})
		y -= float64(len(q.rows))*h + gap
	}
	arrow := draw.Line("pencil", draw.Detail)
	x := margin + labels - 6
	out.Path(new(draw.Path).Move(x, height).Line(x, height-14).Move(x-1.6, height-11).Line(x, height-14).Line(x+1.6, height-11), draw.Ink{}, arrow)
	return out
}

// sockNames tell the socks of a pair.
var sockNames = map[pattern.Sock]string{pattern.RightSock: ", right sock", pattern.LeftSock: ", left sock"}

// counted says how many rows and rounds of the panel the pattern counts.
func (q *panel) counted() string {
	var said []string
	for i, word := range [2]string{"row", "rnd"} {
		switch n := q.count[i]; n {
		case 0:
		case 1:
			said = append(said, "1 "+word)
		default:
			said = append(said, fmt.Sprintf("%d %ss", n, word))
		}
	}
	return strings.Join(said, ", ")
}

// counts tells whether the pattern counts the rows that a line makes.
func counts(n pattern.Node) bool {
	switch n := n.(type) {
	case *pattern.Row:
		return n.Label.Name != pattern.Partial && n.Label.Name != pattern.SetUp
	case *pattern.Plain:
		return true
	}
	return false
}

// heading is a title in small letters, as the words print it in capitals.
func heading(title string) string {
	if title == "" {
		return ""
	}
	return title[:1] + strings.ToLower(title[1:])
}

// layOut places the loops of all sections.
func layOut(p *pattern.Pattern, f *fabric.Fabric) []*panel {
	section, line := map[int32]*pattern.Section{}, map[int32]pattern.Node{}
	p.Each(func(s *pattern.Section, n pattern.Node) {
		section[int32(pattern.ID(n))], line[int32(pattern.ID(n))] = s, n
	})
	var panels []*panel
	var last *pattern.Section
	at := make([]float64, len(f.Loops)) // stitches from the panel's origin, leftwards
	in := make([]*panel, len(f.Loops))
	for i, r := range f.Rows {
		end := int32(len(f.Loops))
		if i+1 < len(f.Rows) {
			end = f.Rows[i+1].First
		}
		if end == r.First {
			continue // a row that only slips
		}
		if s := section[r.Node]; len(panels) == 0 || s != last {
			title := ""
			if s != nil {
				title = heading(s.Title)
			}
			panels, last = append(panels, &panel{title: title}), s
		}
		q := panels[len(panels)-1]
		row := panelRow{}
		for l := r.First; l < end; l++ {
			row.loops = append(row.loops, l)
		}
		if r.Wrong { // worked from the left
			slices.Reverse(row.loops)
		}
		// Stitches stand side by side, but for those that were slipped between them. The row
		// lies where, on the whole, it stands over the stitches it was worked into.
		place, sum, n := 0.0, 0.0, 0
		below := row.below(f, q, in, at)
		for j, into := range below {
			if j > 0 {
				place++
				if before := below[j-1].last; !math.IsNaN(into.first) && !math.IsNaN(before) {
					if slipped := math.Floor(into.first - before - 1 + 0.01); slipped > 0 && slipped < 8 {
						place += slipped
					}
				}
			}
			row.place = append(row.place, place)
			if !math.IsNaN(into.first) {
				sum += (into.first+into.last)/2 - place
				n++
			}
		}
		shift := -place / 2
		if n > 0 {
			shift = sum / float64(n)
		}
		for j, l := range row.loops {
			row.place[j] += shift
			at[l], in[l] = row.place[j], q
		}
		q.left = math.Max(q.left, row.place[len(row.place)-1]+1)
		q.right = math.Min(q.right, row.place[0])
		q.rows = append(q.rows, row)
		if counts(line[r.Node]) {
			i := 0
			if r.Round {
				i = 1
			}
			q.count[i]++
		}
	}
	return panels
}

// A reach is where the rightmost and the leftmost of the stitches lie that a loop was worked
// into; not a number where there are none.
type reach struct{ first, last float64 }

// below is what each loop of a row was worked into. Stitches that cross are noted in the row,
// and what they were worked into is told in the order of the row.
func (r *panelRow) below(f *fabric.Fabric, q *panel, in []*panel, at []float64) []reach {
	out := make([]reach, len(r.loops))
	r.cross = make([]float64, len(r.loops))
	for j, l := range r.loops {
		out[j].first, out[j].last = parents(f, l, q, in, at)
	}
	for from := 0; from < len(r.loops); from++ {
		var feet []float64 // of loops that cross, one beside the other, in any panel
		for run := from; run < len(r.loops) && crosses(f.Loops[r.loops[run]].Kind); run++ {
			feet = append(feet, at[f.Through(r.loops[run])[0]])
		}
		for len(feet) > 0 {
			n := 1
			for n < len(feet) && !apart(feet[:n], feet[n:]) {
				n++
			}
			own := slices.Sorted(slices.Values(feet[:n]))
			for i, foot := range feet[:n] {
				r.cross[from+i] = foot - own[i]
			}
			slices.SortFunc(out[from:from+n], func(a, b reach) int { return cmp.Compare(a.first, b.first) })
			from, feet = from+n, feet[n:]
		}
	}
	return out
}

// apart tells whether all of some stitches lie before all of the others: they cross among
// themselves.
func apart(some, others []float64) bool { return slices.Max(some) < slices.Min(others) }

// crosses tells whether loops of a kind are those of a crossing.
func crosses(k fabric.Kind) bool {
	return k == fabric.InFront || k == fabric.Behind || k == fabric.BehindPurl
}

// made tells whether loops of a kind are increases.
func made(k fabric.Kind) bool {
	switch k {
	case fabric.LiftLeft, fabric.LiftRight, fabric.RaisedLeft, fabric.RaisedRight, fabric.Again:
		return true
	}
	return false
}

// parents is where the rightmost and the leftmost of the stitches lie that a loop was worked
// into, of those in a panel; not a number where there are none.
func parents(f *fabric.Fabric, l int32, q *panel, in []*panel, at []float64) (first, last float64) {
	first, last = math.NaN(), math.NaN()
	for _, t := range f.Through(l) {
		if in[t] != q {
			continue
		}
		if math.IsNaN(first) || at[t] < first {
			first = at[t]
		}
		if math.IsNaN(last) || at[t] > last {
			last = at[t]
		}
	}
	return first, last
}

// loopPens draw the paths of loops: knit, purl, what shapes, and edges.
var loopPens = [4]draw.Pen{draw.Line("woad", 0.22), draw.Line("ink", 0.26), draw.Line("part-vermilion", 0.34), draw.Line("ink", 0.3)}

// paths are the loops of a panel whose rightmost stitch stands at x and whose lower edge is at
// y, by what they are drawn with.
func (q *panel) paths(f *fabric.Fabric, x, y, w, h float64) [4]*draw.Path {
	knit, purl, shape, edge := new(draw.Path), new(draw.Path), new(draw.Path), new(draw.Path)
	for i, row := range q.rows {
		foot := y - float64(i)*h // where the legs of a stitch meet
		head := foot - h
		for j, l := range row.loops {
			right := x - (row.place[j]-q.right)*w
			left, mid := right-w, right-w/2
			loop := f.Loops[l]
			reach := head - float64(loop.Tall)*h // a slipped stitch reaches into the rows it passed
			lean, over := float64(loop.Kind.Lean())*w*0.34, row.cross[j]*w
			switch {
			case loop.Kind == fabric.CastOn || loop.Kind == fabric.Provisional || loop.Kind == fabric.BoundOff:
				edge.Move(left+w*0.1, foot-h/2).Curve(left+w*0.3, foot, right-w*0.3, foot, right-w*0.1, foot-h/2)
			case loop.Kind == fabric.Grafted || loop.Kind == fabric.JoinedOff || loop.Kind == fabric.Drawn:
				edge.Move(left+w*0.15, head+h*0.3).Line(mid, head+h*0.7).Line(right-w*0.15, head+h*0.3)
			case over != 0 && loop.Kind == fabric.InFront:
				shape.Move(mid-over, foot-h*0.06).Line(mid, head+h*0.1)
			case over != 0:
				shape.Move(mid-over, foot-h*0.06).Line(mid-over*0.68, foot-h*0.34).Move(mid-over*0.32, foot-h*0.62).Line(mid, head+h*0.1)
			case lean != 0: // the stitch on top crosses the other
				shape.Move(mid-lean, foot-h*0.06).Line(mid+lean, head+h*0.1)
				shape.Move(mid+lean, foot-h*0.06).Line(mid+lean*0.2, foot-h*0.42)
			case loop.Kind == fabric.Centred: // the middle stitch on top of the two beside it
				shape.Move(mid-w*0.34, foot-h*0.06).Line(mid, head+h*0.1).Line(mid+w*0.34, foot-h*0.06).Move(mid, foot-h*0.06).Line(mid, head+h*0.1)
			case made(loop.Kind): // out of a strand, or a second time out of a stitch
				shape.Move(mid, foot-h*0.08).Line(mid, head+h*0.16).Move(mid-w*0.26, foot-h*0.5).Line(mid+w*0.26, foot-h*0.5)
			case loop.Kind == fabric.YarnOver:
				shape.Move(mid-w*0.24, foot-h*0.5).Curve(mid-w*0.24, foot-h*0.95, mid+w*0.24, foot-h*0.95, mid+w*0.24, foot-h*0.5).
					Curve(mid+w*0.24, foot-h*0.05, mid-w*0.24, foot-h*0.05, mid-w*0.24, foot-h*0.5)
			case f.Face(l):
				knit.Move(left+w*0.15, reach+h*0.08).Line(mid, foot-h*0.12).Line(right-w*0.15, reach+h*0.08)
			default:
				purl.Move(left+w*0.12, foot-h*0.38).Curve(left+w*0.3, foot-h*0.8, right-w*0.3, foot-h*0.8, right-w*0.12, foot-h*0.38)
			}
		}
	}
	return [4]*draw.Path{knit, purl, shape, edge}
}

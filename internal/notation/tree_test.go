package notation_test

import (
	"slices"
	"strings"

	"pgregory.net/rapid"

	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

// drawPattern draws any pattern that can be written: every kind of line, 1 to 8 sizes, with
// or without names, numbers that agree or differ, sizes that do nothing.
func drawPattern(t *rapid.T) *pattern.Pattern {
	d := drawer{t: t, names: []string{""}}
	p := &pattern.Pattern{Title: strings.Join(d.words(1, 3), " ")}
	first := &pattern.Section{}
	if d.bool("first section has a title") {
		first.Title = strings.Join(d.words(1, 2), " ")
	}
	if d.bool("sizes have names") {
		all := []string{"XS", "S", "M", "L", "XL", "2XL", "Child 6", "Gable End"}
		d.names = all[:rapid.IntRange(1, len(all)).Draw(t, "sizes")]
		label := "Sizes"
		if len(d.names) == 1 {
			label = "Size"
		}
		first.Body = append(first.Body, &pattern.Prose{Style: pattern.Fact, Label: label, Text: pattern.Text{{Each: d.names}}})
	}
	p.Sizes = d.names
	if d.bool("cast on first") {
		first.Body = append(first.Body, &pattern.CastOn{Stitches: d.number(4, 60), Begin: pattern.CentreBack})
	}
	for _, name := range rapid.SampledFrom([][]string{nil, nil, {"Gable End"}, {"Low Tide", "Low Tide Lane"}}).Draw(t, "motifs") {
		first.Body = append(first.Body, d.motif(name), &pattern.Prose{Text: pattern.Words("after the motif")})
		d.motifs = append(d.motifs, name)
	}
	first.Body = append(first.Body, d.body(true)...)
	p.Sections = append(p.Sections, first)
	if len(first.Body) == 0 && first.Title == "" {
		p.Sections = nil
	}
	for range rapid.IntRange(0, 3).Draw(t, "more sections") {
		p.Sections = append(p.Sections, &pattern.Section{Title: strings.Join(d.words(1, 2), " "), Body: d.body(true)})
	}
	if d.bool("glossary") {
		s := &pattern.Section{Title: "Abbreviations"}
		for range rapid.IntRange(0, 3).Draw(t, "terms") {
			s.Body = append(s.Body, &pattern.Prose{Style: pattern.Term, Label: rapid.SampledFrom([]string{"k", "k2tog", "pick up and k", "st(s)"}).Draw(t, "term"), Text: pattern.Words(d.sentence())})
		}
		p.Sections = append(p.Sections, s)
	}
	p.Index()
	return p
}

type drawer struct {
	t      *rapid.T
	names  []string // of the sizes
	motifs []string // names of the stitch patterns that have been told
}

func (d drawer) bool(what string) bool { return rapid.Bool().Draw(d.t, what) }

func (d drawer) words(from, to int) []string {
	word := rapid.SampledFrom([]string{"Slate", "Quay", "Ferry", "Lane", "Low", "Tide", "Copper", "Kettle", "Gable", "Skerry", "Marrow", "größer", "Ölzeug"})
	return rapid.SliceOfN(word, from, to).Draw(d.t, "words")
}

func (d drawer) sentence() string {
	return strings.ToLower(strings.Join(d.words(1, 5), " "))
}

// each is one value for each size, not all the same, or nil if there is a single size.
func (d drawer) each(value *rapid.Generator[string]) []string {
	if len(d.names) == 1 {
		return nil
	}
	v := rapid.SliceOfN(value, len(d.names), len(d.names)).Draw(d.t, "values")
	if len(slices.Compact(slices.Clone(v))) == 1 {
		v[0] = "99"
	}
	return v
}

// text is words with some lists of values in them.
func (d drawer) text() pattern.Text {
	words := d.sentence()
	out := pattern.Text{}
	for range rapid.IntRange(0, 2).Draw(d.t, "lists") {
		each := d.each(rapid.SampledFrom([]string{"7", "12", "6 1/4", "7.5", "3/4", "–"}))
		if each == nil {
			words += " 7 1/4"
			continue
		}
		out = append(out, pattern.Piece{Words: words + " in" + rapid.SampledFrom([]string{" ", " ["}).Draw(d.t, "bracket")}, pattern.Piece{Each: each})
		words = " " + d.sentence()
	}
	return append(out, pattern.Piece{Words: words + rapid.SampledFrom([]string{"", " (see below)", "]", " [7.5 cm]"}).Draw(d.t, "end")})
}

func (d drawer) number(from, to int) pattern.Number {
	if len(d.names) == 1 || d.bool("all sizes agree") {
		return pattern.Of(rapid.IntRange(from, to).Draw(d.t, "number"))
	}
	gap := rapid.OneOf(rapid.IntRange(from, to), rapid.IntRange(from, to), rapid.Just(int(pattern.Gap)))
	v := rapid.SliceOfN(gap, len(d.names), len(d.names)).Draw(d.t, "numbers")
	v[rapid.IntRange(0, len(v)-1).Draw(d.t, "no gap")] = to
	return pattern.Of(v...)
}

func (d drawer) count() *pattern.Count {
	c := &pattern.Count{}
	switch rapid.IntRange(0, 5).Draw(d.t, "count") {
	case 0:
		c.Total = d.number(1, 99)
	case 1:
		c.Change = d.number(-9, 0)
	case 2:
		c.Change = d.number(0, 9)
	case 3:
		c.Change, c.Total = d.number(1, 2), d.number(1, 99)
	case 4:
		c.Total, c.Split = d.number(1, 99), d.split()
	default:
		return nil
	}
	return c
}

func (d drawer) split() (split []pattern.Number) {
	for range rapid.IntRange(1, 4).Draw(d.t, "needles") {
		split = append(split, d.number(1, 40))
	}
	return split
}

func (d drawer) label() pattern.Label {
	return pattern.Label{
		Word: rapid.SampledFrom([]pattern.Word{pattern.FlatRow, pattern.Round}).Draw(d.t, "word"),
		Name: rapid.SampledFrom([]pattern.Name{pattern.Plainly, pattern.SetUp, pattern.Partial, pattern.Increase, pattern.Decrease, pattern.Next}).Draw(d.t, "name"),
		Num:  int32(rapid.IntRange(0, 30).Draw(d.t, "num")),
		Side: rapid.SampledFrom([]pattern.Side{pattern.NoSide, pattern.RS, pattern.WS}).Draw(d.t, "side"),
	}
}

func (d drawer) body(groups bool) (body []pattern.Node) {
	for range rapid.IntRange(0, 6).Draw(d.t, "lines") {
		if n := d.node(groups); n != nil {
			body = append(body, n)
		}
	}
	return body
}

func (d drawer) node(groups bool) pattern.Node {
	places := rapid.SampledFrom(pattern.Places())
	switch rapid.IntRange(0, 14).Draw(d.t, "kind") {
	case 0:
		n := &pattern.CastOn{Form: pattern.Start(rapid.IntRange(0, int(pattern.ProvisionalFlat)).Draw(d.t, "start")), Stitches: d.number(0, 99)}
		if n.Form.Joined() {
			n.Begin = places.Draw(d.t, "place")
		}
		return n
	case 1:
		return d.again()
	case 2:
		n := &pattern.Plain{Op: rapid.SampledFrom([]pattern.Op{pattern.Knit, pattern.Purl}).Draw(d.t, "op"), More: d.bool("more"), Rounds: d.number(0, 9), Count: d.count()}
		if len(d.motifs) > 0 && d.bool("in a motif") {
			n.Op, n.Name = pattern.InMotif, rapid.SampledFrom(d.motifs).Draw(d.t, "motif")
		}
		n.Or, n.Total = d.or(), d.total()
		return n
	case 3:
		last := d.bool("last")
		return &pattern.Divide{Last: last, Toe: !last && d.bool("toe"), Heel: d.number(1, 40), Rest: d.number(1, 40)}
	case 4:
		return &pattern.Begin{Place: places.Draw(d.t, "place")}
	case 5:
		return &pattern.Arrange{Split: d.split()}
	case 6:
		return &pattern.DropMarkers{}
	case 7:
		return d.closing(places)
	case 8:
		style := rapid.SampledFrom([]pattern.Style{pattern.Para, pattern.Tip, pattern.Caution}).Draw(d.t, "style")
		return &pattern.Prose{Style: style, Text: d.text()}
	case 9:
		label := rapid.SampledFrom([]string{"Gauge", "Yarn", "To fit a foot, around", "Needles"}).Draw(d.t, "fact")
		return &pattern.Prose{Style: pattern.Fact, Label: label, Text: d.text()}
	case 14:
		if !groups {
			return nil
		}
		o := &pattern.Only{Sizes: source.AllSizes(len(d.names)), Sock: rapid.SampledFrom([]pattern.Sock{pattern.RightSock, pattern.LeftSock}).Draw(d.t, "sock"), Body: d.body(false)}
		if len(o.Body) == 0 {
			return nil
		}
		return o
	case 10:
		if !groups || len(d.names) == 1 && d.names[0] == "" {
			return nil
		}
		o := &pattern.Only{Sizes: source.SizeSet(rapid.Uint64Range(1, uint64(source.AllSizes(len(d.names)))).Draw(d.t, "only")), Body: d.body(false)}
		if len(o.Body) == 0 {
			return nil
		}
		return o
	}
	return d.row()
}

// closing draws a line that ends a part of the work, or opens one again.
func (d drawer) closing(places *rapid.Generator[pattern.Place]) pattern.Node {
	n := d.number(1, 20)
	switch rapid.IntRange(0, 5).Draw(d.t, "closing") {
	case 0:
		return &pattern.Rejoin{Stitches: n, Place: places.Draw(d.t, "place")}
	case 1:
		return &pattern.Undo{Stitches: n}
	case 2:
		return &pattern.OpenWaste{Below: n, Above: d.number(1, 20), Place: places.Draw(d.t, "place")}
	case 3:
		return &pattern.BindOff{How: pattern.Edging(rapid.IntRange(0, int(pattern.Tubular)).Draw(d.t, "edging")), Stitches: n}
	case 4:
		return &pattern.Gather{Stitches: n}
	}
	return &pattern.Join{How: pattern.Joining(rapid.IntRange(0, int(pattern.BoundOff)).Draw(d.t, "joining")), Heel: d.bool("of the heel"), Front: n, Back: d.number(1, 20)}
}

func (d drawer) again() pattern.Node {
	n := &pattern.Again{Times: d.number(0, 9), Count: d.count()}
	if d.bool("last rows") {
		n.Rows = int32(rapid.IntRange(1, 4).Draw(d.t, "rows"))
		n.Word = rapid.SampledFrom([]pattern.Word{pattern.FlatRow, pattern.Round}).Draw(d.t, "word")
	} else {
		n.Which = d.label()
		n.Word = n.Which.Word
	}
	n.Or, n.Total = d.or(), d.total()
	return n
}

func (d drawer) or() pattern.Text {
	if d.bool("or until") {
		return nil
	}
	return d.text()
}

func (d drawer) total() pattern.Number {
	if d.bool("rows in all") {
		return pattern.Number{}
	}
	return d.number(1, 40)
}

func (d drawer) row() pattern.Node {
	r := &pattern.Row{Label: d.label(), Count: d.count()}
	if d.bool("one part") {
		r.Parts = []pattern.Part{{Steps: d.steps(2)}}
		return r
	}
	for i := range rapid.IntRange(1, 4).Draw(d.t, "parts") {
		r.Parts = append(r.Parts, pattern.Part{Needle: uint8(rapid.SampledFrom([]int{i + 1, i + 1, 0, 99}).Draw(d.t, "needle")), Steps: d.steps(2)})
	}
	return r
}

// motif is a stitch pattern: the words of its rows need not agree with each other.
func (d drawer) motif(name string) pattern.Node {
	m := &pattern.Motif{Name: name}
	if d.bool("no multiple") {
		m.Plus = d.number(1, 20)
	} else if m.Multiple = d.number(1, 20); d.bool("edges") {
		m.Plus = d.number(1, 3)
	}
	for range rapid.IntRange(0, 3).Draw(d.t, "rows of the motif") {
		m.Rows = append(m.Rows, d.row().(*pattern.Row))
	}
	return m
}

// steps is some steps, with repeats in repeats to the given depth.
func (d drawer) steps(depth int) (steps []pattern.Step) {
	for range rapid.IntRange(1, 5).Draw(d.t, "steps") {
		s := d.step(depth)
		if n := len(steps); n > 0 && s.Op == pattern.YarnOver && steps[n-1].Op == pattern.Turn && steps[n-1].Turned == pattern.NotTurned {
			s.Op = pattern.M1L // a yarn over behind "turn" belongs to the turn
		}
		steps = append(steps, s)
	}
	return steps
}

func (d drawer) step(depth int) pattern.Step {
	until := rapid.SampledFrom([]pattern.Until{pattern.Times, pattern.Times, pattern.ToEnd, pattern.ToMarker, pattern.ToLast, pattern.ToGap})
	turned := rapid.Custom(func(t *rapid.T) pattern.Turned {
		return pattern.Turned(rapid.IntRange(0, int(pattern.Doubled)).Draw(t, "turned"))
	})
	s := pattern.Step{Op: pattern.Op(rapid.IntRange(int(pattern.Knit), int(pattern.Group)).Draw(d.t, "op"))}
	switch s.Op {
	case pattern.Knit, pattern.Purl, pattern.KnitTbl, pattern.PurlTbl, pattern.Slip, pattern.SlipFront:
		s.Until = until.Draw(d.t, "until")
	case pattern.KnitHem, pattern.WasteYarn:
		s.N = d.number(1, 40)
		return s
	case pattern.InMotif:
		if len(d.motifs) == 0 {
			return pattern.Step{Op: pattern.C4F}
		}
		s.Name = rapid.SampledFrom(d.motifs).Draw(d.t, "motif")
		s.Until = until.Draw(d.t, "until")
	case pattern.Turn:
		s.Turned = turned.Draw(d.t, "turned")
		return s
	case pattern.KnitTurned, pattern.PurlTurned:
		s.Turned = turned.Filter(func(t pattern.Turned) bool { return t != pattern.NotTurned }).Draw(d.t, "turned")
		return s
	case pattern.PickUp, pattern.PickUpPurl:
		s.Edge = rapid.SampledFrom([]pattern.Edge{pattern.LeftEdge, pattern.RightEdge, pattern.Corner}).Draw(d.t, "edge")
	case pattern.Group:
		if depth == 0 {
			return pattern.Step{Op: pattern.Turn}
		}
		s.Until = until.Filter(func(u pattern.Until) bool { return u != pattern.ToMarker }).Draw(d.t, "until")
		s.Body = d.steps(depth - 1)
	default: // one stitch, one marker
		return s
	}
	switch {
	case s.Until == pattern.Times || s.Until == pattern.ToLast:
		s.N = d.number(0, 40)
	case s.Until == pattern.ToMarker || s.Until == pattern.ToGap:
		if s.Until == pattern.ToGap {
			s.Turned = turned.Draw(d.t, "turned")
		}
		if d.bool("before it") {
			s.N = d.number(1, 3)
		}
	}
	return s
}

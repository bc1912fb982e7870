package check

import (
	"slices"
	"strconv"

	"sockwright/internal/knit"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

// maxTries and maxTried bound how often a pattern is knitted in search of a slip, and how
// many stitches that is in all.
const (
	maxTries = 600
	maxTried = 30_000_000
)

// oneSlip finds the one figure with another value of which nothing at all goes wrong in a
// size, and tells it in the place of all that has. It returns the faults as they are if there
// is no such figure or more than one.
func oneSlip(p *pattern.Pattern, size int, k *knit.Knitter, res *knit.Result) []source.Fault {
	faults := res.Faults
	if len(faults) < 2 {
		return faults
	}
	first := slices.MinFunc(faults, func(a, b source.Fault) int { return int(a.At.Start) - int(b.At.Start) })
	work := 1
	for _, c := range res.Counts {
		work += c.Times * max(c.First.Total, c.Last.Total)
	}
	tries := min(maxTries, maxTried/work)
	off := 0
	if first.Stated != nil && first.Actual != nil {
		off = int(first.Stated.Value - first.Actual.Value)
	}
	try := knit.Knitter{CountsOnly: true, Sock: k.Sock}
	var slip pattern.Number
	right := int32(0)
	figures := workedFigures(p, first.At.End)
	slices.Reverse(figures) // a slip is told soon
	for _, n := range figures {
		at := size
		if len(n.Val) == 1 {
			at = 0
		}
		is := n.Val[at]
		near := []int32{is - 1, is + 1, is - 2, is + 2, is - 3, is + 3, is - 4, is + 4}
		if v := is + int32(off); v != is && !slices.Contains(near, v) {
			near = append(near, v)
		}
		for _, v := range near {
			if v < 0 {
				continue
			}
			if tries--; tries < 0 {
				return faults
			}
			n.Val[at] = v
			again := try.Knit(p, size)
			n.Val[at] = is
			if len(again.Faults) > 0 || !again.Sure {
				continue
			}
			if slip.Known() { // one of the two, but which?
				return faults
			}
			slip, right = n, v
		}
	}
	if !slip.Known() {
		return faults
	}
	at, wrong := slip.Span(size), slip.In(size)
	mend := source.Mend{Edits: []source.Edit{{At: at, Text: strconv.Itoa(int(right))}}, Why: source.Say("check.mend-slip", "write {0}", right)}
	if len(slip.Cols) == 1 && len(p.Sizes) > 1 {
		mend.Why.Key = knit.MendForAll
	}
	return []source.Fault{{At: at, Sizes: source.OneSize(size), Kind: first.Kind, Severity: source.Error, Stated: source.Sts(int(wrong)), Actual: source.Sts(int(right)),
		Text:  source.Say("check.slip", "{0} here cannot be right: {1}; with {2} everything comes out", wrong, first.Text, right),
		Mends: []source.Mend{mend}}}
}

// workedFigures are the figures by which a pattern is worked, up to an offset of its text.
func workedFigures(p *pattern.Pattern, until uint32) (out []pattern.Number) {
	add := func(n pattern.Number) {
		if n.Known() && n.Fits(len(p.Sizes)) && len(n.Cols) == len(n.Val) && n.At.Start < until && !slices.Contains(n.Val, pattern.Gap) {
			out = append(out, n)
		}
	}
	var steps func([]pattern.Step)
	steps = func(all []pattern.Step) {
		for _, s := range all {
			if !s.N.Is(1) { // "sl 1" is hardly ever the one
				add(s.N)
			}
			steps(s.Body)
		}
	}
	p.Each(func(_ *pattern.Section, n pattern.Node) {
		switch n := n.(type) {
		case *pattern.CastOn:
			add(n.Stitches)
		case *pattern.Again:
			add(n.Times)
		case *pattern.Plain:
			add(n.Rounds)
		case *pattern.Row:
			for _, part := range n.Parts {
				steps(part.Steps)
			}
		}
	})
	return out
}

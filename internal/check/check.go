package check

import (
	"cmp"
	"slices"

	"sockwright/internal/knit"
	"sockwright/internal/notation"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

// A Report is what checking a written pattern gave.
type Report struct {
	File   *source.File
	Sizes  []string // as the pattern names them; "1" where it names none
	Faults []source.Fault
	Counts []Count
	Final  []int // live stitches of each size after the last line, before they are grafted
	Sure   bool  // no line was left unread, so that all counts are those of the words
}

// A Count is what a line leaves in one size.
type Count struct {
	Node        pattern.NodeID
	Line        int
	Label       string
	Size        int
	First, Last knit.Stitches
	Times       int
}

// Pattern checks a written pattern.
func Pattern(f *source.File) *Report {
	read := notation.Read(f)
	p := read.Pattern
	out := &Report{File: f, Sizes: slices.Clone(p.Sizes), Sure: true}
	for i, name := range out.Sizes {
		if name == "" {
			out.Sizes[i] = "1"
		}
	}
	faults := slices.Clone(read.Faults)
	for _, x := range faults {
		out.Sure = out.Sure && x.Kind != source.Unread
	}
	if read.Worked == 0 {
		faults = append(faults, source.Fault{Kind: source.Unread, Severity: source.Error,
			Text: source.Say("check.nothing", "nothing in this text can be worked: no line reads like “CO 64 sts …” or “Row 1 (RS): …”")})
	}
	k := knit.Knitter{CountsOnly: true}
	for size := range p.Sizes {
		res := k.Knit(p, size)
		faults = append(faults, res.Faults...)
		out.Final = append(out.Final, res.Final)
		for _, c := range res.Counts {
			line, _ := f.Position(c.At.Start)
			out.Counts = append(out.Counts, Count{c.Node, line, c.Label, size, c.First, c.Last, c.Times})
		}
	}
	out.Faults = source.Merge(faults)
	slices.SortStableFunc(out.Counts, func(a, b Count) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Size, b.Size))
	})
	return out
}

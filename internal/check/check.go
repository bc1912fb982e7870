package check

import (
	"cmp"
	"slices"

	"sockwright/internal/knit"
	"sockwright/internal/notation"
	"sockwright/internal/pattern"
	"sockwright/internal/reader"
	"sockwright/internal/script"
	"sockwright/internal/source"
)

// A Report is what checking a written pattern gave.
type Report struct {
	File   *source.File
	Words  *script.Script // what the text says, line by line, whatever its layout
	Sizes  []string       // as the pattern names them; "1" where it names none
	Faults []source.Fault
	Counts []Count
	Final  []int        // live stitches of each size after the last line, before they are grafted; -1 if that cannot be told
	own    bool         // the text is in the program's own layout
	told   map[int]bool // of it, the lines that are part of the work, whether they leave a count or not
	Sure   bool         // every line could be read and followed, so that all counts are those of the words
}

// A Count is what a line leaves in one size.
type Count struct {
	Node        pattern.NodeID
	Line        int
	Label       string
	Size        int
	First, Last knit.Stitches
	Times       int  // how often it is worked; 0: it does nothing in this size
	Sure        bool // it could be told
}

// MaxFaults is how many faults of one text are told.
const MaxFaults = 1000

// Pattern checks a written pattern. One in the program's own layout is knitted loop by
// loop, any other is followed by its counts.
func Pattern(f *source.File) *Report {
	words := reader.Read(f)
	if words.TooLarge {
		return &Report{File: f, Words: words, Sizes: []string{"1"}, Faults: words.Faults, Final: []int{-1}}
	}
	read := notation.Read(f)
	if joined := words.File; joined != f && !ownLayout(read, words) { // perhaps when its broken lines are joined
		if again := notation.Read(notation.Rejoin(f, joined.GoesOn)); ownLayout(again, words) {
			read = again
		}
	}
	var out *Report
	if ownLayout(read, words) {
		out = knitted(f, read, words)
		out.own = true
	} else {
		out = followed(f, words)
	}
	out.Words = words
	return out
}

// namedSizes are the names of sizes; one without a name is called "1".
func namedSizes(names []string) []string {
	out := slices.Clone(names)
	for i, name := range out {
		out[i] = cmp.Or(name, "1")
	}
	return out
}

func nothingToWork() source.Fault {
	return source.Fault{Kind: source.Unread, Severity: source.Error,
		Text: source.Say("check.nothing", "nothing in this text can be worked: no line reads like “CO 64 sts …” or “Row 1 (RS): …”")}
}

// knitted works a pattern that was read in the program's own layout.
func knitted(f *source.File, read *notation.Reading, words *script.Script) *Report {
	p := read.Pattern
	out := &Report{File: f, Sizes: namedSizes(p.Sizes), Sure: true, told: map[int]bool{}}
	faults := slices.Clone(read.Faults)
	unread := uint32(len(f.Text)) // where the first line stands that could not be read
	for _, x := range faults {
		if x.Kind == source.Unread {
			out.Sure = false
			unread = min(unread, x.At.Start)
		}
	}
	if read.Worked == 0 {
		out.Sure = false
		faults = append(faults, nothingToWork())
	}
	p.Each(func(_ *pattern.Section, n pattern.Node) {
		if _, is := n.(*pattern.Prose); !is {
			line, _ := f.Position(pattern.At(n).Start)
			out.told[line] = true
		}
	})
	socks := p.Socks()
	readable := len(socks) == 1 && out.Sure && len(read.Faults) == 0
	k := knit.Knitter{CountsOnly: true}
	for size := range p.Sizes {
		for _, k.Sock = range socks[1:] { // its own lines may go wrong by themselves
			faults = append(faults, k.Knit(p, size).Faults...)
		}
		k.Sock = socks[0]
		res := k.Knit(p, size)
		if readable {
			faults = append(faults, oneSlip(p, size, &k, res)...)
		} else {
			faults = append(faults, res.Faults...)
		}
		if !res.Sure || unread < uint32(len(f.Text)) || read.Worked == 0 {
			res.Final = -1
		}
		out.Sure = out.Sure && res.Sure
		out.Final = append(out.Final, res.Final)
		for _, c := range res.Counts {
			line, _ := f.Position(c.At.Start)
			out.Counts = append(out.Counts, Count{c.Node, line, c.Label, size, c.First, c.Last, c.Times, c.Sure && c.At.Start < unread})
		}
	}
	if passed := passedOver(read, words); passed.Known() && slices.ContainsFunc(faults, func(x source.Fault) bool { return x.At.Start > passed.Start }) {
		out.Sure = false
		for i := range out.Final {
			out.Final[i] = -1
		}
		for i := range out.Counts {
			c := &out.Counts[i]
			c.Sure = c.Sure && f.LineSpan(c.Line).Start < passed.Start
		}
		faults = slices.DeleteFunc(faults, func(x source.Fault) bool { return x.Kind != source.Unread && x.At.Start > passed.Start })
		faults = append(faults, source.Fault{At: passed, Kind: source.Unread, Severity: source.Note,
			Text: source.Say("check.passed", "this may be an instruction, but it yields nothing; what follows is not judged")})
	}
	mendForAll(f, len(p.Sizes), faults)
	faults = append(faults, desk(words, p, faults)...)
	out.finish(faults)
	return out
}

// passedOver is the first line that stands among the work and that the program's own layout
// does not know, though its words may be an instruction. Plain speech, in which the program
// tells what a part is like, is none.
func passedOver(read *notation.Reading, words *script.Script) (at source.Span) {
	told := map[int]bool{}
	read.Pattern.Each(func(_ *pattern.Section, n pattern.Node) {
		if p, is := n.(*pattern.Prose); !is || p.Style == pattern.Unread {
			line, _ := words.File.Position(pattern.At(n).Start)
			told[line] = true
		}
	})
	began := false
	for i, l := range words.Lines {
		if began = began || told[i+1]; !began || told[i+1] {
			continue
		}
		for _, item := range l.Items {
			if n, is := item.(*script.Skipped); is && n.Strange {
				return l.At
			}
		}
	}
	return source.Span{}
}

// desk is what an editor finds in a text in the program's own layout of which its rows know
// nothing, beside what has been found.
func desk(words *script.Script, p *pattern.Pattern, found []source.Fault) []source.Fault {
	e := newEditor(words)
	for _, look := range []func(){e.units, e.needleSizes, e.needlesUsed, e.gauges, e.termsLeftOut, e.shortLists} {
		look()
	}
	e.markers(p)
	return slices.DeleteFunc(e.faults, func(x source.Fault) bool {
		return slices.ContainsFunc(found, func(f source.Fault) bool { return f.At.Start <= x.At.End && x.At.Start <= f.At.End })
	})
}

// finish puts faults and counts in order.
func (r *Report) finish(faults []source.Fault) {
	if r.Faults = source.Merge(onceATopic(r.File, faults)); len(r.Faults) > MaxFaults {
		more := len(r.Faults) - MaxFaults
		worst, _ := source.Worst(r.Faults[MaxFaults:])
		r.Faults = append(r.Faults[:MaxFaults], source.Fault{Kind: source.Unread, Severity: worst,
			Text: source.Say("check.more", "{0} more findings are not told: mend these first", more)})
	}
	slices.SortStableFunc(r.Counts, func(a, b Count) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Size, b.Size))
	})
}

// onceATopic leaves out notes on a matter that an error or a warning on the same line is about.
func onceATopic(f *source.File, faults []source.Fault) []source.Fault {
	type topic struct {
		line int
		kind source.Kind
	}
	of := func(x source.Fault) topic {
		line, _ := f.Position(x.At.Start)
		return topic{line, x.Kind}
	}
	told := map[topic]bool{}
	for _, x := range faults {
		if x.Severity != source.Note && x.At.Known() {
			told[of(x)] = true
		}
	}
	return slices.DeleteFunc(faults, func(x source.Fault) bool { return x.Severity == source.Note && told[of(x)] })
}

// mendForAll completes the mends of figures that stand once for all sizes: where only some
// sizes are wrong, the figure becomes a list, in which the others keep it.
func mendForAll(f *source.File, sizes int, faults []source.Fault) {
	lists := map[source.Span][]string{}
	each := func(do func(sizes source.SizeSet, e *source.Edit, why *any)) {
		for _, x := range faults {
			for _, m := range x.Mends {
				for i := range m.Edits {
					if m.Why.Key == knit.MendForAll {
						do(x.Sizes, &m.Edits[i], &m.Why.Args[i])
					}
				}
			}
		}
	}
	each(func(wrong source.SizeSet, e *source.Edit, _ *any) {
		if lists[e.At] == nil {
			lists[e.At] = slices.Repeat([]string{f.Slice(e.At)}, sizes)
		}
		for i := range sizes {
			if wrong.Has(i) {
				lists[e.At][i] = e.Text
			}
		}
	})
	each(func(_ source.SizeSet, e *source.Edit, why *any) {
		e.Text = pattern.List(pattern.FoldStrings(lists[e.At]))
		*why = e.Text
	})
}

package follow

import (
	"slices"

	"sockwright/internal/pattern"
	"sockwright/internal/script"
	"sockwright/internal/source"
)

// conventions are readings that are chosen once for a whole text.
type conventions struct {
	bareMore  bool // "rep rows 1 and 2 six times" comes on top of the first time
	beforeGap bool // "to the gap" means to 1 stitch before it
}

// trouble is how much goes wrong under a convention, over all sizes.
func (f *follower) trouble(conv conventions) (n int, finals []int) {
	problems := make([]int, len(f.script.Sizes))
	finals = make([]int, len(f.script.Sizes))
	eachSize(len(f.script.Sizes), func(size int) {
		w := f.worker(size, conv)
		problems[size] = len(f.run(w))
		finals[size] = w.finalNow()
	})
	for _, p := range problems {
		n += p
	}
	return n, finals
}

// settle chooses the conventions of the text. What nothing in the text settles is a fault;
// torn tells that then the counts at the end differ.
func (f *follower) settle() (conv conventions, faults []source.Fault, torn bool) {
	var bare []*entry
	gaps := false
	for i := range f.plan {
		e := &f.plan[i]
		if r, ok := e.item.(*script.Repeat); ok && r.Stop.Kind == script.Times && e.just {
			bare = append(bare, e)
		}
		if e.row != nil {
			for _, s := range e.row.Steps {
				gaps = gaps || s.To == script.Gap && !s.Minus.Known()
			}
		}
	}
	if len(bare) == 0 && !gaps {
		return conv, nil, false
	}
	base, finals := f.trouble(conv)
	if len(bare) > 0 {
		more := conventions{bareMore: true}
		n, other := f.trouble(more)
		switch {
		case n < base:
			conv, base = more, n
		case n == base:
			for _, e := range bare {
				if !f.inDoubt(e) { // else it may be settled by what could not be read
					faults = append(faults, f.unsettled(e))
				}
			}
			torn = !slices.Equal(finals, other)
		}
	}
	if gaps && base > 0 {
		before := conv
		before.beforeGap = true
		if n, _ := f.trouble(before); n < base {
			conv = before
			faults = append(faults, f.departures()...)
		}
	}
	return conv, faults, torn
}

// unsettled says that a repeat can be read in two ways.
func (f *follower) unsettled(e *entry) source.Fault {
	r := e.item.(*script.Repeat)
	x := source.Fault{At: r.At, Kind: source.Ambiguous, Severity: source.Warning,
		Text: source.Say("follow.bare", "“{0}” can mean so many times in all or so many times more, and nothing in the text settles it", f.script.File.Slice(r.At))}
	more := r.Stop.N
	less := more
	less.Val = slices.Clone(more.Val)
	for i := range less.Val {
		if less.Val[i] != pattern.Gap {
			less.Val[i]--
		}
	}
	x.Mends = []source.Mend{{Why: source.Say("follow.mend-bare", "write “{0} more times”, or “{1} more times” if the first is meant to be counted", pattern.List(more.Strings()), pattern.List(less.Strings()))}}
	return x
}

// departures reports rows that say "to the gap" where only "to 1 st before the gap" comes
// out as the text says.
func (f *follower) departures() (out []source.Fault) {
	for i := range f.plan {
		if f.plan[i].row == nil {
			continue
		}
		for _, s := range f.plan[i].row.Steps {
			if s.To == script.Gap && !s.Minus.Known() {
				out = append(out, source.Fault{At: s.At, Kind: source.Ambiguous, Severity: source.Error,
					Text:  source.Say("follow.to-gap", "worked to the gap, the next decrease takes two stitches beyond it; the counts come out only if it is worked across the gap"),
					Mends: []source.Mend{{Why: source.Say("follow.mend-to-gap", "write “to 1 st before the gap”")}}})
			}
		}
	}
	return out
}

package source

import (
	"cmp"
	"fmt"
	"math/bits"
	"slices"
	"strings"
)

// Together joins faults of one line that say the same with other figures for other sizes, so
// that people read "15 (17, 19) sts stated, but there are 14 (16, 18)" once. Where the figures
// stand for themselves nothing is joined. It is for print: a fault that was joined has no
// stated and actual figure of its own.
func Together(f *File, faults []Fault) []Fault {
	line := func(x Fault) int { n, _ := f.Position(x.At.Start); return n }
	out := make([]Fault, 0, len(faults))
	parts := map[int][]Fault{} // of the faults in out
next:
	for _, x := range faults {
		for i := len(out) - 1; i >= 0 && line(out[i]) == line(x); i-- {
			if x.Sizes != 0 && alike(parts[i], x) {
				parts[i] = append(parts[i], x)
				continue next
			}
		}
		parts[len(out)] = []Fault{x}
		out = append(out, x)
	}
	for i, all := range parts {
		if len(all) < 2 {
			continue
		}
		slices.SortStableFunc(all, func(a, b Fault) int {
			return cmp.Compare(bits.TrailingZeros64(uint64(a.Sizes)), bits.TrailingZeros64(uint64(b.Sizes)))
		})
		x := all[0]
		x.Stated, x.Actual, x.Mends = nil, nil, slices.Clone(x.Mends)
		texts := make([]Message, len(all))
		for k := range all {
			texts[k] = all[k].Text
			x.Sizes |= all[k].Sizes
		}
		x.Text, _ = inOne(texts)
		for m := range x.Mends {
			x.Mends[m].Edits = nil
			for k := range all {
				texts[k] = all[k].Mends[m].Why
				x.Mends[m].Edits = append(x.Mends[m].Edits, all[k].Mends[m].Edits...)
			}
			x.Mends[m].Why, _ = inOne(texts)
		}
		out[i] = x
	}
	return out
}

// alike tells whether a fault says the same as others, of sizes that none of them is about.
func alike(others []Fault, x Fault) bool {
	first := others[0]
	if x.Kind != first.Kind || x.Severity != first.Severity || len(x.Mends) != len(first.Mends) {
		return false
	}
	for _, o := range others {
		if o.Sizes == 0 || o.Sizes&x.Sizes != 0 {
			return false
		}
	}
	if _, ok := inOne([]Message{first.Text, x.Text}); !ok {
		return false
	}
	for m := range x.Mends {
		if _, ok := inOne([]Message{first.Mends[m].Why, x.Mends[m].Why}); !ok {
			return false
		}
	}
	return true
}

// inOne is one message for several that differ in their figures only.
func inOne(messages []Message) (Message, bool) {
	one := messages[0]
	one.Args = slices.Clone(one.Args)
	for _, m := range messages[1:] {
		if m.Key != one.Key || m.Text != one.Text || len(m.Args) != len(one.Args) {
			return one, false
		}
	}
	for i, arg := range one.Args {
		if inner, is := arg.(Message); is {
			all := []Message{inner}
			for _, m := range messages[1:] {
				other, is := m.Args[i].(Message)
				if !is {
					return one, false
				}
				all = append(all, other)
			}
			joined, ok := inOne(all)
			if !ok {
				return one, false
			}
			one.Args[i] = joined
			continue
		}
		texts := make([]string, len(messages))
		for k, m := range messages {
			texts[k] = fmt.Sprint(m.Args[i])
		}
		joined, ok := listed(texts)
		if !ok {
			return one, false
		}
		one.Args[i] = joined
	}
	return one, true
}

// listed is "15 (17, 19)" for figures and "15 (17, 19) sts" for stitches; what is the same for
// all stands once.
func listed(texts []string) (string, bool) {
	if !slices.ContainsFunc(texts, func(s string) bool { return s != texts[0] }) {
		return texts[0], true
	}
	var figures []string
	unit := ""
	for i, s := range texts {
		figure, u, _ := strings.Cut(s, " ")
		if u == "st" {
			u = "sts"
		}
		if i == 0 {
			unit = u
		}
		if u != unit || figure == "" || strings.Trim(figure, "0123456789.") != "" {
			return "", false
		}
		figures = append(figures, figure)
	}
	if unit != "" {
		unit = " " + unit
	}
	return figures[0] + " (" + strings.Join(figures[1:], ", ") + ")" + unit, true
}

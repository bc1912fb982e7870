package check

import (
	"sockwright/internal/pattern"
	"sockwright/internal/script"
	"sockwright/internal/source"
)

// multiples warns of a stitch pattern that is said to be a multiple of so many stitches, in
// which a row repeats another number: the one that is out of step with the others, or what is
// said if all rows agree.
func (e *editor) multiples() {
	var of pattern.Number
	var rows []*script.Row
	look := func() {
		said := of.In(0)
		var off []*script.Row
		for _, r := range rows {
			if said > 0 && said%repeats(r) != 0 {
				off = append(off, r)
			}
		}
		switch {
		case len(off) == 0 || len(of.Val) != 1:
		case len(off) == len(rows):
			uses := int(repeats(off[0]))
			e.say(of.At, e.all(), source.NotDividing, source.Warning, source.Say("edit.multiple", "said to be a multiple of {0} stitches, but its rows repeat {1}", said, uses),
				advice("edit.mend-multiple", "write {0}, or count the rows again", uses))
		default:
			for _, r := range off {
				e.say(r.At, e.all(), source.NotDividing, source.Warning, source.Say("edit.repeat-of", "this row repeats {0} stitches, but the pattern is said to be a multiple of {1}", int(repeats(r)), said),
					advice("edit.mend-repeat-of", "count this row again"))
			}
		}
		rows = nil
	}
	for i := range e.words.Lines {
		for _, item := range e.words.Lines[i].Items {
			switch n := item.(type) {
			case *script.Section:
				look()
				of = n.Multiple
			case *script.Row:
				if of.Known() && repeats(n) > 0 {
					rows = append(rows, n)
				}
			}
		}
	}
	look()
}

// repeats is how many stitches a row repeats to its end, 0 if it repeats none or that cannot
// be told.
func repeats(r *script.Row) (uses int32) {
	for _, s := range r.Steps {
		if s.Op != script.Group || s.Stop.Kind != script.ToEnd {
			continue
		}
		if uses > 0 {
			return 0
		}
		for _, b := range s.Body {
			if b.Op == script.Group || b.Op == script.Unknown || b.To != script.Here || b.Uses < 0 || len(b.N.Val) > 1 {
				return 0
			}
			times := int32(1)
			if b.N.Known() {
				times = b.N.In(0)
			}
			uses += times * int32(b.Uses)
		}
	}
	return uses
}

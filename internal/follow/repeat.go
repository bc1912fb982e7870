package follow

import (
	"slices"

	"sockwright/internal/pattern"
	"sockwright/internal/script"
	"sockwright/internal/source"
)

// times does something again and again; where it has stopped to change anything, the rest
// is only counted.
func (w *worker) times(n int, do func() *problem) *problem {
	for i := 0; i < n; i++ {
		before := w.n.clone()
		rows, noted := w.rowsWorked, w.rec.length()
		if p := do(); p != nil {
			return p
		}
		if w.stopped {
			return nil
		}
		each := w.rowsWorked - rows
		if left := n - i - 1; left > 2 && w.n.facing == before.facing && w.n.same(&before) {
			w.rowsWorked += each * left
			w.partRows += each * left
			if w.rec != nil {
				w.rec.more(noted, left)
			}
			if w.n.flat {
				w.flapRows += each * left
				if w.lastRow != nil && slipsFirst(w.lastRow.Steps) {
					w.slipRows += each * left
				}
			}
			if w.rowsWorked > maxRows {
				return w.tooLong(source.Span{})
			}
			return nil
		}
	}
	return nil
}

// repeat works rows again.
func (w *worker) repeat(e *entry, n *script.Repeat) (problems []*problem) {
	if !w.began {
		return nil
	}
	if len(e.rows) == 0 {
		w.countRows()
		w.rowsKnown = false
		if n.Ref.Pattern != "" || n.Stop.Kind == script.Measures || !w.known {
			return nil
		}
		p := w.fail(n.At, source.Unread, source.Say("follow.no-rows", "rows are to be worked again, but no such rows stand above"), nil, nil)
		p.fault.Severity = source.Warning
		return []*problem{p}
	}
	if !w.known {
		return nil
	}
	w.afterPick = false
	if n.Ref.Pattern != "" {
		w.pattern, w.lastPattern = e.all, 0
	}
	rows := e.rows
	if w.rec != nil {
		w.rec.again = true
		defer func() { w.rec.again = false }()
	}
	w.passes = nil
	if e.just {
		w.passes = append(w.passes, w.n.total())
	}
	work := func() *problem {
		defer func() { w.passes = append(w.passes, w.n.total()) }()
		for i, r := range rows {
			num := e.numOf(i)
			w.patternRow(r, num)
			w.quiet = i+1 < len(rows) && rows[i+1] == r && !r.Label.Said // "K 5 rnds" is noted once
			if p := w.workRow(r, num); p != nil {
				return p
			}
		}
		return nil
	}
	stop := n.Stop
	v := 0
	if stop.N.Known() {
		g := w.val(stop.N)
		if g == pattern.Gap {
			return nil
		}
		v = int(g)
	}
	var p *problem
	switch stop.Kind {
	case script.Times:
		if e.just && !w.conv.bareMore {
			v--
		}
		p = w.times(v, work)
	case script.InAll:
		if e.just {
			v--
		}
		p = w.times(v, work)
	case script.More:
		p = w.times(v, work)
	case script.Rows, script.MoreRows:
		if stop.Kind == script.Rows && w.n.flat {
			rule := stop.N
			w.flapRule = func(size int) int { return int(rule.In(size)) }
		}
		p = w.rowsMore(rows, e, stop, v)
	case script.Ridges:
		stop.Kind = script.Rows
		p = w.rowsMore(rows, e, stop, 2*v)
	case script.Measures:
		p = work()
		w.rowsKnown = false
		w.lastPattern = 0 // where it ends is not known, but if that is said
		if w.n.flat {
			w.n.facing = stop.Side.Other()
		}
		if p == nil && w.changesAny(rows) {
			// until a length: how often is not known
			w.lose()
		}
	case script.Remain:
		p = w.untilRemain(rows, e, &stop)
	case script.UsedUp:
		p = w.untilUsedUp(rows, e)
		if w.n.facing == script.NoSide {
			w.n.facing = stop.Side.Other()
		}
		problems = append(problems, w.checkAll(stop.Claims, e)...)
	case script.Wrapped, script.Unwrapped:
		p = w.untilWrapped(rows, &stop)
		if p == nil {
			problems = append(problems, w.checkWraps(stop.Claims)...)
		}
	case script.Split:
		if e.split != nil { // the lines behind are checked by themselves
			stop.Claims = e.split
			p = w.untilSplit(rows, &stop)
		} else if p = w.untilSplit(rows, &stop); p == nil {
			problems = append(problems, w.checkAll(stop.Claims, e)...)
		}
	default:
		p = work()
	}
	if stop.Row > 0 && len(rows) > 0 {
		w.patternRow(rows[0], stop.Row)
	}
	if p == nil {
		if p := w.checkEnd(&stop); p != nil {
			problems = append(problems, p)
		}
	}
	if p != nil {
		if p.fault.At == (source.Span{}) {
			p.fault.At = n.At
		}
		problems = append(problems, p)
	}
	return problems
}

// checkEnd compares the side of the last of so many rows with what is said of it: "until 28 rows
// are worked, ending with a WS row".
func (w *worker) checkEnd(stop *script.Stop) *problem {
	switch stop.Kind {
	case script.Rows, script.MoreRows, script.Times, script.InAll, script.More, script.Ridges, script.UsedUp:
	default:
		return nil
	}
	last := w.n.facing.Other()
	if stop.Side == script.NoSide || last == script.NoSide || last == stop.Side || !w.n.flat || !w.known || w.firstRow {
		return nil
	}
	p := w.remark(stop.At, source.Direction, source.Say("follow.end-side", "the last of these rows is said to be a {0} row, but it is a {1} row", stop.Side, last), nil, nil)
	p.fault.Mends = []source.Mend{{Why: source.Say("follow.mend-end-side", "end with a {0} row, or work a row more or less", last)}}
	return p
}

// changesAny tells whether rows leave more or fewer stitches than they find.
func (w *worker) changesAny(rows []*script.Row) bool {
	c := w.clone()
	for _, r := range rows {
		if p := c.workRow(r, 0); p != nil {
			return false
		}
	}
	return c.known && c.n.total() != w.n.total()
}

// rowsMore works rows until so many are worked in all, or so many more.
func (w *worker) rowsMore(rows []*script.Row, e *entry, stop script.Stop, v int) *problem {
	if stop.Kind == script.Rows {
		v -= w.partRows
	}
	if v > maxRows {
		return w.tooLong(stop.At)
	}
	if len(rows) == 0 {
		return nil
	}
	full := func() *problem {
		for i, r := range rows {
			if p := w.workRow(r, e.numOf(i)); p != nil {
				return p
			}
		}
		return nil
	}
	if v > 0 {
		if over := v % len(rows); over > 0 && w.n.flat && stop.Side == script.NoSide && stop.Row == 0 && stop.Kind != script.Ridges {
			p := w.remark(stop.N.Span(w.size), source.Parity, source.Say("follow.part-of-repeat", "the {0} rows more that this takes are not whole repeats of {1} rows: {2} more", v, len(rows), over), nil, nil)
			p.fault.Severity = source.Warning
			w.soft = append(w.soft, p)
		}
		if p := w.times(v/len(rows), full); p != nil {
			return p
		}
		for _, r := range rows[:v%len(rows)] {
			if p := w.workRow(r, 0); p != nil {
				return p
			}
		}
	}
	return nil
}

// untilRemain works rows until a count is reached. One that is passed over is a fault.
func (w *worker) untilRemain(rows []*script.Row, e *entry, stop *script.Stop) *problem {
	v := w.val(stop.N)
	if v == pattern.Gap {
		return nil
	}
	want := int(v)
	at := stop.N.Span(w.size)
	last := w.measure()
	if last == want {
		return nil
	}
	for pass := 0; pass < 5000; pass++ {
		before := w.n.clone()
		for i, r := range rows {
			if p := w.workRow(r, e.numOf(i)); p != nil {
				if w.measure() != want { // it ran out of stitches on the way
					p.fault.At = at
				}
				return p
			}
			now := w.measure()
			if now == want {
				return nil
			}
			if past(last, want, now) {
				p := w.passed(at, want, last, now)
				p.fault.Mends = []source.Mend{{Why: source.Say("follow.mend-passed", "{0} or {1} can be reached", last, now)}}
				return p
			}
			last = now
		}
		if w.n.same(&before) || !w.known || w.stopped {
			if w.stopped || !w.known {
				return nil
			}
			break
		}
	}
	return w.never(at, want, last)
}

// past tells whether a count that is wanted lies between the last one and the one now.
func past(last, want, now int) bool { return (last-want)*(now-want) < 0 }

// passed says that a count is passed over.
func (w *worker) passed(at source.Span, want, last, now int) *problem {
	return w.fail(at, source.Parity, source.Say("follow.passed", "{0} cannot be reached: the count goes {1}, {2}", source.InSts(want), last, now), source.Sts(want), source.Sts(last))
}

// never says that a count is not reached, for it stays what it is.
func (w *worker) never(at source.Span, want, last int) *problem {
	return w.fail(at, source.StitchCount, source.Say("follow.never", "{0} are never reached: the rows that are repeated leave {1}", source.InSts(want), source.InSts(last)), source.Sts(want), source.Sts(last))
}

// measure is the count that an aim speaks of: of the part worked flat, or of all.
func (w *worker) measure() int {
	if w.n.flat {
		return w.n.worked()
	}
	return w.n.total()
}

// untilUsedUp works the rows of a heel turn until no stitch waits beyond a gap.
func (w *worker) untilUsedUp(rows []*script.Row, e *entry) *problem {
	if w.wrapsAnywhere() { // the second half of a short-row heel
		w.n.dropGaps()
		w.n.begin()
		w.n.facing = script.NoSide
		return nil
	}
	w.turning = true
	for pass := 0; pass < 2000; pass++ {
		for i, r := range rows {
			if !w.n.gaps() && count(w.n.right) == 0 {
				return nil
			}
			if a, b := w.n.waiting(); a == 0 && b == 0 && !w.n.gaps() {
				return nil
			}
			before := w.n.worked()
			if p := w.workRow(r, e.numOf(i)); p != nil {
				return p
			}
			if w.n.worked() == before && pass > 1000 {
				return nil
			}
		}
		if !w.known || w.stopped {
			return nil
		}
	}
	return nil
}

func (w *worker) wrapsAnywhere() bool {
	return w.hasWraps() || slices.ContainsFunc(w.n.right, func(c cell) bool { return c.wraps })
}

// wrappedAfter counts wrapped stitches at the two sides and the others, before a row is worked.
// One that begins by doubling its first stitch makes that of the turn before it.
func (w *worker) wrappedAfter(next *script.Row) (a, none, b int) {
	if tip := len(w.n.left) - 1; len(next.Steps) > 0 && next.Steps[0].Name == "ds" && tip >= 0 && w.n.left[tip].mark == stitch && !w.n.left[tip].wraps {
		w.n.left[tip].wraps = true
	}
	return w.n.wrapped()
}

func (w *worker) untilWrapped(rows []*script.Row, stop *script.Stop) *problem {
	v := int(w.val(stop.N))
	for pass := 0; pass < 2000; pass++ {
		for _, r := range rows {
			a, none, b := w.wrappedAfter(r)
			if stop.Kind == script.Wrapped && a >= v && b >= v || stop.Kind == script.Unwrapped && none <= v {
				return nil
			}
			if p := w.workRow(r, 0); p != nil {
				return p
			}
		}
		if !w.known || w.stopped {
			return nil
		}
	}
	return w.fail(stop.At, source.StitchCount, source.Say("follow.never-wrapped", "that is never reached"), nil, nil)
}

// checkWraps compares what is said of wrapped and unwrapped stitches.
func (w *worker) checkWraps(claims []script.Claim) (out []*problem) {
	a, none, b := w.n.wrapped()
	if a == 0 && b == 0 {
		return nil
	}
	for _, c := range claims {
		if c.What == script.WrapEach && !c.N.Known() { // as many at one side as at the other
			if a != b {
				p := w.remark(c.At, source.Parity, source.Say("follow.uneven-wraps", "{0} less {1} in the middle cannot be halved: {2} are wrapped at one side and {3} at the other", source.InSts(a+none+b), none, a, b), source.Sts(none), nil)
				out = append(out, p)
			}
			continue
		}
		v := int(w.val(c.N))
		switch c.What {
		case script.WrapEach:
			if v != a && v != b {
				out = append(out, w.wrongCount(c, v, a, "wrapped at each side"))
			}
		case script.WrapNone:
			if v != none {
				out = append(out, w.wrongCount(c, v, none, "not wrapped"))
			}
		}
	}
	return out
}

// sumOf is how many stitches are stated of needles or parts together.
func (w *worker) sumOf(claims []script.Claim) (sum int) {
	for _, c := range claims {
		k := 1
		if c.What == script.EachNdl {
			k = w.needlesInUse()
		}
		sum += k * int(w.val(c.N))
	}
	return sum
}

// untilSplit works rows until counts on the needles are as stated, in whatever order.
func (w *worker) untilSplit(rows []*script.Row, stop *script.Stop) *problem {
	sum := w.sumOf(stop.Claims)
	each := slices.ContainsFunc(stop.Claims, func(c script.Claim) bool { return c.What == script.OfPart || c.What == script.Between })
	for pass := 0; pass < 2000; pass++ {
		for _, r := range rows {
			if each {
				bad := w.clone()
				if len(bad.checkAll(stop.Claims, nil)) == 0 {
					return nil
				}
			} else if w.n.total() <= sum {
				return nil
			}
			if p := w.workRow(r, 0); p != nil {
				p.fault.At = stop.At // it ran out of stitches on the way
				return p
			}
		}
		if !w.known || w.stopped {
			return nil
		}
	}
	return w.fail(stop.At, source.StitchCount, source.Say("follow.never-split", "that is never reached"), nil, nil)
}

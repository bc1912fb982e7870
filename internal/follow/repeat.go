package follow

import (
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
		if w.doubted { // they may be those that could not be read
			return []*problem{{untold: true}}
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
	if n.Ref.Last > 0 {
		e = e.lastOf(w.size, n.Ref)
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
	v, ok := w.figure(stop.N, 0)
	if !ok {
		return nil
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

// lastOf is a repeat of the last so many rows of those that are worked in a size.
func (e *entry) lastOf(size int, ref script.Ref) *entry {
	mine := *e
	mine.rows, mine.nums = nil, nil
	for i, r := range e.rows {
		if r.Sizes == 0 || r.Sizes.Has(size) {
			mine.rows, mine.nums = append(mine.rows, r), append(mine.nums, e.numOf(i))
		}
	}
	k := ref.Last
	if ref.Each.Known() {
		k = int(ref.Each.In(size))
	}
	if k >= 0 && k < len(mine.rows) {
		mine.rows, mine.nums = mine.rows[len(mine.rows)-k:], mine.nums[len(mine.nums)-k:]
	}
	return &mine
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

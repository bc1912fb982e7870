package follow

import (
	"slices"

	"sockwright/internal/script"
	"sockwright/internal/source"
)

// untilRemain works rows until a count is reached. One that is passed over is a fault.
func (w *worker) untilRemain(rows []*script.Row, e *entry, stop *script.Stop) *problem {
	want, ok := w.figure(stop.N, 0)
	if !ok {
		return nil
	}
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

// onTheseNeedles is how many stitches lie on the needles that claims speak of: all where they do not
// name needles.
func (w *worker) onTheseNeedles(claims []script.Claim) (sum int) {
	for _, c := range claims {
		on, told := w.n.onNeedle(c.Needle)
		if c.What != script.OnNdl || c.Needle == 0 || !told {
			return w.n.total()
		}
		sum += on
	}
	return sum
}

// untilSplit works rows until counts on the needles are as stated, in whatever order.
func (w *worker) untilSplit(rows []*script.Row, stop *script.Stop) *problem {
	sum := w.sumOf(stop.Claims)
	each := slices.ContainsFunc(stop.Claims, func(c script.Claim) bool { return c.What == script.OfPart || c.What == script.Between })
	grows := w.onTheseNeedles(stop.Claims) < sum
	for pass := 0; pass < 2000; pass++ {
		for _, r := range rows {
			if each {
				bad := w.clone()
				if len(bad.checkAll(stop.Claims, nil)) == 0 {
					return nil
				}
			} else if have := w.onTheseNeedles(stop.Claims); have == sum || grows == (have > sum) {
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

// untilLength works until a length is reached: how many rows that takes is not told, so
// neither is the side that faces then.
func (w *worker) untilLength() {
	w.rowsKnown = false
	if w.n.flat {
		w.n.facing = script.NoSide
	}
}

// turnUntil works a row that turns, again and again, until what is to hold then does.
func (w *worker) turnUntil(r *script.Row, stop *script.Stop) *problem {
	switch stop.Kind {
	case script.Split:
		return w.untilSplit([]*script.Row{r}, stop)
	case script.Wrapped, script.Unwrapped:
		return w.untilWrapped([]*script.Row{r}, stop)
	}
	return w.untilUsedUp([]*script.Row{r}, &entry{})
}

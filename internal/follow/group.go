package follow

import (
	"sockwright/internal/script"
	"sockwright/internal/source"
)

// group works a repeat within a row.
func (w *worker) group(rw *rowWork, s *script.Step) *problem {
	stop := s.Stop
	n, ok := w.figure(stop.N, 1)
	if !ok && stop.Kind != script.ToEnd {
		return nil
	}
	body := func() *problem {
		for i := range s.Body {
			if w.moves++; w.moves > maxMoves {
				return w.tooMuch(s.At)
			}
			if p := w.step(rw, &s.Body[i]); p != nil {
				return p
			}
		}
		return nil
	}
	switch stop.Kind {
	case script.NoStop: // all in one stitch
		made := 0
		for i := range s.Body {
			k, _ := w.figure(s.Body[i].N, 1)
			made += k * max(int(s.Body[i].Makes), 0)
		}
		return w.each(rw, &script.Step{At: s.At, Op: script.Increase, Uses: 1, Makes: int8(min(made, 100))}, 1)
	case script.Reps:
	case script.Times:
		n += rw.more
	case script.More:
		n++
	case script.ToEnd:
		return w.toEnd(rw, s, body)
	}
	if n > 1 && n <= 4 && perNeedle(s.Body) && rw.group == nil && rw.ndl == 0 { // once for each needle
		k := n
		if _, told := w.n.onNeedle(1); !told {
			w.layOver(max(k, 2))
		}
		defer func() { rw.group = nil }()
		for i := range n {
			rw.group = &scope{ndl: w.nextNeedle()}
			if p := body(); p != nil {
				return p
			}
			if left := w.avail(rw); left > 0 && i < n-1 {
				return w.fail(s.At, source.StitchCount, source.Say("follow.half-left", "{0} leaves {1} of a needle unworked", rw.label, source.InSts(left)), nil, source.Sts(left))
			}
		}
		return nil
	}
	for range n {
		if p := body(); p != nil {
			return p
		}
	}
	return nil
}

// toEnd works a repeat as often as it fits.
func (w *worker) toEnd(rw *rowWork, s *script.Step, body func() *problem) *problem {
	keep, ok := w.figure(s.Stop.N, 0)
	if !ok {
		keep = 0
	}
	sub := *rw
	to := s.Stop.To
	switch {
	case s.Stop.Needle > 0:
		sub.ndl, sub.part = s.Stop.Needle, 0
	case s.Stop.Part != 0:
		sub.part, sub.ndl = s.Stop.Part, 0
	}
	reach := func() (int, *problem) {
		if to != script.Here && to != script.End {
			return w.distance(&sub, &script.Step{At: s.At, To: to, Minus: s.Stop.N})
		}
		n := w.avail(&sub)
		if n < keep {
			return 0, w.short(rw, s, keep, n)
		}
		return n - keep, nil
	}
	left, p := reach()
	if p != nil {
		return p
	}
	if left == 0 && rw.pickup {
		if w.bring(rw) {
			left, p = reach()
			if p != nil {
				return p
			}
		}
	}
	uses, fixed := w.uses(s.Body)
	if fixed && uses > 0 {
		if left%uses != 0 {
			return w.notDividing(rw, s.At, uses, left)
		}
	}
	for pass := 0; left > 0; pass++ {
		if p := body(); p != nil {
			return p
		}
		next, p := reach()
		if p != nil {
			return p
		}
		if next >= left {
			return w.fail(s.At, source.NotDividing, source.Say("follow.endless", "the repeat never comes to its end: a pass of it uses no stitches"), nil, nil)
		}
		left = next
	}
	return nil
}

// uses is how many stitches one pass of steps takes; fixed is false if that depends.
func (w *worker) uses(steps []script.Step) (n int, fixed bool) {
	for i := range steps {
		s := &steps[i]
		k, ok := w.figure(s.N, 1)
		if !ok {
			continue
		}
		switch {
		case s.Op == script.Group:
			if s.Stop.Kind == script.NoStop {
				n++
				continue
			}
			if s.Stop.Kind != script.Reps {
				return 0, false
			}
			each, ok := w.uses(s.Body)
			if !ok {
				return 0, false
			}
			if times, ok := w.figure(s.Stop.N, 1); ok {
				n += each * times
			}
		case s.To != script.Here:
			return 0, false
		case s.Op == script.Unknown:
			return 0, false
		case s.Op == script.PassOver:
		default:
			n += int(s.Uses) * k
		}
		if n > MaxLive {
			return 0, false
		}
	}
	return n, true
}

func (w *worker) notDividing(rw *rowWork, at source.Span, uses, left int) *problem {
	low, high := left-left%uses, left-left%uses+uses
	p := w.fail(at, source.NotDividing, source.Say("follow.not-dividing", "{0}: the repeat takes {1}, which does not divide {2}: {3} are left over", rw.label, source.InSts(uses), left, left%uses), source.Sts(left), source.Sts(low))
	p.fault.Mends = []source.Mend{{Why: source.Say("follow.mend-dividing", "{0} or {1} would fit", low, high)}}
	return p
}

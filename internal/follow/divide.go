package follow

import (
	"slices"

	"sockwright/internal/pattern"
	"sockwright/internal/script"
	"sockwright/internal/source"
)

// divide sets the heel apart.
func (w *worker) divide(n *script.Divide) *problem {
	w.fromEdge = false
	v, ok := w.figure(n.N, -1)
	if !ok {
		if w.began && w.known {
			w.total = w.n.total()
		}
		w.known = false
		w.n.flat = true
		return nil
	}
	if more, ok := w.figure(n.Plus, 0); ok && v >= 0 {
		v += more
	}
	if v > MaxLive {
		return w.fail(n.N.Span(w.size), source.StitchCount, source.Say("follow.too-wide", "more than {0} stitches on the needles: no sock has so many", MaxLive), nil, nil)
	}
	if !w.began || !w.known {
		if v < 0 {
			return nil
		}
		total, doubt := w.total, w.doubt
		w.establish(v)
		w.doubt = doubt & ofCount
		w.untold = total < 0
		w.n.flat = true
		w.n.restInstep(total - v)
		w.markHeel()
		w.n.facing = n.Side
		w.firstRow = n.Side == script.NoSide
		w.newFlap()
		return nil
	}
	if w.n.flat {
		if n.Part == script.Instep {
			return nil
		}
		w.heelCount = w.n.worked()
		if n.From == script.Centre && v >= 0 && w.n.restBeside(v) {
			return nil
		}
		if v >= 0 && v != w.n.worked() {
			p := w.remark(n.N.Span(w.size), source.StitchCount, source.Say("follow.heel", "the heel is said to be {0}, but {1} are in work", source.InSts(v), w.n.worked()), source.Sts(v), source.Sts(w.n.worked()))
			p.fault.Mends = []source.Mend{w.write(n.N, w.n.worked())}
			return p
		}
		return nil
	}
	all := w.n.total()
	if n.These && n.Part == script.Instep { // "slip these sts on a holder": those just worked
		v = w.justWorked
	}
	if n.Part == script.Instep && v > 0 && v < all { // the others are the heel
		other := *n
		other.Part, other.N, other.Plus = script.Heel, pattern.Of(all-v), pattern.Number{}
		other.From = script.Last
		if n.From == script.Last || n.These {
			other.From, other.These = script.First, false
		}
		return w.divide(&other)
	}
	onPart := script.NoPart // "on the sts of the back needle"
	if n.From == script.OnNeedle && n.Needle == 0 {
		if onPart = w.partHere(script.Sole); onPart != script.NoPart {
			on, _ := w.n.inPart(onPart)
			if v < 0 {
				v = on
			}
			if v != on {
				p := w.remark(n.N.Span(w.size), source.StitchCount, source.Say("follow.heel-part", "the heel is said to be {0}, but its needle has {1}", source.InSts(v), on), source.Sts(v), source.Sts(on))
				w.soft = append(w.soft, p)
				v = on
			}
		}
	} else if n.From == script.OnNeedle {
		w.needNeedles(max(2, n.Needle))
		on, _ := w.n.onNeedle(n.Needle)
		if v >= 0 && on != v {
			p := w.remark(n.N.Span(w.size), source.StitchCount, source.Say("follow.heel-needle", "needle {0} is said to hold {1}, but it has {2}", n.Needle, source.InSts(v), on), source.Sts(v), source.Sts(on))
			w.soft = append(w.soft, p)
		}
		v = on
	}
	if v < 0 {
		if v = all / 2; all%2 != 0 {
			p := w.remark(n.At, source.Parity, source.Say("follow.heel-half", "half of {0} is no whole number", source.InSts(all)), source.Sts(all), nil)
			p.fault.Mends = []source.Mend{{Why: source.Say("follow.mend-half", "say how many the heel has: {0} or {1}", v, v+1)}}
			w.soft = append(w.soft, p)
		}
	}
	if v < 1 {
		return w.fail(n.At, source.StitchCount, source.Say("follow.heel-all", "the heel is to be {0} of {1}", v, source.InSts(all)), source.Sts(v), source.Sts(all))
	}
	if v > all {
		return w.fail(n.N.Span(w.size), source.StitchCount, source.Say("follow.heel-all", "the heel is to be {0} of {1}", v, source.InSts(all)), source.Sts(v), source.Sts(all))
	}
	w.n.begin()
	cells := make([]cell, 0, all)
	for _, c := range slices.Backward(w.n.left) {
		if c.mark == stitch {
			cells = append(cells, c)
		}
	}
	var heel, rest []cell
	switch {
	case onPart != script.NoPart:
		for _, c := range cells {
			if c.part == onPart {
				heel = append(heel, c)
			} else {
				rest = append(rest, c)
			}
		}
	case n.From == script.OnNeedle && n.Needle > 0:
		for _, c := range cells {
			if int(c.ndl) == n.Needle {
				heel = append(heel, c)
			} else {
				rest = append(rest, c)
			}
		}
	case n.From == script.Last, n.From == script.OnNeedle:
		heel, rest = cells[all-v:], cells[:all-v]
	default:
		heel, rest = cells[:v], cells[v:]
	}
	w.n.left = reversed(heel)
	w.n.right = nil
	w.n.held = slices.Clone(rest)
	for i := range w.n.held {
		w.n.held[i].part = script.Instep
	}
	w.n.flat = true
	facing := script.RS
	if w.n.facing == script.WS && !w.facingSaid {
		facing = script.WS
	}
	w.n.facing = facing
	if n.Turn {
		w.n.facing = script.WS
	}
	if n.Side != 0 {
		w.n.facing = n.Side
	}
	w.firstRow = !n.Turn && n.Side == 0 && !w.facingSaid
	w.facingSaid = false
	w.fabric = n.Fabric
	w.markHeel()
	w.newFlap()
	w.certain(ofLayout)
	return nil
}

func (w *worker) markHeel() {
	for i := range w.n.left {
		w.n.left[i].part = script.Heel
	}
	w.heelCount = w.n.worked()
}

func (w *worker) endFlap() { w.edges, w.turning = false, false }

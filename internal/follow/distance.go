package follow

import (
	"slices"

	"sockwright/internal/script"
	"sockwright/internal/source"
)

// distance counts the stitches up to where a step goes.
func (w *worker) distance(rw *rowWork, s *script.Step) (int, *problem) {
	minus, ok := w.figure(s.Minus, 0)
	if !ok {
		minus = 0
	}
	before := func(n int) (int, *problem) { // so many stitches before it
		if n < minus {
			return 0, w.short(rw, s, minus, n)
		}
		return n - minus, nil
	}
	sub := *rw
	if s.Needle > 0 {
		sub.ndl, sub.part = s.Needle, 0
		w.needNeedles(s.Needle)
	} else if s.Part != 0 && s.To != script.MidMark {
		sub.part, sub.ndl = s.Part, 0
		if part := w.partHere(s.Part); s.To == script.End && (part != script.NoPart || s.Part == script.Heel) {
			sub.part = part
		}
	}
	if s.Name == "needle" && rw.ndl == 0 && rw.group == nil {
		w.needNeedles(2)
		if len(w.n.left) > 0 {
			sub.group = &scope{ndl: w.nextNeedle()}
		}
	}
	switch s.To {
	case script.End:
		if s.Part == script.Middle { // of the stitches between those that rest
			sub.part = rw.part
		}
		n := w.avail(&sub)
		if s.Part == script.Middle {
			n -= min(w.n.restL, n)
		}
		switch {
		case s.Needle == 0:
		case rw.pickup:
			n = w.toNeedleEnd(rw, s.Needle)
		case n == 0 && rw.ndl == 0: // over other needles
			n = w.throughNeedle(s.Needle)
		}
		return before(n)
	case script.PartEnd:
		if rw.pickup && s.Part == script.Instep && s.Name != "before" {
			w.passHeel()
			if len(w.n.held) > 0 {
				w.bring(rw)
			}
			return w.avail(rw), nil
		}
		if rw.pickup && s.Needle > 0 {
			return w.needleInPickUp(rw, s.Needle), nil
		}
		if rw.pickup {
			return w.avail(rw), nil
		}
		if s.Name == "before" || s.Needle > 0 && s.Minus.Known() { // up to where the part begins
			n, _ := w.n.stitchesTo(func(c cell) bool {
				return c.mark == stitch && (s.Part != 0 && c.part == s.Part || s.Needle > 0 && int(c.ndl) == s.Needle)
			})
			return before(n)
		}
		n := w.avail(&sub)
		if n == 0 && w.n.flat && (s.Part == script.Heel || s.Part == script.Sole) {
			n = w.avail(rw)
		}
		if n == 0 && !w.n.flat { // its stitches are not told apart: half of them
			if _, told := w.n.inPart(s.Part); !told {
				n = min((rw.before+1)/2, w.avail(rw))
			}
		}
		return n, nil
	case script.Gap, script.WrapMark:
		wraps := w.hasWraps()
		n, found := w.n.stitchesTo(func(c cell) bool {
			if s.To == script.Gap {
				return c.mark == gap
			}
			return c.wraps || c.mark == loop || c.mark == gap && !wraps
		})
		if s.To == script.Gap && minus == 0 && w.conv.beforeGap {
			minus = 1
		}
		if !found {
			what := "gap"
			if s.To == script.WrapMark {
				what = "wrapped st"
			}
			return 0, w.fail(s.At, source.StitchCount, source.Say("follow.no-gap", "{0} goes to a {1}, but none lies ahead: every stitch on this side has been worked", rw.label, what), nil, nil)
		}
		return before(n)
	case script.Marker:
		n, found := w.n.stitchesTo(func(c cell) bool {
			return c.mark == marker && (s.Name == "" || c.name == 0 && s.Name != "bor" || c.name == letter(s.Name))
		})
		if found {
			return before(n)
		}
		begins := w.markers == 0 && s.Name == "" && w.doubt&ofMarkers != 0 // words that could not be read may have marked the beginning
		if (s.Name == "bor" || begins) && n >= minus {
			return n - minus, nil
		}
		if w.markers == 0 && !w.bor || s.Name != "" {
			return 0, w.noMarker(rw, s)
		}
		if n >= minus && w.markers <= 1 { // the marker at the beginning of the round
			return n - minus, nil
		}
		return 0, w.noMarker(rw, s)
	case script.SideMark:
		half := (rw.before + 1) / 2
		done := rw.before - w.avail(rw)
		n := half - done
		if done >= half || rw.group != nil {
			n = w.avail(rw)
		}
		return before(n)
	case script.MidMark:
		n := w.avail(rw)
		if s.Name == "half" {
			heel := w.heelCount
			if rw.pickup {
				if n, _ := w.n.inPart(script.Heel); n > 0 {
					heel = n
				}
				if w.upTo(rw, 1) == 0 {
					w.bring(rw)
				}
				return heel / 2, nil
			}
			return n / 2, nil
		}
		return max(n/2-minus, 0), nil
	}
	return 0, nil
}

// toNeedleEnd counts the stitches to the end of a needle in a row that picks up; they may lie
// beyond the end of the round.
func (w *worker) toNeedleEnd(rw *rowWork, ndl int) int {
	if w.upTo(rw, 1) == 0 {
		w.bring(rw)
	}
	n, _ := w.n.stitchesTo(func(c cell) bool { return c.mark == stitch && int(c.ndl) != ndl })
	return n
}

// needleInPickUp counts the stitches of a needle that a row which picks up works whole: it may rest
// until then. Where stitches that rest are not told by needles, they are all there is.
func (w *worker) needleInPickUp(rw *rowWork, ndl int) int {
	if w.nextNeedle() != uint8(ndl) && w.n.flat {
		if w.passHeel(); len(w.n.held) > 0 {
			w.bring(rw)
		}
	}
	n, _ := w.n.stitchesTo(func(c cell) bool { return c.mark == stitch && int(c.ndl) != ndl })
	if n == 0 && w.nextNeedle() == 0 {
		return w.avail(rw)
	}
	return n
}

// throughNeedle counts the stitches up to the end of a needle, those of needles before it
// included.
func (w *worker) throughNeedle(ndl int) (n int) {
	passed := 0
	for _, c := range slices.Backward(w.n.left) {
		if c.mark == stitch {
			passed++
			if int(c.ndl) == ndl {
				n = passed
			}
		}
	}
	return n
}

func (w *worker) noMarker(rw *rowWork, s *script.Step) *problem {
	p := w.fail(s.At, source.Marker, source.Say("follow.no-marker", "{0} goes to a marker here, but no line places one", rw.label), nil, nil)
	p.fault.Mends = []source.Mend{{Why: source.Say("follow.mend-marker", "place the markers in the rnd before")}}
	return p
}

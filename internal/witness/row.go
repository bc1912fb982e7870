package witness

import (
	"fmt"
	"slices"
)

// A needleWorker is where the words of a row have got to.
type needleWorker struct {
	split       bool // the words name the needles
	scoped      bool // the words are for one needle, which ends at needleEnd
	unknown     int  // the needle whose end nothing has fixed, or zero
	used        int  // stitches used by the words
	first       stepKind
	started     bool // a stitch has been worked; first says how
	short       bool // there were too few stitches
	moved       bool // where the needles end is no longer known
	wasteBefore int  // stitches that waste yarn held before the row
	plain       bool // the whole round is one stitch all over: it slips markers as it comes to them
}

// round works one round, or a part of one.
func (s *sock) round(l *line) {
	if l.label.side == wrongSide || s.ws {
		s.wrong(0, 0, "the right side faces in a rnd")
	}
	if s.ws {
		s.left, s.right = reversed(s.right), reversed(s.left)
		s.ws = false
	}
	partial := l.label.kind == partialRow
	if s.flat {
		if !l.picks {
			s.wrong(0, 0, "a rnd while the heel is flat")
		}
		s.join(len(l.needles))
	} else {
		started := stitches(s.right) > 0
		if i := slices.Index(s.left, roundStart); i >= 0 && stitches(s.left[:i]) > 0 {
			started = true
		}
		if started && !partial {
			s.wrong(0, 0, "the rnd does not begin here")
			s.left, s.right = without(slices.Concat(s.left, s.right), needleEnd), nil
		}
		s.left, s.right = without(s.left, roundStart), without(s.right, roundStart)
	}
	s.turned, s.begun = none, false
	if l.turn {
		s.wrong(0, 0, "a rnd is not turned")
	}
	s.words(l)
	if !partial {
		s.left, s.right = s.right, nil
	}
}

// row works one row, or a part of one, and turns.
func (s *sock) row(l *line) {
	partial := l.label.kind == partialRow && !l.turn
	if !s.flat {
		if l.label.kind != setUpRow && !partial {
			s.wrong(0, 0, "a row in the round")
			s.round(&line{label: label{round: true}, needles: l.needles, split: l.split, picks: l.picks, change: l.change, down: l.down})
			return
		}
		s.left, s.right = without(s.left, needleEnd), without(s.right, needleEnd)
		if !slices.Contains(s.left, roundStart) && !slices.Contains(s.right, roundStart) {
			s.markStart()
		}
	}
	if s.flat && s.stopped {
		s.wrong(0, 0, "a row begins in the middle of another")
		s.right, s.left = append(s.right, s.left...), nil
		s.turn()
	}
	s.stopped, s.begun = partial, false
	switch {
	case l.label.side == rightSide && s.ws:
		s.wrong(0, 0, "the wrong side faces, not the right")
	case l.label.side == wrongSide && !s.ws:
		s.wrong(0, 0, "the right side faces, not the wrong")
	}
	from, to := rightEdge, leftEdge
	if s.ws {
		from, to = leftEdge, rightEdge
	}
	atEdge := stitches(s.right) == 0
	s.words(l)
	s.left, s.right = without(s.left, needleEnd), without(s.right, needleEnd)
	if !s.flat {
		s.turned = none
		if !partial {
			s.turned = stitches(s.right)
			s.turn()
		}
		return
	}
	if atEdge && s.started {
		s.slipped[from] = s.first == slip
		if stitches(s.left) == 0 && !partial {
			s.wholeRows++
			if s.first == slip {
				s.slips++
			}
		}
	}
	if partial {
		return
	}
	s.leave(l)
	if !s.gapped {
		s.edgeRows++
		if stitches(s.left) == 0 || s.left[0] == gapItem && resting(s.left) {
			if s.slipped[to] {
				s.chain[to]++
			}
			s.slipped[to] = false
		}
	}
	s.turn()
	if l.turn && l.leaves == doubledSt {
		s.double()
	}
}

// markStart puts the beginning of the round before the first stitch of it.
func (s *sock) markStart() {
	if stitches(s.right) == 0 {
		s.left = slices.Insert(slices.Clone(s.left), 0, roundStart)
	} else {
		s.right = slices.Insert(slices.Clone(s.right), 0, roundStart)
	}
}

// turn turns the work.
func (s *sock) turn() {
	s.left, s.right = reversed(s.right), reversed(s.left)
	s.ws = !s.ws
	if !s.flat { // the stitches run around
		s.left, s.right = append(s.left, s.right...), nil
	}
}

// words works the words of a row, which begins.
func (s *sock) words(l *line) {
	before := s.total()
	s.needleWorker = needleWorker{split: l.split, wasteBefore: s.waste}
	if one := l.needles[0]; l.label.round && !l.split && len(one) == 1 && one[0].kind == toEnd && one[0].n.at(s.size) == 0 {
		s.plain = true
	}
	laid := layout(s.left)
	partial := l.label.kind == partialRow
	if !l.split {
		s.steps(l.needles[0])
		if !partial && !l.turn {
			s.finish("")
		}
	} else {
		if !partial && laid != nil && len(laid) != len(l.needles) {
			s.wrong(len(l.needles), len(laid), "the needles")
		}
		for i, steps := range l.needles {
			s.scoped, s.unknown, s.used, s.short = laid != nil, 0, 0, false
			if laid == nil && (partial || i < len(l.needles)-1) {
				s.unknown = i + 1
			}
			if laid != nil && i >= len(laid) {
				break
			}
			s.steps(steps)
			switch {
			case partial && i == len(l.needles)-1: // may stop anywhere
			case laid != nil:
				s.finish(fmt.Sprintf(" of N%d", i+1))
			case s.unknown == 0:
				s.finish("")
				fallthrough
			default:
				s.right = append(s.right, needleEnd)
			}
		}
		if !partial && !s.flat {
			s.right, s.left = append(s.right, s.left...), nil
		}
	}
	if s.moved {
		s.left, s.right = without(s.left, needleEnd), without(s.right, needleEnd)
	}
	s.checkChange(l, before)
}

// finish checks that the needle, or the whole row, has been used up, and goes
// on to its end.
func (s *sock) finish(of string) {
	rest := s.left
	if s.scoped {
		rest = rest[:slices.Index(rest, needleEnd)]
	}
	if n := stitches(rest); n > 0 && !s.short {
		s.wrong(s.used, s.used+n, "sts are left at the end%s", of)
	} else if slices.Contains(rest, markerItem) && !s.short {
		s.wrong(0, 0, "a marker is left at the end%s", of)
	}
	if s.scoped {
		rest = s.left[:len(rest)+1]
	}
	s.right = append(s.right, rest...)
	s.left = s.left[len(rest):]
}

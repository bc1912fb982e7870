package witness

import "slices"

// Beginnings and ends: casting on, going on in the round, opening, closing.

func (s *sock) castOn(l *line) {
	n := l.count.sts.times(s.size)
	s.cast, s.place, s.turned, s.edge = true, l.place, none, n
	s.left = slices.Repeat([]item{plainSt}, n)
	switch l.start {
	case closedStart:
		if n%2 != 0 {
			s.wrong(n, n-1, "the sts of two equal halves")
		}
		s.left = layOut(s.left, []int{n / 2, n - n/2})
	case flatStart, provisionalFlat:
		s.left = named(s.left, heelSt)
		s.flat, s.opening, s.slipped = true, false, [2]bool{true, true}
	}
	if l.start == provisionalFlat {
		s.provisional = n
	}
}

// rejoin goes on in the round over all stitches.
func (s *sock) rejoin(l *line) {
	if !s.flat {
		s.wrong(0, 0, "the work goes in the round already")
	}
	if s.ws {
		s.wrong(0, 0, "the right side faces where a rnd begins")
	}
	if n := l.count.sts.at(s.size); n != none && n != s.total() {
		s.wrong(n, s.total(), "the sts of the round")
	}
	if !s.stopped { // where the heel is left in the middle of a row, the round comes to its other turns
		s.allClosed()
	}
	if s.opening { // so the round begins where it began before
		if before := stitches(s.right); before > 0 || l.place != s.place {
			s.wrong(0, before, "the sts worked after the beginning of the rnd, %s", places[s.place])
		}
	} else {
		s.checkPlace(l.place)
	}
	s.left = without(slices.Concat(s.left, s.instep, s.right), gapItem)
	s.right, s.instep = nil, nil
	s.flat, s.stopped, s.rest, s.place, s.begun = false, false, 0, l.place, true
}

// undo takes out a provisional cast-on.
func (s *sock) undo(l *line) {
	n := l.count.sts.times(s.size)
	if !s.flat || s.ws || s.provisional == 0 {
		s.wrong(n, s.provisional, "there is no provisional cast-on to undo here")
	} else if n != s.provisional {
		s.wrong(n, s.provisional, "the sts of the provisional cast-on")
	}
	s.instep = slices.Repeat([]item{instepSt}, s.provisional)
	s.rest, s.provisional = s.provisional, 0
}

// layWaste lets waste yarn hold n stitches of the row. One opening is held at a time.
func (s *sock) layWaste(n int) {
	if s.wasteBefore > 0 {
		s.wrong(0, s.wasteBefore, "waste yarn holds an opening already")
		return
	}
	s.waste += n
}

// openWaste takes out the waste yarn.
func (s *sock) openWaste(l *line) {
	if s.total() > 0 {
		s.wrong(0, s.total(), "sts are still on the needles")
	}
	for _, n := range []int{l.count.sts.at(s.size), l.rest.at(s.size)} {
		if n != s.waste {
			s.wrong(n, s.waste, "the sts at the waste yarn")
		}
	}
	s.left = append(slices.Repeat([]item{heelSt}, s.waste), slices.Repeat([]item{instepSt}, s.waste)...)
	s.right, s.instep, s.waste = nil, nil, 0
	s.flat, s.ws, s.closed, s.place, s.begun, s.turned = false, false, false, l.place, true, none
}

// joinHeel closes the two halves of the heel against each other.
func (s *sock) joinHeel(l *line) {
	first, last := l.count.sts.times(s.size), l.rest.times(s.size)
	n := stitches(s.left) + stitches(s.right)
	if first != last {
		s.wrong(first, last, "the two halves of the heel")
	}
	if first+last != n {
		s.wrong(first+last, n, "the sts of the heel")
	}
	s.allClosed()
	if !s.flat {
		s.end()
		return
	}
	s.left, s.right, s.common = nil, nil, true
}

// graft checks the last line of the toe.
func (s *sock) graft(l *line) {
	instep, sole := l.count.sts.times(s.size), l.rest.times(s.size)
	live := s.total()
	if toe := s.opening && !s.ws && stitches(s.right) == 0; toe { // worked flat from the beginning of the rnd
		s.left, s.instep, s.flat, s.opening = without(slices.Concat(s.left, s.instep), gapItem), nil, false, false
	}
	if s.flat || s.ws {
		s.wrong(0, 0, "the heel is not joined")
	}
	if instep != sole {
		s.wrong(instep, sole, "the sts of the instep and of the sole")
	}
	if instep+sole != live {
		s.wrong(instep+sole, live, "the sts to graft")
	}
	worked := stitches(s.right)
	needles := layout(slices.Concat(s.right, s.left))
	if s.place == centerSole || s.place == centerBack {
		side := []int{sole / 2, sole - sole/2}
		if len(needles) == 3 {
			side = []int{needles[0], needles[0]}
			if instep != needles[1] {
				s.wrong(instep, needles[1], "the sts of the instep")
			}
		}
		if worked != side[0] && worked != side[1] {
			s.wrong(side[0], worked, "the sts worked to bring the yarn to the side")
		}
	} else if worked != 0 && worked != instep {
		s.wrong(instep, worked, "the sts worked to bring the yarn to the side")
	}
	s.end()
}

// closeAll checks a bind-off, or stitches drawn together.
func (s *sock) closeAll(l *line) {
	n, live := l.count.sts.times(s.size), s.total()
	if s.flat || s.ws {
		s.wrong(0, 0, "the heel is not joined")
	}
	if n != live {
		s.wrong(n, live, "the sts to close")
	}
	if worked := stitches(s.right); worked > 0 {
		s.wrong(0, worked, "the rnd is not finished")
	}
	s.end()
}

// end closes all stitches. The first time tells how many the sock ended with.
func (s *sock) end() {
	s.allClosed()
	if !s.final {
		s.report.Final[s.size], s.final = s.total(), true
	}
	s.left, s.right, s.instep = nil, nil, nil
	s.closed = true
}

// over checks what must be done when the pattern ends.
func (s *sock) over() {
	s.allClosed()
	if s.provisional > 0 {
		s.wrong(0, s.provisional, "a provisional cast-on is never undone")
	}
	if s.waste > 0 {
		s.wrong(0, s.waste, "the waste yarn is never taken out")
	}
	if s.hemmed > 0 && s.hemmed != s.edge {
		s.wrong(s.hemmed, s.edge, "the loops of the cast-on edge")
	}
	if !s.final {
		s.report.Final[s.size] = s.total()
	}
}

package witness

import "slices"

// steps works steps.
func (s *sock) steps(steps []step) {
	for i := range steps {
		if s.short {
			return
		}
		s.step(&steps[i])
	}
}

// step works one step.
func (s *sock) step(st *step) {
	n := st.n.at(s.size)
	if n == none {
		return
	}
	switch st.kind {
	case stitch, slip:
		s.take(n, st.kind)
	case decrease:
		s.decrease(n)
	case twoOfOne:
		s.take(1, stitch)
		if !s.short {
			s.right = append(s.right, madeSt)
		}
	case threeOfOne:
		s.take(1, stitch)
		if !s.short {
			s.right = append(s.right, madeSt, madeSt)
		}
	case crossing:
		s.take(n, stitch)
	case hem:
		s.take(n, stitch)
		if s.hemmed += n; s.hemmed > s.edge {
			s.wrong(s.hemmed, s.edge, "the loops of the cast-on edge")
		}
	case waste:
		s.take(n, stitch)
		s.layWaste(n)
	case toGap:
		if ahead, ok := s.toGap(st); ok {
			s.take(ahead-n, stitch)
		}
	case closeTurn:
		s.closeTurn(st.what)
	case starToGap:
		s.starToGap(st, n)
	case makeOne:
		s.makeOne()
	case placeMarker:
		s.right = append(s.right, markerItem)
	case slipMarker, removeMarker:
		s.passMarker(st.kind)
	case toEnd:
		if ahead, ok := s.ahead(); ok && s.enough(ahead, n) {
			s.take(ahead-n, stitch)
		}
	case toMarker:
		i := s.marker()
		if i < 0 {
			s.wrong(0, 0, "there is no marker ahead")
			return
		}
		if ahead := stitches(s.left[:i]); s.enough(ahead, n) {
			s.take(ahead-n, stitch)
		}
	case bracket:
		for range n {
			s.steps(st.inner)
		}
	case star:
		s.star(st.inner, n)
	case pickLeft, pickRight, pickCorner:
		s.pickUp(st.kind, n)
	}
}

// star works the inner steps until n stitches are left.
func (s *sock) star(inner []step, n int) {
	for {
		ahead, ok := s.ahead()
		if !ok {
			return
		}
		s.steps(inner)
		if s.short {
			return
		}
		now, _ := s.ahead()
		switch {
		case now < n:
			s.wrong(ahead-now, ahead-n, "the repeat does not come out even")
			s.short = true
			return
		case now == n:
			return
		case now == ahead:
			s.wrong(0, now, "the repeat uses no sts")
			s.short = true
			return
		}
	}
}

// ahead counts the stitches to the end of the needle or the row. It returns
// false, and reports it, where nothing says how many stitches the needle has.
func (s *sock) ahead() (int, bool) {
	if s.unknown > 0 {
		s.wrong(0, 0, "nothing has said how many sts are on N%d", s.unknown)
		s.short = true
		return 0, false
	}
	return stitches(s.scope()), true
}

// enough tells whether n of the stitches ahead can be left, and reports it where there are
// fewer.
func (s *sock) enough(ahead, n int) bool {
	if ahead < n {
		s.wrong(n, ahead, "fewer sts than are to be left")
		s.short = true
	}
	return ahead >= n
}

// scope returns what the words can still use.
func (s *sock) scope() []item {
	if s.scoped {
		return s.left[:slices.Index(s.left, needleEnd)]
	}
	return s.left
}

// marker returns the index of the next marker that the words can reach, or -1.
func (s *sock) marker() int { return slices.Index(s.scope(), markerItem) }

// next returns the next stitch, with whatever lies before it moved on to the
// worked needle, or zero where there is none.
func (s *sock) next() item {
	for len(s.left) > 0 {
		it := s.left[0]
		switch {
		case it.isStitch():
			s.left = s.left[1:]
			return it
		case it == needleEnd && s.scoped:
			return 0
		case it == markerItem && !s.plain:
			s.wrong(0, 0, "a marker is passed without sm")
		case it == gapItem:
			s.left = s.left[1:]
			continue
		}
		s.right = append(s.right, it)
		s.left = s.left[1:]
	}
	return 0
}

// take works n stitches one by one.
func (s *sock) take(n int, kind stepKind) {
	for i := range n {
		it := s.next()
		if it == 0 {
			s.runOut(n - i)
			return
		}
		if !s.started {
			s.started, s.first = true, kind
		}
		s.used++
		if kind == stitch {
			it = s.plainly(it)
		}
		s.right = append(s.right, it)
	}
}

// runOut reports that there are too few stitches for the words.
func (s *sock) runOut(missing int) {
	s.wrong(s.used+missing, s.used, "there are too few sts")
	s.short = true
}

// decrease works n stitches into one.
func (s *sock) decrease(n int) {
	one := s.next()
	if one == 0 {
		s.runOut(n)
		return
	}
	if !s.started {
		s.started, s.first = true, decrease
	}
	s.used++
	one = s.plainly(one)
	for i := 1; i < n; i++ {
		for len(s.left) > 0 && !s.left[0].isStitch() && !(s.left[0] == needleEnd && s.scoped) {
			switch s.left[0] {
			case markerItem:
				s.wrong(0, 0, "a marker lies between the two sts of a decrease")
			case needleEnd:
				s.moved = true
			}
			if s.left[0] != gapItem { // worked across, a gap is closed
				s.right = append(s.right, s.left[0])
			}
			s.left = s.left[1:]
		}
		other := s.next()
		if other == 0 {
			s.right = append(s.right, one)
			s.runOut(n - i)
			return
		}
		s.plainly(other)
		s.used++
	}
	s.right = append(s.right, one)
}

// makeOne makes a stitch. Where it is made between two needles, nothing says
// which of them it is on.
func (s *sock) makeOne() {
	if !s.split && (len(s.left) > 1 && s.left[0] == needleEnd ||
		len(s.right) > 0 && s.right[len(s.right)-1] == needleEnd) {
		s.moved = true
	}
	s.right = append(s.right, madeSt)
}

// passMarker slips or removes the marker that is next.
func (s *sock) passMarker(kind stepKind) {
	i := s.marker()
	if i < 0 {
		s.wrong(0, 0, "there is no marker ahead")
		return
	}
	if n := stitches(s.left[:i]); n > 0 {
		s.wrong(s.used, s.used+n, "the marker is not here")
		s.used += n
	}
	s.right = append(s.right, s.left[:i]...)
	if kind == slipMarker {
		s.right = append(s.right, markerItem)
	}
	s.left = s.left[i+1:]
}

package witness

import "slices"

// What is left at turns, and coming back to it.

// leave notes what a turn leaves behind: a gap before the stitches that are not worked, and
// something on the next of them.
func (s *sock) leave(l *line) {
	if !l.turn || l.leaves == doubledSt {
		return
	}
	i := slices.IndexFunc(s.left, item.isStitch)
	if i < 0 {
		if l.leaves != 0 {
			s.wrong(0, 0, "the turn has no st beyond it")
		}
		return
	}
	s.left = slices.Clone(s.left)
	if l.leaves != 0 {
		s.left[i] = l.leaves
	}
	if s.left[0] != gapItem {
		s.left = slices.Insert(s.left, 0, gapItem)
	}
}

// double makes a double stitch of the first one after a turn; it waits beyond a gap.
func (s *sock) double() {
	i := slices.IndexFunc(s.left, item.isStitch)
	if i < 0 {
		s.wrong(0, 0, "the turn has no st to double")
		return
	}
	s.right = append(append(s.right, without(s.left[:i], gapItem)...), doubledSt, gapItem)
	s.left = s.left[i+1:]
}

// toGap counts the stitches before the next gap, and looks at what waits beyond it.
func (s *sock) toGap(st *step) (int, bool) {
	scope, n := s.scope(), st.n.times(s.size)
	i := slices.Index(scope, gapItem)
	if i < 0 {
		s.wrong(0, 0, "the work has not been turned anywhere ahead")
		s.short = true
		return 0, false
	}
	if beyond := firstStitch(scope[i:]); st.what != 0 && beyond != st.what {
		s.wrong(0, 0, "what waits at the turn is another thing")
	}
	ahead := stitches(scope[:i])
	if ahead < n {
		s.wrong(n, ahead, "fewer sts than are to be left")
		s.short = true
	}
	return ahead, ahead >= n
}

// starToGap works the inner steps until n stitches are left before the next gap.
func (s *sock) starToGap(st *step, n int) {
	for !s.short {
		ahead, ok := s.toGap(st)
		if !ok || ahead == n {
			return
		}
		s.steps(st.inner)
		if slices.Index(s.scope(), gapItem) < 0 {
			s.wrong(0, 0, "the repeat does not come out even")
			s.short = true
		}
	}
}

// closeTurn works the next stitch with what a turn left on it.
func (s *sock) closeTurn(what item) {
	for len(s.left) > 0 && s.left[0] == gapItem {
		s.left = s.left[1:]
	}
	if len(s.left) == 0 || s.left[0] != what {
		s.wrong(0, 0, "the next st has nothing of the kind on it")
		s.short = true
		return
	}
	s.left = s.left[1:]
	s.right = append(s.right, heelSt)
	s.used++
}

// plainly works a stitch as an ordinary one, which a turned one is not.
func (s *sock) plainly(it item) item {
	if !it.isTurned() {
		return it
	}
	s.wrong(0, 0, "a turned st is worked without what was left on it")
	return heelSt
}

// isTurned reports whether a turn has left something on the stitch.
func (it item) isTurned() bool {
	return it == wrappedSt || it == twinSt || it == overSt || it == doubledSt
}

// allClosed checks that nothing that a turn left is forgotten.
func (s *sock) allClosed() {
	n := 0
	for _, it := range slices.Concat(s.left, s.right, s.instep) {
		if it.isTurned() {
			n++
		}
	}
	if n > 0 {
		s.wrong(0, n, "turned sts that were never closed")
	}
}

// bring lays the resting stitches beside the part worked flat: from now on its rows take them
// in, one by one. Those on the left come first, the others with the right edge.
func (s *sock) bring() {
	if s.ws {
		s.left = slices.Concat(s.left, []item{gapItem}, reversed(s.instep))
		s.instep = nil
		return
	}
	half := len(s.instep) / 2
	s.left = slices.Concat(s.left, []item{gapItem}, s.instep[:half])
	s.instep = s.instep[half:]
}

// resting tells whether all of the stitches rest.
func resting(items []item) bool {
	return !slices.ContainsFunc(items, func(it item) bool { return it.isStitch() && it != instepSt })
}

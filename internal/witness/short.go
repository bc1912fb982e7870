package witness

import "slices"

// What is left at turns, and coming back to it.

// turnedSts are the stitches that turns leave: how one is called where another should be, and
// how those are called that were never closed.
var turnedSts = []struct {
	st        item
	one, many string
}{
	{wrappedSt, "a wrapped st", "wraps"},
	{twinSt, "a twin", "twins"},
	{overSt, "a st with a yo", "yos of turns"},
	{doubledSt, "a double st", "double sts"},
}

// called returns how a stitch is called where another should be.
func called(st item) string {
	for _, t := range turnedSts {
		if t.st == st {
			return t.one
		}
	}
	return "a plain st"
}

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
	s.gapped = true
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
	s.gapped = true
}

// toGap counts the stitches before the next gap, and looks at what waits beyond it.
func (s *sock) toGap(st *step) (int, bool) {
	scope, n := s.scope(), st.n.times(s.size)
	i := slices.Index(scope, gapItem)
	if i < 0 {
		s.wrong(0, 0, "there is no gap ahead")
		s.short = true
		return 0, false
	}
	if beyond := firstStitch(scope[i:]); st.what != 0 && beyond != st.what {
		s.wrong(0, 0, "what waits beyond the gap is %s, not %s", called(beyond), called(st.what))
	}
	ahead := stitches(scope[:i])
	return ahead, s.enough(ahead, n)
}

// starToGap works the inner steps until n stitches are left before the next gap.
func (s *sock) starToGap(st *step, n int) {
	for {
		ahead, ok := s.toGap(st)
		if !ok || ahead == n {
			return
		}
		used := s.used
		s.steps(st.inner)
		switch {
		case s.short:
			return
		case s.used == used:
			s.wrong(0, ahead, "the repeat uses no sts")
		case s.used-used > ahead-n:
			s.wrong(s.used-used, ahead-n, "the repeat does not come out even")
		default:
			continue
		}
		s.short = true
		return
	}
}

// closeTurn works the next stitch with what a turn left on it.
func (s *sock) closeTurn(what item) {
	st := s.next()
	if st == 0 {
		s.runOut(1)
		return
	}
	if st != what {
		s.wrong(0, 0, "the next st is %s, not %s", called(st), called(what))
	}
	if !s.started {
		s.started, s.first = true, closeTurn
	}
	s.used++
	s.right = append(s.right, heelSt)
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

// allClosed checks that nothing that a turn left is forgotten, which it then is.
func (s *sock) allClosed() {
	for _, t := range turnedSts {
		n := 0
		for _, items := range [][]item{s.left, s.right, s.instep} {
			for i, it := range items {
				if it == t.st {
					items[i] = heelSt
					n++
				}
			}
		}
		if n > 0 {
			s.wrong(0, n, "%s never worked", t.many)
		}
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

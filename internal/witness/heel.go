package witness

import (
	"slices"
	"strings"
)

// The two edges of the heel, with its right side facing.
const (
	leftEdge = iota
	rightEdge
)

// edgeNames are the words for the edges.
var edgeNames = []string{"left", "right"}

// setApart sets the heel apart from the instep.
func (s *sock) setApart(l *line) {
	n, rest := l.count.sts.times(s.size), l.rest.times(s.size)
	live := s.live()
	if n+rest != live {
		s.wrong(n+rest, live, "the sts of the heel and the instep")
	}
	s.left, s.right = without(s.left, needleEnd), without(s.right, needleEnd)
	if !slices.Contains(s.left, roundStart) && !slices.Contains(s.right, roundStart) {
		s.markStart()
	}
	n = min(n, live)
	var heel, instep []item // both from right to left as the right side faces
	ws := s.ws
	switch {
	case l.form == firstAreHeel || l.form == firstWorked:
		if s.ws || s.turned != none || stitches(s.right) > 0 {
			s.wrong(0, 0, "the rnd does not begin here")
		}
		if s.ws {
			s.left, s.right = reversed(s.right), reversed(s.left)
			ws = false
		}
		heel, instep = split(slices.Concat(s.left, s.right), n)
	case s.turned != none:
		if n != s.turned {
			s.wrong(n, s.turned, "the sts worked last")
			if n+rest != live {
				n = s.turned
			}
		}
		heel, instep = split(s.left, n)
		if s.ws {
			heel, instep = reversed(heel), reversed(instep)
		}
	default: // a round or a part of one, not turned: the next row goes back
		done, ahead := s.right, s.left
		if stitches(done) == 0 {
			done, ahead = s.left, nil
		} else if n > stitches(done) {
			s.wrong(n, stitches(done), "the sts worked last")
			done, ahead = slices.Concat(ahead, done), nil
		}
		before, last := split(done, stitches(done)-n)
		heel, instep = last, slices.Concat(ahead, before)
		ws = true
	}
	heel, instep = without(heel, gapItem), without(instep, gapItem)
	all := slices.Concat(heel, instep)
	begin := 0
	if live > 0 {
		begin = stitches(all[:slices.Index(all, roundStart)]) % live
	}
	off := false
	want := 0
	switch s.place {
	case centerBack, centerSole:
		want = n / 2
		off = begin != n/2 && begin != n-n/2
	case beforeHeel:
		off = begin != 0
	case beforeInstep:
		want = n
		off = begin != n
	}
	if inSole := s.place == beforeHeel && begin > n; off && l.form != firstWorked && !inSole { // a band may lie in the middle of the sole
		s.wrong(want, begin, "the sts of the heel before the beginning of the rnd, %s", places[s.place])
	}
	heel = named(without(heel, roundStart), heelSt)
	s.instep = named(without(instep, roundStart), instepSt)
	s.left, s.right, s.ws = heel, nil, ws
	if ws {
		s.left = reversed(heel)
	}
	s.flat, s.opening = true, l.form == firstWorked
	s.stopped, s.turned, s.begun = false, none, false
	s.rest, s.common = stitches(s.instep), false
	s.gapped = false
	s.edgeRows, s.slips, s.wholeRows, s.chain, s.picked = 0, 0, 0, [2]int{}, [2]int{}
	s.slipped = [2]bool{true, true} // the heel's own bottom stitches
}

// join brings the heel and the instep into one round, which begins where the
// yarn is.
func (s *sock) join(needles int) {
	s.allClosed()
	before, after := stitches(s.right), stitches(s.left)
	switch {
	case s.begun:
	case after == 0:
		s.place = beforeInstep
	case before == 0:
		s.place = beforeHeel
	default:
		s.wrong(0, 0, "no line says that the rnd begins here, in the middle of the heel")
		s.place = centerSole
	}
	parts := [][]item{s.left, s.instep, s.right}
	var all []item
	for _, p := range parts {
		all = append(all, p...)
		if needles == len(parts) || needles == 2 && len(s.left) == 0 && len(p) > 0 {
			all = append(all, needleEnd)
		}
	}
	s.left, s.right, s.instep = all, nil, nil
	s.flat, s.stopped = false, false
}

// beginHere moves the beginning of the round to the yarn.
func (s *sock) beginHere(l *line) {
	if s.ws {
		s.wrong(0, 0, "the right side faces where a rnd begins")
	}
	if s.flat { // later the sts of heel and instep may have changed sides
		s.checkPlace(l.place)
	} else {
		around := slices.Concat(s.left, s.right)
		s.left, s.right = without(without(around, needleEnd), roundStart), nil
	}
	s.place, s.begun = l.place, true
}

// checkPlace checks that the yarn is where a round is to begin, beside the heel worked flat.
func (s *sock) checkPlace(at place) {
	before, after := stitches(without(s.right, instepSt)), stitches(without(s.left, instepSt))
	switch at {
	case centerBack, centerSole:
		if after-before != 0 && after-before != 1 {
			s.wrong((before+after)/2, before, "the sts of the heel before the center")
		}
	case beforeHeel:
		if before != 0 {
			s.wrong(0, before, "the sts of the heel before the beginning of the rnd")
		}
	case beforeInstep:
		if after != 0 {
			s.wrong(0, after, "the sts of the heel after the beginning of the rnd")
		}
	}
}

// arrange lays the stitches out on the needles.
func (s *sock) arrange(l *line) {
	if s.flat || s.ws || stitches(s.right) > 0 {
		s.wrong(0, 0, "the sts are not at the beginning of a rnd")
		return
	}
	needles, sum := values(l.count.needles, s.size)
	if sum != s.live() {
		s.wrong(sum, s.live(), "the sts on the needles")
		return
	}
	s.left = layOut(s.left, needles)
}

// pickUp picks up n stitches.
func (s *sock) pickUp(kind stepKind, n int) {
	if n == 0 {
		return
	}
	before, after := lastStitch(s.right), firstStitch(s.left)
	if before == 0 {
		before = lastStitch(s.left)
	}
	if before == 0 && s.common {
		before = heelSt // it was, until its halves were joined
	}
	switch {
	case after == 0 && s.flat: // the heel ends here and the instep waits beyond it
		after = instepSt
	case after == 0:
		after = firstStitch(s.right)
	}
	var here bool
	var st item
	switch kind {
	case pickLeft:
		st = leftSt
		here = (strings.ContainsRune("hl", rune(before)) || s.common) && after == instepSt
		s.pickEdge(leftEdge, n)
	case pickRight:
		st = rightSt
		here = strings.ContainsRune("icr", rune(before)) && (after == heelSt || s.common && after == leftSt) ||
			s.ws && strings.ContainsRune("hl", rune(before)) && after == instepSt
		s.pickEdge(rightEdge, n)
	case pickCorner:
		st = cornerSt
		here = strings.ContainsRune("hl", rune(before)) && after == instepSt ||
			before == instepSt && (after == heelSt || s.common && after == leftSt)
	}
	if !here {
		s.wrong(0, 0, "the words have not come to where the sts are picked up")
	}
	for range n {
		s.right = append(s.right, st)
	}
	if s.flat && s.doing != nil && s.doing.turn && kind != pickCorner {
		s.bring()
	}
}

// pickEdge counts stitches picked up along an edge.
func (s *sock) pickEdge(edge, n int) {
	s.picked[edge] += n
	offer := min(s.chain[edge], s.edgeRows/2)
	if 2*s.slips < s.wholeRows { // no chains: a stitch can be picked up at each row
		offer = s.edgeRows
	}
	if s.picked[edge] > offer {
		s.wrong(s.picked[edge], offer, "the sts along the %s edge", edgeNames[edge])
	}
}

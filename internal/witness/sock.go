package witness

import (
	"errors"
	"fmt"
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

// A sock is one size in the making.
type sock struct {
	size   int
	name   string
	report *Report
	seen   map[Wrong]bool // what has been reported
	at     *line          // the line that is followed
	doing  *line          // the row that is worked, through a repeat or not

	left, right []item // still to work, worked
	ws          bool   // the wrong side faces
	flat        bool   // the heel, or another part, is set apart
	opening     bool   // that part is the first of the round, be it heel or instep
	instep      []item // the resting stitches, from the heel's left edge on

	cast, closed bool // cast on; all stitches are closed
	final        bool // the final count has been taken
	leftSock     bool // the left sock of a pair is worked
	rest         int  // stitches that rested when the part was set apart
	provisional  int  // loops of a provisional cast-on that is not undone
	edge, hemmed int  // loops of the cast-on edge, and how many a hem has joined
	waste        int  // stitches that waste yarn holds
	common       bool // the heel has been joined in its middle
	place        place
	begun        bool // a line has said that the round begins here
	stopped      bool // a partial row has stopped
	turned       int  // the stitches of the row that ended with turning in the round, or none

	edgeRows  int     // rows since the heel was set apart, up to the first that leaves a gap:
	gapped    bool    // what is worked after that adds nothing to the edges
	slipped   [2]bool // the live stitch at the edge has been slipped
	chain     [2]int  // stitches of the edge that can be picked up
	slips     int     // rows from edge to edge that began with a slipped stitch,
	wholeRows int     // of so many from edge to edge
	picked    [2]int  // stitches picked up along the edge

	section      int
	rows         []*line // the section's rows so far
	flatRows     int     // plain rows since the one numbered 1
	rounds       int     // plain rounds since the one numbered 1
	needleWorker         // the row in work
}

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

// live counts the stitches that a count is of: all, but those that rested when a part was set
// apart, while that is worked flat.
func (s *sock) live() int {
	n := s.total()
	if s.flat {
		n -= s.rest
	}
	return n
}

// total counts all live stitches.
func (s *sock) total() int { return stitches(s.left) + stitches(s.right) + stitches(s.instep) }

// wrong reports something wrong at the line that is followed, once.
func (s *sock) wrong(stated, actual int, format string, args ...any) {
	what := fmt.Sprintf(format, args...)
	if s.doing != nil && s.doing.number != s.at.number {
		what = fmt.Sprintf("in line %d: %s", s.doing.number, what)
	}
	w := Wrong{Line: s.at.number, Size: s.name, What: what}
	if s.seen[w] {
		return
	}
	s.seen[w] = true
	w.Stated, w.Actual = stated, actual
	s.report.Wrong = append(s.report.Wrong, w)
}

// note records the stitches after a line.
func (s *sock) note(l *line) {
	if r := s.report.Line(l.number); r != nil {
		r.Worked[s.size], r.Total[s.size] = s.live(), s.total()
	}
}

// follow follows one line.
func (s *sock) follow(l *line) error {
	if l.section != s.section {
		s.section, s.rows = l.section, nil
	}
	if l.sizes != nil && !l.sizes[s.size] || l.left && !s.leftSock || l.right && s.leftSock {
		return nil
	}
	s.at = l
	if !s.cast && l.form != castOn {
		return errors.New("nothing is cast on yet")
	}
	if s.closed && l.form != openWaste {
		return errors.New("all stitches are closed already")
	}
	switch l.form {
	case castOn:
		if s.cast {
			return errors.New("cast on a second time")
		}
		s.castOn(l)
	case row:
		if w := l.label.words; w == "row 1" || w == "rnd 1" {
			s.flatRows, s.rounds = 0, 0 // numbers run on from here
		}
		s.rows = append(s.rows, l)
		s.work(l)
		s.checkCount(l)
	case plainRounds:
		once := *l
		once.times = number{1}
		for range l.times.times(s.size) { // each is a round by itself for a repeat of the last ones
			s.rows = append(s.rows, &once)
			s.work(&once)
		}
		s.checkTotal(l)
		s.checkCount(l)
		if l.times.times(s.size) == 0 {
			return nil
		}
	case workLast, workLabel:
		if err := s.repeat(l); err != nil {
			return err
		}
		s.checkTotal(l)
		s.checkCount(l)
		if l.times.times(s.size) == 0 {
			return nil
		}
	case lastAreHeel, firstAreHeel, firstWorked:
		if s.flat {
			return errors.New("the heel is set apart already")
		}
		s.setApart(l)
	case removeMarkers:
		s.left = without(s.left, markerItem)
		s.right = without(s.right, markerItem)
		s.instep = without(s.instep, markerItem)
	case beginsHere:
		s.beginHere(l)
	case arrange:
		s.arrange(l)
	case graft:
		s.graft(l)
	case rejoin:
		s.rejoin(l)
	case undo:
		s.undo(l)
	case openWaste:
		s.openWaste(l)
	case joinHeel:
		s.joinHeel(l)
	case closeAll:
		s.closeAll(l)
	}
	s.note(l)
	return nil
}

// repeat follows a "Work …" line.
func (s *sock) repeat(l *line) error {
	times := l.times.times(s.size)
	var again []*line
	if l.form == workLast {
		n := l.rows.times(s.size)
		if times == 0 || n == 0 {
			return nil
		}
		if n > len(s.rows) {
			return fmt.Errorf("only %d rows in the section", len(s.rows))
		}
		again = s.rows[len(s.rows)-n:]
	} else {
		for _, r := range s.rows {
			if r.form == row && r.label.words == l.label.words {
				again = []*line{r}
			}
		}
		if times == 0 {
			return nil
		}
		if again == nil {
			return fmt.Errorf("no %q in the section", l.label.words)
		}
	}
	for _, r := range again {
		if l.named && r.label.round != l.rounds {
			s.wrong(0, 0, "line %d is %s", r.number, map[bool]string{false: "a row, not a rnd", true: "a rnd, not a row"}[r.label.round])
		}
	}
	for range times {
		for _, r := range again {
			s.work(r)
		}
	}
	return nil
}

// work works a row once, or plain rounds as often as their line says.
func (s *sock) work(l *line) {
	s.doing = l
	defer func() { s.doing = nil }()
	times := 1
	if l.form == plainRounds {
		times = l.times.times(s.size)
	}
	partial := l.label.kind == partialRow
	if l.label.round {
		s.round(l)
	} else {
		s.row(l)
	}
	switch {
	case partial:
	case l.label.round:
		s.report.Rounds[s.size] += times
	default:
		s.report.Rows[s.size]++
	}
	if l.label.kind != setUpRow && !partial {
		if l.label.round {
			s.rounds += times
		} else {
			s.flatRows++
		}
	}
	if l.form != plainRounds { // of which the line itself tells
		s.note(l)
	}
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

// checkCount checks the count that a line states.
func (s *sock) checkCount(l *line) {
	live := s.live()
	if stated := l.count.sts.at(s.size); stated != none && stated != live {
		s.wrong(stated, live, "the count")
	}
	needles, sum := values(l.count.needles, s.size)
	if len(needles) == 0 || sum == 0 {
		return
	}
	laid := layout(slices.Concat(s.right, s.left))
	switch {
	case s.flat:
		s.wrong(0, 0, "the heel's sts are not on several needles")
	case laid == nil && sum != live:
		s.wrong(sum, live, "the sts on the needles")
	case laid == nil:
		if stitches(s.right) == 0 {
			s.left = layOut(s.left, needles)
		}
	case len(laid) != len(needles):
		s.wrong(len(needles), len(laid), "the needles")
	default:
		for i, n := range needles {
			if n != laid[i] {
				s.wrong(n, laid[i], "the sts on N%d", i+1)
			}
		}
	}
}

// values returns the numbers in a size, and their sum.
func values(numbers []number, size int) (v []int, sum int) {
	for _, n := range numbers {
		v = append(v, n.times(size))
		sum += n.times(size)
	}
	return v, sum
}

// checkTotal checks the rows in all that a line states.
func (s *sock) checkTotal(l *line) {
	stated, actual, unit := l.total.at(s.size), s.flatRows, "rows"
	if l.inRnds {
		actual, unit = s.rounds, "rnds"
	}
	if stated != none && stated != actual {
		s.wrong(stated, actual, "the %s in all", unit)
	}
}

// checkChange checks the change that a row states.
func (s *sock) checkChange(l *line, before int) {
	stated := l.change.at(s.size)
	if stated == none {
		return
	}
	change, word := s.total()-before, "inc'd"
	if l.down {
		change, word = -change, "dec'd"
	}
	if stated != change {
		s.wrong(stated, change, "the sts %s", word)
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

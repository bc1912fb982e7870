package witness

import (
	"errors"
	"fmt"
	"slices"
)

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

	motifs    map[string]*line // the stitch patterns told so far, by name
	motifNext map[string]int   // and the round of each that comes next

	section      int
	rows         []*line // the section's rows so far
	flatRows     int     // plain rows since the one numbered 1
	rounds       int     // plain rounds since the one numbered 1
	needleWorker         // the row in work
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
	case motifIs:
		s.motifs[l.motif] = l
		return nil
	case motifRounds:
		s.workMotif(l)
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

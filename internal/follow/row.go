package follow

import (
	"slices"
	"strings"

	"sockwright/internal/pattern"
	"sockwright/internal/script"
	"sockwright/internal/source"
)

// rowWork is what is known of the row being worked.
type rowWork struct {
	row    *script.Row
	num    int // its number, 0 if it has none
	label  string
	ndl    int // needle that the steps are for, 0 if none is named
	part   script.Part
	group  *scope // a group that is worked once for each needle
	before int    // stitches in work at its start
	pickup bool   // it picks up along the heel
	turned bool
	round  bool // it is worked in the round
	more   int  // choice: times by which "rep from * n times" goes on top of the first
	came   bool // it went over the end of the round
	step   *script.Step
	taken  int      // stitches that the step has taken
	wraps  bool     // it has come to wrapped stitches
	gap    gapCross // what it did at the gap that a turn has left
}

type scope struct{ ndl uint8 }

// tellingRow is how many stitches a row must name that bears out how many there are.
const tellingRow = 8

// workRow works a row once. What it returns has stopped it. The needles are left as they were if it cannot be worked.
func (w *worker) workRow(r *script.Row, num int) *problem {
	if !w.began || r.Sizes != 0 && !r.Sizes.Has(w.size) {
		return nil
	}
	took := w.n.worked()
	p := w.workRowOnce(r, num)
	if p != nil {
		p.rests = w.rests(r.Steps)
	} else if w.doubt&ofCount != 0 && w.known && !hasTurn(r.Steps) && !picksUp(r.Steps) {
		if n, fixed := w.uses(r.Steps); fixed && n >= tellingRow && n == took {
			w.certain(ofCount)
		}
	}
	quiet := w.quiet
	w.quiet = false
	if !quiet && p == nil {
		for i, part := range w.parts[r] {
			if i < len(w.mid) && w.rec != nil && part.row.Line != r.Line {
				w.rec.note(part.row, name(part.row, 0), w.size, w.mid[i], w.sure())
			}
		}
		w.record(r, name(r, num))
	}
	return p
}

func (w *worker) workRowOnce(r *script.Row, num int) *problem {
	w.alone = 0
	w.rowsWorked++
	if w.rowsWorked > maxRows {
		return w.tooLong(r.At)
	}
	w.partRows++
	if !w.known {
		if w.n.flat {
			w.n.facing = w.n.facing.Other()
		}
		return nil
	}
	if r.Cut { // told as unread
		return &problem{untold: true}
	}
	if w.tooShort(r.Steps) { // a list has no figure for this size: what it leaves is not known
		w.total = w.n.total()
		w.n.flat = w.n.flat || hasTurn(r.Steps)
		w.n.facing = w.n.facing.Other()
		w.known = false
		return nil
	}
	if w.allGaps(r.Steps) {
		w.rowsWorked--
		w.partRows--
		return nil
	}
	saved := w.n.clone()
	w.moves += (len(w.n.left) + len(w.n.right)) / 16
	p := w.tryRow(r, num, 0)
	if p != nil && hasTimes(r.Steps) {
		failed := w.n
		w.n = saved.clone()
		if w.tryRow(r, num, 1) == nil {
			return nil
		}
		w.n = failed
	}
	if p != nil {
		w.n = saved
	}
	return p
}

// tooShort tells whether a list of the steps has no figure for this size.
func (w *worker) tooShort(steps []script.Step) bool {
	short := func(n pattern.Number) bool { return len(n.Val) > 1 && w.size >= len(n.Val) }
	return slices.ContainsFunc(steps, func(s script.Step) bool {
		return short(s.N) || short(s.Minus) || short(s.Stop.N) || w.tooShort(s.Body)
	})
}

// allGaps tells whether every step is one that this size does not work.
func (w *worker) allGaps(steps []script.Step) bool {
	return !slices.ContainsFunc(steps, func(s script.Step) bool { return !w.isGap(&s) })
}

func (w *worker) isGap(s *script.Step) bool {
	gap := func(n pattern.Number) bool { return n.Known() && n.In(w.size) == pattern.Gap }
	return gap(s.N) || gap(s.Minus) || s.Op == script.Group && gap(s.Stop.N)
}

func (w *worker) tryRow(r *script.Row, num, more int) *problem {
	rw := &rowWork{row: r, num: num, label: name(r, num), more: more}
	rw.pickup = picksUp(r.Steps)
	turns := slices.ContainsFunc(r.Steps, func(s script.Step) bool { return s.Op == script.Turn || s.Op == script.Wrap })
	if w.n.flat && !rw.pickup && !turns && (r.Label.Round || (!r.Flat || !r.Label.Said) && len(w.n.held) > 0 && w.leavesHeel(r)) {
		w.n.rejoin()
		w.partRows = 1
	}
	if !w.n.flat {
		w.n.begin()
		rw.round = true
	}
	w.scopeOf(rw, turns)
	rw.before = count(w.n.left) + count(w.n.right)
	if rw.pickup {
		w.wholeHeel(rw)
	}
	ahead, behind := w.n.waiting()
	slips := slipsFirst(r.Steps)
	w.mid = w.mid[:0]
	for i := range r.Steps {
		if p := w.step(rw, &r.Steps[i]); p != nil {
			return p
		}
		if parts := w.parts[r]; len(w.mid) < len(parts) && parts[len(w.mid)].steps == i+1 {
			w.mid = append(w.mid, w.now())
		}
		if rw.turned {
			break
		}
	}
	if rw.turned {
		w.checkTurn(rw, ahead, behind)
		return nil
	}
	if p := w.needleLeft(rw); p != nil {
		return p
	}
	if rw.pickup {
		if !w.n.flat { // not at a heel: the stitches lie as they lay
			w.n.begin()
			return nil
		}
		w.layOut(rw)
		return nil
	}
	if rest := count(w.n.left); rest > 0 && !rw.came {
		all := count(w.n.left) + count(w.n.right)
		if left := w.avail(rw); left > 0 && setsUp(r) && rw.part != script.NoPart {
			done := count(w.n.right)
			return w.fail(r.At, source.StitchCount, source.Say("follow.left-over", "{0} works {1} of {2}: {3} are left", rw.label, done, source.InSts(done+left), left), source.Sts(done), source.Sts(done+left))
		}
		if w.partial(r) {
			w.justWorked = count(w.n.right)
			if setsUp(r) {
				w.alone = w.justWorked
			}
			w.n.begin()
			return nil
		}
		if w.lostTurn(r, behind) {
			p := w.remark(r.At, source.StitchCount, source.Say("follow.left-over", "{0} works {1} of {2}: {3} are left", rw.label, all-rest, source.InSts(all), rest), source.Sts(all-rest), source.Sts(all))
			p.fault.Mends = []source.Mend{{Why: source.Say("follow.mend-lost-turn", "end the row with “turn”, as the other rows of the heel turn")}}
			w.soft = append(w.soft, p)
			w.n.turn()
			return nil
		}
		return w.fail(r.At, source.StitchCount, source.Say("follow.left-over", "{0} works {1} of {2}: {3} are left", rw.label, all-rest, source.InSts(all), rest), source.Sts(all-rest), source.Sts(all))
	}
	if w.n.flat {
		w.edgeRow(slips)
		w.n.turn()
	}
	return nil
}

// scopeOf comes to the part that a row is said to be of, or that the first stitches of a row that
// turns are: "sole, row 1", "Knit 20 heel sts, turn".
func (w *worker) scopeOf(rw *rowWork, turns bool) {
	part := rw.row.Label.Part
	if first := rw.row.Steps[0]; part == script.NoPart && turns && !w.n.flat && first.Op != script.ToNeedle {
		part = first.Part
	}
	if part = w.partHere(part); part == script.NoPart || rw.pickup {
		return
	}
	rw.part = part
	w.skipOthers(rw)
}

// skipOthers passes over the stitches that lie before those that the steps are for: they are worked
// plain.
func (w *worker) skipOthers(rw *rowWork) {
	for len(w.n.left) > 0 && w.upTo(rw, 1) == 0 {
		c := w.n.left[len(w.n.left)-1]
		w.n.left = w.n.left[:len(w.n.left)-1]
		w.n.right = append(w.n.right, c)
	}
}

// partHere is the part of the stitches on the needles that a part of the sock is: the sole is the heel
// while that is worked. It is NoPart if no stitches are told of it.
func (w *worker) partHere(part script.Part) script.Part {
	for _, p := range []script.Part{part, otherName(part)} {
		if n, _ := w.n.inPart(p); p != script.NoPart && n > 0 {
			return p
		}
	}
	return script.NoPart
}

// otherName is the other name of the sole or the heel.
func otherName(p script.Part) script.Part {
	switch p {
	case script.Sole:
		return script.Heel
	case script.Heel:
		return script.Sole
	}
	return script.NoPart
}

// lostTurn tells whether a row of a heel turn lacks nothing but the word "turn": it slips, works and
// decreases like the others, and stitches wait behind it from the turn before.
func (w *worker) lostTurn(r *script.Row, behind int) bool {
	last := len(r.Steps) - 1
	return w.n.flat && w.turning && behind > 0 && slipsFirst(r.Steps) && last >= 2 &&
		(r.Steps[last].Op == script.Decrease || r.Steps[last-1].Op == script.Decrease && r.Steps[last].To == script.Here)
}

// leavesHeel tells whether a row without a turn, told while the heel lies flat, can only be
// a round: it speaks of the instep or of needles.
func (w *worker) leavesHeel(r *script.Row) bool {
	for _, s := range r.Steps {
		if s.Part == script.Instep || s.Op == script.ToNeedle && s.Needle > 1 {
			return true
		}
	}
	return false
}

// partial: a row that is named as one, or that moves the beginning of the round.
func (w *worker) partial(r *script.Row) bool {
	return r.Label.Name == "partial" || setsUp(r) || !r.Label.Said && !w.n.flat && (len(r.Steps) <= 2 || ofOneNeedle(r.Steps) || upToMarker(r.Steps))
}

// upToMarker tells whether steps do nothing but come to a marker: "knit the instep and on to A; slip
// A".
func upToMarker(steps []script.Step) bool {
	for _, s := range steps {
		switch s.Op {
		case script.Knit, script.Purl, script.Work, script.Slip, script.PassMarker, script.TakeMarker:
		default:
			return false
		}
	}
	last := steps[len(steps)-1]
	return last.To == script.Marker || last.Op == script.PassMarker || last.Op == script.TakeMarker
}

// edgeRow notes a row whose first stitch was slipped: it makes a chain at the edge where it
// began.
func (w *worker) edgeRow(slips bool) {
	w.flapRows++
	if slips {
		w.slipRows++
	}
}

func name(r *script.Row, num int) string {
	word := "the row"
	if r.Label.Round {
		word = "the rnd"
	}
	switch {
	case num > 0 && r.Label.Round:
		return "Rnd " + itoa(num)
	case num > 0:
		return "Row " + itoa(num)
	case len(r.Label.Name) == 1: // "Row A"
		return map[bool]string{true: "Rnd ", false: "Row "}[r.Label.Round] + strings.ToUpper(r.Label.Name)
	case r.Label.Name != "" && r.Label.Said:
		if r.Label.Round {
			return "the " + r.Label.Name + " rnd"
		}
		return "the " + r.Label.Name + " row"
	}
	return word
}

// avail counts the stitches ahead up to the end of what the steps are for.
func (w *worker) avail(rw *rowWork) int { return w.upTo(rw, len(w.n.left)) }

// upTo counts them, but no further than to most.
func (w *worker) upTo(rw *rowWork, most int) int {
	n := 0
	for _, c := range slices.Backward(w.n.left) {
		if n >= most || c.mark == stitch && !rw.inScope(c) {
			break
		}
		if c.mark == stitch {
			n++
		}
	}
	return n
}

func (rw *rowWork) inScope(c cell) bool {
	switch {
	case rw.group != nil:
		return c.ndl == rw.group.ndl
	case rw.pickup:
		return true
	case rw.ndl > 0:
		return int(c.ndl) == rw.ndl
	case rw.part != 0:
		return c.part == rw.part
	}
	return true
}

// take takes the next stitch off the left needle. Marks before it are passed; ok is false
// where none is left in scope.
func (w *worker) take(rw *rowWork) (cell, bool) {
	for len(w.n.left) > 0 {
		c := w.n.left[len(w.n.left)-1]
		switch c.mark {
		case stitch:
			if !rw.inScope(c) {
				return c, false
			}
			w.n.left = w.n.left[:len(w.n.left)-1]
			rw.wraps = rw.wraps || c.wraps
			w.moves++
			rw.taken++
			return c, true
		case gap:
			rw.gap = gapCross{rw.step, rw.taken}
			w.n.left = w.n.left[:len(w.n.left)-1]
		default:
			w.n.left = w.n.left[:len(w.n.left)-1]
			w.n.right = append(w.n.right, c)
		}
	}
	return cell{}, false
}

func (w *worker) put(rw *rowWork, c cell) {
	if rw.pickup && rw.ndl > 0 {
		c.ndl = uint8(rw.ndl)
	}
	w.n.right = append(w.n.right, c)
}

// model is what a new stitch is like: the one just worked, or the next.
func (w *worker) model(rw *rowWork) cell {
	var c cell
	if i := lastStitch(w.n.right); i >= 0 {
		c = w.n.right[i]
	}
	if len(w.n.left) > 0 {
		if next := w.n.left[len(w.n.left)-1]; next.mark == stitch && (c == (cell{}) || rw.ndl > 0 && int(next.ndl) == rw.ndl || rw.group != nil && next.ndl == rw.group.ndl) {
			c = next
		}
	}
	c.wraps, c.mark = false, stitch
	if rw.ndl > 0 {
		c.ndl = uint8(rw.ndl)
	}
	return c
}

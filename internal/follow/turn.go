package follow

import (
	"slices"

	"sockwright/internal/pattern"
	"sockwright/internal/script"
	"sockwright/internal/source"
)

// gapCross is what a row of a heel turn does at the gap that the turn before left: the step
// that passes it, and how many stitches of that step lie before it.
type gapCross struct {
	step   *script.Step
	before int
}

// checkTurn holds a row of a heel turn that has just been turned to the rows before it. A
// heel turn loses a stitch across each gap, and its first two rows leave as many stitches on
// one side as on the other. ahead is how many waited beyond a gap ahead when the row began,
// behind how many waited behind it.
func (w *worker) checkTurn(rw *rowWork, ahead, behind int) {
	steps := rw.row.Steps
	if !w.n.flat || rw.wraps || w.hasWraps() || w.opensWithLoop(rw) || slices.ContainsFunc(steps, func(s script.Step) bool { return s.To == script.Gap || s.Op == script.Wrap }) {
		return
	}
	at := slices.IndexFunc(steps, func(s script.Step) bool { return s.Op == script.Decrease })
	run := slices.IndexFunc(steps, func(s script.Step) bool {
		return (s.Op == script.Knit || s.Op == script.Purl) && s.N.Known()
	})
	if at < 0 || run < 0 || run > at || slices.ContainsFunc(steps[at+1:], func(s script.Step) bool { return s.Op == script.Decrease }) {
		return
	}
	n := steps[run].N
	place := n.Span(w.size)
	if len(n.Val) > 1 && n.In(w.size) == pattern.Gap {
		return
	}
	say := func(text source.Message) {
		p := w.remark(place, source.StitchCount, text, nil, nil)
		p.fault.Mends = []source.Mend{{Why: source.Say("follow.mend-turn", "count this row and the one before it again")}}
		w.soft = append(w.soft, p)
	}
	switch {
	case ahead > 0 && rw.gap.step == nil:
		say(source.Say("follow.short-of-gap", "{0} turns before it comes to the gap of the turn before it, and closes none", rw.label))
	case ahead > 0 && rw.gap.step == &steps[at] && rw.gap.before == 0 && w.growsPastGap(rw.row):
	case ahead > 0 && (rw.gap.step != &steps[at] || rw.gap.before == 0):
		say(source.Say("follow.beside-gap", "{0} does not decrease across the gap of the turn before it", rw.label))
	case ahead == 0 && behind > 0:
		if now, other := count(w.n.right[:gapAt(w.n.right)]), count(w.n.left[:gapAt(w.n.left)]); other > 0 && now > 0 && now != other {
			say(source.Say("follow.uneven-turn", "{0} leaves {1} unworked, but {2} wait on the other side of the heel", rw.label, source.InSts(now), other))
		}
	}
}

// growsPastGap tells whether a row is one of a half-handkerchief heel whose decreases take two
// stitches beyond the gap: nothing is worked behind them, and each row is a stitch longer than the one
// before it, in three rows at least.
func (w *worker) growsPastGap(r *script.Row) bool {
	var runs []int
	here := -1
	for i := range w.plan {
		row := w.plan[i].row
		if row == nil || len(row.Steps) != 4 || row.Steps[0].Op != script.Slip || row.Steps[2].Op != script.Decrease || row.Steps[3].Op != script.Turn {
			continue
		}
		n, ok := w.figure(row.Steps[1].N, 1)
		if !ok || row.Steps[1].To != script.Here {
			continue
		}
		if row == r {
			here = len(runs)
		}
		runs = append(runs, n)
	}
	for i := 1; i < len(runs); i++ {
		if runs[i] != runs[i-1]+1 {
			return false
		}
	}
	return here > 0 && len(runs) > 2
}

func (w *worker) doTurn(rw *rowWork, s *script.Step) {
	rw.turned = true
	if !w.n.flat && (rw.ndl > 0 || rw.part != script.NoPart) {
		w.turnOnNeedle(rw)
		return
	}
	if !w.n.flat { // the stitches worked are the heel; the others rest
		if s.Op == script.Wrap && count(w.n.left) < 4 || count(w.n.left) == 0 { // all of them are worked flat
			w.n.flat = true
			w.n.turn()
			return
		}
		var own []cell // the wrapped stitch is of the heel
		if s.Op == script.Wrap {
			last := len(w.n.left) - 1
			own, w.n.left = []cell{w.n.left[last]}, w.n.left[:last]
			own[0].part = script.Heel
		}
		ahead, held, behind := w.n.besideInstep()
		w.n.held, w.n.left = held, append(ahead, own...)
		w.n.right = append(behind, w.n.right...)
		w.n.restL, w.n.restR = count(ahead), count(behind)
		for i := range w.n.right {
			w.n.right[i].part = script.Heel
		}
		w.beginFlat()
	}
	w.n.turn()
}

// besideInstep parts the stitches of the left needle that a turn in the round leaves unworked: the
// instep rests, while those of the sole on both sides of it, and the markers there, stay beside
// the heel. All of them are the instep where its stitches are not told apart.
func (n *needles) besideInstep() (ahead, instep, behind []cell) {
	is := func(c cell) bool { return c.mark == stitch && c.part == script.Instep }
	first, last := slices.IndexFunc(n.left, is), -1
	for i, c := range slices.Backward(n.left) {
		if is(c) {
			last = i
			break
		}
	}
	if first < 0 { // nothing but markers at the turn itself stays
		for first = 0; first < len(n.left) && n.left[first].mark == marker; first++ {
		}
		for last = len(n.left) - 1; last >= first && n.left[last].mark == marker; last-- {
		}
	}
	behind, ahead = reversed(n.left[:first]), slices.Clone(n.left[last+1:])
	for _, c := range slices.Backward(n.left[first : last+1]) {
		if c.mark == stitch {
			c.part = script.Instep
			instep = append(instep, c)
		}
	}
	return ahead, instep, behind
}

// turnOnNeedle turns in a row that is for one needle or part: its stitches are the heel, the
// others rest.
func (w *worker) turnOnNeedle(rw *rowWork) {
	split := func(cells []cell) (heel, rest []cell) {
		for _, c := range cells {
			switch {
			case rw.inScope(c):
				c.part = script.Heel
				heel = append(heel, c)
			case c.mark == stitch:
				c.part = script.Instep
				rest = append(rest, c)
			}
		}
		return heel, rest
	}
	left, ahead := split(w.n.left)
	right, behind := split(w.n.right)
	w.n.left, w.n.right = left, right
	w.n.held = append(reversed(ahead), behind...)
	w.heelCount = w.n.worked()
	w.beginFlat()
	w.n.turn()
}

// beginFlat goes on flat over the stitches of the heel, the first row of which has been worked.
func (w *worker) beginFlat() {
	w.n.flat = true
	if w.n.facing == script.NoSide {
		w.n.facing = script.RS
	}
	w.newFlap()
}

func (w *worker) newFlap() {
	w.flapRows, w.slipRows = 0, 0
	w.countRows()
	w.edges = true
	w.certain(ofRows)
}

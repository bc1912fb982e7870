package sock

import (
	"sockwright/internal/design"
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

// What the heels with a flap and a turn share.

// turnedHeel is a heel with a flap and a turn that narrows to the middle and widens from it.
func turnedHeel(kind, name string, options []Option, says source.Message, take func(flap, *design.Table) construction) Part {
	return Part{Part: "heel", Kind: kind, Name: name, Says: says, Directions: cuffDown, Gussets: []string{"instep", "sole", oneSided},
		Options: append(flapOptions(1), options...), Notions: []string{"2 locking markers"}, Skills: []string{"slipping sts", "short rows", "decreasing"},
		How:  say("heel.round.opening", "The heel begins with a flap that covers the back of the heel. Then it is turned: short rows, each with a decrease, make a cup of the stitches that are left."),
		take: func(d *Draft, t *design.Table) construction { return take(takeFlap(d, t, 1), t) }}
}

// waitingTurn declares the rows of a turn whose first two rows leave stitches waiting on each
// side, and what it comes to; count is how many rows there are where so many wait.
func (d *Draft) waitingTurn(heel, wait *grade.Var, count func(waiting int) int) {
	d.turned(heel, d.Model.Add(follows("heel.turn_rows", "rows of the turn", "rows",
		func(v grade.Values) int { return count(v.Of(wait)) },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "turn-rows", Text: say("why.turn.rows", "two rows leave {0} waiting on each side, and each row after them takes in two on its side", v.Of(wait)), Terms: []grade.Term{v.Term(wait)}}
		})))
}

// turned declares what a turn that takes a stitch in each of its rows leaves, and what it
// adds to the foot.
func (d *Draft) turned(heel, rows *grade.Var) {
	d.Model.Add(follows("heel.stitches_left", "stitches left when the heel is turned", "sts",
		func(v grade.Values) int { return v.Of(heel) - v.Of(rows) },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "turn-left", Text: say("why.turn.left", "{0}, less one for each of {1} rows", v.Of(heel), v.Of(rows)), Terms: []grade.Term{v.Term(heel), v.Term(rows)}}
		}))
	d.Model.Add(follows("heel.sole_rounds", "length of the heel under the foot, in rounds", "rnds",
		func(v grade.Values) int { return v.Of(rows) },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "turn-under", Text: say("why.turn.under", "the rows of the turn lie under the heel"), Terms: []grade.Term{v.Term(rows)}}
		}))
}

// heelLess states how many heel stitches there are when so many are gone.
func (b *Builder) heelLess(n int) *pattern.Count {
	return total(b.each(func(size int) int { return b.of("heel.stitches", size) - n }))
}

// turnDone says what a turn has come to.
func (b *Builder) turnDone() {
	needle := "N1"
	if b.roundsBegin() == pattern.CentreBack {
		needle = "the needle"
	}
	b.para(say("heel.turn.done", "No st waits any more: {2} holds {0} sts. The turn has {1} rows.", b.n("heel.stitches_left"), b.n("heel.turn_rows"), needle))
}

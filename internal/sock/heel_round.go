package sock

import (
	"sockwright/internal/design"
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
)

var (
	turnPast = wholeNumber("past", "stitches worked past the center before the first decrease; more make the cup wider and shallower", 2, 1, 6)
	turnForm = choice("form", "whether the first st of each row of the turn is slipped, or none is, as in old leaflets", "slipped", "unslipped")
)

var (
	_ = register(turnedHeel("round", "a round heel", []Option{turnPast},
		say("heel.round.says", "round heel: a flap, and a cup that widens from a few stitches in the center; suits most feet"),
		func(f flap, t *design.Table) construction { return &roundHeel{f, turnPast.whole(t)} }))
	_ = register(turnedHeel("v", "a V heel", nil,
		say("heel.v.says", "V heel: a flap, and a pointed cup that widens from the very center; suits narrow heels"),
		func(f flap, _ *design.Table) construction { return &roundHeel{f, 0} }))
	_ = register(turnedHeel("half-handkerchief", "a half-handkerchief heel", []Option{turnForm},
		say("heel.handkerchief.says", "half-handkerchief heel: a flap, and a cup folded as a kerchief, hardly blunter than a V; also in the old form without slipped stitches"),
		func(f flap, t *design.Table) construction {
			if turnForm.name(t) == "unslipped" {
				return &unslippedHeel{f}
			}
			return &roundHeel{f, 1}
		}))
)

// A roundHeel is a flap and a turn that works a stitch more in each row.
//
// With H stitches and e past the center, the first row leaves U = ⌊H/2⌋ − e − 3 waiting on
// its side and so does the second on the other. Each row after them closes the gap where
// the work was turned with a decrease, and works one stitch more: U falls by 2 on a side
// with each. Where U is odd the last row of each side ends with the decrease. Row i leaves
// H − i; there are 2 (1 + ⌈U/2⌉) rows.
type roundHeel struct {
	flap
	past int // e
}

func (h *roundHeel) declare(d *Draft) {
	heel, flapRows := h.flap.declare(d, 2*(h.past+3), 0, "a heel turned so far past the center")
	wait := d.Model.Add(follows("heel.waiting_stitches", "stitches that wait on each side after the first rows of the turn", "sts",
		func(v grade.Values) int { return v.Of(heel)/2 - h.past - 3 },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "turn-waiting", Terms: []grade.Term{v.Term(heel), {Key: "heel.past", Value: float64(h.past)}},
				Text: say("why.turn.waiting", "half of {0}, in whole stitches, less {1} past the center and 3 for the decrease and the stitch after it", v.Of(heel), h.past)}
		}))
	d.waitingTurn(heel, wait, func(n int) int { return 2 * (1 + (n+1)/2) })
	h.edges(d, func(v grade.Values) int { return v.Of(flapRows) })
}

func (h *roundHeel) build(b *Builder) {
	h.flap.build(b)
	b.section("Heel turn")
	b.para(say("heel.turn.intro", "The turn is worked in short rows: each is turned before its end. Where the work was turned a gap shows between the sts that were worked and those that wait; the rows that come to it close it with a decrease."))
	heel := func(size int) int { return b.of("heel.stitches", size) }
	wait := func(size int) int { return b.of("heel.waiting_stitches", size) }
	// Behind the slipped stitch, and before the decrease and the stitch after it.
	first := b.each(func(size int) int { return heel(size) - 4 - wait(size) })
	second := b.each(func(size int) int { return heel(size) - 5 - 2*wait(size) })
	b.row(row(1, pattern.RS), b.heelLess(1), sl1(), k(first), do(pattern.Ssk), kN(1), turn(pattern.NotTurned))
	b.row(row(2, pattern.WS), b.heelLess(2), sl1(), p(second), do(pattern.P2tog), pN(1), turn(pattern.NotTurned))
	b.taking(on(sl1(), toGap(pattern.Knit, 1, pattern.NotTurned), do(pattern.Ssk), kN(1), turn(pattern.NotTurned)),
		on(sl1(), toGap(pattern.Purl, 1, pattern.NotTurned), do(pattern.P2tog), pN(1), turn(pattern.NotTurned)),
		func(size int) int { return heel(size) - 2 }, func(size int) int { return wait(size) / 2 })
	b.where(func(size int) bool { return wait(size)%2 != 0 }, func() {
		b.para(say("heel.turn.short", "On each side 1 st waits: the last two rows take it in and end with the decrease."))
		b.row(named(pattern.Next, pattern.RS), total(b.each(func(size int) int { return b.of("heel.stitches_left", size) + 1 })),
			sl1(), toGap(pattern.Knit, 1, pattern.NotTurned), do(pattern.Ssk))
		b.row(named(pattern.Next, pattern.WS), total(b.n("heel.stitches_left")),
			sl1(), toGap(pattern.Purl, 1, pattern.NotTurned), do(pattern.P2tog))
	})
	b.turnDone()
}

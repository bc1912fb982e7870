package sock

import (
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
)

// unslippedHeel is the old form of a half-handkerchief heel, whose turn slips no stitch: the
// first two rows leave W stitches waiting on each side, an even number, and each row after
// them works up to the gap and decreases two of those. 2 + W rows leave H − 2 − W. Published
// socks have W = 8 of 22 stitches, and 14 of 42 (Auckland Star, 13 July 1940).
type unslippedHeel struct {
	flap
}

func (h *unslippedHeel) declare(d *Draft) {
	heel, flapRows := h.flap.declare(d, 10, 0, "a half-handkerchief heel")
	wait := d.Model.Add(grade.Var{
		Key: "heel.waiting_stitches", Label: "stitches that wait on each side after the first rows of the turn", Unit: "sts",
		Target: func(v grade.Values) float64 { return float64(v.Of(heel)-6) / 2 },
		Scale:  d.stitchWidth, Reach: 2, Level: proportions,
		Rules: []grade.Rule{
			rule("waiting-even", "each row of the turn decreases two of the stitches that wait, so they are an even number", func(_ grade.Values, n int) bool { return n >= 2 && n%2 == 0 }),
			rule("waiting-middle", "at least 3 stitches are purled in the second row of the turn", func(v grade.Values, n int) bool { return v.Of(heel)-3-2*n >= 3 }),
		},
		Why: func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "turn-waiting", Text: say("why.turn.waiting.old", "as many as leave 3 of {0} to purl in row 2, or a few more: an even number, so that each row can decrease two of them", v.Of(heel)), Terms: []grade.Term{v.Term(heel)}}
		},
	})
	d.waitingTurn(heel, wait, func(n int) int { return 2 + n })
	h.edges(d, func(v grade.Values) int { return v.Of(flapRows) })
}

func (h *unslippedHeel) build(b *Builder) {
	h.flap.build(b)
	b.section("Heel turn")
	b.para(say("heel.turn.old", "The turn is worked in short rows: each is turned before its end. Where the work was turned a gap shows between the sts that were worked and those that wait. From Row 3 on each row works up to the gap and then decreases two of the sts that wait beyond it. No st is slipped."))
	heel := func(size int) int { return b.of("heel.stitches", size) }
	wait := func(size int) int { return b.of("heel.waiting_stitches", size) }
	first := b.each(func(size int) int { return heel(size) - 2 - wait(size) })
	second := b.each(func(size int) int { return heel(size) - 3 - 2*wait(size) })
	b.row(row(1, pattern.RS), b.heelLess(1), k(first), do(pattern.K2tog), turn(pattern.NotTurned))
	b.row(row(2, pattern.WS), b.heelLess(2), p(second), do(pattern.P2tog), turn(pattern.NotTurned))
	b.taking(on(toGap(pattern.Knit, 0, pattern.NotTurned), do(pattern.K2tog), turn(pattern.NotTurned)),
		on(toGap(pattern.Purl, 0, pattern.NotTurned), do(pattern.P2tog), turn(pattern.NotTurned)),
		func(size int) int { return heel(size) - 2 }, func(size int) int { return wait(size) / 2 })
	b.turnDone()
}

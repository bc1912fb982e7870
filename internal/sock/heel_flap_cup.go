package sock

import (
	"sockwright/internal/design"
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
)

// flapOverCup is how many rows the flap has to a heel stitch: the rows of the cup make the
// heel high enough without a flap of full height (20 rows over 32 stitches; common practice).
const flapOverCup = 0.625

var _ = register(Part{Part: "heel", Kind: "flap-and-cup", Name: "a heel with a flap and a cup of short rows", Directions: cuffDown, Gussets: []string{"instep", "sole", oneSided},
	Options: append(flapOptions(flapOverCup), cupTurn, heelMiddle), Notions: []string{"2 locking markers"}, Skills: []string{"slipping sts", "short rows"},
	Says: say("heel.flap-and-cup.says", "a short flap, and a cup of short rows that loses no stitch, with a gusset: for very high insteps"),
	How:  say("heel.flap-and-cup.opening", "The heel begins with a short flap. Then short rows, each a stitch shorter than the one before, and then each a stitch longer again, make a deep cup. No stitch is lost."),
	take: func(d *Draft, t *design.Table) construction {
		return &flapAndCup{flap: takeFlap(d, t, flapOverCup), turn: turnOf(cupTurn.name(t)), middle: heelMiddle.number(t)}
	}})

// flapAndCup is a flap of R rows and a cup of 4 m short rows over all heel stitches, of which
// none is lost: T = H + 2 (R / 2 + g) + I are there when the gusset is picked up.
type flapAndCup struct {
	flap
	turn   pattern.Turned
	middle float64 // of the heel, that every row works
}

func (h *flapAndCup) declare(d *Draft) {
	heel, rows := h.flap.declare(d, 8, 0, "a heel with a flap and a cup")
	d.shortRowNumbers(heel, h.middle, 0)
	h.edges(d, func(v grade.Values) int { return v.Of(rows) })
}

func (h *flapAndCup) build(b *Builder) {
	h.flap.build(b)
	b.section("Heel cup")
	b.para(say("heel.flap-and-cup.intro", "The cup is worked in short rows over the same sts, each of which is turned before its end. Between the turns lie the sts that are worked; beyond them the others wait."))
	b.howToTurn(h.turn)
	shortRows{h.turn, "heel.stitches", "heel.middle_stitches", "heel.turns"}.work(b, "Heel cup")
	b.para(say("heel.flap-and-cup.done", "All {0} heel sts are in work again.", b.n("heel.stitches")))
}

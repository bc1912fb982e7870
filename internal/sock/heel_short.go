package sock

import (
	"sockwright/internal/design"
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
	"sockwright/internal/unit"
)

var (
	_ = register(shortHeel("wrapped", pattern.Wrapped, "a short-row heel with wraps",
		say("heel.wrapped.says", "short rows with wrapped stitches: no flap and no gusset; quick, and shallow enough for a low instep")))
	_ = register(shortHeel("twin", pattern.Twin, "a short-row heel with twin stitches",
		say("heel.twin.says", "short rows with twin stitches: a second loop beside each turning stitch; nearly unseen")))
	_ = register(shortHeel("yarn-over", pattern.Over, "a short-row heel with yarn overs",
		say("heel.yarn-over.says", "short rows with a yarn over at each turn: easy to see and to count")))
	_ = register(shortHeel("double-stitch", pattern.Doubled, "a short-row heel with double stitches",
		say("heel.double-stitch.says", "short rows with double stitches: the turning stitch is pulled up over the needle; the fastest to work")))
)

var (
	boomerangTurn = choice("turn", "what is left at the turns", "double-stitch", "wrapped", "twin", "yarn-over")
	betweenRounds = wholeNumber("between", "rounds over all stitches between the two halves", 2, 1, 6)
)

var _ = register(Part{Part: "heel", Kind: "boomerang", Name: "a boomerang heel", Directions: bothWays, Gussets: []string{"none", "mini"},
	Says:   say("heel.boomerang.says", "a short-row heel whose two halves are parted by some rounds over all stitches: no flap and no gusset, and a wider mouth than short rows have alone"),
	How:    say("heel.boomerang.opening", "The heel is made of short rows, each a stitch shorter than the one before. Then some rounds are worked over all stitches, and short rows go on from the middle of the heel, each a stitch longer. No stitch is lost, and none is picked up but one in each corner."),
	Skills: []string{"short rows"}, Options: []Option{heelShare, heelMiddle, boomerangTurn, betweenRounds},
	take: func(d *Draft, t *design.Table) construction {
		return &shortRowHeel{turn: turnOf(boomerangTurn.name(t)), share: heelShare.number(t), middle: heelMiddle.number(t), between: betweenRounds.whole(t)}
	}})

var heelMiddle = share("middle", "share of the heel that lies between the last turns", 1.0/3, 0.2, 0.5)

func shortHeel(kind string, turn pattern.Turned, name string, says source.Message) Part {
	var usual []string
	if turn == pattern.Wrapped {
		usual = toeUp
	}
	return Part{Part: "heel", Kind: kind, Name: name, Says: says, Directions: bothWays, Default: usual, Gussets: []string{"none", "mini"},
		Skills: []string{"short rows"}, Options: []Option{heelShare, heelMiddle},
		How: say("heel.short.opening", "The heel is made of short rows, each a stitch shorter than the one before, and then each a stitch longer again. No stitch is lost, and none is picked up but one in each corner."),
		take: func(d *Draft, t *design.Table) construction {
			return &shortRowHeel{turn: turn, share: heelShare.number(t), middle: heelMiddle.number(t)}
		}}
}

// shortRowHeel is a heel of short rows: m turns on each side leave the middle, and m more
// take the stitches in again, 4 m rows in all. Row i of the first half works H - i stitches,
// row i of the second the middle and i more. The same words serve in both directions. Rounds
// between the halves make instep and sole longer by as many.
type shortRowHeel struct {
	turn    pattern.Turned
	share   float64 // of the round
	middle  float64 // of the heel, that every row works
	between int     // rounds over all stitches between the halves; the turns are closed in them
}

func (h *shortRowHeel) declare(d *Draft) {
	g := d.Gauge[""]
	heel := d.heelStitches(h.share, 8, "a short-row heel")
	extra := d.miniRounds() // twice the stitches of a side
	worked := d.Model.Add(follows("heel.worked_stitches", "stitches that the short rows are worked over", "sts",
		func(v grade.Values) int { return v.Of(heel) + extra },
		func(v grade.Values) grade.Reason {
			r := grade.Reason{Rule: "heel-worked", Text: say("why.worked", "the heel stitches"), Terms: []grade.Term{v.Term(heel)}}
			if extra > 0 {
				r.Text = say("why.worked.mini", "the {0} heel stitches and {1} of the small gusset", v.Of(heel), extra)
			}
			return r
		}))
	turns := d.shortRowNumbers(worked, h.middle, h.between)
	d.cornersIn(2, say("why.corner.rounds", "one that picks up a stitch in each corner, one that takes it away"))
	d.measure("heel.depth", "heel, depth", nil, func(v grade.Values) unit.Length { return g.Height(2 * v.Of(turns)) })
}

func (h *shortRowHeel) build(b *Builder) {
	if m := b.mini(); m != nil && b.Direction == design.CuffDown {
		m.grow(b)
	}
	b.section("Heel")
	b.para(say("heel.short.intro", "The heel is worked back and forth in short rows, each of which is turned before its end. Between the turns lie the sts that are worked; beyond them the others wait."))
	b.howToTurn(h.turn)
	b.setApart(
		say("heel.short.set-up", "The two set-up rows bring the heel sts onto one needle; leave the instep sts on the others."),
		say("heel.short.two", "From here only N1 is worked; N2 rests."))
	rows := shortRows{h.turn, "heel.worked_stitches", "heel.middle_stitches", "heel.turns"}
	if h.between > 0 {
		rows.apart(b, h.between)
	} else {
		rows.work(b, "Heel")
	}
	b.para(say("heel.short.done", "All {0} heel sts are in work again.", b.n("heel.worked_stitches")))
	b.corners()
	if m := b.mini(); m != nil && b.Direction == design.ToeUp {
		m.shrink(b)
	}
}

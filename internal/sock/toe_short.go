package sock

import (
	"sockwright/internal/design"
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
)

var (
	toeTurn   = choice("turn", "what is left at the turns", "wrapped", "twin", "yarn-over", "double-stitch")
	toeMiddle = share("middle", "share of half the foot that lies between the last turns", 0.4, 0.25, 0.5)
	toeOver   = choice("over", "half of the foot that the short rows are worked over; the graft lies on the other", "instep", "sole").only(design.CuffDown)
)

var _ = register(Part{Part: "toe", Kind: "short-row", Name: "a short-row toe", Options: []Option{toeTurn, toeMiddle, toeOver}, Notions: []string{"tapestry needle"}, Directions: bothWays, Skills: []string{"short rows", "grafting"},
	Says: say("toe.short.says", "a toe of short rows, to match a heel of short rows: stripes run across it, and no stitch is decreased; grafted under the toes or above them, or from the toe up begun with a provisional cast-on"),
	take: func(_ *Draft, t *design.Table) construction {
		return &shortRowToe{turn: turnOf(toeTurn.name(t)), middle: toeMiddle.number(t), over: toeOver.name(t)}
	}})

// shortRowToe is a pocket of short rows over half of the foot, 2 m rows to its tip and 2 m
// back. From the cuff down it is worked over the instep and grafted to the sole, or the other
// way round; from the toe
// up it begins with a provisional cast-on, whose stitches become the instep.
type shortRowToe struct {
	turn   pattern.Turned
	middle float64 // of half the foot
	over   string  // which half is worked
}

// tell adds the waste yarn of a provisional cast-on.
func (s *shortRowToe) tell(d *Draft, p *Part) {
	if d.Direction == design.ToeUp {
		p.Notions = append(p.Notions, wasteYarn)
	}
}

func (s *shortRowToe) declare(d *Draft) {
	foot := d.v("foot.stitches")
	half := d.Model.Add(follows("toe.stitches", "stitches of the toe", "sts",
		func(v grade.Values) int { return v.Of(foot) / 2 },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "toe-half", Text: say("why.toe.half", "half of {0}", v.Of(foot)), Terms: []grade.Term{v.Term(foot)}}
		}))
	middle := d.Model.Add(grade.Var{
		Key: "toe.middle_stitches", Label: "stitches left in the middle of the toe", Unit: "sts",
		Target: func(v grade.Values) float64 { return s.middle * float64(v.Of(half)) },
		Scale:  d.stitchWidth, Reach: 4, Level: proportions,
		Rules: []grade.Rule{
			evenSides("toe-middle-parity", "the middle is odd or even as half of the foot is, so that both sides have as many turns", half),
			rule("toe-middle-some", "the middle has at least 2 stitches, and there are at least 2 turns on each side", func(v grade.Values, n int) bool { return n >= 2 && v.Of(half)-n >= 4 }),
		},
		Why: func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "middle-share", Text: say("why.toe.middle", "{0} % of {1} stitches is {2}; odd or even as they are", whole(s.middle*100), v.Of(half), whole(s.middle*float64(v.Of(half)))),
				Terms: []grade.Term{v.Term(half), {Key: "toe.middle", Value: s.middle, Source: "common practice"}}}
		},
	})
	turns := d.turnsBeside("toe.turns", "turns on each side of a half of the toe", half, middle)
	d.Model.Add(follows("toe.rounds", "length of the toe, in rounds", "rnds",
		func(v grade.Values) int { return 2 * v.Of(turns) },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "short-under", Text: say("why.toe.short", "one half of the rows lies over the toes, the other under them: 2 × {0}", v.Of(turns)), Terms: []grade.Term{v.Term(turns)}}
		}))
	closing := 1
	if d.Direction == design.ToeUp {
		closing = 0
	}
	d.footLength(closing, func(v grade.Values) int { return d.roundOfToe(d.moved(v)) })
}

func (s *shortRowToe) build(b *Builder) {
	b.section("Toe")
	half := b.n("toe.stitches")
	rows := shortRows{s.turn, "toe.stitches", "toe.middle_stitches", "toe.turns"}
	how := func() {
		b.para(say("toe.short.intro", "The toe is worked back and forth in short rows, each of which is turned before its end. Between the turns lie the sts that are worked; beyond them the others wait."))
		b.howToTurn(s.turn)
	}
	if b.Direction == design.ToeUp {
		how()
		b.para(say("toe.short.start", "A provisional cast-on: cast on with a piece of smooth waste yarn in another color, and change to the sock yarn for Row 1. Later the waste yarn is picked out, and its sts go on in the other direction."))
		b.add(&pattern.CastOn{Form: pattern.ProvisionalFlat, Stitches: half})
		rows.work(b, "Toe")
		b.para(say("toe.short.undo", "Between the sts of a cast-on there is one loop fewer than it has sts: the last of those taken up now is the half loop at its edge."))
		b.add(&pattern.Undo{Stitches: half})
		b.add(&pattern.Rejoin{Stitches: b.n("foot.stitches"), Place: b.roundsBegin()})
		b.soleAndInstep(half)
		return
	}
	b.evenOut(half)
	place, rests := pattern.SideOfInstep, "sole"
	needles := [][]pattern.Step{on(toEnd(pattern.Knit))} // before the toe, in a partial round
	if b.footBegins() == pattern.SideOfInstep {
		needles = nil
	}
	if s.over == "sole" {
		place, rests = pattern.SideOfSole, "instep"
		needles = append(needles, on(toEnd(pattern.Knit)))
	}
	if needles != nil {
		b.needles(pattern.Label{Word: pattern.Round, Name: pattern.Partial}, nil, needles...)
		b.add(&pattern.Begin{Place: place})
	}
	how()
	b.para(say("toe.short.over", "The toe is worked over the {0}; the {1} rests.", s.over, rests))
	b.add(&pattern.Divide{Toe: true, Heel: half, Rest: half})
	rows.work(b, "Toe")
	b.para(say("toe.short.graft", "Break the yarn, leaving about 30 in [76 cm], and thread it into a tapestry needle. Put the instep on one needle and the sole on another, and hold them side by side, wrong sides together, the {0} in front and the {1} behind: the yarn comes from the {right} end of the front needle.", s.over, rests))
	b.graft(&pattern.Join{Front: half, Back: half})
}

package sock

import (
	"math"

	"sockwright/internal/design"
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
)

var _ = register(Part{Part: "toe", Kind: "anatomical", Name: "a toe shaped for left and right", Options: []Option{toeLeft}, Sided: true, Notions: []string{"tapestry needle"}, Directions: bothWays, Skills: []string{"decreasing", "grafting"},
	Says: say("toe.anatomical.says", "a toe that follows the slant of the toes: more is decreased at the side of the little toe, so left and right differ; grafted"),
	take: func(_ *Draft, t *design.Table) construction { return &anatomicalToe{share: toeLeft.number(t)} }})

// anatomicalToe takes D stitches from the instep and as many from the sole: a of them at the
// little toe's side alone, in every second round, and then b on each side in every round, so
// that D = a + 2 b. As near as it can be b is five twelfths of D: the little toe's side loses
// seven stitches for five of the other. 2 a + b rounds.
type anatomicalToe struct {
	share float64 // of the foot that is left to graft
}

func (a *anatomicalToe) declare(d *Draft) {
	foot := d.v("foot.stitches")
	left := d.Model.Add(grade.Var{
		Key: "toe.stitches_left", Label: "stitches left at the tip", Unit: "sts",
		Target: func(v grade.Values) float64 { return a.share * float64(v.Of(foot)) },
		Scale:  d.stitchWidth, Reach: 8, Level: proportions,
		Rules: []grade.Rule{
			rule("toe-halves", "instep and sole lose as many stitches each, so that they can be grafted", func(v grade.Values, n int) bool { return n%2 == 0 }),
			rule("toe-slant", "at least 8 stitches are left at the tip, and at least 6 each are decreased of instep and sole", func(v grade.Values, n int) bool { return n >= 8 && (v.Of(foot)-n)/2 >= 6 }),
		},
		Why: func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "toe-share", Text: say("why.toe.anatomical", "{0} % of {1} stitches is {2}; even", whole(a.share*100), v.Of(foot), whole(a.share*float64(v.Of(foot)))), Terms: []grade.Term{v.Term(foot), {Key: "toe.left", Value: a.share}}}
		},
	})
	both := d.Model.Add(follows("toe.both_rounds", "rounds that shape both sides of the toe", "rnds",
		func(v grade.Values) int {
			lost := (v.Of(foot) - v.Of(left)) / 2
			return min(int(math.Round(float64(lost)*5/12)), (lost-1)/2)
		},
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "toe-slant", Text: say("why.toe.both", "five twelfths of the {0} stitches that instep and sole lose each (house rule)", (v.Of(foot)-v.Of(left))/2), Terms: []grade.Term{v.Term(foot), v.Term(left)}}
		}))
	one := d.Model.Add(follows("toe.one_side_rounds", "rounds that shape the little toe's side alone", "rnds",
		func(v grade.Values) int { return (v.Of(foot)-v.Of(left))/2 - 2*v.Of(both) },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "toe-slant", Text: say("why.toe.one", "what is left of {0} when two are taken in each of {1} rounds", (v.Of(foot)-v.Of(left))/2, v.Of(both)), Terms: []grade.Term{v.Term(both), v.Term(left)}}
		}))
	d.Model.Add(follows("toe.rounds", "rounds of the toe", "rnds",
		func(v grade.Values) int {
			n := 2*v.Of(one) + v.Of(both)
			if d.Direction == design.ToeUp {
				n++ // the plain round over the stitches cast on
			}
			return n
		},
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "toe-rounds", Text: say("why.toe.anatomical.rounds", "2 × {0} + {1}, and one where a toe is cast on at its tip", v.Of(one), v.Of(both)), Terms: []grade.Term{v.Term(one), v.Term(both)}}
		}))
	d.footLength(1, func(v grade.Values) int { return d.roundOfToe(d.moved(v)) })
}

func (a *anatomicalToe) build(b *Builder) {
	b.section("Toe")
	one, both := func(size int) int { return b.of("toe.one_side_rounds", size) }, func(size int) int { return b.of("toe.both_rounds", size) }
	if b.Direction == design.ToeUp {
		a.fromTip(b, one, both)
		return
	}
	half := b.each(func(size int) int { return b.of("foot.stitches", size) / 2 })
	b.evenOut(half)
	if b.footBegins() == pattern.CentreOfSole {
		b.needles(pattern.Label{Word: pattern.Round, Name: pattern.Partial}, nil, on(toEnd(pattern.Knit)))
		b.add(&pattern.Begin{Place: pattern.SideOfInstep})
		b.para(say("toe.anatomical.needles", "From here N1 is the instep and N2 the sole. Each may lie on two double-pointed needles: read both as one."))
		b.add(&pattern.Arrange{Split: []pattern.Number{half, half}})
	}
	// With its toes away from the knitter the instep lies as the wearer sees it: the first of its
	// stitches is on the wearer's right, where a right foot has its little toe.
	b.para(say("toe.anatomical.intro", "First only the side of the little toe is decreased: on the {right} sock that is where the rnd begins, on the {left} sock between instep and sole. Then both sides are."))
	right, left := on(kN(1), do(pattern.Ssk), toEnd(pattern.Knit)), on(toLast(pattern.Knit, 3), do(pattern.K2tog), kN(1))
	after := func(ones, boths func(size int) int) pattern.Number {
		return b.each(func(size int) int { return b.of("foot.stitches", size) - 2*ones(size) - 4*boths(size) })
	}
	first := changeTotal(-2, after(func(int) int { return 1 }, none))
	b.sock(pattern.RightSock, func() { b.needles(rnd(1), first, right, left) })
	b.sock(pattern.LeftSock, func() { b.needles(rnd(1), first, left, right) })
	b.row(rnd(2), nil, toEnd(pattern.Knit))
	b.again(pattern.Round, 2, b.each(func(size int) int { return one(size) - 1 }), pattern.Again{Count: total(after(one, none))})
	sides := on(kN(1), do(pattern.Ssk), toLast(pattern.Knit, 3), do(pattern.K2tog), kN(1))
	b.needles(rnd(3), changeTotal(-4, after(one, func(int) int { return 1 })), sides, sides)
	tip := b.each(func(size int) int { return b.of("toe.stitches_left", size) / 2 })
	b.oneMore(rnd(3), b.each(func(size int) int { return both(size) - 1 }), pattern.Again{Total: b.n("toe.rounds"), Count: total(b.n("toe.stitches_left"), tip, tip)})
	b.toSide(true)
	b.graftToe(tip, instepInFront)
}

// fromTip works the toe upwards: both sides first, then the little toe's side alone. The
// instep is met with its toes towards the knitter, the other way round than from the cuff
// down: the little toe of a right foot lies at its end, which is where the round begins.
func (a *anatomicalToe) fromTip(b *Builder, one, both func(size int) int) {
	tip := b.each(func(size int) int { return b.of("toe.stitches_left", size) / 2 })
	b.closedStart(b.n("toe.stitches_left"), tip)
	b.row(rnd(1), nil, toEnd(pattern.Knit))
	after := func(ones, boths func(size int) int) pattern.Number {
		return b.each(func(size int) int { return b.of("toe.stitches_left", size) + 2*ones(size) + 4*boths(size) })
	}
	sides := on(kN(1), do(pattern.M1R), toLast(pattern.Knit, 1), do(pattern.M1L), kN(1))
	b.para(say("toe.anatomical.up", "First both sides are increased, then only the side of the little toe: on the {right} sock that is where the rnd begins, on the {left} sock between sole and instep."))
	b.needles(rnd(2), changeTotal(4, after(none, func(int) int { return 1 })), sides, sides)
	b.oneMore(rnd(2), b.each(func(size int) int { return both(size) - 1 }), pattern.Again{Count: total(after(none, both))})
	begin, end := on(kN(1), do(pattern.M1R), toEnd(pattern.Knit)), on(toLast(pattern.Knit, 1), do(pattern.M1L), kN(1))
	b.row(rnd(3), nil, toEnd(pattern.Knit))
	first := changeTotal(2, after(func(int) int { return 1 }, both))
	b.sock(pattern.RightSock, func() { b.needles(rnd(4), first, begin, end) })
	b.sock(pattern.LeftSock, func() { b.needles(rnd(4), first, end, begin) })
	half := b.each(func(size int) int { return b.of("foot.stitches", size) / 2 })
	b.again(pattern.Round, 2, b.each(func(size int) int { return one(size) - 1 }), pattern.Again{Total: b.n("toe.rounds"), Count: total(b.n("foot.stitches"), half, half)})
}

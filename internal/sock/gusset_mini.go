package sock

import (
	"sockwright/internal/design"
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
)

var miniStitches = wholeNumber("stitches", "stitches added at each side of the heel", 4, 1, 6)

var _ = register(Part{Part: "gusset", Kind: "mini", Name: "a small gusset", Options: []Option{miniStitches}, Directions: bothWays, Skills: []string{"increasing", "decreasing"},
	Says: say("gusset.mini.says", "a few stitches increased at both sides of the heel before its short rows, and decreased after them: more room at the instep, and nothing is picked up"),
	take: func(d *Draft, t *design.Table) construction { return &miniGusset{side: miniStitches.whole(t)} }})

// miniGusset adds q stitches at each side of the heel in 2 q rounds before a heel of short
// rows, which is worked over all of them, and takes them away in 2 q rounds after it. From
// the cuff down the first are rounds of the leg and the last of the foot, from the toe up it
// is the other way round.
type miniGusset struct {
	side int // q
}

// mini is the small gusset of the sock, nil if it has none.
func (d *Draft) mini() *miniGusset {
	for _, p := range d.parts {
		if m, ok := p.(*miniGusset); ok {
			return m
		}
	}
	return nil
}

// miniRounds is how many rounds a small gusset works on each side of the heel.
func (d *Draft) miniRounds() int {
	if m := d.mini(); m != nil {
		return 2 * m.side
	}
	return 0
}

func (m *miniGusset) declare(d *Draft) {
	leg, corners := d.v("leg.rounds"), d.v("heel.corner_rounds")
	reason := func(grade.Values) grade.Reason {
		return grade.Reason{Rule: "mini-rounds", Text: say("why.mini", "two for each of {0} stitches at a side", m.side), Terms: []grade.Term{{Key: "gusset.stitches", Value: float64(m.side)}}}
	}
	upper := follows("gusset.leg_rounds", "rounds of the leg that belong to the gusset", "rnds", func(grade.Values) int { return 2 * m.side }, reason)
	upper.Rules = []grade.Rule{rule("mini-room", "the leg is long enough for the small gusset", func(v grade.Values, n int) bool { return v.Of(leg) >= n+v.Of(corners)+2 })}
	d.Model.Add(upper)
	d.Model.Add(follows("gusset.rounds", "rounds of the foot that belong to heel and gusset", "rnds",
		func(v grade.Values) int {
			if d.Direction == design.ToeUp {
				return 2 * m.side
			}
			return 2*m.side + v.Of(corners)
		}, reason))
	d.footAsLeg()
}

// build works the half of the gusset that lies on the foot's side of the heel.
func (m *miniGusset) build(b *Builder) {
	if b.Direction == design.ToeUp {
		m.grow(b)
		return
	}
	m.shrink(b)
}

// grow adds the stitches, before the heel.
func (m *miniGusset) grow(b *Builder) {
	b.section("Small gusset")
	b.para(say("mini.grow", "In every second rnd 1 st is added at each side of the heel, {0} times.", m.side))
	heel, instep := b.n("heel.stitches"), b.instep()
	inc := on(kN(1), do(pattern.M1R), toLast(pattern.Knit, 1), do(pattern.M1L), kN(1))
	count := func() *pattern.Count {
		return total(b.each(func(size int) int { return b.of("leg.stitches", size) + 2*m.side }))
	}
	first := changeTotal(2, b.each(func(size int) int { return b.of("leg.stitches", size) + 2 }))
	if b.roundsBegin() == pattern.CentreBack {
		b.para(say("mini.needles", "N1 is the first half of the heel, N2 the instep, N3 the second half of the heel."))
		b.add(&pattern.Arrange{Split: []pattern.Number{
			b.each(func(size int) int { return b.of("heel.stitches", size) / 2 }), instep, b.each(func(size int) int { return (b.of("heel.stitches", size) + 1) / 2 })}})
		b.needles(rnd(1), first, on(toLast(pattern.Knit, 1), do(pattern.M1L), kN(1)), on(toEnd(pattern.Knit)), on(kN(1), do(pattern.M1R), toEnd(pattern.Knit)))
	} else {
		if b.Direction == design.ToeUp {
			b.where(func(size int) bool { return b.moved(size) != 0 }, b.moveToHeel)
		}
		if b.Direction == design.CuffDown {
			b.add(&pattern.Arrange{Split: []pattern.Number{heel, instep}})
		}
		b.needles(rnd(1), first, inc, on(toEnd(pattern.Knit)))
	}
	b.row(rnd(2), nil, toEnd(pattern.Knit))
	b.again(pattern.Round, 2, pattern.Of(m.side-1), pattern.Again{Total: pattern.Of(2 * m.side), Count: count()})
}

// shrink takes the stitches away, after the rounds that close the corners of the heel.
func (m *miniGusset) shrink(b *Builder) {
	b.para(say("mini.shrink", "The sts that were added are decreased in every second rnd, 1 at each side of the heel, {0} times.", m.side))
	both := on(kN(1), do(pattern.Ssk), toLast(pattern.Knit, 3), do(pattern.K2tog), kN(1))
	plain := on(toEnd(pattern.Knit))
	heel, instep := b.n("heel.stitches"), b.instep()
	first := changeTotal(-2, b.each(func(size int) int { return b.of("leg.stitches", size) + 2*m.side - 2 }))
	var split []pattern.Number
	switch b.footBegins() {
	case pattern.CentreOfSole:
		b.needles(rnd(3), first, on(toLast(pattern.Knit, 3), do(pattern.K2tog), kN(1)), plain, on(kN(1), do(pattern.Ssk), toEnd(pattern.Knit)))
		split = []pattern.Number{b.each(func(size int) int { return (b.of("heel.stitches", size) + 1) / 2 }), instep, b.each(func(size int) int { return b.of("heel.stitches", size) / 2 })}
	case pattern.SideOfInstep:
		b.needles(rnd(3), first, plain, both)
		split = []pattern.Number{instep, heel}
	default:
		b.needles(rnd(3), first, both, plain)
		split = []pattern.Number{heel, instep}
	}
	b.row(rnd(4), nil, toEnd(pattern.Knit))
	b.again(pattern.Round, 2, pattern.Of(m.side-1), pattern.Again{Total: pattern.Of(2*m.side + 2), Count: total(b.n("leg.stitches"), split...)})
}

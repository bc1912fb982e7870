package sock

import (
	"sockwright/internal/design"
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
	"sockwright/internal/unit"
)

var insertedLeft = share("left", "share of the stitches round the opening that is left at the tip of the heel", 0.375, 0.2, 0.45)

var _ = register(Part{Part: "heel", Kind: "inserted", Name: "a heel put in last", Directions: bothWays, Gussets: []string{"none"},
	Options: []Option{heelShare, insertedLeft}, Notions: []string{wasteYarn, "tapestry needle"}, Skills: []string{"knitting with waste yarn", "decreasing", "grafting"},
	Says: say("heel.inserted.says", "a line of waste yarn marks the heel and the sock goes on; the heel is worked last, like a toe, and can be replaced when it is worn through; the shallowest of all, deeper with a share of 0.6"),
	How:  say("heel.inserted.opening", "Where the heel will be, some stitches are knit with waste yarn, and the sock goes on as if nothing had happened. When everything else is done the waste yarn is taken out, and the heel is worked in the round from the stitches it held."),
	take: func(d *Draft, t *design.Table) construction {
		return &insertedHeel{share: heelShare.number(t), left: insertedLeft.number(t)}
	}})

// insertedHeel is a wedge put into an opening of H stitches above and H below. A stitch is
// picked up in each corner and taken away in the next round; then four go in every second
// round until E are left, which are grafted: 2 d + 1 rounds for d decrease rounds, and one
// for the graft.
type insertedHeel struct {
	share float64 // of the round
	left  float64 // of the stitches round the opening
}

func (h *insertedHeel) declare(d *Draft) {
	d.heelLast = true
	heel := d.heelStitches(h.share, 10, "a heel put in last")
	left := d.Model.Add(grade.Var{
		Key: "heel.grafted_stitches", Label: "stitches left to graft at the heel", Unit: "sts",
		Target: func(v grade.Values) float64 { return h.left * float64(2*v.Of(heel)) },
		Scale:  d.stitchWidth, Reach: 8, Level: proportions,
		Rules: []grade.Rule{
			rule("inserted-fours", "each decrease round of the heel takes 4 stitches, so a multiple of 4 goes", func(v grade.Values, n int) bool { return (2*v.Of(heel)-n)%4 == 0 }),
			rule("inserted-fewest", "at least 8 stitches of the heel are grafted, and at least 8 are decreased", func(v grade.Values, n int) bool { return n >= 8 && n <= 2*v.Of(heel)-8 }),
		},
		Why: func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "inserted-share", Text: say("why.inserted.left", "{0} % of twice {1} stitches is {2}; what goes is a multiple of 4", whole(h.left*100), v.Of(heel), whole(h.left*float64(2*v.Of(heel)))),
				Terms: []grade.Term{v.Term(heel), {Key: "heel.left", Value: h.left, Source: "common practice"}}}
		},
	})
	decreases := d.Model.Add(follows("heel.decrease_rounds", "decrease rounds of the heel", "rnds",
		func(v grade.Values) int { return (2*v.Of(heel) - v.Of(left)) / 4 },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "inserted-decreases", Text: say("why.inserted.rounds", "(2 × {0} − {1}) / 4, since each takes four stitches", v.Of(heel), v.Of(left)), Terms: []grade.Term{v.Term(heel), v.Term(left)}}
		}))
	rounds := d.Model.Add(follows("heel.rounds", "rounds of the heel", "rnds",
		func(v grade.Values) int { return 2*v.Of(decreases) + 1 },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "inserted-rounds", Text: say("why.inserted.all", "two for the corners, then a decrease round every second round: 2 × {0} + 1", v.Of(decreases)), Terms: []grade.Term{v.Term(decreases)}}
		}))
	d.Model.Add(follows("heel.stitches_left", "stitches that go on to the foot", "sts",
		func(v grade.Values) int { return v.Of(heel) },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "inserted-on", Text: say("why.inserted.on", "the waste yarn takes none away"), Terms: []grade.Term{v.Term(heel)}}
		}))
	d.Model.Add(follows("heel.sole_rounds", "length of the heel under the foot, in rounds", "rnds",
		func(v grade.Values) int { return v.Of(rounds) + 1 },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "inserted-under", Text: say("why.inserted.under", "its {0} rounds and the graft", v.Of(rounds)), Terms: []grade.Term{v.Term(rounds)}}
		}))
	d.cornersIn(1, say("why.inserted.waste", "the one with the waste yarn"))
	g := d.Gauge[""]
	d.measure("heel.depth", "heel, depth", nil, func(v grade.Values) unit.Length { return g.Height(v.Of(rounds) + 1) })
}

func (h *insertedHeel) build(b *Builder) {
	b.section("Line of the heel")
	heel, instep := b.n("heel.stitches"), b.instep()
	b.para(say("heel.inserted.line", "The {0} sts in the middle of the back are knit with a piece of smooth waste yarn in another color, about 20 in [51 cm] long. Then slip them back to the {left} needle and knit them once more, with the sock yarn. Leave the ends of the waste yarn hanging on the outside.", heel))
	waste := func() {
		b.row(rnd(1), total(b.n("leg.stitches")),
			pattern.Step{Op: pattern.WasteYarn, N: heel}, toEnd(pattern.Knit))
	}
	partial := pattern.Label{Word: pattern.Round, Name: pattern.Partial}
	near := b.each(func(size int) int { return (b.of("heel.stitches", size) + 1) / 2 })
	far := b.each(func(size int) int { return b.of("heel.stitches", size) / 2 })
	switch b.footBegins() {
	case pattern.CentreOfSole:
		b.row(partial, nil, pattern.Step{Op: pattern.Knit, Until: pattern.ToLast, N: far})
		b.add(&pattern.Begin{Place: pattern.SideOfSole})
		waste()
		b.row(partial, nil, k(far))
		b.add(&pattern.Begin{Place: pattern.CentreOfSole})
		b.add(&pattern.Arrange{Split: []pattern.Number{near, instep, far}})
	case pattern.SideOfInstep:
		waste()
		b.row(partial, nil, k(heel))
		b.add(&pattern.Begin{Place: pattern.SideOfInstep})
		b.add(&pattern.Arrange{Split: []pattern.Number{instep, heel}})
	default:
		b.where(func(size int) bool { return b.moved(size) != 0 }, b.moveToHeel)
		waste()
	}
}

// buildLast works the heel itself, when the rest of the sock is closed.
func (h *insertedHeel) buildLast(b *Builder) {
	b.section("Heel")
	heel := b.n("heel.stitches")
	below, above := "leg", "sole"
	if b.Direction == design.ToeUp {
		below, above = above, below
	}
	b.para(say("heel.inserted.open", "Put the sts on both sides of the waste yarn on needles first: with the RS facing, slip a needle through the {right} leg of each of the {0} sts in the row below it, and another through the {0} sts in the row above it. Below is the side of the {1}, above that of the {2}. Then pick the waste yarn out st by st; the next line is what you have then.", heel, below, above))
	b.add(&pattern.OpenWaste{Below: heel, Above: heel, Place: pattern.SideOfSole})
	b.para(say("heel.inserted.needles", "Join the yarn at the {right} end of N1, leaving an end of about 8 in [20 cm]. N1 holds the sts that lay below the waste yarn, N2 those above it; with double-pointed needles each may lie on two. The corner is the gap between the two: lift the strand there and knit it, so that no hole is left; the next rnd takes this st away. A hole that stays can be closed with that end of the yarn."))
	corner := pickUp(pattern.Of(1), pattern.Corner)
	b.needles(rnd(1), total(b.each(func(size int) int { return 2*b.of("heel.stitches", size) + 2 })), on(k(heel)), on(corner, k(heel), corner))
	b.needles(rnd(2), total(b.each(func(size int) int { return 2 * b.of("heel.stitches", size) }), heel, heel),
		on(toEnd(pattern.Knit)), on(do(pattern.Ssk), toLast(pattern.Knit, 2), do(pattern.K2tog)))
	both := on(kN(1), do(pattern.Ssk), toLast(pattern.Knit, 3), do(pattern.K2tog), kN(1))
	b.needles(rnd(3), change(-4), both, both)
	b.row(rnd(4), nil, toEnd(pattern.Knit))
	n := func(size int) int { return b.of("heel.decrease_rounds", size) }
	b.again(pattern.Round, 2, b.each(func(size int) int { return n(size) - 2 }), pattern.Again{
		Count: total(b.each(func(size int) int { return b.of("heel.grafted_stitches", size) + 4 }))})
	half := b.each(func(size int) int { return b.of("heel.grafted_stitches", size) / 2 })
	b.oneMore(rnd(3), pattern.Of(1), pattern.Again{Total: b.n("heel.rounds"), Count: total(b.n("heel.grafted_stitches"), half, half)})
	b.para(say("heel.inserted.graft", "Break the yarn, leaving about 12 in [30 cm], and thread it into a tapestry needle. Hold N1 in front and N2 behind, wrong sides together, so that the yarn comes from the {right} end of the back needle."))
	b.graft(&pattern.Join{Heel: true, Front: half, Back: half})
}

package sock

import (
	"sockwright/internal/design"
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
)

var increaseSide = choice("side", "sides of the foot at which the gusset is increased: both, that of the big toe, or that of the little toe", "both", "inner", "outer")

var _ = register(Part{Part: "gusset", Kind: "increases", Name: "a gusset", Directions: toeUp, Options: []Option{increaseSide}, Skills: []string{"increasing"},
	Says: say("gusset.increases.says", "stitches increased at both sides of the sole before the heel, two in every other round, or at one side alone, one in every round; the flap of the heel takes them in again"),
	take: func(_ *Draft, t *design.Table) construction { return gussetIncreases{increaseSide.name(t)} }})

// gussetIncreases widens the sole of a sock from the toe up, one stitch at each side in every
// second round, until the flap of the heel has one to take in for each of its rows. At one side
// alone it grows by one in every round, so that it is as long; left and right sock then are
// mirror images.
type gussetIncreases struct{ side string }

func (gs gussetIncreases) tell(_ *Draft, p *Part) {
	if gs.side != "both" {
		p.Name, p.Sided = "a gusset on one side of the foot", true
	}
}

func (gs gussetIncreases) declare(d *Draft) {
	side := d.v("heel.gusset_stitches")
	d.Model.Add(follows("gusset.rounds", "rounds of the gusset", "rnds",
		func(v grade.Values) int { return 2 * v.Of(side) },
		func(v grade.Values) grade.Reason {
			r := grade.Reason{Rule: "gusset-rounds", Text: say("why.gusset.up", "an increase round and a plain one for each stitch of a side: 2 × {0}", v.Of(side)), Terms: []grade.Term{v.Term(side)}}
			if gs.side != "both" {
				r.Text = say("why.gusset.up.one-side", "an increase round for each stitch, all on one side: 2 × {0}", v.Of(side))
			}
			return r
		}))
	d.footAsLeg()
}

func (gs gussetIncreases) build(b *Builder) {
	b.section("Gusset")
	side := func(size int) int { return b.of("heel.gusset_stitches", size) }
	sole := b.soleWithGusset()
	last := pattern.Again{
		Total: b.n("gusset.rounds"),
		Count: total(b.each(func(size int) int {
			return int(sole.In(size)) + b.of("leg.stitches", size) - b.of("heel.stitches", size)
		}), sole, b.instep())}
	if gs.side != "both" {
		gs.oneSide(b, side, last)
		return
	}
	b.para(say("gusset.up.intro", "The sole grows at both sides, 1 st beside the first and 1 beside the last of its sts, in every second rnd. The instep keeps its sts."))
	b.where(func(size int) bool { return b.moved(size) != 0 }, b.moveToHeel)
	b.needles(rnd(1), change(2), on(kN(1), do(pattern.M1R), toLast(pattern.Knit, 1), do(pattern.M1L), kN(1)), on(toEnd(pattern.Knit)))
	b.row(rnd(2), nil, toEnd(pattern.Knit))
	b.again(pattern.Round, 2, b.each(func(size int) int { return side(size) - 1 }), last)
}

// oneSide writes the increases of each sock. The instep is met with its toes towards the knitter:
// the round begins at the little toe of a right foot.
func (gs gussetIncreases) oneSide(b *Builder, side func(size int) int, last pattern.Again) {
	begin, end := on(kN(1), do(pattern.M1R), toEnd(pattern.Knit)), on(toLast(pattern.Knit, 1), do(pattern.M1L), kN(1))
	right, left, toe := end, begin, "big"
	where := []string{"passes from the sole to the instep", "begins"}
	if gs.side == "outer" {
		right, left, toe = begin, end, "little"
		where[0], where[1] = where[1], where[0]
	}
	b.para(say("gusset.up.one-side", "The sole grows at the side of the {0} toe only, by 1 st in every rnd: on the {right} sock that is where the rnd {1}, on the {left} sock where it {2}. The instep keeps its sts. The sole moves round under the foot a little; that is as it should be.", toe, where[0], where[1]))
	b.where(func(size int) bool { return b.moved(size) != 0 }, b.moveToHeel)
	rounds := func(sole []pattern.Step) func() {
		return func() {
			b.needles(rnd(1), change(1), sole, on(toEnd(pattern.Knit)))
			b.oneMore(rnd(1), b.each(func(size int) int { return 2*side(size) - 1 }), last)
		}
	}
	b.sock(pattern.RightSock, rounds(right))
	b.sock(pattern.LeftSock, rounds(left))
}

// soleWithGusset is how many stitches the sole has when its gusset is done.
func (b *Builder) soleWithGusset() pattern.Number {
	return b.each(func(size int) int { return b.of("heel.stitches", size) + 2*b.of("heel.gusset_stitches", size) })
}

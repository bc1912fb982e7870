package sock

import (
	"sockwright/internal/design"
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
)

var _ = register(Part{Part: "gusset", Kind: "increases", Name: "a gusset", Directions: toeUp, Skills: []string{"increasing"},
	Says: say("gusset.increases.says", "stitches increased at both sides of the sole before the heel, two in every other round; the flap of the heel takes them in again"),
	take: func(*Draft, *design.Table) construction { return gussetIncreases{} }})

// gussetIncreases widens the sole of a sock from the toe up, one stitch at each side in every
// second round, until the flap of the heel has one to take in for each of its rows.
type gussetIncreases struct{}

func (gussetIncreases) declare(d *Draft) {
	side := d.v("heel.gusset_stitches")
	d.Model.Add(follows("gusset.rounds", "rounds of the gusset", "rnds",
		func(v grade.Values) int { return 2 * v.Of(side) },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "gusset-rounds", Text: say("why.gusset.up", "an increase round and a plain one for each stitch of a side: 2 × {0}", v.Of(side)), Terms: []grade.Term{v.Term(side)}}
		}))
	d.footAsLeg()
}

func (gussetIncreases) build(b *Builder) {
	b.section("Gusset")
	b.para(say("gusset.up.intro", "The sole grows at both sides, 1 st beside the first and 1 beside the last of its sts, in every second rnd. The instep keeps its sts."))
	b.where(func(size int) bool { return b.moved(size) != 0 }, b.moveToHeel)
	side := func(size int) int { return b.of("heel.gusset_stitches", size) }
	sole := b.soleWithGusset()
	b.needles(rnd(1), change(2), on(kN(1), do(pattern.M1R), toLast(pattern.Knit, 1), do(pattern.M1L), kN(1)), on(toEnd(pattern.Knit)))
	b.row(rnd(2), nil, toEnd(pattern.Knit))
	b.again(pattern.Round, 2, b.each(func(size int) int { return side(size) - 1 }), pattern.Again{
		Total: b.n("gusset.rounds"),
		Count: total(b.each(func(size int) int {
			return int(sole.In(size)) + b.of("leg.stitches", size) - b.of("heel.stitches", size)
		}), sole, b.instep())})
}

// soleWithGusset is how many stitches the sole has when its gusset is done.
func (b *Builder) soleWithGusset() pattern.Number {
	return b.each(func(size int) int { return b.of("heel.stitches", size) + 2*b.of("heel.gusset_stitches", size) })
}

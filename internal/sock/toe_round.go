package sock

import (
	"fmt"

	"sockwright/internal/design"
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
)

var toeSections = wholeNumber("sections", "sections of the toe", 8, 3, 8)

var _ = register(Part{Part: "toe", Kind: "round", Name: "a round toe", Options: []Option{toeSections}, Notions: []string{"tapestry needle"}, Directions: bothWays, Skills: []string{"decreasing"},
	Says: say("toe.round.says", "a domed toe of 3 to 8 sections, decreased all round with ever fewer plain rounds between, and drawn together; the decreases curve in spirals"),
	take: func(_ *Draft, t *design.Table) construction { return &roundToe{sections: toeSections.whole(t)} }})

// roundToe is decreased in k sections: a round of k times "k x, k2tog" is followed by x plain
// rounds, and x falls by one each time down to 0; k stitches are left. From N stitches, a
// multiple of k, x begins with N/k - 2, and the toe has (x + 1)(x + 2)/2 rounds. Where the foot
// is no multiple of k, a round before it takes what is too much. From the toe up it is the
// same read backwards. (Knitting Instructions for Field Comforts, a Canadian leaflet of 1939,
// decreases 56 stitches in 8 sections in rounds 1, 7, 12 and 16.)
type roundToe struct {
	sections int // k
}

// toeStitches declares how many stitches a toe in so many sections begins with.
func (d *Draft) toeStitches(sections, fewest int) *grade.Var {
	foot := d.v("foot.stitches")
	even := follows("toe.stitches", "stitches the toe begins with", "sts",
		func(v grade.Values) int { return v.Of(foot) / sections * sections },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "toe-sections", Text: say("why.toe.sections", "the nearest multiple of {1} that {0} stitches hold", v.Of(foot), sections), Terms: []grade.Term{v.Term(foot), {Key: "toe.sections", Value: float64(sections)}}}
		})
	even.Rules = []grade.Rule{rule("toe-section", fmt.Sprintf("each of the %d sections of the toe has at least %d stitches; fewer sections may do it", sections, fewest), func(_ grade.Values, n int) bool { return n >= fewest*sections })}
	return d.Model.Add(even)
}

// toeMore is how many rounds a toe in sections has besides those it shapes: one that evens
// out the foot, and one over the stitches cast on.
func (d *Draft) toeMore(v grade.Values) int {
	n := 0
	if v.Of(d.v("toe.stitches")) != v.Of(d.v("foot.stitches")) {
		n++
	}
	if d.Direction == design.ToeUp {
		n++
	}
	return n
}

func (r *roundToe) declare(d *Draft) {
	k := r.sections
	foot, all := d.v("foot.stitches"), d.toeStitches(k, 3)
	d.Model.Add(follows("toe.rounds", "rounds of the toe", "rnds",
		func(v grade.Values) int {
			x := v.Of(all)/k - 2
			return (x+1)*(x+2)/2 + d.toeMore(v)
		},
		func(v grade.Values) grade.Reason {
			x := v.Of(all)/k - 2
			return grade.Reason{Rule: "toe-rounds", Text: say("why.toe.round.rounds", "{0} stitches in {1} sections have {2} plain rounds beside the widest shaping round and one fewer each time: {3} × {4} / 2; a round more where the foot is no multiple of the sections, and one where the toe is cast on", v.Of(all), k, x, x+1, x+2), Terms: []grade.Term{v.Term(all), v.Term(foot)}}
		}))
	d.footLength(0, func(grade.Values) int { return 0 })
}

func (r *roundToe) build(b *Builder) {
	b.section("Toe")
	k := r.sections
	first := func(size int) int { return b.of("toe.stitches", size)/k - 2 }
	most := 0
	for size := range b.Sizes {
		most = max(most, first(size))
	}
	shaping := func(n pattern.Name) pattern.Label { return pattern.Label{Word: pattern.Round, Name: n} }
	if b.Direction == design.ToeUp {
		b.ringStart(k)
		b.row(rnd(1), nil, toEnd(pattern.Knit))
		for x := range most + 1 {
			b.where(func(size int) bool { return x <= first(size) }, func() {
				if x > 0 {
					b.add(&pattern.Plain{Op: pattern.Knit, Rounds: pattern.Of(x)})
				}
				b.row(shaping(pattern.Increase), total(pattern.Of(k*(x+2))), repeat(kN(x+1), do(pattern.M1L)))
			})
		}
		b.endOfTip()
		return
	}
	b.para(say("toe.round.intro", "The toe is decreased in {0} sections all round, with fewer and fewer plain rnds between. Let sts pass from needle to needle where a decrease lies between two.", k))
	b.changeTo("foot.stitches", "toe.stitches")
	for x := most; x >= 0; x-- {
		b.where(func(size int) bool { return x <= first(size) }, func() {
			steps := on(kN(x), do(pattern.K2tog))
			if x == 0 {
				steps = on(do(pattern.K2tog))
			}
			b.row(shaping(pattern.Decrease), total(pattern.Of(k*(x+1))), repeat(steps...))
			if x > 0 {
				b.add(&pattern.Plain{Op: pattern.Knit, Rounds: pattern.Of(x)})
			}
		})
	}
	b.gather(pattern.Of(k))
}

// ringStart casts on for a toe that is drawn shut in the middle.
func (b *Builder) ringStart(n int) {
	b.para(say("toe.ring.how", "A ring start: lay the yarn in a loose ring with the end hanging down. Draw 1 st out of the ring, lay the yarn over the needle, and so on by turns, until there are {0} sts; spread them over the needles. When the toe is done, draw the end tight to close the hole.", n))
	b.add(&pattern.CastOn{Form: pattern.Ring, Stitches: pattern.Of(n), Begin: b.roundsBegin()})
}

// endOfTip goes from a toe in sections to the foot, whose first half is the sole.
func (b *Builder) endOfTip() {
	b.changeTo("toe.stitches", "foot.stitches")
	half := b.each(func(size int) int { return b.of("foot.stitches", size) / 2 })
	b.soleAndInstep(half)
}

// soleAndInstep lays the foot of a sock from the toe up on two needles.
func (b *Builder) soleAndInstep(half pattern.Number) {
	b.add(&pattern.Arrange{Split: []pattern.Number{half, half}})
	if b.Method == design.DoublePointed {
		b.para(say("toe.up.needles", "From here N1 is the sole and N2 the instep. Each may lie on two double-pointed needles: read both as one."))
		return
	}
	b.para(say("toe.up.halves", "From here N1 is the sole and N2 the instep."))
}

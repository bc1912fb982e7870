package sock

import (
	"sockwright/internal/design"
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
	"sockwright/internal/unit"
)

var _ = register(Part{Part: "foot", Kind: "plain", Default: bothWays, Directions: bothWays,
	Says: say("foot.plain.says", "a straight tube of stockinette between the heel and the toe"),
	take: func(*Draft, *design.Table) construction { return plainFoot{} }})

// plainFoot is a straight foot. Its length is reckoned along the center of the sole: the
// part of the heel that lies under the foot, the rounds from the pick-up on, the toe, and
// the grafted row, each once. The toe declares what it takes, so the foot's numbers are
// declared by [Draft.footLength] after it. In a sock from the toe up the same rounds lie
// between the toe and the heel.
type plainFoot struct{}

func (plainFoot) declare(*Draft) {}

// footLength declares the length of the foot; the construction that closes the foot calls
// it. tip is the number of rounds that closing adds, or casting on in a sock from the toe up:
// 1 for a graft; told is how many rounds of the foot that construction tells itself.
func (d *Draft) footLength(tip int, told func(grade.Values) int) {
	g := d.Gauge[""]
	if d.Direction == design.ToeUp { // the round that lets the heel begin earlier is one of the foot
		told = func(v grade.Values) int {
			return d.roundOfToe(d.moved(v))
		}
	}
	d.told, d.tip = told, tip
	heel, toe, gusset := d.v("heel.sole_rounds"), d.v("toe.rounds"), d.v("gusset.rounds")
	long := d.Model.Add(grade.Var{
		Key: "foot.length_rounds", Label: "length of the whole foot, in rounds", Unit: "rnds",
		Target: func(v grade.Values) float64 { return g.RowsIn(d.finishedLength(v.Size)) },
		Scale:  d.roundHeight, Reach: 1, Level: lengths,
		Why: func(v grade.Values) grade.Reason {
			l := d.finishedLength(v.Size)
			return grade.Reason{Rule: "foot-length", Text: say("why.foot.length", "a foot of {0} with an ease of {1} is a sock of {2}, which at {3} rounds to 10 cm is {4}",
				d.Long(d.Sizes[v.Size].Length), d.Length.String(), d.Long(l), whole(g.Rows*100), whole(g.RowsIn(l))),
				Terms: []grade.Term{{Key: "size.foot_length", Value: d.Sizes[v.Size].Length.MM(), Unit: "mm"}, {Key: "foot.length", Value: l.MM(), Unit: "mm"}, {Key: "gauge.rows", Value: g.Rows * 100, Unit: "rows per 10 cm"}}}
		},
	})
	foot := follows("foot.rounds", "rounds from the pick-up to the toe", "rnds",
		func(v grade.Values) int { return v.Of(long) - v.Of(heel) - v.Of(toe) - tip },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "foot-rounds", Text: say("why.foot.rounds", "{0} in all, less {1} that the heel lies under the foot, {2} of the toe and {3} that is grafted or cast on", v.Of(long), v.Of(heel), v.Of(toe), tip),
				Terms: []grade.Term{v.Term(long), v.Term(heel), v.Term(toe)}}
		})
	foot.Rules = []grade.Rule{rule("foot-holds-gusset", "the foot is long enough for heel, gusset and toe: the gusset ends before the toe begins", func(v grade.Values, n int) bool { return n >= v.Of(gusset)+told(v) })}
	rounds := d.Model.Add(foot)
	d.measure("foot.length", "foot, length", d.finishedLength, func(v grade.Values) unit.Length {
		return g.Height(v.Of(rounds) + v.Of(heel) + v.Of(toe) + tip)
	})
	d.measure("foot.to_toe", "foot, from the back of the heel to the toe", nil, func(v grade.Values) unit.Length {
		return g.Height(v.Of(rounds) + v.Of(heel))
	})
}

func (plainFoot) build(b *Builder) {
	b.section("Foot")
	more := b.each(func(size int) int {
		return b.of("foot.rounds", size) - b.of("gusset.rounds", size) - b.told(b.plan.At(size))
	})
	b.where(func(size int) bool { return more.In(size) == 0 }, func() {
		if b.Direction == design.ToeUp {
			b.para(say("foot.none.up", "The toe has made the foot long enough: go on with the heel."))
		} else {
			b.para(say("foot.none", "The gusset has made the foot long enough: go on with the toe."))
		}
	})
	b.where(func(size int) bool { return more.In(size) > 0 }, func() {
		if b.Direction == design.ToeUp {
			plainFoot{}.fromToe(b, b.here(more))
		} else {
			plainFoot{}.toToe(b, b.here(more))
		}
	})
}

// toToe works a foot that ends at the toe.
func (plainFoot) toToe(b *Builder, more pattern.Number) {
	b.para(say("foot.even", "From here to the toe the number of sts stays the same. The rnds in all are counted from the last Rnd 1 above."))
	in, cm := b.long(func(size int) unit.Length {
		if b.heelLast {
			return b.Gauge[""].Height(b.of("foot.rounds", size))
		}
		return b.finished("foot.to_toe", b.plan.At(size))
	})
	toeIn, toeCm := b.long(func(size int) unit.Length {
		return b.finished("foot.length", b.plan.At(size)) - b.finished("foot.to_toe", b.plan.At(size))
	})
	from := "the back of the heel"
	if b.heelLast {
		from = "the waste yarn"
		heelIn, heelCm := b.long(func(size int) unit.Length { return b.finished("heel.depth", b.plan.At(size)) })
		b.tip(say("foot.tip.try.last", "Try the sock on before the toe: with the waste yarn {2} in [{3} cm] in front of the back of the heel, the last rnd, gently pulled on, should be {0} in [{1} cm] short of the longest toe.", toeIn, toeCm, heelIn, heelCm))
	} else {
		b.tip(say("foot.tip.try", "Try the sock on before the toe: the last rnd, gently pulled on, should be {0} in [{1} cm] short of the longest toe. Every foot is different; knit a rnd more or fewer if it is not.", toeIn, toeCm))
	}
	b.add(&pattern.Plain{Op: pattern.Knit, More: true,
		Rounds: more,
		Or:     pattern.Fill(say("foot.until", "the foot, from {2}, measures {0} in [{1} cm]", in, cm, from)),
		Total:  b.each(func(size int) int { return b.of("foot.rounds", size) - b.told(b.plan.At(size)) }),
		Count:  total(b.n("foot.stitches"))})
}

// fromToe works a foot that ends at the heel, or at the gusset before it.
func (plainFoot) fromToe(b *Builder, more pattern.Number) {
	to := "heel"
	if b.kinds["gusset"] != "none" {
		to = "gusset"
	}
	b.para(say("foot.even.up", "From here to the {0} the number of sts stays the same.", to))
	g := b.Gauge[""]
	in, cm := b.long(func(size int) unit.Length {
		return g.Height(b.of("toe.rounds", size) + b.Draft.tip + int(more.In(size)))
	})
	b.add(&pattern.Plain{Op: pattern.Knit, Rounds: more,
		Or:    pattern.Fill(say("foot.until.up", "the foot, from the tip of the toe, measures {0} in [{1} cm]", in, cm)),
		Count: total(b.n("foot.stitches"))})
	heelIn, heelCm := b.long(func(size int) unit.Length {
		return b.finished("foot.length", b.plan.At(size)) - g.Height(b.of("toe.rounds", size)+b.Draft.tip+int(more.In(size)))
	})
	b.tip(say("foot.tip.try.up", "Try the sock on: gently pulled over the foot, it should end {0} in [{1} cm] before the back of the heel. Every foot is different; knit a rnd more or fewer if it does not.", heelIn, heelCm))
}

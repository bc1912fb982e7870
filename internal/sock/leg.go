package sock

import (
	"fmt"
	"math"

	"sockwright/internal/design"
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
	"sockwright/internal/unit"
)

// What all legs share: the stitches round, the rounds, and what is said of their length.

// What decides the stitches round, besides the girth itself.
const (
	girthTolerance = 0.04 // a rib that can be had within this share of the girth is kept whole (house rule)
	girthMiss      = 0.12 // a sock that misses its girth by more than this share is refused (house rule)
	offFour        = 8.0  // mm: what a count that is no multiple of 4 must be nearer by to be taken (house rule)
	girthSmooth    = 0.25 // weight of uneven deviation between neighbouring sizes (house rule)
	fewestStitches = 12   // round: a heel of 6, two stitches on each side of a band of 2
)

// legStitches declares the number everything else follows from: stitches round the leg and
// the foot. The cuff's repeat has a say in it, so the cuff declares it.
func legStitches(d *Draft, repeat int) {
	g := d.Gauge[""]
	multiple, of, rib := repeat, "the cuff", "the rib"
	m := d.legMotif()
	if m != nil {
		multiple, of, rib = common(repeat, m.Multiple), "the cuff and "+m.Title, "the rib and "+m.Title
	}
	if multiple%2 != 0 {
		multiple *= 2
	}
	target := func(v grade.Values) float64 { return g.StitchesIn(d.finishedGirth(v.Size)) }
	fits := func(v grade.Values) bool { // whether a multiple of the repeat lies within the tolerance
		t := target(v)
		low := float64(int(t) / multiple * multiple) // nearest multiple below
		return min(t-low, low+float64(multiple)-t) <= girthTolerance*t
	}
	pinned := func(v grade.Values) bool {
		for _, p := range d.Pins {
			if p.Key == "leg.stitches" && p.Value[v.Size] != design.Free {
				return true
			}
		}
		return false
	}
	x := d.Model.Add(grade.Var{
		Key: "leg.stitches", Label: "stitches round the leg", Unit: "sts", Chained: true, Smooth: girthSmooth,
		Target: target, Scale: d.stitchWidth, Reach: 8, Level: girths,
		Extra: func(_ grade.Values, n int) float64 {
			if n%4 != 0 {
				return offFour
			}
			return 0
		},
		Dear: say("why.leg.fours", "a multiple of 4 is preferred, up to {0} mm further off", offFour),
		Rules: []grade.Rule{
			rule("round-even", "the round is an even number, so that heel and instep can be halves and the toe can be grafted", func(_ grade.Values, n int) bool { return n%2 == 0 }),
			rule("round-repeat", fmt.Sprintf("the round is a multiple of %d, for %s, where one fits the girth within 4 %%", multiple, rib), func(v grade.Values, n int) bool {
				return n%multiple == 0 || pinned(v) || !fits(v)
			}),
			rule("round-motif", "the round holds whole repeats of the stitch pattern of the leg", func(_ grade.Values, n int) bool { return m == nil || n%m.Multiple == 0 }),
			rule("girth-near", "the sock comes within 12 % of the girth that was asked for", func(v grade.Values, n int) bool {
				return pinned(v) || math.Abs(float64(n)-target(v)) <= girthMiss*target(v)
			}),
			rule("round-fewest", fmt.Sprintf("a round has at least %d stitches", fewestStitches), func(_ grade.Values, n int) bool { return n >= fewestStitches }),
		},
		Why: func(v grade.Values) grade.Reason {
			girth := d.finishedGirth(v.Size)
			r := grade.Reason{Rule: "girth", Terms: []grade.Term{
				{Key: "size.foot_girth", Value: d.Sizes[v.Size].Girth.MM(), Unit: "mm"},
				{Key: "foot.girth", Value: girth.MM(), Unit: "mm"},
				{Key: "gauge.stitches", Value: g.Stitches * 100, Unit: "sts per 10 cm"},
			}}
			measured := fmt.Sprintf("a foot of %s with an ease of %s is a sock of %s, which at %s stitches to 10 cm is %s", d.Long(d.Sizes[v.Size].Girth), d.Design.Girth, d.Long(girth), whole(g.Stitches*100), whole(target(v)))
			if fits(v) || m != nil && m.Multiple%multiple == 0 {
				r.Text = say("why.leg.stitches", "{0}; a multiple of {1} for {2}", measured, multiple, of)
				if multiple%4 != 0 {
					r.Text = say("why.leg.stitches.fours", "{0}; a multiple of {1} for {2}, preferably of 4", measured, multiple, of)
				}
			} else {
				r.Text = say("why.leg.stitches.free", "{0}; no multiple of {1} lies within 4 % of that, so leg and cuff have counts of their own", measured, multiple)
				if m != nil {
					r.Text = say("why.leg.stitches.motif", "{0}; a multiple of {1} for {2}, and as none of {3} lies within 4 % of that, the cuff has a count of its own", measured, m.Multiple, m.Title, multiple)
				}
			}
			return r
		},
	})
	d.measure("leg.girth", "leg, around", d.finishedGirth, func(v grade.Values) unit.Length { return g.Width(v.Of(x)) })
}

// common is the least common multiple of two numbers.
func common(a, b int) int {
	n := a
	for n%b != 0 {
		n += a
	}
	return n
}

// declareLegRounds declares the rounds between cuff and heel, of a leg of these lengths with
// its cuff.
func (d *Draft) declareLegRounds(asked []unit.Length) *grade.Var {
	g, cuff := d.Gauge[""], d.v("cuff.rounds")
	cuffHeight := func(v grade.Values) unit.Length { return d.finished("cuff.length", v) }
	target := func(v grade.Values) float64 { return max(0, g.RowsIn(asked[v.Size]-cuffHeight(v))) }
	x := d.Model.Add(grade.Var{
		Key: "leg.rounds", Label: "rounds from the cuff to the heel", Unit: "rnds",
		Target: target,
		Scale:  d.roundHeight, Reach: 1, Level: lengths,
		Rules: []grade.Rule{rule("leg-rounds", "the leg is longer than its cuff by two rounds at least", func(v grade.Values, n int) bool { return n >= 2 && target(v) > 1 })},
		Why: func(v grade.Values) grade.Reason {
			rest := asked[v.Size] - cuffHeight(v)
			return grade.Reason{Rule: "leg-length", Text: say("why.leg.rounds", "a leg of {0} less a cuff of {1} leaves {2}, which at {3} rounds to 10 cm is {4}",
				d.Long(asked[v.Size]), d.Long(cuffHeight(v)), d.Long(rest), whole(g.Rows*100), whole(g.RowsIn(rest))),
				Terms: []grade.Term{{Key: "leg.length", Value: asked[v.Size].MM(), Unit: "mm"}, v.Term(cuff), {Key: "gauge.rows", Value: g.Rows * 100, Unit: "rows per 10 cm"}}}
		},
	})
	d.measure("leg.length", "leg, from "+d.Top()+" to the heel", func(size int) unit.Length { return asked[size] },
		func(v grade.Values) unit.Length { return cuffHeight(v) + g.Height(v.Of(x)) })
	return x
}

// fromTop is the other way to know when a plain part of a leg from the cuff down is long
// enough.
func (b *Builder) fromTop(length func(size int) unit.Length) pattern.Text {
	in, cm := b.long(length)
	return pattern.Fill(say("leg.until", "the leg measures {0} in [{1} cm] from {2}", in, cm, b.Top()))
}

// fromHeel is the same for the leg of a sock from the toe up, which ends when it has all its
// rounds.
func (b *Builder) fromHeel() pattern.Text {
	in, cm := b.long(func(size int) unit.Length { return b.Gauge[""].Height(b.of("leg.rounds", size)) })
	return pattern.Fill(say("leg.until.up", "the leg measures {0} in [{1} cm] from the heel", in, cm))
}

// legToHeel is how long a leg from the cuff down is where the heel begins, or the small
// gusset before it.
func (b *Builder) legToHeel(size int) unit.Length {
	return b.finished("leg.length", b.plan.At(size)) - b.Gauge[""].Height(b.miniRounds())
}

// changeTo writes a round that takes the stitches from one number of the plan to another,
// for the sizes in which they differ; it returns how many rounds that is in each.
func (b *Builder) changeTo(from, to string) (rounds func(size int) int) {
	differs := func(size int) int { return b.of(to, size) - b.of(from, size) }
	for _, way := range []struct {
		name pattern.Name
		sign int
	}{{pattern.Increase, 1}, {pattern.Decrease, -1}} {
		b.where(func(size int) bool { return differs(size)*way.sign > 0 }, func() { b.changeRound(way.name, from, to) })
	}
	return func(size int) int {
		if differs(size) != 0 {
			return 1
		}
		return 0
	}
}

// changeRound writes one round that takes the stitches from one number of the plan to
// another, the changes spread evenly: every size that lines go to gains, or every one loses.
// Of n = q d + r stitches for d changes, r groups have q + 1 and the others q. Sizes in which
// all groups are alike have a line of their own.
func (b *Builder) changeRound(name pattern.Name, from, to string) {
	op, worked := pattern.M1L, 0 // stitches of a group that the change itself works
	if name == pattern.Decrease {
		op, worked = pattern.K2tog, 2
	}
	changes := func(size int) int { d := b.of(to, size) - b.of(from, size); return max(d, -d) }
	stitches := func(size int) int { return b.of(from, size) }
	groups := func(often, length func(size int) int) pattern.Step {
		return times(b.each(often), some(k(b.each(func(size int) int { return length(size) - worked })), do(op))...)
	}
	alike(b, func(size int) bool { return stitches(size)%changes(size) > 0 }, func(unequal bool) {
		var line []pattern.Step
		if unequal {
			line = on(groups(func(size int) int { return stitches(size) % changes(size) }, func(size int) int { return stitches(size)/changes(size) + 1 }))
		}
		line = append(line, groups(func(size int) int { return changes(size) - stitches(size)%changes(size) }, func(size int) int { return stitches(size) / changes(size) }))
		b.row(pattern.Label{Word: pattern.Round, Name: name}, total(b.n(to)), line...)
	})
}

package sock

import (
	"slices"
	"sockwright/internal/design"
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
	"sockwright/internal/unit"
)

var (
	calfGirth  = length("calf", "girth of the leg at its widest, unstretched body measure; one and a half times the foot where nothing is said (an estimate)", 120, 700)
	calfLength = length("length", "length of the leg, cuff included; one and a half times the foot where nothing is said", 100, 700)
	calfShape  = share("shaping", "share of the leg below the cuff over which it is shaped", 0.5, 0.25, 0.8)
)

var _ = register(Part{Part: "leg", Kind: "calf", Name: "a leg shaped for the calf", Directions: bothWays, Options: []Option{calfLength, calfGirth, calfShape}, Skills: []string{"decreasing"},
	Markers: 1,
	Says:    say("leg.calf.says", "a knee sock: straight from the cuff over the widest part of the calf, then shaped at the center of the back to the ankle"),
	take: func(d *Draft, t *design.Table) construction {
		return &calfLeg{
			lengths: calfLength.lengths(t, d, func(i int) unit.Length { return quarterInch(d.Sizes[i].Length * 3 / 2) }),
			girths:  calfGirth.lengths(t, d, func(i int) unit.Length { return d.Sizes[i].Girth * 3 / 2 }),
			shape:   calfShape.number(t),
			guessed: !t.Has(calfGirth.Key),
		}
	}})

// calfLeg is shaped between the calf and the ankle by two stitches at the center of the back
// in each of d rounds, spread over M rounds so that intervals differ by one round at most and
// the longer ones lie on the side of the calf: M = q d + r gives r of q + 1 rounds and d - r
// of q.
type calfLeg struct {
	lengths []unit.Length // from the edge of the sock to the heel
	girths  []unit.Length // of the body
	guessed bool          // the girths are estimates
	shape   float64       // share of the rounds below the cuff that are shaped
}

// declareTop declares the stitches round the calf, which the cuff goes by.
func (l *calfLeg) declareTop(d *Draft) *grade.Var {
	g, leg := d.Gauge[""], d.v("leg.stitches")
	asked := func(size int) unit.Length { return d.Girth.Apply(l.girths[size]) }
	d.Calf, d.CalfEstimated = l.girths, l.guessed
	calf := d.Model.Add(grade.Var{
		Key: "calf.stitches", Label: "stitches round the calf", Unit: "sts",
		Target: func(v grade.Values) float64 { return max(g.StitchesIn(asked(v.Size)), float64(v.Of(leg)+2)) },
		Scale:  d.stitchWidth, Reach: 8, Level: proportions,
		Rules: []grade.Rule{
			rule("calf-even", "each shaping round takes two stitches, so calf and ankle are both even", func(v grade.Values, n int) bool { return n%2 == 0 }),
			rule("calf-wider", "the calf is wider than the ankle", func(v grade.Values, n int) bool { return n >= v.Of(leg)+2 }),
		},
		Why: func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "calf-girth", Text: say("why.calf", "a calf of {0} with an ease of {1} is {2}, which at {3} stitches to 10 cm is {4}; even",
				d.Long(l.girths[v.Size]), d.Girth.String(), d.Long(asked(v.Size)), whole(g.Stitches*100), whole(g.StitchesIn(asked(v.Size)))),
				Terms: []grade.Term{{Key: "calf.girth", Value: l.girths[v.Size].MM(), Unit: "mm"}, v.Term(leg)}}
		},
	})
	d.measure("calf.girth", "calf, around", asked, func(v grade.Values) unit.Length { return g.Width(v.Of(calf)) })
	return calf
}

func (l *calfLeg) declare(d *Draft) {
	leg, calf := d.v("leg.stitches"), d.v("calf.stitches")
	rounds := d.declareLegRounds(l.lengths)
	shapings := d.Model.Add(follows("calf.shaping_rounds", "shaping rounds of the calf", "rnds",
		func(v grade.Values) int { return (v.Of(calf) - v.Of(leg)) / 2 },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "calf-twos", Text: say("why.calf.shapings", "({0} − {1}) / 2, since each takes two stitches", v.Of(calf), v.Of(leg)), Terms: []grade.Term{v.Term(calf), v.Term(leg)}}
		}))
	over := follows("calf.rounds", "rounds over which the calf is shaped", "rnds",
		func(v grade.Values) int { return int(l.shape*float64(v.Of(rounds)) + 0.5) },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "calf-over", Text: say("why.calf.over", "{0} % of {1} rounds of the leg", whole(l.shape*100), v.Of(rounds)), Terms: []grade.Term{v.Term(rounds)}}
		})
	over.Rules = []grade.Rule{rule("calf-room", "the leg is long enough to be shaped: two rounds at least for each shaping round, and some before and after", func(v grade.Values, n int) bool {
		return n >= 2*v.Of(shapings) && v.Of(rounds) >= n+4+2*d.miniRounds()
	})}
	d.Model.Add(over)
}

// intervals is how many shaping rounds have the longer interval, and how long the shorter
// one is.
func (l *calfLeg) intervals(b *Builder, size int) (long, short, rounds int) {
	d, m := b.of("calf.shaping_rounds", size), b.of("calf.rounds", size)
	return m % d, d - m%d, m / d
}

func (l *calfLeg) build(b *Builder) {
	b.section("Leg")
	if b.Direction == design.ToeUp {
		l.upwards(b)
		return
	}
	changes := b.changeTo("cuff.stitches", "calf.stitches")
	straight := b.each(func(size int) int { return (b.of("leg.rounds", size) - b.of("calf.rounds", size)) / 2 })
	b.add(&pattern.Plain{Op: pattern.Knit, Rounds: b.each(func(size int) int { return int(straight.In(size)) - changes(size) }),
		Or: b.fromTop(func(size int) unit.Length {
			return b.finished("cuff.length", b.plan.At(size)) + b.Gauge[""].Height(int(straight.In(size)))
		}),
		Count: total(b.n("calf.stitches"))})
	b.toCentreBack("calf.stitches")
	b.para(say("calf.shape", "The calf is shaped at the center of the back: 2 sts are decreased there in each dec rnd, {0} times in {1} rnds.", b.n("calf.shaping_rounds"), b.n("calf.rounds")))
	dec := on(kN(1), do(pattern.Ssk), toLast(pattern.Knit, 3), do(pattern.K2tog), kN(1))
	l.shaping(b, pattern.Decrease, dec, -2, true)
	rest := b.each(func(size int) int {
		return b.of("leg.rounds", size) - b.of("calf.rounds", size) - int(straight.In(size)) - b.miniRounds()
	})
	b.add(&pattern.Plain{Op: pattern.Knit, Rounds: rest,
		Or:    b.fromTop(b.legToHeel),
		Count: total(b.n("leg.stitches"))})
	b.toHeel()
}

// upwards shapes a leg from the ankle to the calf.
func (l *calfLeg) upwards(b *Builder) {
	straight := b.each(func(size int) int { return (b.of("leg.rounds", size) - b.of("calf.rounds", size)) / 2 })
	first := b.each(func(size int) int {
		return b.of("leg.rounds", size) - b.of("calf.rounds", size) - int(straight.In(size)) - b.of("heel.corner_rounds", size) - b.miniRounds()
	})
	b.add(&pattern.Plain{Op: pattern.Knit, Rounds: first, Count: total(b.n("leg.stitches"))})
	b.toCentreBack("leg.stitches")
	b.para(say("calf.shape.up", "The calf is shaped at the center of the back: 2 sts are increased there in each inc rnd, {0} times in {1} rnds.", b.n("calf.shaping_rounds"), b.n("calf.rounds")))
	l.shaping(b, pattern.Increase, on(kN(1), do(pattern.M1L), toLast(pattern.Knit, 1), do(pattern.M1R), kN(1)), 2, false)
	b.add(&pattern.Plain{Op: pattern.Knit, Rounds: straight,
		Or:    b.fromHeel(),
		Count: total(b.n("calf.stitches"))})
}

// shaping writes the shaping rounds, each with the plain rounds of its interval after it, the
// longer intervals first or last. Sizes with the same interval share their lines.
func (l *calfLeg) shaping(b *Builder, name pattern.Name, steps []pattern.Step, by int, longFirst bool) {
	from := map[bool]string{true: "calf.stitches", false: "leg.stitches"}[by < 0]
	done, worked := make([]int, len(b.Sizes)), make([]int, len(b.Sizes)) // shaping rounds, and all rounds, so far
	for _, long := range []bool{longFirst, !longFirst} {
		often := func(size int) (n, interval int) {
			nLong, nShort, q := l.intervals(b, size)
			if long {
				return nLong, q + 1
			}
			return nShort, q
		}
		for interval := range 1 + l.longest(b) {
			before := slices.Clone(done)
			for _, first := range []bool{true, false} {
				b.where(func(size int) bool {
					n, q := often(size)
					return n > 0 && q == interval && (before[size] == 0) == first
				}, func() {
					n := func(size int) int { n, _ := often(size); return n }
					after := func(times func(size int) int) pattern.Number {
						return b.each(func(size int) int { return b.of(from, size) + by*(done[size]+times(size)) })
					}
					label := pattern.Label{Word: pattern.Round, Name: name}
					if first {
						label = rnd(1)
					}
					b.row(label, changeTotal(by, after(func(int) int { return 1 })), steps...)
					b.add(&pattern.Plain{Op: pattern.Knit, Rounds: pattern.Of(interval - 1)})
					b.again(pattern.Round, interval, b.each(func(size int) int { return n(size) - 1 }), pattern.Again{
						Total: b.each(func(size int) int { return worked[size] + interval*n(size) }), Count: total(after(n))})
					for size := range b.Sizes {
						if b.only.Has(size) {
							done[size] += n(size)
							worked[size] += interval * n(size)
						}
					}
				})
			}
		}
	}
}

// longest is the longest interval of any size.
func (l *calfLeg) longest(b *Builder) (most int) {
	for size := range b.Sizes {
		_, _, q := l.intervals(b, size)
		most = max(most, q+1)
	}
	return most
}

// toCentreBack lets the round begin at the center of the back, where it does not already.
func (b *Builder) toCentreBack(key string) {
	if b.roundsBegin() == pattern.CentreBack {
		return
	}
	b.para(say("calf.to-back", "The shaping lies at the center of the back, so the rnd begins there for a while; the needles may stay as they are."))
	b.row(pattern.Label{Word: pattern.Round, Name: pattern.Partial}, nil, k(b.each(func(size int) int { return b.backOf(key, size) / 2 })))
	b.add(&pattern.Begin{Place: pattern.CentreBack})
}

// backOf is how many of so many stitches round the leg lie at its back: the heel's, and what
// the calf has more.
func (b *Builder) backOf(key string, size int) int {
	back := b.of(key, size) / 2
	if b.Direction == design.ToeUp {
		back = b.of("heel.stitches", size) + b.of(key, size) - b.of("leg.stitches", size)
	}
	return back
}

// toHeel lets the round begin before the heel again.
func (b *Builder) toHeel() {
	if b.roundsBegin() == pattern.CentreBack {
		return
	}
	b.row(pattern.Label{Word: pattern.Round, Name: pattern.Partial}, nil, pattern.Step{Op: pattern.Knit, Until: pattern.ToLast, N: b.each(func(size int) int {
		return b.of("heel.stitches", size) / 2
	})})
	b.add(&pattern.Begin{Place: b.roundsBegin()})
	b.add(&pattern.Arrange{Split: []pattern.Number{b.n("heel.stitches"), b.instep()}})
}

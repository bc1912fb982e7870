package sock

import (
	"math"

	"sockwright/internal/design"
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
)

var cornerStitches = wholeNumber("corner_stitches", "stitches picked up in each corner", 1, 0, 2)

var _ = register(Part{Part: "gusset", Kind: "instep", Options: []Option{cornerStitches}, Name: "a gusset", Default: cuffDown, Directions: cuffDown, Skills: []string{"picking up sts along an edge", "decreasing"},
	How:  say("gusset.instep.opening", "The instep sts rest while the heel is worked; then sts are picked up along its edges, and decreased away beside the instep."),
	Says: say("gusset.instep.says", "stitches picked up along the heel are decreased away beside the instep, two in every other round"),
	take: func(d *Draft, t *design.Table) construction {
		return &instepGusset{corner: cornerStitches.whole(t)}
	}})

// instepGusset picks up one stitch for each chain of the heel's edges, and some in each
// corner, and decreases at the edges of the instep every second round, after one round that
// twists the picked-up stitches.
type instepGusset struct {
	corner int // stitches picked up in each corner
}

func (gs *instepGusset) declare(d *Draft) {
	leg, heel, left, chains := d.v("leg.stitches"), d.v("heel.stitches"), d.v("heel.stitches_left"), d.v("heel.edge_chains")
	corner := d.Model.Add(follows("gusset.corner_stitches", "stitches picked up in each corner", "sts",
		func(grade.Values) int { return gs.corner },
		func(grade.Values) grade.Reason {
			return grade.Reason{Rule: "corner", Text: say("why.corner", "an extra stitch in the corner closes the hole there; the gusset decreases it away (common practice)")}
		}))
	pick := d.Model.Add(follows("gusset.pick_up_per_side", "stitches picked up at each side", "sts",
		func(v grade.Values) int { return v.Of(chains) + v.Of(corner) },
		func(v grade.Values) grade.Reason {
			r := grade.Reason{Rule: "pick-up", Text: say("why.pick-up", "one in each of {0} chains and {1} in the corner", v.Of(chains), v.Of(corner)), Terms: []grade.Term{v.Term(chains), v.Term(corner)}}
			if d.heelEdge.plain {
				r.Text = say("why.pick-up.plain", "{0} along the edge and {1} in the corner", v.Of(chains), v.Of(corner))
			}
			return r
		}))
	all := d.Model.Add(follows("gusset.stitches", "stitches after picking up", "sts",
		func(v grade.Values) int { return v.Of(left) + 2*v.Of(pick) + v.Of(leg) - v.Of(heel) },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "gusset-sum", Text: say("why.gusset", "{0} of the heel, twice {1} picked up, {2} of the instep", v.Of(left), v.Of(pick), v.Of(leg)-v.Of(heel)), Terms: []grade.Term{v.Term(left), v.Term(pick), v.Term(leg), v.Term(heel)}}
		}))
	rounds := d.Model.Add(follows("gusset.decrease_rounds", "decrease rounds of the gusset", "rnds",
		func(v grade.Values) int { return (v.Of(all) - v.Of(leg)) / 2 },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "gusset-decreases", Text: say("why.gusset.rounds", "({0} − {1}) / 2, since each takes two stitches", v.Of(all), v.Of(leg)), Terms: []grade.Term{v.Term(all), v.Term(leg)}}
		}))
	rounds.Rules = append(rounds.Rules, rule("gusset-some", "a gusset has at least one decrease round", func(_ grade.Values, n int) bool { return n >= 1 }))
	d.Model.Add(follows("gusset.rounds", "rounds of the gusset", "rnds",
		func(v grade.Values) int { return 2*v.Of(rounds) + 1 },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "gusset-rounds", Text: say("why.gusset.all", "two to pick up and twist, then a decrease round every second round: 2 × {0} + 1", v.Of(rounds)), Terms: []grade.Term{v.Term(rounds)}}
		}))
	d.footAsLeg()
}

func (gs *instepGusset) build(b *Builder) {
	b.section("Gusset")
	b.howToPickUp()
	switch gs.corner {
	case 1:
		b.para(say("gusset.corner", "The corner is the gap between the marked st and the instep: lift the strand there and knit it, so that no hole is left."))
	case 2:
		b.para(say("gusset.corners", "The corner is the gap between the marked st and the instep. Pick up 2 sts there, so that no hole is left: lift the strand in the gap, and go under the leg of the instep st beside it; on the left the strand comes first, on the right last."))
	}
	if b.marked {
		b.add(&pattern.DropMarkers{})
	}
	b.para(say("gusset.locking", "Leave the locking markers in until the edges are picked up."))
	if b.roundsBegin() == pattern.CentreBack {
		gs.fromSole(b)
	} else {
		gs.fromSide(b)
	}
}

// howToPickUp tells how the edges of the heel are picked up.
func (b *Builder) howToPickUp() {
	switch {
	case b.heelEdge.plain:
		in, of := b.pickUpRate()
		b.para(say("gusset.intro.plain", "From here the foot is worked in the round. Pick up along the left edge of the heel from the needle to the leg, and along the right edge from the leg to the needle, as the right side faces you, under both legs of the edge sts: {0} sts for the {1} rows of each edge, which is about {2} for every {3} rows. The marked st is the last on the left and the first on the right.",
			b.n("heel.edge_chains"), b.each(func(size int) int { return b.heelEdge.rows(b.plan.At(size)) }), in, of))
		return
	case b.heelEdge.worked:
		b.para(say("gusset.intro.turned", "From here the foot is worked in the round. Pick up along the left edge of the heel from the needle to the leg, and along the right edge from the leg to the needle, as the right side faces you: one st in each chain, under both its legs. The marked st is the last on the left and the first on the right. The topmost chain of each edge, which the turn has worked over, is left out."))
	default:
		b.para(say("gusset.intro", "From here the foot is worked in the round. Pick up along the left edge of the heel from the needle to the leg, and along the right edge from the leg to the needle, as the right side faces you: one st in each chain, under both its legs. The marked st is the last on the left and the first on the right."))
	}
	if b.roundsBegin() != pattern.CentreBack {
		b.para(say("gusset.last.left", "The marked st on the left is not a chain but a knit st of the leg: go under both its legs too."))
	}
}

// pickUpRate is how many stitches for how many rows are picked up along an edge without
// chains, as the simplest numbers that come near.
func (b *Builder) pickUpRate() (stitches, rows int) {
	want, best := b.Gauge[""].StitchesIn(b.GaugeOf("flap").Height(1)), 1.0
	for of := 1; of <= 6; of++ {
		in := int(want*float64(of) + 0.5)
		if off := math.Abs(float64(in)/float64(of) - want); off < best-0.02 {
			best, stitches, rows = off, in, of
		}
	}
	return stitches, rows
}

// numbers of a gusset in every size.
type gussetNumbers struct {
	chains, corner, pick, instep pattern.Number
	left                         func(size int) int
}

func (gs *instepGusset) numbers(b *Builder) gussetNumbers {
	return gussetNumbers{
		chains: b.n("heel.edge_chains"), corner: b.n("gusset.corner_stitches"), pick: b.n("gusset.pick_up_per_side"),
		instep: b.each(func(size int) int { return b.of("leg.stitches", size) - b.of("heel.stitches", size) }),
		left:   func(size int) int { return b.of("heel.stitches_left", size) },
	}
}

// along is the picking up at one edge, from the sole up or from the leg down.
func (n gussetNumbers) along(edge pattern.Edge) []pattern.Step {
	steps := on(pickUp(n.chains, edge))
	if n.corner.Is(0) {
		return steps
	}
	if edge == pattern.LeftEdge {
		return append(steps, pickUp(n.corner, pattern.Corner))
	}
	return append(on(pickUp(n.corner, pattern.Corner)), steps...)
}

// fromSole works rounds that begin at the center of the sole.
func (gs *instepGusset) fromSole(b *Builder) {
	n := gs.numbers(b)
	first := b.each(func(size int) int { return n.left(size)/2 - 1 }) // behind the slipped one
	near := b.each(func(size int) int { return n.left(size) - n.left(size)/2 })
	far := b.each(func(size int) int { return n.left(size) / 2 })
	b.row(named(pattern.Partial, pattern.RS), nil, sl1(), k(first))
	b.add(&pattern.Begin{Place: pattern.CentreOfSole})
	b.para(say("gusset.partial.sole", "This is the middle of the heel sts. The partial row does not count as a rnd; Rnd 1 is the first rnd of the foot. N1 is a new needle and will hold the first half of the sole with its gusset; N2 holds the instep; N3, again a new needle, will hold the other gusset and the second half of the sole. With five needles the instep may lie on two: read both as N2; with four, slip the instep sts onto one needle."))
	gs.tipTwist(b)
	split := func(decreases func(size int) int) []pattern.Number {
		side := func(half pattern.Number) pattern.Number {
			return b.each(func(size int) int {
				return int(half.In(size)) + b.of("gusset.pick_up_per_side", size) - decreases(size)
			})
		}
		return []pattern.Number{side(near), b.here(n.instep), side(far)}
	}
	none := func(int) int { return 0 }
	all := func(size int) int { return b.of("gusset.decrease_rounds", size) }
	b.needles(rnd(1), total(b.n("gusset.stitches"), split(none)...),
		append(on(k(near)), n.along(pattern.LeftEdge)...), on(k(n.instep)), append(n.along(pattern.RightEdge), k(far)))
	b.needles(rnd(2), nil, on(k(near), tbl(n.pick)), on(toEnd(pattern.Knit)), on(tbl(n.pick), k(far)))
	gs.decreases(b, [][]pattern.Step{
		on(toLast(pattern.Knit, 3), do(pattern.K2tog), kN(1)), on(toEnd(pattern.Knit)), on(kN(1), do(pattern.Ssk), toEnd(pattern.Knit)),
	}, func() *pattern.Count { return total(b.n("foot.stitches"), split(all)...) })
}

// fromSide works rounds that begin at the side, before the instep.
func (gs *instepGusset) fromSide(b *Builder) {
	n := gs.numbers(b)
	b.row(named(pattern.Partial, pattern.RS), total(b.each(func(size int) int { return n.left(size) + b.of("gusset.pick_up_per_side", size) })),
		append(on(sl1(), k(b.each(func(size int) int { return n.left(size) - 1 }))), n.along(pattern.LeftEdge)...)...)
	b.add(&pattern.Begin{Place: pattern.SideOfInstep})
	if b.Method == design.MagicLoop {
		b.para(say("gusset.partial.loop", "Draw out a loop of cable between the picked-up sts and the instep. The partial row does not count as a rnd; Rnd 1 is the first rnd of the foot. From here N1 is the instep, and N2 the sole with both gussets."))
	} else {
		b.para(say("gusset.partial.two", "The partial row does not count as a rnd; Rnd 1 is the first rnd of the foot. From here the needle with the instep is N1; the other, with the sole and both gussets, is N2."))
	}
	gs.tipTwist(b)
	split := func(decreases func(size int) int) []pattern.Number {
		return []pattern.Number{b.here(n.instep), b.each(func(size int) int {
			return n.left(size) + 2*b.of("gusset.pick_up_per_side", size) - 2*decreases(size)
		})}
	}
	b.needles(rnd(1), total(b.n("gusset.stitches"), split(func(int) int { return 0 })...),
		on(k(n.instep)), append(n.along(pattern.RightEdge), k(b.n("heel.stitches_left")), tbl(n.pick)))
	b.needles(rnd(2), nil, on(toEnd(pattern.Knit)), on(tbl(n.pick), toEnd(pattern.Knit)))
	gs.decreases(b, [][]pattern.Step{
		on(toEnd(pattern.Knit)), on(kN(1), do(pattern.Ssk), toLast(pattern.Knit, 3), do(pattern.K2tog), kN(1)),
	}, func() *pattern.Count {
		return total(b.n("foot.stitches"), split(func(size int) int { return b.of("gusset.decrease_rounds", size) })...)
	})
}

func (gs *instepGusset) tipTwist(b *Builder) {
	if b.roundsBegin() == pattern.CentreBack {
		b.tip(say("gusset.tip.tbl", "Knitting the picked-up sts through the back loop in Rnd 2 twists them shut, so that no row of holes runs along the heel."))
		return
	}
	b.tip(say("gusset.tip.tbl.side", "Knitting the picked-up sts through the back loop twists them shut, so that no row of holes runs along the heel: those on the left in Rnd 1, those on the right in Rnd 2."))
}

// decreases writes round 3, the decrease round, and where there is more than one repeats it
// with a plain round between.
func (gs *instepGusset) decreases(b *Builder, third [][]pattern.Step, after func() *pattern.Count) {
	n := func(size int) int { return b.of("gusset.decrease_rounds", size) }
	b.where(func(size int) bool { return n(size) > 1 }, func() {
		b.needles(rnd(3), change(-2), third...)
		b.row(rnd(4), nil, toEnd(pattern.Knit))
		b.again(pattern.Round, 2, b.each(func(size int) int { return n(size) - 2 }), pattern.Again{
			Count: total(b.each(func(size int) int { return b.of("foot.stitches", size) + 2 }))})
		b.oneMore(rnd(3), pattern.Of(1), pattern.Again{Total: b.each(func(size int) int { return 2*n(size) + 1 }), Count: after()})
	})
	b.where(func(size int) bool { return n(size) == 1 }, func() { b.needles(rnd(3), after(), third...) })
}

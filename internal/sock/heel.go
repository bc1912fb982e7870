package sock

import (
	"fmt"

	"sockwright/internal/design"
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
	"sockwright/internal/unit"
)

// What all heels share: how many stitches they take, and how these are set apart.

var heelShare = share("share", "share of the round that is the heel", 0.5, 0.40, 0.60)

// heelStitches declares how many stitches of the round are the heel. fewest is how many it
// has, and leaves for the instep, at least; what names the heel in messages.
func (d *Draft) heelStitches(share float64, fewest int, what string) *grade.Var {
	leg := d.v("leg.stitches")
	return d.Model.Add(grade.Var{
		Key: "heel.stitches", Label: "heel stitches", Unit: "sts",
		Target: func(v grade.Values) float64 { return share * float64(v.Of(leg)) },
		Scale:  d.stitchWidth, Reach: 4, Level: proportions,
		Rules: []grade.Rule{
			rule("heel-centred", "heel and instep can be made equal for the toe by moving as many stitches on the left as on the right", func(v grade.Values, n int) bool { return (n-v.Of(leg)/2)%2 == 0 }),
			rule("heel-fewest", fmt.Sprintf("%s has at least %d stitches, and leaves %d for the instep", what, fewest, fewest), func(v grade.Values, n int) bool { return n >= fewest && v.Of(leg)-n >= fewest }),
		},
		Why: func(v grade.Values) grade.Reason {
			r := grade.Reason{Rule: "heel-share", Terms: []grade.Term{v.Term(leg), {Key: "heel.share", Value: share}},
				Text: say("why.heel.half", "half of the {0} stitches of the round", v.Of(leg))}
			if share != 0.5 {
				r.Text = say("why.heel.share", "{0} % of the {1} stitches of the round, taken to a number that sits evenly over the instep", whole(share*100), v.Of(leg))
			}
			return r
		},
	})
}

// heelKept declares that a heel leaves as many stitches as it began with.
func (d *Draft) heelKept(heel *grade.Var) {
	d.Model.Add(follows("heel.stitches_left", "stitches of the heel when it is done", "sts",
		func(v grade.Values) int { return v.Of(heel) },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "short-left", Text: say("why.short.left", "as many as it began with"), Terms: []grade.Term{v.Term(heel)}}
		}))
}

// middleOfHeel declares how many stitches of the heel lie between its turns: a share of it,
// within the rules.
func (d *Draft) middleOfHeel(heel *grade.Var, share float64, key, label string, rules ...grade.Rule) *grade.Var {
	return d.Model.Add(grade.Var{
		Key: key, Label: label, Unit: "sts",
		Target: func(v grade.Values) float64 { return share * float64(v.Of(heel)) },
		Scale:  d.stitchWidth, Reach: 4, Level: proportions, Rules: rules,
		Why: func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "middle-share", Text: say("why.middle", "{0} % of {1} heel stitches is {2}; odd or even as the heel is", whole(share*100), v.Of(heel), whole(share*float64(v.Of(heel)))),
				Terms: []grade.Term{v.Term(heel), {Key: "heel.middle", Value: share, Source: "common practice"}}}
		},
	})
}

// evenSides is the rule that a middle leaves as many of all stitches on its one side as on
// the other.
func evenSides(id, says string, all *grade.Var) grade.Rule {
	return rule(id, says, func(v grade.Values, n int) bool { return (v.Of(all)-n)%2 == 0 })
}

// worked is how many stitches the heel is worked over: its own, and what a small gusset has
// added.
func (b *Builder) worked(size int) int {
	n := b.of("heel.stitches", size)
	if m := b.mini(); m != nil {
		n += 2 * m.side
	}
	return n
}

// instep is how many stitches rest while the heel is worked.
func (b *Builder) instep() pattern.Number {
	return b.each(func(size int) int { return b.of("leg.stitches", size) - b.of("heel.stitches", size) })
}

// setApart divides the heel from the instep, where the round begins in the middle of the
// heel with two set-up rows that bring its stitches together. needle says what then becomes
// of the needles, two the same for two needle halves.
func (b *Builder) setApart(needle, two source.Message) {
	heel := b.each(b.worked)
	if b.Direction == design.ToeUp && b.mini() == nil {
		b.where(func(size int) bool { return b.moved(size) != 0 }, b.moveToHeel)
	}
	if b.roundsBegin() != pattern.CentreBack {
		b.para(two)
		b.add(&pattern.Divide{Heel: heel, Rest: b.instep()})
		return
	}
	b.para(needle)
	first := b.each(func(size int) int { return b.worked(size) / 2 })
	others := b.each(func(size int) int { return b.worked(size) - 1 })
	b.where(func(size int) bool { return b.worked(size)%2 != 0 }, func() {
		b.para(say("heel.odd", "The number of heel sts is odd, so it has no two equal halves: the smaller half is the one knit first."))
	})
	b.row(pattern.Label{Word: pattern.FlatRow, Name: pattern.SetUp, Num: 1, Side: pattern.RS}, nil, k(first), do(pattern.Turn))
	b.row(pattern.Label{Word: pattern.FlatRow, Name: pattern.SetUp, Num: 2, Side: pattern.WS}, nil, sl1(), p(others), do(pattern.Turn))
	b.add(&pattern.Divide{Last: true, Heel: heel, Rest: b.instep()})
}

// corners goes on in the round after a heel that has no gusset: one round picks up a stitch
// in each corner, the next takes it away.
func (b *Builder) corners() {
	b.section("Corners of the heel")
	b.para(say("corners.intro", "From here the work goes in the rnd again. The corner is the gap between heel and instep: lift the strand there and knit it, so that no hole is left; the next rnd takes this st away."))
	after := b.each(func(size int) int { return b.worked(size) + int(b.instep().In(size)) })
	all := total(b.each(func(size int) int { return int(after.In(size)) + 2 }))
	heel, instep := b.each(b.worked), b.instep()
	corner := pickUp(pattern.Of(1), pattern.Corner)
	switch b.footBegins() {
	case pattern.CentreOfSole:
		near := b.each(func(size int) int { return (b.worked(size) + 1) / 2 })
		far := b.each(func(size int) int { return b.worked(size) / 2 })
		b.row(named(pattern.Partial, pattern.RS), nil, k(far))
		b.add(&pattern.Begin{Place: pattern.CentreOfSole})
		b.para(say("corners.sole", "This is the middle of the heel; the partial row does not count as a rnd. N1 is a new needle for the first half of the sole; N2 holds the instep; N3, again a new needle, will hold the second half of the sole. With five needles the instep may lie on two: read both as N2; with four, slip the instep sts onto one needle."))
		b.needles(rnd(1), all, on(k(near), corner), on(k(instep)), on(corner, k(far)))
		b.needles(rnd(2), total(after, near, instep, far),
			on(toLast(pattern.Knit, 2), do(pattern.K2tog)), on(toEnd(pattern.Knit)), on(do(pattern.Ssk), toEnd(pattern.Knit)))
	case pattern.SideOfInstep:
		b.row(named(pattern.Partial, pattern.RS), total(b.each(func(size int) int { return b.worked(size) + 1 })), k(heel), corner)
		b.add(&pattern.Begin{Place: pattern.SideOfInstep})
		b.para(say("corners.side", "The partial row does not count as a rnd. From here N1 is the instep, and N2 the sole."))
		b.needles(rnd(1), all, on(k(instep)), on(corner, k(b.each(func(size int) int { return b.worked(size) + 1 }))))
		b.needles(rnd(2), total(after, instep, heel),
			on(toEnd(pattern.Knit)), on(do(pattern.Ssk), toLast(pattern.Knit, 2), do(pattern.K2tog)))
	default:
		b.needles(rnd(1), all, on(k(heel)), on(corner, k(instep), corner))
		b.needles(rnd(2), total(after, heel, instep), on(toEnd(pattern.Knit)), on(do(pattern.Ssk), toLast(pattern.Knit, 2), do(pattern.K2tog)))
	}
}

// cornersIn declares how many rounds a heel without gusset works over all stitches: of the
// foot in a sock from the cuff down, of the leg in one from the toe up.
func (d *Draft) cornersIn(rounds int, why source.Message) {
	d.Model.Add(follows("heel.corner_rounds", "rounds that close the heel", "rnds",
		func(grade.Values) int { return rounds },
		func(grade.Values) grade.Reason { return grade.Reason{Rule: "corner-rounds", Text: why} }))
}

// footAsLeg declares a foot of as many stitches as the leg.
func (d *Draft) footAsLeg() {
	leg := d.v("leg.stitches")
	d.Model.Add(follows("foot.stitches", "stitches round the foot", "sts",
		func(v grade.Values) int { return v.Of(leg) },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "foot-as-leg", Text: say("why.foot", "as many as round the leg"), Terms: []grade.Term{v.Term(leg)}}
		}))
	d.measure("foot.girth", "foot, around", d.finishedGirth, func(v grade.Values) unit.Length { return d.Gauge[""].Width(v.Of(leg)) })
}

// moveToHeel lets the round begin earlier or later where the heel of a sock from the toe up
// has more or fewer stitches than half.
func (b *Builder) moveToHeel() {
	b.where(func(size int) bool { return b.moved(size) > 0 }, func() {
		b.para(say("heel.up.earlier", "The heel takes more than half of the sts: the rnd begins a little earlier from now on. The next rnd stops there."))
		b.row(pattern.Label{Word: pattern.Round, Name: pattern.Partial}, nil, pattern.Step{Op: pattern.Knit, Until: pattern.ToLast, N: b.each(b.moved)})
	})
	b.where(func(size int) bool { return b.moved(size) < 0 }, func() {
		b.para(say("heel.up.later", "The heel takes less than half of the sts: the rnd begins a little later from now on."))
		b.row(pattern.Label{Word: pattern.Round, Name: pattern.Partial}, nil, k(b.each(func(size int) int { return -b.moved(size) })))
	})
	b.add(&pattern.Begin{Place: pattern.SideOfSole})
	b.add(&pattern.Arrange{Split: []pattern.Number{b.n("heel.stitches"), b.instep()}})
}

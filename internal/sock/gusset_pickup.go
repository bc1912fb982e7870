package sock

import (
	"math"
	"slices"

	"sockwright/internal/design"
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
)

// What gussets share that are picked up along the edges of a heel.

// pickUpNumbers declares how many stitches are picked up, corner being those of each corner,
// and how many there are then.
func (d *Draft) pickUpNumbers(corner grade.Var) (all *grade.Var) {
	leg, heel, left, chains := d.v("leg.stitches"), d.v("heel.stitches"), d.v("heel.stitches_left"), d.v("heel.edge_chains")
	corner.Key, corner.Label, corner.Unit = "gusset.corner_stitches", "stitches picked up in each corner", "sts"
	corners := d.Model.Add(corner)
	pick := d.Model.Add(follows("gusset.pick_up_per_side", "stitches picked up at each side", "sts",
		func(v grade.Values) int { return v.Of(chains) + v.Of(corners) },
		func(v grade.Values) grade.Reason {
			r := grade.Reason{Rule: "pick-up", Text: say("why.pick-up", "one in each of {0} chains and {1} in the corner", v.Of(chains), v.Of(corners)), Terms: []grade.Term{v.Term(chains), v.Term(corners)}}
			if d.heelEdge.plain {
				r.Text = say("why.pick-up.plain", "{0} along the edge and {1} in the corner", v.Of(chains), v.Of(corners))
			}
			return r
		}))
	return d.Model.Add(follows("gusset.stitches", "stitches after picking up", "sts",
		func(v grade.Values) int { return v.Of(left) + 2*v.Of(pick) + v.Of(leg) - v.Of(heel) },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "gusset-sum", Text: say("why.gusset", "{0} of the heel, twice {1} picked up, {2} of the instep", v.Of(left), v.Of(pick), v.Of(leg)-v.Of(heel)), Terms: []grade.Term{v.Term(left), v.Term(pick), v.Term(leg), v.Term(heel)}}
		}))
}

// howToPickUp tells how the edges of the heel are picked up.
func (b *Builder) howToPickUp() {
	from := "needle"
	if b.of("heel.stitches_left", 0) == 0 {
		from = "seam"
	}
	if b.heelEdge.plain {
		in, of := b.pickUpRate()
		b.para(say("gusset.intro.plain", "From here the foot is worked in the round. Pick up along the {left} edge of the heel from the {4} to the leg, and along the {right} edge from the leg to the {4}, as the right side faces you, under both legs of the edge sts: {0} sts for the {1} rows of each edge, which is about {2} for every {3} rows. The marked st is the last on the {left} and the first on the {right}.",
			b.n("heel.edge_chains"), b.each(func(size int) int { return b.heelEdge.rows(b.plan.At(size)) }), in, of, from))
		return
	}
	b.para(say("gusset.intro", "From here the foot is worked in the round. Pick up along the {left} edge of the heel from the {0} to the leg, and along the {right} edge from the leg to the {0}, as the right side faces you: one st in each chain, under both its legs. The marked st is the last on the {left} and the first on the {right}.", from))
	if b.heelEdge.worked {
		b.para(say("gusset.topmost", "Where the last chain of an edge, beside the needle, has been worked over, leave it out."))
	}
	if b.roundsBegin() != pattern.CentreBack {
		b.para(say("gusset.last.left", "The marked st on the {left} is not a chain but a knit st of the leg: go under both its legs too."))
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

// A pickUp writes the two rounds in which a gusset is picked up and twisted shut.
type pickUpRounds struct {
	*Builder
	panel bool // markers go to both sides of the panel on the sole
}

// of is a number of the plan in one size.
func (u pickUpRounds) left(size int) int { return u.of("heel.stitches_left", size) }
func (u pickUpRounds) pick(size int) int { return u.of("gusset.pick_up_per_side", size) }

// near and far are the two halves of the heel stitches, as the round meets them.
func (u pickUpRounds) near(size int) int { return u.left(size) - u.left(size)/2 }
func (u pickUpRounds) far(size int) int  { return u.left(size) / 2 }

// write writes the rounds, and returns how many stitches lie on each needle after so many
// decrease rounds. Where the second round is the last of the gusset, last states them.
func (u pickUpRounds) write(last bool) (split func(decreases func(size int) int) []pattern.Number) {
	u.section("Gusset")
	u.howToPickUp()
	corner := func(n int) func(size int) bool {
		return func(size int) bool { return u.of("gusset.corner_stitches", size) == n }
	}
	u.where(corner(1), func() {
		u.para(say("gusset.corner", "The corner is the gap between the marked st and the instep: lift the strand there and knit it, so that no hole is left."))
	})
	u.where(corner(2), func() {
		u.para(say("gusset.corners", "The corner is the gap between the marked st and the instep. Pick up 2 sts there, so that no hole is left: lift the strand in the gap, and go under the leg of the instep st beside it; on the {left} the strand comes first, on the {right} last."))
	})
	if u.marked {
		u.add(&pattern.DropMarkers{})
		u.marked = false
	}
	u.para(say("gusset.locking", "Leave the locking markers in until the edges are picked up."))
	if u.footBegins() == pattern.CentreOfSole {
		return u.fromSole(last)
	}
	return u.fromSide(last)
}

// along is the picking up at one edge, from the sole up or from the leg down.
func (u pickUpRounds) along(edge pattern.Edge) []pattern.Step {
	chains, corner := pickUp(u.n("heel.edge_chains"), edge), pickUp(u.n("gusset.corner_stitches"), pattern.Corner)
	if edge == pattern.LeftEdge {
		return some(chains, corner)
	}
	return some(corner, chains)
}

// some leaves out the steps that no size works.
func some(steps ...pattern.Step) []pattern.Step {
	return slices.DeleteFunc(steps, func(s pattern.Step) bool { return s.Until == pattern.Times && s.N.Known() && s.N.Is(0) })
}

// cornered runs write for the sizes that pick up in the corners, and for those that do not.
func (u pickUpRounds) cornered(write func()) {
	alike(u.Builder, func(size int) bool { return u.of("gusset.corner_stitches", size) == 0 }, func(bool) { write() })
}

var joinAtSeam = say("gusset.seam", "Join the yarn at the seam, where the two edges of the heel meet.")

// fromSole works rounds that begin at the center of the sole.
func (u pickUpRounds) fromSole(last bool) (split func(decreases func(size int) int) []pattern.Number) {
	if first := u.each(func(size int) int { return max(0, u.left(size)/2-1) }); u.left(0) > 0 { // behind the slipped one
		u.row(named(pattern.Partial, pattern.RS), nil, some(sl1(), k(first))...)
	}
	if u.left(0) == 0 {
		u.para(joinAtSeam)
	}
	u.add(&pattern.Begin{Place: pattern.CentreOfSole})
	if u.left(0) > 0 {
		u.para(say("gusset.partial.sole", "This is the middle of the heel sts. The partial row does not count as a rnd; Rnd 1 is the first rnd of the foot. N1 is a new needle and will hold the first half of the sole with the sts picked up there; N2 holds the instep; N3, again a new needle, will hold those picked up on the other side and the second half of the sole. With five needles the instep may lie on two: read both as N2; with four, slip the instep sts onto one needle."))
	} else {
		u.para(say("gusset.seam.sole", "N1 is a new needle and will hold the first half of the sole; N2 holds the instep; N3, again a new needle, will hold the second half of the sole. With five needles the instep may lie on two: read both as N2; with four, slip the instep sts onto one needle."))
	}
	u.tip(say("gusset.tip.tbl", "Knitting the picked-up sts through the back loop in Rnd 2 twists them shut, so that no row of holes runs along the heel."))
	split = func(decreases func(size int) int) []pattern.Number {
		side := func(half func(size int) int) pattern.Number {
			return u.each(func(size int) int { return half(size) + u.pick(size) - decreases(size) })
		}
		return []pattern.Number{side(u.near), u.instep(), side(u.far)}
	}
	u.cornered(func() {
		u.needles(rnd(1), total(u.n("gusset.stitches"), split(none)...),
			append(some(k(u.each(u.near))), u.along(pattern.LeftEdge)...), on(k(u.instep())), some(append(u.along(pattern.RightEdge), k(u.each(u.far)))...))
	})
	pick := tbl(u.each(u.pick))
	var count *pattern.Count
	if last {
		count = total(u.n("foot.stitches"), split(none)...)
	}
	u.needles(rnd(2), count, some(k(u.each(u.near)), pick), on(toEnd(pattern.Knit)), some(pick, k(u.each(u.far))))
	return split
}

// fromSide works rounds that begin at the side, before the instep.
func (u pickUpRounds) fromSide(last bool) (split func(decreases func(size int) int) []pattern.Number) {
	seam := u.left(0) == 0
	if seam {
		u.para(joinAtSeam)
	}
	u.cornered(func() {
		var steps []pattern.Step
		if !seam {
			steps = some(sl1(), k(u.each(func(size int) int { return u.left(size) - 1 })))
		}
		u.row(named(pattern.Partial, pattern.RS), total(u.each(func(size int) int { return u.left(size) + u.pick(size) })), append(steps, u.along(pattern.LeftEdge)...)...)
	})
	u.add(&pattern.Begin{Place: pattern.SideOfInstep})
	switch u.Method {
	case design.DoublePointed:
		u.para(say("gusset.partial.dpn", "The partial row does not count as a rnd; Rnd 1 is the first rnd of the foot. From here N1 is the instep, and N2 the sole with the sts picked up on both sides. Each may lie on two double-pointed needles: read both as one."))
	case design.MagicLoop:
		u.para(say("gusset.partial.loop", "Draw out a loop of cable between the picked-up sts and the instep. The partial row does not count as a rnd; Rnd 1 is the first rnd of the foot. From here N1 is the instep, and N2 the sole with the sts picked up on both sides."))
	default:
		u.para(say("gusset.partial.two", "The partial row does not count as a rnd; Rnd 1 is the first rnd of the foot. From here the needle with the instep is N1; the other, with the sole and the sts picked up on both sides, is N2."))
	}
	u.tip(say("gusset.tip.tbl.side", "Knitting the picked-up sts through the back loop twists them shut, so that no row of holes runs along the heel: those on the {left} in Rnd 1, those on the {right} in Rnd 2."))
	split = func(decreases func(size int) int) []pattern.Number {
		return []pattern.Number{u.instep(), u.each(func(size int) int { return u.left(size) + 2*u.pick(size) - 2*decreases(size) })}
	}
	pick := tbl(u.each(u.pick))
	u.cornered(func() {
		u.needles(rnd(1), total(u.n("gusset.stitches"), split(none)...),
			on(k(u.instep())), some(append(u.along(pattern.RightEdge), k(u.n("heel.stitches_left")), tbl(u.each(u.pick)))...))
	})
	var count *pattern.Count
	if last {
		count = total(u.n("foot.stitches"), split(none)...)
	}
	sole := on(pick, toEnd(pattern.Knit))
	if !u.panel {
		u.needles(rnd(2), count, on(toEnd(pattern.Knit)), sole)
		return split
	}
	beside := func(size int) int { return (u.left(size) - u.of("gusset.panel_stitches", size)) / 2 }
	alike(u.Builder, func(size int) bool { return beside(size) == 0 }, func(bool) {
		u.needles(rnd(2), count, on(toEnd(pattern.Knit)),
			some(tbl(u.each(u.pick)), k(u.each(beside)), do(pattern.PlaceMarker), k(u.n("gusset.panel_stitches")), do(pattern.PlaceMarker), toEnd(pattern.Knit)))
	})
	return split
}

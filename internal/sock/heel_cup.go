package sock

import (
	"sockwright/internal/design"
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
	"sockwright/internal/unit"
)

var (
	cupTurn   = choice("turn", "what is left at the turns of the cup", "wrapped", "twin", "yarn-over", "double-stitch")
	cupFabric = choice("fabric", "fabric of the flap", "slipped", "stockinette")
	cupMiddle = share("middle", "share of the heel that lies between the last turns of the cup", 1.0/3, 0.2, 0.5)
	flapShare = share("height", "rows of the flap, as a share of the heel stitches", 1, 0.6, 1.3)
)

var _ = register(Part{Part: "heel", Kind: "cup", Name: "a heel with a cup and a flap", Directions: toeUp, Gussets: []string{"increases"},
	Options: []Option{heelShare, cupTurn, cupMiddle, cupFabric, flapShare}, Skills: []string{"short rows", "slipping sts", "decreasing"},
	Says: say("heel.cup.says", "short rows make a cup under the heel, and a flap grows up the back, taking in a gusset stitch at the end of each row: fits high insteps"),
	How:  say("heel.cup.opening", "After a gusset of increases the heel begins with a cup of short rows under the foot. Then a flap is worked up the back of the heel, and each of its rows takes in 1 stitch of the gusset, until none is left."),
	take: func(d *Draft, t *design.Table) construction {
		return &cupHeel{share: heelShare.number(t), turn: turnOf(cupTurn.name(t)), middle: cupMiddle.number(t), slipped: cupFabric.name(t) == "slipped", height: flapShare.number(t)}
	}})

// cupHeel is the heel of a sock from the toe up that ends with a flap. The cup's short rows
// turn m times on each side, inside the first and the last heel stitch, and leave the middle;
// then two rows close all turns, and like every row of the flap after them each takes in one
// gusset stitch with its last heel stitch: row i leaves H + 2 g - i of heel and gusset.
type cupHeel struct {
	share   float64 // of the round
	turn    pattern.Turned
	middle  float64 // of the heel
	slipped bool    // the flap has slipped stitches
	height  float64 // rows of the flap, of the heel stitches
}

// turnOf finds what is left at a turn by the name of its method.
func turnOf(name string) pattern.Turned {
	return map[string]pattern.Turned{"wrapped": pattern.Wrapped, "twin": pattern.Twin, "yarn-over": pattern.Over, "double-stitch": pattern.Doubled}[name]
}

func (h *cupHeel) declare(d *Draft) {
	heel := d.heelStitches(h.share, 10, "a heel with a cup")
	middle := d.middleOfHeel(heel, h.middle, "heel.middle_stitches", "stitches left in the middle",
		evenSides("middle-parity", "the middle is odd or even as the heel is, so that both sides have as many turns", heel),
		rule("cup-some", "the middle of a cup has at least 2 stitches, and there are at least 2 turns and 1 more stitch on each side", func(v grade.Values, n int) bool { return n >= 2 && v.Of(heel)-n >= 6 }))
	turns := d.Model.Add(follows("heel.turns", "turns on each side of the cup", "turns",
		func(v grade.Values) int { return (v.Of(heel)-v.Of(middle))/2 - 1 },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "cup-turns", Text: say("why.cup.turns", "({0} − {1}) / 2, less the outermost stitch, which takes in the gusset", v.Of(heel), v.Of(middle)), Terms: []grade.Term{v.Term(heel), v.Term(middle)}}
		}))
	flapGauge := d.GaugeOf("flap")
	back := d.flapOf(heel, h.height, "rows of the flap", rule("flap-even", "the flap has an even number of rows, so that it ends after a WS row", func(_ grade.Values, n int) bool { return n >= 4 && n%2 == 0 }))
	d.Model.Add(follows("heel.gusset_stitches", "gusset stitches at each side", "sts",
		func(v grade.Values) int { return v.Of(back) / 2 },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "gusset-per-row", Text: say("why.gusset.side", "each of the {0} rows of the flap takes one in, left and right by turns: {0} / 2", v.Of(back)), Terms: []grade.Term{v.Term(back)}}
		}))
	d.heelKept(heel)
	d.Model.Add(follows("heel.sole_rounds", "length of the heel under the foot, in rounds", "rnds",
		func(v grade.Values) int { return 2*v.Of(turns) + 2 },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "cup-under", Text: say("why.cup.under", "the short rows of the cup and the two that close it: 2 × {0} + 2", v.Of(turns)), Terms: []grade.Term{v.Term(turns)}}
		}))
	d.noCorners()
	d.measure("heel.depth", "heel, height of the flap", nil, func(v grade.Values) unit.Length { return flapGauge.Height(v.Of(back)) })
}

func (h *cupHeel) build(b *Builder) {
	heel, turns := b.n("heel.stitches"), func(size int) int { return b.of("heel.turns", size) }
	side := func(size int) int { return b.of("heel.gusset_stitches", size) }
	b.section("Cup of the heel")
	b.para(say("heel.cup.intro", "The cup is worked back and forth in short rows over the {0} sts in the middle of the sole, each row turned before its end. Only N1 is worked; N2 rests.", heel))
	b.howToTurn(h.turn)
	b.add(&pattern.Divide{Heel: b.soleWithGusset(), Rest: b.instep()})
	first := func(more int) pattern.Number { // of the first row, up to its turn
		return b.each(func(size int) int { return side(size) + b.of("heel.stitches", size) - 2 + more })
	}
	second := func(more int) pattern.Number {
		return b.each(func(size int) int { return b.of("heel.stitches", size) - 4 + more })
	}
	more := 0
	if h.turn == pattern.Doubled { // the stitch is worked before it is doubled
		more = 1
	}
	b.row(row(1, pattern.RS), nil, k(first(more)), turn(h.turn))
	b.row(row(2, pattern.WS), nil, p(second(more)), turn(h.turn))
	shortRows{turn: h.turn}.shorter(b)
	b.again(pattern.FlatRow, 2, b.each(func(size int) int { return turns(size) - 2 }), pattern.Again{
		Total: b.each(func(size int) int { return 2 * turns(size) }), Count: total(b.soleWithGusset())})
	b.para(say("heel.cup.middle", "On each side {0} sts now wait turned, and {1} lie between them.", b.n("heel.turns"), b.n("heel.middle_stitches")))

	b.section("Heel flap")
	b.para(say("heel.cup.flap", "The flap is worked over the {0} heel sts. Its first two rows work the turned sts, and every row ends by taking in 1 st of the gusset together with the last heel st. The counts are of the heel and what is left of the gusset.", heel))
	after := func(rows int) *pattern.Count {
		return total(b.each(func(size int) int { return b.of("heel.stitches", size) + 2*side(size) - rows }))
	}
	n := b.n("heel.turns")
	b.row(row(1, pattern.RS), after(1), toGap(pattern.Knit, 0, h.turn), times(n, closed(pattern.Knit, h.turn)), do(pattern.Ssk), turn(pattern.NotTurned))
	b.row(row(2, pattern.WS), after(2), sl1(), toGap(pattern.Purl, 0, h.turn), times(n, closed(pattern.Purl, h.turn)), do(pattern.P2tog), turn(pattern.NotTurned))
	end := on(do(pattern.Ssk), turn(pattern.NotTurned))
	switch {
	case !h.slipped:
		b.row(row(3, pattern.RS), change(-1), append(on(sl1(), toGap(pattern.Knit, 1, pattern.NotTurned)), end...)...)
	default:
		odd := func(size int) bool { return b.of("heel.stitches", size)%2 != 0 }
		slips := func(before int) pattern.Step {
			return pattern.Step{Op: pattern.Group, Until: pattern.ToGap, N: pattern.Of(before), Body: on(kN(1), sl1())}
		}
		b.where(odd, func() {
			b.row(row(3, pattern.RS), change(-1), append(on(sl1(), slips(2), kN(1)), end...)...)
		})
		b.where(func(size int) bool { return !odd(size) }, func() {
			b.row(row(3, pattern.RS), change(-1), append(on(sl1(), slips(1)), end...)...)
		})
	}
	b.row(row(4, pattern.WS), change(-1), sl1(), toGap(pattern.Purl, 1, pattern.NotTurned), do(pattern.P2tog), turn(pattern.NotTurned))
	b.again(pattern.FlatRow, 2, b.each(func(size int) int { return side(size) - 2 }), pattern.Again{
		Total: b.n("heel.flap_rows"), Count: total(heel)})
	in, cm := b.long(func(size int) unit.Length { return b.finished("heel.depth", b.plan.At(size)) })
	b.para(say("heel.cup.done", "All gusset sts are taken in. The flap measures {0} in [{1} cm].", in, cm))
	b.add(&pattern.Rejoin{Stitches: b.n("leg.stitches"), Place: pattern.SideOfSole})
}

// flapOf declares the rows of a flap that goes up from the sole: a share of the heel, within
// a rule.
func (d *Draft) flapOf(heel *grade.Var, share float64, label string, r grade.Rule) *grade.Var {
	return d.Model.Add(grade.Var{
		Key: "heel.flap_rows", Label: label, Unit: "rows",
		Target: func(v grade.Values) float64 { return share * float64(v.Of(heel)) },
		Scale:  d.roundHeight, Reach: 3, Level: proportions, Rules: []grade.Rule{r},
		Why: func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "flap-height", Text: shareOfHeel(share, v.Of(heel), evenRows),
				Terms: []grade.Term{v.Term(heel), {Key: "heel.height", Value: share, Source: "common practice"}}}
		},
	})
}

// noCorners declares that such a heel has no corners to close.
func (d *Draft) noCorners() {
	d.cornersIn(0, say("why.cup.corners", "the flap leaves no gap at its corners"))
}

package sock

import (
	"sockwright/internal/design"
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
	"sockwright/internal/unit"
)

var (
	cornerStitches = wholeNumber("corner_stitches", "stitches picked up in each corner", 1, 0, 2)
	gussetRate     = choice("rate", "how often the gusset is decreased", "every-2nd", "every-3rd", "four-then-2nd")
	footStitches   = steps("foot_stitches", "stitches that the foot has more than the leg; fewer if negative", 0, -16, 16, 4)
	panelShare     = share("panel", "share of the heel stitches left that is the panel between the decreases", 2.0/3, 0.2, 1)
)

var (
	_ = register(Part{Part: "gusset", Kind: "instep", Options: []Option{cornerStitches, gussetRate, footStitches}, Name: "a gusset", Default: cuffDown, Directions: cuffDown, Skills: []string{"picking up sts along an edge", "decreasing"},
		How:  say("gusset.instep.opening", "The instep stitches rest while the heel is worked; then stitches are picked up along its edges, and decreased away beside the instep."),
		Says: say("gusset.instep.says", "stitches picked up along the heel are decreased away beside the instep, two in every other round"),
		take: func(d *Draft, t *design.Table) construction { return takeGusset(t) }})
	_ = register(Part{Part: "gusset", Kind: "sole", Options: []Option{cornerStitches, gussetRate, footStitches, panelShare}, Name: "a gusset on the sole", Directions: cuffDown, Skills: []string{"picking up sts along an edge", "decreasing"},
		How:  say("gusset.sole.opening", "The instep stitches rest while the heel is worked; then stitches are picked up along its edges, and decreased away under the foot, along a panel in the middle of the sole."),
		Says: say("gusset.sole.says", "stitches picked up along the heel are decreased away along a panel of the sole, so that patterns of instep and sides stay undisturbed"),
		take: func(d *Draft, t *design.Table) construction {
			gs := takeGusset(t)
			gs.onSole, gs.panel = true, panelShare.number(t)
			return gs
		}})
)

// A gusset is picked up along the heel, one stitch in each chain of its edges and some in each
// corner; after a round that twists them shut, n = (T − N) / 2 decrease rounds take T stitches
// to the N of the foot.
type gusset struct {
	corner int // stitches picked up in each corner
	rate   string
	wider  int     // stitches that the foot has more than the leg
	onSole bool    // the decreases lie along a panel of the sole, not beside the instep
	panel  float64 // share of the heel stitches left
}

func takeGusset(t *design.Table) *gusset {
	return &gusset{corner: cornerStitches.whole(t), rate: gussetRate.name(t), wider: footStitches.whole(t)}
}

// firstRounds is how many decrease rounds follow each other at once at the rate
// "four-then-2nd" (stocking no. 1, Cycling and Shooting Knickerbocker Stockings, Macmillan,
// 1896).
const firstRounds = 4

// rounds is how many rounds a gusset of n decrease rounds has: two to pick up and twist, and
// from the third on a decrease round every second or every third round, or four running and
// then every second.
func (gs *gusset) rounds(n int) int {
	switch {
	case gs.rate == "every-3rd":
		return 3 * n
	case gs.rate == "four-then-2nd":
		return 2 + min(n, firstRounds) + 2*max(0, n-firstRounds)
	}
	return 2*n + 1
}

func (gs *gusset) declare(d *Draft) {
	leg, heel, left := d.v("leg.stitches"), d.v("heel.stitches"), d.v("heel.stitches_left")
	all := d.pickUpNumbers(cornersOf(gs.corner))
	rounds := d.Model.Add(follows("gusset.decrease_rounds", "decrease rounds of the gusset", "rnds",
		func(v grade.Values) int { return (v.Of(all) - v.Of(leg) - gs.wider) / 2 },
		func(v grade.Values) grade.Reason {
			r := grade.Reason{Rule: "gusset-decreases", Text: say("why.gusset.rounds", "({0} − {1}) / 2, since each takes two stitches", v.Of(all), v.Of(leg)+gs.wider), Terms: []grade.Term{v.Term(all), v.Term(leg)}}
			return r
		}))
	rounds.Rules = append(rounds.Rules, rule("gusset-some", "a gusset has at least one decrease round", func(_ grade.Values, n int) bool { return n >= 1 }))
	d.Model.Add(follows("gusset.rounds", "rounds of the gusset", "rnds",
		func(v grade.Values) int { return gs.rounds(v.Of(rounds)) },
		func(v grade.Values) grade.Reason {
			r := grade.Reason{Rule: "gusset-rounds", Text: say("why.gusset.all", "two to pick up and twist, then a decrease round every second round: 2 × {0} + 1", v.Of(rounds)), Terms: []grade.Term{v.Term(rounds)}}
			switch gs.rate {
			case "every-3rd":
				r.Text = say("why.gusset.third", "two to pick up and twist, then a decrease round every third round: 3 × {0}", v.Of(rounds))
			case "four-then-2nd":
				r.Text = say("why.gusset.running", "two to pick up and twist, up to {0} decrease rounds running, then one every second round, {1} in all", firstRounds, v.Of(rounds))
			}
			return r
		}))
	d.footOf(gs.wider)
	if !gs.onSole {
		return
	}
	foot := d.v("foot.stitches")
	d.Model.Add(grade.Var{
		Key: "gusset.panel_stitches", Label: "stitches of the panel between the decreases", Unit: "sts",
		Target: func(v grade.Values) float64 { return gs.panel * float64(v.Of(left)) },
		Scale:  d.stitchWidth, Reach: 60, Level: proportions,
		Rules: []grade.Rule{
			rule("panel-parity", "the panel is odd or even as the heel stitches left are, so that it lies in their middle", func(v grade.Values, n int) bool { return (v.Of(left)-n)%2 == 0 }),
			rule("panel-sole", "the panel has at least 2 stitches, no more than the heel has left, and at least 2 beside it at each side when the gusset is done", func(v grade.Values, n int) bool {
				return n >= 2 && n <= v.Of(left) && n+4 <= v.Of(foot)-v.Of(leg)+v.Of(heel)
			}),
		},
		Why: func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "panel-share", Text: say("why.panel", "{0} % of {1} stitches left of the heel is {2}; odd or even as they are", whole(gs.panel*100), v.Of(left), whole(gs.panel*float64(v.Of(left)))), Terms: []grade.Term{v.Term(left), {Key: "gusset.panel", Value: gs.panel, Source: "common practice"}}}
		},
	})
}

// cornersOf is the number of stitches picked up in each corner, where it is chosen.
func cornersOf(n int) grade.Var {
	return grade.Var{
		Is: func(grade.Values) int { return n },
		Why: func(grade.Values) grade.Reason {
			return grade.Reason{Rule: "corner", Text: say("why.corner", "an extra stitch in the corner closes the hole there; the gusset decreases it away (common practice)")}
		}}
}

// footOf declares a foot of so many stitches more than the leg.
func (d *Draft) footOf(wider int) {
	if wider == 0 {
		d.footAsLeg()
	} else {
		d.footUnlikeLeg(wider)
	}
}

// footUnlikeLeg declares a foot that is wider or narrower than the leg.
func (d *Draft) footUnlikeLeg(wider int) {
	g, leg, heel := d.Gauge[""], d.v("leg.stitches"), d.v("heel.stitches")
	foot := follows("foot.stitches", "stitches round the foot", "sts",
		func(v grade.Values) int { return v.Of(leg) + wider },
		func(v grade.Values) grade.Reason {
			r := grade.Reason{Rule: "foot-wider", Text: say("why.foot.wider", "{0} more than the {1} round the leg", wider, v.Of(leg)), Terms: []grade.Term{v.Term(leg)}}
			if wider < 0 {
				r.Text = say("why.foot.narrower", "{0} fewer than the {1} round the leg", -wider, v.Of(leg))
			}
			return r
		})
	foot.Rules = []grade.Rule{rule("foot-sole", "the foot leaves the sole at least 6 stitches beside those of the instep, and has at least 12", func(v grade.Values, n int) bool {
		return n >= fewestStitches && n-v.Of(leg)+v.Of(heel) >= 6
	})}
	x := d.Model.Add(foot)
	d.measure("foot.girth", "foot, around", func(size int) unit.Length { return d.finishedGirth(size) + g.Width(wider) }, func(v grade.Values) unit.Length { return g.Width(v.Of(x)) })
}

// tell adds the markers at both sides of the panel on the sole.
func (gs *gusset) tell(d *Draft, p *Part) {
	if gs.onSole && d.roundsBegin() != pattern.CentreBack {
		p.Markers = 2
	}
}

func (gs *gusset) build(b *Builder) {
	split := pickUpRounds{Builder: b, panel: gs.onSole}.write(false)
	dec, how := gs.decrease(b)
	if gs.onSole {
		b.para(how)
		if b.roundsBegin() != pattern.CentreBack {
			b.para(say("gusset.sole.markers", "The markers stand at both sides of the panel; slip them in the plain rnds."))
			defer b.add(&pattern.DropMarkers{})
		}
	}
	n := func(size int) int { return b.of("gusset.decrease_rounds", size) }
	left := func(done func(size int) int) pattern.Number {
		return b.each(func(size int) int { return b.of("gusset.stitches", size) - 2*done(size) })
	}
	last := func() pattern.Again {
		return pattern.Again{Total: b.n("gusset.rounds"), Count: total(b.n("foot.stitches"), split(n)...)}
	}
	third := func(c *pattern.Count) { b.needles(rnd(3), c, dec...) }
	b.where(func(size int) bool { return n(size) == 1 }, func() { third(total(b.n("foot.stitches"), split(n)...)) })
	more := func(size int) bool { return n(size) > 1 }
	if gs.rate == "four-then-2nd" {
		b.where(more, func() { third(change(-2)) })
		running := func(size int) bool { return n(size) <= firstRounds }
		b.where(func(size int) bool { return more(size) && running(size) }, func() {
			b.oneMore(rnd(3), b.each(func(size int) int { return n(size) - 1 }), last())
		})
		b.where(func(size int) bool { return !running(size) }, func() {
			b.oneMore(rnd(3), pattern.Of(firstRounds-1), pattern.Again{Count: total(left(func(int) int { return firstRounds }))})
			b.row(rnd(4), nil, toEnd(pattern.Knit))
			once := func(size int) bool { return n(size) == firstRounds+1 }
			b.where(once, func() { b.oneMore(rnd(3), pattern.Of(1), last()) })
			b.where(func(size int) bool { return !once(size) }, func() {
				b.needles(rnd(5), change(-2), dec...)
				b.again(pattern.Round, 2, b.each(func(size int) int { return n(size) - firstRounds - 1 }), last())
			})
		})
		return
	}
	b.where(more, func() {
		third(change(-2))
		b.row(rnd(4), nil, toEnd(pattern.Knit))
		rounds := 2
		if gs.rate == "every-3rd" {
			b.row(rnd(5), nil, toEnd(pattern.Knit))
			rounds = 3
		}
		b.again(pattern.Round, rounds, b.each(func(size int) int { return n(size) - 2 }), pattern.Again{
			Count: total(left(func(size int) int { return n(size) - 1 }))})
		b.oneMore(rnd(3), pattern.Of(1), last())
	})
}

// decrease is the decrease round, needle by needle, and what it does.
func (gs *gusset) decrease(b *Builder) ([][]pattern.Step, source.Message) {
	plain := on(toEnd(pattern.Knit))
	side := b.roundsBegin() != pattern.CentreBack
	if !gs.onSole {
		if side {
			return [][]pattern.Step{plain, on(kN(1), do(pattern.Ssk), toLast(pattern.Knit, 3), do(pattern.K2tog), kN(1))}, source.Message{}
		}
		return [][]pattern.Step{on(toLast(pattern.Knit, 3), do(pattern.K2tog), kN(1)), plain, on(kN(1), do(pattern.Ssk), toEnd(pattern.Knit))}, source.Message{}
	}
	panel := b.n("gusset.panel_stitches")
	how := say("gusset.sole.panel", "The decreases lie on the sole, along a panel of {0} sts in its middle, which keeps its width; the instep and the sts beside it stay as they are.", panel)
	if side {
		beforePanel := toMarker(pattern.Knit)
		beforePanel.N = pattern.Of(2)
		return [][]pattern.Step{plain, on(beforePanel, do(pattern.K2tog), do(pattern.SlipMarker), toMarker(pattern.Knit), do(pattern.SlipMarker), do(pattern.Ssk), toEnd(pattern.Knit))}, how
	}
	near := b.each(func(size int) int { w := b.of("gusset.panel_stitches", size); return w - w/2 })
	far := func(more int) pattern.Number {
		return b.each(func(size int) int { return b.of("gusset.panel_stitches", size)/2 + more })
	}
	return [][]pattern.Step{on(k(near), do(pattern.Ssk), toEnd(pattern.Knit)), plain,
		on(pattern.Step{Op: pattern.Knit, Until: pattern.ToLast, N: far(2)}, do(pattern.K2tog), k(far(0)))}, how
}

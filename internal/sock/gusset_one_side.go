package sock

import (
	"sockwright/internal/design"
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
)

// oneSided is the kind of a gusset that is decreased on one side of the foot.
const oneSided = "one-side"

var (
	gussetSide  = choice("side", "side of the foot on which the gusset is decreased: that of the big toe, or that of the little toe", "inner", "outer")
	oneSideRate = choice("rate", "how often a stitch of the gusset is decreased; in every round it is as long as one with two sides", "every", "every-2nd")
)

var _ = register(Part{Part: "gusset", Kind: oneSided, Options: []Option{gussetSide, oneSideRate, cornerStitches, footStitches}, Name: "a gusset on one side of the foot", Sided: true, Directions: cuffDown, Skills: []string{"picking up sts along an edge", "decreasing"},
	Says: say("gusset.one-side.says", "stitches picked up along the heel are decreased away on one side of the foot alone, so that a pattern on the other side stays undisturbed; left and right differ"),
	How:  say("gusset.one-side.opening", "The instep stitches rest while the heel is worked; then stitches are picked up along both its edges, and decreased away on one side of the foot only, so that the two socks are mirror images."),
	take: func(_ *Draft, t *design.Table) construction {
		return &oneSideGusset{corner: cornerStitches.whole(t), wider: footStitches.whole(t), outer: gussetSide.name(t) == "outer", spaced: oneSideRate.name(t) == "every-2nd"}
	}})

// oneSideGusset is picked up as other gussets are and decreased beside one end of the instep:
// n = T − N rounds take one stitch each of the T that there are. The instep keeps its place,
// and the sole moves round under the foot, away from the decreases, by a quarter of n (house
// rule).
type oneSideGusset struct {
	corner int  // stitches picked up in each corner
	wider  int  // stitches that the foot has more than the leg
	outer  bool // the decreases lie at the little toe's side
	spaced bool // a plain round follows each decrease round
}

func (gs *oneSideGusset) declare(d *Draft) {
	leg := d.v("leg.stitches")
	all := d.pickUpNumbers(cornersOf(gs.corner))
	rounds := d.Model.Add(follows("gusset.decrease_rounds", "decrease rounds of the gusset", "rnds",
		func(v grade.Values) int { return v.Of(all) - v.Of(leg) - gs.wider },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "gusset-decreases", Text: say("why.gusset.one-side", "{0} − {1}, since each takes one stitch, on one side of the foot", v.Of(all), v.Of(leg)+gs.wider), Terms: []grade.Term{v.Term(all), v.Term(leg)}}
		}))
	rounds.Rules = append(rounds.Rules, rule("gusset-some", "a gusset has at least two decreases", func(_ grade.Values, n int) bool { return n >= 2 }))
	d.Model.Add(follows("gusset.rounds", "rounds of the gusset", "rnds",
		func(v grade.Values) int {
			if gs.spaced {
				return 2 + 2*v.Of(rounds)
			}
			return 2 + v.Of(rounds)
		},
		func(v grade.Values) grade.Reason {
			r := grade.Reason{Rule: "gusset-rounds", Text: say("why.gusset.one-side.all", "two to pick up and twist, then {0} decrease rounds running", v.Of(rounds)), Terms: []grade.Term{v.Term(rounds)}}
			if gs.spaced {
				r.Text = say("why.gusset.one-side.spaced", "two to pick up and twist, then {0} decrease rounds with a plain round after each: 2 + 2 × {0}", v.Of(rounds))
			}
			return r
		}))
	d.footOf(gs.wider)
}

func (gs *oneSideGusset) build(b *Builder) {
	pickUpRounds{Builder: b}.write(false)
	b.para(say("gusset.one-side.how", "Only {0} is decreased: on the {right} sock that is where the rnd {1}, on the {left} sock where it {2}. The sole moves round under the foot a little; that is as it should be.",
		gs.toe(), gs.where(pattern.RightSock), gs.where(pattern.LeftSock)))
	b.sock(pattern.RightSock, func() { gs.rounds(b, pattern.RightSock) })
	b.sock(pattern.LeftSock, func() { gs.rounds(b, pattern.LeftSock) })
}

// atBegin tells whether the decreases of a sock lie before the beginning of the round. With
// its toes away from the knitter the instep lies as the wearer sees it: the round begins on
// the wearer's right, where a right foot has its little toe.
func (gs *oneSideGusset) atBegin(which pattern.Sock) bool {
	return (which == pattern.RightSock) == gs.outer
}

func (gs *oneSideGusset) toe() string {
	if gs.outer {
		return "the side of the little toe"
	}
	return "the side of the big toe"
}

// where says where in the round the decreases of a sock lie.
func (gs *oneSideGusset) where(which pattern.Sock) string {
	if gs.atBegin(which) {
		return "ends, before the instep"
	}
	return "passes from the instep to the sole"
}

// rounds writes the decrease rounds of one sock.
func (gs *oneSideGusset) rounds(b *Builder, which pattern.Sock) {
	sole := on(kN(1), do(pattern.Ssk), toEnd(pattern.Knit))
	if gs.atBegin(which) {
		sole = on(toLast(pattern.Knit, 3), do(pattern.K2tog), kN(1))
	}
	b.needles(rnd(3), change(-1), on(toEnd(pattern.Knit)), sole)
	soleAfter := b.each(func(size int) int { return b.of("foot.stitches", size) - int(b.instep().In(size)) })
	more := b.each(func(size int) int { return b.of("gusset.decrease_rounds", size) - 1 })
	last := pattern.Again{Total: b.n("gusset.rounds"), Count: total(b.n("foot.stitches"), b.instep(), soleAfter)}
	if gs.spaced {
		b.row(rnd(4), nil, toEnd(pattern.Knit))
		b.again(pattern.Round, 2, more, last)
		return
	}
	b.oneMore(rnd(3), more, last)
}

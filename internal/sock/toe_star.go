package sock

import (
	"sockwright/internal/design"
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
)

var toePoints = wholeNumber("points", "points of the star", 4, 3, 6)

var _ = register(Part{Part: "toe", Kind: "star", Name: "a star toe", Options: []Option{toePoints}, Notions: []string{"tapestry needle"}, Directions: bothWays, Skills: []string{"decreasing"},
	Says: say("toe.star.says", "a pointed dome of 3 to 6 points whose decreases stack in straight lines, in every other round until half is left and then in every round; drawn together"),
	take: func(_ *Draft, t *design.Table) construction { return &starToe{points: toePoints.whole(t)} }})

// starToe loses p stitches in each decrease round, one at the beginning of each of p
// sections: every second round until at most half of the stitches are left, then every
// round, down to 2 p, which are drawn together. Where the foot is no multiple of p, a round
// before it takes what is too much. From the toe up it is the same read backwards.
type starToe struct {
	points int // p
}

func (s *starToe) tell(_ *Draft, p *Part) { p.Markers = s.points - 1 }

func (s *starToe) declare(d *Draft) {
	foot, all := d.v("foot.stitches"), d.toeStitches(s.points, 5)
	d.Model.Add(follows("toe.rounds", "rounds of the toe", "rnds",
		func(v grade.Values) int {
			spaced, close := s.shapings(v.Of(all))
			return 2*spaced + close + d.toeMore(v)
		},
		func(v grade.Values) grade.Reason {
			spaced, close := s.shapings(v.Of(all))
			return grade.Reason{Rule: "toe-rounds", Text: say("why.toe.star", "{0} shaping rounds with a plain one each and {1} without; a round more where the foot is no multiple of {2}, and one where a toe is cast on at its tip", spaced, close, s.points), Terms: []grade.Term{v.Term(all), v.Term(foot)}}
		}))
	d.footLength(0, func(grade.Values) int { return 0 })
}

// shapings is how many shaping rounds of a toe of n stitches have a plain round beside them,
// and how many have none.
func (s *starToe) shapings(n int) (spaced, close int) {
	all := n/s.points - 2
	for spaced < all-1 && n-s.points*spaced > n/2 {
		spaced++
	}
	return spaced, all - spaced
}

// sections are the steps of a round that begins each of p sections so, with a marker between
// each two.
func (s *starToe) sections(begin []pattern.Step) []pattern.Step {
	each := append(append([]pattern.Step{}, begin...), toMarker(pattern.Knit), do(pattern.SlipMarker))
	return append(append(on(times(pattern.Of(s.points-1), each...)), begin...), toEnd(pattern.Knit))
}

func (s *starToe) build(b *Builder) {
	b.section("Toe")
	p := s.points
	spaced := func(size int) int { n, _ := s.shapings(b.of("toe.stitches", size)); return n }
	close := func(size int) int { _, n := s.shapings(b.of("toe.stitches", size)); return n }
	if b.Direction == design.ToeUp {
		s.fromTip(b, spaced, close)
		return
	}
	b.para(say("toe.star.intro", "The toe is decreased at the beginning of each of {0} sections; markers show where they begin, the beginning of the rnd being the first; slip them in the plain rnds. Let sts pass from needle to needle where a decrease lies between two.", p))
	b.changeTo("foot.stitches", "toe.stitches")
	left := func(done func(size int) int) *pattern.Count {
		return total(b.each(func(size int) int { return b.of("toe.stitches", size) - p*done(size) }))
	}
	rest := b.each(func(size int) int { return b.of("toe.stitches", size)/p - 2 })
	b.row(rnd(1), left(func(int) int { return 1 }),
		times(pattern.Of(p-1), do(pattern.Ssk), k(rest), do(pattern.PlaceMarker)), do(pattern.Ssk), toEnd(pattern.Knit))
	b.row(rnd(2), nil, toEnd(pattern.Knit))
	b.row(rnd(3), change(-p), s.sections(on(do(pattern.Ssk)))...)
	b.row(rnd(4), nil, toEnd(pattern.Knit))
	b.again(pattern.Round, 2, b.each(func(size int) int { return spaced(size) - 2 }), pattern.Again{Count: left(spaced)})
	b.oneMore(rnd(3), b.each(close), pattern.Again{
		Total: b.each(func(size int) int { return 2*spaced(size) + close(size) }), Count: total(pattern.Of(2 * p))})
	b.add(&pattern.DropMarkers{})
	b.gather(pattern.Of(2 * p))
}

// fromTip works the toe upwards.
func (s *starToe) fromTip(b *Builder, spaced, close func(size int) int) {
	p := s.points
	b.ringStart(2 * p)
	b.para(say("toe.star.up", "The toe is increased at the beginning of each of {0} sections; markers show where they begin, the beginning of the rnd being the first; slip them in the plain rnds.", p))
	b.row(rnd(1), nil, times(pattern.Of(p-1), kN(2), do(pattern.PlaceMarker)), toEnd(pattern.Knit))
	inc := on(kN(1), do(pattern.M1L))
	b.row(rnd(2), changeTotal(p, pattern.Of(3*p)), s.sections(inc)...)
	b.oneMore(rnd(2), b.each(func(size int) int { return close(size) - 1 }), pattern.Again{
		Count: total(b.each(func(size int) int { return p * (2 + close(size)) }))})
	b.row(rnd(3), nil, toEnd(pattern.Knit))
	b.row(rnd(4), change(p), s.sections(inc)...)
	b.again(pattern.Round, 2, b.each(func(size int) int { return spaced(size) - 1 }), pattern.Again{
		Total: b.each(func(size int) int { return 2*spaced(size) + close(size) + 1 }), Count: total(b.n("toe.stitches"))})
	b.add(&pattern.DropMarkers{})
	b.endOfTip()
}

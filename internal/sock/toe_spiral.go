package sock

import (
	"slices"

	"sockwright/internal/design"
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
)

var (
	spiralPlaces = wholeNumber("places", "decrease rounds until the spiral starts again at the edge of its section", 4, 3, 6)
	spiralPoints = wholeNumber("points", "arms of the spiral", 4, 3, 6)
)

var _ = register(Part{Part: "toe", Kind: "spiral", Name: "a spiral toe", Options: []Option{spiralPoints, spiralPlaces}, Notions: []string{"tapestry needle"}, Directions: bothWays, Skills: []string{"decreasing"},
	Says: say("toe.spiral.says", "a rounded toe of 3 to 6 sections in which the decreases wander 2 stitches to the left each time and start again, so that they wind round the tip; drawn together"),
	take: func(_ *Draft, t *design.Table) construction {
		return &spiralToe{points: spiralPoints.whole(t), places: spiralPlaces.whole(t)}
	}})

// spiralToe loses p stitches in every second round, one in each of p sections. The first
// decrease of a turn of the spiral is on stitches 1 and 2 of the section, the next on 3 and 4,
// and so on over so many places; then it starts again. A turn over j places needs sections of
// 3 j stitches, so that one is left behind its last decrease. Where the usual turn has no room, turns of two places follow, and at last
// of one, until 2 stitches of each section are left. (Encyclopedia of Needlework, D.M.C.,
// 1886, has the same decreases on each of four needles.)
type spiralToe struct {
	points int // p
	places int
}

// turns is how many turns the spiral has over all its places, over two and over one, in
// sections of n stitches.
func (s *spiralToe) turns(n int) (full, two, one int) {
	for n >= 3*s.places {
		n -= s.places
		full++
	}
	for n >= 6 {
		n -= 2
		two++
	}
	return full, two, n - 2
}

func (s *spiralToe) tell(_ *Draft, p *Part) { p.Markers = s.points - 1 }

func (s *spiralToe) declare(d *Draft) {
	foot, all := d.v("foot.stitches"), d.toeStitches(s.points, 5)
	shapings := func(v grade.Values) int { return v.Of(all)/s.points - 2 }
	d.Model.Add(follows("toe.rounds", "rounds of the toe", "rnds",
		func(v grade.Values) int {
			n := 2*shapings(v) + 1
			if v.Of(all) != v.Of(foot) {
				n++
			}
			return n
		},
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "toe-rounds", Text: say("why.toe.spiral", "{0} shaping rounds with a plain one each, and one that places the markers; a round more where the foot is no multiple of {1}", shapings(v), s.points), Terms: []grade.Term{v.Term(all), v.Term(foot)}}
		}))
	d.footLength(0, func(grade.Values) int { return 0 })
}

// winding is so many turns of the spiral over so many places.
type winding struct {
	places int
	times  func(size int) int
}

func (s *spiralToe) build(b *Builder) {
	b.section("Toe")
	count := func(pick func(full, two, one int) int) func(size int) int {
		return func(size int) int { return pick(s.turns(b.of("toe.stitches", size) / s.points)) }
	}
	turns := []winding{
		{s.places, count(func(full, _, _ int) int { return full })},
		{2, count(func(_, two, _ int) int { return two })},
		{1, count(func(_, _, one int) int { return one })},
	}
	p, now := s.points, b.n("toe.stitches")
	sign := -1
	if b.Direction == design.ToeUp {
		slices.Reverse(turns)
		sign, now = 1, pattern.Of(2*p)
		b.ringStart(2 * p)
		b.para(say("toe.spiral.up", "The toe is increased once in each of {0} sections, at a place that comes nearer to the beginning of the section from one increase to the next. Markers show where sections begin, the beginning of the rnd being the first; slip them in the plain rnds.", p))
	} else {
		b.para(say("toe.spiral.intro", "The toe is decreased once in each of {0} sections, at a place that moves 2 sts on from one decrease to the next. Markers show where sections begin, the beginning of the rnd being the first; slip them in the plain rnds. Let sts pass from needle to needle where a decrease lies between two.", p))
		b.changeTo("foot.stitches", "toe.stitches")
	}
	section := b.each(func(size int) int { return int(now.In(size)) / p })
	b.row(pattern.Label{Word: pattern.Round, Name: pattern.SetUp}, nil, times(pattern.Of(p-1), k(section), do(pattern.PlaceMarker)), toEnd(pattern.Knit))
	each := func(begin ...pattern.Step) []pattern.Step {
		one := append(slices.Clone(begin), toMarker(pattern.Knit), do(pattern.SlipMarker))
		return append(append(on(times(pattern.Of(p-1), one...)), begin...), toEnd(pattern.Knit))
	}
	parts := 0
	for _, t := range turns {
		if none := b.each(t.times); none.Is(0) {
			continue
		}
		if parts++; parts > 1 {
			b.section([]string{"Toe, second part", "Toe, third part"}[parts-2])
		}
		before := now
		after := func(rounds func(size int) int) pattern.Number {
			return b.each(func(size int) int { return int(before.In(size)) + sign*p*rounds(size) })
		}
		b.where(func(size int) bool { return t.times(size) > 0 }, func() {
			if t.places > 1 {
				b.para(say("toe.spiral.turn", "In this part the spiral starts again after {0} places.", t.places))
			} else {
				b.para(say("toe.spiral.straight", "In this part there is room for one place only."))
			}
			for i := range t.places {
				at := on(do(pattern.Ssk))
				switch {
				case sign > 0:
					at = on(kN(2*(t.places-i)-1), do(pattern.M1L))
				case i > 0:
					at = on(kN(2*i), do(pattern.Ssk))
				}
				b.row(rnd(2*i+1), changeTotal(sign*p, after(func(int) int { return i + 1 })), each(at...)...)
				b.row(rnd(2*i+2), nil, toEnd(pattern.Knit))
			}
			b.again(pattern.Round, 2*t.places, b.each(func(size int) int { return t.times(size) - 1 }), pattern.Again{
				Total: b.each(func(size int) int { return 2 * t.places * t.times(size) }),
				Count: total(after(func(size int) int { return t.places * t.times(size) }))})
		})
		now = after(func(size int) int { return t.places * t.times(size) })
	}
	b.add(&pattern.DropMarkers{})
	if sign > 0 {
		b.endOfTip()
		return
	}
	b.gather(pattern.Of(2 * p))
}

package sock

import (
	"math"
	"slices"

	"sockwright/internal/design"
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

var (
	toeRate    = choice("rate", "how often the toe is decreased, or increased backwards", "half-then-each", "every-2nd", "graduated", "each")
	toeLeft    = share("left", "share of the foot that is left at the tip", 0.25, 0.15, 0.45)
	toeClosing = choice("closing", "how the toe is closed", "graft", "three-needle", "gather").only(design.CuffDown)
	toeEdge    = steps("edge", "stitches that stand between the shapings of instep and sole at each side", 2, 0, 6, 2)
	toeLeans   = choice("decreases", "how the stitch after the edge is decreased: with ssk, which mirrors k2tog, or with the older slip-knit-pass", "mirrored", "skp").only(design.CuffDown)
	toeGrows   = choice("increases", "how stitches are increased: made of the bar between two, lifted out of the row below, or knit into front and back of one", "made", "lifted", "kfb").only(design.ToeUp)

	wedgeOptions = []Option{toeClosing, toeEdge, toeLeans, toeGrows}
)

var _ = register(Part{Part: "toe", Kind: "wedge", Options: append([]Option{toeRate, toeLeft}, wedgeOptions...), Name: "a wedge toe", Notions: []string{"tapestry needle"}, Default: bothWays, Directions: bothWays, Skills: []string{"decreasing", "grafting"},
	Says: say("toe.wedge.says", "a flat toe, decreased at both sides of instep and sole and grafted; from the toe up increased from a closed start"),
	take: func(d *Draft, t *design.Table) construction {
		return takeWedge(d, t, toeRate.name(t), toeLeft.number(t))
	}})

var _ = register(Part{Part: "toe", Kind: "pointed", Options: wedgeOptions, Name: "a pointed toe", Notions: []string{"tapestry needle"}, Directions: bothWays, Skills: []string{"decreasing", "grafting"},
	Says: say("toe.pointed.says", "a long narrow wedge, decreased in every other round down to an eighth of the foot: for narrow feet and for boots"),
	take: func(d *Draft, t *design.Table) construction { return takeWedge(d, t, "every-2nd", 0.125) }})

var _ = register(Part{Part: "toe", Kind: "square", Options: wedgeOptions, Name: "a square toe", Notions: []string{"tapestry needle"}, Directions: bothWays, Skills: []string{"decreasing", "grafting"},
	Says: say("toe.square.says", "a short blunt wedge, decreased in every round until almost half of the foot is left: for broad toes"),
	take: func(d *Draft, t *design.Table) construction { return takeWedge(d, t, "each", 0.45) }})

// wedgeToe takes four stitches in each decrease round until a share of the foot is left, and
// is closed.
type wedgeToe struct {
	rate    string
	share   float64 // of the foot that is left
	closing string
	edge    int // stitches between the shapings at each side, half of them of the instep
	ssk     pattern.Op
	grows   string
}

// takeWedge takes the options that wedges of all shapes have.
func takeWedge(d *Draft, t *design.Table, rate string, share float64) *wedgeToe {
	w := &wedgeToe{rate: rate, share: share, closing: toeClosing.name(t), edge: toeEdge.whole(t), ssk: pattern.Ssk, grows: toeGrows.name(t)}
	if toeLeans.name(t) == "skp" {
		w.ssk = pattern.Skp
	}
	if d.Direction == design.ToeUp && w.edge == 0 {
		t.Clash(toeEdge.Key, say("toe.edge.none", "a toe from the tip has its increases beside a stitch, or the side is full of holes; none is left here"), "write edge = 2")
	}
	return w
}

// margin is the half of the edge that lies on the instep, or on the sole.
func (w *wedgeToe) margin() []pattern.Step {
	if w.edge == 0 {
		return nil
	}
	return on(kN(w.edge / 2))
}

// lessAfter decreases at the beginning of instep or sole, lessBefore goes on to its end and
// decreases there.
func (w *wedgeToe) lessAfter() []pattern.Step { return append(w.margin(), do(w.ssk)) }
func (w *wedgeToe) lessBefore() []pattern.Step {
	return append(on(toLast(pattern.Knit, w.edge/2+2), do(pattern.K2tog)), w.margin()...)
}

// moreAfter and moreBefore increase there. The second stitch of a kfb is the new one: it lies
// behind the first, so the first kfb is worked in the last stitch of the edge.
func (w *wedgeToe) moreAfter() []pattern.Step {
	switch w.grows {
	case "lifted":
		return append(w.margin(), do(pattern.LiftedR))
	case "kfb":
		if w.edge == 2 {
			return on(do(pattern.Kfb))
		}
		return on(kN(w.edge/2-1), do(pattern.Kfb))
	}
	return append(w.margin(), do(pattern.M1R))
}

func (w *wedgeToe) moreBefore() []pattern.Step {
	switch w.grows {
	case "lifted":
		return append(on(toLast(pattern.Knit, w.edge/2), do(pattern.LiftedL)), w.margin()...)
	case "kfb":
		return append(on(toLast(pattern.Knit, w.edge/2+1), do(pattern.Kfb)), w.margin()...)
	}
	return append(on(toLast(pattern.Knit, w.edge/2), do(pattern.M1L)), w.margin()...)
}

// fewest and most are how many stitches can be left at the tip. In the last decrease round
// instep and sole still hold two decreases and their halves of the edge.
func (w *wedgeToe) fewest() int { return max(8, 2*w.edge+4) }
func (w *wedgeToe) most() int {
	if w.closing == "gather" {
		return 12
	}
	return math.MaxInt32
}

// closingRounds is how many rounds the closing of a toe adds: a graft is a row of knitting.
func closingRounds(closing string) int {
	if closing == "graft" {
		return 1
	}
	return 0
}

// plainAfter is how many plain rounds follow each of d decrease rounds that take a foot of
// n stitches down. None follow the last: the graft does.
//
// Rates: "every-2nd" has one plain round each time; "half-then-each" has one until at most
// half of the stitches are left, then none; "graduated" has 3, 2, 2, 1, 1, 1, then none
// (as in a 1939 field-comforts leaflet); "each" has none at all (all common practice).
func plainAfter(rate string, n, d int) []int {
	plain := make([]int, max(0, d))
	for i := range plain[:max(0, d-1)] {
		switch rate {
		case "every-2nd":
			plain[i] = 1
		case "half-then-each":
			if n-4*i > n/2 {
				plain[i] = 1
			}
		case "graduated":
			if rates := []int{3, 2, 2, 1, 1, 1}; i < len(rates) {
				plain[i] = rates[i]
			}
		}
	}
	return plain
}

func toeRounds(rate string, n, d int) int {
	sum := d
	for _, p := range plainAfter(rate, n, d) {
		sum += p
	}
	return sum
}

// tell leaves grafting out where the toe is closed otherwise.
func (w *wedgeToe) tell(_ *Draft, p *Part) {
	if w.closing != "graft" {
		p.Skills = slices.DeleteFunc(p.Skills, func(s string) bool { return s == "grafting" })
	}
}

func (w *wedgeToe) declare(d *Draft) {
	foot := d.v("foot.stitches")
	left := d.Model.Add(grade.Var{
		Key: "toe.stitches_left", Label: "stitches left at the tip", Unit: "sts",
		Target: func(v grade.Values) float64 {
			return min(max(w.share*float64(v.Of(foot)), float64(w.fewest())), float64(w.most()))
		},
		Scale: d.stitchWidth, Reach: 8, Level: proportions,
		Rules: []grade.Rule{
			rule("toe-fours", "each decrease round of the toe takes 4 stitches, so a multiple of 4 goes", func(v grade.Values, n int) bool { return (v.Of(foot)-n)%4 == 0 }),
			rule("toe-fewest", "at least 8 stitches are left at the tip, at least 4 more than twice the edge, and at least 4 are decreased", func(v grade.Values, n int) bool { return n >= w.fewest() && n <= v.Of(foot)-4 }),
			rule("toe-gather", "at most 12 stitches are drawn together: more leave a hole", func(_ grade.Values, n int) bool { return n <= w.most() }),
		},
		Why: func(v grade.Values) grade.Reason {
			r := grade.Reason{Rule: "toe-share", Text: say("why.toe.left", "{0} % of {1} stitches is {2}; what goes is a multiple of 4", whole(w.share*100), v.Of(foot), whole(w.share*float64(v.Of(foot)))), Terms: []grade.Term{v.Term(foot), {Key: "toe.left", Value: w.share}}}
			if w.closing == "gather" {
				r.Text = say("why.toe.left.gather", "{0} % of {1} stitches is {2}, but no more than 12 can be drawn together; what goes is a multiple of 4", whole(w.share*100), v.Of(foot), whole(w.share*float64(v.Of(foot))))
			}
			return r
		},
	})
	d.Model.Add(follows("toe.rounds", "rounds of the toe", "rnds",
		func(v grade.Values) int {
			n := toeRounds(w.rate, v.Of(foot), (v.Of(foot)-v.Of(left))/4)
			if d.Direction == design.ToeUp {
				n++ // the plain round over the stitches cast on
			}
			return n
		},
		func(v grade.Values) grade.Reason {
			n := (v.Of(foot) - v.Of(left)) / 4
			r := grade.Reason{Rule: "toe-rate", Text: say("why.toe.rounds", "({0} − {1}) / 4 = {2} decrease rounds, with plain rounds between them by the rate “{3}”", v.Of(foot), v.Of(left), n, w.rate), Terms: []grade.Term{v.Term(foot), v.Term(left)}}
			if d.Direction == design.ToeUp {
				r.Text = say("why.toe.rounds.up", "({0} − {1}) / 4 = {2} increase rounds, with plain rounds between them by the rate “{3}” backwards, and one round before them", v.Of(foot), v.Of(left), n, w.rate)
			}
			return r
		}))
	if d.Direction == design.ToeUp {
		d.footLength(1, func(grade.Values) int { return 0 })
		return
	}
	d.footLength(closingRounds(w.closing), func(v grade.Values) int { return d.roundOfToe(d.moved(v)) })
}

// moved is how many stitches go from each end of the sole to the instep before the toe, so
// that both hold half of the foot (negative: the other way).
func (d *Draft) moved(v grade.Values) int {
	foot := v.Of(d.v("foot.stitches"))
	sole := foot - (v.Of(d.v("leg.stitches")) - v.Of(d.v("heel.stitches")))
	return (sole - foot/2) / 2
}

func (b *Builder) moved(size int) int { return b.Draft.moved(b.plan.At(size)) }

// roundOfToe is 1 where the last round of the foot is told by the toe, because the round must
// begin some stitches earlier from there on.
func (d *Draft) roundOfToe(moved int) int {
	if d.footBegins() != pattern.CentreOfSole && moved > 0 {
		return 1
	}
	return 0
}

func (w *wedgeToe) build(b *Builder) {
	b.section("Toe")
	if b.Direction == design.ToeUp {
		w.fromTip(b)
		return
	}
	half := b.each(func(size int) int { return b.of("foot.stitches", size) / 2 })
	b.evenOut(half)

	side := b.footBegins() != pattern.CentreOfSole
	first := func(c *pattern.Count) {
		if side {
			both := slices.Concat(w.lessAfter(), w.lessBefore())
			b.needles(rnd(1), c, both, both)
			return
		}
		b.needles(rnd(1), c,
			w.lessBefore(), slices.Concat(w.lessAfter(), w.lessBefore()), append(w.lessAfter(), toEnd(pattern.Knit)))
	}
	b.where(func(size int) bool { return w.decreases(b, size) > 1 }, func() {
		first(change(-4))
		w.rounds(b)
	})
	b.where(func(size int) bool { return w.decreases(b, size) == 1 }, func() { first(w.after(b)) })
	w.close(b, side)
}

// fromTip works the toe upwards: the rate of a toe that is decreased, read backwards.
func (w *wedgeToe) fromTip(b *Builder) {
	half := b.each(func(size int) int { return b.of("toe.stitches_left", size) / 2 })
	b.closedStart(b.n("toe.stitches_left"), half)
	b.row(rnd(1), nil, toEnd(pattern.Knit))
	both := slices.Concat(w.moreAfter(), w.moreBefore())
	b.needles(rnd(2), changeTotal(4, b.each(func(size int) int { return b.of("toe.stitches_left", size) + 4 })), both, both)

	all := func(size int) int { return w.decreases(b, size) }
	plain := func(size, i int) int { // before the last increase round but i
		if i >= all(size) {
			return 0
		}
		return plainAfter(w.rate, b.of("foot.stitches", size), all(size))[i]
	}
	spaced := func(size int) int { // increase rounds that plain rounds come before
		n := 0
		for plain(size, n) > 0 {
			n++
		}
		return n
	}
	after := func(spacedLeft func(size int) int) pattern.Number {
		return b.each(func(size int) int { return b.of("foot.stitches", size) - 4*spacedLeft(size) })
	}
	full := func() *pattern.Count {
		half := b.each(func(size int) int { return b.of("foot.stitches", size) / 2 })
		return total(b.n("foot.stitches"), half, half)
	}
	close := b.each(func(size int) int { return all(size) - spaced(size) - 1 })
	if w.rate == "each" {
		b.oneMore(rnd(2), close, pattern.Again{Total: b.n("toe.rounds"), Count: full()})
		return
	}
	b.oneMore(rnd(2), close, pattern.Again{Count: total(after(spaced))})
	if w.rate != "graduated" {
		b.where(func(size int) bool { return spaced(size) > 0 }, func() {
			b.row(rnd(3), nil, toEnd(pattern.Knit))
			b.needles(rnd(4), change(4), both, both)
			b.again(pattern.Round, 2, b.each(func(size int) int { return spaced(size) - 1 }), pattern.Again{Total: b.n("toe.rounds"), Count: full()})
		})
	} else {
		for i := 5; i >= 0; i-- {
			b.where(func(size int) bool { return i < spaced(size) }, func() {
				b.add(&pattern.Plain{Op: pattern.Knit, Rounds: b.each(func(size int) int { return plain(size, i) })})
				a := pattern.Again{Count: total(after(func(int) int { return i }))}
				if i == 0 {
					a = pattern.Again{Total: b.n("toe.rounds"), Count: full()}
				}
				b.oneMore(rnd(2), pattern.Of(1), a)
			})
		}
	}
}

// closedStart casts on for a toe that has no seam.
func (b *Builder) closedStart(all, half pattern.Number) {
	b.para(say("toe.start.how", "A closed start has live sts on both sides. Hold two needles one above the other in the {left} hand, points to the {right}, and put a slip knot on the lower one. Take the yarn behind both needles, up and over the upper one to the front, down and under the lower one to the back, and so round and round towards the points, until {0} loops lie on each, the slip knot being one. The last loop goes over the upper needle; then pass the yarn between the two to the back.", half))
	b.para(say("toe.start.first", "In Rnd 1 the upper needle, N1, is knit first: draw the lower one to the {right} until its loops lie well away from the point, and knit the {0} loops of the upper one. Then rotate the work so that the lower needle, N2, comes up, and knit its {0} loops. If the loops of a needle hang the wrong way round, with the {right} leg behind, knit that needle through the back loops in Rnd 1.", half))
	switch b.Method {
	case design.DoublePointed:
		b.para(say("toe.start.dpn", "N1 is the sole and N2 the instep. Each may lie on two double-pointed needles once there is room: read both as one."))
	default:
		b.para(say("toe.start.two", "N1 is the sole and N2 the instep."))
	}
	b.add(&pattern.CastOn{Form: pattern.Closed, Stitches: all, Begin: b.roundsBegin()})
	b.add(&pattern.Arrange{Split: []pattern.Number{half, half}})
}

// decreases is how many decrease rounds the toe has.
func (w *wedgeToe) decreases(b *Builder, size int) int {
	return (b.of("foot.stitches", size) - b.of("toe.stitches_left", size)) / 4
}

// evenOut moves stitches between instep and sole where they are not equal.
func (b *Builder) evenOut(half pattern.Number) {
	b.where(func(size int) bool { return b.moved(size) != 0 }, func() {
		if b.footBegins() == pattern.CentreOfSole {
			b.moveNeedles()
			return
		}
		b.moveBegin()
		b.add(&pattern.Arrange{Split: []pattern.Number{b.here(half), b.here(half)}})
	})
}

// moveNeedles evens out a foot whose rounds begin at the center of the sole: stitches go from
// needle to needle, and the round begins where it did.
func (b *Builder) moveNeedles() {
	b.where(func(size int) bool { return b.moved(size) > 0 }, func() {
		b.para(say("toe.even.to-instep", "Instep and sole must be equal for the toe: N2 takes sts from the end of N1 and from the beginning of N3, {0} from each.", b.each(b.moved)))
	})
	b.where(func(size int) bool { return b.moved(size) < 0 }, func() {
		b.para(say("toe.even.to-sole", "Instep and sole must be equal for the toe: N2 gives sts from its beginning to N1 and from its end to N3, {0} to each.", b.each(func(size int) int { return -b.moved(size) })))
	})
	half := func(size int) int { return b.of("foot.stitches", size) / 2 }
	b.add(&pattern.Arrange{Split: []pattern.Number{
		b.each(func(size int) int { return half(size) - half(size)/2 }), b.each(half), b.each(func(size int) int { return half(size) / 2 })}})
}

// moveBegin evens out a foot whose rounds begin at the side: the round begins earlier or later.
func (b *Builder) moveBegin() {
	b.where(func(size int) bool { return b.moved(size) > 0 }, func() {
		b.para(say("toe.even.earlier", "Instep and sole must be equal for the toe, so the rnd begins a little earlier from now on. The next rnd, which stops there, is the last of the foot."))
		b.row(pattern.Label{Word: pattern.Round, Name: pattern.Partial}, nil,
			pattern.Step{Op: pattern.Knit, Until: pattern.ToLast, N: b.each(b.moved)})
	})
	b.where(func(size int) bool { return b.moved(size) < 0 }, func() {
		b.para(say("toe.even.later", "Instep and sole must be equal for the toe, so the rnd begins a little later from now on."))
		b.row(pattern.Label{Word: pattern.Round, Name: pattern.Partial}, nil, k(b.each(func(size int) int { return -b.moved(size) })))
	})
	b.add(&pattern.Begin{Place: pattern.SideOfInstep})
}

// rounds repeats the decrease round by the rate, where there is more than one.
func (w *wedgeToe) rounds(b *Builder) {
	decreases := func(size int) int { return w.decreases(b, size) }
	plain := func(size, i int) int {
		if i >= decreases(size) {
			return 0
		}
		return plainAfter(w.rate, b.of("foot.stitches", size), decreases(size))[i]
	}
	if w.rate == "graduated" {
		w.graduated(b, decreases, plain)
		return
	}
	pairs := func(size int) int { // decrease rounds that a plain round follows
		n := 0
		for plain(size, n) > 0 {
			n++
		}
		return n
	}
	left := func(size, done int) int { return b.of("foot.stitches", size) - 4*done }
	if w.rate == "each" {
		b.oneMore(rnd(1), b.each(func(size int) int { return decreases(size) - 1 }), pattern.Again{Total: b.n("toe.rounds"), Count: w.after(b)})
		return
	}
	b.row(rnd(2), nil, toEnd(pattern.Knit))
	b.again(pattern.Round, 2, b.each(func(size int) int { return pairs(size) - 1 }), pattern.Again{
		Count: total(b.each(func(size int) int { return left(size, pairs(size)) }))})
	b.oneMore(rnd(1), b.each(func(size int) int { return decreases(size) - pairs(size) }), pattern.Again{
		Total: b.n("toe.rounds"), Count: w.after(b)})
}

// graduated writes the decrease rounds with ever fewer plain rounds between.
func (w *wedgeToe) graduated(b *Builder, decreases func(size int) int, plain func(size, i int) int) {
	last := 1 // decrease rounds written one by one
	for i := 0; i < 6; i++ {
		once := func(a pattern.Again) {
			b.add(&pattern.Plain{Op: pattern.Knit, Rounds: b.each(func(size int) int { return plain(size, i) })})
			b.oneMore(rnd(1), pattern.Of(1), a)
		}
		last = i + 2
		b.where(func(size int) bool { return decreases(size) > last }, func() {
			once(pattern.Again{Count: total(b.each(func(size int) int { return b.of("foot.stitches", size) - 4*last }))})
		})
		b.where(func(size int) bool { return decreases(size) == last }, func() { once(pattern.Again{Total: b.n("toe.rounds"), Count: w.after(b)}) })
	}
	b.where(func(size int) bool { return decreases(size) > last }, func() {
		b.oneMore(rnd(1), b.each(func(size int) int { return decreases(size) - last }), pattern.Again{Total: b.n("toe.rounds"), Count: w.after(b)})
	})
}

// after is what is on the needles when the toe is done.
func (w *wedgeToe) after(b *Builder) *pattern.Count {
	left := b.n("toe.stitches_left")
	half := b.each(func(size int) int { return b.of("toe.stitches_left", size) / 2 })
	if b.footBegins() != pattern.CentreOfSole {
		return total(left, half, half)
	}
	// N1 and N3 lose the same number: with an odd half the first keeps one more.
	return total(left, b.each(func(size int) int { return int(half.In(size)) - int(half.In(size))/2 }), half, b.each(func(size int) int { return int(half.In(size)) / 2 }))
}

func (w *wedgeToe) close(b *Builder, side bool) {
	half := b.each(func(size int) int { return b.of("toe.stitches_left", size) / 2 })
	switch w.closing {
	case "gather":
		b.gather(b.n("toe.stitches_left"))
	case "three-needle":
		b.toSide(side)
		b.para(say("toe.three-needle", "Three-needle bind-off: pull the sock inside out and hold the two needles side by side. Knit the first st of each needle together; knit the next two together, and pass the first st over the second. Repeat to the end and fasten off."))
		b.add(&pattern.Join{How: pattern.BoundOff, Front: half, Back: half})
	default:
		b.toSide(side)
		hold := instepInFront
		if !side {
			hold = "the instep (N2) in front and the sole behind"
		}
		b.graftToe(half, hold)
	}
}

// instepInFront is how the toe is held where the round begins before the instep.
const instepInFront = "the instep (N1) in front and the sole (N2) behind"

// graftToe closes a toe of two halves, held so.
func (b *Builder) graftToe(half pattern.Number, hold string) {
	b.para(say("toe.graft.hold", "Break the yarn, leaving about 12 in [30 cm], and thread it into a tapestry needle. Hold the two needles side by side, wrong sides together, {0}: the yarn comes from the {right} end of the back needle.", hold))
	b.graft(&pattern.Join{Front: half, Back: half})
}

// gather closes what is left by drawing the yarn through it.
func (b *Builder) gather(left pattern.Number) {
	b.para(say("toe.gather", "Break the yarn, leaving about 8 in [20 cm], and thread it into a tapestry needle."))
	b.add(&pattern.Gather{Stitches: left})
	b.para(say("toe.gather.end", "Fasten the end on the inside."))
}

// toSide brings the yarn to the side of the sock and the stitches onto two needles, for a toe
// that is closed by joining instep and sole. side tells whether the round begins there.
func (b *Builder) toSide(side bool) {
	if side {
		switch b.Method {
		case design.MagicLoop:
			b.para(say("toe.side.loop", "The yarn hangs at the side; the two needle tips are the two needles of what follows."))
		case design.DoublePointed:
			b.para(say("toe.side.dpn", "The yarn hangs at the side. If instep or sole lies on two needles, slip its sts onto one."))
		default:
			b.para(say("toe.side", "The yarn hangs at the side."))
		}
		return
	}
	b.needles(pattern.Label{Word: pattern.Round, Name: pattern.Partial}, nil, on(toEnd(pattern.Knit)))
	b.para(say("toe.side.sole", "This brings the yarn from the middle of the sole to the side. Slip the sts of N3 to the other end of N1, away from the yarn, so that one needle holds the sole; if N2 lies on two needles, slip its sts onto one."))
}

// graft joins two sides as a row of knitting, and tells how the first time.
func (b *Builder) graft(j *pattern.Join) {
	b.add(j)
	b.howToGraft()
}

// howToGraft tells the steps of grafting, the first time in full.
func (b *Builder) howToGraft() {
	if b.graftTold {
		b.para(say("graft.as-before", "Graft in the same four steps as before."))
		return
	}
	b.graftTold = true
	for _, m := range graftingSteps {
		b.para(m)
	}
}

// graftingSteps tells how to graft stockinette (common practice).
var graftingSteps = []source.Message{
	say("graft.begin", "Step 1, once: go into the first st in front as if to purl and leave it on the needle; go into the first st behind as if to knit and leave it on."),
	say("graft.front", "Step 2, in front: go into the first st as if to knit and slip it off; go into the next as if to purl and leave it on."),
	say("graft.back", "Step 3, behind: go into the first st as if to purl and slip it off; go into the next as if to knit and leave it on."),
	say("graft.go-on", "Repeat steps 2 and 3 until 1 st is left on each needle; draw the yarn up to the size of the other sts as you go."),
	say("graft.end", "Step 4, once: go into the st in front as if to knit and slip it off; go into the st behind as if to purl and slip it off."),
}

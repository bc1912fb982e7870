package sock

import (
	"sockwright/internal/design"
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
)

var (
	commonShaping = wholeNumber("shaping", "decrease rows in the middle of the flap before it is joined; without any the fold has ears", 4, 0, 8)
	commonClosing = choice("closing", "how the halves of the flap are joined", "graft", "bind-off")
)

// commonHeight is how many rows the flap has to a heel stitch, its shaping included: as many
// as heel stitches would leave hardly anything to decrease (common practice; an eighth more
// for 32 stitches is 36 rows).
const commonHeight = 1.125

var _ = register(Part{Part: "heel", Kind: "common", Name: "a common heel", Directions: cuffDown, Gussets: []string{"instep"},
	Options: append(flapOptions(commonHeight), commonShaping, commonClosing), Notions: []string{"2 locking markers", "tapestry needle"}, Skills: []string{"slipping sts", "decreasing", "grafting"},
	Says: say("heel.common.says", "common heel: a long flap, folded and joined in the middle; the oldest heel, with a seam under the foot"),
	How:  say("heel.common.opening", "The heel is a long flap whose two halves are joined to each other: the fold is the back of the heel, and the seam lies under the foot. It is not turned, and there are no short rows."),
	take: func(d *Draft, t *design.Table) construction {
		return &commonHeel{flap: takeFlap(d, t, commonHeight), shaping: commonShaping.whole(t), boundOff: commonClosing.name(t) == "bind-off"}
	}})

// commonHeel is a flap joined in the middle (Encyclopedia of Needlework, D.M.C., 1886). In
// its last t right-side rows two stitches are decreased beside the center, so that the fold
// rounds. Nothing is left of it: R / 2 stitches are picked up along each edge, seam to leg.
type commonHeel struct {
	flap
	shaping  int // t
	boundOff bool
}

func (h *commonHeel) declare(d *Draft) {
	g := d.Gauge[""]
	heel, straight := h.flap.declare(d, 2*(h.shaping+4), 2*h.shaping, "a common heel")
	heel.Rules = append(heel.Rules, rule("common-even", "the two halves of a common heel are joined, so it has an even number of stitches, and the round a multiple of 4", func(_ grade.Values, n int) bool { return n%2 == 0 }))
	joined := d.Model.Add(follows("heel.joined_stitches", "stitches of each half that are joined", "sts",
		func(v grade.Values) int { return v.Of(heel)/2 - h.shaping },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "common-half", Text: say("why.common.joined", "half of {0}, less one for each of {1} decrease rows", v.Of(heel), h.shaping), Terms: []grade.Term{v.Term(heel)}}
		}))
	d.Model.Add(follows("heel.stitches_left", "stitches of the heel when it is joined", "sts",
		func(grade.Values) int { return 0 },
		func(grade.Values) grade.Reason {
			return grade.Reason{Rule: "common-left", Text: say("why.common.left", "all are joined")}
		}))
	d.Model.Add(follows("heel.sole_rounds", "length of the heel under the foot, in rounds", "rnds",
		func(v grade.Values) int { return int(g.RowsIn(g.Width(v.Of(joined))) + 0.5) },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "common-under", Text: say("why.common.under", "the seam of {0} stitches lies under the heel; its length in rounds", v.Of(joined)), Terms: []grade.Term{v.Term(joined)}}
		}))
	h.edges(d, func(v grade.Values) int { return v.Of(straight) + 2*h.shaping })
	d.heelEdge.worked = false // the topmost stitches go into the seam
}

func (h *commonHeel) build(b *Builder) {
	h.flap.build(b)
	half := func(size int) int { return b.of("heel.stitches", size) / 2 }
	if h.shaping > 0 {
		b.section("Heel shaping")
		b.para(say("heel.common.shaping", "The middle of the flap is rounded: in each RS row 1 st is decreased on each side of the 2 sts in the middle."))
		lead := func(n func(size int) int) []pattern.Step { // the edge stitch, and what follows it
			if h.slipped {
				return on(sl1(), k(b.each(func(size int) int { return n(size) - 1 })))
			}
			return on(k(b.each(n)))
		}
		back := on(toEnd(pattern.Purl))
		if h.slipped {
			back = on(sl1(), toEnd(pattern.Purl))
		}
		for j := range h.shaping {
			left := b.each(func(size int) int { return 2 * (half(size) - j - 1) })
			b.row(row(2*j+1, pattern.RS), total(left),
				append(lead(func(size int) int { return half(size) - j - 3 }), do(pattern.K2tog), kN(2), do(pattern.Ssk), toEnd(pattern.Knit))...)
			b.row(row(2*j+2, pattern.WS), nil, back...)
		}
		b.para(say("heel.common.rows", "With the straight rows the flap has {0} rows.", b.each(func(size int) int { return b.of("heel.flap_rows", size) + 2*h.shaping })))
	}
	b.section("Heel seam")
	joined := b.n("heel.joined_stitches")
	if h.boundOff {
		b.para(say("heel.common.fold.off", "Fold the heel in half, right sides together, with the first {0} sts on one needle and the last {0} on another: the edges of the flap lie together at the {right}, and the yarn comes from there. With a third needle knit the first st of each needle together; then knit the next two together and pass the first st over the second, to the end. Fasten off. The ridge lies on the inside.", joined))
		b.add(&pattern.Join{How: pattern.BoundOff, Heel: true, Front: joined, Back: joined})
		return
	}
	b.para(say("heel.common.fold", "Break the yarn, leaving about 16 in [40 cm], and thread it into a tapestry needle. Fold the heel in half, wrong sides together, with the first {0} sts on the needle in front and the last {0} on another behind: the edges of the flap lie together at the {right}, and the yarn comes from there.", joined))
	b.graft(&pattern.Join{Heel: true, Front: joined, Back: joined})
}

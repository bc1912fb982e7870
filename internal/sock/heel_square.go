package sock

import (
	"fmt"
	"sockwright/internal/design"
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
)

var (
	squareForm   = choice("form", "where the decreases of the turn lie: on the band's outermost stitches, or beside them", "plain", "outside-joint")
	squareMiddle = share("middle", "share of the heel that is the band under it", 1.0/3, 0.2, 0.67)
)

var _ = register(Part{Part: "heel", Kind: "square", Name: "a square heel", Directions: cuffDown, Gussets: []string{"instep", "sole", oneSided},
	Options: append(flapOptions(1), squareForm, squareMiddle), Notions: []string{"2 locking markers"}, Skills: []string{"slipping sts", "short rows", "decreasing"},
	Says: say("heel.square.says", "square heel: a flap, and a band of constant width under the heel; a square cup, a deep heel and a small gusset"),
	How:  say("heel.square.opening", "The heel begins with a flap that covers the back of the heel. Then it is turned: a band in the middle goes on under the heel, and each of its rows joins it to a stitch of the flap beside it."),
	take: func(d *Draft, t *design.Table) construction {
		return &squareHeel{flap: takeFlap(d, t, 1), squareTurn: squareTurn{outside: squareForm.name(t) == "outside-joint"}, middle: squareMiddle.number(t)}
	}})

// A squareTurn works a band of c stitches over and over, and joins one of the s stitches at
// each side to it in each row. Plain, the outermost stitch of the band is the joint, and H − c
// rows leave the band alone. With the joint outside, two stitches beside the band become the
// first joint, and H − c − 2 rows leave the band and a joint on each side.
type squareTurn struct {
	outside bool
}

// inRows is how many rows take n stitches to a band of c and its joints.
func (t squareTurn) inRows(n, c int) int {
	if t.outside {
		return n - c - 2
	}
	return n - c
}

// write writes the turn over stitches in each size, for a band.
func (t squareTurn) write(b *Builder, stitches, band func(size int) int) {
	inside := func(size int) int { return band(size) - 2 } // the slipped stitch and the decrease
	side := func(size int) int { return (stitches(size) - band(size)) / 2 }
	first := b.each(func(size int) int { return inside(size) + side(size) })
	if t.outside {
		inside = band
		first = b.each(func(size int) int { return band(size) + side(size) - 1 })
	}
	after := func(n int) *pattern.Count {
		return total(b.each(func(size int) int { return stitches(size) - n }))
	}
	n := b.each(inside)
	b.row(row(1, pattern.RS), after(1), sl1(), k(first), do(pattern.Ssk), turn(pattern.NotTurned))
	b.row(row(2, pattern.WS), after(2), sl1(), p(n), do(pattern.P2tog), turn(pattern.NotTurned))
	b.taking(on(sl1(), k(n), do(pattern.Ssk), turn(pattern.NotTurned)), on(sl1(), p(n), do(pattern.P2tog), turn(pattern.NotTurned)),
		func(size int) int { return stitches(size) - 2 }, func(size int) int { return t.inRows(stitches(size), band(size))/2 - 1 })
}

type squareHeel struct {
	flap
	squareTurn
	middle float64 // share of the heel that is the band
}

func (h *squareHeel) declare(d *Draft) {
	heel, flapRows := h.flap.declare(d, 8, 0, "a square heel")
	fewest := 3
	if h.outside {
		fewest = 2
	}
	band := d.middleOfHeel(heel, h.middle, "heel.band_stitches", "stitches of the band",
		evenSides("band-parity", "the band is odd or even as the heel is, so that its two sides are equal", heel),
		rule("square-sides", fmt.Sprintf("the band has at least %d stitches, and at least 2 at each side of it", fewest), func(v grade.Values, n int) bool { return n >= fewest && v.Of(heel)-n >= 4 }))
	rows := d.Model.Add(follows("heel.turn_rows", "rows of the turn", "rows",
		func(v grade.Values) int { return h.inRows(v.Of(heel), v.Of(band)) },
		func(v grade.Values) grade.Reason {
			r := grade.Reason{Rule: "square-rows", Text: say("why.square.rows", "one for each of {0} − {1} stitches beside the band", v.Of(heel), v.Of(band)), Terms: []grade.Term{v.Term(heel), v.Term(band)}}
			if h.outside {
				r.Text = say("why.square.rows.outside", "one for each of {0} − {1} stitches beside the band, but for the two that stay as joints", v.Of(heel), v.Of(band))
			}
			return r
		}))
	d.turned(heel, rows)
	h.edges(d, func(v grade.Values) int { return v.Of(flapRows) })
}

func (h *squareHeel) build(b *Builder) {
	h.flap.build(b)
	b.section("Heel turn")
	band := func(size int) int { return b.of("heel.band_stitches", size) }
	b.para(say("heel.square.intro", "The turn is worked in short rows over a band, the {0} sts in the middle: each row ends with a decrease that joins the band to the sts waiting beside it, and is turned there. From Row 2 on the slipped first st is the decrease of the row before.", b.each(band)))
	if h.outside {
		b.para(say("heel.square.outside", "The decreases lie beside the band, so that it keeps its {0} sts between them.", b.each(band)))
	} else {
		b.para(say("heel.square.plain", "The decreases are the outermost sts of the band itself, so the slipped st is one of its {0}.", b.each(band)))
	}
	h.write(b, func(size int) int { return b.of("heel.stitches", size) }, band)
	b.turnDone()
}

package sock

import (
	"sockwright/internal/design"
	"sockwright/internal/feet"
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
	"sockwright/internal/unit"
)

var bandWidth = length("band", "width of the band; by the length of the foot where nothing is said", 5, 100)

var _ = register(Part{Part: "heel", Kind: "band", Options: []Option{heelShare, bandWidth}, Notions: []string{"2 stitch markers", "2 locking markers"}, Name: "a band heel", Gussets: []string{"instep"}, Default: cuffDown, Directions: cuffDown,
	Skills: []string{"slipping sts", "decreasing"},
	How:    say("heel.band.opening", "The heel begins with a straight flap; then every row loses one st beside a narrow band in the middle, until only the band and 1 st on each side of it are left. There is no heel turn, and there are no short rows."),
	Says:   say("heel.band.says", "band heel: a narrow band runs unbroken from the back of the heel under the sole, with a decrease beside it in every row"),
	take: func(d *Draft, t *design.Table) construction {
		h := &bandHeel{share: heelShare.number(t)}
		for i := range d.Sizes {
			width, why := feet.BandWidthRule(d.Sizes[i].BandFoot)
			h.width, h.why = append(h.width, width), append(h.why, why)
		}
		if t.Has("band") {
			h.width = bandWidth.lengths(t, d, func(i int) unit.Length { return h.width[i] })
			for i := range h.why {
				h.why[i] = "the band width that the design asks for"
			}
		}
		return h
	}})

// bandHeel is a band heel whose rows are all worked to their end: a straight flap, then a
// row for each stitch that goes, left and right of the band by turns, until one stitch is
// left beyond each side of it.
//
// Counts: row i of the band leaves H - i stitches; with s stitches at each side at first,
// 2(s - 1) rows leave 1, the band, 1. The first stitch of every row is slipped, so that two
// rows make one chain to pick up along each edge.
type bandHeel struct {
	share float64       // of the round
	width []unit.Length // of the band, by size
	why   []string
}

func (h *bandHeel) declare(d *Draft) {
	g := d.Gauge[""]
	heel := d.heelStitches(h.share, 6, "a band heel")
	flap := d.Model.Add(grade.Var{
		Key: "heel.flap_rows", Label: "rows of the straight flap", Unit: "rows",
		Target: func(v grade.Values) float64 { return float64(v.Of(heel)) / 2 },
		Scale:  d.roundHeight, Reach: 3, Level: proportions,
		Rules: []grade.Rule{rule("flap-even", "the flap has an even number of rows, so that it ends after a WS row", func(_ grade.Values, n int) bool { return n >= 2 && n%2 == 0 })},
		Why: func(v grade.Values) grade.Reason {
			half := float64(v.Of(heel)) / 2
			r := grade.Reason{Rule: "flap-even", Terms: []grade.Term{v.Term(heel)},
				Text: say("why.flap.exact", "half of {0} heel stitches", v.Of(heel))}
			if half != float64(int(half)) || int(half)%2 != 0 {
				r.Text = say("why.flap", "half of {0} heel stitches is {1}; even, so that the flap ends after a WS row", v.Of(heel), whole(half))
			}
			return r
		},
	})
	band := d.Model.Add(grade.Var{
		Key: "heel.band_stitches", Label: "stitches of the band", Unit: "sts",
		Target: func(v grade.Values) float64 { return g.StitchesIn(h.width[v.Size]) },
		Scale:  d.stitchWidth, Reach: 60, Level: proportions,
		Rules: []grade.Rule{
			rule("band-parity", "the band is odd or even as the heel is, so that its two sides are equal", func(v grade.Values, n int) bool { return (v.Of(heel)-n)%2 == 0 }),
			rule("band-sides", "the band has at least 2 stitches, and at least 2 at each side of it", func(v grade.Values, n int) bool { return n >= 2 && v.Of(heel)-n >= 4 }),
		},
		Why: func(v grade.Values) grade.Reason {
			w := h.width[v.Size]
			parity := "even"
			if v.Of(heel)%2 != 0 {
				parity = "odd"
			}
			return grade.Reason{Rule: "band-width",
				Text: say("why.band", "{0} ({1}) at {2} stitches to 10 cm is {3}; {4}, because {5} heel stitches are {4} and the sides must be equal",
					w.String(), h.why[v.Size], whole(g.Stitches*100), whole(g.StitchesIn(w)), parity, v.Of(heel)),
				Terms: []grade.Term{{Key: "heel.band_width", Value: w.MM(), Unit: "mm", Source: "common practice"}, {Key: "gauge.stitches", Value: g.Stitches * 100, Unit: "sts per 10 cm"}, v.Term(heel)}}
		},
	})
	side := d.Model.Add(follows("heel.side_stitches", "stitches at each side of the band", "sts",
		func(v grade.Values) int { return (v.Of(heel) - v.Of(band)) / 2 },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "sides-equal", Text: say("why.side", "({0} − {1}) / 2", v.Of(heel), v.Of(band)), Terms: []grade.Term{v.Term(heel), v.Term(band)}}
		}))
	rows := d.Model.Add(follows("heel.band_rows", "rows of the band", "rows",
		func(v grade.Values) int { return 2 * (v.Of(side) - 1) },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "band-rows", Text: say("why.band.rows", "each row takes one stitch, and {0} of {1} go on each side: 2 × {0}", v.Of(side)-1, v.Of(side)), Terms: []grade.Term{v.Term(side)}}
		}))
	d.Model.Add(follows("heel.stitches_left", "stitches left when the band is done", "sts",
		func(v grade.Values) int { return v.Of(band) + 2 },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "band-left", Text: say("why.left", "the {0} stitches of the band and one beyond each side of it", v.Of(band)), Terms: []grade.Term{v.Term(band)}}
		}))
	d.Model.Add(follows("heel.edge_chains", "chains along each edge of the heel", "sts",
		func(v grade.Values) int { return (v.Of(flap) + v.Of(rows)) / 2 },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "edge-chains", Text: say("why.chains", "one for each two of {0} + {1} rows, since the first stitch of every row is slipped", v.Of(flap), v.Of(rows)), Terms: []grade.Term{v.Term(flap), v.Term(rows)}}
		}))
	d.heelEdge = heelEdge{rows: func(v grade.Values) int { return v.Of(flap) + v.Of(rows) }}
	flapGauge := d.GaugeOf("flap")
	d.Model.Add(follows("heel.sole_rounds", "length of the heel under the foot, in rounds", "rnds",
		func(v grade.Values) int {
			under := max(0, v.Of(flap)+v.Of(rows)-v.Of(heel))
			return int(g.RowsIn(flapGauge.Height(under)) + 0.5)
		},
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "heel-under", Text: say("why.under", "of {0} + {1} rows, {2} (as many as heel stitches, the height of an ordinary flap) stand behind the heel; the rest lies under the foot", v.Of(flap), v.Of(rows), v.Of(heel)), Terms: []grade.Term{v.Term(flap), v.Term(rows), v.Term(heel)}}
		}))
	d.measure("heel.band_width", "band, width", func(size int) unit.Length { return h.width[size] }, func(v grade.Values) unit.Length { return g.Width(v.Of(band)) })
	d.measure("heel.depth", "heel, flap and band", nil, func(v grade.Values) unit.Length { return flapGauge.Height(v.Of(flap) + v.Of(rows)) })
}

// follows is a number that follows from others.
func follows(key, label, unit string, is func(grade.Values) int, why func(grade.Values) grade.Reason) grade.Var {
	return grade.Var{Key: key, Label: label, Unit: unit, Is: is, Why: why}
}

func (h *bandHeel) build(b *Builder) {
	heel, band, left := b.n("heel.stitches"), b.n("heel.band_stitches"), b.n("heel.stitches_left")
	b.marked = true

	b.section("Heel flap")
	b.para(say("heel.band.intro", "The heel is worked back and forth in rows, at the back of the leg. The first st of every row of flap and band is slipped: that makes one chain st along the edge for every 2 rows, and the gusset is picked up from these."))
	b.setApart(
		say("heel.band.set-up", "The two set-up rows bring the heel sts onto one needle; leave the instep sts on the others, slipping sts from one needle to the next where you need a free one. If you marked the beginning of the rnd, take that marker out."),
		say("heel.band.two", "From here only N1 is worked; N2 rests."))
	b.para(say("heel.band.lock", "Hang a locking marker in the first and in the last heel st now. They mark the leg end of each edge, which is hard to find once the flap is there, and show where the gusset is picked up."))
	b.row(row(1, pattern.RS), nil, sl1(), toEnd(pattern.Knit))
	b.row(row(2, pattern.WS), nil, sl1(), toEnd(pattern.Purl))
	b.again(pattern.FlatRow, 2, b.each(func(size int) int { return b.of("heel.flap_rows", size)/2 - 1 }), pattern.Again{
		Total: b.n("heel.flap_rows"), Count: total(heel)})

	b.section("Band")
	b.para(say("heel.band.how", "The band, the {0} sts in the middle, keeps its width to the end. In every row one st is decreased just after the band: seen from the right side, on its left in RS rows and on its right in WS rows. In the end 1 st is left on each side of the band.", band))
	b.where(func(size int) bool { return b.of("heel.side_stitches", size) >= 4 }, func() { h.longBand(b) })
	for s := 3; s >= 2; s-- {
		b.where(func(size int) bool { return b.of("heel.side_stitches", size) == s }, func() { h.shortBand(b, s) })
	}
	in, cm := b.long(func(size int) unit.Length { return b.finished("heel.depth", b.plan.At(size)) })
	needle := "N1"
	if b.roundsBegin() == pattern.CentreBack {
		needle = "The needle"
	}
	b.para(say("heel.band.done", "{5} holds {0} sts: 1, the band, 1. The band has {1} rows; flap and band together have {2}, and measure {3} in [{4} cm].", left, b.n("heel.band_rows"),
		b.each(func(size int) int { return b.of("heel.flap_rows", size) + b.of("heel.band_rows", size) }), in, cm, needle))
}

// longBand writes a band with at least 4 stitches at each side: rows 1 to 3, their repeat,
// and the last two rows in full, where "to m" would have nothing left to count.
func (h *bandHeel) longBand(b *Builder) {
	after := func(rows func(s int) int) pattern.Number { // stitches after so many rows
		return b.each(func(size int) int {
			return b.of("heel.stitches", size) - rows(b.of("heel.side_stitches", size))
		})
	}
	band := b.n("heel.band_stitches")
	b.row(row(1, pattern.RS), total(after(func(int) int { return 1 })),
		sl1(), k(b.each(func(size int) int { return b.of("heel.side_stitches", size) - 1 })), do(pattern.PlaceMarker), k(band), do(pattern.PlaceMarker), do(pattern.Ssk), toEnd(pattern.Knit))
	b.row(row(2, pattern.WS), change(-1),
		sl1(), toMarker(pattern.Purl), do(pattern.SlipMarker), toMarker(pattern.Purl), do(pattern.SlipMarker), do(pattern.P2tog), toEnd(pattern.Purl))
	b.row(row(3, pattern.RS), change(-1),
		sl1(), toMarker(pattern.Knit), do(pattern.SlipMarker), toMarker(pattern.Knit), do(pattern.SlipMarker), do(pattern.Ssk), toEnd(pattern.Knit))
	b.again(pattern.FlatRow, 2, b.each(func(size int) int { return b.of("heel.side_stitches", size) - 4 }), pattern.Again{
		Count: total(after(func(s int) int { return 2*s - 5 }))})
	b.oneMore(row(2, pattern.WS), pattern.Of(1), pattern.Again{Count: total(after(func(s int) int { return 2*s - 4 }))})
	h.lastRows(b)
}

// lastRows writes the last two rows.
func (h *bandHeel) lastRows(b *Builder) {
	band, left := b.n("heel.band_stitches"), b.n("heel.stitches_left")
	b.row(named(pattern.Next, pattern.RS), total(b.each(func(size int) int { return b.of("heel.stitches_left", size) + 1 })),
		sl1(), kN(1), do(pattern.SlipMarker), k(band), do(pattern.SlipMarker), do(pattern.Ssk))
	b.row(named(pattern.Next, pattern.WS), total(left),
		sl1(), do(pattern.SlipMarker), p(band), do(pattern.SlipMarker), do(pattern.P2tog))
}

// shortBand writes a band with 2 or 3 stitches at each side, every row in full.
func (h *bandHeel) shortBand(b *Builder, side int) {
	band := b.n("heel.band_stitches")
	count := func(rows int) *pattern.Count {
		return total(b.each(func(size int) int { return b.of("heel.stitches", size) - rows }))
	}
	first := []pattern.Step{sl1(), kN(side - 1), do(pattern.PlaceMarker), k(band), do(pattern.PlaceMarker), do(pattern.Ssk)}
	if side == 2 {
		b.row(row(1, pattern.RS), count(1), first...)
		b.row(row(2, pattern.WS), count(2), sl1(), do(pattern.SlipMarker), p(band), do(pattern.SlipMarker), do(pattern.P2tog))
		return
	}
	b.row(row(1, pattern.RS), count(1), append(first, kN(1))...)
	b.row(row(2, pattern.WS), count(2), sl1(), pN(1), do(pattern.SlipMarker), p(band), do(pattern.SlipMarker), do(pattern.P2tog), pN(1))
	h.lastRows(b)
}

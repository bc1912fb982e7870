package sock

import (
	"sockwright/internal/design"
	"sockwright/internal/feet"
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
	"sockwright/internal/unit"
)

var _ = register(Part{Part: "heel", Kind: "sole-band", Name: "a heel with a band under the sole", Directions: toeUp, Gussets: []string{"increases"},
	Options: []Option{heelShare, bandWidth, flapShare}, Notions: []string{"2 locking markers"}, Skills: []string{"slipping sts", "picking up sts along an edge", "decreasing"},
	Says: say("heel.sole-band.says", "the band heel from the toe up: a narrow band is worked under the heel first, stitches are picked up at both its sides, and the back of the heel takes in the stitches that waited"),
	How:  say("heel.sole-band.opening", "After a small gusset a narrow band is worked back and forth under the heel, while the stitches beside it wait. Then stitches are picked up along both its sides, and the back of the heel grows over all of these, taking in 1 of the waiting stitches at the end of each row. There are no short rows."),
	take: func(d *Draft, t *design.Table) construction {
		h := &soleBand{share: heelShare.number(t), height: flapShare.number(t)}
		for i := range d.Sizes {
			width, why := feet.BandWidthRule(d.Sizes[i].BandFoot)
			h.width, h.why = append(h.width, width), append(h.why, why)
		}
		if t.Has(bandWidth.Key) {
			h.width = bandWidth.lengths(t, d, func(i int) unit.Length { return h.width[i] })
			for i := range h.why {
				h.why[i] = "the band width that the design asks for"
			}
		}
		return h
	}})

// soleBand is the band heel of a sock from the toe up. A band of w stitches is worked for
// r = H - w rows under the heel; r/2 stitches are picked up along each side, so that the
// heel has w + r = H; then each row of the back takes in one stitch that waited, left and
// right by turns. a stitches wait on each side, so that the back has 2 a rows, and the gusset
// has g = a - r/2 stitches on each side.
type soleBand struct {
	share  float64 // of the round
	width  []unit.Length
	why    []string
	height float64 // rows of the back, of the heel stitches
}

func (h *soleBand) declare(d *Draft) {
	g := d.Gauge[""]
	heel := d.heelStitches(h.share, 10, "a heel with a band")
	band := d.bandOf(heel, h.width, func(v grade.Values, w unit.Length) source.Message {
		return say("why.band.up", "{0} ({1}) at {2} stitches to 10 cm is {3}; odd or even as {4} heel stitches are", d.Long(w), h.why[v.Size], whole(g.Stitches*100), whole(g.StitchesIn(w)), v.Of(heel))
	})
	rows := d.Model.Add(follows("heel.band_rows", "rows of the band", "rows",
		func(v grade.Values) int { return v.Of(heel) - v.Of(band) },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "sole-band-rows", Text: say("why.sole-band.rows", "a stitch is picked up for each two rows on each side, and makes the heel {0} stitches wide: {0} − {1}", v.Of(heel), v.Of(band)), Terms: []grade.Term{v.Term(heel), v.Term(band)}}
		}))
	flapGauge := d.GaugeOf("flap")
	back := d.flapOf(heel, h.height, "rows of the back of the heel", rule("back-even", "the back of the heel has an even number of rows, and two more than the band at least, so that there is a gusset", func(v grade.Values, n int) bool { return n%2 == 0 && n >= v.Of(rows)+2 }))
	d.Model.Add(follows("heel.gusset_stitches", "gusset stitches at each side", "sts",
		func(v grade.Values) int { return (v.Of(back) - v.Of(rows)) / 2 },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "sole-band-gusset", Text: say("why.sole-band.gusset", "the {0} rows of the back take in the {1} stitches beside the band and the gusset: ({0} − {1}) / 2", v.Of(back), v.Of(rows)), Terms: []grade.Term{v.Term(back), v.Term(rows)}}
		}))
	d.heelKept(heel)
	d.Model.Add(follows("heel.sole_rounds", "length of the heel under the foot, in rounds", "rnds",
		func(v grade.Values) int { return v.Of(rows) },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "sole-band-under", Text: say("why.sole-band.under", "the {0} rows of the band", v.Of(rows)), Terms: []grade.Term{v.Term(rows)}}
		}))
	d.noCorners()
	d.measure("heel.band_width", "band, width", func(size int) unit.Length { return h.width[size] }, func(v grade.Values) unit.Length { return g.Width(v.Of(band)) })
	d.measure("heel.depth", "heel, height of the back", nil, func(v grade.Values) unit.Length { return flapGauge.Height(v.Of(back) + 2) })
}

func (h *soleBand) build(b *Builder) {
	heel, band := b.n("heel.stitches"), b.n("heel.band_stitches")
	waits := func(size int) int { return b.of("heel.flap_rows", size) / 2 }
	side := func(size int) int { return b.of("heel.band_rows", size) / 2 }
	b.section("Band")
	b.para(say("heel.sole-band.intro", "The band is worked back and forth in rows over the {0} sts in the middle of the sole; {1} sts wait on each side of it, and N2 rests. The first st of every row is slipped: that makes one chain st along the edge for every 2 rows, and sts are picked up from these. The two set-up rows bring the band apart.", band, b.each(waits)))
	b.row(pattern.Label{Word: pattern.FlatRow, Name: pattern.SetUp, Num: 1, Side: pattern.RS}, nil,
		k(b.each(func(size int) int { return waits(size) + b.of("heel.band_stitches", size) })), do(pattern.Turn))
	b.row(pattern.Label{Word: pattern.FlatRow, Name: pattern.SetUp, Num: 2, Side: pattern.WS}, nil,
		sl1(), p(b.each(func(size int) int { return b.of("heel.band_stitches", size) - 1 })), do(pattern.Turn))
	b.add(&pattern.Divide{Last: true, Heel: band, Rest: b.each(func(size int) int {
		return b.of("leg.stitches", size) + 2*b.of("heel.gusset_stitches", size) - b.of("heel.band_stitches", size)
	})})
	b.para(say("heel.sole-band.lock", "Hang a locking marker in the first and in the last st of the band now: they show where the picking up ends."))
	b.row(row(1, pattern.RS), nil, sl1(), toEnd(pattern.Knit))
	b.row(row(2, pattern.WS), nil, sl1(), toEnd(pattern.Purl))
	b.again(pattern.FlatRow, 2, b.each(func(size int) int { return side(size) - 1 }), pattern.Again{
		Total: b.n("heel.band_rows"), Count: total(band)})

	b.section("Back of the heel")
	b.para(say("heel.sole-band.pick", "Two rows pick up {0} sts along each side of the band, 1 st from each chain, so that the heel has {1}. From the third row on every row takes one of the sts that wait beside it, together with the last heel st; the gap lies between the two.", b.each(side), heel))
	b.row(row(1, pattern.RS), total(b.each(func(size int) int { return side(size) + b.of("heel.band_stitches", size) })), sl1(), k(b.each(func(size int) int { return b.of("heel.band_stitches", size) - 1 })),
		pickUp(b.each(side), pattern.LeftEdge), turn(pattern.NotTurned))
	b.row(row(2, pattern.WS), total(heel), sl1(), p(b.each(func(size int) int { return side(size) + b.of("heel.band_stitches", size) - 1 })),
		pickUpPurl(b.each(side), pattern.RightEdge), turn(pattern.NotTurned))
	b.row(row(3, pattern.RS), change(-1), sl1(), toGap(pattern.Knit, 1, pattern.NotTurned), do(pattern.Ssk), turn(pattern.NotTurned))
	b.row(row(4, pattern.WS), change(-1), sl1(), toGap(pattern.Purl, 1, pattern.NotTurned), do(pattern.P2tog), turn(pattern.NotTurned))
	b.again(pattern.FlatRow, 2, b.each(func(size int) int { return waits(size) - 1 }), pattern.Again{
		Total: b.each(func(size int) int { return b.of("heel.flap_rows", size) + 2 })})
	in, cm := b.long(func(size int) unit.Length { return b.finished("heel.depth", b.plan.At(size)) })
	b.para(say("heel.sole-band.done", "All sts that waited are taken in, and the heel has {0} sts. The back of the heel measures {1} in [{2} cm].", heel, in, cm))
	b.add(&pattern.Rejoin{Stitches: b.n("leg.stitches"), Place: pattern.SideOfSole})
}

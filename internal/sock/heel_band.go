package sock

import (
	"sockwright/internal/design"
	"sockwright/internal/feet"
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
	"sockwright/internal/unit"
)

var bandForm = choice("form", "how far the rows beside the band go: all to their end, or short rows that turn beside the band, or some of the one and then the other", "rows", "short-rows", "both")

var bandFabric = choice("fabric", "fabric of the straight flap", "stockinette", "slipped", "offset", "garter-edge", "rib")

var bandWidth = length("band", "width of the band; by the length of the foot where nothing is said", 5, 100)

var _ = register(Part{Part: "heel", Kind: "band", Options: []Option{heelShare, bandForm, bandWidth, bandFabric, flapHeight(0.5), flapInstep}, Markers: 2, Notions: []string{"2 locking markers"}, Name: "a band heel", Gussets: []string{"instep", "exact", "sole", oneSided}, Default: cuffDown, Directions: cuffDown,
	Skills: []string{"slipping sts", "decreasing"},
	How:    bandOpenings["rows"],
	Says:   say("heel.band.says", "band heel: a narrow band runs unbroken from the back of the heel under the sole, with a decrease beside it in every row"),
	take: func(d *Draft, t *design.Table) construction {
		h := &bandHeel{form: bandForm.name(t), flap: flap{share: heelShare.number(t), height: flapHeight(0.5).number(t) * insteps[flapInstep.name(t)], fabric: bandFabric.name(t), slipped: true}}
		if h.form != "rows" {
			d.gussets = []string{"exact", "instep", "sole", oneSided}
		}
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

// bandOpenings tell what the forms of the heel are like.
var bandOpenings = map[string]source.Message{
	"rows":       say("heel.band.opening", "The heel begins with a straight flap; then every row loses one stitch beside a narrow band in the middle, until only the band and 1 stitch on each side of it are left. There is no heel turn, and there are no short rows."),
	"short-rows": say("heel.band.opening.short", "The heel begins with a straight flap, only half as high as usual; then short rows work a narrow band in the middle, and each joins it to a stitch of the flap beside it, until only the band and 1 stitch on each side of it are left."),
	"both":       say("heel.band.opening.both", "The heel begins with a straight flap; some rows then lose one stitch each beside a narrow band in the middle, and short rows work on over the band, each joining it to a stitch beside it, until only the band and 1 stitch on each side of it are left."),
}

// bandHeel is a band heel: a straight flap, then a row for each stitch that goes, left and
// right of the band by turns, until one stitch is left beyond each side of it. In the form
// "rows" all of them are worked to their end; "short-rows" turn beside the band, as the
// square turn with its joint outside does; "both" works some to their end and then turns.
// Published sources agree on the band and on what is left of it; in where the rows turn they
// differ.
//
// Counts: row i of the band leaves H - i stitches; with s stitches at each side at first,
// 2(s - 1) rows leave 1, the band, 1, in every form. The first stitch of every row is
// slipped, so that two rows that reach the edges make one chain to pick up along each. In
// the form "both" R + 2j rows reach them, chosen so that as many stitches are picked up as
// are missing: R + 2j = H - c - 2.
type bandHeel struct {
	flap
	form  string
	width []unit.Length // of the band, by size
	why   []string
}

func (h *bandHeel) tell(_ *Draft, p *Part) { p.How = bandOpenings[h.form] }

func (h *bandHeel) declare(d *Draft) {
	g, flapGauge := d.Gauge[""], d.GaugeOf("flap")
	heel := d.heelStitches(h.share, h.fewest(6), "a band heel")
	var flap, band *grade.Var
	if h.form == "rows" {
		flap = h.flapRows(d, heel, nil)
		band = h.bandStitches(d, heel)
	} else {
		band = h.bandStitches(d, heel)
		flap = h.flapRows(d, heel, band)
	}
	side := d.Model.Add(follows("heel.side_stitches", "stitches at each side of the band", "sts",
		func(v grade.Values) int { return (v.Of(heel) - v.Of(band)) / 2 },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "sides-equal", Text: say("why.side", "({0} − {1}) / 2", v.Of(heel), v.Of(band)), Terms: []grade.Term{v.Term(heel), v.Term(band)}}
		}))
	var toEdges []*grade.Var // rows that reach the edges of the heel, and what the others are
	switch h.form {
	case "rows":
		toEdges = []*grade.Var{flap, h.rowsOfBand(d, side, nil, "heel.band_rows", "rows of the band")}
	case "short-rows":
		toEdges = []*grade.Var{flap}
		h.rowsOfBand(d, side, nil, "heel.turn_rows", "short rows")
	case "both":
		whole := follows("heel.whole_rows", "rows beside the band that are worked to their end", "rows",
			func(v grade.Values) int { return v.Of(heel) - v.Of(band) - 2 - v.Of(flap) },
			func(v grade.Values) grade.Reason {
				return grade.Reason{Rule: "band-whole", Text: say("why.band.whole", "with the {0} rows of the flap, as many as stitches go ({1} − {2} − 2): then as many are picked up", v.Of(flap), v.Of(heel), v.Of(band)), Terms: []grade.Term{v.Term(flap), v.Term(heel), v.Term(band)}}
			})
		whole.Rules = []grade.Rule{rule("band-whole", "at least 2 rows beside the band are worked to their end; the form short-rows has none", func(_ grade.Values, n int) bool { return n >= 2 })}
		toEdges = []*grade.Var{flap, d.Model.Add(whole)}
		h.rowsOfBand(d, side, toEdges[1], "heel.turn_rows", "short rows")
	}
	d.Model.Add(follows("heel.stitches_left", "stitches left when the band is done", "sts",
		func(v grade.Values) int { return v.Of(band) + 2 },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "band-left", Text: say("why.left", "the {0} stitches of the band and one beyond each side of it", v.Of(band)), Terms: []grade.Term{v.Term(band)}}
		}))
	reach := func(v grade.Values) (rows int) {
		for _, x := range toEdges {
			rows += v.Of(x)
		}
		return rows
	}
	d.heelEdge = heelEdge{rows: reach, worked: h.form != "rows"}
	d.Model.Add(follows("heel.edge_chains", "chains along each edge of the heel", "sts",
		func(v grade.Values) int { return reach(v) / 2 },
		func(v grade.Values) grade.Reason {
			r := grade.Reason{Rule: "edge-chains", Text: chainsOf(reach(v))}
			for _, x := range toEdges {
				r.Terms = append(r.Terms, v.Term(x))
			}
			if len(toEdges) == 2 {
				r.Text = say("why.chains", "one for each two of {0} + {1} rows, since the first stitch of every row is slipped", v.Of(flap), v.Of(toEdges[1]))
			}
			return r
		}))
	under := follows("heel.sole_rounds", "length of the heel under the foot, in rounds", "rnds",
		func(v grade.Values) int { return v.Of(heel) - v.Of(band) - 2 - (reach(v) - v.Of(flap)) },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "turn-under", Text: say("why.band.under", "the short rows lie under the heel")}
		})
	if h.form == "rows" {
		under.Is = func(v grade.Values) int {
			return int(g.RowsIn(flapGauge.Height(max(0, reach(v)-v.Of(heel)))) + 0.5)
		}
		under.Why = func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "heel-under", Text: say("why.under", "of {0} + {1} rows, {2} (as many as heel stitches, the height of an ordinary flap) stand behind the heel; the rest lies under the foot", v.Of(flap), v.Of(toEdges[1]), v.Of(heel)), Terms: []grade.Term{v.Term(flap), v.Term(toEdges[1]), v.Term(heel)}}
		}
	}
	d.Model.Add(under)
	d.measure("heel.band_width", "band, width", func(size int) unit.Length { return h.width[size] }, func(v grade.Values) unit.Length { return g.Width(v.Of(band)) })
	d.measure("heel.depth", "heel, flap and band", nil, func(v grade.Values) unit.Length { return flapGauge.Height(reach(v)) })
}

// flapRows declares the rows of the flap. Where the band is known and the gusset is to restore
// the stitches exactly, they are so many that it can.
func (h *bandHeel) flapRows(d *Draft, heel, band *grade.Var) *grade.Var {
	share := func(v grade.Values) float64 { return h.height * float64(v.Of(heel)) }
	target := share
	if band != nil && d.kinds["gusset"] == "exact" {
		target = func(v grade.Values) float64 {
			missing := float64(v.Of(heel) - v.Of(band) - 2)
			if h.form == "both" {
				return min(share(v), missing-2)
			}
			return min(max(share(v), missing-4), missing)
		}
	}
	return d.Model.Add(grade.Var{
		Key: "heel.flap_rows", Label: "rows of the straight flap", Unit: "rows",
		Target: target,
		Scale:  d.roundHeight, Reach: 3, Level: proportions,
		Rules: h.rules(d, 2),
		Why: func(v grade.Values) grade.Reason {
			want, r := target(v), grade.Reason{Rule: "flap-even", Terms: []grade.Term{v.Term(heel)}}
			switch {
			case want != share(v):
				r.Text = say("why.flap.restores", "{0} % of {1} heel stitches is {2}, but {3} is nearest to it of what lets the pick-up restore the stitches", whole(h.height*100), v.Of(heel), whole(share(v)), whole(want))
			case h.height != 0.5:
				r.Text = shareOfHeel(h.height, v.Of(heel), h.wholeRepeats())
			case want != float64(int(want)) || int(want)%h.repeat() != 0:
				r.Text = say("why.flap", "half of {0} heel stitches is {1}; {2}", v.Of(heel), whole(want), h.wholeRepeats())
			default:
				r.Text = say("why.flap.exact", "half of {0} heel stitches", v.Of(heel))
			}
			return r
		},
	})
}

// bandOf declares the stitches of a band of a width for each size; says tells how it comes to
// them.
func (d *Draft) bandOf(heel *grade.Var, width []unit.Length, says func(v grade.Values, width unit.Length) source.Message) *grade.Var {
	g := d.Gauge[""]
	return d.Model.Add(grade.Var{
		Key: "heel.band_stitches", Label: "stitches of the band", Unit: "sts",
		Target: func(v grade.Values) float64 { return g.StitchesIn(width[v.Size]) },
		Scale:  d.stitchWidth, Reach: 60, Level: proportions,
		Rules: []grade.Rule{
			evenSides("band-parity", "the band is odd or even as the heel is, so that its two sides are equal", heel),
			rule("band-sides", "the band has at least 2 stitches, and at least 2 at each side of it", func(v grade.Values, n int) bool { return n >= 2 && v.Of(heel)-n >= 4 }),
		},
		Why: func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "band-width", Text: says(v, width[v.Size]),
				Terms: []grade.Term{{Key: "heel.band_width", Value: width[v.Size].MM(), Unit: "mm", Source: "common practice"}, {Key: "gauge.stitches", Value: g.Stitches * 100, Unit: "sts per 10 cm"}, v.Term(heel)}}
		},
	})
}

// bandStitches declares the stitches of the band.
func (h *bandHeel) bandStitches(d *Draft, heel *grade.Var) *grade.Var {
	g := d.Gauge[""]
	return d.bandOf(heel, h.width, func(v grade.Values, w unit.Length) source.Message {
		parity := "even"
		if v.Of(heel)%2 != 0 {
			parity = "odd"
		}
		return say("why.band", "{0} ({1}) at {2} stitches to 10 cm is {3}; {4}, because {5} heel stitches are {4} and the sides must be equal",
			d.Long(w), h.why[v.Size], whole(g.Stitches*100), whole(g.StitchesIn(w)), parity, v.Of(heel))
	})
}

// rowsOfBand declares how many rows take the stitches beside the band, less those before.
func (h *bandHeel) rowsOfBand(d *Draft, side, before *grade.Var, key, label string) *grade.Var {
	return d.Model.Add(follows(key, label, "rows",
		func(v grade.Values) int {
			n := 2 * (v.Of(side) - 1)
			if before != nil {
				n -= v.Of(before)
			}
			return n
		},
		func(v grade.Values) grade.Reason {
			r := grade.Reason{Rule: "band-rows", Text: say("why.band.rows", "each row takes one stitch, and {0} of {1} go on each side: 2 × {0}", v.Of(side)-1, v.Of(side)), Terms: []grade.Term{v.Term(side)}}
			if before != nil {
				r.Text = say("why.band.rows.left", "each row takes one stitch, and {0} of {1} go on each side: 2 × {0}, less the {2} rows before", v.Of(side)-1, v.Of(side), v.Of(before))
				r.Terms = append(r.Terms, v.Term(before))
			}
			return r
		}))
}

func (h *bandHeel) build(b *Builder) {
	band, left := b.n("heel.band_stitches"), b.n("heel.stitches_left")

	b.section("Heel flap")
	if h.form == "short-rows" {
		b.para(flapIntro)
	} else {
		b.para(say("heel.band.intro", "The heel is worked back and forth in rows, at the back of the leg. The first st of every row of flap and band is slipped: that makes one chain st along the edge for every 2 rows, and sts are picked up from these later."))
	}
	b.flapSetApart()
	h.straight(b)

	if h.form == "short-rows" {
		b.section("Heel turn")
	} else {
		b.section("Band")
	}
	width := func(size int) int { return b.of("heel.band_stitches", size) }
	switch h.form {
	case "rows":
		b.marked = true
		b.para(say("heel.band.how", "The band, the {0} sts in the middle, keeps its width to the end. In every row one st is decreased just after the band: seen from the right side, on its {left} in RS rows and on its {right} in WS rows. In the end 1 st is left on each side of the band.", band))
		b.where(func(size int) bool { return b.of("heel.side_stitches", size) >= 4 }, func() { h.longBand(b) })
		for s := 3; s >= 2; s-- {
			b.where(func(size int) bool { return b.of("heel.side_stitches", size) == s }, func() { h.shortBand(b, s) })
		}
	case "short-rows":
		b.para(say("heel.band.how.short", "The band, the {0} sts in the middle, keeps its width to the end. Each row is turned beside it, after a decrease of two of the sts there; from Row 2 on the slipped first st is the decrease of the row before. In the end 1 st is left on each side of the band.", band))
		b.where(func(size int) bool { return b.of("heel.turn_rows", size) > 0 }, func() {
			squareTurn{outside: true}.write(b, func(size int) int { return b.of("heel.stitches", size) }, width)
		})
	case "both":
		b.para(say("heel.band.how.both", "The band, the {0} sts in the middle, keeps its width to the end. In the first rows one st is decreased just after the band, and they go on to the end of the heel: seen from the right side, the decrease lies on the {left} of the band in RS rows and on its {right} in WS rows.", band))
		h.wholeRows(b)
		b.add(&pattern.DropMarkers{})
		b.section("Heel turn")
		b.para(say("heel.band.turns", "The rest is short rows: each is turned beside the band, after a decrease of two of the sts there; from Row 2 on the slipped first st is the decrease of the row before. In the end 1 st is left on each side of the band."))
		squareTurn{outside: true}.write(b, func(size int) int { return b.of("heel.stitches", size) - b.of("heel.whole_rows", size) }, width)
	}
	in, cm := b.long(func(size int) unit.Length { return b.finished("heel.depth", b.plan.At(size)) })
	needle := "N1"
	if b.roundsBegin() == pattern.CentreBack {
		needle = "The needle"
	}
	switch h.form {
	case "rows":
		b.para(say("heel.band.done", "{5} holds {0} sts: 1, the band, 1. The band has {1} rows; flap and band together have {2}, and measure {3} in [{4} cm].", left, b.n("heel.band_rows"),
			b.each(func(size int) int { return b.of("heel.flap_rows", size) + b.of("heel.band_rows", size) }), in, cm, needle))
	default:
		b.para(say("heel.band.done.short", "{3} holds {0} sts: 1, the band, 1. The edges of the heel measure {1} in [{2} cm].", left, in, cm, needle))
	}
}

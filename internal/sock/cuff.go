package sock

import (
	"sockwright/internal/design"
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
	"sockwright/internal/unit"
)

var cuffLengthOption = length("length", "length of the cuff; a sixth of the foot where nothing is said", 3, 400)

// A cuff is worked in rounds that repeat, between the edge of the sock and its leg.
type cuff struct {
	multiple int    // of stitches
	fabric   string // whose gauge it has
	lengths  []unit.Length
	rounds   [][]pattern.Step // of one repeat
	edge     edge
	rolled   int  // rounds of stockinette at the edge, which roll up
	folded   bool // it is worn turned over: it is twice as long as it looks, and two rounds for the fold
}

// cuffLength takes the length of the cuff. The default is a sixth of the foot, to the
// nearest quarter inch: 1 1/2 in for a foot of 9 in (house rule).
func cuffLength(d *Draft, t *design.Table) []unit.Length {
	return cuffLengthOption.lengths(t, d, func(i int) unit.Length { return quarterInch(d.Sizes[i].Length / 6) })
}

func quarterInch(l unit.Length) unit.Length {
	return unit.Length(int(l/unit.Inch*4+0.5)) * unit.Inch / 4
}

func (c *cuff) declare(d *Draft) {
	legStitches(d, c.multiple)
	top := d.top()
	m := c.multiple
	d.Model.Add(grade.Var{
		Key: "cuff.stitches", Label: "stitches of the cuff", Unit: "sts",
		Target: func(v grade.Values) float64 { return float64(v.Of(top)) },
		Scale:  d.stitchWidth, Reach: float64(m), Level: proportions,
		Rules: []grade.Rule{rule("cuff-multiple", "the cuff takes whole repeats", func(_ grade.Values, n int) bool { return n%m == 0 && n > 0 })},
		Why: func(v grade.Values) grade.Reason {
			r := grade.Reason{Rule: "cuff-multiple", Terms: []grade.Term{v.Term(top), {Key: "cuff.multiple", Value: float64(m), Unit: "sts"}},
				Text: say("why.cuff.same", "the same as the leg, a multiple of {0}", m)}
			if v.Of(top)%m != 0 {
				r.Text = say("why.cuff.other", "{0} leg stitches are no multiple of {1}: the nearest is taken, and a round of the leg makes up the difference", v.Of(top), m)
			}
			return r
		},
	})
	g := d.GaugeOf(c.fabric)
	repeat, edgeRows := len(c.rounds), c.edge.rows()
	target := func(v grade.Values) float64 {
		rounds := g.RowsIn(c.lengths[v.Size])
		if c.folded {
			rounds = 2*rounds + foldRounds
		}
		return rounds - float64(edgeRows)
	}
	reach := 1.0
	if c.folded {
		reach = 2 // as many rounds as make one of what shows
	}
	rounds := d.Model.Add(grade.Var{
		Key: "cuff.rounds", Label: "rounds of the cuff", Unit: "rnds",
		Target: target,
		Scale: func(grade.Values) float64 {
			if c.folded {
				return g.Height(1).MM() / 2
			}
			return g.Height(1).MM()
		}, Reach: reach, Level: lengths,
		Rules: []grade.Rule{
			rule("cuff-rounds", "the cuff has whole repeats of rounds", func(_ grade.Values, n int) bool { return n >= repeat && n%repeat == 0 }),
			rule("cuff-folded", "a turned-over cuff has as many rounds inside as outside", func(_ grade.Values, n int) bool {
				return !c.folded || n > foldRounds && (n+edgeRows)%2 == 0
			}),
		},
		Why: func(v grade.Values) grade.Reason {
			r := grade.Reason{Rule: "cuff-rounds", Text: say("why.cuff.rounds", "{0} at {1} rounds to 10 cm are {2}", d.Long(c.lengths[v.Size]), whole(g.Rows*100), whole(g.RowsIn(c.lengths[v.Size]))),
				Terms: []grade.Term{{Key: "cuff.length", Value: c.lengths[v.Size].MM(), Unit: "mm"}, {Key: "gauge.rows", Value: g.Rows * 100, Unit: "rows per 10 cm"}}}
			switch {
			case c.folded:
				r.Text = say("why.cuff.folded", "{0} at {1} rounds to 10 cm are {2}; twice that, and {3} for the fold", d.Long(c.lengths[v.Size]), whole(g.Rows*100), whole(g.RowsIn(c.lengths[v.Size])), foldRounds)
			case edgeRows > 0:
				r.Text = say("why.cuff.edge", "{0} at {1} rounds to 10 cm are {2}, less {3} that the edge is high", d.Long(c.lengths[v.Size]), whole(g.Rows*100), whole(g.RowsIn(c.lengths[v.Size])), edgeRows)
			}
			return r
		},
	})
	d.measure("cuff.length", "cuff, length", func(size int) unit.Length { return c.lengths[size] },
		func(v grade.Values) unit.Length {
			n := v.Of(rounds) + edgeRows
			if c.folded {
				n = (n - foldRounds) / 2
			}
			return g.Height(n)
		})
}

// foldRounds is how many rounds of a cuff lie in its fold.
const foldRounds = 2

// A topped construction says where the length of the leg is measured from, if not from the
// edge of the sock.
type topped interface {
	top(direction string) string
}

// Top is where the length of the leg is measured from: "the cast-on edge".
func (d *Draft) Top() string {
	if c, ok := d.parts[0].(topped); ok {
		if top := c.top(d.Direction); top != "" {
			return top
		}
	}
	if d.Direction == design.ToeUp {
		return "the bound-off edge"
	}
	return "the cast-on edge"
}

// top leaves out what does not count for the length of the cuff: the part of it that is
// turned over, and an edge that rolls up.
func (c *cuff) top(direction string) string {
	switch {
	case c.folded:
		return "the fold of the cuff"
	case c.rolled > 0 && direction == design.ToeUp:
		return "the end of the rib"
	case c.rolled > 0:
		return "the beginning of the rib"
	}
	return ""
}

// tell adds what a tubular or sewn edge needs.
func (c *cuff) tell(d *Draft, p *Part) {
	if c.edge == crossedEdge {
		p.Notions, p.Skills = append(p.Notions, "cable needle"), append(p.Skills, "crossing sts")
	}
	if c.edge.tubular() && d.Direction == design.CuffDown {
		p.Notions = append(p.Notions, wasteYarn, "needles one or two sizes smaller")
		p.Skills = append(p.Skills, "yarn overs")
	}
	if d.Direction == design.ToeUp && (c.edge.tubular() || c.edge == sewnEdge) {
		p.Notions = append(p.Notions, "tapestry needle")
	}
	if d.Direction == design.ToeUp && c.edge.tubular() {
		p.Skills = append(p.Skills, "grafting")
	}
}

// wasteYarn is for stitches that are to be taken up again later.
const wasteYarn = "smooth waste yarn"

// spread says how the stitches lie on the needles before they are joined.
func (b *Builder) spread() source.Message {
	switch b.Method {
	case design.MagicLoop:
		return say("cuff.spread.loop", "Before you join, divide the sts into two halves, one on each side of the loop: N1, the first half, will be the back of the leg, N2 the front.")
	case design.TwoCirculars:
		return say("cuff.spread.two", "Before you join, put one half of the sts on each needle: N1, the first half, will be the back of the leg, N2 the front.")
	}
	return say("cuff.spread.dpn", "Before you join, spread the sts over three or four needles: a quarter on the first, half on the next one or two, a quarter on the last. Mark the beginning of the rnd if you like.")
}

func (c *cuff) build(b *Builder) {
	b.section("Cuff")
	if b.Direction == design.ToeUp {
		b.changeTo(b.topOfLeg, "cuff.stitches")
		c.work(b)
		c.roll(b)
		c.edge.bindOff(b)
	} else {
		b.para(b.spread())
		c.edge.castOn(b)
		c.roll(b)
		c.work(b)
	}
	if c.folded {
		b.para(say("cuff.folded", "The cuff is worn turned over to the outside, so it is twice as long as it looks. Fold it over when you measure the leg."))
	}
}

// roll writes the rounds at the edge that roll up by themselves.
func (c *cuff) roll(b *Builder) {
	if c.rolled > 0 {
		b.add(&pattern.Plain{Op: pattern.Knit, Rounds: pattern.Of(c.rolled), Count: total(b.n("cuff.stitches"))})
		b.tip(say("cuff.rolled", "These {0} rnds roll to the outside; the rib holds the sock up.", c.rolled))
	}
}

// work writes the rounds of the cuff.
func (c *cuff) work(b *Builder) {
	for i, steps := range c.rounds {
		b.row(rnd(i+1), nil, steps...)
	}
	repeat := len(c.rounds)
	in, cm := b.long(func(size int) unit.Length {
		return b.GaugeOf(c.fabric).Height(b.of("cuff.rounds", size))
	})
	what := "the cuff measures"
	if c.rolled > 0 || c.edge.tubular() {
		what = "the rib measures"
	}
	b.again(pattern.Round, repeat, b.each(func(size int) int { return b.of("cuff.rounds", size)/repeat - 1 }), pattern.Again{
		Or:    pattern.Fill(say("cuff.until", "{2} {0} in [{1} cm]", in, cm, what)),
		Total: b.n("cuff.rounds"), Count: total(b.n("cuff.stitches"))})
}

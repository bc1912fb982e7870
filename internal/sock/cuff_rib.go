package sock

import (
	"sockwright/internal/design"
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
	"sockwright/internal/unit"
)

var (
	_ = register(rib("k1p1", 2, say("cuff.k1p1.says", "k1, p1 rib: draws in most; the number of stitches is even"),
		kN(1), pN(1)))
	_ = register(rib("k2p2", 4, say("cuff.k2p2.says", "k2, p2 rib: draws in nearly as much and stretches far; a multiple of 4"),
		kN(2), pN(2)))
	_ = register(rib("k3p1", 4, say("cuff.k3p1.says", "k3, p1 rib: draws in less and runs smoothly into a plain leg; a multiple of 4"),
		kN(3), pN(1)))
	_ = register(rib("k1p1-twisted", 2, say("cuff.twisted.says", "k1, p1 rib with the knit stitches twisted: crisper, stretches less; an even number"),
		tbl(pattern.Of(1)), pN(1)))
)

var cuffLengthOption = length("length", "length of the cuff; a sixth of the foot where nothing is said", 3, 400)

func rib(kind string, multiple int, says source.Message, body ...pattern.Step) Part {
	var usual []string
	if kind == "k2p2" {
		usual = bothWays
	}
	return Part{Default: usual, Part: "cuff", Kind: kind, Says: says, Directions: bothWays, Options: []Option{cuffLengthOption}, Skills: []string{"knitting in the round"},
		take: func(d *Draft, t *design.Table) construction {
			return &cuff{multiple: multiple, fabric: "rib", lengths: cuffLength(d, t), rounds: [][]pattern.Step{{repeat(body...)}}}
		}}
}

// A cuff is worked in rounds that repeat, from the cast-on edge.
type cuff struct {
	multiple int    // of stitches
	fabric   string // whose gauge it has
	lengths  []unit.Length
	rounds   [][]pattern.Step // of one repeat
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
	leg := d.v("leg.stitches")
	m := c.multiple
	d.Model.Add(grade.Var{
		Key: "cuff.stitches", Label: "stitches to cast on", Unit: "sts",
		Target: func(v grade.Values) float64 { return float64(v.Of(leg)) },
		Scale:  d.stitchWidth, Reach: float64(m), Level: proportions,
		Rules: []grade.Rule{rule("cuff-multiple", "the cuff takes whole repeats", func(_ grade.Values, n int) bool { return n%m == 0 && n > 0 })},
		Why: func(v grade.Values) grade.Reason {
			r := grade.Reason{Rule: "cuff-multiple", Terms: []grade.Term{v.Term(leg), {Key: "cuff.multiple", Value: float64(m), Unit: "sts"}},
				Text: say("why.cuff.same", "the same as the leg, a multiple of {0}", m)}
			if v.Of(leg)%m != 0 {
				r.Text = say("why.cuff.other", "{0} leg stitches are no multiple of {1}: the nearest is cast on, and the first round of the leg makes up the difference", v.Of(leg), m)
			}
			return r
		},
	})
	g := d.GaugeOf(c.fabric)
	repeat := len(c.rounds)
	rounds := d.Model.Add(grade.Var{
		Key: "cuff.rounds", Label: "rounds of the cuff", Unit: "rnds",
		Target: func(v grade.Values) float64 { return g.RowsIn(c.lengths[v.Size]) },
		Scale:  func(grade.Values) float64 { return g.Height(1).MM() }, Reach: 1, Level: lengths,
		Rules: []grade.Rule{rule("cuff-rounds", "the cuff has whole repeats of rounds", func(_ grade.Values, n int) bool { return n >= repeat && n%repeat == 0 })},
		Why: func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "cuff-rounds", Text: say("why.cuff.rounds", "{0} at {1} rounds to 10 cm are {2}", c.lengths[v.Size].String(), whole(g.Rows*100), whole(g.RowsIn(c.lengths[v.Size]))),
				Terms: []grade.Term{{Key: "cuff.length", Value: c.lengths[v.Size].MM(), Unit: "mm"}, {Key: "gauge.rows", Value: g.Rows * 100, Unit: "rows per 10 cm"}}}
		},
	})
	d.measure("cuff.length", "cuff, length", func(size int) unit.Length { return c.lengths[size] },
		func(v grade.Values) unit.Length { return g.Height(v.Of(rounds)) })
}

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
		b.changeTo("leg.stitches", "cuff.stitches")
		c.work(b)
		b.tip(say("cuff.tip.bind-off", "Bind off loosely: the edge must stretch as far as the rib, or the sock will not pass the heel."))
		b.add(&pattern.BindOff{How: pattern.Stretchy, Stitches: b.n("cuff.stitches")})
		b.para(say("cuff.stretchy", "Stretchy bind-off: before each st that looks like a knit, lay the yarn over the needle from back to front; before each purl, from front to back; work the st in pattern, and pass the yarn over and the st before it over this one."))
		return
	}
	b.tip(say("cuff.tip.edge", "Cast on loosely, over a needle two sizes larger or over two needles held together: the edge must stretch as far as the rib, or the sock will not pass the heel."))
	b.para(b.spread())
	b.add(&pattern.CastOn{Stitches: b.n("cuff.stitches"), Begin: b.roundsBegin()})
	c.work(b)
}

// work writes the rounds of the cuff.
func (c *cuff) work(b *Builder) {
	for i, steps := range c.rounds {
		b.row(rnd(i+1), nil, steps...)
	}
	repeat := len(c.rounds)
	in, cm := b.long(func(size int) unit.Length { return b.GaugeOf(c.fabric).Height(b.of("cuff.rounds", size)) })
	b.again(pattern.Round, repeat, b.each(func(size int) int { return b.of("cuff.rounds", size)/repeat - 1 }), pattern.Again{
		Or:    pattern.Fill(say("cuff.until", "the cuff measures {0} in [{1} cm]", in, cm)),
		Total: b.n("cuff.rounds"), Count: total(b.n("cuff.stitches"))})
}

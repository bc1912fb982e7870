package sock

import (
	"sockwright/internal/design"
	"sockwright/internal/pattern"
)

// An edge is how the upper edge of the sock is cast on, or bound off.
type edge string

const (
	plainEdge    edge = "plain"
	stretchyEdge edge = "stretchy"
	sewnEdge     edge = "sewn"
	tubularEdge  edge = "tubular"
	crossedEdge  edge = "tubular, crossed" // a tubular edge whose stitches change places for k2, p2 rib
)

var cuffEdge = choice("edge", "how the edge is cast on, or bound off in a sock from the toe up: sewn only there, tubular only beside k1, p1 or k2, p2 rib", string(plainEdge), string(stretchyEdge), string(sewnEdge), string(tubularEdge)).usualUp(string(stretchyEdge))

// takeEdge takes the edge of a cuff. columns is how wide the columns of its rib are at the edge,
// where knit and purl ones are alike: 0 where it has none. From the toe up the usual edge is
// the stretchy one: a plain bind-off is tighter than a cast-on.
func takeEdge(d *Draft, t *design.Table, columns int) edge {
	e := edge(cuffEdge.nameIn(t, d.Direction))
	switch {
	case e == tubularEdge && columns == 2:
		return crossedEdge
	case e == tubularEdge && columns == 0:
		t.Clash(cuffEdge.Key, say("edge.tubular", "a tubular edge has a knit st for each purl st beside it, as k1, p1 and k2, p2 rib have, and this cuff has not"), `choose kind = "k1p1" or "k2p2", or edge = "stretchy"`)
	case e == sewnEdge && d.Direction == design.CuffDown:
		t.Clash(cuffEdge.Key, say("edge.sewn", "a sewn edge is a bind-off, and a sock from the cuff down is cast on there"), `choose edge = "stretchy", or direction = "toe-up"`)
	}
	return e
}

// rows is how many rows high the edge is by itself.
func (e edge) rows() int {
	switch e {
	case tubularEdge:
		return 2 // of four rounds, each works every other stitch
	case crossedEdge:
		return 3 // and one in which the stitches change places
	}
	return 0
}

// tubular tells whether the edge is one, for whichever rib.
func (e edge) tubular() bool { return e == tubularEdge || e == crossedEdge }

// castOn begins a sock from the cuff down.
func (e edge) castOn(b *Builder) {
	n := b.n("cuff.stitches")
	switch e {
	case stretchyEdge:
		b.tip(say("edge.cast-on.stretchy", "Stretchy cast-on: make a slip knot; for every further st lay the yarn over the needle, draw the yarn from below up through this loop, and tighten it gently to a small knot at the foot of the st. Each st so has slack of its own."))
	case tubularEdge, crossedEdge:
		b.para(say("edge.cast-on.tubular", "Tubular cast-on: cast on half of the sts with waste yarn in another color, on needles one or two sizes smaller, and join. The set-up rnds are worked with the sock yarn on the same needles; from the third of them on every other st is slipped, so that two layers grow that are as elastic as the rib. Change to the needles for the gauge afterwards."))
		half := b.each(func(size int) int { return int(n.In(size)) / 2 })
		b.add(&pattern.CastOn{Form: pattern.ProvisionalRound, Stitches: half, Begin: b.roundsBegin()})
		setUp := func(i int, c *pattern.Count, steps ...pattern.Step) {
			b.row(pattern.Label{Word: pattern.Round, Name: pattern.SetUp, Num: int32(i)}, c, steps...)
		}
		setUp(1, nil, toEnd(pattern.Knit))
		setUp(2, total(n), repeat(kN(1), do(pattern.YarnOver)))
		for i := 3; i <= 6; i += 2 {
			setUp(i, nil, repeat(sl1(), pN(1)))
			setUp(i+1, nil, repeat(kN(1), slFront()))
		}
		if e == crossedEdge {
			b.para(say("edge.cast-on.crossed", "Knit and purl sts now alternate one by one. In the last set-up rnd a purl st and the knit st after it change places in every four sts, so that they lie two by two."))
			setUp(7, total(n), repeat(kN(1), do(pattern.CrossRight), pN(1)))
		}
		b.para(say("edge.waste", "The waste yarn is taken out when the cuff is done."))
		return
	default:
		b.tip(say("cuff.tip.edge", "Cast on loosely, over a needle two sizes larger or over two needles held together: the edge must stretch as far as the cuff, or the sock will not pass the heel."))
	}
	b.add(&pattern.CastOn{Stitches: n, Begin: b.roundsBegin()})
}

// bindOff ends a sock from the toe up.
func (e edge) bindOff(b *Builder) {
	how := map[edge]pattern.Edging{plainEdge: pattern.InPattern, stretchyEdge: pattern.Stretchy, sewnEdge: pattern.Sewn, tubularEdge: pattern.Tubular, crossedEdge: pattern.Tubular}[e]
	switch e {
	case plainEdge:
		b.tip(say("edge.bind-off.plain", "Bind off loosely, with a needle two sizes larger: the edge must stretch as far as the cuff, or the sock will not pass the heel."))
	case stretchyEdge:
		b.para(say("edge.bind-off.stretchy", "Stretchy bind-off: before each st that looks like a knit st, lay the yarn over the needle from back to front; before each that looks like a purl st, from front to back. Work the st in pattern, and pass the yarn over and the st before it over this one."))
	case sewnEdge:
		b.para(say("edge.bind-off.sewn", "Sewn bind-off: break the yarn, leaving three to four times the circumference of the cuff, and thread it into a tapestry needle. Go through the first 2 sts as if to purl and draw the yarn through; go through the first st as if to knit and slip it off. Repeat to the end, and do not pull tight."))
	case tubularEdge, crossedEdge:
		if e == crossedEdge {
			b.para(say("edge.bind-off.crossed", "Tubular bind-off: first a knit st and the purl st after it change places in every four sts, so that knit and purl sts alternate one by one. Then four rnds in which every other st is slipped make two layers, which are grafted together."))
			b.row(pattern.Label{Word: pattern.Round, Name: pattern.Next}, nil, repeat(kN(1), do(pattern.CrossLeft), pN(1)))
		} else {
			b.para(say("edge.bind-off.tubular", "Tubular bind-off: four rnds in which every other st is slipped make two layers, which are then grafted together."))
		}
		for range 2 {
			b.row(pattern.Label{Word: pattern.Round, Name: pattern.Next}, nil, repeat(kN(1), slFront()))
			b.row(pattern.Label{Word: pattern.Round, Name: pattern.Next}, nil, repeat(sl1(), pN(1)))
		}
	}
	if e.tubular() {
		b.para(say("edge.bind-off.layers", "Break the yarn, leaving about four times the circumference of the cuff, and thread it into a tapestry needle. Slip the knit sts onto one needle and the purl sts onto another behind it, and graft the sts in front to those behind as follows."))
	}
	b.add(&pattern.BindOff{How: how, Stitches: b.n("cuff.stitches")})
	if e.tubular() {
		b.howToGraft()
	}
}

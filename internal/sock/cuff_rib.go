package sock

import (
	"sockwright/internal/design"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
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

func rib(kind string, multiple int, says source.Message, body ...pattern.Step) Part {
	var usual []string
	if kind == "k2p2" {
		usual = bothWays
	}
	return Part{Default: usual, Part: "cuff", Kind: kind, Says: says, Directions: bothWays, Options: []Option{cuffLengthOption, cuffEdge}, Skills: []string{"knitting in the round"},
		take: func(d *Draft, t *design.Table) construction {
			columns := 0
			if knit, purl := body[0].N.In(0), body[1].N.In(0); knit == purl {
				columns = int(knit)
			}
			return &cuff{multiple: multiple, fabric: "rib", lengths: cuffLength(d, t), edge: takeEdge(d, t, columns), rounds: [][]pattern.Step{{repeat(body...)}}}
		}}
}

var _ = register(Part{Part: "cuff", Kind: "rolled", Name: "a rolled edge", Directions: bothWays, Options: []Option{cuffLengthOption, cuffEdge}, Skills: []string{"knitting in the round"},
	Says: say("cuff.rolled.says", "an edge of stockinette that rolls up, with k2, p2 rib below it; a multiple of 4"),
	take: func(d *Draft, t *design.Table) construction {
		return &cuff{multiple: 4, fabric: "rib", lengths: cuffLength(d, t), edge: takeEdge(d, t, 0), rolled: 8, rounds: [][]pattern.Step{{repeat(kN(2), pN(2))}}}
	}})

var _ = register(Part{Part: "cuff", Kind: "folded", Name: "a turned-over cuff", Directions: bothWays, Options: []Option{cuffLengthOption, cuffEdge}, Skills: []string{"knitting in the round"},
	Says: say("cuff.folded.says", "a k2, p2 rib twice as long, worn turned over: the rib is the same from both sides; a multiple of 4"),
	take: func(d *Draft, t *design.Table) construction {
		return &cuff{multiple: 4, fabric: "rib", lengths: cuffLength(d, t), edge: takeEdge(d, t, 2), folded: true, rounds: [][]pattern.Step{{repeat(kN(2), pN(2))}}}
	}})

package sock

import (
	"sockwright/internal/design"
	"sockwright/internal/pattern"
)

var _ = register(Part{Part: "cuff", Kind: "picot-hem", Name: "a picot hem", Directions: cuffDown, Options: []Option{cuffLengthOption}, Skills: []string{"knitting in the round", "yarn overs"},
	Says: say("cuff.hem.says", "a doubled edge of stockinette with small points: a row of eyelets is the fold, and the inside is knit to the cast-on edge; an even number; holds up less than a rib"),
	take: func(d *Draft, t *design.Table) construction {
		return &hem{cuff{multiple: 2, lengths: cuffLength(d, t), rounds: [][]pattern.Step{{toEnd(pattern.Knit)}}}}
	}})

// hem is a cuff folded along a round of eyelets: as many rounds lie inside as outside, and
// one round joins each stitch with the loop of the cast-on edge below it.
type hem struct{ cuff }

// top is the fold: the cast-on edge lies inside.
func (h *hem) top(string) string { return "the points of the hem" }

func (h *hem) build(b *Builder) {
	b.section("Cuff")
	b.tip(say("hem.tip", "Cast on loosely: the edge is knit together with the cuff, and must stretch as far as the leg. A needle one size smaller for the inside makes the hem lie flat."))
	b.para(b.spread())
	n, rounds := b.n("cuff.stitches"), b.n("cuff.rounds")
	b.add(&pattern.CastOn{Stitches: n, Begin: b.roundsBegin()})
	b.add(&pattern.Plain{Op: pattern.Knit, Rounds: rounds})
	b.row(pattern.Label{Word: pattern.Round, Name: pattern.Next}, total(n), repeat(do(pattern.YarnOver), do(pattern.K2tog)))
	b.para(say("hem.fold", "The eyelets of this rnd are the points of the edge. Knit the outside as far as the inside."))
	b.add(&pattern.Plain{Op: pattern.Knit, Rounds: rounds})
	b.para(say("hem.join", "Fold the hem to the inside along the eyelets. In the next rnd every st is knit together with the loop of the cast-on edge that lies behind it; miss none, or the hem will slant."))
	b.row(pattern.Label{Word: pattern.Round, Name: pattern.Next}, total(n), pattern.Step{Op: pattern.KnitHem, N: n})
}

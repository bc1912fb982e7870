package sock

import (
	"sockwright/internal/design"
	"sockwright/internal/pattern"
)

var _ = register(Part{Part: "cuff", Kind: "garter", Skills: []string{"knitting in the round"}, Options: []Option{cuffLengthOption, cuffEdge}, Directions: bothWays,
	Says: say("cuff.garter.says", "garter stitch: knit and purl rounds by turns; hardly draws in, so the sock is worn low; any number of stitches"),
	take: func(d *Draft, t *design.Table) construction {
		return &cuff{multiple: 1, fabric: "garter", lengths: cuffLength(d, t), edge: takeEdge(d, t, 0), rounds: [][]pattern.Step{{toEnd(pattern.Knit)}, {toEnd(pattern.Purl)}}}
	}})

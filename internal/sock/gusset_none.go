package sock

import (
	"sockwright/internal/design"
	"sockwright/internal/grade"
)

var _ = register(Part{Part: "gusset", Kind: "none", Directions: bothWays,
	Says: say("gusset.none.says", "no gusset: the heel ends with as many stitches as it began, and the foot has as many as the leg"),
	take: func(*Draft, *design.Table) construction { return noGusset{} }})

// noGusset is what stands in the place of a gusset where the heel needs none.
type noGusset struct{}

func (noGusset) declare(d *Draft) {
	rounds := 0
	if d.Direction == design.CuffDown {
		rounds = cornerRounds
	}
	d.Model.Add(follows("gusset.rounds", "rounds of the foot that close the corners of the heel", "rnds",
		func(grade.Values) int { return rounds },
		func(grade.Values) grade.Reason {
			r := grade.Reason{Rule: "corner-rounds", Text: say("why.corner.rounds", "one that picks up a stitch in each corner, one that takes it away")}
			if rounds == 0 {
				r.Text = say("why.corner.leg", "the corners are closed by the first rounds of the leg")
			}
			return r
		}))
	d.footAsLeg()
}

func (noGusset) build(*Builder) {}

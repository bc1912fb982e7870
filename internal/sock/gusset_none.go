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
	corners := d.v("heel.corner_rounds")
	up := d.Direction == design.ToeUp
	d.Model.Add(follows("gusset.rounds", "rounds of the foot that belong to the heel", "rnds",
		func(v grade.Values) int {
			if up {
				return 0
			}
			return v.Of(corners)
		},
		func(v grade.Values) grade.Reason {
			r := grade.Reason{Rule: "corner-rounds", Text: say("why.corner.foot", "the {0} that close the heel", v.Of(corners)), Terms: []grade.Term{v.Term(corners)}}
			if up {
				r.Text = say("why.corner.leg", "those that close the heel are the first of the leg")
			}
			return r
		}))
	d.footAsLeg()
}

func (noGusset) build(*Builder) {}

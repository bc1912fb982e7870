package sock

import (
	"sockwright/internal/design"
	"sockwright/internal/grade"
	"sockwright/internal/source"
)

var _ = register(Part{Part: "gusset", Kind: "exact", Directions: cuffDown, Skills: []string{"picking up sts along an edge"},
	How:  say("gusset.exact.opening", "The instep stitches rest while the heel is worked; then as many stitches are picked up along its edges as the heel has decreased, so none of them has to be decreased again."),
	Says: say("gusset.exact.says", "no gusset: as many stitches are picked up along the heel as it has decreased, so the foot has as many as the leg at once"),
	take: func(*Draft, *design.Table) construction { return exactGusset{} }})

// exactGusset picks up what the heel has decreased: g = (H − F) / 2 − chains in each corner.
type exactGusset struct{}

func (exactGusset) declare(d *Draft) {
	heel, left, chains := d.v("heel.stitches"), d.v("heel.stitches_left"), d.v("heel.edge_chains")
	d.pickUpNumbers(grade.Var{
		Is: func(v grade.Values) int { return (v.Of(heel)-v.Of(left))/2 - v.Of(chains) },
		Rules: []grade.Rule{rule("exact-corner", "the edges of the heel have as many chains as stitches are missing at each side, or up to 2 fewer, which are picked up in the corner; a shorter flap or a wider band may do it, or a gusset of the kind instep", func(_ grade.Values, n int) bool {
			return n >= 0 && n <= 2
		})},
		Why: func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "exact-corner", Text: say("why.corner.exact", "({0} − {1}) / 2 are missing at each side, and {2} are picked up in the chains", v.Of(heel), v.Of(left), v.Of(chains)), Terms: []grade.Term{v.Term(heel), v.Term(left), v.Term(chains)}}
		}})
	d.Model.Add(follows("gusset.rounds", "rounds that pick up", "rnds",
		func(grade.Values) int { return 2 },
		func(grade.Values) grade.Reason {
			return grade.Reason{Rule: "gusset-rounds", Text: say("why.gusset.exact", "one to pick up and one to twist the stitches")}
		}))
	d.footAsLeg()
}

func (exactGusset) build(b *Builder) {
	pickUpRounds{Builder: b}.write(true)
	b.para(source.Say("gusset.exact.done", "The sock has as many sts again as before the heel."))
}

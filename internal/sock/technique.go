package sock

import (
	"slices"

	"sockwright/internal/design"
	"sockwright/internal/pattern"
)

// How stitches are decreased and increased is a matter of habit: the counts are the same. The
// table "technique" of the design chooses for the whole sock.
var (
	decreases = choice("decreases", "how a decrease that leans left is knitted: with ssk, which mirrors k2tog, or with the older slip-knit-pass", "ssk", "skp")
	increases = choice("increases", "how stitches are increased: made of the strand between two, or lifted out of the row below", "made", "lifted")
)

// A technique is what is worked in the place of the usual ops.
type technique map[pattern.Op]pattern.Op

// takeTechnique takes the choices of the design for all parts. A part that makes the same
// choice by itself cannot have it made for it as well.
func takeTechnique(d *design.Design) technique {
	t := d.Part("technique")
	own := technique{}
	if decreases.name(t) == "skp" {
		own[pattern.Ssk] = pattern.Skp
	}
	if increases.name(t) == "lifted" {
		own[pattern.M1L], own[pattern.M1R] = pattern.LiftedL, pattern.LiftedR
	}
	for _, key := range []string{decreases.Key, increases.Key} {
		for _, part := range order {
			if p := d.Part(part); t.Has(key) && p.Has(key) {
				p.Clash(key, say("technique.twice", "the table [technique] chooses this for the whole sock, and this line for the {0} alone", part), "leave one of the two out")
			}
		}
	}
	return own
}

// apply puts the technique into the rows of a pattern. Rows may share their steps, which are
// left as they are.
func (own technique) apply(p *pattern.Pattern) {
	p.Each(func(_ *pattern.Section, n pattern.Node) {
		if row, ok := n.(*pattern.Row); ok {
			for i := range row.Parts {
				row.Parts[i].Steps = own.steps(row.Parts[i].Steps)
			}
		}
	})
}

func (own technique) steps(steps []pattern.Step) []pattern.Step {
	steps = slices.Clone(steps)
	for i := range steps {
		if op, ok := own[steps[i].Op]; ok {
			steps[i].Op = op
		}
		steps[i].Body = own.steps(steps[i].Body)
	}
	return steps
}

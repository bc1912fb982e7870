package check

import (
	"slices"

	"sockwright/internal/pattern"
	"sockwright/internal/script"
	"sockwright/internal/source"
)

// edges warns of a row that shapes both sides, with another number of plain stitches beyond
// the shaping on one side than on the other: "k1, ssk, k to last 3 sts, k2tog, k1"; and of one
// with another number of edge stitches: "k4, p to last 4 sts, k4".
func (e *editor) edges() {
	e.eachRow(func(row []script.Step) {
		var before, behind []pattern.Number
		runs := false // stitches are worked up to some place
		var look func(steps []script.Step)
		look = func(steps []script.Step) {
			for i, s := range steps {
				runs = runs || s.To != script.Here
				if s.Op == script.Group {
					look(s.Body)
				}
				if !shapes(s) {
					continue
				}
				if i > 0 && plainRun(steps[i-1]) && (i == 1 || partsSides(steps[i-2])) && i+1 < len(steps) && steps[i+1].To != script.Here {
					before = append(before, steps[i-1].N)
				}
				if i > 0 && steps[i-1].To != script.Here && i+1 < len(steps) && plainRun(steps[i+1]) && (i+2 == len(steps) || partsSides(steps[i+2])) {
					behind = append(behind, steps[i+1].N)
				}
			}
		}
		look(row)
		if n := len(row); n == 3 && plainRun(row[0]) && plainRun(row[2]) && row[0].Op == row[2].Op && row[1].To == script.End && row[1].Op != row[0].Op {
			before, behind = append(before, row[0].N), append(behind, row[2].N) // an edge of another stitch
		}
		if !runs || len(before) == 0 || len(behind) == 0 {
			return
		}
		all := slices.Concat(before, behind)
		usual := all[0]
		for _, n := range all {
			if like(all, n) > like(all, usual) {
				usual = n
			}
		}
		for _, n := range all {
			if !slices.Equal(n.Val, usual.Val) {
				e.say(n.At, e.unlike(n, usual), source.StitchCount, source.Warning,
					source.Say("edit.edges", "{0} at one edge here and {1} at the other", pattern.List(usual.Strings()), pattern.List(n.Strings())),
					advice("edit.mend-edges", "for edges that are alike, write the same number on both sides"))
				return
			}
		}
	})
}

// like counts the numbers that are equal to one.
func like(all []pattern.Number, n pattern.Number) (count int) {
	for _, other := range all {
		if slices.Equal(n.Val, other.Val) {
			count++
		}
	}
	return count
}

// unlike are the sizes in which two numbers differ.
func (e *editor) unlike(a, b pattern.Number) (sizes source.SizeSet) {
	for size := range e.words.Sizes {
		if a.In(size) != b.In(size) {
			sizes |= source.OneSize(size)
		}
	}
	return sizes
}

// eachRow visits the steps of the rows of the text.
func (e *editor) eachRow(do func([]script.Step)) {
	for i := range e.words.Lines {
		for _, item := range e.words.Lines[i].Items {
			switch n := item.(type) {
			case *script.Row:
				do(n.Steps)
			case *script.Shape:
				do(n.Steps)
			}
		}
	}
}

// shapes: a step that takes or adds a stitch.
func shapes(s script.Step) bool { return s.Op == script.Decrease || s.Op == script.Increase }

// plainRun: so many plain stitches.
func plainRun(s script.Step) bool {
	return (s.Op == script.Knit || s.Op == script.Purl) && s.To == script.Here && s.N.Known()
}

// partsSides: a step that parts the two sides of a row.
func partsSides(s script.Step) bool {
	return s.Op == script.ToNeedle || s.Op == script.PassMarker || s.Op == script.TakeMarker
}

// returns warns of a foot that goes back to the stitches of the leg in all sizes but one.
func (e *editor) returns() {
	sizes := len(e.words.Sizes)
	if sizes < 3 {
		return
	}
	var leg pattern.Number
	picked := false
	for i := range e.words.Lines {
		for _, item := range e.words.Lines[i].Items {
			switch n := item.(type) {
			case *script.CastOn:
				leg = n.N
			case *script.State:
				if !leg.Known() && n.Is && n.Claims[0].What == script.Live {
					leg = n.Claims[0].N
				}
			case *script.Row:
				picked = picked || slices.ContainsFunc(n.Steps, func(s script.Step) bool { return s.Op == script.PickUp })
			case *script.Repeat:
				if picked && n.Stop.Kind == script.Remain {
					e.returnTo(leg, n.Stop.N)
					return
				}
			case *script.Shape:
				if picked && n.Stop.Kind == script.Remain {
					e.returnTo(leg, n.Stop.N)
					return
				}
			}
		}
	}
}

func (e *editor) returnTo(leg, foot pattern.Number) {
	sizes := len(e.words.Sizes)
	if len(leg.Val) != sizes || len(foot.Val) != sizes {
		return
	}
	if odd := e.unlike(leg, foot); odd.Len() == 1 {
		for size := range sizes {
			if odd.Has(size) && leg.In(size) != pattern.Gap && foot.In(size) != pattern.Gap {
				e.say(foot.Span(size), odd, source.SizeColumn, source.Warning,
					source.Say("edit.returns", "in every other size the gusset is decreased back to the stitches of the leg, which here are {0}, not {1}", int(leg.In(size)), int(foot.In(size))),
					advice("edit.mend-returns", "compare the foot of this size with its leg"))
			}
		}
	}
}

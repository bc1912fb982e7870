package follow

import (
	"slices"

	"sockwright/internal/script"
)

func hasTurn(steps []script.Step) bool {
	return slices.ContainsFunc(steps, func(s script.Step) bool { return s.Op == script.Turn })
}

func hasGapDec(steps []script.Step) bool {
	return slices.ContainsFunc(steps, func(s script.Step) bool { return s.To == script.Gap })
}

func shapes(r *script.Row) bool {
	return r.Label.Name == "dec" || r.Label.Name == "inc" || changes(r.Steps)
}

func changes(steps []script.Step) bool {
	return slices.ContainsFunc(steps, func(s script.Step) bool {
		return s.Op != script.PickUp && s.Uses != s.Makes && s.Op != script.Group && s.Op != script.ToNeedle && s.Op != script.Turn && s.Op != script.Wrap || s.Op == script.Group && changes(s.Body)
	})
}

func ribBody(steps []script.Step) int {
	for _, s := range steps {
		if s.Op != script.Group {
			continue
		}
		k, p, sum := 0, 0, 0
		for _, b := range s.Body {
			n := 1
			if b.N.Known() {
				n = int(b.N.In(0))
			}
			switch b.Op {
			case script.Knit:
				k++
			case script.Purl:
				p++
			default:
				return 0
			}
			sum += n
		}
		if k > 0 && k == p {
			return sum / k
		}
	}
	return 0
}

// hasTimes tells whether a row says "rep from * n times", which can be read in two ways.
func hasTimes(steps []script.Step) bool {
	return slices.ContainsFunc(steps, func(s script.Step) bool {
		return s.Op == script.Group && (s.Stop.Kind == script.Times || hasTimes(s.Body))
	})
}

// setsUp tells whether a row is the set-up of one part, and tells no more than that.
func setsUp(r *script.Row) bool { return r.Label.Name == "set-up" && ofOneNeedle(r.Steps) }

// ofOneNeedle tells whether all steps are said to be for one needle.
func ofOneNeedle(steps []script.Step) bool {
	return steps[0].Op == script.ToNeedle && !slices.ContainsFunc(steps[1:], func(s script.Step) bool { return s.Op == script.ToNeedle })
}

// slipsFirst tells whether the first stitch of a row is slipped.
func slipsFirst(steps []script.Step) bool {
	if len(steps) == 0 {
		return false
	}
	return steps[0].Op == script.Slip || steps[0].Op == script.Group && slipsFirst(steps[0].Body)
}

func picksUp(steps []script.Step) bool {
	return slices.ContainsFunc(steps, func(s script.Step) bool { return s.Op == script.PickUp || picksUp(s.Body) })
}

// perNeedle tells whether the body of a repeat goes to the end of a needle or to the side,
// so that each pass is for the next one.
func perNeedle(body []script.Step) bool {
	return slices.ContainsFunc(body, func(s script.Step) bool {
		return (s.To == script.End || s.To == script.SideMark) && s.Op != script.Group
	})
}

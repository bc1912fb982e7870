package picture

import (
	"math"

	"sockwright/internal/grade"
	"sockwright/internal/sock"
)

// Collisions are the names of parts and letters of measures that lie on each other.
func Collisions(d *sock.Draft, plan *grade.Plan, size int, layout Layout) (found []string) {
	_, letter := dimensions(d, plan, size)
	labels, lines := newOutline(d, plan, size, layout.frame(len(d.Sizes))).places(letter)
	for i, l := range labels {
		for _, other := range labels[:i] {
			if l.box().overlaps(other.box()) {
				found = append(found, l.s+" on "+other.s)
			}
		}
		for _, x := range lines {
			if l.box().away(x.x, x.y) < circle {
				found = append(found, x.letter+" on "+l.s)
			}
		}
	}
	for i, x := range lines {
		for _, other := range lines[:i] {
			if math.Hypot(x.x-other.x, x.y-other.y) < 2*circle {
				found = append(found, x.letter+" on "+other.letter)
			}
		}
	}
	return found
}

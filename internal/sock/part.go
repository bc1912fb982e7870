package sock

import (
	"cmp"
	"slices"

	"sockwright/internal/design"
	"sockwright/internal/source"
)

// A Part is one construction: a way to make one part of a sock.
type Part struct {
	Part       string // "heel"
	Kind       string // "band"
	Says       source.Message
	Directions []string

	// take reads the options from the design's table of the part.
	take func(d *Draft, t *design.Table) construction
}

// A construction is a part with its options taken.
type construction interface {
	declare(d *Draft)
	build(b *Builder)
}

// order is the order of parts from the cuff down, which is also the order in which their
// numbers follow from each other.
var order = []string{"cuff", "leg", "heel", "gusset", "foot", "toe"}

var parts []Part

func register(p Part) Part {
	parts = append(parts, p)
	return p
}

// Parts lists all constructions, from the cuff down, those of a part by name.
func Parts() []Part {
	list := slices.Clone(parts)
	slices.SortFunc(list, func(a, b Part) int {
		return cmp.Or(cmp.Compare(slices.Index(order, a.Part), slices.Index(order, b.Part)), cmp.Compare(a.Kind, b.Kind))
	})
	return list
}

// kinds lists the kinds of a part, the default one first.
func kinds(part string) []string {
	first := map[string]string{"cuff": "k2p2", "leg": "plain", "heel": "band", "gusset": "instep", "foot": "plain", "toe": "wedge"}[part]
	list := []string{first}
	for _, p := range Parts() {
		if p.Part == part && p.Kind != first {
			list = append(list, p.Kind)
		}
	}
	return list
}

func find(part, kind string) Part {
	for _, p := range parts {
		if p.Part == part && p.Kind == kind {
			return p
		}
	}
	panic("sock: no construction " + part + " " + kind)
}

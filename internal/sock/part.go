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
	Name       string // as a noun among others: "a band heel"; empty where it goes without saying
	Says       source.Message
	How        source.Message // sentences for somebody who has never met it, before the first stitch; may be empty
	Notions    []string       // what it needs besides needles: "tapestry needle"
	Markers    int            // how many stitch markers it needs at once
	Skills     []string       // what a knitter must know to work it
	Directions []string       // in which it is worked
	Default    []string       // directions in which a design that names no kind has this one
	Options    []Option       // keys of its table of the design file, besides kind
	Sided      bool           // left and right sock differ
	Gussets    []string       // of a heel: the kinds of gusset that it goes with, the usual one first

	// take reads the options from the design's table of the part.
	take func(d *Draft, t *design.Table) construction
}

// A construction is a part with its options taken.
type construction interface {
	declare(d *Draft)
	build(b *Builder)
}

// A construction that is finished when the rest of the sock is done, such as a heel put in
// later, builds the rest of itself then.
type finisher interface{ buildLast(b *Builder) }

// A teller says of itself, once its options are taken, what its Part cannot know.
type teller interface{ tell(d *Draft, p *Part) }

// Directions for those that are worked in one only, or in both.
var (
	cuffDown = []string{design.CuffDown}
	toeUp    = []string{design.ToeUp}
	bothWays = []string{design.CuffDown, design.ToeUp}
)

// order is the order of parts from the cuff down. Their numbers follow from each other in
// this order, whichever way the sock is worked.
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

// kinds lists the kinds of a part that are worked in a direction, the default one first.
func kinds(part, direction string) []string {
	var list []string
	for _, p := range Parts() {
		if p.Part != part || !slices.Contains(p.Directions, direction) {
			continue
		}
		if slices.Contains(p.Default, direction) {
			list = slices.Insert(list, 0, p.Kind)
		} else {
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

package sock

// The construction of docs/adding-a-construction.md: a test holds the page to this file.

import (
	"sockwright/internal/design"
	"sockwright/internal/pattern"
	"sockwright/internal/unit"
)

var _ = register(Part{Part: "leg", Kind: "purled", Name: "a purled leg",
	Directions: cuffDown, Options: []Option{legLength}, Skills: []string{"purling in the round"},
	Says: say("leg.purled.says", "a straight tube with the purl side out"),
	take: func(d *Draft, t *design.Table) construction {
		usual := func(size int) unit.Length { return quarterInch(d.Sizes[size].Length * 5 / 8) }
		return &purledLeg{lengths: legLength.lengths(t, d, usual)}
	}})

// purledLeg is a straight leg of purl rounds.
type purledLeg struct {
	lengths []unit.Length // from the edge of the sock to the heel
}

func (l *purledLeg) declare(d *Draft) { d.declareLegRounds(l.lengths) }

func (l *purledLeg) build(b *Builder) {
	b.section("Leg")
	changes := b.changeTo("cuff.stitches", "leg.stitches")
	in, cm := b.long(func(size int) unit.Length { return b.finished("leg.length", b.plan.At(size)) })
	b.add(&pattern.Plain{Op: pattern.Purl,
		Rounds: b.each(func(size int) int { return b.of("leg.rounds", size) - changes(size) }),
		Or:     pattern.Fill(say("leg.until", "the leg measures {0} in [{1} cm] from the cast-on edge", in, cm)),
		Count:  total(b.n("leg.stitches"))})
}

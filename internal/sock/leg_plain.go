package sock

import (
	"sockwright/internal/design"
	"sockwright/internal/pattern"
	"sockwright/internal/unit"
)

var legLength = length("length", "length of the leg, cuff included; five eighths of the foot where nothing is said", 10, 600)

var _ = register(Part{Part: "leg", Kind: "plain", Options: []Option{legLength}, Default: bothWays, Directions: bothWays,
	Says: say("leg.plain.says", "a straight tube of stockinette: for ankle socks and socks to mid-calf"),
	take: func(d *Draft, t *design.Table) construction {
		return &plainLeg{lengths: legLength.lengths(t, d, func(i int) unit.Length { return quarterInch(d.Sizes[i].Length * 5 / 8) })}
	}})

// plainLeg is a straight leg. Its default length, cuff included, is five eighths of the
// foot, to the nearest quarter inch: 6 in for a foot of 9 1/2 in (house rule).
type plainLeg struct {
	lengths []unit.Length // cuff included
}

func (l *plainLeg) declare(d *Draft) { d.declareLegRounds(l.lengths) }

func (l *plainLeg) build(b *Builder) {
	b.section("Leg")
	if b.Direction == design.ToeUp {
		b.add(&pattern.Plain{Op: pattern.Knit,
			Rounds: b.each(func(size int) int {
				return b.of("leg.rounds", size) - b.of("heel.corner_rounds", size) - b.miniRounds()
			}),
			Or:    b.fromHeel(),
			Count: total(b.n("leg.stitches"))})
		return
	}
	changes := b.changeTo("cuff.stitches", b.topOfLeg)
	b.add(&pattern.Plain{Op: pattern.Knit,
		Rounds: b.each(func(size int) int { return b.of("leg.rounds", size) - changes(size) - b.miniRounds() }),
		Or:     b.fromTop(b.legToHeel),
		Count:  total(b.n("leg.stitches"))})
}

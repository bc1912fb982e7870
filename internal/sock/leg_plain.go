package sock

import (
	"slices"

	"sockwright/internal/design"
	"sockwright/internal/motif"
	"sockwright/internal/pattern"
	"sockwright/internal/unit"
)

var legLength = length("length", "length of the leg, cuff included; five eighths of the foot where nothing is said", 10, 600)

var legMotif = choice("motif", "the stitch pattern of the leg", append([]string{"none"}, motif.Keys()...)...)

var _ = register(Part{Part: "leg", Kind: "plain", Options: []Option{legLength, legMotif}, Default: bothWays, Directions: bothWays,
	Says: say("leg.plain.says", "a straight tube of stockinette or of a stitch pattern: for ankle socks and socks to mid-calf"),
	take: func(d *Draft, t *design.Table) construction {
		return &plainLeg{
			lengths: legLength.lengths(t, d, func(i int) unit.Length { return quarterInch(d.Sizes[i].Length * 5 / 8) }),
			motif:   motif.Find(legMotif.name(t)),
		}
	}})

// plainLeg is a straight leg. Its default length, cuff included, is five eighths of the
// foot, to the nearest quarter inch: 6 in for a foot of 9 1/2 in (house rule).
type plainLeg struct {
	lengths []unit.Length // cuff included
	motif   *motif.Motif  // nil for stockinette
}

func (l *plainLeg) declare(d *Draft) {
	rounds := d.declareLegRounds(l.lengths)
	if l.motif != nil {
		rounds.Rules = append(rounds.Rules, l.holdsMotif())
	}
}

// tell adds what the stitch pattern of the leg asks of the knitter.
func (l *plainLeg) tell(_ *Draft, p *Part) {
	if l.motif == nil {
		return
	}
	p.Name = "a leg in " + l.motif.Title
	switch l.motif.Kind {
	case "lace":
		p.Skills = append(slices.Clone(p.Skills), "yarn overs")
	case "cable":
		p.Skills = append(slices.Clone(p.Skills), "cables")
		p.Notions = append(p.Notions, "cable needle")
	case "twisted":
		p.Skills = append(slices.Clone(p.Skills), "twisted sts")
	}
}

func (l *plainLeg) build(b *Builder) {
	if l.motif != nil {
		b.tellMotif(l.motif)
	}
	b.section("Leg")
	if b.Direction == design.ToeUp {
		l.rounds(b, func(size int) int {
			return b.of("leg.rounds", size) - b.of("heel.corner_rounds", size) - b.miniRounds()
		}, b.fromHeel)
		return
	}
	changes := b.changeTo("cuff.stitches", b.topOfLeg)
	l.rounds(b, func(size int) int { return b.of("leg.rounds", size) - changes(size) - b.miniRounds() }, func() pattern.Text { return b.fromTop(b.legToHeel) })
}

// rounds writes the rounds of the leg; or is the measure that says the same.
func (l *plainLeg) rounds(b *Builder, rounds func(size int) int, or func() pattern.Text) {
	if l.motif != nil {
		b.inMotif(l.motif, rounds, or)
		return
	}
	b.add(&pattern.Plain{Op: pattern.Knit, Rounds: b.each(rounds), Or: or(), Count: total(b.n("leg.stitches"))})
}

package sock

import (
	"sockwright/internal/design"
	"sockwright/internal/grade"
	"sockwright/internal/motif"
	"sockwright/internal/pattern"
)

// A leg in a stitch pattern: the round is a multiple of its repeat, and it is worked in whole
// repeats from the first round to the last, so that it ends as it was meant to; rounds that
// are too few for another repeat are plain, beside the heel.

// legMotif is the stitch pattern of the leg, or nil.
func (d *Draft) legMotif() *motif.Motif {
	for _, p := range d.parts {
		if leg, ok := p.(*plainLeg); ok {
			return leg.motif
		}
	}
	return nil
}

// holdsMotif is the rule that the leg is long enough for the stitch pattern. The cuff's
// increase and the rounds of a small gusset come off.
func (l *plainLeg) holdsMotif() grade.Rule {
	const others = 4
	return rule("leg-motif", "the leg holds all rounds of its stitch pattern once at least", func(_ grade.Values, n int) bool { return n >= len(l.motif.Rows)+others })
}

// tellMotif writes the section that tells a stitch pattern.
func (b *Builder) tellMotif(m *motif.Motif) {
	b.section(m.Title)
	b.para(say("motif.how", "The stitch pattern of the leg. Its rnds are given here once and worked in the leg, in order from Rnd 1 to Rnd {0} and then from Rnd 1 again.", len(m.Rows)))
	if b.Direction == design.ToeUp {
		b.para(say("motif.up", "Worked from the toe up, it stands the other way up when the sock is worn."))
	}
	b.add(m.Node())
	b.tip(say("motif.tip", "A stitch pattern draws in or gives in its own way. Try the sock on after some rnds, or work a swatch of it in the round; change the needle for the leg if it is too tight or too wide."))
}

// inMotif writes rounds in a stitch pattern, as many whole repeats as they hold, and the rest
// in stockinette; or is the measure that says the same as all of them.
func (b *Builder) inMotif(m *motif.Motif, rounds func(size int) int, or func() pattern.Text) {
	rest := func(size int) int { return rounds(size) % len(m.Rows) }
	some := func(size int) bool { return rest(size) > 0 }
	plain := func(or pattern.Text) {
		b.add(&pattern.Plain{Op: pattern.Knit, Rounds: b.each(rest), Or: or, Count: total(b.n("leg.stitches"))})
	}
	whole := &pattern.Plain{Op: pattern.InMotif, Name: m.Title, Count: total(b.n("leg.stitches")),
		Rounds: b.each(func(size int) int { return rounds(size) - rest(size) })}
	if b.Direction == design.ToeUp { // the pattern ends at the cuff
		b.where(some, func() { plain(nil) })
		whole.Or = or()
		b.add(whole)
		return
	}
	if b.each(rest).Is(0) {
		whole.Or = or()
	}
	b.add(whole)
	b.where(some, func() { plain(or()) })
}

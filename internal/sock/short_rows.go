package sock

import (
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

// shortRowTips tell how the turns are worked (common practice).
var shortRowTips = map[pattern.Turned]source.Message{
	pattern.Wrapped: say("heel.wrapped.tip", "To wrap and turn on the RS: bring the yarn to the front, slip the next st as if to purl, take the yarn back, return the st, turn. On the WS: take the yarn back, slip, bring the yarn to the front, return the st, turn. To work a st with its wrap, lift the wrap onto the needle beside the st and work the two together; on the WS lift it from the RS, which lies behind."),
	pattern.Twin:    say("heel.twin.tip", "To make a twin, draw a loop with the yarn out of the st that lies below the next st on the {left} needle, and put it on the {left} needle beside that st: the two are a twin, and count as 1 st. Draw the yarn snug after the turn. To work a st with its twin, work both loops as one."),
	pattern.Over:    say("heel.yarn-over.tip", "The yo lies over the needle before the first st of the new row; on the WS bring the yarn to the front under the needle and over it. It belongs to the st that was left, and is not counted as a st. To work a st with its yo on the RS, knit the two together so that the st lies on top; on the WS slip both as if to knit one by one, return them, and purl them together through the back loops."),
	pattern.Doubled: say("heel.double-stitch.tip", "To make a DS after turning, bring the yarn to the front, slip the first st as if to purl, and pull the yarn up over the needle to the back until both legs of the st lie on the needle; on a WS row bring the yarn to the front again before purling. A DS counts as 1 st. To work it, work its two legs as one."),
}

// shortRowsTwice tell of stitches that are turned a second time before the first has been worked
// off (common practice).
var shortRowsTwice = map[pattern.Turned]source.Message{
	pattern.Wrapped: say("heel.wrapped.twice", "From the third row of this half on a st has two wraps: lift both."),
	pattern.Over:    say("heel.yarn-over.twice", "From the third row of this half on a st has two yos: work all three together."),
}

// howToTurn tells how the turns are worked, the first time in full.
func (b *Builder) howToTurn(turn pattern.Turned) {
	if b.turnsTold == turn {
		b.para(say("short.turn.as-before", "The turns are worked as before."))
		return
	}
	b.turnsTold = turn
	b.para(shortRowTips[turn])
}

// shortRows are rows worked to and fro over some stitches, each a stitch shorter than the one
// before until only the middle is left, and then each a stitch longer again. The numbers are
// those of the plan under these keys.
type shortRows struct {
	turn                    pattern.Turned
	stitches, middle, turns string
}

// work writes both halves; part names what they are.
func (s shortRows) work(b *Builder, part string) {
	s.firstHalf(b)
	b.section(part + ", second half")
	b.para(say("short.second", "In the second half the rows grow longer."))
	if twice, ok := shortRowsTwice[s.turn]; ok {
		b.para(twice)
	}
	s.widen(b)
}

func (s shortRows) firstHalf(b *Builder) {
	turns := func(size int) int { return b.of(s.turns, size) }
	b.para(say("short.first", "In the first half the rows grow shorter."))
	s.narrow(b)
	b.again(pattern.FlatRow, 2, b.each(func(size int) int { return turns(size) - 2 }), pattern.Again{
		Total: b.each(func(size int) int { return 2 * turns(size) }), Count: total(b.n(s.stitches))})
	b.para(say("short.middle", "On each side {0} sts now wait turned, and {1} lie between them.", b.n(s.turns), b.n(s.middle)))
}

// apart writes both halves of a heel with so many rounds over all stitches between them. The
// rounds begin behind the turns on the right of the middle, where the first half ends and the
// second begins: each works the middle, the turns on its left, the instep and the turns on
// its right.
func (s shortRows) apart(b *Builder, rounds int) {
	s.firstHalf(b)
	b.section("Heel, rounds between")
	if rounds == 1 {
		b.para(say("short.round", "Now 1 rnd is worked over all sts, from the middle of the heel round to the {right} side of it; it works the turned sts as they come."))
	} else {
		b.para(say("short.rounds", "Now {0} rnds are worked over all sts, from the middle of the heel round to the {right} side of it; the first works the turned sts as they come.", rounds))
	}
	if s.turn == pattern.Over {
		b.para(say("short.rounds.yarn-over", "On the {left} of the middle the yo comes before its st: knit the two together. On the {right} it comes after it: slip both as if to knit, one by one, and knit them together through the back loops. So the st lies on top each time."))
	}
	all := func(size int) int { return b.of(s.stitches, size) + int(b.instep().In(size)) }
	turned := times(b.n(s.turns), closed(pattern.Knit, s.turn))
	b.row(named(pattern.Partial, pattern.RS), nil, toGap(pattern.Knit, 0, s.turn), turned)
	b.add(&pattern.Rejoin{Stitches: b.each(all), Place: pattern.SideOfInstep})
	if rounds > 1 {
		b.row(rnd(1), nil, k(b.instep()), turned, toEnd(pattern.Knit))
	}
	if rounds > 2 {
		b.add(&pattern.Plain{Op: pattern.Knit, Rounds: pattern.Of(rounds - 2), Count: total(b.each(all))})
	}
	b.row(pattern.Label{Word: pattern.Round, Name: pattern.Partial}, nil, k(b.instep()))
	b.add(&pattern.Begin{Place: pattern.SideOfSole})
	b.add(&pattern.Divide{Heel: b.n(s.stitches), Rest: b.instep()})
	b.section("Heel, second half")
	b.para(say("short.second.anew", "In the second half the rows grow longer, from the middle of the heel to its sides. Row 1 goes over the sts on the {right} of the middle, the middle itself and the sts beyond it that it names."))
	s.widenAnew(b, rounds == 1)
}

// widenAnew writes a second half that begins in the middle, where nothing waits turned.
// pending are turns of the first half that the first row comes to.
func (s shortRows) widenAnew(b *Builder, pending bool) {
	beyond := 1
	if s.turn == pattern.Doubled { // the stitch is worked before it is doubled
		beyond = 2
	}
	middle := func(more int) pattern.Number {
		return b.each(func(size int) int { return b.of(s.middle, size) + more })
	}
	first := on(k(b.each(func(size int) int { return b.of(s.turns, size) + b.of(s.middle, size) + beyond })))
	if pending {
		first = on(times(b.n(s.turns), closed(pattern.Knit, s.turn)), k(middle(beyond)))
	}
	b.row(row(1, pattern.RS), nil, append(first, turn(s.turn))...)
	b.row(row(2, pattern.WS), nil, p(middle(beyond+1)), turn(s.turn))
	b.where(func(size int) bool { return b.of(s.turns, size) > 2 }, func() {
		rows := func(side pattern.Op) []pattern.Step {
			line := on(toGap(side, 0, s.turn), closed(side, s.turn))
			if s.turn == pattern.Doubled {
				line = append(line, pattern.Step{Op: side, N: pattern.Of(1)})
			}
			return append(line, turn(s.turn))
		}
		b.row(row(3, pattern.RS), nil, rows(pattern.Knit)...)
		b.row(row(4, pattern.WS), nil, rows(pattern.Purl)...)
		b.again(pattern.FlatRow, 2, b.each(func(size int) int { return b.of(s.turns, size) - 3 }), pattern.Again{
			Total: b.each(func(size int) int { return 2*b.of(s.turns, size) - 2 }), Count: total(b.n(s.stitches))})
	})
	s.lastRows(b)
}

// narrow writes rows 1 to 4 of the first half.
func (s shortRows) narrow(b *Builder) {
	if s.turn == pattern.Doubled { // the stitch is worked before it is doubled
		b.row(row(1, pattern.RS), nil, toEnd(pattern.Knit), turn(s.turn))
		b.row(row(2, pattern.WS), nil, toEnd(pattern.Purl), turn(s.turn))
	} else {
		b.row(row(1, pattern.RS), nil, toLast(pattern.Knit, 1), turn(s.turn))
		b.row(row(2, pattern.WS), nil, toLast(pattern.Purl, 1), turn(s.turn))
	}
	s.shorter(b)
}

// shorter writes rows 3 and 4, which turn a stitch before the last turn on their side.
func (s shortRows) shorter(b *Builder) {
	before := 1
	if s.turn == pattern.Doubled {
		before = 0
	}
	b.row(row(3, pattern.RS), nil, toGap(pattern.Knit, before, s.turn), turn(s.turn))
	b.row(row(4, pattern.WS), nil, toGap(pattern.Purl, before, s.turn), turn(s.turn))
}

// widen writes the second half: its first two rows, their repeat, and the last two, which
// turn at its ends.
func (s shortRows) widen(b *Builder) {
	steps := func(side pattern.Op) []pattern.Step {
		closing := closed(side, s.turn)
		line := on(toGap(side, 0, s.turn), closing)
		if s.turn == pattern.Doubled { // and the next, which is doubled anew
			line = append(line, closing)
		}
		return append(line, turn(s.turn))
	}
	b.row(row(1, pattern.RS), nil, steps(pattern.Knit)...)
	b.row(row(2, pattern.WS), nil, steps(pattern.Purl)...)
	b.again(pattern.FlatRow, 2, b.each(func(size int) int { return b.of(s.turns, size) - 2 }), pattern.Again{
		Total: b.each(func(size int) int { return 2*b.of(s.turns, size) - 2 }), Count: total(b.n(s.stitches))})
	s.lastRows(b)
}

// lastRows writes the two rows that end at the ends of the heel.
func (s shortRows) lastRows(b *Builder) {
	steps := func(side pattern.Op) []pattern.Step {
		return on(toGap(side, 0, s.turn), closed(side, s.turn), turn(pattern.NotTurned))
	}
	b.row(named(pattern.Next, pattern.RS), nil, steps(pattern.Knit)...)
	b.row(named(pattern.Next, pattern.WS), total(b.n(s.stitches)), steps(pattern.Purl)...)
}

// shortRowNumbers declares the numbers of a heel, or a part of it, that short rows make over
// all heel stitches and back; share of them lies in the middle, and so many rounds lie between
// the halves.
func (d *Draft) shortRowNumbers(heel *grade.Var, share float64, between int) (turns *grade.Var) {
	middle := d.middleOfHeel(heel, share, "heel.middle_stitches", "stitches left in the middle",
		evenSides("middle-parity", "the middle is odd or even as the heel is, so that both sides have as many turns", heel),
		rule("middle-some", "the middle has at least 2 stitches, and there are at least 2 turns on each side", func(v grade.Values, n int) bool { return n >= 2 && v.Of(heel)-n >= 4 }))
	turns = d.turnsBeside("heel.turns", "turns on each side of a half", heel, middle)
	d.heelKept(heel)
	d.Model.Add(follows("heel.sole_rounds", "length of the heel under the foot, in rounds", "rnds",
		func(v grade.Values) int { return 2*v.Of(turns) + between },
		func(v grade.Values) grade.Reason {
			r := grade.Reason{Rule: "short-under", Text: say("why.short.under", "one half of the rows lies behind the heel, the other under it: 2 × {0}", v.Of(turns)), Terms: []grade.Term{v.Term(turns)}}
			if between > 0 {
				r.Text = say("why.short.under.between", "one half of the rows lies behind the heel, the other under it, 2 × {0}, and the {1} between the halves make the sole longer too", v.Of(turns), between)
			}
			return r
		}))
	return turns
}

// turnsBeside declares how many turns there are on each side of the middle of all stitches.
func (d *Draft) turnsBeside(key, label string, all, middle *grade.Var) *grade.Var {
	return d.Model.Add(follows(key, label, "turns",
		func(v grade.Values) int { return (v.Of(all) - v.Of(middle)) / 2 },
		func(v grade.Values) grade.Reason {
			return grade.Reason{Rule: "turns-equal", Text: say("why.turns", "({0} − {1}) / 2", v.Of(all), v.Of(middle)), Terms: []grade.Term{v.Term(all), v.Term(middle)}}
		}))
}

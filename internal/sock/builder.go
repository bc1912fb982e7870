package sock

import (
	"reflect"
	"slices"

	"sockwright/internal/grade"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
	"sockwright/internal/unit"
)

// A Builder makes the sections of a pattern from a plan. Its methods are the vocabulary in
// which constructions write rows.
type Builder struct {
	*Draft
	plan *grade.Plan
	p    *pattern.Pattern
	body *[]pattern.Node // of the section
	into *[]pattern.Node // where lines go: the section, or a group for some sizes
	only source.SizeSet  // the sizes of that group; all of them outside

	graftTold bool           // how to graft has been told
	turnsTold pattern.Turned // how these turns are worked has been told
	marked    bool           // stitch markers are on the needles
}

// section begins a new section.
func (b *Builder) section(title string) {
	s := &pattern.Section{Title: title}
	b.p.Sections = append(b.p.Sections, s)
	b.body, b.into = &s.Body, &s.Body
}

func (b *Builder) add(n pattern.Node) { *b.into = append(*b.into, n) }

// n is a number of the plan, for the sizes that lines go to.
func (b *Builder) n(key string) pattern.Number {
	return b.each(func(size int) int { return b.of(key, size) })
}

// each is a number worked out for the sizes that lines go to; the others have a gap, unless
// all that have it agree.
func (b *Builder) each(f func(size int) int) pattern.Number {
	values := make([]int, len(b.Sizes))
	first, same := 0, true
	for i := range values {
		if values[i] = int(pattern.Gap); b.only.Has(i) {
			values[i] = f(i)
			if b.only&(source.OneSize(i)-1) == 0 {
				first = values[i]
			}
			same = same && values[i] == first
		}
	}
	if same {
		return pattern.Of(first)
	}
	return pattern.Of(values...)
}

// none is no stitch and no row, in any size.
func none(int) int { return 0 }

// here is a number of all sizes, for the sizes that lines go to.
func (b *Builder) here(n pattern.Number) pattern.Number {
	if !n.Known() {
		return n
	}
	return b.each(func(size int) int { return int(n.In(size)) })
}

// countHere and textHere are a count and a text of all sizes, for those that lines go to.
func (b *Builder) countHere(c *pattern.Count) *pattern.Count {
	if c == nil {
		return nil
	}
	out := &pattern.Count{Change: b.here(c.Change), Total: b.here(c.Total)}
	for _, n := range c.Split {
		out.Split = append(out.Split, b.here(n))
	}
	return out
}

func (b *Builder) textHere(t pattern.Text) pattern.Text {
	t = slices.Clone(t)
	for i := range t {
		t[i].Each = slices.Clone(t[i].Each)
		for size := range t[i].Each {
			if len(t[i].Each) > 1 && !b.only.Has(size) {
				t[i].Each[size] = "–"
			}
		}
	}
	return t
}

// of is a number of the plan in one size.
func (b *Builder) of(key string, size int) int { return b.plan.Of(key, size) }

// long prints a length of every size in both systems, as pieces of a text: "7 1/4 (7 3/4)
// in [18.4 (19.7) cm]".
func (b *Builder) long(f func(size int) unit.Length) (inches, cm []string) {
	for i := range b.Sizes {
		if !b.only.Has(i) {
			inches, cm = append(inches, "–"), append(cm, "–")
			continue
		}
		inches = append(inches, f(i).Inches())
		cm = append(cm, f(i).Centimetres())
	}
	return inches, cm
}

// para, tip and caution add running words.
func (b *Builder) para(m source.Message) {
	b.add(&pattern.Prose{Style: pattern.Para, Text: pattern.Fill(m)})
}
func (b *Builder) tip(m source.Message) {
	b.add(&pattern.Prose{Style: pattern.Tip, Text: pattern.Fill(m)})
}

// where runs write with the lines going to the sizes for which it holds: to a group of
// their own if it does not hold for all, nowhere if for none. Groups do not hold groups: what
// else goes to the sizes of an outer one follows in another group for them.
func (b *Builder) where(holds func(size int) bool, write func()) {
	var set source.SizeSet
	for i := range b.Sizes {
		if b.only.Has(i) && holds(i) {
			set |= source.OneSize(i)
		}
	}
	switch set {
	case 0:
	case b.only:
		write()
	default:
		outer := b.only
		b.group(set)
		write()
		b.group(outer)
	}
}

// sock runs write with the lines going to one sock of a pair, in all sizes.
func (b *Builder) sock(which pattern.Sock, write func()) {
	group := &pattern.Only{Sizes: source.AllSizes(len(b.Sizes)), Sock: which}
	b.add(group)
	into := b.into
	b.into = &group.Body
	write()
	b.into = into
}

// alike runs write once for each set of sizes for which f gives the same, with that.
func alike[T any](b *Builder, f func(size int) T, write func(T)) {
	var done source.SizeSet
	for i := range b.Sizes {
		if done.Has(i) || !b.only.Has(i) {
			continue
		}
		same := func(size int) bool { return reflect.DeepEqual(f(size), f(i)) }
		for j := range b.Sizes {
			if b.only.Has(j) && same(j) {
				done |= source.OneSize(j)
			}
		}
		b.where(same, func() { write(f(i)) })
	}
}

// group begins a group for some sizes, or goes on with the last one if it is theirs, or ends
// one: the lines that follow go to all.
func (b *Builder) group(set source.SizeSet) {
	var last *pattern.Only // the group just ended
	if n := len(*b.body); n > 0 {
		last, _ = (*b.body)[n-1].(*pattern.Only)
		if last != nil && len(last.Body) == 0 {
			*b.body, last = (*b.body)[:n-1], nil
		}
	}
	b.into, b.only = b.body, set
	switch {
	case set == source.AllSizes(len(b.Sizes)):
	case last != nil && last.Sizes == set: // it goes on
		b.into = &last.Body
	default:
		group := &pattern.Only{Sizes: set}
		b.add(group)
		b.into = &group.Body
	}
}

// Rows and rounds.

func row(num int, side pattern.Side) pattern.Label {
	return pattern.Label{Word: pattern.FlatRow, Num: int32(num), Side: side}
}

func named(name pattern.Name, side pattern.Side) pattern.Label {
	return pattern.Label{Word: pattern.FlatRow, Name: name, Side: side}
}

func rnd(num int) pattern.Label { return pattern.Label{Word: pattern.Round, Num: int32(num)} }

func (b *Builder) row(l pattern.Label, c *pattern.Count, steps ...pattern.Step) {
	b.add(&pattern.Row{Label: l, Parts: []pattern.Part{{Steps: steps}}, Count: c})
}

func (b *Builder) needles(l pattern.Label, c *pattern.Count, needles ...[]pattern.Step) {
	r := &pattern.Row{Label: l, Count: c}
	for i, steps := range needles {
		r.Parts = append(r.Parts, pattern.Part{Needle: uint8(i + 1), Steps: steps})
	}
	b.add(r)
}

func on(steps ...pattern.Step) []pattern.Step { return steps }

// again repeats the last rows rows times more; nothing where no size does.
func (b *Builder) again(word pattern.Word, rows int, times pattern.Number, a pattern.Again) {
	a.Word, a.Rows, a.Times = word, int32(rows), times
	b.repeat(a)
}

// repeat adds a repeat; nothing where no size has one. Where only some sizes have it, the
// others are told in a line of their own that they have none.
func (b *Builder) repeat(a pattern.Again) {
	if a.Times.Is(0) {
		return
	}
	alike(b, func(size int) bool { return a.Times.In(size) == 0 }, func(none bool) {
		part := a
		part.Times, part.Total, part.Count, part.Or = b.here(a.Times), b.here(a.Total), b.countHere(a.Count), b.textHere(a.Or)
		if none {
			part.Or = nil
		}
		b.add(&part)
	})
}

// taking writes rows 3 and 4, each of which takes one stitch, and repeats them: pairs of them
// in all. before is how many stitches there are before them. Where a size works them once
// only, the rows state what is left.
func (b *Builder) taking(rs, ws []pattern.Step, before, pairs func(size int) int) {
	left := func(rows func(size int) int) pattern.Number {
		return b.each(func(size int) int { return before(size) - rows(size) })
	}
	b.where(func(size int) bool { return pairs(size) > 0 }, func() {
		more := b.each(func(size int) int { return pairs(size) - 1 })
		state := func(rows int) *pattern.Count {
			after := left(func(int) int { return rows })
			switch {
			case more.Is(0):
				return total(after)
			case slices.Contains(more.Val, 0):
				return changeTotal(-1, after)
			}
			return change(-1)
		}
		b.row(row(3, pattern.RS), state(1), rs...)
		b.row(row(4, pattern.WS), state(2), ws...)
		b.again(pattern.FlatRow, 2, more, pattern.Again{
			Total: b.each(func(size int) int { return 2 + 2*pairs(size) }), Count: total(left(func(size int) int { return 2 * pairs(size) }))})
	})
}

// oneMore repeats a row by its label.
func (b *Builder) oneMore(l pattern.Label, times pattern.Number, a pattern.Again) {
	l.Side = pattern.NoSide
	a.Word, a.Which, a.Times = l.Word, l, times
	b.repeat(a)
}

// Counts.

func total(n pattern.Number, split ...pattern.Number) *pattern.Count {
	return &pattern.Count{Total: n, Split: split}
}

// changeTotal is for a row that is worked again in some sizes only: the change, and what
// there is after the first time.
func changeTotal(n int, total pattern.Number) *pattern.Count {
	return &pattern.Count{Change: pattern.Of(n), Total: total}
}

func change(n int) *pattern.Count { return &pattern.Count{Change: pattern.Of(n)} }

// Steps.

func k(n pattern.Number) pattern.Step   { return pattern.Step{Op: pattern.Knit, N: n} }
func p(n pattern.Number) pattern.Step   { return pattern.Step{Op: pattern.Purl, N: n} }
func kN(n int) pattern.Step             { return k(pattern.Of(n)) }
func pN(n int) pattern.Step             { return p(pattern.Of(n)) }
func tbl(n pattern.Number) pattern.Step { return pattern.Step{Op: pattern.KnitTbl, N: n} }
func sl1() pattern.Step                 { return pattern.Step{Op: pattern.Slip, N: pattern.Of(1)} }
func slFront() pattern.Step             { return pattern.Step{Op: pattern.SlipFront, N: pattern.Of(1)} }
func do(op pattern.Op) pattern.Step     { return pattern.Step{Op: op} }

func toEnd(op pattern.Op) pattern.Step    { return pattern.Step{Op: op, Until: pattern.ToEnd} }
func toMarker(op pattern.Op) pattern.Step { return pattern.Step{Op: op, Until: pattern.ToMarker} }
func toLast(op pattern.Op, n int) pattern.Step {
	return pattern.Step{Op: op, Until: pattern.ToLast, N: pattern.Of(n)}
}

// toGap goes to the next place where the work was turned, before stitches less.
func toGap(op pattern.Op, before int, waits pattern.Turned) pattern.Step {
	s := pattern.Step{Op: op, Until: pattern.ToGap, Turned: waits}
	if before > 0 {
		s.N = pattern.Of(before)
	}
	return s
}

// turn ends a row; closed works a stitch together with what a turn has left on it.
func turn(leaves pattern.Turned) pattern.Step { return pattern.Step{Op: pattern.Turn, Turned: leaves} }
func closed(side pattern.Op, what pattern.Turned) pattern.Step {
	return pattern.Step{Op: side + pattern.KnitTurned - pattern.Knit, Turned: what}
}

func pickUp(n pattern.Number, edge pattern.Edge) pattern.Step {
	return pattern.Step{Op: pattern.PickUp, N: n, Edge: edge}
}

func pickUpPurl(n pattern.Number, edge pattern.Edge) pattern.Step {
	return pattern.Step{Op: pattern.PickUpPurl, N: n, Edge: edge}
}

// repeat is "*steps; rep from * to end".
func repeat(steps ...pattern.Step) pattern.Step {
	return pattern.Step{Op: pattern.Group, Until: pattern.ToEnd, Body: steps}
}

// repeatToLast is "*steps; rep from * to last n sts".
func repeatToLast(n int, steps ...pattern.Step) pattern.Step {
	return pattern.Step{Op: pattern.Group, Until: pattern.ToLast, N: pattern.Of(n), Body: steps}
}

// times is "[steps] n times".
func times(n pattern.Number, steps ...pattern.Step) pattern.Step {
	return pattern.Step{Op: pattern.Group, N: n, Body: steps}
}

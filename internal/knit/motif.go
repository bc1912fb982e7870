package knit

import (
	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

// A motif is a stitch pattern, ready to be worked.
type motif struct {
	name string
	rows []int // into prog.rows
	next int   // of rows: the one that is worked next
	used bool  // by the row under way
}

// define lowers the rows of a motif, and makes sure that each leaves the stitches that the
// next one takes.
func (k *Knitter) define(n *pattern.Motif) {
	if len(n.Rows) == 0 || !k.fits(n.Multiple) || !k.fits(n.Plus) {
		return
	}
	m := motif{name: n.Name}
	for _, r := range n.Rows {
		m.rows = append(m.rows, k.prog.lower(r))
	}
	k.motifs = append(k.motifs, m)
	multiple, _ := k.stated(n.Multiple)
	plus := 0
	if n.Plus.Known() {
		plus, _ = k.stated(n.Plus)
	}
	stated := repeats{multiple, plus}
	on := stated
	for i, row := range m.rows {
		t := k.prog.tally(row)
		after, ok := t.work(on)
		if !ok {
			k.fault(either(n.Rows[i].At, n.At), source.NotDividing,
				say("knit.motif-row", "{0} of {1} works {2}, but {3} lie there", n.Rows[i].Label, n.Name, t, on), nil, nil)
			return
		}
		on = after
	}
	if last := n.Rows[len(n.Rows)-1]; on != stated {
		k.fault(either(last.At, n.At), source.StitchCount,
			say("knit.motif-last", "{0} leaves {1} when all its rows are worked, but begins with {2}", n.Name, on, stated), nil, nil)
	}
}

// inMotif works the next row of a motif over n stitches.
func (k *Knitter) inMotif(in *instr, n int32) {
	m := k.motif(in.step.Name)
	if m == nil {
		k.fault(in.step.At, source.Unread, say("knit.no-motif", "{0} works in {1}, but no such stitch pattern stands above", k.row.line.name, in.step.Name), nil, nil)
		k.fail()
		k.lose()
		return
	}
	m.used = true
	line := &k.prog.rows[m.rows[m.next]]
	if wrong := line.label.Side == pattern.WS; line.label.Side != pattern.NoSide && wrong != k.wrong && !k.trust.side {
		k.fault(in.step.At, source.Direction, say("knit.motif-side", "{0} of {1} comes next here, which is for the other side of the work", line.name, m.name), nil, nil)
		k.trust.side = true
	}
	t := k.prog.tally(m.rows[m.next])
	spare := int(n) - t.fixed.uses
	if t.each.uses > 0 && (spare < 0 || spare%t.each.uses != 0) || t.each.uses == 0 && spare != 0 {
		if k.trust.drift == 0 && !k.trust.doubt {
			k.fault(in.step.At, source.NotDividing,
				say("knit.motif-not-dividing", "{0} is worked over {1} here, and {2} of it works {3}", m.name, sts(int(n)), line.name, t), source.Sts(int(n)), nil)
		}
		k.fail()
		return
	}
	for list := k.prog.instrs[line.from:line.to]; len(list) > 0 && !k.row.failed; {
		step, body := list[0], list[1:1+int(list[0].body)]
		if step.until != pattern.Times { // all that the others leave
			step.until, step.n = pattern.Times, int32(spare/t.each.uses)
		}
		if step.op == pattern.Group {
			k.group(&step, body)
		} else if step.n > 0 {
			k.step(&step)
		}
		list = list[1+len(body):]
	}
}

func (k *Knitter) motif(name string) *motif {
	for i := range k.motifs {
		if k.motifs[i].name == name {
			return &k.motifs[i]
		}
	}
	return nil
}

// motifsGoOn lets the motifs that a row has worked in come to their next rows.
func (k *Knitter) motifsGoOn() {
	for i := range k.motifs {
		if m := &k.motifs[i]; m.used {
			m.used, m.next = false, (m.next+1)%len(m.rows)
		}
	}
}

// Stitches that one working takes and makes.
type worked struct{ uses, makes int }

// A tally is the stitches of a row of a motif: of one working of the step that goes as far
// as the others let it, and of these.
type tally struct{ each, fixed worked }

// tally counts the stitches of a row.
func (p *program) tally(row int) (t tally) {
	for list := p.instrs[p.rows[row].from:p.rows[row].to]; len(list) > 0; {
		in, body := &list[0], list[1:1+int(list[0].body)]
		one := p.pass(in, body)
		if in.until == pattern.Times {
			t.fixed.uses += one.uses * int(in.n)
			t.fixed.makes += one.makes * int(in.n)
		} else {
			t.each = one
		}
		list = list[1+len(body):]
	}
	return t
}

// pass counts the stitches of one working of a step.
func (p *program) pass(in *instr, body []instr) (s worked) {
	if in.op != pattern.Group {
		uses := int(workings[in.op].uses)
		return worked{uses, made(in.op, uses)}
	}
	for len(body) > 0 {
		in, inner := &body[0], body[1:1+int(body[0].body)]
		one := p.pass(in, inner)
		s.uses += one.uses * int(in.n)
		s.makes += one.makes * int(in.n)
		body = body[1+len(inner):]
	}
	return s
}

// made is how many stitches one working of a step that takes so many leaves.
func made(op pattern.Op, uses int) int {
	switch op {
	case pattern.Kfb, pattern.Pfb:
		return 2
	case pattern.ThreeIn1:
		return 3
	case pattern.YarnOver, pattern.M1L, pattern.M1R, pattern.LiftedL, pattern.LiftedR:
		return 1
	}
	if _, crosses := crossings[op]; crosses {
		return uses
	}
	return min(uses, 1)
}

// repeats are the stitches of one repeat of a motif, and of the edges beside all repeats.
type repeats struct{ each, edges int }

// work is what a row leaves of repeats; ok tells whether it works them however many there
// are.
func (t tally) work(on repeats) (after repeats, ok bool) {
	if t.each.uses == 0 {
		return repeats{0, t.fixed.makes}, on == repeats{0, t.fixed.uses}
	}
	spare := on.edges - t.fixed.uses
	if on.each == 0 || on.each%t.each.uses != 0 || spare < 0 || spare%t.each.uses != 0 {
		return repeats{}, false
	}
	return repeats{on.each / t.each.uses * t.each.makes, t.fixed.makes + spare/t.each.uses*t.each.makes}, true
}

// String is "a multiple of 8 sts and 1 more".
func (r repeats) String() string {
	switch {
	case r.each == 0:
		return sts(r.edges)
	case r.edges == 0:
		return "a multiple of " + sts(r.each)
	}
	return "a multiple of " + sts(r.each) + " and " + itoa(r.edges) + " more"
}

func (t tally) String() string { return repeats{t.each.uses, t.fixed.uses}.String() }

package knit

import (
	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

// A motif is a stitch pattern, ready to be worked.
type motif struct {
	name string
	rows []motifRow
	next int  // of rows: the one that is worked next
	used bool // by the row under way
}

// A motifRow is one row of a motif.
type motifRow struct {
	line  int // into prog.rows
	tally pattern.Tally
}

// define lowers the rows of a motif, and makes sure that each leaves the stitches that the
// next one takes.
func (k *Knitter) define(n *pattern.Motif) {
	if len(n.Rows) == 0 || !k.fits(n.Multiple) || !k.fits(n.Plus) {
		return
	}
	m := motif{name: n.Name}
	for _, r := range n.Rows {
		var steps []pattern.Step
		for _, part := range r.Parts {
			steps = append(steps, part.Steps...)
		}
		m.rows = append(m.rows, motifRow{k.prog.lower(r), pattern.TallyOf(steps, k.size)})
	}
	k.motifs = append(k.motifs, m)
	multiple, _ := k.stated(n.Multiple)
	plus := 0
	if n.Plus.Known() {
		plus, _ = k.stated(n.Plus)
	}
	stated := pattern.Repeats{Each: multiple, Edges: plus}
	on := stated
	for i, row := range m.rows {
		after, ok := row.tally.Work(on)
		if !ok {
			k.fault(either(n.Rows[i].At, n.At), source.NotDividing,
				say("knit.motif-row", "{0} of {1} works {2}, but {3} lie there", n.Rows[i].Label, n.Name, taken(row.tally), over(on)), nil, nil)
			return
		}
		on = after
	}
	if last := n.Rows[len(n.Rows)-1]; on != stated {
		k.fault(either(last.At, n.At), source.StitchCount,
			say("knit.motif-last", "{0} leaves {1} when all its rows are worked, but begins with {2}", n.Name, over(on), over(stated)), nil, nil)
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
	row := m.rows[m.next]
	line, t := &k.prog.rows[row.line], row.tally
	if wrong := line.label.Side == pattern.WS; line.label.Side != pattern.NoSide && wrong != k.wrong && !k.trust.side {
		k.fault(in.step.At, source.Direction, say("knit.motif-side", "{0} of {1} comes next here, which is for the other side of the work", line.name, m.name), nil, nil)
		k.trust.side = true
	}
	spare := int(n) - t.Fixed.Takes
	if t.Each.Takes > 0 && (spare < 0 || spare%t.Each.Takes != 0) || t.Each.Takes == 0 && spare != 0 {
		if k.trust.drift == 0 && !k.trust.doubt {
			k.fault(in.step.At, source.NotDividing,
				say("knit.motif-not-dividing", "{0} is worked over {1} here, and {2} of it works {3}", m.name, sts(int(n)), line.name, taken(t)), source.Sts(int(n)), nil)
		}
		k.fail()
		return
	}
	for list := k.prog.instrs[line.from:line.to]; len(list) > 0 && !k.row.failed; {
		step, body := list[0], list[1:1+int(list[0].body)]
		if step.until != pattern.Times { // all that the others leave
			step.until, step.n = pattern.Times, int32(spare/t.Each.Takes)
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

// over says over what stitches a motif or a row of it is worked: "a multiple of 8 sts and 1
// more".
func over(r pattern.Repeats) string {
	switch {
	case r.Each == 0:
		return sts(r.Edges)
	case r.Edges == 0:
		return "a multiple of " + sts(r.Each)
	}
	return "a multiple of " + sts(r.Each) + " and " + itoa(r.Edges) + " more"
}

// taken is the stitches that a row works.
func taken(t pattern.Tally) string {
	return over(pattern.Repeats{Each: t.Each.Takes, Edges: t.Fixed.Takes})
}

package follow

import (
	"regexp"
	"strings"

	"sockwright/internal/script"
	"sockwright/internal/source"
)

// checkAll compares claims with what is on the needles.
func (w *worker) checkAll(claims []script.Claim, e *entry) (out []*problem) {
	if !w.began {
		return nil
	}
	var onNdl []script.Claim
	for _, c := range claims {
		if c.What == script.OnNdl {
			onNdl = append(onNdl, c)
		}
	}
	if len(onNdl) > 1 && w.known {
		if _, told := w.n.onNeedle(1); !w.n.flat && (!told || w.doubt&ofLayout != 0) {
			out = append(out, w.lay(onNdl)...)
			if len(out) > 0 {
				return out
			}
		}
	}
	var parts []script.Claim
	for _, c := range claims {
		if c.What == script.OfPart && (c.Part == script.Instep || c.Part == script.Sole) {
			parts = append(parts, c)
		}
	}
	if len(parts) == 2 && parts[0].Part != parts[1].Part && w.known && !w.n.flat {
		if _, told := w.n.inPart(script.Instep); !told || w.doubt&ofLayout != 0 {
			return append(out, w.lay(parts)...)
		}
	}
	for _, c := range claims {
		out = append(out, w.check(c, e)...)
	}
	return out
}

// check compares one claim. A count that agrees settles what was in doubt.
func (w *worker) check(c script.Claim, e *entry) []*problem {
	known := w.known
	problems := w.compare(c, e)
	for _, p := range problems {
		p.rests = w.claimRests(c)
	}
	if known && len(problems) == 0 && c.N.Known() && (c.What == script.Live || c.What == script.Total) {
		w.certain(ofCount)
	}
	return problems
}

// compare holds one claim to what there is.
func (w *worker) compare(c script.Claim, e *entry) []*problem {
	if c.What == script.Between && c.Part != script.NoPart {
		return w.partBetween(c)
	}
	if c.What == script.HasMiddle {
		return w.checkMiddle(c)
	}
	v, ok := w.figure(c.N, 0)
	if !ok || !c.N.Known() {
		return nil
	}
	if !w.known {
		if !w.literal {
			w.believe(c, v)
		}
		return nil
	}
	one := func(actual int, what string) []*problem {
		if actual == v {
			return nil
		}
		p := w.wrongCount(c, v, actual, what)
		if e != nil {
			if r, ok := e.item.(*script.Row); ok && picksUp(r.Steps) {
				p.fault.Kind = source.PickUp
			}
		} else if w.afterPick {
			p.fault.Kind = source.PickUp
		}
		return []*problem{p}
	}
	whole := func(actual int, what string) []*problem {
		problems := one(actual, what)
		for _, p := range problems {
			p.whole = true
		}
		return problems
	}
	worked, total := w.n.worked(), w.n.total()
	switch c.What {
	case script.Live:
		if w.n.flat && (v == worked || v == total) {
			return nil
		}
		if w.n.flat {
			return whole(worked, "")
		}
		if on, told := w.n.onNeedle(c.Needle); c.Needle > 0 && told && abs(v-on) < abs(v-total) {
			return one(on, "on N"+itoa(c.Needle))
		}
		if 2*v == total && w.speaksOfPart(c.At) { // told before it is set apart
			return nil
		}
		return whole(total, "")
	case script.Total:
		return whole(total, "in all")
	case script.OfPart:
		switch c.Part {
		case script.Heel:
			if w.n.flat {
				return whole(worked, "for the heel")
			}
			if n, told := w.n.inPart(script.Heel); told && n > 0 {
				return one(n, "for the heel")
			}
			if n, told := w.n.inPart(script.Instep); told {
				return one(total-n, "for the heel")
			}
		case script.Instep:
			if w.n.flat && len(w.n.held) == 0 { // told here first
				w.n.restInstep(min(v, MaxLive))
				return nil
			}
			if n, told := w.n.inPart(script.Instep); told {
				return one(n, "for the instep")
			}
		case script.Sole:
			if n, told := w.n.inPart(script.Instep); told && !w.n.flat {
				return one(total-n, "for the sole")
			}
		case script.Middle, script.Flank:
			return w.checkSections(c, v)
		}
	case script.OnNdl:
		if c.Part == script.Instep && w.n.flat && w.n.restOn(c.Needle, min(v, MaxLive)) {
			return nil
		}
		if n, told := w.n.onNeedle(c.Needle); told {
			return one(n, "on N"+itoa(c.Needle))
		}
	case script.EachNdl:
		if c.Needle > 1 && v*c.Needle != total {
			return one(total/c.Needle, "on each needle")
		}
		if k := w.needlesInUse(); k > 1 {
			for i := 1; i <= k; i++ {
				if n, _ := w.n.onNeedle(i); n != v && n > 0 {
					return one(n, "on each needle")
				}
			}
			return nil
		}
		if v > 0 && total%v != 0 {
			return one(total, "on each needle")
		}
		if v > 0 {
			if k := total / v; k >= 2 && k <= 6 {
				w.layEach(k)
			}
		}
	case script.RowCount:
		if rows := w.partRows + w.rowsSlack; w.rowsKnown && w.partRows > 0 && (v < w.partRows || v > rows) {
			p := w.remark(c.N.Span(w.size), source.StitchCount, source.Say("follow.rows", "{0} rows stated, but {1} have been worked", v, rows), source.Rows(v), source.Rows(rows))
			p.fault.Mends = []source.Mend{w.write(c.N, rows)}
			return []*problem{p}
		}
	case script.Change:
		if e != nil || w.lastRow != nil {
			if w.lastDelta != v && !(w.lastDelta == -v && v > 0) {
				p := w.wrongCount(c, abs(v), abs(w.lastDelta), "as the change")
				p.fault.Text = source.Say("follow.change", "{0} said to be {1}, but the row {2} {3}", source.InSts(abs(v)), gained(v), did(w.lastDelta), abs(w.lastDelta))
				p.fault.Mends = []source.Mend{w.write(c.N, abs(w.lastDelta))}
				return []*problem{p}
			}
		}
	case script.Edges:
		rows := w.flapRows
		if !w.n.flat && w.lastRow != nil && w.lastRow.Flat { // a piece that the text begins with
			rows = w.partRows
		}
		if w.rowsKnown && rows > 1 && (w.n.flat || rows == w.partRows) && v != rows/2 {
			return one(rows/2, "at each edge")
		}
	case script.Ribs:
		if w.ribOf > 0 {
			if total%w.ribOf == 0 {
				return one(total/w.ribOf, "as ribs")
			}
		}
	case script.Between:
		if n, ok := w.between(c.Name); ok {
			return one(n, "between the markers")
		}
	case script.WrapEach, script.WrapNone:
		return w.checkWraps([]script.Claim{c})
	}
	return nil
}

// partWords are words of a sentence that is about a part of the round.
var partWords = regexp.MustCompile(`(?i)\b(?:heel|instep|sole|half|flap)\b`)

// speaksOfPart tells whether the sentence of a claim names a part of the round before it.
func (w *worker) speaksOfPart(at source.Span) bool {
	line, _ := w.script.File.Position(at.Start)
	before := w.script.File.Slice(source.Span{Start: w.script.File.LineSpan(line).Start, End: at.Start})
	return partWords.MatchString(before[strings.LastIndex(before, ". ")+1:])
}

// checkMiddle holds stitches that are said to have one in their middle to be odd in number.
func (w *worker) checkMiddle(c script.Claim) []*problem {
	n := w.n.worked()
	if !w.known || !w.n.flat || n%2 != 0 {
		return nil
	}
	p := w.remark(c.At, source.Parity, source.Say("follow.no-middle", "{0} have no st in the middle: an even number has a gap there", source.InSts(n)), source.Sts(n), nil)
	p.fault.Mends = []source.Mend{{Why: source.Say("follow.mend-middle", "set {0} or {1} sts apart, or say where the {2} are halved", n-1, n+1, n)}}
	return []*problem{p}
}

// partBetween compares a part with what lies between the two markers that are said to hold it.
// From there on the part is those stitches.
func (w *worker) partBetween(c script.Claim) []*problem {
	if !w.known || w.n.flat {
		return nil
	}
	n, ok := w.between(c.Name)
	if !ok {
		return nil
	}
	if have, told := w.n.inPart(c.Part); told && have > 0 && have != n {
		p := w.remark(c.At, source.Marker, source.Say("follow.between", "{0} lie between the markers, but the {1} has {2}", source.InSts(n), partName(c.Part), have), source.Sts(n), source.Sts(have))
		p.fault.Mends = []source.Mend{{Why: source.Say("follow.mend-between", "place the markers with {0} between them", source.InSts(have))}}
		return []*problem{p}
	}
	w.eachBetween(c.Name, func(s *cell, in bool) {
		switch {
		case in:
			s.part = c.Part
		case s.part == c.Part || s.part == script.NoPart:
			s.part = otherPart(c.Part)
		}
	})
	return nil
}

// partName is what patterns call a part of the round.
func partName(p script.Part) string {
	switch p {
	case script.Instep:
		return "instep"
	case script.Sole:
		return "sole"
	case script.Heel:
		return "heel"
	}
	return "part"
}

// otherPart is the part of the round beside an instep, or beside a sole or heel.
func otherPart(p script.Part) script.Part {
	if p == script.Instep {
		return script.Sole
	}
	return script.Instep
}

// between counts the stitches between two markers, named "a/b"; the round's beginning is
// "bor".
func (w *worker) between(names string) (n int, ok bool) {
	if w.n.flat {
		return 0, false
	}
	ok = w.eachBetween(names, func(_ *cell, in bool) {
		if in {
			n++
		}
	})
	return n, ok
}

// eachBetween visits every stitch of the round, and tells whether it lies between two markers;
// ok is false if there are no such markers.
func (w *worker) eachBetween(names string, visit func(s *cell, in bool)) (ok bool) {
	a, b, _ := strings.Cut(names, "/")
	w.n.begin()
	in, done := a == "bor", false
	for i := len(w.n.left) - 1; i >= 0; i-- {
		c := &w.n.left[i]
		switch {
		case c.mark == stitch:
			visit(c, in && !done)
		case c.mark == marker && !in && c.name == letter(a):
			in = true
		case c.mark == marker && in && c.name == letter(b):
			done = true
		}
	}
	return done || in && b == "bor"
}

func gained(v int) string {
	if v < 0 {
		return "decreased"
	}
	return "increased"
}

func did(v int) string {
	if v < 0 {
		return "decreases"
	}
	return "increases"
}

func abs(v int) int {
	if v < 0 {
		return -v
	}
	return v
}

// checkSections compares what is said of the middle and the sides of a heel in three
// sections.
func (w *worker) checkSections(c script.Claim, v int) []*problem {
	if !w.n.flat || !w.n.gaps() {
		return nil
	}
	ahead, behind := w.n.waiting()
	actual := ahead
	what := "at each side"
	if c.Part == script.Middle {
		actual = w.n.onBoth() - ahead - behind
		what = "in the middle"
	} else if v == behind {
		return nil
	}
	if v == actual {
		return nil
	}
	return []*problem{w.wrongCount(c, v, actual, what)}
}

// believe takes a claim for what is there, where the words before it could not be followed.
func (w *worker) believe(c script.Claim, v int) {
	if v < 0 || v > MaxLive {
		return
	}
	switch c.What {
	case script.Live:
		if w.n.flat && w.part == script.Heel {
			w.resizeTo(v)
			return
		}
		w.known = true
		if w.n.flat {
			w.n.rejoin()
		}
		w.n.resize(v)
	case script.Total:
		w.known = true
		w.n.resize(v - count(w.n.held))
	case script.OfPart:
		switch c.Part {
		case script.Heel:
			w.resizeTo(v)
		case script.Instep:
			if w.n.flat && w.total > v {
				w.resizeTo(w.total - v)
			}
		}
	}
}

// resizeTo makes the part worked flat v stitches.
func (w *worker) resizeTo(v int) {
	w.known = true
	w.n.dropGaps()
	w.n.resize(v)
	if w.total > v && len(w.n.held) == 0 {
		w.n.restInstep(w.total - v)
	}
	w.total = -1
}

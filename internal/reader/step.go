package reader

import (
	"slices"
	"strings"

	"sockwright/internal/pattern"
	"sockwright/internal/script"
)

// steps reads the steps of a row up to where no step follows. ok is false if there is none.
func (p *parser) steps() ([]script.Step, bool) {
	from := len(p.told)
	for {
		back := p.i
		if len(p.told) > from && !p.between() {
			p.i = back
			break
		}
		s, ok := p.step()
		if !ok {
			p.i = back
			break
		}
		p.told = append(p.told, s)
		if s.Op == script.ToNeedle {
			if again, ok := p.asOther(p.told[from:]); ok {
				p.told = append(p.told, again...)
			}
		}
	}
	out := slices.Clone(p.told[from:])
	p.told = p.told[:from]
	return fold(out), len(out) > 0
}

// between takes what stands between two steps.
func (p *parser) between() bool {
	took := false
	for {
		switch {
		case p.any(",", ";", "and", "then", "&", "+"):
		case p.is(".") && p.needleAhead(1), p.is(":") && p.depth > 0:
			p.i++
		case p.adverb(), p.manner():
		case p.phrase("with same ndl", "with the same ndl", "with a free ndl", "with free ndl", "with an empty ndl", "with spare ndl", "with a spare ndl"):
		case p.ndlRemark(), p.pairAside():
		default:
			return took || !p.stop()
		}
		took = true
	}
}

// adverb passes over how a step is worked: "k2, loosely, k to end".
func (p *parser) adverb() bool {
	t := p.peek()
	if t.kind != wordToken || !strings.HasSuffix(t.w, "ly") || known.has(t) || p.ahead(1).w != "," {
		return false
	}
	p.i++
	return true
}

// manner passes over a clause between two steps that says how they are worked: "k2, keeping
// the patt as set, k to end".
func (p *parser) manner() bool {
	back := p.i
	if p.any("keeping", "maintaining", "carrying", "catching", "holding", "stranding") {
		if p.passClause(); p.is(",") {
			return true
		}
	}
	p.i = back
	return false
}

// claimAhead tells whether a count follows rather than a step: "N1: 12 sts".
func (p *parser) claimAhead() bool {
	back := p.i
	defer func() { p.i = back }()
	p.skip(":", ",", "-", "=", "has", "holds")
	_, ok := p.list()
	return ok
}

// step reads one step.
func (p *parser) step() (script.Step, bool) {
	start := p.i
	s, ok := p.step1()
	if !ok {
		p.i = start
		return s, false
	}
	s.At = p.since(start)
	return s, true
}

func (p *parser) step1() (s script.Step, ok bool) {
	t := p.peek()
	if t.kind == lineToken {
		return s, false
	}
	if s, ok := try(p, p.eachNeedleStep); ok {
		return s, true
	}
	if s, ok := p.onTo(); ok {
		return s, true
	}
	if n, part, ok := p.needlePrefix(); ok {
		return script.Step{Op: script.ToNeedle, Needle: n, Part: part}, true
	}
	if s, ok := p.bySize(); ok {
		return s, true
	}
	if s, ok := p.definedStep(); ok {
		return s, true
	}
	if s, ok := p.othersPlain(); ok {
		return s, true
	}
	if st := t.stitch; st != nil && t.w != "ds" {
		p.i++
		s = script.Step{Op: st.op, Uses: st.uses, Makes: st.makes, Name: t.w}
		p.orOther(st)
		if p.eat("tbl") {
			s.Tbl = true
		}
		if st.op == script.Decrease {
			p.ofWhich()
		}
		p.howOften(&s)
		return s, true
	}
	switch t.w {
	case "k", "p":
		if p.is(t.w, "up") { // "knit up 14 sts along the side of the heel"
			if s, ok := try(p, p.pickUp); ok {
				return s, true
			}
		}
		return p.single()
	case "plain":
		if p.i++; p.eat("k") {
			return script.Step{Op: script.Knit, Uses: 1, Makes: 1, To: script.End}, true
		}
		return script.Step{Op: script.Knit, Uses: 1, Makes: 1, To: script.End}, p.clauseEnd() || p.is("across") || p.is("around")
	case "s": // "S. 1, k. to end"
		if p.ahead(1).w == "." && p.ahead(3).w == "," {
			p.i++
		}
		if next := p.ahead(1); next.kind == numToken && next.val == 1 {
			return p.slip()
		}
	case "sl", "slipping":
		return p.slip()
	case "work", "cont", "patt":
		return p.workStep()
	case "n":
		return p.narrowed()
	case "in":
		return script.Step{Op: script.Work, Uses: 1, Makes: 1, To: script.End}, p.toEndInPattern(p.i)
	case "inc":
		return p.increase()
	case "dec":
		return p.decreaseWord()
	case "close", "closing":
		return p.closeGap()
	case "take":
		if p.ahead(1).w == "up" {
			return p.pickUp()
		}
		if s, ok := try(p, p.takeMarker); ok {
			return s, true
		}
		return p.takeTogether()
	case "pick":
		if s, ok := try(p, p.wrap); ok {
			return s, true
		}
		return p.pickUp()
	case "with":
		if p.phrase("with same ndl", "with the same ndl", "with rs facing", "with the rs facing") {
			p.skip(",")
			return p.step1()
		}
	case "each", "every", "both":
		return script.Step{Op: script.Adjust, Name: "corner"}, p.cornersTog()
	case "along", "down":
		return p.alongEdge()
	case "psso", "p2sso":
		p.i++
		s = script.Step{Op: script.PassOver, N: pattern.Of(1)}
		if t.w != "psso" {
			s.N = pattern.Of(2)
		}
		return s, true
	case "pass", "draw", "bring":
		return p.passOver()
	case "pm", "place", "put":
		return p.place()
	case "sm":
		p.i++
		return script.Step{Op: script.PassMarker, Name: p.markerName()}, true
	case "taking":
		if s, ok := try(p, p.takeMarker); ok {
			return s, true
		}
		return p.takeTogether()
	case "remove", "removing", "rm", "dropping":
		if s, ok := try(p, p.takeMarker); ok {
			return s, true
		}
		p.i++
		if name := p.namedMarker(); name != "" {
			return script.Step{Op: script.TakeMarker, Name: name}, true
		}
		p.skip("the", "beg-of-rnd", "all")
		if t.w == "rm" || p.eat("m") {
			return script.Step{Op: script.TakeMarker, Name: p.markerName()}, true
		}
		return s, false
	case "turn", "turning":
		p.i++
		p.skip("work", "the", "and")
		p.leavingFew()
		return script.Step{Op: script.Turn}, true
	case "w&t", "wrap", "twin":
		return p.wrap()
	case "double", "shadow", "the", "next", "that":
		if s, ok := try(p, p.wrap); ok {
			return s, true
		}
	case "make":
		if s, ok := try(p, p.wrap); ok {
			return s, true
		}
		return p.increase()
	case "ds", "mds":
		return p.double()
	case "[", "*", "(":
		return p.group()
	case "bo":
		p.i++
		s = script.Step{Op: script.Off, Uses: 1, Makes: 0}
		if n, ok := p.number(); ok {
			s.N = n
			p.eat("sts")
			return s, true
		}
		s.To = script.End
		p.skip("all", "rem", "sts")
		return s, true
	case "co":
		p.i++
		if n, ok := p.number(); ok {
			p.eat("sts")
			return script.Step{Op: script.CastMore, Makes: 1, N: n}, true
		}
		return s, false
	case "drop":
		p.i++
		n, _ := p.number()
		p.skip("yo", "sts", "wraps")
		return script.Step{Op: script.Off, Uses: 1, N: n}, true
	case "beg":
		return p.patternFrom()
	case "chart":
		return s, false
	}
	if t.kind == numToken {
		return p.counted()
	}
	return p.otherTerm()
}

// passOver reads "pass the slipped st over", "draw it over the knitted one", "draw over": the half of a
// decrease that comes behind the stitch that is worked.
func (p *parser) passOver() (s script.Step, ok bool) {
	p.i++
	s = script.Step{Op: script.PassOver, N: pattern.Of(1)}
	if p.any("the", "both"); p.toks[p.i-1].w == "both" {
		s.N = pattern.Of(2)
	}
	p.any("sl", "slipped", "first", "it")
	p.any("sts", "one", "ones")
	if !p.any("over") {
		return s, false
	}
	if back := p.i; p.any("it", "the", "that") {
		p.any("k", "last", "next", "second")
		if p.any("one", "sts"); !p.clauseEnd() && !p.is("and") {
			p.i = back
		}
	}
	return s, true
}

// alongEdge reads stitches that are picked up where the words begin with the edge: "Along the flap
// edge pick up and k 14 sts".
func (p *parser) alongEdge() (script.Step, bool) {
	p.i++
	for p.any("the", "this", "that", "first", "second", "other", "right", "one", "chain", "slipped", "side", "edge", "flap", "heel", "of", "rem", ",") {
	}
	if p.is("pick") || p.is("k", "up") || p.is("take", "up") {
		return p.pickUp()
	}
	return script.Step{}, false
}

// takeMarker reads that markers are taken out: "taking B out", "take off the markers as you come to
// them", "removing all markers", "remove marker 2".
func (p *parser) takeMarker() (s script.Step, ok bool) {
	s.Op = script.TakeMarker
	p.i++
	out := p.any("out", "off", "away")
	many := p.any("all", "both")
	p.any("the")
	p.any("other", "two", "first", "second", "next", "old", "gusset", "instep", "side")
	t := p.peek()
	switch {
	case p.any("m"):
		s.Name = p.markerName()
		many = many || len(p.raw(t.at)) > 1 && strings.HasSuffix(strings.ToLower(p.raw(t.at)), "s")
	default:
		if s.Name = p.namedMarker(); s.Name == "" {
			return s, false
		}
	}
	out = p.any("out", "off", "away") || out
	if p.phrase("as you come to them", "as you come to it", "as they come", "as you go", "on the way", "as you pass them", "as you reach them", "when you come to them") || many {
		s.Name = "all"
	}
	return s, out || p.clauseEnd() || p.is("and")
}

// onTo reads where the step before goes on to: "knit the instep again and on to marker A", "k to A,
// slip A, then to B".
func (p *parser) onTo() (s script.Step, ok bool) {
	back := p.i
	if !p.phrase("on to", "on as far as", "on until", "to", "until", "as far as") {
		return s, false
	}
	for i := len(p.told) - 1; i >= 0; i-- {
		switch before := p.told[i]; before.Op {
		case script.PassMarker, script.TakeMarker, script.PlaceMarker:
			continue
		case script.Knit, script.Purl, script.Work:
			if s, ok = p.landmark(script.Step{Op: before.Op, Uses: 1, Makes: 1}); ok && (p.clauseEnd() || p.is("and")) {
				return s, true
			}
		}
		break
	}
	return s, p.restore(back)
}

// narrowed reads "n" or "n. 1", the narrowing of older patterns. A capital letter is a needle.
func (p *parser) narrowed() (s script.Step, ok bool) {
	s = script.Step{Op: script.Decrease, Uses: 2, Makes: 1, Name: "narrow"}
	if ok = p.raw(p.peek().at) == "n" && p.depth+p.i > 0; !ok {
		return s, false
	}
	p.i++
	p.any(".")
	if n, ok := p.number(); ok {
		s.N = n
	}
	return s, p.clauseEnd() || p.is("and") || p.is("*") || s.N.Known()
}

// leavingFew passes over the stitches that a short row leaves: "turn, leaving 1 st unworked".
func (p *parser) leavingFew() {
	back := p.i
	p.any(",")
	if p.any("leaving") {
		p.any("the", "last")
		n, ok := p.number()
		p.any("sts")
		left := p.phrase("unworked", "unknit", "at the end", "at end", "behind")
		if ok && (left || countOf(n) == 1) && p.clauseEnd() {
			return
		}
	}
	p.i = back
}

// ofWhich passes over words that say which stitches a decrease takes: "ssk this st with the
// first gusset st", "p2tog the last centre st and the next side st".
func (p *parser) ofWhich() {
	back := p.i
	one := func() bool {
		if p.any("it") {
			return true
		}
		p.skip("over", "on", "the", "this", "that", "last", "next", "first", "foll")
		p.any("centre", "heel", "side", "gusset", "waiting", "unworked", "sole", "flap", "cup", "edge")
		if !p.any("sts") {
			return false
		}
		p.besideWhat()
		return true
	}
	if !one() || !p.any("with", "and", "&") || !one() {
		p.i = back
	}
}

// besideWhat passes over where a stitch lies: "on the far side of B", "beyond the gap", "behind
// it".
func (p *parser) besideWhat() {
	back := p.i
	if p.any("on", "at") {
		p.any("the")
		if !p.any("far", "other", "opposite", "outer", "near") || !p.any("side", "end") || !p.any("of") {
			p.i = back
			return
		}
	} else if !p.any("beyond", "behind", "after", "before", "past") {
		return
	}
	p.skip("of", "the")
	if p.any("it", "them") {
		return
	}
	if _, _, _, _, ok := p.mark(); !ok {
		p.i = back
	}
}

// bySize reads a list of terms, one for each size: "- (k2tog, -, k2tog)". All that are no
// dash must be the same.
func (p *parser) bySize() (s script.Step, ok bool) {
	first := p.peek()
	st := first.stitch
	if p.sizes < 2 || st == nil && first.w != "-" || p.ahead(1).w != "(" && p.ahead(1).w != "[" {
		return s, false
	}
	start := p.i
	n := pattern.Number{At: first.at}
	term := ""
	for {
		t := p.peek()
		v := int32(1)
		if other := t.stitch; other != nil && (term == "" || term == t.w) {
			term, st = t.w, other
		} else if t.w == "-" || t.w == "x" {
			v = pattern.Gap
		} else {
			break
		}
		n.Val, n.Cols = append(n.Val, v), append(n.Cols, t.at)
		n.At = n.At.To(t.at)
		p.i++
		if !p.any("(", "[", ",", ":", "/") {
			break
		}
	}
	if !p.any(")", "]") || len(n.Val) != p.sizes || term == "" {
		p.i = start
		return s, false
	}
	return script.Step{Op: st.op, Uses: st.uses, Makes: st.makes, Name: term, N: n}, true
}

// howOften reads how often a single stitch is worked: "k2tog 3 times", "k2tog around".
func (p *parser) howOften(s *script.Step) {
	back := p.i
	switch {
	case p.any("around"), p.phrase("all rnd", "all the way rnd", "rnd and rnd", "across", "to end", "all across", "all around"):
		p.skip("of", "rnd", "row")
		s.To = script.End
	case p.eat("twice"):
		s.N = pattern.Of(2)
	case p.eat("once"):
	default:
		if n, ok := p.number(); ok && p.any("times") {
			s.N = n
		} else {
			p.i = back
		}
	}
}

// fold joins steps that are one stitch told in parts: "sl 1, k1, psso".
func fold(steps []script.Step) []script.Step {
	found := false
	for i := range steps {
		found = found || steps[i].Op == script.PassOver
	}
	if !found {
		return steps
	}
	out := steps[:0:0]
	for _, s := range steps {
		n := len(out)
		if s.Op == script.PassOver && n >= 2 && out[n-2].Op == script.Slip && countOf(out[n-2].N) >= 1 {
			slips, over := countOf(out[n-2].N), countOf(s.N)
			last := out[n-1]
			if last.Op == script.Knit && last.To == script.Here && countOf(last.N) == 1 {
				last.Uses, last.Makes = 1, 1
			}
			if slips >= over && (last.Op == script.Decrease || last.Op == script.Knit && countOf(last.N) == 1) {
				if slips == 2 && over == 1 { // one of two slipped passes over
					over = 1
				}
				joined := script.Step{At: out[n-2].At.To(s.At), Op: script.Decrease, Uses: int8(slips) + last.Uses, Makes: int8(slips) + last.Makes - int8(over), Name: "skp"}
				out = append(out[:n-2], joined)
				continue
			}
		}
		out = append(out, s)
	}
	return out
}

// countOf is the value of a number that is the same for all sizes; absent: one; else -1.
func countOf(n pattern.Number) int {
	switch len(n.Val) {
	case 0:
		return 1
	case 1:
		return int(n.Val[0])
	}
	return -1
}

package reader

import (
	"strings"

	"sockwright/internal/pattern"
	"sockwright/internal/script"
)

// landmark reads what follows "to".
func (p *parser) landmark(s script.Step) (script.Step, bool) {
	p.skip("the", "within")
	back := p.i
	if p.phrase("sts in front of", "sts before", "one before", "sts just before") { // "up to the st before the last twin"
		s.Minus = pattern.Of(1)
		s.To, s.Part, s.Needle, s.Name, _ = p.mark()
		return s, s.To != script.Here
	}
	if p.eat("last") {
		if n, ok := p.number(); ok {
			s.Minus, s.To = n, script.End
		} else {
			s.Minus, s.To = pattern.Of(1), script.End
		}
		if p.any("centre") {
			p.any("sts")
			s.Part = script.Middle
			return s, true
		}
		part := p.partWord()
		if !p.eat("sts") && part != 0 {
			p.i = back
		} else {
			if part != 0 && part != script.Heel {
				s.Part = part
			}
			if p.any("before") {
				p.skip("the")
				if to, part, ndl, name, ok := p.mark(); ok {
					s.To, s.Part, s.Needle, s.Name = to, part, ndl, name
					return s, true
				}
			}
			p.whose(&s)
			return s, true
		}
		p.i = back
	}
	if n, ok := p.number(); ok && p.is("of", "the", "gap") { // "to within one of the gap"
		p.i += 2
		s.Minus = n
	} else if ok {
		p.skip("of", "the")
		if part := p.partWord(); part == script.Sole || part == script.Instep { // "until 1 sole st is left"
			s.Part = part
		}
		p.any("sts")
		if left, ok := p.areLeft(s); ok {
			left.Minus, left.To = n, script.End
			return left, true
		}
		p.phrase("are rem", "is rem", "rem") // "until 1 st remains before the gap"
		if !p.any("before", "from", "of", "short") {
			p.i = back
			return s, false
		}
		p.skip("of", "reaching")
		s.Minus = n
	}
	s.To, s.Part, s.Needle, s.Name, _ = p.mark()
	if s.To == script.Here {
		p.i = back
		return s, false
	}
	p.phrase("you meet", "you come to", "you reach", "that you meet", "that you come to", "in your way")
	if s.To == script.WrapMark && p.any("at", "on") { // "to the ds at the far side"
		p.skip("the", "far", "other", "opposite")
		p.any("side", "end")
		return s, true
	}
	p.whose(&s)
	return s, true
}

// allBut reads, behind "all but", the stitches that a row leaves: "the last heel st", "one", "the last
// 2 sts of the sole".
func (p *parser) allBut(s script.Step) (script.Step, bool) {
	p.skip("the", "last")
	s.To, s.Minus = script.End, pattern.Of(1)
	n, ok := p.number()
	if ok {
		s.Minus = n
	}
	p.any("of")
	p.skip("the", "last")
	if part := p.partWord(); part == script.Sole || part == script.Instep {
		s.Part = part
	}
	ok = p.any("sts", "one") || ok
	p.whose(&s)
	return s, ok
}

// areLeft reads that so many stitches are left, and of what, in either order: "are left", "of
// the sole remain", "are left on N1", "on the needle are still to be worked".
func (p *parser) areLeft(s script.Step) (script.Step, bool) {
	back := p.i
	if !p.is("before") {
		p.whose(&s)
	}
	of := p.i > back
	if !p.phrase("are still to be worked", "are to be worked", "are still unworked", "are unworked") {
		p.skip("are", "is", "still")
		if !p.any("rem") || p.is("before") {
			p.i = back
			return s, false
		}
	}
	if !of {
		p.whose(&s)
	}
	return s, true
}

// whose reads whose end is spoken of: "of needle", "on N1", "of sole".
func (p *parser) whose(s *script.Step) {
	back := p.i
	if p.any("of", "on", "at", "before") {
		p.skip("the", "this", "that", "each")
		if n, part, ok := p.needle(); ok {
			s.Needle, s.Part = n, part
			return
		}
		if p.any("ndl") {
			s.Name = "needle"
			return
		}
		if p.any("centre") {
			p.any("sts", "section")
			s.Part = script.Middle
			return
		}
		if part := p.partWord(); part != 0 {
			p.any("sts", "ndl")
			s.Part = part
			if p.any("or", "and") && p.partWord() != 0 { // "of instep or sole"
				s.Part, s.Name = 0, "needle"
			}
			return
		}
		if p.any("half", "section") {
			s.Name = "needle"
			return
		}
		if p.any("rnd", "row") {
			return
		}
	}
	p.i = back
}

// mark reads a place in a row.
func (p *parser) mark() (m script.Mark, part script.Part, needle int, name string, ok bool) {
	p.skip("the", "next", "first", "this", "nearest", "second")
	t := p.peek()
	if t.w == "sts" && p.loop() { // "to the first loop"
		p.i++
		return script.WrapMark, 0, 0, "", true
	}
	switch t.w {
	case "end", "ends":
		p.i++
		return script.End, 0, 0, "", true
	case "beg", "bor":
		p.i++
		p.skip("of", "rnd", "m")
		return script.End, 0, 0, "bor", true
	case "gap", "turning", "turn":
		p.i++
		p.skip("point")
		return script.Gap, 0, 0, "", true
	case "m":
		p.i++
		return script.Marker, 0, 0, p.markerName(), true
	case "m1": // marker 1: no stitch stands here
		p.i++
		return script.Marker, 0, 0, "1", true
	case "wrapped", "last", "previously", "previous":
		back := p.i
		p.skip("last", "previously", "previous")
		if p.pair() || p.phrase("w sts", "turned sts", "unworked sts") {
			p.any("one")
			return script.WrapMark, 0, 0, "", true
		}
		p.i = back
		if p.phrase("last sts") {
			return script.Here, 0, 0, "", false
		}
		if p.phrase("last turn", "last turning point", "previous turn", "previous turning point") {
			return script.Gap, 0, 0, "", true
		}
	case "yo":
		p.i++
		return script.WrapMark, 0, 0, "", true
	case "side":
		p.i++
		p.skip("edge", "m")
		return script.SideMark, 0, 0, "", true
	case "centre":
		p.i++
		p.skip("sts", "back", "of", "heel")
		return script.MidMark, 0, 0, "", true
	}
	if p.pair() {
		p.any("one")
		return script.WrapMark, 0, 0, "", true
	}
	if name := p.namedMarker(); name != "" {
		return script.Marker, 0, 0, name, true
	}
	if strings.HasSuffix(t.w, "m") && len(t.w) > 1 && t.w != "from" && len(t.w) <= 4 && t.kind == wordToken && t.w != "them" { // "rm", "bm"
		p.i++
		return script.Marker, 0, 0, t.w, true
	}
	if n, pt, ok := p.needle(); ok {
		return script.PartEnd, pt, n, "", true
	}
	if part := p.partWord(); part != 0 {
		p.any("sts", "ndl")
		return script.PartEnd, part, 0, "before", true
	}
	return script.Here, 0, 0, "", false
}

// namedMarker reads a marker that is called by a capital letter alone, or BOR.
func (p *parser) namedMarker() string {
	t := p.peek()
	if t.kind != wordToken {
		return ""
	}
	raw := p.raw(t.at)
	if t.w == "bor" || len(raw) == 1 && 'A' <= raw[0] && raw[0] <= 'Z' && raw[0] != 'K' && raw[0] != 'P' {
		p.i++
		p.any("m")
		return t.w
	}
	return ""
}

// markerName reads a letter or number behind "marker".
func (p *parser) markerName() string {
	if t := p.peek(); t.kind == numToken && t.val < 10 && t.x == float64(t.val) { // "marker 2"
		switch p.ahead(1).w {
		case ",", ";", ".", ")", "and", "then", "\n", "":
			p.i++
			return itoa(int(t.val))
		}
	}
	return p.namedMarker()
}

// partBetween reads which part lies between two markers: "The instep lies between A and B", "A
// and B mark the instep", "the markers are at each side of the instep".
func (p *parser) partBetween() bool {
	start := p.i
	c := script.Claim{What: script.Between}
	p.any("the")
	if c.Part = p.partWord(); c.Part != script.NoPart {
		p.any("sts")
		p.skip("now", "lies", "lie", "is", "are", "those", "that", "which", "sits", "sit")
		if !p.any("between") {
			return false
		}
		if c.Name = p.markerPair(); c.Name == "" {
			return false
		}
	} else {
		if c.Name = p.markerPair(); c.Name == "" {
			return false
		}
		p.skip("now", "lie", "are", "mark", "enclose", "frame", "sit", "stand")
		p.oneSpotLead()
		p.any("the")
		if c.Part = p.partWord(); c.Part == script.NoPart {
			return false
		}
		p.any("sts")
	}
	if !p.clauseEnd() {
		return false
	}
	c.At = p.since(start)
	p.add(&script.State{Base: p.base(start), Claims: []script.Claim{c}})
	return true
}

// oneSpotLead takes "at each side of", "on both sides of".
func (p *parser) oneSpotLead() {
	back := p.i
	if !p.atBothEnds() || !p.any("of") {
		p.i = back
	}
}

// atBothEnds takes "at each side", "on both sides", "at either end".
func (p *parser) atBothEnds() bool {
	back := p.i
	p.skip("at", "on")
	return p.any("each", "either", "both") && p.any("side", "end", "ends") || p.restore(back)
}

// markerPair reads "A and B", "markers A and B", "the two markers", as the names of a claim.
func (p *parser) markerPair() string {
	p.skip("the", "two", "both", "side", "instep")
	if t := p.peek(); t.kind == numToken && t.val == 2 {
		p.i++
	}
	m := p.any("m")
	a := p.namedMarker()
	if a == "" {
		if m {
			return "/"
		}
		return ""
	}
	if !p.any("and", "&") {
		return ""
	}
	p.any("m")
	b := p.namedMarker()
	if b == "" {
		return ""
	}
	return a + "/" + b
}

// place reads "pm", "place marker", "place a marker for beg of rnd".
func (p *parser) place() (s script.Step, ok bool) {
	if p.any("pm") {
	} else {
		p.i++
		if name := p.namedMarker(); name != "" { // "place A"
			return script.Step{Op: script.PlaceMarker, Name: name}, true
		}
		p.skip("a", "the", "another")
		p.any("second", "new")
		if !p.eat("m") {
			return s, false
		}
	}
	s = script.Step{Op: script.PlaceMarker, Name: p.markerName()}
	if p.phrase("for beg", "at beg", "to mark beg", "here for beg", "for end", "for bor", "at bor", "as bor", "to mark bor", "here for bor", "for the beg", "to mark the beg", "here for the beg") {
		p.skip("of", "the", "rnd", "m")
		s.Name = "beg"
	}
	for p.phrase("here", "for instep", "for gusset", "on each side of", "for side", "for heel") {
	}
	return s, true
}

package reader

import (
	"strings"

	"sockwright/internal/pattern"
	"sockwright/internal/script"
)

// A stitch is what a term of the trade does with stitches.
type stitch struct {
	op          script.Op
	uses, makes int8
}

// stitches are the terms that stand for one working, under the reader's spelling.
var stitches = map[string]stitch{
	"k2tog": {script.Decrease, 2, 1}, "p2tog": {script.Decrease, 2, 1}, "ssk": {script.Decrease, 2, 1}, "ssp": {script.Decrease, 2, 1},
	"skp": {script.Decrease, 2, 1}, "k2togtbl": {script.Decrease, 2, 1}, "sl1k1psso": {script.Decrease, 2, 1}, "k2t": {script.Decrease, 2, 1},
	"k3tog": {script.Decrease, 3, 1}, "p3tog": {script.Decrease, 3, 1}, "sssk": {script.Decrease, 3, 1}, "sssp": {script.Decrease, 3, 1},
	"sk2p": {script.Decrease, 3, 1}, "sk2po": {script.Decrease, 3, 1}, "s2kp": {script.Decrease, 3, 1}, "s2kp2": {script.Decrease, 3, 1}, "s2kpo": {script.Decrease, 3, 1}, "cdd": {script.Decrease, 3, 1}, "sl1k2togpsso": {script.Decrease, 3, 1},
	"yo": {script.Increase, 0, 1}, "m1": {script.Increase, 0, 1}, "m1l": {script.Increase, 0, 1}, "m1r": {script.Increase, 0, 1}, "m1p": {script.Increase, 0, 1},
	"m1lp": {script.Increase, 0, 1}, "m1rp": {script.Increase, 0, 1}, "m1pl": {script.Increase, 0, 1}, "m1pr": {script.Increase, 0, 1}, "byo": {script.Increase, 0, 1},
	"kfb": {script.Increase, 1, 2}, "pfb": {script.Increase, 1, 2}, "kfbf": {script.Increase, 1, 3}, "rli": {script.Increase, 0, 1}, "lli": {script.Increase, 0, 1}, "kll": {script.Increase, 0, 1}, "krl": {script.Increase, 0, 1},
	"lt": {script.Cross, 2, 2}, "rt": {script.Cross, 2, 2}, "mb": {script.Knit, 1, 1},
	"c2f": {script.Cross, 2, 2}, "c2b": {script.Cross, 2, 2}, "c4f": {script.Cross, 4, 4}, "c4b": {script.Cross, 4, 4}, "c6f": {script.Cross, 6, 6}, "c6b": {script.Cross, 6, 6}, "c8f": {script.Cross, 8, 8}, "c8b": {script.Cross, 8, 8},
	"t3f": {script.Cross, 3, 3}, "t3b": {script.Cross, 3, 3}, "ds": {script.Knit, 1, 1},
}

// steps reads the steps of a row up to where no step follows. ok is false if there is none.
func (p *parser) steps() ([]script.Step, bool) {
	var out []script.Step
	for {
		back := p.i
		if len(out) > 0 && !p.between() {
			p.i = back
			break
		}
		s, ok := p.step()
		if !ok {
			p.i = back
			break
		}
		out = append(out, s)
	}
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
		case p.phrase("with same ndl", "with the same ndl", "with a free ndl", "with free ndl", "with an empty ndl", "with spare ndl", "with a spare ndl"):
		case p.ndlRemark():
		default:
			return took || !p.stop()
		}
		took = true
	}
}

// ndlRemark takes "(1st needle)" or "(instep)" behind a step.
func (p *parser) ndlRemark() bool {
	if !p.is("(") {
		return false
	}
	back := p.i
	p.i++
	_, _, ok := p.needle()
	if !ok {
		ok = p.partWord() != 0
		p.any("sts")
	}
	if ok && p.eat(")") {
		return true
	}
	p.i = back
	return false
}

// needleAhead tells whether a needle or a part is named n tokens on, so that a row goes on
// behind a stop.
func (p *parser) needleAhead(n int) bool {
	back := p.i
	defer func() { p.i = back }()
	p.i += n
	_, _, ok := p.needle()
	return ok && !p.claimAhead()
}

// claimAhead tells whether a count follows rather than a step: "N1: 12 sts".
func (p *parser) claimAhead() bool {
	back := p.i
	defer func() { p.i = back }()
	p.skip(":", ",", "-", "=", "has", "holds")
	_, ok := p.list()
	return ok
}

// needle reads "N1", "1st needle", "second needle", "needle 2", "instep needle", "on N2".
func (p *parser) needle() (n int, part script.Part, ok bool) {
	back := p.i
	p.skip("on", "for", "at", "of", "the", "from", "with")
	t := p.peek()
	switch {
	case len(t.w) == 2 && t.w[0] == 'n' && isDigit(t.w[1]):
		p.i++
		return int(t.w[1] - '0'), 0, true
	case t.w == "n" && p.ahead(1).kind == numToken && p.ahead(1).glued:
		p.i += 2
		return int(p.toks[p.i-1].val), 0, true
	case t.w == "ndl" && p.ahead(1).kind == numToken:
		p.i += 2
		return int(p.toks[p.i-1].val), 0, true
	case (t.kind == ordToken || t.kind == numToken) && p.ahead(1).w == "ndl" && t.kind == ordToken:
		p.i += 2
		return int(t.val), 0, true
	case t.w == "first" && p.ahead(1).w == "ndl":
		p.i += 2
		return 1, 0, true
	case p.ahead(1).w == "ndl":
		switch t.w {
		case "instep", "front":
			p.i += 2
			return 0, script.Instep, true
		case "sole", "heel", "back":
			p.i += 2
			return 0, script.Sole, true
		}
	}
	p.i = back
	return 0, 0, false
}

// partWord reads a word for a part of the sock's stitches.
func (p *parser) partWord() script.Part {
	switch p.peek().w {
	case "heel":
		p.i++
		if p.any("flap") {
		}
		return script.Heel
	case "flap":
		p.i++
		return script.Heel
	case "instep":
		p.i++
		return script.Instep
	case "sole":
		p.i++
		return script.Sole
	case "gusset":
		p.i++
		return script.Gusset
	case "foot":
		p.i++
		return script.Foot
	case "toe":
		p.i++
		return script.Toe
	case "leg":
		p.i++
		return script.Leg
	case "cuff":
		p.i++
		return script.Cuff
	}
	return script.NoPart
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
	if n, part, ok := p.needlePrefix(); ok {
		return script.Step{Op: script.ToNeedle, Needle: n, Part: part}, true
	}
	if s, ok := p.bySize(); ok {
		return s, true
	}
	if st, known := stitches[t.w]; known && t.w != "ds" {
		p.i++
		s = script.Step{Op: st.op, Uses: st.uses, Makes: st.makes, Name: t.w}
		p.orOther(st)
		if p.eat("tbl") {
			s.Tbl = true
		}
		p.howOften(&s)
		return s, true
	}
	switch t.w {
	case "k", "p":
		return p.single()
	case "plain":
		if p.i++; p.eat("k") {
			return script.Step{Op: script.Knit, Uses: 1, Makes: 1, To: script.End}, true
		}
		return script.Step{Op: script.Knit, Uses: 1, Makes: 1, To: script.End}, p.clauseEnd() || p.is("across") || p.is("around")
	case "sl", "slipping":
		return p.slip()
	case "work", "cont", "patt":
		return p.workStep()
	case "inc":
		return p.increase()
	case "dec":
		return p.decreaseWord()
	case "take", "taking":
		return p.takeTogether()
	case "pick":
		return p.pickUp()
	case "with":
		if p.phrase("with same ndl", "with the same ndl", "with rs facing", "with the rs facing") {
			p.skip(",")
			return p.step1()
		}
	case "psso", "p2sso", "psso2":
		p.i++
		s = script.Step{Op: script.PassOver, N: pattern.Of(1)}
		if t.w != "psso" {
			s.N = pattern.Of(2)
		}
		return s, true
	case "pass":
		if p.phrase("pass slipped sts over", "pass the slipped sts over", "pass the slipped one over", "pass sl sts over", "pass sl sts over", "pass the sl sts over", "pass both slipped sts over") {
			s = script.Step{Op: script.PassOver, N: pattern.Of(1)}
			if strings.Contains(strings.ToLower(p.raw(p.since(p.i-3))), "both") || strings.Contains(strings.ToLower(p.raw(t.at.To(p.toks[p.i-1].at))), "both") {
				s.N = pattern.Of(2)
			}
			return s, true
		}
	case "pm", "place", "put":
		return p.place()
	case "sm":
		p.i++
		return script.Step{Op: script.PassMarker, Name: p.markerName()}, true
	case "remove", "rm":
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
		return script.Step{Op: script.Turn}, true
	case "w&t", "wrap":
		return p.wrap()
	case "make", "twin":
		if p.phrase("make twin in the last sts", "make twin in that sts", "make twin in next sts", "make twin in the next sts", "make a twin sts", "make twin", "twin sts") {
			return script.Step{Op: script.Neutral}, true
		}
		if t.w == "make" {
			return p.increase()
		}
	case "ds", "mds":
		p.i++
		return script.Step{Op: script.Work, Uses: 0, Makes: 0, Name: "ds", N: pattern.Of(0)}, true
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
	return p.otherTerm()
}

// orOther reads "(RS) or p2tog (WS)" behind a term that is worked so on one side only.
func (p *parser) orOther(st stitch) {
	back := p.i
	p.side()
	p.phrase("on rs", "on rs row", "on the rs")
	if p.any("or", "/") {
		if other, ok := stitches[p.peek().w]; ok && other.uses == st.uses && other.makes == st.makes {
			p.i++
			p.side()
			p.phrase("on ws", "on ws row", "on the ws")
			return
		}
	}
	p.i = back
}

// bySize reads a list of terms, one for each size: "- (k2tog, -, k2tog)". All that are no
// dash must be the same.
func (p *parser) bySize() (s script.Step, ok bool) {
	first := p.peek()
	st, known := stitches[first.w]
	if p.sizes < 2 || !known && first.w != "-" || p.ahead(1).w != "(" && p.ahead(1).w != "[" {
		return s, false
	}
	start := p.i
	n := pattern.Number{At: first.at}
	term := ""
	for {
		t := p.peek()
		v := int32(1)
		if other, is := stitches[t.w]; is && (term == "" || term == t.w) {
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

// needlePrefix reads "N1:", "N2 -", "on N3,", "needle 1 -" where steps follow.
func (p *parser) needlePrefix() (int, script.Part, bool) {
	start := p.i
	n, part, ok := p.needle()
	if !ok && p.any("on", "over", "across") { // "on the instep k1, …"
		p.skip("the")
		if part = p.partWord(); part != 0 {
			p.any("sts", "ndl")
			ok = part != script.Foot && part != script.Leg
		}
	}
	if !ok {
		p.i = start
		return 0, 0, false
	}
	if p.eat(",", "which") { // "N1, which holds the heel sts:"
		for !p.done() && !p.is(":") && !p.is(".") {
			p.i++
		}
	}
	if p.is("(") { // "N2 (instep)"
		back := p.i
		p.i++
		if p.partWord() != 0 {
			p.any("sts", "ndl")
		}
		if !p.eat(")") {
			p.i = back
		}
	}
	p.skip(":", ",", "-", ".", "only")
	back := p.i
	_, num := p.list()
	p.i = back
	if num || p.done() {
		p.i = start
		return 0, 0, false
	}
	return n, part, true
}

// howOften reads how often a single stitch is worked: "k2tog 3 times", "k2tog around".
func (p *parser) howOften(s *script.Step) {
	back := p.i
	switch {
	case p.any("around"), p.phrase("across", "to end", "all across", "all around"):
		p.skip("of", "rnd", "row")
		s.To = script.End
	case p.eat("twice"):
		s.N = pattern.Of(2)
	case p.eat("once"):
	default:
		if n, ok := p.number(); ok {
			if p.any("times") {
				s.N = n
				return
			}
			p.i = back
			if s.Uses == 0 || s.Op == script.Cross { // "yo 2"
				break
			}
		}
	}
}

// single reads what follows k or p.
func (p *parser) single() (s script.Step, ok bool) {
	word := p.peek().w
	from := p.i
	p.i++
	s = script.Step{Op: script.Knit, Uses: 1, Makes: 1}
	if word == "p" {
		s.Op = script.Purl
	}
	p.skip("across", "plain")
	switch {
	case p.phrase("the k sts and p the p sts", "the k sts and p", "the k and p the p", "all k sts and p all p sts", "k sts and p p sts"):
		p.skip("the", "p", "sts", "as", "they", "appear", "face", "present", "themselves", "to", "end")
		s.Op, s.To = script.Work, script.End
		return s, true
	case p.phrase("into front and back", "in front and back", "into the front and back", "in the front and back", "into front and into back", "front and back", "into the front and the back"):
		p.skip("of", "next", "the", "same", "sts", "first", "last")
		return script.Step{Op: script.Increase, Uses: 1, Makes: 2}, true
	case p.phrase("it tog with its wrap", "it and its wrap tog", "this sts tog with its wrap", "it with its wrap", "the wrapped sts tog with its wrap", "wrapped sts tog with its wrap", "wrapped sts with its wrap", "next sts tog with its wrap", "sts tog with its wrap", "it tog with its wraps", "it tog with both wraps"):
		s.N, s.Name = pattern.Of(1), "wrap"
		return s, true
	case p.is("one", "row"), p.is("one", "rnd"):
		return s, false
	case p.eat("to"), p.eat("until"), p.phrase("within"):
		if p.toks[p.i-1].w == "within" {
			n, ok := p.number()
			if !ok || !p.eat("sts") {
				return s, false
			}
			s.Minus = n
			p.skip("of")
			s.To, s.Part, s.Needle, s.Name, ok = p.mark()
			return s, ok
		}
		return p.landmark(s)
	case p.any("around"):
		s.To = script.End
		return s, true
	case p.phrase("every sts", "all sts", "all the sts", "even"):
		s.To = script.End
		return s, true
	case p.phrase("half the", "half of the", "half"):
		if part := p.partWord(); part != 0 && p.eat("sts") {
			s.Part, s.To, s.Name = part, script.MidMark, "half"
			p.onto()
			return s, true
		}
		return s, false
	}
	back := p.i
	held := false
	for p.any("the", "next", "first", "these", "those", "rem", "last", "all", "foll", "over", "other", "held") {
		held = held || p.toks[p.i-1].w == "held"
	}
	if n, ok := p.number(); ok {
		switch {
		case p.is("row"), p.is("rnd"), p.is("more"), p.is("-", "row"):
			p.i = from
			return s, false
		case p.eat("tog"):
			s = script.Step{Op: script.Decrease, Makes: 1, Name: word + "2tog"}
			if len(n.Val) != 1 || n.Val[0] < 1 || n.Val[0] > 20 {
				return s, false
			}
			s.Uses = int8(n.Val[0])
			if p.eat("tbl") || p.phrase("through back sts", "through back of sts", "through the back", "through back sts") {
				s.Tbl = true
			}
			p.howOften(&s)
			return s, true
		}
		s.N = n
		if s.Part = p.partWord(); held && s.Part == 0 {
			s.Part = script.Instep
		}
		if p.eat("of", "the") { // "knit five of the ten"
			p.number()
			if s.Part == 0 {
				s.Part = p.partWord()
			}
		}
		if p.eat("of", "them") {
			p.skip("again")
		}
		p.eat("sts")
		p.skip("again")
		p.colour()
		if p.eat("tbl") {
			s.Tbl = true
		}
		if p.phrase("from holder", "from the holder", "from spare ndl", "from thread", "from the thread", "from the spare ndl") {
			s.Part = script.Instep
		}
		if p.eat("with", "its", "wrap") || p.eat("with", "wrap") || p.phrase("tog with its wrap", "and its wrap", "and wrap tog", "and its wrap tog") {
			s.Name = "wrap"
		}
		p.onto()
		return s, true
	}
	if part := p.partWord(); part != 0 {
		p.any("ndl")
		p.skip("sts")
		s.Part, s.To = part, script.PartEnd
		if n, ok := p.number(); ok { // "k instep 28 (30, 32)"
			p.any("sts")
			s.N, s.To = n, script.Here
		}
		p.onto()
		return s, true
	}
	if p.eat("sts") { // "k rem sts", "k the sts"
		s.To = script.End
		p.onto()
		return s, true
	}
	if p.phrase("front ndl", "across front ndl") {
		s.Part, s.To = script.Instep, script.PartEnd
		return s, true
	}
	if p.phrase("back ndl") {
		s.Part, s.To = script.Sole, script.PartEnd
		return s, true
	}
	p.i = back
	if p.eat("tbl") {
		s.Tbl = true
	}
	if p.clauseEnd() || p.is("*") {
		s.To = script.End
		if p.depth > 0 {
			s.To = script.Here
		}
		return s, true
	}
	if p.any("rnd", "row") && p.clauseEnd() {
		s.To = script.End
		return s, true
	}
	return s, false
}

// colour takes a colour's letter or name behind a stitch: "k3 A", "k1 MC", "k2 dark".
func (p *parser) colour() {
	t := p.peek()
	if t.kind != wordToken {
		return
	}
	raw := p.raw(t.at)
	one := len(raw) == 1 && 'A' <= raw[0] && raw[0] <= 'Z' || t.w == "mc" || t.w == "cc" || t.w == "dark" || t.w == "light"
	if !one {
		if p.is("in") && p.ahead(1).kind == wordToken && (len(p.ahead(1).w) == 1 || p.ahead(1).w == "mc" || p.ahead(1).w == "cc") {
			p.i += 2
		}
		return
	}
	if a := p.ahead(1); a.kind != wordToken || a.w == "to" || a.w == "and" || a.w == "around" {
		p.i++
	}
}

// onto takes words that say where stitches go.
func (p *parser) onto() {
	for {
		back := p.i
		if p.phrase("onto", "on to", "on") {
			p.skip("the", "same", "that", "to", "one", "a", "empty", "free", "spare", "first", "next")
			if _, _, ok := p.needle(); ok {
				continue
			}
			if p.eat("ndl") || p.toks[p.i-1].w == "that" || p.toks[p.i-1].w == "same" {
				continue
			}
		}
		p.i = back
		if p.phrase("with one ndl", "with a spare ndl", "with the same ndl", "in patt", "as set", "as est", "as established", "in rib", "in the same way", "the same way", "for instep", "for heel", "for sole", "for the instep", "for the heel", "for the sole", "on the way", "in st-st", "in stockinette", "even") {
			continue
		}
		return
	}
}

// landmark reads what follows "to".
func (p *parser) landmark(s script.Step) (script.Step, bool) {
	p.skip("the", "within")
	back := p.i
	if p.eat("last") {
		if n, ok := p.number(); ok {
			s.Minus, s.To = n, script.End
		} else {
			s.Minus, s.To = pattern.Of(1), script.End
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
	if n, ok := p.number(); ok {
		p.skip("of", "the")
		p.partWord()
		p.any("sts")
		p.skip("are", "is")
		left := p.any("rem") // "until 1 st remains before the gap", "until 3 sts are left"
		if left && !p.is("before") {
			s.Minus, s.To = n, script.End
			p.whose(&s)
			return s, true
		}
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
	p.whose(&s)
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
	case "wrapped", "last", "previously", "previous":
		back := p.i
		p.skip("last", "previously", "previous")
		if p.phrase("wrapped sts", "wrapped", "wrap", "w sts", "ds", "turned sts", "ds sts", "twin sts", "twin", "shadow sts", "double sts", "unworked sts", "paired sts") {
			return script.WrapMark, 0, 0, "", true
		}
		p.i = back
		if p.phrase("last sts") {
			return script.Here, 0, 0, "", false
		}
		if p.phrase("last turn", "last turning point", "previous turn", "previous turning point") {
			return script.Gap, 0, 0, "", true
		}
	case "wrap", "ds", "twin", "double", "shadow", "paired", "yo":
		p.i++
		p.skip("sts")
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
	return p.namedMarker()
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
	if p.phrase("for beg", "at beg", "to mark beg", "here for beg", "for end") {
		p.skip("of", "the", "rnd")
		s.Name = "beg"
	}
	for p.phrase("here", "for instep", "for gusset", "on each side of", "for side", "for heel") {
	}
	return s, true
}

// slip reads what follows sl.
func (p *parser) slip() (s script.Step, ok bool) {
	p.i++
	s = script.Step{Op: script.Slip, Uses: 1, Makes: 1}
	switch {
	case p.any("m"):
		return script.Step{Op: script.PassMarker, Name: p.markerName()}, true
	case p.phrase("the m", "next m", "all m", "all the m"):
		return script.Step{Op: script.PassMarker, Name: p.markerName()}, true
	case p.eat("to"):
		return p.landmark(s)
	}
	if name := p.namedMarker(); name != "" {
		return script.Step{Op: script.PassMarker, Name: name}, true
	}
	p.skip("the", "next", "first", "last")
	if n, ok := p.number(); ok {
		s.N = n
		if p.is("m") {
			p.i++
			return script.Step{Op: script.PassMarker, N: n}, true
		}
	} else if !p.is("sts") && !p.is("purlwise") && !p.is("wyif") && !p.is("wyib") && !p.clauseEnd() && !p.is("knitwise") {
		return s, false
	}
	part := p.partWord()
	p.any("sts")
	if part != 0 && !s.N.Known() {
		s.To, s.Part = script.PartEnd, part
	}
	for p.phrase("purlwise", "knitwise", "wyif", "wyib", "with yarn in front", "with yarn in back", "with yarn at back", "p-wise", "k-wise", "as if to p", "as if to k", "pw", "kw", "with yarn held in front") {
	}
	p.onto()
	return s, true
}

// workStep reads "work 7 lace sts", "work to end", "work instep in patt", "work 1".
func (p *parser) workStep() (s script.Step, ok bool) {
	p.i++
	s = script.Step{Op: script.Work, Uses: 1, Makes: 1}
	if p.phrase("each corner sts tog with its neighbour", "each corner sts tog with the next sts", "the corner sts tog with their neighbours", "corner sts tog with their neighbours", "each corner sts tog with the sts beside it", "each corner sts tog with next sts", "each corner sts tog with the sts after it", "each corner sts tog with the foll sts", "each corner sts tog with the sts next to it") {
		return script.Step{Op: script.Adjust, Name: "corner"}, true
	}
	if c, ok := try(p, p.chartStep); ok {
		return c, true
	}
	p.skip("across", "the", "next", "over", "in", "rem", "all", "these", "first", "last")
	if p.eat("patt") || p.eat("rib") || p.phrase("as set", "as established", "even", "as est") {
		p.skip("as", "set", "established", "est", "across", "over", "the")
	}
	if p.any("to") {
		return p.landmark(s)
	}
	if n, ok := p.number(); ok {
		if p.is("row") || p.is("rnd") || p.is("more") || p.is("rep") || p.is("times") || p.unit() != "" {
			return s, false
		}
		s.N = n
		if !p.any("sts") && !p.clauseEnd() {
			p.partWord()
			p.any("lace", "patt", "chart", "rib", "cable")
			if !p.any("sts") {
				return s, false
			}
		}
		p.inPattern()
		return s, true
	}
	if part := p.partWord(); part != 0 {
		p.any("sts", "ndl")
		s.Part, s.To = part, script.PartEnd
		p.inPattern()
		return s, true
	}
	if n, part, ok := p.needle(); ok {
		s.Needle, s.Part, s.To = n, part, script.PartEnd
		p.inPattern()
		return s, true
	}
	if p.any("sts", "around", "end") {
		s.To = script.End
		p.inPattern()
		return s, true
	}
	return s, false
}

// chartStep reads "Rnd 1 of chart 4 times across the 33 instep sts" behind "work".
func (p *parser) chartStep() (s script.Step, ok bool) {
	s = script.Step{Op: script.OfChart, Uses: 1, Makes: 1}
	p.skip("the", "next")
	if p.any("row", "rnd") {
		if t := p.peek(); t.kind == numToken {
			s.Needle = int(t.val)
			p.i++
			if p.any("-") {
				p.any("to")
				p.number()
			}
		}
		if !p.any("of", "from") {
			return s, false
		}
	}
	p.any("from")
	p.skip("the", "instep", "sole", "lace", "leg", "foot", "colour", "patt")
	if !p.any("chart") {
		return s, false
	}
	if t := p.peek(); t.kind == wordToken && len(t.w) == 1 {
		s.Name = t.w
		p.i++
	}
	p.skip("patt")
	if n, ok := p.number(); ok && p.any("times") {
		s.Stop = script.Stop{Kind: script.Reps, N: n}
	}
	if p.any("across", "over", "on") {
		p.skip("the", "all", "next", "first")
		if n, ok := p.number(); ok {
			s.N = n
			s.Part = p.partWord()
			p.any("sts")
		} else if part := p.partWord(); part != 0 {
			s.Part, s.To = part, script.PartEnd
			p.any("sts", "ndl")
		} else if p.any("sts", "rnd", "ndl") {
			s.To = script.End
		}
	} else if !s.Stop.N.Known() {
		s.To = script.End
	}
	p.inPattern()
	return s, true
}

// patternFrom reads "beg with Rnd 4, work Reed patt over the 32 instep sts".
func (p *parser) patternFrom() (s script.Step, ok bool) {
	p.i++
	p.skip("with", "on", "at")
	if !p.any("row", "rnd") || p.peek().kind != numToken {
		return s, false
	}
	s = script.Step{Op: script.OfPattern, Uses: 1, Makes: 1, Needle: int(p.peek().val)}
	p.i++
	p.skip(",", "and", "work", "cont", "in", "of")
	for n := 0; n < 5 && !p.clauseEnd() && !p.is("over") && !p.is("across") && !p.is("on"); n++ {
		p.i++
	}
	if !p.any("over", "across", "on") {
		return s, false
	}
	p.skip("the", "all")
	n, ok := p.number()
	if ok {
		s.N = n
	} else {
		s.To = script.PartEnd
	}
	s.Part = p.partWord()
	p.any("sts", "ndl")
	return s, ok || s.Part != 0
}

func (p *parser) inPattern() {
	for p.phrase("in patt", "in rib", "as set", "as established", "in est patt", "as est", "in k1", "in lace", "in st-st", "in stockinette", "in chart patt", "of chart", "of patt", "in established patt", "foll chart", "from chart", "as it appears", "foll patt") {
	}
	if back := p.i; p.phrase(", ending", "ending", ", end") {
		if _, ok := p.step(); !ok {
			p.i = back
		}
	}
}

// increase reads "inc 1", "make 1", "inc in next st".
func (p *parser) increase() (s script.Step, ok bool) {
	word := p.peek().w
	p.i++
	if p.is("rnd") || p.is("row") {
		return s, false
	}
	s = script.Step{Op: script.Increase, Uses: 0, Makes: 1}
	if p.phrase("in next sts", "in first sts", "in last sts", "in each sts", "in next", "into next sts") {
		s.Uses, s.Makes = 1, 2
		return s, true
	}
	if n, ok := p.number(); ok && (p.any("sts") || p.clauseEnd() || word == "make") {
		s.N = n
		if p.phrase("evenly spaced", "evenly around", "evenly across", "evenly") {
			s.Op = script.Adjust
		} else if p.phrase("at each end", "at both ends", "each side", "at each side") {
			s.Op, s.Makes = script.Adjust, 2
		} else if p.phrase("in next sts", "in first sts", "in last sts") {
			s.Uses, s.Makes = 1, 2
		}
		return s, true
	}
	return s, false
}

// decreaseWord reads "dec 1", "dec across the gap".
func (p *parser) decreaseWord() (s script.Step, ok bool) {
	p.i++
	s = script.Step{Op: script.Decrease, Uses: 2, Makes: 1}
	if p.clauseEnd() && p.depth == 0 && !p.done() {
		return s, true
	}
	if p.phrase("across gap", "across the gap", "over the gap", "across", "over gap") {
		if p.eat("(") {
			for !p.done() && !p.eat(")") {
				p.i++
			}
		}
		return s, true
	}
	if n, ok := p.number(); ok && (p.eat("sts") || p.clauseEnd()) {
		s.N = n
		if p.phrase("evenly spaced", "evenly around", "evenly across", "evenly") {
			s.Op, s.Uses, s.Makes, s.Name = script.Adjust, 0, 0, "dec"
			return s, true
		}
		if p.phrase("at each end", "at both ends", "each end", "each side", "at each side") {
			return s, false
		}
		return s, true
	}
	return s, false
}

// takeTogether reads "taking together one stitch from each side of the hole".
func (p *parser) takeTogether() (s script.Step, ok bool) {
	p.i++
	s = script.Step{Op: script.Decrease, Uses: 2, Makes: 1}
	tog := false
	for n := 0; !p.clauseEnd() && n < 14; n++ {
		tog = tog || p.is("tog")
		p.i++
	}
	return s, tog
}

// pickUp reads "pick up and k 14 sts along flap", "pick up and k 1 st in each slipped edge
// st of the flap - 14 sts".
func (p *parser) pickUp() (s script.Step, ok bool) {
	lift := p.raw(p.peek().at)
	corners := false
	p.i++
	s = script.Step{Op: script.PickUp, Makes: 1}
	if !p.eat("up") && (strings.EqualFold(lift, "pick") || p.peek().kind != numToken && !p.is("and")) {
		return s, false
	}
	p.skip("and", "k", "p", "&")
	p.skip("about", "approx", "another")
	n, known := p.number()
	if known {
		s.N = n
		p.any("more", "extra")
	}
	p.any("sts")
	if p.phrase("in each corner", "at each corner", "in both corner") {
		corners = true
	} else if p.phrase("in each", "for each", "from each", "into each") {
		s.Edge = true
		p.skip("of", "the", "slipped", "edge", "sts", "chain", "along", "flap", "heel", "side", "garter", "ridges")
		if p.any("-", ":", "(", "=", ",") {
			back := p.i
			if n, ok := p.number(); ok && p.any("sts") {
				s.N = n
				p.any(")")
				p.any("-")
			} else {
				p.i = back - 1
			}
		} else {
			s.N = pattern.Number{}
		}
	} else if !known {
		return s, false
	}
	corner, both := 0, false
	for !p.clauseEnd() && !p.is("and") && !p.is("then") && !p.is("-") && !p.is("*") {
		if p.is("k") || p.is("p") {
			break
		}
		if p.is("corner") || p.is("gap") {
			corner++
		}
		both = both || p.is("each", "side") || p.is("both", "side") || p.is("each", "edge") || p.is("both", "edge")
		if p.peek().kind == numToken {
			break
		}
		p.i++
	}
	s.Corner = corner > 0 || corners
	if corners {
		s.At = p.since(p.i - 1)
		return script.Step{Op: script.Group, Stop: script.Stop{Kind: script.Reps, N: pattern.Of(1)}, Body: []script.Step{s, s}}, true
	}
	if both { // along each side: the instep lies between
		at := p.since(p.i - 1)
		instep := script.Step{At: at, Op: script.Work, Uses: 1, Makes: 1, Part: script.Instep, To: script.PartEnd}
		s.At = at
		if p.phrase("and put the sts from the thread back on the ndl", "and put the held sts back on the ndl", "and place the instep sts back on the ndl") {
			p.skip("ndl")
		}
		return script.Step{Op: script.Group, Stop: script.Stop{Kind: script.Reps, N: pattern.Of(1)}, Body: []script.Step{s, instep, s}}, true
	}
	if p.is(",", "then") && p.ahead(2).kind == numToken {
		p.i++
	}
	joined := p.is("and") || p.is("then")
	if joined && (p.ahead(1).kind == numToken) && (p.ahead(2).w == "more" || p.ahead(2).w == "extra" || p.ahead(2).w == "in" || p.ahead(2).w == "at" || p.ahead(2).w == "sts") { // "and 1 more in the corner"
		p.i++
		extra, _ := p.number()
		for !p.clauseEnd() && !p.is("and") {
			if p.is("k") || p.is("p") {
				break
			}
			p.i++
		}
		more := script.Step{Op: script.PickUp, Makes: 1, N: extra, Corner: true, At: extra.At}
		if p.phrase("and") {
			p.i--
		}
		return script.Step{Op: script.Group, Stop: script.Stop{Kind: script.Reps, N: pattern.Of(1)}, Body: []script.Step{{Op: script.PickUp, Makes: 1, N: s.N, Edge: s.Edge, At: s.N.At}, more}}, true
	}
	if s.Corner && joined && p.ahead(1).kind == numToken { // "pick up and k 1 in the corner and 14 along flap"
		p.i++
		more, _ := p.number()
		p.any("sts")
		for !p.clauseEnd() && !p.is("and") && !p.is("k") && !p.is("p") {
			p.i++
		}
		return script.Step{Op: script.Group, Stop: script.Stop{Kind: script.Reps, N: pattern.Of(1)}, Body: []script.Step{s, {Op: script.PickUp, Makes: 1, N: more, At: more.At}}}, true
	}
	return s, true
}

// wrap reads "w&t", "wrap next st and turn".
func (p *parser) wrap() (s script.Step, ok bool) {
	if p.eat("w&t") {
		p.skip("next", "foll", "sts")
		if p.phrase("in the sts after it", "in the next sts", "the sts after it", "the next sts", "next sts") {
		}
		return script.Step{Op: script.Wrap}, true
	}
	p.i++
	p.skip("the", "next", "foll", "sts", "it", "and", ",")
	if p.eat("turn") {
		return script.Step{Op: script.Wrap}, true
	}
	return s, false
}

// otherTerm reads a term that the trade or the text itself explains, or one that looks like
// a term and is not explained anywhere.
func (p *parser) otherTerm() (s script.Step, ok bool) {
	t := p.peek()
	if t.kind != wordToken {
		return s, false
	}
	raw := p.raw(t.at)
	term := p.terms[strings.ToLower(raw)]
	if term == nil {
		term = p.terms[t.w]
	}
	if term != nil && !grammar[t.w] && (t.w != "k" && t.w != "p") {
		p.i++
		s = script.Step{Op: script.Cross, Name: raw, Uses: int8(term.Uses), Makes: int8(term.Makes)}
		if term.Uses < 0 {
			s.Op = script.Unknown
		}
		p.howOften(&s)
		return s, true
	}
	if looksLikeTerm(raw) {
		p.i++
		s = script.Step{Op: script.Unknown, Name: raw}
		p.howOften(&s)
		return s, true
	}
	return s, false
}

// looksLikeTerm: letters and figures mixed, or capitals only, as abbreviations of stitches
// are.
func looksLikeTerm(raw string) bool {
	if len(raw) < 2 || len(raw) > 9 {
		return false
	}
	digit, upper, lower := false, 0, 0
	for i := range len(raw) {
		switch c := raw[i]; {
		case isDigit(c):
			digit = true
		case 'A' <= c && c <= 'Z':
			upper++
		case 'a' <= c && c <= 'z':
			lower++
		default:
			return false
		}
	}
	return digit && upper+lower > 0 && raw[0] != 'n' && raw[0] != 'N' || upper >= 2 && lower == 0 && !capitals[raw]
}

var capitals = set("RS WS CO BO MC CC BOR DPN DPNS US UK EU AT THE SAME TIME ROW RND HEEL TOE LEG CUFF FOOT GUSSET AND FOR ALL SIZES SIZE ONLY NOT ON IN TO OF TURN KNIT PURL REP WORK NEXT SOCK NOTE FLAP SET UP END")

// grammar are words that are never stitches, whatever a list of abbreviations says of them.
var grammar = set("row rnd sts rep rem beg cont foll alt rs ws m patt tog dec inc approx total size ndl in cm mm co bo st-st tbl")

// group reads a repeat within a row.
func (p *parser) group() (s script.Step, ok bool) {
	if p.depth >= maxDepth {
		return s, false
	}
	open := p.peek().w
	p.i++
	p.depth++
	defer func() { p.depth-- }()
	s.Op = script.Group
	if open == "*" {
		return p.star()
	}
	if t, ok := p.twist(open); ok {
		return t, true
	}
	if s.Body, ok = p.steps(); !ok {
		return s, false
	}
	shut := "]"
	if open == "(" {
		shut = ")"
	}
	p.skip(",", ".")
	if !p.eat(shut) {
		return s, false
	}
	s.Stop, ok = p.groupStop(open == "(")
	return s, ok
}

// groupStop reads how often a group is worked: "4 times", "around", "to last 3 sts", "in
// next st".
func (p *parser) groupStop(round bool) (script.Stop, bool) {
	from := p.i
	back := p.i
	stop := script.Stop{Kind: script.Reps, N: pattern.Of(1)}
	p.skip("rep", ";", ",")
	switch {
	case p.eat("once"), p.eat("once", "more"):
	case p.eat("twice"):
		stop.N = pattern.Of(2)
	case p.phrase("in next sts", "into next sts", "in same sts", "in 1 sts", "into one sts", "in one sts", "in the next sts", "into the next sts", "in the same sts", "all in next sts", "all in one sts"):
		stop.Kind = script.NoStop
	case p.phrase("around", "across", "all around", "all rnd", "to end", "to the end", "rnd", "the whole way rnd", "rep around", "all the way around"):
		stop = script.Stop{Kind: script.ToEnd}
		p.ofWhat(&stop)
	case p.phrase("to", "until"):
		back := p.i
		p.skip("the")
		if p.eat("end") {
			stop = script.Stop{Kind: script.ToEnd}
			p.ofWhat(&stop)
			break
		}
		step, ok := p.landmark(script.Step{})
		if !ok {
			p.i = back
			return stop, false
		}
		stop = script.Stop{Kind: script.ToEnd, N: step.Minus, Claims: markClaim(step)}
	default:
		p.any("for", "a", "total", "of")
		if n, ok := p.number(); ok && p.any("times", "x") {
			stop.N = n
			p.phrase("in all", "in total", "total", "altogether")
			if p.eat("more") {
				stop.Kind = script.More
			}
		} else if p.i = back; p.peek().w == "x" && p.ahead(1).kind == numToken { // "[k2, p2] x 4"
			p.i++
			if stop.N, ok = p.number(); !ok {
				return stop, false
			}
		} else if p.i = back; round { // brackets round a remark, or a bare repeat
			stop.N = pattern.Of(1)
		}
	}
	stop.At = p.since(min(from, len(p.toks)-1))
	return stop, true
}

// markClaim keeps where a group ends if that is not the end of the row.
func markClaim(s script.Step) []script.Claim {
	if s.To == script.End && s.Part == 0 && s.Needle == 0 {
		return nil
	}
	return []script.Claim{{Part: s.Part, Needle: s.Needle, What: script.What(s.To)}}
}

func (p *parser) ofWhat(stop *script.Stop) {
	var s script.Step
	p.whose(&s)
	if s.Part != 0 || s.Needle != 0 || s.Name != "" {
		stop.Claims = []script.Claim{{Part: s.Part, Needle: s.Needle, What: script.What(script.End)}}
	}
}

// star reads "k2, p2*" and "k2, p2; rep from *".
func (p *parser) star() (s script.Step, ok bool) {
	s.Op = script.Group
	if s.Body, ok = p.steps(); !ok {
		return s, false
	}
	from := p.i
	switch p.skip(",", ";", "."); {
	case p.eat("*"):
		p.skip(",", ";")
		if p.phrase("rep from * to *", "rep between * and *", "rep from *", "rep from * to", "rep") {
		}
		s.Stop, ok = p.starStop(false)
	case p.phrase("rep from *", "rep from the *", "rep * to *", "rep from", "rep"):
		p.eat("*")
		s.Stop, ok = p.starStop(true)
	default:
		return s, false
	}
	s.Stop.At = p.since(from)
	return s, ok
}

// starStop reads how often the part behind an asterisk is repeated; again tells that the
// words say "rep", so that a number of times comes on top of the first.
func (p *parser) starStop(again bool) (script.Stop, bool) {
	p.skip("*")
	switch {
	case p.phrase("on second ndl", "on n2", "on the second ndl", "on 2 ndl", "on the other ndl", "on other ndl", "across second ndl", "for second ndl", "over second ndl", "for n2", "across n2"):
		return script.Stop{Kind: script.More, N: pattern.Of(1)}, true
	case p.onOther():
		return script.Stop{Kind: script.More, N: pattern.Of(1)}, true
	case p.peek().kind == ordToken && p.ahead(1).w == "ndl", p.is("on") && p.ahead(1).kind == ordToken && p.ahead(2).w == "ndl":
		p.skip("on")
		p.i += 2
		return script.Stop{Kind: script.More, N: pattern.Of(1)}, true
	case p.eat("once", "more"), p.eat("once"), p.phrase("for the other half", "over the other half", "across the instep", "over the sole", "across sole"):
		if again || p.toks[p.i-1].w == "more" {
			return script.Stop{Kind: script.More, N: pattern.Of(1)}, true
		}
		return script.Stop{Kind: script.Reps, N: pattern.Of(1)}, true
	case p.clauseEnd():
		return script.Stop{Kind: script.ToEnd}, true
	}
	back := p.i
	if p.eat("twice") {
		kind := script.Reps
		if again {
			kind = script.More
		}
		p.eat("more")
		return script.Stop{Kind: kind, N: pattern.Of(2)}, true
	}
	if n, ok := p.number(); ok {
		more := p.eat("more")
		if p.any("times", "x") {
			more = more || p.eat("more")
			switch {
			case p.phrase("in all", "in total", "altogether", "total"):
				return script.Stop{Kind: script.Reps, N: n}, true
			case more:
				return script.Stop{Kind: script.More, N: n}, true
			case again:
				return script.Stop{Kind: script.Times, N: n}, true
			}
			return script.Stop{Kind: script.Reps, N: n}, true
		}
		p.i = back
	}
	stop, ok := p.groupStop(false)
	if ok && p.i == back {
		return script.Stop{Kind: script.ToEnd}, true
	}
	return stop, ok
}

// onOther reads "on Ndl 2", "on the sole".
func (p *parser) onOther() bool {
	back := p.i
	if p.any("on", "across", "over", "for") {
		p.skip("the")
		if _, _, ok := p.needle(); ok {
			return true
		}
		if part := p.partWord(); part == script.Sole || part == script.Instep {
			p.any("sts")
			return true
		}
	}
	p.i = back
	return false
}

// twist reads the inside of a bracket that describes one stitch in words: it says what is
// done with stitches that stay on the needle, or refers to a round that did.
func (p *parser) twist(open string) (script.Step, bool) {
	shut := map[string]string{"[": "]", "(": ")"}[open]
	start := p.i
	stay, as, uses := false, false, 0
	end := p.i
	for end < len(p.toks) && p.toks[end].w != shut && p.toks[end].w != "[" {
		t := p.toks[end]
		switch t.w {
		case "leave", "leaving", "without", "keep", "dropping":
			stay = true
		case "twist", "cable", "cross":
			as = as || end == start
		case "k2tog", "p2tog", "ssk":
			uses = max(uses, 2)
		case "k3tog", "sk2p":
			uses = max(uses, 3)
		}
		end++
	}
	if end >= len(p.toks) || !stay && !as {
		return script.Step{}, false
	}
	if uses == 0 {
		uses = 2
	}
	p.i = end + 1
	s := script.Step{Op: script.Cross, Uses: int8(uses), Makes: int8(uses), Name: "twist"}
	if as {
		if t, ok := p.terms["twist"]; ok {
			s.Uses, s.Makes = int8(t.Uses), int8(t.Makes)
		}
	} else {
		p.terms["twist"] = &script.Term{Short: "twist", Uses: uses, Makes: uses}
	}
	p.howOften(&s)
	return s, true
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

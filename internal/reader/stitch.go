package reader

import (
	"slices"
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
	"skp": {script.Decrease, 2, 1}, "k2togtbl": {script.Decrease, 2, 1}, "sl1k1psso": {script.Decrease, 2, 1}, "k2t": {script.Decrease, 2, 1}, "narrow": {script.Decrease, 2, 1},
	"k3tog": {script.Decrease, 3, 1}, "p3tog": {script.Decrease, 3, 1}, "sssk": {script.Decrease, 3, 1}, "sssp": {script.Decrease, 3, 1},
	"sk2p": {script.Decrease, 3, 1}, "sk2po": {script.Decrease, 3, 1}, "s2kp": {script.Decrease, 3, 1}, "s2kp2": {script.Decrease, 3, 1}, "s2kpo": {script.Decrease, 3, 1}, "cdd": {script.Decrease, 3, 1}, "sl1k2togpsso": {script.Decrease, 3, 1},
	"yo": {script.Increase, 0, 1}, "m1": {script.Increase, 0, 1}, "m1l": {script.Increase, 0, 1}, "m1r": {script.Increase, 0, 1}, "m1p": {script.Increase, 0, 1},
	"m1lp": {script.Increase, 0, 1}, "m1rp": {script.Increase, 0, 1}, "m1pl": {script.Increase, 0, 1}, "m1pr": {script.Increase, 0, 1}, "byo": {script.Increase, 0, 1},
	"kfb": {script.Increase, 1, 2}, "pfb": {script.Increase, 1, 2}, "kfbf": {script.Increase, 1, 3}, "rli": {script.Increase, 0, 1}, "lli": {script.Increase, 0, 1}, "kll": {script.Increase, 0, 1}, "krl": {script.Increase, 0, 1},
	"rpc": {script.Cross, 2, 2}, "lpc": {script.Cross, 2, 2}, "t2f": {script.Cross, 2, 2}, "t2b": {script.Cross, 2, 2},
	"lt": {script.Cross, 2, 2}, "rt": {script.Cross, 2, 2}, "mb": {script.Knit, 1, 1}, "seam-st": {script.Purl, 1, 1},
	"c2f": {script.Cross, 2, 2}, "c2b": {script.Cross, 2, 2}, "c4f": {script.Cross, 4, 4}, "c4b": {script.Cross, 4, 4}, "c6f": {script.Cross, 6, 6}, "c6b": {script.Cross, 6, 6}, "c8f": {script.Cross, 8, 8}, "c8b": {script.Cross, 8, 8},
	"t3f": {script.Cross, 3, 3}, "t3b": {script.Cross, 3, 3}, "ds": {script.Knit, 1, 1},
}

// orOther reads "(RS) or p2tog (WS)" behind a term that is worked so on one side only.
func (p *parser) orOther(st *stitch) {
	back := p.i
	p.side()
	p.phrase("on rs row", "on rs", "on the rs")
	if p.any("or", "/") {
		if other := p.peek().stitch; other != nil && other.uses == st.uses && other.makes == st.makes {
			p.i++
			p.side()
			p.phrase("on ws row", "on ws", "on the ws")
			return
		}
	}
	p.i = back
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
	p.skip("across", "plain", "also")
	if p.is("back", "to") {
		p.i++
	}
	switch {
	case p.phrase("the seam sts", "seam sts", "the seam"):
		return s, true
	case p.phrase("the k sts and p the p sts", "the k sts and p", "the k and p the p", "all k sts and p all p sts", "k sts and p p sts"):
		p.skip("the", "p", "sts", "as", "they", "appear", "face", "present", "themselves", "to", "end")
		s.Op, s.To = script.Work, script.End
		return s, true
	case p.phrase("each sts tog with", "every sts tog with", "all sts tog with", "each tog with"): // a hem is joined
		edge := false
		for !p.clauseEnd() {
			edge = edge || p.is("co") || p.is("cast") || p.is("cast-on") || p.is("edge") || p.is("hem")
			p.i++
		}
		s.Op, s.To = script.Work, script.End
		return s, edge
	case p.phrase("into front and back", "in front and back", "into the front and back", "in the front and back", "into front and into back", "front and back", "into the front and the back"):
		p.skip("of", "next", "the", "same", "sts", "first", "last")
		return script.Step{Op: script.Increase, Uses: 1, Makes: 2}, true
	case p.loop(), p.is("both"), p.is("the"), p.is("next"), p.is("first"), p.is("tog"):
		if s, ok := p.loopTog(); ok {
			return s, true
		}
	}
	switch {
	case p.pairAsOne():
		s.N, s.Name = pattern.Of(1), "wrap"
		return s, true
	case p.is("one", "row"), p.is("one", "rnd"):
		return s, false
	case p.phrase("all but"):
		return p.allBut(s)
	case p.eat("to"), p.eat("until"), p.phrase("within", "up to", "as far as", "on to", "on until", "on as far as", "straight to", "along to", "rnd to", "again to"):
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
	case p.theRest():
		s.To = script.End
		return s, true
	case p.phrase("all of them", "around all the sts", "around all sts", "around", "every sts", "all sts", "all the sts", "even", "rnd all the sts", "rnd all sts"):
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
	if s, ok := p.wholeNeedles(s); ok {
		return s, true
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
			if p.eat("tbl") || p.phrase("through back sts", "through back of sts", "through the back") {
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
		if s.Part == 0 {
			s.Part = p.ofPart()
		}
		if p.is("of") && p.needleAhead(0) { // "k the 28 sts of Ndl 1"
			p.needle()
		}
		p.skip("again", "rem")
		p.asSeam()
		p.colour()
		if p.eat("tbl") {
			s.Tbl = true
		}
		if p.fromHolder() {
			s.Part = script.Instep
		}
		if p.eat("with", "its", "wrap") || p.eat("with", "wrap") || p.phrase("tog with its wrap", "and its wrap tog", "and its wrap", "and wrap tog") {
			s.Name = "wrap"
		}
		p.onto()
		return s, true
	}
	if step, ok := p.overNeedle(s, back); ok {
		return step, true
	}
	if part := p.partWord(); part != 0 {
		p.any("ndl")
		p.skip("sts")
		s.Part, s.To = part, script.PartEnd
		if n, ok := p.number(); ok { // "k instep 28 (30, 32)"
			p.any("sts")
			s.N, s.To = n, script.Here
		}
		for p.any("again") || p.phrase("once more", "once again") {
		}
		p.onto()
		return s, true
	}
	if p.eat("sts") { // "k rem sts", "k the sts"
		s.To = script.End
		p.onto()
		return s, true
	}
	if p.phrase("front ndl", "across front ndl", "front half") {
		s.Part, s.To = script.Instep, script.PartEnd
		return s, true
	}
	if p.phrase("back ndl", "back half") {
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

// overNeedle reads, from a token behind k or p, how a needle is worked: "the first needle until 3
// remain", "the first needle".
func (p *parser) overNeedle(s script.Step, from int) (script.Step, bool) {
	back := p.i
	p.i = from
	n, part, ok := p.needle()
	if !ok || n == 0 {
		p.i = back
		return s, false
	}
	to := script.Step{At: p.since(from), Op: script.ToNeedle, Needle: n, Part: part}
	s.To = script.End
	if p.any("until", "to") {
		if s, ok = p.landmark(s); !ok {
			p.i = back
			return s, false
		}
	}
	s.At = p.since(from)
	return script.Step{Op: script.Group, Body: []script.Step{to, s}, Stop: script.Stop{Kind: script.Reps, N: pattern.Of(1)}}, true
}

// asSeam passes over words behind a stitch that make it the seam: "p1 for P.S.", "p 1 (seam st)".
func (p *parser) asSeam() {
	back := p.i
	open := p.any("(")
	if !p.any("for", "as") && !open {
		return
	}
	p.skip("the", "a")
	if !p.any("seam-st") && !p.any("seam") {
		p.i = back
		return
	}
	if p.any("sts"); open && !p.any(")") {
		p.i = back
	}
}

// theRest reads "the rest", "rem" behind k or p.
func (p *parser) theRest() bool {
	back := p.i
	if p.any("the", "all"); p.any("rest", "rem", "others", "them", "these", "those") {
		if p.phrase("of the rnd", "of rnd", "of the row", "of row", "of the ndl", "of ndl"); p.clauseEnd() || p.is("and") {
			return true
		}
	}
	return p.restore(back)
}

// ofPart reads "of the heel", "of the front" behind stitches.
func (p *parser) ofPart() script.Part {
	back := p.i
	if p.any("of", "for") {
		p.any("the")
		if part := p.partWord(); part != 0 {
			return part
		}
		if p.any("front") {
			return script.Instep
		}
	}
	p.i = back
	return 0
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

// colourWith reads which yarn is used, before an instruction or in it: "Using M.", "With A",
// "in the main colour".
func (p *parser) colourWith() bool {
	back := p.i
	if !p.any("with", "using", "in") {
		return false
	}
	p.any("the")
	switch t := p.peek(); {
	case p.any("mc", "cc", "dark", "light", "main", "contrast", "contrasting"):
		p.any("colour", "shade", "yarn")
	case t.kind == wordToken && len(t.w) == 1 && p.raw(t.at) != t.w && t.w != "k" && t.w != "p":
		p.i++
		p.any("colour", "yarn")
	case p.any("colour", "yarn"):
		if t := p.peek(); t.kind != wordToken || len(t.w) != 1 {
			p.i = back
			return false
		}
		p.i++
	default:
		p.i = back
		return false
	}
	if p.peek().w == "." && !p.done() && p.ahead(1).w != "" && p.raw(p.ahead(1).at) == p.ahead(1).w { // the dot of "M."
		p.i++
	}
	return true
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
	for p.phrase("purlwise", "knitwise", "wyif", "wyib", "with yarn in front", "with yarn in back", "with yarn at back", "as if to p", "as if to k", "pw", "kw", "with yarn held in front") {
	}
	p.onto()
	return s, true
}

// workStep reads "work 7 lace sts", "work to end", "work instep in patt", "work 1".
func (p *parser) workStep() (s script.Step, ok bool) {
	p.i++
	s = script.Step{Op: script.Work, Uses: 1, Makes: 1}
	if p.cornersTog() {
		return script.Step{Op: script.Adjust, Name: "corner"}, true
	}
	if p.phrase("the seam sts", "seam sts") {
		return s, true
	}
	if p.toEndInPattern(p.i - 1) {
		s.To = script.End
		return s, true
	}
	if c, ok := try(p, p.chartStep); ok {
		return c, true
	}
	if c, ok := try(p, p.rowOfPattern); ok {
		return c, true
	}
	if ref, ok := try(p, p.namedPattern); ok { // "Reed patt over the instep, beg with Rnd 4"
		return ref, true
	}
	if told := strings.ToLower(p.raw(p.toks[p.i-1].at)); told == "work" && p.pairAsOne() {
		s.N, s.Name = pattern.Of(1), "wrap"
		return s, true
	}
	p.skip("across", "the", "next", "over", "in", "rem", "all", "these", "first", "last")
	if p.eat("patt") || p.eat("rib") || p.phrase("as set", "as established", "even", "as est") {
		p.skip("as", "set", "established", "est", "across", "over", "the")
	}
	if p.any("to", "until") || p.phrase("up to", "as far as") {
		return p.landmark(s)
	}
	if p.phrase("but") && p.toks[p.i-2].w == "all" {
		return p.allBut(s)
	}
	if n, ok := p.number(); ok {
		if p.is("row") || p.is("rnd") || p.is("more") || p.is("rep") || p.is("times") || p.unit() != "" {
			return s, false
		}
		if back := p.i; len(n.Val) == 1 && n.Val[0] > 1 && n.Val[0] < 6 { // "work 2 tog over the gap"
			p.any("sts")
			if p.any("tog") {
				p.phrase("over the gap", "across the gap", "over gap", "across gap")
				return script.Step{Op: script.Decrease, Uses: int8(n.Val[0]), Makes: 1}, true
			}
			p.i = back
		}
		s.N = n
		if !p.any("sts") && !p.clauseEnd() {
			p.partWord()
			p.any("lace", "patt", "chart", "rib", "cable")
			if !p.any("sts") {
				return s, false
			}
		}
		if p.fromHolder() {
			s.Part = script.Instep
		}
		return p.patternRowBehind(s), true
	}
	if part := p.partWord(); part != 0 {
		p.any("sts", "ndl")
		s.Part, s.To = part, script.PartEnd
		return p.patternRowBehind(s), true
	}
	if n, part, ok := p.needle(); ok {
		s.Needle, s.Part, s.To = n, part, script.PartEnd
		return p.patternRowBehind(s), true
	}
	if p.any("sts", "around", "end") {
		s.To = script.End
		return p.patternRowBehind(s), true
	}
	return s, false
}

// cornersTog reads "each corner st together with the st beside it": stitches picked up in corners go
// away again.
func (p *parser) cornersTog() bool {
	back := p.i
	p.skip("each", "every", "both", "the", "extra")
	if !p.any("corner") {
		return p.restore(back)
	}
	p.any("sts")
	if !p.any("tog") || !p.any("with") {
		return p.restore(back)
	}
	for !p.clauseEnd() && !p.is("and") && !p.is("=") && !p.is("(") {
		p.i++
	}
	return true
}

// namedPattern reads "Reed patt over the 32 instep sts, beg with Rnd 4" behind "work", of a
// pattern that the text has told before.
func (p *parser) namedPattern() (s script.Step, ok bool) {
	p.any("in")
	if _, ok = p.refPattern(); !ok {
		return s, false
	}
	p.i--
	if !p.is("over") && !p.is("on") {
		p.i++
	}
	if s, ok = p.patternOver(0); !ok {
		return s, false
	}
	s.Op = script.Work
	s = p.patternRowBehind(s)
	return s, s.Op == script.OfPattern
}

// patternRowBehind reads in what stitches are worked; with a row of a pattern that is named, the pattern
// goes on with that.
func (p *parser) patternRowBehind(s script.Step) script.Step {
	if row := p.inPattern(); row > 0 {
		s.Op, s.Last = script.OfPattern, row
	}
	return s
}

// counted reads "6 lace sts", "6 sts of chart": so many stitches, worked as something says that
// has been named.
func (p *parser) counted() (s script.Step, ok bool) {
	n, ok := p.number()
	if !ok {
		return s, false
	}
	if len(n.Val) == 1 && n.Val[0] > 1 && n.Val[0] < 6 && p.any("tog") { // "k 1, 2 tog"
		s = script.Step{Op: script.Decrease, Uses: int8(n.Val[0]), Makes: 1, Name: "k2tog"}
		p.howOften(&s)
		return s, true
	}
	named := p.any("lace", "patt", "chart", "cable", "rib", "motif")
	if !p.any("sts") {
		return s, false
	}
	if !named && !p.phrase("in lace", "of lace", "in patt", "of patt", "of the patt", "of chart", "of the chart", "from chart", "in rib", "of rib") {
		return s, false
	}
	return script.Step{Op: script.Work, Uses: 1, Makes: 1, N: n}, true
}

// toEndInPattern reads "in patt as established" or nothing behind "work" or "patt", the verb,
// where a needle or a part has been named before it: "N1 - work in patt; N2 - knit".
func (p *parser) toEndInPattern(verb int) bool {
	back := p.i
	said := verb < back && p.toks[verb].w == "patt"
	for p.phrase("in patt", "in est patt", "in established patt", "in rib", "in st-st", "as established", "as est", "as set", "as before", "even", "plain", "across", "all across", "all sts") {
		said = true
	}
	if said && p.clauseEnd() && verb > 0 && slices.Contains([]string{",", ";", ":", "-", "and", "then", "ndl"}, p.toks[verb-1].w) {
		return true
	}
	p.i = back
	return false
}

// chartStep reads "Rnd 1 of chart 4 times across the 33 instep sts" behind "work".
func (p *parser) chartStep() (s script.Step, ok bool) {
	s = script.Step{Op: script.OfChart, Uses: 1, Makes: 1}
	p.skip("the", "next")
	named := p.is("chart") && p.rowAhead(1) // "chart rnds 1-8"
	if named {
		p.i++
	}
	if p.any("row", "rnd") {
		var l script.Label
		if p.rowNumbers(&l); len(l.Nums) > 0 {
			s.Needle = l.Nums[0]
			if last := l.Nums[len(l.Nums)-1]; last-l.Nums[0] == len(l.Nums)-1 {
				s.Last = last
			}
		}
		if !named && !p.any("of", "from", "in") {
			named = s.Last > s.Needle && p.chartAlone()
			if !named {
				return s, false
			}
		}
	}
	if p.any("from"); !named {
		if s.Name, ok = p.chartName(); !ok {
			return s, false
		}
	}
	back := p.i
	if n, ok := p.number(); ok && p.any("times") {
		along := p.any("around")
		if w := p.ahead(1).w; p.is(",") && (w == "on" || w == "over" || w == "across") {
			p.i++
		}
		if along || s.Last <= s.Needle || p.is("on") || p.is("over") || p.is("across") {
			s.Stop = script.Stop{Kind: script.Reps, N: n}
		} else { // the rows are worked so many times
			p.i = back
		}
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

// chartAlone tells whether rows can only be those of a chart: none have been told in words since it was
// drawn.
func (p *parser) chartAlone() bool {
	return p.lastChart != nil && len(p.lastChart.Rows) > 0 && len(p.rows) == 0
}

// chartName reads "chart A", "the instep chart", "Chart 2 patt": the words that tell it from
// other charts.
func (p *parser) chartName() (string, bool) {
	var words []string
	p.skip("the")
	for n := 0; n < 3 && p.peek().kind == wordToken && p.peek().w != "chart"; n++ {
		if w := p.peek().w; w != "colour" && w != "patt" {
			words = append(words, w)
		}
		p.i++
	}
	if !p.any("chart") {
		return "", false
	}
	if t := p.peek(); t.kind == wordToken && len(t.w) == 1 {
		words = append(words, t.w)
		p.i++
	}
	p.skip("patt")
	return strings.Join(words, " "), true
}

// patternFrom reads "beg with Rnd 4, work Reed patt over the 32 instep sts".
func (p *parser) patternFrom() (s script.Step, ok bool) {
	p.i++
	p.skip("with", "on", "at", "from")
	row := p.patternRow()
	if row == 0 {
		return s, false
	}
	p.skip(",", "and", "work", "cont", "in", "of")
	return p.patternOver(row)
}

// rowOfPattern reads "Rnd 4 of Reed patt over the 32 instep sts" behind "work".
func (p *parser) rowOfPattern() (s script.Step, ok bool) {
	p.skip("only")
	row := p.patternRow()
	if row == 0 || !p.any("of", "in", "from") {
		return s, false
	}
	return p.patternOver(row)
}

// patternOver reads the name of a stitch pattern that goes on with a row, and over which
// stitches.
func (p *parser) patternOver(row int) (s script.Step, ok bool) {
	s = script.Step{Op: script.OfPattern, Uses: 1, Makes: 1, Last: row}
	for n := 0; n < 5 && !p.clauseEnd() && !p.is("over") && !p.is("across") && !p.is("on"); n++ {
		p.i++
	}
	if !p.any("over", "across", "on") {
		return s, false
	}
	p.skip("the", "all", "held", "rest")
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

// patternRow reads "Rnd 4", "the 4th rnd", where one row of a stitch pattern is named: its
// number, 0 if none is.
func (p *parser) patternRow() int {
	back := p.i
	p.any("the")
	var l script.Label
	if p.any("row", "rnd") {
		p.rowNumbers(&l)
	} else if p.peek().kind != ordToken || !p.ordinalRows(&l) {
		l.Nums = nil
	}
	if len(l.Nums) != 1 {
		p.i = back
		return 0
	}
	return l.Nums[0]
}

// fromHolder reads where stitches come from that have been resting.
func (p *parser) fromHolder() bool {
	return p.phrase("from holder", "from the holder", "from sts holder", "from spare ndl", "from thread", "from the thread", "from the spare ndl", "that rest", "that wait")
}

// inPattern takes words behind stitches that say in what they are worked. A row of the pattern
// that they name is returned, 0 if they name none.
func (p *parser) inPattern() (row int) {
	for p.phrase("in patt", "in rib", "as set", "as established", "in est patt", "as est", "in lace", "in st-st", "in stockinette", "in chart patt", "of chart", "of patt", "in established patt", "foll chart", "from chart", "as it appears", "foll patt") || p.inNamed() {
	}
	if back := p.i; p.phrase(", work", ", beg with", ", beg on", ", beg at", ", beg from", "beg with", "beg at", "from") {
		if row = p.patternRow(); row == 0 { // ", working the 5th rnd of the patt"
			p.i = back
			return 0
		}
		if back := p.i; p.any("of", "from") {
			p.skip("the")
			if !p.any("patt") {
				if _, ok := p.chartName(); !ok {
					p.i = back
				}
			}
		}
	}
	if back := p.i; p.phrase(", ending", "ending", ", end", "and ending", ", and ending") {
		p.skip("with")
		if _, ok := p.step(); !ok {
			p.i = back
		}
	}
	return row
}

// inNamed takes "in Reed patt", of a pattern that the text has told before.
func (p *parser) inNamed() bool {
	back := p.i
	if p.any("in") {
		if _, ok := p.refPattern(); ok {
			return true
		}
	}
	return p.restore(back)
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
	if n, ok := p.number(); ok && (p.any("sts") || p.clauseEnd() || word == "make" && !p.is("dec") && !p.is("inc")) {
		s.N = n
		if p.phrase("in the corner", "at the corner", "in each corner", "in that corner", "in this corner", "in the gap", "at the gap") {
			return script.Step{Op: script.PickUp, Makes: 1, N: n, Corner: true}, true
		}
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

// closeGap reads "close the gap with ssk or p2tog": the decrease over the gap.
func (p *parser) closeGap() (s script.Step, ok bool) {
	p.i++
	if p.any("up"); !p.phrase("the gap", "gap", "it") {
		return s, false
	}
	s = script.Step{Op: script.Decrease, Uses: 2, Makes: 1}
	if p.any("with", "by", "using") {
		p.skip("a", "an")
		for p.peek().stitch != nil || p.is("dec") {
			p.i++
			p.side()
			p.phrase("on rs row", "on ws row", "on rs", "on ws", "on the rs", "on the ws")
			p.any("or", "/", "and")
		}
	}
	return s, p.clauseEnd() || p.is("and") || p.is("then")
}

// takeTogether reads "taking together one stitch from each side of the hole".
func (p *parser) takeTogether() (s script.Step, ok bool) {
	p.i++
	s = script.Step{Op: script.Decrease, Uses: 2, Makes: 1}
	tog := false
	for n := 0; !p.clauseEnd() && !p.is("(") && n < 18; n++ {
		tog = tog || p.is("tog")
		p.i++
	}
	p.byOtherSide()
	return s, tog
}

// byOtherSide passes over how a decrease is worked on either side, in brackets: "(ssk on the right side,
// p2tog on the wrong side)", "(k2tog on RS rows, p2tog on WS rows)".
func (p *parser) byOtherSide() {
	back := p.i
	if !p.any("(", "[") {
		return
	}
	for n := 0; n < 20 && !p.stop() && !p.is("(") && !p.is(")") && !p.is("]"); n++ {
		t := p.peek()
		if t.stitch != nil && t.stitch.op != script.Decrease || t.kind == numToken {
			break
		}
		p.i++
	}
	if !p.any(")", "]") {
		p.i = back
	}
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
	p.skip("about", "approx", "another", "the")
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
		if p.is("(") && p.onePerEdge() {
			s.Edge = true
			continue
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
	s.Edge = p.onePerEdge() || s.Edge
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

// onePerEdge reads from what the stitches are picked up, behind how many there are: ", one in
// each slipped edge st of the flap", "(1 for every chain)", "- one from each ridge".
func (p *parser) onePerEdge() bool {
	back := p.i
	open := p.any("(", "[")
	p.skip(",", "-", ":", "that", "is", "being", "taking")
	if t := p.peek(); t.kind != numToken || t.val != 1 {
		return p.restore(back)
	}
	p.i++
	p.any("sts")
	if !p.any("in", "into", "from", "for", "through", "per", "of") {
		return p.restore(back)
	}
	if per := p.toks[p.i-1].w == "per"; !p.any("each", "every") && !per {
		return p.restore(back)
	}
	edge := false
	for !p.clauseEnd() && !p.is("and") && !p.is("then") && !p.is("-") {
		switch p.peek().w {
		case "slipped", "edge", "chain", "ridges", "selvedge":
			edge = true
		}
		p.i++
	}
	if !edge || open && !p.any(")", "]") {
		return p.restore(back)
	}
	return true
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
	if term != nil && !grammar.has(t) && (t.w != "k" && t.w != "p") {
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
var grammar = newList("row rnd sts rep rem beg cont foll alt rs ws m patt tog dec inc approx total size ndl in cm mm co bo st-st tbl")

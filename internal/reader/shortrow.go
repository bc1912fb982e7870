package reader

import (
	"strings"

	"sockwright/internal/pattern"
	"sockwright/internal/script"
)

// pairWords are what patterns call a stitch that was doubled or wrapped at a turn, so that two
// loops or legs of it are worked as one later.
var pairWords = set("wrap wraps wrapped twin ds double shadow paired pair pairs")

// loop tells whether the next word is "loop" or "loops" as printed, or a yarn over: one that
// was made at a turn and is no stitch. In older patterns every stitch is a loop.
func (p *parser) loop() bool {
	t := p.peek()
	return t.w == "yo" || t.w == "yos" || t.w == "sts" && strings.HasPrefix(strings.ToLower(p.raw(t.at)), "loop")
}

// pair takes the word for such a stitch: "wrapped st", "twin", "double st".
func (p *parser) pair() bool {
	if !pairWords[p.peek().w] || p.done() {
		return false
	}
	p.i++
	p.any("sts", "ds")
	return true
}

// wrap reads the turn of a short row that doubles or wraps the next stitch: "w&t", "wrap next
// st and turn", "make twin in the last st, turn", "lift one more loop into the twin after it,
// turn".
func (p *parser) wrap() (s script.Step, ok bool) {
	s = script.Step{Op: script.Wrap}
	if p.eat("w&t") {
		p.skip("next", "foll", "sts")
		p.phrase("in the sts after it", "in the next sts", "the sts after it", "the next sts", "next sts")
		return s, true
	}
	switch {
	case p.any("wrap", "twin"):
	case p.any("make"):
		p.skip("a", "one", "more", "another")
		if !p.pair() {
			return s, false
		}
	case p.any("pick"): // "lift"
		p.skip("a", "another", "more")
		p.number()
		p.any("more")
		if !p.loop() {
			return s, false
		}
		p.i++
		p.skip("into", "on", "onto", "to")
		p.any("the")
		if !p.pair() {
			return s, false
		}
		p.phrase("after it", "beyond it")
	default:
		return s, false
	}
	p.skip("in", "the", "that", "this", "next", "foll", "last", "sts", "it", "after")
	if p.eat("(") { // a remark
		for !p.done() && !p.any(")") {
			p.i++
		}
	}
	p.skip("and", ",", ";")
	return s, p.eat("turn")
}

// pairAsOne reads, behind k or p, a stitch that is worked together with its wrap or double:
// "it together with its wrap", "the next twin as one".
func (p *parser) pairAsOne() bool {
	back := p.i
	p.skip("the", "next", "this", "that", "it", "first", "each", "nearest", "both", "legs", "of", "sts")
	paired := p.pair()
	if p.phrase("as one sts", "as one") {
		return paired || p.restore(back)
	}
	tog := p.any("tog")
	if p.any("with", "and") {
		p.skip("its", "the", "both", "their", "two")
		if p.pair() {
			p.skip("tog", "as", "one")
			return true
		}
	}
	return paired && (tog || p.clauseEnd()) || p.restore(back)
}

// loopTog reads, behind k or p, one or two loops that were made at turns and the stitch beside
// them: "next loop tog with the st after it (k2tog)". They leave one stitch.
func (p *parser) loopTog() (s script.Step, ok bool) {
	back, loops := p.i, int8(1)
	for p.any("the", "next", "first", "this", "nearest", "both", "two", "tog") || p.peek().kind == numToken && p.peek().val == 2 && p.any(p.peek().w) {
		if w := p.toks[p.i-1].w; w == "both" || w == "two" || p.toks[p.i-1].kind == numToken {
			loops = 2
		}
	}
	if !p.loop() || p.any("sts") && p.is("sts") {
		return s, p.restore(back)
	}
	p.any("yo", "yos")
	told := p.any("tog") || p.toks[back].w == "tog"
	if !p.any("with", "and") {
		return s, p.restore(back)
	}
	p.skip("the", "next", "foll")
	p.any("sts")
	p.phrase("after it", "after them", "beside it", "beside them", "behind it", "behind them")
	if !p.any("tog") && !told {
		return s, p.restore(back)
	}
	p.remarkOnStitch()
	return script.Step{Op: script.Decrease, Uses: loops + 1, Makes: 1, Name: "loop"}, true
}

// remarkOnStitch passes over "(k2tog)" behind a stitch that is told in words.
func (p *parser) remarkOnStitch() {
	if _, known := stitches[p.ahead(1).w]; known && p.is("(") && p.ahead(2).w == ")" {
		p.i += 3
	}
}

// fewerEachRow reads short rows that go on, each so many stitches shorter than the one before:
// "Cont in this way, with 1 st fewer in each row, until you have worked “yo, p10, turn”".
func (p *parser) fewerEachRow() bool {
	start := p.i
	if !p.any("cont") && !p.phrase("go on", "so on", "carry on") || len(p.rows) == 0 {
		return false
	}
	fewer := pattern.Of(1)
	found := false
	for !p.stop() && !p.is("until") {
		if n, ok := p.number(); ok {
			if p.any("sts"); p.is("fewer") || p.is("less") {
				fewer, found = n, true
			}
			continue
		}
		p.i++
	}
	told := p.rows[len(p.rows)-1]
	if !found || !turns(told.Steps) {
		return false
	}
	stop, ok := p.stopping(false)
	if !ok || stop.Kind != script.Split && stop.Kind != script.Wrapped && stop.Kind != script.Unwrapped {
		return false
	}
	r := &script.Plain{Flat: true, Stop: stop}
	for _, s := range told.Steps {
		if (s.Op == script.Knit || s.Op == script.Purl) && s.N.Known() {
			s.N, s.To, s.Minus = pattern.Number{}, script.Gap, fewer
		}
		r.Steps = append(r.Steps, s)
	}
	r.Claims = p.claimsBehind()
	r.Base = p.base(start)
	p.add(r)
	return true
}

// pairAside passes over a clause that only says how doubled stitches or loops are worked that
// are met on the way: ", working each ds as one", ", closing the last two twins".
func (p *parser) pairAside() bool {
	back := p.i
	p.any(",")
	if t := p.peek(); t.kind != wordToken || !strings.HasSuffix(strings.ToLower(p.raw(t.at)), "ing") || t.w == "turning" || t.w == "ending" {
		return p.restore(back)
	}
	pairs := false
	for !p.clauseEnd() {
		pairs = pairs || pairWords[p.peek().w] || p.loop() || p.is("legs")
		p.i++
	}
	return pairs || p.restore(back)
}

// double reads the first stitch of a row that is doubled as it is slipped: "ds", "MDS".
func (p *parser) double() (script.Step, bool) {
	p.i++
	p.skip("sts")
	return script.Step{Op: script.Slip, Uses: 1, Makes: 1, Name: "ds", N: pattern.Of(1)}, true
}

// further reads how a short-row heel is worked open again, a stitch more in each row: "Cont so,
// one st further in every row and working all loops of a twin as one, until …".
func (p *parser) further() bool {
	start := p.i
	if !p.any("cont") && !p.phrase("go on", "so on", "carry on") {
		return false
	}
	more, wraps := false, false
	for !p.stop() {
		wraps = wraps || pairWords[p.peek().w]
		if p.any("sts") && p.any("more", "farther", "beyond") || p.phrase("more sts") {
			more = true
			continue
		}
		p.i++
	}
	if !more || !wraps {
		return false
	}
	p.add(&script.Unwrap{Base: p.base(start)})
	return true
}

// unwrap reads the second half of a short-row heel told in one sentence.
func (p *parser) unwrap() bool {
	start := p.i
	p.skip("now", "then", "next", "cont")
	if !p.is("work") && !p.is("k") && !p.is("reverse") && !p.is("rep") {
		return false
	}
	wraps, further := false, false
	for !p.stop() {
		switch t := p.peek(); {
		case pairWords[t.w], t.w == "yos":
			wraps = true
		case t.w == "more", t.w == "reverse", t.w == "farther", t.w == "longer", t.w == "beyond":
			further = true
		}
		p.i++
	}
	if !wraps || !further {
		return false
	}
	p.add(&script.Unwrap{Base: p.base(start)})
	return true
}

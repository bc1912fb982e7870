package reader

import (
	"slices"
	"strings"

	"sockwright/internal/pattern"
	"sockwright/internal/script"
)

// pairWords are what patterns call a stitch that was doubled or wrapped at a turn, so that two
// loops or legs of it are worked as one later.
var pairWords = set("wrap wraps wrapped twin twinned ds double doubled shadow shadowed paired pair pairs")

// loop tells whether the next word is "loop" or "loops" as printed, or a yarn over: one that
// was made at a turn and is no stitch. In older patterns every stitch is a loop.
func (p *parser) loop() bool {
	t := p.peek()
	return t.w == "yo" || t.w == "yos" || t.w == "sts" && strings.HasPrefix(strings.ToLower(p.raw(t.at)), "loop")
}

// pair takes the word for such a stitch: "wrapped st", "twin", "double st", "the twinned one".
func (p *parser) pair() bool {
	if !pairWords[p.peek().w] || p.done() {
		return false
	}
	p.i++
	p.any("sts", "ds")
	return true
}

// wrap reads the turn of a short row that doubles or wraps the next stitch: "w&t", "wrap next
// st and turn", "make twin in the last st, turn", "make that one a shadow st, turn", "the next st
// becomes a double st, turn", "lift one more loop into the twin after it, turn".
func (p *parser) wrap() (s script.Step, ok bool) {
	s = script.Step{Op: script.Wrap}
	if p.eat("w&t") {
		p.skip("next", "foll", "sts")
		p.phrase("in the sts after it", "in the next sts", "the sts after it", "the next sts", "next sts")
		return s, true
	}
	switch {
	case p.any("wrap", "twin", "double", "shadow"):
		p.whichOne()
	case p.any("make"):
		p.whichOne()
		p.any("into")
		p.skip("a", "one", "more", "another")
		if !p.pair() {
			return s, false
		}
		p.any("in", "of", "into")
		p.whichOne()
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
	case p.whichOne() && p.any("becomes", "is", "made"):
		p.skip("made", "into", "a")
		if !p.pair() {
			return s, false
		}
	default:
		return s, false
	}
	if p.eat("(") { // a remark
		for !p.done() && !p.any(")") {
			p.i++
		}
	}
	p.skip("and", ",", ";", "then")
	if p.is(".", "turn") {
		p.i++
	}
	return s, p.eat("turn")
}

// whichOne takes words for the stitch that is spoken of: "that st", "the next st", "that one", "it",
// "in the st after it".
func (p *parser) whichOne() bool {
	from := p.i
	p.any("in")
	p.skip("the", "that", "this", "next", "foll", "last", "heel", "sole")
	if p.any("sts", "one", "it") {
		p.phrase("after it", "beyond it", "next to it")
		p.any("again")
	}
	return p.i > from
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

// shortRowsGoOn reads how short rows go on, each so many stitches shorter or longer than the one
// before: "Cont in this way, with 1 st fewer in each row, until …", "Each row ends one stitch sooner
// until …", "Then one stitch further in every row until all have had their turn".
func (p *parser) shortRowsGoOn() bool {
	start := p.i
	p.skip("then", "now", "and")
	lead := p.goesOnSo()
	if !lead && !p.is("each") && !p.is("every") && p.peek().kind != numToken || len(p.rows) == 0 {
		return false
	}
	by, longer, ok := p.eachRowBy(lead)
	if !ok {
		return false
	}
	told := p.rows[len(p.rows)-1]
	if longer {
		for !p.stop() {
			p.i++
		}
		p.add(&script.Unwrap{Base: p.base(start)})
		return true
	}
	stop, ok := p.stopping(false)
	if !ok || stop.Kind != script.Split && stop.Kind != script.Wrapped && stop.Kind != script.Unwrapped {
		return false
	}
	r := &script.Plain{Flat: true, Stop: stop, Steps: slices.Clone(told.Steps)}
	for i := range slices.Backward(r.Steps) {
		s := &r.Steps[i]
		if s.Op == script.Knit || s.Op == script.Purl || s.Op == script.Work {
			s.N, s.To, s.Part, s.Minus = pattern.Number{}, script.Gap, script.NoPart, by
			if wraps(told.Steps) {
				s.To = script.WrapMark
			}
			break
		}
	}
	r.Claims = p.claimsBehind()
	r.Base = p.base(start)
	p.add(r)
	return true
}

// fromNowOn reads what every row to come does at the doubled stitches or loops of a short-row heel:
// "From now on every row meets two yarn overs side by side; work both of them and the st after as
// one, turn".
func (p *parser) fromNowOn() bool {
	start := p.i
	if !p.fromHere() && !p.phrase("after this", "after that") {
		return false
	}
	p.any(",")
	if !p.any("each", "every") || !p.any("row") || len(p.rows) == 0 || !shortRow(p.rows[len(p.rows)-1].Steps) {
		return false
	}
	pairs := false
	for !p.stop() {
		pairs = pairs || pairWords[p.peek().w] || p.loop()
		p.i++
	}
	if !pairs {
		return false
	}
	p.add(&script.Unwrap{Base: p.base(start)})
	return true
}

// stopWhen reads, as a sentence of its own, when the row told last is worked no longer: "Stop when
// there are 10 wrapped sts at each side", "End when the very last st at each end has been used".
func (p *parser) stopWhen() bool {
	start := p.i
	if !p.any("stop", "end", "finish") || !p.any("when", "once", "as", "after") || len(p.rows) == 0 {
		return false
	}
	p.phrase("soon as")
	stop, ok := p.until()
	if !ok {
		return false
	}
	stop.At = p.since(start)
	told := p.rows[len(p.rows)-1]
	switch {
	case stop.Kind == script.UsedUp && shortRow(told.Steps):
		if n := len(p.items); n > 0 { // told already
			if _, ok := p.items[n-1].(*script.Unwrap); ok {
				return true
			}
		}
		p.add(&script.Unwrap{Base: p.base(start)})
	case !turns(told.Steps):
		return false
	default:
		emit(p, script.Repeat{Base: p.base(start), Ref: script.Ref{Last: -2}, Stop: stop, Claims: p.claimsBehind()})
	}
	return true
}

// goesOnSo takes the words with which a thing goes on.
func (p *parser) goesOnSo() bool {
	return p.any("cont") || p.phrase("go on", "so on", "carry on", "keep on", "keep going", "work on")
}

// eachRowBy reads up to "until" by how many stitches each row is longer or shorter than the one
// before it.
func (p *parser) eachRowBy(lead bool) (by pattern.Number, longer, ok bool) {
	each, pairs := false, false
	for !p.stop() && !p.is("until") {
		each = each || (p.is("each") || p.is("every")) && (p.ahead(1).w == "row" || p.ahead(1).w == "times")
		pairs = pairs || pairWords[p.peek().w] || p.loop()
		n, number := p.number()
		if !number {
			if p.is("more", "sts") {
				ok, longer = true, true
			}
			p.i++
			continue
		}
		if !p.any("sts") {
			continue
		}
		switch p.peek().w {
		case "fewer", "less", "sooner", "earlier", "shorter", "before", "short":
			by, ok = n, true
		case "more", "farther", "later", "beyond", "longer", "past":
			by, ok, longer = n, true, true
		}
	}
	short := turns(p.rows[len(p.rows)-1].Steps)
	if longer {
		return by, longer, ok && (each || lead) && (pairs || shortRow(p.rows[len(p.rows)-1].Steps))
	}
	return by, longer, ok && (each || lead) && short
}

// wraps tells whether steps wrap or double a stitch at a turn.
func wraps(steps []script.Step) bool {
	return slices.ContainsFunc(steps, func(s script.Step) bool { return s.Op == script.Wrap })
}

// shortRow tells whether steps turn in the way of a short-row heel: a stitch is wrapped or
// doubled there, or a yarn over lies at the turn.
func shortRow(steps []script.Step) bool {
	loop := len(steps) > 0 && (steps[0].Name == "yo" || steps[0].Name == "ds")
	return wraps(steps) || turns(steps) && loop
}

// pairAside passes over a clause that only says how doubled stitches or loops are worked that
// are met on the way: ", working each ds as one", ", closing the last two twins".
func (p *parser) pairAside() bool {
	back := p.i
	p.any(",")
	open := p.any("(")
	t := p.peek()
	ing := t.kind == wordToken && strings.HasSuffix(strings.ToLower(p.raw(t.at)), "ing") && t.w != "turning" && t.w != "ending"
	if !ing && (t.stitch != nil || t.w == "k" || t.w == "p" || t.w == "sl" || t.w == "work") {
		return p.restore(back)
	}
	pairs, asOne := false, false
	for !p.clauseEnd() {
		pairs = pairs || pairWords[p.peek().w] || p.loop() || p.is("legs")
		asOne = asOne || p.is("as", "one") || p.is("swallowed") || p.is("closed") || p.is("picked", "up")
		p.i++
	}
	if !pairs || !ing && !asOne || open && !p.any(")") {
		return p.restore(back)
	}
	return true
}

// double reads the first stitch of a row that is doubled as it is slipped: "ds", "MDS".
func (p *parser) double() (script.Step, bool) {
	p.i++
	p.skip("sts")
	return script.Step{Op: script.Slip, Uses: 1, Makes: 1, Name: "ds", N: pattern.Of(1)}, true
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

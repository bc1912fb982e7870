package reader

import (
	"sockwright/internal/script"
)

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

// needle reads "N1", "1st needle", "second needle", "needle 2", "instep needle", "on N2".
func (p *parser) needle() (n int, part script.Part, ok bool) {
	back := p.i
	p.skip("on", "upon", "for", "at", "of", "the", "from", "with", "a")
	t := p.peek()
	switch {
	case len(t.w) == 2 && t.w[0] == 'n' && isDigit(t.w[1]):
		p.i++
		return int(t.w[1] - '0'), 0, true
	case t.w == "n" && p.ahead(1).kind == numToken && p.ahead(1).glued, t.w == "ndl" && p.ahead(1).kind == numToken:
		p.i += 2
		return int(p.toks[p.i-1].val), 0, true
	case t.kind == ordToken && p.ahead(1).w == "ndl":
		p.i += 2
		return int(t.val), 0, true
	case t.w == "first" && p.ahead(1).w == "ndl":
		p.i += 2
		return 1, 0, true
	case p.ahead(1).w == "ndl":
		switch t.w {
		case "instep", "heel", "sole":
			part = partNamed(t.w)
		case "front":
			part = script.Instep
		case "back":
			part = script.Sole
		}
		if part != script.NoPart {
			p.i += 2
			return 0, part, true
		}
	}
	p.i = back
	return 0, 0, false
}

// partNamed is the part of the sock that a word names.
func partNamed(w string) script.Part {
	switch w {
	case "heel", "flap":
		return script.Heel
	case "instep":
		return script.Instep
	case "sole":
		return script.Sole
	case "gusset":
		return script.Gusset
	case "foot":
		return script.Foot
	case "toe":
		return script.Toe
	case "leg":
		return script.Leg
	case "cuff":
		return script.Cuff
	}
	return script.NoPart
}

// partWord reads a word for a part of the sock's stitches.
func (p *parser) partWord() script.Part {
	part := partNamed(p.peek().w)
	if part != script.NoPart {
		if p.i++; p.toks[p.i-1].w == "heel" {
			p.any("flap")
		}
	}
	return part
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

package reader

import "sockwright/internal/script"

// measuredFromEdge reads how long the work is by now: "The sock now measures 6 1/2, 7 1/2, 9 in from the
// cast-on edge", "The work should be 17 cm long from the cast-on".
func (p *parser) measuredFromEdge() bool {
	start := p.i
	p.skip("the", "your", "whole")
	if !p.any("piece", "work", "sock", "leg", "tube", "it") {
		return false
	}
	p.skip("now", "should", "will", "be", "is", "then")
	measures := p.any("measures") || p.i > start+1 && p.toks[p.i-1].w != "now"
	p.any("now")
	if !measures {
		return p.restore(start)
	}
	l, ok := p.length()
	if !ok {
		return p.restore(start)
	}
	p.any("long")
	if !p.any("from") {
		return p.restore(start)
	}
	p.any("the")
	if !p.phrase("cast-on edge", "co edge", "cast on edge", "cast-on", "co", "cast on", "beg") || !p.clauseEnd() {
		return p.restore(start)
	}
	emit(p, script.Measured{Base: p.base(start), Length: l})
	return true
}

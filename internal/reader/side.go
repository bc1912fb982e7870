package reader

import "sockwright/internal/script"

// facing reads "outside of the sock facing you", "RS facing".
func (p *parser) facing() bool {
	start := p.i
	p.skip("with", "the")
	f := script.Facing{}
	switch {
	case p.any("rs", "outside"), p.phrase("right side"):
		f.Side = script.RS
	case p.any("ws", "inside"), p.phrase("wrong side"):
		f.Side = script.WS
	default:
		return false
	}
	p.skip("of", "the", "sock", "work", "is", "now")
	if !p.any("facing", "faces") {
		return false
	}
	p.skip("you", "the", "knitter")
	f.Base = p.base(start)
	emit(p, f)
	return true
}

// side reads "(RS)", "(wrong side)", ", RS".
func (p *parser) side() script.Side {
	back := p.i
	open := p.any("(", "[")
	if !open {
		p.any(",", "-")
	}
	s := script.NoSide
	p.any("=")
	switch {
	case p.any("rs"), p.phrase("right side"):
		s = script.RS
	case p.any("ws"), p.phrase("wrong side"):
		s = script.WS
	}
	if s != 0 {
		p.any("row", "facing")
		if !open || p.any(")", "]") {
			if !open && !p.clauseEnd() {
				p.i = back
				return 0
			}
			return s
		}
		if p.any(",", "and", ";") { // "(RS, dec rnd)"
			for !p.done() && !p.is(")") && !p.is("]") {
				p.i++
			}
			if p.any(")", "]") {
				return s
			}
		}
	}
	p.i = back
	return 0
}

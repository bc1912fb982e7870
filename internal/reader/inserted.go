package reader

import "sockwright/internal/script"

// waste reads a heel that is placed with waste yarn: the count does not change.
func (p *parser) waste() bool {
	start := p.i
	if p.any("k") { // "k 26 with waste yarn"
		p.skip("the", "first", "next", "last")
		if n, ok := p.number(); ok {
			p.any("sts")
			if p.any("of", "on") {
				p.needle()
			}
			if p.phrase("with waste yarn", "with scrap yarn", "with the waste yarn", "in waste yarn") {
				for !p.stop() {
					p.i++
				}
				p.add(&script.State{Base: p.base(start), Claims: []script.Claim{{What: script.OfPart, Part: script.Heel, N: n, At: n.At, Soft: true}}})
				return true
			}
		}
		p.i = start
		return false
	}
	if !p.phrase("with waste yarn", "using waste yarn", "with scrap yarn", "with contrast waste yarn", "with a length of waste yarn", "with a piece of waste yarn") {
		return false
	}
	p.skip(",")
	p.any("k")
	p.from(&script.Divide{})
	n, ok := p.number()
	if !ok {
		return false
	}
	p.partWord()
	p.any("sts")
	for !p.stop() {
		p.i++
	}
	p.add(&script.State{Base: p.base(start), Claims: []script.Claim{{What: script.OfPart, Part: script.Heel, N: n, At: n.At, Soft: true}}})
	return true
}

// lift reads how the stitches of an inserted heel come onto the needles: "Place the 30 sts
// below and the 30 sts above on needles and pick up 1 st at each corner", "30 sts from below
// and 30 from above go on two needles. Pick up 1 st in each corner."
func (p *parser) lift() bool {
	start := p.i
	if p.any("remove", "take", "pull", "unpick", "draw") {
		p.skip("out", "the", "contrast", "contrasting", "thread", "waste", "scrap", "yarn", "and", ";", ",", "carefully", "now")
	}
	if !p.any("place", "put", "sl", "pick", "return", "transfer") && p.peek().kind != numToken {
		return false
	}
	p.any("up")
	n := script.Lift{}
	for !p.stop() && !p.is(":") && !p.is("=") && !n.Corner.Known() {
		switch {
		case p.is("pick"):
			if !p.corners(&n) {
				return false
			}
			continue
		case p.peek().kind == numToken:
			c, ok := p.number()
			if !ok {
				return false
			}
			if p.is("ndl") { // "on two needles"
				continue
			}
			p.any("sts", "live")
			p.skip("from", "the", "live", "sts")
			if !p.is("below") && !p.is("above") && !p.is("lower") && !p.is("upper") && !p.is("bottom") && !p.is("top") {
				return false
			}
			n.Parts = append(n.Parts, c)
			continue
		}
		p.i++
	}
	if len(n.Parts) != 2 {
		return false
	}
	if back := p.i; !n.Corner.Known() && p.any(".") && !p.corners(&n) { // in a sentence of its own
		p.i = back
	}
	n.Claims = p.claimsBehind()
	n.Base = p.base(start)
	emit(p, n)
	p.began = true
	return true
}

// corners reads "pick up and k 1 st in each corner" up to a count that follows.
func (p *parser) corners(n *script.Lift) bool {
	if !p.any("pick") {
		return false
	}
	p.skip("up", "and", "k")
	c, ok := p.number()
	if !ok {
		return false
	}
	p.any("sts", "extra")
	corner, each := false, false
	for !p.stop() && !p.is(":") && !p.is(";") && !p.is("=") && !p.is("(") {
		each = each || p.is("each") || p.is("both") || p.is("either")
		corner = corner || p.is("corner") || p.is("gap") || p.is("side") || p.is("end")
		p.i++
	}
	if !corner {
		return false
	}
	n.Corner, n.Corners = c, 1
	if each {
		n.Corners = 2
	}
	return true
}

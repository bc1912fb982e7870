package reader

import "sockwright/internal/script"

// middleStitch reads that one of the stitches that were set apart is their middle: "with the
// middle back st in the center of them", "keeping the seam st at the center".
func (p *parser) middleStitch() bool {
	start := p.i
	p.skip("with", "keep", "keeping", "having", "so", "that")
	p.skip("the", "a", "one")
	if !p.any("centre", "seam") {
		return false
	}
	p.skip("centre", "back", "heel")
	p.any("seam")
	if !p.eat("sts") {
		return false
	}
	p.skip("lies", "is", "comes", "being", "lying", "coming")
	if !p.any("in", "at", "on", "to") || !p.any("the") {
		return false
	}
	p.skip("very")
	if !p.any("centre") {
		return false
	}
	p.phrase("of them", "of these sts", "of these", "of the heel sts", "of the heel ndl", "of the heel", "of the ndl", "of this ndl", "of it")
	if !p.clauseEnd() {
		return false
	}
	at := p.since(start)
	p.add(&script.State{Base: p.base(start), Claims: []script.Claim{{What: script.HasMiddle, At: at}}})
	return true
}

package reader

import "sockwright/internal/script"

// move reads how stitches go from one needle to another: "Slip the first st of N1 to the end
// of N2", "K the sts of 1st needle on to 3rd needle".
func (p *parser) move() bool {
	start := p.i
	p.skip("then", "now")
	m := script.Move{}
	if !p.any("sl", "place", "put", "move", "transfer", "k", "take") {
		return false
	}
	p.skip("the", "all")
	switch {
	case p.any("first", "next"):
		m.Of = script.First
	case p.any("last"):
		m.Of = script.Last
	}
	n, counted := p.number()
	if counted {
		m.N = n
	}
	if !p.any("sts") || m.Of != script.Unsaid && !counted && p.raw(p.toks[p.i-1].at) != "st" && p.raw(p.toks[p.i-1].at) != "stitch" {
		return false
	}
	if !p.any("of", "from", "on") {
		return false
	}
	if p.phrase("the end of", "end of") {
		m.Of = script.Last
	}
	var ok bool
	if m.From, ok = p.oneOrdinal(); !ok {
		return false
	}
	if p.any("and") { // "of the first and third pins together upon one pin"
		if m.To, ok = p.oneOrdinal(); ok && p.phrase("tog on one ndl", "tog upon one ndl", "on one ndl", "upon one ndl", "on to one ndl", "tog") {
			p.any(",")
			for !p.stop() {
				p.i++
			}
			m.Base = p.base(start)
			emit(p, m)
			return true
		}
		return false
	}
	if !p.phrase("to the end of", "on to the end of", "onto the end of", "to the beg of", "on to the beg of", "to", "onto", "on to", "on", "with") {
		return false
	}
	m.To, ok = p.oneNeedle()
	heel := p.phrase("for the heel", "for heel")
	if !ok || m.To == m.From || !p.clauseEnd() {
		return false
	}
	m.Base = p.base(start)
	emit(p, m)
	if heel {
		return p.setApart(start, script.Divide{Part: script.Heel, From: script.OnNeedle, Needle: m.To})
	}
	if claims := p.claimsBehind(); claims != nil {
		p.add(&script.State{Base: p.base(start), Claims: claims})
	}
	return true
}

// oneNeedle reads a needle by its number.
func (p *parser) oneNeedle() (int, bool) {
	n, _, ok := p.needle()
	return n, ok && n > 0
}

// oneOrdinal reads a needle by its number; the word itself may stand behind another one:
// "the first and third pins".
func (p *parser) oneOrdinal() (int, bool) {
	if n, ok := p.oneNeedle(); ok {
		return n, true
	}
	p.any("the")
	t := p.peek()
	if t.kind != ordToken && t.w != "first" || p.ahead(1).w != "and" {
		return 0, false
	}
	p.i++
	return max(int(t.val), 1), true
}

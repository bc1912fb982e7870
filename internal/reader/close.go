package reader

import "sockwright/internal/script"

// close reads "Graft", "graft the 12 sole sts to the 12 instep sts", "fasten off".
func (p *parser) close() bool {
	start := p.i
	p.skip("now", "then", "and")
	if p.phrase("cast off", "bind off", "bo") { // "Cast off loosely"
		p.skip("all", "the", "sts", "loosely", "in", "rib", "patt", "rem", "very", "knitwise")
		if !p.clauseEnd() {
			return false
		}
		emit(p, script.Close{Base: p.base(start)})
		return true
	}
	if !p.any("graft", "break", "cut", "fasten", "draw", "join") || p.toks[p.i-1].w == "join" && !p.is("toe") {
		return false
	}
	word := p.toks[p.i-1].w
	if word == "draw" && p.sentenceHas("over") { // half a decrease
		return p.restore(start)
	}
	if word == "draw" && (p.sentenceHas("ring") || p.sentenceHas("rnd") || p.sentenceHas("circle")) { // the beginning, not the end
		p.i = start
		return false
	}
	c := script.Close{}
	var claims []script.Claim
	for !p.stop() {
		if p.peek().kind == numToken {
			if cl, ok := p.claim(); ok {
				if cl.Part != 0 || cl.What == script.OnNdl || cl.What == script.EachNdl || word == "draw" && cl.What == script.Live {
					claims = append(claims, cl)
				}
				continue
			}
			if _, ok := p.list(); ok {
				continue
			}
		}
		p.i++
	}
	if word == "break" || word == "cut" {
		return true // the yarn only
	}
	if claims != nil && (word == "graft" || word == "draw") {
		for i := range claims {
			if claims[i].What == script.Live && word == "graft" {
				claims[i].What = script.OfPart
			}
		}
		p.add(&script.State{Base: p.base(start), Claims: claims})
	}
	c.Base = p.base(start)
	emit(p, c)
	return true
}

// sentenceHas tells whether a word stands between here and the end of the sentence.
func (p *parser) sentenceHas(word string) bool {
	for i := p.i; i < len(p.toks) && p.toks[i].w != "."; i++ {
		if p.toks[i].w == word {
			return true
		}
	}
	return false
}

package reader

import (
	"slices"

	"sockwright/internal/script"
)

// arrange reads "Arrange 32 sts for sole, 32 sts for instep", "Arrange on three needles".
func (p *parser) arrange() bool {
	start := p.i
	p.skip("now", "then", "all")
	p.forPart()
	sts := p.phrase("sts are", "the sts are")
	if !p.any("arrange", "arranged", "divide", "divided", "distribute", "set", "split", "place", "put", "lay", "keep") {
		return false
	}
	loose := slices.Contains([]string{"place", "put", "lay", "keep"}, p.toks[p.i-1].w) // they do other things besides
	set := p.toks[p.i-1].w == "set" && !sts
	p.skip("the", "sts", "so", "that", "as", "foll", ":", "with", "them", "all", "evenly", "over", "on", "onto", ",", "these", "putting", "placing", "having")
	a := script.Arrange{}
	if t := p.peek(); t.kind == numToken && p.ahead(1).w == "ndl" && !set {
		a.Even = int(t.val)
		p.i += 2
		p.phrase("with the same number on each", "equally", "evenly")
		if p.any(":", ",", "(") {
			a.Claims = p.claims()
		}
		a.Base = p.base(start)
		emit(p, a)
		return true
	}
	a.Claims = p.claims()
	if len(a.Claims) == 0 || loose && len(a.Claims) < 2 || set && a.Claims[0].What != script.EachNdl { // "Set sixteen on each of the four needles"
		return false
	}
	p.phrase("again")
	a.Base = p.base(start)
	emit(p, a)
	return true
}

// arranging reads how the stitches lie that a row has just worked: "k, arranging the sts so
// that there are 15 on N1 …".
func (p *parser) arranging() bool {
	start := p.i
	p.skip(",", ";", "and")
	if !p.any("arranging", "arrange", "dividing", "divide", "placing", "rearranging") {
		p.i = start
		return false
	}
	p.skip("the", "sts", "them", "so", "that", "as", "foll", ":")
	claims := p.claims()
	if len(claims) < 2 {
		p.i = start
		return false
	}
	p.add(&script.Arrange{Base: p.base(start), Claims: claims})
	return true
}

// lays reads "Slip the first 25 sts to N1 and the last 23 sts to N2": stitches that are laid
// on needles, which stay in work.
func (p *parser) lays() bool {
	start := p.i
	if !p.any("sl", "place", "put", "move", "transfer") {
		return false
	}
	claims := p.claims()
	if len(claims) < 2 || !p.clauseEnd() {
		return false
	}
	for _, c := range claims {
		if c.What != script.OnNdl {
			return false
		}
	}
	p.add(&script.Arrange{Base: p.base(start), Claims: claims})
	return true
}

// forPart takes "for the toe," before an instruction.
func (p *parser) forPart() {
	back := p.i
	if p.any("for") {
		p.any("the")
		if p.partWord() != script.NoPart {
			p.any(",")
			return
		}
	}
	p.i = back
}

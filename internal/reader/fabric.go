package reader

import (
	"sockwright/internal/pattern"
	"sockwright/internal/script"
)

// fabric reads the name of a fabric.
func (p *parser) fabric(n *script.Plain, in bool) bool {
	p.skip("the", "a")
	switch {
	case p.any("st-st", "stockinette"), p.phrase("sts sts", "plain k"):
		p.any("sts")
		n.Fabric = "stockinette"
	case p.any("rib", "ribs"):
		n.Fabric = "rib"
		p.skip("as", "set")
		if steps, ok := p.ribWords(); ok { // "rib 2 k / 2 p"
			n.Steps = steps
		}
	case p.any("garter"):
		p.any("sts")
		n.Fabric = "garter"
	case p.is("k") && p.ahead(1).kind == numToken, p.is("(") && p.ahead(1).w == "k", p.is("*") && p.ahead(1).w == "k":
		if steps, ok := p.ribWords(); ok {
			n.Steps, n.Fabric = steps, "rib"
			p.any("rib")
			return true
		}
		return false
	case p.peek().kind == numToken && (p.ahead(1).w == "plain" || p.ahead(1).w == "k"):
		steps, ok := p.ribWords()
		if !ok {
			return false
		}
		n.Steps, n.Fabric = steps, "rib"
		p.phrase("the whole way rnd", "all the way rnd", "the whole rnd", "all rnd", "around", "alt", "rib")
	case p.peek().kind == numToken && (p.ahead(1).w == "x" || p.ahead(1).w == "/") && p.ahead(2).kind == numToken: // "2x2 rib"
		a, b := p.peek().val, p.ahead(2).val
		back := p.i
		p.i += 3
		if !p.any("rib") {
			p.i = back
			return false
		}
		n.Fabric = "rib"
		n.Steps = ribSteps(pattern.Of(int(a)), pattern.Of(int(b)))
	case p.phrase("patt", "est patt", "established patt", "lace patt", "chart patt", "chart", "lace"):
		n.Fabric = "patt"
		p.skip("as", "set", "established")
	case in && p.phrase("heel sts"):
	case p.phrase("same way", "this way", "heel patt", "heel-st", "eye-of-partridge", "sl sts patt"):
	default:
		return false
	}
	return true
}

// ribAhead tells whether a rib is named here: "k1, p1 rib".
func (p *parser) ribAhead() bool {
	back := p.i
	defer func() { p.i = back }()
	_, ok := p.ribWords()
	if !ok || p.is("rib") {
		return ok
	}
	if stop, ok := p.stopping(true); ok { // "k2, p2 for 40 rounds", "k1, p1 until cuff is 2 in"
		return stop.Kind == script.Rows || stop.Kind == script.MoreRows || stop.Kind == script.Measures
	}
	return p.phrase("every rnd", "each rnd", "all rnd")
}

// ribWords reads "k2, p2", ", two plain and two purl", "4 plain and 4 turned".
func (p *parser) ribWords() ([]script.Step, bool) {
	start := p.i
	p.skip(",", "of", "in", "(", "[", "*")
	if p.peek().kind == numToken {
		a, _ := p.number()
		if p.any("plain", "k") {
			p.skip("and", ",", "/", "-")
			if b, ok := p.number(); ok && p.any("p", "turned", "seam") {
				return ribSteps(a, b), true
			}
		}
		p.i = start
		return nil, false
	}
	p.i = start
	open := p.any("(", "[", "*")
	if p.any("k") {
		a, ok := p.number()
		p.eat("tbl")
		p.skip(",", "and", "/")
		if ok && p.any("p") {
			if b, ok := p.number(); ok {
				if open {
					p.any(")", "]", "*")
				}
				return ribSteps(a, b), true
			}
		}
	}
	p.i = start
	return nil, false
}

func ribSteps(a, b pattern.Number) []script.Step {
	body := []script.Step{{Op: script.Knit, Uses: 1, Makes: 1, N: a, At: a.At}, {Op: script.Purl, Uses: 1, Makes: 1, N: b, At: b.At}}
	return []script.Step{{Op: script.Group, Body: body, Stop: script.Stop{Kind: script.ToEnd}, At: a.At.To(b.At)}}
}

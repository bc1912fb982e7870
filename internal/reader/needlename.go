package reader

import "unicode"

// Needles that a text calls by letters: "The first needle is the top (T), the second the sole (S)".

// lettered reads which letters needles are called by. From the next line on a needle's letter is its
// name.
func (p *parser) lettered() bool {
	start := p.i
	names := map[string]int{}
	for len(names) < 4 {
		p.skip("the", "and")
		t := p.peek()
		n, named := int(t.val), len(names) > 0
		switch {
		case t.w == "first":
			n = 1
		case t.kind == ordToken:
		case t.w == "ndl" && p.ahead(1).kind == numToken:
			p.i++
			n, named = int(p.peek().val), true
		default:
			return p.restore(start)
		}
		p.i++
		named = p.any("ndl") || named
		for k := 0; k < 6 && !p.clauseEnd() && !p.is("("); k++ { // "is the top", "holds the sole"
			p.i++
		}
		if !named || n < 1 || n > 9 || !p.any("(") {
			return p.restore(start)
		}
		name := p.raw(p.peek().at)
		if len(name) != 1 || !unicode.IsUpper(rune(name[0])) || names[name] != 0 {
			return p.restore(start)
		}
		names[name] = n
		if p.i++; !p.any(")") {
			return p.restore(start)
		}
		if p.stop() {
			break
		}
		if !p.any(",", ";", "and") {
			return p.restore(start)
		}
	}
	if len(names) < 2 || !p.stop() {
		return p.restore(start)
	}
	p.needleNames = names
	return true
}

// nameNeedles puts the numbers of needles for their letters.
func (p *parser) nameNeedles(toks []token) []token {
	for i := range toks {
		if t := &toks[i]; t.kind == wordToken && len(p.needleNames) > 0 {
			if n := p.needleNames[p.raw(t.at)]; n > 0 {
				*t = token{kind: wordToken, w: "n" + itoa(n), at: t.at}
			}
		}
	}
	return toks
}

package reader

import "sockwright/internal/script"

// where reads at which places a round is shaped: "at each side of the instep", "before the
// first and 1 st after the second marker", "evenly". It multiplies times by how many places
// they are, if that tells.
func (p *parser) where(times *int) bool {
	back := p.i
	p.skip(",")
	if n := p.spots(); n > 0 {
		*times *= n
		return true
	}
	switch {
	case p.phrase("at beg and end", "at the beg and end", "at the beg and the end", "at the beg and at the end"):
		*times *= 2
		if p.any("of"); !p.is("each") && !p.is("every") {
			p.spot()
		}
		return true
	case p.phrase("at the same places", "in this way", "in the same places", "in the same way", "the same way", "as before", "spaced", "evenly spaced"):
		return true
	case p.phrase("on each ndl", "on every ndl", "on all ndl", "on both ndl"):
		return true
	case p.phrase("evenly around", "evenly", "around", "across", "on the sole sts", "on sole sts", "on the heel side of the join", "on the instep", "on the sole", "on the heel side"):
		return true
	case p.phrase("at the centre", "at centre", "at the seam", "on the seam"):
		p.skip("of", "the", "back", "front", "leg", "heel", "seam")
		return true
	case p.peek().kind == numToken && p.peek().val == 1: // "one at each end of the top and one at each end of the sole"
		for !p.stop() && !p.is(",") && !p.is("until") {
			p.i++
		}
		return true
	}
	p.i = back
	return false
}

// spots reads places joined by "and", each perhaps with what is done there: "at the end of N1
// and at the beg of N3", "1 st before the instep begins and ssk 1 st after it ends".
func (p *parser) spots() int {
	n := p.oneSpot()
	if n == 0 {
		return 0
	}
	for {
		back := p.i
		p.skip(",")
		if p.any("and", "&") {
			_ = p.decrease() || p.any("once") // "once before the instep and once after it"
			if more := p.oneSpot(); more > 0 {
				n += more
				continue
			}
		}
		p.i = back
		return n
	}
}

// oneSpot reads one place, or one on each side of something; 0 if there is none.
func (p *parser) oneSpot() int {
	back := p.i
	if _, ok := p.number(); ok && !p.any("sts") {
		p.i = back
	}
	p.skip("at", "on", "in", "the")
	switch {
	case p.any("before", "after"):
		p.skip("of")
		if p.spot() || p.is("and") { // "before and 1 st after the instep"
			return 1
		}
	case p.any("each", "both", "either", "every"):
		if !p.any("side", "end", "edge", "ends") {
			break
		}
		n := 2
		if p.any("of") {
			if p.phrase("both m", "each m", "the two m", "both the m", "every m", "each of the two m", "each of the m") {
				return 2 * n
			}
			p.spot()
		}
		return n
	case p.any("end", "ends", "beg"):
		if !p.any("of") {
			break
		}
		p.skip("the")
		if _, _, ok := p.needle(); ok || p.spot() {
			return 1
		}
	}
	p.i = back
	return 0
}

// spot reads what a place is told by: "the first", "marker A", "the instep begins", "it".
func (p *parser) spot() bool {
	from := p.i
	p.skip("the", "this", "these", "those", "both", "on")
	told := p.any("first", "second", "last", "other", "next", "it", "them")
	if t := p.peek(); !told && t.kind == ordToken && t.val < 5 {
		p.i++
		told = true
	}
	switch {
	case p.any("m"):
		p.markerName()
		told = true
	case p.namedMarker() != "":
		told = true
	case p.partWord() != script.NoPart:
		told = true
		p.any("sts", "ndl")
	default:
		if _, _, ok := p.needle(); ok {
			told = true
		}
		for p.any("seam-st", "front", "back", "ndl", "rnd", "row", "centre", "seam", "side", "sts", "half", "top", "instep", "sole", "heel", "m") {
			told = true
		}
	}
	if !told {
		p.i = from
		return false
	}
	p.any("beg", "ends", "end")
	return true
}

// decrease reads one decrease, however it is told: "k2tog", "knit two together", "sl 1, k1,
// psso", "dec 1 st", "narrow".
func (p *parser) decrease() bool {
	back := p.i
	if p.any("dec", "narrow") {
		if n, ok := p.number(); ok {
			return countOf(n) == 1 && p.any("sts") || p.restore(back)
		}
		p.any("once")
		return true
	}
	first, ok := p.step()
	switch {
	case ok && decreasesOne(first):
		return true
	case !ok || first.Op != script.Slip:
		return p.restore(back)
	}
	steps := []script.Step{first} // "sl 1, k1, psso"
	for len(steps) < 3 {
		p.skip(",", "and")
		s, ok := p.step()
		if !ok {
			break
		}
		steps = append(steps, s)
		if steps = fold(steps); len(steps) == 1 && decreasesOne(steps[0]) {
			return true
		}
	}
	return p.restore(back)
}

// decreasesOne tells whether a step is one decrease.
func decreasesOne(s script.Step) bool {
	return s.Op == script.Decrease && s.To == script.Here && countOf(s.N) == 1
}

// restore goes back to a token, and says that nothing was read.
func (p *parser) restore(to int) bool {
	p.i = to
	return false
}

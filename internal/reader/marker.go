package reader

import "sockwright/internal/script"

// marked reads that a marker is put where the round begins: "The round begins at the centre back; mark
// it.", "Place a marker here.", "Join, marking the first st."
func (p *parser) marked() bool {
	start := p.i
	switch {
	case p.any("mark", "marking"):
		p.skip("this", "it", "with", "a", "m", "here", "point", "place")
		if !p.beginning() && (p.i == start+1 || !p.clauseEnd()) {
			return p.restore(start)
		}
	case p.any("pm"), p.any("place", "put", "hang", "use", "placing", "hanging", "putting", "using", "sl", "slipping") && p.any("a", "one", "your") && p.any("m"):
		p.skip("on", "the", "ndl", "here", "now", "this", "at", "for", "to", "mark", "show", "indicate")
		p.beginning()
	default:
		return false
	}
	if back := p.i; !p.stop() && !p.is(";") && !(p.any(",", "and") && p.any("join", "joining", "being", "taking")) {
		return p.restore(start)
	} else {
		p.i = back
	}
	emit(p, script.Markers{Base: p.base(start)})
	return true
}

// beginning reads "beg of the rnd", "first st", "centre back".
func (p *parser) beginning() bool {
	back := p.i
	p.skip("the", "at", "on", "by")
	switch {
	case p.any("bor"):
	case p.any("beg", "end", "first"):
		p.any("of")
		p.skip("the", "every", "each")
		if !p.any("rnd", "sts", "bor") {
			return p.restore(back)
		}
	case p.any("centre"):
		p.skip("back", "of", "the", "heel", "leg")
	case p.any("this", "that"):
		p.skip("point", "place", "spot", "sts")
	default:
		return p.restore(back)
	}
	p.phrase("of the rnd", "of rnd")
	return true
}

// takenOff reads, behind plain rounds, that markers come off in them: "taking A and B off the needle as
// you come to them", "removing all markers".
func (p *parser) takenOff() (names []string, ok bool) {
	back := p.i
	take := p.any("taking", "take")
	if !take && !p.any("removing", "remove", "dropping", "drop") {
		return nil, false
	}
	off := p.any("out", "off", "away") || !take
	p.skip("the", "all", "both", "every", "your")
	for {
		name := p.namedMarker()
		if name == "" {
			break
		}
		names = append(names, name)
		p.skip(",", "and", "&")
	}
	if !p.any("m") && names == nil {
		p.i = back
		return nil, false
	}
	for name := p.namedMarker(); name != ""; name = p.namedMarker() { // "markers A and B"
		names = append(names, name)
		p.skip("and", "&")
	}
	if p.any("off", "out", "away") {
		off = true
		p.skip("the", "ndl")
	}
	p.phrase("as you come to them", "as you come to it", "as you reach them", "as they come", "as you go", "on the way", "in passing", "when you come to them")
	if !off || !p.clauseEnd() {
		p.i = back
		return nil, false
	}
	return names, true
}

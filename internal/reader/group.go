package reader

import (
	"sockwright/internal/pattern"
	"sockwright/internal/script"
)

// group reads a repeat within a row.
func (p *parser) group() (s script.Step, ok bool) {
	if p.depth >= maxDepth {
		p.tooDeep = p.peek().at
		return s, false
	}
	open := p.peek().w
	p.i++
	p.depth++
	defer func() { p.depth-- }()
	s.Op = script.Group
	if open == "*" {
		return p.star()
	}
	if t, ok := p.twist(open); ok {
		return t, true
	}
	if s.Body, ok = p.steps(); !ok {
		return s, false
	}
	shut := "]"
	if open == "(" {
		shut = ")"
	}
	p.skip(",", ".")
	if !p.eat(shut) {
		return s, false
	}
	if p.onEach() {
		return eachNeedle(s.Body), true
	}
	s.Stop, ok = p.groupStop(open == "(")
	return s, ok
}

// groupStop reads how often a group is worked: "4 times", "around", "to last 3 sts", "in
// next st".
func (p *parser) groupStop(round bool) (script.Stop, bool) {
	from := p.i
	back := p.i
	stop := script.Stop{Kind: script.Reps, N: pattern.Of(1)}
	p.skip("rep", ";", ",")
	switch {
	case p.eat("once"), p.eat("once", "more"):
	case p.eat("twice"):
		stop.N = pattern.Of(2)
	case p.phrase("in next sts", "into next sts", "in same sts", "into one sts", "in one sts", "in the next sts", "into the next sts", "in the same sts", "all in next sts", "all in one sts"):
		stop.Kind = script.NoStop
	case p.phrase("around", "across", "all around", "all rnd", "to end", "to the end", "rnd", "the whole way rnd", "rep around", "all the way around"):
		stop = script.Stop{Kind: script.ToEnd}
		p.ofWhat(&stop)
	case p.phrase("to", "until"):
		back := p.i
		p.skip("the")
		if p.eat("end") {
			stop = script.Stop{Kind: script.ToEnd}
			p.ofWhat(&stop)
			break
		}
		step, ok := p.landmark(script.Step{})
		if !ok {
			p.i = back
			return stop, false
		}
		stop = script.Stop{Kind: script.ToEnd, N: step.Minus}
		endAt(&stop, step)
	default:
		p.any("for", "a", "total", "of")
		if n, ok := p.number(); ok && p.any("times", "x") {
			stop.N = n
			p.phrase("in all", "in total", "total", "altogether")
			if p.eat("more") {
				stop.Kind = script.More
			}
		} else if p.i = back; p.peek().w == "x" && p.ahead(1).kind == numToken { // "[k2, p2] x 4"
			p.i++
			if stop.N, ok = p.number(); !ok {
				return stop, false
			}
		} else if p.i = back; round { // brackets round a remark, or a bare repeat
			stop.N = pattern.Of(1)
		}
	}
	stop.At = p.since(min(from, len(p.toks)-1))
	return stop, true
}

// endAt notes where a group ends if that is not the end of the row.
func endAt(stop *script.Stop, s script.Step) {
	if s.To != script.End || s.Part != 0 || s.Needle != 0 {
		stop.To, stop.Part, stop.Needle = s.To, s.Part, s.Needle
	}
}

func (p *parser) ofWhat(stop *script.Stop) {
	var s script.Step
	p.whose(&s)
	if s.Part != 0 || s.Needle != 0 || s.Name != "" {
		stop.To, stop.Part, stop.Needle = script.End, s.Part, s.Needle
	}
}

// star reads "k2, p2*" and "k2, p2; rep from *".
func (p *parser) star() (s script.Step, ok bool) {
	s.Op = script.Group
	if s.Body, ok = p.steps(); !ok {
		return s, false
	}
	from := p.i
	switch p.skip(",", ";", "."); {
	case p.eat("*"):
		p.skip(",", ";")
		p.phrase("rep from * to *", "rep between * and *", "rep from * - *", "rep * - *", "rep * to *", "rep from *", "rep")
		if p.onEach() {
			return eachNeedle(s.Body), true
		}
		s.Stop, ok = p.starStop(false)
	case p.phrase("rep from * - *", "rep * - *", "rep from *", "rep from the *", "rep * to *", "rep from", "rep"):
		if p.eat("*"); p.onEach() {
			return eachNeedle(s.Body), true
		}
		s.Stop, ok = p.starStop(true)
	default:
		return s, false
	}
	s.Stop.At = p.since(from)
	return s, ok
}

// onOtherNeedle reads "on the other needle", "for second ndl", "across N2".
func (p *parser) onOtherNeedle() bool {
	back := p.i
	if !p.any("on", "for", "across", "over", "along") {
		return false
	}
	if p.any("n2") {
		return true
	}
	p.any("the")
	return p.any("other", "second") && p.any("ndl") || p.restore(back)
}

// starStop reads how often the part behind an asterisk is repeated; again tells that the
// words say "rep", so that a number of times comes on top of the first.
func (p *parser) starStop(again bool) (script.Stop, bool) {
	p.skip("*")
	switch {
	case p.onOtherNeedle():
		return script.Stop{Kind: script.More, N: pattern.Of(1)}, true
	case p.onOther():
		return script.Stop{Kind: script.More, N: pattern.Of(1)}, true
	case p.peek().kind == ordToken && p.ahead(1).w == "ndl", p.is("on") && p.ahead(1).kind == ordToken && p.ahead(2).w == "ndl":
		p.skip("on")
		p.i += 2
		return script.Stop{Kind: script.More, N: pattern.Of(1)}, true
	case p.eat("once", "more"), p.eat("once"), p.phrase("for the other half", "over the other half", "across the instep", "over the sole", "across sole"):
		if again || p.toks[p.i-1].w == "more" {
			return script.Stop{Kind: script.More, N: pattern.Of(1)}, true
		}
		return script.Stop{Kind: script.Reps, N: pattern.Of(1)}, true
	case p.clauseEnd():
		return script.Stop{Kind: script.ToEnd}, true
	}
	back := p.i
	if p.eat("twice") {
		kind := script.Reps
		if again {
			kind = script.More
		}
		p.eat("more")
		return script.Stop{Kind: kind, N: pattern.Of(2)}, true
	}
	if n, ok := p.number(); ok {
		more := p.eat("more")
		if p.any("times", "x") {
			more = more || p.eat("more")
			switch {
			case p.phrase("in all", "in total", "altogether", "total"):
				return script.Stop{Kind: script.Reps, N: n}, true
			case more:
				return script.Stop{Kind: script.More, N: n}, true
			case again:
				return script.Stop{Kind: script.Times, N: n}, true
			}
			return script.Stop{Kind: script.Reps, N: n}, true
		}
		p.i = back
	}
	stop, ok := p.groupStop(false)
	if ok && p.i == back {
		return script.Stop{Kind: script.ToEnd}, true
	}
	return stop, ok
}

// longestAside is how many words in brackets may describe one stitch.
const longestAside = 60

// twist reads the inside of a bracket that describes one stitch in words: it says what is
// done with stitches that stay on the needle, or refers to a round that did.
func (p *parser) twist(open string) (script.Step, bool) {
	shut := map[string]string{"[": "]", "(": ")"}[open]
	start := p.i
	stay, as, uses := false, false, 0
	end := p.i
	for end < min(len(p.toks), start+longestAside) && p.toks[end].w != shut && p.toks[end].w != "[" {
		t := &p.toks[end]
		switch t.w {
		case "leave", "leaving", "without", "keep", "dropping":
			stay = true
		case "twist", "cable", "cross":
			as = as || end == start
		case "k2tog", "p2tog", "ssk":
			uses = max(uses, 2)
		case "k3tog", "sk2p":
			uses = max(uses, 3)
		}
		end++
	}
	if end >= len(p.toks) || p.toks[end].w != shut && p.toks[end].w != "[" || !stay && !as {
		return script.Step{}, false
	}
	if uses == 0 {
		uses = 2
	}
	p.i = end + 1
	s := script.Step{Op: script.Cross, Uses: int8(uses), Makes: int8(uses), Name: "twist"}
	if as {
		if t, ok := p.terms["twist"]; ok {
			s.Uses, s.Makes = int8(t.Uses), int8(t.Makes)
		}
	} else {
		p.terms["twist"] = &script.Term{Short: "twist", Uses: uses, Makes: uses}
	}
	p.howOften(&s)
	return s, true
}

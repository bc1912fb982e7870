package reader

import (
	"slices"

	"sockwright/internal/pattern"
	"sockwright/internal/script"
)

// ndlRemark takes "(1st needle)" or "(instep)" behind a step.
func (p *parser) ndlRemark() bool {
	if !p.is("(") {
		return false
	}
	back := p.i
	p.i++
	_, _, ok := p.needle()
	if !ok {
		ok = p.partWord() != 0 || p.any("seam-st", "seam")
		p.any("sts")
	}
	if ok && p.eat(")") {
		return true
	}
	p.i = back
	return false
}

// needleAhead tells whether a needle or a part is named n tokens on, so that a row goes on
// behind a stop.
func (p *parser) needleAhead(n int) bool {
	back := p.i
	defer func() { p.i = back }()
	p.i += n
	_, _, ok := p.needle()
	if !ok { // "Knit instep. Sole: k1, m1, …", "On the sole, k1, …"
		on := p.any("on", "over", "across")
		p.any("the")
		part := p.partWord()
		p.any("sts")
		ok = (part == script.Sole || part == script.Instep) && (p.is(":") || on)
	}
	return ok && !p.claimAhead()
}

// needleNamed tells whether a needle is named n tokens on.
func (p *parser) needleNamed(n int) bool {
	back := p.i
	defer func() { p.i = back }()
	p.i += n
	ndl, _, ok := p.needle()
	return ok && ndl > 0
}

// needle reads "N1", "1st needle", "second needle", "needle 2", "instep needle", "on N2".
func (p *parser) needle() (n int, part script.Part, ok bool) {
	back := p.i
	p.skip("on", "upon", "for", "at", "of", "the", "from", "with", "a")
	if p.any("new", "fresh", "free", "empty", "another"); p.eat("ndl", "(") { // "new needle (N4)"
		if n, _, ok = p.needle(); ok && p.any(")") {
			return n, 0, true
		}
		p.i = back
		return 0, 0, false
	}
	t := p.peek()
	switch {
	case len(t.w) == 2 && t.w[0] == 'n' && isDigit(t.w[1]):
		p.i++
		return int(t.w[1] - '0'), 0, true
	case t.w == "n" && p.ahead(1).kind == numToken && p.ahead(1).glued, t.w == "ndl" && p.ahead(1).kind == numToken:
		p.i += 2
		return int(p.toks[p.i-1].val), 0, true
	case t.kind == ordToken && p.ahead(1).w == "ndl":
		p.i += 2
		return int(t.val), 0, true
	case t.w == "first" && p.ahead(1).w == "ndl":
		p.i += 2
		return 1, 0, true
	case p.ahead(1).w == "ndl", p.ahead(1).w == "tip":
		switch t.w {
		case "instep", "heel", "sole":
			part = partNamed(t.w)
		case "front", "top", "upper":
			part = script.Instep
		case "back", "bottom", "lower", "under":
			part = script.Sole
		}
		if part != script.NoPart {
			p.i += 2
			return 0, part, true
		}
	}
	p.i = back
	return 0, 0, false
}

// partNamed is the part of the sock that a word names.
func partNamed(w string) script.Part {
	switch w {
	case "heel", "flap":
		return script.Heel
	case "instep":
		return script.Instep
	case "sole":
		return script.Sole
	case "gusset":
		return script.Gusset
	case "foot":
		return script.Foot
	case "toe":
		return script.Toe
	case "leg":
		return script.Leg
	case "cuff":
		return script.Cuff
	}
	return script.NoPart
}

// partWord reads a word for a part of the sock's stitches.
func (p *parser) partWord() script.Part {
	if p.is("front", "sts") { // the older word
		p.i++
		return script.Instep
	}
	part := partNamed(p.peek().w)
	if part != script.NoPart {
		if p.i++; p.toks[p.i-1].w == "heel" {
			p.any("flap")
		}
	}
	return part
}

// needlePrefix reads "N1:", "N2 -", "on N3,", "needle 1 -" where steps follow.
func (p *parser) needlePrefix() (int, script.Part, bool) {
	start := p.i
	n, part, ok := p.needle()
	if !ok && p.any("on", "over", "across") { // "on the instep k1, …"
		p.skip("the")
		if part = p.partWord(); part != 0 {
			p.any("sts", "ndl")
			ok = part != script.Foot && part != script.Leg
		}
	}
	if p.i == start { // "Sole: k1, …"
		part = p.partWord()
		p.any("sts")
		ok = (part == script.Sole || part == script.Instep) && (p.is(":") || p.is("-") && !p.peek().glued)
	}
	if !ok {
		p.i = start
		return 0, 0, false
	}
	if p.eat(",", "which") { // "N1, which holds the heel sts:"
		for !p.done() && !p.is(":") && !p.is(".") {
			p.i++
		}
	}
	if p.is("(") { // "N2 (instep)"
		back := p.i
		p.i++
		if p.partWord() != 0 {
			p.any("sts", "ndl")
		}
		if !p.eat(")") {
			p.i = back
		}
	}
	p.skip(":", ",", "-", ".", "only")
	back := p.i
	_, num := p.list()
	p.i = back
	if num || p.done() {
		p.i = start
		return 0, 0, false
	}
	return n, part, true
}

// asOther reads that a needle is worked as another one that the row has told, and returns those
// steps: "N3 as N1", "back tip: as front", "needle 2: the same".
func (p *parser) asOther(told []script.Step) ([]script.Step, bool) {
	back := p.i
	of := func(is func(script.Step) bool) (out []script.Step) {
		in := false
		for _, s := range told {
			if s.Op == script.ToNeedle {
				if in = is(s); in {
					out = nil
				}
			} else if in {
				out = append(out, s)
			}
		}
		return out
	}
	p.any("work", "k")
	if p.phrase("as for", "the same as", "same as", "in the same way as", "like", "as on", "as") {
		p.any("the")
		n, part, ok := p.needle()
		if !ok {
			switch {
			case p.any("front", "top"):
				part, ok = script.Instep, true
			case p.any("back", "bottom"):
				part, ok = script.Sole, true
			default:
				part = p.partWord()
				ok = part != script.NoPart
			}
			p.any("sts", "ndl", "tip")
		}
		if !ok && p.peek().kind == ordToken || p.is("first") { // "2nd needle as 1st"
			n, ok = max(int(p.peek().val), 1), true
			p.i++
		}
		steps := of(func(s script.Step) bool { return s.Needle == n && s.Part == part })
		return steps, ok && len(steps) > 0 && (p.clauseEnd() || p.is("and")) || p.restore(back)
	}
	if p.phrase("the same", "likewise", "ditto", "same", "in the same way", "just the same") && (p.clauseEnd() || p.is("and")) {
		last := -1
		for i, s := range told {
			if s.Op == script.ToNeedle && i+1 < len(told) && told[i+1].Op != script.ToNeedle {
				last = i
			}
		}
		if last >= 0 {
			return of(func(s script.Step) bool { return s.Needle == told[last].Needle && s.Part == told[last].Part }), true
		}
	}
	return nil, p.restore(back)
}

// onEach takes "on each needle" before or behind what is worked on each.
func (p *parser) onEach() bool {
	back := p.i
	if !p.any("on", "over", "across") && !p.is("each") && !p.is("every") {
		return false
	}
	if !p.any("each", "every", "all", "both") {
		return p.restore(back)
	}
	p.skip("of", "the", "your")
	if p.peek().kind == numToken {
		p.i++
	}
	return p.any("ndl") || p.restore(back)
}

// eachNeedle is steps that are worked once on each needle: what they go to is that of the needle.
func eachNeedle(steps []script.Step) script.Step {
	body := slices.Clone(steps)
	for i := range body {
		switch s := &body[i]; {
		case s.To == script.End && s.Part == script.NoPart && s.Needle == 0:
			s.Name = "needle"
		case s.Op == script.Group && s.Stop.Kind == script.ToEnd && s.Stop.To == script.Here:
			s.Stop.To = script.End
		}
	}
	return script.Step{At: steps[0].At.To(steps[len(steps)-1].At), Op: script.Group, Body: body, Stop: script.Stop{Kind: script.ToEnd}}
}

// eachNeedleStep reads "on each needle k to last 2, k2tog".
func (p *parser) eachNeedleStep() (s script.Step, ok bool) {
	if !p.onEach() {
		return s, false
	}
	p.skip(":", ",", "-", "work")
	steps, ok := p.steps()
	if !ok {
		return s, false
	}
	return eachNeedle(steps), true
}

// wholeNeedles reads needles that are worked from end to end: "N2 and N3" behind k.
func (p *parser) wholeNeedles(s script.Step) (script.Step, bool) {
	from := p.i
	var all []script.Step
	for {
		back := p.i
		n, part, ok := p.needle()
		if !ok || n == 0 && part == script.NoPart {
			p.i = back
			break
		}
		one := s
		one.At, one.To, one.Needle, one.Part = p.since(back), script.PartEnd, n, part
		all = append(all, one)
		if end := p.i; !p.any("and", "&", "+", ",") || !p.atNeedle() {
			p.i = end
			break
		}
	}
	p.soManyWith()
	if len(all) > 1 && !p.clauseEnd() { // "N2 and N3 k1, …"
		p.i = from
		return s, false
	}
	switch len(all) {
	case 0:
		return s, p.restore(from)
	case 1:
		return all[0], true
	}
	return script.Step{Op: script.Group, Body: all, Stop: script.Stop{Kind: script.Reps, N: pattern.Of(1)}}, true
}

// soManyWith passes over how many stitches whole needles hold, and the yarn that they are worked with:
// "= 28 sts with a contrast thread".
func (p *parser) soManyWith() {
	back := p.i
	if p.any("=", "(") {
		if _, ok := p.number(); !ok || !p.any("sts") {
			p.i = back
			return
		}
		p.any(")")
	}
	back = p.i
	if p.any("with", "in", "using") {
		p.skip("a", "the", "waste", "scrap", "contrast", "contrasting", "sock", "main", "length", "of")
		if p.any("thread", "yarn", "colour") && p.clauseEnd() {
			return
		}
	}
	p.i = back
}

// onto takes words that say where stitches go.
func (p *parser) onto() {
	for {
		back := p.i
		if p.phrase("onto", "on to", "on") {
			p.skip("the", "same", "that", "to", "one", "a", "empty", "free", "spare", "first", "next")
			if _, _, ok := p.needle(); ok {
				continue
			}
			if p.eat("ndl") || p.any("it", "them") || p.toks[p.i-1].w == "that" || p.toks[p.i-1].w == "same" {
				continue
			}
		}
		p.i = back
		if p.any("across", "over", "along", "on", "for") { // "k28 across the instep, …"
			p.any("the")
			if part := p.partWord(); part == script.Instep || part == script.Sole || part == script.Heel {
				if p.any("sts"); p.is(",") || p.is(";") || p.stop() {
					return
				}
			}
			p.i = back
		}
		if p.phrase("with one ndl", "with a spare ndl", "with the same ndl", "in patt", "as set", "as est", "as established", "in rib", "in the same way", "the same way", "for instep", "for heel", "for sole", "for the instep", "for the heel", "for the sole", "on the way", "in st-st", "in stockinette", "even") {
			continue
		}
		return
	}
}

// onOther reads "on Ndl 2", "on the sole".
func (p *parser) onOther() bool {
	back := p.i
	if p.any("on", "across", "over", "for") {
		p.skip("the")
		if _, _, ok := p.needle(); ok {
			return true
		}
		if part := p.partWord(); part == script.Sole || part == script.Instep {
			p.any("sts")
			return true
		}
	}
	p.i = back
	return false
}

package reader

import (
	"slices"

	"strings"

	"sockwright/internal/pattern"
	"sockwright/internal/script"
)

// leads are words before a count that say nothing more than that it is one.
var leads = newList("another total tally there are is will be you now has should leaving making being = to give giving so of in all count then - the that should've this makes gives leaves still we get for and sts: worked only rem held other when that's own again down stand back which you're we're we've you've")

// telling are those behind which a bare figure is a count of stitches, if nothing else follows:
// "makes 48", "that's 28", "is down to 10".
var telling = newList("that's makes making leaves leaving gives giving own stand again = total down back")

// claimsBehind reads counts that stand behind an instruction, over sentence ends: "(4 sts
// dec)", ". 72 sts.", ": 16 sts", " - 28 rows, 14 garter ridges at each edge".
func (p *parser) claimsBehind() []script.Claim {
	var out []script.Claim
	for {
		back := p.i
		open := false
		for !p.gapFirst() && p.any(".", ":", "-", ";", ",", "(", "[", "and", "=") {
			switch p.toks[p.i-1].w {
			case "(", "[":
				open = true
			case ":":
				if p.depth > 0 {
					p.i = back
					return out
				}
			}
		}
		if p.i == back && len(out) > 0 || p.done() {
			p.i = back
			return out
		}
		c := p.signed(open)
		if c == nil {
			c = p.claims()
		}
		if open && len(c) > 0 {
			p.any(".")
		}
		if len(c) == 0 || open && !p.any(")", "]") || !open && !p.clauseEnd() && !p.is("-") && !p.is("(") {
			p.i = back
			return out
		}
		out = append(out, c...)
	}
}

// signed reads a change that stands in brackets with its sign: "[+4]", "(-2 sts)".
func (p *parser) signed(open bool) []script.Claim {
	less := open && p.toks[p.i-1].w == "-"
	if !less && !(open && p.is("+")) {
		return nil
	}
	back := p.i
	p.any("+")
	n, ok := p.number()
	p.any("sts")
	if !ok || !p.is(")") && !p.is("]") {
		p.i = back
		return nil
	}
	if less {
		n.Val = slices.Clone(n.Val)
		for i, v := range n.Val {
			if v != pattern.Gap {
				n.Val[i] = -v
			}
		}
	}
	return []script.Claim{{What: script.Change, At: p.since(back), N: n}}
}

// claims reads counts one after the other: "33 instep sts on N1, 32 sole sts on N2".
func (p *parser) claims() []script.Claim {
	if p.i > p.figure {
		return nil
	}
	var out []script.Claim
	p.spread = 0
	for {
		back := p.i
		if len(out) > 0 && !p.any(",", ";", "and", ":", "=", "(", "with") && !p.wrapsOf(out) {
			if !p.is(".") || !p.needleNamed(1) && p.ahead(1).w != "total" {
				return out
			}
			p.i++
		}
		if len(out) > 0 {
			p.skip("and", "with", "but", "then")
			p.phrase("of which", "of these", "of them", "of those", "that is", "made up of")
		}
		if len(out) > 0 && out[len(out)-1].What == script.OnNdl {
			if c, ok := try(p, p.onNth); ok { // "on the second 36", "36 on the second"
				out = append(out, c)
				continue
			}
		}
		many, ok := p.claimOrHalf(out)
		if !ok {
			p.i = back
			return out
		}
		if c := &many[0]; c.What == script.EachNdl && c.N.Known() && c.Needle == 0 { // "64 sts on 4 needles, 16 on each"
			c.Needle = p.spread
		}
		if len(many) == 1 && many[0].What == script.OnNdl {
			p.sharesOf(&many[0])
		}
		out = append(out, many...)
		p.any(")")
		if c := many[0]; len(out) == 1 && (c.What == script.Live || c.What == script.Total) {
			out = append(out, p.inOrder()...)
		}
	}
}

// wrapsOf tells whether the stitches between the wrapped ones follow: "9 wrapped sts on each side
// of 12 unwrapped".
func (p *parser) wrapsOf(before []script.Claim) bool {
	return before[len(before)-1].What == script.WrapEach && p.is("of") && p.ahead(1).kind == numToken && p.any("of")
}

// onSoMany reads over how many needles stitches lie: "on 4 needles", "over three needles".
func (p *parser) onSoMany() bool {
	back := p.i
	if p.any("on", "over", "upon") {
		if t := p.peek(); t.kind == numToken && t.val > 1 && p.ahead(1).w == "ndl" {
			p.spread = int(t.val)
			p.i += 2
			return true
		}
	}
	return p.restore(back)
}

// sharesOf adds what else one needle holds to the count of the first of it: "N2: 15 gusset sts, 18 heel
// sts, 15 gusset sts".
func (p *parser) sharesOf(c *script.Claim) {
	for {
		back := p.i
		if !p.any(",", "and", "+", "&") {
			return
		}
		p.skip("and", "then", "the")
		n, ok := p.number()
		if !ok || !p.shareWord() || !p.any("sts") || !p.clauseEnd() && !p.is("and") {
			p.i = back
			return
		}
		c.N, c.At = sum(c.N, n), c.At.To(n.At)
		c.N.At = c.At
	}
}

// shareWord reads what a share of the stitches of a needle is called.
func (p *parser) shareWord() bool {
	return p.partWord() != script.NoPart || p.any("picked-up", "pick-up", "side", "corner", "picked", "rem", "centre") && (p.any("up") || true)
}

// sum adds two numbers size by size.
func sum(a, b pattern.Number) pattern.Number {
	out := pattern.Number{At: a.At.To(b.At)}
	for size := range max(len(a.Val), len(b.Val)) {
		x, y := a.In(size), b.In(size)
		switch {
		case x == pattern.Gap:
			x = y
		case y != pattern.Gap:
			x += y
		}
		out.Val = append(out.Val, x)
	}
	return out
}

// onNth reads "on the second 36" or "36 on the 2nd" behind the count of another needle.
func (p *parser) onNth() (c script.Claim, ok bool) {
	n, before := p.number()
	if before {
		p.any("sts")
	}
	p.skip("on", "upon", "the")
	t := p.peek()
	if t.kind != ordToken {
		return c, false
	}
	p.i++
	if !before {
		var ok bool
		if n, ok = p.number(); !ok {
			return c, false
		}
		p.any("sts")
	}
	if before && p.is("ndl") { // told in full
		return c, false
	}
	p.ndlRemark()
	return script.Claim{What: script.OnNdl, Needle: int(t.val), N: n, At: n.At}, p.clauseEnd() || p.is("and")
}

// claimOrHalf reads a claim, or "half on each needle".
func (p *parser) claimOrHalf(before []script.Claim) ([]script.Claim, bool) {
	if p.phrase("half on each ndl", "half on each", "half of them on each ndl", "the same number on each ndl") {
		return []script.Claim{{What: script.EachNdl, At: p.toks[p.i-1].at}}, true
	}
	if halves, ok := try(p, p.halves); ok {
		return halves, true
	}
	if len(before) > 0 && p.phrase("as many between") { // "and as many between B and BOR"
		c := p.last
		p.i--
		if p.lies(&c) {
			return []script.Claim{c}, true
		}
		return nil, false
	}
	c, ok := p.claim()
	if !ok {
		return nil, false
	}
	if len(p.both) > 0 { // "N1 and N2 - 6 sts each"
		var many []script.Claim
		for _, n := range p.both {
			one := c
			one.What, one.Needle = script.OnNdl, n
			many = append(many, one)
		}
		p.both = nil
		return many, true
	}
	return []script.Claim{c}, true
}

// halves reads "half on the instep needle and half on the heel needle".
func (p *parser) halves() (out []script.Claim, ok bool) {
	for range 2 {
		start := p.i
		if !p.eat("half") {
			return nil, false
		}
		p.skip("of", "them", "the", "sts")
		ndl, part, ok := p.needle()
		if !ok {
			return nil, false
		}
		out = append(out, script.Claim{What: script.EachNdl, Needle: ndl, Part: part, At: p.since(start)})
		p.skip("and", ",")
		p.any("the")
		if p.any("other") && !p.is("half") {
			return nil, false
		}
	}
	return out, true
}

// claim reads one count.
func (p *parser) claim() (c script.Claim, ok bool) {
	start := p.i
	fail := func() (script.Claim, bool) {
		p.i = start
		p.both = nil
		return script.Claim{}, false
	}
	bare := p.i > 0 && p.toks[p.i-1].w == "="
	for n := 0; n < 8 && leads.has(p.peek()) && !p.gapFirst() && !p.done(); n++ {
		if p.towards() {
			p.any(":", ",")
			continue
		}
		if p.peek().w == "total" {
			c.What = script.Total
		}
		p.i++
		if telling.has(&p.toks[p.i-1]) {
			bare = true
			p.skip("at", "to") // "stand at 60", "down to 10"
		}
		if w := p.toks[p.i-1].w; w == "all" && p.i > start+1 && p.toks[p.i-2].w == "in" {
			c.What = script.Total
		}
		if c.What == script.Total {
			p.any(":", "=")
		}
	}
	p.both = nil
	lead := 0
	if p.eachHas() {
		c.What = script.EachNdl
	} else if n, part, ok := p.needle(); ok {
		lead = n
		c.Part = part
		c.What = script.OnNdl
		if n == 0 {
			c.What = script.OfPart
		}
		if p.any("and", "&") {
			if m, _, ok := p.needle(); ok && n > 0 {
				p.both = []int{n, m}
			} else {
				return fail()
			}
		}
		p.phrase("is down to", "is back to", "is back at", "goes down to", "is dec'd to", "is reduced to", "comes to")
		p.skip(":", "-", "now", "has", "holds", "held", "holding", "with", ",", "=", "each", "(", "instep", ")", "sole", "of", "are", "there", "is")
	} else if part := p.partWord(); part != 0 { // "heel: 32 sts", "instep 28 sts"
		p.skip("ndl", "flap", "turn", "sts", "still", "again", "now")
		if !p.any(":", "-", "=", "leaves", "has", "is", "at") && p.peek().kind != numToken {
			return fail()
		}
		c.Part, c.What = part, script.OfPart
	}
	p.skip("about", "approx", "the", "first", "last")
	n, ok := p.number()
	if !ok {
		return fail()
	}
	c.N, c.At = n, n.At
	c.Needle = lead
	told := lead > 0 || c.What == script.EachNdl
	if p.is("rem") || p.is("live") {
		p.i++
		told = told || p.claimEnds()
	}
	p.skip("rem", "live", "more", "picked-up")
	told = p.areOf() || told
	switch w := p.peek().w; w {
	case "heel", "instep", "sole", "gusset", "foot", "toe", "leg", "flap":
		part := p.partWord()
		if part != script.Foot && part != script.Toe && part != script.Leg {
			c.Part = part
			if c.What == script.Live {
				c.What = script.OfPart
			}
		}
		told = told || p.is("sts")
	case "centre", "middle":
		p.i++
		c.Part, c.What = script.Middle, script.OfPart
	case "side":
		p.i++
		c.Part, c.What = script.Flank, script.OfPart
	case "unwrapped", "unworked", "plain", "single", "ordinary", "untouched", "normal", "simple":
		if p.ahead(1).w == "sts" || p.ahead(1).w == "one" || p.ahead(1).w == "between" || p.ahead(1).w == "in" && p.ahead(2).w != "all" || w[0] == 'u' {
			p.i++
			p.any("one")
			c.What, told = script.WrapNone, true
		}
	default:
		if word := p.peek().w; p.pair() {
			c.What = script.WrapEach
			told = word != "wrapped" || p.toks[p.i-1].w == "sts" || told
			p.phrase("are made", "are worked")
		}
	}
	switch {
	case p.any("sts"):
		told = true
		if part := p.partWord(); part == script.Instep || part == script.Sole { // "first 28 sts instep"
			c.What, c.Part = script.OfPart, part
		}
		if p.is("rep") || p.is("-") && p.ahead(1).glued { // "8-st repeat"
			return fail()
		}
	case p.any("row", "rnd"):
		c.What, told = script.RowCount, true
		if p.any("of") {
			p.any("the")
			if !p.any("patt") {
				p.chartName()
			}
		}
		p.skip("in", "all", "total", "worked", "altogether", "are", "has", "been", "now", "done", "complete")
		return c, true
	case p.phrase("flap row", "heel row"):
		c.What = script.RowCount
		return c, true
	case p.any("ridges"), p.phrase("garter ridges"):
		c.What = script.Edges
		p.tail(&c)
		return c, true
	case p.phrase("slipped sts", "chain sts", "chain", "edge sts", "slipped edge sts", "edge chain"):
		c.What = script.Edges
		p.tail(&c)
		return c, true
	case p.any("ribs", "rib"):
		c.What = script.Ribs
		for !p.stop() {
			p.i++
		}
		return c, true
	case p.is("rep"), p.is("times"), p.is("-"), p.is("/"):
		if !told || p.is("times") {
			return fail()
		}
	}
	tail := p.tail(&c) || bare && p.claimEnds()
	if p.is("mm") || p.is("cm") || p.is("\"") || p.is("g") || p.is("%") {
		return fail()
	}
	if !told && !tail && c.What != script.Total && c.Part == 0 {
		return fail()
	}
	if !told && !tail && c.Part != 0 && !p.clauseEnd() && !p.is("and") { // "30 instep and 30 sole"
		return fail()
	}
	return c, true
}

// eachHas takes "each needle has", "each holds" before a count.
func (p *parser) eachHas() bool {
	back := p.i
	if p.any("each", "every") {
		p.any("ndl", "one")
		if p.any("has", "holds", "holding", "having", "with") {
			return true
		}
	}
	return p.restore(back)
}

// claimEnds tells whether a count ends here: nothing that it is of, and no measure, follows.
func (p *parser) claimEnds() bool { return p.clauseEnd() || p.is("and") || p.is("-") || p.is("(") }

// areOf takes what stands between a figure and the part that it is of: "29 of them are the
// instep", "29 for the sole".
func (p *parser) areOf() bool {
	back := p.i
	if p.phrase("of them", "of these", "of those") && p.is("on") {
		return false
	}
	p.any("are", "is", "form", "make", "being")
	p.skip("for", "the")
	if p.i > back && (p.is("instep") || p.is("sole") || p.is("heel")) {
		return true
	}
	return p.restore(back)
}

// tail reads what stands behind a count. It returns true if that says that it is one.
func (p *parser) tail(c *script.Claim) bool {
	told := false
	for {
		back := p.i
		if n, _, ok := p.needle(); ok && n > 0 && p.toks[back].w == "on" { // "on ndl 2", not "on the needles"
			c.What, c.Needle, told = script.OnNdl, n, true
			continue
		}
		p.i = back
		switch {
		case c.What == script.Live && p.phrase("between them", "between these"): // "the 28 sts between them go on a holder"
		case c.What != script.EachNdl && p.onSoMany():
		case c.What == script.Live && p.phrase("in the rnd", "in your rnd", "to the rnd") && p.clauseEnd():
			c.What, told = script.Total, true
		case p.any("rem", "now", "live", "altogether", "again"), p.phrase("in all", "in work", "at work", "in total", "total", "all told", "are rem", "are live", "on ndl", "on the ndl now", "on the ndl", "on your ndl", "on the sts"):
			if p.toks[p.i-1].w == "all" || p.toks[p.i-1].w == "total" || p.toks[p.i-1].w == "altogether" {
				c.What = script.Total
			}
			if p.toks[p.i-1].w == "rem" && (p.is("for") || p.is("on")) {
				continue
			}
			told = true
		case p.phrase("will be rem", "will rem", "will be on the ndl", "should rem"):
			told = true
		case c.What == script.WrapNone && p.phrase("in between", "between them", "in the centre", "rem between"):
			told = true
		case c.What == script.Live && p.phrase("are rem plain", "rem plain", "are plain", "stay plain"):
			c.What, told = script.WrapNone, true
			p.phrase("in the centre", "in between", "between them")
		case p.phrase("without wraps", "without a wrap", "with no wraps", "with no wrap", "that are not wrapped"):
			c.What, told = script.WrapNone, true
		case c.What == script.Live && p.whenTurned():
			told, p.turnedHeel = true, true
		case (c.What == script.Live || c.What == script.Edges) && p.phrase("along each side", "along each edge", "down each side", "down each edge", "up each side", "along both side", "along either side", "run up each edge", "run up each side", "run along each edge", "run along each side", "lie along each edge", "lie along each side", "lie on each edge", "run down each edge", "run down each side"):
			c.What, told = script.Edges, true
			p.phrase("of the heel", "of the flap", "of heel", "of flap")
		case p.phrase("are for the front", "are for the instep", "are for instep", "are the instep", "are the front", "form the instep", "form the front"):
			c.What, c.Part, told = script.OfPart, script.Instep, true
		case c.What == script.Live && p.phrase("are for the heel", "are for heel", "are the heel", "form the heel"):
			c.What, c.Part, told = script.OfPart, script.Heel, true
		case p.phrase("dec'd", "dec", "were dec'd", "fewer", "less", "has been dec'd", "are dec'd"):
			if p.clauseEnd() || p.is("in") || p.is("each") {
				c.What = script.Change
				n := c.N
				c.N.Val = nil
				for _, v := range n.Val {
					if v != pattern.Gap {
						v = -v
					}
					c.N.Val = append(c.N.Val, v)
				}
				p.phrase("in all", "in total", "each times")
				told = true
				continue
			}
			p.i = back
			return told
		case p.phrase("inc'd", "inc", "more", "are inc'd"):
			c.What = script.Change
			told = true
		case p.phrase("are unwrapped", "unwrapped", "are not wrapped", "unworked"):
			c.What, told = script.WrapNone, true
		case p.phrase("are wrapped", "wrapped sts", "wrapped", "are worked as ds"):
			c.What, told = script.WrapEach, true
		case p.phrase("on a holder", "on holder", "go on a holder", "are put on a holder", "are rem on a holder", "on a thread", "on a spare ndl", "are put on held", "are held", "held", "rest", "are rest", "on held", "are on held", "are at rest", "wait", "waiting", "are waiting", "will rest", "stay on held", "to rest", "to wait"):
			c.What, c.Part, told = script.OfPart, script.Instep, true
			if p.atBothEnds() { // "9 sts wait at either end"
				c.Part = script.Flank
				continue
			}
			p.skip("for", "the", "instep", "on", "a", "holder", "sts", "thread", "yarn", "spare", "ndl", "waste", "while", "heel", "is", "worked")
		case p.is("on") || p.is("for") || p.is("at") || p.is("in") || p.is("to") || p.is("between") || p.is("beyond") || p.is("of") || p.is("each") || p.is("upon"):
			if !p.lies(c) {
				p.i = back
				return told
			}
			told = told || c.What != script.Live
		case p.any("above", "below"):
			if c.What == script.Live {
				c.What, c.Part = script.OfPart, script.Instep
				if p.toks[p.i-1].w == "below" {
					c.Part = script.Sole
				}
			}
			told = true
		case p.is("(") && c.What == script.OnNdl:
			p.i++
			if p.partWord() == 0 || !p.any("sts") && !p.is(")") || !p.eat(")") {
				p.i = back
				return told
			}
			told = true
		default:
			return told
		}
	}
}

// whenTurned reads that a count is of a heel that has been turned: "when the heel is turned",
// "after the heel turn", "once you have turned the heel".
func (p *parser) whenTurned() bool {
	back := p.i
	if !p.any("when", "once", "after", "with", "at") {
		return false
	}
	heel, turned := false, false
	for !p.clauseEnd() && !p.is("and") {
		switch w := p.peek().w; w {
		case "heel":
			heel = true
		case "turn", "turned", "turning":
			turned = true
		case "the", "you", "your", "is", "are", "has", "been", "end", "of", "all", "done", "complete", "finished":
		default:
			return p.restore(back)
		}
		p.i++
	}
	if heel && turned {
		return true
	}
	return p.restore(back)
}

// lies reads where stitches lie: "on N1", "for heel", "at each side", "in the middle".
func (p *parser) lies(c *script.Claim) bool {
	if p.is("to") && p.needleAhead(1) {
		p.i++
	}
	if n, part, ok := p.needle(); ok {
		if n > 0 {
			c.What, c.Needle = script.OnNdl, n
		} else {
			c.What, c.Part = script.OfPart, part
		}
		return true
	}
	word := p.peek().w
	p.i++
	if p.is("the") && p.ahead(1).kind == ordToken && word != "of" { // "thirty-two on the second"
		back := p.i
		if p.i += 2; p.clauseEnd() || p.is("and") {
			c.What, c.Needle = script.OnNdl, int(p.toks[p.i-1].val)
			return true
		}
		p.i = back
	}
	if word == "between" {
		back := p.i
		if a := p.namedMarker(); a != "" && p.any("and") {
			if b := p.namedMarker(); b != "" {
				c.What, c.Name = script.Between, a+"/"+b
				p.last = *c
				return true
			}
		}
		p.i = back
		if c.What == script.WrapNone && p.clauseEnd() { // "12 plain between"
			return true
		}
		p.skip("the", "two", "last")
		if (c.What == script.Live || c.What == script.WrapNone) && p.phrase("wrapped sts", "wraps", "wrap", "twin sts", "twin", "double sts", "ds sts", "ds", "short row", "turn", "turned sts") {
			c.What = script.WrapNone
			return true
		}
		p.i = back
	}
	if word == "each" {
		if c.What == script.OnNdl || c.What == script.WrapEach || c.What == script.Edges {
			return true
		}
		if p.any("side", "end") {
			return p.flank(c)
		}
		if p.any("ndl") {
			c.What = script.EachNdl
		}
		return p.clauseEnd()
	}
	p.skip("the", "your")
	p.phrase("cap of the", "cap of", "top of the")
	switch {
	case p.any("each", "every", "both", "either"):
		p.skip("of", "the")
		if t := p.peek(); t.kind == numToken {
			p.i++
			if c.N.Known() && p.is("ndl") {
				c.Needle = int(t.val)
			}
		}
		if p.any("ndl") {
			c.What = script.EachNdl
			return true
		}
		if p.any("side", "end", "edge") {
			return p.flank(c)
		}
		if (word == "on" || word == "to" || word == "upon") && p.clauseEnd() {
			if c.What = script.EachNdl; p.toks[p.i-1].w == "both" { // together
				c.What = script.Total
			}
			return true
		}
		return false
	case p.any("centre", "them") && (word == "in" || word == "at" || word == "between"):
		if c.What == script.Live {
			c.What, c.Part = script.OfPart, script.Middle
		}
		return true
	case word == "on" && p.phrase("heel ndl", "ndl"):
		return true
	}
	if part := p.partWord(); part != 0 && (word == "for" || word == "on" || word == "in" || word == "of") {
		p.any("sts", "ndl")
		if part == script.Foot || part == script.Leg || part == script.Toe {
			return true
		}
		if c.What != script.OnNdl {
			c.What = script.OfPart
		}
		c.Part = part
		return true
	}
	return false
}

// flank: the count is of one side.
func (p *parser) flank(c *script.Claim) bool {
	p.phrase("of them", "of the centre", "of the heel", "of these")
	switch c.What {
	case script.WrapEach, script.WrapNone, script.Edges, script.Change:
	default:
		c.What, c.Part = script.OfPart, script.Flank
	}
	return true
}

// state reads a sentence that only states counts.
func (p *parser) state() bool {
	start := p.i
	opens, strange, over := false, false, false
	p.turnedHeel = false
	// words before the first figure: "Leg worked to the heel:", "Foot is done:", "Tube of"
	for n := 0; n < 14; n++ {
		if p.towards() {
			opens = true
			continue
		}
		if p.is("is") && n > 0 && p.toks[p.i-1].w == "sts" { // says what a stitch is
			break
		}
		if c := p.claims(); len(c) > 0 {
			for {
				back := p.i
				p.skip(",", ";", "-", ":", "(")
				more := p.claims()
				if len(more) == 0 {
					p.i = back
					break
				}
				c = append(c, more...)
				p.any(")")
			}
			if !p.clauseEnd() && !p.is("(") && !p.is("-") && p.began && !opens {
				p.i = start
				return false
			}
			if first := &c[0]; !p.began && first.What == script.Live && p.ofHeel(start) {
				first.What, first.Part = script.OfPart, script.Heel
			}
			p.add(&script.State{Base: p.base(start), Claims: c, Is: !p.began || opens, Turned: p.turnedHeel})
			if strange && over { // so something unknown is worked over them
				p.doubt(start, false)
			}
			p.began = true
			return true
		}
		if _, _, ok := p.needle(); ok && !p.began { // "Ndl 1 holds the instep"
			continue
		}
		t := p.peek()
		if t.kind == lineToken || t.w == "." || t.w == "*" || t.w == "[" || t.w == "multiple" || t.w == "gauge" || t.kind == numToken && p.ahead(1).w == "-" {
			break
		}
		if t.w == "k" || t.w == "p" || t.w == "pick" || t.w == "sl" || t.w == "work" && n > 0 || t.stitch != nil && !(t.w == "seam-st" && p.ahead(1).w == "is") {
			break
		}
		if t.w == "as" && n > 0 && strings.HasPrefix(p.toks[p.i-1].w, "count") { // "the pair counts as 1 st"
			break
		}
		if t.w == "turn" || t.w == "turned" {
			p.turnedHeel = true
		}
		switch t.w {
		case "worked", "done", "complete", "turned", "of", "on", "finished":
			opens = opens || t.w != "on"
		}
		p.i++
		over = over || t.w == "over" || t.w == "across"
		strange = strange || !p.began && t.kind == wordToken && !p.knows(t)
		if p.began && !benign.has(t) && t.kind == wordToken {
			break
		}
	}
	p.i = start
	return false
}

// ofHeel tells whether a statement is of the heel: its first word names it.
func (p *parser) ofHeel(start int) bool {
	for start < len(p.toks) && p.toks[start].w == "the" {
		start++
	}
	return start < len(p.toks) && partNamed(p.toks[start].w) == script.Heel
}

// towards reads up to where the work has come: "as far as the heel", "down to the toe". A count
// behind it is not of that part.
func (p *parser) towards() bool {
	back := p.i
	if !p.phrase("as far as", "down to", "up to", "ready for", "right to") && !p.any("to", "until", "before", "reaching") {
		return false
	}
	p.skip("the", "beg", "of")
	if p.partWord() != script.NoPart || p.any("ankle", "calf") {
		p.any("flap")
		return true
	}
	return p.restore(back)
}

// benign words may stand before a count that is stated once the work has begun.
var benign = newList("leave let keep heel turn turned flap leg foot toe gusset cuff worked done is are complete finished to the now you your sts there will be should have has on ndl tube of with at end and leaves leaving over calf ankle total count again continue takes comes each section this round row rnd all in so that completes when once after with has been side sts used up put others seam seam-st these those")

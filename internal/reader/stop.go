package reader

import (
	"slices"

	"sockwright/internal/pattern"
	"sockwright/internal/script"
)

// stopping reads what ends a repeat or a stretch of plain work. bare tells that a plain
// number of times counts.
func (p *parser) stopping(bare bool) (script.Stop, bool) {
	start := p.i
	s, ok := p.stopping1(bare)
	if !ok {
		p.i = start
		return s, false
	}
	s.At = p.since(start)
	for p.ending(&s) {
	}
	return s, true
}

// ending reads which row is the last one: "…, ending with a WS row", "; the last row is a RS
// row", ", so that the last row worked is a purl row".
func (p *parser) ending(s *script.Stop) bool {
	back := p.i
	p.skip(",", ";", "and", "-")
	if !p.phrase("ending with", "ending after", "ending on", "finishing with", "finishing after", "finishing on", "ends with", "ending at", "end with", "end on", "ending", "end after") && !p.lastRowIs() {
		return p.restore(back)
	}
	return p.endRow(s) || p.restore(back)
}

// endRow reads the row that a stretch ends with: "a WS row", "Rnd 4", "a purl row".
func (p *parser) endRow(s *script.Stop) bool {
	back := p.i
	p.skip("a", "an", "the", "one")
	switch {
	case p.any("ws"), p.phrase("wrong side"), p.is("p"):
		s.Side = script.WS
		p.skip("p")
	case p.any("rs"), p.phrase("right side"), p.is("k"):
		s.Side = script.RS
		p.skip("k")
	case p.is("plain", "row"): // purl rows lie between them
		p.i++
		s.Side = script.RS
	case p.is("row") || p.is("rnd"):
		if p.ahead(1).kind == numToken {
			s.Row = int(p.ahead(1).val)
			p.i += 2
			p.orRows(s)
			return true
		}
	case p.peek().kind == ordToken:
		s.Row = int(p.peek().val)
		p.i++
		p.orRows(s)
	default:
		return p.restore(back)
	}
	p.skip("row", "rnd", "one", "facing")
	return true
}

// lastRowIs reads "the last row is", "so that the last row worked will be", "the last of them
// being".
func (p *parser) lastRowIs() bool {
	back := p.i
	p.phrase("so that", "so", "such that", "with")
	p.any("the", "your")
	if !p.any("last", "final") {
		return p.restore(back)
	}
	p.any("row", "rnd", "one")
	p.phrase("of them", "of these", "of all")
	p.any("worked")
	if p.phrase("will be", "should be", "must be", "has to be") || p.any("is", "being", "was") || p.is("a") {
		return true
	}
	return p.restore(back)
}

// orRows reads other rows that a stretch may end with: "Rnd 2 or Rnd 5 of Chart A", "a 2nd,
// 4th or 6th rnd". Then it is not known which.
func (p *parser) orRows(s *script.Stop) {
	for {
		back := p.i
		p.skip(",", "or", "row", "rnd")
		if t := p.peek(); p.i == back || t.kind != ordToken && t.kind != numToken {
			p.i = back
			break
		}
		p.i++
		s.Row = 0
	}
	p.skip("row", "rnd")
	if back := p.i; p.any("of") {
		p.skip("the")
		if p.any("patt") {
			return
		}
		if _, ok := p.chartName(); !ok {
			p.i = back
		}
	}
}

func (p *parser) stopping1(bare bool) (s script.Stop, ok bool) {
	switch {
	case p.any("once"):
		s.Kind, s.N = script.Times, pattern.Of(1)
		if p.eat("more") {
			s.Kind = script.More
		}
		return s, true
	case p.any("twice"):
		s.Kind, s.N = script.Times, pattern.Of(2)
		if p.eat("more") {
			s.Kind = script.More
		} else if p.phrase("in all", "in total") {
			s.Kind = script.InAll
		}
		return s, true
	case p.any("until"), p.any("to"), p.phrase("up to", "down to"):
		return p.until()
	case p.any("stopping"), p.phrase("and stop", ", stop", "stop"):
		return p.stoppingWhen()
	case p.phrase("as long as", "while"):
		s.Kind = script.UsedUp
		return s, p.stillWait()
	}
	p.any("a")
	length := p.any("for") || p.is("x") && p.ahead(1).kind == numToken && (p.ahead(2).w == "row" || p.ahead(2).w == "rnd") && p.any("x") // "rib x 15 rnds"
	more := p.any("another")
	from := p.i
	p.skip("a", "another", "total", "of", "about")
	total := p.toksHave(from, "total")
	more = p.any("more") || more
	back := p.i
	if l, ok := p.length(); ok {
		if !length && !more && !bare {
			return s, false
		}
		for p.any("more", "long", "only", "altogether") || p.phrase("in all", "in total", "total") {
		}
		return script.Stop{Kind: script.Measures, Length: l}, true
	}
	p.i = back
	n, ok := p.number()
	if !ok {
		return s, false
	}
	more = p.any("more") || more
	if w := p.ahead(1).w; (w == "rnd" || w == "row") && (p.is("plain") || p.is("k") || p.is("flap") || p.is("heel")) { // "one plain round"
		p.i++
	}
	switch {
	case p.any("times"):
		s.Kind, s.N = script.Times, n
		if p.any("more") || more {
			s.Kind = script.More
		}
		if p.phrase("in all", "in total", "altogether", "total", "all told") || total {
			s.Kind = script.InAll
		}
		return s, true
	case p.any("rnd", "row"):
		s.Kind, s.N = script.Rows, n
		if more || p.any("more") {
			s.Kind = script.MoreRows
		}
		if p.phrase("in all", "in total", "altogether") {
			s.Kind = script.Rows
		}
		return s, true
	}
	return s, false
}

// stoppingWhen reads, behind "stopping" or "and stop", "when there are 10 wrapped sts at each side",
// "after a Row 3, when 10 sts are left between", "after a purl row, when none are left".
func (p *parser) stoppingWhen() (script.Stop, bool) {
	var last script.Stop
	if p.any("after", "with", "at") && !p.endRow(&last) {
		return last, false
	}
	p.phrase("without turning", "and not turning")
	p.any(",")
	if !p.any("when", "once") && !p.phrase("as soon as") {
		return last, false
	}
	s, ok := p.until()
	s.Row, s.Side = last.Row, last.Side
	return s, ok
}

// betweenWraps reads how many are wrapped behind how many lie between them: "10 plain sts lie between 10
// double sts on each side".
func (p *parser) betweenWraps() (c script.Claim, ok bool) {
	p.any("lie", "are", "is", "rem")
	if !p.any("between") {
		return c, false
	}
	n, ok := p.number()
	if !ok || !p.pair() || !p.any("on", "at") || !p.any("each", "either", "both") || !p.any("side", "end") {
		return c, false
	}
	return script.Claim{What: script.WrapEach, N: n, At: n.At}, true
}

// until reads what is to hold at the end: "60 sts rem", "piece measures 7 in", "all sts are
// worked", "there are 8 wrapped sts at each side".
func (p *parser) until() (s script.Stop, ok bool) {
	from := p.i
	p.skip("there", "are", "only", "you", "has", "just")
	back := p.i
	if l, ok := try(p, p.measured); ok {
		return script.Stop{Kind: script.Measures, Length: l}, true
	}
	if p.usedUp() {
		s.Kind = script.UsedUp
		if p.phrase("and only", "and") { // "and only the ten remain"
			p.skip("the")
			if c, ok := p.claim(); ok {
				s.Claims = append(s.Claims, c)
			} else if n, ok := p.number(); ok && p.any("rem") {
				s.Claims = append(s.Claims, script.Claim{N: n, At: n.At})
			}
		}
		return s, true
	}
	p.i = back
	if p.listed() {
		s.Kind = script.Split
		s.Claims = p.claims()
		return s, true
	}
	if c, ok := try(p, p.rowDone); ok { // "you have worked “yo, p10, turn”"
		return script.Stop{Kind: script.Split, Claims: []script.Claim{c}}, true
	}
	if l, ok := try(p, p.shortOf); ok {
		return script.Stop{Kind: script.Measures, Length: l}, true
	}
	if n, ok := try(p, p.eachDone); ok {
		return script.Stop{Kind: script.InAll, N: n}, true
	}
	if n, ok := try(p, p.timesDone); ok { // "you have narrowed fourteen times"
		return script.Stop{Kind: script.InAll, N: n}, true
	}
	if p.eat("flap", "has") || p.eat("the", "flap", "has") || p.phrase("heel has", "the heel has", "flap is", "the heel flap has") {
		if n, ok := p.number(); ok && p.any("row") {
			return script.Stop{Kind: script.Rows, N: n}, true
		}
		p.i = back
	}
	if n, ok := p.number(); ok { // rows
		if p.any("row", "rnd") {
			p.skip("are", "has", "been", "worked", "done", "complete", "completed", "in", "all", "total")
			return script.Stop{Kind: script.Rows, N: n}, true
		}
		p.i = back
	}
	p.subject()
	claims := p.claims()
	if len(claims) == 0 {
		p.i = back
		if n, ok := p.number(); ok && (p.any("rem") || (back > from || from > 1 && p.toks[from-2].w == "down") && p.clauseEnd()) { // "until there are 66"
			return script.Stop{Kind: script.Remain, N: n}, true
		}
		return s, false
	}
	s.Claims = claims
	for i := range claims {
		if i > 0 && claims[0].What == script.WrapEach && claims[i].What == script.OfPart && claims[i].Part == script.Middle {
			claims[i].What = script.WrapNone
		}
	}
	switch c := claims[0]; {
	case c.What == script.Edges:
		s.Kind, s.N, s.Claims = script.Ridges, c.N, nil
	case c.What == script.WrapEach:
		s.Kind, s.N = script.Wrapped, c.N
	case c.What == script.WrapNone:
		s.Kind, s.N = script.Unwrapped, c.N
		if each, ok := try(p, p.betweenWraps); ok {
			s.Claims = append(s.Claims, each)
		} else if p.wrappedAlike() {
			s.Claims = append(s.Claims, script.Claim{What: script.WrapEach, At: p.toks[p.i-1].at})
		}
	case c.What == script.Live || c.What == script.Total:
		s.Kind, s.N = script.Remain, c.N
	default:
		s.Kind = script.Split
	}
	return s, true
}

// subject passes over what is said to come to a count: "the sock is down to 10", "the round has
// 56 sts".
func (p *parser) subject() {
	back := p.i
	p.skip("the", "your", "whole")
	if !p.any("sock", "toe", "foot", "leg", "heel", "flap", "count", "rnd", "work", "tube", "number") || !p.is("stand") && !p.any("is", "has", "holds", "comes", "gets", "counts") {
		p.i = back
	}
}

// listed reads that a list follows of what is to remain: "the following stitches remain:",
// "these sts are left:", "the needles hold:", "there are:".
func (p *parser) listed() bool {
	back := p.i
	p.skip("the", "these", "those", "foll", "numbers", "counts", "of", "sts", "as", "many", "rem", "is", "are", "on", "ndl", "your", "each", "held", "holds", "has")
	if p.eat(":") || p.i > back+2 && p.done() {
		return true
	}
	return p.restore(back)
}

// rowDone reads a short row that is told in quotation marks as the last one: its stitches are
// those of the middle then.
func (p *parser) rowDone() (c script.Claim, ok bool) {
	p.skip("you", "has", "been", "the")
	if w := p.ahead(1).w; (w == "a" || w == "one") && p.any("k", "p", "worked", "made") { // "you have purled a row of only 10 sts"
		if p.i++; !p.any("row") || !p.any("of", "with", "over") {
			return c, false
		}
		p.skip("only", "just", "but")
		n, ok := p.number()
		p.any("sts")
		return script.Claim{What: script.OfPart, Part: script.Middle, N: n, At: n.At}, ok
	}
	if !p.any("worked", "row") {
		return c, false
	}
	p.skip("the", "row")
	if !p.any("\"", "“", "‘", "'") {
		return c, false
	}
	steps, ok := p.steps()
	if !ok || !turns(steps) {
		return c, false
	}
	p.any("\"", "’", "'")
	for _, s := range steps {
		if (s.Op == script.Knit || s.Op == script.Purl || s.Op == script.Work) && s.N.Known() {
			return script.Claim{What: script.OfPart, Part: script.Middle, N: s.N, At: s.N.At}, true
		}
	}
	return c, false
}

// shortOf reads a length that is told from its end: "2 in less than the wanted length", "4 cm short of
// the full length", "5 cm before the tip of the big toe".
func (p *parser) shortOf() (*script.Length, bool) {
	p.skip("about", "approx")
	l, ok := p.length()
	if !ok || !p.any("short", "less", "shorter", "before", "from", "under") {
		return nil, false
	}
	p.passClause()
	l.Short = true
	return l, true
}

// eachDone reads how often each of several rows has been worked: "10 of each have been worked in
// all", "8 of both are done", "nine narrowing rounds have been worked".
func (p *parser) eachDone() (pattern.Number, bool) {
	n, ok := p.number()
	shaping := p.any("narrowing", "dec", "inc", "such", "shaping")
	rows := p.any("row", "rnd")
	switch {
	case !ok:
		return n, false
	case shaping && rows:
	case !p.any("of") || !p.any("each", "both", "them"):
		return n, false
	default:
		p.any("kind", "sort")
	}
	p.skip("are", "has", "been")
	done := p.any("worked", "done", "k", "made", "complete")
	p.phrase("in all", "in total", "altogether")
	return n, p.clauseEnd() || done && p.is("and")
}

// timesDone reads "narrowed fourteen times", "this has been done 8 times in all".
func (p *parser) timesDone() (pattern.Number, bool) {
	p.skip("this", "it", "that", "you", "has", "been")
	if !p.any("narrow", "narrowed", "dec'd", "inc'd", "worked", "done", "widened", "rep") {
		return pattern.Number{}, false
	}
	p.skip("so", "this", "it", "thus", "them")
	n, ok := p.number()
	ok = ok && p.any("times")
	p.phrase("in all", "in total", "altogether")
	return n, ok
}

// usedUp reads "all side sts are used", "no sts are left beyond the gaps", "every heel st
// has been worked", "the side stitches are used up", "no side sts are left".
func (p *parser) usedUp() bool {
	back := p.i
	if p.outermost() {
		return true
	}
	if p.phrase("everything's in", "everything is in", "all are in", "they are all in", "all is in", "they're all in", "all sts are in", "all the sts are in") {
		return true
	}
	used, all := false, false
	none := p.is("no") || p.is("none") || p.is("nothing")
	for !p.stop() && !p.is(",") && !p.is(";") && !p.is(":") && !p.is("and") && !p.is("-") && !p.is("(") && !p.is("=") {
		switch t := p.peek(); t.w {
		case "all", "every", "no", "none", "each", "the", "everything", "everything's", "nothing":
			all = all || t.w != "the" || p.is("the", "side") || p.is("the", "end") || p.ahead(1).kind == numToken
		case "used", "worked", "beyond", "up", "done", "incorporated", "consumed", "dec'd", "taken", "off", "wait", "gone", "finished", "exhausted", "turn", "play", "over", "picked":
			used = used || t.w != "up" && t.w != "off"
		case "in":
			used = used || slices.Contains([]string{",", ";", ".", ""}, p.ahead(1).w)
		case "side", "end", "gap", "waiting":
			used = used || none
		case "k", "sts", "gusset", "either", "heel", "has", "been", "are", "is", "rem", "both", "flap", "on", "of", "at", "to", "more", "outer", "had", "its", "their", "sole", "waiting-sts", "wrap", "wraps", "wrapped":
		default:
			if t.kind == numToken {
				if n, ok := p.number(); ok && n.Known() && all && (p.is("sts") || p.is("heel", "sts") || p.is("side", "sts") || p.is("gusset", "sts") || p.is("on") || p.is("at")) { // "all 30 heel sts"
					continue
				}
				p.i = back
				return false
			}
			if t.w != "these" && t.w != "those" && t.w != "side-sts" && t.w != "unworked" {
				p.i = back
				return false
			}
		}
		p.i++
	}
	if used && all {
		return true
	}
	p.i = back
	return false
}

// outermost reads that the stitches at both ends have been worked or wrapped, too: "the first and
// the last sole st have been twinned too", "the very last stitch at each end has been used".
func (p *parser) outermost() bool {
	back := p.i
	last, done := false, false
	for !p.clauseEnd() {
		t := p.peek()
		switch t.w {
		case "last", "outermost", "outer", "end":
			last = true
		case "worked", "used", "done", "k", "included", "reached":
			done = true
		case "the", "very", "first", "and", "sts", "one", "sole", "heel", "at", "each", "either", "both", "side", "of", "has", "been", "is", "are", "only", "rem", "too", "also", "as", "well", "up":
		default:
			if !pairWords[t.w] || !done && !last {
				return p.restore(back)
			}
			done = true
		}
		p.i++
	}
	return last && done || p.restore(back)
}

// stillWait reads, behind "as long as", that stitches are left beyond the gaps: "there are sts
// beyond the gaps", "any side sts remain".
func (p *parser) stillWait() bool {
	back := p.i
	beyond, sts := false, false
	for !p.clauseEnd() {
		switch p.peek().w {
		case "beyond", "side", "end", "gap", "unworked", "wait", "waiting":
			beyond = true
		case "sts":
			sts = true
		case "there", "are", "still", "any", "the", "rem", "at", "on", "of", "either", "both", "each", "heel", "outer", "to", "be", "worked":
		default:
			return p.restore(back)
		}
		p.i++
	}
	if beyond && sts {
		return true
	}
	return p.restore(back)
}

// measured reads "piece measures 7 in [from …]", "the leg is eleven inches long".
func (p *parser) measured() (*script.Length, bool) {
	p.skip("the", "your", "whole", "entire")
	switch {
	case p.any("piece", "work", "sock", "cuff", "top", "welt", "edge", "leg", "foot", "rib", "heel", "flap", "toe", "it", "it's", "ribbed", "tube", "garter", "total"):
		p.any("flap", "section", "length", "rib", "band")
	case p.any("measures"):
		l, ok := p.length()
		return l, ok
	default:
		return nil, false
	}
	if p.toks[p.i-1].w != "it's" && !p.any("measures", "is", "has", "reaches", "are", "stops", "comes") && !p.eat("ends") {
		return nil, false
	}
	p.skip("about", "approx", "has", "come", "to")
	l, ok := p.length()
	if !ok {
		if p.phrase("desired", "the desired", "as long as", "long enough", "wanted") {
			for !p.clauseEnd() {
				p.i++
			}
			return &script.Length{Short: true}, true
		}
		return nil, false
	}
	for !p.clauseEnd() {
		if p.is("ending") || p.is("finishing") || p.is("end") && p.ahead(1).w == "with" || p.is("and") {
			break
		}
		switch p.peek().w {
		case "short", "less", "shorter", "before":
			l.Short = true
		}
		p.i++
	}
	return l, true
}

// wrappedAlike reads "with the same number of wrapped sts on either side", ", and as many wrapped
// at each side".
func (p *parser) wrappedAlike() bool {
	back := p.i
	p.any(",")
	if p.any("with", "and") && p.phrase("the same number of", "the same number", "an equal number of", "equal number of", "as many") &&
		p.phrase("wrapped sts", "wraps", "wrap", "wrapped", "turned sts", "twin sts", "twin", "ds") && p.any("on", "at") && p.any("either", "each", "both") && p.any("side", "end") {
		return true
	}
	return p.restore(back)
}

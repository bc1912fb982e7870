package reader

import (
	"slices"

	"sockwright/internal/pattern"
	"sockwright/internal/script"
)

// divide reads how the heel is set apart.
func (p *parser) divide() bool {
	start := p.i
	p.skip("then", "now")
	if p.halfEach(start) || p.workedAlone(start) || p.areTheHeel(start) || p.restForInstep(start) || p.remForHeel(start) || p.heelIs(start) || p.dividedInto(start) || p.heelTakes(start) || p.knitsHeel(start) {
		return true
	}
	heel := p.part == script.Heel
	if back := p.i; p.phrase("for the heel", "for heel") {
		heel = true
		p.skip(",")
		if !p.is("bring") && !p.is("take") && !p.is("sl") && !p.is("place") && !p.is("put") && !p.is("set") {
			p.i = back
		}
	}
	if p.any("take", "sl", "place", "put", "set", "transfer", "keep", "bring") {
		return p.putOnNeedle(start, heel)
	}
	return p.workedOver(start, heel)
}

// setApart adds a part that is worked to and fro from here on.
func (p *parser) setApart(start int, d script.Divide) bool {
	if d.These && !p.began && !d.N.Known() {
		d.N = p.knitBefore()
	}
	d.Base = p.base(start)
	p.add(&d)
	p.part, p.flat = script.Heel, true
	return true
}

// knitBefore is how many stitches the row just told works before it turns, absent if that is not told:
// "knit 30, turn; work on these sts only".
func (p *parser) knitBefore() (n pattern.Number) {
	for _, item := range slices.Backward(p.items) {
		if r, ok := item.(*script.Row); ok {
			if len(r.Steps) == 2 && r.Steps[0].Op == script.Knit && r.Steps[0].To == script.Here && turns(r.Steps) {
				return r.Steps[0].N
			}
			break
		}
	}
	return n
}

// putOnNeedle reads, behind "take" or "slip", "half the stitches, 36, on one needle", "first 30
// sts on to one needle for heel", "the last 24 sts on a holder and work on the first 24".
func (p *parser) putOnNeedle(start int, heel bool) bool {
	d := script.Divide{Part: script.Heel}
	p.skip("the", "aside")
	if p.any("half") {
		p.skip("of", "the")
		p.any("sts")
		p.skip(",", "(", "-")
		if n, ok := p.number(); ok {
			d.N = n
			p.any("sts")
			p.any(",", ")")
		}
	} else if !p.soMany(&d) {
		return false
	}
	p.phrase("of the rnd", "of rnd")
	on, hold := false, false
	for p.phrase("on to", "onto", "on", "upon", "to") {
		p.skip("one", "a", "the", "spare", "to")
		if _, _, ok := p.needle(); ok {
			on = true
		}
		on = p.any("ndl") || on
		hold = p.any("holder", "thread", "waste") || hold
		p.skip("holder", "yarn", "waste", "thread")
	}
	if hold { // the others are worked
		if !p.phrase("and work on", "and cont on", "and work back and forth on") {
			return false
		}
		d.From = script.Unsaid
		p.from(&d)
		n, ok := p.number()
		if !ok {
			return false
		}
		d.N = n
		p.skip("sts", "only")
		heel, on = true, true
	}
	if p.phrase("for the heel", "for heel") {
		heel, on = true, true
	}
	if p.toks[start].w == "for" && heel && p.clauseEnd() { // "For the heel take 32 sts"
		on = true
	}
	if p.phrase("for the instep", "for instep", "on held", "on holder") || !on || !heel {
		return false
	}
	d.Base = p.base(start)
	emit(p, d)
	p.part = script.Heel
	return true
}

// soMany reads "first 30 sts", "the last 30 of the 60 sts", "the last 15 sts and the first 15
// sts".
func (p *parser) soMany(d *script.Divide) bool {
	p.from(d)
	n, ok := p.number()
	if !ok {
		return false
	}
	d.N = n
	if p.partWord() == script.Instep {
		return false
	}
	if p.is("of") && p.ofAll() {
		p.i--
	}
	if !p.any("sts") {
		return false
	}
	if back := p.i; p.any("and") {
		var other script.Divide
		p.from(&other)
		if n, ok := p.number(); ok && p.any("sts") {
			d.Plus = n
		} else {
			p.i = back
		}
	}
	return true
}

// An apart is what workedOver has read.
type apart struct {
	script.Divide
	heel  bool // the heel is spoken of
	flat  bool // rows are spoken of
	found bool // it is said which stitches are worked
}

// workedOver reads a bag of words with "on the last 28 sts" among them: "Heel flap, worked back
// and forth over 30 of the 60 sts".
func (p *parser) workedOver(start int, heel bool) bool {
	if p.is("k") || p.is("p") || p.is("pick") {
		return false
	}
	a := apart{Divide: script.Divide{Part: script.Heel}, heel: heel}
	for !p.stop() && !p.is(":") && !p.is(";") && !(a.found && (p.is(",") || p.is("worked", "for"))) {
		back := p.i
		if p.any("on", "over", "across", "using") || p.i > start && p.is("of") && (p.toks[p.i-1].w == "flap" || p.toks[p.i-1].w == "heel") && p.eat("of") {
			took, ok := p.whichSts(&a)
			if !ok {
				return false
			}
			if took {
				continue
			}
			p.i = back
		}
		if p.inSections() {
			a.heel = true
			continue
		}
		if w := p.ahead(1).w; p.peek().kind == wordToken && (w == "heel" || w == "flap") { // "wrapped heel on …", "Dutch heel over …"
			p.i++
			continue
		}
		switch t := p.peek(); t.w {
		case "heel", "flap":
			a.heel = true
		case "back", "forth", "fro", "flat":
			a.flat = true
		case "turn":
			a.flat, a.Turn = true, true
		case "rs", "ws":
			if p.ahead(1).w == "facing" {
				a.Side = map[string]script.Side{"rs": script.RS, "ws": script.WS}[t.w]
			}
		case "st-st", "stockinette":
			a.Fabric = "stockinette"
		case "worked", "made", "work", "and", "to", "in", "row", "is", "the", "cup", "complete", ",", "-", "sts", "facing", "back-and-forth", "now", "be", "will", "only", "done", "beg", "over", "with", "for", "k", "p", "on", "purlwise", "right", "wrong", "side", "of", "both", "for-the":
		default:
			return false
		}
		p.i++
	}
	back := p.i
	p.skip(",", "and")
	if p.any("turn") {
		a.Turn, a.flat = true, true
		p.phrase("and work", "the work", "work")
		p.skip("as", "foll", "back", "and", "forth")
	} else {
		p.i = back
	}
	return a.found && (a.heel || a.flat) && p.setApart(start, a.Divide)
}

// whichSts reads, behind "on" or "over", which stitches are worked: "the sts of needle 2", "30 of
// the 60 sts", "these sts only". took is false if that is not told here, ok if what is told
// is no heel.
func (p *parser) whichSts(a *apart) (took, ok bool) {
	p.skip("just")
	p.from(&a.Divide)
	p.skip("only")
	if p.half(&a.Divide) {
		a.found = true
		return true, true
	}
	if n, part, ok := p.needle(); ok && (n > 0 || part == script.Sole || part == script.Heel) {
		a.From, a.Needle, a.found = script.OnNeedle, n, true
		return true, true
	}
	if n, ok := p.number(); ok {
		switch p.partWord() {
		case script.Heel:
			a.heel = true
		case script.NoPart:
			if p.is("of") && p.ofAll() {
				p.i--
			}
		default:
			return false, false
		}
		if !p.any("sts") && !p.phrase("of them", "of these", "of those") {
			return false, false
		}
		if !a.found {
			a.N = n
		}
		a.found = true
		if p.eat("of") {
			p.skip("the", "rnd")
			if n, part, ok := p.needle(); ok && (n > 0 || part == script.Sole || part == script.Heel) {
				a.From, a.Needle = script.OnNeedle, n
			}
		}
		p.phrase("of rnd", "of the rnd", "only", "just worked", "for heel", "for the heel")
		return true, true
	}
	if p.is("heel", "sts") || p.is("these", "sts") || p.is("sts") || p.is("those", "sts") {
		p.i++
		p.skip("sts", "only", "alone", "for", "the", "heel")
		if !a.N.Known() && !a.found {
			a.These, a.found = true, true
		}
		return true, true
	}
	return false, true
}

// heelIs reads "24 heel sts, the first half of the round", "30 sts for the heel (the second half of the
// rnd)".
func (p *parser) heelIs(start int) bool {
	d := script.Divide{Part: script.Heel}
	n, ok := p.number()
	if !ok {
		return p.restore(start)
	}
	heel := p.partWord() == script.Heel
	if !p.any("sts") || !heel && !p.phrase("for the heel", "for heel") || !p.any(",", "(", "-", "=", ":") {
		return p.restore(start)
	}
	if d.N = n; !p.half(&d) {
		return p.restore(start)
	}
	d.N = n
	p.any(")")
	return p.setApart(start, d)
}

// dividedInto reads "Divide: 31 sts for the heel and 33 sts for the instep", "Divide the sts into 30 for the
// heel and 30 for the instep".
func (p *parser) dividedInto(start int) bool {
	headed := start > 1 && p.toks[start-1].w == ":" && p.toks[start-2].w == "divide" // "Divide:" has been passed over
	if !headed && !p.any("divide") {
		return p.restore(start)
	}
	p.skip(":", ",", "-", "the", "work", "sts", "rnd", "into", "as", "foll", "thus")
	from := p.i
	var heel, instep pattern.Number
	for _, c := range p.claims() {
		switch {
		case c.What == script.OfPart && c.Part == script.Heel:
			heel = c.N
		case c.What == script.OfPart && c.Part == script.Instep:
			instep = c.N
		}
	}
	if !heel.Known() || !instep.Known() || !p.clauseEnd() {
		return p.restore(start)
	}
	all := sum(heel, instep)
	p.add(&script.State{Base: p.base(from), Claims: []script.Claim{{What: script.Total, N: all, At: all.At}}})
	return p.setApart(start, script.Divide{Part: script.Heel, N: heel})
}

// heelTakes reads "the heel takes the first 30 sts", "the heel flap uses the last 32 sts of the rnd".
func (p *parser) heelTakes(start int) bool {
	d := script.Divide{Part: script.Heel}
	p.any("the", "your")
	if p.partWord() != script.Heel || !p.any("takes", "uses", "occupies", "needs", "take") {
		return p.restore(start)
	}
	p.any("up")
	p.from(&d)
	n, ok := p.number()
	if !ok || !p.any("sts") {
		return p.restore(start)
	}
	p.phrase("of the rnd", "of rnd")
	d.N = n
	return p.clauseEnd() && p.setApart(start, d) || p.restore(start)
}

// knitsHeel reads "K30 for the heel, leave the other 30 for the instep": the round is left where the
// stitches of the heel have been knitted.
func (p *parser) knitsHeel(start int) bool {
	if !p.any("k", "work") {
		return p.restore(start)
	}
	d := script.Divide{Part: script.Heel, From: script.First}
	p.skip("the", "first", "next")
	n, ok := p.number()
	p.any("sts")
	p.phrase("on to one ndl", "onto one ndl", "with one ndl", "on one ndl", "on to a spare ndl")
	if !ok || !p.phrase("for the heel", "for heel") || !p.is(",") && !p.is(";") && !p.is("and") && !p.is(".") {
		return p.restore(start)
	}
	rest := false
	for i := p.i; i < len(p.toks) && !rest; i++ {
		switch p.toks[i].w {
		case "instep", "held", "holder", "rest", "wait", "waiting", "thread":
			rest = true
		}
	}
	if !rest {
		return p.restore(start)
	}
	d.N = n
	return p.setApart(start, d)
}

// half reads which half of the round is meant, and how many stitches that is: "the second half of the
// round only, 30 sts", "half the sts (30)".
func (p *parser) half(d *script.Divide) bool {
	back := p.i
	if p.any("the"); p.is("second", "half") || p.is("last", "half") {
		d.From = script.Last
	} else if p.is("first", "half") {
		d.From = script.First
	} else if !p.is("half") {
		return p.restore(back)
	}
	if !p.any("half") {
		p.i += 2
	}
	p.any("of")
	p.skip("the", "rnd", "sts", "only", "alone")
	end := p.i
	open := p.any(",", "(", ":", "-") && p.toks[p.i-1].w == "("
	p.skip("that", "is")
	n, ok := p.number()
	if !ok || !p.any("sts") && !open || open && !p.any(")") {
		p.i = end
		return true
	}
	d.N = n
	return true
}

// inSections reads that a heel is worked in so many parts: "in three sections", "divided into
// 3 parts".
func (p *parser) inSections() bool {
	back := p.i
	p.any("divided", "set", "worked", "made")
	p.phrase("out in", "up of", "in", "into", "as")
	if t := p.peek(); p.i > back && t.kind == numToken {
		if p.i++; p.any("section", "parts", "part", "portions") {
			return true
		}
	}
	return p.restore(back)
}

// ofAll reads "of the 60 sts" behind some of them, and states that there are so many in all.
func (p *parser) ofAll() bool {
	back := p.i
	p.skip("of", "the", "all")
	n, ok := p.number()
	if !ok || !p.any("sts") {
		return p.restore(back)
	}
	p.add(&script.State{Base: p.base(back), Claims: []script.Claim{{What: script.Total, N: n, At: n.At}}, Is: !p.began})
	p.began = true
	return true
}

// titleHeel reads on how many stitches the heel is worked that a title names: "SANDGLASS HEEL,
// worked over 30 of 60 sts".
func (p *parser) titleHeel() {
	if p.part != script.Heel {
		return
	}
	for i, t := range p.toks {
		if t.w != "over" && t.w != "on" && t.w != "across" {
			continue
		}
		if p.i = i + 1; !p.numbersOf() {
			continue
		}
		if p.i = i; !p.divide() {
			p.items = nil
		}
		return
	}
}

// numbersOf tells whether "30 of the 60 sts" follows.
func (p *parser) numbersOf() bool {
	if _, ok := p.number(); !ok || !p.any("of") {
		return false
	}
	p.skip("the", "all")
	_, ok := p.number()
	return ok && p.is("sts")
}

// areTheHeel reads "the last 28 sts of the rnd are the heel", "the first 31 sts are the
// instep and are put on hold".
func (p *parser) areTheHeel(start int) bool {
	d := script.Divide{Part: script.Heel}
	p.skip("the")
	if !p.is("first") && !p.is("last") && !p.is("next") {
		return p.restore(start)
	}
	if !p.someSts(&d) {
		return p.restore(start)
	}
	if !p.any("are", "form", "become", "make") {
		return p.restore(start)
	}
	p.skip("for", "the", "used")
	switch p.partWord() {
	case script.Heel:
	case script.Instep:
		d.Part = script.Instep
	default:
		return p.restore(start)
	}
	p.skip("sts")
	for !p.stop() && !p.is(";") {
		if p.is("st-st") || p.is("stockinette") || p.is("sts", "sts") {
			d.Fabric = "stockinette"
		}
		p.i++
	}
	return p.setApart(start, d)
}

// halfEach reads a heel that lies half at the end and half at the beginning of the round: "K 15, slip
// the last 15 sts of the round on to the other end of the same needle", "Put the first 14 and the last
// 14 sts of the rnd on one needle".
func (p *parser) halfEach(start int) bool {
	d := script.Divide{Part: script.Heel, From: script.First}
	var worked *script.Row
	if p.is("k") || p.is("p") {
		s, ok := p.single()
		if !ok || !s.N.Known() || s.To != script.Here {
			return p.restore(start)
		}
		s.At = p.since(start)
		worked = &script.Row{Base: p.base(start), Steps: []script.Step{s}}
		d.N = s.N
		p.skip(",", ";", "and", "then")
	}
	from := p.i
	if !p.any("sl", "put", "place", "take", "transfer", "set") {
		return p.restore(start)
	}
	ok := true
	if worked == nil {
		if d.N, ok = p.endSts("first"); !ok || !p.any("and", "with") {
			return p.restore(start)
		}
	}
	if d.Plus, ok = p.endSts("last"); !ok {
		return p.restore(start)
	}
	p.phrase("on to", "onto", "on", "upon", "to")
	p.skip("the", "other", "end", "of", "same", "one", "single", "a", "free", "spare")
	if !p.any("ndl") || worked == nil && !p.sentenceHas("heel") && p.part != script.Heel {
		return p.restore(start)
	}
	p.phrase("for the heel", "for heel")
	if worked != nil {
		p.emitRow(worked)
	}
	return p.setApart(from, d)
}

// endSts reads "the first 14", "the last 15 sts of the round".
func (p *parser) endSts(end string) (pattern.Number, bool) {
	p.any("the")
	if !p.any(end) {
		return pattern.Number{}, false
	}
	n, ok := p.number()
	p.any("sts")
	if p.any("of", "on") {
		p.skip("the", "rnd", "last", "ndl")
	}
	return n, ok
}

// workedAlone reads that only some stitches are worked from here on: "turn; only the last 28
// sts are worked from here", "From now on work the first 30 sts only".
func (p *parser) workedAlone(start int) bool {
	d := script.Divide{Part: script.Heel, Turn: p.any("turn")}
	if d.Turn && !p.any(";", ",", "and", ".", "-") {
		return p.restore(start)
	}
	p.any("and", "then")
	p.fromHere()
	p.any(",")
	only := p.any("only", "just")
	work := p.any("work")
	p.any("on")
	only = p.any("only", "just") || only
	if !p.someSts(&d) {
		return p.restore(start)
	}
	only = p.any("only", "alone") || only
	if !work {
		if !p.phrase("are worked", "are now worked", "will be worked", "are used", "are in work") {
			return p.restore(start)
		}
	}
	only = p.any("only", "alone") || only
	for p.fromHere() || p.phrase("to and fro", "back and forth", "flat", "in row", "for the heel", "for heel", "for the flap") {
	}
	if !only || !p.clauseEnd() || p.part != script.Heel && d.From == script.Unsaid {
		return p.restore(start)
	}
	return p.setApart(start, d)
}

// fromHere reads "from here on", "from now on".
func (p *parser) fromHere() bool {
	return p.phrase("from here on", "from here", "from now on", "from this point on", "from this point", "for now", "at first")
}

// forInstep are words for what stitches rest for.
var forInstep = []string{"for the instep", "for instep", "for the front", "for front", "for the top of the foot"}

// restForInstep reads "Slip these sts on to a holder for instep", "leave the first 33 sts on a
// thread for the instep", "For the instep put the first 32 of the 64 sts on a holder".
func (p *parser) restForInstep(start int) bool {
	d := script.Divide{Part: script.Instep}
	items, began := len(p.items), p.began
	fail := func() bool {
		p.items, p.began = p.items[:items], began
		return p.restore(start)
	}
	lead := p.phrase(forInstep...)
	p.any(",")
	if !p.any("sl", "place", "put", "leave", "transfer", "keep", "divide") {
		return fail()
	}
	d.These = p.is("these") || p.is("them") || p.is("those")
	p.from(&d)
	p.any("them")
	if n, ok := p.number(); ok {
		d.N, d.These = n, false
		if p.toks[p.i-2].w == "these" {
			d.From = script.Last
		}
	} else if !d.These {
		return fail()
	}
	if p.is("of") && p.ofAll() { // "the first 32 of the 64 sts"
		p.i--
	}
	p.any("sts")
	if back := p.i; p.any("between", "over", "on") && p.peek().kind == numToken && p.ahead(1).w == "ndl" { // "between two needles and leave for instep"
		p.i += 2
		p.skip(",", "and", "leave", "keep", "them", "these")
		if !p.phrase(forInstep...) && !lead {
			return fail()
		}
		return p.setApart(start, d)
	} else {
		p.i = back
	}
	if !p.phrase("on to", "onto", "on", "to") {
		return fail()
	}
	p.skip("a", "the", "another", "spare", "waste", "length", "of")
	if !p.any("holder", "thread", "yarn", "ndl", "sts") {
		return fail()
	}
	p.any("holder")
	if !p.phrase(forInstep...) && !lead {
		return fail()
	}
	return p.setApart(start, d)
}

// remForHeel reads "On to one needle work the rem 28 sts for heel".
func (p *parser) remForHeel(start int) bool {
	d := script.Divide{Part: script.Heel}
	p.phrase("on to one ndl", "onto one ndl", "on one ndl", "with one ndl", "upon one ndl")
	p.skip(",")
	if !p.any("work", "sl", "take", "keep", "use", "place") {
		return p.restore(start)
	}
	p.from(&d)
	n, ok := p.number()
	if !ok || !p.any("sts") || !p.phrase("for heel flap", "for the heel flap", "for heel", "for the heel") {
		return p.restore(start)
	}
	d.N = n
	p.skip("as", "foll", "in", "row", "back", "and", "forth", "thus")
	if !p.clauseEnd() {
		return p.restore(start)
	}
	return p.setApart(start, d)
}

// someSts reads "the last 28 sts of the rnd".
func (p *parser) someSts(d *script.Divide) (ok bool) {
	p.from(d)
	if d.N, ok = p.number(); !ok || !p.any("sts") {
		return false
	}
	p.phrase("of the rnd", "of rnd")
	return true
}

// from reads "the first", "the last", "the next".
func (p *parser) from(d *script.Divide) {
	for {
		switch {
		case p.any("the", "these", "those", "rem", "all", "foll", "a"):
		case p.any("first"):
			d.From = script.First
		case p.any("next"):
			d.From = script.First
		case p.any("last"):
			d.From = script.Last
		case p.any("centre"):
			d.From = script.Centre
		default:
			return
		}
	}
}

// resume reads "Resume in the round on 60 sts", "rejoin".
func (p *parser) resume() bool {
	start := p.i
	p.skip("now", "then")
	if !p.phrase("resume", "rejoin", "join again", "return to", "cont in the rnd", "work in the rnd again", "go back to", "beg work in the rnd", "beg to work in the rnd", "now work in the rnd") {
		return false
	}
	n := script.Resume{}
	for !p.clauseEnd() {
		if p.any("on", "over", "with") {
			p.skip("all", "the")
			if c, ok := p.claim(); ok {
				n.Claims = append(n.Claims, c)
				continue
			}
			continue
		}
		p.i++
	}
	n.Claims = append(n.Claims, p.claimsBehind()...)
	n.Base = p.base(start)
	p.flat = false
	emit(p, n)
	return true
}

package reader

import (
	"slices"

	"sockwright/internal/pattern"
	"sockwright/internal/script"
)

// fewer reads "Cont in this way with 1 st fewer before the k2tog in every odd rnd until 8 sts
// rem", "One stitch less between the decreases each time and 1 plain round after until 12 remain": as
// many decreases a round as before.
func (p *parser) fewer() bool {
	start := p.i
	if !p.goesOnSo() && p.peek().kind != numToken || len(p.rows) > 0 && turns(p.rows[len(p.rows)-1].Steps) {
		return false
	}
	found, every := false, 2
	for !p.stop() && !p.is("until") {
		if n, ok := p.every(); ok {
			every = n
			continue
		}
		found = found || p.is("fewer") || p.is("less")
		p.i++
	}
	if !found || !p.is("until") {
		return false
	}
	stop, ok := try(p, p.lastRepeatWorked)
	if !ok {
		if stop, ok = p.stopping(false); !ok || stop.Kind != script.Remain {
			return false
		}
	}
	p.add(&script.Shape{Base: p.base(start), Name: "fewer", Every: every, Stop: stop, Claims: p.claimsBehind()})
	return true
}

// lastRepeatWorked reads "until *k1, k2tog* has been worked = 16 sts": the repeat of the last round,
// and what it leaves.
func (p *parser) lastRepeatWorked() (stop script.Stop, ok bool) {
	start := p.i
	if !p.any("until") {
		return stop, false
	}
	p.skip("you", "has", "worked", "the")
	if _, ok := p.steps(); !ok {
		return stop, false
	}
	p.skip("has", "been", "is", "k", "worked", "done", "reached")
	at := p.since(start)
	claims := p.claimsBehind()
	if len(claims) == 0 || claims[0].What != script.Live && claims[0].What != script.Total {
		return stop, false
	}
	return script.Stop{Kind: script.Remain, N: claims[0].N, At: at, Claims: claims}, true
}

// roundsBetween reads how many plain rounds lie between shaping rounds, and how many of these there are:
// "K 2 rounds between, 9 decrease rounds in all", "so every 3rd round is a decrease round; 9 decrease
// rounds in all".
func (p *parser) roundsBetween() bool {
	start := p.i
	p.skip("with", "so", "that", "then")
	every := 0
	if p.any("k", "work") {
		n, ok := p.number()
		p.any("plain")
		if !ok || len(n.Val) != 1 || !p.any("rnd", "row") {
			return false
		}
		if !p.any("between") {
			return false
		}
		p.any("the", "these")
		p.any("dec", "inc", "them", "each")
		p.any("rnd", "row")
		every = int(n.Val[0]) + 1
	} else if n, ok := p.every(); ok {
		p.skip("is", "being", "a")
		if !p.any("dec", "inc") || !p.any("rnd", "row") {
			return false
		}
		every = n
	} else {
		return false
	}
	p.any(",", ";", ":", "-")
	p.any("and")
	if stop, ok := try(p, func() (script.Stop, bool) { return p.stopping(false) }); ok && stop.Kind == script.Remain { // "K 2 rounds between, until 24 sts are left"
		p.add(&script.Shape{Base: p.base(start), Name: "last", Every: every, Stop: stop, Claims: p.claimsBehind()})
		return true
	}
	n, ok := p.number()
	if !ok || !p.any("dec", "inc", "such") || !p.any("rnd", "row") || !p.phrase("in all", "in total", "altogether", "all told") {
		return false
	}
	stop := script.Stop{Kind: script.InAll, N: n, At: p.since(start)}
	if len(p.rows) > 0 && decRowsBack(p.rows, every) {
		emit(p, script.Repeat{Base: p.base(start), Ref: script.Ref{Last: every}, Stop: stop, Claims: p.claimsBehind()})
		return true
	}
	p.add(&script.Shape{Base: p.base(start), Name: "last", Every: every, Stop: stop, Claims: p.claimsBehind()})
	return true
}

// decRowsBack tells whether the last so many rows are one that shapes and plain ones behind it.
func decRowsBack(rows []*script.Row, every int) bool {
	n := 0
	for _, r := range slices.Backward(rows) {
		n += max(len(r.Label.Nums), 1)
		shapes := slices.ContainsFunc(r.Steps, shapesIn)
		if n >= every {
			return n == every && shapes
		}
		if shapes {
			return false
		}
	}
	return false
}

// shapesIn tells whether a step, or one within it, takes or adds stitches.
func shapesIn(s script.Step) bool {
	return s.Op == script.Decrease || s.Op == script.Increase || slices.ContainsFunc(s.Body, shapesIn)
}

// every reads "every other rnd", "every 4th rnd", "on every foll 6th rnd", "each rnd".
func (p *parser) every() (n int, ok bool) {
	back := p.i
	p.skip("on", "in", "at", "the", "and", "then")
	if p.any("alt") && p.any("rnd", "row") {
		return 2, true
	}
	p.i = back
	p.nextAnd()
	p.skip("on", "in", "at", "and", ",", "then")
	if p.any("alt") && p.any("rnd", "row") {
		return 2, true
	}
	if !p.any("every", "each") {
		p.i = back
		return 0, false
	}
	p.skip("foll", "next")
	n = 1
	switch t := p.peek(); {
	case t.w == "other" || t.w == "alt":
		n = 2
		p.i++
	case t.kind == ordToken || t.kind == numToken:
		n = int(t.val)
		p.i++
	}
	p.skip("foll", "plain")
	if !p.any("rnd", "row") || n < 1 {
		p.i = back
		return 0, false
	}
	p.skip("after", "it", "that")
	return n, true
}

// nextAnd takes "on the next and" before "every other rnd": the first of them is the next.
func (p *parser) nextAnd() {
	back := p.i
	p.skip("on", "in", "at", "the", ",")
	if p.any("next", "this", "foll") {
		if p.any("rnd", "row"); p.any("and", "then") && (p.is("every") || p.is("each") || p.is("on") || p.is("in") || p.is("foll") || p.is("alt")) {
			p.any("foll")
			return
		}
	}
	p.i = back
}

// following reads "on the 5 foll alt rnds", "on the next 3 rnds": so many rows, and how far
// apart they are.
func (p *parser) following() (every int, times pattern.Number, ok bool) {
	back := p.i
	fail := func() (int, pattern.Number, bool) {
		p.i = back
		return 0, pattern.Number{}, false
	}
	p.skip("on", "in", "at", "each", "of", "the")
	said := p.any("foll", "next")
	if times, ok = p.number(); !ok {
		return fail()
	}
	said = p.any("foll", "next") || said
	every = 1
	switch t := p.peek(); {
	case t.w == "alt" || t.w == "other":
		every = 2
		p.i++
	case t.kind == ordToken:
		every = int(t.val)
		p.i++
	}
	if !said && every == 1 || !p.any("rnd", "row") {
		return fail()
	}
	return every, times, true
}

// shapeWords reads what a shaping round does: "dec 4 sts", "dec 1 st at each side of
// instep", "k2tog at each end of the front needle", "take in four stitches", "dec in this
// way".
func (p *parser) shapeWords() (s *script.Shape, ok bool) {
	var change pattern.Number
	sign, at := 0, false
	if s, ok := try(p, p.endOfEach); ok {
		return s, true
	}
	switch {
	case p.any("dec"), p.phrase("take in"):
		sign = -1
	case p.any("narrow"):
		sign = -1
		switch {
		case p.placeAhead():
			at = true // "narrow at each end"
			change = pattern.Of(-1)
		case p.any("once"):
			change = pattern.Of(-1)
		case p.any("twice"): // "narrow twice, once on each side of the instep": the places are told, not counted again
			change = pattern.Of(-2)
			if p.phrase(", once on", ", once at") {
				p.i--
				for many := 1; p.where(&many); {
				}
				p.uponSide()
			}
		}
	case p.is("work") || p.is("make"): // "work 1 decrease at each side"
		p.i++
		n, ok := p.number()
		if !ok || !p.is("dec") && !p.is("inc") {
			return nil, false
		}
		if sign = -1; p.is("inc") {
			sign = 1
		}
		change = scaled(n, int32(sign))
		if p.i++; p.is("rnd") || p.is("row") || !p.placeAhead() {
			return nil, false
		}
	case p.any("inc"):
		sign = 1
	case p.any("widen"):
		sign = 1
		if at = p.placeAhead(); at || p.any("once") {
			change = pattern.Of(1)
		}
	case p.phrase("the same dec", "the same inc"):
		sign = -1
		if p.toks[p.i-1].w == "inc" {
			sign = 1
		}
	case p.is("k2tog"), p.is("p2tog"), p.is("ssk"), p.is("skp"):
		sign = -1
		p.i++
		n := -1
		for p.any("and", "or", "/") {
			if !p.any("k2tog", "ssk", "skp", "p2tog") {
				return nil, false
			}
			if p.toks[p.i-2].w != "or" {
				n--
			}
		}
		change = pattern.Of(n)
	case p.decrease():
		sign = -1
		change = pattern.Of(-1)
	default:
		return nil, false
	}
	name := "dec"
	if sign > 0 {
		name = "inc"
	}
	if p.is("rnd") || p.is("row") {
		return nil, false
	}
	p.phrase("for toe", "for the toe", "for gusset", "for the gusset", "for ankle", "for the ankle", "for calf", "for the calf") // "dec for toe on each side of …"
	s = &script.Shape{Change: change}
	if n, ok := p.number(); ok {
		if !p.any("sts") {
			return nil, false
		}
		if s.Change = positive(n); sign < 0 {
			s.Change = negative(n)
		}
	} else if p.phrase("in this way", "thus", "as before", "like this", "in the same way", "in this manner", "so", "as set", "as foll") {
		s.Name = name
	} else if !s.Change.Known() {
		if p.is("on") || p.is("in") || p.is("every") || p.is("each") || p.is("at") || p.is(":") { // "dec on Rnd 6 …"
			s.Name = name
		} else {
			return nil, false
		}
	}
	times := 1
	if p.phrase("beside the instep", "beside instep", "next to the instep") {
		if p.any("sts"); s.Change.Is(-1) || s.Change.Is(1) { // at both sides of it
			times = 2
		}
	}
	for p.where(&times) {
	}
	if at && times == 1 { // not told how often
		s.Change, s.Name = pattern.Number{}, name
	}
	p.inOneRow()
	for i := range s.Change.Val {
		s.Change.Val[i] *= int32(times)
	}
	return s, true
}

// uponSide passes over the side of a place on which it is shaped: "and upon the heel side of it".
func (p *parser) uponSide() {
	back := p.i
	p.skip(",", "and", "always")
	if p.any("upon", "on", "at") && p.any("the") {
		p.any("heel", "sole", "foot", "inner", "outer")
		if p.any("side", "edge") {
			if p.any("of") {
				p.spot()
			}
			return
		}
	}
	p.i = back
}

// endOfEach reads a decrease that ends every needle: "knit together the last two stitches of every
// needle", "k2tog at the end of each needle", "narrow at the end of each needle".
func (p *parser) endOfEach() (*script.Shape, bool) {
	start := p.i
	switch {
	case p.phrase("k tog the last", "k the last", "k last"):
		if n, ok := p.number(); !ok || countOf(n) != 2 || !p.any("sts") {
			return nil, false
		}
		tog := p.toks[start+1].w == "tog"
		p.any("of")
		if !p.eachOne() || !tog && !p.any("tog") {
			return nil, false
		}
	case p.decrease():
		if !p.phrase("at the end of", "at end of") || !p.eachOne() {
			return nil, false
		}
	default:
		return nil, false
	}
	at := p.since(start)
	last := script.Step{At: at, Op: script.Knit, Uses: 1, Makes: 1, To: script.End, Minus: pattern.Of(2)}
	tog := script.Step{At: at, Op: script.Decrease, Uses: 2, Makes: 1, Name: "k2tog"}
	return &script.Shape{Steps: []script.Step{eachNeedle([]script.Step{last, tog})}}, true
}

// eachOne takes "on each needle" or "every needle".
func (p *parser) eachOne() bool {
	if p.onEach() {
		return true
	}
	back := p.i
	return p.any("each", "every", "all") && p.any("ndl") || p.restore(back)
}

// doSo reads "do so in every round" behind shaping that has been told: "Now do so in every round until …".
func (p *parser) doSo() (*script.Shape, bool) {
	if p.shaped == nil || !p.phrase("do so", "do this", "do the same", "work so") {
		return nil, false
	}
	back := p.i
	_, ok := p.every()
	p.i = back
	return &script.Shape{Change: p.shaped.Change, Name: p.shaped.Name, Steps: p.shaped.Steps}, ok
}

// inOneRow passes over which single row it is that is shaped: "in the next round", "in the last rib rnd".
func (p *parser) inOneRow() {
	back := p.i
	if p.any("in", "on") {
		p.any("the", "this")
		p.any("next", "last", "foll", "first", "same", "this")
		rowKinds.pass(p)
		if p.any("rnd", "row") && (p.clauseEnd() || p.is("-") || p.is("(") || p.is("=")) {
			return
		}
	}
	p.i = back
}

// placeAhead tells whether the words say next where, at two or more places, a round is shaped.
func (p *parser) placeAhead() bool {
	back := p.i
	defer func() { p.i = back }()
	times := 1
	return p.where(&times) && times > 1
}

// positive and negative are a number of stitches as a change of the count: none in a size
// that does nothing.
func positive(n pattern.Number) pattern.Number { return scaled(n, 1) }

func negative(n pattern.Number) pattern.Number { return scaled(n, -1) }

func scaled(n pattern.Number, by int32) pattern.Number {
	vals := n.Val
	n.Val = nil
	for _, v := range vals {
		if v == pattern.Gap {
			v = 0
		}
		n.Val = append(n.Val, by*v)
	}
	return n
}

// shape reads shaping that does not tell every stitch.
func (p *parser) shape() bool {
	start := p.i
	p.skip("then", "now", "next", ",")
	for _, read := range []func() (*script.Shape, bool){p.shapeRef, p.shapeWorked, p.doSo} {
		if s, ok := try(p, read); ok {
			return p.finishShape(start, s)
		}
	}
	if s, ok := try(p, p.shapeAgain); ok {
		return p.finishShape(start, s)
	}
	s, ok := p.shapeWords()
	if !ok {
		return false
	}
	return p.finishShape(start, s)
}

// shapeAgain reads "then every round 4 times", a sentence that goes on with the shaping told last.
func (p *parser) shapeAgain() (*script.Shape, bool) {
	back := p.i
	if _, ok := p.every(); !ok {
		return nil, false
	}
	p.phrase("in the same way", "the same way", "as before", "so", "thus", "in this way")
	stop, ok := p.stopping(true)
	p.i = back
	return &script.Shape{Name: "dec"}, ok && (stop.Kind == script.Times || stop.Kind == script.InAll || stop.Kind == script.Remain || stop.Kind == script.More)
}

// shapeRef reads "Rep Dec rnd every 6th rnd 5 more times".
func (p *parser) shapeRef() (*script.Shape, bool) {
	if !p.any("rep", "work", "cont") {
		return nil, false
	}
	p.skip("to", "work", "the", "this", "rep", "last")
	t := p.peek()
	if t.w != "dec" && t.w != "inc" && !(t.w == "rnd" || t.w == "row") && !(labelNames.has(t) && (p.ahead(1).w == "rnd" || p.ahead(1).w == "row")) {
		return nil, false
	}
	p.i++
	p.any("rnd", "row")
	back := p.i
	if _, ok := p.every(); !ok {
		return nil, false
	}
	p.i = back
	name := t.w
	if name == "rnd" || name == "row" {
		name = "last"
	}
	return &script.Shape{Name: name}, true
}

// shapeWorked reads "The toe round is worked every other round until 20 sts remain".
func (p *parser) shapeWorked() (*script.Shape, bool) {
	r, ok := p.refNamed()
	if !ok || !p.any("is") || !p.any("worked", "rep", "done") {
		return nil, false
	}
	back := p.i
	_, ok = p.every()
	p.i = back
	return &script.Shape{Name: r.Names[0]}, ok
}

func (p *parser) finishShape(start int, s *script.Shape) bool {
	told := false
	for {
		back := p.i
		if p.is("(") && s.Stop.Kind == script.NoStop { // "(4 sts fewer each time) until"
			p.i++
			p.skip("=")
			if c := p.claims(); len(c) == 1 && c[0].What == script.Change && (p.any(")") || p.toks[p.i-1].w == ")") {
				s.Change, s.Name = c[0].N, ""
				continue
			}
			p.i = back
		}
		if p.phrase(", which takes away", ", which takes", ", which loses", ", taking away", ", losing") { // "which takes away two sts"
			if n, ok := p.number(); ok && p.any("sts") && s.Change.Known() {
				s.Change = negative(n)
				continue
			}
			p.i = back
		}
		if p.skip(",", "and", ";"); p.phrase("do the same", "do so", "do this", "rep this", "the same") {
			again := p.i
			if _, ok := p.every(); ok {
				p.i = again
				continue
			}
		}
		p.i = back
		p.skip(",", "and")
		if n, ok := p.every(); ok && s.Every == 0 {
			s.Every, told = n, true
			continue
		}
		p.i = back
		if every, times, ok := p.following(); ok && s.Every == 0 && s.Stop.Kind == script.NoStop {
			s.Every, s.Stop, told = every, script.Stop{Kind: script.Times, N: times, At: times.At}, true
			continue
		}
		p.skip(",", "and")
		if s.Stop.Kind == script.NoStop {
			if stop, ok := p.stopping(true); ok && stop.Kind != script.NoStop {
				s.Stop, told = stop, true
				continue
			}
		}
		p.i = back
		var times int
		if told && p.where(&times) {
			continue
		}
		break
	}
	if !told && !s.Change.Known() && s.Steps == nil || !p.clauseEnd() && !p.is("-") && !p.is("and") && !p.is("(") && !p.is("=") {
		return false
	}
	s.Base = p.base(start)
	p.add(s)
	// "…, then every rnd 3 times"
	for {
		from := p.i
		p.skip(",", ";", "and")
		if !p.eat("then") {
			p.i = from
			break
		}
		n, ok := p.every()
		if !ok {
			p.i = from
			break
		}
		more := &script.Shape{Change: s.Change, Every: n, Name: s.Name, First: s.First, Steps: s.Steps}
		if more.Stop, ok = p.stopping(true); !ok {
			p.i = from
			break
		}
		more.Base = p.base(from)
		p.add(more)
		s = more
	}
	p.shaped = s
	s.Claims = p.claimsBehind()
	return true
}

// shapeAfterLabel reads "Next round: dec 1 st at each side" and "Next round, and every
// fourth round after it, knit two together at each end …, until 68 remain".
func (p *parser) shapeAfterLabel(start int, name string) bool {
	back := p.i
	every := 0
	p.skip(",")
	if n, ok := p.every(); ok {
		every = n
		p.skip(",", ":")
	}
	if p.phrase("on the sole sts ,", "on the sole ,", "on the heel sts ,") {
		p.skip(",")
	}
	s, ok := p.shapeWords()
	if !ok || s.Every == 0 && every == 0 && !s.Change.Known() || every == 0 && p.is(",") {
		p.i = back
		return false
	}
	s.Every = every
	if !p.finishShape(start, s) {
		p.i = back
		return false
	}
	return true
}

// sameTime reads "AT THE SAME TIME, dec on Rnd 6 and on every foll 6th rnd thus: …", "…, on Rnd 5
// and every 5 rnds after it, dec as follows: …".
func (p *parser) sameTime() bool {
	start := p.i
	p.skip("and")
	if !p.phrase("at the same times", "at same times", "meanwhile") {
		return false
	}
	p.skip(",", ":", "-")
	first, every := p.onRounds()
	p.skip(",", ":", "-")
	s, ok := p.shapingRound()
	if !ok {
		if s, ok = p.shapeWords(); !ok {
			return false
		}
	}
	if first == 0 {
		first, every = p.onRounds()
	}
	s.First, s.Every = first, every
	if s.First == 0 && p.is("(") { // "dec 2 sts (k1, k2tog, …) on every 6th rnd 7 times"
		p.i++
		steps, ok := p.steps()
		if !ok || !p.any(")") {
			return false
		}
		s.Steps = steps
		n, ok := p.every()
		if !ok {
			return false
		}
		s.Every, s.First = n, n
		return p.finishShape(start, s)
	}
	if s.First == 0 {
		return false
	}
	p.any("only")
	p.skip("thus", "as", "foll", ":", ",")
	if stop, ok := try(p, func() (script.Stop, bool) { return p.stopping(true) }); ok {
		s.Stop = stop
	}
	p.skip("thus", "as", "foll", ":", ",")
	if steps, ok := p.steps(); ok {
		s.Steps = steps
	}
	s.Claims = p.claimsBehind()
	s.Base = p.base(start)
	p.add(s)
	return true
}

// onRounds reads on which rounds something is done: "on Rnd 5 and every 5 rnds after it", "on the
// 6th and every foll 6th rnd", "on every 6th rnd". every is 0 if it is done once; first is 0 if
// no round is told.
func (p *parser) onRounds() (first, every int) {
	back := p.i
	p.skip("beg", "with", "from", "on", "in", "at", "the")
	var l script.Label
	switch t := p.peek(); {
	case t.w == "rnd" || t.w == "row":
		p.i++
		p.rowNumbers(&l)
	case t.kind == ordToken && p.ahead(1).w == "and": // "the 6th and every foll 6th rnd"
		p.i++
		l.Nums = []int{int(t.val)}
	case t.kind == ordToken && p.ordinalRows(&l):
	default:
		p.i = back
	}
	first = l.First()
	if first > 0 {
		p.skip("on", ",")
	}
	every, ok := p.every()
	if ok && first == 0 {
		first = every
	}
	return first, every
}

// shapingRound reads that a round that has been told is worked: "work a dec rnd".
func (p *parser) shapingRound() (*script.Shape, bool) {
	back := p.i
	if !p.any("work", "make") {
		return nil, false
	}
	p.skip("a", "the", "one")
	name := p.peek().w
	if !p.any("dec", "inc") || !p.any("rnd", "row") {
		p.i = back
		return nil, false
	}
	return &script.Shape{Name: name}, true
}

package reader

import (
	"slices"
	"strings"

	"sockwright/internal/script"
)

// labelNames are the words that name a row besides or instead of a number.
var labelNames = newList("next turning wrap base cup cap dec inc set-up setup pick-up joining foundation first last partial final closing division dividing heel flap toe gusset leg cuff foot instep turn lace body chart patt dec'd plain garter inc'd eyelet picot short transition band purl decrease increase ridge round narrowing foll subsequent sole")

// label reads "Row 1 (RS):", "1st row.-", "Rnds 2 and 4:", "All WS rows:", "Next rnd:",
// "Rnd 2 and all even rnds:", "Toe rnd 1:", with what stands between it and the steps.
func (p *parser) label() (script.Label, bool) {
	start := p.i
	l := script.Label{Said: true}
	if p.fromHereRows(&l) {
		l.At = p.since(start)
		return l, true
	}
	p.skip("the")
	p.rowTitle(&l)
	for n := 0; n < 4; n++ { // "heel, ", "first heel row"
		t := p.peek()
		if t.kind == ordToken && labelNames.has(p.ahead(1)) && (p.ahead(2).w == "row" || p.ahead(2).w == "rnd") { // "1st dec. round"
			if !shapingNames.has(p.ahead(1)) { // "1st short row"
				l.Nums = []int{int(t.val)}
			}
			p.i++
			continue
		}
		if !labelNames.has(t) || t.kind == lineToken {
			break
		}
		if l.Name == "" || t.w == "dec" || t.w == "inc" {
			l.Name = t.w
		}
		if l.Name == "narrowing" {
			l.Name = "dec"
		}
		p.i++
		if n == 0 && (p.is(",") || p.is(":") || p.is("-")) && p.rowAhead(1) {
			p.i++
			if part := partNamed(l.Name); part == script.Sole || part == script.Instep {
				l.Part = part
			}
			l.Name = ""
		}
	}
	if l.Name == "subsequent" {
		l.Name = "foll"
	}
	if l.Name == "set" && p.eat("up") {
		l.Name = "set-up"
	}
	if p.is("set", "up") {
		p.i += 2
		l.Name = "set-up"
	}
	if p.is("pick", "up") && (p.ahead(2).w == "rnd" || p.ahead(2).w == "row") {
		p.i += 2
		l.Name = "pick-up"
	}
	ok := false
	switch t := p.peek(); {
	case t.kind == ordToken && p.ahead(1).w == "and":
		back := p.i
		p.i += 2
		p.any("all", "every", "each")
		if ok = p.followingRows(&l); ok { // "3rd and following rows"
			l.Nums = []int{int(t.val)}
			break
		}
		p.i = back
		ok = p.ordinalRows(&l)
	case t.kind == ordToken:
		ok = p.ordinalRows(&l)
	case p.shortRow():
		l.Round = !p.flat
		p.i++
		p.rowNumbers(&l)
		ok = true
	case (l.Name == "next" || l.Name == "foll") && t.kind == numToken: // "Next 4 rounds:"
		l.Many, ok = p.number()
		l.Round = p.is("rnd")
		ok = ok && p.any("row", "rnd")
	case shapingNames.has(&p.toks[max(p.i-1, 0)]) && p.i > start && (p.is(":") || p.is("-")): // "Decrease:"
		l.Round, ok = !p.flat, true
	case p.i == start && p.letterAlone(t) && p.ahead(1).w == ":": // "a:"
		p.i++
		l.Name, l.Round, ok = t.w, !p.flat, true
	case p.i == start && p.sideAlone(&l):
		ok = true
	case t.w == "row" || t.w == "rnd":
		l.Round = t.w == "rnd"
		p.i++
		if l.Name == "first" && p.toks[p.i-2].w == "first" && p.peek().kind != numToken { // "First row:"
			l.Name, l.Nums, ok = "", []int{1}, true
			break
		}
		if t := p.peek(); t.kind == numToken && t.x == float64(t.val) {
			p.rowNumbers(&l)
			ok = true
			if p.is("on", ":") || p.is("onwards") || p.is("onward") { // "Rows 3 on:"
				p.i++
			}
		} else if t := p.peek(); p.letterAlone(t) && (p.raw(t.at) != t.w || labelEnd.has(p.ahead(1))) { // "Row A", "round a:"
			p.i++
			l.Name, ok = t.w, true
		} else {
			ok = l.Name != "" || p.is("(")
		}
	case t.w == "all" || t.w == "every" || t.w == "each":
		p.i++
		if ok = p.openRows(&l); !ok {
			ok = p.followingRows(&l)
		}
	case t.w == "even" || t.w == "odd" || t.w == "other" || t.w == "alt": // "Even rounds:"
		ok = p.openRows(&l)
	}
	if !ok {
		p.i = start
		return script.Label{}, false
	}
	p.onlyOfThem(&l)
	p.andFollowing(&l)
	if p.any("and", ",", "&", "then") {
		back := p.i - 1
		p.skip("and", "on")
		if p.any("all", "every", "each") {
			if !p.openRows(&l) && !p.followingRows(&l) {
				p.i = back
			}
		} else if p.followingRows(&l) {
		} else if p.phrase("foll alt row", "foll alt rnd", "alt row", "alt rnd") {
			l.Open = 2 - l.First()%2
		} else {
			p.i = back
		}
	}
	if back := p.i; p.any("of", "for") { // "1st row of the heel"
		p.any("the")
		if p.partWord() == script.NoPart {
			p.i = back
		}
		p.any("flap", "turn", "sts", "ndl")
	}
	l.Side = p.side()
	if p.is("(") { // a remark
		back := p.i
		for !p.done() && !p.is(")") {
			p.i++
		}
		if !p.eat(")") || !p.is(":") && !p.is(".") && !p.is("-") {
			p.i = back
		}
	}
	if l.Side == 0 {
		l.Side = p.side()
	}
	l.At = p.since(start)
	if p.any(":", ".", "-", ",") {
		p.skip("-", ":", ".")
		return l, true
	}
	back := p.i
	p.quiet++
	_, step := p.step()
	p.quiet--
	p.i = back
	if !step || p.peek().w == "work" || p.is("k", "rnd") {
		if p.done() {
			return l, true
		}
		p.i = start
		return script.Label{}, false
	}
	return l, true
}

// fromHereRows reads "From here on every row is:", "from now on, each row goes:": all rows to come are
// alike.
func (p *parser) fromHereRows(l *script.Label) bool {
	back := p.i
	if !p.fromHere() {
		return false
	}
	p.any(",")
	if !p.any("every", "each", "all") || !p.is("row") && !p.is("rnd") {
		return p.restore(back)
	}
	l.Name, l.Round = "foll", p.is("rnd")
	p.i++
	p.any("is", "are", "goes", "reads", "runs", "go")
	p.any("worked")
	p.any("as", "so", "thus", "foll")
	p.any("foll")
	return p.any(":") || p.restore(back)
}

// shapingNames are names under which a row is told without the word: "Decrease: k1, ssk …".
var shapingNames = newList("dec inc")

// labelEnd are marks behind a label.
var labelEnd = newList(": - . ( ,")

// notOfTitle are words that do not stand in the title of a row: they instruct or count.
var notOfTitle = newList("k p sl work cont rep until to co bo pick on in at from every each all this that these those last same as and then when row rnd for with the")

// rowTitle passes over words that the text calls a row by, whatever they are, before the word
// "row": "Ladder round 3:", "Back of heel row 1 (RS):", "turning row 2:".
func (p *parser) rowTitle(l *script.Label) {
	n, own := 0, false
	for ; n < 4; n++ {
		t := p.ahead(n)
		if t.kind != wordToken || t.stitch != nil || notOfTitle.has(t) || t.w == "row" || t.w == "rnd" {
			break
		}
		own = own || !labelNames.has(t)
	}
	if w := p.ahead(n).w; !own || w != "row" && w != "rnd" {
		return
	}
	if t := p.ahead(n + 1); t.kind != numToken && t.w != ":" {
		return
	}
	l.Name = p.peek().w
	p.i += n
}

// shortRow tells whether a row is named by its letter here: "R1", "R 2:".
func (p *parser) shortRow() bool {
	n := p.ahead(1)
	return p.is("r") && n.kind == numToken && (n.glued || labelEnd.has(p.ahead(2)))
}

// letterAlone tells whether a token is one letter that stands for no stitch.
func (p *parser) letterAlone(t *token) bool {
	return t.kind == wordToken && len(t.w) == 1 && t.w != "k" && t.w != "p"
}

// sideAlone reads a row that is named by nothing but its side: "(RS) Sl 1, k to end", "WS row:",
// "RS rows:".
func (p *parser) sideAlone(l *script.Label) bool {
	back := p.i
	open := p.is("(")
	if l.Side = p.side(); l.Side == script.NoSide {
		return false
	}
	last := &p.toks[p.i-1]
	facing := slices.ContainsFunc(p.toks[back:p.i], func(t token) bool { return t.w == "facing" })
	if facing || !open && !labelEnd.has(p.peek()) || p.is(",") {
		l.Side = script.NoSide
		return p.restore(back)
	}
	if strings.EqualFold(p.raw(last.at), "rows") {
		l.Open = 3
	}
	return true
}

// onlyOfThem reads which rows of a run are meant: "Rows 5 to 11, odd rows only", "Rounds 2-14
// (even rounds)".
func (p *parser) onlyOfThem(l *script.Label) {
	if len(l.Nums) < 3 {
		return
	}
	back := p.i
	open := p.any("(")
	p.skip(",", "-", "the", "only")
	odd := 0
	switch {
	case p.any("odd", "odd-numbered"):
		odd = 1
	case p.any("even", "even-numbered"):
	default:
		p.i = back
		return
	}
	p.any("numbered")
	p.any("row", "rnd", "ones", "numbers")
	if p.any("only", "alone"); open && !p.any(")") {
		p.i = back
		return
	}
	l.Nums = slices.DeleteFunc(l.Nums, func(n int) bool { return n%2 != odd })
}

// andFollowing reads that a row also tells those behind it: "3rd and following rows", "Row 3 and
// every following row", "Row 3 onwards".
func (p *parser) andFollowing(l *script.Label) {
	if len(l.Nums) != 1 {
		return
	}
	back := p.i
	if p.phrase("onwards", "onward", "and on", "and onwards") {
		l.Name = "foll"
		return
	}
	p.any(",")
	if !p.any("and", "&") {
		p.i = back
		return
	}
	p.skip("all", "every", "each", "the", "any")
	if !p.any("foll", "subsequent", "later", "more") || !p.any("row", "rnd", "ones") {
		p.i = back
		return
	}
	l.Name = "foll"
}

// labelAhead tells whether the label of a row stands here.
func (p *parser) labelAhead() bool {
	back, numbered := p.i, p.numbered
	p.quiet++
	_, ok := p.label()
	p.quiet--
	p.i, p.numbered = back, numbered
	return ok
}

func (p *parser) rowAhead(n int) bool {
	switch t := p.ahead(n); {
	case t.w == "row", t.w == "rnd", t.kind == ordToken && (p.ahead(n+1).w == "row" || p.ahead(n+1).w == "rnd"):
		return true
	case labelNames.has(t):
		return p.ahead(n+1).w == "row" || p.ahead(n+1).w == "rnd"
	}
	return false
}

// rowNumbers reads "1", "1-14", "1, 3 and 5".
func (p *parser) rowNumbers(l *script.Label) {
	for {
		t := p.peek()
		if t.kind != numToken || t.val < 1 || t.val > 9999 {
			return
		}
		p.i++
		l.Nums = append(l.Nums, int(t.val))
		if (p.is("-") || p.is("to")) && p.ahead(1).kind == numToken {
			to := p.ahead(1).val
			if to > t.val && to-t.val < 2000 {
				p.i += 2
				if p.numbered += int(to - t.val); p.numbered > maxNumbered {
					return
				}
				for n := t.val + 1; n <= to; n++ {
					l.Nums = append(l.Nums, int(n))
				}
			}
		}
		back := p.i
		p.skip(",", "and", "&", "+")
		p.skip("row", "rnd")
		if p.i == back || p.peek().kind != numToken {
			p.i = back
			return
		}
	}
}

// ordinalRows reads "1st row", "3rd and 4th rows".
func (p *parser) ordinalRows(l *script.Label) bool {
	for p.peek().kind == ordToken {
		n := int(p.peek().val)
		p.i++
		if (p.is("-") || p.is("to")) && p.ahead(1).kind == ordToken {
			for m := n; m < int(p.ahead(1).val) && m < n+2000 && p.numbered <= maxNumbered; m++ {
				p.numbered++
				l.Nums = append(l.Nums, m)
			}
			p.i++
			continue
		}
		l.Nums = append(l.Nums, n)
		back := p.i
		p.skip(",", "and", "&")
		if p.peek().kind != ordToken {
			p.i = back
		}
	}
	if back := p.i; p.any("and", "&") { // "3rd and following rows"
		p.skip("all", "every", "each", "the")
		if p.any("foll", "subsequent", "later") && (p.is("row") || p.is("rnd")) && len(l.Nums) == 1 {
			l.Name = "foll"
		} else {
			p.i = back
		}
	}
	if t := p.peek(); labelNames.has(t) && (p.ahead(1).w == "row" || p.ahead(1).w == "rnd") { // "1st short row"
		l.Name = t.w
		p.i++
	}
	t := p.peek()
	if t.w != "row" && t.w != "rnd" {
		return false
	}
	p.i++
	l.Round = t.w == "rnd"
	return true
}

// openRows reads "even rnds", "other rows", "WS rows" behind "all" or "every".
func (p *parser) openRows(l *script.Label) bool {
	back := p.i
	p.skip("the", "foll")
	switch {
	case p.any("even", "even-numbered"):
		p.skip("numbered")
		l.Open = 2
	case p.any("odd", "odd-numbered"):
		p.skip("numbered")
		l.Open = 1
	case p.any("ws"), p.phrase("wrong side"):
		l.Open, l.Side = 3, script.WS
	case p.any("rs"), p.phrase("right side"):
		l.Open, l.Side = 3, script.RS
	case p.any("alt", "other", "second"), p.peek().kind == ordToken && p.peek().val == 2:
		if p.peek().kind == ordToken {
			p.i++
		}
		l.Open = 3
		if n := l.First(); n > 0 {
			l.Open = 2 - n%2
		}
	default:
		p.i = back
		return false
	}
	t := p.peek()
	if t.w != "row" && t.w != "rnd" {
		p.i = back
		return false
	}
	p.i++
	l.Round = l.Round || t.w == "rnd"
	return true
}

// setUpOf reads "Set-up for the instep:", "Instep set-up:", "To set up the sole sts:", the label of
// steps that tell a part alone, and returns the part.
func (p *parser) setUpOf() script.Part {
	back := p.i
	p.any("to")
	part := p.partWord()
	p.any("sts")
	if !p.any("set-up", "setup") && !p.eat("set", "up") {
		p.i = back
		return script.NoPart
	}
	p.any("row", "rnd")
	open := p.any("(")
	p.skip("for", "of", "on", "the", "over", "across")
	if part == script.NoPart {
		part = p.partWord()
		p.any("sts")
	}
	shut := !open || p.any(")")
	p.skip("as", "foll", "thus", "so")
	if !shut || part != script.Instep && part != script.Sole || !p.any(":") {
		p.i = back
		return script.NoPart
	}
	return part
}

// setUp reads how a part is set up: a row of which no more is told than the steps of that part.
func (p *parser) setUp() bool {
	start := p.i
	part := p.setUpOf()
	if part == script.NoPart {
		return false
	}
	at := p.since(start)
	steps, ok := p.steps()
	if !ok {
		return false
	}
	r := &script.Row{Label: script.Label{At: at, Name: "set-up", Round: !p.flat, Said: true}, Flat: p.flat}
	r.Steps = append([]script.Step{{At: at, Op: script.ToNeedle, Part: part}}, steps...)
	r.Claims = p.claimsBehind()
	r.Base = p.base(start)
	p.emitRow(r)
	return true
}

// followingRows reads "following rows", "subsequent row", "further rows", "rows from here on"
// behind "all" or "every": one row that tells all those to come.
func (p *parser) followingRows(l *script.Label) bool {
	back := p.i
	said := p.any("foll", "subsequent", "more", "later", "rem")
	l.Round = p.is("rnd")
	if p.any("row", "rnd") && (said || p.phrase("from here on", "from now on", "after this", "after that")) {
		l.Name = "foll"
		return true
	}
	return p.restore(back)
}

package reader

import (
	"sockwright/internal/pattern"
	"sockwright/internal/script"
	"sockwright/internal/source"
)

// A plainWork is what plain has read.
type plainWork struct {
	script.Plain
	told bool            // it is said what is worked, or how long
	side script.Side     // of the row that it ends with
	off  *script.Markers // that are taken off the needle on the way
}

// plain reads rounds that are all alike: "Knit 48 rnds", "Work even until foot measures 7
// in", "Work 30 rows in st st, slipping the first st of every row, ending with a p row".
func (p *parser) plain() bool {
	start := p.i
	n := plainWork{Plain: script.Plain{Flat: p.flat}}
	p.skip("then", "now", "just", "simply")
	p.changeTo(&n)
	p.overThese()
	p.turnFirst(&n)
	if !p.plainVerb(&n, p.toks[start].at) {
		return false
	}
	for p.plainMore(&n, p.toks[start].at) {
	}
	if !n.told || p.is(":") || !p.clauseEnd() && !p.is("-") && !p.is("and") {
		return false
	}
	if n.Stop.Side == script.NoSide {
		n.Stop.Side = n.side
	}
	n.Claims = append(n.Claims, p.claimsBehind()...)
	n.Base = p.base(start)
	emit(p, n.Plain)
	if n.off != nil {
		n.off.Base = n.Base
		emit(p, *n.off)
	}
	return true
}

// throughout is the one step of rows that are worked in one kind of stitch.
func throughout(op script.Op, at source.Span) []script.Step {
	return []script.Step{{At: at, Op: op, Uses: 1, Makes: 1, To: script.End}}
}

// plainVerb reads what plain work begins with: "k", "work even", "cont", "28 rows".
func (p *parser) plainVerb(n *plainWork, at source.Span) bool {
	switch {
	case (p.is("k") || p.is("*") || p.is("(") || p.is("[")) && p.ribAhead():
		n.Steps, _ = p.ribWords()
		n.Fabric = "rib"
		n.told = p.any("rib")
	case p.any("k"):
		back := p.i
		if _, ok := p.number(); !ok || !p.any("sts") || !p.is("every") && !p.is("each") && !p.is("rnd", "and") { // "k 40 sts every rnd", "k 40 sts round and round"
			p.i = back
		}
		n.Steps = throughout(script.Knit, at)
		p.wholePart(n)
	case p.any("p"):
		n.Steps = throughout(script.Purl, at)
	case p.phrase("plain k", "plain"):
		n.Steps, n.told = throughout(script.Knit, at), true
		if part := p.partWord(); part != script.NoPart && part != script.Heel { // "Plain foot, 40 rnds"
			n.Flat = false
			p.enterPart(part, at)
		}
	case p.is("worked", "for"):
		p.i++
	case p.any("work", "cont"), p.phrase("carry on", "go on", "keep on", "proceed", "foll with", "foll on with", "then come"):
		if p.ribAhead() { // "work k1, p1 rib for 12 rnds"
			n.Steps, _ = p.ribWords()
			n.Fabric, n.told = "rib", p.any("rib")
			break
		}
		p.skip("to", "work", "k", "p", "on")
		n.told = p.partsInFabrics()
	case p.any("rib"):
		n.Fabric = "rib"
		p.phrase("=", "in rnd of", "in row of", "in")
		if steps, ok := p.ribWords(); ok {
			n.Steps, n.told = steps, true
		}
	case p.phrase("rnd and rnd", "around and around"): // "round and round till it's 5 cm short of the heel"
		n.Round, n.told = true, true
	case p.phrase("go once rnd", "go rnd once", "go once around", "once rnd", "once around", "a whole rnd", "one whole rnd", "a full rnd", "one full rnd"):
		n.Stop, n.Round, n.Flat, n.told = script.Stop{Kind: script.Rows, N: pattern.Of(1)}, true, false, true
	case p.rowsAhead():
	default:
		return false
	}
	return true
}

// wholePart takes the part that is knitted plain until a length is reached: "knit the foot to 2 in less
// than …", "knit the leg until …".
func (p *parser) wholePart(n *plainWork) {
	back := p.i
	p.any("the")
	switch p.partWord() {
	case script.Foot, script.Leg, script.Cuff:
		if p.is("to") || p.is("until") || p.is("for") {
			n.Flat = false
			return
		}
	}
	p.i = back
}

// plainMore reads one more thing that is said of plain work: its fabric, the stitches that it
// is worked on, how long.
func (p *parser) plainMore(n *plainWork, at source.Span) bool {
	back := p.i
	switch {
	case p.sameLength(n):
		return true
	case p.phrase("every rnd plain", "every rnd", "every row", "each rnd", "all rnd", "in the rnd", "in rnd", "one rnd", "a rnd"):
		if w := p.toks[p.i-2].w; w == "one" || w == "a" {
			n.Stop, n.Round = script.Stop{Kind: script.Rows, N: pattern.Of(1)}, true
		}
		n.told, n.Round = true, n.Round || p.toks[back].w == "in"
		return true
	case p.phrase("rnd once", "around once", "once rnd", "once around"):
		n.Stop, n.Round, n.Flat, n.told = script.Stop{Kind: script.Rows, N: pattern.Of(1)}, true, false, true
		return true
	case p.phrase("rnd and rnd", "around and around"):
		n.Round, n.told = true, true
		return true
	case p.phrase("in k rnd", "in plain rnd", "in plain k rnd"):
		n.Steps, n.told = throughout(script.Knit, at), true
		return true
	case p.phrase("even", "plain", "straight", "without shaping", "without narrowing", "without dec or inc", "without dec", "without inc", "as set", "as established", "as est", "in this way", "in this manner", "so", "as before", "as given", "foll"):
		n.told = true
		return true
	case p.phrase("back and forth over the heel sts", "back and forth on the heel sts", "back and forth", "to and fro", "over the heel sts", "on the heel sts", "on heel sts", "over heel sts", "across the heel sts", "across heel sts", "across these sts", "in the heel"):
		n.Flat = true
		return true
	case p.forSection():
		return true
	case p.remark(), p.eat("in", "row", "of"), p.colourWith(), p.phrase("with the foot", "with foot", "in the same way", "around", "across"):
		return true
	case p.phrase("and p back", "and p in turn", "and p row by row", "a row and p a row alt", "and p alt", "and p by turn", "and p row in turn", "and p row by turn"), p.rowsInTurn():
		n.Flat, n.told, n.Steps, n.Fabric = true, true, nil, "stockinette"
		return true
	case p.any("in", "of"):
		if p.fabric(&n.Plain, true) {
			n.told = true
			return true
		}
		return p.restore(back)
	case p.fabric(&n.Plain, false):
		n.told = true
		return true
	case p.any("on", "over"):
		p.skip("all", "the", "these", "rem")
		if p.any("everything", "everyone") {
			n.Flat = n.Flat && !n.Round
			return true
		}
		if c, ok := p.claim(); ok {
			n.Claims = append(n.Claims, c)
			return true
		}
		if part := p.partWord(); p.any("sts", "ndl") || part != script.NoPart { // "over these sts only"
			p.skip("only", "alone")
			return true
		}
		return p.restore(back)
	case p.any(",", "and", ";"):
		return p.plainAside(n) || p.restore(back)
	case p.slipFirst():
		n.SlipFirst, n.told = true, true
		return true
	}
	if n.Stop.Kind == script.NoStop {
		if stop, ok := p.stopping(true); ok && stop.Kind != script.Times && stop.Kind != script.More && stop.Kind != script.InAll && stop.Kind != script.Remain {
			n.Stop, n.told = stop, true
			if stop.Kind == script.Rows || stop.Kind == script.MoreRows {
				n.Round = n.Round || p.toks[p.i-1].w == "rnd"
				n.Flat = n.Flat || p.toks[p.i-1].w == "row"
			}
			return true
		}
	}
	return p.restore(back)
}

// sameLength reads the length that so many rows are: "(2 in)", "or 5 cm", ", which is 5/6/7 in", "= 5
// cm", ", making 2 in of rib".
func (p *parser) sameLength(n *plainWork) bool {
	back := p.i
	if n.Stop.Kind != script.Rows {
		return false
	}
	open := p.any("(", "[")
	if !open && !p.any("or", "-", "=") {
		p.any(",", ";")
		if !p.phrase("which is", "that is", "which makes", "which are", "which comes to", "or") && !p.any("that's", "making", "about", "approx", "measures") {
			return p.restore(back)
		}
	}
	p.skip("about", "approx", "to", "is", "=")
	l, ok := p.length()
	if !ok || open && !p.any(")", "]") {
		return p.restore(back)
	}
	n.About = l
	p.skip("long", "deep", "of", "rib", "in", "all")
	return true
}

// forSection passes over the part that plain work makes: "40 rounds for the foot".
func (p *parser) forSection() bool {
	back := p.i
	if p.any("for") {
		p.skip("the", "rest", "of")
		if part := p.partWord(); part != script.NoPart && part != script.Heel && (p.clauseEnd() || p.is("until")) {
			return true
		}
	}
	return p.restore(back)
}

// changeTo takes what is changed to before plain work: "change to stockinette and knit 4 in", "switch to
// larger needles and work 10 rnds".
func (p *parser) changeTo(n *plainWork) {
	back := p.i
	if !p.any("change", "changing", "switch", "switching") || !p.any("to") {
		p.i = back
		return
	}
	p.skip("the", "a")
	if !p.fabric(&n.Plain, true) {
		for !p.clauseEnd() && !p.is("and") && !p.is("ndl") {
			p.i++
		}
		if !p.any("ndl", "yarn") {
			p.i = back
			return
		}
	}
	n.told = n.Fabric != ""
	p.skip(",", "and", "then")
}

// plainAside reads what is said of plain work behind a comma: "slipping the first st of every
// row", "ending with a WS row", "about 7 in".
func (p *parser) plainAside(n *plainWork) bool {
	switch {
	case p.slipFirst():
		n.SlipFirst, n.told = true, true
		return true
	case p.phrase("one plain and one p", "one k and one p", "one plain one p", "k and p", "plain and p"):
		n.Flat, n.told, n.Fabric = true, true, "stockinette"
		p.phrase("by turn", "in turn", "alt", "turn about")
		return true
	case p.pairAside(): // "taking both legs of each double st as one"
		return true
	case p.is("taking") || p.is("removing") || p.is("dropping") || p.is("take") || p.is("remove"):
		names, ok := p.takenOff()
		n.off = &script.Markers{Off: true, Names: names}
		n.told = n.told || ok
		return ok
	case p.phrase("slipping m", "slipping the m", "slipping all m", "slipping each m", "sl m as you come to them"):
		p.phrase("as you come to them", "as you come to it")
		return true
	case p.phrase("rs first", "ws first", "the first a rs row", "the first is a rs row"), p.phrase("beg with a k row", "beg with a p row", "beg with a rs row", "beg with a ws row"),
		p.phrase("the last row being a p one", "the last being a p row", "the last row a p one", "the last row being a k one"):
		return true
	case p.phrase("keeping", "maintaining", "with the seam", "with the m"):
		p.passClause()
		return true
	}
	if p.phrase("ending with", "finishing with", "ending on", "ending", "end with", "end on", "finish with") {
		p.skip("a", "an")
		switch {
		case p.any("p", "ws"):
			n.side = script.WS
		case p.any("k", "rs"):
			n.side = script.RS
		}
		if p.any("plain") || n.side != script.NoSide {
			p.skip("row", "rnd")
			return true
		}
	}
	back := p.i
	if c, ok := p.claim(); ok && (c.What == script.Live || c.What == script.Total) && p.clauseEnd() {
		n.Claims = append(n.Claims, c)
		return true
	}
	p.i = back
	if n.Stop.Kind == script.NoStop {
		if stop, ok := p.stopping(true); ok && stop.Kind != script.Times && stop.Kind != script.More {
			n.Stop, n.told = stop, true
			return true
		}
	}
	return false
}

// turnFirst takes "turn and" before a row: "Turn, and p. 1 row across the heel sts".
func (p *parser) turnFirst(n *plainWork) {
	back := p.i
	if p.any("turn") {
		p.skip("work", "the", ",", "and", "then")
		if w := p.peek().w; (w == "k" || w == "p") && p.ahead(1).kind == numToken && (p.ahead(2).w == "row" || p.ahead(2).w == "rnd") {
			n.Flat = true
			return
		}
	}
	p.i = back
}

// overThese takes "over these sts," before what is worked on them.
func (p *parser) overThese() {
	back := p.i
	if p.any("over", "on", "upon") && p.any("these", "those", "all", "the") {
		p.skip("the")
		if part := p.partWord(); p.toks[p.i-1].w == "the" || part != script.NoPart && part != script.Heel && p.is("sts") {
			p.i = back
			return
		}
		if p.any("sts") {
			p.skip("only", "alone", ",")
			if p.is("work") || p.is("k") || p.is("cont") {
				return
			}
		}
	}
	p.i = back
}

// rowsInTurn reads "one row and p the next" behind "k", "one row plain and the next row p" behind
// "work".
func (p *parser) rowsInTurn() bool {
	back := p.i
	one := func() bool {
		p.any("the", "every")
		if t := p.peek(); t.kind == numToken && t.val == 1 || t.kind == ordToken && t.val == 2 {
			p.i++
		} else if !p.any("a", "next", "other", "foll", "first", "alt") {
			return false
		}
		return true
	}
	if !one() || !p.any("row") {
		return p.restore(back)
	}
	p.any("plain", "k")
	if !p.any("and", ",", "then") {
		return p.restore(back)
	}
	p.skip("and", "then")
	purl := p.any("p")
	said := one()
	said = p.any("row") || said
	if purl = p.any("p") || purl; !purl || !said {
		return p.restore(back)
	}
	p.phrase("alt", "in turn", "by turn", "turn about")
	return true
}

// passClause passes over words up to the end of the clause; the marks inside a list of sizes
// do not end it.
func (p *parser) passClause() {
	for !p.clauseEnd() {
		if _, ok := p.list(); !ok {
			p.i++
		}
	}
}

// partsInFabrics reads "N1 in patt as established and N2 in St st": what each needle or part
// goes on in.
func (p *parser) partsInFabrics() bool {
	back := p.i
	for n := 0; ; n++ {
		p.skip("the", "across", "over")
		if _, _, ok := p.needle(); !ok {
			if part := p.partWord(); part == 0 {
				break
			}
		}
		p.any("sts", "ndl")
		if !p.any("in") || !p.fabric(&script.Plain{}, true) {
			break
		}
		end := p.i
		p.skip(",", ";", "and", "with", "but")
		if back = p.i; !p.is("until") && !p.is("for") && !p.is("to") {
			continue
		}
		p.i = end
		return true
	}
	p.i = back
	return false
}

// remark passes over "(1st row = right side)".
func (p *parser) remark() bool {
	if !p.is("(") || p.ahead(1).kind != ordToken {
		return false
	}
	back := p.i
	for !p.done() && !p.is(")") {
		p.i++
	}
	if !p.eat(")") {
		p.i = back
		return false
	}
	return true
}

// slipFirst reads that the first stitch of each row is slipped: "slipping the first st of
// every row", "first st of each row slipped", "each beginning sl 1".
func (p *parser) slipFirst() bool {
	back := p.i
	p.skip("always", "with", "and")
	switch {
	case p.any("slipping", "sl"):
		p.any("the")
		if !p.any("first") {
			if p.peek().val != 1 { // "1st", "1"
				break
			}
			p.i++
		}
		p.any("sts")
		p.eachRow()
		return true
	case p.any("each", "every"):
		p.any("row")
		if !p.any("beg") {
			break
		}
		p.any("with")
		if p.phrase("a sl sts", "a slipped sts") {
			return true
		}
	default:
		p.any("the")
		if !p.any("first") || !p.any("sts") || !p.eachRow() && !p.is("slipped") {
			break
		}
		p.skip("being", "is", "always")
		if p.any("slipped") {
			return true
		}
	}
	p.i = back
	return false
}

// eachRow reads "of every row", "at the beginning of each row", "every time".
func (p *parser) eachRow() bool {
	back := p.i
	p.skip("of", "on", "in", "at", "the", "beg", "for")
	if !p.any("each", "every", "all") {
		p.i = back
		return false
	}
	p.any("one")
	p.any("row", "times")
	return true
}

// rowsAhead tells whether a number of rows stands next: "28 (30, 34) rows of st st".
func (p *parser) rowsAhead() bool {
	start := p.i
	defer func() { p.i = start }()
	p.quiet++
	defer func() { p.quiet-- }()
	_, ok := p.number()
	if p.sentenceHas("slipped") { // "24 flap rows, first st slipped"
		p.partWord()
	}
	p.any("plain")
	return ok && (p.is("row") || p.is("rnd"))
}

package reader

import (
	"slices"

	"sockwright/internal/pattern"
	"sockwright/internal/script"
)

// plain reads rounds that are all alike: "Knit 48 rnds", "Work even until foot measures 7
// in", "Work 30 rows in st st, slipping the first st of every row, ending with a p row".
func (p *parser) plain() bool {
	start := p.i
	n := script.Plain{Flat: p.flat}
	p.skip("then", "now")
	p.overThese()
	told, side := false, script.NoSide
	knit := func() {
		n.Steps = []script.Step{{At: p.toks[start].at, Op: script.Knit, Uses: 1, Makes: 1, To: script.End}}
	}
	switch {
	case p.is("k") && p.ribAhead():
		n.Steps, _ = p.ribWords()
		n.Fabric = "rib"
		told = p.any("rib")
	case p.any("k"):
		if back := p.i; true { // "k 40 sts every rnd"
			if _, ok := p.number(); !ok || !p.any("sts") || !p.is("every") && !p.is("each") {
				p.i = back
			}
		}
		knit()
	case p.any("p"):
		n.Steps = []script.Step{{At: p.toks[start].at, Op: script.Purl, Uses: 1, Makes: 1, To: script.End}}
	case p.phrase("plain k", "plain"):
		knit()
		told = true
	case p.is("worked", "for"):
		p.i++
	case p.any("work", "cont"), p.phrase("carry on", "go on", "keep on", "proceed"):
		p.skip("to", "work", "k", "p", "on")
		told = p.partsInFabrics()
	case p.any("rib"):
		n.Fabric = "rib"
		p.phrase("=", "in rnd of", "in row of", "in")
		if steps, ok := p.ribWords(); ok {
			n.Steps = steps
			told = true
		}
	case p.rowsAhead():
	default:
		return false
	}
loop:
	for {
		back := p.i
		switch {
		case p.phrase("every rnd plain", "every rnd", "every row", "each rnd", "all rnd", "in the rnd", "in rnd", "one rnd"):
			if p.toks[p.i-2].w == "one" {
				n.Stop = script.Stop{Kind: script.Rows, N: pattern.Of(1)}
			}
			told = true
			continue
		case p.phrase("in k rnd", "in plain rnd", "in plain k rnd", "in rnd of k", "in rnd of plain k"):
			knit()
			told = true
			continue
		case p.phrase("even", "plain", "straight", "without shaping", "as set", "as established", "as est", "in this way", "in this manner", "so", "as before", "as given", "foll"):
			told = true
			continue
		case p.phrase("back and forth over the heel sts", "back and forth on the heel sts", "back and forth", "to and fro", "over the heel sts", "on the heel sts", "on heel sts", "over heel sts", "in the heel"):
			n.Flat = true
			continue
		case p.remark():
			continue
		case p.is("in", "rnd", "of"), p.is("in", "row", "of"):
			p.i += 3
			continue
		case p.colourWith():
			continue
		case p.phrase("with the foot", "with foot", "in the same way", "around", "all rnd", "across"):
			continue
		case p.phrase("and p in turn", "and p row by row", "a row and p a row alt", "and p alt", "and p by turn", "and p row in turn", "and p row by turn"):
			n.Flat, told, n.Steps, n.Fabric = true, true, nil, "stockinette"
			continue
		case p.rowsInTurn():
			n.Flat, told, n.Steps, n.Fabric = true, true, nil, "stockinette"
			continue
		case p.is("in") || p.is("of"):
			p.i++
			if p.fabric(&n, true) {
				told = true
				continue
			}
			p.i = back
			break loop
		case p.fabric(&n, false):
			told = true
			continue
		case p.is("on") || p.is("over"):
			p.i++
			p.skip("all", "the", "these", "rem")
			if c, ok := p.claim(); ok {
				n.Claims = append(n.Claims, c)
				continue
			}
			if part := p.partWord(); p.any("sts", "ndl") || part != script.NoPart { // "over these sts only"
				p.skip("only", "alone")
				continue
			}
			p.i = back
			break loop
		case p.is(","), p.is("and"), p.is(";"):
			p.i++
			if p.slipFirst() {
				n.SlipFirst, told = true, true
				continue
			}
			if p.phrase("slipping m", "slipping the m", "slipping all m", "sl m as you come to them", "slipping m as you come to them", "slipping each m") {
				continue
			}
			if p.phrase("beg with a k row", "beg with a p row", "beg with a rs row", "beg with a ws row") {
				continue
			}
			if p.phrase("the last row being a p one", "the last being a p row", "the last row a p one", "the last row being a k one") {
				continue
			}
			if p.phrase("keeping", "maintaining", "with the seam", "with the m") {
				p.passClause()
				continue
			}
			if p.is("about") || p.is("approx") {
				p.i++
				if l, ok := p.length(); ok {
					n.About = l
					continue
				}
			}
			if p.phrase("ending with", "finishing with", "ending on", "ending") {
				p.skip("a", "an")
				switch {
				case p.any("p", "ws"):
					side = script.WS
				case p.any("k", "rs"):
					side = script.RS
				}
				if p.any("plain") || side != script.NoSide {
					p.skip("row", "rnd")
					continue
				}
			}
			if c, ok := p.claim(); ok && (c.What == script.Live || c.What == script.Total) && (p.is(",") || p.is(".") || p.clauseEnd()) {
				n.Claims = append(n.Claims, c)
				continue
			}
			if n.Stop.Kind == script.NoStop {
				if stop, ok := p.stopping(true); ok && stop.Kind != script.Times && stop.Kind != script.More {
					n.Stop, told = stop, true
					continue
				}
			}
			p.i = back
			break loop
		case p.is("(") && p.ahead(1).kind == numToken, p.is("or"), p.is("-") && p.ahead(1).kind == numToken:
			p.i++
			p.skip("about", "approx")
			if l, ok := p.length(); ok && n.Stop.Kind == script.Rows {
				n.About = l
				p.any(")")
				continue
			}
			p.i = back
			break loop
		case p.slipFirst():
			n.SlipFirst, told = true, true
			continue
		}
		if n.Stop.Kind == script.NoStop {
			if stop, ok := p.stopping(true); ok && stop.Kind != script.Times && stop.Kind != script.More && stop.Kind != script.InAll && stop.Kind != script.Remain {
				n.Stop, told = stop, true
				if stop.Kind == script.Rows || stop.Kind == script.MoreRows {
					n.Flat = n.Flat || p.toks[p.i-1].w == "row"
				}
				continue
			}
		}
		p.i = back
		break
	}
	if !told || !p.clauseEnd() && !p.is("-") && !p.is("and") {
		return false
	}
	if p.is(":") {
		return false
	}
	if n.Stop.Side == script.NoSide {
		n.Stop.Side = side
	}
	n.Claims = append(n.Claims, p.claimsBehind()...)
	n.Base = p.base(start)
	emit(p, n)
	return true
}

// overThese takes "over these sts," before what is worked on them.
func (p *parser) overThese() {
	back := p.i
	if p.any("over", "on") && p.any("these", "those", "all") {
		p.skip("the")
		p.partWord()
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

// ribAhead tells whether a rib is named here: "k1, p1 rib".
func (p *parser) ribAhead() bool {
	back := p.i
	defer func() { p.i = back }()
	_, ok := p.ribWords()
	return ok && p.is("rib")
}

// fabric reads the name of a fabric.
func (p *parser) fabric(n *script.Plain, in bool) bool {
	p.skip("the", "a")
	switch {
	case p.any("st-st", "stockinette"), p.phrase("sts sts", "stockinette sts", "plain k"):
		p.any("sts")
		n.Fabric = "stockinette"
	case p.any("rib", "ribs"):
		n.Fabric = "rib"
		p.skip("as", "set")
	case p.any("garter"):
		p.any("sts")
		n.Fabric = "garter"
	case p.is("k") && p.ahead(1).kind == numToken, p.is("(") && p.ahead(1).w == "k", p.is("*") && p.ahead(1).w == "k":
		if steps, ok := p.ribWords(); ok {
			n.Steps, n.Fabric = steps, "rib"
			p.any("rib")
			return true
		}
		return false
	case p.peek().kind == numToken && (p.ahead(1).w == "plain" || p.ahead(1).w == "k"):
		steps, ok := p.ribWords()
		if !ok {
			return false
		}
		n.Steps, n.Fabric = steps, "rib"
		p.phrase("the whole way rnd", "all the way rnd", "the whole rnd", "all rnd", "around", "alt", "rib")
	case p.peek().kind == numToken && (p.ahead(1).w == "x" || p.ahead(1).w == "/") && p.ahead(2).kind == numToken: // "2x2 rib"
		a, b := p.peek().val, p.ahead(2).val
		back := p.i
		p.i += 3
		if !p.any("rib") {
			p.i = back
			return false
		}
		n.Fabric = "rib"
		n.Steps = ribSteps(pattern.Of(int(a)), pattern.Of(int(b)))
	case p.phrase("patt", "est patt", "established patt", "lace patt", "patt as set", "patt as established", "chart", "lace", "chart patt"):
		n.Fabric = "patt"
		p.skip("as", "set", "established")
	case in && p.phrase("heel sts"):
	case p.phrase("same way", "this way", "heel patt", "heel-st", "eye-of-partridge", "sl sts patt"):
	default:
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
		if !p.any("first") || !p.any("sts") || !p.eachRow() {
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

// ribWords reads "k2, p2", ", two plain and two purl", "4 plain and 4 turned".
func (p *parser) ribWords() ([]script.Step, bool) {
	start := p.i
	p.skip(",", "of", "in", "(", "[", "*")
	if p.peek().kind == numToken {
		a, _ := p.number()
		if p.any("plain", "k") {
			p.skip("and", ",")
			if b, ok := p.number(); ok && p.any("p", "turned", "seam") {
				return ribSteps(a, b), true
			}
		}
		p.i = start
		return nil, false
	}
	p.i = start
	open := p.any("(", "[", "*")
	if p.any("k") {
		a, ok := p.number()
		p.eat("tbl")
		p.skip(",", "and", "/")
		if ok && p.any("p") {
			if b, ok := p.number(); ok {
				if open {
					p.any(")", "]", "*")
				}
				return ribSteps(a, b), true
			}
		}
	}
	p.i = start
	return nil, false
}

func ribSteps(a, b pattern.Number) []script.Step {
	body := []script.Step{{Op: script.Knit, Uses: 1, Makes: 1, N: a, At: a.At}, {Op: script.Purl, Uses: 1, Makes: 1, N: b, At: b.At}}
	return []script.Step{{Op: script.Group, Body: body, Stop: script.Stop{Kind: script.ToEnd}, At: a.At.To(b.At)}}
}

// divide reads how the heel is set apart.
func (p *parser) divide() bool {
	start := p.i
	d := script.Divide{Part: script.Heel}
	heel, flat := p.part == script.Heel, false
	p.skip("then", "now")
	if p.workedAlone(start) || p.areTheHeel(start) || p.restForInstep(start) || p.remForHeel(start) {
		return true
	}
	// "Take half the stitches, 36, on one needle", "Slip first 30 sts on to one needle for heel"
	if back := p.i; p.phrase("for the heel", "for heel") {
		heel = true
		p.skip(",")
		if !p.is("bring") && !p.is("take") && !p.is("sl") && !p.is("place") && !p.is("put") && !p.is("set") {
			p.i = back
		}
	}
	if p.any("take", "sl", "place", "put", "set", "transfer", "keep", "bring") {
		p.skip("the", "aside")
		switch {
		case p.any("half"):
			p.skip("of", "the")
			p.any("sts")
			p.skip(",", "(", "-")
			if n, ok := p.number(); ok {
				d.N = n
				p.any("sts")
				p.any(",", ")")
			}
		default:
			p.from(&d)
			n, ok := p.number()
			if !ok {
				return false
			}
			d.N = n
			if p.partWord() == script.Instep {
				return false
			}
			if p.is("of") && p.ofAll() { // "the last 30 of the 60 sts"
				p.i--
			}
			if !p.any("sts") {
				return false
			}
			if p.is("and") { // "the last 15 sts and the first 15 sts"
				back := p.i
				p.i++
				var other script.Divide
				p.from(&other)
				if n, ok := p.number(); ok && p.any("sts") {
					d.Plus = n
				} else {
					p.i = back
				}
			}
		}
		p.phrase("of the rnd", "of rnd")
		on, hold := false, false
		for p.phrase("on to", "onto", "on", "upon") {
			p.skip("one", "a", "the", "spare", "to")
			if _, _, ok := p.needle(); ok {
				on = true
			}
			on = p.any("ndl") || on
			hold = p.any("holder", "thread", "waste") || hold
			p.skip("holder", "yarn", "waste", "thread")
		}
		if hold && p.phrase("and work on", "and cont on", "and work back and forth on") { // "put the last 24 sts on a holder and work on the first 24"
			d.From = script.Unsaid
			p.from(&d)
			n, ok := p.number()
			if !ok {
				return false
			}
			d.N = n
			p.skip("sts", "only")
			heel, on = true, true
		} else if hold {
			return false
		}
		if p.phrase("for the heel", "for heel") {
			heel, on = true, true
		}
		if p.phrase("for the instep", "for instep", "on held", "on holder") || !on || !heel {
			return false
		}
		d.Base = p.base(start)
		emit(p, d)
		p.setPart(script.Heel)
		return true
	}
	// a bag of words, then "on the last 28 sts"
	if w := p.peek().w; w == "k" || w == "p" || w == "pick" {
		return false
	}
	found := false
	for !p.stop() && !p.is(":") && !p.is(";") && !(found && (p.is(",") || p.is("worked", "for"))) {
		back := p.i
		if p.any("on", "over", "across", "using") || p.i > start && p.is("of") && (p.toks[p.i-1].w == "flap" || p.toks[p.i-1].w == "heel") && p.eat("of") {
			p.skip("just")
			p.from(&d)
			p.skip("only")
			if n, part, ok := p.needle(); ok && n > 0 || ok && (part == script.Sole || part == script.Heel) { // "over the sts of needle 2"
				d.From, d.Needle = script.OnNeedle, n
				found = true
				continue
			}
			if n, ok := p.number(); ok {
				part := p.partWord()
				if part == script.Heel {
					heel = true
				} else if part != 0 {
					return false
				}
				if part == 0 && p.is("of") && p.ofAll() { // "over 30 of the 60 sts"
					p.i--
				}
				if !p.any("sts") {
					return false
				}
				if !found {
					d.N = n
				}
				found = true
				if p.eat("of") {
					p.skip("the", "rnd")
					if n, _, ok := p.needle(); ok && n > 0 {
						d.From, d.Needle = script.OnNeedle, n
					}
				}
				p.phrase("of rnd", "of the rnd", "only", "just worked", "for heel", "for the heel")
				continue
			}
			if p.is("heel", "sts") || p.is("these", "sts") || p.is("sts") || p.is("those", "sts") { // "on these sts only"
				p.i++
				p.skip("sts", "only", "alone", "for", "the", "heel")
				if d.N.Known() || found {
					continue
				}
				d.These, found = true, true
				continue
			}
			p.i = back
		}
		if p.inSections() {
			heel = true
			continue
		}
		switch t := p.peek(); t.w {
		case "heel", "flap":
			heel = true
		case "back", "forth", "fro", "flat":
			flat = true
		case "turn":
			flat, d.Turn = true, true
		case "rs", "ws":
			if p.ahead(1).w == "facing" {
				d.Side = map[string]script.Side{"rs": script.RS, "ws": script.WS}[t.w]
			}
		case "st-st", "stockinette":
			d.Fabric = "stockinette"
		case "worked", "work", "and", "to", "in", "row", "is", "the", "cup", "complete", ",", "-", "sts", "facing", "back-and-forth", "now", "be", "will", "only", "done", "beg", "over", "with", "for", "k", "p", "on", "purlwise", "right", "wrong", "side", "of", "both", "for-the":
		default:
			return false
		}
		p.i++
	}
	back := p.i
	p.skip(",", "and")
	if p.any("turn") {
		d.Turn, flat = true, true
		p.phrase("and work", "the work", "work")
		p.skip("as", "foll", "back", "and", "forth")
	} else {
		p.i = back
	}
	if !found || !heel && !flat {
		return false
	}
	if d.These && !flat && !heel {
		return false
	}
	d.Base = p.base(start)
	emit(p, d)
	p.setPart(script.Heel)
	p.flat = true
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
		p.i = start
		return false
	}
	p.from(&d)
	n, ok := p.number()
	if !ok || !p.any("sts") {
		p.i = start
		return false
	}
	d.N = n
	p.phrase("of the rnd", "of rnd")
	if !p.any("are", "form", "become", "make") {
		p.i = start
		return false
	}
	p.skip("for", "the", "used")
	switch p.partWord() {
	case script.Heel:
	case script.Instep:
		d.Part = script.Instep
	default:
		p.i = start
		return false
	}
	p.skip("sts")
	for !p.stop() && !p.is(";") {
		if p.is("st-st") || p.is("stockinette") || p.is("sts", "sts") {
			d.Fabric = "stockinette"
		}
		p.i++
	}
	d.Base = p.base(start)
	emit(p, d)
	p.setPart(script.Heel)
	p.flat = true
	return true
}

// workedAlone reads that only some stitches are worked from here on: "turn; only the last 28
// sts are worked from here", "From now on work the first 30 sts only".
func (p *parser) workedAlone(start int) bool {
	d := &script.Divide{Part: script.Heel, Turn: p.any("turn")}
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
	p.from(d)
	n, ok := p.number()
	if !ok || !p.any("sts") {
		return p.restore(start)
	}
	d.N = n
	p.phrase("of the rnd", "of rnd")
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
	d.Base = p.base(start)
	p.add(d)
	p.setPart(script.Heel)
	p.flat = true
	return true
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
	if !p.any("sl", "place", "put", "leave", "transfer", "keep") {
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
	d.Base = p.base(start)
	emit(p, d)
	p.setPart(script.Heel)
	p.flat = true
	return true
}

// remForHeel reads "On to one needle work the rem 28 sts for heel".
func (p *parser) remForHeel(start int) bool {
	d := script.Divide{Part: script.Heel}
	p.phrase("on to one ndl", "onto one ndl", "on one ndl", "with one ndl", "upon one ndl")
	p.skip(",")
	if !p.any("work", "sl", "take", "keep", "use", "place") {
		p.i = start
		return false
	}
	p.from(&d)
	n, ok := p.number()
	if !ok || !p.any("sts") || !p.phrase("for heel", "for the heel", "for heel flap", "for the heel flap") {
		p.i = start
		return false
	}
	d.N = n
	p.skip("as", "foll", "in", "row", "back", "and", "forth", "thus")
	if !p.clauseEnd() {
		p.i = start
		return false
	}
	d.Base = p.base(start)
	emit(p, d)
	p.setPart(script.Heel)
	p.flat = true
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

func (p *parser) setPart(part script.Part) { p.part = part }

// waste reads a heel that is placed with waste yarn: the count does not change.
func (p *parser) waste() bool {
	start := p.i
	if p.any("k") { // "k 26 with waste yarn"
		if n, ok := p.number(); ok {
			p.any("sts")
			if p.phrase("with waste yarn", "with scrap yarn", "with the waste yarn", "in waste yarn") {
				for !p.stop() {
					p.i++
				}
				p.add(&script.State{Base: p.base(start), Claims: []script.Claim{{What: script.OfPart, Part: script.Heel, N: n, At: n.At, Soft: true}}})
				return true
			}
		}
		p.i = start
		return false
	}
	if !p.phrase("with waste yarn", "using waste yarn", "with scrap yarn", "with contrast waste yarn", "with a length of waste yarn", "with a piece of waste yarn") {
		return false
	}
	p.skip(",")
	p.any("k")
	p.from(&script.Divide{})
	n, ok := p.number()
	if !ok {
		return false
	}
	p.partWord()
	p.any("sts")
	for !p.stop() {
		p.i++
	}
	p.add(&script.State{Base: p.base(start), Claims: []script.Claim{{What: script.OfPart, Part: script.Heel, N: n, At: n.At, Soft: true}}})
	return true
}

// arrange reads "Arrange 32 sts for sole, 32 sts for instep", "Arrange on three needles".
func (p *parser) arrange() bool {
	start := p.i
	p.skip("now", "then", "all")
	p.forPart()
	sts := p.phrase("sts are", "the sts are")
	if !p.any("arrange", "arranged", "divide", "divided", "distribute", "set", "split", "place", "put", "lay", "keep") {
		return false
	}
	loose := slices.Contains([]string{"place", "put", "lay", "keep"}, p.toks[p.i-1].w) // they do other things besides
	if p.toks[p.i-1].w == "set" && !sts {
		return false
	}
	p.skip("the", "sts", "so", "that", "as", "foll", ":", "with", "them", "all", "evenly", "over", "on", "onto", ",", "these")
	a := script.Arrange{}
	if t := p.peek(); t.kind == numToken && p.ahead(1).w == "ndl" {
		a.Even = int(t.val)
		p.i += 2
		p.phrase("with the same number on each", "equally", "evenly")
		if p.any(":", ",", "(") {
			a.Claims = p.claims()
		}
		a.Base = p.base(start)
		emit(p, a)
		return true
	}
	a.Claims = p.claims()
	if len(a.Claims) == 0 || loose && len(a.Claims) < 2 {
		return false
	}
	p.phrase("again")
	a.Base = p.base(start)
	emit(p, a)
	return true
}

// forPart takes "for the toe," before an instruction.
func (p *parser) forPart() {
	back := p.i
	if p.any("for") {
		p.any("the")
		if p.partWord() != script.NoPart {
			p.any(",")
			return
		}
	}
	p.i = back
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

// close reads "Graft", "graft the 12 sole sts to the 12 instep sts", "fasten off".
func (p *parser) close() bool {
	start := p.i
	p.skip("now", "then", "and")
	if !p.any("graft", "break", "cut", "fasten", "draw", "join") || p.toks[p.i-1].w == "join" && !p.is("toe") {
		return false
	}
	word := p.toks[p.i-1].w
	if word == "draw" && (p.sentenceHas("ring") || p.sentenceHas("rnd") || p.sentenceHas("circle")) { // the beginning, not the end
		p.i = start
		return false
	}
	c := script.Close{}
	var claims []script.Claim
	for !p.stop() {
		if p.peek().kind == numToken {
			if cl, ok := p.claim(); ok {
				if cl.Part != 0 || cl.What == script.OnNdl {
					claims = append(claims, cl)
				}
				continue
			}
		}
		p.i++
	}
	if word == "break" || word == "cut" {
		return true // the yarn only
	}
	if claims != nil && word == "graft" {
		for i := range claims {
			if claims[i].What == script.Live {
				claims[i].What = script.OfPart
			}
		}
		p.add(&script.State{Base: p.base(start), Claims: claims})
	}
	c.Base = p.base(start)
	emit(p, c)
	return true
}

// sentenceHas tells whether a word stands between here and the end of the sentence.
func (p *parser) sentenceHas(word string) bool {
	for i := p.i; i < len(p.toks) && p.toks[i].w != "."; i++ {
		if p.toks[i].w == word {
			return true
		}
	}
	return false
}

// facing reads "outside of the sock facing you", "RS facing".
func (p *parser) facing() bool {
	start := p.i
	p.skip("with", "the")
	f := script.Facing{}
	switch {
	case p.any("rs", "outside"), p.phrase("right side"):
		f.Side = script.RS
	case p.any("ws", "inside"), p.phrase("wrong side"):
		f.Side = script.WS
	default:
		return false
	}
	p.skip("of", "the", "sock", "work", "is", "now")
	if !p.any("facing", "faces") {
		return false
	}
	p.skip("you", "the", "knitter")
	f.Base = p.base(start)
	emit(p, f)
	return true
}

// rowsAhead tells whether a number of rows stands next: "28 (30, 34) rows of st st".
func (p *parser) rowsAhead() bool {
	start := p.i
	defer func() { p.i = start }()
	p.quiet++
	defer func() { p.quiet-- }()
	_, ok := p.number()
	return ok && (p.is("row") || p.is("rnd"))
}

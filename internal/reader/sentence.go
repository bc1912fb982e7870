package reader

import (
	"sockwright/internal/pattern"
	"sockwright/internal/script"
)

// sentence reads one sentence, or a clause of one, and adds what it says to the items. It
// returns false where no rule takes the words.
func (p *parser) sentence() bool {
	for _, rule := range rules {
		start, faults, items := p.i, len(p.out.Faults), len(p.items)
		if rule.read(p) {
			if p.i > start {
				return true
			}
		}
		p.i, p.out.Faults, p.items = start, p.out.Faults[:faults], p.items[:items]
	}
	return false
}

// rules are tried in this order.
var rules []struct {
	name string
	read func(*parser) bool
}

func init() {
	rules = append(rules, []struct {
		name string
		read func(*parser) bool
	}{
		{"row", (*parser).row},
		{"at the same time", (*parser).sameTime},
		{"cast on", (*parser).castOn},
		{"lift", (*parser).lift},
		{"alternate", (*parser).alternate},
		{"shape", (*parser).shape},
		{"repeat", (*parser).repeat},
		{"turn on", (*parser).turnOn},
		{"plain", (*parser).plain},
		{"resume", (*parser).resume},
		{"divide", (*parser).divide},
		{"unwrap", (*parser).unwrap},
		{"waste yarn", (*parser).waste},
		{"arrange", (*parser).arrange},
		{"close", (*parser).close},
		{"facing", (*parser).facing},
		{"state", (*parser).state},
		{"steps", (*parser).looseSteps},
	}...)
}

func (p *parser) add(i script.Item) { p.items = append(p.items, i) }

// row reads a labelled row.
func (p *parser) row() bool {
	start := p.i
	l, ok := p.label()
	if !ok {
		return false
	}
	if l.Name == "next" && len(l.Nums) == 0 && p.shapeAfterLabel(start) {
		return true
	}
	p.flat = !l.Round
	p.asSaid()
	r := &script.Row{Label: l, Flat: !l.Round}
	if of, ok := p.sameAs(); ok {
		r.Steps = of
	} else if r.Steps, ok = p.rowSteps(); !ok {
		return false
	}
	for p.phrase("in patt", "as set", "as established") {
	}
	// "… for 16 rnds"
	if stop, ok := try(p, func() (script.Stop, bool) { p.skip(",", ";"); return p.stopping(false) }); ok && stop.Kind != script.NoStop {
		r.Stop = &stop
	}
	r.Claims = p.claimsBehind()
	r.Base = p.base(start)
	p.emitRow(r)
	if !p.stop() && !p.is(")") && !p.is(";") && !p.is(",") && !p.is("-") && !p.is(":") && !p.is("(") {
		p.stumble(r.Label.Said)
	}
	return true
}

// asSaid takes lead words of a row: "N1, " is read by the steps.
func (p *parser) asSaid() { p.skip("then", "now") }

// rowSteps reads the steps of a row; a plain word is one that works it all.
func (p *parser) rowSteps() ([]script.Step, bool) {
	if p.phrase("a plain k rnd", "is a plain k rnd", "plain k", "plain k rnd", "k plain", "work plain", "work even", "k even", "is a plain rnd") {
		return []script.Step{{Op: script.Knit, Uses: 1, Makes: 1, To: script.End, At: p.toks[p.i-1].at}}, true
	}
	return p.steps()
}

// sameAs reads "as row 2", "as 2nd row", "rep row 2", "work as for Rnd 1".
func (p *parser) sameAs() ([]script.Step, bool) {
	back := p.i
	if p.phrase("as for", "as", "work as for", "work as", "rep", "same as", "like", "k as for", "as given for") {
		var l script.Label
		t := p.peek()
		switch {
		case t.w == "row" || t.w == "rnd":
			p.i++
			p.rowNumbers(&l)
		case t.kind == ordToken:
			if !p.ordinalRows(&l) {
				l.Nums = nil
			}
		case t.w == "first" && (p.ahead(1).w == "row" || p.ahead(1).w == "rnd"):
			p.i += 2
			l.Nums = []int{1}
		}
		if len(l.Nums) == 1 {
			for i := len(p.rows) - 1; i >= 0; i-- {
				for _, n := range p.rows[i].Label.Nums {
					if n == l.Nums[0] {
						return p.rows[i].Steps, true
					}
				}
			}
		}
	}
	p.i = back
	return nil, false
}

// emitRow adds a row; one that turns in its midst becomes several.
func (p *parser) emitRow(r *script.Row) {
	p.rows = append(p.rows, r)
	for i, s := range r.Steps {
		turns := s.Op == script.Turn || s.Op == script.Wrap
		if turns && i < len(r.Steps)-1 {
			head := *r
			head.Steps, head.Claims, head.Stop = r.Steps[:i+1], nil, nil
			tail := *r
			tail.Steps = r.Steps[i+1:]
			tail.Label.Nums, tail.Label.Side, tail.Label.Said = nil, 0, false
			p.add(&head)
			p.emitRow(&tail)
			return
		}
	}
	p.add(r)
}

// looseSteps reads steps without a label: a row that is told in prose.
func (p *parser) looseSteps() bool {
	start := p.i
	p.skip("now", "then", "on", "so", "next")
	if p.i > start && p.peek().w == "the" {
		p.i = start
	}
	steps, ok := p.steps()
	if !ok || !p.clauseEnd() && !p.is("until") && !p.is("for") && !p.is("-") || !worksStitches(steps) {
		return false
	}
	r := &script.Row{Steps: steps, Flat: p.flat}
	if stop, ok := try(p, func() (script.Stop, bool) { return p.stopping(false) }); ok && stop.Kind != script.NoStop {
		r.Stop = &stop
	}
	r.Claims = p.claimsBehind()
	r.Base = p.base(start)
	p.emitRow(r)
	return true
}

// worksStitches tells whether steps do something that is worth a row.
func worksStitches(steps []script.Step) bool {
	for _, s := range steps {
		switch s.Op {
		case script.PlaceMarker, script.ToNeedle, script.Unknown:
		default:
			return true
		}
	}
	return false
}

// castOn reads "CO 64 sts", "Cast 40 loops upon each of three pins", "Put on 72 stitches".
func (p *parser) castOn() bool {
	start := p.i
	p.skip("with", "using")
	p.i = start
	for n := 0; n < 12 && !p.stop(); n++ { // "Using the long-tail method, CO 64 sts"
		if p.is("co") || p.is("cast") || p.is("put", "on") || p.is("wind") {
			break
		}
		p.i++
	}
	switch {
	case p.eat("co"), p.eat("cast", "on"), p.eat("put", "on"), p.eat("wind"):
	case p.eat("cast"):
	default:
		return false
	}
	p.skip("loosely", "on", "a", "total", "of", "on")
	n, ok := p.number()
	if !ok {
		return false
	}
	p.skip("sole", "toe")
	p.any("sts")
	c := &script.CastOn{N: n}
	back := p.i
	p.skip("on", "onto", "upon", "to")
	if p.any("each", "both") {
		p.skip("of", "the")
		if p.toks[p.i-1].w == "both" {
			c.On = 2
		}
		if t := p.peek(); t.kind == numToken {
			c.On = int(t.val)
			p.i++
		}
		if !p.any("ndl") {
			p.skip("side")
		}
		if c.On == 0 {
			c.On = 2
		}
	} else {
		p.i = back
	}
	c.Base = p.base(start)
	p.add(c)
	p.began = true
	if claims := p.claimsBehind(); claims != nil {
		p.add(&script.State{Base: p.base(start), Claims: claims})
	}
	return true
}

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
	for { // "…, ending with a WS row"
		back := p.i
		p.skip(",", ";", "and")
		if p.phrase("ending with", "ending after", "ending on", "finishing with", "ends with", "ending at", "end with", "ending", "end after") {
			p.skip("a", "an", "the")
			switch {
			case p.any("ws"), p.phrase("wrong side"), p.is("p", "row"):
				s.Side = script.WS
				p.skip("p")
			case p.any("rs"), p.phrase("right side"), p.is("k", "row"):
				s.Side = script.RS
				p.skip("k")
			case p.is("plain", "row"):
				p.i++
				s.Side = script.NoSide
			case p.is("row") || p.is("rnd"):
				if p.ahead(1).kind == numToken {
					s.Row = int(p.ahead(1).val)
					p.i += 2
					continue
				}
			case p.peek().kind == ordToken:
				s.Row = int(p.peek().val)
				p.i++
			default:
				p.i = back
				return s, true
			}
			p.skip("row", "rnd", "facing")
			continue
		}
		p.i = back
		return s, true
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
	case p.any("until"), p.any("to"), p.phrase("up to"):
		return p.until()
	}
	p.any("a")
	length := p.any("for")
	p.skip("a", "another", "total", "of", "about")
	more := p.any("more")
	back := p.i
	if l, ok := p.length(); ok {
		if !length && !more && !bare {
			return s, false
		}
		p.skip("more", "in", "all", "total", "long", "only")
		return script.Stop{Kind: script.Measures, Length: l}, true
	}
	p.i = back
	n, ok := p.number()
	if !ok {
		return s, false
	}
	more = p.any("more") || more
	switch {
	case p.any("times"):
		s.Kind, s.N = script.Times, n
		if p.any("more") || more {
			s.Kind = script.More
		}
		if p.phrase("in all", "in total", "altogether", "total", "all told") {
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

// until reads what is to hold at the end: "60 sts rem", "piece measures 7 in", "all sts are
// worked", "there are 8 wrapped sts at each side".
func (p *parser) until() (s script.Stop, ok bool) {
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
	if p.phrase("the foll sts rem", "foll sts rem", "these sts rem") {
		p.any(":")
		s.Kind = script.Split
		s.Claims = p.claims()
		return s, true
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
	claims := p.claims()
	if len(claims) == 0 {
		p.i = back
		if n, ok := p.number(); ok && p.any("rem") {
			return script.Stop{Kind: script.Remain, N: n}, true
		}
		return s, false
	}
	s.Claims = claims
	switch c := claims[0]; {
	case c.What == script.WrapEach:
		s.Kind, s.N = script.Wrapped, c.N
	case c.What == script.WrapNone:
		s.Kind, s.N = script.Unwrapped, c.N
	case c.What == script.Live || c.What == script.Total:
		s.Kind, s.N = script.Remain, c.N
	default:
		s.Kind = script.Split
	}
	return s, true
}

// usedUp reads "all side sts are used", "no sts are left beyond the gaps", "every heel st
// has been worked", "the side stitches are used up".
func (p *parser) usedUp() bool {
	back := p.i
	used, all := false, false
	for !p.stop() && !p.is(",") && !p.is(":") && !p.is("and") && !p.is("-") {
		switch t := p.peek(); t.w {
		case "all", "every", "no", "each", "the":
			all = all || t.w != "the" || p.is("the", "side")
		case "used", "worked", "beyond", "up", "done", "incorporated", "consumed", "knit", "decreased", "dec'd":
			used = used || t.w != "up"
		case "k", "sts", "side", "heel", "has", "been", "are", "is", "rem", "end", "both", "flap", "on", "of", "gap", "waiting", "in", "at", "to", "sections":
		default:
			if t.kind == numToken {
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

// measured reads "piece measures 7 in [from …]", "the leg is eleven inches long".
func (p *parser) measured() (*script.Length, bool) {
	p.skip("the", "your", "whole", "entire")
	switch {
	case p.any("piece", "work", "sock", "cuff", "leg", "foot", "rib", "heel", "flap", "toe", "it", "ribbed", "tube", "garter", "stocking", "total"):
		p.any("flap", "section", "length", "rib", "band")
	case p.any("measures"):
		l, ok := p.length()
		return l, ok
	default:
		return nil, false
	}
	if !p.any("measures", "is", "has", "reaches", "are") {
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

// ref reads which rows are meant: "Rows 1 and 2", "these 2 rows", "the last 2 rnds", "3rd
// and 4th rows", "the dec rnd", "them".
func (p *parser) ref() (r script.Ref, ok bool) {
	back := p.i
	var l script.Label
	switch t := p.peek(); {
	case t.w == "row" || t.w == "rnd":
		p.i++
		r.Round = t.w == "rnd"
		p.rowNumbers(&l)
		if len(l.Nums) == 0 {
			p.i = back
			return r, false
		}
		r.Nums = l.Nums
		return r, true
	case t.kind == ordToken && p.ordinalRows(&l):
		r.Nums, r.Round = l.Nums, l.Round
		return r, true
	}
	p.i = back
	if p.eat("from") {
		if r, ok := p.ref(); ok && r.Nums != nil {
			return r, true
		}
		p.i = back
		return r, false
	}
	if p.any("them") {
		r.Last = -1
		return r, true
	}
	if p.phrase("patt", "the patt") && !p.is("rnd") && !p.is("row") {
		r.Last = -1
		return r, true
	}
	p.i = back
	named := p.any("the", "these", "this", "those", "last", "previous", "both", "all")
	p.skip("last", "previous", "foll", "above", "preceding", "same")
	t := p.peek()
	switch {
	case t.kind == numToken && (p.ahead(1).w == "row" || p.ahead(1).w == "rnd"):
		if !named {
			p.i = back
			return r, false
		}
		r.Last = int(t.val)
		r.Round = p.ahead(1).w == "rnd"
		p.i += 2
		return r, true
	case (t.w == "row" || t.w == "rnd") && named:
		r.Last, r.Round = 1, t.w == "rnd"
		p.i++
		return r, true
	case t.w == "dec" || t.w == "inc":
		p.i++
		if p.any("rnd", "row") {
			r.Name = t.w
			return r, true
		}
	}
	p.i = back
	return r, false
}

// repeat reads "Rep Rows 1 and 2 until …", "Work these 2 rows 14 times in all".
func (p *parser) repeat() bool {
	start := p.i
	p.skip("then", "now")
	lead := ""
	switch {
	case p.any("rep"):
		lead = "rep"
		p.skip("ing")
	case p.any("work", "cont", "k"):
		lead = p.toks[p.i-1].w
		p.skip("to", "work", "rep", "with", "in", "k")
	default:
		return false
	}
	r := &script.Repeat{}
	var ok bool
	if r.Ref, ok = p.ref(); !ok {
		if r.Ref, ok = p.refPattern(); !ok {
			if lead == "cont" || lead == "rep" {
				if stop, ok := try(p, func() (script.Stop, bool) {
					p.skip("in", "this", "way", "manner", "as", "set", "so", "to", ",")
					return p.stopping(false)
				}); ok && stop.Kind == script.UsedUp {
					r.Ref.Last, r.Stop = -2, stop
					r.Claims = p.claimsBehind()
					r.Base = p.base(start)
					p.add(r)
					return true
				}
			}
			return false
		}
	} else {
		p.ofPattern(&r.Ref)
	}
	p.skip("again")
	p.skip(",")
	if r.Stop, ok = p.stopping(true); !ok {
		switch {
		case p.toks[p.i-1].w == "again" || lead == "rep" && p.clauseEnd():
			r.Stop = script.Stop{Kind: script.More, N: pattern.Of(1)}
			if lead == "rep" && p.toks[p.i-1].w != "again" {
				r.Stop.N = pattern.Of(1)
			}
		case r.Ref.Pattern != "" && p.clauseEnd():
			r.Stop = script.Stop{Kind: script.Times, N: pattern.Of(1)}
		default:
			return false
		}
	}
	r.Claims = p.claimsBehind()
	r.Base = p.base(start)
	p.add(r)
	// "…, then rows 1 and 2 again: 30 rows"
	back := p.i
	if p.any(",") && p.eat("then") || p.eat("then") {
		from := p.i
		p.skip("rep", "work")
		if ref, ok := p.ref(); ok {
			again := &script.Repeat{Ref: ref, Stop: script.Stop{Kind: script.More, N: pattern.Of(1)}}
			if p.any("again") || p.eat("once", "more") || p.any("once") {
				again.Claims = p.claimsBehind()
				again.Base = p.base(from)
				p.add(again)
				return true
			}
		}
		p.i = back
	} else {
		p.i = back
	}
	return true
}

// ofPattern reads "of Reed patt" behind row numbers.
func (p *parser) ofPattern(r *script.Ref) {
	back := p.i
	if p.any("of", "from", "in") {
		p.skip("the")
		for n := 0; n < 4 && !p.clauseEnd(); n++ {
			t := p.peek()
			p.i++
			if t.w == "patt" || t.w == "chart" || t.w == "lace" {
				name := p.patternNamed(p.toks[back+1 : p.i])
				if name != "" {
					r.Pattern = name
					p.skip("patt", "chart")
					return
				}
			}
		}
	}
	p.i = back
}

// refPattern reads the name of a stitch pattern that the text has told before.
func (p *parser) refPattern() (r script.Ref, ok bool) {
	back := p.i
	p.skip("the", "in", "across", "all", "of")
	for n := 1; n <= 4 && p.i+n <= len(p.toks); n++ {
		last := p.toks[p.i+n-1]
		if last.kind == punctToken || last.kind == lineToken {
			break
		}
		if last.w == "patt" || last.w == "chart" || last.w == "lace" || last.w == "rib" {
			if name := p.patternNamed(p.toks[p.i : p.i+n]); name != "" {
				p.i += n
				p.skip("patt")
				r.Pattern = name
				p.skip("over", "on", "all", "sts")
				return r, true
			}
		}
	}
	p.i = back
	return r, false
}

// turnOn reads how a heel turn goes on: "cont, working to 1 st before the gap each time and
// closing it with ssk or p2tog then 1 st more", "go on to and fro over the middle, taking
// together one stitch from each side of the hole every time, until …".
func (p *parser) turnOn() bool {
	start := p.i
	if !p.any("cont") && !p.phrase("go on", "carry on", "work on") {
		return false
	}
	gap, more := false, false
	var stop script.Stop
	for !p.stop() {
		if p.is("until") {
			var ok bool
			if stop, ok = p.stopping(false); !ok {
				return false
			}
			break
		}
		switch p.peek().w {
		case "gap":
			gap = true
		case "more", "another":
			more = more || p.ahead(-1).w == "sts"
		}
		if gap && p.phrase("then 1 sts", "k1", "then one sts", "1 sts more", "then k", "work 1", "then work 1") {
			more = true
			continue
		}
		p.i++
	}
	if !gap {
		return false
	}
	if stop.Kind == script.NoStop {
		stop.Kind = script.UsedUp
	}
	at := p.since(start)
	steps := []script.Step{{At: at, Op: script.Work, Uses: 1, Makes: 1, To: script.Gap, Minus: pattern.Of(1)}, {At: at, Op: script.Decrease, Uses: 2, Makes: 1}}
	if more {
		steps = append(steps, script.Step{At: at, Op: script.Work, Uses: 1, Makes: 1, Optional: true})
	}
	steps = append(steps, script.Step{At: at, Op: script.Turn})
	p.add(&script.Plain{Base: p.base(start), Steps: steps, Flat: true, Stop: stop, Claims: p.claimsBehind()})
	return true
}

// alternate reads "Alternate a plain round and a dec round to 56 sts".
func (p *parser) alternate() bool {
	start := p.i
	p.skip("work")
	if !p.any("alt") {
		return false
	}
	plain, dec := false, false
	for !p.stop() && !p.is("to") && !p.is("until") {
		switch p.peek().w {
		case "plain", "k":
			plain = true
		case "dec", "inc":
			dec = true
		}
		p.i++
	}
	if !plain || !dec {
		return false
	}
	stop, ok := p.stopping(false)
	if !ok {
		return false
	}
	p.add(&script.Shape{Base: p.base(start), Name: "dec", Every: 2, Stop: stop, Claims: p.claimsBehind()})
	return true
}

// every reads "every other rnd", "every 4th rnd", "on every foll 6th rnd", "each rnd".
func (p *parser) every() (n int, ok bool) {
	back := p.i
	p.skip("on", "in", "at", "the", "and", "then")
	if p.any("alt") && p.any("rnd", "row") {
		return 2, true
	}
	p.i = back
	p.skip("on", "in", "at", "and", ",", "then")
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

// shapeWords reads what a shaping round does: "dec 4 sts", "dec 1 st at each side of
// instep", "k2tog at each end of the front needle", "take in four stitches", "dec in this
// way".
func (p *parser) shapeWords() (s *script.Shape, ok bool) {
	s = &script.Shape{}
	sign := 0
	switch {
	case p.any("dec"), p.phrase("take in"), p.any("narrow"), p.any("decreasing"):
		sign = -1
	case p.any("inc"), p.any("widen"):
		sign = 1
	case p.is("k2tog"), p.is("p2tog"), p.is("ssk"):
		sign = -1
		p.i++
		s.Change = pattern.Of(-1)
	case p.is("k") && p.ahead(1).kind == numToken && p.ahead(2).w == "tog":
		sign = -1
		p.i += 3
		s.Change = pattern.Of(-1)
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
	if n, ok := p.number(); ok {
		if !p.any("sts") {
			return nil, false
		}
		s.Change = n
		s.Change.Val = nil
		for _, v := range n.Val {
			if v == pattern.Gap {
				v = 0
			}
			s.Change.Val = append(s.Change.Val, int32(sign)*v)
		}
	} else if p.phrase("in this way", "thus", "as before", "like this", "in the same way", "in this manner", "so", "as set") {
		s.Name = name
	} else if !s.Change.Known() {
		if p.is("on") || p.is("every") || p.is("each") || p.is("at") { // "dec on Rnd 6 …"
			s.Name = name
		} else {
			return nil, false
		}
	}
	twice := false
	for p.where(&twice) {
	}
	if twice {
		for i := range s.Change.Val {
			s.Change.Val[i] *= 2
		}
	}
	return s, true
}

// where reads at which places a round is shaped. twice is set where they are two.
func (p *parser) where(twice *bool) bool {
	back := p.i
	p.skip(",")
	switch {
	case p.phrase("at each end", "at each side", "each side", "each end", "at both ends", "at both sides", "at either end", "at either side", "on each side", "on either side", "at beg and end", "before and after"):
		*twice = true
		p.skip("of", "the", "front", "instep", "ndl", "rnd", "row", "m", "back", "heel", "sole", "on", "centre", "sts")
		return true
	case p.phrase("evenly around", "evenly", "around", "across", "on the sole sts", "on sole sts", "on the heel side of the join", "on the instep", "on the sole", "on the heel side"):
		return true
	case p.peek().kind == numToken && p.peek().val == 1: // "one at each end of the top and one at each end of the sole"
		for !p.stop() && !p.is(",") && !p.is("until") {
			p.i++
		}
		return true
	}
	p.i = back
	return false
}

// shape reads shaping that does not tell every stitch.
func (p *parser) shape() bool {
	start := p.i
	p.skip("then", "now", "next", ",")
	if s, ok := try(p, p.shapeRef); ok {
		return p.finishShape(start, s)
	}
	s, ok := p.shapeWords()
	if !ok {
		return false
	}
	return p.finishShape(start, s)
}

// shapeRef reads "Rep Dec rnd every 6th rnd 5 more times".
func (p *parser) shapeRef() (*script.Shape, bool) {
	if !p.any("rep", "work", "cont") {
		return nil, false
	}
	p.skip("to", "work", "the", "this", "rep", "last")
	t := p.peek()
	if t.w != "dec" && t.w != "inc" && !(t.w == "rnd" || t.w == "row") {
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

func (p *parser) finishShape(start int, s *script.Shape) bool {
	told := false
	for {
		back := p.i
		p.skip(",", "and", "then")
		if n, ok := p.every(); ok {
			s.Every, told = n, true
			continue
		}
		if s.Stop.Kind == script.NoStop {
			if stop, ok := p.stopping(true); ok && stop.Kind != script.NoStop {
				s.Stop, told = stop, true
				continue
			}
		}
		p.i = back
		var twice bool
		if told && p.where(&twice) {
			continue
		}
		break
	}
	if !told && !s.Change.Known() || !p.clauseEnd() && !p.is("-") && !p.is("and") {
		return false
	}
	s.Claims = p.claimsBehind()
	s.Base = p.base(start)
	p.add(s)
	return true
}

// shapeAfterLabel reads "Next round: dec 1 st at each side" and "Next round, and every
// fourth round after it, knit two together at each end …, until 68 remain".
func (p *parser) shapeAfterLabel(start int) bool {
	back := p.i
	every := 0
	p.skip(",")
	if n, ok := p.every(); ok {
		every = n
		p.skip(",", ":")
	}
	s, ok := p.shapeWords()
	if !ok || s.Every == 0 && every == 0 && !s.Change.Known() {
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

// sameTime reads "AT THE SAME TIME, dec on Rnd 6 and on every foll 6th rnd thus: …".
func (p *parser) sameTime() bool {
	start := p.i
	p.skip("and")
	if !p.phrase("at the same times", "at same times", "meanwhile") {
		return false
	}
	p.skip(",", ":", "-")
	s, ok := p.shapeWords()
	if !ok {
		return false
	}
	back := p.i
	p.skip("on", "in", "at", "the")
	var l script.Label
	switch t := p.peek(); {
	case t.w == "rnd" || t.w == "row":
		p.i++
		p.rowNumbers(&l)
	case t.kind == ordToken && p.ordinalRows(&l):
	default:
		p.i = back
	}
	s.First = l.First()
	if n, ok := p.every(); ok {
		s.Every = n
		if s.First == 0 {
			s.First = n
		}
	}
	if s.First == 0 {
		return false
	}
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

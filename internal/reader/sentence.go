package reader

import (
	"slices"
	"strings"

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
		{"fewer", (*parser).fewer},
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
	if len(l.Nums) == 0 && p.shapeAfterLabel(start, l.Name) {
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
	steps, ok := p.steps()
	return byNeedle(steps), ok
}

// byNeedle puts steps that are told for several needles at once, "N1 and N3 - …; N2 and N4
// - …", in the order of the needles.
func byNeedle(steps []script.Step) []script.Step {
	type told struct {
		ndl   int
		steps []script.Step
	}
	var all []told
	double := false
	for i := 0; i < len(steps); {
		var ndls []script.Step
		for i < len(steps) && steps[i].Op == script.ToNeedle && steps[i].Needle > 0 {
			ndls = append(ndls, steps[i])
			i++
		}
		from := i
		for i < len(steps) && !(steps[i].Op == script.ToNeedle && steps[i].Needle > 0) {
			i++
		}
		if len(ndls) == 0 {
			return steps
		}
		double = double || len(ndls) > 1
		for _, n := range ndls {
			all = append(all, told{n.Needle, append([]script.Step{n}, steps[from:i]...)})
		}
	}
	if !double {
		return steps
	}
	slices.SortStableFunc(all, func(a, b told) int { return a.ndl - b.ndl })
	var out []script.Step
	for _, t := range all {
		out = append(out, t.steps...)
	}
	return out
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
	if !ok || !p.clauseEnd() && !p.is("until") && !p.is("for") && !p.is("-") && !p.is("(") && !p.is("=") || !worksStitches(steps) {
		return false
	}
	r := &script.Row{Steps: steps, Flat: p.flat}
	if stop, ok := try(p, func() (script.Stop, bool) { p.skip(",", ";"); return p.stopping(false) }); ok && stop.Kind != script.NoStop {
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
	more := p.any("another")
	p.skip("a", "another", "total", "of", "about")
	more = p.any("more") || more
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
		if p.phrase(", with the same number of wrapped sts on either side", "with the same number of wrapped sts on either side", "with the same number wrapped at each side", ", with as many wrapped sts at each side", "and the same number wrapped at each side") {
			s.Claims = append(s.Claims, script.Claim{What: script.WrapEach, At: p.toks[p.i-1].at})
		}
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
	for !p.stop() && !p.is(",") && !p.is(":") && !p.is("and") && !p.is("-") && !p.is("(") && !p.is("=") {
		switch t := p.peek(); t.w {
		case "all", "every", "no", "each", "the":
			all = all || t.w != "the" || p.is("the", "side")
		case "used", "worked", "beyond", "up", "done", "incorporated", "consumed", "dec'd", "taken", "off", "wait":
			used = used || t.w != "up" && t.w != "off"
		case "k", "sts", "gusset", "either", "side", "heel", "has", "been", "are", "is", "rem", "end", "both", "flap", "on", "of", "gap", "waiting", "in", "at", "to", "sections":
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
	if labelNames[p.peek().w] && (p.ahead(1).w == "row" || p.ahead(1).w == "rnd") && p.ahead(2).kind == numToken {
		p.i++
	}
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
	case p.phrase("so on", "go on so", "the same again", "do so"):
		lead = "cont"
		p.i--
		p.toks[p.i].w = "so"
	case p.any("rep"):
		lead = "rep"
		p.skip("ing")
	case p.phrase("go on"):
		lead = "cont"
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
					p.skip("in", "this", "way", "manner", "as", "set", "so", "to", ",", "like", "back", "and", "forth")
					return p.stopping(false)
				}); ok && (stop.Kind == script.UsedUp || stop.Kind == script.Ridges || stop.Kind == script.Rows && p.part == script.Heel || stop.Kind == script.Wrapped || stop.Kind == script.Unwrapped) {
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
	p.aside()
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
		if p.phrase("the row that beg with", "the row beg with", "the row that beg with") {
			if steps, ok := p.steps(); ok {
				if again := p.rowThatBegins(steps); again != nil && (p.eat("once", "more") || p.any("once", "again")) {
					row := &script.Row{Steps: again.Steps, Flat: again.Flat, Claims: p.claimsBehind()}
					row.Base = p.base(from)
					p.add(row)
					return true
				}
			}
		}
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

// aside passes over a remark between commas that stands before what ends a repeat: "Rep
// Rows 5 and 6, lifting two wraps where there are two, until …".
func (p *parser) aside() {
	if !p.is(",") {
		return
	}
	back := p.i
	p.i++
	if !strings.HasSuffix(p.peek().w, "ing") || p.is("ending") {
		p.i = back
		return
	}
	for !p.stop() {
		if p.is(",", "until") || p.is(",", "to") {
			return
		}
		p.i++
	}
	p.i = back
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

// rowThatBegins finds the last row whose first steps are these.
func (p *parser) rowThatBegins(steps []script.Step) *script.Row {
	for i := len(p.rows) - 1; i >= 0; i-- {
		r := p.rows[i]
		if len(r.Steps) < len(steps) {
			continue
		}
		same := true
		for k := range steps {
			a, b := steps[k], r.Steps[k]
			same = same && a.Op == b.Op && a.To == b.To && slices.Equal(a.N.Val, b.N.Val)
		}
		if same {
			return r
		}
	}
	return nil
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
		case "more", "another", "past":
			more = more || p.i > 0 && p.toks[p.i-1].w == "sts"
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
	turns := p.is("a", "k", "rnd", "and") || p.is("a", "dec", "rnd", "and") || p.is("a", "plain", "rnd", "and") // "… by turns"
	if !turns && !p.any("alt") {
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

// fewer reads "Cont in this way with 1 st fewer before the k2tog in every odd rnd until 8 sts
// rem": as many decreases a round as before.
func (p *parser) fewer() bool {
	start := p.i
	if !p.any("cont") && !p.phrase("go on") {
		return false
	}
	found := false
	for !p.stop() && !p.is("until") {
		found = found || p.is("fewer") || p.is("less")
		p.i++
	}
	if !found || !p.is("until") {
		return false
	}
	stop, ok := p.stopping(false)
	if !ok || stop.Kind != script.Remain {
		return false
	}
	p.add(&script.Shape{Base: p.base(start), Name: "fewer", Every: 2, Stop: stop, Claims: p.claimsBehind()})
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
	case p.is("k2tog"), p.is("p2tog"), p.is("ssk"), p.is("skp"):
		sign = -1
		p.i++
		n := -1
		for p.any("and", "or") {
			if !p.any("k2tog", "ssk", "skp", "p2tog") {
				return nil, false
			}
			if p.toks[p.i-2].w == "and" {
				n--
			}
		}
		s.Change = pattern.Of(n)
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
	case p.phrase("at each end", "at each side", "each side", "each end", "at both ends", "at both side", "at either end", "at either side", "on each side", "on either side", "at beg and end", "before and after"):
		*twice = true
		p.skip("of", "the", "front", "instep", "ndl", "rnd", "row", "m", "back", "heel", "sole", "on", "centre", "sts", "both")
		return true
	case p.phrase("before the first and 1 sts after the second m", "before first and 1 sts after second m", "at the end of n1 and at the beg of n3", "at end of n1 and beg of n3", "at the end of n1 and the beg of n3", "before the instep and after the instep", "before and after the instep"):
		*twice = true
		return true
	case p.phrase("at the same places", "in this way", "in the same places", "in the same way", "as before", "spaced", "evenly spaced"):
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
	if t.w != "dec" && t.w != "inc" && !(t.w == "rnd" || t.w == "row") && !(labelNames[t.w] && (p.ahead(1).w == "rnd" || p.ahead(1).w == "row")) {
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
		if p.is("(") && s.Stop.Kind == script.NoStop { // "(4 sts fewer each time) until"
			p.i++
			if c := p.claims(); len(c) == 1 && c[0].What == script.Change && p.any(")") {
				s.Change = c[0].N
				continue
			}
			p.i = back
		}
		p.skip(",", "and")
		if n, ok := p.every(); ok && s.Every == 0 {
			s.Every, told = n, true
			continue
		}
		p.i = back
		p.skip(",", "and")
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
	if !told && !s.Change.Known() || !p.clauseEnd() && !p.is("-") && !p.is("and") && !p.is("(") && !p.is("=") {
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

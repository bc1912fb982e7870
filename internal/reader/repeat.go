package reader

import (
	"slices"
	"strings"

	"sockwright/internal/pattern"
	"sockwright/internal/script"
)

// ref reads which rows are meant: "Rows 1 and 2", "these 2 rows", "the last 2 rnds", "3rd
// and 4th rows", "the dec rnd", "rows A and B", "them".
func (p *parser) ref() (script.Ref, bool) {
	for _, read := range []func() (script.Ref, bool){p.refSteps, p.refShort, p.refLettered, p.refKinds, p.refNumbered, p.refLast, p.refAll} {
		if r, ok := try(p, read); ok {
			return r, true
		}
	}
	return script.Ref{}, false
}

// refSteps reads steps of a text that is told in steps: "steps 9 and 10", "step b".
func (p *parser) refSteps() (r script.Ref, ok bool) {
	p.any("the")
	if !p.any("step") {
		return r, false
	}
	r.Names = p.stepNames()
	return r, len(r.Names) > 0
}

// refShort reads rows that are named by R and their number: "R1 and R2", "R3-4".
func (p *parser) refShort() (r script.Ref, ok bool) {
	var l script.Label
	for p.shortRow() {
		p.i++
		p.rowNumbers(&l)
		if back := p.i; !p.any("and", "&", ",") || !p.shortRow() {
			p.i = back
			break
		}
	}
	return script.Ref{Nums: l.Nums, Round: !p.flat}, len(l.Nums) > 0
}

// refKinds reads two rows or more by what they do: "the increase round and the plain round", "dec and
// knit rnds".
func (p *parser) refKinds() (r script.Ref, ok bool) {
	names, told := 0, false
	for {
		p.skip("the", "both", "these", "this")
		t := p.peek()
		if !labelNames.has(t) && t.w != "k" && t.w != "p" {
			break
		}
		known := p.toldRow(t.w)
		if !known && t.w != "plain" && t.w != "k" {
			break
		}
		told = told || known
		if known {
			r.Names = append(r.Names, t.w)
		}
		names++
		p.i++
		r.Round = r.Round || p.is("rnd")
		row := p.any("row", "rnd")
		back := p.i
		if p.skip(",", "and", "&", "then"); p.i == back || row && p.done() {
			ok = row
			break
		}
		if t := p.peek(); !labelNames.has(t) && t.w != "the" && t.w != "k" && t.w != "p" && t.w != "a" {
			p.i, ok = back, row
			break
		}
	}
	if len(r.Names) < names { // the plain one has no name
		r.Names, r.Last = nil, names
	}
	return r, ok && told && names > 1
}

// refNumbered reads rows by their numbers: "Rows 1 and 2", "short rows 3 and 4", "from 1st row".
func (p *parser) refNumbered() (r script.Ref, ok bool) {
	var l script.Label
	p.any("from")
	p.any("the")
	if p.peek().kind == ordToken && p.ordinalRows(&l) {
		return script.Ref{Nums: l.Nums, Round: l.Round}, true
	}
	if rowKinds.has(p.peek()) && (p.ahead(1).w == "row" || p.ahead(1).w == "rnd") {
		p.i++
	}
	r.Round = p.is("rnd")
	if !p.any("row", "rnd") {
		return r, false
	}
	p.rowNumbers(&l)
	r.Nums = l.Nums
	return r, len(l.Nums) > 0 && !p.is("times") && !p.is("more", "times") // "the dec rnd 4 more times"
}

// rowKinds are words for the kind of row that is meant, before its number or behind how many they
// are: "the two toe rounds", "short rows 3 and 4".
var rowKinds = newList("short dec inc toe heel flap gusset foot leg cuff instep sole turn garter rib plain k p patt chart lace shaping narrowing")

// refLettered reads rows that are named by letters: "rows A and B", "C and D", "a, b, a, b".
func (p *parser) refLettered() (r script.Ref, ok bool) {
	p.skip("the", "both", "these")
	r.Round = p.is("rnd")
	told := p.any("row", "rnd")
	for {
		t := p.peek()
		if t.kind != wordToken || len(t.w) != 1 || !p.toldRow(t.w) {
			break
		}
		told = told || p.raw(t.at) != t.w
		if last := len(r.Names) - 1; last >= 0 && (p.toks[p.i-1].w == "to" || p.toks[p.i-1].w == "-") { // "A to D"
			for c := r.Names[last][0] + 1; c < t.w[0]; c++ {
				r.Names = append(r.Names, string(c))
			}
		}
		p.i++
		if !slices.Contains(r.Names, t.w) {
			r.Names = append(r.Names, t.w)
		}
		back := p.i
		p.skip(",", "and", "&", "-", "to", "then", "row", "rnd")
		if p.peek().kind != wordToken || len(p.peek().w) != 1 {
			p.i = back
			break
		}
	}
	return r, len(r.Names) > 1 || told && len(r.Names) == 1
}

// toldRow tells whether a row of this name has been told.
func (p *parser) toldRow(name string) bool {
	return slices.ContainsFunc(p.rows, func(r *script.Row) bool { return r.Label.Name == name })
}

// refLast reads rows that have been told last, and how many they are: "these 2 rows", "the last
// two toe rounds", "both rows", "the pair", "these 6 (6, 5) rnds".
func (p *parser) refLast() (r script.Ref, ok bool) {
	word := p.peek().w
	named := p.any("the", "these", "this", "those", "last", "previous", "both", "all")
	p.skip("last", "previous", "foll", "above", "preceding", "same")
	if n, ok := p.number(); ok {
		rowKinds.pass(p)
		r.Round = p.is("rnd")
		if r.Last = int(n.Val[0]); len(n.Val) > 1 {
			r.Each = n
			r.Last = int(slices.Max(n.Val))
		}
		return r, named && (p.any("row", "rnd") || r.Last == 2 && p.is("until"))
	}
	if p.any("pair") {
		if p.any("of") {
			p.any("row", "rnd")
		}
		r.Last = 2
		return r, named
	}
	if name := p.peek().w; (name == "dec" || name == "inc") && (p.ahead(1).w == "row" || p.ahead(1).w == "rnd") {
		p.i += 2
		r.Names = []string{name}
		return r, true
	}
	t := p.peek()
	r.Round = t.w == "rnd"
	if !named || !p.any("row", "rnd") {
		return r, false
	}
	switch many := strings.HasSuffix(p.raw(t.at), "s"); {
	case word == "both":
		r.Last = 2
	case many && (word == "these" || word == "those" || word == "all"):
		r.Last = -1
	default:
		r.Last = 1
	}
	return r, true
}

// refAll reads "them", "the pattern": all rows told.
func (p *parser) refAll() (script.Ref, bool) {
	all := p.any("them") || p.phrase("patt", "the patt") && !p.is("rnd") && !p.is("row")
	return script.Ref{Last: -1}, all
}

// repeat reads "Rep Rows 1 and 2 until …", "Work these 2 rows 14 times in all".
func (p *parser) repeat() bool {
	if p.notRepeated() {
		return true
	}
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
	case p.any("alt"): // "Alternate these two rounds until 56 sts are left"
		lead = "alt"
		p.skip("between", "work")
	case p.phrase("go on", "carry on", "keep on", "keep going"):
		lead = "cont"
		p.skip("with", "work")
	case p.any("work", "cont", "k", "do"):
		lead = p.toks[p.i-1].w
		p.skip("to", "work", "rep", "with", "in", "k", "only", "just")
	default: // "then Rnd 1 only until 8 sts are left", "last two rows until everything's in"
		lead = "work"
		p.skip("only", "just")
	}
	r := script.Repeat{}
	if ref, ok := try(p, p.refWorked); ok {
		r.Ref = ref
		return p.repeatOf(start, "work", r)
	}
	if n, ok := try(p, p.rowsLike); ok {
		r.Ref, r.Stop = n.Ref, n.Stop
		r.Claims = p.claimsBehind()
		r.Base = p.base(start)
		emit(p, r)
		return true
	}
	var ok bool
	if r.Ref, ok = p.ref(); !ok {
		if r.Ref, ok = p.refPattern(); !ok {
			if lead == "cont" || lead == "rep" {
				if stop, ok := try(p, func() (script.Stop, bool) {
					for !p.is("as", "long", "as") && p.any("in", "this", "way", "manner", "as", "set", "so", "to", ",", "like", "back", "and", "forth") {
					}
					return p.stopping(false)
				}); ok && (stop.Kind == script.UsedUp || stop.Kind == script.Ridges || stop.Kind == script.Rows && p.part == script.Heel || stop.Kind == script.Wrapped || stop.Kind == script.Unwrapped) {
					r.Ref.Last, r.Stop = -2, stop
					r.Claims = p.claimsBehind()
					r.Base = p.base(start)
					if steps := p.turnGrows(r.At); steps != nil && stop.Kind == script.UsedUp {
						p.add(&script.Plain{Base: r.Base, Steps: steps, Flat: true, Stop: stop, Claims: r.Claims})
						return true
					}
					emit(p, r)
					return true
				}
			}
			return false
		}
	} else {
		if lead == "k" && p.toks[p.i-1].w == "them" { // stitches
			return false
		}
		p.ofPattern(&r.Ref)
	}
	return p.repeatOf(start, lead, r)
}

// refWorked reads rows of which it is said that they are worked: "The gusset round is worked", "these 2
// rnds are repeated".
func (p *parser) refWorked() (r script.Ref, ok bool) {
	if r, ok = try(p, p.refNamed); !ok {
		if r, ok = p.ref(); !ok {
			return r, false
		}
	}
	return r, p.any("is", "are") && p.any("worked", "rep", "k", "done")
}

// refNamed reads one row by its name: "the gusset round".
func (p *parser) refNamed() (r script.Ref, ok bool) {
	p.any("the", "this")
	name := p.peek().w
	if !p.toldRow(name) {
		return r, false
	}
	p.i++
	r.Names, r.Round = []string{name}, p.is("rnd")
	return r, p.any("rnd", "row")
}

// repeatOf reads how often rows are worked again, and adds that.
func (p *parser) repeatOf(start int, lead string, r script.Repeat) bool {
	var ok bool
	back := p.i
	p.any(",")
	over := p.phrase("again and again", "over and over")
	if !over {
		p.i = back
	}
	p.skip("again", "only", "alone")
	p.phrase("over and over", "by turn", "alt", "in turn", "turn about", "turn and turn about", "one after the other", "in alternation")
	p.aside()
	p.skip(",")
	p.phrase("every rnd", "every row", "on every rnd", "on every row", "in every rnd", "in every row", "each rnd")
	plain := p.withBetween()
	p.any(",")
	if r.Stop, ok = p.stopping(true); !ok {
		if back := p.i; over && p.any("=", "-", ":") { // "rows 3 and 4 again and again -> 10 wrapped at each side"
			if r.Stop, ok = p.until(); !ok {
				p.i = back
			}
			r.Stop.At = p.since(back)
		}
	}
	if !ok {
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
	if plain = max(plain, p.withBetween()); plain > 0 && len(r.Ref.Names) == 1 { // a shaping round with plain ones between
		p.shapeWithPlain(start, &script.Shape{Name: r.Ref.Names[0], Every: plain + 1, Stop: r.Stop})
		return true
	}
	r.Claims = p.claimsBehind()
	p.ending(&r.Stop) // "15 times in all, 30 rows, so that the last row is a WS row"
	r.Base = p.base(start)
	emit(p, r)
	p.thenAgain()
	return true
}

// shapeWithPlain adds a shaping round that is repeated with plain ones behind each, and what it goes on
// with: "…, then 4 times more with three plain rounds after each".
func (p *parser) shapeWithPlain(start int, s *script.Shape) {
	for {
		s.Base = p.base(start)
		p.add(s)
		start = p.i
		p.any(",", ";")
		p.any("and")
		if !p.any("then") {
			break
		}
		stop, ok := p.stopping(true)
		plain := p.withBetween()
		if !ok || plain == 0 {
			break
		}
		if stop.Kind == script.Times { // they come on top of the first
			stop.Kind = script.More
		}
		s = &script.Shape{Name: s.Name, Every: plain + 1, Stop: stop}
	}
	p.i = start
	s.Claims = p.claimsBehind()
}

// withBetween reads how many plain rounds lie between those that are repeated: "with 2 plain rounds
// between", "with one plain round after each".
func (p *parser) withBetween() int {
	back := p.i
	p.any(",")
	if p.any("with", "work") {
		n, ok := p.number()
		p.skip("plain", "k", "even")
		if ok && len(n.Val) == 1 && p.any("rnd", "row") && p.any("between", "after") {
			p.any("each", "them", "it", "every")
			p.any("one", "of")
			p.any("them")
			return int(n.Val[0])
		}
	}
	p.i = back
	return 0
}

// notRepeated reads "Do not rep the last 2 rnds", "do not work Rnd 2 again": what some sizes are
// told where others repeat.
func (p *parser) notRepeated() bool {
	start := p.i
	p.skip("then")
	if !p.eat("do", "not") || !p.any("rep", "work", "k") {
		return p.restore(start)
	}
	work := p.toks[p.i-1].w != "rep"
	r := script.Repeat{Stop: script.Stop{Kind: script.More, N: pattern.Of(0)}}
	var ok bool
	if r.Ref, ok = p.ref(); !ok || !p.any("again") && work || !p.clauseEnd() {
		return p.restore(start)
	}
	r.Claims = p.claimsBehind()
	r.Base = p.base(start)
	emit(p, r)
	return true
}

// whenWorked reads "When all the heel sts have been worked there are 18 sts": the rows that go to
// the gaps are worked until then.
func (p *parser) whenWorked() bool {
	start := p.i
	toGap := slices.ContainsFunc(p.rows, func(r *script.Row) bool {
		return slices.ContainsFunc(r.Steps, func(s script.Step) bool { return s.To == script.Gap })
	})
	if !toGap || !p.any("when", "once", "after") || !p.usedUpBefore() {
		return p.restore(start)
	}
	stop := script.Stop{Kind: script.UsedUp, At: p.since(start)}
	p.any(",")
	claims := p.claims()
	if len(claims) == 0 || !p.clauseEnd() {
		return p.restore(start)
	}
	emit(p, script.Repeat{Base: p.base(start), Ref: script.Ref{Last: -2}, Stop: stop, Claims: claims})
	return true
}

// usedUpBefore reads that all are used up, with no comma before what is told of it: "all the heel
// sts have been worked there are 18 sts".
func (p *parser) usedUpBefore() bool {
	all := p.toks
	defer func() { p.toks = all }()
	for i := p.i; i < len(all) && all[i].w != "." && all[i].w != ","; i++ {
		if t := all[i]; t.w == "there" || t.w == "you" || t.kind == numToken {
			p.toks = all[:i]
			break
		}
	}
	return p.usedUp()
}

// thenAgain reads what a repeat goes on with: "…, then rows 1 and 2 again: 30 rows", "…, then
// rounds 1 to 4 twice more", "…, then the row that begins with k1 once more".
func (p *parser) thenAgain() {
	back := p.i
	p.any(",")
	p.any("and")
	if !p.eat("then") {
		p.i = back
		return
	}
	from := p.i
	p.skip("rep", "work")
	if p.phrase("the row that beg with", "the row beg with") {
		if steps, ok := p.steps(); ok {
			if again := p.rowThatBegins(steps); again != nil && (p.eat("once", "more") || p.any("once", "again")) {
				row := &script.Row{Steps: again.Steps, Flat: again.Flat, Claims: p.claimsBehind()}
				row.Base = p.base(from)
				p.add(row)
				return
			}
		}
	}
	if ref, ok := p.ref(); ok {
		again := &script.Repeat{Ref: ref, Stop: script.Stop{Kind: script.More, N: pattern.Of(1)}}
		switch {
		case p.any("again"), p.eat("once", "more"), p.any("once"):
			ok = true
		default:
			again.Stop, ok = p.stopping(true)
			if again.Stop.Kind == script.Times { // they come on top of what has just been worked
				again.Stop.Kind = script.More
			}
		}
		if ok {
			again.Claims = p.claimsBehind()
			again.Base = p.base(from)
			p.add(again)
			return
		}
	}
	p.i = back
}

// mirrored reads "and the same again purling": the row just told, worked back.
func (p *parser) mirrored() bool {
	start := p.i
	p.skip("then", "work", "do", "and")
	if !p.phrase("the same again", "the same", "likewise", "in the same way") {
		return false
	}
	p.skip(",", "but", "on", "the", "in", "with")
	if !p.any("p", "ws", "back") && !p.phrase("p side", "wrong side", "p row") || len(p.rows) == 0 {
		return false
	}
	p.skip("side", "row", "back")
	told := p.rows[len(p.rows)-1]
	if !p.clauseEnd() || told.Label.Round || !turns(told.Steps) {
		return false
	}
	r := &script.Row{Steps: slices.Clone(told.Steps), Flat: true}
	for i := range r.Steps {
		switch s := &r.Steps[i]; s.Op {
		case script.Knit:
			s.Op = script.Purl
		case script.Purl:
			s.Op = script.Knit
		}
	}
	r.Base = p.base(start)
	p.emitRow(r)
	return true
}

// turns tells whether steps turn the work.
func turns(steps []script.Step) bool {
	return slices.ContainsFunc(steps, func(s script.Step) bool { return s.Op == script.Turn || s.Op == script.Wrap })
}

// chartRows reads rows that a chart tells and how often they are worked: "Work rounds 2 to 4
// from chart, then rounds 1 to 4 twice more", "Follow Rows 1 to 12 of chart A three times".
func (p *parser) chartRows() bool {
	start := p.i
	p.skip("then", "now")
	if !p.any("work", "foll", "k", "cont") {
		return false
	}
	c, ok := p.chartStep()
	if !ok || c.Last <= c.Needle {
		return false
	}
	c.At = p.since(start)
	r := &script.Row{Steps: []script.Step{c}, Flat: p.flat}
	again, more := try(p, func() (script.Stop, bool) { p.any(","); return p.stopping(true) })
	if more && again.Kind != script.Times && again.Kind != script.InAll && again.Kind != script.More {
		return false
	}
	claims := p.claimsBehind()
	if r.Base = p.base(start); !more {
		r.Claims = claims
	}
	p.emitRow(r)
	if more {
		if again.Kind == script.Times {
			again.Kind = script.InAll
		}
		p.add(&script.Repeat{Base: r.Base, Ref: script.Ref{Nums: r.Label.Nums, Round: r.Label.Round}, Stop: again, Claims: claims})
	}
	p.thenAgain()
	return true
}

// chartAcross reads how often a chart is worked in a round, which says how many stitches that has: "The
// chart is worked 8 times in each rnd", "The 6 sts of the chart are repeated ten times across the rnd".
func (p *parser) chartAcross() bool {
	start := p.i
	if p.lastChart == nil || p.lastChart.Width == 0 || len(p.items) > 0 && p.flat {
		return false
	}
	p.any("the")
	if width, ok := p.number(); ok {
		if len(width.Val) != 1 || int(width.Val[0]) != p.lastChart.Width || !p.any("sts") || !p.any("of") {
			return p.restore(start)
		}
		p.any("the")
	}
	if !p.any("chart") || !p.any("is", "are") || !p.any("worked", "rep", "k") {
		return p.restore(start)
	}
	n, ok := p.number()
	if !ok || !p.any("times") || !p.any("in", "on", "across", "around") {
		return p.restore(start)
	}
	p.any("each", "every", "the", "one", "all")
	if !p.any("rnd") || !p.clauseEnd() {
		return p.restore(start)
	}
	all := pattern.Number{At: n.At, Cols: n.Cols}
	for _, v := range n.Val {
		if v != pattern.Gap {
			v *= int32(p.lastChart.Width)
		}
		all.Val = append(all.Val, v)
	}
	emit(p, script.State{Base: p.base(start), Claims: []script.Claim{{What: script.Total, N: all, At: n.At}}})
	return true
}

// rowsLike reads "14 more rnds as Rnd 1", "9 rows like the last 2 rows".
func (p *parser) rowsLike() (r script.Repeat, ok bool) {
	from := p.i
	p.any("another")
	n, ok := p.number()
	if !ok {
		return r, false
	}
	p.any("more")
	if !p.any("row", "rnd") {
		return r, false
	}
	p.any("more")
	at := p.since(from)
	if !p.phrase("as for", "as", "like", "the same as") {
		return r, false
	}
	if r.Ref, ok = p.ref(); !ok {
		return r, false
	}
	r.Stop = script.Stop{Kind: script.MoreRows, N: n, At: at}
	return r, p.clauseEnd()
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

// toAndFro reads "go backward and forward", "work to and fro".
func (p *parser) toAndFro() bool {
	back := p.i
	p.skip("now", "then")
	if p.any("go", "work", "k", "pass") && p.phrase("to and fro", "back and forth", "back and forward", "backward and forward", "backwards and forwards", "forward and backward", "forwards and backwards", "forward and back", "forwards and back") {
		return true
	}
	return p.restore(back)
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

package reader

import (
	"strings"

	"sockwright/internal/pattern"
	"sockwright/internal/script"
)

// Long-hand: sentences of patterns that abbreviate nothing.

// A definedTerm is a stitch that the text names by several words: "slip and bind".
type definedTerm struct {
	words string // in the reader's spelling
	stitch
}

// builtinTerms are those that need no definition.
var builtinTerms = []definedTerm{
	{"sl and bind", stitch{script.Decrease, 2, 1}},
	{"take in", stitch{script.Decrease, 2, 1}},
	{"raise 1 sts", stitch{script.Increase, 0, 1}},
	{"raise one sts", stitch{script.Increase, 0, 1}},
	{"make one sts", stitch{script.Increase, 0, 1}},
}

// defines reads "To narrow is to knit two stitches together as one."
func (p *parser) defines(text string) bool {
	if !p.is("to") {
		return false
	}
	is := 0
	for n := 2; n <= 5; n++ {
		if p.ahead(n).w == "is" && p.ahead(n+1).w == "to" {
			is = n
			break
		}
	}
	if is == 0 {
		return false
	}
	at := p.toks[1].at.To(p.toks[is-1].at)
	short := p.raw(at)
	means := strings.TrimSpace(text[p.toks[is+1].at.End-p.file.LineSpan(p.line).Start:])
	means, _, _ = strings.Cut(means, ".")
	t := script.Term{Short: short, Means: means, At: at}
	t.Uses, t.Makes = p.worth(short, means)
	p.out.Terms = append(p.out.Terms, t)
	if t.Uses < 0 {
		return true
	}
	var words []string
	for _, tok := range p.toks[1:is] {
		words = append(words, tok.w)
	}
	s := stitch{script.Decrease, int8(t.Uses), int8(t.Makes)}
	switch {
	case t.Makes > t.Uses:
		s.op = script.Increase
	case t.Makes == t.Uses:
		s.op = script.Cross
	}
	p.defined = append(p.defined, definedTerm{strings.Join(words, " "), s})
	return true
}

// definedStep reads a stitch that is named by several words.
func (p *parser) definedStep() (script.Step, bool) {
	for _, list := range [][]definedTerm{p.defined, builtinTerms} {
		for _, d := range list {
			if p.phrase(d.words) {
				s := script.Step{Op: d.op, Uses: d.uses, Makes: d.makes, Name: d.words}
				p.howOften(&s)
				return s, true
			}
		}
	}
	return script.Step{}, false
}

// gathered reads "Then take nineteen stitches from the third pin, the seam stitch among them,
// so that 37 are together upon one pin for the heel."
func (p *parser) gathered() bool {
	start := p.i
	p.skip("then", "now")
	if !p.any("take", "sl", "put", "place", "bring", "transfer") {
		return false
	}
	for !p.stop() && !p.is("so", "that") {
		p.i++
	}
	if !p.eat("so", "that") {
		return false
	}
	p.skip("there", "are", "you", "has")
	n, ok := p.number()
	if !ok {
		return false
	}
	p.skip("sts", "are", "lie", "tog", "all", "in", "now")
	if !p.phrase("on one ndl", "upon one ndl", "on a ndl", "on the same ndl") || !p.phrase("for the heel", "for heel") {
		return false
	}
	return p.setApart(start, script.Divide{N: n, From: script.Last, Part: script.Heel})
}

// plainThen reads a plain round with what is done at the end of a needle: "Knit one round, and
// at the end of the third pin raise one stitch for the seam".
func (p *parser) plainThen() bool {
	start := p.i
	if !p.phrase("k one rnd", "work one rnd") {
		return false
	}
	p.skip(",", "and", "but")
	if !p.any("at") {
		return false
	}
	p.any("the")
	if !p.any("end", "beg") {
		return false
	}
	atEnd := p.toks[p.i-1].w == "end"
	if !p.any("of") {
		return false
	}
	ndl, ok := p.oneNeedle()
	if !ok {
		return false
	}
	p.any(",")
	s, ok := p.step()
	if !ok || s.Uses == s.Makes {
		return false
	}
	for !p.stop() { // "for the seam"
		p.i++
	}
	at := p.toks[start].at
	knit := script.Step{At: at, Op: script.Knit, Uses: 1, Makes: 1, To: script.End}
	of := script.Step{At: at, Op: script.ToNeedle, Needle: ndl}
	r := &script.Row{Base: p.base(start)}
	switch {
	case atEnd:
		before := knit
		before.Needle = ndl
		if s.Uses > 0 {
			before.Minus = pattern.Of(int(s.Uses))
		}
		r.Steps = []script.Step{before, s, knit}
	default:
		r.Steps = []script.Step{of, s, knit}
	}
	r.Claims = p.claimsBehind()
	p.emitRow(r)
	return true
}

// othersPlain reads "the other pins plain" as a step that ends a round.
func (p *parser) othersPlain() (script.Step, bool) {
	back := p.i
	p.skip("k", "work", "on", "the")
	if !p.any("other", "others") {
		p.i = back
		return script.Step{}, false
	}
	if t := p.peek(); t.kind == numToken && p.ahead(1).w == "ndl" {
		p.i++
	}
	named := p.any("ndl") || p.toks[p.i-1].w == "others"
	p.skip(",", "-", ":", "are", "is")
	if !named || !p.any("plain", "k") && !slicesHas(p.toks[back:p.i], "k") || !p.clauseEnd() {
		p.i = back
		return script.Step{}, false
	}
	at := p.since(back)
	return script.Step{Op: script.Group, At: at, Stop: script.Stop{Kind: script.Reps, N: pattern.Of(1)}, Body: []script.Step{
		{At: at, Op: script.ToNeedle}, {At: at, Op: script.Knit, Uses: 1, Makes: 1, To: script.End}}}, true
}

func slicesHas(toks []token, w string) bool {
	for _, t := range toks {
		if t.w == w {
			return true
		}
	}
	return false
}

// afterSo reads what has been reached on the way: "After the fourth narrowing there are 89
// stitches", "After the fifth time there are 83 sts".
func (p *parser) afterSo() bool {
	start := p.i
	if !p.any("after") {
		return false
	}
	p.skip("the", "you", "has")
	n := 0
	if t := p.peek(); t.kind == ordToken || t.w == "first" {
		n = max(int(t.val), 1)
		p.i++
		if !p.any("dec", "narrow", "narrowing", "inc", "times", "rep", "such", "widening") {
			return false
		}
		p.any("rnd", "row")
	} else if k, ok := p.timesDone(); ok && countOf(k) > 0 {
		n = countOf(k)
	} else {
		return false
	}
	p.skip(",", ":", "you", "should", "there", "has")
	claims := p.claims()
	if len(claims) == 0 {
		return false
	}
	claims = append(claims, p.claimsBehind()...)
	p.add(&script.State{Base: p.base(start), Claims: claims, After: n})
	return true
}

// inOrder reads the stitches of the needles one after the other behind a total: "72 stitches:
// 18, 36 and 18".
func (p *parser) inOrder() []script.Claim {
	back := p.i
	fail := func() []script.Claim {
		p.i = back
		return nil
	}
	if !p.any(":", ",", "-", "(") {
		return nil
	}
	shut := p.toks[p.i-1].w == "("
	var out []script.Claim
	for {
		n, ok := p.number()
		if !ok {
			return fail()
		}
		out = append(out, script.Claim{What: script.OnNdl, Needle: len(out) + 1, N: n, At: n.At})
		if !p.any(",", "and", "+") {
			break
		}
		p.any("and")
	}
	if len(out) < 2 || len(out) > 5 || shut && !p.any(")") || !shut && !p.stop() {
		return fail()
	}
	return out
}

// nthLike finds the row that "as the first" means behind an ordinal of the same name: "Second
// narrowing, as the first".
func (p *parser) nthLike(name string) *script.Row {
	for _, r := range p.rows {
		if r.Label.Name == name {
			return r
		}
	}
	return nil
}

// nthAhead tells whether a shaping round is named by its place: "First narrowing:".
func (p *parser) nthAhead() bool {
	n := 0
	if p.is("the") {
		n++
	}
	if t := p.ahead(n); t.kind != ordToken && t.w != "first" && t.w != "next" && t.w != "last" {
		return false
	}
	switch p.ahead(n + 1).w {
	case "dec", "inc", "narrowing":
		return p.ahead(n+2).w != "row" && p.ahead(n+2).w != "rnd"
	}
	return false
}

// nthRow reads a shaping round that is told by its place among those like it: "First
// narrowing: …", "Second narrowing, as the first: 64 stitches", "Third narrowing: 60 sts".
func (p *parser) nthRow() bool {
	start := p.i
	if !p.nthAhead() {
		return false
	}
	p.any("the")
	p.i += 2
	name := p.toks[p.i-1].w
	if name == "narrowing" {
		name = "dec"
	}
	r := &script.Row{Label: script.Label{At: p.since(start), Said: true, Round: !p.flat, Name: name}, Flat: p.flat}
	if !p.any(":", ",", ".") {
		return false
	}
	if steps, ok := p.rowSteps(); ok {
		r.Steps = steps
	} else {
		like := p.nthLike(name)
		if like == nil {
			return false
		}
		p.phrase("as the first", "as first", "as before", "like the first", "in the same way", "the same", "as the last")
		r.Steps = like.Steps
		p.i-- // the mark before the count may be one of its own
		if !p.clauseEnd() {
			p.i++
		}
	}
	r.Claims = p.claimsBehind()
	if !p.stop() && !p.is(";") {
		return false
	}
	r.Base = p.base(start)
	p.emitRow(r)
	return true
}

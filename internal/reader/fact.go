package reader

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"sockwright/internal/script"
	"sockwright/internal/source"
)

func itoa(n int) string { return strconv.Itoa(n) }

// vocabulary lists the words that a misspelt one may be meant for.
var vocabulary = sync.OnceValue(func() []string {
	words := []string{"knit", "purl", "slip", "repeat", "rep", "round", "row", "until", "turn", "from", "end", "last", "marker", "stitches", "times", "more"}
	for w := range stitches {
		words = append(words, w)
	}
	slices.Sort(words)
	return words
})

// factWords begin lines that hold facts and nothing to work.
var factWords = newList("gauge yarn wool needles materials notions size finished skills measurements sizes construction level needle ndl abbr notes note designer copyright key to finished skein gauge: yardage amount fibre colours colour difficulty tools supplies hook cautions caution tip")

// fact reads lines of facts: gauge, yarn, needles, measures.
func (p *parser) fact(text string) (script.Role, bool) {
	t := p.toks[0]
	behind := p.ahead(1).w
	switch at := p.gaugeAt(); {
	case t.w == "gauge":
		p.gauge()
		return script.Fact, true
	case at == 0:
		p.gauge()
		if p.out.Gauge != nil {
			return script.Fact, true
		}
		p.i = 0
	case at > 0: // behind another fact of the same line
		p.i = at
		p.gauge()
		p.toks, p.i = p.toks[:at], 0
	}
	switch {
	case t.w == "to" && behind == "fit":
		return script.Fact, true
	case (t.w == "note" || t.w == "notes" || t.w == "tip" || t.w == "caution" || t.w == "hint") && (behind == ":" || behind == "."):
		return script.Prose, true
	case factWords.has(&t) && (behind == ":" || behind == "-" || behind == ".") && t.w != "sts":
		if t.w == "ndl" {
			return script.Fact, !p.claimsIn()
		}
		return script.Fact, true
	case t.w == "finished" && (behind == "measurements" || behind == "size" || behind == "foot" || behind == "circumference"):
		return script.Fact, true
	}
	return 0, false
}

// gaugeAt is the token at which a line goes on with the gauge: 0 if all of it is one, below
// its heading or told in a sentence; -1 if it has none.
func (p *parser) gaugeAt() int {
	if p.out.Gauge != nil {
		return -1
	}
	for i, t := range p.toks {
		if t.w == "gauge" && i > 0 && i+1 < len(p.toks) && p.toks[i+1].w == ":" {
			return i
		}
	}
	above := p.line - 1
	for above > 0 && strings.TrimSpace(p.file.Line(above)) == "" {
		above--
	}
	heading := strings.ToLower(strings.Trim(p.file.Line(above), " .:"))
	if heading == "gauge" || heading == "tension" || p.textHas("should measure") && p.claimsIn() {
		return 0
	}
	return -1
}

// claimsIn tells whether the line states counts.
func (p *parser) claimsIn() bool {
	for i := range p.toks {
		if p.toks[i].kind == numToken && i+1 < len(p.toks) && p.toks[i+1].w == "sts" {
			return true
		}
	}
	return false
}

// gauge reads "Gauge: 32 sts and 44 rnds = 4 in (10 cm) in St st".
func (p *parser) gauge() {
	g := &script.Gauge{}
	start := p.i
	for !p.done() {
		t := p.peek()
		if t.kind != numToken {
			p.i++
			continue
		}
		if l, ok := try(p, p.length); ok {
			if g.Over == 0 {
				g.Over = l.In(0)
			}
			continue
		}
		p.i++
		switch p.peek().w {
		case "sts":
			if g.Stitches == 0 {
				g.Stitches = t.x
			}
		case "row", "rnd":
			if g.Rows == 0 {
				g.Rows = t.x
			}
		}
	}
	g.At = p.since(start)
	if g.Over == 0 && (p.textHas("to the inch") || p.textHas("per inch")) {
		g.Over = 25.4
	}
	if p.out.Gauge == nil && g.Over > 0 && g.Stitches+g.Rows > 0 {
		p.out.Gauge = g
	}
}

func (p *parser) textHas(s string) bool {
	return containsFold(p.file.Line(p.line), s)
}

// termsLine reads lines that explain abbreviations.
func (p *parser) termsLine(text string) bool {
	if p.toks[0].w == "abbr" || p.ahead(1).w == "abbr" && len(p.toks) < 8 {
		p.inTerms, p.explained = true, false
		p.out.TermsAt = p.file.LineSpan(p.line)
		rest := text
		if i := strings.IndexAny(text, ":.-–"); i >= 0 {
			rest = strings.TrimLeft(text[i+1:], ".:- –")
		} else {
			rest = ""
		}
		p.listTerms(rest, uint32(len(text)-len(rest)))
		return true
	}
	if p.defines(text) || !p.inTerms && p.explains(text) {
		return true
	}
	if !p.inTerms {
		return false
	}
	if entry := p.entry(); !entry && p.rowAhead(0) || p.toks[0].w == "co" && p.ahead(1).kind == numToken || p.isHeading(text) || p.startsWorked() && !entry {
		p.inTerms = false
		return false
	}
	p.listTerms(text, 0)
	return true
}

// notTerms are short words with a colon that open work and explain nothing.
var notTerms = newList("toe heel cuff leg foot turn sole flap rib top band dec inc next n1 n2 n3 n4 n5")

// entry tells whether a line of a list of abbreviations is one of its entries, although its
// words could be worked: "CO: cast on".
func (p *parser) entry() bool {
	t, at := &p.toks[0], 1
	if p.is(t.w, "(") && p.ahead(3).w == ")" { // "rnd(s): round(s)"
		at = 4
	}
	mark := p.ahead(at).w
	return t.kind == wordToken && len(t.w) <= 5 && !notTerms.has(t) && (mark == ":" || mark == "=")
}

// explains reads a line that explains a stitch: "C4B: slip 2 sts to cable needle, …".
func (p *parser) explains(text string) bool {
	raw := p.raw(p.toks[0].at)
	mark := 1
	if p.ahead(1).w == "(" { // "DS (double st): …"
		for mark < 8 && p.ahead(mark).w != ")" {
			mark++
		}
		mark++
	}
	if p.toks[0].stitch == nil && !looksLikeTerm(raw) || p.ahead(mark).w != ":" && p.ahead(mark).w != "=" && p.ahead(mark).w != "-" || len(p.toks) < mark+4 {
		return false
	}
	prose := false
	for _, t := range p.toks[mark+1:] {
		switch t.w {
		case "cn", "cable", "through", "back", "front", "strand", "leave", "leg", "legs", "same", "sl":
			prose = true
		case "row", "rnd", "*":
			return false
		}
	}
	if !prose {
		return false
	}
	if pairWords[p.toks[0].w] { // known without that
		return true
	}
	offset := p.file.LineSpan(p.line).Start
	at := 0
	for part := range strings.SplitAfterSeq(text, ". ") {
		p.term(part, offset+uint32(at))
		at += len(part)
	}
	return true
}

// listTerms splits a list of abbreviations: "k, knit; p, purl", "CO cast on; k knit", "k2tog =
// knit 2 together".
func (p *parser) listTerms(text string, from uint32) {
	offset := p.file.LineSpan(p.line).Start + from
	sep := ";"
	if !strings.Contains(text, ";") {
		if strings.Contains(text, ",") && strings.Count(text, "=")+strings.Count(text, ":") >= 2 {
			sep = ","
		} else if strings.Contains(text, "=") || strings.Contains(text, ":") || strings.Contains(text, " - ") || strings.Contains(text, " – ") {
			sep = "\n"
		}
	}
	at := 0
	for _, part := range entries(text, sep) {
		p.term(part, offset+uint32(at))
		at += len(part) + len(sep)
	}
}

// entries splits a list of abbreviations. A comma parts two entries only where another one
// begins behind it: the words that explain a cable have commas of their own.
func entries(text, sep string) []string {
	parts := strings.Split(text, sep)
	if sep != "," {
		return parts
	}
	out := parts[:1]
	for _, part := range parts[1:] {
		if termStart.MatchString(part) {
			out = append(out, part)
		} else {
			out[len(out)-1] += sep + part
		}
	}
	return out
}

// passesOver: a slipped stitch is drawn over another.
var passesOver = regexp.MustCompile(`\b(?:pass|draw|lift|bring|slip)\w* (?:the |that |it|this )?(?:slipped |first )?(?:stitch|st|one|loop)?\s*over\b`)

var termStart = regexp.MustCompile(`^\s*\S{1,12}(?:\s\S{1,6})?\s*[=:]`)

// definition reads a sentence that explains a term in the midst of a line: "ds = double
// stitch: turn, slip 1 st, pull the yarn up."
func (p *parser) definition() bool {
	t, from := p.peek(), p.i
	if t.kind != wordToken || labelNames.has(t) || p.ahead(1).w != "=" || p.ahead(2).kind != wordToken {
		return false
	}
	for !p.stop() {
		p.i++
	}
	at := p.since(from)
	p.term(p.raw(at), at.Start)
	return true
}

func (p *parser) term(part string, offset uint32) {
	trimmed := strings.TrimLeft(part, " \t*•")
	if strings.HasPrefix(strings.TrimLeft(trimmed, " "), ":") || strings.HasPrefix(strings.TrimLeft(trimmed, " "), "=") { // the asterisk itself is explained
		trimmed = strings.TrimLeft(part, " \t•")
	}
	offset += uint32(len(part) - len(trimmed))
	trimmed = strings.TrimRight(trimmed, " .\r")
	cut := -1
	width := 1
	for _, mark := range []string{"=", ":", ",", " – ", " - ", "\t", "  ", " "} {
		if i := strings.Index(trimmed, mark); i > 0 && i < 24 {
			cut, width = i, len(mark)
			break
		}
	}
	if cut < 0 {
		return
	}
	short := strings.TrimRight(strings.TrimSpace(trimmed[:cut]), ".")
	means := strings.TrimSpace(trimmed[cut+width:])
	if short == "" || means == "" || len(short) > 20 {
		return
	}
	t := script.Term{Short: short, Means: means, At: source.Span{Start: offset, End: offset + uint32(cut)}}
	t.Uses, t.Makes = p.worth(short, means)
	p.out.Terms = append(p.out.Terms, t)
	p.explained = true
	if i := strings.IndexByte(short, '.'); i > 0 && i < len(short)-1 {
		w := spelling(strings.ReplaceAll(short, ".", ""))
		if t.Uses == 1 && t.Makes == 1 && containsFold(means, "seam") { // "P.S. = purl seam, the last st of every rnd"
			w = "seam-st"
		}
		p.dotted = append(p.dotted, dottedTerm{short, w})
		p.terms[w] = &t
	}
	for s := range strings.FieldsFuncSeq(short, func(r rune) bool { return r == '/' || r == ',' }) {
		s = strings.TrimSpace(strings.TrimSuffix(s, "(s)"))
		p.terms[strings.ToLower(s)] = &t
	}
}

// worth works out how many stitches an explained term takes and makes.
func (p *parser) worth(short, means string) (uses, makes int) {
	if s, ok := stitches[spelling(strings.ReplaceAll(short, ".", ""))]; ok {
		return int(s.uses), int(s.makes)
	}
	switch spelling(short) {
	case "k", "p", "sl":
		return 1, 1
	case "tbl", "tog", "psso", "wyif", "wyib":
		return -1, -1 // says how, or does half a stitch
	}
	toks := lex(means, nil)
	slipped, held, worked, lost, gained := 0, 0, 0, 0, 0
	cable := false
	for i, t := range toks {
		n := 1
		if i+1 < len(toks) && toks[i+1].kind == numToken {
			n = int(toks[i+1].val)
		} else if i+2 < len(toks) && toks[i+1].w == "next" && toks[i+2].kind == numToken {
			n = int(toks[i+2].val)
		}
		switch t.w {
		case "cn", "cable":
			cable = true
		case "sl":
			slipped += n
		case "k", "p":
			if i+2 < len(toks) && toks[i+2].w == "tog" || i+3 < len(toks) && toks[i+3].w == "tog" {
				lost += n - 1
			}
			worked += n
		case "k2tog", "p2tog", "ssk":
			worked += 2
			lost++
		case "yo", "m1":
			gained++
		case "front", "back":
			held++
		}
	}
	lower := strings.ToLower(means)
	switch {
	case strings.Contains(lower, "seam") && worked <= 1 && slipped == 0 && lost == 0:
		return 1, 1
	case cable:
		if worked > 0 {
			return worked, worked
		}
	case slipped > 0 && passesOver.MatchString(lower):
		return slipped + max(worked, 1), slipped + max(worked, 1) - 1 - lost
	case strings.Contains(lower, "lift") || strings.Contains(lower, "make one") || strings.Contains(lower, "make 1") || strings.Contains(lower, "make a stitch") || strings.Contains(lower, "makes a stitch") || strings.Contains(lower, "yarn over"):
		return 0, 1
	case (strings.Contains(lower, "back of st") || strings.Contains(lower, "through back") || strings.Contains(lower, "through the back") || strings.Contains(lower, "back loop")) && !strings.Contains(lower, "together") && lost == 0 && worked <= 1:
		return 1, 1
	case strings.Contains(lower, "front and back"):
		return 1, 2
	case (strings.Contains(lower, "twist") || strings.Contains(lower, "cross") || strings.Contains(lower, "leave") || strings.Contains(lower, "leaving")) && worked > 0:
		n := worked
		if strings.Contains(lower, "leav") || strings.Contains(lower, "second") {
			n = max(2, lost+1)
		}
		return n, n
	case strings.Contains(lower, "together") || lost > 0:
		n := max(lost+1, 2)
		if n > 9 {
			return -1, -1
		}
		if strings.Contains(lower, "pass") {
			n++
		}
		return n, 1
	case strings.Contains(lower, "pass"):
		return 2, 1
	}
	return -1, -1
}

package reader

import (
	"slices"
	"strings"
	"unicode"

	"sockwright/internal/script"
	"sockwright/internal/source"
	"sockwright/internal/spell"
)

// Read reads a written pattern. Every line of it has its place in the script, unless the text
// is too large to be one.
func Read(f *source.File) *script.Script {
	if fault, is := tooLarge(f); is {
		return &script.Script{File: f, Sizes: []string{""}, Faults: []source.Fault{fault}, TooLarge: true}
	}
	f = rejoin(f)
	p := &parser{file: f, out: &script.Script{File: f, Sizes: []string{""}}, terms: map[string]*script.Term{}, patterns: map[string]bool{}}
	names, at, style := findSizes(f)
	p.style = style
	switch {
	case len(names) > 1:
		p.out.Sizes, p.out.SizesAt = names, at
	default:
		if n := countSizes(f); n > 1 {
			p.out.Sizes = numbered(n)
		}
	}
	p.sizes, p.named = len(p.out.Sizes), nameWords(p.out.Sizes)
	if strings.IndexByte(f.Text, 0) < 0 { // no text holds that byte: it is something else
		p.lines()
	}
	return p.out
}

// lines cuts the text into lines and reads them one by one.
func (p *parser) lines() {
	p.out.Lines = make([]script.Line, p.file.Lines())
	var buf []token
	p.title = true
	for n := 1; n <= p.file.Lines(); n++ {
		p.line = n
		at := p.file.LineSpan(n)
		p.out.Lines[n-1].At = at
		text := p.file.Slice(at)
		if p.file.GoesOn(n) { // read with the line before
			p.out.Lines[n-1].Role, p.out.Lines[n-1].Step = p.out.Lines[n-2].Role, p.inStep
			continue
		}
		if strings.TrimSpace(text) == "" {
			p.blank = true
			p.endChart()
			continue
		}
		if p.chartLine(n, text) {
			p.blank = false
			continue
		}
		buf = p.lexAt(text, at.Start, buf[:0])
		toks, beyond := within(buf)
		for len(toks) > 0 && isBullet(toks[0].w) {
			toks = toks[1:]
		}
		p.items, p.only, p.toldSizes = nil, p.forSizes, 0
		p.begin(p.tableRow(text, toks))
		text = p.itemised(text, at)
		p.forSome = p.onlyAhead().Len()
		p.begin(p.nameNeedles(p.dress(p.toks)))
		p.out.Lines[n-1].Step = p.inStep
		role := p.oneLine(text)
		p.blank = false
		p.out.Lines[n-1].Role = role
		p.out.Lines[n-1].Items = p.items
		if beyond != nil {
			p.refuse(n, *beyond)
		}
		if role == script.Worked {
			p.out.Worked++
		}
		if p.numbered > maxNumbered {
			p.refuse(n, source.Fault{At: at, Kind: source.Unread, Severity: source.Error,
				Text:  source.Say("read.numbered", "the labels of this text name more than {0} rows, and from here on it is not read", maxNumbered),
				Mends: []source.Mend{{Why: source.Say("read.mend-numbered", "number the rows anew where a part begins")}}})
			p.unreadFrom(n + 1)
			return
		}
	}
}

// lexAt lexes a line that begins at an offset of the text.
func (p *parser) lexAt(text string, offset uint32, buf []token) []token {
	from := len(buf)
	buf = lex(text, buf, p.dotted...)
	for i := from; i < len(buf); i++ {
		buf[i].at.Start += offset
		buf[i].at.End += offset
	}
	return buf
}

func numbered(n int) []string {
	names := make([]string, n)
	for i := range names {
		names[i] = itoa(i + 1)
	}
	return names
}

// oneLine reads the tokens of a line and says what kind of line it is.
func (p *parser) oneLine(text string) script.Role {
	if len(p.toks) == 0 {
		return script.Prose
	}
	if p.title {
		p.title = false
		if p.isTitle(text) {
			p.out.Title = strings.TrimSpace(text)
			if part := sectionIn(p.toks); part != script.NoPart {
				p.part = part
			}
			p.titleHeel()
			return script.Title
		}
	}
	if p.blank && p.explained { // a list may stand apart from its heading
		p.inTerms = false
	}
	if p.isSizesLine(text) {
		return script.Fact
	}
	if p.termsLine(text) {
		return script.Terms
	}
	if role, ok := p.fact(text); ok {
		return role
	}
	if p.isHeading(text) {
		p.heading(text)
		return script.Heading
	}
	if p.headingOver() {
		return script.Worked
	}
	if p.notes && !p.began && !p.rowAhead(0) && !p.startsWorked() { // what is said beforehand is not worked
		return script.Prose
	}
	p.onlySizes()
	p.prefix()
	p.sentences()
	switch {
	case slices.ContainsFunc(p.items, func(i script.Item) bool { _, lost := i.(*script.Lost); return lost }):
		return script.Unread
	case slices.ContainsFunc(p.items, works):
		return script.Worked
	}
	return script.Prose
}

// works tells whether an item is something to work or a statement about the work.
func works(i script.Item) bool {
	switch i.(type) {
	case *script.Section, *script.Skipped:
		return false
	}
	return true
}

// sentences reads what is left of the line.
func (p *parser) sentences() {
	from := len(p.items) // of the sentence
	for !p.done() {
		if p.any(".") {
			from = len(p.items)
			p.nextSizes()
			p.prefix()
			continue
		}
		if len(p.items) > from && p.onlyBehind(from) {
			continue
		}
		if p.any(";") || p.is(",") && p.ahead(1).w == "size" && p.eat(",") {
			p.onlySizes()
			continue
		}
		if p.any(",", ";", ":", ")", "]", "-", "and", "then", "!", "?") || p.leadIn() || p.definition() || p.sentence() || p.any("(") {
			continue
		}
		if start := p.i; p.any("[", "*") { // a repeat that does not end
			p.doubt(start, false)
			continue
		}
		p.skipClause()
	}
}

// leadIn takes words before an instruction that tell how it is done: the yarn, the fold of a
// hem.
func (p *parser) leadIn() bool {
	if back := p.i; p.any("fold") {
		for !p.stop() && !p.any("and", ",", ";") {
			p.i++
		}
		if p.stop() {
			p.i = back
			return false
		}
		return true
	}
	back := p.i
	if p.any("when", "once") {
		if _, ok := p.measured(); ok && p.any(",") && !p.done() { // "When the work is 5 in long, …"
			return true
		}
		p.i = back
	}
	if !p.colourWith() {
		return false
	}
	if p.any(",") || p.is("co") || p.is("cast") || p.is("k") || p.is("p") || p.is("work") || p.is("cont") || p.is("pick") || p.is("rep") || p.rowAhead(0) {
		return true
	}
	p.i = back
	return false
}

// skipClause leaves a clause unread, and reports it if it begins like an instruction.
func (p *parser) skipClause() {
	start := p.i
	commands := p.command()
	for !p.done() {
		w := p.peek().w
		if w == "." || w == ";" || w == ":" || w == ")" || w == "(" || w == "," && !commands {
			break
		}
		p.i++
	}
	if p.i == start {
		p.i++
	}
	if commands && p.is(":") && p.rowWords(start, p.i) { // with what the row says
		for !p.stop() {
			p.i++
		}
	}
	if commands && (start == 0 || p.toks[start-1].w == "." || p.toks[start-1].w == ":") {
		p.lose(start, p.since(start))
	} else if marks := p.marks(start, p.i); marks || p.mayInstruct(start, p.i) {
		p.doubt(start, marks)
	}
}

// wholeRow are words behind "knit" or "purl" with which it can only be an instruction.
var wholeRow = newList("until all every each across over half first these those")

// command tells whether the words here can only be an instruction.
func (p *parser) command() bool {
	t, next := p.peek(), p.ahead(1)
	if t.stitch != nil {
		return t.w != "yo" || next.w == "," // not in prose
	}
	switch t.w {
	case "k", "p", "sl":
		switch {
		case t.w == "sl":
		case wholeRow.has(next):
			return true
		case next.w == "the":
			return labelNames.has(p.ahead(2)) || p.ahead(2).kind == ordToken || p.ahead(2).w == "ndl" || p.ahead(2).w == "rem"
		}
		return next.kind == numToken || next.w == "to" && p.ahead(2).w != "the" || next.w == "to" && (p.ahead(3).w == "gap" || p.ahead(3).w == "end" || p.ahead(3).w == "last")
	case "rep":
		return next.w == "row" || next.w == "rnd" || next.w == "from" || next.w == "these" || next.w == "last"
	case "co", "bo":
		return next.kind == numToken
	case "dec", "inc":
		return next.kind == numToken
	case "pick":
		return next.w == "up"
	}
	if t.w == "row" || t.w == "rnd" {
		for n := 1; n < 6; n++ {
			switch a := p.ahead(n); a.w {
			case ":":
				return next.kind == numToken
			}
		}
	}
	return false
}

// stumble is called where the steps of a row end and something follows that is no step. It
// tells whether the row is cut short.
func (p *parser) stumble(labelled bool) bool {
	if !labelled {
		return false
	}
	p.skip(",", "and", "then")
	start := p.i
	for !p.stop() && !p.is(";") {
		p.i++
	}
	if p.i == start {
		return false
	}
	p.lose(start, p.since(start))
	return true
}

// strayStep tells whether a word that nobody knows stands where a step should: before a
// figure, or so like a word of the trade that it must be meant for it.
func (p *parser) strayStep() bool {
	if !p.is(",") {
		return false
	}
	n := 1
	for p.ahead(n).w == "and" || p.ahead(n).w == "then" {
		n++
	}
	t := p.ahead(n)
	if t.kind == punctToken && t.w != "(" && t.w != "-" { // a repeat that could not be read, or no writing at all
		return true
	}
	if known.has(t) || t.kind != wordToken || len(t.w) < 3 || leads.has(t) || benign.has(t) {
		return false
	}
	if p.ahead(n+1).kind == numToken {
		switch p.ahead(n + 2).w {
		case ",", ";", ".", ")", "]", "*", "\n", "":
			return true
		}
	}
	back := p.i
	defer func() { p.i = back }()
	if p.stepsBehind(n) {
		return true
	}
	p.i += n + 1
	near := spell.Nearest(t.w, vocabulary())
	return near != "" && (p.clauseEnd() || p.is("to") || p.peek().kind == numToken)
}

// stepsBehind tells whether the row goes on behind the clause n tokens on, which nobody knows.
func (p *parser) stepsBehind(n int) bool {
	p.i += n
	for !p.clauseEnd() {
		p.i++
	}
	if !p.any(",", ";") {
		return false
	}
	p.quiet++
	s, ok := p.step()
	p.quiet--
	return ok && (s.Op == script.Knit || s.Op == script.Purl || s.Op == script.Slip || s.Op == script.Decrease || s.Op == script.Group)
}

// lose reports words that could not be read, with the nearest known term.
func (p *parser) lose(from int, at source.Span) {
	word := p.toks[from]
	for i := from; i < len(p.toks) && p.toks[i].at.End <= at.End; i++ { // a word that nobody knows is likelier to blame
		if t := &p.toks[i]; t.kind == wordToken && !p.knows(t) {
			word = *t
			break
		}
	}
	raw := clip(p.raw(word.at))
	fault := source.Fault{At: source.Span{Start: word.at.Start, End: max(word.at.End, at.End)}, Kind: source.Unread, Severity: source.Warning,
		Text: source.Say("read.unread", "cannot read on from {0}; what follows is not certain", source.Quote(raw))}
	for i := from; i < len(p.toks) && p.toks[i].at.End <= at.End; i++ {
		t := p.toks[i]
		if known.has(&t) || t.kind != wordToken {
			continue
		}
		if len(t.w) > longestWord {
			break
		}
		if near := spell.Nearest(t.w, vocabulary()); near != "" && near != t.w {
			r := p.raw(t.at)
			fault.Mends = []source.Mend{{Edits: []source.Edit{{At: t.at, Text: near}}, Why: source.Say("read.mend-nearest", "is {0} meant for {1}?", source.Quote(r), source.Quote(near))}}
			break
		}
	}
	if p.tooDeep.Known() && p.tooDeep.Start >= at.Start && p.tooDeep.End <= at.End {
		fault.At = p.tooDeep
		fault.Text = source.Say("read.deep", "more than {0} brackets stand one in the other here: the row is not read", maxDepth)
		fault.Mends = []source.Mend{{Why: source.Say("read.mend-deep", "tell the row in several sentences")}}
	}
	p.out.Faults = append(p.out.Faults, fault)
	p.add(&script.Lost{Base: script.Base{At: at, Line: p.lineOf(at), Sizes: p.only}, Sentence: p.sentenceOf(from)})
}

// knows tells whether a word is one of the trade, of plain speech as far as it is read, or of
// the text's own.
func (p *parser) knows(t *token) bool {
	return known.has(t) || t.stitch != nil || leads.has(t) || benign.has(t) || labelNames.has(t) || len(t.w) < 3 ||
		p.terms[t.w] != nil || strings.HasSuffix(t.w, "ing") || strings.HasSuffix(t.w, "ly")
}

func (p *parser) lineOf(at source.Span) int {
	n, _ := p.file.Position(at.Start)
	return n
}

// isTitle: the first line is the title unless it is worked.
func (p *parser) isTitle(text string) bool {
	t := p.toks[0]
	if t.w == "co" || t.w == "abbr" || t.w == "gauge" || p.rowAhead(0) || p.is("cast", "on") {
		return false
	}
	return !p.startsWorked()
}

func (p *parser) startsWorked() bool {
	items, faults, i := len(p.items), len(p.out.Faults), p.i
	began, part, flat := p.began, p.part, p.flat
	p.quiet++
	ok := p.castOn() || p.row() || p.repeat()
	p.quiet--
	p.items, p.out.Faults, p.i = p.items[:items], p.out.Faults[:faults], i
	p.began, p.part, p.flat = began, part, flat
	p.rows = p.rows[:0]
	return ok
}

func (p *parser) isSizesLine(text string) bool {
	at := p.out.SizesAt
	line := p.file.LineSpan(p.line)
	if !at.Known() || at.Start < line.Start || at.End > line.End {
		return false
	}
	if countsBehind.MatchString(p.file.Slice(source.Span{Start: at.End, End: line.End})) {
		return false
	}
	return !strings.Contains(text, ":") || len(p.toks) < 3*p.sizes+16
}

// isHeading: a short line without figures that names a part, or one in capitals.
func (p *parser) isHeading(text string) bool {
	text = strings.TrimSpace(text)
	if len(p.toks) > 9 {
		return false
	}
	last := text[len(text)-1]
	if last == '.' && len(p.toks) > 3 || last == ',' || last == ';' {
		return false
	}
	part := false
	for _, t := range p.toks {
		if t.kind == numToken || t.w == "*" || t.w == "[" {
			return false
		}
		if t.w == "k" || t.w == "p" || t.w == "sl" || t.w == "work" || t.w == "rep" || t.w == "turn" && len(p.toks) > 2 || t.stitch != nil {
			if strings.ToUpper(text) != text {
				return false
			}
		}
		switch t.w {
		case "cuff", "leg", "heel", "flap", "gusset", "foot", "toe", "turn", "instep", "ankle", "calf", "finishing":
			part = true
		}
	}
	if part && (len(p.toks) <= 5 || !hasSmall(text)) {
		return !p.is("graft") && !p.is("k")
	}
	return !hasSmall(text) && countLetters(text) > 2 && !p.startsWorked()
}

func hasSmall(s string) bool { return strings.ContainsFunc(s, unicode.IsLower) }

func countLetters(s string) int {
	n := 0
	for _, r := range s {
		if unicode.IsLetter(r) {
			n++
		}
	}
	return n
}

func (p *parser) heading(text string) {
	part := sectionIn(p.toks)
	if part != script.NoPart {
		p.part = part
	}
	p.flat = part == script.Heel
	p.rowsOf = ""
	p.notes = p.toks[0].w == "note" || p.toks[0].w == "notes"
	p.forSizes = 0
	p.rows = p.rows[:0]
	p.i = 0
	p.add(&script.Section{Base: script.Base{At: p.toks[0].at.To(p.toks[len(p.toks)-1].at), Line: p.line}, Name: strings.TrimSpace(text), Part: part})
}

// headingOver reads a heading with the stitches that its part is worked over in brackets: "HEEL
// FLAP (first 28 sts of rnd)", "Heel (over the last 30 sts)".
func (p *parser) headingOver() bool {
	end := slices.IndexFunc(p.toks, func(t token) bool { return t.w == "(" || t.w == "[" })
	if end < 1 || end > 4 || sectionIn(p.toks[:end]) != script.Heel {
		return false
	}
	for i := range p.toks[:end] {
		if t := &p.toks[i]; t.kind != wordToken || t.stitch != nil || t.w == "k" || t.w == "p" || t.w == "turn" {
			return false
		}
	}
	back := p.i
	p.i = end + 1
	p.skip("over", "on", "the", "worked", "work")
	d := script.Divide{Part: script.Heel}
	if !p.someSts(&d) || d.From != script.First && d.From != script.Last {
		p.i = back
		return false
	}
	shut := p.any(")", "]")
	p.any(":")
	if !shut || !p.done() {
		p.i = back
		return false
	}
	all := p.toks
	p.toks = all[:end]
	p.heading(p.raw(all[0].at.To(all[end-1].at)))
	p.toks, p.i = all, len(all)
	d.Base = p.base(end)
	p.add(&d)
	return true
}

// sectionIn is the first part of the sock that words name; the instep and the sole have no
// section of their own.
func sectionIn(toks []token) script.Part {
	for i := range toks {
		part := partNamed(toks[i].w)
		switch toks[i].w {
		case "instep", "sole":
			part = script.NoPart
		case "turn", "turning":
			part = script.Heel
		case "calf", "ankle":
			part = script.Leg
		case "welt":
			part = script.Cuff
		}
		if part != script.NoPart {
			return part
		}
	}
	return script.NoPart
}

// prefix reads words before a colon or a stop that name a part or a pattern: "Leg:",
// "Heel flap:", "Toe.", "Reed patt (multiple of 8 sts):".
func (p *parser) prefix() {
	start := p.i
	words, end := 0, -1
	depth := 0
	for i := p.i; i < p.i+5 && i+1 < len(p.toks); i++ { // "RIGHT SOCK, Rnd 1:", "Band, row 1:"
		t := p.toks[i]
		if t.w == "," && i > p.i {
			if p.i = i + 1; p.rowAhead(0) && !p.is("row", ",") {
				if part := partNamed(p.toks[start].w); i == start+1 && (part == script.Sole || part == script.Instep) { // of the label
					p.i = start
					return
				}
				if named := p.raw(p.toks[start].at.To(p.toks[i-1].at)); named != p.rowsOf { // "Toe, round 1." and "Toe, round 2."
					p.partPrefix(start, i)
					p.rowsOf = named
				}
				return
			}
			p.i = start
			break
		}
		if t.kind != wordToken || t.w == "row" || t.w == "rnd" {
			break
		}
	}
scan:
	for i := p.i; i < len(p.toks) && i < p.i+24; i++ {
		t := p.toks[i]
		switch {
		case t.w == "(":
			depth++
		case t.w == ")":
			depth--
		case depth > 0:
		case t.w == ":":
			end = i
			break scan
		case (t.w == "." || t.w == "-") && words > 0 && words <= 3 && i+1 < len(p.toks):
			if sectionIn(p.toks[p.i:i]) != script.NoPart || t.w == "." && words <= 2 {
				end = i
			}
			break scan
		case t.kind == numToken || t.w == "," || t.w == ";" || t.w == "*" || t.w == "[" || t.w == ".":
			return
		case t.kind == wordToken:
			words++
			if words > 7 {
				return
			}
		}
	}
	if end <= start || p.setUpAhead() || p.rowAhead(0) || p.labelAhead() || p.nthAhead() || p.atNeedle() {
		return
	}
	if p.toks[end].w == ":" && (p.rowWords(start, end) || p.toks[end-1].w == "sts" || p.cameTo(start, end)) {
		return
	}
	pattern := false
	for i := start; i < end; i++ {
		switch p.toks[i].w {
		case "measures", "k", "p", "sl", "on", "rep", "until", "over", "co", "work", "inc", "dec", "cast", "total":
			return
		case "patt", "lace", "chart", "multiple":
			pattern = true
		}
		if p.toks[i].stitch != nil {
			return
		}
	}
	if pattern {
		p.patternHead(start, end)
		return
	}
	if sectionIn(p.toks[start:end]) == script.NoPart && p.toks[end].w != ":" {
		return
	}
	p.partPrefix(start, end)
	p.i = end + 1
}

// cameTo tells whether words say how far the work has come, "The foot is worked to the toe",
// rather than name a part.
func (p *parser) cameTo(from, to int) bool {
	done := false
	for i := from; i < to; i++ {
		switch p.toks[i].w {
		case "worked", "done", "complete", "finished", "k":
			done = true
		case "to", "until", "before":
			if done && sectionIn(p.toks[i:to]) != script.NoPart {
				return true
			}
		}
	}
	return false
}

// partPrefix begins a part that is named by the words before a stop.
func (p *parser) partPrefix(start, end int) {
	if start > 0 && end == start+1 && p.toks[start].w == "turn" { // the work, not the heel
		return
	}
	part := sectionIn(p.toks[start:end])
	sock := p.toks[end-1].w == "sock" || p.toks[end-1].w == "socks"
	if part == 0 && !sock {
		return
	}
	if part != script.NoPart {
		p.part, p.flat = part, part == script.Heel
	}
	p.rowsOf = ""
	at := p.toks[start].at.To(p.toks[end-1].at)
	p.add(&script.Section{Base: script.Base{At: at, Line: p.lineOf(at), Sizes: p.only}, Name: p.raw(at), Part: part})
}

// enterPart begins a part that is named in the midst of a sentence.
func (p *parser) enterPart(part script.Part, at source.Span) {
	p.part, p.flat = part, false
	p.add(&script.Section{Base: script.Base{At: at, Line: p.lineOf(at), Sizes: p.only}, Name: p.raw(at), Part: part})
}

// setUpAhead tells whether the set-up of a part is told here.
func (p *parser) setUpAhead() bool {
	back := p.i
	defer func() { p.i = back }()
	return p.setUpOf() != script.NoPart
}

// atNeedle tells whether a needle is named here.
func (p *parser) atNeedle() bool {
	back := p.i
	defer func() { p.i = back }()
	_, _, ok := p.needle()
	return ok
}

func (p *parser) rowWords(from, to int) bool {
	for i := from; i < to; i++ {
		if w := p.toks[i].w; w == "row" || w == "rnd" {
			return true
		}
	}
	return false
}

// patternHead begins a stitch pattern: "Reed patt (multiple of 8 sts):".
func (p *parser) patternHead(from, end int) {
	s := &script.Section{Base: script.Base{At: p.toks[from].at.To(p.toks[end].at), Line: p.lineOf(p.toks[from].at), Sizes: p.only}}
	nameEnd := end
	for i := from; i < end; i++ {
		switch t := p.toks[i]; {
		case t.w == "(":
			nameEnd = min(nameEnd, i)
		case t.w == "multiple":
			if i+2 < end && p.toks[i+2].kind == numToken {
				back := p.i
				p.i = i + 2
				s.Multiple, _ = p.number()
				p.i = back
				s.Only = !p.began
			}
		case t.kind == numToken && i+1 < end && (p.toks[i+1].w == "-" || p.toks[i+1].w == "sts"):
			back := p.i
			p.i = i
			s.Multiple, _ = p.number()
			p.i = back
		case t.w == "same" || t.w == "constant":
			s.Constant = true
		}
	}
	s.Name = patternName(p.toks[from:nameEnd])
	if s.Name != "" {
		p.patterns[s.Name] = true
	}
	p.rows = p.rows[:0]
	p.flat = false
	p.add(s)
	p.i = end + 1
}

// patternName is the name under which a stitch pattern is kept.
func patternName(toks []token) string {
	var words []string
	for _, t := range toks {
		switch t.w {
		case "patt", "chart", "lace", "the", "in", "of", "all", "across", "rib", "sts":
		default:
			if t.kind == wordToken {
				words = append(words, t.w)
			}
		}
	}
	if len(words) == 0 {
		for _, t := range toks {
			if t.w == "lace" || t.w == "chart" || t.w == "patt" {
				return t.w
			}
		}
	}
	return strings.Join(words, " ")
}

func (p *parser) patternNamed(toks []token) string {
	if name := patternName(toks); p.patterns[name] {
		return name
	}
	return ""
}

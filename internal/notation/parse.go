package notation

import (
	"strings"
	"sync"

	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

// The grammar of instructions, by recursive descent. Each method tries to read one thing
// at r.at; where it cannot, it returns false, and the caller gives up the line.

// word tells whether the next words are these, and takes them. Capitals do not matter.
func (r *reader) word(words ...string) bool {
	for i, w := range words {
		if r.at+i >= len(r.toks) || !strings.EqualFold(r.toks[r.at+i].text, w) {
			r.best = max(r.best, r.at+i)
			return false
		}
	}
	r.at += len(words)
	return true
}

// phrase is word for a phrase as it is printed.
func (r *reader) phrase(s string) bool {
	start := r.at
	for _, w := range phraseWords(s) {
		if !r.word(w) {
			r.at = start
			return false
		}
	}
	return true
}

// phraseWords is [wordsOf] a phrase of ours: there are few, and each is looked for at many
// places.
func phraseWords(s string) []string {
	if words, ok := phrases.Load(s); ok {
		return words.([]string)
	}
	words := wordsOf(s)
	phrases.Store(s, words)
	return words
}

var phrases sync.Map // of []string by phrase

func (r *reader) peek() (token, bool) {
	if r.at >= len(r.toks) {
		r.best = max(r.best, r.at)
		return token{}, false
	}
	return r.toks[r.at], true
}

func (r *reader) peekWord() string {
	if t, ok := r.peek(); ok {
		return t.text
	}
	return ""
}

func (r *reader) done() bool { return r.at == len(r.toks) }

// value reads one number or a dash.
func (r *reader) value() (int32, source.Span, bool) {
	t, ok := r.peek()
	if !ok || t.kind != digitToken {
		if ok && (t.text == "–" || t.text == "—" || t.text == "-") {
			r.at++
			return pattern.Gap, t.span, true
		}
		r.best = max(r.best, r.at)
		return 0, source.Span{}, false
	}
	r.at++
	return t.value, t.span, true
}

// number reads "64" or "56 (64, 72)".
func (r *reader) number() (pattern.Number, bool) {
	v, at, ok := r.value()
	if !ok {
		return pattern.Number{}, false
	}
	one := pattern.Number{Val: []int32{v}, At: at, Cols: []source.Span{at}}
	n, start := one, r.at
	if !r.word("(") {
		return one, true
	}
	for {
		v, at, ok := r.value()
		if !ok { // not a list
			r.at = start
			return one, true
		}
		n.Val, n.Cols = append(n.Val, v), append(n.Cols, at)
		if r.word(")") {
			break
		}
		if !r.word(",") {
			return one, false
		}
	}
	n.At = n.At.To(r.toks[r.at-1].span)
	if !r.sizesAt.Known() && len(r.out.Pattern.Sizes) == 1 && len(n.Val) <= source.MaxSizes { // the first list tells how many sizes there are
		r.out.Pattern.Sizes = numbered(len(n.Val))
	}
	if sizes := len(r.out.Pattern.Sizes); len(n.Val) != sizes {
		r.fault(n.At, source.SizeColumn, source.Error,
			source.Say("read.list-length", "the list has {0} numbers, but the sizes are {1}: {2}", len(n.Val), sizes, sizeNames(r.out.Pattern.Sizes)))
	}
	return n, true
}

func (r *reader) sts() bool { return r.word("sts") || r.word("st") }

// instruction reads the line as something that is worked. begun tells whether it begins
// like one, so that a line that is then not read is worth reporting.
func (r *reader) instruction() (n pattern.Node, begun bool) {
	if label, ok := r.label(); ok {
		if row, ok := r.row(label); ok {
			return row, true
		}
		return nil, true
	}
	r.at = 0
	switch strings.ToLower(r.peekWord()) {
	case "co":
		n, begun = r.castOn(), r.digitAt(1)
	case "knit", "purl":
		n, begun = r.plain(), r.digitAt(1)
	case "arrange":
		n, begun = r.arrange(), true
	case "work", "do":
		if n = r.plain(); n != nil || r.digitAt(1) {
			begun = true
			break
		}
		r.at, r.best = 0, 0
		if n = r.again(); n == nil {
			begun = r.best > 2 // more than "work the" was read
			r.at = 0
		}
	}
	if n == nil && !begun {
		n, begun = r.motif()
	}
	if n == nil && !begun {
		n, begun = r.sentence()
	}
	if n == nil && !begun && r.out.Worked > 0 {
		begun = r.looksWorked()
	}
	return n, begun
}

// looksWorked tells whether a line that is none of those known here looks all the same like
// one that is worked: it begins with a step or with a row's name and number, or has such
// behind a colon. Only lines after the cast-on are looked at so.
func (r *reader) looksWorked() bool {
	word := func(i int) string { return strings.ToLower(r.file.Slice(r.toks[i].span)) }
	step := func(i int) bool {
		if i+1 >= len(r.toks) {
			return false
		}
		switch word(i) {
		case "k", "p", "sl":
			return r.digitAt(i+1) || word(i+1) == "to"
		case "knit", "purl", "bo":
			return r.digitAt(i + 1)
		case "*", "[":
			return true
		}
		_, op := opOf[word(i)]
		return op
	}
	switch word(0) {
	case "row", "rows", "rnd", "rnds", "round", "rounds":
		return r.digitAt(1)
	case "cast", "bind":
		return len(r.toks) > 2 && (word(1) == "on" || word(1) == "off") && r.digitAt(2)
	}
	for i := range r.toks {
		if word(i) == ":" {
			return step(i + 1)
		}
	}
	return step(0)
}

func (r *reader) digitAt(i int) bool { return i < len(r.toks) && r.toks[i].kind == digitToken }

// label reads "Set-up row 2 (WS):".
func (r *reader) label() (pattern.Label, bool) {
	l, ok := r.ref()
	return l, ok && r.word(":")
}

// ref reads "Set-up row 2 (WS)".
func (r *reader) ref() (l pattern.Label, ok bool) {
	if l.Name = labelNames[strings.ToLower(r.peekWord())]; l.Name != pattern.Plainly {
		r.at++
	}
	return l, r.rowName(&l)
}

// rowName reads "Row 2 (WS)" behind the name.
func (r *reader) rowName(l *pattern.Label) bool {
	switch {
	case r.word("row"):
		l.Word = pattern.FlatRow
	case r.word("rnd"):
		l.Word = pattern.Round
	default:
		return false
	}
	if t, ok := r.peek(); ok && t.kind == digitToken {
		l.Num = t.value
		r.at++
	}
	switch {
	case r.word("(", "RS", ")"):
		l.Side = pattern.RS
	case r.word("(", "WS", ")"):
		l.Side = pattern.WS
	}
	return true
}

func (r *reader) row(label pattern.Label) (*pattern.Row, bool) {
	row := &pattern.Row{Label: label}
	for {
		part := pattern.Part{Needle: r.needle()}
		steps, ok := r.steps()
		if !ok {
			return nil, false
		}
		part.Steps = steps
		row.Parts = append(row.Parts, part)
		if r.word(".") {
			break
		}
		if !r.word(";") {
			return nil, false
		}
	}
	var ok bool
	row.Count, ok = r.count()
	return row, ok && r.done()
}

// needle reads "N2:".
func (r *reader) needle() uint8 {
	if r.at+2 < len(r.toks) && strings.EqualFold(r.peekWord(), "n") {
		if n := r.toks[r.at+1]; n.kind == digitToken && n.value < 100 && r.toks[r.at+2].text == ":" {
			r.at += 3
			return uint8(n.value)
		}
	}
	return 0
}

func (r *reader) steps() ([]pattern.Step, bool) {
	var steps []pattern.Step
	for {
		first := r.at
		s, ok := r.step()
		if !ok {
			return nil, false
		}
		s.At = r.toks[first].span.To(r.toks[r.at-1].span)
		steps = append(steps, s)
		if !r.word(",") {
			return steps, true
		}
	}
}

func (r *reader) step() (s pattern.Step, ok bool) {
	t, ok := r.peek()
	if !ok {
		return s, false
	}
	word := strings.ToLower(t.text)
	if op, n := r.oneWord(); n > 0 {
		r.at += n
		return pattern.Step{Op: op}, true
	}
	if turned, ok := r.turn(); ok {
		return pattern.Step{Op: pattern.Turn, Turned: turned}, true
	}
	if r.phrase(stepWords[pattern.ThreeIn1]) {
		return pattern.Step{Op: pattern.ThreeIn1}, true
	}
	switch word {
	case "knit", "purl":
		r.at++
		s = pattern.Step{Op: pattern.Knit, Until: pattern.ToEnd}
		if word == "purl" {
			s.Op = pattern.Purl
		}
		return s, true
	case "k", "p", "sl":
		r.at++
		return r.single(word)
	case "work":
		r.at++
		return r.inMotif()
	case "remove":
		r.at++
		return pattern.Step{Op: pattern.RemoveMarker}, r.word("m")
	case "pick":
		r.at++
		s = pattern.Step{Op: pattern.PickUp}
		switch {
		case r.word("up", "and", "k"):
		case r.word("up", "and", "p"):
			s.Op = pattern.PickUpPurl
		default:
			return s, false
		}
		if s.N, ok = r.number(); !ok {
			return s, false
		}
		for edge, words := range edgeWords {
			if r.phrase(words) {
				s.Edge = edge
				return s, true
			}
		}
		return s, false
	case "[", "*":
		if r.depth == maxDepth {
			break
		}
		r.at++
		r.depth++
		defer func() { r.depth-- }()
		if word == "[" {
			return r.bracket()
		}
		return r.star()
	}
	r.best = max(r.best, r.at)
	return s, false
}

// oneWord finds the step that is one word at r.at, and how many tokens that is: to the lexer
// "k2tog" and "s2kp2" are letters and digits that hang together.
func (r *reader) oneWord() (op pattern.Op, tokens int) {
	word := ""
	for i := r.at; i < len(r.toks) && r.toks[i].kind <= digitToken && (i == r.at || r.toks[i].glued); i++ {
		word += strings.ToLower(r.toks[i].text)
		if o, known := opOf[word]; known {
			op, tokens = o, i+1-r.at
		}
	}
	return op, tokens
}

// turn reads the words that end a row which turns. The longer ones come first.
func (r *reader) turn() (pattern.Turned, bool) {
	for turned := len(turnWords) - 1; turned >= 0; turned-- {
		if r.phrase(turnWords[turned]) {
			return pattern.Turned(turned), true
		}
	}
	return 0, false
}

// single reads what follows k, p or sl.
func (r *reader) single(word string) (s pattern.Step, ok bool) {
	s.Op = map[string]pattern.Op{"k": pattern.Knit, "p": pattern.Purl, "sl": pattern.Slip}[word]
	if word != "sl" {
		for turned := pattern.Wrapped; turned <= pattern.Doubled; turned++ {
			if r.phrase(closeWords[turned]) {
				return pattern.Step{Op: s.Op + pattern.KnitTurned - pattern.Knit, Turned: turned}, true
			}
		}
	}
	if r.word("to") {
		if !r.reach(&s) {
			return s, false
		}
	} else if s.N, ok = r.number(); !ok {
		return s, false
	}
	r.tail(&s)
	return s, true
}

// reach reads how far a step goes, behind "to".
func (r *reader) reach(s *pattern.Step) (ok bool) {
	switch {
	case r.word("end"):
		s.Until = pattern.ToEnd
	case r.word("m"):
		s.Until = pattern.ToMarker
	case r.word("last"):
		s.Until = pattern.ToLast
		if r.word("st") {
			s.N = pattern.Of(1)
			return true
		}
		if s.N, ok = r.number(); !ok || !r.sts() {
			return false
		}
	default:
		s.Until = pattern.ToGap
		if s.N, ok = r.number(); ok && (!r.sts() || !r.word("before")) {
			return false
		}
		if r.word("m") {
			s.Until = pattern.ToMarker
			return true
		}
		if s.Turned, ok = r.gap(); !ok {
			return false
		}
	}
	return true
}

// gap reads what a row comes to where the work was turned.
func (r *reader) gap() (pattern.Turned, bool) {
	for turned, words := range gapWords {
		if r.phrase(words) {
			return pattern.Turned(turned), true
		}
	}
	return 0, false
}

// tail reads the words behind the number of a step that make another step of it.
func (r *reader) tail(s *pattern.Step) {
	for op, words := range tailWords {
		if stepWords[op] == stepWords[s.Op] && r.phrase(words) {
			s.Op = op
			return
		}
	}
}

// bracket reads "k2, p2] 4 times".
func (r *reader) bracket() (s pattern.Step, ok bool) {
	s.Op = pattern.Group
	if s.Body, ok = r.steps(); !ok || !r.word("]") {
		return s, false
	}
	if r.word("once") {
		s.N = pattern.Of(1)
		return s, true
	}
	s.N, ok = r.number()
	return s, ok && r.word("times")
}

// star reads "k2, p2; rep from * to end".
func (r *reader) star() (s pattern.Step, ok bool) {
	s.Op = pattern.Group
	if s.Body, ok = r.steps(); !ok || !r.word(";", "rep", "from", "*", "to") {
		return s, false
	}
	return s, r.reach(&s) && s.Until != pattern.ToMarker
}

// count reads what is stated after a row: "2 sts dec'd. 64 sts: 16 on N1, 48 on N2."
func (r *reader) count() (*pattern.Count, bool) {
	if r.done() {
		return nil, true
	}
	c := &pattern.Count{At: r.toks[r.at].span}
	n, ok := r.number()
	if !ok || !r.sts() {
		return nil, false
	}
	if sign := r.change(); sign != 0 {
		c.Change = times(n, sign)
		if !r.word(".") {
			return nil, false
		}
		if r.done() {
			return c, true
		}
		if n, ok = r.number(); !ok || !r.sts() {
			return nil, false
		}
	}
	c.Total = n
	if r.word(":") {
		if c.Split, ok = r.split(); !ok {
			return nil, false
		}
	}
	c.At = c.At.To(r.toks[r.at-1].span)
	return c, r.word(".")
}

func (r *reader) change() int32 {
	switch {
	case r.word("dec'd"):
		return -1
	case r.word("inc'd"):
		return 1
	}
	return 0
}

func times(n pattern.Number, sign int32) pattern.Number {
	for i := range n.Val {
		if n.Val[i] != pattern.Gap {
			n.Val[i] *= sign
		}
	}
	return n
}

// split reads "16 on N1, 32 on N2".
func (r *reader) split() ([]pattern.Number, bool) {
	var split []pattern.Number
	for {
		n, ok := r.number()
		if !ok || !r.word("on", "N") {
			return nil, false
		}
		if i, _, ok := r.value(); !ok || int(i) != len(split)+1 {
			return nil, false
		}
		split = append(split, n)
		if !r.word(",") {
			return split, true
		}
	}
}

func (r *reader) castOn() pattern.Node {
	n := &pattern.CastOn{}
	var ok bool
	if !r.word("co") {
		return nil
	}
	if n.Stitches, ok = r.number(); !ok || !r.sts() {
		return nil
	}
	after := r.at
	// How it is joined and where the round begins may be left unsaid.
	if !r.word(".") || !r.done() {
		r.at = after
		if n.Form, ok = r.start(); !ok {
			return nil
		}
		if n.Form.Joined() && r.phrase("The rnd begins") {
			if n.Begin, ok = r.place(); !ok {
				return nil
			}
		}
	}
	if !r.done() {
		return nil
	}
	return n
}

func (r *reader) start() (pattern.Start, bool) {
	for s, words := range startWords {
		if r.phrase(words) {
			return pattern.Start(s), true
		}
	}
	r.word(".") // the joining left out
	return pattern.InRound, true
}

func (r *reader) place() (pattern.Place, bool) {
	p, ok := r.placeWord()
	return p, ok && r.word(".")
}

func (r *reader) placeWord() (pattern.Place, bool) {
	for _, p := range pattern.Places() {
		if r.phrase(placeWords[p]) {
			return p, true
		}
	}
	return 0, false
}

func (r *reader) again() pattern.Node {
	n := &pattern.Again{}
	none := r.word("do", "not", "repeat")
	if !none && !r.word("work") {
		return nil
	}
	next := false // "on each of the next 4 rnds"
	var ok bool
	if r.word("the", "last") {
		n.Rows = 1
		if t, has := r.peek(); has && t.kind == digitToken {
			n.Rows = t.value
			r.at++
		}
		switch {
		case r.word("rows") || r.word("row"):
			n.Word = pattern.FlatRow
		case r.word("rnds") || r.word("rnd"):
			n.Word = pattern.Round
		default:
			return nil
		}
	} else {
		if n.Which, ok = r.ref(); !ok {
			return nil
		}
		n.Word = n.Which.Word
		next = !none && r.phrase("again on each of the next")
	}
	switch {
	case none:
		n.Times, ok = pattern.Of(0), true
	case next:
		n.Times, ok = r.number()
		ok = ok && (r.word("rows") || r.word("rnds"))
	default:
		n.Times, ok = r.moreTimes()
	}
	if !ok || !r.rest(&n.Or, &n.Total, &n.Count) {
		return nil
	}
	return n
}

func (r *reader) moreTimes() (pattern.Number, bool) {
	if r.word("once", "more") {
		return pattern.Of(1), true
	}
	n, ok := r.number()
	return n, ok && r.word("more", "times")
}

// total reads "16 rows in all."
func (r *reader) total() (pattern.Number, bool) {
	start := r.at
	n, ok := r.number()
	if ok && (r.word("rows") || r.word("row") || r.word("rnds") || r.word("rnd")) {
		return n, r.word("in", "all", ".")
	}
	r.at = start
	return pattern.Number{}, true
}

func (r *reader) plain() pattern.Node {
	n := &pattern.Plain{}
	switch {
	case r.word("knit"):
		n.Op = pattern.Knit
	case r.word("purl"):
		n.Op = pattern.Purl
	case r.word("work"):
		n.Op = pattern.InMotif
	default:
		return nil
	}
	var ok bool
	if n.Rounds, ok = r.number(); !ok {
		return nil
	}
	n.More = r.word("more")
	if !r.word("rnds") && !r.word("rnd") {
		return nil
	}
	if n.Op == pattern.InMotif {
		if n.Name, ok = r.ofMotif(); !ok {
			return nil
		}
	}
	if !r.rest(&n.Or, &n.Total, &n.Count) {
		return nil
	}
	return n
}

// rest reads the end of a line that repeats: the measure that says the same, totals and counts.
func (r *reader) rest(or *pattern.Text, total *pattern.Number, count **pattern.Count) (ok bool) {
	if *or, ok = r.orUntil(); !ok {
		return false
	}
	if *total, ok = r.total(); !ok {
		return false
	}
	*count, ok = r.count()
	return ok && r.done()
}

// orUntil reads ", or until the leg measures 6 in [15.2 cm]." or just the full stop.
func (r *reader) orUntil() (pattern.Text, bool) {
	if !r.word(",", "or", "until") {
		return nil, r.word(".")
	}
	from := r.toks[r.at-1].span.End
	for ; !r.done(); r.at++ {
		// A full stop ends the sentence, a decimal point does not.
		if t := r.toks[r.at]; t.text == "." && (r.at+1 == len(r.toks) || !r.toks[r.at+1].glued) {
			r.at++
			return r.values(strings.TrimSpace(r.file.Slice(source.Span{Start: from, End: t.span.Start}))), true
		}
	}
	return nil, false
}

func (r *reader) arrange() pattern.Node {
	if !r.phrase("Arrange the sts:") {
		return nil
	}
	split, ok := r.split()
	if !ok || !r.word(".") || !r.done() {
		return nil
	}
	return &pattern.Arrange{Split: split}
}

package notation

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"sockwright/internal/pattern"
	"sockwright/internal/source"
	"sockwright/internal/spell"
)

// A Reading is what a text was read as.
type Reading struct {
	Pattern *pattern.Pattern
	Faults  []source.Fault // what could not be read, lists that do not fit the sizes
	Worked  int            // lines that are worked, as against prose
}

// Read reads a written pattern. It never gives up: a line that begins like an instruction
// and cannot be read to its end is reported, with the words it stumbled over, and kept as
// prose; a list of numbers that has not one for each size is reported and read as far as
// it goes.
//
// Sizes are named by a line "Sizes: S (M, L)" or "Size: M"; without one the pattern has a
// single size without a name.
func Read(f *source.File) *Reading {
	r := &reader{file: f, out: &Reading{Pattern: &pattern.Pattern{Sizes: []string{""}}}}
	r.findSizes()
	r.lines(lex(f.Text))
	r.out.Pattern.Index()
	return r.out
}

type reader struct {
	file    *source.File
	out     *Reading
	section *pattern.Section
	only    *pattern.Only // the group that lines go into, or nil

	sizesAt source.Span // the line that names the sizes
	motifs  []string    // names of the stitch patterns so far

	toks  []token // of the line, without blanks
	at    int     // next token
	best  int     // furthest token that was looked at in vain
	depth int     // repeats that the next token stands in
}

// maxDepth is how many repeats may stand one in the other.
const maxDepth = 12

func (r *reader) lines(all []token) {
	blank, first := true, true
	for i := 0; i < len(all); {
		end := i
		for end < len(all) && all[end].kind != lineToken {
			end++
		}
		r.take(all[i:end])
		if len(r.toks) > 0 {
			r.line(blank, first && emptyLine(all[min(end+1, len(all)):]))
			first = false
		}
		blank = len(r.toks) == 0
		i = end + 1
	}
}

// take makes tokens the line that is read, without the blanks among them.
func (r *reader) take(tokens []token) {
	r.toks = r.toks[:0]
	for _, t := range tokens {
		if t.kind != spaceToken {
			r.toks = append(r.toks, t)
		}
	}
}

// span is the words of the line, without blanks round them.
func (r *reader) span() source.Span {
	return r.toks[0].span.To(r.toks[len(r.toks)-1].span)
}

// emptyLine tells whether the next line has nothing on it.
func emptyLine(next []token) bool {
	for _, t := range next {
		if t.kind != spaceToken {
			return t.kind == lineToken
		}
	}
	return false
}

// line reads one line. A title is the first line of the text, apart from the next one; it is
// not looked into, so that a sock may be called what it will.
func (r *reader) line(afterBlank, apart bool) {
	r.at, r.best = 0, 0
	p := r.out.Pattern
	at := r.span()
	text := r.file.Slice(at)
	if apart && !hasSmall(text) {
		p.Title = text
		return
	}
	if (afterBlank && isHeading(text) || r.isPageHeading(text, afterBlank)) && !r.readsAsWorked() {
		r.only = nil
		if p.Title == "" && len(p.Sections) == 0 {
			p.Title = text
			return
		}
		r.section = &pattern.Section{Base: pattern.Base{At: at}, Title: text}
		p.Sections = append(p.Sections, r.section)
		return
	}
	if r.section == nil {
		r.section = &pattern.Section{}
		p.Sections = append(p.Sections, r.section)
	}
	if r.onlyLine(at, text) {
		return
	}
	var n pattern.Node
	if !r.inGlossary() {
		n = r.worked()
	}
	if n == nil {
		n = r.prose(text)
	}
	pattern.SetAt(n, at)
	r.named(n)
	if r.intoMotif(n) {
		return
	}
	if r.only != nil {
		r.only.Body = append(r.only.Body, n)
	} else {
		r.section.Body = append(r.section.Body, n)
	}
}

// readsAsWorked tells whether a line in capitals is an instruction all the same.
func (r *reader) readsAsWorked() bool {
	faults := len(r.out.Faults)
	n, _ := r.instruction()
	r.at, r.best, r.out.Faults = 0, 0, r.out.Faults[:faults]
	return n != nil
}

// worked reads the line as something that is worked, if need be with the nearest known
// word in the place of one that is not known. A line that begins like an instruction and
// cannot be read to its end is returned as prose that says so, any other as nil.
func (r *reader) worked() pattern.Node {
	sizes, faults := r.out.Pattern.Sizes, len(r.out.Faults)
	n, begun := r.instruction()
	if n == nil {
		undo := func() { r.out.Pattern.Sizes, r.out.Faults = sizes, r.out.Faults[:faults] }
		undo()
		if !begun {
			return nil
		}
		stumbled := max(r.best, r.at)
		if n = r.guess(stumbled); n == nil {
			undo()
			r.unread(stumbled)
			return &pattern.Prose{Style: pattern.Unread, Text: r.values(r.file.Slice(r.span()))}
		}
	}
	r.out.Worked++
	return n
}

// guess reads the line again with the nearest known word in the place of the one that it
// stumbled over, and reports what it took it for.
func (r *reader) guess(stumbled int) pattern.Node {
	if stumbled >= len(r.toks) || r.toks[stumbled].kind != wordToken {
		return nil
	}
	// "k2toq" is three tokens: the words and digits that hang together.
	from, to := stumbled, stumbled+1
	for from > 0 && r.toks[from].glued && r.toks[from-1].kind <= digitToken {
		from--
	}
	for to < len(r.toks) && r.toks[to].glued && r.toks[to].kind <= digitToken {
		to++
	}
	line := slices.Clone(r.toks)
	defer func() { r.toks = line }()
	for _, run := range [][2]int{{from, to}, {stumbled, stumbled + 1}} {
		at := line[run[0]].span.To(line[run[1]-1].span)
		word := r.file.Slice(at)
		near := spell.Nearest(word, knownWords())
		if near == "" || strings.EqualFold(near, word) {
			continue
		}
		instead := lex(near)
		for i := range instead {
			instead[i].span = at
		}
		r.toks = slices.Concat(line[:run[0]], instead, line[run[1]:])
		r.at, r.best = 0, 0
		if n, _ := r.instruction(); n != nil {
			r.out.Faults = append(r.out.Faults, source.Fault{At: at, Kind: source.UndefinedTerm, Severity: source.Warning,
				Text:  source.Say("read.nearest", "{0} is no term that is known here; it is read as {1}", source.Quote(word), source.Quote(near)),
				Mends: []source.Mend{{Edits: []source.Edit{{At: at, Text: near}}, Why: source.Say("read.mend-nearest", "write {0}", source.Quote(near))}}})
			return n
		}
	}
	return nil
}

// isHeading: at least three letters, none of them small.
func isHeading(s string) bool {
	letters := 0
	for _, c := range s {
		if unicode.IsLetter(c) {
			letters++
		}
	}
	return letters >= 3 && !hasSmall(s) && !strings.Contains(s, ":")
}

// pageHeading is a heading as the page has it: in small letters, with a number where the
// section is worked.
var pageHeading = regexp.MustCompile(`^(\d{1,2} )?\p{Lu}\p{L}+(?:,? \p{L}+){0,5}$`)

// isPageHeading tells whether a line is a heading of the page: a text with headings in
// capitals is none. The numbered ones need no blank line before them, which is lost where a
// sheet of paper ends.
func (r *reader) isPageHeading(s string, afterBlank bool) bool {
	m := pageHeading.FindStringSubmatch(s)
	return m != nil && (afterBlank || m[1] != "") && !slices.ContainsFunc(r.out.Pattern.Sections, func(s *pattern.Section) bool {
		return s.Title != "" && !hasSmall(s.Title)
	})
}

// hasSmall tells whether a text has letters that are not capitals but could be.
func hasSmall(s string) bool {
	return strings.ContainsFunc(s, func(c rune) bool { return unicode.IsLower(c) && unicode.ToUpper(c) != c }) // ß has no capital
}

// cutPrefixFold and cutSuffixFold cut whatever the capitals.
func cutPrefixFold(s, prefix string) (rest string, ok bool) {
	if len(s) < len(prefix) || !strings.EqualFold(s[:len(prefix)], prefix) {
		return s, false
	}
	return s[len(prefix):], true
}

func cutSuffixFold(s, suffix string) (rest string, ok bool) {
	if len(s) < len(suffix) || !strings.EqualFold(s[len(s)-len(suffix):], suffix) {
		return s, false
	}
	return s[:len(s)-len(suffix)], true
}

// onlyLine reads "Sizes S and M only:" and "All sizes:".
func (r *reader) onlyLine(at source.Span, text string) bool {
	if strings.EqualFold(text, allSizes) || strings.EqualFold(text, bothSocks) {
		r.only = nil
		return true
	}
	for sock, words := range sockWords {
		if strings.EqualFold(text, words+" "+onlyWord) {
			r.only = &pattern.Only{Base: pattern.Base{At: at}, Sizes: source.AllSizes(len(r.out.Pattern.Sizes)), Sock: sock}
			r.section.Body = append(r.section.Body, r.only)
			return true
		}
	}
	rest, ok := cutSuffixFold(text, " "+onlyWord)
	if !ok {
		return false
	}
	names, ok := cutPrefixFold(rest, "Sizes ")
	if !ok {
		if names, ok = cutPrefixFold(rest, "Size "); !ok {
			return false
		}
	}
	named := source.Span{Start: at.Start + uint32(len(rest)-len(names)), End: at.Start + uint32(len(rest))}
	if !named.Known() {
		named = at
	}
	only := &pattern.Only{Base: pattern.Base{At: at}}
	for _, name := range strings.Split(strings.Replace(names, " and ", ", ", 1), ", ") {
		i := slices.Index(r.out.Pattern.Sizes, name)
		if i < 0 {
			if name == "" {
				named = at
			}
			r.noSize(named, name)
			r.only = nil
			r.section.Body = append(r.section.Body, &pattern.Prose{Base: only.Base, Style: pattern.Unread, Text: pattern.Words(text)})
			return true
		}
		only.Sizes |= source.OneSize(i)
	}
	r.only = only
	r.section.Body = append(r.section.Body, only)
	return true
}

func (r *reader) fault(at source.Span, kind source.Kind, severity source.Severity, text source.Message) {
	r.out.Faults = append(r.out.Faults, source.Fault{At: at, Kind: kind, Severity: severity, Text: text})
}

// noSize reports a name among names that no size has.
func (r *reader) noSize(names source.Span, name string) {
	sizes := r.out.Pattern.Sizes
	f := source.Fault{At: names, Kind: source.SizeColumn, Severity: source.Error,
		Text: source.Say("read.no-size", "no size is called {0}: the sizes are {1}", source.Quote(name), sizeNames(sizes))}
	if i := strings.Index(r.file.Slice(names), name); name != "" {
		f.At = source.Span{Start: names.Start + uint32(i), End: names.Start + uint32(i+len(name))}
		if near := spell.Nearest(name, sizes); near != "" && len(name) > 1 { // of single letters none is nearer than others
			f.Mends = []source.Mend{{Edits: []source.Edit{{At: f.At, Text: near}}, Why: source.Say("read.mend-nearest", "write {0}", source.Quote(near))}}
		}
	}
	r.out.Faults = append(r.out.Faults, f)
}

// sizeNames is the names of the sizes for a message.
func sizeNames(sizes []string) string {
	if len(sizes) == 1 && sizes[0] == "" {
		return "a single one without a name"
	}
	return strings.Join(sizes, ", ")
}

// numbered names sizes that the text does not name.
func numbered(sizes int) []string {
	names := make([]string, sizes)
	for i := range names {
		names[i] = strconv.Itoa(i + 1)
	}
	return names
}

// inGlossary: the lines of the glossary explain words and are not worked.
func (r *reader) inGlossary() bool { return strings.EqualFold(r.section.Title, abbreviations) }

// unread reports the token at which the reading of an instruction ended.
func (r *reader) unread(stumbled int) {
	if stumbled >= len(r.toks) {
		r.fault(r.span(), source.Unread, source.Warning, source.Say("read.ends-early", "the line ends where an instruction should go on; it is taken for prose, and what follows is not judged"))
		return
	}
	at := r.toks[stumbled].span
	r.fault(at, source.Unread, source.Warning, source.Say("read.unread", "cannot read on from {0}; the line is taken for prose, and what follows is not judged", source.Quote(r.file.Slice(at))))
}

// knownWords lists the words that instructions are made of.
func knownWords() []string {
	words := []string{"k", "p", "sl", "tbl", "to", "end", "m", "last", "sts", "st", "rep", "from", "times", "once", "pick", "up", "and", "remove"}
	for w := range opOf {
		words = append(words, w)
	}
	slices.Sort(words)
	return words
}

// prose keeps a line as words, with the lists in it as values by size.
func (r *reader) prose(text string) pattern.Node {
	p := &pattern.Prose{}
	for style, word := range styleWords {
		if rest, ok := strings.CutPrefix(text, word+": "); ok {
			p.Style = style
			p.Text = r.values(rest)
			return p
		}
	}
	if label, rest, ok := strings.Cut(text, ": "); ok && len(label) < 60 && !strings.ContainsAny(label, ".;") {
		p.Style, p.Label = pattern.Fact, label
		if r.inGlossary() {
			p.Style = pattern.Term
		}
		if r.sizesAt == r.span() {
			p.Text = pattern.Text{{Each: r.out.Pattern.Sizes}}
			return p
		}
		p.Text = r.values(rest)
		if p.Style == pattern.Fact && strings.EqualFold(label, HandLabel) && strings.EqualFold(rest, LeftHand) {
			r.out.Pattern.LeftHanded = true
		}
		return p
	}
	p.Text = r.values(text)
	return p
}

// findSizes reads the line that names the sizes, before any list is read.
func (r *reader) findSizes() {
	for i := 1; i <= r.file.Lines(); i++ {
		line := r.file.Line(i)
		list, ok := cutPrefixFold(strings.TrimSpace(line), "Sizes: ")
		if !ok {
			if list, ok = cutPrefixFold(strings.TrimSpace(line), "Size: "); !ok {
				if list, ok = tableHead(line); !ok {
					continue
				}
			}
		}
		r.sizesAt = r.file.LineSpan(i)
		r.sizesAt.Start += uint32(len(line) - len(strings.TrimLeft(line, " \t")))
		r.sizesAt.End -= uint32(len(line) - len(strings.TrimRight(line, " \t\r")))
		r.nameSizes(strings.TrimSpace(list))
		return
	}
}

// tableHead reads the head of the page's table, "Size  XS  S  M", as a list.
func tableHead(line string) (list string, ok bool) {
	cells := strings.Split(strings.TrimSpace(line), "  ")
	if len(cells) < 3 || cells[0] != "Size" {
		return "", false
	}
	return pattern.List(cells[1:]), true
}

// nameSizes reads "XS (S, M, L)".
func (r *reader) nameSizes(list string) {
	first, rest, ok := strings.Cut(list, " (")
	names := []string{first}
	if ok {
		names = append(names, strings.Split(strings.TrimSuffix(rest, ")"), ", ")...)
	}
	if len(names) > source.MaxSizes {
		r.fault(r.sizesAt, source.SizeColumn, source.Error, source.Say("read.too-many-sizes", "{0} sizes: at most {1} can be read", len(names), source.MaxSizes))
		names = names[:source.MaxSizes]
	}
	r.out.Pattern.Sizes = names
	for i, name := range names {
		if len(r.out.Faults) == 0 && slices.Contains(names[:i], name) {
			r.fault(r.sizesAt, source.SizeColumn, source.Error, source.Say("read.size-twice", "two sizes are called {0}", source.Quote(name)))
		}
	}
}

// values finds the lists of a line of prose that have a value for each size.
func (r *reader) values(s string) pattern.Text {
	sizes := len(r.out.Pattern.Sizes)
	var out pattern.Text
	done := 0
	for i := 0; sizes > 1; {
		open := strings.Index(s[i:], " (")
		if open < 0 {
			break
		}
		open += i
		i = open + 2
		end := i + strings.IndexAny(s[i:], "()")
		if end < i || s[end] == '(' { // no list: those do not stand in each other
			continue
		}
		rest := strings.Split(s[open+2:end], ", ")
		first := open - len(lastValue(s[done:open]))
		if len(rest) != sizes-1 || first == open || slices.ContainsFunc(rest, func(v string) bool { return !isValue(v) }) {
			continue
		}
		if first > done {
			out = append(out, pattern.Piece{Words: s[done:first]})
		}
		out = append(out, pattern.Piece{Each: append([]string{s[first:open]}, rest...)})
		done, i = end+1, end+1
	}
	if done < len(s) || out == nil {
		out = append(out, pattern.Piece{Words: s[done:]})
	}
	return out
}

// lastValue is the number at the end of s: "7", "7.5", "7 1/4", "–". A bracket may stand
// before it.
func lastValue(s string) string {
	word := s[strings.LastIndexAny(s, " [")+1:]
	if !isValue(word) {
		return ""
	}
	if strings.Contains(word, "/") {
		before := strings.TrimSuffix(s, " "+word)
		if whole := before[strings.LastIndexAny(before, " [")+1:]; before != s && isValue(whole) && !strings.Contains(whole, "/") {
			return s[len(before)-len(whole):]
		}
	}
	return word
}

func isValue(s string) bool {
	return s != "" && !strings.ContainsFunc(s, func(c rune) bool { return !strings.ContainsRune("0123456789./–- ", c) })
}

package notation

import (
	"slices"
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
	r.lines(lex(f.Text))
	r.out.Pattern.Index()
	return r.out
}

type reader struct {
	file    *source.File
	out     *Reading
	section *pattern.Section
	only    *pattern.Only // the group that lines go into, or nil

	toks []token // of the line, without blanks
	at   int     // next token
	best int     // furthest token that was looked at in vain
}

func (r *reader) lines(all []token) {
	blank := true
	for i := 0; i < len(all); {
		end := i
		for end < len(all) && all[end].kind != lineToken {
			end++
		}
		r.toks = r.toks[:0]
		for _, t := range all[i:end] {
			if t.kind != spaceToken {
				r.toks = append(r.toks, t)
			}
		}
		if len(r.toks) > 0 {
			r.line(blank)
		}
		blank = len(r.toks) == 0
		i = end + 1
	}
}

// span is the words of the line, without blanks round them.
func (r *reader) span() source.Span {
	return r.toks[0].span.To(r.toks[len(r.toks)-1].span)
}

func (r *reader) line(afterBlank bool) {
	r.at, r.best = 0, 0
	p := r.out.Pattern
	at := r.span()
	text := r.file.Slice(at)
	if afterBlank && isHeading(text) {
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
	if r.inGlossary() {
		n = r.prose(text)
	} else if node, begun := r.instruction(); node != nil {
		n = node
		r.out.Worked++
	} else {
		if begun {
			r.unread()
		}
		n = r.prose(text)
	}
	pattern.SetAt(n, at)
	if r.only != nil {
		r.only.Body = append(r.only.Body, n)
	} else {
		r.section.Body = append(r.section.Body, n)
	}
}

// isHeading: at least three letters, none of them small.
func isHeading(s string) bool {
	letters := 0
	for _, c := range s {
		if unicode.IsLower(c) {
			return false
		}
		if unicode.IsLetter(c) {
			letters++
		}
	}
	return letters >= 3 && !strings.Contains(s, ":")
}

// onlyLine reads "Sizes S and M only:" and "All sizes:".
func (r *reader) onlyLine(at source.Span, text string) bool {
	if text == allSizes {
		r.only = nil
		return true
	}
	rest, ok := strings.CutSuffix(text, " "+onlyWord)
	if !ok {
		return false
	}
	names, ok := strings.CutPrefix(rest, "Sizes ")
	if !ok {
		if names, ok = strings.CutPrefix(rest, "Size "); !ok {
			return false
		}
	}
	r.only = &pattern.Only{Base: pattern.Base{At: at}}
	for _, name := range strings.Split(strings.Replace(names, " and ", ", ", 1), ", ") {
		i := slices.Index(r.out.Pattern.Sizes, name)
		if i < 0 {
			why := source.Say("read.no-size", "no size is called {0}: the sizes are {1}", name, strings.Join(r.out.Pattern.Sizes, ", "))
			r.fault(at, source.SizeColumn, source.Error, why)
			continue
		}
		r.only.Sizes |= source.OneSize(i)
	}
	r.section.Body = append(r.section.Body, r.only)
	return true
}

func (r *reader) fault(at source.Span, kind source.Kind, severity source.Severity, text source.Message) {
	r.out.Faults = append(r.out.Faults, source.Fault{At: at, Kind: kind, Severity: severity, Text: text})
}

// inGlossary: the lines of the glossary explain words and are not worked.
func (r *reader) inGlossary() bool { return strings.EqualFold(r.section.Title, abbreviations) }

// unread reports the place where the reading of an instruction ended.
func (r *reader) unread() {
	best := max(r.best, r.at)
	if best >= len(r.toks) {
		r.fault(r.span(), source.Unread, source.Warning, source.Say("read.ends-early", "the line ends where an instruction should go on"))
		return
	}
	at := r.toks[best].span
	word := r.file.Slice(at)
	f := source.Fault{At: at, Kind: source.Unread, Severity: source.Warning,
		Text: source.Say("read.unread", "cannot read on from {0}; the line is taken for prose", quote(word))}
	if near := spell.Nearest(word, knownWords()); near != "" && near != word {
		f.Mends = []source.Mend{{Edits: []source.Edit{{At: at, Text: near}}, Why: source.Say("read.nearest", "the nearest term known here is {0}", quote(near))}}
	}
	r.out.Faults = append(r.out.Faults, f)
}

func quote(s string) string { return "“" + s + "”" }

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
	if label, rest, ok := strings.Cut(text, ": "); ok && len(label) < 48 && !strings.ContainsAny(label, ".;") {
		p.Style, p.Label = pattern.Fact, label
		if r.inGlossary() {
			p.Style = pattern.Term
		}
		if label == "Sizes" || label == "Size" {
			r.sizeNames(rest)
			p.Text = pattern.Text{{Each: r.out.Pattern.Sizes}}
			return p
		}
		p.Text = r.values(rest)
		return p
	}
	p.Text = r.values(text)
	return p
}

// sizeNames reads "XS (S, M, L)".
func (r *reader) sizeNames(list string) {
	first, rest, ok := strings.Cut(list, " (")
	names := []string{first}
	if ok {
		names = append(names, strings.Split(strings.TrimSuffix(rest, ")"), ", ")...)
	}
	if len(names) > source.MaxSizes {
		r.fault(r.span(), source.SizeColumn, source.Error, source.Say("read.too-many-sizes", "{0} sizes: at most {1} can be read", len(names), source.MaxSizes))
		names = names[:source.MaxSizes]
	}
	r.out.Pattern.Sizes = names
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
		end := strings.IndexByte(s[open:], ')')
		if end < 0 {
			break
		}
		end += open
		i = open + 2
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

// lastValue is the number at the end of s: "7", "7.5", "7 1/4", "–".
func lastValue(s string) string {
	word := s[strings.LastIndexByte(s, ' ')+1:]
	if !isValue(word) {
		return ""
	}
	if strings.Contains(word, "/") {
		before := strings.TrimSuffix(s, " "+word)
		if whole := before[strings.LastIndexByte(before, ' ')+1:]; before != s && isValue(whole) && !strings.Contains(whole, "/") {
			return s[len(before)-len(whole):]
		}
	}
	return word
}

func isValue(s string) bool {
	return s != "" && !strings.ContainsFunc(s, func(c rune) bool { return !strings.ContainsRune("0123456789./–- ", c) })
}

package reader

import (
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"sockwright/internal/source"
)

// Texts that come out of a letter or a page have their paragraphs broken into lines. Here the
// lines are told that go on from the one before.

// maxWidth is how wide the lines of a text may be for it to have been broken to a width.
const maxWidth = 110

// rejoin is the text with broken lines joined; places in it are those of the text.
func rejoin(f *source.File) *source.File {
	j := joiner{lines: make([]string, f.Lines()+1)}
	for n := 1; n <= f.Lines(); n++ {
		j.lines[n] = f.Line(n)
		if j.title == 0 && strings.TrimSpace(j.lines[n]) != "" {
			j.title = n
		}
	}
	j.measure()
	var on []int
	listing := false // in a list of abbreviations
	for n := 1; n < len(j.lines); n++ {
		switch text := strings.TrimSpace(j.lines[n]); {
		case text == "":
			listing = listing && n > 1 && isListHead(j.lines[n-1])
			continue
		case isListHead(text):
			listing = true
		case isHead(text):
			listing = false
		}
		if len(on) == 0 || on[len(on)-1] != n {
			j.first = n
		}
		if n+1 < len(j.lines) && j.goesOn(n, listing) {
			on = append(on, n+1)
		}
	}
	if on == nil {
		return f
	}
	return f.Joined(on)
}

type joiner struct {
	lines []string // from 1
	width int      // to which the text has been broken, 0 if it has not
	title int      // the first line that holds something
	small bool     // the text is written in small letters: they say nothing of where a sentence begins
	toks  []token  // to be used again
	first int      // of the lines that have been joined so far
}

// measure finds out whether the text has been broken to a width, and to which. Where a line
// ends in the midst of a sentence, nothing more had room on it; a text in which that is not so
// keeps its lines. Letters of unlike widths make some lines longer than others: the room is
// that of the shortest line that surely goes on.
func (j *joiner) measure() {
	j.small = inSmallLetters(j.lines, j.title)
	widest := 0
	for _, text := range j.lines {
		if _, signs := chartCells(text); len(signs) == 0 {
			widest = max(widest, length(text))
		}
	}
	if widest > maxWidth {
		return
	}
	full, short := 0, 0
	width := widest
	for n := j.title + 1; n+1 < len(j.lines); n++ {
		text, next := strings.TrimSpace(j.lines[n]), strings.TrimSpace(j.lines[n+1])
		if text == "" || next == "" || isHead(text) || j.ends(text, next) || j.ownLine(n, n+1) {
			continue
		}
		word, _, _ := strings.Cut(next, " ")
		r, _ := utf8.DecodeRuneInString(next)
		switch want := j.wants(n); {
		case unicode.IsUpper(r) && !strings.HasSuffix(word, ","):
		case want*10 > widest*8:
			full++
			if !unicode.IsUpper(r) {
				width = min(width, want-1)
			}
		case unicode.IsLower(r):
			short++
		}
	}
	if full > 2*short {
		j.width = width
	}
}

// inSmallLetters tells whether a text is written in small letters: its title begins with one, and so
// do most of its lines.
func inSmallLetters(lines []string, title int) bool {
	small, large := 0, 0
	for n := title; n < len(lines); n++ {
		text := strings.TrimLeft(lines[n], "-–•* \t")
		switch r, _ := utf8.DecodeRuneInString(text); {
		case unicode.IsLower(r):
			small++
		case n == title:
			return false
		case unicode.IsUpper(r):
			large++
		}
	}
	return small > large
}

func length(text string) int { return utf8.RuneCountInString(strings.TrimRight(text, " \t")) }

// wants is how long line n would be with the first word of the next one.
func (j *joiner) wants(n int) int {
	word, _, _ := strings.Cut(strings.TrimSpace(j.lines[n+1]), " ")
	return length(j.lines[n]) + 1 + length(word)
}

// full tells whether the first word of the next line had no room on line n.
func (j *joiner) full(n int) bool { return j.width > 0 && j.wants(n) > j.width }

// goesOn tells whether line n goes on in the next one.
func (j *joiner) goesOn(n int, listing bool) bool {
	text, next := strings.TrimSpace(j.lines[n]), strings.TrimSpace(j.lines[n+1])
	if text != "" && (j.byNeedle(text, next) || j.nextNeedle(next)) {
		return true
	}
	if text == "" || next == "" || j.ownLine(n, n+1) {
		return false
	}
	if _, signs := chartCells(j.lines[n]); len(signs) > 0 || isTableRow(text) || isTableHead(text) || rule.MatchString(text) {
		return false
	}
	if r, _ := utf8.DecodeRuneInString(next); n == j.title && !unicode.IsLower(r) {
		return leftOpen(text, next, j.small)
	}
	if j.full(n) && !isHead(text) && (!j.ends(text, next) || j.tellsRow(j.first) || ofNeedleLabel.MatchString(next)) {
		return true
	}
	if r, _ := utf8.DecodeRuneInString(next); j.full(n) && !j.small && !unicode.IsUpper(r) {
		return true
	}
	return !listing && leftOpen(text, next, j.small)
}

// byNeedle tells whether a row that is told needle by needle, a line for each and one for what
// they hold, goes on in the next line. Its label stands alone on its first line.
func (j *joiner) byNeedle(text, next string) bool {
	if label := strings.TrimSpace(j.lines[j.first]); !strings.HasSuffix(label, ":") || !j.tellsRow(j.first) {
		return false
	}
	return numberedNeedle.MatchString(next) && strings.IndexByte(":;", text[len(text)-1]) >= 0 ||
		strings.HasSuffix(text, ".") && needlesHold.MatchString(next)
}

// nextNeedle tells whether a row that is told needle by needle, and has been so far in the lines before,
// goes on with another needle in the next line.
func (j *joiner) nextNeedle(next string) bool {
	if !startsNeedle.MatchString(next) || !j.tellsRow(j.first) {
		return false
	}
	_, steps, ok := strings.Cut(strings.TrimSpace(j.lines[j.first]), ":")
	return ok && startsNeedle.MatchString(strings.TrimSpace(steps))
}

// leftOpen tells whether the words of a line leave a sentence open that the next one takes up. In a
// text that is written in small letters, such a letter is no sign of that.
func leftOpen(text, next string, allSmall bool) bool {
	c := next[0]
	small := 'a' <= c && c <= 'z'
	last := text[len(text)-1]
	if last == ',' || last == '(' {
		return small || isDigit(c) || c == '(' || c == '['
	}
	if nameBreaks.MatchString(text) && (small || c == '[' || c == '(' || c == '*') && !startsRow(next) { // "… Large:" and its steps in the next line
		return true
	}
	if last == ':' { // "dec as follows:", and the steps in the next line
		word := spelling(strings.TrimRight(text[strings.LastIndexAny(text, " \t")+1:], ":"))
		return small && (word == "foll" || word == "thus" || word == "so" || endsNeedle.MatchString(text)) && !startsRow(next)
	}
	if strings.IndexByte(".:;!?*]", last) >= 0 {
		return false
	}
	switch spelling(text[strings.LastIndexAny(text, " \t")+1:]) {
	case "and", "the", "to", "from", "of", "with", "on", "until", "a", "for", "or", "last", "rep", "at", "each", "every", "over", "in", "then":
		return small || isDigit(c) || c == '('
	}
	if needleWord.MatchString(next) && cutNeedle.MatchString(text) { // "back" and "needle: …"
		return true
	}
	return len(text) > 58 && small && !allSmall && !startsRow(next)
}

// ends tells whether a line ends a sentence. In a text that is written in small letters every stop
// does.
func (j *joiner) ends(text, next string) bool {
	if j.small && text != "" && strings.IndexByte(".:!?", text[len(text)-1]) >= 0 {
		return true
	}
	return endsSentence(text, next)
}

// endsSentence tells whether a line ends a sentence, with the next line seen: the full stop
// of an abbreviation does not.
func endsSentence(text, next string) bool {
	text = strings.TrimRight(text, " \t\"”’)")
	if text == "" || strings.IndexByte(".:!?", text[len(text)-1]) < 0 {
		return false
	}
	word := strings.TrimRight(text[strings.LastIndexAny(text, " \t([")+1:], ".")
	r, _ := utf8.DecodeRuneInString(next)
	return text[len(text)-1] != '.' || !abbreviated.hasWord(word) || long[lower(word)] || unicode.IsUpper(r)
}

// needleLabel is what a needle is called before what is done on it.
const needleLabel = `N\d|(?:\d(?:st|nd|rd|th)|first|second|third|fourth|front|back|instep|sole) (?:needle|ndl|pin|tip)|(?:needle|ndl) \d`

var (
	nameBreaks     = regexp.MustCompile(`[.;] \S{1,12}:$`)
	ownLabel       = regexp.MustCompile(`^[A-Z][\w'’&/.-]*(?: [\w'’&/.-]+){0,3}(?: ?\([^()]{1,30}\))?:(?:\s|$)`)
	ownEntry       = regexp.MustCompile(`^\S{1,12}(?: st| sts)? ?(?:=|:\s|\s[–-]\s)`)
	ofNeedleLabel  = regexp.MustCompile(`^(?:N\d|\d(?:st|nd|rd|th) (?:needle|ndl|pin)|(?:Needle|Ndl) \d)`)
	startsNeedle   = regexp.MustCompile(`^(?i:` + needleLabel + `) ?[:–-]`)
	endsNeedle     = regexp.MustCompile(`(?i:\b(?:` + needleLabel + `)):$`)
	cutNeedle      = regexp.MustCompile(`(?i:\b(?:\d(?:st|nd|rd|th)|first|second|third|fourth|front|back|instep|sole))$`)
	needleWord     = regexp.MustCompile(`^(?i:needle|ndl|pin|tip)\b`)
	numberedNeedle = regexp.MustCompile(`^N\d: `)
	needlesHold    = regexp.MustCompile(`^\d+ (?:\([\d, –]+\) )?sts?\b`)
	numberedHead   = regexp.MustCompile(`^\d{1,2} \p{Lu}\p{Ll}+(?:,? \p{Ll}+){0,5}$`)
	itemLabel      = regexp.MustCompile(`^(?:(?:\d{1,2}|[a-z])\) |\(\d{1,2}\) |\d{1,2}\. \p{L}|[Ss]tep (?:\d{1,2}|\p{L}+)[.:)]? )`)
	dashItem       = regexp.MustCompile(`^[–-]\s+\D`)
)

// ownLine tells whether line m begins something of its own, whatever line n before it says.
func (j *joiner) ownLine(n, m int) bool {
	text, next := strings.TrimSpace(j.lines[n]), strings.TrimSpace(j.lines[m])
	if _, signs := chartCells(j.lines[m]); len(signs) > 0 || isBullet(next) || itemLabel.MatchString(next) && (strings.HasSuffix(text, ".") || j.ends(text, next) || isHead(text)) || numberedHead.MatchString(next) || isHead(next) && (j.ends(text, next) || !strings.HasSuffix(next, ".")) {
		return true
	}
	if isTableHead(j.lines[m]) {
		return true
	}
	open := strings.HasSuffix(text, ",") || strings.HasSuffix(text, ";") || strings.HasSuffix(text, "(")
	if !open && hasLabel(next) && !ofNeedleLabel.MatchString(next) {
		return true
	}
	if dashed(next) && dashItem.MatchString(next) && (j.ends(text, next) || isHead(text) || dashItem.MatchString(text)) {
		return true
	}
	if !open && hasEntry(next) && hasEntry(text) {
		return true
	}
	return j.ends(text, next) && j.tellsRow(m)
}

// hasLabel tells whether a line begins with words before a colon.
func hasLabel(text string) bool {
	return strings.IndexByte(text, ':') > 0 && ownLabel.MatchString(text)
}

// hasEntry tells whether a line begins like an entry of a list of abbreviations.
func hasEntry(text string) bool {
	return strings.ContainsAny(text, "=:-–") && ownEntry.MatchString(text)
}

func isBullet(text string) bool {
	r, _ := utf8.DecodeRuneInString(text)
	return strings.ContainsRune("•▪·☐○", r)
}

func dashed(text string) bool { return strings.HasPrefix(text, "-") || strings.HasPrefix(text, "–") }

// tellsRow tells whether a line begins with the label of a row.
func (j *joiner) tellsRow(n int) bool {
	text := j.lines[n]
	j.toks = lex(text[:min(len(text), 100)], j.toks[:0])
	p := parser{toks: j.toks}
	item, _ := p.itemMark()
	return p.rowAhead(item)
}

// isHead tells whether a line is a heading by its looks: capitals only.
func isHead(text string) bool {
	return len(text) < 60 && countLetters(text) > 2 && !hasSmall(text) && !strings.ContainsAny(text, "0123456789*[")
}

// isListHead tells whether a line is the heading of a list of abbreviations.
func isListHead(text string) bool {
	if len(text) > 100 || !containsFold(text, "abbr") {
		return false
	}
	toks := lex(text, nil)
	return len(toks) < 6 && slices.ContainsFunc(toks, func(t token) bool { return t.w == "abbr" })
}

// startsRow: a line in small letters that begins an instruction of its own.
func startsRow(s string) bool {
	word, _, _ := strings.Cut(s, " ")
	switch strings.ToLower(strings.TrimRight(word, ".:")) {
	case "row", "rnd", "round", "rows", "rnds", "rounds":
		return true
	}
	return false
}

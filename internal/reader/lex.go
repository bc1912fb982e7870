package reader

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"sockwright/internal/source"
)

type tokenKind uint8

const (
	wordToken tokenKind = iota
	numToken            // a whole or mixed number: "64", "6.5", "6 1/2", "six"
	ordToken            // "1st", "third"
	punctToken
	lineToken // the end of a line
)

// A token is a word of the text. w is its one spelling: see [dictionary].
type token struct {
	kind   tokenKind
	glued  bool     // nothing stands between it and the token before
	lists  wordList // that it stands on
	val    int32
	w      string
	x      float64 // of a number
	at     source.Span
	stitch *stitch // that it is a name of, nil if it is none
}

const maxNumber = 1<<31 - 2

// lex cuts a text into tokens. The dot behind an abbreviation is part of it; hyphens and
// dashes of all lengths are "-".
func lex(text string, tokens []token, own ...dottedTerm) []token {
	for i := 0; i < len(text); {
		start := i
		c := text[i]
		switch {
		case c == ' ' || c == '\t' || c == '\r':
			i++
			continue
		case c == '\n':
			i++
			tokens = append(tokens, token{kind: lineToken, w: "\n", at: span(start, i)})
			continue
		case '0' <= c && c <= '9':
			var t token
			t, i = number(text, i)
			tokens = add(tokens, t, start, i)
			continue
		case arrow(text[i:]) > 0:
			i += arrow(text[i:])
			tokens = add(tokens, mark("="), start, i)
			continue
		case 'a' <= c|0x20 && c|0x20 <= 'z' || c >= utf8.RuneSelf:
			r, size := utf8.DecodeRuneInString(text[i:])
			if unicode.IsLetter(r) {
				tokens, i = word(text, i, tokens, own)
				continue
			}
			i += size
			if x := vulgar(r); x > 0 {
				if n := len(tokens); n > 0 && tokens[n-1].kind == numToken && uint32(start)-tokens[n-1].at.End <= 1 {
					tokens[n-1].x += x
					tokens[n-1].at.End = uint32(i)
				} else {
					tokens = append(tokens, token{kind: numToken, x: x, at: span(start, i)})
				}
				continue
			}
			w := text[start:i]
			switch r {
			case '–', '—', '−', '‒':
				w = "-"
			case '×':
				w = "x"
			case '″', '”':
				w = "\""
			case '\u00a0', '\u2009', '\u202f', '\u200b', '\ufeff':
				continue
			}
			tokens = add(tokens, mark(w), start, i)
			continue
		}
		i++
		if c == '.' && dotted(tokens, text, i) {
			continue
		}
		tokens = add(tokens, mark(text[start:i]), start, i)
	}
	return tokens
}

// arrow is how long an arrow at the beginning of a text is: it stands before what something
// comes to, as "=" does.
func arrow(text string) int {
	for _, a := range []string{"->", "=>", "→", "⇒"} {
		if strings.HasPrefix(text, a) {
			return len(a)
		}
	}
	return 0
}

// add appends a token that stands at a place of the text.
func add(tokens []token, t token, start, end int) []token {
	t.glued, t.at = glued(tokens, start), span(start, end)
	return append(tokens, t)
}

// mark is the token of a mark of punctuation.
func mark(w string) token {
	t := spelled(w)
	t.kind = punctToken
	return t
}

func span(start, end int) source.Span { return source.Span{Start: uint32(start), End: uint32(end)} }

func glued(tokens []token, start int) bool {
	n := len(tokens)
	return n > 0 && tokens[n-1].kind != lineToken && tokens[n-1].at.End == uint32(start)
}

// number reads digits, a decimal fraction, a common fraction behind a whole number, an
// ordinal's ending.
func number(text string, i int) (token, int) {
	start := i
	v, i := digits(text, i)
	t := token{kind: numToken, val: v, x: float64(v)}
	switch {
	case i+1 < len(text) && text[i] == '.' && isDigit(text[i+1]):
		scale := 0.1
		for i++; i < len(text) && isDigit(text[i]); i++ {
			t.x += scale * float64(text[i]-'0')
			scale /= 10
		}
	case i+1 < len(text) && ordinalEnd(text[i:]):
		t.kind = ordToken
		i += 2
	default:
		j := i
		if j < len(text) && text[j] == ' ' {
			j++
		}
		if j < len(text) && (text[j] == ' ' || isDigit(text[j]) && j > i) {
			if num, den, end := fraction(text, j); den > 0 {
				t.x += float64(num) / float64(den)
				i = end
				break
			}
		}
		if num, den, end := fraction(text, start); den > 0 {
			t.val, t.x = 0, float64(num)/float64(den)
			i = end
		}
	}
	return t, i
}

// fraction reads "3/4": below one, in halves, thirds, quarters or eighths.
func fraction(text string, i int) (num, den int32, end int) {
	num, j := digits(text, i)
	if j == i || j-i > 1 || j+1 >= len(text) || text[j] != '/' || !isDigit(text[j+1]) {
		return 0, 0, i
	}
	den, end = digits(text, j+1)
	if end < len(text) && (text[end] == '/' || text[end] == '.' && end+1 < len(text) && isDigit(text[end+1])) || num >= den || den != 2 && den != 3 && den != 4 && den != 8 {
		return 0, 0, i
	}
	return num, den, end
}

func digits(text string, i int) (int32, int) {
	v := int64(0)
	for ; i < len(text) && isDigit(text[i]); i++ {
		v = min(v*10+int64(text[i]-'0'), maxNumber)
	}
	return int32(v), i
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

func isLetter(c byte) bool { return 'a' <= c|0x20 && c|0x20 <= 'z' }

func ordinalEnd(s string) bool {
	if len(s) < 2 || len(s) > 2 && (isLetter(s[2]) || isDigit(s[2])) {
		return false
	}
	switch strings.ToLower(s[:2]) {
	case "st", "nd", "rd", "th":
		return true
	}
	return false
}

func vulgar(r rune) float64 {
	switch r {
	case '½':
		return 1. / 2
	case '¼':
		return 1. / 4
	case '¾':
		return 3. / 4
	case '⅓':
		return 1. / 3
	case '⅔':
		return 2. / 3
	case '⅛':
		return 1. / 8
	case '⅜':
		return 3. / 8
	case '⅝':
		return 5. / 8
	case '⅞':
		return 7. / 8
	}
	return 0
}

// word reads letters with hyphens, apostrophes and ampersands inside, or a name of a stitch
// that has digits inside: "k2tog", "M1L", "C4F". "k2" is a word and a number.
func word(text string, i int, tokens []token, own []dottedTerm) ([]token, int) {
	start := i
	if i+1 < len(text) && text[i+1] == '.' || i+2 < len(text) && text[i+2] == '.' {
		if w, end := dottedWord(text, i, own); end > i {
			return add(tokens, spelled(w), start, end), end
		}
	}
	i = letters(text, i)
	for i+1 < len(text) {
		c := text[i]
		if (c == '\'' || c == '&' || c == '-' && i-start > 1) && isLetter(text[i+1]) {
			i = letters(text, i+1)
			continue
		}
		if strings.HasPrefix(text[i:], "’") && i+3 < len(text) && isLetter(text[i+3]) {
			i = letters(text, i+3)
			continue
		}
		break
	}
	if i < len(text) && isDigit(text[i]) && i-start <= 4 {
		_, j := digits(text, i)
		if end := letters(text, j); end > j && !ordinalEnd(text[j:]) && !splits(text[start:i], text[j:end]) {
			end = compound(text, end)
			return add(tokens, spelled(spelling(text[start:end])), start, end), end
		}
		if names[lower(text[start:j])] || text[start:i] == "N" || text[start:i] == "M" && text[i:j] == "1" {
			return add(tokens, spelled(spelling(text[start:j])), start, j), j
		}
	}
	w, e := look(text[start:i])
	if (w == "tip" || w == "tips") && len(tokens) > 0 { // of a circular needle; a line that begins so gives advice
		w, e = look("needle")
	}
	t := e.token(w)
	if t.kind, t.val = e.kind, e.val; t.kind == numToken {
		t.x = float64(t.val)
	}
	// "fifty-six", "one hundred and four"
	if n := len(tokens); t.kind == numToken && n > 0 && tokens[n-1].kind == numToken && tokens[n-1].w != "" && tokens[n-1].val%100 >= 20 && t.val < 10 && t.val > 0 {
		tokens[n-1].val += t.val
		tokens[n-1].x += t.x
		tokens[n-1].at.End = uint32(i)
		return tokens, i
	}
	if n := len(tokens); n > 0 && tokens[n-1].w == "yarn" && (w == "over" || w == "overs") { // "yarn over"
		over := spelled("yo")
		over.glued, over.at = tokens[n-1].glued, span(int(tokens[n-1].at.Start), i)
		tokens[n-1] = over
		return tokens, i
	}
	if a, b, ok := strings.Cut(w, "-"); ok && t.kind == wordToken {
		if tens, ok := numerals[a]; ok && tens >= 20 {
			if ones, ok := numerals[b]; ok && ones < 10 {
				t.kind, t.val, t.x = numToken, tens+ones, float64(tens+ones)
			} else if ones, ok := ordinals[b]; ok && ones < 10 {
				t.kind, t.val = ordToken, tens+ones
			} else if b == "first" {
				t.kind, t.val = ordToken, tens+1
			}
		}
	}
	return add(tokens, t, start, i), i
}

// dottedWord reads an abbreviation of several dotted parts, such as "p.s.s.o.".
func dottedWord(text string, i int, own []dottedTerm) (string, int) {
	for k := range len(own) + len(dottedWords) {
		var d dottedTerm
		if k < len(own) {
			d = own[k]
		} else {
			d = dottedWords[k-len(own)]
		}
		if len(text) >= i+len(d.dotted) && strings.EqualFold(text[i:i+len(d.dotted)], d.dotted) {
			end := i + len(d.dotted)
			if end < len(text) && text[end] == '.' && end+1 < len(text) && text[end+1] != '\n' && !(text[end+1] == ' ' && end+2 < len(text) && 'A' <= text[end+2] && text[end+2] <= 'Z') {
				end++
			} else if end < len(text) && isLetter(text[end]) {
				continue
			}
			return d.w, end
		}
	}
	return "", i
}

// splits tells whether letters behind a digit belong to the next word after all: "k3tbl",
// "sl1wyif", "k2p2".
func splits(before, after string) bool {
	one := strings.EqualFold(before, "k") || strings.EqualFold(before, "p") || strings.EqualFold(before, "sl")
	switch strings.ToLower(after) {
	case "k", "p":
		return one
	case "tbl", "wyif", "wyib", "x", "pwise", "kwise", "sts", "st", "times", "rows", "rnds", "in", "cm", "mm", "g", "yds":
		return true
	}
	return strings.EqualFold(before, "rnd") || strings.EqualFold(before, "row")
}

// compound goes on through letters and digits: "sk2p", "s2kp2".
func compound(text string, i int) int {
	for i < len(text) && (isDigit(text[i]) || isLetter(text[i])) {
		i++
	}
	return i
}

func letters(text string, i int) int {
	for i < len(text) {
		if isLetter(text[i]) {
			i++
			continue
		}
		if text[i] < utf8.RuneSelf {
			break
		}
		r, n := utf8.DecodeRuneInString(text[i:])
		if !unicode.IsLetter(r) {
			break
		}
		i += n
	}
	return i
}

// counted are the abbreviations behind how many, with which a stretch of work ends.
var counted = newList("rnd row in cm")

// dotted tells whether a dot, with text[i:] behind it, is part of the abbreviation before
// it rather than the end of a sentence.
func dotted(tokens []token, text string, i int) bool {
	n := len(tokens)
	if n > 0 && tokens[n-1].kind == wordToken && tokens[n-1].at.End == uint32(i-1) && len(tokens[n-1].w) == 1 && i < len(text) && (text[i] == ',' || text[i] == ';') {
		return true // a letter that stands for a colour or a marker
	}
	if n == 0 || tokens[n-1].kind != wordToken || tokens[n-1].at.End != uint32(i-1) || !abbreviated.has(&tokens[n-1]) || len(tokens[n-1].w) > 6 {
		return false
	}
	if raw := text[tokens[n-1].at.Start:tokens[n-1].at.End]; long[lower(raw)] {
		return false
	}
	if i >= len(text) {
		return false
	}
	switch c := text[i]; {
	case isDigit(c), c == ',', c == ';', c == ':', c == ')', c == ']', 'a' <= c && c <= 'z':
		return true
	case c == '.':
		return i+1 < len(text) && text[i+1] == '-' // "Abbreviations.-" is not one
	case c == ' ' && i+1 < len(text):
		switch c := text[i+1]; {
		case counted.has(&tokens[n-1]) && n > 1 && tokens[n-2].kind == numToken && strings.HasPrefix(text[i+1:], "then "):
			return false // "15 rnds. then knit", of one who writes no capitals
		case 'a' <= c && c <= 'z', c == '(' || c == '[':
			return true
		case isDigit(c):
			if tokens[n-1].w == "rem" { // "k. rem. 8 sts.", but not "8 sts. rem. 10 rows"
				return n > 1 && beforeRem.has(&tokens[n-2])
			}
			if w := tokens[n-1].w; w == "k" || w == "p" || w == "sl" { // "2nd needle: k. 3rd needle: …"
				if _, end := digits(text, i+1); end+1 < len(text) && ordinalEnd(text[end:]) {
					return false
				}
			}
			return beforeNumber.has(&tokens[n-1])
		}
	}
	return false
}

// spelling is the one spelling of a word.
func spelling(raw string) string {
	w, _ := look(raw)
	return w
}

// spelled is the token of a word in the reader's spelling.
func spelled(w string) token {
	if e := dictionary[w]; e != nil && e.w == w {
		return e.token(w)
	}
	return token{w: w}
}

func (e *entry) token(w string) token {
	return token{w: w, lists: e.lists, stitch: e.stitch}
}

// look finds a word in the dictionary. The entry of one that is not there is empty.
func look(raw string) (string, *entry) {
	w := lower(raw)
	if e := dictionary[w]; e != nil {
		return e.w, e
	}
	return w, &noEntry
}

var noEntry entry

// lower is a word in small letters, with straight apostrophes.
func lower(raw string) string {
	for i := range len(raw) {
		if c := raw[i]; c >= utf8.RuneSelf || 'A' <= c && c <= 'Z' {
			return strings.ReplaceAll(strings.ToLower(raw), "’", "'")
		}
	}
	return raw
}

// containsFold tells whether a text contains words in small letters, whatever its capitals.
func containsFold(text, words string) bool {
	for i := 0; i+len(words) <= len(text); i++ {
		if text[i]|0x20 == words[0] && strings.EqualFold(text[i:i+len(words)], words) {
			return true
		}
	}
	return false
}

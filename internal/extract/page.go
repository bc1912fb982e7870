package extract

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// A page collects lines as a reader would see them.
type page struct {
	lines []string
	cur   strings.Builder
	open  bool // a line has begun, be it empty
	space bool // white space waits for the next word
	last  rune // of the line that is being written
}

// words adds running text: white space of any kind and length is one space, and none at
// the ends of lines.
func (p *page) words(s string) {
	for _, r := range clean(s) {
		if strings.ContainsRune(" \t\n\r\f\v", r) {
			p.space = true
			continue
		}
		if p.space && p.last != 0 && p.last != '\t' {
			p.put(' ')
		}
		p.space = false
		p.put(r)
	}
}

// exact adds text with its own spaces and line breaks.
func (p *page) exact(s string) {
	for i, line := range strings.Split(strings.ReplaceAll(s, "\r\n", "\n"), "\n") {
		if i > 0 {
			p.newline()
		}
		if p.space && p.last != 0 {
			p.put(' ')
		}
		p.space = false
		for _, r := range clean(line) {
			p.put(r)
		}
	}
}

func (p *page) put(r rune) {
	p.cur.WriteRune(r)
	p.last, p.open = r, true
}

// raised says that what is added next stands above the line. A digit there is set off
// from a digit before it.
func (p *page) raised(s string) {
	first, _ := utf8.DecodeRuneInString(strings.TrimSpace(s))
	if unicode.IsDigit(first) && unicode.IsDigit(p.last) {
		p.space = true
	}
}

// end ends the line that has begun, if one has.
func (p *page) end() {
	if p.open {
		p.newline()
	}
	p.space = false
}

// newline ends the line, even an empty one.
func (p *page) newline() {
	p.lines = append(p.lines, strings.TrimRight(p.cur.String(), " \t"))
	p.cur.Reset()
	p.open, p.space, p.last = false, false, 0
}

// blank ends the line and leaves an empty one, but never two nor one at the beginning.
func (p *page) blank() {
	p.end()
	if n := len(p.lines); n > 0 && p.lines[n-1] != "" {
		p.lines = append(p.lines, "")
	}
}

// row adds the cells of a row of a table, each the lines of its own page: as one line, or
// one cell after another where that is no table but an arrangement of text: a cell by
// itself, or one with many lines.
func (p *page) row(cells []*page) {
	p.end()
	tabular := len(cells) > 1
	var texts []string
	for _, c := range cells {
		c.blank()
		var full []string
		for _, line := range c.lines {
			if line != "" {
				full = append(full, line)
			}
		}
		tabular = tabular && len(full) <= 2
		texts = append(texts, strings.Join(full, " "))
	}
	if tabular {
		if line := strings.TrimSpace(strings.Join(texts, "  ")); line != "" {
			p.lines = append(p.lines, line)
		}
		return
	}
	for _, c := range cells {
		p.take(c)
	}
}

// take adds the lines of another page.
func (p *page) take(c *page) {
	p.end()
	c.end()
	for len(c.lines) > 0 && c.lines[0] == "" && (len(p.lines) == 0 || p.lines[len(p.lines)-1] == "") {
		c.lines = c.lines[1:]
	}
	p.lines = append(p.lines, c.lines...)
}

// text is everything, with a line end at the end.
func (p *page) text() string {
	p.end()
	for len(p.lines) > 0 && p.lines[len(p.lines)-1] == "" {
		p.lines = p.lines[:len(p.lines)-1]
	}
	if len(p.lines) == 0 {
		return ""
	}
	return strings.Join(p.lines, "\n") + "\n"
}

var ligatures = strings.NewReplacer("ﬀ", "ff", "ﬁ", "fi", "ﬂ", "fl", "ﬃ", "ffi", "ﬄ", "ffl", "ﬅ", "st", "ﬆ", "st")

// clean makes plain characters of typographic ones that look the same and mean the same.
func clean(s string) string {
	s = strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\t' || r == '\r' || r == '\f' || r == '\v':
			return r
		case r == '\u2028' || r == '\u2029' || r == '\u0085':
			return '\n'
		case unicode.Is(unicode.Zs, r):
			return ' '
		case r == '\u2044': // fraction slash
			return '/'
		case r == '\u2011': // hyphen that does not break
			return '-'
		case r == '\u00AD', r == '\u200B', r == '\u200C', r == '\u200D', r == '\u2060', r == '\uFEFF',
			r == '\u200E', r == '\u200F', unicode.IsControl(r):
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, "\uFFFD"))
	if strings.Contains(s, "\xEF\xAC") { // the first bytes of all of them
		s = ligatures.Replace(s)
	}
	return s
}

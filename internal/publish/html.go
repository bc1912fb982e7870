package publish

import (
	_ "embed"
	"fmt"
	"html/template"
	"io"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"sockwright/internal/notation"
	"sockwright/internal/pattern"
	"sockwright/internal/theme"
)

//go:embed assets/pattern.css
var patternCSS string

//go:embed assets/pattern.html
var patternHTML string

var page = template.Must(template.New("pattern").Parse(patternHTML))

// A chapter is a section of the page.
type chapter struct {
	ID, Number, Title string
	Class             string // what it holds: worked, facts or terms
	Blocks            []block
}

// A block is a line of the page, or a table of facts by size.
type block struct {
	Class string
	ID    string
	Words template.HTML
	Table *table
}

type table struct {
	Caption string
	Sizes   []string
	Rows    []tableRow
}

type tableRow struct {
	Label string
	Cells []template.HTML // one a size, or one for all
}

// HTML writes a pattern as one page that needs nothing but itself: no script, no other
// file. Sections that are worked are numbered. Facts that differ by size stand in a table,
// smallest size first.
//
// broad and narrow are the same drawing for the top of the page, as elements: one for wide
// screens and paper, one for phones.
func HTML(w io.Writer, p *pattern.Pattern, broad, narrow []byte) error {
	data := struct {
		Title    string
		Broad    template.HTML
		Narrow   template.HTML
		Sizes    []string
		CSS      template.CSS
		Lead     []block
		Chapters []chapter
	}{Title: p.Title, Broad: template.HTML(broad), Narrow: template.HTML(narrow), Sizes: p.Sizes, CSS: template.CSS(theme.CSS() + patternCSS)}
	worked := map[string]bool{}
	again := map[pattern.NodeID]int{} // rows that are repeated
	p.Each(func(s *pattern.Section, n pattern.Node) {
		if n, ok := n.(*pattern.Again); ok && !n.Times.Is(0) {
			again[pattern.ID(n)] = max(1, int(n.Rows))
		}
		if _, prose := n.(*pattern.Prose); !prose {
			worked[s.Title] = true
		}
	})
	number := 0
	var current *chapter
	for _, l := range notation.Lines(p) {
		switch l.Form {
		case notation.Title:
		case notation.Heading:
			c := chapter{ID: anchor(l.String()), Title: l.String()}
			if worked[c.Title] {
				number++
				c.Number, c.Class = fmt.Sprint(number), "worked"
			}
			data.Chapters = append(data.Chapters, c)
			current = &data.Chapters[len(data.Chapters)-1]
		default:
			b := lineBlock(l)
			switch {
			case current == nil:
				data.Lead = append(data.Lead, b)
			case l.Style == pattern.Fact && l.Form == notation.Prose && (bySize(l, p.Sizes) || current.inTable()):
				current.addRow(l, p.Sizes)
			default:
				current.keep(again[l.Node])
				current.Blocks = append(current.Blocks, b)
			}
		}
	}
	for i := range data.Chapters {
		data.Chapters[i].classify()
	}
	return page.Execute(w, data)
}

// keep keeps the last so many rows of the chapter on one sheet with the line that repeats
// them. Plain work stands for any number of rows: it and the row before it are kept. A line
// that names sizes may stand between.
func (c *chapter) keep(rows int) {
	for i := len(c.Blocks) - 1; i >= 0 && rows > 0; i-- {
		if c.Blocks[i].Class == "only" { // it is kept with what follows anyhow
			continue
		}
		if !strings.HasPrefix(c.Blocks[i].Class, "work") {
			return
		}
		rows--
		if !strings.HasPrefix(c.Blocks[i].Class, "work row") {
			rows = 1
		}
		c.Blocks[i].Class += " kept"
	}
}

// classify tells chapters that hold nothing but facts, or nothing but terms.
func (c *chapter) classify() {
	for style, class := range map[string]string{"fact": "facts", "term": "terms"} {
		if len(c.Blocks) > 0 && !slices.ContainsFunc(c.Blocks, func(b block) bool { return b.Class != style }) {
			c.Class = class
		}
	}
}

// together matches what no line end may part: a number and what it counts, a needle and its
// first step or what lies on it.
var together = regexp.MustCompile(`(</span>|[0-9]|N[0-9]:</b>|\bsts?|and k|\b[sS]l|\bRnd|\bRow|\b[sS]teps?|\bon) (sts?\b|N[0-9]\b|rnds?\b|rows?\b|more\b|times\b|in\b|cm\b|tbl\b|k|sl |dec’d|inc’d|<span class="sizes">|[0-9])`)

// anchor is a title as the name of a place on the page: letters and digits, with hyphens
// between words.
func anchor(title string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(title), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }), "-")
}

// bySize tells whether a fact has a text for each of several sizes.
func bySize(l notation.Line, sizes []string) bool {
	for _, r := range l.Words {
		if len(r.Each) == len(sizes) && len(sizes) > 1 {
			return true
		}
	}
	return false
}

// unitsApart sets the metric measure below the one in inches.
var unitsApart = strings.NewReplacer(" in [", "\u00a0in<br>", " cm]", "\u00a0cm")

// inTable tells whether the chapter ends with a table.
func (c *chapter) inTable() bool {
	return len(c.Blocks) > 0 && c.Blocks[len(c.Blocks)-1].Table != nil
}

// addRow adds a fact to the table that the chapter ends with. The row that names the sizes
// is the table's head.
func (c *chapter) addRow(l notation.Line, sizes []string) {
	if !c.inTable() {
		c.Blocks = append(c.Blocks, block{Table: &table{Caption: "Measurements by size, smallest first", Sizes: sizes}})
	}
	row := tableRow{Label: strings.TrimSuffix(l.Words[0].Text, ":")}
	if row.Label == "Sizes" {
		return
	}
	if !bySize(l, sizes) {
		sizes = sizes[:1]
	}
	for i := range sizes {
		var cell strings.Builder
		for _, r := range l.Words[1:] {
			switch {
			case r.Each != nil:
				cell.WriteString(value(r.Each[min(i, len(r.Each)-1)]))
			default:
				cell.WriteString(unitsApart.Replace(value(r.Text)))
			}
		}
		row.Cells = append(row.Cells, template.HTML(strings.TrimSpace(cell.String())))
	}
	t := c.Blocks[len(c.Blocks)-1].Table
	t.Rows = append(t.Rows, row)
}

func lineBlock(l notation.Line) block {
	b := block{ID: fmt.Sprintf("n%d", l.Node)}
	switch {
	case l.Form == notation.Instruction:
		b.Class = "work"
		if l.Words[0].Role == notation.Label {
			b.Class = "work row"
		}
	case l.Form == notation.Sizes:
		b.Class, b.ID = "only", ""
	default:
		b.Class = map[pattern.Style]string{pattern.Para: "para", pattern.Fact: "fact", pattern.Term: "term", pattern.Tip: "tip", pattern.Caution: "caution"}[l.Style]
	}
	var h strings.Builder
	needles, needle, stating := 0, false, false
	endNeedle := func() {
		if needle {
			h.WriteString("</span>")
		}
		needle = false
	}
	for i, r := range l.Words {
		state := r.Role == notation.State
		if state {
			endNeedle()
		}
		if state != stating {
			if stating = state; state {
				h.WriteString(`<span class="state">`)
			} else {
				h.WriteString("</span>")
			}
		}
		switch {
		case r.Each != nil:
			h.WriteString(list(r))
		case r.Role == notation.Label:
			if l.Form == notation.Instruction && i > 0 {
				endNeedle()
				needles++
				needle = true
				h.WriteString(`<span class="needle">`)
			}
			h.WriteString("<b>" + value(r.Text) + "</b>")
		default:
			h.WriteString(value(r.Text))
		}
	}
	endNeedle()
	if stating {
		h.WriteString("</span>")
	}
	if needles > 0 { // one needle a line, and what they hold on the last
		b.Class += " needles"
	}
	b.Words = template.HTML(together.ReplaceAllString(h.String(), "$1\u00a0$2"))
	return b
}

// list is a list of values by size, which no line end parts.
func list(r notation.Run) string {
	each := make([]string, len(r.Each))
	for i, v := range r.Each {
		each[i] = value(v)
	}
	return `<span class="sizes">` + pattern.List(each) + "</span>"
}

// value sets words in type: escaped, with real fractions, apostrophes and minus signs.
func value(s string) string {
	return fractions(template.HTMLEscapeString(below.ReplaceAllString(strings.ReplaceAll(s, "'", "’"), "$1−$2")))
}

// below matches the sign of a number below nothing.
var below = regexp.MustCompile(`(^|[ (])-([0-9])`)

// fractions sets "7 1/4" as a whole number and a fraction.
func fractions(s string) string {
	if !strings.Contains(s, "/") {
		return s
	}
	var h strings.Builder
	for {
		slash := strings.IndexByte(s, '/')
		if slash < 0 {
			break
		}
		from, to := slash, slash+1
		for from > 0 && isDigit(s[from-1]) {
			from--
		}
		for to < len(s) && isDigit(s[to]) {
			to++
		}
		if from == slash || to == slash+1 {
			h.WriteString(s[:slash+1])
			s = s[slash+1:]
			continue
		}
		before := s[:from]
		if n := len(before); n > 1 && before[n-1] == ' ' && isDigit(before[n-2]) {
			before = before[:n-1] + "\u200a" // a hair space
		}
		h.WriteString(before + `<span class="frac">` + s[from:to] + `</span>`)
		s = s[to:]
	}
	h.WriteString(s)
	return h.String()
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

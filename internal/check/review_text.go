package check

import (
	"fmt"
	"slices"
	"strings"
	"text/tabwriter"

	"sockwright/internal/unit"
)

// A page is a report as it is written.
type page struct{ strings.Builder }

// p prints a line.
func (b *page) p(format string, args ...any) { fmt.Fprintf(b, format+"\n", args...) }

// table prints rows of cells, each column as wide as it must be. No line ends with blanks.
func (b *page) table(rows [][]string) {
	var set strings.Builder
	w := tabwriter.NewWriter(&set, 0, 0, 2, ' ', 0)
	for _, row := range rows {
		fmt.Fprintln(w, "  "+strings.Join(row, "\t"))
	}
	w.Flush()
	for line := range strings.Lines(set.String()) {
		b.p("%s", strings.TrimRight(line, " \n"))
	}
}

// Text is the review as a report to be read and signed.
func (v *Review) Text() string {
	var b page
	b.p("TECHNICAL EDIT: %s", v.File)
	b.p("%d lines, SHA-256 %s", v.Lines, v.SHA256)
	for i, part := range []struct {
		title string
		print func(*page)
	}{
		{"Sizes and their lists", v.sizesText},
		{"Gauge against girth", v.gaugeText},
		{"Counts, line by line", v.countsText},
		{"Measures", v.measuresText},
		{"Terms", v.termsText},
		{"Charts", v.chartsText},
		{"Findings", v.findingsText},
		{"What could not be checked", v.uncheckedText},
		{"Open queries", v.queriesText},
	} {
		title := fmt.Sprintf("%d. %s", i+1, part.title)
		b.p("\n%s\n%s", title, strings.Repeat("-", len(title)))
		part.print(&b)
	}
	b.p("\nChecked by  ______________________________   Date  ______________")
	return b.String()
}

func (v *Review) sizesText(b *page) {
	if len(v.Sizes) == 1 {
		b.p("  One size.")
	} else {
		b.p("  %d sizes: %s", len(v.Sizes), SizeList(v.Sizes))
		b.p("  Lists of figures that were compared column by column: %d", v.ListCount)
		for _, l := range v.Lists {
			b.p("  line %d: %s: %s", l.Line, l.Words, l.Says)
		}
	}
}

func (v *Review) gaugeText(b *page) {
	if v.Gauge == "" {
		b.p("  No gauge was read.")
	} else {
		b.p("  Stated: %s", v.Gauge)
		rows := [][]string{{"", "sts in the round", "cm around", "in around"}}
		for _, g := range v.Girths {
			var cm, in []string
			for _, mm := range g.MM {
				cm, in = append(cm, unit.Length(mm).Centimetres()), append(in, unit.Length(mm).Inches())
			}
			rows = append(rows, []string{fmt.Sprintf("line %d", g.Line), g.Count, SizeList(cm), SizeList(in)})
		}
		if len(rows) > 1 {
			b.table(rows)
		}
	}
	if len(v.Stated) > 0 {
		b.p("  Hold against what the text states:")
		for _, s := range v.Stated {
			b.p("  line %d: %s", s.Line, s.Words)
		}
	}
}

func (v *Review) countsText(b *page) {
	if len(v.Sections) == 0 {
		b.p("  No line was worked.")
	}
	for i, s := range v.Sections {
		if i > 0 {
			b.p("")
		}
		b.p("  %s", s.Name)
		sizes := v.Sizes
		if len(sizes) == 1 {
			sizes = []string{"sts"}
		}
		rows := [][]string{append([]string{"line", ""}, sizes...)}
		for _, row := range s.Rows {
			rows = append(rows, append([]string{fmt.Sprint(row.Line), row.Label}, row.Cells...))
		}
		b.table(rows)
	}
}

func (v *Review) measuresText(b *page) {
	if len(v.Measures) == 0 {
		b.p("  No length is worked to.")
	}
	for _, m := range v.Measures {
		if m.Rows == "" {
			b.p("  line %d: %s", m.Line, m.Words)
		} else {
			b.p("  line %d: %s: %s rows at the stated gauge", m.Line, m.Words, m.Rows)
		}
	}
}

func (v *Review) termsText(b *page) {
	if len(v.Terms) == 0 {
		b.p("  The text explains none.")
	}
	var terms [][]string
	for _, t := range v.Terms {
		var worth []string
		if t.Uses >= 0 {
			worth = append(worth, fmt.Sprintf("takes %d, makes %d", t.Uses, t.Makes))
		}
		if !t.Used {
			worth = append(worth, "not used in the text")
		}
		terms = append(terms, []string{t.Short, t.Means, strings.Join(worth, "; ")})
	}
	b.table(terms)
}

func (v *Review) chartsText(b *page) {
	if len(v.Charts) == 0 {
		b.p("  The text has none.")
	}
	for _, c := range v.Charts {
		b.p("  line %d: %s: %d sts by %d rows%s", c.Line, c.Name, c.Width, c.Rows, behind("; ", c.Says))
	}
}

func (v *Review) findingsText(b *page) {
	if len(v.Findings) == 0 {
		b.p("  None.")
	}
	for _, f := range v.Findings {
		b.p("  %s", strings.ReplaceAll(strings.TrimSpace(f.String()), "\n", "\n  "))
	}
}

func (v *Review) uncheckedText(b *page) {
	if len(v.Unchecked) == 0 {
		b.p("  No line was left out.")
	}
	for i, u := range v.Unchecked {
		if slices.ContainsFunc(v.Unchecked[:i], func(o Quoted) bool { return o.Why == u.Why }) {
			continue
		}
		b.p("  %s", capital(u.Why))
		for _, o := range v.Unchecked[i:] {
			if o.Why == u.Why && o.Line > 0 {
				b.p("    line %d%s", o.Line, behind(": ", o.Words))
			}
		}
	}
	b.p("  In no pattern: whether the swatch is right, the sock fits, the yarn is enough, the pictures and the language are good.")
}

// queriesText prints those that are open, then those that are not.
func (v *Review) queriesText(b *page) {
	var closed []*Query
	open := 0
	if v.Queries != nil {
		for _, q := range v.Queries.ByLine() {
			if q.Status != Asked {
				closed = append(closed, q)
				continue
			}
			open++
			b.p("  %s", strings.ReplaceAll(q.String(), "\n", "\n  "))
		}
	}
	switch {
	case v.Queries == nil:
		b.p("  No queries are kept: --queries begins a file of them.")
	case open == 0:
		b.p("  None.")
	}
	if len(closed) > 0 {
		b.p("\n  Answered before:")
	}
	for _, q := range closed {
		b.p("  %s", strings.ReplaceAll(q.String(), "\n", "\n  "))
	}
}

// behind is words with a mark in front, or nothing.
func behind(mark, words string) string {
	if words == "" {
		return ""
	}
	return mark + words
}

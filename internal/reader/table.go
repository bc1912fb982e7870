package reader

import (
	"regexp"
	"strings"

	"sockwright/internal/source"
)

// A pattern may be a table: the sizes are the columns, and each row has an instruction with its figures
// behind it. "flap rows    24    30    36" says what "24 (30, 36) flap rows" does: the figures are put
// where they belong, and the line is read as any other.

// rowOfTable is the end of a line of a table: figures that stand apart.
var rowOfTable = regexp.MustCompile(`\S(?:\s{2,}|\t|\s*\|\s*)\d[\d.½¼¾]*(?:(?:\s{2,}|\t|\s*\|\s*)(?:\d[\d.½¼¾]*|[-–x]))+\s*\|?\s*$`)

// isTableRow tells whether a line is a row of a table.
func isTableRow(text string) bool { return inColumns(text) && rowOfTable.MatchString(text) }

// inColumns tells whether anything in a line stands apart, as cells do.
func inColumns(text string) bool {
	return strings.Contains(text, "  ") || strings.ContainsAny(text, "\t|")
}

// rule is a line that parts the head of a table from its rows.
var rule = regexp.MustCompile(`^[-=_|+: ]+$`)

// isTableHead tells whether a line is the head of a table whose columns are the sizes.
func isTableHead(text string) bool {
	names, _, _ := tableHead(text)
	return names != nil
}

// tableHead finds the names of sizes in the cells of the head of a table; one cell before them may name
// the column of the instructions.
func tableHead(text string) (names []string, from, to int) {
	if !inColumns(text) || len(text) > 300 {
		return nil, 0, 0
	}
	cells := tableCell.FindAllStringIndex(text, -1)
	if len(cells) < 2 || len(cells) > source.MaxSizes {
		return nil, 0, 0
	}
	var l nameList
	for i, c := range cells {
		cell := text[c[0]:c[1]]
		name, kind := nameAt(cell)
		switch {
		case name == cell && (kind == letterKind || kind == wordKind || kind == romanKind || kind == singleKind) && l.takes(name, kind):
			if l.names == nil {
				from = c[0]
			}
			l.names, to = append(l.names, name), c[1]
		case i > 0 || strings.Contains(cell, "."):
			return nil, 0, 0
		}
	}
	if len(l.names) < 2 || l.kind == singleKind && len(l.names) == len(cells) {
		return nil, 0, 0
	}
	return l.names, from, to
}

// tableCell is what stands in one cell.
var tableCell = regexp.MustCompile(`[^\s|](?:[^\s|]|[ ][^\s|])*`)

// tableRow puts the figures of a row of a table where its instruction wants them.
func (p *parser) tableRow(text string, toks []token) []token {
	n := p.sizes
	if n < 2 || len(toks) <= n || !isTableRow(text) {
		return toks
	}
	l := dressedList{}
	first := len(toks)
	for len(l.vals) < n && first > 0 {
		first--
		switch t := toks[first]; {
		case t.kind == numToken, t.w == "-", t.w == "x":
			l.vals = append([]token{t}, l.vals...)
		case t.w != "|":
			return toks
		}
	}
	for first > 0 && toks[first-1].w == "|" {
		first--
	}
	if len(l.vals) < n || first == 0 || toks[first-1].kind == numToken && cellsApart(toks[first-1].at, toks[first].at) {
		return toks
	}
	words := toks[:first]
	for words[0].w == "|" && len(words) > 1 {
		words = words[1:]
	}
	slot, end := figureSlot(words)
	out := append([]token{}, words[:slot]...)
	out = append(out, l.tokens()...)
	return append(out, words[end:]...)
}

// cellsApart tells whether two tokens stand in cells of their own.
func cellsApart(a, b source.Span) bool { return b.Start >= a.End+2 }

// figureSlot is where the words of a row of a table want their figures: in a blank, before the word for
// what is counted, behind the verb that takes a figure, or at the end.
func figureSlot(words []token) (from, to int) {
	for i := range words {
		if end := blank(words, i); end > i {
			return i, end
		}
	}
	if n := len(words); words[n-1].w == "to" || words[n-1].w == ":" || words[n-1].w == "=" || words[n-1].w == "until" {
		return n, n
	}
	for i := range words {
		switch words[i].w {
		case "co":
			return i + 1, i + 1
		case "cast", "pick", "put":
			if i+1 < len(words) && (words[i+1].w == "on" || words[i+1].w == "up") {
				to := i + 2
				if to+1 < len(words) && words[to].w == "and" { // "pick up and knit"
					to += 2
				}
				return to, to
			}
		}
	}
	for i := range words {
		if counted := nouns.has(&words[i]); !counted || i > 0 && (words[i-1].kind == numToken || words[i-1].kind == ordToken) {
			continue
		}
		at := i
		for at > 0 && (partNamed(words[at-1].w) != 0 || words[at-1].w == "edge") {
			at--
		}
		if at > 0 && (words[at-1].w == "the" || words[at-1].w == "every" || words[at-1].w == "each" || words[at-1].w == "in" || words[at-1].w == "last" || words[at-1].w == "next") {
			continue
		}
		return at, at
	}
	return len(words), len(words)
}

// blank is the end of a blank to be filled in, "__" or "…", that begins at a token; the token itself if
// none does.
func blank(words []token, i int) int {
	end := i
	for end < len(words) && (words[end].w == "_" || words[end].w == "…" || words[end].w == "." && (end > i || end+2 < len(words) && words[end+1].w == "." && words[end+2].w == ".")) {
		end++
	}
	return end
}

package extract

import (
	"cmp"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A textLine is a line of a page as it will be read.
type textLine struct {
	text  string
	y     float64
	apart bool // stands off from the line before
}

// A piece is a stretch of a line without a wide gap in it: a line of a column, or a cell.
type piece struct {
	x0, x1, y, size float64
	text            string
}

// layPage puts the runs of a page into lines in reading order.
//
// Runs on one base line make a line, raised and lowered small ones join the line that they
// touch, and lines fall into pieces at wide gaps. Where a gutter has columns of prose on
// both sides they are read one after another, all else row by row.
func layPage(runs []run) []textLine {
	rows := columns(pieces(baselines(mainText(runs))), 0)
	if len(rows) == 0 {
		return nil
	}
	var gaps []float64
	for i := 1; i < len(rows); i++ {
		if g := rows[i-1][0].y - rows[i][0].y; g > 0 {
			gaps = append(gaps, g)
		}
	}
	slices.Sort(gaps)
	usual := math.Inf(1)
	if len(gaps) > 0 {
		usual = gaps[(len(gaps)-1)/2]
	}
	var out []textLine
	for i, row := range rows {
		l := textLine{y: row[0].y}
		for j, p := range row {
			if j > 0 {
				l.text += "  "
			}
			l.text += strings.TrimSpace(p.text)
		}
		if i > 0 {
			g := rows[i-1][0].y - l.y
			l.apart = g < 0 || g > 1.3*usual
		}
		out = append(out, l)
	}
	return out
}

// mainText keeps the runs that are written the way most of the page is, and those that
// are seen, if any are: a scan has its text unseen behind the picture.
func mainText(runs []run) []run {
	var turned [4]int
	seen := false
	for _, r := range runs {
		turned[r.turn] += len(r.text)
		seen = seen || !r.unseen && strings.TrimSpace(r.text) != ""
	}
	turn := 0
	for i, n := range turned {
		if n > turned[turn] {
			turn = i
		}
	}
	return slices.DeleteFunc(slices.Clone(runs), func(r run) bool {
		return r.turn != turn || seen && r.unseen
	})
}

// baselines sorts runs into lines from the top, each from the left.
func baselines(runs []run) [][]run {
	slices.SortStableFunc(runs, func(a, b run) int { return cmp.Compare(b.y, a.y) })
	var lines [][]run
	for _, r := range runs {
		if n := len(lines); n > 0 {
			if last := lines[n-1][0]; last.y-r.y <= 0.2*min(last.size, r.size) {
				lines[n-1] = append(lines[n-1], r)
				continue
			}
		}
		lines = append(lines, []run{r})
	}
	joinRaised(lines)
	lines = slices.DeleteFunc(lines, func(l []run) bool { return len(l) == 0 })
	for _, l := range lines {
		slices.SortStableFunc(l, func(a, b run) int { return cmp.Compare(a.x0, b.x0) })
	}
	return lines
}

// joinRaised moves small runs to a neighbouring line of larger ones that they touch and
// stand only a little above or below: the halves of fractions, ordinals, marks of notes.
func joinRaised(lines [][]run) {
	touches := func(line []run, r run) bool {
		for _, o := range line {
			if r.size < 0.86*o.size && math.Abs(o.y-r.y) < 0.6*o.size && r.x0 < o.x1+0.5*o.size && r.x1 > o.x0-0.5*o.size {
				return true
			}
		}
		return false
	}
	for i := range lines {
		var stay []run
	runs:
		for _, r := range lines[i] {
			for _, j := range []int{i + 1, i - 1, i + 2, i - 2} {
				if j >= 0 && j < len(lines) && touches(lines[j], r) {
					lines[j] = append(lines[j], r)
					continue runs
				}
			}
			stay = append(stay, r)
		}
		lines[i] = stay
	}
}

// pieces joins the runs of lines to words and parts them at gaps wider than most spaces
// between words of a justified line.
func pieces(lines [][]run) [][]piece {
	var out [][]piece
	for _, line := range lines {
		var row []piece
		base := slices.MaxFunc(line, func(a, b run) int { return cmp.Compare(a.size, b.size) })
		fractions(line, base)
		for i, r := range line {
			if i == 0 {
				row = append(row, piece{r.x0, r.x1, base.y, base.size, r.text})
				continue
			}
			last := &row[len(row)-1]
			before := line[i-1]
			size := min(last.size, max(r.size, before.size))
			gap := r.x0 - last.x1
			if r.text == before.text && math.Abs(r.x0-before.x0) < 0.15*r.size && math.Abs(r.y-before.y) < 0.15*r.size {
				continue // painted twice, to look bold
			}
			if strings.TrimSpace(r.text) == "" {
				if gap < size { // a space reaches no further than to the next word
					last.text += " "
				}
				continue
			}
			if gap > 0.7*size {
				row = append(row, piece{r.x0, r.x1, base.y, base.size, r.text})
				continue
			}
			end, _ := utf8.DecodeLastRuneInString(last.text)
			begin, _ := utf8.DecodeRuneInString(r.text)
			raised := r.y-base.y > 0.15*base.size && before.y-base.y <= 0.15*base.size
			if !unicode.IsSpace(end) && !unicode.IsSpace(begin) && (gap > 0.17*size || raised && unicode.IsDigit(end) && unicode.IsDigit(begin)) {
				last.text += " "
			}
			last.text += r.text
			last.x1 = max(last.x1, r.x1)
		}
		row = slices.DeleteFunc(row, func(p piece) bool { return strings.TrimSpace(p.text) == "" })
		if len(row) > 0 {
			out = append(out, row)
		}
	}
	return out
}

// fractions puts a slash between figures that stand one above the other.
func fractions(line []run, base run) {
	figures := func(r run) bool {
		return strings.Trim(r.text, "0123456789") == "" && r.text != ""
	}
	for i := 0; i+1 < len(line); i++ {
		a, b := &line[i], &line[i+1]
		if !figures(*a) || !figures(*b) || min(a.x1, b.x1)-max(a.x0, b.x0) < 0.5*min(a.x1-a.x0, b.x1-b.x0) || math.Abs(a.y-b.y) < 0.4*a.size {
			continue
		}
		if a.y < b.y {
			*a, *b = *b, *a
		}
		if a.y > base.y && b.y < base.y {
			a.text += "/"
			b.x0 = a.x1 // no gap
		}
	}
}

// columns puts lines of pieces into reading order. It looks for the longest stretch of
// lines with a gutter that none crosses and that has prose on both sides, reads what is
// above, left, right and below, and each of them in the same way.
func columns(rows [][]piece, depth int) [][]piece {
	from, to, cut := gutter(rows)
	if to == 0 || depth > 20 {
		return rows
	}
	var left, right [][]piece
	for _, row := range rows[from:to] {
		i := slices.IndexFunc(row, func(p piece) bool { return p.x0 >= cut-2 })
		if i < 0 {
			i = len(row)
		}
		if i > 0 {
			left = append(left, row[:i:i])
		}
		if i < len(row) {
			right = append(right, row[i:])
		}
	}
	var out [][]piece
	for _, part := range [][][]piece{rows[:from], left, right, rows[to:]} {
		out = append(out, columns(part, depth+1)...)
	}
	return out
}

// gutter finds rows[from:to] that have columns left and right of x = cut; to is 0 if there
// are none. A gutter stands before an edge where at least three pieces begin.
func gutter(rows [][]piece) (from, to int, cut float64) {
	edges := map[int]int{}
	for _, row := range rows {
		for _, p := range row {
			edges[int(math.Round(p.x0/3))]++
		}
	}
	var at []int
	for e, n := range edges {
		if n+edges[e+1] >= 3 {
			at = append(at, e)
		}
	}
	slices.Sort(at)
	if len(at) > 200 {
		at = at[:200]
	}
	for _, e := range at {
		x := float64(e)*3 - 1.5
		for i := 0; i < len(rows); {
			j := i
			for j < len(rows) && !crosses(rows[j], x) && (j == i || rows[j-1][0].y-rows[j][0].y < 3.5*max(rows[j-1][0].size, rows[j][0].size)) {
				j++
			}
			if j-i > to-from && prose(rows[i:j], x) {
				from, to, cut = i, j, x
			}
			i = max(j, i+1)
		}
	}
	return from, to, cut
}

// crosses tells whether a piece reaches over x or nearly up to it.
func crosses(row []piece, x float64) bool {
	for _, p := range row {
		if p.x0 < x-2 && p.x1 > x-0.6*p.size {
			return true
		}
	}
	return false
}

// prose tells whether lines are two columns of prose with the gutter before x, and not a
// table. Columns have several lines of some length on both sides. Where nearly every line
// has a partner on the same base line they must be long: so are the rows of few tables.
// Only lines beside the right column count; what is above or below it may be anything.
func prose(rows [][]piece, x float64) bool {
	beside := func(row []piece) bool { return row[len(row)-1].x0 >= x-2 }
	left := 0
	for _, row := range rows {
		if row[0].x0 < x-2 {
			left++
		}
	}
	for len(rows) > 0 && !beside(rows[0]) {
		rows = rows[1:]
	}
	for len(rows) > 0 && !beside(rows[len(rows)-1]) {
		rows = rows[:len(rows)-1]
	}
	var right, both, leftLen, rightLen, leftPieces, rightPieces int
	for _, row := range rows {
		l, r := false, false
		for _, p := range row {
			if p.x0 < x-2 {
				l = true
				leftPieces++
				leftLen += utf8.RuneCountInString(p.text)
			} else {
				r = true
				rightPieces++
				rightLen += utf8.RuneCountInString(p.text)
			}
		}
		if r {
			right++
		}
		if l && r {
			both++
		}
	}
	if left < 3 || right < 3 {
		return false
	}
	long := 10
	if 4*both > 3*min(left, right) {
		long = 20
	}
	return leftLen >= long*leftPieces && rightLen >= long*rightPieces
}

var figure = regexp.MustCompile(`\d+`)

// withoutHeads takes off running heads and feet: lines at the top or bottom of pages that
// say the same in the same place on two pages in three, or on all of three and more but for
// the number of the page. Less would do for most, but a row must not be lost.
func withoutHeads(pages [][]textLine) [][]textLine {
	type place struct {
		text string
		y    int
	}
	places := func(l textLine, text string) [2]place { // two, for the lines between which y falls
		y := int(math.Round(l.y / 2))
		return [2]place{{text, y}, {text, y + 1}}
	}
	numbered := func(i int, l textLine) (out []string) {
		for _, at := range figure.FindAllStringIndex(l.text, 20) {
			if l.text[at[0]:at[1]] == strconv.Itoa(i+1) {
				out = append(out, l.text[:at[0]]+"\x00"+l.text[at[1]:])
			}
		}
		return out
	}
	seen := map[place]int{}
	for i, lines := range pages {
		once := map[place]bool{}
		for _, l := range lines {
			for _, text := range append(numbered(i, l), l.text) {
				for _, p := range places(l, text) {
					once[p] = true
				}
			}
		}
		for p := range once {
			seen[p]++
		}
	}
	returns := func(i int, l textLine) bool {
		most := func(text string) int {
			p := places(l, text)
			return max(seen[p[0]], seen[p[1]])
		}
		if n := most(l.text); n >= 2 && 3*n >= 2*len(pages) {
			return true
		}
		return len(pages) >= 3 && slices.ContainsFunc(numbered(i, l), func(text string) bool { return most(text) == len(pages) })
	}
	for i, lines := range pages {
		for len(lines) > 0 && returns(i, lines[0]) {
			lines = lines[1:]
			if len(lines) > 0 {
				lines[0].apart = false
			}
		}
		for len(lines) > 0 && returns(i, lines[len(lines)-1]) {
			lines = lines[:len(lines)-1]
		}
		pages[i] = lines
	}
	return pages
}

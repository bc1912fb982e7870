package reader

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"sockwright/internal/script"
	"sockwright/internal/source"
)

var (
	chartRow   = regexp.MustCompile(`^\s*(?:(?:Rnd|Row)\s*)?(\d{1,3})?\s*[|¦]\s*(.*?)\s*(?:[|¦]\s*(\d{1,3})?)?\s*$`)
	chartRight = regexp.MustCompile(`^\s*()([^|¦]*\S)\s*[|¦]\s*(\d{1,3})\s*$`) // the number at the right only
	keyMark    = regexp.MustCompile(`(?i)^\s*key\b\s*:?\s*`)
	keySign    = regexp.MustCompile(`(?:^|[\s,;(])([^\s,;(]{1,2}?)\.?\s*(?:[=:]|[–-]\s)\s*`)
	keyBare    = regexp.MustCompile(`^\s*(\S{1,2})\s+(\S.*)$`)
	keyParts   = regexp.MustCompile(`\s*[;,]\s+|\s{2,}`)
	keyMeaning = regexp.MustCompile(`[.;]\s|[.;,]$|\s{2,}`)
)

// chartLine reads a row of a chart that is a table of signs in the text, its heading, or
// its key.
func (p *parser) chartLine(n int, text string) bool {
	if !p.chartPart(n, text) {
		return false
	}
	p.inTerms = false
	p.out.Lines[n-1].Role = script.Signs
	return true
}

func (p *parser) chartPart(n int, text string) bool {
	if p.key(n, text) || p.chartWidth(n, text) {
		return true
	}
	num, signs := chartCells(text)
	if len(signs) > 0 && p.sizes > 1 && p.chart == nil && isTableRow(text) { // of the sizes
		signs = nil
	}
	if len(signs) == 0 {
		if p.chart != nil && len(p.chart.Rows) > 0 {
			p.endChart()
		}
		if containsFold(text, "chart") && p.beforeChart(n, text) {
			p.chartHead(n, text)
			return true
		}
		return false
	}
	if p.chart == nil {
		p.newChart(n, "")
	}
	row := script.ChartRow{Num: num, Line: n, Signs: signs}
	row.Uses, row.Makes = worked(signs, p.chart.Key)
	p.chart.Rows = append(p.chart.Rows, row)
	p.chart.Width = max(p.chart.Width, len(signs))
	p.lastChart = p.chart
	return true
}

// chartCells splits a row of a chart into its number, 0 if it has none, and its signs, none
// if the line is no such row.
func chartCells(text string) (num int, signs []string) {
	if !hasRule(text) {
		return 0, nil
	}
	m := chartRow.FindStringSubmatch(text)
	if m == nil {
		if m = chartRight.FindStringSubmatch(text); m == nil || len(m[2]) < 4 {
			return 0, nil
		}
	}
	if hasRule(m[2]) { // a table of something else
		return 0, nil
	}
	signs = strings.Fields(m[2])
	if len(signs) == 1 && utf8.RuneCountInString(signs[0]) > 2 {
		if known.hasWord(signs[0]) {
			return 0, nil
		}
		signs = strings.Split(signs[0], "")
	}
	figures := 0
	for _, s := range signs {
		if utf8.RuneCountInString(s) > 2 {
			return 0, nil
		}
		if _, unit := millimetres[s]; unit || isDigit(s[0]) {
			figures++
		}
	}
	if figures == len(signs) { // a table of sizes
		return 0, nil
	}
	num, _ = strconv.Atoi(m[1] + m[3])
	if m[1] != "" {
		num, _ = strconv.Atoi(m[1])
	}
	return num, signs
}

// hasRule tells whether a line has a vertical rule, as rows of charts have.
func hasRule(text string) bool { return strings.Contains(text, "|") || strings.Contains(text, "¦") }

// beforeChart tells whether the rows of a chart begin below line n, at once or after a line
// that says how large it is.
func (p *parser) beforeChart(n int, text string) bool {
	next := p.file.Line(p.lineBehind(n))
	if _, signs := chartCells(next); len(signs) > 0 {
		return true
	}
	_, signs := chartCells(p.file.Line(p.lineBehind(p.lineBehind(n))))
	return len(signs) > 0 && len(text) < 40 && chartSize.MatchString(next)
}

// lineBehind is the number of the next line that holds something of its own: documents put
// blank lines between a heading and what it is for.
func (p *parser) lineBehind(n int) int {
	for n++; n <= p.file.Lines() && strings.TrimSpace(p.file.Line(n)) == ""; n++ {
	}
	return n
}

var chartSize = regexp.MustCompile(`(?i)^\s*\d+ (?:sts?|stitches)\b`)

// chartWidth reads a line between the heading of a chart and its rows.
func (p *parser) chartWidth(n int, text string) bool {
	if p.chart == nil || len(p.chart.Rows) > 0 || p.lineBehind(p.chart.Line) != n || !chartSize.MatchString(text) {
		return false
	}
	p.statedWidth(n, text)
	return true
}

func (p *parser) newChart(n int, name string) {
	p.chart = &script.Chart{At: p.file.LineSpan(n), Line: n, Name: name}
	if p.lastChart != nil { // until a key of its own is read
		p.chart.Key = p.lastChart.Key
	}
	p.out.Charts = append(p.out.Charts, p.chart)
}

func (p *parser) chartHead(n int, text string) {
	p.newChart(n, strings.ToLower(strings.TrimSpace(text)))
	p.statedWidth(n, text)
	p.title = false
}

// statedWidth looks for the stitches that a heading gives the chart.
func (p *parser) statedWidth(n int, text string) {
	p.begin(p.lexAt(text, p.file.LineSpan(n).Start, nil))
	for !p.done() {
		if p.peek().kind != numToken {
			p.i++
			continue
		}
		if num, ok := p.number(); ok && (p.is("sts") || p.is("-")) {
			p.chart.Stated = num
			return
		}
	}
}

// endChart ends the chart that rows have been read of; one that has only been named goes on.
func (p *parser) endChart() {
	if p.chart != nil && len(p.chart.Rows) > 0 {
		p.chart = nil
	}
}

// key reads what signs mean: "Key: k = knit, o = yo" or, just below a chart, "D = dark,
// L = light". It holds for the charts above it that have no key of their own yet, and for
// those that follow.
func (p *parser) key(n int, text string) bool {
	var at []int
	if containsFold(text, "key") {
		at = keyMark.FindStringIndex(text)
	}
	below := n > 1 && p.out.Lines[n-2].Role == script.Signs
	if at == nil && (!below || hasRule(text)) || p.lastChart == nil && !p.chartBelow(n) {
		return false
	}
	from := 0
	if at != nil {
		from = at[1]
	}
	entries := keyEntries(text[from:], at != nil)
	for i := range entries {
		e := &entries[i]
		e.At.Start += p.file.LineSpan(n).Start + uint32(from)
		e.At.End += p.file.LineSpan(n).Start + uint32(from)
		e.Uses, e.Makes = p.signWorth(e.Means)
	}
	if at == nil && !slices.ContainsFunc(entries, func(e script.Sign) bool { return p.charted(e.Sign) }) {
		return false
	}
	if p.lastChart == nil {
		p.lastChart = &script.Chart{}
	}
	goesOn := at == nil && len(p.lastChart.Key) > 0 && p.lastChart.Key[0].At.Start > p.lastChart.At.Start
	if goesOn {
		entries = append(slices.Clip(p.lastChart.Key), entries...)
	}
	p.lastChart.Key = entries
	for _, c := range p.out.Charts {
		if own := len(c.Key) > 0 && c.Key[0].At.Start > c.At.Start && c != p.lastChart && !(goesOn && c.Key[0].At == entries[0].At); own {
			continue
		}
		c.Key = entries
		for i := range c.Rows {
			c.Rows[i].Uses, c.Rows[i].Makes = worked(c.Rows[i].Signs, entries)
		}
	}
	return true
}

// chartBelow tells whether rows of a chart follow soon.
func (p *parser) chartBelow(n int) bool {
	for line := n + 1; line <= min(n+12, p.file.Lines()); line++ {
		if num, signs := chartCells(p.file.Line(line)); num > 0 && len(signs) > 2 {
			return true
		}
	}
	return false
}

// charted tells whether a sign stands in the last chart.
func (p *parser) charted(sign string) bool {
	return p.lastChart != nil && slices.ContainsFunc(p.lastChart.Rows, func(r script.ChartRow) bool { return slices.Contains(r.Signs, sign) })
}

// keyEntries splits "k = knit, o = yo" and, where bare ones may be meant, "k knit, o yo".
// The places are those in the text that is given.
func keyEntries(text string, bare bool) []script.Sign {
	var out []script.Sign
	marks := keySign.FindAllStringSubmatchIndex(text, -1)
	for i, m := range marks {
		end := len(text)
		if i+1 < len(marks) {
			end = marks[i+1][0]
		}
		out = append(out, script.Sign{Sign: text[m[2]:m[3]], Means: meaning(text[m[1]:end]), At: source.Span{Start: uint32(m[2]), End: uint32(m[3])}})
	}
	if len(marks) > 0 || !bare {
		return out
	}
	from := 0
	cuts := append(keyParts.FindAllStringIndex(text, -1), []int{len(text), len(text)})
	for _, cut := range cuts {
		if m := keyBare.FindStringSubmatchIndex(text[from:cut[0]]); m != nil {
			out = append(out, script.Sign{Sign: text[from+m[2] : from+m[3]], Means: meaning(text[from+m[4] : from+m[5]]), At: source.Span{Start: uint32(from + m[2]), End: uint32(from + m[3])}})
		}
		from = cut[1]
	}
	return out
}

// meaning is the words of an entry without what follows them.
func meaning(s string) string {
	if cut := keyMeaning.FindStringIndex(s); cut != nil {
		s = s[:cut[0]]
	}
	return strings.Trim(s, " \t,;.")
}

// signWorth works out how many stitches a sign takes and makes. What is no stitch is a
// colour, and knitted.
func (p *parser) signWorth(means string) (uses, makes int) {
	if strings.HasPrefix(strings.ToLower(means), "no st") {
		return 0, 0
	}
	p2 := &parser{file: p.file, out: &script.Script{}, sizes: 1, terms: p.terms}
	p2.begin(lex(means, nil))
	if s, ok := p2.step1(); ok && s.Op != script.Unknown && s.Op != script.Work {
		return int(s.Uses), int(s.Makes)
	}
	return 1, 1
}

// worked adds up what signs take and make, -1 if the key leaves one of them out.
func worked(signs []string, key []script.Sign) (uses, makes int) {
	for _, s := range signs {
		i := slices.IndexFunc(key, func(k script.Sign) bool { return k.Sign == s })
		if i < 0 {
			return -1, -1
		}
		uses += key[i].Uses
		makes += key[i].Makes
	}
	return uses, makes
}

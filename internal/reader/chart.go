package reader

import (
	"regexp"
	"strconv"
	"strings"

	"sockwright/internal/script"
)

var (
	chartRow = regexp.MustCompile(`^\s*(?:(?:Rnd|Row)\s*)?(\d{1,3})?\s*[|¦]\s*(.*?)\s*(?:[|¦]\s*(\d{1,3})?)?\s*$`)
	keyMark  = regexp.MustCompile(`(?i)^\s*key\b\s*:?`)
	keyEntry = regexp.MustCompile(`(\S{1,2})\s*(?:=|:)\s*([^=;,]+?)(?:\s{2,}|[;,]|$)`)
)

// chartLine reads a row of a chart that is a table of signs in the text, or its key.
func (p *parser) chartLine(n int, text string) bool {
	if p.key(text) {
		p.out.Lines[n-1].Role = script.Signs
		return true
	}
	if !strings.ContainsAny(text, "|¦") {
		if p.chart != nil && len(p.chart.Rows) > 0 {
			p.endChart()
		}
		if strings.Contains(strings.ToLower(text), "chart") && n < p.file.Lines() && chartRow.MatchString(p.file.Line(n+1)) && strings.ContainsAny(p.file.Line(n+1), "|¦") {
			p.chartHead(n, text)
			p.out.Lines[n-1].Role = script.Signs
			return true
		}
		return false
	}
	m := chartRow.FindStringSubmatch(text)
	if m == nil {
		return false
	}
	signs := strings.Fields(m[2])
	if len(signs) == 1 && len(signs[0]) > 2 {
		signs = strings.Split(signs[0], "")
	}
	for _, s := range signs {
		if len([]rune(s)) > 2 {
			return false
		}
	}
	if p.chart == nil {
		p.chart = &script.Chart{At: p.file.LineSpan(n), Line: n}
		p.out.Charts = append(p.out.Charts, p.chart)
	}
	num := m[1]
	if num == "" {
		num = m[3]
	}
	row := script.ChartRow{Line: n, Signs: signs, Uses: -1, Makes: -1}
	row.Num, _ = strconv.Atoi(num)
	p.chart.Rows = append(p.chart.Rows, row)
	p.chart.Width = max(p.chart.Width, len(signs))
	p.lastChart = p.chart
	p.out.Lines[n-1].Role = script.Signs
	return true
}

func (p *parser) chartHead(n int, text string) {
	p.chart = &script.Chart{At: p.file.LineSpan(n), Line: n, Name: strings.ToLower(strings.TrimSpace(text))}
	p.out.Charts = append(p.out.Charts, p.chart)
	p.toks, p.i = lexAt(text, p.file.LineSpan(n).Start, nil), 0
	for !p.done() {
		if p.peek().kind == numToken {
			num, ok := p.number()
			if ok && (p.is("sts") || p.is("-")) {
				p.chart.Stated = num
				break
			}
			continue
		}
		p.i++
	}
	if p.title {
		p.title = false
	}
}

func (p *parser) endChart() { p.chart = nil }

// key reads what the signs of the last chart mean.
func (p *parser) key(text string) bool {
	at := keyMark.FindStringIndex(text)
	if at == nil || p.lastChart == nil {
		return false
	}
	worth := map[string]stitch{}
	for _, m := range keyEntry.FindAllStringSubmatch(text[at[1]:], -1) {
		p2 := &parser{file: p.file, out: &script.Script{}, sizes: 1, terms: p.terms}
		p2.toks = lex(m[2], nil)
		if s, ok := p2.step1(); ok && s.Op != script.Unknown {
			worth[m[1]] = stitch{s.Op, s.Uses, s.Makes}
		} else {
			worth[m[1]] = stitch{script.Knit, 1, 1}
		}
	}
	for i := range p.lastChart.Rows {
		r := &p.lastChart.Rows[i]
		r.Uses, r.Makes = 0, 0
		for _, s := range r.Signs {
			w, ok := worth[s]
			if !ok {
				r.Uses, r.Makes = -1, -1
				break
			}
			r.Uses += int(w.uses)
			r.Makes += int(w.makes)
		}
	}
	return true
}

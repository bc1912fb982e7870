package check

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"sockwright/internal/script"
	"sockwright/internal/source"
)

// lastLine is the line of the last row of a chart.
func lastLine(c *script.Chart) int {
	if len(c.Rows) == 0 {
		return c.Line
	}
	return c.Rows[len(c.Rows)-1].Line
}

// usual is the width that most rows of a chart have, the wider of two that are as common.
func usual(c *script.Chart) int {
	times := map[int]int{}
	best := 0
	for _, r := range c.Rows {
		n := len(r.Signs)
		if times[n]++; times[n] > times[best] || times[n] == times[best] && n > best {
			best = n
		}
	}
	return best
}

// chartRowAt is the span of a row of a chart without the blanks around it.
func (e *editor) chartRowAt(line int) source.Span {
	text := e.file.Line(line)
	return e.at(line, len(text)-len(strings.TrimLeft(text, " \t")), len(strings.TrimRight(text, " \t")))
}

// chartWidths compares the widths of the rows of a chart with each other, with its heading
// and with what the words beside it say.
func (e *editor) chartWidths() {
	for _, c := range e.words.Charts {
		if len(c.Rows) == 0 {
			continue
		}
		width := usual(c)
		rows := slices.Clone(c.Rows)
		slices.SortStableFunc(rows, func(a, b script.ChartRow) int { return a.Num - b.Num })
		for i, r := range rows {
			before := rows[(i+len(rows)-1)%len(rows)]
			if n := len(r.Signs); n != width && (r.Uses >= 0 && r.Uses != before.Makes || evenSigns(c)) {
				f := e.say(e.chartRowAt(r.Line), e.all(), source.ChartText, source.Error, source.Say("edit.chart-row-width", "this row of the chart has {0} signs, the others have {1}", n, width),
					advice("edit.mend-chart-row", "add or take away signs until it has {0}", width))
				setFigures(f, float64(n), float64(width), "sts")
			}
		}
		if stated := c.Stated; len(stated.Val) == 1 && stated.Val[0] > 0 && int(stated.Val[0]) != width && stated.At.Known() {
			line, _ := e.file.Position(stated.At.Start)
			if !besideRepeat.MatchString(e.file.Line(line)) || width < int(stated.Val[0]) {
				e.wrongWidth(stated.At, int(stated.Val[0]), width)
			}
		}
		e.saidWide(c, width)
		e.saidHigh(c)
	}
}

// besideRepeat are words of a heading that gives the width of the repeat: the chart may have
// stitches beside it.
var besideRepeat = regexp.MustCompile(`(?i)\brep(?:eat)?\b|\bmultiple\b|\bplus\b|\+|\bedge`)

// evenSigns tells whether a chart without a key has only letters that are one stitch each:
// k, p, and colours.
func evenSigns(c *script.Chart) bool {
	return len(c.Key) == 0 && !slices.ContainsFunc(c.Rows, func(r script.ChartRow) bool {
		return slices.ContainsFunc(r.Signs, func(s string) bool { return signOp(c, s) == "" })
	})
}

var chartHeight = regexp.MustCompile(`(?i)\b(\d+) (?:rnds?|rounds?|rows?)\b`)

// saidHigh compares the rounds that the heading of a chart gives with those it shows, which
// may be every other one.
func (e *editor) saidHigh(c *script.Chart) {
	high, odd := 0, true
	for _, r := range c.Rows {
		high = max(high, r.Num)
		odd = odd && r.Num%2 == 1
	}
	for n := c.Line; n < c.Rows[0].Line && high > 0; n++ {
		line := e.file.Line(n)
		m := chartHeight.FindStringSubmatchIndex(line)
		if m == nil {
			continue
		}
		if stated, err := strconv.Atoi(group(line, m, 1)); err == nil && stated != high && !(odd && stated == high+1) && stated != len(c.Rows) {
			f := e.say(e.at(n, m[2], m[3]), e.all(), source.ChartText, source.Warning, source.Say("edit.chart-height", "{0} rows stated, but the chart has {1}", stated, high),
				advice("edit.mend-chart-height", "state {0}, or add the rows that are missing", high))
			setFigures(f, float64(stated), float64(high), "rows")
		}
		return
	}
}

func (e *editor) wrongWidth(at source.Span, stated, width int) {
	f := e.say(at, e.all(), source.ChartText, source.Error, source.Say("edit.chart-width", "{0} sts stated, but the chart is {1} sts wide", stated, width),
		rewrite(at, strconv.Itoa(width), "edit.mend-chart-width", "state {0}, and count the repeats again, or draw the chart over {1} sts", width, stated))
	setFigures(f, float64(stated), float64(width), "sts")
}

var wide = regexp.MustCompile(`(?i)\b(\d+) (?:sts?\.?|stitches) wide\b`)

// saidWide reads "the pattern is 10 sts wide" just above a chart or just below its key.
func (e *editor) saidWide(c *script.Chart, width int) {
	for n := max(c.Line-far, 1); n <= min(lastLine(c)+far, len(e.lines)); n++ {
		line := e.lines[n-1]
		m := wide.FindStringSubmatchIndex(line)
		if m == nil || n == c.Line && c.Stated.Known() || !e.beside(n, c, 3) || e.nearerChart(n, c) {
			continue
		}
		if stated, err := strconv.Atoi(group(line, m, 1)); err == nil && stated != width {
			e.wrongWidth(e.at(n, m[2], m[3]), stated, width)
		}
	}
}

// far is how many lines from a chart words may still be about it.
const far = 12

// beside tells whether a line stands so close to a chart, rows of signs and keys not counted.
func (e *editor) beside(n int, c *script.Chart, lines int) bool {
	from, to := n, c.Line
	if n > c.Line {
		from, to = lastLine(c), n
	}
	for line := from + 1; line < to; line++ {
		if r := e.role(line); r != script.Signs && r != script.Blank {
			lines--
		}
	}
	return lines > 0
}

// nearerChart tells whether another chart lies closer to a line.
func (e *editor) nearerChart(n int, c *script.Chart) bool {
	away := func(c *script.Chart) int { return max(c.Line-n, n-lastLine(c)) }
	return slices.ContainsFunc(e.words.Charts, func(o *script.Chart) bool { return o != c && away(o) < away(c) })
}

// chartSigns reports signs that the key of a chart leaves out.
func (e *editor) chartSigns() {
	for _, c := range e.words.Charts {
		if len(c.Key) == 0 {
			continue
		}
		key := strings.ToLower(e.keyText(c))
		var told []string
		for _, r := range c.Rows {
			for _, s := range r.Signs {
				if slices.Contains(told, s) || slices.ContainsFunc(c.Key, func(k script.Sign) bool { return k.Sign == s }) || keySpeaksOf(key, s) {
					continue
				}
				told = append(told, s)
				text := e.file.Line(r.Line)
				from := strings.IndexAny(text, "|¦")
				if at := strings.Index(text[max(from, 0):], s); at >= 0 {
					from = max(from, 0) + at
				}
				e.say(e.at(r.Line, from, from+len(s)), e.all(), source.UndefinedTerm, source.Error, source.Say("edit.chart-sign", "the key of the chart does not explain the sign “{0}”", s),
					advice("edit.mend-chart-sign", "add “{0}” to the key", s))
			}
		}
	}
}

// keyText is the lines of the key of a chart and the one below.
func (e *editor) keyText(c *script.Chart) string {
	first, _ := e.file.Position(c.Key[0].At.Start)
	last, _ := e.file.Position(c.Key[len(c.Key)-1].At.Start)
	var b strings.Builder
	for n := first; n <= last+1; n++ {
		b.WriteString(" " + e.file.Line(n) + " ")
	}
	return b.String()
}

var signWords = map[string][]string{".": {"dot", "point", "empty", "blank"}, "-": {"dash", "bar"}, "–": {"dash"}, "/": {"slash", "slant"}, "\\": {"slash", "slant"}, "o": {"circle", "ring"}, "O": {"circle", "ring"}, "^": {"arrow", "tent", "roof"}, "x": {"cross"}, "X": {"cross"}, "k": {"k"}, "p": {"p"}}

// keySpeaksOf tells whether a key mentions a sign in a way of its own.
func keySpeaksOf(key, sign string) bool {
	if slices.Contains(strings.FieldsFunc(key, func(r rune) bool { return strings.ContainsRune(" \t,;=:“”\"'()", r) }), strings.ToLower(sign)) {
		return true
	}
	return slices.ContainsFunc(signWords[sign], func(w string) bool { return strings.Contains(key, w) })
}

var chartLetter = regexp.MustCompile(`\b(?:[Cc]hart|CHART)s?\s+([A-Z]|\d{1,2})\b(?:(?:, | and | or | & )([A-Z])\b)?`)

// chartOpens is a line that presents a chart, wherever it is drawn; chartTimes follows a
// number that is no name: "work the chart 4 times".
var (
	chartOpens = regexp.MustCompile(`(?i)^\s*chart ([A-Z]|\d{1,2})\s*(?:$|[:.(,–-])`)
	chartTimes = regexp.MustCompile(`(?i)^[\s(\[,:;/0-9)\]]*(?:times|x\b|×|more|sts?\b|stitches|rnds?\b|rounds|rows|repeats|in\b|cm\b)`)
)

// chartNames reports charts that are called by a letter and do not stand in a text that has
// others.
func (e *editor) chartNames() {
	have := map[string]bool{}
	drawn := false
	for _, c := range e.words.Charts {
		if m := chartLetter.FindStringSubmatch(e.file.Line(c.Line)); m != nil && len(c.Rows) > 0 {
			have[m[1]], drawn = true, true
		}
	}
	if !drawn {
		return
	}
	e.eachMatch(chartOpens, func(n int, line string, m []int) { have[strings.ToUpper(group(line, m, 1))] = true })
	e.eachMatch(chartLetter, func(n int, line string, m []int) {
		for g := 1; g <= 2; g++ {
			if name := group(line, m, g); name != "" && !have[name] && !(isDigit(name[0]) && chartTimes.MatchString(line[m[2*g+1]:])) {
				e.say(e.at(n, m[0], m[2*g+1]), e.all(), source.UndefinedTerm, source.Error, source.Say("edit.chart-missing", "there is no chart {0} in the text", name),
					advice("edit.mend-chart-missing", "add the chart, or call for one that is there"))
			}
		}
	})
}

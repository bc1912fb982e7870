package follow

import (
	"slices"
	"strings"
	"unicode"

	"sockwright/internal/script"
	"sockwright/internal/source"
)

// chartStep works a row of a chart over the stitches that the words give it.
func (w *worker) chartStep(rw *rowWork, s *script.Step) *problem {
	chart := w.chart(s)
	if chart == nil {
		if s.To == script.Here && !s.N.Known() {
			return &problem{untold: true}
		}
		t := *s
		t.Op = script.Work
		return w.step(rw, &t)
	}
	uses, makes, num := chart.Width, chart.Width, s.Needle
	if num == 0 {
		num = rw.num
	}
	if last := lastRow(chart); last > 0 && num == last+1 {
		p := w.remark(s.At, source.ChartText, source.Say("follow.chart-rows", "the chart has {0} rows, and the words work row {1} of it", last, num), source.Rows(num), source.Rows(last))
		w.soft = append(w.soft, p)
		w.rowsKnown = false // whichever is right
	}
	for _, r := range chart.Rows {
		if r.Num == num && num > 0 && r.Uses >= 0 {
			uses, makes = r.Uses, r.Makes
		}
	}
	have := 0
	if s.N.Known() {
		have = int(w.val(s.N))
	} else if s.To != script.Here {
		n, p := w.distance(rw, &script.Step{To: s.To, Part: s.Part, At: s.At})
		if p != nil {
			return p
		}
		have = n
	}
	times := 0
	if s.Stop.N.Known() {
		times = int(w.val(s.Stop.N))
		if have == 0 {
			have = uses * times
		}
	} else if uses > 0 {
		times = have / uses
	}
	if uses*times != have {
		p := w.remark(s.At, source.ChartText, source.Say("follow.chart-width", "{0} times the {1} sts of the chart are {2}, not {3}", times, uses, times*uses, have), source.Sts(have), source.Sts(times*uses))
		w.soft = append(w.soft, p)
	}
	if p := w.each(rw, &script.Step{At: s.At, Op: script.Work, Uses: 1, Makes: 1}, have); p != nil {
		return p
	}
	for d := times * (makes - uses); d > 0 && d < MaxLive; d-- {
		w.put(rw, w.model(rw))
	}
	return nil
}

// lastRow is the number of the last row of a chart. Where every other row is drawn, it is one that is
// not.
func lastRow(c *script.Chart) (last int) {
	drawn := map[int]bool{}
	for _, r := range c.Rows {
		last = max(last, r.Num)
		drawn[r.Num] = true
	}
	if last > 1 && !drawn[last-1] {
		last++
	}
	return last
}

// chart is the one that a step names, or else the nearest above it.
func (w *worker) chart(s *script.Step) *script.Chart {
	var nearest *script.Chart
	for _, c := range w.script.Charts {
		if s.Name != "" && named(c.Name, s.Name) {
			return c
		}
		if nearest == nil || c.Line < w.lineOf(s.At) {
			nearest = c
		}
	}
	return nearest
}

// named tells whether a heading has all the words that a chart is called by.
func named(heading, name string) bool {
	words := strings.FieldsFunc(heading, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	for word := range strings.FieldsSeq(name) {
		if !slices.Contains(words, word) {
			return false
		}
	}
	return true
}

func (w *worker) lineOf(at source.Span) int {
	n, _ := w.script.File.Position(at.Start)
	return n
}

// patternStep notes that a stitch pattern goes on: with the row that comes next, or the
// words are wrong.
func (w *worker) patternStep(rw *rowWork, s *script.Step) {
	last := w.lastPattern
	if last == 0 || len(w.pattern) == 0 {
		return
	}
	w.lastPattern = s.Last
	length := 0
	for _, r := range w.pattern {
		length = max(length, r.num)
	}
	if next := last%length + 1; next != s.Last {
		p := w.remark(s.At, source.ChartText, source.Say("follow.pattern-row", "the pattern stopped after row {0}, so it goes on with row {1}, not {2}", last, next, s.Last), source.Rows(s.Last), source.Rows(next))
		w.soft = append(w.soft, p)
	}
}

// patternRow notes a row of the stitch pattern that was worked last.
func (w *worker) patternRow(r *script.Row, num int) {
	if num > 0 && slices.ContainsFunc(w.pattern, func(n numbered) bool { return n.row == r }) {
		w.lastPattern = num
	}
}

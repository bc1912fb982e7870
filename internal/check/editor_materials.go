package check

import (
	"math"
	"regexp"
	"strconv"

	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

var (
	twoGauges = regexp.MustCompile(`\b(\d+(?:\.\d+)?) sts and (\d+(?:\.\d+)?) (?:rnds|rows) over 4 in \[(\d+(?:\.\d+)?) and (\d+(?:\.\d+)?) over 10 cm\]`)
	listed    = regexp.MustCompile(`\b(\d+) stitch markers?\b`)
)

// gauges compares a gauge over 4 in with the one over 10 cm beside it, which is 1.6 % less.
// Both are printed to half a stitch.
func (e *editor) gauges() {
	e.eachMatch(twoGauges, func(n int, line string, m []int) {
		for i := 1; i <= 2; i++ {
			inches, _ := strconv.ParseFloat(group(line, m, i), 64)
			metric, _ := strconv.ParseFloat(group(line, m, i+2), 64)
			want := inches * 10 / 10.16
			if math.Abs(metric-want) < 0.52 {
				continue
			}
			at := e.at(n, m[2*(i+2)], m[2*(i+2)+1])
			right := strconv.FormatFloat(math.Round(want*2)/2, 'f', -1, 64)
			e.say(at, e.all(), source.Units, source.Warning,
				source.Say("edit.gauges", "{0} over 4 in are {1} over 10 cm, not {2}", group(line, m, i), right, group(line, m, i+2)),
				rewrite(at, right, "edit.mend-write", "write {0}", right))
		}
	})
}

// markers compares the stitch markers that are listed with those that one row of a pattern
// in the program's own layout places.
func (e *editor) markers(p *pattern.Pattern) {
	most := 0
	p.Each(func(_ *pattern.Section, n pattern.Node) {
		if row, is := n.(*pattern.Row); is {
			placed := 0
			for _, part := range row.Parts {
				for _, s := range part.Steps {
					if s.Op == pattern.PlaceMarker {
						placed++
					}
				}
			}
			most = max(most, placed)
		}
	})
	e.eachMatch(listed, func(n int, line string, m []int) {
		if have, err := strconv.Atoi(group(line, m, 1)); err == nil && have < most {
			at := e.at(n, m[2], m[3])
			e.say(at, e.all(), source.Marker, source.Warning,
				source.Say("edit.markers", "the materials list {0}, but one row places {1}", group(line, m, 0), most),
				rewrite(at, strconv.Itoa(most), "edit.mend-write", "write {0}", most))
		}
	})
}

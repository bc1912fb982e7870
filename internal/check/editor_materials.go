package check

import (
	"math"
	"regexp"
	"strconv"

	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

var (
	twoGauges = regexp.MustCompile(`\b(\d+(?:\.\d+)?) (?:sts|stitches) and (\d+(?:\.\d+)?) (?:rnds|rounds|rows) over (4 in|10 cm) \[(\d+(?:\.\d+)?) and (\d+(?:\.\d+)?) over (4 in|10 cm)\]`)
	listed    = regexp.MustCompile(`\b(\d+) stitch markers?\b`)
)

// gauges compares a gauge over 4 in with the one over 10 cm beside it, which is 1.6 % less.
// Both are printed to half a stitch.
func (e *editor) gauges() {
	const stated, beside = 3, 6 // the lengths
	e.eachMatch(twoGauges, func(n int, line string, m []int) {
		over, other := group(line, m, stated), group(line, m, beside)
		if over == other {
			return
		}
		longer := 10 / 10.16
		if over == "10 cm" {
			longer = 1 / longer
		}
		for i := 1; i <= 2; i++ {
			first, _ := strconv.ParseFloat(group(line, m, i), 64)
			second, _ := strconv.ParseFloat(group(line, m, i+stated), 64)
			want := first * longer
			if math.Abs(second-want) < 0.52 {
				continue
			}
			at := e.at(n, m[2*(i+stated)], m[2*(i+stated)+1])
			right := strconv.FormatFloat(math.Round(want*2)/2, 'f', -1, 64)
			e.say(at, e.all(), source.Units, source.Warning,
				source.Say("edit.gauges", "{0} over {1} are {2} over {3}, not {4}", group(line, m, i), over, right, other, group(line, m, i+stated)),
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

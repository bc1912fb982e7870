package check

import (
	"math"
	"regexp"
	"strconv"
	"strings"

	"sockwright/internal/source"
	"sockwright/internal/trade"
	"sockwright/internal/unit"
)

// slack is how far two figures for the same may be apart because both were rounded. Common
// practice prints inches to a quarter and centimetres to a half, balls of 50 g as 1 3/4 oz or
// as 2, yarn to the next five yards.
var slack = map[string]struct{ part, least float64 }{
	"length": {0.04, 0.35 * 25.4},
	"weight": {0.08, 0.26 * 28.349523125},
	"yarn":   {0.04, 5},
}

// units compares measures that are printed in two systems.
func (e *editor) units() {
	for i, line := range e.lines {
		if !strings.ContainsAny(line, "0123456789½¼¾") {
			continue
		}
		all := measures(line, len(e.words.Sizes))
		for k := 1; k < len(all); k++ {
			if a, b := all[k-1], all[k]; twice(line, a, b) {
				e.compare(i+1, a, b)
			}
		}
	}
}

// joints stand between a measure and the same in another system.
var joints = regexp.MustCompile(`^[.\s]*(?:[(\[]|/|=|or\b|,)\s*(?:about |approx\.? |= ?)?$`)

// twice tells whether b says the same as a in another system.
func twice(line string, a, b measure) bool {
	sa, sb := systems[a.unit], systems[b.unit]
	if sa.what != sb.what || sa.metric == sb.metric || len(a.figures) != len(b.figures) {
		return false
	}
	between, behind := line[a.end:b.figures[0].from], strings.TrimLeft(line[b.end:], " .")
	if !joints.MatchString(between) {
		return false
	}
	if bracketed := strings.ContainsAny(between, "(["); bracketed {
		return behind != "" && strings.ContainsRune(")],;", rune(behind[0]))
	}
	if strings.ContainsAny(between, "/=") {
		return true
	}
	// "or" and a comma may part two things; one that is within a third is the same
	for i := range max(len(a.figures), len(b.figures)) {
		if x, y := a.base(a.in(i)), b.base(b.in(i)); x == 0 || math.Abs(x-y) > x/3 {
			return false
		}
	}
	return true
}

// compare reports the figures of two measures that should be the same and are not.
func (e *editor) compare(line int, a, b measure) {
	n := max(len(a.figures), len(b.figures))
	for i := range n {
		x, y := a.in(i), b.in(i)
		if x.none || y.none || x.value == 0 || y.value == 0 {
			continue
		}
		s := slack[systems[a.unit].what]
		off, most := math.Abs(a.base(x)-b.base(y)), max(a.base(x), b.base(y))
		if off <= max(s.least, s.part*most) {
			continue
		}
		severity := source.Warning
		if systems[a.unit].what == "weight" && off < 0.2*most { // balls of 4 oz or 100 g are sold as the same
			severity = source.Note
		}
		sizes := e.all()
		if n > 1 && n == len(e.words.Sizes) {
			sizes = source.OneSize(i)
		}
		wantB, wantA := rounded(a.base(x), b.unit), rounded(b.base(y), a.unit)
		textA, textB := amount(x.value, a.unit), amount(y.value, b.unit)
		f := e.say(e.at(line, y.from, y.to), sizes, source.Units, severity,
			source.Say("edit.units", "{0} is {1}, not {2}", textA, amount(wantB, b.unit), textB),
			rewrite(e.at(line, y.from, y.to), number(wantB, b.unit), "edit.mend-write", "write {0}", amount(wantB, b.unit)),
			rewrite(e.at(line, x.from, x.to), number(wantA, a.unit), "edit.mend-or-write", "or, if {0} is right, write {1} for {2}", textB, amount(wantA, a.unit), textA))
		setFigures(f, y.value, wantB, b.unit)
	}
}

// rounded is an amount in mm, g or m as patterns print it in a unit.
func rounded(base float64, name string) float64 {
	v, step := base/systems[name].amount, 1.0
	switch name {
	case "in", "oz":
		step = 0.25
	case "cm":
		step = 0.5
	}
	return max(math.Round(v/step)*step, step)
}

// number prints a figure of a unit: inches and ounces with common fractions.
func number(v float64, name string) string {
	if name == "in" {
		return unit.Length(v * systems[name].amount).Inches()
	}
	return strconv.FormatFloat(math.Round(v*100)/100, 'f', -1, 64)
}

// amount prints a figure with its unit.
func amount(v float64, name string) string { return number(v, name) + " " + name }

var (
	numberedMM = regexp.MustCompile(`(?i)\b(US|UK|No)\.?\s*(?:size\s*|no\.?\s*|#\s*)?(0{1,3}|\d{1,2}(?:\.5|[ -]?1/2|½)?)\s*(?:[(\[/,]|or)\s*(\d+(?:\.\d+)?(?: ?[13]/[24]|[½¼¾])?)\s*mm`)
	mmNumbered = regexp.MustCompile(`(?i)(\d+(?:\.\d+)?(?: ?[13]/[24]|[½¼¾])?)\s*mm\.?\s*(?:[(\[/,]|or)\s*(US|UK|No)\.?\s*(?:size\s*|no\.?\s*|#\s*)?(0{1,3}|\d{1,2}(?:\.5|[ -]?1/2|½)?)\b`)
)

// needleSizes compares numbers of needles with the millimetres beside them. Makers differ by
// a quarter of a millimetre; that much is passed over.
func (e *editor) needleSizes() {
	check := func(n int, line string, m []int, name, num, mm int) {
		if strings.Contains(strings.ToLower(line), "hook") { // crochet hooks are numbered otherwise
			return
		}
		stated, err := unit.ParseNumber(group(line, m, mm))
		number := strings.ReplaceAll(strings.ReplaceAll(strings.ReplaceAll(group(line, m, num), "½", ".5"), "-1/2", ".5"), " 1/2", ".5")
		table := needleTable(strings.ToLower(group(line, m, name)), number)
		if err != nil || len(table) == 0 {
			return
		}
		for _, t := range table {
			if math.Abs(t-stated) < 0.26 {
				return
			}
		}
		printed := strings.TrimRight(line[m[2*name]:m[2*name+1]], " ") + " " + group(line, m, num)
		at := e.at(n, m[2*mm], m[2*mm+1])
		want := strconv.FormatFloat(table[0], 'f', -1, 64)
		f := e.say(at, e.all(), source.Units, source.Warning, source.Say("edit.needle", "needle {0} is {1} mm, not {2} mm", printed, want, group(line, m, mm)),
			rewrite(at, want, "edit.mend-write", "write {0}", want+" mm"))
		setFigures(f, stated, table[0], "mm")
	}
	e.eachMatch(numberedMM, func(n int, line string, m []int) { check(n, line, m, 1, 2, 3) })
	e.eachMatch(mmNumbered, func(n int, line string, m []int) { check(n, line, m, 2, 3, 1) })
}

// needleTable lists the diameters of a numbered size. A bare "No." may be of either country.
func needleTable(country, number string) []float64 {
	var out []float64
	for _, n := range trade.Needles() {
		if country != "us" && n.UK == number || country != "uk" && n.US == number {
			out = append(out, n.MM)
		}
	}
	return out
}

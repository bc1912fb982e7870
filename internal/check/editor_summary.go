package check

import (
	"math"
	"regexp"
	"slices"
	"strings"

	"sockwright/internal/script"
	"sockwright/internal/source"
	"sockwright/internal/unit"
)

// begins is the line, counted from 1, in which the work begins, behind the last if it never
// does.
func (e *editor) begins() int {
	for i, l := range e.words.Lines {
		for _, item := range l.Items {
			if _, is := item.(*script.CastOn); is {
				return i + 1
			}
		}
	}
	return len(e.lines) + 1
}

var (
	castOnSaid = regexp.MustCompile(`(?i)\b(?:cast[- ]on|stitches to cast on|CO)\b[^0-9.;]{0,16}`)
	castOnElse = regexp.MustCompile(`(?i)swatch|gauge|tension|provisional|waste|toe|underarm|thumb`)
	atAGlance  = regexp.MustCompile(`(?i)\bglance\b|\bsummary\b|\bcast[- ]on(?: sts\.?| stitches)?\s*[:=]`)
)

// castOns compares the stitches to cast on in a summary with those that are cast on.
func (e *editor) castOns() {
	first := e.begins()
	if first > len(e.lines) {
		return
	}
	var cast *script.CastOn
	for _, item := range e.words.Lines[first-1].Items {
		if c, is := item.(*script.CastOn); is && cast == nil {
			cast = c
		}
	}
	for n := 1; n < first; n++ {
		if r := e.role(n); r != script.Fact && r != script.Prose && r != script.Heading {
			continue
		}
		line := e.lines[n-1]
		m := castOnSaid.FindStringIndex(line)
		if m == nil || castOnElse.MatchString(line) {
			continue
		}
		for _, list := range append(listsIn(line[m[1]:]), single(line[m[1]:])) {
			if len(list) == 0 || len(list) == 1 && !atAGlance.MatchString(line+e.file.Line(n-1)) || len(list) > 1 && len(list) != len(e.words.Sizes) {
				continue
			}
			for size := range e.words.Sizes {
				f, worked := list[min(size, len(list)-1)], int(cast.N.In(size))*max(cast.On, 1)
				if worked <= 0 || f.value < 16 || int(f.value) == worked {
					continue
				}
				x := e.say(e.at(n, m[1]+f.from, m[1]+f.to), source.OneSize(size), source.StitchCount, source.Warning,
					source.Say("edit.cast-on", "{0} sts here, but line {1} casts on {2}", f.value, first, worked),
					advice("edit.mend-agree", "make the two agree"))
				setFigures(x, math.Trunc(f.value), float64(worked), "sts")
			}
			break
		}
	}
}

// single is a number of stitches at the beginning of words that is no list.
func single(words string) []figure {
	r := reading{line: words}
	f, ok := r.figure(false)
	if !ok || f.value != math.Trunc(f.value) || !strings.HasPrefix(strings.TrimLeft(words[r.i:], " "), "st") {
		return nil
	}
	return []figure{f}
}

var (
	ballsOf = regexp.MustCompile(`(?i)(\d+)((?:\s*[(\[](?:\s*\d+\s*[,:;/]?)+[)\]])?)\s*(?:x\s*)?(?:\d+ ?g[mr]?s?\.?[ -])?(?:balls?|skeins?|hanks?)\b`)
	perBall = regexp.MustCompile(`(?i)\b(?:per|each|to the|a)\s+(?:\d+ ?g[mr]?s?\.? )?(?:ball|skein|hank)\b|\b(?:ball|skein|hank)s? (?:of|with|holds?)\b`)
	inAll   = regexp.MustCompile(`(?i)\b(?:amount|total|in all|altogether|used|uses|needed|required|takes)\b`)
)

// yarn compares the yarn that is said to be used with what the balls hold. The length of a
// ball and the number of balls must both be printed.
func (e *editor) yarn() {
	var balls []figure
	held := 0.0
	first := e.begins()
	for n := 1; n < first; n++ {
		line := e.lines[n-1]
		if m := ballsOf.FindStringSubmatchIndex(line); m != nil && balls == nil {
			if list := listsIn(line[m[0]:m[1]]); len(list) > 0 {
				balls = list[0]
			} else if v, err := unit.ParseNumber(group(line, m, 1)); err == nil {
				balls = []figure{{value: v}}
			}
		}
		if held == 0 && perBall.MatchString(line) {
			for _, m := range measures(line, len(e.words.Sizes)) {
				if systems[m.unit].what == "yarn" && len(m.figures) == 1 && held == 0 {
					held = m.base(m.figures[0])
				}
			}
		}
	}
	if held == 0 || len(balls) == 0 || len(balls) > 1 && len(balls) != len(e.words.Sizes) {
		return
	}
	for n := 1; n < first; n++ {
		line := e.lines[n-1]
		if !inAll.MatchString(line) || perBall.MatchString(line) {
			continue
		}
		all := measures(line, len(e.words.Sizes))
		i := slices.IndexFunc(all, func(m measure) bool { return systems[m.unit].what == "yarn" })
		if i < 0 {
			continue
		}
		for size := range e.words.Sizes {
			f := all[i].in(size)
			holds := balls[min(size, len(balls)-1)].value * held
			if f.none || all[i].base(f) <= holds*1.02 {
				continue
			}
			have := math.Round(holds / systems[all[i].unit].amount)
			x := e.say(e.at(n, f.from, f.to), source.OneSize(size), source.BadLength, source.Warning,
				source.Say("edit.yarn", "{0} are used, but the balls that are listed hold only {1}", amount(f.value, all[i].unit), amount(have, all[i].unit)),
				advice("edit.mend-yarn", "ask for {0} balls", int(math.Ceil(all[i].base(f)/held))))
			setFigures(x, f.value, have, all[i].unit)
		}
	}
}

var needleMM = regexp.MustCompile(`(?i)\b(\d(?:\.\d+)?(?: ?[13]/[24]|[½¼¾])?)\s*-?mm\b`)

// needlesUsed notes needles in the text that the list of materials does not have.
func (e *editor) needlesUsed() {
	first := e.begins()
	var listed []string
	said := map[string]bool{}
	e.eachMatch(needleMM, func(n int, line string, m []int) {
		size := strings.Join(strings.Fields(group(line, m, 1)), " ")
		if v, err := unit.ParseNumber(size); err != nil || v < 1 || v > 10 || !needleLine(line) {
			return
		}
		switch {
		case n < first:
			listed = append(listed, size)
		case len(listed) > 0 && !slices.Contains(listed, size) && !said[size]:
			said[size] = true
			e.note(e.at(n, m[0], m[1]), source.Ambiguous, source.Say("edit.needle-unlisted", "needles of {0} mm are used, but the materials list {1} mm", size, strings.Join(listed, " and ")),
				advice("edit.mend-needle-unlisted", "list them with the materials"))
		}
	})
}

func needleLine(line string) bool {
	low := strings.ToLower(line)
	return strings.Contains(low, "needle") || strings.Contains(low, "dpn") || strings.Contains(low, "circular") || strings.Contains(low, "pins")
}

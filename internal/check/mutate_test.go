package check_test

import (
	"fmt"
	"math/big"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// A kind is a family of slips.
type kind int

const (
	oneOff kind = iota
	twoOff
	fourOff
	tenTimes
	digitsSwapped
	sizesSwapped
	sizeDropped
	sideSwapped
	turnDropped
	markerDropped
	kinds
)

func (k kind) String() string {
	return [...]string{"1 more or less", "2 more or less", "4 more or less", "a digit too many", "digits swapped",
		"two sizes swapped", "a size dropped", "RS and WS swapped", "a turn dropped", "a marker dropped"}[k]
}

// ofWords tells whether the slip changes words, not figures.
func (k kind) ofWords() bool { return k >= sideSwapped }

// A mutant is a pattern with one slip in it.
type mutant struct {
	kind   kind
	line   int
	slip   string // what was changed
	text   string
	figure figRef                  // that was changed
	values func(size int) *big.Rat // of that figure now
}

// mutants are all mutants of a pattern.
func (s *subject) mutants() []mutant {
	var all []mutant
	for _, f := range s.figures {
		all = append(all, s.figureMutants(f)...)
	}
	return append(all, s.wordMutants()...)
}

// digits are the digits of a value that a slip changes: those of its whole number.
var digits = regexp.MustCompile(`^\d+`)

func (s *subject) figureMutants(f figure) []mutant {
	var all []mutant
	printed := func(v value) string { return s.text[v.start:v.end] }
	add := func(k kind, slip string, start, end int, words string, values func(int) *big.Rat) {
		all = append(all, mutant{k, f.line, slip, s.text[:start] + words + s.text[end:], f.figRef, values})
	}
	for i, v := range f.values {
		if v.num == nil {
			continue
		}
		old := digits.FindString(printed(v))
		n, _ := strconv.Atoi(old)
		seen := []string{old}
		change := func(k kind, word string) {
			if slices.Contains(seen, word) {
				return
			}
			seen = append(seen, word)
			m, _ := strconv.Atoi(word)
			now := new(big.Rat).Add(v.num, new(big.Rat).SetInt64(int64(m-n)))
			what := "the figure"
			if len(f.values) > 1 {
				what = "size " + s.sizes[min(i, len(s.sizes)-1)]
			}
			slip := fmt.Sprintf("figure %d “%s”, %s: %s for %s", f.place, s.text[f.start:f.end], what, word, old)
			add(k, slip, v.start, v.start+len(old), word, func(size int) *big.Rat {
				if size == i || len(f.values) == 1 {
					return now
				}
				return f.of(size)
			})
		}
		for k, by := range []int{oneOff: 1, twoOff: 2, fourOff: 4} {
			change(kind(k), strconv.Itoa(n+by))
			if n > by {
				change(kind(k), strconv.Itoa(n-by))
			}
		}
		change(tenTimes, old+"0")
		if len(old) == 2 && old[1] != '0' {
			change(digitsSwapped, old[1:]+old[:1])
		}
	}
	if len(f.values) < 2 {
		return all
	}
	for i, v := range f.values[:len(f.values)-1] {
		next := f.values[i+1]
		if v.num != nil && next.num != nil && v.num.Cmp(next.num) != 0 {
			slip := fmt.Sprintf("figure %d “%s”: %s and %s swapped", f.place, s.text[f.start:f.end], printed(v), printed(next))
			add(sizesSwapped, slip, v.start, next.end, printed(next)+s.text[v.end:next.start]+printed(v), func(size int) *big.Rat {
				switch size {
				case i:
					return next.num
				case i + 1:
					return v.num
				}
				return f.of(size)
			})
		}
	}
	// The first of a list in brackets stands before them, so the last is dropped only there.
	for i := 1; i < len(f.values); i++ {
		v, start, end := f.values[i], f.values[i-1].end, f.values[i].end
		if i == 1 && len(f.values) > 2 && strings.ContainsAny(s.text[start:v.start], "([") {
			start, end = v.start, f.values[2].start
		} else if strings.ContainsAny(s.text[start:v.start], "([") {
			end++ // the bracket of the only other size
		}
		slip := fmt.Sprintf("figure %d “%s”: %s dropped", f.place, s.text[f.start:f.end], printed(v))
		add(sizeDropped, slip, start, end, "", f.of)
	}
	return all
}

var (
	sides   = regexp.MustCompile(`\((RS|WS)\)`)
	turns   = regexp.MustCompile(`,? (?:and )?turn\b`)
	markers = regexp.MustCompile(`(?:, |; )(?:pm|place (?:a )?marker|sm|slip (?:the )?marker)\b`)
)

func (s *subject) wordMutants() []mutant {
	var all []mutant
	offset, row := 0, 0
	for line := range strings.Lines(s.text) {
		row++
		add := func(k kind, at []int, words string) {
			slip := fmt.Sprintf("“%s” for “%s”", words, strings.TrimSpace(line[at[0]:at[1]]))
			if words == "" {
				slip = fmt.Sprintf("“%s” at %d dropped", strings.TrimSpace(line[at[0]:at[1]]), at[0])
			}
			text := s.text[:offset+at[0]] + words + s.text[offset+at[1]:]
			all = append(all, mutant{kind: k, line: row, slip: slip, text: text})
		}
		for _, at := range sides.FindAllStringIndex(line, -1) {
			add(sideSwapped, at, map[string]string{"(RS)": "(WS)", "(WS)": "(RS)"}[line[at[0]:at[1]]])
		}
		for _, at := range turns.FindAllStringIndex(line, -1) {
			add(turnDropped, at, "")
		}
		for _, at := range markers.FindAllStringIndex(line, -1) {
			add(markerDropped, at, "")
		}
		offset += len(line)
	}
	return all
}

var numbered = regexp.MustCompile(`(?i)^(?:row (\d+)|(\d+)(?:st|nd|rd|th) row)`)

// rowOf is the number of the row on a line, 0 if none.
func rowOf(line string) int {
	m := numbered.FindStringSubmatch(line)
	if m == nil {
		return 0
	}
	n, _ := strconv.Atoi(m[1] + m[2])
	return n
}

// byRule decides by simple rules whether a mutant of a foreign case contradicts something:
//
//   - A list with fewer figures than there are sizes contradicts every full list.
//   - Rows of flat work alternate sides: a row that names the side of the row on the line
//     before or after it contradicts that row.
//   - A row of counted stitches that ends with a turn before the end of the row, as the row
//     on the line before or after it does, leaves stitches if it does not turn.
//   - A marker that is slipped must have been placed.
func (m mutant) byRule(s *subject) contradiction {
	lines := strings.Split(m.text, "\n")
	line := lines[m.line-1]
	neighbours := func(is func(other string) bool) contradiction {
		var c contradiction
		for _, other := range []int{m.line - 1, m.line + 1} {
			if other < 1 || other > len(lines) || rowOf(lines[other-1]) == 0 || rowOf(lines[other-1])-rowOf(line) != other-m.line {
				continue
			}
			if is(lines[other-1]) {
				c.lines = append(c.lines, m.line, other)
			}
		}
		return c
	}
	switch m.kind {
	case sizeDropped:
		for _, f := range s.figures {
			if len(f.values) == len(s.sizes) && f.figRef != m.figure {
				return contradiction{lines: []int{m.line}}
			}
		}
	case sideSwapped:
		side := sides.FindString(line)
		return neighbours(func(other string) bool { return sides.FindString(other) == side })
	case turnDropped:
		if strings.Contains(line, "to end") || rowOf(line) == 0 {
			return contradiction{}
		}
		return neighbours(func(other string) bool { return strings.HasSuffix(strings.TrimSpace(other), "turn.") })
	case markerDropped:
		placed := strings.Count(m.text, "pm") + strings.Count(m.text, "place")
		if placed == 0 && markers.MatchString(m.text) {
			return contradiction{lines: []int{m.line}}
		}
	}
	return contradiction{}
}

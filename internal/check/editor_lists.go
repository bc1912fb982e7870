package check

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"sockwright/internal/script"
	"sockwright/internal/source"
)

// lists notes lists by size in which one figure falls among rising ones. Small figures may:
// rows and repeats even out what the stitches round up.
func (e *editor) lists() {
	for i, line := range e.lines {
		if r := e.role(i + 1); r == script.Terms || r == script.Signs || r == script.Title {
			continue
		}
		for _, list := range listsIn(line) {
			if len(list) != len(e.words.Sizes) || len(list) < 3 || slices.ContainsFunc(list, func(f figure) bool { return f.value < 16 || f.value != float64(int(f.value)) }) {
				continue
			}
			if at, ok := oddOneOut(list); ok {
				e.oddFigure(i+1, list, at)
			}
		}
	}
}

// shortLists finds lists that have a figure too few or too many for the sizes, where nobody
// has read them as figures of the work: lengths, and what is told in passing.
func (e *editor) shortLists() {
	sizes := len(e.words.Sizes)
	if sizes < 3 {
		return // one figure of two could stand for both
	}
	for i, line := range e.lines {
		r := e.role(i + 1)
		if r == script.Terms || r == script.Signs || r == script.Title || onlySome.MatchString(line) {
			continue
		}
		for _, list := range listsIn(line) {
			bracketed := strings.ContainsAny(line[list[0].to:list[1].from], "([{")
			if !bracketed || len(list) != sizes-1 && len(list) != sizes+1 {
				continue
			}
			at := e.at(i+1, list[0].from, list[len(list)-1].to)
			told := func(f source.Fault) bool {
				return f.Kind == source.SizeColumn && f.At.Start <= at.End && at.Start <= f.At.End
			}
			whole := func(l source.Span) bool { return l.Start <= at.End && at.Start <= l.End }
			if !slices.ContainsFunc(e.words.Faults, told) && !slices.ContainsFunc(e.words.Lists, whole) {
				e.say(at, 0, source.SizeColumn, source.Error, source.Say("read.list-length", "the list has {0} figures, but there are {1} sizes", len(list), sizes),
					advice("edit.mend-list", "write one figure for each size"))
			}
		}
	}
}

// onlySome: lines about some of the sizes, or about sizes by their numbers.
var onlySome = regexp.MustCompile(`(?i)\bonly\b|\bsizes? \d`)

func (e *editor) oddFigure(line int, list []figure, at int) {
	f := list[at]
	place := e.at(line, f.from, f.to)
	mend := advice("edit.mend-odd-one", "look at it again")
	if swapped, ok := swapped(f.value); ok && fits(list, at, swapped) {
		text := strconv.Itoa(int(swapped))
		mend = rewrite(place, text, "edit.mend-swapped", "if two digits changed places, write {0}", text)
	}
	var printed []string
	for _, f := range list {
		printed = append(printed, strconv.Itoa(int(f.value)))
	}
	e.say(place, source.OneSize(at), source.SizeColumn, source.Note, source.Say("edit.odd-one", "{0} is out of line in {1}", f.value, strings.Join(printed, ", ")), mend)
}

// oddOneOut finds the one figure without which a list rises, and with which it does not by
// more than a tenth; or a last one that leaps, but not with its digits the other way round.
func oddOneOut(list []figure) (at int, found bool) {
	rises := func(skip int) bool {
		last := 0.0
		for i, f := range list {
			if i == skip {
				continue
			}
			if f.value < last {
				return false
			}
			last = f.value
		}
		return true
	}
	if rises(-1) {
		last := len(list) - 1
		leap := list[last].value - list[last-1].value
		most := 0.0
		for i := 1; i < last; i++ {
			most = max(most, list[i].value-list[i-1].value)
		}
		other, ok := swapped(list[last].value)
		return last, most > 0 && leap > 2*most && ok && fits(list, last, other) && other-list[last-1].value <= 2*most
	}
	for i := range list {
		if !rises(i) {
			continue
		}
		low, high := 0.0, list[i].value
		if i > 0 {
			low = list[i-1].value
		}
		if i+1 < len(list) {
			high = list[i+1].value
		}
		if v := list[i].value; v < 0.9*low || v > 1.1*high {
			return i, len(list) > 3 || i == 1 || v < 0.8*low
		}
	}
	return 0, false
}

// swapped is a number of two digits the other way round.
func swapped(v float64) (float64, bool) {
	n := int(v)
	return float64(n%10*10 + n/10), n > 10 && n < 100
}

// fits tells whether a figure would let the list rise, and not by a leap.
func fits(list []figure, at int, v float64) bool {
	return (at == 0 || list[at-1].value <= v && v <= 1.35*list[at-1].value) && (at+1 == len(list) || v <= list[at+1].value)
}

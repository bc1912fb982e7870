package pattern

import (
	"slices"
	"strconv"
	"strings"

	"sockwright/internal/source"
)

// Gap is the value of a number for a size that does nothing there; it is printed as a dash.
const Gap int32 = -1 << 31

// A Number is a whole number for every size: one value where all sizes agree, else one for
// each size in order. The zero Number is absent.
type Number struct {
	Val  []int32
	At   source.Span   // the whole list; unknown if built
	Cols []source.Span // the span of each value, so that a slipped digit is one column's; nil if built
}

// Of returns the number with one value for each size; equal values are folded to one.
func Of(values ...int) Number {
	n := Number{Val: make([]int32, 0, len(values))}
	for _, v := range values {
		n.Val = append(n.Val, int32(v))
	}
	return n.fold()
}

func (n Number) fold() Number {
	if len(n.Val) > 1 && !slices.ContainsFunc(n.Val, func(v int32) bool { return v != n.Val[0] }) {
		n.Val = n.Val[:1]
	}
	return n
}

// Known tells whether there is a number at all.
func (n Number) Known() bool { return len(n.Val) > 0 }

// In is the value for a size, counted from 0. The value of an absent number is 0; a list
// that is too short gives [Gap] for the sizes it lacks.
func (n Number) In(size int) int32 {
	switch {
	case len(n.Val) == 1:
		return n.Val[0]
	case size < len(n.Val):
		return n.Val[size]
	case len(n.Val) == 0:
		return 0
	}
	return Gap
}

// Fits tells whether the number has one value for all of so many sizes, or one for each.
func (n Number) Fits(sizes int) bool { return len(n.Val) <= 1 || len(n.Val) == sizes }

// Is tells whether the number is v in all sizes.
func (n Number) Is(v int32) bool { return len(n.Val) == 1 && n.Val[0] == v }

// Span is where the value for a size stands.
func (n Number) Span(size int) source.Span {
	if len(n.Cols) == 1 {
		return n.Cols[0]
	}
	if size < len(n.Cols) {
		return n.Cols[size]
	}
	return n.At
}

// Strings returns the values as they are printed, gaps as a dash.
func (n Number) Strings() []string {
	s := make([]string, len(n.Val))
	for i, v := range n.Val {
		if s[i] = strconv.Itoa(int(v)); v == Gap {
			s[i] = "–"
		}
	}
	return s
}

// List is one text for each size as patterns print it: "56 (60, 64)", or one alone.
func List(each []string) string {
	if len(each) < 2 {
		return strings.Join(each, "")
	}
	return each[0] + " (" + strings.Join(each[1:], ", ") + ")"
}

func (n Number) only(size int) Number {
	if !n.Known() {
		return n
	}
	return Number{Val: []int32{n.In(size)}}
}

// Text is running words in which some stand for one value a size, such as "7 1/4 (7 3/4)".
type Text []Piece

// A Piece is fixed words, or, where Each is not nil, one text for each size (or one for
// all), or the word for a side of the work, where Side is set.
type Piece struct {
	Words string
	Each  []string
	Side  source.Side
}

// plain tells whether a piece is fixed words.
func (p Piece) plain() bool { return p.Each == nil && p.Side == "" }

// Words returns a text without values for sizes.
func Words(s string) Text { return Text{{Words: s}} }

// Fill returns the text of a message in English, its arguments kept as values by size
// where they are numbers or lists of texts.
func Fill(m source.Message) Text {
	var t Text
	add := func(s string) {
		if n := len(t); n > 0 && t[n-1].plain() {
			t[n-1].Words += s
		} else {
			t = append(t, Piece{Words: s})
		}
	}
	m.Walk(add, func(arg any) {
		switch a := arg.(type) {
		case Number:
			t = append(t, Piece{Each: a.Strings()})
		case []string:
			t = append(t, Piece{Each: FoldStrings(a)})
		case source.Side:
			t = append(t, Piece{Side: a})
		case string:
			add(a)
		case int:
			add(strconv.Itoa(a))
		default:
			panic("pattern: a message holds an argument that cannot be printed by size")
		}
	})
	return t
}

// FoldStrings returns one text where all are equal.
func FoldStrings(s []string) []string {
	if len(s) > 1 && !slices.ContainsFunc(s, func(v string) bool { return v != s[0] }) {
		return s[:1]
	}
	return s
}

func (t Text) only(size int) Text {
	if t == nil {
		return nil
	}
	out := make(Text, 0, len(t))
	for _, p := range t {
		if p.Each != nil {
			p = Piece{Words: p.Each[min(size, len(p.Each)-1)]}
		}
		if n := len(out); n > 0 && p.plain() && out[n-1].plain() {
			out[n-1].Words += p.Words
		} else {
			out = append(out, p)
		}
	}
	return out
}

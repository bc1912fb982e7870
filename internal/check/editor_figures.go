package check

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"sockwright/internal/source"
	"sockwright/internal/unit"
)

// A figure is a number as it is printed. from and to are its bytes in the line.
type figure struct {
	value    float64
	from, to int
	none     bool // a dash for a size that does nothing
}

// A measure is one figure, or one for each size, and their unit.
type measure struct {
	unit    string // "in", "cm", "mm", "oz", "g", "yd", "m"
	figures []figure
	end     int // byte behind the unit
}

// units of measure by their spellings, without dots.
var unitNames = map[string]string{
	"in": "in", "ins": "in", "inch": "in", "inches": "in", "\"": "in", "″": "in", "”": "in",
	"cm": "cm", "cms": "cm", "centimetre": "cm", "centimetres": "cm", "centimeter": "cm", "centimeters": "cm",
	"mm": "mm", "millimetres": "mm", "millimeters": "mm",
	"oz": "oz", "ozs": "oz", "ounce": "oz", "ounces": "oz",
	"g": "g", "gm": "g", "gms": "g", "gr": "g", "gram": "g", "grams": "g", "gramme": "g", "grammes": "g",
	"yd": "yd", "yds": "yd", "yard": "yd", "yards": "yd",
	"m": "m", "metre": "m", "metres": "m", "meter": "m", "meters": "m",
}

// A system is what a unit measures and how much of it.
type system struct {
	what   string  // "length", "weight", "yarn"
	amount float64 // in mm, g, m
	metric bool
}

// The international yard is 0.9144 m and the pound 0.45359237 kg, both exactly (agreement of
// the national laboratories of 1 July 1959; NIST SP 811, appendix B): an inch is 25.4 mm and
// an ounce 28.349523125 g.
var systems = map[string]system{
	"in": {"length", 25.4, false}, "cm": {"length", 10, true}, "mm": {"length", 1, true},
	"oz": {"weight", 28.349523125, false}, "g": {"weight", 1, true},
	"yd": {"yarn", 0.9144, false}, "m": {"yarn", 1, true},
}

// A reading goes through the words of one line.
type reading struct {
	line string
	i    int
}

func (r *reading) skip() {
	for r.i < len(r.line) && (r.line[r.i] == ' ' || r.line[r.i] == '\t') {
		r.i++
	}
}

// eat takes one of these characters and says which, 0 if none is next.
func (r *reading) eat(chars string) byte {
	back := r.i
	r.skip()
	if r.i < len(r.line) && strings.IndexByte(chars, r.line[r.i]) >= 0 {
		r.i++
		return r.line[r.i-1]
	}
	r.i = back
	return 0
}

// longestFigure is how many digits a figure of a pattern may have.
const longestFigure = 20

// figure reads "7", "7.5", "7 1/2", "7½", "7-1/2" or "1/2"; in a list also a dash or "x".
func (r *reading) figure(inList bool) (figure, bool) {
	back := r.i
	r.skip()
	start := r.i
	if inList && start < len(r.line) {
		for _, dash := range []string{"-", "–", "—", "x"} {
			if strings.HasPrefix(r.line[start:], dash) {
				r.i += len(dash)
				return figure{none: true, from: start, to: r.i}, true
			}
		}
	}
	end := start
	for end < len(r.line) && end-start <= longestFigure && (isDigit(r.line[end]) || r.line[end] == '.' && end > start && end+1 < len(r.line) && isDigit(r.line[end+1])) {
		end++
	}
	value := 0.0
	if end > start {
		v, err := unit.ParseNumber(r.line[start:end])
		if err != nil || end-start > longestFigure {
			r.i = back
			return figure{}, false
		}
		value = v
	}
	if v, n := part(r.line[start:], true); n > 0 {
		value, end = v, start+n
	} else if v, n := part(r.line[end:], end == start); n > 0 {
		value, end = value+v, end+n
	}
	if end == start {
		r.i = back
		return figure{}, false
	}
	r.i = end
	return figure{value: value, from: start, to: end}, true
}

// part reads a common fraction: "1/2", "½", and behind a whole number " 1/2", "-1/2".
func part(s string, alone bool) (value float64, n int) {
	gap := 0
	if !alone && s != "" && (s[0] == ' ' || s[0] == '-') {
		gap = 1
	}
	rest := s[gap:]
	if c, size := utf8.DecodeRuneInString(rest); c != utf8.RuneError && unicode.Is(unicode.No, c) {
		if v, err := unit.ParseNumber(string(c)); err == nil {
			return v, gap + size
		}
	}
	if !alone && gap == 0 || len(rest) < 3 || !isDigit(rest[0]) || rest[1] != '/' || !isDigit(rest[2]) {
		return 0, 0
	}
	num, den := rest[0]-'0', rest[2]-'0'
	if num == 0 || num >= den || strings.IndexByte("2348", rest[2]) < 0 || len(rest) > 3 && (isDigit(rest[3]) || rest[3] == '/') {
		return 0, 0
	}
	return float64(num) / float64(den), gap + 3
}

// unit takes the name of a unit with its dot.
func (r *reading) unit() string {
	back := r.i
	r.skip()
	start := r.i
	for r.i < len(r.line) {
		c, size := utf8.DecodeRuneInString(r.line[r.i:])
		if !unicode.IsLetter(c) && (r.i > start || !strings.ContainsRune("\"″”", c)) {
			break
		}
		r.i += size
		if !unicode.IsLetter(c) {
			break
		}
	}
	name := unitNames[r.line[start:r.i]]
	if name == "" {
		r.i = back
		return ""
	}
	if r.i+1 < len(r.line) && r.line[r.i] == '.' && r.line[r.i+1] != ' ' || r.i+2 < len(r.line) && r.line[r.i] == '.' && !unicode.IsUpper(rune(r.line[r.i+2])) {
		r.i++
	}
	return name
}

// measure reads "7 (8, 9) in", "15/16.5/18 cm", "6 in [7 in, 8 in]" for so many sizes.
func (r *reading) measure(sizes int) (measure, bool) {
	back := r.i
	f, ok := r.figure(false)
	if !ok {
		return measure{}, false
	}
	m := measure{figures: []figure{f}}
	m.unit = r.unit()
	for r.more(&m, sizes) {
		continue
	}
	if m.unit == "" {
		m.unit = r.unit()
	}
	if m.end = r.i; m.unit == "" {
		r.i = back
		return measure{}, false
	}
	return m, true
}

// more reads a bracketed list, or one with slashes, dashes or commas, behind a first figure.
func (r *reading) more(m *measure, sizes int) bool {
	back, have := r.i, len(m.figures)
	fail := func() bool {
		r.i, m.figures = back, m.figures[:have]
		return false
	}
	if open := r.eat("([{"); open != 0 {
		for {
			f, ok := r.figure(true)
			if !ok || len(m.figures) >= source.MaxSizes {
				return fail()
			}
			m.figures = append(m.figures, f)
			inner := r.unit()
			if inner != "" && inner != m.unit {
				return fail()
			}
			switch {
			case r.eat(")]}") != 0:
				if m.unit != "" && inner == "" { // "6 in (7)"
					return fail()
				}
				return true
			case r.eat(",:;/-") == 0:
				return fail()
			}
		}
	}
	if have > 1 || m.unit != "" {
		return false
	}
	sep := r.eat("/,-")
	if sep == 0 {
		return false
	}
	for {
		f, ok := r.figure(true)
		if !ok || f.none && sep == '-' || len(m.figures) >= source.MaxSizes {
			return fail()
		}
		m.figures = append(m.figures, f)
		if r.eat(string(sep)) == 0 {
			break
		}
	}
	if n := len(m.figures); n != sizes && (sep == ',' || n != 2) {
		return fail()
	}
	return true
}

// measures finds all measures of a line.
func measures(line string, sizes int) []measure {
	var out []measure
	r := reading{line: line}
	for r.i < len(line) {
		if c := line[r.i]; !isDigit(c) && c < utf8.RuneSelf || r.i > 0 && isLetter(line[r.i-1]) {
			r.i++
			continue
		}
		if m, ok := r.measure(sizes); ok {
			out = append(out, m)
			continue
		}
		if _, ok := r.figure(false); !ok {
			r.i++
		}
	}
	return out
}

func isLetter(c byte) bool { return 'a' <= c|0x20 && c|0x20 <= 'z' }

// in is the figure for a size, none if the list leaves it out.
func (m measure) in(size int) figure {
	switch {
	case len(m.figures) == 1:
		return m.figures[0]
	case size < len(m.figures):
		return m.figures[size]
	}
	return figure{none: true}
}

// base is the amount of a figure of the measure in mm, g or m.
func (m measure) base(f figure) float64 { return f.value * systems[m.unit].amount }

// listsIn finds the lists of whole numbers in brackets of a line: "56 (60, 64)".
func listsIn(line string) [][]figure {
	var out [][]figure
	r := reading{line: line}
	for r.i < len(line) {
		if !isDigit(line[r.i]) || r.i > 0 && (isLetter(line[r.i-1]) && !strings.ContainsRune("kKpP", rune(line[r.i-1])) || line[r.i-1] == '.' && r.i > 1 && isDigit(line[r.i-2])) {
			r.i++
			continue
		}
		f, ok := r.figure(false)
		if !ok {
			r.i++
			continue
		}
		m := measure{figures: []figure{f}}
		if r.more(&m, 0) && !slices.ContainsFunc(m.figures, func(f figure) bool { return f.none }) {
			out = append(out, m.figures)
		}
	}
	return out
}

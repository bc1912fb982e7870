package check

import (
	"regexp"
	"strings"

	"sockwright/internal/script"
	"sockwright/internal/source"
)

// An editor reads a pattern as a technical editor does at the desk: it compares what the
// text says in one place with what it says in another, and works no row.
//
// Each look has a file of its own. A look that is not sure stays silent: what it calls a
// warning or an error must not stand in a pattern that is right; what is only worth a second
// glance is a note.
type editor struct {
	words  *script.Script
	file   *source.File
	lines  []string // of the text, from 0
	faults []source.Fault
}

func newEditor(words *script.Script) *editor {
	e := &editor{words: words, file: words.File}
	for n := range words.Lines {
		e.lines = append(e.lines, words.File.Line(n+1))
	}
	return e
}

// edit is what a technical editor sees in a pattern without working a row.
func edit(words *script.Script) []source.Fault {
	e := newEditor(words)
	for _, look := range []func(){
		e.units, e.needleSizes, e.girths, // figures that say the same twice
		e.terms, e.chartWidths, e.chartSigns, e.chartNames, e.chartsInWords,
		e.castOns, e.yarn, e.needlesUsed, e.lists, e.shortLists,
		e.feet, e.leans, e.edges, e.returns, e.multiples, e.order, e.wordings,
	} {
		look()
	}
	return e.faults
}

// role is what kind of line a line is, counted from 1.
func (e *editor) role(n int) script.Role {
	if n < 1 || n > len(e.words.Lines) {
		return script.Blank
	}
	return e.words.Lines[n-1].Role
}

// at is the span of bytes from to to of a line, counted from 1.
func (e *editor) at(line, from, to int) source.Span {
	start := e.file.LineSpan(line).Start
	return source.Span{Start: start + uint32(from), End: start + uint32(to)}
}

// all is every size.
func (e *editor) all() source.SizeSet { return source.AllSizes(len(e.words.Sizes)) }

// say adds a fault with its mends.
func (e *editor) say(at source.Span, sizes source.SizeSet, kind source.Kind, severity source.Severity, text source.Message, mends ...source.Mend) *source.Fault {
	e.faults = append(e.faults, source.Fault{At: at, Sizes: sizes, Kind: kind, Severity: severity, Text: text, Mends: mends})
	return &e.faults[len(e.faults)-1]
}

// note adds a remark about wording, with a safer one.
func (e *editor) note(at source.Span, kind source.Kind, text source.Message, mends ...source.Mend) {
	e.say(at, 0, kind, source.Note, text, mends...)
}

// advice is a mend that only a person can make.
func advice(key, text string, args ...any) source.Mend {
	return source.Mend{Why: source.Say(key, text, args...)}
}

// rewrite is a mend that puts other words in the place of some.
func rewrite(at source.Span, words, key, text string, args ...any) source.Mend {
	return source.Mend{Edits: []source.Edit{{At: at, Text: words}}, Why: source.Say(key, text, args...)}
}

// setFigures puts in the two figures of a fault: what is stated and what it should be.
func setFigures(f *source.Fault, stated, actual float64, unit string) {
	f.Stated, f.Actual = &source.Quantity{Value: stated, Unit: unit}, &source.Quantity{Value: actual, Unit: unit}
}

// eachMatch calls do for every match of a pattern in the text, line by line. m is as
// [regexp.Regexp.FindStringSubmatchIndex] gives it, in bytes of the line.
func (e *editor) eachMatch(pattern *regexp.Regexp, do func(n int, line string, m []int)) {
	for i, line := range e.lines {
		for _, m := range pattern.FindAllStringSubmatchIndex(line, -1) {
			do(i+1, line, m)
		}
	}
}

// group is the text of a group of a match, empty if it is not there.
func group(line string, m []int, g int) string {
	if m[2*g] < 0 {
		return ""
	}
	return line[m[2*g]:m[2*g+1]]
}

// undotted takes the dots of abbreviations out: "k.2 tog." becomes "k2 tog". The dot of a
// decimal fraction stays.
func undotted(s string) string {
	var b strings.Builder
	for i := range len(s) {
		digit := i > 0 && i+1 < len(s) && isDigit(s[i-1]) && isDigit(s[i+1])
		if s[i] != '.' || digit {
			b.WriteByte(s[i])
		}
	}
	return b.String()
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

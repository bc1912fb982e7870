package source

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Severity says what a fault means to somebody who knits the words as they stand.
type Severity uint8

const (
	Note    Severity = iota // style: nothing goes wrong
	Warning                 // can be knitted, but probably should not be
	Error                   // cannot be knitted as written
)

// String is the severity as documents spell it.
func (s Severity) String() string { return [...]string{"note", "warning", "error"}[s] }

// Kind is the family of a fault.
type Kind string

// The kinds of faults in written patterns.
const (
	StitchCount   Kind = "stitch-count"
	Parity        Kind = "parity"
	NotDividing   Kind = "repeat-does-not-divide"
	SizeColumn    Kind = "size-column"
	Ambiguous     Kind = "ambiguous"
	UndefinedTerm Kind = "undefined-term"
	Marker        Kind = "marker"
	Direction     Kind = "direction"
	BadLength     Kind = "length"
	PickUp        Kind = "pickup"
	ChartText     Kind = "chart-text-mismatch"
	Units         Kind = "units"
	Unread        Kind = "unread"
)

// The kinds of faults in design files.
const (
	Syntax     Kind = "syntax"     // not a design file at all, or not at this place
	UnknownKey Kind = "key"        // a key that no part of the program owns
	BadValue   Kind = "value"      // a value of the wrong type, form or range
	Pinned     Kind = "pin"        // pins that cannot stand together, or what a pin costs
	Impossible Kind = "impossible" // no numbers satisfy the rules of the sock
	Estimate   Kind = "estimate"   // a figure that rests on an estimate
)

// A Quantity is a stated or actual figure of a fault.
type Quantity struct {
	Value float64
	Unit  string // "sts", "rows", "in" …
}

// Sts is a quantity of stitches.
func Sts(n int) *Quantity { return &Quantity{float64(n), "sts"} }

// Rows is a quantity of rows.
func Rows(n int) *Quantity { return &Quantity{float64(n), "rows"} }

// An Edit replaces the words of a span.
type Edit struct {
	At   Span
	Text string
}

// A Mend is a change of the text that would remove a fault. Edits may be empty where only
// a person can say what was meant; Why always says what to do.
type Mend struct {
	Edits []Edit
	Why   Message
}

// A Fault is something wrong at a place of a text.
type Fault struct {
	At             Span
	Sizes          SizeSet // the sizes concerned; empty if it is not about sizes
	Kind           Kind
	Severity       Severity
	Stated, Actual *Quantity // nil where the fault is not about a figure
	Text           Message
	Mends          []Mend
}

// Merge sorts faults by place and joins those that say the same of several sizes, so that
// one slip gives one message. Faults with different figures stay apart.
func Merge(faults []Fault) []Fault {
	slices.SortStableFunc(faults, func(a, b Fault) int {
		return cmp.Or(cmp.Compare(a.At.Start, b.At.Start), cmp.Compare(a.At.End, b.At.End))
	})
	var out []Fault
next:
	for _, f := range faults {
		for i := len(out) - 1; i >= 0 && out[i].At == f.At; i-- {
			if o := &out[i]; o.Kind == f.Kind && o.Severity == f.Severity && o.Text.String() == f.Text.String() {
				o.Sizes |= f.Sizes
				continue next
			}
		}
		out = append(out, f)
	}
	return out
}

// Worst is the gravest severity among faults, and whether there are any.
func Worst(faults []Fault) (Severity, bool) {
	worst := Note
	for _, f := range faults {
		worst = max(worst, f.Severity)
	}
	return worst, len(faults) > 0
}

// A Finding is a fault as it is reported: resolved to line, column and size names. Its
// JSON form is part of the documents that other programs read.
type Finding struct {
	Line      int           `json:"line"`
	Column    int           `json:"column"`
	EndColumn int           `json:"end_column"`
	Size      string        `json:"size"`
	Sizes     []string      `json:"sizes"`
	Kind      Kind          `json:"kind"`
	Severity  string        `json:"severity"`
	Stated    *float64      `json:"stated"`
	Actual    *float64      `json:"actual"`
	Unit      string        `json:"unit,omitempty"`
	Message   string        `json:"message"`
	Mend      string        `json:"mend,omitempty"`
	Mends     []FindingMend `json:"mends,omitempty"`

	whole bool // it is about all sizes, or the only one, which has no name
}

// A FindingMend is a mend with its edits resolved to lines and columns.
type FindingMend struct {
	Why   string        `json:"why"`
	Edits []FindingEdit `json:"edits"`
}

// A FindingEdit replaces columns of one line.
type FindingEdit struct {
	Line      int    `json:"line"`
	Column    int    `json:"column"`
	EndColumn int    `json:"end_column"`
	Text      string `json:"text"`
}

// Find resolves a fault in a file whose pattern has the named sizes. A fault without a
// place has line 0.
func Find(f *File, sizes []string, fault Fault) Finding {
	out := Finding{
		Sizes:    fault.Sizes.Names(sizes),
		Kind:     fault.Kind,
		Severity: fault.Severity.String(),
		Message:  fault.Text.String(),
	}
	if out.Sizes == nil {
		out.Sizes = []string{}
	}
	if len(out.Sizes) == 1 {
		out.Size = out.Sizes[0]
	}
	out.whole = len(out.Sizes) == len(sizes) && (len(sizes) > 1 || len(sizes) == 1 && sizes[0] == "1")
	if fault.At.Known() || fault.At.Start > 0 {
		out.Line, out.Column, out.EndColumn = columns(f, fault.At)
	}
	for _, q := range []struct {
		from *Quantity
		to   **float64
	}{{fault.Stated, &out.Stated}, {fault.Actual, &out.Actual}} {
		if q.from != nil {
			v := q.from.Value
			*q.to, out.Unit = &v, q.from.Unit
		}
	}
	for _, m := range fault.Mends {
		fm := FindingMend{Why: m.Why.String(), Edits: []FindingEdit{}}
		for _, e := range m.Edits {
			line, from, to := columns(f, e.At)
			fm.Edits = append(fm.Edits, FindingEdit{line, from, to, e.Text})
		}
		out.Mends = append(out.Mends, fm)
	}
	if len(out.Mends) > 0 {
		out.Mend = out.Mends[0].Why
	}
	return out
}

func columns(f *File, s Span) (line, from, to int) {
	line, from = f.Position(s.Start)
	endLine, to := f.Position(s.End)
	if endLine != line {
		_, to = f.Position(f.LineSpan(line).End)
	}
	return line, from, max(to, from)
}

// String prints the finding for people: "line:column: size M: message", and the mend
// on a line of its own. The name of the file goes in front.
func (f Finding) String() string {
	var b strings.Builder
	if f.Line > 0 {
		fmt.Fprintf(&b, "%d:%d: ", f.Line, f.Column)
	}
	if f.Severity != "error" {
		b.WriteString(f.Severity + ": ")
	}
	switch n := len(f.Sizes); {
	case n == 0 || f.whole && n == 1:
	case f.whole:
		b.WriteString("all sizes: ")
	case n == 1:
		b.WriteString("size " + f.Sizes[0] + ": ")
	default:
		b.WriteString("sizes " + strings.Join(f.Sizes, ", ") + ": ")
	}
	b.WriteString(f.Message)
	for _, m := range f.Mends {
		b.WriteString("\n    mend: " + m.Why)
	}
	return b.String()
}

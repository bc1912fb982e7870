package script

import (
	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

// A Script is a written pattern as it was read.
type Script struct {
	File    *source.File
	Title   string
	Sizes   []string // names, in the order of the lists; one empty name where there is a single unnamed size
	SizesAt source.Span
	Lines   []Line        // one for each line of the text
	Lists   []source.Span // lists with a figure for each size that are not printed as "56 (60, 64)"
	Terms   []Term        // abbreviations that the text explains
	TermsAt source.Span
	Gauge   *Gauge // nil if none is stated
	Charts  []*Chart
	Faults  []source.Fault
	Worked  int // lines with something to work

	TooLarge bool // to be read at all: there are no lines, and a fault says why
}

// Role is what kind of line a line is.
type Role uint8

const (
	Blank Role = iota
	Title
	Heading
	Prose  // read, nothing to work
	Fact   // sizes, gauge, yarn, needles
	Terms  // abbreviations
	Signs  // a row of a chart or its key
	Worked // holds instructions or statements about them
	Unread // an instruction that could not be read
)

// String is the name of the role in reports.
func (r Role) String() string {
	return [...]string{"blank", "title", "heading", "prose", "fact", "terms", "chart", "worked", "unread"}[r]
}

// A Line is one line of the text. Its items are worked in order.
type Line struct {
	At    source.Span
	Role  Role
	Items []Item
	Step  string // of a text told in numbered or lettered steps, the one that the line is part of
}

// Base is what every item has.
type Base struct {
	At    source.Span
	Line  int            // counted from 1
	Sizes source.SizeSet // the sizes it is for; 0: all
}

func (b *Base) base() *Base { return b }

// An Item is one instruction or statement.
type Item interface{ base() *Base }

// Of is what every item has.
func Of(i Item) *Base { return i.base() }

// A Section begins: "Heel flap", "TOE".
type Section struct {
	Base
	Name string
	Part Part
	// Constant is set where the text says that every round leaves as many stitches as it
	// found, Multiple the stitches of one repeat; absent if nothing is said.
	Constant bool
	Multiple pattern.Number
	Only     bool // rows that follow are a stitch pattern to be used later, not worked here
}

// Part is a region of the sock or of its needles.
type Part uint8

const (
	NoPart Part = iota
	Cuff
	Leg
	Heel // also the heel flap and its turn
	Gusset
	Instep
	Sole
	Foot
	Toe
	Middle // centre of a heel that is worked in three sections
	Flank  // one of its sides
)

// A CastOn begins the work with N stitches, on each of On needles if On is not 0.
type CastOn struct {
	Base
	N  pattern.Number
	On int
}

// Side is the side that faces.
type Side uint8

const (
	NoSide Side = iota
	RS
	WS
)

// Other is the other side.
func (s Side) Other() Side {
	switch s {
	case RS:
		return WS
	case WS:
		return RS
	}
	return NoSide
}

// String is the side as patterns print it.
func (s Side) String() string { return [...]string{"", "RS", "WS"}[s] }

// A Label names a row: its numbers, or a name such as "dec" where it has none.
type Label struct {
	At    source.Span
	Round bool
	Nums  []int // in order
	Open  int   // 1: and all odd ones, 2: and all even ones, 3: and all others (of the side)
	Name  string
	Side  Side
	Said  bool           // there is a label at all
	Many  pattern.Number // "Next 4 rnds": so many alike; absent: one
	Part  Part           // that alone is worked: "sole, row 1"
}

// A Row is one row or round, or a set of like ones.
type Row struct {
	Base
	Label  Label
	Steps  []Step
	Claims []Claim
	Flat   bool  // said to be a row
	Cut    bool  // not all of it could be read
	Stop   *Stop // "Rnds 1–14: …" has numbers; "Work 12 rnds" behind the steps has a stop; nil: once
}

// Ref names rows worked before.
type Ref struct {
	Last    int            // the last so many rows
	Nums    []int          // rows by number
	Names   []string       // by name: "dec", or the letters of "rows A and B"
	Each    pattern.Number // the last so many rows, where that is not the same for all sizes; Last is the most
	Round   bool
	Pattern string // rows Nums of this stitch pattern; all of it where Nums is nil
}

// StopKind is what ends a repeat.
type StopKind uint8

const (
	NoStop    StopKind = iota
	Times              // so many times: whether the first is included is unsaid
	InAll              // so many times in all
	More               // so many times more
	Rows               // so many rows in all
	MoreRows           // so many rows more
	Remain             // until so many stitches remain (or are there)
	Measures           // until a length is reached
	UsedUp             // until all stitches beyond the gaps have been worked
	Wrapped            // until so many stitches are wrapped or left at each side
	Unwrapped          // until so many are left between
	Ridges             // until so many garter ridges or edge stitches lie at each edge
	Split              // until the claims hold
	ToEnd              // to the end of the row, needle …
	Reps               // so many times, as a count of repeats within the row
)

// A Stop is where a repeat ends.
type Stop struct {
	Kind   StopKind
	At     source.Span
	N      pattern.Number
	Claims []Claim // what is to hold then
	To     Mark    // of a repeat within a row: where it ends, if not at the end of the row
	Part   Part    // whose end that is
	Needle int
	Side   Side // "ending with a WS row"
	Row    int  // "ending with Rnd 4"
	Length *Length
}

// A Repeat works rows again.
type Repeat struct {
	Base
	Ref    Ref
	Stop   Stop
	Claims []Claim
}

// A Plain works rows that are all alike: "Knit 48 rnds".
type Plain struct {
	Base
	Steps     []Step // what is worked; nil where it is only said to go on as before
	Fabric    string // the name of it, if it has one
	Flat      bool
	Round     bool // said to be rounds
	SlipFirst bool // the first stitch of each row is slipped
	Stop      Stop
	About     *Length // a length that is said to be the same
	Claims    []Claim
	As        string // "as before", "in patt": goes on with this
}

// A Shape changes the count without telling every stitch: "dec 4 sts every other rnd until
// 24 sts rem". Change is what one such row adds (negative: takes).
type Shape struct {
	Base
	Change pattern.Number
	Every  int    // one row in so many; 0: one row only
	Name   string // "dec": shaped as the row of that name
	Stop   Stop
	Claims []Claim
	// First is the number of the row of the rounds told just before on which the shaping
	// begins ("at the same time"), 0 if the rows are worked here.
	First int
	Steps []Step // of the shaping row, if told
}

// A Divide sets stitches apart to be worked to and fro.
type Divide struct {
	Base
	N      pattern.Number // absent: half
	From   From
	Turn   bool // it ends with the work turned
	Side   Side // that faces then, if said
	Part   Part
	Needle int
	Plus   pattern.Number // so many more, from the other side of the beginning of the round
	These  bool           // those that were just worked
	Fabric string         // of the part, if said
}

// From is where stitches that are set apart lie.
type From uint8

const (
	Unsaid From = iota
	First
	Last
	Centre
	OnNeedle
)

// A Resting says how many stitches rest.
type Resting struct {
	Base
	N pattern.Number
}

// An Arrange lays the stitches out.
type Arrange struct {
	Base
	Claims []Claim // of needles or parts
	Even   int     // so many needles with as many stitches each
}

// A Move puts stitches of one needle on another that lies beside it: N of them, or all.
type Move struct {
	Base
	N        pattern.Number
	Of       From // First or Last of needle From
	From, To int
}

// Resume goes on in the round.
type Resume struct {
	Base
	Claims []Claim
}

// A Measured states how long all that has been worked since the cast-on is.
type Measured struct {
	Base
	Length *Length
}

// Facing says which side faces.
type Facing struct {
	Base
	Side Side
}

// A State is a statement about what is on the needles.
type State struct {
	Base
	Claims []Claim
	Turned bool // it says that the heel has been turned
	After  int  // it was so after the rows repeated last had been worked so many times; 0: it is so now
	Is     bool // it opens the work: "33 heel sts", "Foot: 60 sts"
}

// Markers are put on the needle where the round begins, or taken off it, wherever they hang.
type Markers struct {
	Base
	Off   bool
	Names []string // those that are meant; nil: all
}

// A Close ends the work: the stitches are grafted or drawn up.
type Close struct{ Base }

// Lost is an instruction that could not be read: what follows is not certain.
type Lost struct {
	Base
	Sentence source.Span // in which it stands
}

// A Skipped is words in the midst of the work that yielded nothing though they may have been
// an instruction: the sentence is not understood in full, and what follows is less certain.
type Skipped struct {
	Base
	Sentence source.Span // in which they stand
	Marks    bool        // they are about markers only
	Strange  bool        // the line begins with a word that no pattern knows
}

// A Lift brings the stitches of an inserted heel onto the needles, with some picked up in
// the corners.
type Lift struct {
	Base
	Parts   []pattern.Number
	Corner  pattern.Number
	Corners int
	Claims  []Claim
}

// An Unwrap works a short-row heel open again until all wraps are worked.
type Unwrap struct{ Base }

// What a claim is about.
type What uint8

const (
	Live      What = iota // stitches: of the part that is worked or of the whole, whichever it is
	Total                 // all stitches
	OfPart                // of Claim.Part
	OnNdl                 // on Claim.Needle
	EachNdl               // on each needle
	RowCount              // rows or rounds worked
	Change                // stitches gained or lost by the row
	Edges                 // edge stitches or ridges a side
	WrapEach              // wrapped at each side
	WrapNone              // not wrapped, between them
	Ribs                  // ribs: runs of like stitches
	Between               // between the markers of Claim.Name, "a/b"
	HasMiddle             // a stitch lies in the middle: they are odd in number
)

// A Claim is a figure that the words state and that working them must give.
type Claim struct {
	What   What
	At     source.Span
	N      pattern.Number
	Part   Part
	Needle int // of OnNdl; of EachNdl so many needles, 0 if that is not told
	Name   string
	Soft   bool // "about"
}

// A Length is a measure, in millimetres by size, as printed in one or two systems.
type Length struct {
	At    source.Span
	MM    []float64 // one for all or one a size
	Also  []float64 // the same in another unit, if printed
	Unit  string
	Cols  []source.Span
	Short bool // "short of the wanted length": not a length of the piece
}

// In is the length for a size in mm, 0 if not given.
func (l *Length) In(size int) float64 {
	switch {
	case l == nil || len(l.MM) == 0:
		return 0
	case len(l.MM) == 1:
		return l.MM[0]
	case size < len(l.MM):
		return l.MM[size]
	}
	return 0
}

// A Term is an abbreviation that the text explains.
type Term struct {
	Short string
	Means string
	At    source.Span
	Uses  int // stitches it takes, -1 if that cannot be told
	Makes int
}

// A Gauge is what the text states about its fabric.
type Gauge struct {
	At             source.Span
	Stitches, Rows float64 // over Over millimetres; 0 if not stated
	Over           float64
}

// A Chart is a table of signs in the text.
type Chart struct {
	At     source.Span
	Name   string
	Width  int
	Rows   []ChartRow
	Line   int
	Stated pattern.Number // width that the heading states
	Key    []Sign         // what its signs mean; nil if the text does not say
}

// A Sign is one entry of the key of a chart.
type Sign struct {
	Sign, Means string
	At          source.Span // of the sign
	Uses, Makes int
}

// A ChartRow is one row of a chart: stitches taken and made by its signs.
type ChartRow struct {
	Num         int
	Line        int
	Signs       []string
	Uses, Makes int // -1 if a sign is not explained
}

// First is the first row that the label names by number, 0 if it names none.
func (l Label) First() int {
	if len(l.Nums) == 0 {
		return 0
	}
	return l.Nums[0]
}

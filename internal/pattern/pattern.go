package pattern

import "sockwright/internal/source"

// NodeID is the identity of a node in its pattern: nodes are numbered from 1 in the order
// in which they are printed.
type NodeID int32

// Base is what every node has.
type Base struct {
	ID NodeID
	At source.Span // the words the node stands in; unknown if it was built
}

func (b *Base) base() *Base { return b }

// A Pattern is a whole written pattern.
type Pattern struct {
	Title    string
	Sizes    []string // names, smallest first; one empty name where a pattern has a single unnamed size
	Sections []*Section

	// LeftHanded is set where every row is worked from left to right. The same words then
	// make the mirror image: what is left of the work in one is right in the other.
	LeftHanded bool
}

// A Section is a headed part of the pattern: facts such as the gauge, or instructions
// such as the heel flap. A title-less section may come first.
type Section struct {
	Base
	Title string
	Body  []Node
}

// A Node is one line of a pattern (or, for [Only], a group of lines).
type Node interface{ base() *Base }

// Style is what kind of running words a [Prose] is.
type Style uint8

const (
	Para    Style = iota // plain sentences
	Fact                 // "Label: value"
	Term                 // an abbreviation and what it means
	Tip                  // advice with its reason
	Caution              // something that could hurt somebody
	Unread               // an instruction that could not be read: what follows cannot be worked for certain
)

// Prose is a line that is read but not worked.
type Prose struct {
	Base
	Style Style
	Label string // of a Fact or a Term
	Text  Text
}

// CastOn begins the work. Unless it is worked to and fro, the stitches are joined into a
// round that begins where Begin says.
type CastOn struct {
	Base
	Form     Start
	Stitches Number
	Begin    Place
}

// Start is a way in which the work begins.
type Start uint8

const (
	InRound          Start = iota // cast on and joined
	Flat                          // cast on and worked to and fro
	Closed                        // a closed toe: half on each of two needles, live on both sides
	Ring                          // a toe that is drawn shut in the middle
	ProvisionalRound              // to be undone later, joined
	ProvisionalFlat               // to be undone later, worked to and fro
)

// Joined tells whether the stitches are joined into a round.
func (s Start) Joined() bool { return s != Flat && s != ProvisionalFlat }

// Place is where a round begins.
type Place uint8

const (
	NoPlace       Place = iota // not said
	CentreBack                 // of the leg
	SideOfSole                 // the side of the sock, before the stitches of the heel and sole
	SideOfInstep               // the other side, before the stitches of the instep
	CentreOfSole               // under the foot
	numberOfPlace              // how many there are
)

// Places lists the places a round can begin.
func Places() []Place {
	var all []Place
	for p := NoPlace + 1; p < numberOfPlace; p++ {
		all = append(all, p)
	}
	return all
}

// Word says whether work goes to and fro or round and round.
type Word uint8

const (
	FlatRow Word = iota // printed "Row"
	Round               // printed "Rnd"
)

// Side is the side of the fabric that faces the knitter.
type Side uint8

const (
	NoSide Side = iota // rounds: always the right side
	RS
	WS
)

// Name is what a row is called besides its number.
type Name uint8

const (
	Plainly  Name = iota // "Row 1"
	SetUp                // "Set-up row 1"
	Partial              // "Partial row": work stops before the end, where a round begins anew
	Increase             // "Inc rnd"
	Decrease             // "Dec rnd"
	Next                 // "Next row"
)

// A Label names a row: "Set-up row 2 (WS)".
type Label struct {
	Word Word
	Name Name
	Num  int32 // 0: not numbered
	Side Side
}

// A Row is a labelled row or round, worked once.
type Row struct {
	Base
	Label Label
	Parts []Part
	Count *Count // nil if nothing is stated
}

// A Part is the steps worked on one needle; Needle is 0 where a row is not told by needles.
type Part struct {
	Needle uint8
	Steps  []Step
}

// A Count is what a line states about the stitches it leaves.
type Count struct {
	At     source.Span
	Total  Number   // absent if only the change is stated
	Split  []Number // stitches on each needle in order; nil if not stated
	Change Number   // stitches gained (negative: lost); absent if not stated
}

// Op is what a step does.
type Op uint8

const (
	Knit Op = iota + 1
	Purl
	KnitTbl
	PurlTbl
	Slip      // purlwise, the yarn on the wrong side of the fabric
	SlipFront // purlwise, the yarn on the right side of the fabric
	K2tog
	Ssk
	Skp // slip, knit, pass over: the older form of ssk
	P2tog
	Ssp
	K3tog
	Sssk
	P3tog
	S2kp2 // centred
	M1L
	M1R
	LiftedL // from the stitch below the last one worked
	LiftedR // from the stitch below the next one
	Kfb
	Pfb
	CrossRight // a knit stitch over the purl stitch before it, which is worked second
	CrossLeft  // a knit stitch over the purl stitch after it, which is worked first
	ThreeIn1   // knit, yarn over and knit into one stitch
	YarnOver
	LT     // crossings: one stitch over one, to the left
	RT     // … to the right
	C4F    // two over two, to the left
	C4B    // … to the right
	C6F    // three over three, to the left
	C6B    // … to the right
	T3F    // two to the left over one that is purled
	T3B    // two to the right over one that is purled
	PickUp // and knit, along Step.Edge
	PickUpPurl
	KnitHem   // together with the loop of the cast-on edge behind it
	WasteYarn // knit with waste yarn, and again with the working yarn
	PlaceMarker
	SlipMarker
	RemoveMarker
	Turn       // leaves Step.Turned behind
	KnitTurned // together with what a turn has left on it, Step.Turned
	PurlTurned
	InMotif // the next row of the motif Step.Name
	Group   // Step.Body, again and again
)

// Turned is what a turn in the middle of a row leaves of the stitch beyond it. Whatever it
// is, the stitch counts as one.
type Turned uint8

const (
	NotTurned Turned = iota // the stitch waits as it is: there is only a gap before it
	Wrapped                 // the yarn lies round it
	Twin                    // a second loop was drawn from below it
	Over                    // a yarn over lies beside it
	Doubled                 // it was pulled up until both its legs lie on the needle
)

// Edge is where stitches are picked up.
type Edge uint8

const (
	NoEdge    Edge = iota
	LeftEdge       // of the heel, as the right side faces the knitter
	RightEdge      // of the heel
	Corner         // between heel and instep
)

// Until is how far a step goes.
type Until uint8

const (
	Times    Until = iota // Step.N times
	ToEnd                 // of the needle, row or round
	ToMarker              // Step.N stitches before the next marker
	ToLast                // Step.N stitches before the end
	ToGap                 // Step.N stitches before the place where the work was turned; Step.Turned waits there
)

// A Step is one instruction within a row: "k10", "sl 1", "k to last 3", "[k2, p2] 4 times".
type Step struct {
	At     source.Span
	Op     Op
	N      Number
	Until  Until
	Edge   Edge
	Turned Turned
	Body   []Step // of a Group
	Name   string // of a motif
}

// Again repeats what stands above: the last Rows rows, or the row named Which.
type Again struct {
	Base
	Rows  int32  // how many of the last rows; 0: the row Which
	Word  Word   // what they are called
	Which Label  // the row to repeat if Rows is 0
	Times Number // how often more
	Or    Text   // "the cuff measures 1 1/2 in": a measure that says the same as the number; may be nil
	Total Number // rows worked since the last row that is numbered 1, if stated
	Count *Count
}

// A Motif is a stitch pattern. Its rows are not worked where they stand: each step in it
// ([InMotif]) works the next one, row by row, and after the last the first again. All that
// are asked for in one row of the pattern are worked in the same row of the motif.
type Motif struct {
	Base
	Name     string
	Multiple Number // stitches of one repeat before the first row, and
	Plus     Number // of the edges beside all repeats; absent where there are none
	Rows     []*Row // each a round, or a right-side and a wrong-side row in turn
}

// Plain works a number of rounds that are all the same: "Knit 40 (44) rnds".
type Plain struct {
	Base
	Op     Op     // Knit, Purl or InMotif
	Name   string // of the motif
	More   bool   // "40 more rnds"
	Rounds Number
	Or     Text // "the leg measures 6 in": a measure that says the same as the number; may be nil
	Total  Number
	Count  *Count
}

// Only is lines for some of the sizes, or for one sock of a pair.
type Only struct {
	Base
	Sizes source.SizeSet // all of them where Sock is set
	Sock  Sock
	Body  []Node
}

// Sock is which sock of a pair.
type Sock uint8

const (
	BothSocks Sock = iota
	RightSock
	LeftSock
)

// Socks lists the socks of a pair that are worked differently: right and left, or a single
// [BothSocks] where the words are the same for both.
func (p *Pattern) Socks() []Sock {
	differ := false
	p.Each(func(_ *Section, n Node) {
		if o, ok := n.(*Only); ok && o.Sock != BothSocks {
			differ = true
		}
	})
	if differ {
		return []Sock{RightSock, LeftSock}
	}
	return []Sock{BothSocks}
}

// For tells whether the lines are for a size, counted from 0, of a sock.
func (o *Only) For(size int, sock Sock) bool {
	return o.Sizes.Has(size) && (o.Sock == BothSocks || sock == BothSocks || o.Sock == sock)
}

// Divide sets the heel apart from the stitches that rest. The heel is the stitches that
// were worked last if Last is set, else the first of the round.
type Divide struct {
	Base
	Last       bool
	Toe        bool // it is the first half of the toe, not the heel
	Heel, Rest Number
}

// Begin says that the round begins at this point from now on.
type Begin struct {
	Base
	Place Place
}

// Arrange spreads the stitches over the needles anew, from the beginning of the round.
type Arrange struct {
	Base
	Split []Number
}

// DropMarkers takes all stitch markers off.
type DropMarkers struct{ Base }

// Rejoin ends the part worked to and fro: from this point on all stitches are worked in
// rounds, which begin here.
type Rejoin struct {
	Base
	Stitches Number
	Place    Place
}

// Undo takes a provisional cast-on out; its stitches rest for the instep.
type Undo struct {
	Base
	Stitches Number
}

// OpenWaste takes the waste yarn out: the stitches below it and those above it are worked
// in rounds that begin at Place.
type OpenWaste struct {
	Base
	Below, Above Number
	Place        Place
}

// Join closes live stitches against each other: those of the instep and the sole, or the
// two halves of the heel, Front being the first.
type Join struct {
	Base
	How         Joining
	Heel        bool // the stitches are those of the heel
	Front, Back Number
}

// Joining is a way to close two sides against each other.
type Joining uint8

const (
	Grafted  Joining = iota // sewn as a row of knitting
	BoundOff                // bound off together, with a ridge
)

// BindOff ends the stitches with an edge.
type BindOff struct {
	Base
	How      Edging
	Stitches Number
}

// Edging is a way to bind off.
type Edging uint8

const (
	InPattern Edging = iota
	Stretchy
	Sewn
	Tubular
)

// Gather draws the yarn through the stitches and pulls them together.
type Gather struct {
	Base
	Stitches Number
}

// Index numbers all nodes in printed order and returns how many there are.
func (p *Pattern) Index() int {
	var id NodeID
	next := func(b *Base) {
		id++
		b.ID = id
	}
	for _, s := range p.Sections {
		next(&s.Base)
		eachNode(s.Body, func(n Node) { next(n.base()) })
	}
	return int(id)
}

// Each calls do for every node below the sections, in printed order, groups before their
// members.
func (p *Pattern) Each(do func(*Section, Node)) {
	for _, s := range p.Sections {
		eachNode(s.Body, func(n Node) { do(s, n) })
	}
}

func eachNode(body []Node, do func(Node)) {
	for _, n := range body {
		do(n)
		switch n := n.(type) {
		case *Only:
			eachNode(n.Body, do)
		case *Motif:
			for _, r := range n.Rows {
				do(r)
			}
		}
	}
}

// ID is the identity of a node.
func ID(n Node) NodeID { return n.base().ID }

// At is the span of the words of a node.
func At(n Node) source.Span { return n.base().At }

// SetAt records the span of the words of a node.
func SetAt(n Node, at source.Span) { n.base().At = at }

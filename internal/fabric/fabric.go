package fabric

import (
	"fmt"
	"slices"
	"sort"
)

// Kind is how a loop was made, as the knitter did it (a knit stitch on a wrong-side row
// shows as a purl on the right side: see [Fabric.Face]).
type Kind uint8

const (
	CastOn  Kind = iota
	Knit         // through one or more loops
	Purl         // through one or more loops
	KnitTbl      // twisted
	PurlTbl      // twisted
	K2tog
	Ssk
	Skp // slip, knit, pass over
	P2tog
	Ssp
	K3tog
	Sssk
	P3tog
	Centred     // three into one, the middle one on top
	InFront     // knit, having crossed in front of others
	Behind      // knit, having crossed behind others
	BehindPurl  // purled, having crossed behind others
	LiftLeft    // the strand between two stitches, lifted so that it leans left
	LiftRight   // … so that it leans right
	RaisedLeft  // drawn from the leg of a stitch below, leaning left
	RaisedRight // … leaning right
	Again       // drawn a second time from the same stitch
	YarnOver
	EdgeLoop    // picked up along an edge, under both legs of a finished stitch
	CornerLoop  // picked up from the strand in a corner
	Provisional // cast on, or knit over waste yarn: its foot is taken up later
	Foot        // the foot of a loop that was held by waste yarn, or of one cast on for both sides
	Wrap        // laid round a stitch at a turn
	TwinLoop    // drawn from below a stitch at a turn
	Hem         // through a live loop and one of the cast-on edge
	Grafted     // sewn: runs through one loop of each side
	JoinedOff   // bound off through one loop of each side
	BoundOff    // the edge
	Drawn       // gathered on the yarn
)

var kinds = [...]string{"cast-on", "knit", "purl", "knit tbl", "purl tbl", "k2tog", "ssk", "skp", "p2tog", "ssp", "k3tog", "sssk", "p3tog", "s2kp2",
	"crossed in front", "crossed behind", "crossed behind and purled",
	"strand lifted left", "strand lifted right", "raised left", "raised right", "drawn again", "yarn over", "edge loop", "corner loop",
	"provisional", "foot", "wrap", "twin loop", "hem", "grafted", "joined off", "bound off", "drawn together"}

// String names the kind.
func (k Kind) String() string { return kinds[k] }

// A Loop is one stitch. What it was pulled through is [Fabric.Through].
type Loop struct {
	first uint32 // start of its run in Fabric.through
	n     uint8  // how many loops it was pulled through
	Kind  Kind
	Wrong bool  // made on a wrong-side row
	Tall  uint8 // rows it was slipped through after the one that made it
}

// A Row is a run of loops made in one passage of the needle, from First up to the next
// row's First. It is empty where a row only slips.
type Row struct {
	First int32
	Node  int32 // the line of the pattern that made it
	Wrong bool
	Round bool
}

// A Fabric is a piece of knitting. The zero Fabric is empty and ready to use.
type Fabric struct {
	Loops   []Loop
	Rows    []Row
	through []int32
}

// Grow makes room for n more loops, so that making them allocates nothing.
func (f *Fabric) Grow(n int) {
	f.Loops = slices.Grow(f.Loops, n)
	f.through = slices.Grow(f.through, n+n/16)
}

// Reset empties the fabric and keeps its memory.
func (f *Fabric) Reset() {
	f.Loops, f.Rows, f.through = f.Loops[:0], f.Rows[:0], f.through[:0]
}

// Add makes a loop and returns its number. The loops it is pulled through are named from
// the one on top of the needle on.
func (f *Fabric) Add(kind Kind, wrong bool, through ...int32) int32 {
	id := int32(len(f.Loops))
	f.Loops = append(f.Loops, Loop{first: uint32(len(f.through)), n: uint8(len(through)), Kind: kind, Wrong: wrong})
	f.through = append(f.through, through...)
	return id
}

// Add1 is [Fabric.Add] for the usual loop that is pulled through one other.
func (f *Fabric) Add1(kind Kind, wrong bool, through int32) int32 {
	id := int32(len(f.Loops))
	f.Loops = append(f.Loops, Loop{first: uint32(len(f.through)), n: 1, Kind: kind, Wrong: wrong})
	f.through = append(f.through, through)
	return id
}

// Run makes one loop through each loop of from, in order, and writes the new loops to to,
// which may be the same memory or begin before it.
func (f *Fabric) Run(kind Kind, wrong bool, from, to []int32) {
	loops, through := f.room(len(from))
	id, first := int32(len(f.Loops)), uint32(len(f.through))
	for i, t := range from {
		loops[i] = Loop{first: first + uint32(i), n: 1, Kind: kind, Wrong: wrong}
		through[i] = t
		to[i] = id + int32(i)
	}
	f.Loops, f.through = f.Loops[:len(f.Loops)+len(from)], f.through[:len(f.through)+len(from)]
}

// RunBack is [Fabric.Run] from the end of the slices to their start; to may be the same
// memory or end after from.
func (f *Fabric) RunBack(kind Kind, wrong bool, from, to []int32) {
	loops, through := f.room(len(from))
	id, first := int32(len(f.Loops)), uint32(len(f.through))
	last := len(from) - 1
	for i := range from {
		loops[i] = Loop{first: first + uint32(i), n: 1, Kind: kind, Wrong: wrong}
		through[i] = from[last-i]
		to[last-i] = id + int32(i)
	}
	f.Loops, f.through = f.Loops[:len(f.Loops)+len(from)], f.through[:len(f.through)+len(from)]
}

// room returns the places behind the last loop, for n more.
func (f *Fabric) room(n int) ([]Loop, []int32) {
	f.Loops, f.through = slices.Grow(f.Loops, n), slices.Grow(f.through, n)
	return f.Loops[len(f.Loops):][:n], f.through[len(f.through):][:n]
}

// Through lists the loops that loop i was pulled through. For an [EdgeLoop] that is the
// edge stitch, for a [CornerLoop] a stitch at the foot of the corner, for a [Foot] the loop
// whose foot it is, for a [Wrap] the stitch it lies round. The slice belongs to the fabric.
func (f *Fabric) Through(i int32) []int32 {
	l := f.Loops[i]
	return f.through[l.first : l.first+uint32(l.n)]
}

// RowOf is the index of the row that made loop i.
func (f *Fabric) RowOf(i int32) int {
	return sort.Search(len(f.Rows), func(r int) bool { return f.Rows[r].First > i }) - 1
}

// Face is how a loop looks on the right side: true for a smooth V, false for a bump.
func (f *Fabric) Face(i int32) (smooth bool) {
	switch l := f.Loops[i]; l.Kind {
	case Purl, PurlTbl, P2tog, Ssp, P3tog, BehindPurl:
		return l.Wrong
	case Knit, KnitTbl, K2tog, Ssk, Skp, K3tog, Sssk, Centred, InFront, Behind, Hem:
		return !l.Wrong
	}
	return true
}

// Lean is the way a decrease leans on the right side: -1 left, 1 right, 0 not at all. The
// lean belongs to which loop lies on top, so it is the same from both sides of the needle:
// k2tog, k3tog and their purled kin lean right, ssk, skp, sssk and ssp left.
func (k Kind) Lean() int {
	switch k {
	case K2tog, P2tog, K3tog, P3tog:
		return 1
	case Ssk, Skp, Ssp, Sssk:
		return -1
	}
	return 0
}

// Equal tells whether two fabrics are the same graph, loop for loop, row for row: kinds,
// what each loop was pulled through, which were slipped. The lines of the pattern that
// made the rows may differ.
func Equal(a, b *Fabric) bool {
	return slices.Equal(a.Loops, b.Loops) && slices.Equal(a.through, b.through) &&
		slices.EqualFunc(a.Rows, b.Rows, func(x, y Row) bool {
			return x.First == y.First && x.Wrong == y.Wrong && x.Round == y.Round
		})
}

// String says how a loop was made and what became of it.
func (l Loop) String() string {
	s := l.Kind.String()
	if l.Wrong {
		s += " on the wrong side"
	}
	if l.Tall > 0 {
		s += fmt.Sprintf(", slipped in %d rows,", l.Tall)
	}
	return s
}

// Difference says where two fabrics first differ, or "" if they are [Equal].
func Difference(a, b *Fabric) string {
	for i := range min(len(a.Loops), len(b.Loops)) {
		i := int32(i)
		x, y := a.Loops[i], b.Loops[i]
		x.first, y.first = 0, 0
		if x != y || !slices.Equal(a.Through(i), b.Through(i)) {
			return fmt.Sprintf("loop %d, row %d: %s through %v against %s through %v",
				i, a.RowOf(i), x, a.Through(i), y, b.Through(i))
		}
	}
	if len(a.Loops) != len(b.Loops) {
		return fmt.Sprintf("%d loops against %d", len(a.Loops), len(b.Loops))
	}
	if !Equal(a, b) {
		return fmt.Sprintf("the rows are divided differently: %d rows against %d", len(a.Rows), len(b.Rows))
	}
	return ""
}

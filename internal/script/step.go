package script

import (
	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

// Op is what a step does.
type Op uint8

const (
	Work Op = iota // any stitches, as they come
	Knit
	Purl
	Slip
	Decrease // Uses stitches become Makes
	Increase
	Cross    // a cable or twist
	PassOver // N stitches on the right needle pass over the last
	PickUp
	PlaceMarker
	PassMarker // slips it
	TakeMarker // removes it
	Turn
	Wrap     // the next stitch, and turn
	ToNeedle // the next steps are for needle Needle or part Part
	Group
	Off       // the needle: bound off or dropped
	Unknown   // a term that is not known
	CastMore  // stitches cast on
	OfChart   // a row of the chart Name, Stop.N times: row Needle, or Needle to Last, or that of the label
	OfPattern // a stitch pattern goes on with its row Last
	Adjust    // N stitches more (or fewer) somewhere
)

// Mark is a place in a row.
type Mark uint8

const (
	Here Mark = iota // so many stitches
	End              // of the row, or of the needle that is spoken of
	Gap              // where the work was turned before
	Marker
	WrapMark // the next wrapped stitch
	SideMark // the side of the sock
	PartEnd  // the end of Step.Part
	MidMark  // the centre
)

// A Step is one thing done in a row.
type Step struct {
	At       source.Span
	Op       Op
	N        pattern.Number // stitches or times; absent: one
	To       Mark
	Minus    pattern.Number // so many stitches before the mark
	Uses     int8           // of one working
	Makes    int8
	Part     Part
	Needle   int
	Last     int
	Name     string // of a marker, a term or a chart
	Body     []Step
	Stop     Stop // of a group
	Tbl      bool
	Edge     bool // picked up along an edge, one in each edge stitch
	Corner   bool
	Optional bool // may fall away at the very end
}

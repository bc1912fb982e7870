package knit

import (
	"slices"

	"sockwright/internal/fabric"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

// Limits of one pattern in one size. A sock has some 15,000 loops in 250 rows and takes
// three moves a loop; a pattern that passes a limit is reported and not worked further.
const (
	MaxRows  = 100_000
	MaxLive  = 20_000    // stitches on the needles
	MaxMoves = 3_000_000 // stitches and markers worked, passed or counted, and steps read
)

// A Result is what working a pattern in one size gave.
type Result struct {
	Fabric *fabric.Fabric // nil if only counts were asked for
	Faults []source.Fault
	Counts []Count // one for each line that was worked, in the order of the first time
	Final  int     // live stitches after the last line, before they are grafted
	Left   int     // live stitches that nothing was done with
	Loops  int     // loops made
	Sure   bool    // every line could be followed: the counts are those of the words
}

// A Count is how many stitches a line left: after its first time and after its last.
type Count struct {
	Node        pattern.NodeID
	At          source.Span
	Label       string
	First, Last Stitches
	Times       int
	Sure        bool // every line up to here could be followed
}

// Stitches are live stitches at one moment.
type Stitches struct {
	Worked int // of the part worked flat; all of them in rounds
	Total  int // all, those that rest included
}

// A Knitter works patterns. It keeps its memory from one to the next; it must not be used
// by two goroutines at once. The zero Knitter is ready.
type Knitter struct {
	// CountsOnly leaves the fabric out: same faults, same counts, less work.
	CountsOnly bool

	// Sock is which sock of a pair is knitted; lines for the other one are passed over.
	// [pattern.BothSocks] does for patterns whose socks are alike.
	Sock pattern.Sock

	// Into, if not nil, is emptied and takes the fabric, so that its memory serves again.
	Into *fabric.Fabric

	needles
	fab    *fabric.Fabric
	made   int32 // loops so far
	prog   program
	res    *Result
	counts map[pattern.NodeID]int // index into res.Counts
	size   int
	sizes  int // how many the pattern has

	leftHanded bool  // rows go from left to right; what is kept here is kept as if they went the other way
	rows       []int // lines of the section that are rows, as indices into prog.rows
	motifs     []motif
	total      int // rows worked in all
	piece
}

// piece is what is remembered of the work since stitches were cast on.
type piece struct {
	live                            int  // loops on the needles
	rest                            int  // of these, resting while the heel is worked
	flat                            bool // work goes to and fro
	divided                         bool // the bounds of the part worked flat are known
	toe                             bool // that part is the toe, which is closed from it
	place                           pattern.Place
	waiting                         []turned // stitches with something left on them at a turn
	below                           []int32  // loops held by waste yarn, and
	above                           []int32  // the loops knitted over it
	provisional                     []int32  // loops of a provisional cast-on
	firstCastOn, castOnEdge, hemmed int32    // first loop of the cast-on edge, how many it has, how many are joined to a hem
	edges                           [2]edge
	picking                         pattern.Edge // the edge that stitches were last picked up from
	trust                           trust
	row                             rowState
	inPart                          int // rows worked since the last one numbered 1
	stopped                         bool
	ended                           bool // grafted
}

// newPiece forgets the piece in work, but for its memory.
func (k *Knitter) newPiece() {
	k.needles.reset()
	k.piece = piece{waiting: k.waiting[:0], edges: [2]edge{k.edges[0][:0], k.edges[1][:0]}}
}

// rowState is what is remembered of the row under way.
type rowState struct {
	line        *rowLine
	first       int32 // first loop on the right needle, -1 before there is one
	flat        bool  // it is worked to and fro
	atEnd       bool  // it began at a bound of the part worked flat
	before      int   // live loops at its start
	made        int   // loops worked or slipped
	beforeBegin int   // of these, before the beginning of the round that the row has done away with
	needle      uint8
	turned      bool
	failed      bool // a fault has stopped it
	arranging   bool // stitches are picked up: the needles are laid out by this row
}

// Knit works p in one size, counted from 0. The result's fabric is newly made, or Into.
func (k *Knitter) Knit(p *pattern.Pattern, size int) *Result {
	k.newPiece()
	k.moved, k.made, k.total, k.motifs = 0, 0, 0, k.motifs[:0]
	k.size, k.sizes, k.leftHanded = size, len(p.Sizes), p.LeftHanded
	k.prog.reset(size, len(p.Sizes))
	k.res = &Result{Sure: true}
	if k.counts == nil {
		k.counts = map[pattern.NodeID]int{}
	}
	clear(k.counts)
	k.fab = nil
	if !k.CountsOnly {
		if k.fab = k.Into; k.fab == nil {
			k.fab = &fabric.Fabric{Rows: make([]fabric.Row, 0, 256)}
		}
		k.fab.Reset()
		k.res.Fabric = k.fab
	}
	for _, s := range p.Sections {
		k.rows = k.rows[:0]
		k.body(s.Body)
	}
	if len(p.Sections) > 0 {
		k.allClosed(p.Sections[len(p.Sections)-1].At)
	}
	k.res.Loops = int(k.made)
	k.res.Left = k.live
	k.res.Sure = k.res.Sure && !k.stopped
	if !k.ended {
		k.res.Final = k.live
	}
	return k.res
}

func (k *Knitter) body(body []pattern.Node) {
	for _, n := range body {
		if k.moved > MaxMoves {
			k.limit(pattern.At(n))
		}
		if k.stopped {
			return
		}
		switch n := n.(type) {
		case *pattern.Prose:
			if n.Style == pattern.Unread {
				k.lose()
			}
		case *pattern.CastOn:
			k.castOn(n)
		case *pattern.Motif:
			k.define(n)
		case *pattern.Row:
			if n.Label.Num == 1 && n.Label.Name == pattern.Plainly {
				k.inPart, k.trust.rows = 0, 0 // numbers run on from here
			}
			i := k.prog.lower(n)
			k.rows = append(k.rows, i)
			before := k.live
			k.work(i, n)
			if n.Count != nil {
				k.checkCount(k.prog.rows[i].name, n.Count, n.At, before)
			}
		case *pattern.Again:
			k.again(n)
		case *pattern.Plain:
			k.plain(n)
		case *pattern.Only:
			if n.For(k.size, k.Sock) {
				k.body(n.Body)
			}
		case *pattern.Divide:
			k.divide(n)
		case *pattern.Begin:
			k.beginHere(n)
		case *pattern.Arrange:
			k.arrange(n)
		case *pattern.DropMarkers:
			k.drop(func(e int32) bool { return e == marker })
			k.trust.markers = false
		case *pattern.Rejoin:
			k.rejoin(n)
		case *pattern.Undo:
			k.undo(n)
		case *pattern.OpenWaste:
			k.openWaste(n)
		case *pattern.Join:
			k.join(n)
		case *pattern.BindOff:
			k.endAll(n, "bound off", fabric.BoundOff, n.Stitches)
		case *pattern.Gather:
			k.endAll(n, "drawn together", fabric.Drawn, n.Stitches)
		}
	}
}

// again repeats rows that were worked before.
func (k *Knitter) again(n *pattern.Again) {
	times := n.Times.In(k.size)
	if !k.fits(n.Times) || times == pattern.Gap {
		return
	}
	var what []int
	switch {
	case times == 0:
	case n.Rows > 0:
		if int(n.Rows) > len(k.rows) {
			k.fault(n.At, source.Unread, say("knit.no-rows", "the last {0} rows are to be worked again, but this section has only {1} so far", int(n.Rows), len(k.rows)), nil, nil)
			k.lose()
			return
		}
		what = k.rows[len(k.rows)-int(n.Rows):]
	default:
		for i := len(k.rows) - 1; i >= 0 && what == nil; i-- {
			if k.prog.rows[k.rows[i]].label.Same(n.Which) {
				what = k.rows[i : i+1]
			}
		}
		if what == nil {
			k.fault(n.At, source.Unread, say("knit.no-such-row", "{0} is to be worked again, but this section has no such row above", n.Which), nil, nil)
			k.lose()
			return
		}
	}
	before := k.live
	for pass := range times {
		for _, i := range what {
			known := len(k.res.Faults)
			k.work(i, n)
			k.laidOn(n, int(pass)+1, known)
			if k.stopped {
				return
			}
		}
	}
	k.counted("the repeat", n.Total, n.Count, n.At, before)
	k.record(pattern.ID(n), n.At, "Repeat")
}

// laidOn lays faults of a row on the line that asks for it again: where the row could be
// worked before, the words of the row are not what is wrong. known is how many faults had
// been found before this pass.
func (k *Knitter) laidOn(n *pattern.Again, pass, known int) {
	if len(k.res.Faults) == known {
		return
	}
	at := either(n.Times.Span(k.size), n.At)
	anew := slices.Clone(k.res.Faults[known:])
	k.res.Faults = k.res.Faults[:known]
	for _, f := range anew {
		if f.At != n.At {
			f.At, f.Mends = at, nil
			f.Text = say("knit.again", "pass {0} of the repeat: {1}", pass, f.Text.String())
		}
		if !slices.ContainsFunc(k.res.Faults, func(o source.Fault) bool { return o.At == f.At && o.Kind == f.Kind }) {
			k.res.Faults = append(k.res.Faults, f)
		}
	}
}

// plain works rounds that are all alike.
func (k *Knitter) plain(n *pattern.Plain) {
	rounds := n.Rounds.In(k.size)
	if !k.fits(n.Rounds) || rounds == pattern.Gap {
		return
	}
	before := k.live
	if rounds > 0 { // else this size has nothing here that could be repeated
		i := k.prog.lowerPlain(n)
		for range rounds {
			k.rows = append(k.rows, i)
			if k.work(i, n); k.stopped {
				return
			}
		}
	}
	k.counted("this line", n.Total, n.Count, n.At, before)
	k.record(pattern.ID(n), n.At, "Rnds")
}

// counted compares what a line that works many rows states with what has become of them.
func (k *Knitter) counted(name string, total pattern.Number, c *pattern.Count, at source.Span, before int) {
	k.checkTotal(total, at)
	if c != nil {
		k.checkChange(name, c.Change, at, before)
		k.checkCount(name, c, at, before)
	}
}

// divide sets bounds round the heel.
func (k *Knitter) divide(n *pattern.Divide) {
	if !k.fits(n.Heel) || !k.fits(n.Rest) {
		return
	}
	stated, _ := k.stated(n.Heel)
	heel := stated
	if n.Last {
		heel = k.row.made
	}
	if heel < 1 || heel >= k.live {
		k.fault(either(n.Heel.Span(k.size), n.At), source.StitchCount,
			say("knit.divide-all", "the heel is to be {0} of {1}: it needs one at least, and must leave some for the instep", heel, sts(k.live)), source.Sts(heel), source.Sts(k.live))
		k.lose()
		return
	}
	rest, _ := k.stated(n.Rest)
	restMend := k.mendNumber("knit.mend-rest", "let {0} rest", n.Rest, k.live-heel)
	if heel != stated && !k.trust.explained(heel-stated) {
		m := k.mendNumber("knit.mend-heel", "call {0} the heel", n.Heel, heel)
		if rest == k.live-stated && (m.Why.Key == MendForAll) == (restMend.Why.Key == MendForAll) { // the words count the rest from the same slip
			m.Edits = append(m.Edits, restMend.Edits...)
			m.Why = say(m.Why.Key, "call {0} the heel, and let {1} rest", heel, k.live-heel)
		}
		k.fault(n.Heel.Span(k.size), source.StitchCount,
			say("knit.divide-last", "calls {0} the heel, but the row above worked {1}", sts(stated), heel), source.Sts(stated), source.Sts(heel), m)
	}
	if off := k.live - heel - rest; off != 0 && off != stated-heel && !k.trust.explained(off) {
		k.fault(n.Rest.Span(k.size), source.StitchCount,
			say("knit.divide-rest", "{0} are said to rest, but {1} do: {2} less {3}", sts(rest), k.live-heel, k.live, heel),
			source.Sts(rest), source.Sts(k.live-heel), restMend)
	}
	if before := k.row.beforeBegin; n.Last && !k.wrong && k.row.turned && k.place == pattern.CentreBack && before != heel/2 && before != heel-heel/2 {
		k.fault(n.At, source.StitchCount,
			say("knit.divide-off-centre", "the heel is to lie on both sides of the beginning of the round alike, but the row above worked {0} of its {1} before it and {2} after it", before, sts(heel), heel-before),
			source.Sts(before), source.Sts(heel/2))
	}
	k.drop(func(e int32) bool { return e == begin || bound(e) || isNeedleStart(e) })
	if k.wrong {
		k.fault(n.At, source.Direction, say("knit.divide-side", "the heel is set apart while the wrong side faces: the next row is to be a right-side row"), nil, nil)
		k.trust.side = true
		k.turn()
	}
	// The right bound goes behind the tip, the left one after the heel stitches.
	k.put(rightEnd)
	k.edges[0], k.edges[1] = k.edges[0][:0], k.edges[1][:0]
	for i := 0; i < heel; k.pass() {
		loop, _ := k.next()
		if loop < 0 {
			continue
		}
		if i == 0 {
			k.edges[right] = append(k.edges[right], loop)
		}
		if i++; i == heel {
			k.edges[left] = append(k.edges[left], loop)
		}
	}
	k.putBack(leftEnd)
	k.toRightEnd()
	k.rest = k.live - heel
	k.flat, k.divided, k.toe = true, true, n.Toe
	k.record(pattern.ID(n), n.At, "Heel")
}

// beginHere makes the tip the beginning of the round.
func (k *Knitter) beginHere(n *pattern.Begin) {
	if k.wrong && k.row.turned {
		k.fault(n.At, source.Direction, say("knit.begin-side", "the round is to begin while the wrong side faces: turn the work first"), nil, nil)
		k.trust.side = true
	}
	if k.wrong { // a right-side row that goes on into the round need not be turned
		k.turn()
	}
	k.drop(isBegin)
	if n.Place == pattern.CentreOfSole && k.divided {
		after, _, _ := k.ahead(bound)
		k.turn()
		before, _, _ := k.ahead(bound)
		k.turn()
		if before != after && before != after-1 {
			k.fault(n.At, source.Direction,
				say("knit.off-centre", "the round is said to begin in the middle, but this point has {0} before it and {1} after it", sts(before), after), nil, nil)
		}
	}
	k.putBack(begin)
	k.place = n.Place
}

func bound(e int32) bool   { return e == leftEnd || e == rightEnd }
func isBegin(e int32) bool { return e == begin }

// arrange lays the stitches out on the needles from the beginning of the round.
func (k *Knitter) arrange(n *pattern.Arrange) {
	sum := 0
	for _, s := range n.Split {
		if !k.fits(s) {
			return
		}
		on, _ := k.stated(s)
		sum += on
	}
	if off := k.live - sum; off != 0 {
		if !k.trust.explained(off) {
			k.fault(n.At, source.StitchCount,
				say("knit.split-sum", "the needles are to hold {0} together, but there are {1}", sts(sum), k.live), source.Sts(sum), source.Sts(k.live))
		}
		k.trust.split = true // the last needle holds more or fewer than the words say
	}
	k.drop(isNeedleStart)
	if e, ok := k.next(); ok && e == begin {
		k.pass()
	}
	left := k.live
	for i, s := range n.Split {
		k.put(needleStart(uint8(i + 1)))
		on, _ := k.stated(s)
		if on = min(on, left); i == len(n.Split)-1 {
			on = left
		}
		for left -= on; on > 0; k.pass() {
			if e, _ := k.next(); e >= 0 {
				on--
			}
		}
	}
	k.next() // come round to the beginning again
}

func (k *Knitter) startRow(node pattern.NodeID, round bool) {
	if k.fab != nil {
		k.fab.Rows = append(k.fab.Rows, fabric.Row{First: k.made, Node: int32(node), Wrong: k.wrong, Round: round})
	}
}

// record notes the stitches after a line.
func (k *Knitter) record(node pattern.NodeID, at source.Span, label string) {
	now := Stitches{Worked: k.live - k.rest, Total: k.live}
	i, seen := k.counts[node]
	if !seen {
		k.counts[node] = len(k.res.Counts)
		k.res.Counts = append(k.res.Counts, Count{node, at, label, now, now, 1, !k.trust.lost})
		return
	}
	k.res.Counts[i].Last = now
	k.res.Counts[i].Times++
	k.res.Counts[i].Sure = k.res.Counts[i].Sure && !k.trust.lost
}

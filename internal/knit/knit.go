package knit

import (
	"sockwright/internal/fabric"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

// Limits of one pattern in one size. A sock has some 15,000 loops; a pattern that passes a
// limit is reported and not worked further.
const (
	MaxLoops = 4_000_000
	MaxRows  = 100_000
)

// A Result is what working a pattern in one size gave.
type Result struct {
	Fabric *fabric.Fabric // nil if only counts were asked for
	Faults []source.Fault
	Counts []Count // one for each line that was worked, in the order of the first time
	Final  int     // live stitches after the last line, before they are grafted
	Left   int     // live stitches that nothing was done with
	Loops  int     // loops made
}

// A Count is how many stitches a line left: after its first time and after its last.
type Count struct {
	Node        pattern.NodeID
	At          source.Span
	Label       string
	First, Last Stitches
	Times       int
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

	needles
	fab     *fabric.Fabric
	made    int32 // loops so far
	prog    program
	res     *Result
	counts  map[pattern.NodeID]int // index into res.Counts
	size    int
	live    int  // loops on the needles
	rest    int  // of these, resting while the heel is worked
	flat    bool // work goes to and fro
	divided bool // the bounds of the part worked flat are known
	place   pattern.Place
	edges   [2]edge
	picking pattern.Edge // the edge that stitches were last picked up from
	drift   int          // by how much the counts are known to be off
	row     rowState
	rows    []int // lines of the section that are rows, as indices into prog.rows
	inPart  int   // rows worked since the last one numbered 1
	total   int   // rows worked in all
	stopped bool
	ended   bool // grafted
}

// rowState is what is remembered of the row under way.
type rowState struct {
	line      *rowLine
	first     int32 // first loop on the right needle, -1 before there is one
	atEnd     bool  // it began at a bound of the part worked flat
	before    int   // live loops at its start
	made      int   // loops worked or slipped
	needle    uint8
	turned    bool
	failed    bool // a fault has stopped it
	arranging bool // stitches are picked up: the needles are laid out by this row
}

// Knit works p in one size, counted from 0. The result's fabric is newly made and belongs
// to the caller.
func (k *Knitter) Knit(p *pattern.Pattern, size int) *Result {
	k.needles.reset()
	k.prog.reset(size)
	k.res = &Result{}
	if k.counts == nil {
		k.counts = map[pattern.NodeID]int{}
	}
	clear(k.counts)
	*k = Knitter{CountsOnly: k.CountsOnly, needles: k.needles, prog: k.prog, res: k.res, counts: k.counts, rows: k.rows[:0], size: size, edges: [2]edge{k.edges[0][:0], k.edges[1][:0]}}
	if !k.CountsOnly {
		k.fab = &fabric.Fabric{Rows: make([]fabric.Row, 0, 256)}
		k.res.Fabric = k.fab
	}
	for _, s := range p.Sections {
		k.rows = k.rows[:0]
		k.body(s.Body)
	}
	k.res.Loops = int(k.made)
	k.res.Left = k.live
	if !k.ended {
		k.res.Final = k.live
	}
	return k.res
}

func (k *Knitter) body(body []pattern.Node) {
	for _, n := range body {
		if k.stopped {
			return
		}
		switch n := n.(type) {
		case *pattern.CastOn:
			k.castOn(n)
		case *pattern.Row:
			if n.Label.Num == 1 && n.Label.Name == pattern.Plainly {
				k.inPart = 0 // numbers run on from here
			}
			i := k.prog.lower(n)
			k.rows = append(k.rows, i)
			k.work(i, nil, n.Count)
		case *pattern.Again:
			k.again(n)
		case *pattern.Plain:
			k.plain(n)
		case *pattern.Only:
			if n.Sizes.Has(k.size) {
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
		case *pattern.Graft:
			k.graft(n)
		}
	}
}

func (k *Knitter) castOn(n *pattern.CastOn) {
	count := int(n.Stitches.In(k.size))
	if count < 1 || count > MaxLoops {
		k.fault(n.Stitches.Span(k.size), source.StitchCount, source.Error, say("knit.cast-on", "{0} stitches cannot be cast on", count), nil, nil)
		k.stopped = true
		return
	}
	k.needles.reset()
	k.makeRoom(2*count + 64)
	k.startRow(pattern.ID(n), true)
	if k.fab != nil {
		k.fab.Grow(count * 200) // more than an ordinary sock has
	}
	k.put(begin)
	for range count {
		if k.fab != nil {
			k.fab.Add(fabric.CastOn, false)
		}
		k.put(k.made)
		k.made++
	}
	k.live, k.place = count, n.Begin
	k.record(pattern.ID(n), n.At, "Cast-on")
}

// again repeats rows that were worked before.
func (k *Knitter) again(n *pattern.Again) {
	times := n.Times.In(k.size)
	if times == pattern.Gap {
		return
	}
	var what []int
	if n.Rows > 0 {
		if int(n.Rows) > len(k.rows) {
			k.fault(n.At, source.Unread, source.Error, say("knit.no-rows", "the last {0} rows are to be worked again, but this section has {1} so far", int(n.Rows), len(k.rows)), nil, nil)
			return
		}
		what = k.rows[len(k.rows)-int(n.Rows):]
	} else {
		for i := len(k.rows) - 1; i >= 0 && what == nil; i-- {
			if k.prog.rows[k.rows[i]].label.Same(n.Which) {
				what = k.rows[i : i+1]
			}
		}
		if what == nil {
			k.fault(n.At, source.Unread, source.Error, say("knit.no-such-row", "{0} is to be worked again, but this section has no such row above", n.Which), nil, nil)
			return
		}
	}
	for t := range times {
		for j, i := range what {
			var count *pattern.Count
			if t == times-1 && j == len(what)-1 {
				count = n.Count
			}
			k.work(i, n, count)
			if k.stopped {
				return
			}
		}
	}
	if times == 0 && n.Count != nil {
		k.checkCount(n.Count, n.At, n, k.live)
	}
	k.checkTotal(n.Total, n.At)
	k.record(pattern.ID(n), n.At, "Repeat")
}

// plain works rounds that are all alike.
func (k *Knitter) plain(n *pattern.Plain) {
	rounds := n.Rounds.In(k.size)
	if rounds == pattern.Gap {
		return
	}
	i := k.prog.lowerPlain(n)
	k.rows = append(k.rows, i)
	for t := range rounds {
		var count *pattern.Count
		if t == rounds-1 {
			count = n.Count
		}
		k.work(i, n, count)
		if k.stopped {
			return
		}
	}
	k.checkTotal(n.Total, n.At)
	k.record(pattern.ID(n), n.At, "Rnds")
}

func (k *Knitter) checkTotal(total pattern.Number, at source.Span) {
	if !total.Known() {
		return
	}
	if stated := int(total.In(k.size)); stated != k.inPart {
		span := total.Span(k.size)
		if !span.Known() {
			span = at
		}
		k.fault(span, source.BadLength, source.Error,
			say("knit.rows-total", "states {0} rows or rounds, but {1} have been worked since the one numbered 1", stated, k.inPart),
			&source.Quantity{Value: float64(stated), Unit: "rows"}, &source.Quantity{Value: float64(k.inPart), Unit: "rows"},
			mendNumber(total, k.size, k.inPart))
	}
}

// divide sets bounds round the heel.
func (k *Knitter) divide(n *pattern.Divide) {
	heel, rest := int(n.Heel.In(k.size)), int(n.Rest.In(k.size))
	if n.Last {
		if k.row.made != heel {
			k.fault(n.Heel.Span(k.size), source.StitchCount, source.Error,
				say("knit.divide-last", "calls {0} stitches the heel, but the row above worked {1}", heel, k.row.made),
				source.Sts(heel), source.Sts(k.row.made), mendNumber(n.Heel, k.size, k.row.made))
			heel = k.row.made
		}
	}
	if heel < 1 || heel >= k.live {
		k.fault(n.Heel.Span(k.size), source.StitchCount, source.Error,
			say("knit.divide-all", "the heel is to have {0} of {1} stitches", heel, k.live), source.Sts(heel), source.Sts(k.live))
		k.stopped = true
		return
	}
	if rest != k.live-heel {
		k.fault(n.Rest.Span(k.size), source.StitchCount, source.Error,
			say("knit.divide-rest", "{0} stitches are said to rest, but {1} do: {2} less {3}", rest, k.live-heel, k.live, heel),
			source.Sts(rest), source.Sts(k.live-heel), mendNumber(n.Rest, k.size, k.live-heel))
	}
	k.drop(func(e int32) bool { return e == begin || isNeedleStart(e) })
	if k.wrong {
		k.fault(n.At, source.Direction, source.Error, say("knit.divide-side", "the heel is set apart while the wrong side faces"), nil, nil)
		k.turn()
	}
	// The right bound goes behind the tip, the left one after the heel stitches.
	k.put(rightEnd)
	k.edges[0], k.edges[1] = k.edges[0][:0], k.edges[1][:0]
	for i := range heel {
		loop, _ := k.next()
		if i == 0 {
			k.edges[right] = append(k.edges[right], loop)
		}
		if i == heel-1 {
			k.edges[left] = append(k.edges[left], loop)
		}
		k.pass()
	}
	k.putBack(leftEnd)
	k.turn()
	for range heel {
		k.next()
		k.pass()
	}
	k.turn()
	k.rest = k.live - heel
	k.flat, k.divided = true, true
	k.record(pattern.ID(n), n.At, "Heel")
}

// beginHere makes the tip the beginning of the round.
func (k *Knitter) beginHere(n *pattern.Begin) {
	if k.wrong {
		k.fault(n.At, source.Direction, source.Error, say("knit.begin-side", "the round is to begin while the wrong side faces: turn the work first"), nil, nil)
		k.turn()
	}
	k.drop(func(e int32) bool { return e == begin })
	if n.Place == pattern.CentreOfSole && k.divided {
		after, _, _ := k.ahead(bound)
		k.turn()
		before, _, _ := k.ahead(bound)
		k.turn()
		if before != after && before != after-1 {
			k.fault(n.At, source.Direction, source.Error,
				say("knit.off-centre", "the round is said to begin in the middle, but {0} stitches lie before this point and {1} after it", before, after), nil, nil)
		}
	}
	k.putBack(begin)
	k.place = n.Place
}

func bound(e int32) bool { return e == leftEnd || e == rightEnd }

// arrange lays the stitches out on the needles from the beginning of the round.
func (k *Knitter) arrange(n *pattern.Arrange) {
	sum := 0
	for _, s := range n.Split {
		sum += int(s.In(k.size))
	}
	if sum != k.live {
		k.fault(n.At, source.StitchCount, source.Error,
			say("knit.split-sum", "the needles are to hold {0} stitches together, but there are {1}", sum, k.live), source.Sts(sum), source.Sts(k.live))
		return
	}
	k.drop(isNeedleStart)
	if e, ok := k.next(); ok && e == begin {
		k.pass()
	}
	for i, s := range n.Split {
		k.put(needleStart(uint8(i + 1)))
		for range s.In(k.size) {
			k.next()
			k.pass()
		}
	}
	k.next() // come round to the beginning again
}

// graft joins the instep, which comes next on the needles, to the sole behind it.
func (k *Knitter) graft(n *pattern.Graft) {
	front, back := int(n.Front.In(k.size)), int(n.Back.In(k.size))
	k.res.Final, k.ended = k.live, true
	if e, ok := k.next(); ok && e >= 0 || k.place == pattern.CentreOfSole && e == begin {
		k.fault(n.At, source.Direction, source.Error, say("knit.graft-place", "the yarn hangs in the middle of a needle: work to the side of the sock before grafting"), nil, nil)
	}
	if front+back != k.live || front != back {
		k.fault(n.At, source.StitchCount, source.Error,
			say("knit.graft-unequal", "{0} stitches are to be grafted to {1}, but {2} are live: the two sides must be equal and use them all", front, back, k.live),
			source.Sts(front+back), source.Sts(k.live))
		return
	}
	k.drop(func(int32) bool { return true })
	loops := make([]int32, 0, k.live)
	for range k.live {
		k.next()
		loops = append(loops, k.take())
	}
	k.startRow(pattern.ID(n), true)
	for i := range front {
		if k.fab != nil {
			k.fab.Add(fabric.Grafted, false, loops[i], loops[len(loops)-1-i])
		}
		k.made++
	}
	k.live = 0
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
		k.res.Counts = append(k.res.Counts, Count{node, at, label, now, now, 1})
		return
	}
	k.res.Counts[i].Last = now
	k.res.Counts[i].Times++
}

func say(key, text string, args ...any) source.Message { return source.Say(key, text, args...) }

// fault reports something wrong in this size.
func (k *Knitter) fault(at source.Span, kind source.Kind, severity source.Severity, text source.Message, stated, actual *source.Quantity, mends ...source.Mend) {
	for i := range k.res.Faults { // a row that is worked often is reported once
		if f := &k.res.Faults[i]; f.At == at && f.Kind == kind && at.Known() {
			return
		}
	}
	if len(k.res.Faults) >= 200 {
		k.stopped = true
		return
	}
	var list []source.Mend
	for _, m := range mends {
		if m.Why.Text != "" {
			list = append(list, m)
		}
	}
	k.res.Faults = append(k.res.Faults, source.Fault{
		At: at, Sizes: source.OneSize(k.size), Kind: kind, Severity: severity,
		Stated: stated, Actual: actual, Text: text, Mends: list,
	})
}

// mendNumber is the mend that puts another number in the place of a size's value.
func mendNumber(n pattern.Number, size, value int) source.Mend {
	m := source.Mend{Why: say("knit.mend-state", "state {0}", value)}
	if at := n.Span(size); at.Known() && len(n.Cols) > size || len(n.Cols) == 1 {
		m.Edits = []source.Edit{{At: at, Text: itoa(value)}}
	}
	return m
}

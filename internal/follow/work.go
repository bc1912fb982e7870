package follow

import (
	"slices"
	"strings"

	"sockwright/internal/pattern"
	"sockwright/internal/script"
	"sockwright/internal/source"
)

// Limits of one size. A sock has some 250 rows and 15,000 stitches.
const (
	maxRows  = 100_000
	maxMoves = 2_000_000
	MaxLive  = 20_000 // stitches on the needles
)

// override reads one figure as another: a slip that is being tried.
type override struct {
	at    source.Span
	value int32
}

// worker works a plan in one size.
type worker struct {
	size    int
	script  *script.Script
	plan    []entry
	conv    conventions
	ov      override
	literal bool // to the letter: nothing is believed that the words do not give

	n       needles
	began   bool
	known   bool // what is on the needles is known
	total   int  // all stitches, where known is false but the total is told; else -1
	markers int
	bor     bool // a marker hangs where the round begins

	part        script.Part
	section     *script.Section
	partRows    int  // rows worked since the part or the block began
	rowsKnown   bool // partRows is exact
	fromEdge    bool // all that has been worked since the cast-on is a tube, and the rounds were exact up to this part
	edgeRows    int  // rowsWorked at the cast-on
	rowsSlack   int  // so many more may be counted
	flapRows    int
	slipRows    int
	edges       bool
	edgePick    bool
	lastPick    int
	turning     bool
	heelCount   int
	lastShape   int // change of the last shaping row
	shapeRow    *script.Row
	lastRow     *script.Row
	lastDelta   int
	corners     int // stitches picked up in corners, to be worked together with their neighbours
	alone       int // stitches of the one part that the last row told, 0 if it told all
	plainOf     int // rounds of the last stretch of plain work
	ribOf       int // stitches of one repeat of the last rib
	moves       int
	rowsWorked  int
	stopped     bool
	lastPattern int                // number of the pattern row worked last
	pattern     []numbered         // rows of the stitch pattern worked last
	afterPick   bool               // the last row picked up stitches
	justWorked  int                // stitches that a row over part of a round has worked last
	flapRule    func(size int) int // rows of the flap in another size, if it states them
	snapshot    *worker            // where a sock that is told as right and left parts begins
	fabric      string             // of the part worked flat, if it is said
	waste       pattern.Number     // stitches knitted with waste yarn, where a heel is put in later
	ended       bool
	facingSaid  bool // the side that faces has been said, not followed
	firstRow    bool // the next row may begin on either side
	sideOff     bool // sides are told the wrong way round since a fault

	untold   bool          // how many stitches rest has not been told
	doubt    doubt         // what is not certain of all this
	doubtAt  source.Span   // the words that could not be read, for want of which it is not
	doubted  bool          // something has been in doubt
	silenced []source.Span // likewise, where something was not told that rests on them

	reportedPickUp bool
	soft           []*problem // remarks on the way

	rec   *recorder // nil: not wanted
	parts map[*script.Row][]part
	quiet bool       // the row that is worked next is not noted
	mid   []Stitches // after each part of the row being worked

	passes []int // all stitches after each pass of the rows repeated last, the first included
	final  int
}

func newWorker(s *script.Script, p []entry, size int) *worker {
	w := &worker{script: s, plan: p, size: size, total: -1, final: -1, rowsKnown: true, parts: map[*script.Row][]part{}}
	for i := range p {
		if p[i].parts != nil {
			w.parts[p[i].row] = p[i].parts
		}
	}
	return w
}

// val is the value of a number for the size that is worked.
func (w *worker) val(n pattern.Number) int32 {
	v := n.In(w.size)
	if w.ov.at.Known() && n.Span(w.size) == w.ov.at {
		return w.ov.value
	}
	return v
}

// figure is the value of a number for the size that is worked, or what goes for one that is not
// told; ok is false where this size has a dash instead.
func (w *worker) figure(n pattern.Number, untold int) (v int, ok bool) {
	if !n.Known() {
		return untold, true
	}
	g := w.val(n)
	return int(g), g != pattern.Gap
}

func (w *worker) clone() *worker {
	c := *w
	c.n = w.n.clone()
	c.soft = slices.Clone(w.soft)
	c.passes = slices.Clone(w.passes)
	c.silenced = slices.Clone(w.silenced)
	c.rec = nil
	return &c
}

// lose: what is on the needles is no longer known.
func (w *worker) lose() {
	w.known = false
	w.rowsKnown = false
}

// establish puts so many stitches on the needles.
func (w *worker) establish(total int) {
	w.began, w.known = true, true
	w.total = -1
	w.certain(ofAll)
	w.n = needles{facing: script.RS}
	w.n.left = make([]cell, min(max(total, 0), MaxLive))
	w.ended = false
}

// perform does what an entry says and returns what is wrong with it.
func (w *worker) perform(e *entry) (problems []*problem) {
	base := script.Of(e.item)
	if w.stopped {
		return nil
	}
	if base.Sizes != 0 && !base.Sizes.Has(w.size) {
		if w.rec != nil && w.began && tells(e.item) {
			w.rec.rest(e.item, label(e), w.size, w.now(), w.sure())
		}
		return nil
	}
	if e.doubt.of != 0 {
		w.suspect(e.doubt)
	}
	w.alone = 0
	before, noted := w.live(), w.rec.length()
	add := func(p *problem) {
		if p != nil {
			problems = append(problems, p)
		}
	}
	w.soft = w.soft[:0]
	var claims []script.Claim
	switch n := e.item.(type) {
	case *script.Section:
		w.enter(n)
		return nil
	case *script.CastOn:
		add(w.castOn(n))
	case *script.Row:
		if w.began || picksUp(n.Steps) || w.opensWith(n) {
			add(w.row(e, n))
		}
		claims = behind(n, e.num)
	case *script.Repeat:
		problems = append(problems, w.repeat(e, n)...)
		claims = n.Claims
	case *script.Plain:
		problems = append(problems, w.plainRows(n)...)
		claims = n.Claims
	case *script.Shape:
		problems = append(problems, w.shape(e, n)...)
		claims = n.Claims
	case *script.Divide:
		add(w.divide(n))
	case *script.Arrange:
		problems = append(problems, w.arrange(n)...)
	case *script.Move:
		add(w.move(n))
	case *script.State:
		problems = append(problems, w.state(n)...)
	case *script.Resume:
		if w.known {
			w.n.rejoin()
			w.endFlap()
		}
		claims = n.Claims
	case *script.Measured:
		return append(problems, w.measured(n)...)
	case *script.Facing:
		if w.began && w.n.facing == script.NoSide || !w.n.flat {
			w.n.facing = n.Side
		}
		w.facingSaid, w.firstRow = true, false
		return nil
	case *script.Lift:
		add(w.lift(n))
		claims = n.Claims
	case *script.Unwrap:
		if w.known {
			w.n.dropGaps()
			w.n.begin()
		}
	case *script.Markers:
		add(w.hang(n))
		return problems
	case *script.Close:
		w.final = w.finalNow()
		w.ended = true
		return nil
	case *script.Lost:
		w.lose()
		w.suspect(words{n.At, ofAll})
		return nil
	}
	problems = append(problems, w.soft...)
	if after := w.live(); before >= 0 && after >= 0 {
		switch n := e.item.(type) {
		case *script.Row:
			if w.lastDelta = after - before; w.lastDelta != 0 && !picksUp(n.Steps) {
				w.lastShape = w.lastDelta
			}
		case *script.Shape:
			if n.Stop.Kind == script.NoStop {
				w.lastDelta = after - before
			}
		}
	}
	if i := slices.IndexFunc(problems, func(p *problem) bool { return !p.soft }); i >= 0 && w.known {
		w.lose()
		if problems[i].untold {
			w.suspect(words{base.At, ofAll})
		}
	}
	problems = slices.DeleteFunc(problems, func(p *problem) bool { return p.untold })
	problems = w.hold(e, problems)
	problems = append(problems, w.hold(e, w.checkAll(claims, e))...)
	w.recordEntry(e, noted)
	return problems
}

// recordEntry notes what an entry leaves on the needles. Its rows may have been noted as they
// were worked, if so, since a place in the record.
func (w *worker) recordEntry(e *entry, since int) {
	r, row := e.item.(*script.Row)
	switch {
	case row && w.rec.length() > since:
		w.rec.after(r, w.now())
	case row || len(e.works) == 0:
		w.record(e.item, label(e))
	default: // a repeat may work them again
		for _, r := range e.works {
			w.record(r, label(e))
		}
	}
}

// behind is the claims that hold behind row num of those that are told together: how many rows
// they are is said of all of them.
func behind(r *script.Row, num int) []script.Claim {
	nums := r.Label.Nums
	if len(nums) < 2 || num == nums[len(nums)-1] {
		return r.Claims
	}
	return slices.DeleteFunc(slices.Clone(r.Claims), func(c script.Claim) bool { return c.What == script.RowCount })
}

// label is what a report calls an entry.
func label(e *entry) string {
	switch n := e.item.(type) {
	case *script.CastOn:
		return "Cast-on"
	case *script.Row:
		return name(n, e.num)
	case *script.Repeat:
		return "Repeat"
	case *script.Plain:
		return "Rnds"
	case *script.Shape:
		return "Shaping"
	case *script.Divide, *script.Lift:
		return "Heel"
	case *script.Arrange, *script.Move:
		return "Needles"
	case *script.State:
		return "State"
	case *script.Resume:
		return "Round"
	case *script.Unwrap:
		return "Wraps"
	}
	return ""
}

// tells tells whether an item is one after which the needles are counted.
func tells(item script.Item) bool {
	switch item.(type) {
	case *script.Section, *script.Facing, *script.Measured, *script.Close, *script.Lost, *script.Markers:
		return false
	}
	return true
}

// opensWith begins the work with a row that lays it out, "K14, pm A, k28, pm B, k14": it holds
// as many stitches as that takes.
func (w *worker) opensWith(r *script.Row) bool {
	lays := slices.ContainsFunc(r.Steps, func(s script.Step) bool { return s.Op == script.PlaceMarker })
	n, fixed := w.uses(r.Steps)
	if !lays || !fixed || n == 0 || hasTurn(r.Steps) {
		return false
	}
	w.establish(n)
	return true
}

// countRows begins to count rows anew.
func (w *worker) countRows() { w.partRows, w.rowsSlack = 0, 0 }

func (w *worker) live() int {
	if !w.began || !w.known {
		return -1
	}
	return w.n.total()
}

func (w *worker) finalNow() int {
	if w.ended {
		return w.final
	}
	if !w.began {
		return -1
	}
	if !w.known {
		return w.total
	}
	return w.n.total()
}

// enter begins a part.
func (w *worker) enter(s *script.Section) {
	w.section = s
	switch name := strings.ToLower(s.Name); {
	case strings.Contains(name, "right sock"), strings.Contains(name, "left sock"):
		if w.snapshot == nil {
			w.snapshot = w.clone()
		} else { // told instead of the other, not after it
			w.n, w.known, w.total = w.snapshot.n.clone(), w.snapshot.known, w.snapshot.total
			w.countRows()
		}
	case strings.Contains(name, "both socks"):
		w.snapshot = nil
	}
	if s.Part != 0 {
		w.certain(ofRows)
		if s.Part != w.part || s.Part != script.Heel {
			w.countRows()
			w.fromEdge = w.fromEdge && w.rowsKnown
			w.rowsKnown = true
		}
		if s.Part == script.Heel && w.part == script.Heel {
			w.countRows()
		}
		w.part = s.Part
		if w.known && w.n.flat && (s.Part == script.Foot || s.Part == script.Toe) {
			w.n.rejoin()
		}
	}
}

func (w *worker) castOn(n *script.CastOn) *problem {
	v, ok := w.figure(n.N, 0)
	if !ok {
		w.began, w.known = true, false
		return nil
	}
	if n.On > 0 {
		v *= n.On
	}
	if v < 1 || v > MaxLive {
		w.began = true
		return w.fail(n.N.Span(w.size), source.StitchCount, source.Say("follow.cast-on", "{0} cannot be cast on: the needles take 1 to {1}", source.InSts(v), MaxLive), source.Sts(v), nil)
	}
	w.establish(v)
	if n.On > 0 {
		w.layEach(n.On)
	}
	w.markers, w.part = 0, 0
	w.countRows()
	w.fromEdge, w.edgeRows, w.rowsKnown = true, w.rowsWorked, true
	w.final = -1
	return nil
}

// row works a row, as often as it says.
func (w *worker) row(e *entry, n *script.Row) *problem {
	if !w.began { // "Pick-up rnd" opens the work
		w.establish(0)
		w.n.flat = true
	}
	if p := w.checkSide(n, e.num); p != nil {
		w.soft = append(w.soft, p)
	}
	times := 1
	if n.Stop != nil {
		switch n.Stop.Kind {
		case script.Rows, script.MoreRows, script.Times, script.InAll:
			v, ok := w.figure(n.Stop.N, 0)
			if !ok {
				return nil
			}
			times = v
		case script.Measures:
			w.untilLength()
		case script.Remain:
			return w.untilRemain([]*script.Row{n}, &entry{}, n.Stop)
		case script.UsedUp:
			w.turning = true
			return w.untilUsedUp([]*script.Row{n}, &entry{})
		}
	}
	if len(n.Label.Nums) > 0 && n.Stop != nil {
		times = max(times, 1)
	}
	if e.num == 1 {
		w.countRows()
	}
	if hasTurn(n.Steps) && w.n.flat && n.Label.Said || hasGapDec(n.Steps) {
		w.turning = true
	}
	w.lastRow = n
	w.afterPick = picksUp(n.Steps)
	if shapes(n) {
		w.shapeRow = n
	}
	if p := w.times(times, func() *problem { return w.workRow(n, e.num) }); p != nil {
		return p
	}
	if body := ribBody(n.Steps); body > 0 {
		w.ribOf = body
	}
	w.patternRow(n, e.num)
	return nil
}

// lift brings the stitches of an inserted heel onto the needles.
func (w *worker) lift(n *script.Lift) *problem {
	sum := 0
	var sizes []int
	for i, c := range n.Parts {
		v := int(w.val(c))
		if n.Corner.Known() && i < n.Corners {
			v += int(w.val(n.Corner))
		}
		sizes = append(sizes, v)
		sum += v
	}
	w.establish(sum)
	w.n.spread(sizes)
	w.markers = 0
	w.countRows()
	w.corners = n.Corners
	if waste := w.val(w.waste); w.waste.Known() && waste > 0 && !slices.ContainsFunc(n.Parts, func(c pattern.Number) bool { return w.val(c) == waste }) {
		at := n.Parts[0]
		p := w.remark(at.Span(w.size), source.StitchCount, source.Say("follow.waste", "{0} were knitted with waste yarn, but {1} come onto the needles from below", source.InSts(int(waste)), int(w.val(at))), source.Sts(int(w.val(at))), source.Sts(int(waste)))
		return p
	}
	return nil
}

// record notes what an item leaves on the needles.
func (w *worker) record(item script.Item, label string) {
	if w.rec != nil && w.began {
		w.rec.note(item, label, w.size, w.now(), w.sure())
	}
}

// now is what is on the needles, as far as that is known.
func (w *worker) now() Stitches {
	switch {
	case w.known && w.alone > 0:
		return Stitches{w.alone, w.n.total()}
	case w.known:
		return Stitches{w.n.worked(), w.n.total()}
	case w.total >= 0:
		return Stitches{-1, w.total}
	}
	return Stitches{-1, -1}
}

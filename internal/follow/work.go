package follow

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"sockwright/internal/pattern"
	"sockwright/internal/script"
	"sockwright/internal/source"
)

// Limits of one size. A sock has some 250 rows and 15,000 stitches.
const (
	maxRows  = 100_000
	maxMoves = 2_000_000
	maxLive  = 20_000
)

// conventions are readings that are chosen once for a whole text.
type conventions struct {
	bareMore  bool // "rep rows 1 and 2 six times" comes on top of the first time
	beforeGap bool // "to the gap" means to 1 stitch before it
}

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

	part        script.Part
	section     *script.Section
	partRows    int  // rows worked since the part or the block began
	rowsKnown   bool // partRows is exact
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
	plainOf     int // rounds of the last stretch of plain work
	ribOf       int // stitches of one repeat of the last rib
	moves       int
	rowsWorked  int
	stopped     bool
	lastPattern int                // number of the pattern row worked last
	patternLen  int                // rows of the stitch pattern worked last
	afterPick   bool               // the last row picked up stitches
	flapRule    func(size int) int // rows of the flap in another size, if it states them
	snapshot    *worker            // where a sock that is told as right and left parts begins
	fabric      string             // of the part worked flat, if it is said
	ended       bool
	facingSaid  bool // the side that faces has been said, not followed
	firstRow    bool // the next row may begin on either side
	sideOff     bool // sides are told the wrong way round since a fault

	reportedPickUp bool
	soft           []*problem // found on the way

	counts *[]Count
	final  int
}

// A Count is what is on the needles after a line.
type Count struct {
	Line        int
	Label       string
	Size        int
	First, Last Stitches
	Times       int
	Sure        bool
}

// Stitches are live stitches at one moment.
type Stitches struct{ Worked, Total int }

func newWorker(s *script.Script, p []entry, size int) *worker {
	return &worker{script: s, plan: p, size: size, total: -1, final: -1, rowsKnown: true}
}

// val is the value of a number for the size that is worked.
func (w *worker) val(n pattern.Number) int32 {
	v := n.In(w.size)
	if w.ov.at.Known() && n.Span(w.size) == w.ov.at {
		return w.ov.value
	}
	return v
}

func (w *worker) clone() *worker {
	c := *w
	c.n = w.n.clone()
	c.soft = slices.Clone(w.soft)
	c.counts = nil
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
	w.n = needles{facing: script.RS}
	w.n.left = make([]cell, min(max(total, 0), maxLive))
	w.ended = false
}

// perform does what an entry says and returns what is wrong with it.
func (w *worker) perform(e *entry) (problems []*problem) {
	base := script.Of(e.item)
	if base.Sizes != 0 && !base.Sizes.Has(w.size) || w.stopped {
		return nil
	}
	before := w.live()
	add := func(p *problem) {
		if p != nil {
			problems = append(problems, p)
		}
	}
	w.soft = w.soft[:0]
	label := ""
	var claims []script.Claim
	switch n := e.item.(type) {
	case *script.Section:
		w.enter(n)
		return nil
	case *script.CastOn:
		add(w.castOn(n))
		label = "Cast-on"
	case *script.Row:
		label = name(n, e.num)
		if w.began || picksUp(n.Steps) {
			add(w.row(e, n))
		}
		claims = n.Claims
	case *script.Repeat:
		label = "Repeat"
		problems = append(problems, w.repeat(e, n)...)
		claims = n.Claims
	case *script.Plain:
		label = "Rnds"
		problems = append(problems, w.plainRows(n)...)
		claims = n.Claims
	case *script.Shape:
		label = "Shaping"
		problems = append(problems, w.shape(n)...)
		claims = n.Claims
	case *script.Divide:
		label = "Heel"
		add(w.divide(n))
	case *script.Arrange:
		label = "Needles"
		problems = append(problems, w.arrange(n)...)
	case *script.State:
		label = "State"
		problems = append(problems, w.state(n)...)
	case *script.Resume:
		label = "Round"
		if w.known {
			w.n.rejoin()
			w.endFlap()
		}
		claims = n.Claims
	case *script.Facing:
		if w.began && w.n.facing == script.NoSide || !w.n.flat {
			w.n.facing = n.Side
		}
		w.facingSaid = true
		return nil
	case *script.Lift:
		label = "Heel"
		w.lift(n)
		claims = n.Claims
	case *script.Unwrap:
		label = "Wraps"
		if w.known {
			w.n.dropGaps()
			w.n.begin()
		}
	case *script.Close:
		w.final = w.finalNow()
		w.ended = true
		return nil
	case *script.Lost:
		w.lose()
		return nil
	}
	for _, p := range w.soft {
		p.soft = true
		problems = append(problems, p)
	}
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
	if slices.ContainsFunc(problems, func(p *problem) bool { return !p.soft }) && w.known {
		w.lose()
	}
	problems = slices.DeleteFunc(problems, func(p *problem) bool { return p.untold })
	problems = append(problems, w.checkAll(claims, e)...)
	w.record(e, label)
	return problems
}

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
			w.partRows = 0
		}
	case strings.Contains(name, "both socks"):
		w.snapshot = nil
	}
	if s.Part != 0 {
		if s.Part != w.part || s.Part != script.Heel {
			w.partRows, w.rowsKnown = 0, true
		}
		if s.Part == script.Heel && w.part == script.Heel {
			w.partRows = 0
		}
		w.part = s.Part
		if w.known && w.n.flat && (s.Part == script.Foot || s.Part == script.Toe) {
			w.n.rejoin()
		}
	}
}

func (w *worker) castOn(n *script.CastOn) *problem {
	v := int(w.val(n.N))
	if n.N.In(w.size) == pattern.Gap {
		w.began, w.known = true, false
		return nil
	}
	if n.On > 0 {
		v *= n.On
	}
	if v < 1 || v > maxLive {
		w.began = true
		return w.fail(n.N.Span(w.size), source.StitchCount, source.Say("follow.cast-on", "{0} cannot be cast on: the needles take 1 to {1}", source.InSts(v), maxLive), source.Sts(v), nil)
	}
	w.establish(v)
	if n.On > 0 {
		w.layEach(n.On)
	}
	w.partRows, w.markers, w.part = 0, 0, 0
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
			v := w.val(n.Stop.N)
			if v == pattern.Gap {
				return nil
			}
			times = int(v)
		case script.Measures:
			w.untilLength()
		case script.Remain:
			return w.untilRemain([]*script.Row{n}, nil, n.Stop)
		case script.UsedUp:
			w.turning = true
			return w.untilUsedUp([]*script.Row{n}, &entry{})
		}
	}
	if len(n.Label.Nums) > 0 && n.Stop != nil {
		times = max(times, 1)
	}
	if e.num == 1 {
		w.partRows = 0
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
	if e.num > 0 {
		w.lastPattern = e.num
	}
	return nil
}

// times does something again and again; where it has stopped to change anything, the rest
// is only counted.
func (w *worker) times(n int, do func() *problem) *problem {
	for i := 0; i < n; i++ {
		before := w.n.clone()
		rows := w.rowsWorked
		if p := do(); p != nil {
			return p
		}
		if w.stopped {
			return nil
		}
		each := w.rowsWorked - rows
		if left := n - i - 1; left > 2 && w.n.facing == before.facing && w.n.same(&before) {
			w.rowsWorked += each * left
			w.partRows += each * left
			if w.n.flat {
				w.flapRows += each * left
				if w.lastRow != nil && slipsFirst(w.lastRow.Steps) {
					w.slipRows += each * left
				}
			}
			if w.rowsWorked > maxRows {
				return w.tooLong(source.Span{})
			}
			return nil
		}
	}
	return nil
}

func hasTurn(steps []script.Step) bool {
	return slices.ContainsFunc(steps, func(s script.Step) bool { return s.Op == script.Turn })
}

func hasGapDec(steps []script.Step) bool {
	return slices.ContainsFunc(steps, func(s script.Step) bool { return s.To == script.Gap })
}

func shapes(r *script.Row) bool {
	return r.Label.Name == "dec" || r.Label.Name == "inc" || changes(r.Steps)
}

func changes(steps []script.Step) bool {
	return slices.ContainsFunc(steps, func(s script.Step) bool {
		return s.Op != script.PickUp && s.Uses != s.Makes && s.Op != script.Group && s.Op != script.ToNeedle && s.Op != script.Turn && s.Op != script.Wrap || s.Op == script.Group && changes(s.Body)
	})
}

func ribBody(steps []script.Step) int {
	for _, s := range steps {
		if s.Op != script.Group {
			continue
		}
		k, p, sum := 0, 0, 0
		for _, b := range s.Body {
			n := 1
			if b.N.Known() {
				n = int(b.N.In(0))
			}
			switch b.Op {
			case script.Knit:
				k++
			case script.Purl:
				p++
			default:
				return 0
			}
			sum += n
		}
		if k > 0 && k == p {
			return sum / k
		}
	}
	return 0
}

// checkSide compares the side that a row names with the one that faces.
func (w *worker) checkSide(r *script.Row, num int) *problem {
	side := r.Label.Side
	if side == script.NoSide || !w.known {
		return nil
	}
	if w.n.flat && w.fabric == "stockinette" {
		if kind := allOf(r.Steps); kind == script.Knit && side == script.WS || kind == script.Purl && side == script.RS {
			p := w.fail(r.Label.At, source.Direction, source.Say("follow.stockinette", "{0} is told as a {1} row, but stockinette is knit on the right side and purled on the wrong side", name(r, num), side), nil, nil)
			p.soft = true
			w.soft = append(w.soft, p)
		}
	}
	if !w.n.flat {
		if !w.facingSaid {
			w.n.facing = side
			return nil
		}
		w.facingSaid = false
	}
	facing := w.n.facing
	switch {
	case facing == script.NoSide || w.firstRow:
		w.n.facing = side
		w.firstRow = false
		return nil
	case facing == side:
		w.sideOff = false
		return nil
	}
	if w.sideOff { // told once
		return nil
	}
	w.sideOff = true
	p := w.fail(r.Label.At, source.Direction, source.Say("follow.side", "{0} is told as a {1} row, but the {2} faces here", name(r, num), side, map[script.Side]string{script.RS: "right side", script.WS: "wrong side"}[facing]), nil, nil)
	p.soft = true
	p.fault.Mends = []source.Mend{{Why: source.Say("follow.mend-side", "call it a {0} row, or work a row more or less before it", facing)}}
	return p
}

// allOf is the stitch of a row that has but one kind, k or p; Work if it has several.
func allOf(steps []script.Step) script.Op {
	op := script.Work
	for _, s := range steps {
		switch s.Op {
		case script.Knit, script.Purl:
			if op != script.Work && op != s.Op {
				return script.Work
			}
			op = s.Op
		case script.Turn, script.Wrap:
		default:
			return script.Work
		}
	}
	return op
}

// lift brings the stitches of an inserted heel onto the needles.
func (w *worker) lift(n *script.Lift) {
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
	w.partRows, w.markers = 0, 0
	w.corners = n.Corners
}

// untilLength works until a length is reached: how many rows that takes is not told, so
// neither is the side that faces then.
func (w *worker) untilLength() {
	w.rowsKnown = false
	if w.n.flat {
		w.n.facing = script.NoSide
	}
}

// repeat works rows again.
func (w *worker) repeat(e *entry, n *script.Repeat) (problems []*problem) {
	if !w.began {
		return nil
	}
	if len(e.rows) == 0 {
		w.partRows, w.rowsKnown = 0, false
		if n.Ref.Pattern != "" || n.Stop.Kind == script.Measures || !w.known {
			return nil
		}
		p := w.fail(n.At, source.Unread, source.Say("follow.no-rows", "rows are to be worked again, but no such rows stand above"), nil, nil)
		p.fault.Severity = source.Warning
		return []*problem{p}
	}
	if !w.known {
		return nil
	}
	w.afterPick = false
	if n.Ref.Pattern != "" {
		w.patternLen = slices.Max(append(e.all, 0))
	}
	rows := e.rows
	work := func() *problem {
		for i, r := range rows {
			num := 0
			if i < len(e.nums) {
				num = e.nums[i]
				w.lastPattern = num
			}
			if p := w.workRow(r, num); p != nil {
				return p
			}
		}
		return nil
	}
	stop := n.Stop
	v := 0
	if stop.N.Known() {
		g := w.val(stop.N)
		if g == pattern.Gap {
			return nil
		}
		v = int(g)
	}
	var p *problem
	switch stop.Kind {
	case script.Times:
		if e.just && !w.conv.bareMore {
			v--
		}
		p = w.times(v, work)
	case script.InAll:
		if e.just {
			v--
		}
		p = w.times(v, work)
	case script.More:
		p = w.times(v, work)
	case script.Rows, script.MoreRows:
		if stop.Kind == script.Rows && w.n.flat {
			rule := stop.N
			w.flapRule = func(size int) int { return int(rule.In(size)) }
		}
		p = w.rowsMore(rows, e, stop, v)
	case script.Ridges:
		stop.Kind = script.Rows
		p = w.rowsMore(rows, e, stop, 2*v)
	case script.Measures:
		p = work()
		w.rowsKnown = false
		if w.n.flat {
			w.n.facing = stop.Side.Other()
		}
		if p == nil && changesAny(rows, w) {
			// until a length: how often is not known
			w.lose()
		}
	case script.Remain:
		p = w.untilRemain(rows, e, &stop)
	case script.UsedUp:
		p = w.untilUsedUp(rows, e)
		problems = append(problems, w.checkAll(stop.Claims, e)...)
	case script.Wrapped, script.Unwrapped:
		p = w.untilWrapped(rows, &stop)
		if p == nil {
			problems = append(problems, w.checkWraps(stop.Claims)...)
		}
	case script.Split:
		if e.split != nil {
			stop.Claims = e.split
		}
		p = w.untilSplit(rows, &stop)
		if e.split != nil {
			stop.Claims = nil
		}
		if p == nil {
			problems = append(problems, w.checkAll(stop.Claims, e)...)
		}
	default:
		p = work()
	}
	if stop.Row > 0 {
		w.lastPattern = stop.Row
	}
	if p != nil {
		if p.fault.At == (source.Span{}) {
			p.fault.At = n.At
		}
		problems = append(problems, p)
	}
	return problems
}

func changesAny(rows []*script.Row, w *worker) bool {
	sum := w.n.clone()
	before := sum.total()
	c := w.clone()
	for _, r := range rows {
		if p := c.workRow(r, 0); p != nil {
			return false
		}
	}
	return c.known && c.n.total() != before
}

// rowsMore works rows until so many are worked in all, or so many more.
func (w *worker) rowsMore(rows []*script.Row, e *entry, stop script.Stop, v int) *problem {
	if stop.Kind == script.Rows {
		v -= w.partRows
	}
	if v > maxRows {
		return w.tooLong(stop.At)
	}
	if len(rows) == 0 {
		return nil
	}
	full := func() *problem {
		for i, r := range rows {
			num := 0
			if i < len(e.nums) {
				num = e.nums[i]
			}
			if p := w.workRow(r, num); p != nil {
				return p
			}
		}
		return nil
	}
	if v > 0 {
		if p := w.times(v/len(rows), full); p != nil {
			return p
		}
		for _, r := range rows[:v%len(rows)] {
			if p := w.workRow(r, 0); p != nil {
				return p
			}
		}
	}
	return nil
}

// untilRemain works rows until a count is reached. One that is passed over is a fault.
func (w *worker) untilRemain(rows []*script.Row, e *entry, stop *script.Stop) *problem {
	v := w.val(stop.N)
	if v == pattern.Gap {
		return nil
	}
	want := int(v)
	at := stop.N.Span(w.size)
	reached := func() bool { return w.reached(want) }
	last := w.measure(want)
	if reached() {
		return nil
	}
	down := last > want
	for pass := 0; pass < 5000; pass++ {
		before := w.n.clone()
		for i, r := range rows {
			num := 0
			if e != nil && i < len(e.nums) {
				num = e.nums[i]
			}
			if p := w.workRow(r, num); p != nil {
				if now := w.measure(want); now != want && !p.soft { // it ran out of stitches on the way
					p.fault.At = at
				}
				return p
			}
			now := w.measure(want)
			if reached() {
				return nil
			}
			if down && now < want || !down && now > want {
				p := w.fail(at, source.Parity, source.Say("follow.passed", "{0} cannot be reached: the count goes {1}, {2}", source.InSts(want), last, now), source.Sts(want), source.Sts(last))
				p.fault.Mends = []source.Mend{{Why: source.Say("follow.mend-passed", "{0} or {1} can be reached", last, now)}}
				return p
			}
			last = now
		}
		if w.n.same(&before) || !w.known || w.stopped {
			if w.stopped || !w.known {
				return nil
			}
			return w.fail(at, source.StitchCount, source.Say("follow.never", "{0} are never reached: the rows that are repeated leave {1}", source.InSts(want), source.InSts(last)), source.Sts(want), source.Sts(last))
		}
	}
	return w.fail(at, source.StitchCount, source.Say("follow.never", "{0} are never reached: the rows that are repeated leave {1}", source.InSts(want), source.InSts(last)), source.Sts(want), source.Sts(last))
}

// measure is the count that an aim speaks of: of the part worked flat, or of all.
func (w *worker) measure(want int) int {
	if w.n.flat {
		return w.n.worked()
	}
	return w.n.total()
}

func (w *worker) reached(want int) bool { return w.measure(want) == want }

// untilUsedUp works the rows of a heel turn until no stitch waits beyond a gap.
func (w *worker) untilUsedUp(rows []*script.Row, e *entry) *problem {
	if w.wrapsAnywhere() || slices.ContainsFunc(rows, func(r *script.Row) bool { return neutral(r.Steps) }) { // the second half of a short-row heel
		w.n.dropGaps()
		w.n.begin()
		return nil
	}
	w.turning = true
	for pass := 0; pass < 2000; pass++ {
		for i, r := range rows {
			if !w.n.gaps() && count(w.n.right) == 0 {
				return nil
			}
			num := 0
			if i < len(e.nums) {
				num = e.nums[i]
			}
			if a, b := w.n.waiting(); a == 0 && b == 0 && !w.n.gaps() {
				return nil
			}
			before := w.n.worked()
			if p := w.workRow(r, num); p != nil {
				return p
			}
			if w.n.worked() == before && pass > 1000 {
				return nil
			}
		}
		if !w.known || w.stopped {
			return nil
		}
	}
	return nil
}

func (w *worker) wrapsAnywhere() bool {
	return slices.ContainsFunc(w.n.left, func(c cell) bool { return c.wraps }) || slices.ContainsFunc(w.n.right, func(c cell) bool { return c.wraps })
}

func (w *worker) untilWrapped(rows []*script.Row, stop *script.Stop) *problem {
	v := int(w.val(stop.N))
	if slices.ContainsFunc(rows, func(r *script.Row) bool { return neutral(r.Steps) }) {
		return nil
	}
	for pass := 0; pass < 2000; pass++ {
		for _, r := range rows {
			a, none, b := w.n.wrapped()
			if stop.Kind == script.Wrapped && a >= v && b >= v || stop.Kind == script.Unwrapped && none <= v {
				return nil
			}
			if p := w.workRow(r, 0); p != nil {
				return p
			}
		}
		if !w.known || w.stopped {
			return nil
		}
	}
	return w.fail(stop.At, source.StitchCount, source.Say("follow.never-wrapped", "that is never reached"), nil, nil)
}

// checkWraps compares what is said of wrapped and unwrapped stitches.
func (w *worker) checkWraps(claims []script.Claim) (out []*problem) {
	a, none, b := w.n.wrapped()
	if a == 0 && b == 0 {
		return nil
	}
	for _, c := range claims {
		if c.What == script.WrapEach && !c.N.Known() { // as many at one side as at the other
			if a != b {
				p := w.fail(c.At, source.Parity, source.Say("follow.uneven-wraps", "{0} less {1} in the middle cannot be halved: {2} are wrapped at one side and {3} at the other", source.InSts(a+none+b), none, a, b), source.Sts(none), nil)
				p.soft = true
				out = append(out, p)
			}
			continue
		}
		v := int(w.val(c.N))
		switch c.What {
		case script.WrapEach:
			if v != a && v != b {
				out = append(out, w.wrongCount(c, v, a, "wrapped at each side"))
			}
		case script.WrapNone:
			if v != none {
				out = append(out, w.wrongCount(c, v, none, "not wrapped"))
			}
		}
	}
	return out
}

func (w *worker) wrongCount(c script.Claim, stated, actual int, what string) *problem {
	text := source.Say("follow.count", "{0} stated, but {1} are on the needles", source.InSts(stated), actual)
	if what != "" {
		text = source.Say("follow.count-of", "{0} stated {1}, but there are {2}", source.InSts(stated), what, actual)
	}
	p := w.fail(c.N.Span(w.size), source.StitchCount, text, source.Sts(stated), source.Sts(actual))
	p.soft = true
	p.fault.Mends = []source.Mend{w.write(c.N, actual)}
	return p
}

// write is the mend that writes another figure for this size.
func (w *worker) write(n pattern.Number, v int) source.Mend {
	m := source.Mend{Why: source.Say("follow.mend-count", "state {0}", v)}
	if at := n.Span(w.size); at.Known() && (len(n.Cols) > 1 || len(w.script.Sizes) == 1) {
		m.Edits = []source.Edit{{At: at, Text: itoa(v)}}
	}
	return m
}

// untilSplit works rows until counts on the needles are as stated, in whatever order.
func (w *worker) untilSplit(rows []*script.Row, stop *script.Stop) *problem {
	sum := 0
	for _, c := range stop.Claims {
		k := 1
		if c.What == script.EachNdl {
			k = w.needlesInUse()
		}
		sum += k * int(w.val(c.N))
	}
	each := false
	for _, c := range stop.Claims {
		each = each || c.What == script.OfPart || c.What == script.Between
	}
	for pass := 0; pass < 2000; pass++ {
		for _, r := range rows {
			if each {
				bad := w.clone()
				if len(bad.checkAll(stop.Claims, nil)) == 0 {
					return nil
				}
			} else if w.n.total() <= sum {
				return nil
			}
			if p := w.workRow(r, 0); p != nil {
				return p
			}
		}
		if !w.known || w.stopped {
			return nil
		}
	}
	return w.fail(stop.At, source.StitchCount, source.Say("follow.never-split", "that is never reached"), nil, nil)
}

func (w *worker) needlesInUse() int {
	top := 0
	for _, list := range [][]cell{w.n.left, w.n.right, w.n.held} {
		for _, c := range list {
			top = max(top, int(c.ndl))
		}
	}
	return max(top, 1)
}

// plainRows works rows that are all alike.
func (w *worker) plainRows(n *script.Plain) (problems []*problem) {
	if !w.began {
		if len(n.Claims) == 0 {
			return nil
		}
		w.open(n.Claims)
	}
	if n.Stop.Kind == script.UsedUp && n.Flat {
		if w.known && w.n.flat {
			if p := w.untilUsedUp([]*script.Row{{Base: n.Base, Steps: n.Steps, Flat: true}}, &entry{}); p != nil {
				problems = append(problems, p)
			}
			problems = append(problems, w.checkAll(n.Stop.Claims, nil)...)
		}
		return problems
	}
	rows := 1
	known := false
	if n.Stop.Kind == script.Rows || n.Stop.Kind == script.MoreRows {
		v := w.val(n.Stop.N)
		if v == pattern.Gap {
			return nil
		}
		rows, known = int(v), true
		if rows > maxRows {
			return []*problem{w.tooLong(n.Stop.N.Span(w.size))}
		}
		w.plainOf = rows
	}
	if w.known && w.part == script.Heel && !w.n.flat && len(n.Claims) > 0 && n.Claims[0].What == script.Live { // "32 rows on 32 sts"
		if v := int(w.val(n.Claims[0].N)); v > 0 && v < w.n.total() {
			w.divide(&script.Divide{Base: n.Base, N: n.Claims[0].N, From: script.Last})
		}
	}
	if w.known && !n.Flat && w.n.flat && w.part != script.Heel {
		w.n.rejoin()
		w.endFlap()
	}
	if n.Steps != nil && w.known {
		r := &script.Row{Base: n.Base, Steps: n.Steps, Flat: n.Flat}
		if body := ribBody(n.Steps); body > 0 {
			w.ribOf = body
		}
		if len(n.Steps) == 1 && n.Steps[0].Op == script.Group {
			if p := w.workRow(r, 0); p != nil {
				if p.fault.Kind == source.NotDividing {
					p.fault.At = n.Steps[0].At
				}
				return append(problems, p)
			}
			w.partRows--
		}
	}
	if w.known && w.n.flat && known && n.SlipFirst {
		rule := n.Stop.N
		w.flapRule = func(size int) int { return int(rule.In(size)) }
	}
	if w.known {
		if w.n.flat {
			w.n.begin2(rows)
			w.flapRows += rows
			if n.SlipFirst {
				w.slipRows += rows
			}
			if !known {
				w.n.facing = n.Stop.Side.Other()
			}
		}
	}
	w.partRows += rows
	w.rowsWorked += rows
	if !known {
		w.rowsKnown = false
	}
	if n.About != nil && known {
		problems = append(problems, w.checkLength(n, rows)...)
	}
	return problems
}

// begin2 works so many plain rows to and fro.
func (n *needles) begin2(rows int) {
	n.begin()
	if rows%2 == 1 {
		n.left, n.right = n.right, n.left
		n.begin()
		n.facing = n.facing.Other()
	}
}

// checkLength compares rounds with the length that is said to be the same.
func (w *worker) checkLength(n *script.Plain, rows int) []*problem {
	g := w.script.Gauge
	want := n.About.In(w.size)
	if g == nil || g.Rows == 0 || want == 0 {
		return nil
	}
	is := float64(rows) / g.Rows * g.Over
	tolerance := max(0.06*is, 4)
	if d := is - want; d <= tolerance && d >= -tolerance {
		return nil
	}
	unit := 25.4
	if n.About.Unit == "cm" {
		unit = 10
	}
	round := func(mm float64) float64 { return float64(int(mm/unit*100+0.5)) / 100 }
	at := n.About.At
	if w.size < len(n.About.Cols) {
		at = n.About.Cols[w.size]
	}
	p := w.fail(at, source.BadLength, source.Say("follow.length", "{0} rounds at the stated gauge are {1} {2}, not {3}", rows, round(is), n.About.Unit, round(want)), &source.Quantity{Value: round(want), Unit: n.About.Unit}, &source.Quantity{Value: round(is), Unit: n.About.Unit})
	p.soft = true
	return []*problem{p}
}

// shape works rounds that take or add stitches without telling which.
func (w *worker) shape(n *script.Shape) (problems []*problem) {
	if !w.began || !w.known {
		return nil
	}
	change := 0
	var row *script.Row
	switch {
	case n.Name == "fewer":
		change = w.lastShape
	case n.Steps != nil:
		row = &script.Row{Base: n.Base, Steps: n.Steps}
	case n.Change.Known():
		change = int(w.val(n.Change))
		w.lastShape, w.shapeRow = change, nil
	case w.shapeRow != nil:
		row = w.shapeRow
	default:
		change = w.lastShape
	}
	once := func() *problem {
		w.partRows += max(n.Every, 1) - 1
		if row != nil {
			return w.workRow(row, 0)
		}
		w.partRows++
		w.rowsWorked++
		have := w.n.worked()
		if have+change < 1 || have+change > maxLive {
			return w.fail(n.At, source.StitchCount, source.Say("follow.shape-none", "the shaping takes more stitches than there are"), nil, nil)
		}
		if w.n.flat && w.part != script.Heel {
			w.n.rejoin()
		}
		w.adjust(change)
		return nil
	}
	if n.First > 0 { // on rounds that have been worked above
		rounds := w.plainOf
		if rounds == 0 {
			return nil
		}
		times := 0
		if n.Every > 0 && rounds >= n.First {
			times = (rounds-n.First)/n.Every + 1
		}
		if n.Stop.Kind == script.Times || n.Stop.Kind == script.InAll {
			times = int(w.val(n.Stop.N))
		}
		for i := range times {
			rows := w.partRows
			if p := once(); p != nil {
				return append(problems, p)
			}
			w.partRows = rows
			if i == 0 {
				w.recordFirst(script.Of(n).Line)
			}
		}
		return problems
	}
	switch n.Stop.Kind {
	case script.Remain, script.Split:
		want := 0
		at := n.Stop.At
		if n.Stop.Kind == script.Remain {
			v := w.val(n.Stop.N)
			if v == pattern.Gap {
				return nil
			}
			want, at = int(v), n.Stop.N.Span(w.size)
		} else {
			for _, c := range n.Stop.Claims {
				k := 1
				if c.What == script.EachNdl {
					k = w.needlesInUse()
				}
				want += k * int(w.val(c.N))
			}
		}
		last := w.n.total()
		for i := 0; last != want && i < 5000; i++ {
			if p := once(); p != nil {
				return append(problems, p)
			}
			now := w.n.total()
			if now == last {
				return append(problems, w.fail(at, source.StitchCount, source.Say("follow.never", "{0} are never reached: the rows that are repeated leave {1}", source.InSts(want), source.InSts(last)), source.Sts(want), source.Sts(last)))
			}
			if (last-want)*(now-want) < 0 {
				p := w.fail(at, source.Parity, source.Say("follow.passed", "{0} cannot be reached: the count goes {1}, {2}", source.InSts(want), last, now), source.Sts(want), source.Sts(last))
				return append(problems, p)
			}
			last = now
		}
	case script.Times, script.InAll, script.More:
		v := w.val(n.Stop.N)
		if v == pattern.Gap {
			return nil
		}
		for range min(int(v), maxRows) {
			if p := once(); p != nil {
				return append(problems, p)
			}
		}
	case script.Measures:
		w.lose()
	default:
		if p := once(); p != nil {
			return append(problems, p)
		}
	}
	return problems
}

// adjust adds or takes stitches where the text does not say which: outside the instep, or
// from each needle alike.
func (w *worker) adjust(change int) {
	sole, told := w.n.inPart(script.Sole)
	instep, _ := w.n.inPart(script.Instep)
	if told && sole > 0 && instep > 0 && (w.part == script.Gusset || sole > instep) && change < 0 {
		w.n.begin()
		for i := 0; change < 0 && sole > 0; i++ { // from both ends of the sole beside the instep
			at := -1
			for j := range w.n.left {
				c := w.n.left[j]
				if c.mark != stitch || c.part == script.Instep {
					continue
				}
				if i%2 == 0 {
					at = j
					break
				}
				at = j
			}
			if at < 0 {
				break
			}
			w.n.left = slices.Delete(w.n.left, at, at+1)
			change++
			sole--
		}
	}
	if change == 0 {
		return
	}
	k := w.needlesInUse()
	if k > 1 && change%k != 0 && change%4 == 0 && k == 3 { // a toe: one from each side needle, two from the instep's
		w.n.begin()
		w.takeFrom(1, -change/4)
		w.takeFrom(2, -change/2)
		w.takeFrom(3, -change/4)
		return
	}
	if k > 1 && change%k == 0 {
		w.n.begin()
		for i := 1; i <= k; i++ {
			w.takeFrom(i, -change/k)
		}
		return
	}
	w.n.resize(w.n.worked() + change)
}

// takeFrom takes n stitches from needle k, or adds some where n is negative.
func (w *worker) takeFrom(k, n int) {
	for ; n > 0; n-- {
		i := slices.IndexFunc(w.n.left, func(c cell) bool { return c.mark == stitch && int(c.ndl) == k })
		if i < 0 {
			return
		}
		w.n.left = slices.Delete(w.n.left, i, i+1)
	}
	for ; n < 0; n++ {
		i := slices.IndexFunc(w.n.left, func(c cell) bool { return c.mark == stitch && int(c.ndl) == k })
		if i < 0 {
			return
		}
		w.n.left = slices.Insert(w.n.left, i, w.n.left[i])
	}
}

// divide sets the heel apart.
func (w *worker) divide(n *script.Divide) *problem {
	v := -1
	if n.N.Known() {
		g := w.val(n.N)
		if g == pattern.Gap {
			if w.began && w.known {
				w.total = w.n.total()
			}
			w.known = false
			w.n.flat = true
			return nil
		}
		v = int(g)
	}
	if v > maxLive {
		return w.fail(n.N.Span(w.size), source.StitchCount, source.Say("follow.too-wide", "more than {0} stitches on the needles: no sock has so many", maxLive), nil, nil)
	}
	if !w.began || !w.known {
		if v < 0 {
			return nil
		}
		total := w.total
		w.establish(v)
		w.n.flat = true
		if total > v {
			for range total - v {
				w.n.held = append(w.n.held, cell{part: script.Instep})
			}
		}
		w.markHeel()
		w.n.facing = n.Side
		w.firstRow = n.Side == script.NoSide
		w.newFlap()
		return nil
	}
	if w.n.flat {
		if n.Part == script.Instep {
			return nil
		}
		w.heelCount = w.n.worked()
		if v >= 0 && v != w.n.worked() {
			p := w.fail(n.N.Span(w.size), source.StitchCount, source.Say("follow.heel", "the heel is said to be {0}, but {1} are in work", source.InSts(v), w.n.worked()), source.Sts(v), source.Sts(w.n.worked()))
			p.soft = true
			p.fault.Mends = []source.Mend{w.write(n.N, w.n.worked())}
			return p
		}
		return nil
	}
	all := w.n.total()
	if n.Plus.Known() && v >= 0 {
		if more := w.val(n.Plus); more != pattern.Gap {
			v += int(more)
		}
	}
	if n.Part == script.Instep && v > 0 && v < all { // the others are the heel
		other := *n
		other.Part, other.N, other.Plus = script.Heel, pattern.Of(all-v), pattern.Number{}
		other.From = script.Last
		if n.From == script.Last {
			other.From = script.First
		}
		return w.divide(&other)
	}
	if n.From == script.OnNeedle {
		w.needNeedles(max(2, n.Needle))
		on, _ := w.n.onNeedle(n.Needle)
		if v >= 0 && on != v {
			p := w.fail(n.N.Span(w.size), source.StitchCount, source.Say("follow.heel-needle", "needle {0} is said to hold {1}, but it has {2}", n.Needle, source.InSts(v), on), source.Sts(v), source.Sts(on))
			p.soft = true
			w.soft = append(w.soft, p)
		}
		v = on
	}
	if v < 0 {
		v = all / 2
	}
	if v < 1 {
		return w.fail(n.At, source.StitchCount, source.Say("follow.heel-all", "the heel is to be {0} of {1}", v, source.InSts(all)), source.Sts(v), source.Sts(all))
	}
	if v > all {
		return w.fail(n.N.Span(w.size), source.StitchCount, source.Say("follow.heel-all", "the heel is to be {0} of {1}", v, source.InSts(all)), source.Sts(v), source.Sts(all))
	}
	w.n.begin()
	cells := make([]cell, 0, all)
	for i := len(w.n.left) - 1; i >= 0; i-- {
		if w.n.left[i].mark == stitch {
			cells = append(cells, w.n.left[i])
		}
	}
	var heel, rest []cell
	switch n.From {
	case script.OnNeedle:
		for _, c := range cells {
			if int(c.ndl) == n.Needle {
				heel = append(heel, c)
			} else {
				rest = append(rest, c)
			}
		}
	case script.Last:
		heel, rest = cells[all-v:], cells[:all-v]
	default:
		heel, rest = cells[:v], cells[v:]
	}
	w.n.left = reversed(heel)
	w.n.right = nil
	w.n.held = slices.Clone(rest)
	for i := range w.n.held {
		w.n.held[i].part = script.Instep
	}
	w.n.flat = true
	facing := script.RS
	if w.n.facing == script.WS && !w.facingSaid {
		facing = script.WS
	}
	w.n.facing = facing
	if n.Turn {
		w.n.facing = script.WS
	}
	if n.Side != 0 {
		w.n.facing = n.Side
	}
	w.firstRow = !n.Turn && n.Side == 0 && !w.facingSaid
	w.facingSaid = false
	w.fabric = n.Fabric
	w.markHeel()
	w.newFlap()
	return nil
}

func (w *worker) markHeel() {
	for i := range w.n.left {
		w.n.left[i].part = script.Heel
	}
	w.heelCount = w.n.worked()
}

func (w *worker) endFlap() { w.edges, w.turning = false, false }

// arrange lays the stitches out as the text says.
func (w *worker) arrange(n *script.Arrange) (problems []*problem) {
	if !w.began {
		w.open(n.Claims)
		return nil
	}
	if !w.known {
		return nil
	}
	if w.n.flat && w.part != script.Heel {
		w.n.rejoin()
	}
	if n.Even > 0 && len(n.Claims) == 0 {
		if !w.n.flat {
			w.layOver(n.Even)
		}
		return nil
	}
	return w.lay(n.Claims)
}

// lay compares a layout with what there is, and lays the stitches out.
func (w *worker) lay(claims []script.Claim) (problems []*problem) {
	sum := 0
	var sizes []int
	var parts []script.Part
	for _, c := range claims {
		v := w.val(c.N)
		if v == pattern.Gap {
			return nil
		}
		switch c.What {
		case script.Total, script.EachNdl:
			problems = append(problems, w.check(c, nil)...)
			continue
		}
		sizes = append(sizes, int(v))
		parts = append(parts, c.Part)
		sum += int(v)
	}
	if len(sizes) < 2 {
		return problems
	}
	if total := w.n.worked(); sum != total {
		c := claims[len(claims)-1]
		for _, x := range claims {
			if x.What != script.Total {
				c = x
			}
		}
		p := w.fail(c.N.Span(w.size), source.StitchCount, source.Say("follow.layout", "the needles hold {0} together, but there are {1}", source.InSts(sum), total), source.Sts(sum), source.Sts(total))
		p.soft = true
		return append(problems, p)
	}
	w.n.spread(sizes)
	w.nameParts(parts)
	return problems
}

// open begins the work with what is stated.
func (w *worker) open(claims []script.Claim) {
	total, heel, instep := -1, -1, -1
	var ndl []int
	var parts []script.Part
	for _, c := range claims {
		if !c.N.Known() {
			continue
		}
		v := int(w.val(c.N))
		if v < 0 || v > maxLive {
			continue
		}
		switch c.What {
		case script.Live, script.Total:
			if total < 0 {
				total = v
			}
		case script.OfPart:
			switch c.Part {
			case script.Heel, script.Sole, script.Flank, script.Middle:
				if c.Part == script.Heel || c.Part == script.Sole {
					if heel < 0 {
						heel = v
					}
				}
			case script.Instep:
				instep = v
			default:
				if total < 0 {
					total = v
				}
			}
			if c.Part == script.Sole || c.Part == script.Instep && heel < 0 {
				ndl = append(ndl, v)
				parts = append(parts, c.Part)
			}
		case script.OnNdl:
			ndl = append(ndl, v)
			parts = append(parts, c.Part)
		}
	}
	sum := 0
	for _, v := range ndl {
		sum += v
	}
	if w.part == script.Heel && total >= 0 && heel < 0 && len(ndl) == 0 { // "Heel turned: 16 sts"
		heel, total = total, -1
	}
	switch {
	case heel >= 0 && (len(ndl) == 0 || instep >= 0 && len(ndl) < 2) && !onNeedles(claims):
		w.establish(heel)
		w.n.flat = true
		w.n.facing = script.NoSide
		w.firstRow = true
		if instep < 0 && total > heel {
			instep = total - heel
		}
		for range max(instep, 0) {
			w.n.held = append(w.n.held, cell{part: script.Instep})
		}
		w.markHeel()
		w.newFlap()
	case total >= 0:
		w.establish(total)
		if len(ndl) > 1 && sum == total {
			w.n.spread(ndl)
			w.nameParts(parts)
		}
	case sum > 0:
		w.establish(sum)
		if len(ndl) > 1 {
			w.n.spread(ndl)
			w.nameParts(parts)
		}
	default:
		return
	}
	for _, c := range claims {
		if c.What == script.EachNdl && !c.N.Known() && !w.n.flat { // half on each
			w.layOver(2)
		}
	}
}

func onNeedles(claims []script.Claim) bool {
	return slices.ContainsFunc(claims, func(c script.Claim) bool { return c.What == script.OnNdl })
}

func (w *worker) nameParts(parts []script.Part) {
	for i := range w.n.left {
		if k := int(w.n.left[i].ndl); k >= 1 && k <= len(parts) && parts[k-1] != 0 {
			w.n.left[i].part = parts[k-1]
		}
	}
}

// state compares a statement with what is there, or begins with it.
func (w *worker) state(n *script.State) (problems []*problem) {
	if !w.began {
		w.open(n.Claims)
		return w.checkAll(n.Claims, nil)
	}
	if w.n.flat && w.known && !w.turning && (n.Turned || w.flapRows > 0 && w.saysTurned()) { // the turn itself is not told
		if c := n.Claims[0]; c.What == script.Live || c.What == script.OfPart && c.Part == script.Heel {
			if v := w.val(c.N); v != pattern.Gap && int(v) < w.n.worked() && v > 0 {
				w.n.dropGaps()
				w.n.resize(int(v))
				w.turning = true
				return w.checkAll(n.Claims[1:], nil)
			}
		}
	}
	if slices.ContainsFunc(n.Claims, func(c script.Claim) bool { return c.Soft }) {
		return nil
	}
	return w.checkAll(n.Claims, nil)
}

// saysTurned tells whether the part that is told is a heel that has been turned.
func (w *worker) saysTurned() bool {
	if w.section == nil {
		return false
	}
	name := strings.ToLower(w.section.Name)
	return strings.Contains(name, "turn")
}

func (w *worker) record(e *entry, label string) {
	w.recordLine(script.Of(e.item).Line, label)
}

func (w *worker) recordFirst(line int) { w.recordLine(line, "Shaping") }

func (w *worker) recordLine(line int, label string) {
	if w.counts == nil || !w.began {
		return
	}
	now := Stitches{-1, -1}
	if w.known {
		now = Stitches{w.n.worked(), w.n.total()}
	} else if w.total >= 0 {
		now.Total = w.total
	}
	list := *w.counts
	for i := len(list) - 1; i >= 0; i-- {
		if list[i].Line == line {
			list[i].Last = now
			list[i].Times++
			return
		}
	}
	*w.counts = append(list, Count{Line: line, Label: label, Size: w.size, First: now, Last: now, Times: 1, Sure: w.known})
}

func itoa(n int) string { return strconv.Itoa(n) }

func are(n int) string {
	switch n {
	case 0:
		return "none is"
	case 1:
		return "only 1 is"
	}
	return fmt.Sprintf("only %d are", n)
}

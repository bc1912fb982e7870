package follow

import (
	"slices"
	"strings"
	"unicode"

	"sockwright/internal/pattern"
	"sockwright/internal/script"
	"sockwright/internal/source"
)

// step works one step.
func (w *worker) step(rw *rowWork, s *script.Step) *problem {
	if w.moves > maxMoves {
		return w.tooMuch(s.At)
	}
	if w.isGap(s) {
		return nil
	}
	rw.step, rw.taken = s, 0
	n := 1
	if s.N.Known() {
		n = int(w.val(s.N))
	}
	switch s.Op {
	case script.OfChart:
		return w.chartStep(rw, s)
	case script.OfPattern:
		w.patternStep(rw, s)
	case script.ToNeedle:
		return w.toNeedle(rw, s)
	case script.Group:
		return w.group(rw, s)
	case script.PlaceMarker:
		if s.Name == "bor" || s.Name == "beg" { // the round begins anew here
			return nil
		}
		w.n.right = append(w.n.right, cell{mark: marker, name: letter(s.Name)})
		w.markers++
		return nil
	case script.PassMarker, script.TakeMarker:
		return w.passMarker(rw, s)
	case script.Turn:
		w.doTurn(rw, s)
		return nil
	case script.Wrap:
		c, ok := w.take(rw)
		if ok {
			c.wraps = true
			w.n.left = append(w.n.left, c)
		}
		w.doTurn(rw, s)
		return nil
	case script.PickUp:
		return w.pickUp(rw, s, n)
	case script.PassOver:
		for ; n > 0; n-- {
			if i := lastStitch(w.n.right[:max(len(w.n.right)-1, 0)]); i >= 0 {
				w.n.right = slices.Delete(w.n.right, i, i+1)
			}
		}
		return nil
	case script.Unknown:
		return &problem{untold: true} // told once for the whole text: see [unexplained]
	case script.CastMore:
		for ; n > 0; n-- {
			w.put(rw, w.model(rw))
		}
		return nil
	case script.Adjust:
		if s.N.Known() { // "inc 4 sts evenly"
			if s.Name == "dec" {
				n = -n
			}
			if w.n.worked()+n < 1 {
				return w.short(rw, s, -n, w.n.worked())
			}
			w.n.begin()
			w.adjust(n)
			w.n.begin()
			rw.came = true
			return nil
		}
		if w.corners > 0 {
			w.n.begin()
			w.n.resize(w.n.worked() - w.corners)
			w.corners = 0
			rw.came = true
		}
		return nil
	}
	if s == &rw.row.Steps[0] && w.opensWithLoop(rw) {
		w.n.right = append(w.n.right, cell{mark: loop})
		return nil
	}
	if s.To != script.Here {
		var p *problem
		if n, p = w.distance(rw, s); p != nil {
			return p
		}
		if s.Uses > 1 {
			if n%int(s.Uses) != 0 {
				return w.notDividing(rw, s.At, int(s.Uses), n)
			}
			n /= int(s.Uses)
		}
	}
	if rw.pickup && s.Part == script.Instep && s.To == script.Here {
		if p := w.bringInstep(rw, s, n); p != nil {
			return p
		}
	}
	return w.each(rw, s, n)
}

// opensWithLoop tells whether a row begins with a yarn over at the turn before it, which is a
// loop and no stitch.
func (w *worker) opensWithLoop(rw *rowWork) bool {
	first := rw.row.Steps[0]
	return first.Op == script.Increase && first.Name == "yo" && w.n.flat && hasTurn(rw.row.Steps)
}

// each works a stitch n times.
func (w *worker) each(rw *rowWork, s *script.Step, n int) *problem {
	uses, makes := int(s.Uses), int(s.Makes)
	if rw.part != 0 && rw.ndl == 0 && rw.group == nil && w.upTo(rw, 1) == 0 && count(w.n.left) > 0 { // past the part that was spoken of
		rw.part = 0
	}
	if uses == 1 && makes == 1 && w.upTo(rw, n) < n {
		if rw.pickup && w.bring(rw) { // goes on over the instep, or over the beginning
			if have := w.upTo(rw, n); have < n {
				return w.short(rw, s, n, have)
			}
		} else if s.Optional || n == 1 && w.lastOfTurn(rw, s) {
			return nil
		} else {
			return w.short(rw, s, n, w.avail(rw))
		}
	}
	for ; n > 0; n-- {
		if w.moves > maxMoves {
			return w.tooMuch(s.At)
		}
		var c cell
		uses := uses
		if s.Op == script.Decrease {
			uses -= w.n.takeLoops(uses - 1)
		}
		if uses > 0 {
			if have := w.upTo(rw, uses); have < uses {
				switch {
				case rw.pickup && w.bring(rw):
				case s.Optional || w.lastOfTurn(rw, s):
					return nil
				default:
					return w.short(rw, s, n*uses, have)
				}
			}
			for range uses {
				c, _ = w.take(rw)
			}
			if s.Op != script.Slip || c.mark != stitch {
				c.wraps = false
			}
			if s.Name == "ds" {
				c.wraps = true
			}
		} else {
			c = w.model(rw)
			w.moves++
		}
		for range makes {
			w.put(rw, c)
		}
		if len(w.n.right) > MaxLive {
			return w.tooWide(s.At)
		}
	}
	return nil
}

// lastOfTurn: the stitch behind a decrease falls away in the last rows of a heel turn, when
// none is left.
func (w *worker) lastOfTurn(rw *rowWork, s *script.Step) bool {
	return w.turning && (s.Op == script.Knit || s.Op == script.Purl || s.Op == script.Work) && w.upTo(rw, 1) == 0
}

// bring makes more stitches available in a row that picks up: first those that rest, then,
// over the end of the round, the first ones again.
func (w *worker) bring(rw *rowWork) bool {
	switch {
	case len(w.n.held) > 0:
		w.n.takeUp()
		return true
	case !rw.came && len(w.n.right) > 0:
		rw.came = true
		w.n.begin()
		return true
	}
	return false
}

// bringInstep makes the instep's stitches those that come next, even if the text has not
// told of them before.
func (w *worker) bringInstep(rw *rowWork, s *script.Step, n int) *problem {
	w.passHeel()
	if len(w.n.held) == 0 {
		if have, _ := w.n.inPart(script.Instep); have == 0 {
			w.n.left = append(w.n.left, slices.Repeat([]cell{{part: script.Instep}}, max(n, 0))...)
		}
		return nil
	}
	if have := count(w.n.held); have != n {
		return w.short(rw, s, n, have)
	}
	w.bring(rw)
	return nil
}

// passHeel moves the heel's stitches to the right needle: they have been worked before.
func (w *worker) passHeel() {
	for _, c := range slices.Backward(w.n.left) {
		if c.mark != gap {
			w.n.right = append(w.n.right, c)
		}
	}
	w.n.left = w.n.left[:0]
}

// distance counts the stitches up to where a step goes.
func (w *worker) distance(rw *rowWork, s *script.Step) (int, *problem) {
	minus := 0
	if s.Minus.Known() {
		v := w.val(s.Minus)
		if v == pattern.Gap {
			v = 0
		}
		minus = int(v)
	}
	before := func(n int) (int, *problem) { // so many stitches before it
		if n < minus {
			return 0, w.short(rw, s, minus, n)
		}
		return n - minus, nil
	}
	sub := *rw
	if s.Needle > 0 {
		sub.ndl, sub.part = s.Needle, 0
		w.needNeedles(s.Needle)
	} else if s.Part != 0 && s.To != script.MidMark {
		sub.part, sub.ndl = s.Part, 0
	}
	if s.Name == "needle" && rw.ndl == 0 && rw.group == nil {
		w.needNeedles(2)
		if len(w.n.left) > 0 {
			sub.group = &scope{ndl: w.nextNeedle()}
		}
	}
	switch s.To {
	case script.End:
		if s.Part == script.Middle { // of the stitches between those that rest
			sub.part = rw.part
		}
		n := w.avail(&sub)
		if s.Part == script.Middle {
			n -= min(w.n.restL, n)
		}
		switch {
		case s.Needle == 0:
		case rw.pickup:
			n = w.toNeedleEnd(rw, s.Needle)
		case n == 0 && rw.ndl == 0: // over other needles
			n = w.throughNeedle(s.Needle)
		}
		return before(n)
	case script.PartEnd:
		if rw.pickup && s.Part == script.Instep && s.Name != "before" {
			w.passHeel()
			if len(w.n.held) > 0 {
				w.bring(rw)
			}
			return w.avail(rw), nil
		}
		if rw.pickup {
			return w.avail(rw), nil
		}
		if s.Name == "before" || s.Needle > 0 && s.Minus.Known() { // up to where the part begins
			n, _ := w.n.stitchesTo(func(c cell) bool {
				return c.mark == stitch && (s.Part != 0 && c.part == s.Part || s.Needle > 0 && int(c.ndl) == s.Needle)
			})
			return before(n)
		}
		n := w.avail(&sub)
		if n == 0 && w.n.flat && (s.Part == script.Heel || s.Part == script.Sole) {
			n = w.avail(rw)
		}
		if n == 0 && !w.n.flat { // its stitches are not told apart: half of them
			if _, told := w.n.inPart(s.Part); !told {
				n = min((rw.before+1)/2, w.avail(rw))
			}
		}
		return n, nil
	case script.Gap, script.WrapMark:
		wraps := w.hasWraps()
		n, found := w.n.stitchesTo(func(c cell) bool {
			if s.To == script.Gap {
				return c.mark == gap
			}
			return c.wraps || c.mark == loop || c.mark == gap && !wraps
		})
		if s.To == script.Gap && minus == 0 && w.conv.beforeGap {
			minus = 1
		}
		if !found {
			what := "gap"
			if s.To == script.WrapMark {
				what = "wrapped st"
			}
			return 0, w.fail(s.At, source.StitchCount, source.Say("follow.no-gap", "{0} goes to a {1}, but none lies ahead: every stitch on this side has been worked", rw.label, what), nil, nil)
		}
		return before(n)
	case script.Marker:
		n, found := w.n.stitchesTo(func(c cell) bool {
			return c.mark == marker && (s.Name == "" || c.name == 0 && s.Name != "bor" || c.name == letter(s.Name))
		})
		if found {
			return before(n)
		}
		if s.Name == "bor" && n >= minus {
			return n - minus, nil
		}
		if w.markers == 0 || s.Name != "" {
			return 0, w.noMarker(rw, s)
		}
		if n >= minus && w.markers <= 1 { // the marker at the beginning of the round
			return n - minus, nil
		}
		return 0, w.noMarker(rw, s)
	case script.SideMark:
		half := (rw.before + 1) / 2
		done := rw.before - w.avail(rw)
		n := half - done
		if done >= half || rw.group != nil {
			n = w.avail(rw)
		}
		return before(n)
	case script.MidMark:
		n := w.avail(rw)
		if s.Name == "half" {
			heel := w.heelCount
			if rw.pickup {
				if n, _ := w.n.inPart(script.Heel); n > 0 {
					heel = n
				}
				if w.upTo(rw, 1) == 0 {
					w.bring(rw)
				}
				return heel / 2, nil
			}
			return n / 2, nil
		}
		return max(n/2-minus, 0), nil
	}
	return 0, nil
}

// toNeedleEnd counts the stitches to the end of a needle in a row that picks up; they may lie
// beyond the end of the round.
func (w *worker) toNeedleEnd(rw *rowWork, ndl int) int {
	if w.upTo(rw, 1) == 0 {
		w.bring(rw)
	}
	n, _ := w.n.stitchesTo(func(c cell) bool { return c.mark == stitch && int(c.ndl) != ndl })
	return n
}

// throughNeedle counts the stitches up to the end of a needle, those of needles before it
// included.
func (w *worker) throughNeedle(ndl int) (n int) {
	passed := 0
	for _, c := range slices.Backward(w.n.left) {
		if c.mark == stitch {
			passed++
			if int(c.ndl) == ndl {
				n = passed
			}
		}
	}
	return n
}

func (w *worker) noMarker(rw *rowWork, s *script.Step) *problem {
	p := w.fail(s.At, source.Marker, source.Say("follow.no-marker", "{0} goes to a marker here, but no line places one", rw.label), nil, nil)
	p.fault.Mends = []source.Mend{{Why: source.Say("follow.mend-marker", "place the markers in the rnd before")}}
	return p
}

// hasWraps tells whether a stitch of the left needle is wrapped.
func (w *worker) hasWraps() bool {
	return slices.ContainsFunc(w.n.left, func(c cell) bool { return c.wraps })
}

// nextNeedle is the needle on which the next stitch lies.
func (w *worker) nextNeedle() uint8 {
	if i := lastStitch(w.n.left); i >= 0 {
		return w.n.left[i].ndl
	}
	return 0
}

// needNeedles lays the stitches out on so many needles if the text has not.
func (w *worker) needNeedles(k int) {
	if on, told := w.n.onNeedle(k); told && (k <= 2 || on > 0) {
		return
	}
	if count(w.n.right) > 0 && !w.n.flat { // in the midst of a round: only the layout of the whole helps
		return
	}
	w.layOver(max(k, 2))
}

// layOver spreads the stitches over k needles as is usual: with three, the second one holds
// the instep, or half; with four, quarters.
func (w *worker) layOver(k int) {
	total := w.n.worked()
	var runs []int
	var last script.Part
	for _, c := range slices.Backward(w.n.left) {
		if c.mark != stitch {
			continue
		}
		p := c.part
		if p != script.Instep {
			p = script.Sole
		}
		if len(runs) == 0 || p != last {
			runs = append(runs, 0)
		}
		runs[len(runs)-1]++
		last = p
	}
	switch {
	case len(runs) == k:
		w.n.spread(runs)
	case k == 4 && len(runs) == 3:
		w.n.spread([]int{runs[0], (runs[1] + 1) / 2, runs[1] / 2, runs[2]})
	case k == 4 && len(runs) == 2:
		w.n.spread([]int{(runs[0] + 1) / 2, runs[0] / 2, (runs[1] + 1) / 2, runs[1] / 2})
	case k == 4:
		w.n.spread([]int{(total + 3) / 4, (total + 2) / 4, (total + 1) / 4, total / 4})
	case k == 3 && len(runs) == 2: // sole, instep: the round begins before the sole
		w.n.spread([]int{(runs[0] + 1) / 2, runs[1], runs[0] / 2})
	case k == 3:
		half := (total + 1) / 2
		rest := total - half
		w.n.spread([]int{(rest + 1) / 2, half, rest / 2})
	default:
		w.n.spread([]int{(total + 1) / 2, total / 2})
	}
}

// toNeedle comes to the needle or part that the next steps are for.
func (w *worker) toNeedle(rw *rowWork, s *script.Step) *problem {
	if rw.pickup {
		rw.ndl = s.Needle
		return nil
	}
	if p := w.needleLeft(rw); p != nil {
		return p
	}
	if s.Needle > 0 {
		k := 2
		for _, t := range rw.row.Steps {
			k = max(k, t.Needle)
		}
		w.needNeedles(max(k, s.Needle))
		rw.ndl, rw.part = s.Needle, 0
	} else {
		rw.ndl, rw.part = 0, s.Part
		if s.Part == script.Sole {
			if _, told := w.n.inPart(script.Sole); !told {
				if c, told := w.n.inPart(script.Heel); told && c > 0 {
					rw.part = script.Heel
				}
			}
		}
	}
	if w.upTo(rw, 1) == 0 && count(w.n.left) > 0 {
		if _, told := w.n.onNeedle(1); told && s.Needle > 0 || s.Needle == 0 {
			// the words jump over stitches of another needle: they are worked plain
			for len(w.n.left) > 0 && w.upTo(rw, 1) == 0 {
				c := w.n.left[len(w.n.left)-1]
				w.n.left = w.n.left[:len(w.n.left)-1]
				w.n.right = append(w.n.right, c)
			}
		}
	}
	return nil
}

// needleLeft: the stitches of the needle that the steps were for must all be worked.
func (w *worker) needleLeft(rw *rowWork) *problem {
	if rw.pickup || rw.ndl == 0 && rw.part == 0 {
		return nil
	}
	if left := w.avail(rw); left > 0 && rw.ndl > 0 {
		return w.fail(rw.row.At, source.StitchCount, source.Say("follow.needle-left", "{0} leaves {1} of N{2} unworked", rw.label, source.InSts(left), rw.ndl), nil, source.Sts(left))
	}
	return nil
}

func (w *worker) passMarker(rw *rowWork, s *script.Step) *problem {
	if s.Name == "bor" {
		return nil
	}
	for i, c := range slices.Backward(w.n.left) {
		if c.mark == gap {
			continue
		}
		if c.mark == marker {
			if s.Name != "" && c.name != 0 && c.name != letter(s.Name) {
				break
			}
			w.n.left = w.n.left[:i]
			if s.Op == script.PassMarker {
				w.n.right = append(w.n.right, c)
			} else {
				w.markers--
			}
			return nil
		}
		break
	}
	if count(w.n.left) == 0 { // the marker at the beginning of the round
		return nil
	}
	if len(w.n.right) > 0 && w.n.right[len(w.n.right)-1].mark == marker { // passed already
		return nil
	}
	if w.markers == 0 || len(rw.row.Steps) > 1 && count(w.n.right) > 0 {
		return w.noMarkerHere(rw, s)
	}
	return nil
}

func (w *worker) noMarkerHere(rw *rowWork, s *script.Step) *problem {
	text := source.Say("follow.marker-missing", "{0} slips a marker here, but there is none", rw.label)
	if n, found := w.n.stitchesTo(func(c cell) bool { return c.mark == marker }); found {
		text = source.Say("follow.marker-later", "{0} slips a marker here, but {1} lie before the next one", rw.label, source.InSts(n))
	}
	return w.fail(s.At, source.Marker, text, nil, nil)
}

func (w *worker) doTurn(rw *rowWork, s *script.Step) {
	rw.turned = true
	if !w.n.flat && (rw.ndl > 0 || rw.part != script.NoPart) {
		w.turnOnNeedle(rw)
		return
	}
	if !w.n.flat { // the stitches worked are the heel; the others rest
		if s.Op == script.Wrap && count(w.n.left) < 4 || count(w.n.left) == 0 { // all of them are worked flat
			w.n.flat = true
			w.n.turn()
			return
		}
		var own []cell // the wrapped stitch is of the heel
		if s.Op == script.Wrap {
			last := len(w.n.left) - 1
			own, w.n.left = []cell{w.n.left[last]}, w.n.left[:last]
			own[0].part = script.Heel
		}
		held := make([]cell, 0, len(w.n.left))
		for _, c := range slices.Backward(w.n.left) {
			if c.mark == stitch {
				c.part = script.Instep
				held = append(held, c)
			}
		}
		w.n.held, w.n.left = held, own
		for i := range w.n.right {
			w.n.right[i].part = script.Heel
		}
		w.beginFlat()
	}
	w.n.turn()
}

// turnOnNeedle turns in a row that is for one needle or part: its stitches are the heel, the
// others rest.
func (w *worker) turnOnNeedle(rw *rowWork) {
	split := func(cells []cell) (heel, rest []cell) {
		for _, c := range cells {
			switch {
			case rw.inScope(c):
				c.part = script.Heel
				heel = append(heel, c)
			case c.mark == stitch:
				c.part = script.Instep
				rest = append(rest, c)
			}
		}
		return heel, rest
	}
	left, ahead := split(w.n.left)
	right, behind := split(w.n.right)
	w.n.left, w.n.right = left, right
	w.n.held = append(reversed(ahead), behind...)
	w.heelCount = w.n.worked()
	w.beginFlat()
	w.n.turn()
}

// beginFlat goes on flat over the stitches of the heel, the first row of which has been worked.
func (w *worker) beginFlat() {
	w.n.flat = true
	if w.n.facing == script.NoSide {
		w.n.facing = script.RS
	}
	w.newFlap()
}

func (w *worker) newFlap() {
	w.flapRows, w.slipRows = 0, 0
	w.countRows()
	w.edges = true
}

// chart is the one that a step names, or else the nearest above it.
func (w *worker) chart(s *script.Step) *script.Chart {
	var nearest *script.Chart
	for _, c := range w.script.Charts {
		if s.Name != "" && named(c.Name, s.Name) {
			return c
		}
		if nearest == nil || c.Line < w.lineOf(s.At) {
			nearest = c
		}
	}
	return nearest
}

// named tells whether a heading has all the words that a chart is called by.
func named(heading, name string) bool {
	words := strings.FieldsFunc(heading, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	for word := range strings.FieldsSeq(name) {
		if !slices.Contains(words, word) {
			return false
		}
	}
	return true
}

// chartStep works a row of a chart over the stitches that the words give it.
func (w *worker) chartStep(rw *rowWork, s *script.Step) *problem {
	chart := w.chart(s)
	if chart == nil {
		if s.To == script.Here && !s.N.Known() {
			return &problem{untold: true}
		}
		t := *s
		t.Op = script.Work
		return w.step(rw, &t)
	}
	uses, makes, num := chart.Width, chart.Width, s.Needle
	if num == 0 {
		num = rw.num
	}
	for _, r := range chart.Rows {
		if r.Num == num && num > 0 && r.Uses >= 0 {
			uses, makes = r.Uses, r.Makes
		}
	}
	have := 0
	if s.N.Known() {
		have = int(w.val(s.N))
	} else if s.To != script.Here {
		n, p := w.distance(rw, &script.Step{To: s.To, Part: s.Part, At: s.At})
		if p != nil {
			return p
		}
		have = n
	}
	times := 0
	if s.Stop.N.Known() {
		times = int(w.val(s.Stop.N))
		if have == 0 {
			have = uses * times
		}
	} else if uses > 0 {
		times = have / uses
	}
	if uses*times != have {
		p := w.remark(s.At, source.ChartText, source.Say("follow.chart-width", "{0} times the {1} sts of the chart are {2}, not {3}", times, uses, times*uses, have), source.Sts(have), source.Sts(times*uses))
		w.soft = append(w.soft, p)
	}
	if p := w.each(rw, &script.Step{At: s.At, Op: script.Work, Uses: 1, Makes: 1}, have); p != nil {
		return p
	}
	for d := times * (makes - uses); d > 0 && d < MaxLive; d-- {
		w.put(rw, w.model(rw))
	}
	return nil
}

func (w *worker) lineOf(at source.Span) int {
	n, _ := w.script.File.Position(at.Start)
	return n
}

// patternStep notes that a stitch pattern goes on: with the row that comes next, or the
// words are wrong.
func (w *worker) patternStep(rw *rowWork, s *script.Step) {
	last := w.lastPattern
	if last == 0 || len(w.pattern) == 0 {
		return
	}
	w.lastPattern = s.Last
	length := 0
	for _, r := range w.pattern {
		length = max(length, r.num)
	}
	if next := last%length + 1; next != s.Last {
		p := w.remark(s.At, source.ChartText, source.Say("follow.pattern-row", "the pattern stopped after row {0}, so it goes on with row {1}, not {2}", last, next, s.Last), source.Rows(s.Last), source.Rows(next))
		w.soft = append(w.soft, p)
	}
}

func letter(name string) uint8 {
	if name == "" || name == "beg" || name == "bor" {
		return 0
	}
	return name[0]
}

package reader

import (
	"slices"

	"sockwright/internal/script"
)

// sentence reads one sentence, or a clause of one, and adds what it says to the items. It
// returns false where no rule takes the words.
func (p *parser) sentence() bool {
	for _, rule := range rules {
		start, faults, items := p.i, len(p.out.Faults), len(p.items)
		if rule.read(p) {
			if p.i > start {
				return true
			}
		}
		p.i, p.out.Faults, p.items = start, p.out.Faults[:faults], p.items[:items]
	}
	return false
}

// rules are tried in this order.
var rules []struct {
	name string
	read func(*parser) bool
}

func init() {
	rules = append(rules, []struct {
		name string
		read func(*parser) bool
	}{
		{"set-up of a part", (*parser).setUp},
		{"plain for other sizes", (*parser).plainForOthers},
		{"row", (*parser).row},
		{"nth row", (*parser).nthRow},
		{"after so many", (*parser).afterSo},
		{"gathered", (*parser).gathered},
		{"plain, then", (*parser).plainThen},
		{"at the same time", (*parser).sameTime},
		{"cast on", (*parser).castOn},
		{"move", (*parser).move},
		{"lay", (*parser).lays},
		{"lift", (*parser).lift},
		{"alternate", (*parser).alternate},
		{"shape", (*parser).shape},
		{"fewer", (*parser).fewer},
		{"short rows go on", (*parser).shortRowsGoOn},
		{"from now on", (*parser).fromNowOn},
		{"stop when", (*parser).stopWhen},
		{"needles called by letters", (*parser).lettered},
		{"every nth of these", (*parser).everyNthOfThese},
		{"rounds between", (*parser).roundsBetween},
		{"mirrored", (*parser).mirrored},
		{"repeats of a chart", (*parser).chartAcross},
		{"rows of a chart", (*parser).chartRows},
		{"when all are worked", (*parser).whenWorked},
		{"repeat", (*parser).repeat},
		{"turn on", (*parser).turnOn},
		{"plain", (*parser).plain},
		{"resume", (*parser).resume},
		{"divide", (*parser).divide},
		{"unwrap", (*parser).unwrap},
		{"waste yarn", (*parser).waste},
		{"arrange", (*parser).arrange},
		{"close", (*parser).close},
		{"facing", (*parser).facing},
		{"part between markers", (*parser).partBetween},
		{"middle stitch", (*parser).middleStitch},
		{"measured from the edge", (*parser).measuredFromEdge},
		{"state", (*parser).state},
		{"marked", (*parser).marked},
		{"steps", (*parser).looseSteps},
	}...)
}

func (p *parser) add(i script.Item) { p.items = append(p.items, i) }

// emit adds an item that a rule has built: in vain, most often, so it is kept only here.
func emit[T any, I interface {
	*T
	script.Item
}](p *parser, item T) {
	p.add(I(&item))
}

// row reads a labelled row.
func (p *parser) row() bool {
	start := p.i
	l, ok := p.label()
	if !ok {
		return false
	}
	if len(l.Nums) == 0 && p.shapeAfterLabel(start, l.Name) {
		return true
	}
	p.flat = !l.Round
	alike := p.eachAlike(start)
	p.asSaid()
	if p.rowBySize(start, l) {
		return true
	}
	r := &script.Row{Label: l, Flat: !l.Round}
	if of, ok := p.sameAs(); ok {
		r.Steps = of
	} else if r.Steps, ok = p.rowSteps(); !ok {
		return false
	}
	r.Steps = p.timesBehind(r.Steps)
	if alike && !slices.ContainsFunc(r.Steps, func(s script.Step) bool { return s.Op == script.ToNeedle || s.Op == script.Group }) {
		r.Steps = []script.Step{eachNeedle(r.Steps)}
	}
	for p.phrase("in patt", "as set", "as established") {
	}
	// "… for 16 rnds"
	if stop, ok := try(p, func() (script.Stop, bool) { p.skip(",", ";"); return p.stopping(false) }); ok && stop.Kind != script.NoStop {
		r.Stop = &stop
	}
	if l.Many.Known() && r.Stop == nil {
		r.Stop = &script.Stop{Kind: script.Rows, N: l.Many, At: l.At}
	}
	others := p.rowOfOthers(l)
	if r.Claims = p.claimsBehind(); others != nil {
		return p.bySizeSet(start, r, others)
	}
	r.Base = p.base(start)
	if p.beginsHere() {
		r.Label.Name = "partial"
	}
	p.emitRow(r)
	p.asPlanned(r)
	p.arranging()
	if p.strayStep() || !p.stop() && !p.is(")") && !p.is(";") && !p.is(",") && !p.is("-") && !p.is(":") && !p.is("(") {
		r.Cut = p.stumble(r.Label.Said)
	}
	return true
}

// eachAlike tells whether the label that begins at a token says that the row is for every needle: "Dec
// round (both needles alike):", "Rnd 1 (each needle):".
func (p *parser) eachAlike(start int) bool {
	for i := start; i+2 < p.i; i++ {
		if w := p.toks[i+1].w; p.toks[i].w == "(" && (w == "both" || w == "each" || w == "every" || w == "all") && p.toks[i+2].w == "ndl" {
			return true
		}
	}
	return false
}

// beginsHere reads, behind a row, that the round begins where it ends: "; the round now begins at this
// point, the centre of the heel", ". This is the beginning of the round".
func (p *parser) beginsHere() bool {
	back := p.i
	p.skip(".", ";", ",", "-", "and", "which")
	from := p.i
	begins, here := false, false
	for !p.stop() && p.i < from+16 {
		switch t := p.peek(); {
		case t.kind == numToken, t.w == "(", t.w == ":", t.w == "k", t.w == "p", t.w == "turn", t.stitch != nil:
			p.i = back
			return false
		case t.w == "beg" || t.w == "bor":
			begins = true
		case t.w == "here" || t.w == "point" || t.w == "this" || t.w == "is" || t.w == "now":
			here = true
		}
		p.i++
	}
	return begins && here && p.toksHave(from, "rnd", "bor") || p.restore(back)
}

// toksHave tells whether one of these words stands between a token and here.
func (p *parser) toksHave(from int, words ...string) bool {
	return slices.ContainsFunc(p.toks[from:p.i], func(t token) bool { return slices.Contains(words, t.w) })
}

// asSaid takes lead words of a row: "N1, " is read by the steps.
func (p *parser) asSaid() { p.skip("then", "now") }

// rowSteps reads the steps of a row; a plain word is one that works it all.
func (p *parser) rowSteps() ([]script.Step, bool) {
	if start := p.i; p.only != 0 && p.thisRowPlain(true) {
		return throughout(script.Knit, p.since(start)), true
	}
	if p.phrase("a plain k rnd", "is a plain k rnd", "plain k rnd", "plain k", "k plain", "work plain", "work even", "k even", "is a plain rnd") {
		return throughout(script.Knit, p.toks[p.i-1].at), true
	}
	from := p.i
	if p.any("all"); p.phrase("the way around", "the way rnd", "around once", "rnd once", "rnd again", "around again") {
		p.any("again", "once")
		p.pairAside()
		return throughout(script.Work, p.toks[from].at), true
	}
	p.i = from
	each := p.phrase("on both ndl", "on each ndl", "on every ndl") && p.any(",", ":")
	if !each {
		p.i = from
	}
	steps, ok := p.steps()
	if !ok {
		return try(p, p.adjusted)
	}
	if each {
		return []script.Step{eachNeedle(steps)}, true
	}
	if ok && p.onEach() { // "k to last 2, k2tog on each needle"
		return []script.Step{eachNeedle(steps)}, true
	}
	if ok && (p.is(",", "all", "rnd") || p.toks[p.i-1].w == "rnd") {
		steps = p.timesBehind(steps)
	}
	return byNeedle(steps), ok
}

// adjusted reads a row of which only the places are told at which it takes or adds stitches: "work 1
// decrease at each side of the sole and at each side of the instep".
func (p *parser) adjusted() ([]script.Step, bool) {
	from := p.i
	s, ok := p.shapeWords()
	if !ok || !s.Change.Known() || !p.clauseEnd() && !p.is("(") && !p.is("-") && !p.is("=") {
		return nil, false
	}
	return []script.Step{{At: p.since(from), Op: script.Adjust, N: s.Change}}, true
}

// byNeedle puts steps that are told for several needles at once, "N1 and N3 - …; N2 and N4
// - …", in the order of the needles.
func byNeedle(steps []script.Step) []script.Step {
	type told struct {
		ndl   int
		steps []script.Step
	}
	var all []told
	double := false
	for i := 0; i < len(steps); {
		var ndls []script.Step
		for i < len(steps) && steps[i].Op == script.ToNeedle && steps[i].Needle > 0 {
			ndls = append(ndls, steps[i])
			i++
		}
		from := i
		for i < len(steps) && !(steps[i].Op == script.ToNeedle && steps[i].Needle > 0) {
			i++
		}
		if len(ndls) == 0 {
			return steps
		}
		double = double || len(ndls) > 1
		for _, n := range ndls {
			all = append(all, told{n.Needle, append([]script.Step{n}, steps[from:i]...)})
		}
	}
	if !double {
		return steps
	}
	slices.SortStableFunc(all, func(a, b told) int { return a.ndl - b.ndl })
	var out []script.Step
	for _, t := range all {
		out = append(out, t.steps...)
	}
	return out
}

// sameAs reads "as row 2", "as 2nd row", "rep row 2", "work as for Rnd 1".
func (p *parser) sameAs() ([]script.Step, bool) {
	back := p.i
	if p.phrase("as for", "as given for", "as", "work as for", "work as", "rep", "same as", "like", "k as for") {
		var l script.Label
		t := p.peek()
		switch {
		case t.w == "row" || t.w == "rnd":
			p.i++
			p.rowNumbers(&l)
		case t.kind == ordToken:
			if at := p.i; !p.ordinalRows(&l) { // "as 1st"
				p.i = at + 1
				if l.Nums = nil; p.clauseEnd() {
					l.Nums = []int{int(t.val)}
				}
			}
		case t.w == "first":
			if p.i++; p.any("row", "rnd") || p.clauseEnd() {
				l.Nums = []int{1}
			}
		}
		if len(l.Nums) == 1 {
			for i := len(p.rows) - 1; i >= 0; i-- {
				for _, n := range p.rows[i].Label.Nums {
					if n == l.Nums[0] {
						return p.rows[i].Steps, true
					}
				}
			}
		}
	}
	p.i = back
	return nil, false
}

// emitRow adds a row; one that turns in its midst becomes several.
func (p *parser) emitRow(r *script.Row) {
	if c := r.Steps[0]; len(r.Steps) == 1 && c.Op == script.OfChart && c.Last > c.Needle && len(r.Label.Nums) == 0 { // "Work Rnds 1-6 of Chart A": so many rows
		r.Label = script.Label{At: c.At, Round: !r.Flat, Said: true}
		for n := c.Needle; n <= c.Last; n++ {
			r.Label.Nums = append(r.Label.Nums, n)
		}
		r.Steps[0].Needle, r.Steps[0].Last = 0, 0
	}
	p.turnBehind(r)
	p.rows = append(p.rows, r)
	for i, s := range r.Steps {
		turns := s.Op == script.Turn || s.Op == script.Wrap
		if turns && i < len(r.Steps)-1 {
			head := *r
			head.Steps, head.Claims, head.Stop = r.Steps[:i+1], nil, nil
			tail := *r
			tail.Steps = r.Steps[i+1:]
			tail.Label.Nums, tail.Label.Side, tail.Label.Said = nil, 0, false
			p.add(&head)
			p.emitRow(&tail)
			return
		}
	}
	p.add(r)
}

// ofNeedle lets a count behind steps that are told needle by needle, without the label of a
// row, speak of the last of these needles: "1st needle: k 8, pick up and k 14. 22 sts." It may
// still be the count of all.
func ofNeedle(r *script.Row) {
	if len(r.Steps) == 0 || r.Steps[0].Op != script.ToNeedle {
		return
	}
	last := 0
	for _, s := range r.Steps {
		if s.Op == script.ToNeedle {
			last = s.Needle
		}
	}
	for i := range r.Claims {
		if c := &r.Claims[i]; c.What == script.Live {
			c.Needle = last
		}
	}
}

// turnBehind reads "Turn." behind a row as its last step. A row that is worked to its end
// needs no turn: every row ends with one.
func (p *parser) turnBehind(r *script.Row) {
	if back := p.i; r.Flat && len(r.Claims) == 0 && p.any(".") && p.any("turn") {
		if p.stop() {
			r.Steps = append(r.Steps, script.Step{At: p.toks[p.i-1].at, Op: script.Turn})
		} else {
			p.i = back
		}
	} else {
		p.i = back
	}
	last := len(r.Steps) - 1
	if last < 1 || !r.Flat || r.Steps[last].Op != script.Turn {
		return
	}
	s := r.Steps[last-1]
	whole := s.To == script.End && s.Part == 0 && s.Needle == 0 && !s.Minus.Known()
	if s.Op == script.Group {
		whole = s.Stop.Kind == script.ToEnd && s.Stop.To == script.Here && !s.Stop.N.Known()
	}
	if whole {
		r.Steps = r.Steps[:last]
	}
}

// looseSteps reads steps without a label: a row that is told in prose.
func (p *parser) looseSteps() bool {
	start := p.i
	p.skip("now", "then", "on", "so", "next")
	if p.i > start && p.peek().w == "the" {
		p.i = start
	}
	steps, ok := p.steps()
	p.phrase("and leave them on a spare ndl", "and leave them on spare ndl", "and leave them on a holder", "and leave them", "and leave these sts", "and sl them on to a spare ndl")
	if ok {
		steps = p.timesBehind(steps)
	}
	first := p.any("first")
	p.phrase("once more", "again")
	p.letRest()
	if !ok || !p.clauseEnd() && !p.is("until") && !p.is("for") && !p.is("-") && !p.is("(") && !p.is("[") && !p.is("=") || !worksStitches(steps) {
		return false
	}
	r := &script.Row{Steps: steps, Flat: p.flat}
	if stop, ok := try(p, func() (script.Stop, bool) { p.skip(",", ";"); return p.stopping(false) }); ok && stop.Kind != script.NoStop {
		r.Stop = &stop
	}
	r.Claims = p.claimsBehind()
	ofNeedle(r)
	r.Base = p.base(start)
	var apart script.Item // the stitches set apart just before, if this is worked first
	if n := len(p.items); first && n > 0 {
		if d, ok := p.items[n-1].(*script.Divide); ok {
			apart, p.items = d, p.items[:n-1]
		}
	}
	if p.emitRow(r); apart != nil {
		p.add(apart)
	}
	return true
}

// letRest passes over what is done with stitches that have just been worked: ", then stop", ", then let
// them rest", "and leave them on a holder".
func (p *parser) letRest() {
	back := p.i
	p.skip(",", "and")
	if p.any("then") && (p.any("stop") || p.any("let") && p.any("it", "them", "these", "this")) {
		for !p.clauseEnd() {
			p.i++
		}
		return
	}
	p.i = back
}

// timesBehind makes a repeat of steps behind which it is said how often they are worked in the
// row: "knit six and narrow, eight times in the round", "knit five and narrow, all round".
func (p *parser) timesBehind(steps []script.Step) []script.Step {
	if last := &steps[len(steps)-1]; len(steps) > 1 && last.Op == script.Decrease && last.To == script.End && p.toks[p.i-1].w == "rnd" && p.toks[p.i-2].w != "the" { // "knit 4 and narrow all round"
		last.To = script.Here
		stop := script.Stop{Kind: script.ToEnd, At: p.since(p.i - 1)}
		return []script.Step{{At: steps[0].At.To(stop.At), Op: script.Group, Body: steps, Stop: stop}}
	}
	if slices.ContainsFunc(steps, func(s script.Step) bool { return s.To != script.Here || s.Op == script.Turn || s.Op == script.PickUp }) {
		return steps
	}
	back := p.i
	p.skip(",", "-")
	at := p.i
	stop := script.Stop{Kind: script.ToEnd}
	if !p.phrase("all rnd", "all around", "all the way rnd", "all the way around", "the whole way rnd", "the whole rnd", "rnd and rnd", "to the end of the rnd", "to the end of the row", "throughout") {
		n, ok := p.number()
		if !ok || !p.any("times") || p.any("more") {
			p.i = back
			return steps
		}
		p.phrase("in the rnd", "in the row", "in all", "around", "across", "in each rnd")
		stop = script.Stop{Kind: script.Reps, N: n}
	}
	stop.At = p.since(at)
	return []script.Step{{At: steps[0].At.To(stop.At), Op: script.Group, Body: steps, Stop: stop}}
}

// worksStitches tells whether steps do something that is worth a row.
func worksStitches(steps []script.Step) bool {
	for _, s := range steps {
		switch s.Op {
		case script.PlaceMarker, script.ToNeedle, script.Unknown:
		default:
			return true
		}
	}
	return false
}

// castOn reads "CO 64 sts", "Cast 40 loops upon each of three pins", "Put on 72 stitches".
func (p *parser) castOn() bool {
	start := p.i
	for n := 0; n < 12 && !p.stop(); n++ { // "Using the long-tail method, CO 64 sts"
		if w := p.peek().w; w == "co" || w == "cast" || w == "wind" || w == "put" && p.ahead(1).w == "on" {
			break
		}
		p.i++
	}
	switch {
	case p.eat("co"), p.eat("cast", "on"), p.eat("put", "on"), p.eat("wind"):
	case p.eat("cast"):
	default:
		return false
	}
	p.skip("loosely", "on", "a", "total", "of")
	n, ok := p.number()
	if !ok {
		return false
	}
	p.skip("sole", "toe")
	p.any("sts")
	c := &script.CastOn{N: n}
	back := p.i
	p.skip("on", "onto", "upon", "to")
	if p.any("each", "both") {
		p.skip("of", "the")
		if p.toks[p.i-1].w == "both" {
			c.On = 2
		}
		if t := p.peek(); t.kind == numToken {
			c.On = int(t.val)
			p.i++
		}
		if !p.any("ndl") {
			p.skip("side")
		}
		if c.On == 0 {
			c.On = 2
		}
	} else {
		p.i = back
	}
	c.Base = p.base(start)
	p.add(c)
	p.began = true
	if claims := p.claimsBehind(); claims != nil {
		p.add(&script.State{Base: p.base(start), Claims: claims})
	}
	return true
}

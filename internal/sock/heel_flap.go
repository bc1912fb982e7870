package sock

import (
	"fmt"
	"slices"

	"sockwright/internal/design"
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
	"sockwright/internal/unit"
)

// What heels that begin with a flap share: how high it is, what fabric it has, and what its
// edges leave to pick up.

var (
	flapFabric = choice("fabric", "fabric of the flap", "slipped", "stockinette", "offset", "garter-edge", "rib")
	flapInstep = choice("instep", "height of the instep: a low one has a shorter flap, a high one a longer", "average", "low", "high")
	flapLength = length("flap_length", "height of the flap, instead of height and instep", 15, 250)
	flapEdge   = choice("slip_first", "whether the first st of each row of the flap is slipped", "yes", "no")
)

// flapHeight is how many rows a flap has, as a share of the heel stitches.
func flapHeight(usual float64) Option {
	return share("height", "rows of the flap as a share of the heel stitches", usual, 0.5, 1.6)
}

// insteps is what the height of an instep makes of the rows of a flap (house rule: 32 rows
// become 28 or 36).
var insteps = map[string]float64{"average": 1, "low": 0.875, "high": 1.125}

// flapOptions are the options of a heel with a flap of so many rows to a heel stitch.
func flapOptions(usual float64) []Option {
	return []Option{heelShare, flapFabric, flapHeight(usual), flapInstep, flapLength, flapEdge}
}

// A flap is worked straight to and fro, its first row on the right side, its last on the
// wrong one. With the first stitch of each row slipped, two rows make one chain along each
// edge: R / 2 to pick up at a side for R rows. Where it is not, as many stitches are picked
// up as lie along R rows of the fabric's gauge.
type flap struct {
	share   float64 // of the round that is the heel
	fabric  string
	height  float64 // rows to a heel stitch, for an average instep
	instep  string
	lengths []unit.Length // by size; nil where the height goes by the heel stitches
	twice   bool          // the height is asked for in both ways
	slipped bool
}

func takeFlap(d *Draft, t *design.Table, usual float64) flap {
	f := flap{share: heelShare.number(t), fabric: flapFabric.name(t), height: flapHeight(usual).number(t), instep: flapInstep.name(t), slipped: flapEdge.name(t) == "yes"}
	if t.Has(flapLength.Key) {
		f.lengths = flapLength.lengths(t, d, func(int) unit.Length { return 0 })
		f.twice = t.Has("height") || t.Has("instep")
	}
	return f
}

// repeat is how many rows the fabric repeats.
func (f *flap) repeat() int {
	if f.fabric == "offset" {
		return 4
	}
	return 2
}

// wholeRepeats says what rows its repeats come to.
func (f *flap) wholeRepeats() string {
	if f.repeat() == 4 {
		return "a multiple of 4, so that the flap ends when its pattern does"
	}
	return evenRows
}

const evenRows = "even, so that the flap ends after a WS row"

// fewest is how many stitches the fabric takes: no fewer than the heel does otherwise, and
// edges that are not its own need something between them.
func (f *flap) fewest(otherwise int) int {
	if f.fabric == "stockinette" {
		return otherwise
	}
	return max(otherwise, 8)
}

// rules are those of its rows, of which there are so many at least.
func (f *flap) rules(d *Draft, fewest int) []grade.Rule {
	repeat := f.repeat()
	rules := []grade.Rule{rule("flap-repeat", "the rows of the flap are "+f.wholeRepeats(), func(_ grade.Values, n int) bool { return n >= fewest && n%repeat == 0 })}
	if f.fabric == "rib" {
		leg, rib := d.v("leg.stitches"), d.ribAbove()
		rules = append(rules, rule("flap-rib", "the flap goes on with the rib of the cuff, so the cuff has one, and the leg is a multiple of it; another fabric of the flap needs neither", func(v grade.Values, _ int) bool {
			return len(rib) > 0 && v.Of(leg)%len(rib) == 0
		}))
	}
	return rules
}

// declare declares the heel stitches and the rows of the flap. after is how many more rows
// go on with it to its edges: they are part of its height.
func (f *flap) declare(d *Draft, fewest, after int, what string) (heel, rows *grade.Var) {
	heel = d.heelStitches(f.share, f.fewest(max(fewest, 8)), what)
	flapGauge := d.GaugeOf("flap")
	target := func(v grade.Values) float64 {
		if f.lengths != nil {
			return flapGauge.RowsIn(f.lengths[v.Size]) - float64(after)
		}
		return f.height*insteps[f.instep]*float64(v.Of(heel)) - float64(after)
	}
	rules := f.rules(d, 4)
	if f.twice {
		rules = append(rules, rule("flap-once", "the height of the flap is asked for as a length, or by height and instep, but not in both ways", func(grade.Values, int) bool { return false }))
	}
	rows = d.Model.Add(grade.Var{
		Key: "heel.flap_rows", Label: "rows of the flap", Unit: "rows",
		Target: target,
		Scale:  func(grade.Values) float64 { return flapGauge.Height(1).MM() }, Reach: 3, Level: proportions,
		Rules: rules,
		Why: func(v grade.Values) grade.Reason {
			asked := fmt.Sprintf("%s %% of %d heel stitches", whole(f.height*100), v.Of(heel))
			r := grade.Reason{Rule: "flap-height", Terms: []grade.Term{v.Term(heel), {Key: "heel.height", Value: f.height, Source: "common practice"}}}
			if f.lengths != nil {
				asked = fmt.Sprintf("%s at %s rows to 10 cm", d.Long(f.lengths[v.Size]), whole(flapGauge.Rows*100))
				r.Terms = []grade.Term{{Key: "heel.flap_length", Value: f.lengths[v.Size].MM(), Unit: "mm"}, {Key: "gauge.rows", Value: flapGauge.Rows * 100, Unit: "rows per 10 cm"}}
			}
			switch f.instep {
			case "low":
				asked += ", an eighth less for a low instep"
			case "high":
				asked += ", an eighth more for a high instep"
			}
			if after > 0 {
				asked += fmt.Sprintf(", less the %d rows that go on with the flap", after)
			}
			r.Text = say("why.flap.height", "{0}, is {1}; {2}", asked, whole(target(v)), f.wholeRepeats())
			return r
		},
	})
	d.measure("heel.depth", "heel, height of the flap", nil, func(v grade.Values) unit.Length { return flapGauge.Height(v.Of(rows) + after) })
	return heel, rows
}

// edges declares what there is to pick up along each edge of a heel, of which so many rows
// reach the edges.
func (f *flap) edges(d *Draft, rows func(grade.Values) int) {
	d.heelEdge = heelEdge{rows: rows, plain: !f.slipped, worked: true}
	g := d.GaugeOf("flap")
	d.Model.Add(follows("heel.edge_chains", "stitches to pick up along each edge of the heel", "sts",
		func(v grade.Values) int {
			if f.slipped {
				return rows(v) / 2
			}
			return int(d.Gauge[""].StitchesIn(g.Height(rows(v))) + 0.5)
		},
		func(v grade.Values) grade.Reason {
			if f.slipped {
				return grade.Reason{Rule: "edge-chains", Text: chainsOf(rows(v))}
			}
			return grade.Reason{Rule: "edge-length", Text: say("why.edge.plain", "{0} rows are {1} long, which at {2} stitches to 10 cm is {3}", rows(v), d.Long(g.Height(rows(v))), whole(d.Gauge[""].Stitches*100), whole(d.Gauge[""].StitchesIn(g.Height(rows(v)))))}
		}))
}

// ribAbove is one repeat of the rib that a flap can go on with, stitch by stitch; nil where
// there is none.
func (d *Draft) ribAbove() []pattern.Op {
	c, ok := d.parts[0].(*cuff)
	if !ok || c.fabric != "rib" || len(c.rounds) != 1 {
		return nil
	}
	var ops []pattern.Op
	for _, s := range c.rounds[0][0].Body {
		for range s.N.In(0) {
			ops = append(ops, s.Op)
		}
	}
	return ops
}

// ribOf is what each of the n heel stitches is worked as on the right side to go on with the
// rib above, whose repeats begin where the round does.
func (d *Draft) ribOf(n int) []pattern.Op {
	rib := d.ribAbove()
	if len(rib) == 0 {
		return nil
	}
	first := 0 // place in the round of the first heel stitch
	if d.roundsBegin() == pattern.CentreBack {
		first = len(rib)*n - (n - n/2) // before the beginning of the round, any number of repeats away
	}
	ops := make([]pattern.Op, n)
	for i := range ops {
		ops[i] = rib[(first+i)%len(rib)]
	}
	return ops
}

var flapIntro = say("heel.flap.intro", "The flap is worked back and forth in rows, at the back of the leg. The first st of every row is slipped: that makes one chain st along the edge for every 2 rows, and sts are picked up from these later.")

// flapSetApart divides the heel from the instep, and marks where its edges begin.
func (b *Builder) flapSetApart() {
	b.setApart(
		say("heel.band.set-up", "The two set-up rows bring the heel sts onto one needle; leave the instep sts on the others, slipping sts from one needle to the next where you need a free one. If you marked the beginning of the rnd, take that marker out."),
		say("heel.band.two", "From here only N1 is worked; N2 rests."))
	b.para(say("heel.band.lock", "Hang a locking marker in the first and in the last heel st now. They mark the leg end of each edge, which is hard to find once the flap is there, and show how far sts are picked up later."))
}

// shareOfHeel says what a share of the heel stitches is in rows of a flap, which have whole
// repeats.
func shareOfHeel(share float64, heel int, repeats string) source.Message {
	return say("why.flap.share", "{0} % of {1} heel stitches is {2}; {3}", whole(share*100), heel, whole(share*float64(heel)), repeats)
}

// chainsOf says how many stitches there are to pick up along an edge of so many rows.
func chainsOf(rows int) source.Message {
	return say("why.chains.flap", "one in each chain, and one chain for each two of {0} rows, since the first stitch of every row is slipped", rows)
}

// build writes the section of the flap up to its last row.
func (f *flap) build(b *Builder) {
	b.section("Heel flap")
	if f.slipped {
		b.para(flapIntro)
	} else {
		b.para(say("heel.flap.intro.plain", "The flap is worked back and forth in rows, at the back of the leg. No st is slipped at its edges: the gusset is picked up from the edge sts, more of them than from chains, so it is wider and firmer."))
	}
	b.flapSetApart()
	f.straight(b)
}

// straight writes its rows.
func (f *flap) straight(b *Builder) {
	if tip, ok := flapTips[f.fabric]; ok {
		b.para(tip)
	}
	alike(b, func(size int) [][]pattern.Step {
		n := b.of("heel.stitches", size)
		return f.rows(n, b.ribOf(n))
	}, func(rows [][]pattern.Step) {
		for i, steps := range rows {
			side := pattern.RS
			if i%2 == 1 {
				side = pattern.WS
			}
			b.row(row(i+1, side), nil, steps...)
		}
	})
	repeat := f.repeat()
	b.again(pattern.FlatRow, repeat, b.each(func(size int) int { return b.of("heel.flap_rows", size)/repeat - 1 }), pattern.Again{
		Total: b.n("heel.flap_rows"), Count: total(b.n("heel.stitches"))})
}

// flapTips say what the fabrics are good for.
var flapTips = map[string]source.Message{
	"slipped":     say("heel.flap.slipped", "Every second st is slipped in the RS rows, with the yarn behind it: the slipped sts make ridges that run down the flap, and the yarn behind them makes it thick and hard-wearing."),
	"offset":      say("heel.flap.offset", "Every second st is slipped in the RS rows, with the yarn behind it, and in the next RS row those between: the slipped sts lie in a checkered pattern, and the yarn behind them makes the flap thick and hard-wearing."),
	"garter-edge": say("heel.flap.garter", "Three sts at each edge are knit in the WS rows too: the ridges that they make, one for every 2 rows, are easy to count."),
	"rib":         say("heel.flap.rib", "The flap is ribbed as the cuff is."),
}

// rows is one repeat of the flap's rows over n stitches, the first on the right side. rib is
// what each stitch is worked as on the right side, from the first on, for a flap of rib.
func (f *flap) rows(n int, rib []pattern.Op) [][]pattern.Step {
	lead := func(op pattern.Op, more int) []pattern.Step { // the edge stitch, and more that follow it
		switch {
		case f.slipped && more == 0:
			return on(sl1())
		case f.slipped:
			return on(sl1(), pattern.Step{Op: op, N: pattern.Of(more)})
		}
		return on(pattern.Step{Op: op, N: pattern.Of(more + 1)})
	}
	allOf := func(op pattern.Op) []pattern.Step {
		if f.slipped {
			return on(sl1(), toEnd(op))
		}
		return on(toEnd(op))
	}
	pairs := func(even bool) []pattern.Step { // over the rest of the row, which ends with a knit stitch
		if even {
			return on(repeat(sl1(), kN(1)))
		}
		return on(repeatToLast(1, sl1(), kN(1)), kN(1))
	}
	even := n%2 == 0
	slips := pairs(even)
	if !f.slipped {
		slips = append(lead(pattern.Knit, 1), slips...)
	}
	switch f.fabric {
	case "slipped":
		return [][]pattern.Step{slips, allOf(pattern.Purl)}
	case "offset": // the edge stitch and the one beside it are never both slipped
		return [][]pattern.Step{slips, allOf(pattern.Purl), append(lead(pattern.Knit, 2), pairs(!even)...), allOf(pattern.Purl)}
	case "garter-edge":
		return [][]pattern.Step{allOf(pattern.Knit), append(lead(pattern.Knit, 2), toLast(pattern.Purl, 3), kN(3))}
	case "rib":
		back := make([]pattern.Op, n)
		for i, op := range rib {
			back[n-1-i] = fromBehind[op]
		}
		return [][]pattern.Step{f.ribRow(rib), f.ribRow(back)}
	}
	return [][]pattern.Step{allOf(pattern.Knit), allOf(pattern.Purl)}
}

// fromBehind is how a stitch of a rib is worked in a wrong-side row.
var fromBehind = map[pattern.Op]pattern.Op{pattern.Knit: pattern.Purl, pattern.Purl: pattern.Knit, pattern.KnitTbl: pattern.PurlTbl, pattern.PurlTbl: pattern.KnitTbl}

// ribRow writes a row whose stitches are known one by one: what stands before the first whole
// column, the repeat from there on, and what is left.
func (f *flap) ribRow(ops []pattern.Op) []pattern.Step {
	var steps []pattern.Step
	if f.slipped {
		steps, ops = on(sl1()), ops[1:]
	}
	begin := 1
	for begin < len(ops) && ops[begin] == ops[begin-1] {
		begin++
	}
	steps = append(steps, runs(ops[:begin])...)
	ops = ops[begin:]
	period := 1 // of what follows
	for period < len(ops) && !slices.Equal(ops[period:], ops[:len(ops)-period]) {
		period++
	}
	left := len(ops) % period
	group := repeat(runs(ops[:period])...)
	if left > 0 {
		group = repeatToLast(left, runs(ops[:period])...)
	}
	return append(append(steps, group), runs(ops[len(ops)-left:])...)
}

// runs writes stitches one by one, as many together as are alike.
func runs(ops []pattern.Op) []pattern.Step {
	var steps []pattern.Step
	for i, n := 0, 0; i < len(ops); i += n {
		for n = 1; i+n < len(ops) && ops[i+n] == ops[i]; n++ {
		}
		steps = append(steps, pattern.Step{Op: ops[i], N: pattern.Of(n)})
	}
	return steps
}

package knit

import (
	"strconv"

	"sockwright/internal/fabric"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

// program is the rows of a pattern lowered to one size: instructions in one flat array,
// numbers resolved, groups as an instruction that says how many of the next belong to it.
type program struct {
	size   int
	sizes  int // how many the pattern has
	instrs []instr
	rows   []rowLine
}

type instr struct {
	op     pattern.Op
	until  pattern.Until
	edge   pattern.Edge
	turned pattern.Turned
	part   uint8 // needle on which this begins; noPart if the step before goes on
	body   int32 // instructions of the group that follow
	n      int32
	uses   int32         // stitches one pass of a group uses, -1 if that depends
	step   *pattern.Step // the words
}

const noPart = 0xFF

// rowLine is a row or round, ready to be worked.
type rowLine struct {
	node     pattern.NodeID
	at       source.Span
	label    pattern.Label
	name     string
	from, to int // into instrs
	count    *pattern.Count
	picksUp  bool
	turns    bool
	plain    bool
	unfit    bool // a list of numbers has not one for each size
	faulty   bool // its stitches have been found wrong
}

// allOne tells whether a step is the whole of a round: "Knit." slips markers as it comes to
// them, as everybody does.
func (l *rowLine) allOne(in *instr) bool {
	return l.label.Word == pattern.Round && in.until == pattern.ToEnd && l.to-l.from == 1
}

func (p *program) reset(size, sizes int) {
	*p = program{size: size, sizes: sizes, instrs: p.instrs[:0], rows: p.rows[:0]}
}

// lower adds a row and returns its index.
func (p *program) lower(r *pattern.Row) int {
	line := rowLine{node: r.ID, at: r.At, label: r.Label, name: r.Label.String(), from: len(p.instrs), count: r.Count}
	for _, part := range r.Parts {
		at := len(p.instrs)
		p.steps(part.Steps, &line)
		if at < len(p.instrs) {
			p.instrs[at].part = part.Needle
		}
	}
	line.to = len(p.instrs)
	p.rows = append(p.rows, line)
	return len(p.rows) - 1
}

func (p *program) lowerPlain(n *pattern.Plain) int {
	line := rowLine{node: n.ID, at: n.At, label: pattern.Label{Word: pattern.Round}, name: "this line", from: len(p.instrs), count: n.Count, plain: true}
	p.instrs = append(p.instrs, instr{op: n.Op, until: pattern.ToEnd, part: noPart, step: &pattern.Step{At: n.At, Name: n.Name}})
	line.to = len(p.instrs)
	p.rows = append(p.rows, line)
	return len(p.rows) - 1
}

// steps adds steps and returns how many stitches they use, or -1 if that depends.
func (p *program) steps(steps []pattern.Step, line *rowLine) (uses int32) {
	for i := range steps {
		s := &steps[i]
		in := instr{op: s.Op, until: s.Until, edge: s.Edge, turned: s.Turned, part: noPart, n: 1, step: s}
		line.unfit = line.unfit || !s.N.Fits(p.sizes)
		if s.N.Known() {
			in.n = s.N.In(p.size)
		}
		if in.n == pattern.Gap || in.until == pattern.Times && in.n == 0 {
			continue
		}
		at := len(p.instrs)
		p.instrs = append(p.instrs, in)
		each := int32(s.Op.Takes())
		if s.Op == pattern.Group {
			each = p.steps(s.Body, line)
			p.instrs[at].body = int32(len(p.instrs) - at - 1)
			p.instrs[at].uses = each
		}
		line.picksUp = line.picksUp || s.Op == pattern.PickUp || s.Op == pattern.PickUpPurl
		line.turns = line.turns || s.Op == pattern.Turn
		if all := int64(uses) + int64(each)*int64(in.n); in.until != pattern.Times || each < 0 || uses < 0 || all > MaxLive {
			uses = -1
		} else {
			uses = int32(all)
		}
	}
	return uses
}

// makes is the loop that one working of an op makes; several kinds have a way of their own.
var makes = [...]fabric.Kind{
	pattern.Knit:       fabric.Knit,
	pattern.Purl:       fabric.Purl,
	pattern.KnitTbl:    fabric.KnitTbl,
	pattern.PurlTbl:    fabric.PurlTbl,
	pattern.K2tog:      fabric.K2tog,
	pattern.Ssk:        fabric.Ssk,
	pattern.Skp:        fabric.Skp,
	pattern.P2tog:      fabric.P2tog,
	pattern.Ssp:        fabric.Ssp,
	pattern.K3tog:      fabric.K3tog,
	pattern.Sssk:       fabric.Sssk,
	pattern.P3tog:      fabric.P3tog,
	pattern.S2kp2:      fabric.Centred,
	pattern.M1L:        fabric.LiftLeft,
	pattern.M1R:        fabric.LiftRight,
	pattern.LiftedL:    fabric.RaisedLeft,
	pattern.LiftedR:    fabric.RaisedRight,
	pattern.Kfb:        fabric.Knit,
	pattern.Pfb:        fabric.Purl,
	pattern.ThreeIn1:   fabric.Knit,
	pattern.YarnOver:   fabric.YarnOver,
	pattern.KnitHem:    fabric.Hem,
	pattern.WasteYarn:  fabric.Provisional,
	pattern.KnitTurned: fabric.Knit,
	pattern.PurlTurned: fabric.Purl,
	pattern.Group:      0, // the last op
}

func itoa(n int) string { return strconv.Itoa(n) }

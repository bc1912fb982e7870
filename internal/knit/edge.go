package knit

import (
	"sockwright/internal/fabric"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

// An edge is the stitches at one side of the part worked flat, from the bottom up. With the
// first stitch of each row slipped, each but perhaps the lowest is a chain two rows tall.
// The topmost is live on the needle and cannot be picked up.
type edge []int32

const (
	right = 0
	left  = 1
)

// edgeAfterRow notes the first and the last stitch of the row just worked; wrongRow tells
// on which side it was worked. The work has been turned already.
func (k *Knitter) edgeAfterRow(wrongRow bool) {
	if !k.divided {
		return
	}
	startSide, endSide := right, left
	if wrongRow {
		startSide, endSide = left, right
	}
	if k.row.atEnd && k.row.first >= 0 {
		k.edges[startSide].add(k.row.first)
	}
	if e, ok := k.last(); ok && bound(e) { // the row reached the end of the part
		if e, ok := k.next(); ok && e >= 0 {
			k.edges[endSide].add(e)
		}
	}
}

func (e *edge) add(loop int32) {
	if n := len(*e); n == 0 || (*e)[n-1] != loop {
		*e = append(*e, loop)
	}
}

// pickUp makes new loops along an edge of the heel or in the corner beside it. With the
// right side facing the left edge is worked from the needle down, the right edge up to it;
// with the wrong side it is the other way round.
// Where the words are wrong there are as many loops as they ask for all the same, so that
// their counts hold.
func (k *Knitter) pickUp(in *instr) {
	n := int(in.n)
	if !k.room(in, n) {
		return
	}
	if e, ok := k.next(); ok && bound(e) {
		k.takeBound()
	}
	side := left
	if k.picking == pattern.RightEdge {
		side = right
	}
	column := k.edges[side]
	switch {
	case k.picking == pattern.NoEdge || len(column) == 0:
		where := edgeName(in.edge)
		if in.edge == pattern.Corner {
			where = "in a corner"
		}
		k.wrongEdge(in, say("knit.no-edge", "stitches are to be picked up {0}, but no edge of the heel begins here", where))
		k.increase(in, fabric.LiftLeft, in.n)
		return
	case in.edge == pattern.Corner:
		k.corner(n, column)
		return
	case k.edgeOf(in.edge) != k.picking:
		k.wrongEdge(in, say("knit.other-edge", "stitches are to be picked up {0}, but the edge that begins here is the other one", edgeName(in.edge)))
	}
	free := column.finished()
	if n > len(free) {
		k.fault(in.step.At, source.PickUp,
			say("knit.edge-short", "{0} are to be picked up {1}, but it has only {2} to pick up from", sts(n), edgeName(in.edge), len(free)),
			source.Sts(n), source.Sts(len(free)), k.mendNumber("knit.mend-pick-up", "pick up {0}", in.step.N, len(free)))
		k.corner(n-len(free), column) // several from the lowest
		k.trust.perhaps += n - len(free)
		n = len(free)
	}
	if len(free) <= n+2 { // the topmost, which a turn has worked over, are left out
		free = free[:n]
	}
	for i := range n {
		at := (2*i + 1) * len(free) / (2 * n) // spread evenly where there are more than wanted
		if (side == left) != k.wrong {        // from the needle down
			at = len(free) - 1 - at
		}
		k.pickedUp(fabric.EdgeLoop, free[at])
	}
	k.edges[side] = column[:1] // each is taken once; the corner stays
}

// edgeOf is the edge that the words name as somebody finds it who knits from right to left.
func (k *Knitter) edgeOf(e pattern.Edge) pattern.Edge {
	if k.leftHanded {
		return e.Other()
	}
	return e
}

// wrongEdge reports a picking up where it cannot be, once for a row.
func (k *Knitter) wrongEdge(in *instr, text source.Message) {
	if !k.row.line.faulty {
		k.fault(in.step.At, source.PickUp, text, nil, nil)
	}
	k.row.line.faulty = true
}

// corner makes loops at the foot of an edge.
func (k *Knitter) corner(n int, column edge) {
	for range n {
		k.pickedUp(fabric.CornerLoop, k.foot(column[0]))
	}
}

// takeBound opens the part worked flat at the tip: stitches can be picked up here.
func (k *Knitter) takeBound() {
	k.picking = pattern.RightEdge
	if k.take() == leftEnd {
		k.picking = pattern.LeftEdge
	}
}

// finished lists the stitches of an edge that were finished when its last row ended: all
// but the topmost, which then still hung on the needle as one of the stitches of the heel.
func (e edge) finished() []int32 { return e[:len(e)-1] }

// foot is the stitch below the lowest one of an edge, from which a corner loop is drawn.
func (k *Knitter) foot(lowest int32) int32 {
	if k.fab == nil {
		return lowest
	}
	if below := k.fab.Through(lowest); len(below) > 0 {
		return below[0]
	}
	return lowest
}

func (k *Knitter) pickedUp(kind fabric.Kind, through int32) {
	if k.fab != nil {
		k.fab.Add1(kind, k.wrong, through)
	}
	k.newLoop()
	k.live++
	k.row.made++
}

func edgeName(e pattern.Edge) string {
	return [...]string{"along an edge", "along the left edge", "along the right edge", "in the corner"}[e]
}

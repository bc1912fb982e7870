package knit

import (
	"sockwright/internal/fabric"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

// end notes that live stitches are closed: the first time tells how many the sock ended with.
func (k *Knitter) end() {
	if !k.ended {
		k.res.Final, k.ended = k.live, true
	}
}

// join closes live stitches against each other.
func (k *Knitter) join(n *pattern.Join) {
	if !k.fits(n.Front) || !k.fits(n.Back) {
		return
	}
	front, _ := k.stated(n.Front)
	back, _ := k.stated(n.Back)
	all := k.live
	if n.Heel {
		all -= k.rest
	} else {
		k.end()
		k.leaveRows(n.At)
		e, ok := k.next()
		if inRow := ok && e >= 0; inRow || k.place == pattern.CentreOfSole && e == begin {
			k.fault(n.At, source.Direction, say("knit.graft-place", "the yarn hangs in the middle of a needle: work to the side of the sock before grafting"), nil, nil)
		}
	}
	k.allClosed(n.At)
	if front+back != all || front != back {
		if off := all - front - back; front != back || !k.trust.explained(off) {
			k.fault(n.At, source.StitchCount,
				say("knit.graft-unequal", "{0} are to be joined to {1}, but {2} are live: the two sides must be equal and use them all", sts(front), back, all),
				source.Sts(front+back), source.Sts(all))
		}
		return
	}
	kind := fabric.Grafted
	if n.How == pattern.BoundOff {
		kind = fabric.JoinedOff
	}
	loops := k.takeLoops(n.Heel && k.flat)
	k.startRow(pattern.ID(n), true)
	for i := range front {
		if k.fab != nil {
			k.fab.Add(kind, false, loops[i], loops[len(loops)-1-i])
		}
		k.made++
	}
	k.live -= len(loops)
	if !n.Heel {
		k.rest = 0
	}
}

// leaveRows ends a toe that was worked flat, where the yarn hangs at the beginning of its next
// right-side row: what rested is closed with it.
func (k *Knitter) leaveRows(at source.Span) {
	if !k.divided || !k.toe {
		return
	}
	if k.wrong && k.row.turned {
		k.fault(at, source.Direction, say("knit.graft-side", "the halves are to be joined while the wrong side faces: turn the work first"), nil, nil)
	}
	if k.wrong {
		k.turn()
	}
	k.drop(func(e int32) bool { return e != marker })
	k.putBack(begin)
	k.flat, k.divided, k.rest = false, false, 0
}

// takeLoops takes all loops off the needles, in the order of a right-side row, or those of
// the part worked flat alone.
func (k *Knitter) takeLoops(flat bool) []int32 {
	if !flat {
		k.drop(func(int32) bool { return true })
		loops := make([]int32, 0, k.live)
		for range k.live {
			k.next()
			loops = append(loops, k.take())
		}
		return loops
	}
	if k.wrong {
		k.turn()
	}
	k.toRightEnd()
	loops := make([]int32, 0, k.live-k.rest)
	for e, ok := k.next(); ok && e != leftEnd; e, ok = k.next() {
		if k.take(); e >= 0 {
			loops = append(loops, e)
		}
	}
	return loops
}

// endAll closes all live stitches one by one.
func (k *Knitter) endAll(n pattern.Node, what string, kind fabric.Kind, stitches pattern.Number) {
	if !k.fits(stitches) {
		return
	}
	k.end()
	k.allClosed(pattern.At(n))
	if stated, ok := k.stated(stitches); ok && stated != k.live && !k.trust.explained(k.live-stated) {
		k.fault(stitches.Span(k.size), source.StitchCount,
			say("knit.end-count", "{0} are to be {1}, but {2} are live", sts(stated), what, k.live), source.Sts(stated), source.Sts(k.live), k.mendState(stitches, k.live))
	}
	if left, _, found := k.ahead(isBegin); found && left > 0 && left < k.live {
		k.fault(pattern.At(n), source.Direction, say("knit.end-place", "the yarn hangs in the middle of a round: {0} of it are not worked yet", sts(left)), nil, nil)
	}
	loops := k.takeLoops(false)
	k.startRow(pattern.ID(n), true)
	for _, loop := range loops {
		if k.fab != nil {
			k.fab.Add1(kind, false, loop)
		}
		k.made++
	}
	k.live, k.rest = 0, 0
}

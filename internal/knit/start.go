package knit

import (
	"slices"

	"sockwright/internal/fabric"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

func (k *Knitter) castOn(n *pattern.CastOn) {
	k.newPiece()
	if !k.fits(n.Stitches) {
		return
	}
	count, ok := k.stated(n.Stitches)
	if !ok {
		return
	}
	if count < 1 || count > MaxLive || n.Form == pattern.Closed && count%2 != 0 {
		text := say("knit.cast-on", "{0} cannot be cast on: the needles take 1 to {1}", sts(count), MaxLive)
		if n.Form == pattern.Closed {
			text = say("knit.cast-on-halves", "{0} cannot be cast on in two halves", sts(count))
		}
		k.fault(n.Stitches.Span(k.size), source.StitchCount, text, source.Sts(count), nil)
		k.lose()
		return
	}
	k.makeRoom(2*count + 64)
	k.startRow(pattern.ID(n), n.Form.Joined())
	if k.fab != nil {
		k.fab.Grow(min(count*200, 1<<17)) // more than an ordinary sock has
	}
	kind := fabric.CastOn
	if n.Form == pattern.ProvisionalFlat {
		kind = fabric.Provisional
	}
	made := count
	if n.Form == pattern.Closed {
		made /= 2
	}
	k.firstCastOn, k.castOnEdge = k.made, int32(made)
	if n.Form.Joined() {
		k.put(begin)
	} else {
		k.put(rightEnd)
	}
	for range made {
		if k.fab != nil {
			k.fab.Add(kind, false)
		}
		if kind == fabric.Provisional {
			k.provisional = append(k.provisional, k.made)
		}
		k.put(k.made)
		k.made++
	}
	if n.Form == pattern.Closed {
		k.feet(k.firstCastOn, made)
	}
	k.live, k.place = count, n.Begin
	if !n.Form.Joined() {
		k.put(leftEnd)
		k.toRightEnd()
		k.edges[right] = append(k.edges[right][:0], k.firstCastOn)
		k.edges[left] = append(k.edges[left][:0], k.made-1)
		k.flat, k.divided = true, true
	}
	k.record(pattern.ID(n), n.At, "Cast-on")
}

// feet takes up the feet of so many loops from first on: met from the other side, the last
// comes first.
func (k *Knitter) feet(first int32, n int) {
	for i := n - 1; i >= 0; i-- {
		if k.fab != nil {
			k.fab.Add1(fabric.Foot, false, first+int32(i))
		}
		k.put(k.made)
		k.made++
	}
}

// toRightEnd brings the tip to the beginning of the part worked flat, for a right-side row.
func (k *Knitter) toRightEnd() {
	k.turn()
	for e, ok := k.next(); ok && e != rightEnd; e, ok = k.next() {
		k.pass()
	}
	k.turn()
}

// undo takes out a provisional cast-on; what it held rests beside the part worked flat.
func (k *Knitter) undo(n *pattern.Undo) {
	if !k.fits(n.Stitches) {
		return
	}
	stated, has := int(n.Stitches.In(k.size)), len(k.provisional)
	_, _, bounded := k.ahead(func(e int32) bool { return e == leftEnd })
	switch {
	case has == 0 || !k.divided || !bounded:
		k.fault(n.At, source.Direction, say("knit.undo-none", "there is no provisional cast-on to undo here"), nil, nil)
		k.lose()
		return
	case stated != has && !k.trust.explained(has-stated):
		k.fault(n.Stitches.Span(k.size), source.StitchCount,
			say("knit.undo-count", "takes up {0} from the provisional cast-on, which holds {1}", sts(stated), has), source.Sts(stated), source.Sts(has),
			k.mendNumber("knit.mend-undo", "take up its {0} sts", n.Stitches, has))
	}
	if k.wrong {
		k.fault(n.At, source.Direction, say("knit.undo-side", "the provisional cast-on is undone while the wrong side faces: finish with a wrong-side row"), nil, nil)
		k.turn()
	}
	for e, ok := k.next(); ok && e != leftEnd; e, ok = k.next() {
		k.pass()
	}
	k.pass()
	k.startRow(pattern.ID(n), false)
	k.feet(k.provisional[0], has)
	k.provisional = nil
	k.toRightEnd()
	k.live += has
	k.rest += has
	k.record(pattern.ID(n), n.At, "Undone cast-on")
}

// rejoin ends the part worked flat: rounds begin at the tip.
func (k *Knitter) rejoin(n *pattern.Rejoin) {
	if !k.fits(n.Stitches) {
		return
	}
	if k.wrong && k.row.turned {
		k.fault(n.At, source.Direction, say("knit.rejoin-side", "rounds are to go on while the wrong side faces: turn the work first"), nil, nil)
	}
	if k.wrong {
		k.turn()
	}
	if !k.flat {
		k.fault(n.At, source.Direction, say("knit.rejoin-round", "the work goes in the round already"), nil, nil)
	}
	if stated, ok := k.stated(n.Stitches); ok && stated != k.live && !k.trust.explained(k.live-stated) {
		k.fault(n.Stitches.Span(k.size), source.StitchCount,
			say("knit.rejoin-count", "{0} are to be worked in the round again, but there are {1}", sts(stated), k.live), source.Sts(stated), source.Sts(k.live), k.mendState(n.Stitches, k.live))
	}
	k.drop(func(e int32) bool { return e != marker })
	k.putBack(begin)
	k.flat, k.divided, k.rest, k.place = false, false, 0, n.Place
	k.record(pattern.ID(n), n.At, "In the round")
}

// openWaste takes out the waste yarn: the loops below it and the feet of those above it are
// live, and between them lie two corners.
func (k *Knitter) openWaste(n *pattern.OpenWaste) {
	if !k.fits(n.Below) || !k.fits(n.Above) {
		return
	}
	has := len(k.below)
	switch {
	case has == 0:
		k.fault(n.At, source.Direction, say("knit.waste-none", "there is no waste yarn to take out here"), nil, nil)
		k.lose()
		return
	case k.live > 0:
		k.fault(n.At, source.Direction, say("knit.waste-live", "the waste yarn is taken out while {0} are still on the needles: close those first", sts(k.live)), nil, nil)
		k.lose()
		return
	}
	for _, side := range []pattern.Number{n.Below, n.Above} {
		if stated, ok := k.stated(side); ok && stated != has {
			k.fault(side.Span(k.size), source.StitchCount,
				say("knit.waste-count", "states {0} at the waste yarn, which was worked over {1}", sts(stated), has), source.Sts(stated), source.Sts(has), k.mendState(side, has))
		}
	}
	k.needles.reset()
	k.startRow(pattern.ID(n), true)
	k.put(begin)
	for _, loop := range k.below {
		k.put(loop)
	}
	k.put(leftEnd)
	for _, loop := range slices.Backward(k.above) {
		if k.fab != nil {
			k.fab.Add1(fabric.Foot, false, loop)
		}
		k.put(k.made)
		k.made++
	}
	k.put(rightEnd)
	k.edges[right] = append(k.edges[right][:0], k.below[0])
	k.edges[left] = append(k.edges[left][:0], k.below[has-1])
	k.live, k.place, k.flat, k.divided, k.rest = 2*has, n.Place, false, false, 0
	k.below, k.above = nil, nil
	k.record(pattern.ID(n), n.At, "Opened")
}

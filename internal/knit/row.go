package knit

import (
	"math"

	"sockwright/internal/fabric"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

// work works one row or round. asks is the line of the pattern that asks for it.
func (k *Knitter) work(index int, asks pattern.Node) {
	line := &k.prog.rows[index]
	if k.total++; k.total > MaxRows || k.moved > MaxMoves {
		k.limit(pattern.At(asks))
		return
	}
	if line.unfit {
		k.lose()
	}
	if name := line.label.Name; name != pattern.SetUp && name != pattern.Partial {
		k.inPart++
	}
	k.row = rowState{line: line, first: -1, before: k.live, arranging: line.picksUp}
	k.enter(line)
	k.startRow(line.node, line.label.Word == pattern.Round)
	k.steps(k.prog.instrs[line.from:line.to])
	k.motifsGoOn()
	k.leave(line)

	if line.count != nil && !line.plain {
		k.checkChange(line.name, line.count.Change, line.at, k.row.before)
	}
	if !line.plain {
		k.record(line.node, line.at, line.name)
	}
}

// enter makes sure that the row can begin here, on this side.
func (k *Knitter) enter(line *rowLine) {
	label := line.label
	if k.live == 0 {
		k.fault(line.at, source.StitchCount, say("knit.no-stitches", "{0} is to be worked, but no stitches are on the needles", line.name), nil, nil)
		k.lose()
		k.row.failed = true
	}
	round := label.Word == pattern.Round
	otherWord := round && k.flat && !line.picksUp || !round && !k.flat && !line.turns && label.Name != pattern.Partial
	if otherWord && !k.trust.word {
		text := say("knit.row-round", "{0} is a row, but the work goes in the round here", line.name)
		if round {
			text = say("knit.round-flat", "{0} is a round, but the work lies flat here and goes in rows", line.name)
		}
		k.fault(line.at, source.Direction, text, nil, nil)
	}
	if otherWord && round && (!k.divided || k.beginSet()) {
		k.lose() // it cannot be a slip of the pen for a row of the heel
	}
	k.trust.word = otherWord
	k.row.flat = k.flat && (!round || otherWord)

	if label.Side != pattern.NoSide && !otherWord {
		otherSide := (label.Side == pattern.WS) != k.wrong
		if otherSide && !k.trust.side {
			facing := "right"
			if k.wrong {
				facing = "wrong"
			}
			k.fault(line.at, source.Direction, say("knit.side", "{0}: the {1} side faces the knitter here", line.name, facing), nil, nil)
		}
		k.trust.side = otherSide
	}
	if k.divided {
		behind, ok := k.last()
		k.row.atEnd = ok && bound(behind)
	}
	if k.row.flat {
		return
	}
	if k.wrong { // after a right-side row that need not be turned
		k.turn()
	}
	switch left, _, found := k.ahead(isBegin); {
	case !found: // it begins where it joins
		k.put(begin)
		return
	case left > 0 && !k.trust.doubt:
		k.fault(line.at, source.Direction,
			say("knit.mid-round", "{0} is to begin in the middle of a round: {1} of the one before are not worked yet", line.name, sts(left)), nil, nil)
		k.lose()
	}
	for e, ok := k.next(); ok && e < 0 && e != marker; e, ok = k.next() {
		if k.pass(); e == begin {
			return
		}
	}
}

// beginSet tells whether the round has a beginning.
func (k *Knitter) beginSet() bool {
	_, _, found := k.ahead(isBegin)
	return found
}

// leave makes sure that the row ends where it must, turns flat work, and keeps the edges.
func (k *Knitter) leave(line *rowLine) {
	if k.row.turned {
		k.edgeAfterRow(!k.wrong)
		return
	}
	if line.label.Name == pattern.Partial {
		return
	}
	end := isBegin
	if k.row.flat {
		end = bound
	}
	left, _, found := k.ahead(end)
	if !found {
		k.fault(line.at, source.Direction,
			say("knit.no-end", "{0} has no end: say where to turn, or set the heel stitches apart before it", line.name), nil, nil)
		k.lose()
		k.turn()
		return
	}
	if left > 0 && !k.row.failed {
		all := k.live - k.rest
		k.wrongCount(line.at, left, say("knit.left-over", "{0} leaves {1} of {2} unworked", line.name, left, sts(all)), source.Sts(all-left), source.Sts(all))
		k.trust.perhaps = left
	}
	for e, ok := k.next(); ok && !end(e); e, ok = k.next() {
		k.pass()
	}
	if k.row.flat {
		k.turn()
		k.edgeAfterRow(!k.wrong)
		return
	}
	if k.flat {
		k.flat, k.divided, k.rest = false, false, 0
		k.drop(bound)
	}
}

// wrongCount reports that there are off more stitches than the words count on, once for a
// line and unless that follows from what has been reported.
func (k *Knitter) wrongCount(at source.Span, off int, text source.Message, stated, actual *source.Quantity) {
	if line := k.row.line; !line.faulty && !k.trust.explained(off) {
		line.faulty = true
		k.fault(at, source.StitchCount, text, stated, actual)
	}
}

// steps works instructions in order.
func (k *Knitter) steps(list []instr) {
	for i := 0; i < len(list) && !k.row.failed; i++ {
		in := &list[i]
		if in.part != noPart {
			if k.onNeedle(in); k.row.failed {
				return
			}
		}
		if in.op == pattern.Group {
			k.group(in, list[i+1:i+1+int(in.body)])
			i += int(in.body)
			continue
		}
		k.step(in)
	}
}

// onNeedle comes to the beginning of a needle.
func (k *Knitter) onNeedle(in *instr) {
	before := k.row.needle
	k.row.needle = in.part
	if in.part == 0 {
		return
	}
	here := needleStart(in.part)
	e, ok := k.next()
	behind, _ := k.last()
	switch {
	case ok && e == here:
		k.pass()
		return
	case behind == here:
		return
	case k.row.arranging:
		if ok && bound(e) {
			k.takeBound()
		} else if ok && isNeedleStart(e) {
			k.take()
		}
		k.put(here)
		return
	}
	left, _, found := k.ahead(func(e int32) bool { return e == here || e == begin })
	if e, ok := k.next(); found && left > 0 && before > 0 && ok && e != begin {
		k.wrongCount(in.step.At, left, say("knit.needle-left", "{0} leaves {1} on N{2} unworked", k.row.line.name, sts(left), int(before)), nil, nil)
		k.trust.perhaps = left
		for e, ok := k.next(); ok && e != here && e != begin; e, ok = k.next() {
			k.pass()
		}
		if e, ok := k.next(); ok && e == here {
			k.pass()
			return
		}
	}
	if !k.trust.split && !k.trust.doubt {
		k.fault(in.step.At, source.StitchCount,
			say("knit.needle", "{0} goes on to N{1}, but no such needle begins here", k.row.line.name, int(in.part)), nil, nil)
	}
	k.trust.split = true
	k.fail()
}

// group works the body of a repeat.
func (k *Knitter) group(in *instr, body []instr) {
	if in.until == pattern.Times {
		for range in.n {
			if k.pass1(in, body); k.row.failed {
				return
			}
		}
		return
	}
	keep, ahead := 0, k.toStop
	switch in.until {
	case pattern.ToLast:
		keep = int(in.n)
	case pattern.ToGap:
		if k.toGap(in) < 0 {
			return
		}
		keep, ahead = in.before(), k.toGapOrEnd
	}
	for {
		left := ahead() - keep
		if left < 0 {
			k.short(in, keep, left+keep)
		}
		if left <= 0 {
			return
		}
		passes := 1
		if uses := int(in.uses); uses > 0 {
			if left%uses != 0 {
				if k.trust.drift == 0 && !k.trust.doubt {
					k.fault(in.step.At, source.NotDividing,
						say("knit.not-dividing", "the repeat takes {0}, which does not divide {1}: {2} are left over", sts(uses), left, left%uses),
						source.Sts(uses), source.Sts(left))
				}
				k.fail()
				return
			}
			passes = left / uses
		}
		for range passes {
			if k.pass1(in, body); k.row.failed {
				return
			}
		}
		if ahead()-keep >= left {
			k.fault(in.step.At, source.NotDividing, say("knit.endless", "the repeat never comes to its end: one pass of it uses no stitches"), nil, nil)
			k.fail()
			return
		}
	}
}

// pass1 works the body of a repeat once.
func (k *Knitter) pass1(in *instr, body []instr) {
	if k.moved++; k.moved > MaxMoves {
		k.limit(in.step.At)
		return
	}
	k.steps(body)
}

// stop tells which entries end "to end".
func (k *Knitter) stop(e int32) bool {
	return e == begin && !(k.flat && !k.divided) || bound(e) && k.flat || isNeedleStart(e) && k.row.needle > 0
}

// toStop counts the stitches that "to end" would work.
func (k *Knitter) toStop() int {
	left, _, _ := k.ahead(k.stop)
	return min(left, k.toTurn())
}

// toTurn counts the stitches up to where the work was turned, if the row has no other end
// because it runs over the beginning of the round.
func (k *Knitter) toTurn() int {
	if k.row.flat && !k.divided {
		return k.row.before - k.row.made
	}
	return math.MaxInt
}

func (k *Knitter) step(in *instr) {
	if k.moved++; k.moved > MaxMoves {
		k.limit(in.step.At)
		return
	}
	switch in.op {
	case pattern.PlaceMarker:
		k.put(marker)
		return
	case pattern.SlipMarker, pattern.RemoveMarker:
		k.markerHere(in)
		return
	case pattern.Turn:
		k.turnWork(in)
		return
	case pattern.KnitTurned, pattern.PurlTurned:
		k.closeTurned(in)
		return
	case pattern.M1L, pattern.M1R, pattern.LiftedL, pattern.LiftedR, pattern.YarnOver:
		k.increase(in, makes[in.op], in.n)
		return
	case pattern.PickUp, pattern.PickUpPurl:
		k.pickUp(in)
		return
	}
	n := in.n
	switch in.until {
	case pattern.ToEnd, pattern.ToLast:
		left := k.toStop()
		n = int32(left)
		if in.until == pattern.ToLast {
			if n -= in.n; n < 0 {
				k.short(in, int(in.n), left)
				return
			}
		}
	case pattern.ToMarker:
		left, at, found := k.ahead(func(e int32) bool { return e == marker || k.stop(e) })
		if !found || at != marker {
			k.noMarker(in, say("knit.to-marker", "{0} goes to a marker here, but none lies ahead", k.row.line.name))
			k.fail()
			return
		}
		if n = int32(left - in.before()); n < 0 {
			k.short(in, in.before(), left)
			return
		}
	case pattern.ToGap:
		if n = k.toGap(in); n < 0 {
			return
		}
	}
	kind := makes[in.op]
	c, crosses := crossings[in.op]
	switch {
	case in.op == pattern.Slip || in.op == pattern.SlipFront:
		k.slip(in, n)
	case in.op == pattern.InMotif:
		k.inMotif(in, n)
	case in.op == pattern.Kfb || in.op == pattern.Pfb:
		k.severalOf(in, n, kind, fabric.Again)
	case in.op == pattern.ThreeIn1:
		k.severalOf(in, n, kind, fabric.YarnOver, fabric.Again)
	case crosses:
		k.cable(in, c, n)
	case in.op == pattern.KnitHem:
		k.hem(in, n)
	case in.op == pattern.WasteYarn:
		k.wasteYarn(in, n)
	case in.op.Takes() == 1:
		k.run(in, kind, n)
	default:
		k.decrease(in, kind, n)
	}
}

// markerHere slips a marker or takes it off.
func (k *Knitter) markerHere(in *instr) {
	k.closeGap()
	if e, ok := k.next(); !ok || e != marker {
		left, at, _ := k.ahead(func(e int32) bool { return e == marker || k.stop(e) })
		text := say("knit.no-marker", "{0} comes to a marker here, but none is in the rest of it", k.row.line.name)
		if at == marker {
			text = say("knit.marker-later", "{0} comes to a marker here, but the next one is {1} further on", k.row.line.name, sts(left))
		}
		k.noMarker(in, text)
		return
	}
	if in.op == pattern.RemoveMarker {
		k.take()
	} else {
		k.pass()
	}
}

// noMarker reports a marker that is not where it should be. Until the markers are taken
// off, others will miss it too.
func (k *Knitter) noMarker(in *instr, text source.Message) {
	if !k.trust.markers && !k.trust.doubt {
		k.fault(in.step.At, source.Marker, text, nil, nil)
	}
	k.trust.markers = true
}

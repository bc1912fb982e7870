package knit

import (
	"slices"

	"sockwright/internal/fabric"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

// A turned stitch waits beyond a turn with something left on it.
type turned struct {
	stitch int32
	how    pattern.Turned
	loops  []int32 // wraps, or the loop of a twin, or yarn overs; none of a double stitch
}

// turnWork turns the work. Where stitches of the part are left unworked, a gap is noted
// between them and those worked.
func (k *Knitter) turnWork(in *instr) {
	e, ok := k.next()
	beyond := ok && e >= 0
	switch in.turned {
	case pattern.Wrapped, pattern.Twin, pattern.Over:
		k.closeGap()
		if e, ok = k.next(); !ok || e < 0 {
			k.fault(in.step.At, source.Direction, say("knit.turn-none", "the turn needs a stitch beyond it, but none is left in the row"), nil, nil)
			break
		}
		k.leaveGap()
		if in.turned == pattern.Over { // laid when the work has been turned
			k.turn()
			defer k.turn()
		}
		k.leaveOn(e, in.turned)
	case pattern.Doubled:
		k.turn()
		if e, ok = k.next(); ok && e >= 0 {
			k.leaveOn(e, in.turned)
			k.pass()
			k.put(gap)
		} else {
			k.fault(in.step.At, source.Direction, say("knit.double-none", "the double stitch needs a stitch before the turn, but none was worked"), nil, nil)
		}
		k.flat, k.row.turned = true, true
		return
	default:
		if beyond && k.divided {
			k.leaveGap()
		}
	}
	k.flat, k.row.turned = true, true
	k.turn()
}

// leaveGap notes that the work is turned at the tip.
func (k *Knitter) leaveGap() {
	if e, ok := k.last(); !ok || e != gap {
		k.putBack(gap)
	}
}

// closeGap forgets a gap at the tip, which is worked across.
func (k *Knitter) closeGap() {
	for e, ok := k.next(); ok && e == gap; e, ok = k.next() {
		k.take()
	}
}

// leaveOn leaves a loop of yarn on a stitch at a turn.
func (k *Knitter) leaveOn(stitch int32, how pattern.Turned) {
	i := slices.IndexFunc(k.waiting, func(t turned) bool { return t.stitch == stitch })
	if i < 0 {
		i = len(k.waiting)
		k.waiting = append(k.waiting, turned{stitch: stitch, how: how})
	}
	t := &k.waiting[i]
	t.how = how
	if how == pattern.Doubled {
		if k.fab != nil {
			k.fab.Loops[stitch].Tall++
		}
		return
	}
	t.loops = append(t.loops, k.made)
	if k.fab != nil {
		switch how {
		case pattern.Wrapped:
			k.fab.Add1(fabric.Wrap, k.wrong, stitch)
		case pattern.Twin:
			k.fab.Add1(fabric.TwinLoop, k.wrong, k.foot(stitch))
		default:
			k.fab.Add(fabric.YarnOver, k.wrong)
		}
	}
	k.made++
}

// waitsAt is what was left on a stitch.
func (k *Knitter) waitsAt(stitch int32) pattern.Turned {
	for _, t := range k.waiting {
		if t.stitch == stitch {
			return t.how
		}
	}
	return pattern.NotTurned
}

// before is how many stitches before a gap or a marker a step stops.
func (in *instr) before() int {
	if in.step.N.Known() {
		return int(in.n)
	}
	return 0
}

// toGapOrEnd counts the stitches before the next gap, or those that are left.
func (k *Knitter) toGapOrEnd() int {
	left, _, _ := k.ahead(func(e int32) bool { return e == gap || k.stop(e) })
	return left
}

// toGap counts the stitches that a step works before it comes to a gap, and makes sure that
// what waits there is what the words say. It is negative where the row cannot go on.
func (k *Knitter) toGap(in *instr) int32 {
	left, at, found := k.ahead(func(e int32) bool { return e == gap || k.stop(e) })
	if !found || at != gap {
		k.fault(in.step.At, source.Direction,
			say("knit.no-gap", "{0} goes to {1} here, but nowhere ahead has the work been turned", k.row.line.name, turnedName(in.turned)), nil, nil)
		k.fail()
		return -1
	}
	if beyond := k.beyondGap(); beyond != in.turned && in.turned != pattern.NotTurned {
		k.fault(in.step.At, source.Direction,
			say("knit.other-gap", "{0} goes to {1} here, but what waits at the gap is {2}", k.row.line.name, turnedName(in.turned), turnedName(beyond)), nil, nil)
	}
	if left -= in.before(); left < 0 {
		k.short(in, in.before(), left+in.before())
		return -1
	}
	return int32(left)
}

// beyondGap is what was left on the stitch beyond the next gap.
func (k *Knitter) beyondGap() (how pattern.Turned) {
	passed := false
	k.eachAhead(func(e int32) (done bool) {
		passed = passed || e == gap
		if done = passed && e >= 0; done {
			how = k.waitsAt(e)
		}
		return done
	})
	return how
}

// closeTurned works the next stitch together with what a turn has left on it.
func (k *Knitter) closeTurned(in *instr) {
	for n := in.n; n > 0; n-- {
		k.closeGap()
		stitch, ok := k.loop(in, int(n))
		if !ok {
			return
		}
		i := slices.IndexFunc(k.waiting, func(t turned) bool { return t.stitch == stitch })
		if i < 0 || k.waiting[i].how != in.turned {
			k.fault(in.step.At, source.Direction,
				say("knit.not-turned", "{0} works {1} here, but the next stitch is none", k.row.line.name, turnedName(in.turned)), nil, nil)
			k.fail()
			return
		}
		k.take()
		if k.fab != nil {
			k.fab.Add(makes[in.op], k.wrong, append([]int32{stitch}, k.waiting[i].loops...)...)
		}
		k.waiting = slices.Delete(k.waiting, i, i+1)
		k.newLoop()
		k.row.made++
	}
}

// allClosed reports stitches whose wraps, twins, yarn overs or second legs were never
// worked.
func (k *Knitter) allClosed(at source.Span) {
	if len(k.waiting) == 0 {
		return
	}
	t := k.waiting[0].how
	text := say("knit.left-turned", "{0} of the turns are left: each is to be worked together with its stitch", countOf(len(k.waiting), turnedName(t)))
	k.fault(at, source.Direction, text, nil, nil)
	k.waiting = k.waiting[:0]
}

func countOf(n int, what string) string {
	if n == 1 {
		return "1 (" + what + ")"
	}
	return itoa(n) + " (" + what + ")"
}

func turnedName(t pattern.Turned) string {
	return [...]string{"a gap", "a wrapped stitch", "a twin", "a yarn over of a turn", "a double stitch"}[t]
}

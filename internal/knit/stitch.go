package knit

import (
	"math"
	"slices"

	"sockwright/internal/fabric"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

// run works n single stitches, a whole stretch between two other entries at a time.
func (k *Knitter) run(in *instr, kind fabric.Kind, n int32) {
	for n > 0 {
		if _, ok := k.loop(in, int(n)); !ok {
			return
		}
		stretch := min(int(n), k.toTurn())
		k.makeRoom(1)
		var from, to []int32
		if k.wrong {
			i := k.low - 1
			for i > 0 && k.low-i < stretch && k.ring[i-1] >= 0 {
				i--
			}
			from = k.ring[i:k.low]
			to = k.ring[k.high-len(from) : k.high]
			k.low, k.high = i, k.high-len(from)
		} else {
			i := k.high + 1
			for i < len(k.ring) && i-k.high < stretch && k.ring[i] >= 0 {
				i++
			}
			from = k.ring[k.high:i]
			to = k.ring[k.low : k.low+len(from)]
			k.low, k.high = k.low+len(from), i
		}
		if k.fab == nil {
			id := k.made
			for i := range to {
				to[i] = id + int32(i)
				if k.wrong {
					to[i] = id + int32(len(to)-1-i)
				}
			}
		} else if k.wrong {
			k.fab.RunBack(kind, true, from, to)
		} else {
			k.fab.Run(kind, false, from, to)
		}
		if k.row.first < 0 {
			k.row.first = k.made
		}
		m := int32(len(from))
		k.made += m
		k.moved += len(from)
		k.row.made += int(m)
		n -= m
	}
}

func (k *Knitter) slip(in *instr, n int32) {
	for ; n > 0; n-- {
		e, ok := k.loop(in, int(n))
		if !ok {
			return
		}
		if k.fab != nil && k.fab.Loops[e].Tall < math.MaxUint8 {
			k.fab.Loops[e].Tall++
		}
		if k.row.first < 0 {
			k.row.first = e
		}
		k.pass()
		k.row.made++
	}
}

// together takes stitches off the left needle that are worked as one, or across each other;
// left is how many the row still needs, these included. It takes none if there are too few.
func (k *Knitter) together(in *instr, stitches []int32, left int) (ok bool) {
	what := "decrease"
	if _, crosses := crossings[in.op]; crosses {
		what = "cross"
	}
	if k.live < len(stitches) {
		k.short(in, left, k.live)
		return false
	}
	for i := 0; i < len(stitches); {
		if e, _ := k.next(); e == marker && i > 0 {
			k.fault(in.step.At, source.Marker, say("knit.decrease-marker", "a marker stands between the stitches of this {0}", what), nil, nil)
			k.trust.markers = true
			k.pass() // it ends up before the decrease
			continue
		}
		if _, ok := k.loop(in, left-i); !ok {
			for i--; i >= 0; i-- {
				k.putBack(stitches[i])
			}
			return false
		}
		stitches[i] = k.take()
		i++
	}
	return true
}

func (k *Knitter) decrease(in *instr, kind fabric.Kind, n int32) {
	uses := in.op.Takes()
	for ; n > 0; n-- {
		var three [3]int32
		through := three[:uses]
		if !k.together(in, through, int(n)*uses) {
			return
		}
		// The loop on top is named first: of k2tog and p2tog the last one, of ssk the first,
		// of s2kp2 the middle one.
		switch {
		case kind.Lean() > 0:
			slices.Reverse(through)
		case kind == fabric.Centred:
			through[0], through[1] = through[1], through[0]
		}
		if k.fab != nil {
			k.fab.Add(kind, k.wrong, through...)
		}
		k.newLoop()
		k.live -= uses - 1
		k.row.made++
	}
}

func (k *Knitter) increase(in *instr, kind fabric.Kind, n int32) {
	if !k.room(in, int(n)) {
		return
	}
	for range n {
		if k.fab != nil {
			if below, ok := k.raisedFrom(in.op); ok {
				k.fab.Add1(kind, k.wrong, below)
			} else {
				k.fab.Add(kind, k.wrong)
			}
		}
		k.newLoop()
		k.live++
		k.row.made++
	}
}

// raisedFrom is the stitch out of whose leg a lifted increase is drawn: that below the next
// stitch, or two rows below the last one worked.
func (k *Knitter) raisedFrom(op pattern.Op) (below int32, ok bool) {
	switch op {
	case pattern.LiftedR:
		if below, ok = k.next(); ok && below >= 0 {
			return k.foot(below), true
		}
	case pattern.LiftedL:
		if below, ok = k.last(); ok && below >= 0 {
			return k.foot(k.foot(below)), true
		}
	}
	return 0, false
}

// severalOf makes loops of these kinds out of each of n stitches.
func (k *Knitter) severalOf(in *instr, n int32, kinds ...fabric.Kind) {
	if !k.room(in, int(n)*(len(kinds)-1)) {
		return
	}
	for ; n > 0; n-- {
		if _, ok := k.loop(in, int(n)); !ok {
			return
		}
		from := k.take()
		for i, kind := range kinds {
			if k.fab != nil {
				if kind == fabric.YarnOver {
					k.fab.Add(kind, k.wrong)
				} else {
					k.fab.Add1(kind, k.wrong, from)
				}
			}
			k.newLoop()
			k.live += min(i, 1)
		}
		k.row.made++
	}
}

// hem works n stitches together with the loops of the cast-on edge, in their order.
func (k *Knitter) hem(in *instr, n int32) {
	for ; n > 0; n-- {
		if _, ok := k.loop(in, int(n)); !ok {
			return
		}
		if k.hemmed == k.castOnEdge {
			k.fault(in.step.At, source.StitchCount, say("knit.hem-short", "the cast-on edge has only {0}, and all are joined already", sts(int(k.castOnEdge))), nil, nil)
			k.fail()
			return
		}
		live := k.take()
		if k.fab != nil {
			k.fab.Add(fabric.Hem, k.wrong, live, k.firstCastOn+k.hemmed)
		}
		k.hemmed++
		k.newLoop()
		k.row.made++
	}
}

// wasteYarn knits n stitches with waste yarn and again with the working yarn: those below
// wait until it is taken out.
func (k *Knitter) wasteYarn(in *instr, n int32) {
	for ; n > 0; n-- {
		if _, ok := k.loop(in, int(n)); !ok {
			return
		}
		k.below = append(k.below, k.take())
		k.above = append(k.above, k.made)
		if k.fab != nil {
			k.fab.Add(fabric.Provisional, k.wrong)
		}
		k.newLoop()
		k.row.made++
	}
}

// room tells whether the needles take n more stitches.
func (k *Knitter) room(in *instr, n int) bool {
	if k.live+n > MaxLive {
		k.limit(in.step.At)
		return false
	}
	return true
}

// newLoop puts the loop that was just made on the right needle.
func (k *Knitter) newLoop() {
	if k.row.first < 0 {
		k.row.first = k.made
	}
	k.put(k.made)
	k.made++
}

// loop comes to the next loop for a step that still wants n stitches. It returns false where
// the row cannot go on.
func (k *Knitter) loop(in *instr, n int) (loop int32, ok bool) {
	if k.toTurn() <= 0 {
		k.short(in, n, 0)
		return 0, false
	}
	for {
		e, ok := k.next()
		if !ok || e >= 0 {
			return e, ok
		}
		if !k.cross(e, in, n) {
			return 0, false
		}
	}
}

// cross deals with an entry that is not a loop in the way of a step that still wants n
// stitches. It returns false where the row cannot go on.
func (k *Knitter) cross(e int32, in *instr, n int) bool {
	switch {
	case e == marker && k.row.line.allOne(in):
		k.pass()
		return true
	case e == marker:
		k.report(in.step.At, source.Marker, source.Warning, say("knit.marker-passed", "{0} passes a marker here that the words do not slip", k.row.line.name), nil, nil)
		k.pass()
		return true
	case isNeedleStart(e) && k.row.needle == 0:
		k.pass()
		return true
	case isNeedleStart(e) && k.row.arranging:
		k.take()
		return true
	case e == begin && k.flat && !k.divided:
		k.take() // the round no longer begins here
		k.row.beforeBegin = k.row.made
		return true
	case e == gap:
		k.take() // it is closed
		return true
	case bound(e) && !k.flat:
		k.take() // a corner of what was opened, not picked up
		return true
	}
	k.short(in, n, 0)
	return false
}

// short reports a step that still wants more stitches than there are.
func (k *Knitter) short(in *instr, wants, has int) {
	where := "before the end of the row"
	switch {
	case k.row.needle > 0:
		where = "on N" + itoa(int(k.row.needle))
	case k.row.line.label.Word == pattern.Round:
		where = "before the end of the round"
	}
	if in.until == pattern.Times { // of which some are worked
		done := int32(in.op.Takes())*in.n - int32(wants)
		wants, has = wants+int(done), has+int(done)
	}
	text := say("knit.short", "{0} wants {1} here, but only {2} left {3}", k.row.line.name, sts(wants), are(has), where)
	if has == 0 {
		text = say("knit.short-none", "{0} wants {1} here, but none is left {2}", k.row.line.name, sts(wants), where)
	}
	k.wrongCount(in.step.At, has-wants, text, source.Sts(wants), source.Sts(has))
	k.fail()
}

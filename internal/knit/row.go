package knit

import (
	"sockwright/internal/fabric"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

// work works one row or round. again is the line that asks for it if it is not the row's
// own; count is what that line states about the stitches after it.
func (k *Knitter) work(index int, again pattern.Node, count *pattern.Count) {
	line := &k.prog.rows[index]
	k.total++
	if k.total > MaxRows || k.made > MaxLoops {
		at := line.at
		if again != nil {
			at = pattern.At(again)
		}
		k.fault(at, source.StitchCount, source.Error, say("knit.limit", "the work is stopped here: more than {0} rows or {1} stitches", MaxRows, MaxLoops), nil, nil)
		k.stopped = true
		return
	}
	if name := line.label.Name; name == pattern.Plainly || name == pattern.Next {
		k.inPart++
	}
	k.row = rowState{line: line, first: -1, before: k.live, arranging: line.picksUp}
	k.enter(line)
	k.startRow(line.node, line.label.Word == pattern.Round)
	k.steps(k.prog.instrs[line.from:line.to])
	k.leave(line)

	if line.count != nil && line.count.Change.Known() {
		k.checkChange(line)
	}
	if count != nil && count.Total.Known() {
		k.checkCount(count, line.at, again, k.row.before)
	}
	if !line.plain {
		k.record(line.node, line.at, line.name)
	}
}

// enter makes sure that the row can begin here, on this side.
func (k *Knitter) enter(line *rowLine) {
	label := line.label
	switch {
	case label.Word == pattern.Round && k.flat && !line.picksUp:
		k.fault(line.at, source.Direction, source.Error, say("knit.round-flat", "{0} is a round, but the work lies flat: these are rows", line.name), nil, nil)
	case label.Word == pattern.FlatRow && !k.flat && label.Name == pattern.Plainly:
		k.fault(line.at, source.Direction, source.Error, say("knit.row-round", "{0} is a row, but the work goes in the round", line.name), nil, nil)
	}
	if want := label.Side == pattern.WS; label.Side != pattern.NoSide && want != k.wrong {
		facing := "right"
		if k.wrong {
			facing = "wrong"
		}
		k.fault(line.at, source.Direction, source.Error, say("knit.side", "{0}: the {1} side faces the knitter here", line.name, facing), nil, nil)
	}
	if k.divided {
		behind, ok := k.last()
		k.row.atEnd = ok && bound(behind)
	}
	if k.flat && label.Word == pattern.FlatRow {
		return
	}
	e, ok := k.next()
	for ok && isNeedleStart(e) {
		k.pass()
		e, ok = k.next()
	}
	if ok && e == begin {
		k.pass()
	}
}

// leave makes sure that the row ends where it must, turns flat work, and keeps the edges.
func (k *Knitter) leave(line *rowLine) {
	if k.row.turned {
		k.edgeAfterRow(!k.wrong)
		return
	}
	label := line.label
	if label.Name == pattern.Partial {
		return
	}
	flat := k.flat && label.Word == pattern.FlatRow
	end := func(e int32) bool { return e == begin }
	if flat {
		end = bound
	}
	left, _, _ := k.ahead(end)
	if left > 0 && !k.row.failed {
		k.fault(line.at, source.StitchCount, source.Error,
			say("knit.left-over", "{0} leaves {1} of {2} stitches unworked", line.name, left, k.live-k.rest),
			source.Sts(k.live-k.rest-left), source.Sts(k.live-k.rest))
	}
	for e, ok := k.next(); ok && !end(e); e, ok = k.next() {
		k.pass()
		if e < 0 && left == 0 && e != marker && !isNeedleStart(e) {
			break
		}
	}
	if flat {
		k.turn()
		k.edgeAfterRow(!k.wrong)
		return
	}
	if k.flat && label.Word == pattern.Round {
		k.flat, k.divided, k.rest = false, false, 0
		k.drop(bound)
	}
}

// steps works instructions in order.
func (k *Knitter) steps(list []instr) {
	for i := 0; i < len(list) && !k.row.failed; i++ {
		in := &list[i]
		if in.part != noPart {
			k.onNeedle(in)
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
	left, _, _ := k.ahead(func(e int32) bool { return e == here })
	k.fault(in.at, source.StitchCount, source.Error,
		say("knit.needle", "the words for N{0} begin where N{0} does not: {1} stitches of the needle before it are still to be worked", int(in.part), left), nil, nil)
	k.row.failed = true
}

// group works the body of a repeat.
func (k *Knitter) group(in *instr, body []instr) {
	if in.until == pattern.Times {
		for range in.n {
			k.steps(body)
			if k.row.failed {
				return
			}
		}
		return
	}
	keep := 0
	if in.until == pattern.ToLast {
		keep = int(in.n)
	}
	for {
		left, _, _ := k.ahead(k.stop)
		if left -= keep; left <= 0 {
			return
		}
		passes := 1
		if uses := int(in.uses); uses > 0 {
			if left%uses != 0 {
				k.fault(in.at, source.NotDividing, source.Error,
					say("knit.not-dividing", "the repeat takes {0} stitches, which does not divide {1}: {2} are left over", uses, left, left%uses),
					source.Sts(uses), source.Sts(left))
				k.row.failed = true
				return
			}
			passes = left / uses
		}
		for range passes {
			k.steps(body)
			if k.row.failed {
				return
			}
		}
		if after, _, _ := k.ahead(k.stop); after-keep >= left {
			k.fault(in.at, source.NotDividing, source.Error, say("knit.endless", "the repeat never comes to its end: one pass uses no stitches"), nil, nil)
			k.row.failed = true
			return
		}
	}
}

// stop tells which entries end "to end".
func (k *Knitter) stop(e int32) bool {
	return e == begin && !(k.flat && !k.divided) || bound(e) || isNeedleStart(e) && k.row.needle > 0
}

func (k *Knitter) step(in *instr) {
	switch in.op {
	case pattern.PlaceMarker:
		k.put(marker)
		return
	case pattern.SlipMarker, pattern.RemoveMarker:
		if e, ok := k.next(); !ok || e != marker {
			left, _, found := k.ahead(func(e int32) bool { return e == marker || k.stop(e) })
			text := say("knit.no-marker", "a marker is to be slipped here, but none is in the rest of the row")
			if found && left > 0 {
				text = say("knit.marker-later", "a marker is to be slipped here, but {0} stitches come before the next marker or the end", left)
			}
			k.fault(in.at, source.Marker, source.Error, text, nil, nil)
			return
		}
		if in.op == pattern.RemoveMarker {
			k.take()
		} else {
			k.pass()
		}
		return
	case pattern.Turn:
		k.turn()
		k.flat, k.row.turned = true, true
		return
	case pattern.M1L:
		k.increase(fabric.LiftLeft, in.n)
		return
	case pattern.M1R:
		k.increase(fabric.LiftRight, in.n)
		return
	case pattern.PickUp:
		k.pickUp(in)
		return
	}
	n := in.n
	switch in.until {
	case pattern.ToEnd, pattern.ToLast:
		left, _, _ := k.ahead(k.stop)
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
			k.fault(in.at, source.Marker, source.Error, say("knit.to-marker", "no marker lies ahead: the row has {0} stitches left", left), nil, nil)
			k.row.failed = true
			return
		}
		n = int32(left)
	}
	switch in.op {
	case pattern.Knit:
		k.run(in, fabric.Knit, n)
	case pattern.Purl:
		k.run(in, fabric.Purl, n)
	case pattern.KnitTbl:
		k.run(in, fabric.KnitTbl, n)
	case pattern.PurlTbl:
		k.run(in, fabric.PurlTbl, n)
	case pattern.Slip:
		k.slip(in, n)
	case pattern.K2tog:
		k.decrease(in, fabric.K2tog, n)
	case pattern.Ssk:
		k.decrease(in, fabric.Ssk, n)
	case pattern.P2tog:
		k.decrease(in, fabric.P2tog, n)
	case pattern.Ssp:
		k.decrease(in, fabric.Ssp, n)
	}
}

// run works n single stitches, a whole stretch between two other entries at a time.
func (k *Knitter) run(in *instr, kind fabric.Kind, n int32) {
	for n > 0 {
		e, ok := k.next()
		if !ok || e < 0 {
			if !ok || !k.cross(e, in, int(n)) {
				return
			}
			continue
		}
		k.makeRoom(1)
		var from, to []int32
		if k.wrong {
			i := k.low - 1
			for i > 0 && k.low-i < int(n) && k.ring[i-1] >= 0 {
				i--
			}
			from = k.ring[i:k.low]
			to = k.ring[k.high-len(from) : k.high]
			k.low, k.high = i, k.high-len(from)
		} else {
			i := k.high + 1
			for i < len(k.ring) && i-k.high < int(n) && k.ring[i] >= 0 {
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
		k.row.made += int(m)
		n -= m
	}
}

func (k *Knitter) slip(in *instr, n int32) {
	for n > 0 {
		e, ok := k.next()
		if !ok || e < 0 {
			if !ok || !k.cross(e, in, int(n)) {
				return
			}
			continue
		}
		if k.fab != nil {
			k.fab.Loops[e].Tall++
		}
		if k.row.first < 0 {
			k.row.first = e
		}
		k.pass()
		k.row.made++
		n--
	}
}

func (k *Knitter) decrease(in *instr, kind fabric.Kind, n int32) {
	for ; n > 0; n-- {
		var pair [2]int32
		for i := 0; i < 2; {
			e, ok := k.next()
			if ok && e == marker && i == 1 {
				k.fault(in.at, source.Marker, source.Error, say("knit.decrease-marker", "a marker stands between the two stitches of this decrease"), nil, nil)
				k.pass() // it ends up before the decrease
				continue
			}
			if !ok || e < 0 {
				if !ok || !k.cross(e, in, int(n)*2-i) {
					return
				}
				continue
			}
			pair[i] = k.take()
			i++
		}
		// The loop on top is named first: of k2tog and p2tog the second one, of ssk the first.
		if kind.Lean() > 0 {
			pair[0], pair[1] = pair[1], pair[0]
		}
		if k.fab != nil {
			k.fab.Add(kind, k.wrong, pair[0], pair[1])
		}
		k.newLoop()
		k.live--
		k.row.made++
	}
}

func (k *Knitter) increase(kind fabric.Kind, n int32) {
	for range n {
		if k.fab != nil {
			k.fab.Add(kind, k.wrong)
		}
		k.newLoop()
		k.live++
		k.row.made++
	}
}

// newLoop puts the loop that was just made on the right needle.
func (k *Knitter) newLoop() {
	if k.row.first < 0 {
		k.row.first = k.made
	}
	k.put(k.made)
	k.made++
}

// cross deals with an entry that is not a loop in the way of a step that still wants n
// stitches. It returns false where the row cannot go on.
func (k *Knitter) cross(e int32, in *instr, n int) bool {
	switch {
	case e == marker:
		k.fault(in.at, source.Marker, source.Warning, say("knit.marker-passed", "a marker is passed here that the words do not slip"), nil, nil)
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
		return true
	}
	k.short(in, n, 0)
	return false
}

// short reports a step that wants more stitches than there are.
func (k *Knitter) short(in *instr, wants, has int) {
	where := "before the end of the row"
	switch {
	case k.row.needle > 0:
		where = "on N" + itoa(int(k.row.needle))
	case k.row.line.label.Word == pattern.Round:
		where = "before the end of the round"
	}
	k.fault(in.at, source.StitchCount, source.Error,
		say("knit.short", "{0} needs {1} more stitches here, but only {2} are left {3}", k.row.line.name, wants, has, where),
		source.Sts(wants), source.Sts(has))
	k.row.failed = true
}

// checkChange compares a stated gain or loss with the true one.
func (k *Knitter) checkChange(line *rowLine) {
	change := line.count.Change
	stated, actual := int(change.In(k.size)), k.live-k.row.before
	if stated == actual || k.row.failed {
		return
	}
	verb := func(n int) string {
		if n > 0 {
			return itoa(n) + " increased"
		}
		return itoa(-n) + " decreased"
	}
	at := change.Span(k.size)
	if !at.Known() {
		at = line.at
	}
	k.fault(at, source.StitchCount, source.Error,
		say("knit.change", "{0} states {1}, but {2}", line.name, verb(stated), verb(actual)), source.Sts(stated), source.Sts(actual),
		mendNumber(change, k.size, max(actual, -actual)))
}

// checkCount compares stated totals with the needles.
func (k *Knitter) checkCount(c *pattern.Count, at source.Span, line pattern.Node, before int) {
	actual := k.live - k.rest
	before -= k.rest
	name := k.row.line.name
	if again, ok := line.(*pattern.Again); ok && again != nil {
		name = "the repeat"
	}
	if c.Total.Known() {
		stated := int(c.Total.In(k.size))
		if drift := actual - stated; drift != 0 && drift != k.drift {
			span := c.Total.Span(k.size)
			if !span.Known() {
				span = at
			}
			k.fault(span, source.StitchCount, source.Error,
				say("knit.count", "{0} states {1} sts, but {2} are on the needles ({3} before the last row)", name, stated, actual, before),
				source.Sts(stated), source.Sts(actual), mendNumber(c.Total, k.size, actual))
			k.drift = drift
		} else if drift == 0 {
			k.drift = 0
		}
	}
	if len(c.Split) == 0 || k.drift != 0 {
		return
	}
	var on [256]int
	current := uint8(0)
	k.each(func(e int32) {
		if e >= 0 {
			on[current]++
		} else if isNeedleStart(e) {
			current = uint8(needleEnd - e)
		} else if e == begin {
			current = 0
		}
	})
	if current != 0 { // what lies before the first needle start belongs to the last needle
		on[current] += on[0]
	}
	for i, s := range c.Split {
		stated, has := int(s.In(k.size)), on[i+1]
		if stated != has {
			span := s.Span(k.size)
			if !span.Known() {
				span = at
			}
			k.fault(span, source.StitchCount, source.Error,
				say("knit.split", "{0} states {1} sts on N{2}, but it holds {3}", name, stated, i+1, has),
				source.Sts(stated), source.Sts(has), mendNumber(s, k.size, has))
			return
		}
	}
}

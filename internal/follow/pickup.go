package follow

import (
	"slices"

	"sockwright/internal/script"
	"sockwright/internal/source"
)

// chains is how many edge stitches a side of the flap offers; ok is false if that is not
// known.
func (w *worker) chains() (n int, ok bool) {
	return w.slipRows / 2, w.edges && w.slipRows >= 4 && w.slipRows == w.flapRows
}

func (w *worker) pickUp(rw *rowWork, s *script.Step, n int) *problem {
	if w.n.flat || len(w.n.held) > 0 {
		w.passHeel()
	}
	rw.part = 0
	if s.Edge {
		if chains, ok := w.chains(); ok {
			if s.N.Known() && n != chains {
				if !w.reportedPickUp {
					w.reportedPickUp = true
					w.soft = append(w.soft, w.remark(s.N.Span(w.size), source.PickUp, source.Say("follow.edge", "{0} are to be picked up, one in each slipped edge st, but the flap has {1} a side: {2} rows", source.InSts(n), chains, w.flapRows), source.Sts(n), source.Sts(chains)))
				}
				if w.literal {
					n = chains
				}
			} else if !s.N.Known() {
				n = chains
			}
			w.lastPick = n
			w.edgePick = true
		} else if !s.N.Known() {
			return w.fail(s.At, source.PickUp, source.Say("follow.edge-unknown", "how many edge stitches there are is not told"), nil, nil)
		}
	} else if p := w.oddPickUp(s, n); p != nil && !w.reportedPickUp {
		w.reportedPickUp = true
		w.soft = append(w.soft, p)
	} else if w.edgePick && !s.Corner && w.literal {
		if chains, ok := w.chains(); ok && n > chains+2 {
			n = w.lastPick
		}
	}
	for range n {
		if w.moves++; w.moves > maxMoves || len(w.n.right) > MaxLive {
			return w.tooWide(s.At)
		}
		w.put(rw, cell{part: script.Gusset})
	}
	return nil
}

// oddPickUp: the number picked up goes with the rows of the flap in the other sizes, but not
// in this one.
func (w *worker) oddPickUp(s *script.Step, n int) *problem {
	chains, ok := w.chains()
	if !ok || s.Corner || len(s.N.Val) < 3 || len(s.N.Val) != len(w.script.Sizes) || w.flapRule == nil {
		return nil
	}
	agree := 0
	extra := 0
	for size, v := range s.N.Val {
		if rows := w.flapRule(size); rows > 0 && size != w.size {
			switch d := int(v) - rows/2; {
			case agree == 0:
				extra, agree = d, 1
			case d == extra:
				agree++
			}
		}
	}
	if agree*2 < len(s.N.Val) || extra < 0 || extra > 2 || n == chains+extra {
		return nil
	}
	return w.remark(s.N.Span(w.size), source.PickUp, source.Say("follow.edge-odd", "{0} are to be picked up along a flap of {1} rows, which offers {2} a side", source.InSts(n), w.flapRows, chains+extra), source.Sts(n), source.Sts(chains+extra))
}

// layOut ends a row that picked up: from here on the work goes round.
func (w *worker) layOut(rw *rowWork) {
	for i := range w.n.right {
		if p := w.n.right[i].part; p != script.Instep {
			w.n.right[i].part = script.Sole
		}
	}
	for i := range w.n.left {
		if p := w.n.left[i].part; p != script.Instep {
			w.n.left[i].part = script.Sole
		}
	}
	if len(w.n.held) > 0 { // the instep is not told: it comes last
		w.n.takeUp()
	}
	w.n.flat = false
	w.n.facing = script.RS
	w.n.dropGaps()
	w.n.begin()
	w.endFlap()
	w.certain(ofLayout)
	if n, _ := w.n.inPart(script.Instep); n == 0 && w.untold { // how many rest has not been told
		w.doubt |= ofCount | ofLayout
	}
	w.halfHeel(rw)
	if rw.came || rw.ndl > 0 { // needles: from the beginning to the instep, the instep, the rest
		w.relabel()
	}
}

// relabel names the needles anew after the round has got a new beginning.
func (w *worker) relabel() {
	runs, last := 0, script.NoPart
	for _, c := range slices.Backward(w.n.left) {
		if c.mark == stitch && (runs == 0 || c.part != last) {
			runs++
			last = c.part
		}
	}
	for i := range w.n.left {
		w.n.left[i].ndl = 0
	}
	if runs >= 2 {
		w.layOver(runs)
	}
}

// halfHeel: a row that picks up along both edges and then goes on over the heel to where the
// round begins, comes to its middle or works all of it.
func (w *worker) halfHeel(rw *rowWork) {
	steps := rw.row.Steps
	last := &steps[len(steps)-1]
	if len(steps) < 2 || !rw.came || last.Op != script.Knit || last.To != script.Here || !last.N.Known() || steps[len(steps)-2].Op != script.PickUp {
		return
	}
	heel, n := rw.before, int(w.val(last.N))
	if n == heel/2 || n == heel-heel/2 || n == heel {
		return
	}
	p := w.remark(last.N.Span(w.size), source.StitchCount, source.Say("follow.half-heel", "{0} of the heel are worked before the round begins, but half of its {1} are {2}", source.InSts(n), heel, heel/2), source.Sts(n), source.Sts(heel/2))
	p.fault.Severity = source.Warning
	p.fault.Mends = []source.Mend{w.write(last.N, heel/2)}
	w.soft = append(w.soft, p)
}

// wholeHeel: a row that works so many stitches and then picks up along the heel comes to the
// edge of the heel first, over all of it or from its middle.
func (w *worker) wholeHeel(rw *rowWork) {
	if !w.n.flat || !w.known || w.heelCount == 0 {
		return
	}
	first := &rw.row.Steps[0]
	if first.Op != script.Knit || first.To != script.Here || !first.N.Known() || len(rw.row.Steps) < 2 || rw.row.Steps[1].Op != script.PickUp {
		return
	}
	heel, n := rw.before, int(w.val(first.N))
	if n == heel || n == heel/2 || n == heel-heel/2 {
		return
	}
	p := w.remark(first.N.Span(w.size), source.StitchCount, source.Say("follow.whole-heel", "{0} are worked before stitches are picked up at the edge of the heel, which has {1}", source.InSts(n), heel), source.Sts(n), source.Sts(heel))
	p.fault.Mends = []source.Mend{w.write(first.N, heel)}
	w.soft = append(w.soft, p)
}

// bring makes more stitches available in a row that picks up: first those that rest, then,
// over the end of the round, the first ones again.
func (w *worker) bring(rw *rowWork) bool {
	switch {
	case len(w.n.held) > 0:
		w.n.takeUp()
		return true
	case !rw.came && len(w.n.right) > 0:
		rw.came = true
		w.n.begin()
		return true
	}
	return false
}

// bringInstep makes the instep's stitches those that come next, even if the text has not
// told of them before.
func (w *worker) bringInstep(rw *rowWork, s *script.Step, n int) *problem {
	w.passHeel()
	if len(w.n.held) == 0 {
		if have, _ := w.n.inPart(script.Instep); have == 0 {
			w.n.left = append(w.n.left, slices.Repeat([]cell{{part: script.Instep}}, max(n, 0))...)
		}
		return nil
	}
	if have := count(w.n.held); have != n {
		return w.short(rw, s, n, have)
	}
	w.bring(rw)
	return nil
}

// passHeel moves the heel's stitches to the right needle: they have been worked before.
func (w *worker) passHeel() {
	for _, c := range slices.Backward(w.n.left) {
		if c.mark != gap {
			w.n.right = append(w.n.right, c)
		}
	}
	w.n.left = w.n.left[:0]
}

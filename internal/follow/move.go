package follow

import (
	"slices"

	"sockwright/internal/script"
	"sockwright/internal/source"
)

// move puts stitches of one needle on another. Where that takes them over the beginning of
// the round, the round begins anew there.
func (w *worker) move(n *script.Move) *problem {
	if !w.known || w.n.flat {
		return nil
	}
	w.needNeedles(max(n.From, n.To))
	w.n.begin()
	have, _ := w.n.onNeedle(n.From)
	untold := have
	if n.Of != script.Unsaid {
		untold = 1
	}
	v, ok := w.figure(n.N, untold)
	if !ok {
		return nil
	}
	if v > have {
		return w.fail(n.At, source.StitchCount, source.Say("follow.move", "{0} are to go to N{1}, but N{2} has {3}", source.InSts(v), n.To, n.From, have), source.Sts(v), source.Sts(have))
	}
	top := w.needlesInUse()
	var at []int // of the stitches of the needle, in the order of the round
	for i, c := range slices.Backward(w.n.left) {
		if c.mark == stitch && int(c.ndl) == n.From {
			at = append(at, i)
		}
	}
	last := n.Of == script.Last
	moved := at[:v]
	if last {
		moved = at[have-v:]
	}
	for _, i := range moved {
		w.n.left[i].ndl = uint8(n.To)
	}
	switch {
	case v == 0:
	case !last && n.From == 1 && n.To == top && n.To > 1: // they were the first of the round: now the last
		cut := moved[v-1]
		w.n.left = slices.Concat(w.n.left[cut:], w.n.left[:cut])
	case last && n.To == 1 && n.From == top: // they were the last: now the first
		cut := moved[0] + 1
		w.n.left = slices.Concat(w.n.left[cut:], w.n.left[:cut])
	}
	return nil
}

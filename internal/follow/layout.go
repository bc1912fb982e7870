package follow

import (
	"slices"

	"sockwright/internal/script"
	"sockwright/internal/source"
)

// arrange lays the stitches out as the text says.
func (w *worker) arrange(n *script.Arrange) (problems []*problem) {
	if !w.began {
		w.open(n.Claims, false)
		return nil
	}
	if !w.known {
		return nil
	}
	if w.n.flat && w.part != script.Heel {
		w.n.rejoin()
	}
	if n.Even > 0 && len(n.Claims) == 0 {
		if !w.n.flat {
			w.layOver(n.Even)
		}
		return nil
	}
	if len(n.Claims) == 1 && n.Claims[0].What == script.EachNdl && !w.n.flat { // laid out anew
		if v, ok := w.figure(n.Claims[0].N, 0); ok && v > 0 {
			if k := w.n.total() / v; k >= 2 && k <= 6 && k*v == w.n.total() && (n.Even == 0 || n.Even == k) {
				w.layEach(k)
				return nil
			}
		}
	}
	return w.lay(n.Claims)
}

// lay compares a layout with what there is, and lays the stitches out.
func (w *worker) lay(claims []script.Claim) (problems []*problem) {
	sum := 0
	var sizes []int
	var parts []script.Part
	for _, c := range claims {
		v, ok := w.figure(c.N, 0)
		if !ok {
			return nil
		}
		switch c.What {
		case script.Total, script.EachNdl:
			problems = append(problems, w.check(c, nil)...)
			continue
		}
		sizes = append(sizes, v)
		parts = append(parts, c.Part)
		sum += v
	}
	if len(sizes) < 2 {
		return problems
	}
	if total := w.n.worked(); sum != total {
		c := claims[len(claims)-1]
		for _, x := range claims {
			if x.What != script.Total {
				c = x
			}
		}
		p := w.remark(c.N.Span(w.size), source.StitchCount, source.Say("follow.layout", "the needles hold {0} together, but there are {1}", source.InSts(sum), total), source.Sts(sum), source.Sts(total))
		return append(problems, p)
	}
	w.n.spread(sizes)
	w.nameParts(parts)
	w.certain(ofCount | ofLayout)
	return problems
}

// layEach lays the stitches evenly over k needles.
func (w *worker) layEach(k int) {
	if w.n.flat {
		return
	}
	total := w.n.worked()
	each := make([]int, k)
	for i := range each {
		each[i] = total / k
	}
	w.n.spread(each)
}

// layOver spreads the stitches over k needles as is usual: with three, the second one holds
// the instep, or half; with four, quarters.
func (w *worker) layOver(k int) {
	total := w.n.worked()
	var runs []int
	var last script.Part
	for _, c := range slices.Backward(w.n.left) {
		if c.mark != stitch {
			continue
		}
		p := c.part
		if p != script.Instep {
			p = script.Sole
		}
		if len(runs) == 0 || p != last {
			runs = append(runs, 0)
		}
		runs[len(runs)-1]++
		last = p
	}
	switch {
	case len(runs) == k:
		w.n.spread(runs)
	case k == 4 && len(runs) == 3:
		w.n.spread([]int{runs[0], (runs[1] + 1) / 2, runs[1] / 2, runs[2]})
	case k == 4 && len(runs) == 2:
		w.n.spread([]int{(runs[0] + 1) / 2, runs[0] / 2, (runs[1] + 1) / 2, runs[1] / 2})
	case k == 4:
		w.n.spread([]int{(total + 3) / 4, (total + 2) / 4, (total + 1) / 4, total / 4})
	case k == 3 && len(runs) == 2: // sole, instep: the round begins before the sole
		w.n.spread([]int{(runs[0] + 1) / 2, runs[1], runs[0] / 2})
	case k == 3:
		half := (total + 1) / 2
		rest := total - half
		w.n.spread([]int{(rest + 1) / 2, half, rest / 2})
	default:
		w.n.spread([]int{(total + 1) / 2, total / 2})
	}
}

// needNeedles lays the stitches out on so many needles if the text has not.
func (w *worker) needNeedles(k int) {
	if on, told := w.n.onNeedle(k); told && (k <= 2 || on > 0) {
		return
	}
	if count(w.n.right) > 0 && !w.n.flat { // in the midst of a round: only the layout of the whole helps
		return
	}
	w.layOver(max(k, 2))
}

// nextNeedle is the needle on which the next stitch lies.
func (w *worker) nextNeedle() uint8 {
	if i := lastStitch(w.n.left); i >= 0 {
		return w.n.left[i].ndl
	}
	return 0
}

// needParts tells which stitches are the instep and which the sole where a round is told for the two,
// half by half, and the text has not laid them out.
func (w *worker) needParts(rw *rowWork) {
	if w.n.flat || count(w.n.right) > 0 {
		return
	}
	if _, told := w.n.inPart(script.Instep); told {
		return
	}
	var parts []script.Part
	for _, s := range rw.row.Steps {
		if s.Op == script.ToNeedle {
			if s.Part != script.Instep && s.Part != script.Sole || slices.Contains(parts, s.Part) {
				return
			}
			parts = append(parts, s.Part)
		}
	}
	if len(parts) == 2 {
		w.needNeedles(2)
		w.nameParts(parts)
	}
}

func (w *worker) needlesInUse() int {
	top := 0
	for _, list := range [][]cell{w.n.left, w.n.right, w.n.held} {
		for _, c := range list {
			top = max(top, int(c.ndl))
		}
	}
	return max(top, 1)
}

func (w *worker) nameParts(parts []script.Part) {
	for i := range w.n.left {
		if k := int(w.n.left[i].ndl); k >= 1 && k <= len(parts) && parts[k-1] != 0 {
			w.n.left[i].part = parts[k-1]
		}
	}
}

package follow

import (
	"slices"
	"strings"

	"sockwright/internal/script"
	"sockwright/internal/source"
)

// state compares a statement with what is there, or begins with it.
func (w *worker) state(n *script.State) (problems []*problem) {
	if !w.began {
		w.open(n.Claims, n.Turned)
		if off := w.sumOfParts(n.Claims); off != nil {
			return off
		}
		return w.checkAll(n.Claims, nil)
	}
	if w.n.flat && w.known && !w.turning && (n.Turned || w.flapRows > 0 && w.saysTurned()) { // the turn itself is not told
		if c := n.Claims[0]; c.What == script.Live || c.What == script.OfPart && c.Part == script.Heel {
			if v, ok := w.figure(c.N, 0); ok && v < w.n.worked() && v > 0 {
				w.n.dropGaps()
				w.n.resize(v)
				w.turning = true
				return w.checkAll(n.Claims[1:], nil)
			}
		}
	}
	if slices.ContainsFunc(n.Claims, func(c script.Claim) bool { return c.Soft }) {
		w.waste = n.Claims[0].N
		return nil
	}
	if n.After > 0 && n.After != len(w.passes) {
		return w.onTheWay(n)
	}
	if c := n.Claims[0]; len(n.Claims) == 1 && c.What == script.EachNdl && !c.N.Known() && c.Part == script.NoPart && !w.n.flat && w.known && w.n.total()%2 == 0 { // "half on each needle"
		w.layOver(2)
		return nil
	}
	if off := w.sumOfParts(n.Claims); off != nil {
		return off
	}
	return w.checkAll(n.Claims, nil)
}

// open begins the work with what is stated. turned tells that it is of a heel that has been
// turned.
func (w *worker) open(claims []script.Claim, turned bool) {
	total, heel, instep, rows := -1, -1, -1, -1
	sole := slices.ContainsFunc(claims, func(c script.Claim) bool { return c.What == script.OfPart && c.Part == script.Sole })
	var ndl []int
	var parts []script.Part
	for _, c := range claims {
		if !c.N.Known() {
			continue
		}
		v := int(w.val(c.N))
		if v < 0 || v > MaxLive {
			continue
		}
		switch c.What {
		case script.Live, script.Total:
			switch {
			case turned && c.What == script.Live && heel < 0:
				heel = v
			case total < 0:
				total = v
			}
		case script.OfPart:
			switch c.Part {
			case script.Heel, script.Sole, script.Flank, script.Middle:
				if c.Part == script.Heel || c.Part == script.Sole {
					if heel < 0 {
						heel = v
					}
				}
			case script.Instep:
				instep = v
			default:
				if total < 0 {
					total = v
				}
			}
			if c.Part == script.Sole || c.Part == script.Instep && (heel < 0 || sole) {
				ndl = append(ndl, v)
				parts = append(parts, c.Part)
			}
		case script.OnNdl:
			ndl = append(ndl, v)
			parts = append(parts, c.Part)
		case script.RowCount:
			rows = v
		case script.EachNdl:
			for range c.Needle {
				ndl = append(ndl, v)
				parts = append(parts, script.NoPart)
			}
		}
	}
	sum := 0
	for _, v := range ndl {
		sum += v
	}
	if w.part == script.Heel && total >= 0 && heel < 0 && (len(ndl) == 0 || len(ndl) == 1 && instep >= 0 && rows >= 0) { // "Heel turned: 16 sts"
		heel, total = total, -1
	}
	switch {
	case heel >= 0 && (len(ndl) == 0 || instep >= 0 && len(ndl) < 2) && !onNeedles(claims):
		w.establish(heel)
		w.n.flat = true
		w.n.facing = script.NoSide
		w.firstRow = true
		if instep < 0 && total > heel {
			instep = total - heel
		}
		w.n.restInstep(instep)
		w.markHeel()
		w.newFlap()
		w.flapRows = max(rows, 0)
	case total >= 0:
		w.establish(total)
		if len(ndl) > 1 && sum == total {
			w.n.spread(ndl)
			w.nameParts(parts)
		}
	case sum > 0:
		w.establish(sum)
		if len(ndl) > 1 {
			w.n.spread(ndl)
			w.nameParts(parts)
		}
	default:
		return
	}
	var halves []script.Part
	for _, c := range claims {
		if c.What == script.EachNdl && !c.N.Known() && !w.n.flat { // half on each
			halves = append(halves, c.Part)
		}
	}
	if halves != nil {
		w.layOver(2)
		w.nameParts(halves)
	}
}

func onNeedles(claims []script.Claim) bool {
	return slices.ContainsFunc(claims, func(c script.Claim) bool { return c.What == script.OnNdl })
}

// sumOfParts compares the parts that a statement names with the whole that it names, or that
// is there: "of the 60 sts, 30 are the heel and 30 rest", "13 in the middle and 13 at each
// side".
func (w *worker) sumOfParts(claims []script.Claim) []*problem {
	part := func(p script.Part) (n int, of script.Claim) {
		for _, c := range claims {
			if v, ok := w.figure(c.N, 0); ok && c.What == script.OfPart && c.Part == p && c.N.Known() {
				return v, c
			}
		}
		return -1, script.Claim{}
	}
	heel, of := part(script.Heel)
	if rest, _ := part(script.Instep); heel > 0 && rest > 0 && (claims[0].What == script.Live || claims[0].What == script.Total) && claims[0].N.Known() {
		if all, ok := w.figure(claims[0].N, 0); ok && heel+rest != all {
			return []*problem{w.partsOff(of, heel+rest, all)}
		}
	}
	middle, of := part(script.Middle)
	if flank, _ := part(script.Flank); middle > 0 && flank > 0 && w.known && w.n.flat && !w.n.gaps() && middle+2*flank != w.n.worked() {
		return []*problem{w.partsOff(of, middle+2*flank, w.n.worked())}
	}
	return nil
}

// partsOff: the parts that are named do not make the whole.
func (w *worker) partsOff(c script.Claim, parts, all int) *problem {
	p := w.remark(c.N.Span(w.size), source.StitchCount, source.Say("follow.parts", "the parts named here make {0}, but there are {1}", source.InSts(parts), all), source.Sts(parts), source.Sts(all))
	return p
}

// onTheWay compares what is said to have been on the needles after some of the passes of the
// rows repeated last.
func (w *worker) onTheWay(n *script.State) (problems []*problem) {
	if n.After > len(w.passes) || !w.known {
		return nil
	}
	for _, c := range n.Claims {
		v, ok := w.figure(c.N, 0)
		if c.What != script.Live && c.What != script.Total || !c.N.Known() || !ok {
			continue
		}
		if actual := w.passes[n.After-1]; v != actual {
			problems = append(problems, w.wrongCount(c, v, actual, "then"))
		}
	}
	return problems
}

// saysTurned tells whether the part that is told is a heel that has been turned.
func (w *worker) saysTurned() bool {
	if w.section == nil {
		return false
	}
	name := strings.ToLower(w.section.Name)
	return strings.Contains(name, "turn")
}

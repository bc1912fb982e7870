package follow

import (
	"slices"
	"strconv"

	"sockwright/internal/pattern"
	"sockwright/internal/script"
	"sockwright/internal/source"
)

// A found is a fault in one size, with the list of figures it is about.
type found struct {
	source.Fault
	size   int
	number pattern.Number
}

// explain works one size again and finds the cheapest explanation of everything that goes
// wrong, going on from what the rest of the text agrees with.
func (f *follower) explain(size int, conv conventions) (out []*found, silenced []source.Span) {
	w := f.worker(size, conv)
	w.literal = false
	snaps := make([]*worker, len(f.plan))
	anchor := 0
	for i := 0; i < len(f.plan); i++ {
		snaps[i] = w.clone()
		if i > reach {
			snaps[i-reach-1] = nil
		}
		if f.bears(i) {
			w.certain(ofCount)
		}
		problems := w.perform(&f.plan[i])
		if len(problems) == 0 {
			if w.known && confirms(&f.plan[i]) || w.doubt&ofCount != 0 {
				anchor = i + 1
			}
			continue
		}
		if len(out) > 60 {
			return out, w.silenced
		}
		counted := slices.ContainsFunc(problems, func(p *problem) bool { return explainable(p) })
		if !counted {
			for _, p := range problems {
				out = append(out, &found{Fault: p.fault, size: size, number: f.numberAt(p.fault.At, &f.plan[i])})
			}
			if !w.known {
				w.suspect(words{of: ofAll})
			}
			continue
		}
		best := f.best(w, snaps, anchor, i, problems)
		out = append(out, best.faults...)
		if best.w != nil {
			if w = best.w; !w.known { // the row could not be worked, and nobody can say why
				w.suspect(words{of: ofAll})
			}
			now := w.clone()
			for j := best.from; j <= i; j++ {
				snaps[j] = now
			}
		}
		anchor = i + 1
	}
	return out, w.silenced
}

// explainable: a fault that another figure above may be to blame for.
func explainable(p *problem) bool {
	switch p.fault.Kind {
	case source.StitchCount, source.Parity, source.NotDividing, source.PickUp:
		return true
	}
	return false
}

// confirms tells whether an entry states a count.
func confirms(e *entry) bool {
	return aim(e) != nil || slices.ContainsFunc(claimsOf(e), func(c script.Claim) bool {
		return c.N.Known() && (c.What == script.Live || c.What == script.Total || c.What == script.OfPart || c.What == script.OnNdl)
	})
}

// A guess is one explanation.
type guess struct {
	cost   float64
	faults []*found
	w      *worker // how it goes on
	from   int
}

const (
	reach     = 40  // entries back in which a slip is looked for
	horizon   = 14  // entries that are worked on to see what an explanation leads to
	maxTrials = 400 // figures that are tried for one fault
	enough    = 8   // what goes wrong further on is not counted beyond this
)

// best weighs the explanations of the problems at entry i.
func (f *follower) best(w *worker, snaps []*worker, anchor, i int, problems []*problem) guess {
	size := w.size
	e := &f.plan[i]
	// as it stands: what is stated is wrong
	best := guess{cost: 1 + f.ahead(w, i+1), w: w, from: i}
	if !w.known && slices.ContainsFunc(problems, func(p *problem) bool { return p.fault.Kind == source.StitchCount }) {
		best.cost += 0.9 // nothing is known from here on
	}
	for _, p := range problems {
		best.faults = append(best.faults, &found{Fault: p.fault, size: size, number: f.numberAt(p.fault.At, e)})
	}
	// one slip in what stands there or above
	trials := 0
	base := max(anchor-1, 0, i-reach)
search:
	for j := i; j >= base; j-- {
		for _, n := range numbersOf(&f.plan[j]) {
			if j == i && isClaim(&f.plan[i], n) {
				continue
			}
			at, v := n.Span(size), n.In(size)
			if !at.Known() || v == pattern.Gap {
				continue
			}
			for _, c := range candidates(n, size, problems) {
				if trials++; trials > maxTrials {
					break search
				}
				cost := 1 + c.cost
				if len(n.Val) == 1 && len(f.script.Sizes) > 1 {
					cost += 0.5
				}
				if j < anchor {
					cost += 0.3
				}
				if cost >= best.cost {
					continue
				}
				t := snaps[j].clone()
				t.ov = override{at, c.value}
				t.moves = 0
				ok := true
				for k := j; k <= i && ok; k++ {
					ok = len(t.perform(&f.plan[k])) == 0
				}
				if !ok || !t.known {
					continue
				}
				if further := f.ahead(t, i+1); further > 0 { // not everything comes out
					cost += further + 1
				}
				if cost >= best.cost {
					continue
				}
				p := problems[0]
				x := source.Fault{At: at, Sizes: source.OneSize(size), Kind: source.StitchCount, Severity: source.Error,
					Stated: &source.Quantity{Value: float64(v), Unit: "sts"}, Actual: &source.Quantity{Value: float64(c.value), Unit: "sts"},
					Text:  source.Say("follow.slip", "{0} here cannot be right: {1}; with {2} everything comes out", v, p.fault.Text, c.value),
					Mends: []source.Mend{f.writeHere(n, size, at, int(c.value))}}
				if p.fault.Kind == source.PickUp || p.fault.Kind == source.Parity {
					x.Kind = p.fault.Kind
				}
				best = guess{cost: cost, faults: []*found{{Fault: x, size: size, number: n}}, w: t, from: j}
			}
		}
	}
	// what is stated is right, and something above that nobody can name is wrong
	for _, p := range problems {
		if !p.whole {
			continue
		}
		t := w.clone()
		if !t.known {
			continue
		}
		t.trust(p)
		if cost := 1.05 + f.ahead(t, i+1); cost < best.cost {
			if best.w == w { // no figure above has been named
				for _, x := range best.faults {
					if x.At == p.fault.At {
						x.Fault = f.above(x.Fault, anchor, i)
					}
				}
			}
			best.cost, best.w = cost, t
		}
		break
	}
	best.w.ov = override{}
	return best
}

// trust makes the stitches as many as are stated, where that is not what there is.
func (w *worker) trust(p *problem) {
	stated := int(p.fault.Stated.Value)
	if rest := count(w.n.held); w.n.flat && stated >= w.n.worked()+rest {
		stated -= rest
	}
	w.n.resize(stated)
}

// above says of a count that is stated wrong at entry i, and that what follows goes on with,
// that the slip is in a line above: behind the last one that bears the count out.
func (f *follower) above(x source.Fault, anchor, i int) source.Fault {
	x.Text = source.Say("follow.above", "{0}, though what follows goes on with {1}", x.Text, x.Stated.Value)
	why := source.Say("follow.mend-above", "look for the slip in the lines above")
	for j := i - 1; j >= 0; j-- {
		if e := &f.plan[j]; lays(e) || confirms(e) && j >= anchor {
			why = source.Say("follow.mend-since", "look for the slip above: behind line {0}, which agrees with the count", script.Of(e.item).Line)
			break
		}
	}
	x.Mends = []source.Mend{{Why: why}}
	return x
}

// lays tells whether an entry counts the stitches as it casts them on or sets them apart.
func lays(e *entry) bool {
	switch n := e.item.(type) {
	case *script.CastOn:
		return true
	case *script.Divide:
		return n.N.Known()
	case *script.Arrange:
		return len(n.Claims) > 0
	}
	return false
}

func (f *follower) writeHere(n pattern.Number, size int, at source.Span, v int) source.Mend {
	m := source.Mend{Why: source.Say("follow.mend-slip", "write {0} instead of {1}", v, n.In(size))}
	if len(n.Cols) > 1 || len(f.script.Sizes) == 1 {
		m.Edits = []source.Edit{{At: at, Text: strconv.Itoa(v)}}
	}
	return m
}

// ahead is how much goes wrong in the next entries.
func (f *follower) ahead(w *worker, from int) float64 {
	t := w.clone()
	t.moves = 0
	cost, claims := 0.0, 0
	for k := from; k < len(f.plan) && k < from+horizon; k++ {
		problems := t.perform(&f.plan[k])
		for _, p := range problems {
			if explainable(p) {
				cost++
			}
		}
		for _, p := range problems { // one count that is wrong makes others so
			if p.whole && t.known {
				t.trust(p)
				break
			}
		}
		if cost >= enough {
			break
		}
		if confirms(&f.plan[k]) {
			if claims++; claims > 4 {
				break
			}
		}
	}
	return cost
}

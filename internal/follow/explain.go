package follow

import (
	"runtime"
	"slices"
	"strconv"
	"sync"

	"sockwright/internal/pattern"
	"sockwright/internal/script"
	"sockwright/internal/source"
)

// A Result is what following a script gave.
type Result struct {
	Faults []source.Fault
	Counts []Count
	Final  []int  // by size: stitches on the needles at the end; -1 if that cannot be told
	Sure   []bool // by size: every line could be followed
}

// Follow works a script in every size.
func Follow(s *script.Script) *Result {
	p := plan(s)
	f := follower{script: s, plan: p}
	conv, notes, torn := f.settle()
	out := &Result{}
	out.Faults = append(out.Faults, notes...)
	out.Faults = append(out.Faults, unexplained(s)...)
	type worked struct {
		final  int
		sure   bool
		counts []Count
		found  []*found
	}
	sizes := make([]worked, len(s.Sizes))
	eachSize(len(s.Sizes), func(size int) {
		rec := newRecorder()
		literal := f.worker(size, conventions{bareMore: conv.bareMore})
		literal.literal, literal.rec = true, rec
		problems := f.run(literal)
		x := worked{final: literal.finalNow()}
		if torn {
			x.final = -1
		}
		x.sure, x.counts = x.final >= 0 && literal.known, rec.counts
		if len(problems) > 0 || conv.beforeGap {
			x.found = f.explain(size, conv)
		}
		sizes[size] = x
	})
	var all []*found
	for _, x := range sizes {
		out.Final = append(out.Final, x.final)
		out.Sure = append(out.Sure, x.sure)
		out.Counts = append(out.Counts, x.counts...)
		all = append(all, x.found...)
	}
	out.Faults = append(out.Faults, f.columns(all)...)
	return out
}

// unexplained reports terms that are explained nowhere, each where it stands first.
func unexplained(s *script.Script) (out []source.Fault) {
	seen := map[string]bool{}
	var look func([]script.Step)
	look = func(steps []script.Step) {
		for i := range steps {
			if st := &steps[i]; st.Op == script.Unknown && !seen[st.Name] {
				seen[st.Name] = true
				out = append(out, source.Fault{At: st.At, Kind: source.UndefinedTerm, Severity: source.Error,
					Text:  source.Say("follow.unknown", "{0} is explained nowhere: how many stitches it takes and makes is not known", source.Quote(st.Name)),
					Mends: []source.Mend{{Why: source.Say("follow.mend-unknown", "explain {0} in the list of abbreviations", source.Quote(st.Name))}}})
			}
			look(steps[i].Body)
		}
	}
	for i := range s.Lines {
		for _, item := range s.Lines[i].Items {
			switch n := item.(type) {
			case *script.Row:
				look(n.Steps)
			case *script.Plain:
				look(n.Steps)
			case *script.Shape:
				look(n.Steps)
			}
		}
	}
	return out
}

type follower struct {
	script *script.Script
	plan   []entry
}

func (f *follower) worker(size int, conv conventions) *worker {
	w := newWorker(f.script, f.plan, size)
	w.conv = conv
	return w
}

func (f *follower) run(w *worker) []*problem {
	var out []*problem
	for i := range f.plan {
		out = append(out, w.perform(&f.plan[i])...)
		if len(out) > 200 {
			break
		}
	}
	return out
}

// eachSize calls do for every size, as many at once as there are processors: sizes are worked
// by themselves.
func eachSize(sizes int, do func(size int)) {
	next := make(chan int)
	var all sync.WaitGroup
	for range min(sizes, runtime.GOMAXPROCS(0)) {
		all.Go(func() {
			for size := range next {
				do(size)
			}
		})
	}
	for size := range sizes {
		next <- size
	}
	close(next)
	all.Wait()
}

// trouble is how much goes wrong under a convention, over all sizes.
func (f *follower) trouble(conv conventions) (n int, finals []int) {
	problems := make([]int, len(f.script.Sizes))
	finals = make([]int, len(f.script.Sizes))
	eachSize(len(f.script.Sizes), func(size int) {
		w := f.worker(size, conv)
		problems[size] = len(f.run(w))
		finals[size] = w.finalNow()
	})
	for _, p := range problems {
		n += p
	}
	return n, finals
}

// settle chooses the conventions of the text. What nothing in the text settles is a fault;
// torn tells that then the counts at the end differ.
func (f *follower) settle() (conv conventions, faults []source.Fault, torn bool) {
	var bare []*entry
	gaps := false
	for i := range f.plan {
		e := &f.plan[i]
		if r, ok := e.item.(*script.Repeat); ok && r.Stop.Kind == script.Times && e.just {
			bare = append(bare, e)
		}
		if e.row != nil {
			for _, s := range e.row.Steps {
				gaps = gaps || s.To == script.Gap && !s.Minus.Known()
			}
		}
	}
	if len(bare) == 0 && !gaps {
		return conv, nil, false
	}
	base, finals := f.trouble(conv)
	if len(bare) > 0 {
		more := conventions{bareMore: true}
		n, other := f.trouble(more)
		switch {
		case n < base:
			conv, base = more, n
		case n == base:
			for _, e := range bare {
				faults = append(faults, f.unsettled(e))
			}
			torn = !slices.Equal(finals, other)
		}
	}
	if gaps && base > 0 {
		before := conv
		before.beforeGap = true
		if n, _ := f.trouble(before); n < base {
			conv = before
			faults = append(faults, f.departures()...)
		}
	}
	return conv, faults, torn
}

// unsettled says that a repeat can be read in two ways.
func (f *follower) unsettled(e *entry) source.Fault {
	r := e.item.(*script.Repeat)
	x := source.Fault{At: r.At, Kind: source.Ambiguous, Severity: source.Warning,
		Text: source.Say("follow.bare", "“{0}” can mean so many times in all or so many times more, and nothing in the text settles it", f.script.File.Slice(r.At))}
	more := r.Stop.N
	less := more
	less.Val = slices.Clone(more.Val)
	for i := range less.Val {
		if less.Val[i] != pattern.Gap {
			less.Val[i]--
		}
	}
	x.Mends = []source.Mend{{Why: source.Say("follow.mend-bare", "write “{0} more times”, or “{1} more times” if the first is meant to be counted", pattern.List(more.Strings()), pattern.List(less.Strings()))}}
	return x
}

// departures reports rows that say "to the gap" where only "to 1 st before the gap" comes
// out as the text says.
func (f *follower) departures() (out []source.Fault) {
	for i := range f.plan {
		if f.plan[i].row == nil {
			continue
		}
		for _, s := range f.plan[i].row.Steps {
			if s.To == script.Gap && !s.Minus.Known() {
				out = append(out, source.Fault{At: s.At, Kind: source.Ambiguous, Severity: source.Error,
					Text:  source.Say("follow.to-gap", "worked to the gap, the next decrease takes two stitches beyond it; the counts come out only if it is worked across the gap"),
					Mends: []source.Mend{{Why: source.Say("follow.mend-to-gap", "write “to 1 st before the gap”")}}})
			}
		}
	}
	return out
}

// A found is a fault in one size, with the list of figures it is about.
type found struct {
	source.Fault
	size   int
	number pattern.Number
}

// explain works one size again and finds the cheapest explanation of everything that goes
// wrong, going on from what the rest of the text agrees with.
func (f *follower) explain(size int, conv conventions) (out []*found) {
	w := f.worker(size, conv)
	w.literal = false
	snaps := make([]*worker, len(f.plan))
	anchor := 0
	for i := 0; i < len(f.plan); i++ {
		snaps[i] = w.clone()
		if i > reach {
			snaps[i-reach-1] = nil
		}
		problems := w.perform(&f.plan[i])
		if len(problems) == 0 {
			if w.known && confirms(&f.plan[i]) {
				anchor = i + 1
			}
			continue
		}
		if len(out) > 60 {
			return out
		}
		counted := slices.ContainsFunc(problems, func(p *problem) bool { return explainable(p) })
		if !counted {
			for _, p := range problems {
				out = append(out, &found{Fault: p.fault, size: size, number: f.numberAt(p.fault.At, &f.plan[i])})
			}
			continue
		}
		best := f.best(w, snaps, anchor, i, problems)
		out = append(out, best.faults...)
		if best.w != nil {
			w = best.w
			now := w.clone()
			for j := best.from; j <= i; j++ {
				snaps[j] = now
			}
		}
		anchor = i + 1
	}
	return out
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
	is := func(claims []script.Claim) bool {
		return slices.ContainsFunc(claims, func(c script.Claim) bool {
			return c.N.Known() && (c.What == script.Live || c.What == script.Total || c.What == script.OfPart || c.What == script.OnNdl)
		})
	}
	switch n := e.item.(type) {
	case *script.Row:
		return is(n.Claims)
	case *script.State:
		return is(n.Claims)
	case *script.Repeat:
		return is(n.Claims) || n.Stop.Kind == script.Remain
	case *script.Plain:
		return is(n.Claims)
	case *script.Shape:
		return is(n.Claims) || n.Stop.Kind == script.Remain
	case *script.Resume:
		return is(n.Claims)
	}
	return false
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

// A candidate is another value that a figure may have been meant to have.
type candidate struct {
	value int32
	cost  float64
}

// candidates lists what a figure may have been meant to be, the likeliest first.
func candidates(n pattern.Number, size int, problems []*problem) []candidate {
	v := n.In(size)
	var out []candidate
	add := func(x int32, cost float64) {
		if x == v || x < 0 || x > 5000 {
			return
		}
		for i := range out {
			if out[i].value == x {
				out[i].cost = min(out[i].cost, cost)
				return
			}
		}
		out = append(out, candidate{x, cost})
	}
	for i, other := range n.Val {
		if i != size && other != pattern.Gap {
			add(other, 0.3)
		}
	}
	s := strconv.Itoa(int(v))
	if len(s) > 1 { // a digit too many, or two in the wrong order
		for i := range s {
			x, _ := strconv.Atoi(s[:i] + s[i+1:])
			add(int32(x), 0.35)
		}
		if len(s) == 2 {
			x, _ := strconv.Atoi(s[1:] + s[:1])
			add(int32(x), 0.4)
		}
	}
	for _, p := range problems { // the figure that makes good the difference
		if p.fault.Stated != nil && p.fault.Actual != nil {
			d := int32(p.fault.Stated.Value - p.fault.Actual.Value)
			add(v+d, 0.45)
			add(v-d, 0.45)
			if d%2 == 0 {
				add(v+d/2, 0.5)
				add(v-d/2, 0.5)
			}
		}
	}
	if len(n.Val) > 2 { // between its neighbours
		lo, hi := neighbours(n, size)
		if lo != pattern.Gap && hi != pattern.Gap {
			add((lo+hi)/2, 0.4)
		}
	}
	for _, d := range []int32{1, -1, 2, -2, 4, -4, 10, -10} {
		add(v+d, 0.5)
	}
	return out
}

func neighbours(n pattern.Number, size int) (lo, hi int32) {
	lo, hi = pattern.Gap, pattern.Gap
	if size > 0 {
		lo = n.Val[size-1]
	}
	if size+1 < len(n.Val) {
		hi = n.Val[size+1]
	}
	return lo, hi
}

// numbersOf lists the figures of an entry.
func numbersOf(e *entry) (out []pattern.Number) {
	add := func(n pattern.Number) {
		if n.Known() && len(n.Cols) > 0 {
			out = append(out, n)
		}
	}
	var steps func([]script.Step)
	steps = func(list []script.Step) {
		for i := range list {
			add(list[i].N)
			add(list[i].Minus)
			steps(list[i].Body)
			add(list[i].Stop.N)
		}
	}
	switch n := e.item.(type) {
	case *script.CastOn:
		add(n.N)
	case *script.Row:
		steps(n.Steps)
		if n.Stop != nil {
			add(n.Stop.N)
		}
	case *script.Repeat:
		add(n.Stop.N)
		for _, r := range e.rows {
			steps(r.Steps)
		}
	case *script.Plain:
		steps(n.Steps)
		add(n.Stop.N)
	case *script.Shape:
		add(n.Change)
		steps(n.Steps)
		add(n.Stop.N)
	case *script.Divide:
		add(n.N)
	case *script.State:
		if n.Is {
			for _, c := range n.Claims {
				add(c.N)
			}
		}
	}
	return out
}

// isClaim tells whether a figure of an entry is what the entry is checked against.
func isClaim(e *entry, n pattern.Number) bool {
	switch x := e.item.(type) {
	case *script.State:
		return true
	case *script.Repeat:
		return x.Stop.Kind == script.Remain && x.Stop.N.At == n.At
	case *script.Shape:
		return x.Stop.Kind == script.Remain && x.Stop.N.At == n.At
	}
	return false
}

// numberAt finds the list of figures that a place belongs to.
func (f *follower) numberAt(at source.Span, e *entry) pattern.Number {
	all := numbersOf(e)
	claims := func(list []script.Claim) {
		for _, c := range list {
			all = append(all, c.N)
		}
	}
	switch n := e.item.(type) {
	case *script.Row:
		claims(n.Claims)
	case *script.State:
		claims(n.Claims)
	case *script.Repeat:
		claims(n.Claims)
		claims(n.Stop.Claims)
	case *script.Plain:
		claims(n.Claims)
	case *script.Shape:
		claims(n.Claims)
	case *script.Resume:
		claims(n.Claims)
	case *script.Arrange:
		claims(n.Claims)
	}
	for _, n := range all {
		if slices.Contains(n.Cols, at) {
			return n
		}
	}
	return pattern.Number{}
}

// columns names lists whose figures have slipped from one size to the next or changed
// places, and makes one fault of each.
func (f *follower) columns(all []*found) (out []source.Fault) {
	groups := map[source.Span][]*found{}
	for _, x := range all {
		if len(x.number.Cols) > 1 && x.Stated != nil && x.Actual != nil {
			groups[x.number.At] = append(groups[x.number.At], x)
		}
	}
	for _, g := range groups {
		if len(g) < 2 {
			continue
		}
		n := g[0].number
		actual := slices.Clone(n.Val)
		for _, x := range g {
			if x.size < len(actual) {
				actual[x.size] = int32(x.Actual.Value)
			}
		}
		shifted := func(by int) bool {
			for _, x := range g {
				k := x.size + by
				if k < 0 || k >= len(actual) || actual[k] != n.In(x.size) {
					return false
				}
			}
			return true
		}
		swapped := len(g) == 2 && n.In(g[0].size) == actual[g[1].size] && n.In(g[1].size) == actual[g[0].size]
		if !swapped && !shifted(1) && !shifted(-1) {
			continue
		}
		for _, x := range g {
			x.Kind = source.SizeColumn
			x.Text = source.Say("follow.shifted", "{0} stated, but it is {1}: the figures of this list have slipped from one size to the next", x.Stated.Value, x.Actual.Value)
			if swapped && !shifted(1) && !shifted(-1) {
				x.Text = source.Say("follow.swapped", "{0} stated, but it is {1}: two figures of this list have changed places", x.Stated.Value, x.Actual.Value)
			}
		}
	}
	for _, x := range all {
		out = append(out, x.Fault)
	}
	return out
}

package grade

import (
	"cmp"
	"math"
	"slices"
)

// The search. Within a size, variables are tried in declared order, values nearest to their
// target first, and a branch is left as soon as its cost so far is worse than that of the
// best complete one, or equal to it with larger numbers (costs never fall on the way down).
// That is done for each value of the chained variables; then the cheapest way through all
// sizes is found from the smallest size to the largest, keeping for each value the best way
// to reach it. Both steps compare costs level by level, which is an order that adding a cost
// keeps, so the result is exact.
//
// Whether there are any numbers at all is asked first, since a search that finds nothing can
// leave no branch early: it goes back from a variable without values straight to the last
// one that its rules have looked at (conflict-directed backjumping).
//
// Costs are whole micrometres: two values whose distances differ by less than half of one
// are equally near.

// Cost is micrometres of deviation at each level.
type Cost [Levels]int64

func (c Cost) plus(d Cost) Cost {
	for i := range c {
		c[i] += d[i]
	}
	return c
}

func (c Cost) compare(d Cost) int { return slices.Compare(c[:], d[:]) }

func micro(mm float64) int64 { return int64(math.Round(mm * 1000)) }

// way is a complete set of numbers of one size.
type way struct {
	values []int
	cost   Cost
}

// candidate is a value that a variable may take.
type candidate struct {
	value int
	cost  int64
}

type search struct {
	m      *Model
	size   int
	off    map[string]bool // rules, pins and reaches that are not to count, for explanations
	reads  varSet          // variables looked at by rules and targets
	values []int
	lists  [][]candidate // of each variable, memory for the search
	best   way
	found  bool
}

func newSearch(m *Model, size int, off map[string]bool) *search {
	return &search{m: m, size: size, off: off, values: make([]int, len(m.Vars)), lists: make([][]candidate, len(m.Vars))}
}

func (s *search) at() Values { return Values{s.size, s.values, &s.reads} }

func pinID(key string) string   { return "pin " + key }
func reachID(key string) string { return "reach " + key }

// farthest is how far an explanation looks for numbers where a reach does not count.
const farthest = 24

// allowed tells whether the rules let a variable have a value.
func (s *search) allowed(x *Var, value int) bool {
	for i := range x.Rules {
		if !x.Rules[i].Ok(s.at(), value) && !s.off[x.Rules[i].ID] {
			return false
		}
	}
	return true
}

// candidates lists the values a variable may take, cheapest first, smaller ones first of
// those that cost the same.
func (s *search) candidates(x *Var) []candidate {
	list := s.possible(x)
	for i := range list {
		list[i].cost = s.price(x, list[i].value)
	}
	slices.SortStableFunc(list, func(a, b candidate) int { return cmp.Compare(a.cost, b.cost) })
	return list
}

// possible lists the values a variable may take, smallest first, without their cost.
func (s *search) possible(x *Var) []candidate {
	list := s.lists[x.index][:0]
	add := func(value int) {
		if s.allowed(x, value) {
			list = append(list, candidate{value: value})
		}
	}
	pin, pinned := s.m.pinned(x, s.size)
	if pinned && !s.off[pinID(x.Key)] {
		if x.Is == nil || x.Is(s.at()) == pin {
			add(pin)
		}
	} else if x.Is != nil {
		add(x.Is(s.at()))
	} else {
		target, reach := x.Target(s.at()), x.Reach
		if pinned || s.off[reachID(x.Key)] { // a pin that is not to count leaves no reach behind
			target, reach = max(target, 0), farthest
		}
		for v := max(0, int(math.Ceil(target-reach))); float64(v) <= target+reach; v++ {
			add(v)
		}
	}
	s.lists[x.index] = list
	return list
}

func (s *search) price(x *Var, value int) int64 {
	if x.Is != nil {
		return 0
	}
	c := micro(math.Abs(float64(value)-x.Target(s.at())) * x.Scale(s.at()))
	if x.Extra != nil {
		c += micro(x.Extra(s.at(), value))
	}
	return c
}

// feasible tells whether there are numbers from variable i on; if not, blame is earlier
// variables of which at least one must change.
func (s *search) feasible(i int) (ok bool, blame varSet) {
	if i == len(s.m.Vars) {
		return true, 0
	}
	s.reads = 0
	list := s.possible(s.m.Vars[i])
	blame = s.reads &^ (1 << i)
	for _, c := range list {
		s.values[i] = c.value
		ok, deeper := s.feasible(i + 1)
		if ok {
			return true, 0
		}
		if deeper&(1<<i) == 0 {
			return false, deeper // another value here would change nothing
		}
		blame |= deeper &^ (1 << i)
	}
	return false, blame
}

// complete finds the best numbers from variable i on.
func (s *search) complete(i int, cost Cost) {
	if s.found {
		worse := cost.compare(s.best.cost)
		if worse > 0 || worse == 0 && slices.Compare(s.values[:i], s.best.values[:i]) > 0 {
			return
		}
	}
	if i == len(s.m.Vars) {
		s.best = way{append(s.best.values[:0], s.values...), cost}
		s.found = true
		return
	}
	x := s.m.Vars[i]
	for _, c := range s.candidates(x) {
		s.values[i] = c.value
		next := cost
		next[x.Level] += c.cost
		s.complete(i+1, next)
	}
}

// ways lists the best completions of a size, one for each set of values of the chained
// variables, smaller values first.
func (s *search) ways() []way {
	var out []way
	chained := s.m.chained()
	s.eachChain(0, Cost{}, func(cost Cost) {
		s.found, s.best = false, way{}
		if ok, _ := s.feasible(chained); ok {
			s.complete(chained, cost)
		}
		if s.found {
			out = append(out, s.best)
		}
	})
	return out
}

// eachChain calls do for each set of values of the chained variables from i on, smaller
// values first.
func (s *search) eachChain(i int, cost Cost, do func(Cost)) {
	if i == s.m.chained() {
		do(cost)
		return
	}
	x := s.m.Vars[i]
	list := slices.Clone(s.candidates(x))
	slices.SortFunc(list, func(a, b candidate) int { return a.value - b.value })
	for _, c := range list {
		s.values[i] = c.value
		next := cost
		next[x.Level] += c.cost
		s.eachChain(i+1, next, do)
	}
}

func (m *Model) chained() int {
	n := 0
	for n < len(m.Vars) && m.Vars[n].Chained {
		n++
	}
	return n
}

// link is what going from one size's numbers to the next's adds, and whether it may.
func (m *Model) link(a, b way, sizeA int) (Cost, bool) {
	var c Cost
	if m.falls(a.values, b.values) {
		return c, false
	}
	for _, x := range m.Vars[:m.chained()] {
		if x.Smooth > 0 {
			va, vb := Values{Size: sizeA, v: a.values}, Values{Size: sizeA + 1, v: b.values}
			da := (float64(va.Of(x)) - x.Target(va)) * x.Scale(va)
			db := (float64(vb.Of(x)) - x.Target(vb)) * x.Scale(vb)
			c[x.Level] += micro(x.Smooth * math.Abs(db-da))
		}
	}
	return c, true
}

// falls tells whether a chained variable falls from a size's numbers to the next's.
func (m *Model) falls(a, b []int) bool {
	for i := range m.chained() {
		if b[i] < a[i] {
			return true
		}
	}
	return false
}

// rises tells whether there are numbers that do not fall, from the first size to last.
func (m *Model) rises(last int, off map[string]bool) bool {
	chained := m.chained()
	reached := [][]int{make([]int, chained)}
	for size := range last + 1 {
		var next [][]int
		s := newSearch(m, size, off)
		s.eachChain(0, Cost{}, func(Cost) {
			if !slices.ContainsFunc(reached, func(before []int) bool { return !m.falls(before, s.values) }) {
				return
			}
			if ok, _ := s.feasible(chained); ok {
				next = append(next, slices.Clone(s.values[:chained]))
			}
		})
		reached = next
	}
	return len(reached) > 0
}

// Solve finds the numbers of all sizes. Where there are none it returns an [*Impossible].
func (m *Model) Solve() (*Plan, error) {
	type node struct {
		way
		total Cost
		from  int
	}
	steps := make([][]node, m.Sizes)
	for size := range m.Sizes {
		ways := newSearch(m, size, nil).ways()
		for _, w := range ways {
			n := node{way: w, total: w.cost, from: -1}
			if size > 0 {
				for i, prev := range steps[size-1] {
					add, ok := m.link(prev.way, w, size-1)
					if total := prev.total.plus(w.cost).plus(add); ok && (n.from < 0 || total.compare(n.total) < 0) {
						n.total, n.from = total, i
					}
				}
				if n.from < 0 {
					continue
				}
			}
			steps[size] = append(steps[size], n)
		}
		if len(steps[size]) == 0 {
			return nil, m.explain(size, len(ways) > 0)
		}
	}
	last := steps[m.Sizes-1]
	end := 0
	for i := range last {
		if last[i].total.compare(last[end].total) < 0 {
			end = i
		}
	}
	plan := &Plan{model: m, Cost: last[end].total, values: make([][]int, m.Sizes)}
	for size, i := m.Sizes-1, end; size >= 0; size-- {
		plan.values[size] = steps[size][i].values
		i = steps[size][i].from
	}
	return plan, nil
}

// Impossible says that a size has no numbers, and which rules and pins cannot stand
// together there: take any one of them away and there are numbers. Where rules and pins
// alone are not to blame, it names the targets that lie out of reach.
type Impossible struct {
	Size  int
	Pins  []string // keys
	Rules []Rule
	Far   []*Var // variables that cannot come near enough to their targets
	Falls bool   // the size has numbers of its own, but smaller ones than the size before it
}

func (e *Impossible) Error() string { return "no numbers satisfy all rules" }

// explain finds a smallest set of rules and pins that leave a size without numbers, by
// leaving out one after the other as long as there are none. If the size falls, those of
// the sizes before it count as well.
func (m *Model) explain(size int, falls bool) *Impossible {
	out := &Impossible{Size: size, Falls: falls}
	off := map[string]bool{}
	first := size
	exist := func() bool {
		ok, _ := newSearch(m, size, off).feasible(0)
		return ok
	}
	if falls {
		first = 0
		exist = func() bool { return m.rises(size, off) }
	}
	needed := func(id string) bool {
		off[id] = true
		if exist() {
			off[id] = false
			return true
		}
		return false
	}
	for _, x := range m.Vars {
		for _, r := range x.Rules {
			if needed(r.ID) {
				out.Rules = append(out.Rules, r)
			}
		}
	}
	for _, x := range m.Vars {
		pinned := false
		for i := first; i <= size; i++ {
			_, ok := m.pinned(x, i)
			pinned = pinned || ok
		}
		if pinned && needed(pinID(x.Key)) {
			out.Pins = append(out.Pins, x.Key)
		}
	}
	if len(out.Rules)+len(out.Pins) > 0 {
		return out
	}
	for _, x := range m.Vars { // no rule and no pin is to blame: something lies out of reach
		if x.Is == nil && needed(reachID(x.Key)) {
			out.Far = append(out.Far, x)
		}
	}
	return out
}

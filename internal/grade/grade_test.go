package grade_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"sockwright/internal/grade"
	"sockwright/internal/source"
)

// A question is a small model as plain data, from which both the model and the enumeration
// that judges its solution are made.
type question struct {
	sizes int
	vars  []variable
	pins  map[string][]int
}

type variable struct {
	key     string
	chained bool
	smooth  float64
	derived bool      // the sum of base and the terms, not chosen
	base    []float64 // by size
	of      []int     // how often each earlier variable is added
	scale   float64
	reach   float64
	level   grade.Level
	dislike int // values that it does not divide cost extra
	extra   float64
	rules   []restriction
}

// A restriction holds if value - times*earlier, divided by mod, leaves rest; or, where mod
// is 0, if that lies between low and high.
type restriction struct {
	id        string
	earlier   int // -1: none
	times     int
	mod, rest int
	low, high int
}

func (r restriction) ok(before []int, value int) bool {
	if r.earlier >= 0 {
		value -= r.times * before[r.earlier]
	}
	if r.mod > 0 {
		return ((value%r.mod)+r.mod)%r.mod == r.rest
	}
	return r.low <= value && value <= r.high
}

// aim is where the variable would lie, given those before it.
func (x variable) aim(size int, before []int) float64 {
	sum := x.base[size]
	for i, n := range x.of {
		sum += float64(n * before[i])
	}
	return sum
}

func (x variable) dislikes(value int) float64 {
	if x.dislike > 0 && value%x.dislike != 0 {
		return x.extra
	}
	return 0
}

func (q question) model() *grade.Model {
	m := &grade.Model{Sizes: q.sizes}
	var added []*grade.Var
	before := func(v grade.Values, n int) []int {
		out := make([]int, n)
		for i := range out {
			out[i] = v.Of(added[i])
		}
		return out
	}
	for _, x := range q.vars {
		y := grade.Var{Key: x.key, Label: x.key, Chained: x.chained, Smooth: x.smooth, Level: x.level, Reach: x.reach}
		target := func(v grade.Values) float64 { // looks only at what it depends on
			sum := x.base[v.Size]
			for j, n := range x.of {
				if n != 0 {
					sum += float64(n * v.Of(added[j]))
				}
			}
			return sum
		}
		if x.derived {
			y.Is = func(v grade.Values) int { return int(target(v)) }
		} else {
			y.Target = target
			y.Scale = func(grade.Values) float64 { return x.scale }
			y.Extra = func(_ grade.Values, value int) float64 { return x.dislikes(value) }
		}
		for _, r := range x.rules {
			y.Rules = append(y.Rules, grade.Rule{ID: r.id, Says: source.Say(r.id, r.id), Ok: func(v grade.Values, value int) bool {
				if r.earlier < 0 {
					return r.ok(nil, value)
				}
				return r.ok(before(v, r.earlier+1), value)
			}})
		}
		added = append(added, m.Add(y))
	}
	for key, value := range q.pins {
		m.Pin(grade.Pin{Key: key, Value: value})
	}
	return m
}

// far is how far an explanation looks where a reach does not count.
const far = 24

// values lists what a variable may be, given those before it. A name that off holds does
// not count: "pin a", "reach a", "rule 1".
func (q question) values(size, i int, before []int, off map[string]bool) []int {
	x := q.vars[i]
	var list []int
	low, high := x.aim(size, before)-x.reach, x.aim(size, before)+x.reach
	switch {
	case x.derived:
		low, high = x.aim(size, before), x.aim(size, before)
	case off["reach "+x.key] || off["pin "+x.key] && len(q.pins[x.key]) > 0 && q.pins[x.key][size] >= 0:
		low, high = max(0, x.aim(size, before))-far, max(0, x.aim(size, before))+far
	}
	for n := int(math.Ceil(low)); float64(n) <= high; n++ {
		if n >= 0 || x.derived {
			list = append(list, n)
		}
	}
	if pin, ok := q.pins[x.key]; ok && pin[size] >= 0 && !off["pin "+x.key] {
		if x.derived && !slices.Contains(list, pin[size]) {
			return nil
		}
		list = []int{pin[size]} // a pin counts more than how far it lies
	}
	return slices.DeleteFunc(list, func(n int) bool {
		return slices.ContainsFunc(x.rules, func(r restriction) bool { return !off[r.id] && !r.ok(before, n) })
	})
}

// each calls do with every assignment of a size that breaks nothing, until it says stop.
func (q question) each(size int, off map[string]bool, do func([]int) (more bool)) {
	var try func(before []int) bool
	try = func(before []int) bool {
		if len(before) == len(q.vars) {
			return do(before)
		}
		for _, n := range q.values(size, len(before), before, off) {
			if !try(append(slices.Clone(before), n)) {
				return false
			}
		}
		return true
	}
	try(nil)
}

func whole(mm float64) int64 { return int64(math.Round(mm * 1000)) }

// cost is what numbers cost, level by level.
func (q question) cost(numbers [][]int) grade.Cost {
	var c grade.Cost
	for size, v := range numbers {
		for i, x := range q.vars {
			if x.derived {
				continue
			}
			c[x.level] += whole(math.Abs(float64(v[i])-x.aim(size, v))*x.scale) + whole(x.dislikes(v[i]))
			if x.chained && x.smooth > 0 && size > 0 {
				last := numbers[size-1]
				change := (float64(v[i])-x.aim(size, v))*x.scale - (float64(last[i])-x.aim(size-1, last))*x.scale
				c[x.level] += whole(x.smooth * math.Abs(change))
			}
		}
	}
	return c
}

func (q question) falls(before, after []int) bool {
	for i, x := range q.vars {
		if x.chained && after[i] < before[i] {
			return true
		}
	}
	return false
}

// best is the best numbers by trying all: least cost, then the smaller numbers, the largest
// size first and in it the earlier variables first. nil if there are none.
func (q question) best() [][]int {
	lists := make([][][]int, q.sizes)
	for size := range lists {
		q.each(size, nil, func(v []int) bool {
			lists[size] = append(lists[size], v)
			return true
		})
	}
	var best [][]int
	var least grade.Cost
	smaller := func(a, b [][]int) bool {
		for size := q.sizes - 1; size >= 0; size-- {
			if c := slices.Compare(a[size], b[size]); c != 0 {
				return c < 0
			}
		}
		return false
	}
	var try func(chosen [][]int)
	try = func(chosen [][]int) {
		size := len(chosen)
		if size == q.sizes {
			c := q.cost(chosen)
			if d := slices.Compare(c[:], least[:]); best == nil || d < 0 || d == 0 && smaller(chosen, best) {
				best, least = slices.Clone(chosen), c
			}
			return
		}
		for _, v := range lists[size] {
			if size == 0 || !q.falls(chosen[size-1], v) {
				try(append(chosen, v))
			}
		}
	}
	try(make([][]int, 0, q.sizes))
	return best
}

// possible tells whether a size alone has numbers.
func (q question) possible(size int, off map[string]bool) (found bool) {
	q.each(size, off, func([]int) bool { found = true; return false })
	return found
}

// chain tells whether the sizes up to one have numbers that do not fall.
func (q question) chain(upTo int, off map[string]bool) bool {
	var reached [][]int
	for size := 0; size <= upTo; size++ {
		var next [][]int
		q.each(size, off, func(v []int) bool {
			if size == 0 || slices.ContainsFunc(reached, func(u []int) bool { return !q.falls(u, v) }) {
				next = append(next, v)
			}
			return true
		})
		reached = next
	}
	return len(reached) > 0
}

// names lists all pins, reaches and rules.
func (q question) names() []string {
	var all []string
	for _, x := range q.vars {
		if !x.derived {
			all = append(all, "reach "+x.key)
		}
		for _, r := range x.rules {
			all = append(all, r.id)
		}
		if q.pins[x.key] != nil {
			all = append(all, "pin "+x.key)
		}
	}
	return all
}

// draw draws a question. hard ones have more rules and pins, so that many have no answer.
func draw(t *rapid.T, hard bool) question {
	half := func(name string, low, high int) float64 {
		return float64(rapid.IntRange(2*low, 2*high).Draw(t, name)) / 2
	}
	q := question{sizes: rapid.IntRange(1, 3).Draw(t, "sizes"), pins: map[string][]int{}}
	chained := rapid.IntRange(0, 2).Draw(t, "chained")
	rules := 0
	most := 4
	if q.sizes == 3 {
		most = 3
	}
	for i := range rapid.IntRange(max(1, chained), most).Draw(t, "vars") {
		x := variable{key: string(rune('a' + i)), chained: i < chained,
			scale: float64(rapid.IntRange(1, 3).Draw(t, "scale")), reach: half("reach", 0, 2), level: grade.Level(rapid.IntRange(0, grade.Levels-1).Draw(t, "level"))}
		x.derived = !x.chained && rapid.IntRange(0, 3).Draw(t, "derived") == 0
		if x.chained {
			x.smooth = float64(rapid.IntRange(0, 2).Draw(t, "smooth")) / 4
		}
		for range q.sizes {
			base := half("base", 2, 7)
			if x.derived {
				base = math.Floor(base)
			}
			x.base = append(x.base, base)
		}
		for range i {
			n := 0
			if !x.chained && rapid.Bool().Draw(t, "depends") {
				n = 1
			}
			x.of = append(x.of, n)
		}
		if rapid.IntRange(0, 2).Draw(t, "dislikes") == 0 {
			x.dislike, x.extra = rapid.IntRange(2, 4).Draw(t, "dislike"), half("extra", 0, 2)
		}
		fewest := 0
		if hard {
			fewest = 1
		}
		for range rapid.IntRange(fewest, fewest+1).Draw(t, "rules") {
			rules++
			r := restriction{id: fmt.Sprintf("rule %d", rules), earlier: rapid.IntRange(-1, i-1).Draw(t, "earlier"), times: 1}
			if rapid.Bool().Draw(t, "mod") {
				r.mod = rapid.IntRange(2, 3).Draw(t, "modulus")
				r.rest = rapid.IntRange(0, r.mod-1).Draw(t, "rest")
			} else {
				r.low = rapid.IntRange(-2, 6).Draw(t, "low")
				r.high = r.low + rapid.IntRange(0, 12).Draw(t, "width")
			}
			x.rules = append(x.rules, r)
		}
		if rapid.IntRange(0, 4).Draw(t, "pinned") == 0 || hard && rapid.Bool().Draw(t, "pinned too") {
			var pin []int
			for range q.sizes {
				pin = append(pin, rapid.IntRange(-4, 9).Draw(t, "pin"))
			}
			q.pins[x.key] = pin
		}
		q.vars = append(q.vars, x)
	}
	return q
}

// TestSolve holds the solution of small models against all there are.
func TestSolve(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := draw(t, false)
		want := q.best()
		plan, err := q.model().Solve()
		if want == nil {
			if plan != nil || err == nil {
				t.Fatalf("solved, but there are no numbers: %+v", q)
			}
			return
		}
		if err != nil {
			t.Fatalf("%v, but there are numbers: %v of %+v", err, want, q)
		}
		got := make([][]int, q.sizes)
		for size := range got {
			for _, x := range q.vars {
				got[size] = append(got[size], plan.Of(x.key, size))
			}
		}
		if c := q.cost(want); plan.Cost != c || q.cost(got) != c {
			t.Fatalf("numbers %v cost %v and say %v; the least is %v for %v\n%+v", got, q.cost(got), plan.Cost, c, want, q)
		}
		if !slices.EqualFunc(got, want, slices.Equal[[]int]) {
			t.Fatalf("numbers %v; %v cost the same %v and are smaller\n%+v", got, want, plan.Cost, q)
		}
		q.check(t, plan, got)
	})
}

// check holds what a plan says of its numbers against the question.
func (q question) check(t *rapid.T, plan *grade.Plan, numbers [][]int) {
	list := plan.Numbers()
	if len(list) != len(q.vars)*q.sizes {
		t.Fatalf("%d numbers of %d variables in %d sizes", len(list), len(q.vars), q.sizes)
	}
	for at, n := range list {
		i, size := at/q.sizes, at%q.sizes
		x, v := q.vars[i], numbers[size]
		if n.Key != x.key || n.Size != size || n.Value != v[i] {
			t.Fatalf("number %d is %s size %d = %d, want %s size %d = %d", at, n.Key, n.Size, n.Value, x.key, size, v[i])
		}
		pin, pinned := q.pins[x.key]
		pinned = pinned && pin[size] >= 0
		if n.Pinned != pinned || pinned && n.Value != pin[size] {
			t.Fatalf("%s size %d = %d, pinned %v, want %v of %v", n.Key, size, n.Value, n.Pinned, pinned, pin)
		}
		if x.derived {
			if n.Target != float64(n.Value) || n.OffMM != 0 || n.Also != nil {
				t.Fatalf("%s follows from others, but has target %v, %v mm off, also %v", n.Key, n.Target, n.OffMM, n.Also)
			}
			continue
		}
		if n.Target != x.aim(size, v) || math.Abs(n.OffMM-math.Abs(float64(n.Value)-n.Target)*x.scale) > 1e-9 {
			t.Fatalf("%s size %d = %d lies %v mm from %v, want from %v", n.Key, size, n.Value, n.OffMM, n.Target, x.aim(size, v))
		}
		if want := q.also(size, i, numbers); !slices.Equal(n.Also, want) {
			t.Fatalf("%s size %d = %d (target %v): also %v, want %v\n%v\n%+v", n.Key, size, n.Value, n.Target, n.Also, want, numbers, q)
		}
	}
}

// also lists the other values of a number that are as near as it is and not exact, with
// which no rule needs to be broken: the numbers after it can be chosen anew, those of the
// other sizes stand.
func (q question) also(size, i int, numbers [][]int) []int {
	x, before := q.vars[i], numbers[size][:i]
	price := func(n int) int64 {
		return whole(math.Abs(float64(n)-x.aim(size, before))*x.scale) + whole(x.dislikes(n))
	}
	mine := price(numbers[size][i])
	if pin := q.pins[x.key]; mine == 0 || pin != nil && pin[size] >= 0 {
		return nil
	}
	var out []int
	for _, n := range q.values(size, i, before, nil) {
		if n == numbers[size][i] || price(n) != mine {
			continue
		}
		found := false
		q.each(size, nil, func(v []int) bool {
			found = found || slices.Equal(v[:i], before) && v[i] == n && q.fits(numbers, size, v)
			return !found
		})
		if found {
			out = append(out, n)
		}
	}
	return out
}

// fits tells whether a size can have other numbers without falling.
func (q question) fits(numbers [][]int, size int, v []int) bool {
	return (size == 0 || !q.falls(numbers[size-1], v)) && (size == q.sizes-1 || !q.falls(v, numbers[size+1]))
}

// TestImpossible holds explanations against all there is: what is named leaves no numbers,
// and without any one of it there are some.
func TestImpossible(t *testing.T) {
	kinds := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		q := draw(t, true)
		_, err := q.model().Solve()
		if err == nil {
			kinds["possible"]++
			return
		}
		var no *grade.Impossible
		if !errors.As(err, &no) {
			t.Fatal(err)
		}
		named := map[string]bool{}
		for _, x := range no.Far {
			named["reach "+x.Key] = true
		}
		for _, r := range no.Rules {
			named[r.ID] = true
		}
		for _, key := range no.Pins {
			named["pin "+key] = true
		}
		possible := q.possible
		if no.Falls {
			possible = q.chain
			if !q.possible(no.Size, nil) {
				t.Fatalf("size %d falls, it is said, but it has no numbers at all: %+v", no.Size, q)
			}
			kinds["falls"]++
		} else {
			kinds["none"]++
		}
		if possible(no.Size, nil) || no.Size > 0 && !q.chain(no.Size-1, nil) {
			t.Fatalf("it is not size %d that is impossible: %+v", no.Size, q)
		}
		without := map[string]bool{}
		for _, name := range q.names() {
			within := strings.HasPrefix(name, "reach ") && len(no.Far) == 0 // reaches hold unless they are named
			without[name] = !named[name] && !within
		}
		if possible(no.Size, without) {
			t.Fatalf("size %d: %v are said to leave no numbers, but there are some\n%+v", no.Size, named, q)
		}
		for name := range named {
			without[name] = true
			if !possible(no.Size, without) {
				t.Fatalf("size %d: %v are named, but without %q there are none either\n%+v", no.Size, named, name, q)
			}
			without[name] = false
		}
		if len(named) == 0 {
			t.Fatalf("nothing is named: %+v", q)
		}
		if len(named) == len(q.names()) {
			kinds["everything named"]++
		}
	})
	t.Logf("models drawn: %v", kinds)
	if kinds["none"] == 0 {
		t.Error("no impossible model was drawn")
	}
}

// TestTies are models whose numbers can be told without reckoning.
func TestTies(t *testing.T) {
	at := func(values ...float64) func(grade.Values) float64 {
		return func(v grade.Values) float64 { return values[v.Size] }
	}
	one := func(grade.Values) float64 { return 1 }
	even := grade.Rule{ID: "even", Ok: func(_ grade.Values, n int) bool { return n%2 == 0 }}

	t.Run("halfway goes down and names the other", func(t *testing.T) {
		m := grade.Model{Sizes: 3}
		m.Add(grade.Var{Key: "rows", Target: at(15, 16, 17), Scale: one, Reach: 3, Rules: []grade.Rule{even}})
		plan, err := m.Solve()
		if err != nil {
			t.Fatal(err)
		}
		var said []string
		for _, n := range plan.Numbers() {
			said = append(said, fmt.Sprint(n.Value, n.Also))
		}
		if got, want := strings.Join(said, ", "), "14 [16], 16 [], 16 [18]"; got != want {
			t.Errorf("the numbers are %s, want %s", got, want)
		}
	})
	t.Run("an earlier number is small rather than a later one", func(t *testing.T) {
		m := grade.Model{Sizes: 1}
		a := m.Add(grade.Var{Key: "a", Target: at(6), Scale: one, Reach: 1})
		m.Add(grade.Var{Key: "b", Target: at(6), Scale: one, Reach: 1, Rules: []grade.Rule{
			{ID: "eleven", Ok: func(v grade.Values, n int) bool { return v.Of(a)+n == 11 }}}})
		plan, err := m.Solve()
		if err != nil {
			t.Fatal(err)
		}
		if a, b := plan.Of("a", 0), plan.Of("b", 0); a != 5 || b != 6 {
			t.Errorf("a = %d and b = %d, want 5 and 6", a, b)
		}
	})
	t.Run("graver levels first", func(t *testing.T) {
		m := grade.Model{Sizes: 1}
		a := m.Add(grade.Var{Key: "a", Target: at(6), Scale: one, Reach: 4, Level: 1})
		m.Add(grade.Var{Key: "b", Target: at(6), Scale: one, Reach: 4, Level: 0, Rules: []grade.Rule{
			{ID: "sum", Ok: func(v grade.Values, n int) bool { return v.Of(a)+n == 9 }}}})
		plan, err := m.Solve()
		if err != nil {
			t.Fatal(err)
		}
		if plan.Cost != (grade.Cost{0, 3000, 0}) || plan.Of("a", 0) != 3 || plan.Of("b", 0) != 6 {
			t.Errorf("a = %d, b = %d at a cost of %v, want 3, 6 and 0, 3000, 0", plan.Of("a", 0), plan.Of("b", 0), plan.Cost)
		}
	})
	t.Run("chained numbers do not fall", func(t *testing.T) {
		m := grade.Model{Sizes: 3}
		m.Add(grade.Var{Key: "round", Chained: true, Target: at(60, 66, 61), Scale: one, Reach: 8})
		plan, err := m.Solve()
		if err != nil {
			t.Fatal(err)
		}
		if got := plan.Each("round"); !slices.IsSorted(got) || plan.Cost[0] != 5000 {
			t.Errorf("the numbers are %v at a cost of %d, want rising ones at 5000", got, plan.Cost[0])
		}
	})
}

// A number that lies more than 1 from its target names a nearer value, the one that breaks the
// fewest rules, and what stands against it.
func TestNearer(t *testing.T) {
	at := func(values ...float64) func(grade.Values) float64 {
		return func(v grade.Values) float64 { return values[v.Size] }
	}
	one := func(grade.Values) float64 { return 1 }
	divides := func(m int, says string) grade.Rule {
		return grade.Rule{ID: says, Says: source.Say("test."+says, says), Ok: func(_ grade.Values, n int) bool { return n%m == 0 }}
	}
	for _, x := range []struct {
		name  string
		v     grade.Var
		names string // for targets of 79, 80, 81.8 and 82.1
	}{
		{"a repeat that must divide", grade.Var{Rules: []grade.Rule{divides(2, "even"), divides(6, "repeat")}}, "78, 78: 80 repeat, 84: 82 repeat, 84: 82 repeat"},
		{"a liking", grade.Var{Rules: []grade.Rule{divides(2, "even")}, Dear: source.Say("test.fours", "fours"), Extra: func(_ grade.Values, n int) float64 {
			if n%4 != 0 {
				return 3
			}
			return 0
		}}, "80, 80, 80: 82 fours, 84: 82 fours"},
		{"nothing against the nearest", grade.Var{}, "79, 80, 82, 82"},
	} {
		t.Run(x.name, func(t *testing.T) {
			m := grade.Model{Sizes: 4}
			x.v.Key, x.v.Target, x.v.Scale, x.v.Reach = "round", at(79, 80, 81.8, 82.1), one, 8
			m.Add(x.v)
			plan, err := m.Solve()
			if err != nil {
				t.Fatal(err)
			}
			var said []string
			for _, n := range plan.Numbers() {
				s := fmt.Sprint(n.Value)
				if n.Nearer != nil {
					s += fmt.Sprintf(": %d %s", n.Nearer.Value, n.Nearer.Why)
				}
				said = append(said, s)
			}
			if got := strings.Join(said, ", "); got != x.names {
				t.Errorf("%s, want %s", got, x.names)
			}
		})
	}
}

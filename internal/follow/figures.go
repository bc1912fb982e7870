package follow

import (
	"slices"
	"strconv"

	"sockwright/internal/pattern"
	"sockwright/internal/script"
	"sockwright/internal/source"
)

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
		if x == v || x < 1 || x > 5000 {
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

// claimsOf is what an entry states that counts above may have to be weighed against.
func claimsOf(e *entry) []script.Claim {
	switch n := e.item.(type) {
	case *script.Row:
		return n.Claims
	case *script.State:
		return n.Claims
	case *script.Repeat:
		return n.Claims
	case *script.Plain:
		return n.Claims
	case *script.Shape:
		return n.Claims
	case *script.Resume:
		return n.Claims
	}
	return nil
}

// aim is the stop of an entry that goes on until so many stitches remain, nil for any other.
func aim(e *entry) *script.Stop {
	var stop *script.Stop
	switch n := e.item.(type) {
	case *script.Repeat:
		stop = &n.Stop
	case *script.Shape:
		stop = &n.Stop
	}
	if stop == nil || stop.Kind != script.Remain {
		return nil
	}
	return stop
}

// isClaim tells whether a figure of an entry is what the entry is checked against.
func isClaim(e *entry, n pattern.Number) bool {
	if _, states := e.item.(*script.State); states {
		return true
	}
	stop := aim(e)
	return stop != nil && stop.N.At == n.At
}

// numberAt finds the list of figures that a place belongs to.
func (f *follower) numberAt(at source.Span, e *entry) pattern.Number {
	all := numbersOf(e)
	claims := func(list []script.Claim) {
		for _, c := range list {
			all = append(all, c.N)
		}
	}
	claims(claimsOf(e))
	switch n := e.item.(type) {
	case *script.Repeat:
		claims(n.Stop.Claims)
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

package grade

import (
	"math"
	"slices"
)

// A Plan is the numbers of all sizes.
type Plan struct {
	Cost   Cost
	model  *Model
	values [][]int // by size, by variable
}

// A Number is one number of a plan with its reason.
type Number struct {
	*Var
	Size   int
	Value  int
	Reason Reason
	Also   []int // other values that are equally near and break no rule
	Pinned bool
	Target float64 // where it would lie if it need not be whole; equal to Value if it follows from others
	OffMM  float64 // how far from it, in mm of fabric
}

// Numbers lists every number, variable by variable, size by size.
func (p *Plan) Numbers() []Number {
	var out []Number
	for _, x := range p.model.Vars {
		for size := range p.values {
			out = append(out, p.number(x, size))
		}
	}
	return out
}

func (p *Plan) number(x *Var, size int) Number {
	v := Values{Size: size, v: p.values[size]}
	n := Number{Var: x, Size: size, Value: v.Of(x), Target: float64(v.Of(x))}
	_, n.Pinned = p.model.pinned(x, size)
	if x.Why != nil {
		n.Reason = x.Why(v)
	}
	if x.Is != nil {
		return n
	}
	n.Target = x.Target(v)
	n.OffMM = math.Abs(float64(n.Value)-n.Target) * x.Scale(v)
	if n.Pinned {
		return n
	}
	s := newSearch(p.model, size, nil)
	s.values = slices.Clone(p.values[size])
	if mine := s.price(x, n.Value); mine > 0 {
		for _, c := range s.candidates(x) {
			if c.cost == mine && c.value != n.Value {
				n.Also = append(n.Also, c.value)
			}
		}
	}
	return n
}

// Of is the number with a key in a size; 0 if no variable has the key.
func (p *Plan) Of(key string, size int) int {
	if x := p.model.Find(key); x != nil {
		return p.values[size][x.index]
	}
	return 0
}

// Each is the number with a key in every size.
func (p *Plan) Each(key string) []int {
	out := make([]int, len(p.values))
	for size := range out {
		out[size] = p.Of(key, size)
	}
	return out
}

// At is the numbers of a size, for the functions of a model.
func (p *Plan) At(size int) Values { return Values{Size: size, v: p.values[size]} }

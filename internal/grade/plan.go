package grade

import (
	"math"
	"slices"

	"sockwright/internal/source"
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
	Also   []int   // other values that are equally near and break no rule, if later numbers follow
	Nearer *Nearer // a value nearer the target that was not taken, where the number lies more than 1 from it
	Pinned bool
	Target float64 // where it would lie if it need not be whole; equal to Value if it follows from others
	OffMM  float64 // how far from it, in mm of fabric
}

// Nearer is a value that lies nearer the target of a number than the one that was taken.
type Nearer struct {
	Value int
	Why   source.Message // what stands against it
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
	n.Nearer = nearer(n, v)
	s := newSearch(p.model, size, nil)
	s.values = slices.Clone(p.values[size])
	mine := s.price(x, n.Value)
	if mine == 0 {
		return n
	}
	for _, c := range slices.Clone(s.candidates(x)) {
		if c.cost != mine || c.value == n.Value {
			continue
		}
		s.values[x.index] = c.value
		if p.fits(s, x.index+1) {
			n.Also = append(n.Also, c.value)
		}
	}
	return n
}

// nearer finds the value that lies nearer the target than a number and breaks the fewest rules,
// and what stands against it.
func nearer(n Number, v Values) *Nearer {
	off := math.Abs(float64(n.Value) - n.Target)
	if off <= 1 {
		return nil
	}
	var best *Nearer
	broken, least := 0, math.Inf(1)
	for value := int(math.Ceil(n.Target - off)); value <= int(math.Floor(n.Target+off)); value++ {
		away := math.Abs(float64(value) - n.Target)
		if value == n.Value || away >= off {
			continue
		}
		breaks := 0
		why := source.Say("grade.nearer.sizes", "the numbers that follow, or the sizes beside this one, do not go with it as well")
		if n.Var.Extra != nil && n.Var.Extra(v, value) > n.Var.Extra(v, n.Value) && n.Var.Dear.Text != "" {
			why = n.Var.Dear
		}
		for _, r := range slices.Backward(n.Var.Rules) {
			if !r.Ok(v, value) {
				breaks++
				why = r.Says
			}
		}
		if best == nil || breaks < broken || breaks == broken && away < least {
			best, broken, least = &Nearer{value, why}, breaks, away
		}
	}
	return best
}

// fits tells whether a size has numbers from variable i on that do not fall between those
// of its neighbours.
func (p *Plan) fits(s *search, i int) bool {
	if i >= p.model.chained() {
		ok, _ := s.feasible(i)
		return ok && (s.size == 0 || !p.model.falls(p.values[s.size-1], s.values)) &&
			(s.size == len(p.values)-1 || !p.model.falls(s.values, p.values[s.size+1]))
	}
	found := false
	s.eachChain(i, Cost{}, func(Cost) { found = found || p.fits(s, p.model.chained()) })
	return found
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

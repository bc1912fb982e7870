package grade

import "sockwright/internal/source"

// Level is how early a cost counts; lower levels come first.
type Level uint8

// Levels is the number of levels.
const Levels = 3

// A Var is a whole number to be found for every size.
type Var struct {
	Key   string // "heel.flap_rows"
	Label string // "flap rows"
	Unit  string // "sts", "rows", "rnds"

	// A chosen variable has a Target, a Scale and a Reach.
	Target func(Values) float64 // where it would lie if it need not be whole
	Scale  func(Values) float64 // mm of fabric for one unit
	Reach  float64              // how far from the target it may lie
	Level  Level
	Extra  func(v Values, value int) float64 // mm added for values that are less liked; may be nil
	Dear   source.Message                    // why these are: "a multiple of 4 is liked better"

	// A variable that follows from others has Is instead.
	Is func(Values) int

	Rules []Rule
	Why   func(Values) Reason

	// Chained variables come first in a model: they do not fall from a size to the next,
	// and Smooth times the change of their deviation (mm) is added to the cost.
	Chained bool
	Smooth  float64

	index int
}

// A Rule is what a variable must satisfy, given itself and earlier ones.
type Rule struct {
	ID   string
	Says source.Message // "the flap has an even number of rows, because …"
	Ok   func(v Values, value int) bool
}

// A Reason is why a number is what it is.
type Reason struct {
	Rule  string
	Text  source.Message
	Terms []Term
}

// A Term is a number that a reason rests on.
type Term struct {
	Key    string  `json:"key"`
	Value  float64 `json:"value"`
	Unit   string  `json:"unit,omitempty"`
	Source string  `json:"source,omitempty"`
}

// Values are the numbers of one size found so far.
type Values struct {
	Size  int
	v     []int
	reads *varSet // if not nil, notes the variables that are looked at
}

// Of is the number of an earlier variable.
func (v Values) Of(x *Var) int {
	if v.reads != nil {
		*v.reads |= 1 << x.index
	}
	return v.v[x.index]
}

// Term is an earlier number as a term of a reason.
func (v Values) Term(x *Var) Term {
	return Term{Key: x.Key, Value: float64(v.Of(x)), Unit: x.Unit}
}

// A Pin fixes a variable in some sizes.
type Pin struct {
	Key   string
	Value []int // by size; negative: free
}

// A Model is the whole question.
type Model struct {
	Sizes int
	Vars  []*Var
	pins  map[string]Pin
}

// varSet is a set of variables by their place in the model.
type varSet uint64

const maxVars = 64

// Add declares a variable; those it depends on must have been declared. It returns x, so
// that others can depend on it.
func (m *Model) Add(x Var) *Var {
	if x.index = len(m.Vars); x.index == maxVars {
		panic("grade: a model has too many variables")
	}
	m.Vars = append(m.Vars, &x)
	return &x
}

// Find is the variable with a key, or nil.
func (m *Model) Find(key string) *Var {
	for _, x := range m.Vars {
		if x.Key == key {
			return x
		}
	}
	return nil
}

// Pin fixes a variable. Its key must be a variable's.
func (m *Model) Pin(p Pin) {
	if m.pins == nil {
		m.pins = map[string]Pin{}
	}
	m.pins[p.Key] = p
}

func (m *Model) pinned(x *Var, size int) (int, bool) {
	p, ok := m.pins[x.Key]
	if !ok || p.Value[size] < 0 {
		return 0, false
	}
	return p.Value[size], true
}

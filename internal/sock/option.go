package sock

import (
	"fmt"

	"sockwright/internal/design"
	"sockwright/internal/source"
	"sockwright/internal/unit"
)

// An Option is a choice that a construction takes from its table of the design file.
type Option struct {
	Key     string
	Says    string   // what it chooses, as a noun
	Choices []string // the names to choose from, the usual one first; nil for a number
	UsualUp string   // the usual one from the toe up, if it is another

	// Of a number, or of a length in mm: the usual one, where it does not follow from the
	// design, and the least and the greatest that are taken.
	Usual, Least, Greatest float64
	Whole                  bool // a whole number
	Step                   int  // of which a whole number is a multiple; 0 for any
	Length                 bool // a length, one for all sizes or one for each

	Direction string // the only one in which there is such a choice; "" for both
}

// In tells whether there is such a choice in a direction.
func (o Option) In(direction string) bool { return o.Direction == "" || o.Direction == direction }

// only makes it a choice in one direction.
func (o Option) only(direction string) Option {
	o.Direction = direction
	return o
}

// usualUp sets what is usual from the toe up.
func (o Option) usualUp(name string) Option {
	o.UsualUp = name
	return o
}

func choice(key, says string, choices ...string) Option {
	return Option{Key: key, Says: says, Choices: choices}
}

func share(key, says string, usual, least, greatest float64) Option {
	return Option{Key: key, Says: says, Usual: usual, Least: least, Greatest: greatest}
}

func wholeNumber(key, says string, usual, least, greatest int) Option {
	return Option{Key: key, Says: says, Usual: float64(usual), Least: float64(least), Greatest: float64(greatest), Whole: true}
}

func steps(key, says string, usual, least, greatest, step int) Option {
	o := wholeNumber(key, says, usual, least, greatest)
	o.Step = step
	return o
}

func length(key, says string, least, greatest float64) Option {
	return Option{Key: key, Says: says, Least: least, Greatest: greatest, Length: true}
}

func (o Option) name(t *design.Table) string { return t.Choice(o.Key, o.Choices...) }

func (o Option) number(t *design.Table) float64 {
	return t.Number(o.Key, o.Usual, o.Least, o.Greatest)
}

func (o Option) whole(t *design.Table) int {
	n := t.Int(o.Key, int(o.Usual), int(o.Least), int(o.Greatest))
	if o.Step > 1 && n%o.Step != 0 {
		t.Fault(o.Key, source.Error, say("sock.option-step", "{0} is no multiple of {1}", n, o.Step), fmt.Sprintf("write a multiple of %d", o.Step))
	}
	return n
}

// lengths takes a length for every size; usual is what it is where the design does not say.
func (o Option) lengths(t *design.Table, d *Draft, usual func(size int) unit.Length) []unit.Length {
	return t.BySize(o.Key, d.Names(), unit.Length(o.Least), unit.Length(o.Greatest), usual)
}

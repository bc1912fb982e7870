package sock

import "sockwright/internal/design"

// A Choice is what a design chooses by name, or leaves at what is usual: how the stitches are
// held, a construction, one of its options, a technique for the whole sock.
type Choice struct {
	Key   string // as in the design file: "heel.kind"
	Says  string // what it chooses, as a noun
	Value string
	Asked bool // the design says so
}

// Choices lists what the design chooses, in the order of the parts from the cuff down.
func (d *Draft) Choices() []Choice {
	list := []Choice{{"needles.method", "how the stitches are held", string(d.Method), d.Part("needles").Has("method")}}
	named := func(part string, options []Option) {
		t := d.Part(part)
		for _, o := range options {
			if o.Choices != nil && o.In(d.Direction) {
				list = append(list, Choice{part + "." + o.Key, o.Says, o.nameIn(t, d.Direction), t.Has(o.Key)})
			}
		}
	}
	for _, part := range order {
		if len(kinds(part, d.Direction)) > 1 {
			list = append(list, Choice{part + ".kind", "kind of the " + part, d.kinds[part], d.Part(part).Has("kind")})
		}
		named(part, find(part, d.kinds[part]).Options)
	}
	named("technique", []Option{decreases, increases})
	return list
}

// nameIn is the name that a table chooses, or that is usual in a direction.
func (o Option) nameIn(t *design.Table, direction string) string {
	name := o.name(t)
	if !t.Has(o.Key) && direction == design.ToeUp && o.UsualUp != "" {
		return o.UsualUp
	}
	return name
}

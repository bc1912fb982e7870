package sock

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"sockwright/internal/design"
	"sockwright/internal/grade"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
	"sockwright/internal/spell"
	"sockwright/internal/unit"
)

// The levels of a sock's wishes, gravest first: the girths that were asked for, then the
// proportions of the parts, then the lengths, which whole rounds can always meet nearly.
const (
	girths grade.Level = iota
	proportions
	lengths
)

// LevelNames names the levels of [grade.Cost] as documents do.
var LevelNames = [grade.Levels]string{"girth", "proportion", "length"}

// A Draft is a design with its constructions chosen: the question that grading answers.
type Draft struct {
	*design.Design
	Model         *grade.Model
	Calf          []unit.Length // girths of the calves that a leg shaped for them is made for, by size; nil for other legs
	CalfEstimated bool          // the girths of the calf are estimates, as the design has none
	measures      []measure
	parts         []construction
	technique     technique
	kinds         map[string]string      // by part
	topOfLeg      string                 // key of the number of stitches at the upper end of the leg
	heelLast      bool                   // the heel is worked when everything else is done
	told          func(grade.Values) int // rounds of the foot that toe or heel tell
	tip           int                    // rounds that closing the toe adds, or casting it on
	heelEdge      heelEdge               // what a gusset is picked up from
	gussets       []string               // that go with the heel as its options make it, the usual one first; nil for those of the part
}

// A heelEdge is what a gusset is picked up from.
type heelEdge struct {
	rows   func(grade.Values) int // that reach it
	plain  bool                   // its stitches are not slipped, so there are no chains
	worked bool                   // its topmost stitch is worked over by the turn, and left out
}

// A measure is a length of the finished sock that follows from the plan.
type measure struct {
	key   string
	label string
	value func(v grade.Values) unit.Length
	asked func(size int) unit.Length // nil where nothing was asked for
}

// A Measure is a length of the finished sock in one size.
type Measure struct {
	Key   string
	Label string
	Size  int
	Value unit.Length
	Asked unit.Length // 0 where nothing was asked for
}

// New chooses the constructions of a design. The draft is nil where faults leave none.
func New(d *design.Design) (*Draft, []source.Fault) {
	draft := &Draft{Design: d, Model: &grade.Model{Sizes: len(d.Sizes)}, kinds: map[string]string{}}
	for _, part := range order {
		t := d.Part(part)
		kind := t.Choice("kind", kinds(part, d.Direction)...)
		if part == "gusset" {
			kind = draft.gusset(t, kind)
		}
		draft.kinds[part] = kind
		draft.parts = append(draft.parts, find(part, kind).take(draft, t))
	}
	draft.technique = takeTechnique(d)
	faults := append(d.Faults(), d.Unused()...)
	if worst, any := source.Worst(faults); any && worst == source.Error {
		return nil, faults
	}
	draft.topOfLeg = "leg.stitches"
	for _, p := range draft.parts {
		p.declare(draft)
	}
	faults = append(faults, draft.pin()...)
	if worst, any := source.Worst(faults); any && worst == source.Error {
		return nil, faults
	}
	return draft, faults
}

// gusset is the kind of gusset that goes with the heel: the one asked for, or the usual one
// where none was. One that does not go with it is refused.
func (d *Draft) gusset(t *design.Table, asked string) string {
	heel := find("heel", d.kinds["heel"])
	if d.gussets != nil {
		heel.Gussets = d.gussets
	}
	if t.Has("kind") && !slices.Contains(heel.Gussets, asked) {
		t.Clash("kind", say("sock.gusset-misfit", "{0} does not go with a gusset of the kind “{1}”", heel.Name, asked),
			"it goes with "+strings.Join(quoted(heel.Gussets), " or ")+"; leave the kind out for the usual one")
	}
	if !t.Has("kind") || !slices.Contains(heel.Gussets, asked) {
		return heel.Gussets[0]
	}
	return asked
}

func quoted(list []string) []string {
	out := make([]string, len(list))
	for i, s := range list {
		out[i] = `"` + s + `"`
	}
	return out
}

// Parts lists the constructions chosen, in the order in which they are worked.
func (d *Draft) Parts() []Part {
	var list []Part
	for i, part := range order {
		p := find(part, d.kinds[part])
		p.Skills = d.skills(p)
		if own, ok := d.parts[i].(teller); ok {
			p.Notions = slices.Clone(p.Notions)
			own.tell(d, &p)
		}
		list = append(list, p)
	}
	if d.Direction == design.ToeUp {
		slices.Reverse(list)
	}
	return list
}

// skills is what a knitter must know for a part as this sock is worked: legs and toes that are
// decreased from the cuff down are increased from the toe up, and no toe is grafted there.
func (d *Draft) skills(p Part) []string {
	var list []string
	for _, s := range p.Skills {
		up := d.Direction == design.ToeUp && (p.Part == "toe" || p.Part == "leg")
		switch {
		case up && s == "grafting":
			continue
		case up && s == "decreasing":
			s = "increasing"
		}
		list = append(list, s)
	}
	return list
}

// Kind is the kind of a part that the design chooses: of "heel", say, "band".
func (d *Draft) Kind(part string) string { return d.kinds[part] }

// v is a number that an earlier construction declared.
func (d *Draft) v(key string) *grade.Var {
	if x := d.Model.Find(key); x != nil {
		return x
	}
	panic("sock: no number " + key)
}

// top is the number of stitches at the upper end of the leg, which the cuff goes by. A leg
// that is shaped declares it when the cuff asks.
func (d *Draft) top() *grade.Var {
	for _, p := range d.parts {
		if leg, ok := p.(interface{ declareTop(*Draft) *grade.Var }); ok {
			x := leg.declareTop(d)
			d.topOfLeg = x.Key
			return x
		}
	}
	return d.v(d.topOfLeg)
}

func (d *Draft) measure(key, label string, asked func(size int) unit.Length, value func(v grade.Values) unit.Length) {
	d.measures = append(d.measures, measure{key, label, value, asked})
}

// finished is a measure that an earlier construction declared.
func (d *Draft) finished(key string, v grade.Values) unit.Length {
	for _, m := range d.measures {
		if m.key == key {
			return m.value(v)
		}
	}
	panic("sock: no measure " + key)
}

// pin hands the design's pins to the model.
func (d *Draft) pin() []source.Fault {
	var faults []source.Fault
	var keys []string
	for _, x := range d.Model.Vars {
		keys = append(keys, x.Key)
	}
	for _, p := range d.Pins {
		if d.Model.Find(p.Key) == nil {
			f := source.Fault{At: p.At, Kind: source.Pinned, Severity: source.Error,
				Text: source.Say("sock.pin-unknown", "“{0}” is not a number of this sock's plan", p.Key)}
			if near := spell.Nearest(p.Key, keys); near != "" {
				f.Mends = []source.Mend{{Why: source.Say("design.nearest-key", "did you mean {0}?", near)}}
			} else {
				f.Mends = []source.Mend{{Why: source.Say("sock.pin-known", "the numbers are {0}", strings.Join(keys, ", "))}}
			}
			faults = append(faults, f)
			continue
		}
		d.Model.Pin(grade.Pin{Key: p.Key, Value: p.Value})
	}
	return faults
}

// Grade finds the numbers of all sizes. The plan is nil where there are none; the faults
// then say which rules and pins cannot stand together, else what the pins cost.
func (d *Draft) Grade() (*grade.Plan, []source.Fault) {
	plan, err := d.Model.Solve()
	if err != nil {
		var no *grade.Impossible
		if !errors.As(err, &no) {
			panic(err)
		}
		return nil, []source.Fault{d.impossible(no)}
	}
	return plan, d.pinCosts(plan)
}

func (d *Draft) impossible(no *grade.Impossible) source.Fault {
	f := source.Fault{Sizes: source.OneSize(no.Size), Kind: source.Impossible, Severity: source.Error}
	var reasons, pins []string
	for _, r := range no.Rules {
		reasons = append(reasons, r.Says.String())
	}
	for _, x := range no.Far {
		reasons = append(reasons, x.Label+" cannot come near what is asked")
	}
	for _, key := range no.Pins {
		i := slices.IndexFunc(d.Pins, func(p design.Pin) bool { return p.Key == key })
		f.At = d.Pins[i].At
		text := fmt.Sprintf("%s = %d", key, d.Pins[i].Value[no.Size])
		if d.Pins[i].Value[no.Size] < 0 {
			text = key
		}
		pins = append(pins, text)
	}
	switch {
	case no.Falls && len(pins) == 0:
		f.Text = source.Say("sock.falls-alone", "it would be narrower than the size before it: {0}", strings.Join(reasons, "; "))
	case no.Falls && len(reasons) == 0:
		f.Text = source.Say("sock.falls", "with these pins it would be narrower than the size before it: {0}", strings.Join(pins, ", "))
	case no.Falls:
		f.Text = source.Say("sock.falls-rules", "with these pins it would be narrower than the size before it: {0}; {1}", strings.Join(pins, ", "), strings.Join(reasons, "; "))
	case len(pins) == 1 && len(reasons) == 0:
		f.Text = source.Say("sock.pin-far", "this pin cannot be kept: {0}; the number follows from others, and none near what is asked for make it that", pins[0])
	case len(pins) > 1 && len(reasons) == 0:
		f.Text = source.Say("sock.pins-clash", "these pins cannot stand together: {0}", strings.Join(pins, ", "))
	case len(pins) > 0:
		f.Text = source.Say("sock.pins-rules", "these pins cannot stand together with what a sock needs: {0}; {1}", strings.Join(pins, ", "), strings.Join(reasons, "; "))
	default:
		f.Text = source.Say("sock.impossible", "no numbers make this size: {0}", strings.Join(reasons, "; "))
	}
	if len(pins) > 0 {
		f.Kind = source.Pinned
		f.Mends = []source.Mend{{Why: source.Say("sock.unpin", "take one of these pins out, or change its number")}}
	} else {
		f.Mends = []source.Mend{{Why: source.Say("sock.loosen", "change the foot, the gauge or the option that the rule speaks of")}}
	}
	return f
}

// pinCosts says what each pin takes the sock away from what it would have been.
func (d *Draft) pinCosts(plan *grade.Plan) []source.Fault {
	if len(d.Pins) == 0 {
		return nil
	}
	var faults []source.Fault
	for _, n := range plan.Numbers() {
		if !n.Pinned || n.Var.Is != nil || n.OffMM < 0.5*n.Scale(plan.At(n.Size)) {
			continue
		}
		i := slices.IndexFunc(d.Pins, func(p design.Pin) bool { return p.Key == n.Key })
		faults = append(faults, source.Fault{At: d.Pins[i].At, Sizes: source.OneSize(n.Size), Kind: source.Pinned, Severity: source.Note,
			Text: source.Say("sock.pin-cost", "{0} is pinned to {1}, {2} from where it would lie ({3})", n.Key, n.Value, d.Small(n.OffMM), fmt.Sprintf("%.1f", n.Target))})
	}
	return faults
}

// Measures lists the lengths of the finished sock, measure by measure, size by size.
func (d *Draft) Measures(plan *grade.Plan) []Measure {
	var out []Measure
	for _, m := range d.measures {
		for size := range d.Sizes {
			x := Measure{Key: m.key, Label: m.label, Size: size, Value: m.value(plan.At(size))}
			if m.asked != nil {
				x.Asked = m.asked(size)
			}
			out = append(out, x)
		}
	}
	return out
}

// Build makes the instructions of the pattern from a plan.
func (d *Draft) Build(plan *grade.Plan) *pattern.Pattern {
	b := &Builder{Draft: d, plan: plan, only: source.AllSizes(len(d.Sizes)), p: &pattern.Pattern{Title: d.Title, Sizes: d.Names()}}
	parts := slices.Clone(d.parts)
	if d.Direction == design.ToeUp {
		slices.Reverse(parts)
	}
	for _, p := range parts {
		p.build(b)
	}
	for _, p := range parts {
		if last, ok := p.(finisher); ok {
			last.buildLast(b)
		}
	}
	d.technique.apply(b.p)
	b.p.Index()
	return b.p
}

// finishedGirth is the girth of the foot that a size should have when finished.
func (d *Draft) finishedGirth(size int) unit.Length { return d.Girth.Apply(d.Sizes[size].Girth) }

// finishedLength is the length of the foot that a size should have when finished.
func (d *Draft) finishedLength(size int) unit.Length { return d.Length.Apply(d.Sizes[size].Length) }

// stitchWidth and roundHeight are of plain stockinette in the round, in mm.
func (d *Draft) stitchWidth(grade.Values) float64 { return d.Gauge[""].Width(1).MM() }
func (d *Draft) roundHeight(grade.Values) float64 { return d.Gauge[""].Height(1).MM() }

// roundsBegin is where the rounds of the leg begin, by how they are held. Those of a sock
// worked from the toe up begin there from the first to the last.
func (d *Draft) roundsBegin() pattern.Place {
	if d.Method == design.DoublePointed && d.Direction == design.CuffDown {
		return pattern.CentreBack
	}
	return pattern.SideOfSole
}

// footBegins is where the rounds of the foot begin. A gusset that is decreased on one side
// takes the center of the sole away from the middle of the heel: its rounds begin at the side
// on all needles.
func (d *Draft) footBegins() pattern.Place {
	switch {
	case d.Direction == design.ToeUp:
		return pattern.SideOfSole
	case d.Method == design.DoublePointed && d.kinds["gusset"] != oneSided:
		return pattern.CentreOfSole
	}
	return pattern.SideOfInstep
}

// FootBegins is where the rounds of the foot begin.
func (d *Draft) FootBegins() pattern.Place { return d.footBegins() }

func say(key, text string, args ...any) source.Message { return source.Say(key, text, args...) }

// follows is a number that follows from others.
func follows(key, label, unit string, is func(grade.Values) int, why func(grade.Values) grade.Reason) grade.Var {
	return grade.Var{Key: key, Label: label, Unit: unit, Is: is, Why: why}
}

func rule(id, says string, ok func(v grade.Values, value int) bool) grade.Rule {
	return grade.Rule{ID: id, Says: say("rule."+id, says), Ok: ok}
}

// whole prints a target that need not be whole.
func whole(x float64) string {
	return strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%.2f", x), "0"), ".")
}

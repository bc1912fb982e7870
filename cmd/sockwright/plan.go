package main

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"sockwright/internal/grade"
	"sockwright/internal/publish"
	"sockwright/internal/sock"
	"sockwright/internal/source"
)

type planCmd struct {
	Design string `arg:"" help:"Design file, or - for standard input."`
	Why    bool   `help:"Print the reason of every number."`
	JSON   bool   `name:"json" help:"Print the plan as a JSON document."`
}

func (planCmd) example() string { return "sockwright plan examples/slate-quay.toml --why" }

// planDocument is sockwright/plan/1.
type planDocument struct {
	Schema    string           `json:"schema"`
	Title     string           `json:"title"`
	Sizes     []string         `json:"sizes"`
	Numbers   []planNumber     `json:"numbers"`
	Measures  []planMeasure    `json:"measures"`
	Objective []planObjective  `json:"objective"`
	Choices   []planChoice     `json:"choices"`
	Faults    []source.Finding `json:"faults"`
}

type planNumber struct {
	Key    string       `json:"key"`
	Part   string       `json:"part"`
	Label  string       `json:"label"`
	Size   string       `json:"size"`
	Value  int          `json:"value"`
	Unit   string       `json:"unit"`
	Why    string       `json:"why"`
	Rule   string       `json:"rule"`
	Terms  []grade.Term `json:"terms"`
	Also   []int        `json:"also"`
	Nearer *planNearer  `json:"nearer,omitempty"`
	Pinned bool         `json:"pinned,omitempty"`
	Target *float64     `json:"target,omitempty"`
	OffMM  *float64     `json:"off_mm,omitempty"`
}

// planNearer is a value that lies nearer the target of a number and was not taken.
type planNearer struct {
	Value int    `json:"value"`
	Why   string `json:"why"`
}

type planMeasure struct {
	Key     string   `json:"key"`
	Size    string   `json:"size"`
	ValueMM float64  `json:"value_mm"`
	AskedMM *float64 `json:"asked_mm"`
}

// planChoice is what the design chooses by name, or leaves at what is usual.
type planChoice struct {
	Key   string `json:"key"`
	Says  string `json:"says"`
	Value string `json:"value"`
	Asked bool   `json:"asked"`
}

// planObjective is what the plan costs at a level: mm of deviation over all sizes.
type planObjective struct {
	Level string  `json:"level"`
	MM    float64 `json:"mm"`
}

func (c *planCmd) Run(t *terminal) error {
	f, err := open(c.Design)
	if err != nil {
		return err
	}
	draft, plan, faults := publish.Grade(f)
	var names []string
	if draft != nil {
		names = draft.Names()
	}
	if c.JSON {
		if err := printJSON(t.out, planJSON(f, draft, plan, names, faults)); err != nil {
			return err
		}
		return t.status(faults)
	}
	if plan != nil {
		if c.Why {
			printWhy(t.out, plan, names)
			printChoices(t.out, draft, true)
		} else {
			printPlan(t.out, draft, plan, names)
			printChoices(t.out, draft, false)
		}
	}
	return t.report(f, names, faults)
}

func planJSON(f *source.File, draft *sock.Draft, plan *grade.Plan, names []string, faults []source.Fault) planDocument {
	doc := planDocument{Schema: "sockwright/plan/1", Sizes: names, Numbers: []planNumber{}, Measures: []planMeasure{}, Objective: []planObjective{}, Choices: []planChoice{}, Faults: findings(f, names, faults)}
	if names == nil {
		doc.Sizes = []string{}
	}
	if draft != nil {
		doc.Title = draft.Title
	}
	if plan == nil {
		return doc
	}
	for _, n := range plan.Numbers() {
		part, _, _ := strings.Cut(n.Key, ".")
		x := planNumber{Key: n.Key, Part: part, Label: n.Label, Size: names[n.Size], Value: n.Value, Unit: n.Unit,
			Why: n.Reason.Text.String(), Rule: n.Reason.Rule, Terms: n.Reason.Terms, Also: n.Also, Pinned: n.Pinned}
		if x.Terms == nil {
			x.Terms = []grade.Term{}
		}
		if x.Also == nil {
			x.Also = []int{}
		}
		if n.Nearer != nil {
			x.Nearer = &planNearer{n.Nearer.Value, n.Nearer.Why.String()}
		}
		if n.Var.Is == nil {
			x.Target, x.OffMM = round3(n.Target), round3(n.OffMM)
		}
		doc.Numbers = append(doc.Numbers, x)
	}
	for _, m := range draft.Measures(plan) {
		x := planMeasure{Key: m.Key, Size: names[m.Size], ValueMM: *round3(m.Value.MM())}
		if m.Asked != 0 {
			x.AskedMM = round3(m.Asked.MM())
		}
		doc.Measures = append(doc.Measures, x)
	}
	for _, x := range draft.Choices() {
		doc.Choices = append(doc.Choices, planChoice(x))
	}
	for level, name := range sock.LevelNames {
		doc.Objective = append(doc.Objective, planObjective{name, float64(plan.Cost[level]) / 1000})
	}
	return doc
}

// round3 rounds to a thousandth, so that documents do not end in float dust.
func round3(x float64) *float64 {
	n := float64(int64(x*1000+0.5)) / 1000
	if x < 0 {
		n = float64(int64(x*1000-0.5)) / 1000
	}
	return &n
}

func findings(f *source.File, names []string, faults []source.Fault) []source.Finding {
	out := []source.Finding{}
	for _, x := range faults {
		out = append(out, source.Find(f, names, x))
	}
	return out
}

// printPlan prints a table: a row a number, a column a size.
func printPlan(w io.Writer, draft *sock.Draft, plan *grade.Plan, names []string) {
	fmt.Fprintln(w, draft.Title)
	tw := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprintln(tw, "\n\t"+strings.Join(names, "\t"))
	var key string
	for _, n := range plan.Numbers() {
		if n.Key != key {
			if key != "" {
				fmt.Fprintln(tw)
			}
			key = n.Key
			fmt.Fprintf(tw, "%s (%s)", n.Key, n.Unit)
		}
		fmt.Fprintf(tw, "\t%d", n.Value)
	}
	fmt.Fprintln(tw)
	key = ""
	for _, m := range draft.Measures(plan) {
		if m.Key != key {
			fmt.Fprintln(tw)
			key = m.Key
			fmt.Fprintf(tw, "%s (mm)", m.Key)
		}
		fmt.Fprintf(tw, "\t%.0f", m.Value.MM())
	}
	fmt.Fprintln(tw)
	tw.Flush()
}

// printWhy prints every number with its reason, sizes that share a reason together.
func printWhy(w io.Writer, plan *grade.Plan, names []string) {
	key := ""
	numbers := plan.Numbers()
	for i := 0; i < len(numbers); {
		n := numbers[i]
		if n.Key != key {
			if key != "" {
				fmt.Fprintln(w)
			}
			key = n.Key
			fmt.Fprintf(w, "%s: %s\n", n.Key, n.Label)
		}
		same := i + 1
		for same < len(numbers) && numbers[same].Key == n.Key && numbers[same].Value == n.Value && numbers[same].Pinned == n.Pinned && numbers[same].Reason.Text.String() == n.Reason.Text.String() && sameNearer(numbers[same].Nearer, n.Nearer) {
			same++
		}
		var sizes []string
		for _, m := range numbers[i:same] {
			sizes = append(sizes, names[m.Size])
		}
		fmt.Fprintf(w, "  %s: %d %s", strings.Join(sizes, ", "), n.Value, unitFor(n.Value, n.Unit))
		if n.Pinned {
			fmt.Fprint(w, ", pinned by the design")
		}
		fmt.Fprintf(w, ": %s", n.Reason.Text)
		if n.Nearer != nil {
			fmt.Fprintf(w, "; %d is nearer, but %s", n.Nearer.Value, n.Nearer.Why)
		}
		for _, also := range n.Also {
			fmt.Fprintf(w, "; %d is as near", also)
		}
		fmt.Fprintln(w)
		i = same
	}
}

// sameNearer tells whether the same is said of two numbers.
func sameNearer(a, b *grade.Nearer) bool {
	if a == nil || b == nil {
		return a == b
	}
	return a.Value == b.Value && a.Why.String() == b.Why.String()
}

// printChoices prints what the design chooses by name; why tells what each chooses and whether
// it was asked for.
func printChoices(w io.Writer, draft *sock.Draft, why bool) {
	fmt.Fprintln(w)
	for _, x := range draft.Choices() {
		if !why {
			fmt.Fprintf(w, "%s = %q\n", x.Key, x.Value)
			continue
		}
		by := "as usual"
		if x.Asked {
			by = "chosen by the design"
		}
		fmt.Fprintf(w, "%s: %s\n  %s, %s\n", x.Key, x.Says, x.Value, by)
	}
}

// unitFor is the unit of a number: one of them is "1 rnd".
func unitFor(value int, unit string) string {
	if value == 1 {
		return strings.TrimSuffix(unit, "s")
	}
	return unit
}

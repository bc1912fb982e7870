package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"sockwright/internal/designtest"
)

// stated is a plan as its document tells it, and nothing else.
type stated struct {
	Sizes   []string
	Numbers []struct {
		Key, Size string
		Value     int
		Target    *float64
		OffMM     *float64 `json:"off_mm"`
		Pinned    bool
		Terms     []struct {
			Key   string
			Value float64
		}
	}
	Objective []struct {
		Level string
		MM    float64
	}
	Measures []struct {
		Key, Size string
		ValueMM   float64  `json:"value_mm"`
		AskedMM   *float64 `json:"asked_mm"`
	}
}

// failer is a test, drawn or not.
type failer interface {
	Helper()
	Fatalf(format string, args ...any)
	Errorf(format string, args ...any)
}

// planOf runs plan --json on a design; nil if the design is refused.
func planOf(t failer, dir, text string) *stated {
	t.Helper()
	name := filepath.Join(dir, "slate-quay.toml")
	if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
		t.Fatalf("%v", err)
	}
	var out, errOut bytes.Buffer
	status := run([]string{"plan", name, "--json"}, &out, &errOut)
	if status != 0 && status != statusFaults {
		t.Fatalf("status %d: %s\n%s", status, errOut.String(), text)
	}
	var doc stated
	if err := json.Unmarshal(out.Bytes(), &doc); err != nil {
		t.Fatalf("%v: %s", err, out.String())
	}
	if status == statusFaults {
		if len(doc.Numbers)+len(doc.Objective) > 0 {
			t.Fatalf("refused, but there are numbers: %s", out.String())
		}
		return nil
	}
	return &doc
}

// of is a number in every size.
func (s *stated) of(key string) (all []int) {
	for _, n := range s.Numbers {
		if n.Key == key {
			all = append(all, n.Value)
		}
	}
	return all
}

// term is what a number rests on in every size.
func (s *stated) term(key, term string) (all []float64) {
	for _, n := range s.Numbers {
		for _, x := range n.Terms {
			if n.Key == key && x.Key == term {
				all = append(all, x.Value)
			}
		}
	}
	return all
}

func (s *stated) level(t failer, name string) float64 {
	t.Helper()
	for _, o := range s.Objective {
		if o.Level == name {
			return o.MM
		}
	}
	t.Fatalf("the document states no objective %q: %v", name, s.Objective)
	return 0
}

func (s *stated) pinned(key string) bool {
	for _, n := range s.Numbers {
		if n.Key == key && n.Pinned {
			return true
		}
	}
	return false
}

// The house rules that the stated objective and the choice of leg counts rest on.
const (
	noFour    = 8.0  // mm for a leg count that is no multiple of 4
	smooth    = 0.25 // of the change of deviation from a size to the next
	tolerance = 0.04 // a rib's multiple within this share of the girth is kept whole
	reach     = 8.0  // stitches that a leg may lie from its target
	miss      = 0.12 // of the girth that a sock may miss
	fewest    = 12
	micro     = 0.0005 // mm: what rounding to whole micrometres may change in a term
)

// targets are the leg's: girth of the sock times gauge.
func (s *stated) targets(t failer) (targets []float64, width float64) {
	t.Helper()
	girths, gauges := s.term("leg.stitches", "foot.girth"), s.term("leg.stitches", "gauge.stitches")
	if len(girths) != len(s.Sizes) || len(gauges) != len(s.Sizes) {
		t.Fatalf("leg.stitches does not rest on foot.girth and gauge.stitches in every size")
	}
	for i, g := range girths {
		targets = append(targets, g*gauges[i]/100)
	}
	return targets, 100 / gauges[0]
}

// girth is the first level for leg counts, from the targets and the width of a stitch.
func girth(leg []int, targets []float64, width float64) (mm float64) {
	for i, n := range leg {
		mm += math.Abs(float64(n)-targets[i]) * width
		if n%4 != 0 {
			mm += noFour
		}
		if i > 0 {
			mm += smooth * math.Abs((float64(n)-targets[i])-(float64(leg[i-1])-targets[i-1])) * width
		}
	}
	return mm
}

// recompute holds the stated objective against the numbers, targets and measures.
func (s *stated) recompute(t failer) {
	t.Helper()
	leg := s.of("leg.stitches")
	targets, width := s.targets(t)
	if got, want := s.level(t, "girth"), girth(leg, targets, width); math.Abs(got-want) > micro*4*float64(len(leg))+1e-6 {
		t.Errorf("girth is stated as %v mm, but the numbers give %v: legs %v for %v", got, want, leg, targets)
	}
	levelOf := map[string]string{"leg.stitches": "girth", "cuff.rounds": "length", "leg.rounds": "length", "foot.length_rounds": "length"} // all others: proportion
	sum := map[string]float64{}
	rules := documented(t)
	for _, n := range s.Numbers {
		if (n.Target == nil) != (n.OffMM == nil) {
			t.Errorf("%s in size %s: a number that is chosen has a target and its distance, and one that follows has none", n.Key, n.Size)
		}
		if n.OffMM == nil {
			continue
		}
		if !strings.Contains(rules, "`"+n.Key+"`") {
			t.Errorf("%s is chosen, but docs/grading.md does not speak of it", n.Key)
		}
		level := levelOf[n.Key]
		if level == "" {
			level = "proportion"
		}
		sum[level] += *n.OffMM
	}
	for _, level := range []string{"proportion", "length"} {
		if got := s.level(t, level); math.Abs(got-sum[level]) > 1e-6 {
			t.Errorf("%s is stated as %v mm, but the distances sum to %v", level, got, sum[level])
		}
	}
	s.lengths(t)
}

// documented is the page that tells the rules of grading.
func documented(t failer) string {
	t.Helper()
	text, err := os.ReadFile("../../docs/grading.md")
	if err != nil {
		t.Errorf("%v", err)
	}
	return string(text)
}

// lengths holds the distances of the third level against the measures.
func (s *stated) lengths(t failer) {
	t.Helper()
	for _, m := range s.Measures {
		key, ok := map[string]string{"cuff.length": "cuff.rounds", "foot.length": "foot.length_rounds"}[m.Key]
		if !ok {
			continue
		}
		for _, n := range s.Numbers {
			if n.Key == key && n.Size == m.Size && math.Abs(math.Abs(m.ValueMM-*m.AskedMM)-*n.OffMM) > 0.0021 {
				t.Errorf("%s in size %s: %v mm for %v, but %s lies %v mm off", m.Key, m.Size, m.ValueMM, *m.AskedMM, key, *n.OffMM)
			}
		}
	}
}

// allowed are the leg counts that a size may have by the rules for it alone.
func allowed(target float64, multiple int) (list []int) {
	fits := false // whether a multiple lies near enough
	for n := multiple; float64(n) < 2*target+float64(multiple); n += multiple {
		fits = fits || math.Abs(float64(n)-target) <= tolerance*target
	}
	for n := fewest; float64(n) <= target+reach; n += 2 {
		if float64(n) >= target-reach && math.Abs(float64(n)-target) <= miss*target && (!fits || n%multiple == 0) {
			list = append(list, n)
		}
	}
	return list
}

// least is the least girth level of all leg counts that do not fall from size to size.
func (s *stated) least(t failer) (mm float64, legs []int) {
	t.Helper()
	targets, width := s.targets(t)
	repeats := s.term("cuff.stitches", "cuff.multiple")
	if len(repeats) == 0 {
		t.Fatalf("cuff.stitches does not rest on cuff.multiple")
	}
	repeat := int(repeats[0])
	multiple := repeat
	if multiple%2 != 0 {
		multiple *= 2
	}
	mm = math.Inf(1)
	var try func(leg []int)
	try = func(leg []int) {
		i := len(leg)
		if i == len(targets) {
			if x := girth(leg, targets, width); x < mm {
				mm, legs = x, slices.Clone(leg)
			}
			return
		}
		for _, n := range allowed(targets[i], multiple) {
			if i == 0 || n >= leg[i-1] {
				try(append(leg, n))
			}
		}
	}
	try(make([]int, 0, len(targets)))
	return mm, legs
}

// designOf is a design file with feet of so many mm, around and long, by size.
func designOf(cuff string, perInch float64, feet [][2]float64, more string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "title = \"Gable End\"\n[gauge]\nover = \"4 in\"\nstitches = %g\nrows = %g\n[cuff]\nkind = %q\n", 4*perInch, 4*perInch*1.375, cuff)
	for i, f := range feet {
		fmt.Fprintf(&b, "[[sizes.own]]\nname = \"%d\"\nfoot_girth = \"%g mm\"\nfoot_length = \"%g mm\"\n", i+1, f[0], f[1])
	}
	return b.String() + more
}

// TestObjective recomputes what a plan says it costs, and holds the girth level against all
// leg counts there are. Nothing is used but the document.
func TestObjective(t *testing.T) {
	feet := [][2]float64{{208, 212}, {217, 226}, {226, 243}, {236, 260}}
	for _, x := range []struct {
		name, text string
	}{
		{"four sizes, even ribs", designOf("k2p2", 8, feet, "")},
		{"coarse, even ribs", designOf("k2p2", 5, feet, "")},
		{"fine, ribs of four", designOf("k3p1", 11.3, feet, "")},
		{"ribs of two", designOf("k1p1", 7.7, feet, "")},
		{"twisted ribs, looser", designOf("k1p1-twisted", 9.1, feet, "[ease]\ngirth = \"-3 %\"\n")},
		{"garter", designOf("garter", 6.5, feet, "")},
		{"no rib fits", designOf("k2p2", 4, [][2]float64{{110, 130}, {113, 135}, {121, 150}, {140, 170}}, "")},
		{"feet that hardly differ", designOf("k2p2", 8, [][2]float64{{220, 240}, {221, 240}, {223, 241}, {226, 242}}, "")},
		{"one size", designOf("k2p2", 8.3, feet[:1], "")},
		{"two sizes far apart", designOf("k1p1", 6, [][2]float64{{120, 140}, {260, 280}}, "")},
	} {
		t.Run(x.name, func(t *testing.T) {
			s := planOf(t, t.TempDir(), x.text)
			if s == nil {
				t.Fatal("refused")
			}
			s.recompute(t)
			want, legs := s.least(t)
			if got := s.level(t, "girth"); math.Abs(got-want) > micro*4*float64(len(legs))+1e-6 {
				t.Errorf("legs %v cost %v mm; of all that do not fall, %v cost %v", s.of("leg.stitches"), got, legs, want)
			}
		})
	}
}

// TestObjectiveOfExamples recomputes the objective of the designs that come along.
func TestObjectiveOfExamples(t *testing.T) {
	names, err := filepath.Glob("../../examples/*.toml")
	if err != nil || len(names) == 0 {
		t.Fatal("no examples", err)
	}
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		t.Run(filepath.Base(name), func(t *testing.T) {
			s := planOf(t, t.TempDir(), string(text))
			if s == nil {
				t.Fatal("refused")
			}
			s.recompute(t)
		})
	}
}

// TestObjectiveOfRandom does the same for designs drawn at random. Rules for later numbers
// may take the best legs away, so the cost may be more than the least there is, never less.
func TestObjectiveOfRandom(t *testing.T) {
	dir := t.TempDir()
	rapid.Check(t, func(t *rapid.T) {
		s := planOf(t, dir, designtest.Draw(t))
		if s == nil {
			return
		}
		s.recompute(t)
		if len(s.Sizes) > 4 || s.pinned("leg.stitches") {
			return
		}
		want, legs := s.least(t)
		if got := s.level(t, "girth"); got < want-micro*4*float64(len(s.Sizes))-1e-6 {
			t.Fatalf("legs %v are stated to cost %v mm, less than the least there is, %v for %v", s.of("leg.stitches"), got, want, legs)
		}
	})
}

package proof_test

import (
	"fmt"
	"strings"
	"testing"

	"sockwright/internal/pattern"
	"sockwright/internal/proof"
	"sockwright/internal/source"
)

// tube is a pattern of a plain tube of n rounds, grafted.
func tube(extra ...pattern.Node) *pattern.Pattern {
	body := []pattern.Node{
		&pattern.CastOn{Stitches: pattern.Of(16, 20), Begin: pattern.SideOfInstep},
		&pattern.Row{Label: pattern.Label{Word: pattern.Round, Num: 1}, Parts: []pattern.Part{{Steps: []pattern.Step{{Op: pattern.Knit, Until: pattern.ToEnd}}}},
			Count: &pattern.Count{Total: pattern.Of(16, 20)}},
	}
	body = append(body, extra...)
	body = append(body, &pattern.Join{Front: pattern.Of(8, 10), Back: pattern.Of(8, 10)})
	return &pattern.Pattern{Title: "Gable End", Sizes: []string{"S", "M"}, Sections: []*pattern.Section{
		{Title: "Sizes", Body: []pattern.Node{&pattern.Prose{Style: pattern.Fact, Label: "Sizes", Text: pattern.Text{{Each: []string{"S", "M"}}}}}},
		{Title: "Tube", Body: body},
	}}
}

func TestProven(t *testing.T) {
	var steps []string
	p := proof.Prove(tube(), "gable-end.txt", func(done, of int) { steps = append(steps, fmt.Sprintf("%d/%d", done, of)) })
	for _, f := range p.Faults {
		t.Error(source.Find(p.Text, p.Read.Pattern.Sizes, f))
	}
	if p.Loops() != 16+16+8+20+20+10 {
		t.Errorf("%d loops", p.Loops())
	}
	if got := strings.Join(steps, " "); got != "1/2 2/2" {
		t.Errorf("progress: %s", got)
	}
}

// Words that say something else than the pattern, or that are wrong, are never proven.
func TestNotProven(t *testing.T) {
	knitAll := pattern.Part{Steps: []pattern.Step{{Op: pattern.Knit, Until: pattern.ToEnd}}}
	for _, c := range []struct {
		name  string
		extra pattern.Node
		want  string
	}{
		{"prose that reads as an instruction", &pattern.Prose{Text: pattern.Words("Knit 1 rnd.")}, "another cloth"},
		{"prose that reads as a row", &pattern.Prose{Text: pattern.Words("Rnd 2: Knit.")}, "another cloth"},
		{"prose that cannot be read as the row it begins like", &pattern.Prose{Text: pattern.Words("Rnd 2: Knit merrily.")}, "cannot read on"},
		{"a wrong count", &pattern.Row{Label: pattern.Label{Word: pattern.Round, Num: 2}, Parts: []pattern.Part{knitAll}, Count: &pattern.Count{Total: pattern.Of(16, 18)}}, "size M: Rnd 2 states 18 sts, but 20 are on the needles"},
		{"stitches left over", &pattern.Row{Label: pattern.Label{Word: pattern.Round, Num: 2}, Parts: []pattern.Part{{Steps: []pattern.Step{{Op: pattern.Knit, N: pattern.Of(16)}}}}}, "size M: Rnd 2 leaves 4 of 20 stitches"},
		{"a heel that is never finished", &pattern.Divide{Heel: pattern.Of(8, 10), Rest: pattern.Of(8, 10)}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := proof.Prove(tube(c.extra), "gable-end.txt", nil)
			if p.Proven() {
				t.Fatalf("proven:\n%s", p.Text.Text)
			}
			var all []string
			for _, f := range p.Faults {
				all = append(all, source.Find(p.Text, p.Read.Pattern.Sizes, f).String())
			}
			if !strings.Contains(strings.Join(all, "\n"), c.want) {
				t.Errorf("faults %q, want one with %q", all, c.want)
			}
		})
	}
}

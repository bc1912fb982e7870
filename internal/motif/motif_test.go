package motif_test

import (
	"strings"
	"testing"

	"sockwright/internal/knit"
	"sockwright/internal/motif"
	"sockwright/internal/notation"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

// What the motifs that ship are, counted by hand.
func TestShipped(t *testing.T) {
	want := map[string]struct{ multiple, rounds int }{
		"baskets": {8, 8}, "broken-rib": {2, 2}, "drifting-leaf": {8, 6}, "hawser": {8, 8}, "low-swell": {4, 4},
		"purled-slant": {4, 4}, "rope": {6, 6}, "seed": {2, 2}, "slipped-columns": {4, 2}, "small-arches": {6, 2},
		"strewn-eyelets": {4, 8}, "twisted-pairs": {4, 4}, "twisted-rib": {2, 1}, "wide-broken-rib": {4, 3},
		"woven-floats": {2, 4}, "zigzag": {6, 12},
	}
	for _, m := range motif.Shipped() {
		if w := want[m.Key]; w.multiple != m.Multiple || w.rounds != len(m.Rows) {
			t.Errorf("%s has %d stitches and %d rounds, want %d and %d", m.Key, m.Multiple, len(m.Rows), w.multiple, w.rounds)
		}
		if motif.Find(m.Key) != m || m.Says == "" {
			t.Errorf("%s is not found, or does not say what it is", m.Key)
		}
	}
	if len(want) != len(motif.Shipped()) || motif.Find("none") != nil {
		t.Errorf("%d motifs ship, want %d", len(motif.Shipped()), len(want))
	}
}

// Every motif that ships is knitted twice over five repeats, from its own words, and each
// number of rounds in between leaves what its rows say.
func TestShippedAreKnitted(t *testing.T) {
	for _, m := range motif.Shipped() {
		stitches := 5 * m.Multiple
		p := &pattern.Pattern{Title: "Gable End", Sizes: []string{""}, Sections: []*pattern.Section{{Title: "Leg", Body: []pattern.Node{
			m.Node(),
			&pattern.Prose{Text: pattern.Words("Begin below.")},
			&pattern.CastOn{Stitches: pattern.Of(stitches), Begin: pattern.CentreBack},
			&pattern.Plain{Op: pattern.InMotif, Name: m.Title, Rounds: pattern.Of(2 * len(m.Rows)), Count: &pattern.Count{Total: pattern.Of(stitches)}},
		}}}}
		f := source.NewFile("p.txt", notation.Write(p).Text)
		r := notation.Read(f)
		res := new(knit.Knitter).Knit(r.Pattern, 0)
		for _, x := range append(r.Faults, res.Faults...) {
			t.Errorf("%s: %v", m.Key, source.Find(f, r.Pattern.Sizes, x))
		}
		if res.Final != stitches {
			t.Errorf("%s leaves %d of %d stitches", m.Key, res.Final, stitches)
		}
	}
}

func TestParse(t *testing.T) {
	file := func(rows ...string) string {
		return "title = \"Gable End\"\nsays = \"a test\"\nkind = \"lace\"\nrows = \"\"\"\n" + strings.Join(rows, "\n") + "\n\"\"\"\n"
	}
	for _, c := range []struct {
		name, text string
		multiple   int
		fault      string // part of the only one; empty if there is none
	}{
		{"one row", file("*K2, yo, ssk; rep from * to end"), 4, ""},
		{"rows of different repeats", file("*K1, p1; rep from * to end", "*K2, p1; rep from * to end"), 6, ""},
		{"the count swells and comes back", file("*K1, yo; rep from * to end", "*K2tog; rep from * to end"), 1, ""},
		{"no row of stitches", file("Knit"), 1, ""},
		{"unknown sign", file("*K2, yo, ssx; rep from * to end"), 0, "row 1: cannot read on from “ssx”"},
		{"cut short", file("*K2, yo"), 0, "row 1: the row ends where it should go on"},
		{"does not balance", file("*K2, yo; rep from * to end"), 0, "the rows take 2 sts to a repeat and leave 3"},
		{"rows that never come back", file("*K2, yo; rep from * to end", "*K2; rep from * to end"), 0, "the rows take 4 sts to a repeat and leave 6"},
		{"no repeat", file("K4"), 0, "row 1 has no repeat that goes to the end of the round"},
		{"edges", file("K1, *k2, p2; rep from * to last st, k1"), 0, "row 1 works 2 sts beside its repeat"},
		{"no rows", "title = \"Gable End\"\nkind = \"lace\"\n", 0, "row 1"},
		{"no title", "kind = \"lace\"\nrows = \"Knit\"\n", 0, "no title"},
		{"unknown kind", strings.Replace(file("Knit"), "lace", "lase", 1), 0, "lase"},
		{"unknown key", "colour = 1\n" + file("Knit"), 0, "colour"},
		{"no TOML", "title = \n", 0, ""},
	} {
		m, faults := motif.Parse(source.NewFile("gable-end.toml", c.text))
		switch {
		case c.multiple > 0 && (m == nil || m.Multiple != c.multiple || len(faults) > 0):
			t.Errorf("%s: %+v, %v", c.name, m, faults)
		case c.multiple == 0 && (len(faults) != 1 || !strings.Contains(faults[0].Text.String(), c.fault)):
			t.Errorf("%s: %v, want one fault with %q", c.name, faults, c.fault)
		}
	}
}

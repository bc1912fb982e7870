package sock_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"sockwright/internal/design"
	"sockwright/internal/fabric"
	"sockwright/internal/pattern"
	"sockwright/internal/sock"
	"sockwright/internal/source"
)

// refused is what is said of a design that has no plan.
func refused(t *testing.T, text string) string {
	t.Helper()
	f := source.NewFile("gable-end.toml", text)
	d, faults := design.Read(f)
	if d == nil {
		t.Fatal(faults)
	}
	draft, more := sock.New(d)
	if draft == nil {
		t.Fatal(append(faults, more...))
	}
	plan, more := draft.Grade()
	if plan != nil || len(more) != 1 {
		t.Fatalf("not refused: %v", more)
	}
	return more[0].Text.String()
}

func feet(perFour, rows string, sizes ...string) string {
	text := "title = \"Gable End\"\n[gauge]\nover = \"4 in\"\nstitches = " + perFour + "\nrows = " + rows + "\n"
	for i, s := range sizes {
		girth, length, _ := strings.Cut(s, " by ")
		text += "[[sizes.own]]\nname = \"" + string("SML"[i]) + "\"\nfoot_girth = \"" + girth + " mm\"\nfoot_length = \"" + length + " mm\"\n"
	}
	return text
}

// A toe that would begin with fewer stitches than it leaves is looked at when a refusal is
// explained.
func TestRefusedWithFewStitches(t *testing.T) {
	said := refused(t, feet("20", "24", "100 by 50")+"[gusset]\ncorner_stitches = 2\n[pin]\n\"foot.length_rounds\" = 8\n\"toe.stitches_left\" = 8\n")
	if !strings.Contains(said, "foot.length_rounds = 8") {
		t.Errorf("the refusal does not name the pin: %s", said)
	}
}

// Where the toe's rounds begin earlier than the foot's, the toe tells the last round of the
// foot, and the foot must be long enough for that.
func TestShortestFoot(t *testing.T) {
	text := feet("32", "44", "210 by 200") + "[heel]\nshare = 0.58\n[needles]\nmethod = \"magic-loop\"\n[pin]\n\"leg.stitches\" = 60\n\"heel.stitches\" = 36\n\"heel.flap_rows\" = 18\n\"heel.band_stitches\" = 8\n\"toe.stitches_left\" = 16\n\"foot.length_rounds\" = "
	if said := refused(t, text+"49\n"); !strings.Contains(said, "the gusset ends before the toe begins") {
		t.Errorf("the refusal does not say why: %s", said)
	}
	draft, plan := graded(t, text+"50\n")
	if rounds, gusset := plan.Of("foot.rounds", 0), plan.Of("gusset.decrease_rounds", 0); rounds != 2*gusset+2 {
		t.Errorf("the foot has %d rounds and the gusset %d: want one round to spare", rounds, 2*gusset+1)
	}
	c := knitted(t, draft, plan, 0)
	c.p.Each(func(s *pattern.Section, n pattern.Node) {
		if x, ok := n.(*pattern.Plain); ok && x.Rounds.Is(0) {
			t.Errorf("section %s tells no rounds to knit", s.Title)
		}
	})
}

// A pin far down the plan can keep a size from being as wide as the one before.
func TestFallsByPin(t *testing.T) {
	said := refused(t, feet("32", "44", "240 by 230", "240 by 230")+"[pin]\n\"foot.stitches\" = { S = 72, M = 64 }\n")
	if !strings.Contains(said, "narrower than the size before it") || !strings.Contains(said, "foot.stitches = 64") {
		t.Errorf("the refusal does not name the pin: %s", said)
	}
}

// A pin on a number that follows from others says so when none of these make it that.
func TestFarPin(t *testing.T) {
	said := refused(t, wanted{stitches: []int{64}, more: "[heel]\nkind = \"inserted\"\nshare = 0.6\n[pin]\n\"heel.stitches_left\" = 24\n"}.text())
	if want := "this pin cannot be kept: heel.stitches_left = 24; the number follows from others"; !strings.Contains(said, want) {
		t.Errorf("%q, want %q in it", said, want)
	}
}

// Gusset and toe of a single decrease round tell what they leave.
func TestSingleDecreaseRounds(t *testing.T) {
	draft, plan := graded(t, feet("14", "20", "95 by 100", "220 by 240")+"[gusset]\ncorner_stitches = 0\n")
	numbers(t, plan, 0, map[string]int{"gusset.decrease_rounds": 1, "toe.rounds": 1})
	for size := range 2 {
		knitted(t, draft, plan, size)
	}
	told := map[string]bool{}
	draft.Build(plan).Each(func(s *pattern.Section, n pattern.Node) {
		group, ok := n.(*pattern.Only)
		if !ok || group.Sizes.Has(1) {
			return
		}
		for _, x := range group.Body {
			if row, ok := x.(*pattern.Row); ok && row.Count != nil && row.Count.Total.Is(12-4*int32(len(told))) && row.Count.Split != nil {
				told[s.Title] = true
			}
		}
	})
	if !told["Gusset"] || !told["Toe"] {
		t.Errorf("the only decrease round tells what it leaves in %v, want gusset and toe", told)
	}
}

// Computed: a tubular edge over 64 stitches is cast on over 32, doubled by yarn overs, and worked
// in four rounds of 32 each, two of which make one row of height. For k2, p2 rib the second and
// the third of every four stitches change places behind it, or before a bind-off. Either way a
// knit column of the rib is a knit column of the edge, and so is a purl one.
func TestTubularEdge(t *testing.T) {
	for _, x := range []struct {
		kind string
		edge []int // rounds from the cast-on on, or to the bind-off
	}{
		{"k1p1", []int{32, 64, 32, 32, 32, 32}},
		{"k2p2", []int{32, 64, 32, 32, 32, 32, 64}},
		{"folded", []int{32, 64, 32, 32, 32, 32, 64}},
	} {
		for _, direction := range []string{"cuff-down", "toe-up"} {
			draft, plan := graded(t, "direction = \""+direction+"\"\n"+wanted{stitches: []int{64}, more: fmt.Sprintf("[cuff]\nkind = %q\nedge = \"tubular\"\n[leg]\nlength = \"8 in\"\n", x.kind)}.text())
			c := knitted(t, draft, plan, 0)
			rounds := c.courses("Cuff", true)
			rib := plan.Of("cuff.rounds", 0)
			if direction == "toe-up" { // neither the cast-on nor the yarn overs, and the last comes first
				x.edge = slices.Clone(x.edge[2:])
				slices.Reverse(x.edge)
			}
			if len(rounds) != rib+len(x.edge) {
				t.Fatalf("%s, %s: %d rounds, want %d and %d of the edge", x.kind, direction, len(rounds), rib, len(x.edge))
			}
			edge := rounds[:len(x.edge)]
			if direction == "toe-up" {
				edge = rounds[rib:]
			}
			for i, want := range x.edge {
				if len(edge[i].kinds) != want {
					t.Errorf("%s, %s: round %d of the edge works %d stitches, want %d", x.kind, direction, i+1, len(edge[i].kinds), want)
				}
			}
			for _, r := range rounds {
				for j, kind := range r.kinds {
					for _, below := range c.Fabric.Through(r.first + int32(j)) {
						from := c.Fabric.Loops[below].Kind
						if c.Fabric.RowOf(below) == c.Fabric.RowOf(rounds[0].first)-1 || from == fabric.YarnOver || from == fabric.Provisional {
							continue // the leg, or the start
						}
						purl := func(k fabric.Kind) bool { return k == fabric.Purl || k == fabric.BehindPurl }
						if purl(kind) != purl(from) && kind != fabric.BoundOff {
							t.Fatalf("%s, %s: a %s stands over a %s", x.kind, direction, kind, from)
						}
					}
				}
			}
		}
	}
	for _, kind := range []string{"k3p1", "garter", "rolled"} {
		d, _ := design.Read(source.NewFile("gable-end.toml", wanted{stitches: []int{64}, more: fmt.Sprintf("[cuff]\nkind = %q\nedge = \"tubular\"\n", kind)}.text()))
		_, faults := sock.New(d)
		if len(faults) != 1 || !strings.Contains(faults[0].Text.String(), "a tubular edge has a knit st for each purl st") || len(faults[0].Mends) == 0 || !strings.Contains(faults[0].Mends[0].Why.String(), "stretchy") {
			t.Errorf("%s: %v", kind, faults)
		}
	}
}

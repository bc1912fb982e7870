package sock_test

import (
	"fmt"
	"slices"
	"testing"

	"sockwright/internal/fabric"
	"sockwright/internal/pattern"
)

// methods are the ways to hold the needles.
var methods = []string{"double-pointed", "magic-loop", "two-circulars"}

// toeOf is the toe of a sock of so many stitches as a foot has, in one direction: the
// stitches after each of its rounds, and its rounds as planned.
func toeOf(t *testing.T, direction, more string, stitches int) (after []int, c cloth) {
	t.Helper()
	draft, plan := graded(t, "direction = \""+direction+"\"\n"+wanted{stitches: []int{stitches}, foot: "12 in", more: more}.text())
	numbers(t, plan, 0, map[string]int{"foot.stitches": stitches})
	c = knitted(t, draft, plan, 0)
	for _, r := range c.courses("Toe", true) {
		after = append(after, len(r.kinds))
	}
	if n := plan.Of("toe.rounds", 0); n != len(after) {
		t.Errorf("%s%s: %d rounds are planned and %d knitted", direction, more, n, len(after))
	}
	return after, c
}

// spell lists stitches round by round: each of the numbers for as many rounds as the one
// behind it says.
func spell(runs ...int) (list []int) {
	for i := 0; i < len(runs); i += 2 {
		list = append(list, slices.Repeat([]int{runs[i]}, runs[i+1])...)
	}
	return list
}

func backwards(list []int) []int {
	list = slices.Clone(list)
	slices.Reverse(list)
	return list
}

// Computed: toes round by round. Those from the tip are those from the cuff backwards: what
// a round leaves there is what the round begins with here.
func TestToesRoundByRound(t *testing.T) {
	for _, x := range []struct {
		more     string
		stitches int
		down, up []int
	}{
		{"[toe]\nkind = \"round\"\n", 64,
			spell(56, 7, 48, 6, 40, 5, 32, 4, 24, 3, 16, 2, 8, 1),
			spell(8, 1, 16, 2, 24, 3, 32, 4, 40, 5, 48, 6, 56, 7, 64, 1)},
		{"[toe]\nkind = \"round\"\n", 56, spell(48, 6, 40, 5, 32, 4, 24, 3, 16, 2, 8, 1), nil}, // as a leaflet of 1939: Knitting Instructions for Field Comforts
		{"[toe]\nkind = \"round\"\nsections = 6\n", 48, spell(42, 7, 36, 6, 30, 5, 24, 4, 18, 3, 12, 2, 6, 1), nil},
		{"[toe]\nkind = \"round\"\nsections = 6\n", 60, spell(54, 9, 48, 8, 42, 7, 36, 6, 30, 5, 24, 4, 18, 3, 12, 2, 6, 1), nil},
		{"[toe]\nkind = \"round\"\n", 72, spell(64, 8, 56, 7, 48, 6, 40, 5, 32, 4, 24, 3, 16, 2, 8, 1), nil},
		{"[toe]\nkind = \"round\"\n", 80, spell(72, 9, 64, 8, 56, 7, 48, 6, 40, 5, 32, 4, 24, 3, 16, 2, 8, 1), nil},
		{"[toe]\nkind = \"round\"\nsections = 7\n", 64, append([]int{63}, spell(56, 8, 49, 7, 42, 6, 35, 5, 28, 4, 21, 3, 14, 2, 7, 1)...), nil}, // a round before it takes what is no multiple
		{"[toe]\nkind = \"star\"\n", 64,
			spell(60, 2, 56, 2, 52, 2, 48, 2, 44, 2, 40, 2, 36, 2, 32, 2, 28, 1, 24, 1, 20, 1, 16, 1, 12, 1, 8, 1),
			spell(8, 1, 12, 1, 16, 1, 20, 1, 24, 1, 28, 1, 32, 2, 36, 2, 40, 2, 44, 2, 48, 2, 52, 2, 56, 2, 60, 2, 64, 1)},
		{"[toe]\n", 64, nil,
			spell(16, 1, 20, 1, 24, 1, 28, 1, 32, 2, 36, 2, 40, 2, 44, 2, 48, 2, 52, 2, 56, 2, 60, 2, 64, 1)},
		{"[toe]\nkind = \"pointed\"\n", 64,
			spell(60, 2, 56, 2, 52, 2, 48, 2, 44, 2, 40, 2, 36, 2, 32, 2, 28, 2, 24, 2, 20, 2, 16, 2, 12, 2, 8, 1),
			spell(8, 1, 12, 2, 16, 2, 20, 2, 24, 2, 28, 2, 32, 2, 36, 2, 40, 2, 44, 2, 48, 2, 52, 2, 56, 2, 60, 2, 64, 1)},
		{"[toe]\nkind = \"square\"\n", 64, spell(60, 1, 56, 1, 52, 1, 48, 1, 44, 1, 40, 1, 36, 1, 32, 1, 28, 1), nil},
	} {
		for _, method := range methods {
			more := "[needles]\nmethod = \"" + method + "\"\n" + x.more
			if x.down != nil {
				if got, _ := toeOf(t, "cuff-down", more, x.stitches); !slices.Equal(got, x.down) {
					t.Errorf("%d stitches, %s: the rounds leave %v, want %v", x.stitches, more, got, x.down)
				}
			}
			if x.up != nil {
				if got, _ := toeOf(t, "toe-up", more, x.stitches); !slices.Equal(got, x.up) {
					t.Errorf("%d stitches, %s, from the tip: the rounds leave %v, want %v", x.stitches, more, got, x.up)
				}
			}
		}
	}
}

// As many stitches as asked for stand between the shapings of instep and sole, half on each.
func TestEdgeOfToe(t *testing.T) {
	for _, edge := range []int{0, 2, 4, 6} {
		for _, lean := range []string{"mirrored", "skp"} {
			_, c := toeOf(t, "cuff-down", fmt.Sprintf("[needles]\nmethod = \"magic-loop\"\n[toe]\nedge = %d\ndecreases = %q\n", edge, lean), 64)
			kind := map[string]fabric.Kind{"mirrored": fabric.Ssk, "skp": fabric.Skp}[lean]
			decreases := 0
			for i, r := range c.courses("Toe", true) {
				if r.at(kind, 0) < 0 {
					continue
				}
				decreases++
				n := len(r.kinds)
				want := []int{edge / 2, n/2 + edge/2, n/2 - 1 - edge/2, n - 1 - edge/2}
				if got := []int{r.at(kind, 0), r.at(kind, 1), r.at(fabric.K2tog, 0), r.at(fabric.K2tog, 1)}; !slices.Equal(got, want) {
					t.Errorf("edge %d, %s, round %d of %d stitches: decreases at %v, want %v", edge, lean, i+1, n, got, want)
				}
			}
			if decreases != 12 && edge < 6 {
				t.Errorf("edge %d, %s: %d decrease rounds, want 12", edge, lean, decreases)
			}
		}
		if edge == 0 {
			continue
		}
		for _, grows := range []string{"made", "lifted", "kfb"} {
			_, c := toeOf(t, "toe-up", fmt.Sprintf("[toe]\nedge = %d\nincreases = %q\n", edge, grows), 64)
			right, left := fabric.RaisedRight, fabric.RaisedLeft
			before, behind := edge/2, 1+edge/2
			switch grows {
			case "made":
				right, left = fabric.LiftRight, fabric.LiftLeft
			case "kfb": // both stitches look back at the one they were worked into: the second has a bar before it
				right, left = fabric.Again, fabric.Again
			}
			for i, r := range c.courses("Toe", true) {
				first := r.at(right, 0)
				if first < 0 {
					continue
				}
				n := len(r.kinds)
				var got []int
				for j, k := range r.kinds {
					if k == right || k == left {
						got = append(got, j)
					}
				}
				if want := []int{before, n/2 - behind, n/2 + before, n - behind}; !slices.Equal(got, want) {
					t.Errorf("edge %d, %s, round %d of %d stitches: increases at %v, want %v", edge, grows, i+1, n, got, want)
				}
			}
		}
	}
}

// Published: a how-to of a sock of 64 stitches with a short-row toe over 32 down to 8: 12
// turns a side, 48 rows, the halves grafted 32 to 32.
func TestShortRowToe(t *testing.T) {
	for _, turn := range []string{"wrapped", "twin", "yarn-over", "double-stitch"} {
		for _, direction := range []string{"cuff-down", "toe-up"} {
			draft, plan := graded(t, "direction = \""+direction+"\"\n"+wanted{stitches: []int{64}, more: "[toe]\nkind = \"short-row\"\nmiddle = 0.25\nturn = \"" + turn + "\"\n"}.text())
			numbers(t, plan, 0, map[string]int{"toe.stitches": 32, "toe.middle_stitches": 8, "toe.turns": 12, "toe.rounds": 24})
			c := knitted(t, draft, plan, 0)
			rows := len(c.courses("Toe", false)) + len(c.courses("Toe, second half", false))
			if rows != 48 {
				t.Errorf("%s, %s: %d rows, want 48", turn, direction, rows)
			}
			undone, grafted := 0, 0
			c.p.Each(func(_ *pattern.Section, n pattern.Node) {
				switch n := n.(type) {
				case *pattern.Undo:
					undone = int(n.Stitches.In(0))
				case *pattern.Join:
					grafted = int(n.Front.In(0))
				}
			})
			if direction == "toe-up" && undone != 32 || direction == "cuff-down" && grafted != 32 {
				t.Errorf("%s, %s: %d stitches are undone and %d grafted, want 32", turn, direction, undone, grafted)
			}
		}
	}
}

// The foot has as many rounds between the heel and the toe as planned, also where the round
// begins earlier from there on because heel or toe need it.
func TestFootRoundsAreKnitted(t *testing.T) {
	for _, direction := range []string{"cuff-down", "toe-up"} {
		for _, method := range methods {
			for _, toe := range []string{"wedge", "round", "star", "short-row", "pointed", "square", "anatomical"} {
				for _, share := range []float64{0.45, 0.5, 0.55} {
					text := fmt.Sprintf("direction = %q\n%s", direction, wanted{stitches: []int{64}, more: fmt.Sprintf("[needles]\nmethod = %q\n[heel]\nkind = \"wrapped\"\nshare = %g\n[toe]\nkind = %q\n", method, share, toe)}.text())
					draft, plan := graded(t, text)
					knitted(t, draft, plan, 0)
					rounds := 0
					count := func(section string) {
						draft.Build(plan).Each(func(s *pattern.Section, n pattern.Node) {
							row, ok := n.(*pattern.Row)
							if s.Title != section {
								return
							}
							if n, ok := n.(*pattern.Plain); ok && section == "Foot" {
								rounds += int(n.Rounds.In(0))
							}
							if ok && row.Label.Word == pattern.Round && row.Label.Name == pattern.Partial && row.Parts[0].Steps[0].Until == pattern.ToLast {
								rounds++
							}
						})
					}
					count("Foot")
					if direction == "cuff-down" {
						count("Toe")
						rounds += plan.Of("gusset.rounds", 0)
					} else {
						count("Heel")
					}
					if want := plan.Of("foot.rounds", 0); rounds != want {
						t.Errorf("%s: %d rounds of the foot are told, want %d", text, rounds, want)
					}
				}
			}
		}
	}
}

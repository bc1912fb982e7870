package sock_test

import (
	"fmt"
	"slices"
	"strings"
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
	for _, r := range c.toe() {
		after = append(after, len(r.kinds))
	}
	if n := plan.Of("toe.rounds", 0); n != len(after) {
		t.Errorf("%s%s: %d rounds are planned and %d knitted", direction, more, n, len(after))
	}
	return after, c
}

// toe is the rounds of all parts of the toe.
func (c cloth) toe() (rounds []course) {
	for _, s := range c.p.Sections {
		if strings.HasPrefix(s.Title, "Toe") {
			rounds = append(rounds, c.courses(s.Title, true)...)
		}
	}
	return rounds
}

// spell lists stitches round by round: each of the numbers for as many rounds as the one
// behind it says.
func spell(runs ...int) (list []int) {
	for i := 0; i < len(runs); i += 2 {
		list = append(list, slices.Repeat([]int{runs[i]}, runs[i+1])...)
	}
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
		{"[toe]\nkind = \"spiral\"\n", 64,
			spell(64, 1, 60, 2, 56, 2, 52, 2, 48, 2, 44, 2, 40, 2, 36, 2, 32, 2, 28, 2, 24, 2, 20, 2, 16, 2, 12, 2, 8, 2),
			spell(8, 1, 12, 2, 16, 2, 20, 2, 24, 2, 28, 2, 32, 2, 36, 2, 40, 2, 44, 2, 48, 2, 52, 2, 56, 2, 60, 2, 64, 2)},
		{"[toe]\nkind = \"anatomical\"\n", 64, // the table has two plain rounds more before both sides are decreased
			spell(62, 2, 60, 2, 58, 2, 56, 2, 52, 1, 48, 1, 44, 1, 40, 1, 36, 1, 32, 1, 28, 1, 24, 1, 20, 1, 16, 1),
			spell(16, 1, 20, 1, 24, 1, 28, 1, 32, 1, 36, 1, 40, 1, 44, 1, 48, 1, 52, 1, 56, 2, 58, 2, 60, 2, 62, 2, 64, 1)},
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
			for _, toe := range []string{"wedge", "round", "star", "spiral", "short-row", "pointed", "square", "anatomical"} {
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

// Published: Encyclopedia of Needlework, D.M.C., 1886, decreases on stitches 1 and 2 of each of
// four needles, in the next round but one on 3 and 4, and so on. From 16 a needle there is room
// for five. From the tip the increases come nearer to the beginning in the same way.
func TestSpiralWanders(t *testing.T) {
	const more = "[toe]\nkind = \"spiral\"\nplaces = 5\n"
	places := func(direction string, kind fabric.Kind) (list [][]int) {
		_, c := toeOf(t, direction, more, 64)
		for _, r := range c.toe() {
			var at []int
			for i, k := range r.kinds {
				if k == kind {
					at = append(at, i)
				}
			}
			if at != nil {
				list = append(list, at)
			}
		}
		return list
	}
	down, up := places("cuff-down", fabric.Ssk), places("toe-up", fabric.LiftLeft)
	if len(down) != 14 || len(up) != 14 {
		t.Fatalf("%d decrease rounds and %d increase rounds, want 14", len(down), len(up))
	}
	for j := range 5 {
		var want []int
		for needle := range 4 {
			want = append(want, needle*(15-j)+2*j)
		}
		if !slices.Equal(down[j], want) {
			t.Errorf("decrease round %d is at %v, want %v", j+1, down[j], want)
		}
		for i := range want { // a stitch stands before the first increase, as ssk leaves one there
			want[i] = i*(16-j) + 2*j + 1
		}
		if !slices.Equal(up[13-j], want) {
			t.Errorf("increase round %d is at %v, want %v", 14-j, up[13-j], want)
		}
	}
}

// Published: the two socks of a pair have as many stitches after each round of a toe for the
// right and the left foot, and their decreases mirror each other at the instep and at the sole.
func TestAnatomicalToesMirror(t *testing.T) {
	for _, direction := range []string{"cuff-down", "toe-up"} {
		for _, method := range methods {
			for n := 28; n <= 140; n += 8 {
				draft, plan := graded(t, fmt.Sprintf("direction = %q\n", direction)+wanted{stitches: []int{n}, foot: "16 in", more: fmt.Sprintf("[needles]\nmethod = %q\n[toe]\nkind = \"anatomical\"\n", method)}.text())
				p := draft.Build(plan)
				socks := p.Socks()
				if len(socks) != 2 {
					t.Fatalf("%d kinds of sock, want a right and a left one", len(socks))
				}
				right, left := knittedAs(t, p, 0, socks[0]).courses("Toe", true), knittedAs(t, p, 0, socks[1]).courses("Toe", true)
				if len(right) != len(left) || len(right) != plan.Of("toe.rounds", 0) {
					t.Fatalf("%d stitches: the toes have %d and %d rounds, planned are %d", n, len(right), len(left), plan.Of("toe.rounds", 0))
				}
				shape := map[fabric.Kind]fabric.Kind{fabric.Ssk: fabric.K2tog, fabric.K2tog: fabric.Ssk, fabric.LiftLeft: fabric.LiftRight, fabric.LiftRight: fabric.LiftLeft}
				differ := 0
				for i := range right {
					mirrored := slices.Clone(left[i].kinds)
					slices.Reverse(mirrored)
					for j, k := range mirrored {
						if m, ok := shape[k]; ok {
							mirrored[j] = m
						}
					}
					// A round begins at the side before the instep, or before the sole; its mirror image
					// begins with the other half's.
					half := len(mirrored) / 2
					mirrored = slices.Concat(mirrored[half:], mirrored[:half])
					if !slices.Equal(right[i].kinds, mirrored) {
						t.Errorf("%s, %d stitches, round %d: the left toe does not mirror the right one", direction, n, i+1)
					}
					if !slices.Equal(right[i].kinds, left[i].kinds) {
						differ++
					}
				}
				if want := plan.Of("toe.one_side_rounds", 0); differ != want {
					t.Errorf("%s, %d stitches: the toes differ in %d rounds, want %d", direction, n, differ, want)
				}
			}
		}
	}
}

// A short-row toe is worked over the half that is asked for, and the round begins there.
func TestShortRowToeOverEitherHalf(t *testing.T) {
	for over, place := range map[string]pattern.Place{"instep": pattern.SideOfInstep, "sole": pattern.SideOfSole} {
		for _, method := range methods {
			for _, n := range []int{24, 26, 64, 66, 140} {
				draft, plan := graded(t, wanted{stitches: []int{n}, foot: "16 in", more: fmt.Sprintf("[needles]\nmethod = %q\n[toe]\nkind = \"short-row\"\nover = %q\n[pin]\n\"leg.stitches\" = %d\n[cuff]\nkind = \"k1p1\"\n", method, over, n)}.text())
				begins := pattern.NoPlace
				knitted(t, draft, plan, 0).p.Each(func(_ *pattern.Section, n pattern.Node) {
					switch n := n.(type) {
					case *pattern.Begin:
						begins = n.Place
					case *pattern.Divide:
						if n.Toe && begins != place {
							t.Errorf("%s, %s: the toe is set apart where the round begins %d, want %d", over, method, begins, place)
						}
					}
				})
			}
		}
	}
}

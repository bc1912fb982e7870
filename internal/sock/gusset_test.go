package sock_test

import (
	"fmt"
	"strings"
	"testing"

	"sockwright/internal/fabric"
	"sockwright/internal/pattern"
)

// Computed: gussets after a round turn round by round, with one corner stitch. Ours have one
// round more before the first decrease, which twists the picked-up stitches.
func TestGussetAgainstTable(t *testing.T) {
	for n, file := range map[int]string{64: "gusset-84.txt", 60: "gusset-80.txt"} {
		draft, plan := graded(t, wanted{stitches: []int{n}, more: "[heel]\nkind = \"round\""}.text())
		rounds := knitted(t, draft, plan, 0).courses("Gusset", true)
		want := table(t, file)
		if len(rounds) != len(want) {
			t.Fatalf("%d stitches: the gusset has %d rounds, want %d", n, len(rounds), len(want))
		}
		for i, row := range want {
			r := rounds[i]
			dec := r.at(fabric.K2tog, 0) >= 0
			if all := number(t, row[len(row)-1]); len(r.kinds) != all || dec != strings.HasPrefix(row[1], "dec") {
				t.Errorf("%d stitches, round %s: %d, want %s", n, row[0], len(r.kinds), strings.Join(row[1:], " "))
			}
		}
	}
}

// Common practice, and for four rounds running stocking no. 1, Cycling and Shooting
// Knickerbocker Stockings, Macmillan, 1896: in which rounds a gusset is decreased.
func TestGussetRates(t *testing.T) {
	for rate, rounds := range map[string]func(j int) int{ // of decrease round j, from 1
		"every-2nd": func(j int) int { return 2*j + 1 },
		"every-3rd": func(j int) int { return 3 * j },
		"four-then-2nd": func(j int) int {
			if j <= 4 {
				return j + 2
			}
			return 2*j - 2
		},
	} {
		for _, kind := range []string{"instep", "sole"} {
			for _, method := range []string{"double-pointed", "magic-loop"} {
				// 18, 10, 6 and 5 decrease rounds, and in the smallest sizes 4 or fewer
				more := fmt.Sprintf("[needles]\nmethod = %q\n[heel]\nkind = \"square\"\n[gusset]\nkind = %q\nrate = %q\n", method, kind, rate)
				draft, plan := graded(t, wanted{stitches: []int{24, 28, 32, 64, 96, 120}, foot: "14 in", more: more}.text())
				for size := range 6 {
					c := knitted(t, draft, plan, size)
					n, got := 0, c.courses("Gusset", true)
					for i, r := range got {
						if r.at(fabric.K2tog, 0) < 0 {
							continue
						}
						n++
						if i+1 != rounds(n) || r.at(fabric.Ssk, 0) < 0 {
							t.Errorf("%s, %s, size %d: decrease round %d is round %d, want %d", kind, rate, size, n, i+1, rounds(n))
						}
					}
					if n != plan.Of("gusset.decrease_rounds", size) || len(got) != plan.Of("gusset.rounds", size) || len(got) != rounds(n) {
						t.Errorf("%s, %s, size %d: %d decrease rounds in %d rounds, planned %d in %d", kind, rate, size, n, len(got), plan.Of("gusset.decrease_rounds", size), plan.Of("gusset.rounds", size))
					}
				}
			}
		}
	}
}

// Computed: a gusset on the sole, 84 to 64 stitches along a panel of 12 of the 18 that the
// heel leaves. The panel keeps its width: the decreases stand beside it in every round.
func TestGussetOnSole(t *testing.T) {
	draft, plan := graded(t, wanted{stitches: []int{64}, more: "[heel]\nkind = \"round\"\n[gusset]\nkind = \"sole\""}.text())
	numbers(t, plan, 0, map[string]int{"heel.stitches_left": 18, "gusset.panel_stitches": 12, "gusset.stitches": 84, "gusset.decrease_rounds": 10, "foot.stitches": 64})
	for i, r := range knitted(t, draft, plan, 0).courses("Gusset", true) {
		ssk, k2tog := r.at(fabric.Ssk, 0), r.at(fabric.K2tog, 0)
		if ssk >= 0 && (ssk != 6 || len(r.kinds)-k2tog-1 != 6) {
			t.Errorf("round %d: %d stitches before the ssk and %d behind the k2tog, want 6 and 6", i+1, ssk, len(r.kinds)-k2tog-1)
		}
	}
}

// A foot that is wider or narrower than the leg, as published ones are (leg 80 and foot 76 in
// the Lichfield Mercury, 12 March 1915; leg 60 and foot 56 in Knitting Instructions for Field
// Comforts, Imperial Order Daughters of the Empire, Toronto, 1939): the gusset takes more or
// fewer decrease rounds, and instep and sole are evened out before the toe.
func TestFootUnlikeLeg(t *testing.T) {
	for _, x := range []struct{ leg, more, foot int }{{80, -4, 76}, {60, -4, 56}, {64, 4, 68}, {64, 8, 72}} {
		for _, method := range []string{"double-pointed", "two-circulars"} {
			text := fmt.Sprintf("[needles]\nmethod = %q\n[heel]\nkind = \"round\"\n[gusset]\nfoot_stitches = %d\n", method, x.more)
			draft, plan := graded(t, wanted{stitches: []int{x.leg}, more: text}.text())
			numbers(t, plan, 0, map[string]int{"leg.stitches": x.leg, "foot.stitches": x.foot})
			if got, want := plan.Of("gusset.decrease_rounds", 0), (plan.Of("gusset.stitches", 0)-x.foot)/2; got != want {
				t.Errorf("leg %d, foot %d: %d decrease rounds, want %d", x.leg, x.foot, got, want)
			}
			knitted(t, draft, plan, 0)
		}
	}
}

// Computed: a gusset on one side, 84 to 64 stitches a stitch at a time. The right sock's
// decreases stand a stitch beyond the instep where its big toe is, the left sock's a stitch
// before it, and the other side has none.
func TestGussetOnOneSide(t *testing.T) {
	for _, method := range []string{"double-pointed", "magic-loop", "two-circulars"} {
		for side, beyond := range map[string]pattern.Sock{"inner": pattern.RightSock, "outer": pattern.LeftSock} {
			for rate, every := range map[string]int{"every": 1, "every-2nd": 2} {
				draft, plan := graded(t, wanted{stitches: []int{64}, foot: "12 in", more: fmt.Sprintf("[needles]\nmethod = %q\n[heel]\nkind = \"round\"\n[gusset]\nkind = \"one-side\"\nside = %q\nrate = %q\n", method, side, rate)}.text())
				numbers(t, plan, 0, map[string]int{"gusset.stitches": 84, "gusset.decrease_rounds": 20, "gusset.rounds": 2 + 20*every, "foot.stitches": 64})
				p := draft.Build(plan)
				for _, sock := range []pattern.Sock{pattern.RightSock, pattern.LeftSock} {
					kind, other := fabric.Ssk, fabric.K2tog
					if sock != beyond {
						kind, other = other, kind
					}
					n := 0
					for i, r := range knittedAs(t, p, 0, sock).courses("Gusset", true) {
						at := r.at(kind, 0)
						if dec := i >= 2 && (i-2)%every == 0; dec != (at >= 0) || r.at(other, 0) >= 0 || r.at(kind, 1) >= 0 {
							t.Fatalf("%s, %s, %s: round %d has not its one decrease: %v", method, side, rate, i+1, r.kinds)
						}
						if at < 0 {
							continue
						}
						n++
						if fromInstep := at - 32; kind == fabric.Ssk && fromInstep != 1 || kind == fabric.K2tog && len(r.kinds)-1-at != 1 {
							t.Errorf("%s, %s, %s: decrease %d is stitch %d of %d", method, side, rate, n, at+1, len(r.kinds))
						}
						if len(r.kinds) != 84-n {
							t.Errorf("%s, %s, %s: decrease %d leaves %d stitches, want %d", method, side, rate, n, len(r.kinds), 84-n)
						}
					}
					if n != 20 {
						t.Errorf("%s, %s, %s: %d decreases", method, side, rate, n)
					}
				}
			}
		}
	}
}

// Computed: a gusset of increases on one side alone, as long as one on both: 24 rounds from 64
// to 88, a stitch in each, at the side of the big toe or of the little one.
func TestGussetIncreasedOnOneSide(t *testing.T) {
	for side, before := range map[string]pattern.Sock{"inner": pattern.LeftSock, "outer": pattern.RightSock} {
		for _, method := range []string{"double-pointed", "magic-loop"} {
			draft, plan := graded(t, "direction = \"toe-up\"\n"+wanted{stitches: []int{64}, foot: "12 in", more: fmt.Sprintf("[needles]\nmethod = %q\n[heel]\nkind = \"cup\"\n[gusset]\nside = %q\n[pin]\n\"heel.stitches\" = 32\n\"heel.flap_rows\" = 24\n", method, side)}.text())
			numbers(t, plan, 0, map[string]int{"heel.gusset_stitches": 12, "gusset.rounds": 24, "heel.stitches": 32})
			p := draft.Build(plan)
			for _, sock := range []pattern.Sock{pattern.RightSock, pattern.LeftSock} {
				rounds := knittedAs(t, p, 0, sock).courses("Gusset", true)
				if len(rounds) != 24 {
					t.Fatalf("%s, %s: %d rounds, want 24", method, side, len(rounds))
				}
				for i, r := range rounds {
					want, kind := 1, fabric.LiftRight // behind the first stitch of the sole
					if sock != before {
						want, kind = 32+i-1, fabric.LiftLeft // before its last one
					}
					if at := r.at(kind, 0); at != want || r.at(kind, 1) >= 0 || len(r.kinds) != 65+i {
						t.Errorf("%s, %s: round %d has its increase at %d of %d, want %d of %d", method, side, i+1, at, len(r.kinds), want, 65+i)
					}
				}
			}
		}
	}
}

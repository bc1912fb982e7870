package sock_test

import (
	"fmt"
	"strings"
	"testing"

	"sockwright/internal/fabric"
	"sockwright/internal/pattern"
)

// A turnRow is what a row of a turn does: stitches before its decrease, the slipped one
// too, stitches behind it, and what then waits beyond and is live in all.
type turnRow struct {
	wrong         bool
	before, after int
	beyond, live  int
}

// turnRows reads the rows of a turn over n stitches off the cloth.
func turnRows(t *testing.T, c cloth, section string, n int) (out []turnRow) {
	t.Helper()
	other := 0 // waiting on the side that the row leaves behind
	for i, r := range c.courses(section, false) {
		kind := fabric.Ssk
		if r.wrong {
			kind = fabric.P2tog
		}
		at := r.at(kind, 0)
		if at < 0 || r.at(kind, 1) >= 0 {
			t.Fatalf("row %d of the turn has not one decrease: %v", i+1, r.kinds)
		}
		x := turnRow{wrong: r.wrong, before: at + 1, after: len(r.kinds) - at - 1, live: n - i - 1}
		x.beyond = x.live - other - 1 - len(r.kinds)
		other = x.beyond
		out = append(out, x)
	}
	return out
}

// Computed: round, V and square turns, and the short rows of a band heel, row by row.
func TestTurnsRowByRow(t *testing.T) {
	for _, x := range []struct{ file, heel string }{
		{"round-heel", "kind = \"round\""},
		{"v-heel", "kind = \"v\""},
		{"square-heel-plain", "kind = \"square\""},
		{"square-heel-outside", "kind = \"square\"\nform = \"outside-joint\""},
		{"square-heel-outside", "kind = \"band\"\nform = \"short-rows\""},
	} {
		for _, n := range []int{30, 32} {
			for _, method := range []string{"double-pointed", "two-circulars"} {
				draft, plan := graded(t, wanted{stitches: []int{2 * n}, more: "[needles]\nmethod = \"" + method + "\"\n[heel]\n" + x.heel}.text())
				want := table(t, fmt.Sprintf("%s-%d.txt", x.file, n))
				got := turnRows(t, knitted(t, draft, plan, 0), "Heel turn", n)
				if len(got) != len(want) || plan.Of("heel.turn_rows", 0) != len(want) {
					t.Fatalf("%s of %d: %d rows are knitted and %d planned, want %d", x.file, n, len(got), plan.Of("heel.turn_rows", 0), len(want))
				}
				for i, row := range want {
					w := turnRow{wrong: row[1] == "WS", before: number(t, row[2]), after: number(t, row[3]), beyond: number(t, row[4]), live: number(t, row[5])}
					if got[i] != w {
						t.Errorf("%s of %d, row %s: %+v, want %+v", x.file, n, row[0], got[i], w)
					}
				}
				numbers(t, plan, 0, map[string]int{"heel.stitches_left": number(t, want[len(want)-1][5]), "heel.sole_rounds": len(want)})
			}
		}
	}
}

// Computed: square turns of 14 to 48 stitches, plain and with the joint outside.
func TestSquareTurns(t *testing.T) {
	for _, row := range table(t, "square-turns.txt") {
		h := number(t, row[0])
		for i, form := range []string{"plain", "outside-joint"} {
			draft, plan := graded(t, wanted{stitches: []int{2 * h}, foot: "12 in", more: "[cuff]\nkind = \"k1p1\"\n[heel]\nkind = \"square\"\nform = \"" + form + fmt.Sprintf("\"\n[pin]\n\"leg.stitches\" = %d\n", 2*h)}.text())
			f := row[3+4*i:]
			numbers(t, plan, 0, map[string]int{"heel.stitches": h, "heel.band_stitches": number(t, row[1]), "heel.stitches_left": number(t, f[2]), "heel.turn_rows": number(t, f[3])})
			got := turnRows(t, knitted(t, draft, plan, 0), "Heel turn", h)
			if got[0].before-1 != number(t, f[0]) || got[1].before-1 != number(t, f[1]) || got[0].beyond != got[1].beyond || len(got) != number(t, f[3]) {
				t.Errorf("H %d, %s: the first of %d rows work %d and %d behind the slipped stitch, want %s and %s", h, form, len(got), got[0].before-1, got[1].before-1, f[0], f[1])
			}
		}
	}
}

// Computed: the three forms of a band heel with a band of 10 leave the same and differ in
// where their rows turn. With whole rows first, the flap's and those are as many as stitches
// go, and picking up restores the count without corner stitches.
func TestBandForms(t *testing.T) {
	for _, x := range []struct {
		round int
		form  string
		pin   string
		want  map[string]int
	}{
		{64, "short-rows", "", map[string]int{"heel.flap_rows": 16, "heel.turn_rows": 20, "heel.sole_rounds": 20, "heel.edge_chains": 8, "gusset.corner_stitches": 2, "gusset.pick_up_per_side": 10, "gusset.stitches": 64}},
		{60, "short-rows", "", map[string]int{"heel.flap_rows": 14, "heel.turn_rows": 18, "heel.sole_rounds": 18, "heel.edge_chains": 7, "gusset.corner_stitches": 2, "gusset.pick_up_per_side": 9, "gusset.stitches": 60}},
		{64, "both", "", map[string]int{"heel.flap_rows": 16, "heel.whole_rows": 4, "heel.turn_rows": 16, "heel.sole_rounds": 16, "heel.edge_chains": 10, "gusset.corner_stitches": 0, "gusset.stitches": 64}},
		{60, "both", "\"heel.flap_rows\" = 16\n", map[string]int{"heel.whole_rows": 2, "heel.turn_rows": 16, "heel.edge_chains": 9, "gusset.corner_stitches": 0, "gusset.stitches": 60}},
	} {
		draft, plan := graded(t, wanted{stitches: []int{x.round}, more: "[heel]\nkind = \"band\"\nform = \"" + x.form + "\"\n[pin]\n" + x.pin}.text())
		if draft.Kind("gusset") != "exact" {
			t.Errorf("the form %s has a gusset of the kind %s", x.form, draft.Kind("gusset"))
		}
		numbers(t, plan, 0, map[string]int{"heel.band_stitches": 10, "heel.stitches_left": 12})
		numbers(t, plan, 0, x.want)
		c := knitted(t, draft, plan, 0)
		if x.form != "both" {
			continue
		}
		h := x.round / 2
		rows, whole := append(c.courses("Band", false), c.courses("Heel turn", false)...), plan.Of("heel.whole_rows", 0)
		if len(rows) != whole+plan.Of("heel.turn_rows", 0) {
			t.Errorf("the band has %d rows", len(rows))
		}
		for i, r := range rows[:whole] { // they reach the end of the heel: the slipped stitch and these are all
			if 1+len(r.kinds) != h-i-1 {
				t.Errorf("row %d of the band works %d stitches, want all %d", i+1, 1+len(r.kinds), h-i-1)
			}
		}
		first := rows[whole]
		if at := first.at(fabric.Ssk, 0); at != len(first.kinds)-1 || 1+at != (h-whole-10)/2+10 {
			t.Errorf("the first short row works %d stitches before its decrease, want %d", 1+at, (h-whole-10)/2+10)
		}
	}
}

// A band heel of whole rows has edges longer than what it has lost: nothing is exact there.
func TestExactNeedsShortEdges(t *testing.T) {
	said := refused(t, wanted{stitches: []int{64}, more: "[heel]\nkind = \"band\"\n[gusset]\nkind = \"exact\""}.text())
	if !strings.Contains(said, "a gusset of the kind instep") {
		t.Errorf("the refusal does not say what would do: %s", said)
	}
}

// Computed: round turns of 14 to 48 stitches. A stitch count that is odd comes from a round
// of twice an odd number.
func TestRoundTurns(t *testing.T) {
	for _, row := range table(t, "round-turns.txt") {
		h := number(t, row[0])
		for e := range 4 {
			kind := fmt.Sprintf("kind = \"round\"\npast = %d", e)
			if e == 0 {
				kind = "kind = \"v\""
			} else if e == 1 {
				kind = "kind = \"half-handkerchief\""
			}
			draft, plan := graded(t, wanted{stitches: []int{2 * h}, foot: "12 in", more: "[cuff]\nkind = \"k1p1\"\n[heel]\n" + kind + fmt.Sprintf("\n[pin]\n\"leg.stitches\" = %d\n", 2*h)}.text())
			f := row[1+5*e:]
			numbers(t, plan, 0, map[string]int{"heel.stitches": h, "heel.stitches_left": number(t, f[2]), "heel.turn_rows": number(t, f[3])})
			got := turnRows(t, knitted(t, draft, plan, 0), "Heel turn", h)
			if got[0].before-1 != number(t, f[0]) || got[1].before-1 != number(t, f[1]) || got[0].beyond != got[1].beyond {
				t.Errorf("H %d, e %d: the first rows work %d and %d behind the slipped stitch and leave %d and %d waiting, want %s and %s and as many", h, e, got[0].before-1, got[1].before-1, got[0].beyond, got[1].beyond, f[0], f[1])
			}
			last := got[len(got)-1]
			if short := last.after == 0; short != (f[4] == "yes") || len(got) != number(t, f[3]) || last.beyond != 0 || last.live != number(t, f[2]) {
				t.Errorf("H %d, e %d: %d rows, the last %+v, want %v", h, e, len(got), last, f[:5])
			}
		}
	}
}

// Computed: flap, round turn and gusset of rounds that are multiples of 4. The plain round
// behind the last decrease round is the foot's, and the picked-up stitches are twisted before
// the first, so ours have one round more before and one fewer behind.
func TestRoundHeelGussets(t *testing.T) {
	for _, row := range table(t, "gussets.txt") {
		n := number(t, row[0])
		_, plan := graded(t, wanted{stitches: []int{n}, foot: "12 in", more: "[heel]\nkind = \"round\""}.text())
		want := map[string]int{}
		for i, key := range []string{"leg.stitches", "heel.stitches", "heel.flap_rows", "heel.edge_chains", "gusset.pick_up_per_side", "heel.stitches_left", "gusset.stitches", "gusset.decrease_rounds"} {
			want[key] = number(t, row[i])
		}
		want["gusset.rounds"] = number(t, row[8]) + 1
		numbers(t, plan, 0, want)
	}
}

// Common practice: the rows of the flap in its fabrics, on an even and on an odd number of
// stitches, with the first stitch slipped or not. S is a slipped stitch.
func TestFlapFabrics(t *testing.T) {
	for _, x := range []struct {
		fabric, slip string
		heel         int
		rows         []string
	}{
		{"stockinette", "yes", 10, []string{"Skkkkkkkkk", "Sppppppppp"}},
		{"stockinette", "no", 10, []string{"kkkkkkkkkk", "pppppppppp"}},
		{"slipped", "yes", 10, []string{"SkSkSkSkSk", "Sppppppppp"}},
		{"slipped", "yes", 11, []string{"SkSkSkSkSkk", "Spppppppppp"}},
		{"slipped", "no", 10, []string{"kkSkSkSkSk", "pppppppppp"}},
		{"slipped", "no", 11, []string{"kkSkSkSkSkk", "ppppppppppp"}},
		{"offset", "yes", 10, []string{"SkSkSkSkSk", "Sppppppppp", "SkkSkSkSkk", "Sppppppppp"}},
		{"offset", "yes", 11, []string{"SkSkSkSkSkk", "Spppppppppp", "SkkSkSkSkSk", "Spppppppppp"}},
		{"offset", "no", 10, []string{"kkSkSkSkSk", "pppppppppp", "kkkSkSkSkk", "pppppppppp"}},
		{"garter-edge", "yes", 10, []string{"Skkkkkkkkk", "Skkppppkkk"}},
		{"garter-edge", "no", 10, []string{"kkkkkkkkkk", "kkkppppkkk"}},
		{"rib", "yes", 10, []string{"Skkppkkppk", "Skkppkkppk"}}, // k2, p2 from the center of the back, both ways
		{"rib", "no", 10, []string{"pkkppkkppk", "pkkppkkppk"}},
		{"rib", "yes", 12, []string{"Spkkppkkppkk", "Spkkppkkppkk"}},
	} {
		for _, kind := range []string{"v", "band"} {
			more := fmt.Sprintf("kind = %q\nfabric = %q\n", kind, x.fabric)
			if kind == "band" && x.slip == "no" {
				continue // it always slips
			} else if kind == "v" {
				more += fmt.Sprintf("slip_first = %q\n", x.slip)
			}
			t.Run(fmt.Sprint(kind, x.fabric, x.slip, x.heel), func(t *testing.T) {
				cuff := "k2p2"
				if x.heel%2 != 0 {
					cuff = "k1p1"
				}
				draft, plan := graded(t, wanted{stitches: []int{2 * x.heel}, foot: "6 in", more: fmt.Sprintf("[cuff]\nkind = %q\n[heel]\n%s[pin]\n\"heel.stitches\" = %d\n", cuff, more, x.heel)}.text())
				c := knitted(t, draft, plan, 0)
				rows := c.courses("Heel flap", false)[2:] // behind the set-up rows
				n := plan.Of("heel.flap_rows", 0)
				if len(rows) != n || n%len(x.rows) != 0 || n%2 != 0 {
					t.Fatalf("the flap has %d rows and is planned with %d", len(rows), n)
				}
				if kind == "band" {
					n += plan.Of("heel.band_rows", 0)
				}
				if x.slip == "yes" && plan.Of("heel.edge_chains", 0) != n/2 {
					t.Errorf("%d chains lie along %d rows", plan.Of("heel.edge_chains", 0), n)
				}
				for i, want := range x.rows {
					if got := spelled(flapSteps(c, i+1), x.heel); got != strings.ToLower(want) {
						t.Errorf("row %d is %s, want %s", i+1, got, want)
					}
				}
			})
		}
	}
}

// flapSteps are the steps of a row of the flap.
func flapSteps(c cloth, num int) (steps []pattern.Step) {
	c.p.Each(func(s *pattern.Section, n pattern.Node) {
		if r, ok := n.(*pattern.Row); ok && s.Title == "Heel flap" && r.Label.Name == pattern.Plainly && int(r.Label.Num) == num {
			steps = r.Parts[0].Steps
		}
	})
	return steps
}

// spelled is a row over n stitches, stitch by stitch.
func spelled(steps []pattern.Step, n int) string {
	letter := map[pattern.Op]string{pattern.Knit: "k", pattern.Purl: "p", pattern.Slip: "s"}
	var out string
	for _, s := range steps {
		end := n
		if s.Until == pattern.ToLast {
			end -= int(s.N.In(0))
		}
		switch {
		case s.Op == pattern.Group:
			for len(out) < end {
				out += spelled(s.Body, 0)
			}
		case s.Until == pattern.Times:
			out += strings.Repeat(letter[s.Op], int(s.N.In(0)))
		default:
			out += strings.Repeat(letter[s.Op], end-len(out))
		}
	}
	return out
}

// Edges whose first stitch is not slipped hold as many stitches as lie along them: 32 rows
// of a gauge of 32 stitches and 44 rows hold 23 (computed).
func TestUnslippedEdge(t *testing.T) {
	draft, plan := graded(t, wanted{stitches: []int{64}, more: "[heel]\nkind = \"round\"\nslip_first = \"no\""}.text())
	numbers(t, plan, 0, map[string]int{"heel.flap_rows": 32, "heel.edge_chains": 23, "gusset.pick_up_per_side": 24, "gusset.stitches": 98, "gusset.decrease_rounds": 17})
	knitted(t, draft, plan, 0)
}

// A house rule: the flap is an eighth shorter for a low instep and an eighth longer for a
// high one.
func TestInsteps(t *testing.T) {
	for instep, rows := range map[string]int{"low": 28, "average": 32, "high": 36} {
		draft, plan := graded(t, wanted{stitches: []int{64}, more: "[heel]\nkind = \"round\"\ninstep = \"" + instep + "\""}.text())
		numbers(t, plan, 0, map[string]int{"heel.flap_rows": rows, "heel.edge_chains": rows / 2, "gusset.decrease_rounds": 10 + (rows-32)/2})
		knitted(t, draft, plan, 0)
	}
}

// A flap cannot go on with a rib that is not there.
func TestNoRibToGoOn(t *testing.T) {
	said := refused(t, wanted{stitches: []int{64}, more: "[cuff]\nkind = \"garter\"\n[heel]\nkind = \"round\"\nfabric = \"rib\""}.text())
	if !strings.Contains(said, "another fabric of the flap") {
		t.Errorf("the refusal does not say what would do: %s", said)
	}
}

// A band too narrow is refused with the number that the form of the turn needs.
func TestSquareBandRefused(t *testing.T) {
	for form, fewest := range map[string]string{"plain": "at least 3 stitches", "outside-joint": "at least 2 stitches"} {
		said := refused(t, wanted{stitches: []int{64}, more: "[heel]\nkind = \"square\"\nform = \"" + form + "\"\n[pin]\n\"heel.band_stitches\" = 0\n"}.text())
		if !strings.Contains(said, fewest) {
			t.Errorf("%s: %q, want %q in it", form, said, fewest)
		}
	}
}

// Computed: a common heel of 32 stitches with 4 decrease rows: 28 straight rows and 8 of
// shaping, which leave 30, 28, 26 and 24; 12 are joined to 12, 18 picked up at each side and
// one in each corner, and 3 decrease rounds take 70 to 64. Its seam of 12 stitches, 37.5 mm
// of the sole, is 16 1/2 rounds long.
func TestCommonHeel(t *testing.T) {
	for _, closing := range []string{"graft", "bind-off"} {
		for _, method := range []string{"double-pointed", "magic-loop"} {
			draft, plan := graded(t, wanted{stitches: []int{64}, more: fmt.Sprintf("[needles]\nmethod = %q\n[heel]\nkind = \"common\"\nclosing = %q", method, closing)}.text())
			numbers(t, plan, 0, map[string]int{"heel.flap_rows": 28, "heel.joined_stitches": 12, "heel.stitches_left": 0, "heel.edge_chains": 18, "heel.sole_rounds": 17,
				"gusset.stitches": 70, "gusset.decrease_rounds": 3, "foot.stitches": 64})
			c := knitted(t, draft, plan, 0)
			live := 32
			for i, r := range c.courses("Heel shaping", false) {
				if k2tog, ssk := r.at(fabric.K2tog, 0), r.at(fabric.Ssk, 0); i%2 == 0 {
					if live -= 2; k2tog < 0 || ssk != k2tog+3 || 1+k2tog != len(r.kinds)-ssk-1 {
						t.Errorf("shaping row %d does not decrease on both sides of the middle two: %v", i+1, r.kinds)
					}
				}
				if 1+len(r.kinds) != live {
					t.Errorf("shaping row %d leaves %d stitches, want %d", i+1, 1+len(r.kinds), live)
				}
			}
			if live != 24 {
				t.Errorf("%d stitches are left to join, want 24", live)
			}
		}
	}
	said := refused(t, wanted{stitches: []int{62}, more: "[heel]\nkind = \"common\"\n[pin]\n\"leg.stitches\" = 62\n"}.text())
	if !strings.Contains(said, "a multiple of 4") {
		t.Errorf("the refusal does not say why: %s", said)
	}
}

// Computed: a flap of 20 rows over 32 stitches and a cup that leaves 12 in the middle: 40 rows
// of short rows, 86 stitches after picking up, 11 decrease rounds.
func TestFlapAndCup(t *testing.T) {
	for _, turn := range []string{"wrapped", "twin", "yarn-over", "double-stitch"} {
		for _, method := range []string{"double-pointed", "magic-loop"} {
			draft, plan := graded(t, wanted{stitches: []int{64}, more: fmt.Sprintf("[needles]\nmethod = %q\n[heel]\nkind = \"flap-and-cup\"\nturn = %q\nmiddle = 0.375\n", method, turn)}.text())
			numbers(t, plan, 0, map[string]int{"heel.flap_rows": 20, "heel.turns": 10, "heel.stitches_left": 32, "heel.edge_chains": 10, "heel.sole_rounds": 20, "gusset.stitches": 86, "gusset.decrease_rounds": 11})
			c := knitted(t, draft, plan, 0)
			if narrow, widen := c.courses("Heel cup", false), c.courses("Heel cup, second half", false); len(narrow) != 20 || len(widen) != 20 {
				t.Errorf("the halves of the cup have %d and %d rows, want 20 and 20", len(narrow), len(widen))
			}
		}
	}
}

// A flap may be as high as the heel, measured: 2 1/4 in at 11 rows to the inch is 24 3/4
// rows. It is not asked for in two ways at once.
func TestFlapLength(t *testing.T) {
	text := wanted{stitches: []int{64}, more: "[heel]\nkind = \"round\"\nflap_length = \"2.25 in\"\n"}.text()
	_, plan := graded(t, text)
	numbers(t, plan, 0, map[string]int{"heel.flap_rows": 24, "heel.edge_chains": 12})
	if said := refused(t, text+"instep = \"low\"\n"); !strings.Contains(said, "not in both ways") {
		t.Errorf("the refusal does not say why: %s", said)
	}
}

package sock_test

import (
	"cmp"
	"fmt"
	"slices"
	"testing"

	"sockwright/internal/fabric"
)

// A shortRow is what a row of a short-row heel does: the stitches that it works, how many of
// them with a wrap, the stitch that it wraps, or works with its wrap, counted from the right,
// and how many are then left turned.
type shortRow struct {
	wrong           bool
	works, wrapped  int
	stitch, waiting int
}

// shortRowsOf reads the rows of a heel of short rows over n stitches off the cloth, whose
// stitches are followed from row to row down to the first.
func shortRowsOf(c cloth, n int) (out []shortRow) {
	place := map[int32]int{} // of loops, from the right
	waits := map[int]bool{}
	for _, r := range append(c.courses("Heel", false), c.courses("Heel, second half", false)...) {
		x := shortRow{wrong: r.wrong}
		for i, kind := range r.kinds {
			loop := r.first + int32(i)
			through := c.Fabric.Through(loop)
			at := i + 1 // in row 1
			if len(out) > 0 {
				at = n // where no row has been yet: row 1 left it
			}
			for _, below := range through {
				at = cmp.Or(place[below], at)
			}
			if kind == fabric.Wrap {
				place[through[0]] = at
				if waits[at] = true; len(out) == 0 || x.wrapped == 0 {
					x.stitch = at
				}
				continue
			}
			place[loop] = at
			if x.works++; len(through) > 1 {
				x.wrapped++
				x.stitch = at
				delete(waits, at)
			}
		}
		x.waiting = len(waits)
		out = append(out, x)
	}
	return out
}

// Computed: a short-row heel row by row.
func TestShortRowsRowByRow(t *testing.T) {
	for n, middle := range map[int]int{30: 10, 32: 12} {
		draft, plan := graded(t, wanted{stitches: []int{2 * n}, more: fmt.Sprintf("[needles]\nmethod = \"magic-loop\"\n[heel]\nkind = \"wrapped\"\n[pin]\n\"heel.middle_stitches\" = %d\n", middle)}.text())
		got := shortRowsOf(knitted(t, draft, plan, 0), n)
		want := table(t, fmt.Sprintf("short-rows-%d.txt", n))
		if len(got) != len(want) {
			t.Fatalf("%d rows over %d stitches, want %d", len(got), n, len(want))
		}
		for i, row := range want {
			w := shortRow{wrong: row[1] == "WS", works: number(t, row[2]), wrapped: number(t, row[3]), stitch: number(t, row[4]), waiting: number(t, row[5])}
			if got[i] != w {
				t.Errorf("row %s over %d stitches: %+v, want %+v", row[0], n, got[i], w)
			}
		}
	}
}

// Computed: short-row heels of 14 to 48 stitches.
func TestShortRowHeels(t *testing.T) {
	for _, row := range table(t, "short-rows.txt") {
		h := number(t, row[0])
		draft, plan := graded(t, wanted{stitches: []int{2 * h}, foot: "14 in", more: fmt.Sprintf("[needles]\nmethod = \"magic-loop\"\n[cuff]\nkind = \"k1p1\"\n[heel]\nkind = \"wrapped\"\n[pin]\n\"leg.stitches\" = %d\n", 2*h)}.text())
		numbers(t, plan, 0, map[string]int{"heel.stitches": h, "heel.middle_stitches": number(t, row[1]), "heel.turns": number(t, row[2]), "heel.sole_rounds": number(t, row[6])})
		got := shortRowsOf(knitted(t, draft, plan, 0), h)
		narrowest := slices.MinFunc(got, func(a, b shortRow) int { return a.works - b.works }).works
		if len(got) != number(t, row[3]) || got[0].works != number(t, row[4]) || narrowest != number(t, row[5]) {
			t.Errorf("H %d: %d rows, the first works %d stitches and the narrowest %d, want %s, %s, %s", h, len(got), got[0].works, narrowest, row[3], row[4], row[5])
		}
	}
}

// Computed: a heel of 32 stitches with 4 increased at each side of it before: 66, 68, 70 and
// 72 stitches, 56 short rows over 40 that leave 12, then 70, 68, 66 and 64.
func TestMiniGusset(t *testing.T) {
	draft, plan := graded(t, wanted{stitches: []int{64}, more: "[needles]\nmethod = \"magic-loop\"\n[heel]\nkind = \"wrapped\"\n[gusset]\nkind = \"mini\"\nstitches = 4\n[pin]\n\"heel.middle_stitches\" = 12\n"}.text())
	numbers(t, plan, 0, map[string]int{"heel.turns": 14, "foot.stitches": 64})
	c := knitted(t, draft, plan, 0)
	rows := shortRowsOf(c, 40)
	if len(rows) != 56 || rows[0].works != 39 || rows[27].works != 12 || rows[55].works != 40 {
		t.Errorf("the heel has %d rows, want 56 from 39 stitches to 12 and back to 40", len(rows))
	}
	var counts []int
	for _, r := range c.courses("Small gusset", true) {
		counts = append(counts, len(r.kinds))
	}
	if want := []int{66, 66, 68, 68, 70, 70, 72, 72}; !slices.Equal(counts, want) {
		t.Errorf("the gusset has %v stitches, want %v", counts, want)
	}
}

// Computed: the heel of a sock from the toe up that lies under the foot in a band of 20: 12 or
// 10 rows of it, 6 or 5 stitches picked up at each side, and 16 or 15 of the gusset that wait
// there and go one by one. The table joins the last stitch that is picked up with one of the
// gusset; ours takes that one in by rows too, and has two rows more.
func TestSoleBandRowByRow(t *testing.T) {
	for _, x := range []struct{ heel, band, rows, side, waits int }{{32, 20, 12, 6, 16}, {30, 20, 10, 5, 15}} {
		draft, plan := graded(t, "direction = \"toe-up\"\n"+wanted{stitches: []int{2 * x.heel}, more: fmt.Sprintf("[heel]\nkind = \"sole-band\"\n[pin]\n\"heel.band_stitches\" = %d\n", x.band)}.text())
		numbers(t, plan, 0, map[string]int{"heel.stitches": x.heel, "heel.gusset_stitches": 10, "heel.sole_rounds": x.rows})
		c := knitted(t, draft, plan, 0)
		band := c.courses("Band", false)[2:] // behind the set-up rows
		if len(band) != x.rows {
			t.Errorf("the band has %d rows, want %d", len(band), x.rows)
		}
		for _, r := range band {
			if 1+len(r.kinds) != x.band {
				t.Errorf("a row of the band works %d stitches, want %d", 1+len(r.kinds), x.band)
			}
		}
		back := c.courses("Back of the heel", false)
		if len(back) != 2+2*x.waits {
			t.Fatalf("the back of the heel has %d rows, want two and two for each of %d stitches that wait at a side", len(back), x.waits)
		}
		if one, two := 1+len(back[0].kinds), 1+len(back[1].kinds); one != x.band+x.side || two != x.heel {
			t.Errorf("picking up leaves %d and %d stitches, want %d and %d", one, two, x.band+x.side, x.heel)
		}
		for i, r := range back[2:] {
			kind := fabric.Ssk
			if r.wrong {
				kind = fabric.P2tog
			}
			if at := r.at(kind, 0); r.wrong != (i%2 == 1) || at != x.heel-2 || len(r.kinds) != x.heel-1 {
				t.Errorf("row %d of the back works %d stitches, the decrease is number %d: want %d and the last", i+3, len(r.kinds), at, x.heel-2)
			}
		}
	}
}

// Computed: a cup and a flap up the back of 32 stitches with a gusset of 12 at each side: 88
// stitches, and 24 rows that take them in one by one. The cup of the table turns at the
// outermost heel stitches too; ours leaves them to the gusset, so it has two rows fewer.
func TestCupRowByRow(t *testing.T) {
	draft, plan := graded(t, "direction = \"toe-up\"\n"+wanted{stitches: []int{64}, more: "[heel]\nkind = \"cup\"\nfabric = \"stockinette\"\nheight = 0.75\n[pin]\n\"heel.middle_stitches\" = 10\n\"heel.flap_rows\" = 24\n"}.text())
	numbers(t, plan, 0, map[string]int{"heel.gusset_stitches": 12, "heel.turns": 10, "heel.sole_rounds": 22, "gusset.rounds": 24})
	c := knitted(t, draft, plan, 0)
	gusset := c.courses("Gusset", true)
	if all := len(gusset[23].kinds); len(gusset) != 24 || all != 88 {
		t.Errorf("the gusset has %d stitches after %d rounds, want 88 after 24", all, len(gusset))
	}
	cup := c.courses("Cup of the heel", false)
	for i, r := range cup {
		if works := r.at(fabric.Wrap, 0); i > 0 && works != 29-i { // row 1 works the gusset before it too
			t.Errorf("row %d of the cup works %d stitches, want %d", i+1, works, 29-i)
		}
	}
	flap := c.courses("Heel flap", false)
	if len(cup) != 20 || len(flap) != 24 {
		t.Errorf("%d rows of the cup, want 20, and %d of the flap, want 24", len(cup), len(flap))
	}
	all := 88
	for i, r := range flap {
		if all--; i >= 2 && len(r.kinds) != 31 { // behind the slipped stitch
			t.Errorf("row %d of the flap works %d stitches, want 31", i+1, len(r.kinds))
		}
	}
	if leg := c.courses("Leg", true); all != 64 || len(leg[0].kinds) != all {
		t.Errorf("the flap leaves %d stitches, and the leg has %d, want 64", all, len(leg[0].kinds))
	}
}

// Computed: a heel put in over 32 stitches, round by round. The table picks up two stitches in
// each corner, ours one; both work them away in round 2. Of a heel of 38 stitches, 76 become
// 24 in 13 decrease rounds.
func TestInsertedHeelRoundByRound(t *testing.T) {
	draft, plan := graded(t, wanted{stitches: []int{64}, more: "[heel]\nkind = \"inserted\"\n"}.text())
	rounds, want := knitted(t, draft, plan, 0).courses("Heel", true), table(t, "inserted-heel-32.txt")
	if len(rounds) != len(want) || plan.Of("heel.sole_rounds", 0) != len(want)+1 { // and the graft
		t.Fatalf("the heel has %d rounds and lies under %d, want %d", len(rounds), plan.Of("heel.sole_rounds", 0), len(want))
	}
	for i, row := range want {
		n := number(t, row[1])
		if i == 0 {
			n -= 2
		}
		if len(rounds[i].kinds) != n {
			t.Errorf("round %s leaves %d stitches, want %d", row[0], len(rounds[i].kinds), n)
		}
	}
	draft, plan = graded(t, wanted{stitches: []int{64}, more: "[heel]\nkind = \"inserted\"\nshare = 0.6\n[pin]\n\"heel.grafted_stitches\" = 24\n"}.text())
	numbers(t, plan, 0, map[string]int{"heel.stitches": 38, "heel.decrease_rounds": 13})
	knitted(t, draft, plan, 0)
}

// Computed: 88 stitches of a calf to 64 in 100 rounds: 12 times, 4 of them in the ninth round
// and 8 in the eighth. The table spreads the longer ones over all; ours lie on the side of the
// calf, where the Encyclopedia of Needlework, D.M.C., 1886, has the wider ones, too.
func TestCalfRoundByRound(t *testing.T) {
	draft, plan := graded(t, wanted{stitches: []int{64}, more: "[leg]\nkind = \"calf\"\n[pin]\n\"calf.stitches\" = 88\n\"leg.rounds\" = 200\n"}.text())
	numbers(t, plan, 0, map[string]int{"calf.shaping_rounds": 12, "calf.rounds": 100})
	var at, left []int
	for i, r := range knitted(t, draft, plan, 0).courses("Leg", true) {
		if r.at(fabric.Ssk, 0) >= 0 {
			at, left = append(at, i), append(left, len(r.kinds))
		}
	}
	if want := []int{86, 84, 82, 80, 78, 76, 74, 72, 70, 68, 66, 64}; !slices.Equal(left, want) {
		t.Errorf("the decrease rounds leave %v, want %v", left, want)
	}
	var intervals []int
	for i := 1; i < len(at); i++ {
		intervals = append(intervals, at[i]-at[i-1])
	}
	if want := []int{9, 9, 9, 9, 8, 8, 8, 8, 8, 8, 8}; !slices.Equal(intervals, want) { // and 8 after the last: 100
		t.Errorf("the decrease rounds are %v rounds apart, want %v", intervals, want)
	}
}

// Computed: rounds between the heel and the toe of a foot of 23 cm at 44 rows to 10 cm, which
// is 101, with a toe of 20 rounds and its graft.
func TestRoundsOfFoot(t *testing.T) {
	for _, x := range []struct {
		direction, heel string
		want            map[string]int
	}{
		{"cuff-down", "kind = \"round\"", map[string]int{"heel.sole_rounds": 14, "foot.rounds": 66, "gusset.decrease_rounds": 10}},
		{"cuff-down", "kind = \"square\"", map[string]int{"heel.sole_rounds": 22, "foot.rounds": 58, "gusset.decrease_rounds": 6}},
		{"cuff-down", "kind = \"v\"", map[string]int{"heel.sole_rounds": 16, "foot.rounds": 64, "gusset.decrease_rounds": 9}},
		{"cuff-down", "kind = \"wrapped\"\nmiddle = 0.375", map[string]int{"heel.sole_rounds": 20, "foot.rounds": 60}},
		{"cuff-down", "kind = \"inserted\"", map[string]int{"heel.sole_rounds": 22, "foot.rounds": 58}},
		{"cuff-down", "kind = \"common\"", map[string]int{"heel.sole_rounds": 17, "foot.rounds": 63, "gusset.decrease_rounds": 3}},
	} {
		draft, plan := graded(t, fmt.Sprintf("title = \"Slate Quay\"\ndirection = %q\n[gauge]\nover = \"10 cm\"\nstitches = 32\nrows = 44\n[ease]\ngirth = \"0 %%\"\nlength = \"0 %%\"\n[[sizes.own]]\nname = \"1\"\nfoot_girth = \"20 cm\"\nfoot_length = \"23 cm\"\n[heel]\n%s\n", x.direction, x.heel))
		numbers(t, plan, 0, map[string]int{"foot.stitches": 64, "foot.length_rounds": 101, "toe.rounds": 20})
		numbers(t, plan, 0, x.want)
		knitted(t, draft, plan, 0)
	}
}

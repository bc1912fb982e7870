package witness

import (
	"slices"
	"strings"
	"testing"
)

// A fault changes words of a pattern, and everything that is wrong then.
type fault struct {
	old, new string
	wrong    []string
}

// A small pattern is right as it stands, and wrong with each fault.
type small struct {
	name   string
	text   string
	final  int
	faults []fault
}

// found returns everything wrong with a text.
func found(t *testing.T, text string) []string {
	t.Helper()
	var all []string
	for _, w := range run(t, text).Wrong {
		all = append(all, w.String())
	}
	return all
}

// check works the pattern as it stands and with each of its faults.
func (p small) check(t *testing.T) {
	t.Run(p.name, func(t *testing.T) {
		r := run(t, p.text)
		right(t, r)
		if r.Final[0] != p.final {
			t.Errorf("final %d sts, want %d", r.Final[0], p.final)
		}
		for _, f := range p.faults {
			if !strings.Contains(p.text, f.old) {
				t.Errorf("no %q in the pattern", f.old)
				continue
			}
			if got := found(t, strings.Replace(p.text, f.old, f.new, 1)); !slices.Equal(got, f.wrong) {
				t.Errorf("%q for %q:\ngot  %q\nwant %q", f.new, f.old, got, f.wrong)
			}
		}
	})
}

// shortHeel is a heel over 16 of 32 sts, with two turns at each side.
const shortHeel = `CO 32 sts. Join to work in the round without twisting. The rnd begins at the side, before the heel sts.
Knit 2 rnds.
The first 16 sts of the rnd are worked back and forth; the other 16 sts rest.
Row 1 (RS): k15, TURN.
Row 2 (WS): p14, TURN.
Row 3 (RS): k to 1 st before WAITS, TURN.
Row 4 (WS): p to 1 st before WAITS, TURN.
Row 5 (RS): k to WAITS, kCLOSE, kCLOSE, turn.
Row 6 (WS): p to WAITS, pCLOSE, pCLOSE, turn.
Work in the round again over all 32 sts. The rnd begins at the side, before the heel sts.
BO all 32 sts in pattern.
`

func TestShortHeels(t *testing.T) {
	for _, k := range []struct{ turn, waits, closing, other, open, mixed string }{
		{"wrap and turn", "wrapped st", "1 with its wrap", "twin", "wraps", "a wrapped st, not a twin"},
		{"make twin, turn", "twin", "1 with its twin", "yo", "twins", "a twin, not a st with a yo"},
		{"turn, yo", "yo", "1 with its yo", "wrapped st", "yos of turns", "a st with a yo, not a wrapped st"},
		{"turn, ds", "ds", " ds", "yo", "double sts", "a double st, not a st with a yo"},
	} {
		text := shortHeel
		if k.turn == "turn, ds" { // the st just worked is doubled
			text = strings.NewReplacer("k15, TURN", "k16, TURN", "p14, TURN", "p15, TURN", "1 st before ", "").Replace(text)
		}
		text = strings.NewReplacer("TURN", k.turn, "WAITS", k.waits, "CLOSE", k.closing).Replace(text)
		small{k.turn, text, 32, []fault{
			{", p" + k.closing + ", p" + k.closing + ", turn", ", p" + k.closing + ", turn", []string{
				"line 10: " + k.open + " never worked: stated 0, actual 1",
				"line 10: the sts worked after the beginning of the rnd, at the side, before the heel sts: stated 0, actual 1"}},
			{"p" + k.closing + ", p" + k.closing, "p" + k.closing + ", p1", []string{"line 9: a turned st is worked without what was left on it: stated 0, actual 0"}},
			{"k" + k.closing + ", k" + k.closing, "k2tog", []string{
				"line 8: a turned st is worked without what was left on it: stated 0, actual 0",
				"line 10: the sts of the round: stated 32, actual 31", "line 11: the sts to close: stated 32, actual 31"}},
			{"k to " + k.waits + ", k", "k to " + k.other + ", k", []string{"line 8: what waits beyond the gap is " + k.mixed + ": stated 0, actual 0"}},
			{"p" + k.closing + ", turn", "p" + k.closing + ", p to gap, turn", []string{"line 9: there is no gap ahead: stated 0, actual 0"}},
			{"p" + k.closing + ", turn", "p" + k.closing + ", p" + k.closing + ", turn", []string{"line 9: there are too few sts: stated 17, actual 16"}},
		}}.check(t)
	}
}

func TestWasteHeel(t *testing.T) {
	small{"waste-yarn heel", `CO 32 sts. Join to work in the round without twisting. The rnd begins at the side, before the heel sts.
Knit 2 rnds.
Next rnd: k16 with waste yarn and once more with the sock yarn, k16.
Knit 2 rnds.
BO all 32 sts in pattern.
Take out the waste yarn and put the 16 sts below it and the 16 sts above it on needles. The rnd begins at the side, before the heel sts.
Knit 2 rnds.
Draw the yarn twice through the 32 sts and pull them together.
`, 32, []fault{
		{"the 16 sts above", "the 15 sts above", []string{"line 6: the sts at the waste yarn: stated 15, actual 16"}},
		{"Next rnd: k16 with waste yarn and once more with the sock yarn, k16.", "Next rnd: k32.", []string{
			"line 6: the sts at the waste yarn: stated 16, actual 0",
			"line 8: the sts to close: stated 32, actual 0"}},
		{"\nKnit 2 rnds.\nBO", "\nNext rnd: k16 with waste yarn and once more with the sock yarn, k16.\nBO", []string{"line 4: waste yarn holds an opening already: stated 0, actual 16"}},
		{"Take out the waste yarn and put the 16 sts below it and the 16 sts above it on needles. The rnd begins at the side, before the heel sts.\nKnit 2 rnds.\nDraw the yarn twice through the 32 sts and pull them together.", "", []string{
			"line 5: the waste yarn is never taken out: stated 0, actual 16",
		}},
		{"BO all 32", "BO all 30", []string{"line 5: the sts to close: stated 30, actual 32"}},
		{"Draw the yarn twice through the 32", "Draw the yarn twice through the 8", []string{"line 8: the sts to close: stated 8, actual 32"}},
	}}.check(t)
}

func TestStarts(t *testing.T) {
	small{"provisional toe", `CO 8 sts provisionally. Work back and forth in rows.
Row 1 (RS): k7, wrap and turn.
Row 2 (WS): p6, wrap and turn.
Row 3 (RS): k to wrapped st, k1 with its wrap, turn.
Row 4 (WS): p to wrapped st, p1 with its wrap, turn.
Undo the provisional cast-on and take up its 8 sts for the instep.
Work in the round again over all 16 sts. The rnd begins at the side, before the heel sts.
Knit 2 rnds.
BO all 16 sts with the stretchy bind-off.
`, 16, []fault{
		{"its 8 sts", "its 7 sts", []string{"line 6: the sts of the provisional cast-on: stated 7, actual 8"}},
		{"Undo the provisional cast-on and take up its 8 sts for the instep.", "", []string{
			"line 7: the sts of the round: stated 16, actual 8",
			"line 9: the sts to close: stated 16, actual 8",
			"line 9: a provisional cast-on is never undone: stated 0, actual 8"}},
		{"all 16 sts with", "all 14 sts with", []string{"line 9: the sts to close: stated 14, actual 16"}},
	}}.check(t)
	small{"closed start", `CO 8 sts with a closed start, half on each of two needles. The rnd begins at the side, before the instep sts.
Rnd 1: k1, M1R, k2, M1L, k1, k1, M1R, k2, M1L, k1. 4 sts inc'd. 12 sts.
Knit 2 rnds.
BO all 12 sts with the sewn bind-off.
`, 12, []fault{
		{"CO 8", "CO 9", []string{
			"line 1: the sts of two equal halves: stated 9, actual 8",
			"line 2: sts are left at the end: stated 8, actual 9",
			"line 2: the count: stated 12, actual 13",
			"line 4: the sts to close: stated 12, actual 13",
		}},
		{"the sewn", "the tubular", nil},
	}}.check(t)
	small{"picot hem", `CO 16 sts. Join to work in the round without twisting. The rnd begins at the center of the back.
Knit 2 rnds.
Next rnd: *yo, k2tog; rep from * to end.
Knit 2 rnds.
Next rnd: k16 with the co edge.
Next rnd: *k2tog; rep from * to end. 8 sts.
Draw the yarn twice through the 8 sts and pull them together.
`, 8, []fault{
		{"k16 with the co edge", "k15 with the co edge, k1", []string{
			"line 7: the loops of the cast-on edge: stated 15, actual 16",
		}},
		{"through the 8 sts", "through the 6 sts", []string{"line 7: the sts to close: stated 6, actual 8"}},
	}}.check(t)
}

func TestToes(t *testing.T) {
	const cone = `CO 16 sts. Join to work in the round without twisting. The rnd begins at the side, before the instep sts.
Rnd 1: *k2, k2tog; rep from * to end. 4 sts dec'd. 12 sts.
Rnd 2: *k1, k2tog; rep from * to end. 4 sts dec'd. 8 sts.
`
	small{"gathered toe", cone + `Draw the yarn twice through the 8 sts and pull them together.
`, 8, []fault{
		{"4 sts dec'd", "2 sts dec'd", []string{"line 2: the sts dec'd: stated 2, actual 4"}},
		{"through the 8", "through the 9", []string{"line 4: the sts to close: stated 9, actual 8"}},
	}}.check(t)
	small{"grafted toe", cone + `Graft the 4 sts of the instep to the 4 sts of the sole.
`, 8, []fault{
		{"the 4 sts of the sole", "the 3 sts of the sole", []string{
			"line 4: the sts of the instep and of the sole: stated 4, actual 3",
			"line 4: the sts to graft: stated 7, actual 8",
		}},
	}}.check(t)
}

// flap is a heel of 16 sts and 16 rows beside 16 of the instep.
const flap = `CO 32 sts. Join to work in the round without twisting. The rnd begins at the side, before the heel sts.
Knit 2 rnds.
The first 16 sts of the rnd are the heel; the other 16 sts rest for the instep.
Row 1 (RS): sl 1, k15.
Row 2 (WS): sl 1, p15.
Work the last 2 rows 7 more times.
`

func TestEdges(t *testing.T) {
	small{"common heel", flap + `Graft the first 8 sts of the heel to the last 8 sts.
Rnd 1: pick up and k 8 along the left edge of the heel, k16, pick up and k 8 along the right edge of the heel. 32 sts.
BO all 32 sts in pattern.
`, 32, []fault{
		{"the last 8 sts.", "the last 7 sts.", []string{
			"line 7: the two halves of the heel: stated 8, actual 7",
			"line 7: the sts of the heel: stated 15, actual 16",
		}},
		{"pick up and k 8 along the right", "pick up and k 9 along the right", []string{
			"line 8: the sts along the right edge: stated 9, actual 8",
			"line 8: the count: stated 32, actual 33",
			"line 9: the sts to close: stated 32, actual 33",
		}},
	}}.check(t)
	small{"pick up and p", flap + `Row 1 (RS): k16, pick up and k 8 along the left edge of the heel, turn.
Row 2 (WS): p24, pick up and p 8 along the right edge of the heel, turn.
Work in the round again over all 48 sts. The rnd begins at the side, before the heel sts.
BO all 48 sts in pattern.
`, 48, []fault{
		{"pick up and p 8", "pick up and p 9", []string{
			"line 8: the sts along the right edge: stated 9, actual 8",
			"line 9: the sts of the round: stated 48, actual 49",
			"line 10: the sts to close: stated 48, actual 49",
		}},
		{"p24, pick", "p23, pick", []string{
			"line 8: the words have not come to where the sts are picked up: stated 0, actual 0",
			"line 9: the sts of the heel before the beginning of the rnd: stated 0, actual 1",
		}},
	}}.check(t)
}

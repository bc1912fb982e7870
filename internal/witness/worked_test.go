package witness

import (
	"embed"
	"fmt"
	"slices"
	"strings"
	"testing"
)

// Small patterns worked by hand: behind every instruction stand the stitches worked on and all
// live stitches after the last time that it is followed, "Row 1 (RS): K15, turn. | 16 32".
//
//go:embed testdata/worked
var workedFiles embed.FS

// worked returns a pattern's text, and its lines with the counts behind them.
func worked(t *testing.T, name string) (text string, counts map[int][2]int) {
	t.Helper()
	data, err := workedFiles.ReadFile("testdata/worked/" + name + ".txt")
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(string(data), "\n")
	counts = map[int][2]int{}
	for i, l := range lines {
		words, numbers, ok := strings.Cut(l, " | ")
		if !ok {
			continue
		}
		var c [2]int
		if _, err := fmt.Sscan(numbers, &c[0], &c[1]); err != nil {
			t.Fatalf("%s, line %d: %v", name, i+1, err)
		}
		lines[i], counts[i+1] = words, c
	}
	return strings.Join(lines, "\n"), counts
}

// methods name the other ways of turning that leave one stitch turned, with the words that
// they put for those of the wrapped ones.
var methods = map[string]*strings.Replacer{
	"wrap": strings.NewReplacer(),
	"twin": strings.NewReplacer("wrap and turn", "make twin, turn", "wrapped st", "twin", "its wrap", "its twin"),
	"yo":   strings.NewReplacer("wrap and turn", "turn, yo", "wrapped st", "yo", "its wrap", "its yo"),
}

// A workedPattern is one of the files, and what comes of it as a whole.
type workedPattern struct {
	name                string
	final, rows, rounds int
}

var workedPatterns = []workedPattern{
	{"short-rows", 32, 20, 3},
	{"short-rows-in-words", 32, 20, 3},
	{"double-sts", 32, 20, 3},
	{"double-sts-in-words", 32, 20, 3},
	{"round-turn", 30, 4 + 6, 1},
	{"square-turn", 22, 2 + 10, 0},
	{"common-heel", 24, 8, 1},
	{"sole-band", 20, 2 + 4 + 8, 3},
	{"closed-start", 20, 0, 6},
	{"short-row-toe", 16, 8, 4},
	{"inserted-heel", 24, 0, 4 + 5},
	{"gathered-toe", 8, 0, 4},
	{"picot-hem", 16, 0, 8},
}

func TestWorked(t *testing.T) {
	for _, p := range workedPatterns {
		text, counts := worked(t, p.name)
		for method, words := range methods {
			changed := words.Replace(text)
			if method != "wrap" && changed == text {
				continue
			}
			t.Run(p.name+" "+method, func(t *testing.T) {
				r := run(t, changed)
				right(t, r)
				if len(r.Lines) != len(counts) {
					t.Errorf("%d lines of instructions, want %d", len(r.Lines), len(counts))
				}
				for _, l := range r.Lines {
					if want, ok := counts[l.Number]; !ok || want != [2]int{l.Worked[0], l.Total[0]} {
						t.Errorf("line %d: %d of %d sts, want %v: %s", l.Number, l.Worked[0], l.Total[0], want, l.Words)
					}
				}
				if r.Final[0] != p.final || r.Rows[0] != p.rows || r.Rounds[0] != p.rounds {
					t.Errorf("final %d, rows %d, rounds %d, want %d, %d, %d",
						r.Final[0], r.Rows[0], r.Rounds[0], p.final, p.rows, p.rounds)
				}
			})
		}
	}
}

// Where a heel is broken off, as many turned stitches are open as there should be: one more
// with each row of the first half, one fewer with each of the second.
func TestOpenTurns(t *testing.T) {
	open := []int{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 9, 8, 7, 6, 5, 4, 3, 2, 1, 0}
	for name, many := range map[string]string{"short-rows": "wraps", "double-sts": "double sts"} {
		text, _ := worked(t, name)
		for i, n := range open {
			next := fmt.Sprintf("Row %d ", i+2)
			if i+1 == len(open) {
				next = "Work in the round"
			}
			before, _, ok := strings.Cut(text, next)
			if !ok {
				t.Fatalf("%s: no %q", name, next)
			}
			var want []Wrong
			if n > 0 {
				want = []Wrong{{Line: 11 + i, What: many + " never worked", Actual: n}}
			}
			if r := run(t, before); !slices.Equal(r.Wrong, want) {
				t.Errorf("%s after row %d: %v, want %v", name, i+1, r.Wrong, want)
			}
		}
	}
}

// A misprint changes the words of a hand-worked pattern; the first thing found wrong is exact.
type misprint struct {
	pattern  string
	old, new string // the first line with old gets new for it; it goes where new is empty and old is the whole line
	wrong    string
}

func (f misprint) text(t *testing.T) string {
	t.Helper()
	text, _ := worked(t, f.pattern)
	if f.new == "" && strings.Contains(text, "\n"+f.old+"\n") {
		return strings.Replace(text, "\n"+f.old+"\n", "\n\n", 1)
	}
	if !strings.Contains(text, f.old) {
		t.Fatalf("%s has no %q", f.pattern, f.old)
	}
	return strings.Replace(text, f.old, f.new, 1)
}

func TestMisprints(t *testing.T) {
	for _, f := range []misprint{
		// Short rows.
		{"short-rows", "K15, wrap", "K16, wrap", "line 11: the turn has no st beyond it: stated 0, actual 0"},
		{"short-rows", "K15, wrap", "K17, wrap", "line 11: there are too few sts: stated 17, actual 16"},
		{"short-rows", "K15, wrap and turn", "K15", "line 11: sts are left at the end: stated 15, actual 16"},
		{"short-rows", "(WS): P14", "(RS): P14", "line 12: the wrong side faces, not the right: stated 0, actual 0"},
		{"short-rows", "Row 4 (WS): P12, wrap and turn. 16 sts.", "", "line 15: the wrong side faces, not the right: stated 0, actual 0"},
		{"short-rows", "K13, wrap and turn. 16", "K13, wrap and turn. 15", "line 13: the count: stated 15, actual 16"},
		{"short-rows", "K7, wrap and turn", "K7, make twin, turn", "line 21: the next st is a twin, not a wrapped st: stated 0, actual 0"},
		{"short-rows", "K6, k1 with its wrap", "K5, k1 with its wrap", "line 21: the next st is a plain st, not a wrapped st: stated 0, actual 0"},
		{"short-rows", "K6, k1 with its wrap", "K6, k1 with its yo", "line 21: the next st is a wrapped st, not a st with a yo: stated 0, actual 0"},
		{"short-rows", "K6, k1 with its wrap", "K6, k DS", "line 21: the next st is a wrapped st, not a double st: stated 0, actual 0"},
		{"short-rows", "K10, k1 with its wrap", "K to gap, k1 with its twin", "line 25: the next st is a wrapped st, not a twin: stated 0, actual 0"},
		{"short-rows", "K14, k1 with its wrap", "K15", "line 29: a turned st is worked without what was left on it: stated 0, actual 0"},
		{"short-rows", "P15, p1 with its wrap", "P16", "line 30: a turned st is worked without what was left on it: stated 0, actual 0"},
		{"short-rows", "P15, p1 with its wrap, turn", "P15, turn", "line 31: wraps never worked: stated 0, actual 1"},
		{"double-sts", "K16, turn, DS", "K15, turn, DS", "line 12: there are too few sts: stated 15, actual 14"},
		{"double-sts", "K14, k DS", "K15", "line 29: a turned st is worked without what was left on it: stated 0, actual 0"},
		{"double-sts", "K6, k DS", "K5, k DS", "line 21: the next st is a plain st, not a double st: stated 0, actual 0"},
		{"short-rows-in-words", "K to 1 st before wrapped st", "K to 1 st before twin", "line 13: what waits beyond the gap is a wrapped st, not a twin: stated 0, actual 0"},
		{"short-rows-in-words", "P to wrapped st", "P to DS", "line 20: what waits beyond the gap is a wrapped st, not a double st: stated 0, actual 0"},
		{"short-rows-in-words", "K to last 1 st, wrap", "K to gap, wrap", "line 11: there is no gap ahead: stated 0, actual 0"},
		{"short-rows-in-words", "3 more times. 10 rows in all", "2 more times. 10 rows in all", "line 15: the rows in all: stated 10, actual 8"},
		{"short-rows-in-words", "3 more times. 8 rows in all", "2 more times. 6 rows in all", "line 24: wraps never worked: stated 0, actual 2"},
		{"short-rows-in-words", "3 more times. 8 rows in all", "4 more times. 10 rows in all", "line 21: in line 19: the turn has no st beyond it: stated 0, actual 0"},
		{"double-sts-in-words", "[k DS] 2 times", "[k DS] 3 times", "line 21: in line 19: there are too few sts: stated 14, actual 13"},
		{"double-sts-in-words", "K to DS, turn, DS", "K to yo, turn, DS", "line 13: what waits beyond the gap is a double st, not a st with a yo: stated 0, actual 0"},

		{"double-sts", "P15, p DS, turn", "P15, turn", "line 31: double sts never worked: stated 0, actual 1"},
		{"double-sts", "K6, k DS, k DS", "K6, k DS", "line 22: a turned st is worked without what was left on it: stated 0, actual 0"},

		// Turns that decrease.
		{"round-turn", "k9, ssk", "k10, ssk", "line 20: there is no gap ahead: stated 0, actual 0"},
		{"round-turn", "k9, ssk, k1", "k9, ssk, k5", "line 16: there are too few sts: stated 17, actual 16"},
		{"round-turn", "p5, p2tog", "p6, p2tog", "line 21: there is no gap ahead: stated 0, actual 0"},
		{"round-turn", "before gap, ssk, turn", "before gap, ssk, k1, turn", "line 20: there are too few sts: stated 12, actual 11"},
		{"round-turn", "before gap, ssk, turn", "before twin, ssk, turn", "line 20: what waits beyond the gap is a plain st, not a twin: stated 0, actual 0"},
		{"round-turn", "p2tog, p1, turn. 14 sts.", "p2tog, p1, turn. 13 sts.", "line 17: the count: stated 13, actual 14"},
		{"round-turn", "k 2 along the left", "k 3 along the left", "line 25: the sts along the left edge: stated 3, actual 2"},
		{"round-turn", "k 2 along the right", "k 3 along the right", "line 25: the sts along the right edge: stated 3, actual 2"},
		{"square-turn", "k4, ssk", "k5, ssk", "line 23: there are too few sts: stated 7, actual 6"},
		{"square-turn", "Sl 1, p4, p2tog", "Sl 1, p4", "line 16: the count: stated 14, actual 15"},
		{"square-turn", "Row 10 (WS): Sl 1, p4, p2tog, turn. 6 sts.", "", "line 25: the right side faces where a rnd begins: stated 0, actual 0"},
		{"square-turn", "before the heel sts.\nBO", "before the instep sts.\nBO", "line 25: the sts of the heel after the beginning of the rnd: stated 0, actual 6"},
		{"square-turn", "over all 22", "over all 24", "line 25: the sts of the round: stated 24, actual 22"},

		// Heels that are joined, bands under the heel.
		{"common-heel", "first 7", "first 8", "line 15: the two halves of the heel: stated 8, actual 7"},
		{"common-heel", "first 7 sts of the heel to the last 7", "first 6 sts of the heel to the last 6", "line 15: the sts of the heel: stated 12, actual 14"},
		{"common-heel", "k 4 along the right", "k 5 along the right", "line 20: the sts along the right edge: stated 5, actual 4"},
		{"sole-band", "k 2 along the left", "k 3 along the left", "line 19: the sts along the left edge: stated 3, actual 2"},
		{"sole-band", "p 2 along the right", "p 3 along the right", "line 20: the sts along the right edge: stated 3, actual 2"},
		{"sole-band", "2 more times. 8 rows", "3 more times. 10 rows", "line 24: the sts of the round: stated 20, actual 18"},
		{"sole-band", "2 more times. 8 rows", "1 more time. 6 rows", "line 24: the sts of the round: stated 20, actual 22"},
		{"sole-band", "ssk, turn. 1 st dec'd", "turn. 1 st dec'd", "line 21: the sts dec'd: stated 1, actual 0"},

		// Beginnings and ends.
		{"closed-start", "CO 8 sts", "CO 9 sts", "line 5: the sts of two equal halves: stated 9, actual 8"},
		{"closed-start", "M1L, k1; N2", "k1; N2", "line 7: the sts inc'd: stated 4, actual 3"},
		{"closed-start", "10 on N1, 10 on N2", "8 on N1, 12 on N2", "line 10: the sts on N1: stated 8, actual 10"},
		{"closed-start", "BO all 20", "BO all 24", "line 15: the sts to close: stated 24, actual 20"},
		{"short-row-toe", "Undo the provisional cast-on and take up its 8 sts for the instep.", "", "line 15: the sts of the round: stated 16, actual 8"},
		{"short-row-toe", "up its 8 sts", "up its 7 sts", "line 14: the sts of the provisional cast-on: stated 7, actual 8"},
		{"short-row-toe", "8 sts provisionally. Work", "8 sts. Work", "line 14: there is no provisional cast-on to undo here: stated 8, actual 0"},
		{"short-row-toe", "K to twin, k1 with its twin, turn", "K to end, turn", "line 12: a turned st is worked without what was left on it: stated 0, actual 0"},
		{"inserted-heel", "12 with waste yarn", "13 with waste yarn", "line 12: the sts at the waste yarn: stated 12, actual 13"},
		{"inserted-heel", "K12 with waste yarn and once more with the sock yarn", "K12", "line 12: the sts at the waste yarn: stated 12, actual 0"},
		{"inserted-heel", "12 sts above", "11 sts above", "line 12: the sts at the waste yarn: stated 11, actual 12"},
		{"inserted-heel", "BO all 24 sts with the tubular bind-off.", "", "line 12: sts are still on the needles: stated 0, actual 24"},
		{"inserted-heel", "first 8 sts of the heel to the last 8", "first 7 sts of the heel to the last 9", "line 18: the two halves of the heel: stated 7, actual 9"},
		{"inserted-heel", "first 8 sts of the heel to the last 8", "first 7 sts of the heel to the last 7", "line 18: the sts of the heel: stated 14, actual 16"},
		{"gathered-toe", "twice through the 8", "twice through the 9", "line 10: the sts to close: stated 9, actual 8"},
		{"gathered-toe", "[K4, k2tog] 4", "[K4, k2tog] 5", "line 6: there are too few sts: stated 28, actual 24"},
		{"picot-hem", "Knit 3 rnds", "Knit 2 rnds", "line 8: the rnds in all: stated 7, actual 6"},
		{"picot-hem", "*Yo, k2tog", "*Yo, k3tog", "line 7: there are too few sts: stated 18, actual 16"},
		{"picot-hem", "K16 with the CO edge", "K15 with the CO edge, k1", "line 10: the loops of the cast-on edge: stated 15, actual 16"},
		{"picot-hem", "K16 with the CO edge", "K17 with the CO edge", "line 9: there are too few sts: stated 17, actual 16"},
	} {
		t.Run(f.pattern+" "+f.old+" to "+f.new, func(t *testing.T) {
			r := run(t, f.text(t))
			if len(r.Wrong) == 0 {
				t.Fatal("nothing is wrong")
			}
			if got := r.Wrong[0].String(); got != f.wrong {
				t.Errorf("got  %s\nwant %s", got, f.wrong)
			}
		})
	}
}

// Short passages: steps, beginnings, ends. The first thing found wrong is exact.
func TestPassages(t *testing.T) {
	apart := "The first 8 sts of the rnd are the heel; the other 8 sts rest for the instep."
	again := "Work in the round again over all 16 sts. The rnd begins at the side, before the heel sts."
	flat := func(lines ...string) string { return in("16", before, append([]string{apart}, lines...)...) }
	start := func(castOn string, lines ...string) string {
		return "A SOCK\n\nLEG\n\n" + castOn + "\n" + strings.Join(lines, "\n") + "\n"
	}
	for _, test := range []struct {
		name, text string
		final      int
		wrong      []string
	}{
		{"three into one", in("16", before, "Rnd 1: K3tog, sssk, s2kp2, p3tog, k4. 8 sts dec'd. 8 sts."), 8, nil},
		{"skp", in("16", before, "Rnd 1: *Skp, k2; rep from * to end. 4 sts dec'd. 12 sts."), 12, nil},
		{"one into two", in("16", before, "Rnd 1: Kfb, pfb, k14. 2 sts inc'd. 18 sts."), 18, nil},
		{"made sts", in("16", before, "Rnd 1: K1, LLI, k1, RLI, k1, M1L, k1, M1R, yo, k12. 5 sts inc'd. 21 sts."), 21, nil},
		{"slipped with the yarn in front", in("16", before, "Rnd 1: *K1, sl 1 wyif; rep from * to end. 16 sts."), 16, nil},
		{"too few for three", in("16", before, "Rnd 1: K14, k3tog."), 15,
			[]string{"line 6: there are too few sts: stated 17, actual 16"}},
		{"too few for two of one", in("16", before, "Rnd 1: K16, kfb."), 16,
			[]string{"line 6: there are too few sts: stated 17, actual 16"}},

		{"flat", start("CO 8 sts. Work back and forth in rows.", "Row 1 (RS): K to end.", "Row 2 (WS): P to end. 8 sts."), 8, nil},
		{"flat begins with the RS", start("CO 8 sts. Work back and forth in rows.", "Row 1 (WS): P to end."), 8,
			[]string{"line 6: the right side faces, not the wrong: stated 0, actual 0"}},
		{"provisional in the round", start("CO 8 sts provisionally. Join to work in the round without twisting. The rnd begins "+before+".",
			"Rnd 1: *K1, yo; rep from * to end. 16 sts."), 16, nil},
		{"ring", start("CO 8 sts as a ring that is drawn shut. The rnd begins "+before+".", "Rnd 1: *K1, M1L; rep from * to end. 16 sts."), 16, nil},
		{"never undone", start("CO 8 sts provisionally. Work back and forth in rows.", "Row 1 (RS): K to end.", "Row 2 (WS): P to end."), 8,
			[]string{"line 7: a provisional cast-on is never undone: stated 0, actual 8"}},

		{"in pattern", in("16", before, "BO all 16 sts in pattern."), 16, nil},
		{"stretchy", in("16", before, "BO all 16 sts with the stretchy bind-off."), 16, nil},
		{"sewn", in("16", before, "BO all 16 sts with the sewn bind-off."), 16, nil},
		{"tubular", in("16", before, "BO all 16 sts with the tubular bind-off."), 16, nil},
		{"two needles", in("16", before, "Bind off the 8 sts of the instep together with the 8 sts of the sole."), 16, nil},
		{"two needles that differ", in("16", before, "Bind off the 9 sts of the instep together with the 7 sts of the sole."), 16,
			[]string{"line 6: the sts of the instep and of the sole: stated 9, actual 7"}},
		{"halves that differ", in("16", before, "Graft the 7 sts of the instep to the 9 sts of the sole."), 16,
			[]string{"line 6: the sts of the instep and of the sole: stated 7, actual 9"}},
		{"bound off in the middle", in("16", before, "Partial rnd: K5.", "BO all 16 sts in pattern."), 16,
			[]string{"line 7: the rnd is not finished: stated 0, actual 5"}},
		{"bound off while flat", flat("BO all 16 sts in pattern."), 16,
			[]string{"line 7: the heel is not joined: stated 0, actual 0"}},
		{"heel halves bound off", flat("Row 1 (RS): K to end.", "Row 2 (WS): P to end.",
			"Bind off the first 4 sts of the heel together with the last 4 sts."), 8, nil},

		{"waste yarn stays", in("16", before, "Rnd 1: K8 with waste yarn and once more with the sock yarn, k to end.", "BO all 16 sts in pattern."), 16,
			[]string{"line 7: the waste yarn is never taken out: stated 0, actual 8"}},
		{"no waste yarn", in("16", before, "BO all 16 sts in pattern.",
			"Take out the waste yarn and put the 8 sts below it and the 8 sts above it on needles. The rnd begins "+before+"."), 16,
			[]string{"line 7: the sts at the waste yarn: stated 8, actual 0"}},

		{"rejoined in the round", in("16", before, again), 16,
			[]string{"line 6: the work goes in the round already: stated 0, actual 0"}},
		{"undone in the round", in("16", before, "Undo the provisional cast-on and take up its 16 sts for the instep."), 16,
			[]string{"line 6: there is no provisional cast-on to undo here: stated 16, actual 0"}},
		{"the first half of the rnd", in("16", after, "The first 8 sts of the rnd are worked back and forth; the other 8 sts rest.",
			"Row 1 (RS): K to end.", "Row 2 (WS): P to end.", "Work in the round again over all 16 sts. The rnd begins "+after+"."), 16, nil},
		{"the first half goes on elsewhere", in("16", after, "The first 8 sts of the rnd are worked back and forth; the other 8 sts rest.",
			"Row 1 (RS): K to end.", "Row 2 (WS): P to end.", again), 16,
			[]string{"line 9: the sts worked after the beginning of the rnd, at the side, before the instep sts: stated 0, actual 0"}},
		{"picked up with an open wrap", flat("Row 1 (RS): Sl 1, k6, wrap and turn.", "Row 2 (WS): P to end.",
			"Rnd 1: K8, pick up and k 1 in the corner, k8. 17 sts."), 17,
			[]string{"line 9: wraps never worked: stated 0, actual 1"}},
		{"turned twice at a place", flat("Row 1 (RS): K5, turn.", "Row 2 (WS): P to end.", "Row 3 (RS): K5, wrap and turn.",
			"Row 4 (WS): P to end.", "Row 5 (RS): K to wrapped st, k1 with its wrap, k to end.", "Row 6 (WS): P to end.", again), 16, nil},
		{"a gap worked across", flat("Row 1 (RS): K5, turn.", "Row 2 (WS): P to end.", "Row 3 (RS): K to end.", "Row 4 (WS): P to gap."), 16,
			[]string{"line 10: there is no gap ahead: stated 0, actual 0"}},
		{"a repeat to the gap", flat("Row 1 (RS): K6, turn.", "Row 2 (WS): P to end.", "Row 3 (RS): *K1, p1; rep from * to gap, k2.",
			"Row 4 (WS): P to end.", again), 16, nil},
		{"a repeat that passes the gap", flat("Row 1 (RS): K6, turn.", "Row 2 (WS): P to end.", "Row 3 (RS): *K4; rep from * to gap, turn."), 16,
			[]string{"line 9: the repeat does not come out even: stated 4, actual 2"}},
		{"a repeat that uses nothing", flat("Row 1 (RS): K6, turn.", "Row 2 (WS): P to end.", "Row 3 (RS): *M1L; rep from * to gap, turn."), 17,
			[]string{"line 9: the repeat uses no sts: stated 0, actual 6"}},

		{"both socks", in("16", before, "Right sock only:", "Rnd 1: K2tog, k14. 15 sts.", "Left sock only:", "Rnd 1: K14, ssk. 15 sts.",
			"Both socks:", "Rnd 2: Knit. 15 sts."), 15, nil},
		{"the left sock is wrong", in("16", before, "Right sock only:", "Rnd 1: K2tog, k14. 15 sts.", "Left sock only:", "Rnd 1: K14, ssk. 14 sts.",
			"Both socks:", "Rnd 2: Knit. 15 sts."), 15,
			[]string{"line 9: the count: stated 14, actual 15"}},
		{"both socks are wrong once", in("16", before, "Right sock only:", "Rnd 1: K2tog, k14.", "Left sock only:", "Rnd 1: K14, ssk.",
			"Both socks:", "Rnd 2: Knit. 16 sts."), 15,
			[]string{"line 11: the count: stated 16, actual 15"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			r := run(t, test.text)
			if r.Final[0] != test.final {
				t.Errorf("%d sts, want %d", r.Final[0], test.final)
			}
			var got []string
			for _, w := range r.Wrong {
				got = append(got, w.String())
			}
			if len(test.wrong) == 0 && len(got) > 0 || len(test.wrong) > 0 && (len(got) == 0 || got[0] != test.wrong[0]) {
				t.Errorf("got  %q\nwant %q", got, test.wrong)
			}
		})
	}
}

package witness

import (
	_ "embed"
	"slices"
	"strings"
	"testing"
	"time"
)

//go:embed testdata/three-sizes.txt
var threeSizes string

func TestThreeSizes(t *testing.T) {
	r := run(t, threeSizes)
	right(t, r)
	if want := []string{"S", "M", "L"}; !slices.Equal(r.Sizes, want) {
		t.Errorf("sizes %q, want %q", r.Sizes, want)
	}
	for _, test := range []struct {
		begins        string
		worked, total []int
	}{
		{"CO", []int{48, 56, 64}, []int{48, 56, 64}},
		{"Inc rnd", []int{52, 60, 68}, []int{52, 60, 68}},
		{"The first", []int{24, 28, 32}, []int{48, 56, 64}},
		{"Row 1 (RS): Sl", []int{23, 27, 31}, []int{47, 55, 63}},
		{"Row 10", []int{14, 18, 22}, []int{38, 46, 54}},
		{"Row 12", []int{-1, 16, 20}, []int{-1, 44, 52}},
		{"Row 14", []int{-1, -1, 18}, []int{-1, -1, 50}},
		{"Rnd 1: N1: k7", []int{64, 74, 84}, []int{64, 74, 84}},
		{"Knit 0", []int{-1, -1, 64}, []int{-1, -1, 64}},
		{"Work Rnd 1", []int{16, 16, 16}, []int{16, 16, 16}},
	} {
		i := slices.IndexFunc(r.Lines, func(l Line) bool { return strings.HasPrefix(l.Words, test.begins) })
		if i < 0 {
			t.Errorf("no line %q", test.begins)
			continue
		}
		if l := r.Lines[i]; !slices.Equal(l.Worked, test.worked) || !slices.Equal(l.Total, test.total) {
			t.Errorf("%q: %v of %v, want %v of %v", test.begins, l.Worked, l.Total, test.worked, test.total)
		}
	}
	if want := []int{16, 16, 16}; !slices.Equal(r.Final, want) {
		t.Errorf("final %v, want %v", r.Final, want)
	}
	if want := []int{34, 40, 46}; !slices.Equal(r.Rows, want) {
		t.Errorf("rows %v, want %v", r.Rows, want)
	}
}

// Each corruption concerns one size, which must be the one that is named.
func TestThreeSizesCorrupted(t *testing.T) {
	for _, c := range []struct {
		begins, old, new string
		size, what       string
	}{
		{"Work the last rnd", "11", "10", "M", "the rnds in all: stated 12, actual 11"},
		{"Inc rnd", "16)", "17)", "L", "too few sts"},
		{"Inc rnd", "(60", "(61", "M", "the count: stated 61, actual 60"},
		{"Inc rnd", "K12", "K11", "S", "sts are left at the end"},
		{"Dec rnd", "(13", "(14", "M", "too few sts"},
		{"The first", "other 24", "other 26", "S", "the heel and the instep: stated 50, actual 48"},
		{"Work the last 2 rows", "15)", "14)", "L", "the rows in all: stated 32, actual 30"},
		{"Row 12", "(16", "(17", "M", "the count: stated 17, actual 16"},
		{"Row 13", "k14", "k33", "L", "too few sts"},
		{"Row 14", "18", "19", "L", "the count: stated 19, actual 18"},
		{"Partial row", "(7", "(6", "M", "the sts of the heel before the center: stated 8, actual 7"},
		{"Rnd 1: N1: k7", "k 12 (14, 16) along the right", "k 12 (14, 18) along the right", "L", "along the right edge: stated 18, actual 16"},
		{"Rnd 1: N1: k7", "20 (23, 26) on N3", "20 (22, 26) on N3", "M", "the sts on N3: stated 22, actual 23"},
		{"Knit 0", "60", "59", "L", "the rnds in all: stated 59, actual 60"},
		{"Work Rnd 1", "(3", "(2", "M", "the count: stated 16, actual 20"},
	} {
		t.Run(c.begins+" "+c.new, func(t *testing.T) {
			lines := strings.Split(threeSizes, "\n")
			at := slices.IndexFunc(lines, func(l string) bool {
				return strings.HasPrefix(l, c.begins) && strings.Contains(l, c.old)
			})
			if at < 0 {
				t.Fatal("no such line")
			}
			lines[at] = strings.Replace(lines[at], c.old, c.new, 1)
			r := run(t, strings.Join(lines, "\n"))
			if len(r.Wrong) == 0 {
				t.Fatal("nothing is wrong")
			}
			w := r.Wrong[0]
			place := w.Line
			if c.begins == "Partial row" { // which only the next line contradicts
				place--
			}
			if place != at+1 || w.Size != c.size || !strings.Contains(w.String(), c.what) {
				t.Errorf("%v, want line %d, size %s, %q", w, at+1, c.size, c.what)
			}
		})
	}
}

// in wraps lines into a section after a cast-on.
func in(castOn, place string, lines ...string) string {
	return "A SOCK\n\nLEG\n\nCO " + castOn + " sts. Join to work in the round without twisting. The rnd begins " +
		place + ".\n" + strings.Join(lines, "\n") + "\n"
}

const (
	back   = "at the center of the back"
	before = "at the side, before the heel sts"
	after  = "at the side, before the instep sts"
)

func TestWords(t *testing.T) {
	for _, test := range []struct {
		name, text string
		live       int
	}{
		{"brackets", in("20", back, "Rnd 1: [K3, k2tog] twice, [p5] once, *k1; rep from * to end. 2 sts dec'd. 18 sts."), 18},
		{"nested", in("20", back, "Rnd 1: *[K1, p1] 2 times, k2tog, M1R; rep from * to last 2 sts, ssk. 19 sts."), 19},
		{"nothing", in("20", back, "Rnd 1: K0, [k2tog] 0 times, p–, [M1L] – times, k to end."), 20},
		{"markers", in("20", back, "Rnd 1: K5, pm, k to end.", "Rnd 2: K to m, remove m, k1, pm, p to end.",
			"Rnd 3: K6, sm, k to last 1 st, k1.", "Remove the markers.", "Rnd 4: Purl."), 20},
		{"small letters", in("20", back, "rnd 1: k2tog, k to end. 19 sts.", "work the last rnd once more. 18 sts.", "knit 1 rnd."), 18},
		{"rnds twice", in("20", back, "Rnd 1: Knit.", "Knit 3 rnds.", "Work the last 4 rnds twice more. 12 rnds in all. 20 sts."), 20},
		{"label", in("20", back, "Dec rnd: K2tog, k to end.", "Knit 2 rnds.", "Work the Dec rnd once more. 4 rnds in all. 18 sts.",
			"Work Dec rnd again on the next rnd. 17 sts."), 17},
		{"needles", in("20", back, "Arrange the sts: 5 on N1, 10 on N2, 5 on N3.",
			"Rnd 1: N1: k to last 2 sts, k2tog; N2: [k5, M1L] 2 times; N3: knit. 21 sts: 4 on N1, 12 on N2, 5 on N3.",
			"Rnd 2: *K1, k2tog; rep from * to end. 14 sts.",
			"Arrange the sts: 4 on N1, 6 on N2, 4 on N3."), 14},
		{"a count lays out", in("20", back, "Rnd 1: Knit. 20 sts: 5 on N1, 10 on N2, 5 on N3.", "Rnd 2: N1: k5; N2: k10; N3: k5."), 20},
		{"plain needles lay out", in("20", back, "Rnd 1: N1: k5; N2: k10; N3: k to end.", "Rnd 2: N1: knit; N2: knit; N3: knit. 20 sts: 5 on N1, 10 on N2, 5 on N3."), 20},
		{"even decreases keep the needles", in("24", back, "Arrange the sts: 6 on N1, 12 on N2, 6 on N3.",
			"Dec rnd: *K1, k2tog; rep from * to end. 8 sts dec'd. 16 sts: 4 on N1, 8 on N2, 4 on N3."), 16},
		{"heel from the side before it", in("20", before, "Set-up row (RS): K10, turn.",
			"The last 10 sts worked are the heel; the other 10 sts rest for the instep.", "Row 1 (WS): Sl 1, p to end. 10 sts."), 20},
		{"heel at the end of the rnd", in("20", after, "Rnd 1: Knit.",
			"The last 10 sts worked are the heel; the other 10 sts rest for the instep.", "Row 1 (WS): Sl 1, p to end."), 20},
		{"heel after a partial rnd", in("20", after, "Partial rnd: K20.",
			"The last 10 sts worked are the heel; the other 10 sts rest for the instep.", "Row 1 (WS): Sl 1, p to end."), 20},
		{"pick-up from the side", in("20", before, "The first 10 sts of the rnd are the heel; the other 10 sts rest for the instep.",
			"Row 1 (RS): Sl 1, k to end.", "Row 2 (WS): Sl 1, p to end.", "Work the last 2 rows 3 more times. 8 rows in all.",
			"Rnd 1: K10, pick up and k 4 along the left edge of the heel, k10, pick up and k 4 along the right edge of the heel. 28 sts."), 28},
		{"pick-up from the other side", in("20", before, "The first 10 sts of the rnd are the heel; the other 10 sts rest for the instep.",
			"Row 1 (RS): Sl 1, k to end.", "Row 2 (WS): Sl 1, p to end.", "Work the last 2 rows 3 more times. 8 rows in all.",
			"Partial row (RS): Knit.", "The rnd now begins here, at the side, before the instep sts.",
			"Rnd 1: N1: pick up and k 4 along the left edge of the heel; N2: k to end; N3: pick up and k 4 along the right edge of the heel, k10. 28 sts: 4 on N1, 10 on N2, 14 on N3."), 28},
		{"graft at the side", in("20", after, "Knit 1 rnd.", "Graft the 10 sts of the instep to the 10 sts of the sole."), 20},
		{"prose", in("20", back, "Caution: k2 (3, 4) is no step here.", "Knitters differ.", "Working loosely helps.", "NOT A HEADING"), 20},
	} {
		t.Run(test.name, func(t *testing.T) {
			r := run(t, test.text)
			right(t, r)
			if r.Final[0] != test.live {
				t.Errorf("%d sts, want %d", r.Final[0], test.live)
			}
		})
	}
}

func TestWrongWords(t *testing.T) {
	flap := []string{"The first 10 sts of the rnd are the heel; the other 10 sts rest for the instep.",
		"Row 1 (RS): Sl 1, k to end.", "Row 2 (WS): Sl 1, p to end."}
	with := func(lines ...string) string { return in("20", before, append(slices.Clone(flap), lines...)...) }
	for _, test := range []struct {
		text string
		line int
		what string
	}{
		{in("20", back, "Rnd 1: *K3; rep from * to last 4 sts, k4."), 6, "does not come out even"},
		{in("20", back, "Rnd 1: *M1L; rep from * to end."), 6, "the repeat uses no sts"},
		{in("20", back, "Rnd 1: K18, k to last 3 sts."), 6, "fewer sts than are to be left"},
		{in("20", back, "Rnd 1: K19, k2tog."), 6, "too few sts: stated 21, actual 20"},
		{in("20", back, "Rnd 1: K to m, k to end."), 6, "there is no marker ahead"},
		{in("20", back, "Rnd 1: K20, pm.", "Rnd 2: Knit."), 7, "a marker is left at the end"},
		{in("20", back, "Rnd 1 (WS): Purl."), 6, "the right side faces"},
		{in("20", back, "Rnd 1: K5, turn."), 6, "a rnd is not turned"},
		{in("20", back, "Rnd 1: N1: k to end; N2: k5."), 6, "nothing has said how many sts are on N1"},
		{in("20", back, "Rnd 1: K20. 20 sts: 5 on N1, 10 on N2, 6 on N3."), 6, "the sts on the needles: stated 21, actual 20"},
		{in("20", back, "Arrange the sts: 5 on N1, 10 on N2, 4 on N3."), 6, "the sts on the needles: stated 19, actual 20"},
		{in("20", back, "Arrange the sts: 10 on N1, 10 on N2.", "Rnd 1: N1: k10; N2: k5; N3: k5."), 7, "the needles: stated 3, actual 2"},
		{in("20", back, "Partial rnd: K5.", "Rnd 1: Knit."), 7, "the rnd does not begin here"},
		{in("20", back, "Set-up row 1 (RS): K5, turn.", "Set-up row 2 (WS): P10, turn.", "Rnd 1: Knit."), 8, "the rnd does not begin here"},
		{in("20", back, "The first 10 sts of the rnd are the heel; the other 10 sts rest for the instep."), 6, "the beginning of the rnd, at the center of the back"},
		{in("20", back, "Rnd 1: Pick up and k 2 along the left edge of the heel, k to end."), 6, "the sts along the left edge"},
		{in("20", back, "Graft the 10 sts of the instep to the 10 sts of the sole."), 6, "bring the yarn to the side"},
		{in("20", after, "Graft the 8 sts of the instep to the 8 sts of the sole."), 6, "the sts to graft: stated 16, actual 20"},
		{with("Knit 1 rnd."), 9, "a rnd while the heel is flat"},
		{with("Partial row (RS): K3.", "Row 3 (RS): Sl 1, k to end."), 10, "a row begins in the middle of another"},
		{with("Row 3 (RS): Sl 1, k to end. 10 sts: 5 on N1, 5 on N2."), 9, "not on several needles"},
		{with("The rnd now begins here, at the center of the sole."), 9, "the sts of the heel before the center: stated 5, actual 0"},
		{with("Row 3 (RS): Sl 1, k to end.", "The rnd now begins here, at the side, before the instep sts."), 10, "the right side faces"},
		{with("Arrange the sts: 5 on N1, 5 on N2."), 9, "not at the beginning of a rnd"},
	} {
		t.Run(test.what, func(t *testing.T) {
			r := run(t, test.text)
			if len(r.Wrong) == 0 {
				t.Fatal("nothing is wrong")
			}
			if w := r.Wrong[0]; w.Line != test.line || !strings.Contains(w.String(), test.what) {
				t.Errorf("%v, want line %d, %q", w, test.line, test.what)
			}
		})
	}
}

// A row that begins in the middle of another neither makes nor loses stitches.
func TestRowInTheMiddle(t *testing.T) {
	r := run(t, in("20", before, "The first 10 sts of the rnd are the heel; the other 10 sts rest for the instep.",
		"Partial row (RS): Sl 1, k4.", "Row 1 (WS): Sl 1, p to end.", "Work the last 2 rows 5 more times."))
	if len(r.Wrong) == 0 {
		t.Error("nothing is wrong")
	}
	if r.Final[0] != 20 {
		t.Errorf("%d sts, want 20", r.Final[0])
	}
}

func TestErrors(t *testing.T) {
	sizes := func(line string) string {
		return strings.Replace(in("20 (24)", back, line), "A SOCK\n", "A SOCK\n\nSizes: S (M)\n", 1)
	}
	for _, test := range []struct{ text, what string }{
		{"", "no line casts on"},
		{"A SOCK\n\nLEG\n\nRnd 1: Knit.\n", "no line casts on"},
		{"A SOCK\n\nLEG\n\nRnd 1: Knit.\nCO 4 sts. Join to work in the round without twisting. The rnd begins " + back + ".", "line 5: nothing is cast on yet"},
		{in("20", back, "CO 20 sts. Join to work in the round without twisting. The rnd begins "+back+"."), "line 6: cast on a second time"},
		{in("20", back, "Rnd 1: K5, wiggle."), `line 6: no step "wiggle"`},
		{in("20", back, "Rnd 1: K5, turn, k5."), "line 6: steps follow a turn"},
		{in("20", back, "Rnd 1: [K5, k5."), "line 6: a bracket is not closed"},
		{in("20", back, "Rnd 1: [K5]."), "line 6: how often?"},
		{in("20", back, "Rnd 1: *K5."), "line 6: a repeat has no end"},
		{in("20", back, "Rnd 1: Knit"), "line 6: not understood"},
		{in("20", back, "Rnd 1: Knit. 20 sts"), "line 6: not understood"},
		{in("20", back, "Rnd 1: Knit. 20 stitches."), "line 6: not understood"},
		{in("20", back, "Rnd 1: K99999."), "line 6: no step"},
		{in("20", back, "Work even for a while."), "line 6: not understood"},
		{in("20", back, "Work the last 2 rnds once more."), "line 6: only 0 rows"},
		{in("20", back, "Work Rnd 2 once more."), `line 6: no "rnd 2"`},
		{in("20", back, "Knit 5 rounds."), "line 6: not understood"},
		{in("20", back, "The last stitch is not a heel.", "The last 5 are."), "line 7: not understood"},
		{in("20", back, "Size XXL only:"), `line 6: there is no size "XXL"`},
		{in("20", after, "Graft the 10 sts of the instep to the 10 sts of the sole.", "Knit 1 rnd."), "line 7: all stitches are closed already"},
		{sizes("Rnd 1: K20 (24, 28)."), "a list of 3 values for 2 sizes"},
		{sizes("Rnd 1: [K5] 4 (5, 6) times."), "a list of 3 values for 2 sizes"},
		{sizes("Knit 2 rnds, or until the leg measures 6 in [15.2 (15.9, 17) cm] from the cast-on edge."), "a list of 3 values for 2 sizes"},
		{sizes("Knit 2 rnds. 20 (24, 28) sts."), "a list of 3 values for 2 sizes"},
	} {
		_, err := Run(test.text)
		if err == nil {
			t.Errorf("no error, want %q", test.what)
		} else if !strings.Contains(err.Error(), test.what) {
			t.Errorf("error %q, want %q", err, test.what)
		}
	}
}

func TestWrongString(t *testing.T) {
	w := Wrong{Line: 3, Size: "M", What: "the count", Stated: 4, Actual: 5}
	if got, want := w.String(), "line 3 (size M): the count: stated 4, actual 5"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// eightSizes returns the sample sock in eight sizes that are all alike.
func eightSizes() string {
	return strings.Replace(bandHeel, "CUFF\n", "Sizes: 1 (2, 3, 4, 5, 6, 7, 8)\n\nCUFF\n", 1)
}

// A thousand patterns of eight sizes must take no more than a few seconds.
func TestSpeed(t *testing.T) {
	text := eightSizes()
	const n = 20
	start := time.Now()
	for range n {
		right(t, run(t, text))
	}
	each := time.Since(start) / n
	if each > 50*time.Millisecond {
		t.Errorf("one pattern takes %v", each)
	}
}

func BenchmarkRun(b *testing.B) {
	text := eightSizes()
	for b.Loop() {
		if _, err := Run(text); err != nil {
			b.Fatal(err)
		}
	}
}

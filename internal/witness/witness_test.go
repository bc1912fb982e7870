package witness

import (
	_ "embed"
	"fmt"
	"go/parser"
	"go/token"
	"os"
	"strconv"
	"strings"
	"testing"
)

//go:embed testdata/band-heel-64.txt
var bandHeel string

// run counts a text that must be readable.
func run(t *testing.T, text string) *Report {
	t.Helper()
	r, err := Run(text)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// right fails the test for everything wrong.
func right(t *testing.T, r *Report) {
	t.Helper()
	for _, w := range r.Wrong {
		t.Error(w)
	}
}

func TestSample(t *testing.T) {
	r := run(t, bandHeel)
	right(t, r)
	for _, test := range []struct{ line, worked, total int }{
		{5, 64, 64}, {11, 64, 64}, {15, 64, 64}, {16, 64, 64}, {17, 32, 64},
		{18, 32, 64}, {20, 32, 64}, {24, 31, 63}, {25, 14, 46}, {26, 15, 47},
		{27, 15, 47}, {28, 14, 46}, {29, 13, 45}, {30, 12, 44}, {35, 12, 44},
		{37, 82, 82}, {38, 82, 82}, {41, 66, 66}, {42, 64, 64}, {46, 64, 64},
		{52, 32, 32}, {53, 16, 16}, {54, 16, 16}, {55, 0, 0},
	} {
		l := r.Line(test.line)
		if l == nil {
			t.Errorf("line %d is not among the lines", test.line)
			continue
		}
		if l.Worked[0] != test.worked || l.Total[0] != test.total {
			t.Errorf("line %d: %d of %d sts, want %d of %d", test.line, l.Worked[0], l.Total[0], test.worked, test.total)
		}
	}
	if r.Final[0] != 16 || r.Rows[0] != 38 || r.Rounds[0] != 16+50+19+40+20 {
		t.Errorf("final %d, rows %d, rounds %d", r.Final[0], r.Rows[0], r.Rounds[0])
	}
	if len(r.Sizes) != 1 || r.Sizes[0] != "" {
		t.Errorf("sizes %q", r.Sizes)
	}
}

// The first time a row is worked, its count is checked before it is worked
// again: 30 sts stand in a line that ends with 14.
func TestSampleFirstCounts(t *testing.T) {
	before, _, _ := strings.Cut(bandHeel, "Row 3 (RS)")
	r := run(t, before)
	right(t, r)
	if got := r.Line(25).Worked[0]; got != 30 {
		t.Errorf("%d sts, want 30", got)
	}
}

// A corruption changes some words in one line of a text.
type corruption struct {
	line     int    // where
	old, new string // old must be in the line; the whole line goes where both are empty
	at       int    // the line of the first thing found wrong
	what     string // in what is found wrong, or in the error
}

// corrupt returns the text with the corruption in it.
func (c corruption) corrupt(t *testing.T, text string) string {
	t.Helper()
	lines := strings.Split(text, "\n")
	l := &lines[c.line-1]
	switch {
	case c.old == "" && c.new == "":
		*l = "A line of prose."
	case !strings.Contains(*l, c.old):
		t.Fatalf("line %d has no %q: %q", c.line, c.old, *l)
	default:
		*l = strings.Replace(*l, c.old, c.new, 1)
	}
	return strings.Join(lines, "\n")
}

// check runs the corrupted text.
func (c corruption) check(t *testing.T, text string) {
	t.Helper()
	r, err := Run(c.corrupt(t, text))
	switch {
	case err != nil:
		if !strings.Contains(err.Error(), fmt.Sprintf("line %d: ", c.at)) || !strings.Contains(err.Error(), c.what) {
			t.Errorf("error %q, want line %d, %q", err, c.at, c.what)
		}
	case len(r.Wrong) == 0:
		t.Errorf("nothing is wrong, want line %d", c.at)
	case r.Wrong[0].Line != c.at || !strings.Contains(r.Wrong[0].String(), c.what):
		t.Errorf("%v, want line %d, %q", r.Wrong[0], c.at, c.what)
	}
}

func TestCorruptions(t *testing.T) {
	for _, c := range []corruption{
		// The cast-on, the leg.
		{5, "64", "66", 6, "there are too few sts: stated 68, actual 66"},
		{5, "center of the back", "side, before the heel sts", 17, "before the beginning of the rnd"},
		{5, "without twisting", "and twist", 5, "not understood"},
		{6, "p2", "p3", 6, "too few sts"},
		{6, "to end", "to last 1 st", 6, "does not come out even"},
		{7, "15", "14", 7, "the rnds in all: stated 16, actual 15"},
		{7, "16", "17", 7, "the rnds in all: stated 17, actual 16"},
		{7, "rnd 15", "row 15", 7, "a rnd, not a row"},
		{11, "64", "65", 11, "the count: stated 65, actual 64"},
		{11, "6 in", "6 (7) in", 11, "a list of 2 values for 1 sizes"},
		// The heel is set apart.
		{15, ", turn", "", 15, "sts are left at the end: stated 16, actual 64"},
		{15, "RS", "WS", 15, "the right side faces"},
		{15, "16", "17", 17, "before the beginning of the rnd"},
		{16, "31", "30", 17, "the sts worked last: stated 32, actual 31"},
		{16, "WS", "RS", 16, "the wrong side faces"},
		{17, "32", "31", 17, "the sts of the heel and the instep: stated 63, actual 64"},
		{17, "other 32", "other 34", 17, "the sts of the heel and the instep: stated 66, actual 64"},
		{17, "", "", 18, "a row in the round"},
		{18, "RS", "WS", 18, "the right side faces"},
		{18, "Row 1 (RS)", "Rnd 1", 18, "a rnd while the heel is flat"},
		{18, "Sl 1", "Sl 33", 18, "too few sts: stated 33, actual 32"},
		{19, "p to end", "p30", 19, "sts are left at the end: stated 31, actual 32"},
		{19, "Sl 1", "P1", 37, "the sts along the left edge"},
		{20, "2 rows", "1 row", 20, "not understood"},
		{20, "2 rows", "5 rows", 20, "only 4 rows"},
		{20, "7", "8", 20, "the rows in all: stated 16, actual 18"},
		{20, "16", "18", 20, "the rows in all: stated 18, actual 16"},
		{20, "32", "30", 20, "the count: stated 30, actual 32"},
		// The band.
		{24, "31", "30", 24, "the count: stated 30, actual 31"},
		{24, "ssk, ", "", 24, "the count: stated 31, actual 32"},
		{24, "pm, ssk", "ssk", 25, "there is no marker ahead"},
		{24, "k10", "k11", 29, "the marker is not here"},
		{25, "sm, p2tog", "p2tog", 25, "a marker is passed without sm"},
		{25, "p to m, sm, p to m, sm", "p to m, p to m, sm", 25, ""},
		{25, "30", "31", 25, "the count: stated 31, actual 30"},
		{25, "1 st dec'd", "2 sts dec'd", 25, "the sts dec'd: stated 2, actual 1"},
		{25, "1 st dec'd", "1 st inc'd", 25, "the sts inc'd: stated 1, actual -1"},
		{25, "p2tog", "p2togg", 25, `no step "p2togg"`},
		{26, "sm, ssk", "ssk", 26, "a marker is passed without sm"},
		{26, "RS", "WS", 26, "the right side faces"},
		{27, "7", "6", 27, "the rows in all: stated 17, actual 15"},
		{27, "17", "16", 27, "the rows in all: stated 16, actual 17"},
		{28, "Row 2", "Row 3", 28, "in line 26: the wrong side faces"},
		{28, "Row 2", "Row 5", 28, `no "row 5"`},
		{28, "14", "13", 28, "the count: stated 13, actual 14"},
		{28, "once", "twice", 28, "in line 25: the right side faces"},
		{29, "k10", "k9", 29, "the marker is not here"},
		{29, "k10, sm", "k9, ssk, sm", 29, "a marker lies between the two sts of a decrease"},
		{29, ", ssk", "", 29, "sts are left at the end"},
		{30, "p10", "p11", 30, "a marker is passed without sm"},
		{30, "Sl 1, sm", "Sl 1, remove m, sm", 30, "the marker is not here"},
		// The gusset.
		{34, "", "", 35, "a marker is passed without sm"},
		{35, "k5", "k4", 36, "the sts of the heel before the center: stated 6, actual 5"},
		{35, "RS", "WS", 35, "the right side faces"},
		{35, "Partial row", "Row 1", 35, "sts are left at the end"},
		{36, "", "", 37, "no line says that the rnd begins here"},
		{36, "at the center of the sole", "at the side, before the heel sts", 36, "stated 0, actual 6"},
		{37, "18 along the left", "19 along the left", 37, "the sts along the left edge: stated 19, actual 18"},
		{37, "18 along the right", "19 along the right", 37, "the sts along the right edge: stated 19, actual 18"},
		{37, "left", "right", 37, "the words have not come to where"},
		{37, "k6", "k5", 37, "the words have not come to where"},
		{37, "k32", "k31", 37, "sts are left at the end of N2"},
		{37, "k32", "k33", 37, "too few sts"},
		{37, "18 along the left", "17 along the left", 37, "the count: stated 82, actual 81"},
		{37, "82", "80", 37, "the count: stated 80, actual 82"},
		{37, "25 on N1", "24 on N1", 37, "the sts on N1: stated 24, actual 25"},
		{37, "Rnd 1", "Row 1", 37, ""},
		{38, "k19", "k18", 38, "sts are left at the end of N1: stated 24, actual 25"},
		{38, "k6.", "k7.", 38, "too few sts"},
		{39, "last 3", "last 2", 39, "too few sts"},
		{39, "2 sts", "1 st", 39, "the sts dec'd: stated 1, actual 2"},
		{39, "k2tog, k1", "k3", 39, "the sts dec'd: stated 2, actual 1"},
		{40, "Rnd", "Row", 40, "a row in the round"},
		{41, "2 rnds", "3 rnds", 41, ""},
		{41, "18", "16", 41, "the rnds in all: stated 16, actual 18"},
		{41, "66", "68", 41, "the count: stated 68, actual 66"},
		{42, "Rnd 3", "Rnd 4", 42, "the count: stated 64, actual 66"},
		{42, "16 on N3", "15 on N3", 42, "the sts on N3: stated 15, actual 16"},
		// The foot, the toe.
		{46, "64", "46", 46, "the count: stated 46, actual 64"},
		{46, "40 more", "40 other", 46, "not understood"},
		{50, "4 sts", "3 sts", 50, "the sts dec'd: stated 3, actual 4"},
		{50, "N3: k1, ssk", "N4: k1, ssk", 50, ""},
		{52, "32", "36", 52, "the count: stated 36, actual 32"},
		{53, "4 rnds", "3 rnds", 53, "the count: stated 16, actual 20"},
		{53, "8 on N2", "6 on N2", 53, "the sts on N2: stated 6, actual 8"},
		{54, "", "", 55, "the sts worked to bring the yarn to the side: stated 4, actual 0"},
		{54, "k to end", "k3", 55, "the sts worked to bring the yarn to the side: stated 4, actual 3"},
		{55, "8", "7", 55, "the sts of the instep and of the sole: stated 7, actual 8"},
		{55, "sole", "heel", 55, "not understood"},
	} {
		name := fmt.Sprintf("line %d %q to %q", c.line, c.old, c.new)
		t.Run(name, func(t *testing.T) { c.check(t, bandHeel) })
	}
}

// The package must not share code with what it judges.
func TestImports(t *testing.T) {
	entries, err := os.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	files := 0
	for _, e := range entries {
		if !strings.HasSuffix(e.Name(), ".go") {
			continue
		}
		files++
		f, err := parser.ParseFile(token.NewFileSet(), e.Name(), nil, parser.ImportsOnly)
		if err != nil {
			t.Fatal(err)
		}
		for _, imp := range f.Imports {
			path, err := strconv.Unquote(imp.Path.Value)
			if err != nil {
				t.Fatal(err)
			}
			first, _, _ := strings.Cut(path, "/")
			if first == "sockwright" || strings.Contains(first, ".") {
				t.Errorf("%s imports %s", e.Name(), path)
			}
		}
	}
	if files < 5 {
		t.Errorf("only %d files", files)
	}
}

package check_test

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"

	"sockwright/internal/check"
	"sockwright/internal/knit"
	"sockwright/internal/source"
)

// The faulty patterns in testdata/faults are a catalogue of what checking says. A finding
// is expected by a line directly after the one it belongs to (or before the first, if it
// belongs to none):
//
//	### SIZES: KIND STATED ACTUAL: words of the message
//	### mend: words of its first mend
//
// where "-" stands for no size and no figure. No other finding may come. Those called printed-…
// state, in words of our own, counts that were published and cannot be knitted: what each
// sock was is told with the worked examples of package sock.

// expected is a finding that a pattern announces.
type expected struct {
	line           int
	sizes, kind    string
	stated, actual string
	message, mend  string
}

var announcement = regexp.MustCompile(`^### ([^:]+): ([a-z-]+) (\S+) (\S+): (.+)$`)

// announced takes the announcements out of a pattern.
func announced(t testing.TB, name, text string) (*source.File, []expected) {
	t.Helper()
	var lines []string
	var all []expected
	for line := range strings.Lines(text) {
		if mend, ok := strings.CutPrefix(line, "### mend: "); ok && len(all) > 0 {
			all[len(all)-1].mend = strings.TrimSpace(mend)
			continue
		}
		if !strings.HasPrefix(line, "###") {
			lines = append(lines, line)
			continue
		}
		m := announcement.FindStringSubmatch(strings.TrimSpace(line))
		if m == nil {
			t.Fatalf("%s: cannot read the announcement %q", name, line)
		}
		all = append(all, expected{line: len(lines), sizes: m[1], kind: m[2], stated: m[3], actual: m[4], message: m[5]})
	}
	return source.NewFile(name, strings.Join(lines, "")), all
}

// is tells whether a finding is the expected one.
func (e expected) is(f source.Finding) bool {
	figure := func(v *float64) string {
		if v == nil {
			return "-"
		}
		return fmt.Sprint(*v)
	}
	sizes := "-"
	if len(f.Sizes) > 0 {
		sizes = strings.Join(f.Sizes, ", ")
	}
	return e.line == f.Line && e.sizes == sizes && e.kind == string(f.Kind) && e.stated == figure(f.Stated) && e.actual == figure(f.Actual) &&
		strings.Contains(strings.ToLower(f.Message), strings.ToLower(e.message)) && strings.Contains(f.Mend, e.mend)
}

func find(r *check.Report) []source.Finding {
	var all []source.Finding
	for _, x := range r.Faults {
		all = append(all, source.Find(r.File, r.Sizes, x))
	}
	return all
}

// refused: nothing is made of a file, and among its faults is one in these words.
func refused(t *testing.T, f *source.File, nothing bool, faults []source.Fault, want string) {
	t.Helper()
	var all []string
	for _, x := range faults {
		all = append(all, source.Find(f, nil, x).String())
	}
	if !nothing || !strings.Contains(strings.Join(all, "\n"), want) {
		t.Errorf("%q: %q, want %q", f.Text, all, want)
	}
}

func faultyPatterns(t testing.TB) []string {
	t.Helper()
	names, err := filepath.Glob("testdata/faults/*.txt")
	if err != nil || len(names) == 0 {
		t.Fatalf("no faulty patterns: %v", err)
	}
	return names
}

func readFile(t testing.TB, name string) string {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func TestFaults(t *testing.T) {
	for _, name := range faultyPatterns(t) {
		t.Run(strings.TrimSuffix(filepath.Base(name), ".txt"), func(t *testing.T) {
			f, want := announced(t, name, readFile(t, name))
			r := check.Pattern(f)
			for i, got := range find(r) {
				at := slices.IndexFunc(want, func(e expected) bool { return e.is(got) })
				if at < 0 {
					t.Errorf("not expected: %v %v\n%s", got.Kind, got, f.Line(got.Line))
					continue
				}
				want = slices.Delete(want, at, at+1)
				readsWell(t, got.Message)
				for _, m := range got.Mends {
					readsWell(t, m.Why)
				}
				mends(t, f, r.Faults[i], got)
			}
			for _, e := range want {
				t.Errorf("missing: %+v\n%s", e, f.Line(e.line))
			}
		})
	}
}

// readsWell: a message stands behind a position, and is part of a sentence.
func readsWell(t *testing.T, message string) {
	t.Helper()
	first, _, _ := strings.Cut(message, " ")
	label := regexp.MustCompile(`^(Row|Rnd|Dec|Inc|Next|Set-up|Partial)$`).MatchString(first)
	switch {
	case unicode.IsUpper([]rune(message)[0]) && !label, strings.HasSuffix(message, "."), strings.ContainsAny(message, "{}%"),
		strings.Contains(message, "  "), regexp.MustCompile(`\b1 (stitches|sts|rows)\b|-\d`).MatchString(message):
		t.Errorf("does not read well: %q", message)
	}
}

// mends: the first mend of a finding, where it says what to write, removes the finding.
func mends(t *testing.T, f *source.File, fault source.Fault, finding source.Finding) {
	t.Helper()
	if len(fault.Mends) == 0 || len(fault.Mends[0].Edits) == 0 {
		return
	}
	edits := slices.Clone(fault.Mends[0].Edits)
	slices.SortFunc(edits, func(a, b source.Edit) int { return int(b.At.Start) - int(a.At.Start) })
	text := f.Text
	for _, e := range edits {
		text = text[:e.At.Start] + e.Text + text[e.At.End:]
	}
	for _, after := range find(check.Pattern(source.NewFile(f.Name, text))) {
		if after.Line == finding.Line && after.Kind == finding.Kind && after.Message == finding.Message {
			t.Errorf("the mend %q does not help: %v\n%s", finding.Mend, after, text)
		}
	}
}

// Patterns that are right, in ways that a checker could stumble over.
func TestNoFaults(t *testing.T) {
	const castOn = "LOW TIDE\n\nSizes: S (M)\nCO 24 (28) sts. Join to work in the round without twisting. The rnd begins at the side, before the heel sts.\n"
	for name, text := range map[string]string{
		"a heel that ends on the right side goes on into the round": castOn + `The first 12 (14) sts of the rnd are the heel; the other 12 (14) sts rest for the instep.
Row 1 (RS): Sl 1, k to end.
Row 2 (WS): Sl 1, p to end.
Row 3 (RS): Sl 1, k to end.
The rnd now begins here, at the side, before the instep sts.
Rnd 1: N1: pick up and k 2 along the left edge of the heel, k12 (14), pick up and k 1 along the right edge of the heel; N2: k to end. 27 (31) sts.
`,
		"a heel without a name for its first row": castOn + `Row 1 (RS): K6, turn.
Row 2 (WS): Sl 1, p11, turn.
The last 12 sts worked are the heel; the other 12 (16) sts rest for the instep.
Row 3 (RS): Sl 1, k to end.
`,
		"a size that does nothing states nothing": castOn + `Dec rnd: [K5, k2tog] – (4) times, k to end. – (4) sts dec'd. 24 sts.
Work the last rnd – (0) more times. – (1) rnd in all. – (24) sts.
Knit 0 (2) rnds. 24 sts.
`,
		"lines for one size": castOn + `Size M only:
Dec rnd: [K5, k2tog] 4 times. 4 sts dec'd.
All sizes:
Rnd 1: Knit. 24 sts.
`,
		"a second sock": castOn + `Set-up row 1 (RS): K6, turn.
CO 24 sts. Join to work in the round without twisting. The rnd begins at the center of the back.
Rnd 1: *K2, p2; rep from * to end. 24 sts.
`,
		"words that only look like instructions": castOn + `Work on the Low Tide never ends.
Knit on until the ferry comes.
Rnd 1: Knit. 24 (28) sts.
`,
	} {
		r := check.Pattern(source.NewFile(name, text))
		for _, x := range find(r) {
			t.Errorf("%s: %v", name, x)
		}
		if !r.Sure || len(r.Final) != 2 {
			t.Errorf("%s: sure %v, final counts %v", name, r.Sure, r.Final)
		}
	}
}

// What cannot be read or followed is not counted for certain.
func TestSure(t *testing.T) {
	const castOn = "LOW TIDE\n\nSizes: S (M)\nCO 24 (28) sts. Join to work in the round without twisting. The rnd begins at the center of the back.\n"
	for line, want := range map[string]bool{
		"Rnd 1: Knit.":                       true,
		"Rnd 1: Knit. 23 sts.":               true, // wrong, but what is worked is clear
		"Rnd 1: K2, ssk, k to lsat 2 sts.":   true, // leaves two, and was read by its nearest word
		"Rnd 1: K2, wyib, k to end.":         false,
		"Rnd 1: K2 (3, 4), k to end.":        false,
		"Size L only:\nRnd 1: Knit.":         false,
		"Work the last 2 rnds 3 more times.": false,
		"Rnd 1: [M1L] 99999 times.":          false,
	} {
		if got := check.Pattern(source.NewFile("", castOn+line+"\n")).Sure; got != want {
			t.Errorf("%s: sure is %v, want %v", line, got, want)
		}
	}
}

func TestCounts(t *testing.T) {
	r := check.Pattern(source.NewFile("", `GABLE END

Sizes: S (M)
CO 20 (24) sts. Join to work in the round without twisting. The rnd begins at the center of the back.
Rnd 1: K1, ssk, k to last 3 sts, k2tog, k1. 2 sts dec'd.
Rnd 2: Knit.
Work the last 2 rnds 2 (3) more times. 14 (16) sts.
`))
	stitches := func(n int) knit.Stitches { return knit.Stitches{Worked: n, Total: n} }
	want := []check.Count{
		{Line: 4, Label: "Cast-on", Size: 0, First: stitches(20), Last: stitches(20), Times: 1, Sure: true},
		{Line: 4, Label: "Cast-on", Size: 1, First: stitches(24), Last: stitches(24), Times: 1, Sure: true},
		{Line: 5, Label: "Rnd 1", Size: 0, First: stitches(18), Last: stitches(14), Times: 3, Sure: true},
		{Line: 5, Label: "Rnd 1", Size: 1, First: stitches(22), Last: stitches(16), Times: 4, Sure: true},
		{Line: 6, Label: "Rnd 2", Size: 0, First: stitches(18), Last: stitches(14), Times: 3, Sure: true},
		{Line: 6, Label: "Rnd 2", Size: 1, First: stitches(22), Last: stitches(16), Times: 4, Sure: true},
		{Line: 7, Label: "Repeat", Size: 0, First: stitches(14), Last: stitches(14), Times: 1, Sure: true},
		{Line: 7, Label: "Repeat", Size: 1, First: stitches(16), Last: stitches(16), Times: 1, Sure: true},
	}
	for i := range r.Counts {
		r.Counts[i].Node = 0
	}
	if !slices.Equal(r.Counts, want) {
		t.Errorf("counts are\n%+v\nwant\n%+v", r.Counts, want)
	}
	if want := []int{14, 16}; !slices.Equal(r.Final, want) {
		t.Errorf("final counts are %v, want %v", r.Final, want)
	}
}

// A text with more faults than anybody reads is answered with some of them and their number.
func TestMoreFaultsThanAreTold(t *testing.T) {
	text := "CO 8 sts. Join to work in the round without twisting. The rnd begins at the center of the back.\n" +
		strings.Repeat("Rnd 1: Knit merrily.\n", 3*check.MaxFaults)
	r := check.Pattern(source.NewFile("low-tide.txt", text))
	if n := len(r.Faults); n != check.MaxFaults+1 {
		t.Fatalf("%d faults are told, want %d and one that says how many more there are", n, check.MaxFaults)
	}
	if last := r.Faults[check.MaxFaults].Text.String(); !strings.HasPrefix(last, "2000 more findings") {
		t.Errorf("the last fault says %q", last)
	}
}

package notation_test

import (
	"fmt"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"sockwright/internal/notation"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

// wrap is a line in a pattern of three sizes.
func wrap(line string) string { return "SLATE QUAY\n\nSizes: S (M, L)\n" + line + "\n" }

// readLine reads a line in a pattern of three sizes.
func readLine(line string) (pattern.Node, []source.Finding) {
	f := source.NewFile("line.txt", wrap(line))
	r := notation.Read(f)
	var findings []source.Finding
	for _, x := range r.Faults {
		findings = append(findings, source.Find(f, r.Pattern.Sizes, x))
	}
	body := r.Pattern.Sections[0].Body
	return body[len(body)-1], findings
}

// The wording of every kind of line, as it is printed: it reads without a fault, and is
// printed the same again.
func TestWording(t *testing.T) {
	for _, line := range []string{
		"CO 56 (60, 64) sts. Join to work in the round without twisting. The rnd begins at the center of the back.",
		"CO 56 sts. Join to work in the round without twisting. The rnd begins at the side, before the heel sts.",
		"Row 1 (RS): Sl 1, k to end.",
		"Row 2 (WS): Sl 1, p to end. 32 sts.",
		"Rnd 1: *K2, p2; rep from * to end.",
		"Rnd 1: K1, *k2, p2; rep from * to last st, k1.",
		"Rnd 1: K1, *k2, p2; rep from * to last 3 (3, 5) sts, k to end.",
		"Rnd 1: [K2, p2] 12 (13, 14) times.",
		"Rnd 1: [*K1; rep from * to end, turn] once.",
		"Rnd 4: Knit.",
		"Rnd 4: Purl.",
		"Set-up row 2 (WS): Sl 1, p31, turn.",
		"Partial rnd: N1: k to end.",
		"Inc rnd: [K15, M1L] 4 times. 4 sts inc'd.",
		"Dec rnd: [K14, k2tog] – (4, 4) times. – (4, 4) sts dec'd. 60 sts.",
		"Next row (RS): Sl 1, remove m, k2 (3, 4), pm, ssp, M1R, p2tog, p3 tbl, k to m tbl, sm, p to last 2 sts, turn.",
		"Rnd 1: N1: k6, pick up and k 18 along the left edge of the heel, pick up and k 1 in the corner; N2: k32; N3: pick up and k 18 along the right edge of the heel, k6. 82 sts: 25 on N1, 32 on N2, 25 on N3.",
		"Rnd 3: N1: k to last 3 sts, k2tog, k1; N2: k to end; N3: k1, ssk, k to end. 2 sts dec'd.",
		"Work the last row once more.",
		"Do not repeat the last 2 rnds. 8 rnds in all. 30 sts: 15 on N1, 15 on N2.",
		"Do not repeat Rnd 2. 30 sts.",
		"Work the last 2 rows 7 (8, 9) more times. 16 (18, 20) rows in all. 32 sts.",
		"Work the last rnd 15 more times, or until the cuff measures 1 1/2 (1 3/4, 2) in [3.9 (4.5, 5) cm]. 16 rnds in all.",
		"Work Row 2 (WS) once more. 1 st dec'd. 14 sts.",
		"Work Dec rnd again on each of the next 4 (4, 5) rnds. 16 sts: 4 on N1, 8 on N2, 4 on N3.",
		"Knit 50 (54, 58) rnds, or until the leg measures 6 in [15.2 cm] from the cast-on edge. 64 sts.",
		"Purl 1 more rnd.",
		"The last 32 (34, 36) sts worked are the heel; the other 32 sts rest for the instep.",
		"The first 32 sts of the rnd are the heel; the other 32 sts rest for the instep.",
		"The rnd now begins here, at the center of the sole.",
		"Arrange the sts: 16 on N1, 32 (33, 34) on N2, 16 on N3.",
		"Remove the stitch markers as you come to them.",
		"Graft the 8 sts of the instep to the 8 sts of the sole.",
	} {
		if n := checkWording(t, line); reflect.TypeOf(n) == reflect.TypeFor[*pattern.Prose]() {
			t.Errorf("%s: read as prose", line)
		}
	}
	for _, line := range []string{
		"Tip: Cast on loosely.",
		"Caution: Sew the ends in.",
		"Gauge: 32 (33, 34) sts to 4 in [10 cm]",
		"At the Copper Kettle, somebody knits 7 (8, 9) socks a year.",
		"The heel of this sock is narrow.",
	} {
		if n := checkWording(t, line); reflect.TypeOf(n) != reflect.TypeFor[*pattern.Prose]() {
			t.Errorf("%s: read as %T", line, n)
		}
	}
}

// checkWording reads a line, which must be printed the same again.
func checkWording(t *testing.T, line string) pattern.Node {
	t.Helper()
	n, findings := readLine(line)
	for _, x := range findings {
		t.Errorf("%s: %v", line, x)
	}
	read := notation.Read(source.NewFile("", wrap(line))).Pattern
	lines := strings.Split(strings.TrimSpace(notation.Write(read).Text), "\n")
	if got := lines[len(lines)-1]; got != line {
		t.Errorf("written again as\n\t%s\nthe line is\n\t%s\nread as %#v", got, line, n)
	}
	return n
}

// Capitals and blanks do not matter.
func TestReadsLoosely(t *testing.T) {
	want, _ := readLine("Row 1 (RS): Sl 1, k2tog, M1L, k to last 3 (3, 4) sts, k3 tbl. 31 (31, 33) sts.")
	for _, line := range []string{
		"ROW 1 (rs): SL 1, K2TOG, M1l, k to last 3 (3, 4) sts, K3 tbl. 31 (31, 33) sts.",
		"row 1 (RS) : sl 1 , k2tog ,m1l,k to last 3 ( 3,4 ) st, k 3 tbl . 31 (31,33) sts .",
		"\t Row 1 (RS): Sl 1, k2tog, M1L,   k to last 3 (3, 4) sts, k3 tbl. 31 (31, 33) sts. \r",
	} {
		got, findings := readLine(line)
		if len(findings) > 0 {
			t.Errorf("%q: %v", line, findings)
			continue
		}
		strip := func(n pattern.Node) *pattern.Pattern {
			return bare(&pattern.Pattern{Sections: []*pattern.Section{{Body: []pattern.Node{n}}}})
		}
		if !reflect.DeepEqual(strip(got), strip(want)) {
			t.Errorf("%q is read as another row", line)
		}
	}
}

// What cannot be read is said where it is, and kept as prose; prose that only begins like
// an instruction is not complained of.
func TestUnread(t *testing.T) {
	for _, c := range []struct{ line, want string }{
		{"Row 1 (RS): Sl 1, wyib, k to end.", "4:19: warning: cannot read on from “wyib”"},
		{"Row 1 (RS): Sl 1 k to end.", "4:18: warning: cannot read on from “k”"},
		{"Row 1 (RS): Sl 1, k to end", "4:1: warning: the line ends where"},
		{"Row 1 (RS): Sl 1, k to end. 31 (32, 33 sts.", "4:40: warning: cannot read on from “sts”"},
		{"Row 1: [k2, p2 4 times.", "4:16: warning: cannot read on from “4”"},
		{"The last 32 sts are the heel; the other 32 sts rest for the instep.", "4:17: warning: cannot read on from “are”"},
		{"The rnd now begins here, at the side.", "cannot read on from"},
		{"Remove the stitch markers.", "4:26: warning: cannot read on from “.”"},
		{"Graft the toe.", "4:11: warning: cannot read on from “toe”"},
		{"Work the last 2 rows often.", "4:22: warning: cannot read on from “often”"},
		{"Knit 3 socks.", "4:8: warning: cannot read on from “socks”"},
		{"Row 1: " + strings.Repeat("[", 40) + "k1" + strings.Repeat("] once", 40) + ".", "4:20: warning: cannot read on from “[”"},
		{"Work on the Low Tide never ends.", ""},
		{"Knit and be merry.", ""},
		{"Remove the sock from the needles.", ""},
		{"The last of the ferries leaves at eight.", ""},
		{"Next time: swatch first.", ""},
		{"Size matters only:", "4:6: no size is called “matters”: the sizes are S, M, L"},
	} {
		n, findings := readLine(c.line)
		switch {
		case c.want == "" && len(findings) > 0:
			t.Errorf("%s: %v, want nothing said", c.line, findings)
		case c.want != "" && (len(findings) != 1 || !strings.Contains(findings[0].String(), c.want)):
			t.Errorf("%s: %v, want %q", c.line, findings, c.want)
		}
		if p, ok := n.(*pattern.Prose); !ok || (p.Style == pattern.Unread) != (c.want != "") {
			t.Errorf("%s: read as %#v", c.line, n)
		}
	}
}

func TestSizes(t *testing.T) {
	for _, c := range []struct {
		text string
		want []string
		says string
	}{
		{"Rnd 1: K2.", []string{""}, ""},
		{"Size: M", []string{"M"}, ""},
		{"Sizes: XS (S, M)", []string{"XS", "S", "M"}, ""},
		{"Rnd 1: K2 (3, 4).", []string{"1", "2", "3"}, ""},
		{"Sizes: S (M)\nSize: 2.25 mm needles", []string{"S", "M"}, ""},
		{"Work on 2 (3) socks.\nGauge: 7 (8)", []string{""}, ""},
		{"Size: M\nRnd 1: K2 (3, 4).", []string{"M"}, "the list has 3 numbers, but the sizes are 1: M"},
		{"Sizes: 0 (" + strings.Repeat("x, ", 70) + "y)", append([]string{"0"}, slices.Repeat([]string{"x"}, 63)...), "72 sizes: at most 64 can be read"},
	} {
		r := notation.Read(source.NewFile("", "LOW TIDE\n\n"+c.text+"\n"))
		if !slices.Equal(r.Pattern.Sizes, c.want) {
			t.Errorf("%.60s: sizes %q, want %q", c.text, r.Pattern.Sizes, c.want)
		}
		says := ""
		for _, x := range r.Faults {
			says += x.Text.String()
		}
		if says != c.says {
			t.Errorf("%.60s: says %q, want %q", c.text, says, c.says)
		}
	}
}

func TestHeadings(t *testing.T) {
	r := notation.Read(source.NewFile("", "\ufeffGRÖßE\n\nRnd 1: Knit.\nNOT A HEADING\n\nHEEL FLAP\n\nUS 2\n\nTOE: OR NOT\n\nToe\n"))
	var titles []string
	for _, s := range r.Pattern.Sections {
		titles = append(titles, s.Title)
	}
	if want := []string{"", "HEEL FLAP"}; r.Pattern.Title != "GRÖßE" || !slices.Equal(titles, want) {
		t.Errorf("title %q, sections %q; want GRÖßE, %q", r.Pattern.Title, titles, want)
	}
}

// The page's headings stand in small letters, with a number where a section is worked; its
// sizes are the head of a table, and its apostrophes are set in type.
func TestReadsPage(t *testing.T) {
	r := notation.Read(source.NewFile("", "Low Tide\n\nSizes\n\nSize  S  M\nFoot length  7 in 18 cm  8 in 20 cm\n\nAbbreviations\n\nk: knit\n\n1 Cuff\n\nCO 60 (64) sts. Join to work in the round without twisting.\n\nRnd 1: K2tog, k to end. 1 st dec’d.\n2 Heel flap\n\nRnd 1: Knit.\n"))
	var titles []string
	for _, s := range r.Pattern.Sections {
		titles = append(titles, s.Title)
	}
	if want := []string{"Sizes", "Abbreviations", "1 Cuff", "2 Heel flap"}; r.Pattern.Title != "Low Tide" || !slices.Equal(titles, want) {
		t.Errorf("title %q, sections %q; want Low Tide, %q", r.Pattern.Title, titles, want)
	}
	if r.Worked != 3 || len(r.Faults) > 0 || !slices.Equal(r.Pattern.Sizes, []string{"S", "M"}) {
		t.Errorf("%d lines worked, sizes %q, faults %v", r.Worked, r.Pattern.Sizes, r.Faults)
	}
}

// Lines for a size that is not there belong to no size, and are not printed.
func TestWritesNoLinesForNobody(t *testing.T) {
	p := &pattern.Pattern{Title: "Low Tide", Sizes: []string{"S", "M"}, Sections: []*pattern.Section{{Body: []pattern.Node{
		&pattern.Only{Body: []pattern.Node{&pattern.DropMarkers{}}}, &pattern.Begin{Place: pattern.CentreBack}}}}}
	if got, want := notation.Write(p).Text, "LOW TIDE\n\nThe rnd now begins here, at the center of the back.\n"; got != want {
		t.Errorf("written as %q, want %q", got, want)
	}
}

func TestAbbreviations(t *testing.T) {
	for _, c := range []struct {
		text string
		want []string
	}{
		{"Rnd 1: K2tog, k19 tbl. 2 sts dec'd.", []string{"dec'd", "k", "k2tog", "rnd(s)", "st(s)", "tbl"}},
		{"pick up and k 18", []string{"pick up and k"}},
		{"M1L, m1r", []string{"m", "M1L"}}, // what is written in capitals has no other form
		{"", []string{}},
	} {
		got := []string{}
		for _, a := range notation.Abbreviations(c.text) {
			got = append(got, a.Short)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("Abbreviations(%q) = %q, want %q", c.text, got, c.want)
		}
	}
}

// A line may be as long as a file, and hold what it likes.
func TestLongLines(t *testing.T) {
	length := 1 << 20
	for _, c := range []struct{ before, again, after string }{
		{"Rnd 1: ", "k1, ", "k1."},
		{"Rnd 1: ", "[", ""},
		{"Rnd 1: ", "*k1; ", ""},
		{"Rnd 1: k1 (", "1, ", "2)."},
		{"", "7 (", ")"},
		{"", "7 (8) ", ""},
		{"", "7 [8/ (", "9)"},
		{"Yarn", ": ", ""},
		{"Knit 3 rnds, or until", " .5 (6", "."},
		{"Sizes: S", " (M, ", ")"},
		{"Sizes ", "S, ", "M and S only:"},
		{"Arrange the sts: ", "1 on N1, ", "."},
		{"", "k", ""},
		{"", "9", ""},
		{"", "\xff", ""},
		{"", "\r", ""},
		{"", "\n", ""},
		{"", "Row 1: \n", ""},
	} {
		text := wrap(c.before + strings.Repeat(c.again, length/len(c.again)) + c.after)
		f := source.NewFile("long.txt", text)
		checkReading(t, f, notation.Read(f))
		length = 1 << 18
	}
}

// checkReading: all places are places of the text.
func checkReading(t testing.TB, f *source.File, r *notation.Reading) {
	t.Helper()
	inside := func(what string, s source.Span) {
		if s.Start > s.End || int(s.End) > len(f.Text) {
			t.Fatalf("%s spans %v of a text of %d bytes", what, s, len(f.Text))
		}
	}
	for _, x := range r.Faults {
		inside("a fault", x.At)
		if !x.At.Known() {
			t.Fatalf("%q points at nothing", x.Text)
		}
		for _, m := range x.Mends {
			for _, e := range m.Edits {
				inside("an edit", e.At)
			}
		}
	}
	if n := len(r.Pattern.Sizes); n < 1 || n > source.MaxSizes {
		t.Fatalf("%d sizes", n)
	}
	last := pattern.NodeID(0)
	for _, s := range r.Pattern.Sections {
		inside("section "+s.Title, s.At)
	}
	r.Pattern.Each(func(_ *pattern.Section, n pattern.Node) {
		inside(fmt.Sprintf("%T", n), pattern.At(n))
		if pattern.ID(n) <= last || !pattern.At(n).Known() {
			t.Fatalf("%T %d at %v follows node %d", n, pattern.ID(n), pattern.At(n), last)
		}
		last = pattern.ID(n)
	})
}

func FuzzRead(f *testing.F) {
	for _, glob := range []string{"../*/testdata/*.txt", "../check/testdata/faults/*.txt"} {
		names, err := filepath.Glob(glob)
		if err != nil || len(names) == 0 {
			f.Fatalf("no texts in %s: %v", glob, err)
		}
		for _, name := range names {
			f.Add(readText(f, name))
		}
	}
	f.Fuzz(func(t *testing.T, text string) {
		file := source.NewFile("fuzz.txt", text)
		r := notation.Read(file)
		checkReading(t, file, r)
		written := notation.Write(r.Pattern)
		for _, s := range written.Spans {
			if s.Start > s.End || int(s.End) > len(written.Text) {
				t.Fatalf("written at %v of %d bytes", s, len(written.Text))
			}
		}
		for _, x := range r.Faults {
			_ = source.Find(file, r.Pattern.Sizes, x).String()
		}
	})
}

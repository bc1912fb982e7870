package check_test

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"sockwright/internal/check"
	"sockwright/internal/script"
	"sockwright/internal/source"
)

// The patterns in testdata/long are whole patterns, each in the manner of its time, without a
// fault. Their counts were worked by hand.

// TestLong: nothing of a long pattern is left unread, nothing is found at fault, and its
// counts are those that were worked by hand, in every size.
func TestLong(t *testing.T) {
	names, err := filepath.Glob("testdata/long/*.pattern.txt")
	if err != nil || len(names) == 0 {
		t.Fatalf("no patterns: %v", err)
	}
	for _, name := range names {
		t.Run(strings.TrimSuffix(filepath.Base(name), ".pattern.txt"), func(t *testing.T) {
			want := expectation(t, name)
			r := check.Pattern(source.NewFile(name, readFile(t, name)))
			for i, l := range r.Words.Lines {
				if l.Role == script.Unread {
					t.Errorf("line %d is not read: %s", i+1, r.File.Line(i+1))
				}
			}
			for _, f := range find(r) {
				if f.Severity != source.Note.String() {
					t.Error(f.String())
				}
			}
			sizes := r.Sizes
			if len(sizes) == 1 {
				sizes = want.Sizes
			}
			if !slices.Equal(sizes, want.Sizes) {
				t.Fatalf("sizes are %q, should be %q", sizes, want.Sizes)
			}
			for i, size := range sizes {
				if n := want.Final[size]; n == nil {
					t.Errorf("size %s ends with %d sts, and nothing says with how many it should", size, r.Final[i])
				} else if r.Final[i] != *n {
					t.Errorf("size %s ends with %d sts, should end with %d", size, r.Final[i], *n)
				}
			}
			for _, c := range want.Counts {
				for i, size := range sizes {
					c.hold(r, i, c.Worked[size], c.Total[size], func(s string) { t.Error(s) })
				}
			}
		})
	}
}

// TestSlipsInALongPattern: every slip in a long pattern is told once, and nothing that only
// follows from it.
func TestSlipsInALongPattern(t *testing.T) {
	const name = "testdata/long/harbour-today.pattern.txt"
	slips := []struct {
		old, new string
		line     int
		says     string
	}{
		{"(3.5 cm)", "(4.5 cm)", 67, "1 3/8 in is 3.5 cm, not 4.5 cm"},
		{"k13 (15, 17, 19, 21), ssk, k1", "k12 (14, 16, 18, 20), sssk, k1", 85, "what follows goes on with 15"},
		{"16, 18, 20) sts along the other edge", "15, 18, 20) sts along the other edge", 90, "15 here cannot be right"},
		{"more times. 48 (56, 64, 72, 80) sts:", "more times. 48 (56, 64, 74, 80) sts:", 93, "74 sts stated, but 72"},
		{"Rnd 2: Knit.\n", "Rnd 2: Kint.\n", 101, "is “Kint” meant for “knit”?"},
	}
	text := readFile(t, name)
	lines := []int{82} // where the turn is seen to be uneven
	for _, s := range slips {
		if strings.Count(text, s.old) != 1 {
			t.Fatalf("%q stands there %d times", s.old, strings.Count(text, s.old))
		}
		text = strings.Replace(text, s.old, s.new, 1)
		lines = append(lines, s.line)
	}
	found := find(check.Pattern(source.NewFile(name, text)))
	for _, f := range found {
		if !slices.Contains(lines, f.Line) {
			t.Errorf("besides: %s", f.String())
		}
	}
	for _, s := range slips {
		if !slices.ContainsFunc(found, func(f source.Finding) bool { return f.Line == s.line && strings.Contains(f.String(), s.says) }) {
			t.Errorf("line %d: not told: %s", s.line, s.says)
		}
	}
}

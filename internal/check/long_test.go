package check_test

import (
	"encoding/json"
	"os"
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

type longPattern struct {
	Sizes  []string `json:"sizes"`
	Counts []struct {
		Line   int            `json:"line"`
		Total  map[string]int `json:"total"`
		Worked map[string]int `json:"worked"`
	} `json:"line_counts"`
	Final map[string]int `json:"final_counts"`
}

// TestLong: nothing of a long pattern is left unread, nothing is found at fault, and its
// counts are those that were worked by hand, in every size.
func TestLong(t *testing.T) {
	names, err := filepath.Glob("testdata/long/*.pattern.txt")
	if err != nil || len(names) == 0 {
		t.Fatalf("no patterns: %v", err)
	}
	for _, name := range names {
		t.Run(strings.TrimSuffix(filepath.Base(name), ".pattern.txt"), func(t *testing.T) {
			var want longPattern
			data, err := os.ReadFile(strings.TrimSuffix(name, ".pattern.txt") + ".expect.json")
			if err != nil {
				t.Fatal(err)
			}
			if err := json.Unmarshal(data, &want); err != nil {
				t.Fatal(err)
			}
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
				if r.Final[i] != want.Final[size] {
					t.Errorf("size %s ends with %d sts, should end with %d", size, r.Final[i], want.Final[size])
				}
			}
			for _, c := range want.Counts {
				for i, size := range sizes {
					// a line may state the count of its first row or of its last
					worked, total := []int{}, []int{}
					for _, have := range r.Counts {
						if have.Line == c.Line && have.Size == i {
							worked = append(worked, have.First.Worked, have.Last.Worked)
							total = append(total, have.First.Total, have.Last.Total)
						}
					}
					if n, is := c.Total[size]; is && !slices.Contains(total, n) {
						t.Errorf("line %d, size %s: %v in all, should be %d", c.Line, size, total, n)
					}
					if n, is := c.Worked[size]; is && !slices.Contains(worked, n) {
						t.Errorf("line %d, size %s: %v in work, should be %d", c.Line, size, worked, n)
					}
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

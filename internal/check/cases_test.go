package check_test

import (
	"encoding/json"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"sockwright/internal/check"
	"sockwright/internal/knit"
	"sockwright/internal/source"
)

// The cases in testdata/cases and testdata/fresh are short patterns in many layouts, each with
// what a careful reader should find. Their counts were worked by hand.

type expectedCase struct {
	Kind        source.Kind     `json:"kind"`
	AcceptKinds []source.Kind   `json:"accept_kinds"`
	Sizes       []string        `json:"sizes"`
	Faults      []caseFault     `json:"faults"`
	AcceptLines []int           `json:"accept_lines"`
	FollowOn    []int           `json:"follow_on_lines"`
	Counts      []caseCount     `json:"line_counts"`
	Final       map[string]*int `json:"final_counts"`
}

// caseCount is how many stitches should be in work, or in all, after a line.
type caseCount struct {
	Line   int             `json:"line"`
	Worked map[string]*int `json:"worked"`
	Total  map[string]*int `json:"total"`
}

type caseFault struct {
	Line int    `json:"line"`
	Size string `json:"size"`
	Why  string `json:"why"`
}

func TestCases(t *testing.T) {
	var names []string
	for _, folder := range []string{"cases", "fresh"} {
		in, err := filepath.Glob("testdata/" + folder + "/*.pattern.txt")
		if err != nil || len(in) == 0 {
			t.Fatalf("no cases in %s: %v", folder, err)
		}
		names = append(names, in...)
	}
	for _, name := range names {
		short := strings.TrimSuffix(filepath.Base(name), ".pattern.txt")
		t.Run(short, func(t *testing.T) {
			r := check.Pattern(source.NewFile(name, readFile(t, name)))
			judge(r, expectation(t, name), func(s string) { t.Error(s) })
		})
	}
}

// expectation reads what stands beside a pattern of what is to be found in it.
func expectation(t *testing.T, pattern string) (want expectedCase) {
	t.Helper()
	if err := json.Unmarshal([]byte(readFile(t, strings.TrimSuffix(pattern, ".pattern.txt")+".expect.json")), &want); err != nil {
		t.Fatal(err)
	}
	return want
}

func judge(r *check.Report, want expectedCase, report func(string)) {
	var found []source.Finding
	for _, f := range find(r) {
		if f.Severity != "note" {
			found = append(found, f)
		}
	}
	kinds := append(slices.Clone(want.AcceptKinds), want.Kind)
	allowed := append(slices.Clone(want.AcceptLines), want.FollowOn...)
	for _, e := range want.Faults {
		allowed = append(allowed, e.Line)
		if !slices.ContainsFunc(found, func(f source.Finding) bool {
			return (f.Line == e.Line || slices.Contains(want.AcceptLines, f.Line)) && slices.Contains(kinds, f.Kind) &&
				(e.Size == "all" || len(f.Sizes) == 0 || len(want.Sizes) == 1 || slices.Contains(f.Sizes, e.Size))
		}) {
			report("missing in size " + e.Size + ": " + e.Why)
		}
	}
	for _, f := range found {
		if !slices.Contains(allowed, f.Line) {
			report("not expected: " + f.String())
		}
	}
	if len(want.Sizes) > 1 && !slices.Equal(r.Sizes, want.Sizes) {
		report(fmt.Sprintf("the sizes are %q, should be %q", r.Sizes, want.Sizes))
	}
	for i := range r.Sizes {
		if n := ofSize(r, want.Final, i); n != nil && r.Final[i] != *n {
			report(fmt.Sprintf("the final count of size %s is %d, should be %d", r.Sizes[i], r.Final[i], *n))
		}
		for _, c := range want.Counts {
			c.hold(r, i, ofSize(r, c.Worked, i), ofSize(r, c.Total, i), report)
		}
	}
}

// hold reports where a size does not come to the figures for it that are not nil.
func (c caseCount) hold(r *check.Report, size int, worked, total *int, report func(string)) {
	if worked != nil && !counted(r, c.Line, size, func(s knit.Stitches) bool { return s.Worked == *worked }) {
		report(fmt.Sprintf("line %d, size %s: no count of %d in work", c.Line, r.Sizes[size], *worked))
	}
	if total != nil && !counted(r, c.Line, size, func(s knit.Stitches) bool { return s.Total == *total }) {
		report(fmt.Sprintf("line %d, size %s: no count of %d in all", c.Line, r.Sizes[size], *total))
	}
}

// ofSize is the figure for a size, nil if there is none. A pattern in one size may call it by
// another name than the expectation does.
func ofSize(r *check.Report, figures map[string]*int, size int) *int {
	if n, ok := figures[r.Sizes[size]]; ok {
		return n
	}
	if len(r.Sizes) == 1 && len(figures) == 1 {
		for _, n := range figures {
			return n
		}
	}
	return nil
}

// counted tells whether a line leaves such a count, the first time it is worked or the last.
func counted(r *check.Report, line, size int, is func(knit.Stitches) bool) bool {
	return slices.ContainsFunc(r.Counts, func(c check.Count) bool {
		return c.Line == line && c.Size == size && (is(c.First) || is(c.Last))
	})
}

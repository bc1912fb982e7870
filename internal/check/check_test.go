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
	"sockwright/internal/source"
)

// The faulty patterns in testdata/faults are a catalogue of what checking says. A finding
// is expected by a line directly after the one it belongs to (or before the first, if it
// belongs to none):
//
//	### SIZES: KIND STATED ACTUAL: words of the message
//	### mend: words of its first mend
//
// where "-" stands for no size and no figure. No other finding may come.

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

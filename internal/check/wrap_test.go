package check_test

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode"

	"sockwright/internal/check"
	"sockwright/internal/source"
)

// wrap breaks the lines of a text at spaces so that none is wider than width, as letters and
// pages do. wide is the width of a letter in hundredths.
func wrap(text string, width int, wide func(rune) int) string {
	out := []byte(text)
	space, used, since := -1, 0, 0 // the last space, the width of the line, and of what is behind the space
	for i, r := range text {
		w := wide(r)
		used, since = used+w, since+w
		switch {
		case r == '\n':
			space, used, since = -1, 0, 0
		case r == ' ':
			if used-w <= width*100 && used > w {
				space, since = i, 0
			}
		case used > width*100 && space >= 0:
			out[space] = '\n'
			space, used = -1, since
		}
	}
	return string(out)
}

// typewriter and serif are the widths of letters on the two kinds of pages.
func typewriter(rune) int { return 100 }

func serif(r rune) int {
	switch {
	case strings.ContainsRune("iljtfr.,;:'()[]|!- ", r):
		return 65
	case strings.ContainsRune("mwMWQO", r):
		return 160
	case unicode.IsUpper(r):
		return 140
	}
	return 105
}

// TestWrapped: a pattern says the same with its lines broken to a width: in a letter, out of
// a page. The same findings stand at the same words.
func TestWrapped(t *testing.T) {
	var names []string
	for _, dir := range []string{"testdata/cases", "testdata/fresh", "testdata/long"} {
		found, err := filepath.Glob(dir + "/*.pattern.txt")
		if err != nil {
			t.Fatal(err)
		}
		names = append(names, found...)
	}
	if len(names) == 0 {
		t.Fatal("no patterns")
	}
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		text := string(data)
		want := told(text)
		for _, width := range []int{60, 66, 72, 75, 80, -60, -66, -72, -80} {
			t.Run(fmt.Sprintf("%s/%d", strings.TrimSuffix(filepath.Base(name), ".pattern.txt"), width), func(t *testing.T) {
				broken := wrap(text, width, typewriter)
				if width < 0 {
					broken = wrap(text, -width, serif)
				}
				have := told(broken)
				for _, x := range want {
					if !slices.Contains(have, x) {
						t.Errorf("is not told: %s", x)
					}
				}
				for _, x := range have {
					if !slices.Contains(want, x) {
						t.Errorf("is told besides: %s", x)
					}
				}
			})
		}
	}
}

// told is what a check finds, each with its place in the text, and the counts at the end.
func told(text string) []string {
	r := check.Pattern(source.NewFile("sock.txt", text))
	out := []string{fmt.Sprintf("sizes %q end with %v", r.Sizes, r.Final)}
	for _, f := range r.Faults {
		out = append(out, fmt.Sprintf("%d–%d %s %s %v %s", f.At.Start, f.At.End, f.Severity, f.Kind, f.Sizes, strings.ReplaceAll(f.Text.String(), "\n", " ")))
	}
	return out
}

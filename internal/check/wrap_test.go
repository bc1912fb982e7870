package check_test

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"sockwright/internal/check"
	"sockwright/internal/source"
)

// wrap breaks the lines of a text at spaces so that none is longer than width, as letters and
// pages do.
func wrap(text string, width int) string {
	out := []byte(text)
	start, space := 0, -1
	for i := 0; i < len(text); i++ {
		switch text[i] {
		case '\n':
			start, space = i+1, -1
			continue
		case ' ':
			if i > start {
				space = i
			}
		}
		if utf8.RuneCountInString(text[start:i+1]) > width && space >= 0 && text[i] != ' ' {
			out[space] = '\n'
			start, space = space+1, -1
			i = start
		}
	}
	return string(out)
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
		for _, width := range []int{56, 60, 63, 66, 69, 72, 75, 78, 80, 90} {
			t.Run(fmt.Sprintf("%s/%d", strings.TrimSuffix(filepath.Base(name), ".pattern.txt"), width), func(t *testing.T) {
				have := told(wrap(text, width))
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

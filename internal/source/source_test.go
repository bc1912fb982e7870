package source_test

import (
	"strings"
	"testing"

	"sockwright/internal/source"
)

func TestPosition(t *testing.T) {
	f := source.NewFile("a.txt", "\ufeffone\r\nzwölf ½ m\n\nend")
	for _, c := range []struct {
		find      string
		line, col int
	}{{"one", 1, 1}, {"ölf", 2, 3}, {"m", 2, 9}, {"end", 4, 1}} {
		at := uint32(strings.Index(f.Text, c.find))
		if line, col := f.Position(at); line != c.line || col != c.col {
			t.Errorf("Position(%q) = %d:%d, want %d:%d", c.find, line, col, c.line, c.col)
		}
	}
	if got := f.Line(2); got != "zwölf ½ m" {
		t.Errorf("Line(2) = %q", got)
	}
	if line, col := f.Position(9999); line != 4 || col != 4 {
		t.Errorf("Position past the end = %d:%d, want 4:4", line, col)
	}
}

func TestMergeJoinsSizes(t *testing.T) {
	at := source.Span{Start: 3, End: 5}
	fault := func(size int, text string) source.Fault {
		return source.Fault{At: at, Sizes: source.OneSize(size), Kind: source.StitchCount, Severity: source.Error, Text: source.Say("k", text)}
	}
	got := source.Merge([]source.Fault{fault(0, "a"), fault(2, "b"), fault(1, "a")})
	if len(got) != 2 || got[0].Sizes != 3 || got[1].Sizes != 4 {
		t.Fatalf("Merge = %+v", got)
	}
	f := source.NewFile("a", "0123456789")
	if s := source.Find(f, []string{"S", "M", "L"}, got[0]).String(); s != "1:4: sizes S, M: a" {
		t.Errorf("printed as %q", s)
	}
}

func TestMessageWalk(t *testing.T) {
	m := source.Say("k", "{1} of {0} {9} {", 3, "two")
	if got := m.String(); got != "two of 3 {9} {" {
		t.Errorf("message = %q", got)
	}
}

func TestJoined(t *testing.T) {
	f := source.NewFile("x", "one\r\ntwo\nthree\nfour")
	j := f.Joined([]int{2, 3})
	for n, want := range []string{"one  two three", "", "", "four"} {
		if have := j.Line(n + 1); have != want {
			t.Errorf("line %d is %q, should be %q", n+1, have, want)
		}
		if f.GoesOn(n+1) || j.GoesOn(n+1) != (n == 1 || n == 2) {
			t.Errorf("line %d: goes on %v", n+1, j.GoesOn(n+1))
		}
	}
	for offset := range uint32(len(f.Text)) {
		line, column := j.Position(offset)
		if l, c := f.Position(offset); l != line || c != column {
			t.Errorf("offset %d is at %d:%d, should be at %d:%d", offset, line, column, l, c)
		}
	}
}

package follow_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"sockwright/internal/follow"
	"sockwright/internal/reader"
	"sockwright/internal/source"
)

// Whatever the text says: following it ends, in every size, with counts that a sock can have.
func FuzzFollow(f *testing.F) {
	names, err := filepath.Glob("../check/testdata/*/*.pattern.txt")
	if err != nil || len(names) == 0 {
		f.Fatalf("no patterns: %v", err)
	}
	for i, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(text), uint8(i%4))
	}
	f.Fuzz(func(t *testing.T, text string, sizes uint8) {
		if n := int(sizes % 4); n > 1 { // other sizes than it names, if it names any
			text = "Sizes: A (B, C, D)"[:9+3*n] + ")\n" + text
			text = strings.Replace(text, ",)", ")", 1)
		}
		file := source.NewFile("fuzz.txt", text)
		s := reader.Read(file)
		r := follow.Follow(s)
		if len(r.Final) != len(s.Sizes) || len(r.Sure) != len(s.Sizes) {
			t.Fatalf("%d final counts in %d sizes", len(r.Final), len(s.Sizes))
		}
		for i, n := range r.Final {
			if n < -1 || n > follow.MaxLive || r.Sure[i] && n < 0 {
				t.Fatalf("%d sts are left, surely: %v", n, r.Sure[i])
			}
		}
		if most := file.Lines() * len(s.Sizes); len(r.Counts) > most {
			t.Fatalf("%d counts of %d lines in %d sizes", len(r.Counts), file.Lines(), len(s.Sizes))
		}
		for _, c := range r.Counts {
			for _, n := range []follow.Stitches{c.First, c.Last} {
				if n.Worked < -1 || n.Worked > n.Total && n.Total >= 0 || n.Total < -1 || n.Total > follow.MaxLive {
					t.Fatalf("line %d leaves %+v", c.Line, n)
				}
			}
			if c.Line < 1 || c.Line > file.Lines() || c.Size < 0 || c.Size >= len(s.Sizes) || c.Times < 0 {
				t.Fatalf("a count of nothing: %+v", c)
			}
		}
		for _, x := range r.Faults {
			if x.At.Start > x.At.End || int(x.At.End) > len(file.Text) || x.Text.String() == "" {
				t.Fatalf("a fault at %v: %s", x.At, fmt.Sprint(x.Text))
			}
		}
	})
}

package check_test

import (
	"path/filepath"
	"slices"
	"testing"

	"sockwright/internal/check"
	"sockwright/internal/knit"
	"sockwright/internal/notation"
	"sockwright/internal/source"
)

func FuzzCheck(f *testing.F) {
	for _, name := range faultyPatterns(f) {
		text := readFile(f, name)
		f.Add(text)
		file, _ := announced(f, name, text)
		f.Add(file.Text)
	}
	whole, err := filepath.Glob("../*/testdata/*.txt")
	if err != nil {
		f.Fatal(err)
	}
	for _, name := range whole {
		f.Add(readFile(f, name))
	}
	var full, counts knit.Knitter
	counts.CountsOnly = true
	f.Fuzz(func(t *testing.T, text string) {
		file := source.NewFile("fuzz.txt", text)
		r := check.Pattern(file)
		for _, x := range r.Faults {
			if x.At.Start > x.At.End || int(x.At.End) > len(file.Text) {
				t.Fatalf("fault at %v of %d bytes", x.At, len(file.Text))
			}
			if x.Text.String() == "" || source.Find(file, r.Sizes, x).String() == "" {
				t.Fatalf("a fault without words: %+v", x)
			}
			for _, m := range x.Mends {
				for _, e := range m.Edits {
					if e.At.Start > e.At.End || int(e.At.End) > len(file.Text) {
						t.Fatalf("an edit at %v of %d bytes", e.At, len(file.Text))
					}
				}
			}
		}
		if len(r.Final) != len(r.Sizes) {
			t.Fatalf("%d final counts in %d sizes", len(r.Final), len(r.Sizes))
		}
		if !slices.IsSortedFunc(r.Counts, func(a, b check.Count) int { return a.Line - b.Line }) {
			t.Fatal("counts are not in the order of the lines")
		}
		p := notation.Read(file).Pattern
		for size := range min(3, len(p.Sizes)) {
			a, b := full.Knit(p, size), counts.Knit(p, size)
			if a.Loops > knit.MaxMoves || a.Left > knit.MaxLive || len(a.Faults) > 200 {
				t.Fatalf("limits passed: %d loops, %d live, %d faults", a.Loops, a.Left, len(a.Faults))
			}
			if a.Loops != b.Loops || a.Final != b.Final || len(a.Faults) != len(b.Faults) || len(a.Fabric.Loops) != a.Loops {
				t.Fatalf("with the fabric %d loops, %d final, %d faults; without %d, %d, %d", a.Loops, a.Final, len(a.Faults), b.Loops, b.Final, len(b.Faults))
			}
		}
	})
}

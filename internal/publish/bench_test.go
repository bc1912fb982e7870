package publish_test

import (
	"os"
	"strings"
	"testing"

	"sockwright/internal/proof"
	"sockwright/internal/publish"
	"sockwright/internal/source"
)

// eightSizes is a design of eight sizes, from a child's foot to a large man's.
const eightSizes = `
title = "Gable End"
[gauge]
over = "10 cm"
stitches = 32
rows = 44
[[sizes.own]]
name = "1"
foot_girth = "17 cm"
foot_length = "18 cm"
[[sizes.own]]
name = "2"
foot_girth = "18.5 cm"
foot_length = "20 cm"
[[sizes.own]]
name = "3"
foot_girth = "20 cm"
foot_length = "22 cm"
[[sizes.own]]
name = "4"
foot_girth = "21.5 cm"
foot_length = "23.5 cm"
[[sizes.own]]
name = "5"
foot_girth = "23 cm"
foot_length = "25 cm"
[[sizes.own]]
name = "6"
foot_girth = "24.5 cm"
foot_length = "26.5 cm"
[[sizes.own]]
name = "7"
foot_girth = "26 cm"
foot_length = "28 cm"
[[sizes.own]]
name = "8"
foot_girth = "27.5 cm"
foot_length = "30 cm"
`

// BenchmarkEightSizes times a design of eight sizes through its stages. "proven" is graded,
// built, written, read back, knitted twice and compared; "book" also makes the page.
func BenchmarkEightSizes(b *testing.B) {
	f := source.NewFile("gable-end.toml", eightSizes)
	b.Run("graded", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, plan, _ := publish.Grade(f); plan == nil {
				b.Fatal("no plan")
			}
		}
	})
	b.Run("proven", func(b *testing.B) {
		b.ReportAllocs()
		loops := 0
		for b.Loop() {
			draft, plan, _ := publish.Grade(f)
			p := proof.Prove(publish.Compose(draft, plan, draft.Build(plan), publish.Edition{Alone: publish.AllSizes}), "gable-end.txt", nil)
			if !p.Proven() {
				b.Fatal("not proven")
			}
			loops += 2 * p.Loops()
		}
		b.ReportMetric(float64(loops)/b.Elapsed().Seconds()/1e6, "Mloops/s")
	})
	b.Run("book", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, _, err := publish.Make(f, publish.Options{}); err != nil {
				b.Fatal(err)
			}
		}
	})
}

// Every example in the repository is proven, also by the second witness.
func TestExamples(t *testing.T) {
	files, err := os.ReadDir("../../examples")
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range files {
		if !strings.HasSuffix(e.Name(), ".toml") {
			continue
		}
		t.Run(e.Name(), func(t *testing.T) {
			text, err := os.ReadFile("../../examples/" + e.Name())
			if err != nil {
				t.Fatal(err)
			}
			book, faults, err := publish.Make(source.NewFile(e.Name(), string(text)), publish.Options{})
			if err != nil {
				t.Fatal(err)
			}
			for _, x := range faults {
				if x.Severity > source.Note {
					t.Error(source.Find(book.Draft.File, book.Draft.Names(), x))
				}
			}
			for _, s := range book.Proof.Sizes {
				if err := s.Again.Fabric.CheckFinished(); err != nil {
					t.Errorf("size %s: %v", s.Name, err)
				}
			}
			agree(t, book)
		})
	}
}

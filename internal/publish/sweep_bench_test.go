package publish_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"sockwright/internal/proof"
	"sockwright/internal/publish"
	"sockwright/internal/source"
)

// BenchmarkSweep makes all socks of the sweep over triples of choices, heel by heel, from the
// design file to the page: graded, built, written, read back, knitted twice and compared.
// Designs that are refused are counted before and not timed.
func BenchmarkSweep(b *testing.B) {
	f := factors()
	list, _ := sweepTriples(f, rand.New(rand.NewPCG(1, 2)))
	heel := slices.IndexFunc(f, func(x factor) bool { return x.name == "heel" })
	for kind, name := range f[heel].values {
		b.Run(name, func(b *testing.B) {
			var designs []*source.File
			refused := 0
			for _, c := range list {
				if c[heel] != kind {
					continue
				}
				design := source.NewFile("sweep.toml", c.file(f))
				if _, plan, _ := publish.Grade(design); plan == nil {
					refused++
					continue
				}
				designs = append(designs, design)
			}
			loops := 0
			for b.Loop() {
				loops = 0
				for _, design := range designs {
					book, _, err := publish.Make(design, publish.Options{})
					if err != nil {
						b.Fatal(err)
					}
					loops += book.Proof.Loops()
				}
			}
			b.ReportMetric(float64(len(designs)), "socks")
			b.ReportMetric(float64(refused), "refused")
			b.ReportMetric(float64(loops), "loops")
		})
	}
}

// BenchmarkGrowing proves socks of more and more loops: of a leg ever longer, and of a gauge
// ever finer. Work that is linear takes as long for a loop of the largest as of the smallest.
func BenchmarkGrowing(b *testing.B) {
	prove := func(name, text string) {
		b.Run(name, func(b *testing.B) {
			draft, plan, faults := publish.Grade(source.NewFile("growing.toml", text))
			if plan == nil {
				b.Fatal(faults)
			}
			built := publish.Compose(draft, plan, draft.Build(plan), publish.Edition{Alone: publish.AllSizes})
			loops := 0
			for b.Loop() {
				p := proof.Prove(built, "growing.txt", nil)
				if !p.Proven() {
					b.Fatal("not proven")
				}
				loops = p.Loops()
			}
			b.ReportMetric(float64(loops), "loops")
		})
	}
	design := func(stitches, rows float64, more string) string {
		return fmt.Sprintf("title = \"Growing\"\n[gauge]\nover = \"10 cm\"\nstitches = %g\nrows = %g\n[[sizes.own]]\nname = \"One\"\nfoot_girth = \"225 mm\"\nfoot_length = \"245 mm\"\n%s", stitches, rows, more)
	}
	for rounds := 62; rounds < 2000; rounds *= 2 {
		prove(fmt.Sprintf("longer/%d", rounds), design(32, 44, fmt.Sprintf("[pin]\n\"leg.rounds\" = %d\n", rounds)))
	}
	for _, finer := range []float64{0.5, 0.7, 1, 1.4, 2} {
		prove(fmt.Sprintf("finer/%g", finer), design(32*finer, 44*finer, ""))
	}
}

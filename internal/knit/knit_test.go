package knit_test

import (
	"os"
	"testing"

	"sockwright/internal/knit"
	"sockwright/internal/notation"
	"sockwright/internal/source"
)

func read(t *testing.T, name string) (*source.File, *notation.Reading) {
	t.Helper()
	text, err := os.ReadFile("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	f := source.NewFile(name, string(text))
	return f, notation.Read(f)
}

func TestWholeSock(t *testing.T) {
	f, r := read(t, "band-heel-64.txt")
	for _, x := range r.Faults {
		t.Error(source.Find(f, r.Pattern.Sizes, x))
	}
	var k knit.Knitter
	res := k.Knit(r.Pattern, 0)
	for _, x := range res.Faults {
		t.Error(source.Find(f, r.Pattern.Sizes, x))
	}
	if err := res.Fabric.CheckFinished(); err != nil {
		t.Error(err)
	}
	t.Log(res.Loops, res.Final, res.Left, len(res.Counts))
	if w := notation.Write(r.Pattern).Text; w != f.Text {
		t.Errorf("written again:\n%s", w)
	}
}

func BenchmarkKnit(b *testing.B) {
	text, err := os.ReadFile("testdata/band-heel-64.txt")
	if err != nil {
		b.Fatal(err)
	}
	p := notation.Read(source.NewFile("a", string(text))).Pattern
	for _, c := range []struct {
		name   string
		counts bool
	}{{"fabric", false}, {"counts", true}} {
		b.Run(c.name, func(b *testing.B) {
			k := knit.Knitter{CountsOnly: c.counts}
			b.ReportAllocs()
			loops := 0
			for b.Loop() {
				loops += k.Knit(p, 0).Loops
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(loops), "ns/loop")
		})
	}
}

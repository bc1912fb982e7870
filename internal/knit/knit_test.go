package knit_test

import (
	"fmt"
	"os"
	"testing"

	"sockwright/internal/fabric"
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
	if !res.Sure || res.Final != 16 || res.Left != 0 || res.Loops != len(res.Fabric.Loops) {
		t.Errorf("sure %v, %d stitches at the end, %d left over, %d loops", res.Sure, res.Final, res.Left, res.Loops)
	}
	// A line is counted after its first time and after its last: heel stitches, and all.
	counts := map[string]knit.Count{}
	for _, c := range res.Counts {
		counts[fmt.Sprint(c.Label, " ", c.First.Worked)] = c
	}
	for _, want := range []knit.Count{
		{Label: "Row 2 (WS)", First: knit.Stitches{Worked: 30, Total: 62}, Last: knit.Stitches{Worked: 14, Total: 46}, Times: 9, Sure: true},
		{Label: "Row 20 (WS)", First: knit.Stitches{Worked: 12, Total: 44}, Last: knit.Stitches{Worked: 12, Total: 44}, Times: 1, Sure: true},
		{Label: "Rnd 3", First: knit.Stitches{Worked: 80, Total: 80}, Last: knit.Stitches{Worked: 64, Total: 64}, Times: 9, Sure: true},
		{Label: "Rnd 1", First: knit.Stitches{Worked: 60, Total: 60}, Last: knit.Stitches{Worked: 16, Total: 16}, Times: 12, Sure: true},
	} {
		got := counts[fmt.Sprint(want.Label, " ", want.First.Worked)]
		got.Node, got.At = 0, source.Span{}
		if got != want {
			t.Errorf("%s is counted %+v, want %+v", want.Label, got, want)
		}
	}
	if w := notation.Write(r.Pattern).Text; w != f.Text {
		t.Errorf("written again:\n%s", w)
	}
}

// A knitter that has worked a sock works longer ones without asking for more memory.
func TestNoMemoryPerLoop(t *testing.T) {
	allocs := func(rounds int) float64 {
		text := fmt.Sprintf("LOW TIDE\n\nCO 64 sts. Join to work in the round without twisting. The rnd begins at the center of the back.\nRnd 1: *K2, p2; rep from * to last 4 sts, sl 1, pm, k3.\nRnd 2: K1, M1L, k to m, remove m, ssk, k to end.\nWork the last 2 rnds %d more times.\n", rounds)
		p := notation.Read(source.NewFile("long.txt", text)).Pattern
		k := knit.Knitter{CountsOnly: true}
		return testing.AllocsPerRun(5, func() {
			if res := k.Knit(p, 0); len(res.Faults) > 0 {
				t.Fatal(res.Faults[0].Text)
			}
		})
	}
	if short, long := allocs(1), allocs(500); long > short {
		t.Errorf("500 repeats allocate %v times, 1 repeat %v times", long, short)
	}
}

// What is wrong in one pattern leaves no trace in the next.
func TestKnitterIsUsedAgain(t *testing.T) {
	_, r := read(t, "band-heel-64.txt")
	bad := notation.Read(source.NewFile("bad.txt", "CO 9 sts. Join to work in the round without twisting. The rnd begins at the center of the back.\nSet-up row 1 (RS): K3, pm, turn.\nRow 7: [M1L] 30000 times.\n")).Pattern
	var fresh, used knit.Knitter
	used.Knit(bad, 0)
	if d := fabric.Difference(fresh.Knit(r.Pattern, 0).Fabric, used.Knit(r.Pattern, 0).Fabric); d != "" {
		t.Error(d)
	}
}

// BenchmarkKnit knits a sock of some 10,000 loops. "bare" does nothing but note as many loops
// in two flat arrays, as a measure of the machine.
func BenchmarkKnit(b *testing.B) {
	text, err := os.ReadFile("testdata/band-heel-64.txt")
	if err != nil {
		b.Fatal(err)
	}
	p := notation.Read(source.NewFile("a", string(text))).Pattern
	perLoop := func(b *testing.B, loops int) {
		b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(loops), "ns/loop")
	}
	for _, c := range []struct {
		name string
		k    knit.Knitter
	}{{"fabric", knit.Knitter{Into: &fabric.Fabric{}}}, {"counts", knit.Knitter{CountsOnly: true}}} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			loops := 0
			for b.Loop() {
				loops += c.k.Knit(p, 0).Loops
			}
			perLoop(b, loops)
		})
	}
	b.Run("bare", func(b *testing.B) {
		type record struct {
			first uint32
			about [4]uint8
		}
		var k knit.Knitter
		n := k.Knit(p, 0).Loops
		records, through := make([]record, 0, n), make([]int32, 0, n)
		loops := 0
		for b.Loop() {
			records, through = records[:0], through[:0]
			for i := range n {
				records = append(records, record{uint32(i), [4]uint8{1}})
				through = append(through, int32(i-64))
			}
			loops += n
		}
		perLoop(b, loops)
	})
}

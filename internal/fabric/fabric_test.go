package fabric_test

import (
	"slices"
	"strings"
	"testing"

	"sockwright/internal/fabric"
)

// tube is a small finished piece: four stitches cast on, a round of knit, a gusset of one
// picked-up stitch and one corner stitch that is decreased away, and two grafted pairs.
func tube() *fabric.Fabric {
	f := &fabric.Fabric{}
	row := func(node int32, wrong, round bool) {
		f.Rows = append(f.Rows, fabric.Row{First: int32(len(f.Loops)), Node: node, Wrong: wrong, Round: round})
	}
	row(1, false, true)
	for range 4 {
		f.Add(fabric.CastOn, false) // 0 to 3
	}
	row(2, false, true)
	f.Run(fabric.Knit, false, []int32{0, 1, 2, 3}, make([]int32, 4)) // 4 to 7
	f.Loops[4].Tall = 1
	row(3, false, true)
	f.Add1(fabric.EdgeLoop, false, 4)   // 8
	f.Add1(fabric.CornerLoop, false, 5) // 9
	f.Add(fabric.LiftLeft, false)       // 10
	f.Add1(fabric.Purl, false, 4)       // 11
	f.Add(fabric.K2tog, false, 8, 9)    // 12
	f.Add(fabric.Ssk, false, 5, 10)     // 13
	f.Add(fabric.P2tog, false, 6, 7)    // 14
	f.Add1(fabric.KnitTbl, false, 11)   // 15
	row(4, false, true)
	f.Add(fabric.Grafted, false, 12, 14) // 16
	f.Add(fabric.Grafted, false, 13, 15) // 17
	return f
}

func TestFinished(t *testing.T) {
	if err := tube().CheckFinished(); err != nil {
		t.Errorf("a finished piece: %v", err)
	}
	if err := (&fabric.Fabric{}).CheckFinished(); err != nil {
		t.Errorf("no cloth at all: %v", err)
	}
	for _, c := range []struct {
		rule, want string
		breaks     func(f *fabric.Fabric)
	}{
		{"a loop is left live", "loop 18 is held by 0 loops, not 1: row 3", func(f *fabric.Fabric) { f.Add(fabric.LiftRight, false) }},
		{"a loop is worked twice", "loop 15 is held by 2 loops, not 1: row 2", func(f *fabric.Fabric) {
			i := f.Add1(fabric.Knit, false, 15)
			f.Add(fabric.Grafted, false, i, f.Add(fabric.LiftLeft, false))
		}},
		{"an edge stitch is picked up twice", "edge loop 4 is picked up 2 times", func(f *fabric.Fabric) {
			i := f.Add1(fabric.EdgeLoop, false, 4)
			f.Add(fabric.Grafted, false, i, f.Add(fabric.LiftLeft, false))
		}},
		{"a loop is pulled through a later one", "loop 18 is pulled through loop 18, which is not there yet", func(f *fabric.Fabric) { f.Add1(fabric.Knit, false, 18) }},
		{"a loop is pulled through none that exists", "loop 18 is pulled through loop -1, which is not there yet", func(f *fabric.Fabric) { f.Add1(fabric.Knit, false, -1) }},
		{"a stitch is pulled through nothing", "loop 18 is pulled through nothing", func(f *fabric.Fabric) { f.Add(fabric.Purl, false) }},
		{"a strand is pulled through something", "loop 18 hangs from a strand but is pulled through 1 loops", func(f *fabric.Fabric) { f.Add1(fabric.LiftLeft, false, 3) }},
		{"a graft joins one loop", "grafted loop 18 joins 1 loops, not 2", func(f *fabric.Fabric) { f.Add(fabric.Grafted, false, 15) }},
		{"a graft is worked again", "grafted loop 17 is worked again", func(f *fabric.Fabric) {
			f.Add(fabric.Grafted, false, f.Add1(fabric.Knit, false, 17), f.Add(fabric.LiftLeft, false))
		}},
		{"a piece hangs by itself", "loop 18 does not hang together with the rest", func(f *fabric.Fabric) {
			f.Rows = append(f.Rows, fabric.Row{First: 18})
			f.Add(fabric.Grafted, false, f.Add(fabric.CastOn, false), f.Add(fabric.CastOn, false))
		}},
	} {
		f := tube()
		c.breaks(f)
		if err := f.CheckFinished(); err == nil || err.Error() != c.want {
			t.Errorf("%s: %v, want %q", c.rule, err, c.want)
		}
	}
}

// Two fabrics are equal if they are the same graph, whichever lines made them; where they
// differ, the difference says so.
func TestEqual(t *testing.T) {
	for _, c := range []struct {
		name, want string
		change     func(f *fabric.Fabric)
	}{
		{"nothing", "", func(*fabric.Fabric) {}},
		{"the line that made a row", "", func(f *fabric.Fabric) { f.Rows[1].Node = 77 }},
		{"a kind", "loop 5, row 1: purl through [1] against knit through [1]", func(f *fabric.Fabric) { f.Loops[5].Kind = fabric.Purl }},
		{"a side", "loop 6, row 1: knit on the wrong side through [2] against knit through [2]", func(f *fabric.Fabric) { f.Loops[6].Wrong = true }},
		{"a slipped stitch", "loop 4, row 1: knit, slipped in 2 rows, through [0] against knit, slipped in 1 rows, through [0]", func(f *fabric.Fabric) { f.Loops[4].Tall++ }},
		{"what a loop is pulled through", "loop 12, row 2:", func(f *fabric.Fabric) { slices.Reverse(f.Through(12)) }},
		{"one loop more", "19 loops against 18", func(f *fabric.Fabric) { f.Add(fabric.LiftLeft, false) }},
		{"one loop less", "17 loops against 18", func(f *fabric.Fabric) { f.Loops = f.Loops[:17] }},
		{"one row more", "the rows are divided differently: 5 rows against 4", func(f *fabric.Fabric) { f.Rows = append(f.Rows, fabric.Row{First: 18}) }},
		{"where a row begins", "the rows are divided differently: 4 rows against 4", func(f *fabric.Fabric) { f.Rows[2].First++ }},
		{"the side of a row", "the rows are divided differently", func(f *fabric.Fabric) { f.Rows[2].Wrong = true }},
		{"a row for a round", "the rows are divided differently", func(f *fabric.Fabric) { f.Rows[2].Round = false }},
	} {
		a, b := tube(), tube()
		c.change(a)
		got := fabric.Difference(a, b)
		if !strings.HasPrefix(got, c.want) || (c.want == "") != (got == "") {
			t.Errorf("%s: Difference = %q, want %q", c.name, got, c.want)
		}
		if equal := fabric.Equal(a, b); equal != (c.want == "") {
			t.Errorf("%s: Equal = %v", c.name, equal)
		}
	}
}

func TestFace(t *testing.T) {
	for kind, smooth := range map[fabric.Kind]bool{
		fabric.CastOn: true, fabric.Knit: true, fabric.Purl: false, fabric.KnitTbl: true, fabric.PurlTbl: false,
		fabric.K2tog: true, fabric.Ssk: true, fabric.P2tog: false, fabric.Ssp: false,
		fabric.LiftLeft: true, fabric.LiftRight: true, fabric.EdgeLoop: true, fabric.CornerLoop: true, fabric.Grafted: true,
	} {
		turns := kind != fabric.CastOn && kind < fabric.LiftLeft // worked from the wrong side it shows its other face
		f := &fabric.Fabric{}
		f.Add(kind, false)
		f.Add(kind, true)
		if right, wrong := f.Face(0), f.Face(1); right != smooth || wrong != (smooth != turns) {
			t.Errorf("kind %d: smooth %v from the right side, %v from the wrong side; want %v, %v", kind, right, wrong, smooth, smooth != turns)
		}
	}
}

func TestLean(t *testing.T) {
	want := map[fabric.Kind]int{fabric.K2tog: 1, fabric.P2tog: 1, fabric.K3tog: 1, fabric.P3tog: 1, fabric.Ssk: -1, fabric.Ssp: -1, fabric.Skp: -1, fabric.Sssk: -1}
	for kind := fabric.CastOn; kind <= fabric.Drawn; kind++ {
		if got := kind.Lean(); got != want[kind] {
			t.Errorf("kind %d leans %d, want %d", kind, got, want[kind])
		}
	}
}

// Run and RunBack make the same loops as Add1 makes one by one, in the same memory or not.
func TestRun(t *testing.T) {
	live := []int32{3, 1, 0, 2, 5}
	base := func() *fabric.Fabric {
		f := &fabric.Fabric{}
		for range 6 {
			f.Add(fabric.CastOn, false)
		}
		return f
	}
	want, back := base(), base()
	var wantTo, backTo []int32
	for _, t := range live {
		wantTo = append(wantTo, want.Add1(fabric.Purl, true, t))
	}
	for _, t := range slices.Backward(live) {
		backTo = append(backTo, back.Add1(fabric.Purl, true, t))
	}
	slices.Reverse(backTo)

	for _, c := range []struct {
		name     string
		back     bool
		from, to int // places of the two in one array
	}{
		{"other memory", false, 0, 8}, {"the same memory", false, 2, 2}, {"to begins before", false, 3, 1},
		{"back, other memory", true, 0, 8}, {"back, the same memory", true, 2, 2}, {"back, to ends after", true, 1, 3},
	} {
		memory := make([]int32, 16)
		from, to := memory[c.from:c.from+len(live)], memory[c.to:c.to+len(live)]
		copy(from, live)
		f, wantFabric, wantLive := base(), want, wantTo
		if c.back {
			f.RunBack(fabric.Purl, true, from, to)
			wantFabric, wantLive = back, backTo
		} else {
			f.Run(fabric.Purl, true, from, to)
		}
		if d := fabric.Difference(f, wantFabric); d != "" {
			t.Errorf("%s: %s", c.name, d)
		}
		if !slices.Equal(to, wantLive) {
			t.Errorf("%s: live loops %v, want %v", c.name, to, wantLive)
		}
	}
}

func TestGrowAndReset(t *testing.T) {
	f := &fabric.Fabric{}
	f.Grow(64)
	if n := testing.AllocsPerRun(10, func() {
		f.Reset()
		for range 32 {
			f.Add1(fabric.Knit, false, f.Add(fabric.CastOn, false))
		}
	}); n != 0 {
		t.Errorf("a fabric that has grown allocates %v times", n)
	}
	if f.Reset(); len(f.Loops) != 0 || fabric.Difference(f, &fabric.Fabric{}) != "" {
		t.Errorf("after Reset %d loops are left", len(f.Loops))
	}
}

func TestRowOf(t *testing.T) {
	f := tube()
	f.Rows = slices.Insert(f.Rows, 2, f.Rows[2]) // an empty row, as of slipped stitches
	f.Rows[2].Node = 9
	for loop, want := range map[int32]int{0: 0, 3: 0, 4: 1, 7: 1, 8: 3, 15: 3, 16: 4, 17: 4} {
		if got := f.RowOf(loop); got != want {
			t.Errorf("RowOf(%d) = %d, want %d", loop, got, want)
		}
	}
}

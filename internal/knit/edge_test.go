package knit

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"sockwright/internal/fabric"
	"sockwright/internal/notation"
	"sockwright/internal/source"
)

// A heel is a text that works a heel flat over the middle of a tube of 64 stitches, and
// stops before anything is picked up.
type heel struct {
	setUp  string // from the round to the heel
	rows   string // the flap and the band
	pickUp string // what follows
}

const (
	slippedSetUp = `Set-up row 1 (RS): K16, turn.
Set-up row 2 (WS): Sl 1, p31, turn.
The last 32 sts worked are the heel; the other 32 sts rest for the instep.
`
	atTheSide = `The first 32 sts of the rnd are the heel; the other 32 sts rest for the instep.
`
	band = `Row 1 (RS): Sl 1, k10, pm, k10, pm, ssk, k to end. 31 sts.
Row 2 (WS): Sl 1, p to m, sm, p to m, sm, p2tog, p to end. 30 sts.
Row 3 (RS): Sl 1, k to m, sm, k to m, sm, ssk, k to end. 29 sts.
Work the last 2 rows 7 more times. 17 rows in all. 15 sts.
Work Row 2 once more. 14 sts.
Next row (RS): Sl 1, k1, sm, k10, sm, ssk. 13 sts.
Next row (WS): Sl 1, sm, p10, sm, p2tog. 12 sts.
Remove the stitch markers as you come to them.
`
)

func (h heel) text() string {
	begin := "at the center of the back"
	if h.setUp == atTheSide {
		begin = "at the side, before the heel sts"
	}
	return "SLATE QUAY\n\nCO 64 sts. Join to work in the round without twisting. The rnd begins " + begin + ".\nRnd 1: Knit.\n" + h.setUp + h.rows + h.pickUp
}

// flap is so many rows of a straight heel.
func flap(rows int, unslipped bool) string {
	first := "Sl 1, "
	if unslipped {
		first = ""
	}
	var b strings.Builder
	for i := 1; i <= rows; i++ {
		if i%2 == 1 {
			fmt.Fprintf(&b, "Row %d (RS): %sk to end.\n", i, first)
		} else {
			fmt.Fprintf(&b, "Row %d (WS): %sp to end.\n", i, first)
		}
	}
	return b.String()
}

// work works a text that must be right, and keeps the needles as they are at its end.
func work(t *testing.T, text string) (*Knitter, []source.Finding) {
	t.Helper()
	f := source.NewFile("heel.txt", text)
	r := notation.Read(f)
	if len(r.Faults) > 0 {
		t.Fatalf("%v\n%s", source.Find(f, r.Pattern.Sizes, r.Faults[0]), text)
	}
	k := &Knitter{}
	var findings []source.Finding
	for _, x := range k.Knit(r.Pattern, 0).Faults {
		findings = append(findings, source.Find(f, []string{"1"}, x))
	}
	return k, findings
}

// tall is how many rows each stitch of an edge was slipped through.
func tall(f *fabric.Fabric, e []int32) []int {
	rows := []int{}
	for _, loop := range e {
		rows = append(rows, int(f.Loops[loop].Tall))
	}
	return rows
}

// isLive tells whether a loop is live.
func (k *Knitter) isLive(loop int32) (live bool) {
	k.each(func(e int32) { live = live || e == loop })
	return live
}

func TestBandHeelEdges(t *testing.T) {
	for _, c := range []struct {
		name        string
		setUp       string
		left, right []int // rows that the finished stitches are slipped through, from the bottom up
	}{
		{"set-up row slips", slippedSetUp, slices.Repeat([]int{1}, 18), slices.Repeat([]int{1}, 18)},
		{"no set-up row", atTheSide, append([]int{0}, slices.Repeat([]int{1}, 17)...), slices.Repeat([]int{1}, 18)},
	} {
		t.Run(c.name, func(t *testing.T) {
			k, findings := work(t, heel{setUp: c.setUp, rows: flap(16, false) + band}.text())
			for _, x := range findings {
				t.Error(x)
			}
			for side, want := range map[int][]int{left: c.left, right: c.right} {
				name := [...]string{right: "right", left: "left"}[side]
				e := k.edges[side]
				if got := tall(k.fab, e.finished()); !slices.Equal(got, want) {
					t.Errorf("%s edge: finished stitches are slipped through %v rows, want %v", name, got, want)
				}
				if top := e[len(e)-1]; !k.isLive(top) {
					t.Errorf("%s edge: the topmost stitch %d is not on the needle", name, top)
				}
				if !slices.IsSorted(e) {
					t.Errorf("%s edge does not go up: %v", name, e)
				}
				for _, loop := range e.finished() {
					if k.isLive(loop) {
						t.Errorf("%s edge: finished stitch %d is on the needle", name, loop)
					}
				}
			}
			// The stitch slipped in the last row is the topmost of the left edge, and one of the
			// 12; of the 36 rows that leaves 17 chains of the heel's own, above the leg's stitch.
			top := k.edges[left][len(k.edges[left])-1]
			if n := k.fab.Loops[top].Tall; n != 1 {
				t.Errorf("the stitch slipped in the last row is slipped through %d rows, want 1", n)
			}
			if on := k.live - k.rest; on != 12 {
				t.Errorf("%d stitches on the needle, want 12", on)
			}
			leg := k.edges[left][0]
			if own := k.edges[left].finished()[1:]; len(own) != 17 || k.fab.RowOf(leg) >= k.fab.RowOf(own[0]) {
				t.Errorf("left edge: %d chains above the leg's stitch, want 17", len(own))
			}
		})
	}
}

// Along either edge of that heel 18 stitches can be picked up, each from a stitch of its
// own, and 19 cannot.
func TestBandHeelPickUp(t *testing.T) {
	for _, setUp := range []string{slippedSetUp, atTheSide} {
		for _, c := range []struct {
			left, right int
			short       string
		}{
			{18, 18, ""},
			{17, 16, ""},
			{19, 18, "19 stitches are to be picked up along the left edge, but it has only 18 to pick up from"},
			{18, 19, "19 stitches are to be picked up along the right edge, but it has only 18 to pick up from"},
		} {
			k, findings := work(t, heel{setUp: setUp, rows: flap(16, false) + band, pickUp: fmt.Sprintf(`Partial row (RS): Sl 1, k5.
The rnd now begins here, at the center of the sole.
Rnd 1: N1: k6, pick up and k %d along the left edge of the heel, pick up and k 1 in the corner; N2: k32; N3: pick up and k 1 in the corner, pick up and k %d along the right edge of the heel, k6. %d sts.
`, c.left, c.right, 46+c.left+c.right)}.text())
			if got := fmt.Sprint(findings); len(findings) > 1 || !strings.Contains(got, c.short) || (c.short == "") != (len(findings) == 0) {
				t.Errorf("%d left, %d right: %v, want %q", c.left, c.right, findings, c.short)
			}
			taken, last := map[int32]bool{}, [2]int32{}
			for i, l := range k.fab.Loops {
				if l.Kind != fabric.EdgeLoop {
					continue
				}
				from := k.fab.Through(int32(i))[0]
				if taken[from] {
					t.Errorf("%d left, %d right: stitch %d is taken twice", c.left, c.right, from)
				}
				taken[from] = true
				last[0], last[1] = last[1], from
			}
			if want := min(c.left, 18) + min(c.right, 18); len(taken) != want {
				t.Errorf("%d left, %d right: %d stitches taken, want %d", c.left, c.right, len(taken), want)
			}
			if last[0] > last[1] { // the right edge is worked from the leg down
				t.Errorf("%d left, %d right: the right edge is taken upwards", c.left, c.right)
			}
		}
	}
}

// Of a flap of n rows with slipped edges each edge has a chain for two rows, and the one
// that the leg began; where the first stitches are worked, each edge has a stitch a row.
func TestFlapEdges(t *testing.T) {
	for rows := 2; rows <= 40; rows++ {
		for _, unslipped := range []bool{false, true} {
			k, findings := work(t, heel{setUp: atTheSide, rows: flap(rows, unslipped)}.text())
			for _, x := range findings {
				t.Error(x)
			}
			wantRight, wantLeft := rows/2, (rows+1)/2 // an odd last row ends on the left, and finishes one there
			if unslipped {
				wantRight, wantLeft = rows, rows
			}
			gotRight, gotLeft := k.edges[right].finished(), k.edges[left].finished()
			if len(gotRight) != wantRight || len(gotLeft) != wantLeft {
				t.Errorf("%d rows, unslipped %v: right edge %d, left edge %d; want %d and %d", rows, unslipped, len(gotRight), len(gotLeft), wantRight, wantLeft)
			}
			for side, e := range k.edges {
				for i, n := range tall(k.fab, e.finished()) {
					want := 1
					if unslipped || side == left && i == 0 {
						want = 0
					}
					if n != want {
						t.Errorf("%d rows, unslipped %v: stitch %d of edge %d is slipped through %d rows, want %d", rows, unslipped, i, side, n, want)
					}
				}
			}
		}
	}
}

// However often a stitch is slipped, it stays tall.
func TestTallStaysTall(t *testing.T) {
	k, _ := work(t, "LOW TIDE\n\nCO 8 sts. Join to work in the round without twisting. The rnd begins at the center of the back.\nRnd 1: Sl 1, k to end.\nWork the last rnd 299 more times.\n")
	if got := k.fab.Loops[0].Tall; got != 255 {
		t.Errorf("a stitch slipped 300 times is %d rows tall, want 255, the most that is kept", got)
	}
}

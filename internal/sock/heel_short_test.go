package sock_test

import (
	"fmt"
	"testing"

	"sockwright/internal/fabric"
	"sockwright/internal/pattern"
)

// Computed: a boomerang heel over 32 of 64 stitches with 12 in the middle. Row i of the first
// half works 32 − i stitches; rounds over all 64 follow; row j of the second half works the
// middle and j more, the first of them behind the stitches right of the middle. In the form
// with double stitches a row works the stitch that is doubled after it, too.
func TestBoomerangHeel(t *testing.T) {
	const heel, middle, turns = 32, 12, 10
	for _, turn := range []string{"wrapped", "twin", "yarn-over", "double-stitch"} {
		for _, direction := range []string{"cuff-down", "toe-up"} {
			for _, method := range []string{"double-pointed", "two-circulars"} {
				for between := 1; between <= 4; between++ {
					draft, plan := graded(t, "direction = \""+direction+"\"\n"+wanted{stitches: []int{64}, more: fmt.Sprintf("[needles]\nmethod = %q\n[heel]\nkind = \"boomerang\"\nturn = %q\nbetween = %d\n[pin]\n\"heel.middle_stitches\" = %d\n", method, turn, between, middle)}.text())
					numbers(t, plan, 0, map[string]int{"heel.stitches": heel, "heel.turns": turns, "heel.sole_rounds": 2*turns + between, "heel.stitches_left": heel, "foot.stitches": 64})
					c := knitted(t, draft, plan, 0)
					doubled := 0
					if turn == "double-stitch" {
						doubled = 1
					}
					first := c.worked("Heel")
					for method == "double-pointed" && direction == "cuff-down" && len(first) > 2*turns { // the set-up rows
						first = first[1:]
					}
					var want []int
					for i := 1; i <= 2*turns; i++ {
						want = append(want, heel-i+doubled)
					}
					if fmt.Sprint(first) != fmt.Sprint(want) {
						t.Errorf("%s, %s: the first half works %v, want %v", turn, direction, first, want)
					}
					want = nil
					for j := 1; j <= 2*turns; j++ {
						n := middle + j + doubled
						if j == 1 {
							n += turns
						}
						if j > 2*turns-2 { // the last two are turned at the ends of the heel
							n -= doubled
						}
						want = append(want, n)
					}
					if got := c.worked("Heel, second half"); fmt.Sprint(got) != fmt.Sprint(want) {
						t.Errorf("%s, %s: the second half works %v, want %v", turn, direction, got, want)
					}
					rounds := 0
					for _, n := range c.worked("Heel, rounds between") {
						rounds += n
					}
					if rounds += turns; rounds != 64*between { // the stitches before the middle are worked by row 1
						t.Errorf("%s, %s: %d stitches between the halves, want %d rounds of 64", turn, direction, rounds, between)
					}
				}
			}
		}
	}
}

// worked is how many stitches each row and round of a section works, partial ones too; wraps
// and what else a turn leaves are none.
func (c cloth) worked(section string) (stitches []int) {
	in := map[int32]bool{}
	c.p.Each(func(s *pattern.Section, n pattern.Node) {
		if s.Title == section {
			in[int32(pattern.ID(n))] = true
		}
	})
	for i, r := range c.Fabric.Rows {
		if !in[r.Node] {
			continue
		}
		end := int32(len(c.Fabric.Loops))
		if i+1 < len(c.Fabric.Rows) {
			end = c.Fabric.Rows[i+1].First
		}
		n := 0
		for _, l := range c.Fabric.Loops[r.First:end] {
			if l.Kind != fabric.Wrap && l.Kind != fabric.TwinLoop && l.Kind != fabric.YarnOver {
				n++
			}
		}
		stitches = append(stitches, n)
	}
	return stitches
}

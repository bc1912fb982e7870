package follow_test

import (
	"fmt"
	"slices"
	"testing"

	"sockwright/internal/follow"
	"sockwright/internal/reader"
	"sockwright/internal/source"
)

// What rests on words that could not be read is not told, until a stated count agrees; what
// is wrong behind that is, and so is what is wrong by itself.
func TestDoubt(t *testing.T) {
	for _, c := range []struct {
		name, text string
		lines      []int // of errors and warnings of the work
	}{
		{"a count behind a row nobody knows", `SOCK
CO 60 sts.
Rnd 1: K2, frimble 3, quonk to end.
Knit 4 rnds. 56 sts.
Rnd 2: *K2, p2; rep from * to end.
`, nil},
		{"a clause with a verb nobody knows", `SOCK
CO 60 sts.
Knit 4 rnds. Quindle 8 sts away at the back.
There are 52 sts.
Next rnd: k52.
`, nil},
		{"two counts agree, the third does not", `SOCK
CO 60 sts.
Quindle 8 sts away at the back.
Knit 4 rnds. 52 sts.
Knit 4 rnds. 52 sts.
Knit 4 rnds. 54 sts.
`, []int{6}},
		{"a row of as many stitches settles it", `SOCK
CO 60 sts.
Quindle 8 sts away at the back.
Knit 4 rnds. 52 sts.
Next rnd: k26, p26.
Next rnd: k27, p26.
`, []int{6}},
		{"a marker in words nobody knows", `SOCK
CO 60 sts.
Skewer a marker at each side of the instep.
Dec rnd: K to 3 sts before first m, k2tog, k1, sl m, k to next m, sl m, k1, ssk, k to end.
`, nil},
		{"a statement puts nothing in doubt", `SOCK
CO 60 sts.
The 60 sts are shared out as you like.
Knit 4 rnds. 58 sts.
`, []int{4}},
		{"nor does a measure", `SOCK
CO 60 sts.
Keep at it over 12 cm or thereabouts.
Knit 4 rnds. 58 sts.
`, []int{4}},
		{"most sizes bear a count out", `SOCK
Sizes S (M, L, XL)
CO 56 (60, 64, 72) sts.
Quindle about at the back, 8 of them away.
Knit 4 rnds. 48 (52, 56, 64) sts.
Knit 4 rnds. 48 (52, 58, 64) sts.
`, []int{6}},
		{"rows that could not be read are worked again", `SOCK
CO 60 sts.
Rnd 1: Frimble to end.
Rnd 2: K.
Rep Rnds 1 and 2 until 20 rnds are worked.
`, nil},
		{"half the round is told before it is set apart", `SOCK
CO 60 sts. Knit 10 rnds.
Wrapped heel on the first half of the round, 30 sts.
`, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := source.NewFile("x", c.text)
			var lines []int
			var said []string
			for _, x := range follow.Follow(reader.Read(f)).Faults {
				if x.Severity == source.Note {
					continue
				}
				if line, _ := f.Position(x.At.Start); !slices.Contains(lines, line) {
					lines = append(lines, line)
				}
				said = append(said, fmt.Sprint(source.Find(f, []string{"S", "M", "L", "XL"}, x)))
			}
			slices.Sort(lines)
			if !slices.Equal(lines, c.lines) {
				t.Errorf("found on lines %v, should be %v: %v", lines, c.lines, said)
			}
		})
	}
}

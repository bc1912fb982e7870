package check_test

import (
	"strconv"
	"strings"
	"testing"

	"sockwright/internal/check"
	"sockwright/internal/source"
)

// What no pattern has is answered with where it is, which limit it passes and what to do.
func TestLimits(t *testing.T) {
	const begins = "CO 64 sts.\nJoin to work in the rnd.\n"
	list := func(first, n int) string {
		figures := make([]string, n)
		for i := range figures {
			figures[i] = strconv.Itoa(first + i)
		}
		return "(" + strings.Join(figures, ", ") + ")"
	}
	for _, c := range []struct {
		name, text string
		line       int
		told       string
	}{
		{"a million lines", begins + strings.Repeat("Rnd 1: K.\n", 1_000_000), 0, "the text has 1000003 lines, and a pattern of more than 10000 is not read"},
		{"fifty million letters in a line", begins + "Rnd 1: " + strings.Repeat("k2, p2, ", 50<<20/8), 0, "of more than 524288 is not read"},
		{"a line of a hundred thousand letters", begins + "Rnd 1: " + strings.Repeat("k2, p2, ", 100_000/8), 3, "a line of more than 65536"},
		{"a line of ten thousand words", begins + "Rnd 1: " + strings.Repeat("k2, p2, ", 1600), 3, "behind 4000"},
		{"a billion repeats of a row", begins + "Rnd 1: K1, m1, k to end.\nRep Rnd 1 1000000000 more times.\n", 3, "more than 2000000 stitches"},
		{"a billion repeats in a row", "CO 64 sts.\nRow 1: [yo] 1000000000 times, k.\n", 2, "more than 20000 stitches on the needles"},
		{"a billion rows", begins + "Work 1000000000 rnds.\n", 3, "more than 100000 rows"},
		{"a hundred thousand brackets", begins + "Rnd 1: " + strings.Repeat("[", 100_000) + "k1" + strings.Repeat("] twice", 100_000) + ".\n", 0, "of more than 524288 is not read"},
		{"two thousand brackets", begins + "Rnd 1: " + strings.Repeat("[", 2000) + "k1" + strings.Repeat("] twice", 2000) + ".\n", 3, "12 brackets"},
		{"ten thousand sizes", "Sizes 0 " + list(1, 9999) + "\nCO 60 sts.\nRnd 1: K.\n", 1, "the list has 10000 figures, and no more than 64 sizes are followed"},
		{"ten thousand figures", "CO 60 " + list(61, 9999) + " sts.\nRnd 1: K.\n", 1, "the list has 10000 figures, and no more than 64 sizes are followed"},
		{"more stitches than a number holds", "CO 99999999999999999999 sts.\nRnd 1: K.\n", 1, "1 to 20000"},
		{"more labels than rows", begins + strings.Repeat("Rows 1-1999, 1-1999, 1-1999, 1-1999: K.\n", 1000), 0, "name more than 100000 rows"},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := source.NewFile("large.txt", c.text)
			r := check.Pattern(f)
			for _, x := range r.Faults {
				if got := source.Find(f, r.Sizes, x); strings.Contains(got.Message, c.told) && (c.line == 0 || got.Line == c.line) {
					return
				}
			}
			for _, x := range r.Faults[:min(len(r.Faults), 5)] {
				t.Log(source.Find(f, r.Sizes, x))
			}
			t.Errorf("nothing says %q on line %d", c.told, c.line)
		})
	}
}

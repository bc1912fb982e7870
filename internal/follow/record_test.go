package follow_test

import (
	"fmt"
	"strings"
	"testing"

	"sockwright/internal/follow"
	"sockwright/internal/reader"
	"sockwright/internal/source"
)

// followed works a text that must be free of faults.
func followed(t *testing.T, text string) *follow.Result {
	t.Helper()
	f := source.NewFile("sock.txt", text)
	words := reader.Read(f)
	r := follow.Follow(words)
	for _, x := range append(words.Faults, r.Faults...) {
		line, _ := f.Position(x.At.Start)
		t.Errorf("line %d: %s", line, x.Text.String())
	}
	return r
}

// told is the counts of a line in a size: "64", or "60 ⟶ 24 in 10" where it is worked ten
// times, and how many of all are in work where others rest.
func told(r *follow.Result, line, size int) string {
	one := func(s follow.Stitches) string {
		if s.Worked != s.Total {
			return fmt.Sprintf("%d of %d", s.Worked, s.Total)
		}
		return fmt.Sprint(s.Total)
	}
	for _, c := range r.Counts {
		if c.Line != line || c.Size != size {
			continue
		}
		out := one(c.First)
		if c.Last != c.First {
			out += " ⟶ " + one(c.Last)
		}
		if c.Times != 1 {
			out += fmt.Sprintf(" in %d", c.Times)
		}
		return out
	}
	return "nothing"
}

// TestCounts: what is told of every line of a text, for each size.
func TestCounts(t *testing.T) {
	for _, c := range []struct{ name, text, counts string }{
		{"rows that a repeat works again", `
Toe: 64 sts, half on each needle.
Dec rnd: *K1, ssk, k to last 3 sts of needle, k2tog, k1; rep from * on second needle.
Next rnd: Knit.
Rep the last 2 rnds until 24 sts rem.`, "64; 60 ⟶ 24 in 10; 60 ⟶ 28 in 9; 24"},
		{"two rows of one line", `
Heel on 30 sts.
Row 1 (RS): Sl 1, k16, ssk, k1, turn. Row 2: Sl 1, p5, p2tog, p1, turn.
Row 3: Sl 1, k to 1 st before gap, ssk, k1, turn. Row 4: Sl 1, p to 1 st before gap, p2tog, p1, turn.
Rep Rows 3 and 4 until all sts are worked. 18 sts.`, "30; 28; 26 ⟶ 18 in 5; 18"},
		{"a row and its repeat in one line", `
Toe: 48 sts, half on each needle.
Dec rnd: *K1, ssk, k to last 3 sts of needle, k2tog, k1; rep from * on second needle. Work the Dec rnd 4 more times. 28 sts.
Next rnd: Knit.`, "48; 44 ⟶ 28 in 5; 28"},
		{"many rounds alike", `
CO 60 sts; join.
Rnd 1: *K2, p2; rep from *.
Rep Rnd 1 until 20 rnds are worked.`, "60; 60 in 20; 60"},
		{"a line for one size", `
Sizes S (L)
CO 60 (64) sts; join.
Size L only: *K30, k2tog; rep from * once more. 62 sts.
K 3 rnds.`, "nothing, nothing; 60, 64; 60 in 0, 62; 60, 62"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := followed(t, "SOCK"+c.text)
			for i, want := range strings.Split(c.counts, "; ") {
				var have []string
				for size := range r.Final {
					have = append(have, told(r, i+2, size))
				}
				if have := strings.Join(have, ", "); have != want {
					t.Errorf("line %d: %s, should be %s", i+2, have, want)
				}
			}
		})
	}
}

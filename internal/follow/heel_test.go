package follow_test

import (
	"strings"
	"testing"
)

// TestHeels: heels told in different ways, and what is on the needles after each line.
func TestHeels(t *testing.T) {
	for _, c := range []struct{ kind, text, counts string }{
		{"one row that tells all those to come", `
Heel on 26 sts.
Row 1 (RS): Sl 1, k14, ssk, k1, turn.
Row 2 (WS): Sl 1, p5, p2tog, p1, turn.
Following rows: Sl 1, work to 1 st before the gap, dec over the gap (ssk on RS, p2tog on WS), work 1, turn.
Go on until all sts have been worked; the last row is a WS row. 16 sts.`, "26; 25; 24; 23 ⟶ 16 in 8; 16"},
		{"three parts, and no side stitches left", `
The heel is on 39 sts in three parts: 13 in the middle and 13 at each side.
1st row (RS): Knit 25, ssk, turn.
2nd row (WS): Slip 1, purl 11, p2tog, turn.
3rd row: Slip 1, knit to 1 st before the gap, ssk, turn.
4th row: Slip 1, purl to 1 st before the gap, p2tog, turn.
Repeat 3rd and 4th rows until no side sts are left: 13 sts remain.`, "39; 38; 37; 36 ⟶ 14 in 12; 35 ⟶ 13 in 12; 13"},
		{"a turned heel and its instep", `
There are 14 sts when the heel is turned and 26 sts on the instep.
Next rnd: knit across the heel; pick up and k 13 down the flap, then 1 more in the corner; knit across the instep; pick up and k 1 in the corner, then 13 up the flap.
Now there are 68 sts.`, "14 of 40; 68; 68"},
		{"only some are worked from here", `
Cast on 60 sts and join.
Heel: turn; only the last 30 sts are worked from here.
1st row of the heel (WS): p1, p2tog, p to last 3 sts, p2tog tbl, p1. 28 heel sts, 58 sts altogether.`, "60; 30 of 60; 28 of 58"},
		{"a heel in long-hand", `
Cast on 60 stitches, 20 on each needle.
For the heel put half the stitches, 30, on one needle. Work one row plain and the next row purl, slipping the first stitch of every row, until the heel is two and a quarter inches long, and end with a plain row.
Now purl 18, purl two together, turn. Slip one, knit 6, knit two together, turn. There are 8 stitches in the middle and 10 at each end.
Go backward and forward over the middle, each time taking together one stitch from each side of the gap, until the end stitches are used up and only the 8 are left.
With the same needle pick up 14 loops down the side of the heel, knit across the front needle, pick up 14 loops up the other side, and knit 4 of the 8 on to that needle. There will be 66 stitches in all.`, "60; 30 of 60; 28 of 58; 27 of 57 ⟶ 8 of 38 in 20; 66"},
		{"the set-up of a part alone", `
N1 holds the 29 instep sts and N2 holds the 28 sole sts, 57 sts in all.
Set-up for the instep: [p1, 6 lace sts] 4 times, p1.
Rnd 1: K. 57 sts.`, "57; 29 of 57; 57"},
		{"shaping at the same time", `
Calf: 80 sts.
Knit 30 rnds.
AT THE SAME TIME, on Rnd 5 and every 5 rnds after it, dec as follows: k2, k2tog, k to last 4 sts, ssk, k2.
At the end of the 30 rnds there are 68 sts.`, "80; 80; 78 ⟶ 68 in 6; 68"},
		{"as far as the heel", `
The leg is done as far as the heel: 56 sts.
Heel: knit 28 and turn. Only these sts are worked, to and fro.
Hold the other 28 sts for the instep.
Row 1 (WS): Slip 1, purl to end.`, "56; 28 of 56; 28 of 56; 28 of 56"},
		{"a pattern that goes on behind the rows of a heel", `
Reed patt (multiple of 6 sts):
Rnds 1-6: *K4, p2; rep from * to end.
Leg: over 60 sts work Rnds 1-6 of Reed patt 8 times.
Then work Rnds 1-5 once more.
Heel flap: knit 30 and turn. 30 sts wait for the instep.
Row 1 (WS): Sl 1, p to end.
Row 2 (RS): Sl 1, k to end.
Rep Rows 1 and 2 until 30 rows are worked.
Gusset: k30, pick up and k 15 sts; starting with Rnd 6, work Reed patt over the 30 instep sts; pick up and k 15 sts. 90 sts.`, "nothing; 60 in 53; 60; 60; 30 of 60; 30 of 60 in 15; 30 of 60 in 15; 30 of 60; 90"},
	} {
		t.Run(c.kind, func(t *testing.T) {
			r := followed(t, "SOCK"+c.text)
			for i, want := range strings.Split(c.counts, "; ") {
				if have := told(r, i+2, 0); have != want {
					t.Errorf("line %d: %s, should be %s", i+2, have, want)
				}
			}
		})
	}
}

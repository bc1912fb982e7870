package follow_test

import (
	"strings"
	"testing"
)

// TestHabits: whole parts in the dress of different writers, and what is on the needles after each
// line.
func TestHabits(t *testing.T) {
	for _, c := range []struct{ name, text, counts string }{
		{"steps of a list", `
Step 1. The heel flap has 28 sts; another 28 sts wait on the instep needle.
Step 2. Knit 16, k2tog, turn.
Step 3. Slip 1, p4, p2tog, turn.
Step 4. Slip 1, k5, k2tog, turn.
Step 5. Slip 1, p6, p2tog, turn.
Step 6. Go on like that, always one stitch more between the slipped one and the two together. Your last row reads slip 1, p14, p2tog, nothing is left over at the sides, and 16 sts are on the needle.
Step 7. Knit across them. Along the flap edge pick up and knit 14 sts, then make 1 st in the corner.
Step 8. Knit the instep. Make 1 st in the corner, then pick up and knit 14 sts along the other edge; knit half of the heel sts again. 74 sts.
Step 9. Gusset round: k to 3 sts before the instep, k2tog, k1, knit the instep, k1, ssk, k to the end.
Step 10. Knit one round.
Step 11. Do steps 9 and 10 a further 8 times. 56 sts.`,
			"28 of 56; 27 of 55; 26 of 54; 25 of 53; 24 of 52; 23 of 51 ⟶ 16 of 44 in 8; 31 of 59; 74; 72 ⟶ 56 in 9; 72 ⟶ 56 in 9; 56"},
		{"needles told inside a row", `
Foot: 56 sts, 14 on each needle.
decrease: N1 k until 3 are left, k2tog, k1; N2 k1, ssk, k to end; N3 as N1; N4 as N2
Every other round 4 times in all, 40 sts.
On each needle knit to the last 2, k2tog. 36 sts.
Narrow at the end of each needle in every round, until 16 are left.`, "56; 52 ⟶ 40 in 4; 40; 36; 32 ⟶ 16 in 5"},
		{"markers told inside a row", `
Foot: 60 sts, 30 instep and 30 sole.
Gusset rnd: Knit instep. Sole: k1, m1R, k to last st, m1L, k1.
Plain rnd: Knit.
Work these two rnds 4 times altogether. 68 sts.
Next rnd: Knit instep. Sole: k4, place marker 1, k30, place marker 2, k4.
Knit the instep once more and on to marker 1; slip marker 1.
Short row 1 (RS): K to 1 st before marker 2, w&t.
Short row 2 (WS): P to 1 st before marker 1, w&t.
Short row 3: K to 1 st before the wrapped st, w&t.
Short row 4: P to 1 st before the wrapped st, w&t.
Rep short rows 3 and 4 till there are 9 wrapped sts on each side of 12 unwrapped.`,
			"60; 62 ⟶ 68 in 4; 62 ⟶ 68 in 4; 68; 68; 68; 30 of 68; 30 of 68; 30 of 68 in 8; 30 of 68 in 8; 30 of 68"},
		{"a turn that goes on in prose", `
The heel flap has 30 sts and 30 sts wait.
Sl 1, k16, ssk, k1, turn. Sl 1, p5, p2tog, p1, turn.
Keep closing the gap in this manner, one st more between each time, till all heel sts are in play: 18 sts.`, "30 of 60; 28 of 58; 27 of 57 ⟶ 18 of 48 in 10"},
		{"a turn in an older hand", `
The heel flap has 32 sts and 32 sts wait.
Knit seventeen, slip one, knit one, draw the slipped stitch over, knit one, and turn.
Slip one, purl three, purl two together, purl one, turn.
Slip one, knit four, slip one, knit one, draw it over the knitted one, knit one, turn.
Proceed so, each row longer by a stitch, until the twelve on either side are consumed. 18 sts.
Knit across the eighteen, take up sixteen loops along the heel, knit the thirty-two of the instep, take up sixteen loops along the second side, and knit nine of the heel stitches once more. 82 sts.
Narrow twice, once on each side of the instep and upon the heel side of it, in every other round, until sixty-four are left.
Set sixteen on each of the four needles. Knit together the last two stitches of every needle in every second round, until ten are left on each needle.
Now do so in every round, until there are two on each needle.`, "32 of 64; 31 of 63; 30 of 62; 29 of 61; 28 of 60 ⟶ 18 of 50 in 11; 82; 64; 60 ⟶ 40 in 6; 36 ⟶ 8 in 8"},
		{"a star toe, then a heel on a contrast thread", `
Cast on 56 st, divide them evenly on 4 needles = 14 st per needle. Join.
Round 1: * k 5, k 2 tog *, repeat *-* around = 48 st.
Knit 3 rounds.
Round 5: * k 4, k 2 tog *, repeat *-* around = 40 st.
Knit 2 rounds. Continue with decrease rounds in the same way, always 1 st less before the k 2 tog, and 1 straight round between them, until * k 1, k 2 tog * has been knitted = 16 st.
Last round: k 2 tog all round = 8 st. Break the yarn, draw it through.
Heel: pull out the contrast thread and put 28 st from below and 28 st from above on 4 needles; in addition pick up 1 st in each corner = 58 st.
Round 1: knit, each corner st together with the st beside it = 56 st.
Round 2: N1: k 1, ssk, k to the end. N2: k to the last 3 st, k 2 tog, k 1. N3 as N1. N4 as N2.
Round 3: knit.
Repeat rounds 2 and 3 until 20 st remain.`, "56; 48; 48; 40; 40 ⟶ 16; 8; 58; 56; 52 ⟶ 20 in 9; 52 ⟶ 24 in 8; 20"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := followed(t, "SOCK"+c.text)
			for i, want := range strings.Split(c.counts, "; ") {
				if have := told(r, i+2, 0); have != want {
					t.Errorf("line %d: %s, should be %s", i+2, have, want)
				}
			}
		})
	}
}

package follow_test

import (
	"strings"
	"testing"
)

// TestWordings: texts that are right, and what is on the needles after each line.
func TestWordings(t *testing.T) {
	for _, c := range []struct{ name, text, counts string }{
		{"three plain rounds between", `
Leg: 60 sts.
Dec rnd: K1, k2tog, k to last 3 sts, ssk, k1. 58 sts.
K 3 rnds.
Rep the last 4 rnds 3 more times. 52 sts.
The leg takes 16 rnds.`, "60; 58 ⟶ 52 in 4; 58 ⟶ 52 in 4; 52; 52"},
		{"a decrease round without a label", `
Toe: 60 sts.
Next rnd: dec 4 sts evenly. K 1 rnd.
Rep these 2 rnds until 20 sts rem.`, "60; 56 ⟶ 20 in 10; 20"},
		{"so many times in all", `
Calf: 80 sts.
Dec rnd: K1, k2tog, k to last 3 sts, ssk, k1. 78 sts.
Work the Dec rnd on every 8th rnd, 8 times in all. 64 sts.
The calf takes 64 rnds.`, "80; 78 ⟶ 64 in 8; 64; 64"},
		{"so many times more", `
Calf: 80 sts.
Dec rnd: K1, k2tog, k to last 3 sts, ssk, k1. 78 sts.
Work the Dec rnd on every 8th rnd 7 more times. 64 sts.
The calf takes 57 rnds.`, "80; 78 ⟶ 64 in 8; 64; 64"},
		{"the first row lays the markers", `
K14, pm A, k28, pm B, k14, pm for BOR. 56 sts.
Dec rnd: K to 3 sts before A, k2tog, k1, sl A, k1, ssk, k to 3 sts before B, k2tog, k1, sl B, k1, ssk, k to BOR. 52 sts.
There are 26 sts between A and B.`, "56; 52; 52"},
		{"an inserted heel", `
Heel: remove the waste yarn; 26 sts from below and 26 sts from above go on to two needles. Pick up and k 1 st in each corner. 54 sts.
Next rnd: K, working each corner st tog with the st after it. 52 sts.
Dec rnd: *K1, ssk, k to last 3 sts of needle, k2tog, k1; rep from * on second needle.
Next rnd: Knit.
Rep the last 2 rnds until 10 sts rem on each needle.`, "54; 52; 48 ⟶ 20 in 8; 48 ⟶ 24 in 7; 20"},
		{"a short-row heel with twin stitches", `
Foot: 56 sts, half on the instep needle and half on the heel needle.
Row 1 (RS), heel needle: k27, make twin in the last st, turn.
Row 2 (WS): p26, make twin in the last st, turn.
Row 3: k to 1 st before the twin, make twin in that st, turn.
Row 4: p to 1 st before the twin, make twin in that st, turn.
Rep Rows 3 and 4 until 9 twins are made at each side; 10 single sts lie between them.
Row A (RS): k10, k the next twin as one, lift one more loop into the twin after it, turn.
Row B (WS): p11, p the next twin as one, lift one more loop into the twin after it, turn.
Cont so, one st further in every row, until only the outermost twin at each side is left.
Next rnd: k all 56 sts, closing the last two twins.`,
			"56; 28 of 56; 28 of 56; 28 of 56 in 8; 28 of 56 in 8; 28 of 56; 28 of 56; 28 of 56; 28 of 56; 56"},
		{"a cup of double stitches beside a gusset", `
Foot: 76 sts, 28 on N1 and 48 on N2.
Heel cup, Row 1 (RS): on N2, k38, turn. The cup is worked on the centre 28 sts; 10 gusset sts rest at each side of it.
Row 2 (WS): ds, p27, turn.
Row 3: ds, k to the ds at the far side, turn.
Row 4: ds, p to the ds at the far side, turn.
Rep Rows 3 and 4 until there are 9 ds at each side and 10 plain sts between them.
Row A (RS): K to last st of the centre sts, working each ds as one; ssk this st with the first gusset st; turn.
Row B (WS): Sl 1, p26, p2tog the last centre st with the first gusset st; turn.
Flap row 1 (RS): (Sl 1, k1) 13 times, sl 1, ssk, turn.
Flap row 2 (WS): Sl 1, p26, p2tog, turn.
Rep the last 2 rows until every gusset st is used. 56 sts.`,
			"76; 28 of 76; 28 of 76; 28 of 76 in 8; 28 of 76 in 8; 28 of 76; 28 of 75; 28 of 74; 28 of 73 ⟶ 28 of 57 in 9; 28 of 72 ⟶ 28 of 56 in 9; 28 of 56"},
		{"a short-row heel with yarn overs", `
Heel on 30 sts. The 30 instep sts rest.
Row 1 (RS): K29, turn.
Row 2 (WS): Yo, p28, turn.
Cont in this way, with 1 st fewer in each row, until 10 sts rem in the centre.
There are 10 sts in the centre and 10 at each side of them.
Row 1 (RS): Yo, k10, k next loop tog with the st after it (k2tog), turn.
Row 2 (WS): Yo, p11, p2tog, turn.
Row 3: Yo, k to the first loop, k3tog, turn.
Row 4: Yo, p to the first loop, p both loops tog with the st after them, turn.
Rep Rows 3 and 4 until all 30 heel sts have been worked.
Next rnd: K round all the sts, working each loop that is left at the corners tog with the nearest instep st. 60 sts.`,
			"30 of 60; 30 of 60; 30 of 60; 30 of 60 in 18; 30 of 60; 30 of 60; 30 of 60; 30 of 60 in 9; 30 of 60 in 9; 30 of 60; 60"},
		{"a heel from parts of two needles, a round toe", `
CO 96 sts, 32 on each needle.
Dec 2 sts every 6th rnd until 72 sts rem.
Work back and forth on the first 36 sts for the heel.
Work 36 rows in St st, slipping the first st of every row.
Turn, Row 1 (RS): Sl 1, k19, skp, k1, turn.
Row 2: Sl 1, p5, p2tog, p1, turn.
Row 3: Sl 1, k to within one of the gap, k2tog, k1, turn.
Row 4: Sl 1, p to within one of the gap, p2tog, p1, turn.
Rep Rows 3 and 4 until all sts are used. 20 sts.
K20, pick up and k 18, k the 36 instep sts, pick up and k 18. 92 sts.
K 1 rnd.
Next rnd, narrow once before the instep and once after it.
Rep these 2 rnds until 72 sts rem.
Knit seven and narrow, eight times in the rnd. K 3 rnds.
Knit six and narrow, all round. K 2 rnds.
Go on so, with one stitch less each time between the narrowings, until 8 stitches are left.`,
			"96; 72; 36 of 72; 36 of 72; 35 of 71; 34 of 70; 33 of 69 ⟶ 21 of 57 in 7; 32 of 68 ⟶ 20 of 56 in 7; 20 of 56; 92; 92 ⟶ 74 in 10; 90 ⟶ 72 in 10; 72; 64; 56; 8"},
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

package follow_test

import (
	"strings"
	"testing"
)

// TestPhrases: turns of phrase, by kind, and what they leave on the needles. Every line of a
// text is worked or counted; nothing may be found wrong with it.
func TestPhrases(t *testing.T) {
	for _, c := range []struct{ kind, text, counts string }{
		{"a row like another that is named by its number alone", `
Cast on 60 sts.; join.
1st round: * P.2, k.4; rep. from * to end.
2nd round: As 1st.
3rd round: as first.
Work 9 more rnds as 1st round. 12 rounds have been worked.`, "60; 60 in 10; 60; 60; 60"},
		{"so many rounds of a chart, again and again", `
LEAF CHART
 2 | k o > p
 1 | k k k p
Key: k = knit; p = purl; o = yo; > = ssk
CO 40 sts and join.
Work Rnds 1 and 2 of Leaf Chart 10 times around, on all 40 sts.
Rep Rnds 1 and 2 6 more times, for 14 rnds of Leaf Chart in all.`, "nothing; nothing; nothing; nothing; 40; 40 in 14; 40"},
		{"the chart that is named, not the nearest", `
CHART A
 1 | k k k p
CHART B
 1 | k k k k p
Key: k = knit; p = purl
CO 40 sts and join.
Rnd 1: work Rnd 1 of Chart A 10 times.
Rnd 2: work Rnd 1 of Chart B 8 times.`, "nothing; nothing; nothing; nothing; nothing; 40; 40; 40"},
		{"a needle that goes on in pattern", `
CO 48 sts. Slip the first 25 sts to N1 and the last 23 sts to N2. Join.
Rnd 1: N1 - work in patt as established; N2 - k1, ssk, k to last 3 sts, k2tog, k1. 46 sts.
Rnd 2: N1, patt; N2, knit.
Work N1 in patt as established and N2 in St st until foot measures 7 in, ending with Rnd 2 or Rnd 5 of Chart A.
Rnd 1: N1: in patt, N2: k to end.`, "48; 46; 46; 46; 46"},
		{"stitches that move to the next needle", `
CO 48 sts. Slip the first 25 sts to N1 and the last 23 sts to N2. Join.
Slip the first st of N1 to the end of N2. 24 sts on each needle.
Rnd 1: *K1, ssk, k to last 3 sts of needle, k2tog, k1; rep from * on N2. 44 sts.
Work Rnd 1 every rnd 4 times. 28 sts: 14 on each needle.`, "48; 48; 44 ⟶ 28 in 5; 28"},
		{"one needle worked off on another", `
CO 40 sts. Place the first 10 sts on N1, the next 20 sts on N2 and the last 10 sts on N3.
K the sts of 1st needle on to 3rd needle. 20 sts on each of two needles.`, "40; 40"},
		{"a row that lays the stitches out anew", `
CO 60 sts. Slip the first 14 sts to N1, the next 32 sts to N2 and the last 14 sts to N3.
Next round: K., arranging the sts. so that there are 15 on 1st needle, 30 on 2nd needle and 15 on 3rd needle. 60 sts.
1st dec. round: 1st needle, k. to last 3 sts., k.2 tog., k.1; 2nd needle, k.1, ssk, k. to last 3 sts., k.2 tog., k.1; 3rd needle, k.1, ssk, k. to end. 56 sts.
Dec. in the same way on the 5 foll. alt. rounds. 36 sts.
Dec. in the same way on the next 3 rounds. 24 sts.`, "60; 60; 56 ⟶ 24 in 9; 36; 24"},
		{"a heel set apart by what has just been worked", `
Cast on 60 sts.; join.
HEEL
Patt. the first 32 sts., working the 5th round of patt. and ending p.2. Slip these sts. on to a holder for instep.
On to one needle work the rem. 28 sts. for heel as follows.
1st row: * Sl.1, k.1; rep. from * to end. Turn.
2nd row: Sl.1, p. to end. Turn.
Rep. these 2 rows 13 times more. 28 rows have been worked, and there are 14 slipped loops at each edge.`, "60; nothing; 28 of 60; 28 of 60; 28 of 60 in 14; 28 of 60 in 14; 28 of 60"},
		{"a turn that grows by a stitch in every row", `
Heel on 28 sts.
1st row: Sl.1, k.15, ssk, k.1, turn.
2nd row: Sl.1, p.5, p.2 tog., p.1, turn.
Cont. in this way, working 1 st. more before the dec. on every row, until all sts. have been worked. 16 sts.`, "28; 27; 26; 25 ⟶ 16 in 10"},
		{"a round told needle by needle, in a line each", `
Heel turned: 16 sts; 32 instep sts rest.
K. across 8 heel sts. and leave them on a spare needle.
1st needle: k. the other 8 heel sts., then pick up and k. 14 sts. along side of heel. 22 sts.
2nd needle: patt. the 32 sts. from holder, working the 6th round of patt.
3rd needle: pick up and k. 14 sts. along other side of heel, then k. the 8 sts. from spare needle. 22 sts.
There are now 76 sts.
1st round: 1st needle, k. to last 3 sts., k.2 tog., k.1; 2nd needle, patt.; 3rd needle, k.1, ssk, k. to end. 74 sts.`, "16; 16; 30; 62; 76; 76; 74"},
		{"stitches named by what the text says of them", `
To turn under is to knit two stitches together as one.
To slip and draw is to slip one stitch, knit the next, and draw the slipped stitch over it.
Cast on 40 stitches; join.
Next round: knit one, slip and draw, knit to the last three stitches, turn under, knit one. 38 stitches.`, "nothing; nothing; 40; 38"},
		{"a seam that is raised and narrowings beside it", `
Cast on 96 stitches, thirty-two on each of three pins, and draw them into a ring.
Knit one round, and at the end of the third pin raise one stitch for the seam. There will be 97 stitches, the third pin holding thirty-three.
Narrowing round: knit one, slip and bind; knit plain to the last four stitches of the third pin; narrow, knit one, and work the seam stitch. 95 stitches.
Knit five rounds plain.
Repeat these six rounds until you have narrowed twelve times in all, keeping this account:
After the fourth narrowing there are 89 stitches.
After the twelfth narrowing there are 73 stitches: twenty on the first pin, thirty-two on the second, twenty-one on the third.`, "96; 97; 95 ⟶ 73 in 12; 95 ⟶ 73 in 12; 73; 73; 73"},
		{"a heel gathered from two needles", `
Cast on 73 stitches. Put the first 20 stitches on N1, the next 32 stitches on N2 and the last 21 stitches on N3. Join.
Knit the first eighteen stitches of the first pin on to the end of the third pin. Then take nineteen stitches from the third pin, the seam stitch among them, so that 37 are together upon one pin for the heel.
The other 36 stitches are for the front; put them upon two pins, and let them wait.
Then knit one row and purl one row, slipping the first stitch of every row, until thirty-six rows are done.
There are now eighteen loops along each side of the heel.
First row: slip one, knit twenty, slip and bind, knit one, turn. 36 stitches.
Second row: slip one, purl six, purl two together, purl one, turn. 35 stitches.`, "73; 37 of 73; 37 of 73; 37 of 73; 37 of 73; 36 of 72; 35 of 71"},
		{"needles counted in their order", `
Cast on 73 stitches. Put the first 19 stitches on N1, the next 36 stitches on N2 and the last 18 stitches on N3. Join.
On the first pin are 19 stitches, on the second 36, on the third 18; in all 73.
Next round: first pin, knit one, narrow, knit to the end; the other pins plain. Now there are 72 stitches: 18, 36 and 18.`, "73; 73; 72"},
		{"narrowings told by their place", `
Cast on 72 stitches. Put the first 18 stitches on N1, the next 36 stitches on N2 and the last 18 stitches on N3. Join.
First narrowing: first pin, knit to the last three stitches, narrow, knit one; second pin, knit one, slip and bind, knit to the last three stitches, narrow, knit one; third pin, knit one, slip and bind, knit to the end. 68 stitches.
Knit two rounds plain.
Second narrowing, as the first: 64 stitches. Knit two rounds plain.
Third narrowing: 60 stitches.
Now narrow in every round, six rounds, when 36 stitches will be left: nine on the first pin, eighteen on the second, nine on the third.
Put the stitches of the first and third pins together upon one pin, eighteen against eighteen.`, "72; 68; 68; 64; 60 ⟶ 36 in 7; 36; 36"},
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

package follow_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"sockwright/internal/follow"
	"sockwright/internal/reader"
	"sockwright/internal/source"
)

// TestAnnounced: rows that are announced, alternated or worked again in one sentence, in the words of several
// writers; what they leave on the needles and what is wrong with them.
func TestAnnounced(t *testing.T) {
	gusset := `
Foot: 70 sts.
Dec rnd: K1, ssk, k to last 3 sts, k2tog, k1.
Rnd 2: K.
`
	for _, c := range []struct{ text, counts, faults string }{
		// two rounds in turn
		{gusset + "Alternate these two rnds until 56 sts are left.", "70; 68 ⟶ 56 in 7; 68 ⟶ 58 in 6", ""},
		{gusset + "Alternate the last 2 rnds until 60 sts rem.", "70; 68 ⟶ 60 in 5; 68 ⟶ 62 in 4", ""},
		{gusset + "Alternate these two rnds until 57 sts are left.", "", "5 parity"},
		{gusset + "These 2 rnds are worked until 56 sts remain.", "70; 68 ⟶ 56 in 7", ""},
		{gusset + "The last 2 rnds are repeated until 56 sts remain.", "70; 68 ⟶ 56 in 7", ""},
		{"\nFoot: 40 sts.\nRnd A: K1, m1, k to last st, m1, k1.\nRnd B: K.\nAlternate A and B until 6 of each have been worked in all. 52 sts.", "40; 42 ⟶ 52 in 6", ""},
		{"\nFoot: 40 sts.\nRnd A: K1, m1, k to last st, m1, k1.\nRnd B: K.\nWork rnds A and B until 6 of both are done. 52 sts.", "40; 42 ⟶ 52 in 6", ""},
		{"\nFoot: 40 sts.\nRnd A: K1, m1, k to last st, m1, k1.\nRnd B: K.\nAlternate A and B until 6 of each have been worked. 54 sts.", "", "5 stitch-count"},
		// a shaping round with plain ones after it
		{"\nCalf: 80 sts.\nDec rnd: K1, ssk, k to last 3 sts, k2tog, k1.\nThe dec rnd is worked 4 times in all, with one plain round after each, then 3 times more with three plain rounds after each. 66 sts.", "80; 78 ⟶ 66 in 7", ""},
		{"\nCalf: 80 sts.\nDec rnd: K1, ssk, k to last 3 sts, k2tog, k1.\nThe dec rnd is worked 4 times in all, with 2 plain rnds between them. 72 sts.", "80; 78 ⟶ 72 in 4", ""},
		{"\nFoot: 60 sts, 30 for the instep and 30 for the sole.\nToe rnd: *K1, ssk, k to last 3 sts of needle, k2tog, k1; rep from * on second needle.\nThe toe rnd is worked every other rnd until 40 sts remain, then on every rnd until 20 sts remain.", "60; 56 ⟶ 20 in 10", ""},
		{"\nCalf: 80 sts.\nDec rnd: K1, ssk, k to last 3 sts, k2tog, k1.\nThe dec rnd is repeated on every 4th rnd 6 times more. 66 sts.", "80; 78 ⟶ 66 in 7", ""},
		// told before it is told how
		{"\nCalf: 80 sts.\nKnit 40 rnds. Every fifth one of these rnds is a dec rnd, the rest are plain.\nDec rnd: K1, ssk, k to last 3 sts, k2tog, k1.\nAfter the 40 rnds there are 64 sts.", "80; 80; 78 ⟶ 64 in 8; 64", ""},
		{"\nCalf: 80 sts.\nWork 30 rnds in st st. Each 6th rnd of them is a dec rnd; knit the others.\nDec rnd: K1, ssk, k to last 3 sts, k2tog, k1.\nThere are now 70 sts.", "80; 80; 78 ⟶ 70 in 5; 70", ""},
		{"\nCalf: 80 sts.\nKnit 42 rnds. Every fifth one of these rnds is a dec rnd.\nDec rnd: K1, ssk, k to last 3 sts, k2tog, k1.\n42 rnds have been worked, and there are 62 sts.", "80; 80", "5 stitch-count"},
		// the last row behind the count of rows
		{"\nHeel on 28 sts, RS facing.\nRow 1 (RS): Sl 1, k to end.\nRow 2 (WS): Sl 1, p to end.\nWork Rows 1 and 2 a total of 14 times, 28 rows, so that the last row worked is a WS row.", "28; 28 in 14; 28 in 14", ""},
		{"\nHeel on 28 sts, RS facing.\nRow 1 (RS): Sl 1, k to end.\nRow 2 (WS): Sl 1, p to end.\nWork Rows 1 and 2 14 times in all, 28 rows, ending with a RS row.", "28; 28 in 14; 28 in 14", "5 direction"},
		// a heel that is knitted before anything else is said
		{"\nKnit 30 sts, turn; the wrong side now faces, and the flap is worked on these sts.\nRow 1 (WS): Sl 1, p to end.\nRow 2 (RS): Sl 1, k to end.", "30; 30; 30", ""},
		{"\nCO 60 sts; join.\nSlip 30 sts to one needle for the heel.\nRow 1 (RS): Sl 1, k to end.", "60; 30 of 60; 30 of 60", ""},
		// how much is left to the wanted length
		{"\nFoot: 60 sts.\nKnit the foot to 5 cm less than the wanted length. 60 sts.", "60; 60", ""},
		{"\nFoot: 60 sts.\nKnit every round until 2 in short of the full length. 60 sts.", "60; 60", ""},
		{"\nFoot: 60 sts.\nKnit 12 rnds without narrowing. 60 sts.", "60; 60", ""},
		// a turn of which all rows are alike
		{"\nThe heel flap has 34 sts and 34 sts wait.\nK22, ssk, turn. Sl 1, p10, p2tog, turn.\nFrom here on every row is: sl 1, work 10, take the next st together with the first st past the gap (ssk on the right side, p2tog on the wrong side), turn.\nGo on until the side sts are used up. 12 sts are left.", "34 of 68; 32 of 66; 31 of 65 ⟶ 12 of 46 in 20", ""},
		{"\nThe heel flap has 34 sts and 34 sts wait.\nK22, ssk, turn. Sl 1, p10, p2tog, turn.\nFrom now on, each row goes: sl 1, work 10, take the next st together with the first st beyond the gap (ssk on RS rows, p2tog on WS rows), turn.\nGo on until the side sts are used up. 14 sts are left.", "", "5 stitch-count"},
		// a short-row heel with double stitches
		{"\n60 sts in the round; the heel takes the first 30 sts.\nDS (double st): yarn to front, slip the st, pull the yarn to the back until both legs of it lie on the needle.\nRow 1 (RS): Knit the 30 heel sts, turn.\nRow 2 (WS): DS, purl to the end of the heel sts, turn.\nRow 3: DS, knit up to the first double st you meet, turn.\nRow 4: DS, purl up to the double st that you come to, turn.\nRep Rows 3 and 4, stopping after a Row 3 without turning, when 10 plain sts lie between 10 double sts on each side.\nKnit 1 rnd over all 60 sts, taking both legs of each double st together as one.", "30 of 60; nothing; 30 of 60; 30 of 60", ""},
		{"\n60 sts in the round; the heel uses the last 30 sts.\nRow 1 (RS): Knit the 30 heel sts, turn.\nRow 2 (WS): DS, purl to the end of the heel sts, turn.\nRow 3: DS, knit to the DS, turn.\nRow 4: DS, purl to the DS, turn.\nRep Rows 3 and 4, stopping when there are 10 plain sts between 9 double sts on each side.", "", "7 stitch-count"},
		{"\nLeg: 84 sts.\nTake two together on each side of the seam st, which loses two sts. Do this in every sixth round until nine narrowing rounds have been worked and 66 sts are left.", "84; 82 ⟶ 66", ""},
		{"\nLeg: 84 sts.\nDec 2 sts at the seam. Do so in every 4th rnd until 5 dec rnds are done and 72 sts are left.", "", "3 stitch-count"},
		{"\nHeel on 33 sts. 33 sts wait for the front.\nUpon the heel sts work thirty rows, one plain and one purled by turns, always slipping the first st, and end with a purled row.\nThere are 15 edge sts along each side.", "33 of 66; 33 of 66", ""},
		{"\nCast on 84 sts upon three pins, 28 to each. 84 sts.", "84", ""},
		{"\nCast on 84 sts upon three pins, 26 to each.", "", "2 stitch-count"},
		{"\nCO 64 sts; join.\nDivide: 31 sts for the heel and 33 sts for the instep.\nRow 1 (RS): K to end.", "64; 31 of 64; 31 of 64", ""},
		{"\nCO 64 sts; join.\nDivide the sts into 30 for the heel and 33 for the instep.", "", "3 stitch-count"},
		// how long the work is from its edge
		{"\nTension: 30 sts and 40 rnds to 4 in over stocking st.\nCast on 60 sts and join.\nCuff: *k1, p1; rep from * for 15 rnds.\nLeg: knit 70 rnds. The sock now measures 8 1/2 in from the cast-on edge.", "nothing; 60; 60 in 15; 60", ""},
		{"\nTension: 30 sts and 40 rnds to 4 in over stocking st.\nCast on 60 sts and join.\nCuff: *k1, p1; rep from * for 15 rnds.\nLeg: knit 70 rnds. The work should now be 9 1/2 in long from the cast-on edge.", "", "5 length"},
		{"\nTension: 30 sts and 40 rnds to 10 cm over stocking st.\nCast on 60 sts and join.\nKnit 60 rnds. It measures 18 cm from the beginning.", "", "4 length"},
		{"\nTension: 30 sts and 40 rnds to 10 cm over stocking st.\nCast on 60 sts and join.\nRib: *k1, p1* for 3 cm.\nLeg: Knit 60 rnds. It measures 18 cm from the cast-on.", "", ""},
		{"\nTension: 30 sts and 40 rnds to 10 cm over stocking st.\nCast on 60 sts and join.\nKnit 60 rnds.\nHeel: knit 30, turn, and work on these sts only.\nRow 1 (WS): Sl 1, p to end.\nRow 2 (RS): Sl 1, k to end.\nRep Rows 1 and 2 14 more times. The work measures 15 cm from the cast-on edge.", "", ""},
		// needles
		{"\nBegin with 24 sts, 12 on each of two needles. The first needle is the top (T), the second the sole (S).\nRnd C: T, k; S, k1, m1, k to last st, m1, k1.\nRnd D: k.\nRep Rnds C and D 4 more times. T now has 12 sts and S has 22 sts, which makes 34 altogether.", "24; 26 ⟶ 34 in 5", ""},
		{"\nBegin with 24 sts, 12 on each of two needles. Needle 1 holds the instep (A) and needle 2 the sole (B).\nRnd 1: A, k1, m1, k to last st, m1, k1; B, k. A has 14 sts, B has 13 sts.", "", "3 stitch-count"},
		{"\nCast on 20 sts in a loop, half on each needle.\nInc round: (K1, m1, k to last st of needle, m1, k1) on both needles. 4 sts more.\nRep the inc round 3 times more. 36 sts.", "20; 24 ⟶ 36 in 4; 36", ""},
		{"\nThere are 20 sts on the 1st needle, 30 on the 2nd (instep) and 20 on the 3rd; in all 70 sts.\nGusset rnd: N1, k to last 3 sts, k2tog, k1; N2, k; N3, k1, ssk, k to end. 68 sts.", "70; 68", ""},
		// what the flap leaves at its edges
		{"\nThe heel flap had 32 rows, so that 16 chain sts run up each edge.\nThe heel is turned, 18 sts; the instep is 32 sts.\nNext rnd: K18, pick up and k 16 sts, k the 32 instep sts, pick up and k 18 sts. 82 sts.", "nothing; 18 of 50", "4 pickup"},
	} {
		t.Run(c.text, func(t *testing.T) {
			f := source.NewFile("sock.txt", "SOCK"+c.text)
			words := reader.Read(f)
			r := follow.Follow(words)
			var have []string
			for _, x := range append(words.Faults, r.Faults...) {
				line, _ := f.Position(x.At.Start)
				have = append(have, fmt.Sprintf("%d %s", line, x.Kind))
			}
			if have := strings.Join(have, ", "); have != c.faults {
				t.Errorf("faults “%s”, should be “%s”", have, c.faults)
			}
			if c.counts == "" {
				return
			}
			for i, want := range strings.Split(c.counts, "; ") {
				if have := told(r, i+2, 0); have != want {
					t.Errorf("line %d: %s, should be %s", i+2, have, want)
				}
			}
		})
	}
}

// TestDrawnAndCounted: a chart, how often it is worked in a round, and which of its rows the words name.
func TestDrawnAndCounted(t *testing.T) {
	const chart = `
40 sts, in the round.

CHART, 4 sts
 3 | p k k k
 2 | k p k k
 1 | k k p k
Key: k = knit; p = purl

`
	for _, c := range []struct{ words, faults string }{
		{"The 4 sts of the chart are worked ten times in every rnd.", ""},
		{"The chart is repeated 10 times across the rnd.", ""},
		{"The chart is worked 9 times in each rnd.", "10 stitch-count"},
		{"Work Rnds 1-3 of the chart 5 times, 15 rnds in all.", ""},
		{"Work Rnds 1-3 five times, 15 rnds in all.", ""},
		{"Work Rnds 1-5 of the chart 5 times, 15 rnds in all.", "10 chart-text-mismatch"},
		{"Work Rnds 1-4 of the chart 5 times.", "10 chart-text-mismatch"},
	} {
		f := source.NewFile("sock.txt", "SOCK"+chart+c.words)
		words := reader.Read(f)
		var have []string
		for _, x := range append(words.Faults, follow.Follow(words).Faults...) {
			line, _ := f.Position(x.At.Start)
			have = append(have, fmt.Sprintf("%d %s", line, x.Kind))
		}
		if have := strings.Join(slices.Compact(have), ", "); have != c.faults { // every pass tells it
			t.Errorf("%s: “%s”, should be “%s”", c.words, have, c.faults)
		}
	}
}

// TestOtherSizesInBrackets: what a row is in some of the sizes stands in brackets behind it.
func TestOtherSizesInBrackets(t *testing.T) {
	for _, row := range []string{
		"Next rnd: *k13 (31, -), k2tog; rep from * to end (size L: k all sts). 56 (64, 72) sts.",
		"Next rnd: *k13 (31, -), k2tog; rep from * to end (L: k). 56 (64, 72) sts.",
		"Next rnd: *K13 (31, -), k2tog; rep from * (in size L: just k all sts). 56 (64, 72) sts.",
	} {
		f := source.NewFile("sock.txt", "SOCK\nSizes S (M, L)\nCO 60 (66, 72) sts; join.\n"+row+"\nK 1 rnd.")
		words := reader.Read(f)
		r := follow.Follow(words)
		for _, x := range append(words.Faults, r.Faults...) {
			t.Errorf("%s: %s", row, x.Text.String())
		}
		for size, want := range []string{"56", "64", "72"} {
			if have := told(r, 5, size); have != want {
				t.Errorf("%s: size %d has %s, should have %s", row, size, have, want)
			}
		}
	}
}

// TestSizesBeforeCounts: the sizes are named at the head of the line that tells the first counts.
func TestSizesBeforeCounts(t *testing.T) {
	for _, line := range []string{"S, M, L: 60, 64, 68 sts in the round.", "S / M / L: 60 / 64 / 68 sts in the round.", "Small, Medium, Large: 60, 64, 68 sts in the round."} {
		f := source.NewFile("sock.txt", "SOCK\n"+line+"\nK 10, 12, 14 rnds.\nDec rnd: K1, ssk, k to last 3 sts, k2tog, k1. 58, 62, 66 sts.")
		if strings.Contains(line, "/") {
			f = source.NewFile("sock.txt", strings.ReplaceAll(f.Text, ", ", " / "))
		}
		words := reader.Read(f)
		r := follow.Follow(words)
		for size, want := range []string{"60", "64", "68"} {
			if have := told(r, 2, size); have != want {
				t.Errorf("%s: size %d has %s, should have %s", line, size, have, want)
			}
		}
	}
}

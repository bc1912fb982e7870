package reader_test

import "testing"

// TestLabels: what a row may be called by.
func TestLabels(t *testing.T) {
	for _, a := range []alike{
		{"row 3: sl1, k to end", []string{
			"Row 3: Sl 1, k to end.",
			"row 3 – sl 1, knit to end",
			"R3: sl 1, k to end.",
			"R 3: sl 1, knit to the end",
			"3rd row (RS): Sl 1, k to end.",
			"Back of heel row 3 (RS): Sl 1, k to end.",
			"turning row 3: slip 1, knit to end",
			"Short row 3: Sl 1, k to end.",
			"3rd short row: Sl 1, k to end.",
			"Ladder row 3: Sl 1, k to end.",
			"3rd and following rows: Sl 1, k to end.",
			"Row 3 and every following row: Sl 1, k to end.",
			"Row 3 onwards: Sl 1, k to end.",
		}},
		{"row 3: k1, dec, k to end", []string{
			"Rnd 3: K1, ssk, k to end.",
			"Rd 3: k1, ssk, k to end.",
			"round 3 - k1, ssk, knit to end",
			"R3: k1, ssk, k to end.",
			"Step 4. Rd 3: k1, ssk, k to end.",
			"4) Round 3: K1, ssk, k to end.",
			"(4) Round 3: K1, ssk, k to end.",
			"- round 3: k1, ssk, k to end",
			"• Round 3 – k1, ssk, k to end",
			"b) Rnd 3: k1, ssk, k to end.",
		}},
		{"row: k1, dec, k to end", []string{
			"Decrease: k1, ssk, k to end.",
			"decrease – k1, ssk, knit to end",
			"- decrease: k1, ssk, k to end",
			"Decrease round – k1, ssk, k to end.",
			"Dec: K1, ssk, k to end.",
			"a: k1, ssk, k to end",
			"Round a: k1, ssk, k to end.",
			"round B – k1, ssk, k to end",
			"Star round: k1, ssk, k to end.",
			"1. K1, ssk, k to end.",
			"Step 2: k1, ssk, k to end.",
			"Step three - k1, ssk, k to end.",
			"k1, ssk, k to end",
		}},
		{"row: sl1, p to end", []string{
			"(WS) Sl 1, p to end.",
			"WS: sl 1, p to end",
			"WS row: Sl 1, p to end.",
			"Wrong side: Sl 1, p to end.",
		}},
		{"row: k to end for 2 rows", []string{
			"Next two rounds: knit.",
			"Next 2 rounds: Knit.",
			"next 2 rnds – knit",
			"Following 2 rounds: knit.",
		}},
		{"row 5 7 9 11: k to end", []string{
			"Rows 5 to 11, odd rows only: knit.",
			"Rows 5-11 (odd rows): Knit.",
			"Rows 5 - 11, odd-numbered rows: knit.",
			"Rows 5, 7, 9 and 11: knit.",
		}},
		{"row: k27, turn; row: p26, turn", []string{
			"Knit 27, turn. Purl 26, turn.",
			"k27, turn; p26, turn",
			"1) K27, turn. P26, turn.",
		}},
		{"row: k1, dec, k to end; plain  for 1 rows; repeat 8 times more", []string{
			"Step 9. K1, ssk, k to end.\nStep 10. Knit one round.\nStep 11. Do steps 9 and 10 a further 8 times.",
			"9) K1, ssk, k to end.\n10) Knit 1 round.\n11) Repeat steps 9 and 10 another 8 times.",
			"a) K1, ssk, k to end.\nb) Knit 1 round.\nc) Work steps a and b 8 more times.",
			"9. K1, ssk, k to end.\n10. Knit 1 round.\n11. Steps 9 and 10 eight more times.",
		}},
		{"row: k1, dec, k to end; row: k to end; repeat 8 times more", []string{
			"a: k1, ssk, k to end\nb: knit\nrounds a and b 8 more times",
			"Round a: k1, ssk, k to end.\nRound b: knit.\nRepeat rounds a and b 8 more times.",
			"Rnd A: K1, ssk, k to end.\nRnd B: Knit.\nWork Rnds A and B another 8 times.",
		}},
		{"row 1: k1, dec, k to end; row 2: k to end; repeat 1 2 8 times more", []string{
			"R1: k1, ssk, k to end\nR2: knit\nRep R1 and R2 8 more times.",
			"Rd 1: k1, ssk, k to end\nRd 2: knit\nRd 1 and 2 another 8 times",
		}},
	} {
		a.test(t)
	}
}

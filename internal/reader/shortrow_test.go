package reader_test

import "testing"

// TestShortRows: turns that wrap or double a stitch, and how it is worked open again.
func TestShortRows(t *testing.T) {
	for _, a := range []alike{
		{"row 1: k27, wrap", []string{
			"Row 1 (RS): k27, w&t.",
			"Row 1 (RS): K27, wrap next st and turn.",
			"Row 1 (RS): K27, wrap the next st, turn.",
			"Row 1 (RS): k27, make twin in the last st, turn.",
			"Row 1 (RS): K27, make a twin st in the next st and turn.",
			"Row 1 (RS): K27, twin the next st, turn.",
			"Row 1 (RS): K27, lift one more loop into the twin after it (three loops), turn.",
		}},
		{"row 5: k to wrap, k1, wrap", []string{
			"Row 5 (RS): k to nearest wrapped st, k it together with its wrap, w&t.",
			"Row 5 (RS): K to the next wrapped st, k the wrapped st tog with its wrap, w&t.",
			"Row 5 (RS): K to the next twin, k the twin as one, twin the next st, turn.",
			"Row 5 (RS): K to the next twin, k the next twin as one st, lift one more loop into the twin after it, turn.",
			"Row 5 (RS): K to wrapped st, k it and its wrap together, wrap next st and turn.",
		}},
		{"unwrap", []string{
			"Cont so, one st further in every row and working all loops of a twin as one, until only the outermost twin at each side is left.",
			"Cont in this way, working 1 more st in each row and its wrap with it, until all wraps have been worked.",
			"Go on in this manner, one stitch further every row, closing the twins, until none is left.",
		}},
		{"row: k56", []string{
			"Next rnd: k all 56 sts, closing the last two twins.",
			"Next rnd: K56, picking up the last wraps.",
			"Next rnd: k56, working each ds as one.",
		}},
		{"row 3: sl1, k to wrap, turn", []string{
			"Row 3: ds, k to the ds at the far side, turn.",
			"Row 3: MDS, k to ds, turn.",
			"Row 3 (RS): Ds, k to the double st on the other side, turn.",
			"Row 3: DS, knit to the next double stitch, turn.",
		}},
		{"row: k to end less 1, dec, turn", []string{
			"Row A (RS): K to last st of the centre sts, working each ds as one; ssk this st with the first gusset st; turn.",
			"Next row (RS): K to the last st of the middle section, ssk the last centre st and the next side st, turn.",
			"Next row: k to last centre st, k2tog it with the next gusset st, turn.",
		}},
		{"state (76) (48 on N2); row: k28", []string{
			"There are 76 sts, of which 48 on Ndl 2. K the 28 sts of Ndl 1.",
			"76 sts, 48 of them on needle 2. K the 28 sts on N1.",
			"76 sts: 48 sts on N2. K28.",
		}},
		{"row 3: inc, k to wrap, dec, turn", []string{
			"Row 3: Yo, k to the first loop, k both loops tog with the st after them (k3tog), turn.",
			"Row 3: Yo, k to the next loop, k the two loops together with the next st, turn.",
			"Row 3: Yo, k to the yo, k the yo tog with the next st, turn.",
			"Row 3: Yo, k to next yo, k together the yo and the st after it, turn.",
			"Row 3: Yo, k to the loop, k2tog, turn.",
		}},
		{"row 3: inc, k27, turn; plain  until (10 of part)", []string{
			"Row 3: Yo, k27, turn. Cont in this way, with 1 st fewer in each row, until you have worked \"yo, p10, turn\".",
			"Row 3: Yo, k27, turn. Go on so, working 1 stitch less every row, until you have worked the row “yo, p10, turn”.",
			"Row 3: Yo, k27, turn. Continue, each row 1 st less than the last, until 10 sts remain in the centre.",
			"Row 3: Yo, k27, turn. Carry on with one stitch fewer each time until 10 sts are left in the middle.",
		}},
		{"repeat 3 4 until used up", []string{
			"Rep Rows 3 and 4 until all 30 heel sts have been worked.",
			"Rep Rows 3 and 4 until all the heel sts have been worked.",
			"Repeat Rows 3 and 4 until all 30 sts are worked.",
		}},
		{"state (60 in all); divide 30", []string{
			"Work the heel back and forth over 30 of the 60 sts.",
			"Heel worked flat on 30 of 60 sts.",
		}},
	} {
		a.test(t)
	}
}

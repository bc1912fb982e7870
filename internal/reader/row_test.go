package reader_test

import "testing"

// TestRows: rows that are told without a label, and what stands around them.
func TestRows(t *testing.T) {
	for _, a := range []alike{
		{"row: [k6, dec] 8 reps", []string{
			"For the toe, knit six and narrow, eight times in the round.",
			"K6, k2tog, 8 times in the rnd.",
			"Knit 6 and narrow, 8 times.",
			"K6, knit two together, eight times around.",
		}},
		{"row: [k5, dec] to end", []string{
			"Knit five and narrow, all round.",
			"Then knit five and narrow, round and round.",
			"K5, k2tog, all the way round.",
			"*K5, k2tog; rep from * to end.",
		}},
		{"plain  for 1 rows", []string{
			"With A k 1 rnd.",
			"Using M. k. 1 round.",
			"In MC, k 1 rnd.",
			"With the main colour, knit 1 round.",
			"Using yarn B k 1 rnd.",
		}},
		{"row: work to end", []string{
			"Hem: fold with wrong sides together and k each st tog with its own CO loop.",
			"Knit every stitch together with the loop of the cast-on edge below it.",
			"K each st tog with the corresponding CO st.",
		}},
		{"plain stockinette until a length after a RS", []string{
			"Work one row plain and the next row purl, slipping the first stitch of every row, until the heel is two and a quarter inches long, and end with a plain row.",
			"Knit one row and purl the next, slipping the first st of every row, until the heel measures 2 1/4 in, ending with a knit row.",
			"Work 1 row plain and 1 row purl until the flap is two and three quarter inches long, ending with a RS row.",
			"Knit one row, purl one row, until the flap measures 2 and a half inches, finishing after a right side row.",
			"Work one row knit, then the other purl, until the heel is two inches and a half long; the last row is a plain row.",
			"Knit a row and purl a row by turns until the heel is two and one half inches long, ending with a plain row.",
		}},
		{"plain stockinette for 46 rows", []string{
			"Knit and purl in turn for forty-six rows, slipping the first stitch of each.",
			"Work 46 rows in st st, slipping the first st of every row.",
			"Work 46 rows st.st., each beg. sl.1.",
			"Work 46 rows over these sts in st st, slipping the first st of each row.",
			"Work 46 rows of st st on these sts only, slipping the first st of each row.",
			"Over these sts work 46 rows in st st, slipping the first st of each row.",
			"Work back and forth in st st for 46 rows, slipping the 1st st at the beginning of each row.",
			"Work 46 rows of stocking stitch, the first st of each row slipped.",
			"Work 46 rows in St st, always slip the first stitch.",
		}},
		{"plain stockinette for 10 rows", []string{
			"Work 10 rnds in st st, slipping markers, until piece measures 5 in.",
			"Work 10 rnds in st st, slipping markers as you come to them, until piece measures 5 in.",
			"Work 10 rnds in st st, slipping the markers as you come to them.",
		}},
		{"row 1: k2, p2; row 2: k2, p2", []string{
			"Row 1: K2, p2.\nRow 2: As for row 1.",
			"Row 1: K2, p2.\nRow 2: As given for row 1.",
		}},
		{"row 2: k to end", []string{
			"Rnd 2: Plain knit.",
			"Rnd 2: Plain knit round.",
			"Rnd 2: Knit around.",
			"Rnd 2: Knit around all the sts.",
		}},
		{"divide 28", []string{
			"On to one needle work the remaining 28 sts for the heel.",
			"On to one needle work the remaining 28 sts for the heel flap.",
		}},
		{"lift 30 30 and 1 in 2 corners (62)", []string{
			"Place the 30 sts below and the 30 sts above on needles and pick up 1 st at each corner. 62 sts.",
			"Remove the waste yarn; 30 sts from below and 30 sts from above go on to two needles. Pick up and k 1 st in each corner in the first rnd. 62 sts.",
			"Take out the waste yarn and put the 30 sts from the lower edge and the 30 sts from the upper edge on two needles; pick up 1 extra st in both corners. 62 sts.",
			"Pull out the waste yarn. Slip 30 live sts from the bottom and 30 live sts from the top to 2 needles. Pick up 1 st at either end. 62 sts.",
		}},
	} {
		a.test(t)
	}
}

// TestPlaces: which stitches are meant.
func TestPlaces(t *testing.T) {
	for _, a := range []alike{
		{"state (60) (30 of part) (30 of part)", []string{
			"60 sts, of which 30 are the instep and 30 the sole.",
			"There are 60 sts, 30 for the instep and 30 for the sole.",
			"60 sts: 30 instep sts and 30 sole sts.",
			"60 sts; 30 of them are the instep, 30 the sole.",
		}},
		{"state ( between a/b)", []string{
			"The instep lies between A and B.",
			"A and B mark the instep.",
			"The instep sts are between markers A and B.",
			"A and B are at each side of the instep.",
			"Markers A and B lie on either side of the instep sts.",
		}},
		{"row: k20, pm, k20, pm, k20, pm", []string{
			"Next rnd: K20, pm A, k20, pm B, k20, pm for BOR.",
			"Next rnd: K20, place marker A, k20, place marker B, k20, pm for beg of rnd.",
			"Next rnd: k20, pm, k20, pm, k20, pm at BOR.",
		}},
	} {
		a.test(t)
	}
}

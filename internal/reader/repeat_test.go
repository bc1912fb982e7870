package reader_test

import "testing"

// TestRepeats: rows that are worked again, in the words of many designers.
func TestRepeats(t *testing.T) {
	for _, a := range []alike{
		{"repeat last 2 until 64", []string{
			"Knit these two rounds by turns until 64 stitches remain.",
			"Work these 2 rnds alternately until 64 sts rem.",
			"Rep the last 2 rnds until 64 sts rem.",
			"Work the last two rounds in turn until 64 stitches are left.",
		}},
		{"row 2 3 4: chart to end; repeat 1 2 3 4 2 times more", []string{
			"Work rounds 2 to 4 from chart, then rounds 1 to 4 twice more.",
			"Work Rnds 2-4 of the chart, then rep Rnds 1-4 2 more times.",
			"Work chart rnds 2-4, and then work Rnds 1 to 4 twice.",
			"Follow Rnds 2 to 4 of chart A, then Rnds 1-4 two times.",
		}},
		{"row 1: [k1, dec, k to end less 3, dec, k1] 1 times more", []string{
			"Rnd 1: *K1, ssk, k to last 3 sts of needle, k2tog, k1; rep from * for other needle.",
			"Rnd 1: *K1, ssk, k to last 3 sts of needle, k2tog, k1; rep from * over the other needle.",
			"Rnd 1: *K1, ssk, k to last 3 sts of needle, k2tog, k1; rep from * across the second needle.",
			"Rnd 1: *K1, ssk, k to last 3 sts of needle, k2tog, k1; rep from * on N2.",
		}},
		{"repeat 1 2 until used up after a WS", []string{
			"Rep Rows 1 and 2 and stop after a purl row, when no sts wait at the sides.",
			"Rep Rows 1 and 2, stop after a WS row, once no side sts are left waiting.",
			"Rep Rows 1 and 2, stopping after a purl row, as soon as no sts wait at the sides.",
		}},
		{"repeat 1 2 until used up", []string{
			"Rep Rows 1 and 2 until every wrap has been picked up.",
			"Rep Rows 1 and 2 until all wraps have been worked.",
		}},
		{"plain  until a length", []string{
			"Then just knit until piece measures 6 in.",
			"Now simply knit until piece measures 6 in.",
			"Just knit until piece measures 6 in.",
			"Knit 60 sts round and round until piece measures 6 in.",
			"Knit round and round until piece measures 6 in.",
		}},
		{"plain rib for 15 rows; plain  until a length", []string{
			"k2, p2 rib for 15 rnds. then just knit until piece measures 6 in.",
			"k2 p2 rib x 15 rnds. then just knit until piece measures 6 in.",
			"K2, p2 rib for 15 rounds. Then just knit until piece measures 6 in.",
			"k2, p2 rib for 15 rnds. then knit round and round until piece measures 6 in.",
		}},
		{"row 1 2 3 4: chart to end; repeat 1 2 3 4 3 times in all", []string{
			"Work Rnds 1-4 of the chart three times.",
			"Work chart rnds 1 to 4 3 times in all.",
			"Follow Rnds 1-4 of Chart B, 3 times.",
		}},
		{"row 1 2 3 4: chart to end; repeat 1 2 3 4 3 times in all (12 rows)", []string{
			"Work Rnds 1-4 of the chart three times. 12 rnds.",
			"Work Rnds 1-4 of the chart, 3 times in all: 12 rnds.",
		}},
		{"row: sl1, k to gap less 1, dec, k1, turn; row: sl1, p to gap less 1, dec, p1, turn; repeat last -2 until used up (18)", []string{
			"Slip one, knit to within one stitch of the gap, knit two together, knit one, turn; and the same again purling; and so on until the side stitches are all used and eighteen are left.",
			"Sl 1, k to 1 st before the gap, k2tog, k1, turn; then the same on the wrong side; and so on until all side sts are used and 18 sts rem.",
			"Slip 1, knit to within one of the gap, k2tog, knit 1, turn; and the same again purling; and so on until all the side sts are used and 18 are left.",
			"Sl 1, k to within 1 st of the gap, ssk, k1, turn; work the same on the purl side; and so on until the side sts are all used and 18 rem.",
		}},
		{"row 2: k to end; repeat 1 until 8", []string{
			"Rnd 2: Knit.\nNow Rnd 1 only until 8 sts are left.",
			"Rnd 2: Knit.\nThen work Rnd 1 only until 8 sts remain.",
			"Rnd 2: Knit.\nWork Rnd 1 alone until 8 sts are left.",
			"Rnd 2: Knit.\nThen Rnd 1 every rnd until 8 sts rem.",
			"Rnd 2: Knit.\nNow repeat the 1st rnd only, until 8 sts remain.",
			"Rnd 2: Knit.\nNow work only Rnd 1 until there are 8 sts.",
		}},
		{"repeat last 2 0 times more (30)", []string{
			"Do not repeat the last 2 rnds. 30 sts.",
			"Do not work the last two rounds again: 30 stitches.",
		}},
	} {
		a.test(t)
	}
}

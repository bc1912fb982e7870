package reader_test

import "testing"

// TestCountsInProse: counts behind a dash or an arrow, behind words, over several needles.
func TestCountsInProse(t *testing.T) {
	for _, a := range []alike{
		{"row 2: dec to end (30)", []string{
			"Rnd 2: K2tog around - makes 30.",
			"Rnd 2: K2tog around: that's 30.",
			"Rnd 2: K2tog around -> 30.",
			"Rnd 2: K2tog around = 30 sts.",
			"Rnd 2: K2tog around, which leaves 30.",
			"Rnd 2: K2tog around. You now own 30 loops.",
			"Rnd 2: K2tog around; you're down to 30.",
			"Rnd 2: K2tog around [30 sts].",
		}},
		{"row 2: dec to end (30) (15 on each)", []string{
			"Rnd 2: K2tog around, leaving 30 (15 on each needle).",
			"Rnd 2: K2tog around: 30 sts on 2 needles, 15 on each.",
			"Rnd 2: K2tog around. 30 sts with 15 on each.",
		}},
		{"state (60) (30 of part)", []string{
			"The stitches stand at 60, instep still 30.",
			"60 sts in work, instep again 30.",
			"You should have 60 sts, then 30 instep.",
		}},
		{"state (64) (16 on each)", []string{
			"You should have 64 sts on 4 needles, 16 on each.",
			"64 sts on four needles: 16 on each needle.",
		}},
		{"repeat last 2 until 10", []string{
			"Rep these 2 rnds until the sock is down to 10.",
			"Rep these 2 rnds till you own 10.",
			"Repeat both rounds until there are 10.",
			"Last two rounds until the round has 10 sts.",
		}},
	} {
		a.test(t)
	}
}

// TestRepeatsInProse: rows by letters, without a verb, rounds between, and how a thing goes on.
func TestRepeatsInProse(t *testing.T) {
	const ab = "Rnd A: K1, m1, k to end.\nRnd B: Knit.\n"
	const dec = "Dec rnd: *K1, ssk, k to last 3 sts of needle, k2tog, k1; rep from * on second needle.\n"
	const toe = "Rnd 1: *K8, k2tog; rep from *. 54 sts.\n"
	for _, a := range []alike{
		{"row: k1, inc, k to end; row: k to end; repeat until 66", []string{
			ab + "A and B until there are 66.",
			ab + "Carry on A, B, A, B till you own 66 stitches, and finish with a B.",
			ab + "Rep rnds A and B until there are 66 sts.",
			"Round a: k1, m1, k to end.\nRound b: knit, no fuss.\nKeep going with a, b, a, b until there are 66 sts.",
		}},
		{"repeat last 2 12 times in all", []string{
			"Work these two rnds 12 times altogether.",
			"Work the two toe rnds 12 times in all.",
			"Repeat both rounds 12 times in all.",
		}},
		{"repeat last 2 until used up", []string{
			"Last two rows until everything's in.",
			"Repeat the last two rows till everything is in.",
			"Rep the pair of rows until all the side sts have had their turn.",
			"Repeat these two rows until all sts are worked in.",
		}},
		{"repeat 3 4 until 9 are wrapped (9 wrapped) (12 not wrapped)", []string{
			"Rep short rows 3 and 4 till there are 9 wrapped sts on each side of 12 unwrapped.",
			"Rows 3 and 4 again and again -> 9 twinned at each side, 12 plain between.",
			"Rows 3 and 4 over and over until there are 9 wrapped sts at each side, 12 ordinary stitches in between.",
		}},
		{"row 1: [k8, dec] to end (54); shape as fewer every 2 until 12", []string{
			toe + "Cont with one stitch less between the decreases each time and 1 plain round after until 12 sts remain.",
			toe + "One stitch less between the decreases each time, with 1 plain round after, until 12 sts are left.",
		}},
		{"row 1: [k8, dec] to end (54); shape as fewer every 1 until 12", []string{
			toe + "Go on like this, with 1 st less between the decs in every round, until 12 remain.",
			toe + "One stitch fewer before the k2tog in each rnd until 12 are left.",
		}},
		{"row: [k1, dec, k to end less 3, dec, k1] 1 times more; shape as last every 3 9 times in all", []string{
			dec + "K 2 rounds between, 9 decrease rounds in all.",
			dec + "So every 3rd round is a decrease round; 9 dec rounds in all.",
		}},
		{"row: [k1, dec, k to end less 3, dec, k1] 1 times more; shape as dec every 3 9 times in all", []string{
			dec + "Work the decrease round 9 times in all with 2 plain rounds between.",
			dec + "Repeat the dec round with 2 rounds between, 9 times in all.",
			dec + "Dec in this way every 3rd round 9 times in all.",
		}},
		{"row: [k1, dec, k to end less 3, dec, k1] 1 times more; shape as dec every 2 5 times in all; shape as dec every 1 4 times", []string{
			dec + "Dec in this way every other round 5 times in all, then every round 4 times.",
			dec + "Work the dec rnd every 2nd rnd 5 times in all.\nThen every round 4 times.",
			dec + "The same decreases every other round 5 times in all, then every round 4 times.",
		}},
		{"shape as dec every 1 until (2 on each)", []string{
			"Decrease so on each needle in every round until each has 2 sts.",
			"Dec in this way on every needle every round until there are 2 sts on each needle.",
		}},
	} {
		a.test(t)
	}
}

// TestShortRowsInProse: wraps, twins, shadows and yarn overs told in sentences, and both halves of the heel.
func TestShortRowsInProse(t *testing.T) {
	for _, a := range []alike{
		{"row 1: k to end less 1, wrap", []string{
			"Row 1 (RS): Knit all but the last heel stitch, make that one a shadow stitch, turn.",
			"Row 1: K until 1 sole st is left, twin that st, turn",
			"Row 1: Knit all but one stitch, wrap it and turn.",
			"Row 1: K to last st, double that stitch, turn.",
			"Row 1: Knit to the last stitch; the last stitch becomes a double stitch; turn.",
			"1st row, right side: knit all but the last of the sts, make it a twin, turn.",
		}},
		{"row 3: k to wrap less 1, wrap", []string{
			"Row 3: K until 1 st is left before the twinned one, twin that st, turn",
			"Row 3: K to the stitch before the last wrapped stitch, wrap it, turn.",
			"Row 3: Knit to one stitch before the double stitch, double the next stitch, turn.",
			"Row 3: Knit up to the stitch in front of the last shadow stitch, make that stitch a shadow stitch, turn.",
		}},
		{"row 1: k29, wrap; plain  until (10 of part)", []string{
			"Row 1: k29, w&t.\nEach row ends one stitch sooner until 10 sts are left in the middle.",
			"Row 1: k29, w&t.\nKeep going, one stitch less each row, till you have purled a row of only 10 stitches.",
			"Row 1: k29, w&t.\nGo on like this, every row one stitch shorter, until 10 sts are left in the centre.",
		}},
		{"row 1: k19, wrap; unwrap", []string{
			"Row 1: k19, w&t.\nEach row ends one stitch later until all the stitches are in work again.",
			"Row 1: k19, w&t.\nThen one stitch further in every row until all the heel stitches have had their turn.",
			"Row 1: k19, w&t.\nGo on so, each row one stitch longer, until the first and the last st have been wrapped too.",
			"Row 1: k19, w&t.\nFrom now on every row meets a wrapped stitch; work it and its wrap as one. Stop when the very last stitch at each end has been used.",
		}},
		{"row: inc, k10, dec, turn; row: inc, p11, dec, turn", []string{
			"Yarn over, knit the 10, knit the next yarn over and the stitch after it together, turn. Yarn over, purl 11, purl the next yarn over and the stitch after it together, turn.",
			"Now widen again. Yo, k 10, k the yo and the st after it tog, turn. Yo, p 11, p the yo and the st after it tog, turn.",
		}},
		{"row: k to wrap, work1, wrap", []string{
			"Row C: k to the twinned st, work it with its twin, twin the next st, turn",
			"Row C: K to the wrapped st, work it and its wrap together, wrap the next st, turn.",
		}},
		{"row 1: wrap; repeat last -2 until 10 are wrapped (10 wrapped) (12 not wrapped)", []string{
			"Row 1: w&t.\nStop when there are 10 shadow stitches at each end and 12 ordinary stitches in between.",
			"Row 1: w&t.\nEnd when there are 10 twinned sts at each side and 12 plain between.",
		}},
		{"row: work to end (56)", []string{
			"Next round: all the way round again, knitting any last yarn over with the stitch beside it: 56 on the loop.",
			"Next rnd: the way round once, closing the twins. 56 sts.",
		}},
		{"section Heel; row: k to part; divide 30", []string{
			"Heel: over the 30 stitches of the back tip. Knit the front tip first, then let it doze.",
			"Heel: on the 30 sts of the back needle; knit the front needle first, then leave it.",
		}},
	} {
		a.test(t)
	}
}

// TestOldWords: the plain prose of older patterns.
func TestOldWords(t *testing.T) {
	for _, a := range []alike{
		{"plain rib until a length; shape 1; state (61)", []string{
			"Rib k2, p2 for 2 ins., inc 1 st at end of last rnd (61 sts).",
			"Work in ribbing of k2, p2 for 2 ins., inc 1 st at end of last rnd (61 sts).",
			"K2, p2 for 2 inches, inc 1 st at end of last rnd (61 sts).",
		}},
		{"plain rib for 22 rows", []string{
			"*K3, p1* rib for 22 rounds, which is 2 in.",
			"K3, p1 for 22 rounds.",
			"K3, p1 rib for 22 rnds = 2 in.",
			"K3, p1 rib for 22 rnds (2 in).",
		}},
		{"row: k1, dec, k to end less 4, dec, k1, p1", []string{
			"Dec rnd: K1, k2 tog, k to 4 sts from end, ssk, k1, p1 for P.S.",
			"Dec rnd: K 1, 2 tog, k to last 4, sl, k 1, psso, k 1, p 1 for the seam.",
			"Dec rnd: K1, narrow, k to last 4 sts, slip and bind, k1, p1 (seam stitch).",
		}},
		{"row 2: [k4, dec] to end (50)", []string{
			"Rnd 2: * K 4, narrow; repeat from * all round. 50 sts.",
			"Rnd 2: *k 4, n, rep from *. 50 sts.",
			"Rnd 2: *K 4, 2 tog; rep from * to end. 50 left.",
			"Rnd 2: Knit 4 and narrow, all round. That's 50.",
		}},
		{"row: [k4, dec] to end; plain  for 5 rows", []string{
			"Knit 4 and narrow, all round. Then knit 5 rounds plain.",
			"Then knit 4 and narrow all round; knit plain 5 rounds.",
			"Knit 4 and narrow to the end of the round, then five plain rounds.",
		}},
		{"shape -2 every 2 until 24", []string{
			"Narrow at the beginning and end of every other round until 24 stitches are left.",
			"Narrow at each end of every other round until there are 24.",
			"Narrow on each side of the instep every other round until there are 24 stitches again.",
		}},
		{"shape 2 (62)", []string{
			"Widen at each end of the needle in the next round. 62 sts.",
			"Widen at each side in next rnd: 62 sts.",
		}},
		{"row: k17, dec, k1, turn; row: sl1, p5, dec, p1, turn; row: sl1, k6, dec, k1, turn; plain  until used up (18)", []string{
			"Knit 17, narrow, knit 1, turn; slip 1, purl 5, purl 2 together, purl 1, turn; slip 1, knit 6, narrow, knit 1, turn; and so on until all the stitches are used up. 18 are left.",
			"K 17, k2tog, k 1, turn. Sl 1, p 5, p2tog, p 1, turn. Sl 1, k 6, k2tog, k 1, turn. Continue in this manner until all side stitches are in. 18 sts.",
		}},
		{"row: k15; divide 15; state (30 of part)", []string{
			"Knit 15, then slip the last 15 stitches of the round to the same needle: 30 heel stitches.",
			"K. 15, slip the last 15 sts. of the round on to the other end of the same needle. (These 30 sts. are for the heel.)",
		}},
		{"divide 15; state (30 of part) (30 of part)", []string{
			"Put the first 15 and the last 15 stitches on one needle; that is 30 sts for the heel, and the 30 sts between them go on a holder.",
			"Slip the first 15 sts and the last 15 sts of the rnd on to one needle; that makes 30 for the heel, and the 30 between them wait on a thread.",
		}},
		{"close", []string{
			"Cast off all stitches loosely.",
			"Bind off in rib.",
			"Draw the yarn through the remaining stitches, pull up and fasten.",
		}},
		{"row: k5; row: N1, k5, pick14, N2, k30, N3, pick14, k5 (68)", []string{
			"Next row: K 5; the round now begins at this point, the centre of the heel.\n1st needle: k. the other 5 heel sts., knit up 14 sts. along side of heel. 2nd needle: k. the 30 instep sts. 3rd needle: knit up 14 sts. along other side of heel, k. the first 5 heel sts. There are now 68 sts.",
		}},
	} {
		a.test(t)
	}
}

// TestOlderProse: more of the same voice: places, seams, halves of a short-row heel, one round among others.
func TestOlderProse(t *testing.T) {
	for _, a := range []alike{
		{"row 1: adjust-4 (56)", []string{
			"Round 1: work 1 decrease at each side of the sole and at each side of the instep. 56 sts.",
			"Round 1: make 1 decrease at each side of both markers. 56 sts.",
		}},
		{"shape -2 every 2 until 64", []string{
			"Narrow once on each side of the instep in every other round until you are back to 64.",
			"Narrow at each end of every other round until the round has 64 again.",
		}},
		{"shape -1 (59)", []string{
			"Dec 1 st in the last rib round, leaving 59.",
			"When the work is 5 ins long, dec 1 st in the next rnd: 59 sts.",
			"Dec 1 st on the next round = 59.",
		}},
		{"plain stockinette until 16 ridges", []string{
			"Knit across and purl back, slipping the first stitch each time, until there are 16 chain stitches at each side.",
			"K a row and p a row alternately, slipping the first st of every row, until there are 16 edge sts at each side.",
		}},
		{"row: k to wrap, k1, wrap", []string{
			"Next row: K to the first wrapped st, k it with its wrap, wrap the next st again, turn.",
			"Next row: Knit to the wrapped st, knit it together with its wrap, wrap the next st, turn.",
		}},
		{"repeat last 2 until used up", []string{
			"These two rows over and over till only the outermost wrap is left at each side.",
			"Repeat these two rows until the first and the last st have been wrapped.",
			"Last two rows until each stitch has had its turn.",
		}},
		{"plain  for 1 rows (60)", []string{
			"Go once round on all 60 sts.",
			"Knit one round on all 60 sts.",
		}},
	} {
		a.test(t)
	}
}

// TestAsidesInRows: what a row leaves unworked is no count, and stitches knitted again are no rows.
func TestAsidesInRows(t *testing.T) {
	for _, a := range []alike{
		{"row 1: sl1, k28, turn", []string{
			"Row 1 (RS): Slip 1, knit 28, turn, leaving 1 st.",
			"Row 1 (RS): Sl 1, k28, turn, leaving 31 sts unworked.",
			"Row 1 (RS): Sl 1, k28, turn, leaving the last st unworked.",
		}},
		{"row 2: [k1, dec, k to end less 3, dec, k1] to end (56)", []string{
			"Rnd 2 (both needles alike): k1, ssk, k to last 3, k2tog, k1. 56 sts.",
			"Rnd 2 (each needle): K1, ssk, k to last 3 sts, k2tog, k1. 56 sts.",
		}},
		{"state (22 of part)", []string{
			"Knit the 22 of needle 1 with waste yarn, knit them again with the main yarn.",
			"K 22 with waste yarn, slip them back and knit them again.",
		}},
	} {
		a.test(t)
	}
}

package reader_test

import "testing"

// TestHeels: a heel set apart, turned and joined again, in the words of many designers.
func TestHeels(t *testing.T) {
	for _, a := range []alike{
		{"repeat 1 until used up after a RS (16)", []string{
			"Repeat Row 1 until all the heel sts have been worked; the last row is a RS row. 16 sts.",
			"Repeat Row 1 until all the side sts have been worked, ending with a RS row: 16 sts.",
			"Rep Row 1 until no side sts are left, so that the last row worked is a RS row: 16 sts.",
			"Rep Row 1 until none of the side sts remain, the last one being a knit row. 16 sts.",
			"Work Row 1 until every side st has been used; the last of them is a right side row. 16 sts.",
			"Rep Row 1 until the side sts are gone, finishing after a RS row. 16 sts.",
		}},
		{"section HEEL TURN; row: sl1, work to gap less 1, dec, k1, turn; repeat last -2 until used up (16)", []string{
			"HEEL TURN\nFollowing rows: Sl 1, work to 1 st before the gap, dec over the gap, k1, turn.\nGo on until all sts have been worked. 16 sts.",
			"HEEL TURN\nAll following rows: Sl 1, work to 1 st before the gap, dec over the gap (ssk on RS, p2tog on WS), k1, turn.\nCont until all side sts have been worked. 16 sts.",
			"HEEL TURN\nEvery subsequent row: Sl 1, work to 1 st before the gap, dec across the gap, k1, turn.\nContinue in this way until no side sts remain. 16 sts.",
			"HEEL TURN\nAll further rows: Sl 1, work to 1 st before the gap, dec across the gap, k1, turn.\nCarry on so until no more sts wait at either side. 16 sts.",
		}},
		{"turned (16) (28 of part)", []string{
			"There are 16 sts when the heel is turned and 28 sts on the instep.",
			"There are 16 sts after the heel turn and 28 sts on the instep.",
			"16 sts once the heel has been turned, and 28 instep sts.",
			"Once the heel has been turned there are 16 sts, and 28 sts for the instep.",
			"After the heel turn there are 16 sts, with 28 sts on the instep.",
			"16 sts with the heel turned; 28 sts on the instep.",
		}},
		{"divide 39; state (13 of part) (13 of part)", []string{
			"The heel is on 39 sts in three parts: 13 in the middle and 13 at each side.",
			"The heel is worked in three sections on 39 sts: 13 in the centre and 13 at each side.",
			"Work the heel on 39 sts, divided into 3 parts: 13 in the middle and 13 at each side.",
			"Heel over 39 sts, in three sections: 13 in the middle, 13 at each side.",
		}},
		{"row: k to part, pick14 of edge, k to part, pick14", []string{
			"Knit the heel sts, pick up and k 14 sts, one in each slipped edge st of the flap, knit the instep sts, pick up and k 14 sts along the other edge.",
			"K the heel sts, pick up and k 14 sts (one for every slipped st), k the instep sts, pick up and k 14 sts along the other edge.",
			"K the heel sts, pick up and k 14 sts along the flap, 1 from each chain, k the instep sts, pick up and k 14 sts along the other side.",
			"K the heel sts, pick up and k 14 sts, 1 per edge st, k the instep sts, pick up and k 14 sts on the other side.",
		}},
	} {
		a.test(t)
	}
}

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
			"HEEL TURN\nFollowing rows: Sl 1, work to 1 st before the gap, close the gap with ssk or p2tog, k1, turn.\nGo on until every heel st has been worked. 16 sts.",
			"HEEL TURN\nFollowing rows: Sl 1, work to 1 st before the gap, close it with ssk (RS) or p2tog (WS), k1, turn.\nGo on until all the heel sts are worked. 16 sts.",
			"HEEL TURN\nFollowing rows: Sl 1, work to 1 st before the gap, work 2 tog over the gap, k1, turn.\nGo on until all side sts have been worked. 16 sts.",
			"HEEL TURN\nFollowing rows: Sl 1, work to 1 st before the gap, work two sts together across the gap, k1, turn.\nGo on until all side sts have been worked. 16 sts.",
			"HEEL TURN\nFollowing rows: Sl 1, work to 1 st before the gap, close the gap, k1, turn.\nGo on until all side sts have been worked. 16 sts.",
			"HEEL TURN\nAll further rows: Sl 1, work to 1 st before the gap, dec across the gap, k1, turn.\nCarry on so until no more sts wait at either side. 16 sts.",
		}},
		{"divide 28; state ( middle)", []string{
			"Put 28 sts on one needle for the heel, with the middle back st in the center of them.",
			"Place 28 sts on one needle for the heel, keeping the center st in the middle.",
			"Slip 28 sts on one needle for the heel, so that the middle stitch lies in the centre of the needle.",
			"For the heel take 28 sts on one needle, having the seam stitch at the centre of the heel.",
			"Set 28 sts on one needle for the heel, the center back st being in the middle.",
		}},
		{"state (8 not wrapped)", []string{
			"8 sts are left between the wrapped sts.",
			"8 sts remain between the wraps.",
			"There are 8 unworked sts between the turns.",
			"8 sts between the twins.",
			"There are now 8 sts between the short rows.",
		}},
		{"repeat last 2 until 11 are not wrapped (11 not wrapped) ( wrapped)", []string{
			"Repeat the last 2 rows until 11 sts are unwrapped, with as many wrapped sts on each side.",
			"Repeat the last 2 rows until 11 sts are unwrapped, with the same number of wrapped sts at either side.",
			"Repeat the last 2 rows until 11 sts are unwrapped, with an equal number of wrapped sts at both sides.",
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
		{"divide 26; row 1: sl1, p to end", []string{
			"Turn; only the last 26 sts are worked from here.\n1st row of the heel (WS): Sl 1, p to end.",
			"Turn; from here on work the last 26 sts only.\nRow 1 of the flap (WS): Sl 1, p to end.",
			"Turn, and from now on work on only the last 26 sts.\nFirst row of the heel (WS): Sl 1, p to end.",
			"From now on only the last 26 sts of the rnd are worked, back and forth.\n1st row of the heel flap (WS): Sl 1, p to end.",
			"Turn, then work just the last 26 sts from this point on.\nRow 1 (WS): Sl 1, p to end.",
			"Only the first 26 sts are worked for now.\nRow 1 for the heel (WS): Sl 1, p to end.",
		}},
		{"plain  until used up (8)", []string{
			"Go backward and forward over the middle, each time taking together one stitch from each side of the gap, until the end stitches are used up and only the 8 are left.",
			"Go on to and fro over the middle, taking together one stitch from each side of the hole every time, until the side stitches are all used and the eight remain.",
			"Work to and fro over the middle sts, each time knitting tog the sts at either side of the gap, until the side sts are used up. 8 sts.",
			"Work back and forth on the middle, decreasing over the gap in every row, until no side sts are left: 8 sts.",
			"Work forward and backward over the middle, taking each time one stitch from the end with one of the middle, until all the end stitches are taken in and 8 are left.",
			"Knit backwards and forwards over the middle, closing the gap each time, until all the end stitches have been taken in. 8 sts.",
		}},
		{"section HEEL TURN; row: sl1, work to gap less 1, dec, k1, turn; repeat last -2 until used up (18)", []string{
			"HEEL TURN\nFollowing rows: Sl 1, work to 1 st before the gap, dec over the gap, k1, turn.\nWhen all the heel sts have been worked there are 18 sts.",
			"HEEL TURN\nFollowing rows: Sl 1, work to 1 st before the gap, dec over the gap, k1, turn.\nOnce every side st has been worked, you have 18 sts.",
			"HEEL TURN\nEvery row after this: Sl 1, work to 1 st before the gap, dec over the gap, k1, turn.\nAfter all sts have been worked 18 sts remain.",
			"HEEL TURN\nAll rows from here on: Sl 1, work to 1 st before the gap, dec over the gap, k1, turn.\nWhen the side sts are used up you will have 18 sts.",
			"HEEL TURN\nFollowing rows: Sl 1, work to 1 st before the gap, dec over the gap, k1, turn.\nGo on as long as there are sts beyond the gaps: 18 sts.",
			"HEEL TURN\nFollowing rows: Sl 1, work to 1 st before the gap, dec over the gap, k1, turn.\nContinue while side sts are still left. 18 sts.",
		}},
		{"state (60 in all); divide 30", []string{
			"Slip the last 30 of the 60 sts onto one needle for the heel.",
			"Put the first 30 of all 60 sts on one needle for the heel.",
			"For the heel, take the last 30 of the 60 stitches upon one pin.",
			"Work the heel back and forth over 30 of the 60 sts.",
			"Place 30 of the 60 sts on a spare needle for the heel.",
		}},
		{"divide 26 in stockinette", []string{
			"The next 26 sts are the heel, in stockinette (RS rows knit, WS rows purl).",
			"The last 26 sts form the heel, worked in stocking stitch.",
			"The first 26 sts of the rnd are used for the heel in st st.",
			"The next 26 sts make the heel, which is worked in stockinette.",
		}},
	} {
		a.test(t)
	}
}

// TestWhatIsThere: what lies where, before it is worked.
func TestWhatIsThere(t *testing.T) {
	for _, a := range []alike{
		{"state (29 on N1) (28 on N2) (57 in all)", []string{
			"N1 holds the 29 instep sts and N2 holds the 28 sole sts, 57 sts in all.",
			"N1 has the 29 instep sts, N2 has the 28 sole sts: 57 sts in all.",
			"There are 29 instep sts on N1 and 28 sole sts on N2, 57 sts in all.",
			"N1: 29 instep sts; N2: 28 sole sts; 57 sts in all.",
			"N1 with the 29 instep sts, N2 with the 28 sole sts, in all 57 sts.",
		}},
		{"state (52)", []string{
			"The leg is done as far as the heel: 52 sts.",
			"The leg is worked down to the heel, 52 sts.",
			"The leg is finished to the heel flap: 52 sts.",
			"The sock is worked up to the heel: there are 52 sts.",
			"The leg is complete and ready for the heel: 52 sts.",
			"The foot is worked to the toe: 52 sts.",
		}},
		{"arrange", []string{
			"Place 30 sts for the sole and 30 sts for the instep.",
			"For the toe put 30 stitches above and 30 below.",
			"For the toe, arrange 30 sts for the instep and 30 sts for the sole.",
			"Lay 30 sts for the sole on N1 and 30 sts for the instep on N2.",
			"Keep 30 sts for the instep, 30 sts for the sole.",
			"Put 15 sts on N1, 30 sts on N2, 15 sts on N3.",
		}},
		{"row 2: k1, dec, k to end less 3, dec, k1, k1, dec, k to end less 3, dec, k1", []string{
			"Rnd 2: K1, ssk, k until 3 sts of the sole are left, k2tog, k1; k1, ssk, k until 3 sts of the instep are left, k2tog, k1.",
			"Rnd 2: K1, ssk, k until 3 sts remain on the sole, k2tog, k1; k1, ssk, k until 3 sts remain on the instep, k2tog, k1.",
			"Rnd 2: K1, ssk, k until 3 sole sts are left, k2tog, k1; k1, ssk, k until 3 instep sts are left, k2tog, k1.",
			"Rnd 2: K1, ssk, k until 3 sts are left of the sole, k2tog, k1; k1, ssk, k until 3 sts are left of the instep, k2tog, k1.",
			"Rnd 2: K1, ssk, k to last 3 sts of sole, k2tog, k1; k1, ssk, k to last 3 sts of instep, k2tog, k1.",
			"Rnd 2: K1, ssk, k until 3 sts of the sole are still to be worked, k2tog, k1; k1, ssk, k until 3 sts of the instep are unworked, k2tog, k1.",
		}},
		{"row 2: k to end; repeat 1 2 until; state (5 on N1) (5 on N2); state (10 on N3)", []string{
			"Rnd 2: Knit.\nWork rnds 1 and 2 until these sts are left:\nN1 and N2: 5 sts each\nN3: 10 sts",
			"Rnd 2: Knit.\nRep Rnds 1 and 2 until the following stitches remain:\nN1 and N2: 5 sts each\nN3: 10 sts",
			"Rnd 2: Knit.\nRep Rnds 1 and 2 until there are:\nN1: 5 sts, N2: 5 sts\nN3: 10 sts",
			"Rnd 2: Knit.\nRep Rnds 1 and 2 until the needles hold:\n5 sts on N1, 5 sts on N2\n10 sts on N3",
			"Rnd 2: Knit.\nRep Rnds 1 and 2 until you have:\nN1 and N2: 5 sts each\nN3: 10 sts",
			"Rnd 2: Knit.\nWork Rnds 1 and 2 until the numbers of stitches are:\nN1 and N2: 5 sts each\nN3: 10 sts",
		}},
	} {
		a.test(t)
	}
}

// TestSetUps: the steps of one part alone.
func TestSetUps(t *testing.T) {
	for _, a := range []alike{
		{"row: N, [p1, work6] 4 reps, p1", []string{
			"Set-up for the instep: [p1, 6 lace sts] 4 times, p1.",
			"Instep set-up: [p1, 6 lace sts] 4 times, p1.",
			"To set up the instep: (p1, 6 sts in lace) 4 times, p1.",
			"Set-up (instep): [p1, 6 lace sts] four times, p1.",
			"Set-up rnd for the instep sts: [p1, work 6 lace sts] 4 times, p1.",
			"Set up the sole as follows: [p1, 6 sts of chart] 4 times, p1.",
		}},
	} {
		a.test(t)
	}
}

// TestPatternGoesOn: a stitch pattern that goes on with one of its rows.
func TestPatternGoesOn(t *testing.T) {
	const told = "Kelp patt (multiple of 6 sts):\nRnd 2: Knit.\nGusset: k18, "
	for _, a := range []alike{
		{"section kelp; row 2: k to end; section Gusset; row: k18, patt30 from 3", []string{
			told + "starting with Rnd 3, work Kelp patt over the 30 instep sts.",
			told + "beginning at the 3rd rnd, work in Kelp patt over the 30 instep sts.",
			told + "work Kelp patt over the 30 instep sts, starting with Rnd 3.",
			told + "work in Kelp patt across the 30 instep sts, beginning with the 3rd rnd.",
			told + "work Rnd 3 of Kelp patt over the 30 instep sts.",
			told + "work 30 instep sts in Kelp patt from Rnd 3.",
			told + "work the 3rd rnd of Kelp patt on the 30 instep sts.",
		}},
	} {
		a.test(t)
	}
}

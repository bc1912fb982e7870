package reader_test

import "testing"

// TestMarkersOnTheWay: markers that are put where the round begins, and those that come off on the way.
func TestMarkersOnTheWay(t *testing.T) {
	for _, a := range []alike{
		{"markers", []string{
			"The round begins at the centre back; mark it.",
			"Mark the beginning of the round.",
			"Mark the first stitch of the round.",
			"Place a marker here.",
			"Place a marker for the beginning of the round.",
			"Hang a marker to show the start of the rnd.",
			"Mark this point.",
		}},
		{"plain  for 1 rows; markers", []string{
			"Knit 1 round, removing all markers.",
			"Knit one round, taking the markers off the needle as you come to them.",
			"K 1 rnd, removing markers A and B.",
			"Knit 1 round, dropping the markers as you go.",
		}},
	} {
		a.test(t)
	}
}

// TestWorkThatChanges: plain work behind a change of fabric or needles, and the part that it makes.
func TestWorkThatChanges(t *testing.T) {
	for _, a := range []alike{
		{"plain stockinette until a length", []string{
			"Change to stockinette and knit 4 in.",
			"Change to stocking stitch, then knit for 10 cm.",
			"Switch to st st and work until piece measures 4 in.",
		}},
		{"plain  for 20 rows", []string{
			"Change to larger needles and knit 20 rnds.",
			"Switch to the smaller needles and knit 20 rounds.",
			"Knit 20 rounds for the foot.",
			"Knit 20 rounds for the leg.",
		}},
		{"divide 30; state (30 of part)", []string{
			"K30 for the heel, leave 30 for the instep.",
			"Knit the first 30 sts for the heel and leave the other 30 sts for the instep.",
			"Knit 30 sts on to one needle for the heel; the other 30 wait for the instep.",
		}},
		{"divide 30", []string{
			"30 heel sts, the first half of the round.",
			"30 sts for the heel (the first half of the round).",
			"Wrapped heel on the first half of the round, 30 sts.",
			"Dutch heel over the first half of the round, 30 sts.",
		}},
		{"state (30 on N1) (48 on N2)", []string{
			"N1: 30 instep sts; N2: 15 gusset sts, 18 heel sts, 15 gusset sts.",
			"Needle 1: 30 instep sts. Needle 2: 15 picked-up sts, 18 heel sts and 15 picked-up sts.",
		}},
		{"row 1: k to end; row 2: k to end; repeat 1 2 until (30 on N2)", []string{
			"Rnd 1: K.\nRnd 2: K.\nRounds 1 and 2 until needle 2 is down to 30.",
			"Rnd 1: K.\nRnd 2: K.\nRep Rnds 1 and 2 until N2 has 30 sts.",
			"Rnd 1: K.\nRnd 2: K.\nRep Rnds 1 and 2 until there are 30 sts on N2.",
		}},
	} {
		a.test(t)
	}
}

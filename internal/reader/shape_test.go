package reader_test

import "testing"

// TestShaping: shaping that does not tell every stitch, in the words of many designers.
func TestShaping(t *testing.T) {
	for _, a := range []alike{
		{"shape -2 every 2 until 52", []string{
			"Dec 1 st before the first and 1 st after the second marker on every other rnd until 52 sts rem.",
			"Dec 1 st before the first marker and 1 st after the second marker every other round until 52 sts remain.",
			"Dec 1 st before and 1 st after the instep every 2nd rnd until 52 sts are left.",
			"Dec 1 st on each side of the instep every other rnd until 52 sts remain.",
			"Dec 1 st at either side of the instep sts on alternate rounds until 52 sts rem.",
			"Dec 1 st at the end of N1 and 1 st at the beginning of N3 every other rnd until 52 sts rem.",
			"K2tog at the end of N1 and ssk at the beg of N3 every other rnd until 52 sts rem.",
			"Knit two together before the instep begins and slip one, knit one, pass over after it ends in every second round until 52 stitches remain.",
			"Narrow once on each side of the seam in every second round until 52 stitches are left.",
			"Dec 1 st before the first and after the second marker every other rnd until 52 sts rem.",
		}},
		{"shape -4 every 2 until 24", []string{
			"Dec 1 st on each side of both markers every other rnd until 24 sts rem.",
			"Dec 1 st at each side of each marker on every other rnd until 24 sts rem.",
			"Skpo and k2tog at each side on alternate rounds (4 sts fewer each time) until 24 sts are left.",
			"Ssk and k2tog at each side on every other rnd (= 4 sts dec) until 24 sts rem.",
			"Dec 4 sts in this way at the same places every other rnd until 24 sts rem.",
			"Dec 2 sts on each side of the instep every 2nd round until 24 sts remain.",
			"Decrease for toe on each side of both markers (4 sts fewer each time) on every other round until 24 sts are left.",
		}},
		{"shape -2 every 8 14 times in all", []string{
			"Dec 1 st at each side of the seam every 8th rnd 14 times in all.",
			"Dec 1 st on each side of the seam, and do the same in every eighth round until you have decreased fourteen times.",
			"Now narrow once on each side of the seam, at the middle of the back, which takes away two stitches, and do the same in every eighth round until you have narrowed fourteen times.",
			"Dec 1 st each side of the seam every 8th rnd until this has been done 14 times.",
			"Narrow once at each side of the seam in every eighth round until you have done so fourteen times in all.",
		}},
		{"shape -2", []string{
			"Next round, knit two together one stitch before the instep begins and slip one, knit one, pass over one stitch after it ends.",
			"Next rnd: k2tog 1 st before the instep and ssk 1 st after the instep.",
			"Next rnd: dec 1 st at each side of the instep.",
			"Next rnd: dec 1 st before the instep and 1 st after it.",
			"Next round, narrow once before the instep and once after it.",
		}},
		{"shape as dec every 5 from 5: k2, dec, k to end less 4, dec, k2", []string{
			"AT THE SAME TIME, on Rnd 5 and every 5 rnds after it, dec as follows: k2, k2tog, k to last 4 sts, ssk, k2.",
			"At the same time, dec on Rnd 5 and on every foll 5th rnd thus: k2, k2tog, k to last 4 sts, ssk, k2.",
			"At the same time work a dec rnd on the 5th and every following 5th rnd: k2, k2tog, k to last 4 sts, ssk, k2.",
			"Meanwhile, beginning with Rnd 5 and then every 5th rnd, decrease thus: k2, k2tog, k to last 4 sts, ssk, k2.",
			"AT THE SAME TIME, on every 5th rnd dec so: k2, k2tog, k to last 4 sts, ssk, k2.",
			"At the same time, on the 5th rnd and every 5th rnd after that work a decrease round: k2, k2tog, k to last 4 sts, ssk, k2.",
			"At the same time, from Rnd 5 on, on every 5th rnd, dec: k2, k2tog, k to last 4 sts, ssk, k2.",
		}},
	} {
		a.test(t)
	}
}

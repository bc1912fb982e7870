package reader_test

import "testing"

// TestHeadingOver: headings that say over which stitches their part is worked.
func TestHeadingOver(t *testing.T) {
	for text, want := range map[string]string{
		"HEEL FLAP (first 28 sts of rnd)":                "section HEEL FLAP; divide 28",
		"Heel flap (over the first 28 sts)":              "section Heel flap; divide 28",
		"Heel (worked on the first 28 sts of the round)": "section Heel; divide 28",
		"Heel flap [first 28 sts]:":                      "section Heel flap; divide 28",
		"Heel (last 28 sts)":                             "section Heel; divide 28",
	} {
		alike{want, []string{text}}.test(t)
	}
}

// TestSigned: what a row gains or loses, with its sign in brackets.
func TestSigned(t *testing.T) {
	for _, a := range []alike{
		{"row 1: k1, inc, k to end less 1, inc, k1 (2 more)", []string{
			"Rnd 1: K1, M1R, k to last st, M1L, k1. [+2]",
			"Rnd 1: K1, M1R, k to last st, M1L, k1. (+2 sts)",
			"Rnd 1: K1, M1R, k to last st, M1L, k1 (+2).",
			"Rnd 1: K1, M1R, k to last st, M1L, k1. 2 sts inc'd.",
		}},
		{"row 1: k1, dec, k to end less 3, dec, k1 (-2 more)", []string{
			"Rnd 1: K1, ssk, k to last 3 sts, k2tog, k1. [-2]",
			"Rnd 1: K1, ssk, k to last 3 sts, k2tog, k1. 2 sts dec'd.",
		}},
	} {
		a.test(t)
	}
}

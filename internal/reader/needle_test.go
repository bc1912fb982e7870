package reader_test

import "testing"

// TestNeedles: needles and parts that are told inside a row.
func TestNeedles(t *testing.T) {
	for _, a := range []alike{
		{"row: N1, k to end less 3, dec, k1, N2, k to end, N3, k to end, N4, k1, dec, k to end", []string{
			"Dec rnd: N1: k to last 3 sts, k2tog, k1; N2: k; N3: k; N4: k1, ssk, k to end.",
			"decrease: N1 k until 3 are left, k2tog, k1; N2 k; N3 k; N4 k1, ssk, k to end",
			"Dec rnd: Needle 1: k till 3 are left, k2tog, k1. Needle 2: knit. Needle 3: knit. Needle 4: k1, ssk, k the rest.",
			"Dec rnd: 1st needle: k to last 3, k2tog, k1. 2nd needle: k. 3rd needle: as 2nd. 4th needle: k1, ssk, k rem.",
			"Dec rnd: N1 k to 3 before the end, k2tog, k1; N2 k across; N3 the same; N4 k1, ssk, k to end.",
			"Dec rnd: N1 – k to last 3 sts, k2tog, k1. N2 – k. N3 – as N2. N4 – k1, ssk, k to end.",
		}},
		{"row: N1, k1, dec, k to end, N2, k to end less 3, dec, k1, N3, k1, dec, k to end, N4, k to end less 3, dec, k1", []string{
			"Toe rnd: N1: k1, ssk, k to end. N2: k to last 3, k2tog, k1. N3 as N1. N4 as N2.",
			"Toe rnd: N1: k1, ssk, k to end; N2: k to last 3, k2tog, k1; N3: work as for N1; N4: same as N2.",
			"Toe rnd: Needle 1: k1, ssk, k to end. Needle 2: k to last 3, k2tog, k1. Needle 3: as needle 1. Needle 4: like needle 2.",
		}},
		{"row: N, k1, dec, k to end less 3, dec, k1, N, k1, dec, k to end less 3, dec, k1", []string{
			"Toe rnd: front tip: k1, ssk, k to last 3, k2tog, k1; back tip: as front.",
			"Toe rnd: Front needle: k1, ssk, k to last 3 sts, k2tog, k1. Back needle: the same.",
			"Toe rnd: instep needle: k1, ssk, k to last 3, k2tog, k1; sole needle: likewise.",
			"Toe rnd: Instep: k1, ssk, k to last 3 sts, k2tog, k1. Sole: as instep.",
			"Toe rnd: on the instep k1, ssk, k to last 3, k2tog, k1; on the sole the same.",
		}},
		{"row: k to part, N, k1, inc, k to end less 1, inc, k1", []string{
			"Gusset rnd: Knit instep. Sole: k1, m1R, k to last st, m1L, k1.",
			"Gusset rnd: k the instep; sole: k1, m1R, k to last st, m1L, k1.",
			"Gusset rnd: Knit across the instep, sole: k1, m1R, k to last st, m1L, k1.",
			"Gusset rnd: Knit the instep. On the sole, k1, m1R, k to last st, m1L, k1.",
		}},
		{"row: [k to end less 2, dec] to end", []string{
			"Dec rnd: On each needle k to last 2, k2tog.",
			"Dec rnd: on each needle: knit to the last 2 sts, k2tog.",
			"Dec rnd: on every needle, k until 2 are left, k2tog.",
			"Dec rnd: each needle: k to last 2, k2tog.",
			"Dec rnd: *K to last 2, k2tog* on each needle.",
			"Dec rnd: K to last 2, k2tog on each needle.",
			"Dec rnd: [k to last 2, k2tog] on all four needles.",
		}},
		{"row: [k13, dec] to end", []string{
			"Rnd: * k 13, k 2 tog *, repeat *-* on every needle.",
			"Rnd: *k13, k2tog; rep from * on each needle.",
			"Rnd: *K13, k2tog, rep from * around.",
		}},
		{"row: [k2 to part, k3 to part] 1 reps", []string{
			"Knit N2 and N3.",
			"k N2 and N3",
			"K across N2 and N3.",
			"Knit N2 and N3 = 28 sts with a contrast thread.",
		}},
	} {
		a.test(t)
	}
}

// TestMarkers: markers that are named, passed and taken out in a row.
func TestMarkers(t *testing.T) {
	for _, a := range []alike{
		{"row: k to part, k to m, sm", []string{
			"Knit the instep and on to marker A; slip A.",
			"Knit the instep again and on to marker A; slip A.",
			"K across the instep, then to A, slip A.",
			"K the instep once more and on to A, sl A.",
		}},
		{"row: k to m less 3, dec, k1, sm, k to m, sm, k1, dec, k to end", []string{
			"Dec rnd: k to 3 before A, k2tog, k1, slip A, k to B, slip B, k1, ssk, k to end.",
			"Dec rnd: Knit to 3 sts before marker A, k2tog, k1, sl marker A, knit on to marker B, sl marker B, k1, ssk, k the rest.",
			"Dec rnd: k to 3 before m1, k2tog, k1, sm, k to m2, sm, k1, ssk, k rem.",
			"Dec rnd: K to 3 sts before marker 1, k2tog, k1, sl marker, k up to marker 2, sl marker, k1, ssk, k to end.",
			"Dec rnd: k to 3 before the first marker, k2tog, k1, sm, k to second marker, sm, k1, ssk, k to end.",
		}},
	} {
		a.test(t)
	}
}

package feet

import "sockwright/internal/unit"

// hair is what rounding may take off a computed length without moving it past a bound.
const hair unit.Length = 1e-6

// bands are the widths of a band heel's band from a foot length up, longest foot first. Common
// practice of the trade states 1 in for women's US sizes up to 6, 1¼ in for women's 7 to 12 and
// men's 5 to 10, and 1½ in for men's 13 and up. The bounds are the feet of the sizes, so that
// equal feet get equal bands: women's 6½ is the foot of men's 5 and women's 12 that of men's 10½.
var bands = []struct {
	from, width unit.Length
	why         string
}{
	{35 * unit.Inch / 3, 1.5 * unit.Inch, "common practice for men's US 13 and up"},
	{11.25 * unit.Inch, 1.5 * unit.Inch, "common practice is silent between men's US 10.5 and 13; the upper half of the gap, a foot of 11 1/4 in and up, takes the band of 13"},
	{11 * unit.Inch, 1.25 * unit.Inch, "common practice is silent between men's US 10.5 and 13; the lower half of the gap, a foot below 11 1/4 in, takes the band of 10.5"},
	{9 * unit.Inch, 1.25 * unit.Inch, "common practice for women's US 7 to 12 and men's US 5 to 10, here from a foot of 9 in (men's 5, women's 6.5)"},
	{8 * unit.Inch, 1 * unit.Inch, "common practice for women's US sizes up to 6, here for a foot from 8 in to below 9 in"},
}

// BandWidthRule returns the width of the band by foot length, and in words the clause that set
// it: an eighth of the foot below 8 in, then 1 in, from 9 in 1¼ in, from 11¼ in 1½ in.
func BandWidthRule(length unit.Length) (width unit.Length, why string) {
	for _, b := range bands {
		if length > b.from-hair {
			return b.width, b.why
		}
	}
	return length / 8, "a foot below 8 in takes a band in proportion, one eighth of its length, which meets 1 in at 8 in"
}

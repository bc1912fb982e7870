package extract

import (
	"strconv"
	"strings"
)

// number writes n the way that a list counts: "a", "A", "i", "I", else in figures.
func number(n int, form string) string {
	lower := func(s string) string { return s }
	if form == "a" || form == "i" {
		lower = strings.ToLower
	}
	switch form {
	case "a", "A":
		if n >= 1 {
			s := ""
			for ; n > 0; n = (n - 1) / 26 {
				s = string(rune('A'+(n-1)%26)) + s
			}
			return lower(s)
		}
	case "i", "I":
		if n >= 1 && n < 4000 {
			s := ""
			for _, x := range []struct {
				n int
				s string
			}{{1000, "M"}, {900, "CM"}, {500, "D"}, {400, "CD"}, {100, "C"}, {90, "XC"}, {50, "L"}, {40, "XL"}, {10, "X"}, {9, "IX"}, {5, "V"}, {4, "IV"}, {1, "I"}} {
				for ; n >= x.n; n -= x.n {
					s += x.s
				}
			}
			return lower(s)
		}
	}
	return strconv.Itoa(n)
}

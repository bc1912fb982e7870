package trade

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"

	"sockwright/internal/unit"
)

// Needle is a size of knitting needle.
type Needle struct {
	MM float64 // diameter
	US string  // US number such as "1.5" or "000"; empty if there is none
	UK string  // old UK number; empty if there is none
}

// Bounds of the metric sizes that ParseNeedle takes, in mm.
const (
	thinnest = 1
	thickest = 25
)

var needles = sync.OnceValue(func() []Needle {
	var list []Needle
	for _, r := range rows(needlesCSV) {
		list = append(list, Needle{MM: must(strconv.ParseFloat(r[0], 64)), US: r[1], UK: r[2]})
	}
	return list
})

// Needles returns the standard sizes, thinnest first.
func Needles() []Needle { return slices.Clone(needles()) }

// NeedleByMM returns the standard size of a diameter in mm.
func NeedleByMM(mm float64) (Needle, bool) {
	for _, n := range needles() {
		if math.Abs(n.MM-mm) < 1e-6 {
			return n, true
		}
	}
	return Needle{}, false
}

// ParseNeedle reads a needle size as a designer writes it: "2.25 mm", "US 1", "US 1½". A
// metric size from 1 to 25 mm need not be a standard one. US numbers on which makers disagree
// (00, 36) are refused with the mend, and so are old UK numbers.
func ParseNeedle(s string) (Needle, error) {
	text := strings.Join(strings.Fields(s), " ")
	lower := strings.ToLower(text)
	if number, ok := strings.CutSuffix(lower, "mm"); ok && !strings.HasPrefix(lower, "us") {
		mm, err := unit.ParseNumber(number)
		if err != nil {
			return Needle{}, err
		}
		if mm < thinnest || mm > thickest {
			return Needle{}, fmt.Errorf("%q is not the size of a knitting needle: write %d to %d mm", text, thinnest, thickest)
		}
		if n, ok := NeedleByMM(mm); ok {
			return n, nil
		}
		return Needle{MM: mm}, nil
	}
	if number, ok := strings.CutPrefix(lower, "us"); ok {
		if n, ok := needleByNumber(number, Needle.us); ok {
			return n, nil
		}
		return Needle{}, fmt.Errorf("%q is not a needle size on which makers agree: write the metric size, such as %q", text, "2.25 mm")
	}
	if number, ok := strings.CutPrefix(lower, "uk"); ok {
		if n, ok := needleByNumber(number, Needle.uk); ok {
			return Needle{}, fmt.Errorf("%q is an old UK size: write %q", text, n.metric())
		}
	}
	if _, err := unit.ParseNumber(text); err == nil {
		if n, ok := needleByNumber(text, Needle.us); ok {
			return Needle{}, fmt.Errorf("%q has no unit: write %q or %q", text, text+" mm", "US "+n.US)
		}
		return Needle{}, fmt.Errorf("%q has no unit: write %q", text, text+" mm")
	}
	return Needle{}, fmt.Errorf("%q is not a needle size: write it as %q or %q", text, "2.25 mm", "US 1")
}

// String prints the US number and the diameter, "US 1 [2.25 mm]", or the diameter alone if
// the size has no US number.
func (n Needle) String() string {
	if n.US == "" {
		return n.metric()
	}
	return "US " + n.US + " [" + n.metric() + "]"
}

func (n Needle) metric() string { return strconv.FormatFloat(n.MM, 'f', -1, 64) + " mm" }
func (n Needle) us() string     { return n.US }
func (n Needle) uk() string     { return n.UK }

// needleByNumber finds a number of the US or UK system. Zeros count ("000" is not "0"), so
// only numbers with a fraction are read as values.
func needleByNumber(number string, system func(Needle) string) (Needle, bool) {
	number = strings.TrimSpace(number)
	if strings.ContainsAny(number, "./½") {
		v, err := unit.ParseNumber(number)
		if err != nil {
			return Needle{}, false
		}
		number = strconv.FormatFloat(v, 'f', -1, 64)
	}
	for _, n := range needles() {
		if number != "" && system(n) == number {
			return n, true
		}
	}
	return Needle{}, false
}

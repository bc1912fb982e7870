package unit

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Length is a length in millimetres.
type Length float64

// Lengths of one unit. An inch is exactly 25.4 mm (international yard and pound
// agreement, 1959).
const (
	Millimetre Length = 1
	Centimetre Length = 10
	Inch       Length = 25.4
)

// MM returns the length as a plain number of millimetres.
func (l Length) MM() float64 { return float64(l) }

// In returns the length as a plain number of inches.
func (l Length) In() float64 { return float64(l / Inch) }

// Cm returns the length as a plain number of centimetres.
func (l Length) Cm() float64 { return float64(l / Centimetre) }

// Inches prints the length in inches to the nearest eighth, as whole number and fraction
// with a slash ("7 1/4", "3/8", "9"), without the unit. Halves of an eighth go up.
func (l Length) Inches() string {
	if l < 0 {
		return "-" + (-l).Inches()
	}
	eighths := int(math.Floor(l.In()*8 + 0.5 + 1e-9))
	whole, part := eighths/8, eighths%8
	if part == 0 {
		return strconv.Itoa(whole)
	}
	den := 8
	for part%2 == 0 {
		part, den = part/2, den/2
	}
	if whole == 0 {
		return fmt.Sprintf("%d/%d", part, den)
	}
	return fmt.Sprintf("%d %d/%d", whole, part, den)
}

// Centimetres prints the length in centimetres to the nearest tenth ("18.4", "20"),
// without the unit.
func (l Length) Centimetres() string {
	return strconv.FormatFloat(math.Floor(l.Cm()*10+0.5+1e-9)/10, 'f', -1, 64)
}

// String prints both systems, inches first: "7 1/4 in [18.4 cm]".
func (l Length) String() string {
	return l.Inches() + " in [" + l.Centimetres() + " cm]"
}

// Both prints both systems, centimetres first where metric is set: "18.4 cm [7 1/4 in]".
func (l Length) Both(metric bool) string {
	if metric {
		return l.Centimetres() + " cm [" + l.Inches() + " in]"
	}
	return l.String()
}

// vulgar maps the fraction characters that designers type to the same value with a slash.
var vulgar = strings.NewReplacer(
	"½", " 1/2", "¼", " 1/4", "¾", " 3/4",
	"⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8", "⅓", " 1/3", "⅔", " 2/3",
)

// ParseLength reads a length with its unit: "9.5 in", "9 1/2 in", "9½ in", `9.5"`, "24 cm",
// "240 mm". The error says what is missing or wrong and how to write it; it is meant to be
// shown behind the position of the value. Negative lengths are read ("-2 cm" is an ease).
func ParseLength(s string) (Length, error) {
	text := strings.TrimSpace(s)
	if text == "" {
		return 0, fmt.Errorf("a length is missing: write a number and a unit, such as %q", "9.5 in")
	}
	number, unit := splitUnit(text)
	var one Length
	switch strings.ToLower(unit) {
	case "in", "inch", "inches", `"`, "″":
		one = Inch
	case "cm":
		one = Centimetre
	case "mm":
		one = Millimetre
	case "":
		return 0, fmt.Errorf("%q has no unit: write %q or %q", text, text+" in", text+" cm")
	default:
		return 0, fmt.Errorf("%q is not a unit of length that is known here: use in, cm or mm", unit)
	}
	v, err := ParseNumber(number)
	if err != nil {
		return 0, err
	}
	return Length(v) * one, nil
}

// ParseNumber reads a number as people write it: "9.5", "9 1/2", "9½", "-3". A decimal
// comma is refused with the mend, since in a size list a comma parts two sizes.
func ParseNumber(s string) (float64, error) {
	text := strings.TrimSpace(s)
	if strings.Contains(text, ",") {
		return 0, fmt.Errorf("%q has a comma: write the decimal point, %q", text, strings.ReplaceAll(text, ",", "."))
	}
	text = strings.Replace(text, "−", "-", 1)
	sign := 1.0
	if rest, ok := strings.CutPrefix(text, "-"); ok {
		sign, text = -1, rest
	}
	fields := strings.Fields(vulgar.Replace(text))
	if len(fields) == 0 || len(fields) > 2 {
		return 0, fmt.Errorf("%q is not a number", s)
	}
	sum := 0.0
	for i, f := range fields {
		v, err := parsePart(f)
		if err != nil || (i == 1 && !strings.Contains(f, "/")) || (i == 0 && len(fields) == 2 && strings.Contains(f, "/")) {
			return 0, fmt.Errorf("%q is not a number", s)
		}
		sum += v
	}
	return sign * sum, nil
}

func parsePart(f string) (float64, error) {
	if f == "" || strings.ContainsAny(f, "eExXpPnN_+-") {
		return 0, strconv.ErrSyntax
	}
	if num, den, ok := strings.Cut(f, "/"); ok {
		a, err1 := strconv.Atoi(num)
		b, err2 := strconv.Atoi(den)
		if err1 != nil || err2 != nil || b == 0 {
			return 0, strconv.ErrSyntax
		}
		return float64(a) / float64(b), nil
	}
	return strconv.ParseFloat(f, 64)
}

// splitUnit parts "9 1/2 in" into "9 1/2" and "in".
func splitUnit(s string) (number, unit string) {
	end := strings.LastIndexAny(s, "0123456789½¼¾⅛⅜⅝⅞⅓⅔")
	if end < 0 {
		return "", s
	}
	for end++; end < len(s) && s[end]&0xC0 == 0x80; end++ { // rest of a multi-byte character
	}
	return strings.TrimSpace(s[:end]), strings.TrimSuffix(strings.TrimSpace(s[end:]), ".") // "in." is an abbreviation too
}

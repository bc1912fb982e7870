package unit_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"sockwright/internal/unit"
)

func TestParseLength(t *testing.T) {
	for _, c := range []struct {
		in   string
		mm   float64
		fail string
	}{
		{"9.5 in", 241.3, ""},
		{"9 1/2 in", 241.3, ""},
		{"9½ in", 241.3, ""},
		{`9.5"`, 241.3, ""},
		{"½in", 12.7, ""},
		{"24 cm", 240, ""},
		{"240mm", 240, ""},
		{"10 cm.", 100, ""},
		{"9 1/2 in.", 241.3, ""},
		{"-2 cm", -20, ""},
		{"−2 cm", -20, ""},
		{"9", 0, "has no unit"},
		{"9,5 in", 0, "write the decimal point"},
		{"9 ft", 0, "not a unit of length"},
		{"", 0, "missing"},
		{"in", 0, "not a number"},
		{"1 2 in", 0, "not a number"},
		{"1/2 3 in", 0, "not a number"},
		{"1/0 in", 0, "not a number"},
		{"NaN cm", 0, "not a"},
		{"1e9 cm", 0, "not a"},
	} {
		got, err := unit.ParseLength(c.in)
		if c.fail != "" {
			if err == nil || !strings.Contains(err.Error(), c.fail) {
				t.Errorf("ParseLength(%q) = %v, %v, want an error with %q", c.in, got, err, c.fail)
			}
			continue
		}
		if err != nil || math.Abs(got.MM()-c.mm) > 1e-9 {
			t.Errorf("ParseLength(%q) = %v, %v, want %g mm", c.in, got.MM(), err, c.mm)
		}
	}
}

func TestParseEase(t *testing.T) {
	for in, want := range map[string]unit.Ease{
		"-10 %": {Share: -0.10},
		"-10%":  {Share: -0.10},
		"0 %":   {},
		"-2 cm": {Fixed: -20},
	} {
		if got, err := unit.ParseEase(in); err != nil || got != want {
			t.Errorf("ParseEase(%q) = %v, %v, want %v", in, got, err, want)
		}
	}
	if _, err := unit.ParseEase("-10"); err == nil || !strings.Contains(err.Error(), `"-10 %"`) {
		t.Errorf("ParseEase(-10) error = %v, want it to offer %q", err, "-10 %")
	}
}

func TestPrintedLengths(t *testing.T) {
	for _, c := range []struct {
		mm     float64
		inches string
		cm     string
	}{
		{203.2, "8", "20.3"},
		{184.15, "7 1/4", "18.4"},
		{9.525, "3/8", "1"},
		{31.75, "1 1/4", "3.2"},
		{200, "7 7/8", "20"},
		{-38.1, "-1 1/2", "-3.8"},
	} {
		l := unit.Length(c.mm)
		if l.Inches() != c.inches || l.Centimetres() != c.cm {
			t.Errorf("%g mm prints %q in, %q cm, want %q and %q", c.mm, l.Inches(), l.Centimetres(), c.inches, c.cm)
		}
	}
}

func ExampleGauge() {
	g := unit.NewGauge(32, 44, 10*unit.Centimetre)
	fmt.Printf("%.3f sts per inch; 64 sts are %s round\n", g.PerInch(), g.Width(64))
	// Output: 8.128 sts per inch; 64 sts are 7 7/8 in [20 cm] round
}

func FuzzParseLength(f *testing.F) {
	for _, s := range []string{"9.5 in", "9½ in", "-2 cm", "9,5 in", "1/0 in", "⅜", "\xff in"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		l, err := unit.ParseLength(s)
		if err == nil && (math.IsNaN(l.MM()) || math.IsInf(l.MM(), 0)) {
			t.Errorf("ParseLength(%q) = %v without an error", s, l)
		}
	})
}

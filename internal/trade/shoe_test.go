package trade

import (
	"math"
	"strings"
	"testing"

	"sockwright/internal/unit"
)

// The adult rows of ISO 19407:2023 as an open data set gives them. Its women's column is the
// FIA scale. At 235 and 290 mm the exact barleycorn (8.4667 mm) falls on the other side of a
// tie, so these rows hold only with the printed step of 8.47 mm.
func TestShoeForMeetsISO19407(t *testing.T) {
	for _, row := range []struct{ foot, eu, uk, usMen, usWomenFIA float64 }{
		{215, 34, 2.5, 3.5, 4.5},
		{220, 35, 3, 4, 5},
		{225, 35.5, 3.5, 4.5, 5.5},
		{230, 36.5, 4, 5, 6},
		{235, 37, 4.5, 5.5, 6.5},
		{240, 38, 5.5, 6.5, 7.5},
		{245, 38.5, 6, 7, 8},
		{250, 39.5, 6.5, 7.5, 8.5},
		{255, 40, 7, 8, 9},
		{260, 41, 7.5, 8.5, 9.5},
		{265, 41.5, 8.5, 9.5, 10.5},
		{270, 42.5, 9, 10, 11},
		{275, 43, 9.5, 10.5, 11.5},
		{280, 44, 10, 11, 12},
		{285, 44.5, 10.5, 11.5, 12.5},
		{290, 45.5, 11, 12, 13},
		{295, 46, 12, 13, 14},
		{300, 47, 12.5, 13.5, 14.5},
		{305, 47.5, 13, 14, 15},
		{310, 48.5, 13.5, 14.5, 15.5},
		{315, 49, 14, 15, 16},
		{320, 50, 15, 16, 17},
	} {
		for system, want := range map[System]float64{
			EU: row.eu, UK: row.uk, USMen: row.usMen, usWomenFIA: row.usWomenFIA, Mondopoint: row.foot,
			USWomen: row.usMen + 1.5,
		} {
			if got := ShoeFor(system, unit.Length(row.foot)); got != (Shoe{system, want}) {
				t.Errorf("ShoeFor(%s, %g mm) = %v, want %g", system, row.foot, got, want)
			}
		}
	}
}

func TestFootLength(t *testing.T) {
	for _, c := range []struct {
		shoe Shoe
		mm   float64
	}{
		{Shoe{USMen, 1}, 25.4 * 23 / 3}, // 7 2/3 in, where the measuring device has it
		{Shoe{USMen, 5}, 228.6},
		{Shoe{USWomen, 6.5}, 228.6},
		{Shoe{usWomenFIA, 6}, 228.6},
		{Shoe{UK, 4}, 228.6},
		{Shoe{UKChild, 14}, 25.4 * 24 / 3},
		{Shoe{UK, 1}, 25.4 * 24 / 3},
		{Shoe{USChild, 14}, 25.4 * 71 / 9},
		{Shoe{EU, 38}, 240},
		{Shoe{Mondopoint, 245}, 245},
		{Shoe{}, 0},
	} {
		if got := c.shoe.FootLength().MM(); math.Abs(got-c.mm) > 1e-9 {
			t.Errorf("%v is a foot of %g mm, want %g", c.shoe, got, c.mm)
		}
	}
}

// Every half size comes back from the foot it stands for.
func TestShoeForFootLength(t *testing.T) {
	for system, r := range rules() {
		for size := 0.0; size <= 330; size += r.mark {
			shoe := Shoe{system, size}
			foot := shoe.FootLength()
			if foot < shortestFoot || foot > 330 || system == UKChild && size > lastChild {
				continue
			}
			if got := ShoeFor(system, foot); got != shoe {
				t.Errorf("ShoeFor(%s, %g mm) = %v, want %v", system, foot.MM(), got, shoe)
			}
		}
	}
	if got := ShoeFor(UKChild, Shoe{UK, 3}.FootLength()); got != (Shoe{UK, 3}) {
		t.Errorf("past the UK child scale ShoeFor = %v, want UK 3", got)
	}
}

func TestParseShoe(t *testing.T) {
	for _, c := range []struct {
		in    string
		want  Shoe
		print string
	}{
		{"US W 8", Shoe{USWomen, 8}, "US W 8"},
		{" us  w 8 ", Shoe{USWomen, 8}, "US W 8"},
		{"US M 10½", Shoe{USMen, 10.5}, "US M 10.5"},
		{"US M 10 1/2", Shoe{USMen, 10.5}, "US M 10.5"},
		{"US C 9", Shoe{USChild, 9}, "US C 9"},
		{"US C 13½", Shoe{USChild, 13.5}, "US C 13.5"},
		{"US 1Y", Shoe{USChild, 14}, "US 1Y"},
		{"US 2½Y", Shoe{USChild, 15.5}, "US 2.5Y"},
		{"US 2 y", Shoe{USChild, 15}, "US 2Y"},
		{"UK 6", Shoe{UK, 6}, "UK 6"},
		{"UK C 9", Shoe{UKChild, 9}, "UK C 9"},
		{"EU 39", Shoe{EU, 39}, "EU 39"},
		{"EU39", Shoe{EU, 39}, "EU 39"},
		{"MP 245", Shoe{Mondopoint, 245}, "MP 245"},
	} {
		got, err := ParseShoe(c.in)
		if err != nil || got != c.want || got.String() != c.print {
			t.Errorf("ParseShoe(%q) = %v, %v, want %v", c.in, got, err, c.print)
		}
		if again, err := ParseShoe(c.print); err != nil || again != c.want {
			t.Errorf("ParseShoe(%q) = %v, %v, want %v", c.print, again, err, c.want)
		}
	}
}

func TestParseShoeErrors(t *testing.T) {
	for in, fail := range map[string]string{
		"":              `write "US W 8", "US M 8", "US C 8" or "UK 8"`,
		"9":             `write "US W 9", "US M 9", "US C 9" or "UK 9"`,
		"39":            `write "EU 39"`,
		"245":           `write "MP 245"`,
		"US 8":          `write "US W 8", "US M 8" or "US C 8"`,
		"US 8 W":        `write "US W 8"`,
		"women's 7.5":   `write "US W 7.5"`,
		"US men's 9":    `write "US M 9"`,
		"M 9":           `write "US M 9"`,
		"toddler 9":     `write "US C 9"`,
		"youth 2":       `write "US 2Y"`,
		"US Y 2":        `write "US 2Y"`,
		"UK W 5":        `write "UK 5"`,
		"UK child 5":    `write "UK C 5"`,
		"EUR 39":        `write "EU 39"`,
		"Mondopoint 24": `write "MP 24"`,
		"US W":          `write "US W 8"`,
		"US W FIA 8":    `write "US W 8"`,
		"US W -3":       `write "US W 3"`,
		"US W 8,5":      `write the decimal point`,
		"US W 8-9":      `is not a number`,
		"EU 39 1/3":     `the nearest is 39.5`,
		"US 0Y":         `begin with "US 1Y"`,
		"US C 14":       `write "US 1Y"`,
		"UK C 14":       `write "UK 1"`,
		"US W 80":       `a foot of 851 mm`,
		"MP 24.5":       `a foot of 24 mm`,
	} {
		if got, err := ParseShoe(in); err == nil || !strings.Contains(err.Error(), fail) {
			t.Errorf("ParseShoe(%q) = %v, %v, want an error with %q", in, got, err, fail)
		}
	}
}

func FuzzParseShoe(f *testing.F) {
	for _, s := range []string{"US W 8", "US M 10½", "US 2Y", "UK C 9", "EU 39", "½", "\xff9\xff"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		shoe, err := ParseShoe(s)
		if err != nil {
			return
		}
		if again, err := ParseShoe(shoe.String()); err != nil || again != shoe {
			t.Errorf("ParseShoe(%q) = %v, which reads back as %v, %v", s, shoe, again, err)
		}
	})
}

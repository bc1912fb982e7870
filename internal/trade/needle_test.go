package trade

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

func TestNeedles(t *testing.T) {
	list := Needles()
	if len(list) != 24 {
		t.Errorf("%d needles, want 24", len(list))
	}
	if !slices.IsSortedFunc(list, func(a, b Needle) int { return int((a.MM - b.MM) * 100) }) {
		t.Error("the needles are not sorted by diameter")
	}
	for _, n := range list {
		if got, ok := NeedleByMM(n.MM); !ok || got != n {
			t.Errorf("NeedleByMM(%g) = %v, %t, want %v", n.MM, got, ok, n)
		}
	}
	if n, ok := NeedleByMM(2.3); ok {
		t.Errorf("NeedleByMM(2.3) = %v, want none", n)
	}
}

func TestParseNeedle(t *testing.T) {
	for _, c := range []struct{ in, print, fail string }{
		{"2.25 mm", "US 1 [2.25 mm]", ""},
		{"2.25mm", "US 1 [2.25 mm]", ""},
		{"2¼ mm", "US 1 [2.25 mm]", ""},
		{"2.3 mm", "2.3 mm", ""},
		{"7 mm", "7 mm", ""},
		{"1.75 mm", "1.75 mm", ""},
		{"US 1", "US 1 [2.25 mm]", ""},
		{"us1", "US 1 [2.25 mm]", ""},
		{"US 1.5", "US 1.5 [2.5 mm]", ""},
		{"US 1½", "US 1.5 [2.5 mm]", ""},
		{"US 1 1/2", "US 1.5 [2.5 mm]", ""},
		{"US 0", "US 0 [2 mm]", ""},
		{"US 000", "US 000 [1.5 mm]", ""},
		{"US 10½", "US 10.5 [6.5 mm]", ""},
		{"US 00", "", `"US 00" is not a needle size on which makers agree: write the metric size`},
		{"US 14", "", "write the metric size"},
		{"US", "", "write the metric size"},
		{"US 1 [2.25 mm]", "", "write the metric size"},
		{"UK 13", "", `"UK 13" is an old UK size: write "2.25 mm"`},
		{"1", "", `write "1 mm" or "US 1"`},
		{"2.25", "", `"2.25" has no unit: write "2.25 mm"`},
		{"2,25 mm", "", "write the decimal point"},
		{"0.9 mm", "", "write 1 to 25 mm"},
		{"26 mm", "", "write 1 to 25 mm"},
		{"mm", "", "is not a number"},
		{"2 cm", "", `write it as "2.25 mm" or "US 1"`},
		{"", "", `write it as "2.25 mm" or "US 1"`},
	} {
		got, err := ParseNeedle(c.in)
		if c.fail != "" {
			if err == nil || !strings.Contains(err.Error(), c.fail) {
				t.Errorf("ParseNeedle(%q) = %v, %v, want an error with %q", c.in, got, err, c.fail)
			}
			continue
		}
		if err != nil || got.String() != c.print {
			t.Errorf("ParseNeedle(%q) = %v, %v, want %s", c.in, got, err, c.print)
		}
	}
}

func ExampleParseNeedle() {
	n, _ := ParseNeedle("US 1½")
	fmt.Println(n, n.MM)
	_, err := ParseNeedle("1.5")
	fmt.Println(err)
	// Output:
	// US 1.5 [2.5 mm] 2.5
	// "1.5" has no unit: write "1.5 mm" or "US 1.5"
}

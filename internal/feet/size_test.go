package feet

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the golden file")

var ranges = []string{"women", "men", "children"}

func TestRangeGolden(t *testing.T) {
	var b strings.Builder
	for _, name := range ranges {
		list, err := Range(name)
		if err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(&b, "%-9s %-22s %7s %7s %7s %10s  (mm)\n", name, "shoes", "length", "ball", "ankle", "heel-ankle")
		for _, s := range list {
			note := ""
			if s.Estimated {
				note = "  girths estimated"
			}
			if ForBaby(s.Length) {
				note += ", baby"
			}
			fmt.Fprintf(&b, "%-9s %-22s %7.1f %7.1f %7.1f %10.1f%s\n", s.Name, fmt.Sprint(s.Shoes[0], " to ", s.Shoes[1]),
				s.Length, s.Girth, s.Ankle, s.HeelAnkle, note)
		}
	}
	const file = "testdata/sizes.golden"
	if *update {
		if err := os.WriteFile(file, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if b.String() != string(want) {
		t.Errorf("the ranges are now\n%s\nwant\n%s", b.String(), want)
	}
}

func TestRangesGrow(t *testing.T) {
	for _, name := range ranges {
		list, _ := Range(name)
		for i, s := range list {
			if s.Estimated != (name == "children") {
				t.Errorf("%s %s: estimated is %t", name, s.Name, s.Estimated)
			}
			if s.Length <= s.Shoes[0].FootLength() || s.Length >= s.Shoes[1].FootLength() {
				t.Errorf("%s %s: the length lies outside its shoes", name, s.Name)
			}
			if i == 0 {
				continue
			}
			p := list[i-1]
			if s.Shoes[0].System != p.Shoes[1].System || s.Shoes[0].Size != p.Shoes[1].Size+0.5 {
				t.Errorf("%s: %s begins with %v, but %s ends with %v", name, s.Name, s.Shoes[0], p.Name, p.Shoes[1])
			}
			if s.Length < p.Length || s.Girth < p.Girth || s.Ankle < p.Ankle || s.HeelAnkle < p.HeelAnkle {
				t.Errorf("%s: %s is smaller than %s: %+v, %+v", name, s.Name, p.Name, s, p)
			}
		}
	}
}

func TestRangeNames(t *testing.T) {
	if list, err := Range(" Women "); err != nil || len(list) != 5 {
		t.Errorf("Range(Women) = %v, %v", list, err)
	}
	if _, err := Range("kids"); err == nil || err.Error() != `"kids" is not a size range: write women, men or children` {
		t.Errorf("Range(kids) = %v", err)
	}
}

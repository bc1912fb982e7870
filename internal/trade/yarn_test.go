package trade

import (
	"strings"
	"testing"
)

func TestYarnWeights(t *testing.T) {
	list := yarnWeights()
	if len(list) != 8 {
		t.Fatalf("%d categories, want 8", len(list))
	}
	for i, w := range list {
		if w.Category != i {
			t.Errorf("category %d stands in place %d", w.Category, i)
		}
		got, ok := YarnWeightByCategory(i)
		if !ok || got.Name != w.Name {
			t.Errorf("YarnWeightByCategory(%d) = %v, %t", i, got, ok)
		}
		if i > 0 && (w.StitchesMax >= list[i-1].StitchesMax || w.NeedleMin != list[i-1].NeedleMax) {
			t.Errorf("%v does not follow on %v", w, list[i-1])
		}
	}
	if w := list[1]; w.StitchesMin != 27 || w.StitchesMax != 32 || w.NeedleMin != 2.25 || w.NeedleMax != 3.25 {
		t.Errorf("Super Fine is %+v, want 27 to 32 stitches on 2.25 to 3.25 mm", w)
	}
	if w := list[7]; w.StitchesMin != 0 || w.StitchesMax != 6 || w.NeedleMin != 12.75 || w.NeedleMax != 0 {
		t.Errorf("Jumbo is %+v, want at most 6 stitches on 12.75 mm and more", w)
	}
	for _, i := range []int{-1, 8} {
		if w, ok := YarnWeightByCategory(i); ok {
			t.Errorf("YarnWeightByCategory(%d) = %v, want none", i, w)
		}
	}
}

func TestParseYarnWeight(t *testing.T) {
	for _, c := range []struct {
		in   string
		want int
		fail string
	}{
		{"1", 1, ""},
		{"Super Fine", 1, ""},
		{"super  fine", 1, ""},
		{"1 (Super Fine)", 1, ""},
		{"sock", 1, ""},
		{"sport", 2, ""},
		{"DK", 3, ""},
		{"dk weight", 3, ""},
		{"light worsted", 3, ""},
		{"worsted", 4, ""},
		{"super bulky", 6, ""},
		{"Jumbo", 7, ""},
		{"fingering", 0, `"fingering" is used for 0 (Lace) and 1 (Super Fine): write the number`},
		{"baby", 0, `1 (Super Fine) and 2 (Fine)`},
		{"Roving", 0, `6 (Super Bulky) and 7 (Jumbo)`},
		{"8", 0, "write a number from 0 (Lace) to 7 (Jumbo)"},
		{"4 ply", 0, "write a number from 0 (Lace) to 7 (Jumbo)"},
		{"", 0, "write a number"},
	} {
		got, err := ParseYarnWeight(c.in)
		if c.fail != "" {
			if err == nil || !strings.Contains(err.Error(), c.fail) {
				t.Errorf("ParseYarnWeight(%q) = %v, %v, want an error with %q", c.in, got, err, c.fail)
			}
			continue
		}
		if err != nil || got.Category != c.want {
			t.Errorf("ParseYarnWeight(%q) = %v, %v, want %d", c.in, got, err, c.want)
		}
	}
}

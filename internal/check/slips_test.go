package check_test

import (
	"strings"
	"testing"
)

// One slip put into a case that is right otherwise, and what is said of it.
func TestSlips(t *testing.T) {
	for _, slip := range []struct {
		name, old, new string
		line           int
		says           string
	}{
		{"gravel-spit", "Sl 1, k5 (3, 3, 5), ssk", "Sl 1, k6 (3, 3, 5), ssk", 12, "wait on the other side of the heel"},
		{"ebb-heel", "knit 6, ssk", "knit 5, ssk", 8, "does not decrease across the gap"},
		{"ebb-heel", "knit 6, ssk", "knit 3, ssk", 8, "turns before it comes to the gap"},
		{"anchor-heel", "Of the 64 sts", "Of the 66 sts", 2, "the parts named here make 64 sts, but there are 66"},
		{"slipway-heel", "13 in the middle", "14 in the middle", 2, "the parts named here make 40 sts, but there are 39"},
		{"dry-dock", "K 28 - 30 - 34 sts with waste yarn", "K 28 - 29 - 34 sts with waste yarn", 5, "29 sts were knitted with waste yarn"},
		{"gravel-spit", "then k 8 (8, 9, 10)", "then k 7 (8, 9, 10)", 16, "before the round begins"},
		{"sail-loft", "K18 (20), pick up", "K17 (20), pick up", 4, "before stitches are picked up"},
		{"shipwright-lane", "there are 24 (28, 30, 34) rows", "there are 25 (28, 30, 34) rows", 10, "the 23 rows more that this takes are not whole repeats of 2 rows"},
		{"bollard-flap", "15 (17, 19) ridges", "15 (18, 19) ridges", 5, "18 sts stated at each edge, but there are 17"},
		{"sea-campion", "- (54, -, 62) sts", "- (55, -, 62) sts", 9, "55 sts stated in all, but there are 54"},
	} {
		text := readFile(t, "testdata/cases/"+slip.name+".pattern.txt")
		if !strings.Contains(text, slip.old) {
			t.Fatalf("%s: no %q", slip.name, slip.old)
		}
		found, _ := findings(slip.name, strings.Replace(text, slip.old, slip.new, 1))
		said := false
		for _, f := range found {
			said = said || f.Line == slip.line && strings.Contains(f.Message, slip.says)
		}
		if !said {
			t.Errorf("%s with %q: line %d is not said to be wrong, %q, but %v", slip.name, slip.new, slip.line, slip.says, found)
		}
	}
}

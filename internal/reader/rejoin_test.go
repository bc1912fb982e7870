package reader

import (
	"strings"
	"testing"

	"sockwright/internal/source"
)

// TestRejoin: lines that go on from the one before begin with "+" here.
func TestRejoin(t *testing.T) {
	for _, c := range []struct{ name, text string }{
		{"a text broken to a width", `
TIDE LINE
CO 60 sts and join without twisting. Work in k2, p2 rib for 15
+rnds.
Rnd 1: *K4, p2; rep from * to end. Rnd 2: As Rnd 1. Rnd 3: K to
+end. 60 sts.
Knit 3 rnds.`},
		{"a list of abbreviations", `
ABBREVIATIONS
CO: cast on
dec: decrease
rep: repeat
p.s.s.o. = pass slipped stitch over
y.fwd. = yarn forward`},
		{"lines of facts that are as long as any", `
SIZES
Foot: 7 (8, 9) in round, 9 (10, 11) in long
Yarn: 100 (100, 150) g of fingering, 400 m
Needles: a set of five, 2.5 mm`},
		{"a sentence left open, in a text that has not been broken", `
Work the heel on 30 sts, slipping the first st of every row, until 30 rows are worked, and
+then turn the heel.
Foot: knit plain for 48 rnds, then knit one more, and then work the toe as it is told further down, ending with a plain round.`},
		{"a marker, the number of a row and a needle at the beginning of a line", `
TOE
Rnd 1: K to 3 sts before A, k2tog, k1, sl A, k1, ssk, k to 3 before
+B, k2tog, k1, slip this marker, k1, ssk, k to the end of round. Row
+2 is plain.
Rnd 3: N1: K to the last 3 sts, k2tog, k1 and work on. N2: Knit.
+N3: k1, ssk, k to end.`},
		{"a dash of a sentence and dashes of a list", `
HEEL
The heel is worked in stockinette to and fro - knit on the outside
+- over half the stitches.
- 2 needles
- 1 marker`},
		{"a chart", `
CHART A
 2 | k p k p k p k p k p
 1 | k k k k k k k k k k
Key: k = knit; p = purl`},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := strings.TrimPrefix(c.text, "\n")
			want := strings.Split(text, "\n")
			f := rejoin(source.NewFile("x", strings.ReplaceAll(text, "\n+", "\n")))
			for i, line := range want {
				if goes := strings.HasPrefix(line, "+"); goes != f.GoesOn(i+1) {
					t.Errorf("goes on: %v, should be %v: %s", f.GoesOn(i+1), goes, line)
				}
			}
		})
	}
}

package check_test

import (
	"bufio"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"sockwright/internal/check"
	"sockwright/internal/source"
)

// bandedLeg is a leg of twenty bands in four sizes, 20 KB of it. Each ends with a repeat that
// can be read in two ways; three state a count that does not come out; then comes a foot.
func bandedLeg() string {
	var b strings.Builder
	b.WriteString("LIMEPIT STOCKING\n\nSizes S (M, L, XL)\nGauge: 32 sts and 44 rnds = 10 cm\n\nLEG\nCO 60 (64, 68, 72) sts and join in the round.\n")
	for band := range 20 {
		total := "60 (64, 68, 72)"
		if band%8 == 3 {
			total = "60 (66, 68, 72)"
		}
		fmt.Fprintf(&b, "\nBand %d of the leg is worked like the others, in the second colour of the pair if you like; hold the yarn loosely over the back of the work, and let the needles meet without a gap. Whoever knits tightly takes needles a size larger for the bands, and whoever knits loosely one a size smaller, as each band keeps the width of the one above it. Those who prefer one long needle slide the first half of the stitches to its tip.\n", band+1)
		fmt.Fprintf(&b, "Rnd 1: *K2, p2; rep from * to end.\nRnd 2: K1, *yo, k2tog; rep from * to last 3 sts, k3.\nRnd 3: K all sts.\nRnd 4: *K2tog, yo, k2; rep from * to end. %s sts.\nRepeat rnds 1 to 4 three times.\n", total)
		b.WriteString("Next rnd: K1, ssk, k to last 3 sts, k2tog, k1. 58 (62, 66, 70) sts.\nNext rnd: Knit.\nNext rnd: K1, m1l, k to last st, m1r, k1. 60 (64, 68, 72) sts.\n")
		b.WriteString("Lay the work flat, smooth it, and look at the band from both sides before you go on: a yarn over that was dropped is found soonest here, and mended with the tip of the needle alone.\n")
	}
	b.WriteString("\nHEEL FLAP\nThe heel is worked over the last 30 (32, 34, 36) sts.\nRow 1 (RS): *Sl 1, k1; rep from * to end.\nRow 2 (WS): Sl 1, p to end.\nRep rows 1 and 2 14 (15, 16, 17) more times.\n")
	return b.String()
}

// BenchmarkCheck checks a long pattern with three faults and twenty ambiguities and tells how
// long it took at the median and at the 95th percentile, also as a ratio to cutting the same
// text into words.
func BenchmarkCheck(b *testing.B) {
	text := bandedLeg()
	f := source.NewFile("long.txt", text)
	faults, doubts := 0, 0
	for _, x := range check.Pattern(f).Faults {
		switch x.Kind {
		case source.StitchCount:
			faults++
		case source.Ambiguous:
			doubts++
		}
	}
	if faults < 3 || doubts < 20 {
		b.Fatalf("%d faults and %d ambiguities", faults, doubts)
	}
	var took []time.Duration
	var words time.Duration
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		begin := time.Now()
		check.Pattern(f)
		took = append(took, time.Since(begin))
		begin = time.Now()
		s := bufio.NewScanner(strings.NewReader(text))
		s.Split(bufio.ScanWords)
		for s.Scan() {
		}
		words += time.Since(begin)
	}
	slices.Sort(took)
	at := func(percent int) time.Duration { return took[(len(took)-1)*percent/100] }
	b.ReportMetric(float64(at(50).Microseconds())/1000, "p50-ms")
	b.ReportMetric(float64(at(95).Microseconds())/1000, "p95-ms")
	b.ReportMetric(float64(at(50))/(float64(words)/float64(len(took))), "×words")
}

package follow_test

import (
	"fmt"
	"strings"
	"testing"

	"sockwright/internal/follow"
	"sockwright/internal/reader"
	"sockwright/internal/source"
)

// TestFaults: texts that are wrong, and the line and kind of every fault in them.
func TestFaults(t *testing.T) {
	for _, c := range []struct{ name, text, faults string }{
		{"a flap that cannot end on that side", `
Heel on 28 sts, RS facing.
Row 1 (RS): *Sl 1, k1; rep from * to end.
Row 2 (WS): Sl 1, p to end.
Rep Rows 1 and 2 until 28 rows are worked, ending with a RS row.`, "5 direction"},
		{"plain rows that cannot end on that side", `
Heel on 28 sts, RS facing.
Work 28 rows in St st, ending with a RS row.`, "3 direction"},
		{"more rows than the shaping takes", `
Calf: 88 sts.
Dec rnd: K1, k2tog, k to last 3 sts, ssk, k1. 86 sts.
Work the Dec rnd on every 8th rnd, 10 times in all. 68 sts.
The calf takes 72 rnds.`, "5 stitch-count"},
		{"markers that do not hold the instep", `
64 sts, 32 for the instep and 32 for the sole.
Next rnd: K16, pm A, k30, pm B, k18. The instep lies between A and B.`, "3 marker"},
		{"markers that do not hold the instep, in other words", `
64 sts, 32 for the instep and 32 for the sole.
Next rnd: K16, pm, k30, pm, k18.
The markers are at each side of the instep.`, "4 marker"},
		{"markers that hold the instep", `
64 sts, 32 for the instep and 32 for the sole.
Next rnd: K16, pm A, k32, pm B, k16. A and B mark the instep.
Next rnd: K to 3 sts before the instep, k2tog, k1, k instep, k1, ssk, k to end. 62 sts.`, ""},
		{"a marker that was taken off", `
K14, pm A, k28, pm B, k14, pm for BOR. 56 sts.
Next rnd: K to A, sl A, k to B, remove B, k to BOR.
Next rnd: K to 3 sts before A, k2tog, k1, sl A, k to 3 sts before B, k2tog, k1, sl B, k to BOR.`, "4 marker"},
		{"a set-up that leaves stitches of its part", `
N1 holds the 29 instep sts and N2 holds the 28 sole sts, 57 sts in all.
Set-up for the instep: [p1, 6 lace sts] 4 times.`, "3 stitch-count"},
		{"a turn that cannot end on that side", `
Heel on 26 sts, RS facing.
Row 1 (RS): Sl 1, k14, ssk, k1, turn.
Row 2 (WS): Sl 1, p5, p2tog, p1, turn.
Following rows: Sl 1, work to 1 st before the gap, dec over the gap, work 1, turn.
Go on until all sts have been worked; the last row is a RS row. 16 sts.`, "6 direction"},
		{"a pattern that goes on with another row", `
Reed patt (multiple of 6 sts):
Rnds 1-6: *K4, p2; rep from * to end.
Leg: over 60 sts work Rnds 1-6 of Reed patt 8 times, then work Rnds 1-4 once more.
Heel flap: knit 30 and turn. 30 sts wait for the instep.
Row 1 (WS): Sl 1, p to end.
Row 2 (RS): Sl 1, k to end.
Rep Rows 1 and 2 until 30 rows are worked.
Gusset: k30, pick up and k 15 sts; work Reed patt over the 30 instep sts, beginning with Rnd 3; pick up and k 15 sts. 90 sts.`, "9 chart-text-mismatch"},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := source.NewFile("sock.txt", "SOCK"+c.text)
			words := reader.Read(f)
			var have []string
			for _, x := range append(words.Faults, follow.Follow(words).Faults...) {
				line, _ := f.Position(x.At.Start)
				have = append(have, fmt.Sprintf("%d %s", line, x.Kind))
			}
			if have := strings.Join(have, ", "); have != c.faults {
				t.Errorf("faults “%s”, should be “%s”", have, c.faults)
			}
		})
	}
}

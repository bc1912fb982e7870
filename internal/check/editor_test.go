package check

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"sockwright/internal/reader"
	"sockwright/internal/source"
)

// edited is what the editor finds in a text.
func edited(text string) []source.Finding {
	words := reader.Read(source.NewFile("", text))
	sizes := namedSizes(words.Sizes)
	var out []source.Finding
	for _, x := range source.Merge(edit(words)) {
		out = append(out, source.Find(words.File, sizes, x))
	}
	return out
}

// told is a finding in one line: "3:8 warning units M: message".
func told(x source.Finding) string {
	return fmt.Sprintf("%d:%d %s %s %s: %s", x.Line, x.Column, x.Severity, x.Kind, strings.Join(x.Sizes, " "), x.Message)
}

// Each text is followed by what the editor must find in it, by place, kind, sizes and the
// beginning of its words, and by nothing else. An empty list is a near miss.
//
// The figures follow from definitions: 1 in = 25.4 mm and 1 yd = 0.9144 m exactly, 1 oz =
// 28.349523125 g (international yard and pound, 1959; NIST SP 811, appendix B). US and old UK
// needle numbers are those of internal/trade/needles.csv, with its sources.
var editorTexts = []struct {
	name, text string
	want       []string
}{
	// inches and centimetres
	{"one length", "PEBBLE\nCO 60 sts.\nKnit until leg measures 6 in (17.5 cm).\n", []string{"3:31 warning units 1: 6 in is 15 cm, not 17.5 cm"}},
	{"6 in = 152.4 mm, printed as 15 or 15.5", "PEBBLE\nCO 60 sts.\nKnit until leg measures 6 in (15 cm).\nKnit until it measures 6 in (15.5 cm).\n", nil},
	{"a list behind a list", "PEBBLE\nSizes: S (M, L)\nFoot: 7 (8, 9) in / 18 (20.5, 25) cm\n", []string{"3:31 warning units L: 9 in is 23 cm, not 25 cm"}},
	{"a list behind a list that agrees", "PEBBLE\nSizes: S (M, L)\nFoot: 7 (8, 9) in / 18 (20.5, 23) cm\nLeg: 15/16.5/18 cm (6/6 1/2/7 in)\n", nil},
	{"centimetres first, a comma", "PEBBLE, S (L)\nCO 60 (64) sts.\nKnit until foot measures 19 (21.5) cm, 7 1/2 (9) in.\n", []string{"3:47 warning units L: 21.5 cm is 8 1/2 in, not 9 in"}},
	{"a comma between two things", "PEBBLE\nCO 60 sts.\nRib for 2 in, 15 cm of leg to follow.\n", nil},
	{"a unit behind each figure", "PEBBLE, sizes S [M, L]\nCO 56 [64, 72] sts.\nKnit until leg measures 6 1/2 in [7 in, 7 1/2 in] (16.5 cm [18 cm, 21 cm]).\n", []string{"3:68 warning units L: 7 1/2 in is 19 cm, not 21 cm"}},
	{"dotted, colons", "PEBBLE\nSizes 1 [2:3]\nFoot length: 23 [25.5:28] cm. (9 [10:11] in.).\n", nil},
	{"brackets in brackets", "PEBBLE\nSizes: 1 (2, 3, 4)\nKnit until foot is 1 1/4 (1 1/4, 1 1/2, 1 1/2) in (3 (3, 4, 4) cm) shorter.\n", nil},
	{"hyphen and vulgar fractions", "PEBBLE\nFoot: 7-1/2 in (19 cm), leg 6½ in (16.5 cm)\n", nil},
	{"what is in the bracket goes on", "PEBBLE\nCO 60 sts.\nKnit until leg measures 6 in (2 cm of rib included).\n", nil},

	// weights, yarn, needles
	{"grams", "PEBBLE\nYarn: 100 g (5 oz)\n", []string{"2:14 warning units 1: 100 g is 3.5 oz, not 5 oz"}},
	{"grams rounded", "PEBBLE\nYarn: 100 g (3.5 oz), or 50 g (1 3/4 oz) balls, 400 yds (366 m)\n", nil},
	{"yards", "PEBBLE\nYarn: 400 yds (400 m)\n", []string{"2:16 warning units 1: 400 yd is 366 m, not 400 m"}},
	{"needle", "PEBBLE\nNeedles: US 1 (2.75 mm)\n", []string{"2:16 warning units 1: needle US 1 is 2.25 mm, not 2.75 mm"}},
	{"needle behind mm", "PEBBLE\nNeedles: 3.25 mm (US 2)\n", []string{"2:10 warning units 1: needle US 2 is 2.75 mm, not 3.25 mm"}},
	{"needles that makers call so", "PEBBLE\nNeedles: US 1 (2.25 mm), US 1 (2.5 mm), 3 mm (US 2), No. 12 (2 3/4 mm.)\n", nil},
	{"ounces as they are sold", "PEBBLE\nYarn: 4 oz (100 g)\n", []string{"2:13 note units 1: 4 oz is 113 g, not 100 g"}},
	{"a range and one figure", "PEBBLE\nCO 60 sts.\nRib for 2-3 in (5 cm).\n", nil},
	{"a hook is no needle", "PEBBLE\nCrochet hook: 1.5 mm (No. 7)\n", nil},
	{"shoe sizes are no needles", "PEBBLE\nTo fit US 8 (39 in Europe)\n", nil},

	// edges, repeats, sizes
	{"edges that are unlike", "PEBBLE\nCO 60 sts.\nRnd 1: N1: k2, ssk, k to last 3 sts, k2tog, k1; N2: k1, ssk, k to last 3 sts, k2tog, k1.\n", []string{"3:13 warning stitch-count 1: 1 at one edge here and 2 at the other"}},
	{"an edge that is wider", "PEBBLE\nCO 60 sts.\nRow 2 (WS): K4, p to last 3 sts, k3.\n", []string{"3:35 warning stitch-count 1: 4 at one edge here and 3 at the other"}},
	{"edges that are alike", "PEBBLE\nCO 60 sts.\nRnd 1: K2, ssk, k to last 4 sts, k2tog, k2.\nRnd 2: K3, ssk, k to end.\n", nil},
	{"the foot of one size", "PEBBLE\nSizes: S (M, L)\nCO 56 (60, 64) sts.\nK the heel sts, pick up and k 14 (15, 16) sts, k the instep sts, pick up and k 14 (15, 16) sts.\nWork Rnds 1 and 2 until 56 (58, 64) sts are left.\n",
		[]string{"5:29 warning size-column M: in every other size the gusset is decreased back to the stitches of the leg, which here are 60, not 58"}},
	{"a foot that is narrower in every size", "PEBBLE\nSizes: S (M, L)\nCO 56 (60, 64) sts.\nK the heel sts, pick up and k 14 (15, 16) sts, k the instep sts, pick up and k 14 (15, 16) sts.\nWork Rnds 1 and 2 until 52 (56, 60) sts are left.\n", nil},
	{"a list of lengths with a figure too few", "PEBBLE\nSizes: S (M, L, XL)\nCO 56 (60, 64, 68) sts.\nThe sock is about 6 (6 1/2, 7) in high.\n", []string{"4:19 error size-column : the list has 3 figures, but there are 4 sizes"}},
	{"a multiple that no row repeats", "PEBBLE\nDune patt (multiple of 7 sts):\nRnd 1: *K1, yo, ssk, k3; rep from * to end.\nRnd 2: *K2, yo, ssk, k2; rep from * to end.\n", []string{"2:24 warning repeat-does-not-divide 1: said to be a multiple of 7 stitches, but its rows repeat 6"}},
	{"a row out of step", "PEBBLE\nDune patt (multiple of 6 sts):\nRnd 1: *K1, yo, ssk, k3; rep from * to end.\nRnd 2: *K2, yo, ssk, k3; rep from * to end.\n", []string{"4:1 warning repeat-does-not-divide 1: this row repeats 7 stitches, but the pattern is said to be a multiple of 6"}},

	// gauge and girth
	{"girth", "PEBBLE\nSizes: S (M, L)\nFinished foot circumference: 7 (8, 10) in\nGauge: 32 sts = 4 in\nCO 56 (64, 72) sts.\n", []string{"3:36 warning length L: 72 sts at 32 sts to 4 in are 9 in round, not 10 in"}},
	{"girth that agrees", "PEBBLE\nSizes: S (M, L)\nFinished foot circumference: 7 (8, 9) in\nGauge: 32 sts = 4 in\nCO 56 (64, 72) sts.\n", nil},
	{"another fabric than the swatch", "PEBBLE\nSizes: S (M)\nFinished foot circumference: 6 1/4 (7) in\nGauge: 32 sts = 4 in\nCO 56 (64) sts.\n", []string{"3:30 note length S", "3:37 note length M"}},
	{"girth to fit", "PEBBLE\nTo fit foot circumference: 8 in\nGauge: 32 sts = 4 in\nCO 56 sts.\n", nil},
	{"girth of whom", "PEBBLE\nFoot circumference: 8 in\nGauge: 32 sts = 4 in\nCO 56 sts.\n", nil},
	{"girth of whom, but too small", "PEBBLE\nFoot circumference: 9 1/2 in\nGauge: 32 sts = 4 in\nCO 56 sts.\n", []string{"2:21 warning length 1: 56 sts at 32 sts to 4 in are 7 in round, not 9 1/2 in"}},
	{"gauge below its heading", "PEBBLE\n\nGAUGE\n32 sts and 44 rnds = 4 in in St st\n\nFINISHED MEASUREMENTS\nFoot circumference: 8 in\n\nCUFF\nCO 56 sts.\n", []string{"7:21 warning length 1: 56 sts"}},

	// abbreviations
	{"unused", "PEBBLE\nAbbreviations: k knit; p purl; k2tog knit 2 together; CO cast on.\nCO 60 sts.\nRnd 1: *K1, p1; rep from * to end.\n", []string{"2:32 note undefined-term : “k2tog” is explained"}},
	{"unexplained", "PEBBLE\nAbbreviations: k knit; p purl; CO cast on.\nCO 60 sts.\nRnd 1: *K7, p1, ssk; rep from * to end.\n", []string{"4:17 note undefined-term : “ssk” is used"}},
	{"dots and plurals", "PEBBLE.\nAbbreviations.-K., knit; sts., stitches; p.s.s.o., pass slipped stitch over; sl., slip; rnd(s), round(s).\nCast on 60 sts.\n1st rnd.-* K.8, sl.1, k.1, p.s.s.o.; rep. from * to end.\n", nil},
	{"entries that read on", "PEBBLE\nAbbreviations\nCO: cast on\ndpn(s): double-pointed needle(s)\nk: knit\n\nWith dpns, CO 60 sts.\nRnd 1: K to end.\n", nil},
	{"no list", "PEBBLE\nCO 60 sts.\nRnd 1: *K8, ssk; rep from * to end.\n", nil},
	{"twice", "PEBBLE\nAbbreviations\nM1: lift the strand and knit it twisted\nk: knit\nM1: cast one on behind\n\nCO 60 sts.\nRnd 1: *K8, M1; rep from * to end.\n", []string{"5:1 warning undefined-term : “M1” is explained in two ways"}},
	{"twice the same", "PEBBLE\nAbbreviations\nk: knit\nM1: make 1 from the strand\nk: knit\n\nCO 60 sts.\nRnd 1: *K8, M1; rep from * to end.\n", nil},

	// charts
	{"chart and words", "REED\nCO 48 sts.\nRnd 1: *K1, yo, ssk, k3; rep from *.\nRnd 2: Knit.\n\nAs a chart:\n2 | k k k k k k\n1 | k k k k / o\nKey: k knit, o yo, / k2tog\n", nil},
	{"chart and words, of a kind", "REED\nCO 48 sts.\nRnd 1: *K1, yo, ssk, k3; rep from *.\nRnd 2: *P1, yo, ssk, k3; rep from *.\n\nAs a chart:\n2 | k k k \\ o k\n1 | k k k \\ o k\nKey: k knit, o yo, \\ ssk\n", []string{"7:1 error chart-text-mismatch 1: chart row 2 reads, in the order of working, k1, yo, ssk, k3; the words in line 4 say p1, yo, ssk, k3"}},
	{"words of something else", "REED\nCO 48 sts.\nChart:\n2 | k k k \\ o k\n1 | k k k \\ o k\nKey: k = knit, o = yo, \\ = ssk\nRnd 1: *K2, p2; rep from *.\nRnd 2: *K1, p1; rep from *.\n", nil},
	{"colours", "BAND\nWith M CO 48 sts.\nChart:\n2 | C C M M M M\n1 | M M M C C C\nKey: M = main, C = contrast\nRnd 1: *K3 C, k3 M; rep from * to end.\nRnd 2: *K3 M, k3 C; rep from * to end.\n", []string{"4:1 error chart-text-mismatch 1: chart row 2 reads, in the order of working, 4 M, 2 C"}},
	{"one row of colours in words", "BAND\nWith M CO 48 sts.\nChart:\n1 | M M C C C C\nKey: M = main, C = contrast\nRnd 1: *K3 C, k3 M; rep from * to end.\n", []string{"4:1 error chart-text-mismatch 1: chart row 1 reads, in the order of working, 4 C, 2 M"}},
	{"a border of colours beside a chart", "BAND\nWith M CO 48 sts.\nChart:\n1 | M M C C C C\nKey: M = main, C = contrast\nRnd 1: *K1 C, k1 M; rep from * to end.\n", nil},
	{"half a repeat in words, several rows", "REED\nCO 48 sts.\nChart in words\nRnds 1 and 2: *P1, k3; rep from *.\nRnd 3: *P1, k1; rep from *.\nCHART\n3 | k p k p\n2 | k k k p\n1 | k k k p\nKey: k = knit; p = purl\n", nil},
	{"read from the left", "REED\nCO 48 sts.\nRnd 1: *K1, yo, ssk, k3; rep from *.\nRnd 2: *K2, yo, ssk, k2; rep from *.\nChart:\n2 | k k o \\ k k\n1 | k o \\ k k k\nKey: k = knit, o = yo, \\ = ssk\n", []string{"7:1 note chart-text-mismatch : the chart agrees with the words of line 3 only if"}},
	{"one row is short", "BAND\nCO 48 sts.\nChart:\n3 | D D D L\n2 | D D L\n1 | D L D L\nD = dark, L = light; every st is knitted.\n", []string{"5:1 error chart-text-mismatch 1: this row of the chart has 3 signs, the others have 4"}},
	{"a row that loses stitches", "BAND\nCO 48 sts.\nChart:\n3 | k k k\n2 | k k k\n1 | k k /\nKey: k = knit, / = k2tog\n", nil},
	{"stated width", "BAND\nCO 48 sts.\nCHART (8 sts, 2 rnds)\n2 | D D D L\n1 | D L D L\nD = dark, L = light\n", []string{"3:8 error chart-text-mismatch 1: 8 sts stated, but the chart is 4 sts wide"}},
	{"stated width of the repeat", "BAND\nCO 49 sts.\nCHART (3-st repeat and edge)\n2 | D D D L\n1 | D L D L\nD = dark, L = light\n", nil},
	{"stated height", "BAND\nCO 48 sts.\nCHART (4 sts and 6 rnds)\n2 | D D D L\n1 | D L D L\nD = dark, L = light\n", []string{"3:18 warning chart-text-mismatch 1: 6 rows stated, but the chart has 2"}},
	{"odd rows only", "BAND\nCO 48 sts.\nCHART (4 sts and 4 rnds)\n3 | D D D L\n1 | D L D L\nD = dark, L = light\n", nil},
	{"no key, one row short", "BAND\nCO 48 sts.\nChart:\n2 | k k p\n1 | k k p p\n", []string{"4:1 error chart-text-mismatch 1: this row of the chart has 3 signs"}},
	{"width beside it", "BAND\nCO 80 sts.\nThe pattern is 10 sts wide: work it 8 times.\nChart:\nDDDL | 2\nDLDL | 1\nD = dark, L = light\n", []string{"3:16 error chart-text-mismatch 1: 10 sts stated, but the chart is 4 sts wide"}},
	{"sign without a meaning", "BAND\nCO 48 sts.\nChart:\n2 | k x k k\n1 | k k k k\nKey: k = knit, p = purl\n", []string{"4:7 error undefined-term 1: the key of the chart does not explain the sign “x”"}},
	{"a dot that is told in words", "BAND\nCO 48 sts.\nChart:\n2 | k . k k\n1 | k k k k\nKey: k = knit; a dot is a purl st\n", nil},
	{"a chart that is not there", "BAND\nCO 48 sts.\nCHART A\n2 | k p k k\n1 | k k k k\nCHART B\n1 | k p\nKey: k = knit, p = purl\nWork Chart A 12 times round.\nFoot: work Chart C to end.\n", []string{"10:12 error undefined-term 1: there is no chart C"}},
	{"times are no name", "BAND\nCO 48 sts.\nCHART 1\n1 | k p\nKey: k = knit, p = purl\nWork chart 24 (26) times round.\n", nil},
	{"a chart that is drawn elsewhere", "BAND\nCO 48 sts.\nCHART A\n1 | k p\nKey: k = knit, p = purl\nChart B: see the other page.\nWork Chart B once.\n", nil},
	{"charts on another sheet", "BAND\nCO 48 sts.\nFoot: work Chart C to end.\n", nil},

	// a summary and the rest
	{"cast-on", "PEBBLE\nSizes: S (M, L)\nNotes: Cast on 56 (60, 64) sts.\nCO 56 (62, 64) sts.\n", []string{"3:20 warning stitch-count M: 60 sts here, but line 4 casts on 62"}},
	{"cast-on at a glance", "PEBBLE\nNotes: one size. Cast-on: 56 sts\nCO 60 sts.\n", []string{"2:27 warning stitch-count 1: 56 sts here"}},
	{"cast-on for something else", "PEBBLE\nGauge: cast on 32 sts for a swatch of 4 in.\nNotes: Cast on 24 sts to try it.\nCO 60 sts.\n", nil},
	{"a table is no chart", "PEBBLE\n1 | 56\n2 | 60 64\n3 | 5 cm\nCO 60 sts.\n", nil},
	{"yarn", "PEBBLE\nYarn: 1 ball of 50 g, 200 m per ball\nAmount used: 260 m\nCO 60 sts.\n", []string{"3:14 warning length 1: 260 m are used, but the balls that are listed hold only 200 m"}},
	{"yarn enough", "PEBBLE\nYarn: 2 balls of 50 g, 200 m per ball\nAmount used: 260 m\nCO 60 sts.\n", nil},
	{"needles", "PEBBLE\nNeedles: 2.5 mm double-pointed needles\nCO 60 sts.\nChange to 3 mm needles.\n", []string{"4:11 note ambiguous : needles of 3 mm are used"}},
	{"list", "PEBBLE\nSizes: S (M, L)\nCO 56 (60, 46) sts.\n", []string{"3:12 note size-column L: 46 is out of line in 56, 60, 46"}},
	{"lists that may fall", "PEBBLE\nSizes: S (M, L)\nCO 56 (60, 64) sts.\nKnit 44 (42, 40) rnds.\nWork the last 2 rnds 7 (7, 6) more times.\n", nil},

	// what mirrors
	{"left as right", "PEBBLE\nRIGHT SOCK, Rnd 1: K1, ssk, k to end.\nRnd 2: Knit.\nLEFT SOCK, Rnd 1: K to last 3 sts, ssk, k1.\nRnd 2: Knit.\n", []string{"4:1 note direction : the left sock is not the mirror image"}},
	{"left and right", "PEBBLE\nRIGHT SOCK, Rnd 1: K1, ssk, k to end.\nRnd 2: Knit.\nLEFT SOCK, Rnd 1: K to last 3 sts, k2tog, k1.\nRnd 2: Knit.\n", nil},
	{"leans", "PEBBLE\nCO 60 sts.\nRnd 1: K1, k2tog, k to last 3 sts, k2tog, k1.\n", []string{"3:12 note direction : “k2tog” and “k2tog” at the two sides lean the same way"}},
	{"leans at a marker", "PEBBLE\nCO 60 sts.\nRnd 1: K to 3 sts before m, ssk, k1, sl m, k1, ssk, k to end.\n", []string{"3:29 note direction : “ssk” and “ssk”"}},
	{"leans either way", "PEBBLE\nCO 60 sts.\nRnd 1: K1, ssk, k to last 3 sts, k2tog, k1.\nRnd 2: K1, k2tog, k to last 3 sts, ssk, k1.\nRow 3: P1, p2tog, p to last 3 sts, p2tog tbl, p1.\nRnd 4: K to 3 sts before m, k2tog, k1, sl m, k1, ssk, k to end.\n", nil},

	// order
	{"turn before flap", "PEBBLE\n\nCUFF\nCO 60 sts.\n\nHEEL TURN\nRow 1: Knit.\n\nHEEL FLAP\nRow 1: Knit.\n\nTOE\nRnd 1: Knit.\n", []string{"9:1 note ambiguous : heel flap stands below heel turn"}},
	{"from the cuff", "PEBBLE\n\nCUFF\nCO 60 sts.\n\nLEG\nRnd 1: Knit.\n\nHEEL FLAP\nRow 1: Knit.\n\nHEEL TURN\nRow 1: Knit.\n\nGUSSET\nRnd 1: Knit.\n\nFOOT\nRnd 1: Knit.\n\nTOE\nRnd 1: Knit.\n", nil},
	{"from the toe", "PEBBLE\n\nTOE\nCO 20 sts.\n\nFOOT\nRnd 1: Knit.\n\nGUSSET\nRnd 1: Knit.\n\nHEEL TURN\nRow 1: Knit.\n\nHEEL FLAP\nRow 1: Knit.\n\nLEG\nRnd 1: Knit.\n\nCUFF\nRnd 1: Knit.\n", nil},

	// wording
	{"to the gap", "PEBBLE\n30 heel sts.\nRow 3: Sl 1, k to gap, ssk, turn.\n", []string{"3:19 note ambiguous : “to the gap”"}},
	{"before the gap", "PEBBLE\n30 heel sts.\nRow 3: Sl 1, k to 1 st before gap, ssk, turn.\n", nil},
	{"every", "PEBBLE\nCO 60 sts.\nKnit 6 rnds.\nDec 2 sts every 6th rnd until 50 sts rem.\n", []string{"4:11 note ambiguous : “every 6th rnd” has 5 plain ones between"}},
	{"every, no doubt", "PEBBLE\nCO 60 sts.\nKnit 5 rnds.\nDec 2 sts every 6th rnd until 50 sts rem.\n", nil},
	{"times", "PEBBLE\n60 sts.\nRnd 1: K1, ssk, k to end.\nRnd 2: Knit.\nRep Rnds 1 and 2 six times. 54 sts.\n", []string{"5:1 note ambiguous : “six times” can be in all or more"}},
	{"these rows", "PEBBLE\n30 heel sts.\nRow 1 (RS): Sl 1, k to end.\nRow 2 (WS): Sl 1, p to end.\nRep Rows 1 and 2 7 more times.\nRep these 16 rows once more.\n", []string{"6:1 note ambiguous : 16 rows are to be worked again, but only 2 are told one by one above"}},
	{"these rows, all told", "PEBBLE\n30 heel sts.\nRow 1 (RS): Sl 1, k to end.\nRow 2 (WS): Sl 1, p to end.\nRep these 2 rows 7 more times.\n", nil},
	{"times more", "PEBBLE\n60 sts.\nRnd 1: K1, ssk, k to end.\nRnd 2: Knit.\nRep Rnds 1 and 2 six more times. 53 sts.\n", nil},
	{"without end", "PEBBLE\nCO 60 sts.\nRnd 1: Knit.\nContinue in this way.\n", []string{"4:1 note ambiguous : “Continue in this way”"}},
	{"with an end", "PEBBLE\nCO 60 sts.\nRnd 1: Knit.\nContinue in this way until 4 in are done.\n", nil},
}

func TestEditor(t *testing.T) {
	for _, c := range editorTexts {
		t.Run(c.name, func(t *testing.T) {
			got := edited(c.text)
			for i, x := range got {
				if i >= len(c.want) || !strings.HasPrefix(told(x), c.want[i]) {
					t.Errorf("not expected: %s", told(x))
				}
				if s := x.Message + x.Mend; strings.ContainsAny(s, "{}%") || strings.HasSuffix(x.Message, ".") || x.Mend == "" {
					t.Errorf("does not read well: %s | %s", x.Message, x.Mend)
				}
			}
			for _, w := range c.want[min(len(got), len(c.want)):] {
				t.Errorf("missing: %s", w)
			}
		})
	}
}

// A unit's finding is gone when either of its mends is written.
func TestEditorMends(t *testing.T) {
	text := "PEBBLE\nSizes: S (M, L)\nFoot: 7 (8, 9) in / 18 (20.5, 25) cm\nNeedles: US 1 (2.75 mm)\n"
	for _, x := range edited(text) {
		for _, m := range x.Mends {
			lines := strings.Split(text, "\n")
			for _, e := range m.Edits {
				line := []rune(lines[e.Line-1])
				lines[e.Line-1] = string(line[:e.Column-1]) + e.Text + string(line[e.EndColumn-1:])
			}
			for _, after := range edited(strings.Join(lines, "\n")) {
				if after.Line == x.Line {
					t.Errorf("after %q: %s", m.Why, told(after))
				}
			}
		}
	}
}

// What the editor calls a warning or an error stands in no pattern that is right.
func TestEditorIsSilent(t *testing.T) {
	names, err := filepath.Glob("testdata/*/*.pattern.txt")
	if err != nil || len(names) == 0 {
		t.Fatalf("no patterns: %v", err)
	}
	for _, name := range names {
		expect, err := os.ReadFile(strings.TrimSuffix(name, ".pattern.txt") + ".expect.json")
		if err != nil {
			t.Fatal(err)
		}
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		right := strings.Contains(string(expect), `"kind": "none"`)
		for _, x := range edited(string(text)) {
			if right && x.Severity != "note" {
				t.Errorf("%s:%s", name, told(x))
			}
		}
	}
}

// Whatever the text, findings and mends point into it.
func FuzzEditor(f *testing.F) {
	for _, c := range editorTexts {
		f.Add(c.text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		words := reader.Read(source.NewFile("", text))
		inside := func(s source.Span) {
			if s.Start > s.End || int(s.End) > len(words.File.Text) {
				t.Fatalf("%v of %d bytes", s, len(words.File.Text))
			}
		}
		for _, x := range edit(words) {
			inside(x.At)
			for _, m := range x.Mends {
				for _, e := range m.Edits {
					inside(e.At)
				}
			}
		}
	})
}

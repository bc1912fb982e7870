package check_test

import (
	"strings"
	"testing"

	"sockwright/internal/check"
	"sockwright/internal/source"
)

const ownText = `HALF LIGHT

ABBREVIATIONS

*: start of a repeat
k2tog: knit 2 stitches together as one
st(s): stitch, stitches

CUFF

CO 60 sts. Join to work in the round without twisting. The rnd begins at the center of the back.
Rnd 1: *K2, p2; rep from * to end.
Work the last rnd 19 more times. 20 rnds in all. 60 sts.
Rnd 2: Knit.
Rnd 3: Knit. 60 sts.
`

// What stands before a line that cannot be read is sure, and what is behind it is not.
func TestSureToTheFirstUnreadLine(t *testing.T) {
	r := check.Pattern(source.NewFile("x", strings.Replace(ownText, "Rnd 2: Knit.", "Rnd 2: Frobnicate.", 1)))
	for _, c := range r.Counts {
		if want := c.Line < 14; c.Sure != want {
			t.Errorf("line %d (%s): sure %v, should be %v", c.Line, c.Label, c.Sure, want)
		}
	}
	if r.Final[0] != -1 {
		t.Errorf("the count at the end is told to be %d", r.Final[0])
	}
}

// The abbreviations of the program's own layout are in the report, the asterisk too.
func TestOwnTerms(t *testing.T) {
	v := check.Pattern(source.NewFile("x", ownText)).Review()
	var short []string
	for _, term := range v.Terms {
		short = append(short, term.Short)
		if used := term.Short != "k2tog"; term.Used != used {
			t.Errorf("%q: used %v, should be %v", term.Short, term.Used, used)
		}
	}
	if got := strings.Join(short, " "); got != "* k2tog st(s)" {
		t.Errorf("the terms are %q", got)
	}
}

// A cast-on that reads like the program's own does not make a text one of its own.
func TestOneOwnLine(t *testing.T) {
	r := check.Pattern(source.NewFile("x", `SOCK

CO 60 sts. Join to work in the round without twisting. The rnd begins at the center of the back.
Knit plain for ten rounds, then narrow to fit: 60 stitches.
`))
	for _, f := range find(r) {
		t.Errorf("%s", f.String())
	}
	if r.Final[0] != 60 {
		t.Errorf("ends with %d sts, should end with 60", r.Final[0])
	}
}

// A matter that is told as a fault is not told again as a note.
func TestOneMatterOnce(t *testing.T) {
	r := check.Pattern(source.NewFile("x", `SOCK
Heel on 30 sts.
Row 1 (RS): Sl 1, k16, ssk, k1, turn.
Row 2: Sl 1, p5, p2tog, p1, turn.
Row 3: Sl 1, k to the gap, ssk, k1, turn.
Row 4: Sl 1, p to the gap, p2tog, p1, turn.
Rep Rows 3 and 4 until all sts are worked. 18 sts.
Rows 5 and 6: K.
Rep Rows 5 and 6 six times.
`))
	told := map[int]string{}
	for _, f := range find(r) {
		if before := told[f.Line]; before != "" && f.Kind == source.Ambiguous {
			t.Errorf("line %d is told twice: %s / %s", f.Line, before, f.String())
		}
		told[f.Line] = f.String()
	}
	if len(told) == 0 {
		t.Error("nothing is told")
	}
}

package check_test

import (
	"errors"
	"reflect"
	"strings"
	"testing"

	"sockwright/internal/check"
	"sockwright/internal/source"
)

// flap has a row that is worked several times, and rows to and fro while the other
// stitches rest.
const flap = `COPPER GATE

Sizes: S (M)
CO 60 (64) sts. Join to work in the round without twisting. The rnd begins at the side, before the heel sts.
Rnd 1: K1, ssk, k to last 3 sts, k2tog, k1. 2 sts dec'd.
Rnd 2: Knit.
Work the last 2 rnds once more. 56 (60) sts.
The first 28 (30) sts of the rnd are the heel; the other 28 (30) sts rest for the instep.
Row 1 (RS): Sl 1, k to end.
Row 2 (WS): Sl 1, p to end.
`

func report(text string) *check.Report { return check.Pattern(source.NewFile("gate.txt", text)) }

func TestMargin(t *testing.T) {
	r := report(flap)
	for line, want := range map[int]string{
		1: "",
		4: "60 (64)",
		5: "58 (62) → 56 (60)",
		6: "58 (62) → 56 (60)",
		7: "56 (60)",
		9: "28 (30) of 56 (60)",
	} {
		if got := r.Margin(line); got != want {
			t.Errorf("Margin(%d) = %q, want %q", line, got, want)
		}
	}
	one := report("CO 60 sts. Join.\nRnd 1: Knit.\nRnd 2: K2, k2tog, wobble 3, k to end.\nRnd 3: Knit.\n")
	if got := one.Margin(2); got != "60" {
		t.Errorf("one size: Margin(2) = %q, want 60", got)
	}
	if got := one.Margin(4); got != "?" {
		t.Errorf("behind a line that was not read: Margin(4) = %q, want ?", got)
	}
}

func TestAnnotated(t *testing.T) {
	got := report(flap).Annotated()
	lines := strings.Split(strings.TrimSuffix(got, "\n"), "\n")
	if want := strings.Count(flap, "\n") + 1; len(lines) != want {
		t.Fatalf("%d lines, want %d: the header and those of the text\n%s", len(lines), want, got)
	}
	for i, want := range []string{
		" line  S (M)               │",
		"    1                      │ COPPER GATE",
		"    2                      │",
		"    3                      │ Sizes: S (M)",
		"    4  60 (64)             │ CO 60 (64) sts. Join to work in the round without twisting. The rnd begins at the side, before the heel sts.",
		"    5  58 (62) → 56 (60)   │ Rnd 1: K1, ssk, k to last 3 sts, k2tog, k1. 2 sts dec'd.",
	} {
		if lines[i] != want {
			t.Errorf("line %d is\n%q, want\n%q", i, lines[i], want)
		}
	}
}

func TestAt(t *testing.T) {
	r := report(flap)
	got, err := r.At(5, "M")
	all := func(n int) check.Stitches { return check.Stitches{Worked: n, Total: n} }
	want := []check.On{{Line: 5, Label: "Rnd 1", Size: "M", Times: 2, First: all(62), Last: all(60), Sure: true, Stated: []string{"2 sts fewer"}}}
	if err != nil || !reflect.DeepEqual(got, want) {
		t.Errorf("At(5, M) = %+v, %v; want %+v", got, err, want)
	}
	got, err = r.At(9, "S")
	if err != nil || got[0].Last != (check.Stitches{Worked: 28, Resting: 28, Total: 56}) {
		t.Errorf("At(9, S) = %+v, %v; want 28 worked and 28 resting", got, err)
	}
	if s := got[0].Last.String(); s != "28 sts in work, 28 resting, 56 in all" {
		t.Errorf("in words: %q", s)
	}
}

func TestAtRefuses(t *testing.T) {
	for _, c := range []struct {
		line       int
		size       string
		what, mend string
	}{
		{5, "XL", "no size is called “XL”: the sizes are S, M", "--size"},
		{5, "m", "no size is called “m”", "did you mean M?"},
		{5, "", "which size? the pattern has S, M", "--size"},
		{1, "S", "line 1 is not worked in size S", "nearest line that is worked is 4: CO 60"},
		{0, "S", "there is no line 0: the text has", "count from 1"},
		{99, "S", "there is no line 99", "count from 1"},
	} {
		_, err := report(flap).At(c.line, c.size)
		var not *check.NotThere
		if !errors.As(err, &not) || !strings.Contains(not.What, c.what) || !strings.Contains(not.Mend, c.mend) {
			t.Errorf("At(%d, %q) = %+v, want %q and %q", c.line, c.size, err, c.what, c.mend)
		}
	}
	if _, err := report("Dear aunt,\nthe boat was late.\n").At(1, ""); err == nil || !strings.Contains(err.Error(), "no other line is") {
		t.Errorf("a letter: %v", err)
	}
	if _, err := report("CO 8 sts.\n").At(1, "1"); err != nil {
		t.Errorf("one size without a name is called 1: %v", err)
	}
}

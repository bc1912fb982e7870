package check_test

import (
	"strings"
	"testing"

	"sockwright/internal/check"
	"sockwright/internal/source"
)

// fault is one whose first mend puts words in the place of others.
func mendable(f *source.File, old, new string, more ...string) source.Fault {
	at := func(words string) source.Span {
		i := strings.Index(f.Text, words)
		return source.Span{Start: uint32(i), End: uint32(i + len(words))}
	}
	edits := []source.Edit{{At: at(old), Text: new}}
	for i := 0; i < len(more); i += 2 {
		edits = append(edits, source.Edit{At: at(more[i]), Text: more[i+1]})
	}
	return source.Fault{At: at(old), Text: source.Say("k", old), Mends: []source.Mend{{Edits: edits}, {Edits: []source.Edit{{At: at(old), Text: "second"}}}}}
}

func TestMend(t *testing.T) {
	f := source.NewFile("a.txt", "\ufeffCO 60 sts.\r\nRnd 1: Knit.\r\nRnd 2: Purl.")
	by := func(s ...string) source.Fault { return mendable(f, s[0], s[1], s[2:]...) }
	inner := by("60", "61")
	for name, c := range map[string]struct {
		faults                []source.Fault
		text                  string
		mended, skipped, open int
	}{
		"nothing":                         {nil, "CO 60 sts.\r\nRnd 1: Knit.\r\nRnd 2: Purl.", 0, 0, 0},
		"one, line ends kept":             {[]source.Fault{by("60", "64")}, "CO 64 sts.\r\nRnd 1: Knit.\r\nRnd 2: Purl.", 1, 0, 0},
		"in any order":                    {[]source.Fault{by("Purl", "P"), by("60", "64")}, "CO 64 sts.\r\nRnd 1: Knit.\r\nRnd 2: P.", 2, 0, 0},
		"the same twice is one":           {[]source.Fault{by("60", "64"), by("60", "64")}, "CO 64 sts.\r\nRnd 1: Knit.\r\nRnd 2: Purl.", 2, 0, 0},
		"two mends of the same words":     {[]source.Fault{by("60", "64"), by("60", "62")}, "CO 64 sts.\r\nRnd 1: Knit.\r\nRnd 2: Purl.", 1, 1, 0},
		"one inside another":              {[]source.Fault{by("CO 60 sts", "CO 64 sts"), inner}, "CO 64 sts.\r\nRnd 1: Knit.\r\nRnd 2: Purl.", 1, 1, 0},
		"a mend that fails fails whole":   {[]source.Fault{by("60", "64"), by("Knit", "K", "60", "62")}, "CO 64 sts.\r\nRnd 1: Knit.\r\nRnd 2: Purl.", 1, 1, 0},
		"a mend for a person":             {[]source.Fault{{Mends: []source.Mend{{}}}, {}}, "CO 60 sts.\r\nRnd 1: Knit.\r\nRnd 2: Purl.", 0, 0, 2},
		"a place that is not in the text": {[]source.Fault{{Mends: []source.Mend{{Edits: []source.Edit{{At: source.Span{Start: 90, End: 99}, Text: "x"}}}}}}, "CO 60 sts.\r\nRnd 1: Knit.\r\nRnd 2: Purl.", 0, 1, 0},
	} {
		r := check.Mend(f, c.faults)
		if got := r.Text(); got != c.text {
			t.Errorf("%s: text is %q, want %q", name, got, c.text)
		}
		if len(r.Mended) != c.mended || len(r.Skipped) != c.skipped || len(r.Open) != c.open {
			t.Errorf("%s: %d mended, %d skipped, %d open; want %d, %d, %d", name, len(r.Mended), len(r.Skipped), len(r.Open), c.mended, c.skipped, c.open)
		}
		if changed := c.text != f.Text; (r.Diff() != "") != changed {
			t.Errorf("%s: diff is %q", name, r.Diff())
		}
	}
}

// Words that are put in between touch those that are put in at the same place, and those
// that are replaced around it, and no others.
func TestMendInsertions(t *testing.T) {
	f := source.NewFile("a.txt", "0123456789")
	edit := func(from, to uint32, text string) source.Fault {
		return source.Fault{Mends: []source.Mend{{Edits: []source.Edit{{At: source.Span{Start: from, End: to}, Text: text}}}}}
	}
	for _, c := range []struct {
		a, b source.Fault
		want string
	}{
		{edit(3, 3, "a"), edit(3, 3, "b"), "012a3456789"},
		{edit(2, 5, "a"), edit(3, 3, "b"), "01a56789"},
		{edit(3, 3, "a"), edit(2, 5, "b"), "012a3456789"},
		{edit(2, 3, "a"), edit(3, 4, "b"), "01ab456789"},
		{edit(2, 3, "a"), edit(4, 4, "b"), "01a3b456789"},
	} {
		if got := check.Mend(f, []source.Fault{c.a, c.b}).Text(); got != c.want {
			t.Errorf("%v, then %v: %q, want %q", c.a.Mends[0].Edits, c.b.Mends[0].Edits, got, c.want)
		}
	}
}

// What a checked pattern is told to write makes it right.
func TestMendOfAPattern(t *testing.T) {
	f := source.NewFile("gate.txt", strings.Replace(flap, "56 (60) sts", "56 (61) sts", 1))
	r := check.Mend(f, check.Pattern(f).Faults)
	if got := r.Text(); got != flap {
		t.Errorf("mended to\n%s", got)
	}
	if want := "-Work the last 2 rnds once more. 56 (61) sts.\n+Work the last 2 rnds once more. 56 (60) sts.\n"; !strings.Contains(r.Diff(), want) || !strings.HasPrefix(r.Diff(), "--- gate.txt\n+++ gate.txt (mended)\n@@ ") {
		t.Errorf("diff is\n%s", r.Diff())
	}
}

package source_test

import (
	"testing"

	"sockwright/internal/source"
)

// TestTogether: what is said of several sizes with other figures is printed once.
func TestTogether(t *testing.T) {
	f := source.NewFile("x", "56 (60, 64) sts\n20 sts\n")
	count := func(size, at int, stated, actual int) source.Fault {
		return source.Fault{At: source.Span{Start: uint32(at), End: uint32(at + 2)}, Sizes: source.OneSize(size), Kind: source.StitchCount, Severity: source.Error,
			Stated: source.Sts(stated), Actual: source.Sts(actual),
			Text:  source.Say("count", "{0} stated, but {1} are on the needles", source.InSts(stated), actual),
			Mends: []source.Mend{{Why: source.Say("mend", "state {0}", actual), Edits: []source.Edit{{At: source.Span{Start: uint32(at), End: uint32(at + 2)}, Text: "1"}}}}}
	}
	other := count(1, 16, 20, 21)
	other.Text = source.Say("slip", "{0} cannot be right: {1}", 20, source.Say("count", "{0} stated, but {1} are on the needles", source.InSts(1), 2))
	more := other
	more.Sizes = source.OneSize(2)
	more.Text = source.Say("slip", "{0} cannot be right: {1}", 20, source.Say("count", "{0} stated, but {1} are on the needles", source.InSts(3), 2))
	named := count(0, 16, 20, 21)
	named.Text = source.Say("name", "{0} is a name", "frob")
	name2 := named
	name2.Sizes = source.OneSize(1)
	name2.Text = source.Say("name", "{0} is a name", "snib")
	for _, c := range []struct {
		name string
		in   []source.Fault
		want []string
		edit int // edits of the first mend of the first
	}{
		{"figures become lists", []source.Fault{count(0, 0, 56, 55), count(1, 4, 60, 58)},
			[]string{"1:1: sizes S, M: 56 (60) sts stated, but 55 (58) are on the needles\n    mend: state 55 (58)"}, 2},
		{"what is the same stands once", []source.Fault{count(0, 0, 56, 55), count(2, 8, 64, 55), count(1, 4, 60, 55)},
			[]string{"1:1: all sizes: 56 (60, 64) sts stated, but 55 are on the needles\n    mend: state 55"}, 3},
		{"figures within a message", []source.Fault{other, more},
			[]string{"2:1: sizes M, L: 20 cannot be right: 1 (3) sts stated, but 2 are on the needles\n    mend: state 21"}, 2},
		{"the same size twice is two matters", []source.Fault{count(0, 0, 56, 55), count(0, 4, 60, 58)},
			[]string{"1:1: size S: 56 sts stated, but 55 are on the needles\n    mend: state 55", "1:5: size S: 60 sts stated, but 58 are on the needles\n    mend: state 58"}, 1},
		{"words are not listed", []source.Fault{named, name2},
			[]string{"2:1: size S: frob is a name\n    mend: state 21", "2:1: size M: snib is a name\n    mend: state 21"}, 1},
	} {
		got := source.Together(f, c.in)
		if len(got) != len(c.want) {
			t.Errorf("%s: %d findings, should be %d", c.name, len(got), len(c.want))
			continue
		}
		for i, x := range got {
			if s := source.Find(f, []string{"S", "M", "L"}, x).String(); s != c.want[i] {
				t.Errorf("%s:\n%s\nshould be\n%s", c.name, s, c.want[i])
			}
		}
		if n := len(got[0].Mends[0].Edits); n != c.edit {
			t.Errorf("%s: %d edits, should be %d", c.name, n, c.edit)
		}
		for i := range c.in {
			if c.in[i].Stated == nil || len(c.in[i].Mends[0].Edits) != 1 {
				t.Errorf("%s: what was given has been changed", c.name)
			}
		}
	}
}

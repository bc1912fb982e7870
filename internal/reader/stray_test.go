package reader

import (
	"testing"

	"sockwright/internal/source"
)

// TestStray: what cannot be read is told at the word that nobody knows; what only looks so is
// passed over.
func TestStray(t *testing.T) {
	for _, c := range []struct{ row, word string }{
		{"Rnd 1: K2, frobnicate 3, k to end.", "frobnicate"},
		{"Rnd 1: K2, kint to end.", "kint"},
		{"Rnd 1: *K2, prul 2; rep from *.", "prul"},
		{"Rnd 1: K3, [snib 2, k4] 5 times, k to end.", "snib"},
		{"Rnd 1: K2, twiddle the tail, k to end.", "twiddle"},
		{"Rnd 1: K2, loosely, k to end.", ""},
		{"Rnd 1: K to end, slipping the markers.", ""},
		{"Rnd 1: K2, p2, keeping the patt as set, k to end.", ""},
	} {
		f := source.NewFile("x", "SOCK\nCO 60 sts; join.\n"+c.row+"\n")
		s := Read(f)
		switch {
		case c.word == "" && len(s.Faults) > 0:
			t.Errorf("%s: %s", c.row, s.Faults[0].Text.String())
		case c.word != "" && len(s.Faults) != 1:
			t.Errorf("%s: %d findings, should be one", c.row, len(s.Faults))
		case c.word != "":
			if at := f.Slice(s.Faults[0].At); len(at) < len(c.word) || at[:len(c.word)] != c.word {
				t.Errorf("%s: told at %q, should be at %q", c.row, at, c.word)
			}
		}
	}
}

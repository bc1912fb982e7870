package spell_test

import (
	"testing"

	"sockwright/internal/spell"
)

func TestNearest(t *testing.T) {
	known := []string{"stitches", "rows", "over", "title"}
	for word, want := range map[string]string{
		"stiches": "stitches", "stitchse": "stitches", "ROWS": "rows", "row": "rows",
		"titel": "title", "colour": "", "": "", "x": "", "xs": "",
	} {
		if got := spell.Nearest(word, known); got != want {
			t.Errorf("Nearest(%q) = %q, want %q", word, got, want)
		}
	}
}

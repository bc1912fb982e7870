package reader

import (
	"testing"

	"sockwright/internal/script"
	"sockwright/internal/source"
)

// What may be an instruction is passed over with a mark; what is none is not.
func TestSkipped(t *testing.T) {
	for text, want := range map[string]bool{
		"Moth the 8 sts.":      true,
		"Sidle past 12 loops.": true,
		"Ladders (an 8-st repeat; the count never changes)": false,
		"A 6 row pattern of small ladders":                  false,
		"Now and then: k or p each wrap with its st.":       false,
		"Use a 40 cm circular if you like.":                 false,
		"The 8 sts in the middle are the band.":             false,
	} {
		s := Read(source.NewFile("p.txt", "TEASEL\n\nCO 40 sts and join.\n"+text+"\nRnd 1: Knit.\n"))
		got := false
		for _, it := range s.Lines[3].Items {
			_, is := it.(*script.Skipped)
			got = got || is
		}
		if got != want {
			t.Errorf("%q is passed over as a possible instruction: %v, want %v", text, got, want)
		}
	}
}

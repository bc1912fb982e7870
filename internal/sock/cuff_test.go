package sock_test

import (
	"strings"
	"testing"

	"sockwright/internal/publish"
	"sockwright/internal/source"
)

// The length of a leg is measured from where it is counted from: a turned-over cuff, a roll
// and the inside of a hem are not in it.
func TestLegIsMeasuredFromItsTop(t *testing.T) {
	for kind, top := range map[string]string{"k2p2": "the cast-on edge", "folded": "the fold of the cuff", "rolled": "the beginning of the rib", "picot-hem": "the points of the hem"} {
		text := wanted{stitches: []int{64}, more: "[cuff]\nkind = \"" + kind + "\"\n"}.text()
		book, faults, err := publish.Make(source.NewFile("leg.toml", text), publish.Options{})
		if book == nil {
			t.Fatal(kind, faults, err)
		}
		for _, want := range []string{"from " + top + " to the heel: ", " cm] from " + top + "."} {
			if !strings.Contains(book.Proof.Text.Text, want) {
				t.Errorf("%s: %q is not printed", kind, want)
			}
		}
	}
}

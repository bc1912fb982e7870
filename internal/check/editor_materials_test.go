package check_test

import (
	"strings"
	"testing"

	"sockwright/internal/check"
	"sockwright/internal/publish"
	"sockwright/internal/source"
)

// What a pattern in the program's own layout says beside its rows is looked at too.
func TestOwnBesideRows(t *testing.T) {
	book, _, err := publish.Make(source.NewFile("slate-quay.toml", readFile(t, "../../examples/slate-quay.toml")), publish.Options{})
	if err != nil || book == nil {
		t.Fatal(err)
	}
	right := string(book.Files[0].Data)
	for _, c := range []struct{ from, to, finds string }{
		{"[32.5 and 44.5 over 4 in]", "[35.5 and 44.5 over 4 in]", "32 over 10 cm are 32.5 over 4 in, not 35.5"},
		{"[32.5 and 44.5 over 4 in]", "[32.5 and 40 over 4 in]", "44 over 10 cm are 44.5 over 4 in, not 40"},
		{"32 stitches and 44 rounds over 10 cm [32.5 and 44.5 over 4 in]", "32.5 sts and 44.5 rnds over 4 in [35.5 and 44 over 10 cm]", "32.5 over 4 in are 32 over 10 cm, not 35.5"},
		{"32 stitches and 44 rounds over 10 cm [32.5 and 44.5 over 4 in]", "32.5 sts and 44.5 rnds over 4 in [32 and 40 over 10 cm]", "44.5 over 4 in are 44 over 10 cm, not 40"},
		{"in [13.4 (13.9, 15.2, 16.6, 17) cm] from", "in [17.8 (13.9, 15.2, 16.6, 17) cm] from", "5 1/4 in is 13.5 cm, not 17.8 cm"},
		{"[20 (21.6,", "[23.1 (21.6,", "7 7/8 in is 20 cm, not 23.1 cm"},
		{"about 12 in [", "about 2 in [", "2 in is 5 cm, not 30 cm"},
		{"US 1 [2.25 mm]", "US 1 [3.25 mm]", "3.25 mm"},
		{"k2tog: knit 2 stitches together as one\n", "", "“k2tog” is used, but the list of abbreviations does not explain it"},
		{"2 stitch markers", "1 stitch marker", "the materials list 1 stitch marker, but one row places 2"},
	} {
		wrong := strings.Replace(right, c.from, c.to, 1)
		if wrong == right {
			t.Errorf("the pattern does not say %q", c.from)
			continue
		}
		found := find(check.Pattern(source.NewFile("slate-quay.txt", wrong)))
		if len(found) != 1 || !strings.Contains(found[0].String(), c.finds) {
			t.Errorf("%q for %q: found %v, should find %q", c.to, c.from, found, c.finds)
		}
	}
}

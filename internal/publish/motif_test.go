package publish_test

import (
	"fmt"
	"strings"
	"testing"

	"sockwright/internal/motif"
	"sockwright/internal/publish"
	"sockwright/internal/source"
)

// A leg in each motif that ships, either way and for either hand, is proven and counted by the
// second witness; in every size the round holds whole repeats and the leg whole motifs.
func TestLegInMotif(t *testing.T) {
	for _, m := range motif.Shipped() {
		for i, direction := range []string{"cuff-down", "toe-up"} {
			text := fmt.Sprintf("title = \"Gable End\"\ndirection = %q\n[gauge]\nover = \"10 cm\"\nstitches = 32\nrows = 44\n[sizes]\nfrom = \"women\"\nkeep = [\"S\", \"M\", \"L\"]\n[needles]\nsize = \"2.25 mm\"\nmethod = %q\n[leg]\nlength = \"15 cm\"\nmotif = %q\n",
				direction, []string{"double-pointed", "magic-loop"}[i], m.Key)
			book, faults, err := publish.Make(source.NewFile("gable-end.toml", text), publish.Options{LeftHanded: i == 1})
			if err != nil || book == nil {
				t.Fatalf("%s, %s: %v %v", m.Key, direction, err, faults)
			}
			agree(t, book)
			for size := range book.Draft.Sizes {
				if n := book.Plan.Of("leg.stitches", size); n%m.Multiple != 0 {
					t.Errorf("%s, %s: %d stitches are no whole repeats of %d", m.Key, direction, n, m.Multiple)
				}
			}
			if got := strings.Count(book.Proof.Text.Text, " is a stitch pattern over "); got != 1 {
				t.Errorf("%s, %s: the stitch pattern is told %d times", m.Key, direction, got)
			}
		}
	}
}

// A leg that is too short for its motif is refused with the rule that it breaks.
func TestLegTooShortForMotif(t *testing.T) {
	book, faults, err := publish.Make(source.NewFile("gable-end.toml", "title = \"Gable End\"\n[gauge]\nover = \"10 cm\"\nstitches = 32\nrows = 44\n[sizes]\nfrom = \"women\"\n[cuff]\nlength = \"2 cm\"\n[leg]\nlength = \"4 cm\"\nmotif = \"zigzag\"\n"), publish.Options{})
	if err != nil || book != nil || len(faults) == 0 {
		t.Fatalf("a leg of 2 cm holds 12 rounds: %v, %v", err, faults)
	}
	if s := fmt.Sprint(faults); !strings.Contains(s, "the leg holds all rounds of its stitch pattern once at least") {
		t.Errorf("the reason is not told: %s", s)
	}
}

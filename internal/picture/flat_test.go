package picture_test

import (
	"os"
	"strings"
	"testing"

	"sockwright/internal/pattern"
	"sockwright/internal/picture"
	"sockwright/internal/publish"
	"sockwright/internal/source"
)

// The picture counts rows as the words do: without the cast-on edge, set-up rows, rounds
// worked in part, and the graft. The figures are those printed for size XS.
func TestFlatCountsRows(t *testing.T) {
	text, err := os.ReadFile("../../examples/slate-quay.toml")
	if err != nil {
		t.Fatal(err)
	}
	book, faults, err := publish.Make(source.NewFile("slate-quay.toml", string(text)), publish.Options{})
	if book == nil {
		t.Fatal(faults, err)
	}
	size := book.Proof.Sizes[0]
	svg := string(picture.Flat(book.Draft.Title, book.Proof.Read.Pattern, size.Again.Fabric, book.Draft.Gauge[""], size.Name, pattern.BothSocks).SVG())
	for _, want := range []string{"Slate Quay, size XS", "Cuff", "17 rnds", "Leg", "42 rnds", "Heel flap", "14 rows", "Band", "20 rows", "Gusset", "Foot", "47 rnds", "Toe", "19 rnds"} {
		if !strings.Contains(svg, ">"+want+"<") {
			t.Errorf("%q is not written in the picture", want)
		}
	}
}

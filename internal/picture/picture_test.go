package picture_test

import (
	"bytes"
	"encoding/xml"
	"flag"
	"fmt"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"sockwright/internal/designtest"
	"sockwright/internal/draw"
	"sockwright/internal/pattern"
	"sockwright/internal/picture"
	"sockwright/internal/publish"
	"sockwright/internal/source"
)

var look = flag.String("look", "", "folder to put the pictures into, to be looked at")

func examples(t *testing.T) []string {
	names, err := filepath.Glob("../../examples/*.toml")
	if err != nil || len(names) == 0 {
		t.Fatal("no examples", err)
	}
	return names
}

// Every example is drawn: well-formed, with a title and a description, the same each time,
// as vectors and as dots.
func TestExamples(t *testing.T) {
	for _, name := range examples(t) {
		t.Run(filepath.Base(name), func(t *testing.T) {
			text, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			book, faults, err := publish.Make(source.NewFile(name, string(text)), publish.Options{})
			if book == nil {
				t.Fatal(faults, err)
			}
			short := strings.TrimSuffix(filepath.Base(name), ".toml")
			drawn(t, short+"-schematic", func() *draw.Drawing { return picture.Schematic(book.Draft, book.Plan, picture.AllSizes, picture.Whole) })
			drawn(t, short+"-schematic-one", func() *draw.Drawing { return picture.Schematic(book.Draft, book.Plan, 0, picture.Whole) })
			size := book.Proof.Sizes[0]
			drawn(t, short+"-flat", func() *draw.Drawing {
				return picture.Flat(book.Draft.Title, book.Proof.Read.Pattern, size.Again.Fabric, book.Draft.Gauge[""], size.Name, pattern.BothSocks)
			})
		})
	}
}

func drawn(t *testing.T, name string, make func() *draw.Drawing) {
	t.Helper()
	d := make()
	svg := d.SVG()
	if !bytes.Equal(svg, make().SVG()) {
		t.Errorf("%s is drawn differently the second time", name)
	}
	x := xml.NewDecoder(bytes.NewReader(svg))
	title, desc := "", ""
	for {
		token, err := x.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if s, ok := token.(xml.StartElement); ok && (s.Name.Local == "title" || s.Name.Local == "desc") {
			inner, _ := x.Token()
			words, _ := inner.(xml.CharData)
			if s.Name.Local == "title" {
				title = string(words)
			} else {
				desc = string(words)
			}
		}
	}
	if title == "" || len(desc) < 40 {
		t.Errorf("%s has the title %q and the description %q", name, title, desc)
	}
	dots, err := d.PNG(4)
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(dots))
	if err != nil {
		t.Fatal(err)
	}
	colours := map[[3]uint32]int{}
	for y := 0; y < img.Bounds().Dy(); y += 2 {
		for x := 0; x < img.Bounds().Dx(); x += 2 {
			r, g, b, _ := img.At(x, y).RGBA()
			colours[[3]uint32{r, g, b}]++
		}
	}
	if len(colours) < 8 {
		t.Errorf("%s has only %d colours", name, len(colours))
	}
	if *look != "" {
		for ending, data := range map[string][]byte{".svg": svg, ".png": dots} {
			if err := os.WriteFile(filepath.Join(*look, name+ending), data, 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// The schematic's description tells every measure of its table.
func TestSchematicInWords(t *testing.T) {
	text, err := os.ReadFile("../../examples/slate-quay.toml")
	if err != nil {
		t.Fatal(err)
	}
	draft, plan, faults := publish.Grade(source.NewFile("slate-quay.toml", string(text)))
	if plan == nil {
		t.Fatal(faults)
	}
	d := picture.Schematic(draft, plan, picture.AllSizes, picture.Whole)
	for _, m := range draft.Measures(plan) {
		if m.Key == "heel.band_width" || m.Key == "foot.to_toe" {
			continue
		}
		want := draft.Sizes[m.Size].Name + " " + m.Value.Inches() + " in [" + m.Value.Centimetres() + " cm]"
		if !strings.Contains(d.Desc, want) {
			t.Errorf("%s: %q is not told in %q", m.Key, want, d.Desc)
		}
	}
}

// No letter of a measure covers the name of a part, and no name another, in any size of any
// sock.
func TestNothingCovered(t *testing.T) {
	clear := func(t *testing.T, name, text string) {
		draft, plan, _ := publish.Grade(source.NewFile("low-tide.toml", text))
		if plan == nil {
			return
		}
		for size := range draft.Sizes {
			for _, layout := range []picture.Layout{picture.Whole, picture.Broad, picture.Narrow} {
				if found := picture.Collisions(draft, plan, size, layout); found != nil {
					t.Errorf("%s, size %s, layout %d: %v", name, draft.Sizes[size].Name, layout, found)
				}
			}
		}
	}
	for _, name := range examples(t) {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		clear(t, name, string(text))
	}
	drawn := rapid.Custom(func(t *rapid.T) string { return designtest.Draw(t) })
	for i := range 60 {
		text := drawn.Example(i)
		clear(t, fmt.Sprintf("drawn %d", i), text)
	}
}

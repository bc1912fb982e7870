package theme

import (
	"embed"
	"encoding/base64"
	"fmt"
	"strings"
	"sync"
)

// A Colour has a name, a use, and a value on light and on dark ground.
type Colour struct {
	Name, Use   string
	Light, Dark string // "#rrggbb"
}

// Colours lists the colours.
func Colours() []Colour {
	return []Colour{
		{"paper", "ground", "#FBF8F2", "#16191D"},
		{"ink", "text, outlines", "#1F2328", "#ECE7DC"},
		{"pencil", "secondary text", "#4C5157", "#B9B5AB"},
		{"rule", "hairlines", "#DAD4C7", "#343A41"},
		{"woad", "links, chosen, focus", "#1F5A7D", "#8CC0E0"},
		{"madder", "faults only", "#9E2B25", "#F08A80"},
		{"weld", "cautions and warnings, with a word beside them", "#6E5500", "#E2C250"},
		{"lichen", "proven, done", "#3F6B35", "#9CCB8C"},
	}
}

// Face is a font family of documents.
type Face struct {
	Family string
	Weight int
	file   string
}

// Faces lists the faces (no italics: they are hard to read for many), all under the SIL Open Font License 1.1 (licences beside them).
func Faces() []Face {
	return []Face{
		{"Source Serif 4", 400, "source-serif-4-latin-400-normal"},
		{"Source Serif 4", 600, "source-serif-4-latin-600-normal"},
		{"Source Sans 3", 400, "source-sans-3-latin-400-normal"},
		{"Source Sans 3", 600, "source-sans-3-latin-600-normal"},
	}
}

//go:embed fonts/*.woff2 fonts/*.ttf
var fonts embed.FS

// Web is a face as a font for pages (WOFF2). It panics for a face that is not one of [Faces].
func Web(family string, weight int) []byte {
	for _, f := range Faces() {
		if f.Family == family && f.Weight == weight {
			return read(f.file + ".woff2")
		}
	}
	panic("theme: no face " + family)
}

// Outlines is a face as a font for drawing (TrueType): Source Sans 3 in 400 and 600.
func Outlines(family string, weight int) []byte {
	return read(fmt.Sprintf("%s-%d.ttf", strings.ToLower(strings.ReplaceAll(family, " ", "-")), weight))
}

func read(name string) []byte {
	data, err := fonts.ReadFile("fonts/" + name)
	if err != nil {
		panic(err) // it is embedded
	}
	return data
}

// Light is a colour's value on light ground. It panics for a colour that is not one of
// [Colours] or [Parts].
func Light(name string) string {
	for _, c := range append(Colours(), Parts()...) {
		if c.Name == name {
			return c.Light
		}
	}
	panic("theme: no colour " + name)
}

// Parts lists the tints of the parts of a sock: the set that M. Okabe and K. Ito published in
// 2008 for eyes that do not tell all colours (Color Universal Design). They are laid thinly
// over the ground and always stand beside a label.
func Parts() []Colour {
	return []Colour{
		{"part-orange", "cuff", "#E69F00", "#E69F00"},
		{"part-sky", "leg", "#56B4E9", "#56B4E9"},
		{"part-green", "heel", "#009E73", "#009E73"},
		{"part-yellow", "gusset", "#F0E442", "#F0E442"},
		{"part-blue", "foot", "#0072B2", "#0072B2"},
		{"part-vermilion", "toe", "#D55E00", "#D55E00"},
		{"part-purple", "corners", "#CC79A7", "#CC79A7"},
	}
}

// CSS is the start of every style sheet: the faces, with the fonts in it, so that a page
// needs nothing but itself, and the colours as custom properties, light and dark.
var CSS = sync.OnceValue(func() string {
	var b strings.Builder
	for _, f := range Faces() {
		data := read(f.file + ".woff2")
		fmt.Fprintf(&b, "@font-face{font-family:%q;font-weight:%d;font-style:normal;font-display:swap;src:url(data:font/woff2;base64,%s) format(\"woff2\")}\n",
			f.Family, f.Weight, base64.StdEncoding.EncodeToString(data))
	}
	light, dark := "", ""
	for _, c := range append(Colours(), Parts()...) {
		light += "--" + c.Name + ":" + c.Light + ";"
		dark += "--" + c.Name + ":" + c.Dark + ";"
	}
	fmt.Fprintf(&b, ":root{color-scheme:light dark;%s}\n@media (prefers-color-scheme:dark){:root{%s}}\n@media print{:root{%s--paper:#fff}}\n", light, dark, light)
	return b.String()
})

// Package theme is the one place for how Sockwright looks: colours, faces and sizes of
// pages, papers and pictures. docs/look.md says in words what it is after.
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

//go:embed fonts/*.woff2
var fonts embed.FS

// CSS is the start of every style sheet: the faces, with the fonts in it, so that a page
// needs nothing but itself, and the colours as custom properties, light and dark.
var CSS = sync.OnceValue(func() string {
	var b strings.Builder
	for _, f := range Faces() {
		data, err := fonts.ReadFile("fonts/" + f.file + ".woff2")
		if err != nil {
			panic(err)
		}
		fmt.Fprintf(&b, "@font-face{font-family:%q;font-weight:%d;font-style:normal;font-display:swap;src:url(data:font/woff2;base64,%s) format(\"woff2\")}\n",
			f.Family, f.Weight, base64.StdEncoding.EncodeToString(data))
	}
	light, dark := "", ""
	for _, c := range Colours() {
		light += "--" + c.Name + ":" + c.Light + ";"
		dark += "--" + c.Name + ":" + c.Dark + ";"
	}
	fmt.Fprintf(&b, ":root{color-scheme:light dark;%s}\n@media (prefers-color-scheme:dark){:root{%s}}\n@media print{:root{%s--paper:#fff}}\n", light, dark, light)
	return b.String()
})

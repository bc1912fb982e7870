// Package designtest draws random sock designs for tests: any gauge from 4 to 14 stitches
// to the inch, any foot from 80 to 330 mm, any option.
package designtest

import (
	"fmt"
	"strings"

	"pgregory.net/rapid"

	"sockwright/internal/sock"
)

// Draw draws a design file.
func Draw(t *rapid.T) string {
	var b strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	maybe := func(name string) bool { return rapid.IntRange(0, 2).Draw(t, name) == 0 }

	perInch := rapid.OneOf(
		rapid.Float64Range(4, 14),
		rapid.Map(rapid.IntRange(8, 28), func(n int) float64 { return float64(n) / 2 }), // 4, 4½ … 14
	).Draw(t, "sts per inch")
	shape := rapid.Float64Range(1.2, 1.6).Draw(t, "rows per stitch")
	line("title = %q", "Low Tide")
	line("[gauge]\nover = \"4 in\"\nstitches = %g\nrows = %g", perInch*4, perInch*4*shape)
	for _, fabric := range []string{"rib", "flap"} {
		if maybe(fabric + " gauge") {
			f := rapid.Float64Range(0.9, 1.2).Draw(t, fabric)
			line("[gauge.%s]\nover = \"4 in\"\nstitches = %g\nrows = %g", fabric, perInch*4*f, perInch*4*shape*f)
		}
	}
	if rapid.IntRange(0, 3).Draw(t, "range") == 0 {
		line("[sizes]\nfrom = %q", rapid.SampledFrom([]string{"women", "men", "children"}).Draw(t, "from"))
	} else {
		length := rapid.Float64Range(80, 300).Draw(t, "foot length")
		ratio := rapid.Float64Range(0.85, 1.02).Draw(t, "girth per length")
		girth := length * ratio
		for i := range rapid.IntRange(1, 8).Draw(t, "sizes") {
			line("[[sizes.own]]\nname = \"%d\"\nfoot_girth = \"%.1f mm\"\nfoot_length = \"%.1f mm\"", i+1, girth, length)
			if length < 320 {
				length = min(330, length+rapid.Float64Range(0, 15).Draw(t, "longer"))
				girth += rapid.Float64Range(0, 12).Draw(t, "wider")
			}
		}
	}
	if maybe("ease") {
		line("[ease]\ngirth = \"%d %%\"\nlength = \"%d %%\"", rapid.IntRange(-20, 5).Draw(t, "ease girth"), rapid.IntRange(-10, 0).Draw(t, "ease length"))
	}
	line("[needles]\nmethod = %q", rapid.SampledFrom([]string{"double-pointed", "magic-loop", "two-circulars"}).Draw(t, "method"))
	part := func(name string) {
		var kinds []string
		for _, p := range sock.Parts() {
			if p.Part == name {
				kinds = append(kinds, p.Kind)
			}
		}
		line("[%s]\nkind = %q", name, rapid.SampledFrom(kinds).Draw(t, name))
	}
	part("cuff")
	if maybe("cuff length") {
		line("length = \"%d mm\"", rapid.IntRange(10, 60).Draw(t, "cuff mm"))
	}
	part("leg")
	if maybe("leg length") {
		line("length = \"%d mm\"", rapid.IntRange(90, 250).Draw(t, "leg mm"))
	}
	part("heel")
	if maybe("share") {
		line("share = %g", float64(rapid.IntRange(40, 60).Draw(t, "heel share"))/100)
	}
	if maybe("band") {
		line("band = \"%d mm\"", rapid.IntRange(8, 60).Draw(t, "band mm"))
	}
	part("gusset")
	line("corner_stitches = %d", rapid.IntRange(0, 2).Draw(t, "corner"))
	part("foot")
	part("toe")
	line("rate = %q", rapid.SampledFrom([]string{"half-then-each", "every-2nd", "graduated"}).Draw(t, "rate"))
	if maybe("toe left") {
		line("left = %g", float64(rapid.IntRange(15, 45).Draw(t, "left"))/100)
	}
	return b.String()
}

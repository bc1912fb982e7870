package designtest

import (
	"fmt"
	"slices"
	"strings"

	"pgregory.net/rapid"

	"sockwright/internal/design"
	"sockwright/internal/sock"
)

// A Limit tells whether a construction may be drawn, worked in a direction.
type Limit func(direction string, p sock.Part) bool

// Draw draws a design file, of constructions that all limits admit.
func Draw(t *rapid.T, limits ...Limit) string {
	admit := func(direction string, p sock.Part) bool {
		return slices.Contains(p.Directions, direction) && !slices.ContainsFunc(limits, func(l Limit) bool { return !l(direction, p) })
	}
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
	direction := rapid.SampledFrom(slices.DeleteFunc([]string{design.CuffDown, design.ToeUp}, func(d string) bool {
		return !slices.ContainsFunc(sock.Parts(), func(p sock.Part) bool { return p.Part == "heel" && admit(d, p) })
	})).Draw(t, "direction")
	heel := drawKind(t, "heel", func(p sock.Part) bool { return admit(direction, p) })
	for _, name := range []string{"cuff", "leg", "heel", "gusset", "foot", "toe"} {
		part := heel
		if name != "heel" {
			part = drawKind(t, name, func(p sock.Part) bool {
				return admit(direction, p) && (name != "gusset" || slices.Contains(heel.Gussets, p.Kind))
			})
		}
		line("[%s]\nkind = %q", name, part.Kind)
		for _, o := range part.Options {
			if o.In(direction) && maybe(name+" "+o.Key) {
				line("%s = %s", o.Key, drawOption(t, o))
			}
		}
	}
	return fmt.Sprintf("direction = %q\n", direction) + b.String()
}

// BandHeel admits socks from the cuff down with any cuff, a straight leg, a band heel, an
// instep gusset and a wedge toe.
func BandHeel(direction string, p sock.Part) bool {
	kind := map[string]string{"leg": "plain", "heel": "band", "gusset": "instep", "toe": "wedge"}[p.Part]
	return direction == design.CuffDown && (kind == "" || p.Kind == kind)
}

// drawKind draws a construction for a part.
func drawKind(t *rapid.T, name string, fits func(sock.Part) bool) sock.Part {
	var list []sock.Part
	for _, p := range sock.Parts() {
		if p.Part == name && fits(p) {
			list = append(list, p)
		}
	}
	return rapid.SampledFrom(list).Draw(t, name)
}

// drawOption draws a value that an option takes. Lengths are of the size of a foot's parts:
// which are too long for a sock is the sock's to say.
func drawOption(t *rapid.T, o sock.Option) string {
	switch {
	case o.Choices != nil:
		return fmt.Sprintf("%q", rapid.SampledFrom(o.Choices).Draw(t, o.Key))
	case o.Length:
		return fmt.Sprintf("\"%d mm\"", rapid.IntRange(int(max(8, o.Least)), int(min(250, o.Greatest))).Draw(t, o.Key))
	case o.Step > 1:
		return fmt.Sprint(o.Step * rapid.IntRange(int(o.Least)/o.Step, int(o.Greatest)/o.Step).Draw(t, o.Key))
	case o.Whole:
		return fmt.Sprint(rapid.IntRange(int(o.Least), int(o.Greatest)).Draw(t, o.Key))
	}
	return fmt.Sprintf("%.2f", rapid.Float64Range(o.Least, o.Greatest).Draw(t, o.Key))
}

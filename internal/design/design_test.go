package design

import (
	"slices"
	"strings"
	"testing"

	"sockwright/internal/source"
	"sockwright/internal/unit"
)

const swatch = "[gauge]\nover = \"10 cm\"\nstitches = 32\nrows = 44\n"

const women = "[sizes]\nfrom = \"women\"\nkeep = [\"S\", \"M\"]\n"

const slateQuay = "title = \"Slate Quay\"\n" + swatch + women

func TestRead(t *testing.T) {
	f := source.NewFile("quay.toml", `title = "  Slate Quay "
by = "Marrow  Skerry Workroom"
[gauge]
over = "4 in"
stitches = 32.5
rows = 44
rib.over = "10 cm"
rib.stitches = 36
rib.rows = 44
[[sizes.own]]
name = "small"
foot_girth = "8 1/4 in"
foot_length = "9½ in"
[[sizes.own]]
name = "large"
foot_girth = "24 cm"
foot_length = "265 mm"
shoe = "US W 11"
[ease]
girth = "-2 cm"
[needles]
size = "US 1"
method = "magic-loop"
[yarn]
weight = 1
[heel]
share = 0.45
[pin]
"leg.stitches" = { large = 72 }
"heel.flap_rows" = 18
`)
	d, faults := Read(f)
	if d == nil || len(faults) > 0 {
		t.Fatalf("Read = %v, %v", d, messages(f, faults))
	}
	if d.Title != "Slate Quay" || d.Author != "Marrow Skerry Workroom" || d.Direction != "cuff-down" || d.Method != MagicLoop || d.Needle.MM != 2.25 || d.Yarn.Weight.Category != 1 {
		t.Errorf("read as %+v", d)
	}
	if got := d.Names(); !slices.Equal(got, []string{"small", "large"}) {
		t.Errorf("sizes = %q", got)
	}
	if s := d.Sizes[0]; s.Girth != 8.25*unit.Inch || s.Length != 9.5*unit.Inch || s.BandFoot != s.Length || s.Shoes != (Shoes{}) {
		t.Errorf("small = %+v", s)
	}
	if s := d.Sizes[1]; s.Girth != 240 || s.Length != 265 || s.BandFoot == s.Length || s.Shoes != (Shoes{System: "US women's", Sizes: "11"}) {
		t.Errorf("large = %+v", s)
	}
	if d.Girth != (unit.Ease{Fixed: -20}) || d.Length != (unit.Ease{Share: -0.05}) {
		t.Errorf("ease = %v, %v", d.Girth, d.Length)
	}
	if got := d.GaugeOf("rib"); got != unit.NewGauge(36, 44, 100) {
		t.Errorf("gauge of rib = %v", got)
	}
	if got, want := d.GaugeOf("flap"), unit.NewGauge(32.5, 44, 4*unit.Inch); got != want {
		t.Errorf("gauge of flap = %v, want that of stockinette, %v", got, want)
	}
	if got := d.Swatch(""); got != "32.5 stitches and 44 rounds over 4 in [32 and 43.5 over 10 cm]" {
		t.Errorf("swatch = %q", got)
	}
	if got := d.Swatch("rib"); got != "36 stitches and 44 rounds over 10 cm [36.5 and 44.5 over 4 in]" {
		t.Errorf("swatch of rib = %q, want the designer's own count first", got)
	}
	if len(d.Pins) != 2 || !slices.Equal(d.Pins[0].Value, []int{Free, 72}) || !slices.Equal(d.Pins[1].Value, []int{18, 18}) {
		t.Errorf("pins = %+v", d.Pins)
	}
	// The heel has not taken its options yet; once it has, nothing is left.
	if got := messages(f, d.Unused()); len(got) != 1 || !strings.HasPrefix(got[0], `26:2: "heel" is not a key`) {
		t.Errorf("unused = %q", got)
	}
	if got := d.Part("heel").Number("share", 0.5, 0.4, 0.6); got != 0.45 {
		t.Errorf("heel.share = %g", got)
	}
	if got := messages(f, append(d.Faults(), d.Unused()...)); len(got) > 0 {
		t.Errorf("faults after the heel has taken its options: %q", got)
	}
}

func TestReadRange(t *testing.T) {
	f := source.NewFile("quay.toml", slateQuay)
	d, faults := Read(f)
	if d == nil || len(faults) > 0 {
		t.Fatalf("Read = %v, %v", d, messages(f, faults))
	}
	if !slices.Equal(d.Names(), []string{"S", "M"}) || d.Range != "women" || d.Sizes[0].Shoes.System != "US women's" || d.Sizes[0].Estimated {
		t.Errorf("sizes = %+v", d.Sizes)
	}
	if d.Method != DoublePointed || d.Girth.Share != -0.10 {
		t.Errorf("defaults: %s, %v", d.Method, d.Girth)
	}
}

// TestFaults holds that each slip gives exactly these faults, in the order of the file.
func TestFaults(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       []string // how each begins; what follows a mend is in the text of the command's scripts
	}{
		{"nothing", "", []string{"the design has no title", "the design has no gauge", "the design has no sizes"}},
		{"two slips at once", strings.Replace(slateQuay, "32", "-1", 1) + "[ease]\ngirth = \"wide\"\n",
			[]string{"4:12: gauge.stitches = -1 is outside", `10:9: ease.girth: `}},
		{"misspelt and missing", strings.Replace(slateQuay, "rows", "rwos", 1),
			[]string{"2:2: [gauge] does not say how many rows", `5:1: "rwos" is not a key of [gauge]`}},
		{"a part cannot be told unknown yet", strings.Replace(slateQuay, "32", "0", 1) + "[heel]\nknd = \"band\"\n",
			[]string{"4:12: gauge.stitches = 0"}},
		{"shape of stitch", strings.Replace(slateQuay, "44", "20", 1),
			[]string{"5:8: warning: 20 rows to 32 stitches is a strange shape"}},
		{"gauge of a fabric", slateQuay + "[gauge.rib]\nover = \"10 cm\"\nstitches = 36\n",
			[]string{"9:8: [gauge.rib] does not say how many rows"}},
		{"unknown fabric", slateQuay + "[gauge.lace]\nover = \"10 cm\"\n", nil}, // told by Unused
		{"estimate", strings.Replace(slateQuay, "women", "children", 1),
			[]string{"7:8: note: no table of the girths of children"}},
		{"pinned below zero, told once", slateQuay + "[pin]\n\"leg.stitches\" = -2\n",
			[]string{"10:18: pin.leg.stitches = -2 is outside 0 to 2000"}},
		{"columns are of characters", "title = \"Möwe ½\"\nby = 5 # ½\n" + swatch + women, []string{"2:6: by = 5 is not a text"}},
		{"deep", "a = " + strings.Repeat("[", 200_000), []string{"1:"}},
		{"deep tables", "[a" + strings.Repeat(".a", 100_000) + "]", []string{"the design has no title", "the design has no gauge", "the design has no sizes", "1:18: tables lie in each other more than 8 deep"}},
		{"deep values", slateQuay + "[leg]\nlength = " + strings.Repeat("{ a = ", 5000) + "1" + strings.Repeat("}", 5000) + "\n",
			[]string{"10:52: tables lie in each other more than 8 deep"}},
		{"sizes of two kinds", slateQuay + "[[sizes.own]]\nname = \"L\"\n", []string{"7:8: sizes come either from"}},
		{"swatch without counts", strings.NewReplacer("stitches = 32\n", "", "rows = 44", "rib = 3").Replace(slateQuay),
			[]string{"2:2: the design has no gauge"}},
	} {
		f := source.NewFile("low-tide.toml", c.text)
		_, faults := Read(f)
		got := messages(f, source.Merge(faults))
		if len(got) != len(c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
			continue
		}
		for i := range got {
			if !strings.HasPrefix(got[i], c.want[i]) {
				t.Errorf("%s: fault %d is %q, want it to begin with %q", c.name, i, got[i], c.want[i])
			}
		}
	}
}

// TestBySize covers the lengths that parts take for every size.
func TestBySize(t *testing.T) {
	for _, c := range []struct {
		text string
		want []unit.Length
		say  string
	}{
		{`length = "6 in"`, []unit.Length{6 * unit.Inch, 6 * unit.Inch}, ""},
		{`length = { S = "15 cm", M = "16 cm" }`, []unit.Length{150, 160}, ""},
		{``, []unit.Length{1, 2}, ""},
		{`length = 6`, []unit.Length{1, 2}, "leg.length = 6 has no unit"},
		{`length = { S = "15 cm" }`, []unit.Length{150, 2}, "leg.length does not say a length for size M"},
		{`length = { S = "15 cm", M = true }`, []unit.Length{150, 2}, "leg.length.M = true is not a length"},
		{`length = "600 cm"`, []unit.Length{1, 2}, `leg.length = "600 cm" is outside`},
	} {
		f := source.NewFile("leg.toml", slateQuay+"[leg]\n"+c.text+"\n")
		d, faults := Read(f)
		if d == nil {
			t.Fatalf("%s: %q", c.text, messages(f, faults))
		}
		got := d.Part("leg").BySize("length", d.Names(), 10, 600, func(i int) unit.Length { return unit.Length(i + 1) })
		if !slices.Equal(got, c.want) {
			t.Errorf("%s gives %v, want %v", c.text, got, c.want)
		}
		told := strings.Join(messages(f, d.Faults()), "\n")
		if !strings.Contains(told, c.say) || (told == "") != (c.say == "") {
			t.Errorf("%s says %q, want %q", c.text, told, c.say)
		}
	}
}

// messages prints faults as the command does, with their places in the file.
func messages(f *source.File, faults []source.Fault) []string {
	var out []string
	for _, x := range faults {
		out = append(out, source.Find(f, nil, x).String())
	}
	return out
}

// FuzzRead holds that no text makes reading panic, that a design is read or a fault of severity
// error says why not, and that every place lies in the file.
func FuzzRead(f *testing.F) {
	for _, s := range []string{
		"", "\ufeff" + slateQuay, strings.ReplaceAll(slateQuay, "\n", "\r\n"), slateQuay[:40],
		slateQuay + "[leg]\nlength = { S = \"5 in\", M = \"6 in\" }\n[pin]\n\"leg.stitches\" = { M = 64 }\nheel.flap_rows = 18\n",
		strings.Replace(slateQuay, "32", "32,5", 1), strings.Replace(slateQuay, "32", "1979-05-27", 1), strings.Replace(slateQuay, "\"Slate", "Slate", 1),
		"title = \"Low Tide\"\ntitle = \"Ferry Lane\"\n", "title = '''\nGable\nEnd'''\n" + swatch + women,
		"title = \"Copper \xff Kettle\"", "[gauge]\n[gauge]\n", "gauge = 3\nsizes = []\nease = true\npin = 1979-05-27\nyarn = \"sea\"\n",
		"sizes.own = [ { name = \"M\", foot_girth = \"8 in\", foot_length = \"9 in\" }, 3 ]\n" + swatch,
		"[[sizes.own]]\nname = \"\"\nshoe = \"US W\"\n[[sizes.own]]\nfoot_girth = \"\"\n" + swatch,
		"[yarn]\nweight = 9\n[needles]\nsize = \"2,25 mm\"\nmethod = [1]\n" + swatch + women,
		"a.b.c = [[], {}, [{ d = 0x7fff_ffff_ffff_ffff }]]\n\"\" = inf\n", "title = \"½\"\nx = ½\n", "[pin]\nx = { }\n" + swatch + women,
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		file := source.NewFile("fuzz.toml", text)
		d, faults := Read(file)
		if d != nil {
			faults = append(faults, d.Unused()...)
			for _, part := range []string{"cuff", "leg", "heel"} {
				p := d.Part(part)
				p.Choice("kind", "band")
				p.Number("share", 0.5, 0.4, 0.6)
				p.Int("rows", 1, 0, 9)
				p.BySize("length", d.Names(), 1, 100, func(int) unit.Length { return 1 })
				p.Tables("motif")
			}
			faults = append(faults, d.Faults()...)
		}
		if worst, any := source.Worst(faults); d == nil && (!any || worst != source.Error) {
			t.Errorf("no design, and no error that says why: %q", messages(file, faults))
		}
		for _, x := range faults {
			if x.At.End < x.At.Start || int(x.At.End) > len(file.Text) {
				t.Errorf("%q lies at %v in a file of %d bytes", x.Text, x.At, len(file.Text))
			}
			for _, m := range x.Mends {
				for _, e := range m.Edits {
					if !e.At.Known() || int(e.At.End) > len(file.Text) {
						t.Errorf("a mend of %q lies at %v in a file of %d bytes", x.Text, e.At, len(file.Text))
					}
				}
			}
			if found := source.Find(file, nil, x); strings.Contains(found.Message, "{0}") && !strings.Contains(text, "{0}") {
				t.Errorf("a placeholder is left in %q", found.Message)
			}
		}
	})
}

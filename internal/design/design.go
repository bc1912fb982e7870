package design

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"sockwright/internal/feet"
	"sockwright/internal/source"
	"sockwright/internal/spell"
	"sockwright/internal/trade"
	"sockwright/internal/unit"
)

// MaxFile is the largest design file that is read, in bytes. A long one has a few thousand.
const MaxFile = 1 << 20

// Method is how the round is held.
type Method string

const (
	DoublePointed Method = "double-pointed"
	MagicLoop     Method = "magic-loop"
	TwoCirculars  Method = "two-circulars"
)

// A Design is a designer's choices, read and held to be sound one by one. Whether they go
// together is for the grading to say.
type Design struct {
	File      *source.File
	Title     string
	Author    string
	Version   string
	About     string // one or more sentences by the designer, printed as they stand
	Direction string // CuffDown or ToeUp

	Gauge  map[string]unit.Gauge // by fabric; "" is stockinette in the round
	metric bool                  // the swatch was counted over centimetres
	swatch map[string]string     // the same in the designer's own numbers
	Sizes  []Size
	Range  string // "women", "men", "children", or "" for own sizes
	Girth  unit.Ease
	Length unit.Ease

	Method Method
	Needle trade.Needle
	Yarn   Yarn
	Pins   []Pin

	root *Table
}

// Names lists the names of the sizes.
func (d *Design) Names() []string {
	names := make([]string, len(d.Sizes))
	for i, s := range d.Sizes {
		names[i] = s.Name
	}
	return names
}

// A Size is one size of the design, in measures of the body without ease.
type Size struct {
	Name      string
	Girth     unit.Length // of the foot at the ball
	Length    unit.Length // of the foot
	Shoes     Shoes       // zero if not told
	BandFoot  unit.Length // foot length that decides the band width: the shoe's if one is told
	Estimated bool        // the girth is an estimate
}

// Yarn is what the sock is knitted from.
type Yarn struct {
	Description string           // "4-ply, 75 % wool 25 % polyamide"
	Weight      trade.YarnWeight // zero if not told
	PutUp       string           // "100 g, 420 m"
}

// A Pin fixes a number of the plan.
type Pin struct {
	Key   string
	Value []int // by size; Free where a size is left open
	At    source.Span
}

// Free is the value of a pin for a size that it does not fix.
const Free = -1

// Part returns the table of a part of the sock, such as "heel"; an empty one if the design
// says nothing about it.
func (d *Design) Part(name string) *Table { return d.root.Table(name) }

// Unused reports the keys that no owner has taken, as faults.
func (d *Design) Unused() []source.Fault {
	var faults []source.Fault
	all := d.root.faults
	*all = nil
	d.root.unused()
	faults, *all = *all, nil
	return faults
}

// Faults takes the faults that owners of parts have reported through their tables so far.
func (d *Design) Faults() []source.Fault {
	faults := *d.root.faults
	*d.root.faults = nil
	return faults
}

// GaugeOf is the gauge of a fabric by name, or of stockinette if it has none of its own.
func (d *Design) GaugeOf(fabric string) unit.Gauge {
	if g, ok := d.Gauge[fabric]; ok {
		return g
	}
	return d.Gauge[""]
}

// Long prints a length in both systems, first in that of the design, which is that of its
// swatch.
func (d *Design) Long(l unit.Length) string { return l.Both(d.metric) }

// Small prints a length of a few rows or stitches in the system of the design: "7.3 mm" or
// "0.29 in".
func (d *Design) Small(mm float64) string {
	if d.metric {
		return fmt.Sprintf("%.1f mm", mm)
	}
	return fmt.Sprintf("%.2f in", unit.Length(mm).In())
}

// Swatch is the gauge of a fabric for print, as it was counted. After counts over 4 in or
// 10 cm those over the other follow, to the nearest half, since 4 in is 10.16 cm: "32 stitches and
// 44 rounds over 10 cm [32.5 and 44.5 over 4 in]".
func (d *Design) Swatch(fabric string) string { return d.swatch[fabric] }

// Read reads a design file. The design is nil where the faults leave nothing to work with.
func Read(f *source.File) (*Design, []source.Fault) {
	fault := unreadable(f)
	if fault != nil {
		return nil, []source.Fault{*fault}
	}
	root, fault := parse(f)
	if fault != nil {
		return nil, []source.Fault{*fault}
	}
	d := &Design{File: f, root: root, Gauge: map[string]unit.Gauge{}, swatch: map[string]string{}}
	d.head()
	d.gauge(root.Table("gauge"), "", true)
	d.sizes(root.Table("sizes"))
	d.ease(root.Table("ease"))
	d.materials()
	d.pins(root)
	faults := d.Faults()
	if worst, any := source.Worst(faults); any && worst == source.Error {
		root.misspelt()
		return nil, append(faults, d.Faults()...)
	}
	return d, faults
}

// unreadable is why a file is no text that a design could be read from, or nil.
func unreadable(f *source.File) *source.Fault {
	fault := source.Fault{Kind: source.Syntax, Severity: source.Error}
	if len(f.Text) > MaxFile {
		fault.Text = source.Say("design.too-long", "the file has {0} bytes, and a design file of more than {1} is not read", len(f.Text), MaxFile)
		fault.Mends = []source.Mend{{Why: source.Say("design.too-long.mend", "look whether this is the file you meant: a design has a few dozen lines")}}
		return &fault
	}
	for i := 0; i < len(f.Text); {
		r, n := utf8.DecodeRuneInString(f.Text[i:])
		if r == utf8.RuneError && n == 1 {
			fault.At = source.Span{Start: uint32(i), End: uint32(i + 1)}
			fault.Text = source.Say("design.not-text", "the file is not a text in UTF-8 from here on")
			fault.Mends = []source.Mend{{Why: source.Say("design.not-text.mend", "save it as plain text in UTF-8")}}
			return &fault
		}
		i += n
	}
	return nil
}

func (d *Design) head() {
	t := d.root
	d.Title = strings.TrimSpace(t.Text("title", ""))
	switch {
	case !t.Has("title"):
		t.Fault("title", source.Error, source.Say("design.no-title", "the design has no title"), `add a line such as title = "Slate Quay"`)
	case d.Title == "" || strings.ContainsAny(d.Title, "\n\r") || utf8.RuneCountInString(d.Title) > 120:
		t.Fault("title", source.Error, source.Say("design.bad-title", "a title is one line of 1 to 120 characters"), `write it like this: title = "Slate Quay"`)
	case !strings.ContainsFunc(d.Title, isLetter):
		t.Fault("title", source.Error, source.Say("design.bad-title-letters", "a title has at least one letter"), `write it like this: title = "Slate Quay"`)
	}
	d.Author = oneLine(t, "by")
	d.Version = oneLine(t, "version")
	d.About = oneLine(t, "about")
	d.Direction = t.Choice("direction", CuffDown, ToeUp)
}

func isLetter(r rune) bool { return r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z' || r > 127 }

func oneLine(t *Table, key string) string {
	return strings.Join(strings.Fields(t.Text(key, "")), " ")
}

// gauge reads a swatch and the swatches of other fabrics below it.
func (d *Design) gauge(t *Table, fabric string, needed bool) {
	t.owns("over", "stitches", "rows")
	if fabric == "" {
		t.owns(Fabrics...)
	}
	if needed && !t.Has("stitches") && !t.Has("rows") {
		t.Fault("stitches", source.Error, source.Say("design.no-gauge", "the design has no gauge"),
			"knit a swatch in the round, wash it, count, and add [gauge] with over = \"10 cm\", stitches = … and rows = …")
		return
	}
	over := t.Length("over", 0, 10, 1000)
	if !t.Has("over") {
		t.Fault("over", source.Error, source.Say("design.gauge-over", "[{0}] does not say over which length it was counted", t.name), `add over = "10 cm" or over = "4 in"`)
	}
	for _, key := range []string{"stitches", "rows"} {
		if !t.Has(key) {
			t.Fault(key, source.Error, source.Say("design.gauge-missing", "[{0}] does not say how many {1} were counted", t.name, key), "add "+key+" = …, counted over the same length")
		}
	}
	stitches, rows := t.Number("stitches", 0, 0.5, 2000), t.Number("rows", 0, 0.5, 2000)
	if fabric == "" {
		d.metric = strings.HasSuffix(strings.ToLower(strings.TrimSpace(t.Text("over", ""))), "m") // cm or mm
	}
	if over > 0 && stitches > 0 && rows > 0 {
		g := unit.NewGauge(stitches, rows, over)
		switch per := g.PerInch(); {
		case per < 2 || per > 25:
			t.Fault("stitches", source.Error, source.Say("design.gauge-absurd", "{0} stitches over {1} are {2} to the inch: no sock is knitted so", show(stitches), strings.TrimSpace(t.Text("over", "")), fmt.Sprintf("%.1f", per)),
				"check the number and the length it was counted over")
		case rows < 0.7*stitches || rows > 2.5*stitches:
			t.Fault("rows", source.Warning, source.Say("design.gauge-shape", "{0} rows to {1} stitches is a strange shape of stitch: stockinette has 1.25 to 1.5 rows to a stitch", show(rows), show(stitches)), "count the rows again")
		}
		d.Gauge[fabric] = g
		unitOfRows := "rounds"
		if fabric == "flap" {
			unitOfRows = "rows"
		}
		d.swatch[fabric] = fmt.Sprintf("%s stitches and %s %s over %s", show(stitches), show(rows), unitOfRows, over)
		also := func(name, otherName string, other unit.Length) {
			half := func(perMM float64) string { return show(math.Round(2*perMM*other.MM()) / 2) }
			d.swatch[fabric] = fmt.Sprintf("%s stitches and %s %s over %s [%s and %s over %s]",
				show(stitches), show(rows), unitOfRows, name, half(g.Stitches), half(g.Rows), otherName)
		}
		switch over {
		case 4 * unit.Inch:
			also("4 in", "10 cm", 10*unit.Centimetre)
		case 10 * unit.Centimetre:
			also("10 cm", "4 in", 4*unit.Inch)
		}
	}
	if fabric == "" {
		for _, name := range Fabrics {
			if t.Has(name) {
				d.gauge(t.Table(name), name, false)
			}
		}
	}
}

// Worked says how a fabric is worked on its swatch.
func Worked(fabric string) string {
	if fabric == "flap" {
		return "worked flat"
	}
	return "worked in the round"
}

// The directions in which a sock is worked.
const (
	CuffDown = "cuff-down"
	ToeUp    = "toe-up"
)

// Fabrics names the fabrics that can have a gauge of their own.
var Fabrics = []string{"rib", "garter", "flap"}

func (d *Design) sizes(t *Table) {
	own := t.Tables("own")
	t.owns("from", "keep", "own")
	for _, s := range own {
		s.owns("name", "foot_girth", "foot_length", "shoe")
	}
	switch {
	case !t.Has("from") && len(own) == 0:
		t.Fault("from", source.Error, source.Say("design.no-sizes", "the design has no sizes"),
			`add [sizes] with from = "women", "men" or "children", or [[sizes.own]] tables with your own measures`)
		return
	case t.Has("from") && len(own) > 0:
		t.Fault("from", source.Error, source.Say("design.two-ranges", "sizes come either from a range or from [[sizes.own]], and this design has both"), "take one of the two out")
		return
	case len(own) > source.MaxSizes:
		t.Fault("own", source.Error, source.Say("design.too-many-sizes", "the design has {0} sizes, and a pattern has at most {1}", len(own), source.MaxSizes), "make two designs of it")
		return
	}
	if len(own) > 0 {
		d.ownSizes(own)
		return
	}
	before := len(*t.faults)
	d.Range = t.Choice("from", "women", "men", "children")
	keep := t.Texts("keep")
	if len(*t.faults) > before {
		return
	}
	all, err := feet.Range(d.Range)
	if err != nil {
		t.refused("from", "design.range-name", err, `write from = "women", "men" or "children"`)
		return
	}
	var names []string
	for _, s := range all {
		names = append(names, s.Name)
	}
	seen := map[string]bool{}
	for _, name := range keep {
		if !slices.Contains(names, name) {
			mend := "the sizes of this range are " + strings.Join(names, ", ")
			if near := nearestSize(name, names); near != "" {
				mend = "did you mean " + strconv.Quote(near) + "?"
			}
			t.Fault("keep", source.Error, source.Say("design.keep", "{0} is not a size of the range for {1}", strconv.Quote(name), d.Range), mend)
		}
		if seen[name] {
			t.Fault("keep", source.Error, source.Say("design.keep-twice", "size {0} is kept twice", strconv.Quote(name)), "name it once")
		}
		seen[name] = true
	}
	if t.Has("keep") && len(keep) == 0 {
		t.Fault("keep", source.Error, source.Say("design.keep-none", "no size is kept"), "name at least one, or take keep out to have all")
	}
	for _, s := range all {
		if len(keep) > 0 && !slices.Contains(keep, s.Name) {
			continue
		}
		d.Sizes = append(d.Sizes, Size{Name: s.Name, Girth: s.Girth, Length: s.Length,
			Shoes: shoes(s.Shoes[0], s.Shoes[1]), BandFoot: s.Length, Estimated: s.Estimated})
	}
	if len(d.Sizes) > 0 && d.Sizes[0].Estimated {
		*t.faults = append(*t.faults, source.Fault{At: t.Span("from"), Kind: source.Estimate, Severity: source.Note,
			Text:  source.Say("design.estimate", "no table of the girths of children's feet was found: these are estimates from foot breadth, within 8 % or so"),
			Mends: []source.Mend{{Why: source.Say("design.estimate.mend", "measure the foot and use [[sizes.own]] where you can")}}})
	}
}

// nearestSize is the size that a name was probably meant for, or "". Of a short name only the
// capitals can be wrong: every letter is near to every other.
func nearestSize(name string, names []string) string {
	if i := slices.IndexFunc(names, func(s string) bool { return strings.EqualFold(s, name) }); i >= 0 {
		return names[i]
	}
	if utf8.RuneCountInString(name) < 3 {
		return ""
	}
	return spell.Nearest(name, names)
}

// Shoes are the shoe sizes that a size is for, as buyers read them.
type Shoes struct {
	System string // "US women's", "EU"
	Sizes  string // "5.5 to 7", "39"
}

// shoes spells out a span of shoe sizes of one system; first and last may be the same.
func shoes(first, last trade.Shoe) Shoes {
	text := first.String()
	i := strings.LastIndexByte(text, ' ')
	out := Shoes{System: text[:i], Sizes: text[i+1:]}
	switch first.System {
	case trade.USWomen:
		out.System = "US women's"
	case trade.USMen:
		out.System = "US men's"
	case trade.USChild:
		out.System = "US child's"
	case trade.UKChild:
		out.System = "UK child's"
	}
	if last != first {
		text = last.String()
		out.Sizes += " to " + text[strings.LastIndexByte(text, ' ')+1:]
	}
	return out
}

func (d *Design) ownSizes(own []*Table) {
	seen := map[string]bool{}
	for i, t := range own {
		s := Size{Name: strings.TrimSpace(t.Text("name", ""))}
		switch {
		case !t.Has("name"):
			t.Fault("name", source.Error, source.Say("design.size-name", "size {0} has no name", i+1), `add name = "M"`)
		case s.Name == "" || utf8.RuneCountInString(s.Name) > 24 || strings.ContainsAny(s.Name, "(),;:[]*\n\"") || strings.Contains(s.Name, " and "):
			t.Fault("name", source.Error, source.Say("design.size-name-form", "{0} cannot name a size: a name has up to 24 letters and digits, without brackets, commas or colons", strconv.Quote(s.Name)), `write it like this: name = "M"`)
		case seen[s.Name]:
			t.Fault("name", source.Error, source.Say("design.size-twice", "two sizes are called {0}", strconv.Quote(s.Name)), "give one of them another name")
		}
		seen[s.Name] = true
		called := s.Name
		if called == "" {
			called = strconv.Itoa(i + 1)
		}
		for _, key := range []string{"foot_girth", "foot_length"} {
			if !t.Has(key) {
				t.Fault(key, source.Error, source.Say("design.size-measure", "size {0} has no {1}", called, key), "add "+key+` = "… in" or "… cm", measured on the body`)
			}
		}
		s.Girth = t.Length("foot_girth", 0, 50, 600)
		s.Length = t.Length("foot_length", 0, 50, 450)
		s.BandFoot = s.Length
		if t.Has("shoe") {
			text := t.Text("shoe", "")
			if shoe, err := trade.ParseShoe(text); err != nil {
				t.refused("shoe", "design.shoe", err, `write it like this: shoe = "US W 8"`)
			} else {
				s.Shoes, s.BandFoot = shoes(shoe, shoe), shoe.FootLength()
			}
		}
		if n := len(d.Sizes); n > 0 && s.Girth > 0 && s.Length > 0 {
			before := d.Sizes[n-1]
			if s.Girth < before.Girth || s.Length < before.Length {
				key := "foot_girth"
				if s.Girth >= before.Girth {
					key = "foot_length"
				}
				t.Fault(key, source.Error, source.Say("design.size-order", "size {0} has a smaller foot than {1} before it: sizes go from small to large in girth and in length", s.Name, before.Name),
					"put the sizes in order")
			}
		}
		d.Sizes = append(d.Sizes, s)
	}
}

func (d *Design) ease(t *Table) {
	read := func(key, def string) unit.Ease {
		e, err := unit.ParseEase(t.Text(key, def))
		if err != nil {
			t.refused(key, "design.ease", err, "write it like this: "+key+` = "-10 %"`)
		} else if e.Share < -0.4 || e.Share > 0.3 || e.Fixed < -100 || e.Fixed > 50 {
			t.Fault(key, source.Error, source.Say("design.ease-range", "an ease of {0} makes no sock: socks are 0 to 20 % smaller than the foot", e.String()), `write it like this: `+key+` = "-10 %"`)
		}
		return e
	}
	d.Girth = read("girth", "-10 %")
	d.Length = read("length", "-5 %")
}

func (d *Design) materials() {
	n := d.root.Table("needles")
	d.Method = Method(n.Choice("method", string(DoublePointed), string(MagicLoop), string(TwoCirculars)))
	if n.Has("size") {
		var err error
		if d.Needle, err = trade.ParseNeedle(n.Text("size", "")); err != nil {
			n.refused("size", "design.needle", err, `write it like this: size = "2.25 mm"`)
		}
	}
	y := d.root.Table("yarn")
	d.Yarn.Description = oneLine(y, "description")
	d.Yarn.PutUp = oneLine(y, "put_up")
	if y.Has("weight") {
		text := ""
		switch v := y.values["weight"].(type) {
		case int64:
			text = strconv.FormatInt(v, 10)
		default:
			text = y.Text("weight", "")
		}
		var err error
		if d.Yarn.Weight, err = trade.ParseYarnWeight(text); err != nil {
			y.refused("weight", "design.yarn-weight", err, "write a number from 0 (lace) to 7 (jumbo)")
		} else {
			d.gaugeForYarn(y)
		}
	}
}

// gaugeForYarn compares the gauge with what the yarn weight is published for.
func (d *Design) gaugeForYarn(y *Table) {
	g, ok := d.Gauge[""]
	if !ok {
		return
	}
	w := d.Yarn.Weight
	per4 := g.PerInch() * 4
	if w.StitchesMin > 0 && per4 < float64(w.StitchesMin) || w.StitchesMax > 0 && per4 > float64(w.StitchesMax)*1.35 {
		y.Fault("weight", source.Warning, source.Say("design.gauge-yarn", "{0} stitches to 4 in is outside what is published for yarn of weight {1}: {2} (socks are commonly knitted at the tight end or a third beyond it)",
			fmt.Sprintf("%.0f", per4), w.String(), published(w)), "check the swatch, or the yarn weight")
	}
}

// published is the gauge that a yarn weight is published for, in stitches to 4 in.
func published(w trade.YarnWeight) string {
	switch {
	case w.StitchesMin == 0:
		return fmt.Sprintf("%d or fewer", w.StitchesMax)
	case w.StitchesMax == 0:
		return fmt.Sprintf("%d or more", w.StitchesMin)
	}
	return fmt.Sprintf("%d to %d", w.StitchesMin, w.StitchesMax)
}

// maxPin is the largest number that can be pinned: more stitches than go round the widest
// foot at the finest gauge, and more rounds than the longest leg has.
const maxPin = 2000

func (d *Design) pins(root *Table) {
	t := root.Table("pin")
	names := d.Names()
	if len(names) == 0 {
		t.ownsAll()
		return // the sizes are at fault; their names would all be taken for unknown
	}
	for _, key := range t.Keys() {
		t.asked[key] = true
		pin := Pin{Key: key, Value: make([]int, len(names)), At: t.keyAt[key]}
		switch v := t.values[key].(type) {
		case int64:
			n := t.Int(key, Free, 0, maxPin)
			for i := range pin.Value {
				pin.Value[i] = n
			}
		case *Table:
			if !strings.Contains(key, ".") {
				d.unquotedPin(t, key, v)
				continue
			}
			for i, name := range names {
				pin.Value[i] = v.Int(name, Free, 0, maxPin)
			}
			for _, k := range v.Keys() {
				if !slices.Contains(names, k) {
					mend := "the sizes are " + strings.Join(names, ", ")
					if near := nearestSize(k, names); near != "" {
						mend = "did you mean " + strconv.Quote(near) + "?"
					}
					v.asked[k] = true
					*t.faults = append(*t.faults, source.Fault{At: v.keyAt[k], Kind: source.BadValue, Severity: source.Error,
						Text:  source.Say("design.pin-size", "{0} is not a size of this design", strconv.Quote(k)),
						Mends: []source.Mend{{Why: source.Say("design.mend", mend)}}})
				}
			}
		default:
			t.wrong(key, "a whole number, or a table of them by size", strconv.Quote(key)+" = 64")
			continue
		}
		d.Pins = append(d.Pins, pin)
	}
}

// unquotedPin reports a pin such as leg.stitches = 64: without quotation marks its dot makes
// a table of it.
func (d *Design) unquotedPin(t *Table, key string, v *Table) {
	v.ownsAll()
	for _, k := range v.Keys() {
		name := strconv.Quote(key + "." + k)
		f := source.Fault{At: t.keyAt[key].To(v.keyAt[k]), Kind: source.BadValue, Severity: source.Error,
			Text:  source.Say("design.pin-quotes", "the name of a pinned number stands in quotation marks, because it has a dot"),
			Mends: []source.Mend{{Why: source.Say("design.pin-quotes.mend", "write {0} = …", name)}}}
		*t.faults = append(*t.faults, f)
	}
}

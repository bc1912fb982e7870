package publish_test

import (
	"fmt"
	"html"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"

	"sockwright/internal/design"
	"sockwright/internal/designtest"
	"sockwright/internal/publish"
	"sockwright/internal/source"
	"sockwright/internal/unit"
)

// These tests hold the printed words to what publishers and guilds ask of the presentation
// of a pattern in several sizes. They read the text as a knitter does and know nothing of
// how it was made. The codes are those of a checklist: S sizes in the text, R rows, rounds
// and counts, F facts before the instructions, P order of the parts, W written directions,
// A reading by eye and by ear.

// A page is a printed pattern, read line by line.
type page struct {
	book     *publish.Book
	text     string
	title    string
	sizes    []string // names, smallest first
	chapters []*chapter
	bySize   map[int][]*chapter // lists replaced by the value of a size, lines for others left out
}

type chapter struct {
	title string // "" before the first heading
	lines []string
}

// worked are the chapters that are knitted, in order.
var worked = []string{"CUFF", "LEG", "HEEL FLAP", "BAND", "HEEL TURN", "GUSSET", "FOOT", "TOE"}

func readPage(book *publish.Book, text string) *page {
	p := &page{book: book, text: text, bySize: map[int][]*chapter{}}
	lines := strings.Split(strings.TrimSuffix(p.text, "\n"), "\n")
	p.title = lines[0]
	at := &chapter{}
	p.chapters = append(p.chapters, at)
	for i, line := range lines[1:] {
		last := lines[i] == ""
		next := i+2 == len(lines) || lines[i+2] == ""
		switch {
		case line == "":
		case last && next && line == strings.ToUpper(line) && strings.ContainsFunc(line, unicode.IsLetter):
			at = &chapter{title: line}
			p.chapters = append(p.chapters, at)
		default:
			at.lines = append(at.lines, line)
		}
	}
	names := p.fact("SIZES", "Sizes")
	if names == "" {
		names = p.fact("SIZES", "Size")
	}
	first, rest, _ := strings.Cut(names, " (")
	p.sizes = []string{first}
	if rest != "" {
		p.sizes = append(p.sizes, strings.Split(strings.TrimSuffix(rest, ")"), ", ")...)
	}
	return p
}

// worked are the titles of the chapters that are knitted.
func (p *page) worked() (titles []string) {
	for _, c := range p.chapters {
		if c.worked() {
			titles = append(titles, c.title)
		}
	}
	return titles
}

func (p *page) chapter(title string) *chapter {
	for _, c := range p.chapters {
		if c.title == title {
			return c
		}
	}
	return &chapter{title: title}
}

// fact is what stands behind a label.
func (p *page) fact(title, label string) string {
	for _, line := range p.chapter(title).lines {
		if rest, ok := strings.CutPrefix(line, label+": "); ok {
			return rest
		}
	}
	return ""
}

// each calls do with every line below the title, headings left out.
func (p *page) each(do func(c *chapter, line string)) {
	for _, c := range p.chapters {
		for _, line := range c.lines {
			do(c, line)
		}
	}
}

// worked tells whether a chapter is knitted.
func (c *chapter) worked() bool {
	return !slices.Contains([]string{"", "SIZES", "MATERIALS AND GAUGE", "ABBREVIATIONS", "NOTES", "FINISHING"}, c.title)
}

// instructions calls do with every line that is worked.
func (p *page) instructions(do func(c *chapter, line string)) {
	p.each(func(c *chapter, line string) {
		if c.worked() && instruction.MatchString(line) {
			do(c, line)
		}
	})
}

// designers tells whether a line holds words of the designer's, which are printed as they
// stand.
func (p *page) designers(c *chapter, line string) bool {
	return c.title == "" && (strings.HasPrefix(line, "About: ") || strings.HasPrefix(line, "By ")) || strings.HasPrefix(line, "Yarn: ")
}

var (
	instruction = regexp.MustCompile(`^(CO \d|((Set-up|Next|Partial|Inc|Dec) (row|rnd)|Row|Rnd)( \d+)?( \((RS|WS)\))?: |Work (the last|Row|Rnd) .*[0-9(]|Work .* once more|Do not repeat the last|Do not repeat (Row|Rnd)|(Knit|Purl|Work) [\d–]|.* is a stitch pattern over |Arrange the sts: |The (last|first) \d.* (are the heel|are worked back and forth)|The rnd now begins here|Remove the stitch markers|Graft the (first )?\d|Bind off the (first )?\d|BO all \d|Draw the yarn twice|Work in the round again|Undo the provisional|Take out the waste yarn)`)
	label       = regexp.MustCompile(`^((?:Set-up|Next|Partial|Inc|Dec) (?:row|rnd)|Row|Rnd)( \d+)?( \((RS|WS)\))?: `)
	onlyLine    = regexp.MustCompile(`^Sizes? (.+) only:$`)
	sockLine    = regexp.MustCompile(`^((Right|Left) sock only|Both socks):$`)
)

const one = `(?:\d+ \d+/\d+|\d+/\d+|\d+(?:\.\d+)?|–)` // a value of one size

var (
	list = regexp.MustCompile(`(` + one + `) \((` + one + `(?:, ` + one + `)*)\)`)
)

// forSize is a line with every list replaced by its value for a size.
func forSize(line string, size int) string {
	return list.ReplaceAllStringFunc(line, func(s string) string {
		if v := values(s); size < len(v) {
			return v[size]
		}
		return "?"
	})
}

// values are the values of "56 (60, 64)".
func values(s string) []string {
	first, rest, many := strings.Cut(s, " (")
	if !many {
		return []string{s}
	}
	return append([]string{first}, strings.Split(strings.TrimSuffix(rest, ")"), ", ")...)
}

// amount is the number that a value stands for.
func amount(s string) float64 {
	n, err := unit.ParseNumber(s)
	if err != nil {
		return math.NaN()
	}
	return n
}

// A check names what is wrong with a page.
type check struct {
	code string
	says string
	find func(p *page, wrong func(format string, args ...any))
}

var checks = []check{
	{"S1", "smallest size first and outside, the others in one pair of round brackets", smallestFirst},
	{"S2", "one number alone holds for all sizes", onceForAll},
	{"S3", "as many values in every list as there are sizes", asManyAsSizes},
	{"S4", "round brackets hold sizes and nothing else, square ones repeats and centimetres", brackets},
	{"S6", "lines for some sizes name them, and “All sizes” follows", someSizes},
	{"S9", "a space after each comma, none inside the brackets, no line break in a list", spaces},
	{"R1", "“Row” for flat work, “Rnd” in the round, and the change is told", rowOrRound},
	{"R2", "labels with the side where the work is flat, a full stop at the end", labels},
	{"R3", "numbers start at 1 in each section", numbering},
	{"R4", "nothing is left to be continued as set", noContinuing},
	{"R5", "rows worked once state the new count, repeated ones the change and then the count", countsTold},
	{"R9", "repeats have a stated end or a number of times", repeats},
	{"R10", "the counts of needles are given and sum to the round", needleSums},
	{"R12", "repeats tell how many rows or rounds that is", roundsTold},
	{"F1", "measures “to fit” and “finished” apart, with the ease", toFitAndFinished},
	{"F2", "every length in inches and centimetres, which agree", bothUnits},
	{"F3", "needle size in US number and mm", needles},
	{"F4", "gauge in both units, in which stitch, how, and after washing", gauge},
	{"F8", "the abbreviations used are explained, and no others", abbreviations},
	{"F9", "terms on which lists disagree are explained in full", disputed},
	{"F10", "which English", english},
	{"P2", "how the sock is made, before the first row", construction},
	{"P5", "the order of the sections", order},
	{"W1", "the words alone are knitted, and no row has steps without stitches", words},
	{"A15", "no capitals but in headings", capitals},
	{"A16", "no two numbers meet", numbersMeet},
	{"A22", "plain text, one instruction a line, no signs that are not read aloud", plainText},
	{"H", "the page has the same words", sameOnPage},
}

// TestPresentation runs all checks over the designs that come along, all sizes and each
// alone, and over some drawn ones.
func TestPresentation(t *testing.T) {
	files, err := filepath.Glob("../../examples/*.toml")
	if err != nil || len(files) == 0 {
		t.Fatal("no examples", err)
	}
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		t.Run(filepath.Base(name), func(t *testing.T) {
			book := printed(t, string(text), "")
			present(t, book)
			for _, size := range book.Draft.Names() {
				t.Run(size, func(t *testing.T) { present(t, printed(t, string(text), size)) })
			}
		})
	}
	for name, text := range handmade {
		t.Run(name, func(t *testing.T) {
			book := printed(t, text, "")
			if book == nil {
				t.Fatal("refused")
			}
			present(t, book)
		})
	}
	for name, limits := range map[string][]designtest.Limit{"drawn": {designtest.BandHeel}, "drawn freely": nil} {
		drawn := rapid.Custom(func(t *rapid.T) string { return designtest.Draw(t, limits...) })
		for i := range 40 {
			t.Run(fmt.Sprint(name, " ", i), func(t *testing.T) {
				if book := printed(t, drawn.Example(i), ""); book != nil {
					present(t, book)
				}
			})
		}
	}
}

// bandHeelOnly are the checks that look for the sections of a sock from the cuff down with a
// band heel.
var bandHeelOnly = []string{"R1", "R10", "F1", "P2", "P5", "W1"}

// handmade are designs with what is rare in drawn ones.
var handmade = map[string]string{
	"leg and cuff differ": `title = "Gable End"
[gauge]
over = "4 in"
stitches = 16
rows = 22
[[sizes.own]]
name = "1"
foot_girth = "13.7 cm"
foot_length = "16 cm"
[[sizes.own]]
name = "2"
foot_girth = "17 cm"
foot_length = "18 cm"
[cuff]
kind = "k2p2"
`,
	"hardly any foot": `title = "Gable End"
[gauge]
over = "4 in"
stitches = 20
rows = 28
[[sizes.own]]
name = "1"
foot_girth = "11.3 cm"
foot_length = "5.1 cm"
[gusset]
corner_stitches = 2
[toe]
rate = "graduated"
`,
	"few stitches, and more": `title = "Gable End"
[gauge]
over = "4 in"
stitches = 14
rows = 20
[[sizes.own]]
name = "1"
foot_girth = "9.5 cm"
foot_length = "10 cm"
[[sizes.own]]
name = "2"
foot_girth = "13 cm"
foot_length = "14 cm"
[[sizes.own]]
name = "3"
foot_girth = "22 cm"
foot_length = "24 cm"
[gusset]
corner_stitches = 0
[toe]
rate = "graduated"
[needles]
method = "magic-loop"
`,
	"no ease, loose and tight": `title = "Gable End"
[gauge]
over = "10 cm"
stitches = 31
rows = 42
[gauge.rib]
over = "10 cm"
stitches = 34
rows = 42
[gauge.flap]
over = "5 cm"
stitches = 16
rows = 22
[[sizes.own]]
name = "S"
foot_girth = "8 in"
foot_length = "9 in"
[[sizes.own]]
name = "L"
foot_girth = "9.1 in"
foot_length = "10 in"
[ease]
girth = "0 %"
length = "1 cm"
[heel]
share = 0.44
[needles]
size = "2.5 mm"
method = "two-circulars"
`,
}

// printed is the book of a design; nil if the design is refused.
func printed(t *testing.T, text, only string) *publish.Book {
	t.Helper()
	book, faults, err := publish.Make(source.NewFile("gable-end.toml", text), publish.Options{Only: only})
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	if book == nil {
		for _, f := range faults {
			if f.Kind == source.Impossible {
				return nil
			}
		}
		t.Fatalf("%v\n%s", faults, text)
	}
	return book
}

func present(t *testing.T, book *publish.Book) {
	t.Helper()
	p := readPage(book, string(book.Files[0].Data))
	d := book.Draft
	band := d.Direction == design.CuffDown && d.Kind("heel") == "band" && d.Kind("leg") == "plain" && d.Kind("toe") == "wedge"
	for _, c := range checks {
		if !band && slices.Contains(bandHeelOnly, c.code) {
			continue
		}
		said := map[string]bool{}
		c.find(p, func(format string, args ...any) {
			if s := fmt.Sprintf(format, args...); !said[s] {
				said[s] = true
				t.Errorf("%s (%s): %s", c.code, c.says, s)
			}
		})
	}
}

// A knee sock tells whose calf it fits, and how wide it is there.
func TestCalfTold(t *testing.T) {
	text, err := os.ReadFile("../../examples/gannet-steps.toml")
	if err != nil {
		t.Fatal(err)
	}
	book := printed(t, string(text), "")
	p := readPage(book, string(book.Files[0].Data))
	for label, want := range map[string]string{
		"To fit calf circumference, at its widest": "14 1/8 (15, 15 3/4) in [36 (38, 40) cm]",
		"Finished calf circumference":              "12 3/4 (13 3/8, 13 7/8) in [32.3 (33.8, 35.4) cm]",
	} {
		if got := p.fact("SIZES", label); got != want {
			t.Errorf("%s: %q, want %q", label, got, want)
		}
		if !strings.Contains(string(book.Files[1].Data), label) {
			t.Errorf("%s is not told on the page", label)
		}
	}
	const estimate = "The calf circumferences are estimates"
	if strings.Contains(string(book.Files[0].Data), estimate) {
		t.Error("measures of the design are called estimates")
	}
	guessed := regexp.MustCompile(`(?m)^calf = .*\n`).ReplaceAllString(string(text), "")
	if !strings.Contains(string(printed(t, guessed, "").Files[0].Data), estimate) {
		t.Error("estimated calves are not called estimates")
	}
}

// TestChecksFind spoils a good page in one place and wants the check for it to notice.
func TestChecksFind(t *testing.T) {
	text, err := os.ReadFile("../../examples/slate-quay.toml")
	if err != nil {
		t.Fatal(err)
	}
	book := printed(t, string(text), "")
	good := string(book.Files[0].Data)
	for _, x := range []struct{ code, from, to string }{
		{"S1", "Sizes: XS (S, M, L, XL)", "Sizes: S (XS, M, L, XL)"},
		{"S2", "CO 60 (64, 64, 68, 72) sts", "CO 60 (60, 60, 60, 60) sts"},
		{"S3", "CO 60 (64, 64, 68, 72) sts", "CO 60 (64, 68, 72) sts"},
		{"S4", "Cast on loosely", "Cast on (loosely)"},
		{"S4", "Rnd 4: Knit.", "Rnd 4: Knit [all]."},
		{"S6", "Rnd 4: Knit.", "Sizes S and XS only:\nRnd 4: Knit."},
		{"S9", "CO 60 (64, 64, 68, 72) sts", "CO 60 (64,64, 68, 72) sts"},
		{"R1", "Row 1 (RS): Sl 1, k to end.", "Rnd 1: Sl 1, k to end."},
		{"R2", "Row 1 (RS): Sl 1, k to end.", "Row 1: Sl 1, k to end."},
		{"R2", "Rnd 4: Knit.", "Rnd 4: Knit"},
		{"R3", "Rnd 4: Knit.", "Rnd 5: Knit."},
		{"R4", "Rnd 4: Knit.", "Rnd 4: Knit as set."},
		{"R5", "p2tog, p to end. 1 st dec'd.", "p2tog, p to end."},
		{"R9", "; rep from * to end", ""},
		{"R10", "60 (64, 64, 68, 72) sts: 15 (16, 16, 17, 18) on N1", "60 (64, 64, 68, 72) sts: 16 (16, 16, 17, 18) on N1"},
		{"R12", "14 (16, 16, 16, 18) rows in all. ", ""},
		{"F1", "Ease in foot length: ", "Ease in foot length: 1"},
		{"F2", " in [13.4 (", " in [15.4 ("},
		{"F2", "leaving about 12 in [30 cm]", "leaving about 12 in"},
		{"F3", "US 1 [2.25 mm]", "US 1"},
		{"F4", "in stockinette worked in the round, after washing", "in stockinette"},
		{"F8", "\nssk: ", "\nskp: "},
		{"F8", "Rnd 4: Knit.", "Rnd 4: Knit, M1L."},
		{"F9", "as if to purl unless told otherwise", "unless told otherwise"},
		{"F10", "US knitting terms", "Knitting terms"},
		{"P2", "A cuff-down sock", "A sock"},
		{"P5", "\nBAND\n", "\nTURN\n"},
		{"W1", "Sl 1, k1, sm, k8", "Sl 1, k2, sm, k8"},
		{"A15", "Rnd 4: Knit.", "RND 4: KNIT."},
		{"A16", "Work Row 2 once more.", "Work Row 2 1 more times."},
		{"A22", "Rnd 4: Knit.", "Rnd 4: Knit ½ & stop."},
		{"H", "Rnd 4: Knit.", "Rnd 4: Purl."},
	} {
		if strings.Count(good, x.from) == 0 {
			t.Errorf("%s: %q does not stand in the page", x.code, x.from)
			continue
		}
		p := readPage(book, strings.Replace(good, x.from, x.to, 1))
		found := false
		for _, c := range checks {
			if c.code == x.code {
				c.find(p, func(string, ...any) { found = true })
			}
		}
		if !found {
			t.Errorf("%s does not notice %q in the place of %q", x.code, x.to, x.from)
		}
	}
}

// Sizes in the text.

func smallestFirst(p *page, wrong func(string, ...any)) {
	names := p.book.Pattern.Sizes
	if !slices.Equal(p.sizes, names) {
		wrong("the sizes are printed as %v, want %v", p.sizes, names)
	}
	for _, label := range []string{"To fit foot circumference, at the ball", "To fit foot length", "Finished foot circumference", "Finished foot length"} {
		inches, _, _ := strings.Cut(p.fact("SIZES", label), " in [")
		last := 0.0
		for _, v := range values(inches) {
			if n := amount(v); !(n >= last) {
				wrong("%s falls from size to size or cannot be read: %s", label, inches)
			} else {
				last = n
			}
		}
	}
	if n := len(p.sizes); n > 1 && !strings.Contains(p.text, "the smallest comes first") {
		wrong("it is not told that the smallest size comes first")
	}
}

func onceForAll(p *page, wrong func(string, ...any)) {
	p.each(func(_ *chapter, line string) {
		for _, s := range list.FindAllString(line, -1) {
			if v := values(s); !slices.ContainsFunc(v, func(x string) bool { return x != v[0] }) {
				wrong("all values of %q are the same: %s", s, line)
			}
		}
	})
}

func asManyAsSizes(p *page, wrong func(string, ...any)) {
	p.each(func(c *chapter, line string) {
		if p.designers(c, line) {
			return
		}
		for _, s := range list.FindAllString(line, -1) {
			if n := len(values(s)); n != len(p.sizes) {
				wrong("%q has %d values for %d sizes: %s", s, n, len(p.sizes), line)
			}
		}
		outside := list.ReplaceAllString(line, "")
		if strings.Contains(outside, "–") {
			wrong("a dash stands outside a list: %s", line)
		}
	})
}

// asides are the round brackets that hold neither sizes, sides, needles nor an ending that
// may be left off.
var asides = []string{
	"(behind in RS rows, in front in WS rows)",
	"(for 2 sts, one at each side of the gap)",
}

var (
	roundBracket = regexp.MustCompile(`\([^()]*\)`)
	inMM         = regexp.MustCompile(`\[[\d.]+ mm\]`)
	bracketed    = regexp.MustCompile(`\[[^\[\]]*\] (` + one + `(?: \([^()]*\))? times|once)`)
	starred      = regexp.MustCompile(`; rep from \* to (end|last ` + one + `|last st|gap|` + one + ` sts? before gap)`)
	inAll        = regexp.MustCompile(`\d (rows?|rnds?) in all\.| has \d+ rows`)
	oneStep      = regexp.MustCompile(`^([kKpP]\d*|N\d)$`)
	word         = regexp.MustCompile(`[A-Za-z][A-Za-z0-9'-]*`)
	none         = regexp.MustCompile(`\b[kKpP] ?0\b|\[[^\]]*\] 0 |(Knit|Work .*) 0 (more )?(times|rnds|rows)\b`)
	labelled     = regexp.MustCompile(`(^|\. )(Set-up |Next |Partial )?([Rr]ow|[Rr]nd)( \d+)?( \((RS|WS)\))?: `)
	lengthPair   = regexp.MustCompile(`(` + one + `(?: \(` + one + `(?:, ` + one + `)*\))?) in \[(` + one + `(?: \(` + one + `(?:, ` + one + `)*\))?) cm\]`)
	gaugeOver    = regexp.MustCompile(`[\d.]+ stitches and [\d.]+ (rounds|rows) over ` + one + ` in \[[\d.]+ cm\]`)
	gaugePair    = regexp.MustCompile(`([\d.]+) stitches and ([\d.]+) (rounds|rows) over (4 in \[([\d.]+) and ([\d.]+) over 10 cm|10 cm \[([\d.]+) and ([\d.]+) over 4 in)\]`)
)

func brackets(p *page, wrong func(string, ...any)) {
	p.each(func(c *chapter, line string) {
		if p.designers(c, line) {
			return
		}
		rest := line
		for _, a := range asides {
			rest = strings.ReplaceAll(rest, a, "")
		}
		names := p.sizes[0]
		if len(p.sizes) > 1 {
			names += " (" + strings.Join(p.sizes[1:], ", ") + ")"
		}
		if strings.HasPrefix(line, "Sizes: ") || strings.Contains(line, "follow in parentheses: ") {
			rest = strings.Replace(rest, names, "", 1)
		}
		if strings.HasPrefix(line, "To fit ") && strings.Contains(line, "shoes: ") || strings.HasPrefix(line, "Ease in ") {
			if m := roundBracket.FindString(rest); m != "" && strings.Count(m, ", ") == len(p.sizes)-2 {
				rest = strings.Replace(rest, m, "", 1)
			}
		}
		rest = list.ReplaceAllString(rest, "")
		if m := label.FindString(rest); m != "" {
			rest = strings.TrimPrefix(rest, m) // with its side
		}
		if c.title == "ABBREVIATIONS" {
			rest = strings.ReplaceAll(rest, "(s)", "")
		}
		for _, n := range []string{"(N1)", "(N2)", "(N3)"} {
			rest = strings.ReplaceAll(rest, n, "")
		}
		if strings.ContainsAny(rest, "()") {
			wrong("round brackets that hold no sizes: %s", line)
		}
		// Square brackets: repeats in rows, the metric measure behind one in inches, of needles
		// the diameter.
		rest = lengthPair.ReplaceAllString(line, "")
		rest = gaugePair.ReplaceAllString(rest, "")
		if strings.HasPrefix(line, "Needles: ") {
			rest = inMM.ReplaceAllString(rest, "")
		}
		if label.MatchString(line) {
			rest = bracketed.ReplaceAllString(rest, "")
		}
		if c.title == "ABBREVIATIONS" {
			rest = strings.TrimPrefix(rest, "[ ]: ")
		}
		if strings.ContainsAny(rest, "[]") {
			wrong("square brackets that hold neither a repeat nor a metric measure: %s", line)
		}
	})
}

func someSizes(p *page, wrong func(string, ...any)) {
	for _, c := range p.chapters {
		inGroup := false
		var names []string
		for i, line := range c.lines {
			switch m := onlyLine.FindStringSubmatch(line); {
			case m != nil:
				inGroup = true
				names = strings.Split(strings.Replace(m[1], " and ", ", ", 1), ", ")
				at := -1
				for _, n := range names {
					next := slices.Index(p.sizes, n)
					if next <= at {
						wrong("%q does not name sizes in order", line)
					}
					at = next
				}
				if len(names) == len(p.sizes) {
					wrong("%q names all sizes", line)
				}
				if i+1 == len(c.lines) || onlyLine.MatchString(c.lines[i+1]) || c.lines[i+1] == "All sizes:" {
					wrong("%q has no lines", line)
				}
			case line == "All sizes:":
				if !inGroup || i+1 == len(c.lines) {
					wrong("section %s has “All sizes:” where nothing calls for it", c.title)
				}
				inGroup = false
			case inGroup:
				for _, s := range list.FindAllString(line, -1) {
					for size, v := range values(s) {
						if size < len(p.sizes) && slices.Contains(names, p.sizes[size]) == (v == "–") {
							wrong("%q in a line for %v only: the others have a dash: %s", s, names, line)
						}
					}
				}
			case strings.Contains(line, "–"):
				wrong("a size has nothing to do in a line for all: %s", line)
			}
		}
	}
}

func spaces(p *page, wrong func(string, ...any)) {
	p.each(func(c *chapter, line string) {
		if p.designers(c, line) {
			return
		}
		for _, m := range roundBracket.FindAllString(line, -1) {
			if m[1] == ' ' || m[len(m)-2] == ' ' {
				wrong("space inside the brackets: %s", line)
			}
			for _, part := range strings.Split(m, ",")[1:] {
				if !strings.HasPrefix(part, " ") || strings.HasPrefix(part, "  ") {
					wrong("not one space after a comma: %s", line)
				}
			}
		}
		if strings.Count(line, "(") != strings.Count(line, ")") || strings.Count(line, "[") != strings.Count(line, "]") {
			wrong("brackets are open at the end of the line: %s", line)
		}
	})
}

// Rows, rounds and counts.

func rowOrRound(p *page, wrong func(string, ...any)) {
	for _, title := range worked {
		flat := title == "HEEL FLAP" || title == "BAND" || title == "HEEL TURN"
		for _, line := range p.chapter(title).lines {
			m := label.FindStringSubmatch(line)
			if m == nil {
				continue
			}
			row := strings.HasSuffix(m[1], "ow")
			if row != flat && m[1] != "Partial row" {
				wrong("section %s: %s", title, line)
			}
		}
	}
	if heel := strings.Join(p.chapter("HEEL FLAP").lines, " "); !strings.Contains(heel, "in rows") {
		wrong("the heel does not say that it is worked in rows")
	}
	if gusset := strings.Join(p.chapter("GUSSET").lines, " "); !strings.Contains(gusset, "in the round") {
		wrong("the gusset does not say that it is worked in the round")
	}
}

func labels(p *page, wrong func(string, ...any)) {
	page := string(p.book.Files[1].Data)
	p.instructions(func(_ *chapter, line string) {
		if !strings.HasSuffix(line, ".") {
			wrong("no full stop: %s", line)
		}
		m := label.FindStringSubmatch(line)
		if m == nil {
			return
		}
		if row := strings.HasSuffix(m[1], "ow"); row != (m[3] != "") {
			wrong("a row is told with its side, a round without: %s", line)
		}
		if !strings.Contains(strings.ReplaceAll(page, "\u00a0", " "), "<b>"+strings.TrimSuffix(m[0], " ")+"</b>") {
			wrong("the page does not set %q in bold", m[0])
		}
	})
}

func numbering(p *page, wrong func(string, ...any)) {
	for _, title := range p.worked() {
		last := map[string]int{} // "Set-up row" is counted for itself
		fresh := true            // in a group for some sizes numbers may start anew
		for _, line := range p.chapter(title).lines {
			if onlyLine.MatchString(line) || sockLine.MatchString(line) || line == "All sizes:" {
				fresh = true
			}
			m := label.FindStringSubmatch(line)
			if m == nil || m[2] == "" {
				continue
			}
			n, _ := strconv.Atoi(strings.TrimSpace(m[2]))
			if n != last[m[1]]+1 && !(fresh && n <= last[m[1]]) {
				wrong("section %s: number %d follows %d: %s", title, n, last[m[1]], line)
			}
			last[m[1]], fresh = n, false
		}
	}
}

func noContinuing(p *page, wrong func(string, ...any)) {
	p.instructions(func(_ *chapter, line string) {
		for _, s := range []string{"as set", "as established", "in pattern", "as before", "continu", "work even", "t the same time"} {
			if strings.Contains(line, s) && !strings.HasPrefix(line, "BO all ") {
				wrong("%q: %s", s, line)
			}
		}
	})
}

var (
	shaping    = regexp.MustCompile(`\b(k2tog|ssk|p2tog|ssp|M1[LR]?|pick up and k)\b`)
	changeSaid = regexp.MustCompile(` \d+ sts? (dec|inc)'d\.`)
	totalSaid  = regexp.MustCompile(`\. ` + one + `( \([^()]*\))? sts?(: [^:]*)?\.$`)
	workLast   = regexp.MustCompile(`^(?:Work|Do not repeat) the last (?:(\d+) )?(rows?|rnds?)\b`)
	workThe    = regexp.MustCompile(`^(?:Work|Do not repeat) ((?:Row|Rnd) \d+)\b`)
)

func countsTold(p *page, wrong func(string, ...any)) {
	for _, title := range p.worked() {
		lines := p.chapter(title).lines
		var rows []int               // lines that are rows, so far
		repeated := map[int]string{} // the line that repeats it
		for i, line := range lines {
			switch {
			case label.MatchString(line) || plainRounds.MatchString(line):
				rows = append(rows, i)
			case workLast.MatchString(line):
				n := 1
				if m := workLast.FindStringSubmatch(line); m[1] != "" {
					n, _ = strconv.Atoi(m[1])
				}
				shapes, last := false, ""
				for i := len(rows) - 1; i >= 0; i-- {
					r := rows[i]
					if name := label.FindString(lines[r]); name == "" || name != last { // sizes may have the same row in other words
						if n--; n < 0 {
							break
						}
						last = name
					} else if !changeSaid.MatchString(lines[r]) {
						continue
					}
					repeated[r] = line
					shapes = shapes || shaping.MatchString(lines[r])
				}
				counted := totalSaid.MatchString(line) || i+2 < len(lines) && slices.ContainsFunc(lines[i+1:min(len(lines), i+4)], func(l string) bool { return strings.HasPrefix(l, "Work in the round again") })
				if shapes && !counted {
					wrong("no count after the last repeat: %s", line)
				}
			case workThe.MatchString(line):
				name := workThe.FindStringSubmatch(line)[1]
				for j := len(rows) - 1; j >= 0; j-- {
					if m := label.FindStringSubmatch(lines[rows[j]]); m != nil && m[1]+m[2] == name {
						repeated[rows[j]] = line
						if shaping.MatchString(lines[rows[j]]) && !totalSaid.MatchString(line) {
							wrong("no count after the last repeat: %s", line)
						}
						break
					}
				}
			}
		}
		for _, r := range rows {
			line := lines[r]
			if !shaping.MatchString(line) {
				continue
			}
			_, again := repeated[r]
			change := changeSaid.MatchString(line)
			countNext := r+1 < len(lines) && workThe.MatchString(lines[r+1]) && totalSaid.MatchString(lines[r+1])
			switch {
			case again && !change:
				wrong("worked again later, but does not tell the change: %s", line)
			case !again && !totalSaid.MatchString(line) && !(change && countNext):
				wrong("worked once, but does not tell the new count: %s", line)
			}
		}
	}
}

var plainRounds = regexp.MustCompile(`^(Knit|Purl) \d`)

func repeats(p *page, wrong func(string, ...any)) {
	p.instructions(func(_ *chapter, line string) {
		stars, ends := strings.Count(line, "*"), len(starred.FindAllString(line, -1))
		if stars != 2*ends {
			wrong("an asterisk without “rep from * to …”: %s", line)
		}
	})
}

var (
	onNeedles = regexp.MustCompile(`(\d+) sts: ((?:\d+ on N\d(?:, )?)+)\.$`)
	arranged  = regexp.MustCompile(`^Arrange the sts: ((?:\d+ on N\d(?:, )?)+)\.$`)
	onNeedle  = regexp.MustCompile(`(\d+) on N(\d)`)
	lastCount = regexp.MustCompile(`\. (\d+) sts?(?:: [^:]*)?\.$`)
)

func needleSums(p *page, wrong func(string, ...any)) {
	for size, name := range p.sizes {
		total := ""
		said := map[string]bool{}
		p.lines(size, func(c *chapter, line string) {
			if !instruction.MatchString(line) {
				return
			}
			m := onNeedles.FindStringSubmatch(line)
			if a := arranged.FindStringSubmatch(line); a != nil {
				m = []string{line, total, a[1]}
			}
			if m != nil {
				said[c.title] = true
				sum := 0
				for i, x := range onNeedle.FindAllStringSubmatch(m[2], -1) {
					n, _ := strconv.Atoi(x[1])
					sum += n
					if x[2] != strconv.Itoa(i+1) {
						wrong("needles are out of order: %s", line)
					}
				}
				if fmt.Sprint(sum) != m[1] {
					wrong("size %s: the needles hold %d, not %s: %s", name, sum, m[1], line)
				}
			}
			if x := lastCount.FindStringSubmatch(line); x != nil {
				total = x[1]
			}
		})
		if !said["GUSSET"] || !said["TOE"] {
			wrong("size %s: the counts of the needles are told in %v, want gusset and toe", name, said)
		}
	}
	last := func(title, what string) {
		for size := range p.sizes {
			final := ""
			p.lines(size, func(c *chapter, line string) {
				if c.title == title && lastCount.MatchString(line) {
					final = line
				}
			})
			if !onNeedles.MatchString(final) {
				wrong("size %s: the last count of the %s does not tell the needles: %s", p.sizes[size], what, final)
			}
		}
	}
	last("GUSSET", "gusset")
	last("TOE", "toe")
}

// lines calls do with every line of a size, lists replaced by its values.
func (p *page) lines(size int, do func(c *chapter, line string)) {
	if p.bySize[size] == nil {
		p.bySize[size] = p.forSize(size)
	}
	for _, c := range p.bySize[size] {
		for _, line := range c.lines {
			do(c, line)
		}
	}
}

func (p *page) forSize(size int) (out []*chapter) {
	for _, c := range p.chapters {
		here := true
		mine := &chapter{title: c.title}
		out = append(out, mine)
		for _, line := range c.lines {
			if m := onlyLine.FindStringSubmatch(line); m != nil {
				here = slices.Contains(strings.Split(strings.Replace(m[1], " and ", ", ", 1), ", "), p.sizes[size])
				continue
			}
			if line == "All sizes:" || sockLine.MatchString(line) {
				here = line != "Left sock only:" // the two are told alike; one stands for both
				continue
			}
			if here {
				mine.lines = append(mine.lines, forSize(line, size))
			}
		}
	}
	return out
}

func roundsTold(p *page, wrong func(string, ...any)) {
	for _, title := range p.worked() {
		for size, name := range p.sizes {
			repeats, told := false, false
			p.lines(size, func(c *chapter, line string) {
				if c.title == title {
					repeats = repeats || workLast.MatchString(line) || workThe.MatchString(line)
					told = told || inAll.MatchString(line)
				}
			})
			if repeats && !told {
				wrong("size %s: section %s repeats rows and does not tell how many there are in all", name, title)
			}
		}
	}
}

// Facts before the instructions.

func toFitAndFinished(p *page, wrong func(string, ...any)) {
	for _, x := range [][3]string{
		{"To fit foot circumference, at the ball", "Finished foot circumference", "Ease in circumference"},
		{"To fit foot length", "Finished foot length", "Ease in foot length"},
	} {
		body, finished, ease := p.fact("SIZES", x[0]), p.fact("SIZES", x[1]), p.fact("SIZES", x[2])
		if body == "" || finished == "" || ease == "" {
			wrong("%s, %s and %s are not all told", x[0], x[1], x[2])
			continue
		}
		cm := func(s string) []string {
			m := lengthPair.FindStringSubmatch(s)
			if m == nil {
				return nil
			}
			return values(m[2])
		}
		for size := range p.sizes {
			at := func(v []string) float64 {
				if len(v) == 0 {
					return math.NaN()
				}
				return amount(strings.TrimSuffix(v[min(size, len(v)-1)], "%"))
			}
			want := 100 * (at(cm(finished))/at(cm(body)) - 1)
			if got := at(values(ease)); !(math.Abs(got-want) <= 1.5) { // all three are rounded
				wrong("%s is %s, but %s for a foot of %s is %.1f%%", x[2], ease, finished, body, want)
			}
		}
		if strings.Contains(ease, "-0") {
			wrong("%s: %s", x[2], ease)
		}
	}
	for _, label := range []string{"To fit calf circumference, at its widest", "Finished calf circumference"} {
		if told, calf := p.fact("SIZES", label) != "", p.book.Draft.Calf != nil; told != calf {
			wrong("%s is told: %v, and the leg is shaped for a calf: %v", label, told, calf)
		}
	}
	if !slices.ContainsFunc(p.chapter("SIZES").lines, func(line string) bool {
		return strings.HasPrefix(line, "Finished leg length, from the ") && strings.Contains(line, " to the heel: ")
	}) {
		wrong("the leg length is not told")
	}
}

func bothUnits(p *page, wrong func(string, ...any)) {
	inches, cm := regexp.MustCompile(`[\d)] in\b( the corner| all\b| front\b)?`), regexp.MustCompile(`[\d)] (cm|mm)\b`)
	p.each(func(c *chapter, line string) {
		if p.designers(c, line) {
			return
		}
		for _, m := range lengthPair.FindAllStringSubmatch(line, -1) {
			in, cm := values(m[1]), values(m[2])
			for size := range p.sizes {
				a, b := in[min(size, len(in)-1)], cm[min(size, len(cm)-1)]
				if a == "–" && b == "–" {
					continue
				}
				near := 25.4/16 + 0.5 // each is rounded: to an eighth of an inch, to a millimetre
				if strings.Contains(line, "about "+m[0]) {
					near += 4.5 // to a centimetre
				}
				if off := math.Abs(amount(a)*25.4 - amount(b)*10); !(off <= near+1e-6) {
					wrong("%s in are not %s cm: %s", a, b, line)
				}
			}
		}
		for _, m := range gaugePair.FindAllStringSubmatch(line, -1) {
			for i := range 2 {
				a, b, longer := m[1+i], m[5+i], 1/1.016
				if b == "" {
					b, longer = m[7+i], 1.016
				}
				if !(math.Abs(amount(a)*longer-amount(b)) <= 0.26) { // the second is to half a stitch
					wrong("%s are not %s over the other length: %s", a, b, line)
				}
			}
		}
		rest := gaugePair.ReplaceAllString(lengthPair.ReplaceAllString(line, ""), "")
		for _, m := range inches.FindAllStringSubmatch(rest, -1) {
			if m[1] == "" {
				wrong("inches without centimetres: %s", line)
			}
		}
		if c.title != "MATERIALS AND GAUGE" && cm.MatchString(rest) || strings.Contains(cm.FindString(rest), "cm") {
			wrong("a metric length without inches: %s", line)
		}
	})
}

func needles(p *page, wrong func(string, ...any)) {
	line := p.fact("MATERIALS AND GAUGE", "Needles")
	if line == "" || !strings.Contains(line, "gives the gauge") {
		wrong("the needles are %q", line)
	}
	if p.book.Draft.Needle.MM > 0 && !regexp.MustCompile(`US [\d.]+ \[[\d.]+ mm\]`).MatchString(line) {
		wrong("the needles are %q, not both in US number and mm", line)
	}
}

func gauge(p *page, wrong func(string, ...any)) {
	for _, x := range []struct{ fabric, rows string }{{"", "rounds"}, {"rib", "rounds"}, {"garter", "rounds"}, {"flap", "rows"}} {
		if _, known := p.book.Draft.Gauge[x.fabric]; !known {
			continue
		}
		name, how := "Gauge", "in stockinette worked in the round, after washing"
		if x.fabric != "" {
			name, how = "Gauge, "+x.fabric, "after washing"
		}
		line := p.fact("MATERIALS AND GAUGE", name)
		counts := ""
		if m := gaugePair.FindStringSubmatch(line); m != nil {
			counts = m[3]
		} else if m := gaugeOver.FindStringSubmatch(line); m != nil { // over another length than 4 in
			counts = m[1]
		}
		if counts == "" || !strings.Contains(line, how) {
			wrong("%s: %q", name, line)
		} else if counts != x.rows {
			wrong("%s counts %s, and this fabric has %s: %q", name, counts, x.rows, line)
		}
	}
	if !strings.Contains(p.fact("MATERIALS AND GAUGE", "Gauge"), "Change the needle size") { // F5
		wrong("it is not told that the needle is to be changed")
	}
}

// uses tell how an abbreviation stands in a text. Some are English words as well.
var uses = map[string]*regexp.Regexp{
	"k":             regexp.MustCompile(`\b[kK](\d| to )`),
	"p":             regexp.MustCompile(`\b[pP](\d| to )`),
	"k2tog":         regexp.MustCompile(`\b[kK]2tog\b`),
	"p2tog":         regexp.MustCompile(`\bp2tog\b`),
	"ssk":           regexp.MustCompile(`\bssk\b`),
	"ssp":           regexp.MustCompile(`\bssp\b`),
	"sl":            regexp.MustCompile(`\b[sS]l\b`),
	"M1L":           regexp.MustCompile(`\bM1L\b`),
	"M1R":           regexp.MustCompile(`\bM1R\b`),
	"pick up and k": regexp.MustCompile(`\bpick up and k\b`),
	"pm":            regexp.MustCompile(`\bpm\b`),
	"sm":            regexp.MustCompile(`\bsm\b`),
	"m":             regexp.MustCompile(`\b(to|remove) m\b`),
	"turn":          regexp.MustCompile(`, turn\.|\bTurn at\b`),
	"rep":           regexp.MustCompile(`\brep\b`),
	"*":             regexp.MustCompile(`\*`),
	"[ ]":           regexp.MustCompile(`\[[^\]]*\] (\d|once)`),
	"rnd(s)":        regexp.MustCompile(`\b[rR]nds?\b`),
	"st(s)":         regexp.MustCompile(`\bsts?\b`),
	"tbl":           regexp.MustCompile(`\btbl\b`),
	"CO":            regexp.MustCompile(`\bCO\b`),
	"graft":         regexp.MustCompile(`\b[gG]raft\b`),
	"RS":            regexp.MustCompile(`\bRS\b`),
	"WS":            regexp.MustCompile(`\bWS\b`),
	"dec'd":         regexp.MustCompile(`\bdec'd\b`),
	"inc'd":         regexp.MustCompile(`\binc'd\b`),
	"dec":           regexp.MustCompile(`\b[dD]ec (row|rnd)\b`),
	"inc":           regexp.MustCompile(`\b[iI]nc (row|rnd)\b`),
	"in":            regexp.MustCompile(`[\d)] in \[`),
	"cm":            regexp.MustCompile(`\bcm\b`),
	"BO":            regexp.MustCompile(`\bBO\b`),
	"yo":            regexp.MustCompile(`\b[yY]os?\b`),
	"DS":            regexp.MustCompile(`\bDS\b`),
	"skp":           regexp.MustCompile(`\bskp\b`),
	"kfb":           regexp.MustCompile(`\bkfb\b`),
	"RPC":           regexp.MustCompile(`\bRPC\b`),
	"LPC":           regexp.MustCompile(`\bLPC\b`),
	"LLI":           regexp.MustCompile(`\bLLI\b`),
	"RLI":           regexp.MustCompile(`\bRLI\b`),
	"k3tog":         regexp.MustCompile(`\bk3tog\b`),
	"s2kp2":         regexp.MustCompile(`\bs2kp2\b`),
	"LT":            regexp.MustCompile(`\bLT\b`),
	"RT":            regexp.MustCompile(`\bRT\b`),
	"C4F":           regexp.MustCompile(`\bC4F\b`),
	"C6B":           regexp.MustCompile(`\bC6B\b`),
	"wyif":          regexp.MustCompile(`\bwyif\b`),
	"pick up and p": regexp.MustCompile(`\bpick up and p\b`),
	threeIn1:        regexp.MustCompile(`\(k1, yo, k1\) in 1`),
}

// threeIn1 is one abbreviation, whatever stands in its brackets.
const threeIn1 = "(k1, yo, k1) in 1"

// plain are the other words that lines are worked by: with the abbreviations, all there are.
var plain = strings.Fields(`Row Rnd row rows Set-up Next Partial Work Knit Purl knit purl the last more times again once on each of next
	or until cuff leg foot heel measures from cast-on edge fold of beginning end rib points hem in all Join to work round without twisting The begins at center back side sole instep
	before sts now here are worked other rest for first Arrange Remove stitch markers as you come them and along left right corner end
	Graft remove pick Pick up gap wrapped wrap its twin make with CO edge waste yarn sock again back forth rows rest
	half each two needles closed start a ring that is drawn shut provisionally Undo provisional take sts Take out put below it above on over
	BO Do not repeat pattern stretchy sewn tubular bind-off Draw twice through pull together Bind off tip toe rib dec inc is stitch over a multiple`)

func abbreviations(p *page, wrong func(string, ...any)) {
	var explained []string
	for _, line := range p.chapter("ABBREVIATIONS").lines {
		short, _, _ := strings.Cut(line, ": ")
		explained = append(explained, short)
		if uses[short] == nil {
			wrong("%q is explained; it is not known here how it stands in a text", short)
		}
	}
	// Units of yarn and of needles stand in the materials as on the label; they are not counted.
	var text strings.Builder
	for _, c := range p.chapters {
		if c.title == "NOTES" || c.title == "FINISHING" || c.worked() {
			text.WriteString(strings.Join(c.lines, "\n") + "\n")
		}
	}
	for short, use := range uses {
		words := text.String()
		if short != threeIn1 {
			words = strings.ReplaceAll(words, threeIn1, "")
		}
		if used := use.MatchString(words); used != slices.Contains(explained, short) {
			wrong("%q is used: %v, explained: %v", short, used, !used)
		}
	}
	if !slices.IsSortedFunc(explained, func(a, b string) int { return strings.Compare(strings.ToLower(a), strings.ToLower(b)) }) {
		wrong("the list is out of order: %v", explained)
	}
	p.instructions(func(_ *chapter, line string) {
		if name := label.FindString(line); name != "" {
			line = strings.TrimPrefix(line, name)
		}
		line = strings.ReplaceAll(line, threeIn1, "")
		for _, m := range p.motifs() {
			line = strings.ReplaceAll(line, m.name, "")
		}
		for _, w := range word.FindAllString(line, -1) {
			known := slices.Contains(plain, w) || oneStep.MatchString(w)
			for short := range uses {
				for _, s := range []string{strings.TrimSuffix(short, "(s)"), strings.Replace(short, "(s)", "s", 1)} {
					known = known || w == s || strings.EqualFold(w, s) && strings.ToLower(s) == s
				}
			}
			if !known {
				wrong("%q is neither an abbreviation nor a word that rows are told with: %s", w, line)
			}
		}
	})
}

func disputed(p *page, wrong func(string, ...any)) {
	for short, must := range map[string]string{"M1L": "back loop", "M1R": "front loop", "sl": "as if to purl", "m": "marker", "ssk": "through the back loops", "pick up and k": "new knit stitch"} {
		if line := p.fact("ABBREVIATIONS", short); line != "" && !strings.Contains(line, must) {
			wrong("%s: %s: it is not told %q", short, line, must)
		}
	}
	slips, inRows := false, false
	p.instructions(func(_ *chapter, line string) {
		if name := label.FindString(line); uses["sl"].MatchString(line) {
			slips, inRows = true, inRows || strings.Contains(name, "ow ")
		}
	})
	where := "with the yarn behind"
	if inRows {
		where = "with the yarn on the wrong side"
	}
	notes := strings.Join(p.chapter("NOTES").lines, " ")
	if told := strings.Contains(notes, "as if to purl") && strings.Contains(notes, where); told != slips {
		wrong("stitches are slipped: %v; the notes tell how, and where the yarn is: %v", slips, told)
	}
}

func english(p *page, wrong func(string, ...any)) {
	if !strings.Contains(strings.Join(p.chapters[0].lines, " "), "US knitting terms") {
		wrong("the heading does not say “US knitting terms”")
	}
}

// Order.

func construction(p *page, wrong func(string, ...any)) {
	if len(p.chapters[0].lines) == 0 {
		wrong("nothing stands before the first section")
		return
	}
	first := p.chapters[0].lines[0]
	for _, s := range []string{"cuff-down", "heel", "gusset", "toe"} {
		if !strings.Contains(first, s) {
			wrong("the first paragraph does not speak of %q: %s", s, first)
		}
	}
}

func order(p *page, wrong func(string, ...any)) {
	var titles []string
	motifs := p.motifs()
	for i, c := range p.chapters[1:] {
		if slices.ContainsFunc(motifs, func(m toldMotif) bool { return m.in == c }) {
			if next := p.chapters[i+2].title; next != "LEG" {
				wrong("a stitch pattern of the leg stands before %s", next)
			}
			continue
		}
		titles = append(titles, c.title)
	}
	want := []string{"SIZES", "MATERIALS AND GAUGE", "ABBREVIATIONS", "NOTES"}
	plans := map[string][]string{"BAND": {"heel.band_rows", "heel.whole_rows"}, "HEEL TURN": {"heel.turn_rows"}}
	for _, title := range worked {
		keys := plans[title]
		if keys == nil || slices.ContainsFunc(keys, func(key string) bool { return p.book.Draft.Model.Find(key) != nil }) {
			want = append(want, title)
		}
	}
	want = append(want, "FINISHING")
	if !slices.Equal(titles, want) {
		wrong("the sections are %v, want %v", titles, want)
	}
}

// A toldMotif is a stitch pattern and the chapter that tells it.
type toldMotif struct {
	name string
	in   *chapter
}

func (p *page) motifs() (told []toldMotif) {
	p.each(func(c *chapter, line string) {
		if name, _, ok := strings.Cut(line, " is a stitch pattern over "); ok {
			told = append(told, toldMotif{name, c})
		}
	})
	return told
}

// words counts what is worked and works the heel's rows by hand.
func words(p *page, wrong func(string, ...any)) {
	if !p.book.Proof.Proven() || p.book.Proof.Text.Text != p.text {
		wrong("these are not the words that were proven")
	}
	n := 0
	p.instructions(func(*chapter, string) { n++ })
	if n != p.book.Proof.Read.Worked {
		wrong("%d lines are worked by their look, but %d were", n, p.book.Proof.Read.Worked)
	}
	p.instructions(func(_ *chapter, line string) {
		if none.MatchString(line) {
			wrong("none is to be worked: %s", line)
		}
	})
	for size := range p.sizes {
		h := &heel{wrong: func(format string, args ...any) {
			wrong("size %s: "+format, append([]any{p.sizes[size]}, args...)...)
		}}
		p.lines(size, h.line)
		if h.rows == 0 {
			wrong("size %s: the heel has no rows", p.sizes[size])
		}
	}
}

// A heel is the stitches and markers of the heel in the order in which they are worked
// next; a true entry is a stitch.
type heel struct {
	needle []bool
	behind []bool   // on the other needle, past the place where the row before was turned
	done   []string // rows so far, in this chapter
	title  string
	rows   int
	wrong  func(format string, args ...any)
}

var (
	heelStitches = regexp.MustCompile(`^The (?:last|first) (\d+) sts .* are the heel`)
	flapRepeat   = regexp.MustCompile(`\*([^*]*); rep from \* to (end|last st|last (\d+) sts)|([^*, ][^*,]*)`)
	moreTimes    = regexp.MustCompile(` (\d+) more times| (once) more`)
	rowState     = regexp.MustCompile(`^(.*?)\.(?: (\d+) sts? dec'd\.)?(?: (\d+) sts?\.)?$`)
)

// line works a line of the heel.
func (h *heel) line(c *chapter, line string) {
	if c.title != "HEEL FLAP" && c.title != "BAND" && c.title != "HEEL TURN" {
		return
	}
	if c.title != h.title {
		h.title, h.done = c.title, nil
	}
	if m := heelStitches.FindStringSubmatch(line); m != nil {
		n, _ := strconv.Atoi(m[1])
		h.needle, h.behind = make([]bool, n), nil
		for i := range h.needle {
			h.needle[i] = true
		}
		return
	}
	if strings.HasPrefix(line, "Remove the stitch markers") {
		h.needle = slices.DeleteFunc(h.needle, func(stitch bool) bool { return !stitch })
		return
	}
	again := 0
	if m := moreTimes.FindStringSubmatch(line); m != nil {
		again, _ = strconv.Atoi(m[1])
		if m[2] == "once" {
			again = 1
		}
	}
	switch {
	case h.needle == nil:
	case label.MatchString(line):
		h.row(line)
		if m := rowState.FindStringSubmatch(line); m != nil && m[3] != "" && m[3] != fmt.Sprint(h.live()) {
			h.wrong("%d stitches are there after the first time: %s", h.live(), line)
		}
		h.done = append(h.done, line)
	case workLast.MatchString(line):
		n := 1
		if m := workLast.FindStringSubmatch(line); m[1] != "" {
			n, _ = strconv.Atoi(m[1])
		}
		rows := h.done[len(h.done)-n:]
		for range again {
			for _, row := range rows {
				h.row(row)
			}
		}
		h.count(line)
	case workThe.MatchString(line):
		name := workThe.FindStringSubmatch(line)[1]
		for i := len(h.done) - 1; i >= 0; i-- {
			if strings.HasPrefix(h.done[i], name+" ") {
				for range again {
					h.row(h.done[i])
				}
				break
			}
		}
		h.count(line)
	}
}

func (h *heel) live() (n int) {
	for _, stitch := range slices.Concat(h.needle, h.behind) {
		if stitch {
			n++
		}
	}
	return n
}

// count holds the count at the end of a line against what is there.
func (h *heel) count(line string) {
	if m := lastCount.FindStringSubmatch(line); m != nil && m[1] != fmt.Sprint(h.live()) {
		h.wrong("%d stitches are there after: %s", h.live(), line)
	}
}

// row works a row, every step of which must have stitches.
func (h *heel) row(line string) {
	h.rows++
	before := h.live()
	left, right, turned := h.needle, h.behind, false
	stitches := func(n int, step string) {
		if n < 1 || n > len(left) || slices.Contains(left[:n], false) {
			h.wrong("no %d stitches for %q: %s", n, step, line)
			n = 0
		}
		right, left = append(right, left[:n]...), left[n:]
	}
	m := rowState.FindStringSubmatch(label.ReplaceAllString(line, ""))
	if m == nil {
		h.wrong("cannot be worked: %s", line)
		return
	}
	work := func(step string) {
		step = strings.ToLower(step[:1]) + step[1:]
		switch {
		case step == "k to m" || step == "p to m":
			stitches(slices.Index(left, false), step)
		case step == "k to end" || step == "p to end":
			stitches(len(left), step)
		case step == "p to last 3 sts":
			stitches(len(left)-3, step)
		case step == "sl 1":
			stitches(1, step)
		case step == "turn":
			turned = true
		case step == "pm":
			right = append(right, false)
		case step == "sm":
			if len(left) == 0 || left[0] {
				h.wrong("no marker for %q: %s", step, line)
				return
			}
			right, left = append(right, false), left[1:]
		case step == "ssk" || step == "k2tog" || step == "p2tog":
			if stitches(2, step); len(right) > 0 {
				right = right[:len(right)-1]
			}
		default:
			n, err := strconv.Atoi(strings.TrimSuffix(step[1:], " tbl"))
			if err != nil || step[0] != 'k' && step[0] != 'p' {
				h.wrong("%q cannot be worked: %s", step, line)
				return
			}
			stitches(n, step)
		}
	}
	for _, part := range flapRepeat.FindAllStringSubmatch(m[1], -1) {
		if part[1] == "" {
			work(part[4])
			continue
		}
		stop := 0
		if part[2] == "last st" {
			stop = 1
		} else if part[3] != "" {
			stop, _ = strconv.Atoi(part[3])
		}
		for n := -1; len(left) > stop && len(left) != n; {
			n = len(left)
			for _, step := range strings.Split(part[1], ", ") {
				work(step)
			}
		}
	}
	if len(left) > 0 && !turned {
		h.wrong("%d are left over: %s", len(left), line)
	}
	slices.Reverse(right)
	h.needle, h.behind = right, slices.Clone(left)
	slices.Reverse(h.behind)
	if m[2] != "" && m[2] != fmt.Sprint(before-h.live()) {
		h.wrong("%d stitches of %d are there after: %s", h.live(), before, line)
	}
}

// Reading by eye and by ear.

func capitals(p *page, wrong func(string, ...any)) {
	p.each(func(c *chapter, line string) {
		letters := strings.Map(func(r rune) rune {
			if unicode.IsLetter(r) {
				return r
			}
			return -1
		}, line)
		if len(letters) > 4 && letters == strings.ToUpper(letters) && !p.designers(c, line) && !strings.HasPrefix(line, "Size") {
			wrong("all in capitals: %s", line)
		}
	})
}

func numbersMeet(p *page, wrong func(string, ...any)) {
	mixed, meet := regexp.MustCompile(`\d+ \d+/\d+`), regexp.MustCompile(`\d\)? \d`)
	singular := regexp.MustCompile(`(^|[^\d/.,(] )1 (sts|rnds|rows)\b`)
	p.each(func(c *chapter, line string) {
		if p.designers(c, line) || strings.HasPrefix(line, "Size") {
			return
		}
		if meet.MatchString(mixed.ReplaceAllString(line, "0")) {
			wrong("%s", line)
		}
		if singular.MatchString(line) {
			wrong("one is not many: %s", line)
		}
	})
}

func plainText(p *page, wrong func(string, ...any)) {
	hyphen := regexp.MustCompile(`[A-Za-z]-[A-Za-z]`)
	p.each(func(c *chapter, line string) {
		if p.designers(c, line) || strings.HasPrefix(line, "Size") {
			return
		}
		rest := list.ReplaceAllString(line, "") // the dash of a size that does nothing
		rest = hyphen.ReplaceAllString(rest, "")
		if strings.HasPrefix(line, "Ease in ") {
			rest = strings.ReplaceAll(rest, "-", "") // the only place where a number may be below nothing
		}
		for _, r := range rest {
			if !unicode.IsLetter(r) && !unicode.IsDigit(r) && !strings.ContainsRune(` .,:;()[]'/%*`, r) || r > unicode.MaxASCII {
				wrong("%q is lost when this is read aloud: %s", r, line)
			}
		}
		if strings.Contains(line, "  ") || strings.Contains(line, "\t") || strings.TrimSpace(line) != line {
			wrong("set as a table: %s", line)
		}
		if slices.Contains(worked, c.title) {
			if n := len(labelled.FindAllString(line, -1)); n > 1 {
				wrong("%d instructions in one line: %s", n, line)
			}
		}
	})
}

// The page.

var (
	paragraph = regexp.MustCompile(`(?s)<p([^>]*)>(.*?)</p>`)
	tag       = regexp.MustCompile(`<[^>]*>`)
	tableRow  = regexp.MustCompile(`(?s)<tr><th scope="row">(.*?)</th>(.*?)</tr>`)
	cell      = regexp.MustCompile(`(?s)<td(?: colspan="(\d+)")?>(.*?)</td>`)
)

// bare is the text of a piece of the page, as it stands in plain text.
func bare(s string) string {
	s = strings.ReplaceAll(s, "<br>", " ")
	s = html.UnescapeString(tag.ReplaceAllString(s, ""))
	return strings.Join(strings.Fields(strings.NewReplacer("’", "'", "−", "-", "\u00a0", " ", "\u200a", " ").Replace(s)), " ")
}

// figure is a picture on the page: its words stand in its description.
var figure = regexp.MustCompile(`(?s)<figure.*?</figure>`)

func sameOnPage(p *page, wrong func(string, ...any)) {
	page := figure.ReplaceAllString(string(p.book.Files[1].Data), "")
	tables := map[string][]string{}
	for _, m := range tableRow.FindAllStringSubmatch(page, -1) {
		var cells []string
		for _, c := range cell.FindAllStringSubmatch(m[2], -1) {
			over, _ := strconv.Atoi(c[1]) // columns with one value
			for range max(1, over) {
				cells = append(cells, bare(c[2]))
			}
		}
		tables[bare(m[1])] = cells
	}
	var worked, others []string // paragraphs
	for _, m := range paragraph.FindAllStringSubmatch(page, -1) {
		if strings.Contains(m[1], `class="work`) {
			worked = append(worked, bare(m[2]))
		} else {
			others = append(others, bare(m[2]))
		}
	}
	var want []string
	p.instructions(func(_ *chapter, line string) { want = append(want, line) })
	if !slices.Equal(worked, want) {
		for i := range max(len(worked), len(want)) {
			a, b := "nothing", "nothing"
			if i < len(worked) {
				a = worked[i]
			}
			if i < len(want) {
				b = want[i]
			}
			if a != b {
				wrong("instruction %d of the page is %q, of the text %q", i+1, a, b)
				break
			}
		}
	}
	p.each(func(c *chapter, line string) {
		name, rest, _ := strings.Cut(line, ": ")
		switch cells, ok := tables[name]; {
		case slices.Contains(worked, line) || slices.Contains(others, line):
		case ok:
			for i := range p.sizes {
				plain := strings.NewReplacer("[", "", "]", "").Replace(inSize(rest, i))
				if i >= len(cells) || cells[i] != plain {
					wrong("the table has %v for %s", cells, line)
					break
				}
			}
		case strings.HasPrefix(line, "Sizes: "): // the head of the table
		default:
			wrong("the page does not say: %s", line)
		}
	})
}

// inSize is the value of a fact for a size, which may be any words: "US women's 4 to 5 (…)".
func inSize(s string, size int) string {
	if list.MatchString(s) {
		return forSize(s, size)
	}
	if v := values(s); size < len(v) {
		return v[size]
	}
	return s
}

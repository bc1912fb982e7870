package check

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"sockwright/internal/design"
	"sockwright/internal/pattern"
	"sockwright/internal/script"
	"sockwright/internal/source"
	"sockwright/internal/unit"
)

// OffStyle is the kind of a finding against a style sheet: the words say the right thing in
// another dress.
const OffStyle source.Kind = "style"

// A Style is how a house dresses its patterns. What it does not say ("") is free.
type Style struct {
	Spelling  []Spelling
	Brackets  string // of lists of sizes: "()" or "[]"
	Separator string // between their columns: ", "
	Repeats   string // "[]", "()" or "*"
	CountsBy  string // where counts are to be stated: "shaping rows", "sections" or "none"
	Lengths   string // "in", "cm", "in (cm)", "cm / in" …
	Round     string // "Rnd" or "Round"
	Side      string // behind a label: "(RS)", "[RS]" or "RS"
	Dash      string // in ranges: "-" or "–"
}

// A Spelling is a word of the house and what is not to be written for it.
type Spelling struct {
	Want string
	Not  []string
}

// ReadStyle reads a style sheet. It is nil where the faults leave none.
func ReadStyle(f *source.File) (*Style, []source.Fault) {
	root, faults := design.ReadTable(f, "a style sheet")
	if root == nil {
		return nil, faults
	}
	var s Style
	choose := func(table, key string, into *string, known ...string) {
		if t := root.Table(table); t.Has(key) {
			*into = t.Choice(key, known...)
		}
	}
	choose("sizes", "brackets", &s.Brackets, "()", "[]")
	choose("sizes", "separator", &s.Separator, ", ", ",", "; ", " / ", "/", " : ", ": ")
	choose("repeats", "told_by", &s.Repeats, "[]", "()", "*")
	choose("counts", "after", &s.CountsBy, "shaping rows", "sections", "none")
	choose("lengths", "units", &s.Lengths, "in", "cm", "in (cm)", "in [cm]", "in / cm", "cm (in)", "cm [in]", "cm / in")
	choose("labels", "round", &s.Round, "Rnd", "Round")
	choose("labels", "side", &s.Side, "(RS)", "[RS]", "RS")
	choose("ranges", "dash", &s.Dash, "–", "-")
	words := root.Table("spelling")
	for _, want := range words.Keys() {
		s.Spelling = append(s.Spelling, Spelling{want, words.Texts(want)})
	}
	for _, w := range s.Spelling {
		if slices.Contains(w.Not, w.Want) || slices.Contains(w.Not, "") {
			words.Fault(w.Want, source.Error, source.Say("style.itself", "“{0}” is to be written and not to be written", w.Want), "list only other spellings behind it")
		}
	}
	faults = root.Done()
	if worst, any := source.Worst(faults); any && worst == source.Error {
		return nil, faults
	}
	return &s, faults
}

// Style holds the words of a checked pattern against a style sheet. The findings have the
// severity asked for, and an edit wherever one is certain; no more than [MaxFaults] are told.
func (r *Report) Style(s *Style, severity source.Severity) []source.Fault {
	c := &styling{Report: r, Style: s, severity: severity}
	c.lists()
	c.lengths()
	c.labels()
	c.repeats()
	c.counts()
	c.spelling()
	return source.Merge(c.faults)
}

// styling is one holding of a pattern against a style sheet.
type styling struct {
	*Report
	*Style
	severity source.Severity
	faults   []source.Fault
	edits    []source.Edit
}

// say reports words that are dressed otherwise. Where an earlier rule changes the same
// words already, one finding is enough.
func (c *styling) say(at source.Span, text, mend source.Message, edits ...source.Edit) {
	if len(c.faults) >= MaxFaults || slices.ContainsFunc(edits, func(e source.Edit) bool { return touches(c.edits, e) }) {
		return
	}
	c.edits = append(c.edits, edits...)
	c.faults = append(c.faults, source.Fault{At: at, Kind: OffStyle, Severity: c.severity, Text: text, Mends: []source.Mend{{Why: mend, Edits: edits}}})
}

// write reports words that stand for others.
func (c *styling) write(at source.Span, want, rule string) {
	if have := c.File.Slice(at); have != want {
		c.say(at, source.Say("style.write", "“{0}”: "+rule, have), source.Say("style.write.mend", "write “{0}”", want), source.Edit{At: at, Text: want})
	}
}

// worked calls do with each line in which something is worked, and where it begins.
func (c *styling) worked(do func(text string, start uint32)) {
	for n, l := range c.Words.Lines {
		if c.works(n + 1) {
			do(c.File.Slice(l.At), l.At.Start)
		}
	}
}

// find calls do with the span of the first group of every match in a worked line.
func (c *styling) find(re *regexp.Regexp, do func(at source.Span, match []string)) {
	c.worked(func(text string, start uint32) {
		for _, m := range re.FindAllStringSubmatchIndex(text, -1) {
			var match []string
			for i := 0; i < len(m); i += 2 {
				match = append(match, text[max(m[i], 0):max(m[i+1], 0)])
			}
			do(source.Span{Start: start + uint32(m[2]), End: start + uint32(m[3])}, match)
		}
	})
}

// lists: "56 (60, 64)", with the brackets and the separator of the house.
func (c *styling) lists() {
	if c.Brackets == "" && c.Separator == "" {
		return
	}
	seen := map[source.Span]bool{}
	dress := func(at source.Span, columns []string) {
		have := c.File.Slice(at)
		if len(columns) < 2 || seen[at] || bare(have) != bare(strings.Join(columns, "")) {
			return
		}
		seen[at] = true
		open, shut, sep := brackets(c.Brackets), ")", cmp.Or(c.Separator, ", ")
		if open == "[" || open == "" && strings.Contains(have, "[") {
			open, shut = "[", "]"
		} else {
			open = "("
		}
		c.write(at, columns[0]+" "+open+strings.Join(columns[1:], sep)+shut, "the style sheet sets lists of sizes like this: 1 "+open+"2"+sep+"3"+shut)
	}
	dress(c.Words.SizesAt, c.Words.Sizes)
	columns := func(cols []source.Span) {
		if len(cols) < 2 {
			return
		}
		at := cols[0].To(cols[len(cols)-1])
		line, _ := c.File.Position(at.Start)
		if at.End < c.File.LineSpan(line).End && strings.IndexByte(")]}", c.File.Text[at.End]) >= 0 {
			at.End++
		}
		words := make([]string, len(cols))
		for i, col := range cols {
			words[i] = c.File.Slice(col)
		}
		dress(at, words)
	}
	for _, x := range pieces[any](c.Words) {
		switch x := x.(type) {
		case pattern.Number:
			columns(x.Cols)
		case script.Length:
			columns(x.Cols)
		}
	}
}

// brackets is the opening one of a pair.
func brackets(pair string) string { return pair[:min(len(pair), 1)] }

// bare is a list without its dress.
func bare(s string) string {
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune(" ()[]{},;:/-–\n\r", r) {
			return -1
		}
		return r
	}, s)
}

const (
	aFigure    = `(?:\d+(?:\.\d+)?(?: ?\d/\d)?(?: ?[½¼¾⅛⅜⅝⅞])?|[½¼¾⅛⅜⅝⅞])`
	figureList = aFigure + `(?: ?[(\[]` + aFigure + `(?: ?[,/;:] ?` + aFigure + `)*[)\]])?`
	unitWord   = `(in\b|inch(?:es)?\b|"|″|cm\b|mm\b)`
)

var (
	oneFigure   = regexp.MustCompile(aFigure)
	oneUnit     = regexp.MustCompile(`^(` + figureList + `)\s*` + unitWord)
	twoUnits    = regexp.MustCompile(`(` + figureList + `)\s*` + unitWord + `\.?\s*([(\[/])\s*(` + figureList + `)\s*` + unitWord + `([)\]]?)`)
	dotInside   = regexp.MustCompile(`^\.\s+[a-z(]`) // behind "6 in", not the end of a sentence
	wantedUnits = regexp.MustCompile(`^(in|cm)(?: ([(\[/]) ?(in|cm))?`)
)

// lengths: in the units of the house, in its order.
func (c *styling) lengths() {
	want := wantedUnits.FindStringSubmatch(c.Lengths)
	if want == nil {
		return
	}
	rule := "the style sheet gives lengths as “" + c.Lengths + "”"
	dressed := func(first, second string) string {
		switch want[2] {
		case "(":
			return first + " (" + second + ")"
		case "[":
			return first + " [" + second + "]"
		}
		return first + " / " + second
	}
	pairs := map[uint32]bool{}
	for _, l := range c.Words.Lines {
		text := c.File.Slice(l.At)
		for _, m := range twoUnits.FindAllStringSubmatchIndex(text, -1) {
			g := func(i int) string { return text[m[2*i]:m[2*i+1]] }
			pairs[l.At.Start+uint32(m[0])] = true
			one, other := unitNames[g(2)], unitNames[g(5)]
			at := source.Span{Start: l.At.Start + uint32(m[0]), End: l.At.Start + uint32(m[1])}
			switch open, shut := g(3), g(6); {
			case one == other, open != "/" && shut == "":
				continue
			case open == "/" && shut != "": // it closes what began before
				at.End--
			}
			first, second := g(1)+" "+g(2), g(4)+" "+g(5)
			switch {
			case want[3] == "" && one == want[1]:
				c.write(at, first, rule)
			case want[3] == "" && other == want[1]:
				c.write(at, second, rule)
			case want[3] != "" && one == want[1] && g(3) != want[2]:
				c.write(at, dressed(first, second), rule)
			case want[3] != "" && one == want[3]:
				c.write(at, dressed(second, first), rule)
			}
		}
	}
	for _, x := range pieces[script.Length](c.Words) {
		if len(x.Also) == 0 && !pairs[x.At.Start] {
			c.oneUnit(x, want, dressed, rule)
		}
	}
}

// oneUnit: a length in one unit, where the house wants another or two.
func (c *styling) oneUnit(x script.Length, want []string, dressed func(first, second string) string, rule string) {
	line, _ := c.File.Position(x.At.Start)
	rest := c.File.Text[x.At.Start:c.File.LineSpan(line).End]
	m := oneUnit.FindStringSubmatch(rest)
	if m == nil {
		return
	}
	if after := rest[len(m[0]):]; dotInside.MatchString(after) {
		m[0] += "."
	}
	at := source.Span{Start: x.At.Start, End: x.At.Start + uint32(len(m[0]))}
	in := func(u string) string {
		if u == unitNames[m[2]] {
			return m[0]
		}
		var values []string
		for _, mm := range x.MM {
			if l := unit.Length(mm); u == "in" {
				values = append(values, l.Inches())
			} else {
				values = append(values, l.Centimetres())
			}
		}
		return SizeList(values) + " " + u
	}
	switch {
	case want[3] != "":
		c.write(at, dressed(in(want[1]), in(want[3])), rule)
	case unitNames[m[2]] != want[1]:
		c.write(at, in(want[1]), rule)
	}
}

var (
	roundWord = regexp.MustCompile(`\b([Rr](?:ounds?|nds?|ds?))\b\.?(?:\s+\d|\s*(?:\([^)]*\)|\[[^\]]*\])?\s*:)`)
	sideWord  = regexp.MustCompile(`(?i)([\s,–-]*[(\[]?\s*\b(RS|WS|right side|wrong side)\b(?:\s+(?:row|facing))?\s*[)\]]?)`)
	rangeDash = regexp.MustCompile(`\b(?i:rows?|rnds?|rounds?|rds?)\.? \d+\s*([-–—])\s*\d`)
)

// labels: the word for a round, the side behind a label, the dash in "Rnds 1–14".
func (c *styling) labels() {
	if c.Round != "" {
		c.find(roundWord, func(at source.Span, m []string) {
			want := c.Round[1:]
			if strings.HasSuffix(m[1], "s") {
				want += "s"
			}
			c.write(at, m[1][:1]+want, "the style sheet calls it “"+c.Round+"”")
		})
	}
	if c.Dash != "" {
		c.find(rangeDash, func(at source.Span, m []string) {
			c.write(at, c.Dash, "the style sheet joins the ends of a range by “"+c.Dash+"”")
		})
	}
	if c.Side == "" {
		return
	}
	for _, label := range pieces[script.Label](c.Words) {
		if label.Side == script.NoSide || label.Open != 0 {
			continue
		}
		m := sideWord.FindStringIndex(c.File.Slice(label.At))
		if m == nil || m[0] == 0 {
			continue
		}
		at := source.Span{Start: label.At.Start + uint32(m[0]), End: label.At.Start + uint32(m[1])}
		want := strings.Replace(c.Side, "RS", label.Side.String(), 1)
		if have := c.File.Slice(at); strings.TrimRight(have, " ") != " "+want {
			c.say(at, source.Say("style.side", "“{0}”: the style sheet puts the side behind a label like this: Row 1 {1}", strings.TrimSpace(have), c.Side),
				source.Say("style.write.mend", "write “{0}”", want), source.Edit{At: at, Text: " " + want})
		}
	}
}

// repeats: by brackets or by asterisks.
func (c *styling) repeats() {
	if c.Repeats == "" {
		return
	}
	for _, step := range pieces[script.Step](c.Words) {
		if step.Op == script.Group && step.At.Known() {
			c.repeat(step.At)
		}
	}
}

func (c *styling) repeat(at source.Span) {
	text := c.File.Slice(at)
	have := text[:1]
	if have == brackets(c.Repeats) || !strings.Contains("*[(", have) {
		return
	}
	say := func(mend source.Message, edits ...source.Edit) {
		c.say(source.Span{Start: at.Start, End: at.Start + 1}, source.Say("style.repeat", "a repeat in “{0}”: the style sheet tells repeats by “{1}”", have, c.Repeats), mend, edits...)
	}
	shut := closing(text)
	switch {
	case c.Repeats == "*":
		say(source.Say("style.repeat.star", "tell it as “*…; rep from *”"))
	case have == "*":
		say(source.Say("style.repeat.brackets", "tell it as “{0}…{1}” with how often", c.Repeats[:1], c.Repeats[1:]))
	case shut > 0:
		say(source.Say("style.repeat.swap", "set it in {0}", c.Repeats),
			source.Edit{At: source.Span{Start: at.Start, End: at.Start + 1}, Text: c.Repeats[:1]},
			source.Edit{At: source.Span{Start: at.Start + uint32(shut), End: at.Start + uint32(shut) + 1}, Text: c.Repeats[1:]})
	}
}

// closing is the place of the bracket that closes the one a text begins with, 0 if none does.
func closing(text string) int {
	depth := 0
	for i := range len(text) {
		switch text[i] {
		case '(', '[':
			depth++
		case ')', ']':
			if depth--; depth == 0 {
				return i
			}
		}
	}
	return 0
}

// counts: stated after every shaping row, or where a section ends.
func (c *styling) counts() {
	switch c.CountsBy {
	case "shaping rows":
		for i, l := range c.Words.Lines {
			if c.works(i+1) && holdsShaping(l) && !statesCount(l) {
				c.wantCount(i+1, "this line changes the count and does not state it")
			}
		}
	case "sections":
		last, name := 0, ""
		end := func() {
			if last > 0 && !statesCount(c.Words.Lines[last-1]) {
				c.wantCount(last, "this line ends "+name+" and states no count")
			}
			last = 0
		}
		for i, l := range c.Words.Lines {
			for s := range in[script.Section](l) {
				end()
				name = "“" + strings.TrimSpace(s.Name) + "”"
			}
			if name != "" && c.Margin(i+1) != "" {
				last = i + 1
			}
		}
		end()
	}
}

// holdsShaping tells whether a line holds a step that changes the count of stitches.
func holdsShaping(l script.Line) bool {
	for x := range in[any](l) {
		switch x := x.(type) {
		case script.Step:
			switch x.Op {
			case script.Decrease, script.Increase, script.PickUp, script.CastMore, script.PassOver:
				return true
			}
		case script.Shape:
			return true
		}
	}
	return false
}

// statesCount tells whether a line states a count of stitches, or by how many it changes.
func statesCount(l script.Line) bool {
	for claim := range in[script.Claim](l) {
		if claimUnits[claim.What] != "" {
			return true
		}
	}
	return false
}

func (c *styling) wantCount(line int, what string) {
	count := c.Margin(line)
	for line < len(c.Words.Lines) && c.Words.Lines[line].Role == script.Worked && c.Words.Lines[line].Items == nil {
		line++ // the sentence goes on there
	}
	at := c.File.LineSpan(line)
	for at.End > at.Start && unicode.IsSpace(rune(c.File.Text[at.End-1])) {
		at.End--
	}
	text := source.Say("style.count", what+": the style sheet wants the count after {0}", map[string]string{"shaping rows": "every shaping row", "sections": "every section"}[c.CountsBy])
	if count == "" || strings.ContainsAny(count, "?–→") {
		c.say(at, text, source.Say("style.count.say", "end it with the count, or with how many sts it gains or loses"))
		return
	}
	count, _, _ = strings.Cut(count, " of ")
	words := " " + count + " sts."
	if end := c.File.Text[at.End-1]; !strings.ContainsRune(".!?", rune(end)) {
		words = "." + words
	}
	c.say(at, text, source.Say("style.count.mend", "end it with “{0}”", strings.TrimLeft(words, ". ")), source.Edit{At: source.Span{Start: at.End, End: at.End}, Text: words})
}

// spelling: the words of the house, in lines that are worked. A word at the head of a
// sentence keeps its capital; "in the round" is no name of a row.
func (c *styling) spelling() {
	c.worked(func(text string, start uint32) {
		for _, w := range c.Spelling {
			for _, not := range w.Not {
				for _, form := range []string{not, capital(not)} {
					for i := range occurrences(text, form) {
						if strings.EqualFold(form, "round") && strings.HasSuffix(text[:i], "the ") {
							continue
						}
						want := w.Want
						if form != not || opens(text[:i]) && form == capital(not) {
							want = capital(want)
						}
						c.write(source.Span{Start: start + uint32(i), End: start + uint32(i+len(form))}, want, fmt.Sprintf("the style sheet spells it “%s”", w.Want))
					}
					if form == capital(not) {
						break
					}
				}
			}
		}
	})
}

// opens tells whether what follows begins a sentence.
func opens(before string) bool {
	before = strings.TrimRight(before, " *[(")
	return before == "" || strings.ContainsRune(".:!?", rune(before[len(before)-1]))
}

// capital is a word with a capital at its head.
func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}

// occurrences yields where a word stands in a text, not as a part of another.
func occurrences(text, word string) func(yield func(int) bool) {
	inWord := func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }
	return func(yield func(int) bool) {
		for from := 0; ; {
			i := strings.Index(text[from:], word)
			if i < 0 {
				return
			}
			i += from
			before, _ := utf8.DecodeLastRuneInString(text[:i])
			after, _ := utf8.DecodeRuneInString(text[i+len(word):])
			if !inWord(before) && !inWord(after) && !yield(i) {
				return
			}
			from = i + len(word)
		}
	}
}

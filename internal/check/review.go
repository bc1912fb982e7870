package check

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"sockwright/internal/pattern"
	"sockwright/internal/script"
	"sockwright/internal/source"
	"sockwright/internal/unit"
)

// A Review is a check in the order in which a technical editor works, for somebody to sign:
// what was held against what, what was found, and as plainly what could not be checked.
type Review struct {
	File      string    `json:"file"`
	SHA256    string    `json:"sha256"` // of the text that was checked
	Lines     int       `json:"lines"`
	Sizes     []string  `json:"sizes"`
	Lists     []Listed  `json:"lists"` // of figures by size that the eye should rest on
	ListCount int       `json:"list_count"`
	Gauge     string    `json:"gauge"` // as the text states it; "" if it does not
	Girths    []Girth   `json:"girths"`
	Stated    []Quoted  `json:"stated_measures"` // lines that state finished measures
	Sections  []Section `json:"sections"`
	Measures  []Measure `json:"measures"`
	Terms     []Term    `json:"terms"`
	Charts    []Charted `json:"charts"`
	Unchecked []Quoted  `json:"unchecked"`

	Findings []source.Finding `json:"-"`
	Queries  *Queries         `json:"-"` // nil if none are kept
}

// A Listed is a list of figures by size with what is remarkable in its order.
type Listed struct {
	Line  int    `json:"line"`
	Words string `json:"words"`
	Says  string `json:"says"`
}

// A Quoted is a line with a remark; line 0 is the whole text.
type Quoted struct {
	Line  int    `json:"line"`
	Why   string `json:"why"`
	Words string `json:"words"`
}

// A Girth is what stitches in the round measure at the stated gauge, by size.
type Girth struct {
	Line  int       `json:"line"`
	Count string    `json:"count"`
	MM    []float64 `json:"mm"`
}

// A Section is a part of the text with the counts after each of its lines.
type Section struct {
	Line int      `json:"line"`
	Name string   `json:"name"`
	Rows []Counts `json:"rows"`
}

// Counts are the counts after a row: one cell a size, "32 of 64" where the others rest,
// "60 → 56" from its first time to its last.
type Counts struct {
	Line  int      `json:"line"`
	Label string   `json:"label"`
	Cells []string `json:"cells"`
}

// A Measure is a length that the text works to, with what it comes to in rows.
type Measure struct {
	Line  int    `json:"line"`
	Words string `json:"words"`
	Rows  string `json:"rows"` // "48 (52, 56)"; "" without a gauge
}

// A Term is an abbreviation that the text explains. Uses and makes are -1 where that cannot
// be told.
type Term struct {
	Line  int    `json:"line"`
	Short string `json:"short"`
	Means string `json:"means"`
	Uses  int    `json:"uses"`
	Makes int    `json:"makes"`
	Used  bool   `json:"used"` // it occurs elsewhere in the text
}

// A Charted is a chart in the text.
type Charted struct {
	Line  int    `json:"line"`
	Name  string `json:"name"`
	Width int    `json:"width"`
	Rows  int    `json:"rows"`
	Says  string `json:"says"`
}

// Review goes through a check as an editor does.
func (r *Report) Review() *Review {
	sum := sha256.Sum256([]byte(r.File.Text))
	v := &Review{File: r.File.Name, SHA256: hex.EncodeToString(sum[:]), Lines: r.lines(), Sizes: r.Sizes,
		Lists: []Listed{}, Girths: []Girth{}, Stated: []Quoted{}, Sections: []Section{}, Measures: []Measure{}, Terms: []Term{}, Charts: []Charted{}, Unchecked: []Quoted{}}
	v.lists(r)
	v.gauge(r)
	v.sections(r)
	v.measures(r)
	v.terms(r)
	v.charts(r)
	v.unchecked(r)
	return v
}

// lists compares the columns of every list: an order that turns, a step that is left out.
func (v *Review) lists(r *Report) {
	seen := map[source.Span]bool{}
	for _, n := range pieces[pattern.Number](r.Words) {
		if len(n.Val) < 2 || len(n.Cols) < 2 || seen[n.At] {
			continue
		}
		seen[n.At] = true
		v.ListCount++
		line, _ := r.File.Position(n.At.Start)
		if l := (Listed{line, clip(r.File.Slice(n.At)), ordered(n.Val, r.Sizes)}); l.Says != "" && !slices.Contains(v.Lists, l) {
			v.Lists = append(v.Lists, l)
		}
	}
	slices.SortStableFunc(v.Lists, func(a, b Listed) int { return a.Line - b.Line })
}

// ordered tells what is remarkable in the order of the figures of a list, if anything.
func ordered(vals []int32, sizes []string) string {
	if len(vals) != len(sizes) {
		return fmt.Sprintf("%d figures for %d sizes", len(vals), len(sizes))
	}
	up, down := false, false
	turn := 0
	for i := 1; i < len(vals); i++ {
		if vals[i] == pattern.Gap || vals[i-1] == pattern.Gap {
			continue
		}
		up, down = up || vals[i] > vals[i-1], down || vals[i] < vals[i-1]
		if up && down && turn == 0 {
			turn = i
		}
	}
	if up && down {
		return fmt.Sprintf("the order turns from size %s to size %s", sizes[turn-1], sizes[turn])
	}
	return ""
}

// gauge sets the counts in the round against the stated gauge.
func (v *Review) gauge(r *Report) {
	for n, l := range r.Words.Lines {
		if words := strings.ToLower(r.File.Slice(l.At)); l.Role != script.Worked && l.Role != script.Blank && strings.ContainsAny(words, "0123456789") &&
			(strings.Contains(words, "circumference") || strings.Contains(words, "girth") || strings.Contains(words, "to fit") || strings.Contains(words, "foot length") || strings.Contains(words, "around")) {
			v.Stated = append(v.Stated, Quoted{n + 1, "", clip(r.File.Slice(l.At))})
		}
	}
	g := r.Words.Gauge
	if g == nil {
		return
	}
	v.Gauge = clip(r.File.Slice(g.At))
	if g.Stitches <= 0 {
		return
	}
	last := ""
	for i, c := range r.Counts {
		if i+1 < len(r.Counts) && r.Counts[i+1].Line == c.Line { // the last entry of each line
			continue
		}
		girth := Girth{Line: c.Line, Count: r.Margin(c.Line), MM: make([]float64, len(r.Sizes))}
		whole := !strings.ContainsAny(girth.Count, "?–→") && !strings.Contains(girth.Count, " of ")
		for _, o := range r.of(c.Line) {
			girth.MM[o.Size] = float64(o.Last.Total) / g.Stitches * g.Over
		}
		if whole && girth.Count != last {
			last = girth.Count
			v.Girths = append(v.Girths, girth)
		}
	}
}

// sections lays the counts out under the headings.
func (v *Review) sections(r *Report) {
	type head struct {
		line int
		name string
	}
	heads := []head{{1, "Beginning"}}
	for line, s := range pieces[script.Section](r.Words) {
		if name := strings.TrimSpace(s.Name); name != "" {
			heads = append(heads, head{line, name})
		}
	}
	for i, h := range heads {
		end := r.File.Lines() + 1
		if i+1 < len(heads) {
			end = heads[i+1].line
		}
		if rows := r.rows(h.line, end); len(rows) > 0 {
			v.Sections = append(v.Sections, Section{h.line, h.name, rows})
		}
	}
}

// rows are the counts of the lines from one to before another: one row for each label, the
// sizes side by side.
func (r *Report) rows(from, to int) []Counts {
	var out []Counts
	nth := map[[2]int]int{} // rows of a line that a size has had
	at := map[[2]int]int{}  // the place in out of the nth row of a line
	for _, c := range r.Counts {
		if c.Line < from || c.Line >= to {
			continue
		}
		n := nth[[2]int{c.Line, c.Size}]
		nth[[2]int{c.Line, c.Size}]++
		i, is := at[[2]int{c.Line, n}]
		if !is {
			i = len(out)
			at[[2]int{c.Line, n}] = i
			out = append(out, Counts{c.Line, c.Label, slices.Repeat([]string{"–"}, len(r.Sizes))})
		}
		out[i].Cells[c.Size] = c.cell()
	}
	return out
}

// cell is a count in one size.
func (c Count) cell() string {
	if c.Times == 0 {
		return "–"
	}
	out := countOf(c.Last.Worked, c.Sure)
	if first := countOf(c.First.Worked, c.Sure); first != out {
		out = first + " → " + out
	}
	if c.Sure && c.Last.Total != c.Last.Worked && c.Last.Total >= 0 {
		out += fmt.Sprintf(" of %d", c.Last.Total)
	}
	return out
}

// measures lists the lengths that are worked to: those that were read, and whatever else
// stands in a worked line in two units.
func (v *Review) measures(r *Report) {
	seen := map[uint32]bool{}
	add := func(start uint32, words string, mm []float64) {
		if seen[start] {
			return
		}
		seen[start] = true
		line, _ := r.File.Position(start)
		m := Measure{Line: line, Words: clip(words)}
		if g := r.Words.Gauge; g != nil && g.Rows > 0 && g.Over > 0 {
			var rows []string
			for _, x := range mm {
				rows = append(rows, fmt.Sprintf("%.0f", x*g.Rows/g.Over))
			}
			m.Rows = SizeList(rows)
		}
		v.Measures = append(v.Measures, m)
	}
	for n, l := range r.Words.Lines {
		for m := range in[script.Length](l) {
			if len(m.MM) > 0 {
				add(m.At.Start, r.lengthWords(m), m.MM)
			}
		}
		if r.works(n + 1) {
			text := r.File.Slice(l.At)
			for _, m := range twoUnits.FindAllStringSubmatchIndex(text, -1) {
				add(l.At.Start+uint32(m[0]), text[m[0]:m[1]], millimetres(text[m[2]:m[3]], text[m[4]:m[5]]))
			}
		}
	}
	slices.SortStableFunc(v.Measures, func(a, b Measure) int { return a.Line - b.Line })
}

// lengthWords is a length as the text prints it, its units included.
func (r *Report) lengthWords(m script.Length) string {
	line, _ := r.File.Position(m.At.Start)
	text := r.File.Text[m.At.Start:max(m.At.End, r.File.LineSpan(line).End)]
	if at := twoUnits.FindStringIndex(text); at != nil && at[0] == 0 {
		return text[:at[1]]
	}
	return cmp.Or(oneUnit.FindString(text), r.File.Slice(m.At)+" "+m.Unit)
}

// millimetres are the figures of a list in mm.
func millimetres(list, name string) []float64 {
	var out []float64
	for _, one := range oneFigure.FindAllString(list, -1) {
		if l, err := unit.ParseLength(one + " " + unitNames[name]); err == nil {
			out = append(out, l.MM())
		}
	}
	return out
}

func (v *Review) terms(r *Report) {
	text := strings.ToLower(r.File.Text)
	for _, t := range r.Words.Terms {
		own, _ := r.File.Position(t.At.Start)
		used := slices.ContainsFunc(variants(strings.ToLower(t.Short)), func(short string) bool {
			for i := range occurrences(text, short) {
				if line, _ := r.File.Position(uint32(i)); line != own {
					return true
				}
			}
			return strings.ContainsFunc(short, unicode.IsLetter) && usedWithFigure(text, short) // "k" is used in "k2"
		})
		v.Terms = append(v.Terms, Term{own, t.Short, t.Means, t.Uses, t.Makes, used})
	}
}

// variants are the spellings that an entry is for: "st(s)", "N1, N2", "k2tog/ssk".
func variants(short string) []string {
	var out []string
	for part := range strings.FieldsFuncSeq(short, func(r rune) bool { return r == ',' || r == '/' }) {
		part = strings.TrimSpace(part)
		if one, plural := strings.CutSuffix(part, "(s)"); plural {
			out = append(out, one, one+"s")
			continue
		}
		out = append(out, part)
	}
	return append(out, short)
}

// usedWithFigure tells whether a term stands with a figure behind it: "k2", "p12".
func usedWithFigure(text, term string) bool {
	for i := 0; ; {
		n := strings.Index(text[i:], term)
		if n < 0 {
			return false
		}
		end := i + n + len(term)
		if end < len(text) && text[end] >= '0' && text[end] <= '9' && (i+n == 0 || !unicode.IsLetter(rune(text[i+n-1]))) {
			return true
		}
		i = end
	}
}

func (v *Review) charts(r *Report) {
	for _, c := range r.Words.Charts {
		out := Charted{Line: c.Line, Name: cmp.Or(clip(r.File.Line(c.Line)), c.Name), Width: c.Width, Rows: len(c.Rows)}
		var says []string
		for _, row := range c.Rows {
			if row.Uses >= 0 && (row.Uses != row.Makes || row.Uses != c.Width) {
				says = append(says, fmt.Sprintf("row %d takes %d sts and makes %d", row.Num, row.Uses, row.Makes))
			}
		}
		out.Says = strings.Join(says, "; ")
		v.Charts = append(v.Charts, out)
	}
}

// unchecked lists what no reading and no counting could hold to account, the gravest first.
func (v *Review) unchecked(r *Report) {
	var unread, unsure, facts, prose []Quoted
	note := func(list *[]Quoted, line int, why, words string) {
		*list = append(*list, Quoted{line, why, clip(words)})
	}
	doubt := map[int][]string{} // the sizes in which the count of a line is not sure
	for _, c := range r.Counts {
		if name := r.Sizes[c.Size]; (!c.Sure || c.Last.Total < 0) && !slices.Contains(doubt[c.Line], name) {
			doubt[c.Line] = append(doubt[c.Line], name)
		}
	}
	stumbled := map[int]bool{} // lines that were not read to their end
	for _, x := range r.Faults {
		if line, _ := r.File.Position(x.At.Start); x.Kind == source.Unread && x.At.Known() {
			stumbled[line] = true
		}
	}
	for n, l := range r.Words.Lines {
		line, words := n+1, r.File.Slice(l.At)
		figures := strings.ContainsAny(words, "0123456789")
		switch worked := r.Margin(line) != ""; {
		case r.Words.File.GoesOn(line): // told with the line before
		case stumbled[line], l.Role == script.Unread && !worked && !r.own:
			note(&unread, line, "not read, or not to the end of the line", words)
		case !r.own && unknownIn(l) != nil:
			note(&unread, line, "not worked: a term in it is explained nowhere", words)
		case worked, r.told[line], isHeading(l) && !figures:
		case l.Role == script.Prose, l.Role == script.Unread, l.Role == script.Worked && r.own && l.Items != nil:
			if figures {
				note(&facts, line, "figures that no count bears out or denies", words)
			} else {
				note(&prose, line, "read as prose: nothing in it is worked", words)
			}
		case l.Role == script.Fact && figures && !r.uses(l.At):
			note(&facts, line, "figures that no count bears out or denies", words)
		}
		switch sizes := doubt[line]; {
		case sizes == nil:
		case len(sizes) == len(r.Sizes):
			note(&unsure, line, "counts that are not sure", words)
		default:
			note(&unsure, line, "counts that are not sure in "+strings.Join(sizes, ", "), words)
		}
	}
	v.Unchecked = append(v.Unchecked, slices.Concat(v.unmeasured(r), unread, unsure, facts, prose)...)
}

// isHeading tells whether all that a line does is to begin a section.
func isHeading(l script.Line) bool {
	return l.Items != nil && !slices.ContainsFunc(l.Items, func(item script.Item) bool { _, is := item.(*script.Section); return !is })
}

// unmeasured is what the text does not say enough about.
func (v *Review) unmeasured(r *Report) (out []Quoted) {
	note := func(line int, why, words string) { out = append(out, Quoted{line, why, clip(words)}) }
	var lost []string
	for i, n := range r.Final {
		if n < 0 {
			lost = append(lost, r.Sizes[i])
		}
	}
	switch {
	case len(r.Counts) == 0:
		note(0, "no line was worked: no count was checked at all", "")
	case len(lost) == len(r.Sizes):
		note(0, "what is left on the needles at the end cannot be told", "")
	case lost != nil:
		note(0, "what is left on the needles at the end cannot be told in "+strings.Join(lost, ", "), "")
	}
	if v.Gauge == "" {
		note(0, "no gauge was read: no girth could be worked out", "")
	}
	for _, m := range v.Measures {
		if m.Rows == "" {
			note(m.Line, "lengths without a row gauge: how many rows they are cannot be told", m.Words)
		}
	}
	unknown := r.unknown()
	for _, t := range v.Terms {
		if t.Uses < 0 && slices.ContainsFunc(unknown, func(name string) bool { return strings.EqualFold(strings.Trim(name, "."), t.Short) }) {
			note(t.Line, "terms whose explanation does not tell how many sts they take", t.Short+": "+t.Means)
		}
	}
	for _, c := range r.Words.Charts {
		for _, row := range c.Rows {
			if row.Uses < 0 {
				note(row.Line, "rows of charts with a sign that no key explains", strings.Join(row.Signs, " "))
			}
		}
	}
	return out
}

// unknown lists the terms that stand where something is worked and cannot be worked.
func (r *Report) unknown() (names []string) {
	for _, l := range r.Words.Lines {
		names = append(names, unknownIn(l)...)
	}
	return names
}

func unknownIn(l script.Line) (names []string) {
	for s := range in[script.Step](l) {
		if s.Op == script.Unknown {
			names = append(names, s.Name)
		}
	}
	return names
}

// uses tells whether a line of facts is one that a review uses.
func (r *Report) uses(at source.Span) bool {
	in := func(s source.Span) bool { return s.Known() && s.Start >= at.Start && s.End <= at.End }
	return in(r.Words.SizesAt) || r.Words.Gauge != nil && in(r.Words.Gauge.At)
}

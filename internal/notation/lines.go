package notation

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

// Form is what kind of line a [Line] is.
type Form uint8

const (
	Title Form = iota
	Heading
	Instruction // a row, or anything else that is worked
	Sizes       // "Size M only:", "All sizes:"
	Prose       // see Line.Style
)

// A Line is one line of a written pattern, before it is set in type.
type Line struct {
	Form  Form
	Style pattern.Style // of Prose
	Node  pattern.NodeID
	Words []Run
}

// Role is what a run of words is for.
type Role uint8

const (
	Body  Role = iota
	Label      // "Row 1 (RS):", a fact's label, a needle's name
	State      // what is stated about the stitches after it
)

// A Run is a run of words of one role. Where sizes differ it is a value list: Each has one
// text a size (or one for all), and Text is empty.
type Run struct {
	Role Role
	Text string
	Each []string
}

// String is the run as plain text: a list as "56 (60, 64)".
func (r Run) String() string {
	if r.Each == nil {
		return r.Text
	}
	return pattern.List(r.Each)
}

// String is the line as plain text.
func (l Line) String() string {
	var b strings.Builder
	for _, r := range l.Words {
		b.WriteString(r.String())
	}
	return b.String()
}

// Lines lays out a pattern. Lines of [pattern.Only] groups follow a line that names the
// sizes, and a line "All sizes:" follows the group where the section goes on.
func Lines(p *pattern.Pattern) []Line {
	w := writer{sizes: p.Sizes}
	w.line(Title, 0, p.Title)
	for _, s := range p.Sections {
		if s.Title != "" {
			w.line(Heading, s.ID, s.Title)
		}
		w.body(s.Body)
	}
	return w.lines
}

type writer struct {
	sizes []string
	lines []Line
	runs  []Run // of the line being written
	role  Role
	upper bool // the next letter begins a sentence
}

func (w *writer) line(form Form, node pattern.NodeID, text string) {
	w.lines = append(w.lines, Line{Form: form, Node: node, Words: []Run{{Text: text}}})
}

func (w *writer) end(form Form, style pattern.Style, node pattern.NodeID) {
	w.lines = append(w.lines, Line{Form: form, Style: style, Node: node, Words: w.runs})
	w.runs, w.role = nil, Body
}

// say adds fixed words, with a capital if they begin a sentence.
func (w *writer) say(text string) {
	if text == "" {
		return
	}
	if w.upper {
		r, n := utf8.DecodeRuneInString(text)
		if unicode.IsLetter(r) {
			text, w.upper = string(unicode.ToUpper(r))+text[n:], false
		} else if unicode.IsDigit(r) {
			w.upper = false
		}
	}
	if n := len(w.runs); n > 0 && w.runs[n-1].Role == w.role && w.runs[n-1].Each == nil {
		w.runs[n-1].Text += text
		return
	}
	w.runs = append(w.runs, Run{Role: w.role, Text: text})
}

// values adds one text a size.
func (w *writer) values(each []string) {
	if len(each) == 1 {
		w.say(each[0])
		return
	}
	w.runs = append(w.runs, Run{Role: w.role, Each: each})
	w.upper = false
}

func (w *writer) number(n pattern.Number) { w.values(n.Strings()) }

// abs adds a number without its sign.
func (w *writer) abs(n pattern.Number) {
	each := n.Strings()
	for i := range each {
		each[i] = strings.TrimPrefix(each[i], "-")
	}
	w.values(each)
}

func (w *writer) text(t pattern.Text) {
	for _, p := range t {
		switch {
		case p.Each != nil:
			w.values(p.Each)
		case p.Side != "":
			w.say(string(p.Side))
		default:
			w.say(p.Words)
		}
	}
}

func (w *writer) body(body []pattern.Node) {
	for i, n := range body {
		if o, ok := n.(*pattern.Only); ok {
			if o.Sizes == 0 {
				continue
			}
			line, end := onlyLine(o.Sizes.Names(w.sizes)), allSizes
			if o.Sock != pattern.BothSocks {
				line, end = sockWords[o.Sock]+" "+onlyWord, bothSocks
			}
			w.line(Sizes, o.ID, line)
			w.body(o.Body)
			if i < len(body)-1 { // sizes follow sizes, and a sock the other
				if next, again := body[i+1].(*pattern.Only); !again || (next.Sock == pattern.BothSocks) != (o.Sock == pattern.BothSocks) {
					w.line(Sizes, o.ID, end)
				}
			}
			continue
		}
		if m, ok := n.(*pattern.Motif); ok {
			w.motif(m)
			continue
		}
		w.node(n)
	}
}

// motif writes what a stitch pattern is worked over, and its rows.
func (w *writer) motif(m *pattern.Motif) {
	w.say(m.Name + motifIs)
	if each := m.Multiple; each.Known() {
		w.say(multipleOf)
		w.number(each)
		w.say(" " + plural(each, "st", "sts"))
		if m.Plus.Known() {
			w.say(" and ")
			w.number(m.Plus)
			w.say(andMore)
		}
	} else {
		w.number(m.Plus)
		w.say(" " + plural(m.Plus, "st", "sts"))
	}
	w.say(".")
	w.end(Instruction, 0, m.ID)
	for _, r := range m.Rows {
		w.node(r)
	}
}

func onlyLine(names []string) string {
	if len(names) == 1 {
		return "Size " + names[0] + " " + onlyWord
	}
	last := len(names) - 1
	return "Sizes " + strings.Join(names[:last], ", ") + " and " + names[last] + " " + onlyWord
}

func (w *writer) node(n pattern.Node) {
	if p, ok := n.(*pattern.Prose); ok {
		w.prose(p)
		return
	}
	w.upper = true
	switch n := n.(type) {
	case *pattern.CastOn:
		w.castOn(n)
	case *pattern.Row:
		w.row(n)
	case *pattern.Again:
		w.again(n)
	case *pattern.Plain:
		w.plain(n)
	case *pattern.Arrange:
		w.say("Arrange the sts: ")
		w.split(n.Split)
		w.say(".")
	default:
		w.sentence(n)
	}
	w.upper = false
	w.end(Instruction, 0, pattern.ID(n))
}

func (w *writer) castOn(n *pattern.CastOn) {
	w.say("CO ")
	w.number(n.Stitches)
	w.say(" " + plural(n.Stitches, "st", "sts") + startWords[n.Form])
	if n.Form.Joined() && n.Begin != pattern.NoPlace {
		w.say(" The rnd begins " + placeWords[n.Begin] + ".")
	}
}

func (w *writer) prose(p *pattern.Prose) {
	label := p.Label
	if s := styleWords[p.Style]; s != "" {
		label = s
	}
	if label != "" {
		w.role = Label
		w.say(label + ":")
		w.role = Body
		w.say(" ")
	}
	w.text(p.Text)
	w.end(Prose, p.Style, p.ID)
}

func (w *writer) row(r *pattern.Row) {
	w.role = Label
	w.say(r.Label.String() + ":")
	w.role = Body
	w.say(" ")
	w.upper = true
	for i, part := range r.Parts {
		if i > 0 {
			w.say("; ")
		}
		if part.Needle > 0 {
			w.role = Label
			w.say("N" + strconv.Itoa(int(part.Needle)) + ":")
			w.role = Body
			w.say(" ")
		}
		if len(r.Parts) == 1 && part.Needle == 0 && r.Label.Word == pattern.Round && len(part.Steps) == 1 {
			if s := part.Steps[0]; s.Until == pattern.ToEnd && (s.Op == pattern.Knit || s.Op == pattern.Purl) {
				w.say(plainWord(s.Op))
				continue
			}
		}
		w.steps(part.Steps)
	}
	w.say(".")
	w.count(r.Count)
}

func plainWord(op pattern.Op) string {
	if op == pattern.Purl {
		return "purl"
	}
	return "knit"
}

func (w *writer) steps(steps []pattern.Step) {
	for i, s := range steps {
		if i > 0 {
			w.say(", ")
		}
		w.step(s)
	}
}

func (w *writer) step(s pattern.Step) {
	switch s.Op {
	case pattern.Group:
		w.group(s)
		return
	case pattern.InMotif:
		w.inMotif(s)
		return
	case pattern.PickUp, pattern.PickUpPurl:
		w.say(pickUpWords[s.Op])
		w.number(s.N)
		w.say(" " + edgeWords[s.Edge])
		return
	case pattern.Turn:
		w.say(turnWords[s.Turned])
		return
	case pattern.KnitTurned:
		w.say("k" + closeWords[s.Turned])
		return
	case pattern.PurlTurned:
		w.say("p" + closeWords[s.Turned])
		return
	}
	w.say(stepWords[s.Op])
	if !counted(s.Op) {
		return
	}
	switch s.Until {
	case pattern.ToEnd, pattern.ToMarker, pattern.ToLast, pattern.ToGap:
		w.reach(s)
	default:
		if s.Op == pattern.Slip || s.Op == pattern.SlipFront {
			w.say(" ")
		}
		w.number(s.N)
	}
	w.say(tailWords[s.Op])
}

// inMotif says over what stitches a stitch pattern is worked.
func (w *writer) inMotif(s pattern.Step) {
	w.say("work ")
	if s.Until == pattern.Times {
		w.number(s.N)
		w.say(" " + plural(s.N, "st", "sts") + " ")
	}
	w.say("in " + s.Name)
	if s.Until != pattern.Times {
		w.reach(s)
	}
}

// reach says how far a step goes.
func (w *writer) reach(s pattern.Step) {
	switch s.Until {
	case pattern.ToEnd:
		w.say(" to end")
	case pattern.ToMarker:
		w.say(" to ")
		w.before(s.N)
		w.say("m")
	case pattern.ToLast:
		w.say(" to last")
		if s.N.Is(1) {
			w.say(" st")
			return
		}
		w.say(" ")
		w.number(s.N)
		w.say(" " + plural(s.N, "st", "sts"))
	case pattern.ToGap:
		w.say(" to ")
		w.before(s.N)
		w.say(gapWords[s.Turned])
	}
}

// before says how many stitches before something a step stops, if it does.
func (w *writer) before(n pattern.Number) {
	if n.Known() {
		w.number(n)
		w.say(" " + plural(n, "st", "sts") + " before ")
	}
}

func (w *writer) group(s pattern.Step) {
	if s.Until == pattern.Times {
		w.say("[")
		w.steps(s.Body)
		w.say("] ")
		if s.N.Is(1) {
			w.say("once")
			return
		}
		w.number(s.N)
		w.say(" times")
		return
	}
	w.say("*")
	w.steps(s.Body)
	w.say("; rep from *")
	w.reach(s)
}

// count states what the line leaves.
func (w *writer) count(c *pattern.Count) {
	if c == nil {
		return
	}
	w.role = State
	if c.Change.Known() {
		w.say(" ")
		w.abs(c.Change)
		what := " dec'd."
		if slices.Max(c.Change.Val) > 0 {
			what = " inc'd."
		}
		one := c.Change.Is(1) || c.Change.Is(-1)
		if one {
			w.say(" st" + what)
		} else {
			w.say(" sts" + what)
		}
	}
	if c.Total.Known() {
		w.say(" ")
		w.number(c.Total)
		w.say(" " + plural(c.Total, "st", "sts"))
		if c.Split != nil {
			w.say(": ")
			w.split(c.Split)
		}
		w.say(".")
	}
	w.role = Body
}

func (w *writer) split(split []pattern.Number) {
	for i, s := range split {
		if i > 0 {
			w.say(", ")
		}
		w.number(s)
		w.say(" on N" + strconv.Itoa(i+1))
	}
}

func (w *writer) again(n *pattern.Again) {
	word := map[pattern.Word]string{pattern.FlatRow: "row", pattern.Round: "rnd"}[n.Word]
	switch {
	case n.Times.Is(0): // for these sizes, where others repeat
		w.say("do not repeat ")
		switch n.Rows {
		case 0:
			w.say(n.Which.String())
		case 1:
			w.say("the last " + word)
		default:
			w.say("the last " + strconv.Itoa(int(n.Rows)) + " " + word + "s")
		}
		w.rest(n.Or, n.Total, n.Count, word)
		return
	case n.Rows == 1:
		w.say("work the last " + word + " ")
	case n.Rows > 1:
		w.say("work the last " + strconv.Itoa(int(n.Rows)) + " " + word + "s ")
	case n.Times.Is(1):
		w.say("work " + n.Which.String() + " ")
	default:
		w.say("work " + n.Which.String() + " again on each of the next ")
		w.number(n.Times)
		w.say(" " + word + "s")
		w.rest(n.Or, n.Total, n.Count, word)
		return
	}
	if n.Times.Is(1) {
		w.say("once more")
	} else {
		w.number(n.Times)
		w.say(" more times")
	}
	w.rest(n.Or, n.Total, n.Count, word)
}

// rest ends a line that repeats: the measure that says the same, totals and counts.
func (w *writer) rest(or pattern.Text, total pattern.Number, count *pattern.Count, word string) {
	w.until(or)
	w.total(total, word)
	w.count(count)
}

func (w *writer) until(or pattern.Text) {
	if or != nil {
		w.say(", or until ")
		w.text(or)
	}
	w.say(".")
}

func (w *writer) total(n pattern.Number, word string) {
	if !n.Known() {
		return
	}
	w.role = State
	w.say(" ")
	w.number(n)
	w.say(" " + plural(n, word, word+"s") + " in all.")
	w.role = Body
}

func (w *writer) plain(n *pattern.Plain) {
	word := "work"
	if n.Op != pattern.InMotif {
		word = plainWord(n.Op)
	}
	w.say(word + " ")
	w.number(n.Rounds)
	w.say(" ")
	if n.More {
		w.say("more ")
	}
	w.say(plural(n.Rounds, "rnd", "rnds"))
	if n.Op == pattern.InMotif {
		w.say(" in " + n.Name)
	}
	w.rest(n.Or, n.Total, n.Count, "rnd")
}

// Written is a pattern in words.
type Written struct {
	Text  string
	Spans []source.Span // of each node, by its [pattern.NodeID]
}

// Write prints a pattern as plain text: the title and the headings of sections in capitals
// with an empty line round them, then one instruction a line.
func Write(p *pattern.Pattern) Written {
	count := p.Index()
	out := Written{Spans: make([]source.Span, count+1)}
	var b strings.Builder
	b.Grow(8 << 10)
	var last Line
	for i, l := range Lines(p) {
		if i > 0 && apart(last, l) {
			b.WriteByte('\n')
		}
		start := b.Len()
		if l.Form == Title || l.Form == Heading {
			b.WriteString(strings.ToUpper(l.Words[0].Text))
		} else {
			b.WriteString(l.String())
		}
		if out.Spans[l.Node] == (source.Span{}) {
			out.Spans[l.Node] = source.Span{Start: uint32(start), End: uint32(b.Len())}
		}
		b.WriteByte('\n')
		last = l
	}
	out.Text = b.String()
	return out
}

// apart tells whether an empty line stands between two lines.
func apart(a, b Line) bool {
	if a.Form != Prose && a.Form != Instruction || b.Form != Prose && b.Form != Instruction {
		return true
	}
	listed := func(l Line) bool {
		return l.Form == Instruction || l.Style == pattern.Fact || l.Style == pattern.Term
	}
	return a.Form != b.Form || !listed(a) || !listed(b) || a.Style != b.Style
}

package check

import (
	"fmt"
	"slices"
	"sort"
	"strconv"
	"strings"
	"unicode/utf8"

	"sockwright/internal/knit"
	"sockwright/internal/pattern"
	"sockwright/internal/script"
	"sockwright/internal/source"
	"sockwright/internal/spell"
)

// Margin is the true count of a line after it was worked the first and, where that differs,
// the last time, for all sizes: "60 (64) → 56 (60)"; "30 (32) of 60 (64)" where the others
// rest. A size whose count is not sure has "?", one that does nothing there a dash. It is ""
// for a line in which nothing is worked.
func (r *Report) Margin(line int) string {
	counts := make([]*Count, len(r.Sizes))
	here := r.of(line)
	for i := range here {
		if here[i].Times > 0 {
			counts[here[i].Size] = &here[i] // the last of a line that holds several rows
		}
	}
	if len(here) == 0 {
		return ""
	}
	list := func(figure func(*Count) int) string {
		out := make([]string, len(counts))
		for i, c := range counts {
			if out[i] = "–"; c != nil {
				out[i] = countOf(figure(c), c.Sure)
			}
		}
		return SizeList(out)
	}
	first := list(func(c *Count) int { return c.First.Worked })
	last := list(func(c *Count) int { return c.Last.Worked })
	total := list(func(c *Count) int { return c.Last.Total })
	out := last
	if first != last {
		out = first + " → " + last
	}
	if total != last {
		out += " of " + total
	}
	return out
}

// of is the counts of a line, by size.
func (r *Report) of(line int) []Count {
	from := sort.Search(len(r.Counts), func(i int) bool { return r.Counts[i].Line >= line })
	to := from
	for to < len(r.Counts) && r.Counts[to].Line == line {
		to++
	}
	return r.Counts[from:to]
}

// works tells whether a line is an instruction. In the program's own layout that is known,
// for it was worked or is told to be unread; elsewhere it is what the line was read as.
func (r *Report) works(line int) bool {
	if r.own {
		at := r.File.LineSpan(line)
		return len(r.of(line)) > 0 || slices.ContainsFunc(r.Faults, func(x source.Fault) bool {
			return x.Kind == source.Unread && x.At.Start >= at.Start && x.At.End <= at.End && x.At.Known()
		})
	}
	role := r.Words.Lines[line-1].Role
	return role == script.Worked || role == script.Unread
}

func countOf(n int, sure bool) string {
	if n < 0 || !sure {
		return "?"
	}
	return strconv.Itoa(n)
}

// SizeList is one value for each size as patterns print it: "56 (60, 64)", one alone where
// all are equal.
func SizeList(values []string) string {
	return pattern.List(pattern.FoldStrings(values))
}

// Annotated is the text with the number of every line and its true counts in front.
func (r *Report) Annotated() string {
	margins := make([]string, r.File.Lines()+1)
	width := utf8.RuneCountInString(r.sizeNames())
	for _, c := range r.Counts {
		if margins[c.Line] == "" {
			margins[c.Line] = r.Margin(c.Line)
			width = max(width, utf8.RuneCountInString(margins[c.Line]))
		}
	}
	var b strings.Builder
	row := func(number, margin, text string) {
		pad := strings.Repeat(" ", width-utf8.RuneCountInString(margin))
		fmt.Fprintln(&b, strings.TrimRight(fmt.Sprintf("%5s  %s%s  │ %s", number, margin, pad, text), " "))
	}
	row("line", r.sizeNames(), "")
	for n := 1; n <= r.lines(); n++ {
		row(strconv.Itoa(n), margins[n], r.File.Line(n))
	}
	return b.String()
}

// lines is how many lines the text has, without what is behind the last line end.
func (r *Report) lines() int {
	n := r.File.Lines()
	if r.File.Line(n) == "" {
		n--
	}
	return n
}

func (r *Report) sizeNames() string {
	if len(r.Sizes) == 1 {
		return "sts"
	}
	return SizeList(r.Sizes)
}

// On is what is on the needles after a line in one size.
type On struct {
	Line   int      `json:"line"`
	Label  string   `json:"label"`
	Size   string   `json:"size"`
	Times  int      `json:"times"` // how often the line is worked; 0: it does nothing in this size
	First  Stitches `json:"first"` // after it was worked once
	Last   Stitches `json:"last"`  // after the last time
	Sure   bool     `json:"sure"`
	Stated []string `json:"stated"` // what the words of the line state for this size
}

// Stitches are those that are worked and those that rest. A figure that is not known is -1.
type Stitches struct {
	Worked  int `json:"worked"`
	Resting int `json:"resting"`
	Total   int `json:"total"`
}

func stitches(s knit.Stitches) Stitches {
	if s.Total < 0 || s.Worked < 0 {
		return Stitches{-1, -1, -1}
	}
	return Stitches{s.Worked, s.Total - s.Worked, s.Total}
}

// String is the stitches in words: "32 sts in work, 32 resting, 64 in all".
func (s Stitches) String() string {
	switch {
	case s.Total < 0:
		return "not known"
	case s.Resting == 0:
		return source.InSts(s.Total)
	}
	return fmt.Sprintf("%s in work, %d resting, %d in all", source.InSts(s.Worked), s.Resting, s.Total)
}

// A NotThere says that a line or a size that was asked for does not answer, and what would.
type NotThere struct{ What, Mend string }

func (n *NotThere) Error() string { return n.What }

// At is what should be on the needles after each row of a line, in a size. The error is a
// [*NotThere].
func (r *Report) At(line int, size string) ([]On, error) {
	i := slices.Index(r.Sizes, size)
	if i < 0 && size == "" && len(r.Sizes) == 1 {
		i = 0
	}
	if i < 0 {
		return nil, r.noSize(size)
	}
	var out []On
	for _, c := range r.of(line) {
		if c.Size == i {
			out = append(out, On{line, c.Label, r.Sizes[i], c.Times, stitches(c.First), stitches(c.Last), c.Sure, r.stated(line, i)})
		}
	}
	if out == nil {
		return nil, r.noLine(line, i)
	}
	return out, nil
}

func (r *Report) noSize(size string) error {
	names := strings.Join(r.Sizes, ", ")
	if len(r.Sizes) == 1 {
		return &NotThere{fmt.Sprintf("no size is called “%s”: there is one size, %s", size, names), "leave --size out"}
	}
	if size == "" {
		return &NotThere{"which size? the pattern has " + names, "name one with --size"}
	}
	mend := "name one of them with --size"
	if near := spell.Nearest(size, r.Sizes); near != "" {
		mend = "did you mean " + near + "?"
	}
	return &NotThere{fmt.Sprintf("no size is called “%s”: the sizes are %s", size, names), mend}
}

func (r *Report) noLine(line, size int) error {
	if line < 1 || line > r.lines() {
		return &NotThere{fmt.Sprintf("there is no line %d: the text has %d", line, r.lines()), "lines count from 1; --counts prints their numbers"}
	}
	nearest := 0
	for _, c := range r.Counts {
		if c.Size == size && (nearest == 0 || distance(c.Line, line) < distance(nearest, line)) {
			nearest = c.Line
		}
	}
	what := fmt.Sprintf("line %d is not worked in size %s", line, r.Sizes[size])
	if len(r.Sizes) == 1 {
		what = fmt.Sprintf("line %d is not worked", line)
	}
	if nearest == 0 {
		return &NotThere{what + ", and no other line is", "check whether this is the file you meant"}
	}
	return &NotThere{what, fmt.Sprintf("the nearest line that is worked is %d: %s", nearest, clip(r.File.Line(nearest)))}
}

func distance(a, b int) int { return max(a-b, b-a) }

// clip is the beginning of a line, for messages.
func clip(s string) string {
	const most = 72
	s = strings.Join(strings.Fields(s), " ")
	if runes := []rune(s); len(runes) > most {
		return string(runes[:most-1]) + "…"
	}
	return s
}

// stated lists the counts that the words of a line state for a size.
func (r *Report) stated(line, size int) []string {
	out := []string{}
	if line > len(r.Words.Lines) {
		return out
	}
	for c := range in[script.Claim](r.Words.Lines[line-1]) {
		if !c.N.Known() || c.N.In(size) == pattern.Gap {
			continue
		}
		n, unit := int(c.N.In(size)), unitOfClaim(c)
		switch {
		case c.What == script.Change && n < 0:
			out = append(out, source.InSts(-n)+" fewer")
		case c.What == script.Change:
			out = append(out, source.InSts(n)+" more")
		case unit != "":
			out = append(out, strings.TrimSpace(source.InSts(n)+unit))
		}
	}
	return out
}

// unitOfClaim is what a claim is about, in words behind "64 sts"; "" if not about stitches on
// the needles.
func unitOfClaim(c script.Claim) string {
	part, named := claimParts[c.Part]
	switch {
	case c.What == script.OfPart && named:
		return " of the " + part
	case c.What == script.OnNdl && c.Needle > 0:
		return fmt.Sprintf(" on needle %d", c.Needle)
	}
	return claimUnits[c.What]
}

var claimParts = map[script.Part]string{
	script.Heel: "heel", script.Gusset: "gusset", script.Instep: "instep", script.Sole: "sole",
	script.Foot: "foot", script.Toe: "toe", script.Middle: "middle", script.Flank: "side",
}

// claimUnits are the claims that are about stitches on the needles, in words behind "64 sts".
var claimUnits = map[script.What]string{
	script.Live: " ", script.Total: " in all", script.OfPart: " of one part", script.OnNdl: " on one needle",
	script.EachNdl: " on each needle", script.Change: " of change",
}

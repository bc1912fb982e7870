package main

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"unicode"

	"sockwright/internal/check"
	"sockwright/internal/publish"
	"sockwright/internal/source"
)

// show prints a file in the way that is asked for, or puts that into its document.
func (c *checkCmd) show(t *terminal, x *checked) error {
	switch {
	case c.Text && x.doc.ReadsAs == "pattern":
		if !c.JSON {
			c.page(t, x, x.Text)
		}
		return nil
	case x.pattern == nil:
	case c.Report:
		return c.report(t, x)
	case c.Counts:
		return c.counts(t, x)
	case c.At != nil:
		return c.at(t, x)
	case c.Fix:
		return c.fix(t, x)
	case c.Queries:
		return c.ask(t, x)
	case c.SignOff:
		return c.signOff(t, x)
	}
	if !c.JSON {
		x.plain(t)
	}
	return nil
}

// page prints what a file holds, with its name in front where there are several.
func (c *checkCmd) page(t *terminal, x *checked, text string) {
	if len(c.Files) > 1 {
		fmt.Fprintf(t.out, "==> %s <==\n", x.Name)
	}
	fmt.Fprint(t.out, harmless(text))
}

// harmless keeps what a file holds from steering the terminal, and its lines as they are.
func harmless(text string) string {
	return strings.Map(func(r rune) rune {
		if r != '\n' && r != '\t' && r != '\r' && unicode.IsControl(r) {
			return '\ufffd'
		}
		return r
	}, text)
}

func (c *checkCmd) report(t *terminal, x *checked) error {
	v := x.pattern.Review()
	v.Findings, v.Queries = findings(x.File, x.doc.Sizes, source.Together(x.File, x.faults)), x.queries
	x.doc.Report, x.doc.Queries = v, x.byLine()
	if !c.JSON {
		c.page(t, x, v.Text())
	}
	return nil
}

func (c *checkCmd) counts(t *terminal, x *checked) error {
	if !c.JSON {
		c.page(t, x, x.pattern.Annotated())
		t.print(x.File, x.doc.Sizes, x.faults)
		return nil
	}
	for n := 1; n <= x.Lines(); n++ {
		if m := x.pattern.Margin(n); m != "" {
			x.doc.Margin = append(x.doc.Margin, checkMargin{n, m})
		}
	}
	return nil
}

func (c *checkCmd) at(t *terminal, x *checked) error {
	ons, err := x.pattern.At(*c.At, c.Size)
	var not *check.NotThere
	if errors.As(err, &not) {
		return &refusal{fmt.Sprintf("%s: %s", x.Name, not.What), not.Mend}
	}
	if err != nil {
		return err
	}
	if x.doc.At = ons; c.JSON {
		return nil
	}
	fmt.Fprintf(t.out, "line %d: %s\n", *c.At, harmless(strings.TrimSpace(x.Line(*c.At))))
	for _, on := range ons {
		of := ""
		if len(x.doc.Sizes) > 1 {
			of = ", size " + on.Size
		}
		fmt.Fprintf(t.out, "%s%s:\n", on.Label, of)
		switch {
		case on.Times == 0:
			fmt.Fprintf(t.out, "    nothing is done in this size: %s\n", on.Last)
		case on.Times > 1 && on.First != on.Last:
			fmt.Fprintf(t.out, "    after the first time: %s\n    after the last of %d times: %s\n", on.First, on.Times, on.Last)
		default:
			fmt.Fprintf(t.out, "    %s\n", on.Last)
		}
		if !on.Sure {
			fmt.Fprintln(t.out, "    this is not sure: something before it could not be read or followed")
		}
	}
	if stated := ons[0].Stated; len(stated) > 0 {
		fmt.Fprintf(t.out, "the line states: %s\n", harmless(strings.Join(stated, ", ")))
	}
	var here, elsewhere []source.Fault
	for i, f := range x.doc.Faults {
		if f.Line == *c.At {
			here = append(here, x.faults[i])
		} else {
			elsewhere = append(elsewhere, x.faults[i])
		}
	}
	t.print(x.File, x.doc.Sizes, here)
	if n := len(source.Together(x.File, elsewhere)); n > 0 {
		fmt.Fprintf(t.err, "%s elsewhere: see sockwright check %s\n", count(n, "finding", "findings"), x.Name)
	}
	return nil
}

// checkFix is what --fix does.
type checkFix struct {
	Diff    string           `json:"diff"`
	Edits   int              `json:"edits"`
	Mended  []source.Finding `json:"mended"`
	Skipped []source.Finding `json:"skipped"` // because they touch the words of another mend
	Open    []source.Finding `json:"open"`    // for a person to mend
	Written bool             `json:"written"`
	Left    []source.Finding `json:"left"` // what the mended text has left
}

func (c *checkCmd) fix(t *terminal, x *checked) error {
	repair := check.Mend(x.File, x.faults)
	find := func(faults []source.Fault) []source.Finding { return findings(x.File, x.doc.Sizes, faults) }
	doc := &checkFix{Diff: repair.Diff(), Edits: len(repair.Edits), Mended: find(repair.Mended), Skipped: find(repair.Skipped), Open: find(repair.Open)}
	x.doc.Fix = doc
	after, left := x.mended(t, repair)
	doc.Left = findings(after, x.doc.Sizes, left)
	worse := errorsIn(left) > errorsIn(x.faults)
	switch {
	case !c.Write || len(repair.Edits) == 0:
	case worse:
		return &refusal{fmt.Sprintf("%s is left as it is: with the mends it would have %s, and now it has %d", x.Name, count(errorsIn(left), "error", "errors"), errorsIn(x.faults)),
			"make the mends that are right by hand: --fix without --write shows them"}
	default:
		if err := write(x.File, repair); err != nil {
			return err
		}
		doc.Written = true
	}
	had := len(x.faults)
	if doc.Written {
		x.faults = left // they decide the exit status
	}
	if c.JSON {
		return nil
	}
	c.page(t, x, doc.Diff)
	for _, f := range doc.Skipped {
		fmt.Fprintf(t.err, "%s:%d:%d: not mended: this mend touches the words of another; check again afterwards\n", x.Name, f.Line, f.Column)
	}
	if had == 0 {
		fmt.Fprintf(t.err, "%s: no findings, so nothing to mend\n", x.Name)
		return nil
	}
	verb := "can be mended"
	if doc.Written {
		verb = "mended"
	}
	fmt.Fprintf(t.err, "%s: %s of %s %s; %s left\n", x.Name, thousands(len(repair.Mended)), count(had, "finding", "findings"), verb, thousands(len(left)))
	t.print(after, x.doc.Sizes, left)
	return nil
}

func errorsIn(faults []source.Fault) int {
	n := 0
	for _, f := range faults {
		if f.Severity == source.Error {
			n++
		}
	}
	return n
}

// mended checks the text that the mends would leave.
func (x *checked) mended(t *terminal, repair *check.Repair) (*source.File, []source.Fault) {
	after := source.NewFile(x.Name, repair.Text())
	r := checkPattern(t, after, x.style)
	if x.queries == nil {
		return after, r.Faults
	}
	x.queries.Ask(r)
	left, _ := x.queries.Silence(r)
	return after, left
}

// write puts the mended text into the place of the file. All bytes but those of the edits
// are as they were.
func write(f *source.File, repair *check.Repair) error {
	const mend = "save the text as plain .txt in UTF-8, or make the mends by hand: --fix without --write shows them"
	if f.Name == stdinName {
		return &refusal{"standard input cannot be written to", "name a file"}
	}
	_, data, err := load(f.Name)
	if err != nil {
		return err
	}
	if !strings.EqualFold(filepath.Ext(f.Name), ".txt") {
		return &refusal{f.Name + " is no plain text: the mends cannot be put into it", mend}
	}
	mark, isPlain := strings.CutSuffix(string(data), f.Text) // a byte-order mark, if anything
	if !isPlain || mark != "" && mark != "\ufeff" {
		return &refusal{f.Name + " is not in UTF-8, or has been changed meanwhile: it is left as it is", mend}
	}
	if err := publish.Replace(f.Name, []byte(mark+repair.Text())); err != nil {
		return &refusal{fmt.Sprintf("%s cannot be written: %v", f.Name, why(err)), "check the permissions of the file and its folder"}
	}
	return nil
}

// ask brings the file of queries up to the pattern.
func (c *checkCmd) ask(t *terminal, x *checked) error {
	name := check.QueriesName(x.Name)
	if x.queries == nil { // its file is at fault, which has been told
		return nil
	}
	if len(x.queries.All) > 0 {
		text, err := x.queries.Text(x.Name)
		if err != nil {
			return &refusal{fmt.Sprintf("%s cannot be brought up without losing something: %v", name, err), "write each query as a table of its own, [[query]], with its keys below"}
		}
		_, before, err := load(name)
		if mark := "\ufeff"; strings.HasPrefix(string(before), mark) {
			text = mark + text
		}
		if err != nil || string(before) != text {
			if err := publish.Replace(name, []byte(text)); err != nil {
				return &refusal{fmt.Sprintf("%s cannot be written: %v", name, why(err)), "check the permissions of the folder"}
			}
		}
	}
	if x.doc.Queries = x.byLine(); c.JSON {
		return nil
	}
	for _, line := range x.queries.Told {
		fmt.Fprintln(t.out, line)
	}
	fmt.Fprintf(t.out, "%s: %s, %d open\n", name, count(len(x.queries.All), "query", "queries"), x.queries.Open())
	t.print(x.File, x.doc.Sizes, onlyErrors(x.faults))
	return nil
}

func onlyErrors(faults []source.Fault) (out []source.Fault) {
	for _, f := range faults {
		if f.Severity == source.Error {
			out = append(out, f)
		}
	}
	return out
}

// signOff lists the queries with their answers.
func (c *checkCmd) signOff(t *terminal, x *checked) error {
	if x.queries == nil {
		return nil
	}
	if x.doc.Queries = x.byLine(); c.JSON {
		return nil
	}
	for _, q := range x.queries.ByLine() {
		fmt.Fprintln(t.out, harmless(q.String()))
	}
	fmt.Fprintf(t.out, "%s: %s, %d open\n", x.Name, count(len(x.queries.All), "query", "queries"), x.queries.Open())
	t.print(x.File, x.doc.Sizes, onlyErrors(x.faults))
	return nil
}

func (x *checked) byLine() []*check.Query {
	if x.queries == nil {
		return nil
	}
	return x.queries.ByLine()
}

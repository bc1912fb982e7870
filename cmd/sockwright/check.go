package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"sockwright/internal/check"
	"sockwright/internal/publish"
	"sockwright/internal/source"
)

type checkCmd struct {
	Files   []string `arg:"" name:"file" help:"Written patterns (.txt, .pdf, .docx, .odt, .html, .md) or design files (.toml), or - for a pattern from standard input."`
	Report  bool     `xor:"show" help:"Print a report that an editor can sign."`
	Counts  bool     `xor:"show" help:"Print the pattern with its true counts in the margin."`
	At      *int     `xor:"show" placeholder:"LINE" help:"Say what is on the needles after a line."`
	Size    string   `placeholder:"SIZE" help:"The size that --at is asked for."`
	Fix     bool     `xor:"show" help:"Show the mends that can be made as a diff."`
	Write   bool     `help:"Make the mends that --fix shows, in the file itself (.txt)."`
	Text    bool     `xor:"show" help:"Print the text that is read, whose lines and columns are told."`
	Queries bool     `xor:"show" help:"Ask what only the designer can answer, in NAME.queries.toml beside the pattern."`
	SignOff bool     `xor:"show" help:"List all queries with their answers; any that is open is a fault."`
	Style   string   `placeholder:"FILE" help:"Hold the words against a style sheet, too."`
	JSON    bool     `name:"json" help:"Print the findings as a JSON document."`
}

func (checkCmd) example() string {
	return "sockwright write examples/slate-quay.toml -o out && sockwright check out/slate-quay.txt"
}

// checkDocument is sockwright/check/1.
type checkDocument struct {
	Schema string      `json:"schema"`
	Files  []checkFile `json:"files"`
}

type checkFile struct {
	File    string           `json:"file"`
	ReadsAs string           `json:"reads_as"` // "pattern", "design", "queries" or "style"
	Sizes   []string         `json:"sizes"`
	Faults  []source.Finding `json:"faults"`
	Counts  []checkCount     `json:"counts"`
	Final   map[string]*int  `json:"final_counts"`

	Answered []source.Finding `json:"answered,omitempty"` // silenced by a query
	Report   *check.Review    `json:"report,omitempty"`
	Margin   []checkMargin    `json:"margin,omitempty"`
	At       []check.On       `json:"at,omitempty"`
	Fix      *checkFix        `json:"fix,omitempty"`
	Text     string           `json:"text,omitempty"`
	Queries  []*check.Query   `json:"queries,omitempty"`
}

type checkCount struct {
	Line   int    `json:"line"`
	Label  string `json:"label"`
	Size   string `json:"size"`
	Worked int    `json:"worked"`
	Total  int    `json:"total"`
	Time   string `json:"time"` // "first" or "last"
	Sure   bool   `json:"sure"`
}

type checkMargin struct {
	Line   int    `json:"line"`
	Counts string `json:"counts"`
}

// checked is one file with all that is known of it.
type checked struct {
	*source.File
	doc      checkFile
	pattern  *check.Report  // nil for a file that is no pattern
	style    *check.Style   // that it was held against; nil if none
	queries  *check.Queries // nil where none are kept and none are asked for
	faults   []source.Fault // to be told
	answered []source.Fault // of which a query has said enough
}

func (c *checkCmd) Run(t *terminal) error {
	if err := c.sound(); err != nil {
		return err
	}
	doc := checkDocument{Schema: "sockwright/check/1", Files: []checkFile{}}
	var files []*source.File
	for _, name := range c.Files { // all of them first: one that is missing must not lose the others' findings
		f, err := c.open(name)
		if err != nil {
			return err
		}
		files = append(files, f)
	}
	var all []source.Fault
	tell := func(x *checked) error { // x.faults may be fewer once it is shown
		err := c.show(t, x)
		if all = append(all, x.faults...); err == nil {
			doc.Files = append(doc.Files, x.doc)
		}
		return err
	}
	style, fault, err := c.style()
	if err != nil {
		return err
	}
	if fault != nil {
		if err := tell(fault); err != nil {
			return err
		}
	}
	step, done := progress(t.err, "checking")
	defer done()
	open := 0
	for i, f := range files {
		found, err := c.check(t, f, style)
		for _, x := range found {
			if err == nil {
				err = tell(x)
			}
			if c.SignOff && x.queries != nil {
				open += x.queries.Open()
			}
		}
		if err != nil {
			return err
		}
		step(i+1, len(files))
	}
	done()
	if c.JSON {
		if err := printJSON(t.out, doc); err != nil {
			return err
		}
	}
	if open > 0 {
		return exit(statusFaults)
	}
	return t.status(all)
}

// sound holds the flags against each other.
func (c *checkCmd) sound() error {
	switch {
	case c.Size != "" && c.At == nil:
		return &refusal{"--size says which size --at is asked for, and there is no --at", "add --at and the number of a line"}
	case c.Write && !c.Fix:
		return &refusal{"--write makes the mends that --fix shows, and there is no --fix", "add --fix"}
	case c.At != nil && len(c.Files) > 1:
		return &refusal{"--at is asked of one pattern", "name one file"}
	}
	return nil
}

// patternsOnly is the flag that is given and makes sense for patterns only, "" if there is none.
func (c *checkCmd) patternsOnly() string {
	for _, flag := range []struct {
		name  string
		given bool
	}{{"--report", c.Report}, {"--counts", c.Counts}, {"--at", c.At != nil}, {"--fix", c.Fix}, {"--text", c.Text}, {"--queries", c.Queries}, {"--sign-off", c.SignOff}} {
		if flag.given {
			return flag.name
		}
	}
	return ""
}

func isTOML(name string) bool { return strings.EqualFold(filepath.Ext(name), ".toml") }

func isQueries(name string) bool { return strings.HasSuffix(strings.ToLower(name), ".queries.toml") }

func (c *checkCmd) open(name string) (*source.File, error) {
	if !isTOML(name) {
		return openText(name)
	}
	if flag := c.patternsOnly(); flag != "" {
		return nil, &refusal{flag + " is for written patterns, and " + name + " is none", "name a pattern, such as the one that write makes of a design"}
	}
	return open(name)
}

// style reads the style sheet. One that is at fault is told as a file of its own, and nothing
// is held against it.
func (c *checkCmd) style() (*check.Style, *checked, error) {
	if c.Style == "" {
		return nil, nil, nil
	}
	f, err := open(c.Style)
	if err != nil {
		return nil, nil, err
	}
	s, faults := check.ReadStyle(f)
	if len(faults) == 0 {
		return s, nil, nil
	}
	return s, beside(f, "style", faults), nil
}

// beside is a file that goes with patterns, with its faults.
func beside(f *source.File, readsAs string, faults []source.Fault) *checked {
	x := &checked{File: f, faults: faults}
	x.doc = checkFile{File: f.Name, ReadsAs: readsAs, Sizes: []string{}, Counts: []checkCount{}, Final: map[string]*int{}, Faults: findings(f, nil, faults)}
	return x
}

// check checks a file; a file of queries beside it that is at fault is told before it.
func (c *checkCmd) check(t *terminal, f *source.File, style *check.Style) ([]*checked, error) {
	switch {
	case c.Text:
		x := beside(f, "pattern", nil)
		x.doc.Text = f.Text
		return []*checked{x}, nil
	case isQueries(f.Name):
		_, faults := check.ReadQueries(f)
		return []*checked{beside(f, "queries", faults)}, nil
	case isTOML(f.Name):
		draft, _, faults := publish.Grade(f)
		x := beside(f, "design", faults)
		if draft != nil {
			x.doc.Sizes = draft.Names()
			x.doc.Faults = findings(f, x.doc.Sizes, faults)
		}
		return []*checked{x}, nil
	}
	x := &checked{File: f, pattern: checkPattern(t, f, style), style: style}
	x.faults = x.pattern.Faults
	kept, fault, err := c.kept(f)
	if err != nil {
		return nil, err
	}
	if x.queries = kept; kept != nil {
		kept.Ask(x.pattern)
		x.faults, x.answered = kept.Silence(x.pattern)
	}
	x.doc = x.patternDocument()
	if fault != nil {
		return []*checked{fault, x}, nil
	}
	return []*checked{x}, nil
}

// checkPattern checks a pattern, and its words against a style sheet if there is one.
func checkPattern(t *terminal, f *source.File, style *check.Style) *check.Report {
	r := check.Pattern(f)
	if style != nil {
		severity := source.Note
		if t.strict {
			severity = source.Warning
		}
		r.Faults = source.Merge(append(r.Faults, r.Style(style, severity)...))
	}
	return r
}

// kept reads the queries about a pattern, if there are any or they are asked for. A file of
// queries that is at fault is told as a file of its own.
func (c *checkCmd) kept(f *source.File) (*check.Queries, *checked, error) {
	if f.Name == stdinName && c.Queries {
		return nil, nil, &refusal{"queries are kept beside a pattern, and standard input has no place", "name a file"}
	}
	name := check.QueriesName(f.Name)
	file := source.NewFile(name, "")
	if _, err := os.Stat(name); err == nil && f.Name != stdinName {
		if file, err = open(name); err != nil {
			return nil, nil, err
		}
	} else if !c.Queries && !c.SignOff {
		return nil, nil, nil
	}
	q, faults := check.ReadQueries(file)
	if len(faults) > 0 {
		return q, beside(file, "queries", faults), nil
	}
	return q, nil, nil
}

func (x *checked) patternDocument() checkFile {
	r := x.pattern
	out := checkFile{File: x.Name, ReadsAs: "pattern", Sizes: r.Sizes, Counts: []checkCount{}, Final: map[string]*int{},
		Faults: findings(x.File, r.Sizes, x.faults)}
	if len(x.answered) > 0 {
		out.Answered = findings(x.File, r.Sizes, x.answered)
	}
	for _, n := range r.Counts {
		add := func(worked, total int, time string) {
			if total >= 0 {
				out.Counts = append(out.Counts, checkCount{n.Line, n.Label, r.Sizes[n.Size], worked, total, time, n.Sure})
			}
		}
		add(n.First.Worked, n.First.Total, "first")
		if n.Last != n.First {
			add(n.Last.Worked, n.Last.Total, "last")
		}
	}
	for i, n := range r.Final {
		if n >= 0 && len(r.Counts) > 0 { // where nothing is worked there is nothing to tell
			out.Final[r.Sizes[i]] = &n
		} else {
			out.Final[r.Sizes[i]] = nil
		}
	}
	return out
}

// plain prints findings, or that there are none.
func (x *checked) plain(t *terminal) {
	t.print(x.File, x.doc.Sizes, x.faults)
	if len(x.faults) > 0 || x.doc.ReadsAs == "style" {
		return
	}
	what := "no fault in " + count(max(1, len(x.doc.Sizes)), "size", "sizes")
	if x.doc.ReadsAs == "queries" {
		what = "no fault"
	}
	if n := len(x.answered); n > 0 {
		what += fmt.Sprintf(" (%s answered in %s)", count(n, "finding", "findings"), filepath.Base(check.QueriesName(x.Name)))
	}
	fmt.Fprintf(t.out, "%s: %s\n", x.Name, what)
}

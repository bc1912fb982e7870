package main

import (
	"fmt"
	"path/filepath"
	"strings"

	"sockwright/internal/check"
	"sockwright/internal/publish"
	"sockwright/internal/source"
)

type checkCmd struct {
	Files []string `arg:"" name:"file" help:"Written patterns (.txt) or design files (.toml), or - for a pattern from standard input."`
	JSON  bool     `name:"json" help:"Print the findings as a JSON document."`
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
	ReadsAs string           `json:"reads_as"`
	Sizes   []string         `json:"sizes"`
	Faults  []source.Finding `json:"faults"`
	Counts  []checkCount     `json:"counts"`
	Final   map[string]*int  `json:"final_counts"`
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

func (c *checkCmd) Run(t *terminal) error {
	doc := checkDocument{Schema: "sockwright/check/1", Files: []checkFile{}}
	var all []source.Fault
	step, done := progress(t.err, "checking")
	var files []*source.File
	for _, name := range c.Files { // all of them first: one that is missing must not lose the others' findings
		f, err := open(name)
		if err != nil {
			return err
		}
		files = append(files, f)
	}
	for i, f := range files {
		one, faults := checkOne(f)
		all = append(all, faults...)
		doc.Files = append(doc.Files, one)
		step(i+1, len(files))
		if c.JSON {
			continue
		}
		if t.print(f, one.Sizes, faults); len(faults) == 0 {
			fmt.Fprintf(t.out, "%s: no fault in %s\n", f.Name, count(max(1, len(one.Sizes)), "size", "sizes"))
		}
	}
	done()
	if c.JSON {
		if err := printJSON(t.out, doc); err != nil {
			return err
		}
	}
	return t.status(all)
}

func checkOne(f *source.File) (checkFile, []source.Fault) {
	out := checkFile{File: f.Name, ReadsAs: "pattern", Sizes: []string{}, Counts: []checkCount{}, Final: map[string]*int{}}
	if strings.EqualFold(filepath.Ext(f.Name), ".toml") {
		out.ReadsAs = "design"
		draft, _, faults := publish.Grade(f)
		if draft != nil {
			out.Sizes = draft.Names()
		}
		out.Faults = findings(f, out.Sizes, faults)
		return out, faults
	}
	r := check.Pattern(f)
	out.Sizes = r.Sizes
	out.Faults = findings(f, r.Sizes, r.Faults)
	for _, x := range r.Counts {
		add := func(worked, total int, time string) {
			if total >= 0 {
				out.Counts = append(out.Counts, checkCount{x.Line, x.Label, r.Sizes[x.Size], worked, total, time, x.Sure})
			}
		}
		add(x.First.Worked, x.First.Total, "first")
		if x.Last != x.First {
			add(x.Last.Worked, x.Last.Total, "last")
		}
	}
	for i, n := range r.Final {
		if n >= 0 && len(r.Counts) > 0 { // where nothing is worked there is nothing to tell
			out.Final[r.Sizes[i]] = &n
		} else {
			out.Final[r.Sizes[i]] = nil
		}
	}
	return out, r.Faults
}

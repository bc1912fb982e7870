package main

import (
	"errors"
	"fmt"
	"path/filepath"
	"time"

	"sockwright/internal/publish"
	"sockwright/internal/source"
)

type writeCmd struct {
	Design     string `arg:"" help:"Design file, or - for standard input."`
	Out        string `short:"o" required:"" placeholder:"DIR" help:"Folder for the files; it is made if need be."`
	Only       string `placeholder:"SIZE" help:"Write one size alone, without brackets."`
	LeftHanded bool   `help:"Write it for somebody who knits from left to right: the mirror image."`
	TwoAtATime bool   `name:"two-at-a-time" help:"Write it for both socks at a time on one long needle, for magic loop."`
	JSON       bool   `name:"json" help:"Print what was written as a JSON document."`
	Timings    bool   `help:"Say how long it took."`
}

func (writeCmd) example() string { return "sockwright write examples/slate-quay.toml -o out --only M" }

// writeDocument is sockwright/write/1.
type writeDocument struct {
	Schema  string           `json:"schema"`
	Title   string           `json:"title"`
	Sizes   []string         `json:"sizes"`
	Files   []writtenFile    `json:"files"`
	Loops   int              `json:"loops_knitted"`
	Proven  []string         `json:"sizes_proven"`
	Faults  []source.Finding `json:"faults"`
	Timings *writeTimings    `json:"timings,omitempty"`
}

type writtenFile struct {
	Name   string `json:"name"`
	SHA256 string `json:"sha256"`
	Bytes  int    `json:"bytes"`
}

type writeTimings struct {
	MakeMS float64 `json:"make_ms"`
	FileMS float64 `json:"file_ms"`
}

func (c *writeCmd) Run(t *terminal) error {
	f, err := open(c.Design)
	if err != nil {
		return err
	}
	start := time.Now()
	step, done := progress(t.err, "proving sizes")
	options := publish.Options{Only: c.Only, LeftHanded: c.LeftHanded, TwoAtATime: c.TwoAtATime, Step: step}
	if f.Name == stdinName {
		options.Name = "pattern"
	}
	book, faults, err := publish.Make(f, options)
	done()
	var bad *publish.Unproven
	if errors.As(err, &bad) {
		fmt.Fprintf(t.err, "sockwright: this is a failure of the program: %v\nPlease report it with the design file and these lines:\n", err)
		t.print(bad.Proof.Text, nil, bad.Proof.Faults)
		return exit(statusFailure)
	}
	if err != nil {
		return err
	}
	made := time.Now()
	doc := writeDocument{Schema: "sockwright/write/1", Sizes: []string{}, Files: []writtenFile{}, Proven: []string{}}
	if book == nil {
		if draft, _, _ := publish.Grade(f); draft != nil { // whose sizes the faults speak of
			doc.Title, doc.Sizes = draft.Title, draft.Names()
		}
		return c.finish(t, f, doc, faults)
	}
	doc.Title, doc.Sizes = book.Pattern.Title, book.Draft.Names()
	if t.status(faults) != nil {
		return c.finish(t, f, doc, faults)
	}
	if err := book.WriteTo(c.Out, c.Design); err != nil {
		return &refusal{err.Error(), "give a folder that can be written to with -o"}
	}
	doc.Loops = book.Proof.Loops()
	for _, s := range book.Proof.Sizes {
		doc.Proven = append(doc.Proven, s.Name)
	}
	for _, x := range book.Files {
		doc.Files = append(doc.Files, writtenFile{x.Name, x.SHA256(), len(x.Data)})
	}
	if c.Timings {
		doc.Timings = &writeTimings{ms(made.Sub(start)), ms(time.Since(made))}
	}
	return c.finish(t, f, doc, faults)
}

func ms(d time.Duration) float64 { return float64(d.Microseconds()) / 1000 }

func (c *writeCmd) finish(t *terminal, f *source.File, doc writeDocument, faults []source.Fault) error {
	if c.JSON {
		doc.Faults = findings(f, doc.Sizes, faults)
		if err := printJSON(t.out, doc); err != nil {
			return err
		}
		return t.status(faults)
	}
	for _, x := range doc.Files {
		fmt.Fprintln(t.out, filepath.Join(c.Out, x.Name))
	}
	if len(doc.Proven) > 0 {
		fmt.Fprintf(t.err, "proven: %s, %s knitted from the printed words\n", count(len(doc.Proven), "size", "sizes"), count(doc.Loops, "loop", "loops"))
	}
	if doc.Timings != nil {
		fmt.Fprintf(t.err, "made in %.1f ms, filed in %.1f ms\n", doc.Timings.MakeMS, doc.Timings.FileMS)
	}
	return t.report(f, doc.Sizes, faults)
}

package main

import (
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"time"

	"charm.land/lipgloss/v2"
	"github.com/vbauerster/mpb/v8"
	"github.com/vbauerster/mpb/v8/decor"

	"sockwright/internal/source"
)

// Colours are for terminals: lipgloss leaves them out of files and pipes, and obeys NO_COLOR.
var severityStyle = map[string]lipgloss.Style{
	"error":   lipgloss.NewStyle().Foreground(lipgloss.Color("1")).Bold(true),
	"warning": lipgloss.NewStyle().Foreground(lipgloss.Color("3")).Bold(true),
	"note":    lipgloss.NewStyle().Faint(true),
}

func printFinding(w io.Writer, file string, f source.Finding) {
	text := f.String()
	first, rest, more := strings.Cut(text, "\n")
	if f.Line == 0 {
		first = " " + first
	}
	if more {
		rest = "\n" + rest
	}
	lipgloss.Fprintln(w, severityStyle[f.Severity].Render(file+":"+first)+rest)
}

func printJSON(w io.Writer, document any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(document)
}

// progress returns a function that shows how far a piece of work is, on a terminal, once it
// has taken long enough to wonder; done clears it away.
func progress(w io.Writer, what string) (step func(done, of int), done func()) {
	start := time.Now()
	var p *mpb.Progress
	var bar *mpb.Bar
	step = func(done, of int) {
		if bar == nil && time.Since(start) > 400*time.Millisecond && done < of {
			p = mpb.New(mpb.WithOutput(w), mpb.WithWidth(40))
			bar = p.AddBar(int64(of), mpb.BarRemoveOnComplete(), mpb.PrependDecorators(decor.Name(what+" ")), mpb.AppendDecorators(decor.CountersNoUnit("%d of %d")))
		}
		if bar != nil {
			bar.SetCurrent(int64(done))
		}
	}
	return step, func() {
		if bar != nil {
			bar.Abort(true)
			p.Wait()
		}
	}
}

func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return thousands(n) + " " + many
}

func thousands(n int) string {
	s := fmt.Sprint(n)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}

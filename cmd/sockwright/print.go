package main

import (
	"encoding/json"
	"fmt"
	"io"
	"os"
	"strings"
	"time"
	"unicode"

	"charm.land/lipgloss/v2"
	"github.com/vbauerster/mpb/v8"
	"github.com/vbauerster/mpb/v8/decor"

	"sockwright/internal/source"
)

// Colours are for terminals: lipgloss leaves them out of files and pipes. With NO_COLOR it
// would still print bold and faint; [printFinding] then styles nothing.
var severityStyle = map[string]lipgloss.Style{
	"error":   lipgloss.NewStyle().Foreground(lipgloss.Color("1")).Bold(true),
	"warning": lipgloss.NewStyle().Foreground(lipgloss.Color("3")).Bold(true),
	"note":    lipgloss.NewStyle().Faint(true),
}

func printFinding(w io.Writer, file string, f source.Finding) {
	text := strings.Map(printable, f.String())
	first, rest, more := strings.Cut(text, "\n")
	if f.Line == 0 {
		first = " " + first
	}
	if more {
		rest = "\n" + rest
	}
	first = file + ":" + first
	if os.Getenv("NO_COLOR") == "" {
		first = severityStyle[f.Severity].Render(first)
	}
	lipgloss.Fprintln(w, first+rest)
}

// printable keeps what a file holds from steering the terminal.
func printable(r rune) rune {
	if r != '\n' && unicode.IsControl(r) {
		return '\ufffd'
	}
	return r
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
	if !isTerminal(w) {
		return func(int, int) {}, func() {}
	}
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

func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
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

package check_test

import (
	"fmt"
	"html"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"sockwright/internal/check"
	"sockwright/internal/extract"
	"sockwright/internal/source"
)

// TestDocuments: a long pattern says the same as a page and as Markdown, where headings stand
// apart from what is below them.
func TestDocuments(t *testing.T) {
	names, err := filepath.Glob("testdata/long/*.pattern.txt")
	if err != nil || len(names) == 0 {
		t.Fatalf("no patterns: %v", err)
	}
	for _, name := range names {
		text := readFile(t, name)
		want := check.Pattern(source.NewFile(name, text))
		for form, write := range map[string]func([]string) string{"html": asPage, "md": asMarkdown} {
			t.Run(strings.TrimSuffix(filepath.Base(name), ".pattern.txt")+"/"+form, func(t *testing.T) {
				plain, err := extract.Text("x."+form, []byte(write(strings.Split(text, "\n\n"))))
				if err != nil {
					t.Fatal(err)
				}
				r := check.Pattern(source.NewFile("x."+form, plain))
				for _, f := range find(r) {
					if f.Severity != source.Note.String() {
						t.Error(f.String())
					}
				}
				if !slices.Equal(r.Sizes, want.Sizes) || !slices.Equal(r.Final, want.Final) {
					t.Errorf("%q end with %v, should be %q with %v", r.Sizes, r.Final, want.Sizes, want.Final)
				}
			})
		}
	}
}

// parts splits a paragraph into its heading, if it has one, and its lines.
func parts(paragraph string) (heading string, lines []string) {
	lines = strings.Split(strings.Trim(paragraph, "\n"), "\n")
	if first := lines[0]; first == strings.ToUpper(first) && len(first) > 0 && first[0] >= 'A' {
		return first, lines[1:]
	}
	return "", lines
}

func asPage(paragraphs []string) string {
	var b strings.Builder
	b.WriteString("<html><body>")
	for _, p := range paragraphs {
		heading, lines := parts(p)
		if heading != "" {
			fmt.Fprintf(&b, "<h2>%s</h2>\n", html.EscapeString(heading))
		}
		for i := range lines {
			lines[i] = html.EscapeString(lines[i])
		}
		switch {
		case len(lines) == 0:
		case strings.Contains(p, " | "):
			fmt.Fprintf(&b, "<pre>%s</pre>\n", strings.Join(lines, "\n"))
		default:
			fmt.Fprintf(&b, "<p>%s</p>\n", strings.Join(lines, "<br>"))
		}
	}
	return b.String() + "</body></html>"
}

func asMarkdown(paragraphs []string) string {
	var out []string
	for _, p := range paragraphs {
		heading, lines := parts(p)
		if heading != "" {
			out = append(out, "## "+heading)
		}
		switch {
		case len(lines) == 0:
		case strings.Contains(p, " | "):
			out = append(out, "```\n"+strings.Join(lines, "\n")+"\n```")
		default:
			out = append(out, strings.Join(lines, "\n"))
		}
	}
	return strings.Join(out, "\n\n")
}

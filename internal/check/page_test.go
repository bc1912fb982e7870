package check_test

import (
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"sockwright/internal/check"
	"sockwright/internal/designtest"
	"sockwright/internal/extract"
	"sockwright/internal/publish"
	"sockwright/internal/source"
)

// examples are the examples' patterns as they are published, by file name.
func examples(t *testing.T) map[string]*publish.Book {
	t.Helper()
	files, err := filepath.Glob("../../examples/*.toml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no examples: %v", err)
	}
	books := map[string]*publish.Book{}
	for _, name := range files {
		book, _, err := publish.Make(source.NewFile(name, readFile(t, name)), publish.Options{})
		if err != nil || book == nil {
			t.Fatalf("%s: %v", name, err)
		}
		books[name] = book
	}
	return books
}

// The page that the program writes is knitted like the plain text that stands beside it.
func TestOwnPage(t *testing.T) {
	for name, book := range examples(t) {
		var reports []*check.Report
		for _, f := range book.Files[:2] {
			text, err := extract.Text(f.Name, f.Data)
			if err != nil {
				t.Fatal(err)
			}
			r := check.Pattern(source.NewFile(f.Name, text))
			for _, x := range find(r) {
				t.Error(x.String())
			}
			reports = append(reports, r)
		}
		text, page := reports[0], reports[1]
		if !page.Sure || !slices.Equal(page.Sizes, text.Sizes) || !slices.Equal(page.Final, text.Final) || len(page.Counts) != len(text.Counts) {
			t.Errorf("%s: page sure %v, %d counts in sizes %v, at the end %v; text %d, %v, %v", name,
				page.Sure, len(page.Counts), page.Sizes, page.Final, len(text.Counts), text.Sizes, text.Final)
		}
		if !slices.Equal(page.Words.Sizes, text.Words.Sizes) {
			t.Errorf("%s: the words of the page are in sizes %q, of the text in %q", name, page.Words.Sizes, text.Words.Sizes)
		}
	}
}

// A slip on the page is found there.
func TestOwnPageSlip(t *testing.T) {
	book, _, err := publish.Make(source.NewFile("slate-quay.toml", readFile(t, "../../examples/slate-quay.toml")), publish.Options{})
	if err != nil || book == nil {
		t.Fatal(err)
	}
	page := book.Files[1]
	const right, wrong = "29 (31, 31, 33, 35)</span> sts.", "29 (31, 31, 33, 36)</span> sts."
	spoilt := strings.Replace(string(page.Data), strings.Replace(right, " sts", "\u00a0sts", 1), wrong, 1)
	text, err := extract.Text(page.Name, []byte(spoilt))
	if err != nil || spoilt == string(page.Data) {
		t.Fatalf("not spoilt: %v", err)
	}
	found := find(check.Pattern(source.NewFile(page.Name, text)))
	if len(found) != 1 || !strings.Contains(found[0].String(), "size XL: Row 1 (RS) states 36 sts, but 35 are on the needles") {
		t.Errorf("found %v", found)
	}
}

// A page that is printed has its lines broken where the sheet is full, and a line for each
// needle; it is knitted all the same.
func TestOwnPrint(t *testing.T) {
	for name, book := range examples(t) {
		text, err := extract.Text("page.html", book.Files[1].Data)
		if err != nil {
			t.Fatal(err)
		}
		for _, width := range []int{72, 84} {
			r := check.Pattern(source.NewFile(name, printed(text, width)))
			for _, x := range find(r) {
				t.Errorf("%s, %d wide: %v", name, width, x)
			}
			if want := check.Pattern(source.NewFile(name, text)); !r.Sure || !slices.Equal(r.Final, want.Final) || len(r.Counts) != len(want.Counts) {
				t.Errorf("%s, %d wide: sure %v, %d counts, ends with %v; want %d, %v", name, width, r.Sure, len(r.Counts), r.Final, len(want.Counts), want.Final)
			}
		}
	}
}

var (
	newNeedle = regexp.MustCompile(` (N\d: )`)
	unbroken  = regexp.MustCompile(`(?:\d+ )?\d/\d+(?: \()?|\d \(|\([^()]*, [^()]*\)|\d[\d/]*, [^()]*\)`)
)

// printed breaks the lines of a page. Lists of figures stay whole.
func printed(text string, width int) string {
	var out strings.Builder
	for _, line := range strings.Split(text, "\n") {
		if strings.Contains(line, "  ") { // a row of a table
			out.WriteString(line + "\n")
			continue
		}
		if strings.Contains(line, "nd 1: N1: ") || strings.Contains(line, "nd 2: N1: ") || strings.Contains(line, "nd 3: N1: ") {
			line = newNeedle.ReplaceAllString(line, "\n$1")
		}
		for _, line := range strings.Split(line, "\n") {
			long := 0
			line = unbroken.ReplaceAllStringFunc(line, func(s string) string { return strings.ReplaceAll(s, " ", "\u00a0") })
			for i, word := range strings.Split(line, " ") {
				n := utf8.RuneCountInString(word)
				switch {
				case i == 0:
				case long+1+n > width:
					out.WriteString("\n")
					long = 0
				default:
					out.WriteString(" ")
					long++
				}
				out.WriteString(strings.ReplaceAll(word, "\u00a0", " "))
				long += n
			}
			out.WriteString("\n")
		}
	}
	return out.String()
}

// In what the program writes of any design it finds nothing: not in the text, nor on the page.
func TestOwnRandom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		design := designtest.Draw(t)
		book, _, err := publish.Make(source.NewFile("low-tide.toml", design), publish.Options{})
		if err != nil {
			t.Fatal(err)
		}
		if book == nil { // refused with a reason
			return
		}
		for _, f := range book.Files[:2] {
			text, err := extract.Text(f.Name, f.Data)
			if err != nil {
				t.Fatal(err)
			}
			for _, x := range find(check.Pattern(source.NewFile(f.Name, text))) {
				t.Errorf("%v\n%s", x, design)
			}
		}
	})
}

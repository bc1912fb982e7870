package publish_test

import (
	"os"
	"regexp"
	"strings"
	"testing"
)

// The page of a sock has the picture twice, without the title, which is the page's; the
// lines that repeat rows stay with the last of them; and there is one sign for what is below
// nothing.
func TestPage(t *testing.T) {
	for _, name := range []string{"brisk-lane", "gannet-steps"} {
		text, err := os.ReadFile("../../examples/" + name + ".toml")
		if err != nil {
			t.Fatal(err)
		}
		book := printed(t, string(text), "")
		page := string(book.Files[1].Data)
		drawn := figure.FindString(page)
		if n := strings.Count(drawn, "<svg"); n != 2 {
			t.Errorf("%s: %d pictures, want one for wide and one for narrow screens", name, n)
		}
		title := ">" + book.Draft.Title + "</text>"
		if strings.Contains(drawn, title) {
			t.Errorf("%s: the picture repeats the title of the page", name)
		}
		if !strings.Contains(string(book.Files[2].Data), title) {
			t.Errorf("%s: the picture by itself has no title", name)
		}
		if m := regexp.MustCompile(`<td[^>]*>-[0-9]`).FindString(page); m != "" || !strings.Contains(page, `<td colspan="3">−5%</td>`) {
			t.Errorf("%s: %q in a table, want one minus sign for all", name, m)
		}
		if !strings.Contains(page, "on\u00a0N1") || strings.Contains(page, " on N1") {
			t.Errorf("%s: a line may end between a count and the needle it is of", name)
		}
		last := ""
		for _, m := range paragraph.FindAllStringSubmatch(page, -1) {
			if strings.HasPrefix(bare(m[2]), "Work the last ") && !strings.Contains(last, "kept") && !strings.Contains(last, "only") {
				t.Errorf("%s: a sheet may end before %q", name, bare(m[2]))
			}
			last = m[1]
		}
		for class, id := range map[string]string{"facts": "materials-and-gauge", "terms": "abbreviations", "worked": "leg"} {
			if !regexp.MustCompile(`<section id="` + id + `"[^>]* class="` + class + `"`).MatchString(page) {
				t.Errorf("%s: the section %s is not marked as %s", name, id, class)
			}
		}
	}
}

package check_test

import (
	"strings"
	"testing"

	"sockwright/internal/check"
	"sockwright/internal/publish"
	"sockwright/internal/source"
)

// One slip in the program's own layout is one finding, with a mend that makes the rest come
// out.
func TestOneSlipOneFinding(t *testing.T) {
	for _, c := range []struct{ design, from, to, finds, mend string }{
		{"ferry-lane", "the last 2 rows 9 (10, 11, 11) more times", "the last 2 rows 10 (10, 11, 11) more times", "size S: 10 here cannot be right: ", "write 9"},
		{"ferry-lane", "CO 72 (76, 80, 84)", "CO 72 (76, 82, 84)", "size L: 82 here cannot be right: ", "write 80"},
		{"slate-quay", "CO 60 (", "CO 62 (", "size XS: 62 here cannot be right: ", "write 60"},
		{"slate-quay", "k10 (11, 10, 11, 12), pm", "k9 (11, 10, 11, 12), pm", "size XS: 9 here cannot be right: ", "write 10"},
	} {
		name := c.design + ".toml"
		book, _, err := publish.Make(source.NewFile(name, readFile(t, "../../examples/"+name)), publish.Options{})
		if err != nil || book == nil {
			t.Fatal(err)
		}
		right := string(book.Files[0].Data)
		wrong := strings.Replace(right, c.from, c.to, 1)
		if wrong == right {
			t.Errorf("%s does not say %q", name, c.from)
			continue
		}
		found := find(check.Pattern(source.NewFile(c.design+".txt", wrong)))
		if len(found) != 1 || !strings.Contains(found[0].String(), c.finds) || len(found[0].Mends) != 1 || found[0].Mends[0].Why != c.mend {
			t.Errorf("%q for %q: found %v, should find %q and %q", c.to, c.from, found, c.finds, c.mend)
		}
	}
}

package publish_test

import (
	"strings"
	"testing"

	"sockwright/internal/publish"
	"sockwright/internal/source"
)

// The notions are what the choices need together: as many markers as are in use at once,
// waste yarn where a cast-on takes it.
func TestNotions(t *testing.T) {
	head := "title = \"Needed\"\ngauge = { stitches = 32, rows = 44, over = \"10 cm\" }\n"
	for _, x := range []struct{ more, want string }{
		{"[toe]\nkind = \"star\"\n", "3 stitch markers, 2 locking markers, tapestry needle"},
		{"[heel]\nkind = \"round\"\n[toe]\nkind = \"star\"\npoints = 6\n", "5 stitch markers, 2 locking markers, tapestry needle"},
		{"[heel]\nkind = \"round\"\n[toe]\nkind = \"spiral\"\npoints = 3\n", "2 stitch markers, 2 locking markers, tapestry needle"},
		{"[cuff]\nkind = \"k2p2\"\nedge = \"tubular\"\n", "2 stitch markers, cable needle, smooth waste yarn, needles one or two sizes smaller, 2 locking markers, tapestry needle"},
		{"[cuff]\nkind = \"k1p1\"\nedge = \"tubular\"\n", "2 stitch markers, smooth waste yarn, needles one or two sizes smaller, 2 locking markers, tapestry needle"},
	} {
		book, faults, err := publish.Make(source.NewFile("needed.toml", head+"[sizes]\nfrom = \"women\"\n"+x.more), publish.Options{})
		if book == nil {
			t.Fatal(x.more, faults, err)
		}
		if !strings.Contains(book.Proof.Text.Text, "Notions: "+x.want+"\n") {
			t.Errorf("%q: not the notions %q", x.more, x.want)
		}
	}
}

package sock

import (
	"testing"

	"sockwright/internal/design"
	"sockwright/internal/fabric"
	"sockwright/internal/knit"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

// The two socks of a pair with an anatomical toe have as many stitches after every line, and
// are not the same sock.
func TestAnatomicalPair(t *testing.T) {
	for _, direction := range []string{design.CuffDown, design.ToeUp} {
		d, faults := design.Read(source.NewFile("pair.toml", "title = \"Gable End\"\ndirection = \""+direction+"\"\n[gauge]\nover = \"10 cm\"\nstitches = 30\nrows = 42\n[sizes]\nfrom = \"women\"\n[toe]\nkind = \"anatomical\"\n"))
		if d == nil {
			t.Fatal(faults)
		}
		draft, faults := New(d)
		if draft == nil {
			t.Fatal(faults)
		}
		plan, _ := draft.Grade()
		p := draft.Build(plan)
		for size := range p.Sizes {
			right, left := knit.Knitter{Sock: pattern.RightSock}, knit.Knitter{Sock: pattern.LeftSock}
			r, l := right.Knit(p, size), left.Knit(p, size)
			if fabric.Equal(r.Fabric, l.Fabric) {
				t.Errorf("%s, size %d: both socks are for the same foot", direction, size)
			}
			if r.Loops != l.Loops || r.Final != l.Final || len(r.Counts) != len(l.Counts) {
				t.Fatalf("%s, size %d: %d loops and %d", direction, size, r.Loops, l.Loops)
			}
			for i, c := range r.Counts {
				if c.First.Total != l.Counts[i].First.Total || c.Last.Total != l.Counts[i].Last.Total {
					t.Errorf("%s, size %d: %s leaves %d stitches of the right sock, %d of the left", direction, size, c.Label, c.Last.Total, l.Counts[i].Last.Total)
				}
			}
			// What the right sock loses on one side of the instep, the left one loses on the other.
			if a, b := leans(r.Fabric), leans(l.Fabric); a[0]+a[1] != b[0]+b[1] {
				t.Errorf("%s, size %d: shapings lean %v and %v", direction, size, a, b)
			}
		}
	}
}

// leans counts the decreases that lean left and right.
func leans(f *fabric.Fabric) (n [2]int) {
	for _, l := range f.Loops {
		switch l.Kind.Lean() {
		case -1:
			n[0]++
		case 1:
			n[1]++
		}
	}
	return n
}

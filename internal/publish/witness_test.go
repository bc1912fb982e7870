package publish_test

import (
	"testing"

	"pgregory.net/rapid"

	"sockwright/internal/designtest"
	"sockwright/internal/publish"
	"sockwright/internal/witness"
)

// TestSecondWitness holds the printed words against an interpreter that shares nothing with
// the one that proved them: nothing it finds wrong, and the same count after every line.
func TestSecondWitness(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		if book := make1(t, designtest.Draw(t)); book != nil {
			agree(t, book)
		}
	})
}

func agree(t failer, book *publish.Book) {
	t.Helper()
	text := book.Proof.Text
	report, err := witness.Run(text.Text)
	if err != nil {
		t.Fatalf("%v\n%s", err, text.Text)
	}
	for _, w := range report.Wrong {
		t.Fatalf("%v\n%s", w, text.Text)
	}
	for size, s := range book.Proof.Sizes {
		for _, c := range s.Again.Counts {
			line, _ := text.Position(c.At.Start)
			l := report.Line(line)
			if l == nil {
				t.Fatalf("line %d is no instruction to the second witness: %s", line, text.Line(line))
			}
			if l.Total[size] >= 0 && (l.Total[size] != c.Last.Total || l.Worked[size] != c.Last.Worked) {
				t.Fatalf("line %d (%s), size %s: %d of %d stitches, the second witness has %d of %d\n%s", line, text.Line(line), s.Name,
					c.Last.Worked, c.Last.Total, l.Worked[size], l.Total[size], text.Text)
			}
		}
		if report.Final[size] != s.Again.Final {
			t.Fatalf("size %s: %d stitches at the end, the second witness has %d", s.Name, s.Again.Final, report.Final[size])
		}
	}
}

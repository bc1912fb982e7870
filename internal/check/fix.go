package check

import (
	"slices"

	"github.com/aymanbagabas/go-udiff"

	"sockwright/internal/source"
)

// A Repair is what the first mends of some findings come to together.
type Repair struct {
	Edits   []source.Edit  // in order, none touching another
	Mended  []source.Fault // whose edits are all in
	Skipped []source.Fault // whose edits touch those of an earlier finding
	Open    []source.Fault // whose first mend is for a person to make
	file    *source.File
}

// Mend gathers the first mend of every finding. A mend that touches the words of an earlier
// one is skipped whole; one that says the same is in already.
func Mend(f *source.File, faults []source.Fault) *Repair {
	r := &Repair{file: f}
next:
	for _, x := range faults {
		if len(x.Mends) == 0 || len(x.Mends[0].Edits) == 0 {
			r.Open = append(r.Open, x)
			continue
		}
		var fresh []source.Edit
		for _, e := range x.Mends[0].Edits {
			switch {
			case slices.Contains(r.Edits, e) || slices.Contains(fresh, e):
			case e.At.End < e.At.Start || int(e.At.End) > len(f.Text) || touches(r.Edits, e) || touches(fresh, e):
				r.Skipped = append(r.Skipped, x)
				continue next
			default:
				fresh = append(fresh, e)
			}
		}
		r.Edits = append(r.Edits, fresh...)
		r.Mended = append(r.Mended, x)
	}
	slices.SortFunc(r.Edits, func(a, b source.Edit) int { return int(a.At.Start) - int(b.At.Start) })
	return r
}

// touches tells whether an edit shares words, or a place between words, with others.
func touches(edits []source.Edit, e source.Edit) bool {
	return slices.ContainsFunc(edits, func(o source.Edit) bool {
		return e.At.Start < o.At.End && o.At.Start < e.At.End || e.At.Start == o.At.Start ||
			e.At.Start == e.At.End && e.At.Start == o.At.End || o.At.Start == o.At.End && o.At.Start == e.At.End
	})
}

func (r *Repair) diffEdits() []udiff.Edit {
	out := make([]udiff.Edit, len(r.Edits))
	for i, e := range r.Edits {
		out[i] = udiff.Edit{Start: int(e.At.Start), End: int(e.At.End), New: e.Text}
	}
	return out
}

// Text is the text with the edits made. All else is as it was, line ends included.
func (r *Repair) Text() string {
	text, err := udiff.Apply(r.file.Text, r.diffEdits())
	if err != nil {
		panic(err) // [Mend] takes no edit that could fail
	}
	return text
}

// Diff shows the edits as a unified diff; "" if there are none.
func (r *Repair) Diff() string {
	diff, err := udiff.ToUnified(r.file.Name, r.file.Name+" (mended)", r.file.Text, r.diffEdits(), udiff.DefaultContextLines)
	if err != nil {
		panic(err)
	}
	return diff
}

package notation_test

import (
	"fmt"

	"sockwright/internal/notation"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

// A pattern is built as a tree, written in words and read back from them.
func Example() {
	p := &pattern.Pattern{Title: "Low Tide", Sizes: []string{""}, Sections: []*pattern.Section{{Title: "Heel flap", Body: []pattern.Node{
		&pattern.Row{
			Label: pattern.Label{Word: pattern.FlatRow, Num: 1, Side: pattern.RS},
			Parts: []pattern.Part{{Steps: []pattern.Step{{Op: pattern.Slip, N: pattern.Of(1)}, {Op: pattern.Knit, Until: pattern.ToEnd}}}},
			Count: &pattern.Count{Total: pattern.Of(32)},
		},
	}}}}
	words := notation.Write(p)
	fmt.Print(words.Text)

	read := notation.Read(source.NewFile("low-tide.txt", words.Text))
	row := read.Pattern.Sections[0].Body[0].(*pattern.Row)
	fmt.Println(row.Label, "has", len(row.Parts[0].Steps), "steps and leaves", row.Count.Total.In(0), "stitches")
	// Output:
	// LOW TIDE
	//
	// HEEL FLAP
	//
	// Row 1 (RS): Sl 1, k to end. 32 sts.
	// Row 1 (RS) has 2 steps and leaves 32 stitches
}

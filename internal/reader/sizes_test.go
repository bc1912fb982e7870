package reader_test

import (
	"slices"
	"testing"

	"sockwright/internal/reader"
	"sockwright/internal/source"
)

// TestSizes: what the sizes are called, by the first lines of a text.
func TestSizes(t *testing.T) {
	for _, c := range []struct {
		text  string
		sizes []string
	}{
		{"SOCK - gusset decreases - Small (Large)", []string{"Small", "Large"}},
		{"Sock, small [medium, large]", []string{"small", "medium", "large"}},
		{"SOCK\nX-Small (Small: Medium: Extra Large)", []string{"X-Small", "Small", "Medium", "Extra Large"}},
		{"Sock for child (adult)", []string{"child", "adult"}},
		{"Sock in Small/Medium/Large", []string{"Small", "Medium", "Large"}},
		{"SIZES: Toddler, Child, Adult", []string{"Toddler", "Child", "Adult"}},
		{"Size  XS  S  M", []string{"XS", "S", "M"}},
		{"Where sizes differ, the smallest comes first and the others follow in parentheses: S (M, L).", []string{"S", "M", "L"}},
		{"Where sizes differ, the smallest comes first, the others follow.", []string{""}},
		{"SOCK, S (M, L)", []string{"S", "M", "L"}},
		{"A sock for a child\nCO 40 sts.", []string{""}},
		{"A small sock (see the large one on the next page)", []string{""}},
	} {
		if have := reader.Read(source.NewFile("sock.txt", c.text)).Sizes; !slices.Equal(have, c.sizes) {
			t.Errorf("%q: %q, should be %q", c.text, have, c.sizes)
		}
	}
}

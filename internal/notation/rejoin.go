package notation

import (
	"slices"
	"strings"

	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

// maxBroken is over how many lines an instruction may be broken.
const maxBroken = 8

// Rejoin is a text that a page has broken into lines, with the lines joined that are one
// instruction together: as many as can be read as one. Of other lines goesOn says which go on
// from the line before.
func Rejoin(f *source.File, goesOn func(line int) bool) *source.File {
	r := &reader{file: f, out: &Reading{Pattern: &pattern.Pattern{Sizes: []string{""}}}}
	r.findSizes()
	sizes := r.out.Pattern.Sizes
	var on []int
	whole := 0 // the line behind an instruction: it begins something of its own
	for n := 1; n <= f.Lines(); {
		lines, begun := readable(f, n, sizes)
		if lines == 0 {
			if n != whole && goesOn(n) || begun && n > 1 && open(f.Line(n-1)) {
				on = append(on, n)
			}
			n++
			continue
		}
		for i := 1; i < lines; i++ {
			on = append(on, n+i)
		}
		n += lines
		whole = n
	}
	if on == nil {
		return f
	}
	return f.Joined(on)
}

// readable is how many lines from line n on are an instruction together.
// begun tells whether the first of them begins like one.
func readable(f *source.File, n int, sizes []string) (lines int, begun bool) {
	text := ""
	for i := 0; i < maxBroken && n+i <= f.Lines() && strings.TrimSpace(f.Line(n+i)) != ""; i++ {
		text += f.Line(n+i) + " "
		r := &reader{file: source.NewFile("", text), out: &Reading{Pattern: &pattern.Pattern{Sizes: sizes}, Worked: 1}, section: &pattern.Section{}}
		r.toks = slices.DeleteFunc(lex(text), func(t token) bool { return t.kind == spaceToken })
		if i == 0 && len(r.toks) > 0 && r.toks[0].kind == digitToken { // what a needle holds, or the number of a heading
			return 0, false
		}
		node, begins := r.instruction()
		if node != nil {
			lines = i + 1
		}
		begun = begun || i == 0 && begins
	}
	return lines, begun
}

// open tells whether a line leaves a sentence open.
func open(line string) bool {
	line = strings.TrimSpace(line)
	return line != "" && !strings.ContainsAny(line[len(line)-1:], ".:!?)")
}

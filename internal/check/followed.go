package check

import (
	"slices"

	"sockwright/internal/follow"
	"sockwright/internal/knit"
	"sockwright/internal/notation"
	"sockwright/internal/pattern"
	"sockwright/internal/script"
	"sockwright/internal/source"
)

// ownLayout tells whether a text is in the layout that the program writes: notation has
// read it, and nearly every line in which there is something to work.
func ownLayout(read *notation.Reading, words *script.Script) bool {
	unread := 0
	for _, x := range read.Faults {
		if x.Kind == source.Unread {
			unread++
		}
	}
	if read.Worked > 0 && unread == 0 && read.Worked >= words.Worked {
		return true
	}
	castOn := false
	read.Pattern.Each(func(_ *pattern.Section, n pattern.Node) {
		_, is := n.(*pattern.CastOn)
		castOn = castOn || is
	})
	return castOn && read.Worked >= 4 && unread*4 <= read.Worked && (read.Worked+unread)*3 >= words.Worked*2 || read.Worked >= 20 && unread*8 <= read.Worked
}

// followed works anybody's pattern.
func followed(f *source.File, words *script.Script) *Report {
	out := &Report{File: f, Sizes: namedSizes(words.Sizes)}
	faults := slices.Clone(words.Faults)
	if words.Worked == 0 {
		faults = append(faults, nothingToWork())
	}
	looked := make(chan []source.Fault, 1) // the editor only looks at the words: both go on at once
	go func() { looked <- edit(words) }()
	res := follow.Follow(words)
	faults = append(faults, res.Faults...)
	out.Final = res.Final
	for _, c := range res.Counts {
		out.Counts = append(out.Counts, Count{Line: c.Line, Label: c.Label, Size: c.Size, First: knit.Stitches(c.First), Last: knit.Stitches(c.Last), Times: c.Times, Sure: c.Sure})
	}
	out.Sure = !slices.ContainsFunc(out.Final, func(final int) bool { return final < 0 })
	faults = append(faults, <-looked...)
	out.finish(faults)
	return out
}

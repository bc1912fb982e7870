package source

import (
	"sort"
	"strings"
	"unicode/utf8"
)

// A Span is a run of bytes of a text, End excluded. The zero Span points at nothing in
// particular and is shown without a position.
type Span struct{ Start, End uint32 }

// Known tells whether the span points at something.
func (s Span) Known() bool { return s.End > s.Start }

// To returns the span from the start of s to the end of t.
func (s Span) To(t Span) Span { return Span{s.Start, max(s.End, t.End)} }

// A File is a text with the name that messages give it. Lines and columns count from 1,
// columns in characters (not bytes). A byte-order mark is taken off by [NewFile], and
// line ends may be LF or CR LF.
type File struct {
	Name string
	Text string

	lines []uint32     // start of each line
	on    map[int]bool // lines that go on from the one before
}

// NewFile returns the file for a text.
func NewFile(name, text string) *File {
	text = strings.TrimPrefix(text, "\ufeff")
	f := &File{Name: name, Text: text, lines: make([]uint32, 1, 1+strings.Count(text, "\n"))}
	for i := 0; i < len(text); {
		n := strings.IndexByte(text[i:], '\n')
		if n < 0 {
			break
		}
		i += n + 1
		f.lines = append(f.lines, uint32(i))
	}
	return f
}

// Joined is the same text with some of its lines read as one with the line before, each of
// them given by its number. The words of the whole are those of its first line, and the others
// are empty. Offsets, and so positions, stay what they are.
func (f *File) Joined(lines []int) *File {
	text := []byte(f.Text)
	j := &File{Name: f.Name, lines: f.lines, on: map[int]bool{}}
	for _, n := range lines {
		j.on[n] = true
		for i := int(f.lines[n-1]) - 1; i >= 0 && (text[i] == '\n' || text[i] == '\r'); i-- {
			text[i] = ' '
		}
	}
	j.Text = string(text)
	return j
}

// GoesOn tells whether a line is read as one with the line before.
func (f *File) GoesOn(line int) bool { return f.on[line] }

// Position returns the line and column of a byte offset. Offsets past the end are taken
// for the end.
func (f *File) Position(offset uint32) (line, column int) {
	offset = min(offset, uint32(len(f.Text)))
	line = sort.Search(len(f.lines), func(i int) bool { return f.lines[i] > offset })
	return line, utf8.RuneCountInString(f.Text[f.lines[line-1]:offset]) + 1
}

// Line returns the text of a line, counted from 1, without its line end.
func (f *File) Line(line int) string {
	if line < 1 || line > len(f.lines) || f.on[line] {
		return ""
	}
	text := f.Text[f.lines[line-1]:]
	if n := strings.IndexByte(text, '\n'); n >= 0 {
		text = text[:n]
	}
	return strings.TrimSuffix(text, "\r")
}

// Lines is how many lines the text has.
func (f *File) Lines() int { return len(f.lines) }

// LineSpan is the span of a line, counted from 1, without its line end.
func (f *File) LineSpan(line int) Span {
	if line < 1 || line > len(f.lines) {
		return Span{}
	}
	start := f.lines[line-1]
	return Span{start, start + uint32(len(f.Line(line)))}
}

// Slice returns the words of a span.
func (f *File) Slice(s Span) string { return f.Text[s.Start:s.End] }

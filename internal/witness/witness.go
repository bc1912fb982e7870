package witness

import (
	"fmt"
	"sort"
)

// A Report is what came of counting a pattern.
type Report struct {
	Sizes []string // the sizes, smallest first; one empty name where the pattern gives none
	Lines []Line   // the instruction lines, in the order of the text
	Wrong []Wrong  // what is wrong, in the order of the lines, then of the sizes
	Final []int    // per size, the live stitches before grafting, or at the end

	Rows   []int // per size, the rows worked flat, without partial rows
	Rounds []int // per size, the full rounds worked
}

// A Line is one line of instructions and the stitches there are after it. Both
// counts are per size, taken after the last time the line is worked, and -1
// where the size does not work it.
type Line struct {
	Number int    // the line of the text, from 1
	Words  string // the line as printed
	Worked []int  // the stitches a count is of: the heel's while it is flat, else all
	Total  []int  // all live stitches, the resting ones with them
}

// A Wrong is one statement that does not hold, or one row that cannot be
// worked as it is written. Stated and Actual are zero where no number is meant.
type Wrong struct {
	Line   int
	Size   string
	What   string
	Stated int
	Actual int
}

// String returns w as one line of text.
func (w Wrong) String() string {
	size := ""
	if w.Size != "" {
		size = " (size " + w.Size + ")"
	}
	return fmt.Sprintf("line %d%s: %s: stated %d, actual %d", w.Line, size, w.What, w.Stated, w.Actual)
}

// Line returns the instruction line with that number, or nil.
func (r *Report) Line(number int) *Line {
	for i := range r.Lines {
		if r.Lines[i].Number == number {
			return &r.Lines[i]
		}
	}
	return nil
}

// Run counts the pattern's printed text in every size. It returns an error for
// a line of instructions that it cannot read and for one that nothing can be
// made of, such as a repeat of more rows than there are.
func Run(text string) (*Report, error) {
	p, err := read(text)
	if err != nil {
		return nil, err
	}
	n := len(p.sizes)
	r := &Report{Sizes: p.sizes, Final: make([]int, n), Rows: make([]int, n), Rounds: make([]int, n)}
	for _, l := range p.lines {
		line := Line{Number: l.number, Words: l.words, Worked: make([]int, n), Total: make([]int, n)}
		for i := range n {
			line.Worked[i], line.Total[i] = -1, -1
		}
		r.Lines = append(r.Lines, line)
	}
	sided := false
	for _, l := range p.lines {
		sided = sided || l.left
	}
	for i := range n {
		seen := map[Wrong]bool{} // what is wrong with both socks of a pair is told once
		if err := work(p, i, false, r, seen); err != nil {
			return nil, err
		}
		if sided { // the left sock counts for what goes wrong alone
			other := *r
			other.Lines, other.Rows, other.Rounds = nil, make([]int, n), make([]int, n)
			other.Final = make([]int, n)
			if err := work(p, i, true, &other, seen); err != nil {
				return nil, err
			}
			r.Wrong = other.Wrong
			if other.Final[i] != r.Final[i] {
				r.Wrong = append(r.Wrong, Wrong{Line: p.lines[0].number, Size: p.sizes[i], What: "the socks of the pair end with other sts", Stated: r.Final[i], Actual: other.Final[i]})
			}
		}
	}
	sort.SliceStable(r.Wrong, func(a, b int) bool { return r.Wrong[a].Line < r.Wrong[b].Line })
	return r, nil
}

// work follows the pattern in one size, of the right or of the left sock.
func work(p *pattern, size int, left bool, r *Report, seen map[Wrong]bool) error {
	s := &sock{size: size, name: p.sizes[size], report: r, seen: seen, leftSock: left, motifs: map[string]*line{}, motifNext: map[string]int{}}
	for j := range p.lines {
		if err := s.follow(&p.lines[j]); err != nil {
			return fmt.Errorf("line %d: %w: %q", p.lines[j].number, err, p.lines[j].words)
		}
	}
	if !s.cast {
		return fmt.Errorf("nothing is cast on in size %q", s.name)
	}
	s.over()
	return nil
}

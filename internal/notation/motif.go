package notation

import (
	"errors"
	"fmt"
	"strings"

	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

// motif reads "Small Arches is a stitch pattern over a multiple of 8 sts and 1 more.": the
// rows that follow are its rows. begun tells whether the line begins so.
func (r *reader) motif() (n pattern.Node, begun bool) {
	best := r.best
	for r.at = 0; !r.done(); r.at++ {
		if name := r.at; r.phrase(motifIs) {
			if name == 0 {
				break
			}
			m := &pattern.Motif{Name: r.file.Slice(r.toks[0].span.To(r.toks[name-1].span))}
			if !r.multiple(m) || !r.word(".") || !r.done() {
				return nil, true
			}
			return m, true
		}
	}
	r.at, r.best = 0, best // nobody wanted to read on there
	return nil, false
}

// multiple reads the stitches that a stitch pattern is worked over.
func (r *reader) multiple(m *pattern.Motif) (ok bool) {
	if !r.phrase(multipleOf) {
		m.Plus, ok = r.number()
		return ok && r.sts()
	}
	if m.Multiple, ok = r.number(); !ok || !r.sts() {
		return false
	}
	if r.word("and") {
		m.Plus, ok = r.number()
		return ok && r.phrase(andMore)
	}
	return true
}

// ofMotif reads "in Small Arches".
func (r *reader) ofMotif() (name string, ok bool) {
	if !r.word("in") {
		return "", false
	}
	longest, at := "", r.at
	for _, m := range r.motifs {
		if start := r.at; len(m) > len(longest) && r.phrase(m) {
			longest, at, r.at = m, r.at, start
		}
	}
	r.at = at
	return longest, longest != ""
}

// inMotif reads a step in a stitch pattern behind "work": "24 sts in Small Arches", "in Small
// Arches to end".
func (r *reader) inMotif() (s pattern.Step, ok bool) {
	s.Op = pattern.InMotif
	over := !strings.EqualFold(r.peekWord(), "in")
	if over {
		if s.N, ok = r.number(); !ok || !r.sts() {
			return s, false
		}
	}
	if s.Name, ok = r.ofMotif(); !ok || over {
		return s, ok
	}
	return s, r.word("to") && r.reach(&s)
}

// intoMotif takes a row into the stitch pattern that the line before belongs to.
func (r *reader) intoMotif(n pattern.Node) bool {
	row, ok := n.(*pattern.Row)
	if !ok || r.only != nil || len(r.section.Body) == 0 {
		return false
	}
	m, ok := r.section.Body[len(r.section.Body)-1].(*pattern.Motif)
	if ok {
		m.Rows = append(m.Rows, row)
	}
	return ok
}

// named takes note of a stitch pattern that has been read.
func (r *reader) named(n pattern.Node) {
	if m, ok := n.(*pattern.Motif); ok && strings.TrimSpace(m.Name) != "" {
		r.motifs = append(r.motifs, m.Name)
	}
}

// Steps reads the steps of one row, "*K2, yo, ssk; rep from * to end", "Knit". The error names
// the word that it cannot read on from.
func Steps(words string) ([]pattern.Step, error) {
	r := &reader{file: source.NewFile("", words), out: &Reading{Pattern: &pattern.Pattern{Sizes: []string{""}}}}
	r.take(lex(words))
	if steps, ok := r.steps(); ok && r.done() {
		return steps, nil
	}
	if at := max(r.at, r.best); at < len(r.toks) {
		return nil, fmt.Errorf("cannot read on from %s", source.Quote(r.toks[at].text))
	}
	return nil, errors.New("the row ends where it should go on")
}

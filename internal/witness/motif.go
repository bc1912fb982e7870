package witness

import "strings"

// A stitch pattern is told by a line "Small Arches is a stitch pattern over a multiple of 6
// sts." and the rounds below it, and worked by "Work 48 rnds in Small Arches.": round by
// round, and after the last the first again.

// readMotif reads the line that tells of a stitch pattern.
func readMotif(c *cursor, l *line) bool {
	l.form = motifIs
	name, rest, ok := strings.Cut(c.s, " is a stitch pattern over a multiple of ")
	if !ok || name == "" {
		return false
	}
	l.motif, c.s = name, rest
	n, ok := c.number()
	l.times = n
	return ok && c.stitches() && c.eat(".")
}

// readMotifRounds reads "Work 48 rnds in Small Arches, or until …".
func readMotifRounds(c *cursor, l *line) bool {
	l.form = motifRounds
	if !c.eat("work ") {
		return false
	}
	var ok bool
	if l.times, ok = c.number(); !ok {
		return false
	}
	c.eat(" more")
	if c.any(" rnds in ", " rnd in ") < 0 {
		return false
	}
	end := strings.IndexAny(c.s, ",.")
	if end < 0 {
		return false
	}
	l.motif, c.s = c.s[:end], c.s[end:]
	return readUntil(c) && readTail(c, l, false)
}

// ownRow takes a row into the stitch pattern that the last line tells of, if it does.
func (p *pattern) ownRow(l line) bool {
	if len(p.lines) == 0 || l.form != row {
		return false
	}
	last := &p.lines[len(p.lines)-1]
	if last.form != motifIs || last.section != l.section {
		return false
	}
	last.inner = append(last.inner, &l)
	return true
}

// workMotif works the rounds of a stitch pattern.
func (s *sock) workMotif(l *line) {
	told := s.motifs[l.motif]
	if told == nil || len(told.inner) == 0 {
		s.wrong(0, 0, "no stitch pattern %q has been told", l.motif)
		return
	}
	if n := told.times.times(s.size); n > 0 && s.motifNext[l.motif] == 0 && s.live()%n != 0 {
		s.wrong(n, s.live(), "a multiple for %q", l.motif)
	}
	for range l.times.times(s.size) {
		once := *told.inner[s.motifNext[l.motif]]
		once.number, once.form, once.times, once.count = l.number, plainRounds, number{1}, count{}
		s.motifNext[l.motif] = (s.motifNext[l.motif] + 1) % len(told.inner)
		s.rows = append(s.rows, &once)
		s.work(&once)
	}
}

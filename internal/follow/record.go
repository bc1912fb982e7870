package follow

import "sockwright/internal/script"

// A Count is what is on the needles after a line in one size.
type Count struct {
	Line        int
	Label       string
	Size        int
	First, Last Stitches // after it was worked once; after the last of its rows was worked
	Times       int      // how often it is worked: 0 where it does nothing in this size
	Sure        bool
}

// Stitches are live stitches at one moment.
type Stitches struct{ Worked, Total int }

// A recorder notes what is on the needles after every line of the text, in one size. A row
// that is worked again by a repeat further down is noted at its own line.
type recorder struct {
	counts []Count
	lines  map[int]*lineRecord
	log    []worked // rows and other items, as they were worked
	again  bool     // what is worked now has been worked before
}

// worked is one working of an item.
type worked struct {
	item script.Item
	line int
}

type lineRecord struct {
	count int // its place among the counts
	times map[script.Item]int
	again bool // something of it has been worked a second time
}

func newRecorder() *recorder { return &recorder{lines: map[int]*lineRecord{}} }

// length is how much has been noted.
func (r *recorder) length() int {
	if r == nil {
		return 0
	}
	return len(r.log)
}

// note notes what is on the needles after an item.
func (r *recorder) note(item script.Item, label string, size int, now Stitches, sure bool) {
	l := r.line(item, label, size, now, sure)
	c := &r.counts[l.count]
	l.again = l.again || r.again && len(l.times) > 0
	l.times[item]++
	c.Times = max(c.Times, l.times[item])
	if l.again = l.again || l.times[item] > 1 || repeats(item); !l.again || c.Times == 1 && len(l.times) == 1 {
		c.First = now
	}
	c.Last = now
	r.log = append(r.log, worked{item, c.Line})
}

// rest notes what lies on the needles at an item that is not for this size.
func (r *recorder) rest(item script.Item, label string, size int, now Stitches, sure bool) {
	r.line(item, label, size, now, sure)
}

// line is the record of the line of an item, new if there was none.
func (r *recorder) line(item script.Item, label string, size int, now Stitches, sure bool) *lineRecord {
	n := script.Of(item).Line
	l := r.lines[n]
	if l == nil {
		l = &lineRecord{count: len(r.counts), times: map[script.Item]int{}}
		r.lines[n] = l
		r.counts = append(r.counts, Count{Line: n, Label: label, Size: size, First: now, Last: now, Sure: sure})
	}
	return l
}

// after notes that what is on the needles has changed behind an item that was noted.
func (r *recorder) after(item script.Item, now Stitches) {
	l := r.lines[script.Of(item).Line]
	if l == nil {
		return
	}
	c := &r.counts[l.count]
	if c.First == c.Last {
		c.First = now
	}
	c.Last = now
}

// more counts what was noted since a place in the log so many times more.
func (r *recorder) more(since, times int) {
	for _, w := range r.log[since:] {
		l := r.lines[w.line]
		l.times[w.item] += times
		c := &r.counts[l.count]
		c.Times = max(c.Times, l.times[w.item])
	}
}

// repeats tells whether an item works rows again, so that what it leaves is not what its
// line leaves when it is worked once.
func repeats(item script.Item) bool {
	switch item.(type) {
	case *script.Repeat, *script.Shape:
		return true
	}
	return false
}

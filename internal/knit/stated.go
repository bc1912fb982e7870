package knit

import (
	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

// trust is what has already been found wrong, so that one slip gives one message: whatever
// only carries an earlier slip on is not said again, and what is wrong anew is.
type trust struct {
	lost    bool // the words could not be followed here: nothing after it can be judged
	drift   int  // stitches there are beyond those that the words count on
	perhaps int  // likewise, but it is not known whether the words count on them
	doubt   bool // a row went wrong: the next stated count is taken as it is
	rows    int  // rows worked beyond those that the words count on
	side    bool // the words are on the other side than the work
	word    bool // the words say rows for rounds or rounds for rows
	markers bool // a marker is missing
	split   bool // the needles hold other stitches than the words say
}

// explained tells whether being off by so many stitches follows from what is known to be
// wrong. off is what there is less what the words count on.
func (t *trust) explained(off int) bool {
	return t.lost || t.doubt || off != 0 && (off == t.drift || off == t.perhaps)
}

// MendForAll is the key of a mend of a figure that stands once for all sizes. Such a mend
// is right for the sizes of its fault only; the others keep the figure they have. Argument
// i of what it says is the text of edit i.
const MendForAll = "knit.mend-state-all"

func say(key, text string, args ...any) source.Message { return source.Say(key, text, args...) }

// fault reports an error in this size.
func (k *Knitter) fault(at source.Span, kind source.Kind, text source.Message, stated, actual *source.Quantity, mends ...source.Mend) {
	k.report(at, kind, source.Error, text, stated, actual, mends...)
}

// report reports something wrong in this size.
func (k *Knitter) report(at source.Span, kind source.Kind, severity source.Severity, text source.Message, stated, actual *source.Quantity, mends ...source.Mend) {
	if k.trust.lost {
		return
	}
	for i := range k.res.Faults { // a row that is worked often is reported once
		if f := &k.res.Faults[i]; f.At == at && f.Kind == kind && at.Known() {
			return
		}
	}
	if len(k.res.Faults) >= 200 {
		k.stopped = true
		return
	}
	k.res.Faults = append(k.res.Faults, source.Fault{
		At: at, Sizes: source.OneSize(k.size), Kind: kind, Severity: severity,
		Stated: stated, Actual: actual, Text: text, Mends: mends,
	})
}

// lose gives up judging the words until stitches are cast on anew.
func (k *Knitter) lose() { k.trust.lost, k.res.Sure = true, false }

// fail ends the row: it has gone wrong, and the next stated count is taken as it is.
func (k *Knitter) fail() { k.row.failed, k.trust.doubt = true, true }

// limit stops the work.
func (k *Knitter) limit(at source.Span) {
	k.fault(at, source.StitchCount,
		say("knit.limit", "the work is stopped here: it takes more than {0} rows, {1} stitches on the needles or {2} moves in all", MaxRows, MaxLive, MaxMoves), nil, nil)
	k.lose()
	k.stopped, k.row.failed = true, true
}

// fits tells whether a number has a value for each size. The reader has reported one that
// has not; which sizes its values belong to nobody can say, so the work is lost.
func (k *Knitter) fits(n pattern.Number) bool {
	if !n.Fits(k.sizes) {
		k.lose()
		return false
	}
	return true
}

// stated is the value of a number that states something, or 0 and false if it states
// nothing of this size.
func (k *Knitter) stated(n pattern.Number) (value int, ok bool) {
	if v := n.In(k.size); n.Known() && n.Fits(k.sizes) && v != pattern.Gap {
		return int(v), true
	}
	return 0, false
}

// mendNumber is the mend that puts another number in the place of a size's value.
func (k *Knitter) mendNumber(key, text string, n pattern.Number, value int) source.Mend {
	m := source.Mend{Why: say(key, text, value)}
	if at := n.Span(k.size); at.Known() && len(n.Cols) > 0 {
		m.Edits = []source.Edit{{At: at, Text: itoa(value)}}
		if len(n.Cols) == 1 && k.sizes > 1 {
			m.Why.Key = MendForAll
		}
	}
	return m
}

func (k *Knitter) mendState(n pattern.Number, value int) source.Mend {
	return k.mendNumber("knit.mend-state", "state {0}", n, value)
}

// either is the first span that points at something.
func either(a, b source.Span) source.Span {
	if a.Known() {
		return a
	}
	return b
}

// checkTotal compares a stated number of rows with those worked.
func (k *Knitter) checkTotal(total pattern.Number, at source.Span) {
	stated, ok := k.stated(total)
	if !ok {
		return
	}
	more := k.inPart - stated
	if more != 0 && more != k.trust.rows && !k.trust.doubt {
		k.fault(either(total.Span(k.size), at), source.BadLength,
			say("knit.rows-total", "states {0} rows or rounds in all, but {1} have been worked since the one numbered 1", stated, k.inPart),
			source.Rows(stated), source.Rows(k.inPart),
			k.mendState(total, k.inPart))
	}
	k.trust.rows = more
}

// checkChange compares a stated gain or loss with the true one since there were before
// stitches. name says what states it.
func (k *Knitter) checkChange(name string, change pattern.Number, at source.Span, before int) {
	stated, ok := k.stated(change)
	if !ok {
		return
	}
	actual := k.live - before
	if stated != actual && !k.trust.doubt {
		printed, worked := stated, actual // the figure is printed without its sign
		if stated < 0 {
			printed, worked = -stated, -actual
		}
		m := source.Mend{Why: say("knit.mend-change", "state {0}", changed(actual))}
		if worked >= 0 {
			m = k.mendState(change, worked)
		}
		k.fault(either(change.Span(k.size), at), source.StitchCount,
			say("knit.change", "{0} states {1}, but {2}", name, changed(stated), wasChanged(actual)), source.Sts(printed), source.Sts(worked), m)
	}
	k.trust.drift += actual - stated
}

func changed(n int) string {
	switch {
	case n > 0:
		return itoa(n) + " increased"
	case n < 0:
		return itoa(-n) + " decreased"
	}
	return "none increased or decreased"
}

func wasChanged(n int) string {
	switch {
	case n > 0:
		return are(n) + " increased"
	case n < 0:
		return are(-n) + " decreased"
	}
	return "none is increased or decreased"
}

// checkCount compares stated totals with the needles, on which there were before stitches
// at first. name says what states them.
func (k *Knitter) checkCount(name string, c *pattern.Count, at source.Span, before int) {
	if stated, ok := k.stated(c.Total); ok {
		actual := k.live - k.rest
		before -= k.rest
		if drift := actual - stated; drift != 0 && !k.trust.explained(drift) {
			text := say("knit.count", "{0} states {1} sts, but {2} are on the needles: {3} before it, {4}", name, stated, actual, before, changed(actual-before))
			if actual == before {
				text = say("knit.count-same", "{0} states {1} sts, but {2} are on the needles, as many as before it", name, stated, actual)
			}
			k.fault(either(c.Total.Span(k.size), at), source.StitchCount, text, source.Sts(stated), source.Sts(actual), k.mendState(c.Total, actual))
		}
		k.trust.drift, k.trust.perhaps, k.trust.doubt = actual-stated, 0, false
	}
	if len(c.Split) > 0 && k.trust.drift == 0 {
		k.checkSplit(name, c, at)
	}
}

// checkSplit compares the stitches stated for each needle with those it holds.
func (k *Knitter) checkSplit(name string, c *pattern.Count, at source.Span) {
	var on [256]int
	current := uint8(0)
	k.each(func(e int32) {
		if e >= 0 {
			on[current]++
		} else if isNeedleStart(e) {
			current = uint8(needleEnd - e)
		} else if e == begin {
			current = 0
		}
	})
	if current != 0 { // what lies before the first needle start belongs to the last needle
		on[current] += on[0]
	}
	for i, s := range c.Split {
		stated, ok := k.stated(s)
		if has := on[(i+1)%len(on)]; ok && stated != has {
			if !k.trust.split {
				k.fault(either(s.Span(k.size), at), source.StitchCount,
					say("knit.split", "{0} states {1} sts on N{2}, but it holds {3}", name, stated, i+1, has),
					source.Sts(stated), source.Sts(has), k.mendState(s, has))
			}
			k.trust.split = true
			return
		}
	}
	k.trust.split = false
}

// sts is a number of stitches in words.
func sts(n int) string {
	if n == 1 {
		return "1 stitch"
	}
	return itoa(n) + " stitches"
}

// are is a number of stitches that are something.
func are(n int) string {
	if n == 1 {
		return "1 is"
	}
	return itoa(n) + " are"
}

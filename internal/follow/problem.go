package follow

import (
	"fmt"
	"strconv"

	"sockwright/internal/pattern"
	"sockwright/internal/script"
	"sockwright/internal/source"
)

// A problem is something wrong. Unless it is soft it has stopped the work.
type problem struct {
	fault  source.Fault
	soft   bool  // the row was worked all the same
	whole  bool  // it is about all stitches in work, or all there are
	untold bool  // the row cannot be followed, and that has been told elsewhere
	rests  doubt // what of the needles it rests on
}

func (w *worker) fail(at source.Span, kind source.Kind, text source.Message, stated, actual *source.Quantity) *problem {
	return &problem{rests: ofCount | ofLayout, fault: source.Fault{At: at, Sizes: source.OneSize(w.size), Kind: kind, Severity: source.Error, Text: text, Stated: stated, Actual: actual}}
}

// remark is a problem that does not stop the work of the row.
func (w *worker) remark(at source.Span, kind source.Kind, text source.Message, stated, actual *source.Quantity) *problem {
	p := w.fail(at, kind, text, stated, actual)
	p.soft = true
	return p
}

// firm is a problem that rests on nothing but the words.
func (w *worker) firm(at source.Span, kind source.Kind, text source.Message, stated, actual *source.Quantity) *problem {
	p := w.fail(at, kind, text, stated, actual)
	p.rests = 0
	return p
}

// tooMuch, tooWide and tooLong end the work of a text that passes a limit.
func (w *worker) tooMuch(at source.Span) *problem {
	w.stopped = true
	return w.firm(at, source.Unread, source.Say("follow.too-much", "the text asks for more than {0} stitches: no sock has so many", maxMoves), nil, nil)
}

func (w *worker) tooWide(at source.Span) *problem {
	w.stopped = true
	return w.firm(at, source.Unread, source.Say("follow.too-wide", "more than {0} stitches on the needles: no sock has so many", MaxLive), nil, nil)
}

func (w *worker) tooLong(at source.Span) *problem {
	w.stopped = true
	return w.firm(at, source.Unread, source.Say("follow.too-long", "more than {0} rows: no sock has so many", maxRows), nil, nil)
}

func (w *worker) short(rw *rowWork, s *script.Step, want, have int) *problem {
	where := "in the row"
	switch {
	case rw.ndl > 0:
		where = "on N" + itoa(rw.ndl)
	case rw.part != 0:
		where = "there"
	case rw.round:
		where = "in the rnd"
	}
	at := s.At
	if s.N.Known() && s.N.Span(w.size).Known() {
		at = s.N.Span(w.size)
	}
	return w.fail(at, source.StitchCount, source.Say("follow.short", "{0} wants {1} here, but {2} left {3}", rw.label, source.InSts(want), are(have), where), source.Sts(want), source.Sts(have))
}

func (w *worker) wrongCount(c script.Claim, stated, actual int, what string) *problem {
	text := source.Say("follow.count", "{0} stated, but {1} are on the needles", source.InSts(stated), actual)
	if what != "" {
		text = source.Say("follow.count-of", "{0} stated {1}, but there are {2}", source.InSts(stated), what, actual)
	}
	p := w.remark(c.N.Span(w.size), source.StitchCount, text, source.Sts(stated), source.Sts(actual))
	p.fault.Mends = []source.Mend{w.write(c.N, actual)}
	return p
}

// write is the mend that writes another figure for this size.
func (w *worker) write(n pattern.Number, v int) source.Mend {
	m := source.Mend{Why: source.Say("follow.mend-count", "state {0}", v)}
	if at := n.Span(w.size); at.Known() && (len(n.Cols) > 1 || len(w.script.Sizes) == 1) {
		m.Edits = []source.Edit{{At: at, Text: itoa(v)}}
	}
	return m
}

func are(n int) string {
	switch n {
	case 0:
		return "none is"
	case 1:
		return "only 1 is"
	}
	return fmt.Sprintf("only %d are", n)
}

func itoa(n int) string { return strconv.Itoa(n) }

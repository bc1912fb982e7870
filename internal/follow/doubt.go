package follow

import (
	"slices"

	"sockwright/internal/script"
	"sockwright/internal/source"
)

// A doubt is what is no longer certain of the needles, and of what has been worked on them,
// since words that could not be read or a row that could not be worked. Nothing that rests on
// it is told. A stated count that agrees with what has been worked since settles how many
// stitches there are; the layout and the markers are certain again when the text tells them
// anew.
type doubt uint8

const (
	ofCount   doubt = 1 << iota // how many stitches there are
	ofLayout                    // on which needles and in which parts they lie, and which side faces
	ofMarkers                   // where markers hang
	ofRows                      // which rows have been told, and how many have been worked
	ofAll     = ofCount | ofLayout | ofMarkers | ofRows
)

// suspect: from here on what words that could not be read put in doubt is not certain.
func (w *worker) suspect(not words) {
	if w.doubt&not.of&ofCount == 0 {
		w.doubtAt = not.at
	}
	w.doubt |= not.of
	w.doubted = true
	if not.of&ofRows != 0 {
		w.rowsKnown, w.edges = false, false
	}
}

// sure tells whether what is on the needles is known for certain.
func (w *worker) sure() bool { return w.known && w.doubt&ofCount == 0 }

// certain: the text has told anew what was in doubt. No layout is of stitches whose number is
// in doubt.
func (w *worker) certain(of doubt) {
	if w.doubt &^= of; w.doubt&ofCount != 0 && of&ofLayout != 0 {
		w.doubt |= ofLayout
	}
}

// hold keeps what may be told of problems, and goes on from what is stated where it is not
// what there is.
func (w *worker) hold(e *entry, problems []*problem) (told []*problem) {
	if e.doubt.of != 0 { // whatever the entry itself has made certain
		w.suspect(e.doubt)
	}
	for _, p := range problems {
		switch {
		case p.rests&w.doubt == 0:
			told = append(told, p)
			continue
		case p.whole && w.known && !w.literal:
			w.trust(p)
			w.doubt |= ofCount
		}
		if !p.soft {
			w.suspect(words{w.doubtAt, ofAll})
		}
		if !slices.Contains(w.silenced, w.doubtAt) {
			w.silenced = append(w.silenced, w.doubtAt)
		}
	}
	return told
}

// rests is what a row rests on: on how many stitches there are, and on their layout and markers
// if it speaks of them.
func (w *worker) rests(steps []script.Step) doubt {
	on := ofCount
	if w.n.flat || hasTurn(steps) {
		on |= ofLayout
	}
	for i := range steps {
		s := &steps[i]
		switch s.To {
		case script.Marker:
			on |= ofMarkers
		case script.Gap, script.WrapMark, script.SideMark, script.PartEnd, script.MidMark:
			on |= ofLayout
		}
		switch s.Op {
		case script.ToNeedle, script.Wrap, script.PickUp:
			on |= ofLayout
		case script.PassMarker, script.TakeMarker:
			on |= ofMarkers
		}
		if s.Needle > 0 || s.Part != script.NoPart || s.Name == "needle" {
			on |= ofLayout
		}
		on |= w.rests(s.Body)
	}
	return on
}

// claimRests is what a claim rests on.
func (w *worker) claimRests(c script.Claim) doubt {
	switch c.What {
	case script.Live, script.Total:
		if w.n.flat && c.What == script.Live {
			return ofCount | ofLayout
		}
		return ofCount
	case script.RowCount, script.Edges:
		return ofRows
	case script.Between:
		return ofCount | ofLayout | ofMarkers
	}
	return ofCount | ofLayout
}

// words that could not be read put something in doubt.
type words struct {
	at source.Span
	of doubt
}

// doubts finds the items that are told in a sentence that could not be read in full, or
// behind one that yielded nothing, and the words that could not be read.
func doubts(s *script.Script) map[script.Item]words {
	out := map[script.Item]words{}
	var before words // what could not be read since the last item
	began := false
	add := func(item script.Item, w words) {
		w.of |= out[item].of
		out[item] = w
	}
	for i := range s.Lines {
		items := s.Lines[i].Items
		for _, item := range items {
			if _, cast := item.(*script.CastOn); cast { // all begins anew
				began, before = true, words{}
			}
			w, _ := unread(item)
			began = began || tells(item) && w.of == 0
			if w.of != 0 && began {
				before = words{w.at, w.of | before.of}
			} else if _, section := item.(*script.Section); !section && before.of != 0 {
				add(item, before)
				before = words{}
			}
		}
		for _, item := range items {
			w, sentence := unread(item)
			for _, beside := range items {
				if in := script.Of(beside).At; w.of != 0 && in.Start < sentence.End && sentence.Start < in.End {
					add(beside, w)
				}
			}
		}
	}
	return out
}

// unread is what words put in doubt that could not be read, and the sentence that they are
// in; any other item puts nothing in doubt.
func unread(item script.Item) (w words, sentence source.Span) {
	switch n := item.(type) {
	case *script.Lost:
		return words{n.At, ofAll}, n.Sentence
	case *script.Skipped:
		if n.Marks {
			return words{n.At, ofMarkers}, n.Sentence
		}
		return words{n.At, ofAll}, n.Sentence
	}
	return words{}, source.Span{}
}

// agreements counts for each entry the sizes in which a count that it states settles what was
// in doubt. The words are the same for all sizes: what agrees in most has been read right.
func (f *follower) agreements(conv conventions) []int {
	doubtful := slices.ContainsFunc(f.plan, func(e entry) bool { return e.doubt.of&ofCount != 0 })
	out := make([]int, len(f.plan))
	if !doubtful || len(f.script.Sizes) < 3 {
		return out
	}
	settled := make([][]int, len(f.script.Sizes))
	eachSize(len(f.script.Sizes), func(size int) {
		w := f.worker(size, conv)
		for i := range f.plan {
			before := w.doubt
			w.perform(&f.plan[i])
			if before&ofCount != 0 && w.doubt&ofCount == 0 {
				settled[size] = append(settled[size], i)
			}
		}
	})
	for _, of := range settled {
		for _, i := range of {
			out[i]++
		}
	}
	return out
}

// bears tells whether the count of an entry, which settles doubts in most sizes, is to be held
// against what there is in the others.
func (f *follower) bears(i int) bool { return f.borneOut[i]*2 > len(f.script.Sizes) }

// inDoubt tells whether words that could not be read stand at an entry or behind it.
func (f *follower) inDoubt(from *entry) bool {
	line := script.Of(from.item).Line
	return slices.ContainsFunc(f.script.Lines[max(line-1, 0):], func(l script.Line) bool {
		return slices.ContainsFunc(l.Items, func(i script.Item) bool { w, _ := unread(i); return w.of&ofCount != 0 })
	})
}

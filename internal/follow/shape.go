package follow

import (
	"slices"

	"sockwright/internal/script"
	"sockwright/internal/source"
)

// shape works rounds that take or add stitches without telling which.
func (w *worker) shape(e *entry, n *script.Shape) (problems []*problem) {
	if !w.began || !w.known {
		return nil
	}
	change := 0
	var row *script.Row
	switch {
	case n.Name == "fewer":
		change = w.lastShape
	case n.Steps != nil:
		row = &script.Row{Base: n.Base, Steps: n.Steps}
	case n.Change.Known():
		change = int(w.val(n.Change))
		w.lastShape, w.shapeRow = change, nil
	case w.shapeRow != nil:
		row = w.shapeRow
	default:
		change = w.lastShape
	}
	once := func() *problem {
		w.partRows += max(n.Every, 1) - 1
		if row != nil {
			return w.workRow(row, 0)
		}
		w.partRows++
		w.rowsWorked++
		have := w.n.worked()
		if have+change < 1 || have+change > MaxLive {
			return w.fail(n.At, source.StitchCount, source.Say("follow.shape-none", "the shaping takes more stitches than there are"), nil, nil)
		}
		if w.n.flat && w.part != script.Heel {
			w.n.rejoin()
		}
		w.adjust(change)
		return nil
	}
	if n.First > 0 { // on rounds that have been worked above
		rounds := w.plainOf
		if rounds == 0 {
			return nil
		}
		times := 0
		if n.Every > 0 && rounds >= n.First {
			times = (rounds-n.First)/n.Every + 1
		}
		if n.Stop.Kind == script.Times || n.Stop.Kind == script.InAll {
			times = int(w.val(n.Stop.N))
		}
		for i := range times {
			rows := w.partRows
			if p := once(); p != nil {
				return append(problems, p)
			}
			w.partRows = rows
			if i == 0 && row == nil {
				w.record(n, "Shaping")
			}
		}
		return problems
	}
	switch n.Stop.Kind {
	case script.Remain, script.Split:
		want := 0
		at := n.Stop.At
		if n.Stop.Kind == script.Remain {
			v, ok := w.figure(n.Stop.N, 0)
			if !ok {
				return nil
			}
			want, at = v, n.Stop.N.Span(w.size)
		} else {
			want = w.sumOf(n.Stop.Claims)
		}
		last := w.n.total()
		for i := 0; last != want && i < 5000; i++ {
			if p := once(); p != nil {
				return append(problems, p)
			}
			now := w.n.total()
			if now == last {
				return append(problems, w.never(at, want, last))
			}
			if past(last, want, now) {
				return append(problems, w.passed(at, want, last, now))
			}
			last = now
		}
	case script.Times, script.InAll, script.More, script.Rows, script.MoreRows:
		v, ok := w.figure(n.Stop.N, 0)
		if !ok {
			return nil
		}
		if e.just && n.Stop.Kind == script.InAll {
			v--
			w.rowsSlack = max(n.Every, 1) - 1 // rows before the first, which may be counted or not
		}
		for range min(v, maxRows) {
			if p := once(); p != nil {
				return append(problems, p)
			}
		}
	case script.Measures:
		w.lose()
	default:
		if p := once(); p != nil {
			return append(problems, p)
		}
	}
	return problems
}

// adjust adds or takes stitches where the text does not say which: outside the instep, or
// from each needle alike.
func (w *worker) adjust(change int) {
	sole, told := w.n.inPart(script.Sole)
	instep, _ := w.n.inPart(script.Instep)
	if told && sole > 0 && instep > 0 && (w.part == script.Gusset || sole > instep) && change < 0 {
		w.n.begin()
		for i := 0; change < 0 && sole > 0; i++ { // from both ends of the sole beside the instep
			at := -1
			for j := range w.n.left {
				c := w.n.left[j]
				if c.mark != stitch || c.part == script.Instep {
					continue
				}
				if i%2 == 0 {
					at = j
					break
				}
				at = j
			}
			if at < 0 {
				break
			}
			w.n.left = slices.Delete(w.n.left, at, at+1)
			change++
			sole--
		}
	}
	if change == 0 {
		return
	}
	want := w.n.worked() + change
	k := w.needlesInUse()
	switch {
	case k == 3 && change%k != 0 && change%4 == 0: // a toe: one from each side needle, two from the instep's
		w.n.begin()
		w.takeFrom(1, -change/4)
		w.takeFrom(2, -change/2)
		w.takeFrom(3, -change/4)
	case k > 1 && change%k == 0:
		w.n.begin()
		for i := 1; i <= k; i++ {
			w.takeFrom(i, -change/k)
		}
	}
	w.n.resize(want) // what a needle could not give
}

// takeFrom takes n stitches from needle k, or adds some where n is negative.
func (w *worker) takeFrom(k, n int) {
	for ; n > 0; n-- {
		i := slices.IndexFunc(w.n.left, func(c cell) bool { return c.mark == stitch && int(c.ndl) == k })
		if i < 0 {
			return
		}
		w.n.left = slices.Delete(w.n.left, i, i+1)
	}
	for ; n < 0; n++ {
		i := slices.IndexFunc(w.n.left, func(c cell) bool { return c.mark == stitch && int(c.ndl) == k })
		if i < 0 {
			return
		}
		w.n.left = slices.Insert(w.n.left, i, w.n.left[i])
	}
}

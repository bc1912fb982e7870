package follow

import (
	"sockwright/internal/script"
	"sockwright/internal/source"
)

// checkSide compares the side that a row names with the one that faces.
func (w *worker) checkSide(r *script.Row, num int) *problem {
	side := r.Label.Side
	if side == script.NoSide || !w.known {
		return nil
	}
	if w.n.flat && w.fabric == "stockinette" {
		if kind := allOf(r.Steps); kind == script.Knit && side == script.WS || kind == script.Purl && side == script.RS {
			p := w.remark(r.Label.At, source.Direction, source.Say("follow.stockinette", "{0} is told as a {1} row, but stockinette is knit on the right side and purled on the wrong side", name(r, num), side), nil, nil)
			w.soft = append(w.soft, p)
		}
	}
	if !w.n.flat {
		if !w.facingSaid {
			w.n.facing = side
			return nil
		}
		w.facingSaid = false
	}
	facing := w.n.facing
	switch {
	case facing == script.NoSide || w.firstRow:
		w.n.facing = side
		w.firstRow = false
		return nil
	case facing == side:
		w.sideOff = false
		return nil
	}
	if w.sideOff { // told once
		return nil
	}
	w.sideOff = true
	p := w.remark(r.Label.At, source.Direction, source.Say("follow.side", "{0} is told as a {1} row, but the {2} faces here", name(r, num), side, map[script.Side]string{script.RS: "right side", script.WS: "wrong side"}[facing]), nil, nil)
	p.fault.Mends = []source.Mend{{Why: source.Say("follow.mend-side", "call it a {0} row, or work a row more or less before it", facing)}}
	return p
}

// allOf is the stitch of a row that has but one kind, k or p; Work if it has several.
func allOf(steps []script.Step) script.Op {
	op := script.Work
	for _, s := range steps {
		switch s.Op {
		case script.Knit, script.Purl:
			if op != script.Work && op != s.Op {
				return script.Work
			}
			op = s.Op
		case script.Turn, script.Wrap:
		default:
			return script.Work
		}
	}
	return op
}

// checkEnd compares the side of the last of so many rows with what is said of it: "until 28 rows
// are worked, ending with a WS row".
func (w *worker) checkEnd(stop *script.Stop) *problem {
	switch stop.Kind {
	case script.Rows, script.MoreRows, script.Times, script.InAll, script.More, script.Ridges, script.UsedUp:
	default:
		return nil
	}
	last := w.n.facing.Other()
	if stop.Side == script.NoSide || last == script.NoSide || last == stop.Side || !w.n.flat || !w.known || w.firstRow {
		return nil
	}
	p := w.remark(stop.At, source.Direction, source.Say("follow.end-side", "the last of these rows is said to be a {0} row, but it is a {1} row", stop.Side, last), nil, nil)
	p.fault.Mends = []source.Mend{{Why: source.Say("follow.mend-end-side", "end with a {0} row, or work a row more or less", last)}}
	return p
}

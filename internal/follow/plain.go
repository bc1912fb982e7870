package follow

import (
	"slices"

	"sockwright/internal/script"
	"sockwright/internal/source"
)

// plainRows works rows that are all alike.
func (w *worker) plainRows(n *script.Plain) (problems []*problem) {
	if !w.began {
		if len(n.Claims) == 0 {
			return nil
		}
		w.open(n.Claims, false)
	}
	if n.Flat && hasTurn(n.Steps) && n.Stop.Kind != script.Rows && n.Stop.Kind != script.MoreRows {
		if w.known && w.n.flat {
			if p := w.turnUntil(&script.Row{Base: n.Base, Steps: n.Steps, Flat: true}, &n.Stop); p != nil {
				problems = append(problems, p)
			}
			problems = append(problems, w.checkAll(n.Stop.Claims, nil)...)
		}
		return problems
	}
	rows := 1
	known := false
	if n.Stop.Kind == script.Rows || n.Stop.Kind == script.MoreRows {
		if rows, known = w.figure(n.Stop.N, 0); !known {
			return nil
		}
		if rows > maxRows {
			return []*problem{w.tooLong(n.Stop.N.Span(w.size))}
		}
		w.plainOf = rows
	}
	if w.known && w.part == script.Heel && !w.n.flat && len(n.Claims) > 0 && n.Claims[0].What == script.Live { // "32 rows on 32 sts"
		if v := int(w.val(n.Claims[0].N)); v > 0 && v < w.n.total() {
			w.divide(&script.Divide{Base: n.Base, N: n.Claims[0].N, From: script.Last})
		}
	}
	if w.known && w.n.flat && (!n.Flat && w.part != script.Heel || n.Round && len(w.n.held) > 0 && w.saysAll(n.Claims)) {
		w.n.rejoin()
		w.endFlap()
	}
	if n.Steps != nil && w.known {
		r := &script.Row{Base: n.Base, Steps: n.Steps, Flat: n.Flat}
		if body := ribBody(n.Steps); body > 0 {
			w.ribOf = body
		}
		if len(n.Steps) == 1 && n.Steps[0].Op == script.Group {
			if p := w.workRow(r, 0); p != nil {
				if p.fault.Kind == source.NotDividing {
					p.fault.At = n.Steps[0].At
				}
				return append(problems, p)
			}
			w.partRows--
		}
	}
	if w.known && w.n.flat && known && n.SlipFirst {
		rule := n.Stop.N
		w.flapRule = func(size int) int { return int(rule.In(size)) }
	}
	if w.known {
		if w.n.flat {
			w.n.begin2(rows)
			w.flapRows += rows
			if n.SlipFirst {
				w.slipRows += rows
			}
			if !known {
				w.n.facing = n.Stop.Side.Other()
			} else if p := w.checkEnd(&n.Stop); p != nil {
				problems = append(problems, p)
			}
		}
	}
	w.partRows += rows
	w.rowsWorked += rows
	if !known {
		w.rowsKnown = false
	}
	if n.About != nil && known {
		problems = append(problems, w.checkLength(n.About, rows)...)
	}
	return problems
}

// saysAll tells whether a claim is of all stitches, those that rest included.
func (w *worker) saysAll(claims []script.Claim) bool {
	return slices.ContainsFunc(claims, func(c script.Claim) bool {
		v, ok := w.figure(c.N, 0)
		return ok && (c.What == script.Total || c.What == script.Live) && v > w.n.worked()
	})
}

// begin2 works so many plain rows to and fro.
func (n *needles) begin2(rows int) {
	n.begin()
	if rows%2 == 1 {
		n.left, n.right = n.right, n.left
		n.begin()
		n.facing = n.facing.Other()
	}
}

// checkLength compares rounds with the length that is said to be the same.
func (w *worker) checkLength(said *script.Length, rows int) []*problem {
	g := w.script.Gauge
	want := said.In(w.size)
	if g == nil || g.Rows == 0 || want == 0 {
		return nil
	}
	is := float64(rows) / g.Rows * g.Over
	tolerance := max(0.06*is, 4)
	if d := is - want; d <= tolerance && d >= -tolerance {
		return nil
	}
	unit := 25.4
	if said.Unit == "cm" {
		unit = 10
	}
	round := func(mm float64) float64 { return float64(int(mm/unit*100+0.5)) / 100 }
	at := said.At
	if w.size < len(said.Cols) {
		at = said.Cols[w.size]
	}
	p := w.remark(at, source.BadLength, source.Say("follow.length", "{0} rounds at the stated gauge are {1} {2}, not {3}", rows, round(is), said.Unit, round(want)), &source.Quantity{Value: round(want), Unit: said.Unit}, &source.Quantity{Value: round(is), Unit: said.Unit})
	return []*problem{p}
}

// measured compares what has been worked since the cast-on with how long it is said to be. Where a length
// ended some of the rounds, or words could not be read, that is not known.
func (w *worker) measured(n *script.Measured) []*problem {
	if !w.fromEdge || !w.rowsKnown || w.doubted || !w.known {
		return nil
	}
	return w.checkLength(n.Length, w.rowsWorked-w.edgeRows)
}

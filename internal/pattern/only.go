package pattern

import "sockwright/internal/source"

// ForSize returns the pattern of one size alone: no lists, no lines for other sizes, no
// repeat that is worked no times. The nodes are new; p is left as it is.
func (p *Pattern) ForSize(size int) *Pattern {
	out := &Pattern{Title: p.Title, Sizes: []string{p.Sizes[size]}, LeftHanded: p.LeftHanded}
	for _, s := range p.Sections {
		out.Sections = append(out.Sections, &Section{Title: s.Title, Body: bodyFor(s.Body, size)})
	}
	out.Index()
	return out
}

func bodyFor(body []Node, size int) []Node {
	var out []Node
	for _, n := range body {
		switch n := n.(type) {
		case *Only:
			switch {
			case n.Sock != BothSocks:
				out = append(out, &Only{Sizes: source.AllSizes(1), Sock: n.Sock, Body: bodyFor(n.Body, size)})
			case n.Sizes.Has(size):
				out = append(out, bodyFor(n.Body, size)...)
			}
		case *Prose:
			out = append(out, &Prose{Style: n.Style, Label: n.Label, Text: n.Text.only(size)})
		case *CastOn:
			out = append(out, &CastOn{Form: n.Form, Stitches: n.Stitches.only(size), Begin: n.Begin})
		case *Row:
			out = append(out, n.only(size))
		case *Motif:
			m := &Motif{Name: n.Name, Multiple: n.Multiple.only(size), Plus: n.Plus.only(size)}
			for _, r := range n.Rows {
				m.Rows = append(m.Rows, r.only(size))
			}
			out = append(out, m)
		case *Again:
			if n.Times.In(size) == 0 {
				continue // the rows above were worked once, and their own counts hold
			}
			out = append(out, &Again{Rows: n.Rows, Word: n.Word, Which: n.Which,
				Times: n.Times.only(size), Or: n.Or.only(size), Total: n.Total.only(size), Count: n.Count.only(size)})
		case *Plain:
			if n.Rounds.In(size) == 0 {
				continue
			}
			out = append(out, &Plain{Op: n.Op, Name: n.Name, More: n.More, Rounds: n.Rounds.only(size),
				Or: n.Or.only(size), Total: n.Total.only(size), Count: n.Count.only(size)})
		case *Divide:
			out = append(out, &Divide{Last: n.Last, Toe: n.Toe, Heel: n.Heel.only(size), Rest: n.Rest.only(size)})
		case *Begin:
			out = append(out, &Begin{Place: n.Place})
		case *Arrange:
			a := &Arrange{}
			for _, s := range n.Split {
				a.Split = append(a.Split, s.only(size))
			}
			out = append(out, a)
		case *DropMarkers:
			out = append(out, &DropMarkers{})
		case *Rejoin:
			out = append(out, &Rejoin{Stitches: n.Stitches.only(size), Place: n.Place})
		case *Undo:
			out = append(out, &Undo{Stitches: n.Stitches.only(size)})
		case *OpenWaste:
			out = append(out, &OpenWaste{Below: n.Below.only(size), Above: n.Above.only(size), Place: n.Place})
		case *Join:
			out = append(out, &Join{How: n.How, Heel: n.Heel, Front: n.Front.only(size), Back: n.Back.only(size)})
		case *BindOff:
			out = append(out, &BindOff{How: n.How, Stitches: n.Stitches.only(size)})
		case *Gather:
			out = append(out, &Gather{Stitches: n.Stitches.only(size)})
		}
	}
	return out
}

func (r *Row) only(size int) *Row {
	out := &Row{Label: r.Label, Count: r.Count.only(size)}
	for _, part := range r.Parts {
		out.Parts = append(out.Parts, Part{part.Needle, stepsFor(part.Steps, size)})
	}
	return out
}

func stepsFor(steps []Step, size int) []Step {
	out := make([]Step, 0, len(steps))
	for _, s := range steps {
		if s.N.Known() && s.Until == Times && s.N.In(size) == 0 {
			continue
		}
		s.At = source.Span{}
		s.N = s.N.only(size)
		if s.Body != nil {
			s.Body = stepsFor(s.Body, size)
		}
		out = append(out, s)
	}
	return out
}

func (c *Count) only(size int) *Count {
	if c == nil {
		return nil
	}
	out := &Count{Total: c.Total.only(size), Change: c.Change.only(size)}
	for _, s := range c.Split {
		out.Split = append(out.Split, s.only(size))
	}
	return out
}

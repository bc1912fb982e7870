package pattern

import "slices"

// Mirror changes a pattern that was built to the one for the other hand, which makes its
// mirror image: the stitches are the same, each word for a side becomes the other one, and
// what is for the right sock is for the left one.
func (p *Pattern) Mirror() {
	p.LeftHanded = !p.LeftHanded
	p.Each(func(_ *Section, n Node) {
		switch n := n.(type) {
		case *Prose:
			for i := range n.Text {
				if n.Text[i].Side != "" {
					n.Text[i].Side = n.Text[i].Side.Other()
				}
			}
		case *Row:
			for i := range n.Parts {
				n.Parts[i].Steps = mirrored(n.Parts[i].Steps)
			}
		case *Only:
			n.Sock = n.Sock.Other()
		}
	})
}

// mirrored copies the steps: rows may share them.
func mirrored(steps []Step) []Step {
	steps = slices.Clone(steps)
	for i := range steps {
		steps[i].Edge = steps[i].Edge.Other()
		steps[i].Body = mirrored(steps[i].Body)
	}
	return steps
}

// Other is the edge at the other side.
func (e Edge) Other() Edge {
	switch e {
	case LeftEdge:
		return RightEdge
	case RightEdge:
		return LeftEdge
	}
	return e
}

// Other is the other sock of a pair.
func (s Sock) Other() Sock {
	switch s {
	case LeftSock:
		return RightSock
	case RightSock:
		return LeftSock
	}
	return s
}

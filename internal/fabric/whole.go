package fabric

import "fmt"

// CheckFinished verifies that the fabric is one finished piece of cloth, with no boundary
// but its cast-on edge: every loop but the grafted ones has exactly one other pulled
// through it, no edge stitch is picked up twice, loops are pulled only through earlier
// ones, and all hang together. The error says which loop breaks which rule.
func (f *Fabric) CheckFinished() error {
	held := make([]uint8, len(f.Loops))  // times a loop is pulled through by ordinary work
	taken := make([]uint8, len(f.Loops)) // times it is taken as an edge
	group := newGroups(len(f.Loops))
	for i := range f.Loops {
		id := int32(i)
		for _, t := range f.Through(id) {
			if t < 0 || t >= id {
				return fmt.Errorf("loop %d is pulled through loop %d, which is not there yet", id, t)
			}
			group.join(id, t)
			switch f.Loops[id].Kind {
			case EdgeLoop:
				taken[t]++
			case CornerLoop:
			default:
				held[t]++
			}
		}
		switch n, kind := len(f.Through(id)), f.Loops[id].Kind; {
		case kind == CastOn || kind == LiftLeft || kind == LiftRight:
			if n != 0 {
				return fmt.Errorf("loop %d hangs from a strand but is pulled through %d loops", id, n)
			}
			// The yarn holds it to its neighbour, unless it is the first of a cast-on.
			if r := f.RowOf(id); id > 0 && (kind != CastOn || r < 0 || f.Rows[r].First != id) {
				group.join(id, id-1)
			}
		case n == 0:
			return fmt.Errorf("loop %d is pulled through nothing", id)
		case kind == Grafted && n != 2:
			return fmt.Errorf("grafted loop %d joins %d loops, not 2", id, n)
		}
	}
	for i, l := range f.Loops {
		switch {
		case taken[i] > 1:
			return fmt.Errorf("edge loop %d is picked up %d times", i, taken[i])
		case l.Kind == Grafted:
			if held[i] != 0 {
				return fmt.Errorf("grafted loop %d is worked again", i)
			}
		case held[i] != 1:
			return fmt.Errorf("loop %d is held by %d loops, not 1: row %d", i, held[i], f.RowOf(int32(i)))
		}
		if group.of(int32(i)) != group.of(0) {
			return fmt.Errorf("loop %d does not hang together with the rest", i)
		}
	}
	return nil
}

// groups is a union-find over loops.
type groups []int32

func newGroups(n int) groups {
	g := make(groups, n)
	for i := range g {
		g[i] = int32(i)
	}
	return g
}

func (g groups) of(i int32) int32 {
	for g[i] != i {
		g[i] = g[g[i]]
		i = g[i]
	}
	return i
}

func (g groups) join(a, b int32) { g[g.of(a)] = g.of(b) }

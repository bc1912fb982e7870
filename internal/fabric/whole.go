package fabric

import "fmt"

// How the loops of a kind hang on others.
type hold uint8

const (
	holds hold = iota // it is pulled through loops that are held by it alone
	takes             // it is drawn out of a finished one, which gives one loop at most
	leans             // it is drawn out of, or laid round, a loop that others hold
	hangs             // it hangs from the strand before it
)

// holdOf tells how the loops of a kind hang on others.
func holdOf(k Kind) hold {
	switch k {
	case CastOn, LiftLeft, LiftRight, YarnOver, Provisional:
		return hangs
	case EdgeLoop, Foot:
		return takes
	case CornerLoop, RaisedLeft, RaisedRight, Again, Wrap, TwinLoop:
		return leans
	}
	return holds
}

// ends tells whether loops of a kind end the work: nothing is pulled through them.
func (k Kind) ends() bool { return k >= Grafted }

// CheckFinished verifies that the fabric is one finished piece of cloth, with no boundary
// but its cast-on and bound-off edges: every loop but those that end the work has exactly
// one other pulled through it, no edge stitch is picked up twice, no waste yarn is left in,
// loops are pulled only through earlier ones, and all hang together. The error says which
// loop breaks which rule.
func (f *Fabric) CheckFinished() error {
	held := make([]uint8, len(f.Loops))  // times a loop is pulled through by ordinary work
	taken := make([]uint8, len(f.Loops)) // times it is taken as an edge or by its foot
	group := newGroups(len(f.Loops))
	for i := range f.Loops {
		id, kind := int32(i), f.Loops[i].Kind
		through := f.Through(id)
		for j, t := range through {
			if t < 0 || t >= id {
				return fmt.Errorf("loop %d is pulled through loop %d, which is not there yet", id, t)
			}
			group.join(id, t)
			switch h := holdOf(kind); {
			case h == takes || kind == Hem && j == len(through)-1:
				taken[t]++
			case h == holds:
				held[t]++
			}
		}
		switch n := len(through); {
		case holdOf(kind) == hangs:
			if n != 0 {
				return fmt.Errorf("loop %d hangs from a strand but is pulled through %d loops", id, n)
			}
			// The yarn holds it to its neighbour, unless it is the first of a cast-on.
			if r := f.RowOf(id); id > 0 && (kind != CastOn && kind != Provisional || r < 0 || f.Rows[r].First != id) {
				group.join(id, id-1)
			}
		case n == 0:
			return fmt.Errorf("loop %d is pulled through nothing", id)
		case (kind == Grafted || kind == JoinedOff) && n != 2:
			return fmt.Errorf("%s loop %d joins %d loops, not 2", kind, id, n)
		}
	}
	for i, l := range f.Loops {
		switch {
		case taken[i] > 1:
			return fmt.Errorf("edge loop %d is picked up %d times", i, taken[i])
		case l.Kind == Provisional && taken[i] == 0:
			return fmt.Errorf("loop %d still hangs on waste yarn: row %d", i, f.RowOf(int32(i)))
		case l.Kind.ends():
			if held[i] != 0 {
				return fmt.Errorf("%s loop %d is worked again", l.Kind, i)
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

// Open counts the loops that nothing holds and that do not end the work: those that are
// live, and those that waste yarn or a turn has left behind.
func (f *Fabric) Open() int {
	held := make([]bool, len(f.Loops))
	n := len(f.Loops)
	hold := func(loop int32) {
		if !held[loop] {
			n--
		}
		held[loop] = true
	}
	for i, l := range f.Loops {
		through := f.Through(int32(i))
		switch {
		case l.Kind.ends():
			hold(int32(i))
		case l.Kind == Hem && len(through) > 0:
			through = through[:1]
		case holdOf(l.Kind) != holds:
			continue
		}
		for _, below := range through {
			hold(below)
		}
	}
	return n
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

package pattern

// stitches is what one working of an op takes off the left needle, and what it leaves on the
// right one. Ops that are not named work no stitches by themselves.
var stitches = [...]struct{ takes, leaves int8 }{
	Knit: {1, 1}, Purl: {1, 1}, KnitTbl: {1, 1}, PurlTbl: {1, 1}, Slip: {1, 1}, SlipFront: {1, 1},
	K2tog: {2, 1}, Ssk: {2, 1}, Skp: {2, 1}, P2tog: {2, 1}, Ssp: {2, 1},
	K3tog: {3, 1}, Sssk: {3, 1}, P3tog: {3, 1}, S2kp2: {3, 1},
	M1L: {0, 1}, M1R: {0, 1}, LiftedL: {0, 1}, LiftedR: {0, 1}, YarnOver: {0, 1},
	Kfb: {1, 2}, Pfb: {1, 2}, ThreeIn1: {1, 3},
	CrossRight: {2, 2}, CrossLeft: {2, 2}, LT: {2, 2}, RT: {2, 2}, T3F: {3, 3}, T3B: {3, 3},
	C4F: {4, 4}, C4B: {4, 4}, C6F: {6, 6}, C6B: {6, 6},
	KnitHem: {1, 1}, WasteYarn: {1, 1}, KnitTurned: {1, 1}, PurlTurned: {1, 1},
	Group: {},
}

// Takes is how many stitches one working of the op takes off the left needle; of a group, 0.
func (op Op) Takes() int { return int(stitches[op].takes) }

// Leaves is how many stitches one working of the op leaves on the right needle; of a group
// and of what is picked up, 0.
func (op Op) Leaves() int { return int(stitches[op].leaves) }

// Worked is stitches taken and left.
type Worked struct{ Takes, Leaves int }

func (w *Worked) add(o Worked, times int) {
	w.Takes += o.Takes * times
	w.Leaves += o.Leaves * times
}

// A Tally is the stitches of a row in one size: of one working of the step that goes as far
// as the others let it, such as "k to end" or "*k2, p2; rep from * to last st", and of these.
type Tally struct{ Each, Fixed Worked }

// TallyOf counts the stitches of the steps of a row in one size, counted from 0.
func TallyOf(steps []Step, size int) (t Tally) {
	for _, s := range steps {
		if s.Until == Times {
			t.Fixed.add(s.once(size), s.times(size))
		} else {
			t.Each = s.once(size)
		}
	}
	return t
}

// once counts the stitches of one working of a step; of a group, of one time.
func (s Step) once(size int) (w Worked) {
	if s.Op != Group {
		return Worked{s.Op.Takes(), s.Op.Leaves()}
	}
	for _, inner := range s.Body {
		w.add(inner.once(size), inner.times(size))
	}
	return w
}

// times is how often a step is worked: once if it does not say.
func (s Step) times(size int) int {
	if !s.N.Known() {
		return 1
	}
	return int(max(0, s.N.In(size)))
}

// Repeats is the stitches of one repeat of a stitch pattern, and of the edges beside all
// repeats.
type Repeats struct{ Each, Edges int }

// Work is what a row leaves of repeats. It returns false where the row cannot be worked over
// them however many there are.
func (t Tally) Work(on Repeats) (after Repeats, ok bool) {
	if t.Each.Takes == 0 {
		return Repeats{0, t.Fixed.Leaves}, on == Repeats{0, t.Fixed.Takes}
	}
	spare := on.Edges - t.Fixed.Takes
	if on.Each == 0 || on.Each%t.Each.Takes != 0 || spare < 0 || spare%t.Each.Takes != 0 {
		return Repeats{}, false
	}
	return Repeats{on.Each / t.Each.Takes * t.Each.Leaves, t.Fixed.Leaves + spare/t.Each.Takes*t.Each.Leaves}, true
}

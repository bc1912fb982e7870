package knit

import "slices"

// Entries of the ring that are not loops.
const (
	begin     int32 = -1 // the round begins here
	leftEnd   int32 = -2 // left bound of the part worked flat, as the right side shows it
	rightEnd  int32 = -3 // right bound of it
	marker    int32 = -4 // a stitch marker
	gap       int32 = -5 // the work was turned here
	needleEnd int32 = -8 // needleEnd - n: needle n begins here
)

func needleStart(n uint8) int32      { return needleEnd - int32(n) }
func isNeedleStart(entry int32) bool { return entry < needleEnd }

// needles is the ring of live loops (numbers from 0) and other entries (negative), in the
// order in which a right-side row meets them, with a gap at the needle tips:
//
//	ring[:low] | gap | ring[high:]
//
// On the right side ring[high] is worked next and the new loop goes to ring[low]; on the
// wrong side it is the other way round. The two ends of the array are neighbours.
type needles struct {
	ring      []int32
	low, high int
	wrong     bool // the wrong side faces the knitter
	moved     int  // entries moved or looked at so far: what the work has cost
}

// reset takes everything off the needles.
func (n *needles) reset() {
	n.ring = slices.Grow(n.ring[:0], 512)[:512]
	n.low, n.high, n.wrong = 0, len(n.ring), false
}

// next returns the entry at the tip of the left needle.
func (n *needles) next() (entry int32, ok bool) {
	if n.wrong {
		if n.low == 0 && !n.comeRound() {
			return 0, false
		}
		return n.ring[n.low-1], true
	}
	if n.high == len(n.ring) && !n.comeRound() {
		return 0, false
	}
	return n.ring[n.high], true
}

// comeRound carries what lies beyond the far end of the ring to the near one.
func (n *needles) comeRound() bool {
	if n.wrong {
		m := len(n.ring) - n.high
		copy(n.ring, n.ring[n.high:])
		n.low, n.high = m, len(n.ring)
		return m > 0
	}
	m := n.low
	copy(n.ring[len(n.ring)-m:], n.ring[:m])
	n.low, n.high = 0, len(n.ring)-m
	return m > 0
}

// take removes the entry at the tip of the left needle. next must have been called.
func (n *needles) take() int32 {
	if n.wrong {
		n.low--
		return n.ring[n.low]
	}
	n.high++
	return n.ring[n.high-1]
}

// put adds an entry at the tip of the right needle.
func (n *needles) put(entry int32) {
	n.makeRoom(1)
	n.moved++
	if n.wrong {
		n.high--
		n.ring[n.high] = entry
		return
	}
	n.ring[n.low] = entry
	n.low++
}

// putBack adds an entry at the tip of the left needle.
func (n *needles) putBack(entry int32) {
	n.turn()
	n.put(entry)
	n.turn()
}

// pass moves the entry at the tip of the left needle to the right needle.
func (n *needles) pass() { n.put(n.take()) }

func (n *needles) turn() { n.wrong = !n.wrong }

func (n *needles) makeRoom(m int) {
	if n.high-n.low >= m {
		return
	}
	tail := len(n.ring) - n.high
	grown := make([]int32, 2*len(n.ring)+m)
	copy(grown, n.ring[:n.low])
	copy(grown[len(grown)-tail:], n.ring[n.high:])
	n.ring, n.high = grown, len(grown)-tail
}

// entries is how many entries the ring holds.
func (n *needles) entries() int { return n.low + len(n.ring) - n.high }

// last returns the entry at the tip of the right needle.
func (n *needles) last() (entry int32, ok bool) {
	switch {
	case n.entries() == 0:
		return 0, false
	case n.wrong && n.high < len(n.ring):
		return n.ring[n.high], true
	case n.wrong:
		return n.ring[0], true
	case n.low > 0:
		return n.ring[n.low-1], true
	}
	return n.ring[len(n.ring)-1], true
}

// ahead counts the loops between the left tip and the first entry for which stop holds,
// and returns that entry; found is false where the whole ring holds no such entry.
func (n *needles) ahead(stop func(int32) bool) (loops int, at int32, found bool) {
	scan := func(entries []int32, backwards bool) bool {
		for i := range entries {
			e := entries[i]
			if backwards {
				e = entries[len(entries)-1-i]
			}
			if e >= 0 {
				loops++
			} else if stop(e) {
				at = e
				n.moved += i
				return true
			}
		}
		n.moved += len(entries)
		return false
	}
	if n.wrong {
		found = scan(n.ring[:n.low], true) || scan(n.ring[n.high:], true)
	} else {
		found = scan(n.ring[n.high:], false) || scan(n.ring[:n.low], false)
	}
	return loops, at, found
}

// eachAhead calls do for the entries as they will be met from the left tip on, until it
// says that it is done.
func (n *needles) eachAhead(do func(int32) (done bool)) {
	near, far := n.ring[n.high:], n.ring[:n.low]
	if n.wrong {
		near, far = far, near
	}
	for _, part := range [][]int32{near, far} {
		for i := range part {
			n.moved++
			if e := part[i]; n.wrong && do(part[len(part)-1-i]) || !n.wrong && do(e) {
				return
			}
		}
	}
}

// each calls do for every entry, once round the ring from the gap on, in the order of a
// right-side row.
func (n *needles) each(do func(int32)) {
	n.moved += n.entries()
	for _, part := range [][]int32{n.ring[n.high:], n.ring[:n.low]} {
		for _, e := range part {
			do(e)
		}
	}
}

// drop removes every entry other than loops for which gone holds.
func (n *needles) drop(gone func(int32) bool) {
	n.moved += n.entries()
	filter := func(e int32) bool { return e < 0 && gone(e) }
	n.low = len(slices.DeleteFunc(n.ring[:n.low:n.low], filter))
	tail := slices.DeleteFunc(slices.Clone(n.ring[n.high:]), filter)
	n.high = len(n.ring) - len(tail)
	copy(n.ring[n.high:], tail)
}

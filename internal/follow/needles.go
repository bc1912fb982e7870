package follow

import (
	"slices"

	"sockwright/internal/script"
)

// A cell is a stitch on a needle, or a mark between two.
type cell struct {
	mark  mark
	name  uint8 // of a marker: its letter
	ndl   uint8 // needle it lies on, 0 if that is not told
	part  script.Part
	wraps bool
}

type mark uint8

const (
	stitch mark = iota
	gap         // the work was turned here
	marker
	loop // a yarn over that was made at a turn: it is worked together with a stitch later
)

// needles are the stitches being worked and those that rest. The last of each slice is at
// the needle's tip.
type needles struct {
	left, right []cell
	held        []cell // resting, in the order in which they will be worked
	restL       int    // stitches at the far end of the left needle that rest, beside the part worked flat
	restR       int    // the same of the right needle
	flat        bool
	facing      script.Side // NoSide: not known
}

func (n *needles) clone() needles {
	c := *n
	c.left, c.right, c.held = slices.Clone(n.left), slices.Clone(n.right), slices.Clone(n.held)
	return c
}

// count counts stitches.
func count(cells []cell) int {
	n := 0
	for _, c := range cells {
		if c.mark == stitch {
			n++
		}
	}
	return n
}

// lastStitch is where the stitch nearest to the tip lies, -1 if there is none.
func lastStitch(cells []cell) int {
	for i, c := range slices.Backward(cells) {
		if c.mark == stitch {
			return i
		}
	}
	return -1
}

// worked is how many stitches are in work, total those that rest included.
func (n *needles) worked() int { return n.onBoth() - n.restL - n.restR }
func (n *needles) total() int  { return n.onBoth() + count(n.held) }

// onBoth is how many stitches are on the needles in work, with those that rest beside them.
func (n *needles) onBoth() int { return count(n.left) + count(n.right) }

// begin brings all stitches in work to the left needle, to be worked from the tip on.
func (n *needles) begin() {
	n.restL, n.restR = 0, 0
	if len(n.right) == 0 {
		return
	}
	n.left, n.right = append(reversed(n.right), n.left...), n.right[:0]
}

// turn turns the work. Stitches that are not worked stay behind a gap.
func (n *needles) turn() {
	if count(n.left) > 0 {
		n.left = append(n.left, cell{mark: gap})
	}
	n.restL = min(n.restL, count(n.left)) // some of them may have been worked
	n.left, n.right = n.right, n.left
	n.restL, n.restR = n.restR, n.restL
	n.facing = n.facing.Other()
}

// restBeside lets the same number of stitches rest at both sides of the middle ones. ok is
// false if they cannot be parted so.
func (n *needles) restBeside(middle int) (ok bool) {
	beside := n.onBoth() - middle
	ahead, behind := n.waiting()
	if beside < 0 || beside%2 != 0 || ahead > 0 && ahead != beside/2 || behind > 0 && behind != beside/2 {
		return false
	}
	n.restL, n.restR = beside/2, beside/2
	return true
}

// rejoin goes on in the round: resting stitches come behind those in work.
func (n *needles) rejoin() {
	if !n.flat {
		return
	}
	n.flat = false
	n.dropGaps()
	n.begin()
	n.takeUp()
	n.facing = script.RS
}

// takeUp takes up the stitches that rest: they come behind those of the left needle.
func (n *needles) takeUp() { n.left, n.held = append(reversed(n.held), n.left...), nil }

// restInstep adds so many stitches of the instep to those that rest.
func (n *needles) restInstep(more int) {
	n.held = append(n.held, slices.Repeat([]cell{{part: script.Instep}}, max(more, 0))...)
}

// restOn adds stitches of the instep that are told to rest on a needle, if none have been told of it
// and all others that rest lie on theirs.
func (n *needles) restOn(ndl, sts int) bool {
	if slices.ContainsFunc(n.held, func(c cell) bool { return c.ndl == 0 || int(c.ndl) == ndl }) {
		return false
	}
	n.held = append(n.held, slices.Repeat([]cell{{part: script.Instep, ndl: uint8(ndl)}}, max(sts, 0))...)
	return true
}

// stitchesTo counts the stitches of the left needle before the first entry that is wanted;
// found is false, and all are counted, if there is none.
func (n *needles) stitchesTo(wanted func(cell) bool) (sts int, found bool) {
	for _, c := range slices.Backward(n.left) {
		if wanted(c) {
			return sts, true
		}
		if c.mark == stitch {
			sts++
		}
	}
	return sts, false
}

// dropGaps forgets where the work was turned.
func (n *needles) dropGaps() {
	turned := func(c cell) bool { return c.mark == gap || c.mark == loop }
	n.left = slices.DeleteFunc(n.left, turned)
	n.right = slices.DeleteFunc(n.right, turned)
	for i := range n.left {
		n.left[i].wraps = false
	}
	for i := range n.right {
		n.right[i].wraps = false
	}
}

// takeLoops takes up to so many loops off the tip of the left needle, with the gaps between
// them, and tells how many there were.
func (n *needles) takeLoops(most int) (took int) {
	for i := len(n.left) - 1; i >= 0 && took < most && n.left[i].mark != stitch; i-- {
		if n.left[i].mark == loop {
			took++
			n.left = n.left[:i]
		}
	}
	return took
}

// takeMarkers takes all markers off the needles.
func (n *needles) takeMarkers() {
	is := func(c cell) bool { return c.mark == marker }
	n.left, n.right = slices.DeleteFunc(n.left, is), slices.DeleteFunc(n.right, is)
}

// takePassed takes out a marker that the stitch just worked has gone over; took is false if
// there is none of that name.
func (n *needles) takePassed(name uint8) (took bool) {
	last := len(n.right) - 1
	if last < 1 || n.right[last].mark != stitch || n.right[last-1].mark != marker || name == 0 || n.right[last-1].name != name {
		return false
	}
	n.right = slices.Delete(n.right, last-1, last)
	return true
}

// gaps tells whether stitches lie beyond a gap on either side.
func (n *needles) gaps() bool {
	is := func(c cell) bool { return c.mark == gap }
	return slices.ContainsFunc(n.left, is) || slices.ContainsFunc(n.right, is)
}

// gapAt is where the nearest gap of a needle lies, 0 if there is none.
func gapAt(cells []cell) int {
	for i, c := range slices.Backward(cells) {
		if c.mark == gap {
			return i
		}
	}
	return 0
}

// waiting counts the stitches beyond the outermost-but-nearest gap at the two sides of the
// part worked flat, the left needle's side first.
func (n *needles) waiting() (ahead, behind int) {
	return count(n.left[:gapAt(n.left)]), count(n.right[:gapAt(n.right)])
}

// wrapped counts wrapped stitches at the two sides and the others.
func (n *needles) wrapped() (sideA, none, sideB int) {
	seen, at := false, 0
	for _, c := range slices.Concat(n.right, reversed(n.left)) {
		if c.mark == stitch {
			at++
		}
		switch {
		case c.mark != stitch, at <= n.restR, at > n.onBoth()-n.restL:
		case !c.wraps:
			none++
			seen = true
		case seen:
			sideB++
		default:
			sideA++
		}
	}
	return sideA, none, sideB
}

// same tells whether two states of the needles are alike.
func (n *needles) same(m *needles) bool {
	return n.flat == m.flat && n.restL == m.restL && n.restR == m.restR && slices.Equal(n.left, m.left) && slices.Equal(n.right, m.right) && slices.Equal(n.held, m.held)
}

// resize makes the stitches in work want, in the middle of what lies on the left needle.
func (n *needles) resize(want int) {
	n.begin()
	have := n.worked()
	for ; have > want && have > 0; have-- {
		for i := len(n.left) / 2; ; i = (i + 1) % len(n.left) {
			if n.left[i].mark == stitch {
				n.left = slices.Delete(n.left, i, i+1)
				break
			}
		}
	}
	for ; have < want; have++ {
		var c cell
		i := len(n.left) / 2
		if len(n.left) > 0 {
			c = n.left[i]
			c.mark, c.wraps = stitch, false
		}
		n.left = slices.Insert(n.left, i, c)
	}
}

// spread lays the stitches from the tip on over needles of the given sizes.
func (n *needles) spread(sizes []int) {
	n.begin()
	k, left := 0, 0
	if len(sizes) > 0 {
		left = sizes[0]
	}
	for i := len(n.left) - 1; i >= 0; i-- {
		if n.left[i].mark != stitch {
			continue
		}
		for left == 0 && k < len(sizes)-1 {
			k++
			left = sizes[k]
		}
		n.left[i].ndl = uint8(k + 1)
		left--
	}
}

// onNeedle counts the stitches of a needle; told is false if no needles are told.
func (n *needles) onNeedle(k int) (c int, told bool) {
	for _, list := range [][]cell{n.left, n.right, n.held} {
		for _, x := range list {
			if x.mark == stitch && x.ndl > 0 {
				told = true
				if int(x.ndl) == k {
					c++
				}
			}
		}
	}
	return c, told
}

func (n *needles) inPart(part script.Part) (c int, told bool) {
	for _, list := range [][]cell{n.left, n.right, n.held} {
		for _, x := range list {
			if x.mark == stitch && x.part != 0 {
				told = true
				if x.part == part {
					c++
				}
			}
		}
	}
	return c, told
}

func reversed(cells []cell) []cell {
	out := slices.Clone(cells)
	slices.Reverse(out)
	return out
}

package witness

import "slices"

// An item is a stitch, or something that lies between stitches.
type item byte

const (
	plainSt    item = 's'
	heelSt     item = 'h'
	instepSt   item = 'i' // of the instep, resting while the heel is worked
	leftSt     item = 'l' // picked up along the left edge of the heel
	rightSt    item = 'r'
	cornerSt   item = 'c'
	madeSt     item = 'n'
	markerItem item = 'm'
	needleEnd  item = '|' // where one of N1, N2, N3 ends
	roundStart item = 'b' // the beginning of the round, under set-up rows
	gapItem    item = 'g' // where the work was turned in the middle of a part
	wrappedSt  item = 'w' // turned stitches: they wait with a wrap,
	twinSt     item = 't' // a second loop,
	overSt     item = 'y' // a yarn over beside them,
	doubledSt  item = 'd' // or two legs on the needle
)

// isStitch reports whether the item is a stitch.
func (it item) isStitch() bool {
	return it != markerItem && it != needleEnd && it != roundStart && it != gapItem
}

// stitches counts the stitches among the items.
func stitches(items []item) int {
	n := 0
	for _, it := range items {
		if it.isStitch() {
			n++
		}
	}
	return n
}

// reversed returns the items as they come from the other side.
func reversed(items []item) []item {
	items = slices.Clone(items)
	slices.Reverse(items)
	return items
}

// without returns the items but those that are it.
func without(items []item, it item) []item {
	if !slices.Contains(items, it) {
		return items
	}
	return slices.DeleteFunc(slices.Clone(items), func(i item) bool { return i == it })
}

// split splits the items after n stitches. What lies between the parts goes
// with the second.
func split(items []item, n int) (first, second []item) {
	i := 0
	for ; n > 0 && i < len(items); i++ {
		if items[i].isStitch() {
			n--
		}
	}
	return items[:i:i], items[i:]
}

// named returns the items with every stitch of one kind, but for those that wait turned.
func named(items []item, kind item) []item {
	items = slices.Clone(items)
	for i, it := range items {
		if it.isStitch() && !it.isTurned() {
			items[i] = kind
		}
	}
	return items
}

// firstStitch returns the first stitch, or zero.
func firstStitch(items []item) item {
	for _, it := range items {
		if it.isStitch() {
			return it
		}
	}
	return 0
}

// lastStitch returns the last stitch, or zero.
func lastStitch(items []item) item {
	for i := len(items) - 1; i >= 0; i-- {
		if items[i].isStitch() {
			return items[i]
		}
	}
	return 0
}

// layout returns the stitches on each needle, or nil where nothing has laid
// them out.
func layout(items []item) []int {
	var needles []int
	n := 0
	for _, it := range items {
		switch {
		case it == needleEnd:
			needles = append(needles, n)
			n = 0
		case it.isStitch():
			n++
		}
	}
	return needles
}

// layOut returns the items with the needles' ends among them.
func layOut(items []item, needles []int) []item {
	items = without(items, needleEnd)
	var out []item
	for i, n := range needles {
		first, rest := split(items, n)
		if i == len(needles)-1 {
			first, rest = items, nil
		}
		out = append(append(out, first...), needleEnd)
		items = rest
	}
	return out
}

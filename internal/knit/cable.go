package knit

import (
	"sockwright/internal/fabric"
	"sockwright/internal/pattern"
)

// A crossing takes the first stitches of a cable past the others: these are worked before
// them.
type crossing struct {
	first, then int  // stitches that lie first on the left needle, and behind them
	front       bool // the first ones pass in front
	purl        bool // those that pass behind are purled
}

var crossings = map[pattern.Op]crossing{
	pattern.CrossRight: {1, 1, false, true},
	pattern.CrossLeft:  {1, 1, true, true},
	pattern.LT:         {1, 1, true, false},
	pattern.RT:         {1, 1, false, false},
	pattern.C4F:        {2, 2, true, false},
	pattern.C4B:        {2, 2, false, false},
	pattern.C6F:        {3, 3, true, false},
	pattern.C6B:        {3, 3, false, false},
	pattern.T3F:        {2, 1, true, true},
	pattern.T3B:        {1, 2, false, true},
}

// cable works n crossings.
func (k *Knitter) cable(in *instr, c crossing, n int32) {
	for ; n > 0; n-- {
		var loops [6]int32
		all := loops[:c.first+c.then]
		if !k.together(in, all, int(n)*len(all)) {
			return
		}
		k.crossed(c, !c.front, all[c.first:])
		k.crossed(c, c.front, all[:c.first])
	}
}

// crossed works one side of a crossing.
func (k *Knitter) crossed(c crossing, inFront bool, loops []int32) {
	kind := fabric.InFront
	switch {
	case !inFront && c.purl:
		kind = fabric.BehindPurl
	case !inFront:
		kind = fabric.Behind
	}
	for _, loop := range loops {
		if k.fab != nil {
			k.fab.Add1(kind, k.wrong, loop)
		}
		k.newLoop()
		k.row.made++
	}
}

package reader

import (
	"slices"

	"sockwright/internal/pattern"
	"sockwright/internal/script"
	"sockwright/internal/source"
)

// turnOn reads how a heel turn goes on: "cont, working to 1 st before the gap each time and
// closing it with ssk or p2tog then 1 st more", "go on to and fro over the middle, taking
// together one stitch from each side of the hole every time, until …", "proceed so, each row longer
// by a stitch, until …", "go on like that, always one stitch more between the slipped one and the two
// together".
func (p *parser) turnOn() bool {
	start := p.i
	gap, more, grows := false, false, false
	switch {
	case p.toAndFro(): // "work to and fro over the middle, taking one st from the side with one of the middle"
		gap = p.sentenceHas("centre") && (p.sentenceHas("taking") || p.sentenceHas("tog") || p.sentenceHas("dec"))
	case p.any("cont", "proceed"), p.phrase("go on", "carry on", "work on", "keep on", "keep closing", "keep"):
	default:
		return false
	}
	var stop script.Stop
	for !p.stop() {
		if p.is("until") {
			var ok bool
			if stop, ok = p.stopping(false); !ok {
				return false
			}
			break
		}
		if p.aStitchMore() {
			grows = true
			continue
		}
		switch p.peek().w {
		case "gap":
			gap = true
		case "more", "another", "past":
			more = more || p.i > 0 && p.toks[p.i-1].w == "sts"
		}
		if p.phrase("more before the dec", "more before dec", "more before each dec", "more every row", "more each row", "more on every row", "more between the dec and the turn") {
			gap, more = true, true
			continue
		}
		if gap && p.phrase("then one sts", "then k") {
			more = true
			continue
		}
		p.i++
	}
	at := p.since(start)
	steps := []script.Step{{At: at, Op: script.Work, Uses: 1, Makes: 1, To: script.Gap, Minus: pattern.Of(1)}, {At: at, Op: script.Decrease, Uses: 2, Makes: 1}}
	if more {
		steps = append(steps, script.Step{At: at, Op: script.Work, Uses: 1, Makes: 1, Optional: true})
	}
	steps = append(steps, script.Step{At: at, Op: script.Turn})
	if grows {
		if steps = p.longerRow(at); steps == nil {
			return false
		}
	} else if !gap {
		return false
	}
	if stop.Kind == script.NoStop {
		stop.Kind = script.UsedUp
	}
	n := &script.Plain{Base: p.base(start), Steps: steps, Flat: true, Stop: stop}
	p.lastRowReads()
	n.Claims = p.claimsBehind()
	p.add(n)
	return true
}

// aStitchMore reads that each row of a heel turn is a stitch longer than the one before: "one st more
// between each time", "each row longer by a stitch", "always one stitch more between the slipped one
// and the two together".
func (p *parser) aStitchMore() bool {
	back := p.i
	p.skip("always", "with", "each", "every", "row", "work", "being", "and", "a")
	switch n, ok := p.number(); {
	case ok && countOf(n) != 1:
		return p.restore(back)
	case p.any("sts") && p.any("more", "longer", "farther"):
	case p.phrase("more sts"):
	case p.phrase("longer by", "wider by"):
		p.any("a")
		if p.number(); !p.any("sts") {
			return p.restore(back)
		}
		return true
	default:
		return p.restore(back)
	}
	if p.any("between", "before") {
		for !p.clauseEnd() && !p.is("until") {
			p.i++
		}
		return true
	}
	p.skip("in", "on")
	if p.any("each", "every") && p.any("row", "times") {
		return true
	}
	return p.restore(back)
}

// longerRow is the row of a heel turn told last, worked to the gap: the stitches between the slipped
// one and the decrease are one more each time. The decrease closes the gap, but where the rows told
// come to the gap before it. It is nil if no such row has been told.
func (p *parser) longerRow(at source.Span) []script.Step {
	last := len(p.rows) - 1
	if last < 0 || !turns(p.rows[last].Steps) {
		return nil
	}
	steps := slices.Clone(p.rows[last].Steps)
	run, dec := turnRun(steps)
	if run < 0 {
		return nil
	}
	minus := 1
	if last > 0 {
		if before := p.rows[last-1].Steps; turns(before) {
			if r, d := turnRun(before); r > 0 && r < d {
				after := len(before) - 1 - d - 1
				minus = 1 + int(before[r].N.Val[0]) + after - int(steps[run].N.Val[0])
			}
		}
	}
	if minus != 0 {
		minus = 1
	}
	for i := range steps {
		steps[i].At = at
		if i > dec && steps[i].Op != script.Turn {
			steps[i].Optional = true
		}
	}
	steps[run].Op, steps[run].N, steps[run].To = script.Work, pattern.Number{}, script.Gap
	if minus > 0 {
		steps[run].Minus = pattern.Of(minus)
	}
	return steps
}

// turnGrows is how a heel turn goes on of which the last two rows have been told with figures that are
// not the same: "sl 1, p 5, p2tog, p1, turn; sl 1, k 6, ssk, k1, turn; and so on". It is nil if it does
// not go on so.
func (p *parser) turnGrows(at source.Span) []script.Step {
	last := len(p.rows) - 1
	if last < 1 || !turns(p.rows[last-1].Steps) {
		return nil
	}
	a, _ := turnRun(p.rows[last].Steps)
	b, _ := turnRun(p.rows[last-1].Steps)
	if a < 0 || b < 0 || slices.Equal(p.rows[last].Steps[a].N.Val, p.rows[last-1].Steps[b].N.Val) {
		return nil
	}
	return p.longerRow(at)
}

// turnRun is where the stitches before the decrease of a row of a heel turn, and the decrease, stand
// in its steps; -1 if there are none.
func turnRun(steps []script.Step) (run, dec int) {
	run = slices.IndexFunc(steps, func(s script.Step) bool {
		return (s.Op == script.Knit || s.Op == script.Purl) && s.To == script.Here && s.N.Known()
	})
	dec = slices.IndexFunc(steps, func(s script.Step) bool { return s.Op == script.Decrease })
	if run < 0 || dec != run+1 || run > 0 && steps[run-1].Op != script.Slip {
		return -1, -1
	}
	return run, dec
}

// lastRowReads passes over the words of the last row of a heel turn: "Your last row reads slip 1,
// p14, p2tog, nothing is left over at the sides, and".
func (p *parser) lastRowReads() {
	back := p.i
	p.skip(".", ";", ",")
	p.any("the", "your")
	if !p.any("last", "final") || !p.any("row") || !p.any("reads", "is", "read", "being", "was") {
		p.i = back
		return
	}
	p.any(":")
	if _, ok := p.steps(); !ok {
		p.i = back
		return
	}
	for back = p.i; p.any(",", ";", "and"); back = p.i {
		if !p.usedUp() {
			p.i = back
			return
		}
	}
	p.i = back
}

package witness

import (
	"errors"
	"fmt"
	"strings"
)

// A stepKind is the kind of a step.
type stepKind int

const (
	stitch   stepKind = iota // knit or purl n
	slip                     // slip n
	decrease                 // n stitches into one
	makeOne
	twoOfOne // one stitch into two
	threeOfOne
	crossing  // n stitches change places
	hem       // n stitches, each with a loop of the cast-on edge
	waste     // n stitches with waste yarn, and again
	toGap     // all but n stitches before the last turn, beyond which what waits
	closeTurn // the next stitch, with what a turn left on it
	placeMarker
	slipMarker
	removeMarker
	turnWork
	toEnd // knit or purl all but the last n
	toMarker
	bracket // the inner steps n times
	star    // the inner steps until n stitches are left
	starToGap
	pickLeft
	pickRight
	pickCorner
)

// A step is one thing to do in a row.
type step struct {
	kind  stepKind
	n     number
	what  item // toGap, closeTurn: what waits there; 0: nothing in particular
	inner []step
}

// words without a number.
var simpleSteps = map[string]stepKind{
	"k2tog": decrease, "ssk": decrease, "p2tog": decrease, "ssp": decrease, "skp": decrease,
	"k3tog": decrease, "sssk": decrease, "p3tog": decrease, "s2kp2": decrease,
	"m1l": makeOne, "m1r": makeOne, "lli": makeOne, "rli": makeOne, "yo": makeOne,
	"kfb": twoOfOne, "pfb": twoOfOne, "rpc": crossing, "lpc": crossing, "lt": crossing, "rt": crossing,
	"c4f": crossing, "c4b": crossing, "c6f": crossing, "c6b": crossing, "t3f": crossing, "t3b": crossing,
	"(k1, yo, k1) in 1": threeOfOne,
	"pm":                placeMarker, "sm": slipMarker, "remove m": removeMarker,
	"turn": turnWork,
	"knit": toEnd, "purl": toEnd, "k to end": toEnd, "p to end": toEnd,
	"k to m": toMarker, "p to m": toMarker,
}

// three are the decreases that take three stitches.
var three = map[string]bool{"k3tog": true, "sssk": true, "p3tog": true, "s2kp2": true}

// turns are the ways to end a row that turns, with what they leave of the next stitch, or,
// of the last one, of the stitch just worked.
var turns = []struct {
	words  string
	leaves item
}{{"wrap and turn", wrappedSt}, {"make twin, turn", twinSt}, {"turn, yo", overSt}, {"turn, ds", doubledSt}, {"turn", 0}}

// waits are the words for what waits at a turn.
var waits = []struct {
	words string
	what  item
}{{"gap", 0}, {"wrapped st", wrappedSt}, {"twin", twinSt}, {"yo", overSt}, {"ds", doubledSt}}

// closings are the words behind the k or p that works a stitch with what a turn left on it.
var closings = []struct {
	words string
	what  item
}{{"1 with its wrap", wrappedSt}, {"1 with its twin", twinSt}, {"1 with its yo", overSt}, {" ds", doubledSt}}

// readSteps reads the steps of a row, all of what is left.
func readSteps(c *cursor, l *line) bool {
	for _, t := range turns {
		if rest, ok := strings.CutSuffix(c.s, t.words); ok && (rest == "" || strings.HasSuffix(rest, ", ") || strings.HasSuffix(rest, ": ")) {
			c.s, l.leaves = rest+"turn", t.leaves
			break
		}
	}
	if !strings.HasPrefix(c.s, "n1: ") {
		steps, err := parseSteps(c, c.s)
		if err != nil {
			c.step = err
			return false
		}
		l.needles = [][]step{steps}
	} else {
		l.split = true
		rest := c.s[len("n1: "):]
		for more := true; more; {
			var words string
			words, rest, more = strings.Cut(rest, fmt.Sprintf("; n%d: ", len(l.needles)+2))
			steps, err := parseSteps(c, words)
			if err != nil {
				c.step = err
				return false
			}
			l.needles = append(l.needles, steps)
		}
	}
	last := &l.needles[len(l.needles)-1]
	if n := len(*last); (*last)[n-1].kind == turnWork {
		l.turn = true
		*last = (*last)[:n-1]
	}
	for _, steps := range l.needles {
		if contains(steps, turnWork) {
			c.step = errors.New("steps follow a turn")
			return false
		}
		for _, pick := range []stepKind{pickLeft, pickRight, pickCorner} {
			l.picks = l.picks || contains(steps, pick)
		}
	}
	return true
}

// contains reports whether a step of a kind is among the steps.
func contains(steps []step, kind stepKind) bool {
	for _, s := range steps {
		if s.kind == kind || contains(s.inner, kind) {
			return true
		}
	}
	return false
}

// parseSteps reads steps joined by commas.
func parseSteps(c *cursor, words string) ([]step, error) {
	var steps []step
	for {
		var s step
		var err error
		switch {
		case strings.HasPrefix(words, "["):
			s, words, err = parseBracket(c, words[1:])
		case strings.HasPrefix(words, "*"):
			s, words, err = parseStar(c, words[1:])
		default:
			var one string
			one, words = cutStep(words)
			s, err = parseStep(c, one)
		}
		if err != nil {
			return nil, err
		}
		steps = append(steps, s)
		if words == "" {
			return steps, nil
		}
		rest, ok := strings.CutPrefix(words, ", ")
		if !ok {
			return nil, fmt.Errorf("no comma before %q", words)
		}
		words = rest
	}
}

// cutStep cuts words at the first comma outside the parentheses of a list.
func cutStep(words string) (one, rest string) {
	depth := 0
	for i, r := range words {
		switch r {
		case '(':
			depth++
		case ')':
			depth--
		case ',':
			if depth == 0 {
				return words[:i], words[i:]
			}
		}
	}
	return words, ""
}

// parseBracket reads the rest of "[k15, M1L] 4 times".
func parseBracket(c *cursor, words string) (step, string, error) {
	depth := 1
	end := strings.IndexFunc(words, func(r rune) bool {
		switch r {
		case '[':
			depth++
		case ']':
			depth--
		}
		return depth == 0
	})
	if end < 0 {
		return step{}, "", errors.New("a bracket is not closed")
	}
	inner, err := parseSteps(c, words[:end])
	if err != nil {
		return step{}, "", err
	}
	in := &cursor{s: words[end+1:], sizes: c.sizes}
	switch in.any(" once", " twice") {
	case 0:
		return step{kind: bracket, n: number{1}, inner: inner}, in.s, nil
	case 1:
		return step{kind: bracket, n: number{2}, inner: inner}, in.s, nil
	}
	n, ok := nextNumber(in)
	if in.list != nil {
		c.list = in.list
	}
	if !ok || in.any(" times", " time") < 0 {
		return step{}, "", fmt.Errorf("how often? %q", words[end+1:])
	}
	return step{kind: bracket, n: n, inner: inner}, in.s, nil
}

// parseStar reads the rest of "*k2, p2; rep from * to end".
func parseStar(c *cursor, words string) (step, string, error) {
	body, rest, ok := strings.Cut(words, "; rep from * to ")
	if !ok {
		return step{}, "", errors.New("a repeat has no end")
	}
	inner, err := parseSteps(c, body)
	if err != nil {
		return step{}, "", err
	}
	if rest, ok := strings.CutPrefix(rest, "end"); ok {
		return step{kind: star, n: number{0}, inner: inner}, rest, nil
	}
	if gap, rest, ok := cutGap(c, rest); ok {
		gap.kind, gap.inner = starToGap, inner
		return gap, rest, nil
	}
	in := &cursor{s: rest, sizes: c.sizes}
	if !in.eat("last ") {
		return step{}, "", fmt.Errorf("to where? %q", rest)
	}
	n, ok := in.last()
	if in.list != nil {
		c.list = in.list
	}
	if !ok {
		return step{}, "", fmt.Errorf("to where? %q", rest)
	}
	return step{kind: star, n: n, inner: inner}, in.s, nil
}

// cutGap reads "gap", "1 st before wrapped st" and the like.
func cutGap(c *cursor, words string) (s step, rest string, ok bool) {
	in := &cursor{s: words, sizes: c.sizes}
	s = step{kind: toGap, n: number{0}}
	if n, ok := in.number(); ok {
		if !in.stitches() || !in.eat(" before ") {
			return s, words, false
		}
		s.n = n
	} else {
		in.s = words
	}
	if in.s == "m" {
		s.kind = toMarker
		return s, "", true
	}
	for _, w := range waits {
		if in.eat(w.words) {
			s.what = w.what
			return s, in.s, true
		}
	}
	return s, words, false
}

// parseStep reads a step without inner steps.
func parseStep(c *cursor, words string) (step, error) {
	if kind, ok := simpleSteps[words]; ok {
		s := step{kind: kind, n: number{0}}
		switch {
		case kind == decrease && three[words]:
			s.n = number{3}
		case kind == decrease:
			s.n = number{2}
		case kind == crossing:
			s.n = number{2}
			if isDigit(words[1]) {
				s.n = number{int(words[1] - '0')}
			}
		}
		return s, nil
	}
	if len(words) > 1 && (words[0] == 'k' || words[0] == 'p') {
		for _, x := range closings {
			if words[1:] == x.words {
				return step{kind: closeTurn, n: number{1}, what: x.what}, nil
			}
		}
		if to, ok := strings.CutPrefix(words[1:], " to "); ok {
			if s, rest, ok := cutGap(c, to); ok && rest == "" {
				return s, nil
			}
		}
	}
	in := &cursor{s: words, sizes: c.sizes}
	s, ok := parseNumbered(in)
	if in.list != nil {
		c.list = in.list
	}
	if !ok || !in.end() {
		return s, fmt.Errorf("no step %q", words)
	}
	return s, nil
}

// parseNumbered reads a step with a number.
func parseNumbered(in *cursor) (step, bool) {
	var s step
	var ok bool
	switch in.any("k to last ", "p to last ", "pick up and k ", "pick up and p ", "sl ", "k", "p") {
	case 0, 1:
		s.kind = toEnd
		s.n, ok = in.last()
		return s, ok
	case 2, 3:
		if s.n, ok = in.number(); !ok {
			return s, false
		}
		where := in.any(" along the left edge of the heel", " along the right edge of the heel", " in the corner")
		s.kind = pickLeft + stepKind(where)
		return s, where >= 0
	case 4:
		s.kind = slip
		s.n, ok = in.number()
		in.eat(" wyif")
		return s, ok
	case 5, 6:
		s.kind = stitch
		s.n, ok = in.number()
		switch in.any(" tbl", " with the co edge", " with waste yarn and once more with the sock yarn") {
		case 1:
			s.kind = hem
		case 2:
			s.kind = waste
		}
		return s, ok
	}
	return s, false
}

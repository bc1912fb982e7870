package check

import (
	"math"
	"regexp"
	"slices"
	"strings"

	"sockwright/internal/script"
	"sockwright/internal/source"
)

var (
	girthWords  = regexp.MustCompile(`(?i)(?:\b(?:foot|feet|leg|calf|ankle|sock|finished|actual)\b[^.;:=0-9]{0,24})?\b(?:circumference|girth|all round (?:the )?(?:foot|leg|calf|ankle))\b[^.;0-9]{0,40}$`)
	aroundWords = regexp.MustCompile(`(?i)circumference|girth|all round`)
	notAGirth   = regexp.MustCompile(`(?i)\bto fit\b|\bfits\b|\bstretch|\bease\b|\b(?:your|their|his|her) |\bwearer|\bchoose\b|\bball of the\b`)
	smaller     = regexp.MustCompile(`(?i)^\W{0,3}(?:smaller|larger|less|more|bigger|wider|narrower|below|above)\b`)
	ofTheSock   = regexp.MustCompile(`(?i)\bfinished\b|\bactual\b|\bsock\b|\ball round\b|\bcompleted\b`)
)

// girths compares stated girths with the stitches at the stated gauge. A girth that is not
// said to be the sock's own may be the wearer's: then the sock may be a fifth smaller, as
// socks should be.
func (e *editor) girths() {
	g := e.words.Gauge
	if g == nil || g.Stitches == 0 || g.Over == 0 {
		return
	}
	heading := ""
	var around [][]int // counts by size
	for i, line := range e.lines {
		if r := e.role(i + 1); r == script.Heading || r == script.Fact && !strings.ContainsAny(line, "0123456789") {
			heading = line
		}
		if !aroundWords.MatchString(line) || notAGirth.MatchString(line) || notAGirth.MatchString(heading) {
			continue
		}
		own := ofTheSock.MatchString(line) || ofTheSock.MatchString(heading)
		all := measures(line, len(e.words.Sizes))
		for k, m := range all {
			if systems[m.unit].what != "length" || !girthWords.MatchString(line[:m.figures[0].from]) || smaller.MatchString(line[m.end:]) {
				continue
			}
			also := m
			if k+1 < len(all) && twice(line, m, all[k+1]) {
				also = all[k+1]
			}
			if around == nil {
				for size := range e.words.Sizes {
					around = append(around, e.around(size))
				}
			}
			e.girth(i+1, m, also, own, around)
		}
	}
}

// girth compares one stated girth, printed once or in two systems, with counts by size.
func (e *editor) girth(line int, m, also measure, own bool, around [][]int) {
	g := e.words.Gauge
	least := 0.80
	if own {
		least = 0.94
	}
	from := len(e.faults)
	var ratios []float64
	defer func() {
		// where every size is off by as much, leg and foot are of another fabric than the swatch
		if n := len(ratios); n > 1 && n == len(e.words.Sizes) && slices.Max(ratios)/slices.Min(ratios) < 1.05 {
			for i := from; i < len(e.faults); i++ {
				e.faults[i].Severity = source.Note
			}
		}
	}()
	for size := range e.words.Sizes {
		f := m.in(size)
		if f.none || len(m.figures) > 1 && len(m.figures) != len(e.words.Sizes) {
			continue
		}
		near, off := 0, math.Inf(1)
		for _, n := range around[size] {
			made := float64(n) * g.Over / g.Stitches
			for _, stated := range []float64{m.base(f), also.base(also.in(size))} {
				r := made / stated
				if r >= least && r <= 1.06 {
					off = 0
				}
				if d := math.Abs(math.Log(r)); d < off {
					near, off = n, d
				}
			}
		}
		if off == 0 || off > math.Log(1.4) { // no count of the text is meant
			continue
		}
		ratios = append(ratios, float64(near)*g.Over/g.Stitches/m.base(f))
		made := rounded(float64(near)*g.Over/g.Stitches, m.unit)
		at := e.at(line, f.from, f.to)
		x := e.say(at, source.OneSize(size), source.BadLength, source.Warning,
			source.Say("edit.girth", "{0} sts at {1} sts to {2} are {3} round, not {4}", near, number(g.Stitches, ""), amount(g.Over/systems[m.unit].amount, m.unit), amount(made, m.unit), amount(f.value, m.unit)),
			advice("edit.mend-girth", "state {0}, or work about {1} sts", amount(made, m.unit), int(math.Round(m.base(f)*g.Stitches/g.Over))))
		setFigures(x, f.value, made, m.unit)
	}
}

// around lists the counts of a size that may go round leg or foot: what is cast on, what a
// part begins with, and what shaping ends with.
func (e *editor) around(size int) []int {
	var out []int
	add := func(n int32) {
		if n > 0 {
			out = append(out, int(n))
		}
	}
	claims := func(all []script.Claim) {
		for _, c := range all {
			if c.What == script.Live || c.What == script.Total {
				add(c.N.In(size))
			}
		}
	}
	for _, l := range e.words.Lines {
		for _, item := range l.Items {
			if b := script.Of(item); b.Sizes != 0 && !b.Sizes.Has(size) {
				continue
			}
			switch it := item.(type) {
			case *script.CastOn:
				add(it.N.In(size) * int32(max(it.On, 1)))
			case *script.State:
				claims(it.Claims)
			case *script.Repeat:
				claims(it.Claims)
				claims(it.Stop.Claims)
			case *script.Shape:
				claims(it.Claims)
				claims(it.Stop.Claims)
			case *script.Resume:
				claims(it.Claims)
			}
		}
	}
	return out
}

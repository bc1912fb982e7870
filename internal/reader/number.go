package reader

import (
	"strings"

	"sockwright/internal/pattern"
	"sockwright/internal/script"
	"sockwright/internal/source"
)

// list is a number or a list of numbers as read: whole values, and the same as fractions.
type list struct {
	pattern.Number
	x     []float64
	whole bool
}

// value reads one value: a number, or a dash, "x" for a size that does nothing.
func (p *parser) value() (v int32, x float64, at source.Span, ok bool) {
	t := p.peek()
	switch {
	case t.kind == numToken:
		p.i++
		return t.val, t.x + p.andPart(), t.at, true
	case t.w == "-" || t.w == "x" || t.w == "none" || t.w == "nil":
		p.i++
		return pattern.Gap, 0, t.at, true
	}
	return 0, 0, source.Span{}, false
}

// andPart reads the part that words add to a whole number: "and a half", "and three quarters". It is
// 0 if they add none.
func (p *parser) andPart() float64 {
	back := p.i
	if p.any("and") {
		n := 0.0
		if t := p.peek(); t.kind == numToken && t.val < 8 {
			n = t.x
			p.i++
		} else if p.any("a", "an") {
			n = 1
		}
		switch t := p.peek(); {
		case n == 0:
		case p.any("half"):
			return n / 2
		case p.any("quarter"):
			return n / 4
		case t.kind == ordToken && (t.val == 3 || t.val == 8) && p.unitAhead(1):
			p.i++
			return n / float64(t.val)
		}
	}
	p.i = back
	return 0
}

// unitAhead tells whether a unit of length stands n tokens on.
func (p *parser) unitAhead(n int) bool {
	back := p.i
	defer func() { p.i = back }()
	p.i += n
	return p.unit() != ""
}

// number reads a number or a list of one value for each size. A list of another length is
// reported and read as far as it goes.
func (p *parser) number() (pattern.Number, bool) {
	l, ok := p.list()
	return l.Number, ok && l.whole
}

func (p *parser) list() (list, bool) {
	start := p.i
	first := p.peek()
	if first.kind != numToken && !(first.w == "-" && p.gapFirst()) {
		return list{}, false
	}
	v, x, at, _ := p.value()
	l := list{whole: true}
	add := func(v int32, x float64, at source.Span) {
		l.Val, l.x, l.Cols = append(l.Val, v), append(l.x, x), append(l.Cols, at)
		l.whole = l.whole && (v == pattern.Gap || x == float64(v))
	}
	add(v, x, at)
	l.At = at
	bracketed := false
	for p.sizes != 1 && (len(l.Val) == 1 || len(l.Val) < p.sizes || p.sizes == 0) {
		open := p.peek().w
		if open != "(" && open != "[" && open != "{" {
			break
		}
		back, have := p.i, len(l.Val)
		if !p.bracketed(add) {
			p.i = back
			l.Val, l.x, l.Cols = l.Val[:have], l.x[:have], l.Cols[:have]
			break
		}
		bracketed = true
	}
	if len(l.Val) == 1 && l.Val[0] == pattern.Gap {
		p.i = start
		return list{}, false
	}
	l.At = l.Cols[0].To(l.Cols[len(l.Cols)-1])
	if bracketed {
		l.At = l.At.To(p.toks[p.i-1].at)
	}
	if n := p.only.Len(); n > 1 && n < p.sizes && len(l.Val) == n { // a list for the sizes that the line is for
		l.spread(p.only, p.sizes)
	}
	if len(l.Val) > 1 && p.sizes > 1 && len(l.Val) != p.sizes {
		p.badList(l.At, len(l.Val))
	}
	return l, true
}

// spread gives the values of a list to the sizes of a set; the others do nothing.
func (l *list) spread(only source.SizeSet, sizes int) {
	vals, xs, cols := l.Val, l.x, l.Cols
	l.Val, l.x, l.Cols = nil, nil, nil
	k := 0
	for size := range sizes {
		if only.Has(size) {
			l.Val, l.x, l.Cols = append(l.Val, vals[k]), append(l.x, xs[k]), append(l.Cols, cols[k])
			k++
			continue
		}
		l.Val, l.x, l.Cols = append(l.Val, pattern.Gap), append(l.x, 0), append(l.Cols, source.Span{})
	}
}

// gapFirst tells whether a dash begins a list: "- (28, -, 32)".
func (p *parser) gapFirst() bool {
	w := p.ahead(1).w
	return p.sizes > 1 && p.is("-") && (w == "(" || w == "[") && (p.ahead(2).kind == numToken || p.ahead(2).w == "-" || p.ahead(2).w == "x")
}

// bracketed reads "(60, 64)": nothing but values.
func (p *parser) bracketed(add func(int32, float64, source.Span)) bool {
	shut := map[string]string{"(": ")", "[": "]", "{": "}"}[p.peek().w]
	p.i++
	for {
		v, x, at, ok := p.value()
		if !ok {
			return false
		}
		add(v, x, at)
		switch w := p.peek().w; {
		case w == shut:
			p.i++
			return true
		case w != "" && strings.Contains(separators, w):
			p.i++
		default:
			return false
		}
	}
}

func (p *parser) badList(at source.Span, have int) {
	if p.quiet > 0 {
		return
	}
	for _, f := range p.out.Faults {
		if f.At == at {
			return
		}
	}
	var sizes source.SizeSet
	for i := have; i < p.sizes; i++ {
		sizes |= source.OneSize(i)
	}
	p.out.Faults = append(p.out.Faults, source.Fault{At: at, Sizes: sizes, Kind: source.SizeColumn, Severity: source.Error,
		Stated: nil, Actual: nil,
		Text: source.Say("read.list-length", "the list has {0} figures, but there are {1} sizes", have, p.sizes)})
}

// length reads "7 (8, 9) in", "6 1/2 in (16.5 cm)", "10 cm / 4 in".
func (p *parser) length() (*script.Length, bool) {
	start := p.i
	l, ok := p.list()
	if !ok {
		return nil, false
	}
	if p.peek().w == "-" { // "a 7-inch foot"
		p.i++
	}
	unit := p.unit()
	if unit == "" {
		p.i = start
		return nil, false
	}
	if len(l.x) == 1 { // "two inches and a half"
		l.x[0] += p.andPart()
	}
	out := &script.Length{At: l.At, Unit: unit, Cols: l.Cols}
	for _, x := range l.x {
		out.MM = append(out.MM, x*millimetres[unit])
	}
	back := p.i
	open := p.peek().w
	if open == "(" || open == "[" || open == "/" || open == "," || open == "or" || open == "=" {
		p.i++
		if l, ok := p.list(); ok {
			if other := p.unit(); other != "" && other != unit {
				for _, x := range l.x {
					out.Also = append(out.Also, x*millimetres[other])
				}
				if open == "(" {
					p.eat(")")
				} else if open == "[" {
					p.eat("]")
				}
				out.At = out.At.To(l.At)
				return out, true
			}
		}
		p.i = back
	}
	return out, true
}

var millimetres = map[string]float64{"in": 25.4, "cm": 10, "mm": 1}

func (p *parser) unit() string {
	switch t := p.peek(); t.w {
	case "in":
		if raw := p.raw(t.at); strings.EqualFold(raw, "inch") || strings.EqualFold(raw, "inches") {
			p.i++
			return t.w
		}
		switch p.ahead(1).w { // not a measure
		case "all", "total", "rnd", "row", "sts", "patt", "rib", "the", "this", "each", "st-st", "stockinette", "next", "same":
			return ""
		}
		p.i++
		return t.w
	case "cm", "mm":
		p.i++
		return t.w
	case "\"":
		p.i++
		return "in"
	}
	return ""
}

package reader

import (
	"slices"

	"sockwright/internal/pattern"
	"sockwright/internal/script"
)

// Rounds of which it is said beforehand that some of them shape, before it is told how: "Work 40 rounds in
// st st. Every fifth of these rounds is a dec round." The shaping round that is told next is the first of
// them.

// everyNthOfThese reads "Every fifth one of these rnds is a dec rnd, the rest are plain" behind so many
// plain rounds.
func (p *parser) everyNthOfThese() bool {
	if len(p.items) == 0 {
		return false
	}
	start := p.i
	plain, ok := p.items[len(p.items)-1].(*script.Plain)
	if !ok || plain.Flat || plain.Stop.Kind != script.Rows || len(plain.Stop.N.Val) == 0 || !p.any("every", "each") {
		return p.restore(start)
	}
	t := p.peek()
	if t.kind != ordToken || t.val < 2 {
		return p.restore(start)
	}
	every := int(t.val)
	p.i++
	p.any("rnd", "one")
	if p.any("of") {
		p.skip("these", "those", "them", "the")
		p.any("rnd")
	}
	if !p.any("is", "being") {
		return p.restore(start)
	}
	p.any("a", "the")
	name := p.peek().w
	if !p.any("dec", "inc") || !p.any("rnd") {
		return p.restore(start)
	}
	p.othersArePlain()
	if !p.stop() || slices.ContainsFunc(plain.Stop.N.Val, func(v int32) bool { return v != pattern.Gap && int(v) < every }) {
		return p.restore(start)
	}
	p.planned = &script.Shape{Name: name, Every: every, Stop: plain.Stop}
	plain.Stop = script.Stop{Kind: script.Rows, N: pattern.Of(every - 1), At: plain.Stop.At}
	return true
}

// othersArePlain takes ", the rest are plain", "; knit the others", "and the other rounds plain".
func (p *parser) othersArePlain() {
	back := p.i
	p.skip(",", ";", "and", "all")
	p.any("k", "work")
	p.any("the")
	if !p.any("rest", "other", "others", "rem") {
		p.i = back
		return
	}
	p.any("rnd")
	p.any("are", "is")
	p.any("plain", "k", "even")
}

// asPlanned makes a shaping round that has just been told the first of those that were announced.
func (p *parser) asPlanned(r *script.Row) {
	s := p.planned
	if s == nil || r.Label.Name != s.Name {
		return
	}
	p.planned = nil
	shaping, rest := s.Stop.N, s.Stop.N
	shaping.Val, rest.Val = nil, nil
	for _, v := range s.Stop.N.Val {
		if v == pattern.Gap {
			shaping.Val, rest.Val = append(shaping.Val, v), append(rest.Val, v)
			continue
		}
		shaping.Val, rest.Val = append(shaping.Val, v/int32(s.Every)), append(rest.Val, v%int32(s.Every))
	}
	s.Base, s.Stop.Kind, s.Stop.N = r.Base, script.InAll, shaping
	p.add(s)
	if slices.ContainsFunc(rest.Val, func(v int32) bool { return v > 0 }) {
		p.add(&script.Plain{Base: r.Base, Steps: throughout(script.Knit, r.At), Round: true, Stop: script.Stop{Kind: script.Rows, N: rest, At: s.Stop.At}})
	}
}

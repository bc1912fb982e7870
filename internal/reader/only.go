package reader

import (
	"slices"
	"strings"

	"sockwright/internal/script"
	"sockwright/internal/source"
)

// What is told for some of the sizes only: "Sizes S and M only: …", "For the larger size, …", "XS: k2. S:
// k4.", "… (largest size only)".

// onlySizes reads which sizes what follows is for.
func (p *parser) onlySizes() bool {
	start := p.i
	open := p.any("(", "[")
	lead := p.any("for", "in", "on")
	p.any("the")
	set, said, ok := p.sizeSet()
	only := p.any("only", "alone")
	shut := !open || p.any(")", "]")
	all := set == source.AllSizes(p.sizes)
	switch {
	case !ok || !shut:
		ok = false
	case only || all && said:
	case p.is(":"):
		ok = said || lead || p.began || all
	case p.is(","), p.is("-"), p.thisRowPlain(false):
		ok = said
	default:
		ok = open && said
	}
	if !ok {
		p.i = start
		return false
	}
	p.any(":", ",", "-", ".")
	p.toldSizes |= set
	if p.only = set; all {
		p.only = 0
	}
	if p.done() && start == 0 { // a heading
		p.forSizes = p.only
	}
	return true
}

// onlyAhead is the set of sizes that the line is for by its first words, none if for all.
func (p *parser) onlyAhead() source.SizeSet {
	start, only, sizes := p.i, p.only, p.forSizes
	defer func() { p.i, p.only, p.forSizes, p.toldSizes = start, only, sizes, 0 }()
	p.onlySizes()
	return p.only
}

// nextSizes reads which sizes the next sentence is for. Once something has been told for every size by
// itself, what follows is for all of them again.
func (p *parser) nextSizes() {
	if p.onlySizes() {
		return
	}
	if p.toldSizes == source.AllSizes(p.sizes) {
		p.only, p.toldSizes = p.forSizes, 0
	}
}

// sizeSet reads words that name sizes; said tells that the word "size" is among them.
func (p *parser) sizeSet() (set source.SizeSet, said, ok bool) {
	if p.sizes < 2 {
		return 0, false, false
	}
	if p.eat("all", "size") || p.sizes == 2 && p.eat("both", "size") {
		return source.AllSizes(p.sizes), true, true
	}
	if set, ok := try(p, p.sizesByOrder); ok {
		return set, true, true
	}
	said = p.any("size")
	for {
		one, ok := p.oneSize(said)
		if !ok {
			return set, said, false
		}
		set |= one
		said = p.any("size") || said
		back := p.i
		p.skip(",", "and", "&", "/", "or", "+")
		said = p.any("size") || said
		_, more := p.oneSize(said)
		if p.i = back; !more {
			return set, said, true
		}
		p.skip(",", "and", "&", "/", "or", "+", "size")
	}
}

// oneSize reads the name of a size; that of figures only behind the word "size".
func (p *parser) oneSize(said bool) (source.SizeSet, bool) {
	if size, words := p.sizeNamed(p.toks, p.i); words > 0 {
		p.i += words
		return source.OneSize(size), true
	}
	if !said || p.done() {
		return 0, false
	}
	if i := slices.Index(p.out.Sizes, p.raw(p.peek().at)); i >= 0 {
		p.i++
		return source.OneSize(i), true
	}
	return 0, false
}

// sizesByOrder reads "largest size", "two smaller sizes", "2nd and 3rd sizes", "other sizes".
func (p *parser) sizesByOrder() (set source.SizeSet, ok bool) {
	count := 0
	if t := p.peek(); t.kind == numToken {
		count = int(t.val)
		p.i++
	}
	first, last := false, false
	switch t := p.peek(); {
	case p.any("smallest", "smaller", "youngest", "younger"):
		first = true
	case p.any("largest", "larger", "bigger", "biggest", "oldest", "older"):
		last = true
	case p.any("other", "rem"):
		set = source.AllSizes(p.sizes) &^ p.toldSizes
		return set, p.any("size") && p.toldSizes != 0
	case t.kind == ordToken, t.w == "first", t.w == "last", t.w == "centre":
		return p.sizesCounted()
	default:
		return 0, false
	}
	exact := strings.HasSuffix(p.toks[p.i-1].w, "est")
	if t := p.peek(); t.kind == numToken && count == 0 {
		count = int(t.val)
		p.i++
	}
	plural := strings.HasSuffix(strings.ToLower(p.raw(p.peek().at)), "s")
	if !p.any("size") {
		return 0, false
	}
	if count == 0 {
		if count = 1; plural {
			count = p.sizes - 1
		}
		if count > 1 && exact || !plural && !exact && p.sizes > 2 {
			return 0, false
		}
	}
	for n := range min(count, p.sizes) {
		if first {
			set |= source.OneSize(n)
		} else if last {
			set |= source.OneSize(p.sizes - 1 - n)
		}
	}
	return set, true
}

// sizesCounted reads "first size", "2nd and 3rd sizes", "middle size".
func (p *parser) sizesCounted() (set source.SizeSet, ok bool) {
	for {
		t := p.peek()
		n := 0
		switch {
		case t.kind == ordToken:
			n = int(t.val)
		case t.w == "first":
			n = 1
		case t.w == "last":
			n = p.sizes
		case t.w == "centre" && p.sizes%2 == 1:
			n = p.sizes/2 + 1
		}
		if n < 1 || n > p.sizes {
			return 0, false
		}
		set |= source.OneSize(n - 1)
		p.i++
		if p.skip(",", "and", "&"); p.any("size") {
			return set, true
		}
	}
}

// rowBySize reads what a row is in each size: "XS: [k14, m1] 4 times. S: k. M: …".
func (p *parser) rowBySize(start int, l script.Label) bool {
	began, before := len(p.items), p.only
	for {
		back := p.i
		if !p.onlySizes() {
			p.i = back
			break
		}
		steps, ok := p.rowSteps()
		if !ok {
			p.items, p.only = p.items[:began], before
			return false
		}
		r := &script.Row{Label: l, Steps: steps, Flat: !l.Round}
		behind := p.i
		if r.Claims = p.claimsBehind(); slices.ContainsFunc(r.Claims, func(c script.Claim) bool { return len(c.N.Val) == p.sizes }) { // of all sizes
			p.i, r.Claims = behind, nil
		}
		r.Base = p.base(start)
		p.emitRow(r)
		if start = p.i; !p.any(".", ";", ",") {
			break
		}
		told := p.toldSizes
		if back := p.i; !p.onlySizes() {
			p.i = back - 1
			break
		}
		p.i, p.toldSizes = start+1, told
	}
	p.only, p.toldSizes = before, 0
	return len(p.items) > began
}

// rowOfOthers reads in brackets what a row is in some of the sizes: "*k13, k2tog; rep from * (size L: k all
// sts)", "[k2, p2] to end (Small: k)".
func (p *parser) rowOfOthers(l script.Label) *script.Row {
	back, told := p.i, p.toldSizes
	p.any(",", ".")
	if from := p.i; p.only == 0 && p.any("(", "[") {
		p.skip("but", "for", "in", "the")
		if set, _, ok := p.sizeSet(); ok && set != source.AllSizes(p.sizes) && p.any(":", ",", "-") {
			p.skip("just", "only")
			if steps, ok := p.rowSteps(); ok && p.any(")", "]") {
				r := &script.Row{Label: l, Steps: steps, Flat: !l.Round}
				r.Base = p.base(from)
				r.Sizes = set
				return r
			}
		}
	}
	p.i, p.toldSizes = back, told
	return nil
}

// bySizeSet adds a row, another that some sizes work in its place, and what is counted behind both.
func (p *parser) bySizeSet(start int, r, others *script.Row) bool {
	claims := r.Claims
	r.Claims, r.Base = nil, p.base(start)
	r.Sizes = source.AllSizes(p.sizes) &^ others.Sizes
	p.emitRow(r)
	p.emitRow(others)
	if claims != nil {
		p.add(&script.State{Base: p.base(start), Claims: claims})
	}
	return true
}

// onlyBehind reads, behind what is told, that it is for some of the sizes: "Knit 1 rnd (largest size
// only)."
func (p *parser) onlyBehind(from int) bool {
	back, only := p.i, p.only
	if !p.any("(", "[") {
		return false
	}
	p.skip("for", "the")
	set, _, ok := p.sizeSet()
	if !ok || !p.any("only", "alone") || !p.any(")", "]") {
		p.i, p.only = back, only
		return false
	}
	for _, item := range p.items[from:] {
		script.Of(item).Sizes = set
	}
	return true
}

// thisRowPlain reads what sizes do that have no part in a row just told for others: "knit this round
// straight", "work it plain".
func (p *parser) thisRowPlain(take bool) bool {
	back := p.i
	ok := p.any("k", "work") && p.phrase("this rnd", "this row", "the rnd", "the row", "it") && p.any("straight", "plain", "even") && p.stop()
	if !ok || !take {
		p.i = back
	}
	return ok
}

// plainForOthers reads "The other sizes knit this round straight" behind a row for some sizes.
func (p *parser) plainForOthers() bool {
	start := p.i
	if p.only == 0 || len(p.rows) == 0 || !p.thisRowPlain(true) {
		return false
	}
	last := p.rows[len(p.rows)-1]
	r := &script.Row{Label: last.Label, Steps: throughout(script.Knit, p.since(start)), Flat: last.Flat}
	r.Base = p.base(start)
	p.emitRow(r)
	return true
}

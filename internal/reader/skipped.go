package reader

import (
	"strings"

	"sockwright/internal/script"
	"sockwright/internal/source"
)

// doubt notes that words since token start may have been an instruction, if the work has begun.
func (p *parser) doubt(start int, marks bool) {
	if p.began || p.out.Worked > 0 || len(p.items) > 0 {
		first := &p.toks[0]
		p.add(&script.Skipped{Base: p.base(start), Sentence: p.sentenceOf(start), Marks: marks, Strange: first.kind == wordToken && !p.knows(first)})
	}
}

// mayInstruct tells whether words that no rule has taken may have been an instruction: they
// begin with what is done to stitches, or have a figure that is no measure and are neither a
// heading nor a statement.
func (p *parser) mayInstruct(from, to int) bool {
	for from < to && joining[p.toks[from].w] {
		from++
	}
	if from < to && p.deed(from) && (from+1 >= len(p.toks) || p.toks[from+1].w != "or") { // "k or p each wrap with its st" tells how only
		return true
	}
	if p.is(":") && p.rowWords(from, to) && p.numbers(from, to) { // the label of a row that could not be read
		return true
	}
	if from == to || p.is(":") || neutral[p.toks[from].w] || strings.HasSuffix(p.toks[from].w, "ing") {
		return false
	}
	if p.states(from, to) {
		return false
	}
	if t := &p.toks[from]; t.kind == punctToken && from > 0 && to == from+1 { // no writing at all
		return true
	}
	counts, places, strange := false, false, false
	for i := from; i < to; i++ {
		t := &p.toks[i]
		strange = strange || t.kind == wordToken && !p.knows(t)
		if t.kind == numToken && p.placed(i, from) && !p.ofMeasure(i) {
			places = true
			continue
		}
		measure := p.ofMeasure(i) || p.names(i) || p.eachOf(i+1, to) || p.sizeOf(i)
		counts = counts || t.kind == numToken && t.w != "one" && !measure
	}
	return counts || places && strange
}

// states tells whether words state something: with a verb that does nothing. Where they end
// with a figure, it may be one of a list behind which the sentence goes on.
func (p *parser) states(from, to int) bool {
	for list := p.toks[to-1].kind == numToken; list && to < len(p.toks) && p.toks[to].w != "." && p.toks[to].w != ";"; to++ {
	}
	until := false
	for i := from; i < to; i++ {
		switch w := p.toks[i].w; {
		case stating[w], w == "rem" && !until:
			return true
		case w == "until":
			until = true
		}
	}
	return false
}

// placed tells whether a figure says where something is done: "over the first 16 sts".
func (p *parser) placed(i, from int) bool {
	for i--; i >= from; i-- {
		switch p.toks[i].w {
		case "on", "over", "across":
			return true
		case "the", "these", "first", "last", "next", "centre", "all":
		default:
			return false
		}
	}
	return false
}

// marks tells whether words only hang markers, or take them away: others than the one where
// the round begins, and none that hangs already.
func (p *parser) marks(from, to int) bool {
	first, found := &p.toks[from], false
	for i := from; i < to; i++ {
		switch w := p.toks[i].w; {
		case w == "bor" || w == "beg":
			return false
		case w == "pm" || w == "mark" || w == "m" && i > from && first.kind == wordToken && first.w != "move":
			found = true
		}
	}
	return found
}

// ofMeasure tells whether a figure, or the list that it stands in, is of a measure.
func (p *parser) ofMeasure(i int) bool {
	for i++; i < len(p.toks) && (p.toks[i].kind == numToken || p.toks[i].kind == punctToken && p.toks[i].w != "." || strings.Contains(p.toks[i].w, "/")); i++ {
	}
	return i < len(p.toks) && measuring[p.toks[i].w]
}

// sizeOf tells whether a figure says how large something is: "8-st repeat", "a 6 row pattern".
func (p *parser) sizeOf(i int) bool {
	i++
	if i < len(p.toks) && p.toks[i].w == "-" {
		i++
	}
	return i+1 < len(p.toks) && sized[p.toks[i].w] && lasting[p.toks[i+1].w]
}

// numbers tells whether a figure stands among words that are for no more than the rows that
// they name.
func (p *parser) numbers(from, to int) bool {
	found := false
	for _, t := range p.toks[from:to] {
		if t.w == "alt" || t.w == "every" {
			return false
		}
		found = found || t.kind == numToken || t.kind == ordToken
	}
	return found
}

// deed tells whether what is done to stitches stands at token i, in words of the trade that an
// instruction begins with.
func (p *parser) deed(i int) bool {
	side := i+1 < len(p.toks) && p.toks[i+1].w == "side" // "knit side outside"
	return (deeds[p.toks[i].w] || p.toks[i].stitch != nil) && !side
}

// names tells whether a figure is the number of something, or one of several: "needles 1 and 3".
func (p *parser) names(i int) bool {
	for i > 1 && (p.toks[i-1].w == "and" || p.toks[i-1].w == ",") && p.toks[i-2].kind == numToken {
		i -= 2
	}
	return i > 0 && numbering[p.toks[i-1].w]
}

// eachOf tells whether words say of a figure that each needle has as many: "16 to a needle".
func (p *parser) eachOf(from, to int) bool {
	for i := from; i < min(to, from+4); i++ {
		if p.toks[i].w == "ndl" {
			return true
		}
	}
	return false
}

var (
	joining   = set("and then now next")
	deeds     = set("k p sl rep pick wrap w&t cast co bo twin")
	neutral   = set("rib each")
	stating   = set("is are was were has rest there form patt chart")
	measuring = set("in cm mm oz yd skein ndl times")
	sized     = set("sts row rnd")
	lasting   = set("rep patt panel motif border band lace cable chart")
	numbering = set("no size row rnd chart ndl")
)

// sentenceOf is the sentence in which token i stands.
func (p *parser) sentenceOf(i int) source.Span {
	from, to := i, i
	for from > 0 && p.toks[from-1].w != "." {
		from--
	}
	for to+1 < len(p.toks) && p.toks[to].w != "." {
		to++
	}
	return p.toks[from].at.To(p.toks[to].at)
}

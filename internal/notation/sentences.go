package notation

import (
	"slices"
	"strings"

	"sockwright/internal/pattern"
)

// A sentence is an instruction with a fixed wording and some numbers and a place in it. The
// same wording serves to write the line and to read it.
type sentence struct {
	form string // "#" stands for a number, "@" for a place
	of   func(pattern.Node) (slots, bool)
	node func(slots) pattern.Node
}

// slots is what stands in a sentence's numbers, in order, and its place.
type slots struct {
	n     []pattern.Number
	place pattern.Place
}

func numbers(n ...pattern.Number) slots { return slots{n: n} }

var sentences = []sentence{
	divide("The last # sts worked are the heel; the other # sts rest for the instep.", true, false),
	divide("The first # sts of the rnd are the heel; the other # sts rest for the instep.", false, false),
	divide("The first # sts of the rnd are worked back and forth; the other # sts rest.", false, true),
	{"The rnd now begins here, @.",
		func(n pattern.Node) (slots, bool) {
			x, ok := n.(*pattern.Begin)
			if !ok {
				return slots{}, false
			}
			return slots{place: x.Place}, true
		},
		func(s slots) pattern.Node { return &pattern.Begin{Place: s.place} }},
	{"Remove the stitch markers as you come to them.",
		func(n pattern.Node) (slots, bool) { _, ok := n.(*pattern.DropMarkers); return slots{}, ok },
		func(slots) pattern.Node { return &pattern.DropMarkers{} }},
	{"Work in the round again over all # sts. The rnd begins @.",
		func(n pattern.Node) (slots, bool) {
			x, ok := n.(*pattern.Rejoin)
			if !ok {
				return slots{}, false
			}
			return slots{[]pattern.Number{x.Stitches}, x.Place}, true
		},
		func(s slots) pattern.Node { return &pattern.Rejoin{Stitches: s.n[0], Place: s.place} }},
	{"Undo the provisional cast-on and take up its # sts for the instep.",
		func(n pattern.Node) (slots, bool) {
			x, ok := n.(*pattern.Undo)
			if !ok {
				return slots{}, false
			}
			return numbers(x.Stitches), true
		},
		func(s slots) pattern.Node { return &pattern.Undo{Stitches: s.n[0]} }},
	{"Take out the waste yarn and put the # sts below it and the # sts above it on needles. The rnd begins @.",
		func(n pattern.Node) (slots, bool) {
			x, ok := n.(*pattern.OpenWaste)
			if !ok {
				return slots{}, false
			}
			return slots{[]pattern.Number{x.Below, x.Above}, x.Place}, true
		},
		func(s slots) pattern.Node { return &pattern.OpenWaste{Below: s.n[0], Above: s.n[1], Place: s.place} }},
	join("Graft the # sts of the instep to the # sts of the sole.", pattern.Grafted, false),
	join("Bind off the # sts of the instep together with the # sts of the sole.", pattern.BoundOff, false),
	join("Graft the first # sts of the heel to the last # sts.", pattern.Grafted, true),
	join("Bind off the first # sts of the heel together with the last # sts.", pattern.BoundOff, true),
	bindOff("BO all # sts in pattern.", pattern.InPattern),
	bindOff("BO all # sts with the stretchy bind-off.", pattern.Stretchy),
	bindOff("BO all # sts with the sewn bind-off.", pattern.Sewn),
	bindOff("BO all # sts with the tubular bind-off.", pattern.Tubular),
	{"Draw the yarn twice through the # sts and pull them together.",
		func(n pattern.Node) (slots, bool) {
			x, ok := n.(*pattern.Gather)
			if !ok {
				return slots{}, false
			}
			return numbers(x.Stitches), true
		},
		func(s slots) pattern.Node { return &pattern.Gather{Stitches: s.n[0]} }},
}

func divide(form string, last, toe bool) sentence {
	return sentence{form,
		func(n pattern.Node) (slots, bool) {
			if x, ok := n.(*pattern.Divide); ok && x.Last == last && x.Toe == toe {
				return numbers(x.Heel, x.Rest), true
			}
			return slots{}, false
		},
		func(s slots) pattern.Node { return &pattern.Divide{Last: last, Toe: toe, Heel: s.n[0], Rest: s.n[1]} }}
}

func join(form string, how pattern.Joining, heel bool) sentence {
	return sentence{form,
		func(n pattern.Node) (slots, bool) {
			if x, ok := n.(*pattern.Join); ok && x.How == how && x.Heel == heel {
				return numbers(x.Front, x.Back), true
			}
			return slots{}, false
		},
		func(s slots) pattern.Node { return &pattern.Join{How: how, Heel: heel, Front: s.n[0], Back: s.n[1]} }}
}

func bindOff(form string, how pattern.Edging) sentence {
	return sentence{form,
		func(n pattern.Node) (slots, bool) {
			if x, ok := n.(*pattern.BindOff); ok && x.How == how {
				return numbers(x.Stitches), true
			}
			return slots{}, false
		},
		func(s slots) pattern.Node { return &pattern.BindOff{How: how, Stitches: s.n[0]} }}
}

// sentence writes a node that has a fixed wording.
func (w *writer) sentence(n pattern.Node) {
	for _, s := range sentences {
		fill, ok := s.of(n)
		if !ok {
			continue
		}
		for form := s.form; form != ""; {
			i := strings.IndexAny(form, "#@")
			if i < 0 {
				w.say(form)
				return
			}
			w.say(form[:i])
			if form[i] == '@' {
				w.say(placeWords[fill.place])
			} else {
				w.number(fill.n[0])
				fill.n = fill.n[1:]
			}
			form = form[i+1:]
		}
		return
	}
	panic("notation: a line that has no words")
}

// sentence reads a line that has a fixed wording. begun tells whether its first words are
// those of one: all before its first number, three at least, or “Graft the”, which nothing
// else begins with. A 1 before "sts" may be printed "1 st".
func (r *reader) sentence() (n pattern.Node, begun bool) {
	for i := range sentences {
		r.at = 0
		fill, matched, ok := r.fill(sentences[i].form)
		if ok && r.done() {
			return sentences[i].node(fill), true
		}
		words := formWords[sentences[i].form]
		first := slices.IndexFunc(words, func(w string) bool { return w == "#" || w == "@" })
		begun = begun || matched >= max(3, first) || matched >= first && words[0] == "Graft"
	}
	r.at = 0
	return nil, begun
}

// fill reads the words of a form and what stands in its slots; matched is how many of its
// words and slots were there.
func (r *reader) fill(form string) (fill slots, matched int, ok bool) {
	for _, word := range formWords[form] {
		switch word {
		case "#":
			n, ok := r.number()
			if !ok {
				return fill, matched, false
			}
			fill.n = append(fill.n, n)
		case "@":
			if fill.place, ok = r.placeWord(); !ok {
				return fill, matched, false
			}
		case "sts":
			if !r.sts() {
				return fill, matched, false
			}
		default:
			if !r.word(word) {
				return fill, matched, false
			}
		}
		matched++
	}
	return fill, matched, true
}

// formWords is every form as the tokens of its words.
var formWords = func() map[string][]string {
	m := map[string][]string{}
	for _, s := range sentences {
		for _, t := range lex(s.form) {
			if t.kind != spaceToken {
				m[s.form] = append(m[s.form], t.text)
			}
		}
	}
	return m
}()

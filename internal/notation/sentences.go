package notation

import (
	"slices"
	"strings"

	"sockwright/internal/pattern"
)

// A sentence is an instruction with a fixed wording and some numbers and a place in it. The
// same wording serves to write the line and to read it.
type sentence struct {
	form  string                           // "#" stands for a number, "@" for a place
	node  func() pattern.Node              // a new one that has this wording, with nothing in its slots
	slots func(pattern.Node) (slots, bool) // of a node, if it has this wording
}

// slots are what a node has for the places of its sentence.
type slots struct {
	numbers []*pattern.Number // in the order in which they stand
	place   *pattern.Place
	which   any // what tells the wordings of such nodes apart
}

var sentences = []sentence{
	fixed("The last # sts worked are the heel; the other # sts rest for the instep.", pattern.Divide{Last: true}, divide),
	fixed("The first # sts of the rnd are the heel; the other # sts rest for the instep.", pattern.Divide{}, divide),
	fixed("The first # sts of the rnd are worked back and forth; the other # sts rest.", pattern.Divide{Toe: true}, divide),
	fixed("The rnd now begins here, @.", pattern.Begin{}, func(n *pattern.Begin) slots { return slots{place: &n.Place} }),
	fixed("Remove the stitch markers as you come to them.", pattern.DropMarkers{}, func(*pattern.DropMarkers) slots { return slots{} }),
	fixed("Work in the round again over all # sts. The rnd begins @.", pattern.Rejoin{},
		func(n *pattern.Rejoin) slots { return slots{numbers: numbers(&n.Stitches), place: &n.Place} }),
	fixed("Undo the provisional cast-on and take up its # sts for the instep.", pattern.Undo{},
		func(n *pattern.Undo) slots { return slots{numbers: numbers(&n.Stitches)} }),
	fixed("Take out the waste yarn and put the # sts below it and the # sts above it on needles. The rnd begins @.", pattern.OpenWaste{},
		func(n *pattern.OpenWaste) slots { return slots{numbers: numbers(&n.Below, &n.Above), place: &n.Place} }),
	fixed("Graft the # sts of the instep to the # sts of the sole.", pattern.Join{How: pattern.Grafted}, join),
	fixed("Bind off the # sts of the instep together with the # sts of the sole.", pattern.Join{How: pattern.BoundOff}, join),
	fixed("Graft the first # sts of the heel to the last # sts.", pattern.Join{How: pattern.Grafted, Heel: true}, join),
	fixed("Bind off the first # sts of the heel together with the last # sts.", pattern.Join{How: pattern.BoundOff, Heel: true}, join),
	fixed("BO all # sts in pattern.", pattern.BindOff{How: pattern.InPattern}, bindOff),
	fixed("BO all # sts with the stretchy bind-off.", pattern.BindOff{How: pattern.Stretchy}, bindOff),
	fixed("BO all # sts with the sewn bind-off.", pattern.BindOff{How: pattern.Sewn}, bindOff),
	fixed("BO all # sts with the tubular bind-off.", pattern.BindOff{How: pattern.Tubular}, bindOff),
	fixed("Draw the yarn twice through the # sts and pull them together.", pattern.Gather{},
		func(n *pattern.Gather) slots { return slots{numbers: numbers(&n.Stitches)} }),
}

func numbers(n ...*pattern.Number) []*pattern.Number { return n }

func divide(n *pattern.Divide) slots {
	return slots{numbers: numbers(&n.Heel, &n.Rest), which: [2]bool{n.Last, n.Toe}}
}

func join(n *pattern.Join) slots {
	return slots{numbers: numbers(&n.Front, &n.Back), which: [2]any{n.How, n.Heel}}
}

func bindOff(n *pattern.BindOff) slots {
	return slots{numbers: numbers(&n.Stitches), which: n.How}
}

// fixed is the sentence of nodes that are like one.
func fixed[N any, P interface {
	*N
	pattern.Node
}](form string, like N, of func(P) slots) sentence {
	which := of(&like).which
	return sentence{form,
		func() pattern.Node {
			n := like
			return P(&n)
		},
		func(n pattern.Node) (slots, bool) {
			x, ok := n.(P)
			if !ok {
				return slots{}, false
			}
			s := of(x)
			return s, s.which == which
		}}
}

// sentence writes a node that has a fixed wording.
func (w *writer) sentence(n pattern.Node) {
	for _, s := range sentences {
		fill, ok := s.slots(n)
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
				w.say(placeWords[*fill.place])
			} else {
				w.number(*fill.numbers[0])
				fill.numbers = fill.numbers[1:]
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
	for _, s := range sentences {
		r.at = 0
		n := s.node()
		fill, _ := s.slots(n)
		words := phraseWords(s.form)
		matched, ok := r.fill(words, fill)
		if ok && r.done() {
			return n, true
		}
		first := slices.IndexFunc(words, func(w string) bool { return w == "#" || w == "@" })
		begun = begun || matched >= max(3, first) || matched >= first && words[0] == "Graft"
	}
	r.at = 0
	return nil, begun
}

// fill reads the words of a form and what stands in its slots; matched is how many of its
// words and slots were there.
func (r *reader) fill(words []string, fill slots) (matched int, ok bool) {
	for _, word := range words {
		switch word {
		case "#":
			*fill.numbers[0], ok = r.number()
			fill.numbers = fill.numbers[1:]
		case "@":
			*fill.place, ok = r.placeWord()
		case "sts":
			ok = r.sts()
		default:
			ok = r.word(word)
		}
		if !ok {
			return matched, false
		}
		matched++
	}
	return matched, true
}

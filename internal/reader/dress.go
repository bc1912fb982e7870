package reader

import (
	"strings"

	"sockwright/internal/source"
)

// A list of sizes wears many dresses: "56 (64, 72)", "56 {64} 72", "56; 64; 72", "7 in (8 in, 9 in)",
// "A 56 / B 64 / C 72", "56 for S, 64 for M and 72 for L". Here every one that has a figure for each
// size is put into the first of them, so that the rest of the reader knows one only.

// style is how a text dresses its lists of sizes.
type style struct {
	bare string // separators that part the figures of lists without brackets
}

// separators may part the figures of a list.
const separators = ",;:/|-"

// permits tells whether figures of a list for so many sizes may be parted by a separator alone.
func (s style) permits(sep string, sizes int) bool {
	switch {
	case strings.Contains(s.bare, sep), sep == "/", sep == "|":
		return true
	case sep == ";", sep == ":", sep == "-":
		return sizes > 2
	}
	return false
}

var closing = map[string]string{"(": ")", "[": "]", "{": "}", "<": ">"}

// dress puts the lists of sizes of a line into one dress.
func (p *parser) dress(toks []token) []token {
	if p.sizes < 2 {
		return toks
	}
	var out []token
	done := 0
	for i := 0; i < len(toks); i++ {
		l, ok := p.dressed(toks, i)
		if !ok && i > 0 && notLists.has(&toks[i-1]) { // "Rnds 1, 3, 5"
			i = max(i, passNumbers(toks, i)-1)
			continue
		}
		if !ok {
			if l, ok = p.misfit(toks, i); !ok {
				continue
			}
		}
		if l.changed {
			out = append(out, toks[done:i]...)
			out = append(out, l.tokens()...)
			if len(l.vals) == p.sizes {
				p.out.Lists = append(p.out.Lists, l.vals[0].at.To(toks[l.end-1].at))
			}
			done = l.end
		}
		i = l.end - 1
	}
	if done == 0 {
		return toks
	}
	return append(out, toks[done:]...)
}

// passNumbers is the token behind numbers that name rows or the like: "1, 3, 5".
func passNumbers(toks []token, i int) int {
	for i < len(toks) && toks[i].kind == numToken {
		if i++; i+1 < len(toks) && (toks[i].w == "," || toks[i].w == "-" || toks[i].w == "/" || toks[i].w == "and") && toks[i+1].kind == numToken {
			i++
		}
	}
	return i
}

// A dressedList is a list of sizes as it stands in a line.
type dressedList struct {
	vals    []token
	noun    *token // that stands behind its figures: "in", "sts"
	end     int    // the token behind it
	changed bool   // it is not "56 (64, 72)" yet
}

// tokens is the list in the dress that the reader knows.
func (l *dressedList) tokens() []token {
	mark := func(w string, at source.Span) token {
		t := spelled(w)
		t.kind, t.at = punctToken, source.Span{Start: at.End, End: at.End}
		return t
	}
	out := []token{l.vals[0], mark("(", l.vals[0].at)}
	for i, v := range l.vals[1:] {
		if i > 0 {
			out = append(out, mark(",", l.vals[i].at))
		}
		out = append(out, v)
	}
	out = append(out, mark(")", l.vals[len(l.vals)-1].at))
	if l.noun != nil {
		out = append(out, *l.noun)
	}
	return out
}

// notLists are words whose figures name something and count nothing.
var notLists = newList("row rnd ndl chart page step size fig no")

// dressed reads a list of one figure for each size that begins at token i.
func (p *parser) dressed(toks []token, i int) (l dressedList, ok bool) {
	boxed := firstBoxed(toks, i)
	if _, words := p.sizeNamed(toks, i); words == 0 && toks[i].kind != numToken && toks[i].w != "-" && !boxed {
		return l, false
	}
	if inList(toks, i) {
		return l, false
	}
	r := listReader{p: p, toks: toks, i: i}
	if boxed {
		r.open, r.odd, r.i = toks[i].w, true, i+1
	}
	if !r.read() || i > 0 && notLists.has(&toks[i-1]) && r.at(0).w != "times" && r.at(0).w != "more" {
		return l, false
	}
	return dressedList{r.vals, r.noun, r.i, !r.plain()}, true
}

// inList tells whether a figure stands in the brackets of a list that could not be read.
func inList(toks []token, i int) bool {
	return i > 1 && closing[toks[i-1].w] != "" && (toks[i-2].kind == numToken || toks[i-2].w == "-")
}

// firstBoxed tells whether the figure of the smallest size stands in brackets of its own: "(48) 60 [72]".
func firstBoxed(toks []token, i int) bool {
	if i == 0 && len(toks) > 3 && 2*toks[1].x < toks[3].x { // "(1) 48 (52) sts" is the first of several steps
		return false
	}
	return i+4 < len(toks) && closing[toks[i].w] != "" && toks[i+1].kind == numToken && toks[i+2].w == closing[toks[i].w] &&
		(toks[i+3].kind == numToken || closing[toks[i+3].w] != "" && toks[i+4].kind == numToken) && (i == 0 || toks[i-1].kind != numToken)
}

// misfit reads a list in the text's own dress without brackets that has too few figures, or too many:
// "56, 64 sts" where there are three sizes. Figures that grow from one to the next are taken for one.
func (p *parser) misfit(toks []token, i int) (l dressedList, ok bool) {
	if toks[i].kind != numToken || i > 0 && notLists.has(&toks[i-1]) || inList(toks, i) || i+2 >= len(toks) {
		return l, false
	}
	sep := toks[i+1].w
	if sep == "" || !strings.Contains(p.style.bare, sep) {
		return l, false
	}
	l = dressedList{vals: toks[i : i+1 : i+1], end: i + 1, changed: true}
	for l.end+1 < len(toks) && toks[l.end].w == sep && toks[l.end+1].kind == numToken && toks[l.end+1].x >= toks[l.end-1].x {
		l.vals = append(l.vals, toks[l.end+1])
		l.end += 2
	}
	first, last := l.vals[0].x, l.vals[len(l.vals)-1].x
	if l.end < len(toks) && closing[toks[l.end].w] != "" || sep == "," && (first < 8 || last > 1.6*first) { // "p2, 10 rnds"
		return l, false
	}
	return l, len(l.vals) > 1
}

// A listReader reads one list.
type listReader struct {
	p     *parser
	toks  []token
	i     int
	vals  []token
	open  string // the bracket that is open
	bare  string // the separator between figures that stand in no bracket
	noun  *token // behind figures: the same behind all of them
	named int    // figures that the name of their size stands with
	odd   bool   // the dress is not "56 (64, 72)"
	boxes int    // brackets so far
}

func (r *listReader) at(n int) *token {
	if r.i+n < len(r.toks) {
		return &r.toks[r.i+n]
	}
	return &noToken
}

// plain tells whether the list is one that needs no other dress.
func (r *listReader) plain() bool {
	return r.boxes == 1 && !r.odd && r.noun == nil && r.named == 0 && r.bare == ""
}

// read reads one figure for each size, and what stands between them.
func (r *listReader) read() bool {
	for {
		if !r.value() {
			return false
		}
		if r.full() {
			return r.finish()
		}
		if !r.joint() {
			return false
		}
	}
}

// full tells whether there is a figure for each size, or for each that the line is for.
func (r *listReader) full() bool {
	n := len(r.vals)
	if n == r.p.sizes {
		return true
	}
	return n > 1 && n == r.p.forSome
}

// value reads a figure, with the name of its size and what it counts.
func (r *listReader) value() bool {
	if r.name() && (r.at(0).w == ":" || r.at(0).w == "=") {
		r.i++
	}
	switch t := r.at(0); {
	case t.kind == numToken, t.w == "-":
	case t.w == "x" && len(r.vals) > 0, t.w == "none", t.w == "nil":
	default:
		return false
	}
	if a, b, ok := r.twoSizes(r.at(0)); ok {
		r.odd = true
		r.vals = append(r.vals, a, b)
	} else {
		r.vals = append(r.vals, *r.at(0))
	}
	r.i++
	if t := r.at(0); nouns.has(t) && (r.noun == nil || r.noun.w == t.w) && (!r.full() || r.noun != nil || r.open != "") {
		r.noun = t
		r.i++
	}
	r.nameBehind()
	return true
}

// twoSizes are the figures of two sizes where they look like a fraction: "3/4" in "2/3/4" or "3 (3/4)
// 4", which nothing but a list can be.
func (r *listReader) twoSizes(t *token) (first, second token, ok bool) {
	if t.kind != numToken || t.val != 0 || t.x == 0 || r.bare != "/" && (r.open == "" || len(r.vals) == 0 || r.vals[0].val == 0) || r.p.file == nil {
		return first, second, false
	}
	a, b, ok := strings.Cut(r.p.raw(t.at), "/")
	if !ok || len(a) != 1 || len(b) != 1 {
		return first, second, false
	}
	num := func(digit string, at source.Span) token {
		v := int32(digit[0] - '0')
		return token{kind: numToken, val: v, x: float64(v), at: at}
	}
	return num(a, source.Span{Start: t.at.Start, End: t.at.Start + 1}), num(b, source.Span{Start: t.at.End - 1, End: t.at.End}), true
}

// nouns are what figures count.
var nouns = newList("sts row rnd times in cm mm \"")

// name takes the name of the size whose figure comes next.
func (r *listReader) name() bool {
	size, words := r.p.sizeNamed(r.toks, r.i)
	if words == 0 || size != len(r.vals) {
		return false
	}
	r.i += words
	r.named++
	return true
}

// nameBehind takes the name of the size whose figure it was: "56 for S", "56 (S)", "56 sts for size S".
func (r *listReader) nameBehind() {
	back := r.i
	w := r.at(0).w
	r.i++
	switch {
	case w == "for":
		for r.at(0).w == "the" || r.at(0).w == "size" {
			r.i++
		}
		if size, words := r.p.sizeNamed(r.toks, r.i); words > 0 && size == len(r.vals)-1 {
			r.i += words
			r.named++
			return
		}
	case w == "(" && r.open == "":
		if size, words := r.p.sizeNamed(r.toks, r.i); words > 0 && size == len(r.vals)-1 && r.at(words).w == ")" {
			r.i += words + 1
			r.named++
			return
		}
	}
	r.i = back
}

// joint reads what stands between two figures.
func (r *listReader) joint() bool {
	if r.open != "" && r.at(0).w == closing[r.open] {
		r.open = ""
		r.i++
		if closing[r.at(0).w] == "" { // "40 {48} 56"
			r.odd = true
			return r.at(0).kind == numToken || r.at(0).w == "-" && r.boxes > 0 && closing[r.at(1).w] != ""
		}
	}
	t := r.at(0)
	switch {
	case r.open == "" && closing[t.w] != "":
		r.odd = r.odd || r.boxes > 0 || t.w == "<" || r.bare != ""
		r.open = t.w
		r.boxes++
		r.i++
		return r.bare == "" && r.named == 0
	case t.kind == punctToken && strings.Contains(separators, t.w):
		if r.open == "" {
			if r.boxes > 0 || r.bare != "" && r.bare != t.w || !r.parts(t) {
				return false
			}
			r.bare = t.w
		}
		r.i++
		if r.at(0).w == "and" {
			r.odd = true
			r.i++
		}
		return true
	case t.w == "and" && (r.bare == "," || r.named > 0 || r.open != "") && len(r.vals) > 1-min(r.named, 1):
		r.odd = true
		r.i++
		return true
	case r.open != "" && t.kind == numToken: // "30 [32 34 36]"
		r.odd = true
		return true
	}
	return false
}

// parts tells whether a separator may part two figures that stand in no bracket.
func (r *listReader) parts(t *token) bool {
	if r.named > 0 {
		return true
	}
	if t.w == "-" && t.glued && !strings.Contains(r.p.style.bare, "-") {
		return false
	}
	n := r.p.sizes
	if r.p.forSome > 0 {
		n = r.p.forSome
	}
	return r.p.style.permits(t.w, max(n, len(r.vals)))
}

// finish ends a list that has all its figures.
func (r *listReader) finish() bool {
	if r.open != "" {
		if r.at(0).w != closing[r.open] {
			return false
		}
		r.open = ""
		r.i++
	}
	if r.named > 0 && r.named != len(r.vals) {
		return false
	}
	if r.noun != nil && r.at(0).w == r.noun.w { // said of all again
		r.i++
	}
	if r.noun != nil && r.bare != "" && r.named == 0 && len(r.vals) < 3 { // "k 8 sts, 6 sts remain"
		return false
	}
	more := 0
	for r.bare != "" && r.at(2*more).w == r.bare && r.at(2*more+1).kind == numToken { // a longer one, or several in a row
		more++
	}
	return more%len(r.vals) == 0
}

// sizeNamed is the size that the words from token i name, and how many words they are; none if they
// name no size. A figure alone is no name here.
func (p *parser) sizeNamed(toks []token, i int) (size, words int) {
	for s, name := range p.named {
		if len(name) <= words || i+len(name) > len(toks) {
			continue
		}
		same := true
		for k, w := range name {
			same = same && sameName(p.raw(toks[i+k].at), w)
		}
		if same {
			size, words = s, len(name)
		}
	}
	return size, words
}

// sameName compares a word with one of the name of a size; capitals matter where it is one letter.
func sameName(word, name string) bool {
	return word == name || len(name) > 1 && strings.EqualFold(word, name)
}

// nameWords are the words of the names of sizes, none for those that are a figure alone.
func nameWords(names []string) [][]string {
	out := make([][]string, len(names))
	for i, name := range names {
		toks := lex(name, nil)
		if len(toks) == 1 && toks[0].kind == numToken && isDigit(name[0]) {
			continue
		}
		for _, t := range toks {
			out[i] = append(out[i], name[t.at.Start:t.at.End])
		}
	}
	return out
}

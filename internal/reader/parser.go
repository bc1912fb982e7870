package reader

import (
	"sockwright/internal/script"
	"sockwright/internal/source"
)

// parser reads one line at a time. Each method tries to read one thing at p.i and leaves
// p.i where it was if it cannot.
type parser struct {
	file    *source.File
	out     *script.Script
	sizes   int // how many; 0 while that is not known
	style   style
	named   [][]string // words of the names of the sizes
	forSome int        // sizes that the line is for, 0 if for all

	toks     []token // of the line
	i        int
	depth    int         // repeats that the next token stands in
	quiet    int         // > 0: something is only tried
	numbered int         // rows that labels have named
	tooDeep  source.Span // the bracket of the line beyond maxDepth
	figure   int         // the last token that a count may begin with: there is no count behind it

	line             int // number of the line being read
	only             source.SizeSet
	part             script.Part
	flat             bool // rows, not rounds, were spoken of last
	terms            map[string]*script.Term
	items            []script.Item
	told             []script.Step  // of the rows and groups that are being read
	rows             []*script.Row  // of the section
	toldSizes        source.SizeSet // for which the line has told something by themselves
	rowsOf           string         // what the labels of the last rows named before their number: "Toe, round 1"
	forSizes         source.SizeSet // sizes that the following lines are for
	began            bool           // stitches are on the needles
	title            bool           // the title may still come
	blank            bool           // the line before was empty
	inTerms          bool
	explained        bool           // an abbreviation has been read in this list
	shaped           *script.Shape  // the shaping told last
	needleNames      map[string]int // by the letters that the text calls them
	planned          *script.Shape  // rounds among which one is to be told that comes again and again
	inStep           string         // name of the step of a list that is told
	notes            bool           // below the heading "Notes"
	defined          []definedTerm
	dotted           []dottedTerm // abbreviations of several dotted parts that the text explains
	turnedHeel       bool         // the sentence says that the heel has been turned
	last             script.Claim // the count that "as many" refers to
	spread           int          // needles that the count just read lies on
	both             []int        // needles that a count is for each of
	chart, lastChart *script.Chart
	patterns         map[string]bool // names of stitch patterns
}

// begin begins to read tokens.
func (p *parser) begin(toks []token) {
	p.toks, p.i, p.figure, p.tooDeep = toks, 0, -1, source.Span{}
	for i := len(toks) - 1; i >= 0 && p.figure < 0; i-- {
		switch t := &toks[i]; {
		case t.kind == numToken, t.w == "half", t.w == "same", t.w == "many":
			p.figure = i
		case (t.w == "(" || t.w == "[") && i > 0 && toks[i-1].w == "-": // "- (-, -)"
			p.figure = i - 1
		}
	}
}

// noToken stands behind the last token of a line.
var noToken = token{kind: lineToken}

func (p *parser) ahead(n int) *token {
	if p.i+n < len(p.toks) {
		return &p.toks[p.i+n]
	}
	return &noToken
}

func (p *parser) peek() *token { return p.ahead(0) }

func (p *parser) done() bool { return p.i >= len(p.toks) }

// is tells whether the next words are these.
func (p *parser) is(words ...string) bool {
	for n, w := range words {
		if t := p.ahead(n); t.w != w || t.kind == lineToken {
			return false
		}
	}
	return true
}

// eat takes the next words if they are these.
func (p *parser) eat(words ...string) bool {
	if !p.is(words...) {
		return false
	}
	p.i += len(words)
	return true
}

// any takes the next word if it is one of these.
func (p *parser) any(words ...string) bool {
	if p.done() {
		return false
	}
	next := p.toks[p.i].w
	for _, w := range words {
		if w == next {
			p.i++
			return true
		}
	}
	return false
}

// phrase takes the next words if they are one of these phrases, longest first as given.
func (p *parser) phrase(phrases ...string) bool {
	if p.done() {
		return false
	}
	first := p.toks[p.i].w
	for _, s := range phrases {
		if rest, ok := cutWord(s, first); ok { // else no more than one comparison
			if n, ok := p.goesOn(rest); ok {
				p.i += n
				return true
			}
		}
	}
	return false
}

// goesOn tells whether the words behind the next one are these, and how many words that are
// in all.
func (p *parser) goesOn(rest string) (n int, ok bool) {
	for n = 1; rest != ""; n++ {
		if p.i+n >= len(p.toks) {
			return 0, false
		}
		if rest, ok = cutWord(rest[1:], p.toks[p.i+n].w); !ok {
			return 0, false
		}
	}
	return n, true
}

// cutWord takes a word off the beginning of a phrase. What is left begins with a space.
func cutWord(phrase, word string) (rest string, ok bool) {
	n := len(word)
	if n == 0 || len(phrase) < n || phrase[:n] != word || len(phrase) > n && phrase[n] != ' ' {
		return "", false
	}
	return phrase[n:], true
}

// skip takes any of these words, as often as they come.
func (p *parser) skip(words ...string) {
	for p.any(words...) {
	}
}

// stop tells whether a sentence ends here.
func (p *parser) stop() bool {
	if p.done() {
		return true
	}
	switch p.peek().w {
	case ".", "!", "?":
		return true
	}
	return false
}

// clauseEnd tells whether a clause ends here.
func (p *parser) clauseEnd() bool {
	if p.stop() {
		return true
	}
	switch p.peek().w {
	case ",", ";", ":", ")", "]":
		return true
	}
	return false
}

// since is the span from token i to the one before p.i.
func (p *parser) since(i int) source.Span {
	if i >= len(p.toks) {
		i = len(p.toks) - 1
	}
	last := max(p.i-1, i)
	return p.toks[i].at.To(p.toks[last].at)
}

// try reads with f, and takes back what it read and reported if it fails.
func try[T any](p *parser, f func() (T, bool)) (T, bool) {
	start, faults := p.i, len(p.out.Faults)
	v, ok := f()
	if !ok {
		p.i, p.out.Faults = start, p.out.Faults[:faults]
	}
	return v, ok
}

func (p *parser) base(from int) script.Base {
	at := p.since(from)
	line, _ := p.file.Position(at.Start)
	return script.Base{At: at, Line: line, Sizes: p.only}
}

// raw is the words of a span as they are printed.
func (p *parser) raw(s source.Span) string { return p.file.Slice(s) }

package reader

import "sockwright/internal/source"

// itemised takes off what numbers or dots the paragraphs of a text that is told in a list: "Step
// 4.", "4)", "(4)", "4.", "b)", "- ", "• ". Steps that have a name can be worked again: "Do
// steps 9 and 10 a further 8 times". It returns the rest of the line.
func (p *parser) itemised(text string, line source.Span) string {
	n, name := p.itemMark()
	if n == 0 || n >= len(p.toks) {
		return text
	}
	if name != "" {
		p.inStep = name
	}
	p.begin(p.toks[n:])
	return p.raw(source.Span{Start: p.toks[0].at.Start, End: line.End})
}

// itemMark is how many tokens mark an item of a list at the beginning of a line, none if it is no
// item, and the name of the step.
func (p *parser) itemMark() (n int, name string) {
	t, next := p.peek(), p.ahead(1)
	named := func(t *token) bool { return t.kind == numToken && t.val > 0 && t.val < 100 || p.letterAlone(t) }
	switch {
	case t.w == "step" && named(next):
		n, name = 2, stepName(next)
		if end := p.ahead(2).w; end == "." || end == ":" || end == ")" || end == "-" || end == "," {
			n++
		}
		return n, name
	case firstBoxed(p.toks, p.i): // "(48) 60 [72] sts"
		return 0, ""
	case t.w == "(" && named(next) && p.ahead(2).w == ")" && next.kind == numToken:
		return 3, stepName(next)
	case t.kind == numToken && named(t) && next.glued && (next.w == ")" || next.w == "." && p.ahead(2).kind == wordToken && !p.ahead(2).glued):
		return 2, stepName(t)
	case p.letterAlone(t) && next.glued && next.w == ")":
		return 2, stepName(t)
	case bullets[t.w] && t.kind == punctToken && next.kind != lineToken && !next.glued:
		if t.w == "*" || t.w == "-" && next.w == "(" { // a repeat, or a list of sizes
			break
		}
		return 1, ""
	}
	return 0, ""
}

// bullets are the dots of lists.
var bullets = set("- • · ▪ ‣ ◦ ● ○ ■ □")

// stepName is the name of a step that is numbered or lettered.
func stepName(t *token) string {
	if t.kind == numToken {
		return itoa(int(t.val))
	}
	return t.w
}

// stepNames reads "9 and 10", "a, b and c", "2 to 5".
func (p *parser) stepNames() (names []string) {
	for {
		t := p.peek()
		if t.kind != numToken && !p.letterAlone(t) {
			return names
		}
		p.i++
		names = append(names, stepName(t))
		if last := p.ahead(1); (p.is("-") || p.is("to")) && t.kind == numToken && last.kind == numToken && last.val > t.val && last.val < 100 {
			for k := t.val + 1; k <= last.val; k++ {
				names = append(names, itoa(int(k)))
			}
			p.i += 2
		}
		back := p.i
		p.skip(",", "and", "&", "+", "step", "row", "rnd")
		if next := p.peek(); p.i == back || next.kind != numToken && !p.letterAlone(next) || p.ahead(1).w == "more" || p.ahead(1).w == "times" {
			p.i = back
			return names
		}
	}
}

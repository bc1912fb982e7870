package reader

import (
	"strings"

	"sockwright/internal/script"
	"sockwright/internal/source"
)

// Limits of one text. A pattern has some hundred lines of some hundred letters; what is far
// larger is no pattern, and a fault says so.
const (
	maxBytes    = 1 << 19
	maxLines    = 10_000
	maxLine     = 1 << 16 // bytes of a line
	maxTokens   = 4000    // of a line: the rest of it is left unread
	maxDepth    = 12      // brackets that stand one in the other
	maxNumbered = 100_000 // rows that labels such as "Rows 1-12" may name, tries included
)

// tooLarge is what makes a text too large to be read at all.
func tooLarge(f *source.File) (source.Fault, bool) {
	limit := func(at source.Span, text source.Message, mend source.Message) (source.Fault, bool) {
		return source.Fault{At: at, Kind: source.Unread, Severity: source.Error, Text: text, Mends: []source.Mend{{Why: mend}}}, true
	}
	parts := source.Say("read.mend-parts", "look whether this is the file you meant, or check one pattern at a time")
	if n := f.Lines(); n > maxLines {
		return limit(source.Span{}, source.Say("read.lines", "the text has {0} lines, and a pattern of more than {1} is not read", n, maxLines), parts)
	}
	if n := len(f.Text); n > maxBytes {
		return limit(source.Span{}, source.Say("read.bytes", "the text has {0} bytes, and a pattern of more than {1} is not read", n, maxBytes), parts)
	}
	for n := 1; n <= f.Lines(); n++ {
		if at := f.LineSpan(n); at.End-at.Start > maxLine {
			return limit(at, source.Say("read.line", "the line has {0} bytes, and a pattern with a line of more than {1} is not read", at.End-at.Start, maxLine),
				source.Say("read.mend-line", "put every row on a line of its own"))
		}
	}
	return source.Fault{}, false
}

// within is what may be read of the tokens of a line; the fault says what is left out.
func within(toks []token) ([]token, *source.Fault) {
	short := toks[:min(len(toks), maxTokens)]
	fault := source.Fault{Kind: source.Unread, Severity: source.Error}
	if from, figures := longestList(toks); figures > source.MaxSizes {
		fault.At = toks[from].at.To(toks[from+2*(figures-1)].at)
		fault.Text = source.Say("read.sizes", "the list has {0} figures, and no more than {1} sizes are followed", figures, source.MaxSizes)
		fault.Mends = []source.Mend{{Why: source.Say("read.mend-sizes", "check the sizes in several files")}}
		return short, &fault
	}
	if len(toks) > len(short) {
		fault.At = toks[len(short)].at.To(toks[len(toks)-1].at)
		fault.Text = source.Say("read.tokens", "the line has {0} words and marks, and from here on, behind {1}, it is not read", len(toks), maxTokens)
		fault.Mends = []source.Mend{{Why: source.Say("read.mend-line", "put every row on a line of its own")}}
		return short, &fault
	}
	return short, nil
}

// longestList finds the longest list of figures: where it begins and how many they are.
func longestList(toks []token) (from, figures int) {
	for i := 0; i < len(toks); {
		if toks[i].kind != numToken {
			i++
			continue
		}
		start := i
		for i+2 < len(toks) && toks[i+1].kind == punctToken && toks[i+2].kind == numToken {
			i += 2
		}
		if n := (i-start)/2 + 1; n > figures {
			from, figures = start, n
		}
		i++
	}
	return from, figures
}

// longestWord is how long a word may be that is looked up among those it may be meant for.
const longestWord = 24

// clip is the beginning of words that would be too long for a message.
func clip(words string) string {
	const most = 60
	n := 0
	for i := range words {
		if n++; n > most {
			return words[:i] + "…"
		}
	}
	return words
}

// unreadFrom leaves the rest of the text unread.
func (p *parser) unreadFrom(line int) {
	for n := line; n <= p.file.Lines(); n++ {
		p.out.Lines[n-1].At = p.file.LineSpan(n)
		if strings.TrimSpace(p.file.Slice(p.out.Lines[n-1].At)) != "" {
			p.out.Lines[n-1].Role = script.Unread
		}
	}
}

// refuse reports what of a line is beyond a limit. What follows it is not certain.
func (p *parser) refuse(line int, fault source.Fault) {
	p.out.Faults = append(p.out.Faults, fault)
	l := &p.out.Lines[line-1]
	l.Items = append(l.Items, &script.Lost{Base: script.Base{At: fault.At, Line: line}})
	l.Role = script.Unread
}

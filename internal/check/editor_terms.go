package check

import (
	"regexp"
	"slices"
	"strings"

	"sockwright/internal/script"
	"sockwright/internal/source"
	"sockwright/internal/trade"
)

// everydayTerms are short forms that every list may leave out.
var everydayTerms = strings.Fields("k p co bo st sts rnd rnds in cm mm g oz yd yds * m turn graft sl rep cont dec inc beg rem tog n1 n2 n3 n4")

// terms compares the list of abbreviations with the words that are used. A text without a
// list explains nothing and is left alone.
func (e *editor) terms() {
	if len(e.words.Terms) == 0 || !e.words.TermsAt.Known() {
		return
	}
	used := e.usedWords()
	explained := map[string]script.Term{}
	for _, t := range e.words.Terms {
		if strings.Count(t.Short, " ") > 3 {
			continue
		}
		key := plainForm(t.Short)
		if old, twice := explained[key]; twice && old.Short == t.Short {
			e.explainedTwice(old, t)
			continue
		}
		explained[key] = t
		if forms := shortForms(t.Short); !slices.ContainsFunc(forms, func(f string) bool { return used[f] > 0 || strings.ContainsAny(f, " *[](") }) {
			e.note(t.At, source.UndefinedTerm, source.Say("edit.term-unused", "“{0}” is explained, but not used", t.Short), advice("edit.mend-term-unused", "take it out of the list"))
		}
	}
	e.unexplained(used)
}

// termsLeftOut is [editor.terms] for a list of which it is known that it may explain more
// than is worked: the words of prose.
func (e *editor) termsLeftOut() {
	if len(e.words.Terms) > 0 && e.words.TermsAt.Known() {
		e.unexplained(e.usedWords())
	}
}

// usedWords lists the words of the text but for its list of abbreviations, with the line in
// which each is worked first, or a line where none is worked.
func (e *editor) usedWords() map[string]int {
	used := map[string]int{}
	for i, line := range e.lines {
		if e.role(i+1) == script.Terms {
			continue
		}
		for _, w := range strings.FieldsFunc(undotted(line), notInWord) {
			w = strings.ToLower(w)
			head := strings.TrimRight(w, "0123456789")
			stem, _, _ := strings.Cut(w, "'")
			letters := strings.IndexFunc(w, func(r rune) bool { return '0' <= r && r <= '9' })
			for _, form := range []string{w, head, stem, strings.TrimSuffix(w, "s"), w[:max(letters, 0)]} {
				if used[form] == 0 || e.role(used[form]) != script.Worked && e.role(i+1) == script.Worked {
					used[form] = i + 1
				}
			}
		}
		if flat := strings.ToLower(undotted(line)); strings.Contains(flat, "st st") {
			used["stst"] = i + 1
		}
	}
	return used
}

func notInWord(r rune) bool {
	return !('a' <= r|0x20 && r|0x20 <= 'z' || '0' <= r && r <= '9' || r == '\'' || r == '&' || r > 0x7f && r != '–' && r != '—')
}

// shortForms are the ways in which a listed term may stand in the text: "rnd(s)" is "rnd"
// and "rnds", "N1, N2" either, "p.s.s.o." also "psso".
func shortForms(short string) []string {
	var out []string
	for _, s := range strings.FieldsFunc(strings.ToLower(undotted(short)), func(r rune) bool { return r == ',' || r == '/' }) {
		s = strings.TrimSpace(s)
		stem, ending, both := strings.Cut(s, "(")
		if both && stem != "" {
			out = append(out, stem+strings.TrimSuffix(ending, ")"))
			s = stem
		}
		out = append(out, s, strings.ReplaceAll(s, " ", ""), s+"s")
	}
	return out
}

// plainForm is a term without dots and endings, by which two are the same.
func plainForm(short string) string {
	stem, _, _ := strings.Cut(undotted(short), "(")
	return strings.TrimSpace(stem)
}

// explainedTwice warns where two explanations of a term have no word in common.
func (e *editor) explainedTwice(old, again script.Term) {
	behind := strings.TrimLeft(e.file.Text[again.At.End:min(int(again.At.End)+6, len(e.file.Text))], " .")
	if strings.EqualFold(old.Means, again.Means) || behind == "" || !strings.ContainsRune("=:,-", rune(behind[0])) {
		return
	}
	words := func(s string) []string { return strings.FieldsFunc(strings.ToLower(s), notInWord) }
	severity := source.Warning
	for _, w := range words(again.Means) {
		if slices.Contains(words(old.Means), w) {
			severity = source.Note
		}
	}
	line, _ := e.file.Position(old.At.Start)
	e.say(again.At, 0, source.UndefinedTerm, severity, source.Say("edit.term-twice", "“{0}” is explained in two ways: “{1}” in line {2}, and “{3}” here", again.Short, old.Means, line, again.Means),
		advice("edit.mend-term-twice", "keep one of them, or give one a name of its own"))
}

// unexplained notes terms of art of worked lines that the list leaves out.
func (e *editor) unexplained(used map[string]int) {
	for _, a := range trade.Abbreviations() {
		form := strings.ToLower(shortForms(a.Short)[0])
		line := used[form]
		if line == 0 || e.role(line) != script.Worked || slices.Contains(everydayTerms, form) || strings.ContainsAny(form, " (*[") || form == a.Long {
			continue
		}
		if e.listed(shortForms(a.Short)) || slices.ContainsFunc(e.words.Terms, func(t script.Term) bool { return explains(t, form) }) {
			continue
		}
		if at, ok := e.findWord(line, form); ok {
			e.note(at, source.UndefinedTerm, source.Say("edit.term-unexplained", "“{0}” is used, but the list of abbreviations does not explain it", e.file.Slice(at)),
				advice("edit.mend-term-unexplained", "add “{0}: {1}” to the list", a.Short, a.Long))
		}
	}
}

// explains tells whether a listed term is this one, or a part of it: who knows "k" and "tog"
// knows k2tog.
func explains(t script.Term, form string) bool {
	forms := shortForms(t.Short)
	if len(forms) == 0 {
		return false
	}
	return slices.Contains(forms, form) || slices.Contains(forms, form+"s") || strings.HasSuffix(form, "tog") && slices.Contains(forms, "tog") ||
		strings.HasPrefix(strings.ToLower(t.Means), form+" ") || strings.HasPrefix(forms[0], "pat") && strings.HasPrefix(form, "pat")
}

// listed tells whether a line or a part of one explains a term in one of its forms: "pm:
// place a marker".
func (e *editor) listed(forms []string) bool {
	for i, f := range forms {
		forms[i] = regexp.QuoteMeta(f)
	}
	pattern := regexp.MustCompile(`(?im)(?:^|[;,])\s*(?:` + strings.Join(forms, "|") + `)(?:\(s\))?\s*(?:[:=,]| [–-]) *[a-z]{2}`)
	return pattern.MatchString(undotted(e.file.Text))
}

// findWord finds a word with its own letters in a line, as a word.
func (e *editor) findWord(line int, form string) (source.Span, bool) {
	text := e.lines[line-1]
	pattern := regexp.MustCompile(`(?i)(?:^|[^A-Za-z])(` + regexp.QuoteMeta(form) + `)\d*(?:[^A-Za-z0-9]|$)`)
	if m := pattern.FindStringSubmatchIndex(text); m != nil {
		return e.at(line, m[2], m[3]), true
	}
	return source.Span{}, false
}

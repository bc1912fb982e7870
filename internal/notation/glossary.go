package notation

import (
	"cmp"
	"slices"
	"strings"
	"sync"

	"sockwright/internal/trade"
)

// index is the trade's abbreviations as runs of tokens, by the first of them.
var index = sync.OnceValue(func() map[string][]indexed {
	m := map[string][]indexed{}
	for _, a := range trade.Abbreviations() {
		shorts := []string{a.Short}
		if base, ok := strings.CutSuffix(a.Short, "(s)"); ok {
			shorts = []string{base, base + "s"}
		}
		for _, s := range shorts {
			words := wordsOf(s)
			m[strings.ToLower(words[0])] = append(m[strings.ToLower(words[0])], indexed{words, a})
		}
	}
	for _, list := range m {
		slices.SortFunc(list, func(a, b indexed) int { return len(b.words) - len(a.words) })
	}
	return m
})

type indexed struct {
	words []string
	trade.Abbreviation
}

// Abbreviations lists the trade's abbreviations that a text uses, the longest where one
// holds another ("k2tog" does not use "tog"), in the order of the alphabet. Numbers stand
// apart from what they count: "k19 tbl" uses "k" and "tbl".
func Abbreviations(text string) []trade.Abbreviation {
	words := wordsOf(text)
	found := map[string]trade.Abbreviation{}
	for i := 0; i < len(words); {
		n := 1
		if words[i] == "]" && i+1 < len(words) && timesAfter(words[i+1]) { // square brackets also hold metric measures
			if a, ok := trade.AbbreviationByShort("[ ]"); ok {
				found[a.Short] = a
			}
		}
		for _, x := range index()[strings.ToLower(words[i])] {
			if len(x.words) <= len(words)-i && slices.EqualFunc(x.words, words[i:i+len(x.words)], sameWord) {
				found[x.Short] = x.Abbreviation
				n = len(x.words)
				break
			}
		}
		i += n
	}
	out := make([]trade.Abbreviation, 0, len(found))
	for _, a := range found {
		out = append(out, a)
	}
	slices.SortFunc(out, func(a, b trade.Abbreviation) int {
		return cmp.Or(cmp.Compare(strings.ToLower(a.Short), strings.ToLower(b.Short)), cmp.Compare(a.Short, b.Short))
	})
	return out
}

func timesAfter(word string) bool {
	return word == "once" || word == "–" || word[0] >= '0' && word[0] <= '9'
}

// sameWord: an abbreviation may begin a sentence with a capital, but one that is written in
// capitals ("WS", "M1L") has no other form.
func sameWord(abbreviation, word string) bool {
	return abbreviation == word || strings.ToLower(abbreviation) == abbreviation && strings.EqualFold(abbreviation, word)
}

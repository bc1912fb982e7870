package reader

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"sockwright/internal/source"
)

// headerLines is how many lines of a text are searched for the names of its sizes.
const headerLines = 160

var (
	sizeWord  = regexp.MustCompile(`(?i)\bsizes?\b(?:\s+are)?\s*:?\s*`)
	sizeEnd   = regexp.MustCompile(`(?i)[.;]|\s+(?:to fit|only|in|are|is|shown|throughout|sock|given)\b|\s{3,}| -+ |$`)
	dashList  = regexp.MustCompile(`^[0-9A-Za-z+.½/]{1,9}(?: [-–] [0-9A-Za-z+.½/]{1,9})+(?:[.,;)]|\s|$)`)
	slashList = regexp.MustCompile(`^[0-9A-Za-z+.½-]{1,12}(?:/[0-9A-Za-z+.½-]{1,12})+`)
	toFit     = regexp.MustCompile(`(?i)\bto fit\b[^.:;]*$`)
	sizeCells = regexp.MustCompile(`(?i)^\s*sizes?\s{2,}(\S.*\S)\s*$`) // the head of a table
	cellBreak = regexp.MustCompile(`\s{2,}`)
	allSizes  = regexp.MustCompile(`(?i)\b(?:all|both|other|remaining)\s+$`)
	oneSize   = regexp.MustCompile(`(?i)\b(one|single) size\b|\bsize:? one\b`)
)

// findSizes finds what the sizes are called, or how many there are.
func findSizes(f *source.File) (names []string, at source.Span, s style) {
	last := min(f.Lines(), headerLines)
	title := 1
	for title < last && strings.TrimSpace(f.Line(title)) == "" {
		title++
	}
	count := countSizes(f)
	for _, find := range []func(text string, title bool) ([]string, int, int, style){
		func(text string, _ bool) ([]string, int, int, style) { return sizesNamed(text) },
		func(text string, title bool) ([]string, int, int, style) { return sizesListed(text, title, count) },
		func(text string, _ bool) ([]string, int, int, style) { return sizesFitted(text, count) },
	} {
		for line := 1; line <= last; line++ {
			text := f.Line(line)
			if len(text) > 400 {
				continue
			}
			if names, from, to, s := find(text, line == title); len(names) > 1 {
				start := f.LineSpan(line).Start
				return names, source.Span{Start: start + uint32(from), End: start + uint32(to)}, s
			}
		}
	}
	if names, at := sizesBelow(f, last); len(names) > 1 {
		return names, at, style{}
	}
	return nil, source.Span{}, style{}
}

// sizesNamed finds "Sizes S (M, L)".
func sizesNamed(text string) (names []string, from, to int, s style) {
	if !containsFold(text, "size") || oneSize.MatchString(text) {
		return nil, 0, 0, s
	}
	if m := sizeCells.FindStringSubmatchIndex(text); m != nil {
		if names := cellBreak.Split(text[m[2]:m[3]], -1); plausible(names) {
			return names, m[2], m[3], s
		}
	}
	for _, m := range sizeWord.FindAllStringIndex(text, -1) {
		list := text[m[1]:]
		if allSizes.MatchString(text[:m[0]]) { // "All sizes: …"
			continue
		}
		if strings.HasPrefix(list, "given") || toFit.MatchString(text[:m[0]]) && list != "" && isDigit(list[0]) {
			continue // "To fit shoe size 4 [6:9]": what they fit is not what they are called
		}
		if l, ok := readNames(list); ok && (len(l.names) > 2 || strings.Contains(l.names[0], "/")) && !strings.HasPrefix(strings.TrimSpace(list[l.length:]), "only") {
			return l.names, m[1], m[1] + l.length, style{l.bare}
		}
		if dashed := dashList.FindString(list); dashed != "" {
			if names, s := splitNames(strings.TrimRight(dashed, ".,;) ")); len(names) > 2 || plausible(names) {
				return names, m[1], m[1] + len(dashed), s
			}
		}
		end := sizeEnd.FindStringIndex(list)[0]
		if open := strings.IndexAny(list, "[({"); open >= 0 && open < end+1 {
			if shut := strings.LastIndexAny(list, "])}"); shut > open {
				end = max(min(end, len(list)), 0)
				if next := strings.IndexAny(list[open:], "])}"); next >= 0 {
					end = open + next + 1
					for rest := list[end:]; ; rest = list[end:] { // "S (M, L) [XL, 2X]"
						trimmed := strings.TrimLeft(rest, " ")
						if trimmed == "" || !strings.ContainsRune("[({", rune(trimmed[0])) {
							break
						}
						shut := strings.IndexAny(trimmed, "])}")
						if shut < 0 || strings.ContainsAny(trimmed[:shut], "0123456789") && !strings.ContainsAny(list[:end], "0123456789") {
							break
						}
						end += len(rest) - len(trimmed) + shut + 1
					}
				}
			}
		}
		if names, s := splitNames(list[:end]); len(names) > 1 && strings.TrimSpace(strings.TrimPrefix(list[end:], ".")) != "only" && !strings.HasPrefix(strings.TrimSpace(list[end:]), "only") {
			return names, m[1], m[1] + end, s
		}
	}
	return nil, 0, 0, s
}

// splitNames splits a list of names.
func splitNames(list string) ([]string, style) {
	list = strings.TrimSpace(list)
	var parts []string
	var s style
	switch {
	case strings.ContainsAny(list, "[({"):
		parts = strings.FieldsFunc(list, func(r rune) bool { return strings.ContainsRune("[](){},:;/", r) })
	case strings.Contains(list, " - ") || strings.Contains(list, " – "):
		s.bare = "-"
		parts = strings.Split(strings.ReplaceAll(list, " – ", " - "), " - ")
	case slashList.MatchString(list):
		s.bare = "/"
		parts = strings.Split(slashList.FindString(list), "/")
	case strings.Contains(list, ","):
		s.bare = ","
		parts = strings.Split(strings.ReplaceAll(strings.ReplaceAll(list, ", and ", ", "), " and ", ", "), ",")
	default:
		return nil, s
	}
	var names []string
	for _, p := range parts {
		p = strings.TrimSpace(p)
		if p == "" {
			continue
		}
		if len(p) > 24 || strings.ContainsAny(p, "*=") || strings.Count(p, " ") > 3 || strings.HasPrefix(p, "the ") || slices.Contains(names, p) {
			return nil, s
		}
		names = append(names, p)
	}
	if len(names) > source.MaxSizes {
		names = names[:source.MaxSizes]
	}
	return names, s
}

// plausible: names that sizes have, in their order, or 1, 2, 3 or A, B, C.
func plausible(names []string) bool {
	if len(names) < 2 {
		return false
	}
	known, count := true, true
	for i, n := range names {
		known = known && letterName.MatchString(n)
		count = count && (n == strconv.Itoa(i+1) || n == string(rune('A'+i)))
	}
	return known || count
}

// countSizes tells how many sizes a text that does not name them has: as many as most of its lists
// of figures.
func countSizes(f *source.File) int {
	if n := countLists(f, style{}); n > 1 {
		return n
	}
	return countLists(f, style{","})
}

// countLists tells how many figures most of the lists of a text have that are dressed so, one if there
// are none; those with commas alone must be two at least.
func countLists(f *source.File, s style) int {
	p := &parser{sizes: source.MaxSizes + 1, style: s} // no list is full
	seen := map[int]int{}
	var toks []token
	for line := 1; line <= min(f.Lines(), 2000); line++ {
		text := f.Line(line)
		if len(text) > 1000 || !strings.ContainsAny(text, "([{</|;:-–,") {
			continue
		}
		toks = lex(text, toks[:0])
		for i := 0; i < len(toks); i++ {
			n, end := anyList(p, toks, i)
			if n > 1 {
				seen[n]++
			}
			i = max(i, end-1)
		}
	}
	best := 1
	for n := range seen {
		if s.bare != "" && seen[n] < 2 {
			continue
		}
		if n <= source.MaxSizes && (seen[n] > seen[best] || best == 1 || seen[n] == seen[best] && n > best) && n > 1 {
			best = n
		}
	}
	return best
}

// anyList counts the figures of a list that begins at token i, in whatever dress: the names of the
// sizes are not known yet.
func anyList(p *parser, toks []token, i int) (n, end int) {
	if i > 0 && notLists.has(&toks[i-1]) {
		return 0, passNumbers(toks, i)
	}
	if toks[i].kind != numToken {
		return 0, i
	}
	r := listReader{p: p, toks: toks, i: i}
	for r.value() {
		if r.open == "" {
			n, end = len(r.vals), r.i
		} else if r.at(0).w == closing[r.open] {
			n, end = len(r.vals), r.i+1
		}
		if !r.joint() {
			break
		}
	}
	twice := r.noun != nil && millimetres[r.noun.w] > 0 // "4 in (10 cm)"
	if twice || r.boxes == 0 && n < 3 && r.bare != "/" || shares(r.vals[:n]) {
		return 0, end
	}
	return n, end
}

// shares tells whether the figures behind the first are its shares on the needles, not other sizes:
// "60 sts. (20, 20, 20)".
func shares(vals []token) bool {
	if len(vals) < 3 {
		return false
	}
	left := int64(vals[0].val)
	for _, v := range vals[1:] {
		if v.val <= 0 {
			return false
		}
		left -= int64(v.val)
	}
	return left == 0
}

package reader

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"sockwright/internal/source"
)

// style is how a text dresses its lists of sizes.
type style struct {
	bare byte // separator of lists without brackets: ',', '/', '-'; 0 if lists stand in brackets
}

// headerLines is how many lines of a text are searched for the names of its sizes.
const headerLines = 160

// sizeWords are what sizes are called in full.
const sizeWords = `(?:(?:extra|x+)[ -]?)?(?:small|large)|medium|baby|toddler|child|youth|teen|adult`

var (
	sizeWord   = regexp.MustCompile(`(?i)\bsizes?\b(?:\s+are)?\s*:?\s*`)
	sizeEnd    = regexp.MustCompile(`(?i)[.;]|\s+(?:to fit|only|in|are|is|shown|throughout|sock|given)\b|\s{3,}| -+ |$`)
	titleList  = regexp.MustCompile(`(?:^|[\s(,:])([0-9A-Z][A-Z0-9]{0,3})\s*([\[({])([0-9A-Z][A-Z0-9]{0,3}(?:\s*[,:;/]\s*[0-9A-Z][A-Z0-9]{0,3})*)[\])}]`)
	dashList   = regexp.MustCompile(`^[0-9A-Za-z+.½/]{1,9}(?: [-–] [0-9A-Za-z+.½/]{1,9})+(?:[.,;)]|\s|$)`)
	ageList    = regexp.MustCompile(`(?i)((?:\d{1,2}(?:[-–]\d{1,2})?)\s*[\[({]\d[0-9,:;/ –-]*[\])}])\s*(?:years|yrs?|months|mths|mos)\b`)
	slashList  = regexp.MustCompile(`^[0-9A-Za-z+.½-]{1,12}(?:/[0-9A-Za-z+.½-]{1,12})+`)
	titleWords = regexp.MustCompile(`(?i)(?:^|[\s(,:-])(` + sizeWords + `)\s*(?:[\[({]\s*(?:` + sizeWords + `)(?:\s*[,:;/]\s*(?:` + sizeWords + `))*\s*[\])}]|(?:/(?:` + sizeWords + `))+)`)
	titleSlash = regexp.MustCompile(`(?:^|\s)([0-9A-Z][A-Z0-9]{0,3}(?:/[0-9A-Z][A-Z0-9]{0,3})+)(?:\s|,|\.|$)`)
	titleDash  = regexp.MustCompile(`(?:^|\s)([0-9A-Z][A-Z0-9]{0,3})((?: - [0-9A-Z][A-Z0-9]{0,3})+)\s*$`)
	toFit      = regexp.MustCompile(`(?i)\bto fit\b[^.:;]*$`)
	sizeCells  = regexp.MustCompile(`(?i)^\s*sizes?\s{2,}(\S.*\S)\s*$`) // the head of a table
	cellBreak  = regexp.MustCompile(`\s{2,}`)
	oneSize    = regexp.MustCompile(`(?i)\b(one|single) size\b|\bsize:? one\b`)
)

// findSizes finds what the sizes are called, or how many there are.
func findSizes(f *source.File) (names []string, at source.Span, s style) {
	last := min(f.Lines(), headerLines)
	for _, find := range []func(string) ([]string, int, int, style){sizesNamed, sizesInTitle} {
		for line := 1; line <= last; line++ {
			text := f.Line(line)
			if len(text) > 400 {
				continue
			}
			if names, from, to, s := find(text); len(names) > 1 {
				start := f.LineSpan(line).Start
				return names, source.Span{Start: start + uint32(from), End: start + uint32(to)}, s
			}
		}
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
		if strings.HasPrefix(list, "given") || toFit.MatchString(text[:m[0]]) && list != "" && isDigit(list[0]) {
			continue // "To fit shoe size 4 [6:9]": what they fit is not what they are called
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
		s.bare = '-'
		parts = strings.Split(strings.ReplaceAll(list, " – ", " - "), " - ")
	case slashList.MatchString(list):
		s.bare = '/'
		parts = strings.Split(slashList.FindString(list), "/")
	case strings.Contains(list, ","):
		s.bare = ','
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
		if len(p) > 24 || strings.Count(p, " ") > 3 || strings.HasPrefix(p, "the ") || slices.Contains(names, p) {
			return nil, s
		}
		names = append(names, p)
	}
	if len(names) > source.MaxSizes {
		names = names[:source.MaxSizes]
	}
	return names, s
}

var sizeNames = set("XXS XS S M L XL XXL 2X 3X 4X 5X 2XL 3XL 4XL 5XL 2XS 1X")

// sizesInTitle finds "S (M, L)" where a line holds nothing that is worked.
func sizesInTitle(text string) ([]string, int, int, style) {
	bracket := strings.ContainsAny(text, "[({")
	if !bracket && !strings.ContainsAny(text, "/-") {
		return nil, 0, 0, style{}
	}
	if m := ageList.FindStringSubmatchIndex(text); m != nil && !toFit.MatchString(text[:m[2]]) {
		if names, s := splitNames(text[m[2]:m[3]]); len(names) > 1 {
			return names, m[2], m[3], s
		}
	}
	for _, m := range titleList.FindAllStringSubmatchIndex(text, -1) {
		names, s := splitNames(text[m[2]:m[1]])
		if plausible(names) {
			return names, m[2], m[1], s
		}
	}
	if m := titleWords.FindStringSubmatchIndex(text); m != nil {
		if names, s := splitNames(text[m[2]:m[1]]); len(names) > 1 {
			return names, m[2], m[1], s
		}
	}
	if m := titleSlash.FindStringSubmatchIndex(text); m != nil {
		if names, s := splitNames(text[m[2]:m[3]]); plausible(names) && !isDigit(names[0][0]) {
			return names, m[2], m[3], s
		}
	}
	if m := titleDash.FindStringSubmatchIndex(text); m != nil {
		if names, s := splitNames(text[m[2]:m[1]]); plausible(names) {
			return names, m[2], m[1], s
		}
	}
	return nil, 0, 0, style{}
}

// plausible: names that sizes have, in their order, or 1, 2, 3 or A, B, C.
func plausible(names []string) bool {
	if len(names) < 2 {
		return false
	}
	known, count := true, true
	for i, n := range names {
		known = known && sizeNames[n]
		count = count && (n == strconv.Itoa(i+1) || n == string(rune('A'+i)))
	}
	return known || count
}

var plainList = regexp.MustCompile(`[0-9][ ]?([\[({])((?:[0-9.½¼¾/ –-]+|x)(?:\s*[,:;]\s*(?:[0-9.½¼¾/ –-]+|x))*)[\])}]`)

// countSizes tells how many sizes a text that does not name them has: as many as most of
// its lists of figures.
func countSizes(f *source.File) int {
	seen := map[int]int{}
	for line := 1; line <= min(f.Lines(), 2000); line++ {
		text := f.Line(line)
		if len(text) > 1000 || !strings.ContainsAny(text, "([{") {
			continue
		}
		for _, m := range plainList.FindAllStringSubmatch(text, -1) {
			seen[1+len(strings.FieldsFunc(m[2], func(r rune) bool { return strings.ContainsRune(",:;", r) }))]++
		}
	}
	best := 1
	for n := range seen {
		if n <= source.MaxSizes && (seen[n] > seen[best] || best == 1 || seen[n] == seen[best] && n > best) && n > 1 {
			best = n
		}
	}
	return best
}

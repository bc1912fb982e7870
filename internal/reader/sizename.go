package reader

import (
	"regexp"
	"strings"

	"sockwright/internal/source"
)

// What sizes are called, and how a heading lists their names.

// A nameKind is a way of calling sizes. The sizes of one pattern are called in one way.
type nameKind uint8

const (
	noName     nameKind = iota
	letterKind          // S, M, 2XL
	wordKind            // small, child, narrow; ages
	romanKind           // I, II, III
	colourKind          // red, blue: the colour that its figures are printed in
	singleKind          // A, B, C or 1, 2, 3
	figureKind          // of shoes or of the length of the foot
)

var (
	letterName = regexp.MustCompile(`^(?:[2-6]?X{1,4}[SL]|[1-6]XL?|[SML])(?:$|[^\w'’.&-]|[.&-](?:$|\W)|/)`)
	wordName   = regexp.MustCompile(`(?i)^(?:(?:(?:extra|x+)[ -]?)?(?:small|large)|smaller|larger|med(?:ium)?|baby|babies|infants?|newborn|toddlers?|child(?:ren)?|kids?|youths?|juniors?|teens?|adults?|wom[ae]n|m[ae]n|lad(?:y|ies)|gentlem[ae]n|gents?|boys?|girls?|narrow|average|regular|standard|wide|slim|full|short|long|tall|petite)(?:['’]?s|['’]|)(?:$|[^\w'’-]|-(?:$|\W))`)
	ageName    = regexp.MustCompile(`(?i)^\d{1,2}(?: ?[-–] ?\d{1,2})? ?(?:years?|yrs?|months?|mths?|mos)(?:$|[^\w])`)
	colourName = regexp.MustCompile(`(?i)^(?:red|blue|green|black|white|pink|yellow|orange|purple|gr[ae]y|brown)(?:$|[^\w'’-])`)
	romanName  = regexp.MustCompile(`^(?:IV|VI{0,3}|I{1,3}|IX|X)(?:$|\W)`)
	singleName = regexp.MustCompile(`^(?:[A-H]|[1-9])(?:$|[^\w.'’½&-]|\.(?:\s|$))`)
	figureName = regexp.MustCompile(`^\d{1,3}(?:[.,]\d)?(?: ?[½¼¾]| 1/2)?(?:[-–]\d{1,3}½?)?(?: ?(?:cm|mm|in|ins|inch|inches|["″]))?(?:$|[^\w½])`)

	nameOpens     = regexp.MustCompile(`^\s*[\[({<]\s*`)
	nameShuts     = regexp.MustCompile(`^\s*[\])}>]`)
	nameParts     = regexp.MustCompile(`^(?:\s*[,;:/|]\s*|\s+[-–—]\s+)(?:(?:and|or|with the) )?`)
	nameAnd       = regexp.MustCompile(`^\s+(?:and|or|&)\s+`)
	nameCells     = regexp.MustCompile(`^(?:\s{2,}|\t+)`)
	unitOfAll     = regexp.MustCompile(`(?i)^\s*(?:cm|mm|ins?|inch(?:es)?|years?|yrs?|months?|mths?|mos)\b`)
	namesLead     = regexp.MustCompile(`(?i)(?:^|\s)(?:for|sizes?|come in|comes in|written for|given for|widths?|made in|sized|orders?(?: of)?|given as|printed|printed in|shown as)[:,]?\s*$`)
	fitLead       = regexp.MustCompile(`(?i)\bfit\b(?:\s+(?:a|an|approx|approximately|about))*[:.,]?\s*$`)
	titleLead     = regexp.MustCompile(`(?:[.,:;–—-]|\s{2,}|\bSOCKS?|\b[sS]ocks?)\s*$`)
	sizeBehind    = regexp.MustCompile(`^(?:['’]s?)?(?: sizes?\b)?`)
	countsBehind  = regexp.MustCompile(`^\s*:\s*\d`) // "S, M, L: 60, 64, 68 sts in the round"
	headLine      = regexp.MustCompile(`(?i)^\s*(?:the )?sizes?\s*:?\s*$`)
	nameOpensLine = regexp.MustCompile(`^\s*(?:[•*–-]\s*)?`)
)

// sizeNames are the ways of calling sizes, tried in this order. Each may only begin with some of
// these characters, or with these letters in small or large: most words begin with none of them.
var sizeNames = []struct {
	kind    nameKind
	re      *regexp.Regexp
	first   string // characters
	letters map[string]bool
}{
	{letterKind, letterName, "123456XSML", nil},
	{wordKind, ageName, "0123456789", nil},
	{wordKind, wordName, "xX", set("ext sma lar med bab inf new tod chi kid you jun tee adu wom man men lad gen boy gir nar ave reg sta wid sli ful sho lon tal pet")},
	{romanKind, romanName, "IVX", nil},
	{colourKind, colourName, "", set("red blu gre bla whi pin yel ora pur gra bro")},
	{singleKind, singleName, "ABCDEFGH123456789", nil},
	{figureKind, figureName, "0123456789", nil},
}

// nameAt is the name of a size with which a text begins, and how it calls sizes.
func nameAt(text string) (string, nameKind) {
	if text == "" {
		return "", noName
	}
	letters := ""
	if len(text) > 2 && text[0] >= 'A' {
		letters = strings.ToLower(text[:3])
	}
	for i := range sizeNames {
		k := &sizeNames[i]
		if strings.IndexByte(k.first, text[0]) < 0 && !k.letters[letters] {
			continue
		}
		if m := k.re.FindString(text); m != "" {
			return strings.TrimRight(m, " \t,;:/|()[]{}<>.-–—&"), k.kind
		}
	}
	return "", noName
}

// A nameList is a list of the names of sizes as a heading prints it.
type nameList struct {
	names  []string
	kind   nameKind
	boxed  bool // it has brackets
	cells  bool // it is the head of a table
	bare   string
	length int // bytes
}

// firstInBrackets is the beginning of a list whose first name stands in brackets of its own.
var firstInBrackets = regexp.MustCompile(`^[\[({<][^\[({<\])}>,;:/]{1,20}[\])}>] ?\S`)

// rangeName is a size of two numbers of shoes, "36/37".
var rangeName = regexp.MustCompile(`^\d{1,2}/\d{1,2}(?:$|[^\w/½])`)

// readNames reads a list of names with which a text begins.
func readNames(text string) (l nameList, ok bool) {
	if rangeName.MatchString(text) {
		if l, ok := readNamesBy(text, func(text string) (string, nameKind) {
			if m := rangeName.FindString(text); m != "" {
				return strings.TrimRight(m, " \t,;:|()[]{}<>.-–—&"), figureKind
			}
			return "", noName
		}); ok {
			return l, true
		}
	}
	return readNamesBy(text, nameAt)
}

// readNamesBy reads a list of names of which nameAt reads one.
func readNamesBy(text string, nameAt func(string) (string, nameKind)) (l nameList, ok bool) {
	rest, open, ended := text, false, false
	if firstInBrackets.MatchString(text) { // "(Child's) Woman's [Man's]"
		open, l.boxed, rest = true, true, text[1:]
	}
	for {
		name, kind := nameAt(rest)
		if name == "" || !l.takes(name, kind) {
			break
		}
		l.names = append(l.names, name)
		rest = rest[len(name):]
		if m := sizeBehind.FindString(rest); kind == wordKind {
			rest = rest[len(m):]
		}
		if !open {
			l.length = len(text) - len(rest)
		}
		if m := nameShuts.FindString(rest); open && m != "" {
			open, rest = false, rest[len(m):]
			l.length = len(text) - len(rest)
			if m := nameOpens.FindString(rest); m != "" {
				open, rest = true, rest[len(m):]
			} else if strings.HasPrefix(rest, " ") {
				rest = strings.TrimLeft(rest, " ")
			} else {
				ended = true
			}
		} else if m := nameOpens.FindString(rest); !open && m != "" && l.bare == "" {
			open, l.boxed, rest = true, true, rest[len(m):]
		} else if m := nameParts.FindString(rest); m != "" && (open || !l.boxed) {
			if sep := separatorOf(m); !open && l.bare != "" && l.bare != sep {
				ended = true
			} else if rest = rest[len(m):]; strings.HasSuffix(m, "with the ") { // "in brackets"
				l.boxed = true
			} else if !open {
				l.bare = sep
			}
		} else if m := nameAnd.FindString(rest); m != "" && (l.bare == "," || l.boxed) {
			rest = rest[len(m):]
		} else if m := nameCells.FindString(rest); m != "" && l.bare == "" && !l.boxed {
			l.cells, rest = true, rest[len(m):]
		} else {
			ended = true
		}
		if ended {
			break
		}
	}
	return l, len(l.names) > 1 && !open && (l.boxed || l.bare != "" || l.cells)
}

// separatorOf is the mark that parts two names.
func separatorOf(m string) string {
	m = strings.TrimSpace(m)
	if r := []rune(m)[0]; r < 0x80 {
		return m[:1]
	}
	return "-"
}

// takes tells whether a name can stand behind those that the list has.
func (l *nameList) takes(name string, kind nameKind) bool {
	for _, n := range l.names {
		if n == name {
			return false
		}
	}
	switch n := len(l.names); {
	case n == 0:
		l.kind = kind
		if kind == singleKind && name != "A" && name != "1" {
			l.kind = figureKind
			return isDigit(name[0])
		}
		return true
	case l.kind == singleKind && (name == string(rune('A'+n)) || name == itoa(n+1)):
		return l.names[n-1][0] == name[0]-1
	case l.kind == singleKind || l.kind == figureKind:
		l.kind = figureKind
		return isDigit(name[0]) && isDigit(l.names[n-1][0]) && (kind == figureKind || kind == singleKind)
	case l.kind == romanKind:
		return kind == romanKind
	}
	return kind == l.kind
}

// sizesListed finds the names of sizes where a line is a list of them, a heading ends with one or
// words such as "for" lead to one.
func sizesListed(text string, title bool, count int) ([]string, int, int, style) {
	if names, from, to := tableHead(text); names != nil {
		return names, from, to, style{}
	}
	for i := 0; i < len(text); i++ {
		if i > 0 && !strings.ContainsRune(" \t([{<:.,", rune(text[i-1])) || text[i] == ' ' || text[i] == '\t' || strings.IndexByte("([{<", text[i]) >= 0 && !firstInBrackets.MatchString(text[i:]) {
			continue
		}
		l, ok := readNames(text[i:])
		if !ok || len(l.names) > source.MaxSizes {
			continue
		}
		before, behind := text[:i], text[i+l.length:]
		strong := l.kind == letterKind || l.kind == wordKind || l.kind == romanKind && len(l.names) == count
		switch {
		case toFit.MatchString(before) && isDigit(text[i]): // what they fit is not what they are called
		case strings.TrimSpace(before) == "" && l.ends(behind):
			if strong || len(l.names) == count && !l.cells {
				return l.names, i, i + l.length, style{l.bare}
			}
		case strings.TrimSpace(before) == "" && strong && len(l.names) == count && countsBehind.MatchString(behind):
			return l.names, i, i + l.length, style{l.bare}
		case l.cells:
		case namesLead.MatchString(before) || title && titleLead.MatchString(before) && strings.Trim(unitOfAll.ReplaceAllString(behind, ""), " .)") == "":
			if strong || l.kind == colourKind || len(l.names) == count {
				return l.names, i, i + l.length, style{l.bare}
			}
		case (l.boxed || l.bare == "/") && strong && l.kind != romanKind, l.boxed && unitOfAll.MatchString(behind) && ageName.MatchString(l.names[0]+strings.TrimSpace(behind)):
			return l.names, i, i + l.length, style{l.bare}
		}
		i += l.length - 1
	}
	return nil, 0, 0, style{}
}

// ends tells whether nothing but a remark stands behind the list on its line.
func (l *nameList) ends(behind string) bool {
	return strings.Trim(unitOfAll.ReplaceAllString(behind, ""), " .)") == "" || strings.HasPrefix(behind, "  ") || strings.HasPrefix(behind, " (") || strings.HasPrefix(behind, ". ")
}

// sizesFitted finds the feet that the sizes fit, by which they are called where they have no other
// names: "To fit 5 (6) inch foot". A measure of the foot is no name: "To fit foot 9 [10:11] ins."
func sizesFitted(text string, count int) ([]string, int, int, style) {
	if !containsFold(text, "fit") {
		return nil, 0, 0, style{}
	}
	for i := 1; i < len(text); i++ {
		if !isDigit(text[i]) || isDigit(text[i-1]) || !fitLead.MatchString(text[:i]) {
			continue
		}
		if l, ok := readNames(text[i:]); ok && (l.boxed || l.bare != "") && len(l.names) == count {
			return l.names, i, i + l.length, style{l.bare}
		}
	}
	return nil, 0, 0, style{}
}

// sizesBelow finds names that stand below the heading "Sizes", each with a line of its own.
func sizesBelow(f *source.File, last int) (names []string, at source.Span) {
	for line := 1; line <= last; line++ {
		if names == nil {
			if headLine.MatchString(f.Line(line)) {
				names = []string{}
			}
			continue
		}
		text := f.Line(line)
		if strings.TrimSpace(text) == "" && len(names) == 0 {
			continue
		}
		from := len(nameOpensLine.FindString(text))
		name, kind := nameAt(text[from:])
		if kind == noName || kind == figureKind {
			break
		}
		names = append(names, name)
		if span := f.LineSpan(line); at.Known() {
			at = at.To(span)
		} else {
			at = span
		}
	}
	return names, at
}

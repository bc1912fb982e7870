package check_test

import (
	"math/big"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// Figures are found here by rules that share nothing with the reader.

// A figure is a number that a line prints, or a list of one number for each size.
type figure struct {
	figRef
	values     []value // one for all sizes or one for each, fewer in a list that is too short
	start, end int     // in the text
}

// A value is a number of a figure; num is nil where a dash stands for none.
type value struct {
	start, end int // in the text
	num        *big.Rat
}

// of is the figure's number in a size; nil if it has none.
func (f figure) of(size int) *big.Rat {
	switch {
	case len(f.values) == 1:
		return f.values[0].num
	case size < len(f.values):
		return f.values[size].num
	}
	return nil
}

const (
	number = `(?:\d+ \d+/\d+|\d+/\d+|\d+(?:\.\d+)?)`
	entry  = `(?:` + number + `|[-–])`
)

var (
	// Lists with brackets: 56 (60, 64), 28 [30:34], - (2, -, 2).
	bracketed = regexp.MustCompile(`^` + entry + ` ?[(\[]` + entry + `(?:[,:;/] ?` + entry + `)*[)\]]`)
	alone     = regexp.MustCompile(`^` + number)
	within    = regexp.MustCompile(entry)
	slashed   = regexp.MustCompile(`^\d+/\d+/[/\d]+$`)
	whole     = regexp.MustCompile(`\d+`)
	// Names of rows, rounds and sizes: no figures.
	sizeNames = regexp.MustCompile(`(?i)\bsizes: \d|\bsize \d+, with\b`) // a line of nothing else
	names     = regexp.MustCompile(`(?i)\b(?:rows?|rnds?|rounds?|sizes?|steps?) \d+(?:[-–]\d+)?(?:(?:, and |, | and | to )\d+)*(?: \(\d+(?:, \d+)*\))?`)
	// What makes a name of rows a number of rows after all: "work the rnds 9 [10] more times".
	rowCounts = regexp.MustCompile(`^ ?(?:[(\[]\d|more\b|times\b)`)
)

// bare is a list without brackets, as 14/16/18, 56, 62, 68 or 28 - 30 - 34, of n numbers.
func bare(n int) *regexp.Regexp {
	var all []string
	for _, between := range []string{", ", " [-–] ", ":"} {
		all = append(all, number+strings.Repeat(between+entry, n-1))
	}
	all = append(all, `\d+`+strings.Repeat(`/(?:\d+|[-–])`, n-1)) // no fractions between slashes
	return regexp.MustCompile(`^(?:` + strings.Join(all, "|") + `)`)
}

// findFigures finds the figures of a text in n sizes.
func findFigures(text string, n int) []figure {
	var all []figure
	offset, row := 0, 0
	listed := bare(n)
	for line := range strings.Lines(text) {
		row++
		if sizeNames.MatchString(line) {
			offset += len(line)
			continue
		}
		named := make([]bool, len(line))
		for _, m := range names.FindAllStringIndex(line, -1) {
			if !rowCounts.MatchString(line[m[1]:]) {
				for i := m[0]; i < m[1]; i++ {
					named[i] = true
				}
			}
		}
		place := 0
		for i := 0; i < len(line); {
			length := 0
			if !named[i] && begins(line, i) {
				for _, form := range []*regexp.Regexp{bracketed, listed, alone} {
					if n == 1 && form != alone {
						continue
					}
					if m := form.FindString(line[i:]); m != "" && ends(line[i+len(m):]) {
						length = len(m)
						break
					}
				}
			}
			if length == 0 {
				i++
				continue
			}
			place++
			f := figure{figRef: figRef{row, place}, start: offset + i, end: offset + i + length}
			one := within
			if slashed.MatchString(line[i : i+length]) {
				one = whole
			}
			for _, m := range one.FindAllStringIndex(line[i:i+length], -1) {
				v := value{start: f.start + m[0], end: f.start + m[1]}
				if parts := strings.Fields(text[v.start:v.end]); parts[0][0] >= '0' && parts[0][0] <= '9' {
					v.num = new(big.Rat)
					for _, part := range parts {
						x, _ := new(big.Rat).SetString(part)
						v.num.Add(v.num, x)
					}
				}
				if m[0] > 0 && listed.MatchString(line[i:i+length]) && !bracketed.MatchString(line[i:i+length]) && v.num == nil && len(f.values) < n {
					continue // the dash between two numbers
				}
				f.values = append(f.values, v)
			}
			all = append(all, f)
			i += length
		}
		offset += len(line)
	}
	return all
}

// begins tells whether a number may begin at i: no digit of a name (N1), a stitch (m1R) or
// a longer number stands before it, only the letter of a plain stitch (k2) may.
func begins(line string, i int) bool {
	before := line[:i]
	if line[i] == '-' {
		return i == 0 || before[i-1] == ' '
	}
	before = strings.TrimSuffix(before, ".") // K.2
	word := before[strings.LastIndexFunc(before, func(r rune) bool { return !isLetter(r) && (r < '0' || r > '9') })+1:]
	if before != line[:i] && (word == "" || word[0] >= '0' && word[0] <= '9') {
		return false
	}
	return word == "" || before != line[:i] || slices.Contains([]string{"k", "p", "K", "P"}, word)
}

// ends tells whether a number may end before the rest of a line: not within the name of a
// stitch or a row (k2tog, 1st, p.2 tog.).
func ends(rest string) bool {
	return rest == "" || !isLetter(rune(rest[0])) && !strings.HasPrefix(rest, " tog") && !strings.HasPrefix(rest, "/")
}

func isLetter(r rune) bool { return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' }

func TestFindFigures(t *testing.T) {
	for _, test := range []struct {
		line string
		n    int
		want string
	}{
		{"Row 1 (RS): Sl 1, k14 [16, 18], ssk, k2tog, K1, m1R.", 3, "1|14 [16, 18]|1"},
		{"Rnds 2, 4 and 6: knit; work Rnds 1-6 8 times on N1.", 1, "8"},
		{"Work these rnds 9 [9, 10] more times. 56 [60, 68] sts.", 3, "9 [9, 10]|56 [60, 68]"},
		{"K 28 - 30 - 34 sts, 13/14/16 up", 3, "28 - 30 - 34|13/14/16"},
		{"to last - (2, -, 2) sts, 5 1/2 in (10 cm)", 4, "- (2, -, 2)|5 1/2|10"},
		{"K.18 [19:22], sl.1, k.2 tog., repeat 5th and 6th rows", 3, "18 [19:22]|1"},
		{"19 along the left. 18 (20) sts.", 2, "19|18 (20)"},
	} {
		var got []string
		for _, f := range findFigures(test.line, test.n) {
			got = append(got, test.line[f.start:f.end])
		}
		if g := strings.Join(got, "|"); g != test.want {
			t.Errorf("%q: %s, want %s", test.line, g, test.want)
		}
	}
}

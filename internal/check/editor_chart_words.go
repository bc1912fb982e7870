package check

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"sockwright/internal/script"
	"sockwright/internal/source"
)

// chartWords are rows in words: the numbers they have and what they work, one entry a sign.
type chartWords struct {
	line  int
	nums  []int
	ops   []string
	plain bool // one working all along
}

// chartsInWords compares a chart with the same rounds in words that stand above or below it.
func (e *editor) chartsInWords() {
	for _, c := range e.words.Charts {
		if len(c.Rows) == 0 {
			continue
		}
		for _, run := range [][]chartWords{e.wordsAbove(c), e.wordsBelow(c)} {
			e.inWords(c, run)
		}
	}
}

// inWords compares one run of rows with a chart. Rows that only stand near it are told from
// its own by their likeness: at least one that is not plain must be the same or nearly so,
// and half of all.
func (e *editor) inWords(c *script.Chart, run []chartWords) {
	type pair struct {
		words chartWords
		row   script.ChartRow
		want  []string
	}
	var unlike []pair
	like, telling, back, near := 0, 0, 0, 0
	for _, w := range run {
		for _, r := range c.Rows {
			if !slices.Contains(w.nums, r.Num) {
				continue
			}
			ops, ok := e.chartOps(c, r)
			if !ok {
				continue
			}
			switch {
			case w.same(ops):
				like++
				telling += boolInt(!w.plain)
			default:
				unlike = append(unlike, pair{w, r, ops})
				near += boolInt(w.nearly(ops))
				turned := slices.Clone(ops)
				slices.Reverse(turned)
				back += boolInt(w.same(turned))
			}
		}
	}
	if len(unlike) > 0 && back == len(unlike) && back > 1 {
		e.note(e.chartRowAt(unlike[0].row.Line), source.ChartText, source.Say("edit.chart-backwards", "the chart agrees with the words of line {0} only if it is read from left to right", unlike[0].words.line),
			advice("edit.mend-chart-backwards", "say from which side it is read, or turn it round"))
		return
	}
	if telling+near == 0 || len(unlike)-near > like {
		return
	}
	for _, u := range unlike {
		e.say(e.chartRowAt(u.row.Line), e.all(), source.ChartText, source.Error,
			source.Say("edit.chart-words", "chart row {0} reads, in the order of working, {1}; the words in line {2} say {3}", u.row.Num, spelled(u.want), u.words.line, spelled(u.words.ops)),
			advice("edit.mend-chart-words", "make the chart or the words agree with the other"))
	}
}

// same tells whether words work what a row of a chart shows, as often as they go into it.
func (w chartWords) same(ops []string) bool {
	if w.plain {
		return !slices.ContainsFunc(ops, func(o string) bool { return o != w.ops[0] })
	}
	if len(w.ops) == 0 || len(ops)%len(w.ops) != 0 {
		return false
	}
	for i, o := range ops {
		if o != w.ops[i%len(w.ops)] {
			return false
		}
	}
	return true
}

// nearly tells whether words work what a row of a chart shows but for a stitch or two. Ribs
// are too much like each other to tell.
func (w chartWords) nearly(ops []string) bool {
	if len(w.ops) != len(ops) || !slices.ContainsFunc(ops, func(o string) bool { return o != "k" && o != "p" }) {
		return false
	}
	other := 0
	for i := range ops {
		other += boolInt(ops[i] != w.ops[i])
	}
	return other*5 <= len(ops)
}

func boolInt(b bool) int {
	if b {
		return 1
	}
	return 0
}

// chartOps is what a row of a chart works, from its right-hand end.
func (e *editor) chartOps(c *script.Chart, r script.ChartRow) ([]string, bool) {
	var ops []string
	for _, s := range slices.Backward(r.Signs) {
		op := signOp(c, s)
		if op == "" {
			return nil, false
		}
		ops = append(ops, op)
	}
	return ops, true
}

// signOp is what a sign of a chart works: a stitch, or the sign itself if it is a colour.
func signOp(c *script.Chart, sign string) string {
	i := slices.IndexFunc(c.Key, func(k script.Sign) bool { return k.Sign == sign })
	if i < 0 {
		if op := stitchOp(sign); op == "k" || op == "p" {
			return op
		}
		if utf8.RuneCountInString(sign) == 1 && strings.ToUpper(sign) == sign && strings.ToLower(sign) != sign {
			return sign
		}
		return ""
	}
	if op := stitchOp(c.Key[i].Means); op != "" {
		return op
	}
	if c.Key[i].Uses == 1 && c.Key[i].Makes == 1 {
		return sign
	}
	return ""
}

// stitchOps are stitches by the ways of writing them.
var stitchOps = func() map[string]string {
	m := map[string]string{}
	for op, ways := range map[string]string{
		"k": "k,knit,knit st,knit stitch,k1", "p": "p,purl,purl st,purl stitch,p1",
		"yo": "yo,yarn over,yfwd,yrn,yon,yarn forward,y o", "k2tog": "k2tog,k2 tog,k 2 tog,knit 2 together,knit two together,knit 2 tog", "p2tog": "p2tog,p2 tog,p 2 tog,purl 2 together,purl two together",
		"ssk": "ssk,slip slip knit,skp,skpo,sl1 k1 psso,sl 1 k1 psso,sl1 k 1 psso,sl 1 k 1 psso", "k3tog": "k3tog,knit 3 together,k3 tog",
		"sk2p": "sk2p,sl1 k2tog psso,sl 1 k2tog psso,sl1 k2 tog psso,sl 1 k2 tog psso", "cdd": "cdd,s2kp,s2kp2,sl2 k1 p2sso,sl 2 k1 p2sso", "ssp": "ssp",
		"sl": "sl,sl1,sl 1,slip,slip 1", "m1": "m1,make 1,make one", "m1l": "m1l", "m1r": "m1r", "kfb": "kfb", "ktbl": "ktbl,k1tbl,k1 tbl,kb1,k tbl", "ptbl": "ptbl,p1tbl,p1 tbl",
	} {
		for way := range strings.SplitSeq(ways, ",") {
			m[way] = op
		}
	}
	return m
}()

// stitchOp is the one name of a stitch, empty if it is none that can be compared.
func stitchOp(words string) string {
	words, _, _ = strings.Cut(strings.ToLower(undotted(words)), "(")
	return stitchOps[strings.Join(strings.Fields(strings.NewReplacer(",", " ", "-", " ").Replace(words)), " ")]
}

var (
	rowLabel = regexp.MustCompile(`(?i)^\s*(?:(?:chart )?(?:rnds?|rounds?|rows?)\.?\s+(\d+(?:(?:\s*[,&–-]\s*|,? and )\d+)*)((?:,? and)? (?:all|every) (?:even|odd|alt\.?|alternate) (?:rnds?|rounds?|rows?)\.?)?|(\d+)(?:st|nd|rd|th)((?:,? and)? (?:all|every) (?:even|odd|foll\.?|following)?\s*(?:alt\.?|alternate)? ?)? ?(?:rnds?|rounds?|rows?))\.?\s*(?:\((?:RS|WS)\))?\s*[:.–-]+\s*`)
	starred  = regexp.MustCompile(`(?i)^\*\s*(.+?)\s*(?:;\s*(?:rep|repeat)\b|\*|\s(?:rep|repeat)\.? from \*)`)
	allPlain = regexp.MustCompile(`(?i)^(k|knit|p|purl)\.?(?: (?:every|each|all) (?:sts?|stitch(?:es)?))?\s*(?:[.(]|$)`)
	manyOf   = regexp.MustCompile(`(?i)^(k|p|knit|purl)\s*(\d+)\s*(?:sts?\b)?\s*(?:in |with )?([A-Za-z]*)$`)
)

// wordsAbove is the run of rows that ends just above a chart.
func (e *editor) wordsAbove(c *script.Chart) []chartWords {
	var out []chartWords
	for n, gap := c.Line-1, 0; n > 0 && gap < 3; n-- {
		w, labelled := e.rowInWords(n, c)
		switch {
		case labelled:
			out = append(out, w)
		case e.role(n) == script.Signs || len(out) > 0:
			slices.Reverse(out)
			return out
		default:
			gap++
		}
	}
	slices.Reverse(out)
	return out
}

// wordsBelow is the run of rows that begins just below a chart and its key.
func (e *editor) wordsBelow(c *script.Chart) []chartWords {
	var out []chartWords
	for n, gap := lastLine(c)+1, 0; n <= len(e.lines) && gap < 4; n++ {
		w, labelled := e.rowInWords(n, c)
		switch {
		case e.role(n) == script.Signs:
			if slices.ContainsFunc(e.words.Charts, func(o *script.Chart) bool { return o != c && o.Line <= n && n <= lastLine(o) }) {
				return out
			}
		case labelled:
			out = append(out, w)
		case len(out) > 0:
			return out
		default:
			gap++
		}
	}
	return out
}

// rowInWords reads "Rnds 1 and 2: *P1, k3; rep from *." It has no workings if they cannot be
// compared with a chart.
func (e *editor) rowInWords(n int, c *script.Chart) (w chartWords, labelled bool) {
	line := e.file.Line(n)
	m := rowLabel.FindStringSubmatchIndex(line)
	if m == nil || e.role(n) == script.Signs {
		return w, false
	}
	w.line = n
	w.nums = rowNumbers(group(line, m, 1)+group(line, m, 3), group(line, m, 2)+group(line, m, 4), c)
	if strings.Contains(strings.ToLower(line[:m[1]]), "row") { // read from the left, and the other way round
		w.nums = slices.DeleteFunc(w.nums, func(n int) bool { return n%2 == 0 })
	}
	body := line[m[1]:]
	if p := allPlain.FindStringSubmatch(body); p != nil {
		w.ops, w.plain = []string{strings.ToLower(p[1][:1])}, true
	} else if s := starred.FindStringSubmatch(body); s != nil {
		w.ops = workings(s[1], c)
	}
	if w.ops == nil {
		w.nums = nil
	}
	return w, true
}

// rowNumbers lists the numbers of a label; more is "and all even rnds" or the like.
func rowNumbers(nums, more string, c *script.Chart) []int {
	var out []int
	for i, part := range strings.FieldsFunc(nums, func(r rune) bool { return r < '0' || r > '9' }) {
		n, err := strconv.Atoi(part)
		if err != nil {
			return nil
		}
		if i > 0 && strings.ContainsAny(nums, "-–") && !strings.ContainsAny(nums, ",&") {
			for k := out[len(out)-1] + 1; k < n && k < 1000; k++ {
				out = append(out, k)
			}
		}
		out = append(out, n)
	}
	if more != "" && len(out) == 1 {
		for _, r := range c.Rows {
			if r.Num > out[0] && (r.Num-out[0])%2 == 0 {
				out = append(out, r.Num)
			}
		}
	}
	return out
}

// workings splits "k2, yo, ssk" into stitches, nil if one of them is not known.
func workings(text string, c *script.Chart) []string {
	text = strings.ToLower(undotted(text))
	text = slipPass.ReplaceAllString(text, "skp")
	text = slipPassTwo.ReplaceAllString(text, "sk2p")
	var ops []string
	for part := range strings.SplitSeq(text, ",") {
		part = strings.TrimSpace(part)
		if op := stitchOp(part); op != "" {
			ops = append(ops, op)
			continue
		}
		m := manyOf.FindStringSubmatch(part)
		if m == nil {
			return nil
		}
		op := m[1][:1]
		if m[3] != "" {
			if op = colourOf(m[3], c); op == "" {
				return nil
			}
		}
		n, err := strconv.Atoi(m[2])
		if err != nil || n > 200 {
			return nil
		}
		ops = append(ops, slices.Repeat([]string{op}, n)...)
	}
	return ops
}

var (
	slipPass    = regexp.MustCompile(`sl ?1, k ?1, psso`)
	slipPassTwo = regexp.MustCompile(`sl ?1, k ?2 ?tog, psso`)
)

// colourOf is the sign of a colour that words name by its letter or by its name.
func colourOf(word string, c *script.Chart) string {
	for _, r := range c.Rows {
		for _, s := range r.Signs {
			if strings.EqualFold(s, word) {
				return s
			}
		}
	}
	for _, k := range c.Key {
		if len(word) > 2 && strings.Contains(strings.ToLower(k.Means), word) {
			return k.Sign
		}
	}
	return ""
}

// spelled prints workings as a pattern does: "k2, yo, ssk".
func spelled(ops []string) string {
	var out []string
	for i := 0; i < len(ops); {
		n := 1
		for i+n < len(ops) && ops[i+n] == ops[i] {
			n++
		}
		switch op := ops[i]; {
		case op == "k" || op == "p" || op == "sl":
			out = append(out, op+strconv.Itoa(n))
		case n > 1:
			out = append(out, strconv.Itoa(n)+" "+op)
		default:
			out = append(out, op)
		}
		i += n
	}
	return strings.Join(out, ", ")
}

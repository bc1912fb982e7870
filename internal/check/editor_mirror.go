package check

import (
	"regexp"
	"strings"

	"sockwright/internal/script"
	"sockwright/internal/source"
	"sockwright/internal/trade"
)

var (
	footWords = regexp.MustCompile(`(?i)^\W*(right|left|both|second|first)(?: and left)? (?:socks?|foot|feet|toe|heel|stocking)\b`)
	leanWords = regexp.MustCompile(`(?i)\b(k2tog tbl|p2tog tbl|k2tog|ssk|skpo|skp|p2tog|ssp|m1l|m1r|lli|rli)\b`)
)

// mirrorOf are the partners of stitches that lean.
var mirrorOf = func() map[string]string {
	m := map[string]string{}
	for _, a := range trade.Abbreviations() {
		if a.Mirror != "" {
			m[strings.ToLower(a.Short)] = strings.ToLower(a.Mirror)
		}
	}
	return m
}()

// leaning lists the stitches of a text that lean one way or the other, by the names of their
// kind: "skp" is as good as "ssk".
func leaning(text string) map[string]int {
	text = slipPass.ReplaceAllString(strings.ToLower(undotted(text)), "ssk")
	text = strings.ReplaceAll(strings.ReplaceAll(text, "k2 tog", "k2tog"), "p2 tog", "p2tog")
	count := map[string]int{}
	for _, m := range leanWords.FindAllString(text, -1) {
		m = strings.ToLower(m)
		switch m {
		case "skp", "skpo", "k2tog tbl":
			m = "ssk"
		case "p2tog tbl":
			m = "ssp"
		}
		count[m]++
	}
	return count
}

// feet notes a right and a left sock whose shaping is not one the other's mirror image: as
// many stitches must lean to the left in one as to the right in the other.
func (e *editor) feet() {
	text := map[string]string{}
	line := map[string]int{}
	foot := ""
	for i, l := range e.lines {
		if m := footWords.FindStringSubmatch(l); m != nil {
			if foot = strings.ToLower(m[1]); line[foot] != 0 { // told again for another part
				foot = ""
			} else {
				line[foot] = i + 1
			}
		} else if e.role(i+1) == script.Heading {
			foot = ""
		}
		if foot != "" {
			text[foot] += l + "\n"
		}
	}
	if line["right"] == 0 || line["left"] == 0 {
		return
	}
	right, left := leaning(text["right"]), leaning(text["left"])
	if len(right) == 0 || len(left) == 0 {
		return
	}
	for stitch, n := range right {
		if mirror := mirrorOf[stitch]; mirror != "" && left[mirror] != n {
			at := e.file.LineSpan(line["left"])
			e.note(at, source.Direction, source.Say("edit.feet", "the left sock is not the mirror image of the right one, which has {0} {1} in line {2} and below: here stand {3} {4}", n, "“"+stitch+"”", line["right"], left[mirror], "“"+mirror+"”"),
				advice("edit.mend-feet", "put “{0}” where the other has “{1}”, and let the ends of the needle change places", mirror, stitch))
			return
		}
	}
}

var (
	pairedStart = regexp.MustCompile(`(?i)\bk ?1, (k2tog|ssk|skp|skpo), (?:k|knit|work) (?:in patt )?to (?:the )?last 3\b[^;:.]{0,40}?, (k2tog|ssk|skp|skpo), k ?1\b`)
	pairedPurl  = regexp.MustCompile(`(?i)\bp ?1, (p2tog|ssp), (?:p|purl|work) (?:in patt )?to (?:the )?last 3\b[^;:.]{0,40}?, (p2tog|ssp)( tbl)?, p ?1\b`)
	marked      = regexp.MustCompile(`(?i)\bto (?:within )?(?:3|2) (?:sts )?before [^;:.,]{1,24}, (k2tog|ssk|skp|skpo)(?:, k ?1)?, (?:sl|sm|slip)\b[^;:.]{0,16}, (?:k ?1, )?(k2tog|ssk|skp|skpo)\b`)
)

// leans notes decreases at the two ends of a needle, or at the two sides of a marker, that
// lean the same way.
func (e *editor) leans() {
	for i, line := range e.lines {
		if e.role(i+1) != script.Worked && e.role(i+1) != script.Unread {
			continue
		}
		for _, pattern := range []*regexp.Regexp{pairedStart, pairedPurl, marked} {
			for _, m := range pattern.FindAllStringSubmatchIndex(line, -1) {
				a, b := strings.ToLower(group(line, m, 1)), strings.ToLower(group(line, m, 2))
				if one, other := leaning(a), leaning(b); len(one) == 0 || other[mirrorOf[first(one)]] > 0 || pattern == pairedPurl && m[6] >= 0 {
					continue
				}
				end := 2 // at the end of a needle the right-leaning one is usual, behind a marker the left-leaning one
				if right := a == "k2tog" || a == "p2tog"; right != (pattern == marked) {
					end = 1
				}
				e.note(e.at(i+1, m[2*end], m[2*end+1]), source.Direction, source.Say("edit.leans", "“{0}” and “{1}” at the two sides lean the same way", group(line, m, 1), group(line, m, 2)),
					advice("edit.mend-leans", "for sides that mirror each other, write “{0}” here", mirrorOf[first(leaning(group(line, m, end)))]))
			}
		}
	}
}

// first is the one stitch of a count of one.
func first(count map[string]int) string {
	for s := range count {
		return s
	}
	return ""
}

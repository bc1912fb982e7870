package check

import (
	"regexp"
	"strconv"
	"strings"

	"sockwright/internal/script"
	"sockwright/internal/source"
)

// wordings notes words that are right and are often misread, each with a safer wording.
func (e *editor) wordings() {
	for i := range e.lines {
		if r := e.role(i + 1); r != script.Worked && r != script.Unread {
			continue
		}
		e.toTheGap(i + 1)
		e.theseRows(i + 1)
		e.everyRound(i + 1)
		e.bareTimes(i + 1)
		e.withoutEnd(i + 1)
	}
}

var toGap = regexp.MustCompile(`(?i)\b(?:k|p|knit|purl|work)\.? to (the )?gap, ?(ssk|k2tog|p2tog|skp|skpo|ssp)\b`)

// toTheGap: the decrease that follows is worked across the gap.
func (e *editor) toTheGap(n int) {
	line := e.lines[n-1]
	for _, m := range toGap.FindAllStringSubmatchIndex(line, -1) {
		from := strings.Index(line[m[0]:m[1]], "to ") + m[0] + len("to ")
		e.note(e.at(n, from, m[4]), source.Ambiguous, source.Say("edit.to-gap", "“to the gap” leaves both stitches of the “{0}” beyond it", group(line, m, 2)),
			rewrite(e.at(n, from, from), "1 st before ", "edit.mend-to-gap", "write “to 1 st before the gap” if the decrease closes it"))
	}
}

var theseRows = regexp.MustCompile(`(?i)\b(?:rep|repeat|work)\.? (?:these|the last|the above|those) (\d+|[a-z]+) (rows|rnds|rounds)\b`)

// theseRows: more rows are to be repeated than stand above. A number that is the sum of what
// was worked by repeats is easily taken for a slip.
func (e *editor) theseRows(n int) {
	line := e.lines[n-1]
	m := theseRows.FindStringSubmatchIndex(line)
	if m == nil {
		return
	}
	want, err := strconv.Atoi(group(line, m, 1))
	if err != nil || want < 3 {
		return
	}
	rows := map[int]bool{}
	for k := n - 1; k > max(0, n-60) && e.role(k) != script.Heading; k-- { // a section is not longer
		for _, item := range e.words.Lines[k-1].Items {
			switch it := item.(type) {
			case *script.Row:
				if it.Label.Open != 0 || len(it.Label.Nums) == 0 {
					return
				}
				for _, num := range it.Label.Nums {
					rows[num] = true
				}
			case *script.Plain, *script.Shape, *script.Lost:
				return
			case *script.Repeat:
				if len(rows) > 0 || it.Stop.N.Known() {
					rows[-k] = true
				}
			}
		}
	}
	repeats := 0
	for num := range rows {
		repeats += boolInt(num < 0)
	}
	if labelled := len(rows) - repeats; repeats > 0 && labelled < want {
		e.note(e.at(n, m[0], m[1]), source.Ambiguous, source.Say("edit.these-rows", "{0} {1} are to be worked again, but only {2} are told one by one above; the others are repeats of these", want, group(line, m, 2), labelled),
			advice("edit.mend-these-rows", "say with which one to begin and with which to end"))
	}
}

var (
	everyNth = regexp.MustCompile(`(?i)\b(?:on |in )?every (\d+)(?:st|nd|rd|th) (rnd|round|row)\b`)
	plainFor = regexp.MustCompile(`(?i)\b(?:knit|k|work|purl)\.? (\d+) (?:plain |even )?(?:rnds?|rounds?|rows?)\b`)
)

// everyRound: "every 8th round" has seven plain ones between; with eight plain ones told
// just before, eight may be meant.
func (e *editor) everyRound(n int) {
	line := e.lines[n-1]
	m := everyNth.FindStringSubmatchIndex(line)
	if m == nil {
		return
	}
	every, err := strconv.Atoi(group(line, m, 1))
	if err != nil || every < 3 {
		return
	}
	for _, text := range []string{line[:m[0]], e.file.Line(n - 1)} {
		all := plainFor.FindAllStringSubmatch(text, -1)
		if len(all) > 0 && all[len(all)-1][1] == strconv.Itoa(every) {
			e.note(e.at(n, m[0], m[1]), source.Ambiguous, source.Say("edit.every", "“every {0}th {1}” has {2} plain ones between; {0} were worked just before", every, group(line, m, 2), every-1),
				advice("edit.mend-every", "if {0} plain ones are meant, write “every {1}th {2}”", every, every+1, group(line, m, 2)))
			return
		}
	}
}

var bareTimes = regexp.MustCompile(`(?i)\b(?:rep|repeat|work)\.? ((?:rnds?|rounds?|rows?)\.? \d+ (?:and|to|-|–) \d+|\d+(?:st|nd|rd|th) and \d+(?:st|nd|rd|th) (?:rnds?|rounds?|rows?)|(?:these|the last|both) (?:\d+ |two )?(?:rnds|rounds|rows)) ((?:\d+|[a-z]+)(?: [(\[][^)\]]*[)\]])?) times([^.;]*)`)

// bareTimes: rows that were worked once are worked "six times". A count that follows settles
// what is meant, for whoever reads so far.
func (e *editor) bareTimes(n int) {
	line := e.lines[n-1]
	m := bareTimes.FindStringSubmatchIndex(line)
	if m == nil || !strings.HasPrefix(strings.ToLower(line[m[0]:]), "rep") {
		return
	}
	for _, settled := range []string{"more", "in all", "total", "altogether", "in the whole", "again", "until", "around", "round", "over", "across"} {
		if strings.Contains(strings.ToLower(group(line, m, 2)+group(line, m, 3)), settled) {
			return
		}
	}
	if !strings.Contains(line[m[1]:], "sts") && !strings.Contains(group(line, m, 3), "sts") {
		return
	}
	e.note(e.at(n, m[0], m[1]), source.Ambiguous, source.Say("edit.times", "“{0} times” can be in all or more; only the count behind it settles which", group(line, m, 2)),
		advice("edit.mend-times", "write “{0} more times” or “{0} times in all”", group(line, m, 2)))
}

var goOn = regexp.MustCompile(`(?i)(?:^|[.;:] )((?:cont|continue|go on)\.? (?:so|thus|in this way|in this manner|like this|as set|as established|as before|as now set))([^.;]*)`)

// withoutEnd: work goes on "in this way", and nothing says how long.
func (e *editor) withoutEnd(n int) {
	line := e.lines[n-1]
	for _, m := range goOn.FindAllStringSubmatchIndex(line, -1) {
		rest := line[m[1]:]
		if next := e.file.Line(n + 1); strings.TrimSpace(strings.Trim(rest, ".")) == "" {
			rest += " " + next
		}
		first, _, _ := strings.Cut(strings.TrimLeft(rest, ". "), ". ")
		if endless(group(line, m, 2)) && endless(first) {
			e.note(e.at(n, m[2], m[3]), source.Ambiguous, source.Say("edit.endless", "“{0}”: nothing says how long", group(line, m, 1)),
				advice("edit.mend-endless", "say until how many stitches, rows or inches"))
		}
	}
}

var ends = regexp.MustCompile(`(?i)\b(?:until|till|to|for|times|more|end|all|total|rnds?|rounds?|rows?)\b`)

// endless tells whether words that say how to go on do not say how long.
func endless(words string) bool {
	return !ends.MatchString(words) && !strings.ContainsAny(words, "0123456789")
}

package check

import (
	"regexp"
	"strings"

	"sockwright/internal/script"
	"sockwright/internal/source"
)

// parts of a sock from the cuff down, by the words of their headings. The turn is looked for
// before the heel: "turn heel".
var parts = []struct {
	name  string
	words *regexp.Regexp
	rank  int
}{
	{"heel turn", regexp.MustCompile(`(?i)\bturn(?:ing)?\b`), 3},
	{"heel flap", regexp.MustCompile(`(?i)\bflap\b`), 2},
	{"gusset", regexp.MustCompile(`(?i)\bgussets?\b`), 4},
	{"cuff", regexp.MustCompile(`(?i)\b(?:cuff|top|welt|ribbing)\b`), 0},
	{"leg", regexp.MustCompile(`(?i)\b(?:leg|calf)\b`), 1},
	{"toe", regexp.MustCompile(`(?i)\btoe\b`), 6},
	{"foot", regexp.MustCompile(`(?i)\bfoot\b`), 5},
}

var (
	laterHeel = regexp.MustCompile(`(?i)afterthought|after-thought|waste yarn|scrap yarn|inserted heel|peasant heel|sideways|side to side`)
	toeUp     = regexp.MustCompile(`(?i)\btoe[- ]up\b|\bfrom the toe\b`)
)

// order notes headings that do not come in the order in which a sock is knitted, or, if it
// begins with the toe, in the opposite one.
func (e *editor) order() {
	if laterHeel.MatchString(e.file.Text) {
		return
	}
	type heading struct{ part, line int }
	var all []heading
	seen := map[int]bool{}
	first := e.begins()
	for i, line := range e.lines {
		if e.role(i+1) != script.Heading || i+1 < first && !e.worksBelow(i+1) {
			continue
		}
		for k, p := range parts {
			if p.words.MatchString(line) {
				if !seen[k] {
					all = append(all, heading{k, i + 1})
				}
				seen[k] = true
				break
			}
		}
	}
	if len(all) < 3 {
		return
	}
	up := toeUp.MatchString(e.file.Text) || parts[all[0].part].name == "toe"
	for i := 1; i < len(all); i++ {
		before, here := parts[all[i-1].part], parts[all[i].part]
		early := here.rank < before.rank
		if up {
			early = here.rank > before.rank && !upward(before.name, here.name)
		}
		if early {
			e.note(e.file.LineSpan(all[i].line), source.Ambiguous, source.Say("edit.order", "{0} stands below {1}, but is knitted before it", here.name, before.name),
				advice("edit.mend-order", "put the parts in the order in which they are knitted"))
		}
	}
}

// upward tells whether two parts of a sock from the toe up may follow in the order of one
// from the cuff down: its gusset grows before the heel is turned, its flap takes it in.
func upward(before, here string) bool {
	return strings.HasPrefix(before, "heel") && strings.HasPrefix(here, "heel") || before == "heel flap" && here == "gusset" || before == "heel turn" && here == "gusset"
}

// worksBelow tells whether something is worked under a heading.
func (e *editor) worksBelow(n int) bool {
	for n++; n <= len(e.lines); n++ {
		switch e.role(n) {
		case script.Worked:
			return true
		case script.Heading:
			return false
		}
	}
	return false
}

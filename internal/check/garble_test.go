package check_test

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"sockwright/internal/check"
	"sockwright/internal/reader"
	"sockwright/internal/script"
	"sockwright/internal/source"
)

// A garble is a pattern of which one line cannot be read any more. What the lines behind it
// find on the needles is no longer certain, so that nothing may be found wrong with them that
// is not wrong in the whole pattern.

var allGarbles = flag.Bool("garbles.all", false, "try every garble")

const (
	leastSilent    = 0.97 // of the garbles find nothing new
	leastSilentOwn = 0.80 // likewise in the program's own layout, whose plain speech is taken for what it is
	leastStill     = 0.75 // of the true faults are found before a garble, or behind it and two counts
	garblesDrawn   = 700  // garbles tried unless all are
)

// garblers make a line unreadable, each in its own way; "" where it cannot.
var garblers = []struct {
	name   string
	partly bool // what is left may be read
	garble func(line string) string
}{
	{"nonsense verbs", false, func(line string) string {
		return labelOf(line) + "Frimble 12, quonk to the brindle, frimble 12 back."
	}},
	{"an unknown technique", false, func(line string) string {
		return labelOf(line) + "Make a Hartwick welt over 14 sts, 6 sts deep."
	}},
	{"another language", false, func(line string) string {
		return "Alle Maschen rechts stricken, dabei 2 Maschen abnehmen, bis noch 14 Maschen übrig sind."
	}},
	{"the verb missing", true, func(line string) string {
		if m := firstVerb.FindStringIndex(line); m != nil {
			return line[:m[0]] + line[m[1]:]
		}
		return ""
	}},
	{"half of it lost", true, func(line string) string { return strings.TrimRight(line[:len(line)/2], "0123456789") + " ~~~" }},
}

var (
	labelled  = regexp.MustCompile(`^[^:]{1,40}:\s`)
	firstVerb = regexp.MustCompile(`(?i)\b(?:knit|purl|work|repeat|rep|slip|pick up|turn|cast on|decrease|cont(?:inue)?|dec|inc|divide|place|k|p|co)\b\.? *`)
)

// labelOf is what stands before the colon of a line.
func labelOf(line string) string { return labelled.FindString(line) }

// An intact is a pattern to make garbles of.
type intact struct {
	name, text string
	own        bool  // in the program's own layout
	lines      []int // that are worked
	want       expectedCase
	found      []source.Finding // without a garble
	stated     []int            // lines that state a count
}

// intacts are the cases, the long patterns and those of the examples.
func intacts(t *testing.T) (out []*intact) {
	for _, folder := range []string{"cases", "fresh", "long"} {
		files, err := filepath.Glob("testdata/" + folder + "/*.pattern.txt")
		if err != nil || len(files) == 0 {
			t.Fatalf("no cases in %s: %v", folder, err)
		}
		for _, name := range files {
			out = append(out, &intact{name: filepath.Base(strings.TrimSuffix(name, ".pattern.txt")), text: readFile(t, name), want: expectation(t, name)})
		}
	}
	for _, s := range ownSubjects(t) {
		out = append(out, &intact{name: s.name, text: s.text, own: true})
	}
	for _, w := range out {
		r := check.Pattern(source.NewFile(w.name, w.text))
		w.found, _ = findings(w.name, w.text)
		for i, l := range r.Words.Lines {
			if l.Role != script.Worked || r.Words.File.GoesOn(i+1) || r.Words.File.GoesOn(i+2) {
				continue
			}
			w.lines = append(w.lines, i+1)
			if states(l) {
				w.stated = append(w.stated, i+1)
			}
		}
	}
	return out
}

// states tells whether a line states how many stitches there are.
func states(l script.Line) bool {
	for _, item := range l.Items {
		var claims []script.Claim
		switch n := item.(type) {
		case *script.CastOn:
			return true
		case *script.Row:
			claims = n.Claims
		case *script.State:
			claims = n.Claims
		case *script.Repeat:
			claims = n.Claims
		case *script.Shape:
			claims = n.Claims
		}
		if slices.ContainsFunc(claims, func(c script.Claim) bool { return c.What == script.Live || c.What == script.Total }) {
			return true
		}
	}
	return false
}

// garbled is the text with another line in the place of line n.
func (w *intact) garbled(n int, line string) string {
	lines := strings.Split(w.text, "\n")
	lines[n-1] = line
	return strings.Join(lines, "\n")
}

// unreadable tells whether a line cannot be read in full.
func unreadable(text string, line int) bool {
	words := reader.Read(source.NewFile("x", text))
	return slices.ContainsFunc(words.Lines[line-1].Items, func(i script.Item) bool {
		switch i.(type) {
		case *script.Lost, *script.Skipped:
			return true
		}
		return false
	})
}

// fair tells whether a finding may be reported: it is in the whole pattern too, or on a line on which
// its true fault may be.
func (w *intact) fair(f source.Finding) bool {
	lines := slices.Concat(w.want.AcceptLines, w.want.FollowOn)
	for _, x := range w.want.Faults {
		lines = append(lines, x.Line)
	}
	return slices.Contains(lines, f.Line) || slices.ContainsFunc(w.found, func(g source.Finding) bool { return g.Line == f.Line && g.Kind == f.Kind })
}

// TestGarbles: where a line cannot be read, nothing is found wrong with those behind it that rests on what it
// may have said; and what is wrong further on, behind counts that agree, is found all the same.
func TestGarbles(t *testing.T) {
	type group struct {
		own bool
		how int
	}
	type trial struct {
		w    *intact
		line int
		how  int
	}
	var trials []trial
	for _, w := range intacts(t) {
		for _, n := range w.lines {
			for how := range garblers {
				trials = append(trials, trial{w, n, how})
			}
		}
	}
	made := len(trials)
	if !*allGarbles {
		r := rand.New(rand.NewPCG(5, 11))
		r.Shuffle(len(trials), func(i, j int) { trials[i], trials[j] = trials[j], trials[i] })
		trials = trials[:min(garblesDrawn, len(trials))]
	}
	silent, tried := map[group]int{}, map[group]int{}
	still, due := 0, 0
	var loud, missed []string
	for _, x := range trials {
		was := strings.Split(x.w.text, "\n")[x.line-1]
		line := garblers[x.how].garble(was)
		if line == "" || line == was {
			continue
		}
		text := x.w.garbled(x.line, line)
		if garblers[x.how].partly && !unreadable(text, x.line) {
			continue
		}
		found, _ := findings(x.w.name, text)
		at := fmt.Sprintf("%s:%d: %s", x.w.name, x.line, garblers[x.how].name)
		of := group{x.w.own, x.how}
		tried[of]++
		quiet := true
		for _, f := range found {
			own := f.Line == x.line && (f.Kind == source.Unread || f.Kind == source.UndefinedTerm)
			if !own && !x.w.fair(f) {
				quiet = false
				loud = append(loud, at+": "+f.String())
			}
		}
		if quiet {
			silent[of]++
		}
		for _, fault := range x.w.want.Faults {
			anchors := 0
			for _, n := range x.w.stated {
				if n > x.line && n < fault.Line {
					anchors++
				}
			}
			kinds := append(slices.Clone(x.w.want.AcceptKinds), x.w.want.Kind)
			if fault.Line < x.line || anchors >= 2 {
				due++
				if slices.ContainsFunc(found, func(f source.Finding) bool {
					return (f.Line == fault.Line || slices.Contains(x.w.want.AcceptLines, f.Line)) && slices.Contains(kinds, f.Kind)
				}) {
					still++
				} else {
					missed = append(missed, fmt.Sprintf("%s: not found in line %d: %s", at, fault.Line, fault.Why))
				}
			}
		}
	}
	for own, least := range map[bool]float64{false: leastSilent, true: leastSilentOwn} {
		all, quiet := 0, 0
		for how, g := range garblers {
			of := group{own, how}
			t.Logf("own layout %-5v %-22s %5d, %5.1f %% silent", own, g.name, tried[of], 100*float64(silent[of])/float64(max(tried[of], 1)))
			all, quiet = all+tried[of], quiet+silent[of]
		}
		t.Logf("own layout %-5v %-22s %5d, %5.1f %% silent", own, "all", all, 100*float64(quiet)/float64(max(all, 1)))
		if all == 0 || float64(quiet) < least*float64(all) {
			t.Errorf("something is found wrong where nothing is:\n%s", strings.Join(loud, "\n"))
		}
	}
	t.Logf("of %d garbles; %d of %d true faults still found", made, still, due)
	if due == 0 || float64(still) < leastStill*float64(due) {
		t.Errorf("true faults are lost:\n%s", strings.Join(missed, "\n"))
	}
}

package check_test

import (
	"flag"
	"fmt"
	"math"
	"math/big"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"sockwright/internal/check"
	"sockwright/internal/publish"
	"sockwright/internal/source"
	"sockwright/internal/witness"
)

// A mutant is a pattern with one slip in it. One that contradicts something else that the
// pattern prints must be reported. What contradicts is not asked of the code under test but
// of a subject's judge: the ledger beside a case in some foreign layout, or for the
// program's own examples a second interpreter of the printed words.

var (
	allMutants = flag.Bool("mutants.all", false, "try every mutant and hold the survivors to testdata/mutants-survivors.txt")
	update     = flag.Bool("update", false, "write the golden files of testdata anew")
)

const (
	leastReported = 0.98 // of the mutants that contradict
	drawn         = 900  // mutants tried unless all are
)

// A subject is a pattern to make mutants of.
type subject struct {
	name    string
	text    string
	sizes   []string
	figures []figure
	// contradicts tells what the mutant contradicts.
	contradicts func(m mutant) contradiction
	before      map[string]bool // what is found in the unchanged text
}

// A contradiction is what a mutant cannot be reconciled with.
type contradiction struct {
	lines []int  // that the slip and what it contradicts stand on
	sizes []bool // concerned; nil for all
}

func (c contradiction) none() bool { return len(c.lines) == 0 }

// finding is what tells a finding from others.
func finding(f source.Finding) string {
	return fmt.Sprint(f.Line, f.Kind, f.Sizes, f.Message)
}

// findings are what checking a text finds, without notes, and its sizes as they are named.
func findings(name, text string) ([]source.Finding, []string) {
	r := check.Pattern(source.NewFile(name, text))
	return slices.DeleteFunc(find(r), func(f source.Finding) bool { return f.Severity == "note" }), r.Sizes
}

// A verdict is what becomes of a mutant.
type verdict int

const (
	agrees   verdict = iota // contradicts nothing that is printed
	onLine                  // reported on the line of the slip
	tied                    // reported on a line that it contradicts
	silent                  // nothing is reported
	faraway                 // reported on other lines only
	misnamed                // reported for other sizes only
)

func (v verdict) String() string {
	return [...]string{"agrees", "on its line", "on a line it contradicts", "nothing is reported", "reported on another line", "reported for another size"}[v]
}

// try checks a mutant.
func (s *subject) try(m mutant) verdict {
	c := s.contradicts(m)
	if c.none() {
		return agrees
	}
	best := silent
	found, sizes := findings(s.name, m.text)
	for _, f := range found {
		if s.before[finding(f)] {
			continue
		}
		concerned := len(f.Sizes) == 0 || c.sizes == nil || slices.ContainsFunc(f.Sizes, func(name string) bool {
			return c.sizes[min(slices.Index(sizes, name), len(c.sizes)-1)]
		})
		switch {
		case !slices.Contains(append(c.lines, m.line), f.Line):
			if best == silent {
				best = faraway
			}
		case !concerned:
			if best == silent || best == faraway {
				best = misnamed
			}
		case f.Line == m.line:
			return onLine
		default:
			best = tied
		}
	}
	return best
}

// A trial is a mutant of a subject.
type trial struct {
	s *subject
	m mutant
}

// reasons tell why mutants survive, by the beginning of where and what they are.
var reasons = map[string]string{
	"boatmans-sock:9: figure 3":   "all of the heel can be worked before the round begins",
	"boatmans-sock:9: figure 4":   "“4 of the 8”: the second figure is not read",
	"bobbin-rib:3":                "the smaller repeat divides the round as well",
	"brass-funnel:6":              "a note says that the wrap without its turn is not read",
	"brass-funnel:7":              "a note says that the wrap without its turn is not read",
	"brass-funnel:4":              "the counts after the repeat show it",
	"brass-funnel:5":              "the counts after the repeat show it",
	"breakwater:14: figure 2":     "“in the same way”: taken to be as many as along the first edge",
	"chisel-rack:4":               "the round in which the needles run out of stitches is named, or the count after it",
	"crane-foot:4":                "makes good the total that the pattern has wrong",
	"ebb-heel":                    "told together with the slip that the same size has already",
	"gravel-spit:19":              "two sizes of four differ from the leg: neither is the odd one",
	"gravel-spit:9":               "two sizes of four differ from the loops picked up: neither is the odd one",
	"high-water-calf:2":           "of two sizes one figure can be for both; the count at the end shows it",
	"high-water-calf:3":           "of two sizes one figure can be for both; the count at the end shows it",
	"kelp-lace:2":                 "a multiple of the repeat as well",
	"kelp-lace:8":                 "nothing says that one loop is picked up for each two rows",
	"kelp-lace:9":                 "the last stitch of a row may fall away where none is left",
	"long-haul":                   "lengths are rounded, and these are near enough",
	"marline-twist":               "how many stitches the twist takes is told nowhere",
	"net-loft-leg:2":              "the first round that does not fit is named, not the cast-on",
	"net-loft-leg:3":              "“over 10 sts” in the heading of a stitch pattern is not read",
	"pilot-steps:3":               "the set-up is not held to how often the chart is worked",
	"pilot-steps:5":               "the heading of a chart is held to its width and height only",
	"sail-loft:3":                 "of two sizes one figure can be for both; the next row shows it",
	"sail-loft:5":                 "the row cannot be followed for want of its marker",
	"sail-loft:7":                 "the row cannot be followed for want of its marker",
	"sandcastle-child:10":         "the round that has too few stitches on its needle is named",
	"sandcastle-child:9":          "the round that has too few stitches on its needle is named",
	"shipwright-lane:10":          "of the size that has no figure for its heel",
	"shipwright-lane:7: figure 2": "of the size that has no figure for its heel",
	"spring-tide:4":               "the smaller repeat divides the round as well",
	"tar-barrel:12":               "two sizes of three differ from the leg: neither is the odd one",
	"tar-barrel:1:":               "of the feet to fit, not of the work",
	"tar-barrel:4":                "two sizes of three differ, or half of an odd number of rows is the same",
	"tern-hollow.toml:143":        "nothing printed says where the cup has its middle, and every count comes out",
	"tern-hollow.toml:154":        "the row that meets what is left of the twins is named",
	"tern-hollow.toml:155":        "the row that meets what is left of the twins is named",
	"tern-hollow.toml:157":        "a decrease a stitch away from the gap leaves as many",
	"turnstone-flap:7":            "“these 4 rows” is read as all rows above",
	"wheelhouse-sock:6":           "“60 sts. again when”: told in passing, in brackets",
	"wheelhouse-sock:8":           "what a part of the round has left is not counted",
}

// String is where a mutant is and what its slip.
func (x trial) String() string { return fmt.Sprintf("%s:%d: %s", x.s.name, x.m.line, x.m.slip) }

// reason is why a mutant survives, if that is known.
func (x trial) reason() string {
	for at, why := range reasons {
		if strings.HasPrefix(x.String(), at) {
			return why
		}
	}
	return "not known why"
}

// A score counts the mutants of one kind.
type score struct{ contradict, onLine, reported int }

func (s score) share(n int) float64 { return float64(n) / float64(max(s.contradict, 1)) }

func TestMutants(t *testing.T) {
	var scores [kinds]score
	var all score
	var survivors []string
	subjects := append(ledgerSubjects(t), ownSubjects(t)...)
	var trials []trial
	for _, s := range subjects {
		for _, m := range s.mutants() {
			trials = append(trials, trial{s, m})
		}
	}
	made := len(trials)
	if !*allMutants {
		r := rand.New(rand.NewPCG(3, 7))
		r.Shuffle(len(trials), func(i, j int) { trials[i], trials[j] = trials[j], trials[i] })
		trials = trials[:min(drawn, len(trials))]
	}
	for _, x := range trials {
		v := x.s.try(x.m)
		if v == agrees {
			continue
		}
		for _, c := range []*score{&scores[x.m.kind], &all} {
			c.contradict++
			if v == onLine {
				c.onLine++
			}
			if v == onLine || v == tied {
				c.reported++
			}
		}
		if v != onLine && v != tied {
			survivors = append(survivors, fmt.Sprintf("%s: %s (%s)", x, v, x.reason()))
		}
	}
	slices.Sort(survivors)
	t.Logf("%d of %d mutants of %d patterns", len(trials), made, len(subjects))
	for k, c := range scores {
		t.Logf("%-24s %5d contradict, %5.1f %% reported, %5.1f %% on their own line", kind(k), c.contradict, 100*c.share(c.reported), 100*c.share(c.onLine))
	}
	t.Logf("%-24s %5d contradict, %5.1f %% reported, %5.1f %% on their own line", "all", all.contradict, 100*all.share(all.reported), 100*all.share(all.onLine))
	least := leastReported
	if !*allMutants { // a sample misses the share of all by chance: two standard deviations are allowed
		least -= 2 * math.Sqrt(leastReported*(1-leastReported)/float64(max(all.contradict, 1)))
	}
	if all.contradict == 0 || all.share(all.reported) < least {
		t.Errorf("%.1f %% of the mutants are reported, not %.0f %%; not reported:\n%s", 100*all.share(all.reported), 100*least, strings.Join(survivors, "\n"))
	}
	if *allMutants {
		for at := range reasons {
			if !slices.ContainsFunc(survivors, func(s string) bool { return strings.HasPrefix(s, at) }) {
				t.Errorf("no mutant survives at %q: take its reason off the list", at)
			}
		}
		golden(t, "testdata/mutants-survivors.txt", strings.Join(survivors, "\n")+"\n")
	}
}

// golden compares a text with a file, or writes it there.
func golden(t *testing.T, name, got string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(name, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if want := readFile(t, name); got != want {
		t.Errorf("%s is not what comes out; with -update it is written anew:\n%s", name, got)
	}
}

// A ledgerCase is a case in some foreign layout with its ledger.
type ledgerCase struct {
	name    string
	text    string
	sizes   []string
	ledger  []equation
	figures map[figRef]figure
}

// ledgerCases are the cases beside which a ledger lies.
func ledgerCases(t *testing.T) []*ledgerCase {
	t.Helper()
	files, err := filepath.Glob("testdata/cases/*.ledger")
	if err != nil || len(files) == 0 {
		t.Fatalf("no ledgers: %v", err)
	}
	var out []*ledgerCase
	for _, name := range files {
		stem := strings.TrimSuffix(name, ".ledger")
		c := &ledgerCase{name: filepath.Base(stem), text: readFile(t, stem+".pattern.txt"), figures: map[figRef]figure{}}
		c.sizes = expectation(t, stem+".pattern.txt").Sizes
		if c.ledger, err = readLedger(readFile(t, name)); err != nil {
			t.Fatal(err)
		}
		for _, f := range findFigures(c.text, len(c.sizes)) {
			c.figures[f.figRef] = f
		}
		out = append(out, c)
	}
	return out
}

// TestLedgers: of every case each equation holds in every size, but those that the case
// breaks, which fail in one size at least.
func TestLedgers(t *testing.T) {
	for _, c := range ledgerCases(t) {
		for _, e := range c.ledger {
			wrong := 0
			for size := range c.sizes {
				holds, known, err := e.holds(func(r figRef) *big.Rat {
					f, ok := c.figures[r]
					if !ok {
						t.Errorf("%s: no figure %v", c.name, r)
						return nil
					}
					return f.of(size)
				})
				if err != nil {
					t.Fatalf("%s: %v", c.name, err)
				}
				if known && !holds || !known && e.broken {
					wrong++
				}
			}
			if (wrong > 0) != e.broken {
				t.Errorf("%s: %s fails in %d sizes", c.name, e.text, wrong)
			}
		}
	}
}

// ledgerSubjects are the cases, judged by their ledgers.
func ledgerSubjects(t *testing.T) []*subject {
	var out []*subject
	for _, c := range ledgerCases(t) {
		s := &subject{name: c.name, text: c.text, sizes: c.sizes, figures: findFigures(c.text, len(c.sizes)), before: map[string]bool{}}
		before, _ := findings(s.name, s.text)
		for _, f := range before {
			s.before[finding(f)] = true
		}
		s.contradicts = func(m mutant) contradiction {
			if m.kind.ofWords() || m.kind == sizeDropped {
				return m.byRule(s)
			}
			return c.contradicts(t, m)
		}
		out = append(out, s)
	}
	return out
}

// contradicts are the equations that the mutant breaks. What it is tied to are their
// figures, and those of the equations that were broken already and that it has a part in.
func (c *ledgerCase) contradicts(t *testing.T, m mutant) contradiction {
	out := contradiction{sizes: make([]bool, len(c.sizes))}
	for _, e := range c.ledger {
		for size := range c.sizes {
			before, known, _ := e.holds(func(r figRef) *big.Rat { return c.figures[r].of(size) })
			after, _, err := e.holds(func(r figRef) *big.Rat {
				if r == m.figure {
					return m.values(size)
				}
				return c.figures[r].of(size)
			})
			if err != nil {
				t.Fatal(err)
			}
			if known && before && !after {
				out.sizes[size] = true
				for _, r := range e.figures {
					out.lines = append(out.lines, r.line)
				}
			}
		}
	}
	if len(out.lines) == 0 {
		return contradiction{}
	}
	for _, e := range c.ledger {
		if e.broken && slices.Contains(e.figures, m.figure) {
			for _, r := range e.figures {
				out.lines = append(out.lines, r.line)
			}
		}
	}
	return out
}

// ownSubjects are the written patterns of the examples, judged by the second interpreter.
func ownSubjects(t *testing.T) []*subject {
	files, err := filepath.Glob("../../examples/*.toml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no examples: %v", err)
	}
	var out []*subject
	for _, name := range files {
		book, faults, err := publish.Make(source.NewFile(name, readFile(t, name)), publish.Options{})
		if err != nil || book == nil {
			t.Fatalf("%s: %v %v", name, err, faults)
		}
		s := &subject{name: filepath.Base(name), text: book.Proof.Text.Text}
		report, err := witness.Run(s.text)
		if err != nil || len(report.Wrong) > 0 {
			t.Fatalf("%s: %v %v", name, err, report)
		}
		before, _ := findings(s.name, s.text)
		for _, f := range before {
			t.Errorf("%s is right, but: %v", name, f)
		}
		s.sizes = report.Sizes
		for _, f := range findFigures(s.text, len(s.sizes)) {
			if report.Line(f.line) != nil {
				s.figures = append(s.figures, f)
			}
		}
		s.contradicts = func(m mutant) contradiction { return s.witnessed(m) }
		out = append(out, s)
	}
	return out
}

var erring = regexp.MustCompile(`^line (\d+): `)

// witnessed is what the second interpreter finds wrong first in each size.
func (s *subject) witnessed(m mutant) contradiction {
	report, err := witness.Run(m.text)
	if err != nil {
		lines := []int{m.line}
		if at := erring.FindStringSubmatch(err.Error()); at != nil {
			n, _ := strconv.Atoi(at[1])
			lines = append(lines, n)
		}
		return contradiction{lines: lines}
	}
	out := contradiction{sizes: make([]bool, len(s.sizes))}
	for _, w := range report.Wrong {
		if size := slices.Index(s.sizes, w.Size); !out.sizes[size] {
			out.sizes[size] = true
			out.lines = append(out.lines, w.Line)
		}
	}
	return out
}

package sock_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"sockwright/internal/fabric"
	"sockwright/internal/knit"
	"sockwright/internal/notation"
	"sockwright/internal/source"
)

// A worked example is a sock that somebody has published, held number by number: what our
// constructions make of its stitches is knitted from a design, what they have no option for
// from words. What is held in neither way is left out for a reason.
type worked struct {
	name   string // by construction and stitches
	source string
	pieces []piece
	left   []string // what is not held, and why
}

// A piece of a worked example knits a part of it, and holds what is printed.
type piece interface{ hold(t *testing.T) }

// TestWorkedExamples knits every published sock.
func TestWorkedExamples(t *testing.T) {
	names := map[string]bool{}
	for i, x := range workedExamples {
		t.Run(fmt.Sprintf("%d %s", i+1, x.name), func(t *testing.T) {
			if x.source == "" || names[x.name] || len(x.pieces)+len(x.left) == 0 {
				t.Errorf("the example %q needs a name of its own, a source, and something to hold or a reason", x.name)
			}
			names[x.name] = true
			for _, p := range x.pieces {
				p.hold(t)
			}
		})
	}
}

// made is a sock made from a design, in one or more sizes. Its stitches and those of the heel
// and the rows of the flap are pinned where they are given.
type made struct {
	leg, heel, flap []int
	more            string // other tables of the design file
	pin             string // other pins
	want            map[string][]int

	turn   [][]int   // what each row of the turn works before its decrease, the slipped stitch not counted, as far as printed
	picked [3][]int  // stitches before the instep, of it and behind it, after picking up
	last   [3][]int  // when the gusset is done
	toe    []int     // after each decrease round of the toe, or each increase round from the tip, as far as printed
	works  [2]string // a section, and how many stitches each of its rows works, or each round where it has no rows
}

func (m made) text() string {
	cuff := "k1p1"
	for _, n := range m.leg {
		if n%2 != 0 {
			cuff = "garter"
		}
	}
	pins := fmt.Sprintf("[pin]\n\"leg.stitches\" = %s\n", list(m.leg))
	if m.heel != nil {
		pins += fmt.Sprintf("\"heel.stitches\" = %s\n", list(m.heel))
	}
	if m.flap != nil {
		pins += fmt.Sprintf("\"heel.flap_rows\" = %s\n", list(m.flap))
	}
	direction := ""
	if strings.Contains(m.more, "direction =") {
		direction, m.more, _ = strings.Cut(m.more, "\n")
	}
	return direction + "\n" + wanted{stitches: m.leg, foot: "14 in", more: "[cuff]\nkind = \"" + cuff + "\"\n" + m.more + "\n" + pins + m.pin}.text()
}

// list writes numbers by size for a design file.
func list(n []int) string {
	var each []string
	for size, x := range n {
		each = append(each, fmt.Sprintf("\"%d\" = %d", size+1, x))
	}
	return "{ " + strings.Join(each, ", ") + " }"
}

func (m made) hold(t *testing.T) {
	draft, plan := graded(t, m.text())
	for key, each := range m.want {
		for size, n := range each {
			numbers(t, plan, size, map[string]int{key: n})
		}
	}
	for size := range m.leg {
		c := knitted(t, draft, plan, size)
		if m.turn != nil {
			m.holdTurn(t, c, size)
		}
		if m.picked[0] != nil {
			m.holdGusset(t, c, size)
		}
		if m.toe != nil {
			var after []int
			n := 0
			for _, r := range c.toe() {
				if n != len(r.kinds) && (len(after) > 0 || r.shaped()) {
					after = append(after, len(r.kinds))
				}
				n = len(r.kinds)
			}
			if len(after) < len(m.toe) || !slices.Equal(after[:len(m.toe)], m.toe) {
				t.Errorf("the shaped rounds of the toe leave %v, want %v", after, m.toe)
			}
		}
		if m.works[0] != "" {
			rows := c.courses(m.works[0], false)
			if len(rows) == 0 {
				rows = c.courses(m.works[0], true)
			}
			var works []string
			for _, r := range rows {
				works = append(works, fmt.Sprint(len(slices.DeleteFunc(r.kinds, func(k fabric.Kind) bool { return k == fabric.Wrap }))))
			}
			if got := strings.Join(works, " "); got != m.works[1] {
				t.Errorf("section %s works %s stitches, want %s", m.works[0], got, m.works[1])
			}
		}
	}
}

// shaped tells whether a round decreases or increases.
func (c course) shaped() bool {
	return slices.ContainsFunc(c.kinds, func(k fabric.Kind) bool { return k != fabric.Knit && k != fabric.Purl && k != fabric.CastOn })
}

// holdTurn holds the rows of a turn as far as printed.
func (m made) holdTurn(t *testing.T, c cloth, size int) {
	rows := c.courses("Heel turn", false)
	for i, want := range m.turn[size] {
		at := max(rows[i].at(fabric.Ssk, 0), rows[i].at(fabric.K2tog, 0))
		if rows[i].wrong {
			at = rows[i].at(fabric.P2tog, 0)
		}
		if at != want || rows[i].wrong != (i%2 == 1) {
			t.Errorf("row %d of the turn works %d stitches before its decrease, want %d", i+1, at, want)
		}
	}
}

// holdGusset reads off the cloth what lies before the instep, on it and behind it after
// picking up and when the gusset is done, and that each decrease round takes two.
func (m made) holdGusset(t *testing.T, c cloth, size int) {
	rounds := c.courses("Gusset", true)
	picked := func(k fabric.Kind) bool { return k == fabric.EdgeLoop || k == fabric.CornerLoop }
	first := rounds[0].kinds
	before := slices.IndexFunc(first, picked)
	for before < len(first) && picked(first[before]) {
		before++
	}
	behind := slices.IndexFunc(first[before:], picked)
	got := [3]int{before, behind, len(first) - before - behind}
	for i := range got {
		if got[i] != m.picked[i][size] {
			t.Errorf("after picking up %v stitches lie before the instep, on it and behind it, want %v", got, m.picked)
			break
		}
	}
	for _, r := range rounds[1:] {
		if k2tog, ssk := r.at(fabric.K2tog, 0), r.at(fabric.Ssk, 0); k2tog >= 0 && ssk >= 0 {
			if k2tog != got[0]-3 || ssk != got[0]+got[1] {
				t.Errorf("a decrease round leaves %d stitches with decreases at %d and %d, of %v before it", len(r.kinds), k2tog, ssk, got)
			}
			got[0]--
			got[2]--
		}
		if len(r.kinds) != sum(got[:]...) {
			t.Errorf("a round of the gusset has %d stitches, want %d", len(r.kinds), sum(got[:]...))
		}
	}
	for i := range got {
		if m.last[i] != nil && got[i] != m.last[i][size] {
			t.Errorf("the gusset leaves %v stitches before the instep, on it and behind it, want %v", got, m.last)
			break
		}
	}
}

func sum(n ...int) (all int) {
	for _, x := range n {
		all += x
	}
	return all
}

// words are lines in our notation that state what is printed; knitting them holds it.
type words struct {
	lines string
	final int
}

// round begins words in the round with so many stitches.
func round(n int, lines string, final int) words {
	return words{fmt.Sprintf("LEG\n\nCO %d sts. Join to work in the round without twisting. The rnd begins at the center of the back.\n%s\n", n, lines), final}
}

// flat begins words to and fro over the last heel stitches of a round, in an even number of
// rows so far.
func flat(n, heel int, lines string, final int) words {
	return round(n, fmt.Sprintf("Set-up row 1 (RS): K%d, turn.\nSet-up row 2 (WS): Sl 1, p%d, turn.\nThe last %d sts worked are the heel; the other %d sts rest for the instep.\n%s", heel/2, heel-1, heel, n-heel, lines), final+n-heel)
}

func (w words) hold(t *testing.T) {
	t.Helper()
	f := source.NewFile("gable-end.txt", "GABLE END\n\n"+w.lines)
	read := notation.Read(f)
	res := new(knit.Knitter).Knit(read.Pattern, 0)
	for _, x := range append(read.Faults, res.Faults...) {
		t.Errorf("%s: %s", f.Slice(x.At), x.Text)
	}
	if res.Final != w.final || !res.Sure {
		t.Errorf("%d stitches are left, want %d\n%s", res.Final, w.final, w.lines)
	}
	lines := 0
	for line := range strings.Lines(w.lines) {
		for _, word := range []string{"Rnd ", "Row ", "Set-up row ", "Dec rnd", "Inc rnd"} {
			if strings.HasPrefix(line, word) {
				lines++
			}
		}
	}
	if read.Worked < lines || lines == 0 {
		t.Errorf("%d of %d lines are read", read.Worked, lines)
	}
}

// A needled is a gusset and a toe on three needles whose rounds our constructions have no
// option for, from the first round after picking up. It writes them in words, a line a round,
// with the printed counts.
type needled struct {
	heel   int    // stitches when the turn is done
	picked int    // at each side, corner stitches included
	instep int    // with the stitches that are knitted onto the other needles
	first  [3]int // on the needles after picking up
	run    int    // decrease rounds that follow each other at once, then one plain round between
	rounds int    // decrease rounds of the gusset
	last   [3]int // on the needles when it is done
	toe    [3]int // on the needles when the toe begins; one stitch fewer is decreased before it
	plain  []int  // plain rounds after each decrease round of the toe
	counts []int  // after each decrease round
	all    int    // rounds of the toe
	bare   bool   // the decreases have no edge stitches
}

func (n needled) hold(t *testing.T) {
	t.Helper()
	if all := n.heel + 2*n.picked + n.instep; all != sum(n.first[:]...) {
		t.Errorf("%d + 2 × %d + %d are %d stitches, on the needles %v", n.heel, n.picked, n.instep, all, n.first)
	}
	if end := [3]int{n.first[0] - n.rounds, n.first[1], n.first[2] - n.rounds}; end != n.last {
		t.Errorf("%d decrease rounds leave %v on the needles, want %v", n.rounds, end, n.last)
	}
	if len(n.plain) != len(n.counts) || len(n.plain)+sum(n.plain...) != n.all {
		t.Errorf("the toe has %d rounds, want %d", len(n.plain)+sum(n.plain...), n.all)
	}
	n.words().hold(t)
}

func (n needled) words() words {
	var b strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	on := func(n [3]int) string {
		return fmt.Sprintf("%d sts: %d on N1, %d on N2, %d on N3.", sum(n[:]...), n[0], n[1], n[2])
	}
	arrange := func(n [3]int) { line("Arrange the sts: %d on N1, %d on N2, %d on N3.", n[0], n[1], n[2]) }
	line("GUSSET\n\nCO %d sts. Join to work in the round without twisting. The rnd begins at the center of the sole.", sum(n.first[:]...))
	arrange(n.first)
	needles, num := n.first, 0
	for j := range n.rounds {
		if j >= n.run {
			num++
			line("Rnd %d: Knit. %s", num, on(needles))
		}
		num++
		needles[0]--
		needles[2]--
		line("Rnd %d: N1: k to last 3 sts, k2tog, k1; N2: k to end; N3: k1, ssk, k to end. %s", num, on(needles))
	}
	if n.counts == nil {
		return words{b.String(), sum(n.last[:]...)}
	}
	line("\nTOE\n")
	if sum(n.last[:]...) == sum(n.toe[:]...)+1 {
		line("Dec rnd: K2tog, k to end. %d sts.", sum(n.toe[:]...))
	}
	arrange(n.toe)
	needles, num = n.toe, 0
	for j, count := range n.counts {
		num++
		needles = [3]int{needles[0] - 1, needles[1] - 2, needles[2] - 1}
		steps := "N1: k to last 3 sts, k2tog, k1; N2: k1, ssk, k to last 3 sts, k2tog, k1; N3: k1, ssk, k to end."
		if n.bare {
			steps = "N1: k to last 2 sts, k2tog; N2: ssk, k to last 2 sts, k2tog; N3: ssk, k to end."
		}
		line("Rnd %d: %s %s", num, steps, on(needles))
		for range n.plain[j] {
			num++
			line("Rnd %d: Knit. %d sts.", num, count)
		}
	}
	return words{b.String(), n.counts[len(n.counts)-1]}
}

// Published: The Stocking-Knitter's Manual, Johnstone, Hunter: stitches to cast on by age, in
// two yarns. All but one are multiples of the rib that is printed with them.
func TestStockingCastOns(t *testing.T) {
	for _, n := range []int{68, 72, 84, 92, 64, 72} {
		draft, plan := graded(t, wanted{stitches: []int{n}, foot: "14 in", more: fmt.Sprintf("[pin]\n\"cuff.stitches\" = %d\n", n)}.text())
		knitted(t, draft, plan, 0)
	}
	said := refused(t, wanted{stitches: []int{78}, more: "[pin]\n\"cuff.stitches\" = 78\n"}.text())
	if !strings.Contains(said, "the cuff takes whole repeats") {
		t.Errorf("the refusal does not say why: %s", said)
	}
}

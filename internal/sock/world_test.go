package sock_test

import (
	"embed"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"sockwright/internal/design"
	"sockwright/internal/fabric"
	"sockwright/internal/grade"
	"sockwright/internal/knit"
	"sockwright/internal/notation"
	"sockwright/internal/pattern"
	"sockwright/internal/sock"
	"sockwright/internal/source"
)

// These tests hold socks against what the trade and published patterns say. Each check
// names where its numbers come from: "common practice" is a rule of the trade without a
// source, "computed" a table made by working rows on simulated needles.

//go:embed testdata
var tables embed.FS

// table reads a table of testdata: fields by line, without the comments.
func table(t *testing.T, name string) [][]string {
	t.Helper()
	text, err := tables.ReadFile("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	var rows [][]string
	for line := range strings.Lines(string(text)) {
		if !strings.HasPrefix(line, "#") {
			rows = append(rows, strings.Fields(line))
		}
	}
	if len(rows) == 0 {
		t.Fatalf("%s is empty", name)
	}
	return rows
}

func number(t *testing.T, s string) int {
	t.Helper()
	n, err := strconv.Atoi(s)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// A wanted sock at 8 stitches and 11 rounds to the inch, without ease, so that a foot of
// N/8 in has a sock of N stitches.
type wanted struct {
	stitches []int  // by size
	foot     string // its length; "" is 9 1/2 in
	shoes    []string
	more     string // tables of the design file
}

func (w wanted) text() string {
	var b strings.Builder
	b.WriteString("title = \"Slate Quay\"\n[gauge]\nover = \"4 in\"\nstitches = 32\nrows = 44\n[ease]\ngirth = \"0 %\"\nlength = \"0 %\"\n")
	foot := w.foot
	if foot == "" {
		foot = "9.5 in"
	}
	for i, n := range w.stitches {
		fmt.Fprintf(&b, "[[sizes.own]]\nname = \"%d\"\nfoot_girth = \"%g in\"\nfoot_length = %q\n", i+1, float64(n)/8, foot)
		if i < len(w.shoes) && w.shoes[i] != "" {
			fmt.Fprintf(&b, "shoe = %q\n", w.shoes[i])
		}
	}
	return b.String() + w.more
}

// graded is the plan of a design that must have one.
func graded(t *testing.T, text string) (*sock.Draft, *grade.Plan) {
	t.Helper()
	f := source.NewFile("slate-quay.toml", text)
	d, faults := design.Read(f)
	if d == nil {
		t.Fatalf("%v\n%s", faults, text)
	}
	draft, more := sock.New(d)
	if draft == nil {
		t.Fatalf("%v\n%s", append(faults, more...), text)
	}
	plan, more := draft.Grade()
	if plan == nil {
		t.Fatalf("%v\n%s", append(faults, more...), text)
	}
	return draft, plan
}

// numbers compares numbers of the plan in a size.
func numbers(t *testing.T, plan *grade.Plan, size int, want map[string]int) {
	t.Helper()
	for key, n := range want {
		if got := plan.Of(key, size); got != n {
			t.Errorf("size %d: %s is %d, want %d", size, key, got, n)
		}
	}
}

func also(plan *grade.Plan, key string, size int) []int {
	for _, n := range plan.Numbers() {
		if n.Key == key && n.Size == size {
			return n.Also
		}
	}
	return nil
}

// A cloth is what knitting the built pattern of one size gave.
type cloth struct {
	*knit.Result
	p *pattern.Pattern
}

func knitted(t *testing.T, draft *sock.Draft, plan *grade.Plan, size int) cloth {
	t.Helper()
	p := draft.Build(plan)
	return knittedAs(t, p, size, p.Socks()[0])
}

// knittedAs knits one sock of a pair.
func knittedAs(t *testing.T, p *pattern.Pattern, size int, sock pattern.Sock) cloth {
	t.Helper()
	res := (&knit.Knitter{Sock: sock}).Knit(p, size)
	for _, f := range res.Faults {
		t.Errorf("size %d: %s", size, f.Text)
	}
	if err := res.Fabric.CheckFinished(); err != nil {
		t.Errorf("size %d: %v", size, err)
	}
	if t.Failed() {
		t.FailNow()
	}
	return cloth{res, p}
}

// A course is a row or round of the cloth: the loops that were made in it, in order.
type course struct {
	wrong bool
	first int32
	kinds []fabric.Kind
}

// at is the place of the n-th loop of a kind, from 0; -1 if there is none.
func (c course) at(kind fabric.Kind, n int) int {
	for i, k := range c.kinds {
		if k == kind {
			if n == 0 {
				return i
			}
			n--
		}
	}
	return -1
}

// courses are the rows (or the rounds) that a section of the pattern made, without partial
// ones, the cast-on and the closing.
func (c cloth) courses(section string, rounds bool) []course {
	nodes := map[int32]bool{}
	c.p.Each(func(s *pattern.Section, n pattern.Node) {
		worked := false
		switch n := n.(type) {
		case *pattern.Row:
			worked = n.Label.Name != pattern.Partial
		case *pattern.Again, *pattern.Plain:
			worked = true
		}
		if s.Title == section && worked {
			nodes[int32(pattern.ID(n))] = true
		}
	})
	var out []course
	for i, r := range c.Fabric.Rows {
		if !nodes[r.Node] || r.Round != rounds {
			continue
		}
		end := int32(len(c.Fabric.Loops))
		if i+1 < len(c.Fabric.Rows) {
			end = c.Fabric.Rows[i+1].First
		}
		x := course{wrong: r.Wrong, first: r.First}
		for _, l := range c.Fabric.Loops[r.First:end] {
			x.kinds = append(x.kinds, l.Kind)
		}
		out = append(out, x)
	}
	return out
}

// A part of the heel is what lies right of the band, in it and left of it, after a row.
type part struct{ right, band, left int }

// bandRows reads the rows of the band off the cloth. In a row on the right side the loops
// up to the decrease, and the slipped one before them, are the right side and the band; the
// decrease and what follows are the left side. On the wrong side it is the other way about.
func bandRows(t *testing.T, c cloth) []part {
	t.Helper()
	rows := c.courses("Band", false)
	if len(rows)%2 != 0 {
		t.Fatalf("the band has %d rows", len(rows))
	}
	var out []part
	for i := 0; i < len(rows); i += 2 {
		rs, ws := rows[i], rows[i+1]
		ssk, p2tog := rs.at(fabric.Ssk, 0), ws.at(fabric.P2tog, 0)
		if rs.wrong || !ws.wrong || ssk < 0 || p2tog < 0 || rs.at(fabric.Ssk, 1) >= 0 || ws.at(fabric.P2tog, 1) >= 0 {
			t.Fatalf("rows %d and %d have not one decrease each, ssk on the right side and p2tog on the wrong side", i+1, i+2)
		}
		left := len(rs.kinds) - ssk
		band := 1 + p2tog - left
		out = append(out, part{1 + ssk - band, band, left}, part{len(ws.kinds) - p2tog, band, left})
	}
	return out
}

// unbroken checks that every stitch of the band stands on a stitch of the band.
func unbroken(t *testing.T, c cloth, parts []part) {
	t.Helper()
	rows := c.courses("Band", false)
	var below []int32 // the band's loops of the row before, from the right
	for i, row := range rows {
		p := parts[i]
		start := p.right
		if row.wrong {
			start = p.left
		}
		var band []int32
		for j := range p.band {
			band = append(band, row.first+int32(start+j-1)) // the first st of the row was slipped
		}
		if row.wrong {
			slices.Reverse(band)
		}
		for j, loop := range band {
			if through := c.Fabric.Through(loop); below != nil && !slices.Equal(through, below[j:j+1]) {
				t.Errorf("row %d: stitch %d of the band is worked through %v, not through %d below it", i+1, j+1, through, below[j])
			}
		}
		below = band
	}
}

// Common practice: a sock of 64 stitches at 8 to the inch.
func TestSixtyFour(t *testing.T) {
	draft, plan := graded(t, wanted{stitches: []int{64}}.text())
	numbers(t, plan, 0, map[string]int{
		"cuff.stitches": 64, "leg.stitches": 64, "heel.stitches": 32, "heel.flap_rows": 16,
		"heel.side_stitches": 11, "heel.band_stitches": 10, "heel.band_rows": 20, "heel.stitches_left": 12,
		"heel.edge_chains": 18, "gusset.corner_stitches": 1, "gusset.pick_up_per_side": 19,
		"gusset.stitches": 82, "gusset.decrease_rounds": 9, "foot.stitches": 64,
		"toe.stitches_left": 16, "toe.rounds": 20,
	})
	if got := also(plan, "heel.flap_rows", 0); len(got) != 0 {
		t.Errorf("16 rows are half of 32 exactly, but %v are called as near", got)
	}
	c := knitted(t, draft, plan, 0)
	pickUp := c.courses("Gusset", true)[0]
	if n1, rest := pickUp.at(fabric.CornerLoop, 0)+1, len(pickUp.kinds)-pickUp.at(fabric.CornerLoop, 1); n1 != 25 || rest != 25 || len(pickUp.kinds) != 82 {
		t.Errorf("after picking up, %d stitches lie before the instep and %d behind it, of %d: want 25, 25 of 82", n1, rest, len(pickUp.kinds))
	}
	if edge := slices.DeleteFunc(slices.Clone(pickUp.kinds), func(k fabric.Kind) bool { return k != fabric.EdgeLoop }); len(edge) != 36 {
		t.Errorf("%d stitches are picked up from chains, want twice 18", len(edge))
	}
}

// Common practice: the straight flap has half as many rows as there are heel stitches,
// taken to an even number, and ties go down.
func TestFlapRows(t *testing.T) {
	_, plan := graded(t, wanted{stitches: []int{56, 60, 64, 68, 72}}.text())
	for size, want := range []struct {
		heel, rows int
		also       []int
	}{{28, 14, nil}, {30, 14, []int{16}}, {32, 16, nil}, {34, 16, []int{18}}, {36, 18, nil}} {
		numbers(t, plan, size, map[string]int{"heel.stitches": want.heel, "heel.flap_rows": want.rows})
		if got := also(plan, "heel.flap_rows", size); !slices.Equal(got, want.also) {
			t.Errorf("%d heel stitches: %v rows are as near as %d, want %v", want.heel, got, want.rows, want.also)
		}
	}
}

// Computed: the band heel row by row, right + band + left. With 30 stitches the flap is
// pinned to the other of the two choices.
func TestBandRowByRow(t *testing.T) {
	for _, x := range []struct {
		heel  int
		pin   string
		after map[string]int
	}{
		{32, "", map[string]int{"heel.edge_chains": 18, "gusset.pick_up_per_side": 19, "gusset.stitches": 82, "gusset.decrease_rounds": 9}},
		{30, "[pin]\n\"heel.flap_rows\" = 16\n", map[string]int{"heel.edge_chains": 17, "gusset.pick_up_per_side": 18, "gusset.stitches": 78, "gusset.decrease_rounds": 9}},
	} {
		t.Run(fmt.Sprint(x.heel), func(t *testing.T) {
			draft, plan := graded(t, wanted{stitches: []int{2 * x.heel}, more: x.pin}.text())
			numbers(t, plan, 0, map[string]int{"heel.stitches": x.heel, "heel.flap_rows": 16, "heel.band_stitches": 10})
			numbers(t, plan, 0, x.after)
			c := knitted(t, draft, plan, 0)
			if flap := c.courses("Heel flap", false); len(flap) != 16+2 { // with the set-up rows
				t.Errorf("the flap has %d rows, want 16 and two set-up rows", len(flap))
			}
			want := table(t, fmt.Sprintf("band-heel-%d.txt", x.heel))
			got := bandRows(t, c)
			if len(got) != len(want) || len(got) != plan.Of("heel.band_rows", 0) {
				t.Fatalf("the band has %d rows, the plan says %d, the table %d", len(got), plan.Of("heel.band_rows", 0), len(want))
			}
			for i, row := range want {
				w := part{number(t, row[2]), number(t, row[3]), number(t, row[4])}
				if live := got[i].right + got[i].band + got[i].left; got[i] != w || live != number(t, row[5]) {
					t.Errorf("row %s: %v, %d live, want %v, %s live", row[0], got[i], live, w, row[5])
				}
				if wrong := c.courses("Band", false)[i].wrong; wrong != (row[1] == "WS") {
					t.Errorf("row %s is worked on the other side than %s", row[0], row[1])
				}
			}
			unbroken(t, c, got)
			c.counts(t, "Band", want)
		})
	}
}

// counts holds what the lines of a section are known to leave, after their first time and
// their last, against a table whose last column is all live stitches of the part.
func (c cloth) counts(t *testing.T, section string, want [][]string) {
	t.Helper()
	nodes := map[pattern.NodeID]bool{}
	c.p.Each(func(s *pattern.Section, n pattern.Node) {
		if _, ok := n.(*pattern.Row); ok && s.Title == section {
			nodes[pattern.ID(n)] = true
		}
	})
	var live []string
	for _, row := range want {
		live = append(live, row[len(row)-1])
	}
	lines := 0
	for _, x := range c.Counts {
		if nodes[x.Node] {
			lines++
			for _, n := range []int{x.First.Worked, x.Last.Worked} {
				if !slices.Contains(live, fmt.Sprint(n)) {
					t.Errorf("%s of section %s leaves %d stitches, which the table has nowhere: %v", x.Label, section, n, live)
				}
			}
		}
	}
	if lines == 0 {
		t.Errorf("section %s has no counts", section)
	}
}

// Computed: the band heel in formulas, which all heels are compared by. With c stitches of
// the band and s at each side of it, c + 2 are left after H − c − 2 rows, and R/2 + s − 1
// chains stand along each edge; the gusset then has R/2 decrease rounds and one more for
// each stitch picked up in a corner.
func TestBandHeelFormulas(t *testing.T) {
	var rounds []int
	for n := 32; n <= 96; n += 4 {
		rounds = append(rounds, n)
	}
	for corner := range 3 {
		_, plan := graded(t, wanted{stitches: rounds, foot: "12 in", more: fmt.Sprintf("[gusset]\ncorner_stitches = %d\n", corner)}.text())
		for size := range rounds {
			of := func(key string) int { return plan.Of(key, size) }
			h, r, c, s := of("heel.stitches"), of("heel.flap_rows"), of("heel.band_stitches"), of("heel.side_stitches")
			if c%2 != h%2 || s != (h-c)/2 || s < 2 || r%2 != 0 {
				t.Errorf("H %d, R %d, c %d, s %d: c must be odd or even as H is, s (H − c)/2 and at least 2, R even", h, r, c, s)
			}
			numbers(t, plan, size, map[string]int{
				"heel.stitches_left": c + 2, "heel.band_rows": h - c - 2, "heel.edge_chains": r/2 + s - 1,
				"gusset.pick_up_per_side": r/2 + s - 1 + corner, "gusset.decrease_rounds": r/2 + corner,
			})
		}
	}
}

// Computed: of the rows of flap and band, H stand upright as an ordinary flap would; the
// rest lies under the foot: 0, 4, 6, 8 rows for 24, 32, 36, 40 stitches and a band of 10.
func TestHeelUnderFoot(t *testing.T) {
	_, plan := graded(t, wanted{stitches: []int{48, 64, 72, 80}}.text())
	for size, want := range []int{0, 4, 6, 8} {
		numbers(t, plan, size, map[string]int{"heel.band_stitches": 10, "heel.sole_rounds": want})
	}
}

// Common practice: every decrease round of the gusset takes two stitches, so round j
// leaves T − 2j, all of them from the sole; one plain round lies between, and the picked-up
// stitches have a plain round before the first.
func TestGussetRoundByRound(t *testing.T) {
	sizes := []int{48, 60, 64, 68}
	draft, plan := graded(t, wanted{stitches: sizes}.text())
	for size, n := range sizes {
		c := knitted(t, draft, plan, size)
		rounds := c.courses("Gusset", true)
		all, instep := plan.Of("gusset.stitches", size), n-plan.Of("heel.stitches", size)
		if want := 2*plan.Of("gusset.decrease_rounds", size) + 1; len(rounds) != want {
			t.Errorf("%d stitches: the gusset has %d rounds, want %d", n, len(rounds), want)
		}
		n1 := rounds[0].at(fabric.CornerLoop, 0) + 1
		done := 0
		for i, r := range rounds {
			k2tog, ssk := r.at(fabric.K2tog, 0), r.at(fabric.Ssk, 0)
			switch {
			case i < 2 || i%2 == 1:
				if k2tog >= 0 || ssk >= 0 {
					t.Errorf("%d stitches: round %d decreases", n, i+1)
				}
			default:
				done++
				if k2tog != n1-3 || ssk != n1-1+instep+1 {
					t.Errorf("%d stitches, round %d: the decreases are loops %d and %d, want %d and %d, one stitch off the instep", n, i+1, k2tog, ssk, n1-3, n1+instep)
				}
				n1--
			}
			if len(r.kinds) != all-2*done || len(r.kinds)-n1-instep != n1 {
				t.Errorf("%d stitches, round %d: %d, %d and %d of %d stitches, want %d in all and as many before the instep as behind it", n, i+1, n1, instep, len(r.kinds)-n1-instep, len(r.kinds), all-2*done)
			}
		}
		if last := rounds[len(rounds)-1]; len(last.kinds) != n {
			t.Errorf("the gusset of %d stitches leaves %d", n, len(last.kinds))
		}
	}
}

// toeRounds reads instep, sole and all after each round of the toe off the cloth. The round
// begins at the center of the sole: k2tog before the instep, ssk after it.
func toeRounds(t *testing.T, c cloth) (out [][3]int) {
	t.Helper()
	instep := 0
	for i, r := range c.courses("Toe", true) {
		all := len(r.kinds)
		if before, after := r.at(fabric.K2tog, 0), r.at(fabric.K2tog, 1); before >= 0 {
			instep = after - before // the k2tog at its end, and the k1 behind each
			if first, second := r.at(fabric.Ssk, 0), r.at(fabric.Ssk, 1); first != before+3 || second != after+3 || r.at(fabric.K2tog, 2) >= 0 || r.at(fabric.Ssk, 2) >= 0 {
				t.Errorf("toe, round %d: k2tog %d and %d, ssk %d and %d: two stitches must stand between them at each side", i+1, before, after, first, second)
			}
		}
		out = append(out, [3]int{instep, all - instep, all})
	}
	return out
}

// Computed: wedge toes round by round.
func TestToeRoundByRound(t *testing.T) {
	for _, n := range []int{60, 64} {
		for _, rate := range []string{"half-then-each", "graduated"} {
			draft, plan := graded(t, wanted{stitches: []int{n}, more: "[toe]\nrate = \"" + rate + "\"\n"}.text())
			want := table(t, fmt.Sprintf("toe-%d-%s.txt", n, rate))
			got := toeRounds(t, knitted(t, draft, plan, 0))
			if len(got) != len(want) || plan.Of("toe.rounds", 0) != len(want) {
				t.Errorf("%d stitches, %s: %d rounds are knitted and %d planned, want %d", n, rate, len(got), plan.Of("toe.rounds", 0), len(want))
				continue
			}
			for i, row := range want {
				if w := [3]int{number(t, row[2]), number(t, row[3]), number(t, row[4])}; got[i] != w {
					t.Errorf("%d stitches, %s, round %s: instep, sole, all are %v, want %v", n, rate, row[0], got[i], w)
				}
			}
		}
	}
}

// Computed: what toes leave and how many rounds they take. Ours are grafted straight after
// the last decrease round, so there is no plain round behind it: one less than in the table
// at the rate "every-2nd", and at "graduated" where the sixth decrease round is the last.
func TestToes(t *testing.T) {
	want := table(t, "toes.txt")
	var rounds []int
	for _, row := range want {
		rounds = append(rounds, number(t, row[0]))
	}
	for column, rate := range []string{"every-2nd", "half-then-each", "graduated"} {
		draft, plan := graded(t, wanted{stitches: rounds, foot: "12 in", more: "[toe]\nrate = \"" + rate + "\"\n"}.text())
		for size, row := range want {
			n, left, d, all := rounds[size], number(t, row[1]), number(t, row[2]), number(t, row[3+column])
			if rate == "every-2nd" || rate == "graduated" && d <= 6 {
				all--
			}
			numbers(t, plan, size, map[string]int{"foot.stitches": n, "toe.stitches_left": left, "toe.rounds": all})
			got := toeRounds(t, knitted(t, draft, plan, size))
			if len(got) != all || got[all-1][2] != left || n-4*d != left {
				t.Errorf("%s: a toe of %d stitches ends after %d rounds with %d, want %d with %d", rate, n, len(got), got[len(got)-1][2], all, left)
			}
		}
	}
}

// Common practice: the width of the band goes by the shoe where one is told, else by the
// foot. Women's US sizes up to 6 have 1 in, women's 7 to 12 and men's 5 to 10 1 1/4 in,
// men's 13 and up 1 1/2 in.
func TestShoeDecidesBand(t *testing.T) {
	for _, x := range []struct {
		shoe   string
		inches float64
		band   int // at 8 to the inch, even as the 32 heel stitches are
	}{
		{"", 1.25, 10},
		{"US W 5", 1, 8},
		{"US W 6", 1, 8},
		{"US W 7", 1.25, 10},
		{"US W 12", 1.25, 10},
		{"US M 5", 1.25, 10},
		{"US M 10", 1.25, 10},
		{"US M 13", 1.5, 12},
		{"US M 15", 1.5, 12},
	} {
		draft, plan := graded(t, wanted{stitches: []int{64}, shoes: []string{x.shoe}}.text())
		numbers(t, plan, 0, map[string]int{"heel.stitches": 32, "heel.band_stitches": x.band, "heel.side_stitches": (32 - x.band) / 2})
		for _, m := range draft.Measures(plan) {
			if m.Key == "heel.band_width" && math.Abs(m.Asked.In()-x.inches) > 1e-9 {
				t.Errorf("shoe %q: a band of %v in is asked for, want %v", x.shoe, m.Asked.In(), x.inches)
			}
		}
	}
	t.Run("by size", func(t *testing.T) {
		_, plan := graded(t, wanted{stitches: []int{64, 64, 64}, shoes: []string{"US W 5", "", "US M 13"}}.text())
		if got, want := plan.Each("heel.band_stitches"), []int{8, 10, 12}; !slices.Equal(got, want) {
			t.Errorf("three sizes with one foot and different shoes have bands of %v, want %v", got, want)
		}
	})
}

// Computed: the gussets of a round turn, knitted from words, needle by needle.
func TestGussetTables(t *testing.T) {
	for _, all := range []int{84, 80} {
		rows := table(t, fmt.Sprintf("gusset-%d.txt", all))
		var b strings.Builder
		fmt.Fprintf(&b, "GABLE END\n\nGUSSET\n\nCO %d sts. Join to work in the round without twisting. The rnd begins at the center of the sole.\n", all)
		for j, row := range rows {
			n1, n2, n3 := number(t, row[2]), number(t, row[3]), number(t, row[4])
			state := fmt.Sprintf("%s sts: %d on N1, %d on N2, %d on N3.", row[5], n1, n2, n3)
			switch row[1] {
			case "pick-up":
				fmt.Fprintf(&b, "Arrange the sts: %d on N1, %d on N2, %d on N3.\n", n1, n2, n3)
			case "plain":
				fmt.Fprintf(&b, "Rnd %s: Knit. %s\n", row[0], state)
			default:
				fmt.Fprintf(&b, "Rnd %s: N1: k to last 3 sts, k2tog, k1; N2: k to end; N3: k1, ssk, k to end. %s\n", row[0], state)
			}
			if number(t, row[5]) != all-j/2*2 { // T − 2j after j decrease rounds
				t.Errorf("round %s of the table leaves %s, want %d", row[0], row[5], all-j/2*2)
			}
		}
		f := source.NewFile("gable-end.txt", b.String())
		read := notation.Read(f)
		res := new(knit.Knitter).Knit(read.Pattern, 0)
		for _, fault := range append(read.Faults, res.Faults...) {
			t.Errorf("%s: %s", f.Slice(fault.At), fault.Text)
		}
		var got, want []int
		for _, c := range res.Counts {
			if strings.HasPrefix(c.Label, "Rnd") {
				got = append(got, c.Last.Total)
			}
		}
		for _, row := range rows[1:] {
			want = append(want, number(t, row[5]))
		}
		if !slices.Equal(got, want) {
			t.Errorf("the rounds leave %v, want %v", got, want)
		}
	}
}

// Computed: stitches added or taken in one round, spread evenly: 68 in groups of 17 that lose one
// each, 44 in groups of 22 that gain one, 68 in groups of 9 and of 8, the larger first.
func TestChangedInOneRound(t *testing.T) {
	for _, x := range []struct {
		cuff, leg int
		round     string
	}{
		{68, 64, "Dec rnd: [K15, k2tog] 4 times. 64 sts."},
		{44, 46, "Inc rnd: [K22, M1L] 2 times. 46 sts."},
		{60, 64, "Inc rnd: [K15, M1L] 4 times. 64 sts."},
		{68, 60, "Dec rnd: [K7, k2tog] 4 times, [k6, k2tog] 4 times. 60 sts."},
	} {
		draft, plan := graded(t, wanted{stitches: []int{x.leg}, more: fmt.Sprintf("[pin]\n\"leg.stitches\" = %d\n\"cuff.stitches\" = %d\n", x.leg, x.cuff)}.text())
		c := knitted(t, draft, plan, 0)
		if text := notation.Write(c.p).Text; !strings.Contains(text, x.round) {
			t.Errorf("%d to %d stitches: want %q in\n%s", x.cuff, x.leg, x.round, text)
		}
	}
}

package publish_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"sockwright/internal/design"
	"sockwright/internal/designtest"
	"sockwright/internal/fabric"
	"sockwright/internal/knit"
	"sockwright/internal/pattern"
	"sockwright/internal/publish"
	"sockwright/internal/sock"
)

// A laid is the cloth of a sock in one size, with what is known of its lines.
type laid struct {
	book    *publish.Book
	size    int
	cloth   *fabric.Fabric
	section map[int32]string // by the line of the pattern
}

func layOut(book *publish.Book, size int) laid {
	s := laid{book: book, size: size, cloth: book.Proof.Sizes[size].Again.Fabric, section: map[int32]string{}}
	book.Proof.Read.Pattern.Each(func(in *pattern.Section, n pattern.Node) { s.section[int32(pattern.ID(n))] = in.Title })
	return s
}

func (s laid) of(key string) int { return s.book.Plan.Of(key, s.size) }

// end is the loop behind the last one of a row.
func (s laid) end(row int) int32 {
	if row+1 < len(s.cloth.Rows) {
		return s.cloth.Rows[row+1].First
	}
	return int32(len(s.cloth.Loops))
}

// instep lists the loops in the middle of the instep: one of the leg, what it stands on and
// what stands on it. It is nil for a leg that has no round of its own.
func (s laid) instep() []int32 {
	all, heel := s.of("leg.stitches"), s.of("heel.stitches")
	middle := heel + (all-heel)/2 // where the rounds begin before the heel
	if s.book.Draft.Direction == design.CuffDown && s.book.Draft.Method == design.DoublePointed {
		middle = all / 2
	}
	found := false
	for row, r := range s.cloth.Rows {
		if !found && s.section[r.Node] == "LEG" && r.Round && int(s.end(row)-r.First) == all {
			middle, found = middle+int(r.First), true
		}
	}
	if !found {
		return nil
	}
	on := make([]int32, len(s.cloth.Loops))
	for i := range s.cloth.Loops {
		for _, below := range s.cloth.Through(int32(i)) {
			on[below] = int32(i)
		}
	}
	line := []int32{int32(middle)}
	for at := int32(middle); ; {
		below := s.cloth.Through(at)
		if len(below) == 0 {
			break
		}
		at = below[0]
		line = append(line, at)
	}
	for at := on[middle]; at > 0; at = on[at] {
		line = append(line, at)
	}
	return line
}

// A way leads from a loop to another over so many mm of cloth, and back.
type way struct {
	a, b int32
	mm   float64
}

// far is how far every loop lies from the nearest of some, by the shortest way. The ways lie
// in knitting order, so going over them to and fro soon changes nothing.
func far(loops int, from []int32, ways []way) []float64 {
	out := make([]float64, loops)
	for i := range out {
		out[i] = math.Inf(1)
	}
	for _, l := range from {
		out[l] = 0
	}
	for changed := true; changed; slices.Reverse(ways) {
		changed = false
		for _, w := range ways {
			if mm := out[w.a] + w.mm; mm < out[w.b] {
				out[w.b], changed = mm, true
			} else if mm := out[w.b] + w.mm; mm < out[w.a] {
				out[w.a], changed = mm, true
			}
		}
	}
	return out
}

// under is what a loop was pulled through, but for waste yarn that has been taken out.
func (s laid) under(loop int32) []int32 {
	if s.cloth.Loops[loop].Kind == fabric.Provisional {
		return nil
	}
	return s.cloth.Through(loop)
}

// besides tells whether one loop of a lies beside one of b, in the row that made both, or in
// the one below where one of them was slipped.
func (s laid) besides(a, b []int32) bool {
	near := func(a, b []int32) bool {
		return slices.ContainsFunc(a, func(x int32) bool { return slices.Contains(b, x-1) || slices.Contains(b, x) || slices.Contains(b, x+1) })
	}
	lower := func(list []int32) (out []int32) {
		for _, x := range list {
			out = append(out, s.under(x)...)
		}
		return out
	}
	return near(a, b) || near(lower(a), b) || near(a, lower(b))
}

// heelGirth is how far it is round the heel and over the instep, in mm of cloth that is not
// stretched: of all places at the heel the one that lies farthest from the middle of the
// instep, there and back on the other side. The way goes from loop to loop, along rows, up and
// down and aslant, so it is at most a twelfth longer than one that need not.
func (s laid) heelGirth() float64 {
	from := s.instep()
	if from == nil {
		return math.NaN()
	}
	g := s.book.Draft.Gauge[""]
	w, h := g.Width(1).MM(), g.Height(1).MM()
	var ways []way
	join := func(a, b int32, mm float64) { ways = append(ways, way{a, b, mm}) }
	rowOf := make([]int, len(s.cloth.Loops))
	for row, r := range s.cloth.Rows {
		for i := r.First; i < s.end(row); i++ {
			rowOf[i] = row
		}
	}
	atTurn := func(loop int32) bool {
		return slices.Contains([]fabric.Kind{fabric.Wrap, fabric.TwinLoop}, s.cloth.Loops[loop].Kind)
	}
	for i := range int32(len(s.cloth.Loops)) {
		below := s.under(i)
		for _, b := range below {
			join(i, b, h*float64(1+s.cloth.Loops[b].Tall))
		}
		if i == 0 || atTurn(i) || atTurn(i-1) {
			continue
		}
		before := s.under(i - 1)
		round, same := s.cloth.Rows[rowOf[i]].Round, rowOf[i] == rowOf[i-1]
		if round && same || (round || same) && s.besides(before, below) { // a round goes on from the one before it
			join(i-1, i, w)
			if len(below) > 0 && len(before) > 0 {
				join(i-1, below[0], math.Hypot(w, h*float64(1+s.cloth.Loops[below[0]].Tall)))
				join(i, before[0], math.Hypot(w, h*float64(1+s.cloth.Loops[before[0]].Tall)))
			}
		}
	}
	away := far(len(s.cloth.Loops), from, ways)
	most := 0.0
	for row, r := range s.cloth.Rows {
		if title := strings.ToLower(s.section[r.Node]); strings.Contains(title, "heel") || strings.Contains(title, "band") {
			for i := r.First; i < s.end(row); i++ {
				if !math.IsInf(away[i], 1) {
					most = max(most, away[i])
				}
			}
		}
	}
	return 2 * most
}

// Girth round heel and instep to that of the ball: the mean of the survey of adults (package
// feet). Plain knitting comfortably stretches by 25 to 40 % across (from memory).
const (
	heelPerBall  = 1.36
	plainStretch = 0.40
)

// TestHeelGoesRound: every heel as it is usually made, at a gauge as stockinette usually has
// it and in a sock a tenth narrower than the foot, comes round heel and instep of a foot
// without being stretched more than plain knitting likes to be. Only a boomerang heel has no
// more than the leg: the rounds between its halves run straight over it.
func TestHeelGoesRound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		direction := rapid.SampledFrom([]string{design.CuffDown, design.ToeUp}).Draw(t, "direction")
		var heels []string
		for _, p := range sock.Parts() {
			if p.Part == "heel" && slices.Contains(p.Directions, direction) {
				heels = append(heels, p.Kind)
			}
		}
		perInch := rapid.Float64Range(5, 12).Draw(t, "sts per inch")
		shape := rapid.Float64Range(1.3, 1.45).Draw(t, "rows per stitch")
		length := rapid.Float64Range(150, 300).Draw(t, "foot length")
		girth := length * rapid.Float64Range(0.88, 1).Draw(t, "girth per length")
		method := rapid.SampledFrom([]string{"double-pointed", "magic-loop"}).Draw(t, "method")
		heel := rapid.SampledFrom(heels).Draw(t, "heel")
		text := fmt.Sprintf("title = \"Low Tide\"\ndirection = %q\n[gauge]\nover = \"4 in\"\nstitches = %g\nrows = %g\n[needles]\nmethod = %q\n[[sizes.own]]\nname = \"One\"\nfoot_girth = \"%.1f mm\"\nfoot_length = \"%.1f mm\"\n[heel]\nkind = %q\n",
			direction, 4*perInch, 4*perInch*shape, method, girth, length, heel)
		if heel == "inserted" { // the shallowest: over half of the stitches it is for low insteps
			text += "share = 0.6\n"
		}
		book := make1(t, text)
		if book == nil {
			return
		}
		have, need := layOut(book, 0).heelGirth(), heelPerBall*book.Draft.Sizes[0].Girth.MM()
		least := need / (1 + plainStretch)
		if heel == "boomerang" {
			least = 0.99 * book.Draft.Gauge[""].Width(book.Plan.Of("leg.stitches", 0)).MM()
		}
		if !(have >= least) {
			t.Fatalf("round heel and instep the sock has %.0f mm for %.0f, which is a stretch of %.0f %%", have, need, 100*(need/have-1))
		}
	})
}

// soleRounds is how many rounds lie over each other along the sole: in a sock from the cuff
// down on the rows of the heel up to the tip of the toe, in one from the toe up from the
// cast-on to the heel.
func (s laid) soleRounds() int {
	toeUp := s.book.Draft.Direction == design.ToeUp
	over := make([]int, len(s.cloth.Loops)) // rounds, counted from 1; 0 where a loop does not stand on them
	most := 0
	for row, r := range s.cloth.Rows {
		in := s.section[r.Node]
		heel := strings.HasPrefix(in, "HEEL") || in == "BAND" || !r.Round && strings.Contains(in, "HEEL")
		if toeUp && !r.Round { // the heel begins
			return most
		}
		for i := r.First; i < s.end(row); i++ {
			if heel && !toeUp || toeUp && row == 0 {
				over[i] = 1
				continue
			}
			for _, below := range s.under(i) {
				if over[below] > 0 {
					over[i] = max(over[i], over[below]+1)
				}
			}
			if s.cloth.Loops[i].Kind < fabric.Grafted {
				most = max(most, over[i]-1)
			}
		}
	}
	return most
}

// toeRounds is how many rounds the toe has, partial ones not counted.
func (s laid) toeRounds() (rounds int) {
	whole := map[int32]bool{}
	s.book.Proof.Read.Pattern.Each(func(_ *pattern.Section, n pattern.Node) {
		r, labelled := n.(*pattern.Row)
		whole[int32(pattern.ID(n))] = !labelled || r.Label.Name != pattern.Partial
	})
	for row, r := range s.cloth.Rows {
		if strings.HasPrefix(s.section[r.Node], "TOE") && r.Round && whole[r.Node] && s.end(row) > r.First && s.cloth.Loops[r.First].Kind < fabric.Grafted {
			rounds++
		}
	}
	return rounds
}

// TestFootIsAsLongAsAsked: the rounds that lie over each other in the cloth of a sole are those
// planned, or one more where a partial row brings the yarn to the beginning of the round; with
// what the heel adds they are within a round of the length asked for, and so are those of the
// toe of what is said to be left for it. A heel put in last and a toe of short rows have no
// such rounds.
func TestFootIsAsLongAsAsked(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		book := make1(t, designtest.Draw(t, func(_ string, p sock.Part) bool { return p.Kind != "inserted" && p.Kind != "short-row" }))
		if book == nil {
			return
		}
		round := book.Draft.Gauge[""].Height(1)
		for size := range book.Proof.Sizes {
			s := layOut(book, size)
			planned := s.of("foot.rounds") + s.of("toe.rounds")
			if more := s.soleRounds() - planned; more < 0 || more > 1 {
				t.Fatalf("size %d: %d rounds of the sole are knitted, %d planned", size, planned+more, planned)
			}
			if more := s.toeRounds() - s.of("toe.rounds"); more < -1 || more > 1 {
				t.Fatalf("size %d: %d rounds of the toe are knitted, %d planned", size, s.toeRounds(), s.of("toe.rounds"))
			}
			finished := map[string]float64{}
			for _, m := range book.Draft.Measures(book.Plan) {
				if m.Size == size {
					finished[m.Key] = m.Value.MM() / round.MM()
				}
			}
			asked := book.Draft.Length.Apply(book.Draft.Sizes[size].Length).MM() / round.MM()
			tip := finished["foot.length"] - finished["foot.to_toe"] - float64(s.of("toe.rounds"))
			if long := float64(planned+s.of("heel.sole_rounds")) + tip; tip < -1e-9 || tip > 1+1e-9 || math.Abs(long-asked) > 1 {
				t.Fatalf("size %d: the foot has %.2f rounds for %.2f, %.2f of them at the tip", size, long, asked, tip)
			}
		}
	})
}

// TestSideOfPair: of a pair whose socks differ, each row of the left one is worked as the
// right one's, or is its mirror image, and there are as many rows.
func TestSideOfPair(t *testing.T) {
	differ := 0
	rapid.Check(t, func(t *rapid.T) {
		book := make1(t, designtest.Draw(t))
		if book == nil {
			return
		}
		socks := book.Proof.Read.Pattern.Socks()
		if len(socks) < 2 {
			return
		}
		for size := range book.Proof.Sizes {
			right := (&knit.Knitter{Sock: socks[0]}).Knit(book.Proof.Read.Pattern, size).Fabric
			left := (&knit.Knitter{Sock: socks[1]}).Knit(book.Proof.Read.Pattern, size).Fabric
			if len(right.Rows) != len(left.Rows) || len(right.Loops) != len(left.Loops) {
				t.Fatalf("size %d: the socks have %d and %d rows, %d and %d loops", size, len(right.Rows), len(left.Rows), len(right.Loops), len(left.Loops))
			}
			for row := range right.Rows {
				a, b := kindsOf(right, row), kindsOf(left, row)
				if slices.Equal(a, b) {
					continue
				}
				differ++
				if !turnedTo(a, mirrored(b)) {
					t.Fatalf("size %d, row %d: the left sock's is neither the right one's nor its mirror image:\n%v\n%v", size, row, a, b)
				}
			}
		}
	})
	t.Logf("%d rows of left socks mirror those of right ones", differ)
	if differ == 0 {
		t.Error("no pair whose socks differ was drawn")
	}
}

// TestAlikeSocksAreSymmetrical: where left and right sock are the same, every round of a gusset
// and of a toe that leans is its own mirror image, begun elsewhere. Round toes lean all one way,
// and say that they wind.
func TestAlikeSocksAreSymmetrical(t *testing.T) {
	wind := []string{"round", "star", "spiral"}
	leaning := 0
	rapid.Check(t, func(t *rapid.T) {
		book := make1(t, designtest.Draw(t, func(_ string, p sock.Part) bool {
			return !p.Sided && !(p.Part == "toe" && slices.Contains(wind, p.Kind))
		}))
		if book == nil || len(book.Proof.Read.Pattern.Socks()) > 1 {
			return
		}
		for size := range book.Proof.Sizes {
			s := layOut(book, size)
			for row, r := range s.cloth.Rows {
				kinds := kindsOf(s.cloth, row)
				leans := slices.ContainsFunc(kinds, func(k fabric.Kind) bool { return other[k] != 0 })
				if in := s.section[r.Node]; !r.Round || !leans || !strings.Contains(in, "GUSSET") && !strings.HasPrefix(in, "TOE") && !strings.HasPrefix(in, "CORNERS") {
					continue
				}
				leaning++
				if !turnedTo(kinds, mirrored(kinds)) {
					t.Fatalf("size %d, section %s: a round is not its own mirror image: %v", size, s.section[r.Node], kinds)
				}
			}
		}
	})
	t.Logf("%d rounds are their own mirror images", leaning)
	if leaning == 0 {
		t.Error("no round that leans was drawn")
	}
}

func kindsOf(f *fabric.Fabric, row int) (kinds []fabric.Kind) {
	end := len(f.Loops)
	if row+1 < len(f.Rows) {
		end = int(f.Rows[row+1].First)
	}
	for _, l := range f.Loops[f.Rows[row].First:end] {
		kinds = append(kinds, l.Kind)
	}
	return kinds
}

// other is a kind of loop as a mirror shows it, for those that lean.
var other = map[fabric.Kind]fabric.Kind{
	fabric.Ssk: fabric.K2tog, fabric.Skp: fabric.K2tog, fabric.K2tog: fabric.Ssk, fabric.Ssp: fabric.P2tog, fabric.P2tog: fabric.Ssp,
	fabric.Sssk: fabric.K3tog, fabric.K3tog: fabric.Sssk,
	fabric.LiftLeft: fabric.LiftRight, fabric.LiftRight: fabric.LiftLeft, fabric.RaisedLeft: fabric.RaisedRight, fabric.RaisedRight: fabric.RaisedLeft,
}

// mirrored is a row as a mirror shows it.
func mirrored(kinds []fabric.Kind) []fabric.Kind {
	out := slices.Clone(kinds)
	slices.Reverse(out)
	for i, k := range out {
		if m, ok := other[k]; ok {
			out[i] = m
		}
	}
	return out
}

// turnedTo tells whether one round is the other, begun elsewhere; an older decrease that leans
// left counts as the newer one.
func turnedTo(a, b []fabric.Kind) bool {
	as := func(list []fabric.Kind) []fabric.Kind {
		out := slices.Clone(list)
		for i, k := range out {
			if k == fabric.Skp {
				out[i] = fabric.Ssk
			}
		}
		return out
	}
	a, b = as(a), as(b)
	for i := range b {
		if slices.Equal(a, slices.Concat(b[i:], b[:i])) {
			return true
		}
	}
	return len(a) == len(b) && len(a) == 0
}

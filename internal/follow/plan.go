package follow

import (
	"slices"

	"sockwright/internal/pattern"
	"sockwright/internal/script"
	"sockwright/internal/source"
)

// An entry is one thing to do, in order: an item, or a row of a block that is told out of
// order. Rows that a repeat refers to are found beforehand.
type entry struct {
	item  script.Item
	row   *script.Row   // the row to work, if it is one
	num   int           // its number
	works []*script.Row // rows that it is, in order, if they are told one by one or are all alike
	rows  []*script.Row // of a repeat
	just  bool          // the rows of the repeat, or the row of a shaping, have been worked just before
	nums  []int
	split []script.Claim // what is to remain, if the lines behind say it
	all   []numbered     // all rows of the stitch pattern
	parts []part         // sentences that the row was joined of, but the last
	doubt words          // that could not be read, before it or beside it
}

// numOf is the number of row i of a repeat, 0 if it has none.
func (e *entry) numOf(i int) int {
	if i < len(e.nums) {
		return e.nums[i]
	}
	return 0
}

// plan puts what the script says in the order in which it is worked.
func plan(s *script.Script) []entry {
	pl := planner{file: s.File, sizes: len(s.Sizes), lines: s.Lines, named: map[string][]numbered{}}
	pl.doubts = doubts(s)
	for i := range s.Lines {
		for _, item := range s.Lines[i].Items {
			if _, skipped := item.(*script.Skipped); !skipped {
				pl.add(item)
			}
		}
	}
	pl.flush()
	for i := range pl.out {
		pl.out[i].doubt = pl.doubts[pl.out[i].item]
	}
	for i := range pl.out { // "until the following sts remain:", with the list in the next lines
		r, ok := pl.out[i].item.(*script.Repeat)
		if !ok || r.Stop.Kind != script.Split || len(r.Stop.Claims) > 0 {
			continue
		}
		for j := i + 1; j < len(pl.out); j++ {
			s, ok := pl.out[j].item.(*script.State)
			if !ok {
				break
			}
			for _, c := range s.Claims {
				if c.What == script.OnNdl {
					pl.out[i].split = append(pl.out[i].split, c)
				}
			}
		}
	}
	return pl.out
}

// A part is a sentence that tells the beginning of a row, up to step Steps of it.
type part struct {
	row   *script.Row
	steps int
}

type numbered struct {
	num int
	row *script.Row
}

type planner struct {
	file    *source.File
	sizes   int
	lines   []script.Line
	doubts  map[script.Item]words
	out     []entry
	pending []*script.Row
	table   []numbered // rows of this section by number
	recent  []*script.Row
	before  []numbered // of the section before
	named   map[string][]numbered
	section *script.Section
}

func (pl *planner) add(item script.Item) {
	if r, ok := item.(*script.Row); ok {
		pl.row(r)
		return
	}
	pl.flush()
	switch n := item.(type) {
	case *script.Section:
		if len(pl.table) > 0 {
			pl.before = pl.table
		}
		pl.table, pl.recent, pl.section = nil, nil, n
		pl.out = append(pl.out, entry{item: n})
	case *script.Repeat:
		pl.repeat(n)
	case *script.Shape:
		named := func(r *script.Row) bool { return r.Label.Name == n.Name || n.Name == "last" }
		last := pl.tail(1)
		told := len(last) == 1 && (n.Name != "" && named(last[0]) || n.Name == "" && n.Every > 0 && adjusts(last[0], n.Change)) // "Dec 2 sts. Do this every 6th rnd …"
		e := entry{item: n, works: rowsOf(n), just: told}
		pl.out = append(pl.out, e)
		pl.recent = append(pl.recent, e.works...)
	default:
		e := entry{item: n, works: rowsOf(n)}
		pl.out = append(pl.out, e)
		pl.recent = append(pl.recent, e.works...)
	}
}

// maxAlike is how many rows that are all alike may be among those that a repeat refers to as
// the last ones.
const maxAlike = 60

// rowsOf is the rows that an item stands for which is no row itself: "K 3 rnds", "Next rnd:
// dec 8 sts evenly"; none where how many they are is not told.
func rowsOf(item script.Item) (rows []*script.Row) {
	switch n := item.(type) {
	case *script.Plain:
		if n.Stop.Kind != script.Rows && n.Stop.Kind != script.MoreRows || !n.Stop.N.Known() || slices.Max(n.Stop.N.Val) > maxAlike {
			return nil
		}
		r := script.Row{Base: n.Base, Steps: n.Steps, Flat: n.Flat}
		if r.Steps == nil {
			r.Steps = []script.Step{{At: n.At, Op: script.Work, Uses: 1, Makes: 1, To: script.End}}
		}
		for i := range slices.Max(n.Stop.N.Val) {
			one := r
			one.Sizes = only(one.Sizes, n.Stop.N, i)
			rows = append(rows, &one)
		}
	case *script.Shape:
		once := n.Stop.Kind == script.NoStop || n.Stop.Kind == script.Times && len(n.Stop.N.Val) == 1 && n.Stop.N.Val[0] == 1
		if !once || n.Every > 1 || !n.Change.Known() {
			return nil
		}
		name := map[bool]string{true: "dec", false: "inc"}[slices.Min(n.Change.Val) < 0]
		rows = []*script.Row{{Base: n.Base, Label: script.Label{Name: name}, Steps: []script.Step{{At: n.At, Op: script.Adjust, N: n.Change}}}}
	}
	return rows
}

// adjusts tells whether a row does nothing but add so many stitches somewhere.
func adjusts(r *script.Row, change pattern.Number) bool {
	return len(r.Steps) == 1 && r.Steps[0].Op == script.Adjust && slices.Equal(r.Steps[0].N.Val, change.Val)
}

// only is the sizes, of those that a row is for, in which a number is more than i.
func only(of source.SizeSet, n pattern.Number, i int32) source.SizeSet {
	if len(n.Val) == 1 {
		return of
	}
	var sizes source.SizeSet
	for size, v := range n.Val {
		if v != pattern.Gap && v > i && (of == 0 || of.Has(size)) {
			sizes |= source.OneSize(size)
		}
	}
	return sizes
}

// tail is the last k rows that were worked, fewer where something that is no row, or rows
// that are not known, were told between. Statements do not come between.
func (pl *planner) tail(k int) []*script.Row {
	var rows []*script.Row
	for i := len(pl.out) - 1; i >= 0 && len(rows) < k; i-- {
		e := &pl.out[i]
		switch e.item.(type) {
		case *script.State, *script.Facing, *script.Measured:
			continue
		}
		if len(e.works) == 0 {
			break
		}
		rows = append(slices.Clone(e.works), rows...)
	}
	return rows[max(len(rows)-k, 0):]
}

func (pl *planner) row(r *script.Row) {
	l := r.Label
	if len(l.Nums) == 0 && l.Open == 0 || r.Stop != nil {
		pl.flush()
		if pl.join(r) {
			return
		}
		pl.out = append(pl.out, entry{item: r, row: r, works: []*script.Row{r}})
		for _, n := range l.Nums {
			pl.table = append(pl.table, numbered{n, r})
		}
		pl.recent = append(pl.recent, r)
		return
	}
	if len(pl.pending) > 0 {
		first := pl.pending[0]
		again := false
		for _, q := range pl.pending {
			again = again || slices.ContainsFunc(l.Nums, func(n int) bool { return slices.Contains(q.Label.Nums, n) }) && (q.Sizes == 0 || q.Sizes&r.Sizes != 0 || r.Sizes == 0)
		}
		if again || first.Flat != r.Flat || first.Label.Round != l.Round {
			pl.flush()
		}
	}
	if len(pl.pending) == 0 && l.First() == 1 {
		if len(pl.table) > 0 {
			pl.before = pl.table
		}
		pl.table, pl.recent = nil, nil
	}
	pl.pending = append(pl.pending, r)
}

// endLine is the line on which the words of a row end.
func (pl *planner) endLine(r *script.Row) int {
	n, _ := pl.file.Position(r.At.End)
	return n
}

// join makes one row of several sentences that tell it: "K 9 heel sts. With first needle k
// the other 9, then pick up …".
func (pl *planner) join(r *script.Row) bool {
	if len(pl.out) == 0 || r.Label.Said || r.Stop != nil || len(r.Steps) == 0 {
		return false
	}
	last := &pl.out[len(pl.out)-1]
	p := last.row
	if p == nil || p.Label.Said && !(picksUp(p.Steps) && r.Steps[0].Op == script.ToNeedle) || p.Stop != nil || slices.ContainsFunc(p.Claims, func(c script.Claim) bool { return c.Needle == 0 }) || hasTurn(p.Steps) || hasTurn(r.Steps) || !picksUp(p.Steps) && !picksUp(r.Steps) || r.Line > pl.endLine(p)+2 {
		return false
	}
	both := *p
	both.Steps = append(slices.Clone(p.Steps), r.Steps...)
	both.Claims = append(slices.Clone(p.Claims), r.Claims...)
	both.At, both.Line = p.At.To(r.At), r.Line
	last.parts = append(last.parts, part{p, len(p.Steps)})
	for _, one := range []script.Item{p, r} {
		if w := pl.doubts[one]; w.of != 0 {
			pl.doubts[&both] = words{w.at, w.of | pl.doubts[&both].of}
		}
	}
	last.item, last.row, last.works = &both, &both, []*script.Row{&both}
	pl.recent[len(pl.recent)-1] = &both
	return true
}

// flush works the rows that are waiting, in the order of their numbers.
func (pl *planner) flush() {
	if len(pl.pending) == 0 {
		return
	}
	pending := pl.pending
	pl.pending = nil
	lo, hi := 1<<30, 0
	explicit := map[int]*script.Row{}
	var both []numbered // of rows for different sizes
	open := false
	for _, r := range pending {
		for _, n := range r.Label.Nums {
			lo, hi = min(lo, n), max(hi, n)
			if explicit[n] != nil {
				both = append(both, numbered{n, r})
				continue
			}
			explicit[n] = r
		}
		open = open || r.Label.Open != 0
	}
	if hi-lo > 2000 {
		return
	}
	fill := func(n int) *script.Row {
		for _, r := range pending {
			switch r.Label.Open {
			case 1, 2:
				if n%2 == r.Label.Open%2 {
					return r
				}
			case 3:
				return r
			}
		}
		return nil
	}
	if open {
		if lo > 1 && fill(lo-1) != nil && lo <= 2 {
			lo--
		}
		if fill(hi+1) != nil && explicit[hi] != nil && explicit[hi].Label.Open == 0 {
			hi++
		}
	}
	hold := pl.section != nil && pl.section.Only
	emit := func(n int, r *script.Row) {
		pl.table = append(pl.table, numbered{n, r})
		pl.recent = append(pl.recent, r)
		if !hold {
			pl.out = append(pl.out, entry{item: r, row: r, num: n, works: []*script.Row{r}})
		}
	}
	for n := lo; n <= hi; n++ {
		r := explicit[n]
		if r == nil {
			r = fill(n)
		}
		if r != nil {
			emit(n, r)
		}
		for _, b := range both {
			if b.num == n {
				emit(n, b.row)
			}
		}
	}
	if hi == 0 { // only "all WS rows" and the like
		for _, r := range pending {
			pl.table = append(pl.table, numbered{0, r})
		}
	}
	if pl.section != nil && pl.section.Name != "" {
		pl.named[pl.section.Name] = slices.Clone(pl.table)
	}
}

// last is the last rows told, as many as it takes to have k of them in every size; none if there
// are not so many.
func (pl *planner) last(k int) []*script.Row {
	have := make([]int, pl.sizes)
	for i, r := range slices.Backward(pl.recent) {
		for size := range have {
			if r.Sizes == 0 || r.Sizes.Has(size) {
				have[size]++
			}
		}
		if slices.Min(have) >= k {
			return slices.Clone(pl.recent[i:])
		}
	}
	if k > len(pl.recent) {
		return nil
	}
	return slices.Clone(pl.recent[len(pl.recent)-k:])
}

// called is the rows of the steps, or the rows, that the text calls by these numbers or letters;
// none if it calls nothing so.
func (pl *planner) called(names []string) (rows []*script.Row) {
	for _, name := range names {
		var of []*script.Row
		if i := lastIndex(pl.recent, func(r *script.Row) bool { return r.Label.Name == name }); i >= 0 {
			of = pl.recent[i : i+1]
		} else {
			of = pl.step(name)
		}
		if of == nil {
			return nil
		}
		rows = append(rows, of...)
	}
	return rows
}

// step is the rows of a step of a text that is told in steps.
func (pl *planner) step(name string) (rows []*script.Row) {
	for i := range pl.out {
		for _, r := range pl.out[i].works {
			if pl.lines[r.Line-1].Step == name {
				rows = append(rows, r)
			}
		}
	}
	return rows
}

// lastIndex is where the last element lies that is wanted, -1 if there is none.
func lastIndex(rows []*script.Row, wanted func(*script.Row) bool) int {
	for i, r := range slices.Backward(rows) {
		if wanted(r) {
			return i
		}
	}
	return -1
}

// digits is numbers as they are printed.
func digits(nums []int) (out []string) {
	for _, n := range nums {
		out = append(out, itoa(n))
	}
	return out
}

// repeat finds the rows that a repeat means.
func (pl *planner) repeat(n *script.Repeat) {
	e := entry{item: n}
	pick := func(table []numbered) bool {
		for _, num := range n.Ref.Nums {
			found := false
			for i := len(table) - 1; i >= 0; i-- {
				if table[i].num == num {
					e.rows, e.nums, found = append(e.rows, table[i].row), append(e.nums, num), true
					if table[i].row.Sizes == 0 {
						break
					}
				}
			}
			if !found {
				e.rows, e.nums = nil, nil
				return false
			}
		}
		return len(e.rows) > 0
	}
	switch r := n.Ref; {
	case r.Pattern != "":
		table := pl.named[r.Pattern]
		e.all = table
		if r.Nums == nil {
			for _, t := range table {
				e.rows, e.nums = append(e.rows, t.row), append(e.nums, t.num)
			}
		} else {
			pick(table)
		}
	case r.Names != nil:
		e.rows = pl.called(r.Names)
	case r.Nums != nil:
		if !pick(pl.table) && !pick(pl.before) {
			e.rows = pl.called(digits(r.Nums))
		}
	case r.Last == -1, r.Last == -2:
		k := len(pl.recent)
		if r.Last == -2 && k > 2 {
			k = 2
			if last := pl.recent[len(pl.recent)-1]; last.Label.Name == "next" || last.Label.Name == "foll" {
				k = 1
			}
		}
		e.rows = slices.Clone(pl.recent[len(pl.recent)-k:])
	case r.Last > 0:
		e.rows = pl.last(r.Last)
	}
	e.just = len(e.rows) > 0 && slices.Equal(pl.tail(len(e.rows)), e.rows)
	pl.out = append(pl.out, e)
}

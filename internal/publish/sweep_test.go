package publish_test

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"sockwright/internal/design"
	"sockwright/internal/publish"
	"sockwright/internal/sock"
	"sockwright/internal/source"
)

var sweepAll = flag.Bool("sweep.all", false, "sweep over all socks, not a sample")

// A factor is one choice of a design, with all there is to choose.
type factor struct {
	name   string
	part   string // whose kind it is, or whose option
	key    string // of the option
	values []string
	kinds  []sock.Part // that the values name, of a part's kind
}

// A choice of one value of each factor, by its index.
type combination []int

// factors lists every choice of a whole sock that is one of a few, and gauges and feet that
// give small and large stitch counts. Numbers and lengths keep their usual values.
func factors() []factor {
	f := []factor{
		{name: "direction", values: []string{design.CuffDown, design.ToeUp}},
		{name: "method", values: []string{"double-pointed", "magic-loop", "two-circulars"}},
		{name: "gauge", values: []string{"16 22", "22 30", "32 44", "37 47"}},
		{name: "foot", values: []string{"120 130", "170 185", "215 240", "260 290"}},
	}
	options := map[string][]string{}
	var keys []string
	for _, part := range []string{"cuff", "leg", "heel", "gusset", "toe"} {
		kinds := factor{name: part, part: part}
		for _, p := range sock.Parts() {
			if p.Part != part {
				continue
			}
			kinds.values = append(kinds.values, p.Kind)
			kinds.kinds = append(kinds.kinds, p)
			for _, o := range p.Options {
				if o.Choices == nil {
					continue
				}
				key := part + "." + o.Key
				if options[key] == nil {
					keys = append(keys, key)
				}
				for _, c := range o.Choices {
					if !slices.Contains(options[key], c) {
						options[key] = append(options[key], c)
					}
				}
			}
		}
		f = append(f, kinds)
	}
	for _, key := range keys {
		part, option, _ := strings.Cut(key, ".")
		f = append(f, factor{name: key, part: part, key: option, values: append([]string{""}, options[key]...)}) // "" leaves it out
	}
	return f
}

// fits tells whether the parts go in the direction, with each other, and have the options.
func (c combination) fits(f []factor) bool {
	direction := f[0].values[c[0]]
	parts := map[string]*sock.Part{}
	for i, v := range c {
		if f[i].kinds == nil {
			continue
		}
		p := &f[i].kinds[v]
		parts[f[i].part] = p
		if !slices.Contains(p.Directions, direction) || f[i].part == "gusset" && !slices.Contains(parts["heel"].Gussets, p.Kind) {
			return false
		}
	}
	for i, v := range c {
		if f[i].key != "" && v > 0 && !slices.ContainsFunc(parts[f[i].part].Options, func(o sock.Option) bool {
			return o.Key == f[i].key && o.In(direction) && slices.Contains(o.Choices, f[i].values[v])
		}) {
			return false
		}
	}
	return true
}

// file is the design of a combination.
func (c combination) file(f []factor) string {
	value := map[string]string{}
	for i, v := range c {
		value[f[i].name] = f[i].values[v]
	}
	var b strings.Builder
	var sts, rows, girth, length string
	fmt.Sscan(value["gauge"], &sts, &rows)
	fmt.Sscan(value["foot"], &girth, &length)
	fmt.Fprintf(&b, "title = \"Sweep\"\ndirection = %q\n[gauge]\nover = \"10 cm\"\nstitches = %s\nrows = %s\n[needles]\nmethod = %q\n", value["direction"], sts, rows, value["method"])
	fmt.Fprintf(&b, "[[sizes.own]]\nname = \"One\"\nfoot_girth = \"%s mm\"\nfoot_length = \"%s mm\"\n", girth, length)
	for _, kind := range f {
		if kind.kinds == nil {
			continue
		}
		fmt.Fprintf(&b, "[%s]\nkind = %q\n", kind.part, value[kind.part])
		for _, o := range f {
			if o.part == kind.part && o.key != "" && value[o.name] != "" {
				fmt.Fprintf(&b, "%s = %q\n", o.key, value[o.name])
			}
		}
	}
	return b.String()
}

// A triple is three choices together.
type triple [3][2]int

// sweepTriples chooses combinations that hold every triple of choices that parts admit.
func sweepTriples(f []factor, random *rand.Rand) (list []combination, triples int) {
	open := map[triple]bool{}
	cover := func(c combination, do func(triple)) {
		for i := range c {
			for j := range i {
				for k := range j {
					do(triple{{k, c[k]}, {j, c[j]}, {i, c[i]}})
				}
			}
		}
	}
	draw := func(fixed triple, fix bool) (combination, bool) {
		c := make(combination, len(f))
		for range 200 {
			for i := range c {
				c[i] = random.IntN(len(f[i].values))
				if f[i].key != "" && random.IntN(3) > 0 {
					c[i] = 0 // most options are those of some kinds only
				}
			}
			for _, x := range fixed {
				if fix {
					c[x[0]] = x[1]
				}
			}
			if c.fits(f) {
				return c, true
			}
		}
		return nil, false
	}
	for i := range f { // every triple there is
		for j := range i {
			for k := range j {
				for a := range f[i].values {
					for b := range f[j].values {
						for d := range f[k].values {
							open[triple{{k, d}, {j, b}, {i, a}}] = true
						}
					}
				}
			}
		}
	}
	var order []triple
	for t := range open {
		order = append(order, t)
	}
	slices.SortFunc(order, func(a, b triple) int { return slices.Compare(flat(a), flat(b)) })
	random.Shuffle(len(order), func(i, j int) { order[i], order[j] = order[j], order[i] })
	for _, t := range order {
		if !open[t] {
			continue
		}
		delete(open, t)
		c, ok := draw(t, true)
		if !ok {
			continue // no parts have these three together
		}
		triples++
		cover(c, func(t triple) {
			if open[t] {
				triples++
				delete(open, t)
			}
		})
		list = append(list, c)
	}
	return list, triples
}

func flat(t triple) []int { return []int{t[0][0], t[0][1], t[1][0], t[1][1], t[2][0], t[2][1]} }

// TestSweepTriples makes whole socks that hold every triple of choices: each is proven by its
// words, or refused with a reason and what to do.
func TestSweepTriples(t *testing.T) {
	f := factors()
	list, triples := sweepTriples(f, rand.New(rand.NewPCG(1, 2)))
	all := len(list)
	if !*sweepAll {
		list = list[:min(len(list), 150)]
	}
	made, refused, loops := 0, 0, 0
	for _, c := range list {
		book := madeOrRefused(t, c.file(f))
		if book == nil {
			refused++
			continue
		}
		made++
		loops += book.Proof.Loops()
	}
	t.Logf("%d of the %d socks that hold all %d triples of choices: %d proven (%d loops), %d refused with a reason", len(list), all, triples, made, loops, refused)
	if made < len(list)/2 {
		t.Errorf("only %d of %d socks were made", made, len(list))
	}
}

// madeOrRefused is the book of a design, nil if it is refused with a reason and a mend.
func madeOrRefused(t *testing.T, text string) *publish.Book {
	t.Helper()
	book, faults := proven(t, "sweep.toml", text, publish.Options{})
	if book != nil {
		agree(t, book)
		return book
	}
	if !slices.ContainsFunc(faults, func(x source.Fault) bool {
		return x.Severity == source.Error && (x.Kind == source.Impossible || x.Kind == source.Pinned) && len(x.Mends) > 0
	}) {
		t.Fatalf("refused without a reason: %v\n%s", faults, text)
	}
	return nil
}

// TestSweepCounts works every heel and every toe over every number of stitches from 24 to
// 140, in both directions, held in every way.
func TestSweepCounts(t *testing.T) {
	step := 22
	if *sweepAll {
		step = 2
	}
	made, refused, loops := 0, 0, 0
	for _, direction := range []string{design.CuffDown, design.ToeUp} {
		for _, method := range []string{"double-pointed", "magic-loop"} {
			for _, p := range sock.Parts() {
				if p.Part != "heel" && p.Part != "toe" || !slices.Contains(p.Directions, direction) {
					continue
				}
				for n := 24; n <= 140; n += step {
					text := fmt.Sprintf("title = \"Sweep\"\ndirection = %q\n[gauge]\nover = \"10 cm\"\nstitches = 30\nrows = 42\n[needles]\nmethod = %q\n", direction, method) +
						fmt.Sprintf("[[sizes.own]]\nname = \"One\"\nfoot_girth = \"%.1f mm\"\nfoot_length = \"%.1f mm\"\n[%s]\nkind = %q\n[pin]\n\"leg.stitches\" = %d\n", float64(n)/0.27, min(440, float64(n)*4), p.Part, p.Kind, n)
					book := madeOrRefused(t, text)
					if book == nil {
						refused++
						continue
					}
					made++
					loops += book.Proof.Loops()
				}
			}
		}
	}
	t.Logf("%d socks proven (%d loops), %d refused with a reason", made, loops, refused)
	if made < refused {
		t.Errorf("only %d socks were made, %d refused", made, refused)
	}
}

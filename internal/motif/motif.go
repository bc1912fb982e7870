package motif

import (
	"embed"
	"fmt"
	"path"
	"strings"
	"sync"

	"sockwright/internal/design"
	"sockwright/internal/notation"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

// A Motif is a stitch pattern that is worked in the round.
type Motif struct {
	Key      string // by which a design asks for it
	Title    string
	Says     string // what it looks like, as a noun
	Kind     string // one of Kinds
	Multiple int    // stitches of one repeat before the first row
	Rows     [][]pattern.Step
}

// Kinds are the kinds of motifs there are.
var Kinds = []string{"rib", "texture", "slipped", "lace", "cable", "twisted"}

// widest is the most stitches that a repeat may have.
const widest = 96

// Node is the motif as patterns tell it.
func (m *Motif) Node() *pattern.Motif {
	n := &pattern.Motif{Name: m.Title, Multiple: pattern.Of(m.Multiple)}
	for i, steps := range m.Rows {
		n.Rows = append(n.Rows, &pattern.Row{Label: pattern.Label{Word: pattern.Round, Num: int32(i + 1)}, Parts: []pattern.Part{{Steps: steps}}})
	}
	return n
}

//go:embed motifs/*.toml
var files embed.FS

// Shipped lists the motifs that come with the program, by key.
var Shipped = sync.OnceValue(func() []*Motif {
	list, err := files.ReadDir("motifs")
	if err != nil {
		panic(err)
	}
	var all []*Motif
	for _, entry := range list {
		text, err := files.ReadFile(path.Join("motifs", entry.Name()))
		if err != nil {
			panic(err)
		}
		m, faults := Parse(source.NewFile(entry.Name(), string(text)))
		if len(faults) > 0 {
			panic(fmt.Sprintf("motif: %s: %s", entry.Name(), faults[0].Text))
		}
		all = append(all, m)
	}
	return all
})

// Keys lists the keys of the motifs that come with the program.
func Keys() []string {
	list, err := files.ReadDir("motifs")
	if err != nil {
		panic(err)
	}
	keys := make([]string, len(list))
	for i, entry := range list {
		keys[i] = strings.TrimSuffix(entry.Name(), ".toml")
	}
	return keys
}

// Find is the shipped motif with a key, or nil.
func Find(key string) *Motif {
	for _, m := range Shipped() {
		if m.Key == key {
			return m
		}
	}
	return nil
}

// Parse reads the file of a motif. It is nil where a fault is an error.
func Parse(f *source.File) (*Motif, []source.Fault) {
	t, faults := design.ReadTable(f, "a stitch pattern")
	if t == nil {
		return nil, faults
	}
	m := &Motif{
		Key:   strings.TrimSuffix(path.Base(f.Name), ".toml"),
		Title: t.Text("title", ""),
		Says:  t.Text("says", ""),
		Kind:  t.Choice("kind", Kinds...),
	}
	rows := strings.Split(strings.Trim(t.Text("rows", ""), "\n"), "\n")
	if m.Title == "" {
		t.Fault("title", source.Error, say("motif.no-title", "the stitch pattern has no title"), "add a line such as title = \"Small Arches\"")
	}
	for i, row := range rows {
		steps, err := notation.Steps(row)
		if err != nil {
			t.Fault("rows", source.Error, say("motif.unread", "row {0}: {1}", i+1, err.Error()), "write it like this: *K2, yo, ssk; rep from * to end")
			return nil, t.Done()
		}
		m.Rows = append(m.Rows, steps)
	}
	if why := m.measure(); why.Text != "" {
		t.Fault("rows", source.Error, why, "let each row take as many stitches as the one before leaves, and the last leave as many as the first takes")
	}
	faults = append(faults, t.Done()...)
	if worst, any := source.Worst(faults); any && worst == source.Error {
		return nil, faults
	}
	return m, faults
}

// measure finds the fewest stitches over which all rows can be worked, again and again, or
// says which row is in the way.
func (m *Motif) measure() (why source.Message) {
	reached := -1
	for n := 1; n <= widest; n++ {
		row, text := m.fits(n)
		if row == len(m.Rows)+1 {
			m.Multiple = n
			return source.Message{}
		}
		if row > reached {
			reached, why = row, text
		}
	}
	return why
}

// fits works the rows over repeats of n stitches. It returns the index of the row that cannot
// be worked and why; len(Rows) where the last leaves another number, and one more if all is
// well.
func (m *Motif) fits(n int) (row int, why source.Message) {
	on := pattern.Repeats{Each: n}
	for i, steps := range m.Rows {
		t := pattern.TallyOf(steps, 0)
		after, ok := t.Work(on)
		switch {
		case ok:
		case t.Each.Takes == 0:
			return i, say("motif.no-repeat", "row {0} has no repeat that goes to the end of the round", i+1)
		case t.Fixed.Takes > 0:
			return i, say("motif.edges", "row {0} works {1} beside its repeat, but in the round there are repeats only", i+1, source.InSts(t.Fixed.Takes))
		default:
			return i, say("motif.row", "row {0} takes {1} to a repeat, but {2} lie there", i+1, source.InSts(t.Each.Takes), on.Each)
		}
		on = after
	}
	if on.Each != n {
		return len(m.Rows), say("motif.last", "the rows take {0} to a repeat and leave {1}", source.InSts(n), on.Each)
	}
	return len(m.Rows) + 1, source.Message{}
}

func say(key, text string, args ...any) source.Message { return source.Say(key, text, args...) }

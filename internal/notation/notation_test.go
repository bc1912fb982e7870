package notation_test

import (
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"sockwright/internal/fabric"
	"sockwright/internal/knit"
	"sockwright/internal/notation"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

// bare is a copy of a pattern without identities and spans, its titles in capitals: what
// words can keep.
func bare(p *pattern.Pattern) *pattern.Pattern {
	out := &pattern.Pattern{}
	copyBare(reflect.ValueOf(out).Elem(), reflect.ValueOf(p).Elem())
	out.Title = strings.ToUpper(out.Title)
	for _, s := range out.Sections {
		s.Title = strings.ToUpper(s.Title)
	}
	return out
}

var (
	typeOfSpan  = reflect.TypeFor[source.Span]()
	typeOfSpans = reflect.TypeFor[[]source.Span]()
	typeOfID    = reflect.TypeFor[pattern.NodeID]()
)

func copyBare(to, from reflect.Value) {
	switch from.Kind() {
	case reflect.Pointer:
		if !from.IsNil() {
			to.Set(reflect.New(from.Type().Elem()))
			copyBare(to.Elem(), from.Elem())
		}
	case reflect.Interface:
		if !from.IsNil() {
			value := reflect.New(from.Elem().Type()).Elem()
			copyBare(value, from.Elem())
			to.Set(value)
		}
	case reflect.Slice:
		if from.Len() > 0 { // an empty slice is as good as none
			to.Set(reflect.MakeSlice(from.Type(), from.Len(), from.Len()))
			for i := range from.Len() {
				copyBare(to.Index(i), from.Index(i))
			}
		}
	case reflect.Struct:
		for i := range from.NumField() {
			switch from.Field(i).Type() {
			case typeOfSpan, typeOfSpans, typeOfID:
			default:
				copyBare(to.Field(i), from.Field(i))
			}
		}
	default:
		to.Set(from)
	}
}

func readText(t testing.TB, name string) string {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// What is written can be read, and is the same tree, standing at the same places.
func TestPropertyWriteRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPattern(t)
		w := notation.Write(p)
		f := source.NewFile("drawn.txt", w.Text)
		r := notation.Read(f)
		for _, x := range r.Faults {
			t.Fatalf("%v\n%s", source.Find(f, p.Sizes, x), w.Text)
		}
		if want, got := bare(p), bare(r.Pattern); !reflect.DeepEqual(want, got) {
			t.Fatalf("read as another tree, which is written\n%s\nThe words are\n%s", notation.Write(r.Pattern).Text, w.Text)
		}
		again := notation.Write(r.Pattern)
		if again.Text != w.Text {
			t.Fatalf("written again as\n%s\nThe words are\n%s", again.Text, w.Text)
		}
		checkSpans(t, r.Pattern, w)
	})
}

// checkSpans holds the places where a pattern was read against those where it was written.
func checkSpans(t *rapid.T, read *pattern.Pattern, w notation.Written) {
	lines := map[uint32]string{} // by their start
	at := uint32(0)
	for line := range strings.Lines(w.Text) {
		lines[at] = strings.TrimSuffix(line, "\n")
		at += uint32(len(line))
	}
	check := func(id pattern.NodeID, at source.Span, titled bool) {
		if at != w.Spans[id] {
			t.Fatalf("node %d was written at %v and read at %v\n%s", id, w.Spans[id], at, w.Text)
		}
		if titled && lines[at.Start] != w.Text[at.Start:at.End] {
			t.Fatalf("node %d stands in %q, which is no line\n%s", id, w.Text[at.Start:at.End], w.Text)
		}
	}
	for _, s := range read.Sections {
		check(s.ID, s.At, s.Title != "")
	}
	read.Each(func(_ *pattern.Section, n pattern.Node) {
		check(pattern.ID(n), pattern.At(n), true)
		row, ok := n.(*pattern.Row)
		if !ok {
			return
		}
		for _, part := range row.Parts {
			last := pattern.At(n).Start
			for _, s := range part.Steps {
				if s.At.Start <= last || s.At.End > pattern.At(n).End || !s.At.Known() {
					t.Fatalf("step at %v does not follow the one before it in %q", s.At, w.Text[pattern.At(n).Start:pattern.At(n).End])
				}
				last = s.At.End
				for i, at := range s.N.Cols {
					if got := strings.TrimSpace(w.Text[at.Start:at.End]); got != s.N.Strings()[i] && s.N.Known() && got != "once" {
						t.Fatalf("value %d of %v stands in %q", i, s.N.Strings(), got)
					}
				}
			}
		}
	})
}

// The fabric may be left out without anything else changing, whatever the words say.
func TestPropertyCountsAgree(t *testing.T) {
	full, counts := knit.Knitter{}, knit.Knitter{CountsOnly: true}
	rapid.Check(t, func(t *rapid.T) {
		p := drawPattern(t)
		for size := range p.Sizes {
			a, b := full.Knit(p, size), counts.Knit(p, size)
			if len(a.Fabric.Loops) != a.Loops {
				t.Fatalf("%d loops in the fabric, %d made", len(a.Fabric.Loops), a.Loops)
			}
			if n := a.Fabric.Open(); n < a.Left || n > a.Left && castOns(p) < 2 && !leavesLoops(p) {
				t.Fatalf("size %d: %d stitches are live, but %d loops are open\n%s", size, a.Left, n, notation.Write(p).Text)
			}
			a.Fabric = nil
			if !reflect.DeepEqual(a, b) {
				t.Fatalf("size %d: with the fabric %+v\nwithout %+v\n%s", size, a, b, notation.Write(p).Text)
			}
		}
	})
}

func castOns(p *pattern.Pattern) (n int) {
	p.Each(func(_ *pattern.Section, node pattern.Node) {
		if _, ok := node.(*pattern.CastOn); ok {
			n++
		}
	})
	return n
}

// leavesLoops tells whether a pattern leaves loops behind that are not on the needles.
func leavesLoops(p *pattern.Pattern) (yes bool) {
	var in func(steps []pattern.Step)
	in = func(steps []pattern.Step) {
		for _, s := range steps {
			yes = yes || s.Op == pattern.Turn && s.Turned != pattern.NotTurned || s.Op == pattern.WasteYarn
			in(s.Body)
		}
	}
	p.Each(func(_ *pattern.Section, n pattern.Node) {
		if r, ok := n.(*pattern.Row); ok {
			for _, part := range r.Parts {
				in(part.Steps)
			}
		}
	})
	return yes
}

// One size by itself is the same cloth as that size among the others, right or wrong.
func TestPropertyOneSizeAlone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPattern(t)
		size := rapid.IntRange(0, len(p.Sizes)-1).Draw(t, "size")
		var k knit.Knitter
		all, alone := k.Knit(p, size), k.Knit(p.ForSize(size), 0)
		if d := fabric.Difference(all.Fabric, alone.Fabric); d != "" {
			t.Fatalf("size %d alone: %s\n%s", size, d, notation.Write(p).Text)
		}
	})
}

// Whatever prints is printed the same when it is read again.
func TestTextsAreFixedPoints(t *testing.T) {
	names, err := filepath.Glob("../*/testdata/band-heel-64.txt")
	if err != nil || len(names) == 0 {
		t.Fatalf("no texts: %v", err)
	}
	for _, name := range names {
		text := readText(t, name)
		r := notation.Read(source.NewFile(name, text))
		if again := notation.Write(r.Pattern).Text; again != text {
			t.Errorf("%s is written again as\n%s", name, again)
		}
	}
}

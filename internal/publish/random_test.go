package publish_test

import (
	"errors"
	"flag"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"sockwright/internal/designtest"
	"sockwright/internal/fabric"
	"sockwright/internal/knit"
	"sockwright/internal/publish"
	"sockwright/internal/source"
)

var tried = struct{ made, refused, sizes, loops int }{}

func TestMain(m *testing.M) {
	flag.Parse()
	code := m.Run()
	if tried.made > 0 {
		fmt.Printf("random designs: %d proven (%d sizes, %d loops), %d refused with a reason\n", tried.made, tried.sizes, tried.loops, tried.refused)
	}
	os.Exit(code)
}

// make1 makes the book of a design file that must be sound, or refused with a reason.
func make1(t *rapid.T, text string) *publish.Book {
	book, faults := proven(t, "low-tide.toml", text, publish.Options{})
	if book == nil {
		for _, x := range faults {
			if x.Severity == source.Error && x.Kind == source.Impossible && len(x.Text.String()) > 40 && len(x.Mends) > 0 {
				tried.refused++
				return nil
			}
		}
		t.Fatalf("refused without a reason: %v\n%s", faults, text)
	}
	tried.made++
	tried.sizes += len(book.Proof.Sizes)
	tried.loops += book.Proof.Loops()
	return book
}

// proven is the book of a design, nil if the faults leave none; it fails for words that do
// not knit the sock.
func proven(t failer, name, text string, o publish.Options) (*publish.Book, []source.Fault) {
	t.Helper()
	book, faults, err := publish.Make(source.NewFile(name, text), o)
	var bad *publish.Unproven
	if errors.As(err, &bad) {
		for _, x := range bad.Proof.Faults {
			t.Log(source.Find(bad.Proof.Text, bad.Proof.Read.Pattern.Sizes, x))
		}
		t.Fatalf("not proven:\n%s\n%s", text, bad.Proof.Text.Text)
	}
	if err != nil {
		t.Fatal(err)
	}
	return book, faults
}

// A failer is a test, of one design or of many random ones.
type failer interface {
	Helper()
	Log(args ...any)
	Fatal(args ...any)
	Fatalf(format string, args ...any)
}

func TestRandomDesigns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := designtest.Draw(t)
		book := make1(t, text)
		if book == nil {
			return
		}
		plan := book.Plan
		for size, s := range book.Proof.Sizes {
			if err := s.Again.Fabric.CheckFinished(); err != nil {
				t.Fatalf("size %s: %v", s.Name, err)
			}
			if book.Draft.Kind("heel") != "band" {
				continue
			}
			if n := plan.Of("heel.flap_rows", size); n%2 != 0 {
				t.Fatalf("size %s: %d flap rows", s.Name, n)
			}
			if h, c, side := plan.Of("heel.stitches", size), plan.Of("heel.band_stitches", size), plan.Of("heel.side_stitches", size); c+2*side != h {
				t.Fatalf("size %s: band %d and twice %d are not %d", s.Name, c, side, h)
			}
		}
		notFalling(t, book, plan.Each("leg.stitches"), "stitches round")
		lengths, wanted := map[string][]float64{}, map[string][]float64{}
		gauge := book.Draft.Gauge[""]
		for _, m := range book.Draft.Measures(plan) {
			lengths[m.Key], wanted[m.Key] = append(lengths[m.Key], m.Value.MM()), append(wanted[m.Key], m.Asked.MM())
			row := gauge.Height(1)
			if m.Key == "cuff.length" {
				fabric := map[string]string{"garter": "garter", "picot-hem": ""}
				if name, ok := fabric[book.Draft.Kind("cuff")]; ok {
					row = book.Draft.GaugeOf(name).Height(1)
				} else {
					row = book.Draft.GaugeOf("rib").Height(1)
				}
			}
			if off := (m.Value - m.Asked).MM(); strings.HasSuffix(m.Key, ".length") && math.Abs(off) > row.MM()+1e-9 {
				t.Fatalf("%s size %d: %.1f mm for %.1f, more than a row off", m.Key, m.Size, m.Value.MM(), m.Asked.MM())
			}
		}
		notFalling(t, book, lengths["foot.girth"], "foot girth")
		// Feet less than a row apart may be rounded apart, each to within a row of what was asked.
		for i, length := range lengths["foot.length"] {
			if asked := wanted["foot.length"]; i > 0 && asked[i]-asked[i-1] >= gauge.Height(1).MM() && length < lengths["foot.length"][i-1] {
				t.Fatalf("foot length falls from size to size: %v for %v", lengths["foot.length"], asked)
			}
		}
		oneSizeAlone(t, book)
	})
}

func notFalling[T int | float64](t *rapid.T, b *publish.Book, v []T, what string) {
	for i := 1; i < len(v); i++ {
		if v[i] < v[i-1] {
			t.Fatalf("%s falls from size to size: %v", what, v)
		}
	}
}

// oneSizeAlone: the pattern of one size knits the same cloth as that size of all.
func oneSizeAlone(t *rapid.T, b *publish.Book) {
	i := len(b.Proof.Sizes) / 2
	book, _, err := publish.Make(b.Draft.File, publish.Options{Only: b.Proof.Sizes[i].Name})
	if err != nil {
		t.Fatal(err)
	}
	if d := fabric.Difference(b.Proof.Sizes[i].Again.Fabric, book.Proof.Sizes[0].Again.Fabric); d != "" {
		t.Fatalf("size %s alone: %s", b.Proof.Sizes[i].Name, d)
	}
	counts := (&knit.Knitter{CountsOnly: true, Sock: b.Pattern.Socks()[0]}).Knit(b.Proof.Read.Pattern, i)
	full := b.Proof.Sizes[i].Again
	if counts.Loops != full.Loops || counts.Final != full.Final || len(counts.Faults) != 0 {
		t.Fatalf("counts alone: %d loops, %d final, against %d and %d", counts.Loops, counts.Final, full.Loops, full.Final)
	}
}

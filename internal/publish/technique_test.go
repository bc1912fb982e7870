package publish_test

import (
	"math/rand/v2"
	"regexp"
	"testing"

	"sockwright/internal/publish"
	"sockwright/internal/source"
)

// techniqueSocks is how many of the designs of every choice are tried.
const techniqueSocks = 90

// chosen are the words of the usual technique and of the other one.
var (
	usualWords = regexp.MustCompile(`\b(ssk|M1L|M1R)\b`)
	otherWords = regexp.MustCompile(`\b(skp|LLI|RLI)\b`)
)

// TestTechnique makes socks in the other technique: proven, with the counts of the usual one,
// and without a word of it, in rows, prose and glossary.
func TestTechnique(t *testing.T) {
	files := everyChoice()
	random := rand.New(rand.NewPCG(7, 8))
	random.Shuffle(len(files), func(i, j int) { files[i], files[j] = files[j], files[i] })
	made, other := 0, 0
	for _, text := range files[:min(techniqueSocks, len(files))] {
		if choosesItself.MatchString(text) {
			continue
		}
		usual := madeOrRefused(t, text)
		if usual == nil {
			continue
		}
		book := madeOrRefused(t, text+"[technique]\ndecreases = \"skp\"\nincreases = \"lifted\"\n")
		if book == nil {
			t.Fatalf("refused in the other technique\n%s", text)
		}
		made++
		words := book.Proof.Text.Text
		if found := usualWords.FindString(words); found != "" {
			t.Errorf("%s stands in\n%s\n%s", found, text, words)
		}
		if otherWords.MatchString(words) {
			other++
		}
		want, got := usual.Proof.Sizes[0].Again, book.Proof.Sizes[0].Again
		if want.Final != got.Final || len(want.Counts) != len(got.Counts) {
			t.Fatalf("%d stitches at the end instead of %d\n%s", got.Final, want.Final, text)
		}
		for i := range want.Counts {
			if want.Counts[i].Last != got.Counts[i].Last {
				t.Errorf("line %d has another count\n%s", i, text)
			}
		}
	}
	if made < 40 || other < made/2 {
		t.Errorf("%d socks made, %d in other words", made, other)
	}
}

// choosesItself matches designs in which a part chooses its technique.
var choosesItself = regexp.MustCompile(`(?m)^(decreases|increases) = `)

func TestTechniqueTwice(t *testing.T) {
	text := "title = \"Twice\"\n[gauge]\nover = \"10 cm\"\nstitches = 30\nrows = 42\n[sizes]\nfrom = \"women\"\n[technique]\ndecreases = \"skp\"\n[toe]\ndecreases = \"mirrored\"\n"
	book, faults, err := publish.Make(source.NewFile("twice.toml", text), publish.Options{})
	if err != nil || book != nil || len(faults) != 1 || len(faults[0].Mends) == 0 {
		t.Errorf("book %v, faults %v, error %v", book != nil, faults, err)
	}
}

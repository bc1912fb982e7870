package publish_test

import (
	"fmt"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"

	"sockwright/internal/fabric"
	"sockwright/internal/knit"
	"sockwright/internal/notation"
	"sockwright/internal/pattern"
	"sockwright/internal/publish"
	"sockwright/internal/source"
)

// otherSenses are the turns of phrase in which left and right are no sides of the work: what
// remains, the side of the fabric that shows, and feet.
var otherSenses = regexp.MustCompile(`(?i)\bright sides?\b|\b(is|are|was|were|be|until|sts?|none|no hole is|what is) left\b|\bleft out\b|\bleft of\b|\bleft unworked\b|` +
	`\bshaped for left and right\b|\bleft and right are alike\b|\bone right sock and one left sock\b|\b(left|right) lifted increase\b`)

var sides = regexp.MustCompile(`(?i)\b(left|right|clockwise|counterclockwise)\b`)

// everyChoice is a sock for every kind and every choice of an option, in both directions and
// on all needles.
func everyChoice() []string {
	f := factors()
	random := rand.New(rand.NewPCG(3, 4))
	var files []string
	for i := range f {
		for value := range f[i].values {
			for direction := range f[0].values {
				for method := range f[1].values {
					c := make(combination, len(f))
					for range 300 {
						for j := range c {
							if c[j] = random.IntN(len(f[j].values)); f[j].key != "" {
								c[j] = 0
							}
						}
						c[0], c[1], c[2], c[3] = direction, method, 2, 2
						if c[i] = value; c[0] == direction && c[1] == method && c.fits(f) {
							files = append(files, c.file(f))
							break
						}
					}
				}
			}
		}
	}
	return files
}

// TestSidesAreMarked holds all that is told in words to the marking of sides, without which
// they would be wrong for the other hand.
func TestSidesAreMarked(t *testing.T) {
	told := map[string]bool{}
	composed := 0
	for _, text := range everyChoice() {
		draft, plan, _ := publish.Grade(source.NewFile("sweep.toml", text))
		if plan == nil {
			continue
		}
		composed++
		p := publish.Compose(draft, plan, draft.Build(plan), publish.Edition{Alone: publish.AllSizes})
		p.Each(func(_ *pattern.Section, n pattern.Node) {
			prose, ok := n.(*pattern.Prose)
			if !ok {
				return
			}
			words := ""
			for _, piece := range prose.Text {
				if words += piece.Words + strings.Join(piece.Each, " "); piece.Side != "" {
					words += "{}"
				}
			}
			if sides.MatchString(otherSenses.ReplaceAllString(words, "")) && !told[words] {
				told[words] = true
				t.Errorf("a side is not marked as {left} or {right}: %s", words)
			}
		})
	}
	if composed < 300 {
		t.Errorf("only %d socks were composed", composed)
	}
}

// TestLeftHanded makes left-handed editions: proven by their words, they are the same cloth
// as the usual one, and only words for sides differ.
func TestLeftHanded(t *testing.T) {
	files := everyChoice()
	random := rand.New(rand.NewPCG(5, 6))
	random.Shuffle(len(files), func(i, j int) { files[i], files[j] = files[j], files[i] })
	made, mirrored := 0, 0
	for _, text := range files[:80] {
		usual := madeOrRefused(t, text)
		if usual == nil {
			continue
		}
		left, _ := proven(t, "sweep.toml", text, publish.Options{LeftHanded: true})
		made++
		if left.Name != "sweep-left-handed" || !left.Proof.Read.Pattern.LeftHanded || usual.Proof.Read.Pattern.LeftHanded {
			t.Fatalf("the hand is lost: %s", left.Name)
		}
		if usual.Pattern.Socks()[0] == pattern.BothSocks && !fabric.Equal(usual.Proof.Sizes[0].Again.Fabric, left.Proof.Sizes[0].Again.Fabric) {
			t.Errorf("another cloth: %s\n%s", fabric.Difference(usual.Proof.Sizes[0].Again.Fabric, left.Proof.Sizes[0].Again.Fabric), text)
		}
		right, other := instructions(usual.Pattern), instructions(left.Pattern)
		if len(right) != len(other) {
			t.Fatalf("%d lines are worked, left-handed %d", len(right), len(other))
		}
		for i := range right {
			if other[i] != swapped(right[i]) {
				t.Errorf("%q is %q left-handed", right[i], other[i])
			}
			if other[i] != right[i] {
				mirrored++
			}
		}
	}
	if made < 40 || mirrored == 0 {
		t.Errorf("%d socks made, %d lines mirrored", made, mirrored)
	}
}

// swapped is a line of instructions with left for right.
func swapped(line string) string {
	return strings.NewReplacer("left edge", "right edge", "right edge", "left edge", "Left sock", "Right sock", "Right sock", "Left sock").Replace(line)
}

func instructions(p *pattern.Pattern) (lines []string) {
	for _, l := range notation.Lines(p) {
		if l.Form == notation.Instruction || l.Form == notation.Sizes {
			lines = append(lines, l.String())
		}
	}
	return lines
}

// TestHandOfWords knits words that are wrong for the hand they name.
func TestHandOfWords(t *testing.T) {
	text := "title = \"Hand\"\n[gauge]\nover = \"10 cm\"\nstitches = 30\nrows = 42\n[sizes]\nfrom = \"women\"\nkeep = [\"M\"]\n"
	book, faults, err := publish.Make(source.NewFile("hand.toml", text), publish.Options{LeftHanded: true})
	if err != nil || book == nil {
		t.Fatal(err, faults)
	}
	hand := fmt.Sprintf("%s: %s\n", notation.HandLabel, notation.LeftHand)
	if n := strings.Count(book.Proof.Text.Text, hand); n != 1 {
		t.Fatalf("the hand is named %d times", n)
	}
	if faults := knitted(t, book.Proof.Text.Text); len(faults) > 0 {
		t.Errorf("left-handed: %v", faults)
	}
	if faults := knitted(t, strings.Replace(book.Proof.Text.Text, hand, "", 1)); len(faults) == 0 {
		t.Error("without the line that names the hand the edges are the other ones, and nothing is said")
	}
}

// knitted is what goes wrong when a text of one size is knitted.
func knitted(t *testing.T, text string) []source.Fault {
	t.Helper()
	read := notation.Read(source.NewFile("hand.txt", text))
	return append(read.Faults, new(knit.Knitter).Knit(read.Pattern, 0).Faults...)
}

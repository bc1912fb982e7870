package publish_test

import (
	"regexp"
	"strings"
	"testing"

	"sockwright/internal/publish"
	"sockwright/internal/source"
)

const threeWomen = "title = \"Told\"\ngauge = { stitches = 32, rows = 44, over = \"4 in\" }\nsizes = { from = \"women\", keep = [\"S\", \"M\", \"L\"] }\n"

// chapterOf is what is printed between one heading and another.
func chapterOf(t *testing.T, text, from, to string) string {
	t.Helper()
	_, after, found := strings.Cut(text, "\n"+from+"\n")
	chapter, _, ends := strings.Cut(after, "\n"+to+"\n")
	if !found || !ends {
		t.Fatalf("no lines from %s to %s", from, to)
	}
	return chapter
}

// A heel whose edges only replace what it has decreased promises no gusset.
func TestExactPromisesNoGusset(t *testing.T) {
	for _, form := range []string{"short-rows", "both"} {
		text := printed(t, threeWomen+"[heel]\nkind = \"band\"\nform = \""+form+"\"\n", "").Proof.Text.Text
		if strings.Contains(strings.ToLower(chapterOf(t, text, "HEEL FLAP", "GUSSET")), "gusset") {
			t.Errorf("%s: the heel speaks of a gusset, and there is none", form)
		}
	}
}

// Where one size works the two rows of a band once and others repeat them, the rows stand once
// for all sizes.
func TestRowsStandOnce(t *testing.T) {
	text := printed(t, threeWomen+"[heel]\nkind = \"band\"\nform = \"both\"\n[gusset]\nkind = \"one-side\"\n", "").Proof.Text.Text
	band := chapterOf(t, text, "BAND", "HEEL TURN")
	if n := strings.Count(band, "\nRow 3 (RS): "); n != 1 {
		t.Errorf("Row 3 is printed %d times:\n%s", n, band)
	}
	if !strings.Contains(band, "Do not repeat the last 2 rows.") || !strings.Contains(band, "Work the last 2 rows once more.") {
		t.Errorf("it is not told which sizes repeat:\n%s", band)
	}
	one, faults, err := publish.Make(source.NewFile("told.toml", threeWomen+"[heel]\nkind = \"band\"\nform = \"both\"\n[gusset]\nkind = \"one-side\"\n"), publish.Options{Only: "M"})
	if err != nil || one == nil {
		t.Fatal(err, faults)
	}
	if alone := chapterOf(t, one.Proof.Text.Text, "BAND", "HEEL TURN"); !regexp.MustCompile(`\nRow 4 \(WS\): .* 28 sts\.\n`).MatchString(alone) {
		t.Errorf("the size that does not repeat is not told how many stitches are left:\n%s", alone)
	}
}

// Rounds over all stitches that part a heel in two are worked on both socks before its second
// half: nothing says that a heel is finished on one sock first.
func TestTwoAtATimeThroughTheHeel(t *testing.T) {
	book, faults, err := publish.Make(source.NewFile("told.toml", threeWomen+"[needles]\nmethod = \"magic-loop\"\n[heel]\nkind = \"boomerang\"\nbetween = 3\n"), publish.Options{TwoAtATime: true})
	if err != nil || book == nil {
		t.Fatal(err, faults)
	}
	text := book.Proof.Text.Text
	if !strings.Contains(chapterOf(t, text, "HEEL, ROUNDS BETWEEN", "HEEL, SECOND HALF"), "\nRnd 1: ") {
		t.Fatal("no rounds part the heel")
	}
	if how := chapterOf(t, text, "TWO AT A TIME", "CUFF"); !strings.Contains(how, "as far as the next rnd over all sts, and then on sock 2") || strings.Contains(how, "finished on sock 1") {
		t.Errorf("the heel is finished before the rounds that part it:\n%s", how)
	}
}

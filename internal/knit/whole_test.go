package knit_test

import (
	"os"
	"path/filepath"
	"testing"

	"sockwright/internal/fabric"
	"sockwright/internal/knit"
	"sockwright/internal/notation"
	"sockwright/internal/source"
)

// The texts in testdata/whole use every way to begin, to turn, to close and to open. Each is
// one finished piece of cloth, and prints as it was read.
func TestWhole(t *testing.T) {
	names, err := filepath.Glob("testdata/whole/*.txt")
	if err != nil || len(names) == 0 {
		t.Fatalf("no texts: %v", err)
	}
	for _, name := range names {
		t.Run(filepath.Base(name), func(t *testing.T) {
			text, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			r := notation.Read(source.NewFile(name, string(text)))
			for _, f := range r.Faults {
				t.Error(f.Text)
			}
			if again := notation.Write(r.Pattern).Text; again != string(text) {
				t.Errorf("prints as\n%s", again)
			}
			for size := range r.Pattern.Sizes {
				var k knit.Knitter
				res := k.Knit(r.Pattern, size)
				for _, f := range res.Faults {
					t.Errorf("size %d: %s", size, f.Text)
				}
				if err := res.Fabric.CheckFinished(); err != nil {
					t.Errorf("size %d: %v", size, err)
				}
				if res.Left > 0 {
					t.Errorf("size %d: %d stitches are left", size, res.Left)
				}
			}
		})
	}
}

// What waits at a turn is closed by one loop that is drawn through the stitch and all that
// was left on it.
func TestTurnedStitchesAreClosed(t *testing.T) {
	for name, kind := range map[string]fabric.Kind{"wrapped-heel": fabric.Wrap, "twin-heel": fabric.TwinLoop, "yarn-over-heel": fabric.YarnOver} {
		text, err := os.ReadFile("testdata/whole/" + name + ".txt")
		if err != nil {
			t.Fatal(err)
		}
		var k knit.Knitter
		f := k.Knit(notation.Read(source.NewFile(name, string(text))).Pattern, 0).Fabric
		left, closed := 0, 0
		for i, l := range f.Loops {
			if l.Kind == kind {
				left++
			}
			if n := len(f.Through(int32(i))); (l.Kind == fabric.Knit || l.Kind == fabric.Purl) && n > 1 {
				closed += n - 1
			}
		}
		// 5 turns a side in the first half, 4 in the second.
		if left != 18 || closed != left {
			t.Errorf("%s: %d loops are left at turns, %d of them are closed; want 18, all", name, left, closed)
		}
	}
}

package knit_test

import (
	"strings"
	"testing"

	"sockwright/internal/fabric"
	"sockwright/internal/knit"
	"sockwright/internal/notation"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

// arches is a lace of two rounds; swelling one whose rounds have different counts.
const (
	arches   = "Small Arches is a stitch pattern over a multiple of 6 sts and 1 more.\nRnd 1: *K1, yo, k1, s2kp2, k1, yo; rep from * to last st, k1.\nRnd 2: Knit.\n"
	swelling = "Low Swell is a stitch pattern over a multiple of 4 sts.\nRnd 1: *K1, (k1, yo, k1) in 1, k2; rep from * to end.\nRnd 2: Knit.\nRnd 3: *K1, k3tog, k2; rep from * to end.\n"
	twoBands = "Two Bands is a stitch pattern over a multiple of 4 sts.\nRow 1 (RS): *K2, p2; rep from * to end.\nRow 2 (WS): *P2, k2; rep from * to end.\n"
)

// knitted works a text in the round after a cast-on.
func knitted(t *testing.T, motif string, stitches, lines string) (*knit.Result, *source.File, *pattern.Pattern) {
	t.Helper()
	f := source.NewFile("p.txt", "GABLE END\n\nSTITCH PATTERN\n\n"+motif+"\nLEG\n\nCO "+stitches+" sts. Join to work in the round without twisting. The rnd begins at the center of the back.\n"+lines+"\n")
	r := notation.Read(f)
	for _, x := range r.Faults {
		t.Fatal(source.Find(f, r.Pattern.Sizes, x))
	}
	return new(knit.Knitter).Knit(r.Pattern, 0), f, r.Pattern
}

func TestMotif(t *testing.T) {
	for _, c := range []struct {
		name, motif, stitches, lines string
		final                        int
		fault                        string // part of the only one
	}{
		{"all round", arches, "61", "Work 12 rnds in Small Arches. 61 sts.", 61, ""},
		{"over some stitches", arches, "32", "Rnd 1: K5, work 25 sts in Small Arches, k2.\nWork the last rnd 3 more times.", 32, ""},
		{"to the last", arches, "32", "Rnd 1: K5, work in Small Arches to last 2 sts, k2.", 32, ""},
		{"to a marker", arches, "32", "Rnd 1: K25, pm, k7.\nRnd 2: Work in Small Arches to m, sm, k to end.", 32, ""},
		{"on a needle", arches, "32", "Arrange the sts: 16 on N1, 16 on N2.\nRnd 1: N1: k3, work in Small Arches to end; N2: k to end.", 32, ""},
		{"the count swells", swelling, "8", "Work 1 rnd in Low Swell. 12 sts.", 12, ""},
		{"and goes on with its next row", swelling, "8", "Work 1 rnd in Low Swell. 12 sts.\nWork 1 more rnd in Low Swell. 12 sts.\nWork 1 more rnd in Low Swell. 8 sts.\nWork 1 more rnd in Low Swell. 12 sts.", 12, ""},
		{"does not divide", arches, "60", "Work 12 rnds in Small Arches.", 60, "Small Arches is worked over 60 stitches here, and Rnd 1 of it works a multiple of 6 stitches and 1 more"},
		{"too few", arches, "32", "Rnd 1: Work 38 sts in Small Arches.", 32, "Rnd 1"},
		{"wrong side", twoBands, "8", "Work 2 rnds in Two Bands.", 8, "is for the other side of the work"},
		{"rows do not fit", strings.Replace(arches, "s2kp2", "k2tog", 1), "61", "Knit 1 rnd.", 61, "Rnd 1 of Small Arches works a multiple of 5 stitches and 1 more, but a multiple of 6 stitches and 1 more lie there"},
		{"does not come back", strings.Replace(arches, "s2kp2", "k3", 1), "61", "Knit 1 rnd.", 61, "leaves a multiple of 8 stitches and 1 more when all its rows are worked, but begins with a multiple of 6 stitches and 1 more"},
	} {
		res, f, p := knitted(t, c.motif, c.stitches, c.lines)
		var texts []string
		for _, x := range res.Faults {
			texts = append(texts, x.Text.String())
		}
		switch {
		case c.fault == "" && len(texts) > 0:
			t.Errorf("%s: %s", c.name, texts)
		case c.fault != "" && (len(texts) != 1 || !strings.Contains(texts[0], c.fault)):
			t.Errorf("%s: %q, want one with %q", c.name, texts, c.fault)
		}
		if c.fault == "" && res.Final != c.final {
			t.Errorf("%s: %d stitches at the end, want %d", c.name, res.Final, c.final)
		}
		if w := notation.Write(p).Text; w != f.Text {
			t.Errorf("%s: written again as\n%s\nThe words were\n%s", c.name, w, f.Text)
		}
	}
}

// A cable takes its front stitches past those behind, to the side that its name says, and
// only those behind are purled.
func TestCables(t *testing.T) {
	const front, behind, purl = fabric.InFront, fabric.Behind, fabric.BehindPurl
	for words, want := range map[string]struct {
		kinds []fabric.Kind
		from  []int32 // of the six cast on, in the order in which they are worked
	}{
		"LT, k4":       {[]fabric.Kind{behind, front}, []int32{1, 0}},
		"RT, k4":       {[]fabric.Kind{front, behind}, []int32{1, 0}},
		"LPC, k4":      {[]fabric.Kind{purl, front}, []int32{1, 0}},
		"RPC, k4":      {[]fabric.Kind{front, purl}, []int32{1, 0}},
		"T3F, k3":      {[]fabric.Kind{purl, front, front}, []int32{2, 0, 1}},
		"T3B, k3":      {[]fabric.Kind{front, front, purl}, []int32{1, 2, 0}},
		"C4F, k2":      {[]fabric.Kind{behind, behind, front, front}, []int32{2, 3, 0, 1}},
		"C4B, k2":      {[]fabric.Kind{front, front, behind, behind}, []int32{2, 3, 0, 1}},
		"C6F":          {[]fabric.Kind{behind, behind, behind, front, front, front}, []int32{3, 4, 5, 0, 1, 2}},
		"C6B":          {[]fabric.Kind{front, front, front, behind, behind, behind}, []int32{3, 4, 5, 0, 1, 2}},
		"K2, C4F":      {[]fabric.Kind{fabric.Knit, fabric.Knit, behind, behind, front, front}, []int32{0, 1, 4, 5, 2, 3}},
		"[LT] 3 times": {[]fabric.Kind{behind, front, behind, front, behind, front}, []int32{1, 0, 3, 2, 5, 4}},
	} {
		res, f, p := knitted(t, "", "6", "Rnd 1: "+words+".")
		for _, x := range res.Faults {
			t.Errorf("%s: %v", words, source.Find(f, p.Sizes, x))
		}
		for i, kind := range want.kinds {
			loop := int32(6 + i)
			if got := res.Fabric.Loops[loop].Kind; got != kind || res.Fabric.Through(loop)[0] != want.from[i] {
				t.Errorf("%s: stitch %d is %s through %d, want %s through %d", words, i, got, res.Fabric.Through(loop)[0], kind, want.from[i])
			}
		}
	}
	// With too few stitches for a crossing nothing is crossed.
	if res, _, _ := knitted(t, "", "3", "Rnd 1: C4F."); len(res.Faults) == 0 || res.Final != 3 {
		t.Errorf("four of three stitches are crossed: %d faults, %d stitches", len(res.Faults), res.Final)
	}
}

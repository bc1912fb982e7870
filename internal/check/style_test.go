package check_test

import (
	"os"
	"strings"
	"testing"

	"sockwright/internal/check"
	"sockwright/internal/source"
)

func style(t *testing.T, text string) *check.Style {
	t.Helper()
	s, faults := check.ReadStyle(source.NewFile("house.toml", text))
	for _, x := range faults {
		t.Errorf("style sheet: %v", x.Text)
	}
	if s == nil {
		t.FailNow()
	}
	return s
}

// Each rule alone: the line as it is, and as the house wants it. What the rule has an edit
// for is mended; what is right already is left alone.
func TestStyle(t *testing.T) {
	for _, c := range []struct{ rule, line, want string }{
		{"[labels]\nround = \"Rnd\"", "Round 1: Knit.", "Rnd 1: Knit."},
		{"[labels]\nround = \"Round\"", "Rnd 1: Knit.", "Round 1: Knit."},
		{"[labels]\nround = \"Rnd\"", "Rnd 1: Knit.", "Rnd 1: Knit."},
		{"[labels]\nround = \"Round\"", "Rnds 1-3: Knit.", "Rounds 1-3: Knit."},
		{"[labels]\nside = \"[RS]\"", "Row 1 (RS): K5, turn.", "Row 1 [RS]: K5, turn."},
		{"[labels]\nside = \"(RS)\"", "Row 2 (WS): P5, turn.", "Row 2 (WS): P5, turn."},
		{"[ranges]\ndash = \"–\"", "Rnds 1-3: Knit.", "Rnds 1–3: Knit."},
		{"[ranges]\ndash = \"-\"", "Rnds 1–3: Knit.", "Rnds 1-3: Knit."},
		{"[sizes]\nbrackets = \"[]\"", "Rnd 1: K10 (12), p to end.", "Rnd 1: K10 [12], p to end."},
		{"[sizes]\nbrackets = \"()\"", "Rnd 1: K10 [12], p to end.", "Rnd 1: K10 (12), p to end."},
		{"[repeats]\ntold_by = \"[]\"", "Rnd 1: (K2, p2) 4 times, k to end.", "Rnd 1: [K2, p2] 4 times, k to end."},
		{"[repeats]\ntold_by = \"()\"", "Rnd 1: [K2, p2] 4 times, k to end.", "Rnd 1: (K2, p2) 4 times, k to end."},
		{"[spelling]\n\"k2tog\" = [\"K2TOG\"]", "Rnd 1: K3, K2TOG, k to end.", "Rnd 1: K3, k2tog, k to end."},
		{"[spelling]\n\"k2tog\" = [\"K2TOG\"]", "Rnd 1: K2TOG, k to end.", "Rnd 1: K2tog, k to end."},
		{"[spelling]\n\"sts\" = [\"stitches\"]", "Rnd 1: K to last 2 stitches, p2.", "Rnd 1: K to last 2 sts, p2."},
		{"[counts]\nafter = \"shaping rows\"", "Rnd 1: K1, ssk, k to end.", "Rnd 1: K1, ssk, k to end. 23 (27) sts."},
		{"[counts]\nafter = \"shaping rows\"", "Rnd 1: K1, ssk, k to end. 1 st dec'd.", "Rnd 1: K1, ssk, k to end. 1 st dec'd."},
		{"[counts]\nafter = \"none\"", "Rnd 1: K1, ssk, k to end.", "Rnd 1: K1, ssk, k to end."},
		{"[lengths]\nunits = \"in (cm)\"", "Finished girth: 15 cm / 6 in.", "Finished girth: 6 in (15 cm)."},
		{"[lengths]\nunits = \"in [cm]\"", "Finished girth: 6 (7 1/2) in (15 (19) cm).", "Finished girth: 6 (7 1/2) in [15 (19) cm]."},
		{"[lengths]\nunits = \"cm\"", "Finished girth: 6 in (15 cm).", "Finished girth: 15 cm."},
		{"[lengths]\nunits = \"in / cm\"", "Finished girth: 6 in / 15 cm.", "Finished girth: 6 in / 15 cm."},
		{"", "Round 1: K2TOG, K to END.", "Round 1: K2TOG, K to END."},
	} {
		head := "LOW TIDE\n\nSizes: S (M)\nCO 24 (28) sts. Join to work in the round without twisting. The rnd begins at the center of the back.\n"
		if strings.Contains(c.rule, `brackets = "[]"`) {
			head = "LOW TIDE\n\nSizes: S [M]\nCO 24 [28] sts. Join to work in the round without twisting. The rnd begins at the center of the back.\n"
		}
		f := source.NewFile("tide.txt", head+c.line+"\n")
		found := check.Pattern(f).Style(style(t, c.rule), source.Note)
		if got := check.Mend(f, found).Text(); got != strings.Replace(f.Text, c.line, c.want, 1) && strings.TrimPrefix(got, head) != c.want+"\n" {
			t.Errorf("%s:\n%s became\n%s, want\n%s", c.rule, c.line, strings.TrimPrefix(got, head), c.want)
		}
		if c.line == c.want && len(found) > 0 {
			t.Errorf("%s: %s: %v", c.rule, c.line, found[0].Text)
		}
		for _, x := range found {
			if x.Kind != check.OffStyle || x.Severity != source.Note || !x.At.Known() || x.Mends[0].Why.String() == "" {
				t.Errorf("%s: %+v", c.rule, x)
			}
			readsWell(t, x.Text.String())
		}
	}
}

// Words that are like those of the sheet and mean something else.
func TestStyleLeavesAlone(t *testing.T) {
	s := style(t, "[spelling]\n\"rnd\" = [\"round\"]\n\"st\" = [\"stitch\"]\n[labels]\nround = \"Rnd\"\n[ranges]\ndash = \"–\"\n")
	r := report("ROUND TOWER\n\nA round stitch for a round sock, 3-4 hours.\nCO 60 sts. Join to work in the round without twisting. The rnd begins at the center of the back.\nRnd 1: Knit.\n")
	for _, x := range r.Style(s, source.Note) {
		t.Errorf("%v", source.Find(r.File, r.Sizes, x))
	}
}

func TestStyleRefused(t *testing.T) {
	for text, want := range map[string]string{
		"[labels]\nround = \"Rd\"\n":    `2:9: labels.round = "Rd" is not known here: it is one of Rnd, Round`,
		"[labels]\nroud = \"Rnd\"\n":    `did you mean "round"?`,
		"[lables]\nround = \"Rnd\"\n":   `1:2: "lables" is not a key of a style sheet`,
		"[spelling]\nrnd = \"round\"\n": `2:7: spelling.rnd = "round" is not a list of texts`,
		"[spelling]\nrnd = [\"rnd\"]\n": `“rnd” is to be written and not to be written`,
		"[lengths]\nunits = \"feet\"\n": `lengths.units = "feet" is not known here`,
		"[sizes]\nseparator = 3\n":      `2:13: sizes.separator = 3 is not a text in quotation marks`,
		"round = Rnd\n":                 `1:`,
	} {
		f := source.NewFile("house.toml", text)
		s, faults := check.ReadStyle(f)
		refused(t, f, s == nil, faults, want)
	}
}

// The style sheet to begin with can be read, and says something of every table but the one
// that it leaves free.
func TestHouseStyle(t *testing.T) {
	text, err := os.ReadFile("../../examples/styles/house-style.toml")
	if err != nil {
		t.Fatal(err)
	}
	s := style(t, string(text))
	if len(s.Spelling) == 0 || s.Brackets == "" || s.Separator == "" || s.CountsBy == "" || s.Lengths == "" || s.Round == "" || s.Side == "" || s.Dash == "" || s.Repeats != "" {
		t.Errorf("read as %+v", s)
	}
	free := style(t, strings.ReplaceAll(string(text), "# [repeats]\n# told_by", "[repeats]\ntold_by"))
	if free.Repeats != "[]" {
		t.Errorf("what is switched off reads as %q", free.Repeats)
	}
}

package check_test

import (
	"encoding/json"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"sockwright/internal/check"
	"sockwright/internal/source"
)

const reviewed = `SALT STAIR

Sizes: S (M, L)
Gauge: 32 sts and 44 rnds over 10 cm
Finished foot circumference: 18 (19, 20) cm

A sock for the cold end of the pier.

CUFF

CO 56 (64, 60) sts. Join to work in the round without twisting. The rnd begins at the center of the back.
Rnd 1: *K2, p2; rep from * to end.
Work Rnd 1 again on each of the next 10 rnds.

TOE

Dec rnd: K1, ssk, k to last 3 sts, k2tog, k1. 54 (62, 58) sts.
`

func TestReview(t *testing.T) {
	r := report(reviewed)
	v := r.Review()
	if len(v.Lists) != 2 || v.Lists[0] != (check.Listed{Line: 11, Words: "56 (64, 60)", Says: "the order turns from size M to size L"}) {
		t.Errorf("lists are %+v", v.Lists)
	}
	if len(v.Girths) != 2 || v.Girths[0].Line != 11 || v.Girths[0].MM[1] != 200 {
		t.Errorf("girths are %+v", v.Girths)
	}
	if len(v.Stated) != 1 || v.Stated[0].Line != 5 {
		t.Errorf("measures that are stated are %+v", v.Stated)
	}
	if len(v.Sections) != 2 || !strings.EqualFold(v.Sections[1].Name, "toe") || strings.Join(v.Sections[1].Rows[0].Cells, " ") != "54 62 58" {
		t.Errorf("sections are %+v", v.Sections)
	}
	for _, want := range []check.Quoted{
		{Line: 7, Why: "read as prose: nothing in it is worked", Words: "A sock for the cold end of the pier."},
	} {
		found := false
		for _, u := range v.Unchecked {
			found = found || u == want
		}
		if !found {
			t.Errorf("%+v is not told to be unchecked: %+v", want, v.Unchecked)
		}
	}
	for _, u := range v.Unchecked {
		if u.Line >= 9 {
			t.Errorf("line %d is told to be unchecked: %+v", u.Line, u)
		}
	}
	if _, err := json.Marshal(v); err != nil {
		t.Error(err)
	}
}

// The heading of a part whose rows are counted is no line that was passed over.
func TestReviewHeading(t *testing.T) {
	v := report(readFile(t, "testdata/cases/gravel-spit.pattern.txt")).Review()
	if !slices.ContainsFunc(v.Sections, func(s check.Section) bool { return s.Line == 10 && s.Name == "Heel turn" }) {
		t.Errorf("line 10 begins no section: %+v", v.Sections)
	}
	for _, u := range v.Unchecked {
		if u.Line == 10 {
			t.Errorf("told to be unchecked: %+v", u)
		}
	}
}

// A text without gauge, with a line that cannot be read, and a chart without key says so.
func TestReviewOfWhatIsLeftOut(t *testing.T) {
	v := report(`HALF LIGHT

CO 60 sts. Join to work in the round without twisting. The rnd begins at the center of the back.
Rnd 1: Knit.
Rnd 2: K2, frobnicate 3, k to end.
Rnd 3: Knit.
`).Review()
	v.Findings = nil
	text := v.Text()
	for _, want := range []string{
		"No gauge was read: no girth could be worked out",
		"Not read, or not to the end of the line\n    line 5: Rnd 2: K2, frobnicate 3, k to end.",
		"Counts that are not sure\n",
		"What is left on the needles at the end cannot be told",
		"One size.",
		"No queries are kept",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the report does not say %q:\n%s", want, text)
		}
	}
}

// The report goes in an editor's order, and ends with a line to sign.
func TestReviewText(t *testing.T) {
	r := report(reviewed)
	v := r.Review()
	v.Queries = queries(t, strings.ReplaceAll(answered, "line = 4", "line = 7")+"\n[[query]]\nid = \"q9\"\nline = 11\nsizes = \"L\"\nquestion = \"Fewer than M?\"\n")
	v.Findings = []source.Finding{{Line: 11, Column: 4, Severity: "note", Message: "is it so?"}}
	text := v.Text()
	from := 0
	for _, want := range []string{
		"TECHNICAL EDIT: gate.txt\n", "SHA-256", "Sizes and their lists\n", "3 sizes: S (M, L)", "line 11: 56 (64, 60): the order turns from size M to size L",
		"Gauge against girth\n", "17.5 (20, 18.8)", "Finished foot circumference", "Counts, line by line\n", "Rnd 1", "Measures\n", "Terms\n", "Charts\n",
		"Findings\n", "11:4: note: is it so?", "What could not be checked\n", "Open queries\n", "q9  line 11: L: Fewer than M?", "Answered before:\n", "answered: Yes. (Ada)", "Checked by  ____",
	} {
		i := strings.Index(text[from:], want)
		if i < 0 {
			t.Fatalf("%q does not follow in the report:\n%s", want, text)
		}
		from += i
	}
}

// Everything that can be shown of a text can be shown of any text, the same every time; its
// queries are written once, and reading them back changes nothing.
func TestAnyText(t *testing.T) {
	names, err := filepath.Glob("testdata/*/*.txt")
	if err != nil || len(names) < 50 {
		t.Fatalf("%d texts, %v", len(names), err)
	}
	sheet := style(t, readFile(t, "../../examples/styles/house-style.toml")+"[repeats]\ntold_by = \"[]\"\n")
	for _, name := range names {
		text := readFile(t, name)
		for _, text := range []string{text, strings.ReplaceAll(text, "\n", "\r\n"), text[:len(text)/2], strings.ToUpper(text), "\xff\x00" + text, text[len(text)/2:]} {
			r := check.Pattern(source.NewFile(name, text))
			r.Faults = source.Merge(append(r.Faults, r.Style(sheet, source.Warning)...))
			v := r.Review()
			if v.Text() != r.Review().Text() {
				t.Fatalf("%s: two reports differ", name)
			}
			if strings.Contains(v.Text(), " \n") {
				t.Errorf("%s: a line of the report ends with a blank", name)
			}
			if doc, err := json.Marshal(v); err != nil || strings.Contains(string(doc), ":null") {
				t.Errorf("%s: a list of the report is null: %v", name, err)
			}
			if lines := strings.Count(r.Annotated(), "\n"); lines != v.Lines+1 {
				t.Errorf("%s: %d lines with counts, of %d", name, lines, v.Lines)
			}
			for _, c := range r.Counts {
				if _, err := r.At(c.Line, r.Sizes[c.Size]); err != nil {
					t.Errorf("%s: line %d: %v", name, c.Line, err)
				}
			}
			repair := check.Mend(r.File, r.Faults)
			if n := len(repair.Mended) + len(repair.Skipped) + len(repair.Open); n != len(r.Faults) {
				t.Errorf("%s: %d of %d findings are mended or not", name, n, len(r.Faults))
			}
			repair.Diff()
			asked, _ := written(t, "", r)
			if again, told := written(t, asked, r); again != asked || told != "" {
				t.Errorf("%s: queries asked again: %s\n%s", name, told, again)
			}
		}
	}
}

package check_test

import (
	"strings"
	"testing"

	"sockwright/internal/check"
	"sockwright/internal/source"
)

// asking is a pattern with one finding for an editor to ask about: a warning on the line
// that is put in.
func asking(line string) *check.Report {
	f := source.NewFile("tern.txt", "TERN ROCK\n\nCO 60 sts.\n"+line+"\nRnd 2: Knit.\n")
	r := check.Pattern(f)
	r.Faults = nil
	for n := 1; n <= f.Lines(); n++ {
		if at := f.LineSpan(n); strings.Contains(f.Slice(at), "?") {
			r.Faults = append(r.Faults, source.Fault{At: at, Kind: source.Ambiguous, Severity: source.Warning, Text: source.Say("k", "is it so?")})
		}
	}
	return r
}

func queries(t *testing.T, text string) *check.Queries {
	t.Helper()
	q, faults := check.ReadQueries(source.NewFile("tern.queries.toml", text))
	for _, x := range faults {
		t.Errorf("queries: %v", x.Text)
	}
	if q == nil {
		t.FailNow()
	}
	return q
}

// written is the file after asking about a pattern.
func written(t *testing.T, before string, r *check.Report) (after, told string) {
	t.Helper()
	q := queries(t, before)
	q.Ask(r)
	after, err := q.Text("tern.txt")
	if err != nil {
		t.Fatal(err)
	}
	return after, strings.Join(q.Told, "; ")
}

func TestQueriesBegin(t *testing.T) {
	text, told := written(t, "", asking("Rnd 1: Knit twice?"))
	if told != "q1 is new: line 4" {
		t.Errorf("told %q", told)
	}
	if want := `
[[query]]
id = "q1"
line = 4
words = "Rnd 1: Knit twice?"
kind = "ambiguous"
question = "is it so?"
status = "open"
answer = ""
who = ""
`; !strings.HasSuffix(text, want) || !strings.HasPrefix(text, "# Queries about tern.txt.") {
		t.Errorf("the file is\n%s", text)
	}
	again, told := written(t, text, asking("Rnd 1: Knit twice?"))
	if again != text || told != "" {
		t.Errorf("asked again, the file is\n%s\nand %q is told", again, told)
	}
}

// answered is a file that somebody has answered, with words of her own around.
const answered = `# by the second reader
[[query]] # from the first round
id = "q4"
line = 4
words = "Rnd 1: Knit twice?"
kind = "ambiguous"
question = "is it so?"
status = "answered" # she was sure
answer = "Yes."
who = "Ada"

# the end
`

func TestQueriesStay(t *testing.T) {
	for name, c := range map[string]struct {
		text       string // of the pattern's line
		told       string
		line       string // in the file then
		status     string
		newQueries int
	}{
		"the line is as it was":        {"Rnd 1: Knit twice?", "", "line = 4", `status = "answered"`, 0},
		"it is spaced otherwise":       {"Rnd 1:  knit   twice?", "", "line = 4", `status = "answered"`, 0},
		"it has moved":                 {"A word.\n\nRnd 1: Knit twice?", "", "line = 6", `status = "answered"`, 0},
		"its words have changed":       {"Rnd 1: Knit thrice?", "q4 is open again: the words of line 4 have changed", "line = 4", `status = "open"`, 0},
		"they changed and moved":       {"A word.\nRnd 1: Purl twice?", "q4 is open again: the words of line 5 have changed", "line = 5", `status = "open"`, 0},
		"it is gone":                   {"Rnd 1: Knit.", "", "line = 4", `status = "answered"`, 0},
		"another line, another query":  {"Rnd 1: Knit twice?\nBind off somehow or other?", "q5 is new: line 5", "line = 4", `status = "answered"`, 1},
		"a line that stands there now": {"Bind off somehow or other?", "q5 is new: line 4", "line = 4", `status = "answered"`, 1},
	} {
		text, told := written(t, answered, asking(c.text))
		if told != c.told {
			t.Errorf("%s: told %q, want %q", name, told, c.told)
		}
		if !strings.Contains(text, "\n"+c.line+"\n") || !strings.Contains(text, "\n"+c.status+" # she was sure\n") || strings.Count(text, "[[query]]") != 1+c.newQueries {
			t.Errorf("%s: the file is\n%s", name, text)
		}
		for _, kept := range []string{"# by the second reader\n", "[[query]] # from the first round\n", "answer = \"Yes.\"\nwho = \"Ada\"\n", "\n# the end\n"} {
			if !strings.Contains(text, kept) {
				t.Errorf("%s: %q is lost:\n%s", name, kept, text)
			}
		}
	}
}

// An open query whose finding has gone is settled, and open again if it comes back.
func TestQueriesSettle(t *testing.T) {
	text, _ := written(t, "", asking("Rnd 1: Knit twice?"))
	text, told := written(t, text, asking("Rnd 1: Knit."))
	if told != "q1 is settled: line 4 no longer raises it" || !strings.Contains(text, `who = "check"`) {
		t.Errorf("told %q\n%s", told, text)
	}
	text, told = written(t, text, asking("Rnd 1: Knit twice?"))
	if told != "q1 is open again: line 4 raises it again" || !strings.Contains(text, `status = "open"`) {
		t.Errorf("told %q\n%s", told, text)
	}
}

// A query of a person's own needs an id, a question and a line; its words are filled in, and
// from then on it goes with them.
func TestQueriesOfAPerson(t *testing.T) {
	text, told := written(t, "[[query]]\nid = \"mine\"\nline = 5\nquestion = \"Why two?\"\n", asking("Rnd 1: Knit."))
	if want := "[[query]]\nid = \"mine\"\nwords = \"Rnd 2: Knit.\"\nline = 5\nquestion = \"Why two?\"\n"; text != want || told != "" {
		t.Errorf("told %q, and the file is\n%s", told, text)
	}
	text = strings.Replace(text, "\nline", "\nstatus = \"waived\"\nanswer = \"It is a draft.\"\nline", 1)
	text, told = written(t, text, asking("Rnd 1: Knit.\nRnd 1a: Purl."))
	if !strings.Contains(text, "line = 6\n") || !strings.Contains(text, "waived") || told != "" {
		t.Errorf("told %q, and the file is\n%s", told, text)
	}
	r := check.Pattern(source.NewFile("tern.txt", "CO 60 sts.\nRnd 2: Purl.\n"))
	if text, told = written(t, text, r); told != "mine is open again: the words of its line have changed" || !strings.Contains(text, `words = "Rnd 2: Purl."`) {
		t.Errorf("told %q, and the file is\n%s", told, text)
	}
}

func TestQueriesSilence(t *testing.T) {
	r := asking("Rnd 1: Knit twice?")
	r.Faults = append(r.Faults, source.Fault{At: r.Faults[0].At, Kind: source.Ambiguous, Severity: source.Error, Text: source.Say("k", "is it so?")})
	for text, want := range map[string]int{
		answered: 1, // the error is told whatever is answered
		strings.Replace(answered, `"answered"`, `"open"`, 1): 2,
		"": 2,
	} {
		q := queries(t, text)
		q.Ask(r)
		if told, silenced := q.Silence(r); len(told) != want || len(told)+len(silenced) != 2 {
			t.Errorf("%d findings are told and %d silenced, want %d told:\n%s", len(told), len(silenced), want, text)
		}
	}
}

// An answer for one size is no answer for another.
func TestQueriesBySize(t *testing.T) {
	r := asking("Rnd 1: Knit twice?")
	r.Sizes = []string{"S", "M"}
	r.Faults[0].Sizes = source.OneSize(0)
	text, _ := written(t, "", r)
	text = strings.Replace(strings.Replace(text, `"open"`, `"waived"`, 1), `answer = ""`, `answer = "S is for dolls"`, 1)
	if _, told := written(t, text, r); told != "" {
		t.Errorf("the same size: %q is told", told)
	}
	r.Faults[0].Sizes = source.AllSizes(2)
	after, told := written(t, text, r)
	if told != "q1 is open again: line 4 raises it in other sizes now" || !strings.Contains(after, `sizes = "S, M"`) {
		t.Errorf("told %q\n%s", told, after)
	}
}

func TestQueriesRefused(t *testing.T) {
	const head = "[[query]]\nid = \"q1\"\nquestion = \"why?\"\n"
	for text, want := range map[string]string{
		head + "colour = \"red\"\n":                     `4:1: "colour" is not a key of [query]`,
		head + "anwser = \"red\"\n":                     `did you mean "answer"?`,
		"[[querry]]\nid = \"q1\"\n":                     `1:3: "querry" is not a key of a file of queries`,
		head + head:                                     `5:6: two queries are called q1`,
		"[[query]]\nquestion = \"why?\"\n":              `1:3: a query has no id`,
		"[[query]]\nid = \"q1\"\n":                      `query q1 asks nothing`,
		head + "status = \"done\"\n":                    `4:10: query.status = "done" is not known here: it is one of open, answered, waived`,
		head + "status = \"waived\"\n":                  `4:10: query q1 is waived without a word why`,
		head + "line = \"four\"\n":                      `4:8: query.line = "four" is not a whole number`,
		"query = 3\n":                                   `query = 3 is not a list of tables`,
		"[[query]\n":                                    `1:`,
		"[[query]]\nid = \"q1\"\nquestion = \"\xff\"\n": `3:13: the file is not a text in UTF-8`,
	} {
		f := source.NewFile("tern.queries.toml", text)
		q, faults := check.ReadQueries(f)
		refused(t, f, q == nil, faults, want)
	}
}

// A file whose queries are not told one by one is never half rewritten.
func TestQueriesInline(t *testing.T) {
	q := queries(t, "query = [{id = \"q1\", question = \"why?\"}]\n")
	q.Ask(asking("Rnd 1: Knit twice?"))
	if text, err := q.Text("tern.txt"); err == nil {
		t.Errorf("written as\n%s", text)
	}
}

// Line ends of another system are kept.
func TestQueriesCRLF(t *testing.T) {
	text, _ := written(t, strings.ReplaceAll(answered, "\n", "\r\n"), asking("Rnd 1: Knit twice?\nBind off somehow?"))
	if n := strings.Count(text, "\n"); n != strings.Count(text, "\r\n") || n < 20 {
		t.Errorf("the file is %q", text)
	}
}

package check

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"sockwright/internal/design"
	"sockwright/internal/source"
)

// Status is how far a query has come.
type Status string

const (
	Asked    Status = "open"
	Answered Status = "answered"
	Waived   Status = "waived" // it is left as it is, for a reason
)

// A Query is what an editor must ask about a line: the arithmetic may work, but is it what
// the designer wants? It is kept in a file beside the text.
type Query struct {
	ID       string      `json:"id"`
	Line     int         `json:"line"`
	Words    string      `json:"words"` // of the line when it was asked; they, not the number, say which line it is
	Sizes    string      `json:"sizes"` // by name, "S, M"; "" for all or none
	Kind     source.Kind `json:"kind"`  // of the finding; "" if a person has asked
	Question string      `json:"question"`
	Status   Status      `json:"status"`
	Answer   string      `json:"answer"` // or the reason for waiving it
	Who      string      `json:"who"`

	at     *design.Table // nil if it is new
	before *Query        // as it stands in the file
}

// settled is who answers a query whose finding has gone because the text was mended.
const settled = "check"

// Queries are the queries about one text.
type Queries struct {
	All []*Query // those of the file in its order, then new ones by line
	// Told is what has become of queries since the file was written, in words.
	Told []string

	file *source.File
	of   map[asking]*Query
}

// asking is what makes a finding the same question.
type asking struct {
	line     int
	kind     source.Kind
	question string
}

// QueriesName is the file of queries that goes with a text.
func QueriesName(text string) string {
	if dot := strings.LastIndexByte(text, '.'); dot > strings.LastIndexAny(text, `/\`)+1 {
		text = text[:dot]
	}
	return text + ".queries.toml"
}

// ReadQueries reads a file of queries; nil where its faults leave none. An empty text has no
// queries.
func ReadQueries(f *source.File) (*Queries, []source.Fault) {
	root, faults := design.ReadTable(f, "a file of queries")
	if root == nil {
		return nil, faults
	}
	q := &Queries{file: f}
	seen := map[string]bool{}
	for _, t := range root.Tables("query") {
		x := &Query{ID: t.Text("id", ""), Line: t.Int("line", 0, 0, 1<<30), Words: plainWords(t.Text("words", "")), Sizes: t.Text("sizes", ""),
			Kind: source.Kind(t.Text("kind", "")), Question: t.Text("question", ""),
			Status: Status(t.Choice("status", string(Asked), string(Answered), string(Waived))), Answer: t.Text("answer", ""), Who: t.Text("who", ""), at: t}
		switch {
		case x.ID == "":
			t.Fault("id", source.Error, source.Say("queries.no-id", "a query has no id"), `give it one that no other has, such as id = "q7"`)
		case seen[x.ID]:
			t.Fault("id", source.Error, source.Say("queries.twice", "two queries are called {0}", x.ID), "give one of them another id")
		case strings.TrimSpace(x.Question) == "":
			t.Fault("question", source.Error, source.Say("queries.no-question", "query {0} asks nothing", x.ID), `add a line such as question = "Is the cuff to be longer than the leg?"`)
		case x.Status != Asked && strings.TrimSpace(x.Answer) == "":
			t.Fault("status", source.Error, source.Say("queries.no-answer", "query {0} is {1} without a word why", x.ID, x.Status), `add a line such as answer = "Yes: the model was knitted so"`)
		}
		seen[x.ID] = true
		before := *x
		x.before = &before
		q.All = append(q.All, x)
	}
	faults = root.Done()
	if worst, any := source.Worst(faults); any && worst == source.Error {
		return nil, faults
	}
	return q, faults
}

// plainWords are the words of a line without regard to how they are spaced.
func plainWords(s string) string {
	return strings.Join(strings.Fields(strings.ToValidUTF8(s, "\ufffd")), " ")
}

func sameWords(a, b string) bool { return strings.EqualFold(a, b) }

// Ask brings the queries up to the present notes and warnings of a text. A query stays
// answered as long as the words of its line stay the same, wherever the line moves; it is
// opened again where they, or the question, have changed. An open query whose finding has
// gone is settled.
func (q *Queries) Ask(r *Report) {
	raised := raise(r)
	q.of = map[asking]*Query{}
	q.Told = nil
	for _, same := range []func(old, now *Query) bool{
		func(old, now *Query) bool { return sameWords(old.Words, now.Words) && old.Question == now.Question },
		func(old, now *Query) bool { return sameWords(old.Words, now.Words) && old.Words != "" },
		func(old, now *Query) bool { return old.Question == now.Question && alike(old.Words, now.Words) },
		func(old, now *Query) bool { return old.Line == now.Line && alike(old.Words, now.Words) },
	} {
		for _, old := range q.All {
			if old.Kind == "" || old.bound(q) {
				continue
			}
			var best *Query
			for _, now := range raised {
				if now.ID == "" && now.Kind == old.Kind && same(old, now) && (best == nil || distance(old.Line, now.Line) < distance(old.Line, best.Line)) {
					best = now
				}
			}
			if best != nil {
				best.ID = old.ID
				q.bind(old, best)
			}
		}
	}
	for _, old := range q.All {
		switch {
		case old.Kind == "":
			q.follow(old, r.File)
		case !old.bound(q) && old.Status == Asked:
			old.Status, old.Answer, old.Who = Answered, "the text no longer raises this", settled
			q.tell("%s is settled: line %d no longer raises it", old.ID, old.Line)
		}
	}
	for _, now := range raised {
		if now.ID == "" {
			now.ID = q.free()
			q.All = append(q.All, now)
			q.of[now.asks()] = now
			q.tell("%s is new: line %d", now.ID, now.Line)
		}
	}
}

// raise makes a query of every note and warning, one of those that say the same of a line.
func raise(r *Report) []*Query {
	var out []*Query
	sizes := map[*Query]source.SizeSet{}
	for _, x := range r.Faults {
		if x.Severity == source.Error {
			continue
		}
		f := source.Find(r.File, r.Sizes, x)
		now := &Query{Line: f.Line, Words: plainWords(r.File.Line(f.Line)), Kind: f.Kind, Question: asked(f).question, Status: Asked}
		if i := slices.IndexFunc(out, func(o *Query) bool { return o.asks() == now.asks() }); i >= 0 {
			now = out[i]
		} else {
			out = append(out, now)
		}
		sizes[now] |= x.Sizes
		now.Sizes = strings.Join(sizes[now].Names(r.Sizes), ", ")
	}
	slices.SortStableFunc(out, func(a, b *Query) int { return cmp.Compare(a.Line, b.Line) })
	return out
}

// asked is the question that a finding is.
func asked(f source.Finding) asking {
	return asking{f.Line, f.Kind, strings.ToValidUTF8(f.Message, "\ufffd")}
}

func (x *Query) asks() asking { return asking{x.Line, x.Kind, x.Question} }

func (x *Query) bound(q *Queries) bool { return q.of[x.asks()] == x }

// bind gives a query the place and the words that it has now.
func (q *Queries) bind(old, now *Query) {
	why := ""
	switch {
	case !sameWords(old.Words, now.Words):
		why = fmt.Sprintf("the words of line %d have changed", now.Line)
	case old.Question != now.Question:
		why = fmt.Sprintf("line %d raises another question now", now.Line)
	case !covers(old.Sizes, now.Sizes):
		why = fmt.Sprintf("line %d raises it in other sizes now", now.Line)
	case old.Who == settled && old.Status != Asked:
		why = fmt.Sprintf("line %d raises it again", now.Line)
	}
	old.Line, old.Words, old.Question = now.Line, now.Words, now.Question
	if why != "" {
		old.Sizes = now.Sizes
		q.reopen(old, why)
	}
	q.of[old.asks()] = old
}

func (q *Queries) reopen(x *Query, why string) {
	if x.Status != Asked {
		x.Status = Asked
		q.tell("%s is open again: %s", x.ID, why)
	}
}

func (q *Queries) tell(format string, args ...any) {
	q.Told = append(q.Told, fmt.Sprintf(format, args...))
}

// covers tells whether an answer for some sizes holds for others.
func covers(old, now string) bool {
	have := strings.Split(old, ", ")
	for _, size := range strings.Split(now, ", ") {
		if !slices.Contains(have, size) {
			return false
		}
	}
	return true
}

// follow finds the line of a query that a person has asked.
func (q *Queries) follow(x *Query, f *source.File) {
	best := 0
	look := func(same func(words string) bool) {
		for n := 1; n <= f.Lines() && x.Words != ""; n++ {
			if same(plainWords(f.Line(n))) && (best == 0 || distance(n, x.Line) < distance(best, x.Line)) {
				best = n
			}
		}
	}
	if look(func(words string) bool { return sameWords(words, x.Words) }); best > 0 {
		x.Line = best
		return
	}
	look(func(words string) bool { return alike(x.Words, words) })
	if x.Words == "" && x.Line > 0 { // asked by line only: its words are kept from now on
		x.Words = plainWords(f.Line(x.Line))
		return
	}
	if best > 0 {
		x.Line, x.Words = best, plainWords(f.Line(best))
	}
	if x.Line > 0 {
		q.reopen(x, "the words of its line have changed")
	}
}

// alike tells whether two lines share more than half of their words.
func alike(a, b string) bool {
	one, other := strings.Fields(strings.ToLower(a)), strings.Fields(strings.ToLower(b))
	if len(one) == 0 || len(other) == 0 {
		return len(one) == len(other)
	}
	left := slices.Clone(other)
	shared := 0
	for _, w := range one {
		if i := slices.Index(left, w); i >= 0 {
			left[i] = ""
			shared++
		}
	}
	return 2*shared > max(len(one), len(other))
}

// free is the next id that no query has.
func (q *Queries) free() string {
	last := 0
	for _, x := range q.All {
		if n, err := strconv.Atoi(strings.TrimPrefix(x.ID, "q")); err == nil {
			last = max(last, n)
		}
	}
	return "q" + strconv.Itoa(last+1)
}

// Of is the query that a finding has become, nil if there is none.
func (q *Queries) Of(f source.Finding) *Query { return q.of[asked(f)] }

// Open counts the queries that wait for an answer.
func (q *Queries) Open() int {
	n := 0
	for _, x := range q.All {
		if x.Status == Asked {
			n++
		}
	}
	return n
}

// Silence parts the findings of a text into those that are still to be told and those that
// a query has answered.
func (q *Queries) Silence(r *Report) (told, answered []source.Fault) {
	for _, x := range r.Faults {
		if query := q.Of(source.Find(r.File, r.Sizes, x)); x.Severity != source.Error && query != nil && query.Status != Asked {
			answered = append(answered, x)
		} else {
			told = append(told, x)
		}
	}
	return told, answered
}

// ByLine lists the queries by line.
func (q *Queries) ByLine() []*Query {
	out := slices.Clone(q.All)
	slices.SortStableFunc(out, func(a, b *Query) int { return cmp.Compare(a.Line, b.Line) })
	return out
}

// String is a query in words: "line 12, sizes S, M: is it …? — answered: yes (who)".
func (x *Query) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s  ", x.ID)
	if x.Line > 0 {
		fmt.Fprintf(&b, "line %d: ", x.Line)
	}
	if x.Sizes != "" {
		fmt.Fprintf(&b, "%s: ", x.Sizes)
	}
	fmt.Fprintf(&b, "%s\n    %s", x.Question, x.Status)
	if x.Answer != "" {
		word := ": "
		if x.Status == Asked {
			word = "; before: "
		}
		b.WriteString(word + x.Answer)
	}
	if x.Who != "" {
		fmt.Fprintf(&b, " (%s)", x.Who)
	}
	return b.String()
}

const queriesHead = `# Queries about %s. Answer them here: set status to "answered" or "waived", say why
# in answer, and who says so. Comments and queries of your own (an id, a line, a question)
# are kept. "sockwright check --queries" brings this file up to the text.
`

// Text is the file of queries with what has changed: of old queries only the values that are
// new, then the new queries. Everything else stays as somebody has written it. The error is of
// a file in a form to which that cannot be done.
func (q *Queries) Text(of string) (string, error) {
	text, edits := q.file.Text, []source.Edit(nil)
	if strings.TrimSpace(text) == "" {
		text = fmt.Sprintf(queriesHead, of)
	}
	for _, x := range q.All {
		if x.at != nil {
			edits = append(edits, x.changes(q.file)...)
		}
	}
	if len(edits) > 0 {
		text = (&Repair{file: q.file, Edits: edits}).Text()
	}
	var b strings.Builder
	b.WriteString(text)
	if !strings.HasSuffix(text, "\n") {
		b.WriteString("\n")
	}
	for _, x := range q.All {
		if x.at == nil {
			b.WriteString("\n[[query]]\n")
			for _, key := range x.keys() {
				if key.value != "" || key.always {
					fmt.Fprintf(&b, "%s = %s\n", key.name, key.toml())
				}
			}
		}
	}
	out := b.String()
	if strings.Contains(q.file.Text, "\r\n") {
		out = strings.ReplaceAll(strings.ReplaceAll(out, "\r\n", "\n"), "\n", "\r\n")
	}
	again, faults := ReadQueries(source.NewFile(q.file.Name, out))
	if again == nil {
		return "", errors.New(source.Find(q.file, nil, faults[0]).Message)
	}
	for i, x := range again.All {
		if len(again.All) != len(q.All) || !slices.Equal(x.keys(), q.All[i].keys()) {
			return "", errors.New("its queries are not told one by one")
		}
	}
	return out, nil
}

// key is one line of a query in its file.
type key struct {
	name, value string
	number      bool
	always      bool // written even if empty
}

func (x *Query) keys() []key {
	return []key{{name: "id", value: x.ID}, {name: "line", value: strconv.Itoa(x.Line), number: true}, {name: "words", value: x.Words},
		{name: "sizes", value: x.Sizes}, {name: "kind", value: string(x.Kind)}, {name: "question", value: x.Question},
		{name: "status", value: string(x.Status), always: true}, {name: "answer", value: x.Answer, always: true}, {name: "who", value: x.Who, always: true}}
}

// toml is the value as the file spells it.
func (k key) toml() string {
	if k.number {
		return k.value
	}
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range k.value {
		switch {
		case r == '"' || r == '\\':
			b.WriteString(`\` + string(r))
		case r < ' ' || r == 0x7f:
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			b.WriteRune(r)
		}
	}
	return b.String() + `"`
}

// changes are the edits that bring a query of the file up to what it is now. A key that it
// lacks is put behind its id.
func (x *Query) changes(f *source.File) []source.Edit {
	var edits []source.Edit
	var lacking strings.Builder
	was := x.before.keys()
	for i, k := range x.keys() {
		if k == was[i] {
			continue
		}
		if at := x.at.Span(k.name); at.Known() {
			edits = append(edits, source.Edit{At: at, Text: k.toml()})
		} else {
			fmt.Fprintf(&lacking, "\n%s = %s", k.name, k.toml())
		}
	}
	if lacking.Len() > 0 {
		line, _ := f.Position(x.at.Span("id").Start)
		end := f.LineSpan(line).End
		edits = append(edits, source.Edit{At: source.Span{Start: end, End: end}, Text: lacking.String()})
	}
	slices.SortFunc(edits, func(a, b source.Edit) int { return int(a.At.Start) - int(b.At.Start) })
	return edits
}

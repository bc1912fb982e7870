package design

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"

	"sockwright/internal/source"
	"sockwright/internal/spell"
	"sockwright/internal/unit"
)

// A Table is a table of a design file: keys with raw values, each with its place. Taking a
// value of the wrong form reports a fault at its place and gives the default.
type Table struct {
	name   string // "heel"; "" at the top
	at     source.Span
	values map[string]any // string, int64, float64, bool, *Table, []any, or unsupported
	keyAt  map[string]source.Span
	valAt  map[string]source.Span
	asked  map[string]bool // every key that somebody owns
	faults *[]source.Fault
	depth  int
	lost   bool   // below the deepest table that is read
	what   string // the file, at the top: "a style sheet"; "" is a design file
}

// deepest is how many tables may lie in each other. The designs that there are take three:
// a length by size in the table of a part.
const deepest = 8

// child makes a table for a key of this one. A text that nests them deeper than any design is
// told so once on the way down, and the rest of the way leads nowhere.
func (t *Table) child(key string, at source.Span) *Table {
	if t.depth < deepest {
		c := newTable(join(t.name, key), at, t.faults)
		c.depth = t.depth + 1
		return c
	}
	if !t.lost {
		*t.faults = append(*t.faults, source.Fault{At: at, Kind: source.Syntax, Severity: source.Error,
			Text:  source.Say("design.deep", "tables lie in each other more than {0} deep", deepest),
			Mends: []source.Mend{{Why: source.Say("design.deep.mend", "look whether this is the file you meant")}}})
	}
	c := newTable(t.name, at, t.faults)
	c.depth, c.lost = t.depth, true
	return c
}

type unsupported string // a value of TOML that no key takes, in words: "a date"

func newTable(name string, at source.Span, faults *[]source.Fault) *Table {
	return &Table{name: name, at: at, values: map[string]any{}, keyAt: map[string]source.Span{},
		valAt: map[string]source.Span{}, asked: map[string]bool{}, faults: faults}
}

// parse reads TOML into tables, or says why the text is no TOML.
func parse(f *source.File) (*Table, *source.Fault) {
	text := []byte(f.Text)
	var syntax map[string]any
	if err := toml.Unmarshal(text, &syntax); err != nil {
		return nil, syntaxFault(f, err)
	}
	root := newTable("", source.Span{}, new([]source.Fault))
	here := root
	var p unstable.Parser
	p.Reset(text)
	for p.NextExpression() {
		switch e := p.Expression(); e.Kind {
		case unstable.Table:
			here = root.open(e.Key(), false)
		case unstable.ArrayTable:
			here = root.open(e.Key(), true)
		case unstable.KeyValue:
			here.set(e)
		}
	}
	if err := p.Error(); err != nil {
		return nil, syntaxFault(f, err)
	}
	return root, nil
}

// open finds or makes the table that a header names; element adds one to a list of tables.
func (t *Table) open(key unstable.Iterator, element bool) *Table {
	for key.Next() {
		name, at := string(key.Node().Data), spanOf(key.Node().Raw)
		list, _ := t.values[name].([]any)
		if element && key.IsLast() {
			child := t.child(name, at)
			t.put(name, append(list, child), at, at)
			return child
		}
		if len(list) > 0 {
			if last, isTable := list[len(list)-1].(*Table); isTable {
				t = last
				continue
			}
		}
		t = t.sub(name, at)
	}
	return t
}

// sub finds or makes the table inside t that a part of a key names.
func (t *Table) sub(name string, at source.Span) *Table {
	child, isTable := t.values[name].(*Table)
	if !isTable {
		child = t.child(name, at)
		t.put(name, child, at, at)
	}
	return child
}

func (t *Table) set(e *unstable.Node) {
	keys := e.Key()
	for keys.Next() {
		name, at := string(keys.Node().Data), spanOf(keys.Node().Raw)
		if keys.IsLast() {
			v := e.Value()
			t.put(name, t.value(name, v), at, valueSpan(v, at))
			return
		}
		t = t.sub(name, at)
	}
}

func (t *Table) value(name string, v *unstable.Node) any {
	switch v.Kind {
	case unstable.String:
		return string(v.Data)
	case unstable.Integer:
		if n, err := strconv.ParseInt(strings.ReplaceAll(string(v.Data), "_", ""), 0, 64); err == nil {
			return n
		}
	case unstable.Float:
		if x, err := strconv.ParseFloat(strings.ReplaceAll(string(v.Data), "_", ""), 64); err == nil {
			return x
		}
	case unstable.Bool:
		return v.Data[0] == 't'
	case unstable.Array:
		list := []any{}
		for it := v.Children(); it.Next(); {
			list = append(list, t.value(name, it.Node()))
		}
		return list
	case unstable.InlineTable:
		child := t.child(name, spanOf(v.Raw))
		for it := v.Children(); it.Next(); {
			child.set(it.Node())
		}
		return child
	}
	switch v.Kind {
	case unstable.Integer, unstable.Float:
		return unsupported("a number that cannot be read")
	}
	return unsupported("a date or time")
}

func (t *Table) put(name string, v any, key, val source.Span) {
	t.values[name], t.keyAt[name], t.valAt[name] = v, key, val
}

func spanOf(r unstable.Range) source.Span {
	return source.Span{Start: r.Offset, End: r.Offset + r.Length}
}

// valueSpan is the place of a value; lists and inline tables have none of their own in the
// parser and take the one of their key.
func valueSpan(v *unstable.Node, key source.Span) source.Span {
	if v.Raw.Length > 0 && v.Kind != unstable.InlineTable {
		return spanOf(v.Raw)
	}
	return key
}

func join(table, key string) string {
	if table == "" {
		return key
	}
	return table + "." + key
}

// syntaxFault puts a syntax error into words for people who do not program.
func syntaxFault(f *source.File, err error) *source.Fault {
	fault := &source.Fault{Kind: source.Syntax, Severity: source.Error, Text: source.Say("design.syntax", "this is not a design file: {0}", err.Error())}
	var de *toml.DecodeError
	if !errors.As(err, &de) {
		return fault
	}
	row, column := de.Position()
	line := f.LineSpan(row)
	text := f.Line(row)
	start := line.Start + uint32(min(max(column-1, 0), len(text)))
	fault.At = source.Span{Start: start, End: max(min(start+1, line.End), start)}
	if start == line.End && start > line.Start {
		fault.At.Start--
	}
	key, val, isPair := strings.Cut(text, "=")
	val = strings.TrimSpace(val)
	switch {
	case isPair && decimalComma(val):
		fault.Text = source.Say("design.comma", "the value of {0} has a decimal comma", strings.TrimSpace(key))
		fault.Mends = []source.Mend{{Why: source.Say("design.point", "write {0}", strings.Replace(val, ",", ".", 1))}}
	case strings.Contains(err.Error(), "already"):
		fault.Text = source.Say("design.twice", "this is given twice: {0}", strings.TrimPrefix(err.Error(), "toml: "))
		fault.Mends = []source.Mend{{Why: source.Say("design.twice.mend", "keep one of the two lines")}}
	case isPair && strings.Count(val, `"`)%2 == 1:
		fault.Text = source.Say("design.quote", "a quotation mark is missing in the value of {0}", strings.TrimSpace(key))
		fault.Mends = []source.Mend{{Why: source.Say("design.quote.mend", "put one before and one after the text")}}
	case isPair && val != "" && !strings.ContainsAny(val[:1], `"'[{+-.0123456789tf`) || isPair && looksLikeLength(val):
		fault.Text = source.Say("design.unquoted", "the value of {0} cannot be read: a text stands in quotation marks", strings.TrimSpace(key))
		fault.Mends = []source.Mend{{Why: source.Say("design.unquoted.mend", "write {0} = {1}", strings.TrimSpace(key), strconv.Quote(strings.Trim(val, `"`)))}}
	default:
		fault.Text = source.Say("design.syntax.line", "this line cannot be read as TOML: {0}", strings.TrimPrefix(err.Error(), "toml: "))
		fault.Mends = []source.Mend{{Why: source.Say("design.syntax.mend", "write it as: key = value, texts in quotation marks, tables as [name]")}}
	}
	return fault
}

func decimalComma(s string) bool {
	a, b, ok := strings.Cut(s, ",")
	digits := func(s string) bool {
		return s != "" && !strings.ContainsFunc(s, func(r rune) bool { return r < '0' || r > '9' })
	}
	return ok && digits(strings.TrimPrefix(a, "-")) && digits(strings.TrimSpace(b))
}

func looksLikeLength(s string) bool {
	_, err := unit.ParseLength(s)
	return err == nil
}

// Fault reports something wrong with the value of a key, or with the key itself where it
// has no value.
func (t *Table) Fault(key string, severity source.Severity, text source.Message, mends ...string) {
	t.fault(key, source.BadValue, severity, text, mends)
}

// Clash reports that the value of a key does not go with what the design says elsewhere.
func (t *Table) Clash(key string, text source.Message, mends ...string) {
	t.fault(key, source.Impossible, source.Error, text, mends)
}

func (t *Table) fault(key string, kind source.Kind, severity source.Severity, text source.Message, mends []string) {
	at, ok := t.valAt[key]
	if !ok {
		at = t.at
	}
	f := source.Fault{At: at, Kind: kind, Severity: severity, Text: text}
	for _, m := range mends {
		f.Mends = append(f.Mends, source.Mend{Why: source.Say("design.mend", m)})
	}
	*t.faults = append(*t.faults, f)
}

// wrong says that a value has another form than the one wanted: "a number", say, written
// like the example, which may be "".
func (t *Table) wrong(key, want, example string) {
	mend := "write " + want
	if s, isText := t.values[key].(string); example != "" {
		mend = "write it like this: " + example
	} else if isText {
		mend = "write " + want + ", without quotation marks"
		if _, err := unit.ParseNumber(s); err == nil {
			mend = "write " + key + " = " + strings.TrimSpace(s) + ", without quotation marks"
		}
	}
	t.Fault(key, source.Error, source.Say("design.form", "{0} = {1} is not {2}", join(t.name, key), show(t.values[key]), want), mend)
}

// refused passes on why another package does not take the value of a key. Its errors end
// with what to do, behind a colon, or leave that to mend.
func (t *Table) refused(key, id string, err error, mend string) {
	why := err.Error()
	if i := strings.LastIndex(why, ": "); i >= 0 && (strings.HasPrefix(why[i+2:], "write ") || strings.HasPrefix(why[i+2:], "use ")) {
		why, mend = why[:i], why[i+2:]
	}
	t.Fault(key, source.Error, source.Say(id, "{0}: {1}", join(t.name, key), why), mend)
}

// outside says that a number is out of its range.
func (t *Table) outside(key string, low, high any) {
	t.Fault(key, source.Error, source.Say("design.range", "{0} = {1} is outside {2} to {3}", join(t.name, key), show(t.values[key]), show(low), show(high)),
		"check the number, and what it counts")
}

func show(v any) string {
	switch v := v.(type) {
	case string:
		return strconv.Quote(v)
	case unsupported:
		return "(" + string(v) + ")"
	case *Table:
		return "(a table)"
	case []any:
		return "(a list)"
	}
	return fmt.Sprint(v)
}

// Has tells whether the table gives a key. It marks the key as owned.
func (t *Table) Has(key string) bool {
	t.asked[key] = true
	_, ok := t.values[key]
	return ok
}

// Span is the place of the value of a key; unknown if it is not given.
func (t *Table) Span(key string) source.Span { return t.valAt[key] }

// Text takes a text, or def.
func (t *Table) Text(key, def string) string {
	if !t.Has(key) {
		return def
	}
	s, ok := t.values[key].(string)
	if !ok {
		t.wrong(key, "a text in quotation marks", key+` = "…"`)
		return def
	}
	return s
}

// Choice takes one of the known words, or the first of them.
func (t *Table) Choice(key string, known ...string) string {
	s := t.Text(key, known[0])
	if slices.Contains(known, s) {
		return s
	}
	list, mend := "it is one of "+strings.Join(known, ", "), "write one of them"
	if len(known) == 1 {
		list, mend = "there is only "+strconv.Quote(known[0]), "write it, or leave the line out"
	}
	if near := spell.Nearest(s, known); near != "" {
		mend = "did you mean " + strconv.Quote(near) + "?"
	}
	t.Fault(key, source.Error, source.Say("design.choice", "{0} = {1} is not known here: {2}", join(t.name, key), strconv.Quote(s), list), mend)
	return known[0]
}

// Number takes a number between low and high, or def.
func (t *Table) Number(key string, def, low, high float64) float64 {
	if !t.Has(key) {
		return def
	}
	x, ok := number(t.values[key])
	if !ok {
		t.wrong(key, "a number", "")
		return def
	}
	if math.IsNaN(x) || x < low || x > high {
		t.outside(key, low, high)
		return def
	}
	return x
}

// Int takes a whole number between low and high, or def.
func (t *Table) Int(key string, def, low, high int) int {
	if !t.Has(key) {
		return def
	}
	n, ok := t.values[key].(int64)
	if !ok {
		t.wrong(key, "a whole number", "")
		return def
	}
	if n < int64(low) || n > int64(high) {
		t.outside(key, low, high)
		return def
	}
	return int(n)
}

func number(v any) (float64, bool) {
	switch v := v.(type) {
	case int64:
		return float64(v), true
	case float64:
		return v, true
	}
	return 0, false
}

// Length takes a length of at least low and at most high, or def.
func (t *Table) Length(key string, def, low, high unit.Length) unit.Length {
	if !t.Has(key) {
		return def
	}
	l, ok := t.length(key, t.values[key], low, high)
	if !ok {
		return def
	}
	return l
}

func (t *Table) length(key string, v any, low, high unit.Length) (unit.Length, bool) {
	s, ok := v.(string)
	if !ok {
		if _, isNumber := number(v); isNumber {
			t.Fault(key, source.Error, source.Say("design.no-unit", "{0} = {1} has no unit", join(t.name, key), show(v)),
				fmt.Sprintf("write %q or %q", show(v)+" in", show(v)+" cm"))
		} else {
			t.wrong(key, "a length", key+` = "6 in"`)
		}
		return 0, false
	}
	l, err := unit.ParseLength(s)
	if err != nil {
		t.refused(key, "design.length", err, `write a number and a unit, such as "9.5 in" or "24 cm"`)
		return 0, false
	}
	if l < low || l > high {
		t.Fault(key, source.Error, source.Say("design.length-range", "{0} = {1} is outside {2} to {3}", join(t.name, key), strconv.Quote(s), low.String(), high.String()),
			"check the number and its unit")
		return 0, false
	}
	return l, true
}

// BySize takes one length for all sizes or a table of them by name; def gives the length of
// a size that is not told.
func (t *Table) BySize(key string, names []string, low, high unit.Length, def func(i int) unit.Length) []unit.Length {
	out := make([]unit.Length, len(names))
	for i := range out {
		out[i] = def(i)
	}
	if !t.Has(key) {
		return out
	}
	sub, ok := t.values[key].(*Table)
	if !ok {
		if l, ok := t.length(key, t.values[key], low, high); ok {
			for i := range out {
				out[i] = l
			}
		}
		return out
	}
	for i, name := range names {
		if sub.Has(name) {
			if l, ok := sub.length(name, sub.values[name], low, high); ok {
				out[i] = l
			}
		} else {
			t.Fault(key, source.Error, source.Say("design.size-missing", "{0} does not say a length for size {1}", join(t.name, key), name),
				"add "+name+" = \"… in\"")
		}
	}
	return out
}

// Table takes a table; an empty one if it is not given.
func (t *Table) Table(key string) *Table {
	if !t.Has(key) {
		child := newTable(join(t.name, key), t.at, t.faults)
		t.put(key, child, source.Span{}, source.Span{})
		return child
	}
	sub, ok := t.values[key].(*Table)
	if !ok {
		t.wrong(key, "a table", "["+join(t.name, key)+"] on a line of its own, and its keys below")
		return newTable(join(t.name, key), t.at, t.faults)
	}
	return sub
}

// Tables takes a list of tables.
func (t *Table) Tables(key string) []*Table {
	if !t.Has(key) {
		return nil
	}
	list, ok := t.values[key].([]any)
	var out []*Table
	for _, v := range list {
		sub, isTable := v.(*Table)
		ok = ok && isTable
		out = append(out, sub)
	}
	if !ok {
		t.wrong(key, "a list of tables", "[["+join(t.name, key)+"]] on a line of its own before each, and its keys below")
		return nil
	}
	return out
}

// Texts takes a list of texts.
func (t *Table) Texts(key string) []string {
	if !t.Has(key) {
		return nil
	}
	list, ok := t.values[key].([]any)
	var out []string
	for _, v := range list {
		s, isText := v.(string)
		ok = ok && isText
		out = append(out, s)
	}
	if !ok {
		t.wrong(key, "a list of texts", key+` = ["S", "M"]`)
		return nil
	}
	return out
}

// Keys lists the keys that are given, in order of their place.
func (t *Table) Keys() []string {
	keys := slices.Collect(maps.Keys(t.values))
	slices.SortFunc(keys, func(a, b string) int { return bytes.Compare([]byte(a), []byte(b)) })
	slices.SortStableFunc(keys, func(a, b string) int { return int(t.keyAt[a].Start) - int(t.keyAt[b].Start) })
	return keys
}

// owns marks keys as owned that are not taken, because something else is wrong.
func (t *Table) owns(keys ...string) {
	for _, key := range keys {
		t.asked[key] = true
	}
}

// ownsAll does so for all keys of the table and below.
func (t *Table) ownsAll() {
	for key, v := range t.values {
		t.asked[key] = true
		if sub, ok := v.(*Table); ok {
			sub.ownsAll()
		}
	}
}

// unused reports every key below that nobody has asked for.
func (t *Table) unused() {
	for _, key := range t.Keys() {
		if t.asked[key] {
			t.unusedBelow(key)
		} else {
			t.unknown(key, slices.Sorted(maps.Keys(t.asked)))
		}
	}
}

func (t *Table) unusedBelow(key string) {
	switch v := t.values[key].(type) {
	case *Table:
		v.unused()
	case []any:
		for _, e := range v {
			if sub, ok := e.(*Table); ok {
				sub.unused()
			}
		}
	}
}

// misspelt reports what unused would where not every owner has had the chance to ask: of the
// keys at the top only those that look like one that is wanted and not given.
func (t *Table) misspelt() {
	var missing []string
	for _, key := range slices.Sorted(maps.Keys(t.asked)) {
		if !t.keyAt[key].Known() {
			missing = append(missing, key)
		}
	}
	for _, key := range t.Keys() {
		if t.asked[key] {
			t.unusedBelow(key)
		} else if spell.Nearest(key, missing) != "" {
			t.unknown(key, missing)
		}
	}
}

// unknown reports a key that is none of those known here.
func (t *Table) unknown(key string, known []string) {
	f := source.Fault{At: t.keyAt[key], Kind: source.UnknownKey, Severity: source.Error,
		Text: source.Say("design.unknown-key", "{0} is not a key of {1}", strconv.Quote(key), t.where())}
	if near := spell.Nearest(key, known); near != "" {
		f.Mends = []source.Mend{{Edits: []source.Edit{{At: f.At, Text: near}}, Why: source.Say("design.nearest-key", "did you mean {0}?", strconv.Quote(near))}}
	} else if len(known) > 0 {
		f.Mends = []source.Mend{{Why: source.Say("design.known-keys", "the keys known here are {0}", strings.Join(known, ", "))}}
	}
	*t.faults = append(*t.faults, f)
}

func (t *Table) where() string {
	if t.name == "" {
		return cmp.Or(t.what, "a design file")
	}
	return "[" + t.name + "]"
}

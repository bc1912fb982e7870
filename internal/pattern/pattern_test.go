package pattern_test

import (
	"reflect"
	"slices"
	"testing"

	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

func TestNumber(t *testing.T) {
	gap := int(pattern.Gap)
	for _, c := range []struct {
		name    string
		number  pattern.Number
		in      []int32 // for sizes 0 to 3
		strings []string
	}{
		{"absent", pattern.Number{}, []int32{0, 0, 0, 0}, []string{}},
		{"one for all", pattern.Of(64), []int32{64, 64, 64, 64}, []string{"64"}},
		{"equal ones are folded", pattern.Of(64, 64, 64, 64), []int32{64, 64, 64, 64}, []string{"64"}},
		{"one for each", pattern.Of(56, 60, 60, 64), []int32{56, 60, 60, 64}, []string{"56", "60", "60", "64"}},
		{"a size that does nothing", pattern.Of(gap, 2, 2, gap), []int32{pattern.Gap, 2, 2, pattern.Gap}, []string{"–", "2", "2", "–"}},
		{"no size does anything", pattern.Of(gap, gap, gap, gap), []int32{pattern.Gap, pattern.Gap, pattern.Gap, pattern.Gap}, []string{"–"}},
		{"too short", pattern.Of(5, 6), []int32{5, 6, pattern.Gap, pattern.Gap}, []string{"5", "6"}},
		{"zero and less", pattern.Of(0, -1, 0, 0), []int32{0, -1, 0, 0}, []string{"0", "-1", "0", "0"}},
	} {
		for size, want := range c.in {
			if got := c.number.In(size); got != want {
				t.Errorf("%s: In(%d) = %d, want %d", c.name, size, got, want)
			}
		}
		if got := c.number.Strings(); !slices.Equal(got, c.strings) {
			t.Errorf("%s: Strings() = %q, want %q", c.name, got, c.strings)
		}
		if got, want := c.number.Known(), len(c.strings) > 0; got != want {
			t.Errorf("%s: Known() = %v", c.name, got)
		}
		if got, want := c.number.Is(64), len(c.strings) == 1 && c.strings[0] == "64"; got != want {
			t.Errorf("%s: Is(64) = %v", c.name, got)
		}
		for sizes := range 5 {
			if got, want := c.number.Fits(sizes), len(c.strings) <= 1 || len(c.strings) == sizes; got != want {
				t.Errorf("%s: Fits(%d) = %v", c.name, sizes, got)
			}
		}
	}
}

func TestNumberSpan(t *testing.T) {
	all, first, second := source.Span{Start: 3, End: 9}, source.Span{Start: 3, End: 4}, source.Span{Start: 6, End: 7}
	for _, c := range []struct {
		name   string
		number pattern.Number
		want   []source.Span
	}{
		{"one for all", pattern.Number{Val: []int32{5}, At: first, Cols: []source.Span{first}}, []source.Span{first, first, first}},
		{"a list", pattern.Number{Val: []int32{5, 6}, At: all, Cols: []source.Span{first, second}}, []source.Span{first, second, all}},
		{"built", pattern.Of(5, 6), []source.Span{{}, {}, {}}},
	} {
		for size, want := range c.want {
			if got := c.number.Span(size); got != want {
				t.Errorf("%s: Span(%d) = %v, want %v", c.name, size, got, want)
			}
		}
	}
}

func TestFill(t *testing.T) {
	for _, c := range []struct {
		message source.Message
		want    pattern.Text
	}{
		{source.Say("k", "plain words"), pattern.Words("plain words")},
		{source.Say("k", "{0} sts of {1}", pattern.Of(5, 6), "Slate Quay"), pattern.Text{{Each: []string{"5", "6"}}, {Words: " sts of Slate Quay"}}},
		{source.Say("k", "{0}{1} and {2}", 3, "a", pattern.Of(7, 7)), pattern.Text{{Words: "3a and "}, {Each: []string{"7"}}}},
		{source.Say("k", "at the {left} of the right side"), pattern.Text{{Words: "at the "}, {Side: source.Left}, {Words: " of the right side"}}},
		{source.Say("k", "{0} in", []string{"6 1/4", "6 1/4"}), pattern.Text{{Each: []string{"6 1/4"}}, {Words: " in"}}},
	} {
		if got := pattern.Fill(c.message); !reflect.DeepEqual(got, c.want) {
			t.Errorf("Fill(%q) = %+v, want %+v", c.message, got, c.want)
		}
	}
	defer func() {
		if recover() == nil {
			t.Error("an argument that cannot be printed by size is let through")
		}
	}()
	pattern.Fill(source.Say("k", "{0}", 1.5))
}

func TestFoldStrings(t *testing.T) {
	for _, c := range []struct{ in, want []string }{
		{nil, nil}, {[]string{"a"}, []string{"a"}}, {[]string{"a", "a"}, []string{"a"}}, {[]string{"a", "b", "a"}, []string{"a", "b", "a"}},
	} {
		if got := pattern.FoldStrings(c.in); !slices.Equal(got, c.want) {
			t.Errorf("FoldStrings(%q) = %q, want %q", c.in, got, c.want)
		}
	}
}

func TestLabel(t *testing.T) {
	for _, c := range []struct {
		label pattern.Label
		want  string
	}{
		{pattern.Label{Num: 1, Side: pattern.RS}, "Row 1 (RS)"},
		{pattern.Label{Name: pattern.SetUp, Num: 2, Side: pattern.WS}, "Set-up row 2 (WS)"},
		{pattern.Label{Word: pattern.Round, Name: pattern.Decrease}, "Dec rnd"},
		{pattern.Label{Word: pattern.Round, Name: pattern.Increase, Num: 3}, "Inc rnd 3"},
		{pattern.Label{Word: pattern.Round, Name: pattern.Partial}, "Partial rnd"},
		{pattern.Label{Name: pattern.Next, Side: pattern.WS}, "Next row (WS)"},
		{pattern.Label{Word: pattern.Round, Num: 12}, "Rnd 12"},
	} {
		if got := c.label.String(); got != c.want {
			t.Errorf("%+v is %q, want %q", c.label, got, c.want)
		}
	}
	row := pattern.Label{Num: 2, Side: pattern.WS}
	for _, c := range []struct {
		ref  pattern.Label
		want bool
	}{
		{row, true}, {pattern.Label{Num: 2}, true}, {pattern.Label{Num: 2, Side: pattern.RS}, false}, {pattern.Label{Num: 3}, false},
		{pattern.Label{Num: 2, Word: pattern.Round}, false}, {pattern.Label{Num: 2, Name: pattern.SetUp}, false},
	} {
		if got := row.Same(c.ref); got != c.want {
			t.Errorf("(%v).Same(%v) = %v", row, c.ref, got)
		}
	}
}

// sock is a pattern with every kind of line.
func sock() *pattern.Pattern {
	n := pattern.Of
	gap := int(pattern.Gap)
	return &pattern.Pattern{Title: "Gable End", Sizes: []string{"S", "M", "L"}, Sections: []*pattern.Section{{Title: "Leg", Body: []pattern.Node{
		&pattern.Prose{Style: pattern.Fact, Label: "Gauge", Text: pattern.Text{{Words: "about "}, {Each: []string{"7", "7 1/2", "8"}}, {Words: " in "}, {Each: []string{"all"}}, {Words: " sizes"}}},
		&pattern.CastOn{Stitches: n(56, 60, 64), Begin: pattern.CentreBack},
		&pattern.Row{Label: pattern.Label{Word: pattern.Round, Num: 1}, Parts: []pattern.Part{{Needle: 2, Steps: []pattern.Step{
			{At: source.Span{Start: 1, End: 2}, Op: pattern.Knit, N: n(0, 2, gap)},
			{Op: pattern.Group, N: n(4, 0, 4), Body: []pattern.Step{{Op: pattern.Purl, N: n(1, 1, 0)}, {Op: pattern.Ssk}}},
			{Op: pattern.Knit, Until: pattern.ToLast, N: n(0, 1, 2)},
		}}}, Count: &pattern.Count{Total: n(52, 60, 60), Split: []pattern.Number{n(1, 2, 3)}, Change: n(-4, 0, -4)}},
		&pattern.Only{Sizes: 0b101, Body: []pattern.Node{&pattern.Begin{Place: pattern.SideOfSole}, &pattern.DropMarkers{}}},
		&pattern.Again{Rows: 1, Word: pattern.Round, Times: n(3, 0, gap), Total: n(4, 1, gap)},
		&pattern.Plain{Op: pattern.Purl, More: true, Rounds: n(0, 9, 9), Or: pattern.Text{{Each: []string{"1", "2", "3"}}}},
		&pattern.Divide{Last: true, Heel: n(20, 30, 32), Rest: n(30)},
		&pattern.Arrange{Split: []pattern.Number{n(1, 2, 3), n(4)}},
		&pattern.Join{Front: n(5, 6, 7), Back: n(5, 6, 7)},
	}}}}
}

func TestForSize(t *testing.T) {
	p := sock()
	n := pattern.Of
	body := p.ForSize(0).Sections[0].Body
	want := []pattern.Node{
		&pattern.Prose{Style: pattern.Fact, Label: "Gauge", Text: pattern.Words("about 7 in all sizes")},
		&pattern.CastOn{Stitches: n(56), Begin: pattern.CentreBack},
		&pattern.Row{Label: pattern.Label{Word: pattern.Round, Num: 1}, Parts: []pattern.Part{{Needle: 2, Steps: []pattern.Step{
			{Op: pattern.Group, N: n(4), Body: []pattern.Step{{Op: pattern.Purl, N: n(1)}, {Op: pattern.Ssk}}},
			{Op: pattern.Knit, Until: pattern.ToLast, N: n(0)},
		}}}, Count: &pattern.Count{Total: n(52), Split: []pattern.Number{n(1)}, Change: n(-4)}},
		&pattern.Begin{Place: pattern.SideOfSole},
		&pattern.DropMarkers{},
		&pattern.Again{Rows: 1, Word: pattern.Round, Times: n(3), Total: n(4)},
		&pattern.Divide{Last: true, Heel: n(20), Rest: n(30)},
		&pattern.Arrange{Split: []pattern.Number{n(1), n(4)}},
		&pattern.Join{Front: n(5), Back: n(5)},
	}
	wantPattern := &pattern.Pattern{Title: "Gable End", Sizes: []string{"S"}, Sections: []*pattern.Section{{Title: "Leg", Body: want}}}
	wantPattern.Index()
	if !reflect.DeepEqual(body, want) {
		t.Errorf("size S is\n%+v\nwant\n%+v", body, want)
	}
	m := p.ForSize(1)
	var kinds []string
	m.Each(func(_ *pattern.Section, n pattern.Node) { kinds = append(kinds, reflect.TypeOf(n).Elem().Name()) })
	if want := []string{"Prose", "CastOn", "Row", "Plain", "Divide", "Arrange", "Join"}; !slices.Equal(kinds, want) {
		t.Errorf("size M has lines %v, want %v", kinds, want)
	}
	if !reflect.DeepEqual(p, sock()) {
		t.Error("ForSize changed the pattern")
	}
}

func TestIndex(t *testing.T) {
	p := sock()
	if got := p.Index(); got != 12 {
		t.Errorf("Index() = %d, want 12: a section, 9 lines, 2 in a group", got)
	}
	id := p.Sections[0].ID
	if id != 1 {
		t.Errorf("the first section has number %d, want 1", id)
	}
	p.Each(func(s *pattern.Section, n pattern.Node) {
		if id++; pattern.ID(n) != id || s != p.Sections[0] {
			t.Errorf("%T has number %d, want %d", n, pattern.ID(n), id)
		}
	})
	at := source.Span{Start: 2, End: 7}
	n := p.Sections[0].Body[0]
	if pattern.SetAt(n, at); pattern.At(n) != at {
		t.Errorf("At = %v, want %v", pattern.At(n), at)
	}
}

func TestPlaces(t *testing.T) {
	if got, want := pattern.Places(), []pattern.Place{pattern.CentreBack, pattern.SideOfSole, pattern.SideOfInstep, pattern.CentreOfSole}; !slices.Equal(got, want) {
		t.Errorf("Places() = %v, want %v", got, want)
	}
}

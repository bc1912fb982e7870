package design_test

import (
	"strings"
	"testing"

	"sockwright/internal/design"
	"sockwright/internal/source"
)

func TestReadTable(t *testing.T) {
	f := source.NewFile("house.toml", "colour = \"red\"\nshade = 3\n[[query]]\nid = \"q1\"\n")
	root, faults := design.ReadTable(f, "a style sheet")
	if root == nil || len(faults) > 0 {
		t.Fatalf("%+v", faults)
	}
	if got := root.Text("colour", ""); got != "red" {
		t.Errorf("colour = %q", got)
	}
	if at := root.Span("shade"); f.Slice(at) != "3" {
		t.Errorf("the value of shade stands at %v: %q", at, f.Slice(at))
	}
	if at := root.Tables("query")[0].Span("id"); f.Slice(at) != `"q1"` {
		t.Errorf("the value of id stands at %v: %q", at, f.Slice(at))
	}
	faults = root.Done()
	var all []string
	for _, x := range faults {
		all = append(all, source.Find(f, nil, x).String())
	}
	if got := strings.Join(all, "\n"); !strings.HasPrefix(got, `2:1: "shade" is not a key of a style sheet`) || !strings.Contains(got, `4:1: "id" is not a key of [query]`) {
		t.Errorf("keys that nobody has taken: %s", got)
	}
	for _, text := range []string{"[colour", "colour = red", "\xff"} {
		if root, faults := design.ReadTable(source.NewFile("", text), "a style sheet"); root != nil || len(faults) != 1 {
			t.Errorf("%q is read, with the faults %+v", text, faults)
		}
	}
}

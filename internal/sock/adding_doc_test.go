package sock

import (
	"os"
	"strings"
	"testing"

	"sockwright/internal/design"
	"sockwright/internal/knit"
	"sockwright/internal/source"
)

// The page that tells how a construction is added shows one that is compiled, chosen by a
// design and knitted.
func TestAddingPage(t *testing.T) {
	page, err := os.ReadFile("../../docs/adding-a-construction.md")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, _ := strings.Cut(string(page), "```go\n")
	shown, _, ok := strings.Cut(rest, "```")
	if !ok {
		t.Fatal("the page shows no code")
	}
	file, err := os.ReadFile("adding_test.go")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.HasSuffix(string(file), shown) {
		t.Error("the page shows other code than adding_test.go has")
	}
	text, err := os.ReadFile("../../examples/slate-quay.toml")
	if err != nil {
		t.Fatal(err)
	}
	d, faults := design.Read(source.NewFile("purled.toml", string(text)+"\n[leg]\nkind = \"purled\"\n"))
	if d == nil {
		t.Fatal(faults)
	}
	draft, faults := New(d)
	if draft == nil {
		t.Fatal(faults)
	}
	plan, faults := draft.Grade()
	if plan == nil {
		t.Fatal(faults)
	}
	p := draft.Build(plan)
	for size := range p.Sizes {
		var k knit.Knitter
		r := k.Knit(p, size)
		if err := r.Fabric.CheckFinished(); err != nil || len(r.Faults) > 0 {
			t.Errorf("size %d: %v %v", size, err, r.Faults)
		}
	}
}

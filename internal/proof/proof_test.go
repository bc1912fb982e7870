package proof_test

import (
	"os"
	"testing"

	"sockwright/internal/design"
	"sockwright/internal/proof"
	"sockwright/internal/sock"
	"sockwright/internal/source"
)

func TestExample(t *testing.T) {
	text, _ := os.ReadFile("../../examples/slate-quay.toml")
	f := source.NewFile("slate-quay.toml", string(text))
	d, faults := design.Read(f)
	for _, x := range faults {
		t.Log(source.Find(f, nil, x))
	}
	draft, faults := sock.New(d)
	for _, x := range faults {
		t.Log(source.Find(f, d.Names(), x))
	}
	plan, faults := draft.Grade()
	for _, x := range faults {
		t.Log(source.Find(f, d.Names(), x))
	}
	for _, n := range plan.Numbers() {
		t.Log(n.Key, n.Size, n.Value, n.Also, n.Reason.Text)
	}
	p := draft.Build(plan)
	pr := proof.Prove(p, "slate-quay.txt", nil)
	t.Log(pr.Text.Text)
	for _, x := range pr.Faults {
		t.Error(source.Find(pr.Text, d.Names(), x))
	}
}

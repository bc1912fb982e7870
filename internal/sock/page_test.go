package sock

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the pages anew")

// docs/parts.md lists every construction with its options, from what they say of themselves.
func TestPartsPage(t *testing.T) {
	const name = "../../docs/parts.md"
	want := partsPage()
	if *update {
		if err := os.WriteFile(name, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != want {
		t.Errorf("%s is not what the constructions say of themselves: run go test ./internal/sock -update", name)
	}
}

func partsPage() string {
	var b strings.Builder
	b.WriteString("# The parts of a sock\n\nEvery construction, with its key in the design file and its options. `sockwright parts` prints the short list. This page is made from the program: `go test ./internal/sock -run PartsPage -update`.\n")
	last := ""
	for _, p := range Parts() {
		if p.Kind == "purled" {
			continue // of a test
		}
		if p.Part != last {
			fmt.Fprintf(&b, "\n## `[%s]`\n", p.Part)
			last = p.Part
		}
		fmt.Fprintf(&b, "\n### `kind = %q`\n\n%s.\n", p.Kind, upperFirst(p.Says.String()))
		where := strings.Join(p.Directions, ", ")
		if len(p.Default) > 0 {
			where += "; what a design has that names no kind, " + strings.Join(p.Default, ", ")
		}
		fmt.Fprintf(&b, "\nDirection: %s.", where)
		if len(p.Gussets) > 0 {
			fmt.Fprintf(&b, " Gusset: %s.", strings.Join(quoted(p.Gussets), " or "))
		}
		b.WriteString("\n")
		if len(p.Options) > 0 {
			b.WriteString("\n| key | chooses | values |\n| --- | --- | --- |\n")
		}
		for _, o := range p.Options {
			values := o.values()
			if o.Direction != "" {
				values += "; " + o.Direction + " only"
			}
			fmt.Fprintf(&b, "| `%s` | %s | %s |\n", o.Key, o.Says, values)
		}
	}
	return b.String()
}

func (o Option) values() string {
	switch {
	case o.Choices != nil:
		values := "`" + strings.Join(quoted(o.Choices), "`, `") + "`; the first is usual"
		if o.UsualUp != "" {
			values += fmt.Sprintf(", from the toe up `%q`", o.UsualUp)
		}
		return values
	case o.Length:
		return fmt.Sprintf("a length, one or by size: %g to %g mm", o.Least, o.Greatest)
	case o.Step > 1:
		return fmt.Sprintf("a multiple of %d, %g to %g; usual %g", o.Step, o.Least, o.Greatest, o.Usual)
	case o.Whole:
		return fmt.Sprintf("%g to %g; usual %g", o.Least, o.Greatest, o.Usual)
	}
	return fmt.Sprintf("%.2g to %.2g; usual %.2g", o.Least, o.Greatest, o.Usual)
}

func upperFirst(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

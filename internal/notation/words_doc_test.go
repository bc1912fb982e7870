package notation_test

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"sockwright/internal/notation"
	"sockwright/internal/source"
)

// The examples of the page that says what is read are read: whole sentences as lines that are
// worked, steps as those of a row.
func TestWordsPage(t *testing.T) {
	page, err := os.ReadFile("../../docs/words.md")
	if err != nil {
		t.Fatal(err)
	}
	rows := map[string]string{"steps": "Row 1 (RS): ", "short rows": "Row 1 (RS): ", "repeats": "Rnd 1: ", "pick up": "Rnd 1: "}
	lines := map[string]bool{"cast on": true, "cast on otherwise": true, "row or round": true, "told by needles": true, "the heel": true, "the round": true, "needles": true, "the end": true}
	quoted, read := regexp.MustCompile("`([^`]+)`"), 0
	for _, row := range strings.Split(string(page), "\n") {
		cells := strings.Split(row, " | ")
		if len(cells) != 2 {
			continue
		}
		name := strings.TrimPrefix(cells[0], "| ")
		label, steps := rows[name]
		if !steps && !lines[name] {
			continue
		}
		delete(lines, name)
		delete(rows, name)
		for _, m := range quoted.FindAllStringSubmatch(cells[1], -1) {
			line := m[1]
			if steps {
				line = label + line + "."
			}
			got := notation.Read(source.NewFile("words.txt", "TOLD\n\nHEEL\n\n"+line+"\n"))
			if len(got.Faults) > 0 || got.Worked != 1 {
				t.Errorf("%s: %q is read as %d lines that are worked, with %v", name, line, got.Worked, got.Faults)
			}
			read++
		}
	}
	if len(lines) > 0 || len(rows) > 0 || read < 60 {
		t.Errorf("%d examples read, none of %v %v", read, lines, rows)
	}
}

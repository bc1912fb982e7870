// Package internal_test holds the imports of the rooms to the table in ARCHITECTURE.md.
package internal_test

import (
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// TestRooms: a room imports only rooms that stand above it in the table, and every room
// stands in it.
func TestRooms(t *testing.T) {
	text, err := os.ReadFile("../ARCHITECTURE.md")
	if err != nil {
		t.Fatal(err)
	}
	place := map[string]int{}
	for i, m := range regexp.MustCompile("(?m)^\\| `(internal/[a-z]+|cmd/sockwright)` \\|").FindAllStringSubmatch(string(text), -1) {
		place["sockwright/"+m[1]] = i + 1
	}
	forTests := map[string]bool{"sockwright/internal/witness": true, "sockwright/internal/designtest": true}
	files, err := filepath.Glob("*/*.go")
	if err != nil {
		t.Fatal(err)
	}
	command, err := filepath.Glob("../cmd/sockwright/*.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range append(files, command...) {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		room := "sockwright/internal/" + filepath.Base(filepath.Dir(name))
		if strings.HasPrefix(name, "../cmd") {
			room = "sockwright/cmd/sockwright"
		}
		if forTests[room] {
			continue
		}
		if place[room] == 0 {
			t.Errorf("%s is not in the table of rooms", room)
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ImportsOnly)
		if err != nil {
			t.Fatal(err)
		}
		for _, im := range f.Imports {
			path := strings.Trim(im.Path.Value, `"`)
			if strings.HasPrefix(path, "sockwright/") && (place[path] == 0 || place[path] >= place[room]) {
				t.Errorf("%s imports %s, which does not stand above %s", name, path, room)
			}
		}
	}
}

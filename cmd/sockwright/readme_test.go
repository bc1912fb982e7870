package main

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// blocks are the fenced blocks of a document, as kind and text.
var blocks = regexp.MustCompile("(?ms)^```(\\w+)\n(.*?)^```$")

// expect adds to a script, and to the files behind it, that what a document shows behind a
// command is printed: line upon line as it stands, up to a line "…".
func expect(script, files *strings.Builder, shown string) {
	for chunk := range strings.SplitSeq(shown, "…\n") {
		if strings.TrimSpace(chunk) == "" {
			continue
		}
		name := fmt.Sprintf("shown-%d", files.Len())
		fmt.Fprintf(files, "-- %s --\n%s", name, chunk)
		fmt.Fprintf(script, "printed %s\n", name)
	}
}

// printed fails where the text of a file is not in what the last command printed, to
// whichever output.
func printed(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: printed file")
	}
	if want := ts.ReadFile(args[0]); !strings.Contains(ts.ReadFile("stdout")+ts.ReadFile("stderr"), want) {
		ts.Fatalf("this is not printed:\n%s", want)
	}
}

// TestReadme runs every command that the README shows, in its order, in a folder with the
// examples: each must end well. `./test` itself is only looked for.
func TestReadme(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	var script, files strings.Builder
	shown := 0
	for _, b := range blocks.FindAllStringSubmatch(string(readme), -1) {
		switch b[1] {
		case "sh":
			for line := range strings.Lines(b[2]) {
				line = strings.TrimSpace(line)
				command, file, _ := strings.Cut(line, " > ")
				args, ok := strings.CutPrefix(command, "go run ./cmd/sockwright ")
				switch {
				case line == "./test":
					if info, err := os.Stat("../../test"); err != nil || info.Mode()&0o111 == 0 {
						t.Errorf("./test cannot be run: %v", err)
					}
				case !ok:
					t.Errorf("README shows a command that this test does not know: %q", line)
				default:
					script.WriteString("exec sockwright " + args + "\n")
					if file != "" {
						script.WriteString("cp stdout " + file + "\n")
					}
				}
				shown++
			}
		case "text":
			expect(&script, &files, b[2])
		}
	}
	if shown < 8 {
		t.Fatalf("README shows only %d commands", shown)
	}
	for _, glob := range []string{"../../examples/*.toml", "../../examples/styles/*.toml"} {
		names, err := filepath.Glob(glob)
		if err != nil || len(names) == 0 {
			t.Fatalf("%s: %v", glob, err)
		}
		for _, name := range names {
			data, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			fmt.Fprintf(&files, "-- %s --\n%s", strings.TrimPrefix(filepath.ToSlash(name), "../../"), data)
		}
	}
	runShown(t, script.String()+files.String(), nil)
}

// TestCheckDoc runs every command of docs/check.md on the pattern that stands there.
func TestCheckDoc(t *testing.T) {
	doc, err := os.ReadFile("../../docs/check.md")
	if err != nil {
		t.Fatal(err)
	}
	sheet, err := os.ReadFile("../../examples/styles/house-style.toml")
	if err != nil {
		t.Fatal(err)
	}
	var script, files strings.Builder
	pattern, shown := "", 0
	for _, b := range blocks.FindAllStringSubmatch(string(doc), -1) {
		switch b[1] {
		case "pattern":
			pattern = b[2]
		case "sh":
			script.WriteString("shown " + b[2])
			shown++
		case "text":
			expect(&script, &files, b[2])
		}
	}
	if shown < 8 || pattern == "" {
		t.Fatalf("docs/check.md shows only %d commands", shown)
	}
	fmt.Fprintf(&files, "-- tern-rock.txt --\n%s-- house-style.toml --\n%s", pattern, sheet)
	runShown(t, script.String()+files.String(), func(ts *testscript.TestScript, neg bool, args []string) {
		var e *exec.ExitError
		if err := ts.Exec(args[0], args[1:]...); errors.As(err, &e) && e.ExitCode() > statusFaults {
			ts.Fatalf("%s ends with status %d", strings.Join(args, " "), e.ExitCode())
		}
	})
}

// runShown runs a script; shown runs one of its commands, if they are not plain ones.
func runShown(t *testing.T, script string, shown func(*testscript.TestScript, bool, []string)) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "shown.txtar"), []byte(script), 0o666); err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{Dir: dir, Cmds: map[string]func(*testscript.TestScript, bool, []string){"printed": printed, "shown": shown}})
}

// TestReadmeLinks: every file that the documents point at is there.
func TestReadmeLinks(t *testing.T) {
	docs, err := filepath.Glob("../../docs/*.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, doc := range append(docs, "../../README.md", "../../ARCHITECTURE.md") {
		text, err := os.ReadFile(doc)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range regexp.MustCompile(`\]\(([^)#]+)\)`).FindAllStringSubmatch(string(text), -1) {
			if _, err := os.Stat(filepath.Join(filepath.Dir(doc), m[1])); err != nil {
				t.Errorf("%s points at %s, which is not there", filepath.Base(doc), m[1])
			}
		}
	}
}

package main

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// TestReadme runs every command that the README shows, in its order, in a folder with the
// examples: each must end well. `./test` itself is only looked for. Where a command is
// followed by what it prints, that must be in the output.
func TestReadme(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	var script strings.Builder
	shown := 0
	blocks := regexp.MustCompile("(?ms)^```(\\w+)\n(.*?)^```$").FindAllStringSubmatch(string(readme), -1)
	for _, b := range blocks {
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
			for line := range strings.Lines(b[2]) {
				if line = strings.TrimSpace(line); line != "" && line != "…" {
					script.WriteString("stdout '" + strings.ReplaceAll(regexp.QuoteMeta(line), "'", "''") + "'\n")
				}
			}
		}
	}
	if shown < 8 {
		t.Fatalf("README shows only %d commands", shown)
	}
	examples, err := filepath.Glob("../../examples/*.toml")
	if err != nil {
		t.Fatal(err)
	}
	styles, err := filepath.Glob("../../examples/styles/*.toml")
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "readme.txtar"), []byte(script.String()), 0o666); err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{Dir: dir, Setup: func(e *testscript.Env) error {
		for _, name := range append(examples, styles...) {
			data, err := os.ReadFile(name)
			if err != nil {
				return err
			}
			to := filepath.Join(e.WorkDir, strings.TrimPrefix(filepath.ToSlash(name), "../../"))
			if err := os.MkdirAll(filepath.Dir(to), 0o777); err != nil {
				return err
			}
			if err := os.WriteFile(to, data, 0o666); err != nil {
				return err
			}
		}
		return nil
	}})
}

// TestCheckDoc runs every command of docs/check.md on the pattern that stands there. Each line
// that is shown behind a command must be in what it prints, to whichever output.
func TestCheckDoc(t *testing.T) {
	doc, err := os.ReadFile("../../docs/check.md")
	if err != nil {
		t.Fatal(err)
	}
	sheet, err := os.ReadFile("../../examples/styles/house-style.toml")
	if err != nil {
		t.Fatal(err)
	}
	var script strings.Builder
	pattern, shown := "", 0
	for _, b := range regexp.MustCompile("(?ms)^```(\\w+)\n(.*?)^```$").FindAllStringSubmatch(string(doc), -1) {
		switch b[1] {
		case "pattern":
			pattern = b[2]
		case "sh":
			script.WriteString("shown " + b[2])
			shown++
		case "text":
			for line := range strings.Lines(b[2]) {
				if line = strings.TrimSpace(line); line != "" && line != "…" {
					script.WriteString("printed '" + strings.ReplaceAll(line, "'", "''") + "'\n")
				}
			}
		}
	}
	if shown < 8 || pattern == "" {
		t.Fatalf("docs/check.md shows only %d commands", shown)
	}
	script.WriteString("-- tern-rock.txt --\n" + pattern + "-- house-style.toml --\n" + string(sheet))
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "check.txtar"), []byte(script.String()), 0o666); err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{Dir: dir, Cmds: map[string]func(*testscript.TestScript, bool, []string){
		"shown": func(ts *testscript.TestScript, neg bool, args []string) {
			var e *exec.ExitError
			if err := ts.Exec(args[0], args[1:]...); errors.As(err, &e) && e.ExitCode() > statusFaults {
				ts.Fatalf("%s ends with status %d", strings.Join(args, " "), e.ExitCode())
			}
		},
		"printed": func(ts *testscript.TestScript, neg bool, args []string) {
			if neg || len(args) != 1 {
				ts.Fatalf("usage: printed line")
			}
			if !strings.Contains(ts.ReadFile("stdout")+ts.ReadFile("stderr"), args[0]) {
				ts.Fatalf("this is not printed: %s", args[0])
			}
		},
	}})
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

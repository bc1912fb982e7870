package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"sockwright": func() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) },
	})
}

func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		RequireExplicitExec: true,
		Cmds: map[string]func(ts *testscript.TestScript, neg bool, args []string){
			"status":   scriptStatus,
			"pasted":   scriptPasted,
			"jsonget":  scriptJSONGet,
			"jsonkeys": scriptJSONKeys,
			"sha256":   scriptSHA256,
			"noise":    scriptNoise,
			"text":     scriptText,
			"sizes":    scriptSizes,
			"nofiles":  scriptNoFiles,
			"section":  scriptSection,
			"lineof":   scriptLineOf,
		},
		Setup: func(e *testscript.Env) error {
			// A plain terminal, whatever the one is that the tests are run from.
			e.Setenv("NO_COLOR", "")
			e.Setenv("CLICOLOR_FORCE", "")
			// slate-quay.toml is for the scripts; the examples are for what the help tells.
			for from, to := range map[string]string{
				"testdata/slate-quay.toml":               "slate-quay.toml",
				"../../examples/slate-quay.toml":         "examples/slate-quay.toml",
				"../../examples/styles/house-style.toml": "examples/styles/house-style.toml",
				"../../examples/tern-hollow.toml":        "examples/tern-hollow.toml",
			} {
				data, err := os.ReadFile(from)
				if err != nil {
					return err
				}
				to = filepath.Join(e.WorkDir, to)
				if err := os.MkdirAll(filepath.Dir(to), 0o777); err != nil {
					return err
				}
				if err := os.WriteFile(to, data, 0o666); err != nil {
					return err
				}
			}
			return nil
		},
	})
}

// status N CMD ARGS… runs a command, which must end with exactly that status.
func scriptStatus(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: status N command args...")
	}
	err := ts.Exec(args[1], args[2:]...)
	got := 0
	var e *exec.ExitError
	switch {
	case errors.As(err, &e):
		got = e.ExitCode()
	case err != nil:
		ts.Fatalf("%s cannot be run: %v", args[1], err)
	}
	if strconv.Itoa(got) != args[0] {
		ts.Fatalf("%s ends with status %d, want %s\n%s", strings.Join(args[1:], " "), got, args[0], ts.ReadFile("stderr"))
	}
}

// pasted [COMMAND] runs the example that the help of a command ends with, in bash.
func scriptPasted(ts *testscript.TestScript, neg bool, args []string) {
	ts.Check(ts.Exec("sockwright", append(slices.Clone(args), "--help")...))
	_, example, ok := strings.Cut(ts.ReadFile("stdout"), "\nExample:\n  ")
	if !ok || strings.Count(example, "\n") != 1 || !strings.HasSuffix(example, "\n") {
		ts.Fatalf("the help of %q does not end with one example", args)
	}
	ts.Check(ts.Exec("bash", "-euc", example))
}

// jsonget FILE PATH [WANT] prints what stands at a path of a document to the log, or compares
// it. A path such as numbers[key=leg.stitches,size=M].value picks the one element of a list
// whose fields have these values; files[0] picks by place, files[count] is how many there are.
func scriptJSONGet(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) != 3 {
		ts.Fatalf("usage: jsonget file path want")
	}
	got, err := at(decode(ts, args[0]), args[1])
	if err != nil {
		ts.Fatalf("%s: %v", args[1], err)
	}
	if (spelled(got) == args[2]) == neg {
		ts.Fatalf("%s = %s, want %s", args[1], spelled(got), args[2])
	}
}

// jsonkeys FILE PATH KEY… holds that the object at a path has these keys. Of a list it holds
// that every element has them, and that there is one.
func scriptJSONKeys(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 3 {
		ts.Fatalf("usage: jsonkeys file path key...")
	}
	got, err := at(decode(ts, args[0]), args[1])
	ts.Check(err)
	list, isList := got.([]any)
	if !isList {
		list = []any{got}
	}
	if len(list) == 0 {
		ts.Fatalf("%s is empty", args[1])
	}
	for _, e := range list {
		object, _ := e.(map[string]any)
		for _, key := range args[2:] {
			if _, ok := object[key]; !ok {
				ts.Fatalf("%s has no %s: its keys are %v", args[1], key, slices.Sorted(maps.Keys(object)))
			}
		}
	}
}

// decode reads a file that holds one JSON document and nothing else.
func decode(ts *testscript.TestScript, name string) any {
	var doc any
	if err := json.Unmarshal([]byte(ts.ReadFile(name)), &doc); err != nil {
		ts.Fatalf("%s is not one JSON document: %v", name, err)
	}
	return doc
}

func spelled(v any) string {
	if s, ok := v.(string); ok {
		return s
	}
	text, err := json.Marshal(v)
	if err != nil {
		return err.Error()
	}
	return string(text)
}

// at follows a path through a decoded document. "." is the document itself.
func at(v any, path string) (any, error) {
	for path = strings.TrimPrefix(path, "."); path != ""; path = strings.TrimPrefix(path, ".") {
		if path[0] == '[' {
			end := strings.IndexByte(path, ']')
			list, ok := v.([]any)
			if end < 0 || !ok {
				return nil, fmt.Errorf("no list at %q", path)
			}
			var err error
			if v, err = pick(list, path[1:end]); err != nil {
				return nil, err
			}
			path = path[end+1:]
			continue
		}
		end := strings.IndexAny(path, ".[")
		if end < 0 {
			end = len(path)
		}
		object, _ := v.(map[string]any)
		below, ok := object[path[:end]]
		if !ok {
			return nil, fmt.Errorf("no key %q; there are %v", path[:end], slices.Sorted(maps.Keys(object)))
		}
		v = below
		path = path[end:]
	}
	return v, nil
}

func pick(list []any, which string) (any, error) {
	if which == "count" {
		return len(list), nil
	}
	if i, err := strconv.Atoi(which); err == nil {
		if i >= len(list) {
			return nil, fmt.Errorf("no element %d: there are %d", i, len(list))
		}
		return list[i], nil
	}
	var found []any
	for _, e := range list {
		object, _ := e.(map[string]any)
		if !slices.ContainsFunc(strings.Split(which, ","), func(pair string) bool {
			key, want, _ := strings.Cut(pair, "=")
			return spelled(object[key]) != want
		}) {
			found = append(found, e)
		}
	}
	if len(found) != 1 {
		return nil, fmt.Errorf("%d elements with %s, want 1", len(found), which)
	}
	return found[0], nil
}

// sha256 DOCUMENT DIR holds that a sockwright/write/1 document tells the digest and the length
// of the files in a folder, and of all of them.
func scriptSHA256(ts *testscript.TestScript, neg bool, args []string) {
	var doc struct{ Files []writtenFile }
	ts.Check(json.Unmarshal([]byte(ts.ReadFile(args[0])), &doc))
	there, err := os.ReadDir(ts.MkAbs(args[1]))
	ts.Check(err)
	if len(there) != len(doc.Files) || len(there) == 0 {
		ts.Fatalf("%d files in the document, %d in the folder", len(doc.Files), len(there))
	}
	for _, f := range doc.Files {
		data, err := os.ReadFile(filepath.Join(ts.MkAbs(args[1]), f.Name))
		ts.Check(err)
		sum := sha256.Sum256(data)
		if hex.EncodeToString(sum[:]) != f.SHA256 || len(data) != f.Bytes {
			ts.Fatalf("%s has %d bytes and SHA-256 %x; the document says %d, %s", f.Name, len(data), sum, f.Bytes, f.SHA256)
		}
	}
}

// noise FILE BYTES makes a file of random bytes, the same on every run.
func scriptNoise(ts *testscript.TestScript, neg bool, args []string) {
	n, err := strconv.Atoi(args[1])
	ts.Check(err)
	data := make([]byte, n)
	_, err = rand.NewChaCha8([32]byte{1}).Read(data)
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), data, 0o666))
}

// text FILE TEXT… makes a file of a text with Go's escapes, for what a script cannot hold:
// text crlf.toml 'title = "Low Tide"\r\n'. A word that begins with @ stands for a file.
func scriptText(ts *testscript.TestScript, neg bool, args []string) {
	var b bytes.Buffer
	for _, word := range args[1:] {
		if name, ok := strings.CutPrefix(word, "@crlf:"); ok {
			b.WriteString(strings.ReplaceAll(ts.ReadFile(name), "\n", "\r\n"))
		} else if name, ok := strings.CutPrefix(word, "@"); ok {
			b.WriteString(ts.ReadFile(name))
		} else {
			text, err := strconv.Unquote(`"` + strings.ReplaceAll(word, `"`, `\"`) + `"`)
			ts.Check(err)
			b.WriteString(text)
		}
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), b.Bytes(), 0o666))
}

// sizes FILE N makes a design with N sizes of its own, each a little larger than the last.
func scriptSizes(ts *testscript.TestScript, neg bool, args []string) {
	n, err := strconv.Atoi(args[1])
	ts.Check(err)
	var b strings.Builder
	b.WriteString("title = \"Gable End\"\n[gauge]\nover = \"10 cm\"\nstitches = 28\nrows = 38\n")
	for i := range n {
		fmt.Fprintf(&b, "[[sizes.own]]\nname = \"%d\"\nfoot_girth = \"%d mm\"\nfoot_length = \"%d mm\"\n", i+1, 150+2*i, 160+2*i)
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(b.String()), 0o666))
}

// nofiles DIR holds that nothing is in a folder, hidden files included, or that there is none.
func scriptNoFiles(ts *testscript.TestScript, neg bool, args []string) {
	there, err := os.ReadDir(ts.MkAbs(args[0]))
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		ts.Fatalf("%v", err)
	}
	if len(there) > 0 {
		ts.Fatalf("%s holds %s", args[0], there[0].Name())
	}
}

// section FILE FROM TO OUT copies the lines of a pattern between two headings.
func scriptSection(ts *testscript.TestScript, neg bool, args []string) {
	_, text, ok := strings.Cut(ts.ReadFile(args[0]), "\n"+args[1]+"\n")
	text, _, ok2 := strings.Cut(text, "\n"+args[2]+"\n")
	if !ok || !ok2 {
		ts.Fatalf("%s has no headings %s and %s", args[0], args[1], args[2])
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[3]), []byte(text), 0o666))
}

// lineof FILE TEXT VAR sets a variable to the number of the only line that holds a text.
func scriptLineOf(ts *testscript.TestScript, neg bool, args []string) {
	before, after, ok := strings.Cut(ts.ReadFile(args[0]), args[1])
	if !ok || strings.Contains(after, args[1]) {
		ts.Fatalf("%q does not stand in %s once", args[1], args[0])
	}
	ts.Setenv(args[2], strconv.Itoa(strings.Count(before, "\n")+1))
}

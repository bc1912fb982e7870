// Command sockwright grades, writes and proves patterns for hand-knit socks.
//
// The command is thin: it reads flags and files, calls one package, prints what came of it,
// and picks an exit status: 0 all well, 1 the input has faults, 2 wrong use or input that
// cannot be read at all, 3 a failure of the program itself.
//
// Results go to standard output, everything else to standard error. With --json nothing but
// one document goes to standard output.
package main

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime/debug"
	"strings"
	"unicode/utf8"

	"github.com/alecthomas/kong"

	"sockwright/internal/extract"
	"sockwright/internal/source"
)

// Exit statuses.
const (
	statusWell = iota
	statusFaults
	statusUse
	statusFailure
)

type cli struct {
	New        newCmd        `cmd:"" help:"Print a design file to begin with."`
	Plan       planCmd       `cmd:"" help:"Grade a design: every number of every size, and why."`
	Write      writeCmd      `cmd:"" help:"Write the pattern of a design, proven in every size from its own words."`
	Draw       drawCmd       `cmd:"" help:"Draw a design: its measurements, or its fabric loop by loop."`
	Check      checkCmd      `cmd:"" help:"Work written patterns stitch by stitch, or hold designs against the rules."`
	Parts      partsCmd      `cmd:"" help:"List the constructions that a sock can be made of."`
	Completion completionCmd `cmd:"" help:"Print a script that completes commands in a shell."`

	Strict  bool             `help:"Count warnings as errors."`
	Version kong.VersionFlag `help:"Print the version."`
}

// terminal is where a command reads and prints.
type terminal struct {
	out, err io.Writer
	strict   bool
}

// A refusal is wrong use, or a file that cannot be read or written, with what to do about it.
type refusal struct{ what, mend string }

func (r *refusal) Error() string { return r.what + "\n    mend: " + r.mend }

// A sink remembers that something could not be printed, so that nothing is cut short in
// silence.
type sink struct {
	io.Writer
	err error
}

func (s *sink) Write(p []byte) (int, error) {
	n, err := s.Writer.Write(p)
	s.err = cmp.Or(s.err, err)
	return n, err
}

// exit ends a command with a status and nothing more to say.
type exit int

func (e exit) Error() string { return fmt.Sprintf("exit status %d", int(e)) }

// softMemory is how much memory the program takes before it rather tidies up more often.
const softMemory = 160 << 20

func main() {
	debug.SetMemoryLimit(softMemory)
	os.Exit(run(os.Args[1:], os.Stdout, os.Stderr))
}

func run(args []string, out, errOut io.Writer) (status int) {
	defer func() {
		if p := recover(); p != nil {
			if e, ok := p.(exit); ok { // kong's own way out after --help and --version
				status = int(e)
				return
			}
			fmt.Fprintf(errOut, "sockwright: this is a failure of the program: %v\nPlease report it with the input and these lines:\n%s", p, debug.Stack())
			status = statusFailure
		}
	}()
	var c cli
	parser, err := kong.New(&c,
		kong.Name("sockwright"),
		kong.Description("Grades, writes and proves patterns for hand-knit socks."),
		kong.Writers(out, errOut),
		kong.Exit(func(code int) { panic(exit(code)) }),
		kong.Help(helpWithExample),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true, WrapUpperBound: 92}),
		kong.Vars{"version": version()},
	)
	if err != nil {
		panic(err)
	}
	if len(args) == 0 {
		args = []string{"--help"}
	}
	ctx, err := parser.Parse(args)
	if err != nil {
		fmt.Fprintf(errOut, "sockwright: %v\n", err)
		command := ""
		var pe *kong.ParseError
		if errors.As(err, &pe) && pe.Context.Command() != "" {
			command, _, _ = strings.Cut(pe.Context.Command(), " ")
			command += " "
		}
		fmt.Fprintf(errOut, "    try: sockwright %s--help\n", command)
		return statusUse
	}
	printed := &sink{Writer: out}
	err = ctx.Run(&terminal{out: printed, err: errOut, strict: c.Strict}, parser)
	var e exit
	switch {
	case printed.err != nil:
		err = &refusal{fmt.Sprintf("the output cannot be written: %v", why(printed.err)), "give it another place"}
	case err == nil:
		return statusWell
	case errors.As(err, &e):
		return int(e)
	}
	fmt.Fprintf(errOut, "sockwright: %v\n", err)
	return statusUse
}

// helpWithExample ends the help of every command with an example that works when pasted.
func helpWithExample(options kong.HelpOptions, ctx *kong.Context) error {
	if err := kong.DefaultHelpPrinter(options, ctx); err != nil {
		return err
	}
	example := "sockwright write examples/slate-quay.toml -o out"
	if n := ctx.Selected(); n != nil {
		if e, ok := n.Target.Addr().Interface().(interface{ example() string }); ok {
			example = e.example()
		}
	}
	_, err := fmt.Fprintf(ctx.Stdout, "\nExample:\n  %s\n", example)
	return err
}

func version() string {
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" && info.Main.Version != "(devel)" {
		return "sockwright " + info.Main.Version
	}
	return "sockwright, built from source"
}

// tooLarge is more than any pattern has, in bytes.
const tooLarge = 16 << 20

// open reads a file, or standard input for "-".
func open(name string) (*source.File, error) {
	shown, data, err := load(name)
	if err != nil {
		return nil, err
	}
	return source.NewFile(shown, string(data)), nil
}

// openText reads the text of a written pattern, whatever kind of document it came in. A .txt
// that is no text is taken as it is: nothing in it can be worked, and checking says so.
func openText(name string) (*source.File, error) {
	shown, data, err := load(name)
	if err != nil {
		return nil, err
	}
	text, err := extract.Text(shown, data)
	if err != nil {
		if strings.EqualFold(filepath.Ext(name), ".txt") && !utf8.Valid(data) {
			return source.NewFile(shown, string(data)), nil
		}
		what, mend, told := strings.Cut(err.Error(), "; ")
		if !told {
			mend = "paste its text into a .txt file"
		}
		return nil, &refusal{what, mend}
	}
	return source.NewFile(shown, text), nil
}

// load reads the bytes of a file, or of standard input for "-", and tells how messages call it.
func load(name string) (shown string, data []byte, err error) {
	in, shown := os.Stdin, stdinName
	if name != "-" {
		f, err := os.Open(name)
		if errors.Is(err, fs.ErrNotExist) {
			return name, nil, &refusal{"there is no file " + name, "check its name, and the folder you are in"}
		}
		if err != nil {
			return name, nil, unread(name, err)
		}
		defer f.Close()
		if info, err := f.Stat(); err == nil && info.IsDir() {
			return name, nil, &refusal{name + " is a folder", "name a file in it"}
		}
		in, shown = f, name
	}
	data, err = io.ReadAll(io.LimitReader(in, tooLarge+1))
	if err != nil {
		return shown, nil, unread(shown, err)
	}
	if len(data) > tooLarge {
		return shown, nil, &refusal{fmt.Sprintf("%s is larger than %d MB and is not read", shown, tooLarge>>20), "look whether this is the file you meant"}
	}
	return shown, data, nil
}

// stdinName is how messages call standard input.
const stdinName = "standard input"

func unread(name string, err error) error {
	return &refusal{fmt.Sprintf("%s cannot be read: %v", name, why(err)), "check its permissions, or copy it elsewhere"}
}

// why is an error without the name of the call and the file that failed.
func why(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}

// report prints faults for people and returns the status they call for.
func (t *terminal) report(f *source.File, sizes []string, faults []source.Fault) error {
	t.print(f, sizes, faults)
	return t.status(faults)
}

func (t *terminal) print(f *source.File, sizes []string, faults []source.Fault) {
	for _, x := range source.Together(f, faults) {
		printFinding(t.err, f.Name, source.Find(f, sizes, x))
	}
}

func (t *terminal) status(faults []source.Fault) error {
	worst, any := source.Worst(faults)
	if any && (worst == source.Error || worst == source.Warning && t.strict) {
		return exit(statusFaults)
	}
	return nil
}

package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"sockwright/internal/draw"
	"sockwright/internal/pattern"
	"sockwright/internal/picture"
	"sockwright/internal/publish"
	"sockwright/internal/source"
	"sockwright/internal/spell"
)

type drawCmd struct {
	View       string  `arg:"" enum:"schematic,flat" help:"What to draw: schematic (outline and finished measurements) or flat (the fabric, loop by loop)."`
	Design     string  `arg:"" help:"Design file, or - for standard input."`
	Out        string  `short:"o" required:"" placeholder:"FILE" help:"Picture to write: its ending, .svg or .png, says of what kind."`
	Size       string  `placeholder:"SIZE" help:"Draw this size. The schematic shows all sizes without it, the flat fabric the middle one."`
	Sock       string  `enum:"right,left," default:"" placeholder:"right|left" help:"Draw this sock of a pair whose socks differ; the flat fabric is the right one's without it."`
	LeftHanded bool    `help:"Draw the fabric as somebody knits it who works from left to right."`
	Dots       float64 `default:"8" placeholder:"N" help:"Dots to the millimeter of a PNG; 8 is 200 to the inch."`
}

func (drawCmd) example() string {
	return "sockwright draw schematic examples/slate-quay.toml -o schematic.svg"
}

func (c *drawCmd) Run(t *terminal) error {
	ending := strings.ToLower(filepath.Ext(c.Out))
	if ending != ".svg" && ending != ".png" {
		return &refusal{fmt.Sprintf("%s: no picture is written as %q", c.Out, ending), "end the name in .svg or .png"}
	}
	if c.Dots < 1 || c.Dots > 50 {
		return &refusal{fmt.Sprintf("--dots %g is outside 1 to 50", c.Dots), "8 prints well, 4 is enough for a screen"}
	}
	f, err := open(c.Design)
	if err != nil {
		return err
	}
	drawing, faults, err := c.drawing(f)
	if err != nil || drawing == nil {
		if err != nil {
			return err
		}
		return t.report(f, nil, faults)
	}
	data := drawing.SVG()
	if ending == ".png" {
		if data, err = drawing.PNG(c.Dots); err != nil {
			return err
		}
	}
	if err := os.WriteFile(c.Out, data, 0o644); err != nil {
		return &refusal{err.Error(), "give a file that can be written with -o"}
	}
	fmt.Fprintln(t.out, c.Out)
	return t.report(f, nil, faults)
}

// drawing makes the picture; it is nil where the design's faults leave none.
func (c *drawCmd) drawing(f *source.File) (*draw.Drawing, []source.Fault, error) {
	draft, plan, faults := publish.Grade(f)
	if plan == nil {
		return nil, faults, nil
	}
	size := picture.AllSizes
	if c.Size != "" {
		if size = slices.Index(draft.Names(), c.Size); size < 0 {
			mend := "the sizes are " + strings.Join(draft.Names(), ", ")
			if near := spell.Nearest(c.Size, draft.Names()); near != "" {
				mend = "did you mean " + near + "?"
			}
			return nil, nil, &refusal{fmt.Sprintf("no size is called %q", c.Size), mend}
		}
	}
	if c.View == "schematic" && (c.Sock != "" || c.LeftHanded) {
		return nil, nil, &refusal{"the schematic is the same for both socks and for both hands", "leave --sock and --left-handed out"}
	}
	if c.View == "schematic" {
		return picture.Schematic(draft, plan, size, picture.Whole), faults, nil
	}
	book, faults, err := publish.Make(f, publish.Options{LeftHanded: c.LeftHanded})
	if book == nil {
		return nil, faults, err
	}
	if size == picture.AllSizes {
		size = len(draft.Sizes) / 2
	}
	sock := book.Proof.Read.Pattern.Socks()[0]
	switch {
	case c.Sock != "" && sock == pattern.BothSocks:
		return nil, nil, &refusal{"the socks of this pair are alike", "leave --sock out"}
	case c.Sock == "left":
		sock = pattern.LeftSock
	}
	return picture.Flat(draft.Title, book.Proof.Read.Pattern, book.Fabric(size, sock), draft.Gauge[""], book.Proof.Sizes[size].Name, sock), faults, nil
}

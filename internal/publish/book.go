package publish

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"sockwright/internal/design"
	"sockwright/internal/draw"
	"sockwright/internal/fabric"
	"sockwright/internal/grade"
	"sockwright/internal/knit"
	"sockwright/internal/pattern"
	"sockwright/internal/picture"
	"sockwright/internal/proof"
	"sockwright/internal/sock"
	"sockwright/internal/source"
	"sockwright/internal/spell"
)

// A Book is a proven pattern with its editions.
type Book struct {
	Name    string // of its files, without ending
	Draft   *sock.Draft
	Plan    *grade.Plan
	Pattern *pattern.Pattern
	Proof   *proof.Proof
	Files   []File
}

// A File is one file of a book.
type File struct {
	Name string
	Data []byte
}

// SHA256 is the digest of the file in hexadecimal.
func (f File) SHA256() string {
	sum := sha256.Sum256(f.Data)
	return hex.EncodeToString(sum[:])
}

// Options say which edition to make.
type Options struct {
	Only       string             // one size by name; "" for all
	LeftHanded bool               // for somebody who knits from left to right
	TwoAtATime bool               // both socks on one needle
	Step       func(done, of int) // called as sizes are proven; may be nil
	Name       string             // of the files; "" takes the design file's
}

// Unproven is the error of a pattern whose words do not knit the sock that was planned: a
// fault of the program, not of the design.
type Unproven struct{ Proof *proof.Proof }

func (u *Unproven) Error() string {
	return fmt.Sprintf("the printed words do not knit the planned sock: %d faults; nothing is written", len(u.Proof.Faults))
}

// Grade reads a design file and grades it. The plan is nil where the faults, which point
// into the file, leave none; the draft is nil where even the design could not be read.
func Grade(f *source.File) (*sock.Draft, *grade.Plan, []source.Fault) {
	d, faults := design.Read(f)
	if d == nil {
		return nil, nil, source.Merge(faults)
	}
	draft, more := sock.New(d)
	faults = append(faults, more...)
	if draft == nil {
		return nil, nil, source.Merge(faults)
	}
	plan, more := draft.Grade()
	return draft, plan, source.Merge(append(faults, more...))
}

// Make makes the book of a design file. The book is nil where the faults leave none. The
// error is an [*Unproven] if the program has failed.
func Make(f *source.File, o Options) (*Book, []source.Fault, error) {
	draft, plan, faults := Grade(f)
	if plan == nil {
		return nil, faults, nil
	}
	b := &Book{Name: o.Name, Draft: draft, Plan: plan}
	if b.Name == "" {
		b.Name = strings.TrimSuffix(filepath.Base(f.Name), filepath.Ext(f.Name))
	}
	alone := AllSizes
	if o.Only != "" {
		if alone = slices.Index(draft.Names(), o.Only); alone < 0 {
			fault := source.Fault{Kind: source.BadValue, Severity: source.Error,
				Text: source.Say("publish.no-size", "no size is called “{0}”: the sizes are {1}", o.Only, strings.Join(draft.Names(), ", "))}
			if near := spell.Nearest(o.Only, draft.Names()); near != "" {
				fault.Mends = []source.Mend{{Why: source.Say("publish.near-size", "did you mean {0}?", near)}}
			}
			return nil, append(faults, fault), nil
		}
		b.Name += "-" + fileWord(o.Only)
	}
	if o.TwoAtATime {
		if fault := twoOnOne(draft); fault != nil {
			return nil, append(faults, *fault), nil
		}
		b.Name += "-two-at-a-time"
	}
	if o.LeftHanded {
		b.Name += "-left-handed"
	}
	b.Pattern = Compose(draft, plan, draft.Build(plan), Edition{Alone: alone, LeftHanded: o.LeftHanded, TwoAtATime: o.TwoAtATime})
	b.Proof = proof.Prove(b.Pattern, b.Name+".txt", o.Step)
	if !b.Proof.Proven() {
		return nil, faults, &Unproven{b.Proof}
	}
	var page bytes.Buffer
	schematic := func(l picture.Layout) *draw.Drawing { return picture.Schematic(draft, plan, alone, l) }
	if err := HTML(&page, b.Pattern, schematic(picture.Broad).Inline(), schematic(picture.Narrow).Inline()); err != nil {
		return nil, faults, err
	}
	b.Files = []File{{b.Name + ".txt", []byte(b.Proof.Text.Text)}, {b.Name + ".html", page.Bytes()}, {b.Name + "-schematic.svg", schematic(picture.Whole).SVG()}}
	return b, faults, nil
}

// Fabric is the cloth of one size as the printed words knit it, of one sock where the two of a
// pair differ.
func (b *Book) Fabric(size int, sock pattern.Sock) *fabric.Fabric {
	if sock == b.Proof.Read.Pattern.Socks()[0] {
		return b.Proof.Sizes[size].Again.Fabric
	}
	return (&knit.Knitter{Sock: sock}).Knit(b.Proof.Read.Pattern, size).Fabric
}

// fileWord is a size's name as part of a file name.
func fileWord(s string) string {
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune(`/\ :*?"<>|`, r) || r < ' ' {
			return '_'
		}
		return r
	}, s)
}

// WriteTo puts the files of the book into a folder, which is made if need be. Every file is
// written whole beside its place and made durable first; only then are they moved into
// place, one after the other, each whole at every moment. Until the first is moved, what was
// there is untouched. No file of keep is ever written over: such a book is refused.
// Leftovers of a run that was killed more than an hour ago are removed.
func (b *Book) WriteTo(dir string, keep ...string) (err error) {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return fmt.Errorf("the folder cannot be made: %w", err)
	}
	for _, f := range b.Files {
		place, err := os.Stat(filepath.Join(dir, f.Name))
		for _, k := range keep {
			if kept, kerr := os.Stat(k); err == nil && kerr == nil && os.SameFile(place, kept) {
				return fmt.Errorf("%s would be written over the design itself: choose another folder", f.Name)
			}
		}
	}
	if err := b.sweep(dir); err != nil {
		return err
	}
	var parts []string
	defer func() {
		for _, p := range parts {
			err = errors.Join(err, removeIfThere(p))
		}
	}()
	for _, f := range b.Files {
		part, err := writePart(dir, f)
		if part != "" {
			parts = append(parts, part)
		}
		if err != nil {
			return fmt.Errorf("%s cannot be written: %w", f.Name, err)
		}
	}
	for i, f := range b.Files {
		if err := os.Rename(parts[i], filepath.Join(dir, f.Name)); err != nil {
			return fmt.Errorf("%s cannot be put in place: %w", f.Name, err)
		}
	}
	return syncDir(dir)
}

// sweep removes what a killed run has left of these files. Younger parts may belong to a
// run that is still at work.
func (b *Book) sweep(dir string) error {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return err
	}
	for _, e := range entries {
		for _, f := range b.Files {
			if !strings.HasPrefix(e.Name(), "."+f.Name+".") || !strings.HasSuffix(e.Name(), ".part") {
				continue
			}
			if info, err := e.Info(); err == nil && time.Since(info.ModTime()) > time.Hour {
				if err := removeIfThere(filepath.Join(dir, e.Name())); err != nil {
					return err
				}
			}
		}
	}
	return nil
}

// syncDir makes the names in a folder durable where the system can.
func syncDir(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	_ = d.Sync() // some systems cannot sync a folder; the files themselves are safe
	return d.Close()
}

func writePart(dir string, f File) (name string, err error) {
	out, err := os.CreateTemp(dir, "."+f.Name+".*.part")
	if err != nil {
		return "", err
	}
	if _, err := out.Write(f.Data); err != nil {
		return out.Name(), errors.Join(err, out.Close())
	}
	if err := errors.Join(out.Chmod(0o644), out.Sync()); err != nil {
		return out.Name(), errors.Join(err, out.Close())
	}
	return out.Name(), out.Close()
}

func removeIfThere(name string) error {
	if err := os.Remove(name); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}

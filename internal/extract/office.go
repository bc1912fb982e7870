package extract

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"path"
	"strings"
)

// officeText reads the office forms that are zip archives of XML parts.
func officeText(data []byte) (string, error) {
	a, err := openArchive(data)
	if err != nil {
		return "", err
	}
	switch {
	case a.has("META-INF/manifest.xml") && a.has("content.xml"):
		return odtText(a)
	case a.has("[Content_Types].xml"):
		if main := a.mainPart(); strings.HasPrefix(path.Base(main), "document") && a.has(main) {
			return docxText(a, main)
		}
	case a.has("Index/Document.iwa"):
		return "", fmt.Errorf("a Pages document; export it as .docx or .txt")
	}
	return "", fmt.Errorf("an archive without a Word or OpenDocument text in it; save the pattern as .docx, .odt or .txt")
}

// An archive is a zip file whose parts together unpack to no more than maxInside.
type archive struct {
	parts map[string]*zip.File
	left  int64
}

func openArchive(data []byte) (*archive, error) {
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, fmt.Errorf("a damaged archive (%v); save the document again, or as .txt", err)
	}
	a := &archive{map[string]*zip.File{}, maxInside}
	for _, f := range z.File {
		if f.Flags&1 != 0 {
			return nil, fmt.Errorf("protected by a password; save it without one")
		}
		if a.parts[f.Name] == nil {
			a.parts[f.Name] = f
		}
	}
	return a, nil
}

func (a *archive) has(name string) bool { return a.parts[name] != nil }

// mainPart is the name of the part that a package of Office parts calls its document.
func (a *archive) mainPart() string {
	const usual = "word/document.xml"
	rels, err := a.tree("_rels/.rels")
	if err != nil {
		return usual
	}
	for _, r := range rels.all("Relationship") {
		if strings.HasSuffix(r.attr("Type"), "/officeDocument") {
			return strings.TrimPrefix(path.Clean(r.attr("Target")), "/")
		}
	}
	return usual
}

const (
	maxNodes = 1_000_000
	maxDepth = 200
)

var errTooMuch = errors.New("unpacks to more than a pattern can be; save its text as .txt")

// tree reads a part of the archive. A part that is not there is an empty element.
func (a *archive) tree(name string) (*node, error) {
	root := &node{}
	f := a.parts[name]
	if f == nil {
		return root, nil
	}
	broken := func(err error) error {
		return fmt.Errorf("damaged in its part %s (%v); save the document again, or as .txt", name, err)
	}
	rd, err := f.Open()
	if err != nil {
		return nil, broken(err)
	}
	defer rd.Close() // a reader's
	limited := &io.LimitedReader{R: rd, N: a.left}
	dec := xml.NewDecoder(limited)
	stack, count := []*node{root}, 0
	for {
		tok, err := dec.Token()
		a.left = limited.N
		if a.left <= 0 {
			return nil, errTooMuch
		}
		if err == io.EOF {
			return root, nil
		}
		if err != nil {
			return nil, broken(err)
		}
		top := stack[len(stack)-1]
		switch t := tok.(type) {
		case xml.StartElement:
			n := &node{name: t.Name.Local, attrs: t.Attr}
			top.kids = append(top.kids, n)
			stack = append(stack, n)
		case xml.EndElement:
			stack = stack[:len(stack)-1]
		case xml.CharData:
			top.kids = append(top.kids, &node{text: string(t)})
		}
		if count++; count > maxNodes || len(stack) > maxDepth {
			return nil, errTooMuch
		}
	}
}

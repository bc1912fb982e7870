package extract

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"path"
	"strconv"
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

// A node is an element of XML or, without a name, its text. Names go without their
// prefixes: the forms read here use none twice for things that matter.
type node struct {
	name  string
	attrs []xml.Attr
	text  string
	kids  []*node
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

func (n *node) attr(name string) string {
	for _, a := range n.attrs {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// number is an attribute as a number, or a default.
func (n *node) number(name string, or int) int {
	if v, err := strconv.Atoi(n.attr(name)); err == nil {
		return v
	}
	return or
}

// at follows names of children to a node, an empty one if there is none.
func (n *node) at(names ...string) *node {
next:
	for _, name := range names {
		for _, k := range n.kids {
			if k.name == name {
				n = k
				continue next
			}
		}
		return &node{}
	}
	return n
}

// is tells whether n has a child of that name that is not switched off.
func (n *node) is(name string) bool {
	k := n.at(name)
	v := k.attr("val")
	return k.name == name && v != "0" && v != "false" && v != "off"
}

// all are the elements of a name under n, outermost first.
func (n *node) all(name string) []*node {
	var out []*node
	for _, k := range n.kids {
		if k.name == name {
			out = append(out, k)
		}
		out = append(out, k.all(name)...)
	}
	return out
}

// parts are the elements of a name under n, looked for only in elements that wrap parts of
// a document without being any.
func (n *node) parts(name string) []*node {
	var out []*node
	for _, k := range n.kids {
		switch k.name {
		case name:
			out = append(out, k)
		case "sdt", "sdtContent", "customXml", "ins", "moveTo":
			out = append(out, k.parts(name)...)
		}
	}
	return out
}

// string is the text of n and all under it.
func (n *node) string() string {
	if n.name == "" && len(n.kids) == 0 {
		return n.text
	}
	var b strings.Builder
	for _, k := range n.kids {
		b.WriteString(k.string())
	}
	return b.String()
}

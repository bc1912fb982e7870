package extract

import (
	"encoding/xml"
	"strconv"
	"strings"
)

// A node is an element of XML or, without a name, its text. Names go without their
// prefixes: the forms read here use none twice for things that matter.
type node struct {
	name  string
	attrs []xml.Attr
	text  string
	kids  []*node
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

package extract

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"
	"golang.org/x/net/html/charset"
)

func htmlText(data []byte) (string, error) {
	if !isText(data) {
		return "", fmt.Errorf("not text; save the page again as .html, or paste its text into a .txt file")
	}
	enc, _, _ := charset.DetermineEncoding(data, "text/html")
	if isUTF16(data) {
		data = []byte(decode(data))
	} else if b, err := io.ReadAll(enc.NewDecoder().Reader(bytes.NewReader(data))); err == nil {
		data = b
	}
	var p page
	if err := p.html(string(data)); err != nil {
		return "", err
	}
	return p.text(), nil
}

// html adds what a document or a piece of one shows.
func (p *page) html(s string) error {
	doc, err := html.Parse(strings.NewReader(s))
	if err != nil {
		return fmt.Errorf("not a readable page (%v); save it again, or paste its text into a .txt file", err)
	}
	p.node(doc, false)
	return nil
}

// node adds an element and what is in it. pre says that white space counts.
func (p *page) node(n *html.Node, pre bool) {
	switch n.Type {
	case html.TextNode:
		if pre {
			p.exact(n.Data)
		} else {
			p.words(n.Data)
		}
		return
	case html.ElementNode:
	case html.DocumentNode:
		p.children(n, pre)
		return
	default:
		return
	}
	if hidden(n) {
		return
	}
	switch n.DataAtom {
	case atom.Br:
		p.newline()
	case atom.Sup:
		p.raised(firstText(n))
		p.children(n, pre)
	case atom.Tr:
		var cells []*page
		for c := n.FirstChild; c != nil; c = c.NextSibling {
			if (c.DataAtom == atom.Td || c.DataAtom == atom.Th) && !hidden(c) {
				cell := &page{}
				cell.children(c, pre)
				cells = append(cells, cell)
			}
		}
		p.row(cells)
	case atom.Pre:
		p.blank()
		p.children(n, true)
		p.blank()
	case atom.Ol:
		p.blank()
		p.numbered(n, pre)
		p.blank()
	case atom.Li:
		p.end()
		p.item(n, pre)
	case atom.H1, atom.H2, atom.H3, atom.H4, atom.H5, atom.H6, atom.P, atom.Ul, atom.Dl, atom.Table, atom.Hr,
		atom.Blockquote, atom.Figure, atom.Section, atom.Article:
		p.blank()
		p.children(n, pre)
		p.blank()
	case atom.Address, atom.Aside, atom.Body, atom.Caption, atom.Center, atom.Dd, atom.Details, atom.Dialog, atom.Div,
		atom.Dt, atom.Fieldset, atom.Figcaption, atom.Footer, atom.Form, atom.Header, atom.Hgroup, atom.Legend,
		atom.Main, atom.Menu, atom.Option, atom.Summary, atom.Tbody, atom.Tfoot, atom.Thead:
		p.end()
		p.children(n, pre)
		p.end()
	default:
		p.children(n, pre)
	}
}

func (p *page) children(n *html.Node, pre bool) {
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		p.node(c, pre)
	}
}

// item adds a list item. Its own blocks are blocks of a list, not of the page: no blank
// line parts them from the number.
func (p *page) item(n *html.Node, pre bool) {
	body := &page{}
	body.children(n, pre)
	body.end()
	for i, line := range body.lines {
		if line == "" && (i == 0 || i == len(body.lines)-1) {
			continue
		}
		p.exact(line)
		p.newline()
	}
	p.end()
}

// numbered adds the items of an ordered list with their numbers.
func (p *page) numbered(list *html.Node, pre bool) {
	at, step := 1, 1
	if n, err := strconv.Atoi(attr(list, "start")); err == nil {
		at = n
	}
	if has(list, "reversed") {
		step = -1
		if attr(list, "start") == "" {
			at = 0
			for c := list.FirstChild; c != nil; c = c.NextSibling {
				if c.DataAtom == atom.Li {
					at++
				}
			}
		}
	}
	plain := strings.Contains(style(list), "list-style:none") || strings.Contains(style(list), "list-style-type:none")
	for c := list.FirstChild; c != nil; c = c.NextSibling {
		if c.DataAtom != atom.Li || hidden(c) {
			p.node(c, pre)
			continue
		}
		if n, err := strconv.Atoi(attr(c, "value")); err == nil {
			at = n
		}
		p.end()
		if !plain {
			p.exact(number(at, attr(list, "type")) + ". ")
		}
		p.item(c, pre)
		at += step
	}
}

// hidden tells whether nothing of an element is shown, or nothing that is text.
func hidden(n *html.Node) bool {
	switch n.DataAtom {
	case atom.Head, atom.Script, atom.Style, atom.Title, atom.Noscript, atom.Template, atom.Iframe, atom.Object,
		atom.Canvas, atom.Svg, atom.Nav, atom.Audio, atom.Video, atom.Select, atom.Textarea, atom.Datalist, atom.Del:
		return true
	}
	s := style(n)
	return has(n, "hidden") || strings.Contains(s, "display:none") || strings.Contains(s, "visibility:hidden")
}

// style is the style attribute without spaces, in lower case.
func style(n *html.Node) string {
	return strings.ToLower(strings.Join(strings.Fields(attr(n, "style")), ""))
}

func has(n *html.Node, key string) bool { return attribute(n, key) >= 0 }

func attr(n *html.Node, key string) string {
	if i := attribute(n, key); i >= 0 {
		return n.Attr[i].Val
	}
	return ""
}

// attribute is where an attribute of an element stands, -1 if it has none of that name.
func attribute(n *html.Node, key string) int {
	return slices.IndexFunc(n.Attr, func(a html.Attribute) bool { return a.Namespace == "" && a.Key == key })
}

// firstText is the first text in an element that is not white space.
func firstText(n *html.Node) string {
	for c := range n.Descendants() {
		if c.Type == html.TextNode && strings.TrimSpace(c.Data) != "" {
			return c.Data
		}
	}
	return ""
}

package extract

import (
	"fmt"
	"strings"
)

// odtText reads an OpenDocument text.
func odtText(a *archive) (string, error) {
	manifest, err := a.tree("META-INF/manifest.xml")
	if err != nil {
		return "", err
	}
	if len(manifest.all("encryption-data")) > 0 {
		return "", fmt.Errorf("protected by a password; save it without one")
	}
	content, err := a.tree("content.xml")
	if err != nil {
		return "", err
	}
	body := content.at("document-content", "body", "text")
	if body.name == "" {
		return "", fmt.Errorf("an OpenDocument file, but not a text; save the pattern as .odt, .docx or .txt")
	}
	d := odt{page: &page{}, notes: &page{}, list: map[string]*node{}, raised: map[string]bool{}}
	for _, s := range content.all("list-style") {
		d.list[s.attr("name")] = s
	}
	for _, s := range content.all("style") {
		d.raised[s.attr("name")] = strings.HasPrefix(s.at("text-properties").attr("text-position"), "super")
	}
	d.blocks(body)
	d.page.blank()
	d.page.take(d.notes)
	return d.page.text(), nil
}

// An odt writes the tree of a document onto a page.
type odt struct {
	page   *page
	notes  *page
	list   map[string]*node // list styles by name
	raised map[string]bool  // whether the text of a style stands above the line
}

func (d *odt) blocks(parent *node) {
	for _, n := range parent.kids {
		switch n.name {
		case "p", "h":
			d.words(n)
			d.page.newline()
		case "list":
			d.items(n, n.attr("style-name"), 1)
		case "table-row":
			var cells []*page
			for _, c := range n.kids {
				if c.name == "table-cell" {
					cell := odt{&page{}, d.notes, d.list, d.raised}
					cell.blocks(c)
					cells = append(cells, cell.page)
				}
			}
			d.page.row(cells)
		case "tracked-changes", "annotation", "forms":
		default:
			d.blocks(n)
		}
	}
}

// items adds a list with the numbers of its style.
func (d *odt) items(list *node, style string, level int) {
	var look *node
	if s := d.list[style]; s != nil {
		for _, l := range s.kids {
			if l.name == "list-level-style-number" && l.number("level", 0) == level && l.attr("num-format") != "" {
				look = l
			}
		}
	}
	count := 0
	if look != nil {
		count = look.number("start-value", 1) - 1
	}
	for _, item := range list.kids {
		if item.name != "list-item" {
			d.blocks(item)
			continue
		}
		count = item.number("start-value", count+1)
		if look != nil {
			d.page.exact(look.attr("num-prefix") + number(count, look.attr("num-format")) + look.attr("num-suffix") + " ")
		}
		for _, k := range item.kids {
			if k.name == "list" {
				inner := k.attr("style-name")
				if inner == "" {
					inner = style
				}
				d.page.end()
				d.items(k, inner, level+1)
				continue
			}
			d.blocks(&node{kids: []*node{k}})
		}
		d.page.end()
	}
}

// words adds the words of a paragraph or of a part of one. White space in the XML is
// running text; spaces that count are elements.
func (d *odt) words(parent *node) {
	for _, n := range parent.kids {
		switch n.name {
		case "":
			d.page.words(n.text)
		case "s":
			d.page.exact(strings.Repeat(" ", min(max(n.number("c", 1), 1), 1000)))
		case "tab":
			d.page.exact("\t")
		case "line-break":
			d.page.newline()
		case "span":
			if d.raised[n.attr("style-name")] {
				d.page.raised(n.string())
			}
			d.words(n)
		case "note":
			note := odt{&page{}, d.notes, d.list, d.raised}
			note.blocks(n.at("note-body"))
			d.notes.take(note.page)
		case "text-box":
			box := odt{&page{}, d.notes, d.list, d.raised}
			box.blocks(n)
			d.page.take(box.page)
		case "annotation", "title", "desc", "ruby-text", "tracked-changes":
		default:
			d.words(n)
		}
	}
}

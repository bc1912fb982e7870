package extract

import (
	"path"
	"strings"
)

// docxText reads a Word document whose text is the named part.
func docxText(a *archive, main string) (string, error) {
	dir := path.Dir(main)
	trees := map[string]*node{}
	for key, name := range map[string]string{
		"document": main, "numbering": path.Join(dir, "numbering.xml"), "styles": path.Join(dir, "styles.xml"),
		"footnotes": path.Join(dir, "footnotes.xml"), "endnotes": path.Join(dir, "endnotes.xml"),
	} {
		t, err := a.tree(name)
		if err != nil {
			return "", err
		}
		trees[key] = t
	}
	d := docx{page: &page{}, lists: readLists(trees["numbering"], trees["styles"])}
	d.blocks(trees["document"].at("document", "body"))
	for _, kind := range []string{"footnote", "endnote"} {
		for _, n := range trees[kind+"s"].all(kind) {
			if t := n.attr("type"); t == "" || t == "normal" {
				d.page.blank()
				d.blocks(n)
			}
		}
	}
	return d.page.text(), nil
}

// A docx writes the tree of a document onto a page.
type docx struct {
	page  *page
	lists *lists
	boxes []*node // contents of text boxes that wait for the end of their paragraph
}

func (d *docx) blocks(parent *node) {
	for _, n := range parent.kids {
		switch n.name {
		case "p":
			d.paragraph(n)
		case "tbl":
			d.page.end()
			d.table(n)
		case "del", "moveFrom", "sdtPr":
		default: // content controls, custom XML, tracked insertions and moves
			d.blocks(n)
		}
	}
}

func (d *docx) paragraph(n *node) {
	props := n.at("pPr")
	if label := d.lists.label(props); label != "" {
		d.page.exact(label + " ")
	}
	d.runs(n)
	if !props.at("rPr").is("del") { // else its end was deleted, and the next one goes on
		d.page.newline()
	}
	boxes := d.boxes
	d.boxes = nil
	for _, b := range boxes {
		d.blocks(b)
	}
}

func (d *docx) table(n *node) {
	for _, row := range n.parts("tr") {
		if row.at("trPr").is("del") {
			continue
		}
		var cells []*page
		for _, tc := range row.parts("tc") {
			if tc.at("tcPr").is("cellDel") {
				continue
			}
			cell := docx{page: &page{}, lists: d.lists}
			cell.blocks(tc)
			cells = append(cells, cell.page)
		}
		d.page.row(cells)
	}
}

// runs adds the words of a paragraph or of a part of one.
func (d *docx) runs(parent *node) {
	for _, n := range parent.kids {
		switch n.name {
		case "r":
			if props := n.at("rPr"); !props.is("vanish") && !props.is("del") {
				if props.at("vertAlign").attr("val") == "superscript" {
					d.page.raised(n.at("t").string())
				}
				d.runs(n)
			}
		case "t":
			d.page.exact(n.string())
		case "tab", "ptab":
			d.page.exact("\t")
		case "br", "cr":
			d.page.newline()
		case "noBreakHyphen":
			d.page.exact("-")
		case "txbxContent":
			d.boxes = append(d.boxes, n)
		case "f": // a fraction set as a formula
			num := n.at("num").formula()
			d.page.raised(num)
			d.page.exact(num + "/" + n.at("den").formula())
		case "del", "moveFrom", "pPr", "rPr", "sdtPr", "Fallback", "instrText", "delText", "rt":
		default:
			d.runs(n)
		}
	}
}

// formula is the text of a part of a formula.
func (n *node) formula() string {
	var b strings.Builder
	for _, t := range n.all("t") {
		b.WriteString(t.string())
	}
	return b.String()
}

// lists are the automatic numbers of a document. Paragraphs name an instance; instances
// of the same definition count on together.
type lists struct {
	def    map[string][]*node // of an instance: its levels
	id     map[string]string
	styles map[string]*node
	count  map[string][]int // of a definition, by level
}

func readLists(numbering, styles *node) *lists {
	l := &lists{map[string][]*node{}, map[string]string{}, map[string]*node{}, map[string][]int{}}
	defs := map[string][]*node{}
	for _, def := range numbering.all("abstractNum") {
		levels := make([]*node, 9)
		for i := range levels {
			levels[i] = &node{}
		}
		for _, n := range def.all("lvl") {
			if i := n.number("ilvl", -1); i >= 0 && i < len(levels) {
				levels[i] = n
			}
		}
		defs[def.attr("abstractNumId")] = levels
	}
	for _, n := range numbering.all("num") {
		if num := n.attr("numId"); num != "" {
			id := n.at("abstractNumId").attr("val")
			l.def[num], l.id[num] = defs[id], id
			if n.at("lvlOverride", "startOverride").name != "" { // begins anew
				l.id[num] = "own " + num
			}
		}
	}
	for _, s := range styles.all("style") {
		l.styles[s.attr("styleId")] = s
	}
	return l
}

// label is the number before a paragraph, empty if it has none or a bullet.
func (l *lists) label(props *node) string {
	num, level := props.at("numPr", "numId").attr("val"), props.at("numPr", "ilvl")
	style := props.at("pStyle").attr("val")
	for range 10 { // styles rest on styles, perhaps in a circle
		s := l.styles[style]
		if num != "" || s == nil {
			break
		}
		num, level = s.at("pPr", "numPr", "numId").attr("val"), s.at("pPr", "numPr", "ilvl")
		style = s.at("basedOn").attr("val")
	}
	levels, at := l.def[num], level.number("val", 0)
	if at < 0 || at >= len(levels) {
		return ""
	}
	counts := l.count[l.id[num]]
	for len(counts) <= at {
		counts = append(counts, levels[len(counts)].at("start").number("val", 1)-1)
	}
	counts = counts[:at+1]
	counts[at]++
	l.count[l.id[num]] = counts

	form := func(i int) string { return levels[i].at("numFmt").attr("val") }
	if form(at) == "bullet" || form(at) == "none" {
		return ""
	}
	label := levels[at].at("lvlText").attr("val")
	for i := range counts {
		style := map[string]string{"lowerLetter": "a", "upperLetter": "A", "lowerRoman": "i", "upperRoman": "I"}[form(i)]
		label = strings.ReplaceAll(label, "%"+string(rune('1'+i)), number(max(counts[i], levels[i].at("start").number("val", 1)), style))
	}
	return label
}

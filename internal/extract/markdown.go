package extract

import (
	"bytes"
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	tables "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"
	"golang.org/x/net/html/atom"
)

func markdownText(data []byte) (string, error) {
	if !isText(data) {
		return "", errNotText
	}
	src := []byte(strings.ReplaceAll(decode(data), "\r\n", "\n"))
	if len(src) > maxMarkdown {
		return "", fmt.Errorf("larger than %d MB; save the pattern's text by itself", maxMarkdown>>20)
	}
	if deep.Match(src) {
		return "", fmt.Errorf("quotes or lists inside each other deeper than a pattern can have them; save the pattern as .txt")
	}
	m := markdown{src: src, page: &page{}}
	m.blocks(goldmark.New(goldmark.WithExtensions(extension.Table)).Parser().Parse(text.NewReader(src)))
	return m.page.text(), nil
}

// maxMarkdown bounds what the parser is given: its time grows faster than the text.
const maxMarkdown = 1 << 20

// deep is a line that opens so many blocks inside each other that the parser would take
// very long.
var deep = regexp.MustCompile(`(?m)^(?:[ \t]*(?:>|[-*+][ \t]|\d{1,9}[.)][ \t])){100}`)

// A markdown writes the tree of a document onto a page. The words are taken from the
// source with as little change as can be, for a mark of the document's may be one of the
// knitter's.
type markdown struct {
	src  []byte
	page *page
}

func (m *markdown) blocks(parent ast.Node) {
	for n := parent.FirstChild(); n != nil; n = n.NextSibling() {
		m.block(n)
	}
}

func (m *markdown) block(n ast.Node) {
	p := m.page
	switch n := n.(type) {
	case *ast.List:
		p.blank()
		m.list(n)
		p.blank()
	case *ast.TextBlock:
		p.end()
		m.inlines(n)
		p.end()
	case *ast.Paragraph, *ast.Heading:
		p.blank()
		m.inlines(n)
		p.blank()
	case *ast.CodeBlock, *ast.FencedCodeBlock:
		p.blank()
		p.exact(strings.TrimSuffix(m.lines(n), "\n"))
		p.blank()
	case *ast.HTMLBlock:
		raw := m.lines(n)
		if n.HasClosure() {
			raw += string(n.ClosureLine.Value(m.src))
		}
		p.blank()
		if !m.tags(raw) {
			p.exact(strings.TrimSuffix(raw, "\n"))
		} else if err := p.html(raw); err != nil {
			p.exact(raw)
		}
		p.blank()
	case *tables.Table:
		p.blank()
		for r := n.FirstChild(); r != nil; r = r.NextSibling() {
			var cells []*page
			for c := r.FirstChild(); c != nil; c = c.NextSibling() {
				cell := markdown{m.src, &page{}}
				cell.inlines(c)
				cells = append(cells, cell.page)
			}
			p.row(cells)
		}
		p.blank()
	case *ast.ThematicBreak:
		p.blank()
	default:
		m.blocks(n)
	}
}

// lines is the source of a block that is not made of words.
func (m *markdown) lines(n ast.Node) string {
	var b strings.Builder
	for i := range n.Lines().Len() {
		line := n.Lines().At(i)
		b.Write(line.Value(m.src))
	}
	return b.String()
}

var (
	digits = regexp.MustCompile(`^\d{1,9}`)
	// star is an asterisk that does not belong to a pair.
	star = regexp.MustCompile(`(^|[^*\\])(\*)([^*]|$)`)
	// back is an asterisk that speaks of an earlier one.
	back = regexp.MustCompile(`(?i)\b(from|between|bet|to|at|after)\s*$`)
)

// list writes the items of a list, ordered ones with the numbers that the source has, as
// long as they rise: somebody who numbers only right-side rows 1, 3, 5 means that.
func (m *markdown) list(list *ast.List) {
	last := list.Start - 1
	for item := list.FirstChild(); item != nil; item = item.NextSibling() {
		m.page.end()
		body := markdown{m.src, &page{}}
		body.blocks(item)
		switch {
		case list.IsOrdered():
			n, err := strconv.Atoi(string(digits.Find(m.src[min(max(item.Pos(), 0), len(m.src)):])))
			if err != nil || n <= last {
				n = last + 1
			}
			last = n
			m.page.exact(fmt.Sprintf("%d%c ", n, list.Marker))
		case list.Marker == '*' && opens(body.page):
			m.page.exact("* ")
		}
		body.page.end()
		if !list.IsTight {
			body.page.blank()
		}
		lines := body.page.lines
		for len(lines) > 0 && lines[0] == "" {
			lines = lines[1:]
		}
		if len(lines) > 0 { // the first line stands beside the number
			m.page.exact(lines[0])
			m.page.newline()
			m.page.take(&page{lines: lines[1:]})
		}
		m.page.end()
	}
}

// opens tells whether the asterisk before an item opens a repeat that the item speaks of:
// its first asterisk closes or goes back to one that is not there, or one of them has no
// partner.
func opens(item *page) bool {
	all := strings.Join(item.lines, "\n") + item.cur.String()
	at := star.FindAllStringSubmatchIndex(all, -1)
	return len(at)%2 == 1 || len(at) > 0 && back.MatchString(all[:at[0][4]])
}

func (m *markdown) inlines(parent ast.Node) {
	for n := parent.FirstChild(); n != nil; n = n.NextSibling() {
		m.inline(n)
	}
}

func (m *markdown) inline(n ast.Node) {
	p := m.page
	switch n := n.(type) {
	case *ast.Text:
		p.words(string(util.ResolveEntityNames(util.ResolveNumericReferences(util.UnescapePunctuations(n.Value(m.src))))))
		if n.SoftLineBreak() || n.HardLineBreak() {
			p.newline()
		}
	case *ast.String:
		p.words(string(n.Value))
	case *ast.CodeSpan:
		for c := n.FirstChild(); c != nil; c = c.NextSibling() {
			if t, ok := c.(*ast.Text); ok {
				p.words(string(t.Value(m.src)))
			}
		}
	case *ast.Emphasis:
		mark := ""
		if at := n.Pos(); n.Level == 1 && at >= 0 && at < len(m.src) && m.src[at] == '*' {
			mark = "*"
		}
		p.words(mark)
		m.inlines(n)
		p.words(mark)
	case *ast.Link:
		if bytes.ContainsAny(n.Destination, "./:#@") {
			m.inlines(n)
			return
		}
		p.words("[") // "[k2, p2](twice)" is no link
		m.inlines(n)
		p.words("](" + string(n.Destination) + ")")
	case *ast.AutoLink:
		p.words(string(n.Label(m.src)))
	case *ast.RawHTML:
		raw := string(n.Segments.Value(m.src))
		switch name := strings.ToLower(strings.Trim(raw, "</> \t\n")); {
		case name == "br":
			p.newline()
		case name == "sup" && raw[1] != '/':
			if t, ok := n.NextSibling().(*ast.Text); ok {
				p.raised(string(t.Value(m.src)))
			}
		case !m.tags(raw):
			p.words(raw)
		}
	case *ast.Image:
	default:
		m.inlines(n)
	}
}

var tag = regexp.MustCompile(`^\s*</?([A-Za-z][A-Za-z0-9-]*)`)

// tags tells whether what looks like HTML begins with something HTML knows: "<k2>" is
// a knitter's bracket.
func (m *markdown) tags(raw string) bool {
	name := tag.FindStringSubmatch(raw)
	return name == nil || atom.Lookup([]byte(strings.ToLower(name[1]))) != 0
}

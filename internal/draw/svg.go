package draw

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"html"
	"strconv"
	"strings"

	"sockwright/internal/theme"
)

// SVG returns the drawing as a file that needs nothing else: the fonts are in it, on the
// theme's paper.
func (d *Drawing) SVG() []byte { return d.svg(true) }

// Inline returns the drawing as an element for a page that has the theme's style sheet: its
// colours follow the page.
func (d *Drawing) Inline() []byte { return d.svg(false) }

func (d *Drawing) svg(alone bool) []byte {
	var b bytes.Buffer
	if alone {
		b.WriteString(`<?xml version="1.0" encoding="UTF-8"?>` + "\n")
	}
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" width="%smm" height="%smm" viewBox="0 0 %s %s" role="img" font-family="'Source Sans 3',sans-serif" stroke-linecap="round" stroke-linejoin="round"><title>%s</title><desc>%s</desc>`+"\n",
		num(d.W), num(d.H), num(d.W), num(d.H), html.EscapeString(d.Title), html.EscapeString(d.Desc))
	if alone {
		b.WriteString("<style>")
		for _, weight := range []int{400, 600} {
			fmt.Fprintf(&b, `@font-face{font-family:'Source Sans 3';font-weight:%d;src:url(data:font/woff2;base64,%s) format("woff2")}`, weight, base64.StdEncoding.EncodeToString(theme.Web("Source Sans 3", weight)))
		}
		b.WriteString("</style>\n")
		fmt.Fprintf(&b, `<rect width="%s" height="%s" fill="%s"/>`+"\n", num(d.W), num(d.H), theme.Light("paper"))
	}
	for _, it := range d.items {
		switch it := it.(type) {
		case path:
			b.WriteString(`<path d="`)
			writePath(&b, it.segs)
			paints := []string{paint("fill", it.fill, alone)}
			if it.pen.Width > 0 {
				paints = append(paints, paint("stroke", it.pen.Ink, alone), "stroke-width:"+num(it.pen.Width))
				if it.pen.Dash > 0 {
					paints = append(paints, "stroke-dasharray:"+num(it.pen.Dash))
				}
			}
			b.WriteString(`" style="` + strings.Join(paints, ";") + "\"/>\n")
		case text:
			weight := ""
			if it.bold {
				weight = ` font-weight="600"`
			}
			anchor := [...]string{"", ` text-anchor="middle"`, ` text-anchor="end"`}[it.anchor]
			fmt.Fprintf(&b, `<text x="%s" y="%s" font-size="%s"%s%s style="%s">%s</text>`+"\n", num(it.x), num(it.y), num(it.size), anchor, weight, paint("fill", it.ink, alone), html.EscapeString(it.s))
		case group:
			fmt.Fprintf(&b, `<g role="group" aria-label="%s">`+"\n", html.EscapeString(it.label))
		case endGroup:
			b.WriteString("</g>\n")
		}
	}
	b.WriteString("</svg>\n")
	return b.Bytes()
}

func writePath(b *bytes.Buffer, segs []seg) {
	n := map[byte]int{'M': 1, 'L': 1, 'C': 3}
	for _, s := range segs {
		b.WriteByte(s.op)
		for i := range n[s.op] {
			if i > 0 {
				b.WriteByte(' ')
			}
			b.WriteString(num(s.p[i].X) + " " + num(s.p[i].Y))
		}
	}
}

// paint is the style of a fill or stroke of an ink. In a page the colour is the page's.
func paint(what string, ink Ink, alone bool) string {
	if ink.Name == "" {
		return what + ":none"
	}
	s := what + ":" + theme.Light(ink.Name)
	if !alone {
		s = fmt.Sprintf("%s:var(--%s,%s)", what, ink.Name, theme.Light(ink.Name))
	}
	if c := ink.cover(); c < 1 {
		s += fmt.Sprintf(";%s-opacity:%s", what, num(c))
	}
	return s
}

// num prints a number with at most two decimals.
func num(x float64) string {
	s := strconv.FormatFloat(x, 'f', 2, 64)
	for s[len(s)-1] == '0' {
		s = s[:len(s)-1]
	}
	if s[len(s)-1] == '.' {
		s = s[:len(s)-1]
	}
	if s == "-0" {
		return "0"
	}
	return s
}

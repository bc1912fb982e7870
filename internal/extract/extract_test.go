package extract_test

import (
	"archive/zip"
	"bytes"
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf16"
	"unicode/utf8"

	"sockwright/internal/extract"
)

var update = flag.Bool("update", false, "write the golden files of testdata anew")

type example struct {
	name, ext, in, want string
}

func run(t *testing.T, examples []example) {
	t.Helper()
	for _, x := range examples {
		t.Run(x.name, func(t *testing.T) {
			got, err := extract.Text("tern"+x.ext, []byte(x.in))
			if err != nil {
				t.Fatal(err)
			}
			if got != x.want {
				t.Errorf("Text =\n%q\nwant\n%q\nof %q", got, x.want, x.in)
			}
		})
	}
}

func TestPlain(t *testing.T) {
	wide := func(first string, order func(b []byte, v uint16) []byte) string {
		b := []byte(first)
		for _, u := range utf16.Encode([]rune("K2 – ½ é\r\n")) {
			b = order(b, u)
		}
		return string(b)
	}
	run(t, []example{
		{"as it is", ".txt", "CO 60 sts.\r\n\tRnd 1:  *K2, p2*  \n\n", "CO 60 sts.\r\n\tRnd 1:  *K2, p2*  \n\n"},
		{"empty", ".txt", "", ""},
		{"byte-order mark", ".txt", "\uFEFFCO 60", "CO 60"},
		{"no extension", "", "CO 60", "CO 60"},
		{"another extension", ".pattern", "1½", "1½"},
		{"Windows-1252", ".txt", "Rnds 1\x964: 1\xBD in, d\xE9but \x93x\x94", "Rnds 1–4: 1½ in, début “x”"},
		{"UTF-16 little end", ".txt", wide("\xFF\xFE", func(b []byte, v uint16) []byte { return append(b, byte(v), byte(v>>8)) }), "K2 – ½ é\r\n"},
		{"UTF-16 big end", ".txt", wide("\xFE\xFF", func(b []byte, v uint16) []byte { return append(b, byte(v>>8), byte(v)) }), "K2 – ½ é\r\n"},
		{"only CR", ".txt", "Rnd 1: k.\rRnd 2: p.\r", "Rnd 1: k.\nRnd 2: p.\n"},
	})
}

func TestHTML(t *testing.T) {
	run(t, []example{
		{"blocks", ".html", "<title>no</title><h1>Tern\n Sock</h1><p>CO 60.<p>Join.<div>Rnd 1: k.<br>Rnd 2: p.</div><div>End.</div>",
			"Tern Sock\n\nCO 60.\n\nJoin.\n\nRnd 1: k.\nRnd 2: p.\nEnd.\n"},
		{"left out", ".htm", "<head><meta charset=utf-8><style>p{}</style></head><p>a<script>b</script><span hidden>c</span><b style='DISPLAY : none'>d</b><svg><text>e</text></svg><del>f</del>g<!-- h -->",
			"ag\n"},
		{"table", ".html", "<table><caption>Sizes</caption><tr><th>Size<th>S<th>M<tr><td>CO<td>60 <td><p>64</p></table>after",
			"Sizes\nSize  S  M\nCO  60  64\n\nafter\n"},
		{"table for layout", ".html", "<table><tr><td><p>Rnd 1: k.<p>Rnd 2: p.<p>Rnd 3: k.<td>Side</table>",
			"Rnd 1: k.\n\nRnd 2: p.\n\nRnd 3: k.\n\nSide\n"},
		{"lists", ".html", "<ul><li>yarn<li>needles</ul><ol start=3><li>k1<li value=7><p>p1</p><ol type=a><li>x</ol></ol>",
			"yarn\nneedles\n\n3. k1\n7. p1\n\na. x\n"},
		{"navigation", ".html", "<nav><ol><li>Cuff<li>Leg</ol></nav><h2>Cuff</h2>", "Cuff\n"},
		{"entities and spaces", ".html", "<p>  1&frac12;&nbsp;in\n &minus;5&thinsp;% &lt;b&gt; sel&shy;vedge", "1½ in −5 % <b> selvedge\n"},
		{"fractions", ".html", "1<sup>1</sup>/<sub>2</sub> or 1 <sup>1</sup>&frasl;<sub>2</sub> in<sup>2</sup>", "1 1/2 or 1 1/2 in2\n"},
		{"pre", ".html", "<pre>x  o\n  x\n</pre>y", "x  o\n  x\n\ny\n"},
		{"charset", ".html", "<meta charset=iso-8859-2><p>\xB1", "ą\n"},
		{"words in marks", ".html", "<p><b>Rnd 1:</b> *<i>k2</i>, p2<span> </span>; rep from * to end.", "Rnd 1: *k2, p2 ; rep from * to end.\n"},
	})
}

func TestMarkdown(t *testing.T) {
	run(t, []example{
		{"headings and lines", ".md", "# Tern Sock\nCO 60.\nJoin.  \nRnd 1: k.\\\nRnd 2: p.\n\nCuff\n====\nx\n", "Tern Sock\n\nCO 60.\nJoin.\nRnd 1: k.\nRnd 2: p.\n\nCuff\n\nx\n"},
		{"repeats", ".md", "Rnd 1: *K2, p2; rep from * to end.\nRnd 2: *k1, p1* around.\nRnd 3: * k2 *, k1.\nRnd 4: *k1; *p1, k1; rep from ** once; rep from *.\n",
			"Rnd 1: *K2, p2; rep from * to end.\nRnd 2: *k1, p1* around.\nRnd 3: * k2 *, k1.\nRnd 4: *k1; *p1, k1; rep from ** once; rep from *.\n"},
		{"emphasis", ".markdown", "**Rnd 1:** *K2, **p2**; rep from * to end. __Note__ _that_ ***k1*** \\*k\\*\n", "Rnd 1: *K2, p2; rep from * to end. Note that *k1* *k*\n"},
		{"bullets", ".md", "* Yarn: 100 g\n* Rnd 1: *K2, p2; rep from * to end.\n* Rnd 2: k.\n\n- one\n- two\n", "Yarn: 100 g\nRnd 1: *K2, p2; rep from * to end.\nRnd 2: k.\n\none\ntwo\n"},
		{"repeats that look like bullets", ".md", "* K2, p2; rep from * to end.\n\ntext\n\n* k2 *\n\ntext\n\n* k1; rep from * once, then from * again\n",
			"* K2, p2; rep from * to end.\n\ntext\n\n* k2 *\n\ntext\n\n* k1; rep from * once, then from * again\n"},
		{"numbers", ".md", "1. k1\n3. p1\n   more\n5. k2\n\n1) a\n1) b\n", "1. k1\n3. p1\nmore\n5. k2\n\n1) a\n2) b\n"},
		{"table", ".md", "| Size | S | M |\n|---|--:|--:|\n| CO | 60 | **64** |\n", "Size  S  M\nCO  60  64\n"},
		{"code", ".md", "```\nx  o\n * x\n```\n\n    a  b\n\nuse `k2tog`\n", "x  o\n * x\n\na  b\n\nuse k2tog\n"},
		{"links", ".md", "See [the chart](https://example.org/c) and work [k2, p2](twice) or [k1] 3 times <https://example.org>.\n", "See the chart and work [k2, p2](twice) or [k1] 3 times https://example.org.\n"},
		{"tags", ".md", "<div>CO 60<br>Join</div>\n\nRnd 1: <k2> or<br>1<sup>1</sup>/<sub>2</sub> &frac12; <!-- no -->\n\n<k2> 3 times\n", "CO 60\nJoin\n\nRnd 1: <k2> or\n1 1/2 ½\n\n<k2> 3 times\n"},
	})
}

// pack makes a zip archive of parts.
func pack(parts ...string) string {
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for i := 0; i < len(parts); i += 2 {
		w, err := z.Create(parts[i])
		if err == nil {
			_, err = w.Write([]byte(parts[i+1]))
		}
		if err != nil {
			panic(err)
		}
	}
	if err := z.Close(); err != nil {
		panic(err)
	}
	return b.String()
}

func docx(body string, more ...string) string {
	return pack(append([]string{
		"[Content_Types].xml", "<Types/>",
		"word/document.xml", `<w:document xmlns:w="w" xmlns:mc="mc" xmlns:m="m"><w:body>` + body + `</w:body></w:document>`,
	}, more...)...)
}

func TestDocx(t *testing.T) {
	const numbering = `<w:numbering xmlns:w="w"><w:abstractNum w:abstractNumId="1"><w:lvl w:ilvl="0"><w:start w:val="2"/><w:numFmt w:val="decimal"/><w:lvlText w:val="Row %1:"/></w:lvl>
		<w:lvl w:ilvl="1"><w:start w:val="1"/><w:numFmt w:val="lowerLetter"/><w:lvlText w:val="%2)"/></w:lvl></w:abstractNum>
		<w:abstractNum w:abstractNumId="2"><w:lvl w:ilvl="0"><w:numFmt w:val="bullet"/><w:lvlText w:val="*"/></w:lvl></w:abstractNum>
		<w:num w:numId="5"><w:abstractNumId w:val="1"/></w:num><w:num w:numId="6"><w:abstractNumId w:val="2"/></w:num></w:numbering>`
	item := func(num, level int, s string) string {
		return fmt.Sprintf(`<w:p><w:pPr><w:numPr><w:ilvl w:val="%d"/><w:numId w:val="%d"/></w:numPr></w:pPr><w:r><w:t>%s</w:t></w:r></w:p>`, level, num, s)
	}
	p := func(s string) string { return "<w:p><w:r><w:t>" + s + "</w:t></w:r></w:p>" }
	run(t, []example{
		{"paragraphs", ".docx", docx(`<w:p><w:r><w:t>CO </w:t></w:r><w:r><w:t>60.</w:t><w:br/><w:t>Join.</w:t><w:tab/><w:t>x</w:t></w:r></w:p><w:p/>` + p("End")), "CO 60.\nJoin.\tx\n\nEnd\n"},
		{"tracked changes", ".docx", docx(`<w:p><w:r><w:t xml:space="preserve">CO </w:t></w:r><w:del><w:r><w:delText>60</w:delText></w:r></w:del><w:ins><w:r><w:t>64</w:t></w:r></w:ins>
			<w:moveFrom><w:r><w:t>no</w:t></w:r></w:moveFrom></w:p><w:p><w:pPr><w:rPr><w:del/></w:rPr></w:pPr><w:r><w:t>Rnd 1: </w:t></w:r></w:p>` + p("k.")), "CO 64\nRnd 1: k.\n"},
		{"table", ".docx", docx("<w:tbl><w:tr><w:tc>" + p("Size") + "</w:tc><w:tc>" + p("S") + "</w:tc></w:tr><w:tr><w:tc>" + p("CO") + "</w:tc><w:tc>" + p("60") + p("sts") + "</w:tc></w:tr></w:tbl>"), "Size  S\nCO  60 sts\n"},
		{"table in a table", ".docx", docx("<w:tbl><w:tr><w:tc><w:tbl><w:tr><w:tc>" + p("CO") + "</w:tc><w:tc>" + p("60") + "</w:tc></w:tr></w:tbl></w:tc></w:tr></w:tbl>"), "CO  60\n"},
		{"numbers", ".docx", docx(item(5, 0, "k")+item(5, 1, "a")+item(5, 1, "b")+item(6, 0, "yarn")+item(5, 0, "p"), "word/numbering.xml", numbering),
			"Row 2: k\na) a\nb) b\nyarn\nRow 3: p\n"},
		{"fractions", ".docx", docx(`<w:p><w:r><w:t>1</w:t></w:r><w:r><w:rPr><w:vertAlign w:val="superscript"/></w:rPr><w:t>1</w:t></w:r><w:r><w:t>/</w:t></w:r><w:r><w:t>2 or 1</w:t></w:r><m:oMath><m:f><m:num><m:r><m:t>3</m:t></m:r></m:num><m:den><m:r><m:t>4</m:t></m:r></m:den></m:f></m:oMath></w:p>`), "1 1/2 or 1 3/4\n"},
		{"hidden, fields and boxes", ".docx", docx(`<w:p><w:r><w:rPr><w:vanish/></w:rPr><w:t>no</w:t></w:r><w:r><w:instrText>PAGE</w:instrText></w:r><w:r><mc:AlternateContent><mc:Choice><w:txbxContent>` + p("box") + `</w:txbxContent></mc:Choice><mc:Fallback><w:txbxContent>` + p("box") + `</w:txbxContent></mc:Fallback></mc:AlternateContent></w:r><w:r><w:t>text</w:t></w:r></w:p>`), "text\nbox\n"},
		{"notes and heads", ".docx", docx(p("text"), "word/header1.xml", "<h>no</h>", "word/comments.xml", "<c>no</c>", "word/footnotes.xml", `<w:footnotes xmlns:w="w"><w:footnote w:type="separator">`+p("-")+`</w:footnote><w:footnote w:id="1">`+p("note")+`</w:footnote></w:footnotes>`), "text\n\nnote\n"},
		{"main part by another name", ".docx", pack("[Content_Types].xml", "<T/>", "_rels/.rels", `<R><Relationship Type="x/officeDocument" Target="/word/document2.xml"/></R>`, "word/document2.xml", "<document><body>"+strings.ReplaceAll(p("x"), "w:", "")+"</body></document>"), "x\n"},
	})
}

func odt(body string) string {
	return pack("mimetype", "application/vnd.oasis.opendocument.text", "META-INF/manifest.xml", "<manifest/>", "content.xml",
		`<document-content><automatic-styles><list-style name="L"><list-level-style-number level="1" num-format="1" num-suffix="."/></list-style><style name="T"><text-properties text-position="super 58%"/></style></automatic-styles><body><text>`+body+`</text></body></document-content>`)
}

func TestODT(t *testing.T) {
	run(t, []example{
		{"paragraphs", ".odt", odt(`<h>Tern</h><p>CO  60<s c="2"/>sts<line-break/>Join<tab/>x</p><p/><p>1<span style-name="T">1</span>/2</p>`), "Tern\nCO 60  sts\nJoin\tx\n\n1 1/2\n"},
		{"lists, tables, notes", ".odt", odt(`<tracked-changes><p>no</p></tracked-changes><list style-name="L"><list-item><p>k</p></list-item><list-item><p>p</p></list-item></list><list style-name="M"><list-item><p>yarn</p></list-item></list>
			<table><table-row><table-cell><p>CO</p></table-cell><table-cell><p>60</p></table-cell></table-row></table><p>x<note><note-citation>1</note-citation><note-body><p>note</p></note-body></note>y<annotation><p>no</p></annotation></p>`),
			"1. k\n2. p\nyarn\nCO  60\nxy\n\nnote\n"},
	})
}

// pdf makes a PDF with a page for each content stream. F1 is Helvetica and X the form.
func pdf(form string, pages ...string) string {
	var b strings.Builder
	var at []int
	obj := func(s string, args ...any) {
		at = append(at, b.Len())
		fmt.Fprintf(&b, "%d 0 obj\n%s\nendobj\n", len(at), fmt.Sprintf(s, args...))
	}
	b.WriteString("%PDF-1.4\n")
	obj("<</Type/Catalog/Pages 2 0 R>>")
	var kids strings.Builder
	for i := range pages {
		fmt.Fprintf(&kids, "%d 0 R ", 5+2*i)
	}
	obj("<</Type/Pages/Kids[%s]/Count %d/MediaBox[0 0 600 800]/Resources<</Font<</F1 3 0 R>>/XObject<</X 4 0 R>>>>>>", kids.String(), len(pages))
	obj("<</Type/Font/Subtype/Type1/BaseFont/Helvetica/Encoding<</BaseEncoding/WinAnsiEncoding/Differences[1/onehalf/f_i/two.oldstyle/eacute]>>>>")
	obj("<</Type/XObject/Subtype/Form/BBox[0 0 600 800]/Matrix[1 0 0 1 0 -20]/Length %d>>stream\n%s\nendstream", len(form), form)
	for i, s := range pages {
		obj("<</Type/Page/Parent 2 0 R/Contents %d 0 R>>", 6+2*i)
		obj("<</Length %d>>stream\n%s\nendstream", len(s), s)
	}
	xref := b.Len()
	fmt.Fprintf(&b, "xref\n0 %d\n0000000000 65535 f \n", len(at)+1)
	for _, n := range at {
		fmt.Fprintf(&b, "%010d 00000 n \n", n)
	}
	fmt.Fprintf(&b, "trailer<</Size %d/Root 1 0 R>>\nstartxref\n%d\n%%%%EOF\n", len(at)+1, xref)
	return b.String()
}

// column is operators that write lines at a place.
func column(x, y int, lines ...string) string {
	s := fmt.Sprintf("BT /F1 10 Tf 12 TL %d %d Td ", x, y)
	for _, l := range lines {
		l = strings.NewReplacer("(", "\\(", ")", "\\)").Replace(l)
		s += "(" + l + ") Tj T* "
	}
	return s + "ET "
}

func TestPDF(t *testing.T) {
	page := func(s string) string { return pdf("", s) }
	run(t, []example{
		{"lines from the top", ".pdf", page(column(50, 600, "Rnd 2: p.") + column(50, 700, "CO 60 (64) sts.", "Rnd 1: k.")), "CO 60 (64) sts.\nRnd 1: k.\n\nRnd 2: p.\n"},
		{"letters", ".pdf", page("BT /F1 10 Tf 50 700 Td (1\\001 in \\002 \\003 \\004 1\\2264) Tj ET"), "1½ in fi 2 é 1–4\n"},
		{"words by gaps", ".pdf", page("BT /F1 10 Tf 50 700 Td [(Ro)20(w)-280(1:)-280(k)] TJ ET"), "Row 1: k\n"},
		{"a size in the matrix", ".pdf", page("BT /F1 1 Tf 10 0 0 10 50 700 Tm [(Row)-280(1:)20( k)] TJ 12 0 Td (end) Tj ET"), "Row 1: k  end\n"},
		{"spaced words", ".pdf", page("BT /F1 10 Tf 3 Tw 50 700 Td (k all in this w) Tj 68.7 0 Td (ay) Tj ET"), "k all in this way\n"},
		{"a spread heading", ".pdf", page("BT /F1 10 Tf 4 Tc 50 700 Td (HEEL) Tj ET"), "HEEL\n"},
		{"painted twice", ".pdf", page(column(50, 700, "CO 60") + "BT /F1 10 Tf 50.3 700 Td (CO 60) Tj ET"), "CO 60\n"},
		{"a raised fraction", ".pdf", page("BT /F1 10 Tf 50 700 Td (Work 1) Tj /F1 6 Tf 4 Ts (1) Tj 0 Ts (/) Tj -2 Ts (2) Tj 0 Ts /F1 10 Tf ( in) Tj ET"), "Work 1 1/2 in\n"},
		{"a stacked fraction", ".pdf", page("BT /F1 10 Tf 50 700 Td (Work 1) Tj ET BT /F1 6 Tf 84 704 Td (1) Tj ET BT /F1 6 Tf 84 697 Td (2) Tj ET BT /F1 10 Tf 91 700 Td (in) Tj ET"), "Work 1 1/2 in\n"},
		{"a form", ".pdf", pdf(column(50, 700, "in a form"), column(50, 700, "CO 60")+"q /X Do Q"), "CO 60\nin a form\n"},
		{"a form that draws itself", ".pdf", pdf(column(50, 700, "x")+"/X Do", "/X Do"), strings.Repeat("x\n", 8)},
		{"a page on its side", ".pdf", page("BT /F1 10 Tf 0 1 -1 0 300 50 Tm (CO 60) Tj ET BT /F1 10 Tf 0 1 -1 0 320 50 Tm (Join.) Tj ET BT /F1 10 Tf 20 20 Td (x) Tj ET"), "CO 60\nJoin.\n"},
		{"text behind a scan", ".pdf", page("BT /F1 10 Tf 3 Tr 50 700 Td (CO 60) Tj ET"), "CO 60\n"},
		{"unseen text", ".pdf", page(column(50, 700, "CO 60") + "BT /F1 10 Tf 3 Tr 50 600 Td (no) Tj ET"), "CO 60\n"},
		{"columns", ".pdf", page(column(50, 750, "TERN SOCK, a heading over both of the columns of the page, and so long") +
			column(50, 700, "Rnd 1: k all of the sts", "and then the other sts.", "Rnd 2: p.", "Rnd 3: k all.") +
			column(300, 705, "Rnd 4: k to the marker", "and then the other sts.", "Rnd 5: p to the end.")),
			"TERN SOCK, a heading over both of the columns of the page, and so long\n\nRnd 1: k all of the sts\nand then the other sts.\nRnd 2: p.\nRnd 3: k all.\n\nRnd 4: k to the marker\nand then the other sts.\nRnd 5: p to the end.\n"},
		{"a table", ".pdf", page(column(50, 700, "Size", "Cast on", "Leg length", "Foot") + column(150, 700, "S", "60", "15 cm", "20 cm") + column(250, 700, "M", "64", "16 cm", "22 cm")),
			"Size  S  M\nCast on  60  64\nLeg length  15 cm  16 cm\nFoot  20 cm  22 cm\n"},
		{"heads and feet", ".pdf", pdf("", column(50, 780, "Tern Sock")+column(50, 700, "Rnd 1: k.")+column(300, 20, "page 1 of 3"),
			column(50, 780, "Tern Sock")+column(50, 700, "Rnd 2: p.")+column(300, 20, "page 2 of 3"),
			column(50, 780, "Tern Sock")+column(50, 700, "Rnd 3: k.")+column(300, 20, "page 3 of 3")), "Rnd 1: k.\nRnd 2: p.\nRnd 3: k.\n"},
	})
}

// TestFiles reads files of several producers; the text of each stands beside it.
func TestFiles(t *testing.T) {
	for _, name := range []string{"browser.pdf", "office.pdf", "roff.pdf", "graphics.pdf", "restricted.pdf", "office.docx", "office.odt"} {
		t.Run(name, func(t *testing.T) {
			data, err := os.ReadFile(filepath.Join("testdata", name))
			if err != nil {
				t.Fatal(err)
			}
			got, err := extract.Text(name, data)
			if err != nil {
				t.Fatal(err)
			}
			golden := filepath.Join("testdata", name+".txt")
			if *update {
				if err := os.WriteFile(golden, []byte(got), 0o666); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(golden)
			if err != nil {
				t.Fatal(err)
			}
			if got != string(want) {
				t.Errorf("Text(%s) =\n%s\nwant\n%s", name, got, want)
			}
			for range 20 {
				if again, err := extract.Text(name, data); again != got || err != nil {
					t.Fatalf("Text(%s) differs from one time to the next", name)
				}
			}
		})
	}
}

func TestRefused(t *testing.T) {
	locked, err := os.ReadFile("testdata/locked.pdf")
	if err != nil {
		t.Fatal(err)
	}
	encrypted := []byte(pack("content.xml", "<x/>"))
	encrypted[6] |= 1
	encrypted[bytes.Index(encrypted, []byte("PK\x01\x02"))+8] |= 1
	for _, x := range []struct{ name, in, want string }{
		{"a.txt", "\x00\x01\x02", "not text"},
		{"a.txt", "\x7FELF\x01\x01\x01\x02\x03 binary", "not text"},
		{"a.html", "\x00<p>", "not text"},
		{"a.md", "\x00# x", "not text"},
		{"a.md", strings.Repeat("> ", 200) + "x", "deeper than a pattern"},
		{"a.md", strings.Repeat("*a ", 1<<19), "larger than 1 MB"},
		{"a.html", strings.Repeat("<div>", 1000), "not a readable page"},
		{"a.doc", "\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1....", "old Word document; save it as .docx or .txt"},
		{"a.docx", "\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1..E\x00n\x00c\x00r\x00y\x00p\x00t\x00e\x00d\x00P\x00a\x00c\x00k\x00a\x00g\x00e\x00", "protected by a password"},
		{"a.docx", "CO 60", "not a .docx file inside"},
		{"a.docx", docx(strings.Repeat("<w:p>", 300)), "more than a pattern can be"},
		{"a.docx", docx(strings.Repeat(" ", 65<<20)), "more than a pattern can be"},
		{"a.docx", docx("<w:p>"), "damaged in its part word/document.xml"},
		{"a.docx", "PK\x03\x04....", "damaged archive"},
		{"a.docx", string(encrypted), "protected by a password"},
		{"a.zip", pack("a.txt", "CO 60"), "archive without a Word or OpenDocument text"},
		{"a.xlsx", pack("[Content_Types].xml", "<T/>", "_rels/.rels", `<R><Relationship Type="x/officeDocument" Target="xl/workbook.xml"/></R>`, "xl/workbook.xml", "<w/>"), "archive without"},
		{"a.odt", pack("META-INF/manifest.xml", "<m><encryption-data/></m>", "content.xml", "?"), "protected by a password"},
		{"a.ods", pack("META-INF/manifest.xml", "<m/>", "content.xml", "<document-content><body><spreadsheet/></body></document-content>"), "but not a text"},
		{"a.rtf", "{\\rtf1 x}", "rich text"},
		{"a.pages", "PK\x03\x04", "Pages document"},
		{"a.png", "\x89PNG\r\n\x1A\n\x00", "a picture"},
		{"a.heic", "\x00\x00\x00\x18ftypheic", "a picture"},
		{"a.pdf", "CO 60", "not a .pdf file inside"},
		{"a.pdf", "%PDF-1.4 and no more", "damaged PDF"},
		{"a.pdf", pdf("", "0 0 10 10 re f"), "has no text layer: it is a scan; run text recognition on it first, or paste the text"},
		{"a.pdf", string(locked), "protected by a password"},
		{"a.txt", strings.Repeat("x", 65<<20), "larger than 64 MB"},
	} {
		got, err := extract.Text(x.name, []byte(x.in))
		if err == nil || !strings.HasPrefix(err.Error(), x.name+": ") || !strings.Contains(err.Error(), x.want) {
			t.Errorf("Text(%s, %.20q) = %.20q, %v, want an error about %q", x.name, x.in, got, err, x.want)
		}
	}
}

// TestDamaged cuts and scrambles good files: whatever comes back, it does come back.
func TestDamaged(t *testing.T) {
	names, err := filepath.Glob("testdata/office.*")
	if err != nil || len(names) == 0 {
		t.Fatal(errors.Join(err, errors.New("no files")))
	}
	for _, name := range names {
		good, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for i := range 40 {
			cut := len(good) * i / 40
			extract.Text(name, good[:cut]) //nolint:errcheck // any answer will do
			bad := bytes.Clone(good)
			for j := cut; j < len(bad); j += 997 {
				bad[j] ^= byte(i*37 + j)
			}
			if s, _ := extract.Text(name, bad); !utf8.ValidString(s) {
				t.Fatalf("%s scrambled from %d on: not UTF-8", name, cut)
			}
		}
	}
}

func FuzzText(f *testing.F) {
	for _, s := range []struct{ ext, in string }{
		{".txt", "CO 60 sts.\r\nRnd 1: *K2, p2; rep from * to end.\n"},
		{".txt", "\xFF\xFEK\x00"},
		{".html", "<ol start=2><li>k<sup>1</sup>/2<table><tr><td>a<td>b</table><pre> x</pre>"},
		{".md", "* K2; rep from *\n1. **a** _b_ [c](d) <e>\n\n|a|b|\n|-|-|\n|c|d|\n"},
		{".docx", docx(`<w:p><w:r><w:t>CO 60</w:t></w:r></w:p><w:tbl><w:tr><w:tc/></w:tr></w:tbl>`)},
		{".odt", odt("<p>CO 60</p>")},
		{".pdf", pdf(column(50, 700, "x"), column(50, 700, "CO 60", "k")+column(300, 700, "y")+"/X Do")},
		{".pdf", pdf("", "BT /F1 1 Tf 10 0 0 10 50 700 Tm 2 Tc [(a)-200(b)] TJ ET q 0 1 -1 0 5 5 cm")},
	} {
		f.Add(s.ext, []byte(s.in))
	}
	f.Fuzz(func(t *testing.T, ext string, data []byte) {
		s, err := extract.Text("tern"+ext, data)
		if err == nil && !utf8.ValidString(s) {
			t.Errorf("not UTF-8: %q", s)
		}
		if err != nil && s != "" {
			t.Errorf("both text %q and error %v", s, err)
		}
		if again, _ := extract.Text("tern"+ext, data); again != s {
			t.Errorf("%q the first time and %q the second", s, again)
		}
	})
}

// FuzzPage draws anything on a page.
func FuzzPage(f *testing.F) {
	f.Add("BT /F1 10 Tf 50 700 Td [(Ro)20(w)-280(1:)-280(k)] TJ T* (x) ' 1 2 (y) \" ET", "/X Do")
	f.Add(column(50, 700, "a", "b", "c")+column(300, 705, "d", "e", "f"), "q 1 0 0 1 0 0 cm Q BI ID x EI")
	f.Fuzz(func(t *testing.T, content, form string) {
		s, err := extract.Text("tern.pdf", []byte(pdf(form, content, content)))
		if err != nil && strings.Contains(err.Error(), "damaged beyond reading") {
			t.Error(err)
		}
		if !utf8.ValidString(s) {
			t.Errorf("not UTF-8: %q", s)
		}
	})
}

func ExampleText() {
	text, err := extract.Text("tern.md", []byte("# Tern Sock\n**Rnd 1:** *K2, p2; rep from * to end.\n"))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(text)
	// Output:
	// Tern Sock
	//
	// Rnd 1: *K2, p2; rep from * to end.
}

package extract

import (
	"errors"
	"fmt"
	"math"

	"github.com/carlos7ags/folio/core"
	"github.com/carlos7ags/folio/reader"
	"golang.org/x/text/unicode/norm"
)

// Bounds of what is worked through. Patterns come nowhere near.
const (
	maxPages     = 500
	maxOperators = 5_000_000 // of all pages
	maxRuns      = 50_000    // of a page
	maxForms     = 8         // drawn inside each other
)

// pdfText reads the text layer of a PDF. The library reads objects, streams and operators;
// following the pen is done here, for places and widths must be exact: words are told
// apart by them.
func pdfText(data []byte) (string, error) {
	doc, err := reader.ParseWithOptions(data, reader.ReadOptions{
		MaxCache:     2000,
		MemoryLimits: reader.MemoryLimits{MaxStreamSize: 16 << 20, MaxTotalAlloc: 512 << 20, MaxXrefSize: 16 << 20, MaxObjectCount: 300_000},
	})
	switch {
	case errors.Is(err, reader.ErrInvalidPassword):
		return "", fmt.Errorf("protected by a password; save it without one")
	case errors.Is(err, reader.ErrUnsupportedEncryption):
		return "", fmt.Errorf("encrypted in a way that cannot be read here; save it without a password, or print it to a new PDF")
	case err != nil:
		return "", fmt.Errorf("a damaged PDF (%v); save it again, or paste its text into a .txt file", err)
	case doc.PageCount() > maxPages:
		return "", fmt.Errorf("%d pages, and at most %d are read; save the pattern's pages by themselves", doc.PageCount(), maxPages)
	}
	in := &ink{doc: doc, fonts: map[core.PdfObject]*font{}}
	var pages [][]textLine
	for i := range doc.PageCount() {
		pg, err := doc.Page(i)
		if err != nil {
			continue // a broken page must not lose the others
		}
		res, _ := pg.Resources()
		content, err := pg.ContentStream()
		if err != nil {
			in.full = in.full || errors.Is(err, reader.ErrMemoryLimitExceeded)
			continue
		}
		in.runs = nil
		in.draw(content, res, pen{ctm: identity}, 0)
		if in.operators > maxOperators || len(in.runs) >= maxRuns {
			return "", fmt.Errorf("page %d: more drawing than a pattern can be; save its text as .txt", i+1)
		}
		pages = append(pages, layPage(in.runs))
	}
	var p page
	for i, lines := range withoutHeads(pages) {
		if i > 0 {
			p.end()
		}
		for _, l := range lines {
			if l.apart {
				p.blank()
			}
			p.exact(norm.NFC.String(l.text))
			p.newline()
		}
	}
	if in.full {
		return "", errTooMuch
	}
	text := p.text()
	switch {
	case text != "":
		return text, nil
	case in.dumb > 0:
		return "", fmt.Errorf("its letters are drawn without saying which they are; run text recognition on it first, or paste the text")
	}
	return "", fmt.Errorf("has no text layer: it is a scan; run text recognition on it first, or paste the text")
}

// A matrix maps points like a PDF's: x' = ax + cy + e, y' = bx + dy + f.
type matrix [6]float64

var identity = matrix{1, 0, 0, 1, 0, 0}

// then is the matrix that applies m first and n after it.
func (m matrix) then(n matrix) matrix {
	return matrix{
		m[0]*n[0] + m[1]*n[2], m[0]*n[1] + m[1]*n[3],
		m[2]*n[0] + m[3]*n[2], m[2]*n[1] + m[3]*n[3],
		m[4]*n[0] + m[5]*n[2] + n[4], m[4]*n[1] + m[5]*n[3] + n[5],
	}
}

// A run is text that was shown by one operator, as it stands on the page. Places are in
// points, x to the right and y up, of the base line.
type run struct {
	x0, x1, y, size float64
	text            string
	turn            int // quarter turns anticlockwise
	unseen          bool
}

// A pen is the state that decides where text goes.
type pen struct {
	ctm, tm, line            matrix
	font                     *font
	size, chars, words, wide float64 // wide is the horizontal scale less one
	leading, rise            float64
	mode                     int
	spread                   bool // chars stands for a space
}

// An ink collects the runs of a page.
type ink struct {
	doc       *reader.PdfReader
	fonts     map[core.PdfObject]*font
	runs      []run
	operators int
	dumb      int  // codes whose letters are unknown
	full      bool // something was too large to be unpacked
}

// draw follows operators. Those that are not about text or its place are passed over.
func (in *ink) draw(content []byte, res *core.PdfDictionary, p pen, depth int) {
	if in.operators += len(content) / 32; in.operators > maxOperators {
		return // reading them again and again takes time as well
	}
	var stack []pen
	for _, op := range reader.ParseContentStream(content) {
		if in.operators++; in.operators > maxOperators || len(in.runs) >= maxRuns {
			return
		}
		arg := op.Operands
		num := func(i int) float64 {
			if i >= len(arg) || arg[i].Type != reader.TokenNumber {
				return 0
			}
			return real64(arg[i])
		}
		name := func() string {
			if len(arg) == 0 || arg[0].Type != reader.TokenName {
				return ""
			}
			return arg[0].Value
		}
		move := func(x, y float64) {
			p.line = matrix{1, 0, 0, 1, x, y}.then(p.line)
			p.tm = p.line
		}
		switch op.Operator {
		case "q":
			if len(stack) < 10_000 {
				stack = append(stack, p)
			}
		case "Q":
			if n := len(stack); n > 0 {
				p, stack = stack[n-1], stack[:n-1]
			}
		case "cm":
			p.ctm = matrix{num(0), num(1), num(2), num(3), num(4), num(5)}.then(p.ctm)
		case "BT":
			p.tm, p.line = identity, identity
		case "Tf":
			p.font, p.size = in.font(res, name()), num(1)
		case "Tc":
			p.chars = num(0)
		case "Tw":
			p.words = num(0)
		case "Tz":
			p.wide = num(0)/100 - 1
		case "TL":
			p.leading = num(0)
		case "Ts":
			p.rise = num(0)
		case "Tr":
			p.mode = int(num(0))
		case "Tm":
			p.line = matrix{num(0), num(1), num(2), num(3), num(4), num(5)}
			p.tm = p.line
		case "Td":
			move(num(0), num(1))
		case "TD":
			p.leading = -num(1)
			move(num(0), num(1))
		case "T*":
			move(0, -p.leading)
		case "'":
			move(0, -p.leading)
			in.show(&p, arg)
		case "\"":
			p.words, p.chars = num(0), num(1)
			move(0, -p.leading)
			in.show(&p, arg[min(2, len(arg)):])
		case "Tj", "TJ":
			in.show(&p, arg)
		case "gs":
			state := in.dict(in.dict(res, "ExtGState"), name())
			if f, ok := in.get(state, "Font").(*core.PdfArray); ok && f.Len() == 2 {
				if d, ok := in.resolve(f.At(0)).(*core.PdfDictionary); ok {
					p.font, p.size = in.load(d), number64(in.resolve(f.At(1)))
				}
			}
		case "Do":
			in.form(res, name(), p, depth)
		}
	}
}

// form draws a form that the page, or another form, draws with one operator.
func (in *ink) form(res *core.PdfDictionary, name string, p pen, depth int) {
	if depth >= maxForms {
		return
	}
	full := in.full
	s, ok := in.get(in.dict(res, "XObject"), name).(*core.PdfStream)
	if !ok {
		in.full = full // a large picture may well be left out
		return
	}
	if t, ok := in.get(s.Dict, "Subtype").(*core.PdfName); !ok || t.Value != "Form" {
		return
	}
	if m, ok := in.get(s.Dict, "Matrix").(*core.PdfArray); ok && m.Len() == 6 {
		var own matrix
		for i := range own {
			own[i] = number64(in.resolve(m.At(i)))
		}
		p.ctm = own.then(p.ctm)
	}
	if own := in.dict(s.Dict, "Resources"); own != nil {
		res = own
	}
	in.draw(s.Data, res, p, depth+1)
}

// show writes strings and moves by numbers between them.
//
// Some producers write a word of one letter, or the end of a word, by spreading letters as
// wide as a space and taking that back between letters of a word. The spread is then a
// space; where nothing takes it back it only spreads a heading.
func (in *ink) show(p *pen, args []reader.Token) {
	p.spread = false
	for _, a := range args {
		if p.chars > 0.17*math.Abs(p.size) && a.Type == reader.TokenNumber {
			p.spread = p.spread || math.Abs(real64(a)/1000*p.size-p.chars) < 0.05*p.chars
		}
	}
	for _, a := range args {
		switch a.Type {
		case reader.TokenNumber:
			p.tm = matrix{1, 0, 0, 1, -real64(a) / 1000 * p.size * (1 + p.wide), 0}.then(p.tm)
		case reader.TokenString, reader.TokenHexString:
			in.write(p, a.Value)
		}
	}
}

func (in *ink) write(p *pen, raw string) {
	if p.font == nil {
		return
	}
	text, width := "", 0.0
	for i, c := range p.font.codes(raw) {
		g := p.font.glyph(c)
		if g.text == "" && g.width > 0 {
			in.dumb++
		}
		if i > 0 && p.spread {
			text += " "
		}
		text += g.text
		width += g.width*p.size + p.chars
		if c == ' ' && p.font.bytes == 1 {
			width += p.words
		}
	}
	width *= 1 + p.wide
	from := matrix{1, 0, 0, 1, 0, p.rise}.then(p.tm).then(p.ctm)
	p.tm = matrix{1, 0, 0, 1, width, 0}.then(p.tm)
	to := matrix{1, 0, 0, 1, 0, p.rise}.then(p.tm).then(p.ctm)
	r := run{text: text, unseen: p.mode == 3, size: math.Abs(p.size) * math.Hypot(from[2], from[3])}
	angle := math.Atan2(from[1], from[0]) * 2 / math.Pi // in quarter turns
	if p.size < 0 {
		angle += 2
	}
	turn := math.Round(angle)
	if math.Abs(angle-turn) > 0.1 || text == "" || r.size == 0 {
		return // aslant: a watermark, or a word along a drawing
	}
	r.turn = (int(turn) + 4) % 4
	switch r.turn {
	case 0:
		r.x0, r.x1, r.y = from[4], to[4], from[5]
	case 1:
		r.x0, r.x1, r.y = from[5], to[5], -from[4]
	case 2:
		r.x0, r.x1, r.y = -from[4], -to[4], -from[5]
	case 3:
		r.x0, r.x1, r.y = -from[5], -to[5], from[4]
	}
	for _, v := range []float64{r.x0, r.x1, r.y, r.size} {
		if math.IsNaN(v) || math.Abs(v) > 1e6 {
			return
		}
	}
	in.runs = append(in.runs, r)
}

// resolve follows a reference; what is broken is nil.
func (in *ink) resolve(o core.PdfObject) core.PdfObject {
	if o == nil {
		return nil
	}
	got, err := in.doc.ResolveObject(o)
	if err != nil {
		in.full = in.full || errors.Is(err, reader.ErrMemoryLimitExceeded)
		return nil
	}
	return got
}

func (in *ink) get(d *core.PdfDictionary, key string) core.PdfObject {
	if d == nil {
		return nil
	}
	return in.resolve(d.Get(key))
}

// dict is a dictionary in another one, or d itself for no key; nil if there is none.
func (in *ink) dict(d *core.PdfDictionary, key string) *core.PdfDictionary {
	if key == "" {
		return d
	}
	got, _ := in.get(d, key).(*core.PdfDictionary)
	return got
}

// real64 is a number among the operators of a page.
func real64(t reader.Token) float64 {
	if t.IsInt {
		return float64(t.Int)
	}
	return t.Real
}

// number64 is a number among the objects of a file, 0 for anything else.
func number64(o core.PdfObject) float64 {
	if n, ok := o.(*core.PdfNumber); ok {
		return n.FloatValue()
	}
	return 0
}

package extract

import (
	"strconv"
	"strings"
	"unicode"

	"github.com/carlos7ags/folio/core"
	metrics "github.com/carlos7ags/folio/font"
	"github.com/carlos7ags/folio/reader"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/unicode/norm"
)

// A glyph is what a code of a font means. A glyph without text is one whose letters the
// file does not tell.
type glyph struct {
	text  string
	width float64 // of the font's size
}

// A font tells codes of strings from each other and what they mean.
type font struct {
	bytes  int // of a code
	known  map[int]glyph
	lookup func(code int) glyph
}

func (f *font) codes(raw string) []int {
	out := make([]int, 0, len(raw)/f.bytes)
	for ; len(raw) >= f.bytes; raw = raw[f.bytes:] {
		code := int(raw[0])
		if f.bytes == 2 {
			code = code<<8 | int(raw[1])
		}
		out = append(out, code)
	}
	return out
}

func (f *font) glyph(code int) glyph {
	g, ok := f.known[code]
	if !ok {
		g = f.lookup(code)
		f.known[code] = g
	}
	return g
}

// font is the font with a name among resources, nil if there is none.
func (in *ink) font(res *core.PdfDictionary, name string) *font {
	d := in.dict(in.dict(res, "Font"), name)
	if d == nil {
		return nil
	}
	return in.load(d)
}

func (in *ink) load(d *core.PdfDictionary) *font {
	f := in.fonts[d]
	if f == nil {
		if t, ok := in.get(d, "Subtype").(*core.PdfName); ok && t.Value == "Type0" {
			f = in.composite(d)
		} else {
			f = in.simple(d)
		}
		f.known = map[int]glyph{}
		in.fonts[d] = f
	}
	return f
}

// toUnicode is the map from codes to text that most fonts carry, nil if this one has none.
func (in *ink) toUnicode(d *core.PdfDictionary) *reader.CMap {
	if s, ok := in.get(d, "ToUnicode").(*core.PdfStream); ok && len(s.Data) > 0 {
		return reader.ParseCMap(s.Data)
	}
	return nil
}

// composite reads a font with codes of two bytes.
func (in *ink) composite(d *core.PdfDictionary) *font {
	var desc *core.PdfDictionary
	if a, ok := in.get(d, "DescendantFonts").(*core.PdfArray); ok && a.Len() > 0 {
		desc, _ = in.resolve(a.At(0)).(*core.PdfDictionary)
	}
	width := 1.0
	if n, ok := in.get(desc, "DW").(*core.PdfNumber); ok {
		width = n.FloatValue() / 1000
	}
	widths := in.cidWidths(desc)
	f := &font{bytes: 2}
	cmap := in.toUnicode(d)
	if e, ok := in.get(d, "Encoding").(*core.PdfName); cmap != nil && cmap.CodeBytes() == 1 && !(ok && strings.HasPrefix(e.Value, "Identity")) {
		f.bytes = 1
	}
	var program map[uint16]rune // from glyphs, where the file has no map of its own
	var gids []byte
	if cmap == nil {
		fd := in.dict(desc, "FontDescriptor")
		for _, key := range []string{"FontFile2", "FontFile3"} {
			if s, ok := in.get(fd, key).(*core.PdfStream); ok && program == nil {
				program = metrics.BuildGIDToUnicode(s.Data)
			}
		}
		if s, ok := in.get(desc, "CIDToGIDMap").(*core.PdfStream); ok {
			gids = s.Data
		}
	}
	f.lookup = func(code int) glyph {
		g := glyph{width: width}
		if w, ok := widths[code]; ok {
			g.width = w
		}
		switch {
		case cmap != nil && f.bytes == 1:
			g.text = visible(cmap.Decode([]byte{byte(code)}))
		case cmap != nil:
			g.text = visible(cmap.Decode([]byte{byte(code >> 8), byte(code)}))
		default:
			gid := code
			if 2*code+1 < len(gids) {
				gid = int(gids[2*code])<<8 | int(gids[2*code+1])
			}
			if r := program[uint16(gid)]; r != 0 {
				g.text = visible(string(r))
			}
		}
		return g
	}
	return f
}

// cidWidths reads "first [w w …]" and "first last w".
func (in *ink) cidWidths(desc *core.PdfDictionary) map[int]float64 {
	out := map[int]float64{}
	a, ok := in.get(desc, "W").(*core.PdfArray)
	if !ok {
		return out
	}
	for i := 0; i+1 < a.Len(); {
		first := int(number64(in.resolve(a.At(i))))
		if ws, ok := in.resolve(a.At(i + 1)).(*core.PdfArray); ok {
			for j := range min(ws.Len(), 1<<16) {
				out[first+j] = number64(in.resolve(ws.At(j))) / 1000
			}
			i += 2
			continue
		}
		if i+2 >= a.Len() {
			break
		}
		last, w := int(number64(in.resolve(a.At(i+1)))), number64(in.resolve(a.At(i+2)))/1000
		if first >= 0 && last < 1<<16 {
			for c := first; c <= last; c++ {
				out[c] = w
			}
		}
		if i += 3; len(out) > 1<<17 {
			break
		}
	}
	return out
}

// simple reads a font with codes of one byte.
func (in *ink) simple(d *core.PdfDictionary) *font {
	base := ""
	if n, ok := in.get(d, "BaseFont").(*core.PdfName); ok {
		base = n.Value
		if _, after, ok := strings.Cut(base, "+"); ok {
			base = after // the mark of a subset
		}
	}
	unit := 0.001
	if m, ok := in.get(d, "FontMatrix").(*core.PdfArray); ok && m.Len() == 6 { // a font of drawings
		unit = number64(in.resolve(m.At(0)))
	}
	first := int(number64(in.get(d, "FirstChar")))
	widths, _ := in.get(d, "Widths").(*core.PdfArray)
	missing, standard := number64(in.get(in.dict(d, "FontDescriptor"), "MissingWidth")), metrics.StandardFontByteWidths(base)
	width := func(code int) float64 {
		switch i := code - first; {
		case widths != nil && i >= 0 && i < widths.Len():
			return number64(in.resolve(widths.At(i))) * unit
		case widths != nil:
			return missing * unit
		case code < len(standard):
			return float64(standard[code]) / 1000
		}
		return 0.5
	}

	letters := in.encoding(d, base)
	cmap := in.toUnicode(d)
	return &font{bytes: 1, lookup: func(code int) glyph {
		text := letters[code]
		if cmap != nil {
			// A code that is not in the map comes back as itself.
			if got := cmap.Decode([]byte{byte(code)}); got != string(rune(code)) || text == "" {
				text = got
			}
		}
		return glyph{visible(text), width(code)}
	}}
}

// encoding is what the codes of a simple font mean by its encoding.
func (in *ink) encoding(d *core.PdfDictionary, base string) (out [256]string) {
	name := ""
	var differences *core.PdfArray
	switch e := in.get(d, "Encoding").(type) {
	case *core.PdfName:
		name = e.Value
	case *core.PdfDictionary:
		if n, ok := in.get(e, "BaseEncoding").(*core.PdfName); ok {
			name = n.Value
		}
		differences, _ = in.get(e, "Differences").(*core.PdfArray)
	}
	builtin := metrics.StandardFontBuiltinEncoding(base)
	for i := range out {
		switch {
		case name == "" && i < len(builtin):
			if builtin[i] != 0 {
				out[i] = string(builtin[i])
			}
		case name == "MacRomanEncoding":
			out[i] = string(charmap.Macintosh.DecodeByte(byte(i)))
		default:
			out[i] = string(charmap.Windows1252.DecodeByte(byte(i)))
			if r, ok := standardEncoding[byte(i)]; ok && name != "WinAnsiEncoding" {
				out[i] = string(r)
			}
		}
	}
	if differences == nil {
		return out
	}
	code := 0
	for _, o := range differences.All() {
		switch o := in.resolve(o).(type) {
		case *core.PdfNumber:
			code = o.IntValue()
		case *core.PdfName:
			if code >= 0 && code < 256 {
				out[code] = letterOf(o.Value)
			}
			code++
		}
	}
	return out
}

// visible drops what is no text.
func visible(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) && r != '\t' || r == '\uFFFD' {
			return -1
		}
		if r == '\t' {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(s, ""))
}

// standardEncoding is where Adobe's standard encoding, the default of the old fonts,
// differs from Windows-1252 in characters that patterns use (PDF 32000-1, annex D.2).
var standardEncoding = map[byte]rune{
	0x27: '’', 0x60: '‘', 0xA4: '/', 0xA9: '\'', 0xAA: '“', 0xAC: '‹', 0xAD: '›', 0xAE: 'ﬁ', 0xAF: 'ﬂ',
	0xB1: '–', 0xB2: '†', 0xB3: '‡', 0xB4: '·', 0xB7: '•', 0xB8: '‚', 0xB9: '„', 0xBA: '”', 0xBC: '…',
	0xD0: '—', 0xE1: 'Æ', 0xE9: 'Ø', 0xEA: 'Œ', 0xF1: 'æ', 0xF5: 'ı', 0xF9: 'ø', 0xFA: 'œ', 0xFB: 'ß',
}

// letterOf is the text of a glyph by Adobe's names: "k", "two", "eacute", "uni00BD",
// "f_i", "one.oldstyle". It is empty for names that mean nothing.
func letterOf(name string) string {
	name, _, _ = strings.Cut(name, ".")
	if parts := strings.Split(name, "_"); len(parts) > 1 {
		all := ""
		for _, p := range parts {
			all += letterOf(p)
		}
		return all
	}
	if s, ok := glyphNames[name]; ok {
		return s
	}
	if len(name) == 1 {
		return name
	}
	for _, prefix := range []string{"uni", "u"} {
		if hex, ok := strings.CutPrefix(name, prefix); ok && len(hex) >= 4 && len(hex) <= 6 {
			if r, err := strconv.ParseUint(hex, 16, 21); err == nil {
				return string(rune(r))
			}
		}
	}
	if len(name) > 1 {
		if mark, ok := accents[name[1:]]; ok {
			return norm.NFC.String(name[:1] + mark)
		}
	}
	return ""
}

var accents = map[string]string{
	"grave": "\u0300", "acute": "\u0301", "circumflex": "\u0302", "tilde": "\u0303", "macron": "\u0304",
	"breve": "\u0306", "dotaccent": "\u0307", "dieresis": "\u0308", "ring": "\u030A", "hungarumlaut": "\u030B",
	"caron": "\u030C", "cedilla": "\u0327", "ogonek": "\u0328", "commaaccent": "\u0326",
}

var glyphNames = map[string]string{
	"space": " ", "nbspace": " ", "exclam": "!", "quotedbl": "\"", "numbersign": "#", "dollar": "$", "percent": "%",
	"ampersand": "&", "quotesingle": "'", "parenleft": "(", "parenright": ")", "asterisk": "*", "plus": "+",
	"comma": ",", "hyphen": "-", "period": ".", "slash": "/", "colon": ":", "semicolon": ";", "less": "<",
	"equal": "=", "greater": ">", "question": "?", "at": "@", "bracketleft": "[", "backslash": "\\",
	"bracketright": "]", "asciicircum": "^", "underscore": "_", "grave": "`", "braceleft": "{", "bar": "|",
	"braceright": "}", "asciitilde": "~", "zero": "0", "one": "1", "two": "2", "three": "3", "four": "4",
	"five": "5", "six": "6", "seven": "7", "eight": "8", "nine": "9",
	"quoteleft": "‘", "quoteright": "’", "quotedblleft": "“", "quotedblright": "”", "quotesinglbase": "‚",
	"quotedblbase": "„", "guilsinglleft": "‹", "guilsinglright": "›", "guillemotleft": "«", "guillemotright": "»",
	"endash": "–", "emdash": "—", "minus": "−", "bullet": "•", "ellipsis": "…", "periodcentered": "·",
	"degree": "°", "multiply": "×", "divide": "÷", "plusminus": "±", "fraction": "/", "onehalf": "½",
	"onequarter": "¼", "threequarters": "¾", "onethird": "⅓", "twothirds": "⅔", "oneeighth": "⅛",
	"threeeighths": "⅜", "fiveeighths": "⅝", "seveneighths": "⅞", "onesuperior": "¹", "twosuperior": "²",
	"threesuperior": "³", "ff": "ff", "fi": "fi", "fl": "fl", "ffi": "ffi", "ffl": "ffl", "asteriskmath": "*",
	"dagger": "†", "daggerdbl": "‡", "section": "§", "paragraph": "¶", "copyright": "©", "registered": "®",
	"trademark": "™", "sterling": "£", "Euro": "€", "cent": "¢", "yen": "¥", "prime": "′", "second": "″",
	"germandbls": "ß", "ae": "æ", "AE": "Æ", "oe": "œ", "OE": "Œ", "oslash": "ø", "Oslash": "Ø", "eth": "ð",
	"Eth": "Ð", "thorn": "þ", "Thorn": "Þ", "lslash": "ł", "Lslash": "Ł", "dotlessi": "ı", "dcroat": "đ",
	"Dcroat": "Đ", "mu": "µ", "lessequal": "≤", "greaterequal": "≥", "exclamdown": "¡", "questiondown": "¿",
}

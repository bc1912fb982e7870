package extract

import (
	"bytes"
	"errors"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
)

var errNotText = errors.New("not text; save the pattern as .txt, .docx, .odt, .html, .md or .pdf")

func plainText(data []byte) (string, error) {
	if !isText(data) {
		return "", errNotText
	}
	return decode(data), nil
}

// decode makes UTF-8 of text in any of the encodings that the package comment names. Line
// ends stay, except that a file that knows only CR gets LF.
func decode(data []byte) string {
	var s string
	switch {
	case isUTF16(data):
		b, err := unicode.UTF16(unicode.LittleEndian, unicode.UseBOM).NewDecoder().Bytes(data)
		if err != nil {
			b = data // it has no errors: what is no character becomes U+FFFD
		}
		s = strings.ToValidUTF8(string(b), "\uFFFD")
	case utf8.Valid(data):
		s = string(data)
	default:
		b, err := charmap.Windows1252.NewDecoder().Bytes(data)
		if err != nil {
			b = bytes.ToValidUTF8(data, []byte("\uFFFD"))
		}
		s = string(b)
	}
	s = strings.TrimPrefix(s, "\uFEFF")
	if !strings.Contains(s, "\n") {
		s = strings.ReplaceAll(s, "\r", "\n")
	}
	return s
}

func isUTF16(data []byte) bool {
	return bytes.HasPrefix(data, []byte("\xFF\xFE")) || bytes.HasPrefix(data, []byte("\xFE\xFF"))
}

// isText tells text from binary data by its control characters: none is NUL, and no more
// than one in a hundred bytes is another that text does not need.
func isText(data []byte) bool {
	if isUTF16(data) {
		return len(data)%2 == 0
	}
	odd := 0
	for _, b := range data {
		switch {
		case b == 0:
			return false
		case b < ' ' && !strings.ContainsRune("\t\n\v\f\r", rune(b)), b == 0x7F:
			odd++
		}
	}
	return odd*100 <= len(data)
}

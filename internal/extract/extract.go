package extract

import (
	"bytes"
	"fmt"
	"path/filepath"
	"strings"
)

// maxFile is the largest file that is looked at, and maxInside the most that the parts of
// a compressed file may come to.
const (
	maxFile   = 64 << 20
	maxInside = 64 << 20
)

// Text returns the text of the pattern in a file. name is used for its extension, which
// chooses between kinds of text, and in errors; forms that are not text are known by their
// first bytes, whatever they are called. The text is valid UTF-8, and the same for the
// same file at all times.
//
// An error begins with the name and says what to do.
func Text(name string, data []byte) (text string, err error) {
	defer func() {
		if r := recover(); r != nil { // in a library: our own parts are fuzzed to be free of it
			text, err = "", fmt.Errorf("damaged beyond reading; open it and save it again, or paste its text into a .txt file")
		}
		if err != nil {
			err = fmt.Errorf("%s: %w", name, err)
		}
	}()
	if len(data) > maxFile {
		return "", fmt.Errorf("larger than %d MB; save the pattern's text by itself", maxFile>>20)
	}
	ext := strings.ToLower(filepath.Ext(name))
	if err := refused(ext, data); err != nil {
		return "", err
	}
	switch {
	case bytes.Contains(data[:min(len(data), 1024)], []byte("%PDF-")):
		return pdfText(data)
	case bytes.HasPrefix(data, []byte("PK\x03\x04")):
		return officeText(data)
	}
	switch ext {
	case ".pdf", ".docx", ".odt":
		return "", fmt.Errorf("not a %s file inside, or damaged; save it again, or paste its text into a .txt file", ext)
	case ".html", ".htm", ".xhtml":
		return htmlText(data)
	case ".md", ".markdown":
		return markdownText(data)
	}
	return plainText(data)
}

// refused is an error for forms that are known but not read.
func refused(ext string, data []byte) error {
	starts := func(s ...string) bool {
		for _, s := range s {
			if bytes.HasPrefix(data, []byte(s)) {
				return true
			}
		}
		return false
	}
	switch {
	case starts("\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1"):
		if bytes.Contains(data, []byte("E\x00n\x00c\x00r\x00y\x00p\x00t\x00e\x00d\x00P\x00a\x00c\x00k\x00a\x00g\x00e\x00")) {
			return fmt.Errorf("protected by a password; save it without one")
		}
		return fmt.Errorf("an old Word document; save it as .docx or .txt")
	case starts("{\\rtf"):
		return fmt.Errorf("rich text (RTF); save it as .docx or .txt")
	case ext == ".pages":
		return fmt.Errorf("a Pages document; export it as .docx or .txt")
	case starts("\x89PNG", "\xFF\xD8\xFF", "GIF8", "II*\x00", "MM\x00*", "BM") && !isText(data),
		len(data) >= 12 && (string(data[8:12]) == "WEBP" || strings.HasPrefix(string(data[4:12]), "ftyp")):
		return fmt.Errorf("a picture; run text recognition on it, or type the text into a .txt file")
	}
	return nil
}

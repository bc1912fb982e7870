package notation

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"sockwright/internal/source"
)

type tokenKind uint8

const (
	wordToken  tokenKind = iota // letters, with apostrophes and hyphens inside: "k", "sts", "dec'd", "set-up"
	digitToken                  // a run of digits
	punctToken                  // one character
	spaceToken                  // blanks within a line
	lineToken                   // a line end
)

// A token is a run of characters of the text. The tokens of a text follow each other
// without a gap from its first byte to its last.
type token struct {
	kind  tokenKind
	glued bool  // no blank stands between it and the token before it
	value int32 // of digits; clipped to the largest int32
	span  source.Span
	text  string
}

// lex cuts a text into tokens.
func lex(text string) []token {
	tokens := make([]token, 0, len(text)/3+8)
	for i := 0; i < len(text); {
		start := i
		kind, value := punctToken, int64(0)
		switch c := text[i]; {
		case c == '\n':
			kind = lineToken
			i++
		case c == ' ' || c == '\t' || c == '\r':
			kind = spaceToken
			for i < len(text) && (text[i] == ' ' || text[i] == '\t' || text[i] == '\r') {
				i++
			}
		case '0' <= c && c <= '9':
			kind = digitToken
			for i < len(text) && '0' <= text[i] && text[i] <= '9' {
				value = min(value*10+int64(text[i]-'0'), 1<<31-1)
				i++
			}
		default:
			n := letter(text[i:])
			if n == 0 {
				_, n = utf8.DecodeRuneInString(text[i:])
				i += n
				break
			}
			kind = wordToken
			for n > 0 {
				i += n
				if n = letter(text[i:]); n == 0 {
					if mark := inWord(text[i:]); mark > 0 && letter(text[i+mark:]) > 0 {
						n = mark
					}
				}
			}
		}
		glued := len(tokens) > 0 && tokens[len(tokens)-1].kind < spaceToken
		tokens = append(tokens, token{kind, glued, int32(value), source.Span{Start: uint32(start), End: uint32(i)}, plainly(kind, text[start:i])})
	}
	return tokens
}

// inWord is the length of the apostrophe or hyphen at the start of s, or 0.
func inWord(s string) int {
	switch {
	case strings.HasPrefix(s, "'"), strings.HasPrefix(s, "-"):
		return 1
	case strings.HasPrefix(s, typeset):
		return len(typeset)
	}
	return 0
}

// typeset is the apostrophe of a page that is set in type. In a token it is the plain one.
const typeset = "’"

// plainly is the text of a token.
func plainly(kind tokenKind, text string) string {
	if kind == wordToken {
		return strings.ReplaceAll(text, typeset, "'")
	}
	return text
}

// letter is the length of the letter at the start of s, or 0.
func letter(s string) int {
	if s == "" {
		return 0
	}
	if c := s[0]; c < utf8.RuneSelf {
		if 'a' <= c|0x20 && c|0x20 <= 'z' {
			return 1
		}
		return 0
	}
	if r, n := utf8.DecodeRuneInString(s); unicode.IsLetter(r) {
		return n
	}
	return 0
}

// wordsOf is the tokens of a text without blanks, as text.
func wordsOf(text string) (words []string) {
	for _, t := range lex(text) {
		if t.kind != spaceToken {
			words = append(words, t.text)
		}
	}
	return words
}

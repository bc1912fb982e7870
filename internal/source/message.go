package source

import (
	"fmt"
	"strconv"
	"strings"
)

// A Message is a text that people will read, kept apart from its language: Key names it
// in the catalogues of other languages, Text is its English, in which {0}, {1} … stand for
// the arguments. Arguments are printed with [fmt.Sprint]. {left} and {right} stand for a
// [Side] of the work.
type Message struct {
	Key  string
	Text string
	Args []any
}

// A Side is the word for a side of the work as the knitter sees it. Messages mark it, since
// it is the other one for somebody who knits from left to right; a stitch that is left, or
// the right side of the fabric, is not.
type Side string

// The sides.
const (
	Left  Side = "left"
	Right Side = "right"
)

// Other is the other side.
func (s Side) Other() Side {
	if s == Left {
		return Right
	}
	return Left
}

// Say returns the message with its arguments.
func Say(key, text string, args ...any) Message { return Message{key, text, args} }

// Quote puts words of a text between quotation marks.
func Quote(words string) string { return "“" + words + "”" }

// InSts is a number of stitches as patterns print it.
func InSts(n int) string {
	if n == 1 {
		return "1 st"
	}
	return strconv.Itoa(n) + " sts"
}

// String is the English text with the arguments put in.
func (m Message) String() string { return m.Fill(func(a any) string { return fmt.Sprint(a) }) }

// Fill is the English text with the arguments printed by print. A placeholder without an
// argument stays as it is.
func (m Message) Fill(print func(any) string) string {
	var b strings.Builder
	m.Walk(func(text string) { b.WriteString(text) }, func(a any) { b.WriteString(print(a)) })
	return b.String()
}

// Walk calls text for each run of fixed words and arg for each argument and each [Side], in
// the order of the English text.
func (m Message) Walk(text func(string), arg func(any)) {
	rest := m.Text
	for {
		open := strings.IndexByte(rest, '{')
		if open < 0 {
			break
		}
		end := strings.IndexByte(rest[open:], '}')
		if end < 0 {
			break
		}
		if a := m.argument(rest[open+1 : open+end]); a == nil {
			text(rest[:open+end+1])
		} else {
			if open > 0 {
				text(rest[:open])
			}
			arg(a)
		}
		rest = rest[open+end+1:]
	}
	if rest != "" {
		text(rest)
	}
}

// argument is what a placeholder stands for, nil for nothing.
func (m Message) argument(name string) any {
	if side := Side(name); side == Left || side == Right {
		return side
	}
	if i, err := strconv.Atoi(name); err == nil && i >= 0 && i < len(m.Args) {
		return m.Args[i]
	}
	return nil
}

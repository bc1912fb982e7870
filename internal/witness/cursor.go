package witness

import (
	"fmt"
	"strconv"
	"strings"
)

// none stands for a number that is not given for a size.
const none = -1

// largest is the largest number that is read, far above any in a sock.
const largest = 9999

// A number is one value for all sizes, or one per size.
type number []int

// at returns the number in a size, or none.
func (n number) at(size int) int {
	switch len(n) {
	case 0:
		return none
	case 1:
		return n[0]
	}
	return n[size]
}

// times returns the number in a size as something to do: zero where there is
// none.
func (n number) times(size int) int { return max(n.at(size), 0) }

// A cursor reads the words of one line from the left, in small letters.
type cursor struct {
	s     string // what is still to be read
	sizes int    // how many sizes there are
	list  error  // a list with the wrong number of values
	step  error  // a step that is none
}

// eat reads the given words, and reports whether they came next.
func (c *cursor) eat(words string) bool {
	rest, ok := strings.CutPrefix(c.s, words)
	if ok {
		c.s = rest
	}
	return ok
}

// any reads the first of the given words that comes next, and returns its
// index, or -1.
func (c *cursor) any(words ...string) int {
	for i, w := range words {
		if c.eat(w) {
			return i
		}
	}
	return -1
}

// end reports whether everything has been read.
func (c *cursor) end() bool { return c.s == "" }

// stitches reads " sts" or " st".
func (c *cursor) stitches() bool { return c.any(" sts", " st") >= 0 }

// last reads how many stitches the last ones are: "st" is one.
func (c *cursor) last() (number, bool) {
	if c.eat("st") {
		return number{1}, true
	}
	n, ok := c.number()
	return n, ok && c.stitches()
}

// digits reads a plain whole number.
func (c *cursor) digits() (int, bool) {
	i := 0
	for i < len(c.s) && isDigit(c.s[i]) {
		i++
	}
	n, err := strconv.Atoi(c.s[:i])
	if err != nil || n > largest {
		return 0, false
	}
	c.s = c.s[i:]
	return n, true
}

// number reads a whole number for all sizes, or a list with one per size.
func (c *cursor) number() (number, bool) {
	var n number
	ok := c.values(func() bool {
		if c.eat("–") {
			n = append(n, none)
			return true
		}
		v, ok := c.digits()
		n = append(n, v)
		return ok
	})
	return n, ok
}

// measure reads a length for all sizes, or a list with one per size.
func (c *cursor) measure() bool {
	return c.values(func() bool {
		if c.eat("–") || c.fraction() {
			return true
		}
		if _, ok := c.digits(); !ok {
			return false
		}
		if c.eat(".") {
			_, ok := c.digits()
			return ok
		}
		if c.any("¼", "½", "¾") >= 0 {
			return true
		}
		rest := c.s
		if c.eat(" ") && !c.fraction() {
			c.s = rest
		}
		return true
	})
}

// fraction reads a fraction below one.
func (c *cursor) fraction() bool {
	if c.any("¼", "½", "¾") >= 0 {
		return true
	}
	rest := c.s
	if _, ok := c.digits(); ok && c.eat("/") {
		if _, ok := c.digits(); ok {
			return true
		}
	}
	c.s = rest
	return false
}

// values reads one value, or as many as there are sizes: "a (b, c)".
func (c *cursor) values(value func() bool) bool {
	if !value() {
		return false
	}
	if !c.eat(" (") {
		return true
	}
	n := 1
	for {
		if !value() {
			return false
		}
		n++
		if c.eat(")") {
			break
		}
		if !c.eat(", ") {
			return false
		}
	}
	if n != c.sizes && c.list == nil {
		c.list = fmt.Errorf("a list of %d values for %d sizes", n, c.sizes)
	}
	return c.list == nil
}

// isDigit reports whether b is a decimal digit.
func isDigit(b byte) bool { return '0' <= b && b <= '9' }

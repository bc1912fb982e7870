package check_test

import (
	"fmt"
	"math/big"
	"regexp"
	"strconv"
	"strings"
	"unicode"
)

// A ledger holds equations among the figures that a pattern prints. L7.2 is the second
// figure of line 7. "%" is the remainder and "//" the quotient without it. What stands
// behind "!" does not hold of the pattern as it is printed, all else holds in every size.

// An equation is one line of a ledger.
type equation struct {
	text        string
	left, right string
	broken      bool     // the pattern as it is printed breaks it
	figures     []figRef // that it speaks of
}

// A figRef names a figure by its line and its place there, both from 1.
type figRef struct{ line, place int }

var reference = regexp.MustCompile(`L(\d+)\.(\d+)`)

// readLedger reads the equations of a ledger.
func readLedger(text string) ([]equation, error) {
	var all []equation
	for line := range strings.Lines(text) {
		line, _, _ = strings.Cut(line, "#")
		words, broken := strings.CutPrefix(strings.TrimSpace(line), "!")
		if words == "" {
			continue
		}
		left, right, ok := strings.Cut(words, "=")
		if !ok {
			return nil, fmt.Errorf("no equation: %q", words)
		}
		e := equation{text: strings.Join(strings.Fields(words), " "), left: left, right: right, broken: broken}
		for _, m := range reference.FindAllStringSubmatch(words, -1) {
			l, _ := strconv.Atoi(m[1])
			k, _ := strconv.Atoi(m[2])
			e.figures = append(e.figures, figRef{l, k})
		}
		all = append(all, e)
	}
	return all, nil
}

// holds tells whether the equation holds of the figures; false for known if one of them is
// not there, so that nothing can be said.
func (e equation) holds(figure func(figRef) *big.Rat) (holds, known bool, err error) {
	left, err := evaluate(e.left, figure)
	if err != nil {
		return false, false, fmt.Errorf("%s: %w", e.text, err)
	}
	right, err := evaluate(e.right, figure)
	if err != nil {
		return false, false, fmt.Errorf("%s: %w", e.text, err)
	}
	if left == nil || right == nil {
		return false, false, nil
	}
	return left.Cmp(right) == 0, true, nil
}

// evaluate works out one side of an equation; nil if a figure of it is not there or it
// divides by nothing.
func evaluate(text string, figure func(figRef) *big.Rat) (*big.Rat, error) {
	s := &sum{rest: strings.Join(strings.Fields(text), ""), figure: figure}
	v := s.terms()
	if s.err == nil && s.rest != "" {
		s.err = fmt.Errorf("cannot read on at %q", s.rest)
	}
	if s.missing {
		v = nil
	}
	return v, s.err
}

// A sum is what is left to read of one side of an equation.
type sum struct {
	rest    string
	figure  func(figRef) *big.Rat
	missing bool
	err     error
}

func (s *sum) take(word string) bool {
	rest, ok := strings.CutPrefix(s.rest, word)
	if ok {
		s.rest = rest
	}
	return ok
}

func (s *sum) terms() *big.Rat {
	v := s.factors()
	for {
		switch {
		case s.take("+"):
			v = new(big.Rat).Add(v, s.factors())
		case s.take("-"):
			v = new(big.Rat).Sub(v, s.factors())
		default:
			return v
		}
	}
}

func (s *sum) factors() *big.Rat {
	v := s.factor()
	for {
		switch {
		case s.take("*"):
			v = new(big.Rat).Mul(v, s.factor())
		case s.take("//"):
			v = s.divide(v, s.factor(), true)
		case s.take("/"):
			v = s.divide(v, s.factor(), false)
		case s.take("%"):
			by := s.factor()
			v = new(big.Rat).Sub(v, new(big.Rat).Mul(by, s.divide(v, by, true)))
		default:
			return v
		}
	}
}

// divide is a/b, or the greatest whole number in it.
func (s *sum) divide(a, b *big.Rat, whole bool) *big.Rat {
	if b.Sign() == 0 {
		s.missing = true
		return new(big.Rat)
	}
	q := new(big.Rat).Quo(a, b)
	if whole {
		n := new(big.Int)
		n.Div(q.Num(), q.Denom())
		q.SetInt(n)
	}
	return q
}

func (s *sum) factor() *big.Rat {
	if s.take("(") {
		v := s.terms()
		if !s.take(")") && s.err == nil {
			s.err = fmt.Errorf("no closing bracket at %q", s.rest)
		}
		return v
	}
	if m := reference.FindStringSubmatch(s.rest); m != nil && strings.HasPrefix(s.rest, m[0]) {
		s.rest = s.rest[len(m[0]):]
		l, _ := strconv.Atoi(m[1])
		k, _ := strconv.Atoi(m[2])
		if v := s.figure(figRef{l, k}); v != nil {
			return v
		}
		s.missing = true
		return new(big.Rat)
	}
	digits := len(s.rest) - len(strings.TrimLeftFunc(s.rest, unicode.IsDigit))
	v, ok := new(big.Rat).SetString(s.rest[:digits])
	if !ok {
		if s.err == nil {
			s.err = fmt.Errorf("cannot read on at %q", s.rest)
		}
		return new(big.Rat)
	}
	s.rest = s.rest[digits:]
	return v
}

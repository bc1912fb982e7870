package pattern

import "strconv"

// String is the English name of the word: "Row" or "Rnd".
func (w Word) String() string { return [...]string{"Row", "Rnd"}[w] }

// String is the label in English: "Row 1 (RS)", "Set-up row 2 (WS)", "Dec rnd".
func (l Label) String() string {
	word := l.Word.String()
	if l.Name != Plainly {
		word = [...]string{"", "Set-up", "Partial", "Inc", "Dec", "Next"}[l.Name] + [...]string{" row", " rnd"}[l.Word]
	}
	if l.Num > 0 {
		word += " " + strconv.Itoa(int(l.Num))
	}
	switch l.Side {
	case RS:
		word += " (RS)"
	case WS:
		word += " (WS)"
	}
	return word
}

// Same tells whether two labels name the same row: a reference may leave out the side.
func (l Label) Same(ref Label) bool {
	return l.Word == ref.Word && l.Name == ref.Name && l.Num == ref.Num && (ref.Side == NoSide || l.Side == ref.Side)
}

package notation

import (
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
)

// checkTokens: the tokens of a text follow each other from its first byte to its last, each
// of a kind that its characters have.
func checkTokens(t interface {
	Helper()
	Fatalf(string, ...any)
}, text string) {
	t.Helper()
	at := uint32(0)
	for i, tok := range lex(text) {
		if tok.span.Start != at || tok.span.End <= at {
			t.Fatalf("token %d of %q spans %v, want it to start at %d", i, text, tok.span, at)
		}
		at = tok.span.End
		if tok.text != text[tok.span.Start:tok.span.End] {
			t.Fatalf("token %d of %q says %q, stands at %q", i, text, tok.text, text[tok.span.Start:tok.span.End])
		}
		if tok.glued && (i == 0 || lex(text)[i-1].kind >= spaceToken) {
			t.Fatalf("token %d of %q is glued to nothing", i, text)
		}
		switch n := utf8.RuneCountInString(tok.text); tok.kind {
		case punctToken, lineToken:
			if n != 1 {
				t.Fatalf("token %d of %q is %d characters: %q", i, text, n, tok.text)
			}
		case digitToken:
			if tok.value < 0 {
				t.Fatalf("token %d of %q is the number %d", i, text, tok.value)
			}
		}
	}
	if at != uint32(len(text)) {
		t.Fatalf("the tokens of %q end at %d", text, at)
	}
}

func TestPropertyTokensCover(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SampledFrom([]string{"k2tog", "dec'd", "set-up", "–", "½", "\r\n", "\n", " ", "\t", "'", "-", "é", "\xff", "(", "99999999999999", "ſ", "1"})
		for _, w := range rapid.SliceOf(words).Draw(t, "words") {
			checkTokens(t, w)
		}
		text := ""
		for _, w := range rapid.SliceOfN(rapid.OneOf(words, rapid.String()), 0, 12).Draw(t, "text") {
			text += w
		}
		checkTokens(t, text)
	})
}

func FuzzTokens(f *testing.F) {
	for _, s := range []string{"", "Row 1 (RS): Sl 1, k2tog, [k2] 3 times.", "1 st dec'd.\r\n\tÖl–½", "\xff\xfe'-a", "k99999999999999999999"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) < 1<<12 {
			checkTokens(t, text)
		}
	})
}

func TestTokens(t *testing.T) {
	for _, c := range []struct {
		text string
		want []string
	}{
		{"k2tog", []string{"k", "2", "tog"}},
		{"1 st dec'd.", []string{"1", " ", "st", " ", "dec'd", "."}},
		{"Set-up row – 6½", []string{"Set-up", " ", "row", " ", "–", " ", "6", "½"}},
		{"a- 'b' c'", []string{"a", "-", " ", "'", "b", "'", " ", "c", "'"}},
		{"56 (60)\r\n\nend", []string{"56", " ", "(", "60", ")", "\r", "\n", "\n", "end"}},
	} {
		var got []string
		for _, tok := range lex(c.text) {
			got = append(got, tok.text)
		}
		if len(got) != len(c.want) {
			t.Errorf("lex(%q) = %q, want %q", c.text, got, c.want)
			continue
		}
		for i := range got {
			if got[i] != c.want[i] {
				t.Errorf("lex(%q)[%d] = %q, want %q", c.text, i, got[i], c.want[i])
			}
		}
	}
	if v := lex("99999999999999999999")[0].value; v != 1<<31-1 {
		t.Errorf("a long run of digits is %d, want the largest number", v)
	}
}

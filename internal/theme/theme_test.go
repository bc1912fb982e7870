package theme_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"sockwright/internal/theme"
)

// luminance is the relative luminance of WCAG 2.2 (W3C Recommendation, 5 October 2023).
func luminance(t *testing.T, hex string) float64 {
	t.Helper()
	sum := 0.0
	for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
		v, err := strconv.ParseUint(hex[1+2*i:3+2*i], 16, 8)
		if err != nil {
			t.Fatal(err)
		}
		c := float64(v) / 255
		if c <= 0.04045 {
			c /= 12.92
		} else {
			c = math.Pow((c+0.055)/1.055, 2.4)
		}
		sum += weight * c
	}
	return sum
}

func TestContrast(t *testing.T) {
	colours := theme.Colours()
	for _, c := range colours[1:] {
		want := 4.5
		switch c.Name {
		case "rule":
			continue
		case "ink", "pencil":
			want = 7
		}
		for _, pair := range [][2]string{{c.Light, colours[0].Light}, {c.Dark, colours[0].Dark}} {
			a, b := luminance(t, pair[0]), luminance(t, pair[1])
			if ratio := (max(a, b) + 0.05) / (min(a, b) + 0.05); ratio < want {
				t.Errorf("%s %s on %s: contrast %.2f, want %.1f", c.Name, pair[0], pair[1], ratio, want)
			}
		}
	}
}

func TestCSSNeedsNothingElse(t *testing.T) {
	css := theme.CSS()
	if n := strings.Count(css, "@font-face"); n != len(theme.Faces()) {
		t.Errorf("%d faces in the style sheet, want %d", n, len(theme.Faces()))
	}
	if strings.Contains(css, "http") {
		t.Error("the style sheet reaches for the network")
	}
}

package draw

import (
	"bytes"
	"encoding/xml"
	"image"
	"image/color"
	"image/png"
	"io"
	"math"
	"strings"
	"testing"
)

func dots(t *testing.T, d *Drawing, perMM float64) image.Image {
	t.Helper()
	data, err := d.PNG(perMM)
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return img
}

// covered is how much of a picture an ink covers, in square millimetres: pixels between paper
// and ink count in part.
func covered(img image.Image, ink string, perMM float64) float64 {
	paper, full := shade(Of("paper")), shade(Of(ink))
	sum := 0.0
	for y := range img.Bounds().Dy() {
		for x := range img.Bounds().Dx() {
			c := color.NRGBAModel.Convert(img.At(x, y)).(color.NRGBA)
			sum += (float64(paper.R) - float64(c.R)) / (float64(paper.R) - float64(full.R))
		}
	}
	return sum / (perMM * perMM)
}

// Shapes have the area that geometry gives them, whichever way they are drawn.
func TestAreas(t *testing.T) {
	const perMM = 10
	for _, x := range []struct {
		name string
		draw func(d *Drawing)
		want float64
	}{
		{"a rectangle", func(d *Drawing) { d.Rect(3, 4, 10, 6, Of("ink"), Pen{}) }, 60},
		{"a circle", func(d *Drawing) { d.Circle(10, 10, 8, Of("ink"), Pen{}) }, 64 * math.Pi},
		{"a ring", func(d *Drawing) { d.Circle(10, 10, 7, Ink{}, Line("ink", 1)) }, 14 * math.Pi},
		{"a line with round ends", func(d *Drawing) { d.Line(4, 10, 16, 10, Line("ink", 2)) }, 24 + math.Pi},
		{"a slanting line", func(d *Drawing) { d.Line(5, 5, 14, 17, Line("ink", 2)) }, 30 + math.Pi},
		{"a shape over itself", func(d *Drawing) {
			d.Rect(3, 4, 10, 6, Of("ink"), Pen{})
			d.Rect(3, 4, 10, 6, Of("ink"), Pen{})
		}, 60},
		{"a half-covering shape", func(d *Drawing) { d.Rect(3, 4, 10, 6, Ink{Name: "ink", Cover: 0.5}, Pen{}) }, 30},
		{"a path with nothing in it", func(d *Drawing) { d.Path(new(Path), Of("ink"), Line("ink", 1)) }, 0},
		{"beyond the edge", func(d *Drawing) { d.Rect(15, 15, 10, 10, Of("ink"), Pen{}) }, 25},
	} {
		d := New(20, 20, "", "")
		x.draw(d)
		if got := covered(dots(t, d, perMM), "ink", perMM); math.Abs(got-x.want) > 0.025*x.want+0.05 {
			t.Errorf("%s covers %.2f mm², want %.2f", x.name, got, x.want)
		}
	}
}

// A text stands where it is anchored.
func TestAnchors(t *testing.T) {
	for anchor, want := range map[Anchor][2]int{Start: {10, 16}, Middle: {7, 13}, End: {4, 10}} {
		d := New(20, 10, "", "")
		d.Text(10, 6, 4, anchor, "ink", "HHH")
		img, paper := dots(t, d, 10), shade(Of("paper"))
		left, right := 200, 0
		for y := range 100 {
			for x := range 200 {
				if color.NRGBAModel.Convert(img.At(x, y)) != paper {
					left, right = min(left, x), max(right, x)
				}
			}
		}
		width := right - left
		if math.Abs(float64(left)/10-float64(want[0])) > 2.2 || left > right || width < 40 {
			t.Errorf("anchor %d: from %d to %d tenths of a millimetre", anchor, left, right)
		}
		switch at := 100; {
		case anchor == Start && (left < at || left > at+6), anchor == End && (right > at || right < at-6),
			anchor == Middle && max(at-left, right-at)-min(at-left, right-at) > 4:
			t.Errorf("anchor %d: a text at %d reaches from %d to %d", anchor, at, left, right)
		}
	}
}

// What is written in a picture stays text, whatever signs it has.
func TestSVGText(t *testing.T) {
	const odd = `k2 <tog> & "sts" 'n' –`
	d := New(20, 10, odd, odd)
	d.Group(odd, func() { d.Text(1, 5, 3, Start, "ink", odd) })
	x := xml.NewDecoder(bytes.NewReader(d.SVG()))
	found := map[string]int{}
	for {
		token, err := x.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		switch token := token.(type) {
		case xml.CharData:
			if strings.TrimSpace(string(token)) == odd {
				found["text"]++
			}
		case xml.StartElement:
			for _, a := range token.Attr {
				if a.Value == odd {
					found[a.Name.Local]++
				}
			}
		}
	}
	if found["text"] != 3 || found["aria-label"] != 1 {
		t.Errorf("title, description and text are found %d times, the label of the group %d times", found["text"], found["aria-label"])
	}
}

// A picture too large is drawn in fewer dots, not refused.
func TestMaxPixels(t *testing.T) {
	if testing.Short() {
		t.Skip("draws a picture of 100 million dots")
	}
	b := dots(t, New(4000, 4000, "", ""), 8).Bounds()
	if n := b.Dx() * b.Dy(); n > MaxPixels+2*b.Dx() || n < MaxPixels/2 {
		t.Errorf("%d × %d dots", b.Dx(), b.Dy())
	}
}

package draw

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"
	"strconv"
	"strings"
	"sync"

	"github.com/go-text/typesetting/di"
	"github.com/go-text/typesetting/font"
	"github.com/go-text/typesetting/font/opentype"
	"github.com/go-text/typesetting/language"
	"github.com/go-text/typesetting/shaping"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"

	"sockwright/internal/theme"
)

// MaxPixels is how many pixels a PNG may have.
const MaxPixels = 100_000_000

// PNG returns the drawing in so many pixels to the millimetre (8 is about 200 to the inch),
// fewer where it would have more than [MaxPixels].
func (d *Drawing) PNG(perMM float64) ([]byte, error) {
	if n := d.W * d.H * perMM * perMM; n > MaxPixels {
		perMM *= math.Sqrt(MaxPixels / n)
	}
	r := &raster{scale: perMM, img: image.NewRGBA(image.Rect(0, 0, int(math.Ceil(d.W*perMM)), int(math.Ceil(d.H*perMM))))}
	draw.Draw(r.img, r.img.Bounds(), image.NewUniform(shade(Of("paper"))), image.Point{}, draw.Src)
	for _, it := range d.items {
		switch it := it.(type) {
		case path:
			lines := r.flatten(it.segs)
			if it.fill.Name != "" {
				r.fill(lines, it.fill)
			}
			if it.pen.Width > 0 && it.pen.Ink.Name != "" {
				r.stroke(lines, it.pen)
			}
		case text:
			r.text(it)
		}
	}
	var b bytes.Buffer
	if err := (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(&b, r.img); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// shade is an ink as a colour on light ground.
func shade(i Ink) color.NRGBA {
	rgb, err := strconv.ParseUint(strings.TrimPrefix(theme.Light(i.Name), "#"), 16, 24)
	if err != nil {
		panic(err) // a colour of ours
	}
	return color.NRGBA{uint8(rgb >> 16), uint8(rgb >> 8), uint8(rgb), uint8(255*i.cover() + 0.5)}
}

type raster struct {
	scale float64
	img   *image.RGBA
	vec   vector.Rasterizer
}

// A polyline in pixels; closed tells whether it ends where it began.
type polyline struct {
	pts    []Point
	closed bool
}

// flatten turns a path into straight lines.
func (r *raster) flatten(segs []seg) (lines []polyline) {
	px := func(p Point) Point { return Point{p.X * r.scale, p.Y * r.scale} }
	for _, s := range segs {
		if s.op == 'M' {
			lines = append(lines, polyline{pts: []Point{px(s.p[0])}})
			continue
		}
		switch l := &lines[len(lines)-1]; s.op {
		case 'L':
			l.pts = append(l.pts, px(s.p[0]))
		case 'C':
			l.curve(px(s.p[0]), px(s.p[1]), px(s.p[2]))
		case 'Z':
			l.closed = true
		}
	}
	return lines
}

// curve goes on to an end as a cubic Bézier curve, in straight steps that grow with it: of an
// arc of n pixels they leave out about a tenth of one.
func (l *polyline) curve(c1, c2, to Point) {
	from := l.pts[len(l.pts)-1]
	steps := 2 + int(1.5*math.Sqrt(dist(from, c1)+dist(c1, c2)+dist(c2, to)))
	for i := 1; i <= steps; i++ {
		t := float64(i) / float64(steps)
		u := 1 - t
		l.pts = append(l.pts, Point{u*u*u*from.X + 3*u*u*t*c1.X + 3*u*t*t*c2.X + t*t*t*to.X, u*u*u*from.Y + 3*u*u*t*c1.Y + 3*u*t*t*c2.Y + t*t*t*to.Y})
	}
}

func dist(a, b Point) float64 { return math.Hypot(b.X-a.X, b.Y-a.Y) }

// fill fills the shape within lines. Only the box round it is worked on.
func (r *raster) fill(lines []polyline, ink Ink) {
	min, max := Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}
	for _, l := range lines {
		for _, p := range l.pts {
			min = Point{math.Min(min.X, p.X), math.Min(min.Y, p.Y)}
			max = Point{math.Max(max.X, p.X), math.Max(max.Y, p.Y)}
		}
	}
	box := image.Rect(int(math.Floor(min.X)), int(math.Floor(min.Y)), int(math.Ceil(max.X))+1, int(math.Ceil(max.Y))+1).Intersect(r.img.Bounds())
	if box.Empty() {
		return
	}
	r.vec.Reset(box.Dx(), box.Dy())
	x0, y0 := float64(box.Min.X), float64(box.Min.Y)
	for _, l := range lines {
		for i, p := range l.pts {
			x, y := float32(p.X-x0), float32(p.Y-y0)
			if i == 0 {
				r.vec.MoveTo(x, y)
			} else {
				r.vec.LineTo(x, y)
			}
		}
		r.vec.ClosePath()
	}
	r.vec.Draw(r.img, box, image.NewUniform(shade(ink)), image.Point{})
}

// stroke draws lines with a round pen: for each piece a bar, for each joint a disc, all in
// one shape so that they do not darken each other.
func (r *raster) stroke(lines []polyline, pen Pen) {
	half := math.Max(pen.Width*r.scale, 1) / 2
	var shape []polyline
	bar := func(a, b Point) {
		dx, dy := b.X-a.X, b.Y-a.Y
		n := math.Hypot(dx, dy)
		if n == 0 {
			return
		}
		dx, dy = dx/n*half, dy/n*half
		shape = append(shape, polyline{pts: []Point{{a.X - dy, a.Y + dx}, {a.X + dy, a.Y - dx}, {b.X + dy, b.Y - dx}, {b.X - dy, b.Y + dx}}})
	}
	disc := func(c Point) {
		const corners = 12
		pts := make([]Point, corners)
		for i := range pts {
			a := 2 * math.Pi * float64(i) / corners
			pts[i] = Point{c.X + half*math.Cos(a), c.Y + half*math.Sin(a)} // round the same way as a bar
		}
		shape = append(shape, polyline{pts: pts})
	}
	for _, l := range lines {
		pts := l.pts
		if l.closed && len(pts) > 0 {
			pts = append(pts[:len(pts):len(pts)], pts[0])
		}
		if pen.Dash > 0 {
			r.dashes(pts, pen.Dash*r.scale, bar)
			continue
		}
		for i, p := range pts {
			disc(p)
			if i > 0 {
				bar(pts[i-1], p)
			}
		}
	}
	if len(shape) > 0 {
		r.fill(shape, pen.Ink)
	}
}

// dashes cuts a line into dashes with gaps of the same length.
func (r *raster) dashes(pts []Point, dash float64, bar func(a, b Point)) {
	left, on := dash, true
	for i := 1; i < len(pts); i++ {
		a, b := pts[i-1], pts[i]
		for {
			n := math.Hypot(b.X-a.X, b.Y-a.Y)
			if n <= left {
				if on {
					bar(a, b)
				}
				left -= n
				break
			}
			m := Point{a.X + (b.X-a.X)*left/n, a.Y + (b.Y-a.Y)*left/n}
			if on {
				bar(a, m)
			}
			a, left, on = m, dash, !on
		}
	}
}

// faces are the fonts that text is drawn with.
var faces = sync.OnceValue(func() map[bool]*font.Font {
	m := map[bool]*font.Font{}
	for bold, weight := range map[bool]int{false: 400, true: 600} {
		f, err := font.ParseTTF(bytes.NewReader(theme.Outlines("Source Sans 3", weight)))
		if err != nil {
			panic(err) // a font of ours
		}
		m[bold] = f.Font
	}
	return m
})

func (r *raster) text(t text) {
	face := font.NewFace(faces()[t.bold])
	runes := []rune(t.s)
	size := t.size * r.scale
	var shaper shaping.HarfbuzzShaper
	out := shaper.Shape(shaping.Input{Text: runes, RunEnd: len(runes), Direction: di.DirectionLTR, Face: face,
		Size: fixed.Int26_6(size * 64), Script: language.Latin, Language: language.NewLanguage("en")})
	x, y := t.x*r.scale, t.y*r.scale
	switch width := float64(out.Advance) / 64; t.anchor {
	case Middle:
		x -= width / 2
	case End:
		x -= width
	}
	k := size / float64(face.Upem())
	for _, g := range out.Glyphs {
		if o, ok := face.GlyphDataOutline(g.GlyphID); ok {
			r.fill(outline(o, x+float64(g.XOffset)/64, y-float64(g.YOffset)/64, k), t.ink)
		}
		x += float64(g.Advance) / 64
	}
}

// outline is the shape of a glyph at a place in pixels.
func outline(o font.GlyphOutline, x, y, k float64) (lines []polyline) {
	at := func(p opentype.SegmentPoint) Point { return Point{x + float64(p.X)*k, y - float64(p.Y)*k} }
	for _, s := range o.Segments {
		if s.Op == opentype.SegmentOpMoveTo {
			lines = append(lines, polyline{pts: []Point{at(s.Args[0])}})
			continue
		}
		l := &lines[len(lines)-1]
		from := l.pts[len(l.pts)-1]
		const steps = 6
		switch s.Op {
		case opentype.SegmentOpLineTo:
			l.pts = append(l.pts, at(s.Args[0]))
		case opentype.SegmentOpQuadTo:
			c, to := at(s.Args[0]), at(s.Args[1])
			for i := 1; i <= steps; i++ {
				t := float64(i) / steps
				u := 1 - t
				l.pts = append(l.pts, Point{u*u*from.X + 2*u*t*c.X + t*t*to.X, u*u*from.Y + 2*u*t*c.Y + t*t*to.Y})
			}
		case opentype.SegmentOpCubeTo:
			l.curve(at(s.Args[0]), at(s.Args[1]), at(s.Args[2]))
		}
	}
	return lines
}

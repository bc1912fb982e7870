package unit

import (
	"fmt"
	"strings"
)

// Gauge is how many stitches and rows a fabric has in one millimetre, measured on washed
// fabric. The zero value means that no gauge is known.
type Gauge struct {
	Stitches float64 // per mm
	Rows     float64 // per mm; a round counts as a row
}

// NewGauge returns the gauge of a swatch that shows so many stitches and rows over a length.
func NewGauge(stitches, rows float64, over Length) Gauge {
	return Gauge{Stitches: stitches / over.MM(), Rows: rows / over.MM()}
}

// Known tells whether the gauge has been measured.
func (g Gauge) Known() bool { return g.Stitches > 0 && g.Rows > 0 }

// Width is the width of n stitches lying flat.
func (g Gauge) Width(n int) Length { return Length(float64(n) / g.Stitches) }

// Height is the height of n rows lying flat.
func (g Gauge) Height(n int) Length { return Length(float64(n) / g.Rows) }

// StitchesIn is how many stitches lie in a width, as a fraction.
func (g Gauge) StitchesIn(l Length) float64 { return l.MM() * g.Stitches }

// RowsIn is how many rows stand in a height, as a fraction.
func (g Gauge) RowsIn(l Length) float64 { return l.MM() * g.Rows }

// PerInch is the stitch gauge in stitches per inch.
func (g Gauge) PerInch() float64 { return g.Stitches * Inch.MM() }

// Per10Cm returns stitches and rows over 10 cm, the length the trade states them over.
func (g Gauge) Per10Cm() (stitches, rows float64) { return g.Stitches * 100, g.Rows * 100 }

// Ease is by how much a finished measure differs from the body's: a share of it (-0.10
// makes it a tenth smaller) or a fixed length. The zero value is no ease.
type Ease struct {
	Share float64
	Fixed Length
}

// Apply returns the finished measure for a body measure.
func (e Ease) Apply(body Length) Length {
	return Length(body.MM()*(1+e.Share)) + e.Fixed
}

// String prints the ease as it is written in a design file.
func (e Ease) String() string {
	if e.Fixed != 0 {
		return fmt.Sprintf("%g cm", e.Fixed.Cm())
	}
	return fmt.Sprintf("%g %%", e.Share*100)
}

// ParseEase reads "-10 %" or a length such as "-2 cm".
func ParseEase(s string) (Ease, error) {
	text := strings.TrimSpace(s)
	if body, ok := strings.CutSuffix(text, "%"); ok {
		v, err := ParseNumber(body)
		if err != nil {
			return Ease{}, err
		}
		return Ease{Share: v / 100}, nil
	}
	l, err := ParseLength(text)
	if err != nil {
		if _, numErr := ParseNumber(text); numErr == nil {
			return Ease{}, fmt.Errorf("%q has no unit: write %q or %q", text, text+" %", text+" cm")
		}
		return Ease{}, err
	}
	return Ease{Fixed: l}, nil
}

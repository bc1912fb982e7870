package feet

import (
	"math"
	"sync"

	"sockwright/internal/unit"
)

// Girth names one of the girths that the survey holds.
type Girth int

// The girths, from the toes up.
const (
	Ball Girth = iota
	HeelAnkle
	Ankle
	Calf
)

// of picks the girth of a foot.
func (g Girth) of(f Foot) unit.Length {
	return [...]unit.Length{f.BallGirth, f.HeelAnkle, f.Ankle, f.Calf}[g]
}

// Line is the least-squares line of a girth on foot length, in mm.
type Line struct {
	Intercept float64
	Slope     float64
	Residual  float64 // standard deviation of people about the line
}

// At is the girth that the line gives for a foot length.
func (l Line) At(length unit.Length) unit.Length {
	return unit.Length(l.Intercept + l.Slope*length.MM())
}

var lines = sync.OnceValue(func() map[Sex][4]Line {
	samples := make(map[Sex][]Foot)
	for _, f := range Adults() {
		samples[f.Sex] = append(samples[f.Sex], f)
	}
	m := make(map[Sex][4]Line)
	for sex, sample := range samples {
		m[sex] = [4]Line{
			fit(sample, Ball), fit(sample, HeelAnkle), fit(sample, Ankle), fit(sample, Calf),
		}
	}
	return m
})

// GirthLine returns the line of a girth for one sex, computed from the survey. The survey's
// feet are 198 to 286 mm long (women) and 216 to 323 mm (men); beyond that the line is a guess.
func GirthLine(sex Sex, which Girth) Line { return lines()[sex][which] }

// GirthAt is the mean girth of adult feet of a length, by [GirthLine].
func GirthAt(sex Sex, which Girth, length unit.Length) unit.Length {
	return GirthLine(sex, which).At(length)
}

// fit draws the least-squares line of a girth on foot length.
func fit(sample []Foot, which Girth) Line {
	n := float64(len(sample))
	var meanX, meanY float64
	for _, f := range sample {
		meanX += f.Length.MM() / n
		meanY += which.of(f).MM() / n
	}
	var xx, xy, yy float64
	for _, f := range sample {
		dx, dy := f.Length.MM()-meanX, which.of(f).MM()-meanY
		xx, xy, yy = xx+dx*dx, xy+dx*dy, yy+dy*dy
	}
	slope := xy / xx
	return Line{
		Intercept: meanY - slope*meanX,
		Slope:     slope,
		Residual:  math.Sqrt((yy - slope*xy) / (n - 2)),
	}
}

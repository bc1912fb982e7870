package feet

import (
	"math"
	"testing"

	"sockwright/internal/unit"
)

// The lines were computed from the full survey by other means than this package's and are
// given to one decimal (slope: three).
func TestGirthLine(t *testing.T) {
	for _, c := range []struct {
		sex   Sex
		which Girth
		want  Line
	}{
		{Female, Ball, Line{86.9, 0.573, 9.4}},
		{Male, Ball, Line{92.2, 0.590, 10.4}},
		{Female, HeelAnkle, Line{66.9, 0.988, 9.1}},
		{Male, HeelAnkle, Line{70.5, 1.007, 10.1}},
		{Female, Ankle, Line{89.4, 0.513, 13.5}},
		{Male, Ankle, Line{81.1, 0.547, 12.8}},
		{Female, Calf, Line{141.6, 0.941, 26.0}},
		{Male, Calf, Line{161.7, 0.850, 27.5}},
	} {
		got := GirthLine(c.sex, c.which)
		if math.Abs(got.Intercept-c.want.Intercept) > 0.051 || math.Abs(got.Slope-c.want.Slope) > 0.00051 ||
			math.Abs(got.Residual-c.want.Residual) > 0.051 {
			t.Errorf("line of girth %d, sex %s: %+v, want %+v", c.which, c.sex, got, c.want)
		}
	}
}

func TestGirthAt(t *testing.T) {
	// A line passes through the means of its sample.
	for _, c := range []struct {
		sex        Sex
		which      Girth
		length, mm float64
	}{
		{Female, Ball, 246.29, 228.11},
		{Male, Ball, 271.18, 252.02},
		{Female, HeelAnkle, 246.29, 310.32},
		{Male, Ankle, 271.18, 229.34},
	} {
		if got := GirthAt(c.sex, c.which, unit.Length(c.length)).MM(); math.Abs(got-c.mm) > 0.02 {
			t.Errorf("girth %d, sex %s, at %g mm: %g, want %g", c.which, c.sex, c.length, got, c.mm)
		}
	}
}

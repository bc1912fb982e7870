package feet

import (
	"math"
	"slices"
	"testing"

	"sockwright/internal/unit"
)

// The figures were computed from the full survey by other means than this package's.
func TestAdultsPercentiles(t *testing.T) {
	length := func(f Foot) unit.Length { return f.Length }
	for _, c := range []struct {
		name               string
		sex                Sex
		measure            func(Foot) unit.Length
		mean, p5, p50, p95 float64
	}{
		{"foot length", Female, length, 246.29, 226, 246, 267.75},
		{"foot length", Male, length, 271.18, 250, 271, 293},
		{"ball of foot circ", Female, Ball.of, 228.11, 209, 227, 248},
		{"ball of foot circ", Male, Ball.of, 252.02, 232, 252, 273},
		{"heel ankle circ", Female, HeelAnkle.of, 310.32, 287, 310, 337},
		{"heel ankle circ", Male, HeelAnkle.of, 343.47, 317, 343, 372},
		{"ankle circ", Female, Ankle.of, 215.74, 193, 215, 242},
		{"ankle circ", Male, Ankle.of, 229.34, 206, 228, 254},
		{"calf circ", Female, Calf.of, 373.26, 328, 372, 423},
		{"calf circ", Male, Calf.of, 392.26, 346, 392, 443},
	} {
		var values []float64
		sum := 0.0
		for _, f := range Adults() {
			if f.Sex == c.sex {
				values = append(values, c.measure(f).MM())
				sum += c.measure(f).MM()
			}
		}
		slices.Sort(values)
		if mean := sum / float64(len(values)); math.Abs(mean-c.mean) > 0.005 {
			t.Errorf("%s %s: mean %g, want %g", c.name, c.sex, mean, c.mean)
		}
		for p, want := range map[float64]float64{0.05: c.p5, 0.50: c.p50, 0.95: c.p95} {
			if got := percentile(values, p); math.Abs(got-want) > 0.005 {
				t.Errorf("%s %s: percentile %g is %g, want %g", c.name, c.sex, p, got, want)
			}
		}
	}
}

// percentile interpolates at position (n-1)p of sorted values.
func percentile(sorted []float64, p float64) float64 {
	at := float64(len(sorted)-1) * p
	i := int(at)
	if i == len(sorted)-1 {
		return sorted[i]
	}
	return sorted[i] + (at-float64(i))*(sorted[i+1]-sorted[i])
}

func TestAdultsCount(t *testing.T) {
	count := make(map[Sex]int)
	for _, f := range Adults() {
		count[f.Sex]++
		if f.Length < 198 || f.Length > 323 || f.BallGirth < 186 || f.HeelAnkle <= f.Ankle || f.Calf <= f.Ankle {
			t.Errorf("not a foot: %+v", f)
		}
	}
	if len(count) != 2 || count[Female] != 1986 || count[Male] != 4082 {
		t.Errorf("the survey holds %v, want 1986 women and 4082 men", count)
	}
}

func BenchmarkParseAdults(b *testing.B) {
	for b.Loop() {
		parseAdults(adultsCSV)
	}
}

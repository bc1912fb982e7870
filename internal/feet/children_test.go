package feet

import (
	"math"
	"testing"

	"sockwright/internal/unit"
)

func TestChildren(t *testing.T) {
	groups := children()
	if len(groups) != 34 {
		t.Fatalf("%d groups, want 34", len(groups))
	}
	for i, g := range groups {
		sex, from := Female, 2+i
		if i >= 17 {
			sex, from = Male, from-17
		}
		if g.Sex != sex || g.From != from || g.To != from+1 || g.Count < 20 {
			t.Errorf("group %d is %+v, want %s from %d", i, g, sex, from)
		}
		if !(g.P5 < g.P25 && g.P25 < g.P50 && g.P50 < g.P75 && g.P75 < g.P95) || math.Abs((g.Mean-g.P50).MM()) > 3 {
			t.Errorf("%s from %d: percentiles out of order: %+v", g.Sex, g.From, g)
		}
	}
	want := AgeGroup{Female, 2, 3, 55, 141.1, 8.7, 126.5, 135.5, 141.0, 147.0, 153.3}
	if groups[0] != want {
		t.Errorf("girls of 2: %+v, want %+v", groups[0], want)
	}
}

func TestChildGirth(t *testing.T) {
	for _, c := range []struct {
		which      Girth
		length, mm float64
	}{
		{Ball, 100, 101.27},
		{Ball, 162, 164.06}, // measured breadth 66 mm (Mickle): 163 mm
		{Ball, 187.5, 185.25},
		{Ball, 213, 205.18}, // measured breadth 84 mm (Baresova): 207 mm
		{Ball, 229, 216.64},
		{Ball, 245, 227.53}, // the survey's women of this length: 227.4 mm
		{Ball, 260, 241.46},
		{HeelAnkle, 162, 223.12},
		{Ankle, 162, 154.77},
		{Calf, 162, 0},
	} {
		if got := ChildGirth(c.which, unit.Length(c.length)).MM(); math.Abs(got-c.mm) > 0.01 {
			t.Errorf("ChildGirth(%d, %g mm) = %.2f, want %.2f", c.which, c.length, got, c.mm)
		}
	}
	for mm := unit.Length(60); mm < 280; mm++ {
		if ChildGirth(Ball, mm+1) <= ChildGirth(Ball, mm) {
			t.Errorf("the estimate falls from %g mm on", mm.MM())
		}
	}
}

func TestForBaby(t *testing.T) {
	for mm, want := range map[unit.Length]bool{80: true, 129.9: true, 130: false, 145: false, 240: false} {
		if ForBaby(mm) != want {
			t.Errorf("ForBaby(%g mm) = %t", mm.MM(), !want)
		}
	}
}

package feet

import (
	_ "embed" // for the data
	"encoding/csv"
	"strconv"
	"strings"
	"sync"

	"sockwright/internal/unit"
)

// AgeGroup is the foot length of children of one sex and year of age.
type AgeGroup struct {
	Sex                    Sex
	From, To               int // years; To is excluded
	Count                  int // children measured
	Mean, SD               unit.Length
	P5, P25, P50, P75, P95 unit.Length // percentiles
}

//go:embed children.csv
var childrenCSV string

// children are foot lengths by year of age, girls from 2 to 18 and then boys, from Snyder and
// others 1977 (UM-HSRI-77-17). Today's children are a little taller at the same age.
var children = sync.OnceValue(func() []AgeGroup {
	r := csv.NewReader(strings.NewReader(childrenCSV))
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		panic(err)
	}
	var groups []AgeGroup
	for _, row := range rows[1:] {
		var v [11]float64 // v[0] stays 0: the sex
		for i := 1; i < len(v); i++ {
			if v[i], err = strconv.ParseFloat(row[i], 64); err != nil {
				panic(err)
			}
		}
		groups = append(groups, AgeGroup{
			Sex: Sex(row[0]), From: int(v[1]), To: int(v[2]), Count: int(v[3]),
			Mean: unit.Length(v[4]), SD: unit.Length(v[5]),
			P5: unit.Length(v[6]), P25: unit.Length(v[7]), P50: unit.Length(v[8]),
			P75: unit.Length(v[9]), P95: unit.Length(v[10]),
		})
	}
	return groups
})

// Ratios behind the estimate of children's girths: means of the adults' survey, the last two
// of its women.
const (
	ballPerBreadth   = 2.47
	heelAnklePerBall = 1.36
	ballPerAnkle     = 1.06
)

// ChildGirth estimates a girth of a child's foot from its length; no measured girths of
// children were found. The ball is 2.47 x breadth, and breadth is 0.41 of the length up to
// 162 mm, 0.39 at 213 mm and 0.376 from 245 mm on, linear between: allow 8 % either way. The
// heel-ankle and ankle girths follow from the ball by the ratios of adults. Nothing is known
// of the calf, for which the result is 0. Mark what rests on this function as an estimate.
func ChildGirth(which Girth, length unit.Length) unit.Length {
	ball := ballPerBreadth * unit.Length(breadthShare(length.MM())) * length
	switch which {
	case Ball:
		return ball
	case HeelAnkle:
		return heelAnklePerBall * ball
	case Ankle:
		return ball / ballPerAnkle
	}
	return 0
}

// breadthShare is breadth over length of a child's foot of so many mm.
func breadthShare(mm float64) float64 {
	switch {
	case mm <= 162:
		return 0.41
	case mm <= 213:
		return 0.41 + (mm-162)/(213-162)*(0.39-0.41)
	case mm <= 245:
		return 0.39 + (mm-213)/(245-213)*(0.376-0.39)
	}
	return 0.376
}

// ForBaby tells whether a sock for a foot of this length needs the cautions for babies: below
// 130 mm, which feet outgrow at about 18 months to 2 years. The bound is a house rule; of girls
// in their third year one in twenty has a foot below 126.5 mm (Snyder and others 1977).
func ForBaby(length unit.Length) bool { return length < 130 }

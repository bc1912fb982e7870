package feet

import (
	_ "embed" // for the data
	"strings"
	"sync"

	"sockwright/internal/unit"
)

// Sex parts the survey into its two samples. They overlap widely.
type Sex string

// The sexes as the survey records them.
const (
	Female Sex = "F"
	Male   Sex = "M"
)

// Foot is one person's foot and lower leg in the survey, in whole millimetres.
type Foot struct {
	Sex       Sex
	Length    unit.Length // back of the heel to the tip of the longest toe
	BallGirth unit.Length // over the joints of the big and the little toe
	HeelAnkle unit.Length // under the heel and over the front crease of the ankle
	Ankle     unit.Length // smallest, just above the ankle bones
	Calf      unit.Length // largest
}

//go:embed adults.csv
var adultsCSV string

var adults = sync.OnceValue(func() []Foot { return parseAdults(adultsCSV) })

// Adults returns the 6,068 feet of the US Army's survey of 2012 (NATICK/TR-15/007), women
// first. Callers must not change the slice.
func Adults() []Foot { return adults() }

// parseAdults splits lines of a sex letter and five whole numbers. All other lines, the
// comments and the header, are passed over.
func parseAdults(csv string) []Foot {
	feet := make([]Foot, 0, 6068)
	for line := range strings.Lines(csv) {
		if line[0] != Female[0] && line[0] != Male[0] {
			continue
		}
		var v [6]int // v[0] stays 0: the sex
		column := 0
		for i := 1; i < len(line); i++ {
			switch c := line[i]; {
			case c == ',':
				column++
			case '0' <= c && c <= '9':
				v[column] = v[column]*10 + int(c-'0')
			}
		}
		feet = append(feet, Foot{
			Sex:       Sex(line[:1]),
			Length:    unit.Length(v[1]),
			BallGirth: unit.Length(v[2]),
			HeelAnkle: unit.Length(v[3]),
			Ankle:     unit.Length(v[4]),
			Calf:      unit.Length(v[5]),
		})
	}
	return feet
}

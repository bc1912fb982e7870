package trade

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// YarnWeight is a category of the Craft Yarn Council's standard yarn weight system. A bound
// of 0 is an open end.
type YarnWeight struct {
	Category                 int      // 0 to 7
	Name                     string   // "Super Fine"
	Types                    []string // the sorts of yarn that fall in it: "sock", "fingering", "baby"
	StitchesMin, StitchesMax int      // stitches of stockinette in 4 in
	NeedleMin, NeedleMax     float64  // mm
}

var yarnWeights = sync.OnceValue(func() []YarnWeight {
	bound := func(s string) float64 {
		if s == "" {
			return 0
		}
		return must(strconv.ParseFloat(s, 64))
	}
	var list []YarnWeight
	for _, r := range rows(yarnWeightsCSV) {
		list = append(list, YarnWeight{
			Category:    must(strconv.Atoi(r[0])),
			Name:        r[1],
			Types:       strings.Split(r[2], "; "),
			StitchesMin: int(bound(r[3])),
			StitchesMax: int(bound(r[4])),
			NeedleMin:   bound(r[5]),
			NeedleMax:   bound(r[6]),
		})
	}
	return list
})

// YarnWeightByCategory returns a category by its number.
func YarnWeightByCategory(category int) (YarnWeight, bool) {
	if category < 0 || category >= len(yarnWeights()) {
		return YarnWeight{}, false
	}
	return yarnWeights()[category], true
}

// ParseYarnWeight reads a category as a designer writes it: its number ("1"), its name
// ("Super Fine"), both ("1 (Super Fine)") or a sort of yarn ("sock", "DK weight"), in any
// case. A sort that stands in two categories is refused with both numbers.
func ParseYarnWeight(s string) (YarnWeight, error) {
	text := strings.Join(strings.Fields(s), " ")
	word := strings.TrimSuffix(strings.ToLower(text), " weight")
	var found []YarnWeight
	for _, w := range yarnWeights() {
		switch word {
		case strconv.Itoa(w.Category), strings.ToLower(w.Name), strings.ToLower(w.String()):
			return w, nil
		}
		if slices.ContainsFunc(w.Types, func(t string) bool { return strings.EqualFold(t, word) }) {
			found = append(found, w)
		}
	}
	switch len(found) {
	case 0:
		return YarnWeight{}, fmt.Errorf("%q is not a yarn weight that is known here: write a number from 0 (Lace) to 7 (Jumbo) or a name such as %q", text, "Super Fine")
	case 1:
		return found[0], nil
	}
	return YarnWeight{}, fmt.Errorf("%q is used for %s and %s: write the number", text, found[0], found[1])
}

// String prints the number and the name: "1 (Super Fine)".
func (w YarnWeight) String() string { return fmt.Sprintf("%d (%s)", w.Category, w.Name) }

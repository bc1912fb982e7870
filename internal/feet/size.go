package feet

import (
	"fmt"
	"strings"

	"sockwright/internal/trade"
	"sockwright/internal/unit"
)

// Size is one size of a range, in measures of the body, without ease.
type Size struct {
	Name      string        // "XS" to "XXL"
	Shoes     [2]trade.Shoe // the first and last shoe size it serves
	Length    unit.Length   // foot, at the middle of the span of shoes
	Girth     unit.Length   // ball of the foot
	Ankle     unit.Length
	HeelAnkle unit.Length
	Estimated bool // the girths are estimates ([ChildGirth]) and not from the survey
}

// Range returns the sizes of a house range, smallest first. The names are women, men and
// children. Girths are the survey's lines at the foot length; those of children are estimates.
func Range(name string) ([]Size, error) {
	switch strings.ToLower(strings.TrimSpace(name)) {
	case "women":
		return sizes(trade.USWomen, adultGirth(Female),
			span{"XS", 4, 5}, span{"S", 5.5, 7}, span{"M", 7.5, 9}, span{"L", 9.5, 11}, span{"XL", 11.5, 13}), nil
	case "men":
		return sizes(trade.USMen, adultGirth(Male),
			span{"S", 6, 7.5}, span{"M", 8, 9.5}, span{"L", 10, 11.5}, span{"XL", 12, 13.5}, span{"XXL", 14, 15.5}), nil
	case "children":
		// US C 14 and 16 are marked 1Y and 3Y.
		list := sizes(trade.USChild, ChildGirth,
			span{"XS", 4, 6}, span{"S", 6.5, 8.5}, span{"M", 9, 11}, span{"L", 11.5, 13.5}, span{"XL", 14, 16})
		for i := range list {
			list[i].Estimated = true
		}
		return list, nil
	}
	return nil, fmt.Errorf("%q is not a size range: write women, men or children", name)
}

// span is a size by the shoes it serves.
type span struct {
	name        string
	first, last float64
}

func adultGirth(sex Sex) func(Girth, unit.Length) unit.Length {
	return func(which Girth, length unit.Length) unit.Length { return GirthAt(sex, which, length) }
}

func sizes(system trade.System, girth func(Girth, unit.Length) unit.Length, spans ...span) []Size {
	var list []Size
	for _, s := range spans {
		foot := trade.Shoe{System: system, Size: (s.first + s.last) / 2}.FootLength()
		list = append(list, Size{
			Name:      s.name,
			Shoes:     [2]trade.Shoe{{System: system, Size: s.first}, {System: system, Size: s.last}},
			Length:    foot,
			Girth:     girth(Ball, foot),
			Ankle:     girth(Ankle, foot),
			HeelAnkle: girth(HeelAnkle, foot),
		})
	}
	return list
}

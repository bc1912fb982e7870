package notation

import (
	"strings"

	"sockwright/internal/pattern"
)

// stepWords are the trade's words for single steps.
var stepWords = map[pattern.Op]string{
	pattern.Knit:         "k",
	pattern.Purl:         "p",
	pattern.KnitTbl:      "k",
	pattern.PurlTbl:      "p",
	pattern.Slip:         "sl",
	pattern.K2tog:        "k2tog",
	pattern.Ssk:          "ssk",
	pattern.P2tog:        "p2tog",
	pattern.Ssp:          "ssp",
	pattern.M1L:          "M1L",
	pattern.M1R:          "M1R",
	pattern.PlaceMarker:  "pm",
	pattern.SlipMarker:   "sm",
	pattern.RemoveMarker: "remove m",
	pattern.Turn:         "turn",
}

// opOf reads the steps that are always one word: stepWords the other way round, but for
// those that take a number or have two words.
var opOf = func() map[string]pattern.Op {
	m := map[string]pattern.Op{}
	for op, word := range stepWords {
		switch op {
		case pattern.Knit, pattern.Purl, pattern.KnitTbl, pattern.PurlTbl, pattern.Slip, pattern.RemoveMarker:
		default:
			m[strings.ToLower(word)] = op
		}
	}
	return m
}()

var edgeWords = map[pattern.Edge]string{
	pattern.LeftEdge:  "along the left edge of the heel",
	pattern.RightEdge: "along the right edge of the heel",
	pattern.Corner:    "in the corner",
}

var placeWords = map[pattern.Place]string{
	pattern.CentreBack:   "at the center of the back",
	pattern.SideOfSole:   "at the side, before the heel sts",
	pattern.SideOfInstep: "at the side, before the instep sts",
	pattern.CentreOfSole: "at the center of the sole",
}

// labelNames are the names of rows that are not just numbered, as they begin a line.
var labelNames = map[string]pattern.Name{
	"set-up": pattern.SetUp, "partial": pattern.Partial, "inc": pattern.Increase, "dec": pattern.Decrease, "next": pattern.Next,
}

var styleWords = map[pattern.Style]string{pattern.Tip: "Tip", pattern.Caution: "Caution"}

const (
	abbreviations = "Abbreviations" // title of the section whose lines are terms
	onlyWord      = "only:"
	allSizes      = "All sizes:"
)

// plural is "1 st" but "2 sts" and "1 (2) sts".
func plural(n pattern.Number, one, many string) string {
	if n.Is(1) {
		return one
	}
	return many
}

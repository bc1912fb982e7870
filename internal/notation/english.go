package notation

import (
	"strings"

	"sockwright/internal/pattern"
)

// stepWords are the trade's words for single steps, before their number if they have one.
var stepWords = map[pattern.Op]string{
	pattern.Knit:         "k",
	pattern.Purl:         "p",
	pattern.KnitTbl:      "k",
	pattern.PurlTbl:      "p",
	pattern.Slip:         "sl",
	pattern.SlipFront:    "sl",
	pattern.K2tog:        "k2tog",
	pattern.Ssk:          "ssk",
	pattern.Skp:          "skp",
	pattern.P2tog:        "p2tog",
	pattern.Ssp:          "ssp",
	pattern.K3tog:        "k3tog",
	pattern.Sssk:         "sssk",
	pattern.P3tog:        "p3tog",
	pattern.S2kp2:        "s2kp2",
	pattern.M1L:          "M1L",
	pattern.M1R:          "M1R",
	pattern.LiftedL:      "LLI",
	pattern.LiftedR:      "RLI",
	pattern.Kfb:          "kfb",
	pattern.Pfb:          "pfb",
	pattern.CrossRight:   "RPC",
	pattern.CrossLeft:    "LPC",
	pattern.ThreeIn1:     "(k1, yo, k1) in 1",
	pattern.YarnOver:     "yo",
	pattern.LT:           "LT",
	pattern.RT:           "RT",
	pattern.C4F:          "C4F",
	pattern.C4B:          "C4B",
	pattern.C6F:          "C6F",
	pattern.C6B:          "C6B",
	pattern.T3F:          "T3F",
	pattern.T3B:          "T3B",
	pattern.KnitHem:      "k",
	pattern.WasteYarn:    "k",
	pattern.PlaceMarker:  "pm",
	pattern.SlipMarker:   "sm",
	pattern.RemoveMarker: "remove m",
}

// tailWords follow the number of a step that has one.
var tailWords = map[pattern.Op]string{
	pattern.KnitTbl:   " tbl",
	pattern.PurlTbl:   " tbl",
	pattern.SlipFront: " wyif",
	pattern.KnitHem:   " with the CO edge",
	pattern.WasteYarn: " with waste yarn and once more with the sock yarn",
}

// counted tells whether a step says how many stitches it works, or how far it goes.
func counted(op pattern.Op) bool {
	w := stepWords[op]
	return w == "k" || w == "p" || w == "sl"
}

// turnWords end a row that turns, by what the turn leaves behind.
var turnWords = [...]string{"turn", "wrap and turn", "make twin, turn", "turn, yo", "turn, DS"}

// gapWords name what a row comes to where the work was turned.
var gapWords = [...]string{"gap", "wrapped st", "twin", "yo", "DS"}

// closeWords follow the k or p that works a stitch together with what a turn left on it.
var closeWords = [...]string{"", "1 with its wrap", "1 with its twin", "1 with its yo", " DS"}

// opOf reads the steps that are always one word: stepWords the other way round, but for
// those that take a number or have two words.
var opOf = func() map[string]pattern.Op {
	m := map[string]pattern.Op{}
	for op, word := range stepWords {
		if !counted(op) && !strings.Contains(word, " ") {
			m[strings.ToLower(word)] = op
		}
	}
	return m
}()

// startWords follow the number of stitches cast on.
var startWords = [...]string{
	pattern.InRound:          ". Join to work in the round without twisting.",
	pattern.Flat:             ". Work back and forth in rows.",
	pattern.Closed:           " with a closed start, half on each of two needles.",
	pattern.Ring:             " as a ring that is drawn shut.",
	pattern.ProvisionalRound: " provisionally. Join to work in the round without twisting.",
	pattern.ProvisionalFlat:  " provisionally. Work back and forth in rows.",
}

// pickUpWords stand before the number picked up.
var pickUpWords = map[pattern.Op]string{pattern.PickUp: "pick up and k ", pattern.PickUpPurl: "pick up and p "}

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

// Words of stitch patterns: "Small Arches is a stitch pattern over a multiple of 8 sts and 1
// more."
const (
	motifIs    = " is a stitch pattern over "
	multipleOf = "a multiple of "
	andMore    = " more"
)

const (
	abbreviations = "Abbreviations" // title of the section whose lines are terms
	onlyWord      = "only:"
	allSizes      = "All sizes:"
	bothSocks     = "Both socks:"
)

// HandLabel and LeftHand are the fact that says which hand a pattern is for; a pattern that
// does not say it is for the right one.
const (
	HandLabel = "Hand"
	LeftHand  = "left; every row and rnd is worked from left to right"
)

var sockWords = map[pattern.Sock]string{pattern.RightSock: "Right sock", pattern.LeftSock: "Left sock"}

// plural is "1 st" but "2 sts" and "1 (2) sts".
func plural(n pattern.Number, one, many string) string {
	if n.Is(1) {
		return one
	}
	return many
}

package trade

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"sockwright/internal/unit"
)

// System is a way of numbering shoes, named by the mark that stands before the number.
type System string

// The systems.
const (
	USWomen    System = "US W" // the scale that makers label: US men + 1.5
	USMen      System = "US M"
	USChild    System = "US C" // runs on past 13½: 14 is marked as the youth size 1Y
	UK         System = "UK"   // adult, one scale for men and women
	UKChild    System = "UK C" // ends at 13½; the next size is UK 1
	EU         System = "EU"   // Paris points
	Mondopoint System = "MP"   // the foot in mm

	usWomenFIA System = "US W FIA" // US men + 1: the scale of the ISO table, seldom labelled
)

// lastChild is the last child size, US and UK; the next one is 1 of the scale that follows.
const lastChild = 13.5

// Feet that a shoe size may stand for: from a small newborn's to well above any adult size.
const (
	shortestFoot unit.Length = 40
	longestFoot  unit.Length = 360
)

// Shoe is a shoe size. It may lie between the marked sizes; the middle of a span does.
type Shoe struct {
	System System
	Size   float64
}

// rule is the formula of a system: size = perUnit x foot length in unit - minus.
type rule struct {
	perUnit, minus float64
	unit           unit.Length
	printedStep    float64 // one size in mm as ISO 19407 prints it: 8.47 for 25.4/3, 6.67 for 20/3
	mark           float64 // sizes are marked in steps of this
}

var rules = sync.OnceValue(func() map[System]rule {
	units := map[string]unit.Length{"mm": unit.Millimetre, "cm": unit.Centimetre, "in": unit.Inch}
	m := make(map[System]rule)
	for _, r := range rows(shoeSystemsCSV) {
		m[System(r[0])] = rule{
			perUnit:     must(unit.ParseNumber(r[2])),
			unit:        units[r[3]],
			minus:       must(unit.ParseNumber(r[4])),
			printedStep: must(unit.ParseNumber(r[5])),
			mark:        must(unit.ParseNumber(r[6])),
		}
	}
	return m
})

// FootLength is the foot for which the size is made, by the formula of its system; 0 if the
// system is unknown. A size fits feet up to half a step shorter or longer, and makers differ
// by half a size to one and a half; infant sizes differ most.
func (s Shoe) FootLength() unit.Length {
	r, ok := rules()[s.System]
	if !ok {
		return 0
	}
	return unit.Length((s.Size+r.minus)/r.perUnit) * r.unit
}

// ShoeFor returns the size for a foot, rounded to the nearest half size (Mondopoint: 5 mm),
// with the steps that ISO 19407 prints, so that its table is met. A foot past the end of the UK
// child scale gets its adult size. A foot too short for a system gets a size below zero. The
// system must be one of the constants.
func ShoeFor(system System, foot unit.Length) Shoe {
	r := rules()[system]
	size := math.Round((foot.MM()/r.printedStep-r.minus)/r.mark) * r.mark
	if system == UKChild && size > lastChild {
		return Shoe{UK, size - 13}
	}
	return Shoe{system, size}
}

// String prints the size as it is marked: "US W 8", "US M 10.5", "US 1Y", "MP 245".
func (s Shoe) String() string {
	if s.System == USChild && s.Size > lastChild {
		return "US " + number(s.Size-13) + "Y"
	}
	return string(s.System) + " " + number(s.Size)
}

func number(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// ParseShoe reads a shoe size with its system: "US W 8", "US M 10½", "US C 9", "US 2Y", "UK 6",
// "UK C 9", "EU 39", "MP 245", in any case. Whole and half sizes are taken. The error offers the
// forms that may be meant.
func ParseShoe(s string) (Shoe, error) {
	text := strings.Join(strings.Fields(s), " ")
	before, digits, after := cutNumber(text)
	mark, tail := System(strings.ToUpper(before)), strings.ToUpper(after)
	youth := mark == "US" && tail == "Y"
	if youth {
		mark, tail = USChild, ""
	}
	if _, ok := rules()[mark]; !ok || mark == usWomenFIA || tail != "" || digits == "" {
		return Shoe{}, fmt.Errorf("%q is not a shoe size that is known here: write %s", text, nearestForms(before+" "+after, digits))
	}
	size, err := unit.ParseNumber(digits)
	if err != nil {
		return Shoe{}, err
	}
	if half := math.Round(size*2) / 2; half != size {
		return Shoe{}, fmt.Errorf("%q is neither a whole nor a half size: the nearest is %s", text, number(half))
	}
	switch {
	case youth && size < 1:
		return Shoe{}, fmt.Errorf("%q is too small: youth sizes begin with %q after %q", text, "US 1Y", "US C 13.5")
	case youth:
		size += 13
	case mark == USChild && size > lastChild:
		return Shoe{}, fmt.Errorf("%q is too large: child sizes end with 13.5, write %q", text, Shoe{USChild, size})
	case mark == UKChild && size > lastChild:
		return Shoe{}, fmt.Errorf("%q is too large: child sizes end with 13.5, write %q", text, Shoe{UK, size - 13})
	}
	shoe := Shoe{mark, size}
	if foot := shoe.FootLength(); foot < shortestFoot || foot > longestFoot {
		return Shoe{}, fmt.Errorf("%q would be for a foot of %.0f mm: write a size for %g to %g mm", text, foot.MM(), shortestFoot.MM(), longestFoot.MM())
	}
	return shoe, nil
}

// cutNumber parts a size at its first and last digit or fraction character.
func cutNumber(s string) (before, digits, after string) {
	first := strings.IndexFunc(s, unicode.IsNumber)
	if first < 0 {
		return s, "", ""
	}
	end := strings.LastIndexFunc(s, unicode.IsNumber)
	_, width := utf8.DecodeRuneInString(s[end:])
	end += width
	return strings.TrimSpace(s[:first]), s[first:end], strings.TrimSpace(s[end:])
}

// nearestForms offers ways to write a size, judged by the words that stood around its number.
func nearestForms(words, digits string) string {
	if digits == "" {
		digits = "8"
	}
	var country, wearer string
	for _, w := range strings.FieldsFunc(strings.ToUpper(words), func(r rune) bool { return !unicode.IsLetter(r) }) {
		switch {
		case strings.HasPrefix(w, "US"):
			country = "US"
		case w == "UK", w == "GB":
			country = "UK"
		case strings.HasPrefix(w, "EU"):
			country = "EU"
		case w == "MP", strings.HasPrefix(w, "MONDO"):
			country = "MP"
		case w == "CHILD", w == "CHILDREN", w == "KIDS", w == "TODDLER", w == "C", w == "K", w == "T":
			wearer = "C"
		case w == "WOMEN", w == "WOMENS", w == "LADIES", w == "W":
			wearer = "W"
		case w == "MEN", w == "MENS", w == "M":
			wearer = "M"
		case w == "YOUTH", w == "Y":
			wearer = "Y"
		}
	}
	form := func(mark string) string { return strconv.Quote(mark + " " + digits) }
	switch {
	case country == "MP", country == "EU", country == "UK" && wearer != "C":
		return form(country)
	case country == "UK":
		return form("UK C")
	case wearer == "Y":
		return strconv.Quote("US " + digits + "Y")
	case wearer != "":
		return form("US " + wearer)
	case country == "US":
		return form("US W") + ", " + form("US M") + " or " + form("US C")
	}
	switch v, _ := unit.ParseNumber(digits); {
	case v >= 90:
		return form("MP")
	case v >= 16:
		return form("EU")
	}
	return form("US W") + ", " + form("US M") + ", " + form("US C") + " or " + form("UK")
}

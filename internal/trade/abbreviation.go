package trade

import (
	"slices"
	"strconv"
	"strings"
	"sync"

	"sockwright/internal/source"
)

// Abbreviation is a short form of pattern English.
type Abbreviation struct {
	Short    string // as it stands in a pattern; an ending that may be left off is in brackets: "st(s)"
	Long     string // what to do or what it means, for a glossary; no full stop
	Consumes int    // stitches taken from the left needle, each time it is worked
	Makes    int    // stitches left on the right needle
	HasCount bool   // whether Consumes and Makes apply; false for "rep", and for "psso", which only completes another stitch
	Lean     string // "left", "right", "centred" or "": how it leans or travels, seen on the knit face
	Mirror   string // the short form that takes its place in mirrored work; empty if none is named
	Sided    string // Long as the text of a [source.Message], sides marked
}

var abbreviations = sync.OnceValue(func() []Abbreviation {
	var list []Abbreviation
	for _, r := range rows(abbreviationsCSV) {
		a := Abbreviation{Short: r[0], Lean: r[4], Mirror: r[5], Sided: r[1]}
		a.Long = source.Say("abbreviation."+a.Short, a.Sided).String()
		if r[2] != "" {
			a.HasCount = true
			a.Consumes, a.Makes = must(strconv.Atoi(r[2])), must(strconv.Atoi(r[3]))
		}
		list = append(list, a)
	}
	return list
})

// Abbreviations returns the short forms, stitches first, each beside its kin.
func Abbreviations() []Abbreviation { return slices.Clone(abbreviations()) }

// AbbreviationByShort finds a short form, written exactly (case counts: "m" is a marker, "M1"
// an increase). "st" and "sts" both find "st(s)".
func AbbreviationByShort(short string) (Abbreviation, bool) {
	for _, a := range abbreviations() {
		stem, plural := strings.CutSuffix(a.Short, "(s)")
		if short == a.Short || plural && (short == stem || short == stem+"s") {
			return a, true
		}
	}
	return Abbreviation{}, false
}

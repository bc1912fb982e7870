package trade

import (
	"sync"
)

// Caution is a short warning to print in a pattern. It is not medical advice; where health is
// in play it sends the wearer to a doctor or podiatrist.
type Caution struct {
	Key    string // "baby-threads"
	Text   string // one or two sentences
	Source string // codes of SOURCES.md, or "common practice"
}

var cautions = sync.OnceValue(func() []Caution {
	var list []Caution
	for _, r := range rows(cautionsCSV) {
		list = append(list, Caution{Key: r[0], Text: r[1], Source: r[2]})
	}
	return list
})

// CautionByKey returns one caution.
func CautionByKey(key string) (Caution, bool) {
	for _, c := range cautions() {
		if c.Key == key {
			return c, true
		}
	}
	return Caution{}, false
}

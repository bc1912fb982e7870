package trade

import (
	_ "embed"
	"strings"
	"testing"
)

//go:embed SOURCES.md
var sourcesMD string

// Every source code that a table uses is explained.
func TestSourcesAreNamed(t *testing.T) {
	named := make(map[string]bool)
	for _, word := range strings.FieldsFunc(sourcesMD, func(r rune) bool { return strings.ContainsRune(" |,\n", r) }) {
		named[strings.TrimSuffix(word, ":")] = true
	}
	for _, table := range []string{needlesCSV, yarnWeightsCSV, abbreviationsCSV, shoeSystemsCSV, cautionsCSV} {
		for _, r := range rows(table) {
			for code := range strings.SplitSeq(r[len(r)-1], "; ") {
				if code != "common practice" && !named[code] {
					t.Errorf("source %q of %q is not named", code, r[0])
				}
			}
		}
	}
}

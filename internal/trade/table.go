package trade

import (
	_ "embed" // for the tables
	"encoding/csv"
	"strings"
)

// The tables are compiled in. A table that does not parse is a fault of the build, so the
// loaders panic; the tests load every one.
var (
	//go:embed needles.csv
	needlesCSV string
	//go:embed yarn-weights.csv
	yarnWeightsCSV string
	//go:embed abbreviations.csv
	abbreviationsCSV string
	//go:embed shoe-systems.csv
	shoeSystemsCSV string
	//go:embed cautions.csv
	cautionsCSV string
)

// rows reads a table and drops its comments and its header line.
func rows(table string) [][]string {
	r := csv.NewReader(strings.NewReader(table))
	r.Comment = '#'
	all, err := r.ReadAll()
	if err != nil {
		panic(err)
	}
	return all[1:]
}

// must unwraps a number of a table.
func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

package spell

import "strings"

// Nearest returns the known word with the smallest edit distance to word, counting a
// swapped pair of neighbours as one edit and capitals as nothing, or "" if none is near
// enough to be worth offering: at most a third of the bytes may differ, none of one or two
// (but for capitals). Of words that are equally near the first is returned.
func Nearest(word string, known []string) string {
	best, bestAt := len(word)/3+1, ""
	for _, k := range known {
		if d := distance(strings.ToLower(word), strings.ToLower(k), best); d < best {
			best, bestAt = d, k
		}
	}
	return bestAt
}

// distance is the optimal string alignment distance of a and b, or limit if it is not
// smaller than that.
func distance(a, b string, limit int) int {
	if len(a)-len(b) >= limit || len(b)-len(a) >= limit {
		return limit
	}
	before, last, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return min(last[len(b)], limit)
}

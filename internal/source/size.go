package source

import "math/bits"

// MaxSizes is the largest number of sizes of one pattern.
const MaxSizes = 64

// A SizeSet is a set of sizes by their place in the pattern, smallest size first, bit 0.
// The empty set stands for "not about a size".
type SizeSet uint64

// OneSize is the set of one size.
func OneSize(i int) SizeSet { return 1 << i }

// AllSizes is the set of the first n sizes.
func AllSizes(n int) SizeSet {
	if n >= MaxSizes {
		return ^SizeSet(0)
	}
	return 1<<n - 1
}

// Has tells whether size i is in the set.
func (s SizeSet) Has(i int) bool { return s>>i&1 == 1 }

// Len is the number of sizes in the set.
func (s SizeSet) Len() int { return bits.OnesCount64(uint64(s)) }

// Names lists the names of the sizes of the set, in order.
func (s SizeSet) Names(all []string) []string {
	var names []string
	for i, name := range all {
		if s.Has(i) {
			names = append(names, name)
		}
	}
	return names
}

// Package fabric is knitted cloth as a graph: every loop, what it was pulled through, in
// what order the yarn made them, and which rows they belong to.
//
// Loops are numbered in the order in which the yarn makes them, so the yarn neighbours of
// loop i are i-1 and i+1 unless a strand begins or ends between them. Everything is held
// in flat arrays: a sock of 12,000 loops is about 200 KB. The package knows nothing of
// needles, sizes or words; package knit makes fabrics, others measure and draw them.
package fabric

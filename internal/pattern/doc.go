// Package pattern is the tree of a written knitting pattern: sections of rows and rounds,
// made of steps, with a number for each size wherever sizes differ.
//
// The same tree comes from two sides: a construction builds it from graded numbers, and
// the reader builds it from printed words. Whoever knits, prints or draws it cannot tell
// which. Nodes carry an identity ([NodeID], given by [Pattern.Index]) and the span of the
// words they stand in, so that "touch a row in one view and see it in all" needs no
// guesswork.
//
// Start at [Pattern]; the kinds of [Node] are what a line of a pattern can say.
package pattern

// Package script is what anybody's written pattern says, line by line: rows and rounds,
// repeats, stitches set apart, counts that are stated, measures, terms that are explained.
//
// It is wider and looser than the tree of package pattern. That tree says everything that
// is needed to make cloth; a script says what the words say and no more: "work the heel on
// 30 sts" does not tell which thirty, "dec 4 sts every other rnd until 24 rem" not where.
// Package reader makes scripts, package follow works them by counting stitches.
//
// Every item knows its line and its words, every number the words of each size's column.
package script

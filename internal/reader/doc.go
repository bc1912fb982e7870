// Package reader reads anybody's written pattern into a [script.Script].
//
// It is a front end in three steps. The lexer cuts the text into tokens without losing a
// character and replaces each word of the trade by one spelling ("rounds", "rnds." and
// "rnd" are all "rnd": see lexicon.go). The second step finds the sizes and how the text
// dresses its lists (sizes.go). The third reads line by line: a label, the steps of a row,
// sentences that repeat, arrange or state something (row.go, step.go, sentence.go).
//
// It never gives up: words that no rule takes are skipped to the next stop of the sentence,
// and the line is prose, or unread where it began like an instruction.
package reader

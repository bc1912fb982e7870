// Package source holds what every stage needs to point at words: a text with its name,
// spans in it, faults that were found there with their mends, and messages by key.
//
// A later stage carries the spans of an earlier one along, so that a fault found on the
// needles still points at the word that caused it. Faults are small values and know
// nothing of printing; a [Finding] is a fault resolved to lines, columns and size names,
// and every page, terminal and JSON document shows the same finding.
package source

// Package trade holds the published facts that knitters and shoe sellers share: needle
// sizes, yarn weights, abbreviations, shoe sizes, and the cautions that belong in a sock
// pattern. Each table is a CSV file beside the code, with the source of every row;
// SOURCES.md names the works behind the source codes.
//
// Only facts that a standard, a trade body or at least one independent reference states are
// kept. Contested rows are left out, and the parsers then ask for a plainer form.
package trade

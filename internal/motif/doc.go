// Package motif provides stitch patterns: small files of rows in the trade's words, each held
// to give back as many stitches as it takes.
//
// A file is TOML:
//
//	title = "Small Arches"
//	says = "arches of lace that lean to each other"
//	kind = "lace"
//	rows = """
//	*K1, yo, k1, s2kp2, k1, yo; rep from * to end
//	Knit
//	"""
//
// A row is a line of its own, the first one first, and is worked as a round. How many stitches
// a repeat has follows from the rows.
//
// Start at [Shipped] and [Parse].
package motif

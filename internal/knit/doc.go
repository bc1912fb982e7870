// Package knit works a pattern on virtual needles, one size at a time, and makes the
// fabric that the words make, faults and all.
//
// The needles are a ring of live loops with a gap where the two needle tips meet
// ([needles]). Knitting on moves the gap along the ring; turning the work only changes the
// direction in which it moves; markers, the ends of needles and the bounds of the part
// that is worked flat are entries of the ring like the loops. Edges are kept exactly: which
// stitch of a selvedge is a finished chain, which still hangs on the needle.
//
// Start at [Knitter.Knit]. What a sock is, and where numbers come from, is not known here
// beyond what the words themselves speak of: a heel set apart, its edges, instep and sole.
package knit

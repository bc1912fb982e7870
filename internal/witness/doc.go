// Package witness reads the plain text of a printed sock pattern and counts
// its stitches, as a second opinion on the code that printed it.
//
// The package shares nothing with the rest of the module: it reads the words
// on its own, keeps the stitches on two needles as a knitter does, and follows
// one line after another for one size after another. Where a printed
// statement does not agree with the stitches on the needles, or a row cannot
// be worked as it is written, [Run] says so in a [Wrong] and goes on.
//
// # The needles
//
// The stitches are kept in two lists: those still to be worked in the row, the
// next one first, and those already worked, the last one last. Between them
// lie stitch markers, the ends of the needles N1, N2, N3 where a line has laid
// the stitches out, and, while set-up rows run to and fro over it, the
// beginning of the round. Turning the work reverses and exchanges the lists.
// While the heel is worked flat, the instep rests in a third list.
//
// A turn in the middle of a part leaves a gap between the lists' stitches, which goes when it
// is worked across, and may leave a stitch turned: with a wrap, a twin, a yo or two legs. Only
// the words that close such a stitch make it a plain one again; all must be closed when the
// part is finished.
//
// # What is counted
//
// A stated count is of the heel's stitches alone while the heel is worked
// flat, and of all the stitches otherwise. A row that is worked again through
// a "Work …" line is judged at that line.
package witness

// Package proof knits a pattern from its own printed words before anybody else does.
//
// [Prove] prints a pattern, reads the print back, works both the pattern and what was read
// in every size, and compares the fabrics loop for loop. A pattern is proven when nothing
// was left unread, neither working met a fault, all stated counts were true, the fabrics are
// equal and each is one finished piece of cloth, and what is worked reads back to the same
// lines.
package proof

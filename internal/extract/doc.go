// Package extract takes the plain text of a written pattern out of the file that it came
// in. It knows nothing of knitting, except that an asterisk is more likely the start of a
// repeat than emphasis. [Text] is the only door.
//
// Lines of the text are what a reader would call lines: paragraphs, list items, rows of a
// table (cells parted by two spaces), lines of a page. They are what line and column
// numbers of later stages refer to, for the file itself may have none.
//
// What becomes of each form:
//
//   - Plain text (.txt, and anything else that is text) stays as it is, line ends too. A
//     byte-order mark is taken off. Text is UTF-8, or UTF-16 with a byte-order mark, or
//     else Windows-1252, which for printable text is Latin-1 as well; no other encoding is
//     guessed at.
//   - HTML: what a page shows, without head, scripts, drawings, navigation,
//     deleted and hidden parts.
//     Blocks and <br> begin lines, <li> of <ol> get their numbers, <pre> keeps its form.
//     Style sheets are not heeded, only attributes of the elements themselves.
//   - Markdown: the words without their marks, line for line. Single asterisks stay, and
//     so does a "*" that would be a bullet, if the item has no other opening asterisk:
//     "* k2, p2; rep from * to end". Numbers of lists are those of the file.
//   - Word (.docx) and OpenDocument (.odt): the text as it reads with all tracked changes
//     accepted, automatic numbers written out, notes at the end; no running heads and
//     feet, comments or hidden text.
//   - PDF: the text layer, lines rebuilt from the places of the letters, a wider gap
//     between lines made a blank line. Columns of prose are read one after another; what
//     stands in rows side by side and is short is taken for a table. Lines at the
//     edges that return in the same place on most pages are running heads and feet and are
//     left out. Lines stay
//     broken as on the page, hyphens included. Text at right angles to most of the page,
//     and layers switched off, are not told apart: the first is left out, the second kept.
//
// Except in plain text, unusual spaces become plain ones, ligatures letters, a fraction
// slash a slash; soft hyphens and characters without width or meaning vanish. A raised
// digit after a digit is set off, so that 1 and a raised 1/2 read "1 1/2".
//
// Old .doc, .rtf, .pages, pictures, encrypted files and scans without a text layer are
// refused with what to do about them. Size, depth and number of everything inside a file
// are bounded; no file makes the package panic.
package extract

// Package notation turns a pattern into words and words into a pattern.
//
// [Lines] lays a pattern out as lines of labelled, marked-up words; [Write] joins them to
// plain text, one row or round a line; documents with pictures and type draw the same
// lines. [Read] is the inverse: it reads every character of a text into tokens, every
// token into a node or into prose, and says what it could not read. What it prints it can
// read, and the tree that comes back knits the same cloth: package proof holds it to that.
//
// A pattern that is to be read back has a title; titles have three letters or more and no
// colon; groups for some of the sizes ([pattern.Only]) hold no groups; and each row has a
// step.
//
// The words themselves stand in one table ([english]), used by both directions.
package notation

// Package design reads the designer's choices from a design file.
//
// A design file is TOML, read strictly: a key that nobody owns is a fault with its place
// and the nearest key that somebody does. [Read] takes what every sock needs (gauge, sizes,
// ease, needles, yarn, pins); the tables of the parts of a sock (cuff, heel, toe …) are kept
// raw as [Table] with the place of every key and value, for the construction that owns them
// to take its options from. When all owners have taken theirs, [Design.Unused] reports the
// keys that are left.
//
// Nothing is guessed: lengths have units, sizes are named, and what has a default is listed
// where it is taken.
package design

// Package sock holds the constructions a sock is made of, one file each.
//
// A construction is a way to make one part: the band heel, the wedge toe. Its file has all
// of it: what it is called and says of itself, the options it takes from the design file,
// the numbers it declares with their rules and reasons, the section of the pattern it
// builds from them, and the notes it teaches with. To add one, add a file that registers a
// [Part].
//
// [New] takes the parts that a design asks for and collects what they declare, [Draft.Grade]
// solves it, and [Draft.Build] makes the pattern. Constructions know each other only by
// the keys of their numbers ("leg.stitches", "heel.stitches_left").
//
// What the constructions of one part share is in the file of the part's name (leg.go,
// heel.go; heel_flap.go and heel_turn.go for heels with a flap, short_rows.go, edge.go).
package sock

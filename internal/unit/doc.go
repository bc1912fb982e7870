// Package unit holds the quantities of knitting that must not be mixed up: lengths,
// gauges, ease. It parses them as a designer writes them and prints them in both systems.
//
// Inside the program every length is in millimetres. A number without a unit is never
// accepted as a length: "8" could be inches or centimetres, so [ParseLength] refuses it.
// Printing rounds; nothing that has been printed is read back into a calculation.
package unit

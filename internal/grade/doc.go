// Package grade chooses whole numbers for all sizes of a design: it solves a model of
// declared variables, rules and wishes exactly, and keeps as data why each number is what
// it is. It knows nothing of socks.
//
// A [Model] lists variables in the order in which they follow from each other. A variable
// is either chosen, as near as its rules allow to a target that may depend on earlier ones,
// or follows from earlier ones altogether. What a choice costs is how far it lies from its
// target, in micrometres of fabric, so that stitches and rows weigh alike.
//
// The solution is the best one in this order: least total cost over all sizes at the first
// level, then at the second, and so on; each variable names its level. At a variable's own
// level its Smooth share of the change of the deviation from one size to the next is
// added. Of equal solutions the one with the smaller numbers is taken: those of the largest
// size count first, and in a size earlier variables first. The search is exhaustive within
// the declared reach of every target; see solve.go.
package grade

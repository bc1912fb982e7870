// Package follow works a script by counting stitches, one size at a time.
//
// Package knit makes cloth from words that say everything. Anybody's words do not; they
// begin at the heel, leave the turn unsaid, state a total that no row accounts for. What is
// followed here is therefore the needles only: stitches on the left and the right one, on
// which needle and in which part each lies, where the work was turned, which are wrapped,
// what rests ([needles]). Where the words cannot be followed the count is unknown until
// they state it again.
//
// [Follow] works the words twice: to the letter, which gives the counts, and, if something
// is wrong, once more looking for the cheapest explanation of every fault and going on from
// what the rest of the text agrees with, so that one slip gives one fault (explain.go).
package follow

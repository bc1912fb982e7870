package knit_test

import (
	"fmt"

	"sockwright/internal/knit"
	"sockwright/internal/notation"
	"sockwright/internal/source"
)

func Example() {
	f := source.NewFile("slate-quay.txt", `SLATE QUAY

Sizes: S (M)
CO 60 (64) sts. Join to work in the round without twisting. The rnd begins at the center of the back.
Rnd 1: *K2, p2; rep from * to end.
Work the last rnd 15 more times. 16 rnds in all.
Dec rnd: K1, ssk, k to last 3 sts, k2tog, k1. 58 (63) sts.
`)
	p := notation.Read(f).Pattern
	var k knit.Knitter
	for size, name := range p.Sizes {
		cloth := k.Knit(p, size)
		fmt.Printf("size %s: %d loops, %d of them live\n", name, cloth.Loops, cloth.Left)
		for _, x := range cloth.Faults {
			fmt.Println(source.Find(f, p.Sizes, x))
		}
	}
	// Output:
	// size S: 1078 loops, 58 of them live
	// size M: 1150 loops, 62 of them live
	// 7:51: size M: Dec rnd states 63 sts, but 62 are on the needles: 64 before it, 2 decreased
	//     mend: state 62
}

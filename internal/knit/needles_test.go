package knit

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// hands is the needles as they look: two lists, the entries next to the tips last. It is
// what the ring must do, told in the plainest way.
type hands struct{ leftHand, rightHand []int32 }

func (h *hands) next() (int32, bool) {
	if len(h.leftHand) == 0 { // all that was worked is worked again
		h.leftHand, h.rightHand = h.rightHand, nil
		slices.Reverse(h.leftHand)
	}
	if len(h.leftHand) == 0 {
		return 0, false
	}
	return h.leftHand[len(h.leftHand)-1], true
}

func (h *hands) last() (int32, bool) {
	switch {
	case len(h.rightHand) > 0:
		return h.rightHand[len(h.rightHand)-1], true
	case len(h.leftHand) > 0: // round the ring
		return h.leftHand[0], true
	}
	return 0, false
}

func (h *hands) take() int32 {
	e := h.leftHand[len(h.leftHand)-1]
	h.leftHand = h.leftHand[:len(h.leftHand)-1]
	return e
}

func (h *hands) put(e int32) { h.rightHand = append(h.rightHand, e) }

func (h *hands) turn() { h.leftHand, h.rightHand = h.rightHand, h.leftHand }

// all is every entry once round from the gap on, in the order in which they would be worked.
func (h *hands) all() []int32 {
	left := slices.Clone(h.leftHand)
	slices.Reverse(left)
	return append(left, h.rightHand...)
}

// Whatever is done with the ring comes out as it does with two needles in two hands.
func TestPropertyNeedles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var ring needles
		var h hands
		ring.reset()
		made := int32(0)
		special := rapid.SampledFrom([]int32{begin, leftEnd, rightEnd, marker, needleStart(1), needleStart(2)})
		t.Repeat(map[string]func(*rapid.T){
			"make": func(t *rapid.T) {
				for range rapid.IntRange(1, 300).Draw(t, "loops") {
					ring.put(made)
					h.put(made)
					made++
				}
			},
			"put":  func(t *rapid.T) { e := special.Draw(t, "entry"); ring.put(e); h.put(e) },
			"back": func(t *rapid.T) { e := special.Draw(t, "entry"); ring.putBack(e); h.leftHand = append(h.leftHand, e) },
			"turn": func(t *rapid.T) { ring.turn(); h.turn() },
			"pass": func(t *rapid.T) {
				for range rapid.IntRange(1, 100).Draw(t, "entries") {
					if _, ok := h.next(); ok {
						ring.next()
						ring.pass()
						h.put(h.take())
					}
				}
			},
			"take": func(t *rapid.T) {
				for range rapid.IntRange(1, 100).Draw(t, "entries") {
					if _, ok := h.next(); ok {
						ring.next()
						if a, b := ring.take(), h.take(); a != b {
							t.Fatalf("took %d, want %d", a, b)
						}
					}
				}
			},
			"drop": func(t *rapid.T) {
				gone := special.Draw(t, "entry")
				ring.drop(func(e int32) bool { return e == gone })
				is := func(e int32) bool { return e == gone }
				h.leftHand, h.rightHand = slices.DeleteFunc(h.leftHand, is), slices.DeleteFunc(h.rightHand, is)
			},
			"count": func(t *rapid.T) {
				to := special.Draw(t, "entry")
				loops, found := 0, false
				for _, e := range h.all() {
					if found = e == to; found {
						break
					}
					if e >= 0 {
						loops++
					}
				}
				gotLoops, at, gotFound := ring.ahead(func(e int32) bool { return e == to })
				if gotLoops != loops || gotFound != found || found && at != to {
					t.Fatalf("%d loops up to %d, found %v; want %d, %v", gotLoops, at, gotFound, loops, found)
				}
			},
			"": func(t *rapid.T) {
				if a, b := ring.entries(), len(h.leftHand)+len(h.rightHand); a != b {
					t.Fatalf("%d entries, want %d", a, b)
				}
				a, okA := ring.last()
				b, okB := h.last()
				if okA != okB || okA && a != b {
					t.Fatalf("last is %d, %v; want %d, %v", a, okA, b, okB)
				}
				a, okA = ring.next()
				b, okB = h.next()
				if okA != okB || okA && a != b {
					t.Fatalf("next is %d, %v; want %d, %v", a, okA, b, okB)
				}
				var got []int32
				ring.each(func(e int32) { got = append(got, e) })
				want := h.all()
				if ring.wrong { // each goes the way of a right-side row
					h.turn()
					want = h.all()
					h.turn()
				}
				if !slices.Equal(got, want) {
					t.Fatalf("the entries are %v, want %v", got, want)
				}
			},
		})
	})
}

package sock

import (
	"sockwright/internal/pattern"
)

// longBand writes a band with at least 4 stitches at each side: rows 1 to 3, their repeat,
// and the last two rows in full, where "to m" would have nothing left to count.
func (h *bandHeel) longBand(b *Builder) {
	after := func(rows func(s int) int) pattern.Number { // stitches after so many rows
		return b.each(func(size int) int {
			return b.of("heel.stitches", size) - rows(b.of("heel.side_stitches", size))
		})
	}
	band := b.n("heel.band_stitches")
	b.row(row(1, pattern.RS), total(after(func(int) int { return 1 })),
		sl1(), k(b.each(func(size int) int { return b.of("heel.side_stitches", size) - 1 })), do(pattern.PlaceMarker), k(band), do(pattern.PlaceMarker), do(pattern.Ssk), toEnd(pattern.Knit))
	b.row(row(2, pattern.WS), change(-1),
		sl1(), toMarker(pattern.Purl), do(pattern.SlipMarker), toMarker(pattern.Purl), do(pattern.SlipMarker), do(pattern.P2tog), toEnd(pattern.Purl))
	b.row(row(3, pattern.RS), change(-1),
		sl1(), toMarker(pattern.Knit), do(pattern.SlipMarker), toMarker(pattern.Knit), do(pattern.SlipMarker), do(pattern.Ssk), toEnd(pattern.Knit))
	b.again(pattern.FlatRow, 2, b.each(func(size int) int { return b.of("heel.side_stitches", size) - 4 }), pattern.Again{
		Count: total(after(func(s int) int { return 2*s - 5 }))})
	b.oneMore(row(2, pattern.WS), pattern.Of(1), pattern.Again{Count: total(after(func(s int) int { return 2*s - 4 }))})
	h.lastRows(b)
}

// wholeRows writes the rows of a band that are worked to their end before short rows.
func (h *bandHeel) wholeRows(b *Builder) {
	band, whole := b.n("heel.band_stitches"), func(size int) int { return b.of("heel.whole_rows", size) }
	after := func(rows func(size int) int) *pattern.Count {
		return total(b.each(func(size int) int { return b.of("heel.stitches", size) - rows(size) }))
	}
	purled := on(sl1(), toMarker(pattern.Purl), do(pattern.SlipMarker), toMarker(pattern.Purl), do(pattern.SlipMarker), do(pattern.P2tog), toEnd(pattern.Purl))
	b.row(row(1, pattern.RS), after(func(int) int { return 1 }),
		sl1(), k(b.each(func(size int) int { return b.of("heel.side_stitches", size) - 1 })), do(pattern.PlaceMarker), k(band), do(pattern.PlaceMarker), do(pattern.Ssk), toEnd(pattern.Knit))
	b.row(row(2, pattern.WS), after(func(int) int { return 2 }), purled...)
	b.taking(on(sl1(), toMarker(pattern.Knit), do(pattern.SlipMarker), toMarker(pattern.Knit), do(pattern.SlipMarker), do(pattern.Ssk), toEnd(pattern.Knit)), purled,
		func(size int) int { return b.of("heel.stitches", size) - 2 }, func(size int) int { return whole(size)/2 - 1 })
}

// lastRows writes the last two rows.
func (h *bandHeel) lastRows(b *Builder) {
	band, left := b.n("heel.band_stitches"), b.n("heel.stitches_left")
	b.row(named(pattern.Next, pattern.RS), total(b.each(func(size int) int { return b.of("heel.stitches_left", size) + 1 })),
		sl1(), kN(1), do(pattern.SlipMarker), k(band), do(pattern.SlipMarker), do(pattern.Ssk))
	b.row(named(pattern.Next, pattern.WS), total(left),
		sl1(), do(pattern.SlipMarker), p(band), do(pattern.SlipMarker), do(pattern.P2tog))
}

// shortBand writes a band with 2 or 3 stitches at each side, every row in full.
func (h *bandHeel) shortBand(b *Builder, side int) {
	band := b.n("heel.band_stitches")
	count := func(rows int) *pattern.Count {
		return total(b.each(func(size int) int { return b.of("heel.stitches", size) - rows }))
	}
	first := []pattern.Step{sl1(), kN(side - 1), do(pattern.PlaceMarker), k(band), do(pattern.PlaceMarker), do(pattern.Ssk)}
	if side == 2 {
		b.row(row(1, pattern.RS), count(1), first...)
		b.row(row(2, pattern.WS), count(2), sl1(), do(pattern.SlipMarker), p(band), do(pattern.SlipMarker), do(pattern.P2tog))
		return
	}
	b.row(row(1, pattern.RS), count(1), append(first, kN(1))...)
	b.row(row(2, pattern.WS), count(2), sl1(), pN(1), do(pattern.SlipMarker), p(band), do(pattern.SlipMarker), do(pattern.P2tog), pN(1))
	h.lastRows(b)
}

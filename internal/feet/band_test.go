package feet

import (
	"math"
	"strings"
	"testing"

	"sockwright/internal/trade"
	"sockwright/internal/unit"
)

func TestBandWidthByShoe(t *testing.T) {
	for _, c := range []struct {
		system      trade.System
		first, last float64 // every half size from first to last
		inches      float64
		why         string
	}{
		{trade.USWomen, 4, 6, 1, "up to 6"},
		{trade.USWomen, 6.5, 12, 1.25, "women's US 7 to 12"},
		{trade.USWomen, 12.5, 13, 1.25, "lower half of the gap"},
		{trade.USMen, 5, 10.5, 1.25, "men's US 5 to 10"},
		{trade.USMen, 11, 11.5, 1.25, "lower half of the gap"},
		{trade.USMen, 12, 12.5, 1.5, "upper half of the gap"},
		{trade.USMen, 13, 15, 1.5, "men's US 13 and up"},
		{trade.USChild, 14.5, 16, 1, "up to 6"}, // 1.5Y to 3Y
	} {
		for size := c.first; size <= c.last; size += 0.5 {
			shoe := trade.Shoe{System: c.system, Size: size}
			width, why := BandWidthRule(shoe.FootLength())
			if width != unit.Length(c.inches)*unit.Inch || !strings.Contains(why, c.why) {
				t.Errorf("%v: %v, %s; want %g in, %s", shoe, width, why, c.inches, c.why)
			}
		}
	}
	for size := 0.0; size <= 14; size += 0.5 { // up to 1Y
		shoe := trade.Shoe{System: trade.USChild, Size: size}
		width, why := BandWidthRule(shoe.FootLength())
		if math.Abs((width-shoe.FootLength()/8).MM()) > 1e-9 || !strings.Contains(why, "one eighth") {
			t.Errorf("%v: %v, %s; want one eighth of the foot", shoe, width, why)
		}
	}
}

func TestBandWidthAtBounds(t *testing.T) {
	for _, c := range []struct{ foot, width float64 }{
		{160, 20},
		{203.1, 203.1 / 8},
		{203.2, 25.4},
		{228.5, 25.4},
		{228.6 - 1e-9, 31.75},
		{27 * (25.4 / 3), 31.75},
		{228.6, 31.75},
		{275.2, 31.75},
		{285.7, 31.75},
		{285.75, 38.1},
		{296.4, 38.1},
	} {
		width, _ := BandWidthRule(unit.Length(c.foot))
		if got := width.MM(); math.Abs(got-c.width) > 1e-9 {
			t.Errorf("BandWidthRule(%g mm) = %g mm, want %g", c.foot, got, c.width)
		}
	}
}

package trade

import (
	"strings"
	"testing"
)

func TestAbbreviationsHold(t *testing.T) {
	seen := make(map[string]bool)
	for _, a := range Abbreviations() {
		if seen[a.Short] {
			t.Errorf("%s stands twice", a.Short)
		}
		seen[a.Short] = true
		if a.Long == "" || strings.HasSuffix(a.Long, ".") || strings.TrimSpace(a.Long) != a.Long {
			t.Errorf("%s has the text %q", a.Short, a.Long)
		}
		switch a.Lean {
		case "", "left", "right", "centred":
		default:
			t.Errorf("%s leans %q", a.Short, a.Lean)
		}
		if a.Mirror == "" {
			continue
		}
		m, ok := AbbreviationByShort(a.Mirror)
		opposite := map[string]string{"left": "right", "right": "left", "centred": "centred"}
		if !ok || m.Lean != opposite[a.Lean] || m.Consumes != a.Consumes || m.Makes != a.Makes {
			t.Errorf("%s is mirrored by %s, which is %+v", a.Short, a.Mirror, m)
		}
	}
}

func TestAbbreviationByShort(t *testing.T) {
	for _, short := range strings.Split("k,p,tbl,k tbl,p tbl,sl,k2tog,p2tog,ssk,ssp,M1L,M1R,M1p,yo,kfb,pm,sm,m,"+
		"st,sts,st(s),rnd,rnds,rep,RS,WS,CO,BO,dec,inc,dec'd,inc'd,pick up and k,w&t,turn,tog,kwise,pwise,"+
		"wyib,wyif,dpn,dpns,St st,cont,rem,patt,in,cm,mm", ",") {
		if _, ok := AbbreviationByShort(short); !ok {
			t.Errorf("%s is missing", short)
		}
	}
	for _, short := range []string{"", "K2TOG", "sssk", "ks"} {
		if a, ok := AbbreviationByShort(short); ok {
			t.Errorf("AbbreviationByShort(%q) = %+v, want none", short, a)
		}
	}
	for _, want := range []Abbreviation{
		{"ssk", "slip 2 stitches one at a time as if to knit, then knit them together through the back loops", 2, 1, true, "left", "k2tog", ""},
		{"M1L", "make 1 leaning left: lift the strand between the needles from front to back and knit it through the back loop", 0, 1, true, "left", "M1R", ""},
		{"w&t", "wrap and turn: slip the next stitch, take the yarn to the other side of the work, slip the stitch back unworked and turn", 0, 0, true, "", "", ""},
		{"rep", "repeat", 0, 0, false, "", "", ""},
	} {
		got, _ := AbbreviationByShort(want.Short)
		if got.Sided = ""; got != want {
			t.Errorf("%s is %+v, want %+v", want.Short, got, want)
		}
	}
}

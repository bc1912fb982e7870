package reader_test

import (
	"slices"
	"strings"
	"testing"

	"sockwright/internal/reader"
	"sockwright/internal/script"
	"sockwright/internal/source"
)

// TestSizes: what the sizes are called, by the first lines of a text.
func TestSizes(t *testing.T) {
	for _, c := range []struct {
		text  string
		sizes []string
	}{
		{"SOCK - gusset decreases - Small (Large)", []string{"Small", "Large"}},
		{"Sock, small [medium, large]", []string{"small", "medium", "large"}},
		{"SOCK\nX-Small (Small: Medium: Extra Large)", []string{"X-Small", "Small", "Medium", "Extra Large"}},
		{"Sock for child (adult)", []string{"child", "adult"}},
		{"Sock in Small/Medium/Large", []string{"Small", "Medium", "Large"}},
		{"SIZES: Toddler, Child, Adult", []string{"Toddler", "Child", "Adult"}},
		{"Size  XS  S  M", []string{"XS", "S", "M"}},
		{"Where sizes differ, the smallest comes first and the others follow in parentheses: S (M, L).", []string{"S", "M", "L"}},
		{"Where sizes differ, the smallest comes first, the others follow.", []string{""}},
		{"SOCK, S (M, L)", []string{"S", "M", "L"}},
		{"A sock for a child\nCO 40 sts.", []string{""}},
		{"A small sock (see the large one on the next page)", []string{""}},
		{"TEASEL\nchild (woman) man\nCO 40 (48) 56 sts.", []string{"child", "woman", "man"}},
		{"TEASEL\nSizes I | II | III | IV\nCO 40 | 48 | 56 | 64 sts.", []string{"I", "II", "III", "IV"}},
		{"TEASEL, XS <S, M, L>", []string{"XS", "S", "M", "L"}},
		{"TEASEL\nXS : S : M\nCO 40 : 48 : 56 sts.", []string{"XS", "S", "M"}},
		{"TEASEL\nnarrow; medium; wide\nCO 40; 48; 56 sts.", []string{"narrow", "medium", "wide"}},
		{"TEASEL\nFor S, M, L\nCO 40, 48, 56 sts.", []string{"S", "M", "L"}},
		{"TEASEL\nDirections are for Small – Medium – Large.\nCO 40 – 48 – 56 sts.", []string{"Small", "Medium", "Large"}},
		{"TEASEL. 4 yrs {8 yrs} adult", []string{"4 yrs", "8 yrs", "adult"}},
		{"TEASEL, toes up, 36 - 39 - 42\nCO 40 - 48 - 56 sts.", []string{"36", "39", "42"}},
		{"TEASEL\nTo fit foot 22 [24, 26] cm\nCO 40 [48, 56] sts.", []string{"1", "2", "3"}},
		{"TEASEL\nTo fit 22 [24, 26] cm foot\nCO 40 [48, 56] sts.", []string{"22", "24", "26"}},
		{"TEASEL\nIn three sizes A / B / C.\nCO A 40 / B 48 / C 56 sts.", []string{"A", "B", "C"}},
		{"TEASEL\nTwo widths, narrow {wide}.", []string{"narrow", "wide"}},
		{"TEASEL\nSizes:\n- Small: foot 22 cm\n- Medium: foot 24 cm\n- Large: foot 26 cm\n\nCO 40 (48, 56) sts.", []string{"Small", "Medium", "Large"}},
		{"TEASEL\nSize 37 (39) 41 (43)", []string{"37", "39", "41", "43"}},
		{"TEASEL\n                 child   woman   man\ncast on          40      48      56", []string{"child", "woman", "man"}},
		{"TEASEL\n(Child's) Woman's [Man's]", []string{"Child's", "Woman's", "Man's"}},
		{"TEASEL\nLadies' size, with the gentlemen's size in brackets.", []string{"Ladies'", "gentlemen's"}},
		{"TEASEL\nFor shoe sizes 36/37, 38/39, 40/41.", []string{"36/37", "38/39", "40/41"}},
		{"TEASEL\nSizes are given in the order red, blue, green.", []string{"red", "blue", "green"}},
		{"TEASEL\n\n| Work | S | M |\n|------|---|---|\n| Cast on ... sts | 56 | 64 |", []string{"S", "M"}},
		{"TEASEL\nCO 40, 48, 56 sts.\nK 10, 12, 14 rnds.", []string{"1", "2", "3"}},
		{"TEASEL\nCO 40 sts.\nAll sizes: Next round: *K4(5), k2tog; rep from * to end.", []string{"1", "2"}},
		{"TEASEL\nCO 40 (48) 56 sts.\nK 10 (12) 14 rnds.", []string{"1", "2", "3"}},
		{"TEASEL\nCO 40; 48; 56 sts.\nK 10; 12; 14 rnds.", []string{"1", "2", "3"}},
		{"TEASEL\nCO 40 sts.\nRnds 1, 3, 5: k.\nRnds 2, 4, 6: p.", []string{""}},
		{"TEASEL\nCast on 56 sts. (18, 18, 20), and rib 3 ins.", []string{""}},
		{"TEASEL\nCast on 60 (20, 20, 20) sts and join.", []string{""}},
		{"TEASEL\nCO 48 sts [12, 12, 12, 12].", []string{""}},
		{"TEASEL\nCO 48 (56, 64) sts.", []string{"1", "2", "3"}},
	} {
		if have := reader.Read(source.NewFile("sock.txt", c.text)).Sizes; !slices.Equal(have, c.sizes) {
			t.Errorf("%q: %q, should be %q", c.text, have, c.sizes)
		}
	}
}

// inSizes reads lines of a pattern in three sizes, and says what their items are.
func inSizes(text string) string {
	f := source.NewFile("sock.txt", "TEASEL\nSizes S, M, L\nCO 60 sts; join.\nRnd 1: Knit.\n"+text)
	s := reader.Read(f)
	var out []string
	for _, l := range s.Lines[4:] {
		for _, it := range l.Items {
			one := item(it)
			if sizes := script.Of(it).Sizes; sizes != 0 {
				one = strings.Join(sizes.Names(s.Sizes), "+") + " " + one
			}
			out = append(out, one)
		}
	}
	for _, x := range s.Faults {
		out = append(out, "fault: "+x.Text.String())
	}
	return strings.Join(out, "; ")
}

// TestListsInAnyDress: one list of sizes in the dresses that the trade has for it.
func TestListsInAnyDress(t *testing.T) {
	for _, c := range []struct {
		is  string
		say []string
	}{
		{"row 2: k20 (22, 24), p2", []string{
			"Rnd 2: K20 (22, 24), p2.",
			"Rnd 2: K(20) 22 [24], p2.",
			"Rnd 2: K20 (22) 24, p2.",
			"Rnd 2: K20 {22} 24, p2.",
			"Rnd 2: K20 <22, 24>, p2.",
			"Rnd 2: K20 [22] [24], p2.",
			"Rnd 2: K20 (22) [24], p2.",
			"Rnd 2: K20 [22 24], p2.",
			"Rnd 2: K20, 22, 24, p2.",
			"Rnd 2: K20, 22 and 24, p2.",
			"Rnd 2: K20; 22; 24, p2.",
			"Rnd 2: K20/22/24, p2.",
			"Rnd 2: K20 | 22 | 24, p2.",
			"Rnd 2: K20 : 22 : 24, p2.",
			"Rnd 2: K20 – 22 – 24, p2.",
			"Rnd 2: K S 20 / M 22 / L 24, p2.",
			"Rnd 2: K S: 20, M: 22, L: 24, p2.",
			"Rnd 2: K20 (S), 22 (M), 24 (L), p2.",
			"Rnd 2: K20 for S, 22 for M and 24 for L, p2.",
			"Rnd 2: K20 sts (22 sts, 24 sts), p2.",
			"Rnd 2: K20 sts / 22 sts / 24 sts, p2.",
		}},
		{"plain stockinette until a length", []string{
			"Work in st st until piece measures 2 - 2 1/2 - 2½ ins.",
			"Work in st st until piece measures 5 cm (6 cm, 6.5 cm).",
			"Work in st st until piece measures 5 cm / 6 cm / 6.5 cm.",
			"Work in st st until piece measures 2\" [2½\", 2½\"].",
			"Work in st st until piece measures 2 in for size S, 2½ in for size M and 2½ in for size L.",
		}},
		{"row 2: k20 (–, 24), p2", []string{
			"Rnd 2: K20 (-, 24), p2.",
			"Rnd 2: K20 (–) 24, p2.",
			"Rnd 2: K20/-/24, p2.",
			"Rnd 2: K20 | x | 24, p2.",
			"Rnd 2: K20; none; 24, p2.",
		}},
		{"plain  for 2 (3, 4) rows", []string{
			"K 2/3/4 rnds.",
			"K 2 (3/4) rnds.",
			"K 2 - 3 - 4 rnds.",
			"Knit 2 rounds, 3 rounds, 4 rounds.",
		}},
		{"repeat last 2 8 (8, 9) times", []string{
			"Rep the last 2 rnds 8 - 8 - 9 times.",
			"Rep the last 2 rnds 8, 8, 9 times.",
			"Rep the last 2 rnds 8 {8} 9 times.",
		}},
		{"row 2: k2; row 2: k2 (4), p2; fault: the list has 2 figures, but there are 3 sizes", []string{
			"Rnd 2: K2.\nRnd 2: K2 (4), p2.",
		}},
		{"row 1 3 5: k to end", []string{
			"Rnds 1, 3, 5: K.",
			"Rnds 1, 3 and 5: Knit.",
		}},
		{"row: k20, p2; row: p4, k2", []string{
			"Next rnd: K20, p2.\nNext rnd: P4, k2.",
		}},
	} {
		for _, text := range c.say {
			if have := inSizes(text); have != c.is {
				t.Errorf("%s\n  is read as %s\n  should be  %s", text, have, c.is)
			}
		}
	}
}

// TestToldBySize: what is told for some of the sizes only.
func TestToldBySize(t *testing.T) {
	for _, c := range []struct {
		is  string
		say []string
	}{
		{"S row: k14, inc; M row: k to end; L row: k11, dec; state (60 (60, 60))", []string{
			"Set-up rnd. S: k14, m1. M: k. L: k11, k2tog. Now 60, 60, 60 sts.",
			"Set-up rnd: S: k14, m1; M: k; L: k11, k2tog. Now 60, 60, 60 sts.",
			"Set-up rnd: Size S: k14, m1. Size M: k. Size L: k11, k2tog. Now 60, 60, 60 sts.",
			"Set-up rnd: For size S: k14, m1. For size M: k. For size L: k11, k2tog. Now 60, 60, 60 sts.",
			"Set-up rnd: Size S only: k14, m1. Size M only: k. Size L only: k11, k2tog. Now 60, 60, 60 sts.",
			"Next rnd: smallest size: k14, m1. Middle size: k. Largest size: k11, k2tog. Now 60, 60, 60 sts.",
		}},
		{"S+M row: k14, inc", []string{
			"Sizes S and M only: k14, m1.",
			"Sizes S, M only: k14, m1.",
			"S and M only: k14, m1.",
			"(Sizes S and M only) k14, m1.",
			"For sizes S and M: k14, m1.",
			"For the first and second sizes only, k14, m1.",
			"1st and 2nd sizes: k14, m1.",
			"Sizes S/M only: k14, m1.",
			"Two youngest sizes only: k14, m1.",
			"Two smaller sizes only: k14, m1.",
			"K14, m1 (sizes S and M only).",
		}},
		{"L row: k14, inc", []string{
			"Largest size only: k14, m1.",
			"For the largest size, k14, m1.",
			"L: k14, m1.",
			"L only: k14, m1.",
			"Last size only: k14, m1.",
			"3rd size only: k14, m1.",
			"(largest size only) k14, m1.",
			"K14, m1 (largest size only).",
		}},
	} {
		for _, text := range c.say {
			if have := inSizes(text); have != c.is {
				t.Errorf("%s\n  is read as %s\n  should be  %s", text, have, c.is)
			}
		}
	}
}

// TestTables: rows of a table, with the figures of the sizes behind what is told.
func TestTables(t *testing.T) {
	for _, c := range []struct{ row, is string }{
		{"cast on, join            40   48   56", "caston"},
		{"rib k2 p2, rounds        10   12   14", "plain rib for 10 (12, 14) rows"},
		{"plain rounds             40   44   48", "plain  for 40 (44, 48) rows"},
		{"Knit __ rounds           40   44   48", "plain  for 40 (44, 48) rows"},
		{"Knit ... rounds        | 40 | 44 | 48 |", "plain  for 40 (44, 48) rows"},
		{"| Knit … rounds        | 40 | 44 | 48 |", "plain  for 40 (44, 48) rows"},
		{"heel sts, the first half of the round   20   24   28", "divide 20 (24, 28)"},
		{"turn heel: k __, ssk, turn   15   17   19", "section turn heel; row: k15 (17, 19), dec, turn"},
		{"sts in the round         40   48   56", "state (40 (48, 56) in all)"},
		{"Next rnd: k __, p2.      38    -   54", "row: k38 (–, 54), p2"},
	} {
		if have := inSizes(c.row); have != c.is {
			t.Errorf("%s\n  is read as %s\n  should be  %s", c.row, have, c.is)
		}
	}
}

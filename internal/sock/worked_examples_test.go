package sock_test

// Facts and figures of published socks, counted again. The sources without a title are how-to
// and magazine articles on making socks; those names say what the sock is, not what it was
// called.

// narrow is a round that narrows a leg at both sides of its back, with plain rounds behind
// it.
const narrow = "K1, ssk, k to last 3 sts, k2tog, k1. 2 sts dec'd."

var workedExamples = []worked{
	{
		name:   "V heel on 31 of 61, foot of 60",
		source: "service sock, Handbook of Wool Knitting and Crochet, Needlecraft Publishing Company, 1918",
		pieces: []piece{
			round(68, `Arrange the sts: 24 on N1, 24 on N2, 20 on N3.
Rnd 1: *K2, p2; rep from * to end. 68 sts.
Rnd 2: K to end, M1L. 69 sts.
Rnd 3: `+narrow+`
Knit 5 rnds.
Work the last 6 rnds 3 more times. 26 rnds in all. 61 sts.`, 61),
			made{leg: []int{62}, heel: []int{31}, more: "[heel]\nkind = \"v\"", turn: [][]int{{15, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14}},
				want: map[string][]int{"heel.turn_rows": {14}, "heel.stitches_left": {17}}},
			needled{heel: 16, picked: 17, instep: 30, first: [3]int{25, 30, 25}, rounds: 10, last: [3]int{15, 30, 15},
				toe: [3]int{15, 30, 15}, plain: []int{2, 2, 2, 2, 1, 1, 1, 0, 0, 0, 0, 0, 0}, counts: []int{56, 52, 48, 44, 40, 36, 32, 28, 24, 20, 16, 12, 8}, all: 24},
		},
		left: []string{
			"a whole sock of 61: a heel of 31 over an instep of 30 cannot be made equal halves for a toe by moving as many stitches left as right, which ours are",
			"the 25 rows of the flap, an odd number: ours begin on the right side and end after a row on the wrong one",
			"the 17th of the stitches left, which is narrowed away while picking up",
		},
	},
	{
		name:   "round heel on 28 of 57, gusset at two rates",
		source: "stocking with a fancy top, Cycling and Shooting Knickerbocker Stockings, Macmillan, 1896",
		pieces: []piece{
			round(78, `Arrange the sts: 26 on N1, 26 on N2, 26 on N3.
Rnd 1: *K11, k2tog; rep from * to last 52 sts, k to end. 76 sts.
Rnd 2: K1, M1R, k to last st, M1L, k1. 2 sts inc'd.
Knit 5 rnds.
Work the last 6 rnds 2 more times. 82 sts.
Rnd 8: K1, ssk, k to last 3 sts, k2tog, k1. 2 sts dec'd.
Knit 4 rnds.
Work the last 5 rnds 3 more times. 74 sts.
Rnd 13: K2tog, k to end. 1 st dec'd.
Knit 2 rnds.
Work the last 3 rnds 15 more times. 58 sts.
Rnd 14: K2tog, k to end. 57 sts.`, 57),
			made{leg: []int{56}, heel: []int{28}, flap: []int{30}, more: "[heel]\nkind = \"round\"\n[gusset]\ncorner_stitches = 2\nrate = \"four-then-2nd\"", turn: [][]int{{15, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 14}},
				want: map[string][]int{"heel.turn_rows": {12}, "heel.stitches_left": {16}, "heel.edge_chains": {15}, "gusset.pick_up_per_side": {17}, "gusset.decrease_rounds": {11}}},
			needled{heel: 16, picked: 17, instep: 29, first: [3]int{27, 25, 27}, run: 4, rounds: 11, last: [3]int{16, 25, 16},
				toe: [3]int{14, 28, 14}, plain: []int{3, 3, 3, 2, 2, 0, 0, 0, 0, 0}, counts: []int{52, 48, 44, 40, 36, 32, 28, 24, 20, 16}, all: 23},
		},
		left: []string{"a whole sock of 57: our rounds are even, so that the toe can be grafted; it takes a stitch away before its toe"},
	},
	{
		name:   "lop-sided turn on 29 of 56",
		source: "stocking with a plain top, Cycling and Shooting Knickerbocker Stockings, Macmillan, 1896",
		pieces: []piece{
			round(77, `Arrange the sts: 28 on N1, 28 on N2, 21 on N3.
Rnd 1: *K5, p2; rep from * to end. 77 sts.
Rnd 2: [K3, M1L] 9 times, k to end. 86 sts.
Rnd 3: K2tog, k to end. 1 st dec'd.
Rnd 4: Knit.
Work the last 2 rnds 29 more times. 62 rnds in all. 56 sts.`, 56),
			flat(56, 29, `Row 1 (RS): Sl 1, k15, k2tog, k1, turn. 28 sts.
Row 2 (WS): Sl 1, p5, p2tog, p1, turn. 27 sts.
Row 3 (RS): Sl 1, k to 1 st before gap, k2tog, k1, turn. 1 st dec'd.
Row 4 (WS): Sl 1, p to 1 st before gap, p2tog, p1, turn. 1 st dec'd.
Work the last 2 rows 3 more times. 10 rows in all. 19 sts.
Row 11 (RS): Sl 1, k14, k2tog, k1, turn. 18 sts.
Row 12 (WS): Sl 1, p15, p2tog. 17 sts.`, 17),
			made{leg: []int{58}, heel: []int{29}, more: "[heel]\nkind = \"half-handkerchief\"", turn: [][]int{{15, 4}},
				want: map[string][]int{"heel.turn_rows": {12}, "heel.stitches_left": {17}}},
			needled{heel: 17, picked: 17, instep: 27, first: [3]int{27, 23, 28}, run: 4, rounds: 11, last: [3]int{16, 23, 17},
				toe: [3]int{14, 28, 14}, plain: []int{3, 3, 3, 2, 2, 0, 0, 0, 0, 0}, counts: []int{52, 48, 44, 40, 36, 32, 28, 24, 20, 16}, all: 23},
		},
		left: []string{"the lop-sided turn as a construction: ours leave as many waiting on the left as on the right, and purl 4 in row 2"},
	},
	{
		name:   "square heel on 40 of 80, foot of 76",
		source: "Lichfield Mercury, 12 March 1915",
		pieces: []piece{
			made{leg: []int{80}, heel: []int{40}, flap: []int{34}, more: "[heel]\nkind = \"square\"\nmiddle = 0.3\n[gusset]\ncorner_stitches = 0\nfoot_stitches = -4", pin: "\"toe.stitches_left\" = 16\n",
				picked: [3][]int{{23}, {40}, {23}}, last: [3][]int{{18}, {40}, {18}}, toe: []int{72, 68, 64, 60, 56, 52, 48, 44, 40, 36, 32, 28, 24, 20, 16},
				want: map[string][]int{"heel.band_stitches": {12}, "heel.stitches_left": {12}, "gusset.pick_up_per_side": {17}, "gusset.stitches": {86}, "gusset.decrease_rounds": {5}, "foot.stitches": {76}}},
		},
		left: []string{"the flap of 2½ in, whose rows are not told: the 17 stitches picked up are those of 34"},
	},
	{
		name:   "handkerchief heel without slips on 42 of 76",
		source: "Auckland Star, 13 July 1940",
		pieces: []piece{
			made{leg: []int{76}, heel: []int{42}, flap: []int{42}, more: "[heel]\nkind = \"half-handkerchief\"\nform = \"unslipped\"\n[gusset]\ncorner_stitches = 0", pin: "\"heel.waiting_stitches\" = 14\n\"toe.stitches_left\" = 16\n",
				picked: [3][]int{{34}, {34}, {34}},
				want:   map[string][]int{"heel.turn_rows": {16}, "heel.stitches_left": {26}, "heel.edge_chains": {21}, "gusset.stitches": {102}, "gusset.decrease_rounds": {13}, "foot.stitches": {76}}},
		},
		left: []string{"the cast-on of 70, which is no multiple of the rib and not what the needles hold; 76 fits every number after it"},
	},
	{
		name:   "round heel, 3 past the center, on 26 of 52",
		source: "Guide to Knitting for the Services, Australian Comforts Fund, 1940",
		pieces: []piece{
			made{leg: []int{52}, heel: []int{26}, flap: []int{26}, more: "[heel]\nkind = \"round\"\npast = 3", pin: "\"toe.stitches_left\" = 12\n",
				toe:  []int{48, 44, 40, 36, 32, 28, 24, 20, 16, 12},
				want: map[string][]int{"heel.stitches_left": {16}, "gusset.pick_up_per_side": {14}, "gusset.stitches": {70}, "gusset.decrease_rounds": {9}, "foot.stitches": {52}}},
		},
		left: []string{"the flap of 2½ in, whose rows are not told: as many as heel stitches are taken"},
	},
	{
		name:   "round heel on 34 of 68",
		source: "wartime Canadian sock sheet",
		pieces: []piece{
			made{leg: []int{68}, heel: []int{34}, flap: []int{34}, more: "[heel]\nkind = \"round\"", pin: "\"toe.stitches_left\" = 16\n",
				toe:  []int{64, 60, 56, 52, 48, 44, 40, 36, 32, 28, 24, 20, 16},
				want: map[string][]int{"heel.stitches_left": {20}, "heel.edge_chains": {17}, "gusset.pick_up_per_side": {18}, "gusset.stitches": {90}, "gusset.decrease_rounds": {11}, "foot.stitches": {68}}},
		},
	},
	{
		name:   "round heel on 28 of 60, foot of 56, round toe",
		source: "Knitting Instructions for Field Comforts, Imperial Order Daughters of the Empire, Toronto, 1939",
		pieces: []piece{
			made{leg: []int{60}, heel: []int{28}, flap: []int{26}, more: "[heel]\nkind = \"round\"\n[gusset]\ncorner_stitches = 0\nfoot_stitches = -4\n[toe]\nkind = \"round\"",
				picked: [3][]int{{21}, {32}, {21}}, last: [3][]int{{12}, {32}, {12}}, toe: []int{48, 40, 32, 24, 16, 8},
				want: map[string][]int{"heel.turn_rows": {12}, "heel.stitches_left": {16}, "heel.edge_chains": {13}, "gusset.stitches": {74}, "gusset.decrease_rounds": {9}, "foot.stitches": {56}, "toe.rounds": {21}}},
			needled{heel: 16, picked: 13, instep: 32, first: [3]int{23, 28, 23}, rounds: 9, last: [3]int{14, 28, 14}},
		},
	},
	{
		name:   "round heel, 1 past the center, on 28 of 56",
		source: "Red Cross sock directions, First World War",
		pieces: []piece{
			round(64, "Rnd 1: "+narrow+"\nRnd 2: Knit.\nWork the last 2 rnds 3 more times. 56 sts.", 56),
			round(60, "Rnd 1: "+narrow+"\nRnd 2: Knit.\nWork the last 2 rnds 3 more times. 52 sts.", 52),
			made{leg: []int{56}, heel: []int{28}, flap: []int{30}, more: "[heel]\nkind = \"half-handkerchief\"", pin: "\"toe.stitches_left\" = 12\n",
				toe:  []int{52, 48, 44, 40, 36, 32, 28, 24, 20, 16, 12},
				want: map[string][]int{"heel.stitches_left": {16}, "heel.edge_chains": {15}, "gusset.pick_up_per_side": {16}, "gusset.stitches": {76}, "gusset.decrease_rounds": {10}, "foot.stitches": {56}}},
		},
		left: []string{
			"the stitch in the middle of 28: an even number has none",
			"14 to 16 stitches picked up, as the knitter finds them: 15 and one of the corner are held",
			"the rounds between the narrowings of the leg",
		},
	},
	{
		name:   "square heel with a band of 16 on 32 of 64",
		source: "mid-century leaflet, ski sock",
		pieces: []piece{
			made{leg: []int{64}, heel: []int{32}, flap: []int{32}, more: "[heel]\nkind = \"square\"\nmiddle = 0.5\n[gusset]\ncorner_stitches = 0",
				picked: [3][]int{{24}, {32}, {24}}, last: [3][]int{{16}, {32}, {16}},
				want: map[string][]int{"heel.band_stitches": {16}, "heel.stitches_left": {16}, "gusset.stitches": {80}, "gusset.decrease_rounds": {8}, "foot.stitches": {64}}},
		},
		left: []string{"the end of the wedge toe, which was not read"},
	},
	{
		name:   "round heel on 32 (34) of 64 (68), short flap",
		source: "mid-century leaflet, cabled clock",
		pieces: []piece{
			made{leg: []int{64, 68}, heel: []int{32, 34}, flap: []int{28, 28}, more: "[heel]\nkind = \"round\"\n[gusset]\ncorner_stitches = 2", turn: [][]int{{17, 5}, {18, 5}},
				want: map[string][]int{"heel.stitches_left": {18, 20}, "heel.edge_chains": {14, 14}, "gusset.pick_up_per_side": {16, 16}}},
		},
		left: []string{
			"row 1 of the turn, which works one stitch too few in both sizes: 12 wait on one side and 10 on the other, or 13 and 11",
			"18 stitches left in both sizes: the larger heel leaves 20",
		},
	},
	{
		name:   "V heel on 25 of 50 below a leg of 80",
		source: "sea-boot stocking, Wartime Handknits, 1947",
		pieces: []piece{
			made{leg: []int{50}, heel: []int{25}, flap: []int{32}, more: "[leg]\nkind = \"calf\"\n[heel]\nkind = \"v\"\n[gusset]\ncorner_stitches = 0\n[toe]\nkind = \"round\"\nsections = 5", pin: "\"calf.stitches\" = 80\n",
				picked: [3][]int{{23}, {25}, {22}}, last: [3][]int{{13}, {25}, {12}},
				want: map[string][]int{"cuff.stitches": {80}, "heel.stitches_left": {13}, "gusset.stitches": {70}, "gusset.decrease_rounds": {10}, "foot.stitches": {50}}},
		},
		left: []string{"28 and 29 stitches on the needles beside the instep: with 16 picked up they hold 22 and 23"},
	},
	{
		name:   "round heel, 3 past the center, on 36 of 72",
		source: "Manchester Courier, 28 November 1914",
		pieces: []piece{
			made{leg: []int{72}, heel: []int{36}, flap: []int{36}, more: "[heel]\nkind = \"round\"\npast = 3", pin: "\"toe.stitches_left\" = 16\n",
				toe:  []int{68, 64, 60, 56, 52, 48, 44, 40, 36, 32, 28, 24, 20, 16},
				want: map[string][]int{"heel.stitches_left": {22}, "gusset.pick_up_per_side": {19}, "gusset.stitches": {96}, "gusset.decrease_rounds": {12}, "foot.stitches": {72}}},
		},
		left: []string{"the flap of 3 in, whose rows are not told: as many as heel stitches are taken"},
	},
	{
		name:   "common heel shaped beside a middle stitch, on 41 of 81",
		source: "Peterson's Magazine, 1861",
		pieces: []piece{
			flat(81, 41, `Row 1 (RS): Sl 1, k17, k2tog, k1, ssk, k to end. 39 sts.
Row 2 (WS): Sl 1, p to end. 39 sts.
Row 3 (RS): Sl 1, k16, k2tog, k1, ssk, k to end. 37 sts.
Row 4 (WS): Sl 1, p to end. 37 sts.
Row 5 (RS): Sl 1, k15, k2tog, k1, ssk, k to end. 35 sts.
Row 6 (WS): Sl 1, p to end. 35 sts.
Row 7 (RS): Sl 1, k14, k2tog, k1, ssk, k to end. 33 sts.
Row 8 (WS): Sl 1, p to end. 33 sts.
Row 9 (RS): Sl 1, k13, k2tog, k1, ssk, k to end. 31 sts.
Row 10 (WS): Sl 1, p to end. 31 sts.`, 31),
		},
		left: []string{"the join and what comes after it: a heel of 41 has a middle stitch that belongs to neither half, and ours are joined half to half"},
	},
	{
		name:   "leg of 85 to 65, heel of 33",
		source: "a rhyme of about 1885, worked by hand",
		pieces: []piece{
			round(85, "Rnd 1: "+narrow+"\nRnd 2: Knit.\nWork the last 2 rnds 9 more times. 65 sts.", 65),
			flat(65, 33, "Row 1 (RS): Sl 1, k to end. 33 sts.\nRow 2 (WS): Sl 1, p to end. 33 sts.", 33),
		},
		left: []string{"a whole sock of 65: a heel of 33 over an instep of 32 is not made equal halves by moving as many stitches left as right", "the rounds between the narrowings"},
	},
	{
		name:   "leg of 120 to 96",
		source: "plaid stocking, Weldon's Practical Stocking Knitter, 1885",
		pieces: []piece{
			made{leg: []int{96}, more: "[leg]\nkind = \"calf\"", pin: "\"calf.stitches\" = 120\n", want: map[string][]int{"cuff.stitches": {120}, "calf.shaping_rounds": {12}, "foot.stitches": {96}}},
		},
		left: []string{"heel, gusset and foot, of which no number was read"},
	},
	{
		name:   "leg of 112 less 16, foot of 92",
		source: "knickerbocker stocking, The Lady's Knitting-Book, Hatchards, 1874",
		pieces: []piece{
			round(112, "Rnd 1: "+narrow+"\nRnd 2: Knit.\nWork the last 2 rnds 7 more times. 96 sts.", 96),
			made{leg: []int{96}, flap: []int{42}, more: "[heel]\nkind = \"round\"\n[gusset]\nfoot_stitches = -4\ncorner_stitches = 0", want: map[string][]int{"heel.edge_chains": {21}, "foot.stitches": {92}}},
		},
		left: []string{"94 stitches at the ankle: 112 less 16 are 96"},
	},
	{
		name:   "round heel on 28 of 56, toe gathered from 8",
		source: "how-to article",
		pieces: []piece{
			made{leg: []int{56}, heel: []int{28}, flap: []int{28}, more: "[heel]\nkind = \"round\"\n[gusset]\ncorner_stitches = 0\n[toe]\nclosing = \"gather\"", pin: "\"toe.stitches_left\" = 8\n",
				turn: [][]int{{15, 5}}, picked: [3][]int{{22}, {28}, {22}}, last: [3][]int{{14}, {28}, {14}}, toe: []int{52, 48, 44, 40, 36, 32, 28, 24, 20, 16, 12, 8},
				want: map[string][]int{"heel.turn_rows": {12}, "heel.stitches_left": {16}, "heel.edge_chains": {14}, "gusset.stitches": {72}, "gusset.decrease_rounds": {8}, "foot.stitches": {56}, "toe.rounds": {19}}},
		},
	},
	{
		name:   "round heel on 16 of 32, child",
		source: "how-to article",
		pieces: []piece{
			made{leg: []int{32}, heel: []int{16}, flap: []int{16}, more: "[heel]\nkind = \"round\"\n[toe]\nkind = \"round\"", turn: [][]int{{9, 5, 6, 7, 8, 8}},
				want: map[string][]int{"heel.stitches_left": {10}, "gusset.pick_up_per_side": {9}, "gusset.stitches": {44}, "gusset.decrease_rounds": {6}, "foot.stitches": {32}}},
			made{leg: []int{32}, heel: []int{16}, flap: []int{16}, more: "[heel]\nkind = \"round\"", toe: []int{28, 24, 20, 16, 12, 8}},
		},
		left: []string{"the last row of the turn as printed, p9: 8 stitches lie before the gap"},
	},
	{
		name:   "half-handkerchief heel on 14 of 28, toddler",
		source: "how-to article",
		pieces: []piece{
			made{leg: []int{28}, heel: []int{14}, flap: []int{18}, more: "[heel]\nkind = \"half-handkerchief\"\n[gusset]\ncorner_stitches = 0", picked: [3][]int{{13}, {14}, {13}}, last: [3][]int{{7}, {14}, {7}},
				want: map[string][]int{"heel.stitches_left": {8}, "gusset.pick_up_per_side": {9}, "gusset.stitches": {40}, "gusset.decrease_rounds": {6}, "foot.stitches": {28}}},
		},
		left: []string{"15 or 17 rows of the flap, odd numbers: ours has the 18 that 9 stitches belong to"},
	},
	{
		name:   "handkerchief heel without slips on 22 of 46, toe of 24",
		source: "how-to article",
		pieces: []piece{
			round(44, "Rnd 1: *K22, M1L; rep from * to end. 46 sts.", 46),
			made{leg: []int{44}, heel: []int{22}, more: "[heel]\nkind = \"half-handkerchief\"\nform = \"unslipped\"", turn: [][]int{{12, 3, 4, 5, 6, 7, 8, 9, 10, 11}},
				want: map[string][]int{"heel.waiting_stitches": {8}, "heel.turn_rows": {10}, "heel.stitches_left": {12}}},
			needled{heel: 12, picked: 12, instep: 24, first: [3]int{18, 24, 18}, rounds: 8, last: [3]int{10, 24, 10},
				toe: [3]int{11, 22, 11}, plain: []int{2, 2, 2, 2, 2}, counts: []int{40, 36, 32, 28, 24}, all: 15},
		},
		left: []string{
			"a whole sock of 46 on a heel of 22: 24 of the instep and 22 of the heel are not made equal by moving as many left as right; it moves them after the gusset, to 22 and 22",
			"the 17 rows of the flap, an odd number",
		},
	},
	{
		name:   "square heel with a band of 10 on 28 of 56",
		source: "how-to article",
		pieces: []piece{
			made{leg: []int{56}, heel: []int{28}, flap: []int{28}, more: "[heel]\nkind = \"square\"\nmiddle = 0.36\n[gusset]\ncorner_stitches = 0", picked: [3][]int{{19}, {28}, {19}}, last: [3][]int{{14}, {28}, {14}},
				want: map[string][]int{"heel.band_stitches": {10}, "heel.stitches_left": {10}, "gusset.pick_up_per_side": {14}, "gusset.stitches": {66}, "gusset.decrease_rounds": {5}, "foot.stitches": {56}}},
		},
	},
	{
		name:   "square heel with a band of 8 on 20 of 40",
		source: "how-to article, sample sock",
		pieces: []piece{
			made{leg: []int{40}, heel: []int{20}, flap: []int{22}, more: "[heel]\nkind = \"square\"\nmiddle = 0.4", picked: [3][]int{{16}, {20}, {16}}, last: [3][]int{{10}, {20}, {10}},
				want: map[string][]int{"heel.stitches_left": {8}, "heel.edge_chains": {11}, "gusset.pick_up_per_side": {12}, "gusset.stitches": {52}, "gusset.decrease_rounds": {6}, "foot.stitches": {40}}},
		},
	},
	{
		name:   "square heel with a band of 7 on 21 of 39 (42), child",
		source: "how-to article",
		pieces: []piece{
			needled{heel: 7, picked: 11, instep: 18, first: [3]int{15, 18, 14}, rounds: 4, last: [3]int{11, 18, 10}},
			made{leg: []int{42}, heel: []int{21}, flap: []int{24}, more: "[heel]\nkind = \"square\"\n[gusset]\ncorner_stitches = 0", picked: [3][]int{{16}, {21}, {15}}, last: [3][]int{{11}, {21}, {10}},
				want: map[string][]int{"heel.band_stitches": {7}, "heel.stitches_left": {7}, "gusset.pick_up_per_side": {12}, "gusset.stitches": {52}, "gusset.decrease_rounds": {5}, "foot.stitches": {42}}},
		},
		left: []string{"a whole sock of 39: our rounds are even, so that the toe can be grafted", "the flap of 2¼ (2½) in, whose rows are not told: they are those of 11 (12) stitches"},
	},
	{
		name:   "from the toe up: 20 to 64, short-row heel on 32",
		source: "magazine article",
		pieces: []piece{
			made{leg: []int{64}, heel: []int{32}, more: "direction = \"toe-up\"\n[heel]\nkind = \"wrapped\"", pin: "\"toe.stitches_left\" = 20\n",
				toe:  []int{24, 28, 32, 36, 40, 44, 48, 52, 56, 60, 64},
				want: map[string][]int{"heel.stitches_left": {32}, "foot.stitches": {64}}, works: [2]string{"Heel", "31 30 29 28 27 26 25 24 23 22 21 20 19 18 17 16 15 14 13 12 11 10"}},
		},
		left: []string{"how many stitches its short rows leave in the middle, which was not read: ours leave a third"},
	},
	{
		name:   "from the toe up: 20 (22) to 60 (70), gusset of 8 (9) a side",
		source: "magazine article",
		pieces: []piece{
			made{leg: []int{60}, more: "direction = \"toe-up\"\n[heel]\nkind = \"cup\"\nheight = 0.6", pin: "\"toe.stitches_left\" = 20\n\"heel.flap_rows\" = 16\n",
				toe:  []int{24, 28, 32, 36, 40, 44, 48, 52, 56, 60},
				want: map[string][]int{"heel.gusset_stitches": {8}, "gusset.rounds": {16}}, works: [2]string{"Gusset", "62 62 64 64 66 66 68 68 70 70 72 72 74 74 76 76"}},
			made{leg: []int{70}, more: "direction = \"toe-up\"\n[heel]\nkind = \"cup\"\nheight = 0.6", pin: "\"toe.stitches_left\" = 22\n\"heel.flap_rows\" = 18\n",
				toe:  []int{26, 30, 34, 38, 42, 46, 50, 54, 58, 62, 66, 70},
				want: map[string][]int{"heel.gusset_stitches": {9}, "gusset.rounds": {18}}, works: [2]string{"Gusset", "72 72 74 74 76 76 78 78 80 80 82 82 84 84 86 86 88 88"}},
		},
		left: []string{"76 and 88 stitches on four needles, 15, 16, 22, 23 and 18, 17, 27, 26: ours lie on two"},
	},
	{
		name:   "round heel on 32 of 64, short-row toe to 8",
		source: "how-to article",
		pieces: []piece{
			made{leg: []int{64}, heel: []int{32}, flap: []int{32}, more: "[heel]\nkind = \"round\"\n[gusset]\ncorner_stitches = 2\n[toe]\nkind = \"short-row\"\nmiddle = 0.25",
				turn: [][]int{{17, 5}}, picked: [3][]int{{27}, {32}, {27}}, last: [3][]int{{16}, {32}, {16}},
				want:  map[string][]int{"heel.stitches_left": {18}, "gusset.pick_up_per_side": {18}, "gusset.stitches": {86}, "gusset.decrease_rounds": {11}, "foot.stitches": {64}, "toe.middle_stitches": {8}, "toe.turns": {12}, "toe.rounds": {24}},
				works: [2]string{"Toe", "31 30 29 28 27 26 25 24 23 22 21 20 19 18 17 16 15 14 13 12 11 10 9 8"}},
		},
	},
	{
		name:   "68 to 64, square turn on 32",
		source: "how-to article",
		pieces: []piece{
			round(68, "Rnd 1: *K15, k2tog; rep from * to end. 64 sts.", 64),
			made{leg: []int{64}, heel: []int{32}, more: "[heel]\nkind = \"square\"", turn: [][]int{{19, 8}}, want: map[string][]int{"heel.band_stitches": {10}, "heel.stitches_left": {10}}},
			flat(64, 32, `Row 1 (RS): Sl 1, k19, k2tog, turn. 31 sts.
Row 2 (WS): Sl 1, p9, p2tog, turn. 30 sts.
Row 3 (RS): Sl 1, k9, k2tog, turn. 1 st dec'd.
Row 4 (WS): Sl 1, p9, p2tog, turn. 1 st dec'd.
Work the last 2 rows 8 more times. 20 rows in all. 12 sts.
Row 21 (RS): Sl 1, k9, k2tog. 11 sts.`, 11),
		},
		left: []string{"10 stitches left by the printed rows: 10 and 9 wait, and after row 21 none does, with 11 left"},
	},
	{
		name:   "60 (64, 72), last row of a turn",
		source: "service booklet adapted for its centenary",
		pieces: []piece{
			flat(60, 21, "Row 1 (RS): Sl 1, k to end. 21 sts.\nRow 2 (WS): Sl 1, p17, p2tog, p1. 20 sts.", 20),
			flat(72, 22, "Row 1 (RS): Sl 1, k to end. 22 sts.\nRow 2 (WS): Sl 1, p18, p2tog, p1. 21 sts.", 21),
		},
		left: []string{"24 stitches in the third size: its last row leaves 21", "everything before and behind that row, which was not read"},
	},
	{
		name:   "round heel on 22 (24, 28, 30, 32), five sizes at once",
		source: "Australian Knitting, vol. 9 no. 2, 2017",
		pieces: []piece{
			made{leg: []int{44, 48, 56, 60, 64}, heel: []int{22, 24, 28, 30, 32}, flap: []int{22, 24, 28, 30, 32}, more: "[heel]\nkind = \"round\"\n[gusset]\ncorner_stitches = 0",
				turn: [][]int{{12, 5}, {13, 5}, {15, 5}, {16, 5}, {17, 5}},
				want: map[string][]int{"heel.stitches_left": {14, 14, 16, 18, 18}, "gusset.pick_up_per_side": {11, 12, 14, 15, 16}, "gusset.stitches": {58, 62, 72, 78, 82}, "gusset.decrease_rounds": {7, 7, 8, 9, 9}, "foot.stitches": {44, 48, 56, 60, 64}}},
		},
	},
	{
		name:   "round heel, 3 past the center, on 20 of 50, child",
		source: "how-to article",
		pieces: []piece{
			made{leg: []int{40}, heel: []int{20}, flap: []int{20}, more: "[heel]\nkind = \"round\"\npast = 3", want: map[string][]int{"heel.stitches_left": {14}, "heel.edge_chains": {10}}},
		},
		left: []string{"a heel of 20 in a round of 50: 30 of the instep and 20 are not made equal by moving as many left as right"},
	},
	{
		name:   "square heel on 17 of 30, baby",
		source: "how-to article",
		pieces: []piece{
			round(34, "Rnd 1: *K1, p1; rep from * to end. 34 sts.\nRnd 2: K2tog, k7, k2tog, k6, k2tog, k7, k2tog, k6. 30 sts.", 30),
			made{leg: []int{30}, heel: []int{17}, flap: []int{16}, more: "[heel]\nkind = \"square\"\nmiddle = 0.53\n[gusset]\ncorner_stitches = 0\nfoot_stitches = -4", picked: [3][]int{{13}, {13}, {12}}, last: [3][]int{{7}, {13}, {6}},
				want: map[string][]int{"heel.band_stitches": {9}, "heel.stitches_left": {9}, "heel.turn_rows": {8}, "gusset.pick_up_per_side": {8}, "gusset.stitches": {38}, "gusset.decrease_rounds": {6}, "foot.stitches": {26}}},
			flat(30, 17, `Row 1 (RS): K12, skp, turn. 16 sts.
Row 2 (WS): P8, p2tog, turn. 15 sts.
Row 3 (RS): K8, skp, turn. 14 sts.
Row 4 (WS): P8, p2tog, turn. 13 sts.
Row 5 (RS): K8, skp, turn. 12 sts.
Row 6 (WS): P8, p2tog, turn. 11 sts.
Row 7 (RS): K8, skp, turn. 10 sts.
Row 8 (WS): P8, p2tog, turn. 9 sts.`, 9),
			needled{heel: 9, picked: 8, instep: 13, first: [3]int{12, 13, 13}, rounds: 6, last: [3]int{6, 13, 7},
				toe: [3]int{6, 13, 7}, plain: []int{0, 0, 0, 0, 0}, counts: []int{22, 18, 14, 10, 6}, all: 5, bare: true},
		},
		left: []string{"the 13 rows of the flap, an odd number, whose edge is not slipped: 8 along it are those of 16 slipped ones", "a toe of 6 as a construction: ours leave 8 at least, and the odd instep of 13 is evened out before"},
	},
	{
		name:   "15 of 30, baby, toe of 7",
		source: "how-to article",
		pieces: []piece{
			needled{heel: 8, picked: 6, instep: 15, first: [3]int{10, 15, 10}, rounds: 2, last: [3]int{8, 15, 8},
				toe: [3]int{8, 15, 8}, plain: []int{0, 0, 0, 0, 0, 0}, counts: []int{27, 23, 19, 15, 11, 7}, all: 6, bare: true},
		},
		left: []string{"the turn, which cannot be knitted: after k6 and a decrease 7 stitches lie on the worked side, and the next row needs 8"},
	},
	{
		name:   "round heel on 30 of 60",
		source: "how-to article",
		pieces: []piece{
			made{leg: []int{60}, heel: []int{30}, flap: []int{30}, more: "[heel]\nkind = \"round\"", picked: [3][]int{{25}, {30}, {25}}, last: [3][]int{{15}, {30}, {15}},
				want: map[string][]int{"heel.turn_rows": {12}, "heel.stitches_left": {18}, "heel.edge_chains": {15}, "gusset.pick_up_per_side": {16}, "gusset.stitches": {80}, "gusset.decrease_rounds": {10}, "foot.stitches": {60}}},
		},
		left: []string{"the end of the wedge toe, which was not read"},
	},
	{
		name:   "64 to 76 to 70, round heel on 32",
		source: "magazine article, lace leg over a plain heel",
		pieces: []piece{
			round(64, "Rnd 1: [K5, M1L] 12 times, k4. 76 sts.\nRnd 2: Knit. 76 sts.\nRnd 3: K45, [k2, k2tog] 6 times, k7. 70 sts.", 70),
			made{leg: []int{64}, heel: []int{32}, flap: []int{30}, more: "[heel]\nkind = \"round\"", turn: [][]int{{17, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 16}},
				want: map[string][]int{"heel.turn_rows": {14}, "heel.stitches_left": {18}}},
		},
		left: []string{"a heel of 32 in a round of 70: 38 of the instep are not made equal to it by moving as many left as right"},
	},
	{
		name:   "short-row heel on 16 of 32, baby",
		source: "how-to article",
		pieces: []piece{
			made{leg: []int{32}, heel: []int{16}, more: "[needles]\nmethod = \"magic-loop\"\n[heel]\nkind = \"wrapped\"", pin: "\"heel.middle_stitches\" = 8\n\"toe.stitches_left\" = 8\n", toe: []int{28, 24, 20, 16},
				want: map[string][]int{"heel.turns": {4}, "foot.stitches": {32}}, works: [2]string{"Heel", "15 14 13 12 11 10 9 8"}},
		},
		left: []string{"6 stitches between the short rows: the printed ones leave 8"},
	},
	{
		name:   "V turn closed without the stitch behind the decrease",
		source: "how-to article",
		pieces: []piece{
			made{leg: []int{64}, heel: []int{32}, more: "[heel]\nkind = \"round\"", turn: [][]int{{17, 5}}, want: map[string][]int{"heel.stitches_left": {18}}},
		},
		left: []string{"18 stitches left by the printed rows, which close each gap without k1 or p1 behind the decrease: the middle never grows and 5 are left"},
	},
	{
		name:   "160 stitches, heel of 64, foot of 112",
		source: "Encyclopedia of Needlework, D.M.C., 1886",
		pieces: []piece{
			made{leg: []int{120}, heel: []int{64}, more: "[leg]\nkind = \"calf\"\n[heel]\nkind = \"common\"\n[gusset]\nfoot_stitches = -8\n", pin: "\"calf.stitches\" = 160\n",
				want: map[string][]int{"cuff.stitches": {160}, "calf.shaping_rounds": {20}, "heel.stitches": {64}, "foot.stitches": {112}}},
		},
	},
}

package reader

import (
	"maps"
	"slices"
	"strings"
)

// spellings lists, for each word as the reader knows it, the other ways in which patterns
// write it. Numbers of the word do not matter to the reader: "sts" is also one.
var spellings = map[string]string{
	"k":           "knit knits knitting knitted",
	"p":           "purl purls purled purling",
	"sl":          "slip slips slp",
	"step":        "steps",
	"then":        "thereafter afterwards",
	"slipping":    "",
	"slipped":     "",
	"sts":         "st stitch stitches loops loop",
	"rnd":         "rnds round rounds rd rds",
	"row":         "rows",
	"rep":         "repeat reps repeats repeating repeated",
	"tog":         "together",
	"tbl":         "t.b.l",
	"psso":        "passo",
	"dec":         "decrease decreases decs decreasing",
	"dec'd":       "decreased decd",
	"narrow":      "narrows",
	"narrowing":   "",
	"narrowed":    "",
	"widen":       "widens",
	"inc":         "increase increases incs increasing",
	"inc'd":       "increased incd",
	"rem":         "remain remains remaining left",
	"beg":         "begin begins beginning start starts starting",
	"cont":        "continue continues continuing",
	"alt":         "alternate alternating alternately",
	"foll":        "following follows follow",
	"work":        "works working",
	"worked":      "",
	"patt":        "pattern pat patts patterns",
	"measures":    "measure meas measuring",
	"in":          "ins inch inches",
	"cm":          "cms centimetres centimeters centimetre",
	"mm":          "millimetres",
	"m":           "marker markers mkr mkrs",
	"pm":          "",
	"sm":          "slm",
	"ndl":         "needle needles ndls pin pins dpn dpns wire wires",
	"rs":          "",
	"ws":          "",
	"co":          "",
	"bo":          "",
	"yo":          "yfwd yrn yon y.o yf yarn-over yo's",
	"yos":         "",
	"beyond":      "",
	"gap":         "gaps hole",
	"centre":      "center middle central",
	"colour":      "color",
	"w&t":         "wt w+t wrap-and-turn",
	"turn":        "turns",
	"turned":      "",
	"wrapped":     "",
	"wraps":       "",
	"twin":        "twins",
	"twinned":     "",
	"wrap":        "",
	"marked":      "",
	"approx":      "approximately",
	"total":       "totals",
	"both":        "",
	"times":       "time",
	"ends":        "",
	"end":         "",
	"last":        "",
	"next":        "",
	"first":       "",
	"needs":       "",
	"instep":      "insteps",
	"flap":        "flaps",
	"side":        "sides",
	"edge":        "edges",
	"pick":        "lift knit-up",
	"cast":        "",
	"kfb":         "kf&b k1f&b kf/b",
	"pfb":         "pf&b",
	"skp":         "skpo s.k.p.o sl1-k1-psso",
	"ssk":         "",
	"patch":       "",
	"around":      "",
	"every":       "",
	"each":        "",
	"wyif":        "",
	"wyib":        "",
	"purlwise":    "pwise",
	"knitwise":    "kwise",
	"mirrored":    "",
	"w":           "",
	"ridges":      "ridge",
	"ribs":        "",
	"rib":         "ribbing",
	"section":     "sections",
	"rest":        "rests resting",
	"graft":       "grafted grafting kitchener",
	"no":          "nos",
	"size":        "sizes",
	"only":        "",
	"meanwhile":   "",
	"quarter":     "quarters",
	"until":       "till",
	"chain":       "chains",
	"corner":      "corners",
	"slanting":    "",
	"held":        "hold",
	"repeatedly":  "",
	"selvedge":    "selvage",
	"toe":         "toes",
	"heel":        "heels",
	"half":        "halves",
	"st-st":       "",
	"stockinette": "stocking stockinet",
	"garter":      "",
	"twisted":     "",
	"abbr":        "abbreviations abbreviation",
	"gauge":       "tension",
	"m1l":         "m1-l",
	"m1r":         "m1-r",
	"m1":          "m1k make-one",
	"oz":          "ounces ounce",
	"yd":          "yds yards yard",
	"skein":       "skeins ball balls hank hanks",
	"more":        "further",
	"has":         "have",
	"were":        "",
	"slst":        "",
	"upto":        "",
	"all":         "",
	"cn":          "",
	"ds":          "",
	"mds":         "",
	"foot":        "",
	"stand":       "stands standing",
	"that's":      "thats",
	"it's":        "",
}

// plainWords are words that the reader knows in the one way in which they are written.
const plainWords = "a about across after again along also and any are as at back be before both break by corner down even except facing for forth from front garter go good hang have having holds is it its join leave leg like make makes making many not now of off on once onto or other out over place plain plus set slipped so sole straight than that the their them then there these they this through to twice under up use used way when which while will with without work you your cuff gusset chart centre sock yarn waste needles one side instep heel between each edge every"

// An entry is what the reader knows of a word.
type entry struct {
	w      string   // as the reader spells it
	lists  wordList // that it stands on
	stitch *stitch  // that it is a name of, nil if it is none
	kind   tokenKind
	val    int32 // of a numeral or an ordinal
}

// dictionary has the entry for every way of writing a word. A word of a text is looked up
// once, when it becomes a token.
var dictionary = func() map[string]*entry {
	d := map[string]*entry{}
	add := func(w string) *entry {
		if d[w] == nil {
			d[w] = &entry{w: w}
		}
		return d[w]
	}
	for w, others := range spellings {
		e := add(w)
		for o := range strings.FieldsSeq(others) {
			d[o] = e
		}
	}
	for w, v := range numerals {
		e := add(w)
		e.kind, e.val = numToken, v
	}
	for w, v := range ordinals {
		e := add(w)
		e.kind, e.val = ordToken, v
	}
	for w, s := range stitches {
		add(w).stitch = &s
	}
	return d
}()

// known are the words of patterns, whatever part they play.
var known = newList(plainWords + " " + strings.Join(slices.Collect(maps.Keys(spellings)), " "))

// A wordList is a set of words that play the same part in a sentence.
type wordList uint32

var lists wordList // that there are

// newList is the list of these words, in the reader's spelling.
func newList(words string) wordList {
	l := lists + 1
	if lists |= l; l == 0 {
		panic("reader: too many lists of words")
	}
	for w := range strings.FieldsSeq(words) {
		e := dictionary[w]
		if e == nil {
			e = &entry{w: w}
			dictionary[w] = e
		}
		if e.w == w {
			e.lists |= l
		}
	}
	return l
}

// has tells whether a token stands on the list.
func (l wordList) has(t *token) bool { return t.lists&l != 0 }

// pass takes the next word if it stands on the list.
func (l wordList) pass(p *parser) {
	if l.has(p.peek()) {
		p.i++
	}
}

// hasWord tells whether a word, however it is written, stands on the list.
func (l wordList) hasWord(raw string) bool {
	_, e := look(raw)
	return e.lists&l != 0
}

var numerals = map[string]int32{
	"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12,
	"thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19, "twenty": 20, "thirty": 30,
	"forty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90,
}

var ordinals = map[string]int32{
	"second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "seventh": 7, "eighth": 8, "ninth": 9, "tenth": 10, "eleventh": 11, "twelfth": 12,
	"thirteenth": 13, "fourteenth": 14, "fifteenth": 15, "sixteenth": 16, "seventeenth": 17, "eighteenth": 18, "nineteenth": 19, "twentieth": 20, "thirtieth": 30,
}

// names are words that end in a figure.
var names = map[string]bool{"n1": true, "n2": true, "n3": true, "n4": true, "n5": true, "m1": true}

func set(words string) map[string]bool {
	m := map[string]bool{}
	for w := range strings.FieldsSeq(words) {
		m[w] = true
	}
	return m
}

var (
	// abbreviated are the words that are written with a dot.
	abbreviated = newList("k p sl st sts tog tbl psso dec inc rem beg cont alt foll patt pat rep rnd row rd in cm m ndl approx no oz yd rs ws bet meas measures yo cn co bo tr s o l ss p2sso w y f b t fwd mm pwise kwise purlwise knitwise rem work wk total stockinette")
	// beforeRem are words behind which "rem." belongs to the number that follows it.
	beforeRem = newList("k p the these those work all sl patt")
	// beforeNumber are those whose dot may stand before a number without ending a sentence.
	beforeNumber = newList("k p sl rep no approx cont dec inc")
	// long are words in full, which take no dot.
	long = set("knit purl slip stitch stitches loop loops round rounds row rows repeat together decrease increase remain remains remaining left begin beginning continue alternate following pattern work total inch inches marker markers needle needles pin pins tip tips ounces yards stocking stockinette")
)

// dottedWords are abbreviations of several parts, each with its dot.
var dottedWords = []dottedTerm{
	{"p.2s.s.o", "p2sso"}, {"p.s.s.o", "psso"}, {"p.s", "seam-st"}, {"s.k.p.o", "skp"}, {"s.k.p", "skp"}, {"s.s.k", "ssk"}, {"t.b.l", "tbl"}, {"y.o.n", "yo"}, {"y.r.n", "yo"}, {"y.fwd", "yo"}, {"w.fwd", "yo"}, {"y.o", "yo"},
	{"st.st", "st-st"}, {"st. st", "st-st"}, {"g.st", "garter"}, {"m.st", "moss"}, {"r.s", "rs"}, {"w.s", "ws"}, {"d.p.n", "ndl"}, {"w.y.i.f", "wyif"}, {"w.y.i.b", "wyib"}, {"k.b.l", "ktbl"},
}

// A dottedTerm is an abbreviation of several parts with a dot behind each, and the word that
// it is to the reader.
type dottedTerm struct{ dotted, w string }

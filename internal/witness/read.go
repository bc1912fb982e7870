package witness

import (
	"errors"
	"fmt"
	"strings"
	"unicode"
)

// A pattern is a text as read: its sizes and its lines of instructions.
type pattern struct {
	sizes []string
	lines []line
}

// A form is the kind of an instruction line.
type form int

const (
	castOn      form = iota
	row              // a labeled row or round
	plainRounds      // "Knit 50 rnds."
	workLast         // "Work the last 2 rows …"
	workLabel        // "Work Row 2 …"
	lastAreHeel
	firstAreHeel
	removeMarkers
	beginsHere
	arrange
	graft
	firstWorked // "The first 30 sts of the rnd are worked back and forth …"
	rejoin      // "Work in the round again …"
	undo        // of a provisional cast-on
	openWaste
	joinHeel // the two halves of the heel
	closeAll // a bind-off, or the yarn drawn through
	motifIs  // a stitch pattern is told
	motifRounds
)

// A start is how the stitches are cast on.
type start int

const (
	inRound start = iota
	provisionalRound
	provisionalFlat
	flatStart
	closedStart
	ringStart
)

// starts are the words between the number cast on and the beginning of the round.
var starts = []string{
	". join to work in the round without twisting.",
	" provisionally. join to work in the round without twisting.",
	" provisionally. work back and forth in rows.",
	". work back and forth in rows.",
	" with a closed start, half on each of two needles.",
	" as a ring that is drawn shut.",
}

// A place is where a round begins.
type place int

const (
	centerBack place = iota
	beforeHeel
	beforeInstep
	centerSole
)

// places are the words for the places, in their order.
var places = []string{
	"at the center of the back",
	"at the side, before the heel sts",
	"at the side, before the instep sts",
	"at the center of the sole",
}

// A rowKind says what stands before "row" or "rnd" in a label.
type rowKind int

const (
	plainRow rowKind = iota
	setUpRow
	partialRow
	incRow
	decRow
	nextRow
)

// A side of the fabric, as a label states it.
type side int

const (
	noSide side = iota
	rightSide
	wrongSide
)

// A label is what stands before a row's colon.
type label struct {
	words string // without the side, in small letters
	kind  rowKind
	round bool
	side  side
}

// A count is "82 sts: 25 on N1, 32 on N2, 25 on N3".
type count struct {
	sts     number
	needles []number
}

// A line is one line of instructions, read.
type line struct {
	number  int
	words   string
	form    form
	sizes   []bool // the sizes that work it; nil: all
	left    bool   // of the left sock alone
	right   bool   // of the right sock alone
	section int

	label   label    // row, plainRounds, workLabel
	needles [][]step // row: the steps; one list where no needles are named
	split   bool     // row: the needles are named
	turn    bool     // row: ends with "turn"
	leaves  item     // what that turn leaves of the next stitch; 0: a gap alone
	picks   bool     // row: picks up stitches

	rows   number // workLast: how many rows
	rounds bool   // workLast, workLabel: the line speaks of rounds, not rows
	named  bool   // workLabel: the line names rows or rounds at all
	times  number // how often; plainRounds: how many

	change number // each time; decreases below zero
	down   bool
	total  number // "in all"
	inRnds bool   // "rnds in all", not "rows"
	count  count  // castOn, heel: the first number
	rest   number // heel: the resting stitches; graft: the sole's
	place  place
	start  start   // castOn
	motif  string  // motifIs, motifRounds: its name
	inner  []*line // motifIs: its rounds
}

// read reads a text.
func read(text string) (*pattern, error) {
	lines := strings.Split(text, "\n")
	for i := range lines {
		lines[i] = strings.TrimRightFunc(lines[i], unicode.IsSpace)
	}
	start := -1
	for i, l := range lines {
		if strings.HasPrefix(l, "CO ") {
			start = i
			break
		}
	}
	if start < 0 {
		return nil, errors.New("no line casts on")
	}
	p := &pattern{sizes: readSizes(lines[:start])}
	for start > 0 && !isHeading(lines, start) {
		start--
	}
	section := 0
	var only []bool
	side := ""
	for i := start; i < len(lines); i++ {
		if isHeading(lines, i) {
			section++
			only, side = nil, ""
			continue
		}
		switch lines[i] {
		case "All sizes:", "Both socks:":
			only, side = nil, ""
			continue
		case "Right sock only:", "Left sock only:":
			only, side = nil, lines[i]
			continue
		}
		if names, ok := onlySizes(lines[i]); ok {
			var err error
			if only, err = choose(p.sizes, names); err != nil {
				return nil, fmt.Errorf("line %d: %w: %q", i+1, err, lines[i])
			}
			continue
		}
		l, ok, err := readLine(lines[i], len(p.sizes))
		if err != nil {
			return nil, fmt.Errorf("line %d: %w: %q", i+1, err, lines[i])
		}
		if ok {
			l.number, l.words, l.section, l.sizes = i+1, lines[i], section, only
			l.right, l.left = side == "Right sock only:", side == "Left sock only:"
			if p.ownRow(l) {
				continue
			}
			p.lines = append(p.lines, l)
		}
	}
	return p, nil
}

// readSizes returns the names in the first fact line that gives them.
func readSizes(lines []string) []string {
	for _, l := range lines {
		names, ok := strings.CutPrefix(l, "Sizes: ")
		if !ok {
			names, ok = strings.CutPrefix(l, "Size: ")
		}
		if !ok {
			continue
		}
		first, others, list := strings.Cut(names, " (")
		if !list {
			return []string{names}
		}
		others, _, _ = strings.Cut(others, ")")
		return append([]string{first}, strings.Split(others, ", ")...)
	}
	return []string{""}
}

// isHeading reports whether line i is in capitals, with an empty line before
// and after.
func isHeading(lines []string, i int) bool {
	if i > 0 && lines[i-1] != "" || i+1 < len(lines) && lines[i+1] != "" {
		return false
	}
	capital := false
	for _, r := range lines[i] {
		switch {
		case unicode.IsUpper(r):
			capital = true
		case unicode.IsLetter(r) && !unicode.IsLower(r), unicode.IsDigit(r), r == ' ', r == '-', r == ',':
		default:
			return false
		}
	}
	return capital
}

// onlySizes returns the names in "Sizes S and M only:".
func onlySizes(l string) ([]string, bool) {
	l, ok := strings.CutSuffix(l, " only:")
	if !ok {
		return nil, false
	}
	names, ok := strings.CutPrefix(l, "Sizes ")
	if !ok {
		names, ok = strings.CutPrefix(l, "Size ")
	}
	if !ok {
		return nil, false
	}
	names = strings.ReplaceAll(names, ", and ", ", ")
	names = strings.ReplaceAll(names, " and ", ", ")
	return strings.Split(names, ", "), true
}

// choose returns which of the sizes are named.
func choose(sizes, names []string) ([]bool, error) {
	chosen := make([]bool, len(sizes))
	for _, name := range names {
		found := false
		for i, size := range sizes {
			if size == name {
				chosen[i], found = true, true
			}
		}
		if !found {
			return nil, fmt.Errorf("there is no size %q", name)
		}
	}
	return chosen, nil
}

// readLine reads one line. It returns false for prose.
func readLine(words string, sizes int) (line, bool, error) {
	low := strings.ToLower(words)
	var list, step error
	for _, form := range []func(*cursor, *line) bool{
		readCastOn, readRow, readPlainRounds, readMotif, readMotifRounds, readWork, readArrange, readFixed,
	} {
		c := &cursor{s: low, sizes: sizes}
		var l line
		if form(c, &l) && c.end() {
			return l, true, nil
		}
		if c.list != nil {
			list = c.list
		}
		if c.step != nil {
			step = c.step
		}
	}
	switch {
	case list != nil:
		return line{}, false, list
	case !isInstruction(words):
		return line{}, false, nil
	case step != nil:
		return line{}, false, step
	}
	return line{}, false, errors.New("not understood")
}

// isInstruction reports whether a line begins as only instructions do.
func isInstruction(words string) bool {
	for _, w := range []string{
		"Row", "Rnd", "Set-up", "Partial", "Inc ", "Dec ", "Next r", "CO ", "Work the ", "Work R", "Work Inc", "Work Dec", "Work Set-up", "Work Partial", "Work Next", "Work in the round", "Work even",
		"Arrange", "Graft the", "Remove the markers", "Remove the stitch markers", "The rnd now begins",
		"BO all", "Bind off the ", "Draw the yarn twice", "Undo the ", "Take out the waste yarn and",
	} {
		if strings.HasPrefix(words, w) {
			return true
		}
	}
	for _, w := range []string{"Knit ", "Purl ", "Work ", "The last ", "The first "} {
		rest, ok := strings.CutPrefix(words, w)
		if ok && rest != "" && isDigit(rest[0]) {
			return true
		}
	}
	return false
}

// readCastOn reads "CO 64 sts. Join to work …".
func readCastOn(c *cursor, l *line) bool {
	l.form = castOn
	var ok bool
	if !c.eat("co ") {
		return false
	}
	if l.count.sts, ok = c.number(); !ok || !c.stitches() {
		return false
	}
	if l.start = start(c.any(starts...)); l.start < 0 {
		return false
	}
	if l.start == provisionalFlat || l.start == flatStart {
		return true
	}
	return c.eat(" the rnd begins ") && readPlace(c, l)
}

// readPlace reads a place and the full stop.
func readPlace(c *cursor, l *line) bool {
	l.place = place(c.any(places...))
	return l.place >= 0 && c.eat(".")
}

// readLabel reads "Set-up row 2".
func readLabel(c *cursor) (label, bool) {
	before := c.s
	var l label
	l.kind = rowKind(c.any("set-up ", "partial ", "inc ", "dec ", "next ") + 1)
	switch c.any("row", "rnd") {
	case -1:
		return l, false
	case 1:
		l.round = true
	}
	if len(c.s) > 1 && c.s[0] == ' ' && isDigit(c.s[1]) {
		c.eat(" ")
		if _, ok := c.digits(); !ok {
			return l, false
		}
	}
	l.words = before[:len(before)-len(c.s)]
	return l, true
}

// readRow reads a labeled row.
func readRow(c *cursor, l *line) bool {
	l.form = row
	var ok bool
	if l.label, ok = readLabel(c); !ok {
		return false
	}
	l.label.side = side(c.any(" (rs)", " (ws)") + 1)
	if !c.eat(": ") {
		return false
	}
	words, tail, ended := strings.Cut(c.s, ".")
	if !ended {
		return false
	}
	c.s = words
	if !readSteps(c, l) {
		return false
	}
	c.s = tail
	return readTail(c, l, true)
}

// readTail reads the sentences after the first: of a row its change, of a
// repeat the rows in all, and of both the count.
func readTail(c *cursor, l *line, isRow bool) bool {
	before := c.s
	if n, ok := nextNumber(c); ok {
		switch {
		case isRow && c.any(" sts dec'd.", " st dec'd.", " sts dec’d.", " st dec’d.") >= 0:
			l.change, l.down = n, true
			before = c.s
		case isRow && c.any(" sts inc'd.", " st inc'd.", " sts inc’d.", " st inc’d.") >= 0:
			l.change = n
			before = c.s
		case !isRow && c.any(" rows in all.", " row in all.") >= 0:
			l.total = n
			before = c.s
		case !isRow && c.any(" rnds in all.", " rnd in all.") >= 0:
			l.total, l.inRnds = n, true
			before = c.s
		}
	}
	c.s = before
	if c.end() {
		return true
	}
	var ok bool
	if l.count.sts, ok = nextNumber(c); !ok || !c.stitches() {
		return false
	}
	if c.eat(": ") {
		if l.count.needles, ok = readNeedles(c); !ok {
			return false
		}
	}
	return c.eat(".") && c.end()
}

// nextNumber reads a space and a number.
func nextNumber(c *cursor) (number, bool) {
	if !c.eat(" ") {
		return nil, false
	}
	return c.number()
}

// readNeedles reads "25 on N1, 32 on N2, 25 on N3".
func readNeedles(c *cursor) ([]number, bool) {
	var needles []number
	for {
		n, ok := c.number()
		if !ok || !c.eat(fmt.Sprintf(" on n%d", len(needles)+1)) {
			return nil, false
		}
		needles = append(needles, n)
		if !c.eat(", ") {
			return needles, true
		}
	}
}

// readPlainRounds reads "Knit 50 rnds, or until … measures …".
func readPlainRounds(c *cursor, l *line) bool {
	l.form = plainRounds
	stitch := c.any("knit ", "purl ")
	if stitch < 0 {
		return false
	}
	var ok bool
	if l.times, ok = c.number(); !ok {
		return false
	}
	c.eat(" more")
	if c.any(" rnds", " rnd") < 0 {
		return false
	}
	if !readUntil(c) {
		return false
	}
	l.label = label{words: "plain rnds", round: true}
	l.needles = [][]step{{{kind: toEnd, n: number{0}}}}
	return readTail(c, l, false)
}

// readUntil reads ", or until … measures 6 in [15.2 cm] from …." or just the full stop.
func readUntil(c *cursor) bool {
	if c.eat(", or until ") {
		_, after, ok := strings.Cut(c.s, " measures ")
		if !ok {
			return false
		}
		c.s = after
		if !c.measure() || !c.eat(" in [") || !c.measure() || !c.eat(" cm]") {
			return false
		}
		if !strings.HasPrefix(c.s, ".") {
			i := strings.IndexByte(c.s, '.')
			if i < 0 || !strings.HasPrefix(c.s, " from ") {
				return false
			}
			c.s = c.s[i:]
		}
	}
	return c.eat(".")
}

// readWork reads "Work the last 2 rows …" and "Work Row 2 …", and "Do not repeat …".
func readWork(c *cursor, l *line) bool {
	none := c.eat("do not repeat ")
	if !none && !c.eat("work ") {
		return false
	}
	if none {
		return readNoRepeat(c, l)
	}
	if c.eat("the last ") {
		l.form, l.named = workLast, true
		l.rows = number{1}
		unit := c.any("row ", "rnd ")
		if unit < 0 {
			var ok bool
			if l.rows, ok = c.number(); !ok {
				return false
			}
			if unit = c.any(" rows ", " rnds "); unit < 0 {
				return false
			}
		}
		l.rounds = unit == 1
		if !readTimes(c, l) {
			return false
		}
	} else {
		l.form = workLabel
		c.eat("the ")
		var ok bool
		if l.label, ok = readLabel(c); !ok || !c.eat(" ") {
			return false
		}
		if !readAgain(c, l) && !readTimes(c, l) {
			return false
		}
	}
	return readUntil(c) && readTail(c, l, false)
}

// readNoRepeat reads "the last 2 rows." or "Row 2.", which are not worked again.
func readNoRepeat(c *cursor, l *line) bool {
	l.times = number{0}
	if c.eat("the last ") {
		l.form, l.rows = workLast, number{1}
		if c.any("row", "rnd") < 0 {
			var ok bool
			if l.rows, ok = c.number(); !ok || c.any(" rows", " rnds") < 0 {
				return false
			}
		}
		return readUntil(c) && readTail(c, l, false)
	}
	l.form = workLabel
	var ok bool
	l.label, ok = readLabel(c)
	return ok && readUntil(c) && readTail(c, l, false)
}

// readTimes reads "once more" or "7 more times".
func readTimes(c *cursor, l *line) bool {
	switch c.any("once more", "twice more") {
	case 0:
		l.times = number{1}
		return true
	case 1:
		l.times = number{2}
		return true
	}
	var ok bool
	l.times, ok = c.number()
	return ok && c.any(" more times", " more time") >= 0
}

// readAgain reads "again on each of the next 4 rnds".
func readAgain(c *cursor, l *line) bool {
	unit := -1
	switch c.any("again on each of the next ", "again on the next ") {
	case 0:
		var ok bool
		if l.times, ok = c.number(); !ok {
			return false
		}
		unit = c.any(" rows", " rnds", " row", " rnd")
	case 1:
		l.times = number{1}
		unit = c.any("row", "rnd")
	default:
		return false
	}
	l.named, l.rounds = true, unit%2 == 1
	return unit >= 0
}

// readArrange reads "Arrange the sts: 16 on N1, …".
func readArrange(c *cursor, l *line) bool {
	l.form = arrange
	if !c.eat("arrange the sts: ") {
		return false
	}
	var ok bool
	l.count.needles, ok = readNeedles(c)
	return ok && c.eat(".")
}

// readFixed reads the forms of fixed wording: "# sts" stands for a number of stitches, of
// which one may be a "st", "@" for a place with its full stop.
func readFixed(c *cursor, l *line) bool {
	for _, f := range []struct {
		form form
		text string
	}{
		{lastAreHeel, "the last # sts worked are the heel; the other # sts rest for the instep."},
		{firstAreHeel, "the first # sts of the rnd are the heel; the other # sts rest for the instep."},
		{firstWorked, "the first # sts of the rnd are worked back and forth; the other # sts rest."},
		{removeMarkers, "remove the markers."},
		{removeMarkers, "remove the stitch markers as you come to them."},
		{beginsHere, "the rnd now begins here, @"},
		{rejoin, "work in the round again over all # sts. the rnd begins @"},
		{undo, "undo the provisional cast-on and take up its # sts for the instep."},
		{openWaste, "take out the waste yarn and put the # sts below it and the # sts above it on needles. the rnd begins @"},
		{graft, "graft the # sts of the instep to the # sts of the sole."},
		{graft, "bind off the # sts of the instep together with the # sts of the sole."},
		{joinHeel, "graft the first # sts of the heel to the last # sts."},
		{joinHeel, "bind off the first # sts of the heel together with the last # sts."},
		{closeAll, "bo all # sts in pattern."},
		{closeAll, "bo all # sts with the stretchy bind-off."},
		{closeAll, "bo all # sts with the sewn bind-off."},
		{closeAll, "bo all # sts with the tubular bind-off."},
		{closeAll, "draw the yarn twice through the # sts and pull them together."},
	} {
		before := c.s
		if fill(c, l, f.text) {
			l.form = f.form
			return true
		}
		c.s = before
	}
	return false
}

// fill reads a fixed wording, its numbers and its place.
func fill(c *cursor, l *line, text string) bool {
	numbers := []*number{&l.count.sts, &l.rest}
	for text != "" {
		i := strings.IndexAny(text, "#@")
		if i < 0 {
			return c.eat(text)
		}
		if !c.eat(text[:i]) {
			return false
		}
		if text[i] == '@' {
			return readPlace(c, l)
		}
		n, ok := c.number()
		if !ok || !c.stitches() {
			return false
		}
		*numbers[0], numbers = n, numbers[1:]
		text = text[i+len("# sts"):]
	}
	return true
}

package publish

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"sockwright/internal/design"
	"sockwright/internal/feet"
	"sockwright/internal/grade"
	"sockwright/internal/notation"
	"sockwright/internal/pattern"
	"sockwright/internal/picture"
	"sockwright/internal/sock"
	"sockwright/internal/source"
	"sockwright/internal/trade"
	"sockwright/internal/unit"
)

// Compose returns the whole pattern: the facts a knitter needs first (sizes, measures,
// materials, gauge, abbreviations, notes and cautions), the instructions of body, and how
// the sock is finished. The glossary explains exactly the abbreviations that the
// instructions use.
func Compose(d *sock.Draft, plan *grade.Plan, body *pattern.Pattern, e Edition) *pattern.Pattern {
	alone := e.Alone
	c := composer{Draft: d, Edition: e, measured: map[string]map[int]unit.Length{}}
	for _, m := range d.Measures(plan) {
		if c.measured[m.Key] == nil {
			c.measured[m.Key] = map[int]unit.Length{}
		}
		c.measured[m.Key][m.Size] = m.Value
	}
	edition := func(sections ...*pattern.Section) *pattern.Pattern {
		p := &pattern.Pattern{Title: body.Title, Sizes: body.Sizes, Sections: sections}
		if alone != AllSizes {
			return p.ForSize(alone)
		}
		return p
	}
	before := []*pattern.Section{c.notes(body)}
	if e.TwoAtATime {
		before = append(before, c.twoAtATime())
	}
	worked := edition(slices.Concat(before, body.Sections, []*pattern.Section{c.finishing()})...)
	facts := edition(c.opening(), c.sizes(), c.materials(), glossary(abbreviationsIn(worked)))
	worked.Sections = append(facts.Sections, worked.Sections...)
	if e.LeftHanded {
		worked.Mirror()
	}
	worked.Index()
	return worked
}

// An Edition is for whom a pattern is written.
type Edition struct {
	Alone      int  // the place of the one size it is for, which then has no lists; or [AllSizes]
	LeftHanded bool // for somebody who knits from left to right
	TwoAtATime bool // both socks are worked on one needle
}

// AllSizes stands for no size in particular.
const AllSizes = picture.AllSizes

type composer struct {
	*sock.Draft
	Edition
	measured map[string]map[int]unit.Length // finished measures by key and size
}

func section(title string, nodes ...pattern.Node) *pattern.Section {
	return &pattern.Section{Title: title, Body: nodes}
}

func para(m source.Message) pattern.Node {
	return &pattern.Prose{Style: pattern.Para, Text: pattern.Fill(m)}
}

func fact(label string, m source.Message) pattern.Node {
	return &pattern.Prose{Style: pattern.Fact, Label: label, Text: pattern.Fill(m)}
}

func say(key, text string, args ...any) source.Message { return source.Say(key, text, args...) }

// opening says what the pattern is, in a sentence or three.
func (c *composer) opening() *pattern.Section {
	sizes := "in one size"
	switch n := len(c.Sizes); {
	case c.Alone != AllSizes && n > 1:
		sizes = fmt.Sprintf("in size %s of %d sizes", c.Sizes[c.Alone].Name, n)
	case n > 1:
		sizes = fmt.Sprintf("in %d sizes", n)
	}
	var parts []string
	for _, p := range c.Parts() {
		if p.Name != "" {
			parts = append(parts, p.Name)
		}
	}
	s := section("", para(say("front.what", "A {0} sock with {1}, {2}.", c.Direction, allOf(parts), sizes)))
	for _, p := range c.Parts() {
		if p.How.Text != "" {
			s.Body = append(s.Body, para(p.How))
		}
	}
	if c.About != "" {
		// Labelled, so that no words of the designer's are ever read as an instruction.
		s.Body = append(s.Body, fact("About", say("front.about", "{0}", c.About)))
	}
	var by []string
	if c.Author != "" {
		by = append(by, "By "+c.Author+".")
	}
	if c.Version != "" {
		by = append(by, "Version "+c.Version+".")
	}
	by = append(by, "US knitting terms.")
	s.Body = append(s.Body, para(say("front.by", "{0}", strings.Join(by, " "))))
	if c.LeftHanded {
		s.Body = append(s.Body, fact(notation.HandLabel, say("front.hand", "{0}", notation.LeftHand)))
	}
	return s
}

// allOf joins nouns: "a, b and c".
func allOf(nouns []string) string {
	last := len(nouns) - 1
	if last < 1 {
		return strings.Join(nouns, "")
	}
	return strings.Join(nouns[:last], ", ") + " and " + nouns[last]
}

// lengths are a length of every size in both systems: "8 (9) in [20.3 (22.9) cm]".
func (c *composer) lengths(label string, f func(size int) unit.Length) pattern.Node {
	var in, cm []string
	for i := range c.Sizes {
		in, cm = append(in, f(i).Inches()), append(cm, f(i).Centimetres())
	}
	return fact(label, say("front.length", "{0} in [{1} cm]", in, cm))
}

func (c *composer) finished(label, key string) pattern.Node {
	return c.lengths(label, func(size int) unit.Length { return c.measured[key][size] })
}

// ease is by how much a finished measure differs from the body's, in per cent of it.
func (c *composer) ease(label, key string, body func(size int) unit.Length) pattern.Node {
	each := make([]string, len(c.Sizes))
	for size, finished := range c.measured[key] {
		each[size] = fmt.Sprintf("%d%%", int(math.Round(100*((finished/body(size)).MM()-1))))
	}
	return fact(label, say("front.ease", "{0}", each))
}

// shoes is for whose shoes the sizes are, if all of them tell it.
func (c *composer) shoes() []pattern.Node {
	system, alone, all := c.Sizes[0].Shoes.System, []string{}, []string{}
	for _, size := range c.Sizes {
		if size.Shoes.Sizes == "" {
			return nil
		}
		if size.Shoes.System != system {
			system = ""
		}
		alone = append(alone, size.Shoes.Sizes)
		all = append(all, size.Shoes.System+" "+size.Shoes.Sizes)
	}
	if system == "" {
		return []pattern.Node{fact("To fit shoes", say("front.shoes", "{0}", all))}
	}
	return []pattern.Node{fact("To fit "+system+" shoes", say("front.shoes", "{0}", alone))}
}

func (c *composer) sizes() *pattern.Section {
	label := "Sizes"
	if len(c.Sizes) == 1 || c.Alone != AllSizes {
		label = "Size"
	}
	s := section("Sizes", fact(label, say("front.sizes", "{0}", c.Names())))
	s.Body = append(s.Body, c.shoes()...)
	s.Body = append(s.Body,
		c.lengths("To fit foot circumference, at the ball", func(i int) unit.Length { return c.Sizes[i].Girth }),
		c.lengths("To fit foot length", func(i int) unit.Length { return c.Sizes[i].Length }))
	if c.Calf != nil {
		s.Body = append(s.Body,
			c.lengths("To fit calf circumference, at its widest", func(i int) unit.Length { return c.Calf[i] }),
			c.finished("Finished calf circumference", "calf.girth"))
	}
	s.Body = append(s.Body,
		c.finished("Finished foot circumference", "foot.girth"),
		c.finished("Finished foot length", "foot.length"),
		c.finished("Finished leg length, from "+c.Top()+" to the heel", "leg.length"),
		c.finished("Finished heel depth", "heel.depth"),
		c.ease("Ease in circumference", "foot.girth", func(i int) unit.Length { return c.Sizes[i].Girth }),
		c.ease("Ease in foot length", "foot.length", func(i int) unit.Length { return c.Sizes[i].Length }))
	if len(c.Sizes) > 1 && c.Alone == AllSizes {
		s.Body = append(s.Body, para(say("front.lists", "Where sizes differ, the smallest comes first and the others follow in parentheses: {0}. A number that stands alone is for all sizes.", c.Names())))
	}
	s.Body = append(s.Body, para(say("front.ease.how", "Ease is how the sock differs from the foot: a sock with minus 10% is 10 percent smaller, and stretches to fit.")))
	s.Body = append(s.Body, para(say("front.by-length", "Where rounds and a length are both given and do not agree on your needles, go by the length.")))
	if c.CalfEstimated {
		s.Body = append(s.Body, para(say("front.calf-estimate", "The calf circumferences are estimates, one and a half times the foot; measure the leg you knit for.")))
	}
	if c.Sizes[0].Estimated {
		s.Body = append(s.Body, para(say("front.estimate", "The circumferences of children's feet are estimates; measure the foot you knit for.")))
	}
	return s
}

func (c *composer) materials() *pattern.Section {
	s := section("Materials and gauge")
	yarn := c.Yarn.Description
	if c.Yarn.Weight.Name != "" {
		if yarn != "" {
			yarn += "; "
		}
		yarn += fmt.Sprintf("weight %d, %s", c.Yarn.Weight.Category, c.Yarn.Weight.Name)
	}
	if c.Yarn.PutUp != "" {
		yarn += "; sold as " + c.Yarn.PutUp
	}
	if c.TwoAtATime {
		if yarn != "" {
			yarn += "; "
		}
		yarn += "two balls, one for each sock, or both ends of one"
	}
	if yarn != "" {
		s.Body = append(s.Body, fact("Yarn", say("front.yarn", "{0}", yarn)))
	}
	size := "the size that gives the gauge"
	if c.Needle.MM > 0 {
		size = c.Needle.String() + ", or the size that gives the gauge"
	}
	kind := map[design.Method]string{
		design.DoublePointed: "a set of four or five double-pointed needles",
		design.MagicLoop:     "one long circular needle, for magic loop",
		design.TwoCirculars:  "two circular needles",
	}[c.Method]
	if c.TwoAtATime {
		kind = "one circular needle of 40 in [100 cm] or longer, for both socks"
	}
	s.Body = append(s.Body,
		fact("Needles", say("front.needles", "{0}, {1}", kind, size)),
		fact("Notions", say("front.notions", "{0}", strings.Join(c.notions(), ", "))),
		fact("Gauge", say("front.gauge", "{0}, in stockinette worked in the round, after washing. Change the needle size until you have it.", c.Swatch(""))))
	for _, name := range design.Fabrics {
		if c.Draft.Gauge[name].Known() {
			s.Body = append(s.Body, fact("Gauge, "+name, say("front.gauge.other", "{0}, {1}, after washing.", c.Swatch(name), design.Worked(name))))
		}
	}
	return s
}

// notes tells how the instructions of body are read, and the cautions.
func (c *composer) notes(body *pattern.Pattern) *pattern.Section {
	s := section("Notes",
		fact("Skills", say("notes.skills", "{0}", strings.Join(c.each(func(p sock.Part) []string { return p.Skills }), ", "))))
	has := habitsOf(body)
	if has.slips {
		s.Body = append(s.Body, para(say("notes.slip", "Sl sts as if to purl, with the yarn on the wrong side of the fabric: behind in RS rows, in front in WS rows.")))
	} else if has.slipsInRounds {
		s.Body = append(s.Body, para(say("notes.slip.rounds", "Sl sts as if to purl, with the yarn behind, unless told otherwise.")))
	}
	var how []string
	if has.rows {
		how = append(how, "Rows are worked back and forth, turning at the end of each; rnds are worked in the round.")
	}
	if has.partial {
		how = append(how, "In a partial row or rnd only some of the sts are worked, to bring the yarn to a new place; it is not counted.")
	}
	if has.apart {
		how = append(how, "Stated counts are of the heel sts, without the instep, while the heel is worked, and otherwise of all sts.")
	}
	if how != nil {
		s.Body = append(s.Body, para(say("notes.rows", "{0}", strings.Join(how, " "))))
	}
	if c.Method == design.MagicLoop {
		s.Body = append(s.Body, para(say("notes.loop", "N1 and N2 are the two halves of the sts on the one needle.")))
	}
	switch {
	case c.Direction == design.ToeUp:
		s.Body = append(s.Body, para(say("notes.up", "The rnd begins at the side, from the toe to the cuff: N1 holds the sole, and later the back of the leg; N2 holds the instep, and later the front.")))
	case c.Method == design.DoublePointed && c.FootBegins() == pattern.SideOfInstep:
		s.Body = append(s.Body, para(say("notes.dpn.side", "The rnd begins at the center of the back; from the foot on, it begins at the side, before the instep: N1 is the instep and N2 the sole.")))
	case c.Method == design.DoublePointed:
		s.Body = append(s.Body, para(say("notes.dpn", "The rnd begins at the center of the back; from the foot on, it begins at the center of the sole, and N1, N2 and N3 name the needles in the order in which they are worked.")))
	default:
		s.Body = append(s.Body, para(say("notes.circular", "The rnd begins at the side: N1 holds the back of the leg, N2 the front. From the foot on, N1 holds the instep and N2 the sole, and the rnd begins before the instep.")))
	}
	if c.LeftHanded {
		s.Body = append(s.Body, para(say("notes.hand", "This edition is for left-handed knitters, who hold the working needle in the left hand and work every row and rnd from left to right. Work each st as its abbreviation explains: the work becomes the mirror image of the one knitted from right to left, so decreases and increases lean the other way than is usual, and than L and R in their names say. Left and right are as you see them.")))
	}
	for _, key := range c.cautions() {
		if x, ok := trade.CautionByKey(key); ok {
			s.Body = append(s.Body, &pattern.Prose{Style: pattern.Caution, Text: pattern.Words(x.Text)})
		}
	}
	return s
}

// habits are what instructions do that a note explains.
type habits struct {
	slips, slipsInRounds bool // stitches are slipped in rows; in rounds
	rows                 bool // some are worked back and forth
	partial              bool // some are worked in part
	apart                bool // a heel is set apart
}

func habitsOf(p *pattern.Pattern) (h habits) {
	var slips func(steps []pattern.Step) bool
	slips = func(steps []pattern.Step) bool {
		return slices.ContainsFunc(steps, func(s pattern.Step) bool {
			return s.Op == pattern.Slip || s.Op == pattern.SlipFront || slips(s.Body)
		})
	}
	p.Each(func(_ *pattern.Section, n pattern.Node) {
		switch n := n.(type) {
		case *pattern.Divide:
			h.apart = h.apart || !n.Toe
		case *pattern.Row:
			flat := n.Label.Word == pattern.FlatRow
			h.rows = h.rows || flat
			h.partial = h.partial || n.Label.Name == pattern.Partial
			for _, part := range n.Parts {
				h.slips = h.slips || flat && slips(part.Steps)
				h.slipsInRounds = h.slipsInRounds || slips(part.Steps)
			}
		}
	})
	return h
}

// notions lists what the sock needs besides needles, the stitch markers first.
func (c *composer) notions() []string {
	list, markers := c.each(func(p sock.Part) []string { return p.Notions }), 0
	if c.TwoAtATime {
		list = append(list, "1 locking marker for each sock, in different colors")
	}
	for _, p := range c.Parts() {
		markers = max(markers, p.Markers)
	}
	switch markers {
	case 0:
		return list
	case 1:
		return append([]string{"1 stitch marker"}, list...)
	}
	return append([]string{fmt.Sprintf("%d stitch markers", markers)}, list...)
}

// each lists what the parts need, each once, in the order of the parts.
func (c *composer) each(of func(sock.Part) []string) []string {
	var list []string
	for _, p := range c.Parts() {
		for _, s := range of(p) {
			if !slices.Contains(list, s) {
				list = append(list, s)
			}
		}
	}
	return list
}

// cautions chooses what could hurt the wearers of this sock.
func (c *composer) cautions() []string {
	keys := []string{"cuff-circulation", "slippery-sole"}
	for _, size := range c.Sizes {
		if feet.ForBaby(size.Length) {
			return append([]string{"baby-threads", "baby-cuff"}, keys[1:]...)
		}
	}
	return keys
}

func (c *composer) finishing() *pattern.Section {
	return section("Finishing",
		para(say("finish.ends", "Close any hole at the corners of the heel with a short length of yarn, weave all ends in on the inside, and make no knots: they would rub.")),
		para(c.pair()))
}

// pair tells how the second sock differs from the first.
func (c *composer) pair() source.Message {
	if slices.ContainsFunc(c.Parts(), func(p sock.Part) bool { return p.Sided }) {
		return say("finish.pair.sided", "Work one right sock and one left sock: they differ only in the lines that are headed for one of them, and are mirror images there. Wash the pair and dry it flat or on sock blockers; the measurements above are of washed socks.")
	}
	if c.TwoAtATime {
		return say("finish.pair.two", "If both socks came from one ball, cut the yarn between them. The two are the same: left and right are alike. Wash the pair and dry it flat or on sock blockers; the measurements above are of washed socks.")
	}
	return say("finish.pair", "The second sock is worked the same: left and right are alike. Wash the pair and dry it flat or on sock blockers; the measurements above are of washed socks.")
}

func glossary(used []trade.Abbreviation) *pattern.Section {
	s := section("Abbreviations")
	for _, a := range used {
		s.Body = append(s.Body, &pattern.Prose{Style: pattern.Term, Label: a.Short, Text: pattern.Fill(say("abbreviation."+a.Short, a.Sided))})
	}
	return s
}

// abbreviationsIn lists the trade's abbreviations that stand in a pattern, in the order of
// the alphabet.
func abbreviationsIn(p *pattern.Pattern) []trade.Abbreviation {
	var text strings.Builder
	for _, l := range notation.Lines(p) {
		if l.Form == notation.Instruction || l.Form == notation.Prose && l.Style != pattern.Caution {
			text.WriteString(l.String())
			text.WriteByte('\n')
		}
	}
	return notation.Abbreviations(text.String())
}

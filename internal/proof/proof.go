package proof

import (
	"slices"

	"sockwright/internal/fabric"
	"sockwright/internal/knit"
	"sockwright/internal/notation"
	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

// A Proof is what proving a pattern gave.
type Proof struct {
	Text    *source.File      // the printed words
	Written notation.Written  // the same, with the place of every node
	Read    *notation.Reading // what they were read as
	Sizes   []Size
	Faults  []source.Fault // none if the pattern is proven; they point into Text
}

// A Size is the proof of one size.
type Size struct {
	Name  string
	Loops int
	Again *knit.Result // worked from the words
}

// Proven tells whether the words make the sock.
func (p *Proof) Proven() bool { return len(p.Faults) == 0 }

// Loops is how many loops were knitted from the words, in all sizes.
func (p *Proof) Loops() int {
	n := 0
	for _, s := range p.Sizes {
		n += s.Loops
	}
	return n
}

// Prove proves a pattern. The name is that of the text in messages. step, if not nil, is
// called after each size.
func Prove(p *pattern.Pattern, name string, step func(done, of int)) *Proof {
	w := notation.Write(p)
	out := &Proof{Text: source.NewFile(name, w.Text), Written: w}
	out.Read = notation.Read(out.Text)
	out.Faults = append(out.Faults, out.Read.Faults...)
	if built, read := worked(p), worked(out.Read.Pattern); !slices.Equal(built, read) {
		out.Faults = append(out.Faults, source.Fault{Kind: source.Unread, Severity: source.Error,
			Text: source.Say("proof.words", "what is worked, read and printed again, is not what was printed: {0}", firstDifference(built, read))})
	}
	planned := knit.Knitter{Into: &fabric.Fabric{}} // only compared: its memory serves for every size
	socks := p.Socks()
	for i, size := range p.Sizes {
		for _, sock := range socks {
			planned.Sock = sock
			words := knit.Knitter{Sock: sock}
			again := words.Knit(out.Read.Pattern, i)
			out.prove(planned.Knit(p, i), again, i)
			if sock == socks[0] {
				out.Sizes = append(out.Sizes, Size{Name: size, Loops: again.Loops, Again: again})
			}
		}
		if step != nil {
			step(i+1, len(p.Sizes))
		}
	}
	out.Faults = source.Merge(out.Faults)
	return out
}

// prove compares the sock of the plan with that of the words, in one size.
func (p *Proof) prove(built, again *knit.Result, size int) {
	p.Faults = append(p.Faults, again.Faults...)
	if len(again.Faults) == 0 { // else the words have said the same, with their place
		p.Faults = append(p.Faults, built.Faults...)
	}
	wrong := func(text source.Message) {
		p.Faults = append(p.Faults, source.Fault{Sizes: source.OneSize(size), Kind: source.StitchCount, Severity: source.Error, Text: text})
	}
	if !fabric.Equal(built.Fabric, again.Fabric) {
		wrong(source.Say("proof.differs", "the printed words knit another cloth than the plan: {0}", fabric.Difference(built.Fabric, again.Fabric)))
	}
	if err := again.Fabric.CheckFinished(); err != nil && again.Left == 0 {
		wrong(source.Say("proof.unfinished", "the sock is not one finished piece of cloth: {0}", err.Error()))
	}
	if again.Left > 0 {
		wrong(source.Say("proof.left", "{0} stitches are live when the pattern ends", again.Left))
	}
}

// worked lists the lines of a pattern that are worked, with what they state.
func worked(p *pattern.Pattern) []string {
	var list []string
	for _, l := range notation.Lines(p) {
		if l.Form == notation.Instruction || l.Form == notation.Sizes {
			list = append(list, l.String())
		}
	}
	return list
}

func firstDifference(a, b []string) string {
	for i := range a {
		if i >= len(b) || a[i] != b[i] {
			return "“" + a[i] + "”"
		}
	}
	return "“" + b[len(a)] + "”"
}

package follow

import (
	"runtime"
	"slices"
	"sync"

	"sockwright/internal/script"
	"sockwright/internal/source"
)

// A Result is what following a script gave.
type Result struct {
	Faults []source.Fault
	Counts []Count
	Final  []int  // by size: stitches on the needles at the end; -1 if that cannot be told
	Sure   []bool // by size: every line could be followed
}

// Follow works a script in every size.
func Follow(s *script.Script) *Result {
	p := plan(s)
	f := follower{script: s, plan: p}
	conv, notes, torn := f.settle()
	out := &Result{}
	out.Faults = append(out.Faults, notes...)
	out.Faults = append(out.Faults, unexplained(s)...)
	type worked struct {
		final    int
		sure     bool
		counts   []Count
		found    []*found
		silenced []source.Span
	}
	sizes := make([]worked, len(s.Sizes))
	f.borneOut = f.agreements(conv)
	eachSize(len(s.Sizes), func(size int) {
		rec := newRecorder()
		literal := f.worker(size, conventions{bareMore: conv.bareMore})
		literal.literal, literal.rec = true, rec
		problems := f.run(literal)
		x := worked{final: literal.finalNow()}
		if torn {
			x.final = -1
		}
		x.sure, x.counts = x.final >= 0 && literal.known, rec.counts
		if len(problems) > 0 || conv.beforeGap || literal.doubted {
			x.found, x.silenced = f.explain(size, conv)
		}
		sizes[size] = x
	})
	var all []*found
	var silenced []source.Span
	for _, x := range sizes {
		out.Final = append(out.Final, x.final)
		out.Sure = append(out.Sure, x.sure)
		out.Counts = append(out.Counts, x.counts...)
		all = append(all, x.found...)
		silenced = append(silenced, x.silenced...)
	}
	out.Faults = append(out.Faults, notJudged(s, silenced)...)
	out.Faults = append(out.Faults, f.columns(all)...)
	return out
}

// notJudged notes the words that yielded nothing though they may be an instruction, where
// something further on is not told for want of them. Of others it has been told that they
// could not be read.
func notJudged(s *script.Script, silenced []source.Span) (out []source.Fault) {
	for i := range s.Lines {
		for _, item := range s.Lines[i].Items {
			if n, is := item.(*script.Skipped); is && slices.Contains(silenced, n.At) {
				out = append(out, source.Fault{At: n.At, Kind: source.Unread, Severity: source.Note,
					Text: source.Say("follow.passed", "{0} may be an instruction, but yields nothing; what follows is not judged until a stated count agrees", source.Quote(s.File.Slice(n.At)))})
			}
		}
	}
	return out
}

// unexplained reports terms that are explained nowhere, each where it stands first.
func unexplained(s *script.Script) (out []source.Fault) {
	seen := map[string]bool{}
	var look func([]script.Step)
	look = func(steps []script.Step) {
		for i := range steps {
			if st := &steps[i]; st.Op == script.Unknown && !seen[st.Name] {
				seen[st.Name] = true
				out = append(out, source.Fault{At: st.At, Kind: source.UndefinedTerm, Severity: source.Error,
					Text:  source.Say("follow.unknown", "{0} is explained nowhere: how many stitches it takes and makes is not known", source.Quote(st.Name)),
					Mends: []source.Mend{{Why: source.Say("follow.mend-unknown", "explain {0} in the list of abbreviations", source.Quote(st.Name))}}})
			}
			look(steps[i].Body)
		}
	}
	for i := range s.Lines {
		for _, item := range s.Lines[i].Items {
			switch n := item.(type) {
			case *script.Row:
				look(n.Steps)
			case *script.Plain:
				look(n.Steps)
			case *script.Shape:
				look(n.Steps)
			}
		}
	}
	return out
}

type follower struct {
	script   *script.Script
	plan     []entry
	borneOut []int // by entry: in how many sizes its count settled a doubt
}

func (f *follower) worker(size int, conv conventions) *worker {
	w := newWorker(f.script, f.plan, size)
	w.conv = conv
	return w
}

func (f *follower) run(w *worker) []*problem {
	var out []*problem
	for i := range f.plan {
		out = append(out, w.perform(&f.plan[i])...)
		if len(out) > 200 {
			break
		}
	}
	return out
}

// eachSize calls do for every size, as many at once as there are processors: sizes are worked
// by themselves.
func eachSize(sizes int, do func(size int)) {
	next := make(chan int)
	var all sync.WaitGroup
	for range min(sizes, runtime.GOMAXPROCS(0)) {
		all.Go(func() {
			for size := range next {
				do(size)
			}
		})
	}
	for size := range sizes {
		next <- size
	}
	close(next)
	all.Wait()
}

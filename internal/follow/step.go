package follow

import (
	"slices"

	"sockwright/internal/script"
	"sockwright/internal/source"
)

// step works one step.
func (w *worker) step(rw *rowWork, s *script.Step) *problem {
	if w.moves > maxMoves {
		return w.tooMuch(s.At)
	}
	if w.isGap(s) {
		return nil
	}
	rw.step, rw.taken = s, 0
	n, _ := w.figure(s.N, 1)
	switch s.Op {
	case script.OfChart:
		return w.chartStep(rw, s)
	case script.OfPattern:
		w.patternStep(rw, s)
	case script.ToNeedle:
		return w.toNeedle(rw, s)
	case script.Group:
		return w.group(rw, s)
	case script.PlaceMarker:
		if s.Name == "bor" || s.Name == "beg" { // the round begins anew here
			w.bor = true
			return nil
		}
		w.n.right = append(w.n.right, cell{mark: marker, name: letter(s.Name)})
		w.markers++
		w.certain(ofMarkers)
		return nil
	case script.PassMarker, script.TakeMarker:
		return w.passMarker(rw, s)
	case script.Turn:
		w.doTurn(rw, s)
		return nil
	case script.Wrap:
		c, ok := w.take(rw)
		if ok {
			c.wraps = true
			w.n.left = append(w.n.left, c)
		}
		w.doTurn(rw, s)
		return nil
	case script.PickUp:
		return w.pickUp(rw, s, n)
	case script.PassOver:
		for ; n > 0; n-- {
			if i := lastStitch(w.n.right[:max(len(w.n.right)-1, 0)]); i >= 0 {
				w.n.right = slices.Delete(w.n.right, i, i+1)
			}
		}
		return nil
	case script.Unknown:
		return &problem{untold: true} // told once for the whole text: see [unexplained]
	case script.CastMore:
		for ; n > 0; n-- {
			w.put(rw, w.model(rw))
		}
		return nil
	case script.Adjust:
		if s.N.Known() { // "inc 4 sts evenly"
			if s.Name == "dec" {
				n = -n
			}
			if w.n.worked()+n < 1 {
				return w.short(rw, s, -n, w.n.worked())
			}
			w.n.begin()
			w.adjust(n)
			w.n.begin()
			rw.came = true
			return nil
		}
		if w.corners > 0 {
			w.n.begin()
			w.n.resize(w.n.worked() - w.corners)
			w.corners = 0
			rw.came = true
		}
		return nil
	}
	if s == &rw.row.Steps[0] && w.opensWithLoop(rw) {
		w.n.right = append(w.n.right, cell{mark: loop})
		return nil
	}
	if s.To != script.Here {
		var p *problem
		if n, p = w.distance(rw, s); p != nil {
			return p
		}
		if s.Uses > 1 {
			if n%int(s.Uses) != 0 {
				return w.notDividing(rw, s.At, int(s.Uses), n)
			}
			n /= int(s.Uses)
		}
	}
	if rw.pickup && s.Part == script.Instep && s.To == script.Here {
		if p := w.bringInstep(rw, s, n); p != nil {
			return p
		}
	}
	return w.each(rw, s, n)
}

// opensWithLoop tells whether a row begins with a yarn over at the turn before it, which is a
// loop and no stitch.
func (w *worker) opensWithLoop(rw *rowWork) bool {
	first := rw.row.Steps[0]
	return first.Op == script.Increase && first.Name == "yo" && w.n.flat && hasTurn(rw.row.Steps)
}

// each works a stitch n times.
func (w *worker) each(rw *rowWork, s *script.Step, n int) *problem {
	uses, makes := int(s.Uses), int(s.Makes)
	if rw.part != 0 && rw.ndl == 0 && rw.group == nil && w.upTo(rw, 1) == 0 && count(w.n.left) > 0 { // past the part that was spoken of
		rw.part = 0
	}
	if uses == 1 && makes == 1 && w.upTo(rw, n) < n {
		if rw.pickup && w.bring(rw) { // goes on over the instep, or over the beginning
			if have := w.upTo(rw, n); have < n {
				return w.short(rw, s, n, have)
			}
		} else if s.Optional || n == 1 && w.lastOfTurn(rw, s) {
			return nil
		} else {
			return w.short(rw, s, n, w.avail(rw))
		}
	}
	for ; n > 0; n-- {
		if w.moves > maxMoves {
			return w.tooMuch(s.At)
		}
		var c cell
		uses := uses
		if s.Op == script.Decrease {
			uses -= w.n.takeLoops(uses - 1)
		}
		if uses > 0 {
			if have := w.upTo(rw, uses); have < uses {
				switch {
				case rw.pickup && w.bring(rw):
				case s.Optional || w.lastOfTurn(rw, s):
					return nil
				default:
					return w.short(rw, s, n*uses, have)
				}
			}
			heel := false
			for range uses {
				c, _ = w.take(rw)
				heel = heel || c.part == script.Heel
			}
			if heel { // with a stitch of the gusset it is one of the heel still
				c.part = script.Heel
			}
			if s.Op != script.Slip || c.mark != stitch {
				c.wraps = false
			}
			if s.Name == "ds" {
				c.wraps = true
			}
		} else {
			c = w.model(rw)
			w.moves++
		}
		for range makes {
			w.put(rw, c)
		}
		if len(w.n.right) > MaxLive {
			return w.tooWide(s.At)
		}
	}
	return nil
}

// lastOfTurn: the stitch behind a decrease falls away in the last rows of a heel turn, when
// none is left.
func (w *worker) lastOfTurn(rw *rowWork, s *script.Step) bool {
	return w.turning && (s.Op == script.Knit || s.Op == script.Purl || s.Op == script.Work) && w.upTo(rw, 1) == 0
}

// hasWraps tells whether a stitch of the left needle is wrapped.
func (w *worker) hasWraps() bool {
	return slices.ContainsFunc(w.n.left, func(c cell) bool { return c.wraps })
}

// toNeedle comes to the needle or part that the next steps are for.
func (w *worker) toNeedle(rw *rowWork, s *script.Step) *problem {
	if rw.pickup {
		rw.ndl = s.Needle
		return nil
	}
	if p := w.needleLeft(rw); p != nil {
		return p
	}
	if s.Needle > 0 {
		k := 2
		for _, t := range rw.row.Steps {
			k = max(k, t.Needle)
		}
		w.needNeedles(max(k, s.Needle))
		rw.ndl, rw.part = s.Needle, 0
	} else {
		w.needParts(rw)
		rw.ndl, rw.part = 0, s.Part
		if _, told := w.n.inPart(s.Part); !told && count(w.n.right) > 0 { // what is left is that part
			rw.part = script.NoPart
		}
		if part := w.partHere(s.Part); part != script.NoPart {
			rw.part = part
		}
	}
	if w.upTo(rw, 1) == 0 && count(w.n.left) > 0 {
		if _, told := w.n.onNeedle(1); told && s.Needle > 0 || s.Needle == 0 {
			// the words jump over stitches of another needle: they are worked plain
			w.skipOthers(rw)
		}
	}
	return nil
}

// needleLeft: the stitches of the needle that the steps were for must all be worked.
func (w *worker) needleLeft(rw *rowWork) *problem {
	if rw.pickup || rw.ndl == 0 && rw.part == 0 {
		return nil
	}
	if left := w.avail(rw); left > 0 && rw.ndl > 0 {
		return w.fail(rw.row.At, source.StitchCount, source.Say("follow.needle-left", "{0} leaves {1} of N{2} unworked", rw.label, source.InSts(left), rw.ndl), nil, source.Sts(left))
	}
	return nil
}

func (w *worker) passMarker(rw *rowWork, s *script.Step) *problem {
	switch {
	case s.Name == "bor":
		return nil
	case s.Op == script.TakeMarker && s.Name == "all":
		w.n.takeMarkers()
		w.markers = 0
		return nil
	case s.Op == script.TakeMarker && w.n.takePassed(letter(s.Name)): // "ssk over B, taking B out"
		w.markers--
		return nil
	}
	for i, c := range slices.Backward(w.n.left) {
		if c.mark == gap {
			continue
		}
		if c.mark == marker {
			if s.Name != "" && c.name != 0 && c.name != letter(s.Name) {
				break
			}
			w.n.left = w.n.left[:i]
			if s.Op == script.PassMarker {
				w.n.right = append(w.n.right, c)
			} else {
				w.markers--
			}
			return nil
		}
		break
	}
	if count(w.n.left) == 0 { // the marker at the beginning of the round
		return nil
	}
	if len(w.n.right) > 0 && w.n.right[len(w.n.right)-1].mark == marker { // passed already
		return nil
	}
	if w.markers == 0 || len(rw.row.Steps) > 1 && count(w.n.right) > 0 {
		return w.noMarkerHere(rw, s)
	}
	return nil
}

// hang puts a marker where the round begins, or takes markers off the needle wherever they hang.
func (w *worker) hang(n *script.Markers) *problem {
	if !n.Off {
		w.bor = true
		return nil
	}
	meant := func(c cell) bool {
		return c.mark == marker && (n.Names == nil || slices.ContainsFunc(n.Names, func(name string) bool { return letter(name) == c.name }))
	}
	for _, side := range []*[]cell{&w.n.left, &w.n.right} {
		have := len(*side)
		*side = slices.DeleteFunc(*side, meant)
		w.markers -= have - len(*side)
	}
	if n.Names == nil {
		w.bor = false
	}
	return nil
}

func (w *worker) noMarkerHere(rw *rowWork, s *script.Step) *problem {
	text := source.Say("follow.marker-missing", "{0} slips a marker here, but there is none", rw.label)
	if n, found := w.n.stitchesTo(func(c cell) bool { return c.mark == marker }); found {
		text = source.Say("follow.marker-later", "{0} slips a marker here, but the next one is {1} further on", rw.label, source.InSts(n))
	}
	return w.fail(s.At, source.Marker, text, nil, nil)
}

func letter(name string) uint8 {
	if name == "" || name == "beg" || name == "bor" {
		return 0
	}
	return name[0]
}

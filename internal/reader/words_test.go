package reader_test

import (
	"fmt"
	"strings"
	"testing"

	"sockwright/internal/pattern"
	"sockwright/internal/reader"
	"sockwright/internal/script"
	"sockwright/internal/source"
)

// items reads lines that stand below a cast-on, and says what the items of those lines are.
// Words that could not be read are told as well.
func items(text string) string {
	f := source.NewFile("sock.txt", "SOCK\nCO 60 sts; join.\nRnd 1: Knit.\n"+text)
	s := reader.Read(f)
	var out []string
	for _, l := range s.Lines[3:] {
		for _, it := range l.Items {
			out = append(out, item(it))
		}
	}
	for _, x := range s.Faults {
		out = append(out, "fault: "+x.Text.String())
	}
	return strings.Join(out, "; ")
}

func item(it script.Item) string {
	switch n := it.(type) {
	case *script.Row:
		out := "row"
		if len(n.Label.Nums) > 0 {
			out += " " + strings.Trim(fmt.Sprint(n.Label.Nums), "[]")
		}
		return out + ": " + steps(n.Steps) + stop(n.Stop) + claims(n.Claims)
	case *script.Repeat:
		out := "repeat"
		if n.Ref.Last != 0 {
			out += fmt.Sprintf(" last %d", n.Ref.Last)
		}
		if n.Ref.Nums != nil {
			out += " " + strings.Trim(fmt.Sprint(n.Ref.Nums), "[]")
		}
		return out + stop(&n.Stop) + claims(n.Claims)
	case *script.Plain:
		return "plain " + n.Fabric + stop(&n.Stop) + claims(n.Claims)
	case *script.Shape:
		out := "shape"
		if n.Change.Known() {
			out += " " + values(n.Change)
		}
		if n.Name != "" {
			out += " as " + n.Name
		}
		if n.Every > 0 {
			out += fmt.Sprintf(" every %d", n.Every)
		}
		if n.First > 0 {
			out += fmt.Sprintf(" from %d", n.First)
		}
		if n.Steps != nil {
			out += ": " + steps(n.Steps)
		}
		return out + stop(&n.Stop) + claims(n.Claims)
	case *script.State:
		out := "state"
		if n.Turned {
			out = "turned"
		}
		return out + claims(n.Claims)
	case *script.Divide:
		out := "divide"
		if n.N.Known() {
			out += " " + values(n.N)
		}
		if n.Fabric != "" {
			out += " in " + n.Fabric
		}
		return out
	case *script.Facing:
		return "facing " + n.Side.String()
	case *script.Section:
		return "section " + n.Name
	case *script.Lift:
		out := "lift"
		for _, c := range n.Parts {
			out += " " + values(c)
		}
		return out + fmt.Sprintf(" and %s in %d corners", values(n.Corner), n.Corners) + claims(n.Claims)
	}
	return strings.ToLower(strings.TrimPrefix(fmt.Sprintf("%T", it), "*script."))
}

func values(n pattern.Number) string { return pattern.List(n.Strings()) }

func stop(s *script.Stop) string {
	if s == nil {
		return ""
	}
	names := map[script.StopKind]string{script.NoStop: "", script.Times: " %s times", script.InAll: " %s times in all", script.More: " %s times more",
		script.Rows: " for %s rows", script.MoreRows: " for %s rows more", script.Remain: " until %s", script.Measures: " until a length", script.UsedUp: " until used up",
		script.Wrapped: " until %s are wrapped", script.Unwrapped: " until %s are not wrapped", script.Ridges: " until %s ridges", script.Split: " until", script.Reps: " %s reps", script.ToEnd: " to end"}
	out := names[s.Kind]
	if strings.Contains(out, "%s") {
		out = fmt.Sprintf(out, values(s.N))
	}
	if s.Side != script.NoSide {
		out += " after a " + s.Side.String()
	}
	if s.Kind == script.Remain { // the claim is the stop
		return out
	}
	return out + claims(s.Claims)
}

func claims(list []script.Claim) string {
	out := ""
	for _, c := range list {
		names := map[script.What]string{script.Live: "", script.Total: "in all", script.OfPart: "of part", script.OnNdl: fmt.Sprintf("on N%d", c.Needle), script.EachNdl: "on each", script.RowCount: "rows", script.Change: "more", script.Edges: "edges", script.WrapEach: "wrapped", script.WrapNone: "not wrapped", script.Between: "between " + c.Name, script.HasMiddle: "middle"}
		out += strings.TrimRight(fmt.Sprintf(" (%s %s", values(c.N), names[c.What]), " ") + ")"
	}
	return out
}

var ops = map[script.Op]string{script.Work: "work", script.Knit: "k", script.Purl: "p", script.Slip: "sl", script.Decrease: "dec", script.Increase: "inc", script.Turn: "turn", script.Wrap: "wrap",
	script.PickUp: "pick", script.PlaceMarker: "pm", script.PassMarker: "sm", script.ToNeedle: "N", script.OfChart: "chart", script.Adjust: "adjust", script.OfPattern: "patt"}

func steps(list []script.Step) string {
	var out []string
	for _, s := range list {
		one := ops[s.Op]
		if s.Op == script.Group {
			out = append(out, "["+steps(s.Body)+"]"+stop(&s.Stop))
			continue
		}
		if s.N.Known() {
			one += values(s.N)
		}
		if s.Needle > 0 {
			one += fmt.Sprint(s.Needle)
		}
		if s.To != script.Here {
			one += [...]string{"", " to end", " to gap", " to m", " to wrap", " to side", " to part", " to middle"}[s.To]
		}
		if s.Last > 0 {
			one += fmt.Sprintf(" from %d", s.Last)
		}
		if s.Edge {
			one += " of edge"
		}
		if s.Minus.Known() {
			one += " less " + values(s.Minus)
		}
		out = append(out, one)
	}
	return strings.Join(out, ", ")
}

// alike holds ways of saying one thing, and what every one of them must be read as.
type alike struct {
	is  string
	say []string
}

func (a alike) test(t *testing.T) {
	for _, text := range a.say {
		if have := items(text); have != a.is {
			t.Errorf("%s\n  is read as %s\n  should be  %s", text, have, a.is)
		}
	}
}

package publish

import (
	"slices"

	"sockwright/internal/design"
	"sockwright/internal/pattern"
	"sockwright/internal/sock"
	"sockwright/internal/source"
)

// twoAtATime tells how both socks of a pair are worked on one long needle: the instructions
// are those of one sock, and each line is worked on both.
func (c *composer) twoAtATime() *pattern.Section {
	s := section("Two at a time",
		para(say("two.what", "Both socks are worked side by side on one long circular needle, each from a ball of its own, or from both ends of one. The instructions and their counts are for one sock: every line is worked on both socks before the next one is begun, but for what is worked by itself as told below.")),
		para(say("two.begin", "Each sock begins by itself, on a spare needle of the same size if there is one: all lines up to the end of the first 2 rnds that are worked over all sts. Then both go on the long needle, N1 of sock 1 and N1 of sock 2 on one tip, N2 of both on the other, and the cable in between. As N1 faces you with the RS out, sock 1 lies on the {right} and both yarns come from the {right} end of their N1.")),
		para(say("two.round", "In every rnd N1 of sock 1 is worked, its yarn dropped, and N1 of sock 2 worked with the other yarn; then the whole work is turned, and N2 of sock 2 is worked, then N2 of sock 1. The rnd is over when both socks are back at their N1. Turned one way and back the other way by turns, the two yarns do not twist round each other. A locking marker of another color in each sock tells the two apart.")),
		para(say("two.apart", "What is not a rnd over all sts is worked by itself: the rows of a heel, its picking up and its partial rows or rnds are worked on sock 1 as far as the next rnd over all sts, and then on sock 2, while the other sts wait on the needle; sts that lie in the way are slipped without working them. Where the rnd then begins at another place, N1 and N2 of both socks are sorted on the two tips as before. Cast-ons, bind-offs and grafts are done one sock after the other too.")))
	if slices.ContainsFunc(c.Parts(), func(p sock.Part) bool { return p.Sided }) {
		s.Body = append(s.Body, para(say("two.sided", "Sock 1 is the right sock, sock 2 the left one: where lines are for one of them only, the first line of the one and the first line of the other are worked in the same rnd, and so on.")))
	}
	return s
}

// twoOnOne is why two socks cannot be worked at a time as a design holds its stitches, or nil.
func twoOnOne(d *sock.Draft) *source.Fault {
	if d.Method == design.MagicLoop {
		return nil
	}
	return &source.Fault{Kind: source.BadValue, Severity: source.Error,
		Text:  say("publish.two", "two socks at a time are worked on one long circular needle, and this design's are held otherwise: needles.method is “{0}”", string(d.Method)),
		Mends: []source.Mend{{Why: say("publish.two.mend", `write method = "magic-loop" in the table [needles]`)}}}
}

package pattern_test

import (
	"reflect"
	"testing"

	"sockwright/internal/pattern"
	"sockwright/internal/source"
)

// sided is a pattern with all that has sides; two of its rows share their steps.
func sided() *pattern.Pattern {
	steps := []pattern.Step{{Op: pattern.PickUp, Edge: pattern.LeftEdge}, {Op: pattern.PickUp, Edge: pattern.Corner},
		{Op: pattern.Group, Body: []pattern.Step{{Op: pattern.PickUp, Edge: pattern.RightEdge}}}}
	row := func() *pattern.Row { return &pattern.Row{Parts: []pattern.Part{{Steps: steps}}} }
	return &pattern.Pattern{Title: "Gable End", Sizes: []string{"S", "M"}, Sections: []*pattern.Section{{Body: []pattern.Node{
		&pattern.Prose{Text: pattern.Fill(source.Say("k", "{0} sts at the {right}, as the right side shows", pattern.Of(3, 4)))},
		row(), row(),
		&pattern.Only{Sizes: source.AllSizes(2), Sock: pattern.RightSock, Body: []pattern.Node{row()}},
		&pattern.Only{Sizes: source.OneSize(1), Body: []pattern.Node{row()}},
	}}}}
}

func TestMirror(t *testing.T) {
	p := sided()
	p.Mirror()
	body := p.Sections[0].Body
	if got, want := body[0].(*pattern.Prose).Text, pattern.Fill(source.Say("k", "{0} sts at the {left}, as the right side shows", pattern.Of(3, 4))); !reflect.DeepEqual(got, want) {
		t.Errorf("the words are %+v", got)
	}
	for i := 1; i < 3; i++ {
		steps := body[i].(*pattern.Row).Parts[0].Steps
		if steps[0].Edge != pattern.RightEdge || steps[1].Edge != pattern.Corner || steps[2].Body[0].Edge != pattern.LeftEdge {
			t.Errorf("row %d has the steps %+v", i, steps)
		}
	}
	if one, some := body[3].(*pattern.Only), body[4].(*pattern.Only); one.Sock != pattern.LeftSock || some.Sock != pattern.BothSocks {
		t.Errorf("the groups are for the socks %v and %v", one.Sock, some.Sock)
	}
	if one := p.ForSize(1); !p.LeftHanded || !one.LeftHanded {
		t.Error("the hand is lost")
	}
	if p.Mirror(); !reflect.DeepEqual(p, sided()) {
		t.Errorf("mirrored twice it is %+v", p)
	}
}

// TestMirrorOneSize mirrors a pattern of one size, whose words have been joined.
func TestMirrorOneSize(t *testing.T) {
	one := sided().ForSize(0)
	one.Mirror()
	want := sided()
	want.Mirror()
	if !reflect.DeepEqual(one, want.ForSize(0)) {
		t.Error("one size mirrored is not the mirrored pattern's one size")
	}
}

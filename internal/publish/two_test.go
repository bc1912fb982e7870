package publish_test

import (
	"slices"
	"strings"
	"testing"

	"sockwright/internal/publish"
	"sockwright/internal/source"
)

// TestTwoAtATime holds the edition to the instructions of one sock, for every part that can
// be worked on one long needle.
func TestTwoAtATime(t *testing.T) {
	made, loops := 0, 0
	for _, text := range everyChoice() {
		if !strings.Contains(text, `method = "magic-loop"`) {
			continue
		}
		if loops++; loops%3 > 0 {
			continue
		}
		one := madeOrRefused(t, text)
		if one == nil {
			continue
		}
		two, faults, err := publish.Make(source.NewFile("sweep.toml", text), publish.Options{TwoAtATime: true})
		if err != nil || two == nil {
			t.Fatalf("%v %v\n%s", err, faults, text)
		}
		made++
		if !slices.Equal(instructions(one.Pattern), instructions(two.Pattern)) {
			t.Errorf("two socks at a time are worked by other lines\n%s", text)
		}
		sided := one.Pattern.Socks()[0] != 0
		if got := strings.Contains(two.Proof.Text.Text, "Sock 1 is the right sock"); got != sided {
			t.Errorf("which sock is which is told: %v\n%s", got, text)
		}
	}
	if made < 30 {
		t.Errorf("only %d socks made", made)
	}
}

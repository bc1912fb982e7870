package witness

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

// mangle exchanges lines, drops lines or drops a step of a line.
func mangle(lines []string, r *rand.Rand) []string {
	lines = slices.Clone(lines)
	i, j := r.IntN(len(lines)), r.IntN(len(lines))
	switch r.IntN(3) {
	case 0:
		lines[i], lines[j] = lines[j], lines[i]
	case 1:
		lines = slices.Delete(lines, i, i+1)
	case 2:
		steps := strings.Split(lines[i], ", ")
		k := r.IntN(len(steps))
		lines[i] = strings.Join(slices.Delete(steps, k, k+1), ", ")
	}
	return lines
}

// However a text is mangled, Run comes to an end without a panic.
func TestMangled(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	texts := []string{bandHeel, threeSizes}
	for _, p := range workedPatterns {
		text, _ := worked(t, p.name)
		texts = append(texts, text)
	}
	for _, text := range texts {
		lines := strings.Split(text, "\n")
		unreadable, wrong := 0, 0
		for range 500 {
			mangled := mangle(lines, r)
			for range r.IntN(3) {
				mangled = mangle(mangled, r)
			}
			report, err := Run(strings.Join(mangled, "\n"))
			switch {
			case err != nil:
				unreadable++
			case len(report.Wrong) > 0:
				wrong++
			}
		}
		if unreadable == 0 || wrong == 0 {
			t.Errorf("%d texts are unreadable, %d wrong", unreadable, wrong)
		}
	}
}

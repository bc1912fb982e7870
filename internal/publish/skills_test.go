package publish_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"
)

// The skills are those that the printed lines ask for: what a sock from the toe up increases,
// a toe that is gathered, an edge that is grafted.
func TestSkills(t *testing.T) {
	skill := map[string]*regexp.Regexp{
		"increasing":   regexp.MustCompile(`\b(M1L|M1R|LLI|RLI|kfb)\b`),
		"decreasing":   regexp.MustCompile(`\b(ssk|k2tog|p2tog)\b`),
		"grafting":     regexp.MustCompile(`(?m)^(Graft the|BO all .* tubular)`),
		"crossing sts": regexp.MustCompile(`\b(RPC|LPC)\b`),
		"slipping sts": regexp.MustCompile(`(?m)^Row .*[sS]l 1`),
	}
	for _, design := range []string{
		"direction = \"toe-up\"\n%s[heel]\nkind = \"cup\"\n",
		"direction = \"toe-up\"\n%s[heel]\nkind = \"wrapped\"\n[gusset]\nkind = \"mini\"\n[toe]\nkind = \"short-row\"\n",
		"direction = \"toe-up\"\n%s[heel]\nkind = \"cup\"\n[cuff]\nedge = \"tubular\"\n[toe]\nkind = \"spiral\"\n",
		"direction = \"toe-up\"\n%s[heel]\nkind = \"sole-band\"\n[leg]\nkind = \"calf\"\n[toe]\nkind = \"anatomical\"\n",
		"%s[heel]\nkind = \"round\"\n[toe]\nclosing = \"gather\"\n[cuff]\nedge = \"tubular\"\n",
		"%s[heel]\nkind = \"square\"\n[toe]\nclosing = \"three-needle\"\n",
		"%s[heel]\nkind = \"common\"\n[toe]\nkind = \"star\"\n",
	} {
		text := printed(t, strings.ReplaceAll(design, "%s", threeWomen), "").Proof.Text.Text
		skills := strings.Split(regexp.MustCompile(`(?m)^Skills: (.*)$`).FindStringSubmatch(text)[1], ", ")
		_, worked, _ := strings.Cut(text, "\nSkills: ")
		for name, asked := range skill {
			if got, want := slices.Contains(skills, name), asked.MatchString(worked); got != want {
				t.Errorf("%s among the skills: %v, want %v, in\n%s", name, got, want, design)
			}
		}
	}
}

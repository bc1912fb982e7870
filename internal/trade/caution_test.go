package trade

import (
	"strings"
	"testing"
)

func TestCautions(t *testing.T) {
	for _, c := range cautions() {
		if !strings.HasSuffix(c.Text, ".") || len(c.Text) >= 260 || c.Source == "" {
			t.Errorf("%s: source %q, %d bytes: %s", c.Key, c.Source, len(c.Text), c.Text)
		}
	}
	for key, word := range map[string]string{
		"baby-threads": "medical help", "baby-cuff": "doctor", "cuff-circulation": "doctor",
		"diabetes": "podiatrist", "slippery-sole": "slippery", "fibre": "doctor",
	} {
		if c, ok := CautionByKey(key); !ok || !strings.Contains(c.Text, word) {
			t.Errorf("CautionByKey(%q) = %q, want it to speak of %q", key, c.Text, word)
		}
	}
	if c, ok := CautionByKey("wool"); ok {
		t.Errorf("CautionByKey(wool) = %v, want none", c)
	}
}

package rules_test

import (
	"strings"
	"testing"

	"rillkey/couplets/rules"
	"rillkey/taxa/plain"
)

// Whatever the text: checking ends, every finding has a page and a place in the
// text, and none carries a control character.
func FuzzCheck(f *testing.F) {
	for _, p := range rules.Pages() {
		f.Add(p.Fails)
		f.Add(p.Passes)
	}
	c := catalog(f)
	f.Fuzz(func(t *testing.T, text string) {
		lines := strings.Split(text+head, "\n")
		for _, found := range examine(t, text, c, "worm", "beetle") {
			if _, ok := rules.Explain(found.Rule); !ok || plain.HasControl(found.Error()) || found.Line > len(lines) {
				t.Fatalf("%q", found.Error())
			}
		}
	})
}

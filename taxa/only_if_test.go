package taxa_test

import (
	"strings"
	"testing"
)

// Of the built-in catalog no animal shows anything of a part that it cannot have.
func TestPartsHangOnTheirWholes(t *testing.T) {
	catalog, hanging := embedded(t), 0
	for _, part := range catalog.Vocabulary().Traits() {
		if part.OnlyIf != nil {
			hanging++
		}
		for _, taxon := range catalog.Taxa() {
			if states := catalog.Vocabulary().HangsWrongly(taxon, part); states != nil {
				t.Errorf("%s shows %s=%v, but never %s=%v", taxon.ID, part.ID, states, part.OnlyIf.Trait, part.OnlyIf.States)
			}
		}
	}
	if hanging < 30 {
		t.Errorf("%d traits hang on another", hanging)
	}
}

func TestAPartHangsOnWhatThereIs(t *testing.T) {
	const whole = `
[trait.tails]
question = "Tails?"
look = "eye"
misread = 0.1
source = "memory"
state.none.label = "no tails"
state.two.label = "two"
[trait.length]
question = "How long are they?"
look = "eye"
misread = 0.1
source = "memory"
`
	for _, row := range []struct{ why, part, says string }{
		{"in order", `only_if = { tails = "two" }` + "\nstate.none.label = \"none\"\nstate.long.label = \"long\"\n", ""},
		{"no such trait", `only_if = { tail = "two" }` + "\nstate.none.label = \"none\"\nstate.long.label = \"long\"\n",
			`there is no trait "tail"`},
		{"no such state", `only_if = { tails = "three" }` + "\nstate.none.label = \"none\"\nstate.long.label = \"long\"\n", `"three"`},
		{"leaves what is there", "state.none.label = \"none\"\nstate.long = { label = \"long\", leaves = [\"tails\"] }\n", ""},
		{"leaves no such trait", "state.none.label = \"none\"\nstate.long = { label = \"long\", leaves = [\"tail\"] }\n",
			`no trait "tail"`},
		{"two traits", `only_if = { tails = "two", length = "long" }` +
			"\nstate.none.label = \"none\"\nstate.long.label = \"long\"\n", "hangs on one trait"},
		{"no state for where it is not",
			`only_if = { tails = "two" }` + "\nstate.short.label = \"short\"\nstate.long.label = \"long\"\n", `no state "none"`},
	} {
		_, err := load(whole+row.part, "")
		if row.says == "" && err != nil || row.says != "" && (err == nil || !strings.Contains(err.Error(), row.says)) {
			t.Errorf("%s: %v, want %q", row.why, err, row.says)
		}
	}
}

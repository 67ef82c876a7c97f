package taxa_test

import (
	"slices"
	"strings"
	"testing"

	"rillkey/taxa"
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

// Of a trait that nobody is asked for beside something else all that live and show that
// have one and the same state.
func TestWhatIsLeftUnaskedIsSoOfAll(t *testing.T) {
	catalog, left := embedded(t), 0
	for _, trait := range catalog.Vocabulary().Traits() {
		for _, by := range trait.UnaskedIf {
			same := ""
			for _, taxon := range catalog.Taxa() {
				shows, has := taxon.States(by.Trait), taxon.States(trait.ID)
				living := taxon.States("living")
				beside := func(w taxa.Weight) bool { return !slices.Contains(by.States, w.State) }
				if len(shows) == 0 || len(has) == 0 || slices.ContainsFunc(shows, beside) || len(living) > 0 && living[0].State != "yes" {
					continue
				}
				if left++; same == "" {
					same = has[0].State
				}
				if len(has) > 1 || has[0].State != same {
					t.Errorf("%s with %s=%v has %s=%v, others %s", taxon.ID, by.Trait, by.States, trait.ID, has, same)
				}
			}
		}
	}
	if left < 15 {
		t.Errorf("only %d taxa are asked for less", left)
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

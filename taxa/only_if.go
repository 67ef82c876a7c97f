package taxa

import (
	"fmt"
	"slices"

	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
)

// absent is the state of a part that is not there.
const absent = "none"

// Condition is what a part hangs on: it can be there only where the trait has one of
// these states.
type Condition struct {
	Trait  string
	States []string
}

// HangsWrongly are the states of the part that a taxon can show besides "none",
// though it never shows any of those on which the part hangs; none where that is in
// order or unknown.
func (v *Vocabulary) HangsWrongly(t *Taxon, part *Trait) []string {
	if part.OnlyIf == nil {
		return nil
	}
	whole := t.States(part.OnlyIf.Trait)
	if whole == nil || slices.ContainsFunc(whole, func(w Weight) bool { return slices.Contains(part.OnlyIf.States, w.State) }) {
		return nil
	}
	var out []string
	for _, w := range t.States(part.ID) {
		if w.State != absent {
			out = append(out, w.State)
		}
	}
	return out
}

// readOnlyIf reads what a trait hangs on, nil for nothing.
func readOnlyIf(n authored.Section) *Condition {
	table := n.Sub("only_if")
	if table == nil {
		return nil
	}
	keys := table.Keys()
	if len(keys) != 1 {
		n.Fail("only_if", "unknown-state", "a part hangs on one trait", `write only_if = { tails = ["2", "3"] }`)
		return nil
	}
	c := &Condition{keys[0], table.Strs(keys[0])}
	table.Done()
	return c
}

// checkOnlyIf finds parts that hang on what the vocabulary lacks.
func (v *Vocabulary) checkOnlyIf(rows []authored.Section) {
	for i, t := range v.traits {
		if t.OnlyIf == nil {
			continue
		}
		if problem, hint := v.Unknown(t.OnlyIf.Trait, t.OnlyIf.States...); problem != "" {
			rows[i].Fail("only_if", "unknown-state", problem, hint)
		}
		if t.State(absent) < 0 || t.OnlyIf.Trait == t.ID {
			rows[i].Fail("only_if", "unknown-state",
				fmt.Sprintf("the trait %s has no state %s for where it is not there", plain.Quote(t.ID), plain.Quote(absent)),
				"give it that state")
		}
	}
}

package taxa

import (
	"slices"

	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// absent is the state of a part that is not there.
const absent = "none"

// Dependence is that a trait has one of these states: a part hangs on that, or is hidden
// by it.
type Dependence struct {
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

// Holds reports whether an animal that shows these states, one by trait, fulfils it.
func (c *Dependence) Holds(shows map[string]string) bool {
	return c != nil && slices.Contains(c.States, shows[c.Trait])
}

// readCondition reads what a trait hangs on, or is hidden by, nil for nothing.
func readCondition(n authored.Section, name string) *Dependence {
	table := n.Sub(name)
	if table == nil {
		return nil
	}
	keys := table.Keys()
	if len(keys) != 1 {
		n.Fail(name, "unknown-state", wording.Text("a part hangs on one trait, or is hidden by one"),
			wording.Sprintf(`write %s = { tails = ["2", "3"] }`, name))
		return nil
	}
	c := &Dependence{keys[0], table.Strs(keys[0])}
	table.Done()
	return c
}

// readConditions reads the things of which each by itself leaves a trait unasked.
func readConditions(n authored.Section, name string) (out []Dependence) {
	table := n.Sub(name)
	if table == nil {
		return nil
	}
	for _, trait := range table.Keys() {
		out = append(out, Dependence{trait, table.Strs(trait)})
	}
	table.Done()
	return out
}

// checkOnlyIf finds parts that hang on what the vocabulary lacks, are hidden or left
// unasked by it, or are left by a state.
func (v *Vocabulary) checkOnlyIf(rows []authored.Section) {
	for i, t := range v.traits {
		if by := t.HiddenIf; by != nil {
			if problem, hint := v.Unknown(by.Trait, by.States...); problem != "" {
				rows[i].Fail("hidden_if", "unknown-state", problem, hint)
			}
		}
		for _, by := range t.UnaskedIf {
			if problem, hint := v.Unknown(by.Trait, by.States...); problem != "" {
				rows[i].Fail("unasked_if", "unknown-state", problem, hint)
			}
		}
		for _, state := range rows[i].Subs("state") {
			for n, trait := range t.States[t.State(state.ID)].Leaves {
				if problem, hint := v.Unknown(trait); problem != "" {
					state.FailAt(state.Elem("leaves", n), "unknown-trait", problem, hint)
				}
			}
		}
		if t.OnlyIf == nil {
			continue
		}
		if problem, hint := v.Unknown(t.OnlyIf.Trait, t.OnlyIf.States...); problem != "" {
			rows[i].Fail("only_if", "unknown-state", problem, hint)
		}
		if t.State(absent) < 0 || t.OnlyIf.Trait == t.ID {
			rows[i].Fail("only_if", "unknown-state",
				wording.Sprintf("the trait %s has no state %s for where it is not there", plain.Quote(t.ID), plain.Quote(absent)),
				wording.Text("give it that state"))
		}
	}
}

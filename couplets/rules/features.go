package rules

import (
	"slices"

	"rillkey/couplets"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// mixedFeatures finds leads that speak of a trait which no other lead of their
// couplet speaks of. Of three or more leads, a trait may part only some.
func mixedFeatures(f *finder) {
	for c, l := range f.File.Leads() {
		for _, cond := range l.Conditions {
			if alone(c, l, cond.Trait) {
				f.warn(cond.Pos, wording.Sprintf("lead %s%s speaks of %s, the other does not", c.ID, l.Letter,
					plain.Quote(cond.Trait)), wording.Text("say in both leads what the feature looks like, or leave it out"))
			}
		}
	}
}

// alone reports whether no lead of a couplet but this one speaks of the trait.
func alone(c *couplets.Couplet, l *couplets.Lead, trait string) bool {
	for k := range c.Leads {
		if &c.Leads[k] != l && slices.ContainsFunc(c.Leads[k].Conditions, func(c couplets.Condition) bool { return c.Trait == trait }) {
			return false
		}
	}
	return true
}

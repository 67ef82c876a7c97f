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
	for i := range f.File.Couplets {
		c := &f.File.Couplets[i]
		for j := range c.Leads {
			for _, cond := range c.Leads[j].Conditions {
				if alone(c, j, cond.Trait) {
					f.warn(cond.At, wording.Sprintf("lead %s%s speaks of %s, the other does not", c.ID, c.Leads[j].Letter,
						plain.Quote(cond.Trait)), wording.Text("say in both leads what the feature looks like, or leave it out"))
				}
			}
		}
	}
}

// alone reports whether no lead but the one at place j speaks of the trait.
func alone(c *couplets.Couplet, j int, trait string) bool {
	for k := range c.Leads {
		if k != j && slices.ContainsFunc(c.Leads[k].Conditions, func(c couplets.Condition) bool { return c.Trait == trait }) {
			return false
		}
	}
	return true
}

package versions

import (
	"fmt"
	"strings"

	"rillkey/couplets"
)

// FirstChanged is the first couplet of now that says something else than the one of its
// number before, or is new; empty where none is.
func FirstChanged(before, now *couplets.File) string {
	old := map[string]string{}
	for i := range before.Couplets {
		old[before.Couplets[i].ID] = said(&before.Couplets[i])
	}
	for i := range now.Couplets {
		if c := &now.Couplets[i]; old[c.ID] != said(c) {
			return c.ID
		}
	}
	return ""
}

// said is all that a couplet says, in the order in which it says it.
func said(c *couplets.Couplet) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%q %q %q", c.Ask, c.Wait, c.Stop)
	for _, l := range c.Leads {
		fmt.Fprintf(&b, " %q %q %q", l.Text, l.To, l.Taxa)
		for _, cond := range l.Conditions {
			fmt.Fprintf(&b, " %q %q", cond.Trait, cond.States)
		}
	}
	return b.String()
}

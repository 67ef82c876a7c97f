package versions

import (
	"fmt"
	"strings"

	"rillkey/couplets"
)

// LastEdited is the couplet of now that its author is at work on: the first that says
// something else than the one of its number before, or is new; the key's first where none
// does or before is nil.
func LastEdited(before, now *couplets.File) string {
	if before == nil {
		return now.Start
	}
	old := map[string]string{}
	for i := range before.Couplets {
		old[before.Couplets[i].ID] = said(&before.Couplets[i])
	}
	for i := range now.Couplets {
		if c := &now.Couplets[i]; old[c.ID] != said(c) {
			return c.ID
		}
	}
	return now.Start
}

// said is all that a couplet says, in the order in which it says it.
func said(c *couplets.Couplet) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%q %q %q", c.Ask, c.Wait, c.Stop)
	for _, l := range c.Leads {
		fmt.Fprintf(&b, " %q %q %q", l.Text, l.Next, l.Taxa)
		for _, cond := range l.Conditions {
			fmt.Fprintf(&b, " %q %q", cond.Trait, cond.States)
		}
	}
	return b.String()
}

package publish

import (
	"strings"

	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// obscureCompared puts public names for the sites that visits are compared with.
func (c *county) obscureCompared() {
	public := map[string]string{}
	for _, s := range c.sites {
		public[folded(s.newest().Visit.Site)] = s.name
	}
	named := func(site string) string {
		switch name := public[folded(site)]; {
		case name != "":
			return name
		case c.obscured[plain.Fold(site)]:
			return wording.Text("a site whose place is withheld")
		}
		return plain.OneLine(site)
	}
	for _, s := range c.sites {
		for _, v := range s.visits {
			v.comparison = s.place(v).BesideOf(v.Row)
			if v.Reference == "" {
				continue
			}
			v.Reference = named(v.Reference)
			v.comparison.Words = strings.ReplaceAll(v.comparison.Words, v.comparison.Site, v.Reference)
			v.comparison.Site = v.Reference
		}
		for i := range s.judged {
			s.judged[i].Rename(named)
		}
	}
}

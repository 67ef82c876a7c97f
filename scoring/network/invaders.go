package network

import (
	"cmp"
	"slices"

	"rillkey/scoring"
	"rillkey/scoring/visit"
	"rillkey/taxa"
)

// InvadersIn finds which of some taxa do not belong in a visit's own region, each once in
// the order of their ids; where the catalog is that of one region, in that.
func InvadersIn(catalog *taxa.Catalog) func(v *visit.Visit, found []string) []string {
	in := map[string]*taxa.Catalog{}
	for _, r := range catalog.Regions() {
		in[r.ID] = catalog.InRegion(r)
	}
	return func(v *visit.Visit, found []string) (out []string) {
		c := catalog
		if catalog.Region() == nil {
			if r := scoring.RegionOf(catalog, v.Header); r != nil {
				c = cmp.Or(in[r.ID], catalog)
			}
		}
		for _, id := range found {
			if t := c.Taxon(c.Current(id)); t != nil && t.Invader != nil {
				out = append(out, t.ID)
			}
		}
		slices.Sort(out)
		return slices.Compact(out)
	}
}

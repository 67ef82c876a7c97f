package scoring

import (
	"slices"

	"rillkey/scoring/scheme"
	"rillkey/taxa"
)

// Followed are the protocols that may be followed in the catalog's region: its own,
// and those that no region names.
func (r *Rules) Followed(catalog *taxa.Catalog) (out []*scheme.Protocol) {
	here := catalog.Region()
	for _, p := range r.Protocols() {
		names := func(of *taxa.Region) bool { return slices.Contains(of.Protocols, p.ID) }
		if here == nil || names(here) || !slices.ContainsFunc(catalog.Regions(), names) {
			out = append(out, p)
		}
	}
	return out
}

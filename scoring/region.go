package scoring

import (
	"rillkey/scoring/visit"
	"rillkey/taxa"
)

// RegionOf is the region that a visit names, else the only one that follows its protocol;
// nil where there is none.
func RegionOf(whole *taxa.Catalog, h visit.Header) *taxa.Region {
	if h.Region != "" {
		return whole.RegionNamed(h.Region)
	}
	return taxa.OnlyRegion(whole.Regions(), h.Protocol)
}

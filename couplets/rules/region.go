package rules

import (
	"slices"

	"rillkey/couplets"
	"rillkey/taxa"
)

// Residents are those of a region whom a key must end in; none without a region.
func Residents(r *taxa.Region) []taxa.Resident {
	if r == nil {
		return nil
	}
	return r.Taxa
}

// ResidentsFor are those of a region whom the embedded key in a file must end in: none where
// the region asks another embedded key, since a key of another region need not end in them,
// nor that of kinds, which ends in those of a sheet.
func ResidentsFor(file string, r *taxa.Region) []taxa.Resident {
	if r == nil {
		return nil
	}
	if own, ok := couplets.EmbeddedFile(r.Key); ok && r.Key != "" && own != file {
		return nil
	}
	return r.Taxa
}

// Unlisted are the ends of a key that a region's list of taxa does not hold, nor anything
// above or below them, in the order of the key.
func Unlisted(sound *couplets.Sound, catalog *taxa.Catalog, r *taxa.Region) (out []*taxa.Taxon) {
	above := map[string]bool{} // what is listed, and all that holds it
	for _, resident := range r.Taxa {
		for t := catalog.Taxon(resident.Taxon); t != nil && !above[t.ID]; t = catalog.Taxon(t.Parent) {
			above[t.ID] = true
		}
	}
	within := func(t *taxa.Taxon) bool {
		for ; t != nil; t = catalog.Taxon(t.Parent) {
			if slices.ContainsFunc(r.Taxa, func(of taxa.Resident) bool { return of.Taxon == t.ID }) {
				return true
			}
		}
		return false
	}
	for _, end := range sound.Ends {
		if !above[end.ID] && !within(end) {
			out = append(out, end)
		}
	}
	return out
}

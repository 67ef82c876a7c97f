package series

import (
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
)

// BesideReference are the visits that one visit is to be judged among when it is set beside a
// reference: of those in files, which read gives, the ones to its site and to all sites
// that are compared with another or that others are compared with, since how many sites
// are asked about decides what is beyond chance; all of them, where a site is given for
// all. A file that cannot be read, and a copy of the visit itself, are left out. known
// tells that some are to the site given.
func BesideReference(of *visit.Visit, files []string, given string, read func(string) (*visit.Visit, error)) (out Items, known bool) {
	type place struct{ file, site, reference string }
	var all []place
	sites := []string{of.Header.Site, of.Header.ComparesWith()}
	for _, file := range files {
		v, err := read(file)
		if err != nil || v.Header.ID == of.Header.ID {
			continue
		}
		p := place{file, v.Header.Site, v.Header.ComparesWith()}
		if all = append(all, p); p.reference != "" {
			sites = append(sites, p.site, p.reference)
		}
		known = known || visit.SameSite(p.site, given)
	}
	meant := map[string]bool{}
	for _, s := range sites {
		meant[plain.Fold(s)] = true
	}
	out = Items{{Name: of.File, Read: func() (*visit.Visit, error) { return of, nil }}}
	for _, p := range all {
		if given != "" || meant[plain.Fold(p.site)] {
			out = append(out, Item{Name: p.file, Read: func() (*visit.Visit, error) { return read(p.file) }})
		}
	}
	return out, known
}

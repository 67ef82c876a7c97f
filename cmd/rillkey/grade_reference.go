package main

import (
	"path/filepath"
	"runtime"

	"rillkey/scoring"
	"rillkey/scoring/series"
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
)

// besideReference sets a visit beside the site given, else the one that it names, as the
// table of its file's folder does; nil where there is none.
func besideReference(a *app, rules *scoring.Rules, of *visit.Visit, given string) (*scoring.Reference, error) {
	switch {
	case given == "" && of.Header.ComparesWith() == "":
		return nil, nil
	case given != "" && visit.SameSite(of.Header.Site, given):
		return nil, misused("--reference: the visit is to that site itself")
	}
	from, known, err := compared(of, given)
	if err != nil {
		return nil, err
	}
	if !known && given != "" {
		return nil, misused("--reference: no visit in the folder of %s is to %s", plain.Printable(of.File), plain.Quote(given))
	}
	t := series.GradeVisits(rules, from, series.Options{
		Today: a.now(), Workers: runtime.GOMAXPROCS(0), Seed: seed, Reference: given})
	return t.ReferenceOf(of.File), nil
}

// compared are the visits in the folder of a visit's file that are compared with another
// site, or that others are compared with: all, where a site is given for all. How many
// sites are asked about decides what is beyond chance. known tells that some are to the
// site given.
func compared(of *visit.Visit, given string) (out series.Items, known bool, err error) {
	dir := filepath.Dir(of.File)
	files, err := series.FindFiles(dir)
	if err != nil {
		return nil, false, err
	}
	type place struct{ file, site, reference string }
	var all []place
	sites := []string{of.Header.Site, of.Header.ComparesWith()}
	for _, file := range files {
		path := filepath.Join(dir, filepath.FromSlash(file))
		v, err := readSteady(path)
		if err != nil || v.Header.ID == of.Header.ID {
			continue // whoever grades the folder is told what cannot be read
		}
		p := place{path, v.Header.Site, v.Header.ComparesWith()}
		if all = append(all, p); p.reference != "" {
			sites = append(sites, p.site, p.reference)
		}
		known = known || visit.SameSite(p.site, given)
	}
	meant := map[string]bool{}
	for _, s := range sites {
		meant[plain.Fold(s)] = true
	}
	out = series.Items{{Name: of.File, Read: func() (*visit.Visit, error) { return of, nil }}}
	for _, p := range all {
		if given != "" || meant[plain.Fold(p.site)] {
			out = append(out, series.Item{Name: p.file, Read: func() (*visit.Visit, error) { return readSteady(p.file) }})
		}
	}
	return out, known, nil
}

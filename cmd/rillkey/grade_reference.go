package main

import (
	"cmp"
	"path/filepath"
	"runtime"

	"rillkey/scoring"
	"rillkey/scoring/series"
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
)

// besideReference sets a visit beside the site given, else the one that it names, by the
// visits to both in the folder of its file; nil where there is none.
func besideReference(a *app, rules *scoring.Rules, of *visit.Visit, given string) (*scoring.Reference, error) {
	site := cmp.Or(given, of.Header.ComparesWith())
	if site == "" {
		return nil, nil
	}
	if visit.SameSite(of.Header.Site, site) {
		return nil, misused("--reference: the visit is to that site itself")
	}
	dir := filepath.Dir(of.File)
	files, err := series.Files(dir)
	if err != nil {
		return nil, err
	}
	items := []series.Item{{Name: of.File, Read: func() (*visit.Visit, error) { return of, nil }}}
	known := false
	for _, file := range files {
		v, err := readSteady(filepath.Join(dir, filepath.FromSlash(file)))
		if err != nil || v.Header.ID == of.Header.ID {
			continue // whoever grades the folder is told what cannot be read
		}
		there := visit.SameSite(v.Header.Site, site)
		if known = known || there; there || visit.SameSite(v.Header.Site, of.Header.Site) {
			items = append(items, series.Item{Name: v.File, Read: func() (*visit.Visit, error) { return v, nil }})
		}
	}
	if !known && given != "" {
		return nil, misused("--reference: no visit in the folder of %s is to %s", plain.Printable(of.File), plain.Quote(site))
	}
	t := series.GradeVisits(rules, series.Items(items), series.Options{
		Today: a.now(), Workers: runtime.GOMAXPROCS(0), Seed: seed, Reference: site})
	return t.ReferenceOf(of.File), nil
}

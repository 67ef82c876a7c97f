package main

import (
	"path/filepath"
	"runtime"

	"rillkey/scoring"
	"rillkey/scoring/series"
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
)

// besideReference sets a visit beside the site that the group compares with, by the
// visits to both in the folder of its file; nil where no site is named.
func besideReference(a *app, o opened, site string) (*scoring.Reference, error) {
	if site == "" {
		return nil, nil
	}
	if series.SameSite(o.visit.Header.Site, site) {
		return nil, misused("--reference: the visit is to that site itself")
	}
	dir := filepath.Dir(o.visit.File)
	files, err := series.Files(dir)
	if err != nil {
		return nil, err
	}
	of := []series.Item{{Name: o.visit.File, Read: func() (*visit.Visit, error) { return o.visit, nil }}}
	known := false
	for _, file := range files {
		v, err := readSteady(filepath.Join(dir, filepath.FromSlash(file)))
		if err != nil || v.Header.ID == o.visit.Header.ID {
			continue // whoever grades the folder is told what cannot be read
		}
		there := series.SameSite(v.Header.Site, site)
		if known = known || there; there || series.SameSite(v.Header.Site, o.visit.Header.Site) {
			of = append(of, series.Item{Name: v.File, Read: func() (*visit.Visit, error) { return v, nil }})
		}
	}
	if !known {
		return nil, misused("--reference: no visit in the folder of %s is to %s", plain.Printable(o.visit.File), plain.Quote(site))
	}
	t := series.Grade(o.rules, series.Items(of), series.Options{
		Today: a.now(), Workers: runtime.GOMAXPROCS(0), Seed: seed, Reference: site})
	return t.ReferenceOf(o.visit.File, site), nil
}

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
	dir := filepath.Dir(of.File)
	files, err := series.FindFiles(dir)
	if err != nil {
		return nil, err
	}
	for i, file := range files {
		files[i] = filepath.Join(dir, filepath.FromSlash(file))
	}
	// Whoever grades the folder is told what cannot be read.
	from, known := series.BesideReference(of, files, given, readSteady)
	if !known && given != "" {
		return nil, misused("--reference: no visit in the folder of %s is to %s", plain.Printable(of.File), plain.Quote(given))
	}
	t := series.GradeVisits(rules, from, series.Options{
		Today: a.now(), Workers: runtime.GOMAXPROCS(0), Seed: seed, Reference: given})
	return t.ReferenceOf(of.File), nil
}

package main

import (
	"strings"

	"rillkey/scoring/series"
	"rillkey/scoring/visit"
)

// referenceFor is the site that a new visit is to be compared with: the one given, else
// the one that the last visit to its site in the present folder names.
func referenceFor(f beginFlags, given bool) (string, error) {
	if !given {
		return series.LastReference(namesHere(), f.site), nil
	}
	if visit.SameSite(f.site, f.reference) {
		return "", misused("--reference: a site is not compared with itself")
	}
	return strings.TrimSpace(f.reference), nil
}

package main

import (
	"math"
	"strconv"
	"strings"

	"rillkey/cmd/rillkey/units"
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
)

// spot reads where the site is on the map; nil when nobody says.
func (f beginFlags) spot() (*visit.Spot, error) {
	if f.at == "" {
		if f.within != "" {
			return nil, misused("--within belongs to a place; give it with --at, as 44.12,-72.98")
		}
		return nil, nil
	}
	north, east, ok := strings.Cut(f.at, ",")
	latitude, err := strconv.ParseFloat(strings.TrimSpace(north), 64)
	longitude, err2 := strconv.ParseFloat(strings.TrimSpace(east), 64)
	if !ok || err != nil || err2 != nil || !(math.Abs(latitude) <= 90 && math.Abs(longitude) <= 180) {
		return nil, misused("--at %q is no place; give latitude and longitude in decimal degrees, as 44.12,-72.98", f.at)
	}
	s := &visit.Spot{Latitude: latitude, Longitude: longitude}
	return s, readOptional("within", f.within, units.Metres, &s.Uncertainty)
}

// siteInName is the site as the name of a file may tell it.
func siteInName(site string, obscured bool) string {
	if obscured {
		return ""
	}
	return site
}

// obscuredBefore is a file of the present folder that obscures this site, or "":
// a place is obscured for good, not for one visit.
func obscuredBefore(site string) string {
	for _, name := range namesHere() {
		if v, err := visit.Read(name); err == nil && v.Obscured() && plain.Fold(v.Header.Site) == plain.Fold(site) {
			return name
		}
	}
	return ""
}

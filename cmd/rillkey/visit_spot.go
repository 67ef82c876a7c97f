package main

import (
	"path/filepath"
	"slices"

	"rillkey/cmd/rillkey/ask"
	"rillkey/cmd/rillkey/units"
	"rillkey/scoring/series"
	"rillkey/scoring/visit"
	"rillkey/taxa/wording"
)

// spot reads where the site is on the map; nil when nobody says.
func spotAt(at, within string) (*visit.Spot, error) {
	if at == "" {
		if within != "" {
			return nil, misused("--within belongs to a place; give it with --at, as 44.12,-72.98")
		}
		return nil, nil
	}
	latitude, longitude, ok := units.Coordinates(at)
	if !ok {
		return nil, misused("--at %q is no place; give latitude and longitude in decimal degrees, as 44.12,-72.98", at)
	}
	s := &visit.Spot{Latitude: latitude, Longitude: longitude}
	return s, readOptional("within", within, units.Metres, &s.Uncertainty)
}

// askObscured asks, where a place was entered and people are asked anyway, whether
// others may have it exactly.
func (c *console) askObscured(f *beginFlags, given func(string) bool) error {
	if f.at == "" || given("at") || given("obscured") || given("site") {
		return nil
	}
	answers, err := c.ask(ask.Field{Key: "obscured", Title: wording.Text("Keep the exact place from others?"), Confirm: true,
		Help: wording.Text("Yes where a species there is sensitive: others then get it to a tenth of a degree, without its name.")})
	if err != nil {
		return err
	}
	f.obscured = answers.Yes("obscured")
	return nil
}

// siteInName is the site as the name of a file may tell it.
func siteInName(site string, obscured bool) string {
	if obscured {
		return ""
	}
	return site
}

// obscuredSites are the sites that the files obscure, or visits that lie beside
// them: whoever names one file of a folder gives no place away that another keeps.
func obscuredSites(files []string) series.ObscuredSites {
	all := slices.Clone(files)
	seen := map[string]bool{}
	for _, file := range files {
		if dir := filepath.Dir(file); !seen[dir] {
			seen[dir] = true
			all = append(all, series.FilesIn(dir)...)
		}
	}
	slices.Sort(all)
	return series.FindObscured(slices.Compact(all))
}

// obscureAsBeside has the place of a visit count as obscured where a visit that
// lies beside it obscures the site.
func obscureAsBeside(v *visit.Visit) {
	if obscuredSites([]string{v.File}).FileFor(v) != "" {
		v.Obscure()
	}
}

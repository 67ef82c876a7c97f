package main

import (
	"math"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"unicode"

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
	north, east := coordinates(at)
	latitude, err := strconv.ParseFloat(north, 64)
	longitude, err2 := strconv.ParseFloat(east, 64)
	if err != nil || err2 != nil || !(math.Abs(latitude) <= 90 && math.Abs(longitude) <= 180) {
		return nil, misused("--at %q is no place; give latitude and longitude in decimal degrees, as 44.12,-72.98", at)
	}
	s := &visit.Spot{Latitude: latitude, Longitude: longitude}
	return s, readOptional("within", within, units.Metres, &s.Uncertainty)
}

// coordinates parts latitude from longitude, empty where they cannot be told apart. A
// comma stands between the two, or is a decimal sign: 44.12,-72.98 and 44,12 -72,98.
func coordinates(at string) (north, east string) {
	var words []string
	for w := range strings.FieldsFuncSeq(at, func(r rune) bool { return r == ';' || unicode.IsSpace(r) }) {
		if w = strings.Trim(w, ","); w != "" {
			words = append(words, w)
		}
	}
	parts := strings.Split(strings.Join(words, " "), ",")
	switch {
	case len(words) == 2:
		return strings.Replace(words[0], ",", ".", 1), strings.Replace(words[1], ",", ".", 1)
	case len(words) == 1 && len(parts) == 2:
		return parts[0], parts[1]
	case len(words) == 1 && len(parts) == 4:
		return parts[0] + "." + parts[1], parts[2] + "." + parts[3]
	}
	return "", ""
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

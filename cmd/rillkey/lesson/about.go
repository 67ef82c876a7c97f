package lesson

import (
	"slices"

	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// sitesNamed is how many sites are named of those that animals are taken from.
const sitesNamed = 3

// AboutSeason says what [Options.Opening] is where the animals are as common as in the visits
// of the season: how many there are, and to which sites. It is empty without any.
func AboutSeason(visits []*visit.Visit) string {
	if len(visits) == 0 {
		return ""
	}
	var sites []string
	for _, v := range visits {
		if name := plain.OneLine(v.Header.Site); !slices.Contains(sites, name) {
			sites = append(sites, name)
		}
	}
	if more := len(sites) - sitesNamed; more > 0 {
		sites = append(sites[:sitesNamed], wording.Sprintf("%d more", more))
	}
	return wording.Sprintf("Animals as common as in the region and in %s at this time of year: %s.", plain.Count(len(visits), "visit"),
		plain.And(sites))
}

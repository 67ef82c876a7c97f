package scoring

import (
	"slices"

	"rillkey/scoring/scheme"
	"rillkey/taxa"
)

// Classes are the tolerance classes that a protocol's first scheme puts animals in,
// and its title; ok tells that it has such classes, as its groups are called like
// them. What it does not count is not scored; what could be of several classes has
// none.
func (r *Rules) Classes(protocol string) (title string, class func(taxon string) (taxa.Class, bool), ok bool) {
	p, err := r.Protocol(protocol)
	if err != nil {
		return "", nil, false
	}
	s := r.Scheme(p.Schemes[0])
	of := make([]taxa.Class, len(s.Kinds))
	for i, k := range s.Kinds {
		g, _ := s.Group(k.Group)
		of[i] = taxa.Class(g.Label)
		if !slices.Contains(taxa.Classes, of[i]) {
			return "", nil, false
		}
	}
	return s.Title, func(taxon string) (taxa.Class, bool) {
		place := s.Place(taxon)
		switch place.Why {
		case "":
			return of[place.Kind], true
		case scheme.WhyAmbiguous:
			return sharedClass(of, place.Open), true
		}
		return taxa.NotScored, place.Why != scheme.WhyUnknownTaxon
	}, len(of) > 0
}

// sharedClass is the class of all these kinds, or none.
func sharedClass(of []taxa.Class, kinds []int) taxa.Class {
	for _, k := range kinds {
		if of[k] != of[kinds[0]] {
			return ""
		}
	}
	return of[kinds[0]]
}

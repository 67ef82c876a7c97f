package main

import (
	"cmp"

	"rillkey/scoring"
	"rillkey/scoring/export"
	"rillkey/scoring/visit"
	"rillkey/taxa"
)

// knowledgeOf gives what describes each of several visits: the names and classes of
// its own region, unless one region is meant for all. What cannot be read is as usual.
func (l *library) knowledgeOf(usual export.Knowledge) func(*visit.Visit) export.Knowledge {
	whole, err := l.wholeCatalog()
	if err != nil {
		return nil
	}
	if meant, err := l.regionMeant(whole); meant != nil || err != nil || l.keyFile != "" {
		return nil
	}
	known := map[string]export.Knowledge{}
	return func(v *visit.Visit) export.Knowledge {
		id := cmp.Or(v.Header.Region, "protocol "+v.Header.Protocol)
		k, ok := known[id]
		if !ok {
			k = l.knowledgeIn(scoring.RegionOf(whole, v.Header), whole, usual)
			known[id] = k
		}
		return k
	}
}

func (l *library) knowledgeIn(r *taxa.Region, whole *taxa.Catalog, usual export.Knowledge) export.Knowledge {
	if r == nil {
		return usual
	}
	catalog := whole.InRegion(r)
	rules, err := l.rules(catalog)
	if err != nil {
		return usual
	}
	return export.Knowledge{Catalog: catalog, Rules: rules}
}

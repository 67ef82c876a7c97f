package publish

import (
	"slices"
	"strings"

	"rillkey/scoring/export"
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
)

// slugs are names as parts of addresses, each once: lower-case letters, digits and
// hyphens. Names that come to the same get a fingerprint each, whatever their order.
func slugs[T any](all []T, name func(T) string) []string {
	out := make([]string, len(all))
	times := map[string]int{}
	for i, of := range all {
		out[i] = slug(name(of))
		times[out[i]]++
	}
	for i, of := range all {
		if times[out[i]] > 1 {
			out[i] += "-" + short("name", name(of))
		}
	}
	return out
}

// reserved are names that a folder of pages has for itself.
var reserved = []string{"", "index"}

func slug(name string) string {
	id := plain.ID(name)
	if slices.Contains(reserved, id) || plain.IsDevice(id) {
		id = strings.TrimPrefix(id+"-"+short("name", name), "-")
	}
	return id
}

// publicVisit is a visit without people, words of their own and, where the site is
// obscured, without its name and exact place.
func publicVisit(v *visit.Visit, s *site) *visit.Visit {
	given := export.Discretion{Wordless: true}.Apply(v)
	if !s.obscured {
		return given
	}
	head := given.Written()
	head.Site, head.Spot = s.name, s.spot
	events := slices.Clone(given.Events)
	for i, e := range events {
		switch b := e.Body.(type) {
		case visit.Amendment:
			if b.Change.Site != nil {
				b.Change.Site = &s.name
			}
			if b.Change.Spot != nil {
				b.Change.Spot = s.spot
			}
			events[i].Body = b
		case visit.SameName:
			if b.What == visit.NameSite {
				b.Name, b.As = s.name, s.name
			}
			events[i].Body = b
		}
	}
	out := given.Recast(head, events)
	out.File = "the file"
	return out
}

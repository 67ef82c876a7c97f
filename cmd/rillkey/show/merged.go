package show

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"rillkey/scoring/visit"
	"rillkey/taxa"
)

// Correction says in a few words what an amendment wants.
func Correction(catalog *taxa.Catalog, a visit.Amendment) string {
	if a.Withdrawn {
		return "take it out (" + a.Reason + ")"
	}
	var parts []string
	say := func(name string, value any) { parts = append(parts, fmt.Sprintf("%s %v", name, value)) }
	ch := a.Change
	if ch.Taxon != nil {
		say("name", taxonWords(catalog, *ch.Taxon))
	}
	for _, t := range []struct {
		name  string
		value *string
	}{{"sample", ch.Sample}, {"cell", ch.Cell}, {"habitat", ch.Habitat}, {"effort", ch.Effort}, {"note", ch.Note}} {
		if t.value != nil {
			say(t.name, *t.value)
		}
	}
	if ch.Count != nil {
		say("count", *ch.Count)
	}
	if ch.Length != nil {
		say("length", Millimetres(*ch.Length))
	}
	if ch.Area != nil {
		say("area", Area(*ch.Area))
	}
	if ch.Fraction != nil {
		say("share sorted", *ch.Fraction)
	}
	if ch.Said != nil {
		say("sorting", *ch.Said)
	}
	if ch.Obscured != nil {
		say("place", map[bool]string{true: "obscured", false: "given to others"}[*ch.Obscured])
	}
	return strings.Join(parts, ", ") + " (" + a.Reason + ")"
}

func taxonWords(catalog *taxa.Catalog, id string) string {
	if t := catalog.Taxon(id); t != nil {
		return BothNames(t)
	}
	return cmp.Or(id, "set aside")
}

// Entered says in a few words what was first entered under an id.
func Entered(catalog *taxa.Catalog, v *visit.Visit, id string) string {
	if id == v.Header.ID || slices.Contains(v.Header.Joined, id) {
		return "the place of the visit"
	}
	for _, e := range v.Events {
		if e.ID != id {
			continue
		}
		switch b := e.Body.(type) {
		case visit.Identification:
			return fmt.Sprintf("%d x %s in sample %s, entered by %s", b.Count, taxonWords(catalog, b.Taxon), b.Sample, cmp.Or(e.Who, "nobody named"))
		case visit.Sample:
			return "sample " + SampleWords(b)
		}
		return e.Kind()
	}
	return id
}

// SampleWords describes a sample in a few words.
func SampleWords(s visit.Sample) string {
	words := s.Label + ", " + s.Habitat
	if s.Area > 0 {
		words += ", " + Area(s.Area)
	}
	if s.Effort != "" {
		words += ", " + s.Effort
	}
	return words
}

package show

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// Correction says in a few words what an amendment wants.
func Correction(catalog *taxa.Catalog, a visit.Amendment) string {
	if a.Withdrawn {
		return wording.Sprintf("take it out (%s)", a.Reason)
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
	}{{"sample", ch.Sample}, {"cell", ch.Cell}, {"habitat", ch.Habitat}, {"effort", ch.Effort}, {"note", ch.Note},
		{"site", ch.Site}, {"day", ch.Date}, {"protocol", ch.Protocol}, {"compared with", ch.Reference}} {
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
		say(wording.Of("share sorted"), *ch.Fraction)
	}
	if ch.Said != nil {
		say("sorting", *ch.Said)
	}
	if ch.Obscured != nil {
		say("place", map[bool]string{true: "obscured", false: wording.Of("given to others")}[*ch.Obscured])
	}
	return strings.Join(parts, ", ") + " (" + a.Reason + ")"
}

func taxonWords(catalog *taxa.Catalog, id string) string {
	if t := catalog.Taxon(id); t != nil {
		return BothNames(t)
	}
	return cmp.Or(id, wording.Of("set aside"))
}

// Entered says in a few words what was first entered under an id.
func Entered(catalog *taxa.Catalog, v *visit.Visit, id string) string {
	if id == v.Header.ID || slices.Contains(v.Header.Joined, id) {
		return wording.Of("the place of the visit")
	}
	for _, e := range v.Events {
		if e.ID != id {
			continue
		}
		switch b := e.Body.(type) {
		case visit.Identification:
			return wording.Sprintf("%d x %s in sample %s, entered by %s", b.Count, taxonWords(catalog, b.Taxon), b.Sample,
				cmp.Or(e.Who, wording.Of("nobody named")))
		case visit.Sample:
			return wording.Sprintf("sample %s", SampleWords(b))
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

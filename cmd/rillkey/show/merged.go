package show

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"rillkey/scoring/condition"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/plain"
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
		say(wording.Of("name"), taxonWords(catalog, *ch.Taxon))
	}
	for _, t := range []struct {
		name  string
		value *string
	}{
		{wording.Of("sample"), ch.Sample}, {wording.Of("cell"), ch.Cell}, {wording.Of("habitat"), ch.Habitat},
		{wording.Of("effort"), ch.Effort}, {wording.Of("note"), ch.Note}, {wording.Of("site"), ch.Site},
		{wording.Of("day"), ch.Date}, {wording.Of("protocol"), ch.Protocol}, {wording.Of("compared with"), ch.Reference},
		{wording.Of("named by"), ch.Expert}, {wording.Of("kept at"), ch.Kept},
	} {
		if t.value != nil {
			say(t.name, cmp.Or(*t.value, wording.Of("none")))
		}
	}
	if ch.People != nil {
		say(wording.Of("people"), strings.Join(*ch.People, ", "))
	}
	numbersOf(ch, say)
	if ch.Said != nil {
		say(wording.Of("sorting"), *ch.Said)
	}
	if ch.Obscured != nil {
		say(wording.Of("place"), map[bool]string{true: wording.Of("obscured"), false: wording.Of("given to others")}[*ch.Obscured])
	}
	if ch.Conditions != nil {
		ch.Conditions.Each(func(f *condition.Field, v condition.Value) {
			say(f.Title+":", cmp.Or(f.Full(v), wording.Of("none")))
		})
	}
	return strings.Join(parts, ", ") + " (" + a.Reason + ")"
}

// numbersOf says the counts and measures of a change.
func numbersOf(ch visit.Change, say func(name string, value any)) {
	if ch.Count != nil {
		say(wording.Of("count"), *ch.Count)
	}
	if ch.More != nil {
		say(wording.Of("counted on"), fmt.Sprintf("%+d", *ch.More))
	}
	if ch.Length != nil {
		say(wording.Of("length"), Millimetres(*ch.Length))
	}
	if ch.Area != nil {
		say(wording.Of("area"), Area(*ch.Area))
	}
	if ch.Fraction != nil {
		say(wording.Of("share sorted"), *ch.Fraction)
	}
	if s := ch.Spot; s != nil {
		say(wording.Of("place"), plain.Number(s.Latitude)+","+plain.Number(s.Longitude))
	}
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
		return wording.Of("the visit itself")
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

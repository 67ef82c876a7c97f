package show

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"rillkey/scoring/condition"
	"rillkey/scoring/scheme"
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
		say(wording.Text("name"), taxonWords(catalog, *ch.Taxon))
	}
	type said struct {
		name  string
		value *string
	}
	texts := []said{
		{wording.Text("sample"), ch.Sample}, {wording.Text("cell"), ch.Cell},
		{wording.Text("habitat"), toldAs(ch.Habitat, scheme.HabitatWords)},
		{wording.Text("effort"), ch.Effort}, {wording.Text("note"), ch.Note}, {wording.Text("site"), ch.Site},
		{wording.Text("day"), toldAs(ch.Date, Day)}, {wording.Text("protocol"), ch.Protocol}, {wording.Text("compared with"), ch.Reference},
		{wording.Text("named by"), ch.Expert},
	}
	for _, t := range visit.RecordTexts() {
		texts = append(texts, said{wording.Text(t.Label), *t.Change(&ch)})
	}
	for _, t := range texts {
		if t.value != nil {
			say(t.name, cmp.Or(*t.value, wording.Text("none")))
		}
	}
	if ch.People != nil {
		say(wording.Text("people"), strings.Join(*ch.People, ", "))
	}
	numbersOf(ch, say)
	if ch.Said != nil {
		say(wording.Text("sorting"), ch.Said.Words())
	}
	if ch.Obscured != nil {
		say(wording.Text("place"), map[bool]string{true: wording.Text("obscured"), false: wording.Text("given to others")}[*ch.Obscured])
	}
	if ch.Conditions != nil {
		ch.Conditions.Each(func(f *condition.Parameter, v condition.Value) {
			say(f.Title+":", cmp.Or(f.Full(v), wording.Text("none")))
		})
	}
	return strings.Join(parts, ", ") + " (" + a.Reason + ")"
}

// toldAs is a value of a file as people are told it; nil where there is none.
func toldAs(value *string, words func(string) string) *string {
	if value == nil || *value == "" {
		return value
	}
	said := words(*value)
	return &said
}

// numbersOf says the counts and measures of a change.
func numbersOf(ch visit.Change, say func(name string, value any)) {
	if ch.Count != nil {
		say(wording.Text("count"), *ch.Count)
	}
	if ch.More != nil {
		say(wording.Text("counted on"), fmt.Sprintf("%+d", *ch.More))
	}
	if ch.Length != nil {
		say(wording.Text("length"), LengthWords(*ch.Length))
	}
	if ch.Area != nil {
		say(wording.Text("area"), Area(*ch.Area))
	}
	if ch.Fraction != nil {
		say(wording.Text("share sorted"), wording.Number(math.Round(*ch.Fraction*1e4)/1e4))
	}
	if s := ch.Spot; s != nil {
		say(wording.Text("place"), plain.FormatFloat(s.Latitude)+","+plain.FormatFloat(s.Longitude))
	}
}

func taxonWords(catalog *taxa.Catalog, id string) string {
	if t := catalog.Taxon(id); t != nil {
		return BothNames(t)
	}
	return cmp.Or(id, wording.Text("set aside"))
}

// Entered says in a few words what was first entered under an id.
func Entered(catalog *taxa.Catalog, v *visit.Visit, id string) string {
	if id == v.Header.ID || slices.Contains(v.Header.Joined, id) {
		return wording.Text("the visit itself")
	}
	for _, e := range v.Events {
		if e.ID != id {
			continue
		}
		switch b := e.Body.(type) {
		case visit.Identification:
			return wording.Sprintf("%d x %s in sample %s, entered by %s", b.Count, taxonWords(catalog, b.Taxon), b.Sample,
				cmp.Or(e.Who, wording.Text("nobody named")))
		case visit.Sample:
			return wording.Sprintf("sample %s", SampleWords(b))
		}
		return e.Kind()
	}
	return id
}

// SampleWords describes a sample in a few words.
func SampleWords(s visit.Sample) string {
	words := s.Label + ", " + scheme.HabitatWords(s.Habitat)
	if s.Area > 0 {
		words += ", " + Area(s.Area)
	}
	if s.Effort != "" {
		words += ", " + s.Effort
	}
	return words
}

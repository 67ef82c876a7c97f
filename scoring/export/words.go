package export

import (
	"slices"
	"strings"
	"unicode"

	"rillkey/scoring/condition"
	"rillkey/scoring/visit"
)

// Telling is a text in somebody's own words that names a person or an obscured
// place which is not to be given away.
type Telling struct {
	Line int    // of the visit's file where the entry begins
	Kind string // what kind of text it is, such as "note"
}

// Telling finds the texts that would be given away although they name somebody or
// the place. A name that is written in another way is not found: the texts are to
// be read all the same.
func (d Discretion) Telling(v *visit.Visit) (out []Telling) {
	names := d.kept(v)
	if len(names) == 0 {
		return nil
	}
	for _, e := range v.Events {
		for _, w := range freeWords(e) {
			if slices.ContainsFunc(names, func(name string) bool { return holdsName(w.text, name) }) {
				out = append(out, Telling{e.Line, w.kind})
			}
		}
	}
	return out
}

// kept are the words that Apply keeps back.
func (d Discretion) kept(v *visit.Visit) (names []string) {
	if !d.Places && v.Obscured() {
		names = append(names, v.Header.Site, v.Written().Site)
	}
	if d.People {
		return names
	}
	people := append(slices.Clone(v.Header.People), v.Written().People...)
	for _, e := range v.Events {
		people = append(people, e.Who)
		if a, ok := e.Body.(visit.Amendment); ok {
			people = append(people, text(a.Change.Expert))
		}
		condition.Rename(conditionsOf(e), func(name string) string { people = append(people, name); return name })
	}
	for _, p := range people {
		for _, word := range append(strings.Fields(p), p) {
			if len([]rune(word)) > 2 && !slices.Contains(names, word) {
				names = append(names, word)
			}
		}
	}
	return names
}

func text(s *string) string {
	if s == nil {
		return ""
	}
	return *s
}

type freeWord struct{ kind, text string }

// freeWords are the texts of an event that people wrote in their own words.
func freeWords(e visit.Event) []freeWord {
	switch b := e.Body.(type) {
	case visit.Sample:
		return []freeWord{{"effort", b.Effort}}
	case visit.Identification:
		words := []freeWord{{"note", b.Note}}
		for _, t := range visit.RecordTexts() {
			words = append(words, freeWord{t.Kind, *t.Text(&b)})
		}
		return words
	case visit.Amendment:
		words := []freeWord{{"reason", b.Reason}, {"note", text(b.Change.Note)}, {"effort", text(b.Change.Effort)}}
		for _, t := range visit.RecordTexts() {
			words = append(words, freeWord{t.Kind, text(*t.Change(&b.Change))})
		}
		if b.Change.Conditions != nil {
			words = append(words, noted(*b.Change.Conditions)...)
		}
		return words
	case visit.SecondLook:
		return []freeWord{{"note", b.Note}}
	case visit.Finish:
		return []freeWord{{"note", b.Note}}
	case visit.Conditions:
		return noted(b.Values)
	}
	return nil
}

// noted are the words of their own in which people noted conditions.
func noted(vs condition.Values) (out []freeWord) {
	vs.Each(func(f *condition.Parameter, v condition.Value) {
		kind := strings.ToLower(f.Title)
		switch f.Form {
		case condition.TextForm:
			out = append(out, freeWord{kind, v.Text})
		case condition.FilesForm:
			out = append(out, freeWord{kind, strings.Join(v.List, ", ")})
		}
		out = append(out, freeWord{kind, v.Instrument})
	})
	return out
}

// holdsName tells whether a text has a name in it as words of their own, in
// whatever case.
func holdsName(text, name string) bool {
	plain := func(s string) string {
		return " " + strings.Join(strings.FieldsFunc(strings.ToLower(s),
			func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }), " ") + " "
	}
	return strings.TrimSpace(plain(name)) != "" && strings.Contains(plain(text), plain(name))
}

package series

import (
	"slices"
	"strings"
	"time"

	"rillkey/taxa/plain"
)

// Query says which entries are wanted; what is empty does not matter.
type Query struct {
	Site     string                             // however written
	FirstDay string                             // first day, as YYYY, YYYY-MM or YYYY-MM-DD
	LastDay  string                             // last day, likewise
	Person   string                             // however written
	Taxon    func(v *VisitFile, id string) bool // whether an animal of this visit is wanted
}

// Filter keeps the entries that a query wants. Files that cannot be read are kept
// by a query that asks for nothing only.
func Filter(entries []VisitFile, q Query) []VisitFile {
	out := []VisitFile{}
	for _, e := range entries {
		if q.wants(e) {
			out = append(out, e)
		}
	}
	return out
}

func (q Query) wants(e VisitFile) bool {
	if e.State == Unreadable {
		return q.Site == "" && q.FirstDay == "" && q.LastDay == "" && q.Person == "" && q.Taxon == nil
	}
	switch {
	case !q.WantsSite(e.Site):
		return false
	case q.FirstDay != "" && e.Date < q.FirstDay:
		return false
	case q.LastDay != "" && e.Date > q.LastDay && !strings.HasPrefix(e.Date, q.LastDay):
		return false
	case q.Person != "" && !slices.ContainsFunc(e.People, func(p string) bool { return means(q.Person, p) }):
		return false
	}
	return q.Taxon == nil || slices.ContainsFunc(e.Taxa, func(id string) bool { return q.Taxon(&e, id) })
}

// WantsSite tells whether visits to a site of that name may be wanted.
func (q Query) WantsSite(name string) bool { return q.Site == "" || means(q.Site, name) }

// means tells whether what was typed is meant for a name: part of it, or like
// it or one of its words.
func means(typed, name string) bool {
	if strings.Contains(plain.Fold(name), plain.Fold(typed)) || plain.Alike(typed, name) {
		return true
	}
	return slices.ContainsFunc(strings.Fields(name),
		func(word string) bool { return len(plain.Fold(word)) > 3 && plain.Alike(typed, word) })
}

// IsDay tells whether a text is a day, a month or a year, as [Query] takes it.
func IsDay(s string) bool {
	for _, rest := range []string{"", "-01", "-01-01"} {
		if _, err := time.Parse(time.DateOnly, s+rest); err == nil {
			return true
		}
	}
	return false
}

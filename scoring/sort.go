package scoring

import (
	"fmt"
	"slices"
	"strings"

	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/authored"
)

// Why says for what cause a record was left out of an index.
type Why string

// The causes.
const (
	SetAside     Why = "set aside"     // undecided
	Open         Why = "open"          // its kind cannot be told from its name
	NotScored    Why = "not scored"    // no macroinvertebrate, or never scored
	NotListed    Why = "not listed"    // the scheme has no such kind
	UnknownTaxon Why = "unknown taxon" // the catalog does not know the id
)

// doubtful tells that a better name could bring the record in.
func (w Why) doubtful() bool { return w == SetAside || w == Open || w == UnknownTaxon }

func anyDoubtful(left []LeftOut) bool {
	return slices.ContainsFunc(left, func(l LeftOut) bool { return l.Why.doubtful() })
}

// LeftOut is a record that an index does not count.
type LeftOut struct {
	Record string   `json:"record"` // id of the event
	Sample string   `json:"sample"`
	Taxon  string   `json:"taxon"`
	Count  int      `json:"count"`
	Why    Why      `json:"why"`
	Kinds  []string `json:"kinds,omitempty"` // labels of the kinds it may be
	Note   string   `json:"note"`            // the cause in words
}

// sort adds up the records by kind, in the order of the scheme, and gives
// those it cannot place. A kind counts once however many taxa it came as.
func (r *Rules) sort(s *Scheme, records []visit.Record) ([]kindCount, []LeftOut) {
	counts := make([]int64, len(s.Kinds))
	left := []LeftOut{}
	for _, rec := range records {
		kind, why, open := r.placeRecord(s, rec)
		if why == "" {
			counts[kind] += int64(rec.Count)
			continue
		}
		l := LeftOut{Record: rec.ID, Sample: rec.Sample, Taxon: rec.Taxon, Count: rec.Count, Why: why}
		l.explain(s, open)
		left = append(left, l)
	}
	var found []kindCount
	for i, n := range counts {
		if n > 0 {
			found = append(found, kindCount{s.Kinds[i], n})
		}
	}
	return found, left
}

func (r *Rules) placeRecord(s *Scheme, rec visit.Record) (kind int, why Why, open []int) {
	if rec.Undecided || rec.Taxon == "" {
		return -1, SetAside, nil
	}
	t := r.catalog.Taxon(rec.Taxon)
	if t == nil {
		return -1, UnknownTaxon, nil
	}
	kind, open = s.place(r.catalog, rec.Taxon)
	switch {
	case len(open) > 0:
		return -1, Open, open
	case kind >= 0:
		return kind, "", nil
	case t.Class == taxa.NotScored:
		return -1, NotScored, nil
	}
	return -1, NotListed, nil
}

func (l *LeftOut) explain(s *Scheme, open []int) {
	switch l.Why {
	case SetAside:
		l.Note = "set aside for a second look"
	case UnknownTaxon:
		l.Note = "the catalog knows no taxon " + authored.Quote(l.Taxon)
	case NotScored:
		l.Note = l.Taxon + " is never scored"
	case NotListed:
		l.Note = "this index has no kind for " + l.Taxon
	case Open:
		l.explainOpen(s, open)
	}
}

func (l *LeftOut) explainOpen(s *Scheme, open []int) {
	group := s.Kinds[open[0]].Group
	for _, k := range open {
		l.Kinds = append(l.Kinds, s.Kinds[k].Label)
		if s.Kinds[k].Group != group {
			group = ""
		}
	}
	l.Note = fmt.Sprintf("%s may be %s", l.Taxon, strings.Join(l.Kinds, " or "))
	if len(l.Kinds) == 1 {
		l.Note += " or something this index has no kind for"
	}
	if g, i := s.group(group); i >= 0 && len(l.Kinds) > 1 {
		l.Note += fmt.Sprintf("; all of these are %s, but which one decides whether it counts anew", g.Label)
	}
}

// leftRemarks says how many records were left out for each cause.
func leftRemarks(left []LeftOut) []string {
	remarks := []string{}
	for _, cause := range []struct {
		why  Why
		text string
	}{
		{SetAside, "undecided and set aside for a second look"},
		{Open, "named too broadly to tell which kind they are"},
		{UnknownTaxon, "named with an id that the catalog does not know"},
		{NotScored, "not scored by any index"},
		{NotListed, "of kinds that this index does not count"},
	} {
		records, animals := 0, 0
		for _, l := range left {
			if l.Why == cause.why {
				records++
				animals += l.Count
			}
		}
		if records > 0 {
			remarks = append(remarks, fmt.Sprintf("Left out: %d %s in %d %s, %s.", animals, plural(animals, "animal"), records, plural(records, "record"), cause.text))
		}
	}
	return remarks
}

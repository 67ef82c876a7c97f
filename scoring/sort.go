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

// Doubtful tells that a better name could bring the record in.
func (w Why) Doubtful() bool { return w == SetAside || w == Open || w == UnknownTaxon }

func anyDoubtful(left []LeftOut) bool {
	return slices.ContainsFunc(left, func(l LeftOut) bool { return l.Why.Doubtful() })
}

// LeftOut is a record that an index does not count.
type LeftOut struct {
	Record string   `json:"record"` // id of the event
	Sample string   `json:"sample"`
	Taxon  string   `json:"taxon"`
	Name   string   `json:"name"` // what people call it; the id where the catalog does not know it
	Count  int      `json:"count"`
	Why    Why      `json:"why"`
	Kinds  []string `json:"kinds,omitempty"` // labels of the kinds it may be
	Note   string   `json:"note"`            // the cause in words
}

// sorted is what an index makes of some records.
type sorted struct {
	found []kindCount // in the order of the scheme
	left  []LeftOut
	open  []openCount // those left out that are named too broadly, by name
}

// sort adds up the records by kind and gives those it cannot place. A kind
// counts once however many taxa it came as.
func (r *Rules) sort(s *Scheme, records []visit.Record) sorted {
	counts := make([]int64, len(s.Kinds))
	out := sorted{left: []LeftOut{}}
	for _, rec := range records {
		kind, why, open := r.placeRecord(s, rec)
		if why == "" {
			counts[kind] += int64(rec.Count)
			continue
		}
		l := LeftOut{Record: rec.ID, Sample: rec.Sample, Taxon: rec.Taxon, Name: r.name(rec.Taxon), Count: rec.Count, Why: why}
		l.explain(s, open)
		out.left = append(out.left, l)
		if why == Open {
			out.addOpen(openCount{rec.Taxon, int64(rec.Count), open})
		}
	}
	for i, n := range counts {
		if n > 0 {
			out.found = append(out.found, kindCount{i, s.Kinds[i], n})
		}
	}
	return out
}

func (o *sorted) addOpen(one openCount) {
	i := slices.IndexFunc(o.open, func(before openCount) bool { return before.taxon == one.taxon })
	if i < 0 {
		o.open = append(o.open, one)
		return
	}
	o.open[i].count += one.count
}

// name is what people call a taxon; the id where the catalog does not know it.
func (r *Rules) name(taxon string) string {
	if t := r.catalog.Taxon(taxon); t != nil {
		return t.Name()
	}
	return taxon
}

func (r *Rules) placeRecord(s *Scheme, rec visit.Record) (kind int, why Why, open []int) {
	if rec.Undecided || rec.Taxon == "" {
		return -1, SetAside, nil
	}
	return r.placeNamed(s, rec.Taxon, rec.Possible)
}

// placeNamed is the place of animals that have a name and a list of what they
// may be. A name that leaves their kind open is no hindrance where all that
// they may be beneath it is of one kind.
func (r *Rules) placeNamed(s *Scheme, taxon string, possible []string) (kind int, why Why, open []int) {
	kind, why, open = r.placeTaxon(s, taxon)
	if why != Open {
		return kind, why, open
	}
	one := -1
	for _, id := range possible {
		if !r.catalog.IsUnder(id, taxon) {
			continue
		}
		k, hindered, _ := r.placeTaxon(s, id)
		if hindered != "" || one >= 0 && k != one {
			return kind, why, open
		}
		one = k
	}
	if one >= 0 {
		return one, "", nil
	}
	return kind, why, open
}

// placement is what a scheme makes of a taxon's name.
type placement struct {
	kind int
	why  Why   // why it has no kind; empty where it has
	open []int // kinds it may be; not to be changed
}

func (r *Rules) placeTaxon(s *Scheme, taxon string) (kind int, why Why, open []int) {
	known, ok := s.placed.Load(taxon)
	if !ok {
		var p placement
		p.kind, p.why, p.open = r.findPlace(s, taxon)
		if p.why != UnknownTaxon { // there is no end of names that nobody knows
			s.placed.Store(taxon, p)
		}
		return p.kind, p.why, p.open
	}
	p := known.(placement)
	return p.kind, p.why, p.open
}

func (r *Rules) findPlace(s *Scheme, taxon string) (kind int, why Why, open []int) {
	t := r.catalog.Taxon(taxon)
	if t == nil {
		return -1, UnknownTaxon, nil
	}
	kind, open = s.place(r.catalog, taxon)
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
		l.Note = l.Name + " is never scored"
	case NotListed:
		l.Note = "this index has no kind for " + l.Name
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
	l.Note = fmt.Sprintf("%s may be %s", l.Name, strings.Join(l.Kinds, " or "))
	if len(l.Kinds) > mostNamed {
		l.Note = fmt.Sprintf("%s may be any of %d kinds of this index", l.Name, len(l.Kinds))
	}
	if len(l.Kinds) == 1 {
		l.Note += " or something this index has no kind for"
	}
	if g, i := s.group(group); i >= 0 && len(l.Kinds) > 1 {
		l.Note += fmt.Sprintf("; all of these are %s, but which one decides whether it counts anew", g.Label)
	}
}

// mostNamed is how many names a sentence holds before it only counts them.
const mostNamed = 6

// leftRemarks says for each cause how many records were left out, and which.
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
			remarks = append(remarks, fmt.Sprintf("Left out: %d %s in %d %s, %s%s.", animals, plural(animals, "animal"), records, plural(records, "record"), cause.text, which(left, cause.why)))
		}
	}
	return remarks
}

// which names the animals left out for one cause, with their number, in the
// order in which they were recorded. What was set aside has no name yet.
func which(left []LeftOut, why Why) string {
	if why == SetAside {
		return ""
	}
	counts := map[string]int{}
	var names []string
	for _, l := range left {
		if l.Why == why {
			if counts[l.Name] == 0 {
				names = append(names, l.Name)
			}
			counts[l.Name] += l.Count
		}
	}
	more := ""
	if n := len(names) - mostNamed; n > 0 {
		names, more = names[:mostNamed], fmt.Sprintf(" and %d more", n)
	}
	for i, name := range names {
		names[i] = fmt.Sprintf("%s (%d)", authored.Printable(name), counts[name])
	}
	return ": " + strings.Join(names, ", ") + more
}

package scoring

import (
	"fmt"
	"slices"
	"strings"

	"rillkey/scoring/account"
	"rillkey/scoring/scheme"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

func anyDoubtful(left []LeftOut) bool {
	return slices.ContainsFunc(left, func(l LeftOut) bool { return l.Why.Doubtful() })
}

// LeftOut is a record that an index does not count.
type LeftOut struct {
	Record string     `json:"record"` // id of the event
	Sample string     `json:"sample"`
	Taxon  string     `json:"taxon"`
	Name   string     `json:"name"` // what people call it; the id where the catalog does not know it
	Count  int        `json:"count"`
	Why    scheme.Why `json:"why"`
	Kinds  []string   `json:"kinds,omitempty"` // labels of the kinds it may be
	Note   string     `json:"note"`            // the cause in words
}

// sorted is what an index makes of some records.
type sorted struct {
	found []scheme.KindCount // in the order of the scheme
	left  []LeftOut
	open  []scheme.OpenCount // those left out that are named too broadly, by name
}

// sort adds up the records by kind and gives those that have none. A kind counts
// once however many taxa it came as.
func (s grader) sort(rows []account.Counted) sorted {
	out := sorted{left: []LeftOut{}}
	for _, b := range rows {
		if b.Why == "" {
			continue
		}
		l := LeftOut{Record: b.ID, Sample: b.Sample, Taxon: b.Taxon, Name: b.Name(), Count: b.Count, Why: b.Why}
		l.explain(s, b.MayBe)
		out.left = append(out.left, l)
		if b.Why == scheme.WhyAmbiguous {
			out.addOpen(scheme.OpenCount{Taxon: b.Taxon, Count: b.Animals, Kinds: b.MayBe, Sole: b.Sole})
		}
	}
	counts := s.counts(rows)
	for i, n := range counts {
		if n > 0 {
			out.found = append(out.found, scheme.KindCount{Index: i, Kind: s.Kinds[i], Count: n})
		}
	}
	return out
}

// counts are the animals of each kind.
func (s grader) counts(rows []account.Counted) []int64 {
	out := make([]int64, len(s.Kinds))
	for _, b := range rows {
		if b.Why == "" {
			out[b.Kind] += b.Animals
		}
	}
	return out
}

func (o *sorted) addOpen(one scheme.OpenCount) {
	i := slices.IndexFunc(o.open, func(before scheme.OpenCount) bool { return before.Taxon == one.Taxon })
	if i < 0 {
		o.open = append(o.open, one)
		return
	}
	o.open[i].Count += one.Count
}

// name is what people call a taxon; the id where the catalog does not know it.
func (r *Rules) name(taxon string) string {
	if t := r.catalog.Taxon(taxon); t != nil {
		return t.Name()
	}
	return taxon
}

func (l *LeftOut) explain(s grader, open []int) {
	switch l.Why {
	case scheme.WhySetAside:
		l.Note = wording.Text("set aside for a second look")
	case scheme.WhyUnknownTaxon:
		l.Note = wording.Sprintf("the catalog knows no taxon %s", plain.Quote(l.Taxon))
	case scheme.WhyNotScored:
		l.Note = wording.Sprintf("%s is never scored", l.Name)
	case scheme.WhyNotListed:
		l.Note = wording.Sprintf("this index has no kind for %s", l.Name)
	case scheme.WhyAmbiguous:
		l.explainOpen(s, open)
	}
}

func (l *LeftOut) explainOpen(s grader, open []int) {
	group := s.Kinds[open[0]].Group
	for _, k := range open {
		l.Kinds = append(l.Kinds, s.Kinds[k].Label)
		if s.Kinds[k].Group != group {
			group = ""
		}
	}
	l.Note = wording.Sprintf("%s may be %s", l.Name, strings.Join(l.Kinds, wording.Text(" or ")))
	if len(l.Kinds) > mostNamed {
		l.Note = wording.Sprintf("%s may be any of %d kinds of this index", l.Name, len(l.Kinds))
	}
	if len(l.Kinds) == 1 {
		l.Note += wording.Text(" or something this index has no kind for")
	}
	if g, i := s.Group(group); i >= 0 && len(l.Kinds) > 1 {
		l.Note += wording.Sprintf("; all of these are %s, but which one decides whether it counts anew", g.Label)
	}
}

// mostNamed is how many names a sentence holds before it only counts them.
const mostNamed = 6

// leftRemarks says for each cause how many records were left out, and which.
func leftRemarks(left []LeftOut) []string {
	remarks := []string{}
	for _, cause := range []struct {
		why  scheme.Why
		text string
	}{
		{scheme.WhySetAside, wording.Text("undecided and set aside for a second look")},
		{scheme.WhyAmbiguous, wording.Text("named too broadly to tell which kind they are")},
		{scheme.WhyUnknownTaxon, wording.Text("named with an id that the catalog does not know")},
		{scheme.WhyNotScored, wording.Text("not scored by any index")},
		{scheme.WhyNotListed, wording.Text("of kinds that this index does not count")},
	} {
		records, animals := 0, 0
		for _, l := range left {
			if l.Why == cause.why {
				records++
				animals += l.Count
			}
		}
		if records > 0 {
			remarks = append(remarks, wording.Sprintf("Left out: %d %s in %d %s, %s%s.", animals,
				plain.Plural(animals, "animal"), records, plain.Plural(records, "record"), cause.text, which(left, cause.why)))
		}
	}
	return remarks
}

// which names the animals left out for one cause, with their number, in the
// order in which they were recorded. What was set aside has no name yet.
func which(left []LeftOut, why scheme.Why) string {
	if why == scheme.WhySetAside {
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
		names, more = names[:mostNamed], wording.Sprintf(" and %d more", n)
	}
	for i, name := range names {
		names[i] = fmt.Sprintf("%s (%d)", plain.Printable(name), counts[name])
	}
	return ": " + strings.Join(names, ", ") + more
}

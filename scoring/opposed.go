package scoring

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"rillkey/scoring/account"
	"rillkey/scoring/scheme"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// opposed is the remark on names that all others of the visit speak against, or none.
func (r *Rules) opposed(a *account.Account) []string {
	var names []string
	animals := map[string]int{}
	for i := range a.Records {
		rec := &a.Records[i]
		if !rec.Decided() || r.sure(a, rec) >= leastShare {
			continue
		}
		if !slices.Contains(names, rec.Name()) {
			names = append(names, rec.Name())
		}
		animals[rec.Name()] += rec.Count
	}
	if len(names) == 0 {
		return nil
	}
	for i, name := range names {
		names[i] = fmt.Sprintf("%s (%d)", plain.Printable(name), animals[name])
	}
	return []string{wording.Sprintf("Beside all others of the visit %s more likely wrong than right: %s. They count as they "+
		"were named; the chances go by what all say together. 'recheck' lists what to look at again.",
		wording.Agree(len(names), "this name is", "these names are"), strings.Join(names, ", "))}
}

// sure is the chance that the name of a record is right, taken together with all
// others.
func (r *Rules) sure(a *account.Account, rec *account.BoundRecord) (p float64) {
	for _, c := range a.Belief(rec) {
		if c.Taxon == rec.Taxon || r.catalog.IsUnder(c.Taxon, rec.Taxon) {
			p += c.Probability
		}
	}
	return p
}

// outsideSpread gives the remark on a value that lies outside of what all names say together,
// or none: it leaves out what has no close name.
func (s grader) outsideSpread(value float64, names *Spread) []string {
	if value >= names.Low && value <= names.High || names.None > 1-leastShare {
		return nil
	}
	return []string{wording.Sprintf("The value goes by the names as they were said. With what all of them say together, "+
		"animals without a close name too, it would be about %s.", s.Text(int64(math.Round(names.Mean*float64(s.One())))))}
}

// singles is the remark on how much of a value stands on kinds of which one animal
// each was found, or none.
//
// Where the best sample counts, those are kinds of that sample, and without them another
// one may be the best.
func singles(s grader, of *account.Account, from evidence, v sum) []string {
	if !s.ByKinds() {
		return nil
	}
	rows, seen := from.rows, s.recorded(of)
	if v.sample != "" {
		rows, seen = account.FromSample(rows, v.sample), account.FromSample(seen, v.sample)
	}
	counts := s.counts(rows)
	var labels []string
	for kind, n := range s.counts(seen) {
		if n == 1 && kind != scheme.None {
			labels = append(labels, s.Kinds[kind].Label)
			counts[kind] = 0
		}
	}
	without := s.Formula().Value(counts)
	for _, taken := range from.samples {
		if v.sample != "" && taken.Label != v.sample {
			other := s.Formula().Value(s.counts(account.FromSample(from.rows, taken.Label)))
			if s.better(other, without) {
				without = other
			}
		}
	}
	if len(labels) == 0 || !without.Defined() || without.Steps() == v.value.Steps() {
		return nil
	}
	return []string{wording.Sprintf("%s: %s. Without %s the value would be %s.",
		plain.CountOf(len(labels), "kind stands on a single animal", "kinds stand on a single animal each"),
		strings.Join(labels, ", "), wording.Agree(len(labels), "it", "them"), s.Text(without.Steps()))}
}

package visit

import "slices"

// Named is the tally with other ids of taxa: current gives the one that an id of an
// earlier edition has today, and any other as it is.
func (t Tally) Named(current func(id string) string) Tally {
	if !slices.ContainsFunc(t.Records, func(r Record) bool { return r.named(current) }) {
		return t
	}
	t.Records = slices.Clone(t.Records)
	for i := range t.Records {
		r := &t.Records[i]
		r.Taxon, r.Possible, r.Also, r.Looks = current(r.Taxon), slices.Clone(r.Possible), slices.Clone(r.Also), slices.Clone(r.Looks)
		for j, id := range r.Possible {
			r.Possible[j] = current(id)
		}
		for j := range r.Also {
			r.Also[j].Taxon = current(r.Also[j].Taxon)
		}
		for j := range r.Looks {
			r.Looks[j].Taxon = current(r.Looks[j].Taxon)
		}
	}
	return t
}

// named reports whether an id of the record has become another.
func (r *Record) named(current func(id string) string) bool {
	other := func(id string) bool { return current(id) != id }
	return other(r.Taxon) || slices.ContainsFunc(r.Possible, other) ||
		slices.ContainsFunc(r.Also, func(c Chance) bool { return other(c.Taxon) }) ||
		slices.ContainsFunc(r.Looks, func(l LookedAgain) bool { return other(l.Taxon) })
}

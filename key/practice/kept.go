package practice

import (
	"cmp"
	"slices"
	"time"

	"rillkey/taxa"
	"rillkey/taxa/bitset"
	"rillkey/taxa/sorting"
)

// night lies between animals of two days, at least. Moments are kept without the zone of
// the clock, so that a pause tells days apart, not a date.
const night = 8 * time.Hour

// dayOf is the day of each animal met, counted from 1.
func (r *PersonRecord) dayOf() []int {
	out := make([]int, len(r.Meetings))
	day := 0
	for i := range r.Meetings {
		if i == 0 || r.Meetings[i].Time.Sub(r.Meetings[i-1].Time) >= night {
			day++
		}
		out[i] = day
	}
	return out
}

// lasting is how a kind was named in sittings, day by day.
type lasting struct {
	first, last int // days on which it was rightly named, 0 before there is one
	right       bool
}

// keptKinds are the kinds of the course that the person named rightly, unprompted, in
// drawings or real animals, on two days and the last time that each was met.
func (r *PersonRecord) keptKinds(c *Course) []bool {
	all := make([]lasting, len(c.kinds))
	day := r.dayOf()
	for i := range r.Meetings {
		m := &r.Meetings[i]
		at, ok := c.kindPlace[m.Kind]
		if !ok || m.Test != "" || m.Source == WordsSource || m.Alike { // of tests nothing comes out
			continue
		}
		one := &all[at]
		if one.right = m.Right() && m.Group == ""; !one.right || m.Prompted {
			continue
		}
		if one.first == 0 {
			one.first = day[i]
		}
		one.last = day[i]
	}
	out := make([]bool, len(all))
	for i, one := range all {
		out[i] = one.right && one.last > one.first
	}
	return out
}

// kept is the share of a tally's animals that are of kept kinds, and some kinds that are
// not and weigh most: by how common they are, and what a wrong name for them does to the
// grade.
func (r *PersonRecord) kept(c *Course) (share float64, wanting []string) {
	var open []int
	for i, is := range r.keptKinds(c) {
		if is {
			share += c.common[i]
		} else {
			open = append(open, i)
		}
	}
	sorting.Stable(open, func(a, b int) int { return cmp.Compare(c.weight(b), c.weight(a)) })
	for _, i := range open[:min(len(open), mostWanting)] {
		wanting = append(wanting, c.kinds[i].ID)
	}
	return share, wanting
}

// mostWanting is how many kinds are named that are still to be kept.
const mostWanting = 5

// weight is what a kind counts in tallies: how common it is, times the mean cost of
// calling it one that it is like, or any other where it is like none.
func (c *Course) weight(kind int) float64 {
	others := c.alike[kind]
	if len(others) == 0 {
		every := bitset.Full(len(c.key.Sound().Ends))
		return c.common[kind] * c.meanPrice(kind, every)
	}
	sum := 0.0
	for _, j := range others {
		sum += c.price[kind][j]
	}
	return c.common[kind] * sum / float64(len(others))
}

// real is how many real animals were met in sittings, and how many of the last so many
// of them were not named rightly.
func (r *PersonRecord) real(last int) (met, wrong int) {
	for _, m := range slices.Backward(r.Meetings) {
		if m.Source != TraySource || m.Test != "" {
			continue
		}
		if met++; met <= last && !m.Right() {
			wrong++
		}
	}
	return met, wrong
}

// LookAlikes are the kinds of the course that a kind is taken for, or that are taken for
// it, by the catalog.
func (c *Course) LookAlikes(kind string) (out []*taxa.Taxon) {
	if i, ok := c.kindPlace[kind]; ok {
		for _, j := range c.alike[i] {
			out = append(out, c.kinds[j])
		}
	}
	return out
}

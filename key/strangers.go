package key

import (
	"cmp"
	"slices"

	"rillkey/taxa"
	"rillkey/taxa/sorting"
)

const (
	// strangerShare is how common a kind is that the catalog knows and the key
	// leaves out, beside the usual kind of the key (memory): whoever wrote the key,
	// or cut it for a brook, took it to be absent or rare there.
	strangerShare = 0.1
	// unmetShare is how common one of them is beside the others that is in no region, and
	// ends up in a net anywhere now and then (memory).
	unmetShare = 0.5
	// strangersTogether is how common all of them are together at most, beside all
	// kinds of the key (memory).
	strangersTogether = 0.55
	// remainderShare is how common everything is that no catalog holds, beside all
	// kinds of the key: eggs, moss animals, what fell in, parts and plants (memory).
	remainderShare = 0.01
)

// withStrangers are the key's end points, what else the catalog knows at its
// lowest, and nil for what no catalog holds, with how common they are. The
// probabilities sum to 1.
func (k *Key) withStrangers(ends []float64) (kinds []*taxa.Taxon, prior []float64) {
	kinds, prior = slices.Clone(k.sound.Ends), slices.Clone(ends)
	strangers := k.strangers()
	each := strangerShare * middle(ends)
	if n := float64(len(strangers)); n > 0 {
		each = min(each, strangersTogether/n)
	}
	sum, met := 1.0, k.metIn()
	for _, t := range strangers {
		share := each
		if !met(t) {
			share *= unmetShare
		}
		kinds, prior = append(kinds, t), append(prior, share)
		sum += share
	}
	kinds, prior = append(kinds, nil), append(prior, remainderShare)
	sum += remainderShare
	for i := range prior {
		prior[i] /= sum
	}
	return kinds, prior
}

// strangers are the taxa of the catalog with nothing beneath them that the key
// does not lead to, neither to them nor to what holds them nor to what nobody can tell
// from them: one crayfish is named for the other.
func (k *Key) strangers() []*taxa.Taxon {
	passed := map[string]bool{}
	for _, t := range k.catalog.Taxa() {
		passed[t.Parent] = true
	}
	isEnd := map[string]bool{}
	for _, end := range k.sound.Ends {
		isEnd[end.ID] = true
	}
	var out []*taxa.Taxon
	for _, t := range k.catalog.Taxa() {
		if !passed[t.ID] && !isEnd[t.ID] &&
			!slices.ContainsFunc(k.catalog.Ancestors(t.ID), func(up *taxa.Taxon) bool { return isEnd[up.ID] }) &&
			!slices.ContainsFunc(k.sound.Ends, func(end *taxa.Taxon) bool { return end.Parent == t.Parent && k.alike(end, t) }) {
			out = append(out, t)
		}
	}
	return out
}

// metIn tells of a taxon whether it is among the animals of a region, or beneath one of them;
// of all it does where no region is known.
func (k *Key) metIn() func(*taxa.Taxon) bool {
	met := map[string]bool{}
	for _, region := range k.catalog.Regions() {
		for _, resident := range region.Taxa {
			met[resident.Taxon] = true
		}
	}
	return func(t *taxa.Taxon) bool {
		return len(met) == 0 || met[t.ID] ||
			slices.ContainsFunc(k.catalog.Ancestors(t.ID), func(up *taxa.Taxon) bool { return met[up.ID] })
	}
}

// alike reports whether two kinds show the same of every trait.
func (k *Key) alike(a, b *taxa.Taxon) bool {
	for _, id := range k.catalog.Vocabulary().IDs() {
		if !slices.Equal(a.States(id), b.States(id)) {
			return false
		}
	}
	return a.Parent != ""
}

// middle is the median of some numbers.
func middle(of []float64) float64 {
	sorted := slices.Sorted(slices.Values(of))
	return (sorted[(len(of)-1)/2] + sorted[len(of)/2]) / 2
}

// anything is the chance of each state in what no catalog holds: as the kinds of the
// catalog show it, all alike.
func (m *Model) anything(t *taxa.Trait) []float64 {
	out := make([]float64, len(t.States))
	known := 0.0
	for _, kind := range m.kinds {
		if kind == nil {
			continue
		}
		shown := kind.States(t.ID)
		for _, w := range shown {
			out[t.State(w.State)] += w.Share
		}
		if shown != nil {
			known++
		}
	}
	for s := range out {
		out[s] /= max(known, 1)
		if known == 0 {
			out[s] = 1 / float64(len(out))
		}
	}
	return out
}

// strangerProbability is the probability that the animal is none of the key's end points.
func (q *Inquiry) strangerProbability() float64 {
	sum := 0.0
	for _, p := range q.belief.P()[len(q.model.ends):] {
		sum += p
	}
	return min(1, sum)
}

// likeTaxon is the lowest taxon that holds the fewest kinds with the required
// probability.
func likeTaxon(q *Inquiry) string {
	p := q.belief.P()
	order := make([]int, 0, len(p))
	for i, kind := range q.model.kinds {
		if kind != nil {
			order = append(order, i)
		}
	}
	sorting.Stable(order, func(a, b int) int { return cmp.Compare(p[b], p[a]) })
	var likely []*taxa.Taxon
	sum := 0.0
	for _, i := range order {
		if sum >= q.opts.Required {
			break
		}
		likely = append(likely, q.model.kinds[i])
		sum += p[i]
	}
	if t := q.model.key.catalog.Cover(ids(likely)); t != nil && sum >= q.opts.Required {
		return t.ID
	}
	return ""
}

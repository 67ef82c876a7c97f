package account

import (
	"maps"
	"slices"
	"sync"

	"rillkey/taxa"
)

// Fauna is the kinds of animals that may lie in a tray, each with how common it is
// in the region. It may be shared by several goroutines.
type Fauna struct {
	catalog *taxa.Catalog
	ids     []string // sorted
	prior   []float64
	index   map[string]int
	held    sync.Map // taxon to the kinds that it holds, as places
}

// NewFauna is the fauna of these kinds, by taxon, and their weights, which are
// above 0; nil without any, and then no record is judged by the others.
func NewFauna(catalog *taxa.Catalog, weights map[string]float64) *Fauna {
	f := &Fauna{catalog: catalog, index: map[string]int{}}
	sum := 0.0
	for _, id := range slices.Sorted(maps.Keys(weights)) {
		if w := weights[id]; w > 0 {
			f.index[id] = len(f.ids)
			f.ids, f.prior = append(f.ids, id), append(f.prior, w)
			sum += w
		}
	}
	for i := range f.prior {
		f.prior[i] /= sum
	}
	if len(f.ids) == 0 {
		return nil
	}
	return f
}

// kinds are the places of the kinds that animals of a taxon may be: itself, that of
// the kind it belongs to, or all that it holds; none where the fauna knows nothing
// of it.
func (f *Fauna) kinds(taxon string) []int {
	if i, ok := f.index[taxon]; ok {
		return []int{i}
	}
	if known, ok := f.held.Load(taxon); ok {
		return known.([]int)
	}
	out := f.find(taxon)
	if f.catalog.Taxon(taxon) != nil { // there is no end of names that nobody knows
		f.held.Store(taxon, out)
	}
	return out
}

func (f *Fauna) find(taxon string) (out []int) {
	for i, id := range f.ids {
		if f.catalog.IsUnder(id, taxon) {
			out = append(out, i)
		}
	}
	for _, up := range f.catalog.Ancestors(taxon) {
		if i, ok := f.index[up.ID]; ok && len(out) == 0 {
			out = append(out, i)
		}
	}
	return out
}

// Commonness is the kinds that the animals of the visit may be of, and how common each
// is in its region beside the others; none where nobody knows.
func (a *Account) Commonness() (kinds []string, common []float64) {
	f := fitting(a.faunas, a.Records)
	if f == nil {
		return nil, nil
	}
	return slices.Clone(f.ids), slices.Clone(f.prior)
}

// knows is how many of some records have a name that the fauna knows.
func (f *Fauna) knows(records []BoundRecord) (n int) {
	for i := range records {
		if records[i].Decided() && len(f.kinds(records[i].Taxon)) > 0 {
			n++
		}
	}
	return n
}

// fitting is the fauna that knows most of the records, of equals the first; nil for
// none.
func fitting(faunas []func() *Fauna, records []BoundRecord) (best *Fauna) {
	most, named := -1, 0
	for i := range records {
		if records[i].Decided() {
			named++
		}
	}
	for i := 0; i < len(faunas) && most < named; i++ {
		f := faunas[i]()
		if f == nil {
			continue
		}
		if n := f.knows(records); n > most {
			best, most = f, n
		}
	}
	return best
}

// Package account says what the animals of one visit count as. An [Account] binds
// each record once to its sample and its taxon, and with [Account.Rows] to its kind
// in a scheme, or says why it has none, or among which kinds it is. Whoever grades,
// exports, lists or draws a visit reads its account; nobody asks a second time.
//
// Begin with [Account], [Counted] and [Fauna].
//
// The package knows neither what kinds are worth nor how anything is shown.
package account

import (
	"math"

	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
	"rillkey/taxa"
)

// Account is one visit as it stands. It is for one goroutine at a time.
type Account struct {
	Visit   *visit.Visit
	Tally   visit.Tally   // of the visit, replayed once
	Records []BoundRecord // those of the tally, in its order

	catalog *taxa.Catalog
	faunas  []func() *Fauna // of where the visit may have been; none where nobody knows
	heardAs *hearing        // once it was asked for
	judged  *judgement      // likewise
	bound   map[scheme.Counting][]Counted
	beliefs map[*BoundRecord][]visit.Chance
}

// BoundRecord is a record with its sample and its taxon.
type BoundRecord struct {
	visit.Record
	SampleTaken *visit.Taken // the sample that its animals came from
	Known       *taxa.Taxon  // nil where it was set aside, or where the catalog lacks its taxon

	place int // among the records
}

// Name is what people call the animals of a record: the id where the catalog does
// not know it, empty where they were set aside.
func (r *BoundRecord) Name() string {
	if r.Known != nil {
		return r.Known.Name()
	}
	return r.Taxon
}

// Decided reports whether the animals have a name.
func (r *BoundRecord) Decided() bool { return !r.Undecided && r.Taxon != "" }

// OfVisit is the account of a visit.
func OfVisit(v *visit.Visit, catalog *taxa.Catalog) *Account { return New(v, v.Tally(), catalog) }

// JudgedAmong says which faunas the animals may be of: the records are then judged
// together, by what is common in the one that knows most of their names, of equals
// the first. Each is asked for once that is needed, one after another until one knows
// them all; nil is none. It gives the account itself.
func (a *Account) JudgedAmong(faunas ...func() *Fauna) *Account {
	a.faunas = faunas
	return a
}

// New is the account of a visit whose tally is at hand.
func New(v *visit.Visit, t visit.Tally, catalog *taxa.Catalog) *Account {
	t = t.Named(catalog.Current)
	a := &Account{Visit: v, Tally: t, Records: make([]BoundRecord, len(t.Records)), catalog: catalog,
		bound: map[scheme.Counting][]Counted{}, beliefs: map[*BoundRecord][]visit.Chance{}}
	samples := map[string]*visit.Taken{}
	for i := range t.Samples {
		samples[t.Samples[i].Label] = &t.Samples[i]
	}
	for i, rec := range t.Records {
		from := samples[rec.Sample]
		if from == nil {
			from = &visit.Taken{} // a tally made by hand
		}
		a.Records[i] = BoundRecord{Record: rec, SampleTaken: from, Known: catalog.Taxon(rec.Taxon), place: i}
	}
	return a
}

// Excluding is the account of the visit without the records that leave is true of.
func (a *Account) Excluding(leave func(*BoundRecord) bool) *Account {
	t := a.Tally
	t.Records = nil
	for i := range a.Records {
		if !leave(&a.Records[i]) {
			t.Records = append(t.Records, a.Records[i].Record)
		}
	}
	return New(a.Visit, t, a.catalog).JudgedAmong(a.faunas...)
}

// Counted is a record as a scheme counts it.
type Counted struct {
	*BoundRecord
	Kind    int        // in KindSet.Kinds, or scheme.None
	Why     scheme.Why // why there is none; empty where there is one
	MayBe   []int      // kinds that it may be instead, where its name is too broad or it was set aside
	Sole    bool       // it is of one of those, as far as the catalog knows
	Any     bool       // nothing says what it may be, so it may be of any kind
	Animals int64      // as the scheme counts them
}

// Rows is every record as a scheme counts it, in the order of Records. The slice is
// not to be changed.
func (a *Account) Rows(c scheme.Counting) []Counted {
	if known, ok := a.bound[c]; ok {
		return known
	}
	out := make([]Counted, len(a.Records))
	for i := range a.Records {
		out[i] = a.bind(c, &a.Records[i])
	}
	a.bound[c] = out
	return out
}

// bind is the one place where a record gets its kind.
func (a *Account) bind(c scheme.Counting, r *BoundRecord) Counted {
	b := Counted{BoundRecord: r, Kind: scheme.None, Animals: int64(r.Count)}
	if c.Scaled {
		b.Animals = scaled(b.Animals, r.SampleTaken.Fraction)
	}
	if !r.Decided() {
		b.Why = scheme.WhySetAside
		b.MayBe, b.Any = kindsAmong(c.Kinds, r)
		return b
	}
	p := c.Kinds.PlaceNamed(r.Taxon, r.Possible)
	b.Kind, b.Why, b.MayBe, b.Sole, b.Any = p.Kind, p.Why, p.Open, p.Sole, p.Why == scheme.WhyUnknownTaxon
	return b
}

// kindsAmong are the kinds that animals without a name may be, by what could not be
// excluded and what has a chance; anything where none of it says so.
func kindsAmong(kinds *scheme.KindSet, r *BoundRecord) (may []int, anything bool) {
	of := make([]bool, len(kinds.Kinds))
	names := append([]string(nil), r.Possible...)
	for _, c := range r.Also {
		names = append(names, c.Taxon)
	}
	for _, id := range names {
		p := kinds.PlaceNamed(id, r.Possible)
		if p.Why == scheme.WhyUnknownTaxon {
			return nil, true
		}
		if p.Why == "" {
			of[p.Kind] = true
		}
		for _, k := range p.Open {
			of[k] = true
		}
	}
	for k, is := range of {
		if is {
			may = append(may, k)
		}
	}
	return may, len(names) == 0
}

// scaled is the number of animals in the whole of a sample of which a share was
// sorted, rounded half up to whole animals, of which one at least was there.
func scaled(animals int64, share float64) int64 {
	if share <= 0 || share >= 1 {
		return animals
	}
	return int64(min(math.Floor(float64(animals)/share+0.5), mostScaled))
}

// mostScaled bounds the animals of one record after scaling, so that no sum of
// them overflows.
const mostScaled = 1 << 30

// FromSample are those of the records that came from the sample.
func FromSample(all []Counted, label string) (own []Counted) {
	n := 0
	for i := range all {
		if all[i].Sample == label {
			n++
		}
	}
	own = make([]Counted, 0, n)
	for i := range all {
		if all[i].Sample == label {
			own = append(own, all[i])
		}
	}
	return own
}

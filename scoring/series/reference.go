package series

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"rillkey/scoring"
	"rillkey/scoring/chance"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Reference is how a site compares with the one that the group names as its
// reference, or with the site upstream: in pairs of visits of nearly one day, with
// the same effort, so that season and weather are the same to both.
type Reference struct {
	Site   string  `json:"site"`   // the reference
	Figure string  `json:"figure"` // title of what is compared
	Pairs  int     `json:"pairs"`
	Here   float64 `json:"here"`  // mean of this site in the pairs, per cent of a share
	There  float64 `json:"there"` // and of the reference
	P      float64 `json:"p"`     // that a difference comes by chance, corrected for the sites compared; 1 where nobody can say
	Shown  bool    `json:"shown"`
	Words  string  `json:"words"`
	Days   int     `json:"days"` // the visits of a pair lie at most so many days apart

	// Unlike is how many pairs met different water or weather.
	Unlike int `json:"unlike,omitempty"`

	unlike  []string // in what the first of these did
	several bool     // the pairs tell how differences vary; else samples do
}

// pairDays is how many days the visits of a pair may lie apart (common practice:
// within the same fortnight, without high water between).
const pairDays = 14

// SameSite tells that two names are those of one site, whatever their case and spaces.
func SameSite(a, b string) bool { return folded(a) == folded(b) }

// ReferenceOf is how the visit of a file stands beside the reference that the table
// was made with; without words where no visit there goes with it.
func (t *VisitTable) ReferenceOf(file, site string) *scoring.Reference {
	out := &scoring.Reference{Site: site}
	for i := range t.Rows {
		if r := &t.Rows[i]; r.File == file && r.Beside != "" {
			for _, p := range t.Places {
				if SamePlace(*r, p) && p.Reference != nil {
					out.Site, out.Words = p.Reference.Site, p.Reference.Words
				}
			}
		}
	}
	return out
}

// pair are two visits of nearly one day, as a figure has them.
type pair struct{ here, there observed }

// against compares every place with the one named; places that lack a pair get
// none.
func (t *VisitTable) against(site string, followed func(*Row) []*figure) {
	at := func(scheme, site string) []Row { // the rows are in the order of their places
		key := folded(site) + "\x00" + scheme
		from, _ := slices.BinarySearchFunc(t.Rows, key, func(r Row, key string) int { return cmp.Compare(place(r), key) })
		to := from
		for to < len(t.Rows) && place(t.Rows[to]) == key {
			to++
		}
		return t.Rows[from:to]
	}
	compared := 0
	for i := range t.Places {
		p := &t.Places[i]
		there := at(p.Scheme, site)
		if folded(p.Site) == folded(site) || len(there) == 0 {
			continue
		}
		if p.Reference = refer(at(p.Scheme, p.Site), there, followed); p.Reference != nil {
			compared++
		}
	}
	for i := range t.Places {
		if r := t.Places[i].Reference; r != nil {
			r.P = min(1, r.P*float64(compared))
			r.Shown = r.P <= 0.05
			r.Words = r.say()
			t.Places[i].Words = r.Words + " " + t.Places[i].Words
		}
	}
}

// refer compares the visits of a site with those of its reference by the first
// figure that both have.
func refer(here, there []Row, followed func(*Row) []*figure) *Reference {
	for i := len(here) - 1; i >= 0; i-- {
		if !here[i].Comparable() || here[i].Aside != "" {
			continue
		}
		for _, f := range followed(&here[i]) {
			if pairs := f.pairs(here, there, &here[i]); len(pairs) > 0 {
				r := f.compare(pairs, there[0].Visit.Site)
				r.Unlike, r.unlike = unlikePairs(pairs, here, there)
				for _, p := range pairs {
					here[p.here.row].Beside = there[p.there.row].Visit.Date
				}
				return r
			}
		}
		return nil
	}
	return nil
}

// pairs gives each visit here the nearest there within pairDays, each once.
func (f *figure) pairs(here, there []Row, newest *Row) (out []pair) {
	others := f.observe(there, newest)
	used := make([]bool, len(others))
	for _, o := range f.observe(here, newest) {
		best := -1
		for i, other := range others {
			days := daysBetween(here[o.row], there[other.row])
			if !used[i] && days <= pairDays && (best < 0 || days < daysBetween(here[o.row], there[others[best].row])) {
				best = i
			}
		}
		if best >= 0 {
			used[best] = true
			out = append(out, pair{o, others[best]})
		}
	}
	return out
}

// fewestPairs is how many pairs tell by themselves how differences vary.
const fewestPairs = 3

// compare tests the mean difference of the pairs with Student's t, or where there
// are too few, against what the samples of both explain.
func (f *figure) compare(pairs []pair, site string) *Reference {
	r := &Reference{Site: site, Figure: f.title, Pairs: len(pairs), Days: pairDays, P: 1}
	n := float64(len(pairs))
	var here, there, sampling float64
	known := true
	for _, p := range pairs {
		here, there = here+p.here.value/n, there+p.there.value/n
		sampling += p.here.sampling + p.there.sampling
		known = known && p.here.sampling > 0 && p.there.sampling > 0
	}
	r.Here, r.There = f.unit(here), f.unit(there)
	mean, squares := here-there, 0.0
	for _, p := range pairs {
		d := p.here.value - p.there.value - mean
		squares += d * d
	}
	switch r.several = len(pairs) >= fewestPairs; {
	case r.several && squares > 0:
		r.P = chance.StudentTails(mean/math.Sqrt(squares/(n-1)/n), len(pairs)-1)
	case !r.several && known:
		// Two samples at least stand behind each visit.
		r.P = chance.StudentTails(mean/(math.Sqrt(sampling)/n), 2*len(pairs))
	}
	return r
}

// say is a sentence, and one more where the water of a pair was not alike.
func (r *Reference) say() string {
	if r.Unlike == 0 {
		return r.difference()
	}
	return r.difference() + wording.Sprintf(" The water was not alike in %d of them (%s), which moves animals too.", r.Unlike,
		strings.Join(r.unlike, "; "))
}

func (r *Reference) difference() string {
	said := wording.Sprintf("Beside %s: %s %.1f here and %.1f there, in %s within %d days", r.Site, r.Figure, r.Here, r.There,
		plain.Counted(r.Pairs, "pair of visits", "pairs of visits"), r.Days)
	switch {
	case r.several && r.Shown:
		return said + wording.Sprintf("; where both are alike, chance alone does that %s.", often(r.P))
	case r.several:
		return wording.Sprintf("%s, no more than the pairs vary by.", said)
	case r.Shown:
		return wording.Sprintf("%s, more than the samples explain; whether it is always so takes three pairs.", said)
	}
	return wording.Sprintf("%s, no more than the samples may explain.", said)
}

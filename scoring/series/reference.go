package series

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"rillkey/scoring"
	"rillkey/scoring/chance"
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// ReferenceComparison is how a site compares with the one that the group names as its
// reference, or with the site upstream: in pairs of visits of nearly one day, with
// the same effort, so that season and weather are the same to both.
type ReferenceComparison struct {
	Site   string  `json:"site"`   // the reference
	Figure string  `json:"figure"` // title of what is compared
	Pairs  int     `json:"pairs"`
	Here   float64 `json:"here"`  // mean of this site in the pairs, per cent of a share
	There  float64 `json:"there"` // and of the reference
	P      float64 `json:"p"`     // that a difference comes by chance, corrected for the sites compared; 1 where nobody can say
	Shown  bool    `json:"shown"`
	Words  string  `json:"words"`
	Days   int     `json:"days"` // the visits of a pair lie at most so many days apart

	// UnlikePairs is how many pairs met different water or weather.
	UnlikePairs int `json:"unlike,omitempty"`

	differing []string // in what the first of these did
	basis     yardstick
}

// yardstick is what tells how much a difference varies by chance.
type yardstick int

const (
	nothing yardstick = iota // one sample was taken, or all are alike
	bySamples
	byPairs
)

// pairDays is how many days the visits of a pair may lie apart (common practice:
// within the same fortnight, without high water between).
const pairDays = 14

// ReferenceOf is how the visit of a file stands beside the reference that it is to be
// compared with; nil where there is none, without words where no visit there goes with it.
func (t *VisitTable) ReferenceOf(file string) *scoring.Reference {
	place, rows := t.PlaceOf(file)
	for i := range rows {
		if rows[i].File == file {
			return place.BesideOf(&rows[i])
		}
	}
	return nil
}

// PlaceOf is the place of the visit of a file, with the rows of all visits to it by the
// same scheme; nil where the table lacks it.
func (t *VisitTable) PlaceOf(file string) (*Site, []Row) {
	for place, rows := range t.ByPlace() {
		if slices.ContainsFunc(rows, func(r Row) bool { return r.File == file }) {
			return place, rows
		}
	}
	return nil, nil
}

// BesideOf is how a visit to the place stands beside its reference, as [VisitTable.ReferenceOf].
func (p *Site) BesideOf(r *Row) *scoring.Reference {
	if r.Reference == "" {
		return nil
	}
	out := &scoring.Reference{Site: r.Reference}
	for _, found := range p.references {
		if r.ReferenceDay != "" && visit.SameSite(found.Site, r.Reference) {
			out.Site, out.Words = found.Site, found.Words
		}
	}
	return out
}

// Rename puts another name for the site that the place is compared with.
func (p *Site) Rename(named func(site string) string) {
	if p.Reference == nil {
		return
	}
	r := *p.Reference
	old, words := r.Site, r.Words
	r.Site = named(old)
	r.Words = strings.ReplaceAll(words, old, r.Site)
	p.Words = strings.Replace(p.Words, words, r.Words, 1)
	p.Reference = &r
}

// pair are two visits of nearly one day, as a figure has them.
type pair struct{ here, there observed }

// compareWith sets every visit beside one to its reference: that of the table, else that
// which it names. A visit without such a one loses its word.
func (t *VisitTable) compareWith(table string, followed func(*Row) []*figure) {
	compared := 0
	for i := range t.Places {
		p := &t.Places[i]
		here := t.rowsOf(p.Scheme, p.Site)
		for _, site := range references(here, table) {
			there := t.rowsOf(p.Scheme, site)
			if found := refer(naming(here, site), there, followed); found != nil {
				p.references = append(p.references, found)
				compared++
			}
		}
	}
	for i := range t.Places {
		t.Places[i].sayBeside(t.rowsOf(t.Places[i].Scheme, t.Places[i].Site), compared)
	}
}

// named tells that some visit names a site to be compared with.
func (t *VisitTable) named() bool {
	return slices.ContainsFunc(t.Rows, func(r Row) bool { return r.Reference != "" })
}

// SetBeside sets listed visits beside the sites that they name, as far as visits there are
// among them: a word is said beside one, or not at all. of gives the summary of an
// entry, nil where it has none.
func SetBeside(entries []VisitFile, of func(i int) *scoring.Summary, rules *scoring.Rules) {
	t := &VisitTable{}
	at := map[string]*VisitFile{}
	for i := range entries {
		if s := of(i); s != nil {
			t.Rows = append(t.Rows, Row{File: entries[i].File, Summary: *s})
			at[entries[i].File] = &entries[i]
		}
	}
	if !t.named() {
		return
	}
	t.inOrder()
	t.split()
	t.compareWith("", func(r *Row) []*figure { return followed(r, rules) })
	for i := range t.Rows {
		r := &t.Rows[i]
		e := at[r.File]
		e.Rating, e.RatingRange, e.Reason, e.Reference, e.ReferenceDay = r.Rating, r.RatingRange, r.Reason, r.Reference, r.ReferenceDay
		e.RatingProvisional = r.RatingProvisional
	}
}

// rowsOf are the visits to a site by a scheme; the rows are in the order of their places.
func (t *VisitTable) rowsOf(scheme, site string) []Row {
	key := folded(site) + "\x00" + scheme
	from, _ := slices.BinarySearchFunc(t.Rows, key, func(r Row, key string) int { return cmp.Compare(place(r.Visit.Site, r.Scheme), key) })
	to := from
	for to < len(t.Rows) && place(t.Rows[to].Visit.Site, t.Rows[to].Scheme) == key {
		to++
	}
	return t.Rows[from:to]
}

// references enters the reference of a table into the visits to a place, and gives all
// that they are to be compared with.
func references(here []Row, table string) (sites []string) {
	for i := range here {
		r := &here[i]
		if table != "" {
			r.Reference = table
		}
		if visit.SameSite(r.Reference, r.Visit.Site) {
			r.Reference = ""
		}
		if r.Reference != "" && !slices.ContainsFunc(sites, func(s string) bool { return visit.SameSite(s, r.Reference) }) {
			sites = append(sites, r.Reference)
		}
	}
	return sites
}

// naming are those visits that are to be compared with a site.
func naming(here []Row, site string) (out []*Row) {
	for i := range here {
		if visit.SameSite(here[i].Reference, site) {
			out = append(out, &here[i])
		}
	}
	return out
}

// DaysBeside tells of a visit among those listed the day of the visit to its reference that
// it stands beside; empty where none does.
func DaysBeside(entries []VisitFile) func(*visit.Visit) string {
	days := map[string]string{}
	for _, e := range entries {
		if e.ReferenceDay != "" {
			days[e.ID] = e.ReferenceDay
		}
	}
	return func(v *visit.Visit) string { return days[v.Header.ID] }
}

// sayBeside says what the comparisons come to, corrected for how many there were, and which
// visits so have their word.
func (p *Site) sayBeside(here []Row, compared int) {
	for _, r := range p.references {
		r.P = min(1, r.P*float64(compared))
		r.Shown = r.P <= 0.05
		r.Words = r.say()
	}
	for i := range here {
		r := &here[i]
		for _, found := range p.references {
			if visit.SameSite(found.Site, r.Reference) {
				p.Reference, r.Reference = found, found.Site // of the newest visit; as it is written there
			}
		}
		switch {
		case r.Reference == "":
		case r.ReferenceDay == "":
			r.Hold()
		default:
			r.Say()
		}
	}
	if p.Reference != nil {
		p.Words = p.Reference.Words + " " + p.Words
	}
}

// refer compares visits to a site with those to its reference, as far as they were made
// in the same way, by the first figure that both have. What is said is of those made as
// the newest were for which there is a visit there.
func refer(here []*Row, there []Row, followed func(*Row) []*figure) (newest *ReferenceComparison) {
	type way struct {
		protocol string
		samples  int
	}
	done := map[way]bool{}
	for i := len(here) - 1; i >= 0; i-- {
		w := way{here[i].Protocol, here[i].Taken}
		if done[w] || !here[i].Comparable() || here[i].Aside != "" {
			continue
		}
		done[w] = true
		if found := referLike(here, there, here[i], followed); newest == nil {
			newest = found
		}
	}
	return newest
}

// referLike compares the visits that were made as one of them was.
func referLike(here []*Row, there []Row, like *Row, followed func(*Row) []*figure) *ReferenceComparison {
	rows := make([]Row, len(here))
	for i, r := range here {
		rows[i] = *r
	}
	for _, f := range followed(like) {
		pairs := f.pairs(rows, there, like)
		if len(pairs) == 0 {
			continue
		}
		r := f.compare(pairs, there[0].Visit.Site)
		r.UnlikePairs, r.differing = unlikePairs(pairs, rows, there)
		for _, p := range pairs {
			here[p.here.row].ReferenceDay = there[p.there.row].Visit.Date
		}
		return r
	}
	return nil
}

// pairs gives each visit here the nearest there within pairDays, each once.
func (f *figure) pairs(here, there []Row, newest *Row) (out []pair) {
	others := f.observe(there, newest)
	used := make([]bool, len(others))
	for _, o := range f.observe(here, newest) {
		days := func(other observed) int { return daysBetween(here[o.row].Visit.Date, there[other.row].Visit.Date) }
		best := -1
		for i, other := range others {
			if d := days(other); !used[i] && d <= pairDays && (best < 0 || d < days(others[best])) {
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
// are too few, or all differ by the same, against what the samples of both explain.
func (f *figure) compare(pairs []pair, site string) *ReferenceComparison {
	r := &ReferenceComparison{Site: site, Figure: f.title, Pairs: len(pairs), Days: pairDays, P: 1}
	n := float64(len(pairs))
	var here, there, sampling float64
	known := true
	for _, p := range pairs {
		here, there = here+p.here.value/n, there+p.there.value/n
		r.Here, r.There = r.Here+p.here.told/n, r.There+p.there.told/n
		sampling += p.here.sampling + p.there.sampling
		known = known && p.here.sampling > 0 && p.there.sampling > 0
	}
	mean, squares := here-there, 0.0
	for _, p := range pairs {
		d := p.here.value - p.there.value - mean
		squares += d * d
	}
	switch {
	case len(pairs) >= fewestPairs && squares > 1e-9*mean*mean:
		r.basis, r.P = byPairs, chance.StudentTails(mean/math.Sqrt(squares/(n-1)/n), len(pairs)-1)
	case mean == 0:
		r.basis = bySamples
	case known:
		// Two samples at least stand behind each visit.
		r.basis, r.P = bySamples, chance.StudentTails(mean/(math.Sqrt(sampling)/n), 2*len(pairs))
	}
	return r
}

// say is a sentence, and one more where the water of a pair was not alike.
func (r *ReferenceComparison) say() string {
	if r.UnlikePairs == 0 {
		return r.difference()
	}
	return r.difference() + wording.Sprintf(" The water was not alike in %d of them (%s), which moves animals too.", r.UnlikePairs,
		strings.Join(r.differing, "; "))
}

func (r *ReferenceComparison) difference() string {
	said := wording.Sprintf("%s: %.1f here and %.1f at %s, in %s within %d days", r.Figure, r.Here, r.There, r.Site,
		plain.CountOf(r.Pairs, "pair of visits", "pairs of visits"), r.Days)
	switch {
	case r.basis == byPairs && r.Shown:
		return said + wording.Sprintf("; where both are alike, chance alone does that %s.", often(r.P))
	case r.basis == byPairs:
		return wording.Sprintf("%s, no more than the pairs vary by.", said)
	case r.basis == nothing:
		return wording.Sprintf("%s; whether that is more than chance, these samples do not say.", said)
	case r.Shown && r.Pairs >= fewestPairs:
		return wording.Sprintf("%s, more than the samples explain.", said)
	case r.Shown:
		return wording.Sprintf("%s, more than the samples explain; whether it is always so takes three pairs.", said)
	}
	return wording.Sprintf("%s, no more than the samples may explain.", said)
}

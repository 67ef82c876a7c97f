package scoring

import (
	"maps"
	"slices"

	"rillkey/scoring/account"
	"rillkey/scoring/visit"
	"rillkey/taxa/wording"
)

// Agreement compares the first identifications of a visit with the blind second
// ones. The first name is the one first recorded, whatever was settled since. A
// limit passed is a reason to look closer, never a reason to reject anybody's work.
type Agreement struct {
	Visit        Subject  `json:"visit"`
	Records      int      `json:"records"` // with a second identification
	Differing    []Differ `json:"differing"`
	Disagreement *float64 `json:"ptd"` // per cent taxonomic disagreement, weighed by animals; nil without any
	Enumeration  *float64 `json:"pde"` // per cent difference in enumeration, |n1-n2|/(n1+n2); nil where nothing was counted again
	Kappa        *float64 `json:"kappa"`
	Limits       Limits   `json:"limits"`
	Remarks      []string `json:"remarks"`
}

// Limits are the usual objectives, in per cent: a reason to look closer, not to
// reject.
type Limits struct {
	Disagreement float64 `json:"ptd"`
	Enumeration  float64 `json:"pde"`
	Source       string  `json:"source"`
}

// Differ is a record that two people named differently.
type Differ struct {
	Record  string `json:"record"`
	Sample  string `json:"sample"`
	Cell    string `json:"cell"`
	First   string `json:"first"` // taxon ids; empty when set aside
	Second  string `json:"second"`
	Counts  string `json:"counts_as"` // the name that counts as things stand
	Settled bool   `json:"settled"`   // amended after the second look
}

// Agreement gives the figures of a visit. Each record is compared by its latest
// second look; a broader and a closer name for the same animal agree, at the rank
// of the broader.
func (r *Rules) Agreement(a *account.Account) *Agreement {
	v := a.Visit
	out := &Agreement{
		Visit: Subject{v.Header.ID, v.Header.Site, v.Header.Date}, Differing: []Differ{}, Remarks: []string{},
		Limits: Limits{mostDisagreement, mostEnumeration,
			wording.Text("PTD: a published quality plan of US EPA citing Stribling et al. 2008; PDE: Stribling, Moulton and " +
				"Lester 2003 (memory)")},
	}
	var names, counts []namePair
	first := r.firstNames(v)
	for _, rec := range a.Tally.Records {
		if len(rec.Looks) == 0 {
			continue
		}
		look := rec.Looks[len(rec.Looks)-1]
		p := r.pair(first[rec.ID], decided(look.Taxon, look.Undecided), rec.Count)
		if look.Count > 0 {
			p.CountB = look.Count
			counts = append(counts, p)
		}
		names = append(names, p)
		if p.First != p.Second {
			out.Differing = append(out.Differing,
				Differ{rec.ID, rec.Sample, rec.Cell, p.First, p.Second, decided(rec.Taxon, rec.Undecided), amendedAfter(v, rec, look)})
		}
	}
	out.Records = len(names)
	figure := func(f func([]namePair) (float64, bool), of []namePair) *float64 {
		if x, ok := f(of); ok {
			return &x
		}
		return nil
	}
	out.Disagreement, out.Enumeration, out.Kappa = figure(disagreement, names), figure(enumeration, counts), figure(kappa, names)
	out.remark(len(counts), slices.ContainsFunc(names, func(p namePair) bool { return p.First == "" && p.Second == "" }))
	return out
}

// pair is what two people called the same animals. Of two names of which one is
// broader both count as that one.
func (r *Rules) pair(first, second string, count int) namePair {
	switch {
	case r.catalog.IsUnder(second, first):
		second = first
	case r.catalog.IsUnder(first, second):
		first = second
	}
	return namePair{First: first, Second: second, CountA: count, CountB: count}
}

// remark says how to read the figures: of so many records counted again, and with animals that
// both people left open among them or without.
func (a *Agreement) remark(counted int, bothOpen bool) {
	if a.Records == 0 {
		a.Remarks = append(a.Remarks, wording.Text("No animal was identified a second time yet."))
		return
	}
	if counted < a.Records {
		a.Remarks = append(a.Remarks, wording.Text(
			"Where nobody counted again, the first count stands for both; the difference in enumeration rests on recounts alone."))
	}
	if bothOpen {
		a.Remarks = append(a.Remarks, wording.Text(
			"Animals that both people left open have no name to agree on: they count as differing in names, and as agreeing for kappa."))
	}
	if a.Kappa == nil {
		a.Remarks = append(a.Remarks, wording.Text("Kappa has no value where both people said one and the same throughout."))
	}
	if over := a.Disagreement != nil && *a.Disagreement > a.Limits.Disagreement || a.Enumeration != nil &&
		*a.Enumeration > a.Limits.Enumeration; over {
		a.Remarks = append(a.Remarks, wording.Text(
			"A figure above the usual objective is a reason to look closer at those names, not to reject anybody's work."))
	}
}

func decided(taxon string, undecided bool) string {
	if undecided {
		return ""
	}
	return taxon
}

func (r *Rules) firstNames(v *visit.Visit) map[string]string {
	out := map[string]string{}
	for _, e := range v.Events {
		if d, ok := e.Body.(visit.Identification); ok {
			out[e.ID] = decided(r.catalog.Current(d.Taxon), d.Undecided)
		}
	}
	return out
}

// amendedAfter tells that the record was amended after the look in the file.
func amendedAfter(v *visit.Visit, rec visit.Record, look visit.LookedAgain) bool {
	seen := false
	for _, e := range v.Events {
		if e.ID == look.ID {
			seen = true
		}
		if a, ok := e.Body.(visit.Amendment); ok && seen && a.Entry == rec.ID {
			return true
		}
	}
	return false
}

// namePair is what two people called the same animals, and how many each counted.
// An empty name is one that was left open.
type namePair struct {
	First, Second  string
	CountA, CountB int
}

// The usual objectives, in per cent. Sources: 15 % a published quality plan of
// US EPA citing Stribling et al. 2008; 5 % from memory, Stribling, Moulton and
// Lester 2003.
const (
	mostDisagreement = 15.0
	mostEnumeration  = 5.0
)

// disagreement is the per cent taxonomic disagreement, (1 - agreeing / N) x 100,
// N the larger of the two counts; pairs with an open name agree in nothing. No
// value without animals. Source: US EPA quality plan citing Stribling et al.
// 2008.
func disagreement(pairs []namePair) (percent float64, ok bool) {
	agreeing, a, b := 0, 0, 0
	for _, p := range pairs {
		if p.First != "" && p.First == p.Second {
			agreeing += min(p.CountA, p.CountB)
		}
		a, b = a+p.CountA, b+p.CountB
	}
	if max(a, b) <= 0 {
		return 0, false
	}
	return 100 * (1 - float64(agreeing)/float64(max(a, b))), true
}

// enumeration is the per cent difference in enumeration, |n1 - n2| / (n1 + n2) x
// 100. Some quality plans divide by the mean instead, which is twice as large.
// No value without animals. Source: Stribling, Moulton and Lester 2003 (memory).
func enumeration(pairs []namePair) (percent float64, ok bool) {
	a, b := 0, 0
	for _, p := range pairs {
		a, b = a+p.CountA, b+p.CountB
	}
	if a+b <= 0 {
		return 0, false
	}
	return 100 * float64(max(a-b, b-a)) / float64(a+b), true
}

// kappa is Cohen's kappa over the pairs, each weighing one: (po - pe) / (1 - pe),
// po the share that agree and pe the share that would by chance. 1 is complete
// agreement, 0 that of chance. No value without pairs, or where both people used
// one and the same name throughout. Source: Cohen 1960 (memory).
func kappa(pairs []namePair) (kappa float64, ok bool) {
	n := float64(len(pairs))
	if n == 0 {
		return 0, false
	}
	first, second := map[string]float64{}, map[string]float64{}
	agree := 0.0
	for _, p := range pairs {
		first[p.First]++
		second[p.Second]++
		if p.First == p.Second {
			agree++
		}
	}
	chance := 0.0
	for _, name := range slices.Sorted(maps.Keys(first)) {
		chance += first[name] * second[name]
	}
	if chance == n*n {
		return 0, false
	}
	return (n*agree - chance) / (n*n - chance), true
}

package scoring

import (
	"cmp"
	"math"
	"slices"

	"rillkey/scoring/account"
	"rillkey/scoring/chance"
	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/sorting"
	"rillkey/taxa/wording"
)

// Recheck says which records are worth a second look first.
type Recheck struct {
	Visit       Subject         `json:"visit"`
	Scheme      string          `json:"scheme"` // id of the main scheme, whose rating is to become certain
	Title       string          `json:"title"`
	Uncertainty float64         `json:"uncertainty_bits"` // entropy of the rating as things stand
	Records     []RecheckRecord `json:"records"`          // most gain first
	// Wordless tells that no rating is said of the visit, so that none can become more
	// certain; the order goes by what the ratings would be all the same.
	Wordless bool `json:"wordless,omitempty"`
}

// RecheckRecord is a record to look at again.
type RecheckRecord struct {
	Record string  `json:"record"` // id of the event
	Sample string  `json:"sample"`
	Cell   string  `json:"cell"`
	Taxon  string  `json:"taxon"` // empty when set aside
	Name   string  `json:"name"`
	Count  int     `json:"count"`
	Sure   float64 `json:"sure"`      // chance of the name
	Gain   float64 `json:"gain_bits"` // expected drop of the rating's entropy if it were settled
	Moves  float64 `json:"moves"`     // expected drop of the value's variance
	Looks  int     `json:"looks"`     // second looks it had
	// MayChange tells that closer names for its animals could change the rating, also where no gain
	// is told: that takes them to be alike, and animals of one broad name may be of several kinds.
	MayChange bool          `json:"may_change_rating,omitempty"`
	Rivals    []Alternative `json:"rivals"` // likeliest first
	Tell      *TellApart    `json:"tell_apart"`
}

// Next is the record to look at twice, if there is one: the first of the list that
// nobody looked at twice yet. Where no name is doubtful it is the least sure one, since
// a second look still tells how well two people agree.
func (l *Recheck) Next(t visit.Tally) (next visit.Record, ok bool) {
	for _, one := range l.Records {
		if r, ok := t.Record(one.Record); ok && len(r.Looks) == 0 {
			return r, true
		}
	}
	for _, r := range t.Records {
		if len(r.Looks) == 0 && (!ok || r.Confidence < next.Confidence) {
			next, ok = r, true
		}
	}
	return next, ok
}

// Alternative is a taxon that the animals may be instead.
type Alternative struct {
	Taxon  string  `json:"taxon"`
	Name   string  `json:"name"`
	Chance float64 `json:"chance"`
}

// TellApart is the one feature to look at.
type TellApart struct {
	Question string   `json:"question"`
	How      string   `json:"how"`
	Shows    []Shows  `json:"shows"`           // what each of the two shows
	Words    string   `json:"words,omitempty"` // instead, where no feature parts them for certain
	Pair     []string `json:"between"`         // names of the two
}

// Shows is what a taxon shows of a feature.
type Shows struct {
	Name   string   `json:"name"`
	States []string `json:"states"`
}

// Recheck ranks the records of a visit by the expected gain in certainty of the
// main scheme's rating if the record were settled: the entropy of the rating now
// less its mean over all that the record may turn out to be. Records named too
// broadly for the scheme may be any of the kinds that the name leaves open, in
// equal parts. A name that holds with over 0.99 is left out; animals without one
// come first. The error says that there is no such protocol. Source of the
// measure: expected information, Lindley 1956 (memory).
func (r *Rules) Recheck(a *account.Account, seed uint64) (*Recheck, error) {
	h := a.Visit.Header
	p, err := r.Protocol(h.Protocol)
	if err != nil {
		return nil, err
	}
	s := r.grader(p.Schemes[0])
	from := s.evidence(a)
	distributions := from.distributions(from.rows)
	all := s.sort(from.rows)
	now := s.valued(p.Combine, from, all, chance.Seeded(seed))
	out := &Recheck{Visit: Subject{h.ID, h.Site, h.Date}, Scheme: s.ID, Title: s.Title, Uncertainty: s.entropy(now.names),
		Records: []RecheckRecord{}}
	out.Wordless = s.withhold(effortOf(p, a.Tally.Samples), all) != "" || !r.word(s, p.Combine, a, now).worded()
	var listed []int
	for i := range a.Records {
		one := r.second(&a.Records[i], a.Belief(&a.Records[i]))
		if one.Doubtful() || from.rows[i].Why == scheme.WhyAmbiguous {
			one.MayChange = s.mayChange(p.Combine, from, i, now.sum)
			listed, out.Records = append(listed, i), append(out.Records, one)
		}
	}
	gains, _ := s.gains(p.Combine, from, distributions, listed, seed)
	for i, g := range gains {
		out.Records[i].Gain, out.Records[i].Moves = g.bits, g.variance
	}
	sorting.Stable(out.Records, func(a, b RecheckRecord) int {
		return cmp.Or(unnamedFirst(a, b), compareTenths(b.Gain, a.Gain), compareTenths(b.Moves, a.Moves), cmp.Compare(a.Sure, b.Sure))
	})
	return out, nil
}

// mayChange tells whether closer names for the animals of a row that is named too broadly
// could change the rating of a value.
func (s grader) mayChange(how scheme.Combine, from evidence, row int, v sum) bool {
	one := from.rows[row]
	if one.Why != scheme.WhyAmbiguous || len(s.Bands) == 0 || !v.value.Defined() {
		return false
	}
	rows := from.rows
	if how == scheme.Best {
		rows = account.FromSample(rows, one.Sample)
	}
	open := scheme.OpenCount{Taxon: one.Taxon, Count: one.Animals, Kinds: one.MayBe, Sole: one.Sole}
	low, high, ok := s.Bounds(s.sort(rows).found, []scheme.OpenCount{open})
	own := s.Band(v.value.Steps()).Rating
	other := func(bound chance.Ratio) bool {
		if how == scheme.Best && !s.better(bound, v.value) {
			return false
		}
		return bound.Defined() && s.Band(bound.Steps()).Rating != own
	}
	return ok && (other(low) || other(high))
}

// leastRival is the chance below which a rival is not named beside likelier ones.
const leastRival = 0.005

// surelyRight is the chance above which a name is not doubtful.
const surelyRight = 0.99

// Doubtful reports whether nobody knows what the animals are called: they have no
// name, or one that may well be wrong. A record can also be listed because its
// name is too broad for the scheme, however sure it is.
func (s *RecheckRecord) Doubtful() bool { return s.Taxon == "" || s.Sure <= surelyRight }

func unnamedFirst(a, b RecheckRecord) int { return min(len(a.Taxon), 1) - min(len(b.Taxon), 1) }

// compareTenths leaves out differences that only rounding makes.
func compareTenths(a, b float64) int {
	return cmp.Compare(math.Round(a*1e9), math.Round(b*1e9))
}

func (r *Rules) second(rec *account.BoundRecord, belief []visit.Chance) RecheckRecord {
	out := RecheckRecord{
		Record: rec.ID, Sample: rec.Sample, Cell: rec.Cell, Taxon: rec.Taxon, Name: rec.Name(),
		Count: rec.Count, Looks: len(rec.Looks), Rivals: []Alternative{},
	}
	if !rec.Decided() {
		out.Taxon, out.Name = "", wording.Text("set aside")
	}
	for _, c := range belief {
		switch {
		case out.Taxon != "" && (c.Taxon == out.Taxon || r.catalog.IsUnder(c.Taxon, out.Taxon)):
			out.Sure += c.Probability
		case c.Taxon != account.UnknownTaxon:
			out.Rivals = append(out.Rivals, Alternative{c.Taxon, r.name(c.Taxon), c.Probability})
		}
	}
	sorting.Stable(out.Rivals, func(a, b Alternative) int { return cmp.Compare(b.Chance, a.Chance) })
	if n := slices.IndexFunc(out.Rivals, func(r Alternative) bool { return r.Chance < leastRival }); n > 0 {
		out.Rivals = out.Rivals[:n]
	}
	first := out.Taxon
	rivals := out.Rivals
	if first == "" && len(rivals) > 1 {
		first, rivals = rivals[0].Taxon, rivals[1:]
	}
	if len(rivals) > 0 {
		out.Tell = r.tell(first, rivals[0].Taxon)
	}
	return out
}

// tell finds the easiest feature that parts two taxa for certain, else what the
// catalog says of them in words; nil where it says nothing.
func (r *Rules) tell(first, rival string) *TellApart {
	a, b := r.catalog.Taxon(first), r.catalog.Taxon(rival)
	if a == nil || b == nil {
		return nil
	}
	out := &TellApart{Shows: []Shows{}, Pair: []string{a.Name(), b.Name()}}
	if traits := r.catalog.TellApart(a, b); len(traits) > 0 {
		t := traits[0]
		out.Question, out.How = t.Question, t.How
		out.Shows = append(out.Shows, shows(t, a), shows(t, b))
		return out
	}
	for _, pair := range [][2]*taxa.Taxon{{a, b}, {b, a}} {
		for _, m := range pair[0].Mistaken {
			if r.catalog.IsUnder(pair[1].ID, m.Taxon) {
				out.Words = m.Tell
				return out
			}
		}
	}
	return nil
}

func shows(t *taxa.Trait, x *taxa.Taxon) Shows {
	out := Shows{Name: x.Name(), States: []string{}}
	for _, w := range x.States(t.ID) {
		if i := t.State(w.State); i >= 0 {
			out.States = append(out.States, t.States[i].Label)
		}
	}
	return out
}

package scoring

import (
	"cmp"
	"math"
	"strings"

	"rillkey/scoring/account"
	"rillkey/scoring/chance"
	"rillkey/scoring/condition"
	"rillkey/scoring/scheme"
)

// Summary is a visit's main index in short, for tables of many visits.
type Summary struct {
	Visit             Subject  `json:"visit"`
	Protocol          string   `json:"protocol"`
	Scheme            string   `json:"scheme"` // id of the main scheme
	Title             string   `json:"title"`
	Value             *float64 `json:"value"`  // nil where there is none
	Rating            string   `json:"rating"` // empty when withheld
	RatingProvisional bool     `json:"rating_provisional,omitempty"`
	RatingRange       []string `json:"between,omitempty"` // as in Index
	Withheld          bool     `json:"withheld"`
	Reason            string   `json:"reason"`
	// withheld because the animals have names that the index or the catalog does not know
	Foreign bool     `json:"foreign,omitempty"`
	Names   *float64 `json:"names_sd"` // standard deviation of the value because of doubtful names
	// from where to where 95 of 100 values lie because of them, which need not be about the value; nil where
	// none is doubtful
	NamesRange *[2]float64 `json:"names_range,omitempty"`
	// and because of which samples happened to be taken; nil for fewer than two
	Samples *float64 `json:"samples_sd"`
	// how far up or down 95 of 100 values lie because of the samples; nil likewise
	Reach   *float64 `json:"samples_reach"`
	Chance  *float64 `json:"rating_chance"`            // of the rating, because of doubtful names
	Taken   int      `json:"samples"`                  // samples that somebody looked through
	InPart  bool     `json:"sorted_in_part,omitempty"` // of some only a part was sorted
	Watched *Watched `json:"watched,omitempty"`        // the share that the protocol watches over years
	// Reference is the site that the visit names to be compared with; empty for none.
	Reference string `json:"reference,omitempty"`
	// Held is the word that may be said beside a visit there alone; nil where there is
	// none, or it is said.
	Held *Held `json:"held,omitempty"`

	Kinds      []uint16           `json:"-"` // found, by their places in the main scheme
	Conditions condition.Compared `json:"-"` // by which visits are compared
}

// Held is a word that no visit to the reference stands beside yet, as the [Summary]
// would have it.
type Held struct {
	Rating      string   `json:"rating"`
	Provisional bool     `json:"provisional,omitempty"`
	RatingRange []string `json:"between,omitempty"`
	Reason      string   `json:"reason,omitempty"`
	Chance      *float64 `json:"chance,omitempty"`
}

// Hold takes the word, or those between which the value lies, out of a summary: no word
// stands against a fixed scale alone where the group has a reference.
func (b *Summary) Hold() {
	if b.Held != nil || len(b.RatingRange) == 0 && (b.Rating == "" || b.Rating == scheme.Unrated) {
		return
	}
	b.Held = &Held{b.Rating, b.RatingProvisional, b.RatingRange, b.Reason, b.Chance}
	b.Rating, b.RatingProvisional, b.RatingRange, b.Chance, b.Withheld = "", false, nil, nil, true
	b.Reason = cmp.Or(b.Reason, alone())
}

// Say says a word that was held, beside a visit to the reference.
func (b *Summary) Say() {
	if h := b.Held; h != nil {
		b.Rating, b.RatingProvisional, b.RatingRange, b.Reason, b.Chance = h.Rating, h.Provisional, h.RatingRange, h.Reason, h.Chance
		b.Withheld, b.Held = b.Rating == "", nil
	}
}

// Summary grades a visit by its main index alone. The error says that there is no
// such protocol.
func (r *Rules) Summary(a *account.Account, seed uint64) (Summary, error) {
	b, err := r.summary(a, seed)
	if b.Reference = strings.Clone(a.Visit.Header.ComparesWith()); b.Reference != "" {
		b.Hold()
	}
	return b, err
}

func (r *Rules) summary(a *account.Account, seed uint64) (Summary, error) {
	h := a.Visit.Header
	b := Summary{Visit: Subject{h.ID, h.Site, h.Date}, Protocol: h.Protocol}
	p, err := r.Protocol(h.Protocol)
	if err != nil {
		return b, err
	}
	// Copies, so that a table of many visits does not hold on to their files.
	b.Visit = Subject{strings.Clone(h.ID), strings.Clone(h.Site), strings.Clone(h.Date)}
	b.Protocol = p.ID
	s := r.grader(p.Schemes[0])
	b.Scheme, b.Title = s.ID, s.Title
	from := s.evidence(a)
	all := s.sort(from.rows)
	if b.Reason = s.withhold(effortOf(p, a.Tally.Samples), all); b.Reason != "" {
		b.Withheld = true
		return b, nil
	}
	v := s.valued(p.Combine, from, all, chance.Seeded(seed))
	b.Taken, b.InPart = len(from.samples), inPart(from.samples)
	b.Watched = r.watched(p.Watch, a)
	b.Conditions = a.Tally.Conditions().Compared()
	b.Kinds = make([]uint16, len(all.found))
	for i, f := range all.found {
		b.Kinds[i] = uint16(f.Index)
	}
	value := s.Number(v.value.Steps())
	b.Value, b.Names = &value, s.deviation(v.names)
	if *b.Names > 0 {
		b.NamesRange = &[2]float64{s.Number(v.names.Quantile(0.025)), s.Number(v.names.Quantile(0.975))}
	}
	if v.resampled {
		sd := v.deviation / float64(s.One())
		reach := sd * chance.StudentBound(0.05, s.freedom(p.Combine, len(from.samples)))
		b.Samples, b.Reach = &sd, &reach
	}
	w := r.word(s, p.Combine, a, v)
	if b.Rating, b.RatingProvisional = w.band.Rating, w.provisional; w.reason != "" {
		b.Foreign = w.foreign
		b.Withheld, b.Reason, b.RatingRange, b.Rating = true, w.reason, w.ratings, ""
		return b, nil
	}
	if len(s.Bands) > 0 {
		p := s.spread(v.names).probabilities()[b.Rating]
		b.Chance = &p
	}
	return b, nil
}

// Comparable tells that the value may be compared with that of other visits: the
// effort was complete, and the names are those that the index knows. That there
// were too few animals for a word is a finding as well.
func (b *Summary) Comparable() bool { return b.Value != nil && !b.Foreign }

func (s grader) deviation(c chance.Distribution) *float64 {
	_, variance := c.Moments(s.Number)
	sd := math.Sqrt(variance)
	return &sd
}

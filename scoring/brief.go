package scoring

import (
	"math"
	"strings"

	"rillkey/scoring/visit"
)

// Brief is a visit's main index in short, for tables of many visits.
type Brief struct {
	Visit    Subject  `json:"visit"`
	Protocol string   `json:"protocol"`
	Scheme   string   `json:"scheme"` // id of the main scheme
	Title    string   `json:"title"`
	Value    *float64 `json:"value"` // nil when withheld
	Rating   string   `json:"rating"`
	Withheld bool     `json:"withheld"`
	Reason   string   `json:"reason"`
	Names    *float64 `json:"names_sd"`      // standard deviation of the value because of doubtful names
	Samples  *float64 `json:"samples_sd"`    // and because of which samples happened to be taken; nil for fewer than two
	Chance   *float64 `json:"rating_chance"` // of the rating, because of doubtful names

	Notices []visit.Notice `json:"-"` // what was wrong with the file
}

// Brief grades a visit by its main index alone. The error says that there is no
// such protocol.
func (r *Rules) Brief(v *visit.Visit, seed uint64) (Brief, error) {
	b := Brief{Visit: Subject{v.Header.ID, v.Header.Site, v.Header.Date}, Protocol: v.Header.Protocol}
	p, err := r.Protocol(v.Header.Protocol)
	if err != nil {
		return b, err
	}
	// Copies, so that a table of many visits does not hold on to their files.
	b.Visit = Subject{strings.Clone(v.Header.ID), strings.Clone(v.Header.Site), strings.Clone(v.Header.Date)}
	b.Protocol = p.ID
	s, t := r.Scheme(p.Schemes[0]), v.Tally()
	b.Notices = append(append(b.Notices, v.Notices...), t.Notices...)
	b.Scheme, b.Title = s.ID, s.Title
	effort := p.effort(t.Samples)
	t, _ = s.scaled(t)
	t.Samples = looked(t.Samples)
	all := r.sort(s, t.Records)
	if b.Reason = s.withhold(effort, all); b.Reason != "" {
		b.Withheld = true
		return b, nil
	}
	steps := r.combined(s, p.Combine, t, all).value.steps()
	value := s.number(steps)
	b.Value, b.Rating = &value, s.band(steps).Rating
	names := r.nameChances(s, p.Combine, t, seed)
	b.Names = names.deviation(s, 1)
	for _, c := range names.ratings(s) {
		if c.Rating == b.Rating {
			chance := c.Chance
			b.Chance = &chance
		}
	}
	if c, ok := r.resampled(s, p.Combine, t, seed); ok {
		n := float64(len(t.Samples))
		b.Samples = c.deviation(s, n/(n-1)) // the bootstrap's variance is too small by that
	}
	return b, nil
}

func (c chances) deviation(s *Scheme, scale float64) *float64 {
	_, variance := c.moments(s)
	sd := math.Sqrt(variance * scale)
	return &sd
}

package scoring

import (
	"rillkey/scoring/account"
	"rillkey/scoring/diversity"
	"rillkey/scoring/visit"
	"rillkey/taxa/wording"
)

// RichnessForecast is what more sampling would likely find, in kinds of the main scheme.
// It is an estimate from how often kinds turned up in the samples taken, and
// takes further samples to be like them.
type RichnessForecast struct {
	Found    int     `json:"found"`    // kinds in the samples taken
	Samples  int     `json:"samples"`  // samples taken and looked through
	Required int     `json:"required"` // samples at the full effort
	Expected float64 `json:"expected"` // kinds at the full effort
	Low      float64 `json:"low"`      // its interval of 95 %
	High     float64 `json:"high"`
	InAll    float64 `json:"in_all"` // kinds there are at least (Chao2)
	InAllLow float64 `json:"in_all_low"`
	InAllTop float64 `json:"in_all_high"`
	Source   string  `json:"source"`
}

// Incidence says in how many of a visit's samples each kind of the main scheme
// was found, leaving out samples that are not yet sorted. The error says that there is no such protocol.
func (r *Rules) Incidence(a *account.Account) (diversity.Incidence, error) {
	p, err := r.Protocol(a.Visit.Header.Protocol)
	if err != nil {
		return diversity.Incidence{}, err
	}
	return r.grader(p.Schemes[0]).incidence(a), nil
}

// incidence takes kinds as found, whatever the scheme multiplies up.
func (s grader) incidence(a *account.Account) diversity.Incidence {
	from := s.evidence(a)
	x := diversity.Incidence{Samples: len(from.samples)}
	in := make([]int, len(s.Kinds))
	for _, taken := range from.samples {
		for kind, n := range s.counts(account.FromSample(from.rows, taken.Label)) {
			if n > 0 {
				in[kind]++
			}
		}
	}
	for _, n := range in {
		if n > 0 {
			x.Frequencies = append(x.Frequencies, n)
		}
	}
	return x
}

// forecast is nil for fewer than two samples, from which nothing can be told, and
// where no further one is required.
func (s grader) forecast(e Effort, a *account.Account) *RichnessForecast {
	x := s.incidence(a)
	full := x.Samples
	for _, u := range e.Unsorted {
		if u.State == visit.NotSorted {
			full++
		}
	}
	for _, m := range e.Missing {
		full += m.Samples
	}
	at, ok := x.Expected(full)
	if e.Complete || full == x.Samples || !ok || x.Found() == 0 {
		return nil
	}
	all, _ := x.Chao2()
	return &RichnessForecast{
		Found: x.Found(), Samples: x.Samples, Required: full,
		Expected: at.Kinds, Low: at.Low, High: at.High,
		InAll: all.Kinds, InAllLow: all.Low, InAllTop: all.High,
		Source: wording.Text("Colwell et al. 2012, Journal of Plant Ecology 5(1):3-21 (formulas from memory)"),
	}
}

package scoring

import (
	"math"
	"slices"

	"rillkey/scoring/account"
	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
)

// Watched is the share of some animals among all that a scheme counts, as they
// were counted: a share is the same in expectation whether all of a sample was
// sorted or a part.
type Watched struct {
	Scheme  string `json:"scheme"` // id
	Title   string `json:"title"`
	Meant   int64  `json:"meant"` // animals of the kinds meant
	Counted int64  `json:"of"`    // animals counted
	// Because of which samples were taken, the standard deviation of the logit of the
	// share; nil for fewer than two samples.
	Samples *float64 `json:"logit_samples_sd"`
}

// Logit is the logarithm of the odds, with half an animal added to both sides so
// that it is always finite (the empirical logit; Cox and Snell 1989, from memory).
func (w *Watched) Logit() float64 {
	return math.Log((float64(w.Meant) + 0.5) / (float64(w.Counted-w.Meant) + 0.5))
}

// watched is nil where no scheme is named or it counts no animal.
func (r *Rules) watched(id string, a *account.Account) *Watched {
	s := r.grader(id)
	if s.Scheme == nil {
		return nil
	}
	w := Watched{Scheme: s.ID, Title: s.Title}
	at := map[string]int{}
	samples := looked(a.Tally.Samples)
	for i, taken := range samples {
		at[taken.Label] = i
	}
	meant, of := make([]float64, len(samples)), make([]float64, len(samples))
	for _, b := range s.recorded(a) {
		i, known := at[b.Sample]
		if b.Kind == scheme.None || !known {
			continue
		}
		of[i] += float64(b.Animals)
		w.Counted += b.Animals
		if s.Meant(b.Kind) {
			meant[i] += float64(b.Animals)
			w.Meant += b.Animals
		}
	}
	if w.Counted == 0 {
		return nil
	}
	w.Samples = logitDeviation(meant, of)
	return &w
}

// logitDeviation is the standard deviation of the logit of a share because of
// which samples were taken: that of a ratio of two sums, by its linear part
// (Cochran 1977, section 6.3, from memory).
func logitDeviation(meant, of []float64) *float64 {
	n := float64(len(of))
	if n < 2 {
		return nil
	}
	a, b := 0.5, 1.0
	for i := range of {
		a, b = a+meant[i], b+of[i]
	}
	p, squares := a/b, 0.0
	for i := range of {
		d := meant[i] - p*of[i]
		squares += d * d
	}
	sd := math.Sqrt(n/(n-1)*squares) / b / (p * (1 - p))
	return &sd
}

// inPart tells that of some samples only a part was sorted.
func inPart(samples []visit.Taken) bool {
	return slices.ContainsFunc(samples, func(s visit.Taken) bool { return s.Fraction > 0 && s.Fraction < 1 })
}

package scoring

import (
	"cmp"
	"math"
	"slices"

	"rillkey/scoring/account"
	"rillkey/scoring/chance"
	"rillkey/scoring/scheme"
	"rillkey/taxa/wording"
)

// Typical is what a sample holds on average, where the best of several counts: the best
// lies above that by having been chosen, and the further the more samples were taken.
// The value of the index stays the best one, as its protocol has it.
type Typical struct {
	Samples int     `json:"samples"` // with a value
	Mean    float64 `json:"mean"`    // of their values, which is not biased
	Low     float64 `json:"low"`     // the central 95 % of that mean, by Student's t; the mean itself for one sample
	High    float64 `json:"high"`
	Chosen  float64 `json:"chosen"` // the best less the mean
	// Asked is the best of as many samples as the protocol asks for, on average over all
	// ways to take so many of these; nil where no more were taken.
	Asked *float64 `json:"asked,omitempty"`
}

// typical is nil where no single sample counts, and where none has a value.
func (s grader) typical(how scheme.Combine, from evidence, asked int) *Typical {
	if how != scheme.Best {
		return nil
	}
	var values []float64
	for _, taken := range from.samples {
		if v := s.sum(s.sort(account.FromSample(from.rows, taken.Label))).value; v.Defined() {
			values = append(values, s.Number(v.Steps()))
		}
	}
	if len(values) == 0 {
		return nil
	}
	slices.Sort(values)
	if s.LowIsClean() {
		slices.Reverse(values)
	}
	t := typicalOf(values)
	if asked > 0 && asked < len(values) {
		best := meanBest(values, asked)
		t.Asked = &best
	}
	t.Low = max(t.Low, 0)
	return t
}

// typicalOf is that of values, the best last.
func typicalOf(values []float64) *Typical {
	n := float64(len(values))
	t := &Typical{Samples: len(values)}
	for _, v := range values {
		t.Mean += v / n
	}
	squares := 0.0
	for _, v := range values {
		squares += (v - t.Mean) * (v - t.Mean)
	}
	t.Low, t.High, t.Chosen = t.Mean, t.Mean, values[len(values)-1]-t.Mean
	if len(values) > 1 {
		reach := chance.StudentBound(0.05, len(values)-1) * math.Sqrt(squares/(n-1)/n)
		t.Low, t.High = t.Mean-reach, t.Mean+reach
	}
	return t
}

// meanBest is the mean, over all ways to take so many of some values, the best last, of
// the best taken: the i-th of n is that in C(i-1, k-1) of C(n, k) ways.
func meanBest(values []float64, take int) (mean float64) {
	n := len(values)
	share := float64(take) / float64(n) // of the ways in which the last is the best
	for i := n - 1; i >= take-1; i-- {
		mean += share * values[i]
		share *= float64(i+1-take) / float64(max(i, 1))
	}
	return mean
}

// words are a sentence or two, of several samples.
func (t *Typical) words() string {
	say := wording.Mark("A best of several lies above what a sample holds on average, which is %s here (%s to %s in 95 of 100 cases): " +
		"choosing moved it by %s. It goes with other bests of as many only.")
	if t.Chosen < 0 {
		say = wording.Mark("A best of several lies below what a sample holds on average, which is %s here (%s to %s in 95 of 100 cases): " +
			"choosing moved it by %s. It goes with other bests of as many only.")
	}
	said := wording.Sprintf(say, wording.Number(rounded(t.Mean)),
		wording.Number(rounded(t.Low)), wording.Number(rounded(t.High)), wording.Number(rounded(math.Abs(t.Chosen))))
	if t.Asked != nil {
		said += wording.Sprintf(" Of as many samples as the protocol asks for the best would be %s on average.",
			wording.Number(rounded(*t.Asked)))
	}
	return said
}

func rounded(x float64) float64 { return cmp.Or(math.Round(10*x)/10, 0) }

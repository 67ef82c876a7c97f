package diversity

import "math"

// Incidence says in how many of the samples each kind was found.
type Incidence struct {
	Samples     int   // T, how many samples there are
	Frequencies []int // for each kind found, the samples it was in: 1 to Samples
}

// Estimate is a number of kinds with its standard error and its interval of
// 95 %.
type Estimate struct {
	Kinds     float64 `json:"kinds"`
	Error     float64 `json:"standard_error"`
	Low, High float64 `json:"-"`
}

// z95 bounds the central 95 % of a normal distribution.
const z95 = 1.959963984540054

// Found is the number of kinds found.
func (x Incidence) Found() int { return len(x.Frequencies) }

// once and twice are the numbers of kinds found in exactly one and in exactly
// two samples.
func (x Incidence) once() float64  { return x.exactly(1) }
func (x Incidence) twice() float64 { return x.exactly(2) }

func (x Incidence) exactly(samples int) float64 {
	n := 0.0
	for _, y := range x.Frequencies {
		if y == samples {
			n++
		}
	}
	return n
}

// Chao2 is a lower bound for the number of kinds in the stream, found or not:
// S + (T-1)/T x Q1^2 / (2 Q2), or where no kind is in exactly two samples
// S + (T-1)/T x Q1 (Q1-1) / 2; Q1 and Q2 are the kinds in exactly one and two
// samples. The interval is log-normal, so that it never falls below the number
// found. It has no value for fewer than two samples. Sources: Chao 1987 and
// Colwell et al. 2012, Journal of Plant Ecology 5(1):3-21 (formulas from
// memory, figures compared with another program's).
func (x Incidence) Chao2() (e Estimate, ok bool) {
	if x.Samples < 2 {
		return Estimate{}, false
	}
	q1, q2, s := x.once(), x.twice(), float64(x.Found())
	a := float64(x.Samples-1) / float64(x.Samples)
	unseen, variance := a*q1*(q1-1)/2, 0.0
	if q2 > 0 {
		r := q1 / q2
		unseen = a * q1 * r / 2
		variance = q2 * (a*r*r/2 + a*a*r*r*r + a*a*r*r*r*r/4)
	} else if q1 > 0 {
		variance = a*q1*(q1-1)/2 + a*a*q1*(2*q1-1)*(2*q1-1)/4 - a*a*q1*q1*q1*q1/(4*(s+unseen))
	}
	e = Estimate{Kinds: s + unseen, Error: math.Sqrt(math.Max(variance, 0)), Low: s + unseen, High: s + unseen}
	if unseen > 0 && variance > 0 {
		k := math.Exp(z95 * math.Sqrt(math.Log(1+variance/(unseen*unseen))))
		e.Low, e.High = s+unseen/k, s+unseen*k
	}
	return e, true
}

// Expected is the number of kinds expected in t samples: with fewer than were
// taken by rarefaction, S - sum(C(T-Y, t) / C(T, t)), with more by extrapolation,
// S + Q0 (1 - (1 - Q1/(T Q0 + Q1))^(t-T)), Q0 being the kinds that Chao2 says
// were missed. The standard error treats the kinds as a sample of all there are
// (the delta method over the numbers of kinds in 1, 2, … samples), and the
// interval is the normal one, never below the number found where t is not below
// T. No value for t below 1 or fewer than two samples. Source: Colwell et al.
// 2012, Journal of Plant Ecology 5(1):3-21 (from memory).
func (x Incidence) Expected(t int) (e Estimate, ok bool) {
	all, ok := x.Chao2()
	if !ok || t < 1 {
		return Estimate{}, false
	}
	q := x.frequencies()
	s := x.curve(q, t)
	variance := 0.0
	slopes := x.slopes(q, t)
	mean := 0.0
	for k, n := range q {
		variance += slopes[k] * slopes[k] * n
		mean += slopes[k] * n
	}
	if all.Kinds > 0 {
		variance -= mean * mean / all.Kinds
	}
	e = Estimate{Kinds: s, Error: math.Sqrt(math.Max(variance, 0))}
	e.Low, e.High = math.Max(0, s-z95*e.Error), s+z95*e.Error
	if t >= x.Samples {
		e.Low = math.Max(e.Low, float64(x.Found()))
	}
	return e, true
}

// frequencies are the numbers of kinds in 1, 2, … T samples, the first at 0.
func (x Incidence) frequencies() []float64 {
	q := make([]float64, x.Samples)
	for _, y := range x.Frequencies {
		if y >= 1 && y <= x.Samples {
			q[y-1]++
		}
	}
	return q
}

// curve is the expected number of kinds in t samples as a function of the
// numbers of kinds by samples, which need not be whole.
func (x Incidence) curve(q []float64, t int) float64 {
	total := 0.0
	for k, n := range q {
		if t < x.Samples {
			n *= 1 - missed(float64(x.Samples), float64(k+1), t)
		}
		total += n
	}
	if t <= x.Samples {
		return total
	}
	a, q2 := float64(x.Samples-1)/float64(x.Samples), 0.0
	if x.Samples > 1 {
		q2 = q[1]
	}
	unseen := a * q[0] * (q[0] - 1) / 2
	if q2 > 0 {
		unseen = a * q[0] * q[0] / (2 * q2)
	}
	if unseen <= 0 {
		return total
	}
	left := 1 - q[0]/(float64(x.Samples)*unseen+q[0])
	return total + unseen*(1-math.Pow(left, float64(t-x.Samples)))
}

// slopes are how much the curve rises per kind more in 1, 2, … T samples, by
// central differences.
func (x Incidence) slopes(q []float64, t int) []float64 {
	const step = 1e-5
	out := make([]float64, len(q))
	for k := range q {
		moved := append([]float64(nil), q...)
		moved[k] += step
		up := x.curve(moved, t)
		moved[k] -= 2 * step
		if q[k] == 0 {
			moved[k] = 0 // a number of kinds is never negative
			out[k] = (up - x.curve(moved, t)) / step
			continue
		}
		out[k] = (up - x.curve(moved, t)) / (2 * step)
	}
	return out
}

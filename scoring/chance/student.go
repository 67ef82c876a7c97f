package chance

import (
	"math"
	"sync"
)

// Normal as degrees of freedom makes a Student's t the normal curve.
const Normal = 0

// StudentTails is the chance of a Student's t with so many degrees of freedom as
// far from 0, both ways. Source: Abramowitz and Stegun 1964, 26.7.3 and 26.7.4.
func StudentTails(t float64, df int) float64 {
	theta := math.Atan(math.Abs(t) / math.Sqrt(float64(df)))
	sin, cos := math.Sincos(theta)
	term, from := 1.0, 2
	if df%2 == 1 {
		term, from = cos, 3
	}
	sum := term
	for i := from; i <= df-2; i += 2 {
		term *= cos * cos * float64(i-1) / float64(i)
		sum += term
	}
	switch {
	case df == 1:
		return max(0, 1-2*theta/math.Pi)
	case df%2 == 1:
		return max(0, 1-2/math.Pi*(theta+sin*sum))
	}
	return max(0, 1-sin*sum)
}

// StudentBound is the t that is exceeded, both ways, with the chance.
func StudentBound(chance float64, df int) float64 {
	if df == Normal {
		return math.Sqrt2 * math.Erfcinv(chance)
	}
	low, high := 0.0, 1.0
	for StudentTails(high, df) > chance && high < 1e9 {
		high *= 2
	}
	for range 60 {
		if mid := (low + high) / 2; StudentTails(mid, df) > chance {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}

// StudentPower is the chance that a t whose numerator is moved by so many of its
// own standard deviations lies beyond the bound on that side: the non-central t,
// by summing over the deviation that is estimated.
func StudentPower(moved, bound float64, df int) float64 {
	const steps = 400
	n := float64(df)
	weights, hit := 0.0, 0.0
	for i := range steps {
		s := (float64(i) + 0.5) / steps * 3 // estimated over true deviation
		w := math.Exp((n-1)*math.Log(s) - n*s*s/2)
		weights += w
		hit += w * 0.5 * math.Erfc((bound*s-math.Abs(moved))/math.Sqrt2)
	}
	return hit / weights
}

// Bell is the distribution of a value, in steps, that lies about one found as a
// Student's t with so many degrees of freedom does, or as the normal curve, with a
// deviation in steps; none below low or above high. It has [bellPoints] points of
// equal chance, as far as they are different; none is the chance of no value.
func Bell(at int64, deviation float64, freedom int, low, high int64, none float64) Distribution {
	out := Distribution{None: none}
	for _, t := range bell(freedom) {
		to := int64(math.Round(min(max(float64(at)+deviation*t, float64(low)), float64(high))))
		if n := len(out.Points); n > 0 && out.Points[n-1].Steps == to {
			out.Points[n-1].P += (1 - none) / bellPoints
		} else {
			out.Points = append(out.Points, MassPoint{to, (1 - none) / bellPoints})
		}
	}
	return out
}

const bellPoints = 400

var bells sync.Map // of bell, by degrees of freedom

// bell are the middles of bellPoints parts of a t distribution of equal chance.
func bell(freedom int) []float64 {
	if known, ok := bells.Load(freedom); ok {
		return known.([]float64)
	}
	out := make([]float64, bellPoints)
	for i := range bellPoints / 2 {
		tails := 2 * (float64(i) + 0.5) / bellPoints
		t := StudentBound(tails, freedom)
		out[i], out[bellPoints-1-i] = -t, t
	}
	bells.Store(freedom, out)
	return out
}

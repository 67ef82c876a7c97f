package series

import "math"

// studentChance is the chance of a Student's t with so many degrees of freedom as
// far from 0, both ways. Source: Abramowitz and Stegun 1964, 26.7.3 and 26.7.4.
func studentChance(t float64, df int) float64 {
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

// studentBound is the t that is exceeded, both ways, with the chance.
func studentBound(chance float64, df int) float64 {
	low, high := 0.0, 1.0
	for studentChance(high, df) > chance && high < 1e9 {
		high *= 2
	}
	for range 60 {
		if mid := (low + high) / 2; studentChance(mid, df) > chance {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}

// studentPower is the chance that a t whose numerator is moved by so many of its
// own standard deviations lies beyond the bound on that side: the non-central t,
// by summing over the deviation that is estimated.
func studentPower(moved, bound float64, df int) float64 {
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

package trial

import "math"

// Error is the standard error of the share, from the normal approximation of
// the binomial with one success and one failure added.
func (c Accuracy) Error() float64 {
	n := float64(c.Given + 2)
	p := float64(c.Right+1) / n
	return math.Sqrt(p * (1 - p) / n)
}

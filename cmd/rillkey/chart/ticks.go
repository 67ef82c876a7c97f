package chart

import "math"

// ticks are round numbers from 0 up to the first that is not below most: steps
// of 1, 2 or 5 times a power of ten, at most so many steps. Whole steps are 1 at
// least.
func ticks(most float64, steps int, whole bool) []float64 {
	most = finite(most)
	if most <= 0 {
		most = 1
	}
	step := math.Pow10(int(math.Floor(math.Log10(most / float64(steps)))))
	for _, m := range []float64{1, 2, 5, 10} {
		if step*m*float64(steps) >= most*(1-1e-9) {
			step *= m
			break
		}
	}
	if whole {
		step = max(1, step)
	}
	var out []float64
	for i := 0; ; i++ {
		v := float64(i) * step
		out = append(out, v)
		if v >= most*(1-1e-9) && i > 0 {
			return out
		}
	}
}

// axes are a plot's area on the page and the values at its edges, which begin
// at 0.
type axes struct {
	left, top, right, bottom float64
	maxX, maxY               float64
}

// pointAt is where a value lies; one outside is moved to the edge.
func (a axes) pointAt(x, y float64) point {
	part := func(v, most float64) float64 { return max(0, min(finite(v)/most, 1)) }
	return point{a.left + (a.right-a.left)*part(x, a.maxX), a.bottom - (a.bottom-a.top)*part(y, a.maxY)}
}

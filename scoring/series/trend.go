package series

import (
	"math"
	"slices"
)

// fewestPoints is the number of visits below which nothing is said.
const fewestPoints = 4

// point is a value at a time; the unit of the time is the caller's.
type point struct{ time, value float64 }

// Trend is what the Mann-Kendall test says of some points: whether a figure
// measured at one place again and again rises or falls, without assuming that it
// does so along a line.
type Trend struct {
	Points int     `json:"visits"`
	S      int     `json:"s"`     // pairs that rise less pairs that fall
	P      float64 `json:"p"`     // chance of an S as far from 0 if there were no trend, both ways
	Exact  bool    `json:"exact"` // P is exact, else from the normal curve
	Sen    float64 `json:"sen"`   // median slope of all pairs, per unit of time
}

// mostExact is the number of points up to which P is found exactly where no two
// are equal.
const mostExact = 50

// mannKendall gives S, its chance, and Sen's slope. P is exact for up to 50 points
// without ties; else it is normal, with the variance corrected for ties in time
// and value and with correction for continuity. ok is false for fewer than
// fewestPoints, or where all stand at one time. Sources: Mann 1945, Kendall
// 1975, Sen 1968 (from memory; figures compared with another program's).
func mannKendall(points []point) (t Trend, ok bool) {
	t.Points = len(points)
	slopes := slopes(points)
	if len(points) < fewestPoints || len(slopes) == 0 {
		return t, false
	}
	for _, s := range slopes {
		t.S += sign(s)
	}
	t.Sen = median(slopes)
	times, values := ties(points, func(p point) float64 { return p.time }), ties(points, func(p point) float64 { return p.value })
	if t.Exact = len(points) <= mostExact && len(times) == 0 && len(values) == 0; t.Exact {
		t.P = exactChance(len(points), t.S)
		return t, true
	}
	t.P = normalChance(float64(len(points)), t.S, times, values)
	return t, true
}

// slopes are those of all pairs at different times.
func slopes(points []point) []float64 {
	var out []float64
	for i, a := range points {
		for _, b := range points[i+1:] {
			if a.time != b.time {
				out = append(out, (b.value-a.value)/(b.time-a.time))
			}
		}
	}
	return out
}

func sign(v float64) int {
	switch {
	case v > 0:
		return 1
	case v < 0:
		return -1
	}
	return 0
}

func median(v []float64) float64 {
	slices.Sort(v)
	n := len(v)
	return (v[(n-1)/2] + v[n/2]) / 2
}

// ties are the sizes of the groups of equal figures, of those of two or more.
func ties(points []point, of func(point) float64) []float64 {
	counts := map[float64]float64{}
	for _, p := range points {
		counts[of(p)]++
	}
	var sizes []float64
	for _, n := range counts {
		if n > 1 {
			sizes = append(sizes, n)
		}
	}
	slices.Sort(sizes)
	return sizes
}

// exactChance counts the orders of n different values by their number of falling
// pairs, one value more at a time.
func exactChance(n, s int) float64 {
	shares := []float64{1}
	for k := 2; k <= n; k++ {
		next := make([]float64, len(shares)+k-1)
		for i, p := range shares {
			for j := range k {
				next[i+j] += p / float64(k)
			}
		}
		shares = next
	}
	falling := (n*(n-1)/2 - max(s, -s)) / 2 // as few as this, or fewer, either way
	p := 0.0
	for _, share := range shares[:falling+1] {
		p += share
	}
	return math.Min(1, 2*p)
}

// normalChance is the chance by the normal curve. The variance is that of Kendall's S
// with ties in both figures.
func normalChance(n float64, s int, times, values []float64) float64 {
	five := func(m float64) float64 { return m * (m - 1) * (2*m + 5) }
	three := func(m float64) float64 { return m * (m - 1) * (m - 2) }
	two := func(m float64) float64 { return m * (m - 1) }
	variance := (five(n)-sum(times, five)-sum(values, five))/18 +
		sum(times, three)*sum(values, three)/(9*three(n)) +
		sum(times, two)*sum(values, two)/(2*two(n))
	if variance <= 0 || s == 0 {
		return 1
	}
	z := (math.Abs(float64(s)) - 1) / math.Sqrt(variance)
	return math.Erfc(z / math.Sqrt2)
}

func sum(sizes []float64, f func(float64) float64) (total float64) {
	for _, m := range sizes {
		total += f(m)
	}
	return total
}

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
	Points     int     `json:"visits"`
	S          int     `json:"s"`           // pairs that rise less pairs that fall
	P          float64 `json:"p"`           // chance of an S as far from 0 if there were no trend, both ways
	PCorrected float64 `json:"p_corrected"` // P corrected for all that was asked of the site
	Exact      bool    `json:"exact"`       // P is exact, else from the normal curve
	Sen        float64 `json:"sen"`         // median slope of all pairs, per unit of time
}

// seasonal is the Mann-Kendall test over several seasons, each compared with
// itself alone: their S are added up (Hirsch, Slack and Smith 1982, Water Resources
// Research 18:107-121). P is never below what a memory between years would make
// of it, where share is the part of the variance that sampling does not explain:
// variances grow by [memoryFactor], and seasons of one year are correlated as
// visits so far apart are. ok is false where no season has two years, or there
// are fewer than fewestPoints in all.
func seasonal(seasons [][]point, share float64) (t Trend, ok bool) {
	var pairs, variances []float64
	var only Trend // of one season, where all points are in it
	for _, points := range seasons {
		t.Points += len(points)
		of := slopes(points)
		pairs = append(pairs, of...)
		for _, s := range of {
			t.S += sign(s)
		}
		times, values := ties(points, func(p point) float64 { return p.time }), ties(points, func(p point) float64 { return p.value })
		variances = append(variances, kendallVariance(float64(len(points)), times, values)*memoryFactor(len(points), share))
		if one, ok := mannKendall(points); ok {
			only = one
		}
	}
	if t.Points < fewestPoints || len(pairs) == 0 {
		return t, false
	}
	t.Sen = median(pairs)
	if only.Points == t.Points {
		t.Exact, t.P = only.Exact, only.P
		if share == 0 {
			return t, true
		}
	}
	t.P = max(t.P, normalChance(t.S, together(variances, share)))
	t.Exact = t.Exact && t.P == only.P
	return t, true
}

// together is the variance of the sum of the S of seasons, a quarter of a year
// apart each.
func together(variances []float64, share float64) (sum float64) {
	for i, a := range variances {
		for j, b := range variances {
			r := 1.0
			if i != j {
				r = correlation(float64(i-j)/4, share)
			}
			sum += math.Sqrt(a*b) * r
		}
	}
	return sum
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
	t.P = normalChance(t.S, kendallVariance(float64(len(points)), times, values))
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

// kendallVariance is that of Kendall's S of n points with ties in both figures.
func kendallVariance(n float64, times, values []float64) float64 {
	five := func(m float64) float64 { return m * (m - 1) * (2*m + 5) }
	three := func(m float64) float64 { return m * (m - 1) * (m - 2) }
	two := func(m float64) float64 { return m * (m - 1) }
	variance := (five(n) - sum(times, five) - sum(values, five)) / 18
	if n > 2 {
		variance += sum(times, three) * sum(values, three) / (9 * three(n))
	}
	if n > 1 {
		variance += sum(times, two) * sum(values, two) / (2 * two(n))
	}
	return variance
}

// normalChance is the chance of an S as far from 0 by the normal curve, with
// correction for continuity.
func normalChance(s int, variance float64) float64 {
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

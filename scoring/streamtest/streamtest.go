// Package streamtest makes invented streams and visits to them, for tests that
// measure how often what is said of a visit is true. It shares nothing with the
// code that says it.
package streamtest

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"time"

	"rillkey/scoring/visit"
)

var begun = time.Date(2026, 5, 31, 18, 0, 0, 0, time.UTC)

// Stream is an invented stream with its own memory: what lives there, how it
// varies from visit to visit, and what becomes of it. Nothing of the program under
// test is used to make it.
type Stream struct {
	Random   *rand.Rand
	Animals  float64 // in all samples together, in an ordinary year
	Samples  int
	YearlySD float64 // standard deviation of the logarithm of a kind's abundance between years
	Memory   float64 // correlation of that with the year before
	Patches  float64 // shape of the gamma distribution that a kind's animals in a sample follow
	Decline  float64 // share of the sensitive lost each year
	Crash    int     // the first year with a tenth of the sensitive; 0 for never
	Drifting bool    // the visit moves from 5 May to 10 September, and the sensitive fly off meanwhile
	Protocol string
}

// lives are animals of the three classes of the Streamkeepers sheet.
var lives = []struct {
	taxon     string
	sensitive bool
}{
	{"heptageniidae", true}, {"perlidae", true}, {"rhyacophilidae", true}, {"elmidae", true}, {"psephenidae", true}, {"baetidae", true},
	{"hydropsychidae", true}, {"tipulidae", false}, {"gammaridae", false}, {"asellidae", false}, {"cambaridae", false},
	{"aeshnidae", false},
	{"calopterygidae", false}, {"sialidae", false}, {"chironomidae", false}, {"simuliidae", false}, {"oligochaeta", false},
	{"hirudinea", false}, {"physidae", false}, {"planorbidae", false},
}

// Years are the visits of a stream, one a year.
func (s Stream) Years(site string, n int) (out []*visit.Visit) {
	base, off := make([]float64, len(lives)), make([]float64, len(lives))
	sum := 0.0
	for i := range lives {
		base[i], off[i] = 1.2*s.Random.NormFloat64(), s.YearlySD*s.Random.NormFloat64()
		sum += math.Exp(base[i])
	}
	for year := range n {
		many := make([]float64, len(lives))
		for i, l := range lives {
			if year > 0 {
				off[i] = s.Memory*off[i] + math.Sqrt(1-s.Memory*s.Memory)*s.YearlySD*s.Random.NormFloat64()
			}
			many[i] = s.Animals / float64(s.Samples) * math.Exp(base[i]+off[i]) / sum
			if l.sensitive {
				many[i] *= math.Pow(1-s.Decline, float64(year))
				if s.Crash > 0 && year >= s.Crash {
					many[i] /= 10
				}
				if s.Drifting {
					many[i] *= math.Exp(-1.5 * float64(year) / float64(n-1))
				}
			}
		}
		day := fmt.Sprintf("%d-05-%02d", 2001+year, 5+s.Random.IntN(20))
		if s.Drifting {
			at := 5 + 128*year/(n-1) + s.Random.IntN(5)
			day = fmt.Sprintf("%d-%02d-%02d", 2001+year, 5+at/31, 1+at%30)
		}
		out = append(out, s.visit(site, day, many))
	}
	return out
}

func (s Stream) visit(site, day string, many []float64) *visit.Visit {
	v := &visit.Visit{File: site + day, Header: visit.Header{ID: site + day, Site: site, Date: day, Protocol: s.Protocol, Begun: begun}}
	add := func(b visit.Body) {
		v.Events = append(v.Events, visit.Event{ID: fmt.Sprintf("e%d", len(v.Events)), Time: begun, Who: "Ada", Body: b})
	}
	for i := range s.Samples {
		label := strconv.Itoa(i + 1)
		add(visit.Sample{Label: label, Habitat: "riffle", Area: 0.37, Said: visit.Sorted})
		for k, m := range many {
			if n := poisson(s.Random, m*gamma(s.Random, s.Patches)/s.Patches); n > 0 {
				add(visit.Identification{Sample: label, Taxon: lives[k].taxon, Count: n, Confidence: 1})
			}
		}
	}
	return v
}

// gamma is a gamma variate of scale 1 (Marsaglia and Tsang 2000).
func gamma(r *rand.Rand, shape float64) float64 {
	d := shape - 1.0/3
	for {
		x := r.NormFloat64()
		v := math.Pow(1+x/math.Sqrt(9*d), 3)
		if v > 0 && math.Log(r.Float64()) < x*x/2+d-d*v+d*math.Log(v) {
			return d * v
		}
	}
}

func poisson(r *rand.Rand, m float64) (n int) {
	for t := r.ExpFloat64(); t < m; t += r.ExpFloat64() {
		n++
	}
	return n
}

package series_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"rillkey/scoring"
	"rillkey/scoring/series"
	"rillkey/scoring/visit"
)

// stream is an invented stream with its own memory: what lives there, how it
// varies from visit to visit, and what becomes of it. Nothing of the program under
// test is used to make it.
type stream struct {
	random   *rand.Rand
	animals  float64 // in all samples together, in an ordinary year
	samples  int
	between  float64 // standard deviation of the logarithm of a kind's abundance between years
	memory   float64 // correlation of that with the year before
	patches  float64 // shape of the gamma distribution that a kind's animals in a sample follow
	decline  float64 // share of the sensitive lost each year
	crash    int     // the first year with a tenth of the sensitive; 0 for never
	drifting bool    // the visit moves from 5 May to 10 September, and the sensitive fly off meanwhile
	protocol string
}

// lives are animals of the three classes of the Streamkeepers sheet.
var lives = []struct {
	taxon     string
	sensitive bool
}{
	{"heptageniidae", true}, {"perlidae", true}, {"rhyacophilidae", true}, {"elmidae", true}, {"psephenidae", true}, {"baetidae", true},
	{"hydropsychidae", true}, {"tipulidae", false}, {"gammaridae", false}, {"asellidae", false}, {"cambaridae", false}, {"aeshnidae", false},
	{"calopterygidae", false}, {"sialidae", false}, {"chironomidae", false}, {"simuliidae", false}, {"oligochaeta", false},
	{"hirudinea", false}, {"physidae", false}, {"planorbidae", false},
}

// years are the visits of a stream, one a year.
func (s stream) years(site string, n int) (out []*visit.Visit) {
	base, off := make([]float64, len(lives)), make([]float64, len(lives))
	sum := 0.0
	for i := range lives {
		base[i], off[i] = 1.2*s.random.NormFloat64(), s.between*s.random.NormFloat64()
		sum += math.Exp(base[i])
	}
	for year := range n {
		many := make([]float64, len(lives))
		for i, l := range lives {
			if year > 0 {
				off[i] = s.memory*off[i] + math.Sqrt(1-s.memory*s.memory)*s.between*s.random.NormFloat64()
			}
			many[i] = s.animals / float64(s.samples) * math.Exp(base[i]+off[i]) / sum
			if l.sensitive {
				many[i] *= math.Pow(1-s.decline, float64(year))
				if s.crash > 0 && year >= s.crash {
					many[i] /= 10
				}
				if s.drifting {
					many[i] *= math.Exp(-1.5 * float64(year) / float64(n-1))
				}
			}
		}
		day := fmt.Sprintf("%d-05-%02d", 2001+year, 5+s.random.IntN(20))
		if s.drifting {
			at := 5 + 128*year/(n-1) + s.random.IntN(5)
			day = fmt.Sprintf("%d-%02d-%02d", 2001+year, 5+at/31, 1+at%30)
		}
		out = append(out, s.visit(site, day, many))
	}
	return out
}

func (s stream) visit(site, day string, many []float64) *visit.Visit {
	v := &visit.Visit{File: site + day, Header: visit.Header{ID: site + day, Site: site, Date: day, Protocol: s.protocol, Begun: today}}
	add := func(b visit.Body) {
		v.Events = append(v.Events, visit.Event{ID: fmt.Sprintf("e%d", len(v.Events)), Time: today, Who: "Ada", Body: b})
	}
	for i := range s.samples {
		label := strconv.Itoa(i + 1)
		add(visit.Sample{Label: label, Habitat: "riffle", Area: 0.37, Said: visit.Sorted})
		for k, m := range many {
			if n := poisson(s.random, m*gamma(s.random, s.patches)/s.patches); n > 0 {
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

// judged grades the visits of all sites together.
func judged(t testing.TB, rules *scoring.Rules, visits []*visit.Visit) *series.VisitTable {
	byFile := map[string]*visit.Visit{}
	var files []string
	for _, v := range visits {
		byFile[v.File] = v
		files = append(files, v.File)
	}
	return series.Grade(rules, series.Source{Files: files, Read: func(f string) (*visit.Visit, error) { return byFile[f], nil }},
		series.Options{Today: today, Workers: 2})
}

func alarm(p series.Site) bool {
	for _, test := range p.Tests {
		if test.Shown {
			return true
		}
	}
	return false
}

// TestAlarms holds the share of series with an alarm to its bar. Few series are
// made by default, with bars three standard errors wider; RILLKEY_SERIES says how
// many. The settings are those that an audit of the program used.
func TestAlarms(t *testing.T) {
	series, _ := strconv.Atoi(os.Getenv("RILLKEY_SERIES"))
	if series == 0 {
		series = 4
	}
	rules := rules(t)
	three := stream{animals: 400, samples: 3, between: 0.7, patches: 1.5, protocol: "riffle-three"}
	with := func(s stream, change func(*stream)) stream { change(&s); return s }
	for _, row := range []struct {
		why         string
		s           stream
		years       int
		least, most float64
	}{
		{"sampling only", with(three, func(s *stream) { s.between = 0 }), 10, 0, 0.06},
		{"no memory", three, 10, 0, 0.06},
		{"a memory of .5", with(three, func(s *stream) { s.memory = 0.5 }), 10, 0, 0.06},
		{"a memory of .5, 5 years", with(three, func(s *stream) { s.memory = 0.5 }), 5, 0, 0.06},
		{"a memory of .5, 6 years", with(three, func(s *stream) { s.memory = 0.5 }), 6, 0, 0.06},
		{"a memory of .5, 20 years", with(three, func(s *stream) { s.memory = 0.5 }), 20, 0, 0.06},
		{"seven samples", with(three, func(s *stream) { s.memory, s.samples, s.protocol = 0.5, 7, "seven-samples" }), 10, 0, 0.06},
		{"best of three", with(three, func(s *stream) { s.memory, s.protocol, s.animals = 0.5, "riffle-best", 700 }), 10, 0, 0.06},
		{"families, three samples", with(three, func(s *stream) { s.memory, s.protocol = 0.5, "riffle-families" }), 10, 0, 0.06},
		{"one sample of all habitats", with(three, func(s *stream) { s.memory, s.samples, s.protocol = 0.5, 1, "all-habitats-three-minutes" }), 10, 0, 0.06},
		{"a drifting day", with(three, func(s *stream) { s.drifting = true }), 10, 0, 0.06},
		{"wilder than allowed for: 1.0, .7", with(three, func(s *stream) { s.between, s.memory = 1, 0.7 }), 10, 0, 0.12},
		{"the year after a crash", with(three, func(s *stream) { s.memory, s.crash = 0.5, 5 }), 6, 0.6, 1},
		{"two years after", with(three, func(s *stream) { s.memory, s.crash = 0.5, 5 }), 7, 0.6, 1},
		{"five years after", with(three, func(s *stream) { s.memory, s.crash = 0.5, 5 }), 10, 0.6, 1},
		{"a fifth lost each year", with(three, func(s *stream) { s.memory, s.decline = 0.5, 0.2 }), 10, 0.3, 1},
		{"a tenth lost each year", with(three, func(s *stream) { s.memory, s.decline = 0.5, 0.1 }), 10, 0, 1},
	} {
		t.Run(row.why, func(t *testing.T) {
			row.s.random = rand.New(rand.NewPCG(uint64(len(row.why)), uint64(row.years)))
			hit := 0
			for range series {
				if alarm(judged(t, rules, row.s.years("a", row.years)).Places[0]) {
					hit++
				}
			}
			share := float64(hit) / float64(series)
			t.Logf("%d years: %.3f of %d series", row.years, share, series)
			error := func(p float64) float64 { return 3 * math.Sqrt(p*(1-p)/float64(series)) }
			if share < row.least-error(row.least) || share > row.most+error(row.most) {
				t.Errorf("%.3f of the series have an alarm, want from %v to %v", share, row.least, row.most)
			}
		})
	}
}

// TestTwentySitesWithoutChange: no more than one table in ten tells of a change.
func TestTwentySitesWithoutChange(t *testing.T) {
	tables := 1
	if n, _ := strconv.Atoi(os.Getenv("RILLKEY_SERIES")); n > 0 {
		tables = n / 4
	}
	rules, hit := rules(t), 0
	for i := range tables {
		s := stream{random: rand.New(rand.NewPCG(3, uint64(i))), animals: 400, samples: 3, between: 0.7, memory: 0.4, patches: 1.5, protocol: "riffle-three"}
		var all []*visit.Visit
		for site := range 20 {
			all = append(all, s.years(fmt.Sprintf("site %02d", site), 10)...)
		}
		for _, p := range judged(t, rules, all).Places {
			if alarm(p) {
				hit++
				break
			}
		}
	}
	t.Logf("%d of %d tables tell of a change", hit, tables)
	if float64(hit) > 0.1*float64(tables)+3*math.Sqrt(0.09*float64(tables)) {
		t.Errorf("%d of %d tables tell of a change at one of twenty sites where nothing changed", hit, tables)
	}
}

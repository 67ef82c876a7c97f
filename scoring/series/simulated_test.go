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
	"rillkey/scoring/streamtest"
	"rillkey/scoring/visit"
)

// judged grades the visits of all sites together.
func judged(t testing.TB, rules *scoring.Rules, visits []*visit.Visit) *series.VisitTable {
	byFile := map[string]*visit.Visit{}
	var files []string
	for _, v := range visits {
		byFile[v.File] = v
		files = append(files, v.File)
	}
	return series.GradeVisits(rules, series.FileSource{Files: files, Open: func(f string) (*visit.Visit, error) { return byFile[f], nil }},
		series.Options{Today: today, Workers: 2})
}

// seed is that of the streams that are drawn.
func seed() uint64 {
	n, _ := strconv.ParseUint(os.Getenv("RILLKEY_SEED"), 10, 64)
	return n
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
// many, RILLKEY_SEED which others are drawn. The settings are those that an audit of the program used.
func TestAlarms(t *testing.T) {
	series, _ := strconv.Atoi(os.Getenv("RILLKEY_SERIES"))
	if series == 0 {
		series = 4
	}
	rules := rules(t)
	three := streamtest.Stream{Animals: 400, Samples: 3, YearlySD: 0.7, Patches: 1.5, Protocol: "riffle-three"}
	with := func(s streamtest.Stream, change func(*streamtest.Stream)) streamtest.Stream { change(&s); return s }
	for _, row := range []struct {
		why         string
		s           streamtest.Stream
		years       int
		least, most float64
	}{
		{"sampling only", with(three, func(s *streamtest.Stream) { s.YearlySD = 0 }), 10, 0, 0.06},
		{"no memory", three, 10, 0, 0.06},
		{"a memory of .5", with(three, func(s *streamtest.Stream) { s.Memory = 0.5 }), 10, 0, 0.06},
		{"a memory of .5, 5 years", with(three, func(s *streamtest.Stream) { s.Memory = 0.5 }), 5, 0, 0.06},
		{"a memory of .5, 6 years", with(three, func(s *streamtest.Stream) { s.Memory = 0.5 }), 6, 0, 0.06},
		{"a memory of .5, 20 years", with(three, func(s *streamtest.Stream) { s.Memory = 0.5 }), 20, 0, 0.06},
		{"seven samples", with(three, func(s *streamtest.Stream) {
			s.Memory, s.Samples, s.Protocol = 0.5, 7,
				"seven-samples"
		}), 10, 0, 0.06},
		{"best of three", with(three, func(s *streamtest.Stream) {
			s.Memory, s.Protocol, s.Animals = 0.5, "riffle-best",
				700
		}), 10, 0, 0.06},
		{"families, three samples", with(three, func(s *streamtest.Stream) { s.Memory, s.Protocol = 0.5, "riffle-families" }), 10, 0, 0.06},
		{"one sample of all habitats", with(three,
			func(s *streamtest.Stream) { s.Memory, s.Samples, s.Protocol = 0.5, 1, "all-habitats-three-minutes" }), 10, 0, 0.06},
		{"a drifting day", with(three, func(s *streamtest.Stream) { s.Drifting = true }), 10, 0, 0.06},
		{"wilder than allowed for: 1.0, .7", with(three, func(s *streamtest.Stream) { s.YearlySD, s.Memory = 1, 0.7 }), 10, 0, 0.12},
		{"the year after a crash", with(three, func(s *streamtest.Stream) { s.Memory, s.Crash = 0.5, 5 }), 6, 0.6, 1},
		{"two years after", with(three, func(s *streamtest.Stream) { s.Memory, s.Crash = 0.5, 5 }), 7, 0.6, 1},
		{"five years after", with(three, func(s *streamtest.Stream) { s.Memory, s.Crash = 0.5, 5 }), 10, 0.6, 1},
		{"a fifth lost each year", with(three, func(s *streamtest.Stream) { s.Memory, s.Decline = 0.5, 0.2 }), 10, 0.3, 1},
		{"a tenth lost each year", with(three, func(s *streamtest.Stream) { s.Memory, s.Decline = 0.5, 0.1 }), 10, 0, 1},
	} {
		t.Run(row.why, func(t *testing.T) {
			row.s.Random = rand.New(rand.NewPCG(seed()+uint64(len(row.why)), uint64(row.years)))
			hit := 0
			for range series {
				if alarm(judged(t, rules, row.s.Years("a", row.years)).Places[0]) {
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
		s := streamtest.Stream{Random: rand.New(rand.NewPCG(seed()+3, uint64(i))), Animals: 400, Samples: 3, YearlySD: 0.7,
			Memory: 0.4, Patches: 1.5, Protocol: "riffle-three"}
		var all []*visit.Visit
		for site := range 20 {
			all = append(all, s.Years(fmt.Sprintf("site %02d", site), 10)...)
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

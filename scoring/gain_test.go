package scoring

import (
	"math"
	"math/rand"
	"testing"

	"rillkey/scoring/account"
	"rillkey/scoring/chance"
	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
	"rillkey/scoring/visit/visittest"
)

// oneByOne is the gain by its definition: everything worked out again for each
// outcome of the record.
func oneByOne(s grader, distributions []chance.KindDistribution, i int,
	chancesOf func([]chance.KindDistribution) chance.Distribution) (g gain) {
	now := chancesOf(distributions)
	_, spread := now.Moments(s.Number)
	g = gain{s.entropy(now), spread}
	for _, o := range distributions[i].Outcomes {
		then := append([]chance.KindDistribution(nil), distributions...)
		then[i] = distributions[i].Settled(o.Kind)
		c := chancesOf(then)
		_, spread := c.Moments(s.Number)
		g.bits -= o.Chance * s.entropy(c)
		g.variance -= o.Chance * spread
	}
	return g
}

func wantGain(t *testing.T, label string, got, want gain) {
	t.Helper()
	if math.Abs(got.bits-max(want.bits, 0)) > 1e-9 || math.Abs(got.variance-max(want.variance, 0)) > 1e-9*max(1, want.variance) {
		t.Fatalf("%s: %+v, want %+v", label, got, want)
	}
}

func all(n int) (at []int) {
	for i := range n {
		at = append(at, i)
	}
	return at
}

func TestGainsAreThoseOfSettlingOneByOne(t *testing.T) {
	r, random := rules(t), rand.New(rand.NewSource(12))
	mattered := 0
	for _, s := range graders(r) {
		for range 20 {
			distributions := someDistributions(random, s, 1+random.Intn(7))
			exactly := func(distributions []chance.KindDistribution) chance.Distribution {
				return s.Formula().Distribution(distributions, chance.Seeded(1))
			}
			if exactly(distributions).Draws > 0 {
				t.Fatalf("%s: simulated", s.ID)
			}
			got, _ := s.gains(scheme.Pooled, evidence{}, distributions, all(len(distributions)), 1)
			for i := range distributions {
				want := oneByOne(s, distributions, i, exactly)
				wantGain(t, s.ID, got[i], want)
				if want.bits > 0.01 || want.variance > 0.01 {
					mattered++
				}
			}
		}
	}
	if mattered < 100 {
		t.Errorf("only %d records mattered", mattered)
	}
}

func TestGainsOfTheBestSampleAreThoseOfSettlingOneByOne(t *testing.T) {
	r, random := rules(t), rand.New(rand.NewSource(5))
	for _, s := range graders(r) {
		for range 10 {
			from := evidence{samples: []visit.Taken{{Sample: visit.Sample{Label: "1"}}, {Sample: visit.Sample{Label: "2"}}}}
			distributions := someDistributions(random, s, 2+random.Intn(6))
			for i := range distributions {
				from.rows = append(from.rows,
					account.Counted{BoundRecord: &account.BoundRecord{
						Record: visit.Record{Identification: visit.Identification{Sample: from.samples[i%2].Label}}}})
			}
			byBest := func(distributions []chance.KindDistribution) chance.Distribution {
				var own [2][]chance.KindDistribution
				for i, f := range distributions {
					own[i%2] = append(own[i%2], f)
				}
				return s.bestOf([]chance.Distribution{
					s.Formula().Distribution(own[0], chance.Seeded(1)), s.Formula().Distribution(own[1], chance.Seeded(1))})
			}
			asked := all(len(distributions))[1:] // not all of them are listed
			got, _ := s.gains(scheme.Best, from, distributions, asked, 1)
			for n, i := range asked {
				wantGain(t, s.ID, got[n], oneByOne(s, distributions, i, byBest))
			}
		}
	}
}

func taxonIDs(tb testing.TB) (ids []string) {
	for _, t := range rules(tb).catalog.Taxa() {
		ids = append(ids, t.ID)
	}
	return ids
}

// Twice the records must take about twice the steps, not four times as many:
// whether all that they may be is followed, or ways are drawn.
func TestSecondLooksDoNotGrowWithTheSquare(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	r := rules(t)
	steps := func(s grader, distributions []chance.KindDistribution) float64 {
		_, work := s.gains(scheme.Pooled, evidence{}, distributions, all(len(distributions)), 1)
		return work
	}
	followed := func(s grader, n int) float64 { // twelve kinds, no two records alike
		distributions := make([]chance.KindDistribution, n)
		for i := range distributions {
			p := 0.25 + 0.5*float64(i)/float64(n)
			distributions[i] = chance.KindDistribution{
				Count: 1, Outcomes: []chance.Outcome{{Kind: i % 12, Chance: p}, {Kind: (i + 1) % 12, Chance: 1 - p}}}
		}
		return steps(s, distributions)
	}
	drawn := func(s grader, n int) float64 {
		from := s.evidence(r.Account(visittest.MixedRecords("riffle-families", taxonIDs(t), n)))
		return steps(s, from.distributions(from.rows))
	}
	for _, row := range []struct {
		scheme    string
		of        func(grader, int) float64
		few, many int
		least     float64 // steps of the many; fewer, and ways were drawn for them
	}{
		{"presence", followed, 50, 800, 5e7},
		{"fbi", drawn, 100, 1600, 1},
	} {
		a, b := row.of(r.grader(row.scheme), row.few), row.of(r.grader(row.scheme), row.many)
		if times := float64(row.many / row.few); a == 0 || b > 2*times*a || b < row.least {
			t.Errorf("%s: %d records take %.3g steps, %d take %.3g", row.scheme, row.few, a, row.many, b)
		}
	}
}

func BenchmarkRecheck(b *testing.B) {
	ids := taxonIDs(b)
	for name, v := range map[string]*visit.Visit{
		"1000 records":                       visittest.MixedRecords("riffle-families", ids, 1000),
		"5000 records":                       visittest.MixedRecords("riffle-families", ids, 5000),
		"200 set aside, 184 possibilities":   visittest.AllSetAside("riffle-families", ids, 200, 184),
		"200 set aside, presence, 184 again": visittest.AllSetAside("riffle-three", ids, 200, 184),
	} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := rules(b).Recheck(rules(b).Account(v), 0); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkSettling gives how many times as long settling one by one takes.
func BenchmarkSettling(b *testing.B) {
	s := rules(b).grader("presence")
	distributions := someDistributions(rand.New(rand.NewSource(4)), s, 300)
	var once, each float64
	for b.Loop() {
		start := b.Elapsed()
		s.gains(scheme.Pooled, evidence{}, distributions, all(len(distributions)), 1)
		once += (b.Elapsed() - start).Seconds()
		start = b.Elapsed()
		for i := range distributions {
			oneByOne(s, distributions, i, func(f []chance.KindDistribution) chance.Distribution {
				return s.Formula().Distribution(f, chance.Seeded(1))
			})
		}
		each += (b.Elapsed() - start).Seconds()
	}
	b.ReportMetric(each/once, "times-as-long-one-by-one")
}

package scoring

import (
	"math"
	"math/rand"
	randv2 "math/rand/v2"
	"slices"
	"testing"

	"rillkey/scoring/account"
	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
	"rillkey/scoring/visit/visittest"
)

// oneByOne is the gain by its definition: everything worked out again for each
// outcome of the record.
func oneByOne(s grader, distributions []kindDistribution, i int, chancesOf func([]kindDistribution) chances) (g gain) {
	now := chancesOf(distributions)
	_, spread := now.moments(s)
	g = gain{now.entropy(s), spread}
	for _, o := range distributions[i].outcomes {
		then := append([]kindDistribution(nil), distributions...)
		then[i] = kindDistribution{distributions[i].count, []account.Outcome{{Kind: o.Kind, Chance: 1}}}
		c := chancesOf(then)
		_, spread := c.moments(s)
		g.bits -= o.Chance * c.entropy(s)
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
			exactly := func(distributions []kindDistribution) chances { return s.chancesOf(distributions, seeded(1)) }
			if exactly(distributions).draws > 0 {
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
				from.rows = append(from.rows, account.Bound{Record: &account.Record{Record: visit.Record{Identification: visit.Identification{Sample: from.samples[i%2].Label}}}})
			}
			byBest := func(distributions []kindDistribution) chances {
				var own [2][]kindDistribution
				for i, f := range distributions {
					own[i%2] = append(own[i%2], f)
				}
				return best(s, []chances{s.chancesOf(own[0], seeded(1)), s.chancesOf(own[1], seeded(1))})
			}
			asked := all(len(distributions))[1:] // not all of them are listed
			got, _ := s.gains(scheme.Best, from, distributions, asked, 1)
			for n, i := range asked {
				wantGain(t, s.ID, got[n], oneByOne(s, distributions, i, byBest))
			}
		}
	}
}

// The chance of a value once a record is settled, in ways that were drawn, must lie
// within five of its standard errors.
func TestSettlingInDrawnWaysIsExact(t *testing.T) {
	r, random := rules(t), rand.New(rand.NewSource(8))
	for _, s := range graders(r) {
		distributions := someDistributions(random, s, 7)
		drawn := s.newSettler(distributions, all(7))
		if len(drawn.open) == 0 {
			t.Fatalf("%s: nothing to settle", s.ID)
		}
		drawn.simulate(seeded(3), func(class int, may []settled) {
			n := slices.Index(drawn.class, class)
			for i, o := range may {
				with := slices.Clone(distributions)
				with[n] = kindDistribution{distributions[n].count, []account.Outcome{{Kind: drawn.open[class].outcomes[i].Kind, Chance: 1}}}
				want, got := bruteForce(s, with), asMap(s, o.then)
				for v, p := range want {
					if math.Abs(got[v]-p) > 5*math.Sqrt(p*(1-p)/draws)+1e-9 {
						t.Errorf("%s: %s with %v, want %v", s.ID, v, got[v], p)
					}
				}
			}
		})
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
	r, few, many := rules(t), 100, 1600
	steps := func(s grader, distributions []kindDistribution) float64 {
		_, work := s.gains(scheme.Pooled, evidence{}, distributions, all(len(distributions)), 1)
		return work
	}
	followed := func(s grader, n int) float64 { // twelve kinds, no two records alike
		distributions := make([]kindDistribution, n)
		for i := range distributions {
			p := 0.25 + 0.5*float64(i)/float64(n)
			distributions[i] = kindDistribution{1, []account.Outcome{{Kind: i % 12, Chance: p}, {Kind: (i + 1) % 12, Chance: 1 - p}}}
		}
		return steps(s, distributions)
	}
	drawn := func(s grader, n int) float64 {
		from := s.evidence(r.Account(visittest.Mixed("riffle-families", taxonIDs(t), n)))
		return steps(s, from.distributions(from.rows))
	}
	for id, of := range map[string]func(grader, int) float64{"presence": followed, "fbi": drawn} {
		a, b := of(r.grader(id), few), of(r.grader(id), many)
		if times := float64(many / few); a == 0 || b > 2*times*a {
			t.Errorf("%s: %d records take %.3g steps, %d take %.3g", id, few, a, many, b)
		}
	}
}

func BenchmarkRecheck(b *testing.B) {
	ids := taxonIDs(b)
	for name, v := range map[string]*visit.Visit{
		"1000 records":                       visittest.Mixed("riffle-families", ids, 1000),
		"5000 records":                       visittest.Mixed("riffle-families", ids, 5000),
		"200 set aside, 184 possibilities":   visittest.SetAside("riffle-families", ids, 200, 184),
		"200 set aside, presence, 184 again": visittest.SetAside("riffle-three", ids, 200, 184),
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
			oneByOne(s, distributions, i, func(f []kindDistribution) chances { return s.chancesOf(f, seeded(1)) })
		}
		each += (b.Elapsed() - start).Seconds()
	}
	b.ReportMetric(each/once, "times-as-long-one-by-one")
}

// The ways drawn are the same as ever for a seed: those of a plain loop over the
// records, each with a number of its own.
func TestWaysDrawnAreThoseOfAPlainLoop(t *testing.T) {
	s := rules(t).grader("shannon")
	distributions := someDistributions(rand.New(rand.NewSource(6)), s, 40)
	source := randv2.New(randv2.NewPCG(9, 0))
	m := seeded(9)
	for range 2 { // the second time from what was kept
		for way, got := range slices.Collect(slices.Chunk(m.ways(distributions, len(s.Kinds)), len(s.Kinds))) {
			if way == 0 {
				source = randv2.New(randv2.NewPCG(9, 0))
			}
			want := make([]int64, len(s.Kinds))
			for _, f := range distributions {
				u, kind := source.Float64(), f.outcomes[len(f.outcomes)-1].Kind
				for _, o := range f.outcomes {
					if u -= o.Chance; u < 0 {
						kind = o.Kind
						break
					}
				}
				if kind >= 0 {
					want[kind] += f.count
				}
			}
			if !slices.Equal(got, want) {
				t.Fatalf("way %d: %v, want %v", way, got, want)
			}
		}
	}
	for records, want := range map[int]int{0: 10_000, 1000: 10_000, 2000: 5000, 4000: 2500, 100_000: 2500} {
		if got := drawsFor(records); got != want {
			t.Errorf("%d records: %d draws, want %d", records, got, want)
		}
	}
}

package chance

import (
	"fmt"
	"math"
	"math/rand"
	randv2 "math/rand/v2"
	"slices"
	"testing"
)

// formulas are one of each sort, with six kinds: parts that stop at the first animal,
// at a hundred, that grow with the count, a mean of each, and two that cannot be
// taken apart.
var formulas = []struct {
	name string
	Formula
}{
	{"sum of kinds", taken(Accrual{Part: func(kind int, _ int64) (int64, int64) { return worth[kind], 1 }, Most: 1})},
	{"mean of kinds", taken(Accrual{Part: func(kind int, _ int64) (int64, int64) { return worth[kind], 1 }, Most: 1, Mean: true})},
	{"sum of letters", taken(Accrual{Part: letters, Most: 100})},
	{"mean of animals", taken(Accrual{Part: func(kind int, n int64) (int64, int64) { return n * worth[kind], n }, Mean: true})},
	{"share of the commonest", Formula{Kinds: 6, Value: commonest}},
	{"kinds with two animals", Formula{Kinds: 6, Value: pairs}},
}

var worth = []int64{3, 1, 1, 0, 7, 2}

func taken(a Accrual) Formula { return Formula{Kinds: len(worth), Value: a.ValueOf, Accrual: &a} }

func letters(kind int, n int64) (int64, int64) {
	switch {
	case n < 10:
		return worth[kind], 1
	case n < 100:
		return 2 * worth[kind], 1
	}
	return 3 * worth[kind], 1
}

func commonest(counts []int64) Ratio {
	sum := int64(0)
	for _, n := range counts {
		sum += n
	}
	return Ratio{100 * slices.Max(counts), sum}
}

func pairs(counts []int64) (r Ratio) {
	r.Den = 1
	for _, n := range counts {
		if n > 1 {
			r.Num++
		}
	}
	return r
}

// bruteForce looks at every way in which the records can turn out.
func bruteForce(f Formula, distributions []KindDistribution) map[string]float64 {
	out, counts := map[string]float64{}, make([]int64, f.Kinds)
	var rec func(i int, p float64)
	rec = func(i int, p float64) {
		if i == len(distributions) {
			out[text(f.Value(counts))] += p
			return
		}
		for _, o := range distributions[i].Outcomes {
			if o.Kind >= 0 {
				counts[o.Kind] += distributions[i].Count
			}
			rec(i+1, p*o.Chance)
			if o.Kind >= 0 {
				counts[o.Kind] -= distributions[i].Count
			}
		}
	}
	rec(0, 1)
	return out
}

func text(v Ratio) string {
	if !v.Defined() {
		return "none"
	}
	return fmt.Sprint(v.Steps())
}

func asMap(c Distribution) map[string]float64 {
	out := map[string]float64{}
	for _, pt := range c.Points {
		out[fmt.Sprint(pt.Steps)] += pt.P
	}
	if c.None > 0 {
		out["none"] = c.None
	}
	return out
}

// some draws distributions whose chances are multiples of a sixteenth, so that sums
// of them have no rounding.
func some(random *rand.Rand, kinds, records int) []KindDistribution {
	shares := [][]float64{{1}, {0.75, 0.25}, {0.625, 0.375}, {0.5, 0.3125, 0.1875}}
	out := make([]KindDistribution, records)
	for i := range out {
		out[i].Count = []int64{1, 2, 9, 60}[random.Intn(4)]
		pool := random.Perm(kinds + 1)
		for n, p := range shares[random.Intn(len(shares))] {
			out[i].Outcomes = append(out[i].Outcomes, Outcome{pool[n] - 1, p})
		}
	}
	return out
}

func same(t *testing.T, label string, got, want map[string]float64) {
	t.Helper()
	for v, p := range want {
		if math.Abs(p-got[v]) > 1e-12 {
			t.Fatalf("%s: %s with %v, want %v", label, v, got[v], p)
		}
	}
	if len(got) != len(want) {
		t.Fatalf("%s: %v, want %v", label, got, want)
	}
}

func TestExactIsBruteForce(t *testing.T) {
	random := rand.New(rand.NewSource(7))
	for _, f := range formulas {
		for range 30 {
			distributions := some(random, f.Kinds, 1+random.Intn(6))
			want := bruteForce(f.Formula, distributions)
			got := f.Distribution(distributions, Seeded(1))
			if got.Draws > 0 {
				t.Fatalf("%s: simulated", f.name)
			}
			same(t, f.name, asMap(got), want)
			if f.Accrual == nil {
				continue
			}
			for name, follow := range map[string]following{"followed": (*kindSet).follow, "kinds forgotten": (*kindSet).sums} {
				c, ok := f.exact(distributions, follow)
				if !ok {
					t.Fatalf("%s: too much for %d records", f.name, len(distributions))
				}
				same(t, f.name+", "+name, asMap(c), want)
			}
		}
	}
}

// A simulated chance must lie within five of its own standard errors.
func TestSimulationIsExact(t *testing.T) {
	random := rand.New(rand.NewSource(3))
	for _, f := range formulas {
		distributions := some(random, f.Kinds, 5)
		want, got := bruteForce(f.Formula, distributions), asMap(f.simulate(distributions, Seeded(11)))
		for v, p := range want {
			if off := math.Abs(got[v] - p); off > 5*math.Sqrt(p*(1-p)/draws)+1e-9 {
				t.Errorf("%s: %s with %v, want %v", f.name, v, got[v], p)
			}
		}
		if again := asMap(f.simulate(distributions, Seeded(11))); fmt.Sprint(again) != fmt.Sprint(got) {
			t.Errorf("%s: the same seed gives other figures", f.name)
		}
	}
}

// What a record may turn out to be is what everything comes to with the record known:
// exactly where that is followed, within five standard errors where it is drawn.
func TestSettlingIsThatOfARecordKnown(t *testing.T) {
	random := rand.New(rand.NewSource(8))
	for _, f := range formulas {
		distributions := some(random, f.Kinds, 7)
		at := []int{0, 1, 2, 4, 5, 6} // one is not asked about
		s := f.Settler(distributions, at)
		if len(s.open) == 0 {
			t.Fatalf("%s: nothing to settle", f.name)
		}
		check := func(how string, off func(p float64) float64) func(int, []Settled) {
			return func(sort int, may []Settled) {
				n := at[slices.Index(s.Sort, sort)]
				for i, o := range may {
					with := slices.Clone(distributions)
					with[n] = distributions[n].Settled(s.open[sort].Outcomes[i].Kind)
					got := asMap(o.Then)
					for v, p := range bruteForce(f.Formula, with) {
						if math.Abs(got[v]-p) > off(p) {
							t.Errorf("%s, %s: %s with %v, want %v", f.name, how, v, got[v], p)
						}
					}
				}
			}
		}
		s.Each(Seeded(1), check("followed", func(float64) float64 { return 1e-9 }))
		s.simulate(Seeded(3), check("drawn", func(p float64) float64 { return 5*math.Sqrt(p*(1-p)/draws) + 1e-9 }))
	}
}

// The highest and the lowest of two are those of every pair of points.
func TestHighestAndLowestAreBruteForce(t *testing.T) {
	a := Distribution{Points: []MassPoint{{1, 0.25}, {5, 0.5}}, None: 0.25}
	b := Distribution{Points: []MassPoint{{2, 0.5}, {5, 0.25}, {9, 0.25}}}
	same(t, "highest", asMap(Highest([]Distribution{a, b})), map[string]float64{"2": 0.25, "5": 0.5, "9": 0.25})
	// 5 where a is 5 and b no less, or a is none and b is 5.
	lowest := map[string]float64{"1": 0.25, "2": 0.75 * 0.5, "5": 0.5*0.5 + 0.25*0.25, "9": 0.25 * 0.25}
	same(t, "lowest", asMap(Lowest([]Distribution{a, b})), lowest)
	none := Distribution{None: 1}
	same(t, "of nothing", asMap(Highest([]Distribution{none, none})), map[string]float64{"none": 1})
}

// Two of 1, 3 and 8 by hand: mean 4, variance 26/3.
func TestMomentsAndQuantile(t *testing.T) {
	c := Distribution{Points: []MassPoint{{1, 0.25}, {3, 0.25}, {8, 0.25}}, None: 0.25}
	halves := func(steps int64) float64 { return float64(steps) / 2 }
	if mean, variance := c.Moments(halves); mean != 2 || math.Abs(variance-26.0/12) > 1e-12 {
		t.Error(mean, variance)
	}
	for q, want := range map[float64]int64{0: 1, 0.3: 1, 0.4: 3, 0.7: 8, 1: 8} {
		if got := c.Quantile(q); got != want {
			t.Errorf("%v: %d, want %d", q, got, want)
		}
	}
}

// Three things have 27 ordered draws; each is looked at by brute force.
func TestBootstrapIsBruteForce(t *testing.T) {
	things := []int64{3, 10, 4}
	sum := func(drawn []int) (r Ratio) {
		for _, i := range drawn {
			r.Num, r.Den = r.Num+things[i], 1
		}
		return r
	}
	want := map[string]float64{}
	for draw := range 27 {
		want[text(sum([]int{draw % 3, draw / 3 % 3, draw / 9}))] += 1.0 / 27
	}
	got, ok := Bootstrap(3, sum, 1)
	if !ok || got.Draws > 0 {
		t.Fatal(ok, got)
	}
	same(t, "three", asMap(got), want)
	size := func(drawn []int) Ratio { return Ratio{int64(len(drawn)), 1} }
	if many, ok := Bootstrap(12, size, 1); !ok || many.Draws != draws || many.Points[0].Steps != 12 {
		t.Error(ok, many)
	}
	if _, ok := Bootstrap(1, sum, 1); ok {
		t.Error("one says nothing of how they differ")
	}
}

// The ways drawn are the same as ever for a seed: those of a plain loop over the
// records, each with a number of its own.
func TestWaysDrawnAreThoseOfAPlainLoop(t *testing.T) {
	distributions := some(rand.New(rand.NewSource(6)), 6, 40)
	source := randv2.New(randv2.NewPCG(9, 0))
	m := Seeded(9)
	for range 2 { // the second time from what was kept
		for way, got := range slices.Collect(slices.Chunk(m.ways(distributions, 6), 6)) {
			if way == 0 {
				source = randv2.New(randv2.NewPCG(9, 0))
			}
			want := make([]int64, 6)
			for _, f := range distributions {
				u, kind := source.Float64(), f.Outcomes[len(f.Outcomes)-1].Kind
				for _, o := range f.Outcomes {
					if u -= o.Chance; u < 0 {
						kind = o.Kind
						break
					}
				}
				if kind >= 0 {
					want[kind] += f.Count
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

// The two ways to hold states give the same chances, whichever is used.
func TestStatesAreTheSameDenseAndSparse(t *testing.T) {
	random := rand.New(rand.NewSource(2))
	dense, sparse := newStates(6, mostDense), newStates(6, 0)
	for range 500 {
		state, p := uint64(random.Intn(64)), random.Float64()
		dense.add(state, p)
		sparse.add(state, p)
	}
	a, b := map[uint64]float64{}, map[uint64]float64{}
	dense.each(func(state uint64, p float64) { a[state] = p })
	sparse.each(func(state uint64, p float64) { b[state] = p })
	if len(a) != len(b) || len(a) < 60 {
		t.Fatal(len(a), len(b))
	}
	for state, p := range a {
		if b[state] != p {
			t.Errorf("%d: %v and %v", state, p, b[state])
		}
	}
	for _, tt := range []struct {
		label       string
		state       uint64
		at          int
		count, most int64
		want        uint64
	}{
		{"a first animal", 0, 0, 1, 1, 1},
		{"more than what counts", 0, 7, 500, 100, 100 << 7},
		{"as many as count already", 100 << 7, 7, 3, 100, 100 << 7},
		{"others stay", 5 | 9<<7, 0, 2, 100, 7 | 9<<7},
		{"a kind outside", 5, -7, 2, 100, 5},
	} {
		if got := moved(tt.state, tt.at, 7, tt.count, tt.most); got != tt.want {
			t.Errorf("%s: %b, want %b", tt.label, got, tt.want)
		}
	}
}

package scoring

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"rillkey/scoring/account"
	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
)

// everyOutcome gives every way in which the records can turn out to f, as counts by
// kind with its chance.
func everyOutcome(kinds int, distributions []kindDistribution, f func(counts []int64, p float64)) {
	counts := make([]int64, kinds)
	var rec func(i int, p float64)
	rec = func(i int, p float64) {
		if i == len(distributions) {
			f(counts, p)
			return
		}
		for _, o := range distributions[i].outcomes {
			if o.Kind >= 0 {
				counts[o.Kind] += distributions[i].count
			}
			rec(i+1, p*o.Chance)
			if o.Kind >= 0 {
				counts[o.Kind] -= distributions[i].count
			}
		}
	}
	rec(0, 1)
}

// plainValue is the value by the formula as people are shown it.
func plainValue(s grader, counts []int64) scheme.Ratio {
	var found []scheme.KindCount
	for k, n := range counts {
		if n > 0 {
			found = append(found, scheme.KindCount{Index: k, Kind: s.Kinds[k], Count: n})
		}
	}
	_, v := s.Value(found)
	return v
}

// someDistributions draws records whose chances are multiples of a sixteenth, so that
// sums of them have no rounding.
func someDistributions(random *rand.Rand, s grader, records int) []kindDistribution {
	pool := random.Perm(len(s.Kinds))[:min(5, len(s.Kinds))]
	distributions := make([]kindDistribution, records)
	for i := range distributions {
		add := func(kind int, chance float64) {
			for k := range distributions[i].outcomes {
				if distributions[i].outcomes[k].Kind == kind {
					distributions[i].outcomes[k].Chance += chance
					return
				}
			}
			distributions[i].outcomes = append(distributions[i].outcomes, account.Outcome{Kind: kind, Chance: chance})
		}
		distributions[i].count = []int64{1, 2, 9, 60}[random.Intn(4)]
		switch first, second := pool[random.Intn(len(pool))], pool[random.Intn(len(pool))]; random.Intn(4) {
		case 0:
			add(first, 1)
		case 1:
			add(first, 0.75)
			add(scheme.None, 0.25)
		case 2:
			add(first, 0.625)
			add(second, 0.375)
		default:
			add(first, 0.5)
			add(second, 0.3125)
			add(scheme.None, 0.1875)
		}
	}
	return distributions
}

func same(t *testing.T, label string, got, want map[string]float64) {
	t.Helper()
	sum := 0.0
	for v, p := range got {
		sum += p
		if math.Abs(p-want[v]) > 1e-12 {
			t.Fatalf("%s: %s with %v, want %v", label, v, p, want[v])
		}
	}
	if len(got) != len(want) || math.Abs(sum-1) > 1e-12 {
		t.Fatalf("%s: %v, want %v, sum %v", label, got, want, sum)
	}
}

func asMap(s grader, c chances) map[string]float64 {
	out := map[string]float64{}
	for _, pt := range c.points {
		out[s.Text(pt.steps)] += pt.p
	}
	if c.none > 0 {
		out["none"] = c.none
	}
	return out
}

func bruteForce(s grader, distributions []kindDistribution) map[string]float64 {
	out := map[string]float64{}
	everyOutcome(len(s.Kinds), distributions, func(counts []int64, p float64) {
		word := "none"
		if v := plainValue(s, counts); v.Defined() {
			word = s.Text(v.Steps())
		}
		out[word] += p
	})
	return out
}

func TestExactIsBruteForce(t *testing.T) {
	r, random := rules(t), rand.New(rand.NewSource(7))
	for _, s := range graders(r) {
		a, can := s.Accrual()
		for range 30 {
			distributions := someDistributions(random, s, 1+random.Intn(6))
			want := bruteForce(s, distributions)
			same(t, s.ID, asMap(s, s.chancesOf(distributions, seeded(1))), want)
			if can {
				c, ok := s.exact(a, distributions)
				if !ok {
					t.Fatalf("%s: too much for %d records", s.ID, len(distributions))
				}
				same(t, s.ID+" taken apart", asMap(s, c), want)
			}
		}
	}
}

func TestPresenceIsOneMinusTheProduct(t *testing.T) { // the issue's own rule, by hand
	r := rules(t)
	s := r.grader("presence")
	mayfly, midge := s.Nearest("ephemeroptera"), s.Nearest("chironomidae")
	distributions := []kindDistribution{{1, []account.Outcome{{Kind: mayfly, Chance: 0.5}, {Kind: scheme.None, Chance: 0.5}}}, {3, []account.Outcome{{Kind: mayfly, Chance: 0.5}, {Kind: scheme.None, Chance: 0.5}}}, {1, []account.Outcome{{Kind: midge, Chance: 0.25}, {Kind: scheme.None, Chance: 0.75}}}}
	// A mayfly, worth 3, with 1 - 0.5 x 0.5 = 0.75; a midge, worth 1, with 0.25.
	same(t, "by hand", asMap(s, s.chancesOf(distributions, seeded(1))), map[string]float64{"0": 0.25 * 0.75, "1": 0.25 * 0.25, "3": 0.75 * 0.75, "4": 0.75 * 0.25})
}

// A simulated chance must lie within five of its own standard errors.
func TestSimulationIsExact(t *testing.T) {
	r, random := rules(t), rand.New(rand.NewSource(3))
	for _, id := range []string{"presence", "weighted", "fbi", "aspt", "percent-dominant", "shannon"} {
		s := r.grader(id)
		distributions := someDistributions(random, s, 5)
		want, got := bruteForce(s, distributions), asMap(s, s.simulate(distributions, seeded(11)))
		for v, p := range want {
			if off := math.Abs(got[v] - p); off > 5*math.Sqrt(p*(1-p)/draws)+1e-9 {
				t.Errorf("%s: %s with %v, want %v", id, v, got[v], p)
			}
		}
		if again := asMap(s, s.simulate(distributions, seeded(11))); fmt.Sprint(again) != fmt.Sprint(got) {
			t.Errorf("%s: the same seed gives other figures", id)
		}
	}
}

func TestTooMuchIsSimulatedAndSaysSo(t *testing.T) {
	s := rules(t).grader("shannon")
	distributions := someDistributions(rand.New(rand.NewSource(5)), s, 40)
	got := s.chancesOf(distributions, seeded(1)).spread(s)
	if got.Method != "simulated" || got.Draws != draws {
		t.Errorf("%+v", got)
	}
	few := s.chancesOf(distributions[:3], seeded(1)).spread(s)
	if few.Method != "exact" || few.Draws != 0 {
		t.Errorf("%+v", few)
	}
}

func TestBestOfSeveralIsBruteForce(t *testing.T) {
	r, random := rules(t), rand.New(rand.NewSource(9))
	for _, id := range []string{"presence", "fbi"} {
		s := r.grader(id)
		for range 20 {
			a, b := someDistributions(random, s, 2), someDistributions(random, s, 3)
			want := map[string]float64{}
			everyOutcome(len(s.Kinds), a, func(counts []int64, p float64) {
				one := plainValue(s, counts)
				everyOutcome(len(s.Kinds), b, func(counts []int64, q float64) {
					top := one
					if other := plainValue(s, counts); s.better(other, top) {
						top = other
					}
					word := "none"
					if top.Defined() {
						word = s.Text(top.Steps())
					}
					want[word] += p * q
				})
			})
			same(t, id, asMap(s, best(s, []chances{s.chancesOf(a, seeded(1)), s.chancesOf(b, seeded(1))})), want)
		}
	}
}

// Three samples have 27 ordered draws; each is looked at by brute force.
func TestResamplingIsBruteForce(t *testing.T) {
	r := rules(t)
	for _, how := range []scheme.Combine{scheme.Pooled, scheme.Best} {
		y := newTray("riffle-three").riffles()
		y.animals("1", "baetidae", 30).animals("1", "tipulidae", 2).animals("2", "perlidae", 4).animals("2", "chironomidae", 12).animals("3", "chironomidae", 90)
		of := r.Account(&y.v)
		for _, s := range graders(r) {
			from := s.evidence(of)
			got, ok := s.resampled(how, from, 1)
			want := map[string]float64{}
			for draw := range 27 {
				var pool []account.Bound
				var top scheme.Ratio
				for _, i := range []int{draw % 3, draw / 3 % 3, draw / 9} {
					own := account.Sample(from.rows, from.samples[i].Label)
					pool = append(pool, own...)
					if v := s.sum(s.sort(own)).value; s.better(v, top) {
						top = v
					}
				}
				if how == scheme.Pooled {
					top = s.sum(s.sort(pool)).value
				}
				word := "none"
				if top.Defined() {
					word = s.Text(top.Steps())
				}
				want[word] += 1.0 / 27
			}
			if !ok {
				t.Fatal(s.ID)
			}
			same(t, s.ID, asMap(s, got), want)
		}
	}
	if _, ok := r.grader("fbi").resampled(scheme.Pooled, r.grader("fbi").evidence(r.Account(&newTray("riffle-families").sample("1", "riffle", 0).v)), 1); ok {
		t.Error("one sample says nothing of how samples differ")
	}
}

func TestManySamplesAreDrawn(t *testing.T) {
	r := rules(t)
	y := newTray("seven-samples")
	for i := range 12 {
		label := fmt.Sprint(i)
		y.sample(label, "riffle", 0).animals(label, []string{"baetidae", "perlidae", "chironomidae"}[i%3], 1+i)
	}
	c, ok := r.grader("fbi").resampled(scheme.Pooled, r.grader("fbi").evidence(r.Account(&y.v)), 1)
	if !ok || c.draws != draws {
		t.Errorf("%+v", c)
	}
	// 22 mayflies of 4, 26 stoneflies of 1; midges are open: 114 / 48 = 2.375. The
	// mean of means drawn lies near, not at, the mean of all.
	if mean, _ := c.moments(r.grader("fbi")); math.Abs(mean-2.375) > 0.2 {
		t.Errorf("mean %v", mean)
	}
}

// The value that people are given has the whole chance where nothing is doubtful.
func TestWithoutDoubtTheChanceIsOne(t *testing.T) {
	y := newTray("riffle-three").riffles()
	y.event(visit.Identification{Sample: "1", Taxon: "baetidae", Count: 600, Confidence: 1}).event(visit.Identification{Sample: "2", Taxon: "jackalope", Count: 6, Confidence: 1})
	g := y.grade(t)
	for _, i := range append(g.Indices, g.Beside...) {
		if i.Value == nil {
			if i.Identification != nil || i.Sampling != nil || i.Probabilities != nil {
				t.Errorf("withheld means withheld: %+v", i)
			}
			continue
		}
		if n := i.Identification; n.Mean != *i.Value || n.Low != *i.Value || n.High != *i.Value || len(i.Probabilities) > 0 && i.Probabilities[i.Rating] != 1 {
			t.Errorf("%s: %+v", i.ID, i)
		}
	}
}

func TestAnywayIsMarked(t *testing.T) {
	y := newTray("riffle-three").sample("1", "riffle", 0.37).animals("1", "baetidae", 120)
	r := rules(t)
	want := []string{"poor", scheme.Unrated} // only the headline has a word
	plain, _ := r.Grade(r.Account(&y.v), GradeOptions{})
	g, err := r.Grade(r.Account(&y.v), GradeOptions{Anyway: true})
	if err != nil || !g.Withheld() {
		t.Fatal(err, g)
	}
	for k, i := range g.Indices {
		if !i.Withheld || i.Value != nil || i.Rating != "" || i.Probabilities != nil || i.Provisional == nil || i.Provisional.Rating != want[k] || plain.Indices[k].Provisional != nil {
			t.Errorf("%+v", i)
		}
	}
	none, _ := r.Grade(r.Account(&newTray("riffle-three").sample("1", "riffle", 0.37).v), GradeOptions{Anyway: true})
	if none.Indices[0].Provisional != nil {
		t.Error("an empty tally has nothing provisional either")
	}
}

// Samples drawn again lose kinds; the spread is moved back to the value found.
func TestSamplingIsCentred(t *testing.T) {
	y := newTray("riffle-three").riffles()
	y.animals("1", "baetidae", 30).animals("2", "perlidae", 4).animals("2", "chironomidae", 12).animals("3", "tipulidae", 9)
	g := y.grade(t)
	for _, i := range append(g.Indices, g.Beside...) {
		if i.Sampling == nil {
			continue
		}
		if s := rules(t).grader(i.ID); i.Sampling.Centred && math.Abs(i.Sampling.Mean-*i.Value) > 2/float64(s.One()) {
			t.Errorf("%s: mean %v, value %v", i.ID, i.Sampling.Mean, *i.Value)
		}
	}
	if p := g.Indices[0]; !p.Sampling.Centred || p.Sampling.Low >= *p.Value || p.Sampling.High <= *p.Value {
		t.Errorf("%+v", p.Sampling)
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

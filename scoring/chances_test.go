package scoring

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"rillkey/scoring/account"
	"rillkey/scoring/chance"
	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
)

// everyOutcome gives every way in which the records can turn out to f, as counts by
// kind with its chance.
func everyOutcome(kinds int, distributions []chance.KindDistribution, f func(counts []int64, p float64)) {
	counts := make([]int64, kinds)
	var rec func(i int, p float64)
	rec = func(i int, p float64) {
		if i == len(distributions) {
			f(counts, p)
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
}

// plainValue is the value by the formula as people are shown it.
func plainValue(s grader, counts []int64) chance.Ratio {
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
func someDistributions(random *rand.Rand, s grader, records int) []chance.KindDistribution {
	pool := random.Perm(len(s.Kinds))[:min(5, len(s.Kinds))]
	distributions := make([]chance.KindDistribution, records)
	for i := range distributions {
		add := func(kind int, p float64) {
			for k := range distributions[i].Outcomes {
				if distributions[i].Outcomes[k].Kind == kind {
					distributions[i].Outcomes[k].Chance += p
					return
				}
			}
			distributions[i].Outcomes = append(distributions[i].Outcomes, chance.Outcome{Kind: kind, Chance: p})
		}
		distributions[i].Count = []int64{1, 2, 9, 60}[random.Intn(4)]
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

func asMap(s grader, c chance.Distribution) map[string]float64 {
	out := map[string]float64{}
	for _, pt := range c.Points {
		out[s.Text(pt.Steps)] += pt.P
	}
	if c.None > 0 {
		out["none"] = c.None
	}
	return out
}

func bruteForce(s grader, distributions []chance.KindDistribution) map[string]float64 {
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
		for range 30 {
			distributions := someDistributions(random, s, 1+random.Intn(6))
			want := bruteForce(s, distributions)
			same(t, s.ID, asMap(s, s.Formula().Distribution(distributions, chance.Seeded(1))), want)
		}
	}
}

func TestPresenceIsOneMinusTheProduct(t *testing.T) { // the issue's own rule, by hand
	r := rules(t)
	s := r.grader("presence")
	mayfly, midge := s.Nearest("ephemeroptera"), s.Nearest("chironomidae")
	or := func(kind int, p float64, count int64) chance.KindDistribution {
		return chance.KindDistribution{Count: count,
			Outcomes: []chance.Outcome{{Kind: kind, Chance: p}, {Kind: scheme.None, Chance: 1 - p}}}
	}
	distributions := []chance.KindDistribution{or(mayfly, 0.5, 1), or(mayfly, 0.5, 3), or(midge, 0.25, 1)}
	// A mayfly, worth 3, with 1 - 0.5 x 0.5 = 0.75; a midge, worth 1, with 0.25.
	same(t, "by hand", asMap(s, s.Formula().Distribution(distributions, chance.Seeded(1))),
		map[string]float64{"0": 0.25 * 0.75, "1": 0.25 * 0.25, "3": 0.75 * 0.75, "4": 0.75 * 0.25})
}

func TestTooMuchIsSimulatedAndSaysSo(t *testing.T) {
	s := rules(t).grader("shannon")
	distributions := someDistributions(rand.New(rand.NewSource(5)), s, 40)
	got := s.spread(s.Formula().Distribution(distributions, chance.Seeded(1)))
	if got.Method != "simulated" || got.Draws != 10_000 {
		t.Errorf("%+v", got)
	}
	few := s.spread(s.Formula().Distribution(distributions[:3], chance.Seeded(1)))
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
			same(t, id, asMap(s, s.bestOf(
				[]chance.Distribution{s.Formula().Distribution(a, chance.Seeded(1)), s.Formula().Distribution(b, chance.Seeded(1))})), want)
		}
	}
}

// Three samples have 27 ordered draws; each is looked at by brute force.
func TestResamplingIsBruteForce(t *testing.T) {
	r := rules(t)
	for _, how := range []scheme.Combine{scheme.Pooled, scheme.Best} {
		y := newTray("riffle-three").riffles()
		y.animals("1", "baetidae", 30).animals("1", "tipulidae", 2).animals("2", "perlidae", 4).animals("2", "chironomidae",
			12).animals("3", "chironomidae", 90)
		of := r.Account(&y.v)
		for _, s := range graders(r) {
			from := s.evidence(of)
			got, ok := s.resampled(how, from, 1)
			want := map[string]float64{}
			for draw := range 27 {
				var pool []account.Counted
				var top chance.Ratio
				for _, i := range []int{draw % 3, draw / 3 % 3, draw / 9} {
					own := account.FromSample(from.rows, from.samples[i].Label)
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
	if _, ok := r.grader("fbi").resampled(scheme.Pooled,
		r.grader("fbi").evidence(r.Account(&newTray("riffle-families").sample("1", "riffle", 0).v)), 1); ok {
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
	if !ok || c.Draws != 10_000 {
		t.Errorf("%+v", c)
	}
	// 22 mayflies of 4, 26 stoneflies of 1; midges are open: 114 / 48 = 2.375. The
	// mean of means drawn lies near, not at, the mean of all.
	if mean, _ := c.Moments(r.grader("fbi").Number); math.Abs(mean-2.375) > 0.2 {
		t.Errorf("mean %v", mean)
	}
}

// The value that people are given has the whole chance where nothing is doubtful.
func TestWithoutDoubtTheChanceIsOne(t *testing.T) {
	y := newTray("riffle-three").riffles()
	y.event(visit.Identification{Sample: "1", Taxon: "baetidae", Count: 600, Confidence: 1}).event(
		visit.Identification{Sample: "2", Taxon: "jackalope", Count: 6, Confidence: 1})
	g := y.grade(t)
	for _, i := range append(g.Indices, g.Further...) {
		if i.Value == nil {
			if i.Identification != nil || i.Sampling != nil || i.Probabilities != nil {
				t.Errorf("withheld means withheld: %+v", i)
			}
			continue
		}
		if n := i.Identification; n.Mean != *i.Value || n.Low != *i.Value || n.High != *i.Value || len(i.Probabilities) > 0 &&
			i.Probabilities[i.Rating] != 1 {
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
		if !i.Withheld || i.Value != nil || i.Rating != "" || i.Probabilities != nil || i.Provisional == nil ||
			i.Provisional.Rating != want[k] || plain.Indices[k].Provisional != nil {
			t.Errorf("%+v", i)
		}
	}
	none, _ := r.Grade(r.Account(&newTray("riffle-three").sample("1", "riffle", 0.37).v), GradeOptions{Anyway: true})
	if none.Indices[0].Provisional != nil {
		t.Error("an empty tally has nothing provisional either")
	}
}

// The spread because of the samples lies about the value found, and on its scale.
func TestSamplingLiesAboutTheValue(t *testing.T) {
	y := newTray("riffle-three").riffles()
	y.animals("1", "baetidae", 30).animals("2", "perlidae", 4).animals("2", "chironomidae", 12).animals("3", "tipulidae", 9)
	g := y.grade(t)
	for _, i := range append(g.Indices, g.Further...) {
		if i.Sampling == nil {
			continue
		}
		s := rules(t).grader(i.ID)
		if x := i.Sampling; x.Low > *i.Value || x.High < *i.Value || x.Low < 0 || x.High > s.Number(s.Most()) {
			t.Errorf("%s: %v to %v about %v", i.ID, x.Low, x.High, *i.Value)
		}
	}
	if p := g.Indices[0]; p.Sampling.Low >= *p.Value || p.Sampling.High <= *p.Value || math.Abs(p.Sampling.Mean-*p.Value) > 0.5 {
		t.Errorf("%+v", p.Sampling)
	}
}

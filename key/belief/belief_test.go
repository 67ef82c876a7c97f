package belief_test

import (
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/BurntSushi/toml"

	"rillkey/key/belief"
)

// single is the tolerance where likelihoods pass through 32-bit numbers.
const single = 1e-6

func TestWorkedExamplesOfPublications(t *testing.T) {
	var file struct {
		Example map[string]struct {
			Source, Status, Says string
			Prior                []float64
			Observed             [][]float64
			Answer, Within       float64
		}
	}
	if _, err := toml.DecodeFile("../../testdata/published/belief-worked.toml", &file); err != nil {
		t.Fatal(err)
	}
	if len(file.Example) < 2 {
		t.Fatalf("%d examples", len(file.Example))
	}
	for _, id := range slices.Sorted(maps.Keys(file.Example)) {
		e := file.Example[id]
		table := belief.New(e.Prior)
		for _, likelihood := range e.Observed {
			add(t, table, 2, func(i int, out []float64) { out[0], out[1] = likelihood[i], 1-likelihood[i] })
		}
		b := table.New()
		for n := range e.Observed {
			b.Observe(n, 1)
		}
		if got := b.P()[0]; math.Abs(got-e.Answer) > e.Within {
			t.Errorf("%s: %v, want %v (%s)", id, got, e.Answer, e.Source)
		}
	}
}

func TestAgainstALibrarysNaiveBayes(t *testing.T) {
	var file struct {
		Library string
		Kind    []struct {
			Name   string
			Counts [][]int
		}
		Observed []struct {
			Is        []int
			Posterior []float64
		}
	}
	if _, err := toml.DecodeFile("../../testdata/published/belief-library.toml", &file); err != nil {
		t.Fatal(err)
	}
	if len(file.Observed) != 12 {
		t.Fatalf("%d observations, want all 3 x 2 x 2", len(file.Observed))
	}
	var prior []float64
	for _, k := range file.Kind {
		prior = append(prior, float64(total(k.Counts[0])))
	}
	table := belief.New(prior)
	for trait, counts := range file.Kind[0].Counts {
		add(t, table, len(counts), func(i int, out []float64) {
			c := file.Kind[i].Counts[trait]
			for s := range out {
				out[s] = float64(c[s]+1) / float64(total(c)+len(c))
			}
		})
	}
	for _, o := range file.Observed {
		b := table.New()
		for trait, state := range o.Is {
			b.Observe(trait, 1<<state)
		}
		for i, want := range o.Posterior {
			if math.Abs(b.P()[i]-want) > single {
				t.Errorf("%v: %s %v, want %v (%s)", o.Is, file.Kind[i].Name, b.P()[i], want, file.Library)
			}
		}
	}
}

func total[N int | time.Duration](counts []N) N {
	var n N
	for _, c := range counts {
		n += c
	}
	return n
}

func add(t testing.TB, table *belief.Likelihoods, states int, reads func(i int, out []float64)) int {
	t.Helper()
	n, err := table.AddTrait(states, reads)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// chance is a table of random likelihoods, with questions of every kind: single
// states, states in two groups, groups that leave states out, conjunctions.
func chance(t testing.TB, r *rand.Rand, kinds int) (*belief.Likelihoods, int) {
	t.Helper()
	prior := make([]float64, kinds)
	for i := range prior {
		prior[i] = 0.1 + r.Float64()
	}
	table := belief.New(prior)
	for range 4 {
		add(t, table, 4, func(_ int, out []float64) {
			sum := 0.0
			for j := range out {
				out[j] = 0.01 + r.Float64()*r.Float64()
				sum += out[j]
			}
			for j := range out {
				out[j] /= sum
			}
		})
	}
	for trait := range 4 {
		table.AddStates(trait)
	}
	one := func(trait int, states uint64) []belief.Accepted {
		return []belief.Accepted{{Trait: trait, States: states}}
	}
	table.AddQuestion([][]belief.Accepted{one(0, 0b0011), one(0, 0b1100)})
	table.AddQuestion([][]belief.Accepted{one(1, 0b0001), one(1, 0b0100)})
	table.AddQuestion([][]belief.Accepted{{{Trait: 2, States: 1}, {Trait: 3, States: 0b0111}}, {{Trait: 2, States: 0b1110}}})
	return table, 4
}

// gain is the mutual information between kind and answer by its definition: for
// every answer, how much the belief would change, times how likely it is.
func gain(b *belief.Belief, table *belief.Likelihoods, answers [][]belief.Accepted, in []bool) float64 {
	before, bits := b.P(), 0.0
	for _, parts := range answers {
		likely := make([]float64, len(before))
		pa, inside, insideAfter := 0.0, 0.0, 0.0
		for i, p := range before {
			likely[i] = p
			for _, part := range parts {
				seen := b.Seen(part.Trait)
				if seen == 0 {
					likely[i] *= table.Likelihood(part.Trait, part.States, i)
				} else {
					likely[i] *= table.Likelihood(part.Trait, part.States&seen, i) / table.Likelihood(part.Trait, seen, i)
				}
			}
			pa += likely[i]
			if in != nil && in[i] {
				inside += p
				insideAfter += likely[i]
			}
		}
		if pa == 0 {
			continue
		}
		if in != nil {
			for _, x := range [][2]float64{{insideAfter / pa, inside}, {1 - insideAfter/pa, 1 - inside}} {
				if x[0] > 0 {
					bits += pa * x[0] * math.Log2(x[0]/x[1])
				}
			}
			continue
		}
		for i, l := range likely {
			if l > 0 {
				bits += l * math.Log2(l/pa/before[i])
			}
		}
	}
	return bits
}

func TestGainIsTheMutualInformation(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 1))
	one := func(trait int, states uint64) []belief.Accepted {
		return []belief.Accepted{{Trait: trait, States: states}}
	}
	questions := [][][]belief.Accepted{}
	for trait := range 4 {
		questions = append(questions, [][]belief.Accepted{one(trait, 1), one(trait, 2), one(trait, 4), one(trait, 8)})
	}
	questions = append(questions,
		[][]belief.Accepted{one(0, 0b0011), one(0, 0b1100)},
		[][]belief.Accepted{one(1, 0b0001), one(1, 0b0100)},
		[][]belief.Accepted{{{Trait: 2, States: 1}, {Trait: 3, States: 0b0111}}, {{Trait: 2, States: 0b1110}}})
	for round := range 50 {
		table, _ := chance(t, r, 13)
		b := table.New()
		for trait := range 4 {
			if r.IntN(2) == 0 {
				b.Observe(trait, 1+uint64(r.IntN(15)))
			}
		}
		in := make([]bool, 13)
		for i := range in {
			in[i] = i%3 == round%3
		}
		for q, answers := range questions {
			if got, want := b.Gain(q), gain(b, table, answers, nil); math.Abs(got-want) > 1e-4 {
				t.Fatalf("round %d, question %d: %v bits, want %v", round, q, got, want)
			}
			if got, want := b.GainOn(q, in), gain(b, table, answers, in); math.Abs(got-want) > 1e-4 {
				t.Fatalf("round %d, question %d on a part: %v bits, want %v", round, q, got, want)
			}
		}
	}
}

func TestBeliefIsExact(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 2))
	table, traits := chance(t, r, 40)
	for range 200 {
		b := table.New()
		var trail [][]float64
		var order []int
		for _, trait := range r.Perm(traits) {
			trail = append(trail, slices.Clone(b.P()))
			order = append(order, trait)
			b.Observe(trait, 1+uint64(r.IntN(15)))
			sum := 0.0
			for _, p := range b.P() {
				sum += p
			}
			if math.Abs(sum-1) > 1e-12 {
				t.Fatalf("probabilities sum to %v", sum)
			}
		}
		other := table.New()
		for _, trait := range r.Perm(traits) {
			other.Observe(trait, b.Seen(trait))
		}
		for i, p := range b.P() {
			if math.Abs(p-other.P()[i]) > 1e-12 {
				t.Fatalf("another order gives %v, not %v", other.P()[i], p)
			}
		}
		for i, want := range slices.Backward(trail) {
			b.Observe(order[i], 0)
			if !slices.Equal(b.P(), want) {
				t.Fatal("taking the last observation back is not exact")
			}
		}
	}
}

func TestTooManyStates(t *testing.T) {
	table := belief.New([]float64{1})
	for _, n := range []int{0, belief.MostStates + 1} {
		if _, err := table.AddTrait(n, nil); err == nil {
			t.Errorf("a trait of %d states was taken", n)
		}
	}
}

// Package belief is the arithmetic of naming under doubt: a probability for
// every kind, what an observation does to it, and how many bits a question is
// expected to give. It knows kinds, traits and states by number only; what they
// are, and how readings go wrong, is the business of package key.
//
// Begin with [Likelihoods], [Belief] and [Accepted].
//
// Probabilities are kept as logarithms, so that many answers against a kind
// never make it vanish into a zero. Likelihoods lie flat in memory, one row of
// all kinds for each answer, together with one row holding, for each kind, the
// entropy of its answers. The expected information of a question is then
//
//	Σa −P(a)·log P(a)  −  Σi p(i)·H(answer|i)
//
// where P(a) = Σi p(i)·P(a|i): a scalar product of the probabilities with each
// row and no logarithm per kind. This is the mutual information between kind
// and answer, the quantity that Jedynak, Frazier and Sznitman (2012) prove the
// greedy choice optimal for under entropy loss.
package belief

import (
	"math"
	"math/bits"

	"rillkey/taxa/wording"
)

// MostStates is how many states a trait may have.
const MostStates = 64

// Likelihoods holds the likelihoods of all kinds. It is not changed once made and may
// be shared.
type Likelihoods struct {
	kinds     int
	logPrior  []float64
	traits    []trait
	questions []question
	most      int // answers of the question that has most
}

// trait holds, for every state j and kind i, reads[j*kinds+i], the chance that
// an animal of the kind is read as having the state.
type trait struct {
	states int
	reads  []float32
}

// Accepted is one trait and the states of it, as bits, that an answer accepts.
type Accepted struct {
	Trait  int
	States uint64
}

// question is a set of answers that exclude one another, each a conjunction.
type question struct {
	answers [][]Accepted
	traits  []int
	rows    [][]float32 // likelihood of each answer by kind
	entropy []float32   // −Σ L·ln L over the answers, by kind
	covers  bool        // whether the answers take in every reading
}

// New is a table for kinds of these prior probabilities, which need not sum to
// 1 but must be above 0.
func New(prior []float64) *Likelihoods {
	return &Likelihoods{kinds: len(prior), logPrior: logs(prior)}
}

func logs(of []float64) []float64 {
	out := make([]float64, len(of))
	for i, p := range of {
		out[i] = math.Log(p)
	}
	return out
}

// AddTrait adds a trait of so many states and gives its number. reads(i, out)
// fills out with the chances, above 0, that kind i is read as each state.
func (t *Likelihoods) AddTrait(states int, reads func(i int, out []float64)) (int, error) {
	if states < 1 || states > MostStates {
		return 0, wording.Errorf("a trait of %d states; it may have 1 to %d", states, MostStates)
	}
	tr := trait{states, make([]float32, states*t.kinds)}
	out := make([]float64, states)
	for i := range t.kinds {
		reads(i, out)
		for j, l := range out {
			tr.reads[j*t.kinds+i] = float32(l)
		}
	}
	t.traits = append(t.traits, tr)
	return len(t.traits) - 1, nil
}

// AddStates adds the question that asks for the state of a trait, one answer for
// each in order, and gives its number.
func (t *Likelihoods) AddStates(trait int) int {
	answers := make([][]Accepted, t.traits[trait].states)
	for j := range answers {
		answers[j] = []Accepted{{trait, 1 << j}}
	}
	return t.AddQuestion(answers)
}

// AddQuestion adds a question with these answers and gives its number. Answers
// must exclude one another.
func (t *Likelihoods) AddQuestion(answers [][]Accepted) int {
	q := question{answers: answers, traits: traitsOf(answers)}
	q.covers = t.covers(q)
	for _, parts := range answers {
		q.rows = append(q.rows, t.row(parts))
	}
	q.entropy = entropies(q.rows, t.kinds)
	t.questions = append(t.questions, q)
	t.most = max(t.most, len(answers))
	return len(t.questions) - 1
}

// entropies are those of the answers in nats, by kind. Kinds beside each other mostly
// show the same, of which the logarithm is taken once.
func entropies(rows [][]float32, kinds int) []float32 {
	sums := make([]float64, kinds)
	for _, row := range rows {
		last, h := float32(0), 0.0
		for i, x := range row {
			if x != last {
				last, h = x, surprise(float64(x))
			}
			sums[i] += h
		}
	}
	out := make([]float32, kinds)
	for i, h := range sums {
		out[i] = float32(h)
	}
	return out
}

func traitsOf(answers [][]Accepted) []int {
	var out []int
	seen := map[int]bool{}
	for _, parts := range answers {
		for _, p := range parts {
			if !seen[p.Trait] {
				seen[p.Trait] = true
				out = append(out, p.Trait)
			}
		}
	}
	return out
}

func (t *Likelihoods) covers(q question) bool {
	if len(q.traits) != 1 {
		return false
	}
	all := uint64(0)
	for _, parts := range q.answers {
		all |= parts[0].States
	}
	return bits.OnesCount64(all) == t.traits[q.traits[0]].states
}

// row is the likelihood of a conjunction by kind. The row of one state is that
// of the trait itself and takes no memory of its own.
func (t *Likelihoods) row(parts []Accepted) []float32 {
	if len(parts) == 1 && bits.OnesCount64(parts[0].States) == 1 {
		j := bits.TrailingZeros64(parts[0].States)
		return t.traits[parts[0].Trait].reads[j*t.kinds : (j+1)*t.kinds]
	}
	row := make([]float32, t.kinds)
	for i := range row {
		l := 1.0
		for _, p := range parts {
			l *= t.Likelihood(p.Trait, p.States, i)
		}
		row[i] = float32(l)
	}
	return row
}

// Likelihood is the chance that kind i is read as one of the states.
func (t *Likelihoods) Likelihood(trait int, states uint64, i int) float64 {
	tr := &t.traits[trait]
	sum := 0.0
	for s := states; s != 0; s &= s - 1 {
		sum += float64(tr.reads[bits.TrailingZeros64(s)*t.kinds+i])
	}
	return sum
}

// surprise is −x·ln x, which is 0 at 0.
func surprise(x float64) float64 {
	if x <= 0 {
		return 0
	}
	return -x * math.Log(x)
}

package belief_test

import (
	"math/rand/v2"
	"runtime"
	"testing"
	"time"

	"rillkey/key/belief"
)

// The size that the choice of a question must cope with.
const (
	manyKinds  = 10_000
	manyTraits = 300
)

// large is a catalog of kinds that show one of two states of each trait by
// chance, read wrongly once in ten.
func large(t testing.TB) *belief.Likelihoods {
	t.Helper()
	r := rand.New(rand.NewPCG(1, 1))
	prior := make([]float64, manyKinds)
	for i := range prior {
		prior[i] = 1
	}
	table := belief.New(prior)
	for range manyTraits {
		n := add(t, table, 2, func(_ int, out []float64) {
			out[0] = 0.1
			if r.IntN(2) == 0 {
				out[0] = 0.9
			}
			out[1] = 1 - out[0]
		})
		table.AddStates(n)
	}
	return table
}

// pass sums the whole likelihood table once, as fast as plain code does: what
// any choice that looks at every likelihood must take at least.
func pass(table []float32) float32 {
	var s0, s1, s2, s3 float32
	for i := 0; i+4 <= len(table); i += 4 {
		x := table[i : i+4 : i+4]
		s0 += x[0]
		s1 += x[1]
		s2 += x[2]
		s3 += x[3]
	}
	return s0 + s1 + s2 + s3
}

func choose(b *belief.Belief, questions int) int {
	best, most := 0, 0.0
	for q := range questions {
		if g := b.Gain(q); g > most {
			best, most = q, g
		}
	}
	return best
}

var (
	keepSum  float32
	keepBest int
	keepGain float64
)

// BenchmarkChoose chooses among 300 questions about 10,000 kinds, and sums the
// table beside it; ratio is the one by the other, side by side in each round.
func BenchmarkChoose(b *testing.B) {
	table := large(b)
	raw := make([]float32, 2*manyKinds*manyTraits)
	for i := range raw {
		raw[i] = float32(i%7) / 7
	}
	now := table.New()
	for q := range 5 {
		now.Observe(q, 1)
	}
	var choosing, passing time.Duration
	b.ReportAllocs()
	for b.Loop() {
		start := time.Now()
		keepBest = choose(now, manyTraits)
		middle := time.Now()
		keepSum = pass(raw)
		choosing += middle.Sub(start)
		passing += time.Since(middle)
	}
	b.ReportMetric(float64(choosing)/float64(passing), "ratio")
	b.ReportMetric(float64(passing.Microseconds())/float64(b.N), "µs/pass")
}

// One answer, once the belief is there, takes no memory: neither the update nor
// the choice that follows.
func TestAnswersTakeNoMemory(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes a while")
	}
	table := large(t)
	b := table.New()
	next := 0
	if n := testing.AllocsPerRun(20, func() {
		b.Observe(next, 1)
		keepBest = choose(b, manyTraits)
		next++
	}); n != 0 {
		t.Errorf("%v allocations for an answer", n)
	}
}

// The table of one 32-bit likelihood for every kind, trait and state takes 24
// MB; with all that belongs to it, and one belief, at most twice that.
func TestMemory(t *testing.T) {
	var before, after runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&before)
	table := large(t)
	b := table.New()
	runtime.GC()
	runtime.ReadMemStats(&after)
	used := float64(after.HeapAlloc) - float64(before.HeapAlloc)
	const plain = 4 * 2 * manyKinds * manyTraits
	t.Logf("%.1f MB, %.2f times the table", used/1e6, used/plain)
	if used > 2*plain {
		t.Errorf("%.1f MB, more than twice the table's %.1f", used/1e6, float64(plain)/1e6)
	}
	runtime.KeepAlive(table)
	runtime.KeepAlive(b)
}

// What must hold of the speed, on a busy machine too: each question and each
// piece of the table is timed by itself, and the best of several rounds counts.
// Measuring coverage slows the one and not the other.
func TestChoosingIsAsFastAsAFewPasses(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes a while")
	}
	if testing.CoverMode() != "" {
		t.Skip("the package is counted line by line, what it is compared with is not")
	}
	table := large(t)
	raw := make([]float32, 2*manyKinds*manyTraits)
	for i := range raw {
		raw[i] = float32(i%7) / 7
	}
	b := table.New()
	choosing, passing := make([]time.Duration, manyTraits), make([]time.Duration, manyTraits)
	for round := range 7 {
		for q := range manyTraits {
			start := time.Now()
			keepGain = b.Gain(q)
			middle := time.Now()
			keepSum = pass(raw[2*manyKinds*q : 2*manyKinds*(q+1)])
			end := time.Now()
			if round == 0 || middle.Sub(start) < choosing[q] {
				choosing[q] = middle.Sub(start)
			}
			if round == 0 || end.Sub(middle) < passing[q] {
				passing[q] = end.Sub(middle)
			}
		}
	}
	ratio := float64(total(choosing)) / float64(total(passing))
	t.Logf("choosing takes %.2f passes", ratio)
	if ratio > 5 {
		t.Errorf("choosing takes %.1f passes over the table, more than 5", ratio)
	}
}

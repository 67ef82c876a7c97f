package chance

import (
	"math"
	"math/rand"
	"testing"
)

// presence adds up the weights of the kinds found, with weights that few sums share.
func presence(kinds int) Formula {
	part := func(kind int, _ int64) (int64, int64) { return int64(1 + kind%3), 1 }
	a := &Accrual{Part: part, Most: 1}
	return Formula{Kinds: kinds, Value: a.ValueOf, Accrual: a}
}

// chained are records each of which may be of two kinds, in a random order; all
// kinds hang together.
func chained(random *rand.Rand, kinds int) []KindDistribution {
	out := make([]KindDistribution, kinds-1)
	for i, at := range random.Perm(kinds - 1) {
		p := 0.3 + 0.4*random.Float64()
		out[i] = KindDistribution{1, []Outcome{{at, p}, {at + 1, 1 - p}}}
	}
	return out
}

// work is how much of the work that may be done a set of kinds takes.
func work(t *testing.T, kinds int, follow following) (taken int, c Distribution) {
	t.Helper()
	left := math.MaxInt
	f := presence(kinds)
	c, ok := f.exact(chained(rand.New(rand.NewSource(1)), kinds), func(set *kindSet, a Accrual, _ *int) (*massFunction[parts], bool) {
		return follow(set, a, &left)
	})
	if !ok {
		t.Fatalf("%d kinds are too much", kinds)
	}
	return math.MaxInt - left, c
}

// Kinds that hang together in a chain are followed in work that grows with the
// square of their number, one for the records and one for the sums, since each is
// forgotten when the next comes; keeping all counts takes twice the work for each.
func TestKindsAreForgottenInTime(t *testing.T) {
	few, short := work(t, 14, (*kindSet).eliminate1)
	kept, long := work(t, 14, (*kindSet).follow)
	if len(short.Points) != len(long.Points) {
		t.Fatalf("%v and %v", short, long)
	}
	for i, p := range short.Points {
		if q := long.Points[i]; p.Steps != q.Steps || math.Abs(p.P-q.P) > 1e-12 {
			t.Errorf("%v and %v", p, q)
		}
	}
	if many, _ := work(t, 56, (*kindSet).eliminate1); many > 2*16*few {
		t.Errorf("14 kinds take %d steps, 56 take %d", few, many)
	}
	if few > kept {
		t.Errorf("14 kinds take %d steps, and %d without forgetting", few, kept)
	}
}

// BenchmarkSums adds up 20 kinds that hang together, as in a visit of many names
// that are not certain.
func BenchmarkSums(b *testing.B) {
	f, records := presence(20), chained(rand.New(rand.NewSource(1)), 20)
	for name, follow := range map[string]following{"kinds forgotten": (*kindSet).sums, "all counts kept": (*kindSet).follow} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				f.exact(records, follow)
			}
		})
	}
}

// eliminate1 is [kindSet.eliminate] for counts of one bit.
func (set *kindSet) eliminate1(a Accrual, left *int) (*massFunction[parts], bool) {
	return set.eliminate(a, 1, left)
}

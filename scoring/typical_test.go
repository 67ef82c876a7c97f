package scoring

import (
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"

	"rillkey/scoring/scheme"
	"rillkey/scoring/streamtest"
)

// The mean of the largest of k of the numbers 1 to n is k (n + 1) / (k + 1) (David and
// Nagaraja, Order Statistics, from memory).
func TestTheBestOfAsManyAsAskedFor(t *testing.T) {
	for n := 1; n <= 9; n++ {
		var values []float64
		for i := range n {
			values = append(values, float64(i+1))
		}
		for k := 1; k <= n; k++ {
			if got, want := meanBest(values, k), float64(k*(n+1))/float64(k+1); math.Abs(got-want) > 1e-9 {
				t.Errorf("best of %d of 1 to %d is %v, want %v", k, n, got, want)
			}
		}
	}
}

// Where the best of three counts it lies above what a sample holds; the mean that is told
// beside it does not, and its interval holds that in at least 90 of 100 visits.
// RILLKEY_STREAMS says how many streams are made, RILLKEY_SEED which.
func TestABestOfThreeIsCorrected(t *testing.T) {
	if testing.Short() {
		t.Skip("it grades hundreds of visits")
	}
	streams, _ := strconv.Atoi(os.Getenv("RILLKEY_STREAMS"))
	if streams == 0 {
		streams = 8
	}
	seed, _ := strconv.ParseUint(os.Getenv("RILLKEY_SEED"), 10, 64)
	r := rules(t)
	p, err := r.Protocol("riffle-best")
	if err != nil {
		t.Fatal(err)
	}
	s := r.grader(p.Schemes[0])
	const visits, judged = 40, 6
	held, best, mean := 0, 0.0, 0.0
	for i := range streams {
		stream := streamtest.Stream{Random: rand.New(rand.NewPCG(seed+17, uint64(i))), Animals: 180, Samples: 3,
			Patches: 1.5, Protocol: "riffle-best"}
		truth := 0.0
		var told []*Typical
		for n, v := range stream.Years("a", visits) {
			x := s.typical(scheme.Best, s.evidence(r.Account(v)), 3)
			if truth += x.Mean / visits; n < judged {
				told = append(told, x)
			}
		}
		for _, x := range told {
			best, mean = best+x.Mean+x.Chosen-truth, mean+x.Mean-truth
			if x.Low <= truth && truth <= x.High {
				held++
			}
		}
	}
	of := float64(judged * streams)
	t.Logf("the best is off by %+.2f, the mean by %+.2f; its interval holds in %.3f of %.0f", best/of, mean/of, float64(held)/of, of)
	if slack := 2 * math.Sqrt(0.09/of); float64(held)/of < 0.9-slack || math.Abs(mean) > best/5 {
		t.Errorf("the mean is off by %+.2f, the best by %+.2f; the interval holds in %.3f", mean/of, best/of, float64(held)/of)
	}
}

// By hand: the mean of 4, 5 and 9 is 6; the best is 9 of a score, 4 of an index of which a
// low value is clean.
func TestABestMayBeTheLowest(t *testing.T) {
	for _, c := range []struct {
		values []float64
		want   string
	}{
		{[]float64{4, 5, 9}, "A best of several lies above what a sample holds on average, which is 6 here"},
		{[]float64{9, 5, 4}, "A best of several lies below what a sample holds on average, which is 6 here"},
	} {
		said := typicalOf(c.values).words()
		moved := map[float64]string{9: "choosing moved it by 3.", 4: "choosing moved it by 2."}[c.values[2]]
		if !strings.HasPrefix(said, c.want) || !strings.Contains(said, moved) {
			t.Errorf("%v: %s", c.values, said)
		}
	}
}

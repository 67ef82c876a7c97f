package scoring

import (
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"rillkey/scoring/chance"
	"rillkey/scoring/scheme"
	"rillkey/scoring/streamtest"
)

// The interval because of which samples were taken holds the mean of further
// visits to a stream on one day at this effort, in at least 90 of 100 visits.
// RILLKEY_STREAMS says how many streams are made of each, RILLKEY_SEED which.
func TestOtherSamples(t *testing.T) {
	if testing.Short() {
		t.Skip("it grades hundreds of visits")
	}
	streams, _ := strconv.Atoi(os.Getenv("RILLKEY_STREAMS"))
	if streams == 0 {
		streams = 2
	}
	seed, _ := strconv.ParseUint(os.Getenv("RILLKEY_SEED"), 10, 64)
	r := rules(t)
	for _, row := range []struct {
		protocol string
		samples  int
		schemes  []string
		how      scheme.Combine
		patches  float64 // how little animals clump
	}{
		{"riffle-three", 3, []string{"presence", "weighted"}, scheme.Pooled, 1.5},
		{"seven-samples", 7, []string{"presence", "weighted"}, scheme.Pooled, 1.5},
		{"riffle-families", 3, []string{"fbi", "presence"}, scheme.Pooled, 1.5},
		{"riffle-best", 3, []string{"presence-virginia", "presence"}, scheme.Best, 1.5},
		{"all-habitats-three-minutes", 1, []string{"aspt", "bmwp", "fbi", "presence", "weighted"}, scheme.Pooled, 1.5},
		{"all-habitats-three-minutes", 1, []string{"aspt", "bmwp"}, scheme.Pooled, 1},
		{"all-habitats-three-minutes", 1, []string{"aspt", "bmwp"}, scheme.Pooled, 3},
		{"all-habitats-three-minutes", 3, []string{"aspt", "bmwp"}, scheme.Pooled, 1.5},
	} {
		for _, id := range row.schemes {
			held, all := 0, 0
			for i := range streams {
				s := streamtest.Stream{Random: rand.New(rand.NewPCG(seed+11, uint64(i))), Animals: 180, Samples: row.samples,
					Patches: row.patches, Protocol: row.protocol}
				h, n := holds(r, r.grader(id), row.how, s)
				held, all = held+h, all+n
			}
			share := float64(held) / float64(all)
			t.Logf("%-27s %d samples, patches %.1f  %-18s %.3f of %d", row.protocol, row.samples, row.patches, id, share, all)
			if slack := 0.5 / float64(streams); share < 0.9-slack {
				t.Errorf("%s, %s: the interval holds the mean in %.3f of the visits", row.protocol, id, share)
			}
		}
	}
}

// holds counts in how many of some visits to a stream the interval holds the mean of
// all of them.
func holds(r *Rules, s grader, how scheme.Combine, stream streamtest.Stream) (held, of int) {
	const means, judged = 40, 6
	var values []*Spread
	mean := 0.0
	for n, v := range stream.Years("a", means) {
		a := r.Account(v)
		from := s.evidence(a)
		all := s.sort(from.rows)
		if n < judged {
			v := s.valued(how, from, all, chance.Seeded(0))
			_, samples := v.spreads(s)
			if samples == nil {
				samples = s.ofOneSample(from, v.value, 0)
			}
			values = append(values, samples)
		}
		mean += s.Number(s.combined(how, from, all).value.Steps()) / means
	}
	for _, samples := range values {
		if samples == nil {
			continue
		}
		if of++; samples.Low <= mean && mean <= samples.High {
			held++
		}
	}
	return held, of
}

package trial

import (
	"math"

	"rillkey/key"
)

// LowerBound is the least mean number of questions by which any way of asking could
// make certain of animals as common as the setup has them, of people who misread
// as it says: the bits that are open beforehand (the entropy of the prior), by the
// most bits that one answer can carry (the largest capacity of a question, seen as
// a noisy channel; Shannon 1948, A mathematical theory of communication). A name
// that need not be certain can take fewer. A question is a trait by itself; a
// couplet that combines traits carries log2 of its leads at most. Hardship is left
// out.
func LowerBound(s Setup) float64 {
	most := 0.0
	for _, t := range s.Key.Catalog().Vocabulary().Asked() {
		most = max(most, capacity(s.People.Readings(t)))
	}
	for c, l := range s.Key.Sound().Leads() {
		if len(l.Conditions) > 1 {
			most = max(most, math.Log2(float64(len(c.Leads))))
		}
	}
	return openBits(s.Key, s.Flat) / most
}

// openBits is the entropy of the prior, in bits.
func openBits(k *key.Key, flat bool) float64 {
	prior := k.Prior()
	h := 0.0
	for _, p := range prior {
		if flat {
			p = 1 / float64(len(prior))
		}
		if p > 0 {
			h -= p * math.Log2(p)
		}
	}
	return h
}

// capacity is the most bits that a reading carries of what is read, over all ways
// in which what is read may be distributed; reads[i][j] is the chance that i is
// read as j. It is found by the iteration of Blahut (1972, Computation of channel
// capacity and rate-distortion functions, IEEE Transactions on Information Theory
// 18) and Arimoto (1972, in the same volume), to within 1e-6 bits.
func capacity(reads [][]float64) float64 {
	p := make([]float64, len(reads))
	for i := range p {
		p[i] = 1 / float64(len(p))
	}
	for range 10_000 {
		sum, most := 0.0, 0.0
		for i, d := range divergences(reads, p) {
			most = max(most, d)
			p[i] *= math.Exp2(d)
			sum += p[i]
		}
		for i := range p {
			p[i] /= sum
		}
		if lower := math.Log2(sum); most-lower < 1e-6 {
			return lower
		}
	}
	return math.Log2(float64(len(reads))) // which it never exceeds
}

// divergences is, for each of what is read, how far its readings are from those of
// all, in bits.
func divergences(reads [][]float64, p []float64) []float64 {
	all := make([]float64, len(reads[0]))
	for i, row := range reads {
		for j, r := range row {
			all[j] += p[i] * r
		}
	}
	out := make([]float64, len(reads))
	for i, row := range reads {
		for j, r := range row {
			if r > 0 {
				out[i] += r * math.Log2(r/all[j])
			}
		}
	}
	return out
}

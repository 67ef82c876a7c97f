package key

import (
	"math"
	"math/bits"

	"rillkey/key/belief"
)

// sameEyes is the share of second looks that see what the first saw because the
// same eyes look at the same animal; the others are as good as a new reading
// (memory).
const sameEyes = 0.5

// addLooks adds to the log-likelihood of every kind what looking again at an
// answer says of one of its traits, beside what its present states say by
// themselves.
func (m *Model) addLooks(log []float64, g *given, part belief.Accepted) {
	t := m.traits[part.Trait]
	again := make([]float64, len(t.States)) // by true state, the chance of all other readings
	for s := range again {
		again[s] = m.looks(g, part, s)
	}
	for i := range log {
		once, all := 0.0, 0.0
		for s, share := range t.truth[i] {
			read := share * t.reads(s, part.States)
			once += read
			all += read * again[s]
		}
		log[i] += math.Log(all / once)
	}
}

// looks is the chance that an animal with the true state was read as the answer
// says at every look but one.
func (m *Model) looks(g *given, part belief.Accepted, state int) float64 {
	t := m.traits[part.Trait]
	chance := math.Pow(sameEyes+(1-sameEyes)*t.reads(state, part.States), float64(g.stood))
	for _, look := range g.earlier {
		for _, before := range m.parts(look.says) {
			if before.Trait == part.Trait {
				chance *= t.reads(state, before.States)
			}
		}
	}
	return chance
}

// reads is the chance that a true state is read as one of these, as bits.
func (t *trait) reads(state int, as uint64) float64 { return reads(t.readings[state], as) }

// reads is that by the chances of the readings.
func reads(readings []float64, as uint64) (sum float64) {
	for ; as != 0; as &= as - 1 {
		sum += readings[bits.TrailingZeros64(as)]
	}
	return sum
}

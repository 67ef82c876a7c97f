package key

import (
	"math"

	"rillkey/taxa"
)

// lengthTells is how many bits the length is expected to tell at least where it is asked
// for before a question, of which less is expected, the chance that it can be told
// considered (memory).
const lengthTells = 0.15

// lengths are those in mm that are looked at beforehand, each about a third longer
// than the one before.
var lengths = func() (out []float64) {
	for mm := 0.7; mm < 150; mm *= 1.35 {
		out = append(out, mm)
	}
	return out
}()

// LengthFirst reports whether the length is asked for now: where it would tell more of
// the animal than whatever is asked next, and at the latest where the questions are over,
// before the name, which it may speak against. It is false once a length was given or left
// open.
func (q *Inquiry) LengthFirst() bool {
	if q.Length() > 0 || q.lengthLeft || q.suppose != nil || q.stopped || len(q.given) == 0 {
		return false
	}
	next := q.Question()
	if next == nil {
		return true
	}
	bits := bitsOfLength(q)
	return !settled(q) && bits >= lengthTells && bits > worthOf(q, q.model.number(*next), heldBy(q), canBeTold(q)).hoped
}

// LeaveLength notes that the length was asked for, and whoever was asked may leave it
// open: it is not asked for again, unless what was said before that is taken back.
func (q *Inquiry) LeaveLength() { q.lengthLeft, q.leftAfter = true, len(q.given) }

// LengthLeft reports whether the length was asked for.
func (q *Inquiry) LengthLeft() bool { return q.lengthLeft }

// bitsOfLength is what a length is expected to tell of the animal, in bits. Before it
// is measured an animal of a kind is taken to be of any length from half the least, or the
// least where it grows no more, to the greatest of the kind, each alike by its logarithm.
func bitsOfLength(q *Inquiry) float64 {
	p := q.belief.P()
	fits := q.model.lengthFits()
	bits := 0.0
	for l := range lengths {
		met, sum := 0.0, 0.0
		for i, x := range p {
			if x > negligible {
				met += x * fits[i].met[l]
				sum += x * fits[i].fit[l]
			}
		}
		if met == 0 {
			continue
		}
		told := 0.0
		for i, x := range p {
			if x > negligible {
				after := x * fits[i].fit[l] / sum
				told += after * math.Log2(fits[i].fit[l]/sum)
			}
		}
		bits += met * told
	}
	return bits
}

// lengthFits are, by the length looked at, how likely it is met in a kind, and how well
// it fits.
type lengthFits struct{ met, fit []float64 }

func (m *Model) readLengthFits() []lengthFits {
	out := make([]lengthFits, len(m.kinds))
	for i := range out {
		out[i] = lengthFits{make([]float64, len(lengths)), make([]float64, len(lengths))}
	}
	for l, mm := range lengths {
		fits := m.lengthLikelihoods(mm)
		for i, kind := range m.kinds {
			out[i].fit[l] = fits[i]
			if kind == nil || !kind.Length.Known() || mm >= shortestMet(kind) && mm <= kind.Length.Max {
				out[i].met[l] = 1
			}
		}
	}
	for i := range out {
		sum := 0.0
		for _, x := range out[i].met {
			sum += x
		}
		for l := range out[i].met {
			out[i].met[l] /= max(sum, 1)
		}
	}
	return out
}

// shortestMet is the least length in mm that an animal of a kind is taken to have.
func shortestMet(kind *taxa.Taxon) float64 {
	if growsNoMore(kind) {
		return kind.Length.Min
	}
	return kind.Length.Min / 2
}

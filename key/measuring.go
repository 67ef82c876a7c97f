package key

import (
	"math"

	"rillkey/taxa"
)

// The length is asked for while it is expected to tell so many bits, and more than the
// question that would come next, the chance that it can be told considered; once the
// questions are over so many will do, or such a chance that another name or class is given
// then (memory).
const (
	lengthTells    = 0.15
	lengthTellsEnd = 0.1
	lengthDecides  = 0.1
)

// lengths are those in mm that are looked at beforehand, each about a third longer
// than the one before.
var lengths = func() (out []float64) {
	for mm := 0.7; mm < 150; mm *= 1.35 {
		out = append(out, mm)
	}
	return out
}()

// LengthFirst reports whether the length would now tell more of the animal than
// whatever is asked next, or, where the questions are over and there is no sure name,
// may tell of another one or of another class. It is false once a length was given or
// left open.
func (q *Inquiry) LengthFirst() bool {
	if q.Length() > 0 || q.lengthLeft || q.suppose != nil || q.stopped || len(q.given) == 0 || settled(q) {
		return false
	}
	bits := bitsOfLength(q)
	next := q.Question()
	if next == nil {
		return bits >= lengthTellsEnd || changedByLength(q) >= lengthDecides
	}
	return bits >= lengthTells && bits > worthOf(q, q.model.number(*next), heldBy(q), canBeTold(q)).hoped
}

// LeaveLength notes that the length was asked for, and whoever was asked may leave it
// open: it is not asked for again.
func (q *Inquiry) LeaveLength() { q.lengthLeft = true }

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

// changedByLength is the chance that with a length another name or class is given: of one
// kind that is all but sure a length tells next to nothing in bits, and may yet decide.
func changedByLength(q *Inquiry) float64 {
	p, fits := q.belief.P(), q.model.lengthFits()
	name, _ := nameBy(q, p)
	class, _ := classBy(q, p, true)
	after := make([]float64, len(p))
	changed := 0.0
	for l := range lengths {
		met, sum := 0.0, 0.0
		for i, x := range p {
			after[i] = x * fits[i].fit[l]
			met += x * fits[i].met[l]
			sum += after[i]
		}
		for i := range after {
			after[i] /= sum
		}
		named, _ := nameBy(q, after)
		if classed, _ := classBy(q, after, true); !named.same(name) || classed != class {
			changed += met
		}
	}
	return changed
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

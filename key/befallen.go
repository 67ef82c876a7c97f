package key

import (
	"math"

	"rillkey/key/harm"
	"rillkey/taxa"
)

// What befalls animals takes several traits at once, so that what is missing of each
// is no evidence of its own (memory, all of it).
const (
	// notYetShare is the share of animals too young to have what their kind has later,
	// where nobody said how long they are.
	notYetShare = 0.05
	// grownShare is the share of the least length of grown animals at which most have
	// all parts, and mostNotYet how many lack them at half of that or less.
	grownShare = 0.8
	mostNotYet = 0.9
)

// befallen is a part that animals lose together, do not have yet, or have taken for
// another part: what is seen of each of its traits then, by number.
type befallen struct {
	left  map[int]int // trait to state
	young bool
	taken []float64 // by kind, how often it is taken for another part; nil for other parts
}

// findBefallen finds the parts of package harm in the vocabulary.
func findBefallen(m *Model) {
	if m.rates.Lost == 0 {
		return // people who are told to see animals whole
	}
	add := func(parts []harm.Loss, young bool) {
		for _, part := range parts {
			if left := leftOf(m, part); len(left) > 0 {
				m.befallen = append(m.befallen, befallen{left: left, young: young})
			}
		}
	}
	add(harm.LostParts, false)
	add(harm.HalfGrown[:1], true) // wing flaps: gills and colours of the young are not as sure
	for _, part := range harm.TakenForAnother {
		if taken := takenOf(m, part); taken != nil {
			m.befallen = append(m.befallen, befallen{left: leftOf(m, part.Seen), taken: taken})
		}
	}
}

// leftOf is what is seen of a part, by number.
func leftOf(m *Model, part harm.Loss) map[int]int {
	left := map[int]int{}
	for id, state := range part {
		t, known := m.index[id]
		if !known {
			continue
		}
		if s := m.traits[t].State(state); s >= 0 {
			left[t] = s
		}
	}
	return left
}

// takenOf is, by kind, how often a part is taken for another one: as often as the table
// has it of the first trait, in kinds that show the part. It is nil for a vocabulary
// without them.
func takenOf(m *Model, part harm.Another) []float64 {
	whole, known := m.index[part.Trait]
	first, too := m.index[part.First]
	if !known || !too {
		return nil
	}
	shown, seen := m.traits[whole].State(part.State), m.traits[first].State(part.Seen[part.First])
	if shown < 0 || seen < 0 {
		return nil
	}
	taken := make([]float64, len(m.kinds))
	for i, kind := range m.kinds {
		if kind != nil && m.traits[whole].truth[i][shown] > 0.5 {
			taken[i] = m.traits[first].truth[i][seen]
		}
	}
	return taken
}

// addBefallen adds to the log-likelihood of every kind how much likelier all that was
// seen is where animals may have lost a part, or be too young for it, at a length in
// mm, 0 for unknown.
func (m *Model) addBefallen(log []float64, seen []uint64, mm float64) []float64 {
	for _, b := range m.befallen {
		touched := 0
		for t := range b.left {
			if seen[t] != 0 {
				touched++
			}
		}
		if touched == 0 || touched == 1 && !b.young {
			continue // what is lost of one trait its readings know
		}
		if log == nil {
			log = make([]float64, len(m.kinds))
		}
		for i, kind := range m.kinds {
			share := m.rates.Lost
			switch {
			case b.taken != nil:
				share = b.taken[i]
			case b.young:
				share = notYet(kind, mm)
			}
			if kind == nil || share == 0 {
				continue
			}
			log[i] += math.Log(1 - share + share*m.asBefallen(b, seen, i))
		}
	}
	return log
}

// asBefallen is how many times as likely what was seen of a part is in an animal of
// kind i that lacks it.
func (m *Model) asBefallen(b befallen, seen []uint64, i int) float64 {
	times := 1.0
	for t := range seen {
		if seen[t] == 0 {
			continue // of most
		}
		if left, of := b.left[t]; of {
			times *= m.traits[t].reads(left, seen[t]) / m.table.Likelihood(t, seen[t], i)
		}
	}
	return times
}

// notYet is the share of animals of a kind, so long in mm, that are too young for
// parts that come with length.
func notYet(kind *taxa.Taxon, mm float64) float64 {
	switch {
	case kind == nil || kind.Stage == "adult":
		return 0
	case mm == 0 || !kind.Length.Known():
		return notYetShare
	}
	grown := grownShare * kind.Length.Min
	switch {
	case mm >= grown:
		return 0
	case mm <= grown/2:
		return mostNotYet
	}
	return mostNotYet * (grown - mm) / (grown / 2)
}

package trial

import (
	"rillkey/key"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// People says who looks at the animals, and at which.
type People string

// The people.
const (
	byTable       People = ""        // animals and answers as the belief has them, at the rates of the setup
	carefulPeople People = "careful" // half the rates of the vocabulary
	usualPeople   People = "usual"   // the vocabulary's rates, and not all animals whole and grown
	hardPeople    People = "hard"    // whatever makes names wrong in a real tray
)

// allPeople are all of them that can be asked for by name.
var allPeople = []People{carefulPeople, usualPeople, hardPeople}

// Hardship is what the belief does not know of people and animals. All are shares,
// 0 to 1, and 0 of what is not so; how large they are is from memory, with no
// published figure known. Those of hard people are such that they misname about
// as many animals as the observers of an audit that was written apart from this
// package, with the same kinds of trouble.
type Hardship struct {
	// Careless is the share of people who misread three times as often as the rest
	// of the setup says; all others then misread half as often.
	Careless float64
	// Expecting is the share of animals that the person takes, before looking, for
	// one that they are often mistaken for, and sees now and then what that would
	// show.
	Expecting float64
	Damaged   float64 // share of animals that have lost all of some part
	Young     float64 // share of animals that are half grown or less
	Cells     float64 // share of what the table says, trait by trait, that is wrong
	Strangers float64 // share of animals that the key does not lead to
	Unsure    float64 // share of traits that people can't tell
}

const (
	carelessTimes = 3
	carefulTimes  = 0.5
	// expectedSeen is how often somebody who expects another animal sees what that
	// would show (memory).
	expectedSeen = 0.25
	// chimeras is the share of strangers that no catalog holds.
	chimeras = 0.2
)

// Hardship is that of the people, and factor what the vocabulary's misread rates
// are multiplied by.
func (p People) Hardship() (h Hardship, factor float64, err error) {
	switch p {
	case byTable:
		return Hardship{}, 1, nil
	case carefulPeople:
		return Hardship{Damaged: 0.05, Young: 0.05, Cells: 0.01, Strangers: 0.03, Unsure: 0.05}, carefulTimes, nil
	case usualPeople:
		return Hardship{Careless: 0.2, Expecting: 0.05, Damaged: 0.1, Young: 0.15, Cells: 0.03, Strangers: 0.05, Unsure: 0.1}, 1, nil
	case hardPeople:
		return Hardship{Careless: 0.25, Expecting: 0.08, Damaged: 0.15, Young: 0.2, Cells: 0.05, Strangers: 0.1, Unsure: 0.1}, 1, nil
	}
	names := make([]string, len(allPeople))
	for i, p := range allPeople {
		names[i] = string(p)
	}
	return Hardship{}, 0, wording.Errorf("there are no people %q; %s", string(p), plain.Nearest(string(p), names))
}

// readingsBy are the chances of readings, by trait, for people who misread so many
// times as often.
func readingsBy(traits []*taxa.Trait, rates key.Rates, factor float64) [][][]float64 {
	rates = rates.Times(factor)
	out := make([][][]float64, len(traits))
	for i, t := range traits {
		out[i] = rates.Readings(t)
	}
	return out
}

// maxMisread is how often a trait is misread at most: who is wrong more often than right
// reads nothing.
const maxMisread = 0.5

// IsHardshipShare reports whether a share of animals or of traits can be that of a
// [Hardship]: not all of them, since nothing is learned of a key that leads to no animal or
// of people who can tell nothing.
func IsHardshipShare(p float64) bool { return p >= 0 && p < 1 }

// IsMisreadRate reports whether a share of answers may be wrong.
func IsMisreadRate(p float64) bool { return p >= 0 && p <= maxMisread }

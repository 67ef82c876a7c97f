package show

import (
	"fmt"
	"strconv"

	"rillkey/taxa/wording"
)

// Sure puts a probability in words, the number beside them: "fairly sure
// (0.82)".
func Sure(p float64) string { return fmt.Sprintf("%s (%s)", sureness(p), chance(p)) }

func sureness(p float64) string {
	switch {
	case p >= 0.97:
		return wording.Text("very sure")
	case p >= 0.9:
		return wording.Text("sure")
	case p >= 0.75:
		return wording.Text("fairly sure")
	case p >= 0.5:
		return wording.Text("rather unsure")
	}
	return wording.Text("not sure")
}

// Misread puts the probability that an answer was misread in words, the number beside
// them; beside one that fits, the number would read as how well it does.
func Misread(p float64) string {
	if p < doubtful {
		return wording.Text("fits the rest")
	}
	return fmt.Sprintf("%s (%s)", misreading(p), chance(p))
}

// doubtful is how probably misread an answer must be for that to be said.
const doubtful = 0.05

func misreading(p float64) string {
	switch {
	case p >= 0.9:
		return wording.Text("almost certainly misread")
	case p >= 0.5:
		return wording.Text("probably misread")
	case p >= 0.2:
		return wording.Text("perhaps misread")
	}
	return wording.Text("a little doubtful")
}

// Likely puts the probability of something supposed in words, the number beside
// them.
func Likely(p float64) string {
	word := wording.Text("no")
	switch {
	case p >= 0.97:
		word = wording.Text("almost certainly")
	case p >= 0.9:
		word = wording.Text("very likely")
	case p >= 0.7:
		word = wording.Text("likely")
	case p >= 0.55:
		word = wording.Text("perhaps")
	case p >= 0.45:
		word = wording.Text("open")
	case p >= 0.1:
		word = wording.Text("rather not")
	case p > 0.03:
		word = wording.Text("hardly")
	}
	return fmt.Sprintf("%s (%s)", word, chance(p))
}

// enough is how probable a name or a class must be to be given; see [key.DefaultOptions].
const enough = 0.9

// notRoundedUp is a probability as it is shown to two places: what falls short of enough
// is not shown as that.
func notRoundedUp(p float64) float64 {
	if p < enough && p >= enough-0.005 {
		return enough - 0.01
	}
	return p
}

// chance is a probability to two places; none is shown as certain.
func chance(p float64) string {
	switch {
	case p > 0.99 && p < 1:
		return wording.Text("over 0.99")
	case p > 0 && p < 0.01:
		return wording.Text("under 0.01")
	}
	return wording.Decimal(strconv.FormatFloat(notRoundedUp(p), 'f', 2, 64))
}

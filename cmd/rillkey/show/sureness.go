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
		return wording.Of("very sure")
	case p >= 0.9:
		return wording.Of("sure")
	case p >= 0.75:
		return wording.Of("fairly sure")
	case p >= 0.5:
		return wording.Of("rather unsure")
	}
	return wording.Of("not sure")
}

// Misread puts the probability that an answer was misread in words, the number
// beside them.
func Misread(p float64) string { return fmt.Sprintf("%s (%s)", misreading(p), chance(p)) }

func misreading(p float64) string {
	switch {
	case p >= 0.9:
		return wording.Of("almost certainly misread")
	case p >= 0.5:
		return wording.Of("probably misread")
	case p >= 0.2:
		return wording.Of("perhaps misread")
	case p >= 0.05:
		return wording.Of("a little doubtful")
	}
	return wording.Of("fits the rest")
}

// Likely puts the probability of something supposed in words, the number beside
// them.
func Likely(p float64) string {
	word := wording.Of("no")
	switch {
	case p >= 0.97:
		word = wording.Of("almost certainly")
	case p >= 0.9:
		word = wording.Of("very likely")
	case p >= 0.7:
		word = wording.Of("likely")
	case p >= 0.55:
		word = wording.Of("perhaps")
	case p >= 0.45:
		word = wording.Of("open")
	case p >= 0.1:
		word = wording.Of("rather not")
	case p > 0.03:
		word = wording.Of("hardly")
	}
	return fmt.Sprintf("%s (%s)", word, chance(p))
}

// chance is a probability to two places; none is shown as certain.
func chance(p float64) string {
	switch {
	case p > 0.99 && p < 1:
		return wording.Of("over 0.99")
	case p > 0 && p < 0.01:
		return wording.Of("under 0.01")
	}
	return wording.Decimal(strconv.FormatFloat(p, 'f', 2, 64))
}
